//! # Rear derailleur on hanger
//!
//! ## What it checks
//! The mount of the derailleur against the derailleur end of the frame, link plates, replacement hangers, and hanger
//! extenders.
//!
//! ## Why it matters
//! A hanger that is bent or wrong lets the derailleur into the spokes: the wheel locks on a climb and the rider can be
//! thrown.
//!
//! ## Numbers
//! * Thread M10 x 1 on both sides.
//! * Derailleur bolt 8 to 10 N.m, universal hanger bolt 25 N.m with a left-hand thread, coaxial mount 35 N.m: from
//!   memory, the value printed on the part or in its manual wins.
//! * Alignment at the rim: under about 4 mm for 5 to 8 speeds, under 2 mm from 10 on (common practice, no source).
//! * The universal hanger takes thru-axles of 1.0 mm pitch only.
//!
//! ## Exceptions
//! * Any M10 derailleur goes on the universal hanger; a coaxial one goes in its place.
//! * A direct-mount derailleur needs its link plate on an ordinary eye, and goes without it on a direct-mount hanger.
//! * Plates clamped by the axle do not work with thru-axles.
//! * Replaceable hangers are frame-specific: hundreds of shapes, so only the frame maker's number tells.
//! * Fixed hangers of light alloy crack after a few corrections, those of carbon are never straightened.
//!
//! ## Sources
//! Hanger retailers' and makers' pages, seen as excerpts; torques from memory.

use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Judged, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Extender, Frame, Hanger, RearDerailleur};
use crate::part::interfaces::{
    HANGER_CLAW, HANGER_DIRECT, HANGER_OLD, HANGER_STANDARD, HANGER_UNIVERSAL, MOUNT_COAXIAL, MOUNT_DIRECT,
    MOUNT_M10,
};
use crate::part::word::Geometry;
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "derailleur-on-hanger",
    title: "Rear derailleur on hanger",
    file: include_str!("derailleur_on_hanger.rs"),
    source: "hanger retailers' and makers' pages, seen as excerpts; torques from memory",
    rules: &[
        MOUNT,
        CLAMPED_PLATE,
        REPLACEMENT,
        FIXED_HANGER,
        UNIVERSAL_AXLE,
        EXTENDER_EYE,
        EXTENDER_GEOMETRY,
    ],
};

// Mount.

const ALIGN: &str = "grease the thread, 8 to 10 N.m unless the maker says otherwise; align the hanger, set the limit screws, and keep out of the largest cog until both are checked";

const BOLTS_ON: Reason = Reason::fits("bolts-on", "the derailleur bolts on the eye of the frame").note(ALIGN);
const LINK_NEEDED: Reason = Reason::extra(
    "link-plate-needed",
    "the direct-mount derailleur needs its link plate on this eye",
    &[Extra::needed(Kind::DerailleurLink, &[])],
)
.note(ALIGN);
const LINK_STAYS: Reason = Reason::extra(
    "link-plate-stays",
    "the direct-mount derailleur goes on this eye with its link plate, which is fitted and stays",
    &[],
)
.note(ALIGN);
const LINK_OFF: Reason =
    Reason::fits("direct-without-link", "the direct-mount derailleur goes on without its link plate")
        .note(ALIGN);
const LINK_TOO_MUCH: Reason = Reason::no(
    "link-plate-too-much",
    "with its link plate the derailleur sits too far back on a direct-mount hanger",
)
.remedies(&[Remedy::act("remove-link", "taking off the link plate")]);
const TOO_FAR_BACK: Reason =
    Reason::no("sits-too-far-back", "an ordinary derailleur sits too far back on a direct-mount hanger")
        .remedies(&[
            Remedy::replace(Kind::Hanger, "the standard version of the frame's hanger"),
            Remedy::replace(Kind::RearDerailleur, "a direct-mount derailleur of the same pull"),
        ]);
const UNIVERSAL_NEEDED: Reason = Reason::extra(
    "universal-hanger-needed",
    "the frame takes the derailleur once the universal hanger is fitted",
    &[Extra::needed(Kind::Hanger, &[(Attribute::Hanger, Source::Key("hanger", HANGER_UNIVERSAL))])],
)
.note("the bolt of the universal hanger has a left-hand thread: 25 N.m unless the maker says otherwise");
const AROUND_AXLE: Reason =
    Reason::fits("around-the-axle", "the frame is made for a derailleur around the axle").note(
        "take the universal hanger off; 35 N.m unless the maker says otherwise; the chain length sets the gap to the cogs",
    );
const NO_COAXIAL: Reason = Reason::no(
    "no-coaxial-mount",
    "the frame is not made for a derailleur around the axle, and there is no adapter",
)
.remedies(&[Remedy::replace(Kind::RearDerailleur, "a derailleur with an M10 bolt")]);
const NO_HANGER: Reason = Reason::no("no-derailleur-end", "the frame has no place for a rear derailleur");
const OLD_EYE: Reason = Reason::unclear(
    "old-eye",
    "old eyes have other threads and stops: the thread must be tried and may have to be cut to M10 x 1",
);
const UNLISTED: Reason =
    Reason::no("mount-not-taken", "the derailleur end of the frame does not take this mount");

const MOUNT: Rule = Rule {
    code: "mount",
    slots: &[RearDerailleur, Frame],
    inputs: &[
        (RearDerailleur, attr::DERAILLEUR_MOUNT.attribute()),
        (RearDerailleur, attr::LINK_FITTED.attribute()),
        (Frame, attr::HANGER.attribute()),
        (Frame, attr::UNIVERSAL_HANGER_FITTED.attribute()),
    ],
    reasons: &[
        &BOLTS_ON,
        &LINK_NEEDED,
        &LINK_STAYS,
        &LINK_OFF,
        &LINK_TOO_MUCH,
        &TOO_FAR_BACK,
        &UNIVERSAL_NEEDED,
        &AROUND_AXLE,
        &NO_COAXIAL,
        &NO_HANGER,
        &OLD_EYE,
        &UNLISTED,
    ],
    judge: mount,
};

fn mount(given: &Given<'_>) -> Judged {
    if given.known_absent(Frame, attr::HANGER) {
        return say(&NO_HANGER);
    }
    let mount_key = given.key(RearDerailleur, attr::DERAILLEUR_MOUNT);
    let eye_key = given.key(Frame, attr::HANGER);
    let (mount_key, eye_key) = (mount_key?, eye_key?);
    match (given.name(mount_key), given.name(eye_key)) {
        (MOUNT_COAXIAL, HANGER_UNIVERSAL) => say(&AROUND_AXLE),
        (MOUNT_COAXIAL, _) => say(&NO_COAXIAL),
        (MOUNT_M10 | MOUNT_DIRECT, HANGER_OLD) => say(&OLD_EYE),
        (MOUNT_M10, HANGER_DIRECT) => say(&TOO_FAR_BACK),
        (MOUNT_DIRECT, HANGER_DIRECT) => {
            say(if given.flag(RearDerailleur, attr::LINK_FITTED)? { &LINK_TOO_MUCH } else { &LINK_OFF })
        }
        (MOUNT_M10 | MOUNT_DIRECT, HANGER_UNIVERSAL)
            if !given.flag(Frame, attr::UNIVERSAL_HANGER_FITTED)? =>
        {
            say(&UNIVERSAL_NEEDED)
        }
        (MOUNT_M10, HANGER_STANDARD | HANGER_CLAW | HANGER_UNIVERSAL) => say(&BOLTS_ON),
        (MOUNT_DIRECT, HANGER_STANDARD | HANGER_CLAW | HANGER_UNIVERSAL) => {
            say(if given.is_known(RearDerailleur, attr::LINK_FITTED) { &LINK_STAYS } else { &LINK_NEEDED })
        }
        _ => say(if given.accepts(eye_key, mount_key) { &BOLTS_ON } else { &UNLISTED }),
    }
}

const CLAMPED_WITH_THRU_AXLE: Reason =
    Reason::no("clamped-plate-with-thru-axle", "a plate clamped by the axle does not work with a thru-axle");

const CLAMPED_PLATE: Rule = Rule {
    code: "clamped-plate",
    slots: &[RearDerailleur, Frame],
    inputs: &[
        (Frame, attr::HANGER.attribute()),
        (Frame, attr::AXLE.attribute()),
        (Frame, attr::THRU_AXLE_PITCH.attribute()),
    ],
    reasons: &[&CLAMPED_WITH_THRU_AXLE],
    judge: |given| {
        let clamped = eye(given) == Some(HANGER_CLAW);
        let axle = !given.is_missing(Frame, attr::AXLE)
            && given.key(Frame, attr::AXLE).is_ok_and(|axle| given.name(axle).starts_with("thru-"));
        let threaded = given.known(Frame, attr::THRU_AXLE_PITCH).is_some();
        if clamped && (axle || threaded) { say(&CLAMPED_WITH_THRU_AXLE) } else { Err(Stop::Silent) }
    },
};

/// The derailleur end of the frame, where it is known.
fn eye<'a>(given: &Given<'a>) -> Option<&'a str> {
    if given.is_missing(Frame, attr::HANGER) || given.known_absent(Frame, attr::HANGER) {
        return None;
    }
    given.key(Frame, attr::HANGER).ok().map(|eye| given.name(eye))
}

// Replacement hangers.

const HANGER_RIGHT: Reason =
    Reason::fits("hanger-of-the-frame", "the hanger is the frame maker's for this frame")
        .note("new hangers are often not straight either: align after fitting");
const HANGER_OTHER: Reason = Reason::no("hanger-of-another-frame", "the hanger is made for another frame")
    .remedies(&[Remedy::replace(Kind::Hanger, "the hanger with the number that the frame maker gives")]);

const REPLACEMENT: Rule = Rule {
    code: "replacement",
    slots: &[Hanger, Frame],
    inputs: &[
        (Frame, attr::HANGER.attribute()),
        (Hanger, attr::HANGER.attribute()),
        (Frame, attr::HANGER_ID.attribute()),
        (Hanger, attr::HANGER_ID.attribute()),
    ],
    reasons: &[&HANGER_RIGHT, &HANGER_OTHER],
    judge: |given| {
        if given.name(given.key(Frame, attr::HANGER)?) == HANGER_UNIVERSAL {
            let universal = given.name(given.key(Hanger, attr::HANGER)?) == HANGER_UNIVERSAL;
            return say(if universal { &HANGER_RIGHT } else { &HANGER_OTHER });
        }
        let frame = given.free_key(Frame, attr::HANGER_ID);
        let hanger = given.free_key(Hanger, attr::HANGER_ID);
        say(if frame? == hanger? { &HANGER_RIGHT } else { &HANGER_OTHER })
    },
};

const HANGER_FIXED: Reason = Reason::no(
    "hanger-not-replaceable",
    "the derailleur end is part of the frame: there is nothing to replace",
);

const FIXED_HANGER: Rule = Rule {
    code: "fixed-hanger",
    slots: &[Hanger, Frame],
    inputs: &[(Frame, attr::HANGER_REPLACEABLE.attribute())],
    reasons: &[&HANGER_FIXED],
    judge: |given| {
        let fixed = !given.is_missing(Frame, attr::HANGER_REPLACEABLE)
            && given.flag(Frame, attr::HANGER_REPLACEABLE) == Ok(false);
        if fixed { say(&HANGER_FIXED) } else { Err(Stop::Silent) }
    },
};

/// Thread pitch of the axle that goes through the universal hanger.
const UNIVERSAL_PITCH_UM: i64 = 1_000;

const AXLE_PITCH_WRONG: Reason = Reason::no(
    "axle-pitch-wrong",
    "the universal hanger takes thru-axles of 1.0 mm thread pitch, not the frame's present one",
)
.injury()
.remedies(&[Remedy::replace(Kind::Axle, "the thru-axle with 1.0 mm pitch for this frame")]);

const UNIVERSAL_AXLE: Rule = Rule {
    code: "universal-axle",
    slots: &[Hanger, Frame],
    inputs: &[(Hanger, attr::HANGER.attribute()), (Frame, attr::THRU_AXLE_PITCH.attribute())],
    reasons: &[&AXLE_PITCH_WRONG],
    judge: |given| {
        let pitch = given.known(Frame, attr::THRU_AXLE_PITCH).ok_or(Stop::Silent)?;
        let universal = !given.is_missing(Hanger, attr::HANGER)
            && given.key(Hanger, attr::HANGER).is_ok_and(|key| given.name(key) == HANGER_UNIVERSAL);
        if universal && !pitch.equals(UNIVERSAL_PITCH_UM)? {
            say(&AXLE_PITCH_WRONG)
        } else {
            Err(Stop::Silent)
        }
    },
};

// Extenders.

const EXTENDER_NO_EYE: Reason = Reason::no(
    "extender-on-this-eye",
    "a hanger extender goes on an ordinary M10 eye or the universal hanger only",
);
const EXTENDER_NOT_SLANT: Reason = Reason::no(
    "extender-with-this-derailleur",
    "a hanger extender works with slant parallelograms only, not with horizontal or coaxial ones",
);

const EXTENDER_EYE: Rule = Rule {
    code: "extender-eye",
    slots: &[Extender, Frame],
    inputs: &[(Frame, attr::HANGER.attribute())],
    reasons: &[&EXTENDER_NO_EYE],
    judge: |given| match eye(given) {
        None | Some(HANGER_STANDARD | HANGER_UNIVERSAL) => Err(Stop::Silent),
        Some(_) => say(&EXTENDER_NO_EYE),
    },
};

const EXTENDER_GEOMETRY: Rule = Rule {
    code: "extender-geometry",
    slots: &[Extender, RearDerailleur],
    inputs: &[(RearDerailleur, attr::GEOMETRY.attribute())],
    reasons: &[&EXTENDER_NOT_SLANT],
    judge: |given| {
        if given.is_missing(RearDerailleur, attr::GEOMETRY)
            || given.word(RearDerailleur, attr::GEOMETRY)? == Geometry::Slant
        {
            return Err(Stop::Silent);
        }
        say(&EXTENDER_NOT_SLANT)
    },
};
