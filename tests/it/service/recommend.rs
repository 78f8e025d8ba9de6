//! Recommendations over a small shop: every option passes a check, none is missed, and a failure tells why.

use std::time::Duration;

use serde_json::{Value as Json, json};
use sprag_proto::v1::{self as pb, Verdict, wish::Question};

use super::bench::{Bench, PATIENCE};
use super::shop::{ask, build, fit, message, rows, sku, stock, tourer, touring_bike};

fn complete(basket: impl IntoIterator<Item = pb::Change>) -> pb::RecommendRequest {
    let question = Question::Complete(pb::Complete { changes: basket.into_iter().collect() });
    wanting(question)
}

fn wanting(question: Question) -> pb::RecommendRequest {
    pb::RecommendRequest {
        build: Some(touring_bike()),
        wish: Some(pb::Wish { question: Some(question) }),
        options_max: 100,
        ..pb::RecommendRequest::default()
    }
}

fn substitute(item: &str, wanted: Option<&str>) -> pb::RecommendRequest {
    let wanted = wanted.map(|part| message(sku(part)));
    wanting(Question::Substitute(pb::Substitute { item_id: item.into(), wanted }))
}

impl Bench {
    async fn advice(&self, request: pb::RecommendRequest) -> pb::RecommendResponse {
        let answer = self.asking().await.recommend(request).await;
        answer.expect("it can be answered").into_inner()
    }
}

/// Item and stock number of each step.
fn steps(option: &pb::Option) -> Vec<(String, String)> {
    let pair = |step: &pb::Step| (step.replaces.clone(), step.fit.clone().unwrap_or_default().sku);
    let mut steps: Vec<_> = option.steps.iter().map(pair).collect();
    steps.sort();
    steps
}

/// The changes of an option, basket included.
fn changes(basket: &[pb::Change], steps: &[(String, String)]) -> Vec<pb::Change> {
    let step = |(item, part): &(String, String)| pb::Change {
        replaces: item.clone(),
        ..fit(json!({"id": item, "sku": part}))
    };
    basket.iter().cloned().chain(steps.iter().map(step)).collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_wide_cassette_is_completed_by_derailleur_and_chain() {
    let bench = Bench::stocked(&rows()).await;
    let advice = bench.advice(complete([fit(sku("CS-1146"))])).await;
    let best = &advice.options[0];
    assert_eq!(steps(best), [("chain".into(), "CH-9".into()), ("derailleur".into(), "RD-46".into())]);
    // 18.90 for the chain and 64.90 for the derailleur; the basket is the customer's own choice.
    assert_eq!(best.price.as_ref().map(|price| price.minor_units), Some(8380));
    assert_eq!((best.rank, best.verdict()), (1, Verdict::Fits));
    assert!(best.stays.contains(&"shifter".to_owned()) && !best.stays.contains(&"chain".to_owned()));
    assert!(!advice.unfinished && advice.obstacles.is_empty());
}

#[tokio::test(flavor = "multi_thread")]
async fn every_option_passes_a_check() {
    let bench = Bench::stocked(&rows()).await;
    let asked = [
        (complete([fit(sku("CS-1146"))]), vec![fit(sku("CS-1146"))]),
        (complete([fit(sku("SH-10"))]), vec![fit(sku("SH-10"))]),
        (substitute("cassette", None), Vec::new()),
        (substitute("derailleur", None), Vec::new()),
    ];
    for (request, basket) in asked {
        let advice = bench.advice(request.clone()).await;
        assert!(!advice.options.is_empty(), "{request:?}: {:?}", advice.obstacles);
        for (place, option) in advice.options.iter().enumerate() {
            assert_eq!(usize::try_from(option.rank).expect("a rank"), place + 1);
            let checked = bench.check(ask(touring_bike(), changes(&basket, &steps(option)))).await;
            assert_ne!(checked.verdict(), Verdict::DoesNotFit, "{:?}", steps(option));
            let open = !option.conditional_on.is_empty();
            assert_eq!(checked.verdict() == Verdict::NotEnoughData, open, "{:?}", steps(option));
            assert_eq!(checked.verdict(), option.verdict(), "{:?}", steps(option));
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_stand_in_does_the_work_of_the_part_asked_for() {
    let bench = Bench::stocked(&rows()).await;
    // 11-36 is sold out; what is left on the shelf are its neighbours.
    let advice = bench.advice(substitute("cassette", Some("CS-1136"))).await;
    let offered: Vec<String> = advice.options.iter().flat_map(steps).map(|step| step.1).collect();
    assert!(offered.contains(&"CS-1134".to_owned()), "{offered:?}");
    assert!(!offered.contains(&"CS-1136".to_owned()), "it is out of stock: {offered:?}");
    assert!(!offered.contains(&"CS-23-1134".to_owned()), "it does not go on the body: {offered:?}");
    let allowed = pb::RecommendRequest { out_of_stock_allowed: true, ..substitute("derailleur", None) };
    assert!(!bench.advice(allowed).await.options.is_empty());
}

#[tokio::test(flavor = "multi_thread")]
async fn what_must_stay_stays_and_what_is_owned_costs_nothing() {
    let bench = Bench::stocked(&rows()).await;
    let keep = pb::RecommendRequest { keep: vec!["derailleur".into()], ..complete([fit(sku("CS-1146"))]) };
    let kept = bench.advice(keep).await;
    assert!(kept.options.is_empty(), "{:?}", kept.options.iter().map(steps).collect::<Vec<_>>());
    let owned_spares = vec![message(json!({"id": "own", "sku": "RD-46"}))];
    let owned = bench.advice(pb::RecommendRequest { owned_spares, ..complete([fit(sku("CS-1146"))]) }).await;
    assert_eq!(owned.options[0].price.as_ref().map(|price| price.minor_units), Some(1890));
    let budget = Some(pb::Money { currency_code: "EUR".into(), minor_units: 8379 });
    let poor = bench.advice(pb::RecommendRequest { budget, ..complete([fit(sku("CS-1146"))]) }).await;
    assert!(poor.options.is_empty());
    let budget = Some(pb::Money { currency_code: "EUR".into(), minor_units: 8380 });
    let enough = bench.advice(pb::RecommendRequest { budget, ..complete([fit(sku("CS-1146"))]) }).await;
    assert_eq!(enough.options.len(), 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn where_nothing_works_the_reasons_are_told_and_what_fails_by_little() {
    let without: Vec<Json> =
        rows().into_iter().filter(|row| row["sku"] != "RD-46" && row["sku"] != "RD-B-46").collect();
    let bench = Bench::stocked(&without).await;
    let advice = bench.advice(complete([fit(sku("CS-1146"))])).await;
    assert!(advice.options.is_empty());
    let rules: Vec<&str> = advice.obstacles.iter().map(|obstacle| obstacle.rule.as_str()).collect();
    assert!(rules.iter().any(|rule| rule.starts_with("derailleur-on-cogs/")), "{rules:?}");
    assert!(advice.obstacles.iter().all(|obstacle| !obstacle.text.is_empty()));
    // 36 reaches farther than 32, though not to 46.
    let near = advice.near_misses.first().expect("a near miss");
    assert!(!near.findings.is_empty(), "{near:?}");
    let parts: Vec<_> =
        advice.near_misses.iter().filter_map(|miss| miss.part.as_ref()).map(|part| &part.sku).collect();
    assert!(parts.iter().any(|part| *part == "RD-36"), "{parts:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_search_that_runs_out_says_so() {
    let bench = Bench::stocked(&rows()).await;
    let short = pb::RecommendRequest { steps_max: 2, ..complete([fit(sku("CS-1146"))]) };
    let advice = bench.advice(short).await;
    assert!(advice.unfinished && advice.options.is_empty(), "{advice:?}");
    // A deadline is kept: the answer comes in time, or the caller gives up first and says so.
    let mut request = tonic::Request::new(complete([fit(sku("CS-1146"))]));
    request.set_timeout(Duration::from_millis(30));
    match bench.asking().await.recommend(request).await {
        Ok(answer) => assert!(answer.get_ref().unfinished || !answer.get_ref().options.is_empty()),
        Err(status) => {
            let late = [tonic::Code::Cancelled, tonic::Code::DeadlineExceeded];
            assert!(late.contains(&status.code()), "{status:?}");
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_flood_of_recommendations_does_not_hold_up_checks() {
    let bench = Bench::stocked(&rows()).await;
    let asking = bench.asking().await;
    let search = || {
        let mut asking = asking.clone();
        tokio::spawn(
            async move { asking.recommend(complete([fit(sku("CS-1146")), fit(sku("SH-10"))])).await },
        )
    };
    let flood: Vec<_> = (0..24).map(|_| search()).collect();
    for _ in 0..5 {
        let checked = bench.check(ask(touring_bike(), [fit(sku("CS-1128"))]));
        let checked = tokio::time::timeout(PATIENCE, checked).await.expect("not starved");
        assert_eq!(checked.verdict(), Verdict::Fits);
    }
    // Those that go away unanswered leave the service free for the next one.
    flood.iter().for_each(tokio::task::JoinHandle::abort);
    let next = tokio::time::timeout(PATIENCE, search()).await.expect("the queue moves on").expect("no panic");
    next.expect("it can be answered");
}

/// What a way comes to: serious drawbacks, plain drawbacks are left to the search; here only what must agree.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Way {
    changes: usize,
    serious: bool,
    price: i64,
    steps: Vec<(String, String)>,
}

/// Every single and double change of the bike by parts in stock that passes a check, best first.
async fn brute_force(bench: &Bench, bike: &pb::Build, basket: &[pb::Change], free: &[&str]) -> Vec<Way> {
    let kind = |row: &Json| {
        ["cassette", "chain", "rear_derailleur", "rear_shifter"]
            .into_iter()
            .find(|kind| row.get(*kind).is_some())
    };
    let item = |kind| match kind {
        "rear_derailleur" => "derailleur",
        "rear_shifter" => "shifter",
        other => other,
    };
    let shelf: Vec<(String, String, i64)> = rows()
        .iter()
        .filter(|row| row["stock"].as_i64() > Some(0))
        .filter_map(|row| {
            let item = item(kind(row)?);
            let sku = row["sku"].as_str()?.to_owned();
            free.contains(&item)
                .then(|| (item.to_owned(), sku, row["price"]["minor_units"].as_i64().unwrap_or(0)))
        })
        .collect();
    let mut tries: Vec<(Vec<(String, String)>, i64)> = vec![(Vec::new(), 0)];
    for (index, one) in shelf.iter().enumerate() {
        tries.push((vec![(one.0.clone(), one.1.clone())], one.2));
        for two in shelf[index + 1..].iter().filter(|two| two.0 != one.0) {
            let mut pair = vec![(one.0.clone(), one.1.clone()), (two.0.clone(), two.1.clone())];
            pair.sort();
            tries.push((pair, one.2 + two.2));
        }
    }
    let mut ways = Vec::new();
    for some in tries.chunks(256) {
        let items = some.iter().map(|(steps, _)| pb::BatchCheckItem {
            item_id: String::new(),
            request: Some(ask(bike.clone(), changes(basket, steps))),
        });
        let batch = pb::BatchCheckRequest { items: items.collect() };
        let asked = bench.asking().await.max_decoding_message_size(64 << 20).batch_check(batch).await;
        for ((steps, price), result) in some.iter().zip(asked.expect("a batch").into_inner().results) {
            let Some(pb::batch_check_result::Result::Response(answer)) = result.result else { continue };
            let passes = !matches!(answer.verdict(), Verdict::DoesNotFit | Verdict::NotEnoughData);
            if passes && answer.unmet_extras.is_empty() {
                let serious = answer.findings.iter().any(|finding| finding.strong);
                ways.push(Way { changes: steps.len(), serious, price: *price, steps: steps.clone() });
            }
        }
    }
    ways.sort();
    ways
}

#[tokio::test(flavor = "multi_thread")]
async fn the_search_agrees_with_trying_everything() {
    let bench = Bench::stocked(&rows()).await;
    let bike = touring_bike();
    let free = ["cassette", "chain", "derailleur", "shifter"];
    let baskets = [
        vec!["CS-1146"],
        vec!["RD-46"],
        vec!["CS-10-1134"],
        vec!["SH-10"],
        vec!["CS-1134"],
        vec!["RD-B-46", "SH-B-9"],
    ];
    let mut possible = 0;
    for basket in baskets {
        let fitted: Vec<&str> = free
            .into_iter()
            .filter(|item| {
                let kinds = [("cassette", "CS"), ("chain", "CH"), ("derailleur", "RD"), ("shifter", "SH")];
                let prefix = kinds.iter().find(|(name, _)| name == item).map_or("", |(_, prefix)| prefix);
                !basket.iter().any(|part| part.starts_with(prefix))
            })
            .collect();
        let given: Vec<pb::Change> = basket.iter().map(|part| fit(sku(part))).collect();
        let ways = brute_force(&bench, &bike, &given, &fitted).await;
        let keep = ["frame", "wheel", "lockring", "link", "crankset"].map(str::to_owned).to_vec();
        let advice = bench.advice(pb::RecommendRequest { keep, ..complete(given) }).await;
        assert!(!advice.unfinished, "{basket:?}");
        let firm: Vec<&pb::Option> =
            advice.options.iter().filter(|option| option.conditional_on.is_empty()).collect();
        match ways.first() {
            Some(best) => {
                possible += 1;
                let found = firm.first().unwrap_or_else(|| panic!("{basket:?}: nothing found, but {best:?}"));
                let price = found.price.as_ref().map(|price| price.minor_units);
                let serious = found.findings.iter().any(|finding| finding.strong);
                assert_eq!(
                    (found.steps.len(), serious, price),
                    (best.changes, best.serious, Some(best.price)),
                    "{basket:?}: {:?}, but {best:?}",
                    steps(found)
                );
            }
            None => assert!(firm.iter().all(|option| option.steps.len() > 2), "{basket:?}: {firm:?}"),
        }
        for option in firm.iter().filter(|option| option.steps.len() <= 2) {
            assert!(ways.iter().any(|way| way.steps == steps(option)), "{basket:?}: {:?}", steps(option));
        }
    }
    assert!(possible >= 3, "only {possible} baskets had a way at all");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_goal_is_reached_or_refused() {
    let bench = Bench::stocked(&rows()).await;
    // 30 by 36 is 0.833: in reach of the 11-46 only, whose 30 by 46 is 0.652.
    let goal = pb::Upgrade { lowest_ratio_permille_max: Some(700), ..Default::default() };
    let advice = bench.advice(wanting(Question::Upgrade(goal))).await;
    let best = advice.options.first().unwrap_or_else(|| panic!("{:?}", advice.obstacles));
    assert!(steps(best).contains(&("cassette".into(), "CS-1146".into())), "{:?}", steps(best));
    let impossible = pb::Upgrade { lowest_ratio_permille_max: Some(300), ..Default::default() };
    let advice = bench.advice(wanting(Question::Upgrade(impossible))).await;
    assert!(advice.options.is_empty() && !advice.obstacles.is_empty(), "{advice:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_bike_that_needs_nothing_gets_nothing() {
    let bench = Bench::stocked(&rows()).await;
    let advice = bench.advice(complete([fit(sku("CS-1128"))])).await;
    assert!(advice.options[0].steps.is_empty(), "{:?}", steps(&advice.options[0]));
    let mut bike = tourer();
    bike[2] = stock("cassette", "CS-1128");
    let request = pb::RecommendRequest { build: Some(build(&bike)), ..complete([fit(sku("CH-9"))]) };
    let answered = tokio::time::timeout(PATIENCE, bench.advice(request)).await.expect("in time");
    assert!(answered.options[0].steps.is_empty());
}
