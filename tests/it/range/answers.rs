//! What an answer says, against values from outside the project.
//!
//! "Recomputed" means: worked out separately in double precision from the trade's standard definitions or from the
//! road-power model published in the Journal of Applied Biomechanics 14(3), 1998, printed to six significant digits.

use sprag_proto::text::message_from_json;
use sprag_proto::v1 as pb;
use sprag_proto::v1::import_parts_request::Piece;
use sprag_proto::v1::wheel_size::Size;

use super::{Service, build, cassette, described, request};

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 5e-6 * expected.abs(), "found {found}, expected {expected}");
}

async fn ask(request: pb::RangeRequest) -> pb::RangeResponse {
    Service::start().await.range(request).await.unwrap()
}

/// The teeth of gears by their places.
fn names(answer: &pb::GearingAnswer, places: &[i32]) -> Vec<(i32, i32)> {
    let name = |place: &i32| {
        let gear = &answer.gears[usize::try_from(*place).unwrap()];
        (gear.ring, gear.cog)
    };
    places.iter().map(name).collect()
}

/// Standard definitions: a step of 20 % is a cadence change of -16.6667 %. Shift order: common practice, no source.
#[tokio::test(flavor = "multi_thread")]
async fn steps_order_and_distinct_gears() {
    let answer = ask(request()).await.answers.remove(0);
    let lowest = &answer.gears[0];
    assert_eq!((lowest.step_percent, lowest.cadence_change_percent), (None, None));
    for gear in &answer.gears[1..] {
        let (step, cadence) = (gear.step_percent.unwrap(), gear.cadence_change_percent.unwrap());
        assert!(((1.0 + step / 100.0) * (1.0 + cadence / 100.0) - 1.0).abs() < 1e-12);
    }
    let order = answer.shift_order.as_ref().unwrap();
    assert_eq!(order.ring_changes.len(), 1);
    let change = order.ring_changes[0];
    assert_eq!((change.rear_shifts, change.compensating_shifts), (3, 4));
    assert_eq!(names(&answer, &[change.from_gear, change.to_gear]), [(34, 13), (50, 17)]);
    assert_eq!(names(&answer, &order.crossover)[0], (34, 32));
    assert!(order.sequential.windows(2).all(|pair| pair[0] < pair[1]));
    assert!(answer.distinct_gears > 11 && answer.distinct_gears < 22, "{}", answer.distinct_gears);
}

/// The loop over 50 x 32 at 430 mm by the published closed form: 67.7165 + 41 + 0.2424 pitches, plus two, up to even.
#[tokio::test(flavor = "multi_thread")]
async fn chain_to_order_and_the_chain_that_is_there() {
    let service = Service::start().await;
    let chain = async |links: i64| {
        let mut asked = request();
        let pb::part::Kind::Chain(chain) = described(build(&mut asked), 3) else { panic!("no chain") };
        let set = Some(pb::integer_value::Set::Exact(links));
        chain.link_count = Some(pb::IntegerValue { set, origin: 0 });
        service.range(asked).await.unwrap().answers.remove(0).chain.unwrap()
    };
    let enough = chain(116).await;
    assert!((enough.big_big_links - 108.959).abs() < 0.01, "{}", enough.big_big_links);
    assert_eq!(enough.links, 112);
    assert!((enough.rounding_links - (112.0 - 2.0 - enough.big_big_links)).abs() < 1e-9);
    assert_eq!((enough.long_enough, enough.spare_links, enough.missing_links), (Some(true), Some(4), None));
    let short = chain(111).await;
    assert_eq!((short.long_enough, short.spare_links, short.missing_links), (Some(false), None, Some(2)));
    assert!(!short.caution.is_empty());
}

/// Recomputed rows: 200 W, 85 kg, 10 %, 60 turns, 2105 mm; and 150 W, 100 kg, 12 %, 60 turns, 2136 mm, which no gear
/// cures.
#[tokio::test(flavor = "multi_thread")]
async fn a_hill_says_what_it_needs_and_what_no_gear_cures() {
    let service = Service::start().await;
    let hill = async |power_w: i32, system_mass_kg: i32, gradient: i32, roll_out_um: i64| {
        let mut asked = request();
        build(&mut asked).wheel_size = Some(pb::WheelSize { size: Some(Size::RollOutUm(roll_out_um)) });
        asked.hill = Some(pb::Hill {
            power_w,
            system_mass_kg,
            cadence_rpm: 60,
            gradient_permille: Some(gradient),
            coefficients: None,
        });
        service.range(asked).await.unwrap().answers.remove(0).hill.unwrap()
    };
    let first = hill(200, 85, 100, 2_105_000).await;
    near(first.ratio_needed.unwrap(), 1.04987);
    near(first.development_needed_m.unwrap(), 2.20999);
    near(first.gear_inches_needed.unwrap(), 27.6953);
    near(first.climb_needed_m_per_h.unwrap(), 791.647);
    assert_eq!((first.cure, first.low_enough), (Some(true), Some(false)));
    let cog = first.cogs_needed[0];
    assert_eq!((cog.ring, cog.teeth, cog.not_made), (34, 33, false));
    near(cog.exact_teeth, 32.3848);
    let used = first.coefficients.unwrap();
    assert_eq!((used.efficiency_e5, used.rolling_resistance_e4, used.drag_area_cm2), (97_698, 50, 4_000));
    let hopeless = hill(150, 100, 120, 2_136_000).await;
    near(hopeless.ratio_needed.unwrap(), 0.561433);
    assert_eq!((hopeless.cure, hopeless.below_balance_speed), (Some(false), true));
    assert!(hopeless.cogs_needed.is_empty());
}

/// The 11-32 cassette of 272 g: 3.87165 g at the rim with assumed masses of each cog, recomputed; here only the whole
/// mass is known. The felt mass of added grams is 1 to 10 % above the plain one.
#[tokio::test(flavor = "multi_thread")]
async fn turning_stands_beside_plain_mass() {
    let mut asked = request();
    let mut heavier = asked.subjects[0].clone();
    heavier.build.as_mut().unwrap().build_id = "heavier".into();
    asked.subjects.push(heavier);
    let mut other = pb::RangeRequest { subjects: vec![asked.subjects[1].clone()], ..Default::default() };
    let set = Some(pb::integer_value::Set::Exact(422));
    cassette(&mut other).mass_g = Some(pb::IntegerValue { set, origin: 0 });
    asked.subjects[1] = other.subjects.remove(0);
    let answer = ask(asked).await;
    let cogs = answer.answers[0].cog_mass.unwrap();
    near(cogs.mass_g, 272.0);
    assert!((cogs.at_rim_g.unwrap() / 3.871_65 - 1.0).abs() < 0.15, "{cogs:?}");
    assert!(cogs.effective_g.unwrap() > cogs.mass_g && cogs.effective_g.unwrap() < cogs.mass_g * 1.02);
    let change = answer.differences[0].cog_mass.unwrap();
    near(change.mass_g, 150.0);
    assert!((150.5..165.0).contains(&change.effective_g.unwrap()), "{change:?}");
}

/// Side by side with itself a build differs by nothing.
#[tokio::test(flavor = "multi_thread")]
async fn a_build_against_itself_differs_by_nothing() {
    let mut asked = request();
    asked.subjects.push(asked.subjects[0].clone());
    let found = ask(asked).await.differences.remove(0);
    let names = pb::GearingDifference {
        build_id: "today".into(),
        against_build_id: "today".into(),
        links: Some(0),
        cog_mass: Some(pb::CogMass { mass_g: 0.0, at_rim_g: Some(0.0), effective_g: Some(0.0) }),
        lowest_development_percent: Some(0.0),
        highest_development_percent: Some(0.0),
        ..pb::GearingDifference::default()
    };
    assert_eq!(found, names);
}

/// Price and lost and gained gears of a change, from the shelf.
#[tokio::test(flavor = "multi_thread")]
async fn a_change_has_its_price_where_currencies_agree() {
    let service = Service::start().await;
    let rows = concat!(
        r#"{"sku": "WIDE", "price": "49.90 EUR", "cassette": {"cogs": [11, 13, 16, 20, 26, 36], "mass": "400 g"}}"#,
        "\n",
        r#"{"sku": "CHAIN", "price": "3000 JPY", "chain": {"link_count": 116}}"#,
        "\n",
    );
    let header = pb::ImportHeader { format: pb::FileFormat::Ndjson.into(), ..pb::ImportHeader::default() };
    let pieces = [Piece::Header(header), Piece::Chunk(rows.into())];
    let pieces = pieces.map(|piece| pb::ImportPartsRequest { piece: Some(piece) });
    let done = service.catalogue().await.import_parts(tokio_stream::iter(pieces)).await.unwrap();
    assert!(done.get_ref().published, "{done:?}");
    let change = |sku: &str| {
        let change: pb::Change = message_from_json(&serde_json::json!({"fit": {"sku": sku}})).unwrap();
        change
    };
    let asked = async |changes: Vec<pb::Change>| {
        let mut asked = request();
        let before = asked.subjects[0].clone();
        asked.subjects.push(pb::RangeSubject { changes, ..before });
        service.range(asked).await.unwrap().differences.remove(0)
    };
    let found = asked(vec![change("WIDE")]).await;
    assert_eq!(found.price, Some(pb::Money { currency_code: "EUR".into(), minor_units: 4990 }));
    assert!(found.gained.iter().any(|gear| (gear.ring, gear.cog) == (34, 36)));
    assert!(found.lost.iter().any(|gear| (gear.ring, gear.cog) == (34, 32)));
    assert_eq!((found.mass_g, found.cog_mass.unwrap().mass_g), (128, 128.0));
    assert_eq!(asked(vec![change("WIDE"), change("CHAIN")]).await.price, None);
}

/// A maker's least ratio of ring to cog is a limit of the hub: 38 x 21 is 1.81. The limit itself is invented.
#[tokio::test(flavor = "multi_thread")]
async fn a_hub_that_is_overloaded_is_told_with_caution() {
    let service = Service::start().await;
    let primary = async |ring: i64| {
        let asked = serde_json::json!({"subjects": [{"build": {"parts": [
            {"described": {"gear_hub": {"hub_ratios": [0.53, 0.75, 1, 1.42], "min_primary_ratio": 1.9}}},
            {"described": {"sprocket": {"teeth": 21}}},
            {"described": {"chainring": {"teeth": ring}}}
        ]}}]});
        let asked = message_from_json(&asked).unwrap();
        service.range(asked).await.unwrap().answers.remove(0)
    };
    let light = primary(38).await.primary.unwrap();
    assert!(light.below_limit && !light.caution.is_empty());
    assert_eq!(light.lowest, Some(pb::Ratio { numerator: 38, denominator: 21 }));
    let strong = primary(42).await;
    assert!(!strong.primary.as_ref().unwrap().below_limit);
    assert!(strong.shift_order.unwrap().crossover.is_empty(), "internal ratios have no crossover order");
}
