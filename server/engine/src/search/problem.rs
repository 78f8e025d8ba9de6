//! What is searched, as data.

use std::borrow::Cow;

/// What constraints see of the rows of a position: dense numbers from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Axis {
    /// Place of its position.
    pub position: usize,
    /// Place among the columns of that position.
    pub column: usize,
    /// How many numbers there are; at least 1.
    pub size: usize,
}

/// Rows that may fill a position: a column of numbers per axis of the position, and a cost per row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block<V> {
    /// One column per axis of the position; all as long as the costs.
    pub columns: Vec<Vec<u32>>,
    /// What each row costs.
    pub costs: Vec<V>,
}

impl<V> Block<V> {
    /// Rows.
    pub fn len(&self) -> usize {
        self.costs.len()
    }

    /// Without rows.
    pub fn is_empty(&self) -> bool {
        self.costs.is_empty()
    }
}

/// A variable: one row of one of its blocks is chosen.
#[derive(Clone, Debug)]
pub struct Position<'a, V: Clone> {
    /// Rows, in blocks: what is shared between questions is borrowed.
    pub blocks: Vec<Cow<'a, Block<V>>>,
}

impl<V: Clone> Position<'_, V> {
    /// Rows of all blocks.
    pub fn len(&self) -> usize {
        self.blocks.iter().map(|block| block.len()).sum()
    }

    /// Without rows: there is no way.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// What a constraint says of each combination of numbers on its axes; the last axis runs fastest.
#[derive(Clone, Debug)]
pub enum Table<'a, V: Clone> {
    /// Where it holds.
    Allowed(Cow<'a, [bool]>),
    /// What is to be paid.
    Costs(Cow<'a, [V]>),
}

impl<V: Clone> Table<'_, V> {
    /// Cells.
    pub fn len(&self) -> usize {
        match self {
            Self::Allowed(cells) => cells.len(),
            Self::Costs(cells) => cells.len(),
        }
    }

    /// Without cells.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// A constraint over axes of one or more positions.
#[derive(Clone, Debug)]
pub struct Constraint<'a, V: Clone> {
    /// Its axes.
    pub axes: Vec<usize>,
    /// What it says.
    pub table: Table<'a, V>,
    /// The same with the axes in the opposite order, where that is at hand: saves turning the table.
    pub turned: Option<Table<'a, V>>,
}

impl<'a, V: Clone> Constraint<'a, V> {
    /// A constraint that holds where `allowed` says so.
    pub fn new(axes: Vec<usize>, allowed: impl Into<Cow<'a, [bool]>>) -> Self {
        Self { axes, table: Table::Allowed(allowed.into()), turned: None }
    }

    /// A constraint at a cost.
    pub fn costs(axes: Vec<usize>, costs: impl Into<Cow<'a, [V]>>) -> Self {
        Self { axes, table: Table::Costs(costs.into()), turned: None }
    }

    /// With the same table the other way round.
    #[must_use]
    pub fn with_turned(mut self, allowed: impl Into<Cow<'a, [bool]>>) -> Self {
        self.turned = Some(Table::Allowed(allowed.into()));
        self
    }
}

/// Positions, what constraints see of them, and the constraints.
#[derive(Clone, Debug, Default)]
pub struct Problem<'a, V: Clone> {
    /// The variables.
    pub positions: Vec<Position<'a, V>>,
    /// The axes of all positions.
    pub axes: Vec<Axis>,
    /// The constraints.
    pub constraints: Vec<Constraint<'a, V>>,
}

impl<V: Clone> Problem<'_, V> {
    /// Cells of a table over some axes; `usize::MAX` where that is beyond counting.
    pub fn cells(&self, axes: &[usize]) -> usize {
        axes.iter().fold(1_usize, |cells, axis| cells.saturating_mul(self.axes[*axis].size))
    }

    /// The first fault of the data: an axis without its position or column, a number that is too large, a table that does
    /// not have the cells of its axes. A problem without faults is searched without a panic.
    pub fn fault(&self) -> Option<String> {
        for (index, axis) in self.axes.iter().enumerate() {
            let Some(position) = self.positions.get(axis.position) else {
                return Some(format!(
                    "axis {index} belongs to position {}, which is not there",
                    axis.position
                ));
            };
            for block in &position.blocks {
                let Some(column) = block.columns.get(axis.column) else {
                    return Some(format!(
                        "axis {index} is column {}, which a block does not have",
                        axis.column
                    ));
                };
                if column.len() != block.len() {
                    return Some(format!(
                        "axis {index} has {} numbers for {} rows",
                        column.len(),
                        block.len()
                    ));
                }
                if let Some(number) = column.iter().find(|number| **number as usize >= axis.size) {
                    return Some(format!("axis {index} has {} numbers, but a row has {number}", axis.size));
                }
            }
        }
        for (index, constraint) in self.constraints.iter().enumerate() {
            if let Some(axis) = constraint.axes.iter().find(|axis| **axis >= self.axes.len()) {
                return Some(format!("constraint {index} reads axis {axis}, which is not there"));
            }
            let cells = self.cells(&constraint.axes);
            let tables = [Some(&constraint.table), constraint.turned.as_ref()];
            if let Some(table) = tables.into_iter().flatten().find(|table| table.len() != cells) {
                return Some(format!("constraint {index} has {} cells, not {cells}", table.len()));
            }
        }
        None
    }
}
