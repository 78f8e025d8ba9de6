//! One question and one answer about the gears of a build.

use super::chain::{
    ChainNeed, DirectChain, MAX_GROWTH_UM, MAX_LINKS, Reach, Stay, chain_need, direct_chain, direct_chains,
    reach,
};
use super::chainline::{
    AlignedBy, Alignments, AngleLimits, Combination, FrontLine, RearLine, align_by_angle, align_by_thumb,
};
use super::climb::{GearNeeded, Held, Rider, gear_needed, gradient_held};
use super::designation::TyreSize;
use super::fault::{Fault, Faults};
use super::measure::{
    CADENCE_RPM, CRANK_UM, Circumference, SPEED_M_PER_H, cadence_rpm, development_m, gain_ratio, gear_inches,
    speed_kmh,
};
use super::ratio::Ratio;
use super::set::{Gear, Gearset};
use super::shift::{Crossover, crossover, sequential};
use super::table::{
    GearTable, NEAR_DUPLICATE_PERMILLE, NearDuplicate, Overlap, Ranges, Step, overlaps, ranges,
};
use super::wheel::{Rollout, rollout};
use super::wrap::{Wrap, judge_wrap, wrap_needed};

/// Most cadences, and most speeds, of one question.
pub const MAX_COLUMNS: usize = 16;

/// What is asked about a build's gears. Only rings and cogs are needed; each further input adds to the
/// answer.
#[derive(Debug, Clone, PartialEq)]
pub struct RangeInput {
    /// Chainrings in teeth, 1 to 3.
    pub rings: Vec<u16>,
    /// Cogs in teeth, 1 to 14, smallest first.
    pub cogs: Vec<u16>,
    /// Ratios of the hub, lowest first; `[Ratio::ONE]` if it has none.
    pub hub_ratios: Vec<Ratio>,
    /// Ratios of the crank, lowest first; `[Ratio::ONE]` if it has none.
    pub crank_ratios: Vec<Ratio>,
    /// Least ratio of ring to cog that the maker of the hub or crank allows.
    pub min_primary: Option<Ratio>,
    /// The caller's own roll-out, micrometres, 300 to 3500 mm.
    pub rollout_um: Option<u32>,
    /// The tyre, for the chart or the formula.
    pub tyre: Option<TyreSize>,
    /// Crank length, micrometres, 80 to 250 mm.
    pub crank_um: Option<u32>,
    /// Cadences at which speeds are asked, turns per minute, 10 to 250; at most 16.
    pub cadences_rpm: Vec<u16>,
    /// Speeds at which cadences are asked, metres per hour, 500 to 150 000; at most 16.
    pub speeds_m_per_h: Vec<u32>,
    /// Gears closer than this count as one, thousandths, at most 500.
    pub near_permille: u16,
    /// Bottom bracket to rear axle at rest, micrometres, 300 to 1200 mm.
    pub stay_um: Option<u32>,
    /// How much that distance grows at full compression, micrometres, at most 60 mm; 0 if rigid.
    pub growth_um: u32,
    /// Links of a chain that is to be used, at most 300.
    pub chain_links: Option<u16>,
    /// Capacity of the rear derailleur, teeth, at most 200.
    pub wrap_capacity: Option<u16>,
    /// Where the rings stand.
    pub front_line: Option<FrontLine>,
    /// Where the cogs stand.
    pub rear_line: Option<RearLine>,
    /// Limits of the chain angle; by default those for a derailleur, or for one ring and one cog.
    pub angle_limits: Option<AngleLimits>,
    /// A rider on a hill; asks for a wheel.
    pub hill: Option<HillInput>,
}

impl RangeInput {
    /// Asks about rings and cogs alone.
    #[must_use]
    pub fn new(rings: &[u16], cogs: &[u16]) -> Self {
        Self {
            rings: rings.to_vec(),
            cogs: cogs.to_vec(),
            hub_ratios: vec![Ratio::ONE],
            crank_ratios: vec![Ratio::ONE],
            min_primary: None,
            rollout_um: None,
            tyre: None,
            crank_um: None,
            cadences_rpm: Vec::new(),
            speeds_m_per_h: Vec::new(),
            near_permille: NEAR_DUPLICATE_PERMILLE,
            stay_um: None,
            growth_um: 0,
            chain_links: None,
            wrap_capacity: None,
            front_line: None,
            rear_line: None,
            angle_limits: None,
            hill: None,
        }
    }
}

/// A rider, and the gradient to be climbed if one is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HillInput {
    /// Who rides.
    pub rider: Rider,
    /// Rise over run, 0 to 1.
    pub gradient: Option<f64>,
}

/// The gears of a build and what follows from them.
#[derive(Debug, Clone, PartialEq)]
pub struct RangeAnswer {
    /// The rings, cogs and internal ratios.
    pub set: Gearset,
    /// The circumference used, where it came from and how good it is; `None` if no wheel was given.
    pub rollout: Option<Rollout>,
    /// Lowest gear first.
    pub gears: Vec<GearLine>,
    /// From each gear to the next.
    pub steps: Vec<Step>,
    /// Geometric mean of the steps, percent; `None` for one gear.
    pub mean_step_percent: Option<f64>,
    /// Ranges of cogs, rings, internal ratios and of all together.
    pub ranges: Ranges,
    /// Overlap of neighbouring rings.
    pub overlaps: Vec<Overlap>,
    /// Neighbouring gears that are nearly the same.
    pub near_duplicates: Vec<NearDuplicate>,
    /// Gears left when near-duplicates count once.
    pub distinct: usize,
    /// What the alignment of the gears was decided by.
    pub aligned_by: AlignedBy,
    /// Crossover order of shifts; `None` with internal ratios.
    pub crossover: Option<Crossover>,
    /// Sequential order of shifts, indices into `gears`.
    pub sequential: Vec<usize>,
    /// Lowest ratio of ring to cog against the least allowed.
    pub primary: Primary,
    /// Take-up asked of the derailleur, teeth.
    pub wrap_needed: u16,
    /// The same against the capacity, if given.
    pub wrap: Option<Wrap>,
    /// Length of chain, if the stay is known.
    pub chain: Option<ChainAnswer>,
    /// The hill, if one was asked.
    pub hill: Option<HillAnswer>,
}

impl RangeAnswer {
    /// The lowest gear.
    #[must_use]
    pub fn lowest(&self) -> Ratio {
        self.gears.first().map_or(Ratio::ONE, |line| line.gear.ratio)
    }

    /// The highest gear.
    #[must_use]
    pub fn highest(&self) -> Ratio {
        self.gears.last().map_or(Ratio::ONE, |line| line.gear.ratio)
    }
}

/// One gear of an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct GearLine {
    /// Ring, cog, internal ratios and the ratio.
    pub gear: Gear,
    /// How straight the chain runs.
    pub combination: Combination,
    /// What it does on the road, if the wheel is known.
    pub road: Option<Road>,
}

/// A gear on the road.
#[derive(Debug, Clone, PartialEq)]
pub struct Road {
    /// Metres per crank turn.
    pub development_m: f64,
    /// Gear inches.
    pub gear_inches: f64,
    /// Gain ratio, if the crank length is known.
    pub gain_ratio: Option<f64>,
    /// Speed in km/h at each cadence asked.
    pub speeds_kmh: Vec<f64>,
    /// Cadence in turns per minute at each speed asked.
    pub cadences_rpm: Vec<f64>,
}

/// Lowest ratio of ring to cog, internal ratios left out: what loads the gears inside a hub.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Primary {
    /// The lowest of the build.
    pub lowest: Ratio,
    /// True if it is below the least allowed: the hub is overloaded. False also where no limit was given.
    pub below_limit: bool,
}

/// Length of chain.
#[derive(Debug, Clone, PartialEq)]
pub enum ChainAnswer {
    /// Over several sprockets, with a derailleur. A coaxially mounted derailleur has its maker's table
    /// instead.
    Derailleur {
        /// What is needed.
        need: ChainNeed,
        /// The chain that is to be used against it.
        reach: Option<Reach>,
    },
    /// One ring, one cog: the two even chains around the stay and where the axle stands for each.
    Direct {
        /// The shorter one first.
        chains: [DirectChain; 2],
        /// Where the axle stands for the chain that is to be used; `None` if none was given or if it does not
        /// reach around both sprockets. An odd link does not count.
        own: Option<DirectChain>,
    },
}

impl ChainAnswer {
    /// Links to order: with a derailleur the need, else the longer of the two chains.
    #[must_use]
    pub const fn links(&self) -> u16 {
        match self {
            Self::Derailleur { need, .. } => need.links,
            Self::Direct { chains: [_, longer], .. } => longer.links,
        }
    }
}

/// A rider on a hill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HillAnswer {
    /// Gradient held in the lowest gear.
    pub held: Held,
    /// The gear needed for the gradient asked, and whether the lowest gear is low enough.
    pub needed: Option<(GearNeeded, bool)>,
}

/// Answers everything that the input allows.
///
/// # Errors
/// Every fault of the input at once.
pub fn range(input: &RangeInput) -> Result<RangeAnswer, Vec<Fault>> {
    let mut faults = Faults::default();
    let set = faults.take(Gearset::new(&input.rings, &input.cogs, &input.hub_ratios, &input.crank_ratios));
    let rollout = faults.take_one(rollout(input.rollout_um, input.tyre)).flatten();
    let stay = input.stay_um.and_then(|um| faults.take_one(Stay::from_um("stay", um)));
    check_numbers(input, &mut faults);
    if input.hill.is_some() && input.rollout_um.is_none() && input.tyre.is_none() {
        faults.push(Fault::Missing { field: "wheel".into(), needed_by: "hill" });
    }
    let Some(set) = set.filter(|_| faults.is_empty()) else { return Err(faults.into_vec()) };
    let table = GearTable::new(&set);
    let hill = match (input.hill, rollout) {
        (Some(hill), Some(rollout)) => Some(climb(&hill, table.lowest(), rollout.circumference)?),
        _ => None,
    };
    let alignments = align(input, &set, stay);
    let near = input.near_permille;
    Ok(RangeAnswer {
        rollout,
        gears: lines(input, &table, &alignments, rollout),
        steps: table.steps(),
        mean_step_percent: table.mean_step_percent(),
        ranges: ranges(&set),
        overlaps: overlaps(&set),
        near_duplicates: table.near_duplicates(near),
        distinct: table.distinct(near),
        aligned_by: alignments.by(),
        crossover: crossover(&set, &table, &alignments, near),
        sequential: sequential(&table, &alignments, near),
        primary: Primary {
            lowest: set.lowest_primary(),
            below_limit: input.min_primary.is_some_and(|least| set.lowest_primary() < least),
        },
        wrap_needed: wrap_needed(&set),
        wrap: input.wrap_capacity.map(|capacity| judge_wrap(&set, capacity, stay, input.growth_um)),
        chain: stay.map(|stay| chain(input, &set, stay)),
        hill,
        set,
    })
}

fn check_numbers(input: &RangeInput, faults: &mut Faults) {
    if let Some(crank) = input.crank_um {
        faults.whole("crank", crank, CRANK_UM.0, CRANK_UM.1, "um");
    }
    for (field, count) in [("cadences", input.cadences_rpm.len()), ("speeds", input.speeds_m_per_h.len())] {
        if count > MAX_COLUMNS {
            faults.push(Fault::TooMany { field: field.into(), found: count, max: MAX_COLUMNS });
        }
    }
    for (index, &rpm) in input.cadences_rpm.iter().enumerate().take(MAX_COLUMNS) {
        let (min, max) = CADENCE_RPM;
        faults.whole(&format!("cadences[{index}]"), rpm.into(), min.into(), max.into(), "rpm");
    }
    for (index, &speed) in input.speeds_m_per_h.iter().enumerate().take(MAX_COLUMNS) {
        faults.whole(&format!("speeds[{index}]"), speed, SPEED_M_PER_H.0, SPEED_M_PER_H.1, "m/h");
    }
    faults.whole("near_duplicate", input.near_permille.into(), 0, 500, "permille");
    faults.whole("growth", input.growth_um, 0, MAX_GROWTH_UM, "um");
    if let Some(links) = input.chain_links {
        faults.whole("chain_links", links.into(), 1, MAX_LINKS.into(), "links");
    }
    if let Some(capacity) = input.wrap_capacity {
        faults.whole("wrap_capacity", capacity.into(), 0, 200, "teeth");
    }
    if let Some(front) = input.front_line {
        front.check(faults, input.rings.len());
    }
    if let Some(rear) = input.rear_line {
        rear.check(faults);
    }
    if let Some(limits) = input.angle_limits {
        limits.check(faults);
    }
    if let Some(hill) = input.hill {
        hill.rider.check(faults);
        if let Some(gradient) = hill.gradient {
            faults.real("hill.gradient", gradient, 0.0, 1.0, "rise/run");
        }
    }
}

fn align(input: &RangeInput, set: &Gearset, stay: Option<Stay>) -> Alignments {
    let direct = set.rings().len() * set.cogs().len() == 1;
    let limits =
        input.angle_limits.unwrap_or(if direct { AngleLimits::DIRECT } else { AngleLimits::DERAILLEUR });
    match (input.front_line, input.rear_line, stay) {
        (Some(front), Some(rear), Some(stay)) => align_by_angle(set, front, rear, stay, limits),
        _ => align_by_thumb(set),
    }
}

fn lines(
    input: &RangeInput,
    table: &GearTable,
    alignments: &Alignments,
    rollout: Option<Rollout>,
) -> Vec<GearLine> {
    let line = |gear: &Gear| {
        Some(GearLine {
            gear: *gear,
            combination: alignments.of(gear.ring_index, gear.cog_index)?,
            road: rollout.map(|rollout| road(input, gear.ratio, rollout.circumference)),
        })
    };
    table.gears().iter().filter_map(line).collect()
}

fn road(input: &RangeInput, ratio: Ratio, wheel: Circumference) -> Road {
    Road {
        development_m: development_m(ratio, wheel),
        gear_inches: gear_inches(ratio, wheel),
        gain_ratio: input.crank_um.map(|crank| gain_ratio(ratio, wheel, crank)),
        speeds_kmh: input.cadences_rpm.iter().map(|&rpm| speed_kmh(ratio, wheel, rpm)).collect(),
        cadences_rpm: input.speeds_m_per_h.iter().map(|&speed| cadence_rpm(ratio, wheel, speed)).collect(),
    }
}

fn chain(input: &RangeInput, set: &Gearset, stay: Stay) -> ChainAnswer {
    if let ([ring], [cog]) = (set.rings(), set.cogs()) {
        let own = input.chain_links.and_then(|links| direct_chain(links, *ring, *cog).ok());
        return ChainAnswer::Direct { chains: direct_chains(*ring, *cog, stay), own };
    }
    let need = chain_need(set, stay, input.growth_um);
    ChainAnswer::Derailleur { need, reach: input.chain_links.map(|links| reach(links, &need)) }
}

fn climb(hill: &HillInput, lowest: Ratio, wheel: Circumference) -> Result<HillAnswer, Vec<Fault>> {
    let held = gradient_held(&hill.rider, lowest, wheel)?;
    let needed = match hill.gradient {
        None => None,
        Some(gradient) => {
            let needed = gear_needed(&hill.rider, gradient, wheel)?;
            Some((needed, needed.met_by(lowest)))
        }
    };
    Ok(HillAnswer { held, needed })
}

#[cfg(test)]
#[path = "range_tests.rs"]
mod tests;
