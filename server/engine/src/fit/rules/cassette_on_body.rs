//! # Cassette on freehub body
//!
//! ## What it checks
//! Spline or thread pattern, body length against the length that the cassette is made for, the smallest cog, the
//! depth of the grooves, and loose cogs on soft splines.
//!
//! ## Why it matters
//! A cassette that is longer than the body is not carried by the splines at its outer end and its lockring catches
//! too few threads; one that is shorter rocks until a spacer takes up the difference. Both can walk out under load.
//!
//! ## Numbers
//! * spacer s = body length - required length; within 0.15 mm of zero none is needed.
//! * Spacers exist as 1.0, 1.85 and 4.5 mm and their sums: 1.0, 1.85, 2.85, 4.5, 5.5, 6.35, 7.35 mm.
//! * The width of the stack is never used: a 10-speed stack is wider than a 9-speed one and yet may need a spacer.
//! * Only nine-spline bodies come in several lengths. The long threaded driver is the short one and 1.85 mm; a short
//!   set on it takes a spacer of that, a long set on the short one does not fit. Other patterns have one length.
//!
//! ## Exceptions
//! * 11-speed mountain cassettes fit the shorter nine-spline body; narrow 11-speed road ones do not. Speed alone
//!   decides nothing, so the required length must be stated for the cassette.
//! * A cut-down set is judged by "cut-down" instead: it may sit on a shorter body.
//! * A body takes the patterns that the registry lists for it; the reverse does not follow.
//!
//! ## Sources
//! Workshop pages and makers' compatibility tables seen as excerpts; tolerance of 0.15 mm reasoned from the spread of
//! 34.90 and 34.95 mm in them. No ISO standard covers cassette splines (from memory).

use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Body, Cassette};
use crate::part::interfaces::{DRIVER_LONG, DRIVER_SHORT, SPLINE_9, SPLINE_9_FULL, SPLINE_9_TALL};
use crate::part::units::{Micrometres, Teeth};
use crate::part::word::{BodyMaterial, CogFixing, GrooveDepth};
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "cassette-on-body",
    title: "Cassette on freehub body",
    file: include_str!("cassette_on_body.rs"),
    source: "workshop pages and makers' compatibility tables, seen as excerpts",
    rules: &[PATTERN, LENGTH, SMALLEST_COG, STATED_SMALLEST_COG, GROOVES, SOFT_SPLINES],
};

const FAMILY: [(crate::fit::Slot, Attribute); 2] =
    [(Cassette, attr::MOUNT_FAMILY.attribute()), (Body, attr::MOUNT_FAMILY.attribute())];

// Pattern.

const PATTERN_TAKEN: Reason = Reason::fits("pattern-taken", "the body takes the pattern of the cassette");
const OTHER_PATTERN: Reason =
    Reason::no("other-pattern", "the cassette is cut for another body pattern").damage().remedies(&[
        Remedy::replace(
            Kind::FreehubBody,
            "a body with the cassette's pattern, if the hub maker offers one for this very hub",
        ),
        Remedy::replace(Kind::Cassette, "a cassette cut for the body that is there"),
        Remedy::replace(Kind::Wheel, "a wheel with a body of the cassette's pattern"),
    ]);

const PATTERN: Rule = Rule {
    code: "pattern",
    slots: &[Cassette, Body],
    inputs: &FAMILY,
    reasons: &[&PATTERN_TAKEN, &OTHER_PATTERN],
    judge: |given| say(if pattern_taken(given)? { &PATTERN_TAKEN } else { &OTHER_PATTERN }),
};

/// Whether the body takes the pattern; the other rules are silent where it does not.
fn pattern_taken(given: &Given<'_>) -> Result<bool, Stop> {
    let cassette = given.key(Cassette, attr::MOUNT_FAMILY);
    let body = given.key(Body, attr::MOUNT_FAMILY);
    Ok(given.accepts(body?, cassette?))
}

// Length.

/// How much longer the long threaded driver is than the short one.
const DRIVER_STEP_UM: i64 = 1_850;
/// Difference that needs no spacer, either way.
const LENGTH_TOLERANCE_UM: i64 = 150;

const LENGTH_RIGHT: Reason =
    Reason::fits("length-right", "the body has the length that the cassette is made for").geometry();
const LENGTH_OF_PATTERN: Reason = Reason::fits(
    "length-of-pattern",
    "bodies of this pattern have one length, which the cassette is made for",
);
const SPACER: Reason = Reason::extra(
    "spacer-behind",
    "the body is longer than the cassette needs: a spacer of {spacer} goes behind the largest cog",
    &[Extra::needed(Kind::Spacer, &[(Attribute::Thickness, Source::Number("spacer"))])],
)
.geometry()
.injury()
.note("spacers go behind the largest cog, never outside the smallest; without it the cassette rocks on the body");
const TOO_LONG: Reason = Reason::no(
    "too-long",
    "the cassette needs a body of {need}, this one has {body}: {short} too short, the outer cog is not carried and the lockring does not hold",
)
.geometry()
.injury()
.remedies(&[
    Remedy::replace(Kind::Cassette, "a cassette made for the shorter body"),
    Remedy::replace(Kind::FreehubBody, "the longer body, if the hub maker offers one for this very hub"),
    Remedy::replace(Kind::Wheel, "a wheel with the longer body"),
    Remedy::act("cut-down", "leaving out one loose middle cog with its spacer, and blocking one click, where the cogs are loose"),
]);

const LENGTH: Rule = Rule {
    code: "length",
    slots: &[Cassette, Body],
    inputs: &[
        FAMILY[0],
        FAMILY[1],
        (Cassette, attr::REQUIRED_LENGTH.attribute()),
        (Body, attr::BODY_LENGTH.attribute()),
        (Cassette, attr::CUT_DOWN.attribute()),
    ],
    reasons: &[&LENGTH_RIGHT, &LENGTH_OF_PATTERN, &SPACER, &TOO_LONG],
    judge: length,
};

fn length(given: &Given<'_>) -> Judged {
    if given.is_known(Cassette, attr::CUT_DOWN) {
        return Err(Stop::Silent);
    }
    // Read before the pattern decides, so that all that is missing is asked for together.
    let need = given.num(Cassette, attr::REQUIRED_LENGTH);
    let body = given.num(Body, attr::BODY_LENGTH);
    if !pattern_taken(given)? {
        return Err(Stop::Silent);
    }
    let cassette_key = given.key(Cassette, attr::MOUNT_FAMILY)?;
    let body_key = given.key(Body, attr::MOUNT_FAMILY)?;
    match given.name(body_key) {
        SPLINE_9 | SPLINE_9_FULL | SPLINE_9_TALL => {}
        DRIVER_LONG if given.name(cassette_key) == DRIVER_SHORT => {
            return Ok(Judgement::from(&SPACER).with("spacer", Num::<Micrometres>::exact(DRIVER_STEP_UM)));
        }
        _ => return say(&LENGTH_OF_PATTERN),
    }
    let (need, body) = (need?, body?);
    let spacer = body - need;
    if spacer.at_most(-LENGTH_TOLERANCE_UM - 1)? {
        return Ok(Judgement::from(&TOO_LONG).with("need", need).with("body", body).with("short", -spacer));
    }
    if spacer.at_most(LENGTH_TOLERANCE_UM)? {
        return Ok(Judgement::from(&LENGTH_RIGHT).with("need", need).with("body", body));
    }
    Ok(Judgement::from(&SPACER).with("spacer", spacer).with("need", need).with("body", body))
}

// Smallest cog.

const COG_CLEARS: Reason = Reason::fits("cog-clears", "the body leaves room for the smallest cog").limit();
const COG_TOO_SMALL: Reason =
    Reason::no("cog-too-small", "the smallest cog has {cog}, the body leaves room from {limit} on")
        .limit()
        .damage()
        .remedies(&[
            Remedy::replace(Kind::Cassette, "a cassette that starts at the body's smallest cog or above"),
            Remedy::replace(
                Kind::FreehubBody,
                "a body made for smaller cogs, if the hub maker offers one for this very hub",
            ),
        ]);

/// Smallest cog that a pattern leaves room for, by its description in the registry. Source: workshop pages and from
/// memory; on nine splines a 10T leaves 32.6 mm inside the chain, less than the body (computed).
const PATTERN_LIMITS: [(&str, i64); 9] = [
    (SPLINE_9, 11),
    (SPLINE_9_FULL, 12),
    (SPLINE_9_TALL, 11),
    ("spline-fine-12", 11),
    ("spline-23", 10),
    (DRIVER_SHORT, 9),
    (DRIVER_LONG, 9),
    ("spline-8-deep", 11),
    ("spline-8-deep-short", 9),
];

const SMALLEST_COG: Rule = Rule {
    code: "smallest-cog",
    slots: &[Cassette, Body],
    inputs: &[FAMILY[0], FAMILY[1], (Cassette, attr::SMALLEST_COG.attribute())],
    reasons: &[&COG_CLEARS, &COG_TOO_SMALL],
    judge: |given| {
        if !pattern_taken(given)? {
            return Err(Stop::Silent);
        }
        let pattern = given.name(given.key(Body, attr::MOUNT_FAMILY)?);
        let Some((_, limit)) = PATTERN_LIMITS.iter().find(|(name, _)| *name == pattern) else {
            return Err(Stop::Silent);
        };
        cog_against(given.num(Cassette, attr::SMALLEST_COG)?, Num::exact(*limit))
    },
};

/// A body may leave less room than its pattern usually does; where its maker says so, that counts too.
const STATED_SMALLEST_COG: Rule = Rule {
    code: "stated-smallest-cog",
    slots: &[Cassette, Body],
    inputs: &[
        FAMILY[0],
        FAMILY[1],
        (Cassette, attr::SMALLEST_COG.attribute()),
        (Body, attr::MIN_COG.attribute()),
    ],
    reasons: &[&COG_CLEARS, &COG_TOO_SMALL],
    judge: |given| match given.known(Body, attr::MIN_COG) {
        Some(limit) if pattern_taken(given)? => cog_against(given.num(Cassette, attr::SMALLEST_COG)?, limit),
        _ => Err(Stop::Silent),
    },
};

fn cog_against(cog: Num<Teeth>, limit: Num<Teeth>) -> Judged {
    let reason = if (cog - limit).at_least(0)? { &COG_CLEARS } else { &COG_TOO_SMALL };
    Ok(Judgement::from(reason).with("cog", cog).with("limit", limit))
}

// Grooves.

const GROOVES_DEEP: Reason =
    Reason::fits("grooves-deep", "the grooves are deep enough for the taller splines");
const GROOVES_SHALLOW: Reason =
    Reason::no("grooves-shallow", "the taller splines need a ten-speed cassette with deep grooves").damage();

const GROOVES: Rule = Rule {
    code: "grooves",
    slots: &[Cassette, Body],
    inputs: &[FAMILY[0], FAMILY[1], (Cassette, attr::GROOVE_DEPTH.attribute())],
    reasons: &[&GROOVES_DEEP, &GROOVES_SHALLOW],
    judge: |given| {
        if !pattern_taken(given)? || given.name(given.key(Body, attr::MOUNT_FAMILY)?) != SPLINE_9_TALL {
            return Err(Stop::Silent);
        }
        let deep = given.word(Cassette, attr::GROOVE_DEPTH)? == GrooveDepth::Deep;
        say(if deep { &GROOVES_DEEP } else { &GROOVES_SHALLOW })
    },
};

// Loose cogs on soft splines.

const NOTCHES: Reason = Reason::caveat(
    "loose-cogs-on-light-alloy",
    "loose cogs notch light-alloy splines and may then be hard to remove; cogs on carriers or a steel insert avoid it",
)
.damage();

const SOFT_SPLINES: Rule = Rule {
    code: "soft-splines",
    slots: &[Cassette, Body],
    inputs: &[(Cassette, attr::COG_FIXING.attribute()), (Body, attr::BODY_MATERIAL.attribute())],
    reasons: &[&NOTCHES],
    // A note on known parts, not a question of fit: silent unless both are known.
    judge: |given| {
        if given.is_missing(Cassette, attr::COG_FIXING) || given.is_missing(Body, attr::BODY_MATERIAL) {
            return Err(Stop::Silent);
        }
        let loose = given.word(Cassette, attr::COG_FIXING)? == CogFixing::Loose;
        let soft = given.word(Body, attr::BODY_MATERIAL)? == BodyMaterial::LightAlloy;
        if loose && soft { say(&NOTCHES) } else { Err(Stop::Silent) }
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::evaluate::{Ruling, evaluate};
    use crate::fit::{Outcome, Practice};
    use crate::part::interface::Interfaces;
    use crate::part::{Part, Set};

    fn outcome(rule: &'static Rule, cassette: &Part, body: &Part) -> Option<Outcome> {
        evaluate(rule, &[cassette, body], &Interfaces::standard(), Practice::Workshop)
            .outcome(Practice::Workshop)
    }

    fn spline(kind: Kind, key: &str) -> Part {
        let key = Interfaces::standard().find("freehub", key).expect("a known key");
        Part::new(kind).with(Attribute::MountFamily, Set::Exact(key.0.into()))
    }

    #[test]
    fn an_unknown_length_is_never_a_fit() {
        let cassette = spline(Kind::Cassette, "spline-9");
        let body = spline(Kind::FreehubBody, "spline-9").with(Attribute::BodyLength, Set::Exact(34_900));
        assert_eq!(outcome(&LENGTH, &cassette, &body), Some(Outcome::NotEnoughData));
        let ranged = cassette.clone().with(Attribute::RequiredLength, Set::Between(34_900, 36_750));
        assert_eq!(outcome(&LENGTH, &ranged, &body), Some(Outcome::NotEnoughData));
        let both_long = cassette.with(Attribute::RequiredLength, Set::OneOf([36_000, 36_750].into()));
        assert_eq!(outcome(&LENGTH, &both_long, &body), Some(Outcome::DoesNotFit));
    }

    #[test]
    fn a_missing_spacer_is_named_with_its_thickness() {
        let cassette = spline(Kind::Cassette, "spline-9").with(Attribute::RequiredLength, Set::Exact(33_900));
        let body = spline(Kind::FreehubBody, "spline-9").with(Attribute::BodyLength, Set::Exact(36_750));
        let ruling = evaluate(&LENGTH, &[&cassette, &body], &Interfaces::standard(), Practice::Workshop);
        let Ruling::Settled(judgements) = ruling else { panic!("settled") };
        let spacer = judgements[0].figures().find(|figure| figure.name == "spacer").expect("a spacer");
        assert_eq!((spacer.low, spacer.high), (2_850, 2_850));
    }

    #[test]
    fn a_foreign_pattern_silences_the_length() {
        let cassette = spline(Kind::Cassette, "spline-23");
        let body = spline(Kind::FreehubBody, "spline-9");
        assert_eq!(outcome(&PATTERN, &cassette, &body), Some(Outcome::DoesNotFit));
        assert_eq!(outcome(&LENGTH, &cassette, &body), None);
    }
}
