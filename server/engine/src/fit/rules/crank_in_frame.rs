//! # Crank in frame
//!
//! ## What it checks
//! Whether a bottom bracket can exist between the spindle of the crank and the shell of the frame, and the crank against
//! a motor's spindle.
//!
//! ## Why it matters
//! A crank never meets the shell directly. Reducers go from a larger bore to a thinner axle only, and each is made for
//! one axle: that "an adapter exists" proves nothing for another one.
//!
//! ## Numbers
//! * 1.37 in threads take cartridges, and 24, 28.99 and 30 mm axles with cups outside.
//! * 46 mm bores take 24 to 30 mm axles, 41 mm bores 24 and 28.99 mm and 30 mm with thin bearings (5.5 mm of room).
//! * Cartridges with a spindle of their own need a thread; a press bore takes them only with a threaded sleeve bonded in.
//!
//! ## Exceptions
//! * Bent one-piece cranks and their 51.3 mm shell go with each other only, short of a converter that is not judged.
//!
//! ## Sources
//! Bottom-bracket overviews of a magazine and shop blogs; the bonded sleeve is common practice.

use crate::fit::reason::{Extra, Reason, Remedy};
use crate::fit::rule::{Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Crankset, Frame};
use crate::part::interfaces::{
    SHELL_36, SHELL_37, SHELL_41, SHELL_41_2, SHELL_42, SHELL_46_CUPS, SHELL_46_DIRECT, SHELL_FRENCH,
    SHELL_M47, SHELL_ONE_PIECE, SHELL_STANDARD, SHELL_SWISS, SPINDLE_24, SPINDLE_24_22, SPINDLE_25,
    SPINDLE_28_99, SPINDLE_30, SPINDLE_MOTOR, SPINDLE_ONE_PIECE,
};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "crank-in-frame",
    title: "Crank in frame",
    file: include_str!("crank_in_frame.rs"),
    source: "bottom-bracket overviews of a magazine and shop blogs",
    rules: &[POSSIBLE, ON_MOTOR],
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
        let spindle = given.key(Crankset, attr::SPINDLE).map_err(|_| Stop::Silent)?;
        let shell = given.key(Frame, attr::SHELL).map_err(|_| Stop::Silent)?;
        say(match (given.name(spindle), given.name(shell)) {
            (SPINDLE_MOTOR, _) => return Err(Stop::Silent),
            (SPINDLE_ONE_PIECE, SHELL_ONE_PIECE) => &BRACKET_EXISTS,
            (SPINDLE_ONE_PIECE, _) | (_, SHELL_ONE_PIECE) => &ONE_PIECE,
            (spindle, SHELL_FRENCH | SHELL_SWISS) if is_axle(spindle) => &UNUSUAL,
            (_, SHELL_STANDARD | SHELL_36 | SHELL_FRENCH | SHELL_SWISS) => &BRACKET_EXISTS,
            (spindle, SHELL_M47 | SHELL_46_CUPS | SHELL_46_DIRECT | SHELL_42 | SHELL_41)
                if is_axle(spindle) =>
            {
                &BRACKET_EXISTS
            }
            (SPINDLE_24 | SPINDLE_24_22 | SPINDLE_25, SHELL_41_2 | SHELL_37) => &BRACKET_EXISTS,
            (spindle, _) if is_axle(spindle) => &UNUSUAL,
            (_, SHELL_42 | SHELL_46_CUPS | SHELL_46_DIRECT | SHELL_41 | SHELL_37) => &NEEDS_THREAD,
            _ => &UNUSUAL,
        })
    },
};

fn is_axle(spindle: &str) -> bool {
    matches!(spindle, SPINDLE_24 | SPINDLE_24_22 | SPINDLE_25 | SPINDLE_28_99 | SPINDLE_30)
}

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
