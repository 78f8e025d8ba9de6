//! What is asked of every bike alike.

use sprag_engine::gearing::HillInput;
use sprag_engine::gearing::climb::{Coefficients, Rider};
use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;

use super::Refusal;

const CADENCES_DEFAULT: [u16; 2] = [60, 90];

/// The numbers of a request.
pub struct Asked {
    /// Turns per minute.
    pub cadences_rpm: Vec<u16>,
    /// Metres per hour.
    pub speeds_m_per_h: Vec<u32>,
    /// Tolerance of near-duplicates.
    pub near_permille: u16,
    /// A rider on a hill.
    pub hill: Option<HillInput>,
}

impl Asked {
    /// Reads them; tells all faults.
    pub fn read(request: &pb::RangeRequest) -> Result<Self, Refusal> {
        let mut faults = Vec::new();
        let mut fault = |path: String, found: String, wanted: &str| {
            faults.push(Fault { path, found, wanted: wanted.into(), nearest: None });
        };
        for (path, count) in
            [("cadences_rpm", request.cadences_rpm.len()), ("speeds_kmh", request.speeds_kmh.len())]
        {
            if count > 16 {
                fault(path.into(), format!("{count} values"), "at most 16");
            }
        }
        let mut cadences_rpm = Vec::new();
        for (index, cadence) in request.cadences_rpm.iter().enumerate().take(16) {
            match u16::try_from(*cadence).ok().filter(|cadence| (10..=250).contains(cadence)) {
                Some(cadence) => cadences_rpm.push(cadence),
                None => {
                    fault(format!("cadences_rpm[{index}]"), cadence.to_string(), "10 to 250 turns per minute")
                }
            }
        }
        let mut speeds_m_per_h = Vec::new();
        for (index, speed) in request.speeds_kmh.iter().enumerate().take(16) {
            if speed.is_finite() && (0.5..=150.0).contains(speed) {
                // Within 500 to 150 000 by the check above.
                speeds_m_per_h.push((speed * 1000.0).round() as u32);
            } else {
                fault(format!("speeds_kmh[{index}]"), speed.to_string(), "0.5 to 150 km/h");
            }
        }
        let near_permille = match request.duplicate_tolerance_permille {
            0 => 30,
            found => u16::try_from(found).ok().filter(|found| *found <= 500).unwrap_or_else(|| {
                fault("duplicate_tolerance_permille".into(), found.to_string(), "1 to 500");
                30
            }),
        };
        let hill = request.hill.as_ref().map(|hill| read_hill(hill, &mut fault));
        if !faults.is_empty() {
            return Err(Refusal::Invalid(faults));
        }
        if cadences_rpm.is_empty() {
            cadences_rpm = CADENCES_DEFAULT.to_vec();
        }
        Ok(Self { cadences_rpm, speeds_m_per_h, near_permille, hill })
    }
}

fn read_hill(hill: &pb::Hill, fault: &mut impl FnMut(String, String, &str)) -> HillInput {
    let mut within = |field: &str, value: i32, low: i32, high: i32, unit: &str| {
        if !(low..=high).contains(&value) {
            fault(format!("hill.{field}"), value.to_string(), format!("{low} to {high} {unit}").trim_end());
        }
        f64::from(value)
    };
    let power_w = within("power_w", hill.power_w, 30, 2000, "W");
    let mass_kg = within("system_mass_kg", hill.system_mass_kg, 20, 500, "kg");
    let cadence_rpm = within("cadence_rpm", hill.cadence_rpm, 20, 150, "turns per minute");
    let gradient = hill
        .gradient_permille
        .map(|gradient| within("gradient_permille", gradient, 1, 400, "permille") / 1000.0);
    let mut coefficients = Coefficients::default();
    let given = hill.coefficients.unwrap_or_default();
    // (field, value, low, high, unit, what one is, where it goes); 0 leaves the usual value.
    let fields = [
        ("efficiency_e5", given.efficiency_e5, 50_000, 100_000, "", 1e-5, &mut coefficients.efficiency),
        ("rolling_resistance_e4", given.rolling_resistance_e4, 10, 500, "", 1e-4, &mut coefficients.rolling),
        ("drag_area_cm2", given.drag_area_cm2, 1000, 20_000, "cm2", 1e-4, &mut coefficients.drag_area_m2),
        (
            "wheel_drag_area_cm2",
            given.wheel_drag_area_cm2,
            1,
            1000,
            "cm2",
            1e-4,
            &mut coefficients.wheel_drag_area_m2,
        ),
        ("air_g_m3", given.air_g_m3, 500, 2000, "g/m3", 1e-3, &mut coefficients.air_kg_m3),
        ("headwind_cm_s", given.headwind_cm_s, -2000, 2000, "cm/s", 1e-2, &mut coefficients.headwind),
    ];
    for (field, value, low, high, unit, one, target) in fields {
        if value != 0 {
            *target = within(&format!("coefficients.{field}"), value, low, high, unit) * one;
        }
    }
    HillInput { rider: Rider { power_w, mass_kg, cadence_rpm, coefficients }, gradient }
}

/// The coefficients that are used, as a message.
pub fn write_coefficients(used: &Coefficients) -> pb::RoadCoefficients {
    // All within the ranges of the request, or the usual values.
    let whole = |value: f64, per_unit: f64| (value * per_unit).round() as i32;
    pb::RoadCoefficients {
        efficiency_e5: whole(used.efficiency, 1e5),
        rolling_resistance_e4: whole(used.rolling, 1e4),
        drag_area_cm2: whole(used.drag_area_m2, 1e4),
        wheel_drag_area_cm2: whole(used.wheel_drag_area_m2, 1e4),
        air_g_m3: whole(used.air_kg_m3, 1e3),
        headwind_cm_s: whole(used.headwind, 1e2),
    }
}
