//! A revision's content as a stream: its own entries laid over those of the revisions before it, back to the last base.
//!
//! Every layer is in order of stock number on disk, so merging them takes no memory that grows with the catalogue.

use std::cmp::Ordering;
use std::iter::Peekable;

use super::digest::{SetDigest, hex};
use super::engine::{KeyValueStore, Pair, Scan, Tree, scan_all, scan_prefix};
use super::envelope;
use super::record::{self, Entry, HEAD, Head, Manifest, SCHEMA_VERSION, revision_key};
use crate::error::{Corrupt, ReadError};
use crate::records;

/// A part by stock number or a record by its key, and what is said of it.
pub(crate) type Item = Result<(String, Entry), ReadError>;

/// One revision's own entries.
pub(crate) struct Layer<'a>(Scan<'a>);

impl<'a> Layer<'a> {
    pub fn of(store: &'a dyn KeyValueStore, revision: u64) -> Self {
        Self(scan_prefix(store, Tree::Deltas, &revision_key(revision)))
    }
}

impl Iterator for Layer<'_> {
    type Item = Item;

    fn next(&mut self) -> Option<Item> {
        let pair = self.0.next()?;
        Some(pair.map_err(ReadError::from).and_then(|(key, value)| {
            let sku = split_delta_key(&key)?.1;
            let entry: Entry = envelope::open_message(Tree::Deltas, &key, &value)?;
            if !entry.removed && entry.row.len() != 32 {
                let why = format!("wanted a row key of 32 bytes, found {}", entry.row.len());
                return Err(Corrupt::new(Tree::Deltas.name(), &key, why).into());
            }
            Ok((sku, entry))
        }))
    }
}

/// Revision and stock number of a delta's key.
pub(crate) fn split_delta_key(key: &[u8]) -> Result<(u64, String), Corrupt> {
    let corrupt = |why: &str| Corrupt::new(Tree::Deltas.name(), key, why.into());
    let (revision, sku) =
        key.split_first_chunk::<8>().ok_or_else(|| corrupt("wanted a key of 8 bytes or more"))?;
    let sku = str::from_utf8(sku).map_err(|_| corrupt("wanted a stock number in UTF-8"))?;
    Ok((u64::from_be_bytes(*revision), sku.into()))
}

/// The merged stream of live parts, in order of stock number.
pub(crate) struct Fold<'a> {
    /// Newest first.
    layers: Vec<Peekable<Layer<'a>>>,
}

impl<'a> Fold<'a> {
    /// The content of a published revision.
    pub fn of(store: &'a dyn KeyValueStore, revision: u64) -> Result<Self, ReadError> {
        let mut layers = Vec::new();
        let mut next = revision;
        loop {
            let manifest = manifest(store, next)?;
            layers.push(Layer::of(store, next).peekable());
            if manifest.is_base {
                return Ok(Self { layers });
            }
            if manifest.parent >= next {
                return Err(ReadError::Mismatch {
                    what: format!("parent of revision {next}"),
                    wanted: "an older revision".into(),
                    found: manifest.parent.to_string(),
                });
            }
            next = manifest.parent;
        }
    }

    /// How many revisions it is made of.
    pub fn layers(&self) -> usize {
        self.layers.len()
    }

    /// The smallest stock number that any layer stands at; an error that a layer stands at comes first.
    fn smallest(&mut self) -> Option<Result<String, ReadError>> {
        let mut smallest: Option<&String> = None;
        for layer in &mut self.layers {
            match layer.peek() {
                None => {}
                Some(Err(error)) => return Some(Err(error.clone())),
                Some(Ok((sku, _))) => smallest = Some(smallest.map_or(sku, |other| other.min(sku))),
            }
        }
        smallest.map(|sku| Ok(sku.clone()))
    }

    /// The next live part, and whether the newest layer says so itself.
    pub fn next_with_origin(&mut self) -> Option<Result<(String, Entry, bool), ReadError>> {
        loop {
            let sku = match self.smallest()? {
                Ok(sku) => sku,
                Err(error) => {
                    self.layers.clear();
                    return Some(Err(error));
                }
            };
            let mut newest = None;
            for (index, layer) in self.layers.iter_mut().enumerate() {
                let here = layer.next_if(|item| matches!(item, Ok((other, _)) if *other == sku));
                if let (None, Some(Ok((_, entry)))) = (&newest, here) {
                    newest = Some((entry, index == 0));
                }
            }
            match newest {
                Some((entry, own)) if !entry.removed => return Some(Ok((sku, entry, own))),
                _ => {}
            }
        }
    }
}

impl Iterator for Fold<'_> {
    type Item = Item;

    fn next(&mut self) -> Option<Item> {
        self.next_with_origin().map(|item| item.map(|(sku, entry, _)| (sku, entry)))
    }
}

/// Walks two streams that are in order of stock number side by side.
pub(crate) fn join<E: From<ReadError>>(
    left: impl Iterator<Item = Item>,
    right: impl Iterator<Item = Item>,
    mut visit: impl FnMut(&str, Option<Entry>, Option<Entry>) -> Result<(), E>,
) -> Result<(), E> {
    let (mut left, mut right) = (left.peekable(), right.peekable());
    loop {
        let order = match (left.peek(), right.peek()) {
            (None, None) => return Ok(()),
            (Some(_), None) => Ordering::Less,
            (None, Some(_)) => Ordering::Greater,
            (Some(Ok((one, _))), Some(Ok((other, _)))) => one.cmp(other),
            // Whichever stands first gives its error below.
            (Some(_), Some(_)) => Ordering::Equal,
        };
        let one = if order.is_le() { left.next().transpose()? } else { None };
        let other = if order.is_ge() { right.next().transpose()? } else { None };
        let sku = one.as_ref().or(other.as_ref()).map(|(sku, _)| sku.clone()).unwrap_or_default();
        visit(&sku, one.map(|(_, entry)| entry), other.map(|(_, entry)| entry))?;
    }
}

/// The published revision.
pub(crate) fn head(store: &dyn KeyValueStore) -> Result<Head, ReadError> {
    record::read_required(store, Tree::Meta, HEAD)
}

/// The manifest of a revision that is kept.
pub(crate) fn manifest(store: &dyn KeyValueStore, revision: u64) -> Result<Manifest, ReadError> {
    let key = revision_key(revision);
    let Some(manifest) = record::read::<Manifest>(store, Tree::Manifests, &key)? else {
        let kept = manifests(store)?;
        let (oldest, newest) = (kept.first(), kept.last());
        return Err(match (oldest, newest) {
            (Some(oldest), Some(newest)) if !(oldest.revision..=newest.revision).contains(&revision) => {
                ReadError::NoSuchRevision {
                    wanted: revision,
                    oldest: oldest.revision,
                    newest: newest.revision,
                }
            }
            _ => ReadError::Missing { what: format!("the manifest of revision {revision}") },
        });
    };
    if manifest.revision != revision || manifest.schema_version != SCHEMA_VERSION {
        return Err(ReadError::Mismatch {
            what: format!("the manifest of revision {revision}"),
            wanted: format!("revision {revision} in schema {SCHEMA_VERSION}"),
            found: format!("revision {} in schema {}", manifest.revision, manifest.schema_version),
        });
    }
    Ok(manifest)
}

/// Every manifest, oldest first.
pub(crate) fn manifests(store: &dyn KeyValueStore) -> Result<Vec<Manifest>, ReadError> {
    scan_all(store, Tree::Manifests)
        .map(|pair| {
            let (key, value): Pair = pair?;
            Ok(envelope::open_message(Tree::Manifests, &key, &value)?)
        })
        .collect()
}

/// Visits every entry of a revision, then holds count and digest against its manifest. Only when this returns `Ok` may
/// what was visited be used.
pub(crate) fn for_each_entry<E: From<ReadError>>(
    store: &dyn KeyValueStore,
    revision: u64,
    mut visit: impl FnMut(String, Entry) -> Result<(), E>,
) -> Result<Manifest, E> {
    let manifest = manifest(store, revision)?;
    let (mut parts, mut records, mut digest) = (0, 0, SetDigest::default());
    for item in Fold::of(store, revision)? {
        let (sku, entry) = item?;
        digest.add(sku.as_bytes(), &entry.row);
        *if records::read_key(&sku).is_some() { &mut records } else { &mut parts } += 1;
        visit(sku, entry)?;
    }
    check(&format!("parts in revision {revision}"), &manifest.part_count, &parts)?;
    check(&format!("records in revision {revision}"), &manifest.record_count, &records)?;
    check(&format!("digest of revision {revision}"), &hex(&manifest.digest), &hex(&digest.to_bytes()))?;
    Ok(manifest)
}

/// Wanted and found must be the same.
pub(crate) fn check<T: PartialEq + ToString>(what: &str, wanted: &T, found: &T) -> Result<(), ReadError> {
    if wanted == found {
        return Ok(());
    }
    Err(ReadError::Mismatch { what: what.into(), wanted: wanted.to_string(), found: found.to_string() })
}
