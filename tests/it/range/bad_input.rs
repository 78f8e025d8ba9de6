//! Nonsense is told under the field that it stands in, and never becomes an answer.

use sprag_proto::v1 as pb;
use sprag_proto::v1::wheel_size::Size;
use tonic::Code;
use tonic_types::StatusExt;

use super::{Service, build, cassette, described, request};

type Change = Box<dyn Fn(&mut pb::RangeRequest)>;

/// What is done to a good request, and the field that is told.
fn cases() -> Vec<(&'static str, Change)> {
    let mut cases = parts();
    cases.extend(numbers());
    cases.extend(wheels());
    cases.extend(hills());
    cases
}

fn list(values: impl IntoIterator<Item = i64>) -> Option<pb::ListValue> {
    Some(pb::ListValue { values: values.into_iter().collect(), origin: 0 })
}

fn exact(value: i64) -> Option<pb::IntegerValue> {
    Some(pb::IntegerValue { set: Some(pb::integer_value::Set::Exact(value)), origin: 0 })
}

fn add(request: &mut pb::RangeRequest, kind: pb::part::Kind) {
    let part = pb::Part { kind: Some(kind), ..pb::Part::default() };
    let part = Some(pb::fitted_part::Part::Described(part));
    build(request).parts.push(pb::FittedPart { part, ..pb::FittedPart::default() });
}

fn crankset(request: &mut pb::RangeRequest, rings: impl IntoIterator<Item = i64>) {
    match described(build(request), 2) {
        pb::part::Kind::Crankset(crankset) => crankset.rings = list(rings),
        other => panic!("{other:?} is no crankset"),
    }
}

fn parts() -> Vec<(&'static str, Change)> {
    const COGS: &str = "subjects[0].build.parts[1].described.cassette.cogs";
    const RINGS: &str = "subjects[0].build.parts[2].described.crankset.rings";
    let cogs = |values: Vec<i64>| -> Change { Box::new(move |it| cassette(it).cogs = list(values.clone())) };
    vec![
        (COGS, cogs(vec![0, 12])),
        (COGS, cogs(vec![-11, 12])),
        (COGS, cogs(vec![12, i64::MAX])),
        (COGS, cogs(vec![i64::MIN])),
        (COGS, cogs(vec![13, 11])),
        (COGS, cogs(vec![11, 11])),
        (COGS, cogs(Vec::new())),
        (COGS, cogs((10..60).collect())),
        (RINGS, Box::new(|it| crankset(it, [0]))),
        (RINGS, Box::new(|it| crankset(it, [-34]))),
        (RINGS, Box::new(|it| crankset(it, (0..14).map(|index| 60 - index)))),
        (
            "subjects[0].build.parts",
            Box::new(|it| {
                for teeth in 30..44 {
                    let ring = pb::Chainring { teeth: exact(teeth), ..pb::Chainring::default() };
                    add(it, pb::part::Kind::Chainring(ring));
                }
            }),
        ),
        (
            "subjects[0].build.parts[0].described.frame.chainstay_um",
            Box::new(|it| match described(build(it), 0) {
                pb::part::Kind::Frame(frame) => frame.chainstay_um = exact(40_000),
                other => panic!("{other:?} is no frame"),
            }),
        ),
        (
            // 600 internal ratios x 2 rings x 11 cogs are 13 200 gears.
            "subjects[0].build.parts",
            Box::new(|it| {
                let hub = pb::GearHub { hub_ratios_permille: list(300..900), ..pb::GearHub::default() };
                add(it, pb::part::Kind::GearHub(hub));
            }),
        ),
        ("subjects[0].build.parts", Box::new(|it| build(it).parts.clear())),
        ("subjects[0].build.parts", Box::new(|it| drop(build(it).parts.remove(1)))),
        ("subjects", Box::new(|it| it.subjects.clear())),
        ("subjects", Box::new(|it| it.subjects = vec![it.subjects[0].clone(); 33])),
    ]
}

fn numbers() -> Vec<(&'static str, Change)> {
    let cadence = |value: i32| -> Change { Box::new(move |it| it.cadences_rpm = vec![90, value]) };
    let speed = |value: f64| -> Change { Box::new(move |it| it.speeds_kmh = vec![value]) };
    let mut cases: Vec<(&'static str, Change)> = Vec::new();
    cases.extend([0, -90, 9, 251, i32::MAX, i32::MIN].map(|value| ("cadences_rpm[1]", cadence(value))));
    let wrong = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -1.0, 1e300, f64::MIN_POSITIVE];
    cases.extend(wrong.map(|value| ("speeds_kmh[0]", speed(value))));
    cases.push(("cadences_rpm", Box::new(|it| it.cadences_rpm = vec![90; 17])));
    cases.push(("speeds_kmh", Box::new(|it| it.speeds_kmh = vec![20.0; 10_000])));
    for tolerance in [-1, 501, i32::MAX] {
        let change: Change = Box::new(move |it| it.duplicate_tolerance_permille = tolerance);
        cases.push(("duplicate_tolerance_permille", change));
    }
    cases
}

fn wheels() -> Vec<(&'static str, Change)> {
    const ROLL_OUT: &str = "subjects[0].build.wheel_size.roll_out_um";
    const TYRE: &str = "subjects[0].build.wheel_size.tyre_designation";
    const NOMINAL: &str = "subjects[0].build.wheel_size.nominal_diameter_milli_inch";
    let wheel = |size: Size| -> Change {
        Box::new(move |it| build(it).wheel_size = Some(pb::WheelSize { size: Some(size.clone()) }))
    };
    let mut cases: Vec<(&'static str, Change)> = Vec::new();
    // A wheel of 3 m, and just over the largest roll-out.
    let wrong = [9_424_778, 3_500_001, 299_999, 0, -2_105_000, i64::MAX, i64::MIN];
    cases.extend(wrong.map(|um| (ROLL_OUT, wheel(Size::RollOutUm(um)))));
    let wrong = ["", "3000-622", "37-3000", "0-0", "26", "26 inch", "37-622-1", "-37-622", "NaN"];
    cases.extend(wrong.map(|text| (TYRE, wheel(Size::TyreDesignation(text.into())))));
    cases.push((TYRE, wheel(Size::TyreDesignation("9".repeat(100_000)))));
    let wrong = [118_110, 0, -27_000, 3_999, i64::MAX];
    cases.extend(wrong.map(|size| (NOMINAL, wheel(Size::NominalDiameterMilliInch(size)))));
    cases
}

fn hills() -> Vec<(&'static str, Change)> {
    let hill = |change: fn(&mut pb::Hill)| -> Change {
        Box::new(move |it| {
            let mut hill =
                pb::Hill { power_w: 200, system_mass_kg: 85, cadence_rpm: 60, ..pb::Hill::default() };
            hill.coefficients = Some(pb::RoadCoefficients::default());
            change(&mut hill);
            it.hill = Some(hill);
        })
    };
    let road = |change: fn(&mut pb::RoadCoefficients)| -> Change {
        Box::new(move |it| {
            let mut coefficients = pb::RoadCoefficients::default();
            change(&mut coefficients);
            it.hill = Some(pb::Hill {
                power_w: 200,
                system_mass_kg: 85,
                cadence_rpm: 60,
                gradient_permille: None,
                coefficients: Some(coefficients),
            });
        })
    };
    vec![
        ("hill.power_w", hill(|hill| hill.power_w = 0)),
        ("hill.power_w", hill(|hill| hill.power_w = i32::MAX)),
        ("hill.system_mass_kg", hill(|hill| hill.system_mass_kg = -85)),
        ("hill.cadence_rpm", hill(|hill| hill.cadence_rpm = 0)),
        ("hill.gradient_permille", hill(|hill| hill.gradient_permille = Some(0))),
        ("hill.gradient_permille", hill(|hill| hill.gradient_permille = Some(401))),
        ("hill.coefficients.efficiency_e5", road(|road| road.efficiency_e5 = 100_001)),
        ("hill.coefficients.rolling_resistance_e4", road(|road| road.rolling_resistance_e4 = -1)),
        ("hill.coefficients.drag_area_cm2", road(|road| road.drag_area_cm2 = 999)),
        ("hill.coefficients.wheel_drag_area_cm2", road(|road| road.wheel_drag_area_cm2 = 1001)),
        ("hill.coefficients.air_g_m3", road(|road| road.air_g_m3 = i32::MIN)),
        ("hill.coefficients.headwind_cm_s", road(|road| road.headwind_cm_s = 2001)),
        (
            "subjects[0].build.wheel_size",
            Box::new(|it| {
                build(it).wheel_size = None;
                it.hill = Some(pb::Hill {
                    power_w: 200,
                    system_mass_kg: 85,
                    cadence_rpm: 60,
                    ..pb::Hill::default()
                });
            }),
        ),
    ]
}

#[tokio::test(flavor = "multi_thread")]
async fn nonsense_is_told_under_its_field() {
    let service = Service::start().await;
    assert!(service.range(request()).await.is_ok());
    for (number, (field, change)) in cases().into_iter().enumerate() {
        let mut wrong = request();
        change(&mut wrong);
        let status = service.range(wrong).await.expect_err(field);
        assert_eq!(status.code(), Code::InvalidArgument, "case {number}, {field}: {status:?}");
        let faults = status.get_details_bad_request().expect("faults by field").field_violations;
        let told: Vec<&str> = faults.iter().map(|fault| fault.field.as_str()).collect();
        assert!(told.iter().any(|path| path.starts_with(field)), "case {number}, {field}: {told:?}");
        assert!(faults.iter().all(|fault| !fault.description.is_empty() && fault.description.len() < 1000));
    }
}

/// A bare "26 inch" can mean several bead seats: they are named, and none is guessed. Sources: ISO 5775 overview,
/// published table of traditional names.
#[tokio::test(flavor = "multi_thread")]
async fn an_ambiguous_wheel_is_told_with_its_candidates() {
    let service = Service::start().await;
    let mut asked = request();
    build(&mut asked).wheel_size =
        Some(pb::WheelSize { size: Some(Size::TyreDesignation("26 inch".into())) });
    let status = service.range(asked).await.expect_err("no guess");
    let faults = status.get_details_bad_request().expect("faults by field").field_violations;
    for bead_seat in ["559", "571", "590", "597", "584"] {
        assert!(faults[0].description.contains(bead_seat), "{}", faults[0].description);
    }
}
