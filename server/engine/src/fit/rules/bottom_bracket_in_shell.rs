//! # Bottom bracket in shell
//!
//! ## What it checks
//! Thread or bore with its seat, width, offset of asymmetric shells, hand of the thread, and bikes with a motor at the
//! cranks, which have no bottom bracket.
//!
//! ## Why it matters
//! A cup of another thread ruins the shell. Bores that look alike (41, 41.2 and 41.96 mm, or the two of 37 mm) differ by
//! less than a careless measurement.
//!
//! ## Numbers
//! * The key is bore or thread, bearing direct or cups, width and offset together, never the bore alone.
//! * Widths are equal within 0.3 mm (threshold reasoned): 85.5 and 86.5, 89.5, 90.5 and 92 mm are different parts.
//! * Cups outside a threaded shell and made for 73 mm go in 68 mm as well; cartridges do not.
//! * Asymmetric bare-bearing shells of 73 and 83 mm have symmetric namesakes: there the offset decides.
//! * Drive-side thread: left-hand on 1.37 in x 24 tpi, Swiss 35 x 1 and M47 x 1; right-hand on 36 mm x 24 tpi and
//!   French 35 x 1.
//!
//! ## Exceptions
//! * A reducer takes a larger bore to a smaller spindle; nothing takes a smaller bore to a larger one.
//!
//! ## Sources
//! Bottom-bracket overviews of a magazine and shop blogs; a crank maker's spacer chart of 2023; ISO 6696 (scope only);
//! hand of M47 x 1 and the small-wheel shells from memory.

use super::known;
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{BottomBracket, Frame, Use};
use crate::part::interfaces::{
    SHELL_36, SHELL_37, SHELL_37_TRICK, SHELL_41, SHELL_41_2, SHELL_42, SHELL_46_CUPS, SHELL_46_DIRECT,
    SHELL_FRENCH, SHELL_M47, SHELL_STANDARD, SHELL_SWISS, SPINDLE_24, SPINDLE_24_22, SPINDLE_25,
    SPINDLE_28_99, SPINDLE_30,
};
use crate::part::units::Micrometres;
use crate::part::word::CupThreadHand;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "bottom-bracket-in-shell",
    title: "Bottom bracket in shell",
    file: include_str!("bottom_bracket_in_shell.rs"),
    source: "bottom-bracket overviews of a magazine and shop blogs",
    rules: &[SHELL, WIDTH, OFFSET, HAND, MOTOR_FRAME, MOTOR_USE],
};

const BRACKET: [Remedy; 1] = [Remedy::replace(
    Kind::BottomBracket,
    "a bottom bracket for this very shell and the spindle of the crank",
)];

const SHELLS: [Input; 2] = [(BottomBracket, attr::SHELL.attribute()), (Frame, attr::SHELL.attribute())];

/// Whether the shell takes the bottom bracket; silent where the frame has no shell.
fn taken(given: &Given<'_>) -> Result<bool, Stop> {
    if given.known_absent(Frame, attr::SHELL) {
        return Err(Stop::Silent);
    }
    let bracket = given.key(BottomBracket, attr::SHELL);
    let frame = given.key(Frame, attr::SHELL);
    Ok(given.accepts(frame?, bracket?))
}

// Thread or bore.

const TAKEN: Reason = Reason::fits("taken", "the bottom bracket is made for this shell");
const LOOKALIKE: Reason = Reason::no(
    "look-alike",
    "the bores look alike and are not: bearing or cups would be loose or ruin the shell",
)
.damage()
.remedies(&BRACKET);
const OTHER_SHELL: Reason =
    Reason::no("other-shell", "the bottom bracket is made for another thread or bore")
        .damage()
        .remedies(&BRACKET);

const SHELL: Rule = Rule {
    code: "shell",
    slots: &[BottomBracket, Frame],
    inputs: &SHELLS,
    reasons: &[&TAKEN, &LOOKALIKE, &OTHER_SHELL],
    judge: |given| {
        if taken(given)? {
            return say(&TAKEN);
        }
        let group = |slot| given.key(slot, attr::SHELL).map(|key| look(given.name(key)));
        let alike = matches!((group(BottomBracket)?, group(Frame)?), (Some(one), Some(two)) if one == two);
        say(if alike { &LOOKALIKE } else { &OTHER_SHELL })
    },
};

/// Bores that a careless measurement confuses.
fn look(shell: &str) -> Option<u8> {
    match shell {
        SHELL_41 | SHELL_41_2 | SHELL_42 => Some(41),
        SHELL_37 | SHELL_37_TRICK => Some(37),
        SHELL_46_DIRECT | SHELL_46_CUPS => Some(46),
        _ => None,
    }
}

// Width.

const SAME_WIDTH: Reason = Reason::fits("same-width", "the bottom bracket is made for this width").geometry();
const NARROWER: Reason = Reason::fits(
    "cups-take-narrower",
    "the shell is {narrow} narrower than the widest that these cups take; whether spacers go under them follows from the axle of the crank",
)
.geometry();
const OTHER_WIDTH: Reason =
    Reason::no("other-width", "the bottom bracket is made for a shell of {need}, this one has {shell}")
        .geometry()
        .damage()
        .remedies(&BRACKET);

const WIDTH: Rule = Rule {
    code: "width",
    slots: &[BottomBracket, Frame],
    inputs: &[
        SHELLS[0],
        SHELLS[1],
        (BottomBracket, attr::SHELL_WIDTH.attribute()),
        (Frame, attr::SHELL_WIDTH.attribute()),
        (BottomBracket, attr::SPINDLE.attribute()),
    ],
    reasons: &[&SAME_WIDTH, &NARROWER, &OTHER_WIDTH],
    judge: width,
};

fn width(given: &Given<'_>) -> Judged {
    if !taken(given)? {
        return Err(Stop::Silent);
    }
    let need = given.num(BottomBracket, attr::SHELL_WIDTH);
    let shell = given.num(Frame, attr::SHELL_WIDTH);
    let (need, shell) = (need?, shell?);
    let narrow = need - shell;
    let reason = if narrow.within(-300, 300)? {
        &SAME_WIDTH
    } else if narrow.within(301, 5_500)? && outside_cups(given, need)? {
        &NARROWER
    } else {
        &OTHER_WIDTH
    };
    Ok(Judgement::from(reason).with("need", need).with("shell", shell).with("narrow", narrow))
}

/// Cups that sit outside a threaded shell.
fn outside_cups(given: &Given<'_>, need: Num<Micrometres>) -> Result<bool, Stop> {
    let shell = given.key(BottomBracket, attr::SHELL)?;
    let threaded =
        matches!(given.name(shell), SHELL_STANDARD | SHELL_36 | SHELL_FRENCH | SHELL_SWISS | SHELL_M47);
    if !threaded || !need.at_most(80_000)? {
        return Ok(false);
    }
    let spindle = given.key(BottomBracket, attr::SPINDLE)?;
    Ok(is_through_axle(given.name(spindle)))
}

/// Spindles that belong to the crank and run through the bearings.
pub(super) fn is_through_axle(spindle: &str) -> bool {
    matches!(spindle, SPINDLE_24 | SPINDLE_24_22 | SPINDLE_25 | SPINDLE_28_99 | SPINDLE_30)
}

// Offset of asymmetric shells.

const SAME_OFFSET: Reason =
    Reason::fits("same-offset", "the bearings sit where the shell has its seats").geometry();
const OTHER_OFFSET: Reason = Reason::no(
    "other-offset",
    "the shell moves its non-drive bearing by {shell}, the bottom bracket is made for {need}",
)
.geometry()
.damage()
.remedies(&BRACKET);

const OFFSET: Rule = Rule {
    code: "offset",
    slots: &[BottomBracket, Frame],
    inputs: &[
        SHELLS[0],
        SHELLS[1],
        (Frame, attr::SHELL_WIDTH.attribute()),
        (BottomBracket, attr::BEARING_OFFSET.attribute()),
        (Frame, attr::BEARING_OFFSET.attribute()),
    ],
    reasons: &[&SAME_OFFSET, &OTHER_OFFSET],
    judge: |given| {
        let width = given.known(Frame, attr::SHELL_WIDTH).ok_or(Stop::Silent)?;
        let shell = known::name(given, Frame, attr::SHELL).ok_or(Stop::Silent)?;
        let bare = matches!(shell, SHELL_42 | SHELL_46_DIRECT | SHELL_46_CUPS);
        if !bare || !(width.within(72_700, 73_300)? || width.within(82_700, 83_300)?) || !taken(given)? {
            return Err(Stop::Silent);
        }
        let need = given.num(BottomBracket, attr::BEARING_OFFSET);
        let shell = given.num(Frame, attr::BEARING_OFFSET);
        let (need, shell) = (need?, shell?);
        let reason = if (need - shell).within(-300, 300)? { &SAME_OFFSET } else { &OTHER_OFFSET };
        Ok(Judgement::from(reason).with("need", need).with("shell", shell))
    },
};

// Hand of the drive-side thread.

const OTHER_HAND: Reason = Reason::no("other-hand", "the drive-side thread of this shell has the other hand")
    .damage()
    .remedies(&BRACKET);
const SAME_HAND: Reason = Reason::fits("same-hand", "the drive-side thread has the hand of the shell")
    .note("turn the drive-side cup by hand first: left-hand unless the shell is Italian or French");

const HAND: Rule = Rule {
    code: "thread-hand",
    slots: &[BottomBracket, Frame],
    inputs: &[(BottomBracket, attr::CUP_THREAD_HAND.attribute()), (Frame, attr::SHELL.attribute())],
    reasons: &[&SAME_HAND, &OTHER_HAND],
    // The shell's key implies the hand: only a stated hand is compared.
    judge: |given| {
        let hand = known::word(given, BottomBracket, attr::CUP_THREAD_HAND).ok_or(Stop::Silent)?;
        let shell = match known::name(given, Frame, attr::SHELL).ok_or(Stop::Silent)? {
            SHELL_STANDARD | SHELL_SWISS | SHELL_M47 => CupThreadHand::Left,
            SHELL_36 | SHELL_FRENCH => CupThreadHand::Right,
            _ => return Err(Stop::Silent),
        };
        say(if hand == shell { &SAME_HAND } else { &OTHER_HAND })
    },
};

// A motor at the cranks.

const MOTOR: Reason = Reason::no(
    "motor",
    "a motor sits where the bottom bracket would: nothing takes it, and the crank goes on the motor's spindle",
);

const MOTOR_FRAME: Rule = Rule {
    code: "motor-frame",
    slots: &[BottomBracket, Frame],
    inputs: &[(Frame, attr::SHELL.attribute()), (Frame, attr::MOTOR_SPINDLE.attribute())],
    reasons: &[&MOTOR],
    judge: |given| {
        let motor =
            !given.is_missing(Frame, attr::MOTOR_SPINDLE) && !given.known_absent(Frame, attr::MOTOR_SPINDLE);
        if motor || given.known_absent(Frame, attr::SHELL) { say(&MOTOR) } else { Err(Stop::Silent) }
    },
};

const MOTOR_USE: Rule = Rule {
    code: "motor-use",
    slots: &[BottomBracket, Use],
    inputs: &[(Use, attr::MID_MOTOR.attribute())],
    reasons: &[&MOTOR],
    judge: |given| {
        if given.is_known(Use, attr::MID_MOTOR) { say(&MOTOR) } else { Err(Stop::Silent) }
    },
};
