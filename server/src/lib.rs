//! The service: configuration, listeners, calls. Everything that decides about parts is in the engine.

pub mod ops;
pub mod rpc;

use std::future::Future;
use std::sync::Arc;
use std::time::Duration;

use anyhow::Context;
use sprag_catalogue::store::{Options, Store};
use sprag_catalogue::{Catalogue, Event};
use sprag_proto::v1::catalogue_service_server::CatalogueServiceServer;
use sprag_proto::v1::compatibility_service_server::CompatibilityServiceServer;
use tokio::net::TcpListener;
use tokio_stream::wrappers::TcpListenerStream;
use tonic::transport::Server;
use tonic_health::ServingStatus;
use tonic_health::server::HealthReporter;

use ops::config::Config;
use ops::metrics::{Trouble, store_trouble};
use ops::observe::Observe;
use ops::operations::State;
use rpc::catalogue::CatalogueRpc;
use rpc::compatibility::Compatibility;

/// Where a service listens.
#[derive(Debug)]
pub struct Listeners {
    /// For requests.
    pub service: TcpListener,
    /// For probes and metrics.
    pub operations: Option<TcpListener>,
}

impl From<TcpListener> for Listeners {
    fn from(service: TcpListener) -> Self {
        Self { service, operations: None }
    }
}

/// Serves until shutdown, then drains. Tests start this with a listener on port 0.
///
/// Health tells SERVING only once the catalogue is loaded and verified; until then calls are answered UNAVAILABLE.
///
/// # Errors
/// The store cannot be opened, or the listener fails.
pub async fn run(
    config: Config,
    listeners: impl Into<Listeners>,
    shutdown: impl Future<Output = ()> + Send + 'static,
) -> anyhow::Result<()> {
    let limits = config.limits();
    let shared = rpc::Shared::new(limits);
    let (health, health_service) = tonic_health::server::health_reporter();
    set_serving(&health, ServingStatus::NotServing).await;
    let readiness = shared.readiness.clone();
    let Listeners { service: listener, operations } = listeners.into();
    let address = listener.local_addr()?;
    tracing::info!(%address, "listening");
    // Probes are answered until the very end; dropping the set ends them.
    let mut answering_probes = tokio::task::JoinSet::new();
    if let Some(operations) = operations {
        answering_probes.spawn(ops::operations::serve(operations, shared.clone()));
    }

    let loading = tokio::task::spawn_blocking({
        let config = config.clone();
        move || open(&config)
    });
    let (stop, stopped) = tokio::sync::watch::channel(false);
    let served = {
        let mut stopped = stopped.clone();
        let reflection = |version_one: bool| {
            let builder = tonic_reflection::server::Builder::configure()
                .register_encoded_file_descriptor_set(sprag_proto::DESCRIPTORS)
                .register_encoded_file_descriptor_set(tonic_health::pb::FILE_DESCRIPTOR_SET);
            (builder, version_one)
        };
        let (v1, v1alpha) = (reflection(true).0.build_v1()?, reflection(false).0.build_v1alpha()?);
        let compatibility = CompatibilityServiceServer::new(Compatibility::new(shared.clone()))
            .max_decoding_message_size(limits.message_bytes);
        let catalogue = CatalogueServiceServer::new(CatalogueRpc::new(shared.clone()))
            .max_decoding_message_size(limits.message_bytes);
        let observe = Observe::new(shared.clone(), Duration::from_millis(config.slow_ms));
        Server::builder()
            .layer(observe)
            .add_service(health_service)
            .add_service(v1)
            .add_service(v1alpha)
            .add_service(compatibility)
            .add_service(catalogue)
            .serve_with_incoming_shutdown(TcpListenerStream::new(listener), async move {
                let _ = stopped.wait_for(|stop| *stop).await;
            })
    };
    let mut served = std::pin::pin!(tokio::spawn(served));
    let mut shutdown = std::pin::pin!(shutdown);

    let catalogue = tokio::select! {
        loaded = loading => loaded.context("loading the catalogue broke off")??,
        () = &mut shutdown => {
            // Nothing was acknowledged yet; the store closes by itself when loading ends.
            return Ok(());
        }
        ended = &mut served => return Ok(ended.context("the listener broke off")??),
    };
    let catalogue = Arc::new(catalogue);
    shared.set_catalogue(catalogue.clone());
    set_serving(&health, ServingStatus::Serving).await;
    readiness.set(State::Serving);
    tracing::info!(revision = catalogue.view().snapshot.revision().revision, "serving");

    tokio::select! {
        () = shutdown => {}
        ended = &mut served => return Ok(ended.context("the listener broke off")??),
    }
    readiness.set(State::Draining);
    set_serving(&health, ServingStatus::NotServing).await;
    tracing::info!("shutting down");
    let _ = stop.send(true);
    // Open streams can keep a graceful shutdown alive for ever, so it is raced against a deadline.
    if tokio::time::timeout(Duration::from_secs(config.drain_seconds), &mut served).await.is_err() {
        tracing::warn!("some calls did not end in time");
        served.abort();
    }
    answering_probes.shutdown().await;
    drop(shared);
    close(catalogue).await
}

/// Closes the store in order, once nothing uses it any more.
async fn close(catalogue: Arc<Catalogue>) -> anyhow::Result<()> {
    let mut catalogue = catalogue;
    for _ in 0..50 {
        match Arc::try_unwrap(catalogue) {
            Ok(alone) => {
                tokio::task::spawn_blocking(move || alone.close()).await.context("closing broke off")??;
                return Ok(());
            }
            Err(shared) => catalogue = shared,
        }
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
    // What is acknowledged is durable all the same; the next start examines the store.
    tracing::warn!("the store is still in use and was not closed in order");
    Ok(())
}

fn open(config: &Config) -> anyhow::Result<Catalogue> {
    let options = Options { trial: ops::command::trial_command() };
    let store = Store::open(&config.data, &options, &tell)?;
    Ok(Catalogue::load(store, |trouble| {
        store_trouble(Trouble::Copy);
        tracing::warn!("a copy could not be written: {trouble}");
    })?)
}

/// Events of opening: what was lost or could not be read is an error, the rest a warning.
fn tell(event: Event) {
    if event.is_grave() {
        store_trouble(Trouble::Opening);
        tracing::error!("{event}");
    } else {
        tracing::warn!("{event}");
    }
}

async fn set_serving(health: &HealthReporter, status: ServingStatus) {
    let services =
        ["", "sprag.v1.CompatibilityService", "sprag.v1.CatalogueService", "grpc.health.v1.Health"];
    for service in services {
        health.set_service_status(service, status).await;
    }
}
