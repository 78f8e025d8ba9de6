//! Geometry of a sprocket for half-inch pitch chain.

use std::f64::consts::PI;

use super::fault::{Fault, whole};

/// Chain pitch in millimetres: half an inch.
pub const PITCH_MM: f64 = 12.7;
/// Half the height of a chain plate, millimetres (common practice): what the chain stands above the pitch
/// circle.
const HALF_PLATE_MM: f64 = 4.25;

/// A chainring, cog or pulley of 6 to 120 teeth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Sprocket(u16);

impl Sprocket {
    /// Takes a number of teeth.
    ///
    /// # Errors
    /// Fewer than 6 or more than 120 teeth.
    pub fn new(teeth: u16) -> Result<Self, Fault> {
        whole("teeth", teeth.into(), 6, 120, "teeth").map(|_| Self(teeth))
    }

    /// Number of teeth.
    #[must_use]
    pub const fn teeth(self) -> u16 {
        self.0
    }

    fn half_angle(self) -> f64 {
        PI / f64::from(self.0)
    }

    /// Diameter of the circle through the roller centres, mm: pitch / sin(180 deg / teeth).
    #[must_use]
    pub fn pitch_diameter_mm(self) -> f64 {
        PITCH_MM / self.half_angle().sin()
    }

    /// Diameter over the tips of the teeth, mm, in the roller-chain handbook's form
    /// pitch (0.6 + cot(180 deg / teeth)); bicycle sprockets are often cut lower.
    #[must_use]
    pub fn outside_diameter_mm(self) -> f64 {
        PITCH_MM * (0.6 + 1.0 / self.half_angle().tan())
    }

    /// Radius of the chain's outer edge on the sprocket, mm.
    #[must_use]
    pub fn chain_radius_mm(self) -> f64 {
        self.pitch_diameter_mm() / 2.0 + HALF_PLATE_MM
    }

    /// How much the chain's speed varies over one tooth at constant turning, percent: 1 - cos(180 deg /
    /// teeth).
    #[must_use]
    pub fn chordal_ripple_percent(self) -> f64 {
        // 1 - cos x = 2 sin^2 (x / 2), without losing digits.
        200.0 * (self.half_angle() / 2.0).sin().powi(2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_teeth_no_sprocket() {
        assert!(Sprocket::new(0).is_err() && Sprocket::new(5).is_err() && Sprocket::new(121).is_err());
        assert_eq!(Sprocket::new(11).unwrap().teeth(), 11);
    }

    #[test]
    fn more_teeth_are_larger_and_smoother() {
        for teeth in 6..120 {
            let (small, large) = (Sprocket::new(teeth).unwrap(), Sprocket::new(teeth + 1).unwrap());
            assert!(small.pitch_diameter_mm() < large.pitch_diameter_mm());
            assert!(small.pitch_diameter_mm() < small.outside_diameter_mm());
            assert!(small.chordal_ripple_percent() > large.chordal_ripple_percent());
        }
    }
}
