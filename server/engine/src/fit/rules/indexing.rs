//! # Clicks on cogs
//!
//! ## What it checks
//! Whether one click of the shifter moves the derailleur by one cog.
//!
//! ## Why it matters
//! A set that does not index skips gears, grinds between cogs and can drop the chain.
//!
//! ## Numbers
//! * Equal groups of cable pull, and the pitch that the shifter is cut for equal to that of the cogs within 0.05 mm:
//!   indexes. Within 0.12 mm: with a caveat.
//! * Otherwise: move = pull x ratio, error = move - pitch, drift = |error| x (cogs - 1) / 2 with the indexing set at the
//!   middle cog. Up to 0.5 mm it indexes, up to 0.8 poorly at the ends, above it does not.
//! * A converter of factor pitch / move helps where that is 0.6 to 1.6.
//!
//! ## Exceptions
//! * The group decides before the figures do: published pulls and ratios are rounded.
//! * The number of speeds of the derailleur does not enter, and never decides pull.
//! * 11- and 12-speed mountain groups of one family are reported to have one ratio: with a caveat, never better.
//! * Closed groups and electronic protocols are never computed; "shifter on derailleur" judges them.
//! * Figures and pitch that the caller states win over the typical ones of the group; each is a rule of its own here.
//!
//! ## Sources
//! The equation from a public handbook; pulls and ratios partly from workshop pages seen as excerpts, mostly from
//! memory; thresholds reasoned from a designed-in slop of about 1 mm, not a standard.

use super::shift_table::{
    open, pitch_by_class, pitch_of_shifter, pull_of_shifter, ratio_of_derailleur, reported_equal,
};
use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{self, Cogs, RearDerailleur, RearShifter};
use crate::part::units::{Count, Micrometres, Permille};
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "indexing",
    title: "Clicks on cogs",
    file: include_str!("indexing.rs"),
    source: "equation from a public handbook; figures partly published, mostly from memory",
    rules: &[BY_CLASS, BY_PITCH, BY_CLASS_AND_FIGURES, BY_PITCH_AND_FIGURES],
};

const SLOTS: &[Slot] = &[RearShifter, RearDerailleur, Cogs];

const INPUTS: &[Input] = &[
    (RearShifter, attr::PULL_FAMILY.attribute()),
    (RearDerailleur, attr::PULL_FAMILY.attribute()),
    (RearShifter, attr::POSITIONS.attribute()),
    (Cogs, attr::CHAIN_CLASS.attribute()),
    (Cogs, attr::COG_COUNT.attribute()),
    (Cogs, attr::COG_PITCH.attribute()),
    (Cogs, attr::MOUNT_FAMILY.attribute()),
    (RearShifter, attr::COG_PITCH.attribute()),
    (RearShifter, attr::CABLE_PULL.attribute()),
    (RearDerailleur, attr::SHIFT_RATIO.attribute()),
    (RearShifter, attr::FRICTION.attribute()),
];

const fn view(code: &'static str, judge: fn(&Given<'_>) -> Judged) -> Rule {
    Rule { code, slots: SLOTS, inputs: INPUTS, reasons: REASONS, judge }
}

// Four views of one judge: what is stated is never mixed with what is typical, so that a value learned later opens
// another view instead of turning an answer of this one.
const BY_CLASS: Rule = view("by-class", index::<false, false>);
const BY_PITCH: Rule = view("by-pitch", index::<true, false>);
const BY_CLASS_AND_FIGURES: Rule = view("by-class-and-figures", index::<false, true>);
const BY_PITCH_AND_FIGURES: Rule = view("by-pitch-and-figures", index::<true, true>);

// Reasons.

const SHIFTER_TO_MATCH: Remedy = Remedy::replace(
    Kind::RearShifter,
    "a shifter of the derailleur's group with as many positions as there are cogs",
);
const DERAILLEUR_TO_MATCH: Remedy =
    Remedy::replace(Kind::RearDerailleur, "a derailleur of the shifter's group that takes the cogs");
const COGS_TO_MATCH: Remedy =
    Remedy::replace(Kind::Cassette, "cogs of the pitch that the shifter is cut for");
const FRICTION_LEVER: Remedy = Remedy::act(
    "friction",
    "a friction lever, which works any pitch, where the rider accepts shifting by feel",
);
const SET_MIDDLE: &str = "set the indexing at the middle cog and try every gear under load";

const INDEXES: Reason = Reason::fits(
    "group-and-pitch-equal",
    "shifter and derailleur are of one group and the clicks are cut for this pitch",
);
const PITCH_NEAR: Reason = Reason::caveat(
    "pitch-near",
    "the clicks are cut for a pitch of {need}, the cogs have {pitch}: it works with careful adjustment",
)
.note(SET_MIDDLE);
const REPORTED: Reason = Reason::caveat(
    "ratio-reported-equal",
    "11- and 12-speed parts of this family are reported to pull alike, no maker lists the pair: check cage width and largest cog",
)
.tolerated()
.remedies(&[DERAILLEUR_TO_MATCH, SHIFTER_TO_MATCH])
.note(SET_MIDDLE);
const MIX_INDEXES: Reason = Reason::caveat(
    "unlisted-mix-indexes",
    "no maker lists this mix: a click moves {move} for a pitch of {pitch}, off by {drift} at the ends, which indexes",
)
.geometry()
.tolerated()
.note(SET_MIDDLE);
const MIX_POOR: Reason = Reason::caveat(
    "unlisted-mix-poor",
    "no maker lists this mix: a click moves {move} for a pitch of {pitch}, off by {drift} at the ends, which shifts poorly there",
)
.geometry()
.tolerated()
.strong()
.remedies(&[COGS_TO_MATCH, SHIFTER_TO_MATCH, DERAILLEUR_TO_MATCH])
.note(SET_MIDDLE);
const MIX_CONVERTIBLE: Reason = Reason::no(
    "does-not-index",
    "a click moves {move} for a pitch of {pitch}, off by {drift} at the ends: it does not index",
)
.geometry()
.extras(&[Extra::helpful(Kind::CablePullConverter, &[(Attribute::Factor, Source::Number("factor"))])])
.remedies(&[
    Remedy::act("converter", "a cable-pull converter with a factor of about {factor}"),
    SHIFTER_TO_MATCH,
    DERAILLEUR_TO_MATCH,
    FRICTION_LEVER,
]);
const MIX_FAR: Reason = Reason::no(
    "does-not-index-by-far",
    "a click moves {move} for a pitch of {pitch}, off by {drift} at the ends: it does not index, and no converter reaches that far",
)
.geometry()
.remedies(&[SHIFTER_TO_MATCH, DERAILLEUR_TO_MATCH, FRICTION_LEVER]);

const REASONS: &[&Reason] =
    &[&INDEXES, &PITCH_NEAR, &REPORTED, &MIX_INDEXES, &MIX_POOR, &MIX_CONVERTIBLE, &MIX_FAR];

// Judge.

/// Pitches within this are one class.
pub(super) const SAME_PITCH_UM: i64 = 50;
/// Pitches within this work with a caveat.
const NEAR_PITCH_UM: i64 = 120;

fn index<const PITCH: bool, const FIGURES: bool>(given: &Given<'_>) -> Judged {
    let pitch_stated = !given.is_missing(Cogs, attr::COG_PITCH);
    let figures_stated = !given.is_missing(RearShifter, attr::CABLE_PULL)
        || !given.is_missing(RearDerailleur, attr::SHIFT_RATIO);
    let friction = given.is_known(RearShifter, attr::FRICTION);
    if friction || pitch_stated != PITCH || figures_stated != FIGURES {
        return Err(Stop::Silent);
    }
    let shifter_key = given.key(RearShifter, attr::PULL_FAMILY);
    let derailleur_key = given.key(RearDerailleur, attr::PULL_FAMILY);
    let positions = given.num(RearShifter, attr::POSITIONS);
    let stated = if PITCH { Some(given.num(Cogs, attr::COG_PITCH)?) } else { None };
    let class = if PITCH { Ok(Num::exact(0)) } else { given.num(Cogs, attr::CHAIN_CLASS) };
    let (shifter_key, derailleur_key) = (shifter_key?, derailleur_key?);
    let (shifter, derailleur) = (given.name(shifter_key), given.name(derailleur_key));
    if !open(shifter) || !open(derailleur) {
        return Err(Stop::Silent);
    }
    let (positions, class) = (exactly(positions?)?, exactly(class?)?);
    let need = shifter_pitch(given, shifter, positions)?;
    let pitch = match stated {
        Some(pitch) => pitch,
        None => class_pitch(given, class, shifter, positions)?,
    };
    let apart = (need - pitch).abs();
    if given.accepts(derailleur_key, shifter_key) {
        if apart.at_most(SAME_PITCH_UM)? {
            return Ok(Judgement::from(&INDEXES).with("need", need).with("pitch", pitch));
        }
        if apart.at_most(NEAR_PITCH_UM)? {
            return Ok(Judgement::from(&PITCH_NEAR).with("need", need).with("pitch", pitch));
        }
    } else if reported_equal(shifter, derailleur) && apart.at_most(SAME_PITCH_UM)? {
        return say(&REPORTED);
    }
    computed::<FIGURES>(given, shifter, derailleur, positions, pitch)
}

fn exactly(count: Num<Count>) -> Result<i64, Stop> {
    if count.low == count.high { Ok(count.low) } else { Err(Stop::Undecided) }
}

/// The pitch that the shifter is cut for: that of its group and positions, else the stated one. A statement that
/// contradicts the group leaves it open.
fn shifter_pitch(given: &Given<'_>, group: &str, positions: i64) -> Result<Num<Micrometres>, Stop> {
    let typical = pitch_of_shifter(group, positions).map(Num::<Micrometres>::exact);
    match (typical, given.known(RearShifter, attr::COG_PITCH)) {
        (Some(typical), None) => Ok(typical),
        (Some(typical), Some(stated)) => {
            if (typical - stated).abs().at_most(SAME_PITCH_UM)? {
                Ok(typical)
            } else {
                Err(Stop::Undecided)
            }
        }
        (None, _) => given.num(RearShifter, attr::COG_PITCH),
    }
}

/// The pitch of an ordinary set of a class; asks for it where the class does not tell.
fn class_pitch(given: &Given<'_>, class: i64, group: &str, positions: i64) -> Result<Num<Micrometres>, Stop> {
    let pattern = if given.is_missing(Cogs, attr::MOUNT_FAMILY) {
        None
    } else {
        given.key(Cogs, attr::MOUNT_FAMILY).ok().map(|key| given.name(key))
    };
    match pitch_by_class(class, pattern, group, positions) {
        Some(pitch) => Ok(Num::exact(pitch)),
        None => given.num(Cogs, attr::COG_PITCH),
    }
}

// Computation, in nanometres: micrometres of cable times thousandths of ratio.

const DRIFT_INDEXES_NM: i64 = 500_000;
const DRIFT_POOR_NM: i64 = 800_000;
const FACTOR_PERMILLE: std::ops::RangeInclusive<i64> = 600..=1_600;

fn computed<const FIGURES: bool>(
    given: &Given<'_>,
    shifter: &str,
    derailleur: &str,
    positions: i64,
    pitch: Num<Micrometres>,
) -> Judged {
    let (pull, ratio) = if FIGURES {
        (None, None)
    } else {
        (pull_of_shifter(shifter, positions), ratio_of_derailleur(derailleur))
    };
    let pull = pull.map_or_else(|| given.num(RearShifter, attr::CABLE_PULL), Ok);
    let ratio = ratio.map_or_else(|| given.num(RearDerailleur, attr::SHIFT_RATIO), Ok);
    let cogs = given.num(Cogs, attr::COG_COUNT);
    let (pull, ratio, cogs) = (pull?, ratio?, exactly(cogs?)?);
    let travel = moves(pull, ratio);
    let error = travel - pitch.times(1_000);
    let drift_twice = error.abs().times(cogs.min(positions) - 1);
    let factor = Num::<Permille>::between(
        pitch.low.saturating_mul(1_000_000) / travel.high.max(1),
        pitch.high.saturating_mul(1_000_000) / travel.low.max(1),
    );
    let reason = if drift_twice.at_most(2 * DRIFT_INDEXES_NM)? {
        &MIX_INDEXES
    } else if drift_twice.at_most(2 * DRIFT_POOR_NM)? {
        &MIX_POOR
    } else if FACTOR_PERMILLE.contains(&factor.low) && FACTOR_PERMILLE.contains(&factor.high) {
        &MIX_CONVERTIBLE
    } else {
        &MIX_FAR
    };
    Ok(Judgement::from(reason)
        .with("move", travel.over(1_000))
        .with("pitch", pitch)
        .with("error", error.over(1_000))
        .with("drift", drift_twice.over(2_000))
        .with("factor", factor))
}

/// Sideways movement per click, in nanometres.
fn moves(pull: Num<Micrometres>, ratio: Num<Permille>) -> Num<Micrometres> {
    Num::between(pull.low.saturating_mul(ratio.low), pull.high.saturating_mul(ratio.high))
}
