//! What a cassette's mass does to acceleration: next to nothing beyond its plain mass.

use super::fault::{Fault, Faults};
use super::set::COG_TEETH;
use super::sprocket::Sprocket;

/// Inner radius of a cog, micrometres (assumed: about the outside of a common freehub body).
pub const COG_BORE_UM: u32 = 17_500;

const MAX_COGS: usize = 14;
const MAX_COG_MG: u32 = 2_000_000;

/// Moment of inertia in kg m^2.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Inertia(f64);

impl Inertia {
    /// In kg m^2.
    #[must_use]
    pub const fn kg_m2(self) -> f64 {
        self.0
    }

    /// Mass in grams that would turn the same at a radius, such as that of the rim. Micrometres, 100 to 500
    /// mm.
    ///
    /// # Errors
    /// A radius outside 100 to 500 mm.
    pub fn mass_at_radius_g(self, radius_um: u32) -> Result<f64, Fault> {
        let radius_um = super::fault::whole("radius", radius_um, 100_000, 500_000, "um")?;
        let radius_m = f64::from(radius_um) / 1e6;
        Ok(self.0 / (radius_m * radius_m) * 1000.0)
    }

    /// Mass in grams that must be pushed along to feel the same as `mass_mg` that also turns:
    /// m + I / R^2, R the rolling radius in micrometres.
    ///
    /// # Errors
    /// A radius outside 100 to 500 mm.
    pub fn effective_mass_g(self, mass_mg: u32, rolling_radius_um: u32) -> Result<f64, Fault> {
        Ok(f64::from(mass_mg) / 1000.0 + self.mass_at_radius_g(rolling_radius_um)?)
    }
}

/// A mass in milligrams, all of it at one radius in micrometres.
#[must_use]
pub fn hoop(mass_mg: u32, radius_um: u32) -> Inertia {
    let radius_m = f64::from(radius_um) / 1e6;
    Inertia(f64::from(mass_mg) / 1e6 * radius_m * radius_m)
}

/// A cassette from its cogs, teeth and milligrams each: flat rings from [`COG_BORE_UM`] to the pitch circle.
///
/// A cog smaller than that bore counts as a hoop on its pitch circle.
///
/// # Errors
/// No cog or more than 14, teeth outside 8 to 60, a cog of more than 2 kg.
pub fn cassette(cogs: &[(u16, u32)]) -> Result<Inertia, Vec<Fault>> {
    let mut faults = Faults::default();
    if cogs.is_empty() {
        faults.push(Fault::Empty { field: "cogs".into() });
    }
    if cogs.len() > MAX_COGS {
        faults.push(Fault::TooMany { field: "cogs".into(), found: cogs.len(), max: MAX_COGS });
    }
    let mut sum = 0.0;
    for (index, &(teeth, mass_mg)) in cogs.iter().enumerate().take(MAX_COGS) {
        let (min, max) = COG_TEETH;
        faults.whole(&format!("cogs[{index}].teeth"), teeth.into(), min.into(), max.into(), "teeth");
        faults.whole(&format!("cogs[{index}].mass"), mass_mg, 0, MAX_COG_MG, "mg");
        // Teeth out of range are told above, whatever this says of them.
        let Ok(sprocket) = Sprocket::new(teeth) else { continue };
        let outer_m = sprocket.pitch_diameter_mm() / 2000.0;
        let bore_m = (f64::from(COG_BORE_UM) / 1e6).min(outer_m);
        sum += 0.5 * f64::from(mass_mg) / 1e6 * (outer_m * outer_m + bore_m * bore_m);
    }
    faults.finish(Inertia(sum))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faults_are_collected() {
        let faults = cassette(&[(0, 1), (11, u32::MAX)]).unwrap_err();
        assert_eq!(faults.iter().map(Fault::field).collect::<Vec<_>>(), ["cogs[0].teeth", "cogs[1].mass"]);
        assert_eq!(cassette(&[]).unwrap_err()[0].code(), "empty");
        assert_eq!(cassette(&[(11, 1); 15]).unwrap_err()[0].code(), "too-many");
        assert!(hoop(1, 1).mass_at_radius_g(0).is_err());
    }

    #[test]
    fn larger_cogs_of_the_same_mass_turn_harder() {
        let turns = |teeth| cassette(&[(teeth, 50_000)]).unwrap().kg_m2();
        assert!((8..60).all(|teeth| turns(teeth) < turns(teeth + 1)));
    }
}
