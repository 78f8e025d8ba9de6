//! Statements, rulings, interfaces and words of the shop, from putting them in to what a check says of them.

use serde_json::{Value as Json, json};
use sprag_proto::v1::{self as pb, Evidence, RulingState, Verdict};
use tonic::Code;

use super::bench::{Bench, ndjson, told, whole};
use super::shop::{ask, fit, instead_of, message, named, rows, sku, touring_bike};

fn ruling(id: &str, verdict: &str, rule: &str, parts: [&str; 2], days: [&str; 2]) -> Json {
    json!({"ruling": {
        "ruling_id": id, "part": {"sku": parts[0]}, "other": {"sku": parts[1]}, "rules": [rule],
        "verdict": verdict, "reason": "tried on the stand", "author": "head mechanic",
        "date": days[0], "valid_until": days[1],
    }})
}

fn statement(verdict: &str, rule: &str, parts: [&str; 2]) -> Json {
    json!({"statement": {
        "statement_id": "st-1", "part": {"sku": parts[0]}, "other": {"sku": parts[1]}, "rules": [rule],
        "verdict": verdict, "text": "the two are made for each other", "source": "leaflet 4, page 2",
        "author": "front desk", "date": "2026-01-01",
    }})
}

fn alias(word: &str, key: &str) -> Json {
    json!({"alias": {"alias_id": "al-1", "kind": "cassette", "attribute": "mount_family", "word": word,
        "key": key, "author": "front desk", "date": "2026-01-01"}})
}

fn put(records: &[Json]) -> pb::UpdateRecordsRequest {
    let put = records.iter().map(|record| message(record.clone())).collect();
    pb::UpdateRecordsRequest { put, author: "front desk".into(), ..pb::UpdateRecordsRequest::default() }
}

async fn update(
    bench: &Bench,
    request: pb::UpdateRecordsRequest,
) -> Result<pb::UpdateRecordsResponse, tonic::Status> {
    bench.keeping().await.update_records(request).await.map(tonic::Response::into_inner)
}

const ALWAYS: [&str; 2] = ["2000-01-01", "9999-12-31"];
const LONG_AGO: [&str; 2] = ["2000-01-01", "2000-12-31"];

/// The state of the only ruling on a rule, with the finding.
fn ruled<'a>(answer: &'a pb::CheckResponse, rule: &str) -> (RulingState, &'a pb::Finding) {
    let found = answer.findings.iter().find(|found| found.rule == rule).expect("the rule");
    assert_eq!(found.rulings.len(), 1, "{found:?}");
    assert_eq!(found.rulings[0].author, "head mechanic");
    (found.rulings[0].state(), found)
}

#[tokio::test(flavor = "multi_thread")]
async fn a_ruling_is_shown_applied_expired_and_refused_where_it_would_hide_an_injury() {
    let mut all = rows();
    // The thread of deep-spline bodies: it does not hold on the body of the shop's wheels.
    all.push(json!({"sku": "LR-27", "lockring": {"lockring_thread": "m27x1", "lockring_size": "11t"}}));
    let bench = Bench::stocked(&all).await;
    let wheel = || ask(touring_bike(), [instead_of("wheel", sku("WH-23"))]);
    let ring = || ask(touring_bike(), [instead_of("lockring", sku("LR-27"))]);
    for (days, wanted, outcome) in [
        (ALWAYS, RulingState::Applied, Verdict::WorksWithCaveat),
        (LONG_AGO, RulingState::Expired, Verdict::DoesNotFit),
    ] {
        let soft = ruling("soft", "VERDICT_FITS", "cassette-on-body", ["CS-1132", "WH-23"], days);
        update(&bench, put(&[soft])).await.expect("a ruling");
        let answer = bench.check(wheel()).await;
        let (state, found) = ruled(&answer, "cassette-on-body/pattern");
        assert_eq!((state, found.outcome()), (wanted, outcome));
        assert_eq!(
            found.computed_outcome(),
            if days == ALWAYS { Verdict::DoesNotFit } else { Verdict::Unspecified }
        );
        assert_eq!(answer.basis.expect("a basis").as_of_date.len(), "2026-11-25".len());
    }
    let before = bench.check(ring()).await;
    let soft = ruling("ring", "VERDICT_FITS", "lockring-on-body", ["LR-27", "WH-9"], ALWAYS);
    update(&bench, put(&[soft])).await.expect("a ruling");
    let answer = bench.check(ring()).await;
    let (state, found) = ruled(&answer, "lockring-on-body/body-thread");
    assert_eq!((state, found.outcome()), (RulingState::RefusedInjury, Verdict::DoesNotFit));
    assert_eq!(found.hazard(), pb::Hazard::Injury);
    assert!(!found.caution.is_empty());
    assert_eq!(answer.verdict(), before.verdict());
    // It may always make stricter, between parts that fit as well.
    let plain = || ask(touring_bike(), [fit(sku("CS-1128"))]);
    assert_ne!(bench.check(plain()).await.verdict(), Verdict::DoesNotFit);
    let strict = ruling("strict", "VERDICT_DOES_NOT_FIT", "cassette-on-body", ["CS-1128", "WH-9"], ALWAYS);
    update(&bench, put(&[strict])).await.expect("a ruling");
    let answer = bench.check(plain()).await;
    assert_eq!(answer.verdict(), Verdict::DoesNotFit);
    let found = &answer.findings[0];
    assert_eq!((found.reason.as_str(), found.evidence()), ("ruled-does-not-fit", Evidence::HouseRuling));
    assert!(found.text.contains("tried on the stand"), "{}", found.text);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_statement_decides_and_names_its_source() {
    let bench = Bench::stocked(&rows()).await;
    let no = statement("VERDICT_DOES_NOT_FIT", "cassette-on-body", ["CS-1128", "WH-9"]);
    update(&bench, put(&[no])).await.expect("a statement");
    let answer = bench.check(ask(touring_bike(), [fit(sku("CS-1128"))])).await;
    let found = &answer.findings[0];
    assert_eq!((found.outcome(), found.evidence()), (Verdict::DoesNotFit, Evidence::Statement));
    assert_eq!(found.statement.as_ref().map(|note| note.source.as_str()), Some("leaflet 4, page 2"));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_word_of_the_shop_is_read_inline_and_on_import_and_an_ambiguous_one_is_refused() {
    let bench = Bench::stocked(&rows()).await;
    let mut cassette = json!({"mount_family": "Our Wide Nine", "required_length": "34.9 mm",
        "cogs": [11, 12, 13, 14, 16, 18, 21, 24, 28], "cog_count": 9, "chain_class": 9,
        "cog_pitch": "4.34 mm", "chain_profile": "normal", "lockring_thread": "m30.5x1",
        "lockring_size": "11t", "mass_g": 280});
    let question = |cassette: &Json| ask(touring_bike(), [fit(named("new", "cassette", cassette.clone()))]);
    let refused = bench.refusal(question(&cassette)).await;
    assert_eq!(refused.code, Code::InvalidArgument);
    update(&bench, put(&[alias("our wide-nine", "spline-9")])).await.expect("a word");
    let answer = bench.check(question(&cassette)).await;
    assert_ne!(answer.verdict(), Verdict::DoesNotFit);
    let row = json!({"sku": "CS-OURS", "cassette": cassette});
    let report = bench.import(super::bench::added(), &ndjson(&[row])).await.report.expect("a report");
    assert_eq!((report.rows_good, report.rows_bad), (1, 0), "{:?}", report.faults);
    // What is stored is the key, which outlives the word.
    assert!(bench.export().await.lines().any(|line| line.contains("CS-OURS") && line.contains("spline-9")));

    cassette["mount_family"] = json!("11-speed hub");
    let refused = bench.refusal(question(&cassette)).await;
    assert!(refused.faults[0].1.contains("means several things"), "{:?}", refused.faults);
    let status = update(&bench, put(&[alias("11 speed hub", "spline-9")])).await.expect_err("ambiguous");
    assert!(told(&status).fields()[0].starts_with("put[0]"), "{status:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_wrong_is_told_with_its_place_and_nothing_is_published() {
    let bench = Bench::stocked(&rows()).await;
    let before = bench.revision().await;
    let interface = |key: &str, accepted: &str| {
        json!({"interface": {"interface_class": "freehub", "key": key, "description": "nine wide splines",
            "accepts": [{"key": accepted, "source": "measured"}], "author": "front desk",
            "date": "2026-01-01", "source": "measured"}})
    };
    let parts = ["CS-1128", "WH-9"];
    for (record, field) in [
        (interface("spline-9", "spline-23"), "put[0].interface.key"),
        (interface("our-nine", "spline-nine"), "put[0].interface.accepts[0].key"),
        (alias("ours", "spline-99"), "put[0].alias.key"),
        (ruling("r", "VERDICT_NOT_ENOUGH_DATA", "cassette-on-body", parts, ALWAYS), "put[0].ruling.verdict"),
        (ruling("r", "VERDICT_FITS", "cassette-on-boddy", parts, ALWAYS), "put[0].ruling.rules[0]"),
        (
            ruling("r", "VERDICT_FITS", "cassette-on-body", parts, ["2026-02-01", "2026-01-01"]),
            "put[0].ruling.valid_until",
        ),
    ] {
        let status = update(&bench, put(&[record])).await.expect_err(field);
        assert_eq!((status.code(), told(&status).fields()), (Code::InvalidArgument, vec![field]));
    }
    assert_eq!(bench.revision().await, before);
}

#[tokio::test(flavor = "multi_thread")]
async fn records_leave_with_the_export_and_a_repeated_removal_answers_as_the_first() {
    let bench = Bench::stocked(&rows()).await;
    let parts = ["CS-1128", "WH-9"];
    let records = [
        alias("our wide nine", "spline-9"),
        ruling("r-1", "VERDICT_WORKS_WITH_CAVEAT", "cassette-on-body", parts, ALWAYS),
        statement("VERDICT_FITS", "cassette-on-body", parts),
    ];
    let answer = update(&bench, put(&records)).await.expect("records");
    assert_eq!((answer.records_added, answer.published), (3, true));
    let export = bench.export().await;
    let other = Bench::empty().await;
    let whole = pb::ImportHeader { mode: pb::ImportMode::Everything.into(), ..whole() };
    other.import(whole, &export).await;
    assert_eq!(other.revision().await.digest, bench.revision().await.digest);

    let name = pb::RecordName { r#type: pb::RecordType::Ruling.into(), id: "r-1".into() };
    let remove = pb::UpdateRecordsRequest {
        remove: vec![name],
        request_id: "once".into(),
        ..pb::UpdateRecordsRequest::default()
    };
    let first = update(&bench, remove.clone()).await.expect("it is there");
    assert_eq!(update(&bench, remove.clone()).await.expect("the same request"), first);
    let anew = pb::UpdateRecordsRequest { request_id: "twice".into(), ..remove };
    let status = update(&bench, anew).await.expect_err("it is gone");
    assert_eq!(told(&status).fields(), ["remove[0]"]);
}
