//! The services: each call decodes, asks the engine or the catalogue, and encodes.

mod basis;
pub mod catalogue;
pub mod compatibility;
mod decode;
mod encode;
mod range;
mod recommend;
mod rules;
mod said;
pub mod status;
mod words;

use std::sync::{Arc, OnceLock};
use std::time::{SystemTime, UNIX_EPOCH};

use sprag_catalogue::{Catalogue, View};
use sprag_engine::fit::Date;
use tonic::Status;

use crate::ops::metrics::Metrics;
use crate::ops::operations::Readiness;

/// Seconds since 1970-01-01 UTC.
fn now_unix() -> i64 {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default().as_secs();
    i64::try_from(now).unwrap_or(i64::MAX)
}

/// What the services share. The catalogue is there once it is loaded; until then calls are answered UNAVAILABLE.
#[derive(Clone, Default)]
pub struct Shared {
    catalogue: Arc<OnceLock<Arc<Catalogue>>>,
    limits: crate::ops::limits::Limits,
    /// What is counted.
    pub metrics: Arc<Metrics>,
    /// Whether requests are answered.
    pub readiness: Readiness,
}

impl Shared {
    /// Shared state with limits and no catalogue yet.
    pub fn new(limits: crate::ops::limits::Limits) -> Self {
        Self { limits, ..Self::default() }
    }

    /// Makes the catalogue available; a second one is ignored.
    pub fn set_catalogue(&self, catalogue: Arc<Catalogue>) {
        let _ = self.catalogue.set(catalogue);
    }

    /// The view of this moment, once the catalogue is loaded.
    pub fn view(&self) -> Option<View> {
        self.catalogue.get().map(|catalogue| catalogue.view().on(Date::of_unix(now_unix())))
    }

    /// The published revision; 0 until the catalogue is loaded.
    pub fn revision(&self) -> i64 {
        self.view().map_or(0, |view| view.snapshot.revision().revision)
    }

    fn catalogue(&self) -> Result<&Catalogue, Status> {
        self.catalogue.get().map(|catalogue| &**catalogue).ok_or_else(status::not_loaded)
    }
}
