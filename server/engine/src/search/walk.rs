//! Best-first search along an elimination: ways in order of cost, exact even where buckets were split.
//!
//! Positions are filled in the opposite order of elimination. What a partial way costs at least is what its rows cost
//! with the constraints among them, plus the messages of positions that are not filled yet: an exact value where nothing was
//! split, a lower bound otherwise (the heuristic is that of mini-buckets). So ways come up in order of cost, and the
//! first one is the best.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::rc::Rc;

use super::algebra::{Cheapest, Cost};
use super::bucket::Elimination;
use super::meter::{Meter, Stopped};
use super::plan::Pick;

/// A complete way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way<C> {
    /// What it costs.
    pub cost: C,
    /// The row of each position.
    pub picks: Vec<Pick>,
}

/// A partial way: the rows of the positions filled so far.
#[derive(Debug)]
struct Node {
    picked: Option<(Pick, Rc<Node>)>,
}

/// Rows of the next position, cheapest first, as far as they go with a partial way.
#[derive(Debug)]
struct Choices<C> {
    rows: Vec<(C, Pick)>,
    from: Rc<Node>,
    depth: usize,
}

/// Cost at least, depth (deeper first), order of arrival, place among the choices.
type Entry<C> = (C, Reverse<usize>, usize, usize);

/// A search that gives one way after the other.
#[derive(Debug)]
pub struct Walk<'e, 'p, 'a, C: Cost> {
    run: &'e Elimination<'p, 'a, Cheapest<C>>,
    queue: BinaryHeap<Reverse<Entry<C>>>,
    choices: Vec<Option<Choices<C>>>,
}

impl<'e, 'p, 'a, C: Cost> Walk<'e, 'p, 'a, C> {
    /// A search over an elimination.
    pub fn new(run: &'e Elimination<'p, 'a, Cheapest<C>>) -> Self {
        let root = Rc::new(Node { picked: None });
        let mut walk = Self { run, queue: BinaryHeap::new(), choices: Vec::new() };
        if !run.value.is_none() {
            // The root is a choice between nothing else.
            let rows = vec![(run.value, Pick::default())];
            walk.offer(Choices { rows, from: root, depth: 0 });
        }
        walk
    }

    fn offer(&mut self, choices: Choices<C>) {
        if let Some((cost, _)) = choices.rows.first() {
            self.queue.push(Reverse((*cost, Reverse(choices.depth), self.choices.len(), 0)));
            self.choices.push(Some(choices));
        }
    }

    /// The next way; `None` after the last one. A partial way that `keep` refuses is left out with all that follow from
    /// it: `keep` is given what the way costs at least, and the rows picked so far, by position.
    ///
    /// # Errors
    /// The meter stopped it; it can go on with another one.
    pub fn next(
        &mut self,
        meter: &mut Meter<'_>,
        mut keep: impl FnMut(&C, &[Option<Pick>]) -> bool,
    ) -> Result<Option<Way<C>>, Stopped> {
        let count = self.run.order.len();
        while let Some(Reverse((cost, Reverse(depth), index, place))) = self.queue.peek().copied() {
            meter.work(count)?;
            self.queue.pop();
            let Some(choices) = self.choices[index].as_ref() else { continue };
            let (_, pick) = choices.rows[place];
            let from = choices.from.clone();
            match choices.rows.get(place + 1) {
                Some((next, _)) => self.queue.push(Reverse((*next, Reverse(depth), index, place + 1))),
                None => self.choices[index] = None,
            }
            let node = if depth == 0 { from } else { Rc::new(Node { picked: Some((pick, from)) }) };
            let picks = self.picks(&node, depth);
            if !keep(&cost, &picks) {
                continue;
            }
            if depth == count {
                let picks = picks.into_iter().flatten().collect();
                return Ok(Some(Way { cost, picks }));
            }
            let rows = self.rows(cost, &picks, depth, meter)?;
            self.offer(Choices { rows, from: node, depth: depth + 1 });
        }
        Ok(None)
    }

    /// The rows of a partial way by position.
    fn picks(&self, node: &Node, depth: usize) -> Vec<Option<Pick>> {
        let mut picks = vec![None; self.run.order.len()];
        let mut at = node;
        for position in self.run.order.iter().rev().take(depth).collect::<Vec<_>>().into_iter().rev() {
            if let Some((pick, before)) = &at.picked {
                picks[*position] = Some(*pick);
                at = before;
            }
        }
        picks
    }

    /// What fills the next position, with what the way then costs at least; cheapest first, of equals the first row.
    fn rows(
        &self,
        cost: C,
        picks: &[Option<Pick>],
        depth: usize,
        meter: &mut Meter<'_>,
    ) -> Result<Vec<(C, Pick)>, Stopped> {
        let (run, free) = (self.run, C::FREE);
        let Some(position) = run.order.iter().rev().nth(depth).copied() else { return Ok(Vec::new()) };
        let mut at = vec![0; run.problem.axes.len()];
        for (other, pick) in picks.iter().enumerate() {
            if let Some(pick) = pick {
                run.settle(other, *pick, &mut at);
            }
        }
        // What stood for this position until now.
        let mut base = cost;
        for message in &run.left[position] {
            let stood = run.tensors[*message].at(run.cell(*message, &at), &free).copied();
            base = base.minus(stood.unwrap_or(C::NONE));
        }
        let mut rows = Vec::new();
        for (index, block) in run.problem.positions[position].blocks.iter().enumerate() {
            meter.work(block.len() * (1 + run.used[position].len()))?;
            let readers: Vec<_> =
                run.used[position].iter().map(|tensor| reader(run, *tensor, position, index, &at)).collect();
            for (row, own) in block.costs.iter().enumerate() {
                let mut sum = base.plus(*own);
                for (tensor, start, columns) in &readers {
                    let cell: usize =
                        columns.iter().map(|(column, stride)| column[row] as usize * stride).sum();
                    let found = run.tensors[*tensor].at(start + cell, &free);
                    sum = sum.plus(found.copied().unwrap_or(C::NONE));
                }
                if !sum.is_none() {
                    rows.push((sum, Pick { block: index, row }));
                }
            }
        }
        rows.sort_unstable();
        Ok(rows)
    }
}

type Reader<'e> = (usize, usize, Vec<(&'e [u32], usize)>);

/// A tensor with its cell at what is settled, and the columns of a block that move it.
fn reader<'e, C: Cost>(
    run: &'e Elimination<'_, '_, Cheapest<C>>,
    tensor: usize,
    position: usize,
    block: usize,
    at: &[u32],
) -> Reader<'e> {
    let (mut start, mut columns) = (0, Vec::new());
    let found = &run.tensors[tensor];
    for (axis, stride) in found.axes.iter().zip(&found.strides) {
        let spec = run.problem.axes[*axis];
        if spec.position == position {
            columns.push((&*run.problem.positions[position].blocks[block].columns[spec.column], *stride));
        } else {
            start += at[*axis] as usize * stride;
        }
    }
    (tensor, start, columns)
}
