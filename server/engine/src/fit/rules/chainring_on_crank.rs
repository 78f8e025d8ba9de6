//! # Chainring on crank
//!
//! ## What it checks
//! Bolt circle, number and spacing of bolts or the direct-mount pattern; the least teeth that a bolt circle leaves room
//! for; the place that a ring is made for; rings on a motor's carrier.
//!
//! ## Why it matters
//! "110" and "direct mount" are several interfaces each. A ring that is too small for its bolt circle has its bolts
//! among the teeth; the outer ring of a double used alone helps the chain off.
//!
//! ## Numbers
//! * Bolt circle x bolts: least teeth. 151x5: 44; 144x5: 41; 135x5: 39; 130x5 and 128x5: 38; 122x5: 38 printed, 36 and
//!   37 exist; 118x5: 36; 110x5: 33; 110x4 uneven: 34 printed, 33 seen; 104x4: 32, 30 with threaded rings; 96x4: 30, 28
//!   printed; 94x5: 29; 74x5: 24; 64x4: 22, 20 special; 58x5: 20.
//! * Neighbouring holes are circle x sin(180 / bolts) apart; on five bolts every second one circle x sin 72 degrees.
//!
//! ## Exceptions
//! * 110x5, 110x4 even and 110x4 uneven are three interfaces, and so are the two of 96x4.
//! * The innermost ring may sit on a second, smaller circle of the crank. Rings of 35 teeth or more are not made for one
//!   (threshold reasoned).
//! * A motor's carrier takes the rings of its maker. Up to four teeth below its smallest ring they clear the housing less
//!   and push the chainline outwards (threshold reasoned).
//!
//! ## Sources
//! A hobby crib sheet of bolt circles, a chainring maker's guide, a mechanics' forum on 122 mm; 94, 74, 64 and 58 mm from
//! memory.

use super::known;
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Crankset, Motor, Ring, Rings};
use crate::part::interfaces::{RING_MOUNT_MOTOR, RING_MOUNT_RIVETED};
use crate::part::units::Teeth;
use crate::part::word::{RingPosition, ToothProfile};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "chainring-on-crank",
    title: "Chainring on crank",
    file: include_str!("chainring_on_crank.rs"),
    source: "a hobby crib sheet of bolt circles and a chainring maker's guide",
    rules: &[PATTERN, LEAST_TEETH, POSITION, ON_MOTOR, MOTOR_ROOM],
};

const RING: [Remedy; 2] = [
    Remedy::replace(Kind::Chainring, "a ring for the crank's own pattern"),
    Remedy::replace(Kind::Crankset, "a crank or spider that takes the ring"),
];

// Pattern.

const TAKEN: Reason = Reason::fits("taken", "the crank has the pattern of the ring").note(
    "chainring bolts evenly and to their torque; single and double rings take bolts of different length",
);
const TAKEN_INSIDE: Reason =
    Reason::fits("taken-inside", "the inner bolt circle of the crank has the pattern of the ring");
const RIVETED: Reason = Reason::no("riveted", "the rings of this crank are riveted: they are not replaced")
    .remedies(&[Remedy::replace(Kind::Crankset, "a crankset with the rings that are wanted")]);
const MOTOR_CARRIER: Reason = Reason::no(
    "motor-carrier",
    "a ring for ordinary cranks does not go on a motor's carrier unless the motor maker lists it",
)
.remedies(&RING);
const OTHER_PATTERN: Reason = Reason::no(
    "other-pattern",
    "the ring has another pattern: bolt circle, number and spacing of bolts must all be the crank's",
)
.remedies(&RING);

const PATTERN: Rule = Rule {
    code: "pattern",
    slots: &[Ring, Crankset],
    inputs: &[
        (Ring, attr::RING_MOUNT.attribute()),
        (Crankset, attr::RING_MOUNT.attribute()),
        (Crankset, attr::INNER_RING_MOUNT.attribute()),
    ],
    reasons: &[&TAKEN, &TAKEN_INSIDE, &RIVETED, &MOTOR_CARRIER, &OTHER_PATTERN],
    judge: pattern,
};

fn pattern(given: &Given<'_>) -> Judged {
    let ring = given.key(Ring, attr::RING_MOUNT);
    let crank = given.key(Crankset, attr::RING_MOUNT);
    let (ring, crank) = (ring?, crank?);
    if given.accepts(crank, ring) {
        return say(&TAKEN);
    }
    let ring_name = given.name(ring);
    if matches!(ring_name, "bcd-74x5" | "bcd-64x4" | "bcd-58x5")
        && !given.known_absent(Crankset, attr::INNER_RING_MOUNT)
    {
        let inside = given.key(Crankset, attr::INNER_RING_MOUNT)?;
        return say(if given.accepts(inside, ring) { &TAKEN_INSIDE } else { &OTHER_PATTERN });
    }
    say(match given.name(crank) {
        RING_MOUNT_RIVETED => &RIVETED,
        RING_MOUNT_MOTOR => &MOTOR_CARRIER,
        _ => &OTHER_PATTERN,
    })
}

// Least teeth.

const LARGE_ENOUGH: Reason =
    Reason::fits("large-enough", "the ring is large enough for its bolt circle").geometry();
const SPECIAL: Reason = Reason::caveat(
    "special-ring",
    "below {least} this bolt circle takes special rings only, such as threaded ones: check that this is one",
)
.geometry();
const TOO_SMALL: Reason = Reason::no(
    "too-small",
    "on this bolt circle {least} are the least: with {teeth} the bolts would sit among the teeth",
)
.geometry()
.remedies(&[
    Remedy::replace(Kind::Chainring, "a ring with at least {least}"),
    Remedy::replace(Kind::Crankset, "a crank with a smaller bolt circle"),
]);

const LEAST_TEETH: Rule = Rule {
    code: "least-teeth",
    slots: &[Ring, Crankset],
    inputs: &[
        (Ring, attr::TEETH.attribute()),
        (Ring, attr::RING_MOUNT.attribute()),
        (Ring, attr::RING_POSITION.attribute()),
        (Crankset, attr::INNER_RING_MOUNT.attribute()),
    ],
    reasons: &[&LARGE_ENOUGH, &SPECIAL, &TOO_SMALL],
    judge: least_teeth,
};

/// Rings of this size and above are not made for inner circles.
const INNER_UNDER: i64 = 35;

fn least_teeth(given: &Given<'_>) -> Judged {
    let teeth = given.num(Ring, attr::TEETH);
    let mount = given.key(Ring, attr::RING_MOUNT);
    let (teeth, mount) = (teeth?, mount?);
    let (least, special) = least(given.name(mount)).ok_or(Stop::Silent)?;
    if teeth.at_least(special)? {
        return on_circle(teeth, least, special);
    }
    // A ring that is listed with its crank names the crank's outer circle; the innermost may sit on the inner one.
    let position = known::word(given, Ring, attr::RING_POSITION);
    let elsewhere = position.is_some_and(|position| position != RingPosition::Inner);
    if teeth.at_least(INNER_UNDER)? || elsewhere || given.known_absent(Crankset, attr::INNER_RING_MOUNT) {
        return on_circle(teeth, least, special);
    }
    given.word(Ring, attr::RING_POSITION)?;
    let inside = given.key(Crankset, attr::INNER_RING_MOUNT)?;
    let (least, special) = self::least(given.name(inside)).ok_or(Stop::Silent)?;
    on_circle(teeth, least, special)
}

fn on_circle(teeth: Num<Teeth>, least: i64, special: i64) -> Judged {
    let reason = if teeth.at_least(least)? {
        &LARGE_ENOUGH
    } else if teeth.at_least(special)? {
        &SPECIAL
    } else {
        &TOO_SMALL
    };
    Ok(Judgement::from(reason).with("teeth", teeth).with("least", Num::<Teeth>::exact(least)))
}

/// Least teeth on a bolt circle: as printed, and with special rings.
fn least(mount: &str) -> Option<(i64, i64)> {
    Some(match mount {
        "bcd-151x5" => (44, 44),
        "bcd-144x5" => (41, 41),
        "bcd-135x5" => (39, 39),
        "bcd-130x5" | "bcd-128x5" => (38, 38),
        "bcd-122x5" => (38, 36),
        "bcd-118x5" => (36, 36),
        "bcd-110x5" => (33, 33),
        "bcd-110x4-asymmetric" => (34, 33),
        "bcd-104x4" => (32, 30),
        "bcd-96x4-symmetric" | "bcd-96x4-asymmetric" => (30, 28),
        "bcd-94x5" => (29, 29),
        "bcd-74x5" => (24, 24),
        "bcd-64x4" => (22, 20),
        "bcd-58x5" => (20, 20),
        _ => return None,
    })
}

/// Distance of bolt holes of a circle, both in micrometres: of neighbours for `step` 1, of every second for 2. A help for
/// measuring; nothing is decided on it.
pub fn hole_distance_um(circle_um: f64, bolts: u32, step: u32) -> f64 {
    circle_um * (std::f64::consts::PI * f64::from(step) / f64::from(bolts)).sin()
}

// Place on the crank.

const RIGHT_PLACE: Reason = Reason::fits("right-place", "the ring is made for this place");
const DOUBLE_ALONE: Reason = Reason::caveat(
    "double-ring-alone",
    "a ring of a double used alone: its ramps and pins help the chain off, and nothing holds it on",
)
.strong()
.remedies(&[
    Remedy::replace(Kind::Chainring, "a single ring with narrow-wide teeth"),
    Remedy::act("chain-guide", "a chain guide over the ring"),
]);
const ALTERNATING_SHIFTED: Reason = Reason::no(
    "narrow-wide-shifted",
    "a narrow-wide ring is made for use alone: the chain does not shift on and off it",
)
.remedies(&[Remedy::replace(Kind::Chainring, "a ramped ring made for its place on the double or triple")]);
const SINGLE_SHIFTED: Reason =
    Reason::caveat("single-ring-shifted", "a single ring has no ramps: beside another ring it shifts poorly");

const POSITION: Rule = Rule {
    code: "position",
    slots: &[Ring, Rings],
    inputs: &[
        (Ring, attr::RING_POSITION.attribute()),
        (Ring, attr::TOOTH_PROFILE.attribute()),
        (Rings, attr::RING_COUNT.attribute()),
    ],
    reasons: &[&RIGHT_PLACE, &DOUBLE_ALONE, &ALTERNATING_SHIFTED, &SINGLE_SHIFTED],
    judge: |given| {
        let position = given.word(Ring, attr::RING_POSITION);
        let count = given.num(Rings, attr::RING_COUNT);
        let (single, alone) = (position? == RingPosition::Single, count?.equals(1)?);
        if single == alone {
            return say(&RIGHT_PLACE);
        }
        if alone {
            return say(&DOUBLE_ALONE);
        }
        let alternating = given.word(Ring, attr::TOOTH_PROFILE)? == ToothProfile::NarrowWide;
        say(if alternating { &ALTERNATING_SHIFTED } else { &SINGLE_SHIFTED })
    },
};

// Motor kits.

const ON_MOTOR: Rule = Rule {
    code: "on-motor",
    slots: &[Ring, Motor],
    inputs: &[
        (Ring, attr::RING_MOUNT.attribute()),
        (Motor, attr::RING_MOUNT.attribute()),
        (Motor, attr::MOTOR_PLACE.attribute()),
    ],
    reasons: &[&TAKEN, &MOTOR_CARRIER],
    judge: |given| {
        at_cranks(given)?;
        let ring = given.key(Ring, attr::RING_MOUNT);
        let motor = given.key(Motor, attr::RING_MOUNT);
        say(if given.accepts(motor?, ring?) { &TAKEN } else { &MOTOR_CARRIER })
    },
};

/// Hub motors do not meet the rings.
fn at_cranks(given: &Given<'_>) -> Result<(), Stop> {
    use crate::part::word::MotorPlace;
    let place = given.word(Motor, attr::MOTOR_PLACE)?;
    if place == MotorPlace::Mid { Ok(()) } else { Err(Stop::Silent) }
}

const CLEARS: Reason = Reason::fits("clears-motor", "the ring clears the motor").limit();
const CLEARS_LESS: Reason = Reason::caveat(
    "clears-motor-less",
    "the motor maker names {least} as the smallest ring: below it rings clear the housing less and push the chainline outwards",
)
.limit()
.damage()
.strong()
.tolerated();
const HITS_MOTOR: Reason =
    Reason::no("hits-motor", "the ring of {teeth} is {short} below the smallest that clears the motor")
        .limit()
        .damage()
        .remedies(&[Remedy::replace(
            Kind::Chainring,
            "a ring of {least} or more, with a wider cassette behind",
        )]);

const MOTOR_ROOM: Rule = Rule {
    code: "motor-room",
    slots: &[Ring, Motor],
    inputs: &[
        (Ring, attr::TEETH.attribute()),
        (Motor, attr::SMALLEST_RING.attribute()),
        (Motor, attr::MOTOR_PLACE.attribute()),
    ],
    reasons: &[&CLEARS, &CLEARS_LESS, &HITS_MOTOR],
    judge: |given| {
        at_cranks(given)?;
        let teeth = given.num(Ring, attr::TEETH);
        let least = given.num(Motor, attr::SMALLEST_RING);
        let (teeth, least) = (teeth?, least?);
        let short = least - teeth;
        let reason = if short.at_most(0)? {
            &CLEARS
        } else if short.at_most(4)? {
            &CLEARS_LESS
        } else {
            &HITS_MOTOR
        };
        Ok(Judgement::from(reason).with("teeth", teeth).with("least", least).with("short", short))
    },
};
