//! Creating is an act of its own, and a store belongs to one process.

use std::fs;

use sprag_catalogue::{Event, Mode, OpenError, Options, Store};

use crate::support::{by_sku, content, open, open_hearing, place, publish, spacer};

#[test]
fn opening_never_creates() {
    let place = place();
    let refused = Store::open(&place.path, &Options::default(), &|_| {}).err().unwrap();
    assert!(matches!(refused, OpenError::NotAStore { .. }));
    assert!(refused.to_string().contains("found no such folder; create one with the init command"));
    assert!(!place.path.exists());
    fs::create_dir(&place.path).unwrap();
    assert!(matches!(
        Store::open(&place.path, &Options::default(), &|_| {}),
        Err(OpenError::NotAStore { .. })
    ));
    assert_eq!(fs::read_dir(&place.path).unwrap().count(), 0);
}

#[test]
fn creating_takes_an_empty_folder_and_refuses_any_other() {
    let place = place();
    fs::create_dir(&place.path).unwrap();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000)]);
    assert!(matches!(Store::create(&place.path), Err(OpenError::NotEmpty { .. })));
    store.close().unwrap();
    assert!(matches!(Store::create(&place.path), Err(OpenError::NotEmpty { .. })));
    assert_eq!(content(&open(&place.path)), by_sku(&[spacer("A", 1_000)]));
}

#[test]
fn a_second_opening_is_refused_and_harms_nothing() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000)]);
    let refused = Store::open(&place.path, &Options::default(), &|_| {}).err().unwrap();
    assert!(matches!(refused, OpenError::Busy { .. }) && refused.retryable(), "{refused}");
    publish(&store, Mode::Delta, &[spacer("B", 1_000)]);
    store.close().unwrap();
    assert_eq!(content(&open(&place.path)).len(), 2);
}

#[test]
fn dropping_closes_in_order() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000)]);
    drop(store);
    // Hears of nothing.
    assert_eq!(content(&open(&place.path)), by_sku(&[spacer("A", 1_000)]));
}

#[test]
fn a_store_of_a_later_format_is_refused() {
    let place = place();
    Store::create(&place.path).unwrap().close().unwrap();
    fs::write(place.path.join("STORE"), "sprag store, format 2\n").unwrap();
    let refused = Store::open(&place.path, &Options::default(), &|_| {}).err().unwrap();
    assert!(refused.to_string().contains("wanted a store of format 1"), "{refused}");
    assert!(refused.to_string().contains("found format 2"), "{refused}");
}

#[test]
fn a_store_that_was_not_closed_is_examined_and_nothing_is_kept_aside() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000)]);
    store.close().unwrap();
    fs::remove_file(place.path.join("CLEAN")).unwrap();
    let (store, events) = open_hearing(&place.path);
    assert_eq!(content(&store.unwrap()), by_sku(&[spacer("A", 1_000)]));
    assert!(
        matches!(events.as_slice(), [Event::Suspect { .. }, Event::Recovered { kept: None, .. }]),
        "{events:?}"
    );
    let beside = fs::read_dir(place.path.parent().unwrap()).unwrap().count();
    assert_eq!(beside, 1, "only the store is left");
}

#[test]
fn an_exchange_of_files_that_was_cut_short_is_undone() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000)]);
    store.close().unwrap();
    let beside = |suffix: &str| place.path.with_file_name(format!("catalogue{suffix}"));
    fs::remove_file(place.path.join("CLEAN")).unwrap();
    fs::create_dir_all(beside(".trial").join("data")).unwrap();
    fs::create_dir_all(beside(".suspect-4")).unwrap();
    fs::rename(place.path.join("data"), beside(".suspect-4").join("data")).unwrap();
    let (store, events) = open_hearing(&place.path);
    assert_eq!(content(&store.unwrap()), by_sku(&[spacer("A", 1_000)]));
    assert!(matches!(events.first(), Some(Event::HalfSwapUndone { .. })), "{events:?}");
}

#[test]
fn a_store_is_shared_by_threads_and_a_draft_may_move_to_another() {
    fn shared<T: Send + Sync>() {}
    fn moved<T: Send>() {}
    shared::<Store>();
    moved::<sprag_catalogue::Draft<'_>>();
}
