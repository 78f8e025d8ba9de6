//! Teeth in the gap between the inner plates: one scale for cogs and for rings.

use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Judged, Judgement};
use crate::part::Kind;
use crate::part::units::Micrometres;

/// With this much to spare the plates clear the teeth; threshold reasoned, not a standard.
pub const MARGIN_CLEAR_UM: i64 = 100;
/// With less than this the chain rides on the tips of the teeth.
pub const MARGIN_LEAST_UM: i64 = 50;
/// Chains from this inner width on are 1/8 in or wider; 3/32 in is 2.38 mm, 1/8 in is 3.175 mm.
pub const EIGHTH_INCH_FROM_UM: i64 = 2_900;

/// The teeth fit between the plates.
pub const TEETH_CLEAR: Reason =
    Reason::fits("teeth-clear", "the teeth are {margin} thinner than the gap between the inner plates")
        .geometry();
/// The teeth hardly fit.
pub const TEETH_TIGHT: Reason = Reason::caveat(
    "teeth-tight",
    "the teeth of {tooth} leave only {margin} between the inner plates of {inner}: it binds when dirty",
)
.geometry();
/// The teeth do not fit.
pub const TEETH_TOO_THICK: Reason = Reason::no(
    "teeth-too-thick",
    "the teeth of {tooth} do not go between inner plates of {inner}: the chain rides on their tips",
)
.geometry()
.damage()
.remedies(&[Remedy::replace(
    Kind::Chain,
    "a chain with wider inner plates, such as 1/8 in for teeth of 2.9 mm",
)]);

/// Every reason of the scale.
pub const REASONS: &[&Reason] = &[&TEETH_CLEAR, &TEETH_TIGHT, &TEETH_TOO_THICK];

/// Judges teeth against the gap between the inner plates.
pub fn judge(inner: Num<Micrometres>, tooth: Num<Micrometres>) -> Judged {
    let margin = inner - tooth;
    let reason = if margin.at_least(MARGIN_CLEAR_UM)? {
        &TEETH_CLEAR
    } else if margin.at_least(MARGIN_LEAST_UM)? {
        &TEETH_TIGHT
    } else {
        &TEETH_TOO_THICK
    };
    Ok(Judgement::from(reason).with("inner", inner).with("tooth", tooth).with("margin", margin))
}
