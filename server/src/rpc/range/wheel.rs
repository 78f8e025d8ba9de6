//! The size of the driven wheel.

use sprag_engine::gearing::designation::TyreSize;
use sprag_engine::gearing::sizename::{NameReading, read_name};
use sprag_engine::gearing::{Fault as GearingFault, RangeInput};
use sprag_proto::v1 as pb;

use super::{Refusal, invalid};

/// Reads the wheel size; tells whether it is a diameter by convention.
pub fn read(size: Option<&pb::WheelSize>, input: &mut RangeInput, path: &str) -> Result<bool, Refusal> {
    use pb::wheel_size::Size;
    match size.and_then(|size| size.size.as_ref()) {
        None => Ok(false),
        Some(Size::RollOutUm(um)) => {
            input.rollout_um = Some(length(*um).ok_or_else(|| {
                invalid(
                    &format!("{path}.roll_out_um"),
                    &um.to_string(),
                    "300 000 to 3 500 000 um (300 to 3500 mm)",
                )
            })?);
            Ok(false)
        }
        Some(Size::TyreDesignation(text)) => {
            input.tyre = Some(read_tyre(text, &format!("{path}.tyre_designation"))?);
            Ok(false)
        }
        Some(Size::NominalDiameterMilliInch(milli_inch)) => {
            let at = format!("{path}.nominal_diameter_milli_inch");
            let wrong = || invalid(&at, &milli_inch.to_string(), "4000 to 43 000 (4 to 43 inches)");
            if !(4_000..=43_000).contains(milli_inch) {
                return Err(wrong());
            }
            // Thousandths of an inch to micrometres: 25.4 each; the product is far below the precision of f64.
            let circumference = (*milli_inch as f64) * 25.4 * std::f64::consts::PI;
            input.rollout_um = Some(length(circumference.round() as i64).ok_or_else(wrong)?);
            Ok(true)
        }
    }
}

fn length(um: i64) -> Option<u32> {
    u32::try_from(um).ok().filter(|um| (300_000..=3_500_000).contains(um))
}

/// A tyre by its marking, or by a traditional name that means one bead seat and one width.
fn read_tyre(text: &str, path: &str) -> Result<TyreSize, Refusal> {
    let short: String = text.chars().take(60).collect();
    let marking = text.parse::<TyreSize>();
    let faults = match marking {
        Ok(tyre) => return Ok(tyre),
        Err(faults) => faults,
    };
    match read_name(text) {
        Ok(NameReading::Bsd(bsd)) => match width_of(text) {
            Some(width) => TyreSize::new(width, bsd).map_err(|faults| tyre_fault(path, &short, &faults)),
            None => Err(invalid(
                path,
                &format!("{short:?}, which names bead seat {bsd} but no width in millimetres"),
                &format!("the marking on the tyre, such as \"37-{bsd}\""),
            )),
        },
        Ok(NameReading::Candidates(candidates)) => {
            let listed: Vec<String> = candidates.iter().map(|bsd| format!("xx-{bsd}")).collect();
            Err(invalid(
                path,
                &format!("{short:?}, which can mean several rims"),
                &format!("the marking on the tyre, one of {}", listed.join(", ")),
            ))
        }
        Err(_) => Err(tyre_fault(path, &short, &faults)),
    }
}

/// The width in millimetres of a name such as "700x28C" or "26 x 1.75": metric, or decimal inches rounded.
fn width_of(text: &str) -> Option<u16> {
    let lowered = text.to_lowercase();
    let (_, width) = lowered.split_once(['x', '\u{d7}'])?;
    let width = width.trim().trim_end_matches(['a', 'b', 'c', 'd', '"']).trim();
    if let Ok(millimetres) = width.parse::<u16>() {
        return (18..=132).contains(&millimetres).then_some(millimetres);
    }
    let (whole, fraction) = width.split_once('.')?;
    let thousandths: u32 = format!("{fraction:0<3}").get(..3)?.parse().ok()?;
    let inches = whole.parse::<u32>().ok()?.checked_mul(1000)?.checked_add(thousandths)?;
    u16::try_from((inches * 254 + 5_000) / 10_000).ok().filter(|width| (18..=132).contains(width))
}

fn tyre_fault(path: &str, found: &str, faults: &[GearingFault]) -> Refusal {
    let wanted = faults.first().map(ToString::to_string).unwrap_or_default();
    invalid(path, &format!("{found:?}"), &format!("a marking such as \"37-622\" ({wanted})"))
}
