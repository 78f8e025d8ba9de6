//! Bounds of what one request may ask, all documented in the .proto files.

/// Bounds of requests.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Largest message that is decoded, in bytes.
    pub message_bytes: usize,
    /// Parts in a build, changes, or spares.
    pub parts: usize,
    /// Items of a batch.
    pub batch: usize,
    /// Builds compared side by side.
    pub subjects: usize,
    /// Bikes judged for one recommendation, unless the caller asks for fewer.
    pub search_steps: u64,
    /// Searches at a time; further ones wait, so that checks are not starved.
    pub searches: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self { message_bytes: 4 << 20, parts: 64, batch: 256, subjects: 32, search_steps: 5_000, searches: 1 }
    }
}
