//! # Chain on a single cog
//!
//! ## What it checks
//! The inner plates of the chain against the thickness of a single cog.
//!
//! ## Why it matters
//! A 3/32 in chain rides on the tips of a 1/8 in cog and can come off; on a fixed cog that blocks the wheel.
//!
//! ## Numbers
//! * margin = inner width - tooth: from 0.10 mm clear, from 0.05 mm tight, below too thick.
//! * 1/8 in cogs measure 2.91 mm, 3/32 in cogs 2.07 to 2.28 mm.
//!
//! ## Exceptions
//! * A wider chain on a thinner cog is right: 1/8 in on 3/32 in is common.
//!
//! ## Sources
//! Measured cogs and answers on single-speed chains, seen as excerpts; thresholds reasoned, not a standard.

use super::chain_on_cogs::is_single;
use super::tooth_width;
use crate::fit::rule::{Mating, Rule, Stop};
use crate::fit::slot::Slot::{Chain, Cogs, Sprocket};
use crate::part::attr;

/// The mating.
pub const MATING: Mating = Mating {
    code: "chain-on-single-cog",
    title: "Chain on a single cog",
    file: include_str!("chain_on_single_cog.rs"),
    source: "measured cogs, seen as excerpts; thresholds reasoned",
    rules: &[SPROCKET_WIDTH, FREEWHEEL_WIDTH],
};

const SPROCKET_WIDTH: Rule = Rule {
    code: "sprocket-width",
    slots: &[Chain, Sprocket],
    inputs: &[(Chain, attr::INNER_WIDTH.attribute()), (Sprocket, attr::COG_THICKNESS.attribute())],
    reasons: tooth_width::REASONS,
    judge: |given| {
        let inner = given.num(Chain, attr::INNER_WIDTH);
        let tooth = given.num(Sprocket, attr::COG_THICKNESS);
        tooth_width::judge(inner?, tooth?)
    },
};

const FREEWHEEL_WIDTH: Rule = Rule {
    code: "single-freewheel-width",
    slots: &[Chain, Cogs],
    inputs: &[
        (Chain, attr::INNER_WIDTH.attribute()),
        (Cogs, attr::COG_THICKNESS.attribute()),
        (Cogs, attr::COG_COUNT.attribute()),
    ],
    reasons: tooth_width::REASONS,
    judge: |given| {
        if !is_single(given)? {
            return Err(Stop::Silent);
        }
        let inner = given.num(Chain, attr::INNER_WIDTH);
        let tooth = given.num(Cogs, attr::COG_THICKNESS);
        tooth_width::judge(inner?, tooth?)
    },
};
