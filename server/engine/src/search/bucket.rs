//! Bucket elimination.

use std::borrow::Cow;

use super::algebra::Algebra;
use super::fold::{Fold, Slice};
use super::index::Index;
use super::meter::{Meter, Stopped};
use super::problem::{Block, Problem, Table};
use super::tensor::{Reader, Tensor, ordered, shape};

/// Bounds on the size of one bucket; past them it is split, and its messages are lower bounds.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Cells of a message.
    pub cells: usize,
    /// Tuples times cells of a message.
    pub work: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self { cells: 1 << 20, work: 1 << 26 }
    }
}

/// What an elimination leaves behind: enough to read back the best ways.
#[derive(Debug)]
pub struct Elimination<'p, 'a, A: Algebra> {
    pub(super) problem: &'p Problem<'a, A::Value>,
    /// Positions in the order in which they went.
    pub(super) order: Vec<usize>,
    pub(super) tensors: Vec<Tensor<'p, A::Value>>,
    /// For each position the tensors that were used up in its bucket.
    pub(super) used: Vec<Vec<usize>>,
    /// For each position the messages that it left.
    pub(super) left: Vec<Vec<usize>>,
    /// The best over all ways; a lower bound where `exact` is false.
    pub value: A::Value,
    /// No bucket was split.
    pub exact: bool,
}

/// Eliminates every position in the given order.
///
/// # Errors
/// The meter stopped it.
pub fn eliminate<'p, 'a, A: Algebra>(
    problem: &'p Problem<'a, A::Value>,
    order: &[usize],
    limits: Limits,
    meter: &mut Meter<'_>,
) -> Result<Elimination<'p, 'a, A>, Stopped> {
    let count = problem.positions.len();
    let mut rank = vec![0; count];
    for (place, position) in order.iter().enumerate() {
        rank[*position] = place;
    }
    let key = |axis: &usize| (rank[problem.axes[*axis].position], *axis);
    let tensors: Vec<Tensor<'p, A::Value>> =
        problem.constraints.iter().map(|constraint| ordered(problem, constraint, &key)).collect();
    let mut run = Elimination {
        problem,
        order: order.to_vec(),
        tensors,
        used: vec![Vec::new(); count],
        left: vec![Vec::new(); count],
        value: A::free(),
        exact: true,
    };
    let mut scratch = A::Scratch::default();
    let mut waiting: Vec<usize> = (0..run.tensors.len()).collect();
    for position in order {
        let first = |tensor: &usize| {
            run.tensors[*tensor].axes.first().map(|axis| problem.axes[*axis].position) == Some(*position)
        };
        let (used, others): (Vec<usize>, Vec<usize>) = waiting.iter().partition(|tensor| first(tensor));
        waiting = others;
        let messages = Bucket::new(&run, *position, &used, &key).messages(limits, meter, &mut scratch)?;
        run.exact &= !messages.split;
        run.used[*position] = used;
        for (axes, values) in messages.made {
            if axes.is_empty()
                && let Some(value) = values.first()
            {
                run.value = A::plus(&run.value, value, &mut scratch);
            } else {
                waiting.push(run.tensors.len());
            }
            run.left[*position].push(run.tensors.len());
            let table = Table::Costs(Cow::Owned(values));
            run.tensors.push(Tensor::new(problem, axes, table));
        }
    }
    Ok(run)
}

/// What the elimination of one position leaves: axes and values.
struct Messages<V> {
    made: Vec<(Vec<usize>, Vec<V>)>,
    split: bool,
}

/// One position with the tensors that are used up with it.
struct Bucket<'r, 'p, 'a, A: Algebra> {
    run: &'r Elimination<'p, 'a, A>,
    position: usize,
    key: &'r dyn Fn(&usize) -> (usize, usize),
    /// Tensors over axes of this position alone.
    own: Vec<usize>,
    /// Tensors that reach other positions.
    reaching: Vec<usize>,
}

/// Tuples that become one: block and part of the factor of each.
type Members<'s, V> = Vec<(&'s [V], Slice<'s, V>)>;

/// Tuples over inner axes; each has a block over outer axes.
struct State<V> {
    inner: Vec<usize>,
    tuples: Vec<u32>,
    outer: Vec<usize>,
    cells: usize,
    blocks: Vec<V>,
}

impl<'r, 'p, 'a, A: Algebra> Bucket<'r, 'p, 'a, A> {
    fn new(
        run: &'r Elimination<'p, 'a, A>,
        position: usize,
        used: &[usize],
        key: &'r dyn Fn(&usize) -> (usize, usize),
    ) -> Self {
        let reaches = |tensor: &&usize| {
            run.tensors[**tensor].axes.iter().any(|axis| run.problem.axes[*axis].position != position)
        };
        let (reaching, own) = used.iter().partition::<Vec<usize>, _>(|tensor| reaches(tensor));
        Self { run, position, key, own, reaching }
    }

    fn inner_of(&self, tensor: usize) -> usize {
        let axes = &self.run.tensors[tensor].axes;
        axes.iter().filter(|axis| self.run.problem.axes[**axis].position == self.position).count()
    }

    fn outer_of(&self, tensor: usize) -> &'r [usize] {
        &self.run.tensors[tensor].axes[self.inner_of(tensor)..]
    }

    fn messages(
        &self,
        limits: Limits,
        meter: &mut Meter<'_>,
        scratch: &mut A::Scratch,
    ) -> Result<Messages<A::Value>, Stopped> {
        if self.reaching.is_empty() {
            let best = self.best(meter, scratch)?;
            return Ok(Messages { made: vec![(Vec::new(), vec![best])], split: false });
        }
        let state = self.compress(&self.reaching, meter, scratch)?;
        let parts: Vec<Vec<usize>> = if state.blocks.len() == 1 {
            // One tuple says something of each neighbour alone.
            self.reaching.iter().map(|tensor| vec![*tensor]).collect()
        } else {
            self.parts(state.blocks.len(), limits)
        };
        let split = parts.len() > 1 && state.blocks.len() > 1;
        let mut made = Vec::with_capacity(parts.len());
        let mut rest: Option<State<A::Value>> = Some(state);
        for part in &parts {
            let state = match rest.take() {
                Some(first) if parts.len() == 1 => first,
                Some(first) => {
                    let own = self.compress(part, meter, scratch)?;
                    drop(first);
                    own
                }
                None => {
                    // The rows' costs are paid in the first part.
                    let mut own = self.compress(part, meter, scratch)?;
                    own.blocks
                        .iter_mut()
                        .filter(|value| !A::is_none(value))
                        .for_each(|value| *value = A::free());
                    own
                }
            };
            made.push(self.fold_all(state, part, meter, scratch)?);
        }
        Ok(Messages { made, split })
    }

    /// Which tensors are folded together: all of them, where the message stays within the limits.
    fn parts(&self, tuples: usize, limits: Limits) -> Vec<Vec<usize>> {
        let most = limits.cells.min(limits.work / tuples.max(1)).max(1);
        let mut tensors = self.reaching.clone();
        let cells = |axes: &[usize]| self.run.problem.cells(axes);
        tensors.sort_by_key(|tensor| (std::cmp::Reverse(cells(self.outer_of(*tensor))), *tensor));
        let mut parts: Vec<(Vec<usize>, Vec<usize>)> = Vec::new();
        for tensor in tensors {
            let outer = self.outer_of(tensor);
            let home = parts.iter_mut().find(|(axes, _)| cells(&union(axes, outer, self.key)) <= most);
            match home {
                Some((axes, members)) => {
                    *axes = union(axes, outer, self.key);
                    members.push(tensor);
                }
                None => parts.push((outer.to_vec(), vec![tensor])),
            }
        }
        parts.into_iter().map(|(_, members)| members).collect()
    }

    /// The best row, where nothing reaches other positions.
    fn best(&self, meter: &mut Meter<'_>, scratch: &mut A::Scratch) -> Result<A::Value, Stopped> {
        let free = A::free();
        let mut terms: Vec<&A::Value> = Vec::new();
        let width = self.own.len() + 1;
        for block in &self.run.problem.positions[self.position].blocks {
            meter.work(block.len() * width)?;
            let readers = self.readers(&self.own, block);
            terms.reserve(block.len() * width);
            'rows: for (row, cost) in block.costs.iter().enumerate() {
                let start = terms.len();
                terms.push(cost);
                for reader in &readers {
                    match reader.at(row, &free) {
                        Some(value) if !A::is_none(value) => terms.push(value),
                        _ => {
                            terms.truncate(start);
                            continue 'rows;
                        }
                    }
                }
            }
        }
        Ok(A::best(terms.chunks_exact(width), scratch))
    }

    fn readers<'s>(&'s self, tensors: &[usize], block: &'s Block<A::Value>) -> Vec<Reader<'s, A::Value>> {
        let axes = &self.run.problem.axes;
        let reader = |tensor: &usize| {
            let tensor = &self.run.tensors[*tensor];
            let columns = tensor.axes.iter().zip(&tensor.strides);
            let columns = columns.map(|(axis, stride)| (&*block.columns[axes[*axis].column], *stride));
            Reader { tensor, columns: columns.collect() }
        };
        tensors.iter().map(reader).collect()
    }

    /// The rows as tuples over the inner axes of some tensors, with their costs and what the tensors of this position
    /// alone say.
    fn compress(
        &self,
        tensors: &[usize],
        meter: &mut Meter<'_>,
        scratch: &mut A::Scratch,
    ) -> Result<State<A::Value>, Stopped> {
        let free = A::free();
        let axes = &self.run.problem.axes;
        let mut inner: Vec<usize> = Vec::new();
        for tensor in tensors {
            inner = union(&inner, &self.run.tensors[*tensor].axes[..self.inner_of(*tensor)], self.key);
        }
        let mut state = State { tuples: Vec::new(), outer: Vec::new(), cells: 1, blocks: Vec::new(), inner };
        let mut index = Index::new(state.inner.iter().map(|axis| axes[*axis].size).collect());
        for block in &self.run.problem.positions[self.position].blocks {
            meter.work(block.len() * (self.own.len() + 1))?;
            let readers = self.readers(&self.own, block);
            let columns: Vec<&[u32]> =
                state.inner.iter().map(|axis| &*block.columns[axes[*axis].column]).collect();
            'rows: for (row, cost) in block.costs.iter().enumerate() {
                if A::is_none(cost) {
                    continue;
                }
                let mut total = Cow::Borrowed(cost);
                for reader in &readers {
                    match reader.at(row, &free) {
                        Some(value) if A::is_none(value) => continue 'rows,
                        Some(value) => {
                            if !std::ptr::eq(value, &free) {
                                total = Cow::Owned(A::plus(&total, value, scratch));
                            }
                        }
                        None => continue 'rows,
                    }
                }
                let place = index.place(columns.iter().map(|column| column[row]));
                if place == state.blocks.len() {
                    state.tuples.extend(columns.iter().map(|column| column[row]));
                    state.blocks.push(total.into_owned());
                } else {
                    A::choose(&mut state.blocks[place], &total);
                }
            }
        }
        Ok(state)
    }

    /// Folds tensors into tuples one after the other, the cheapest first.
    fn fold_all(
        &self,
        mut state: State<A::Value>,
        tensors: &[usize],
        meter: &mut Meter<'_>,
        scratch: &mut A::Scratch,
    ) -> Result<(Vec<usize>, Vec<A::Value>), Stopped> {
        let mut rest = tensors.to_vec();
        if state.blocks.is_empty() {
            let outer =
                rest.iter().fold(Vec::new(), |axes, tensor| union(&axes, self.outer_of(*tensor), self.key));
            let cells = self.run.problem.cells(&outer);
            return Ok((outer, vec![A::none(); cells]));
        }
        while !rest.is_empty() {
            let work = |tensor: &usize| {
                let outer = union(&state.outer, self.outer_of(*tensor), self.key);
                let tuples = state.blocks.len() / state.cells.max(1);
                self.run.problem.cells(&outer).saturating_mul(tuples)
            };
            let cheapest = (0..rest.len()).min_by_key(|index| (work(&rest[*index]), rest[*index]));
            let Some(next) = cheapest.map(|index| rest.remove(index)) else { break };
            meter.work({
                let outer = union(&state.outer, self.outer_of(next), self.key);
                self.run.problem.cells(&outer).saturating_mul(state.blocks.len() / state.cells.max(1))
            })?;
            state = self.fold(state, next, &rest, scratch);
        }
        Ok((state.outer, state.blocks))
    }

    fn fold(
        &self,
        state: State<A::Value>,
        tensor: usize,
        rest: &[usize],
        scratch: &mut A::Scratch,
    ) -> State<A::Value> {
        let problem = self.run.problem;
        let factor = &self.run.tensors[tensor];
        let (factor_inner, factor_outer) = factor.axes.split_at(self.inner_of(tensor));
        let needed = |axis: &&usize| {
            rest.iter().any(|other| self.run.tensors[*other].axes[..self.inner_of(*other)].contains(*axis))
        };
        let kept: Vec<usize> = (0..state.inner.len()).filter(|place| needed(&&state.inner[*place])).collect();
        let inner: Vec<usize> = kept.iter().map(|place| state.inner[*place]).collect();
        let outer = union(&state.outer, factor_outer, self.key);
        let cells = problem.cells(&outer);
        let span = problem.cells(factor_outer);
        let shape = shape(problem, &outer, &state.outer, factor_outer);
        let reads: Vec<(usize, usize)> = factor_inner
            .iter()
            .zip(&factor.strides)
            .filter_map(|(axis, stride)| Some((state.inner.iter().position(|own| own == axis)?, *stride)))
            .collect();
        let width = state.inner.len();
        let mut index = Index::new(inner.iter().map(|axis| problem.axes[*axis].size).collect());
        let mut groups: Vec<Members<'_, A::Value>> = Vec::new();
        let mut tuples: Vec<u32> = Vec::new();
        for (place, block) in state.blocks.chunks_exact(state.cells).enumerate() {
            let tuple = &state.tuples[place * width..(place + 1) * width];
            let start = reads.iter().map(|(own, stride)| tuple[*own] as usize * stride).sum();
            let home = index.place(kept.iter().map(|own| tuple[*own]));
            if home == groups.len() {
                groups.push(Vec::new());
                tuples.extend(kept.iter().map(|own| tuple[*own]));
            }
            groups[home].push((block, factor.slice(start, span)));
        }
        let wanted = if rest.is_empty() { self.wanted(&outer) } else { None };
        let mut blocks = vec![A::none(); groups.len() * cells];
        for (members, out) in groups.iter().zip(blocks.chunks_exact_mut(cells)) {
            let fold = Fold { free: A::free(), shape: &shape, members, wanted: wanted.as_deref() };
            A::fold(&fold, out, scratch);
        }
        State { inner, tuples, outer, cells, blocks }
    }

    /// The cells of a message to one position that some row of it will look at.
    fn wanted(&self, outer: &[usize]) -> Option<Vec<bool>> {
        let problem = self.run.problem;
        let first = problem.axes[*outer.first()?].position;
        if !outer.iter().all(|axis| problem.axes[*axis].position == first) || outer.len() < 2 {
            return None;
        }
        let mut wanted = vec![false; problem.cells(outer)];
        for block in &problem.positions[first].blocks {
            for row in 0..block.len() {
                let place = outer.iter().fold(0, |place, axis| {
                    place * problem.axes[*axis].size + block.columns[problem.axes[*axis].column][row] as usize
                });
                wanted[place] = true;
            }
        }
        Some(wanted)
    }
}

fn union(one: &[usize], other: &[usize], key: &dyn Fn(&usize) -> (usize, usize)) -> Vec<usize> {
    let mut all = one.to_vec();
    all.extend(other.iter().filter(|axis| !one.contains(axis)));
    all.sort_by_key(key);
    all
}
