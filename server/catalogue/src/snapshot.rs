//! The published revision in memory: what every answer comes from. It never changes; a new revision is a new snapshot.

use std::collections::HashMap;
use std::sync::Arc;

use sprag_engine::part::{Kind, Part};
use sprag_proto::text::{Fault, gtin14, nearest};
use sprag_proto::v1 as pb;

use crate::convert;
use crate::records::{Registry, maker_number};
use crate::store::{Loaded, Revision};

/// A part of the catalogue in both forms.
#[derive(Debug)]
pub struct Stocked {
    /// As the engine sees it.
    pub part: Arc<Part>,
    /// As it was imported.
    pub message: pb::Part,
}

/// A whole revision, in order of SKU.
#[derive(Debug)]
pub struct Snapshot {
    revision: pb::Revision,
    records: Vec<pb::Record>,
    registry: Registry,
    parts: Vec<Stocked>,
    by_gtin: HashMap<String, usize>,
    by_maker: HashMap<(String, String), usize>,
    by_kind: HashMap<Kind, Vec<usize>>,
}

impl Snapshot {
    /// Builds the snapshot of a loaded revision.
    ///
    /// # Errors
    /// Stored records and parts that the dictionary of this version does not take.
    pub fn build(loaded: Loaded) -> Result<Self, Vec<Fault>> {
        let registry = Registry::compile(&loaded.records)
            .map_err(|faults| faults.into_iter().map(|found| found.fault).collect::<Vec<_>>())?;
        let mut parts = Vec::with_capacity(loaded.parts.len());
        let mut faults = Vec::new();
        for (sku, message) in loaded.parts {
            match convert::part(&message, &sku, &registry.interfaces) {
                Ok(mut part) => {
                    registry.mark(&mut part, &message);
                    parts.push(Stocked { part: Arc::new(part), message });
                }
                Err(found) => faults.extend(found),
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let mut snapshot = Self {
            revision: write_revision(&loaded.revision),
            records: loaded.records,
            registry,
            parts,
            by_gtin: HashMap::new(),
            by_maker: HashMap::new(),
            by_kind: HashMap::new(),
        };
        snapshot.index();
        Ok(snapshot)
    }

    fn index(&mut self) {
        for (place, stocked) in self.parts.iter().enumerate() {
            for gtin in stocked.message.gtins.iter().filter_map(|gtin| gtin14(gtin).ok()) {
                self.by_gtin.insert(gtin, place);
            }
            if let Some(number) = &stocked.message.maker_part {
                self.by_maker.insert(maker_number(number), place);
            }
            self.by_kind.entry(stocked.part.kind).or_default().push(place);
        }
    }

    /// The revision.
    pub fn revision(&self) -> &pb::Revision {
        &self.revision
    }

    /// Statements, rulings, interfaces and aliases, in order of type and id.
    pub fn records(&self) -> &[pb::Record] {
        &self.records
    }

    /// The records, compiled.
    pub fn registry(&self) -> &Registry {
        &self.registry
    }

    /// Every part, in order of SKU.
    pub fn parts(&self) -> &[Stocked] {
        &self.parts
    }

    /// The parts of a kind, in order of SKU.
    pub fn of_kind(&self, kind: Kind) -> impl Iterator<Item = &Stocked> {
        self.by_kind.get(&kind).into_iter().flatten().map(|place| &self.parts[*place])
    }

    /// Place of a SKU, or where it would be.
    pub fn place_of(&self, sku: &str) -> Result<usize, usize> {
        self.parts.binary_search_by(|stocked| stocked.message.sku.as_str().cmp(sku))
    }

    /// The part with a SKU.
    pub fn by_sku(&self, sku: &str) -> Option<&Stocked> {
        self.place_of(sku).ok().map(|place| &self.parts[place])
    }

    /// The part with a GTIN of 14 digits.
    pub fn by_gtin(&self, gtin14: &str) -> Option<&Stocked> {
        self.by_gtin.get(gtin14).map(|place| &self.parts[*place])
    }

    /// The part with a maker's number; spaces, dashes and case do not matter.
    pub fn by_maker_part(&self, brand_id: &str, number: &str) -> Option<&Stocked> {
        let number = pb::MakerPartNumber { brand_id: brand_id.to_owned(), number: number.to_owned() };
        self.by_maker.get(&maker_number(&number)).map(|place| &self.parts[*place])
    }

    /// The SKU that is spelt most like a wrong one.
    pub fn near_sku(&self, sku: &str) -> Option<String> {
        // A typing error seldom changes the length by more than two; this also bounds the work on large catalogues.
        let length = sku.len();
        if length > 100 {
            return None;
        }
        let candidates = self.parts.iter().map(|stocked| stocked.message.sku.as_str());
        nearest(sku, candidates.filter(|known| known.len().abs_diff(length) <= 2))
    }
}

/// A revision as the API shows it.
pub fn write_revision(revision: &Revision) -> pb::Revision {
    pb::Revision {
        revision: i64::try_from(revision.number).unwrap_or(i64::MAX),
        digest: revision.digest.iter().map(|byte| format!("{byte:02x}")).collect(),
        part_count: i64::try_from(revision.part_count).unwrap_or(i64::MAX),
        author: revision.author.clone(),
        note: revision.note.clone(),
        record_count: i64::try_from(revision.record_count).unwrap_or(i64::MAX),
    }
}
