//! Roll-outs as printed in bicycle-computer manuals, seen as reprints.
//!
//! Charts differ from each other by up to 2 % for one designation. Below a bead seat of 500 mm this one sits
//! 2 to 5 % under the geometry, which is why it is asked only from 559 mm on (see
//! [`rollout`](super::wheel::rollout)).

/// Section width mm, bead seat diameter mm, roll-out mm; sorted by bead seat, then width.
///
/// The rows 47-203, 47-305, 47-507, 20-571, 23-571, 54-584, 47-622, 54-622, 56-622, 60-622, 28-630 and 32-630
/// are from memory, consistent with several reprints. Reprints give 2224 and 2235 for 44-622; a second list
/// agrees with the first.
const CHART: [(u16, u16, u16); 35] = [
    (47, 203, 935),
    (47, 305, 1195),
    (47, 406, 1515),
    (50, 406, 1565),
    (28, 451, 1545),
    (37, 451, 1615),
    (47, 507, 1890),
    (32, 559, 1950),
    (40, 559, 2010),
    (47, 559, 2023),
    (50, 559, 2050),
    (54, 559, 2068),
    (57, 559, 2070),
    (58, 559, 2083),
    (20, 571, 1938),
    (23, 571, 1944),
    (54, 584, 2148),
    (37, 590, 2068),
    (18, 622, 2070),
    (20, 622, 2086),
    (23, 622, 2096),
    (25, 622, 2105),
    (28, 622, 2136),
    (30, 622, 2146),
    (32, 622, 2155),
    (35, 622, 2168),
    (38, 622, 2180),
    (40, 622, 2200),
    (44, 622, 2224),
    (47, 622, 2268),
    (54, 622, 2288),
    (56, 622, 2298),
    (60, 622, 2326),
    (28, 630, 2155),
    (32, 630, 2161),
];

/// The printed roll-out in mm of a tyre `width_mm`-`bsd_mm`, `None` if the chart has no row for it.
#[must_use]
pub fn printed_mm(width_mm: u16, bsd_mm: u16) -> Option<u16> {
    let row = CHART.binary_search_by_key(&(bsd_mm, width_mm), |&(width, bsd, _)| (bsd, width)).ok()?;
    CHART.get(row).map(|&(_, _, mm)| mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_sorted_and_each_is_found() {
        assert!(CHART.is_sorted_by_key(|&(width, bsd, _)| (bsd, width)));
        for (width, bsd, mm) in CHART {
            assert_eq!(printed_mm(width, bsd), Some(mm));
        }
        assert_eq!(printed_mm(26, 622), None);
    }

    #[test]
    fn rows_that_are_asked_lie_near_the_geometry() {
        for (width, bsd, mm) in CHART.into_iter().filter(|&(_, bsd, _)| bsd >= 559) {
            let geometry = std::f64::consts::PI * f64::from(bsd + 2 * width);
            assert!((f64::from(mm) / geometry - 1.0).abs() < 0.022, "{width}-{bsd}");
        }
    }
}
