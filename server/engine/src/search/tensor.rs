//! Tables over axes, in the order of elimination.

use std::borrow::Cow;

use super::fold::{Shape, Slice};
use super::problem::{Constraint, Problem, Table};

/// A constraint or message; its axes are in the order of elimination, the last one runs fastest.
#[derive(Debug)]
pub(super) struct Tensor<'a, V: Clone> {
    pub(super) axes: Vec<usize>,
    pub(super) strides: Vec<usize>,
    pub(super) table: Table<'a, V>,
}

impl<'a, V: Clone> Tensor<'a, V> {
    pub(super) fn new(problem: &Problem<'_, V>, axes: Vec<usize>, table: Table<'a, V>) -> Self {
        let mut strides = vec![1; axes.len()];
        for index in (1..axes.len()).rev() {
            strides[index - 1] = strides[index] * problem.axes[axes[index]].size;
        }
        Self { axes, strides, table }
    }

    /// The value at a cell; `None` where it is not allowed.
    pub(super) fn at<'b>(&'b self, cell: usize, free: &'b V) -> Option<&'b V> {
        match &self.table {
            Table::Allowed(allowed) => allowed.get(cell).copied().unwrap_or(false).then_some(free),
            Table::Costs(costs) => costs.get(cell),
        }
    }

    pub(super) fn slice(&self, start: usize, len: usize) -> Slice<'_, V> {
        match &self.table {
            Table::Allowed(allowed) => Slice::Allowed(&allowed[start..start + len]),
            Table::Costs(costs) => Slice::Costs(&costs[start..start + len]),
        }
    }
}

/// Reads a tensor at the numbers of a row.
pub(super) struct Reader<'s, V: Clone> {
    pub(super) tensor: &'s Tensor<'s, V>,
    pub(super) columns: Vec<(&'s [u32], usize)>,
}

impl<'s, V: Clone> Reader<'s, V> {
    #[inline]
    pub(super) fn at(&self, row: usize, free: &'s V) -> Option<&'s V> {
        let cell = self.columns.iter().map(|(column, stride)| column[row] as usize * stride).sum();
        self.tensor.at(cell, free)
    }
}

/// A constraint with its axes in the order of elimination.
pub(super) fn ordered<'p, V: Clone>(
    problem: &'p Problem<'_, V>,
    constraint: &'p Constraint<'_, V>,
    key: &dyn Fn(&usize) -> (usize, usize),
) -> Tensor<'p, V> {
    let mut axes = constraint.axes.clone();
    axes.sort_by_key(key);
    let borrowed = |table: &'p Table<'_, V>| match table {
        Table::Allowed(cells) => Table::Allowed(Cow::Borrowed(&**cells)),
        Table::Costs(cells) => Table::Costs(Cow::Borrowed(&**cells)),
    };
    let table = if axes == constraint.axes {
        borrowed(&constraint.table)
    } else if let (Some(turned), true) = (&constraint.turned, axes.iter().eq(constraint.axes.iter().rev())) {
        borrowed(turned)
    } else {
        turn(problem, &constraint.axes, &constraint.table, &axes)
    };
    Tensor::new(problem, axes, table)
}

/// The same table with its axes in another order.
fn turn<'p, V: Clone>(
    problem: &Problem<'_, V>,
    from: &[usize],
    table: &Table<'_, V>,
    to: &[usize],
) -> Table<'p, V> {
    let mut strides = vec![1; from.len()];
    for index in (1..from.len()).rev() {
        strides[index - 1] = strides[index] * problem.axes[from[index]].size;
    }
    let steps: Vec<(usize, usize)> = to
        .iter()
        .map(|axis| {
            let stride = from.iter().position(|other| other == axis).map_or(0, |index| strides[index]);
            (problem.axes[*axis].size, stride)
        })
        .collect();
    let places = Odometer::new(&steps);
    match table {
        Table::Allowed(cells) => Table::Allowed(places.map(|place| cells[place]).collect()),
        Table::Costs(cells) => Table::Costs(places.map(|place| cells[place].clone()).collect()),
    }
}

/// Walks the cells of a table whose axes have these sizes, and gives the place in another table with these strides.
struct Odometer<'s> {
    steps: &'s [(usize, usize)],
    digits: Vec<usize>,
    place: usize,
    left: usize,
}

impl<'s> Odometer<'s> {
    fn new(steps: &'s [(usize, usize)]) -> Self {
        let left = steps.iter().map(|(size, _)| size).product();
        Self { steps, digits: vec![0; steps.len()], place: 0, left }
    }
}

impl Iterator for Odometer<'_> {
    type Item = usize;

    fn next(&mut self) -> Option<usize> {
        self.left = self.left.checked_sub(1)?;
        let here = self.place;
        for (digit, (size, stride)) in self.digits.iter_mut().zip(self.steps).rev() {
            *digit += 1;
            self.place += stride;
            if *digit < *size {
                break;
            }
            self.place -= stride * size;
            *digit = 0;
        }
        Some(here)
    }
}

/// How the cells over `all` axes follow from those over `old` axes and over the axes of a factor.
pub(super) fn shape<V: Clone>(
    problem: &Problem<'_, V>,
    all: &[usize],
    old: &[usize],
    factor: &[usize],
) -> Shape {
    if all.len() == old.len() + factor.len() && all.starts_with(old) {
        return Shape::Product(problem.cells(factor));
    }
    let places = |axes: &[usize]| {
        let mut strides = vec![1; axes.len()];
        for index in (1..axes.len()).rev() {
            strides[index - 1] = strides[index] * problem.axes[axes[index]].size;
        }
        let step = |axis: &usize| {
            let stride = axes.iter().position(|own| own == axis).map_or(0, |index| strides[index]);
            (problem.axes[*axis].size, stride)
        };
        all.iter().map(step).collect::<Vec<_>>()
    };
    let (old, factor) = (places(old), places(factor));
    let number = |place| u32::try_from(place).unwrap_or(u32::MAX);
    let pairs = Odometer::new(&old).zip(Odometer::new(&factor));
    Shape::Mapped(pairs.map(|(old, factor)| (number(old), number(factor))).collect())
}
