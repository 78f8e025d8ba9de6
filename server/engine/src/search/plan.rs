//! Reads back the rows behind the best value.

use super::algebra::{Algebra, Cheapest, Cost};
use super::bucket::Elimination;
use super::front::{Frontier, Point, parts_of};

/// The row that fills a position.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Pick {
    /// The block.
    pub block: usize,
    /// The row within it.
    pub row: usize,
}

impl<A: Algebra> Elimination<'_, '_, A> {
    /// The cell of a tensor at the numbers that are settled so far.
    pub(super) fn cell(&self, tensor: usize, at: &[u32]) -> usize {
        let tensor = &self.tensors[tensor];
        tensor.axes.iter().zip(&tensor.strides).map(|(axis, stride)| at[*axis] as usize * stride).sum()
    }

    /// Settles the numbers of a position.
    pub(super) fn settle(&self, position: usize, pick: Pick, at: &mut [u32]) {
        let block = &self.problem.positions[position].blocks[pick.block];
        for (number, axis) in at.iter_mut().zip(&self.problem.axes) {
            if axis.position == position {
                *number = block.columns[axis.column][pick.row];
            }
        }
    }

    /// Every row of a position.
    pub(super) fn picks(&self, position: usize) -> impl Iterator<Item = Pick> + use<'_, A> {
        let blocks = self.problem.positions[position].blocks.iter().enumerate();
        blocks.flat_map(|(block, rows)| (0..rows.len()).map(move |row| Pick { block, row }))
    }
}

/// The rows of the best way, in the order of positions; of equals the first. `None` where there is no way, or where a
/// bucket was split and the value is only a bound.
pub fn plan<C: Cost>(run: &Elimination<'_, '_, Cheapest<C>>) -> Option<Vec<Pick>> {
    if run.value.is_none() || !run.exact {
        return None;
    }
    let free = C::FREE;
    let mut at = vec![0; run.problem.axes.len()];
    let mut picks = vec![Pick::default(); run.problem.positions.len()];
    for position in run.order.iter().rev() {
        let mut best: Option<(C, Pick)> = None;
        for pick in run.picks(*position) {
            run.settle(*position, pick, &mut at);
            let mut cost = run.problem.positions[*position].blocks[pick.block].costs[pick.row];
            for tensor in &run.used[*position] {
                let found = run.tensors[*tensor].at(run.cell(*tensor, &at), &free);
                cost = cost.plus(found.copied().unwrap_or(C::NONE));
            }
            if best.is_none_or(|(least, _)| cost < least) {
                best = Some((cost, pick));
            }
        }
        let (cost, pick) = best?;
        if cost.is_none() {
            return None;
        }
        run.settle(*position, pick, &mut at);
        picks[*position] = pick;
    }
    Some(picks)
}

/// The rows of a way that comes to a point of the front, in the order of positions. `None` for a point that is not on it.
pub fn plan_of(run: &Elimination<'_, '_, Frontier>, point: Point) -> Option<Vec<Pick>> {
    let free = Frontier::ZERO;
    let mut at = vec![0; run.problem.axes.len()];
    let mut picks = vec![Pick::default(); run.problem.positions.len()];
    // What is still to be reached by each position with what hangs on it: the share of each message.
    let mut shares: Vec<Option<Point>> = vec![None; run.tensors.len()];
    let roots: Vec<usize> =
        (0..run.tensors.len()).filter(|tensor| run.tensors[*tensor].axes.is_empty()).collect();
    let fronts: Vec<_> = roots.iter().filter_map(|root| run.tensors[*root].at(0, &free)).collect();
    for (root, share) in roots.iter().zip(parts_of(&fronts, point)?) {
        shares[*root] = Some(share);
    }
    for position in run.order.iter().rev() {
        let mut target = Point::default();
        for message in &run.left[*position] {
            target = target.plus(shares[*message].unwrap_or_default());
        }
        let pick = run.picks(*position).find(|pick| {
            run.settle(*position, *pick, &mut at);
            let cost = &run.problem.positions[*position].blocks[pick.block].costs[pick.row];
            let mut terms = vec![cost];
            for tensor in &run.used[*position] {
                match run.tensors[*tensor].at(run.cell(*tensor, &at), &free) {
                    Some(front) => terms.push(front),
                    None => return false,
                }
            }
            let Some(parts) = parts_of(&terms, target) else { return false };
            for (tensor, part) in run.used[*position].iter().zip(&parts[1..]) {
                shares[*tensor] = Some(*part);
            }
            true
        })?;
        run.settle(*position, pick, &mut at);
        picks[*position] = pick;
    }
    Some(picks)
}
