//! # Cut-down cassette on body
//!
//! ## What it checks
//! Whether a set of loose cogs, with some left out, is carried by a body that is shorter than the whole set needs.
//!
//! ## Why it matters
//! A stack that is too high is not clamped, one without its outermost cog gives the lockring nothing to bite on: both
//! come loose.
//!
//! ## Numbers
//! * stack = (cogs - 1) x pitch + thickness, at most 1.4 mm over the stack that the body is made for: 31.85 mm on a body of
//!   30.4 mm (seven speeds), 36.5 mm on 34.9 mm (nine), 38.5 mm on 36.75 mm (eleven).
//! * Reported to work: 8 of 9 (32.2 mm) and 9 of 10 (33.2 mm) on the shortest body, 10 of 11 (34.8 mm) on the middle one.
//! * More than 1.4 mm under it, a spacer of the difference goes behind the largest cog.
//!
//! ## Exceptions
//! * The outermost cog must stay: it carries the serrations of the lockring.
//! * Cogs on carriers or in one piece cannot be left out.
//! * Chain and shifter are those of the whole set: its class does not change.
//!
//! ## Sources
//! Forum reports and a folding-bike maker's note, seen as excerpts; stacks computed; tolerance taken from the reported
//! successes.

use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Body, Cassette};
use crate::part::units::Micrometres;
use crate::part::word::CogFixing;
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "cut-down-cassette",
    title: "Cut-down cassette on body",
    file: include_str!("cut_down_cassette.rs"),
    source: "forum reports, seen as excerpts; stacks computed",
    rules: &[STACK, OUTERMOST, JOIN],
};

// Stack.

/// Bodies of nine splines with the stack that each is made for, in micrometres.
const NATIVE_STACKS: [(i64, i64); 3] = [(30_400, 31_850), (34_900, 36_500), (36_750, 38_500)];
/// A body is one of these within this much.
const BODY_TOLERANCE_UM: i64 = 150;
/// A stack may be over or under by this much.
const STACK_TOLERANCE_UM: i64 = 1_400;

const WHOLE_SET: Remedy = Remedy::replace(Kind::Cassette, "a whole cassette made for this body");

const CARRIED: Reason = Reason::fits("cut-down-carried", "the body carries the cut-down stack of {stack}")
    .geometry()
    .note("put no two cogs or spacers together, and check that nothing rocks once the lockring is tight");
const SPACER: Reason = Reason::extra(
    "cut-down-spacer",
    "the cut-down stack of {stack} is {spacer} lower than the body is made for: a spacer goes behind the largest cog",
    &[Extra::needed(Kind::Spacer, &[(Attribute::Thickness, Source::Number("spacer"))])],
)
.geometry()
.injury()
.note("spacers go behind the largest cog, never outside the smallest; without it the stack rocks on the body");
const TOO_HIGH: Reason = Reason::no(
    "cut-down-too-high",
    "the cut-down stack of {stack} is {over} higher than the body carries: one more cog must go",
)
.geometry()
.injury()
.remedies(&[
    Remedy::act("fewer-cogs", "leaving out one more middle cog with its spacer"),
    WHOLE_SET,
    Remedy::replace(Kind::FreehubBody, "the longer body, if the hub maker offers one for this very hub"),
]);
const NOT_LOOSE: Reason =
    Reason::no("cogs-not-loose", "only loose cogs can be left out, not those on carriers or in one piece")
        .injury()
        .remedies(&[WHOLE_SET]);
const UNUSUAL_BODY: Reason =
    Reason::unclear("no-native-stack", "for a body of {body} no stack is known to compare with");

const STACK: Rule = Rule {
    code: "stack",
    slots: &[Cassette, Body],
    inputs: &[
        (Cassette, attr::CUT_DOWN.attribute()),
        (Cassette, attr::MOUNT_FAMILY.attribute()),
        (Body, attr::MOUNT_FAMILY.attribute()),
        (Body, attr::BODY_LENGTH.attribute()),
        (Cassette, attr::COG_FIXING.attribute()),
        (Cassette, attr::COG_COUNT.attribute()),
        (Cassette, attr::COG_PITCH.attribute()),
        (Cassette, attr::COG_THICKNESS.attribute()),
    ],
    reasons: &[&CARRIED, &SPACER, &TOO_HIGH, &NOT_LOOSE, &UNUSUAL_BODY],
    judge: stack,
};

fn stack(given: &Given<'_>) -> Judged {
    if !given.is_known(Cassette, attr::CUT_DOWN) || !pattern_taken(given) {
        return Err(Stop::Silent);
    }
    let fixing = given.word(Cassette, attr::COG_FIXING);
    let body = given.num(Body, attr::BODY_LENGTH);
    let cogs = given.num(Cassette, attr::COG_COUNT);
    let pitch = given.num(Cassette, attr::COG_PITCH);
    let thickness = given.num(Cassette, attr::COG_THICKNESS);
    if fixing? != CogFixing::Loose {
        return say(&NOT_LOOSE);
    }
    let (body, cogs, pitch, thickness) = (body?, cogs?, pitch?, thickness?);
    let Some(native) = native_stack(body)? else {
        return Ok(Judgement::from(&UNUSUAL_BODY).with("body", body));
    };
    let height =
        Num::<Micrometres>::between((cogs.low - 1) * pitch.low, (cogs.high - 1) * pitch.high) + thickness;
    let over = height - Num::exact(native);
    if over.at_least(STACK_TOLERANCE_UM + 1)? {
        return Ok(Judgement::from(&TOO_HIGH).with("stack", height).with("over", over));
    }
    if over.at_least(-STACK_TOLERANCE_UM)? {
        return Ok(Judgement::from(&CARRIED)
            .with("stack", height)
            .with("limit", Num::<Micrometres>::exact(native)));
    }
    Ok(Judgement::from(&SPACER).with("stack", height).with("spacer", -over))
}

/// The pattern is "cassette on freehub body"'s to judge and to ask for.
fn pattern_taken(given: &Given<'_>) -> bool {
    if given.is_missing(Cassette, attr::MOUNT_FAMILY) || given.is_missing(Body, attr::MOUNT_FAMILY) {
        return false;
    }
    let cassette = given.key(Cassette, attr::MOUNT_FAMILY);
    let body = given.key(Body, attr::MOUNT_FAMILY);
    matches!((cassette, body), (Ok(cassette), Ok(body)) if given.accepts(body, cassette))
}

fn native_stack(body: Num<Micrometres>) -> Result<Option<i64>, Stop> {
    for (length, stack) in NATIVE_STACKS {
        if body.within(length - BODY_TOLERANCE_UM, length + BODY_TOLERANCE_UM)? {
            return Ok(Some(stack));
        }
    }
    Ok(None)
}

// Outermost cog.

const OUTERMOST_KEPT: Reason =
    Reason::fits("outermost-cog-kept", "the outermost cog with the serrations for the lockring is there");
const OUTERMOST_GONE: Reason = Reason::no(
    "outermost-cog-gone",
    "without the outermost cog of the set the lockring has no serrations to bite on and comes loose",
)
.injury()
.remedies(&[Remedy::act("keep-outermost", "keeping the outermost cog and leaving out a middle one")]);

const OUTERMOST: Rule = Rule {
    code: "outermost-cog",
    slots: &[Cassette, Body],
    inputs: &[(Cassette, attr::CUT_DOWN.attribute()), (Cassette, attr::OUTERMOST_COG_KEPT.attribute())],
    reasons: &[&OUTERMOST_KEPT, &OUTERMOST_GONE],
    judge: |given| {
        if !given.is_known(Cassette, attr::CUT_DOWN) {
            return Err(Stop::Silent);
        }
        say(if given.flag(Cassette, attr::OUTERMOST_COG_KEPT)? { &OUTERMOST_KEPT } else { &OUTERMOST_GONE })
    },
};

// Join.

const SLUGGISH: Reason = Reason::caveat(
    "cut-down-sluggish",
    "shifting is sluggish where a middle cog is left out; chain and shifter stay those of the whole set",
)
.remedies(&[WHOLE_SET]);

const JOIN: Rule = Rule {
    code: "join",
    slots: &[Cassette, Body],
    inputs: &[(Cassette, attr::CUT_DOWN.attribute())],
    reasons: &[&SLUGGISH],
    judge: |given| if given.is_known(Cassette, attr::CUT_DOWN) { say(&SLUGGISH) } else { Err(Stop::Silent) },
};
