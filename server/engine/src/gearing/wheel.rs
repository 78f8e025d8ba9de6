//! How far a wheel rolls in one turn, and where that number came from.

use std::f64::consts::PI;

use super::chart::printed_mm;
use super::designation::TyreSize;
use super::fault::Fault;
use super::measure::Circumference;

/// From this bead seat on the printed chart is asked before the formula, mm.
const CHART_FROM_BSD_MM: u16 = 559;
/// A caller's own roll-out, thousandths: tread wear and pressure move even a measured one by this much.
const CALLER_PERMILLE: u16 = 5;
/// Charts differ from each other by up to 2 %, and loaded tyres from the formula likewise.
const TABLE_PERMILLE: u16 = 20;

/// Where a circumference came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RolloutSource {
    /// Measured or stated by the caller.
    Caller,
    /// A published chart's row for exactly this tyre.
    Chart,
    /// Bead seat diameter plus twice the section width, times pi.
    Formula,
}

/// A circumference with its source and its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rollout {
    /// The circumference.
    pub circumference: Circumference,
    /// Where it came from.
    pub source: RolloutSource,
    /// How far it may be off, in thousandths either way: 5 for the caller's own, 20 for chart and formula.
    pub uncertainty_permille: u16,
}

/// The roll-out to use: the caller's own, else the printed chart for bead seats of 559 mm and more, else the
/// formula.
///
/// `None` if neither is given.
///
/// # Errors
/// A roll-out of the caller's outside 300 to 3500 mm.
pub fn rollout(own_um: Option<u32>, tyre: Option<TyreSize>) -> Result<Option<Rollout>, Fault> {
    let (um, source) = match (own_um, tyre) {
        (Some(um), _) => (um, RolloutSource::Caller),
        (None, Some(tyre)) => of_tyre(tyre),
        (None, None) => return Ok(None),
    };
    let circumference = Circumference::from_um("wheel.rollout", um)?;
    let uncertainty_permille = match source {
        RolloutSource::Caller => CALLER_PERMILLE,
        RolloutSource::Chart | RolloutSource::Formula => TABLE_PERMILLE,
    };
    Ok(Some(Rollout { circumference, source, uncertainty_permille }))
}

fn of_tyre(tyre: TyreSize) -> (u32, RolloutSource) {
    let asked = tyre.bsd_mm() >= CHART_FROM_BSD_MM;
    match printed_mm(tyre.width_mm(), tyre.bsd_mm()).filter(|_| asked) {
        Some(mm) => (u32::from(mm) * 1000, RolloutSource::Chart),
        None => (formula_um(tyre), RolloutSource::Formula),
    }
}

/// Circumference in micrometres with the section as high as it is wide: pi (bead seat + 2 width).
#[must_use]
pub fn formula_um(tyre: TyreSize) -> u32 {
    circle_um(tyre, u32::from(tyre.width_mm()) * 1000)
}

/// Circumference in micrometres with the section height of the ISO 5775 overview: 2.5 mm more than the width
/// below 28 mm, else the width.
#[must_use]
pub fn iso_height_um(tyre: TyreSize) -> u32 {
    let extra = if tyre.width_mm() < 28 { 2_500 } else { 0 };
    circle_um(tyre, u32::from(tyre.width_mm()) * 1000 + extra)
}

fn circle_um(tyre: TyreSize, height_um: u32) -> u32 {
    let diameter = u32::from(tyre.bsd_mm()) * 1000 + 2 * height_um;
    (f64::from(diameter) * PI).round() as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn tyre(width: u16, bsd: u16) -> TyreSize {
        TyreSize::new(width, bsd).unwrap()
    }

    #[test]
    fn the_callers_own_goes_before_the_chart() {
        let own = rollout(Some(2_124_000), Some(tyre(28, 622))).unwrap().unwrap();
        assert_eq!((own.circumference.um(), own.source), (2_124_000, RolloutSource::Caller));
        assert_eq!(own.uncertainty_permille, 5);
        assert_eq!(rollout(None, None), Ok(None));
        assert!(rollout(Some(299_999), Some(tyre(28, 622))).is_err());
    }

    #[test]
    fn small_wheels_take_the_formula_though_the_chart_has_them() {
        let small = rollout(None, Some(tyre(47, 406))).unwrap().unwrap();
        assert_eq!((small.circumference.um(), small.source), (1_570_796, RolloutSource::Formula));
        let large = rollout(None, Some(tyre(25, 622))).unwrap().unwrap();
        assert_eq!((large.circumference.um(), large.source), (2_105_000, RolloutSource::Chart));
        assert_eq!(large.uncertainty_permille, 20);
    }

    proptest! {
        #[test]
        fn every_tyre_has_a_circumference_within_the_limits(width in 16_u16..=132, bsd in 130_u16..=800) {
            let found = rollout(None, Some(tyre(width, bsd)));
            prop_assert!(matches!(found, Ok(Some(_))));
            prop_assert!(iso_height_um(tyre(width, bsd)) >= formula_um(tyre(width, bsd)));
        }
    }
}
