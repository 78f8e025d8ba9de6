//! What operators see: ids of requests, logs that keep what was asked to themselves, probes and metrics.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use serde_json::Value as Json;
use sprag_proto::v1 as pb;
use sprag_proto::v1::catalogue_service_client::CatalogueServiceClient;
use sprag_proto::v1::compatibility_service_client::CompatibilityServiceClient;
use sprag_tests::Service;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tonic::metadata::MetadataValue;
use tonic::{Code, Request};
use tonic_types::StatusExt;

use super::bench::{Bench, added, channel, ndjson, pieces, programs};
use super::shop::{ask, fit, rows, sku, touring_bike};

fn with_id<T>(message: T, id: &str) -> Request<T> {
    let mut request = Request::new(message);
    request.metadata_mut().insert("x-request-id", MetadataValue::try_from(id).expect("a header"));
    request
}

#[tokio::test(flavor = "multi_thread")]
async fn an_answer_repeats_a_sane_request_id_and_else_brings_one() {
    let bench = Bench::stocked(&rows()).await;
    let mut asking = bench.asking().await;
    let question = || ask(touring_bike(), [fit(sku("CS-1128"))]);
    let told = |answer: &tonic::Response<pb::CheckResponse>| {
        answer.metadata().get("x-request-id").expect("an id").to_str().expect("text").to_owned()
    };
    let answer = asking.check(with_id(question(), "till-4.2026_11")).await.expect("it can be judged");
    assert_eq!(told(&answer), "till-4.2026_11");
    for odd in ["two words", "<b>", &"x".repeat(65)] {
        let made = told(&asking.check(with_id(question(), odd)).await.expect("it can be judged"));
        assert!(made.len() == 16 && made.bytes().all(|byte| byte.is_ascii_hexdigit()), "{odd}: {made}");
    }
    let (one, other) = (asking.check(question()).await, asking.check(question()).await);
    assert_ne!(told(&one.expect("judged")), told(&other.expect("judged")));
}

#[tokio::test(flavor = "multi_thread")]
async fn an_error_names_its_request_beside_its_faults() {
    let bench = Bench::stocked(&rows()).await;
    let wrong = ask(touring_bike(), [fit(sku("CS-1123"))]);
    let error = bench.asking().await.check(with_id(wrong, "till-4")).await.expect_err("an unknown part");
    let details = error.get_error_details();
    assert_eq!(details.request_info().expect("RequestInfo").request_id, "till-4");
    assert_eq!(details.error_info().expect("ErrorInfo").reason, "UNKNOWN_PART");
    assert_eq!(details.bad_request().expect("BadRequest").field_violations[0].field, "changes[0].fit.sku");
    assert_eq!(error.metadata().get("x-request-id").expect("an id"), "till-4");
    assert!(error.message().contains("CS-1128"), "the nearest spelling stays: {error:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn an_error_in_the_middle_of_a_stream_names_its_request_too() {
    let bench = Bench::empty().await;
    let chunk = |text: &str| super::bench::chunk(text.as_bytes());
    let headless = tokio_stream::iter(vec![chunk("no header")]);
    let error =
        bench.keeping().await.import_parts(with_id(headless, "night-7")).await.expect_err("no header");
    assert_eq!(error.code(), Code::InvalidArgument);
    assert_eq!(error.get_error_details().request_info().expect("RequestInfo").request_id, "night-7");
}

/// What the operations listener answers: the status line, the head and the body.
async fn get(address: &str, request: &str) -> (String, String, String) {
    let mut socket =
        tokio::net::TcpStream::connect(address.trim_start_matches("http://")).await.expect("it listens");
    socket.write_all(request.as_bytes()).await.expect("sent");
    let mut answer = String::new();
    socket.read_to_string(&mut answer).await.expect("text");
    let (head, body) = answer.split_once("\r\n\r\n").expect("a head and a body");
    let (status, head) = head.split_once("\r\n").unwrap_or((head, ""));
    (status.to_owned(), head.to_owned(), body.to_owned())
}

async fn page(address: &str, path: &str) -> (String, String) {
    let (status, _, body) = get(address, &format!("GET {path} HTTP/1.1\r\nhost: x\r\n\r\n")).await;
    (status, body)
}

/// The values of a page of metrics by name and labels; seconds as whole microseconds.
async fn metrics(service: &Service) -> BTreeMap<String, u64> {
    let (status, body) = page(&service.operations, "/metrics").await;
    assert_eq!(status, "HTTP/1.1 200 OK");
    let values = body.lines().filter(|line| !line.starts_with('#'));
    values
        .map(|line| {
            let (name, value) = line.rsplit_once(' ').expect("a name and a value");
            let value = match value.parse::<u64>() {
                Ok(whole) => whole,
                Err(_) => Duration::from_secs_f64(value.parse().expect("a number")).as_micros() as u64,
            };
            (name.to_owned(), value)
        })
        .collect()
}

async fn stocked(service: &Service) {
    let mut keeping = CatalogueServiceClient::new(channel(&service.address).await);
    keeping.import_parts(pieces(added(), &ndjson(&rows()))).await.expect("imported");
}

async fn published_digest(service: &Service) -> String {
    let mut keeping = CatalogueServiceClient::new(channel(&service.address).await);
    let answer = keeping.get_revision(pb::GetRevisionRequest {}).await.expect("a revision").into_inner();
    answer.revision.expect("it is set").digest
}

#[tokio::test(flavor = "multi_thread")]
async fn metrics_count_what_was_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let service = Service::start(programs(), &folder.path().join("data")).expect("it starts");
    let before = metrics(&service).await;
    assert_eq!((before["sprag_ready"], before["sprag_store_healthy"]), (1, 1));
    assert_eq!(before["sprag_catalogue_parts"], 0);
    stocked(&service).await;
    let mut asking = CompatibilityServiceClient::new(channel(&service.address).await);
    for part in ["CS-1128", "CS-1128", "CS-1146", "CS-1123"] {
        let _ = asking.check(ask(touring_bike(), [fit(sku(part))])).await;
    }
    let items = ["CS-1128", "no such part"].map(|part| pb::BatchCheckItem {
        item_id: part.into(),
        request: Some(ask(touring_bike(), [fit(sku(part))])),
    });
    asking.batch_check(pb::BatchCheckRequest { items: items.into() }).await.expect("a batch");

    let after = metrics(&service).await;
    let check = |name: &str, rest: &str| {
        let name = format!("{name}{{rpc=\"sprag.v1.CompatibilityService/Check\"{rest}}}");
        *after.get(&name).unwrap_or_else(|| panic!("no {name}"))
    };
    assert_eq!(check("sprag_requests_total", ",code=\"Ok\""), 3);
    assert_eq!(check("sprag_requests_total", ",code=\"NotFound\""), 1);
    assert_eq!(check("sprag_request_seconds_count", ",outcome=\"ok\""), 3);
    assert_eq!(check("sprag_request_seconds_bucket", ",outcome=\"refused\",le=\"+Inf\""), 1);
    assert!(check("sprag_request_seconds_sum", ",outcome=\"ok\"") > 0);
    assert_eq!(check("sprag_requests_in_flight", ""), 0);
    assert_eq!(after["sprag_verdicts_total{verdict=\"fits\"}"], 3, "an item of a batch counts");
    assert_eq!(after["sprag_verdicts_total{verdict=\"does_not_fit\"}"], 1);
    assert_eq!(after["sprag_refusals_total{reason=\"UNKNOWN_PART\"}"], 1, "an item of a batch is no error");
    assert_eq!(after["sprag_catalogue_revision"], 1);
    assert_eq!(after["sprag_catalogue_parts"], rows().len() as u64);
    let digest = published_digest(&service).await;
    assert_eq!(after[&format!("sprag_catalogue_info{{digest=\"{digest}\"}}")], 1);
    assert!(after["sprag_shelf_changed_timestamp_seconds"] >= after["process_start_time_seconds"]);
    assert!(after["process_resident_memory_bytes"] > 1_000_000);
}

#[tokio::test(flavor = "multi_thread")]
async fn probes_are_answered_on_their_own_port_and_nothing_else_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let service = Service::start(programs(), &folder.path().join("data")).expect("it starts");
    let at = service.operations.as_str();
    assert_eq!(page(at, "/livez").await, ("HTTP/1.1 200 OK".into(), "alive\n".into()));
    assert_eq!(page(at, "/readyz").await, ("HTTP/1.1 200 OK".into(), "serving\n".into()));
    for path in ["/", "/metrics/", "/etc/passwd", "/sprag.v1.CompatibilityService/Check"] {
        assert_eq!(page(at, path).await.0, "HTTP/1.1 404 Not Found", "{path}");
    }
    let (status, head, _) = get(at, "POST /metrics HTTP/1.1\r\nhost: x\r\ncontent-length: 0\r\n\r\n").await;
    assert_eq!(status, "HTTP/1.1 405 Method Not Allowed");
    assert!(head.contains("allow: GET, HEAD"), "{head}");
    // Heads without end are cut off, and the next one who asks is answered.
    let long = format!("GET /livez HTTP/1.1\r\nhost: x\r\nx: {}\r\n\r\n", "x".repeat(100_000));
    let mut socket =
        tokio::net::TcpStream::connect(at.trim_start_matches("http://")).await.expect("it listens");
    let _ = socket.write_all(long.as_bytes()).await;
    let mut answer = Vec::new();
    let _ = socket.read_to_end(&mut answer).await;
    assert!(!answer.starts_with(b"HTTP/1.1 200"), "{}", String::from_utf8_lossy(&answer));
    assert_eq!(page(at, "/livez").await.0, "HTTP/1.1 200 OK");

    let probe = |address: String| {
        let probed = Command::new(&programs().spragd).args(["probe", &address]).output().expect("it runs");
        (probed.status.code(), String::from_utf8(probed.stderr).expect("text"))
    };
    assert_eq!(probe(format!("{at}/readyz")), (Some(0), String::new()));
    let (status, told) = probe(format!("{at}/nowhere"));
    assert!(status == Some(1) && told.contains("404"), "{told}");
    let stopped = service.operations.clone();
    service.stop().expect("it ends");
    let (status, told) = probe(format!("{stopped}/readyz"));
    assert!(status == Some(1) && told.contains("does not answer"), "{told}");
}

/// Words that callers sent and no log may repeat.
const SECRETS: [&str; 5] = ["grey-heron-7731", "CS-9-SECRET", "bearer-of-tokens", "odd id", "bike on file"];

async fn ask_secretly(address: &str) {
    let mut asking = CompatibilityServiceClient::new(channel(address).await);
    let mut build = touring_bike();
    build.parts[0].item_id = SECRETS[0].into();
    let mut good = with_id(ask(build, [fit(sku("CS-1128"))]), "good-1");
    good.metadata_mut().insert("authorization", "Bearer bearer-of-tokens".parse().expect("a header"));
    asking.check(good).await.expect("it can be judged");
    let unknown = with_id(ask(touring_bike(), [fit(sku(SECRETS[1]))]), "unknown-1");
    asking.check(unknown).await.expect_err("an unknown part");
    let odd = with_id(ask(pb::Build::default(), []), SECRETS[3]);
    asking.check(odd).await.expect_err("an empty build");
    asking
        .check(with_id(pb::CheckRequest { revision_min: 99, ..ask(touring_bike(), []) }, "stale-1"))
        .await
        .expect_err("no such revision");
}

async fn logged(folder: &Path, arguments: &[&str]) -> String {
    let log = folder.join("log");
    let file = std::fs::File::create(&log).expect("a file");
    let data = folder.join("data");
    let service = Service::serve_with(programs(), &data, arguments, Stdio::from(file)).expect("it serves");
    ask_secretly(&service.address).await;
    service.stop().expect("it ends");
    std::fs::read_to_string(&log).expect("text")
}

#[tokio::test(flavor = "multi_thread")]
async fn logs_tell_requests_by_id_and_never_what_was_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let service = Service::start(programs(), &folder.path().join("data")).expect("it starts");
    stocked(&service).await;
    service.stop().expect("it ends");

    let json = logged(folder.path(), &["--log", "trace", "--log-json"]).await;
    let lines: Vec<Json> = json.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    let ended = |id: &str| {
        let of = lines.iter().filter(|line| line["fields"]["message"] == "request ended");
        let found: Vec<_> = of.filter(|line| line["fields"]["request_id"] == id).collect();
        assert_eq!(found.len(), 1, "{id}");
        found[0]["fields"].clone()
    };
    let good = ended("good-1");
    assert_eq!((&good["code"], &good["revision"]), (&Json::from("Ok"), &Json::from(1)), "{good}");
    assert_eq!(good["rpc"], "sprag.v1.CompatibilityService/Check");
    assert!(good["milliseconds"].as_f64().is_some_and(|taken| taken > 0.0), "{good}");
    assert_eq!(ended("unknown-1")["reason"], "UNKNOWN_PART");
    assert_eq!(ended("stale-1")["reason"], "REVISION_TOO_OLD");

    let text = logged(folder.path(), &["--log", "info,request=debug", "--slow-ms", "0"]).await;
    assert!(text.contains("request_id=\"good-1\"") && text.contains("revision=1"), "{text}");
    for secret in SECRETS {
        // Below debug, libraries tell the frames that they pass on; that is for developers, and said so.
        let ours = json.lines().filter(|line| line.contains("\"request"));
        assert!(ours.clone().count() > 3 && ours.clone().all(|line| !line.contains(secret)), "{secret}");
        assert!(!text.contains(secret), "{secret} is in {text}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn slow_requests_are_told_and_counted() {
    let folder = tempfile::tempdir().expect("a folder");
    let service = Service::start(programs(), &folder.path().join("data")).expect("it starts");
    stocked(&service).await;
    service.stop().expect("it ends");
    let log = folder.path().join("log");
    let file = std::fs::File::create(&log).expect("a file");
    let data = folder.path().join("data");
    let service =
        Service::serve_with(programs(), &data, &["--slow-ms", "1"], Stdio::from(file)).expect("it serves");
    let mut asking = CompatibilityServiceClient::new(channel(&service.address).await);
    // Sixty-four baskets in one request take longer than a millisecond on any machine.
    let items = (0..64).map(|item| pb::BatchCheckItem {
        item_id: item.to_string(),
        request: Some(pb::CheckRequest {
            view: pb::View::Full.into(),
            ..ask(touring_bike(), [fit(sku("CS-1128"))])
        }),
    });
    let request = pb::BatchCheckRequest { items: items.collect() };
    asking.batch_check(with_id(request, "slow-1")).await.expect("a batch");
    let counted = metrics(&service).await;
    assert_eq!(counted["sprag_slow_requests_total{rpc=\"sprag.v1.CompatibilityService/BatchCheck\"}"], 1);
    service.stop().expect("it ends");
    let text = std::fs::read_to_string(&log).expect("text");
    let told: Vec<&str> = text.lines().filter(|line| line.contains("slow request")).collect();
    assert!(
        told.iter().any(|line| line.contains("WARN") && line.contains("request_id=\"slow-1\"")),
        "{text}"
    );
}
