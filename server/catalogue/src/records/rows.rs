//! Records among the rows of an import: collected, checked together, and published with the parts.

use std::collections::BTreeMap;

use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;

use super::{Registry, name_of, read_key, type_name, write_key};
use crate::error::WriteError;
use crate::snapshot::Snapshot;
use crate::store::Draft;

/// What an import does to the records that are there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Others {
    /// Those that the file does not name stay, since the draft takes everything over.
    Stay,
    /// They stay, and must be put again, since the draft starts empty.
    PutAgain,
    /// They go.
    Go,
}

/// Bad rows with what is wrong with them; row 0 is a record that was there before.
pub(crate) type BadRows = Vec<(i64, Vec<Fault>)>;

/// The records of an import, and the registry that its parts are read with.
pub(crate) struct RecordRows {
    others: Others,
    before: BTreeMap<String, pb::Record>,
    rows: BTreeMap<String, (i64, pb::Record)>,
    registry: Registry,
    unchecked: bool,
}

impl RecordRows {
    /// No rows yet, over the records of a published revision.
    pub fn new(snapshot: &Snapshot, others: Others) -> Self {
        let (before, registry) = if others == Others::Go {
            (BTreeMap::new(), Registry::standard().clone())
        } else {
            let keyed = |record: &pb::Record| Some((write_key(&name_of(record)?), record.clone()));
            (snapshot.records().iter().filter_map(keyed).collect(), snapshot.registry().clone())
        };
        Self { others, before, rows: BTreeMap::new(), registry, unchecked: false }
    }

    /// Takes a record; it is checked with the others later on.
    pub fn add(&mut self, row: i64, record: pb::Record) -> Result<(), Fault> {
        let name = name_of(&record).unwrap_or_default();
        let key = write_key(&name);
        if let Some((earlier, _)) = self.rows.get(&key) {
            let kind = type_name(name.r#type());
            return Err(Fault {
                path: kind.into(),
                found: format!("{kind} {:?}, which row {earlier} has too", name.id),
                wanted: "each record once in a file".into(),
                nearest: None,
            });
        }
        self.rows.insert(key, (row, record));
        self.unchecked = true;
        Ok(())
    }

    /// The registry of what was taken so far, and the rows that are found to be bad and are left out.
    pub fn registry(&mut self) -> (&Registry, BadRows) {
        let bad = if self.unchecked { self.check() } else { Vec::new() };
        (&self.registry, bad)
    }

    /// Leaves bad records out until the rest is sound: what is wrong with one may make another wrong.
    fn check(&mut self) -> BadRows {
        self.unchecked = false;
        let mut bad = Vec::new();
        loop {
            // A new record that contradicts one that was there is the one at fault.
            let before = self.before.iter().filter(|(key, _)| !self.rows.contains_key(*key));
            let all = before.map(|(_, record)| record).chain(self.rows.values().map(|(_, record)| record));
            let faults = match Registry::compile(all) {
                Ok(registry) => {
                    self.registry = registry;
                    return bad;
                }
                Err(faults) => faults,
            };
            let mut by_key: BTreeMap<String, Vec<Fault>> = BTreeMap::new();
            for found in faults {
                by_key.entry(write_key(&found.name)).or_default().push(found.fault);
            }
            for (key, faults) in by_key {
                match self.rows.remove(&key) {
                    Some((row, _)) => bad.push((row, faults)),
                    None => {
                        // One that was there before cannot be left out, and what contradicts it is not known.
                        let name = read_key(&key).unwrap_or_default();
                        let told = faults.into_iter().map(|fault| Fault {
                            found: format!("{} of {:?}, which was there before", fault.found, name.id),
                            ..fault
                        });
                        bad.push((0, told.collect()));
                        self.rows.clear();
                    }
                }
            }
            if self.rows.is_empty() && bad.iter().any(|(row, _)| *row == 0) {
                return bad;
            }
        }
    }

    /// Stock numbers that records of the file speak of, with their rows and the fields.
    pub fn named_skus(&self) -> Vec<(i64, String, String)> {
        self.rows
            .values()
            .flat_map(|(row, record)| {
                super::named_skus(record).into_iter().map(|(path, sku)| (*row, path, sku))
            })
            .collect()
    }

    /// How many records the file brings.
    pub fn count(&self) -> i64 {
        i64::try_from(self.rows.len()).unwrap_or(i64::MAX)
    }

    /// Puts the records into a draft.
    pub fn put(&self, draft: &mut Draft<'_>) -> Result<(), WriteError> {
        for (_, record) in self.rows.values() {
            draft.put_record(record)?;
        }
        if self.others == Others::PutAgain {
            for record in
                self.before.iter().filter(|(key, _)| !self.rows.contains_key(*key)).map(|(_, one)| one)
            {
                draft.put_record(record)?;
            }
        }
        Ok(())
    }
}
