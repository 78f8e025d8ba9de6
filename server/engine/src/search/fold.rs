//! One step of an elimination: a group of tuples meets a factor.

/// Part of a factor, over its outer axes.
#[derive(Debug)]
pub enum Slice<'a, V> {
    /// Where it holds nothing is to be paid, elsewhere there is no way.
    Allowed(&'a [bool]),
    /// What is to be paid.
    Costs(&'a [V]),
}

impl<V> Clone for Slice<'_, V> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<V> Copy for Slice<'_, V> {}

/// How the cells of the new block follow from those of the old block and of the factor.
#[derive(Debug)]
pub enum Shape {
    /// Every pair of an old cell and a factor cell is a new cell; the factor's cells, so many, run faster.
    Product(usize),
    /// Old cell and factor cell of each new cell.
    Mapped(Vec<(u32, u32)>),
}

/// A group of tuples that become one: each with its block and its part of the factor.
#[derive(Debug)]
pub struct Fold<'a, V> {
    /// What nothing costs.
    pub free: V,
    /// How cells follow.
    pub shape: &'a Shape,
    /// The tuples.
    pub members: &'a [(&'a [V], Slice<'a, V>)],
    /// Cells that someone will look at; `None` = all.
    pub wanted: Option<&'a [bool]>,
}

impl<'a, V> Fold<'a, V> {
    /// The tuples.
    pub fn members(&self) -> impl Iterator<Item = (&'a [V], Slice<'a, V>)> + use<'a, V> {
        self.members.iter().copied()
    }

    /// Calls back with each new cell, its old cell and its factor cell; `None` = not allowed.
    #[inline]
    pub fn each(&self, block: &[V], factor: Slice<'_, V>, mut call: impl FnMut(usize, &V, Option<&V>)) {
        match (self.shape, factor) {
            (Shape::Product(inner), Slice::Allowed(allowed)) => {
                for (index, own) in block.iter().enumerate() {
                    for (cell, allowed) in (index * inner..).zip(allowed) {
                        call(cell, own, allowed.then_some(&self.free));
                    }
                }
            }
            (Shape::Product(inner), Slice::Costs(costs)) => {
                for (index, own) in block.iter().enumerate() {
                    for (cell, cost) in (index * inner..).zip(costs) {
                        call(cell, own, Some(cost));
                    }
                }
            }
            (Shape::Mapped(map), _) => {
                for (cell, (old, other)) in map.iter().enumerate() {
                    if let Some(own) = block.get(*old as usize) {
                        call(cell, own, self.part(factor, *other as usize));
                    }
                }
            }
        }
    }

    /// Old cell and factor cell behind a new cell, where it is allowed.
    pub fn at<'b>(&'b self, block: &'b [V], factor: Slice<'b, V>, cell: usize) -> Option<(&'b V, &'b V)> {
        let (old, other) = match self.shape {
            Shape::Product(inner) => (cell / inner, cell % inner),
            Shape::Mapped(map) => map.get(cell).map(|(old, other)| (*old as usize, *other as usize))?,
        };
        Some((block.get(old)?, self.part(factor, other)?))
    }

    fn part<'b>(&'b self, factor: Slice<'b, V>, place: usize) -> Option<&'b V> {
        match factor {
            Slice::Allowed(allowed) => allowed.get(place).copied().unwrap_or(false).then_some(&self.free),
            Slice::Costs(costs) => costs.get(place),
        }
    }
}
