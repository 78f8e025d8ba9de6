//! Slots: the places of a rule that parts of a build fill.

use crate::part::Kind;

/// A place in a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slot {
    /// A cassette.
    Cassette,
    /// A screw-on freewheel.
    Freewheel,
    /// A single sprocket.
    Sprocket,
    /// A cassette or a freewheel: cogs under a derailleur.
    Cogs,
    /// A freehub body.
    Body,
    /// A hub without internal gears.
    Hub,
    /// A cassette lockring.
    Lockring,
    /// A chain.
    Chain,
    /// A quick link.
    QuickLink,
    /// A rear derailleur.
    RearDerailleur,
    /// A rear shifter.
    RearShifter,
    /// One ring.
    Ring,
    /// All rings of the bike together: their number, the largest and the smallest.
    Rings,
    /// A crankset.
    Crankset,
    /// A frame.
    Frame,
    /// A replacement hanger.
    Hanger,
    /// A hanger extender.
    Extender,
    /// A front derailleur.
    FrontDerailleur,
    /// A gear hub.
    GearHub,
    /// How the bike is used.
    Use,
}

impl Slot {
    /// Name, as placeholders of texts use it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cassette => "cassette",
            Self::Freewheel => "freewheel",
            Self::Sprocket => "sprocket",
            Self::Cogs => "cogs",
            Self::Body => "freehub_body",
            Self::Hub => "hub",
            Self::Lockring => "lockring",
            Self::Chain => "chain",
            Self::QuickLink => "quick_link",
            Self::RearDerailleur => "rear_derailleur",
            Self::RearShifter => "rear_shifter",
            Self::Ring => "chainring",
            Self::Rings => "rings",
            Self::Crankset => "crankset",
            Self::Frame => "frame",
            Self::Hanger => "hanger",
            Self::Extender => "hanger_extender",
            Self::FrontDerailleur => "front_derailleur",
            Self::GearHub => "gear_hub",
            Self::Use => "use",
        }
    }

    /// The kinds that fill it.
    pub const fn kinds(self) -> &'static [Kind] {
        match self {
            Self::Cassette => &[Kind::Cassette],
            Self::Freewheel => &[Kind::Freewheel],
            Self::Sprocket => &[Kind::Sprocket],
            Self::Cogs => &[Kind::Cassette, Kind::Freewheel],
            Self::Body => &[Kind::FreehubBody],
            Self::Hub => &[Kind::Hub],
            Self::Lockring => &[Kind::Lockring],
            Self::Chain => &[Kind::Chain],
            Self::QuickLink => &[Kind::QuickLink],
            Self::RearDerailleur => &[Kind::RearDerailleur],
            Self::RearShifter => &[Kind::RearShifter],
            Self::Ring => &[Kind::Chainring],
            Self::Rings | Self::Crankset => &[Kind::Crankset],
            Self::Frame => &[Kind::Frame],
            Self::Hanger => &[Kind::Hanger],
            Self::Extender => &[Kind::HangerExtender],
            Self::FrontDerailleur => &[Kind::FrontDerailleur],
            Self::GearHub => &[Kind::GearHub],
            Self::Use => &[Kind::Use],
        }
    }
}
