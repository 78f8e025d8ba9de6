//! # Sprocket line
//!
//! ## What it checks
//! Where a single sprocket must sit so that the chain runs straight.
//!
//! ## Why it matters
//! Without a derailleur the chain has nothing that guides it back: out of line it is loud, wears and comes off.
//!
//! ## Numbers
//! * Distance from the drive-side dropout face to the sprocket = half the hub width - chainline. 135 / 2 - 51 = 16.5 mm.
//! * Thru-axle widths first lose 7 mm: 142 counts as 135, 157 as 150 mm.
//! * Out of line by up to 4 mm is straight, up to 8 mm a caveat: about 0.5 and 1 degree (threshold reasoned on common
//!   practice).
//!
//! ## Exceptions
//! * On a splined body spacers put the sprocket where it is needed. On a thread it sits where the hub has it.
//! * Measured from the face that touches the frame, neither from the axle end nor from the hub's middle.
//!
//! ## Sources
//! A forum thread on a single-speed conversion; chainline articles; angle limits common practice.

use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy};
use crate::fit::rule::{Given, Judgement, Mating, Rule, Stop};
use crate::fit::slot::Slot::{Crankset, Hub, Sprocket};
use crate::part::units::Micrometres;
use crate::part::{Kind, attr};

use super::hub_in_frame::quick_release_width_um;

/// The mating.
pub const MATING: Mating = Mating {
    code: "sprocket-line",
    title: "Sprocket line",
    file: include_str!("sprocket_line.rs"),
    source: "chainline articles and a forum thread on a conversion",
    rules: &[ON_BODY, ON_THREAD],
};

type Length = Num<Micrometres>;

/// Distance from the dropout face to the sprocket of a straight chain.
fn distance(given: &Given<'_>) -> Result<Length, Stop> {
    let chainline = given.num(Crankset, attr::CHAINLINE);
    let width = given.num(Hub, attr::OVER_LOCKNUT);
    let axle = given.key(Hub, attr::AXLE);
    let (chainline, width, axle) = (chainline?, width?, axle?);
    let recessed = given.name(axle).starts_with("thru") && width.at_least(141_500)?;
    let open = if recessed {
        Num::between(quick_release_width_um(width.low), quick_release_width_um(width.high))
    } else {
        width
    };
    Ok(open.over(2) - chainline)
}

const SPACERS: Reason = Reason::extra(
    "spacers-on-body",
    "the sprocket must sit {distance} from the dropout face; spacers on the body put it there",
    &[Extra::needed(Kind::Spacer, &[])],
)
.geometry()
.note("spread thin spacers on both sides of the sprocket until the chain runs straight, then tighten the lockring");

const ON_BODY: Rule = Rule {
    code: "on-body",
    slots: &[Sprocket, Hub, Crankset],
    inputs: &[
        (Hub, attr::HUB_THREAD.attribute()),
        (Hub, attr::OVER_LOCKNUT.attribute()),
        (Hub, attr::AXLE.attribute()),
        (Crankset, attr::CHAINLINE.attribute()),
    ],
    reasons: &[&SPACERS],
    judge: |given| {
        if !given.is_absent(Hub, attr::HUB_THREAD)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&SPACERS).with("distance", distance(given)?))
    },
};

const STRAIGHT: Reason = Reason::fits("straight", "the chain runs straight").geometry();
const SLANTED: Reason =
    Reason::caveat("slanted", "the sprocket sits {error} out of line: louder, and the chain wears")
        .geometry();
const OUT_OF_LINE: Reason =
    Reason::no("out-of-line", "the sprocket sits {error} out of line: the chain comes off")
        .geometry()
        .remedies(&[
            Remedy::replace(
                Kind::Crankset,
                "a crank or bottom bracket with a chainline nearer to the sprocket's",
            ),
            Remedy::replace(Kind::Wheel, "a wheel whose sprocket sits nearer to the chainline"),
        ]);

const ON_THREAD: Rule = Rule {
    code: "on-thread",
    slots: &[Sprocket, Hub, Crankset],
    inputs: &[
        (Hub, attr::HUB_THREAD.attribute()),
        (Hub, attr::OVER_LOCKNUT.attribute()),
        (Hub, attr::AXLE.attribute()),
        (Hub, attr::LOCKNUT_TO_COG.attribute()),
        (Crankset, attr::CHAINLINE.attribute()),
    ],
    reasons: &[&STRAIGHT, &SLANTED, &OUT_OF_LINE],
    judge: |given| {
        // Told where it is known; a sprocket that replaces another one stays where the hub has it.
        let sits = given.known(Hub, attr::LOCKNUT_TO_COG).ok_or(Stop::Silent)?;
        if given.is_absent(Hub, attr::HUB_THREAD)? {
            return Err(Stop::Silent);
        }
        let distance = distance(given)?;
        let error = (sits - distance).abs();
        let reason = if error.at_most(4_000)? {
            &STRAIGHT
        } else if error.at_most(8_000)? {
            &SLANTED
        } else {
            &OUT_OF_LINE
        };
        Ok(Judgement::from(reason).with("error", error).with("distance", distance))
    },
};
