//! Where rings and cogs stand across the bicycle, and which combinations run too crooked.
//!
//! All positions are micrometres from the frame's centre plane towards the drive side.

use super::chain::Stay;
use super::fault::Faults;
use super::set::Gearset;

/// What a recessed thru-axle hub is wider than the same hub between locknuts: 3.5 mm on each side.
pub const THRU_RECESS_UM: u32 = 7_000;

/// Width between locknuts that a hub counts as: a thru-axle hub that sits 3.5 mm deep in each dropout counts
/// 7 mm less (142 as 135, 157 as 150). Micrometres.
#[must_use]
pub fn locknut_equivalent_um(width_um: u32, recessed_thru_axle: bool) -> u32 {
    if recessed_thru_axle { width_um.saturating_sub(THRU_RECESS_UM) } else { width_um }
}

/// Width of a stack of cogs, micrometres: (cogs - 1) x pitch + thickness of one cog.
#[must_use]
pub fn stack_um(cogs: u16, pitch_um: u32, thickness_um: u32) -> u32 {
    u32::from(cogs.saturating_sub(1)).saturating_mul(pitch_um).saturating_add(thickness_um)
}

/// Where the rings stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FrontLine {
    /// Front chainline, micrometres: single ring, midpoint of two, middle one of three.
    pub chainline_um: u32,
    /// Distance between neighbouring rings, micrometres; not used for a single ring.
    pub ring_pitch_um: u32,
}

/// Where the cogs stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RearLine {
    /// From the hub's dimensions.
    Hub {
        /// Width of the hub over its faces, micrometres.
        width_um: u32,
        /// A thru-axle hub whose faces sit 3.5 mm deep in each dropout.
        recessed_thru_axle: bool,
        /// Drive-side locknut face to the middle of the smallest cog, micrometres.
        locknut_to_cog_um: u32,
        /// Distance between the middles of neighbouring cogs, micrometres.
        cog_pitch_um: u32,
    },
    /// From a measured rear chainline.
    Measured {
        /// Frame's centre plane to the middle of the cassette, micrometres.
        chainline_um: u32,
        /// Distance between the middles of neighbouring cogs, micrometres.
        cog_pitch_um: u32,
    },
}

impl FrontLine {
    /// Position of a ring, 0 = smallest, which stands innermost.
    #[must_use]
    pub fn ring_um(&self, index: usize, rings: usize) -> i64 {
        i64::from(self.chainline_um) + from_middle(index, rings, self.ring_pitch_um)
    }

    pub(crate) fn check(&self, faults: &mut Faults, rings: usize) {
        faults.whole("front_line.chainline", self.chainline_um, 20_000, 100_000, "um");
        if rings > 1 {
            faults.whole("front_line.ring_pitch", self.ring_pitch_um, 2_000, 20_000, "um");
        }
    }
}

impl RearLine {
    /// Position of a cog, 0 = smallest, which stands outermost.
    #[must_use]
    pub fn cog_um(&self, index: usize, cogs: usize) -> i64 {
        match *self {
            Self::Hub { width_um, recessed_thru_axle, locknut_to_cog_um, cog_pitch_um } => {
                let half = i64::from(locknut_equivalent_um(width_um, recessed_thru_axle)) / 2;
                half - i64::from(locknut_to_cog_um) - index as i64 * i64::from(cog_pitch_um)
            }
            Self::Measured { chainline_um, cog_pitch_um } => {
                i64::from(chainline_um) - from_middle(index, cogs, cog_pitch_um)
            }
        }
    }

    /// Rear chainline: the middle cog, or the midpoint of the two middle ones.
    #[must_use]
    pub fn chainline_um(&self, cogs: usize) -> i64 {
        i64::midpoint(self.cog_um(0, cogs), self.cog_um(cogs.saturating_sub(1), cogs))
    }

    pub(crate) fn check(&self, faults: &mut Faults) {
        let pitch = match *self {
            Self::Hub { width_um, locknut_to_cog_um, cog_pitch_um, .. } => {
                faults.whole("rear_line.width", width_um, 80_000, 250_000, "um");
                faults.whole("rear_line.locknut_to_cog", locknut_to_cog_um, 0, 30_000, "um");
                cog_pitch_um
            }
            Self::Measured { chainline_um, cog_pitch_um } => {
                faults.whole("rear_line.chainline", chainline_um, 20_000, 100_000, "um");
                cog_pitch_um
            }
        };
        faults.whole("rear_line.cog_pitch", pitch, 2_000, 10_000, "um");
    }
}

/// How far an entry of an evenly spaced row stands from the row's middle; rising index is outward.
fn from_middle(index: usize, count: usize, pitch_um: u32) -> i64 {
    (2 * index as i64 - (count as i64 - 1)) * i64::from(pitch_um) / 2
}

/// Angle in degrees of a chain that runs `offset_um` aside over the length of the stay.
#[must_use]
pub fn chain_angle_deg(offset_um: i64, stay: Stay) -> f64 {
    (offset_um.unsigned_abs() as f64 / f64::from(stay.um())).atan().to_degrees()
}

/// Limits of the chain angle, in thousandths of a degree (common practice).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AngleLimits {
    /// Up to here the chain runs well.
    pub good_mdeg: u16,
    /// Over this the combination counts as crossed.
    pub crossed_mdeg: u16,
}

impl AngleLimits {
    /// For a derailleur: 2.5 deg is good, up to 3.5 deg is tolerated at the extremes.
    pub const DERAILLEUR: Self = Self { good_mdeg: 2_500, crossed_mdeg: 3_500 };
    /// For one ring and one cog: 0.5 deg and 1 deg.
    pub const DIRECT: Self = Self { good_mdeg: 500, crossed_mdeg: 1_000 };

    pub(crate) fn check(&self, faults: &mut Faults) {
        faults.whole("angle_limits.crossed", self.crossed_mdeg.into(), 100, 10_000, "mdeg");
        faults.whole("angle_limits.good", self.good_mdeg.into(), 0, self.crossed_mdeg.into(), "mdeg");
    }
}

/// How straight the chain runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Alignment {
    /// Within the good limit.
    Straight,
    /// Between the limits.
    Slanted,
    /// Over the limit: possible, and it must be, but not to be ridden for long.
    Crossed,
}

/// What the alignment was decided by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AlignedBy {
    /// Positions of rings and cogs and the length of the stay.
    ChainAngle,
    /// The rule of thumb, as one of them is not known.
    RuleOfThumb,
}

/// Alignment of one ring with one cog.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Combination {
    /// How straight.
    pub alignment: Alignment,
    /// Chain angle in degrees, if the positions are known.
    pub angle_deg: Option<f64>,
}

/// Alignment of every ring with every cog of a set.
#[derive(Debug, Clone, PartialEq)]
pub struct Alignments {
    by: AlignedBy,
    cogs: usize,
    combinations: Vec<Combination>,
}

impl Alignments {
    /// What decided.
    #[must_use]
    pub const fn by(&self) -> AlignedBy {
        self.by
    }

    /// The combination of a ring and a cog, by their positions in the set; `None` outside it.
    #[must_use]
    pub fn of(&self, ring_index: usize, cog_index: usize) -> Option<Combination> {
        let inside = cog_index < self.cogs;
        self.combinations.get(ring_index * self.cogs + cog_index).copied().filter(|_| inside)
    }

    /// True if the combination is over the limit.
    #[must_use]
    pub fn crossed(&self, ring_index: usize, cog_index: usize) -> bool {
        self.of(ring_index, cog_index).is_some_and(|found| found.alignment == Alignment::Crossed)
    }
}

/// Alignment by chain angle, for known positions.
#[must_use]
pub fn align_by_angle(
    set: &Gearset,
    front: FrontLine,
    rear: RearLine,
    stay: Stay,
    limits: AngleLimits,
) -> Alignments {
    let (rings, cogs) = (set.rings().len(), set.cogs().len());
    let (good_um, crossed_um) =
        (offset_limit_um(limits.good_mdeg, stay), offset_limit_um(limits.crossed_mdeg, stay));
    let judge = |ring: usize, cog: usize| {
        let offset = front.ring_um(ring, rings) - rear.cog_um(cog, cogs);
        let aside = offset.unsigned_abs();
        let alignment = if aside > crossed_um {
            Alignment::Crossed
        } else if aside > good_um {
            Alignment::Slanted
        } else {
            Alignment::Straight
        };
        Combination { alignment, angle_deg: Some(chain_angle_deg(offset, stay)) }
    };
    Alignments { by: AlignedBy::ChainAngle, cogs, combinations: each(rings, cogs, judge) }
}

/// Alignment by the rule of thumb (common practice): of two rings, the larger without the two largest cogs
/// and the smaller without the two smallest (one each below eight cogs, none below four); of three, outer and
/// inner without the far third of the cogs, the middle with all; a single ring with all.
#[must_use]
pub fn align_by_thumb(set: &Gearset) -> Alignments {
    let (rings, cogs) = (set.rings().len(), set.cogs().len());
    let avoided = match (rings, cogs) {
        (2, 8..) => 2,
        (2, 4..) => 1,
        (3.., _) => cogs / 3,
        _ => 0,
    };
    let judge = |ring: usize, cog: usize| {
        let innermost = ring == 0 && cog < avoided;
        let outermost = ring + 1 == rings && cog + avoided >= cogs;
        let crossed = rings > 1 && avoided > 0 && (innermost || outermost);
        let alignment = if crossed { Alignment::Crossed } else { Alignment::Straight };
        Combination { alignment, angle_deg: None }
    };
    Alignments { by: AlignedBy::RuleOfThumb, cogs, combinations: each(rings, cogs, judge) }
}

fn each(rings: usize, cogs: usize, judge: impl Fn(usize, usize) -> Combination) -> Vec<Combination> {
    (0..rings * cogs).map(|at| judge(at / cogs, at % cogs)).collect()
}

/// The angle limit as micrometres aside, so that the decision is one of whole numbers.
fn offset_limit_um(mdeg: u16, stay: Stay) -> u64 {
    ((f64::from(mdeg) / 1000.0).to_radians().tan() * f64::from(stay.um())).round() as u64
}

#[cfg(test)]
mod tests {
    use super::*;

    fn crossed(rings: &[u16], cogs: &[u16]) -> Vec<(u16, u16)> {
        let set = Gearset::plain(rings, cogs).unwrap();
        let alignments = align_by_thumb(&set);
        let gears = set.gears();
        let chosen = gears.iter().filter(|gear| alignments.crossed(gear.ring_index, gear.cog_index));
        chosen.map(|gear| (gear.ring, gear.cog)).collect()
    }

    #[test]
    fn rule_of_thumb() {
        let eleven = [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32];
        assert_eq!(crossed(&[34, 50], &eleven), [(34, 11), (34, 12), (50, 28), (50, 32)]);
        assert_eq!(crossed(&[46, 50], &[14, 17, 20, 24, 28]), [(46, 14), (50, 28)]);
        assert_eq!(
            crossed(&[24, 32, 44], &[11, 13, 15, 18, 21, 24]),
            [(24, 11), (24, 13), (44, 21), (44, 24)]
        );
        assert!(crossed(&[32], &eleven).is_empty());
        assert!(crossed(&[34, 50], &[16]).is_empty());
    }

    #[test]
    fn angle_decides_where_positions_are_known() {
        let set = Gearset::plain(&[32], &[10, 51]).unwrap();
        let front = FrontLine { chainline_um: 52_000, ring_pitch_um: 0 };
        let rear = RearLine::Measured { chainline_um: 45_000, cog_pitch_um: 38_000 };
        let stay = Stay::from_um("stay", 435_000).unwrap();
        let found = align_by_angle(&set, front, rear, stay, AngleLimits::DERAILLEUR);
        assert_eq!(found.by(), AlignedBy::ChainAngle);
        // Cogs at 64 and 26 mm: 12 and 26 mm aside over 435 mm are 1.58 and 3.42 degrees.
        assert_eq!(found.of(0, 0).unwrap().alignment, Alignment::Straight);
        assert_eq!(found.of(0, 1).unwrap().alignment, Alignment::Slanted);
        let strict =
            align_by_angle(&set, front, rear, stay, AngleLimits { good_mdeg: 1_000, crossed_mdeg: 3_000 });
        assert!(strict.crossed(0, 1));
        assert_eq!(strict.of(0, 2), None);
        assert_eq!(strict.of(1, 0), None);
    }

    #[test]
    fn rings_stand_around_the_chainline() {
        let line = FrontLine { chainline_um: 43_500, ring_pitch_um: 5_000 };
        assert_eq!([0, 1].map(|ring| line.ring_um(ring, 2)), [41_000, 46_000]);
        assert_eq!([0, 1, 2].map(|ring| line.ring_um(ring, 3)), [38_500, 43_500, 48_500]);
        assert_eq!(line.ring_um(0, 1), 43_500);
    }
}
