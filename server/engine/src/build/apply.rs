//! Opens a build into its parts and applies changes.

use std::sync::Arc;

use super::{Assembly, Build, Change, End, Item, Placed, default_end};
use crate::part::{Attribute, Kind, Part, Set, Value, attr, word};

/// What a change did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Applied {
    /// The caller's name of the change.
    pub change: String,
    /// The item that was fitted; empty where only something was taken off.
    pub fitted: String,
    /// The items that went.
    pub removed: Vec<String>,
}

/// Why changes cannot be applied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// No item has this name.
    NoSuchItem {
        /// Place of the change in the request.
        change: usize,
        /// The name.
        name: String,
        /// The names that there are.
        known: Vec<String>,
    },
    /// Two items have the same name.
    SameName {
        /// The name.
        name: String,
    },
    /// A change neither fits nor replaces anything.
    Empty {
        /// Place of the change in the request.
        change: usize,
    },
    /// Several rings could be meant.
    WhichRing {
        /// Place of the change in the request.
        change: usize,
        /// The rings that there are.
        rings: Vec<String>,
    },
    /// Two items of the build sit in the same place.
    Crowded {
        /// The one.
        item: String,
        /// The other.
        other: String,
    },
    /// Two changes fit parts in the same place.
    SamePlace {
        /// Place of the later change in the request.
        change: usize,
        /// The item that the earlier one fitted.
        item: String,
    },
}

/// Opens a build and applies changes to it; tells all faults.
pub fn assemble(build: &Build, changes: &[Change]) -> Result<Assembly, Vec<Fault>> {
    let mut bench = Bench { placed: Vec::new(), faults: Vec::new() };
    for item in &build.items {
        bench.place(item, None);
    }
    bench.find_crowds();
    let before = bench.big_big();
    let mut applied = Vec::new();
    for (index, change) in changes.iter().enumerate() {
        applied.extend(bench.apply(index, change));
    }
    if bench.faults.is_empty() {
        // Parts that moved over may sit where a change has put another.
        bench.find_crowds();
    }
    if !bench.faults.is_empty() {
        return Err(bench.faults);
    }
    let big_big_growth = match (before, bench.big_big()) {
        (Some(before), Some(after)) => after - before,
        _ => 0,
    };
    bench.gather_rings();
    Ok(Assembly {
        big_big_growth,
        placed: bench.placed,
        usage: build.usage.clone(),
        applied,
        unchanged: changes.is_empty(),
    })
}

struct Bench {
    placed: Vec<Placed>,
    faults: Vec<Fault>,
}

impl Bench {
    /// One place takes one part: two of them are a slip, and would multiply the meetings to judge.
    fn find_crowds(&mut self) {
        for (index, placed) in self.placed.iter().enumerate() {
            let place = placed.part.kind.spec().place;
            let rival = self.placed[..index].iter().find(|other| {
                !place.is_empty() && other.part.kind.spec().place == place && other.end == placed.end
            });
            if let Some(rival) = rival {
                self.faults.push(Fault::Crowded { item: placed.id.clone(), other: rival.id.clone() });
            }
        }
    }

    /// Teeth of the largest ring and the largest cog together, where both are known.
    fn big_big(&self) -> Option<i64> {
        let parts = || self.placed.iter().map(|placed| &placed.part);
        let cog = parts().find_map(|part| part.exact(Attribute::LargestCog))?;
        let rings = parts().filter(|part| part.kind == Kind::Chainring);
        let ring = rings.filter_map(|ring| ring.exact(Attribute::Teeth)).max();
        Some(cog + ring.or_else(|| parts().find_map(|part| part.exact(Attribute::LargestRing)))?)
    }

    /// Places an item with everything that it brings along; gives its name.
    fn place(&mut self, item: &Item, change: Option<usize>) -> String {
        if !item.id.is_empty() && self.placed.iter().any(|placed| placed.id == item.id) {
            self.faults.push(Fault::SameName { name: item.id.clone() });
        }
        let id = if item.id.is_empty() { self.free_name(item.part.kind.name()) } else { item.id.clone() };
        let end = default_end(item.part.kind).map(|default| match item.part.kind {
            Kind::Fork | Kind::Frame => default,
            _ => item.end.unwrap_or(default),
        });
        let quantity = item.quantity.max(1);
        self.open(id.clone(), end, quantity, item.part.clone(), None, change);
        id
    }

    fn open(
        &mut self,
        id: String,
        end: Option<End>,
        quantity: u32,
        part: Arc<Part>,
        parent: Option<String>,
        change: Option<usize>,
    ) {
        self.placed.push(Placed {
            id: id.clone(),
            end,
            quantity,
            part: part.clone(),
            parent,
            change,
            all_rings: false,
        });
        for (_, child) in part.children() {
            let name = self.free_name(&format!("{id}.{}", child.kind.name()));
            let child_end = default_end(child.kind).and(end);
            self.open(name, child_end, 1, Arc::new(child.clone()), Some(id.clone()), change);
        }
        if part.kind == Kind::Crankset && part.children_named("chainrings").next().is_none() {
            self.open_rings(&id, &part, change);
        }
    }

    /// The rings of a crankset of which only the teeth are known.
    fn open_rings(&mut self, id: &str, crankset: &Part, change: Option<usize>) {
        let Some(rings) = crankset.list(Attribute::Rings).map(<[i64]>::to_vec) else { return };
        let mut sorted = rings;
        sorted.sort_unstable_by(|a, b| b.cmp(a));
        for (index, teeth) in sorted.iter().enumerate() {
            let position = match (index, sorted.len()) {
                (_, 1) => word::RingPosition::Single,
                (0, _) => word::RingPosition::Outer,
                (1, 3) => word::RingPosition::Middle,
                _ => word::RingPosition::Inner,
            };
            use crate::part::of::Word;
            let mut ring = Part::new(Kind::Chainring)
                .with(Attribute::Teeth, Set::Exact(*teeth))
                .with(Attribute::RingPosition, Set::Exact(position.index()));
            ring.set(Attribute::RingMount, crankset.value(Attribute::RingMount).clone());
            let name = self.free_name(&format!("{id}.{}", Kind::Chainring.name()));
            self.open(name, None, 1, Arc::new(ring), Some(id.to_owned()), change);
        }
    }

    fn free_name(&self, wanted: &str) -> String {
        let taken = |name: &str| self.placed.iter().any(|placed| placed.id == name);
        if !taken(wanted) {
            return wanted.to_owned();
        }
        (2_u32..).map(|number| format!("{wanted}-{number}")).find(|name| !taken(name)).unwrap_or_default()
    }

    fn apply(&mut self, index: usize, change: &Change) -> Option<Applied> {
        let mut removed = Vec::new();
        for name in change.moves.iter().chain(&change.replaces) {
            if self.placed.iter().all(|placed| placed.id != *name) {
                let known = self.placed.iter().map(|placed| placed.id.clone()).collect();
                self.faults.push(Fault::NoSuchItem { change: index, name: name.clone(), known });
                return None;
            }
        }
        // What comes in the place of a part at the front sits at the front too.
        let mut inherited = None;
        if let Some(name) = &change.replaces {
            inherited = self.placed.iter().find(|placed| placed.id == *name).and_then(|placed| placed.end);
            self.remove(name, &change.moves, &mut removed);
        }
        let Some(item) = &change.fit else {
            if change.replaces.is_none() {
                self.faults.push(Fault::Empty { change: index });
            }
            return Some(Applied { change: change.id.clone(), fitted: String::new(), removed });
        };
        let item = Item { end: item.end.or(inherited), ..item.clone() };
        // A ring that replaces another by name leaves the rest of them alone.
        if change.replaces.is_none() || item.part.kind != Kind::Chainring {
            self.make_room(index, &item, &change.moves, &mut removed);
        }
        self.make_room_for_children(index, &item, &change.moves, &mut removed);
        let fitted = self.place(&item, Some(index));
        Some(Applied { change: change.id.clone(), fitted, removed })
    }

    /// Takes off an item with what it brought along, except what moves over.
    fn remove(&mut self, name: &str, moves: &[String], removed: &mut Vec<String>) {
        let children: Vec<String> = self
            .placed
            .iter()
            .filter(|placed| placed.parent.as_deref() == Some(name))
            .map(|placed| placed.id.clone())
            .collect();
        for child in children {
            if moves.contains(&child) {
                if let Some(moved) = self.placed.iter_mut().find(|placed| placed.id == child) {
                    moved.parent = None;
                }
            } else {
                self.remove(&child, moves, removed);
            }
        }
        self.placed.retain(|placed| placed.id != name);
        removed.push(name.to_owned());
    }

    /// Takes off whatever sits in the place of a new part.
    fn make_room(&mut self, index: usize, item: &Item, moves: &[String], removed: &mut Vec<String>) {
        let kind = item.part.kind;
        if kind == Kind::Chainring {
            return self.make_room_for_ring(index, item, moves, removed);
        }
        self.clear(index, kind, item.end, moves, removed);
        if kind == Kind::Crankset {
            let rings: Vec<String> =
                self.placed.iter().filter(|p| p.part.kind == Kind::Chainring).map(|p| p.id.clone()).collect();
            for ring in rings.iter().filter(|ring| !moves.contains(ring)) {
                self.remove(ring, moves, removed);
            }
        }
    }

    /// Children of a composite part take the places of loose parts.
    fn make_room_for_children(
        &mut self,
        index: usize,
        item: &Item,
        moves: &[String],
        removed: &mut Vec<String>,
    ) {
        let mut kinds = Vec::new();
        collect_kinds(&item.part, &mut kinds);
        for kind in kinds {
            self.clear(index, kind, item.end, moves, removed);
        }
    }

    fn clear(
        &mut self,
        index: usize,
        kind: Kind,
        end: Option<End>,
        moves: &[String],
        removed: &mut Vec<String>,
    ) {
        let place = kind.spec().place;
        if place.is_empty() {
            return;
        }
        let end = default_end(kind).map(|default| end.unwrap_or(default));
        // A freehub body belongs to its hub: with another hub it goes too.
        let places: &[&str] = if place == "hub" { &["hub", "freehub-body"] } else { &[place] };
        let in_place = |placed: &Placed| {
            let own_end = placed.end.is_none() || end.is_none() || placed.end == end;
            places.contains(&placed.part.kind.spec().place) && own_end && !moves.contains(&placed.id)
        };
        let rivals: Vec<(String, Option<usize>)> =
            self.placed.iter().filter(|placed| in_place(placed)).map(|p| (p.id.clone(), p.change)).collect();
        for (name, change) in rivals {
            match change {
                Some(earlier) if earlier != index => {
                    self.faults.push(Fault::SamePlace { change: index, item: name });
                }
                Some(_) => {}
                None => {
                    if self.placed.iter().any(|placed| placed.id == name) {
                        self.remove(&name, moves, removed);
                    }
                }
            }
        }
    }

    /// A ring takes the place of the only ring, or of the one in the same position.
    fn make_room_for_ring(&mut self, index: usize, item: &Item, moves: &[String], removed: &mut Vec<String>) {
        let rings: Vec<&Placed> =
            self.placed.iter().filter(|p| p.part.kind == Kind::Chainring && p.change.is_none()).collect();
        let position = item.part.exact(attr::RING_POSITION.attribute());
        let same: Vec<&&Placed> = rings
            .iter()
            .filter(|ring| position.is_some() && ring.part.exact(attr::RING_POSITION.attribute()) == position)
            .collect();
        let known = |ring: &Placed| ring.part.exact(attr::RING_POSITION.attribute());
        let beside = |ring: &Placed| {
            one_of_several(&item.part) && one_of_several(&ring.part) && known(ring) != position
        };
        let target = match (rings.as_slice(), same.as_slice()) {
            ([], _) => return,
            (_, [only]) => only.id.clone(),
            // An inner ring beside an outer one is an addition.
            ([only], _) if beside(only) => return,
            ([only], _) => only.id.clone(),
            _ => {
                let rings = rings.iter().map(|ring| ring.id.clone()).collect();
                self.faults.push(Fault::WhichRing { change: index, rings });
                return;
            }
        };
        self.remove(&target, moves, removed);
    }

    /// Adds the part that stands for all rings together.
    fn gather_rings(&mut self) {
        let crankset = self.placed.iter().find(|placed| placed.part.kind == Kind::Crankset).cloned();
        let rings: Vec<Placed> =
            self.placed.iter().filter(|placed| placed.part.kind == Kind::Chainring).cloned().collect();
        let Some(host) = crankset.clone().or_else(|| rings.first().cloned()) else { return };
        let mut all = Part::new(Kind::Crankset);
        if rings.is_empty() {
            for attribute in [Attribute::RingCount, Attribute::LargestRing, Attribute::SmallestRing] {
                all.set(attribute, host.part.value(attribute).clone());
            }
        } else {
            // A crank may say that it carries more rings than are described, and an outer or inner ring is never alone.
            let stated = crankset.as_ref().and_then(|crankset| crankset.part.exact(Attribute::RingCount));
            let described: i64 = rings.iter().map(|ring| i64::from(ring.quantity)).sum();
            let others =
                described == 1 && stated.is_none() && rings.iter().any(|ring| one_of_several(&ring.part));
            let count =
                if others { Set::between(2, 3) } else { Set::Exact(described.max(stated.unwrap_or(0))) };
            all.set(Attribute::RingCount, Value::stated(count.clone()));
            let teeth: Option<Vec<i64>> =
                rings.iter().map(|ring| ring.part.exact(Attribute::Teeth)).collect();
            if let Some(teeth) = teeth.filter(|_| count == Set::Exact(described))
                && let (Some(low), Some(high)) = (teeth.iter().min(), teeth.iter().max())
            {
                all.set(Attribute::LargestRing, Value::stated(Set::Exact(*high)));
                all.set(Attribute::SmallestRing, Value::stated(Set::Exact(*low)));
                let mut list = teeth.clone();
                list.sort_unstable_by(|a, b| b.cmp(a));
                all.set(Attribute::Rings, Value::stated(Set::List(list.into())));
            }
        }
        let change = rings.iter().find_map(|ring| ring.change).or(host.change);
        self.placed.push(Placed {
            id: host.id,
            end: None,
            quantity: 1,
            part: Arc::new(all),
            parent: None,
            change,
            all_rings: true,
        });
    }
}

/// The ring is made for a place beside others.
fn one_of_several(ring: &Part) -> bool {
    use crate::part::of::Word;
    ring.exact(Attribute::RingPosition).is_some_and(|place| place != word::RingPosition::Single.index())
}

fn collect_kinds(part: &Part, kinds: &mut Vec<Kind>) {
    for (_, child) in part.children() {
        kinds.push(child.kind);
        collect_kinds(child, kinds);
    }
}
