//! # Tyre width on rim
//!
//! ## What it checks
//! The nominal width of the tyre against the inner width of the rim: too narrow on hooked and on straight-side rims,
//! too wide on either.
//!
//! ## Why it matters
//! A tyre that is narrow for its rim does not cover the edges and can be pushed off; one that is wide for its rim rolls
//! and squirms. The nominal width counts: tyres measure 1 to 2 mm more on wide rims.
//!
//! ## Numbers
//! * Straight-side, road pressures, inner width i: below i + 4 mm refused; from there below i + 5 mm a caveat; from
//!   i + 5 mm and 28 mm on it passes; other tyres below 28 mm are unclear. So 28 on 23 passes, 28 on 25 is refused, 29
//!   on 25 is a caveat, 30 on 25 passes, 25 on 19 is unclear.
//! * Hooked: the tyre is wide enough where it is 5 mm wider than the rim, or where its measuring rim is at least as
//!   wide: 15 mm for 18-21, 17 for 22-24, 19 for 25-28, 21 for 29-34, 23 for 35-46, 25 for 47-57, 30 for 58-65, 35 for
//!   66-71, 45 for 72-83, 76 for 84-113, 94 for 114-132. One millimetre less is a caveat, below that it is refused.
//! * Widest tyre by the older chart: 25 on 13 mm, 32 on 15, 50 on 17, 62 on 19, in between in proportion, three times
//!   the inner width above 20.7 mm. Over it a strong caveat; over three and a half times the inner width refused
//!   (thresholds reasoned, not a standard).
//!
//! ## Exceptions
//! * A pair that both the rim's and the tyre's maker list below these limits works with a caveat; one list alone
//!   changes nothing.
//! * The older chart is advisory: wider tyres have run, and some first tries blew off.
//!
//! ## Sources
//! ISO 5775 overview; measuring-rim table of 2020; statement of a rim maker and a weekly magazine on the 2023 rule; the
//! form for other straight-side widths is fitted to their two points; older chart from memory.

use super::known;
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop};
use crate::fit::slot::Slot::{Rim, Tyre};
use crate::part::units::Micrometres;
use crate::part::word::{RimSystem, TyreSystem};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "tyre-width-on-rim",
    title: "Tyre width on rim",
    file: include_str!("tyre_width_on_rim.rs"),
    source: "ISO 5775 overview, measuring-rim table of 2020, statements on the 2023 rule",
    rules: &[NARROW, WIDE],
};

type Length = Num<Micrometres>;

const TYRE: [Remedy; 1] = [Remedy::replace(Kind::Tyre, "a tyre of a width that suits the rim and the frame")];

const INPUTS: [Input; 4] = [
    (Rim, attr::RIM_SYSTEM.attribute()),
    (Tyre, attr::TYRE_SYSTEM.attribute()),
    (Tyre, attr::TYRE_WIDTH.attribute()),
    (Rim, attr::INNER_WIDTH.attribute()),
];

/// Tubular and solid tyres have no such widths; their system is judged by its own mating.
fn widths(given: &Given<'_>) -> Result<(Length, Length), Stop> {
    let tubular_rim = known::word(given, Rim, attr::RIM_SYSTEM) == Some(RimSystem::Tubular);
    let other_tyre =
        matches!(known::word(given, Tyre, attr::TYRE_SYSTEM), Some(TyreSystem::Tubular | TyreSystem::Solid));
    if tubular_rim || other_tyre {
        return Err(Stop::Silent);
    }
    let tyre = given.num(Tyre, attr::TYRE_WIDTH);
    let rim = given.num(Rim, attr::INNER_WIDTH);
    Ok((tyre?, rim?))
}

// Too narrow.

const WIDE_ENOUGH: Reason = Reason::fits("wide-enough", "the tyre is wide enough for the rim").limit();
const BARELY: Reason = Reason::caveat(
    "barely-wide-enough",
    "the tyre is only {margin} wider than the rim inside: published rules disagree on whether that is enough",
)
.limit()
.injury()
.remedies(&TYRE);
const TOO_NARROW: Reason = Reason::no(
    "too-narrow",
    "the tyre is only {margin} wider than the rim inside, {need} are needed: it does not cover the edges of the rim",
)
.limit()
.injury()
.remedies(&TYRE);
const ASK_MAKERS: Reason = Reason::unclear(
    "narrow-on-straight-side",
    "below 28 mm on a straight-side rim both makers must list the pair",
)
.limit()
.injury()
.remedies(&TYRE);

const NARROW: Rule = Rule {
    code: "too-narrow",
    slots: &[Tyre, Rim],
    inputs: &INPUTS,
    reasons: &[&WIDE_ENOUGH, &BARELY, &TOO_NARROW, &ASK_MAKERS],
    judge: narrow,
};

fn narrow(given: &Given<'_>) -> Judged {
    let widths = widths(given);
    if matches!(widths, Err(Stop::Silent)) {
        return Err(Stop::Silent);
    }
    let system = given.word(Rim, attr::RIM_SYSTEM);
    let (tyre, rim) = widths?;
    let margin = tyre - rim;
    let reason =
        if system? == RimSystem::StraightSide { straight_side(tyre, margin)? } else { hooked(tyre, rim)? };
    let need: Length = Num::exact(5_000);
    Ok(Judgement::from(reason).with("margin", margin).with("need", need).with("tyre", tyre).with("rim", rim))
}

fn straight_side(tyre: Length, margin: Length) -> Result<&'static Reason, Stop> {
    if margin.at_most(3_999)? {
        return Ok(&TOO_NARROW);
    }
    if tyre.at_most(27_999)? {
        return Ok(&ASK_MAKERS);
    }
    Ok(if margin.at_most(4_999)? { &BARELY } else { &WIDE_ENOUGH })
}

fn hooked(tyre: Length, rim: Length) -> Result<&'static Reason, Stop> {
    let margin = tyre - rim;
    let measuring: Length = Num::between(measuring_rim_um(tyre.low), measuring_rim_um(tyre.high));
    // Either is enough; one that is sure makes the other irrelevant.
    let on_measuring_rim = (measuring - rim).at_least(0);
    if on_measuring_rim == Ok(true) || margin.at_least(5_000)? || on_measuring_rim? {
        return Ok(&WIDE_ENOUGH);
    }
    Ok(if margin.at_least(4_000)? { &BARELY } else { &TOO_NARROW })
}

/// Inner width of the rim on which the nominal width of a tyre is defined, both in micrometres. Source: measuring-rim
/// table of 2020.
pub const fn measuring_rim_um(tyre_um: i64) -> i64 {
    const TABLE: [(i64, i64); 11] = [
        (21, 15),
        (24, 17),
        (28, 19),
        (34, 21),
        (46, 23),
        (57, 25),
        (65, 30),
        (71, 35),
        (83, 45),
        (113, 76),
        (132, 94),
    ];
    let mut index = 0;
    while index + 1 < TABLE.len() {
        if tyre_um < (TABLE[index].0 + 1) * 1_000 {
            break;
        }
        index += 1;
    }
    TABLE[index].1 * 1_000
}

// Too wide.

const IN_CHART: Reason =
    Reason::fits("in-chart", "the tyre is not wider than the chart allows for the rim").limit();
const OVER_CHART: Reason = Reason::caveat(
    "over-chart",
    "the tyre is {over} wider than the chart allows for a rim of {rim}: seat it with care, keep the pressure moderate; a wider rim is the cure",
)
.limit()
.damage()
.strong()
.tolerated()
.remedies(&TYRE);
const FAR_OVER: Reason = Reason::no(
    "far-over-chart",
    "the tyre is {over} wider than the chart allows, more than three and a half times the rim",
)
.limit()
.damage()
.remedies(&TYRE);

const WIDE: Rule = Rule {
    code: "too-wide",
    slots: &[Tyre, Rim],
    inputs: &INPUTS,
    reasons: &[&IN_CHART, &OVER_CHART, &FAR_OVER],
    judge: |given| {
        let (tyre, rim) = widths(given)?;
        let limit: Length = Num::between(widest_tyre_um(rim.low), widest_tyre_um(rim.high));
        let over = tyre - limit;
        let reason = if over.at_most(0)? {
            &IN_CHART
        } else if (tyre.times(2) - rim.times(7)).at_most(0)? {
            &OVER_CHART
        } else {
            &FAR_OVER
        };
        Ok(Judgement::from(reason)
            .with("over", over)
            .with("limit", limit)
            .with("tyre", tyre)
            .with("rim", rim))
    },
};

/// Widest tyre for an inner rim width by the older chart, both in micrometres; in proportion between its points.
pub fn widest_tyre_um(rim_um: i64) -> i64 {
    const CHART: [(i64, i64); 4] = [(13_000, 25_000), (15_000, 32_000), (17_000, 50_000), (19_000, 62_000)];
    let [(narrowest, least), .., (_, most)] = CHART;
    if rim_um < narrowest {
        return rim_um * least / narrowest;
    }
    let between = CHART.windows(2).find_map(|pair| match pair {
        [(from, low), (to, high)] if rim_um < *to => Some(low + (rim_um - from) * (high - low) / (to - from)),
        _ => None,
    });
    between.unwrap_or_else(|| most.max(3 * rim_um))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_chart_rises_without_gaps() {
        assert_eq!(widest_tyre_um(13_000), 25_000);
        assert_eq!(widest_tyre_um(14_000), 28_500);
        assert_eq!(widest_tyre_um(19_000), 62_000);
        assert_eq!(widest_tyre_um(25_000), 75_000);
        let rising = (11_000..40_000).step_by(100).map(widest_tyre_um).collect::<Vec<_>>();
        assert!(rising.is_sorted());
    }

    #[test]
    fn the_measuring_rim_changes_at_whole_millimetres() {
        assert_eq!(measuring_rim_um(21_900), 15_000);
        assert_eq!(measuring_rim_um(22_000), 17_000);
        assert_eq!(measuring_rim_um(132_000), 94_000);
    }
}
