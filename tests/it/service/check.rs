//! Checks of described and catalogued bikes, and what changes do to them.

use std::collections::BTreeSet;

use prost::Message;
use serde_json::json;
use sprag_proto::v1::{self as pb, Verdict};

use super::bench::{Bench, ndjson, whole};
use super::shop::{
    ask, build, finding, fit, instead_of, message, named, number, reasons, rows, sku, take_off, tourer,
    touring_bike,
};

#[tokio::test(flavor = "multi_thread")]
async fn the_touring_bike_rides_and_takes_a_wider_cassette_only_with_a_longer_derailleur() {
    let bench = Bench::stocked(&rows()).await;
    let today = bench.check(ask(touring_bike(), [])).await;
    assert_eq!(today.verdict(), Verdict::Fits, "{today:#?}");
    assert_eq!(today.basis.as_ref().map(|basis| basis.catalogue_revision), Some(1));

    let wide = bench.check(ask(touring_bike(), [fit(sku("CS-1146"))])).await;
    assert_eq!(wide.verdict(), Verdict::DoesNotFit);
    // A largest cog of 46 on a derailleur for 32: 14 over, far beyond what a longer B-screw or an extender gives.
    let large = finding(&wide, "largest-cog-too-large");
    assert_eq!((number(large, "need"), number(large, "limit"), number(large, "over")), (46, 32, 14));
    assert_eq!(large.change_ids, ["basket"]);
    assert!(wide.must_change.contains(&"derailleur".to_owned()), "{:?}", wide.must_change);

    // 440 mm of stay, 46 on 46 teeth: 69.3 + 46 links and a pair more are 118 by the common formula; there are 112.
    let both = bench.check(ask(touring_bike(), [fit(sku("CS-1146")), fit(sku("RD-46"))])).await;
    assert_eq!(reasons(&both), ["chain-length/big-big chain-too-short"]);
    let all = [fit(sku("CS-1146")), fit(sku("RD-46")), fit(sku("CH-9"))];
    let all = bench.check(ask(touring_bike(), all)).await;
    assert_eq!(all.verdict(), Verdict::Fits, "{:?}", reasons(&all));
    let went: Vec<_> = all.applied_changes.iter().flat_map(|change| change.removed.clone()).collect();
    assert_eq!(went, ["cassette", "derailleur", "chain"]);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_fitted_part_displaces_what_sits_in_its_place() {
    let bench = Bench::stocked(&rows()).await;
    let plain = bench.check(ask(touring_bike(), [fit(sku("CS-1128"))])).await;
    assert_eq!(plain.applied_changes[0].change_id, "basket");
    assert_eq!(plain.applied_changes[0].removed, ["cassette"]);
    // Named explicitly it is the same change.
    let named = bench.check(ask(touring_bike(), [instead_of("cassette", sku("CS-1128"))])).await;
    assert_eq!(plain.applied_changes, named.applied_changes);
    assert_eq!(reasons(&plain), reasons(&named));
    // Only what the cassette touches counts; what it does not touch is told apart.
    let full = pb::CheckRequest { view: pb::View::Full.into(), ..ask(touring_bike(), [fit(sku("CS-1128"))]) };
    let full = bench.check(full).await;
    assert!(full.findings.iter().all(|finding| finding.change_ids == ["basket"]), "{full:#?}");
    let before = full.pre_existing.iter().map(|finding| finding.rule.clone());
    assert!(before.clone().any(|rule| rule.starts_with("quick-link-on-chain")), "{full:#?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_taken_off_part_is_no_longer_judged() {
    let bench = Bench::stocked(&rows()).await;
    let answer = bench.check(ask(touring_bike(), [take_off("derailleur")])).await;
    assert_eq!(answer.applied_changes[0].removed, ["derailleur"]);
    assert_eq!(answer.applied_changes[0].fitted, "");
    let judged = answer.findings.iter().chain(&answer.pre_existing);
    assert!(judged.clone().all(|finding| !finding.items.contains(&"derailleur".to_owned())));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_wheel_opens_into_its_parts_and_its_body_may_move_over() {
    let bench = Bench::stocked(&rows()).await;
    let other = bench.check(ask(touring_bike(), [fit(sku("WH-23"))])).await;
    assert_eq!(other.verdict(), Verdict::DoesNotFit);
    let pattern = finding(&other, "other-pattern");
    assert!(pattern.items.iter().any(|item| item.ends_with(".freehub_body")), "{:?}", pattern.items);
    let went = &other.applied_changes[0].removed;
    assert!(went.contains(&"wheel".to_owned()) && went.contains(&"wheel.hub.freehub_body".to_owned()));

    // The old hub with its body moves over to a wheel that is bought without one.
    let rim_only = json!({"id": "new", "wheel": {"rim": {"bead_seat": "622 mm"}}});
    let moved = pb::Change { moves: vec!["wheel.hub".into()], ..instead_of("wheel", rim_only) };
    let moved = bench.check(ask(touring_bike(), [moved])).await;
    assert_eq!(moved.applied_changes[0].removed, ["wheel"], "{:?}", moved.applied_changes);
    assert_ne!(moved.verdict(), Verdict::DoesNotFit, "{:?}", reasons(&moved));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_body_longer_than_the_cassette_asks_for_a_spacer_until_the_customer_owns_one() {
    let bench = Bench::stocked(&rows()).await;
    let short = ask(touring_bike(), [fit(sku("CS-1132-S"))]);
    let missing = bench.check(short.clone()).await;
    assert_eq!(missing.verdict(), Verdict::FitsWithExtraParts);
    // 34.9 mm of body less the 33.05 mm that the cassette is made for: 1.85 mm.
    assert_eq!(number(finding(&missing, "spacer-behind"), "spacer"), 1_850);
    assert_eq!(missing.unmet_extras.len(), 1);
    assert_eq!(missing.unmet_extras[0].skus_in_stock, ["SPC-185"]);

    let spare = message(json!({"id": "from the drawer", "sku": "SPC-185"}));
    let owned = bench.check(pb::CheckRequest { owned_spares: vec![spare], ..short.clone() }).await;
    assert!(owned.unmet_extras.is_empty(), "{:?}", owned.unmet_extras);
    assert_eq!(owned.extra_parts[0].met_by, "owned:from the drawer");

    let mut basket = short;
    basket.changes.push(message(json!({"change_id": "spacer", "fit": {"sku": "SPC-185"}})));
    let bought = bench.check(basket).await;
    assert!(bought.unmet_extras.is_empty(), "{:?}", bought.unmet_extras);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_basket_without_a_bike_is_judged_among_itself() {
    let bench = Bench::stocked(&rows()).await;
    let basket = |parts: &[&str]| {
        let changes: Vec<_> = parts.iter().map(|part| fit(sku(part))).collect();
        pb::CheckRequest { build: None, ..ask(pb::Build::default(), changes) }
    };
    let apart = bench.check(basket(&["CS-23-1134", "WH-9"])).await;
    assert_eq!(apart.verdict(), Verdict::DoesNotFit);
    finding(&apart, "other-pattern");
    let alone = bench.check(basket(&["CS-1132"])).await;
    assert_ne!(alone.verdict(), Verdict::DoesNotFit);
    // What the cassette asks of the rest of the bike is told.
    let body = alone.not_checked.iter().find(|mating| mating.mating == "cassette-on-body");
    let body = body.unwrap_or_else(|| panic!("{:#?}", alone.not_checked));
    assert!(body.missing_kinds.contains(&"freehub_body".to_owned()), "{body:?}");
    assert!(body.asks.iter().any(|asked| asked.key == "spline-9"), "{body:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_not_known_is_asked_for() {
    let bench = Bench::stocked(&rows()).await;
    let mut bike = tourer();
    bike[1] = named("wheel", "wheel", json!({"hub": {"freehub_body": {"mount_family": "spline-9"}}}));
    let answer = bench.check(ask(build(&bike), [fit(sku("CS-1134"))])).await;
    assert_eq!(answer.verdict(), Verdict::NotEnoughData);
    let asked = answer.questions.iter().find(|question| question.attribute == "body_length");
    let asked = asked.unwrap_or_else(|| panic!("{:#?}", answer.questions));
    assert_eq!((asked.item_id.as_str(), asked.kind.as_str()), ("wheel.hub.freehub_body", "freehub_body"));
    assert!(!asked.text.is_empty() && !asked.how_to_measure.is_empty());
    assert!(asked.passing_ranges.iter().any(|range| (range.low..=range.high).contains(&34_900)), "{asked:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_kind_that_is_not_judged_is_named() {
    let bench = Bench::stocked(&rows()).await;
    let answer = bench.check(ask(touring_bike(), [fit(sku("AC-CABLE"))])).await;
    assert_eq!(answer.not_judged.len(), 1, "{:?}", answer.not_judged);
    assert_eq!(answer.not_judged[0].kind, "accessory");
}

#[tokio::test(flavor = "multi_thread")]
async fn makers_limits_are_never_softer_than_the_workshops() {
    let bench = Bench::stocked(&rows()).await;
    // 34 on a derailleur for 32: two over, what a B-screw gives.
    let workshop = ask(touring_bike(), [fit(sku("CS-1134"))]);
    let maker = pb::CheckRequest { limit_practice: pb::LimitPractice::Maker.into(), ..workshop.clone() };
    let (workshop, maker) = (bench.check(workshop).await, bench.check(maker).await);
    assert_eq!(workshop.verdict(), Verdict::WorksWithCaveat);
    assert!(finding(&workshop, "largest-cog-by-b-screw").tolerated);
    assert_eq!(maker.verdict(), Verdict::DoesNotFit);
    assert_eq!(maker.basis.map(|basis| basis.limit_practice).as_deref(), Some("maker"));
}

#[tokio::test(flavor = "multi_thread")]
async fn the_same_question_on_the_same_basis_has_the_same_bytes_for_an_answer() {
    let bench = Bench::stocked(&rows()).await;
    let request = ask(touring_bike(), [fit(sku("CS-1146")), fit(sku("CH-10"))]);
    let request = pb::CheckRequest { view: pb::View::Full.into(), ..request };
    let first = bench.check(request.clone()).await.encode_to_vec();
    for _ in 0..20 {
        assert_eq!(bench.check(request.clone()).await.encode_to_vec(), first);
    }
    // The same file once more is another revision with the same content; nothing else may differ.
    bench.import(whole(), &ndjson(&rows())).await;
    let strip = |bytes: &[u8]| {
        let mut answer = pb::CheckResponse::decode(bytes).expect("an answer");
        let digest = answer.basis.take().expect("a basis").catalogue_digest;
        (answer, digest)
    };
    let again = bench.check(request.clone()).await.encode_to_vec();
    assert_eq!(strip(&again), strip(&first));
    let restarted = bench.restarted().await;
    assert_eq!(restarted.check(request).await.encode_to_vec(), again);
}

#[tokio::test(flavor = "multi_thread")]
async fn the_order_of_the_parts_does_not_matter() {
    let bench = Bench::stocked(&rows()).await;
    let asked = |parts: &[serde_json::Value]| pb::CheckRequest {
        view: pb::View::Full.into(),
        ..ask(build(parts), [fit(sku("CS-1146"))])
    };
    let said = |answer: &pb::CheckResponse| {
        let all = answer.findings.iter().chain(&answer.pre_existing);
        let said: BTreeSet<String> = all
            .map(|finding| {
                format!("{} {} {} {:?}", finding.rule, finding.outcome, finding.reason, finding.items)
            })
            .collect();
        (answer.verdict, said)
    };
    let mut parts = tourer();
    let first = said(&bench.check(asked(&parts)).await);
    for _ in 0..parts.len() {
        parts.rotate_left(1);
        assert_eq!(said(&bench.check(asked(&parts)).await), first);
        parts.swap(0, 2);
        assert_eq!(said(&bench.check(asked(&parts)).await), first);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_new_front_wheel_leaves_the_rear_one_alone() {
    let bench = Bench::stocked(&rows()).await;
    let front =
        |id: &str| json!({"id": id, "position": "front", "wheel": {"hub": {"axle": "quick-release-9"}}});
    let mut bike = tourer();
    bike.push(front("front wheel"));
    let answer = bench.check(ask(build(&bike), [fit(front("new"))])).await;
    assert_eq!(answer.applied_changes[0].removed, ["front wheel.hub", "front wheel"]);
}
