//! Cases for a general-purpose numeric library: `tests/foreign/reference.py` solves them again and compares.

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use sprag_engine::gearing::Ratio;
use sprag_engine::gearing::chain::{Stay, loop_pitches};
use sprag_engine::gearing::climb::{Coefficients, Rider, gear_needed, gradient_held};
use sprag_engine::gearing::inertia::cassette;
use sprag_engine::gearing::measure::Circumference;

/// Cases of each kind.
const CASES: usize = 1_000;

/// Prints a JSON line for each case, the same ones each time: what is asked, and what the engine answers.
#[test]
#[ignore = "prints cases for tests/foreign/reference.py"]
fn reference_cases() {
    let mut runner = TestRunner::deterministic();
    let numbers = (18_u16..=80, 8_u16..=60, 300_000_u32..=1_200_000, 300_000_u32..=2_800_000);
    let rider = (30_u32..=600, 40_u32..=250, 30_u32..=120, 1_u32..=400);
    let road = (900_u32..=1000, 20_u32..=150, 200_u32..=7_000, 700_u32..=1_300, -800_i32..=800);
    let cogs = proptest::collection::vec((8_u16..=60, 1_000_u32..=200_000), 1..=14);
    let cases = (numbers, rider, road, cogs);
    for _ in 0..CASES {
        let ((ring, cog, stay_um, wheel_um), rider, road, cogs) =
            cases.new_tree(&mut runner).expect("a case").current();
        let stay = Stay::from_um("stay", stay_um).expect("within the limits");
        let wheel = Circumference::from_um("wheel", wheel_um).expect("within the limits");
        let ratio = Ratio::new(ring.into(), cog.into()).expect("teeth");
        let coefficients = Coefficients {
            efficiency: f64::from(road.0) / 1e3,
            rolling: f64::from(road.1) / 1e4,
            drag_area_m2: f64::from(road.2) / 1e4,
            air_kg_m3: f64::from(road.3) / 1e3,
            headwind: f64::from(road.4) / 1e2,
            ..Coefficients::default()
        };
        let (power_w, mass_kg) = (f64::from(rider.0), f64::from(rider.1));
        let cadence_rpm = f64::from(rider.2);
        let gradient = f64::from(rider.3) / 1e3;
        let rider = Rider { power_w, mass_kg, cadence_rpm, coefficients };
        let held = gradient_held(&rider, ratio, wheel).expect("within the limits");
        let needed = gear_needed(&rider, gradient, wheel).expect("within the limits");
        let line = serde_json::json!({
            "ring": ring, "cog": cog, "stay_um": stay_um, "wheel_um": wheel_um,
            "power_w": power_w, "mass_kg": mass_kg, "cadence_rpm": cadence_rpm, "gradient": gradient,
            "efficiency": coefficients.efficiency, "rolling": coefficients.rolling,
            "drag_area_m2": coefficients.drag_area_m2, "wheel_drag_area_m2": coefficients.wheel_drag_area_m2,
            "air_kg_m3": coefficients.air_kg_m3, "gravity": coefficients.gravity,
            "headwind": coefficients.headwind, "cogs": cogs,
            "loop_pitches": loop_pitches(ring, cog, stay),
            "gradient_held": held.gradient, "speed_needed": needed.speed,
            "inertia_kg_m2": cassette(&cogs).expect("within the limits").kg_m2(),
        });
        println!("{line}");
    }
}
