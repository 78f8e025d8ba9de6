//! The catalogue service: each call in a file of its own matter.

mod import;
mod interfaces;
mod page;
mod parts;
mod records;
mod shelf;

use sprag_catalogue::{Catalogue, View};
use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;
use sprag_proto::v1::catalogue_service_server::CatalogueService;
use tokio_stream::Stream;
use tonic::{Request, Response, Status, Streaming};

use super::Shared;
use super::status::{Refusal, broken, not_loaded};

/// Parts and shelf.
#[derive(Clone)]
pub struct CatalogueRpc {
    shared: Shared,
}

impl CatalogueRpc {
    /// The service over shared state.
    pub fn new(shared: Shared) -> Self {
        Self { shared }
    }

    fn view(&self) -> Result<View, Status> {
        self.shared.view().ok_or_else(not_loaded)
    }

    /// Runs blocking work on the catalogue off the async threads.
    async fn blocking<T: Send + 'static>(
        &self,
        work: impl FnOnce(&Catalogue) -> Result<T, Status> + Send + 'static,
    ) -> Result<T, Status> {
        self.shared.catalogue()?;
        let shared = self.shared.clone();
        tokio::task::spawn_blocking(move || work(shared.catalogue()?))
            .await
            .map_err(|_| broken("the work failed"))?
    }
}

fn invalid(path: impl Into<String>, found: impl Into<String>, wanted: impl Into<String>) -> Status {
    Refusal::Invalid(vec![Fault {
        path: path.into(),
        found: found.into(),
        wanted: wanted.into(),
        nearest: None,
    }])
    .into()
}

type Pieces = std::pin::Pin<Box<dyn Stream<Item = Result<pb::ExportPartsResponse, Status>> + Send>>;

#[tonic::async_trait]
impl CatalogueService for CatalogueRpc {
    type ExportPartsStream = Pieces;

    async fn import_parts(
        &self,
        request: Request<Streaming<pb::ImportPartsRequest>>,
    ) -> Result<Response<pb::ImportPartsResponse>, Status> {
        let answer = import::import_parts(self, request.into_inner()).await?;
        if answer.published {
            self.shared.metrics.store_wrote();
        }
        Ok(Response::new(answer))
    }

    async fn get_part(
        &self,
        request: Request<pb::GetPartRequest>,
    ) -> Result<Response<pb::GetPartResponse>, Status> {
        parts::get_part(&self.view()?, request.into_inner()).map(Response::new)
    }

    async fn list_parts(
        &self,
        request: Request<pb::ListPartsRequest>,
    ) -> Result<Response<pb::ListPartsResponse>, Status> {
        parts::list_parts(&self.view()?, &request.into_inner()).map(Response::new)
    }

    async fn export_parts(
        &self,
        _request: Request<pb::ExportPartsRequest>,
    ) -> Result<Response<Self::ExportPartsStream>, Status> {
        Ok(Response::new(parts::export_parts(self.view()?)))
    }

    async fn update_shelf(
        &self,
        request: Request<pb::UpdateShelfRequest>,
    ) -> Result<Response<pb::UpdateShelfResponse>, Status> {
        let entries = shelf::read_shelf(&request.into_inner(), &self.view()?)?;
        let sequence = self
            .blocking(move |catalogue| {
                catalogue.update_shelf(&entries).map_err(|error| Refusal::Write(error).into())
            })
            .await?;
        let shelf_sequence = i64::try_from(sequence).unwrap_or(i64::MAX);
        self.shared.metrics.store_wrote();
        Ok(Response::new(pb::UpdateShelfResponse { shelf_sequence }))
    }

    async fn list_interfaces(
        &self,
        request: Request<pb::ListInterfacesRequest>,
    ) -> Result<Response<pb::ListInterfacesResponse>, Status> {
        interfaces::list_interfaces(&self.view()?, request.into_inner()).map(Response::new)
    }

    async fn list_records(
        &self,
        request: Request<pb::ListRecordsRequest>,
    ) -> Result<Response<pb::ListRecordsResponse>, Status> {
        records::list_records(&self.view()?, request.get_ref()).map(Response::new)
    }

    async fn update_records(
        &self,
        request: Request<pb::UpdateRecordsRequest>,
    ) -> Result<Response<pb::UpdateRecordsResponse>, Status> {
        let request = request.into_inner();
        let updated = self.blocking(move |catalogue| records::update_records(catalogue, &request));
        updated.await.map(Response::new)
    }

    async fn get_revision(
        &self,
        _request: Request<pb::GetRevisionRequest>,
    ) -> Result<Response<pb::GetRevisionResponse>, Status> {
        let view = self.view()?;
        Ok(Response::new(pb::GetRevisionResponse {
            revision: Some(view.snapshot.revision().clone()),
            basis: Some(super::basis::basis(&view, None)),
        }))
    }
}
