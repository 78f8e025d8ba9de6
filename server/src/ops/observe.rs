//! Every request, observed: its id, its time and its outcome, in metrics, logs and traces; never what it says.

use std::pin::Pin;
use std::sync::LazyLock;
use std::sync::atomic::{AtomicU64, Ordering};
use std::task::{Context, Poll};
use std::time::{Duration, Instant};

use tonic::body::Body;
use tonic::codegen::http::{HeaderMap, HeaderValue, Request, Response};
use tonic::codegen::{Bytes, Service};
use tonic::{Code, Status};
use tonic_types::StatusExt;
use tower_layer::Layer;
use tracing::Span;

use super::metrics::{Outcome, Rpc};
use crate::rpc::Shared;

/// Metadata that carries the id of a request, in both directions.
pub const REQUEST_ID: &str = "x-request-id";
/// Longest id that is taken from a caller.
const ID_MAX: usize = 64;

/// Observes every request of a server.
#[derive(Clone)]
pub struct Observe {
    shared: Shared,
    /// Requests that take longer are told; zero = none.
    slow: Duration,
}

impl Observe {
    /// Over shared state; requests that take longer than `slow` are told, zero = none.
    pub fn new(shared: Shared, slow: Duration) -> Self {
        Self { shared, slow }
    }
}

impl<S> Layer<S> for Observe {
    type Service = Observed<S>;

    fn layer(&self, inner: S) -> Self::Service {
        Observed { observe: self.clone(), inner }
    }
}

/// A service whose requests are observed.
#[derive(Clone)]
pub struct Observed<S> {
    observe: Observe,
    inner: S,
}

impl<S> Service<Request<Body>> for Observed<S>
where
    S: Service<Request<Body>, Response = Response<Body>>,
    S::Future: Send + 'static,
    S::Error: 'static,
{
    type Response = Response<Body>;
    type Error = S::Error;
    type Future = Pin<Box<dyn Future<Output = Result<Response<Body>, S::Error>> + Send>>;

    fn poll_ready(&mut self, context: &mut Context<'_>) -> Poll<Result<(), Self::Error>> {
        self.inner.poll_ready(context)
    }

    fn call(&mut self, request: Request<Body>) -> Self::Future {
        let mut running = Running::begin(&self.observe, &request);
        let span = running.span.clone();
        // The work of a call happens as its future is polled; tracing's own wrapper would enter the span there too.
        let answer = tracing::Instrument::instrument(self.inner.call(request), span);
        Box::pin(async move {
            let (mut head, body) = answer.await?.into_parts();
            head.headers.insert(REQUEST_ID, running.id.clone());
            // An answer without a body carries its status in its head.
            if head.headers.contains_key(Status::GRPC_STATUS) {
                running.end_with(&mut head.headers);
                return Ok(Response::from_parts(head, body));
            }
            Ok(Response::from_parts(head, Body::new(Watched { body, running })))
        })
    }
}

/// A request that is being answered. Dropped before its end, it was cancelled.
struct Running {
    shared: Shared,
    slow: Duration,
    rpc: Rpc,
    id: HeaderValue,
    began: Instant,
    span: Span,
    ended: bool,
}

impl Running {
    fn begin<B>(observe: &Observe, request: &Request<B>) -> Self {
        let metrics = &observe.shared.metrics;
        let rpc = metrics.rpc(request.uri().path());
        let id = request.headers().get(REQUEST_ID).filter(|id| is_sane(id)).cloned().unwrap_or_else(make_id);
        let span = tracing::info_span!(
            "request",
            rpc = metrics.name(rpc),
            request_id = id.to_str().unwrap_or_default(),
            code = tracing::field::Empty
        );
        metrics.began(rpc);
        let (shared, slow) = (observe.shared.clone(), observe.slow);
        Self { shared, slow, rpc, id, began: Instant::now(), span, ended: false }
    }

    /// The end, as headers or trailers tell it; errors are given the id of the request.
    fn end_with(&mut self, headers: &mut HeaderMap) {
        match headers.get(Status::GRPC_STATUS).map(|code| Code::from_bytes(code.as_bytes())) {
            Some(Code::Ok) => self.end(Code::Ok, ""),
            _ => {
                let status = Status::from_header_map(headers).unwrap_or_else(|| Status::unknown("no status"));
                let mut details = status.get_error_details();
                let reason = details
                    .error_info()
                    .map_or_else(String::new, |info| info.reason.chars().take(64).collect());
                self.end(status.code(), &reason);
                details.set_request_info(self.id.to_str().unwrap_or_default(), "");
                let named = Status::with_error_details(status.code(), status.message(), details);
                // What cannot be written leaves the error as it was.
                let _ = named.add_header(headers);
            }
        }
    }

    fn end(&mut self, code: Code, reason: &str) {
        if std::mem::replace(&mut self.ended, true) {
            return;
        }
        let taken = self.began.elapsed();
        let metrics = &self.shared.metrics;
        metrics.ended(self.rpc, code, taken);
        let outcome = Outcome::of(code);
        if code != Code::Ok {
            metrics.refused(if reason.is_empty() { "NONE" } else { reason }, code);
        }
        if !self.slow.is_zero() && taken > self.slow {
            metrics.slow(self.rpc);
            self.tell(code, reason, taken, Level::Slow);
        } else if outcome == Outcome::Failed {
            self.tell(code, reason, taken, Level::Failed);
        } else if tracing::enabled!(target: "request", tracing::Level::DEBUG) {
            self.tell(code, reason, taken, Level::Plain);
        }
        self.span.record("code", tracing::field::debug(code));
    }

    /// A line of the log; whatever a caller chose is left out of it, but for the id.
    fn tell(&self, code: Code, reason: &str, taken: Duration, level: Level) {
        let rpc = self.shared.metrics.name(self.rpc);
        let request_id = self.id.to_str().unwrap_or_default();
        let milliseconds = taken.as_secs_f64() * 1e3;
        let revision = self.shared.revision();
        macro_rules! tell {
            ($level:ident, $text:literal) => {
                tracing::$level!(target: "request", parent: None, rpc, request_id, ?code, reason, milliseconds, revision, $text)
            };
        }
        match level {
            Level::Plain => tell!(debug, "request ended"),
            Level::Slow => tell!(warn, "slow request"),
            Level::Failed => tell!(error, "request failed"),
        }
    }
}

#[derive(Clone, Copy)]
enum Level {
    Plain,
    Slow,
    Failed,
}

impl Drop for Running {
    fn drop(&mut self) {
        // A caller that went away, or a limit outside of us that gave up waiting.
        self.end(Code::Cancelled, "");
    }
}

/// The body of an answer, whose end is the end of the request.
struct Watched {
    body: Body,
    running: Running,
}

impl http_body::Body for Watched {
    type Data = Bytes;
    type Error = Status;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<http_body::Frame<Bytes>, Status>>> {
        let watched = &mut *self;
        let polled = {
            let _inside = watched.running.span.enter();
            Pin::new(&mut watched.body).poll_frame(context)
        };
        match polled {
            Poll::Ready(Some(Ok(mut frame))) => {
                if let Some(trailers) = frame.trailers_mut() {
                    watched.running.end_with(trailers);
                }
                Poll::Ready(Some(Ok(frame)))
            }
            Poll::Ready(Some(Err(error))) => {
                watched.running.end(error.code(), "");
                Poll::Ready(Some(Err(error)))
            }
            ended => ended,
        }
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> http_body::SizeHint {
        self.body.size_hint()
    }
}

/// An id that may be repeated in logs and headers: letters, digits, '-', '_' and '.', at most 64.
fn is_sane(id: &HeaderValue) -> bool {
    let sane = |byte: &u8| byte.is_ascii_alphanumeric() || b"-_.".contains(byte);
    (1..=ID_MAX).contains(&id.len()) && id.as_bytes().iter().all(sane)
}

/// A new id: 16 hexadecimal digits, different for each request of this process and, in all likelihood, of any other.
fn make_id() -> HeaderValue {
    use std::hash::{BuildHasher, RandomState};
    static START: LazyLock<u64> = LazyLock::new(|| RandomState::new().hash_one("start"));
    static NEXT: AtomicU64 = AtomicU64::new(0);
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    // A multiplication by an odd number and a shift mix the count without two counts ever meeting.
    let count = START.wrapping_add(NEXT.fetch_add(1, Ordering::Relaxed)).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    let mixed = (count ^ (count >> 32)).wrapping_mul(0xd6e8_feb8_6659_fd93);
    let mut digits = [0_u8; 16];
    for (place, digit) in digits.iter_mut().enumerate() {
        *digit = DIGITS[(mixed >> (60 - 4 * place) & 15) as usize];
    }
    HeaderValue::from_bytes(&digits).unwrap_or_else(|_| HeaderValue::from_static("unknown"))
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn made_ids_are_sane_and_differ() {
        let made: HashSet<HeaderValue> = (0..10_000).map(|_| make_id()).collect();
        assert_eq!(made.len(), 10_000);
        assert!(made.iter().all(|id| is_sane(id) && id.len() == 16));
    }

    #[test]
    fn ids_that_could_upset_a_log_are_not_taken() {
        let value = |text: &str| HeaderValue::from_str(text).expect("a header");
        assert!(is_sane(&value("till-4_2026.11")));
        for bad in ["", "two words", "a\"b", "é", &"x".repeat(65)] {
            assert!(!is_sane(&value(bad)), "{bad:?}");
        }
    }
}
