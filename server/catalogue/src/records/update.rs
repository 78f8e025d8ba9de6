//! Changes to records by message: checked whole, then published as one revision.

use std::collections::{BTreeMap, BTreeSet};

use prost::Message;
use sha2::{Digest, Sha256};
use sprag_engine::part::interface::Key;
use sprag_engine::part::{Form, Part, Set};
use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;

use super::{Registry, name_of, named_skus, type_name, write_key};
use crate::import::ImportError;
use crate::live::Catalogue;
use crate::snapshot::{Snapshot, write_revision};
use crate::store::{Mode, Publication, RequestId};

/// Records put and removed at once.
const CHANGES_MAX: usize = 1000;

/// Why records were not changed.
#[derive(Debug)]
pub enum UpdateError {
    /// All that is wrong with the request.
    Invalid(Vec<Fault>),
    /// The store.
    Store(ImportError),
}

impl<E: Into<ImportError>> From<E> for UpdateError {
    fn from(error: E) -> Self {
        Self::Store(error.into())
    }
}

impl Catalogue {
    /// Puts and removes records: all of it or nothing.
    ///
    /// # Errors
    /// All that is wrong with the request; the store.
    pub fn update_records(
        &self,
        request: &pb::UpdateRecordsRequest,
        now_unix: i64,
    ) -> Result<pb::UpdateRecordsResponse, UpdateError> {
        let mut draft = self.store.begin_publish(Mode::Delta)?;
        let snapshot = self.published()?;
        let id = Some(&request.request_id).filter(|id| !id.is_empty() && !request.validate_only);
        let content: [u8; 32] = Sha256::digest(request.encode_to_vec()).into();
        let publication = Publication {
            author: request.author.clone(),
            note: request.note.clone(),
            created_unix: now_unix,
            request: id.map(|id| RequestId { id: id.clone(), content }),
        };
        // What a repeated request removed is gone, which is no fault of its.
        let mut warnings = Vec::new();
        if !draft.is_repeated(&publication)? {
            warnings = check(request, &snapshot).map_err(UpdateError::Invalid)?;
            for record in &request.put {
                draft.put_record(record)?;
            }
            for name in &request.remove {
                draft.remove_record(name)?;
            }
        }
        let records = if request.validate_only {
            draft.preview()?.records
        } else {
            self.publish(draft, publication)?.records
        };
        let count = |count: u64| i64::try_from(count).unwrap_or(i64::MAX);
        Ok(pb::UpdateRecordsResponse {
            published: !request.validate_only,
            revision: Some(write_revision(&self.store.head()?)),
            records_added: count(records.added),
            records_changed: count(records.changed),
            records_removed: count(records.removed),
            warnings,
        })
    }
}

fn fault(path: String, found: String, wanted: &str) -> Fault {
    Fault { path, found, wanted: wanted.into(), nearest: None }
}

/// Checks a request against what is published; gives what may be a slip.
fn check(
    request: &pb::UpdateRecordsRequest,
    snapshot: &Snapshot,
) -> Result<Vec<pb::ImportFault>, Vec<Fault>> {
    let all = request.put.len() + request.remove.len();
    if !(1..=CHANGES_MAX).contains(&all) {
        return Err(vec![fault("put".into(), format!("{all} records"), "with \"remove\" 1 to 1000")]);
    }
    let mut faults = Vec::new();
    let mut places: BTreeMap<String, usize> = BTreeMap::new();
    for (index, record) in request.put.iter().enumerate() {
        let name = name_of(record).unwrap_or_default();
        if let Some(earlier) = places.insert(write_key(&name), index) {
            let found = format!("{} {:?}, as put[{earlier}]", type_name(name.r#type()), name.id);
            faults.push(fault(format!("put[{index}]"), found, "each record once"));
        }
    }
    let mut gone = BTreeSet::new();
    for (index, name) in request.remove.iter().enumerate() {
        let key = write_key(name);
        let there = snapshot.records().iter().filter_map(name_of);
        let found = || format!("{} {:?}", type_name(name.r#type()), name.id);
        if !there.clone().any(|known| known == *name) {
            let ids: Vec<String> =
                there.filter(|known| known.r#type == name.r#type).map(|known| known.id).collect();
            let nearest = sprag_proto::text::nearest(&name.id, ids.iter().map(String::as_str));
            let wanted = "a record of the catalogue".into();
            faults.push(Fault { path: format!("remove[{index}]"), found: found(), wanted, nearest });
        } else if places.contains_key(&key) || !gone.insert(key) {
            faults.push(fault(format!("remove[{index}]"), found(), "each record once"));
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let kept = snapshot.records().iter().filter(|record| {
        name_of(record).is_some_and(|name| {
            let key = write_key(&name);
            !gone.contains(&key) && !places.contains_key(&key)
        })
    });
    let compiled = Registry::compile(kept.chain(&request.put));
    let told = compiled.err().unwrap_or_default();
    faults.extend(told.into_iter().map(|found| match places.get(&write_key(&found.name)) {
        Some(index) => Fault { path: format!("put[{index}].{}", found.fault.path), ..found.fault },
        // A record that stays misses one that goes.
        None => {
            let stays =
                format!("{} {:?} would stay: {}", type_name(found.name.r#type()), found.name.id, found.fault);
            fault("remove".into(), stays, "what no other record needs")
        }
    }));
    faults.extend(used_interfaces(request, snapshot));
    if faults.is_empty() { Ok(unknown_skus(request, snapshot)) } else { Err(faults) }
}

/// Interfaces that are to go, and that parts of the catalogue have.
fn used_interfaces(request: &pb::UpdateRecordsRequest, snapshot: &Snapshot) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (index, name) in request.remove.iter().enumerate() {
        let interface = name.id.split_once('/').filter(|_| name.r#type() == pb::RecordType::Interface);
        let Some((class, key)) = interface else { continue };
        let Some(key) = snapshot.registry().interfaces.find(class, key) else { continue };
        if let Some(user) = snapshot.parts().iter().find(|stocked| uses(&stocked.part, class, key)) {
            let found = format!("{}, which part {:?} has", name.id, user.message.sku);
            faults.push(fault(format!("remove[{index}]"), found, "an interface that no part has"));
        }
    }
    faults
}

/// A part, or a part that it brings, has a key.
fn uses(part: &Part, class: &str, key: Key) -> bool {
    let own = part.values().any(|(spec, value)| {
        matches!(spec.form, Form::Interface(found) if found == class)
            && match &value.set {
                Set::Exact(value) => *value == i64::from(key.0),
                Set::OneOf(values) => values.contains(&i64::from(key.0)),
                _ => false,
            }
    });
    own || part.children().any(|(_, child)| uses(child, class, key))
}

/// Stock numbers that records speak of and no part has: they may come later, or be misspelt.
fn unknown_skus(request: &pb::UpdateRecordsRequest, snapshot: &Snapshot) -> Vec<pb::ImportFault> {
    let mut warnings = Vec::new();
    for (index, record) in request.put.iter().enumerate() {
        for (path, sku) in named_skus(record) {
            if snapshot.by_sku(&sku).is_none() {
                warnings.push(unknown_sku(i64::try_from(index).unwrap_or(i64::MAX), path, &sku, snapshot));
            }
        }
    }
    warnings
}

/// The warning that a record speaks of a stock number that no part has.
pub(crate) fn unknown_sku(row: i64, path: String, sku: &str, snapshot: &Snapshot) -> pb::ImportFault {
    pb::ImportFault {
        row,
        column: path,
        value: format!("{sku:?}"),
        text: "no part of the catalogue has this stock number yet".into(),
        nearest: snapshot.near_sku(sku).unwrap_or_default(),
        severity: pb::Severity::Warning.into(),
        sku: sku.to_owned(),
    }
}
