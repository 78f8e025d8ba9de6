//! # Shifter on rear derailleur
//!
//! ## What it checks
//! Groups of cable pull and electronic protocols that are closed: which shifters and cogs work with a derailleur of one.
//!
//! ## Why it matters
//! Closed groups pull cable, or speak, in their own way: nothing else works them, and no figures are known to compute.
//!
//! ## Numbers
//! * Electronic: equality of the protocol. Positions of a shifter do not matter, the derailleur decides the cogs.
//! * Closed cable groups: equality of the group, and cogs of its class (11 for the thick-cog and the late eleven-speed
//!   group, 12 or 13 for the others).
//!
//! ## Exceptions
//! * Open cable groups are judged with the cogs, by "indexing".
//! * The thick-cog group serves 9, 10 and 11 cogs with one pitch; its cogs must be stated as such, by their profile.
//! * Road and mountain parts of one wired electronic family speak differently.
//! * A spring that pulls towards the large cogs turns the lever's sense around; the pull is the same.
//!
//! ## Sources
//! A maker engineer's account of the thick-cog group and workshop answers on electronic parts, seen as excerpts; closed
//! 12- and 13-speed cable groups from memory.

use super::shift_table::{closed_class, electronic, open};
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Cogs, RearDerailleur, RearShifter};
use crate::part::interfaces::PROFILE_THICK;
use crate::part::units::Count;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "shifter-on-derailleur",
    title: "Shifter on rear derailleur",
    file: include_str!("shifter_on_derailleur.rs"),
    source: "makers' and workshop answers on closed groups, seen as excerpts; partly from memory",
    rules: &[GROUP, CLOSED_COGS, ELECTRONIC_COGS, THICK_COGS, REVERSED_SPRING],
};

/// The cable group of the thick-cog sets.
const FLAT_PULL: &str = "a-flat-pull";

const SHIFTER_TO_MATCH: Remedy =
    Remedy::replace(Kind::RearShifter, "a shifter of the derailleur's group or protocol");
const DERAILLEUR_TO_MATCH: Remedy =
    Remedy::replace(Kind::RearDerailleur, "a derailleur of the shifter's group or protocol");
const COGS_TO_MATCH: Remedy =
    Remedy::replace(Kind::Cassette, "cogs of the class that the derailleur is made for");

// Group.

const PROTOCOL_EQUAL: Reason =
    Reason::fits("protocol-equal", "shifter and derailleur speak the same protocol");
const PROTOCOL_DIFFERS: Reason =
    Reason::no("protocol-differs", "shifter and derailleur speak different electronic protocols")
        .remedies(&[SHIFTER_TO_MATCH, DERAILLEUR_TO_MATCH]);
const CABLE_AND_ELECTRONIC: Reason = Reason::no(
    "cable-and-electronic",
    "one of shifter and derailleur is electronic, the other works by cable",
)
.remedies(&[SHIFTER_TO_MATCH, DERAILLEUR_TO_MATCH]);
const GROUP_EQUAL: Reason =
    Reason::fits("closed-group-equal", "shifter and derailleur belong to the same closed group");
const GROUP_CLOSED: Reason = Reason::no(
    "closed-group-differs",
    "one of shifter and derailleur belongs to a closed group that the other does not",
)
.remedies(&[SHIFTER_TO_MATCH, DERAILLEUR_TO_MATCH]);

const GROUP: Rule = Rule {
    code: "group",
    slots: &[RearShifter, RearDerailleur],
    inputs: &[
        (RearShifter, attr::PULL_FAMILY.attribute()),
        (RearDerailleur, attr::PULL_FAMILY.attribute()),
        (RearShifter, attr::FRICTION.attribute()),
    ],
    reasons: &[&PROTOCOL_EQUAL, &PROTOCOL_DIFFERS, &CABLE_AND_ELECTRONIC, &GROUP_EQUAL, &GROUP_CLOSED],
    judge: group,
};

fn group(given: &Given<'_>) -> Judged {
    let derailleur_key = given.key(RearDerailleur, attr::PULL_FAMILY);
    if given.is_known(RearShifter, attr::FRICTION) {
        // A friction lever pulls any cable; one that is electronic as well is a slip of the pen.
        if !given.is_missing(RearShifter, attr::PULL_FAMILY)
            && electronic(given.name(given.key(RearShifter, attr::PULL_FAMILY)?))
        {
            return Err(Stop::Undecided);
        }
        return if electronic(given.name(derailleur_key?)) {
            say(&CABLE_AND_ELECTRONIC)
        } else {
            Err(Stop::Silent)
        };
    }
    let shifter_key = given.key(RearShifter, attr::PULL_FAMILY);
    let (shifter_key, derailleur_key) = (shifter_key?, derailleur_key?);
    let (shifter, derailleur) = (given.name(shifter_key), given.name(derailleur_key));
    let equal = given.accepts(derailleur_key, shifter_key);
    match (electronic(shifter), electronic(derailleur)) {
        (true, true) => say(if equal { &PROTOCOL_EQUAL } else { &PROTOCOL_DIFFERS }),
        (true, false) | (false, true) => say(&CABLE_AND_ELECTRONIC),
        (false, false) if open(shifter) && open(derailleur) => Err(Stop::Silent),
        (false, false) => say(if equal { &GROUP_EQUAL } else { &GROUP_CLOSED }),
    }
}

// Cogs of closed groups.

const CLOSED_COGS_RIGHT: Reason =
    Reason::fits("cogs-of-the-group", "the cogs belong to the closed group of the derailleur");
const CLOSED_COGS_OTHER: Reason = Reason::no(
    "cogs-of-another-group",
    "the closed group of shifter and derailleur is made for cogs of class {need}, in the thick-cog group for its own",
)
.remedies(&[COGS_TO_MATCH]);

const CLOSED_COGS: Rule = Rule {
    code: "closed-group-cogs",
    slots: &[RearDerailleur, Cogs],
    inputs: &[
        (RearDerailleur, attr::PULL_FAMILY.attribute()),
        (Cogs, attr::CHAIN_CLASS.attribute()),
        (Cogs, attr::CHAIN_PROFILE.attribute()),
    ],
    reasons: &[&CLOSED_COGS_RIGHT, &CLOSED_COGS_OTHER],
    judge: |given| {
        // Asked for by the group.
        if given.is_missing(RearDerailleur, attr::PULL_FAMILY) {
            return Err(Stop::Silent);
        }
        let derailleur = given.name(given.key(RearDerailleur, attr::PULL_FAMILY)?);
        let need = closed_class(derailleur).ok_or(Stop::Silent)?;
        let class = given.num(Cogs, attr::CHAIN_CLASS);
        let thick = if derailleur == FLAT_PULL {
            given.key(Cogs, attr::CHAIN_PROFILE).map(|profile| given.name(profile) == PROFILE_THICK)
        } else {
            Ok(true)
        };
        let (class, thick) = (class?, thick?);
        let reason = if class.equals(need)? && thick { &CLOSED_COGS_RIGHT } else { &CLOSED_COGS_OTHER };
        Ok(Judgement::from(reason).with("need", Num::<Count>::exact(need)).with("class", class))
    },
};

const ELECTRONIC_COGS_RIGHT: Reason =
    Reason::fits("cogs-of-the-derailleur", "the electronic derailleur is made for cogs of this class");
const ELECTRONIC_COGS_OTHER: Reason = Reason::no(
    "cogs-of-another-class",
    "the electronic derailleur moves for {need} speeds, the cogs are spaced for {class}",
)
.remedies(&[
    COGS_TO_MATCH,
    Remedy::replace(Kind::RearDerailleur, "a derailleur of the same protocol for these cogs"),
]);

const ELECTRONIC_COGS: Rule = Rule {
    code: "electronic-cogs",
    slots: &[RearDerailleur, Cogs],
    inputs: &[
        (RearDerailleur, attr::PULL_FAMILY.attribute()),
        (RearDerailleur, attr::DECLARED_SPEEDS.attribute()),
        (Cogs, attr::CHAIN_CLASS.attribute()),
    ],
    reasons: &[&ELECTRONIC_COGS_RIGHT, &ELECTRONIC_COGS_OTHER],
    judge: |given| {
        if given.is_missing(RearDerailleur, attr::PULL_FAMILY)
            || !electronic(given.name(given.key(RearDerailleur, attr::PULL_FAMILY)?))
        {
            return Err(Stop::Silent);
        }
        let need = given.num(RearDerailleur, attr::DECLARED_SPEEDS);
        let class = given.num(Cogs, attr::CHAIN_CLASS);
        let (need, class) = (need?, class?);
        let reason = if (need - class).equals(0)? { &ELECTRONIC_COGS_RIGHT } else { &ELECTRONIC_COGS_OTHER };
        Ok(Judgement::from(reason).with("need", need).with("class", class))
    },
};

const THICK_WITH_OTHERS: Reason = Reason::no(
    "thick-cogs-need-their-group",
    "the thick-cog set is indexed only by shifter and derailleur of its own group",
)
.remedies(&[COGS_TO_MATCH, DERAILLEUR_TO_MATCH]);

const THICK_COGS: Rule = Rule {
    code: "thick-cogs",
    slots: &[RearDerailleur, Cogs],
    inputs: &[(RearDerailleur, attr::PULL_FAMILY.attribute()), (Cogs, attr::CHAIN_PROFILE.attribute())],
    reasons: &[&THICK_WITH_OTHERS],
    judge: |given| {
        if given.is_missing(RearDerailleur, attr::PULL_FAMILY)
            || given.is_missing(Cogs, attr::CHAIN_PROFILE)
            || given.known_absent(Cogs, attr::CHAIN_PROFILE)
        {
            return Err(Stop::Silent);
        }
        let thick = given.name(given.key(Cogs, attr::CHAIN_PROFILE)?) == PROFILE_THICK;
        let own = given.name(given.key(RearDerailleur, attr::PULL_FAMILY)?) == FLAT_PULL;
        if thick && !own { say(&THICK_WITH_OTHERS) } else { Err(Stop::Silent) }
    },
};

// Reversed spring.

const LEVER_REVERSED: Reason = Reason::caveat(
    "lever-sense-reversed",
    "the spring pulls towards the large cogs: it indexes alike, but the levers work the other way round",
);

const REVERSED_SPRING: Rule = Rule {
    code: "reversed-spring",
    slots: &[RearShifter, RearDerailleur],
    inputs: &[(RearDerailleur, attr::REVERSED_SPRING.attribute())],
    reasons: &[&LEVER_REVERSED],
    judge: |given| {
        if given.is_known(RearDerailleur, attr::REVERSED_SPRING) {
            say(&LEVER_REVERSED)
        } else {
            Err(Stop::Silent)
        }
    },
};
