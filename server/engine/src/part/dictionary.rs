//! Kinds, attributes, words, ranges and questions.
//!
//! Generated from proto/sprag/v1 by sprag-codegen; do not edit.

#![allow(clippy::too_many_lines)]

use crate::part::spec::{AttributeSpec, Child, Form, KindSpec, Unit};

/// What the trade calls a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
pub enum Kind {
    /// Cassette.
    Cassette,
    /// Freewheel.
    Freewheel,
    /// Sprocket.
    Sprocket,
    /// Freehub body.
    FreehubBody,
    /// Hub.
    Hub,
    /// Cassette spacer.
    Spacer,
    /// Cassette lockring.
    Lockring,
    /// Chain.
    Chain,
    /// Quick link.
    QuickLink,
    /// Rear derailleur.
    RearDerailleur,
    /// Rear shifter.
    RearShifter,
    /// Hanger extender.
    HangerExtender,
    /// Derailleur hanger.
    Hanger,
    /// Derailleur link plate.
    DerailleurLink,
    /// Cable-pull converter.
    CablePullConverter,
    /// Chain guide.
    ChainGuide,
    /// Chainring.
    Chainring,
    /// Crankset.
    Crankset,
    /// Bottom bracket.
    BottomBracket,
    /// Front derailleur.
    FrontDerailleur,
    /// Front shifter.
    FrontShifter,
    /// Pedals.
    Pedal,
    /// Frame.
    Frame,
    /// Fork.
    Fork,
    /// Rim.
    Rim,
    /// Tyre.
    Tyre,
    /// Tube.
    Tube,
    /// Axle.
    Axle,
    /// End caps.
    EndCaps,
    /// Gear hub.
    GearHub,
    /// Gear-hub shifter.
    GearHubShifter,
    /// Brake rotor.
    Rotor,
    /// Brake.
    BrakeCaliper,
    /// Brake lever.
    BrakeLever,
    /// Brake adapter.
    BrakeAdapter,
    /// Brake pads.
    BrakePads,
    /// Motor.
    Motor,
    /// Drive belt.
    Belt,
    /// Accessory.
    Accessory,
    /// Wheel.
    Wheel,
    /// Brake-shift lever.
    BrakeShiftLever,
    /// Fitting.
    Fitting,
    /// Use.
    Use,
}

/// A stated or measured property of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u16)]
pub enum Attribute {
    /// How long is the crank?
    ArmLength,
    /// Up to which speed does the motor help?
    AssistLimit,
    /// Which axle does the hub have?
    Axle,
    /// How long is the axle?
    AxleLength,
    /// Which gap between upper pulley and largest cog does the maker ask for?
    BGap,
    /// Does the hub have a back-pedal brake?
    BackPedalBrake,
    /// Which bead seat diameter has the tyre?
    BeadSeat,
    /// How far is the non-drive bearing of the shell moved outwards?
    BearingOffset,
    /// How long is the body from its shoulder to the outer end of the splines?
    BodyLength,
    /// Are the splines steel, titanium, light alloy, or light alloy with a steel insert?
    BodyMaterial,
    /// Does it work a cable or fluid?
    BrakeActuation,
    /// For which mount is the adapter?
    BrakeMount,
    /// How far is it from the brake bolt to the middle of the rim's brake track at the front?
    BrakeReach,
    /// Does the rim have a brake track?
    BrakeTrack,
    /// From where does the front derailleur cable come?
    CableDirection,
    /// How much cable does one click pull, on average?
    CablePull,
    /// How much cable does the lever pull in all?
    CableTravel,
    /// Is the cage short, medium or long?
    Cage,
    /// For which caliper mount is the adapter?
    CaliperMount,
    /// What is the total capacity of the derailleur, in teeth?
    Capacity,
    /// For which chain speed are the cogs spaced?
    ChainClass,
    /// How far does the rear axle move away from the bottom bracket over the travel?
    ChainGrowth,
    /// Which chain profile does the link match?
    ChainProfile,
    /// For how many cogs is the quick link made?
    ChainSpeed,
    /// What is the chainline of the crankset?
    Chainline,
    /// How long is the chainstay, bracket centre to axle centre?
    Chainstay,
    /// Does the derailleur have a clutch?
    Clutch,
    /// How many cogs are on the rear wheel?
    CogCount,
    /// Are the cogs loose, on carriers, or one piece?
    CogFixing,
    /// For which cog pitch are the clicks cut?
    CogPitch,
    /// How thick is it?
    CogThickness,
    /// Which cogs does it have, smallest first?
    Cogs,
    /// Which second ratio does the two-speed crank have?
    CrankRatio,
    /// Is the drive-side thread left- or right-hand?
    CupThreadHand,
    /// Have cogs of the original set been left out?
    CutDown,
    /// Has the chain already been cut to length?
    CutToLength,
    /// For how many rear cogs is it made?
    DeclaredSpeeds,
    /// How does the derailleur mount: M10 bolt, direct mount, or around the axle?
    DerailleurMount,
    /// How far does the extender lower the derailleur?
    Drop,
    /// How wide is the fork between the dropouts?
    DropoutWidth,
    /// Is the tyre rated for e-bikes?
    EBikeRated,
    /// Does the hub maker list end caps for the axle of this frame or fork?
    EndCaps,
    /// Which factor does the converter have?
    Factor,
    /// What kind of fitting is it?
    Fitting,
    /// Is it a fixed cog, without a freewheel?
    Fixed,
    /// Is there a smaller, left-hand thread outside the freewheel thread?
    FixedStep,
    /// Which fluid does the lever use?
    Fluid,
    /// Which maker's oil is prescribed?
    FluidMaker,
    /// Of what is the rear of the frame?
    FrameMaterial,
    /// Is it a friction shifter, without clicks?
    Friction,
    /// Which largest ring difference does it allow?
    FrontCapacity,
    /// How is a front derailleur fixed to the frame?
    FrontMount,
    /// For how many rings is the front shifter?
    FrontPositions,
    /// Which pull group does the front shifter belong to?
    FrontPullFamily,
    /// How many gears has the hub?
    GearCount,
    /// For which hub is the shifter?
    GearHubShifter,
    /// Is it a slant parallelogram, a horizontal one with offset pulley for single rings, or mounted coaxially?
    Geometry,
    /// Are the spline grooves cut normal or deep?
    GrooveDepth,
    /// Which derailleur hanger does the frame have?
    Hanger,
    /// Which hanger number does the frame maker give?
    HangerId,
    /// Is the hanger a separate, bolted part?
    HangerReplaceable,
    /// For which hub are the caps made?
    HubInterface,
    /// Does a motor drive the hub?
    HubMotor,
    /// Which internal ratios has the hub?
    HubRatios,
    /// Does the hub have a thread for a screw-on freewheel, and which?
    HubThread,
    /// Does the crank have a second, smaller bolt circle, and which?
    InnerRingMount,
    /// How wide is the rim inside?
    InnerWidth,
    /// Is the link labelled for 6, 7 or 8 speeds?
    Labelled678,
    /// How many teeth has the largest cog?
    LargestCog,
    /// How many teeth has the largest ring?
    LargestRing,
    /// Which cable pull has the lever?
    LeverPull,
    /// Are the largest cogs of light alloy?
    LightAlloyCogs,
    /// Does it have limit screws?
    LimitScrews,
    /// How many links has the chain, counting inner and outer ones singly?
    LinkCount,
    /// Is the removable link plate fitted?
    LinkFitted,
    /// How far is it from the drive-side locknut to the smallest cog?
    LocknutToCog,
    /// For which smallest cog is the lockring made?
    LockringSize,
    /// Which thread does the lockring have?
    LockringThread,
    /// What does it weigh?
    Mass,
    /// Which largest bead seat diameter is on the tube's box?
    MaxBeadSeat,
    /// Which largest cog does the derailleur allow?
    MaxCog,
    /// Which largest ring difference does the derailleur allow?
    MaxFrontDifference,
    /// Which largest outer ring clears the frame?
    MaxOuterRing,
    /// Which highest pressure is on the sidewall?
    MaxPressure,
    /// Which longest reach has the rim brake?
    MaxReach,
    /// Which largest outer ring does it take?
    MaxRing,
    /// Which largest rotor does the fork maker allow?
    MaxRotor,
    /// Which largest single ring clears the frame?
    MaxSingleRing,
    /// Which widest tyre is on the tube's box?
    MaxTyre,
    /// Does a motor drive the cranks?
    MidMotor,
    /// Which smallest bead seat diameter is on the tube's box?
    MinBeadSeat,
    /// Which smallest cog does the derailleur allow?
    MinCog,
    /// What is the smallest largest cog that the derailleur allows?
    MinLargestCog,
    /// Which smallest outer ring does the cage suit?
    MinOuterRing,
    /// Which lowest pressure is on the sidewall?
    MinPressure,
    /// Which least primary ratio does the hub maker allow?
    MinPrimaryRatio,
    /// Which shortest reach has the rim brake?
    MinReach,
    /// Which least difference of outer and middle ring does it need?
    MinRingStep,
    /// Which narrowest tyre is on the tube's box?
    MinTyre,
    /// Does the motor drive the cranks or a hub?
    MotorPlace,
    /// Does the frame carry a motor at the cranks, and which spindle has it?
    MotorSpindle,
    /// Which torque has the motor?
    MotorTorque,
    /// Which driver does the hub have?
    MountFamily,
    /// Can one stroke of the lever move several cogs?
    MultiShift,
    /// Which rotor does the mount take without an adapter?
    NativeRotor,
    /// How wide is the chain over the pins?
    OuterWidth,
    /// Is the original outermost cog, the one with the serrations, still there?
    OutermostCogKept,
    /// How wide is the hub over the locknuts?
    OverLocknut,
    /// Which compound are the pads?
    PadCompound,
    /// Which shape have the pads?
    PadShape,
    /// Which thread has the pedal axle?
    PedalThread,
    /// How many gears does the shifter have?
    Positions,
    /// Which cable-pull group or protocol does the shifter belong to?
    PullFamily,
    /// How many teeth have the pulleys?
    PulleyTeeth,
    /// For which body length is the cassette made?
    RequiredLength,
    /// Is the rotor marked for resin pads only?
    ResinOnly,
    /// May the link be used again?
    Reusable,
    /// Does the spring pull towards the large cogs?
    ReversedSpring,
    /// Does it brake on the rim?
    RimBrake,
    /// How deep is the rim?
    RimDepth,
    /// Of what is the brake track?
    RimMaterial,
    /// Is the rim hooked, straight-side, or for tubular tyres?
    RimSystem,
    /// For how many rings is it made?
    RingCount,
    /// Which ring pattern does the motor carry?
    RingMount,
    /// Which offset has the ring?
    RingOffset,
    /// Is it a single, outer, middle or inner ring?
    RingPosition,
    /// Which chain profiles does the ring take?
    RingProfile,
    /// For how many rear cogs is the ring made?
    RingSpeedClass,
    /// Which rings does it have, largest first?
    Rings,
    /// Which diameter has the rotor?
    Rotor,
    /// Is it a six-bolt or a splined rotor?
    RotorMount,
    /// By how much does it enlarge the rotor?
    RotorStep,
    /// For which rotor thickness is the caliper made?
    RotorThickness,
    /// Is the bike ridden on rough ground?
    RoughGround,
    /// Which bottom-bracket shell does the frame have?
    Shell,
    /// How wide is the bottom-bracket shell?
    ShellWidth,
    /// How far does the derailleur move per millimetre of cable?
    ShiftRatio,
    /// How many teeth has the smallest cog?
    SmallestCog,
    /// Which smallest ring clears the motor?
    SmallestRing,
    /// Which spindle does it carry or take?
    Spindle,
    /// How long is its spindle?
    SpindleLength,
    /// How many spoke holes has the rim?
    SpokeCount,
    /// Does the tyre maker approve straight-side (hookless) rims?
    StraightSideApproved,
    /// Does the tyre have studs?
    Studded,
    /// What do bike, rider and load weigh together?
    SystemMass,
    /// Is it a tandem?
    Tandem,
    /// How many teeth has the ring?
    Teeth,
    /// How thick is the fitting?
    Thickness,
    /// Which thread pitch has the axle?
    ThruAxlePitch,
    /// Are the teeth plain, ramped, narrow-wide, or thick?
    ToothProfile,
    /// How thick are the teeth?
    ToothThickness,
    /// Which torque is printed on the lockring?
    Torque,
    /// Is the rim tubeless-ready?
    TubelessReady,
    /// Is the tyre wired-on for a tube, tubeless-ready, tubular, or solid?
    TyreSystem,
    /// Which nominal width has the tyre?
    TyreWidth,
    /// Is the universal hanger fitted?
    UniversalHangerFitted,
    /// Has the link been closed before?
    Used,
    /// Which valve has the tube?
    Valve,
    /// How wide is the valve hole?
    ValveHole,
    /// How long is the valve?
    ValveLength,
    /// Is the rear end made for the wide-flange hub of its width?
    WideFlange,
    /// Does the hub maker list a kit of caps and rotor spacer for the wider dropouts?
    WideningKit,
    /// Is the tyre to be ridden without a tube?
    WithoutTube,
    /// Is the chain worn?
    Worn,
}

/// Every attribute.
pub const ATTRIBUTES: &[Attribute] = &[
    Attribute::ArmLength,
    Attribute::AssistLimit,
    Attribute::Axle,
    Attribute::AxleLength,
    Attribute::BGap,
    Attribute::BackPedalBrake,
    Attribute::BeadSeat,
    Attribute::BearingOffset,
    Attribute::BodyLength,
    Attribute::BodyMaterial,
    Attribute::BrakeActuation,
    Attribute::BrakeMount,
    Attribute::BrakeReach,
    Attribute::BrakeTrack,
    Attribute::CableDirection,
    Attribute::CablePull,
    Attribute::CableTravel,
    Attribute::Cage,
    Attribute::CaliperMount,
    Attribute::Capacity,
    Attribute::ChainClass,
    Attribute::ChainGrowth,
    Attribute::ChainProfile,
    Attribute::ChainSpeed,
    Attribute::Chainline,
    Attribute::Chainstay,
    Attribute::Clutch,
    Attribute::CogCount,
    Attribute::CogFixing,
    Attribute::CogPitch,
    Attribute::CogThickness,
    Attribute::Cogs,
    Attribute::CrankRatio,
    Attribute::CupThreadHand,
    Attribute::CutDown,
    Attribute::CutToLength,
    Attribute::DeclaredSpeeds,
    Attribute::DerailleurMount,
    Attribute::Drop,
    Attribute::DropoutWidth,
    Attribute::EBikeRated,
    Attribute::EndCaps,
    Attribute::Factor,
    Attribute::Fitting,
    Attribute::Fixed,
    Attribute::FixedStep,
    Attribute::Fluid,
    Attribute::FluidMaker,
    Attribute::FrameMaterial,
    Attribute::Friction,
    Attribute::FrontCapacity,
    Attribute::FrontMount,
    Attribute::FrontPositions,
    Attribute::FrontPullFamily,
    Attribute::GearCount,
    Attribute::GearHubShifter,
    Attribute::Geometry,
    Attribute::GrooveDepth,
    Attribute::Hanger,
    Attribute::HangerId,
    Attribute::HangerReplaceable,
    Attribute::HubInterface,
    Attribute::HubMotor,
    Attribute::HubRatios,
    Attribute::HubThread,
    Attribute::InnerRingMount,
    Attribute::InnerWidth,
    Attribute::Labelled678,
    Attribute::LargestCog,
    Attribute::LargestRing,
    Attribute::LeverPull,
    Attribute::LightAlloyCogs,
    Attribute::LimitScrews,
    Attribute::LinkCount,
    Attribute::LinkFitted,
    Attribute::LocknutToCog,
    Attribute::LockringSize,
    Attribute::LockringThread,
    Attribute::Mass,
    Attribute::MaxBeadSeat,
    Attribute::MaxCog,
    Attribute::MaxFrontDifference,
    Attribute::MaxOuterRing,
    Attribute::MaxPressure,
    Attribute::MaxReach,
    Attribute::MaxRing,
    Attribute::MaxRotor,
    Attribute::MaxSingleRing,
    Attribute::MaxTyre,
    Attribute::MidMotor,
    Attribute::MinBeadSeat,
    Attribute::MinCog,
    Attribute::MinLargestCog,
    Attribute::MinOuterRing,
    Attribute::MinPressure,
    Attribute::MinPrimaryRatio,
    Attribute::MinReach,
    Attribute::MinRingStep,
    Attribute::MinTyre,
    Attribute::MotorPlace,
    Attribute::MotorSpindle,
    Attribute::MotorTorque,
    Attribute::MountFamily,
    Attribute::MultiShift,
    Attribute::NativeRotor,
    Attribute::OuterWidth,
    Attribute::OutermostCogKept,
    Attribute::OverLocknut,
    Attribute::PadCompound,
    Attribute::PadShape,
    Attribute::PedalThread,
    Attribute::Positions,
    Attribute::PullFamily,
    Attribute::PulleyTeeth,
    Attribute::RequiredLength,
    Attribute::ResinOnly,
    Attribute::Reusable,
    Attribute::ReversedSpring,
    Attribute::RimBrake,
    Attribute::RimDepth,
    Attribute::RimMaterial,
    Attribute::RimSystem,
    Attribute::RingCount,
    Attribute::RingMount,
    Attribute::RingOffset,
    Attribute::RingPosition,
    Attribute::RingProfile,
    Attribute::RingSpeedClass,
    Attribute::Rings,
    Attribute::Rotor,
    Attribute::RotorMount,
    Attribute::RotorStep,
    Attribute::RotorThickness,
    Attribute::RoughGround,
    Attribute::Shell,
    Attribute::ShellWidth,
    Attribute::ShiftRatio,
    Attribute::SmallestCog,
    Attribute::SmallestRing,
    Attribute::Spindle,
    Attribute::SpindleLength,
    Attribute::SpokeCount,
    Attribute::StraightSideApproved,
    Attribute::Studded,
    Attribute::SystemMass,
    Attribute::Tandem,
    Attribute::Teeth,
    Attribute::Thickness,
    Attribute::ThruAxlePitch,
    Attribute::ToothProfile,
    Attribute::ToothThickness,
    Attribute::Torque,
    Attribute::TubelessReady,
    Attribute::TyreSystem,
    Attribute::TyreWidth,
    Attribute::UniversalHangerFitted,
    Attribute::Used,
    Attribute::Valve,
    Attribute::ValveHole,
    Attribute::ValveLength,
    Attribute::WideFlange,
    Attribute::WideningKit,
    Attribute::WithoutTube,
    Attribute::Worn,
];

impl Attribute {
    /// Name as in files and answers, without its unit.
    pub const fn name(self) -> &'static str {
        match self {
            Self::ArmLength => "arm_length",
            Self::AssistLimit => "assist_limit",
            Self::Axle => "axle",
            Self::AxleLength => "axle_length",
            Self::BGap => "b_gap",
            Self::BackPedalBrake => "back_pedal_brake",
            Self::BeadSeat => "bead_seat",
            Self::BearingOffset => "bearing_offset",
            Self::BodyLength => "body_length",
            Self::BodyMaterial => "body_material",
            Self::BrakeActuation => "brake_actuation",
            Self::BrakeMount => "brake_mount",
            Self::BrakeReach => "brake_reach",
            Self::BrakeTrack => "brake_track",
            Self::CableDirection => "cable_direction",
            Self::CablePull => "cable_pull",
            Self::CableTravel => "cable_travel",
            Self::Cage => "cage",
            Self::CaliperMount => "caliper_mount",
            Self::Capacity => "capacity",
            Self::ChainClass => "chain_class",
            Self::ChainGrowth => "chain_growth",
            Self::ChainProfile => "chain_profile",
            Self::ChainSpeed => "chain_speed",
            Self::Chainline => "chainline",
            Self::Chainstay => "chainstay",
            Self::Clutch => "clutch",
            Self::CogCount => "cog_count",
            Self::CogFixing => "cog_fixing",
            Self::CogPitch => "cog_pitch",
            Self::CogThickness => "cog_thickness",
            Self::Cogs => "cogs",
            Self::CrankRatio => "crank_ratio",
            Self::CupThreadHand => "cup_thread_hand",
            Self::CutDown => "cut_down",
            Self::CutToLength => "cut_to_length",
            Self::DeclaredSpeeds => "declared_speeds",
            Self::DerailleurMount => "derailleur_mount",
            Self::Drop => "drop",
            Self::DropoutWidth => "dropout_width",
            Self::EBikeRated => "e_bike_rated",
            Self::EndCaps => "end_caps",
            Self::Factor => "factor",
            Self::Fitting => "fitting",
            Self::Fixed => "fixed",
            Self::FixedStep => "fixed_step",
            Self::Fluid => "fluid",
            Self::FluidMaker => "fluid_maker",
            Self::FrameMaterial => "frame_material",
            Self::Friction => "friction",
            Self::FrontCapacity => "front_capacity",
            Self::FrontMount => "front_mount",
            Self::FrontPositions => "front_positions",
            Self::FrontPullFamily => "front_pull_family",
            Self::GearCount => "gear_count",
            Self::GearHubShifter => "gear_hub_shifter",
            Self::Geometry => "geometry",
            Self::GrooveDepth => "groove_depth",
            Self::Hanger => "hanger",
            Self::HangerId => "hanger_id",
            Self::HangerReplaceable => "hanger_replaceable",
            Self::HubInterface => "hub_interface",
            Self::HubMotor => "hub_motor",
            Self::HubRatios => "hub_ratios",
            Self::HubThread => "hub_thread",
            Self::InnerRingMount => "inner_ring_mount",
            Self::InnerWidth => "inner_width",
            Self::Labelled678 => "labelled_6_7_8",
            Self::LargestCog => "largest_cog",
            Self::LargestRing => "largest_ring",
            Self::LeverPull => "lever_pull",
            Self::LightAlloyCogs => "light_alloy_cogs",
            Self::LimitScrews => "limit_screws",
            Self::LinkCount => "link_count",
            Self::LinkFitted => "link_fitted",
            Self::LocknutToCog => "locknut_to_cog",
            Self::LockringSize => "lockring_size",
            Self::LockringThread => "lockring_thread",
            Self::Mass => "mass",
            Self::MaxBeadSeat => "max_bead_seat",
            Self::MaxCog => "max_cog",
            Self::MaxFrontDifference => "max_front_difference",
            Self::MaxOuterRing => "max_outer_ring",
            Self::MaxPressure => "max_pressure",
            Self::MaxReach => "max_reach",
            Self::MaxRing => "max_ring",
            Self::MaxRotor => "max_rotor",
            Self::MaxSingleRing => "max_single_ring",
            Self::MaxTyre => "max_tyre",
            Self::MidMotor => "mid_motor",
            Self::MinBeadSeat => "min_bead_seat",
            Self::MinCog => "min_cog",
            Self::MinLargestCog => "min_largest_cog",
            Self::MinOuterRing => "min_outer_ring",
            Self::MinPressure => "min_pressure",
            Self::MinPrimaryRatio => "min_primary_ratio",
            Self::MinReach => "min_reach",
            Self::MinRingStep => "min_ring_step",
            Self::MinTyre => "min_tyre",
            Self::MotorPlace => "motor_place",
            Self::MotorSpindle => "motor_spindle",
            Self::MotorTorque => "motor_torque",
            Self::MountFamily => "mount_family",
            Self::MultiShift => "multi_shift",
            Self::NativeRotor => "native_rotor",
            Self::OuterWidth => "outer_width",
            Self::OutermostCogKept => "outermost_cog_kept",
            Self::OverLocknut => "over_locknut",
            Self::PadCompound => "pad_compound",
            Self::PadShape => "pad_shape",
            Self::PedalThread => "pedal_thread",
            Self::Positions => "positions",
            Self::PullFamily => "pull_family",
            Self::PulleyTeeth => "pulley_teeth",
            Self::RequiredLength => "required_length",
            Self::ResinOnly => "resin_only",
            Self::Reusable => "reusable",
            Self::ReversedSpring => "reversed_spring",
            Self::RimBrake => "rim_brake",
            Self::RimDepth => "rim_depth",
            Self::RimMaterial => "rim_material",
            Self::RimSystem => "rim_system",
            Self::RingCount => "ring_count",
            Self::RingMount => "ring_mount",
            Self::RingOffset => "ring_offset",
            Self::RingPosition => "ring_position",
            Self::RingProfile => "ring_profile",
            Self::RingSpeedClass => "ring_speed_class",
            Self::Rings => "rings",
            Self::Rotor => "rotor",
            Self::RotorMount => "rotor_mount",
            Self::RotorStep => "rotor_step",
            Self::RotorThickness => "rotor_thickness",
            Self::RoughGround => "rough_ground",
            Self::Shell => "shell",
            Self::ShellWidth => "shell_width",
            Self::ShiftRatio => "shift_ratio",
            Self::SmallestCog => "smallest_cog",
            Self::SmallestRing => "smallest_ring",
            Self::Spindle => "spindle",
            Self::SpindleLength => "spindle_length",
            Self::SpokeCount => "spoke_count",
            Self::StraightSideApproved => "straight_side_approved",
            Self::Studded => "studded",
            Self::SystemMass => "system_mass",
            Self::Tandem => "tandem",
            Self::Teeth => "teeth",
            Self::Thickness => "thickness",
            Self::ThruAxlePitch => "thru_axle_pitch",
            Self::ToothProfile => "tooth_profile",
            Self::ToothThickness => "tooth_thickness",
            Self::Torque => "torque",
            Self::TubelessReady => "tubeless_ready",
            Self::TyreSystem => "tyre_system",
            Self::TyreWidth => "tyre_width",
            Self::UniversalHangerFitted => "universal_hanger_fitted",
            Self::Used => "used",
            Self::Valve => "valve",
            Self::ValveHole => "valve_hole",
            Self::ValveLength => "valve_length",
            Self::WideFlange => "wide_flange",
            Self::WideningKit => "widening_kit",
            Self::WithoutTube => "without_tube",
            Self::Worn => "worn",
        }
    }
}

/// Typed handles of the attributes: a rule reads with these and cannot mix units.
pub mod attr {
    use super::{Attribute, word};
    use crate::part::of::{Flag, FreeKey, InterfaceKey, List, Of};
    use crate::part::units::*;

    /// How long is the crank?
    pub const ARM_LENGTH: Of<Micrometres> = Of::new(Attribute::ArmLength);
    /// Up to which speed does the motor help?
    pub const ASSIST_LIMIT: Of<KilometresPerHour> = Of::new(Attribute::AssistLimit);
    /// Which axle does the hub have?
    pub const AXLE: Of<InterfaceKey> = Of::new(Attribute::Axle);
    /// How long is the axle?
    pub const AXLE_LENGTH: Of<Micrometres> = Of::new(Attribute::AxleLength);
    /// Which gap between upper pulley and largest cog does the maker ask for?
    pub const B_GAP: Of<Micrometres> = Of::new(Attribute::BGap);
    /// Does the hub have a back-pedal brake?
    pub const BACK_PEDAL_BRAKE: Of<Flag> = Of::new(Attribute::BackPedalBrake);
    /// Which bead seat diameter has the tyre?
    pub const BEAD_SEAT: Of<Micrometres> = Of::new(Attribute::BeadSeat);
    /// How far is the non-drive bearing of the shell moved outwards?
    pub const BEARING_OFFSET: Of<Micrometres> = Of::new(Attribute::BearingOffset);
    /// How long is the body from its shoulder to the outer end of the splines?
    pub const BODY_LENGTH: Of<Micrometres> = Of::new(Attribute::BodyLength);
    /// Are the splines steel, titanium, light alloy, or light alloy with a steel insert?
    pub const BODY_MATERIAL: Of<word::BodyMaterial> = Of::new(Attribute::BodyMaterial);
    /// Does it work a cable or fluid?
    pub const BRAKE_ACTUATION: Of<word::BrakeActuation> = Of::new(Attribute::BrakeActuation);
    /// For which mount is the adapter?
    pub const BRAKE_MOUNT: Of<InterfaceKey> = Of::new(Attribute::BrakeMount);
    /// How far is it from the brake bolt to the middle of the rim's brake track at the front?
    pub const BRAKE_REACH: Of<Micrometres> = Of::new(Attribute::BrakeReach);
    /// Does the rim have a brake track?
    pub const BRAKE_TRACK: Of<Flag> = Of::new(Attribute::BrakeTrack);
    /// From where does the front derailleur cable come?
    pub const CABLE_DIRECTION: Of<word::CableDirection> = Of::new(Attribute::CableDirection);
    /// How much cable does one click pull, on average?
    pub const CABLE_PULL: Of<Micrometres> = Of::new(Attribute::CablePull);
    /// How much cable does the lever pull in all?
    pub const CABLE_TRAVEL: Of<Micrometres> = Of::new(Attribute::CableTravel);
    /// Is the cage short, medium or long?
    pub const CAGE: Of<word::Cage> = Of::new(Attribute::Cage);
    /// For which caliper mount is the adapter?
    pub const CALIPER_MOUNT: Of<InterfaceKey> = Of::new(Attribute::CaliperMount);
    /// What is the total capacity of the derailleur, in teeth?
    pub const CAPACITY: Of<Teeth> = Of::new(Attribute::Capacity);
    /// For which chain speed are the cogs spaced?
    pub const CHAIN_CLASS: Of<Count> = Of::new(Attribute::ChainClass);
    /// How far does the rear axle move away from the bottom bracket over the travel?
    pub const CHAIN_GROWTH: Of<Micrometres> = Of::new(Attribute::ChainGrowth);
    /// Which chain profile does the link match?
    pub const CHAIN_PROFILE: Of<InterfaceKey> = Of::new(Attribute::ChainProfile);
    /// For how many cogs is the quick link made?
    pub const CHAIN_SPEED: Of<Count> = Of::new(Attribute::ChainSpeed);
    /// What is the chainline of the crankset?
    pub const CHAINLINE: Of<Micrometres> = Of::new(Attribute::Chainline);
    /// How long is the chainstay, bracket centre to axle centre?
    pub const CHAINSTAY: Of<Micrometres> = Of::new(Attribute::Chainstay);
    /// Does the derailleur have a clutch?
    pub const CLUTCH: Of<Flag> = Of::new(Attribute::Clutch);
    /// How many cogs are on the rear wheel?
    pub const COG_COUNT: Of<Count> = Of::new(Attribute::CogCount);
    /// Are the cogs loose, on carriers, or one piece?
    pub const COG_FIXING: Of<word::CogFixing> = Of::new(Attribute::CogFixing);
    /// For which cog pitch are the clicks cut?
    pub const COG_PITCH: Of<Micrometres> = Of::new(Attribute::CogPitch);
    /// How thick is it?
    pub const COG_THICKNESS: Of<Micrometres> = Of::new(Attribute::CogThickness);
    /// Which cogs does it have, smallest first?
    pub const COGS: Of<List> = Of::new(Attribute::Cogs);
    /// Which second ratio does the two-speed crank have?
    pub const CRANK_RATIO: Of<Permille> = Of::new(Attribute::CrankRatio);
    /// Is the drive-side thread left- or right-hand?
    pub const CUP_THREAD_HAND: Of<word::CupThreadHand> = Of::new(Attribute::CupThreadHand);
    /// Have cogs of the original set been left out?
    pub const CUT_DOWN: Of<Flag> = Of::new(Attribute::CutDown);
    /// Has the chain already been cut to length?
    pub const CUT_TO_LENGTH: Of<Flag> = Of::new(Attribute::CutToLength);
    /// For how many rear cogs is it made?
    pub const DECLARED_SPEEDS: Of<Count> = Of::new(Attribute::DeclaredSpeeds);
    /// How does the derailleur mount: M10 bolt, direct mount, or around the axle?
    pub const DERAILLEUR_MOUNT: Of<InterfaceKey> = Of::new(Attribute::DerailleurMount);
    /// How far does the extender lower the derailleur?
    pub const DROP: Of<Micrometres> = Of::new(Attribute::Drop);
    /// How wide is the fork between the dropouts?
    pub const DROPOUT_WIDTH: Of<Micrometres> = Of::new(Attribute::DropoutWidth);
    /// Is the tyre rated for e-bikes?
    pub const E_BIKE_RATED: Of<Flag> = Of::new(Attribute::EBikeRated);
    /// Does the hub maker list end caps for the axle of this frame or fork?
    pub const END_CAPS: Of<Flag> = Of::new(Attribute::EndCaps);
    /// Which factor does the converter have?
    pub const FACTOR: Of<Permille> = Of::new(Attribute::Factor);
    /// What kind of fitting is it?
    pub const FITTING: Of<word::Fitting> = Of::new(Attribute::Fitting);
    /// Is it a fixed cog, without a freewheel?
    pub const FIXED: Of<Flag> = Of::new(Attribute::Fixed);
    /// Is there a smaller, left-hand thread outside the freewheel thread?
    pub const FIXED_STEP: Of<Flag> = Of::new(Attribute::FixedStep);
    /// Which fluid does the lever use?
    pub const FLUID: Of<word::Fluid> = Of::new(Attribute::Fluid);
    /// Which maker's oil is prescribed?
    pub const FLUID_MAKER: Of<FreeKey> = Of::new(Attribute::FluidMaker);
    /// Of what is the rear of the frame?
    pub const FRAME_MATERIAL: Of<word::FrameMaterial> = Of::new(Attribute::FrameMaterial);
    /// Is it a friction shifter, without clicks?
    pub const FRICTION: Of<Flag> = Of::new(Attribute::Friction);
    /// Which largest ring difference does it allow?
    pub const FRONT_CAPACITY: Of<Teeth> = Of::new(Attribute::FrontCapacity);
    /// How is a front derailleur fixed to the frame?
    pub const FRONT_MOUNT: Of<InterfaceKey> = Of::new(Attribute::FrontMount);
    /// For how many rings is the front shifter?
    pub const FRONT_POSITIONS: Of<Count> = Of::new(Attribute::FrontPositions);
    /// Which pull group does the front shifter belong to?
    pub const FRONT_PULL_FAMILY: Of<InterfaceKey> = Of::new(Attribute::FrontPullFamily);
    /// How many gears has the hub?
    pub const GEAR_COUNT: Of<Count> = Of::new(Attribute::GearCount);
    /// For which hub is the shifter?
    pub const GEAR_HUB_SHIFTER: Of<FreeKey> = Of::new(Attribute::GearHubShifter);
    /// Is it a slant parallelogram, a horizontal one with offset pulley for single rings, or mounted coaxially?
    pub const GEOMETRY: Of<word::Geometry> = Of::new(Attribute::Geometry);
    /// Are the spline grooves cut normal or deep?
    pub const GROOVE_DEPTH: Of<word::GrooveDepth> = Of::new(Attribute::GrooveDepth);
    /// Which derailleur hanger does the frame have?
    pub const HANGER: Of<InterfaceKey> = Of::new(Attribute::Hanger);
    /// Which hanger number does the frame maker give?
    pub const HANGER_ID: Of<FreeKey> = Of::new(Attribute::HangerId);
    /// Is the hanger a separate, bolted part?
    pub const HANGER_REPLACEABLE: Of<Flag> = Of::new(Attribute::HangerReplaceable);
    /// For which hub are the caps made?
    pub const HUB_INTERFACE: Of<FreeKey> = Of::new(Attribute::HubInterface);
    /// Does a motor drive the hub?
    pub const HUB_MOTOR: Of<Flag> = Of::new(Attribute::HubMotor);
    /// Which internal ratios has the hub?
    pub const HUB_RATIOS: Of<List> = Of::new(Attribute::HubRatios);
    /// Does the hub have a thread for a screw-on freewheel, and which?
    pub const HUB_THREAD: Of<InterfaceKey> = Of::new(Attribute::HubThread);
    /// Does the crank have a second, smaller bolt circle, and which?
    pub const INNER_RING_MOUNT: Of<InterfaceKey> = Of::new(Attribute::InnerRingMount);
    /// How wide is the rim inside?
    pub const INNER_WIDTH: Of<Micrometres> = Of::new(Attribute::InnerWidth);
    /// Is the link labelled for 6, 7 or 8 speeds?
    pub const LABELLED_6_7_8: Of<Flag> = Of::new(Attribute::Labelled678);
    /// How many teeth has the largest cog?
    pub const LARGEST_COG: Of<Teeth> = Of::new(Attribute::LargestCog);
    /// How many teeth has the largest ring?
    pub const LARGEST_RING: Of<Teeth> = Of::new(Attribute::LargestRing);
    /// Which cable pull has the lever?
    pub const LEVER_PULL: Of<word::LeverPull> = Of::new(Attribute::LeverPull);
    /// Are the largest cogs of light alloy?
    pub const LIGHT_ALLOY_COGS: Of<Flag> = Of::new(Attribute::LightAlloyCogs);
    /// Does it have limit screws?
    pub const LIMIT_SCREWS: Of<Flag> = Of::new(Attribute::LimitScrews);
    /// How many links has the chain, counting inner and outer ones singly?
    pub const LINK_COUNT: Of<Links> = Of::new(Attribute::LinkCount);
    /// Is the removable link plate fitted?
    pub const LINK_FITTED: Of<Flag> = Of::new(Attribute::LinkFitted);
    /// How far is it from the drive-side locknut to the smallest cog?
    pub const LOCKNUT_TO_COG: Of<Micrometres> = Of::new(Attribute::LocknutToCog);
    /// For which smallest cog is the lockring made?
    pub const LOCKRING_SIZE: Of<word::LockringSize> = Of::new(Attribute::LockringSize);
    /// Which thread does the lockring have?
    pub const LOCKRING_THREAD: Of<InterfaceKey> = Of::new(Attribute::LockringThread);
    /// What does it weigh?
    pub const MASS: Of<Grams> = Of::new(Attribute::Mass);
    /// Which largest bead seat diameter is on the tube's box?
    pub const MAX_BEAD_SEAT: Of<Micrometres> = Of::new(Attribute::MaxBeadSeat);
    /// Which largest cog does the derailleur allow?
    pub const MAX_COG: Of<Teeth> = Of::new(Attribute::MaxCog);
    /// Which largest ring difference does the derailleur allow?
    pub const MAX_FRONT_DIFFERENCE: Of<Teeth> = Of::new(Attribute::MaxFrontDifference);
    /// Which largest outer ring clears the frame?
    pub const MAX_OUTER_RING: Of<Teeth> = Of::new(Attribute::MaxOuterRing);
    /// Which highest pressure is on the sidewall?
    pub const MAX_PRESSURE: Of<Kilopascals> = Of::new(Attribute::MaxPressure);
    /// Which longest reach has the rim brake?
    pub const MAX_REACH: Of<Micrometres> = Of::new(Attribute::MaxReach);
    /// Which largest outer ring does it take?
    pub const MAX_RING: Of<Teeth> = Of::new(Attribute::MaxRing);
    /// Which largest rotor does the fork maker allow?
    pub const MAX_ROTOR: Of<Micrometres> = Of::new(Attribute::MaxRotor);
    /// Which largest single ring clears the frame?
    pub const MAX_SINGLE_RING: Of<Teeth> = Of::new(Attribute::MaxSingleRing);
    /// Which widest tyre is on the tube's box?
    pub const MAX_TYRE: Of<Micrometres> = Of::new(Attribute::MaxTyre);
    /// Does a motor drive the cranks?
    pub const MID_MOTOR: Of<Flag> = Of::new(Attribute::MidMotor);
    /// Which smallest bead seat diameter is on the tube's box?
    pub const MIN_BEAD_SEAT: Of<Micrometres> = Of::new(Attribute::MinBeadSeat);
    /// Which smallest cog does the derailleur allow?
    pub const MIN_COG: Of<Teeth> = Of::new(Attribute::MinCog);
    /// What is the smallest largest cog that the derailleur allows?
    pub const MIN_LARGEST_COG: Of<Teeth> = Of::new(Attribute::MinLargestCog);
    /// Which smallest outer ring does the cage suit?
    pub const MIN_OUTER_RING: Of<Teeth> = Of::new(Attribute::MinOuterRing);
    /// Which lowest pressure is on the sidewall?
    pub const MIN_PRESSURE: Of<Kilopascals> = Of::new(Attribute::MinPressure);
    /// Which least primary ratio does the hub maker allow?
    pub const MIN_PRIMARY_RATIO: Of<Permille> = Of::new(Attribute::MinPrimaryRatio);
    /// Which shortest reach has the rim brake?
    pub const MIN_REACH: Of<Micrometres> = Of::new(Attribute::MinReach);
    /// Which least difference of outer and middle ring does it need?
    pub const MIN_RING_STEP: Of<Teeth> = Of::new(Attribute::MinRingStep);
    /// Which narrowest tyre is on the tube's box?
    pub const MIN_TYRE: Of<Micrometres> = Of::new(Attribute::MinTyre);
    /// Does the motor drive the cranks or a hub?
    pub const MOTOR_PLACE: Of<word::MotorPlace> = Of::new(Attribute::MotorPlace);
    /// Does the frame carry a motor at the cranks, and which spindle has it?
    pub const MOTOR_SPINDLE: Of<InterfaceKey> = Of::new(Attribute::MotorSpindle);
    /// Which torque has the motor?
    pub const MOTOR_TORQUE: Of<NewtonMetres> = Of::new(Attribute::MotorTorque);
    /// Which driver does the hub have?
    pub const MOUNT_FAMILY: Of<InterfaceKey> = Of::new(Attribute::MountFamily);
    /// Can one stroke of the lever move several cogs?
    pub const MULTI_SHIFT: Of<Flag> = Of::new(Attribute::MultiShift);
    /// Which rotor does the mount take without an adapter?
    pub const NATIVE_ROTOR: Of<Micrometres> = Of::new(Attribute::NativeRotor);
    /// How wide is the chain over the pins?
    pub const OUTER_WIDTH: Of<Micrometres> = Of::new(Attribute::OuterWidth);
    /// Is the original outermost cog, the one with the serrations, still there?
    pub const OUTERMOST_COG_KEPT: Of<Flag> = Of::new(Attribute::OutermostCogKept);
    /// How wide is the hub over the locknuts?
    pub const OVER_LOCKNUT: Of<Micrometres> = Of::new(Attribute::OverLocknut);
    /// Which compound are the pads?
    pub const PAD_COMPOUND: Of<word::PadCompound> = Of::new(Attribute::PadCompound);
    /// Which shape have the pads?
    pub const PAD_SHAPE: Of<FreeKey> = Of::new(Attribute::PadShape);
    /// Which thread has the pedal axle?
    pub const PEDAL_THREAD: Of<InterfaceKey> = Of::new(Attribute::PedalThread);
    /// How many gears does the shifter have?
    pub const POSITIONS: Of<Count> = Of::new(Attribute::Positions);
    /// Which cable-pull group or protocol does the shifter belong to?
    pub const PULL_FAMILY: Of<InterfaceKey> = Of::new(Attribute::PullFamily);
    /// How many teeth have the pulleys?
    pub const PULLEY_TEETH: Of<Teeth> = Of::new(Attribute::PulleyTeeth);
    /// For which body length is the cassette made?
    pub const REQUIRED_LENGTH: Of<Micrometres> = Of::new(Attribute::RequiredLength);
    /// Is the rotor marked for resin pads only?
    pub const RESIN_ONLY: Of<Flag> = Of::new(Attribute::ResinOnly);
    /// May the link be used again?
    pub const REUSABLE: Of<Flag> = Of::new(Attribute::Reusable);
    /// Does the spring pull towards the large cogs?
    pub const REVERSED_SPRING: Of<Flag> = Of::new(Attribute::ReversedSpring);
    /// Does it brake on the rim?
    pub const RIM_BRAKE: Of<Flag> = Of::new(Attribute::RimBrake);
    /// How deep is the rim?
    pub const RIM_DEPTH: Of<Micrometres> = Of::new(Attribute::RimDepth);
    /// Of what is the brake track?
    pub const RIM_MATERIAL: Of<word::RimMaterial> = Of::new(Attribute::RimMaterial);
    /// Is the rim hooked, straight-side, or for tubular tyres?
    pub const RIM_SYSTEM: Of<word::RimSystem> = Of::new(Attribute::RimSystem);
    /// For how many rings is it made?
    pub const RING_COUNT: Of<Count> = Of::new(Attribute::RingCount);
    /// Which ring pattern does the motor carry?
    pub const RING_MOUNT: Of<InterfaceKey> = Of::new(Attribute::RingMount);
    /// Which offset has the ring?
    pub const RING_OFFSET: Of<Micrometres> = Of::new(Attribute::RingOffset);
    /// Is it a single, outer, middle or inner ring?
    pub const RING_POSITION: Of<word::RingPosition> = Of::new(Attribute::RingPosition);
    /// Which chain profiles does the ring take?
    pub const RING_PROFILE: Of<InterfaceKey> = Of::new(Attribute::RingProfile);
    /// For how many rear cogs is the ring made?
    pub const RING_SPEED_CLASS: Of<Count> = Of::new(Attribute::RingSpeedClass);
    /// Which rings does it have, largest first?
    pub const RINGS: Of<List> = Of::new(Attribute::Rings);
    /// Which diameter has the rotor?
    pub const ROTOR: Of<Micrometres> = Of::new(Attribute::Rotor);
    /// Is it a six-bolt or a splined rotor?
    pub const ROTOR_MOUNT: Of<InterfaceKey> = Of::new(Attribute::RotorMount);
    /// By how much does it enlarge the rotor?
    pub const ROTOR_STEP: Of<Micrometres> = Of::new(Attribute::RotorStep);
    /// For which rotor thickness is the caliper made?
    pub const ROTOR_THICKNESS: Of<Micrometres> = Of::new(Attribute::RotorThickness);
    /// Is the bike ridden on rough ground?
    pub const ROUGH_GROUND: Of<Flag> = Of::new(Attribute::RoughGround);
    /// Which bottom-bracket shell does the frame have?
    pub const SHELL: Of<InterfaceKey> = Of::new(Attribute::Shell);
    /// How wide is the bottom-bracket shell?
    pub const SHELL_WIDTH: Of<Micrometres> = Of::new(Attribute::ShellWidth);
    /// How far does the derailleur move per millimetre of cable?
    pub const SHIFT_RATIO: Of<Permille> = Of::new(Attribute::ShiftRatio);
    /// How many teeth has the smallest cog?
    pub const SMALLEST_COG: Of<Teeth> = Of::new(Attribute::SmallestCog);
    /// Which smallest ring clears the motor?
    pub const SMALLEST_RING: Of<Teeth> = Of::new(Attribute::SmallestRing);
    /// Which spindle does it carry or take?
    pub const SPINDLE: Of<InterfaceKey> = Of::new(Attribute::Spindle);
    /// How long is its spindle?
    pub const SPINDLE_LENGTH: Of<Micrometres> = Of::new(Attribute::SpindleLength);
    /// How many spoke holes has the rim?
    pub const SPOKE_COUNT: Of<Count> = Of::new(Attribute::SpokeCount);
    /// Does the tyre maker approve straight-side (hookless) rims?
    pub const STRAIGHT_SIDE_APPROVED: Of<Flag> = Of::new(Attribute::StraightSideApproved);
    /// Does the tyre have studs?
    pub const STUDDED: Of<Flag> = Of::new(Attribute::Studded);
    /// What do bike, rider and load weigh together?
    pub const SYSTEM_MASS: Of<Kilograms> = Of::new(Attribute::SystemMass);
    /// Is it a tandem?
    pub const TANDEM: Of<Flag> = Of::new(Attribute::Tandem);
    /// How many teeth has the ring?
    pub const TEETH: Of<Teeth> = Of::new(Attribute::Teeth);
    /// How thick is the fitting?
    pub const THICKNESS: Of<Micrometres> = Of::new(Attribute::Thickness);
    /// Which thread pitch has the axle?
    pub const THRU_AXLE_PITCH: Of<Micrometres> = Of::new(Attribute::ThruAxlePitch);
    /// Are the teeth plain, ramped, narrow-wide, or thick?
    pub const TOOTH_PROFILE: Of<word::ToothProfile> = Of::new(Attribute::ToothProfile);
    /// How thick are the teeth?
    pub const TOOTH_THICKNESS: Of<Micrometres> = Of::new(Attribute::ToothThickness);
    /// Which torque is printed on the lockring?
    pub const TORQUE: Of<NewtonMetres> = Of::new(Attribute::Torque);
    /// Is the rim tubeless-ready?
    pub const TUBELESS_READY: Of<Flag> = Of::new(Attribute::TubelessReady);
    /// Is the tyre wired-on for a tube, tubeless-ready, tubular, or solid?
    pub const TYRE_SYSTEM: Of<word::TyreSystem> = Of::new(Attribute::TyreSystem);
    /// Which nominal width has the tyre?
    pub const TYRE_WIDTH: Of<Micrometres> = Of::new(Attribute::TyreWidth);
    /// Is the universal hanger fitted?
    pub const UNIVERSAL_HANGER_FITTED: Of<Flag> = Of::new(Attribute::UniversalHangerFitted);
    /// Has the link been closed before?
    pub const USED: Of<Flag> = Of::new(Attribute::Used);
    /// Which valve has the tube?
    pub const VALVE: Of<word::Valve> = Of::new(Attribute::Valve);
    /// How wide is the valve hole?
    pub const VALVE_HOLE: Of<Micrometres> = Of::new(Attribute::ValveHole);
    /// How long is the valve?
    pub const VALVE_LENGTH: Of<Micrometres> = Of::new(Attribute::ValveLength);
    /// Is the rear end made for the wide-flange hub of its width?
    pub const WIDE_FLANGE: Of<Flag> = Of::new(Attribute::WideFlange);
    /// Does the hub maker list a kit of caps and rotor spacer for the wider dropouts?
    pub const WIDENING_KIT: Of<Flag> = Of::new(Attribute::WideningKit);
    /// Is the tyre to be ridden without a tube?
    pub const WITHOUT_TUBE: Of<Flag> = Of::new(Attribute::WithoutTube);
    /// Is the chain worn?
    pub const WORN: Of<Flag> = Of::new(Attribute::Worn);
}

/// The closed sets of words.
pub mod word {
    use crate::part::of::Word;

    /// Are the splines steel, titanium, light alloy, or light alloy with a steel insert?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum BodyMaterial {
        /// "steel"
        Steel,
        /// "titanium"
        Titanium,
        /// "light-alloy"
        LightAlloy,
        /// "light-alloy-steel-insert"
        LightAlloySteelInsert,
    }

    impl Word for BodyMaterial {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Steel),
                1 => Some(Self::Titanium),
                2 => Some(Self::LightAlloy),
                3 => Some(Self::LightAlloySteelInsert),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Does it work a cable or fluid?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum BrakeActuation {
        /// "cable"
        Cable,
        /// "hydraulic"
        Hydraulic,
    }

    impl Word for BrakeActuation {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Cable),
                1 => Some(Self::Hydraulic),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// From where does the front derailleur cable come?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum CableDirection {
        /// "bottom"
        Bottom,
        /// "top"
        Top,
        /// "dual"
        Dual,
        /// "side"
        Side,
    }

    impl Word for CableDirection {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Bottom),
                1 => Some(Self::Top),
                2 => Some(Self::Dual),
                3 => Some(Self::Side),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Is the cage short, medium or long?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Cage {
        /// "short"
        Short,
        /// "medium"
        Medium,
        /// "long"
        Long,
    }

    impl Word for Cage {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Short),
                1 => Some(Self::Medium),
                2 => Some(Self::Long),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Are the cogs loose, on carriers, or one piece?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum CogFixing {
        /// "loose"
        Loose,
        /// "carrier"
        Carrier,
        /// "one-piece"
        OnePiece,
    }

    impl Word for CogFixing {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Loose),
                1 => Some(Self::Carrier),
                2 => Some(Self::OnePiece),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Is the drive-side thread left- or right-hand?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum CupThreadHand {
        /// "left"
        Left,
        /// "right"
        Right,
    }

    impl Word for CupThreadHand {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Left),
                1 => Some(Self::Right),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// What kind of fitting is it?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Fitting {
        /// "bearing-sleeve"
        BearingSleeve,
        /// "shell-spacers"
        ShellSpacers,
        /// "derailleur-band"
        DerailleurBand,
        /// "band-shim"
        BandShim,
        /// "cable-pulley"
        CablePulley,
        /// "axle-spacers"
        AxleSpacers,
        /// "rotor-adapter"
        RotorAdapter,
        /// "caliper-shims"
        CaliperShims,
        /// "valve-grommet"
        ValveGrommet,
        /// "valve-extender"
        ValveExtender,
        /// "tubeless-valve"
        TubelessValve,
        /// "rim-tape"
        RimTape,
    }

    impl Word for Fitting {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::BearingSleeve),
                1 => Some(Self::ShellSpacers),
                2 => Some(Self::DerailleurBand),
                3 => Some(Self::BandShim),
                4 => Some(Self::CablePulley),
                5 => Some(Self::AxleSpacers),
                6 => Some(Self::RotorAdapter),
                7 => Some(Self::CaliperShims),
                8 => Some(Self::ValveGrommet),
                9 => Some(Self::ValveExtender),
                10 => Some(Self::TubelessValve),
                11 => Some(Self::RimTape),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Which fluid does the lever use?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Fluid {
        /// "mineral"
        Mineral,
        /// "mineral-low-viscosity"
        MineralLowViscosity,
        /// "glycol"
        Glycol,
        /// "silicone"
        Silicone,
    }

    impl Word for Fluid {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Mineral),
                1 => Some(Self::MineralLowViscosity),
                2 => Some(Self::Glycol),
                3 => Some(Self::Silicone),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Of what is the rear of the frame?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum FrameMaterial {
        /// "steel"
        Steel,
        /// "aluminium"
        Aluminium,
        /// "titanium"
        Titanium,
        /// "carbon"
        Carbon,
    }

    impl Word for FrameMaterial {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Steel),
                1 => Some(Self::Aluminium),
                2 => Some(Self::Titanium),
                3 => Some(Self::Carbon),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Is it a slant parallelogram, a horizontal one with offset pulley for single rings, or mounted coaxially?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Geometry {
        /// "slant"
        Slant,
        /// "horizontal-offset"
        HorizontalOffset,
        /// "coaxial"
        Coaxial,
    }

    impl Word for Geometry {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Slant),
                1 => Some(Self::HorizontalOffset),
                2 => Some(Self::Coaxial),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Are the spline grooves cut normal or deep?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum GrooveDepth {
        /// "normal"
        Normal,
        /// "deep"
        Deep,
    }

    impl Word for GrooveDepth {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Normal),
                1 => Some(Self::Deep),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Which cable pull has the lever?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum LeverPull {
        /// "long"
        Long,
        /// "short"
        Short,
        /// "road-8mm"
        Road8mm,
    }

    impl Word for LeverPull {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Long),
                1 => Some(Self::Short),
                2 => Some(Self::Road8mm),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// For which smallest cog is the lockring made?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum LockringSize {
        /// "10t"
        N10t,
        /// "11t"
        N11t,
        /// "12t-up"
        N12tUp,
    }

    impl Word for LockringSize {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::N10t),
                1 => Some(Self::N11t),
                2 => Some(Self::N12tUp),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Does the motor drive the cranks or a hub?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum MotorPlace {
        /// "mid"
        Mid,
        /// "rear-hub"
        RearHub,
        /// "front-hub"
        FrontHub,
    }

    impl Word for MotorPlace {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Mid),
                1 => Some(Self::RearHub),
                2 => Some(Self::FrontHub),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Which compound are the pads?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum PadCompound {
        /// "resin"
        Resin,
        /// "sintered"
        Sintered,
        /// "semi-metallic"
        SemiMetallic,
        /// "rim-aluminium"
        RimAluminium,
        /// "rim-carbon"
        RimCarbon,
    }

    impl Word for PadCompound {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Resin),
                1 => Some(Self::Sintered),
                2 => Some(Self::SemiMetallic),
                3 => Some(Self::RimAluminium),
                4 => Some(Self::RimCarbon),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Of what is the brake track?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum RimMaterial {
        /// "aluminium"
        Aluminium,
        /// "carbon"
        Carbon,
        /// "steel"
        Steel,
    }

    impl Word for RimMaterial {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Aluminium),
                1 => Some(Self::Carbon),
                2 => Some(Self::Steel),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Is the rim hooked, straight-side, or for tubular tyres?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum RimSystem {
        /// "hooked"
        Hooked,
        /// "straight-side"
        StraightSide,
        /// "tubular"
        Tubular,
        /// "old-straight-side"
        OldStraightSide,
    }

    impl Word for RimSystem {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Hooked),
                1 => Some(Self::StraightSide),
                2 => Some(Self::Tubular),
                3 => Some(Self::OldStraightSide),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Is it a single, outer, middle or inner ring?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum RingPosition {
        /// "single"
        Single,
        /// "outer"
        Outer,
        /// "middle"
        Middle,
        /// "inner"
        Inner,
    }

    impl Word for RingPosition {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Single),
                1 => Some(Self::Outer),
                2 => Some(Self::Middle),
                3 => Some(Self::Inner),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Are the teeth plain, ramped, narrow-wide, or thick?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum ToothProfile {
        /// "plain"
        Plain,
        /// "ramped"
        Ramped,
        /// "narrow-wide"
        NarrowWide,
    }

    impl Word for ToothProfile {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Plain),
                1 => Some(Self::Ramped),
                2 => Some(Self::NarrowWide),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Is the tyre wired-on for a tube, tubeless-ready, tubular, or solid?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum TyreSystem {
        /// "wired-on"
        WiredOn,
        /// "tubeless-ready"
        TubelessReady,
        /// "tubular"
        Tubular,
        /// "solid"
        Solid,
    }

    impl Word for TyreSystem {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::WiredOn),
                1 => Some(Self::TubelessReady),
                2 => Some(Self::Tubular),
                3 => Some(Self::Solid),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }

    /// Which valve has the tube?
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Valve {
        /// "thin"
        Thin,
        /// "wide"
        Wide,
        /// "dunlop-style"
        DunlopStyle,
    }

    impl Word for Valve {
        fn from_index(index: i64) -> Option<Self> {
            match index {
                0 => Some(Self::Thin),
                1 => Some(Self::Wide),
                2 => Some(Self::DunlopStyle),
                _ => None,
            }
        }

        fn index(self) -> i64 {
            self as i64
        }
    }
}

/// Every kind with its attributes; indexed by `Kind as usize`.
pub static KINDS: &[KindSpec] = &[
    KindSpec {
        kind: Kind::Cassette,
        name: "cassette",
        label: "cassette",
        place: "cogset",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MountFamily,
                field: "mount_family",
                form: Form::Interface("freehub"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which freehub body is the cassette made for?",
                measure: "Count the splines inside the cogs: nine broad, eight deep, 23 narrow, or a thread.",
            },
            AttributeSpec {
                attribute: Attribute::RequiredLength,
                field: "required_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (28000, 40000),
                usual: (30400, 38000),
                question: "For which body length is the cassette made?",
                measure: "Stated by the maker, never the width of the stack: 30.4, 33.9, 34.9 or 36.75 mm on nine splines.",
            },
            AttributeSpec {
                attribute: Attribute::Cogs,
                field: "cogs",
                form: Form::List,
                unit: Unit::Teeth,
                hard: (8, 60),
                usual: (9, 52),
                question: "Which cogs does it have, smallest first?",
                measure: "Count the teeth of each cog, or read the numbers stamped on them.",
            },
            AttributeSpec {
                attribute: Attribute::CogCount,
                field: "cog_count",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (1, 14),
                usual: (1, 13),
                question: "How many cogs are on the rear wheel?",
                measure: "Count the cogs at the rear wheel; a bike sold as 21-speed has 7.",
            },
            AttributeSpec {
                attribute: Attribute::SmallestCog,
                field: "smallest_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 60),
                usual: (9, 16),
                question: "How many teeth has the smallest cog?",
                measure: "Count the teeth, or read the number stamped on the cog.",
            },
            AttributeSpec {
                attribute: Attribute::LargestCog,
                field: "largest_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 60),
                usual: (21, 52),
                question: "How many teeth has the largest cog?",
                measure: "Count the teeth, or read the number stamped on the cog.",
            },
            AttributeSpec {
                attribute: Attribute::ChainClass,
                field: "chain_class",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (5, 13),
                usual: (5, 13),
                question: "For which chain speed are the cogs spaced?",
                measure: "Stated by the maker; on an ordinary complete set it is the number of cogs.",
            },
            AttributeSpec {
                attribute: Attribute::CogPitch,
                field: "cog_pitch_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (3000, 6000),
                usual: (3400, 5500),
                question: "How far apart are neighbouring cogs, centre to centre?",
                measure: "Measure over several cogs and divide; 3.4 to 5.5 mm is usual. This is not the chain pitch of 12.7 mm.",
            },
            AttributeSpec {
                attribute: Attribute::CogThickness,
                field: "cog_thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1400, 3300),
                usual: (1600, 2350),
                question: "How thick is one cog?",
                measure: "Caliper on the flank between two teeth; 1.6 to 1.9 mm is usual.",
            },
            AttributeSpec {
                attribute: Attribute::ChainProfile,
                field: "chain_profile",
                form: Form::Interface("chain-profile"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which chain profile are the teeth cut for: normal, extended inner plates, or flat-top?",
                measure: "Stated by the maker; below 12 speeds every set is normal.",
            },
            AttributeSpec {
                attribute: Attribute::GrooveDepth,
                field: "groove_depth",
                form: Form::Words(&["normal", "deep"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Are the spline grooves cut normal or deep?",
                measure: "Deep grooves are cut for the taller light-alloy splines of one ten-speed generation.",
            },
            AttributeSpec {
                attribute: Attribute::CogFixing,
                field: "cog_fixing",
                form: Form::Words(&["loose", "carrier", "one-piece"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Are the cogs loose, on carriers, or one piece?",
                measure: "Look at the back: single loose cogs cut into soft splines.",
            },
            AttributeSpec {
                attribute: Attribute::LockringThread,
                field: "lockring_thread",
                form: Form::Interface("lockring-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which lockring thread does it take?",
                measure: "Read the marking on the lockring, or measure its outer thread.",
            },
            AttributeSpec {
                attribute: Attribute::LockringSize,
                field: "lockring_size",
                form: Form::Words(&["10t", "11t", "12t-up"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "For which smallest cog is the lockring made?",
                measure: "Read the marking on the ring.",
            },
            AttributeSpec {
                attribute: Attribute::CutDown,
                field: "cut_down",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Have cogs of the original set been left out?",
                measure: "Count the cogs and compare with the set's name.",
            },
            AttributeSpec {
                attribute: Attribute::OutermostCogKept,
                field: "outermost_cog_kept",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the original outermost cog, the one with the serrations, still there?",
                measure: "Look for the serrations that the lockring bites on.",
            },
            AttributeSpec {
                attribute: Attribute::LightAlloyCogs,
                field: "light_alloy_cogs",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Are the largest cogs of light alloy?",
                measure: "A magnet does not hold to them.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (120, 1300),
                usual: (200, 800),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Freewheel,
        name: "freewheel",
        label: "freewheel",
        place: "cogset",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::HubThread,
                field: "hub_thread",
                form: Form::Interface("hub-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which thread does the freewheel have?",
                measure: "Read the marking, or measure diameter and threads per inch; 1.375 in x 24 is today's.",
            },
            AttributeSpec {
                attribute: Attribute::Cogs,
                field: "cogs",
                form: Form::List,
                unit: Unit::Teeth,
                hard: (8, 60),
                usual: (9, 52),
                question: "Which cogs does it have, smallest first?",
                measure: "Count the teeth of each cog, or read the numbers stamped on them.",
            },
            AttributeSpec {
                attribute: Attribute::CogCount,
                field: "cog_count",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (1, 14),
                usual: (1, 13),
                question: "How many cogs are on the rear wheel?",
                measure: "Count the cogs at the rear wheel; a bike sold as 21-speed has 7.",
            },
            AttributeSpec {
                attribute: Attribute::SmallestCog,
                field: "smallest_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 60),
                usual: (9, 16),
                question: "How many teeth has the smallest cog?",
                measure: "Count the teeth, or read the number stamped on the cog.",
            },
            AttributeSpec {
                attribute: Attribute::LargestCog,
                field: "largest_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 60),
                usual: (21, 52),
                question: "How many teeth has the largest cog?",
                measure: "Count the teeth, or read the number stamped on the cog.",
            },
            AttributeSpec {
                attribute: Attribute::ChainClass,
                field: "chain_class",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (5, 13),
                usual: (5, 13),
                question: "For which chain speed are the cogs spaced?",
                measure: "Stated by the maker; on an ordinary complete set it is the number of cogs.",
            },
            AttributeSpec {
                attribute: Attribute::CogPitch,
                field: "cog_pitch_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (3000, 6000),
                usual: (3400, 5500),
                question: "How far apart are neighbouring cogs, centre to centre?",
                measure: "Measure over several cogs and divide; 3.4 to 5.5 mm is usual. This is not the chain pitch of 12.7 mm.",
            },
            AttributeSpec {
                attribute: Attribute::CogThickness,
                field: "cog_thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1400, 3300),
                usual: (1600, 2350),
                question: "How thick is one cog?",
                measure: "Caliper on the flank between two teeth; 1.6 to 1.9 mm is usual.",
            },
            AttributeSpec {
                attribute: Attribute::ChainProfile,
                field: "chain_profile",
                form: Form::Interface("chain-profile"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which chain profile are the teeth cut for: normal, extended inner plates, or flat-top?",
                measure: "Stated by the maker; below 12 speeds every set is normal.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (200, 1100),
                usual: (350, 700),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Sprocket,
        name: "sprocket",
        label: "sprocket",
        place: "cogset",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MountFamily,
                field: "mount_family",
                form: Form::Interface("freehub"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "What does the sprocket sit on?",
                measure: "Three lugs and a snap ring, nine splines, or a thread.",
            },
            AttributeSpec {
                attribute: Attribute::HubThread,
                field: "hub_thread",
                form: Form::Interface("hub-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which thread does the sprocket have?",
                measure: "Read the marking, or measure diameter and threads per inch.",
            },
            AttributeSpec {
                attribute: Attribute::Fixed,
                field: "fixed",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it a fixed cog, without a freewheel?",
                measure: "Turn it backwards: a fixed cog turns the wheel.",
            },
            AttributeSpec {
                attribute: Attribute::Teeth,
                field: "teeth",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 60),
                usual: (13, 24),
                question: "How many teeth has it?",
                measure: "Count them, or read the number stamped on it.",
            },
            AttributeSpec {
                attribute: Attribute::CogThickness,
                field: "cog_thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1400, 3300),
                usual: (1600, 3000),
                question: "How thick is it?",
                measure: "Caliper on the flank; 2.1 mm takes a 3/32 in chain, 2.9 mm a 1/8 in chain.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (15, 400),
                usual: (30, 200),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::FreehubBody,
        name: "freehub_body",
        label: "freehub body",
        place: "freehub-body",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MountFamily,
                field: "mount_family",
                form: Form::Interface("freehub"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which body is on the hub?",
                measure: "Count the splines: nine broad, eight deep, 23 narrow, many fine, or a threaded driver.",
            },
            AttributeSpec {
                attribute: Attribute::BodyLength,
                field: "body_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (28000, 40000),
                usual: (30400, 38000),
                question: "How long is the body from its shoulder to the outer end of the splines?",
                measure: "Caliper; 30.4, 34.9 or 36.75 mm on nine splines.",
            },
            AttributeSpec {
                attribute: Attribute::MinCog,
                field: "min_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 16),
                usual: (9, 12),
                question: "Which smallest cog does the body take?",
                measure: "Stated by the maker: 9, 10, 11 or 12 teeth.",
            },
            AttributeSpec {
                attribute: Attribute::BodyMaterial,
                field: "body_material",
                form: Form::Words(&["steel", "titanium", "light-alloy", "light-alloy-steel-insert"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Are the splines steel, titanium, light alloy, or light alloy with a steel insert?",
                measure: "A magnet holds to steel; notches from the cogs show a soft body.",
            },
            AttributeSpec {
                attribute: Attribute::LockringThread,
                field: "lockring_thread",
                form: Form::Interface("lockring-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which lockring thread is in the body?",
                measure: "Read the marking on the lockring, or measure its outer thread.",
            },
            AttributeSpec {
                attribute: Attribute::HubInterface,
                field: "hub_interface",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "For which hub is the body made?",
                measure: "Bodies are hub-specific even when they look alike: read the hub maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (40, 400),
                usual: (60, 250),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Hub,
        name: "hub",
        label: "hub",
        place: "hub",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::HubThread,
                field: "hub_thread",
                form: Form::Interface("hub-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the hub have a thread for a screw-on freewheel, and which?",
                measure: "Coast backwards: if the tool fitting turns with the cogs it is a cassette, if it stays still a freewheel.",
            },
            AttributeSpec {
                attribute: Attribute::FixedStep,
                field: "fixed_step",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is there a smaller, left-hand thread outside the freewheel thread?",
                measure: "Look for the step in the thread.",
            },
            AttributeSpec {
                attribute: Attribute::HubInterface,
                field: "hub_interface",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which freehub bodies does the hub take?",
                measure: "Read the hub maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::OverLocknut,
                field: "over_locknut_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (65000, 250000),
                usual: (100000, 157000),
                question: "How wide is the hub over the locknuts?",
                measure: "Caliper between the faces that touch the frame.",
            },
            AttributeSpec {
                attribute: Attribute::Axle,
                field: "axle",
                form: Form::Interface("axle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which axle does the hub take?",
                measure: "Quick release, nutted, or thru-axle with its diameter.",
            },
            AttributeSpec {
                attribute: Attribute::RotorMount,
                field: "rotor_mount",
                form: Form::Interface("rotor-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which rotor seat does the hub have?",
                measure: "Six bolts, or splines with a lockring.",
            },
            AttributeSpec {
                attribute: Attribute::LocknutToCog,
                field: "locknut_to_cog_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (0, 60000),
                usual: (2000, 50000),
                question: "How far is it from the drive-side locknut to the smallest cog?",
                measure: "Depth gauge from the locknut face.",
            },
            AttributeSpec {
                attribute: Attribute::MaxRotor,
                field: "max_rotor_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (120000, 250000),
                usual: (140000, 220000),
                question: "Which largest rotor does the hub maker allow?",
                measure: "Stated by the maker.",
            },
            AttributeSpec {
                attribute: Attribute::SpokeCount,
                field: "spoke_count",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (12, 48),
                usual: (20, 36),
                question: "How many spoke holes has the hub?",
                measure: "Count them.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (60, 4000),
                usual: (100, 900),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
            AttributeSpec {
                attribute: Attribute::EndCaps,
                field: "end_caps",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the hub maker list end caps for the axle of this frame or fork?",
                measure: "Read the hub maker's list: caps are hub-specific.",
            },
            AttributeSpec {
                attribute: Attribute::WideningKit,
                field: "widening_kit",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the hub maker list a kit of caps and rotor spacer for the wider dropouts?",
                measure: "Read the hub maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::WideFlange,
                field: "wide_flange",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it the wide-flange hub of its width?",
                measure: "Read the marking; at 157 mm a downhill and a wide-flange hub exist.",
            },
        ],
        children: &[Child { name: "freehub_body", kind: Kind::FreehubBody }],
    },
    KindSpec {
        kind: Kind::Spacer,
        name: "spacer",
        label: "cassette spacer",
        place: "",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MountFamily,
                field: "mount_family",
                form: Form::Interface("freehub"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which body does the spacer slide on?",
                measure: "Count its inside lugs.",
            },
            AttributeSpec {
                attribute: Attribute::Thickness,
                field: "thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (100, 8000),
                usual: (1000, 4500),
                question: "How thick is the spacer?",
                measure: "Caliper.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (1, 60),
                usual: (2, 20),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Lockring,
        name: "lockring",
        label: "cassette lockring",
        place: "lockring",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::LockringThread,
                field: "lockring_thread",
                form: Form::Interface("lockring-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which thread does the lockring have?",
                measure: "Read the marking, or measure the outer thread.",
            },
            AttributeSpec {
                attribute: Attribute::LockringSize,
                field: "lockring_size",
                form: Form::Words(&["10t", "11t", "12t-up"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "For which smallest cog is the lockring made?",
                measure: "Read the marking on the ring.",
            },
            AttributeSpec {
                attribute: Attribute::Torque,
                field: "torque_nm",
                form: Form::Integer,
                unit: Unit::NewtonMetres,
                hard: (20, 60),
                usual: (30, 50),
                question: "Which torque is printed on the lockring?",
                measure: "Read the marking on the ring.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (3, 60),
                usual: (5, 20),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Chain,
        name: "chain",
        label: "chain",
        place: "chain",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::ChainSpeed,
                field: "chain_speed",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (1, 13),
                usual: (1, 13),
                question: "For how many cogs is the chain made?",
                measure: "Read the marking on the plates or the box.",
            },
            AttributeSpec {
                attribute: Attribute::Labelled678,
                field: "labelled_6_7_8",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the chain labelled for 6, 7 or 8 speeds?",
                measure: "Read the box.",
            },
            AttributeSpec {
                attribute: Attribute::OuterWidth,
                field: "outer_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (4500, 11000),
                usual: (4900, 9600),
                question: "How wide is the chain over the pins?",
                measure: "Caliper over a pin.",
            },
            AttributeSpec {
                attribute: Attribute::InnerWidth,
                field: "inner_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1800, 4800),
                usual: (2180, 4000),
                question: "How wide is the gap between the inner plates?",
                measure: "2.18 mm for 9 to 12 speeds, 2.38 mm (3/32 in) for 5 to 8, 3.18 mm (1/8 in) for hub gears.",
            },
            AttributeSpec {
                attribute: Attribute::ChainProfile,
                field: "chain_profile",
                form: Form::Interface("chain-profile"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which profile has the chain: normal, extended inner plates, or flat-top?",
                measure: "Look at the plates: a straight upper edge is flat-top. Below 12 speeds every chain is normal.",
            },
            AttributeSpec {
                attribute: Attribute::LinkCount,
                field: "link_count",
                form: Form::Integer,
                unit: Unit::Links,
                hard: (60, 180),
                usual: (104, 126),
                question: "How many links has the chain, counting inner and outer ones singly?",
                measure: "Count them, or read the box.",
            },
            AttributeSpec {
                attribute: Attribute::CutToLength,
                field: "cut_to_length",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Has the chain already been cut to length?",
                measure: "A chain on a bike has.",
            },
            AttributeSpec {
                attribute: Attribute::Worn,
                field: "worn",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the chain worn?",
                measure: "Chain gauge: 0.5 % for 11 to 13 speeds, 0.75 % for 5 to 10, 1 % for single-speed.",
            },
            AttributeSpec {
                attribute: Attribute::EBikeRated,
                field: "e_bike_rated",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the maker rate the chain for e-bikes?",
                measure: "Read the box.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (180, 700),
                usual: (220, 400),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::QuickLink,
        name: "quick_link",
        label: "quick link",
        place: "quick-link",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::ChainSpeed,
                field: "chain_speed",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (1, 13),
                usual: (1, 13),
                question: "For how many cogs is the quick link made?",
                measure: "Read the marking on the link.",
            },
            AttributeSpec {
                attribute: Attribute::Labelled678,
                field: "labelled_6_7_8",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the link labelled for 6, 7 or 8 speeds?",
                measure: "Read the box.",
            },
            AttributeSpec {
                attribute: Attribute::ChainProfile,
                field: "chain_profile",
                form: Form::Interface("chain-profile"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which chain profile does the link match?",
                measure: "Stated by the maker.",
            },
            AttributeSpec {
                attribute: Attribute::Reusable,
                field: "reusable",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "May the link be used again?",
                measure: "Stated by the maker: many 11- and 12-speed links are single use.",
            },
            AttributeSpec {
                attribute: Attribute::Used,
                field: "used",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Has the link been closed before?",
                measure: "Polish marks at the pin heads show use.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (1, 20),
                usual: (1, 8),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::RearDerailleur,
        name: "rear_derailleur",
        label: "rear derailleur",
        place: "rear-derailleur",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MaxCog,
                field: "max_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (21, 60),
                usual: (26, 52),
                question: "Which largest cog does the derailleur allow?",
                measure: "Maker's table for this very version; cage length does not tell it.",
            },
            AttributeSpec {
                attribute: Attribute::MinLargestCog,
                field: "min_largest_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (18, 50),
                usual: (23, 50),
                question: "What is the smallest largest cog that the derailleur allows?",
                measure: "Maker's table for this very version.",
            },
            AttributeSpec {
                attribute: Attribute::MinCog,
                field: "min_cog",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 16),
                usual: (9, 12),
                question: "Which smallest cog does the derailleur allow?",
                measure: "Maker's table for this very version.",
            },
            AttributeSpec {
                attribute: Attribute::Capacity,
                field: "capacity",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (10, 60),
                usual: (23, 51),
                question: "What is the total capacity of the derailleur, in teeth?",
                measure: "Maker's table for this very version; cage length only hints at it.",
            },
            AttributeSpec {
                attribute: Attribute::MaxFrontDifference,
                field: "max_front_difference",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (0, 30),
                usual: (0, 22),
                question: "Which largest ring difference does the derailleur allow?",
                measure: "Maker's table; 0 means single ring only.",
            },
            AttributeSpec {
                attribute: Attribute::DeclaredSpeeds,
                field: "declared_speeds",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (5, 13),
                usual: (5, 13),
                question: "For how many cogs is the derailleur sold?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::Cage,
                field: "cage",
                form: Form::Words(&["short", "medium", "long"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the cage short, medium or long?",
                measure: "Distance between the pulley axles; it hints at capacity, never at the largest cog.",
            },
            AttributeSpec {
                attribute: Attribute::Geometry,
                field: "geometry",
                form: Form::Words(&["slant", "horizontal-offset", "coaxial"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it a slant parallelogram, a horizontal one with offset pulley for single rings, or mounted coaxially?",
                measure: "Look at the parallelogram and the mount.",
            },
            AttributeSpec {
                attribute: Attribute::BGap,
                field: "b_gap_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (2000, 25000),
                usual: (5000, 18000),
                question: "Which gap between upper pulley and largest cog does the maker ask for?",
                measure: "Maker's manual or gauge.",
            },
            AttributeSpec {
                attribute: Attribute::Clutch,
                field: "clutch",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the derailleur have a clutch?",
                measure: "A lever or a stiff cage shows it.",
            },
            AttributeSpec {
                attribute: Attribute::PullFamily,
                field: "pull_family",
                form: Form::Interface("pull"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which cable-pull group or protocol does the derailleur belong to?",
                measure: "Maker's compatibility chart for this very model; the number of speeds does not tell it.",
            },
            AttributeSpec {
                attribute: Attribute::ShiftRatio,
                field: "shift_ratio_permille",
                form: Form::Integer,
                unit: Unit::Permille,
                hard: (800, 2200),
                usual: (1100, 1900),
                question: "How far does the derailleur move per millimetre of cable?",
                measure: "Sideways travel divided by cable travel, about 1.1 to 1.9.",
            },
            AttributeSpec {
                attribute: Attribute::DerailleurMount,
                field: "derailleur_mount",
                form: Form::Interface("derailleur-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "How does the derailleur mount: M10 bolt, direct mount, or around the axle?",
                measure: "Look at the upper bolt.",
            },
            AttributeSpec {
                attribute: Attribute::LinkFitted,
                field: "link_fitted",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the removable link plate fitted?",
                measure: "Look between the bolt and the parallelogram.",
            },
            AttributeSpec {
                attribute: Attribute::LimitScrews,
                field: "limit_screws",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does it have limit screws?",
                measure: "Two small screws marked H and L.",
            },
            AttributeSpec {
                attribute: Attribute::ReversedSpring,
                field: "reversed_spring",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the spring pull towards the large cogs?",
                measure: "Release the cable: it moves to the largest cog.",
            },
            AttributeSpec {
                attribute: Attribute::PulleyTeeth,
                field: "pulley_teeth",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (8, 20),
                usual: (10, 14),
                question: "How many teeth have the pulleys?",
                measure: "Count them; 11 to 14 is usual.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (140, 600),
                usual: (180, 450),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::RearShifter,
        name: "rear_shifter",
        label: "rear shifter",
        place: "rear-shifter",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Positions,
                field: "positions",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (2, 14),
                usual: (5, 13),
                question: "How many positions has the rear shifter?",
                measure: "Count the clicks from end to end and add one.",
            },
            AttributeSpec {
                attribute: Attribute::PullFamily,
                field: "pull_family",
                form: Form::Interface("pull"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which cable-pull group or protocol does the shifter belong to?",
                measure: "Maker's compatibility chart for this very model; the number of speeds does not tell it.",
            },
            AttributeSpec {
                attribute: Attribute::CogPitch,
                field: "cog_pitch_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (3000, 6000),
                usual: (3400, 5500),
                question: "For which cog pitch are the clicks cut?",
                measure: "Pitch of the cassette that the maker names for it.",
            },
            AttributeSpec {
                attribute: Attribute::CablePull,
                field: "cable_pull_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1800, 5000),
                usual: (2300, 4500),
                question: "How much cable does one click pull, on average?",
                measure: "Total cable travel divided by the number of clicks.",
            },
            AttributeSpec {
                attribute: Attribute::Friction,
                field: "friction",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it a friction shifter, without clicks?",
                measure: "Move the lever: no clicks.",
            },
            AttributeSpec {
                attribute: Attribute::CableTravel,
                field: "cable_travel_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (10000, 60000),
                usual: (18000, 45000),
                question: "How much cable does the lever pull in all?",
                measure: "Ruler at the end of the cable.",
            },
            AttributeSpec {
                attribute: Attribute::MultiShift,
                field: "multi_shift",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Can one stroke of the lever move several cogs?",
                measure: "Push the lever through.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (40, 400),
                usual: (90, 250),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::HangerExtender,
        name: "hanger_extender",
        label: "hanger extender",
        place: "hanger-extender",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Drop,
                field: "drop_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (5000, 45000),
                usual: (20000, 40000),
                question: "How far does the extender lower the derailleur?",
                measure: "Centre to centre of its holes; 22 mm is usual, 40 mm the longest.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (5, 120),
                usual: (15, 60),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Hanger,
        name: "hanger",
        label: "derailleur hanger",
        place: "hanger",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Hanger,
                field: "hanger",
                form: Form::Interface("hanger"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which hanger is it: standard, direct mount, universal, or another?",
                measure: "Compare with the frame maker's picture.",
            },
            AttributeSpec {
                attribute: Attribute::HangerId,
                field: "hanger_id",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which hanger number does the frame maker give?",
                measure: "Hundreds of shapes exist: compare with the old one.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (5, 120),
                usual: (10, 60),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::DerailleurLink,
        name: "derailleur_link",
        label: "derailleur link plate",
        place: "derailleur-link",
        not_judged: "",
        attributes: &[AttributeSpec {
            attribute: Attribute::Mass,
            field: "mass_g",
            form: Form::Integer,
            unit: Unit::Grams,
            hard: (5, 60),
            usual: (8, 30),
            question: "What does it weigh?",
            measure: "Weigh it, or read the maker's page.",
        }],
        children: &[],
    },
    KindSpec {
        kind: Kind::CablePullConverter,
        name: "cable_pull_converter",
        label: "cable-pull converter",
        place: "cable-pull-converter",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Factor,
                field: "factor_permille",
                form: Form::Integer,
                unit: Unit::Permille,
                hard: (400, 2500),
                usual: (600, 1600),
                question: "Which factor does the converter have?",
                measure: "Ratio of its two drums.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (5, 80),
                usual: (10, 40),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::ChainGuide,
        name: "chain_guide",
        label: "chain guide",
        place: "chain-guide",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::LargestRing,
                field: "largest_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (20, 60),
                usual: (28, 44),
                question: "Which largest ring does the guide clear?",
                measure: "Maker's table.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (10, 400),
                usual: (20, 150),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Chainring,
        name: "chainring",
        label: "chainring",
        place: "",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Teeth,
                field: "teeth",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (18, 80),
                usual: (20, 58),
                question: "How many teeth has the ring?",
                measure: "Count them, or read the number stamped on it.",
            },
            AttributeSpec {
                attribute: Attribute::RingPosition,
                field: "ring_position",
                form: Form::Words(&["single", "outer", "middle", "inner"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it a single, outer, middle or inner ring?",
                measure: "Ramps and pins face inwards on an outer ring; a single ring has neither.",
            },
            AttributeSpec {
                attribute: Attribute::ToothProfile,
                field: "tooth_profile",
                form: Form::Words(&["plain", "ramped", "narrow-wide"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Are the teeth plain, ramped, narrow-wide, or thick?",
                measure: "Narrow-wide teeth alternate in thickness.",
            },
            AttributeSpec {
                attribute: Attribute::ToothThickness,
                field: "tooth_thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1400, 3300),
                usual: (1600, 2950),
                question: "How thick are the teeth?",
                measure: "Caliper at the root of a tooth.",
            },
            AttributeSpec {
                attribute: Attribute::RingSpeedClass,
                field: "ring_speed_class",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (1, 13),
                usual: (1, 13),
                question: "For how many rear cogs is the ring made?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::RingProfile,
                field: "ring_profile",
                form: Form::Interface("ring-profile"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which chain profiles does the ring take?",
                measure: "Stated by the maker.",
            },
            AttributeSpec {
                attribute: Attribute::RingMount,
                field: "ring_mount",
                form: Form::Interface("ring-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "How is the ring fixed: bolt circle and number of bolts, or which direct mount?",
                measure: "Adjacent bolt distance and number of bolts give the circle.",
            },
            AttributeSpec {
                attribute: Attribute::RingOffset,
                field: "ring_offset_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (-12000, 12000),
                usual: (0, 6000),
                question: "Which offset has the ring?",
                measure: "Stamped on the ring: 0, 3 or 6 mm.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (15, 400),
                usual: (30, 200),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Crankset,
        name: "crankset",
        label: "crankset",
        place: "crankset",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Rings,
                field: "rings",
                form: Form::List,
                unit: Unit::Teeth,
                hard: (18, 80),
                usual: (20, 58),
                question: "Which rings does it have, largest first?",
                measure: "Count the teeth, or read the numbers stamped on them.",
            },
            AttributeSpec {
                attribute: Attribute::RingCount,
                field: "ring_count",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (1, 3),
                usual: (1, 3),
                question: "How many rings has the crankset?",
                measure: "Count them.",
            },
            AttributeSpec {
                attribute: Attribute::LargestRing,
                field: "largest_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (18, 80),
                usual: (28, 58),
                question: "How many teeth has the largest ring?",
                measure: "Count them, or read the number stamped on it.",
            },
            AttributeSpec {
                attribute: Attribute::SmallestRing,
                field: "smallest_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (18, 80),
                usual: (20, 52),
                question: "How many teeth has the smallest ring?",
                measure: "Count them, or read the number stamped on it.",
            },
            AttributeSpec {
                attribute: Attribute::RingMount,
                field: "ring_mount",
                form: Form::Interface("ring-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "How are the rings fixed: bolt circle and number of bolts, or which direct mount?",
                measure: "Adjacent bolt distance and number of bolts give the circle.",
            },
            AttributeSpec {
                attribute: Attribute::ArmLength,
                field: "arm_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (100000, 200000),
                usual: (160000, 180000),
                question: "How long is the crank?",
                measure: "Stamped on the back of the arm.",
            },
            AttributeSpec {
                attribute: Attribute::Chainline,
                field: "chainline_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (35000, 70000),
                usual: (40500, 57500),
                question: "What is the chainline of the crankset?",
                measure: "Stated by the maker, or measured from the frame centre.",
            },
            AttributeSpec {
                attribute: Attribute::Spindle,
                field: "spindle",
                form: Form::Interface("spindle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which spindle does the crank take or carry?",
                measure: "Square taper, splines and their number, or the diameter of a through axle.",
            },
            AttributeSpec {
                attribute: Attribute::SpindleLength,
                field: "spindle_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (90000, 200000),
                usual: (102000, 150000),
                question: "How long is the spindle?",
                measure: "Caliper end to end; on splined ones between the stops.",
            },
            AttributeSpec {
                attribute: Attribute::CrankRatio,
                field: "crank_ratio_permille",
                form: Form::Integer,
                unit: Unit::Permille,
                hard: (1000, 3000),
                usual: (1000, 2500),
                question: "Which second ratio does the two-speed crank have?",
                measure: "Stated by the maker.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (300, 2000),
                usual: (500, 1100),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
            AttributeSpec {
                attribute: Attribute::InnerRingMount,
                field: "inner_ring_mount",
                form: Form::Interface("ring-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the crank have a second, smaller bolt circle, and which?",
                measure: "Look for a second set of bolt holes behind the first; absent where there is none.",
            },
            AttributeSpec {
                attribute: Attribute::PedalThread,
                field: "pedal_thread",
                form: Form::Interface("pedal-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which pedal thread is in the crank?",
                measure: "9/16 in x 20 is usual; 1/2 in on one-piece cranks.",
            },
            AttributeSpec {
                attribute: Attribute::ShellWidth,
                field: "shell_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (60000, 125000),
                usual: (68000, 92000),
                question: "For which shell width is the crank made, at most?",
                measure: "Maker's table: 68, 73, 83, 86.5 or 92 mm.",
            },
        ],
        children: &[Child { name: "chainrings", kind: Kind::Chainring }],
    },
    KindSpec {
        kind: Kind::BottomBracket,
        name: "bottom_bracket",
        label: "bottom bracket",
        place: "bottom-bracket",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Shell,
                field: "shell",
                form: Form::Interface("shell"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which shell is it made for?",
                measure: "Thread with diameter, or bore with cups or bare bearing.",
            },
            AttributeSpec {
                attribute: Attribute::ShellWidth,
                field: "shell_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (60000, 125000),
                usual: (68000, 92000),
                question: "For which shell width is it made, at most?",
                measure: "Read the marking; 68/73 counts as 73.",
            },
            AttributeSpec {
                attribute: Attribute::BearingOffset,
                field: "bearing_offset_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (0, 15000),
                usual: (0, 11000),
                question: "How far is the non-drive bearing moved outwards?",
                measure: "Maker drawing; 0 where symmetric.",
            },
            AttributeSpec {
                attribute: Attribute::Spindle,
                field: "spindle",
                form: Form::Interface("spindle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which spindle does it carry or take?",
                measure: "Square taper, splines and their number, or the diameter of a through axle.",
            },
            AttributeSpec {
                attribute: Attribute::SpindleLength,
                field: "spindle_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (90000, 200000),
                usual: (102000, 150000),
                question: "How long is its spindle?",
                measure: "Caliper end to end.",
            },
            AttributeSpec {
                attribute: Attribute::CupThreadHand,
                field: "cup_thread_hand",
                form: Form::Words(&["left", "right"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the drive-side thread left- or right-hand?",
                measure: "Turn it: the standard drive side loosens clockwise.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (30, 600),
                usual: (60, 350),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::FrontDerailleur,
        name: "front_derailleur",
        label: "front derailleur",
        place: "front-derailleur",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::FrontMount,
                field: "front_mount",
                form: Form::Interface("front-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "How does the front derailleur mount?",
                measure: "Band with tube diameter, braze-on tab, low or high direct mount, or bracket.",
            },
            AttributeSpec {
                attribute: Attribute::FrontPullFamily,
                field: "front_pull_family",
                form: Form::Interface("front-pull"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which pull group does the front derailleur belong to?",
                measure: "Maker compatibility chart for this very model.",
            },
            AttributeSpec {
                attribute: Attribute::FrontCapacity,
                field: "front_capacity",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (0, 40),
                usual: (10, 22),
                question: "Which largest ring difference does it allow?",
                measure: "Maker table.",
            },
            AttributeSpec {
                attribute: Attribute::MinRingStep,
                field: "min_ring_step",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (0, 20),
                usual: (8, 14),
                question: "Which least difference of outer and middle ring does it need?",
                measure: "Maker table.",
            },
            AttributeSpec {
                attribute: Attribute::MaxRing,
                field: "max_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (20, 80),
                usual: (28, 56),
                question: "Which largest outer ring does it take?",
                measure: "Maker table.",
            },
            AttributeSpec {
                attribute: Attribute::MinOuterRing,
                field: "min_outer_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (18, 70),
                usual: (22, 50),
                question: "Which smallest outer ring does the cage suit?",
                measure: "Maker table.",
            },
            AttributeSpec {
                attribute: Attribute::RingCount,
                field: "ring_count",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (2, 3),
                usual: (2, 3),
                question: "For how many rings is it made?",
                measure: "Two or three.",
            },
            AttributeSpec {
                attribute: Attribute::DeclaredSpeeds,
                field: "declared_speeds",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (5, 13),
                usual: (5, 13),
                question: "For how many rear cogs is it made?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::CableDirection,
                field: "cable_direction",
                form: Form::Words(&["bottom", "top", "dual", "side"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the cable pulled from below, from above, or from the side?",
                measure: "Look at the cable run.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (40, 300),
                usual: (70, 160),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::FrontShifter,
        name: "front_shifter",
        label: "front shifter",
        place: "front-shifter",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::FrontPositions,
                field: "front_positions",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (1, 3),
                usual: (2, 3),
                question: "For how many rings is the front shifter?",
                measure: "Count the clicks and add one; leave trim clicks out.",
            },
            AttributeSpec {
                attribute: Attribute::FrontPullFamily,
                field: "front_pull_family",
                form: Form::Interface("front-pull"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which pull group does the front shifter belong to?",
                measure: "Maker compatibility chart for this very model.",
            },
            AttributeSpec {
                attribute: Attribute::Friction,
                field: "friction",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it a friction shifter, without clicks?",
                measure: "Move the lever: no clicks.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (40, 400),
                usual: (90, 250),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Pedal,
        name: "pedal",
        label: "pedals",
        place: "pedals",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::PedalThread,
                field: "pedal_thread",
                form: Form::Interface("pedal-thread"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which thread has the pedal axle?",
                measure: "9/16 in x 20 is usual; 1/2 in on one-piece cranks.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (60, 1200),
                usual: (200, 600),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Frame,
        name: "frame",
        label: "frame",
        place: "frame",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Hanger,
                field: "hanger",
                form: Form::Interface("hanger"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which derailleur hanger does the frame have?",
                measure: "Standard M10 eye, direct mount, universal, clamped plate, or made for a coaxial derailleur.",
            },
            AttributeSpec {
                attribute: Attribute::HangerId,
                field: "hanger_id",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which hanger number does the frame maker give?",
                measure: "Hundreds of shapes exist: read the frame maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::HangerReplaceable,
                field: "hanger_replaceable",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the hanger a separate, bolted part?",
                measure: "Look for its bolt.",
            },
            AttributeSpec {
                attribute: Attribute::UniversalHangerFitted,
                field: "universal_hanger_fitted",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the universal hanger fitted?",
                measure: "Look at the dropout.",
            },
            AttributeSpec {
                attribute: Attribute::ChainGrowth,
                field: "chain_growth_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (0, 60000),
                usual: (0, 25000),
                question: "How far does the rear axle move away from the bottom bracket over the travel?",
                measure: "Measure both distances with the shock emptied, or ask the frame maker.",
            },
            AttributeSpec {
                attribute: Attribute::Chainstay,
                field: "chainstay_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (300000, 600000),
                usual: (385000, 480000),
                question: "How long is the chainstay, bracket centre to axle centre?",
                measure: "Tape measure along the drive side.",
            },
            AttributeSpec {
                attribute: Attribute::FrameMaterial,
                field: "frame_material",
                form: Form::Words(&["steel", "aluminium", "titanium", "carbon"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Of what is the rear of the frame?",
                measure: "Ordinary steel may be spread a little; nothing else may.",
            },
            AttributeSpec {
                attribute: Attribute::DropoutWidth,
                field: "dropout_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (100000, 250000),
                usual: (120000, 157000),
                question: "How wide is the frame between the rear dropouts?",
                measure: "Caliper or rule between the inner faces.",
            },
            AttributeSpec {
                attribute: Attribute::Axle,
                field: "axle",
                form: Form::Interface("axle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which rear axle does the frame take?",
                measure: "Open dropouts, or thru-axle with its diameter.",
            },
            AttributeSpec {
                attribute: Attribute::ThruAxlePitch,
                field: "thru_axle_pitch_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (750, 2000),
                usual: (1000, 1750),
                question: "Which thread pitch has the rear thru-axle?",
                measure: "Thread gauge: 1.0, 1.5 or 1.75 mm.",
            },
            AttributeSpec {
                attribute: Attribute::Shell,
                field: "shell",
                form: Form::Interface("shell"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which bottom-bracket shell does the frame have?",
                measure: "Thread with diameter, or bore with cups or bare bearing.",
            },
            AttributeSpec {
                attribute: Attribute::ShellWidth,
                field: "shell_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (60000, 125000),
                usual: (68000, 92000),
                question: "How wide is the bottom-bracket shell?",
                measure: "Caliper across the faces, without cups.",
            },
            AttributeSpec {
                attribute: Attribute::FrontMount,
                field: "front_mount",
                form: Form::Interface("front-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "How is a front derailleur fixed to the frame?",
                measure: "Tube diameter for a band, tab, or direct mount.",
            },
            AttributeSpec {
                attribute: Attribute::CableDirection,
                field: "cable_direction",
                form: Form::Words(&["bottom", "top", "dual", "side"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "From where does the front derailleur cable come?",
                measure: "Follow the cable.",
            },
            AttributeSpec {
                attribute: Attribute::MaxSingleRing,
                field: "max_single_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (20, 80),
                usual: (28, 56),
                question: "Which largest single ring clears the frame?",
                measure: "Frame maker's table; keep 3 mm to the stay.",
            },
            AttributeSpec {
                attribute: Attribute::MaxOuterRing,
                field: "max_outer_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (20, 80),
                usual: (30, 56),
                question: "Which largest outer ring clears the frame?",
                measure: "Frame maker's table; keep 3 mm to the stay.",
            },
            AttributeSpec {
                attribute: Attribute::MaxTyre,
                field: "max_tyre_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (18000, 132000),
                usual: (23000, 75000),
                question: "Which widest tyre does the frame maker allow at the rear?",
                measure: "Frame maker's table, or measure the room at stays and bridge.",
            },
            AttributeSpec {
                attribute: Attribute::BeadSeat,
                field: "bead_seat_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (137000, 800000),
                usual: (305000, 635000),
                question: "For which bead seat diameter was the frame made?",
                measure: "Second number of the tyre marking: 622, 584, 559 ...",
            },
            AttributeSpec {
                attribute: Attribute::BrakeMount,
                field: "brake_mount",
                form: Form::Interface("brake-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which rear brake mount does the frame have?",
                measure: "Two posts, tabs, flat plate, or the hole of a rim brake.",
            },
            AttributeSpec {
                attribute: Attribute::NativeRotor,
                field: "native_rotor_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (120000, 250000),
                usual: (140000, 203000),
                question: "Which rotor does the mount take without an adapter?",
                measure: "Stamped beside the mount.",
            },
            AttributeSpec {
                attribute: Attribute::MaxRotor,
                field: "max_rotor_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (120000, 250000),
                usual: (140000, 220000),
                question: "Which largest rotor does the frame maker allow?",
                measure: "Frame maker's manual.",
            },
            AttributeSpec {
                attribute: Attribute::MotorSpindle,
                field: "motor_spindle",
                form: Form::Interface("spindle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the frame carry a motor at the cranks, and which spindle has it?",
                measure: "Motor maker's plate.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (500, 9000),
                usual: (900, 4000),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
            AttributeSpec {
                attribute: Attribute::BearingOffset,
                field: "bearing_offset_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (0, 15000),
                usual: (0, 11000),
                question: "How far is the non-drive bearing of the shell moved outwards?",
                measure: "Frame maker's drawing; 0 where symmetric.",
            },
            AttributeSpec {
                attribute: Attribute::BrakeReach,
                field: "brake_reach_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (20000, 120000),
                usual: (39000, 73000),
                question: "How far is it from the brake bolt to the middle of the rim's brake track at the rear?",
                measure: "Rule, with the wheel in place that the frame was made for.",
            },
            AttributeSpec {
                attribute: Attribute::AxleLength,
                field: "axle_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (80000, 300000),
                usual: (160000, 200000),
                question: "How long is the rear thru-axle that the frame takes?",
                measure: "Measure the old one under its head, or read the frame maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::WideFlange,
                field: "wide_flange",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the rear end made for the wide-flange hub of its width?",
                measure: "Frame maker's list; at 157 mm a downhill and a wide-flange hub exist.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Fork,
        name: "fork",
        label: "fork",
        place: "fork",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::DropoutWidth,
                field: "dropout_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (60000, 160000),
                usual: (100000, 110000),
                question: "How wide is the fork between the dropouts?",
                measure: "Caliper between the inner faces.",
            },
            AttributeSpec {
                attribute: Attribute::Axle,
                field: "axle",
                form: Form::Interface("axle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which front axle does the fork take?",
                measure: "Open dropouts, or thru-axle with its diameter.",
            },
            AttributeSpec {
                attribute: Attribute::ThruAxlePitch,
                field: "thru_axle_pitch_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (750, 2000),
                usual: (1000, 1750),
                question: "Which thread pitch has the front thru-axle?",
                measure: "Thread gauge: 1.0, 1.5 or 1.75 mm.",
            },
            AttributeSpec {
                attribute: Attribute::MaxTyre,
                field: "max_tyre_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (18000, 132000),
                usual: (23000, 75000),
                question: "Which widest tyre does the fork take?",
                measure: "Maker's table, or measure the room at crown and legs.",
            },
            AttributeSpec {
                attribute: Attribute::BeadSeat,
                field: "bead_seat_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (137000, 800000),
                usual: (305000, 635000),
                question: "For which bead seat diameter was the fork made?",
                measure: "Second number of the tyre marking.",
            },
            AttributeSpec {
                attribute: Attribute::BrakeMount,
                field: "brake_mount",
                form: Form::Interface("brake-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which brake mount does the fork have?",
                measure: "Two posts, tabs, flat plate, or the hole of a rim brake.",
            },
            AttributeSpec {
                attribute: Attribute::NativeRotor,
                field: "native_rotor_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (120000, 250000),
                usual: (160000, 203000),
                question: "Which rotor does the mount take without an adapter?",
                measure: "Stamped beside the mount.",
            },
            AttributeSpec {
                attribute: Attribute::MaxRotor,
                field: "max_rotor_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (120000, 250000),
                usual: (160000, 220000),
                question: "Which largest rotor does the fork maker allow?",
                measure: "Fork maker's manual.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (200, 4500),
                usual: (350, 2800),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
            AttributeSpec {
                attribute: Attribute::BrakeReach,
                field: "brake_reach_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (20000, 120000),
                usual: (39000, 73000),
                question: "How far is it from the brake bolt to the middle of the rim's brake track at the front?",
                measure: "Rule, with the wheel in place that the fork was made for.",
            },
            AttributeSpec {
                attribute: Attribute::AxleLength,
                field: "axle_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (80000, 300000),
                usual: (100000, 160000),
                question: "How long is the front thru-axle that the fork takes?",
                measure: "Measure the old one under its head, or read the fork maker's list.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Rim,
        name: "rim",
        label: "rim",
        place: "rim",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::BeadSeat,
                field: "bead_seat_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (137000, 800000),
                usual: (305000, 635000),
                question: "Which bead seat diameter has the rim?",
                measure: "Second number of the marking: 622, 584, 559 ...",
            },
            AttributeSpec {
                attribute: Attribute::InnerWidth,
                field: "inner_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (11000, 110000),
                usual: (13000, 40000),
                question: "How wide is the rim inside?",
                measure: "Caliper between the side walls; on a rim marking 25-622 the 25 is this width.",
            },
            AttributeSpec {
                attribute: Attribute::RimSystem,
                field: "rim_system",
                form: Form::Words(&["hooked", "straight-side", "tubular", "old-straight-side"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the rim hooked, straight-side, or for tubular tyres?",
                measure: "Look at the side walls and the marking.",
            },
            AttributeSpec {
                attribute: Attribute::TubelessReady,
                field: "tubeless_ready",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the rim tubeless-ready?",
                measure: "Stated by the maker.",
            },
            AttributeSpec {
                attribute: Attribute::MaxPressure,
                field: "max_pressure_kpa",
                form: Form::Integer,
                unit: Unit::Kilopascals,
                hard: (100, 1400),
                usual: (300, 900),
                question: "Which highest pressure does the rim allow?",
                measure: "Marking or maker's table.",
            },
            AttributeSpec {
                attribute: Attribute::BrakeTrack,
                field: "brake_track",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the rim have a brake track?",
                measure: "Machined flat flanks.",
            },
            AttributeSpec {
                attribute: Attribute::RimMaterial,
                field: "rim_material",
                form: Form::Words(&["aluminium", "carbon", "steel"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Of what is the brake track?",
                measure: "Look and knock.",
            },
            AttributeSpec {
                attribute: Attribute::ValveHole,
                field: "valve_hole_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (5500, 9500),
                usual: (6500, 8500),
                question: "How wide is the valve hole?",
                measure: "6.5 mm or 8.5 mm.",
            },
            AttributeSpec {
                attribute: Attribute::RimDepth,
                field: "rim_depth_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (8000, 120000),
                usual: (12000, 80000),
                question: "How deep is the rim?",
                measure: "Caliper.",
            },
            AttributeSpec {
                attribute: Attribute::SpokeCount,
                field: "spoke_count",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (12, 48),
                usual: (20, 36),
                question: "How many spoke holes has the rim?",
                measure: "Count them.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (150, 1500),
                usual: (300, 700),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Tyre,
        name: "tyre",
        label: "tyre",
        place: "tyre",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::BeadSeat,
                field: "bead_seat_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (137000, 800000),
                usual: (305000, 635000),
                question: "Which bead seat diameter has the tyre?",
                measure: "Second number of the marking: 37-622 fits 622.",
            },
            AttributeSpec {
                attribute: Attribute::TyreWidth,
                field: "tyre_width_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (18000, 132000),
                usual: (23000, 75000),
                question: "Which nominal width has the tyre?",
                measure: "First number of the marking: 37-622 is 37 mm.",
            },
            AttributeSpec {
                attribute: Attribute::TyreSystem,
                field: "tyre_system",
                form: Form::Words(&["wired-on", "tubeless-ready", "tubular", "solid"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the tyre wired-on for a tube, tubeless-ready, tubular, or solid?",
                measure: "Read the sidewall.",
            },
            AttributeSpec {
                attribute: Attribute::StraightSideApproved,
                field: "straight_side_approved",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the tyre maker approve straight-side (hookless) rims?",
                measure: "Maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::MaxPressure,
                field: "max_pressure_kpa",
                form: Form::Integer,
                unit: Unit::Kilopascals,
                hard: (100, 1400),
                usual: (200, 900),
                question: "Which highest pressure is on the sidewall?",
                measure: "Read the sidewall.",
            },
            AttributeSpec {
                attribute: Attribute::MinPressure,
                field: "min_pressure_kpa",
                form: Form::Integer,
                unit: Unit::Kilopascals,
                hard: (50, 1000),
                usual: (100, 500),
                question: "Which lowest pressure is on the sidewall?",
                measure: "Read the sidewall.",
            },
            AttributeSpec {
                attribute: Attribute::Studded,
                field: "studded",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the tyre have studs?",
                measure: "Look.",
            },
            AttributeSpec {
                attribute: Attribute::EBikeRated,
                field: "e_bike_rated",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the tyre rated for e-bikes?",
                measure: "Read the sidewall.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (120, 2000),
                usual: (200, 1100),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
            AttributeSpec {
                attribute: Attribute::WithoutTube,
                field: "without_tube",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the tyre to be ridden without a tube?",
                measure: "Ask the rider.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Tube,
        name: "tube",
        label: "tube",
        place: "tube",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MinBeadSeat,
                field: "min_bead_seat_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (137000, 800000),
                usual: (305000, 635000),
                question: "Which smallest bead seat diameter is on the tube's box?",
                measure: "Read the box.",
            },
            AttributeSpec {
                attribute: Attribute::MinTyre,
                field: "min_tyre_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (18000, 132000),
                usual: (18000, 75000),
                question: "Which narrowest tyre is on the tube's box?",
                measure: "Read the box.",
            },
            AttributeSpec {
                attribute: Attribute::Valve,
                field: "valve",
                form: Form::Words(&["thin", "wide", "dunlop-style"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which valve has the tube?",
                measure: "Thin with a lock nut, or wide.",
            },
            AttributeSpec {
                attribute: Attribute::ValveLength,
                field: "valve_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (20000, 130000),
                usual: (32000, 80000),
                question: "How long is the valve?",
                measure: "Rule.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (20, 500),
                usual: (60, 250),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
            AttributeSpec {
                attribute: Attribute::MaxBeadSeat,
                field: "max_bead_seat_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (137000, 800000),
                usual: (305000, 635000),
                question: "Which largest bead seat diameter is on the tube's box?",
                measure: "Read the box.",
            },
            AttributeSpec {
                attribute: Attribute::MaxTyre,
                field: "max_tyre_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (18000, 132000),
                usual: (18000, 75000),
                question: "Which widest tyre is on the tube's box?",
                measure: "Read the box.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Axle,
        name: "axle",
        label: "axle",
        place: "axle",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Axle,
                field: "axle",
                form: Form::Interface("axle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which axle is it?",
                measure: "Quick release, nutted, or thru-axle with its diameter.",
            },
            AttributeSpec {
                attribute: Attribute::AxleLength,
                field: "axle_length_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (80000, 300000),
                usual: (100000, 230000),
                question: "How long is the axle?",
                measure: "Rule.",
            },
            AttributeSpec {
                attribute: Attribute::ThruAxlePitch,
                field: "thru_axle_pitch_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (750, 2000),
                usual: (1000, 1750),
                question: "Which thread pitch has the axle?",
                measure: "Thread gauge: 1.0, 1.5 or 1.75 mm.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (20, 400),
                usual: (30, 120),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::EndCaps,
        name: "end_caps",
        label: "end caps",
        place: "end-caps",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Axle,
                field: "axle",
                form: Form::Interface("axle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which axle do the caps make?",
                measure: "Read the hub maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::OverLocknut,
                field: "over_locknut_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (65000, 250000),
                usual: (100000, 157000),
                question: "Which hub width do the caps make?",
                measure: "Read the hub maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::HubInterface,
                field: "hub_interface",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "For which hub are the caps made?",
                measure: "Caps are hub-specific: read the hub maker's list.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (5, 120),
                usual: (10, 60),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::GearHub,
        name: "gear_hub",
        label: "gear hub",
        place: "hub",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::GearCount,
                field: "gear_count",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (2, 14),
                usual: (3, 14),
                question: "How many gears has the hub?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::HubRatios,
                field: "hub_ratios_permille",
                form: Form::List,
                unit: Unit::Permille,
                hard: (200, 3000),
                usual: (279, 2153),
                question: "Which internal ratios has the hub?",
                measure: "Maker's table.",
            },
            AttributeSpec {
                attribute: Attribute::MinPrimaryRatio,
                field: "min_primary_ratio_permille",
                form: Form::Integer,
                unit: Unit::Permille,
                hard: (500, 4000),
                usual: (1300, 2500),
                question: "Which least primary ratio does the hub maker allow?",
                measure: "Maker's table, with the rider mass it holds for.",
            },
            AttributeSpec {
                attribute: Attribute::GearHubShifter,
                field: "gear_hub_shifter",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which shifter does the hub take?",
                measure: "Maker's table.",
            },
            AttributeSpec {
                attribute: Attribute::MountFamily,
                field: "mount_family",
                form: Form::Interface("freehub"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which driver does the hub have?",
                measure: "Three lugs and a snap ring, or nine splines.",
            },
            AttributeSpec {
                attribute: Attribute::OverLocknut,
                field: "over_locknut_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (65000, 250000),
                usual: (110000, 148000),
                question: "How wide is the hub over the locknuts?",
                measure: "Caliper between the faces that touch the frame.",
            },
            AttributeSpec {
                attribute: Attribute::Axle,
                field: "axle",
                form: Form::Interface("axle"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which axle does the hub have?",
                measure: "Nutted, quick release or thru-axle.",
            },
            AttributeSpec {
                attribute: Attribute::RotorMount,
                field: "rotor_mount",
                form: Form::Interface("rotor-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which rotor seat does the hub have?",
                measure: "Six bolts, or splines with a lockring.",
            },
            AttributeSpec {
                attribute: Attribute::BackPedalBrake,
                field: "back_pedal_brake",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the hub have a back-pedal brake?",
                measure: "Turn the pedals backwards.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (400, 4000),
                usual: (900, 2500),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::GearHubShifter,
        name: "gear_hub_shifter",
        label: "gear-hub shifter",
        place: "rear-shifter",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Positions,
                field: "positions",
                form: Form::Integer,
                unit: Unit::Count,
                hard: (2, 14),
                usual: (3, 14),
                question: "How many gears does the shifter have?",
                measure: "Count the positions.",
            },
            AttributeSpec {
                attribute: Attribute::GearHubShifter,
                field: "gear_hub_shifter",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "For which hub is the shifter?",
                measure: "Maker's table.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (30, 400),
                usual: (60, 250),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Rotor,
        name: "rotor",
        label: "brake rotor",
        place: "rotor",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Rotor,
                field: "rotor_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (120000, 250000),
                usual: (140000, 220000),
                question: "Which diameter has the rotor?",
                measure: "Stamped on the rotor.",
            },
            AttributeSpec {
                attribute: Attribute::RotorMount,
                field: "rotor_mount",
                form: Form::Interface("rotor-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it a six-bolt or a splined rotor?",
                measure: "Look at the centre.",
            },
            AttributeSpec {
                attribute: Attribute::RotorThickness,
                field: "rotor_thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1200, 3000),
                usual: (1500, 2000),
                question: "How thick is the rotor?",
                measure: "Caliper; the least thickness is printed on it.",
            },
            AttributeSpec {
                attribute: Attribute::ResinOnly,
                field: "resin_only",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the rotor marked for resin pads only?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (50, 400),
                usual: (80, 250),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::BrakeCaliper,
        name: "brake_caliper",
        label: "brake",
        place: "brake",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::BrakeMount,
                field: "brake_mount",
                form: Form::Interface("brake-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "How is the brake mounted?",
                measure: "Two posts, tabs, flat plate, or one bolt above the rim.",
            },
            AttributeSpec {
                attribute: Attribute::BrakeActuation,
                field: "brake_actuation",
                form: Form::Words(&["cable", "hydraulic"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it worked by cable or by fluid?",
                measure: "Follow the line.",
            },
            AttributeSpec {
                attribute: Attribute::LeverPull,
                field: "lever_pull",
                form: Form::Words(&["long", "short", "road-8mm"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which cable pull does the brake need?",
                measure: "Long-arm brakes need long pull.",
            },
            AttributeSpec {
                attribute: Attribute::Fluid,
                field: "fluid",
                form: Form::Words(&["mineral", "mineral-low-viscosity", "glycol", "silicone"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which fluid does the brake use?",
                measure: "Printed on the lever lid; never guess.",
            },
            AttributeSpec {
                attribute: Attribute::FluidMaker,
                field: "fluid_maker",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which maker's oil is prescribed?",
                measure: "Read the manual.",
            },
            AttributeSpec {
                attribute: Attribute::RotorThickness,
                field: "rotor_thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (1200, 3000),
                usual: (1800, 2000),
                question: "For which rotor thickness is the caliper made?",
                measure: "Manual.",
            },
            AttributeSpec {
                attribute: Attribute::PadShape,
                field: "pad_shape",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which pad shape does it take?",
                measure: "Compare with the old pad.",
            },
            AttributeSpec {
                attribute: Attribute::MinReach,
                field: "min_reach_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (20000, 110000),
                usual: (39000, 55000),
                question: "Which shortest reach has the rim brake?",
                measure: "From bolt centre to the middle of the pad at the top of its slot.",
            },
            AttributeSpec {
                attribute: Attribute::RimBrake,
                field: "rim_brake",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does it brake on the rim?",
                measure: "Look.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (40, 600),
                usual: (90, 350),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
            AttributeSpec {
                attribute: Attribute::MaxReach,
                field: "max_reach_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (20000, 110000),
                usual: (47000, 73000),
                question: "Which longest reach has the rim brake?",
                measure: "From bolt centre to the middle of the pad at the bottom of its slot.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::BrakeLever,
        name: "brake_lever",
        label: "brake lever",
        place: "brake-lever",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::BrakeActuation,
                field: "brake_actuation",
                form: Form::Words(&["cable", "hydraulic"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does it work a cable or fluid?",
                measure: "Follow the line.",
            },
            AttributeSpec {
                attribute: Attribute::LeverPull,
                field: "lever_pull",
                form: Form::Words(&["long", "short", "road-8mm"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which cable pull has the lever?",
                measure: "Cable travel at full stroke: about 15, 8 or 7 mm.",
            },
            AttributeSpec {
                attribute: Attribute::Fluid,
                field: "fluid",
                form: Form::Words(&["mineral", "mineral-low-viscosity", "glycol", "silicone"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which fluid does the lever use?",
                measure: "Printed on the lid; never guess.",
            },
            AttributeSpec {
                attribute: Attribute::FluidMaker,
                field: "fluid_maker",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which maker's oil is prescribed?",
                measure: "Read the manual.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (30, 500),
                usual: (60, 300),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::BrakeAdapter,
        name: "brake_adapter",
        label: "brake adapter",
        place: "brake-adapter",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::BrakeMount,
                field: "brake_mount",
                form: Form::Interface("brake-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "For which mount is the adapter?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::CaliperMount,
                field: "caliper_mount",
                form: Form::Interface("brake-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "For which caliper mount is the adapter?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::RotorStep,
                field: "rotor_step_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (0, 80000),
                usual: (0, 63000),
                question: "By how much does it enlarge the rotor?",
                measure: "Read the marking.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (5, 120),
                usual: (10, 60),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::BrakePads,
        name: "brake_pads",
        label: "brake pads",
        place: "brake-pads",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::PadShape,
                field: "pad_shape",
                form: Form::FreeKey,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which shape have the pads?",
                measure: "Compare with the old ones.",
            },
            AttributeSpec {
                attribute: Attribute::PadCompound,
                field: "pad_compound",
                form: Form::Words(&["resin", "sintered", "semi-metallic", "rim-aluminium", "rim-carbon"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which compound are the pads?",
                measure: "Read the back plate.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (5, 200),
                usual: (10, 60),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Motor,
        name: "motor",
        label: "motor",
        place: "motor",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MotorPlace,
                field: "motor_place",
                form: Form::Words(&["mid", "rear-hub", "front-hub"]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does the motor drive the cranks or a hub?",
                measure: "Look.",
            },
            AttributeSpec {
                attribute: Attribute::SmallestRing,
                field: "smallest_ring",
                form: Form::Integer,
                unit: Unit::Teeth,
                hard: (18, 60),
                usual: (28, 46),
                question: "Which smallest ring clears the motor?",
                measure: "Maker's table.",
            },
            AttributeSpec {
                attribute: Attribute::RingMount,
                field: "ring_mount",
                form: Form::Interface("ring-mount"),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Which ring pattern does the motor carry?",
                measure: "Maker's table.",
            },
            AttributeSpec {
                attribute: Attribute::MotorTorque,
                field: "motor_torque_nm",
                form: Form::Integer,
                unit: Unit::NewtonMetres,
                hard: (10, 200),
                usual: (35, 120),
                question: "Which torque has the motor?",
                measure: "Plate.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (800, 9000),
                usual: (1500, 4500),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Belt,
        name: "belt",
        label: "drive belt",
        place: "chain",
        not_judged: "belt drive is not judged",
        attributes: &[AttributeSpec {
            attribute: Attribute::Mass,
            field: "mass_g",
            form: Form::Integer,
            unit: Unit::Grams,
            hard: (50, 300),
            usual: (70, 150),
            question: "What does it weigh?",
            measure: "Weigh it, or read the maker's page.",
        }],
        children: &[],
    },
    KindSpec {
        kind: Kind::Accessory,
        name: "accessory",
        label: "accessory",
        place: "",
        not_judged: "accessories are not judged",
        attributes: &[AttributeSpec {
            attribute: Attribute::Mass,
            field: "mass_g",
            form: Form::Integer,
            unit: Unit::Grams,
            hard: (1, 20000),
            usual: (1, 3000),
            question: "What does it weigh?",
            measure: "Weigh it, or read the maker's page.",
        }],
        children: &[],
    },
    KindSpec {
        kind: Kind::Wheel,
        name: "wheel",
        label: "wheel",
        place: "wheel",
        not_judged: "",
        attributes: &[AttributeSpec {
            attribute: Attribute::Mass,
            field: "mass_g",
            form: Form::Integer,
            unit: Unit::Grams,
            hard: (300, 8000),
            usual: (600, 2500),
            question: "What does it weigh?",
            measure: "Weigh it, or read the maker's page.",
        }],
        children: &[
            Child { name: "hub", kind: Kind::Hub },
            Child { name: "gear_hub", kind: Kind::GearHub },
            Child { name: "rim", kind: Kind::Rim },
            Child { name: "tyre", kind: Kind::Tyre },
            Child { name: "cassette", kind: Kind::Cassette },
            Child { name: "freewheel", kind: Kind::Freewheel },
        ],
    },
    KindSpec {
        kind: Kind::BrakeShiftLever,
        name: "brake_shift_lever",
        label: "brake-shift lever",
        place: "brake-shift-lever",
        not_judged: "",
        attributes: &[AttributeSpec {
            attribute: Attribute::Mass,
            field: "mass_g",
            form: Form::Integer,
            unit: Unit::Grams,
            hard: (80, 900),
            usual: (150, 450),
            question: "What does it weigh?",
            measure: "Weigh it, or read the maker's page.",
        }],
        children: &[
            Child { name: "rear_shifter", kind: Kind::RearShifter },
            Child { name: "front_shifter", kind: Kind::FrontShifter },
            Child { name: "brake_lever", kind: Kind::BrakeLever },
        ],
    },
    KindSpec {
        kind: Kind::Fitting,
        name: "fitting",
        label: "fitting",
        place: "",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::Fitting,
                field: "fitting",
                form: Form::Words(&[
                    "bearing-sleeve",
                    "shell-spacers",
                    "derailleur-band",
                    "band-shim",
                    "cable-pulley",
                    "axle-spacers",
                    "rotor-adapter",
                    "caliper-shims",
                    "valve-grommet",
                    "valve-extender",
                    "tubeless-valve",
                    "rim-tape",
                ]),
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "What kind of fitting is it?",
                measure: "Read the box.",
            },
            AttributeSpec {
                attribute: Attribute::Thickness,
                field: "thickness_um",
                form: Form::Integer,
                unit: Unit::Micrometres,
                hard: (100, 30000),
                usual: (500, 10000),
                question: "How thick is the fitting?",
                measure: "Caliper.",
            },
            AttributeSpec {
                attribute: Attribute::Mass,
                field: "mass_g",
                form: Form::Integer,
                unit: Unit::Grams,
                hard: (1, 500),
                usual: (2, 100),
                question: "What does it weigh?",
                measure: "Weigh it, or read the maker's page.",
            },
        ],
        children: &[],
    },
    KindSpec {
        kind: Kind::Use,
        name: "use",
        label: "use",
        place: "",
        not_judged: "",
        attributes: &[
            AttributeSpec {
                attribute: Attribute::MidMotor,
                field: "mid_motor",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does a motor drive the cranks?",
                measure: "Look at the bottom bracket.",
            },
            AttributeSpec {
                attribute: Attribute::HubMotor,
                field: "hub_motor",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Does a motor drive the hub?",
                measure: "Look at the hubs.",
            },
            AttributeSpec {
                attribute: Attribute::AssistLimit,
                field: "assist_limit_kmh",
                form: Form::Integer,
                unit: Unit::KilometresPerHour,
                hard: (6, 60),
                usual: (20, 45),
                question: "Up to which speed does the motor help?",
                measure: "Read the plate: 25 or 45 km/h.",
            },
            AttributeSpec {
                attribute: Attribute::Tandem,
                field: "tandem",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is it a tandem?",
                measure: "Look.",
            },
            AttributeSpec {
                attribute: Attribute::RoughGround,
                field: "rough_ground",
                form: Form::Flag,
                unit: Unit::None,
                hard: (0, 0),
                usual: (0, 0),
                question: "Is the bike ridden on rough ground?",
                measure: "Ask the rider.",
            },
            AttributeSpec {
                attribute: Attribute::SystemMass,
                field: "system_mass_kg",
                form: Form::Integer,
                unit: Unit::Kilograms,
                hard: (20, 500),
                usual: (50, 200),
                question: "What do bike, rider and load weigh together?",
                measure: "Add them up.",
            },
        ],
        children: &[],
    },
];
