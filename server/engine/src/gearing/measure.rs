//! From a ratio to the road: development, gear inches, gain ratio, speed and cadence.
//!
//! All of them are as good as the circumference, about 2 % where that comes from a chart or a formula;
//! ratios, steps and ranges are exact.

use std::f64::consts::PI;

use super::fault::{Fault, whole};
use super::ratio::Ratio;

/// Millimetres in an inch, exact by definition.
pub const MM_PER_INCH: f64 = 25.4;
/// Kilometres in a mile, exact by definition.
pub const KM_PER_MILE: f64 = 1.609_344;
/// Smallest and largest circumference answered, in micrometres.
pub const CIRCUMFERENCE_UM: (u32, u32) = (300_000, 3_500_000);
/// Smallest and largest crank length answered, in micrometres.
pub const CRANK_UM: (u32, u32) = (80_000, 250_000);
/// Smallest and largest cadence answered, in turns per minute.
pub const CADENCE_RPM: (u16, u16) = (10, 250);
/// Smallest and largest speed answered, in metres per hour.
pub const SPEED_M_PER_H: (u32, u32) = (500, 150_000);

/// Distance that the wheel rolls in one turn, 300 to 3500 mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Circumference(u32);

impl Circumference {
    /// From micrometres.
    ///
    /// # Errors
    /// Outside 300 to 3500 mm.
    pub fn from_um(field: &str, um: u32) -> Result<Self, Fault> {
        let (min, max) = CIRCUMFERENCE_UM;
        whole(field, um, min, max, "um").map(Self)
    }

    /// In micrometres.
    #[must_use]
    pub const fn um(self) -> u32 {
        self.0
    }

    /// In metres.
    #[must_use]
    pub fn metres(self) -> f64 {
        f64::from(self.0) / 1e6
    }
}

/// Metres travelled per crank turn.
#[must_use]
pub fn development_m(ratio: Ratio, circumference: Circumference) -> f64 {
    ratio.as_f64() * circumference.metres()
}

/// Gear inches from the rolled circumference: ratio x circumference / pi.
#[must_use]
pub fn gear_inches(ratio: Ratio, circumference: Circumference) -> f64 {
    development_m(ratio, circumference) * 1000.0 / (MM_PER_INCH * PI)
}

/// Gear inches of the older convention, from a nominal wheel diameter in quarter inches (27 in = 108).
#[must_use]
pub fn gear_inches_nominal(ratio: Ratio, diameter_quarter_inches: u16) -> f64 {
    let quarters = f64::from(diameter_quarter_inches);
    ratio.num() as f64 * quarters / 4.0 / ratio.den() as f64
}

/// Gain ratio: way of the wheel over way of the pedal, without a unit.
///
/// `crank_um` is the crank length in micrometres; it is checked by [`range`](super::range), and zero counts
/// as one.
#[must_use]
pub fn gain_ratio(ratio: Ratio, circumference: Circumference, crank_um: u32) -> f64 {
    let crank_m = f64::from(crank_um.max(1)) / 1e6;
    development_m(ratio, circumference) / (2.0 * PI * crank_m)
}

/// Speed in km/h at a cadence in turns per minute.
#[must_use]
pub fn speed_kmh(ratio: Ratio, circumference: Circumference, cadence_rpm: u16) -> f64 {
    development_m(ratio, circumference) * f64::from(cadence_rpm) * 0.06
}

/// Speed in miles per hour at a cadence in turns per minute.
#[must_use]
pub fn speed_mph(ratio: Ratio, circumference: Circumference, cadence_rpm: u16) -> f64 {
    speed_kmh(ratio, circumference, cadence_rpm) / KM_PER_MILE
}

/// Cadence in turns per minute at a speed in metres per hour.
#[must_use]
pub fn cadence_rpm(ratio: Ratio, circumference: Circumference, speed_m_per_h: u32) -> f64 {
    f64::from(speed_m_per_h) / 60.0 / development_m(ratio, circumference)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn scaling_the_wheel_scales_development_and_speed(
            front in 18_u64..=80, rear in 8_u64..=60, um in 300_000_u32..=1_700_000, rpm in 10_u16..=250,
        ) {
            let ratio = Ratio::new(front, rear).unwrap();
            let once = Circumference::from_um("wheel", um).unwrap();
            let twice = Circumference::from_um("wheel", 2 * um).unwrap();
            let close = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-12;
            prop_assert!(close(development_m(ratio, twice), 2.0 * development_m(ratio, once)));
            prop_assert!(close(speed_kmh(ratio, twice, rpm), 2.0 * speed_kmh(ratio, once, rpm)));
            prop_assert!(close(gear_inches(ratio, twice), 2.0 * gear_inches(ratio, once)));
        }

        #[test]
        fn cadence_undoes_speed(
            front in 18_u64..=80,
            rear in 8_u64..=60,
            um in 300_000_u32..=3_500_000,
            speed in 500_u32..=150_000,
        ) {
            let ratio = Ratio::new(front, rear).unwrap();
            let wheel = Circumference::from_um("wheel", um).unwrap();
            let back = development_m(ratio, wheel) * cadence_rpm(ratio, wheel, speed) * 60.0;
            prop_assert!((back / f64::from(speed) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_wheel_of_no_size_is_refused() {
        for um in [0, 299_999, 3_500_001, u32::MAX] {
            assert_eq!(Circumference::from_um("rollout", um).unwrap_err().code(), "out-of-range");
        }
    }
}
