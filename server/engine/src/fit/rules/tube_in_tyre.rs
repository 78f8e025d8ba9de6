//! # Tube in tyre
//!
//! ## What it checks
//! The sizes printed on the tube's box against the tyre, and its valve against the rim.
//!
//! ## Why it matters
//! A tube that is far too small is stretched thin, one that is too large folds; a wide valve does not pass a narrow hole
//! and a short one cannot be reached by the pump.
//!
//! ## Numbers
//! * One size class outside the width range, up to 5 mm, is a caveat (threshold reasoned, not a standard).
//! * Tubes for 622 mm are also sold for 630 mm; tubes for 584 mm serve 559 mm as a caveat.
//! * A hole of 6.5 mm takes the thin valve (6 mm), one of 8.5 mm the wide valve (8 mm); the thin valve in the wide hole
//!   needs a reducing grommet.
//! * The valve must be about 15 mm longer than the rim is deep.
//!
//! ## Exceptions
//! * Tubular tyres carry their own tube, solid ones none.
//! * An extender needs a removable valve core or the right type.
//!
//! ## Sources
//! Common practice, no source; hole sizes from memory; grommet after a club's page on tubes.

use super::known;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Rim, Tube, Tyre};
use crate::part::word::{TyreSystem, Valve};
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "tube-in-tyre",
    title: "Tube in tyre",
    file: include_str!("tube_in_tyre.rs"),
    source: "common practice, no source",
    rules: &[TAKES_TUBE, BEAD_SEAT, WIDTH, VALVE_HOLE, VALVE_LENGTH],
};

const TUBE: [Remedy; 1] = [Remedy::replace(Kind::Tube, "a tube whose box names the size of the tyre")];

const NO_TUBE: Reason =
    Reason::no("takes-no-tube", "a tubular tyre carries its own tube, and a solid one takes none");

const TAKES_TUBE: Rule = Rule {
    code: "takes-tube",
    slots: &[Tube, Tyre],
    inputs: &[(Tyre, attr::TYRE_SYSTEM.attribute())],
    reasons: &[&NO_TUBE],
    judge: |given| match known::word(given, Tyre, attr::TYRE_SYSTEM) {
        Some(TyreSystem::Tubular | TyreSystem::Solid) => say(&NO_TUBE),
        _ => Err(Stop::Silent),
    },
};

const SEAT_NAMED: Reason = Reason::fits("seat-named", "the tube is made for this bead seat").limit();
const SEAT_NEAR: Reason =
    Reason::caveat("seat-near", "a tube for 584 mm serves 559 mm, with care against folds").limit();
const SEAT_OTHER: Reason = Reason::no("seat-other", "the tube is not made for a bead seat of {tyre}")
    .limit()
    .damage()
    .remedies(&TUBE);

const BEAD_SEAT: Rule = Rule {
    code: "bead-seat",
    slots: &[Tube, Tyre],
    inputs: &[
        (Tube, attr::MIN_BEAD_SEAT.attribute()),
        (Tube, attr::MAX_BEAD_SEAT.attribute()),
        (Tyre, attr::BEAD_SEAT.attribute()),
    ],
    reasons: &[&SEAT_NAMED, &SEAT_NEAR, &SEAT_OTHER],
    judge: bead_seat,
};

fn bead_seat(given: &Given<'_>) -> Judged {
    let least = given.num(Tube, attr::MIN_BEAD_SEAT);
    let most = given.num(Tube, attr::MAX_BEAD_SEAT);
    let tyre = given.num(Tyre, attr::BEAD_SEAT);
    let (least, most, tyre) = (least?, most?, tyre?);
    let named = (tyre - least).at_least(0)? && (tyre - most).at_most(0)?;
    let reason = if named || (tyre.equals(630_000)? && most.equals(622_000)?) {
        &SEAT_NAMED
    } else if tyre.equals(559_000)? && least.equals(584_000)? {
        &SEAT_NEAR
    } else {
        &SEAT_OTHER
    };
    Ok(Judgement::from(reason).with("tyre", tyre).with("low", least).with("high", most))
}

const WIDTH_NAMED: Reason = Reason::fits("width-named", "the tube is made for this tyre width").limit();
const WIDTH_NEAR: Reason = Reason::caveat(
    "width-near",
    "the tyre of {tyre} is one size class outside the {low} to {high} of the tube",
)
.limit()
.tolerated();
const WIDTH_OTHER: Reason =
    Reason::no("width-other", "the tube is made for {low} to {high}, the tyre has {tyre}")
        .limit()
        .damage()
        .remedies(&TUBE);

const WIDTH: Rule = Rule {
    code: "width",
    slots: &[Tube, Tyre],
    inputs: &[
        (Tube, attr::MIN_TYRE.attribute()),
        (Tube, attr::MAX_TYRE.attribute()),
        (Tyre, attr::TYRE_WIDTH.attribute()),
    ],
    reasons: &[&WIDTH_NAMED, &WIDTH_NEAR, &WIDTH_OTHER],
    judge: |given| {
        let least = given.num(Tube, attr::MIN_TYRE);
        let most = given.num(Tube, attr::MAX_TYRE);
        let tyre = given.num(Tyre, attr::TYRE_WIDTH);
        let (least, most, tyre) = (least?, most?, tyre?);
        let reason = if (tyre - least).at_least(0)? && (tyre - most).at_most(0)? {
            &WIDTH_NAMED
        } else if (tyre - least).at_least(-5_000)? && (tyre - most).at_most(5_000)? {
            &WIDTH_NEAR
        } else {
            &WIDTH_OTHER
        };
        Ok(Judgement::from(reason).with("tyre", tyre).with("low", least).with("high", most))
    },
};

const PASSES: Reason = Reason::fits("valve-passes", "the valve suits the hole of the rim").geometry();
const GROMMET: Reason = Reason::extra(
    "grommet",
    "the thin valve stands loose in the wide hole: a reducing grommet holds it",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("valve-grommet"))])],
)
.geometry();
const TOO_THICK: Reason =
    Reason::no("valve-too-thick", "the wide valve does not pass the narrow hole of the rim")
        .geometry()
        .remedies(&[Remedy::replace(Kind::Tube, "the same tube with the thin valve")]);

/// Holes below this take the thin valve only, in micrometres.
const NARROW_HOLE_UM: i64 = 7_500;

const VALVE_HOLE: Rule = Rule {
    code: "valve-hole",
    slots: &[Tube, Rim],
    inputs: &[(Tube, attr::VALVE.attribute()), (Rim, attr::VALVE_HOLE.attribute())],
    reasons: &[&PASSES, &GROMMET, &TOO_THICK],
    judge: |given| {
        let valve = given.word(Tube, attr::VALVE);
        let hole = given.num(Rim, attr::VALVE_HOLE);
        let (valve, hole) = (valve?, hole?);
        let narrow = hole.at_most(NARROW_HOLE_UM - 1)?;
        say(match (valve, narrow) {
            (Valve::Thin, true) | (Valve::Wide | Valve::DunlopStyle, false) => &PASSES,
            (Valve::Thin, false) => &GROMMET,
            (Valve::Wide | Valve::DunlopStyle, true) => &TOO_THICK,
        })
    },
};

const LONG_ENOUGH: Reason = Reason::fits("valve-long-enough", "the valve stands out far enough").geometry();
const EXTENDER: Reason = Reason::extra(
    "valve-extender",
    "the valve is {short} too short for this rim: an extender makes up for it, on a removable core or of the right type",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("valve-extender"))])],
)
.geometry();

const VALVE_LENGTH: Rule = Rule {
    code: "valve-length",
    slots: &[Tube, Rim],
    inputs: &[(Tube, attr::VALVE_LENGTH.attribute()), (Rim, attr::RIM_DEPTH.attribute())],
    reasons: &[&LONG_ENOUGH, &EXTENDER],
    judge: |given| {
        let valve = given.num(Tube, attr::VALVE_LENGTH);
        let depth = given.num(Rim, attr::RIM_DEPTH);
        let short = depth? - valve? + crate::fit::num::Num::exact(15_000);
        let reason = if short.at_most(0)? { &LONG_ENOUGH } else { &EXTENDER };
        Ok(Judgement::from(reason).with("short", short))
    },
};
