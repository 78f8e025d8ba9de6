//! The services: each call decodes, asks the engine or the catalogue, and encodes.

mod basis;
pub mod catalogue;
pub mod compatibility;
mod decode;
mod encode;
mod range;
mod recommend;
mod rules;
pub mod status;
mod words;

use std::sync::{Arc, OnceLock};

use sprag_catalogue::Catalogue;
use tonic::Status;

/// What the services share. The catalogue is there once it is loaded; until then calls are answered UNAVAILABLE.
#[derive(Clone, Default)]
pub struct Shared {
    catalogue: Arc<OnceLock<Arc<Catalogue>>>,
    limits: crate::ops::limits::Limits,
}

impl Shared {
    /// Shared state with limits and no catalogue yet.
    pub fn new(limits: crate::ops::limits::Limits) -> Self {
        Self { catalogue: Arc::default(), limits }
    }

    /// Makes the catalogue available; a second one is ignored.
    pub fn set_catalogue(&self, catalogue: Arc<Catalogue>) {
        let _ = self.catalogue.set(catalogue);
    }

    fn catalogue(&self) -> Result<&Catalogue, Status> {
        self.catalogue.get().map(|catalogue| &**catalogue).ok_or_else(status::not_loaded)
    }
}
