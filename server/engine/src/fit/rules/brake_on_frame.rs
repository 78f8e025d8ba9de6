//! # Brake on frame
//!
//! ## What it checks
//! The mount of the brake, the rotor against the size that the mount takes (adapter arithmetic), the largest rotor
//! that the frame maker allows, and a loose adapter.
//!
//! ## Why it matters
//! Pads that overhang or miss the rotor do not brake; a rotor over the maker's limit can tear the mount out.
//!
//! ## Numbers
//! * Step = rotor - native size of the mount: 0 needs no adapter, above it the adapter of exactly that step, below it
//!   nothing helps: adapters only move the caliper outwards.
//! * Native size: as stamped on posts and flat plates; tabs 51 mm apart carry 140 mm at the rear and 160 mm at the
//!   front and always need their bracket, so one bracket serves 160 mm at the rear and 180 mm at the front.
//! * Steps that are made: 20, 23, 40, 43, 60 and 63 mm. 200 and 203 mm differ: 1.5 mm shims make up for 3 mm.
//! * Posts stand 74 mm apart.
//!
//! ## Exceptions
//! * A post-mount caliper goes on tabs with a bracket. A flat-mount caliper on posts needs an adapter that forces 20 mm
//!   more rotor and 13 mm free below the posts; a post-mount caliper on a flat plate has adapters for the rear and for
//!   some forks: unclear unless the maker lists the pair.
//! * A caliper with tabs of its own never goes on posts or a flat plate.
//! * The limit of the maker is a strength limit: that an adapter fits does not lift it.
//!
//! ## Sources
//! Disc-mount guides (repair page, shop blog), a page on a flat-mount caliper on posts, a frame builder's blog; steps
//! partly from memory, shims common practice.

use crate::fit::Slot;
use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Brake, BrakeAdapter, Fork, Frame, Rotor};
use crate::part::interfaces::{BRAKE_FLAT, BRAKE_POST, BRAKE_TABS};
use crate::part::units::Micrometres;
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "brake-on-frame",
    title: "Brake on frame",
    file: include_str!("brake_on_frame.rs"),
    source: "disc-mount guides of a repair page and a shop blog",
    rules: &[MOUNT, ROTOR_SIZE, ROTOR_LIMIT, ADAPTER_MOUNT, ADAPTER_STEP, ADAPTER_CALIPER],
};

// Mount.

const BRAKE: [Remedy; 1] =
    [Remedy::replace(Kind::BrakeCaliper, "a brake for the mount that is there, of the same maker and fluid")];

const SAME_MOUNT: Reason = Reason::fits("same-mount", "the brake has the mount that is there").note(
    "caliper bolts to the torque printed on the part; a qualified mechanic checks the brake before the ride",
);
const BRACKET_JOINS: Reason =
    Reason::fits("bracket-joins", "a bracket joins a post-mount caliper to the tabs; the rotor tells which");
const NO_MOUNT: Reason = Reason::no("no-mount", "there is no brake mount").injury();
const OTHER_MOUNT: Reason =
    Reason::no("other-mount", "the brake does not go on this mount").injury().remedies(&BRAKE);
const FLAT_ON_POST: Reason = Reason::unclear(
    "flat-on-post",
    "a flat-mount caliper goes on posts only with an adapter that forces 20 mm more rotor and needs 13 mm free below the posts: ask whether one is listed",
)
.injury()
.remedies(&BRAKE);
const POST_ON_FLAT: Reason = Reason::unclear(
    "post-on-flat",
    "a post-mount caliper goes on a flat plate only where an adapter is listed for this mount and rotor",
)
.injury()
.remedies(&BRAKE);

pub(super) const MOUNT_REASONS: &[&Reason] =
    &[&SAME_MOUNT, &BRACKET_JOINS, &NO_MOUNT, &OTHER_MOUNT, &FLAT_ON_POST, &POST_ON_FLAT];

/// Inputs of the mount of a brake or an adapter.
pub(super) const fn mount_inputs(part: Slot, ends: Slot) -> [Input; 2] {
    [(part, attr::BRAKE_MOUNT.attribute()), (ends, attr::BRAKE_MOUNT.attribute())]
}

const MOUNT: Rule = Rule {
    code: "mount",
    slots: &[Brake, Frame],
    inputs: &mount_inputs(Brake, Frame),
    reasons: MOUNT_REASONS,
    judge: |given| mount(given, Frame),
};

/// The mount of the brake against that of frame or fork.
pub(super) fn mount(given: &Given<'_>, ends: Slot) -> Judged {
    if given.known_absent(ends, attr::BRAKE_MOUNT) {
        return say(&NO_MOUNT);
    }
    let brake = given.key(Brake, attr::BRAKE_MOUNT);
    let mount = given.key(ends, attr::BRAKE_MOUNT);
    let (brake, mount) = (brake?, mount?);
    if given.accepts(mount, brake) {
        return say(&SAME_MOUNT);
    }
    say(match (given.name(brake), given.name(mount)) {
        (BRAKE_POST, BRAKE_TABS) => &BRACKET_JOINS,
        (BRAKE_FLAT, BRAKE_POST) => &FLAT_ON_POST,
        (BRAKE_POST, BRAKE_FLAT) => &POST_ON_FLAT,
        _ => &OTHER_MOUNT,
    })
}

// Rotor size: adapter arithmetic.

const NATIVE: Reason = Reason::fits("native", "the rotor is the one that the mount is made for").geometry();
const PLATE_FLIPS: Reason =
    Reason::fits("plate-flips", "the plate of a flat-mount fork is turned for 140 or 160 mm").geometry();
const SHIMS: Reason = Reason::extra(
    "shims",
    "the rotor is 3 mm larger: shims of {shim} under the caliper at both bolts make up for it",
    &[Extra::needed(
        Kind::Fitting,
        &[
            (Attribute::Fitting, Source::Word("caliper-shims")),
            (Attribute::Thickness, Source::Number("shim")),
        ],
    )],
)
.geometry()
.injury()
.note("longer bolts where the shims take too many threads");
const NO_STEP: Reason = Reason::unclear(
    "no-such-step",
    "the rotor is {step} larger than the mount is made for; no adapter of that step is known",
)
.geometry()
.injury()
.remedies(&ROTOR);
const BELOW: Reason = Reason::no(
    "below-native",
    "the mount is made for {native}; adapters only move the caliper outwards, so {rotor} cannot be reached",
)
.geometry()
.injury()
.remedies(&ROTOR);

const ROTOR: [Remedy; 1] =
    [Remedy::replace(Kind::Rotor, "a rotor of the mount's native size, or of a larger size that is allowed")];

macro_rules! adapter_for {
    ($($name:ident = $code:literal, $mount:expr, $caliper:expr, $text:literal;)*) => {$(
        const $name: Reason = Reason::extra(
            $code,
            $text,
            &[Extra::needed(
                Kind::BrakeAdapter,
                &[
                    (Attribute::BrakeMount, Source::Key("brake-mount", $mount)),
                    (Attribute::CaliperMount, Source::Key("brake-mount", $caliper)),
                    (Attribute::RotorStep, Source::Number("step")),
                ],
            )],
        )
        .geometry()
        .injury()
        .note("the adapter's own marking decides; pads must sweep the whole track and touch nothing else");
    )*};
}

adapter_for! {
    BRACKET = "bracket-on-tabs", BRAKE_TABS, BRAKE_POST,
        "tabs always need their bracket: the one that adds {step} to {native}";
    POST_ADAPTER = "adapter-on-posts", BRAKE_POST, BRAKE_POST,
        "the posts are made for {native}: {rotor} needs the adapter that adds {step}";
    FLAT_ADAPTER = "adapter-on-flat-plate", BRAKE_FLAT, BRAKE_FLAT,
        "the flat plate is made for {native}: {rotor} needs the adapter that adds {step}";
}

/// Steps that adapters are made in, in millimetres.
const STEPS_MM: [i64; 6] = [20, 23, 40, 43, 60, 63];

const SIZE_REASONS: &[&Reason] = &[&NATIVE, &SHIMS, &NO_STEP, &BELOW, &BRACKET, &POST_ADAPTER, &FLAT_ADAPTER];
pub(super) const FORK_SIZE_REASONS: &[&Reason] =
    &[&NATIVE, &PLATE_FLIPS, &SHIMS, &NO_STEP, &BELOW, &BRACKET, &POST_ADAPTER, &FLAT_ADAPTER];

/// Inputs of the size of a rotor on a mount.
pub(super) const fn size_inputs(ends: Slot) -> [Input; 3] {
    [
        (Rotor, attr::ROTOR.attribute()),
        (ends, attr::BRAKE_MOUNT.attribute()),
        (ends, attr::NATIVE_ROTOR.attribute()),
    ]
}

const SIZE_OF_FRAME: [Input; 3] = size_inputs(Frame);
const ROTOR_SIZE: Rule = Rule {
    code: "rotor-size",
    slots: &[Rotor, Frame],
    inputs: &SIZE_OF_FRAME,
    reasons: SIZE_REASONS,
    judge: |given| rotor_size(given, Frame),
};

type Length = Num<Micrometres>;

/// Name of the mount and the rotor that it takes without a step.
fn native<'a>(given: &Given<'a>, ends: Slot) -> Result<(&'a str, Length), Stop> {
    let mount = given.name(given.key(ends, attr::BRAKE_MOUNT)?);
    match mount {
        BRAKE_TABS => Ok((mount, Num::exact(if ends == Fork { 160_000 } else { 140_000 }))),
        BRAKE_POST | BRAKE_FLAT => Ok((mount, given.num(ends, attr::NATIVE_ROTOR)?)),
        // A rotor beside a rim-brake mount: the mount rule speaks.
        _ => Err(Stop::Silent),
    }
}

/// The rotor against the size that the mount takes.
pub(super) fn rotor_size(given: &Given<'_>, ends: Slot) -> Judged {
    if given.known_absent(ends, attr::BRAKE_MOUNT) {
        return Err(Stop::Silent);
    }
    let rotor = given.num(Rotor, attr::ROTOR);
    let mount = native(given, ends);
    let ((mount, native), rotor) = (mount?, rotor?);
    let step = rotor - native;
    let reason = if mount == BRAKE_FLAT && ends == Fork && is_flat_plate_size(rotor)? {
        &PLATE_FLIPS
    } else {
        stepped(mount, step)?
    };
    let judged = Judgement::from(reason).with("rotor", rotor).with("native", native).with("step", step);
    Ok(judged.with("shim", step.over(2)))
}

fn is_flat_plate_size(rotor: Length) -> Result<bool, Stop> {
    Ok(rotor.over(1_000).equals(140)? || rotor.over(1_000).equals(160)?)
}

fn stepped(mount: &str, step: Length) -> Result<&'static Reason, Stop> {
    let millimetres = step.over(1_000);
    if millimetres.at_most(-1)? {
        return Ok(&BELOW);
    }
    if millimetres.equals(0)? {
        return Ok(if mount == BRAKE_TABS { &BRACKET } else { &NATIVE });
    }
    if millimetres.equals(3)? && mount == BRAKE_POST {
        return Ok(&SHIMS);
    }
    for made in STEPS_MM {
        if millimetres.equals(made)? {
            return Ok(match mount {
                BRAKE_TABS => &BRACKET,
                BRAKE_FLAT => &FLAT_ADAPTER,
                _ => &POST_ADAPTER,
            });
        }
    }
    Ok(&NO_STEP)
}

// Largest rotor allowed.

const ALLOWED: Reason = Reason::fits("allowed", "the maker of frame or fork allows this rotor").limit();
const OVER: Reason = Reason::no(
    "over-limit",
    "the rotor of {rotor} is over the {limit} that the maker of frame or fork allows: a strength limit",
)
.limit()
.injury()
.remedies(&[Remedy::replace(Kind::Rotor, "a rotor of {limit} or less, with more heat capacity if needed")]);

pub(super) const LIMIT_REASONS: &[&Reason] = &[&ALLOWED, &OVER];

/// Inputs of the limit of rotors.
pub(super) const fn limit_inputs(ends: Slot) -> [Input; 4] {
    let [rotor, mount, native] = size_inputs(ends);
    [rotor, mount, native, (ends, attr::MAX_ROTOR.attribute())]
}

const ROTOR_LIMIT: Rule = Rule {
    code: "rotor-limit",
    slots: &[Rotor, Frame],
    inputs: &limit_inputs(Frame),
    reasons: LIMIT_REASONS,
    judge: |given| rotor_limit(given, Frame),
};

/// The rotor against the largest that is allowed. The native size is allowed by its stamp.
pub(super) fn rotor_limit(given: &Given<'_>, ends: Slot) -> Judged {
    let limit = given.num(ends, attr::MAX_ROTOR);
    let rotor = given.num(Rotor, attr::ROTOR);
    let native = native(given, ends);
    let rotor = rotor?;
    if matches!(native, Ok((_, native)) if (rotor - native).at_most(0) == Ok(true)) {
        return Err(Stop::Silent);
    }
    let limit = limit?;
    let reason = if (rotor - limit).at_most(0)? { &ALLOWED } else { &OVER };
    Ok(Judgement::from(reason).with("rotor", rotor).with("limit", limit))
}

// A loose adapter.

const ADAPTER_SUITS: Reason = Reason::fits("adapter-suits", "the adapter is made for this mount");
const ADAPTER_OTHER: Reason =
    Reason::no("adapter-other-mount", "the adapter is made for another mount").injury().remedies(&ADAPTER);
const STEP_SUITS: Reason =
    Reason::fits("step-suits", "the adapter adds exactly what the rotor needs").geometry();
const STEP_OTHER: Reason = Reason::no(
    "step-other",
    "the adapter adds {has}, the rotor needs {step}: the pads would overhang or miss the track",
)
.geometry()
.injury()
.remedies(&ADAPTER);

const ADAPTER: [Remedy; 1] =
    [Remedy::replace(Kind::BrakeAdapter, "the adapter of exactly the step that this mount and rotor need")];

pub(super) const ADAPTER_MOUNT_REASONS: &[&Reason] = &[&ADAPTER_SUITS, &ADAPTER_OTHER];
pub(super) const ADAPTER_STEP_REASONS: &[&Reason] = &[&STEP_SUITS, &STEP_OTHER, &SHIMS];

const ADAPTER_MOUNT: Rule = Rule {
    code: "adapter-mount",
    slots: &[BrakeAdapter, Frame],
    inputs: &mount_inputs(BrakeAdapter, Frame),
    reasons: ADAPTER_MOUNT_REASONS,
    judge: |given| adapter_mount(given, Frame),
};

/// The adapter against the mount.
pub(super) fn adapter_mount(given: &Given<'_>, ends: Slot) -> Judged {
    let adapter = given.key(BrakeAdapter, attr::BRAKE_MOUNT);
    let mount = given.key(ends, attr::BRAKE_MOUNT);
    say(if given.accepts(mount?, adapter?) { &ADAPTER_SUITS } else { &ADAPTER_OTHER })
}

/// Inputs of the step of an adapter.
pub(super) const fn step_inputs(ends: Slot) -> [Input; 4] {
    let [rotor, mount, native] = size_inputs(ends);
    [rotor, mount, native, (BrakeAdapter, attr::ROTOR_STEP.attribute())]
}

const ADAPTER_STEP: Rule = Rule {
    code: "adapter-step",
    slots: &[BrakeAdapter, Rotor, Frame],
    inputs: &step_inputs(Frame),
    reasons: ADAPTER_STEP_REASONS,
    judge: |given| adapter_step(given, Frame),
};

/// What the adapter adds against what the rotor needs.
pub(super) fn adapter_step(given: &Given<'_>, ends: Slot) -> Judged {
    let has = given.num(BrakeAdapter, attr::ROTOR_STEP);
    let rotor = given.num(Rotor, attr::ROTOR);
    let native = native(given, ends);
    let (has, rotor, (_, native)) = (has?, rotor?, native?);
    let step = rotor - native;
    let rest = (step - has).over(1_000);
    let reason = if rest.equals(0)? {
        &STEP_SUITS
    } else if rest.equals(3)? {
        &SHIMS
    } else {
        &STEP_OTHER
    };
    Ok(Judgement::from(reason).with("has", has).with("step", step).with("shim", (step - has).over(2)))
}

const CALIPER_SUITS: Reason = Reason::fits("adapter-carries", "the adapter carries this caliper");
const CALIPER_OTHER: Reason =
    Reason::no("adapter-other-caliper", "the adapter is made for another caliper mount")
        .injury()
        .remedies(&ADAPTER);

const ADAPTER_CALIPER: Rule = Rule {
    code: "adapter-caliper",
    slots: &[BrakeAdapter, Brake],
    inputs: &[(BrakeAdapter, attr::CALIPER_MOUNT.attribute()), (Brake, attr::BRAKE_MOUNT.attribute())],
    reasons: &[&CALIPER_SUITS, &CALIPER_OTHER],
    judge: |given| {
        let adapter = given.key(BrakeAdapter, attr::CALIPER_MOUNT);
        let brake = given.key(Brake, attr::BRAKE_MOUNT);
        say(if given.accepts(adapter?, brake?) { &CALIPER_SUITS } else { &CALIPER_OTHER })
    },
};
