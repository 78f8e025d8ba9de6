//! Conversions between kind messages and engine parts, attribute by attribute.
//!
//! Generated from proto/sprag/v1 by sprag-codegen; do not edit.

#![allow(clippy::too_many_lines)]

use sprag_engine::part::{Attribute, Kind};
use sprag_proto::v1 as pb;

use super::decode::Reader;

/// Reads the kind of a part with its attributes.
pub fn read_kind(kind: &pb::part::Kind, reader: &mut Reader<'_>) {
    match kind {
        pb::part::Kind::Cassette(message) => {
            reader.inside("cassette", |reader| read_cassette(message, reader))
        }
        pb::part::Kind::Freewheel(message) => {
            reader.inside("freewheel", |reader| read_freewheel(message, reader))
        }
        pb::part::Kind::Sprocket(message) => {
            reader.inside("sprocket", |reader| read_sprocket(message, reader))
        }
        pb::part::Kind::FreehubBody(message) => {
            reader.inside("freehub_body", |reader| read_freehub_body(message, reader))
        }
        pb::part::Kind::Hub(message) => reader.inside("hub", |reader| read_hub(message, reader)),
        pb::part::Kind::Spacer(message) => reader.inside("spacer", |reader| read_spacer(message, reader)),
        pb::part::Kind::Lockring(message) => {
            reader.inside("lockring", |reader| read_lockring(message, reader))
        }
        pb::part::Kind::Chain(message) => reader.inside("chain", |reader| read_chain(message, reader)),
        pb::part::Kind::QuickLink(message) => {
            reader.inside("quick_link", |reader| read_quick_link(message, reader))
        }
        pb::part::Kind::RearDerailleur(message) => {
            reader.inside("rear_derailleur", |reader| read_rear_derailleur(message, reader))
        }
        pb::part::Kind::RearShifter(message) => {
            reader.inside("rear_shifter", |reader| read_rear_shifter(message, reader))
        }
        pb::part::Kind::HangerExtender(message) => {
            reader.inside("hanger_extender", |reader| read_hanger_extender(message, reader))
        }
        pb::part::Kind::Hanger(message) => reader.inside("hanger", |reader| read_hanger(message, reader)),
        pb::part::Kind::DerailleurLink(message) => {
            reader.inside("derailleur_link", |reader| read_derailleur_link(message, reader))
        }
        pb::part::Kind::CablePullConverter(message) => {
            reader.inside("cable_pull_converter", |reader| read_cable_pull_converter(message, reader))
        }
        pb::part::Kind::ChainGuide(message) => {
            reader.inside("chain_guide", |reader| read_chain_guide(message, reader))
        }
        pb::part::Kind::Chainring(message) => {
            reader.inside("chainring", |reader| read_chainring(message, reader))
        }
        pb::part::Kind::Crankset(message) => {
            reader.inside("crankset", |reader| read_crankset(message, reader))
        }
        pb::part::Kind::BottomBracket(message) => {
            reader.inside("bottom_bracket", |reader| read_bottom_bracket(message, reader))
        }
        pb::part::Kind::FrontDerailleur(message) => {
            reader.inside("front_derailleur", |reader| read_front_derailleur(message, reader))
        }
        pb::part::Kind::FrontShifter(message) => {
            reader.inside("front_shifter", |reader| read_front_shifter(message, reader))
        }
        pb::part::Kind::Pedal(message) => reader.inside("pedal", |reader| read_pedal(message, reader)),
        pb::part::Kind::Frame(message) => reader.inside("frame", |reader| read_frame(message, reader)),
        pb::part::Kind::Fork(message) => reader.inside("fork", |reader| read_fork(message, reader)),
        pb::part::Kind::Rim(message) => reader.inside("rim", |reader| read_rim(message, reader)),
        pb::part::Kind::Tyre(message) => reader.inside("tyre", |reader| read_tyre(message, reader)),
        pb::part::Kind::Tube(message) => reader.inside("tube", |reader| read_tube(message, reader)),
        pb::part::Kind::Axle(message) => reader.inside("axle", |reader| read_axle(message, reader)),
        pb::part::Kind::EndCaps(message) => {
            reader.inside("end_caps", |reader| read_end_caps(message, reader))
        }
        pb::part::Kind::GearHub(message) => {
            reader.inside("gear_hub", |reader| read_gear_hub(message, reader))
        }
        pb::part::Kind::GearHubShifter(message) => {
            reader.inside("gear_hub_shifter", |reader| read_gear_hub_shifter(message, reader))
        }
        pb::part::Kind::Rotor(message) => reader.inside("rotor", |reader| read_rotor(message, reader)),
        pb::part::Kind::BrakeCaliper(message) => {
            reader.inside("brake_caliper", |reader| read_brake_caliper(message, reader))
        }
        pb::part::Kind::BrakeLever(message) => {
            reader.inside("brake_lever", |reader| read_brake_lever(message, reader))
        }
        pb::part::Kind::BrakeAdapter(message) => {
            reader.inside("brake_adapter", |reader| read_brake_adapter(message, reader))
        }
        pb::part::Kind::BrakePads(message) => {
            reader.inside("brake_pads", |reader| read_brake_pads(message, reader))
        }
        pb::part::Kind::Motor(message) => reader.inside("motor", |reader| read_motor(message, reader)),
        pb::part::Kind::Belt(message) => reader.inside("belt", |reader| read_belt(message, reader)),
        pb::part::Kind::Accessory(message) => {
            reader.inside("accessory", |reader| read_accessory(message, reader))
        }
        pb::part::Kind::Wheel(message) => reader.inside("wheel", |reader| read_wheel(message, reader)),
        pb::part::Kind::BrakeShiftLever(message) => {
            reader.inside("brake_shift_lever", |reader| read_brake_shift_lever(message, reader))
        }
        pb::part::Kind::Fitting(message) => reader.inside("fitting", |reader| read_fitting(message, reader)),
    }
}

/// The engine's kind of a message.
pub fn kind_of(kind: &pb::part::Kind) -> Kind {
    match kind {
        pb::part::Kind::Cassette(_) => Kind::Cassette,
        pb::part::Kind::Freewheel(_) => Kind::Freewheel,
        pb::part::Kind::Sprocket(_) => Kind::Sprocket,
        pb::part::Kind::FreehubBody(_) => Kind::FreehubBody,
        pb::part::Kind::Hub(_) => Kind::Hub,
        pb::part::Kind::Spacer(_) => Kind::Spacer,
        pb::part::Kind::Lockring(_) => Kind::Lockring,
        pb::part::Kind::Chain(_) => Kind::Chain,
        pb::part::Kind::QuickLink(_) => Kind::QuickLink,
        pb::part::Kind::RearDerailleur(_) => Kind::RearDerailleur,
        pb::part::Kind::RearShifter(_) => Kind::RearShifter,
        pb::part::Kind::HangerExtender(_) => Kind::HangerExtender,
        pb::part::Kind::Hanger(_) => Kind::Hanger,
        pb::part::Kind::DerailleurLink(_) => Kind::DerailleurLink,
        pb::part::Kind::CablePullConverter(_) => Kind::CablePullConverter,
        pb::part::Kind::ChainGuide(_) => Kind::ChainGuide,
        pb::part::Kind::Chainring(_) => Kind::Chainring,
        pb::part::Kind::Crankset(_) => Kind::Crankset,
        pb::part::Kind::BottomBracket(_) => Kind::BottomBracket,
        pb::part::Kind::FrontDerailleur(_) => Kind::FrontDerailleur,
        pb::part::Kind::FrontShifter(_) => Kind::FrontShifter,
        pb::part::Kind::Pedal(_) => Kind::Pedal,
        pb::part::Kind::Frame(_) => Kind::Frame,
        pb::part::Kind::Fork(_) => Kind::Fork,
        pb::part::Kind::Rim(_) => Kind::Rim,
        pb::part::Kind::Tyre(_) => Kind::Tyre,
        pb::part::Kind::Tube(_) => Kind::Tube,
        pb::part::Kind::Axle(_) => Kind::Axle,
        pb::part::Kind::EndCaps(_) => Kind::EndCaps,
        pb::part::Kind::GearHub(_) => Kind::GearHub,
        pb::part::Kind::GearHubShifter(_) => Kind::GearHubShifter,
        pb::part::Kind::Rotor(_) => Kind::Rotor,
        pb::part::Kind::BrakeCaliper(_) => Kind::BrakeCaliper,
        pb::part::Kind::BrakeLever(_) => Kind::BrakeLever,
        pb::part::Kind::BrakeAdapter(_) => Kind::BrakeAdapter,
        pb::part::Kind::BrakePads(_) => Kind::BrakePads,
        pb::part::Kind::Motor(_) => Kind::Motor,
        pb::part::Kind::Belt(_) => Kind::Belt,
        pb::part::Kind::Accessory(_) => Kind::Accessory,
        pb::part::Kind::Wheel(_) => Kind::Wheel,
        pb::part::Kind::BrakeShiftLever(_) => Kind::BrakeShiftLever,
        pb::part::Kind::Fitting(_) => Kind::Fitting,
    }
}

/// Reads the attributes of a cassette.
pub fn read_cassette(message: &pb::Cassette, reader: &mut Reader<'_>) {
    reader.begin(Kind::Cassette);
    reader.key(Attribute::MountFamily, "mount_family", message.mount_family.as_ref());
    reader.integer(Attribute::RequiredLength, "required_length_um", message.required_length_um.as_ref());
    reader.list(Attribute::Cogs, "cogs", message.cogs.as_ref());
    reader.integer(Attribute::CogCount, "cog_count", message.cog_count.as_ref());
    reader.integer(Attribute::SmallestCog, "smallest_cog", message.smallest_cog.as_ref());
    reader.integer(Attribute::LargestCog, "largest_cog", message.largest_cog.as_ref());
    reader.integer(Attribute::ChainClass, "chain_class", message.chain_class.as_ref());
    reader.integer(Attribute::CogPitch, "cog_pitch_um", message.cog_pitch_um.as_ref());
    reader.integer(Attribute::CogThickness, "cog_thickness_um", message.cog_thickness_um.as_ref());
    reader.key(Attribute::ChainProfile, "chain_profile", message.chain_profile.as_ref());
    reader.key(Attribute::GrooveDepth, "groove_depth", message.groove_depth.as_ref());
    reader.key(Attribute::CogFixing, "cog_fixing", message.cog_fixing.as_ref());
    reader.key(Attribute::LockringThread, "lockring_thread", message.lockring_thread.as_ref());
    reader.key(Attribute::LockringSize, "lockring_size", message.lockring_size.as_ref());
    reader.flag(Attribute::CutDown, "cut_down", message.cut_down.as_ref());
    reader.flag(Attribute::OutermostCogKept, "outermost_cog_kept", message.outermost_cog_kept.as_ref());
    reader.flag(Attribute::LightAlloyCogs, "light_alloy_cogs", message.light_alloy_cogs.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a freewheel.
pub fn read_freewheel(message: &pb::Freewheel, reader: &mut Reader<'_>) {
    reader.begin(Kind::Freewheel);
    reader.key(Attribute::HubThread, "hub_thread", message.hub_thread.as_ref());
    reader.list(Attribute::Cogs, "cogs", message.cogs.as_ref());
    reader.integer(Attribute::CogCount, "cog_count", message.cog_count.as_ref());
    reader.integer(Attribute::SmallestCog, "smallest_cog", message.smallest_cog.as_ref());
    reader.integer(Attribute::LargestCog, "largest_cog", message.largest_cog.as_ref());
    reader.integer(Attribute::ChainClass, "chain_class", message.chain_class.as_ref());
    reader.integer(Attribute::CogPitch, "cog_pitch_um", message.cog_pitch_um.as_ref());
    reader.integer(Attribute::CogThickness, "cog_thickness_um", message.cog_thickness_um.as_ref());
    reader.key(Attribute::ChainProfile, "chain_profile", message.chain_profile.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a sprocket.
pub fn read_sprocket(message: &pb::Sprocket, reader: &mut Reader<'_>) {
    reader.begin(Kind::Sprocket);
    reader.key(Attribute::MountFamily, "mount_family", message.mount_family.as_ref());
    reader.key(Attribute::HubThread, "hub_thread", message.hub_thread.as_ref());
    reader.flag(Attribute::Fixed, "fixed", message.fixed.as_ref());
    reader.integer(Attribute::Teeth, "teeth", message.teeth.as_ref());
    reader.integer(Attribute::CogThickness, "cog_thickness_um", message.cog_thickness_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a freehub body.
pub fn read_freehub_body(message: &pb::FreehubBody, reader: &mut Reader<'_>) {
    reader.begin(Kind::FreehubBody);
    reader.key(Attribute::MountFamily, "mount_family", message.mount_family.as_ref());
    reader.integer(Attribute::BodyLength, "body_length_um", message.body_length_um.as_ref());
    reader.integer(Attribute::MinCog, "min_cog", message.min_cog.as_ref());
    reader.key(Attribute::BodyMaterial, "body_material", message.body_material.as_ref());
    reader.key(Attribute::LockringThread, "lockring_thread", message.lockring_thread.as_ref());
    reader.key(Attribute::HubInterface, "hub_interface", message.hub_interface.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a hub.
pub fn read_hub(message: &pb::Hub, reader: &mut Reader<'_>) {
    reader.begin(Kind::Hub);
    reader.key(Attribute::HubThread, "hub_thread", message.hub_thread.as_ref());
    reader.flag(Attribute::FixedStep, "fixed_step", message.fixed_step.as_ref());
    reader.key(Attribute::HubInterface, "hub_interface", message.hub_interface.as_ref());
    reader.integer(Attribute::OverLocknut, "over_locknut_um", message.over_locknut_um.as_ref());
    reader.key(Attribute::Axle, "axle", message.axle.as_ref());
    reader.key(Attribute::RotorMount, "rotor_mount", message.rotor_mount.as_ref());
    reader.integer(Attribute::LocknutToCog, "locknut_to_cog_um", message.locknut_to_cog_um.as_ref());
    reader.integer(Attribute::MaxRotor, "max_rotor_um", message.max_rotor_um.as_ref());
    reader.integer(Attribute::SpokeCount, "spoke_count", message.spoke_count.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    reader.flag(Attribute::EndCaps, "end_caps", message.end_caps.as_ref());
    reader.flag(Attribute::WideningKit, "widening_kit", message.widening_kit.as_ref());
    reader.flag(Attribute::WideFlange, "wide_flange", message.wide_flange.as_ref());
    if let Some(child) = &message.freehub_body {
        reader.child("freehub_body", None, |reader| read_freehub_body(child, reader));
    }
}

/// Reads the attributes of a cassette spacer.
pub fn read_spacer(message: &pb::Spacer, reader: &mut Reader<'_>) {
    reader.begin(Kind::Spacer);
    reader.key(Attribute::MountFamily, "mount_family", message.mount_family.as_ref());
    reader.integer(Attribute::Thickness, "thickness_um", message.thickness_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a cassette lockring.
pub fn read_lockring(message: &pb::Lockring, reader: &mut Reader<'_>) {
    reader.begin(Kind::Lockring);
    reader.key(Attribute::LockringThread, "lockring_thread", message.lockring_thread.as_ref());
    reader.key(Attribute::LockringSize, "lockring_size", message.lockring_size.as_ref());
    reader.integer(Attribute::Torque, "torque_nm", message.torque_nm.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a chain.
pub fn read_chain(message: &pb::Chain, reader: &mut Reader<'_>) {
    reader.begin(Kind::Chain);
    reader.integer(Attribute::ChainSpeed, "chain_speed", message.chain_speed.as_ref());
    reader.flag(Attribute::Labelled678, "labelled_6_7_8", message.labelled_6_7_8.as_ref());
    reader.integer(Attribute::OuterWidth, "outer_width_um", message.outer_width_um.as_ref());
    reader.integer(Attribute::InnerWidth, "inner_width_um", message.inner_width_um.as_ref());
    reader.key(Attribute::ChainProfile, "chain_profile", message.chain_profile.as_ref());
    reader.integer(Attribute::LinkCount, "link_count", message.link_count.as_ref());
    reader.flag(Attribute::CutToLength, "cut_to_length", message.cut_to_length.as_ref());
    reader.flag(Attribute::Worn, "worn", message.worn.as_ref());
    reader.flag(Attribute::EBikeRated, "e_bike_rated", message.e_bike_rated.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a quick link.
pub fn read_quick_link(message: &pb::QuickLink, reader: &mut Reader<'_>) {
    reader.begin(Kind::QuickLink);
    reader.integer(Attribute::ChainSpeed, "chain_speed", message.chain_speed.as_ref());
    reader.flag(Attribute::Labelled678, "labelled_6_7_8", message.labelled_6_7_8.as_ref());
    reader.key(Attribute::ChainProfile, "chain_profile", message.chain_profile.as_ref());
    reader.flag(Attribute::Reusable, "reusable", message.reusable.as_ref());
    reader.flag(Attribute::Used, "used", message.used.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a rear derailleur.
pub fn read_rear_derailleur(message: &pb::RearDerailleur, reader: &mut Reader<'_>) {
    reader.begin(Kind::RearDerailleur);
    reader.integer(Attribute::MaxCog, "max_cog", message.max_cog.as_ref());
    reader.integer(Attribute::MinLargestCog, "min_largest_cog", message.min_largest_cog.as_ref());
    reader.integer(Attribute::MinCog, "min_cog", message.min_cog.as_ref());
    reader.integer(Attribute::Capacity, "capacity", message.capacity.as_ref());
    reader.integer(
        Attribute::MaxFrontDifference,
        "max_front_difference",
        message.max_front_difference.as_ref(),
    );
    reader.integer(Attribute::DeclaredSpeeds, "declared_speeds", message.declared_speeds.as_ref());
    reader.key(Attribute::Cage, "cage", message.cage.as_ref());
    reader.key(Attribute::Geometry, "geometry", message.geometry.as_ref());
    reader.integer(Attribute::BGap, "b_gap_um", message.b_gap_um.as_ref());
    reader.flag(Attribute::Clutch, "clutch", message.clutch.as_ref());
    reader.key(Attribute::PullFamily, "pull_family", message.pull_family.as_ref());
    reader.integer(Attribute::ShiftRatio, "shift_ratio_permille", message.shift_ratio_permille.as_ref());
    reader.key(Attribute::DerailleurMount, "derailleur_mount", message.derailleur_mount.as_ref());
    reader.flag(Attribute::LinkFitted, "link_fitted", message.link_fitted.as_ref());
    reader.flag(Attribute::LimitScrews, "limit_screws", message.limit_screws.as_ref());
    reader.flag(Attribute::ReversedSpring, "reversed_spring", message.reversed_spring.as_ref());
    reader.integer(Attribute::PulleyTeeth, "pulley_teeth", message.pulley_teeth.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a rear shifter.
pub fn read_rear_shifter(message: &pb::RearShifter, reader: &mut Reader<'_>) {
    reader.begin(Kind::RearShifter);
    reader.integer(Attribute::Positions, "positions", message.positions.as_ref());
    reader.key(Attribute::PullFamily, "pull_family", message.pull_family.as_ref());
    reader.integer(Attribute::CogPitch, "cog_pitch_um", message.cog_pitch_um.as_ref());
    reader.integer(Attribute::CablePull, "cable_pull_um", message.cable_pull_um.as_ref());
    reader.flag(Attribute::Friction, "friction", message.friction.as_ref());
    reader.integer(Attribute::CableTravel, "cable_travel_um", message.cable_travel_um.as_ref());
    reader.flag(Attribute::MultiShift, "multi_shift", message.multi_shift.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a hanger extender.
pub fn read_hanger_extender(message: &pb::HangerExtender, reader: &mut Reader<'_>) {
    reader.begin(Kind::HangerExtender);
    reader.integer(Attribute::Drop, "drop_um", message.drop_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a derailleur hanger.
pub fn read_hanger(message: &pb::Hanger, reader: &mut Reader<'_>) {
    reader.begin(Kind::Hanger);
    reader.key(Attribute::Hanger, "hanger", message.hanger.as_ref());
    reader.key(Attribute::HangerId, "hanger_id", message.hanger_id.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a derailleur link plate.
pub fn read_derailleur_link(message: &pb::DerailleurLink, reader: &mut Reader<'_>) {
    reader.begin(Kind::DerailleurLink);
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a cable-pull converter.
pub fn read_cable_pull_converter(message: &pb::CablePullConverter, reader: &mut Reader<'_>) {
    reader.begin(Kind::CablePullConverter);
    reader.integer(Attribute::Factor, "factor_permille", message.factor_permille.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a chain guide.
pub fn read_chain_guide(message: &pb::ChainGuide, reader: &mut Reader<'_>) {
    reader.begin(Kind::ChainGuide);
    reader.integer(Attribute::LargestRing, "largest_ring", message.largest_ring.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a chainring.
pub fn read_chainring(message: &pb::Chainring, reader: &mut Reader<'_>) {
    reader.begin(Kind::Chainring);
    reader.integer(Attribute::Teeth, "teeth", message.teeth.as_ref());
    reader.key(Attribute::RingPosition, "ring_position", message.ring_position.as_ref());
    reader.key(Attribute::ToothProfile, "tooth_profile", message.tooth_profile.as_ref());
    reader.integer(Attribute::ToothThickness, "tooth_thickness_um", message.tooth_thickness_um.as_ref());
    reader.integer(Attribute::RingSpeedClass, "ring_speed_class", message.ring_speed_class.as_ref());
    reader.key(Attribute::RingProfile, "ring_profile", message.ring_profile.as_ref());
    reader.key(Attribute::RingMount, "ring_mount", message.ring_mount.as_ref());
    reader.integer(Attribute::RingOffset, "ring_offset_um", message.ring_offset_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a crankset.
pub fn read_crankset(message: &pb::Crankset, reader: &mut Reader<'_>) {
    reader.begin(Kind::Crankset);
    reader.list(Attribute::Rings, "rings", message.rings.as_ref());
    reader.integer(Attribute::RingCount, "ring_count", message.ring_count.as_ref());
    reader.integer(Attribute::LargestRing, "largest_ring", message.largest_ring.as_ref());
    reader.integer(Attribute::SmallestRing, "smallest_ring", message.smallest_ring.as_ref());
    reader.key(Attribute::RingMount, "ring_mount", message.ring_mount.as_ref());
    reader.integer(Attribute::ArmLength, "arm_length_um", message.arm_length_um.as_ref());
    reader.integer(Attribute::Chainline, "chainline_um", message.chainline_um.as_ref());
    reader.key(Attribute::Spindle, "spindle", message.spindle.as_ref());
    reader.integer(Attribute::SpindleLength, "spindle_length_um", message.spindle_length_um.as_ref());
    reader.integer(Attribute::CrankRatio, "crank_ratio_permille", message.crank_ratio_permille.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    reader.key(Attribute::InnerRingMount, "inner_ring_mount", message.inner_ring_mount.as_ref());
    reader.key(Attribute::PedalThread, "pedal_thread", message.pedal_thread.as_ref());
    reader.integer(Attribute::ShellWidth, "shell_width_um", message.shell_width_um.as_ref());
    for (index, child) in message.chainrings.iter().enumerate() {
        reader.child("chainrings", Some(index), |reader| read_chainring(child, reader));
    }
}

/// Reads the attributes of a bottom bracket.
pub fn read_bottom_bracket(message: &pb::BottomBracket, reader: &mut Reader<'_>) {
    reader.begin(Kind::BottomBracket);
    reader.key(Attribute::Shell, "shell", message.shell.as_ref());
    reader.integer(Attribute::ShellWidth, "shell_width_um", message.shell_width_um.as_ref());
    reader.integer(Attribute::BearingOffset, "bearing_offset_um", message.bearing_offset_um.as_ref());
    reader.key(Attribute::Spindle, "spindle", message.spindle.as_ref());
    reader.integer(Attribute::SpindleLength, "spindle_length_um", message.spindle_length_um.as_ref());
    reader.key(Attribute::CupThreadHand, "cup_thread_hand", message.cup_thread_hand.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a front derailleur.
pub fn read_front_derailleur(message: &pb::FrontDerailleur, reader: &mut Reader<'_>) {
    reader.begin(Kind::FrontDerailleur);
    reader.key(Attribute::FrontMount, "front_mount", message.front_mount.as_ref());
    reader.key(Attribute::FrontPullFamily, "front_pull_family", message.front_pull_family.as_ref());
    reader.integer(Attribute::FrontCapacity, "front_capacity", message.front_capacity.as_ref());
    reader.integer(Attribute::MinRingStep, "min_ring_step", message.min_ring_step.as_ref());
    reader.integer(Attribute::MaxRing, "max_ring", message.max_ring.as_ref());
    reader.integer(Attribute::MinOuterRing, "min_outer_ring", message.min_outer_ring.as_ref());
    reader.integer(Attribute::RingCount, "ring_count", message.ring_count.as_ref());
    reader.integer(Attribute::DeclaredSpeeds, "declared_speeds", message.declared_speeds.as_ref());
    reader.key(Attribute::CableDirection, "cable_direction", message.cable_direction.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a front shifter.
pub fn read_front_shifter(message: &pb::FrontShifter, reader: &mut Reader<'_>) {
    reader.begin(Kind::FrontShifter);
    reader.integer(Attribute::FrontPositions, "front_positions", message.front_positions.as_ref());
    reader.key(Attribute::FrontPullFamily, "front_pull_family", message.front_pull_family.as_ref());
    reader.flag(Attribute::Friction, "friction", message.friction.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a pedals.
pub fn read_pedal(message: &pb::Pedal, reader: &mut Reader<'_>) {
    reader.begin(Kind::Pedal);
    reader.key(Attribute::PedalThread, "pedal_thread", message.pedal_thread.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a frame.
pub fn read_frame(message: &pb::Frame, reader: &mut Reader<'_>) {
    reader.begin(Kind::Frame);
    reader.key(Attribute::Hanger, "hanger", message.hanger.as_ref());
    reader.key(Attribute::HangerId, "hanger_id", message.hanger_id.as_ref());
    reader.flag(Attribute::HangerReplaceable, "hanger_replaceable", message.hanger_replaceable.as_ref());
    reader.flag(
        Attribute::UniversalHangerFitted,
        "universal_hanger_fitted",
        message.universal_hanger_fitted.as_ref(),
    );
    reader.integer(Attribute::ChainGrowth, "chain_growth_um", message.chain_growth_um.as_ref());
    reader.integer(Attribute::Chainstay, "chainstay_um", message.chainstay_um.as_ref());
    reader.key(Attribute::FrameMaterial, "frame_material", message.frame_material.as_ref());
    reader.integer(Attribute::DropoutWidth, "dropout_width_um", message.dropout_width_um.as_ref());
    reader.key(Attribute::Axle, "axle", message.axle.as_ref());
    reader.integer(Attribute::ThruAxlePitch, "thru_axle_pitch_um", message.thru_axle_pitch_um.as_ref());
    reader.key(Attribute::Shell, "shell", message.shell.as_ref());
    reader.integer(Attribute::ShellWidth, "shell_width_um", message.shell_width_um.as_ref());
    reader.key(Attribute::FrontMount, "front_mount", message.front_mount.as_ref());
    reader.key(Attribute::CableDirection, "cable_direction", message.cable_direction.as_ref());
    reader.integer(Attribute::MaxSingleRing, "max_single_ring", message.max_single_ring.as_ref());
    reader.integer(Attribute::MaxOuterRing, "max_outer_ring", message.max_outer_ring.as_ref());
    reader.integer(Attribute::MaxTyre, "max_tyre_um", message.max_tyre_um.as_ref());
    reader.integer(Attribute::BeadSeat, "bead_seat_um", message.bead_seat_um.as_ref());
    reader.key(Attribute::BrakeMount, "brake_mount", message.brake_mount.as_ref());
    reader.integer(Attribute::NativeRotor, "native_rotor_um", message.native_rotor_um.as_ref());
    reader.integer(Attribute::MaxRotor, "max_rotor_um", message.max_rotor_um.as_ref());
    reader.key(Attribute::MotorSpindle, "motor_spindle", message.motor_spindle.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    reader.integer(Attribute::BearingOffset, "bearing_offset_um", message.bearing_offset_um.as_ref());
    reader.integer(Attribute::BrakeReach, "brake_reach_um", message.brake_reach_um.as_ref());
    reader.integer(Attribute::AxleLength, "axle_length_um", message.axle_length_um.as_ref());
    reader.flag(Attribute::WideFlange, "wide_flange", message.wide_flange.as_ref());
}

/// Reads the attributes of a fork.
pub fn read_fork(message: &pb::Fork, reader: &mut Reader<'_>) {
    reader.begin(Kind::Fork);
    reader.integer(Attribute::DropoutWidth, "dropout_width_um", message.dropout_width_um.as_ref());
    reader.key(Attribute::Axle, "axle", message.axle.as_ref());
    reader.integer(Attribute::ThruAxlePitch, "thru_axle_pitch_um", message.thru_axle_pitch_um.as_ref());
    reader.integer(Attribute::MaxTyre, "max_tyre_um", message.max_tyre_um.as_ref());
    reader.integer(Attribute::BeadSeat, "bead_seat_um", message.bead_seat_um.as_ref());
    reader.key(Attribute::BrakeMount, "brake_mount", message.brake_mount.as_ref());
    reader.integer(Attribute::NativeRotor, "native_rotor_um", message.native_rotor_um.as_ref());
    reader.integer(Attribute::MaxRotor, "max_rotor_um", message.max_rotor_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    reader.integer(Attribute::BrakeReach, "brake_reach_um", message.brake_reach_um.as_ref());
    reader.integer(Attribute::AxleLength, "axle_length_um", message.axle_length_um.as_ref());
}

/// Reads the attributes of a rim.
pub fn read_rim(message: &pb::Rim, reader: &mut Reader<'_>) {
    reader.begin(Kind::Rim);
    reader.integer(Attribute::BeadSeat, "bead_seat_um", message.bead_seat_um.as_ref());
    reader.integer(Attribute::InnerWidth, "inner_width_um", message.inner_width_um.as_ref());
    reader.key(Attribute::RimSystem, "rim_system", message.rim_system.as_ref());
    reader.flag(Attribute::TubelessReady, "tubeless_ready", message.tubeless_ready.as_ref());
    reader.integer(Attribute::MaxPressure, "max_pressure_kpa", message.max_pressure_kpa.as_ref());
    reader.flag(Attribute::BrakeTrack, "brake_track", message.brake_track.as_ref());
    reader.key(Attribute::RimMaterial, "rim_material", message.rim_material.as_ref());
    reader.integer(Attribute::ValveHole, "valve_hole_um", message.valve_hole_um.as_ref());
    reader.integer(Attribute::RimDepth, "rim_depth_um", message.rim_depth_um.as_ref());
    reader.integer(Attribute::SpokeCount, "spoke_count", message.spoke_count.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a tyre.
pub fn read_tyre(message: &pb::Tyre, reader: &mut Reader<'_>) {
    reader.begin(Kind::Tyre);
    reader.integer(Attribute::BeadSeat, "bead_seat_um", message.bead_seat_um.as_ref());
    reader.integer(Attribute::TyreWidth, "tyre_width_um", message.tyre_width_um.as_ref());
    reader.key(Attribute::TyreSystem, "tyre_system", message.tyre_system.as_ref());
    reader.flag(
        Attribute::StraightSideApproved,
        "straight_side_approved",
        message.straight_side_approved.as_ref(),
    );
    reader.integer(Attribute::MaxPressure, "max_pressure_kpa", message.max_pressure_kpa.as_ref());
    reader.integer(Attribute::MinPressure, "min_pressure_kpa", message.min_pressure_kpa.as_ref());
    reader.flag(Attribute::Studded, "studded", message.studded.as_ref());
    reader.flag(Attribute::EBikeRated, "e_bike_rated", message.e_bike_rated.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    reader.flag(Attribute::WithoutTube, "without_tube", message.without_tube.as_ref());
}

/// Reads the attributes of a tube.
pub fn read_tube(message: &pb::Tube, reader: &mut Reader<'_>) {
    reader.begin(Kind::Tube);
    reader.integer(Attribute::MinBeadSeat, "min_bead_seat_um", message.min_bead_seat_um.as_ref());
    reader.integer(Attribute::MinTyre, "min_tyre_um", message.min_tyre_um.as_ref());
    reader.key(Attribute::Valve, "valve", message.valve.as_ref());
    reader.integer(Attribute::ValveLength, "valve_length_um", message.valve_length_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    reader.integer(Attribute::MaxBeadSeat, "max_bead_seat_um", message.max_bead_seat_um.as_ref());
    reader.integer(Attribute::MaxTyre, "max_tyre_um", message.max_tyre_um.as_ref());
}

/// Reads the attributes of a axle.
pub fn read_axle(message: &pb::Axle, reader: &mut Reader<'_>) {
    reader.begin(Kind::Axle);
    reader.key(Attribute::Axle, "axle", message.axle.as_ref());
    reader.integer(Attribute::AxleLength, "axle_length_um", message.axle_length_um.as_ref());
    reader.integer(Attribute::ThruAxlePitch, "thru_axle_pitch_um", message.thru_axle_pitch_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a end caps.
pub fn read_end_caps(message: &pb::EndCaps, reader: &mut Reader<'_>) {
    reader.begin(Kind::EndCaps);
    reader.key(Attribute::Axle, "axle", message.axle.as_ref());
    reader.integer(Attribute::OverLocknut, "over_locknut_um", message.over_locknut_um.as_ref());
    reader.key(Attribute::HubInterface, "hub_interface", message.hub_interface.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a gear hub.
pub fn read_gear_hub(message: &pb::GearHub, reader: &mut Reader<'_>) {
    reader.begin(Kind::GearHub);
    reader.integer(Attribute::GearCount, "gear_count", message.gear_count.as_ref());
    reader.list(Attribute::HubRatios, "hub_ratios_permille", message.hub_ratios_permille.as_ref());
    reader.integer(
        Attribute::MinPrimaryRatio,
        "min_primary_ratio_permille",
        message.min_primary_ratio_permille.as_ref(),
    );
    reader.key(Attribute::GearHubShifter, "gear_hub_shifter", message.gear_hub_shifter.as_ref());
    reader.key(Attribute::MountFamily, "mount_family", message.mount_family.as_ref());
    reader.integer(Attribute::OverLocknut, "over_locknut_um", message.over_locknut_um.as_ref());
    reader.key(Attribute::Axle, "axle", message.axle.as_ref());
    reader.key(Attribute::RotorMount, "rotor_mount", message.rotor_mount.as_ref());
    reader.flag(Attribute::BackPedalBrake, "back_pedal_brake", message.back_pedal_brake.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a gear-hub shifter.
pub fn read_gear_hub_shifter(message: &pb::GearHubShifter, reader: &mut Reader<'_>) {
    reader.begin(Kind::GearHubShifter);
    reader.integer(Attribute::Positions, "positions", message.positions.as_ref());
    reader.key(Attribute::GearHubShifter, "gear_hub_shifter", message.gear_hub_shifter.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a brake rotor.
pub fn read_rotor(message: &pb::Rotor, reader: &mut Reader<'_>) {
    reader.begin(Kind::Rotor);
    reader.integer(Attribute::Rotor, "rotor_um", message.rotor_um.as_ref());
    reader.key(Attribute::RotorMount, "rotor_mount", message.rotor_mount.as_ref());
    reader.integer(Attribute::RotorThickness, "rotor_thickness_um", message.rotor_thickness_um.as_ref());
    reader.flag(Attribute::ResinOnly, "resin_only", message.resin_only.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a brake.
pub fn read_brake_caliper(message: &pb::BrakeCaliper, reader: &mut Reader<'_>) {
    reader.begin(Kind::BrakeCaliper);
    reader.key(Attribute::BrakeMount, "brake_mount", message.brake_mount.as_ref());
    reader.key(Attribute::BrakeActuation, "brake_actuation", message.brake_actuation.as_ref());
    reader.key(Attribute::LeverPull, "lever_pull", message.lever_pull.as_ref());
    reader.key(Attribute::Fluid, "fluid", message.fluid.as_ref());
    reader.key(Attribute::FluidMaker, "fluid_maker", message.fluid_maker.as_ref());
    reader.integer(Attribute::RotorThickness, "rotor_thickness_um", message.rotor_thickness_um.as_ref());
    reader.key(Attribute::PadShape, "pad_shape", message.pad_shape.as_ref());
    reader.integer(Attribute::MinReach, "min_reach_um", message.min_reach_um.as_ref());
    reader.flag(Attribute::RimBrake, "rim_brake", message.rim_brake.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    reader.integer(Attribute::MaxReach, "max_reach_um", message.max_reach_um.as_ref());
}

/// Reads the attributes of a brake lever.
pub fn read_brake_lever(message: &pb::BrakeLever, reader: &mut Reader<'_>) {
    reader.begin(Kind::BrakeLever);
    reader.key(Attribute::BrakeActuation, "brake_actuation", message.brake_actuation.as_ref());
    reader.key(Attribute::LeverPull, "lever_pull", message.lever_pull.as_ref());
    reader.key(Attribute::Fluid, "fluid", message.fluid.as_ref());
    reader.key(Attribute::FluidMaker, "fluid_maker", message.fluid_maker.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a brake adapter.
pub fn read_brake_adapter(message: &pb::BrakeAdapter, reader: &mut Reader<'_>) {
    reader.begin(Kind::BrakeAdapter);
    reader.key(Attribute::BrakeMount, "brake_mount", message.brake_mount.as_ref());
    reader.key(Attribute::CaliperMount, "caliper_mount", message.caliper_mount.as_ref());
    reader.integer(Attribute::RotorStep, "rotor_step_um", message.rotor_step_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a brake pads.
pub fn read_brake_pads(message: &pb::BrakePads, reader: &mut Reader<'_>) {
    reader.begin(Kind::BrakePads);
    reader.key(Attribute::PadShape, "pad_shape", message.pad_shape.as_ref());
    reader.key(Attribute::PadCompound, "pad_compound", message.pad_compound.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a motor.
pub fn read_motor(message: &pb::Motor, reader: &mut Reader<'_>) {
    reader.begin(Kind::Motor);
    reader.key(Attribute::MotorPlace, "motor_place", message.motor_place.as_ref());
    reader.integer(Attribute::SmallestRing, "smallest_ring", message.smallest_ring.as_ref());
    reader.key(Attribute::RingMount, "ring_mount", message.ring_mount.as_ref());
    reader.integer(Attribute::MotorTorque, "motor_torque_nm", message.motor_torque_nm.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a drive belt.
pub fn read_belt(message: &pb::Belt, reader: &mut Reader<'_>) {
    reader.begin(Kind::Belt);
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a accessory.
pub fn read_accessory(message: &pb::Accessory, reader: &mut Reader<'_>) {
    reader.begin(Kind::Accessory);
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a wheel.
pub fn read_wheel(message: &pb::Wheel, reader: &mut Reader<'_>) {
    reader.begin(Kind::Wheel);
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    if let Some(child) = &message.hub {
        reader.child("hub", None, |reader| read_hub(child, reader));
    }
    if let Some(child) = &message.gear_hub {
        reader.child("gear_hub", None, |reader| read_gear_hub(child, reader));
    }
    if let Some(child) = &message.rim {
        reader.child("rim", None, |reader| read_rim(child, reader));
    }
    if let Some(child) = &message.tyre {
        reader.child("tyre", None, |reader| read_tyre(child, reader));
    }
    if let Some(child) = &message.cassette {
        reader.child("cassette", None, |reader| read_cassette(child, reader));
    }
    if let Some(child) = &message.freewheel {
        reader.child("freewheel", None, |reader| read_freewheel(child, reader));
    }
}

/// Reads the attributes of a brake-shift lever.
pub fn read_brake_shift_lever(message: &pb::BrakeShiftLever, reader: &mut Reader<'_>) {
    reader.begin(Kind::BrakeShiftLever);
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
    if let Some(child) = &message.rear_shifter {
        reader.child("rear_shifter", None, |reader| read_rear_shifter(child, reader));
    }
    if let Some(child) = &message.front_shifter {
        reader.child("front_shifter", None, |reader| read_front_shifter(child, reader));
    }
    if let Some(child) = &message.brake_lever {
        reader.child("brake_lever", None, |reader| read_brake_lever(child, reader));
    }
}

/// Reads the attributes of a fitting.
pub fn read_fitting(message: &pb::Fitting, reader: &mut Reader<'_>) {
    reader.begin(Kind::Fitting);
    reader.key(Attribute::Fitting, "fitting", message.fitting.as_ref());
    reader.integer(Attribute::Thickness, "thickness_um", message.thickness_um.as_ref());
    reader.integer(Attribute::Mass, "mass_g", message.mass_g.as_ref());
}

/// Reads the attributes of a use.
pub fn read_use(message: &pb::Use, reader: &mut Reader<'_>) {
    reader.begin(Kind::Use);
    reader.flag(Attribute::MidMotor, "mid_motor", message.mid_motor.as_ref());
    reader.flag(Attribute::HubMotor, "hub_motor", message.hub_motor.as_ref());
    reader.integer(Attribute::AssistLimit, "assist_limit_kmh", message.assist_limit_kmh.as_ref());
    reader.flag(Attribute::Tandem, "tandem", message.tandem.as_ref());
    reader.flag(Attribute::RoughGround, "rough_ground", message.rough_ground.as_ref());
    reader.integer(Attribute::SystemMass, "system_mass_kg", message.system_mass_kg.as_ref());
}
