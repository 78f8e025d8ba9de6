//! The interfaces by class.

use sprag_catalogue::View;
use sprag_engine::part::interface::Interface;
use sprag_proto::text::nearest;
use sprag_proto::v1 as pb;
use tonic::Status;

use crate::rpc::status::Refusal;

/// The interfaces of one class, or all.
pub(super) fn list_interfaces(
    view: &View,
    request: pb::ListInterfacesRequest,
) -> Result<pb::ListInterfacesResponse, Status> {
    let class = request.interface_class;
    let interfaces = &view.snapshot.registry().interfaces;
    let mut found: Vec<pb::Interface> =
        interfaces.of_class(&class).map(|(_, found)| write(found, view)).collect();
    if found.is_empty() {
        let mut classes: Vec<&str> = interfaces.of_class("").map(|(_, found)| &*found.class).collect();
        classes.dedup();
        let near = nearest(&class, classes.iter().copied());
        return Err(Refusal::NotFound { what: "interface class", name: class, nearest: near }.into());
    }
    // The shop's own stand behind the standard ones of their class.
    found.sort_by_cached_key(|one| {
        interfaces.of_class("").position(|(_, known)| *known.class == *one.interface_class)
    });
    Ok(pb::ListInterfacesResponse { interfaces: found })
}

fn write(found: &Interface, view: &View) -> pb::Interface {
    let interfaces = &view.snapshot.registry().interfaces;
    let records = view.snapshot.records().iter().filter(|_| found.own);
    let record = records
        .filter_map(|record| match &record.record {
            Some(pb::record::Record::Interface(one)) => Some(one),
            _ => None,
        })
        .find(|one| *one.interface_class == *found.class && *one.key == *found.key);
    pb::Interface {
        key: found.key.to_string(),
        interface_class: found.class.to_string(),
        description: found.description.to_string(),
        accepts: found.accepts.iter().map(|key| interfaces.name(*key).to_owned()).collect(),
        source: found.source.to_string(),
        dimensions: record.map(|one| one.dimensions.clone()).unwrap_or_default(),
        role: record.map_or(0, |one| one.role),
        own: found.own,
    }
}
