//! Published and remembered figures of indexed shifting, per group of cable pull.
//!
//! Pull and ratio of a few groups are published on workshop pages seen as excerpts; most are from memory. Pull is the
//! mean over all clicks, since many shifters pull unevenly. The digits in a key are a ratio or a number of speeds:
//! keys are compared whole, never parsed.

use crate::fit::num::Num;
use crate::part::units::{Micrometres, Permille};

/// What is known of a shifter by its group and positions.
#[derive(Clone, Copy, Debug)]
struct Shifter {
    group: &'static str,
    positions: i64,
    /// Cable per click, lowest and highest; `None` where no figure is known.
    pull_um: Option<(i64, i64)>,
    /// Pitch of the cogs that it is cut for.
    pitch_um: i64,
}

const fn shifter(group: &'static str, positions: i64, pull_um: i64, pitch_um: i64) -> Shifter {
    Shifter { group, positions, pull_um: Some((pull_um, pull_um)), pitch_um }
}

const SHIFTERS: &[Shifter] = &[
    shifter("a-r1.7", 7, 2_900, 5_000),
    shifter("a-r1.7", 8, 2_800, 4_800),
    shifter("a-r1.7", 9, 2_500, 4_340),
    shifter("a-r1.7", 10, 2_300, 3_950),
    shifter("a-r1.4", 10, 2_800, 3_950),
    shifter("a-r1.4", 11, 2_700, 3_690),
    shifter("a-r1.2", 10, 3_400, 3_950),
    shifter("a-r1.1", 11, 3_600, 3_900),
    Shifter { group: "a-r1.1-12", positions: 12, pull_um: None, pitch_um: 3_600 },
    shifter("b-r1.1", 7, 4_500, 5_000),
    shifter("b-r1.1", 8, 4_300, 4_800),
    shifter("b-r1.1", 9, 4_000, 4_340),
    shifter("b-r1.3", 10, 3_100, 3_950),
    shifter("b-r1.3", 11, 2_800, 3_690),
    shifter("b-r1.12", 11, 3_480, 3_900),
    shifter("b-r1.12-12", 12, 3_260, 3_650),
    shifter("c-r1.4", 8, 3_500, 5_000),
    shifter("c-r1.4", 9, 3_200, 4_550),
    shifter("c-r1.5", 9, 3_000, 4_550),
    shifter("c-r1.5", 10, 2_800, 4_120),
    Shifter { group: "c-r1.5", positions: 11, pull_um: Some((2_600, 2_700)), pitch_um: 3_850 },
];

const RATIOS: &[(&str, i64)] = &[
    ("a-r1.7", 1_700),
    ("a-r1.9", 1_900),
    ("a-r1.4", 1_400),
    ("a-r1.2", 1_200),
    ("a-r1.1", 1_100),
    // Reported equal to the 11-speed one.
    ("a-r1.1-12", 1_100),
    ("b-r1.1", 1_100),
    ("b-r1.3", 1_300),
    ("b-r1.12", 1_120),
    ("b-r1.12-12", 1_120),
    ("c-r1.4", 1_400),
    ("c-r1.5", 1_500),
];

/// Closed groups of cable pull, with the class of the cogs that belong to them: no figures are known, so only equality
/// counts.
const CLOSED: &[(&str, i64)] = &[
    ("a-flat-pull", 11),
    ("a-road-12-cable", 12),
    ("b-coaxial-cable", 12),
    ("c-12-cable", 12),
    ("c-13-cable", 13),
    ("c-r1.5-late", 11),
];

/// Pairs of groups whose ratio is reported equal, without a maker's list: at most a caveat.
const REPORTED_EQUAL: &[(&str, &str)] = &[("a-r1.1", "a-r1.1-12"), ("b-r1.12", "b-r1.12-12")];

/// An electronic protocol.
pub fn electronic(group: &str) -> bool {
    group.starts_with("electronic-")
}

/// A closed cable group: the class of cogs that belong to it.
pub fn closed_class(group: &str) -> Option<i64> {
    CLOSED.iter().find(|(key, _)| *key == group).map(|(_, class)| *class)
}

/// An open cable group: pull and ratio may be computed with.
pub fn open(group: &str) -> bool {
    !electronic(group) && closed_class(group).is_none()
}

/// Ratios reported equal.
pub fn reported_equal(one: &str, other: &str) -> bool {
    REPORTED_EQUAL.iter().any(|pair| *pair == (one, other) || *pair == (other, one))
}

fn row(group: &str, positions: i64) -> Option<&'static Shifter> {
    SHIFTERS.iter().find(|row| row.group == group && row.positions == positions)
}

/// Pitch that a shifter of a group is cut for.
pub fn pitch_of_shifter(group: &str, positions: i64) -> Option<i64> {
    row(group, positions).map(|row| row.pitch_um)
}

/// Cable per click of a shifter of a group.
pub fn pull_of_shifter(group: &str, positions: i64) -> Option<Num<Micrometres>> {
    row(group, positions).and_then(|row| row.pull_um).map(|(low, high)| Num::between(low, high))
}

/// Ratio of the derailleurs of a group.
pub fn ratio_of_derailleur(group: &str) -> Option<Num<Permille>> {
    RATIOS.iter().find(|(key, _)| *key == group).map(|(_, ratio)| Num::exact(*ratio))
}

/// Cog pitch by chain class, for families A and B, which share it up to 10 speeds.
const PITCH_AB: &[(i64, i64)] = &[(7, 5_000), (8, 4_800), (9, 4_340), (10, 3_950)];
/// The same for family C, on bodies of eight splines.
const PITCH_C: &[(i64, i64)] = &[(8, 5_000), (9, 4_550), (10, 4_120), (11, 3_850)];

/// Groups of family C; their cogs have a pitch of their own.
const FAMILY_C: &[&str] = &["c-r1.4", "c-r1.5"];

/// Patterns of eight splines, which cogs of family C are cut for.
const SPLINE_8: &[&str] = &["spline-8-deep", "spline-8-deep-short", "spline-8-shallow"];

/// Patterns of which every 12-speed set has the mountain pitch of 3.6 to 3.65 mm.
const MOUNTAIN_12: &[&str] = &["spline-9", "spline-9-full-length", "spline-23", "threaded-driver-short"];

/// Cog pitch of an ordinary set by its chain class, for a shifter of a group with some positions.
///
/// Families A and B share their pitches up to 10 speeds, and any set off eight splines has them. Eleven-speed road
/// (3.69 mm) and mountain sets (3.9 mm, disputed) work with one another's shifters by common report, so an 11-speed set
/// takes the pitch of the 11-speed shifter; so do the 12-speed sets of the mountain patterns. A shifter of family C
/// needs the set's eight splines to be known. All else must be stated: road 12 and 13-speed pitches are not known.
pub fn pitch_by_class(class: i64, pattern: Option<&str>, group: &str, positions: i64) -> Option<i64> {
    let find = |table: &[(i64, i64)]| table.iter().find(|(key, _)| *key == class).map(|(_, pitch)| *pitch);
    let own = || pitch_of_shifter(group, positions);
    let eight = pattern.is_some_and(|pattern| SPLINE_8.contains(&pattern));
    if FAMILY_C.contains(&group) {
        return if eight { find(PITCH_C) } else { None };
    }
    match class {
        _ if eight => None,
        11 if positions == 11 => own(),
        12 if positions == 12 && pattern.is_some_and(|pattern| MOUNTAIN_12.contains(&pattern)) => own(),
        _ => find(PITCH_AB),
    }
}

/// Cog pitch of an ordinary set by its chain class alone, good enough for the cable that a lever must pull.
pub fn pitch_about(class: i64) -> Option<i64> {
    match class {
        11 => Some(3_900),
        12 => Some(3_650),
        _ => PITCH_AB.iter().chain(PITCH_C).filter(|(key, _)| *key == class).map(|(_, pitch)| *pitch).max(),
    }
}
