//! # Front shifter on front derailleur
//!
//! ## What it checks
//! The pull group or protocol of shifter and derailleur, the positions of the shifter against the rings, and electronic
//! front and rear derailleurs against each other.
//!
//! ## Why it matters
//! Road and mountain front indexing have always differed, also where the rear parts of one family mix freely: nothing
//! follows from the rear for the front.
//!
//! ## Numbers
//! * Road front levers pull less than mountain ones; a measured pair came to 0.746.
//! * Positions at least as many as rings; three positions work two rings within the limit screws.
//!
//! ## Exceptions
//! * Friction shifters work every cable derailleur. Generations of one family (long arm, short arm) differ.
//! * Electronic shifters are switches: their number of speeds does not count, the protocol does. Front and rear derailleur
//!   of a wired family must both be road or both mountain; mixed, nothing moves.
//!
//! ## Sources
//! A national cycling charity's magazine (2012/13), a forum thread on measured pulls, a magazine's technical column on
//! electronic parts; triple shifter on a double common practice.

use super::known;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{FrontDerailleur, FrontShifter, RearDerailleur, Rings};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "front-shifter-on-derailleur",
    title: "Front shifter on front derailleur",
    file: include_str!("front_shifter_on_derailleur.rs"),
    source: "a national cycling charity's magazine, a magazine's technical column",
    rules: &[PULL, POSITIONS, ELECTRONIC_PAIR],
};

const ELECTRONIC: &str = "electronic";

const REMEDIES: [Remedy; 2] = [
    Remedy::replace(Kind::FrontShifter, "a shifter of the derailleur's pull group"),
    Remedy::replace(Kind::FrontDerailleur, "a derailleur of the shifter's pull group that suits the rings"),
];

const SAME_GROUP: Reason = Reason::fits("same-group", "shifter and derailleur belong to one pull group");
const FRICTION: Reason = Reason::fits("friction", "a friction shifter works every cable derailleur");
const OTHER_GROUP: Reason = Reason::no(
    "other-group",
    "the shifter pulls another length of cable than the derailleur needs: it stops short of a ring or overshoots",
)
.remedies(&REMEDIES);
const OTHER_PROTOCOL: Reason =
    Reason::no("other-protocol", "shifter and derailleur do not speak the same protocol").remedies(&REMEDIES);

const PULL: Rule = Rule {
    code: "pull",
    slots: &[FrontShifter, FrontDerailleur],
    inputs: &[
        (FrontShifter, attr::FRONT_PULL_FAMILY.attribute()),
        (FrontDerailleur, attr::FRONT_PULL_FAMILY.attribute()),
        (FrontShifter, attr::FRICTION.attribute()),
    ],
    reasons: &[&SAME_GROUP, &FRICTION, &OTHER_GROUP, &OTHER_PROTOCOL],
    judge: |given| {
        let derailleur = given.key(FrontDerailleur, attr::FRONT_PULL_FAMILY);
        let shifter = given.key(FrontShifter, attr::FRONT_PULL_FAMILY);
        if given.is_known(FrontShifter, attr::FRICTION) {
            // Both cannot be right: the statements contradict each other.
            if matches!(shifter, Ok(key) if given.name(key).starts_with(ELECTRONIC)) {
                return Err(Stop::Silent);
            }
            let electronic = given.name(derailleur?).starts_with(ELECTRONIC);
            return say(if electronic { &OTHER_PROTOCOL } else { &FRICTION });
        }
        let (shifter, derailleur) = (shifter?, derailleur?);
        if given.accepts(derailleur, shifter) {
            return say(&SAME_GROUP);
        }
        let electronic = [shifter, derailleur].iter().any(|key| given.name(*key).starts_with(ELECTRONIC));
        if electronic {
            return say(&OTHER_PROTOCOL);
        }
        // Only a shifter that is known to click is refused.
        given.flag(FrontShifter, attr::FRICTION)?;
        say(&OTHER_GROUP)
    },
};

const ENOUGH: Reason = Reason::fits("enough-positions", "the shifter has a position for every ring");
const ONE_SPARE: Reason = Reason::caveat(
    "spare-position",
    "the shifter has a position more than there are rings: the limit screws must stop it",
);
const TOO_FEW: Reason =
    Reason::no("too-few-positions", "the shifter has fewer positions than there are rings")
        .remedies(&[Remedy::replace(Kind::FrontShifter, "a shifter with a position for every ring")]);

const POSITIONS: Rule = Rule {
    code: "positions",
    slots: &[FrontShifter, Rings],
    inputs: &[
        (FrontShifter, attr::FRONT_POSITIONS.attribute()),
        (FrontShifter, attr::FRICTION.attribute()),
        (FrontShifter, attr::FRONT_PULL_FAMILY.attribute()),
        (Rings, attr::RING_COUNT.attribute()),
    ],
    reasons: &[&ENOUGH, &ONE_SPARE, &TOO_FEW],
    judge: |given| {
        let family = known::name(given, FrontShifter, attr::FRONT_PULL_FAMILY);
        let switch = family.is_some_and(|name| name.starts_with(ELECTRONIC));
        if given.is_known(FrontShifter, attr::FRICTION) || switch {
            return Err(Stop::Silent);
        }
        let positions = given.num(FrontShifter, attr::FRONT_POSITIONS);
        let rings = given.num(Rings, attr::RING_COUNT);
        let (positions, rings) = (positions?, rings?);
        if rings.equals(1)? {
            return Err(Stop::Silent);
        }
        let spare = positions - rings;
        let reason = if spare.equals(0)? {
            &ENOUGH
        } else if spare.at_least(1)? {
            &ONE_SPARE
        } else {
            &TOO_FEW
        };
        Ok(Judgement::from(reason).with("positions", positions).with("rings", rings))
    },
};

const PAIR_MATCHES: Reason =
    Reason::fits("pair-matches", "front and rear derailleur speak the same protocol");
const PAIR_MIXED: Reason = Reason::no(
    "pair-mixed",
    "electronic front and rear derailleur are of different kinds: mixed on one bike, nothing moves",
)
.remedies(&[
    Remedy::act("rear-only", "riding with the rear derailleur alone"),
    Remedy::replace(Kind::FrontDerailleur, "a front derailleur of the rear one's kind"),
    Remedy::replace(Kind::RearDerailleur, "a rear derailleur of the front one's kind"),
]);

const ELECTRONIC_PAIR: Rule = Rule {
    code: "electronic-pair",
    slots: &[FrontDerailleur, RearDerailleur],
    inputs: &[
        (FrontDerailleur, attr::FRONT_PULL_FAMILY.attribute()),
        (RearDerailleur, attr::PULL_FAMILY.attribute()),
    ],
    reasons: &[&PAIR_MATCHES, &PAIR_MIXED],
    // Cable on either side has nothing to match; unknown groups are asked for by the shifters' rules.
    judge: |given| {
        let front = known::name(given, FrontDerailleur, attr::FRONT_PULL_FAMILY).ok_or(Stop::Silent)?;
        let rear = known::name(given, RearDerailleur, attr::PULL_FAMILY).ok_or(Stop::Silent)?;
        if !front.starts_with(ELECTRONIC) || !rear.starts_with(ELECTRONIC) {
            return Err(Stop::Silent);
        }
        // Front keys name the kind, rear keys may add the generation behind it.
        say(if rear.starts_with(front) { &PAIR_MATCHES } else { &PAIR_MIXED })
    },
};
