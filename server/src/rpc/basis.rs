//! What an answer rests on.

use sprag_catalogue::View;
use sprag_engine::fit::{Practice, registry::RULESET_VERSION};
use sprag_proto::v1 as pb;

/// The basis of an answer over a view of the catalogue.
pub fn basis(view: &View, practice: Option<Practice>) -> pb::Basis {
    let revision = view.snapshot.revision();
    pb::Basis {
        catalogue_revision: revision.revision,
        catalogue_digest: revision.digest.clone(),
        shelf_sequence: view.shelf.sequence(),
        ruleset_version: RULESET_VERSION.to_owned(),
        as_of_date: view.as_of.to_string(),
        limit_practice: practice.map(super::words::practice_name).unwrap_or_default().to_owned(),
    }
}
