//! What an operator can measure: counted while requests are answered, read on the operations listener.

pub mod definitions;
mod histogram;
mod process;
mod text;

use std::collections::{BTreeMap, HashMap};
use std::sync::atomic::{AtomicBool, AtomicI64, AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use sprag_catalogue::View;
use sprag_engine::fit::registry::RULESET_VERSION;
use sprag_proto::v1 as pb;
use tonic::Code;

use definitions as defined;
use histogram::Histogram;
use text::Page;

/// RPCs beside our own that are counted by name; whatever else is called counts as "other".
const STANDARD: [&str; 2] = ["grpc.health.v1.Health/Check", "grpc.health.v1.Health/Watch"];
/// Different reasons that are counted; further ones count as "OTHER".
const REASONS_MAX: usize = 64;

/// How a request ended, as an operator sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Answered.
    Ok,
    /// The caller's fault, or its wish.
    Refused,
    /// To be tried again later.
    Shed,
    /// The service's fault.
    Failed,
}

impl Outcome {
    const ALL: [Self; 4] = [Self::Ok, Self::Refused, Self::Shed, Self::Failed];

    /// The outcome of a code.
    pub fn of(code: Code) -> Self {
        match code {
            Code::Ok => Self::Ok,
            Code::ResourceExhausted | Code::Unavailable => Self::Shed,
            Code::Unknown | Code::Internal | Code::DataLoss | Code::DeadlineExceeded => Self::Failed,
            _ => Self::Refused,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Refused => "refused",
            Self::Shed => "shed",
            Self::Failed => "failed",
        }
    }
}

/// Trouble with the store.
#[derive(Clone, Copy, Debug)]
pub enum Trouble {
    /// Damage was found when it was opened.
    Opening,
    /// A checkpoint could not be written.
    Copy,
    /// Something could not be written.
    Write,
    /// Something could not be read.
    Read,
}

impl Trouble {
    const ALL: [Self; 4] = [Self::Opening, Self::Copy, Self::Write, Self::Read];

    fn name(self) -> &'static str {
        match self {
            Self::Opening => "opening",
            Self::Copy => "copy",
            Self::Write => "write",
            Self::Read => "read",
        }
    }
}

/// Trouble with the store is told by functions without a state of their own, so it is counted for the whole process.
static TROUBLE: [AtomicU64; Trouble::ALL.len()] = [const { AtomicU64::new(0) }; Trouble::ALL.len()];

/// Counts trouble with the store.
pub fn store_trouble(trouble: Trouble) {
    TROUBLE[trouble as usize].fetch_add(1, Ordering::Relaxed);
}

/// One RPC, as a place in the table of RPCs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rpc(usize);

#[derive(Debug, Default)]
struct Counts {
    name: String,
    codes: [AtomicU64; 17],
    seconds: [Histogram; Outcome::ALL.len()],
    in_flight: AtomicI64,
    slow: AtomicU64,
}

/// A number with the moment at which it was first seen.
#[derive(Debug, Default)]
struct Seen {
    number: Option<i64>,
    at: u64,
}

impl Seen {
    fn since(&mut self, number: i64) -> u64 {
        if self.number != Some(number) {
            *self = Self { number: Some(number), at: unix(SystemTime::now()) };
        }
        self.at
    }
}

/// Everything that is counted.
#[derive(Debug)]
pub struct Metrics {
    rpcs: Vec<Counts>,
    by_path: HashMap<String, Rpc>,
    verdicts: [AtomicU64; 6],
    reasons: Mutex<BTreeMap<String, u64>>,
    store_failed: AtomicBool,
    revision: Mutex<Seen>,
    shelf: Mutex<Seen>,
    started: u64,
}

impl Default for Metrics {
    fn default() -> Self {
        let ours = sprag_proto::POOL.services().filter(|service| service.full_name().starts_with("sprag."));
        let methods = ours.flat_map(|service| {
            let methods: Vec<String> = service
                .methods()
                .map(|method| format!("{}/{}", service.full_name(), method.name()))
                .collect();
            methods
        });
        let names: Vec<String> =
            methods.chain(STANDARD.map(str::to_owned)).chain(["other".to_owned()]).collect();
        Self {
            by_path: names.iter().enumerate().map(|(place, name)| (format!("/{name}"), Rpc(place))).collect(),
            rpcs: names.into_iter().map(|name| Counts { name, ..Counts::default() }).collect(),
            verdicts: Default::default(),
            reasons: Mutex::default(),
            store_failed: AtomicBool::new(false),
            revision: Mutex::default(),
            shelf: Mutex::default(),
            started: unix(SystemTime::now()),
        }
    }
}

impl Metrics {
    /// The RPC of a path such as "/sprag.v1.CompatibilityService/Check".
    pub fn rpc(&self, path: &str) -> Rpc {
        self.by_path.get(path).copied().unwrap_or(Rpc(self.rpcs.len() - 1))
    }

    /// The name of an RPC.
    pub fn name(&self, rpc: Rpc) -> &str {
        &self.rpcs[rpc.0].name
    }

    /// A request began.
    pub fn began(&self, rpc: Rpc) {
        self.rpcs[rpc.0].in_flight.fetch_add(1, Ordering::Relaxed);
    }

    /// A request ended.
    pub fn ended(&self, rpc: Rpc, code: Code, taken: Duration) {
        let counts = &self.rpcs[rpc.0];
        counts.in_flight.fetch_sub(1, Ordering::Relaxed);
        counts.codes[code as usize].fetch_add(1, Ordering::Relaxed);
        counts.seconds[Outcome::of(code) as usize].count(taken);
    }

    /// A request was slow.
    pub fn slow(&self, rpc: Rpc) {
        self.rpcs[rpc.0].slow.fetch_add(1, Ordering::Relaxed);
    }

    /// A build or basket was judged.
    pub fn verdict(&self, verdict: i32) {
        let place = usize::try_from(verdict).unwrap_or(0);
        if let Some(count) = self.verdicts.get(place) {
            count.fetch_add(1, Ordering::Relaxed);
        }
    }

    /// A request ended in an error with this reason.
    pub fn refused(&self, reason: &str, code: Code) {
        let mut reasons = self.reasons.lock().unwrap_or_else(PoisonError::into_inner);
        let known = reasons.len() < REASONS_MAX || reasons.contains_key(reason);
        *reasons.entry(if known { reason } else { "OTHER" }.to_owned()).or_default() += 1;
        drop(reasons);
        if Outcome::of(code) == Outcome::Failed || code == Code::Unavailable {
            match reason {
                "STORE_WRITE_FAILED" => self.store_failed(Trouble::Write),
                "STORE_READ_FAILED" => self.store_failed(Trouble::Read),
                _ => {}
            }
        }
    }

    fn store_failed(&self, trouble: Trouble) {
        store_trouble(trouble);
        self.store_failed.store(true, Ordering::Relaxed);
    }

    /// Something was written to the store.
    pub fn store_wrote(&self) {
        self.store_failed.store(false, Ordering::Relaxed);
    }

    /// The whole page.
    pub fn write(&self, view: Option<&View>, ready: bool) -> String {
        let mut page = Page::default();
        page.metric(&defined::BUILD);
        page.value(&[("version", env!("CARGO_PKG_VERSION")), ("ruleset", RULESET_VERSION)], 1);
        page.single(&defined::READY, u8::from(ready));
        self.write_requests(&mut page);
        page.metric(&defined::REFUSALS);
        for (reason, count) in self.reasons.lock().unwrap_or_else(PoisonError::into_inner).iter() {
            page.value(&[("reason", reason)], count);
        }
        page.metric(&defined::VERDICTS);
        for (place, count) in self.verdicts.iter().enumerate().skip(1) {
            let verdict = i32::try_from(place).ok().and_then(|place| pb::Verdict::try_from(place).ok());
            let name =
                verdict.unwrap_or_default().as_str_name().trim_start_matches("VERDICT_").to_lowercase();
            page.value(&[("verdict", &name)], read(count));
        }
        self.write_catalogue(&mut page, view);
        page.metric(&defined::STORE_TROUBLE);
        for trouble in Trouble::ALL {
            page.value(&[("trouble", trouble.name())], read(&TROUBLE[trouble as usize]));
        }
        page.single(&defined::STARTED, self.started);
        process::write(&mut page);
        page.finish()
    }

    fn write_requests(&self, page: &mut Page) {
        page.metric(&defined::REQUESTS);
        for counts in &self.rpcs {
            for (place, count) in counts.codes.iter().enumerate() {
                // An RPC that was never called shows one zero, so that rates begin with its first call.
                if place == 0 || read(count) > 0 {
                    let code = i32::try_from(place).map_or(Code::Unknown, Code::from_i32);
                    page.value(&[("rpc", &counts.name), ("code", &format!("{code:?}"))], read(count));
                }
            }
        }
        page.metric(&defined::SECONDS);
        for counts in &self.rpcs {
            for outcome in Outcome::ALL {
                let histogram = &counts.seconds[outcome as usize];
                if !histogram.is_empty() {
                    page.histogram(&[("rpc", &counts.name), ("outcome", outcome.name())], histogram);
                }
            }
        }
        page.metric(&defined::IN_FLIGHT);
        for counts in &self.rpcs {
            page.value(&[("rpc", &counts.name)], counts.in_flight.load(Ordering::Relaxed));
        }
        page.metric(&defined::SLOW);
        for counts in &self.rpcs {
            page.value(&[("rpc", &counts.name)], read(&counts.slow));
        }
    }

    fn write_catalogue(&self, page: &mut Page, view: Option<&View>) {
        let revision = view.map(|view| view.snapshot.revision());
        page.single(&defined::PARTS, revision.map_or(0, |revision| revision.part_count));
        page.metric(&defined::CATALOGUE);
        if let Some(revision) = revision {
            page.value(&[("digest", &revision.digest)], 1);
        }
        page.single(&defined::REVISION, revision.map_or(0, |revision| revision.revision));
        let since = |seen: &Mutex<Seen>, number: Option<i64>| {
            number.map_or(0, |number| seen.lock().unwrap_or_else(PoisonError::into_inner).since(number))
        };
        page.single(&defined::REVISION_CHANGED, since(&self.revision, revision.map(|found| found.revision)));
        let sequence = view.map(|view| view.shelf.sequence());
        page.single(&defined::SHELF, sequence.unwrap_or(0));
        page.single(&defined::SHELF_CHANGED, since(&self.shelf, sequence));
        let healthy = view.is_some() && !self.store_failed.load(Ordering::Relaxed);
        page.single(&defined::STORE_HEALTHY, u8::from(healthy));
    }
}

fn read(count: &AtomicU64) -> u64 {
    count.load(Ordering::Relaxed)
}

fn unix(at: SystemTime) -> u64 {
    at.duration_since(UNIX_EPOCH).unwrap_or_default().as_secs()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn what_is_written_is_what_is_defined() {
        let metrics = Metrics::default();
        let check = metrics.rpc("/sprag.v1.CompatibilityService/Check");
        metrics.began(check);
        metrics.ended(check, Code::Ok, Duration::from_micros(80));
        metrics.refused("UNKNOWN_PART", Code::NotFound);
        let page = metrics.write(None, true);
        let typed: Vec<&str> = page.lines().filter_map(|line| line.strip_prefix("# TYPE ")).collect();
        let defined: Vec<String> =
            defined::ALL.iter().map(|found| format!("{} {}", found.name, found.kind.name())).collect();
        assert_eq!(typed, defined);
        for line in page.lines().filter(|line| !line.starts_with('#')) {
            let name = line.split(['{', ' ']).next().expect("a name");
            let base = |found: &&&defined::Definition| {
                let rest = name.strip_prefix(found.name);
                rest.is_some_and(|rest| ["", "_bucket", "_sum", "_count"].contains(&rest))
            };
            let found = defined::ALL.iter().find(base).unwrap_or_else(|| panic!("{name} is not defined"));
            let labels = line.split_once('{').map_or("", |(_, rest)| rest);
            for label in found.labels {
                assert!(labels.contains(&format!("{label}=\"")), "{line} lacks {label}");
            }
        }
        assert!(page.contains("sprag_request_seconds_bucket{rpc=\"sprag.v1.CompatibilityService/Check\",outcome=\"ok\",le=\"0.0001\"} 1"));
        assert!(page.contains("sprag_requests_in_flight{rpc=\"sprag.v1.CompatibilityService/Check\"} 0"));
    }

    #[test]
    fn names_are_unique_and_follow_the_conventions() {
        let names: BTreeSet<&str> = defined::ALL.iter().map(|found| found.name).collect();
        assert_eq!(names.len(), defined::ALL.len());
        for found in defined::ALL {
            assert_eq!(
                found.kind == defined::Kind::Counter,
                found.name.ends_with("_total"),
                "{}",
                found.name
            );
            assert!(found.help.ends_with('.') && !found.help.contains('\n'), "{}", found.name);
        }
    }

    #[test]
    fn whatever_is_called_counts_somewhere() {
        let metrics = Metrics::default();
        assert_eq!(metrics.name(metrics.rpc("/no/such")), "other");
        assert_eq!(metrics.name(metrics.rpc("/grpc.health.v1.Health/Check")), "grpc.health.v1.Health/Check");
    }

    #[test]
    fn reasons_are_bounded() {
        let metrics = Metrics::default();
        for number in 0..1000 {
            metrics.refused(&format!("REASON_{number}"), Code::NotFound);
        }
        let page = metrics.write(None, false);
        let reasons = page.lines().filter(|line| line.starts_with("sprag_refusals_total{")).count();
        assert_eq!(reasons, REASONS_MAX + 1);
        assert!(page.contains(&format!("sprag_refusals_total{{reason=\"OTHER\"}} {}", 1000 - REASONS_MAX)));
    }
}
