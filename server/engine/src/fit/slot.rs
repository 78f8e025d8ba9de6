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
    /// A fork.
    Fork,
    /// A hub, with or without internal gears.
    AnyHub,
    /// A rim.
    Rim,
    /// A tyre.
    Tyre,
    /// A tube.
    Tube,
    /// A thru-axle, skewer or nutted axle.
    Axle,
    /// End caps of a hub.
    EndCaps,
    /// A brake rotor.
    Rotor,
    /// A brake at the wheel: disc caliper or rim brake.
    Brake,
    /// A brake lever.
    BrakeLever,
    /// A bracket between mount and caliper.
    BrakeAdapter,
    /// A pair of pads.
    BrakePads,
    /// A bottom bracket.
    BottomBracket,
    /// A front shifter.
    FrontShifter,
    /// A second ring beside the first.
    OtherRing,
    /// Pedals.
    Pedal,
    /// A gear-hub shifter.
    GearHubShifter,
    /// A motor kit.
    Motor,
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
            Self::Fork => "fork",
            Self::AnyHub => "any_hub",
            Self::Rim => "rim",
            Self::Tyre => "tyre",
            Self::Tube => "tube",
            Self::Axle => "axle",
            Self::EndCaps => "end_caps",
            Self::Rotor => "rotor",
            Self::Brake => "brake",
            Self::BrakeLever => "brake_lever",
            Self::BrakeAdapter => "brake_adapter",
            Self::BrakePads => "brake_pads",
            Self::BottomBracket => "bottom_bracket",
            Self::FrontShifter => "front_shifter",
            Self::OtherRing => "other_ring",
            Self::Pedal => "pedals",
            Self::GearHubShifter => "gear_hub_shifter",
            Self::Motor => "motor",
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
            Self::Fork => &[Kind::Fork],
            Self::AnyHub => &[Kind::Hub, Kind::GearHub],
            Self::Rim => &[Kind::Rim],
            Self::Tyre => &[Kind::Tyre],
            Self::Tube => &[Kind::Tube],
            Self::Axle => &[Kind::Axle],
            Self::EndCaps => &[Kind::EndCaps],
            Self::Rotor => &[Kind::Rotor],
            Self::Brake => &[Kind::BrakeCaliper],
            Self::BrakeLever => &[Kind::BrakeLever],
            Self::BrakeAdapter => &[Kind::BrakeAdapter],
            Self::BrakePads => &[Kind::BrakePads],
            Self::BottomBracket => &[Kind::BottomBracket],
            Self::FrontShifter => &[Kind::FrontShifter],
            Self::OtherRing => &[Kind::Chainring],
            Self::Pedal => &[Kind::Pedal],
            Self::GearHubShifter => &[Kind::GearHubShifter],
            Self::Motor => &[Kind::Motor],
        }
    }
}
