//! Statements, rulings, interfaces and aliases travel with the parts: through publishing, copies and history.

use sprag_catalogue::{Change, Mode, Store, records, restore};
use sprag_proto::v1 as pb;

use crate::support::{content, open, place, publication, publish, spacer, spacers};

fn alias(id: &str, key: &str) -> pb::Record {
    let alias = pb::Alias { alias_id: id.into(), key: key.into(), ..pb::Alias::default() };
    pb::Record { record: Some(pb::record::Record::Alias(alias)) }
}

fn ruling(id: &str, reason: &str) -> pb::Record {
    let ruling = pb::Ruling { ruling_id: id.into(), reason: reason.into(), ..pb::Ruling::default() };
    pb::Record { record: Some(pb::record::Record::Ruling(ruling)) }
}

fn name(record: &pb::Record) -> pb::RecordName {
    records::name_of(record).unwrap()
}

#[test]
fn records_are_published_counted_and_removed_apart_from_parts() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &spacers(3, 1_000));
    let mut draft = store.begin_publish(Mode::Delta).unwrap();
    for record in [ruling("r-1", "one"), alias("a-1", "spline-9"), ruling("r-2", "two")] {
        draft.put_record(&record).unwrap();
    }
    let published = draft.finish(publication("records")).unwrap();
    assert_eq!((published.part_count, published.added, published.changed), (3, 0, 0));
    assert_eq!((published.records.count, published.records.added), (3, 3));

    let mut draft = store.begin_publish(Mode::Delta).unwrap();
    draft.put_record(&ruling("r-1", "otherwise")).unwrap();
    draft.remove_record(&name(&ruling("r-2", ""))).unwrap();
    draft.put(&spacer("Z", 1_000)).unwrap();
    let published = draft.finish(publication("more")).unwrap();
    let records = published.records;
    assert_eq!((records.added, records.changed, records.removed, records.count), (0, 1, 1, 2));
    assert_eq!((published.added, published.part_count), (1, 4));

    // Aliases stand before rulings, each type in order of id.
    let loaded = store.load().unwrap();
    assert_eq!(loaded.records, [alias("a-1", "spline-9"), ruling("r-1", "otherwise")]);
    assert_eq!((loaded.parts.len(), loaded.revision.record_count), (4, 2));
    store.verify().unwrap();

    let mut seen = Vec::new();
    store.diff(1, 3, |key, change| seen.push((records::read_key(key), key.to_owned(), change))).unwrap();
    let found: Vec<_> = seen.iter().map(|(name, _, change)| (name.is_some(), *change)).collect();
    assert_eq!(found, [(true, Change::Added), (true, Change::Added), (false, Change::Added)]);
    assert_eq!(seen[0].0, Some(name(&alias("a-1", ""))));

    store.rollback(2, publication("back")).unwrap();
    let back = store.load().unwrap();
    assert_eq!(back.records, [alias("a-1", "spline-9"), ruling("r-1", "one"), ruling("r-2", "two")]);
    assert_eq!(back.parts.len(), 3);
}

#[test]
fn copies_and_pruning_keep_records() {
    let (place, other) = (place(), place());
    let store = Store::create(&place.path).unwrap();
    for number in 0..4 {
        let mut draft = store.begin_publish(Mode::Delta).unwrap();
        draft.put(&spacer("A", 1_000 + number)).unwrap();
        draft.put_record(&ruling("r-1", &format!("version {number}"))).unwrap();
        draft.put_record(&alias(&format!("a-{number}"), "spline-9")).unwrap();
        draft.finish(publication("step")).unwrap();
    }
    let checkpoint = store.checkpoint().unwrap();
    let summary = restore(&checkpoint.path, &other.path).unwrap();
    assert_eq!((summary.revision, summary.part_count), (4, 1));
    let restored = open(&other.path);
    assert_eq!(restored.load().unwrap(), store.load().unwrap());
    assert_eq!(restored.load().unwrap().records.len(), 5);
    restored.verify().unwrap();

    assert_eq!(store.prune(1).unwrap().revisions, 4);
    let kept = store.load().unwrap();
    assert_eq!((kept.records, content(&store)), (restored.load().unwrap().records, content(&restored)));
    drop(store);
    assert_eq!(open(&place.path).load().unwrap().records.len(), 5);
}

#[test]
fn a_record_without_a_name_or_with_a_control_character_is_refused() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let mut draft = store.begin_publish(Mode::Delta).unwrap();
    for refused in [pb::Record::default(), alias("", "k"), alias("a\u{0}b", "k"), alias("a\nb", "k")] {
        assert!(draft.put_record(&refused).is_err(), "{refused:?}");
    }
    assert!(draft.remove_record(&pb::RecordName::default()).is_err());
}
