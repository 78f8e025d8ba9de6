//! Every metric, defined once: what is exposed is held against this list.

/// What a metric is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Only grows.
    Counter,
    /// Goes up and down.
    Gauge,
    /// Counts by upper bounds.
    Histogram,
}

impl Kind {
    /// As the text format names it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Counter => "counter",
            Self::Gauge => "gauge",
            Self::Histogram => "histogram",
        }
    }
}

/// One metric.
#[derive(Debug)]
pub struct Definition {
    /// Its name; times are in seconds, sizes in bytes.
    pub name: &'static str,
    /// What it is.
    pub kind: Kind,
    /// Names of its labels.
    pub labels: &'static [&'static str],
    /// What it tells.
    pub help: &'static str,
}

const fn counter(name: &'static str, labels: &'static [&'static str], help: &'static str) -> Definition {
    Definition { name, kind: Kind::Counter, labels, help }
}

const fn gauge(name: &'static str, labels: &'static [&'static str], help: &'static str) -> Definition {
    Definition { name, kind: Kind::Gauge, labels, help }
}

/// Build.
pub const BUILD: Definition = gauge(
    "sprag_build_info",
    &["version", "ruleset"],
    "Always 1; its labels tell the version and the rules in use.",
);
/// Readiness.
pub const READY: Definition =
    gauge("sprag_ready", &[], "1 while requests are answered, 0 while loading or draining.");
/// Requests.
pub const REQUESTS: Definition =
    counter("sprag_requests_total", &["rpc", "code"], "Requests that ended, by gRPC code.");
/// Latency.
pub const SECONDS: Definition = Definition {
    name: "sprag_request_seconds",
    kind: Kind::Histogram,
    labels: &["rpc", "outcome"],
    help: "Time from the head of a request to the last byte of its answer, by outcome: ok, refused (the caller's fault), shed (try again later) or failed (the service's fault).",
};
/// In flight.
pub const IN_FLIGHT: Definition = gauge("sprag_requests_in_flight", &["rpc"], "Requests being answered.");
/// Slow.
pub const SLOW: Definition =
    counter("sprag_slow_requests_total", &["rpc"], "Requests over the threshold of the slow-request log.");
/// Refusals.
pub const REFUSALS: Definition = counter(
    "sprag_refusals_total",
    &["reason"],
    "Requests that ended in an error, by the reason of its ErrorInfo.",
);
/// Verdicts.
pub const VERDICTS: Definition = counter(
    "sprag_verdicts_total",
    &["verdict"],
    "Builds and baskets judged, by verdict; items of batches and streams count singly.",
);
/// Parts.
pub const PARTS: Definition = gauge("sprag_catalogue_parts", &[], "Parts of the published revision.");
/// Digest.
pub const CATALOGUE: Definition = gauge(
    "sprag_catalogue_info",
    &["digest"],
    "Always 1; its label tells the digest of the published revision, which is the same wherever the catalogue is.",
);
/// Revision.
pub const REVISION: Definition = gauge("sprag_catalogue_revision", &[], "Number of the published revision.");
/// When the revision changed.
pub const REVISION_CHANGED: Definition = gauge(
    "sprag_catalogue_changed_timestamp_seconds",
    &[],
    "When the revision was last seen to change, in Unix time; at first when the catalogue was loaded.",
);
/// Shelf sequence.
pub const SHELF: Definition = gauge("sprag_shelf_sequence", &[], "Sequence number of prices and stock.");
/// When the shelf changed.
pub const SHELF_CHANGED: Definition = gauge(
    "sprag_shelf_changed_timestamp_seconds",
    &[],
    "When prices or stock were last seen to change, in Unix time; at first when the catalogue was loaded.",
);
/// Store health.
pub const STORE_HEALTHY: Definition = gauge(
    "sprag_store_healthy",
    &[],
    "0 while no catalogue is loaded, or since the store last failed to read or write; 1 otherwise.",
);
/// Store trouble.
pub const STORE_TROUBLE: Definition = counter(
    "sprag_store_trouble_total",
    &["trouble"],
    "Trouble with the store: opening (damage found at start), copy (a checkpoint not written), write, read.",
);
/// Start.
pub const STARTED: Definition =
    gauge("process_start_time_seconds", &[], "When the process started, in Unix time.");
/// Memory.
pub const MEMORY: Definition =
    gauge("process_resident_memory_bytes", &[], "Memory of the process that is in use.");
/// Processor time.
pub const PROCESSOR: Definition =
    counter("process_cpu_seconds_total", &[], "Processor time that the process has used.");
/// Files.
pub const FILES: Definition = gauge("process_open_fds", &[], "Open files and connections.");

/// All of them, in the order in which they are written.
pub const ALL: [&Definition; 20] = [
    &BUILD,
    &READY,
    &REQUESTS,
    &SECONDS,
    &IN_FLIGHT,
    &SLOW,
    &REFUSALS,
    &VERDICTS,
    &PARTS,
    &CATALOGUE,
    &REVISION,
    &REVISION_CHANGED,
    &SHELF,
    &SHELF_CHANGED,
    &STORE_HEALTHY,
    &STORE_TROUBLE,
    &STARTED,
    &MEMORY,
    &PROCESSOR,
    &FILES,
];
