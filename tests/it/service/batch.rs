//! Many questions at once: each item answers for itself.

use prost::Message;
use serde_json::json;
use sprag_proto::v1::{self as pb, Verdict, batch_check_result::Result as Outcome};
use tokio_stream::StreamExt;
use tonic::Code;
use tonic_types::pb::ErrorInfo;

use super::bench::{Bench, told};
use super::shop::{ask, fit, message, rows, sku, touring_bike};

fn item(id: &str, request: Option<pb::CheckRequest>) -> pb::BatchCheckItem {
    pb::BatchCheckItem { item_id: id.into(), request }
}

fn basket() -> Vec<pb::BatchCheckItem> {
    let fitting = |part: &str| Some(ask(touring_bike(), [fit(sku(part))]));
    vec![
        item("fits", fitting("CS-1128")),
        item("misspelt", fitting("CS-1123")),
        item("empty", Some(ask(pb::Build::default(), []))),
        item("nothing", None),
        item("too large", fitting("CS-1146")),
        item("fits", fitting("CS-1128")),
    ]
}

/// What each item comes to, in words.
fn said(result: &pb::BatchCheckResult) -> String {
    match result.result.as_ref().expect("a result") {
        Outcome::Response(answer) => format!("{}: {}", result.item_id, answer.verdict().as_str_name()),
        Outcome::Error(error) => {
            let info = error.details.iter().find(|detail| detail.type_url.ends_with("google.rpc.ErrorInfo"));
            let info = ErrorInfo::decode(&*info.expect("an ErrorInfo").value).expect("it decodes");
            format!("{}: {:?} {}", result.item_id, Code::from(error.code), info.reason)
        }
    }
}

const SAID: [&str; 6] = [
    "fits: VERDICT_FITS",
    "misspelt: NotFound UNKNOWN_PART",
    "empty: InvalidArgument INVALID_REQUEST",
    "nothing: InvalidArgument INVALID_REQUEST",
    "too large: VERDICT_DOES_NOT_FIT",
    "fits: VERDICT_FITS",
];

#[tokio::test(flavor = "multi_thread")]
async fn one_bad_line_does_not_spoil_a_basket() {
    let bench = Bench::stocked(&rows()).await;
    let request = pb::BatchCheckRequest { items: basket() };
    let answer = bench.asking().await.batch_check(request).await.expect("a batch").into_inner();
    assert_eq!(answer.results.iter().map(said).collect::<Vec<_>>(), SAID);
    let Some(Outcome::Response(in_batch)) = &answer.results[0].result else { panic!("it fits") };
    assert_eq!(*in_batch, bench.check(ask(touring_bike(), [fit(sku("CS-1128"))])).await);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_batch_has_a_bound() {
    let bench = Bench::stocked(&rows()).await;
    let mut asking = bench.asking().await;
    let batch = |count| pb::BatchCheckRequest { items: vec![item("", None); count] };
    let most = asking.batch_check(batch(256)).await.expect("as many as allowed").into_inner();
    assert_eq!(most.results.len(), 256);
    let refused = told(&asking.batch_check(batch(257)).await.expect_err("one too many"));
    assert_eq!((refused.code, refused.fields()), (Code::InvalidArgument, vec!["items"]));
    assert!(refused.faults[0].1.contains("256"), "{refused:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_stream_of_checks_answers_in_order() {
    let bench = Bench::stocked(&rows()).await;
    let asked = basket().into_iter().map(|item| pb::StreamCheckRequest { item: Some(item) });
    let asked = tokio_stream::iter(asked.collect::<Vec<_>>());
    let mut answers = bench.asking().await.stream_check(asked).await.expect("a stream").into_inner();
    let mut heard = Vec::new();
    while let Some(answer) = answers.next().await {
        heard.push(said(&answer.expect("one bad item does not end the stream").result.expect("a result")));
    }
    assert_eq!(heard, SAID);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_stream_of_ranges_answers_in_order() {
    let bench = Bench::stocked(&rows()).await;
    let question = |id: &str, build: pb::Build| pb::StreamRangeRequest {
        item_id: id.into(),
        request: Some(pb::RangeRequest {
            subjects: vec![pb::RangeSubject { build: Some(build), changes: Vec::new() }],
            ..pb::RangeRequest::default()
        }),
    };
    let hub: pb::Build = message(json!({"parts": [{"cassette": {"cogs": "11-13-15"}}]}));
    let nothing = pb::StreamRangeRequest { item_id: "nothing".into(), request: None };
    let asked = vec![question("tourer", touring_bike()), nothing, question("no rings", hub)];
    let mut asking = bench.asking().await;
    let mut answers = asking.stream_range(tokio_stream::iter(asked)).await.expect("a stream").into_inner();
    let mut ids = Vec::new();
    while let Some(answer) = answers.next().await {
        let answer = answer.expect("an answer");
        match (answer.item_id.as_str(), answer.result.expect("a result")) {
            ("tourer", pb::stream_range_response::Result::Response(range)) => {
                let gears = &range.answers[0];
                assert_eq!(gears.gears.len(), 18);
                // The lowest gear: ring 30 by cog 32.
                assert_eq!((gears.gears[0].ring, gears.gears[0].cog), (30, 32));
            }
            ("nothing", pb::stream_range_response::Result::Error(error)) => {
                assert_eq!(Code::from(error.code), Code::InvalidArgument, "{error:?}");
            }
            ("no rings", _) => {}
            (other, result) => panic!("{other}: {result:?}"),
        }
        ids.push(answer.item_id);
    }
    assert_eq!(ids, ["tourer", "nothing", "no rings"]);
}

#[tokio::test(flavor = "multi_thread")]
async fn verdicts_do_not_depend_on_the_company() {
    let bench = Bench::stocked(&rows()).await;
    let skus = rows();
    let skus: Vec<&str> = skus.iter().filter_map(|row| row["sku"].as_str()).collect();
    let items = skus.iter().map(|part| item(part, Some(ask(touring_bike(), [fit(sku(part))]))));
    let request = pb::BatchCheckRequest { items: items.collect() };
    let answer = bench.asking().await.batch_check(request).await.expect("a batch").into_inner();
    for (part, result) in skus.iter().zip(&answer.results) {
        let alone = bench.check(ask(touring_bike(), [fit(sku(part))])).await;
        assert_eq!(result.result, Some(Outcome::Response(alone.clone())), "{part}");
        assert_ne!(alone.verdict(), Verdict::Unspecified, "{part}");
    }
}
