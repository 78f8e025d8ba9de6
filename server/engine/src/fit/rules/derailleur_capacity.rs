//! # Chain that the rear derailleur takes up
//!
//! ## What it checks
//! The differences of rings and cogs against the capacity of the derailleur, single-ring derailleurs against several
//! rings, and the room that suspension takes.
//!
//! ## Why it matters
//! A cage that cannot take up the slack lets the chain hang in the small gears; it then drops or jams. A chain that
//! is shortened instead tears the derailleur off in the large gears.
//!
//! ## Numbers
//! * need = (largest - smallest ring) + (largest - smallest cog); a single ring adds nothing.
//! * short = need - capacity. Two or more rings: 1 to 4 works when the small-small gears are avoided, from 3 on that is
//!   many gears; more: no. A single ring: 1 to 2 works with slack in the smallest cog; more: no, since the slack
//!   cannot be avoided by habit.
//! * Suspension: the axle moving away by g takes 2 g of chain, and one tooth is 6.35 mm of chain.
//!
//! ## Exceptions
//! * Capacity and largest cog are independent of one another.
//! * A ring difference above the published one adds little beyond capacity.
//!
//! ## Sources
//! Workshop pages and makers' definitions, seen as excerpts; bands reasoned, not a standard; suspension computed.

use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop};
use crate::fit::slot::Slot::{Cogs, Frame, RearDerailleur, Rings};
use crate::part::units::{Micrometres, Teeth};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "derailleur-capacity",
    title: "Chain that the rear derailleur takes up",
    file: include_str!("derailleur_capacity.rs"),
    source: "workshop pages and makers' definitions, seen as excerpts; bands reasoned",
    rules: &[CAPACITY, RING_DIFFERENCE, SUSPENSION],
};

// Capacity.

/// Short by up to this with a single ring.
const SHORT_SINGLE: i64 = 2;
/// Short by up to this with several rings, mildly.
const SHORT_MILD: i64 = 2;
/// Short by up to this with several rings at all.
const SHORT_SEVERAL: i64 = 4;

const LONGER_CAGE: Remedy =
    Remedy::replace(Kind::RearDerailleur, "a version with a capacity of {need}, usually the longer cage");
const CLOSER_COGS: Remedy = Remedy::replace(Kind::Cassette, "a cassette with a smaller spread");
const KEEP_LENGTH: &str =
    "size the chain for the largest ring and the largest cog; never shorten it to hide the slack";

const TAKEN_UP: Reason = Reason::fits("slack-taken-up", "the capacity covers rings and cogs").limit();
const SLACK: Reason = Reason::caveat(
    "slack-in-small-gears",
    "the capacity of {limit} is {short} short of the {need} needed: the chain hangs slack in the smallest ring with the smallest cogs, which are to be avoided",
)
.limit()
.tolerated()
.remedies(&[LONGER_CAGE, CLOSER_COGS])
.note(KEEP_LENGTH);
const MUCH_SLACK: Reason = Reason::caveat(
    "much-slack-in-small-gears",
    "the capacity of {limit} is {short} short of the {need} needed: several gears with the smallest ring hang slack and must never be used",
)
.limit()
.tolerated()
.strong()
.damage()
.remedies(&[LONGER_CAGE, CLOSER_COGS])
.note(KEEP_LENGTH);
const SLACK_SINGLE: Reason = Reason::caveat(
    "slack-in-smallest-cog",
    "the capacity of {limit} is {short} short of the {need} needed: the chain may hang slack in the smallest cog",
)
.limit()
.tolerated()
.remedies(&[LONGER_CAGE, CLOSER_COGS])
.note(KEEP_LENGTH);
const TOO_SHORT: Reason =
    Reason::no("capacity-too-small", "the capacity of {limit} is {short} short of the {need} needed")
        .limit()
        .damage()
        .remedies(&[
            LONGER_CAGE,
            CLOSER_COGS,
            Remedy::act(
                "fewer-rings",
                "fewer or closer rings, where the rider can do without the lowest or the highest gears",
            ),
        ]);

const CAPACITY: Rule = Rule {
    code: "capacity",
    slots: &[Rings, Cogs, RearDerailleur],
    inputs: &[
        (Rings, attr::RING_COUNT.attribute()),
        (Rings, attr::LARGEST_RING.attribute()),
        (Rings, attr::SMALLEST_RING.attribute()),
        (Cogs, attr::LARGEST_COG.attribute()),
        (Cogs, attr::SMALLEST_COG.attribute()),
        (RearDerailleur, attr::CAPACITY.attribute()),
    ],
    reasons: &[&TAKEN_UP, &SLACK, &MUCH_SLACK, &SLACK_SINGLE, &TOO_SHORT],
    judge: capacity,
};

fn capacity(given: &Given<'_>) -> Judged {
    let limit = given.num(RearDerailleur, attr::CAPACITY);
    let need = needed(given);
    let (limit, (single, need)) = (limit?, need?);
    let short = need - limit;
    if short.at_most(0)? {
        return Ok(Judgement::from(&TAKEN_UP).with("need", need).with("limit", limit).with("margin", -short));
    }
    let reason = if single {
        if short.at_most(SHORT_SINGLE)? { &SLACK_SINGLE } else { &TOO_SHORT }
    } else if short.at_most(SHORT_MILD)? {
        &SLACK
    } else if short.at_most(SHORT_SEVERAL)? {
        &MUCH_SLACK
    } else {
        &TOO_SHORT
    };
    Ok(Judgement::from(reason).with("need", need).with("limit", limit).with("short", short))
}

/// Whether there is a single ring, and the teeth to take up. The rings are not read where there is only one.
fn needed(given: &Given<'_>) -> Result<(bool, Num<Teeth>), Stop> {
    let count = given.num(Rings, attr::RING_COUNT);
    let largest_cog = given.num(Cogs, attr::LARGEST_COG);
    let smallest_cog = given.num(Cogs, attr::SMALLEST_COG);
    let single = count.and_then(|count| count.equals(1));
    let front = if single == Ok(true) { Ok(Num::exact(0)) } else { ring_difference(given) };
    let (single, front) = (single?, front?);
    Ok((single, front + largest_cog? - smallest_cog?))
}

fn ring_difference(given: &Given<'_>) -> Result<Num<Teeth>, Stop> {
    let largest = given.num(Rings, attr::LARGEST_RING);
    let smallest = given.num(Rings, attr::SMALLEST_RING);
    Ok(largest? - smallest?)
}

// Ring difference.

const DIFFERENCE_ALLOWED: Reason =
    Reason::fits("ring-difference-allowed", "the derailleur allows the difference of the rings").limit();
const DIFFERENCE_OVER: Reason = Reason::caveat(
    "ring-difference-over",
    "the rings differ by {need}, the derailleur is published for {limit}: where the capacity holds it usually works",
)
.limit()
.tolerated();
const SINGLE_RING_ONLY: Reason = Reason::no(
    "single-ring-only",
    "the derailleur is made for a single ring: its offset pulley does not follow front shifts",
)
.limit()
.remedies(&[
    Remedy::act("single-ring", "riding it with one ring"),
    Remedy::replace(Kind::RearDerailleur, "a derailleur made for several rings, of the same pull"),
]);

const RING_DIFFERENCE: Rule = Rule {
    code: "ring-difference",
    slots: &[Rings, RearDerailleur],
    inputs: &[
        (Rings, attr::RING_COUNT.attribute()),
        (Rings, attr::LARGEST_RING.attribute()),
        (Rings, attr::SMALLEST_RING.attribute()),
        (RearDerailleur, attr::MAX_FRONT_DIFFERENCE.attribute()),
    ],
    reasons: &[&DIFFERENCE_ALLOWED, &DIFFERENCE_OVER, &SINGLE_RING_ONLY],
    // Many makers publish no such limit: silent unless it is known.
    judge: |given| {
        let limit = given.known(RearDerailleur, attr::MAX_FRONT_DIFFERENCE).ok_or(Stop::Silent)?;
        if given.num(Rings, attr::RING_COUNT)?.equals(1)? {
            return Err(Stop::Silent);
        }
        if limit.equals(0)? {
            return Ok(Judgement::from(&SINGLE_RING_ONLY).with("limit", limit));
        }
        let need = ring_difference(given)?;
        let reason = if (need - limit).at_most(0)? { &DIFFERENCE_ALLOWED } else { &DIFFERENCE_OVER };
        Ok(Judgement::from(reason).with("need", need).with("limit", limit))
    },
};

// Suspension.

/// Chain that one tooth of difference takes: half of 12.7 mm.
const TOOTH_OF_CHAIN_UM: i64 = 6_350;

const GROWTH_SLACK: Reason = Reason::caveat(
    "slack-with-suspension",
    "capacity covers the gears but not the {growth} of suspension growth on top: check the smallest ring and cog with the suspension extended",
)
.geometry();

const SUSPENSION: Rule = Rule {
    code: "suspension",
    slots: &[Rings, Cogs, RearDerailleur, Frame],
    inputs: &[
        CAPACITY.inputs[0],
        CAPACITY.inputs[1],
        CAPACITY.inputs[2],
        CAPACITY.inputs[3],
        CAPACITY.inputs[4],
        CAPACITY.inputs[5],
        (Frame, attr::CHAIN_GROWTH.attribute()),
    ],
    reasons: &[&GROWTH_SLACK],
    // The capacity rule asks for what is missing; this one adds to what is known.
    judge: |given| {
        let growth = given.known(Frame, attr::CHAIN_GROWTH).ok_or(Stop::Silent)?;
        let limit = given.known(RearDerailleur, attr::CAPACITY).ok_or(Stop::Silent)?;
        let (_, need) = needed(given).map_err(|_| Stop::Silent)?;
        if !(need - limit).at_most(0)? {
            return Err(Stop::Silent);
        }
        let room: Num<Micrometres> = (limit - need).times(TOOTH_OF_CHAIN_UM).counted_as();
        if (growth.times(2) - room).at_most(0)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&GROWTH_SLACK).with("growth", growth).with("need", need).with("limit", limit))
    },
};
