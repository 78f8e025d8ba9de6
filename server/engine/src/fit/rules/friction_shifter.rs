//! # Friction lever
//!
//! ## What it checks
//! Whether a lever without clicks pulls enough cable to reach every cog.
//!
//! ## Why it matters
//! A lever that runs out of cable leaves the largest cogs out of reach; pitch and pull otherwise do not matter to it.
//!
//! ## Numbers
//! * need = (cogs - 1) x pitch / ratio, about 20 to 40 mm.
//!
//! ## Exceptions
//! * A friction lever works any cable derailleur and any pitch, and no electronic one.
//! * Where pitch or ratio is not stated, the widest pitch of the cogs' class and the group's typical ratio stand in.
//!
//! ## Sources
//! Computed from the equation of indexed shifting; a workshop page on friction levers, seen as an excerpt.

use super::shift_table::{electronic, pitch_about, ratio_of_derailleur};
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop};
use crate::fit::slot::Slot::{Cogs, RearDerailleur, RearShifter};
use crate::part::units::{Micrometres, Permille};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "friction-shifter",
    title: "Friction lever",
    file: include_str!("friction_shifter.rs"),
    source: "computed from the equation of indexed shifting",
    rules: &[BY_CLASS, BY_FIGURES],
};

const REACHES: Reason =
    Reason::fits("lever-reaches", "the lever pulls {travel}, enough for all cogs, whatever their pitch")
        .geometry();
const FALLS_SHORT: Reason = Reason::caveat(
    "lever-falls-short",
    "the lever pulls {travel}, all cogs need {need}: the outermost ones are out of reach",
)
.geometry()
.remedies(&[Remedy::replace(Kind::RearShifter, "a lever that pulls at least {need}")]);

const INPUTS: &[Input] = &[
    (RearShifter, attr::FRICTION.attribute()),
    (RearShifter, attr::CABLE_TRAVEL.attribute()),
    (RearDerailleur, attr::PULL_FAMILY.attribute()),
    (RearDerailleur, attr::SHIFT_RATIO.attribute()),
    (Cogs, attr::COG_COUNT.attribute()),
    (Cogs, attr::COG_PITCH.attribute()),
    (Cogs, attr::CHAIN_CLASS.attribute()),
];

const fn view(code: &'static str, judge: fn(&Given<'_>) -> Judged) -> Rule {
    Rule {
        code,
        slots: &[RearShifter, RearDerailleur, Cogs],
        inputs: INPUTS,
        reasons: &[&REACHES, &FALLS_SHORT],
        judge,
    }
}

// As with indexing, what is stated and what is typical are never mixed.
const BY_CLASS: Rule = view("by-class", reach::<false>);
const BY_FIGURES: Rule = view("by-figures", reach::<true>);

fn reach<const FIGURES: bool>(given: &Given<'_>) -> Judged {
    let figures =
        !given.is_missing(Cogs, attr::COG_PITCH) && !given.is_missing(RearDerailleur, attr::SHIFT_RATIO);
    if !given.is_known(RearShifter, attr::FRICTION) || figures != FIGURES {
        return Err(Stop::Silent);
    }
    let travel = given.num(RearShifter, attr::CABLE_TRAVEL);
    let cogs = given.num(Cogs, attr::COG_COUNT);
    let (pitch, ratio) = if FIGURES { stated(given)? } else { typical(given)? };
    let (travel, cogs) = (travel?, cogs?);
    let need = Num::<Micrometres>::between(
        (cogs.low - 1) * pitch.low * 1_000 / ratio.high.max(1),
        (cogs.high - 1) * pitch.high * 1_000 / ratio.low.max(1),
    );
    let reason = if (travel - need).at_least(0)? { &REACHES } else { &FALLS_SHORT };
    Ok(Judgement::from(reason).with("travel", travel).with("need", need))
}

type PitchAndRatio = (Num<Micrometres>, Num<Permille>);

fn stated(given: &Given<'_>) -> Result<PitchAndRatio, Stop> {
    let pitch = given.num(Cogs, attr::COG_PITCH);
    let ratio = given.num(RearDerailleur, attr::SHIFT_RATIO);
    Ok((pitch?, ratio?))
}

fn typical(given: &Given<'_>) -> Result<PitchAndRatio, Stop> {
    let class = given.num(Cogs, attr::CHAIN_CLASS);
    let group = given.key(RearDerailleur, attr::PULL_FAMILY);
    let (class, group) = (class?, given.name(group?));
    if electronic(group) {
        return Err(Stop::Silent);
    }
    if class.low != class.high {
        return Err(Stop::Undecided);
    }
    match (pitch_about(class.low), ratio_of_derailleur(group)) {
        (Some(pitch), Some(ratio)) => Ok((Num::exact(pitch), ratio)),
        _ => stated(given),
    }
}
