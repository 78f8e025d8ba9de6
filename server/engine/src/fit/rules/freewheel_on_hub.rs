//! # Freewheel or cassette on hub
//!
//! ## What it checks
//! Threads of freewheels and fixed cogs against the hub, and screw-on freewheels against freehubs.
//!
//! ## Why it matters
//! A freewheel on the wrong thread slips or strips under load; a fixed cog without its left-hand lockring unscrews when
//! the rider holds the pedals back.
//!
//! ## Numbers
//! * play = diameter of the freewheel - diameter of the hub: 1.375 in is 34.92 mm, 1.370 in 34.80 mm, Italian 35.00 mm, all
//!   of 24 threads per inch and interchangeable with play. Above zero is loose, below is tight.
//! * +0.20 mm is the loosest; from +0.12 mm on no tandem, cargo bike or strong rider (over 160 kg in all).
//!
//! ## Exceptions
//! * 34.7 x 1 mm (French) and 24 threads per inch never go, in either direction: one skims, the other binds.
//! * 30 x 1 mm is a class of its own, for smaller single cogs.
//! * A single-speed freewheel goes on a fixed hub; a multi-speed one needs room at the locknut.
//! * Cogs that turn with the tool fitting when coasting are a cassette, with a still fitting a freewheel.
//! * A freewheel has no torque: pedalling tightens it.
//!
//! ## Sources
//! ISO 6698 for the thread in use; a long-standing repair glossary on the old ones, seen as an excerpt; play computed, the
//! tandem limit reasoned, not a standard.

use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Body, Cassette, Freewheel, Hub, Sprocket, Use};
use crate::part::interfaces::{THREAD_35, THREAD_BRITISH, THREAD_ISO};
use crate::part::units::Micrometres;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "freewheel-on-hub",
    title: "Freewheel or cassette on hub",
    file: include_str!("freewheel_on_hub.rs"),
    source: "ISO 6698; a long-standing repair glossary, seen as an excerpt; play computed",
    rules: &[THREAD, LOADED_THREAD, FREEHUB, CASSETTE, FIXED_HUB, FIXED_COG],
};

const THREADS: [Input; 2] = [(Freewheel, attr::HUB_THREAD.attribute()), (Hub, attr::HUB_THREAD.attribute())];

// Thread.

const OTHER_WHEEL: Remedy = Remedy::replace(Kind::Wheel, "a rear wheel or hub made for these cogs");
const OTHER_FREEWHEEL: Remedy = Remedy::replace(Kind::Freewheel, "a freewheel with the thread of the hub");
const START_BY_HAND: &str =
    "start the thread by hand and never force it; stop if it binds within the first turns";

const THREAD_RIGHT: Reason = Reason::fits("thread-right", "the freewheel has the thread of the hub")
    .note("grease the thread; no torque, pedalling tightens it");
const LOOSE: Reason = Reason::caveat(
    "thread-loose",
    "the freewheel is {play} wider than the thread of the hub: it goes, slightly loose, not for strong riders or tandems",
)
.injury()
.remedies(&[OTHER_FREEWHEEL])
.note(START_BY_HAND);
const LOOSEST: Reason = Reason::caveat(
    "thread-loosest",
    "the freewheel is {play} wider than the thread of the hub, the loosest of the old mixes: only for light riding",
)
.injury()
.strong()
.remedies(&[OTHER_FREEWHEEL])
.note(START_BY_HAND);
const TIGHT: Reason = Reason::caveat(
    "thread-tight",
    "the freewheel is narrower than the thread of the hub by {tight}: it goes, slightly tight",
)
.injury()
.remedies(&[OTHER_FREEWHEEL])
.note(START_BY_HAND);
const THREAD_WRONG: Reason = Reason::no(
    "thread-wrong",
    "the threads of freewheel and hub differ in pitch or class: it binds, or skims and slips",
)
.injury()
.remedies(&[OTHER_FREEWHEEL, OTHER_WHEEL]);
const NO_THREAD: Reason = Reason::no(
    "hub-without-thread",
    "the hub has no thread: it takes a cassette on its body, not a freewheel",
)
.remedies(&[Remedy::replace(Kind::Cassette, "a cassette for the body of the hub"), OTHER_WHEEL]);

const THREAD: Rule = Rule {
    code: "thread",
    slots: &[Freewheel, Hub],
    inputs: &THREADS,
    reasons: &[&THREAD_RIGHT, &LOOSE, &LOOSEST, &TIGHT, &THREAD_WRONG, &NO_THREAD],
    judge: thread,
};

/// From this play on the mix is the loosest.
const LOOSEST_UM: i64 = 200;

fn thread(given: &Given<'_>) -> Judged {
    if given.known_absent(Hub, attr::HUB_THREAD) {
        return say(&NO_THREAD);
    }
    let freewheel_key = given.key(Freewheel, attr::HUB_THREAD);
    let hub_key = given.key(Hub, attr::HUB_THREAD);
    let (freewheel_key, hub_key) = (freewheel_key?, hub_key?);
    if given.accepts(hub_key, freewheel_key) {
        return say(&THREAD_RIGHT);
    }
    let Some(play) = play(given.name(freewheel_key), given.name(hub_key)) else {
        return say(&THREAD_WRONG);
    };
    let play_number = Num::<Micrometres>::exact(play);
    Ok(match play {
        LOOSEST_UM.. => Judgement::from(&LOOSEST).with("play", play_number),
        1.. => Judgement::from(&LOOSE).with("play", play_number),
        _ => Judgement::from(&TIGHT).with("play", play_number).with("tight", -play_number),
    })
}

/// Diameter of the freewheel less that of the hub, where both have 24 threads per inch.
fn play(freewheel: &str, hub: &str) -> Option<i64> {
    Some(diameter(freewheel)? - diameter(hub)?)
}

fn diameter(thread: &str) -> Option<i64> {
    match thread {
        THREAD_ISO => Some(34_920),
        THREAD_BRITISH => Some(34_800),
        THREAD_35 => Some(35_000),
        _ => None,
    }
}

/// From this play on no tandem, cargo bike or strong rider.
const LOADED_PLAY_UM: i64 = 120;
/// Bike, rider and load above this count as a load; threshold reasoned, not a standard.
const LOADED_MASS_KG: i64 = 160;

const LOADED_LOOSE: Reason = Reason::no(
    "loose-thread-under-load",
    "with a play of {play} the thread strips under a tandem, a load or a strong rider",
)
.injury()
.remedies(&[OTHER_FREEWHEEL, OTHER_WHEEL]);
const LOADED_MIXED: Reason = Reason::caveat(
    "mixed-thread-under-load",
    "mixed threads are better not used under a tandem, a load or a strong rider",
)
.injury()
.strong()
.remedies(&[OTHER_FREEWHEEL, OTHER_WHEEL]);

const LOADED_THREAD: Rule = Rule {
    code: "thread-under-load",
    slots: &[Freewheel, Hub, Use],
    inputs: &[THREADS[0], THREADS[1], (Use, attr::TANDEM.attribute()), (Use, attr::SYSTEM_MASS.attribute())],
    reasons: &[&LOADED_LOOSE, &LOADED_MIXED],
    // Adds to the thread where the load is known.
    judge: |given| {
        let heavy = given
            .known(Use, attr::SYSTEM_MASS)
            .is_some_and(|mass| mass.at_least(LOADED_MASS_KG + 1) == Ok(true));
        if !heavy && !given.is_known(Use, attr::TANDEM) || given.is_missing(Freewheel, attr::HUB_THREAD) {
            return Err(Stop::Silent);
        }
        if given.is_missing(Hub, attr::HUB_THREAD) || given.known_absent(Hub, attr::HUB_THREAD) {
            return Err(Stop::Silent);
        }
        let freewheel = given.key(Freewheel, attr::HUB_THREAD)?;
        let hub = given.key(Hub, attr::HUB_THREAD)?;
        match play(given.name(freewheel), given.name(hub)) {
            None | Some(0) => Err(Stop::Silent),
            Some(play) => {
                let reason = if play >= LOADED_PLAY_UM { &LOADED_LOOSE } else { &LOADED_MIXED };
                Ok(Judgement::from(reason).with("play", Num::<Micrometres>::exact(play)))
            }
        }
    },
};

// Freewheels on freehubs, cassettes on threads.

const FREEWHEEL_ON_BODY: Reason =
    Reason::no("freewheel-on-freehub", "a screw-on freewheel does not go on a freehub body")
        .remedies(&[Remedy::replace(Kind::Cassette, "a cassette for the body of the hub"), OTHER_WHEEL]);

const FREEHUB: Rule = Rule {
    code: "freewheel-on-freehub",
    slots: &[Freewheel, Body],
    inputs: &[THREADS[0], (Body, attr::MOUNT_FAMILY.attribute())],
    reasons: &[&FREEWHEEL_ON_BODY],
    // Any thread on any body: it is enough that one of the two is known to be what it is called.
    judge: |given| {
        if given.is_missing(Freewheel, attr::HUB_THREAD) {
            given.key(Body, attr::MOUNT_FAMILY)?;
        }
        say(&FREEWHEEL_ON_BODY)
    },
};

const CASSETTE_ON_THREAD: Reason = Reason::no(
    "cassette-on-threaded-hub",
    "the hub has a thread for a screw-on freewheel and takes no cassette",
)
.remedies(&[OTHER_WHEEL, Remedy::replace(Kind::Freewheel, "a screw-on freewheel with these cogs")]);

const CASSETTE: Rule = Rule {
    code: "cassette-on-threaded-hub",
    slots: &[Cassette, Hub],
    inputs: &[(Hub, attr::HUB_THREAD.attribute())],
    reasons: &[&CASSETTE_ON_THREAD],
    judge: |given| {
        if given.is_missing(Hub, attr::HUB_THREAD) || given.known_absent(Hub, attr::HUB_THREAD) {
            return Err(Stop::Silent);
        }
        say(&CASSETTE_ON_THREAD)
    },
};

// Fixed hubs.

const SINGLE_ON_FIXED: Reason = Reason::fits(
    "single-freewheel-on-fixed-hub",
    "a single-speed freewheel goes on the wide thread of a fixed hub",
);
const SEVERAL_ON_FIXED: Reason = Reason::caveat(
    "freewheel-on-fixed-hub",
    "the thread takes it, but a fixed hub rarely leaves room for several cogs: {room} from the locknut must be enough",
);

const FIXED_HUB: Rule = Rule {
    code: "freewheel-on-fixed-hub",
    slots: &[Freewheel, Hub],
    inputs: &[
        (Hub, attr::FIXED_STEP.attribute()),
        (Freewheel, attr::COG_COUNT.attribute()),
        (Hub, attr::LOCKNUT_TO_COG.attribute()),
    ],
    reasons: &[&SINGLE_ON_FIXED, &SEVERAL_ON_FIXED],
    judge: |given| {
        if !given.is_known(Hub, attr::FIXED_STEP) {
            return Err(Stop::Silent);
        }
        if given.num(Freewheel, attr::COG_COUNT)?.equals(1)? {
            return say(&SINGLE_ON_FIXED);
        }
        let room = given.num(Hub, attr::LOCKNUT_TO_COG)?;
        Ok(Judgement::from(&SEVERAL_ON_FIXED).with("room", room))
    },
};

const FIXED_RIGHT: Reason = Reason::fits(
    "fixed-cog-with-lockring",
    "the hub has the left-hand thread for the lockring of a fixed cog",
)
.note("tighten the left-hand lockring against the cog");
const FIXED_UNSCREWS: Reason = Reason::no(
    "fixed-cog-without-lockring",
    "without the left-hand step for a lockring a fixed cog unscrews when the rider holds the pedals back",
)
.injury()
.remedies(&[Remedy::replace(Kind::Hub, "a fixed-gear hub with the left-hand step"), OTHER_WHEEL]);
const FIXED_THREAD_WRONG: Reason =
    Reason::no("fixed-cog-thread-wrong", "the fixed cog has another thread than the hub").injury();

const FIXED_COG: Rule = Rule {
    code: "fixed-cog",
    slots: &[Sprocket, Hub],
    inputs: &[
        (Sprocket, attr::FIXED.attribute()),
        (Sprocket, attr::HUB_THREAD.attribute()),
        (Hub, attr::HUB_THREAD.attribute()),
        (Hub, attr::FIXED_STEP.attribute()),
    ],
    reasons: &[&FIXED_RIGHT, &FIXED_UNSCREWS, &FIXED_THREAD_WRONG],
    judge: fixed_cog,
};

/// Screwed cogs only: one on splines does not unscrew.
fn fixed_cog(given: &Given<'_>) -> Judged {
    let splined = given.known_absent(Sprocket, attr::HUB_THREAD);
    let free = !given.is_missing(Sprocket, attr::FIXED) && given.flag(Sprocket, attr::FIXED) == Ok(false);
    let neither = given.is_missing(Sprocket, attr::FIXED) && given.is_missing(Sprocket, attr::HUB_THREAD);
    if splined || free || neither {
        return Err(Stop::Silent);
    }
    let fixed = given.flag(Sprocket, attr::FIXED);
    let cog = given.key(Sprocket, attr::HUB_THREAD);
    let hub = given.key(Hub, attr::HUB_THREAD);
    let step = given.flag(Hub, attr::FIXED_STEP);
    // Without the step nothing else matters.
    if fixed == Ok(true) && step == Ok(false) {
        return say(&FIXED_UNSCREWS);
    }
    let (_, cog, hub, step) = (fixed?, cog?, hub?, step?);
    if !given.accepts(hub, cog) {
        return say(&FIXED_THREAD_WRONG);
    }
    say(if step { &FIXED_RIGHT } else { &FIXED_UNSCREWS })
}
