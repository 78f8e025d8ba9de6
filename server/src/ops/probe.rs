//! Asks a running service whether it is ready, for health checks of containers.

use std::process::ExitCode;
use std::time::Duration;

use anyhow::Context;
use http_body_util::Empty;
use hyper::body::Bytes;
use hyper::{Request, Uri};
use hyper_util::rt::TokioIo;
use tokio::net::TcpStream;
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;

/// A probe that takes longer has failed.
const PATIENCE: Duration = Duration::from_secs(3);

/// Asks once: an address with a path, such as "http://127.0.0.1:50062/readyz", by plain HTTP on the operations listener,
/// one without by the gRPC health protocol. The exit status is 0 when it is ready.
pub fn probe(server: &str) -> ExitCode {
    let asked = async {
        tokio::time::timeout(PATIENCE, ask(server))
            .await
            .map_err(|_| anyhow::anyhow!("nothing came within {} seconds", PATIENCE.as_secs()))?
    };
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    match runtime.map_err(anyhow::Error::from).and_then(|runtime| runtime.block_on(asked)) {
        Ok(None) => ExitCode::SUCCESS,
        Ok(Some(other)) => {
            eprintln!("{server} answers {other}");
            ExitCode::FAILURE
        }
        Err(error) => {
            eprintln!("{server} does not answer: {error:#}");
            ExitCode::FAILURE
        }
    }
}

/// Nothing when it is ready, else what it answers.
async fn ask(server: &str) -> anyhow::Result<Option<String>> {
    let address: Uri = server.parse()?;
    if address.path().trim_matches('/').is_empty() { by_grpc(server).await } else { by_http(address).await }
}

async fn by_grpc(server: &str) -> anyhow::Result<Option<String>> {
    let endpoint = tonic::transport::Endpoint::from_shared(server.to_owned())?;
    let mut client = HealthClient::new(endpoint.connect().await?);
    let answer = client.check(HealthCheckRequest { service: String::new() }).await?;
    let status = answer.into_inner().status();
    Ok((status != ServingStatus::Serving).then(|| status.as_str_name().to_owned()))
}

async fn by_http(address: Uri) -> anyhow::Result<Option<String>> {
    let authority = address.authority().context("an address needs a host and a port")?.clone();
    anyhow::ensure!(address.scheme_str() == Some("http"), "the operations listener speaks plain http only");
    let stream = TcpStream::connect(authority.as_str()).await?;
    let (mut sender, connection) = hyper::client::conn::http1::handshake(TokioIo::new(stream)).await?;
    tokio::spawn(connection);
    let request =
        Request::get(address.path()).header("host", authority.as_str()).body(Empty::<Bytes>::new())?;
    let status = sender.send_request(request).await?.status();
    Ok((!status.is_success()).then(|| status.to_string()))
}
