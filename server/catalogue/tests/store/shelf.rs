//! Price and stock: durable, atomic, merged, with a sequence of their own.

use std::collections::BTreeSet;
use std::sync::Mutex;
use std::thread;

use sprag_catalogue::{Mode, Money, ShelfEntry, Store, WriteError};

use crate::support::{open, place, publish, spacer};

fn entry(sku: &str, price: Option<i64>, stock: Option<u64>) -> ShelfEntry {
    let price = price.map(|minor_units| Money { currency_code: "EUR".into(), minor_units });
    ShelfEntry { sku: sku.into(), price, stock }
}

#[test]
fn what_is_not_set_stays_as_it_was_and_all_of_it_outlives_the_process() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    assert_eq!(store.update_shelf(&[entry("B", Some(250), Some(4)), entry("A", None, Some(1))]).unwrap(), 1);
    assert_eq!(store.update_shelf(&[entry("B", None, Some(3)), entry("A", Some(99), None)]).unwrap(), 2);
    let wanted = vec![entry("A", Some(99), Some(1)), entry("B", Some(250), Some(3))];
    let shelf = store.load_shelf().unwrap();
    assert_eq!((shelf.sequence, &shelf.entries), (2, &wanted));
    // A publication does not touch it.
    publish(&store, Mode::Full, &[spacer("A", 1_000)]);
    store.close().unwrap();
    let store = open(&place.path);
    let shelf = store.load_shelf().unwrap();
    assert_eq!((shelf.sequence, &shelf.entries), (2, &wanted));
    assert_eq!(store.update_shelf(&[entry("A", None, Some(0))]).unwrap(), 3);
}

#[test]
fn one_bad_entry_refuses_the_whole_update() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let mut bad = entry("B", Some(1), None);
    bad.price.as_mut().unwrap().currency_code = "euro".into();
    let refused = store.update_shelf(&[entry("A", Some(1), Some(1)), bad]).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "shelf entry B: wanted a currency of three capital letters, found \"euro\""
    );
    assert!(matches!(store.update_shelf(&[entry("A", Some(-1), None)]), Err(WriteError::ShelfEntry { .. })));
    let shelf = store.load_shelf().unwrap();
    assert_eq!((shelf.sequence, shelf.entries.len()), (0, 0));
}

#[test]
fn updates_from_several_threads_each_get_a_number_and_none_is_lost() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let numbers = Mutex::new(BTreeSet::new());
    thread::scope(|scope| {
        for worker in 0..4 {
            let (store, numbers) = (&store, &numbers);
            scope.spawn(move || {
                for turn in 0..10 {
                    let number =
                        store.update_shelf(&[entry(&format!("{worker}"), None, Some(turn))]).unwrap();
                    assert!(numbers.lock().unwrap().insert(number));
                }
            });
        }
    });
    assert_eq!(numbers.into_inner().unwrap(), (1..=40).collect());
    let shelf = store.load_shelf().unwrap();
    assert_eq!(shelf.sequence, 40);
    assert!(shelf.entries.iter().all(|entry| entry.stock == Some(9)));
    store.verify().unwrap();
}
