//! # Hub in frame
//!
//! ## What it checks
//! Width over the locknuts against the width between the dropouts, the axle standard, and wide flanges where two hubs
//! share one width.
//!
//! ## Why it matters
//! A wheel that does not fill its dropouts, or stands in dropouts made for another axle, can move or come out. Equal
//! widths are not enough: 142 and 148 mm share the axle, 135 and 142 mm share the hub.
//!
//! ## Numbers
//! * A thru-axle hub is 7 mm wider than the same hub with a quick release: 3.5 mm of recess on each side. Pairs: 135
//!   and 142, 141 and 148, 150 and 157, 170 and 177, 190 and 197 mm. Front 100 mm is the same for all its axles.
//! * Open dropouts: within 1 mm the width is right; up to 6 mm more is filled by washers, half on each side; ordinary
//!   steel is spread by up to 5 mm. Thru-axle: within 0.5 mm (thresholds reasoned, not a standard).
//! * 142 in 148 and 100 in 110 mm: only with a listed kit of caps and a rotor spacer of half the difference.
//!
//! ## Exceptions
//! * End caps exist only where the hub maker lists them; a solid axle never becomes a thru-axle.
//! * 157 mm is two hubs: downhill and wide-flange. Same axle, other flanges, chainline and rotor place.
//! * 110 x 15 and 110 x 20 mm are different hubs.
//! * Whether nuts or quick-release ends are thin enough for the slots is left to the bench.
//!
//! ## Sources
//! Axle guides of a magazine, a wheel builder and shop blogs, articles on 157 mm rear ends; washers, spreading and
//! kits are common practice.

use crate::fit::Slot;
use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Frame, GearHub, Hub};
use crate::gearing::chainline::THRU_RECESS_UM;
use crate::part::interfaces::{
    AXLE_NUTTED, AXLE_QUICK_FRONT, AXLE_QUICK_REAR, AXLE_THRU_10, AXLE_THRU_12, AXLE_THRU_15, AXLE_THRU_20,
};
use crate::part::units::Micrometres;
use crate::part::word::FrameMaterial;
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "hub-in-frame",
    title: "Hub in frame",
    file: include_str!("hub_in_frame.rs"),
    source: "axle guides of a magazine, a wheel builder and shop blogs",
    rules: &[WIDTH, GEAR_HUB_WIDTH, FLANGES],
};

/// Widths of hub shells with a quick release whose thru-axle form is wider by the recesses.
const PAIRED_UM: [i64; 5] = [135_000, 141_000, 150_000, 170_000, 190_000];

/// The width of the same hub with a quick release, both in micrometres.
pub const fn quick_release_width_um(thru_width_um: i64) -> i64 {
    thru_width_um - THRU_RECESS_UM as i64
}

// Width and axle.

const RIGHT: Reason = Reason::fits("right", "width and axle of the hub are those of the dropouts")
    .note("close the axle fully and check that the wheel sits straight before the first ride");
const OPEN_ENDS: Reason = Reason::caveat(
    "nuts-or-quick-release",
    "the width is right, but one side is made for nuts and the other for a quick release: the axle ends must drop into the slots and clamp on enough metal",
)
.injury();
const WASHERS: Reason = Reason::extra(
    "washers",
    "the dropouts are {wide} wider than the hub: a washer or longer locknut of {spacer} on each side keeps the rim in the middle",
    &[Extra::needed(
        Kind::Fitting,
        &[(Attribute::Fitting, Source::Word("axle-spacers")), (Attribute::Thickness, Source::Number("spacer"))],
    )],
)
.geometry()
.note("half on each side, never all on one; the axle must still reach well into both dropouts");
const SPREAD: Reason = Reason::caveat(
    "steel-spread",
    "the hub is {over} wider than the dropouts: ordinary steel is sprung or cold-set that far, with the dropouts aligned afterwards",
)
.geometry()
.tolerated()
.strong();
const TOO_WIDE: Reason =
    Reason::no("too-wide", "the hub is {over} wider than the dropouts").geometry().damage().remedies(&WHEEL);
const TOO_NARROW: Reason = Reason::no(
    "too-narrow",
    "the hub is {wide} narrower than the dropouts, and nothing that is listed fills the gap",
)
.geometry()
.injury()
.remedies(&WHEEL);
const KIT: Reason = Reason::extra(
    "widening-kit",
    "the dropouts are {wide} wider: the listed kit adds caps and a rotor spacer of {spacer} on each side; the cogs stay that far inboard",
    &[Extra::needed(Kind::EndCaps, &[(Attribute::OverLocknut, Source::Number("need"))])],
)
.injury()
.note("rotor and caps must move out by the same amount; check shifting and rotor room, re-dish after a one-sided kit");
const SOLID: Reason =
    Reason::no("solid-axle", "a hub with a solid or thin axle never becomes a thru-axle hub")
        .injury()
        .remedies(&WHEEL);
const OTHER_HUB: Reason =
    Reason::no("other-axle", "the hub is made for another axle, and no end caps make it this one")
        .injury()
        .remedies(&WHEEL);
const CAPS_UNLISTED: Reason = Reason::unclear(
    "caps-unlisted",
    "whether the axle of this gear hub can be converted is known to its maker only",
);

const WHEEL: [Remedy; 2] = [
    Remedy::replace(Kind::Wheel, "a wheel whose hub has the width and axle of the dropouts"),
    Remedy::replace(Kind::Hub, "a hub of the right width and axle, built into the wheel"),
];

macro_rules! caps_for {
    ($($name:ident = $code:literal, $key:expr;)*) => {$(
        const $name: Reason = Reason::extra(
            $code,
            "the same hub takes end caps for this axle: the listed caps make it {need} wide",
            &[Extra::needed(
                Kind::EndCaps,
                &[(Attribute::OverLocknut, Source::Number("need")), (Attribute::Axle, Source::Key("axle", $key))],
            )],
        )
        .injury()
        .note("caps are specific to the hub: take those that its maker lists");
    )*};
}

caps_for! {
    CAPS_QUICK_FRONT = "caps-quick-release-front", AXLE_QUICK_FRONT;
    CAPS_QUICK_REAR = "caps-quick-release-rear", AXLE_QUICK_REAR;
    CAPS_10 = "caps-thru-10", AXLE_THRU_10;
    CAPS_12 = "caps-thru-12", AXLE_THRU_12;
    CAPS_15 = "caps-thru-15", AXLE_THRU_15;
    CAPS_20 = "caps-thru-20", AXLE_THRU_20;
}

fn caps(axle: &str) -> Judgement {
    Judgement::from(match axle {
        AXLE_QUICK_FRONT => &CAPS_QUICK_FRONT,
        AXLE_QUICK_REAR => &CAPS_QUICK_REAR,
        AXLE_THRU_10 => &CAPS_10,
        AXLE_THRU_12 => &CAPS_12,
        AXLE_THRU_15 => &CAPS_15,
        AXLE_THRU_20 => &CAPS_20,
        _ => &OTHER_HUB,
    })
}

const WIDTH_REASONS: &[&Reason] = &[
    &RIGHT,
    &OPEN_ENDS,
    &WASHERS,
    &SPREAD,
    &TOO_WIDE,
    &TOO_NARROW,
    &KIT,
    &SOLID,
    &OTHER_HUB,
    &CAPS_QUICK_FRONT,
    &CAPS_QUICK_REAR,
    &CAPS_10,
    &CAPS_12,
    &CAPS_15,
    &CAPS_20,
];
const GEAR_HUB_REASONS: &[&Reason] =
    &[&RIGHT, &OPEN_ENDS, &WASHERS, &SPREAD, &TOO_WIDE, &TOO_NARROW, &SOLID, &OTHER_HUB, &CAPS_UNLISTED];
pub(super) const FORK_REASONS: &[&Reason] = &[
    &RIGHT,
    &OPEN_ENDS,
    &WASHERS,
    &TOO_WIDE,
    &TOO_NARROW,
    &KIT,
    &SOLID,
    &OTHER_HUB,
    &CAPS_QUICK_FRONT,
    &CAPS_QUICK_REAR,
    &CAPS_10,
    &CAPS_12,
    &CAPS_15,
    &CAPS_20,
];

/// Inputs of the width of a hub between dropouts.
pub(super) const fn width_inputs(hub: Slot, ends: Slot) -> [Input; 4] {
    [
        (hub, attr::OVER_LOCKNUT.attribute()),
        (hub, attr::AXLE.attribute()),
        (ends, attr::DROPOUT_WIDTH.attribute()),
        (ends, attr::AXLE.attribute()),
    ]
}

const HUB_WIDTH: [Input; 4] = width_inputs(Hub, Frame);
const GEAR_WIDTH: [Input; 4] = width_inputs(GearHub, Frame);

const WIDTH: Rule = Rule {
    code: "width",
    slots: &[Hub, Frame],
    inputs: &[
        HUB_WIDTH[0],
        HUB_WIDTH[1],
        HUB_WIDTH[2],
        HUB_WIDTH[3],
        (Frame, attr::FRAME_MATERIAL.attribute()),
        (Hub, attr::END_CAPS.attribute()),
        (Hub, attr::WIDENING_KIT.attribute()),
    ],
    reasons: WIDTH_REASONS,
    judge: |given| width(given, Hub, Frame),
};

const GEAR_HUB_WIDTH: Rule = Rule {
    code: "gear-hub-width",
    slots: &[GearHub, Frame],
    inputs: &[
        GEAR_WIDTH[0],
        GEAR_WIDTH[1],
        GEAR_WIDTH[2],
        GEAR_WIDTH[3],
        (Frame, attr::FRAME_MATERIAL.attribute()),
    ],
    reasons: GEAR_HUB_REASONS,
    judge: |given| width(given, GearHub, Frame),
};

type Length = Num<Micrometres>;

/// Width and axle of a hub between dropouts.
pub(super) fn width(given: &Given<'_>, hub: Slot, ends: Slot) -> Judged {
    let hub_width = given.num(hub, attr::OVER_LOCKNUT);
    let hub_axle = given.key(hub, attr::AXLE);
    let ends_width = given.num(ends, attr::DROPOUT_WIDTH);
    let ends_axle = given.key(ends, attr::AXLE);
    let (hub_width, hub_axle, ends_width, ends_axle) = (hub_width?, hub_axle?, ends_width?, ends_axle?);
    let (hub_axle, ends_axle) = (given.name(hub_axle), given.name(ends_axle));
    let wide = ends_width - hub_width;
    let judged = match (is_open(hub_axle), is_open(ends_axle)) {
        (true, true) => open_ends(given, ends, wide, hub_axle == ends_axle)?,
        (false, false) if hub_axle == ends_axle => thru_ends(given, hub, hub_width, ends_width, ends_axle)?,
        _ => converted(given, hub, (hub_width, hub_axle), (ends_width, ends_axle))?,
    };
    Ok(judged.with("need", ends_width).with("wide", wide).with("over", -wide).with("spacer", wide.over(2)))
}

fn is_open(axle: &str) -> bool {
    matches!(axle, AXLE_QUICK_FRONT | AXLE_QUICK_REAR | AXLE_NUTTED)
}

fn open_ends(given: &Given<'_>, ends: Slot, wide: Length, same: bool) -> Result<Judgement, Stop> {
    if wide.at_most(-1_001)? {
        // Forks are not spread, and their material is not asked for.
        if ends != Frame || wide.at_most(-5_001)? {
            return Ok((&TOO_WIDE).into());
        }
        let steel = given.word(Frame, attr::FRAME_MATERIAL)? == FrameMaterial::Steel;
        return Ok(if steel { &SPREAD } else { &TOO_WIDE }.into());
    }
    if wide.at_most(1_000)? {
        return Ok(if same { &RIGHT } else { &OPEN_ENDS }.into());
    }
    Ok(if wide.at_most(6_000)? { &WASHERS } else { &TOO_NARROW }.into())
}

fn thru_ends(
    given: &Given<'_>,
    hub: Slot,
    hub_width: Length,
    ends_width: Length,
    axle: &str,
) -> Result<Judgement, Stop> {
    let wide = ends_width - hub_width;
    if wide.within(-500, 500)? {
        return Ok((&RIGHT).into());
    }
    if same_shell(hub_width, ends_width)? {
        return caps_listed(given, hub, axle);
    }
    let kit = (is_near(hub_width, 142_000)? && is_near(ends_width, 148_000)?)
        || (is_near(hub_width, 100_000)? && is_near(ends_width, 110_000)?);
    if kit && hub == Hub {
        let listed = given.flag(hub, attr::WIDENING_KIT)?;
        return Ok(if listed { &KIT } else { &TOO_NARROW }.into());
    }
    Ok(if wide.at_least(0)? { &TOO_NARROW } else { &TOO_WIDE }.into())
}

/// The axles differ: only end caps help, and only where both are the same hub shell.
fn converted(
    given: &Given<'_>,
    hub: Slot,
    (hub_width, hub_axle): (Length, &str),
    (ends_width, ends_axle): (Length, &str),
) -> Result<Judgement, Stop> {
    if hub_axle == AXLE_NUTTED {
        return Ok((&SOLID).into());
    }
    let twenty = (hub_axle == AXLE_THRU_20) != (ends_axle == AXLE_THRU_20);
    if ends_axle == AXLE_NUTTED || twenty || !same_shell(hub_width, ends_width)? {
        return Ok((&OTHER_HUB).into());
    }
    caps_listed(given, hub, ends_axle)
}

fn caps_listed(given: &Given<'_>, hub: Slot, axle: &str) -> Result<Judgement, Stop> {
    if hub != Hub {
        return Ok((&CAPS_UNLISTED).into());
    }
    Ok(if given.flag(hub, attr::END_CAPS)? { caps(axle) } else { (&OTHER_HUB).into() })
}

fn is_near(width: Length, nominal: i64) -> Result<bool, Stop> {
    width.within(nominal - 500, nominal + 500)
}

/// Both widths are of one hub shell, with different end caps.
fn same_shell(hub: Length, ends: Length) -> Result<bool, Stop> {
    let wide = ends - hub;
    if wide.within(-500, 500)? {
        return Ok(true);
    }
    if !is_near(wide.abs(), i64::from(THRU_RECESS_UM))? {
        return Ok(false);
    }
    let narrow = if wide.at_least(0)? { hub } else { ends };
    for paired in PAIRED_UM {
        if is_near(narrow, paired)? {
            return Ok(true);
        }
    }
    Ok(false)
}

// Wide flanges.

const FLANGES_MATCH: Reason = Reason::fits("flanges-match", "hub and rear end are of the same 157 mm kind");
const OTHER_FLANGES: Reason = Reason::no(
    "other-flanges",
    "one is the downhill, the other the wide-flange kind of 157 mm: chainline and rotor do not line up",
)
.damage()
.remedies(&WHEEL);

const FLANGES: Rule = Rule {
    code: "flanges",
    slots: &[Hub, Frame],
    inputs: &[
        (Hub, attr::OVER_LOCKNUT.attribute()),
        (Frame, attr::DROPOUT_WIDTH.attribute()),
        (Hub, attr::WIDE_FLANGE.attribute()),
        (Frame, attr::WIDE_FLANGE.attribute()),
    ],
    reasons: &[&FLANGES_MATCH, &OTHER_FLANGES],
    judge: |given| {
        let hub = given.known(Hub, attr::OVER_LOCKNUT).ok_or(Stop::Silent)?;
        let frame = given.known(Frame, attr::DROPOUT_WIDTH).ok_or(Stop::Silent)?;
        // Only 157 mm names two hubs; the width itself is judged by its own rule.
        if !is_near(hub, 157_000)? || !is_near(frame, 157_000)? {
            return Err(Stop::Silent);
        }
        let hub = given.flag(Hub, attr::WIDE_FLANGE);
        let frame = given.flag(Frame, attr::WIDE_FLANGE);
        say(if hub? == frame? { &FLANGES_MATCH } else { &OTHER_FLANGES })
    },
};
