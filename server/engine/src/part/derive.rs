//! What follows from what is stated: the ends and the number of a list of cogs or rings.

use super::{Attribute, Kind, Part, Set, Value};

/// Two statements of one part that cannot both be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// The attribute that is contradicted.
    pub attribute: Attribute,
    /// What it says.
    pub stated: i64,
    /// What the list says.
    pub listed: i64,
}

/// Fills in number and ends of a list of cogs or rings; tells what contradicts it. Also whether a smallest is larger
/// than a largest.
pub fn derive(part: &mut Part) -> Vec<Contradiction> {
    let mut contradictions = Vec::new();
    let (list, count, smallest, largest) = match part.kind {
        Kind::Cassette | Kind::Freewheel => {
            (Attribute::Cogs, Attribute::CogCount, Attribute::SmallestCog, Attribute::LargestCog)
        }
        Kind::Crankset => {
            (Attribute::Rings, Attribute::RingCount, Attribute::SmallestRing, Attribute::LargestRing)
        }
        _ => return contradictions,
    };
    let origin = part.value(list).origin;
    if let Set::List(values) = part.value(list).set.clone()
        && let (Some(low), Some(high)) = (values.iter().min(), values.iter().max())
    {
        let number = i64::try_from(values.len()).unwrap_or(i64::MAX);
        for (attribute, listed) in [(count, number), (smallest, *low), (largest, *high)] {
            match part.value(attribute).set {
                Set::Exact(stated) if stated != listed => {
                    contradictions.push(Contradiction { attribute, stated, listed });
                }
                _ => {
                    part.set(attribute, Value { set: Set::Exact(listed), origin });
                }
            }
        }
    }
    single(part, count, smallest, largest);
    if let (Set::Exact(low), Set::Exact(high)) = (&part.value(smallest).set, &part.value(largest).set)
        && low > high
    {
        contradictions.push(Contradiction { attribute: smallest, stated: *low, listed: *high });
    }
    contradictions
}

/// One cog or ring is both the smallest and the largest.
fn single(part: &mut Part, count: Attribute, smallest: Attribute, largest: Attribute) {
    if part.exact(count) != Some(1) {
        return;
    }
    for (from, to) in [(smallest, largest), (largest, smallest)] {
        if part.value(to).set == Set::Unknown {
            let value = part.value(from).clone();
            part.set(to, value);
        }
    }
}
