//! The connection, and errors in words.

use std::time::Duration;

use anyhow::Context;
use sprag_proto::v1::catalogue_service_client::CatalogueServiceClient;
use sprag_proto::v1::compatibility_service_client::CompatibilityServiceClient;
use tonic::transport::{Channel, Endpoint};
use tonic_types::StatusExt;

/// Largest answer taken, in bytes.
const ANSWER_MAX: usize = 64 << 20;

/// Where the service is, and how long to wait for it. Nothing connects before the files of a question are read.
pub struct Service {
    /// Its address.
    pub server: String,
    /// Seconds to wait for an answer.
    pub timeout: u64,
}

impl Service {
    /// A request that tells the service how long the caller waits.
    pub fn request<T>(&self, message: T) -> tonic::Request<T> {
        let mut request = tonic::Request::new(message);
        request.set_timeout(Duration::from_secs(self.timeout.max(1)));
        request
    }

    /// A client of the compatibility service.
    pub async fn compatibility(&self) -> anyhow::Result<CompatibilityServiceClient<Channel>> {
        let channel = channel(&self.server, self.timeout).await?;
        Ok(CompatibilityServiceClient::new(channel).max_decoding_message_size(ANSWER_MAX))
    }

    /// A client of the catalogue service; moving whole files may take as long as it takes.
    pub async fn catalogue(&self, whole_files: bool) -> anyhow::Result<CatalogueServiceClient<Channel>> {
        let timeout = if whole_files { self.timeout.max(3600) } else { self.timeout };
        let channel = channel(&self.server, timeout).await?;
        Ok(CatalogueServiceClient::new(channel).max_decoding_message_size(ANSWER_MAX))
    }
}

/// Connects; every call has a deadline.
async fn channel(server: &str, timeout: u64) -> anyhow::Result<Channel> {
    let endpoint = Endpoint::from_shared(server.to_owned())
        .with_context(|| format!("{server:?} is no address, such as http://127.0.0.1:50061"))?
        .connect_timeout(Duration::from_secs(5))
        // The service is told the deadline with each request; this is only for one that does not answer at all.
        .timeout(Duration::from_secs(timeout.max(1).saturating_add(5)));
    endpoint.connect().await.with_context(|| {
        format!("no service answers at {server}; start spragd, or choose another with --server")
    })
}

/// An error in words: of a service, every fault with its place.
pub fn explain(error: &anyhow::Error) -> String {
    let Some(status) = error.downcast_ref::<tonic::Status>() else { return format!("{error:#}") };
    let faults = status.get_details_bad_request().map(|details| details.field_violations).unwrap_or_default();
    if faults.is_empty() {
        return format!("the service answers {:?}: {}", status.code(), status.message());
    }
    let mut text = format!("the service refuses the request ({:?}):", status.code());
    for fault in faults {
        let place = if fault.field.is_empty() { "request".to_owned() } else { fault.field };
        text.push_str(&format!("\n  {place}: {}", fault.description));
    }
    text
}
