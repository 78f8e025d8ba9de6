//! Drafts, previews, one GTIN one part, and requests that are repeated.

use sprag_catalogue::{Mode, Publication, RequestId, Store, WriteError};

use crate::support::{by_sku, content, open, place, publication, publish, spacer, spacers, with_gtin};

#[test]
fn a_new_store_is_revision_0_and_empty() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let loaded = store.load().unwrap();
    assert_eq!((loaded.revision.number, loaded.revision.part_count, loaded.revision.digest), (0, 0, [0; 32]));
    assert!(loaded.parts.is_empty());
}

#[test]
fn published_parts_come_back_after_closing_and_opening() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    // More than two batches, put in another order than that of the keys.
    let mut parts = spacers(1_203, 1_850);
    parts.reverse();
    let published = publish(&store, Mode::Full, &parts);
    assert_eq!((published.revision, published.part_count, published.added), (1, 1_203, 1_203));
    assert_eq!(content(&store), by_sku(&parts));
    store.close().unwrap();
    let store = open(&place.path);
    assert_eq!(content(&store), by_sku(&parts));
    assert_eq!(store.head().unwrap().digest, published.digest);
}

#[test]
fn a_delta_keeps_what_it_does_not_name_and_a_full_one_removes_it() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000), spacer("B", 1_000), spacer("C", 1_000)]);
    let mut draft = store.begin_publish(Mode::Delta).unwrap();
    draft.put(&spacer("B", 2_000)).unwrap();
    draft.put(&spacer("C", 1_000)).unwrap();
    draft.put(&spacer("D", 1_000)).unwrap();
    draft.remove("A").unwrap();
    let preview = draft.preview().unwrap();
    let published = draft.finish(publication("delta")).unwrap();
    assert_eq!((preview.added, preview.changed, preview.removed, preview.part_count), (1, 1, 1, 3));
    assert_eq!((published.added, published.changed, published.removed, published.part_count), (1, 1, 1, 3));
    assert_eq!(preview.digest, published.digest);
    assert_eq!(content(&store), by_sku(&[spacer("B", 2_000), spacer("C", 1_000), spacer("D", 1_000)]));
    let published = publish(&store, Mode::Full, &[spacer("C", 1_000)]);
    assert_eq!((published.added, published.changed, published.removed, published.part_count), (0, 0, 2, 1));
    assert_eq!(content(&store), by_sku(&[spacer("C", 1_000)]));
}

#[test]
fn equal_content_has_an_equal_digest_whatever_its_history() {
    let (one, other) = (place(), place());
    let (one, other) = (Store::create(&one.path).unwrap(), Store::create(&other.path).unwrap());
    publish(&one, Mode::Delta, &[spacer("A", 1_000)]);
    publish(&one, Mode::Delta, &[spacer("B", 1_000)]);
    let one = publish(&one, Mode::Delta, &[spacer("A", 2_000)]);
    let other = publish(&other, Mode::Full, &[spacer("B", 1_000), spacer("A", 2_000)]);
    assert_eq!(one.digest, other.digest);
}

#[test]
fn an_abandoned_draft_leaves_nothing() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &[spacer("A", 1_000)]);
    let before = store.verify().unwrap();
    let mut draft = store.begin_publish(Mode::Full).unwrap();
    spacers(700, 1_850).iter().for_each(|part| draft.put(part).unwrap());
    assert_eq!(draft.preview().unwrap().added, 700);
    assert_eq!(content(&store), by_sku(&[spacer("A", 1_000)]));
    drop(draft);
    assert_eq!(store.verify().unwrap(), before);
    assert_eq!(store.prune(9).unwrap().rows, 0, "the rows of the draft went with it");
    assert_eq!(publish(&store, Mode::Delta, &[spacer("B", 1_000)]).revision, 2);
}

#[test]
fn one_change_at_a_time() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let draft = store.begin_publish(Mode::Full).unwrap();
    let refused = store.begin_publish(Mode::Full).err().unwrap();
    assert!(matches!(refused, WriteError::AlreadyChanging) && refused.retryable());
    drop(draft);
    assert!(store.begin_publish(Mode::Full).is_ok());
}

#[test]
fn one_gtin_names_one_part_also_across_revisions_and_lengths() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    // 12345670 is a valid GTIN-8; as 14 digits it has six zeros before it.
    publish(&store, Mode::Full, &[with_gtin(spacer("A", 1_000), "12345670"), spacer("B", 1_000)]);
    let mut draft = store.begin_publish(Mode::Delta).unwrap();
    draft.put(&with_gtin(spacer("B", 1_000), "00000012345670")).unwrap();
    let refused = draft.finish(publication("twice")).unwrap_err();
    assert_eq!(refused.to_string(), "wanted one part per GTIN, found 00000012345670 on A and B");
    assert_eq!(store.head().unwrap().number, 1);
    // It may move from one part to another in one publication.
    let moved = [spacer("A", 1_000), with_gtin(spacer("B", 1_000), "00000012345670")];
    assert_eq!(publish(&store, Mode::Delta, &moved).changed, 2);
}

#[test]
fn what_cannot_be_stored_is_refused_with_wanted_and_found() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let mut draft = store.begin_publish(Mode::Full).unwrap();
    let text = |part: &sprag_proto::v1::Part, draft: &mut sprag_catalogue::Draft<'_>| {
        draft.put(part).unwrap_err().to_string()
    };
    assert_eq!(text(&spacer("", 1), &mut draft), "wanted a stock number of 1 to 200 bytes, found 0 bytes");
    let long = "x".repeat(201);
    assert_eq!(
        text(&spacer(&long, 1), &mut draft),
        "wanted a stock number of 1 to 200 bytes, found 201 bytes"
    );
    assert_eq!(
        text(&spacer("A\u{0}B", 1), &mut draft),
        "stock number \"A\\0B\": wanted no control characters, found some"
    );
    let gtin = with_gtin(spacer("A", 1), "1234567x");
    assert_eq!(
        text(&gtin, &mut draft),
        "part A: wanted a GTIN of 8, 12, 13 or 14 digits, found \"1234567x\""
    );
    let mut large = spacer("A", 1);
    large.name = "x".repeat(300_000);
    assert!(matches!(draft.put(&large), Err(WriteError::TooLarge { .. })));
    // The draft goes on without them.
    assert_eq!(draft.preview().unwrap().part_count, 0);
}

#[test]
fn a_repeated_request_publishes_once_and_the_last_thousand_are_known() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    let request = |number: usize| RequestId { id: format!("request-{number}"), content: [7; 32] };
    let publish = |number: usize, thickness: i64| {
        let mut draft = store.begin_publish(Mode::Delta).unwrap();
        draft.put(&spacer("A", thickness)).unwrap();
        draft.finish(Publication { request: Some(request(number)), ..publication("request") })
    };
    let first = publish(0, 1_000).unwrap();
    assert_eq!(publish(0, 2_000).unwrap(), first);
    assert_eq!(content(&store), by_sku(&[spacer("A", 1_000)]));
    assert_eq!(store.request("request-0").unwrap(), Some((request(0), first)));
    let draft = store.begin_publish(Mode::Delta).unwrap();
    let other = RequestId { content: [8; 32], ..request(0) };
    let refused = draft.finish(Publication { request: Some(other), ..publication("other") });
    assert!(matches!(refused, Err(WriteError::RequestReused { .. })));
}
