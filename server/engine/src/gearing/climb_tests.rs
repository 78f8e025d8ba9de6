//! Hills: guards, faults and laws.

use proptest::prelude::*;

use super::*;

fn rider(power_w: f64, mass_kg: f64, cadence_rpm: f64) -> Rider {
    Rider { power_w, mass_kg, cadence_rpm, coefficients: Coefficients::default() }
}

fn wheel(um: u32) -> Circumference {
    Circumference::from_um("wheel", um).unwrap()
}

#[test]
fn walking_pace_is_never_a_cure() {
    let slow = gear_needed(&rider(150.0, 100.0, 60.0), 0.12, wheel(2_136_000)).unwrap();
    assert!(slow.validity.walking && !slow.cure);
    // 1.4 m/s at 80 turns is ridden, but the gear it asks for walks at 60.
    let spun = gear_needed(&rider(150.0, 100.0, 80.0), 0.1, wheel(2_136_000)).unwrap();
    assert!(!spun.validity.walking && !spun.cure);
    let fine = gear_needed(&rider(200.0, 85.0, 60.0), 0.10, wheel(2_105_000)).unwrap();
    assert!(fine.cure && !fine.validity.balance_limits);
}

#[test]
fn all_bad_numbers_are_told() {
    let mut bad = rider(f64::NAN, -1.0, f64::INFINITY);
    bad.coefficients.rolling = 7.0;
    let faults = gear_needed(&bad, f64::NEG_INFINITY, wheel(2_105_000)).unwrap_err();
    let fields: Vec<_> = faults.iter().map(Fault::field).collect();
    assert_eq!(fields, ["hill.rolling", "hill.power", "hill.mass", "hill.cadence", "hill.gradient"]);
    assert_eq!(gradient_held(&bad, Ratio::ONE, wheel(2_105_000)).unwrap_err().len(), 4);
    assert!(power(&Coefficients::default(), 85.0, f64::NAN, 0.0, None).is_err());
}

#[test]
fn a_gear_too_fast_for_the_model_is_refused() {
    let ratio = Ratio::new(80, 8).unwrap();
    let faults = gradient_held(&rider(200.0, 85.0, 250.0), ratio, wheel(3_000_000)).unwrap_err();
    assert_eq!(faults[0].field(), "hill.speed");
}

proptest! {
    #[test]
    fn gear_and_gradient_undo_each_other(
        watts in 80.0..600.0,
        kg in 50.0..200.0,
        rpm in 40.0..110.0,
        gradient in 0.02..0.3,
        um in 1_000_000_u32..2_500_000,
    ) {
        let (rider, wheel) = (rider(watts, kg, rpm), wheel(um));
        let needed = gear_needed(&rider, gradient, wheel).unwrap();
        // A ratio as close to the needed one as millionths allow.
        let ratio = Ratio::new((needed.ratio * 1e9).round() as u64, 1_000_000_000).unwrap();
        let held = gradient_held(&rider, ratio, wheel).unwrap();
        prop_assert!((held.gradient / gradient - 1.0).abs() < 1e-4);
        prop_assert!((held.speed / needed.speed - 1.0).abs() < 1e-5);
    }

    #[test]
    fn a_lower_gear_never_holds_less(
        teeth in 8_u64..59,
        watts in 20.0..2500.0,
        kg in 20.0..500.0,
        rpm in 10.0..120.0,
    ) {
        let rider = rider(watts, kg, rpm);
        let held = |cog| gradient_held(&rider, Ratio::new(34, cog).unwrap(), wheel(2_105_000)).unwrap();
        prop_assert!(held(teeth + 1).gradient >= held(teeth).gradient);
        prop_assert!(held(teeth).gradient.is_finite());
    }

    #[test]
    fn any_allowed_wind_gives_a_finite_answer(
        wind in -20.0..20.0,
        gradient in 0.0..1.0,
        watts in 20.0..2500.0,
    ) {
        let mut rider = rider(watts, 80.0, 60.0);
        rider.coefficients.headwind = wind;
        let needed = gear_needed(&rider, gradient, wheel(2_105_000)).unwrap();
        prop_assert!(needed.speed > 0.0 && needed.ratio.is_finite());
        prop_assert!((rider.needs(needed.speed, gradient) - watts).abs() < 1e-3 || needed.speed > 59.9);
    }
}
