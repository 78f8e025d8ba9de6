//! The gearing of a bike: what of its parts enters the question.

use super::range::RangeInput;
use super::ratio::Ratio;
use crate::build::{Assembly, Placed};
use crate::gearing::chainline::{FrontLine, RearLine};
use crate::gearing::designation::TyreSize;
use crate::part::{Attribute, Kind, Set};

/// Distance between neighbouring rings where nothing else is known. Source: common practice, no source.
const RING_PITCH_UM: u32 = 7_500;

/// A question about a bike's gears, with what could not be said.
#[derive(Debug, Clone, PartialEq)]
pub struct BikeGearing {
    /// The question.
    pub input: RangeInput,
    /// Only the largest and the smallest cog are known: steps mean nothing.
    pub cog_ends_only: bool,
    /// Mass of the parts whose mass is known, grams.
    pub known_mass_g: i64,
    /// Mass of the cogs, grams, where it is known.
    pub cog_mass_g: Option<u32>,
}

/// What is missing for any answer: the item kind and the attribute.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lack {
    /// No cassette, freewheel or sprocket.
    NoCogs,
    /// The teeth of the cogs are not known.
    CogTeeth,
    /// No crankset or ring.
    NoRings,
    /// The teeth of a ring are not known.
    RingTeeth,
}

impl std::fmt::Display for Lack {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::NoCogs => "no cassette, freewheel or sprocket is in the build",
            Self::CogTeeth => "the teeth of the cogs are not known: give every cog, or at least the smallest and the largest",
            Self::NoRings => "no crankset or chainring is in the build",
            Self::RingTeeth => "the teeth of a ring are not known",
        })
    }
}

/// The question that a bike's parts pose.
///
/// # Errors
/// What is missing, all of it.
pub fn of(assembly: &Assembly) -> Result<BikeGearing, Vec<Lack>> {
    let (cogs, rings) = match (cogs(assembly), rings(assembly)) {
        (Ok(cogs), Ok(rings)) => (cogs, rings),
        (cogs, rings) => return Err([cogs.err(), rings.err()].into_iter().flatten().collect()),
    };
    let (cogs, cog_ends_only) = cogs;
    let mut input = RangeInput::new(&rings, &cogs);
    internal(assembly, &mut input);
    frame_and_chain(assembly, &mut input);
    lines(assembly, &mut input);
    input.tyre = tyre(assembly);
    let masses = assembly.placed.iter().filter(|placed| !placed.all_rings);
    let known_mass_g = masses
        .filter_map(|placed| Some(placed.part.exact(Attribute::Mass)? * i64::from(placed.quantity)))
        .sum();
    let cog_mass = assembly.placed.iter().find(bears_cogs).and_then(|cogs| cogs.part.exact(Attribute::Mass));
    let cog_mass_g = cog_mass.and_then(|grams| u32::try_from(grams).ok());
    Ok(BikeGearing { input, cog_ends_only, known_mass_g, cog_mass_g })
}

fn teeth(values: &[i64]) -> Vec<u16> {
    // Attributes are within their hard ranges, so a tooth count fits; what does not is caught as out of range.
    values.iter().map(|value| u16::try_from(*value).unwrap_or(u16::MAX)).collect()
}

fn bears_cogs(placed: &&Placed) -> bool {
    matches!(placed.part.kind, Kind::Cassette | Kind::Freewheel | Kind::Sprocket) && !placed.all_rings
}

fn cogs(assembly: &Assembly) -> Result<(Vec<u16>, bool), Lack> {
    let part = &assembly.placed.iter().find(bears_cogs).ok_or(Lack::NoCogs)?.part;
    if let Some(cogs) = part.list(Attribute::Cogs) {
        return Ok((teeth(cogs), false));
    }
    if let Some(only) = part.exact(Attribute::Teeth) {
        return Ok((teeth(&[only]), false));
    }
    match (part.exact(Attribute::SmallestCog), part.exact(Attribute::LargestCog)) {
        (Some(small), Some(large)) if small < large => Ok((teeth(&[small, large]), true)),
        (Some(small), Some(large)) if small == large => Ok((teeth(&[small]), false)),
        _ => Err(Lack::CogTeeth),
    }
}

fn rings(assembly: &Assembly) -> Result<Vec<u16>, Lack> {
    let rings: Vec<&Placed> = assembly.of_kind(Kind::Chainring).collect();
    if rings.is_empty() {
        let all = &assembly.rings().ok_or(Lack::NoRings)?.part;
        return match (all.exact(Attribute::SmallestRing), all.exact(Attribute::LargestRing)) {
            (Some(small), Some(large)) if small < large => Ok(teeth(&[small, large])),
            (Some(small), Some(_)) => Ok(teeth(&[small])),
            _ => Err(Lack::RingTeeth),
        };
    }
    let known: Option<Vec<i64>> = rings.iter().map(|ring| ring.part.exact(Attribute::Teeth)).collect();
    let mut known = known.ok_or(Lack::RingTeeth)?;
    known.sort_unstable();
    Ok(teeth(&known))
}

/// A two-speed crank and a gear hub multiply the ratio, and nothing else.
fn internal(assembly: &Assembly, input: &mut RangeInput) {
    let permille = |value: i64| Ratio::new(u64::try_from(value).ok()?, 1000);
    if let Some(hub) = assembly.of_kind(Kind::GearHub).next() {
        let ratios = hub.part.list(Attribute::HubRatios).unwrap_or_default();
        let ratios: Vec<Ratio> = ratios.iter().filter_map(|value| permille(*value)).collect();
        if !ratios.is_empty() {
            input.hub_ratios = ratios;
        }
        input.min_primary = hub.part.exact(Attribute::MinPrimaryRatio).and_then(permille);
    }
    let crank = assembly.of_kind(Kind::Crankset).next();
    if let Some(second) = crank.and_then(|crank| crank.part.exact(Attribute::CrankRatio)).and_then(permille)
        && second != Ratio::ONE
    {
        input.crank_ratios = vec![Ratio::ONE, second];
    }
}

fn frame_and_chain(assembly: &Assembly, input: &mut RangeInput) {
    let number = |kind: Kind, attribute: Attribute| {
        let part = &assembly.of_kind(kind).next()?.part;
        part.exact(attribute)
    };
    let length = |kind, attribute| number(kind, attribute).and_then(|value| u32::try_from(value).ok());
    let count = |kind, attribute| number(kind, attribute).and_then(|value| u16::try_from(value).ok());
    input.stay_um = length(Kind::Frame, Attribute::Chainstay);
    input.growth_um = length(Kind::Frame, Attribute::ChainGrowth).unwrap_or(0);
    input.chain_links = count(Kind::Chain, Attribute::LinkCount);
    input.wrap_capacity = count(Kind::RearDerailleur, Attribute::Capacity);
    input.crank_um = length(Kind::Crankset, Attribute::ArmLength);
}

/// Chainlines, where crankset, hub and cogs tell them.
fn lines(assembly: &Assembly, input: &mut RangeInput) {
    let exact = |kind: Kind, attribute: Attribute| {
        let part = &assembly.of_kind(kind).next()?.part;
        u32::try_from(part.exact(attribute)?).ok()
    };
    input.front_line = exact(Kind::Crankset, Attribute::Chainline)
        .map(|chainline_um| FrontLine { chainline_um, ring_pitch_um: RING_PITCH_UM });
    let pitch =
        exact(Kind::Cassette, Attribute::CogPitch).or_else(|| exact(Kind::Freewheel, Attribute::CogPitch));
    let hub = assembly.of_kind(Kind::Hub).find(|hub| hub.end == Some(crate::build::End::Rear));
    input.rear_line = hub.and_then(|hub| {
        let width_um = u32::try_from(hub.part.exact(Attribute::OverLocknut)?).ok()?;
        let thru = hub.part.judged(Attribute::Axle);
        Some(RearLine::Hub {
            width_um,
            recessed_thru_axle: is_thru(thru),
            locknut_to_cog_um: u32::try_from(hub.part.exact(Attribute::LocknutToCog)?).ok()?,
            cog_pitch_um: pitch?,
        })
    });
}

fn is_thru(axle: &Set) -> bool {
    let interfaces = crate::part::interface::Interfaces::standard_ref();
    let Set::Exact(key) = axle else { return false };
    u16::try_from(*key)
        .is_ok_and(|key| interfaces.name(crate::part::interface::Key(key)).starts_with("thru-"))
}

fn tyre(assembly: &Assembly) -> Option<TyreSize> {
    let rear = assembly.of_kind(Kind::Tyre).find(|tyre| tyre.end == Some(crate::build::End::Rear))?;
    let millimetres = |attribute| u16::try_from(rear.part.exact(attribute)? / 1000).ok();
    TyreSize::new(millimetres(Attribute::TyreWidth)?, millimetres(Attribute::BeadSeat)?).ok()
}
