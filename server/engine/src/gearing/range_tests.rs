//! The answer as a whole.

use proptest::prelude::*;

use super::*;
use crate::gearing::chainline::Alignment;
use crate::gearing::climb::Coefficients;
use crate::gearing::wheel::RolloutSource;

fn full() -> RangeInput {
    let mut input = RangeInput::new(&[50, 34], &[11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32]);
    input.tyre = Some("25-622".parse().unwrap());
    input.crank_um = Some(170_000);
    input.cadences_rpm = vec![60, 90];
    input.speeds_m_per_h = vec![30_000];
    input.stay_um = Some(410_000);
    input.chain_links = Some(108);
    input.wrap_capacity = Some(37);
    let rider =
        Rider { power_w: 200.0, mass_kg: 85.0, cadence_rpm: 60.0, coefficients: Coefficients::default() };
    input.hill = Some(HillInput { rider, gradient: Some(0.10) });
    input
}

#[test]
fn rings_and_cogs_alone_are_enough() {
    let answer = range(&RangeInput::new(&[32], &[10, 51])).unwrap();
    assert_eq!(answer.gears.len(), 2);
    assert_eq!(answer.wrap_needed, 41);
    assert!(answer.rollout.is_none() && answer.chain.is_none() && answer.hill.is_none());
    assert!(answer.gears.iter().all(|line| line.road.is_none()));
    assert_eq!(answer.aligned_by, AlignedBy::RuleOfThumb);
}

#[test]
fn a_full_question_gets_a_full_answer() {
    let answer = range(&full()).unwrap();
    assert_eq!(answer.gears.len(), 22);
    assert_eq!(answer.distinct, 19);
    let rollout = answer.rollout.unwrap();
    assert_eq!((rollout.source, rollout.uncertainty_permille), (RolloutSource::Chart, 20));
    let road = answer.gears[0].road.as_ref().unwrap();
    assert_eq!((road.speeds_kmh.len(), road.cadences_rpm.len()), (2, 1));
    assert_eq!(answer.wrap, Some(Wrap::Enough { spare: 0 }));
    let Some(ChainAnswer::Derailleur { need, reach }) = answer.chain else { panic!("two rings") };
    assert_eq!((need.links, reach), (108, Some(Reach::LongEnough { spare: 0 })));
    let hill = answer.hill.unwrap();
    // 34x32 is a ratio of 1.0625; 10 % asks for 1.0499.
    let (needed, met) = hill.needed.unwrap();
    assert!(!met && needed.cure && hill.held.gradient < 0.10);
}

#[test]
fn crossed_gears_are_marked_and_left_out_of_the_orders() {
    let answer = range(&full()).unwrap();
    let crossed: Vec<_> =
        answer.gears.iter().filter(|line| line.combination.alignment == Alignment::Crossed).collect();
    assert_eq!(crossed.len(), 4);
    let crossed_in = |order: &[usize]| {
        order.iter().any(|&at| answer.gears[at].combination.alignment == Alignment::Crossed)
    };
    assert!(!crossed_in(&answer.sequential) && !crossed_in(&answer.crossover.as_ref().unwrap().order));
}

#[test]
fn one_ring_and_one_cog_have_no_derailleur() {
    let mut input = RangeInput::new(&[46], &[17]);
    input.stay_um = Some(420_000);
    input.chain_links = Some(97);
    let answer = range(&input).unwrap();
    let Some(ChainAnswer::Direct { chains, own }) = answer.chain else { panic!("one ring, one cog") };
    assert_eq!(chains.map(|chain| chain.links), [98, 100]);
    assert_eq!(own.map(|chain| chain.links), Some(96));
    assert_eq!(answer.wrap_needed, 0);
}

#[test]
fn a_hub_has_a_least_primary_ratio() {
    let mut input = RangeInput::new(&[38], &[16, 21]);
    input.hub_ratios = vec![Ratio::new(3, 4).unwrap(), Ratio::ONE, Ratio::new(4, 3).unwrap()];
    input.min_primary = Ratio::from_thousandths(1900);
    let answer = range(&input).unwrap();
    assert!(answer.primary.below_limit);
    assert_eq!(answer.primary.lowest, Ratio::new(38, 21).unwrap());
    assert_eq!(answer.gears.len(), 6);
    assert_eq!(answer.crossover, None);
}

#[test]
fn positions_and_stay_together_give_the_angle() {
    let mut input = RangeInput::new(&[32], &[10, 12, 51]);
    input.front_line = Some(FrontLine { chainline_um: 52_000, ring_pitch_um: 0 });
    input.rear_line = Some(RearLine::Measured { chainline_um: 45_000, cog_pitch_um: 3_650 });
    assert_eq!(range(&input).unwrap().aligned_by, AlignedBy::RuleOfThumb);
    input.stay_um = Some(435_000);
    let answer = range(&input).unwrap();
    assert_eq!(answer.aligned_by, AlignedBy::ChainAngle);
    assert!(answer.gears.iter().all(|line| line.combination.angle_deg.is_some()));
}

#[test]
fn every_fault_of_a_question_is_told() {
    let mut input = full();
    input.cogs = vec![12, 11];
    input.rollout_um = Some(1);
    input.crank_um = Some(0);
    input.cadences_rpm = vec![0; 40];
    input.speeds_m_per_h = vec![u32::MAX];
    input.near_permille = u16::MAX;
    input.stay_um = Some(0);
    input.growth_um = u32::MAX;
    input.chain_links = Some(0);
    input.wrap_capacity = Some(u16::MAX);
    input.front_line = Some(FrontLine { chainline_um: 0, ring_pitch_um: 0 });
    input.rear_line = Some(RearLine::Measured { chainline_um: 0, cog_pitch_um: u32::MAX });
    input.angle_limits = Some(AngleLimits { good_mdeg: u16::MAX, crossed_mdeg: 0 });
    input.hill.as_mut().unwrap().rider.power_w = f64::NAN;
    input.hill.as_mut().unwrap().gradient = Some(f64::NAN);
    let faults = range(&input).unwrap_err();
    let mut fields: Vec<_> =
        faults.iter().map(Fault::field).filter(|field| !field.starts_with("cadences[")).collect();
    fields.sort_unstable();
    let expected = [
        "angle_limits.crossed",
        "angle_limits.good",
        "cadences",
        "chain_links",
        "cogs",
        "crank",
        "front_line.chainline",
        "front_line.ring_pitch",
        "growth",
        "hill.gradient",
        "hill.power",
        "near_duplicate",
        "rear_line.chainline",
        "rear_line.cog_pitch",
        "speeds[0]",
        "stay",
        "wheel.rollout",
        "wrap_capacity",
    ];
    assert_eq!(fields, expected);
}

#[test]
fn a_hill_needs_a_wheel() {
    let mut input = full();
    input.tyre = None;
    assert_eq!(range(&input).unwrap_err(), [Fault::Missing { field: "wheel".into(), needed_by: "hill" }]);
}

fn teeth(min: u16, max: u16, count: usize) -> impl Strategy<Value = Vec<u16>> {
    proptest::collection::btree_set(min..=max, 1..=count).prop_map(|set| set.into_iter().collect())
}

proptest! {
    #[test]
    fn the_wheel_never_touches_ratios_or_steps(
        rings in teeth(18, 80, 3),
        cogs in teeth(8, 60, 14),
        mm in 300_u32..=3500,
    ) {
        let mut input = RangeInput::new(&rings, &cogs);
        let without = range(&input).unwrap();
        input.rollout_um = Some(mm * 1000);
        let with = range(&input).unwrap();
        prop_assert_eq!(&with.steps, &without.steps);
        prop_assert_eq!(&with.ranges, &without.ranges);
        prop_assert!(with.gears.iter().zip(&without.gears).all(|(a, b)| a.gear == b.gear));
    }

    #[test]
    fn every_number_of_an_answer_is_finite(
        rings in teeth(18, 80, 3), cogs in teeth(8, 60, 14), mm in 300_u32..=3500, stay in 300_u32..=1200,
        growth in 0_u32..=60_000, capacity in 0_u16..=200, watts in 20.0..2500.0, kg in 20.0..500.0,
    ) {
        let mut input = RangeInput::new(&rings, &cogs);
        input.rollout_um = Some(mm * 1000);
        input.stay_um = Some(stay * 1000);
        input.growth_um = growth;
        input.wrap_capacity = Some(capacity);
        input.cadences_rpm = vec![10, 250];
        input.speeds_m_per_h = vec![500, 150_000];
        let coefficients = Coefficients::default();
        let rider = Rider { power_w: watts, mass_kg: kg, cadence_rpm: 60.0, coefficients };
        input.hill = Some(HillInput { rider, gradient: Some(0.0) });
        let answer = range(&input).unwrap();
        for road in answer.gears.iter().filter_map(|line| line.road.as_ref()) {
            let sizes = [&road.development_m, &road.gear_inches];
            let numbers = road.speeds_kmh.iter().chain(&road.cadences_rpm).chain(sizes);
            prop_assert!(numbers.into_iter().all(|number| number.is_finite() && *number > 0.0));
        }
        prop_assert!(answer.chain.is_some_and(|chain| chain.links() % 2 == 0));
        let hill = answer.hill.unwrap();
        prop_assert!(hill.held.gradient.is_finite() && hill.needed.unwrap().0.ratio.is_finite());
    }
}
