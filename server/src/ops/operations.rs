//! The operations listener: plaintext HTTP for probes and scrapers. It tells how the service is, never what it knows.
//!
//! `/livez` answers 200 while the process runs, `/readyz` 200 while requests are answered and 503 while the catalogue
//! loads or the service drains, `/metrics` the metrics as text.

use std::convert::Infallible;
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, Ordering};
use std::time::Duration;

use http_body_util::Full;
use hyper::body::{Bytes, Incoming};
use hyper::header::{ALLOW, CONTENT_TYPE, HeaderValue};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

use crate::rpc::Shared;

/// Connections at a time; further ones wait to be accepted.
const CONNECTIONS_MAX: usize = 32;
/// A connection that takes longer is ended.
const PATIENCE: Duration = Duration::from_secs(10);
/// Largest head of a request.
const HEAD_BYTES_MAX: usize = 16 << 10;

/// Whether requests are answered, for whoever asks.
#[derive(Clone, Debug, Default)]
pub struct Readiness(Arc<AtomicU8>);

/// States of a service.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// The catalogue is being loaded.
    Loading,
    /// Requests are answered.
    Serving,
    /// Requests under way end, new ones go elsewhere.
    Draining,
}

impl Readiness {
    /// Changes the state.
    pub fn set(&self, state: State) {
        self.0.store(state as u8, Ordering::Release);
    }

    /// The state.
    pub fn get(&self) -> State {
        match self.0.load(Ordering::Acquire) {
            0 => State::Loading,
            1 => State::Serving,
            _ => State::Draining,
        }
    }
}

/// Answers probes and scrapers until it is dropped.
pub async fn serve(listener: TcpListener, shared: Shared) {
    let places = Arc::new(Semaphore::new(CONNECTIONS_MAX));
    loop {
        // The semaphore is never closed.
        let Ok(place) = places.clone().acquire_owned().await else { return };
        let connection = match listener.accept().await {
            Ok((connection, _)) => connection,
            Err(error) => {
                tracing::warn!("operations: a connection could not be accepted: {error}");
                tokio::time::sleep(Duration::from_millis(100)).await;
                continue;
            }
        };
        let shared = shared.clone();
        tokio::spawn(async move {
            let _place = place;
            let answering = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(PATIENCE)
                .max_buf_size(HEAD_BYTES_MAX)
                .keep_alive(false)
                .serve_connection(
                    TokioIo::new(connection),
                    service_fn(move |request| {
                        let answer = answer(&request, &shared);
                        async move { Ok::<_, Infallible>(answer) }
                    }),
                );
            // A connection that breaks off is no concern of ours.
            let _ = tokio::time::timeout(PATIENCE, answering).await;
        });
    }
}

fn answer(request: &Request<Incoming>, shared: &Shared) -> Response<Full<Bytes>> {
    const PLAIN: &str = "text/plain; charset=utf-8";
    if request.method() != Method::GET && request.method() != Method::HEAD {
        let mut refused = text(StatusCode::METHOD_NOT_ALLOWED, PLAIN, "only GET and HEAD\n".to_owned());
        refused.headers_mut().insert(ALLOW, HeaderValue::from_static("GET, HEAD"));
        return refused;
    }
    match request.uri().path() {
        "/livez" => text(StatusCode::OK, PLAIN, "alive\n".to_owned()),
        "/readyz" => match shared.readiness.get() {
            State::Serving => text(StatusCode::OK, PLAIN, "serving\n".to_owned()),
            State::Loading => {
                text(StatusCode::SERVICE_UNAVAILABLE, PLAIN, "the catalogue is being loaded\n".to_owned())
            }
            State::Draining => text(StatusCode::SERVICE_UNAVAILABLE, PLAIN, "draining\n".to_owned()),
        },
        "/metrics" => {
            let view = shared.view();
            let page = shared.metrics.write(view.as_ref(), shared.readiness.get() == State::Serving);
            text(StatusCode::OK, "text/plain; version=0.0.4; charset=utf-8", page)
        }
        _ => text(StatusCode::NOT_FOUND, PLAIN, "one of /livez, /readyz, /metrics\n".to_owned()),
    }
}

fn text(status: StatusCode, kind: &'static str, body: String) -> Response<Full<Bytes>> {
    let mut response = Response::new(Full::new(Bytes::from(body)));
    *response.status_mut() = status;
    response.headers_mut().insert(CONTENT_TYPE, HeaderValue::from_static(kind));
    response
}
