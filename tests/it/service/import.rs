//! Imports: all rows or none, every fault with its place, and nothing of a file that did not arrive whole.

use std::time::Duration;

use serde_json::{Value as Json, json};
use sprag_proto::v1 as pb;
use sprag_proto::v1::catalogue_service_client::CatalogueServiceClient;
use tonic::Code;

use super::bench::{Bench, added, chunk, csv, head, ndjson, told, whole};
use super::shop::rows;

fn chain(sku: &str) -> Json {
    json!({"sku": sku, "chain": {"chain_speed": 9}})
}

fn report(answer: &pb::ImportPartsResponse) -> &pb::ImportReport {
    answer.report.as_ref().expect("a report")
}

fn errors(answer: &pb::ImportPartsResponse) -> Vec<&pb::ImportFault> {
    report(answer).faults.iter().filter(|fault| fault.severity() == pb::Severity::Error).collect()
}

/// 10 000 rows under a header.
fn large_csv(bad_row: Option<usize>) -> String {
    let mut text = String::from("sku,kind,name,chain_speed,price,currency,stock\n");
    for number in 1..=10_000 {
        let speed = if bad_row == Some(number) { "nine-ish" } else { "9" };
        text.push_str(&format!("B-{number:05},chain,Bulk chain,{speed},18.90,EUR,3\n"));
    }
    text
}

#[tokio::test(flavor = "multi_thread")]
async fn one_bad_row_of_ten_thousand_leaves_the_catalogue_as_it_was() {
    let bench = Bench::stocked(&rows()).await;
    let (before, parts) = (bench.revision().await, bench.export().await);
    let header = pb::ImportHeader { file_name: "bulk.csv".into(), ..csv() };
    let answer = bench.import(header.clone(), &large_csv(Some(7_000))).await;
    assert!(!answer.published);
    assert_eq!(
        (report(&answer).rows_read, report(&answer).rows_good, report(&answer).rows_bad),
        (10_000, 9_999, 1)
    );
    let [fault] = errors(&answer)[..] else { panic!("{:#?}", report(&answer).faults) };
    // The header is line 1.
    assert_eq!((fault.row, fault.column.as_str(), fault.sku.as_str()), (7_001, "chain_speed", "B-07000"));
    assert!(fault.value.contains("nine-ish") && !fault.text.is_empty(), "{fault:?}");
    assert_eq!((bench.revision().await, bench.export().await), (before.clone(), parts));

    let skipped =
        bench.import(pb::ImportHeader { skip_bad_rows: true, ..header }, &large_csv(Some(7_000))).await;
    assert!(skipped.published);
    assert_eq!((report(&skipped).parts_added, report(&skipped).rows_bad), (9_999, 1));
    let after = bench.revision().await;
    assert_eq!((after.revision, after.part_count), (before.revision + 1, before.part_count + 9_999));
}

#[tokio::test(flavor = "multi_thread")]
async fn every_fault_of_a_file_is_told_with_its_place_and_the_nearest_spelling() {
    let bench = Bench::empty().await;
    let text = [
        json!({"sku": "A-1", "cassette": {"largst_cog": 32}}).to_string(),
        "{\"sku\": \"A-2\", \"chain\"".to_owned(),
        json!({"sku": "A-3", "cassette": {"mount_family": "splin-9"}}).to_string(),
        json!({"sku": "A-4", "cassette": {"cogs": [13, 11, 15]}}).to_string(),
        json!({"sku": "A-5", "casette": {}}).to_string(),
        json!({"sku": "A-6", "cassette": {"cog_count": "21-speed"}}).to_string(),
        json!({"sku": "A-7", "gtins": ["6291041500214"], "chain": {}}).to_string(),
        json!({"sku": "A-8\u{7}", "chain": {"chain_speed": 9}}).to_string(),
        json!({"sku": "", "chain": {"chain_speed": 9}}).to_string(),
        "[1, 2]".to_owned(),
    ]
    .join("\n");
    let answer = bench.import(added(), &text).await;
    assert!(!answer.published);
    let told: Vec<(i64, &str)> =
        errors(&answer).iter().map(|fault| (fault.row, fault.column.as_str())).collect();
    let rows: Vec<i64> = told.iter().map(|(row, _)| *row).collect();
    assert_eq!(rows, (1..=10).collect::<Vec<i64>>(), "{:#?}", report(&answer).faults);
    let near = |row: i64| errors(&answer)[usize::try_from(row - 1).expect("small")].nearest.clone();
    assert_eq!((near(1), near(3), near(5)), ("largest_cog".into(), "spline-9".into(), "cassette".into()));
    assert_eq!(bench.revision().await.revision, 0);
}

#[tokio::test(flavor = "multi_thread")]
async fn columns_of_a_table_are_checked_before_its_rows() {
    let bench = Bench::empty().await;
    let answer = bench.import(csv(), "sku,kind,chain_sped\nA-1,chain,9\n").await;
    assert!(!answer.published);
    let [fault] = errors(&answer)[..] else { panic!("{answer:#?}") };
    assert_eq!((fault.row, fault.column.as_str(), fault.nearest.as_str()), (1, "chain_sped", "chain_speed"));
    let ragged = bench.import(csv(), "sku,kind,chain_speed\nA-1,chain,9\nA-2,chain\n").await;
    assert_eq!(errors(&ragged).iter().map(|fault| fault.row).collect::<Vec<_>>(), [3]);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_number_stands_for_one_part() {
    let bench = Bench::empty().await;
    let twice = bench.import(added(), &ndjson(&[chain("A-1"), chain("A-2"), chain("A-1")])).await;
    let [fault] = errors(&twice)[..] else { panic!("{twice:#?}") };
    assert_eq!((fault.row, fault.column.as_str()), (3, "sku"));
    assert!(fault.value.contains("row 1"), "{fault:?}");

    let gtin = |sku: &str| json!({"sku": sku, "gtins": ["6291041500213"], "chain": {"chain_speed": 9}});
    let shared = bench.import(added(), &ndjson(&[gtin("A-1"), gtin("A-2")])).await;
    assert!(!shared.published);
    assert!(
        errors(&shared).iter().any(|fault| fault.value.contains("A-1") && fault.value.contains("A-2")),
        "{shared:#?}"
    );
    assert!(bench.import(added(), &ndjson(&[gtin("A-1")])).await.published);
    let later = bench.import(added(), &ndjson(&[gtin("A-2")])).await;
    assert!(!later.published && !errors(&later).is_empty(), "{later:#?}");
    assert_eq!(bench.revision().await.revision, 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_delta_adds_and_a_full_file_replaces() {
    let bench = Bench::empty().await;
    bench.import(added(), &ndjson(&[chain("A-1"), chain("A-2")])).await;
    let changed = json!({"sku": "A-2", "chain": {"chain_speed": 10}});
    let delta = bench.import(added(), &ndjson(&[changed.clone(), chain("A-3")])).await;
    let counts = |answer: &pb::ImportPartsResponse| {
        let report = report(answer);
        (report.parts_added, report.parts_changed, report.parts_removed)
    };
    assert_eq!(counts(&delta), (1, 1, 0));
    assert_eq!(bench.revision().await.part_count, 3);
    let full = bench.import(whole(), &ndjson(&[changed, chain("A-4")])).await;
    assert_eq!(counts(&full), (1, 0, 2));
    let export = bench.export().await;
    let skus: Vec<&str> = export.lines().map(|line| line.split('"').nth(5).expect("a SKU")).collect();
    assert_eq!(skus, ["A-2", "A-4"], "{export}");
}

#[tokio::test(flavor = "multi_thread")]
async fn an_empty_file_never_empties_the_catalogue() {
    let bench = Bench::stocked(&rows()).await;
    let before = bench.revision().await;
    for (header, text) in [(whole(), ""), (whole(), "\n\n"), (csv(), "")] {
        let header = pb::ImportHeader { mode: pb::ImportMode::Full.into(), skip_bad_rows: true, ..header };
        let answer = bench.import(header, text).await;
        assert!(!answer.published && !errors(&answer).is_empty(), "{answer:?}");
    }
    assert_eq!(bench.revision().await, before);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_trial_publishes_nothing() {
    let bench = Bench::stocked(&rows()).await;
    let before = (bench.revision().await, bench.export().await);
    let header = pb::ImportHeader { validate_only: true, ..whole() };
    let answer = bench.import(header, &ndjson(&[chain("A-1")])).await;
    assert!(!answer.published);
    assert_eq!((report(&answer).parts_added, report(&answer).parts_removed), (1, 24));
    assert_eq!((bench.revision().await, bench.export().await), before);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_repeated_request_publishes_once() {
    let bench = Bench::empty().await;
    let header = pb::ImportHeader { request_id: "delivery 7".into(), ..added() };
    let first = bench.import(header.clone(), &ndjson(&[chain("A-1")])).await;
    let again = bench.import(header.clone(), &ndjson(&[chain("A-1")])).await;
    assert_eq!(first, again);
    assert_eq!(bench.revision().await.revision, 1);
    let mut keeping = bench.keeping().await;
    let other = super::bench::pieces(header, &ndjson(&[chain("A-2")]));
    let refused = told(&keeping.import_parts(other).await.expect_err("the id came with another file"));
    assert_eq!(refused.code, Code::AlreadyExists, "{refused:?}");
    assert!(refused.message.contains("delivery 7"), "{refused:?}");
    assert_eq!(bench.revision().await.revision, 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_file_that_breaks_off_is_not_published() {
    let bench = Bench::stocked(&rows()).await;
    let before = (bench.revision().await, bench.export().await);
    // Whole lines have arrived, more than have been read yet; the mode would remove everything else; and then the
    // caller dies with its connection.
    let caller = tokio::runtime::Runtime::new().expect("a runtime");
    let (sender, receiver) = tokio::sync::mpsc::channel(4);
    let address = bench.address.clone();
    caller.spawn(async move {
        let mut keeping = CatalogueServiceClient::new(super::bench::channel(&address).await);
        keeping.import_parts(tokio_stream::wrappers::ReceiverStream::new(receiver)).await
    });
    sender.send(head(pb::ImportHeader { mode: pb::ImportMode::Full.into(), ..csv() })).await.expect("sent");
    for lines in large_csv(None).as_bytes().chunks(16 << 10) {
        sender.send(chunk(lines)).await.expect("sent");
    }
    caller.shutdown_background();
    drop(sender);
    // The next import waits for the broken one to end, and finds nothing of it.
    let next = async {
        loop {
            let mut keeping = bench.keeping().await;
            let trial = pb::ImportHeader { validate_only: true, ..added() };
            match keeping.import_parts(super::bench::pieces(trial, &ndjson(&[chain("A-2")]))).await {
                Ok(answer) => return answer.into_inner(),
                Err(busy) => assert_eq!(told(&busy).code, Code::Unavailable, "{busy:?}"),
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    };
    assert!(!tokio::time::timeout(super::bench::PATIENCE, next).await.expect("it ends").published);
    assert_eq!((bench.revision().await, bench.export().await), before);
    // Nor does it stand in the way of the next one.
    assert!(bench.import(added(), &ndjson(&[chain("A-2")])).await.published);
}

#[tokio::test(flavor = "multi_thread")]
async fn pieces_out_of_order_are_refused() {
    let bench = Bench::empty().await;
    let mut keeping = bench.keeping().await;
    let row = ndjson(&[chain("A-1")]);
    let wrong = [
        vec![],
        vec![chunk(row.as_bytes())],
        vec![head(added()), chunk(row.as_bytes()), head(added())],
        vec![head(added()), pb::ImportPartsRequest { piece: None }],
    ];
    for pieces in wrong {
        let refused = keeping.import_parts(tokio_stream::iter(pieces.clone())).await;
        let refused = told(&refused.expect_err("out of order"));
        assert_eq!(refused.code, Code::InvalidArgument, "{pieces:?}: {refused:?}");
    }
    for header in [
        pb::ImportHeader { format: 0, ..added() },
        pb::ImportHeader { format: 99, ..added() },
        pb::ImportHeader { mode: 99, ..added() },
    ] {
        let refused = keeping.import_parts(super::bench::pieces(header, &row)).await;
        let refused = told(&refused.expect_err("no such format or mode"));
        assert_eq!(refused.code, Code::InvalidArgument);
        assert!(refused.faults[0].0.starts_with("header."), "{refused:?}");
    }
    assert_eq!(bench.revision().await.revision, 0);
}

#[tokio::test(flavor = "multi_thread")]
async fn an_export_imports_to_the_same_catalogue() {
    let bench = Bench::stocked(&rows()).await;
    let export = bench.export().await;
    let other = Bench::empty().await;
    assert!(other.import(whole(), &export).await.published);
    let (here, there) = (bench.revision().await, other.revision().await);
    assert_eq!((here.digest, here.part_count), (there.digest, there.part_count));
    assert_eq!(other.export().await, export);
}
