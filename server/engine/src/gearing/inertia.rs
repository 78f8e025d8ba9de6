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

/// A cassette of which only the whole mass is known, in milligrams: cogs of one thickness and one material, so that
/// each has its share by the area between [`COG_BORE_UM`] and the pitch circle. Spacers, carriers and a freewheel's
/// body turn at a smaller radius than that, so this is the most that it can be (derived, no source).
///
/// # Errors
/// As [`cassette`]; more than 2 kg.
pub fn even_cassette(cogs: &[u16], mass_mg: u32) -> Result<Inertia, Vec<Fault>> {
    super::fault::whole("cogs.mass", mass_mg, 0, MAX_COG_MG, "mg").map_err(|fault| vec![fault])?;
    let areas: Vec<f64> = cogs.iter().map(|&teeth| area_mm2(teeth)).collect();
    let whole: f64 = areas.iter().sum();
    // Shares of a mass of at most 2 000 000 mg; rounding loses less than a milligram a cog.
    let share = |area: f64| if whole > 0.0 { (f64::from(mass_mg) * area / whole).round() as u32 } else { 0 };
    let masses: Vec<(u16, u32)> = cogs.iter().copied().zip(areas.iter().map(|&area| share(area))).collect();
    cassette(&masses)
}

/// Area of a cog's ring; next to nothing for one that is no larger than the bore.
fn area_mm2(teeth: u16) -> f64 {
    let outer = Sprocket::new(teeth).map_or(0.0, |sprocket| sprocket.pitch_diameter_mm() / 2.0);
    let bore = f64::from(COG_BORE_UM) / 1000.0;
    (outer * outer - bore * bore).max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_even_cassette_keeps_its_mass_and_turns_as_its_largest_cogs_do() {
        let one = even_cassette(&[32], 66_000).unwrap().kg_m2();
        assert!((one - cassette(&[(32, 66_000)]).unwrap().kg_m2()).abs() < 1e-15);
        // The 11-32 cassette of 272 g whose cogs were assumed one by one: 3.74470e-4 kg m^2, recomputed.
        let cogs = [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32];
        let whole = even_cassette(&cogs, 272_000).unwrap().kg_m2();
        assert!((whole / 3.744_70e-4 - 1.0).abs() < 0.15, "{whole}");
        assert_eq!(even_cassette(&[], 1).unwrap_err()[0].code(), "empty");
        assert_eq!(even_cassette(&[11], u32::MAX).unwrap_err()[0].code(), "out-of-range");
    }

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
