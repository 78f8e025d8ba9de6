//! A hill as a message.

use sprag_engine::gearing::climb::Validity;
use sprag_engine::gearing::measure::MM_PER_INCH;
use sprag_engine::gearing::{HillAnswer, HillInput, RangeAnswer, Ratio};
use sprag_proto::v1 as pb;

use super::asked::write_coefficients;

const VALIDITY: &str = "steady riding; good to about 0.2 points of gradient for rolling resistance and a tenth for the rider's power; below about 5 km/h balance limits, and a lower gear is no cure";

/// Writes what a hill asks.
pub fn write(hill: &HillAnswer, asked: &HillInput, answer: &RangeAnswer) -> pb::HillAnswer {
    let held = &hill.held;
    let slow = |validity: &Validity| validity.walking || validity.balance_limits;
    let mut written = pb::HillAnswer {
        // Rider and rolling resistance are not known better than half a percentage point.
        gradient_held_percent: (held.gradient * 200.0).round() / 2.0,
        speed_kmh: held.speed * 3.6,
        below_balance_speed: slow(&held.validity),
        validity: VALIDITY.into(),
        climb_m_per_h: held.speed * held.gradient.atan().sin() * 3600.0,
        front_wheel_lifts: held.validity.front_wheel_lifts,
        coefficients: Some(write_coefficients(&asked.rider.coefficients)),
        ..pb::HillAnswer::default()
    };
    if let Some((needed, enough)) = &hill.needed {
        written.ratio_needed = Some(needed.ratio);
        written.low_enough = Some(*enough);
        written.below_balance_speed |= slow(&needed.validity);
        written.development_needed_m = Some(needed.development_m);
        written.gear_inches_needed =
            Some(needed.development_m * 1000.0 / (MM_PER_INCH * std::f64::consts::PI));
        written.speed_needed_kmh = Some(needed.speed * 3.6);
        written.climb_needed_m_per_h = Some(needed.climb_m_per_h);
        // Under walking speed the engine says so itself; between that and 5 km/h balance limits.
        let cure = needed.cure && !slow(&needed.validity);
        written.cure = Some(cure);
        written.front_wheel_lifts = needed.validity.front_wheel_lifts;
        if cure {
            let internal = lowest_internal(answer);
            let cog = |&ring: &u16| {
                let cog = needed.cog_for(ring, internal);
                pb::CogNeeded {
                    ring: ring.into(),
                    exact_teeth: cog.exact,
                    teeth: cog.teeth.into(),
                    not_made: !cog.exists,
                }
            };
            written.cogs_needed = answer.set.rings().iter().map(cog).collect();
        }
    }
    written
}

/// Hub and crank in their lowest gear.
fn lowest_internal(answer: &RangeAnswer) -> Ratio {
    let lowest = |ratios: &[Ratio]| ratios.first().copied().unwrap_or(Ratio::ONE);
    let hub = lowest(answer.set.hub_ratios());
    // The limits on internal ratios keep the product within 64 bits.
    hub.times(lowest(answer.set.crank_ratios())).unwrap_or(hub)
}
