//! Hills and inertia against a published worked example and recomputed tables.
//!
//! "Recomputed" means: worked out separately in double precision and printed to six significant digits.
#![allow(clippy::unwrap_used)] // helpers of tests stand outside the test functions

use std::f64::consts::PI;

use sprag_engine::gearing::Ratio;
use sprag_engine::gearing::climb::{
    Acceleration, Coefficients, Rider, gear_needed, gradient_held, headwind, power,
};
use sprag_engine::gearing::inertia::{cassette, hoop};
use sprag_engine::gearing::measure::{Circumference, gear_inches};
use sprag_engine::gearing::sprocket::Sprocket;

/// Six significant digits.
const SIX: f64 = 5e-6;

#[track_caller]
fn near(found: f64, expected: f64, relative: f64) {
    assert!((found - expected).abs() <= relative * expected.abs(), "found {found}, expected {expected}");
}

fn wheel(mm: u32) -> Circumference {
    Circumference::from_um("wheel", mm * 1000).unwrap()
}

fn rider(power_w: f64, mass_kg: f64, cadence_rpm: f64) -> Rider {
    Rider { power_w, mass_kg, cadence_rpm, coefficients: Coefficients::default() }
}

/// The worked example of the road-power model in the Journal of Applied Biomechanics 14(3), 1998, its inputs
/// and rounded result (213 W) as recreated in the test of an open-source cycling-physics package. Rolling
/// resistance, wheel inertia, efficiency and gravity are from memory; they reproduce the published total.
#[test]
fn the_papers_example() {
    let coefficients = Coefficients {
        efficiency: 0.97698,
        rolling: 0.0032,
        drag_area_m2: 0.2565,
        wheel_drag_area_m2: 0.0044,
        air_kg_m3: 1.2234,
        gravity: 9.81,
        headwind: headwind(2.94, 310.0, 340.0),
    };
    let speed = 471.8 / 56.42;
    near(speed, 8.36228, SIX);
    near(speed + coefficients.headwind, 10.9084, SIX);
    let change =
        Acceleration { from: 8.28, to: 8.45, seconds: 56.42, wheel_inertia: 0.14, wheel_radius: 0.311 };
    let found = power(&coefficients, 90.0, speed, 0.003, Some(change)).unwrap();
    assert!((found.total - 213.0).abs() <= 0.5, "published 213 W, found {}", found.total);
    near(found.total, 213.159, SIX);
    near(found.total * coefficients.efficiency, 208.252, SIX);
    near(found.aero, 158.803, SIX);
    near(found.rolling, 23.6257, SIX);
    near(found.bearings, 1.36934, SIX);
    near(found.potential, 22.1491, SIX);
    near(found.kinetic, 2.30491, SIX);
    let standard = Coefficients { gravity: 9.80665, ..coefficients };
    near(power(&standard, 90.0, speed, 0.003, Some(change)).unwrap().total, 213.143, SIX);
}

/// Gradient held in a gear, recomputed with the default coefficients.
#[test]
fn gradients_held() {
    let rows = [
        (200.0, 85.0, 34, 34, 2105, 60.0, 2.10500, 10.5510),
        (200.0, 85.0, 34, 28, 2105, 60.0, 2.55607, 8.49618),
        (250.0, 80.0, 34, 32, 2136, 70.0, 2.64775, 11.0935),
        (150.0, 100.0, 30, 34, 2136, 60.0, 1.88471, 7.34849),
        (180.0, 95.0, 32, 51, 2326, 60.0, 1.45945, 12.4622),
        (300.0, 75.0, 36, 30, 2105, 80.0, 3.36800, 11.0064),
    ];
    for (watts, kg, front, rear, mm, rpm, speed, percent) in rows {
        let held =
            gradient_held(&rider(watts, kg, rpm), Ratio::new(front, rear).unwrap(), wheel(mm)).unwrap();
        near(held.speed, speed, SIX);
        near(held.gradient * 100.0, percent, 1e-4);
        assert!(!held.validity.walking);
    }
}

/// Gear needed for a gradient, recomputed with the default coefficients; cogs for a ring of 34 teeth. The
/// fourth row is slower than walking, the fifth slower than 5 km/h.
#[test]
fn gears_needed() {
    let rows = [
        (200.0, 85.0, 0.10, 60.0, 2105, [2.20999, 2.20999, 1.04987, 27.6953, 32.3848], 33),
        (200.0, 85.0, 0.08, 70.0, 2105, [2.69411, 2.30924, 1.09702, 28.9391, 30.9929], 31),
        (250.0, 80.0, 0.10, 70.0, 2136, [2.90232, 2.48770, 1.16465, 31.1756, 29.1932], 30),
        (150.0, 100.0, 0.12, 60.0, 2136, [1.19922, 1.19922, 0.561433, 15.0285, 60.5593], 61),
        (180.0, 95.0, 0.15, 60.0, 2326, [1.22701, 1.22701, 0.527519, 15.3768, 64.4526], 65),
    ];
    for (index, (watts, kg, gradient, rpm, mm, [speed, development, ratio, inches, exact], teeth)) in
        rows.into_iter().enumerate()
    {
        let needed = gear_needed(&rider(watts, kg, rpm), gradient, wheel(mm)).unwrap();
        near(needed.speed, speed, 1e-5);
        near(needed.development_m, development, 1e-5);
        near(needed.ratio, ratio, 1e-5);
        near(needed.development_m * 1000.0 / (25.4 * PI), inches, 1e-5);
        let cog = needed.cog_for(34, Ratio::ONE);
        near(cog.exact, exact, 1e-5);
        assert_eq!((cog.teeth, cog.exists), (teeth, teeth <= 60));
        assert_eq!((needed.validity.walking, needed.cure), (index == 3, index != 3));
        assert_eq!(needed.validity.balance_limits, index >= 3);
        let (met, missed) =
            (Ratio::new(34, teeth.into()).unwrap(), Ratio::new(34, u64::from(teeth) - 1).unwrap());
        assert!(needed.met_by(met) && !needed.met_by(missed));
    }
    let smaller_ring = |watts, kg, gradient, mm, ring| {
        gear_needed(&rider(watts, kg, 60.0), gradient, wheel(mm)).unwrap().cog_for(ring, Ratio::ONE).exact
    };
    assert!((smaller_ring(150.0, 100.0, 0.12, 2136, 22) - 39.19).abs() <= 0.005);
    assert!((smaller_ring(180.0, 95.0, 0.15, 2326, 26) - 49.29).abs() <= 0.005);
}

/// Where the power goes in the first row of the table above, recomputed.
#[test]
fn shares_of_the_power() {
    let needed = gear_needed(&rider(200.0, 85.0, 60.0), 0.10, wheel(2105)).unwrap();
    let parts = power(&Coefficients::default(), 85.0, needed.speed, 0.10, None).unwrap();
    let at_the_wheel = parts.total * Coefficients::default().efficiency;
    let share = |part: f64| part / at_the_wheel * 100.0;
    near(share(parts.potential), 93.8428, 1e-5);
    near(share(parts.rolling), 4.69214, 1e-5);
    near(share(parts.aero), 1.34034, 1e-5);
    near(share(parts.bearings), 0.124670, 1e-5);
    near(needed.climb_m_per_h, 791.647, 1e-5);
    near(gear_inches(Ratio::new(34, 34).unwrap(), wheel(2105)), 26.3796, SIX);
}

/// 150 g at several radii on a cassette, with a rim radius of 311 mm and a rolling radius of 335 mm,
/// recomputed.
#[test]
fn turning_mass() {
    let pitch_um = |teeth| (Sprocket::new(teeth).unwrap().pitch_diameter_mm() * 500.0).round() as u32;
    let rows = [
        (60_000, 5.40000e-4, 5.58307, 154.812),
        (pitch_um(36), 7.96245e-4, 8.23239, 157.095),
        (pitch_um(51), 1.59598e-3, 16.5009, 164.221),
        (311_000, 1.45082e-2, 150.0, 279.277),
    ];
    for (radius_um, kg_m2, at_rim, effective) in rows {
        let found = hoop(150_000, radius_um);
        near(found.kg_m2(), kg_m2, 1e-5);
        near(found.mass_at_radius_g(311_000).unwrap(), at_rim, 1e-5);
        near(found.effective_mass_g(150_000, 335_000).unwrap(), effective, SIX);
    }
    // At 10 m/s: half I (v/R)^2.
    near(0.5 * hoop(150_000, 60_000).kg_m2() * (10.0_f64 / 0.335).powi(2), 0.240588, SIX);
}

/// An 11-32 cassette of 272 g with assumed cog masses and an assumed bore, recomputed.
#[test]
fn inertia_of_a_cassette() {
    let cogs = [
        (11, 8_000),
        (12, 9_000),
        (13, 10_000),
        (14, 12_000),
        (15, 14_000),
        (17, 18_000),
        (19, 22_000),
        (21, 27_000),
        (24, 36_000),
        (28, 50_000),
        (32, 66_000),
    ];
    let found = cassette(&cogs).unwrap();
    near(found.kg_m2(), 3.74470e-4, SIX);
    near((found.kg_m2() / 0.272).sqrt() * 1000.0, 37.1043, SIX);
    near(found.mass_at_radius_g(311_000).unwrap(), 3.87165, SIX);
    near(found.kg_m2() / 0.14 * 100.0, 0.267478, SIX);
}
