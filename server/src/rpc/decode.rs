//! Messages to engine questions, with all faults at once.

use std::sync::Arc;

use sprag_catalogue::{Snapshot, convert};
use sprag_engine::build::{Build, Change, End, Fault as BuildFault, Item};
use sprag_engine::fit::Practice;
use sprag_engine::part::Part;
use sprag_proto::text::{Fault, nearest};
use sprag_proto::v1 as pb;

use super::status::Refusal;
use crate::ops::limits::Limits;

/// Reads requests against one snapshot; collects faults and unknown parts.
pub struct Decoder<'a> {
    snapshot: &'a Snapshot,
    limits: Limits,
    faults: Vec<Fault>,
    unknown: Vec<Fault>,
}

impl<'a> Decoder<'a> {
    /// A decoder without faults yet.
    pub fn new(snapshot: &'a Snapshot, limits: Limits) -> Self {
        Self { snapshot, limits, faults: Vec::new(), unknown: Vec::new() }
    }

    /// Gives the value if nothing was wrong. Faults of the request come before unknown parts.
    pub fn finish<T>(self, value: T) -> Result<T, Refusal> {
        if !self.faults.is_empty() {
            Err(Refusal::Invalid(self.faults))
        } else if !self.unknown.is_empty() {
            Err(Refusal::UnknownParts(self.unknown))
        } else {
            Ok(value)
        }
    }

    /// Notes a fault.
    pub fn fault(&mut self, path: impl Into<String>, found: impl Into<String>, wanted: impl Into<String>) {
        self.faults.push(Fault {
            path: path.into(),
            found: found.into(),
            wanted: wanted.into(),
            nearest: None,
        });
    }

    /// Reads a build; where it may be empty, nothing given is an empty build.
    pub fn build(&mut self, message: Option<&pb::Build>, path: &str, may_be_empty: bool) -> Build {
        let empty = pb::Build::default();
        let message = message.unwrap_or(&empty);
        if message.parts.is_empty() && !may_be_empty {
            self.fault(format!("{path}.parts"), "an empty build", "at least one part");
        }
        self.at_most(&format!("{path}.parts"), message.parts.len(), self.limits.parts);
        let items = self.items(&message.parts, &format!("{path}.parts"));
        let usage = match convert::usage(
            message.r#use.as_ref(),
            &format!("{path}.use"),
            &self.snapshot.registry().interfaces,
        ) {
            Ok(usage) => Arc::new(usage),
            Err(faults) => {
                self.faults.extend(faults);
                Build::default().usage
            }
        };
        Build { items, usage }
    }

    /// Reads changes.
    pub fn changes(&mut self, messages: &[pb::Change], path: &str) -> Vec<Change> {
        self.at_most(path, messages.len(), self.limits.parts);
        let mut changes = Vec::new();
        for (index, message) in messages.iter().enumerate().take(self.limits.parts) {
            let at = format!("{path}[{index}]");
            let fit = message.fit.as_ref().map(|fit| self.item(fit, &format!("{at}.fit")));
            if matches!(fit, Some(None)) {
                continue;
            }
            self.at_most(&format!("{at}.moves"), message.moves.len(), self.limits.parts);
            changes.push(Change {
                id: if message.change_id.is_empty() {
                    format!("change-{}", index + 1)
                } else {
                    message.change_id.clone()
                },
                fit: fit.flatten(),
                replaces: Some(message.replaces.clone()).filter(|name| !name.is_empty()),
                moves: message.moves.iter().take(self.limits.parts).cloned().collect(),
            });
        }
        changes
    }

    /// Reads parts in their places.
    pub fn items(&mut self, messages: &[pb::FittedPart], path: &str) -> Vec<Item> {
        let numbered = messages.iter().enumerate().take(self.limits.parts);
        numbered.filter_map(|(index, message)| self.item(message, &format!("{path}[{index}]"))).collect()
    }

    /// Reads one part in its place.
    pub fn item(&mut self, message: &pb::FittedPart, path: &str) -> Option<Item> {
        if !(0..=99).contains(&message.quantity) {
            self.fault(format!("{path}.quantity"), message.quantity.to_string(), "0 to 99; 0 is 1");
        }
        if message.item_id.chars().count() > 100 {
            self.fault(format!("{path}.item_id"), "a longer name", "at most 100 characters");
        }
        let end = match pb::Position::try_from(message.position) {
            Ok(pb::Position::Front) => Some(End::Front),
            Ok(pb::Position::Rear) => Some(End::Rear),
            Ok(pb::Position::Unspecified) => None,
            Err(_) => {
                self.fault(format!("{path}.position"), message.position.to_string(), "front or rear");
                None
            }
        };
        let part = self.part(message, path)?;
        let quantity = u32::try_from(message.quantity).unwrap_or(0).max(1);
        Some(Item { id: message.item_id.clone(), end, quantity, part })
    }

    fn part(&mut self, message: &pb::FittedPart, path: &str) -> Option<Arc<Part>> {
        use pb::fitted_part::Part as Reference;
        match &message.part {
            None => {
                self.fault(path, "nothing", "a part: sku, gtin, maker_part or described");
                None
            }
            Some(Reference::Sku(sku)) => {
                let found = self.snapshot.by_sku(sku);
                if found.is_none() {
                    // Each near spelling costs a walk over the catalogue.
                    let near = if self.unknown.len() < 3 { self.snapshot.near_sku(sku) } else { None };
                    self.unknown(&format!("{path}.sku"), sku, near);
                }
                found.map(|stocked| stocked.part.clone())
            }
            Some(Reference::Gtin(gtin)) => match sprag_proto::text::gtin14(gtin) {
                Err(wanted) => {
                    self.fault(format!("{path}.gtin"), format!("{gtin:?}"), wanted);
                    None
                }
                Ok(gtin) => {
                    let found = self.snapshot.by_gtin(&gtin);
                    if found.is_none() {
                        self.unknown(&format!("{path}.gtin"), &gtin, None);
                    }
                    found.map(|stocked| stocked.part.clone())
                }
            },
            Some(Reference::MakerPart(number)) => {
                let found = self.snapshot.by_maker_part(&number.brand_id, &number.number);
                if found.is_none() {
                    self.unknown(
                        &format!("{path}.maker_part"),
                        &format!("{} {}", number.brand_id, number.number),
                        None,
                    );
                }
                found.map(|stocked| stocked.part.clone())
            }
            Some(Reference::Described(part)) => {
                match convert::described(part, &format!("{path}.described"), self.snapshot.registry()) {
                    Ok(part) => Some(Arc::new(part)),
                    Err(faults) => {
                        self.faults.extend(faults);
                        None
                    }
                }
            }
        }
    }

    fn unknown(&mut self, path: &str, name: &str, nearest: Option<String>) {
        let short: String = name.chars().take(100).collect();
        self.unknown.push(Fault {
            path: path.to_owned(),
            found: format!("no part {short:?} in the catalogue"),
            wanted: "a part of the catalogue, or a described one".to_owned(),
            nearest,
        });
    }

    /// Reads how limits are held.
    pub fn practice(&mut self, value: i32, path: &str) -> Practice {
        match pb::LimitPractice::try_from(value) {
            Ok(pb::LimitPractice::Maker) => Practice::Maker,
            Ok(_) => Practice::Workshop,
            Err(_) => {
                self.fault(path, value.to_string(), "maker or workshop");
                Practice::Workshop
            }
        }
    }

    /// A list is not too long.
    pub fn at_most(&mut self, path: &str, found: usize, limit: usize) {
        if found > limit {
            self.fault(path, format!("{found} items"), format!("at most {limit}"));
        }
    }
}

/// Faults of changes that cannot be applied, with their paths.
pub fn build_faults(faults: Vec<BuildFault>, path: &str) -> Refusal {
    let faults = faults.into_iter().map(|fault| build_fault(fault, path)).collect();
    Refusal::Invalid(faults)
}

fn build_fault(fault: BuildFault, path: &str) -> Fault {
    match fault {
        BuildFault::NoSuchItem { change, name, known } => Fault {
            path: format!("{path}[{change}].replaces"),
            found: format!("no item {name:?} on the bike"),
            wanted: format!("one of {}", known.join(", ")),
            nearest: nearest(&name, known.iter().map(String::as_str)),
        },
        BuildFault::SameName { name } => Fault {
            path: "build.parts".into(),
            found: format!("two items called {name:?}"),
            wanted: "a name of its own for each".into(),
            nearest: None,
        },
        BuildFault::Crowded { item, other } => Fault {
            path: "build.parts".into(),
            found: format!("{item:?} in the place of {other:?}"),
            wanted: "one part for each place; say position \"front\" for what is at the front wheel".into(),
            nearest: None,
        },
        BuildFault::Empty { change } => Fault {
            path: format!("{path}[{change}]"),
            found: "an empty change".into(),
            wanted: "a part to fit, or an item to take off".into(),
            nearest: None,
        },
        BuildFault::WhichRing { change, rings } => Fault {
            path: format!("{path}[{change}].replaces"),
            found: "nothing".into(),
            wanted: format!("the ring that goes, one of {}", rings.join(", ")),
            nearest: None,
        },
        BuildFault::SamePlace { change, item } => Fault {
            path: format!("{path}[{change}].fit"),
            found: format!("a part in the place of {item:?}, which another change fits"),
            wanted: "one part for each place".into(),
            nearest: None,
        },
    }
}
