//! The order of elimination: least fill first, then the smallest message, then the first position.
//!
//! Fill is the number of pairs of neighbours that a position would join by being eliminated; a graph that is a tree is
//! eliminated without any. Leaves go first, positions with one row cost nothing and go before all others.

use std::collections::BTreeSet;

use super::problem::Problem;

/// The order in which positions are eliminated.
pub fn order<V: Clone>(problem: &Problem<'_, V>) -> Vec<usize> {
    let count = problem.positions.len();
    let mut neighbours: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); count];
    // What a position shows to others, as a factor of the size of messages.
    let mut shown: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); count];
    for constraint in &problem.constraints {
        let scope: BTreeSet<usize> =
            constraint.axes.iter().map(|axis| problem.axes[*axis].position).collect();
        for one in &scope {
            neighbours[*one].extend(scope.iter().filter(|other| *other != one));
        }
        if scope.len() > 1 {
            for axis in &constraint.axes {
                shown[problem.axes[*axis].position].insert(*axis);
            }
        }
    }
    let sizes: Vec<usize> = shown
        .iter()
        .zip(&problem.positions)
        .map(|(axes, position)| {
            let axes: Vec<usize> = axes.iter().copied().collect();
            problem.cells(&axes).min(position.len()).max(1)
        })
        .collect();
    let mut left: BTreeSet<usize> = (0..count).collect();
    let mut order = Vec::with_capacity(count);
    while let Some(next) = left.iter().copied().min_by_key(|position| {
        let around = &neighbours[*position];
        let message = around.iter().fold(1_usize, |cells, other| cells.saturating_mul(sizes[*other]));
        (problem.positions[*position].len() > 1, fill(&neighbours, around), message, *position)
    }) {
        left.remove(&next);
        order.push(next);
        let around = std::mem::take(&mut neighbours[next]);
        let single = problem.positions[next].len() <= 1;
        for one in &around {
            neighbours[*one].remove(&next);
            // A single row says something of each neighbour alone.
            if !single {
                neighbours[*one].extend(around.iter().filter(|other| *other != one));
            }
        }
    }
    order
}

fn fill(neighbours: &[BTreeSet<usize>], around: &BTreeSet<usize>) -> usize {
    let missing =
        |one: &usize| around.range(one + 1..).filter(|other| !neighbours[*one].contains(other)).count();
    around.iter().map(missing).sum()
}
