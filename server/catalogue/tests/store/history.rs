//! Older revisions: read, compared, gone back to, pruned.

use sprag_catalogue::{Change, Mode, ReadError, Store};

use crate::support::{by_sku, content, open, place, publication, publish, spacer};

fn three_revisions(store: &Store) {
    publish(store, Mode::Full, &[spacer("A", 1_000), spacer("B", 1_000)]);
    publish(store, Mode::Delta, &[spacer("B", 2_000), spacer("C", 1_000)]);
    let mut draft = store.begin_publish(Mode::Delta).unwrap();
    draft.remove("A").unwrap();
    draft.finish(publication("removed")).unwrap();
}

#[test]
fn each_revision_reads_as_it_was_published() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    three_revisions(&store);
    let numbers: Vec<_> = store.revisions().unwrap().iter().map(|revision| revision.number).collect();
    assert_eq!(numbers, [0, 1, 2, 3]);
    let at = |revision| store.load_revision(revision).unwrap().parts.into_iter().collect();
    assert_eq!(by_sku(&[spacer("A", 1_000), spacer("B", 1_000)]), at(1));
    assert_eq!(by_sku(&[spacer("A", 1_000), spacer("B", 2_000), spacer("C", 1_000)]), at(2));
    assert_eq!(by_sku(&[spacer("B", 2_000), spacer("C", 1_000)]), at(3));
    let mut changes = Vec::new();
    store.diff(1, 3, |sku, change| changes.push((sku.to_owned(), change))).unwrap();
    let wanted = [("A", Change::Removed), ("B", Change::Changed), ("C", Change::Added)];
    assert_eq!(changes, wanted.map(|(sku, change)| (sku.to_owned(), change)));
    let missing = store.load_revision(9).unwrap_err();
    assert!(matches!(missing, ReadError::NoSuchRevision { wanted: 9, oldest: 0, newest: 3 }), "{missing}");
}

#[test]
fn going_back_publishes_the_old_content_anew() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    three_revisions(&store);
    let back = store.rollback(1, publication("as before")).unwrap();
    assert_eq!((back.revision, back.added, back.changed, back.removed), (4, 1, 1, 1));
    let revisions = store.revisions().unwrap();
    assert_eq!(revisions[1].digest, back.digest);
    assert_eq!(revisions[4].note, "as before");
    assert_eq!(content(&store), by_sku(&[spacer("A", 1_000), spacer("B", 1_000)]));
    assert!(store.rollback(77, publication("no")).is_err());
    assert_eq!(store.head().unwrap().number, 4);
}

#[test]
fn pruning_keeps_the_newest_as_they_were_and_removes_rows_that_nothing_names() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    three_revisions(&store);
    publish(&store, Mode::Delta, &[spacer("D", 1_000)]);
    let before: Vec<_> = (3..=4).map(|revision| store.load_revision(revision).unwrap()).collect();
    let pruned = store.prune(2).unwrap();
    // The rows of A and of the first B: the only ones that revisions 3 and 4 do not have.
    assert_eq!((pruned.revisions, pruned.rows), (3, 2));
    let after: Vec<_> = (3..=4).map(|revision| store.load_revision(revision).unwrap()).collect();
    assert_eq!(before, after);
    let missing = store.load_revision(2).unwrap_err();
    assert!(matches!(missing, ReadError::NoSuchRevision { wanted: 2, oldest: 3, newest: 4 }), "{missing}");
    assert!(store.verify().unwrap().history_faults.is_empty());
    publish(&store, Mode::Delta, &[spacer("A", 1_000)]);
    store.close().unwrap();
    let store = open(&place.path);
    assert_eq!(content(&store).len(), 4);
    assert_eq!(store.prune(2).unwrap().revisions, 1);
    store.verify().unwrap();
}

#[test]
fn a_long_history_of_deltas_reads_right_at_every_revision() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    // One of the deltas must become a base on the way: see that the removed part does not come back with it.
    publish(&store, Mode::Full, &[spacer("A", 1), spacer("Z", 1)]);
    let mut draft = store.begin_publish(Mode::Delta).unwrap();
    draft.remove("Z").unwrap();
    draft.finish(publication("removed")).unwrap();
    for thickness in 3..=120 {
        let number =
            publish(&store, Mode::Delta, &[spacer(&format!("S{}", thickness % 7), thickness)]).revision;
        assert_eq!(number, u64::try_from(thickness).unwrap());
    }
    for revision in [3_u64, 50, 51, 52, 53, 101, 102, 103, 120] {
        let loaded = store.load_revision(revision).unwrap();
        let newest = i64::try_from(revision).unwrap();
        let mut wanted: Vec<_> = (3..=newest)
            .rev()
            .take(7)
            .map(|thickness| spacer(&format!("S{}", thickness % 7), thickness))
            .collect();
        wanted.push(spacer("A", 1));
        assert_eq!(loaded.parts.into_iter().collect::<std::collections::BTreeMap<_, _>>(), by_sku(&wanted));
    }
    assert!(store.verify().unwrap().history_faults.is_empty());
}
