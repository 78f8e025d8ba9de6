//! The whole front of price and mass as a cost.

use std::borrow::Cow;

use super::algebra::Algebra;
use super::fold::{Fold, Slice};

/// What a way comes to in two respects; less is better in both.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Point {
    /// Price in minor units.
    pub price: i64,
    /// Mass in grams.
    pub mass: i64,
}

impl Point {
    /// Both added up.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { price: self.price + other.price, mass: self.mass + other.mass }
    }

    fn minus(self, other: Self) -> Self {
        Self { price: self.price - other.price, mass: self.mass - other.mass }
    }
}

/// Points of which none is as good as another one in both respects: price rises, mass falls.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Front(Cow<'static, [Point]>);

impl Front {
    /// The points that no other one beats.
    pub fn new(mut points: Vec<Point>) -> Self {
        points.sort_unstable();
        let mut lightest = i64::MAX;
        points.retain(|point| {
            let better = point.mass < lightest;
            lightest = lightest.min(point.mass);
            better
        });
        Self(points.into())
    }

    /// The points, by rising price.
    pub fn points(&self) -> &[Point] {
        &self.0
    }

    /// The least price and the least mass, of different points perhaps.
    fn ideal(&self) -> Point {
        match (self.0.first(), self.0.last()) {
            (Some(cheapest), Some(lightest)) => Point { price: cheapest.price, mass: lightest.mass },
            _ => Point::default(),
        }
    }

    fn heaviest(&self) -> i64 {
        self.0.first().map_or(0, |point| point.mass)
    }
}

/// Masses that are counted one by one at most; wider spans are sorted.
const SPAN_MAX: i64 = 1 << 16;

/// The cheapest price at or below each mass.
#[derive(Debug, Default)]
pub struct Skyline {
    prices: Vec<i64>,
    base: i64,
    /// Points where the span of masses is too wide.
    loose: Vec<Point>,
    wide: bool,
}

impl Skyline {
    fn clear(&mut self, lightest: i64, heaviest: i64) {
        self.prices.clear();
        self.loose.clear();
        self.base = lightest;
        let span = heaviest - lightest + 1;
        self.wide = span > SPAN_MAX;
        if !self.wide {
            self.prices.resize(usize::try_from(span).unwrap_or(0), i64::MAX);
        }
    }

    fn place(&self, mass: i64) -> usize {
        usize::try_from(mass - self.base).unwrap_or(usize::MAX)
    }

    /// Notes a point; [`Self::settle`] has to follow.
    #[inline]
    fn note(&mut self, point: Point) {
        if self.wide {
            self.loose.push(point);
        } else {
            let place = self.place(point.mass);
            if let Some(price) = self.prices.get_mut(place) {
                *price = (*price).min(point.price);
            }
        }
    }

    /// Adds a point to a skyline that is settled, and keeps it so.
    fn put(&mut self, point: Point) {
        if self.wide {
            self.loose.push(point);
            return;
        }
        let place = self.place(point.mass);
        for price in self.prices.iter_mut().skip(place) {
            if *price <= point.price {
                break;
            }
            *price = point.price;
        }
    }

    /// Some point is as good as this one in both respects.
    fn beats(&self, point: Point) -> bool {
        !self.wide && self.prices.get(self.place(point.mass)).is_some_and(|price| *price <= point.price)
    }

    /// The front of what was noted.
    fn front(&mut self) -> Front {
        if self.wide {
            return Front::new(std::mem::take(&mut self.loose));
        }
        let mut points = Vec::new();
        let mut least = i64::MAX;
        for (mass, price) in (self.base..).zip(&self.prices) {
            if *price < least {
                least = *price;
                points.push(Point { price: *price, mass });
            }
        }
        points.reverse();
        Front(points.into())
    }
}

/// The algebra of fronts.
#[derive(Debug)]
pub struct Frontier;

impl Frontier {
    /// What nothing costs.
    pub const ZERO: Front = Front(Cow::Borrowed(&[Point { price: 0, mass: 0 }]));
}

/// Sums of all pairs of points.
fn note_sums(one: &Front, other: &Front, skyline: &mut Skyline) {
    for point in one.points() {
        for further in other.points() {
            skyline.note(point.plus(*further));
        }
    }
}

impl Algebra for Frontier {
    type Value = Front;
    type Scratch = (Skyline, Skyline);

    fn free() -> Front {
        Self::ZERO
    }

    fn none() -> Front {
        Front::default()
    }

    fn is_none(value: &Front) -> bool {
        value.0.is_empty()
    }

    fn plus(one: &Front, other: &Front, (skyline, _): &mut Self::Scratch) -> Front {
        if *other == Self::ZERO {
            return one.clone();
        }
        skyline.clear(one.ideal().mass + other.ideal().mass, one.heaviest() + other.heaviest());
        note_sums(one, other, skyline);
        skyline.front()
    }

    fn choose(into: &mut Front, other: &Front) {
        if into.0.is_empty() {
            into.clone_from(other);
        } else if !other.0.is_empty() {
            let all = into.points().iter().chain(other.points()).copied().collect();
            *into = Front::new(all);
        }
    }

    fn fold(fold: &Fold<'_, Front>, out: &mut [Front], (skyline, _): &mut Self::Scratch) {
        for (cell, out) in out.iter_mut().enumerate() {
            if fold.wanted.is_some_and(|wanted| !wanted[cell]) {
                continue;
            }
            let pairs = || {
                fold.members.iter().filter_map(|(block, factor)| {
                    let factor: Slice<'_, Front> = *factor;
                    fold.at(block, factor, cell)
                        .filter(|(one, other)| !one.0.is_empty() && !other.0.is_empty())
                })
            };
            let lightest = pairs().map(|(one, other)| one.ideal().mass + other.ideal().mass).min();
            let heaviest = pairs().map(|(one, other)| one.heaviest() + other.heaviest()).max();
            if let (Some(lightest), Some(heaviest)) = (lightest, heaviest) {
                skyline.clear(lightest, heaviest);
                pairs().for_each(|(one, other)| note_sums(one, other, skyline));
                *out = skyline.front();
            }
        }
    }

    /// Rows in order of promise: what a row can come to at best is compared with what is reached already.
    fn best<'a>(
        rows: impl Iterator<Item = &'a [&'a Front]>,
        (skyline, scratch): &mut Self::Scratch,
    ) -> Front {
        let ideal =
            |terms: &[&Front]| terms.iter().fold(Point::default(), |sum, term| sum.plus(term.ideal()));
        let mut promising: Vec<(Point, &[&Front])> = rows
            .filter(|terms| terms.iter().all(|term| !term.0.is_empty()))
            .map(|terms| (ideal(terms), terms))
            .collect();
        let Some(lightest) = promising.iter().map(|(ideal, _)| ideal.mass).min() else {
            return Front::default();
        };
        let Some(cheapest) = promising.iter().map(|(ideal, _)| ideal.price).min() else {
            return Front::default();
        };
        let weight = |terms: &[&Front]| terms.iter().map(|term| term.heaviest()).sum::<i64>();
        let heaviest = promising.iter().map(|(_, terms)| weight(terms)).max().unwrap_or(lightest);
        let promise = |ideal: &Point| {
            let (price, mass) = (i128::from(ideal.price) + 1, i128::from(ideal.mass) + 1);
            price * (i128::from(lightest) + 1) + mass * (i128::from(cheapest) + 1)
        };
        promising.sort_by_cached_key(|(ideal, _)| promise(ideal));
        skyline.clear(lightest, heaviest);
        for (ideal, terms) in promising {
            if !skyline.beats(ideal) {
                add_sums(terms, ideal, skyline, scratch);
            }
        }
        skyline.front()
    }
}

/// Adds all sums of one point per term, but for those that cannot come to anything new.
fn add_sums(terms: &[&Front], mut ideal: Point, reached: &mut Skyline, scratch: &mut Skyline) {
    let mut terms = terms.to_vec();
    terms.sort_by_key(|term| term.points().len());
    let Some((last, terms)) = terms.split_last() else { return };
    let mut sums = vec![Point::default()];
    for term in terms {
        ideal = ideal.minus(term.ideal());
        let (low, high) = (sums.iter().map(|p| p.mass).min(), sums.iter().map(|p| p.mass).max());
        scratch.clear(low.unwrap_or(0) + term.ideal().mass, high.unwrap_or(0) + term.heaviest());
        for sum in &sums {
            for point in term.points() {
                let point = sum.plus(*point);
                if !reached.beats(point.plus(ideal)) {
                    scratch.note(point);
                }
            }
        }
        sums = scratch.front().0.into_owned();
    }
    for sum in sums.iter().filter(|sum| !reached.beats(sum.plus(ideal))).copied().collect::<Vec<_>>() {
        for point in last.points() {
            reached.put(sum.plus(*point));
        }
    }
}

/// One point of each front, which add up to a target.
pub(super) fn parts_of(fronts: &[&Front], target: Point) -> Option<Vec<Point>> {
    let Some((first, rest)) = fronts.split_first() else {
        return (target == Point::default()).then(Vec::new);
    };
    if rest.is_empty() {
        return first.points().binary_search(&target).is_ok().then(|| vec![target]);
    }
    let ideal = rest.iter().fold(Point::default(), |sum, front| sum.plus(front.ideal()));
    let heaviest: i64 = rest.iter().map(|front| front.heaviest()).sum();
    first.points().iter().find_map(|point| {
        let left = target.minus(*point);
        if left.price < ideal.price || left.mass < ideal.mass || left.mass > heaviest {
            return None;
        }
        let mut parts = vec![*point];
        parts.extend(parts_of(rest, left)?);
        Some(parts)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn front(points: &[(i64, i64)]) -> Front {
        Front::new(points.iter().map(|(price, mass)| Point { price: *price, mass: *mass }).collect())
    }

    #[test]
    fn a_front_keeps_what_no_other_point_beats() {
        let found = front(&[(5, 5), (3, 9), (3, 8), (4, 8), (9, 1), (9, 2)]);
        assert_eq!(found, front(&[(3, 8), (5, 5), (9, 1)]));
        assert_eq!(found.points().len(), 3);
    }

    #[test]
    fn sums_and_unions_agree_with_all_pairs_however_wide_they_are() {
        for scale in [1, 100_000] {
            let one = front(&[(1, 9 * scale), (4, 5 * scale), (8, scale)]);
            let other = front(&[(2, 7 * scale), (3, 2 * scale)]);
            let pairs = one.points().iter().flat_map(|a| other.points().iter().map(|b| a.plus(*b)));
            let expected = Front::new(pairs.collect());
            let mut scratch = Default::default();
            assert_eq!(Frontier::plus(&one, &other, &mut scratch), expected);
            let rows: [&[&Front]; 2] = [&[&one, &other], &[&other, &one]];
            assert_eq!(Frontier::best(rows.into_iter(), &mut scratch), expected);
            for point in expected.points() {
                let parts = parts_of(&[&one, &other], *point).expect("the parts of a sum");
                assert_eq!(parts[0].plus(parts[1]), *point);
            }
            let mut both = one.clone();
            Frontier::choose(&mut both, &other);
            assert_eq!(both, Front::new(one.points().iter().chain(other.points()).copied().collect()));
        }
    }
}
