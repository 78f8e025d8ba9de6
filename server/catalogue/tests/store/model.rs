//! Random operations against ordered maps, with the store closed and opened in between.

use std::collections::BTreeMap;

use proptest::prelude::*;
use sprag_catalogue::{Mode, ShelfEntry, Store};
use sprag_proto::v1 as pb;

use crate::support::{open, place, publication, spacer};

#[derive(Debug, Clone)]
enum Step {
    /// Puts and removals, then publish or abandon.
    Publish {
        full: bool,
        entries: Vec<(u8, Option<i64>)>,
        abandon: bool,
    },
    Shelf(Vec<(u8, u64)>),
    /// To the revision that lies so far back.
    Rollback(usize),
    Prune(usize),
    Checkpoint,
    Reopen,
}

fn step() -> impl Strategy<Value = Step> {
    let entries = prop::collection::vec((0..12_u8, prop::option::weighted(0.8, 1_000..1_004_i64)), 0..8);
    prop_oneof![
        5 => (any::<bool>(), entries, prop::bool::weighted(0.2))
            .prop_map(|(full, entries, abandon)| Step::Publish { full, entries, abandon }),
        2 => prop::collection::vec((0..12_u8, 0..9_u64), 1..5).prop_map(Step::Shelf),
        1 => (0..4_usize).prop_map(Step::Rollback),
        1 => (1..4_usize).prop_map(Step::Prune),
        1 => Just(Step::Checkpoint),
        1 => Just(Step::Reopen),
    ]
}

type Parts = BTreeMap<String, pb::Part>;

#[derive(Default)]
struct Model {
    revisions: BTreeMap<u64, Parts>,
    shelf: BTreeMap<String, u64>,
}

impl Model {
    fn head(&self) -> (u64, Parts) {
        self.revisions.last_key_value().map(|(number, parts)| (*number, parts.clone())).unwrap_or_default()
    }
}

fn publish(store: &Store, model: &mut Model, full: bool, entries: &[(u8, Option<i64>)], abandon: bool) {
    let (number, mut parts) = model.head();
    if full {
        parts.clear();
    }
    let mut draft = store.begin_publish(if full { Mode::Full } else { Mode::Delta }).unwrap();
    for (sku, thickness) in entries {
        let sku = format!("S{sku}");
        match thickness {
            Some(thickness) => {
                draft.put(&spacer(&sku, *thickness)).unwrap();
                parts.insert(sku.clone(), spacer(&sku, *thickness));
            }
            None => {
                draft.remove(&sku).unwrap();
                parts.remove(&sku);
            }
        }
    }
    assert_eq!(draft.preview().unwrap().part_count, parts.len() as u64);
    if !abandon {
        assert_eq!(draft.finish(publication("model")).unwrap().revision, number + 1);
        model.revisions.insert(number + 1, parts);
    }
}

fn take(store: Store, path: &std::path::Path, model: &mut Model, step: &Step) -> Store {
    match step {
        Step::Publish { full, entries, abandon } => publish(&store, model, *full, entries, *abandon),
        Step::Shelf(entries) => {
            let entries = entries.iter().map(|(sku, stock)| (format!("S{sku}"), *stock));
            model.shelf.extend(entries.clone());
            let entry = |(sku, stock)| ShelfEntry { sku, price: None, stock: Some(stock) };
            store.update_shelf(&entries.map(entry).collect::<Vec<_>>()).unwrap();
        }
        Step::Rollback(back) => {
            let (number, parts) = model
                .revisions
                .iter()
                .rev()
                .nth(*back)
                .or(model.revisions.first_key_value())
                .map(|(number, parts)| (*number, parts.clone()))
                .unwrap();
            let next = model.head().0 + 1;
            assert_eq!(store.rollback(number, publication("back")).unwrap().revision, next);
            model.revisions.insert(next, parts);
        }
        Step::Prune(keep) => {
            store.prune(*keep).unwrap();
            while model.revisions.len() > *keep {
                model.revisions.pop_first();
            }
        }
        Step::Checkpoint => {
            store.checkpoint().unwrap();
        }
        Step::Reopen => {
            store.close().unwrap();
            return open(path);
        }
    }
    store
}

fn compare(store: &Store, model: &Model) {
    let numbers: Vec<_> = store.revisions().unwrap().iter().map(|revision| revision.number).collect();
    assert_eq!(numbers, model.revisions.keys().copied().collect::<Vec<_>>());
    for (number, parts) in &model.revisions {
        let loaded = store.load_revision(*number).unwrap();
        assert_eq!(&loaded.parts.into_iter().collect::<Parts>(), parts, "revision {number}");
    }
    let shelf = store.load_shelf().unwrap().entries;
    let shelf: BTreeMap<_, _> = shelf.into_iter().map(|entry| (entry.sku, entry.stock.unwrap())).collect();
    assert_eq!(shelf, model.shelf);
    assert!(store.verify().unwrap().history_faults.is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, max_shrink_iters: 60, ..ProptestConfig::default() })]
    #[test]
    fn the_store_agrees_with_ordered_maps(steps in prop::collection::vec(step(), 1..25)) {
        let place = place();
        let mut store = Store::create(&place.path).unwrap();
        let mut model = Model::default();
        model.revisions.insert(0, Parts::new());
        for step in &steps {
            store = take(store, &place.path, &mut model, step);
        }
        compare(&store, &model);
        store.close().unwrap();
        compare(&open(&place.path), &model);
    }
}
