//! Gears of one build in the engine: the bar is 20 microseconds for three rings and twelve cogs, and no allocation that
//! grows with anything but the number of gears.

// A measurement that cannot go on may stop with a message.
#![allow(clippy::expect_used, missing_docs)]

use divan::{AllocProfiler, black_box};
use sprag_engine::gearing::chainline::FrontLine;
use sprag_engine::gearing::climb::{Coefficients, Rider};
use sprag_engine::gearing::{HillInput, RangeAnswer, RangeInput, Ratio, compare, range};

#[global_allocator]
static ALLOCATIONS: AllocProfiler = AllocProfiler::system();

fn main() {
    divan::main();
}

const COGS: [u16; 12] = [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32, 36];

/// A build with everything known but a hill.
fn build(rings: &[u16], cogs: &[u16]) -> RangeInput {
    let mut input = RangeInput::new(rings, cogs);
    input.rollout_um = Some(2_105_000);
    input.cadences_rpm = vec![60, 90];
    input.speeds_m_per_h = vec![20_000];
    input.stay_um = Some(430_000);
    input.chain_links = Some(116);
    input.wrap_capacity = Some(39);
    input.front_line = Some(FrontLine { chainline_um: 45_000, ring_pitch_um: 7_500 });
    input
}

fn answer(input: &RangeInput) -> RangeAnswer {
    range(input).expect("a good question")
}

#[divan::bench]
fn three_rings_twelve_cogs(bencher: divan::Bencher) {
    let input = build(&[24, 34, 46], &COGS);
    bencher.bench(|| answer(black_box(&input)));
}

#[divan::bench]
fn with_a_hill(bencher: divan::Bencher) {
    let mut input = build(&[24, 34, 46], &COGS);
    let coefficients = Coefficients::default();
    let rider = Rider { power_w: 200.0, mass_kg: 85.0, cadence_rpm: 60.0, coefficients };
    input.hill = Some(HillInput { rider, gradient: Some(0.1) });
    bencher.bench(|| answer(black_box(&input)));
}

/// Cogs times gears of a hub: the number of allocations stays, their size grows with the gears.
#[divan::bench(args = [1, 14, 100])]
fn gears_of_a_hub(bencher: divan::Bencher, ratios: u64) {
    let mut input = build(&[24, 34, 46], &COGS);
    let ratio = |index| Ratio::from_thousandths(500 + 10 * index).expect("a ratio");
    input.hub_ratios = (0..ratios).map(ratio).collect();
    bencher.bench(|| answer(black_box(&input)));
}

#[divan::bench]
fn difference(bencher: divan::Bencher) {
    let (before, after) = (answer(&build(&[24, 34, 46], &COGS)), answer(&build(&[34, 50], &COGS)));
    bencher.bench(|| compare(black_box(&before), black_box(&after)));
}
