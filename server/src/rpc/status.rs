//! The only place where a Status is made.

use sprag_catalogue::{ReadError, WriteError};
use sprag_proto::text::Fault;
use tonic::{Code, Status};
use tonic_types::{ErrorDetails, StatusExt};

/// The domain of ErrorInfo.
const DOMAIN: &str = "sprag.v1";
/// Faults that the details of an error carry; the message counts them all.
const VIOLATIONS_MAX: usize = 20;
/// Bytes of all violations together: common clients refuse headers over 8 KiB.
const VIOLATION_BYTES_MAX: usize = 3_000;
/// Characters of a text that came from the caller, as errors repeat it.
const REPEATED_MAX: usize = 160;

/// Why a request cannot be answered.
#[derive(Debug)]
pub enum Refusal {
    /// Faults of the request, all of them.
    Invalid(Vec<Fault>),
    /// Parts that the catalogue does not know: where, scheme, number, near spelling.
    UnknownParts(Vec<Fault>),
    /// A thing that is not there.
    NotFound {
        /// What it is, such as "rule".
        what: &'static str,
        /// The name that was asked for.
        name: String,
        /// The nearest name.
        nearest: Option<String>,
    },
    /// The catalogue is older than asked for.
    Stale {
        /// The revision asked for.
        wanted: i64,
        /// The revision that is there.
        found: i64,
    },
    /// The store could not write.
    Write(WriteError),
    /// The store could not read.
    Read(ReadError),
    /// The search was stopped by the server.
    Stopped,
}

impl From<Vec<Fault>> for Refusal {
    fn from(faults: Vec<Fault>) -> Self {
        Self::Invalid(faults)
    }
}

impl From<Refusal> for Status {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Invalid(faults) => faulty(Code::InvalidArgument, "INVALID_REQUEST", &faults),
            Refusal::UnknownParts(faults) => faulty(Code::NotFound, "UNKNOWN_PART", &faults),
            Refusal::NotFound { what, name, nearest } => not_found(what, &name, nearest),
            Refusal::Stale { wanted, found } => {
                let text = format!("revision {wanted} is wanted, the catalogue is at {found}");
                let mut details =
                    info("REVISION_TOO_OLD", [("wanted", wanted.to_string()), ("found", found.to_string())]);
                details.add_precondition_failure_violation("REVISION", "catalogue", &text);
                Self::with_error_details(Code::FailedPrecondition, text, details)
            }
            Refusal::Write(error) => {
                let code = match error {
                    WriteError::Sku { .. }
                    | WriteError::TooLarge { .. }
                    | WriteError::Gtin { .. }
                    | WriteError::DuplicateGtin { .. }
                    | WriteError::ShelfEntry { .. } => Code::InvalidArgument,
                    WriteError::RequestReused { .. } => Code::AlreadyExists,
                    _ if error.retryable() => Code::Unavailable,
                    _ => Code::Internal,
                };
                plain(code, "STORE_WRITE_FAILED", &error.to_string())
            }
            Refusal::Read(error) => plain(Code::Internal, "STORE_READ_FAILED", &error.to_string()),
            Refusal::Stopped => {
                plain(Code::Cancelled, "STOPPED", "the search was stopped before it found anything")
            }
        }
    }
}

/// The catalogue is not loaded yet.
pub fn not_loaded() -> Status {
    let mut details = info("NOT_LOADED", []);
    details.set_retry_info(Some(std::time::Duration::from_secs(1)));
    Status::with_error_details(Code::Unavailable, "the catalogue is still being loaded", details)
}

fn info<const N: usize>(reason: &str, metadata: [(&str, String); N]) -> ErrorDetails {
    let metadata: std::collections::HashMap<String, String> =
        metadata.into_iter().map(|(key, value)| (key.to_owned(), value)).collect();
    ErrorDetails::with_error_info(reason, DOMAIN, metadata)
}

fn plain(code: Code, reason: &str, text: &str) -> Status {
    Status::with_error_details(code, text, info(reason, []))
}

fn faulty(code: Code, reason: &str, faults: &[Fault]) -> Status {
    let first = faults.first().map(|fault| short(&fault.to_string())).unwrap_or_default();
    let text = match faults.len() {
        0 | 1 => first.clone(),
        more => format!("{first} (and {} more)", more - 1),
    };
    let mut metadata = std::collections::HashMap::new();
    if let Some(fault) = faults.first() {
        metadata.insert("path".to_owned(), short(&fault.path));
        metadata.insert("found".to_owned(), short(&fault.found));
        if let Some(nearest) = &fault.nearest {
            metadata.insert("nearest".to_owned(), nearest.clone());
        }
    }
    let mut details = ErrorDetails::with_error_info(reason, DOMAIN, metadata);
    // Details travel in a header, whose size other ends limit.
    let mut bytes = 0;
    for fault in faults.iter().take(VIOLATIONS_MAX) {
        let nearest = fault
            .nearest
            .as_ref()
            .map(|nearest| format!("; did you mean \"{nearest}\"?"))
            .unwrap_or_default();
        let path = short(&fault.path);
        let text = format!("{}; {}{nearest}", short(&fault.found), short(&fault.wanted));
        bytes += path.len() + text.len();
        if bytes > VIOLATION_BYTES_MAX {
            break;
        }
        details.add_bad_request_violation(path, text);
    }
    Status::with_error_details(code, text, details)
}

fn short(text: &str) -> String {
    if text.chars().count() <= REPEATED_MAX {
        return text.to_owned();
    }
    let kept: String = text.chars().take(REPEATED_MAX).collect();
    format!("{kept} ...")
}

fn not_found(what: &'static str, name: &str, nearest: Option<String>) -> Status {
    let hint = nearest.as_ref().map(|nearest| format!("; did you mean \"{nearest}\"?")).unwrap_or_default();
    let text = format!("no {what} is called {name:?}{hint}");
    let mut details =
        info("NOT_FOUND", [("name", name.to_owned()), ("nearest", nearest.unwrap_or_default())]);
    details.set_resource_info(what, name, "", &text);
    Status::with_error_details(Code::NotFound, text, details)
}

/// A message of the stream came out of order.
pub fn out_of_order(text: &str) -> Status {
    plain(Code::InvalidArgument, "OUT_OF_ORDER", text)
}

/// The work itself failed; never expected.
pub fn broken(text: &str) -> Status {
    plain(Code::Internal, "BROKEN", text)
}

/// The same error as a message, for items of a batch.
pub fn as_message(status: &Status) -> sprag_proto::google::rpc::Status {
    let details = prost_types_any(status);
    sprag_proto::google::rpc::Status {
        code: status.code().into(),
        message: status.message().to_owned(),
        details,
    }
}

fn prost_types_any(status: &Status) -> Vec<prost_types::Any> {
    use prost::Message;
    // The details of a Status are an encoded google.rpc.Status.
    sprag_proto::google::rpc::Status::decode(status.details())
        .map(|decoded| decoded.details)
        .unwrap_or_default()
}
