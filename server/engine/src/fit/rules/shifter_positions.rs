//! # Shifter positions and cogs
//!
//! ## What it checks
//! The number of positions of an indexed shifter against the number of cogs.
//!
//! ## Why it matters
//! A click too many at the large cogs shifts the chain into the spokes: the wheel locks and the rider can be thrown.
//!
//! ## Numbers
//! * A shifter of n positions has n - 1 clicks.
//! * More positions than cogs: the limit screws must block the extra clicks, at the small cogs by preference.
//! * Fewer: cogs - positions cogs are out of reach, and the limit screws must stop both ends.
//!
//! ## Exceptions
//! * A derailleur without limit screws cannot block a click.
//! * Derailleurs of open cable groups have limit screws; of coaxial and electronic ones it must be known.
//! * Electronic shifters have buttons, not positions; friction levers have no clicks.
//!
//! ## Sources
//! Forum reports of cut-down sets and workshop practice, seen as excerpts.

use super::shift_table::{electronic, open};
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop};
use crate::fit::slot::Slot::{Cogs, RearDerailleur, RearShifter};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "shifter-positions",
    title: "Shifter positions and cogs",
    file: include_str!("shifter_positions.rs"),
    source: "forum reports and workshop practice, seen as excerpts",
    rules: &[POSITIONS],
};

const SHIFTER_TO_MATCH: Remedy = Remedy::replace(
    Kind::RearShifter,
    "a shifter of the same group with as many positions as there are cogs",
);
const COGS_TO_MATCH: Remedy = Remedy::replace(Kind::Cassette, "as many cogs as the shifter has positions");

const AS_MANY: Reason = Reason::fits("positions-equal-cogs", "the shifter has a position for every cog");
const BLOCK_CLICKS: Reason = Reason::caveat(
    "extra-click",
    "the shifter has {positions} positions for {cogs} cogs: the extra clicks must be blocked by a limit screw",
)
.injury()
.remedies(&[SHIFTER_TO_MATCH])
.note("block the extra click at the small-cog end by preference, and check that the inner limit screw stops the cage short of the spokes");
const OUT_OF_REACH: Reason = Reason::caveat(
    "cogs-out-of-reach",
    "the shifter has {positions} positions for {cogs} cogs: the rest is out of reach",
)
.remedies(&[SHIFTER_TO_MATCH, COGS_TO_MATCH])
.note("stop both ends with the limit screws");
const NO_STOP: Reason = Reason::no(
    "no-limit-screws",
    "the shifter has {positions} positions for {cogs} cogs, and this derailleur has no limit screws to stop it",
)
.injury()
.remedies(&[SHIFTER_TO_MATCH, COGS_TO_MATCH]);

const POSITIONS: Rule = Rule {
    code: "positions",
    slots: &[RearShifter, Cogs, RearDerailleur],
    inputs: &[
        (RearShifter, attr::POSITIONS.attribute()),
        (Cogs, attr::COG_COUNT.attribute()),
        (RearDerailleur, attr::LIMIT_SCREWS.attribute()),
        (RearDerailleur, attr::PULL_FAMILY.attribute()),
        (RearShifter, attr::PULL_FAMILY.attribute()),
        (RearShifter, attr::FRICTION.attribute()),
    ],
    reasons: &[&AS_MANY, &BLOCK_CLICKS, &OUT_OF_REACH, &NO_STOP],
    judge: positions,
};

fn positions(given: &Given<'_>) -> Judged {
    let buttons = !given.is_missing(RearShifter, attr::PULL_FAMILY)
        && given.key(RearShifter, attr::PULL_FAMILY).is_ok_and(|key| electronic(given.name(key)));
    if buttons || given.is_known(RearShifter, attr::FRICTION) {
        return Err(Stop::Silent);
    }
    let positions = given.num(RearShifter, attr::POSITIONS);
    let cogs = given.num(Cogs, attr::COG_COUNT);
    let (positions, cogs) = (positions?, cogs?);
    let extra = positions - cogs;
    let reason = if extra.equals(0)? {
        &AS_MANY
    } else if !stops(given)? {
        &NO_STOP
    } else if extra.at_least(1)? {
        &BLOCK_CLICKS
    } else {
        &OUT_OF_REACH
    };
    Ok(Judgement::from(reason).with("positions", positions).with("cogs", cogs))
}

/// Whether limit screws can stop the derailleur. One of an open cable group has them; a statement against that leaves
/// it open.
fn stops(given: &Given<'_>) -> Result<bool, Stop> {
    let cable = !given.is_missing(RearDerailleur, attr::PULL_FAMILY)
        && given.key(RearDerailleur, attr::PULL_FAMILY).is_ok_and(|key| open(given.name(key)));
    if cable && given.is_missing(RearDerailleur, attr::LIMIT_SCREWS) {
        return Ok(true);
    }
    let screws = given.flag(RearDerailleur, attr::LIMIT_SCREWS)?;
    if cable && !screws { Err(Stop::Undecided) } else { Ok(screws) }
}
