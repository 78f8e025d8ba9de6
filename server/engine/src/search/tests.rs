//! The core against trying everything, on small random problems.

use std::borrow::Cow;

use super::*;

/// A small generator of numbers: the same on every machine.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 33).expect("31 bits") % sides
    }

    fn number(&mut self, sides: usize) -> i64 {
        i64::try_from(self.roll(sides)).expect("small")
    }
}

/// Two to five positions of one to six rows in one or two blocks; one to seven constraints over one to three axes.
fn problem<V: Clone>(dice: &mut Dice, cost: &mut dyn FnMut(&mut Dice) -> V) -> Problem<'static, V> {
    let count = 2 + dice.roll(4);
    let mut axes = Vec::new();
    let mut columns_of = vec![0; count];
    for (position, columns) in columns_of.iter_mut().enumerate() {
        for column in 0..1 + dice.roll(3) {
            axes.push(Axis { position, column, size: 1 + dice.roll(4) });
            *columns += 1;
        }
    }
    let sizes =
        |position: usize| axes.iter().filter(move |axis| axis.position == position).map(|axis| axis.size);
    let positions = (0..count)
        .map(|position| {
            let blocks = (0..1 + dice.roll(2)).map(|_| {
                let rows = 1 + dice.roll(3);
                let column = |size: usize, dice: &mut Dice| {
                    (0..rows).map(|_| u32::try_from(dice.roll(size)).expect("small")).collect()
                };
                let columns = sizes(position).map(|size| column(size, dice)).collect();
                Cow::Owned(Block { columns, costs: (0..rows).map(|_| cost(dice)).collect() })
            });
            Position { blocks: blocks.collect() }
        })
        .collect();
    let mut problem = Problem { positions, axes, constraints: Vec::new() };
    for _ in 0..1 + dice.roll(7) {
        let mut read: Vec<usize> = (0..1 + dice.roll(3)).map(|_| dice.roll(problem.axes.len())).collect();
        let mut seen = Vec::new();
        read.retain(|axis| {
            !seen.contains(axis) && {
                seen.push(*axis);
                true
            }
        });
        let cells = problem.cells(&read);
        let constraint = if dice.roll(4) == 0 {
            Constraint::costs(read, (0..cells).map(|_| cost(dice)).collect::<Vec<_>>())
        } else {
            Constraint::new(read, (0..cells).map(|_| dice.roll(10) < 7).collect::<Vec<_>>())
        };
        problem.constraints.push(constraint);
    }
    assert_eq!(problem.fault(), None);
    problem
}

/// The costs of every way, by trying everything.
fn everything<V: Clone>(problem: &Problem<'_, V>, add: &dyn Fn(&V, &V) -> V) -> Vec<(V, Vec<Pick>)> {
    let mut ways: Vec<Vec<Pick>> = vec![Vec::new()];
    for position in &problem.positions {
        let blocks = position.blocks.iter().enumerate();
        let rows: Vec<Pick> =
            blocks.flat_map(|(block, rows)| (0..rows.len()).map(move |row| Pick { block, row })).collect();
        ways = ways.iter().flat_map(|way| rows.iter().map(|row| [&way[..], &[*row]].concat())).collect();
    }
    ways.into_iter().filter_map(|way| Some((cost_of(problem, &way, add)?, way))).collect()
}

fn cost_of<V: Clone>(problem: &Problem<'_, V>, way: &[Pick], add: &dyn Fn(&V, &V) -> V) -> Option<V> {
    let block = |position: usize| &problem.positions[position].blocks[way[position].block];
    let mut costs: Vec<V> = (0..way.len()).map(|place| block(place).costs[way[place].row].clone()).collect();
    for constraint in &problem.constraints {
        let cell = constraint.axes.iter().fold(0, |cell, axis| {
            let axis = problem.axes[*axis];
            let number = block(axis.position).columns[axis.column][way[axis.position].row];
            cell * axis.size + usize::try_from(number).expect("small")
        });
        match &constraint.table {
            Table::Allowed(allowed) if !allowed[cell] => return None,
            Table::Allowed(_) => {}
            Table::Costs(table) => costs.push(table[cell].clone()),
        }
    }
    costs.into_iter().reduce(|sum, cost| add(&sum, &cost))
}

#[test]
fn the_least_cost_and_its_rows_agree_with_trying_everything() {
    let mut dice = Dice(0x9e37_79b9);
    let (mut possible, mut impossible, mut split) = (0, 0, 0);
    for _ in 0..3_000 {
        let problem = problem(&mut dice, &mut |dice| [dice.number(3), dice.number(50)]);
        let add = |a: &[i64; 2], b: &[i64; 2]| a.plus(*b);
        let mut all: Vec<_> = everything(&problem, &add).into_iter().map(|(cost, _)| cost).collect();
        all.sort_unstable();
        let order = order(&problem);
        let mut meter = Meter::unbounded();
        let run =
            eliminate::<Cheapest<[i64; 2]>>(&problem, &order, Limits::default(), &mut meter).expect("free");
        assert!(run.exact);
        match all.first() {
            Some(least) => {
                possible += 1;
                assert_eq!(run.value, *least);
                let way = plan(&run).expect("there is a way");
                assert_eq!(cost_of(&problem, &way, &add), Some(*least));
            }
            None => {
                impossible += 1;
                assert!(run.value.is_none() && plan(&run).is_none());
            }
        }
        // However small the buckets, the walk gives every way in order of cost.
        for limits in [Limits::default(), Limits { cells: 2, work: 8 }] {
            let run = eliminate::<Cheapest<[i64; 2]>>(&problem, &order, limits, &mut meter).expect("free");
            split += usize::from(!run.exact);
            let mut walk = Walk::new(&run);
            let mut found = Vec::new();
            while let Some(way) = walk.next(&mut meter, |_, _| true).expect("free") {
                assert_eq!(cost_of(&problem, &way.picks, &add), Some(way.cost));
                found.push(way.cost);
            }
            assert_eq!(found, all);
        }
    }
    assert!(possible > 1_000 && impossible > 300 && split > 300, "{possible} {impossible} {split}");
}

#[test]
fn the_front_and_its_rows_agree_with_trying_everything() {
    let mut dice = Dice(0x0051_7cc1);
    let mut longest = 0;
    for _ in 0..2_000 {
        let mut cost = |dice: &mut Dice| {
            let points =
                (0..1 + dice.roll(3)).map(|_| Point { price: dice.number(40), mass: dice.number(40) });
            Front::new(points.collect())
        };
        let problem = problem(&mut dice, &mut cost);
        let add = |a: &Front, b: &Front| Frontier::plus(a, b, &mut Default::default());
        let ways = everything(&problem, &add);
        let expected = Front::new(ways.iter().flat_map(|(front, _)| front.points().to_vec()).collect());
        let mut meter = Meter::unbounded();
        let run =
            eliminate::<Frontier>(&problem, &order(&problem), Limits::default(), &mut meter).expect("free");
        assert_eq!(run.value, expected);
        longest = longest.max(expected.points().len());
        for point in expected.points() {
            let way = plan_of(&run, *point).expect("a way behind each point");
            let front = cost_of(&problem, &way, &add).expect("it holds");
            assert!(front.points().contains(point));
        }
        assert_eq!(plan_of(&run, Point { price: -1, mass: 0 }), None);
    }
    assert!(longest > 8, "{longest}");
}

#[test]
fn what_is_refused_on_the_way_is_left_out_with_all_that_follows() {
    let mut dice = Dice(77);
    for _ in 0..300 {
        let problem = problem(&mut dice, &mut |dice| dice.number(9));
        let mut meter = Meter::unbounded();
        let run = eliminate::<Cheapest<i64>>(&problem, &order(&problem), Limits::default(), &mut meter)
            .expect("free");
        let first = Pick { block: 0, row: 0 };
        let mut walk = Walk::new(&run);
        let mut found = Vec::new();
        let mut keep = |_: &i64, picks: &[Option<Pick>]| picks[1].is_none_or(|pick| pick == first);
        while let Some(way) = walk.next(&mut meter, &mut keep).expect("free") {
            found.push(way.cost);
        }
        let all = everything(&problem, &|a, b| a + b);
        let mut expected: Vec<i64> =
            all.into_iter().filter(|(_, way)| way[1] == first).map(|(cost, _)| cost).collect();
        expected.sort_unstable();
        assert_eq!(found, expected);
    }
}

#[test]
fn a_search_stops_when_it_is_told_to() {
    let mut dice = Dice(5);
    let problem = problem(&mut dice, &mut |dice| dice.number(9));
    let order = order(&problem);
    let stopped =
        eliminate::<Cheapest<i64>>(&problem, &order, Limits::default(), &mut Meter::new(1, &|| false));
    assert_eq!(stopped.err(), Some(Stopped));
    let cancelled =
        eliminate::<Cheapest<i64>>(&problem, &order, Limits::default(), &mut Meter::new(1_000, &|| true));
    assert_eq!(cancelled.err(), Some(Stopped));
}

#[test]
fn faults_of_the_data_are_named() {
    let block = Block { columns: vec![vec![0, 1]], costs: vec![0_i64, 0] };
    let good = Problem {
        positions: vec![Position { blocks: vec![Cow::Owned(block)] }],
        axes: vec![Axis { position: 0, column: 0, size: 2 }],
        constraints: vec![Constraint::new(vec![0], vec![true, false])],
    };
    assert_eq!(good.fault(), None);
    let with = |change: &dyn Fn(&mut Problem<'static, i64>)| {
        let mut problem = good.clone();
        change(&mut problem);
        problem.fault().expect("a fault")
    };
    assert!(with(&|problem| problem.axes[0].size = 1).contains("a row has 1"));
    assert!(with(&|problem| problem.axes[0].column = 3).contains("column 3"));
    assert!(with(&|problem| problem.axes[0].position = 9).contains("position 9"));
    assert!(with(&|problem| problem.constraints[0].axes = vec![7]).contains("axis 7"));
    assert!(
        with(&|problem| problem.constraints[0] = Constraint::new(vec![0], vec![true]))
            .contains("1 cells, not 2")
    );
}
