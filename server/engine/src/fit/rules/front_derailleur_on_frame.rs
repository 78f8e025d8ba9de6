//! # Front derailleur on frame
//!
//! ## What it checks
//! How the derailleur is fixed, and from where its cable is pulled.
//!
//! ## Why it matters
//! One model is sold in dozens of variants of mount and pull; the wrong one cannot be fixed or cannot be pulled.
//!
//! ## Numbers
//! * Bands for tubes of 28.6, 31.8 and 34.9 mm; a larger band takes a shim, a smaller one never goes on.
//! * Low direct mounts: bolts 42.7 mm apart, 22.1 mm apart, or 22.1 mm with the forward bolt 5 mm off: three parts.
//!
//! ## Exceptions
//! * A braze-on derailleur goes on a bare tube with a band for it; a band derailleur does not go where a tab is.
//! * A pulley turns the cable between bottom and top pull; side pull needs its own stop on the frame.
//! * Electronic derailleurs have no cable.
//! * The chainstay angle (61 to 69 degrees by model) is not judged.
//!
//! ## Sources
//! Front-derailleur guides of shop blogs and a magazine; shims common practice.

use super::known;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Judged, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Frame, FrontDerailleur};
use crate::part::interfaces::FRONT_BRAZE_ON;
use crate::part::word::CableDirection;
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "front-derailleur-on-frame",
    title: "Front derailleur on frame",
    file: include_str!("front_derailleur_on_frame.rs"),
    source: "front-derailleur guides of shop blogs and a magazine",
    rules: &[MOUNT, CABLE],
};

const DERAILLEUR: [Remedy; 1] = [Remedy::replace(
    Kind::FrontDerailleur,
    "the same derailleur with the mount and cable pull of the frame",
)];

const SAME_MOUNT: Reason = Reason::fits("same-mount", "the frame has the mount of the derailleur")
    .note("cage parallel to the ring, about 2 mm above the teeth of the largest ring");
const BAND: Reason = Reason::extra(
    "band-for-braze-on",
    "a braze-on derailleur goes on a bare tube with a band of the tube's diameter",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("derailleur-band"))])],
);
const SHIM: Reason = Reason::extra(
    "shim-in-band",
    "the band is larger than the tube: a shim makes up the difference",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("band-shim"))])],
);
const BAND_TOO_SMALL: Reason =
    Reason::no("band-too-small", "the band is smaller than the tube").geometry().remedies(&DERAILLEUR);
const OTHER_MOUNT: Reason =
    Reason::no("other-mount", "the derailleur is made for another mount").remedies(&DERAILLEUR);
const NO_MOUNT: Reason = Reason::no("no-mount", "the frame takes no front derailleur")
    .remedies(&[Remedy::replace(Kind::Crankset, "a single ring with a wider cassette behind")]);

const MOUNT: Rule = Rule {
    code: "mount",
    slots: &[FrontDerailleur, Frame],
    inputs: &[(FrontDerailleur, attr::FRONT_MOUNT.attribute()), (Frame, attr::FRONT_MOUNT.attribute())],
    reasons: &[&SAME_MOUNT, &BAND, &SHIM, &BAND_TOO_SMALL, &OTHER_MOUNT, &NO_MOUNT],
    judge: mount,
};

fn mount(given: &Given<'_>) -> Judged {
    if given.known_absent(Frame, attr::FRONT_MOUNT) {
        return say(&NO_MOUNT);
    }
    let derailleur = given.key(FrontDerailleur, attr::FRONT_MOUNT);
    let frame = given.key(Frame, attr::FRONT_MOUNT);
    let (derailleur, frame) = (derailleur?, frame?);
    if given.accepts(frame, derailleur) {
        return say(&SAME_MOUNT);
    }
    let derailleur = given.name(derailleur);
    say(match (band_um(derailleur), band_um(given.name(frame))) {
        (Some(band), Some(tube)) if band > tube => &SHIM,
        (Some(_), Some(_)) => &BAND_TOO_SMALL,
        (None, Some(_)) if derailleur == FRONT_BRAZE_ON => &BAND,
        _ => &OTHER_MOUNT,
    })
}

/// Diameter of a band or of the tube that it goes on.
fn band_um(mount: &str) -> Option<i64> {
    match mount {
        "band-28.6" => Some(28_600),
        "band-31.8" => Some(31_800),
        "band-34.9" => Some(34_900),
        _ => None,
    }
}

const SAME_PULL: Reason = Reason::fits("same-pull", "the cable comes from where the derailleur is pulled");
const PULLEY: Reason = Reason::extra(
    "pulley",
    "the cable comes from the other side: a pulley turns it",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("cable-pulley"))])],
)
.remedies(&DERAILLEUR);
const SIDE_PULL: Reason = Reason::no(
    "side-pull",
    "a side-pull derailleur needs its own stop on the frame, and a frame with that stop a side-pull derailleur",
)
.remedies(&DERAILLEUR);

const CABLE: Rule = Rule {
    code: "cable-direction",
    slots: &[FrontDerailleur, Frame],
    inputs: &[
        (FrontDerailleur, attr::FRONT_PULL_FAMILY.attribute()),
        (FrontDerailleur, attr::CABLE_DIRECTION.attribute()),
        (Frame, attr::CABLE_DIRECTION.attribute()),
    ],
    reasons: &[&SAME_PULL, &PULLEY, &SIDE_PULL],
    judge: cable,
};

fn cable(given: &Given<'_>) -> Judged {
    let family = known::name(given, FrontDerailleur, attr::FRONT_PULL_FAMILY);
    if family.is_some_and(|name| name.starts_with("electronic")) {
        return Err(Stop::Silent);
    }
    let derailleur = given.word(FrontDerailleur, attr::CABLE_DIRECTION);
    let frame = given.word(Frame, attr::CABLE_DIRECTION);
    say(match (derailleur?, frame?) {
        (derailleur, frame) if derailleur == frame => &SAME_PULL,
        (CableDirection::Side, _) | (_, CableDirection::Side) => &SIDE_PULL,
        (CableDirection::Dual, _) | (_, CableDirection::Dual) => &SAME_PULL,
        _ => &PULLEY,
    })
}
