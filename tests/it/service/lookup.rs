//! Parts by stock number, GTIN and maker's number; lists in pages.

use serde_json::json;
use sprag_proto::v1::{self as pb, Verdict, get_part_request::Reference};
use tonic::Code;

use super::bench::{Bench, told};
use super::shop::{ask, fit, rows, sku, touring_bike};

/// Numbers with right check digits: the worked example of the numbering standard's own page (13 digits); the others
/// are widely printed examples of their lengths, from memory, and their check digits follow the same published rule.
const GTINS: [(&str, &str); 4] = [
    ("73513537", "00000073513537"),
    ("036000291452", "00036000291452"),
    ("6291041500213", "06291041500213"),
    ("10012345678902", "10012345678902"),
];

#[tokio::test(flavor = "multi_thread")]
async fn a_part_is_found_by_each_of_its_numbers() {
    let mut all = rows();
    all[0]["gtins"] = json!(GTINS.map(|(short, _)| short));
    let bench = Bench::stocked(&all).await;
    let mut keeping = bench.keeping().await;
    let maker = pb::MakerPartNumber { brand_id: "Fernhollow".into(), number: "fh-cs 1128".into() };
    let mut references = vec![Reference::Sku("CS-1128".into()), Reference::MakerPart(maker)];
    for (short, whole) in GTINS {
        references.push(Reference::Gtin(short.into()));
        references.push(Reference::Gtin(whole.into()));
    }
    references.push(Reference::Gtin("629-1041-500213".into()));
    for reference in references {
        let request = pb::GetPartRequest { reference: Some(reference.clone()) };
        let found =
            keeping.get_part(request).await.unwrap_or_else(|refused| panic!("{reference:?}: {refused}"));
        let found = found.into_inner().part.expect("a part");
        assert_eq!(found.part.expect("its data").sku, "CS-1128");
        assert_eq!(
            found.price.map(|price| (price.minor_units, price.currency_code)),
            Some((2490, "EUR".into()))
        );
        assert_eq!(found.stock, Some(4));
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_check_takes_any_of_the_numbers() {
    let mut all = rows();
    all[1]["gtins"] = json!(["036000291452"]);
    let bench = Bench::stocked(&all).await;
    let by_sku = bench.check(ask(touring_bike(), [fit(sku("CS-1132"))])).await;
    assert_eq!(by_sku.verdict(), Verdict::Fits);
    for part in [
        json!({"gtin": "036000291452"}),
        json!({"gtin": "00036000291452"}),
        json!({"maker_part": {"brand_id": "fernhollow", "number": "FH CS-1132"}}),
    ] {
        assert_eq!(bench.check(ask(touring_bike(), [fit(part)])).await, by_sku);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn wrong_numbers_are_refused_and_unknown_ones_not_found() {
    let bench = Bench::stocked(&rows()).await;
    let mut keeping = bench.keeping().await;
    let mut refusal = async |reference| {
        let request = pb::GetPartRequest { reference };
        told(&keeping.get_part(request).await.expect_err("no such part"))
    };
    let typo = refusal(Some(Reference::Sku("CS-1123".into()))).await;
    assert_eq!((typo.code, typo.nearest.as_str()), (Code::NotFound, "CS-1128"));
    let digit = refusal(Some(Reference::Gtin("6291041500214".into()))).await;
    assert_eq!((digit.code, digit.fields()), (Code::InvalidArgument, vec!["gtin"]));
    let length = refusal(Some(Reference::Gtin("12345".into()))).await;
    assert_eq!(length.code, Code::InvalidArgument);
    let unknown = refusal(Some(Reference::Gtin("6291041500213".into()))).await;
    assert_eq!(unknown.code, Code::NotFound);
    let nothing = refusal(None).await;
    assert_eq!((nothing.code, nothing.fields()), (Code::InvalidArgument, vec!["reference"]));
}

#[tokio::test(flavor = "multi_thread")]
async fn lists_come_in_pages_and_their_tokens_belong_to_one_list() {
    let bench = Bench::stocked(&rows()).await;
    let mut keeping = bench.keeping().await;
    let mut seen = Vec::new();
    let mut page = pb::ListPartsRequest { page_size: 5, ..pb::ListPartsRequest::default() };
    let mut second = String::new();
    loop {
        let answer = keeping.list_parts(page.clone()).await.expect("a page").into_inner();
        assert!(answer.parts.len() <= 5);
        seen.extend(answer.parts.into_iter().map(|found| found.part.expect("data").sku));
        if answer.next_page_token.is_empty() {
            break;
        }
        page.page_token = answer.next_page_token;
        second = second.clone().max(page.page_token.clone());
    }
    let mut wanted: Vec<String> =
        rows().iter().map(|row| row["sku"].as_str().expect("a number").to_owned()).collect();
    wanted.sort();
    assert_eq!(seen, wanted);

    let mut refusal = async |request: pb::ListPartsRequest| {
        told(&keeping.list_parts(request).await.expect_err("it must be refused"))
    };
    let other_list =
        pb::ListPartsRequest { page_token: second.clone(), kind: "chain".into(), ..Default::default() };
    let other_list = refusal(other_list).await;
    assert_eq!((other_list.code, other_list.fields()), (Code::InvalidArgument, vec!["page_token"]));
    for token in ["zz", "é", "00", "0g", "deadbeef"] {
        let foreign = refusal(pb::ListPartsRequest { page_token: token.into(), ..Default::default() }).await;
        assert_eq!((foreign.code, foreign.fields()), (Code::InvalidArgument, vec!["page_token"]), "{token}");
    }
    let negative = refusal(pb::ListPartsRequest { page_size: -1, ..Default::default() }).await;
    assert_eq!((negative.code, negative.fields()), (Code::InvalidArgument, vec!["page_size"]));
    let kind = refusal(pb::ListPartsRequest { kind: "casette".into(), ..Default::default() }).await;
    assert_eq!((kind.code, kind.nearest.as_str()), (Code::InvalidArgument, "cassette"));

    // A page of an older revision is refused.
    bench
        .import(
            super::bench::added(),
            &super::bench::ndjson(&[json!({"sku": "NEW-1", "chain": {"chain_speed": 9}})]),
        )
        .await;
    let old = refusal(pb::ListPartsRequest { page_token: second, ..Default::default() }).await;
    assert_eq!(old.code, Code::InvalidArgument);
}

#[tokio::test(flavor = "multi_thread")]
async fn lists_keep_to_a_kind_and_to_what_is_in_stock() {
    let bench = Bench::stocked(&rows()).await;
    let mut keeping = bench.keeping().await;
    let request = pb::ListPartsRequest { kind: "cassette".into(), in_stock: true, ..Default::default() };
    let answer = keeping.list_parts(request).await.expect("a page").into_inner();
    let skus: Vec<String> = answer.parts.into_iter().map(|found| found.part.expect("data").sku).collect();
    assert_eq!(skus, ["CS-10-1134", "CS-1128", "CS-1132", "CS-1132-S", "CS-1134", "CS-1146", "CS-23-1134"]);
}

#[tokio::test(flavor = "multi_thread")]
async fn rules_and_interfaces_are_listed_and_misspelt_names_are_helped() {
    let bench = Bench::empty().await;
    let mut asking = bench.asking().await;
    let mut codes = Vec::new();
    let mut page = pb::ListRulesRequest { page_size: 7, ..Default::default() };
    loop {
        let answer = asking.list_rules(page.clone()).await.expect("a page").into_inner();
        codes.extend(answer.matings.into_iter().map(|mating| mating.mating));
        if answer.next_page_token.is_empty() {
            break;
        }
        page.page_token = answer.next_page_token;
    }
    let all = asking.list_rules(pb::ListRulesRequest { page_size: 200, ..Default::default() }).await;
    let all = all.expect("all of them").into_inner().matings;
    assert_eq!(codes, all.iter().map(|mating| mating.mating.clone()).collect::<Vec<_>>());
    for rule in all.iter().flat_map(|mating| &mating.rules) {
        let request = pb::GetRuleRequest { rule: rule.rule.clone() };
        let found = asking.get_rule(request).await.expect("a page").into_inner();
        assert!(found.page.contains("Sources"), "{}", rule.rule);
    }

    let rule = pb::GetRuleRequest { rule: "casette-on-body".into() };
    let refused = told(&asking.get_rule(rule).await.expect_err("no such rule"));
    assert_eq!((refused.code, refused.nearest.as_str()), (Code::NotFound, "cassette-on-body"));
    for request in [
        pb::ListRulesRequest { page_size: -1, ..Default::default() },
        pb::ListRulesRequest { page_token: "not-a-mating".into(), ..Default::default() },
    ] {
        let refused = told(&asking.list_rules(request).await.expect_err("a wrong page"));
        assert_eq!(refused.code, Code::InvalidArgument);
    }

    let mut keeping = bench.keeping().await;
    let class = |name: &str| pb::ListInterfacesRequest { interface_class: name.into() };
    let found = keeping.list_interfaces(class("freehub")).await.expect("a class").into_inner().interfaces;
    assert!(found.iter().any(|interface| interface.key == "spline-9"));
    let refused = told(&keeping.list_interfaces(class("frehub")).await.expect_err("no such class"));
    assert_eq!((refused.code, refused.nearest.as_str()), (Code::NotFound, "freehub"));
}
