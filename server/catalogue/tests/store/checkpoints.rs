//! Copies that verify themselves, and coming back from them.

use std::fs;

use sprag_catalogue::{Event, Mode, Money, OpenError, Publication, RequestId, ShelfEntry, Store, restore};

use crate::support::{by_sku, content, open, open_hearing, place, publication, publish, spacer, spacers};

fn stock(sku: &str, stock: u64) -> ShelfEntry {
    let price = Some(Money { currency_code: "EUR".into(), minor_units: 150 });
    ShelfEntry { sku: sku.into(), price, stock: Some(stock) }
}

#[test]
fn a_restored_store_is_equal_in_parts_shelf_requests_and_numbers() {
    let (place, other) = (place(), place());
    let store = Store::create(&place.path).unwrap();
    let request = RequestId { id: "import-1".into(), content: [3; 32] };
    let mut draft = store.begin_publish(Mode::Full).unwrap();
    spacers(612, 1_850).iter().for_each(|part| draft.put(part).unwrap());
    let published =
        draft.finish(Publication { request: Some(request.clone()), ..publication("first") }).unwrap();
    publish(&store, Mode::Delta, &[spacer("Z", 1_000)]);
    store.update_shelf(&[stock("SP-00001", 5)]).unwrap();
    let checkpoint = store.checkpoint().unwrap();
    assert_eq!((checkpoint.revision, checkpoint.part_count, checkpoint.shelf_sequence), (2, 613, 1));
    let summary = restore(&checkpoint.path, &other.path).unwrap();
    assert_eq!((summary.revision, summary.part_count, summary.shelf_entries), (2, 613, 1));
    let restored = open(&other.path);
    assert_eq!(content(&restored), content(&store));
    assert_eq!(restored.load_shelf().unwrap(), store.load_shelf().unwrap());
    assert_eq!(restored.head().unwrap(), store.head().unwrap());
    assert_eq!(restored.request("import-1").unwrap(), Some((request, published)));
    assert_eq!(publish(&restored, Mode::Delta, &[spacer("A", 1)]).revision, 3);
    assert!(matches!(restore(&checkpoint.path, &other.path), Err(OpenError::NotEmpty { .. })));
}

#[test]
fn the_newest_three_are_kept() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let written: Vec<_> = (0..5).map(|_| store.checkpoint().unwrap().path).collect();
    let there: Vec<_> = written.iter().map(|path| path.exists()).collect();
    assert_eq!(there, [false, false, true, true, true]);
    assert!(store.backup(&written[4]).is_err(), "a backup never writes over a file");
}

#[test]
fn every_flipped_byte_and_every_cut_of_a_checkpoint_is_found() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000), spacer("B", 1_000)]);
    let checkpoint = store.checkpoint().unwrap().path;
    let whole = fs::read(&checkpoint).unwrap();
    let damaged = checkpoint.with_file_name("damaged");
    let target = place.path.with_file_name("target");
    for position in (0..whole.len()).step_by(7) {
        let mut bytes = whole.clone();
        bytes[position] ^= 0x10;
        fs::write(&damaged, &bytes).unwrap();
        assert!(restore(&damaged, &target).is_err(), "byte {position}");
        fs::write(&damaged, &whole[..position]).unwrap();
        assert!(restore(&damaged, &target).is_err(), "cut to {position}");
        assert!(!target.exists());
    }
}

#[test]
fn a_damaged_store_comes_back_from_the_newest_good_checkpoint_and_says_what_is_lost() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &spacers(50, 1_000));
    store.update_shelf(&[stock("SP-00001", 5)]).unwrap();
    store.checkpoint().unwrap();
    publish(&store, Mode::Full, &spacers(60, 1_000));
    let newest = store.checkpoint().unwrap().path;
    publish(&store, Mode::Full, &spacers(70, 1_000));
    store.update_shelf(&[stock("SP-00001", 4)]).unwrap();
    store.close().unwrap();
    // The newest checkpoint is bad too.
    let bytes = fs::read(&newest).unwrap();
    fs::write(&newest, &bytes[..bytes.len() / 2]).unwrap();
    fs::write(place.path.join("data").join("db"), b"").unwrap();
    let (store, events) = open_hearing(&place.path);
    let store = store.unwrap();
    assert_eq!(content(&store), by_sku(&spacers(50, 1_000)));
    assert!(
        events.iter().any(|event| matches!(event, Event::CheckpointRefused { path, .. } if *path == newest))
    );
    let kept = events.iter().find_map(|event| match event {
        Event::Recovered { kept, .. } => kept.clone(),
        _ => None,
    });
    assert!(kept.unwrap().join("data").join("db").exists(), "the files as found are kept");
    let lost = Event::ChangesLost {
        acknowledged_revision: 3,
        revision: 1,
        acknowledged_shelf: 2,
        shelf_sequence: 1,
    };
    assert_eq!(events.last(), Some(&lost));
    // Numbers that callers have seen are not given to another content.
    assert_eq!(store.load_shelf().unwrap().sequence, 3);
    assert_eq!(publish(&store, Mode::Delta, &[spacer("A", 1)]).revision, 4);
    store.close().unwrap();
    open(&place.path).verify().unwrap();
}

/// A checkpoint of format 1 as the first version wrote it: two spacers, one shelf entry, one request.
const FORMAT_1: &[u8] = include_bytes!("format-1.checkpoint");

#[test]
fn a_checkpoint_of_the_first_format_still_opens() {
    let place = place();
    let file = place.path.with_file_name("old");
    fs::write(&file, FORMAT_1).unwrap();
    let summary = restore(&file, &place.path).unwrap();
    assert_eq!((summary.revision, summary.part_count, summary.shelf_sequence), (1, 2, 1));
    // Also computed by a script of a few lines in another language, from the formula in the documentation.
    assert_eq!(summary.digest, "cbc35a57eead218700386e7cac9d64c0f82376a1e1ce4d4fd4c9ebcdd5e8b74c");
    let store = open(&place.path);
    assert_eq!(content(&store).into_keys().collect::<Vec<_>>(), ["A", "B"]);
    assert_eq!(store.load_shelf().unwrap().entries, [stock("A", 5)]);
    assert_eq!(store.request("import-1").unwrap().unwrap().1.revision, 1);
}
