//! # Rim brake on rim
//!
//! ## What it checks
//! That the rim has a brake track, and that the shoes reach it on the wheel that is fitted.
//!
//! ## Why it matters
//! A rim without a track cannot be braked on, and shoes that sit too high cut the tyre, too low leave the track and
//! catch in the spokes.
//!
//! ## Numbers
//! * Another bead seat moves the track by half the difference: from 630 to 622 mm 4 mm more reach, from 559 to 584 mm
//!   12.5 mm less.
//! * Usual reaches of brakes with one bolt: 39 to 49, 47 to 57 and 55 to 73 mm.
//! * Shoes on studs move about 5 mm, at most 8 mm.
//!
//! ## Exceptions
//! * Disc brakes do not care for the bead seat.
//! * With the wheel size that the frame was made for, the reach is judged where it is known.
//!
//! ## Sources
//! A shop blog on wheel sizes and brake reach, an article on brakes for another wheel size; movement of shoes on studs
//! common practice.

use super::known;
use crate::fit::Slot;
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Brake, Fork, Frame, Rim};
use crate::part::interfaces::{BRAKE_CENTRE_BOLT, BRAKE_RIM_DIRECT, BRAKE_STUDS};
use crate::part::units::Micrometres;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "rim-brake-on-rim",
    title: "Rim brake on rim",
    file: include_str!("rim_brake_on_rim.rs"),
    source: "shop pages on wheel sizes and brake reach",
    rules: &[TRACK, REACH_IN_FRAME, REACH_IN_FORK],
};

const HAS_TRACK: Reason = Reason::fits("has-track", "the rim has a brake track");
const NO_TRACK: Reason =
    Reason::no("no-track", "the rim has no brake track: it is made for a disc brake only")
        .injury()
        .remedies(&[Remedy::replace(Kind::Wheel, "a wheel whose rim has a brake track")]);

const TRACK: Rule = Rule {
    code: "track",
    slots: &[Brake, Rim],
    inputs: &[
        (Brake, attr::BRAKE_MOUNT.attribute()),
        (Brake, attr::RIM_BRAKE.attribute()),
        (Rim, attr::BRAKE_TRACK.attribute()),
    ],
    reasons: &[&HAS_TRACK, &NO_TRACK],
    judge: |given| {
        let on_rim = brakes_on_rim(given);
        let track = given.flag(Rim, attr::BRAKE_TRACK);
        match on_rim {
            Ok(false) => Err(Stop::Silent),
            Ok(true) => say(if track? { &HAS_TRACK } else { &NO_TRACK }),
            Err(stop) => Err(stop),
        }
    },
};

/// The mount tells a rim brake; where it is unknown, the flag does.
fn brakes_on_rim(given: &Given<'_>) -> Result<bool, Stop> {
    match known::name(given, Brake, attr::BRAKE_MOUNT) {
        Some(mount) => Ok(matches!(mount, BRAKE_CENTRE_BOLT | BRAKE_STUDS | BRAKE_RIM_DIRECT)),
        None => given.flag(Brake, attr::RIM_BRAKE),
    }
}

const REACHES: Reason = Reason::fits("reaches", "the shoes reach the track").geometry();
const TOO_SHORT: Reason =
    Reason::no("reach-too-short", "the track needs a reach of {need}, the brake ends at {most}")
        .geometry()
        .injury()
        .remedies(&[Remedy::replace(Kind::BrakeCaliper, "a brake with a longer reach")]);
const TOO_LONG: Reason = Reason::no(
    "reach-too-long",
    "the track needs a reach of {need}, the brake begins at {least}: the shoes would touch the spokes",
)
.geometry()
.injury()
.remedies(&[Remedy::replace(Kind::BrakeCaliper, "a brake with a shorter reach")]);
const SHOES_MOVE: Reason = Reason::caveat(
    "shoes-at-the-end",
    "the shoes must move by {move}, about as far as shoes on studs go: check that they sit square and fully on the track",
)
.geometry()
.injury();
const STUDS_TOO_FAR: Reason =
    Reason::no("studs-too-far", "the track moves by {move}; shoes on studs move 8 mm at most")
        .geometry()
        .injury()
        .remedies(&[Remedy::replace(Kind::Wheel, "a wheel of the size that the frame was made for")]);

const REACH_REASONS: &[&Reason] = &[&REACHES, &TOO_SHORT, &TOO_LONG, &SHOES_MOVE, &STUDS_TOO_FAR];

const fn reach_inputs(ends: Slot) -> [Input; 7] {
    [
        (Brake, attr::BRAKE_MOUNT.attribute()),
        (Brake, attr::RIM_BRAKE.attribute()),
        (Brake, attr::MIN_REACH.attribute()),
        (Brake, attr::MAX_REACH.attribute()),
        (Rim, attr::BEAD_SEAT.attribute()),
        (ends, attr::BEAD_SEAT.attribute()),
        (ends, attr::BRAKE_REACH.attribute()),
    ]
}

const REACH_IN_FRAME: Rule = Rule {
    code: "reach-in-frame",
    slots: &[Brake, Rim, Frame],
    inputs: &reach_inputs(Frame),
    reasons: REACH_REASONS,
    judge: |given| reach(given, Frame),
};

const REACH_IN_FORK: Rule = Rule {
    code: "reach-in-fork",
    slots: &[Brake, Rim, Fork],
    inputs: &reach_inputs(Fork),
    reasons: REACH_REASONS,
    judge: |given| reach(given, Fork),
};

type Length = Num<Micrometres>;

fn reach(given: &Given<'_>, ends: Slot) -> Judged {
    if !brakes_on_rim(given)? {
        return Err(Stop::Silent);
    }
    let mount = given.key(Brake, attr::BRAKE_MOUNT);
    let rim = given.num(Rim, attr::BEAD_SEAT);
    let made_for = given.num(ends, attr::BEAD_SEAT);
    let (mount, rim, made_for) = (mount?, rim?, made_for?);
    // Positive = the track lies further from the brake bolt.
    let track_moves = (made_for - rim).over(2);
    if given.name(mount) == BRAKE_STUDS {
        return on_studs(track_moves);
    }
    if given.is_missing(ends, attr::BRAKE_REACH) && track_moves.equals(0)? {
        return Err(Stop::Silent);
    }
    let with_design_wheel = given.num(ends, attr::BRAKE_REACH);
    let least = given.num(Brake, attr::MIN_REACH);
    let most = given.num(Brake, attr::MAX_REACH);
    let (with_design_wheel, least, most) = (with_design_wheel?, least?, most?);
    let need = with_design_wheel + track_moves;
    let reason = if (need - most).at_least(1)? {
        &TOO_SHORT
    } else if (need - least).at_most(-1)? {
        &TOO_LONG
    } else {
        &REACHES
    };
    let judged = Judgement::from(reason).with("need", need).with("least", least).with("most", most);
    Ok(judged.with("move", track_moves))
}

fn on_studs(track_moves: Length) -> Judged {
    let far = track_moves.abs();
    let reason = if far.at_most(5_000)? {
        &REACHES
    } else if far.at_most(8_000)? {
        &SHOES_MOVE
    } else {
        &STUDS_TOO_FAR
    };
    Ok(Judgement::from(reason).with("move", track_moves))
}
