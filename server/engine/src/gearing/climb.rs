//! Hills: the road-power model, the gradient held in a gear and the gear needed for a gradient.
//!
//! The model is the one validated for road cycling and published in the Journal of Applied Biomechanics
//! 14(3), 1998: air, rolling, bearings, slope and acceleration, over the efficiency of the chain. It holds
//! for steady riding and mean torque (peaks are about twice that). The result is good to about 0.2 points of
//! gradient for the road surface alone, and no better than the rider's power and the roll-out: show it to
//! half a percent.

use super::fault::{Fault, Faults};
use super::measure::{Circumference, development_m};
use super::ratio::Ratio;
use super::set::COG_TEETH;

/// Under this speed nobody rides on: a gear that slow is not a cure but a walk, micrometres per second.
const WALKING_UM_PER_S: u64 = 1_200_000;
/// Under this speed balance, not power, sets the limit: 5 km/h, micrometres per second.
const BALANCE_UM_PER_S: u64 = 1_388_889;
/// Over this gradient the front wheel lifts for a rider 0.45 m ahead of the axle and 1.1 m up, millionths.
const LIFT_MICRO: i64 = 409_000;
/// Steepest gradient looked at, up or down: 45 degrees.
const STEEPEST: f64 = 1.0;
/// Fastest speed looked at, m/s.
const FASTEST: f64 = 60.0;
/// Halvings of an interval; more than the digits of a float.
const HALVINGS: u32 = 80;

/// Coefficients of the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coefficients {
    /// Efficiency of the drive, 0.5 to 1. 0.97698 in the paper's example.
    pub efficiency: f64,
    /// Rolling resistance, 0 to 0.1: 0.0032 on a track, 0.005 on roads, up to 0.012 off road.
    pub rolling: f64,
    /// Drag area, m^2, 0 to 2: 0.26 low on the bars to 0.40 upright.
    pub drag_area_m2: f64,
    /// Drag area of the turning wheels, m^2, 0 to 0.1.
    pub wheel_drag_area_m2: f64,
    /// Density of the air, kg/m^3, 0 to 2.
    pub air_kg_m3: f64,
    /// Gravity, m/s^2, 9 to 10.
    pub gravity: f64,
    /// Wind along the road, m/s, against the rider positive, -20 to 20.
    pub headwind: f64,
}

impl Default for Coefficients {
    /// An upright rider on a road without wind.
    fn default() -> Self {
        Self {
            efficiency: 0.976_98,
            rolling: 0.005,
            drag_area_m2: 0.40,
            wheel_drag_area_m2: 0.0044,
            air_kg_m3: 1.2,
            gravity: 9.81,
            headwind: 0.0,
        }
    }
}

impl Coefficients {
    fn check(&self, faults: &mut Faults) {
        faults.real("hill.efficiency", self.efficiency, 0.5, 1.0, "");
        faults.real("hill.rolling", self.rolling, 0.0, 0.1, "");
        faults.real("hill.drag_area", self.drag_area_m2, 0.0, 2.0, "m^2");
        faults.real("hill.wheel_drag_area", self.wheel_drag_area_m2, 0.0, 0.1, "m^2");
        faults.real("hill.air", self.air_kg_m3, 0.0, 2.0, "kg/m^3");
        faults.real("hill.gravity", self.gravity, 9.0, 10.0, "m/s^2");
        faults.real("hill.headwind", self.headwind, -20.0, 20.0, "m/s");
    }
}

/// Wind along the road in m/s, against the rider positive, from the wind's speed, the compass direction it
/// comes from and the rider's heading, both in degrees.
#[must_use]
pub fn headwind(wind: f64, from_deg: f64, heading_deg: f64) -> f64 {
    wind * (from_deg - heading_deg).to_radians().cos()
}

/// A change of speed, for riding that is not steady.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acceleration {
    /// Speed at the start, m/s, 0 to 60.
    pub from: f64,
    /// Speed at the end, m/s, 0 to 60.
    pub to: f64,
    /// Time between, s, 0.01 to 86 400.
    pub seconds: f64,
    /// Moment of inertia of both wheels, kg m^2, 0 to 2.
    pub wheel_inertia: f64,
    /// Radius at which it acts, m, 0.1 to 0.5.
    pub wheel_radius: f64,
}

/// Power in watts and its parts at the wheel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Power {
    /// Against the air.
    pub aero: f64,
    /// Against rolling.
    pub rolling: f64,
    /// In the wheel bearings.
    pub bearings: f64,
    /// Up the slope.
    pub potential: f64,
    /// Into speed.
    pub kinetic: f64,
    /// At the pedals: the sum of the parts over the efficiency.
    pub total: f64,
}

/// Power for riding at a speed (m/s, 0 to 60) up a gradient (rise over run, -1 to 1) with a total mass
/// (kg, 20 to 500), steadily or with an acceleration.
///
/// # Errors
/// Every number that is not finite or out of range.
pub fn power(
    coefficients: &Coefficients,
    mass_kg: f64,
    speed: f64,
    gradient: f64,
    acceleration: Option<Acceleration>,
) -> Result<Power, Vec<Fault>> {
    let mut faults = Faults::default();
    coefficients.check(&mut faults);
    check_mass(&mut faults, mass_kg);
    faults.real("hill.speed", speed, 0.0, FASTEST, "m/s");
    faults.real("hill.gradient", gradient, -STEEPEST, STEEPEST, "rise/run");
    if let Some(change) = acceleration {
        faults.real("hill.acceleration.from", change.from, 0.0, FASTEST, "m/s");
        faults.real("hill.acceleration.to", change.to, 0.0, FASTEST, "m/s");
        faults.real("hill.acceleration.seconds", change.seconds, 0.01, 86_400.0, "s");
        faults.real("hill.acceleration.wheel_inertia", change.wheel_inertia, 0.0, 2.0, "kg m^2");
        faults.real("hill.acceleration.wheel_radius", change.wheel_radius, 0.1, 0.5, "m");
    }
    if !faults.is_empty() {
        return Err(faults.into_vec());
    }
    let kinetic = acceleration.map_or(0.0, |change| {
        let mass = mass_kg + change.wheel_inertia / change.wheel_radius.powi(2);
        0.5 * mass * (change.to.powi(2) - change.from.powi(2)) / change.seconds
    });
    Ok(parts(coefficients, mass_kg, speed, gradient, kinetic))
}

fn parts(c: &Coefficients, mass_kg: f64, speed: f64, gradient: f64, kinetic: f64) -> Power {
    let through_air = speed + c.headwind;
    let slope = gradient.atan();
    let weight = mass_kg * c.gravity;
    // A wind faster than the rider from behind pushes.
    let aero =
        through_air * through_air.abs() * speed * 0.5 * c.air_kg_m3 * (c.drag_area_m2 + c.wheel_drag_area_m2);
    let rolling = speed * c.rolling * weight * slope.cos();
    let bearings = speed * (91.0 + 8.7 * speed) * 1e-3;
    let potential = speed * weight * slope.sin();
    let total = (aero + rolling + bearings + potential + kinetic) / c.efficiency;
    Power { aero, rolling, bearings, potential, kinetic, total }
}

fn check_mass(faults: &mut Faults, mass_kg: f64) {
    faults.real("hill.mass", mass_kg, 20.0, 500.0, "kg");
}

/// Who rides: lasting power, total mass of rider, bicycle and load, and the lowest cadence that is
/// comfortable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rider {
    /// Watts at the pedals, 20 to 2500.
    pub power_w: f64,
    /// Kilograms, all of it, 20 to 500.
    pub mass_kg: f64,
    /// Turns per minute, 10 to 250.
    pub cadence_rpm: f64,
    /// The road and the air.
    pub coefficients: Coefficients,
}

impl Rider {
    pub(crate) fn check(&self, faults: &mut Faults) {
        self.coefficients.check(faults);
        faults.real("hill.power", self.power_w, 20.0, 2500.0, "W");
        check_mass(faults, self.mass_kg);
        faults.real("hill.cadence", self.cadence_rpm, 10.0, 250.0, "rpm");
    }

    fn needs(&self, speed: f64, gradient: f64) -> f64 {
        parts(&self.coefficients, self.mass_kg, speed, gradient, 0.0).total
    }
}

/// Where the model stops telling the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Validity {
    /// Slower than 1.2 m/s: walking. Never offer such a gear as the cure.
    pub walking: bool,
    /// Slower than 5 km/h: balance limits before power does.
    pub balance_limits: bool,
    /// Steeper than about 41 %: the front wheel lifts; on loose ground the rear wheel slips well before.
    pub front_wheel_lifts: bool,
}

fn validity(speed: f64, gradient: f64) -> Validity {
    // Rounded to whole units first, so that the decision is not one between floats.
    let (um_per_s, micro) = ((speed * 1e6).round() as u64, (gradient * 1e6).round() as i64);
    Validity {
        walking: um_per_s < WALKING_UM_PER_S,
        balance_limits: um_per_s < BALANCE_UM_PER_S,
        front_wheel_lifts: micro > LIFT_MICRO,
    }
}

/// Gradient that a rider holds in a gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// Speed at the rider's cadence, m/s.
    pub speed: f64,
    /// Rise over run; negative if the cadence needs a descent. Between -1 and 1: at either end the model has
    /// no answer and the true one lies beyond.
    pub gradient: f64,
    /// What to say with it.
    pub validity: Validity,
}

/// The gradient at which the rider's power just holds the rider's cadence in a gear.
///
/// # Errors
/// Every number of the rider that is not finite or out of range, and a gear that gives over 60 m/s.
pub fn gradient_held(rider: &Rider, ratio: Ratio, circumference: Circumference) -> Result<Held, Vec<Fault>> {
    let mut faults = Faults::default();
    rider.check(&mut faults);
    let speed = development_m(ratio, circumference) * rider.cadence_rpm / 60.0;
    if faults.is_empty() {
        faults.real("hill.speed", speed, 0.0, FASTEST, "m/s");
    }
    if !faults.is_empty() {
        return Err(faults.into_vec());
    }
    let gradient = bisect(-STEEPEST, STEEPEST, |gradient| rider.needs(speed, gradient) <= rider.power_w);
    Ok(Held { speed, gradient, validity: validity(speed, gradient) })
}

/// The gear that a rider needs for a gradient.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GearNeeded {
    /// Speed that the power gives on the gradient, m/s, at most 60.
    pub speed: f64,
    /// Development at the rider's cadence, m: no gear higher than this holds it.
    pub development_m: f64,
    /// The same as wheel turns per crank turn.
    pub ratio: f64,
    /// Metres climbed in an hour.
    pub climb_m_per_h: f64,
    /// What to say with it.
    pub validity: Validity,
    /// False where a gear that low would be slower than walking, at the asked cadence or at 60 turns per
    /// minute: then less load, more power or a push is the answer, not a gear.
    pub cure: bool,
}

impl GearNeeded {
    /// Teeth of the cog that gives this gear with a ring and an internal ratio: exact, and rounded up to
    /// whole teeth.
    #[must_use]
    pub fn cog_for(&self, ring: u16, internal: Ratio) -> CogNeeded {
        let exact = f64::from(ring) * internal.as_f64() / self.ratio;
        let whole = ((exact * 1e6).round() as u64).div_ceil(1_000_000);
        let teeth = u16::try_from(whole).unwrap_or(u16::MAX);
        CogNeeded { exact, teeth, exists: teeth <= COG_TEETH.1 }
    }

    /// True if a gear is low enough, decided in millionths.
    #[must_use]
    pub fn met_by(&self, ratio: Ratio) -> bool {
        let allowed = (self.ratio * 1e6).round() as u128;
        u128::from(ratio.num()) * 1_000_000 <= allowed * u128::from(ratio.den())
    }
}

/// A cog that gives a needed gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CogNeeded {
    /// Teeth, not rounded.
    pub exact: f64,
    /// Least whole number of teeth.
    pub teeth: u16,
    /// False if no such cog is made; a smaller ring is needed.
    pub exists: bool,
}

/// The highest gear that still holds a gradient (rise over run, 0 to 1) at the rider's power and cadence.
///
/// # Errors
/// Every number that is not finite or out of range.
pub fn gear_needed(
    rider: &Rider,
    gradient: f64,
    circumference: Circumference,
) -> Result<GearNeeded, Vec<Fault>> {
    let mut faults = Faults::default();
    rider.check(&mut faults);
    faults.real("hill.gradient", gradient, 0.0, STEEPEST, "rise/run");
    if !faults.is_empty() {
        return Err(faults.into_vec());
    }
    // Where the power is positive it rises with the speed, so there is one speed for it.
    let speed = bisect(0.0, FASTEST, |speed| rider.needs(speed, gradient) <= rider.power_w);
    let development_m = 60.0 * speed / rider.cadence_rpm;
    let validity = validity(speed, gradient);
    let slow_at_60 = self::validity(development_m, gradient).walking;
    Ok(GearNeeded {
        speed,
        development_m,
        ratio: development_m / circumference.metres(),
        climb_m_per_h: speed * gradient.atan().sin() * 3600.0,
        validity,
        cure: !validity.walking && !slow_at_60,
    })
}

/// The largest value of an interval for which a falling condition holds, to the last digits.
fn bisect(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

#[cfg(test)]
#[path = "climb_tests.rs"]
mod tests;
