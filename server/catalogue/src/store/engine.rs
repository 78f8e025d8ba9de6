//! The one door to a key-value engine. Nothing outside `store/sled_engine.rs` knows which one stands behind it.

use std::ops::Bound;

use thiserror::Error;

/// Named ordered maps of bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tree {
    /// Single records: the head and the shelf's totals.
    Meta,
    /// Revision number (8 bytes, big-endian) to its manifest.
    Manifests,
    /// Revision number (8 bytes, big-endian) and stock number, to what that revision says of the part.
    Deltas,
    /// Stock number, a zero byte and the SHA-256 of the encoded part, to the encoded part.
    Rows,
    /// Stock number to price and stock.
    Shelf,
    /// Request ids and the order in which they came.
    Requests,
}

impl Tree {
    /// Every tree.
    pub const ALL: [Self; 6] =
        [Self::Meta, Self::Manifests, Self::Deltas, Self::Rows, Self::Shelf, Self::Requests];

    /// Its name on disk; never changes.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Meta => "meta",
            Self::Manifests => "manifests",
            Self::Deltas => "deltas",
            Self::Rows => "rows",
            Self::Shelf => "shelf",
            Self::Requests => "requests",
        }
    }
}

/// One write.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Write {
    /// Where.
    pub tree: Tree,
    /// Key.
    pub key: Vec<u8>,
    /// The new value; `None` removes the key.
    pub value: Option<Vec<u8>>,
}

/// Writes that happen together or not at all; a later write to the same key wins.
#[derive(Debug, Clone, Default)]
pub struct Batch {
    /// In order.
    pub writes: Vec<Write>,
}

impl Batch {
    /// Sets a key.
    pub fn put(&mut self, tree: Tree, key: impl Into<Vec<u8>>, value: Vec<u8>) {
        self.writes.push(Write { tree, key: key.into(), value: Some(value) });
    }

    /// Removes a key.
    pub fn remove(&mut self, tree: Tree, key: impl Into<Vec<u8>>) {
        self.writes.push(Write { tree, key: key.into(), value: None });
    }

    /// Number of writes.
    #[must_use]
    pub fn len(&self) -> usize {
        self.writes.len()
    }

    /// Nothing to do?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.writes.is_empty()
    }
}

/// Why an engine could not do it.
#[derive(Debug, Clone, Error)]
#[non_exhaustive]
pub enum EngineError {
    /// Another process holds the files.
    #[error("another process has the store open ({0})")]
    Busy(String),
    /// No space on the disk.
    #[error("the disk is full ({0})")]
    Full(String),
    /// The operating system said no.
    #[error("{0}")]
    Io(String),
    /// The engine found its own files damaged, or broke on them.
    #[error("the engine found damage: {0}")]
    Damaged(String),
}

impl EngineError {
    /// Trying again later may help.
    #[must_use]
    pub fn retryable(&self) -> bool {
        matches!(self, Self::Busy(_) | Self::Full(_))
    }
}

/// A key and its value.
pub type Pair = (Vec<u8>, Vec<u8>);

/// Pairs in order of key.
pub type Scan<'a> = Box<dyn Iterator<Item = Result<Pair, EngineError>> + Send + 'a>;

/// An ordered key-value engine with atomic batches over several trees.
pub trait KeyValueStore: Send + Sync {
    /// The value of a key.
    ///
    /// # Errors
    /// Input and output, damage.
    fn get(&self, tree: Tree, key: &[u8]) -> Result<Option<Vec<u8>>, EngineError>;

    /// Pairs between two bounds, in order of key. It need not be a snapshot: writes that happen meanwhile may show.
    fn scan(&self, tree: Tree, from: Bound<Vec<u8>>, to: Bound<Vec<u8>>) -> Scan<'_>;

    /// Writes all of it or nothing, also over a crash; durable only after [`Self::flush`].
    ///
    /// # Errors
    /// Input and output, disk full, damage.
    fn apply(&self, batch: Batch) -> Result<(), EngineError>;

    /// Returns once everything applied so far would survive loss of power.
    ///
    /// # Errors
    /// Input and output, disk full.
    fn flush(&self) -> Result<(), EngineError>;

    /// Bytes that the files take.
    ///
    /// # Errors
    /// Input and output.
    fn size_on_disk(&self) -> Result<u64, EngineError>;
}

/// Pairs whose key starts with `prefix`.
pub fn scan_prefix<'a>(store: &'a dyn KeyValueStore, tree: Tree, prefix: &[u8]) -> Scan<'a> {
    let to = after_prefix(prefix).map_or(Bound::Unbounded, Bound::Excluded);
    store.scan(tree, Bound::Included(prefix.to_vec()), to)
}

/// Every pair of a tree.
pub fn scan_all(store: &dyn KeyValueStore, tree: Tree) -> Scan<'_> {
    store.scan(tree, Bound::Unbounded, Bound::Unbounded)
}

/// The first key after all keys with the prefix; `None` when there is no such key.
fn after_prefix(prefix: &[u8]) -> Option<Vec<u8>> {
    let last = prefix.iter().rposition(|byte| *byte != u8::MAX)?;
    let mut next = prefix.get(..=last)?.to_vec();
    if let Some(byte) = next.last_mut() {
        *byte += 1;
    }
    Some(next)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_end_of_a_prefix_is_the_next_key_of_its_length_or_shorter() {
        assert_eq!(after_prefix(&[1, 2]), Some(vec![1, 3]));
        assert_eq!(after_prefix(&[1, 255]), Some(vec![2]));
        assert_eq!(after_prefix(&[255, 255]), None);
        assert_eq!(after_prefix(&[]), None);
    }
}
