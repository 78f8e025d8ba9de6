//! # Crank in frame
//!
//! ## What it checks
//! Whether a bottom bracket can exist between the spindle of the crank and the shell of the frame, the width that a
//! through axle reaches, and the crank against a motor's spindle.
//!
//! ## Why it matters
//! A crank never meets the shell directly. Reducers go from a larger bore to a thinner axle only, and each is made for
//! one axle: that "an adapter exists" proves nothing for another one. Diameter alone is the classic false positive: a
//! 30 mm axle for 68 mm shells never reaches through 86.5 mm.
//!
//! ## Numbers
//! * 1.37 in threads take cartridges, and 24, 28.99 and 30 mm axles with cups outside.
//! * 46 mm bores take 24 to 30 mm axles, 41 mm bores 24 and 28.99 mm and 30 mm with thin bearings (5.5 mm of room).
//! * Cups outside a 68 mm shell span 86.5 mm, outside 73 mm 91.5 mm: why pressed 86.5 and 92 mm shells take the same
//!   24 mm cranks. The 70 mm shell with
//!   36 mm thread spans as much as 68 mm (from memory). Equal within 0.5 mm; up to 6 mm more takes spacers (thresholds reasoned), too short never fits.
//! * Cartridges with a spindle of their own need a thread; a press bore takes them only with a threaded sleeve bonded in.
//!
//! ## Exceptions
//! * Bent one-piece cranks and their 51.3 mm shell go with each other only, short of a converter that is not judged.
//!
//! ## Sources
//! Bottom-bracket overviews of a magazine and shop blogs; the bonded sleeve and road against mountain
//! axles are common practice.

use super::bottom_bracket_in_shell::is_through_axle;
use super::known;
use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Crankset, Frame};
use crate::part::interfaces::{
    SHELL_36, SHELL_37, SHELL_41, SHELL_41_2, SHELL_42, SHELL_46_CUPS, SHELL_46_DIRECT, SHELL_FRENCH,
    SHELL_M47, SHELL_ONE_PIECE, SHELL_STANDARD, SHELL_SWISS, SPINDLE_24, SPINDLE_24_22, SPINDLE_25,
    SPINDLE_30, SPINDLE_MOTOR, SPINDLE_ONE_PIECE,
};
use crate::part::units::Micrometres;
use crate::part::{Attribute, Kind, attr};

type Length = Num<Micrometres>;

/// The mating.
pub const MATING: Mating = Mating {
    code: "crank-in-frame",
    title: "Crank in frame",
    file: include_str!("crank_in_frame.rs"),
    source: "bottom-bracket overviews of a magazine and shop blogs",
    rules: &[POSSIBLE, SPAN, ON_MOTOR],
};

const BRACKET_EXISTS: Reason = Reason::fits(
    "bracket-exists",
    "bottom brackets are made for this spindle in this shell; the bottom bracket itself is judged on its own",
)
.extras(&[Extra::helpful(Kind::BottomBracket, &[])]);
const NEEDS_THREAD: Reason = Reason::no(
    "needs-thread",
    "the spindle belongs to a cartridge that needs a thread; reducers for this bore serve through axles only",
)
.remedies(&[
    Remedy::act(
        "threaded-sleeve",
        "a threaded sleeve bonded into the bore by a frame builder, with the cartridge",
    ),
    Remedy::replace(Kind::Crankset, "a crank whose axle this bore takes"),
]);
const ONE_PIECE: Reason =
    Reason::no("one-piece", "bent one-piece cranks and the 51.3 mm shell go with each other only");
const UNUSUAL: Reason = Reason::unclear(
    "unusual-pair",
    "no common bottom bracket joins this spindle and this shell: ask the makers",
);

const POSSIBLE: Rule = Rule {
    code: "possible",
    slots: &[Crankset, Frame],
    inputs: &[(Crankset, attr::SPINDLE.attribute()), (Frame, attr::SHELL.attribute())],
    reasons: &[&BRACKET_EXISTS, &NEEDS_THREAD, &ONE_PIECE, &UNUSUAL],
    // A hint beside the bottom bracket's own rules: silent unless both are known.
    judge: |given| {
        let spindle = known::name(given, Crankset, attr::SPINDLE).ok_or(Stop::Silent)?;
        let shell = known::name(given, Frame, attr::SHELL).ok_or(Stop::Silent)?;
        say(match (spindle, shell) {
            (SPINDLE_MOTOR, _) => return Err(Stop::Silent),
            (SPINDLE_ONE_PIECE, SHELL_ONE_PIECE) => &BRACKET_EXISTS,
            (SPINDLE_ONE_PIECE, _) | (_, SHELL_ONE_PIECE) => &ONE_PIECE,
            (spindle, SHELL_FRENCH | SHELL_SWISS) if is_through_axle(spindle) => &UNUSUAL,
            (_, SHELL_STANDARD | SHELL_36 | SHELL_FRENCH | SHELL_SWISS) => &BRACKET_EXISTS,
            (spindle, SHELL_M47 | SHELL_46_CUPS | SHELL_46_DIRECT | SHELL_42 | SHELL_41)
                if is_through_axle(spindle) =>
            {
                &BRACKET_EXISTS
            }
            (SPINDLE_24 | SPINDLE_24_22 | SPINDLE_25, SHELL_41_2 | SHELL_37) => &BRACKET_EXISTS,
            (spindle, _) if is_through_axle(spindle) => &UNUSUAL,
            (_, SHELL_42 | SHELL_46_CUPS | SHELL_46_DIRECT | SHELL_41 | SHELL_37) => &NEEDS_THREAD,
            _ => &UNUSUAL,
        })
    },
};

const MOTOR_TAKES: Reason = Reason::fits("motor-takes", "the crank is made for the motor's spindle");
const MOTOR_OTHER: Reason =
    Reason::no("motor-other", "the crank is made for another spindle than the motor's")
        .damage()
        .remedies(&[Remedy::replace(Kind::Crankset, "the crank arms that the motor maker lists")]);

const ON_MOTOR: Rule = Rule {
    code: "on-motor",
    slots: &[Crankset, Frame],
    inputs: &[(Crankset, attr::SPINDLE.attribute()), (Frame, attr::MOTOR_SPINDLE.attribute())],
    reasons: &[&MOTOR_TAKES, &MOTOR_OTHER],
    judge: |given| {
        if given.is_missing(Frame, attr::MOTOR_SPINDLE) || given.known_absent(Frame, attr::MOTOR_SPINDLE) {
            return Err(Stop::Silent);
        }
        let crank = given.key(Crankset, attr::SPINDLE);
        let motor = given.key(Frame, attr::MOTOR_SPINDLE);
        say(if given.accepts(motor?, crank?) { &MOTOR_TAKES } else { &MOTOR_OTHER })
    },
};

// Width that a through axle reaches.

const REACHES: Reason = Reason::fits("reaches", "the axle reaches through this width").geometry();
const AXLE_SPACERS: Reason = Reason::extra(
    "axle-spacers",
    "the axle is made for up to {long} more: spacers of that sum, placed as the crank maker says",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("shell-spacers"))])],
)
.geometry();
const TOO_SHORT: Reason = Reason::no(
    "axle-too-short",
    "the bearings are {short} further apart than the axle reaches: it takes the longer version of the crank",
)
.geometry()
.damage()
.remedies(&[Remedy::replace(Kind::Crankset, "the crank with the longer axle, made for this width of shell")]);
const MUCH_TOO_LONG: Reason = Reason::unclear(
    "axle-much-too-long",
    "the axle is made for {long} more than this: ask the crank maker whether spacers are allowed",
)
.geometry();

const SPAN: Rule = Rule {
    code: "axle-reach",
    slots: &[Crankset, Frame],
    inputs: &[
        (Crankset, attr::SPINDLE.attribute()),
        (Crankset, attr::SHELL_WIDTH.attribute()),
        (Frame, attr::SHELL_WIDTH.attribute()),
        (Frame, attr::SHELL.attribute()),
    ],
    reasons: &[&REACHES, &AXLE_SPACERS, &TOO_SHORT, &MUCH_TOO_LONG],
    judge: span,
};

fn span(given: &Given<'_>) -> Judged {
    if given.known_absent(Frame, attr::SHELL) {
        return Err(Stop::Silent);
    }
    let spindle = given.key(Crankset, attr::SPINDLE);
    let name = given.name(spindle?);
    if !is_through_axle(name) {
        return Err(Stop::Silent);
    }
    let made_for = given.num(Crankset, attr::SHELL_WIDTH);
    let width = given.num(Frame, attr::SHELL_WIDTH);
    let shell = given.key(Frame, attr::SHELL);
    let (made_for, width, shell) = (made_for?, width?, shell?);
    // Axles of 30 mm are named by the bare shell; thinner ones by the threaded shell with its cups outside.
    let by_cups = name != SPINDLE_30;
    let cups = match given.name(shell) {
        // Its 70 mm shell has thinner cups and spans what a 68 mm one does.
        SHELL_36 => 16_500,
        SHELL_STANDARD | SHELL_FRENCH | SHELL_SWISS | SHELL_M47 => CUPS_UM,
        _ if by_cups => CUPS_UM,
        _ => 0,
    };
    let long = spanned(made_for, if by_cups { CUPS_UM } else { 0 })? - spanned(width, cups)?;
    let reason = if long.at_most(-501)? {
        &TOO_SHORT
    } else if long.at_most(500)? {
        &REACHES
    } else if long.at_most(6_000)? {
        &AXLE_SPACERS
    } else {
        &MUCH_TOO_LONG
    };
    Ok(Judgement::from(reason)
        .with("need", width)
        .with("made_for", made_for)
        .with("short", -long)
        .with("long", long))
}

/// What cups outside a narrow shell add.
const CUPS_UM: i64 = 18_500;

/// Width over the bearings: cups sit outside shells of up to 75 mm.
fn spanned(width: Length, cups_um: i64) -> Result<Length, Stop> {
    let narrow = cups_um > 0 && width.at_most(75_000)?;
    Ok(if narrow { width + Num::exact(cups_um) } else { width })
}
