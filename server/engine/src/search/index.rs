//! Tuples, numbered.

use std::collections::HashMap;

/// Numbers tuples in the order in which they first come.
pub(super) struct Index {
    sizes: Vec<usize>,
    dense: Vec<u32>,
    sparse: HashMap<Vec<u32>, usize>,
    count: usize,
}

/// Tables up to this size are indexed directly.
const DENSE_MAX: usize = 1 << 16;

impl Index {
    pub(super) fn new(sizes: Vec<usize>) -> Self {
        let cells = sizes.iter().fold(1_usize, |cells, size| cells.saturating_mul(*size));
        let dense = if cells <= DENSE_MAX { vec![u32::MAX; cells] } else { Vec::new() };
        Self { sizes, dense, sparse: HashMap::new(), count: 0 }
    }

    /// The number of a tuple; a new one gets the next number.
    pub(super) fn place(&mut self, tuple: impl Iterator<Item = u32> + Clone) -> usize {
        let found = if self.dense.is_empty() {
            *self.sparse.entry(tuple.collect()).or_insert(self.count)
        } else {
            let cell = tuple.zip(&self.sizes).fold(0, |cell, (number, size)| cell * size + number as usize);
            match self.dense[cell] {
                u32::MAX => {
                    self.dense[cell] = u32::try_from(self.count).unwrap_or(u32::MAX);
                    self.count
                }
                known => known as usize,
            }
        };
        self.count = self.count.max(found + 1);
        found
    }
}
