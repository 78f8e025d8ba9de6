//! # Crank on bottom bracket
//!
//! ## What it checks
//! The spindle family with its direction, and the length of a spindle that belongs to the bottom bracket. The width that
//! a through axle reaches is judged by "crank in frame".
//!
//! ## Why it matters
//! An arm on the wrong taper or spline works loose and is ruined; a spindle of another length moves the chainline.
//!
//! ## Numbers
//! * Square tapers have 2 degrees per face; a JIS arm goes about 4.5 mm further onto an ISO spindle and may bottom out,
//!   an ISO arm stops about 4.5 mm short on a JIS one.
//! * Eight splines 5 mm long and 2.2 mm wide, or 9 and 2.8 mm: not interchangeable; ten splines differ again.
//! * Chainline moves by half the difference of spindle lengths: up to 1 mm it is the same, up to 3 mm a caveat
//!   (thresholds reasoned, not a standard).
//!
//! ## Exceptions
//! * A smaller axle in a larger bearing needs the sleeve made for it: 24 in 30, 24 in 28.99, 24/22 in 24. A larger axle
//!   never goes in a smaller bearing.
//! * An ISO arm on a JIS spindle about 9 mm shorter than asked for gives the same chainline; mechanics disagree on it, so
//!   it is a strong caveat in the workshop and refused under makers' limits.
//!
//! ## Sources
//! Article on square tapers (2022); a bicycle glossary (splines); FAQ of the open ten-spline standard; bottom-bracket
//! overviews.

use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Input, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{BottomBracket, Crankset};
use crate::part::interface::Key;
use crate::part::interfaces::{
    SPINDLE_24, SPINDLE_24_22, SPINDLE_28_99, SPINDLE_30, SPINDLE_ISO, SPINDLE_JIS, SPINDLE_MOTOR,
    SPINDLE_ONE_PIECE,
};
use crate::part::{Attribute, Kind, attr};

use super::bottom_bracket_in_shell::is_through_axle;

/// The mating.
pub const MATING: Mating = Mating {
    code: "crank-on-bottom-bracket",
    title: "Crank on bottom bracket",
    file: include_str!("crank_on_bottom_bracket.rs"),
    source: "bottom-bracket overviews, an article on square tapers, a bicycle glossary",
    rules: &[FAMILY, TAPER_SHORT, LENGTH],
};

const SPINDLES: [Input; 2] =
    [(Crankset, attr::SPINDLE.attribute()), (BottomBracket, attr::SPINDLE.attribute())];

const BRACKET: [Remedy; 2] = [
    Remedy::replace(
        Kind::BottomBracket,
        "a bottom bracket with the spindle or bearings that the crank is made for",
    ),
    Remedy::replace(Kind::Crankset, "a crank for the spindle or bearings that are there"),
];

fn spindles(given: &Given<'_>) -> Result<(Key, Key), Stop> {
    let crank = given.key(Crankset, attr::SPINDLE);
    let bracket = given.key(BottomBracket, attr::SPINDLE);
    Ok((crank?, bracket?))
}

// Family.

const SAME_FAMILY: Reason = Reason::fits("same-family", "crank and bottom bracket have the same spindle")
    .note("torque as printed on the crank; check the arms again after the first ride");
const SLEEVE: Reason = Reason::extra(
    "sleeve",
    "the axle is thinner than the bearings: only with the sleeve that is made for these bearings",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("bearing-sleeve"))])],
)
.remedies(&BRACKET);
const TOO_THICK: Reason =
    Reason::no("axle-too-thick", "the axle of the crank does not go through the smaller bearings")
        .geometry()
        .remedies(&BRACKET);
const TAPER_BOTTOMS: Reason = Reason::no(
    "jis-arm-on-iso",
    "a JIS arm goes about 4.5 mm further onto an ISO spindle and may bottom out before it is tight",
)
.damage()
.remedies(&BRACKET);
const OTHER_FAMILY: Reason = Reason::no("other-family", "crank and bottom bracket have different spindles")
    .damage()
    .remedies(&BRACKET);

const FAMILY: Rule = Rule {
    code: "family",
    slots: &[Crankset, BottomBracket],
    inputs: &SPINDLES,
    reasons: &[&SAME_FAMILY, &SLEEVE, &TOO_THICK, &TAPER_BOTTOMS, &OTHER_FAMILY],
    judge: |given| {
        let (crank, bracket) = spindles(given)?;
        if given.accepts(bracket, crank) {
            return say(&SAME_FAMILY);
        }
        say(match (given.name(crank), given.name(bracket)) {
            (SPINDLE_24, SPINDLE_30 | SPINDLE_28_99) | (SPINDLE_24_22, SPINDLE_24) => &SLEEVE,
            (SPINDLE_30, SPINDLE_28_99 | SPINDLE_24 | SPINDLE_24_22)
            | (SPINDLE_28_99, SPINDLE_24 | SPINDLE_24_22) => &TOO_THICK,
            (SPINDLE_JIS, SPINDLE_ISO) => &TAPER_BOTTOMS,
            // Length decides there: "short-taper".
            (SPINDLE_ISO, SPINDLE_JIS) => return Err(Stop::Silent),
            _ => &OTHER_FAMILY,
        })
    },
};

// An ISO arm on a JIS spindle.

const TAPER_COMPENSATED: Reason = Reason::caveat(
    "iso-arm-on-shorter-jis",
    "an ISO arm stops about 4.5 mm short on a JIS spindle; this one is shorter by about that on each side, so the chainline holds: check that enough of the taper is engaged",
)
.geometry()
.damage()
.strong()
.tolerated()
.remedies(&BRACKET);
const TAPER_STOPS_SHORT: Reason = Reason::no(
    "iso-arm-on-jis",
    "an ISO arm stops about 4.5 mm short on a JIS spindle: chainline and grip are lost",
)
.geometry()
.damage()
.remedies(&BRACKET);

const TAPER_SHORT: Rule = Rule {
    code: "short-taper",
    slots: &[Crankset, BottomBracket],
    inputs: &[
        SPINDLES[0],
        SPINDLES[1],
        (Crankset, attr::SPINDLE_LENGTH.attribute()),
        (BottomBracket, attr::SPINDLE_LENGTH.attribute()),
    ],
    reasons: &[&TAPER_COMPENSATED, &TAPER_STOPS_SHORT],
    judge: |given| {
        let (crank, bracket) = spindles(given)?;
        if (given.name(crank), given.name(bracket)) != (SPINDLE_ISO, SPINDLE_JIS) {
            return Err(Stop::Silent);
        }
        let asked = given.num(Crankset, attr::SPINDLE_LENGTH);
        let length = given.num(BottomBracket, attr::SPINDLE_LENGTH);
        let (asked, length) = (asked?, length?);
        // Twice 4.5 mm, one on each side.
        let short = asked - length;
        let compensated = (short - Num::exact(9_000)).within(-2_000, 2_000)?;
        let reason = if compensated { &TAPER_COMPENSATED } else { &TAPER_STOPS_SHORT };
        Ok(Judgement::from(reason).with("need", asked).with("length", length).with("short", short))
    },
};

// Length of a spindle that belongs to the bottom bracket.

const SAME_LENGTH: Reason =
    Reason::fits("same-length", "the spindle has the length that the crank asks for").geometry();
const CHAINLINE_MOVES: Reason = Reason::caveat(
    "chainline-moves",
    "the crank asks for {need}, the spindle has {length}: the chainline moves by {move}; check it, and the room beside the stay",
)
.geometry()
.tolerated();
const FAR_OFF: Reason = Reason::no(
    "length-far-off",
    "the crank asks for {need}, the spindle has {length}: the chainline would move by {move}",
)
.geometry()
.remedies(&BRACKET);

const LENGTH: Rule = Rule {
    code: "spindle-length",
    slots: &[Crankset, BottomBracket],
    inputs: &[
        SPINDLES[0],
        SPINDLES[1],
        (Crankset, attr::SPINDLE_LENGTH.attribute()),
        (BottomBracket, attr::SPINDLE_LENGTH.attribute()),
    ],
    reasons: &[&SAME_LENGTH, &CHAINLINE_MOVES, &FAR_OFF],
    judge: |given| {
        let (crank, bracket) = spindles(given)?;
        let name = given.name(crank);
        let own = is_through_axle(name) || matches!(name, SPINDLE_ONE_PIECE | SPINDLE_MOTOR);
        if own || !given.accepts(bracket, crank) {
            return Err(Stop::Silent);
        }
        let need = given.num(Crankset, attr::SPINDLE_LENGTH);
        let length = given.num(BottomBracket, attr::SPINDLE_LENGTH);
        let (need, length) = (need?, length?);
        let far = (length - need).abs();
        let reason = if far.at_most(2_000)? {
            &SAME_LENGTH
        } else if far.at_most(6_000)? {
            &CHAINLINE_MOVES
        } else {
            &FAR_OFF
        };
        Ok(Judgement::from(reason).with("need", need).with("length", length).with("move", far.over(2)))
    },
};
