//! # Brake on fork
//!
//! ## What it checks
//! The mount of the front brake, the rotor against the size that the mount takes, the largest rotor that the fork
//! maker allows, and a loose adapter.
//!
//! ## Why it matters
//! The front brake does most of the stopping; a rotor over the fork maker's limit can break the leg.
//!
//! ## Numbers
//! Those of "brake on frame", with tabs that carry 160 mm at the front; the plate of a flat-mount fork is turned for
//! 140 or 160 mm.
//!
//! ## Sources
//! Disc-mount guides (repair page, shop blog).

use super::brake_on_frame::{
    ADAPTER_MOUNT_REASONS, ADAPTER_STEP_REASONS, FORK_SIZE_REASONS, LIMIT_REASONS, MOUNT_REASONS,
    adapter_mount, adapter_step, limit_inputs, mount, mount_inputs, rotor_limit, rotor_size, size_inputs,
    step_inputs,
};
use crate::fit::rule::{Mating, Rule};
use crate::fit::slot::Slot::{Brake, BrakeAdapter, Fork, Rotor};

/// The mating.
pub const MATING: Mating = Mating {
    code: "brake-on-fork",
    title: "Brake on fork",
    file: include_str!("brake_on_fork.rs"),
    source: "disc-mount guides of a repair page and a shop blog",
    rules: &[MOUNT, ROTOR_SIZE, ROTOR_LIMIT, ADAPTER_MOUNT, ADAPTER_STEP],
};

const MOUNT: Rule = Rule {
    code: "mount",
    slots: &[Brake, Fork],
    inputs: &mount_inputs(Brake, Fork),
    reasons: MOUNT_REASONS,
    judge: |given| mount(given, Fork),
};

const ROTOR_SIZE: Rule = Rule {
    code: "rotor-size",
    slots: &[Rotor, Fork],
    inputs: &size_inputs(Fork),
    reasons: FORK_SIZE_REASONS,
    judge: |given| rotor_size(given, Fork),
};

const ROTOR_LIMIT: Rule = Rule {
    code: "rotor-limit",
    slots: &[Rotor, Fork],
    inputs: &limit_inputs(Fork),
    reasons: LIMIT_REASONS,
    judge: |given| rotor_limit(given, Fork),
};

const ADAPTER_MOUNT: Rule = Rule {
    code: "adapter-mount",
    slots: &[BrakeAdapter, Fork],
    inputs: &mount_inputs(BrakeAdapter, Fork),
    reasons: ADAPTER_MOUNT_REASONS,
    judge: |given| adapter_mount(given, Fork),
};

const ADAPTER_STEP: Rule = Rule {
    code: "adapter-step",
    slots: &[BrakeAdapter, Rotor, Fork],
    inputs: &step_inputs(Fork),
    reasons: ADAPTER_STEP_REASONS,
    judge: |given| adapter_step(given, Fork),
};
