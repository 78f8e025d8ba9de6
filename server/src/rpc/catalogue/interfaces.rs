//! The interfaces by class.

use sprag_engine::part::interface::Interfaces;
use sprag_proto::text::nearest;
use sprag_proto::v1 as pb;
use tonic::Status;

use crate::rpc::status::Refusal;

/// The interfaces of one class, or all.
pub(super) fn list_interfaces(
    request: pb::ListInterfacesRequest,
) -> Result<pb::ListInterfacesResponse, Status> {
    let class = request.interface_class;
    let interfaces = Interfaces::standard_ref();
    let found: Vec<pb::Interface> = interfaces
        .of_class(&class)
        .map(|(_, found)| pb::Interface {
            key: found.key.to_owned(),
            interface_class: found.class.to_owned(),
            description: found.description.to_owned(),
            accepts: found.accepts.iter().map(|key| (*key).to_owned()).collect(),
            source: found.source.to_owned(),
        })
        .collect();
    if found.is_empty() {
        let mut classes: Vec<&str> = interfaces.of_class("").map(|(_, found)| found.class).collect();
        classes.dedup();
        let near = nearest(&class, classes.iter().copied());
        return Err(Refusal::NotFound { what: "interface class", name: class, nearest: near }.into());
    }
    Ok(pb::ListInterfacesResponse { interfaces: found })
}
