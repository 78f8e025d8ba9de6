//! # Gear hub
//!
//! ## What it checks
//! The ratio of ring to sprocket against the least that the hub maker allows, the sprocket on the driver, the shifter,
//! and a back-pedal brake beside a derailleur.
//!
//! ## Why it matters
//! A small ring with a large sprocket multiplies the torque in the gearbox beyond what it is made for. Wheel size plays no
//! part in it: a small wheel only tempts to gear down further.
//!
//! ## Numbers
//! * Primary ratio = ring / sprocket, at least the maker's: 1.9 was reported for an 11-speed and 2.35 for a 14-speed hub
//!   in 2011; newer lists may allow less, with a limit on the rider's mass.
//! * 32 / 18 is 1.78 and 32 / 24 is 1.33: both below 1.9. 38 / 13 is 2.92, above 2.35.
//!
//! ## Exceptions
//! * Several rings: the smallest decides.
//! * Shifters go by label: hub family and number of gears. A derailleur shifter never works a gear hub; beside a hub
//!   whose driver carries a cassette it works the derailleur.
//!
//! ## Sources
//! A gear-hub user group's message of 2011; newer limits from memory; back-pedal brake common practice.

use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{GearHub, GearHubShifter, RearDerailleur, RearShifter, Rings, Sprocket};
use crate::part::interfaces::LUG_3;
use crate::part::units::Permille;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "gear-hub",
    title: "Gear hub",
    file: include_str!("gear_hub.rs"),
    source: "a gear-hub user group's message of 2011; makers' tables",
    rules: &[PRIMARY, DRIVER, LABEL, POSITIONS, DERAILLEUR_SHIFTER, BACK_PEDAL],
};

// Least primary ratio.

const ENOUGH: Reason =
    Reason::fits("enough", "ring and sprocket give the least primary ratio or more").limit();
const TOO_LOW: Reason = Reason::no(
    "too-low",
    "ring and sprocket give a primary ratio of {ratio}, the hub maker allows {limit} at least: too much torque for the gearbox",
)
.limit()
.damage()
.remedies(&[
    Remedy::replace(Kind::Sprocket, "a smaller sprocket"),
    Remedy::replace(Kind::Chainring, "a larger ring"),
]);

const PRIMARY: Rule = Rule {
    code: "primary-ratio",
    slots: &[Rings, Sprocket, GearHub],
    inputs: &[
        (Rings, attr::SMALLEST_RING.attribute()),
        (Sprocket, attr::TEETH.attribute()),
        (GearHub, attr::MIN_PRIMARY_RATIO.attribute()),
    ],
    reasons: &[&ENOUGH, &TOO_LOW],
    judge: primary,
};

fn primary(given: &Given<'_>) -> Judged {
    let ring = given.num(Rings, attr::SMALLEST_RING);
    let sprocket = given.num(Sprocket, attr::TEETH);
    let limit = given.num(GearHub, attr::MIN_PRIMARY_RATIO);
    let (ring, sprocket, limit) = (ring?, sprocket?, limit?);
    // Integers only: 1000 x ring against limit x sprocket.
    let need: Num<Permille> = Num::between(limit.low * sprocket.low, limit.high * sprocket.high);
    let have: Num<Permille> = ring.times(1_000).counted_as();
    let reason = if (have - need).at_least(0)? { &ENOUGH } else { &TOO_LOW };
    let ratio: Num<Permille> = Num::between(have.low / sprocket.high.max(1), have.high / sprocket.low.max(1));
    Ok(Judgement::from(reason).with("ratio", ratio).with("limit", limit))
}

// Sprocket on driver.

const ON_DRIVER: Reason = Reason::fits("on-driver", "the sprocket is made for the driver of the hub");
const OTHER_DRIVER: Reason = Reason::no("other-driver", "the sprocket is made for another driver")
    .damage()
    .remedies(&[Remedy::replace(Kind::Sprocket, "a sprocket for the driver of the hub")]);

const DRIVER: Rule = Rule {
    code: "driver",
    slots: &[Sprocket, GearHub],
    inputs: &[(Sprocket, attr::MOUNT_FAMILY.attribute()), (GearHub, attr::MOUNT_FAMILY.attribute())],
    reasons: &[&ON_DRIVER, &OTHER_DRIVER],
    judge: |given| {
        if given.known_absent(Sprocket, attr::MOUNT_FAMILY) {
            return say(&OTHER_DRIVER);
        }
        let sprocket = given.key(Sprocket, attr::MOUNT_FAMILY);
        let hub = given.key(GearHub, attr::MOUNT_FAMILY);
        say(if given.accepts(hub?, sprocket?) { &ON_DRIVER } else { &OTHER_DRIVER })
    },
};

// Shifter.

const SHIFTER: [Remedy; 1] =
    [Remedy::replace(Kind::GearHubShifter, "the shifter that the hub maker lists for this very hub")];

const SAME_LABEL: Reason = Reason::fits("same-label", "the shifter is made for this hub")
    .note("set the cable by the marks on hub and shifter, not by feel");
const OTHER_LABEL: Reason =
    Reason::no("other-label", "the shifter is made for another hub: its clicks do not match")
        .remedies(&SHIFTER);

const LABEL: Rule = Rule {
    code: "shifter",
    slots: &[GearHubShifter, GearHub],
    inputs: &[
        (GearHubShifter, attr::GEAR_HUB_SHIFTER.attribute()),
        (GearHub, attr::GEAR_HUB_SHIFTER.attribute()),
    ],
    reasons: &[&SAME_LABEL, &OTHER_LABEL],
    judge: |given| {
        let shifter = given.free_key(GearHubShifter, attr::GEAR_HUB_SHIFTER);
        let hub = given.free_key(GearHub, attr::GEAR_HUB_SHIFTER);
        say(if shifter? == hub? { &SAME_LABEL } else { &OTHER_LABEL })
    },
};

const OTHER_NUMBER: Reason =
    Reason::no("other-number", "the shifter has {positions} gears, the hub {gears}").remedies(&SHIFTER);

const POSITIONS: Rule = Rule {
    code: "shifter-positions",
    slots: &[GearHubShifter, GearHub],
    inputs: &[(GearHubShifter, attr::POSITIONS.attribute()), (GearHub, attr::GEAR_COUNT.attribute())],
    reasons: &[&OTHER_NUMBER],
    // The label decides; a wrong number is told where both are known.
    judge: |given| {
        let positions = given.known(GearHubShifter, attr::POSITIONS).ok_or(Stop::Silent)?;
        let gears = given.known(GearHub, attr::GEAR_COUNT).ok_or(Stop::Silent)?;
        if (positions - gears).equals(0)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&OTHER_NUMBER).with("positions", positions).with("gears", gears))
    },
};

const NOT_A_HUB_SHIFTER: Reason =
    Reason::no("derailleur-shifter", "a derailleur shifter never works a gear hub").remedies(&SHIFTER);

const DERAILLEUR_SHIFTER: Rule = Rule {
    code: "derailleur-shifter",
    slots: &[RearShifter, GearHub],
    inputs: &[(GearHub, attr::MOUNT_FAMILY.attribute())],
    reasons: &[&NOT_A_HUB_SHIFTER],
    // A driver with splines may carry a cassette, which the shifter then works.
    judge: |given| {
        let driver = given.key(GearHub, attr::MOUNT_FAMILY)?;
        if given.name(driver) == LUG_3 { say(&NOT_A_HUB_SHIFTER) } else { Err(Stop::Silent) }
    },
};

// Back-pedal brake.

const CHAIN_REVERSES: Reason = Reason::no(
    "back-pedal-with-derailleur",
    "back-pedalling pulls the lower run of the chain: a derailleur or tensioner gives way, and the brake fails",
)
.injury()
.remedies(&[Remedy::act("no-derailleur", "the chain tensioned in the dropouts, without derailleur or tensioner")]);

const BACK_PEDAL: Rule = Rule {
    code: "back-pedal-brake",
    slots: &[GearHub, RearDerailleur],
    inputs: &[(GearHub, attr::BACK_PEDAL_BRAKE.attribute())],
    reasons: &[&CHAIN_REVERSES],
    judge: |given| {
        if given.flag(GearHub, attr::BACK_PEDAL_BRAKE)? { say(&CHAIN_REVERSES) } else { Err(Stop::Silent) }
    },
};
