//! The programs: health from start to stop, exit statuses, stores that are in use, damaged or not there.

use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Child, Command, Output, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value as Json, json};
use sprag_proto::v1 as pb;
use sprag_proto::v1::catalogue_service_client::CatalogueServiceClient;
use sprag_proto::v1::compatibility_service_client::CompatibilityServiceClient;
use sprag_tests::Service;
use tonic::Code;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;
use tonic_health::pb::{HealthCheckRequest, HealthCheckResponse};

use tonic_types::StatusExt;

use super::bench::{Bench, PATIENCE, added, channel, ndjson, pieces, programs, told};
use super::shop::{ask, rows, touring_bike};

fn of(service: &str) -> HealthCheckRequest {
    HealthCheckRequest { service: service.into() }
}

fn serving(answer: &HealthCheckResponse) -> bool {
    answer.status() == ServingStatus::Serving
}

#[tokio::test(flavor = "multi_thread")]
async fn a_loaded_service_is_serving_and_an_unknown_one_is_not_found() {
    let bench = Bench::stocked(&rows()).await;
    let mut health = HealthClient::new(bench.channel().await);
    for service in ["", "sprag.v1.CompatibilityService", "sprag.v1.CatalogueService"] {
        let answer = health.check(of(service)).await.expect("a known service").into_inner();
        assert!(serving(&answer), "{service}: {answer:?}");
    }
    let unknown = health.check(of("sprag.v1.NoSuchService")).await.expect_err("unknown");
    assert_eq!(unknown.code(), Code::NotFound);
}

#[tokio::test(flavor = "multi_thread")]
async fn before_the_catalogue_is_loaded_it_is_not_serving_and_calls_are_unavailable() {
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("data");
    let service = Service::start(programs(), &data).expect("it starts");
    let many: Vec<Json> =
        (0..3_000).map(|number| json!({"sku": format!("B-{number}"), "chain": {"chain_speed": 9}})).collect();
    let mut keeping = CatalogueServiceClient::new(channel(&service.address).await);
    keeping.import_parts(pieces(added(), &ndjson(&many))).await.expect("imported");
    service.kill().expect("killed");
    // After a kill the store is examined before it is served, which takes a while; the port answers at once. On a busy
    // machine the examination may be over first: then it is tried again.
    let seen = async {
        for _ in 0..10 {
            if seen_loading(&data).await {
                return true;
            }
        }
        false
    };
    assert!(seen.await, "never seen before it was loaded");
}

/// Starts a service, asks it at once, and kills it; tells whether the questions came before the catalogue.
async fn seen_loading(data: &Path) -> bool {
    let Started { mut child, address } = started(data);
    let connection = channel(&address).await;
    let mut health = HealthClient::new(connection.clone());
    let early = health.check(of("")).await.expect("health answers always").into_inner();
    let mut asking = CompatibilityServiceClient::new(connection);
    let asked = asking.check(ask(touring_bike(), [])).await;
    let refused =
        asked.expect_err("before it is loaded, and after: the bike's parts are not in this catalogue");
    let seen = refused.code() == Code::Unavailable;
    if seen {
        assert_eq!(told(&refused).reason, "NOT_LOADED");
        assert_eq!(early.status(), ServingStatus::NotServing);
        assert!(refused.get_details_retry_info().is_some(), "when to ask again");
        let mut watched = health.watch(of("")).await.expect("watched").into_inner();
        let ready = async { while !serving(&watched.message().await.expect("a status").expect("one")) {} };
        tokio::time::timeout(PATIENCE, ready).await.expect("it gets ready");
    }
    child.kill().expect("killed");
    child.wait().expect("ended");
    seen
}

/// A service that has been started and may not be ready yet.
struct Started {
    child: Child,
    address: String,
}

fn started(data: &Path) -> Started {
    let mut child = Command::new(&programs().spragd)
        .arg("--data")
        .arg(data)
        .args(["--listen", "127.0.0.1:0", "--log", "warn"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("spragd starts");
    let mut line = String::new();
    let mut stdout = BufReader::new(child.stdout.take().expect("its output"));
    stdout.read_line(&mut line).expect("a line");
    Started { child, address: line.trim().trim_start_matches("listening on ").to_owned() }
}

#[tokio::test(flavor = "multi_thread")]
async fn told_to_stop_it_says_so_and_ends_though_somebody_watches() {
    let folder = tempfile::tempdir().expect("a folder");
    let service = Service::start(programs(), &folder.path().join("data")).expect("it starts");
    let mut health = HealthClient::new(channel(&service.address).await);
    let mut watched = health.watch(of("")).await.expect("watched").into_inner();
    assert!(serving(&watched.message().await.expect("a status").expect("one")));

    // Half an answer from somebody who never reads on must not hold it up either.
    let stopping = Instant::now();
    let stopped = tokio::task::spawn_blocking(move || service.stop().expect("it ends"));
    let last = tokio::time::timeout(PATIENCE, watched.message()).await.expect("told in time");
    assert_eq!(last.expect("a status").expect("one").status(), ServingStatus::NotServing);
    let status = stopped.await.expect("no panic");
    assert!(status.success(), "{status}");
    assert!(stopping.elapsed() < PATIENCE, "the drain has a bound");
}

fn spragd(data: &Path, arguments: &[&str]) -> Output {
    let mut child = Command::new(&programs().spragd)
        .arg("--data")
        .arg(data)
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("spragd starts");
    let deadline = Instant::now() + PATIENCE;
    while child.try_wait().expect("a status").is_none() {
        if Instant::now() > deadline {
            child.kill().expect("killed");
            panic!("spragd {arguments:?} does not end");
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    child.wait_with_output().expect("its output")
}

fn stderr(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

#[test]
fn a_store_is_created_once_and_only_when_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("data");
    let missing = spragd(&data, &["--listen", "127.0.0.1:0"]);
    assert_eq!(missing.status.code(), Some(1));
    assert!(stderr(&missing).contains("init"), "{}", stderr(&missing));
    assert!(!data.exists(), "serving creates nothing");
    assert!(spragd(&data, &["init"]).status.success());
    let again = spragd(&data, &["init"]);
    assert_eq!(again.status.code(), Some(1));
    assert!(stderr(&again).contains("empty"), "{}", stderr(&again));
}

#[test]
fn a_store_serves_one_process() {
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("data");
    let service = Service::start(programs(), &data).expect("it starts");
    let second = spragd(&data, &["--listen", "127.0.0.1:0"]);
    assert_eq!(second.status.code(), Some(1));
    assert!(stderr(&second).contains("another"), "{}", stderr(&second));
    assert!(service.stop().expect("it ends").success());
    assert!(Service::serve(programs(), &data).expect("it starts again").stop().expect("it ends").success());
}

#[test]
fn a_wrong_configuration_is_told_whole() {
    let folder = tempfile::tempdir().expect("a folder");
    let wrong =
        spragd(folder.path(), &["--listen", "0.0.0.0:1", "--drain-seconds", "9999", "--check-config"]);
    assert_eq!(wrong.status.code(), Some(2));
    let told = stderr(&wrong);
    assert!(told.contains("listen") && told.contains("drain_seconds"), "{told}");
    let file = folder.path().join("spragd.toml");
    std::fs::write(&file, "lisen = \"127.0.0.1:0\"\n").expect("written");
    let misspelt = spragd(folder.path(), &["--config", &file.display().to_string(), "--check-config"]);
    assert_eq!(misspelt.status.code(), Some(2));
    assert!(
        stderr(&misspelt).contains("lisen") && stderr(&misspelt).contains("listen"),
        "{}",
        stderr(&misspelt)
    );
}

/// Imports the shop and sells one chain; gives revision and sequence number.
async fn trade(address: &str) -> (pb::Revision, i64) {
    let mut keeping = CatalogueServiceClient::new(channel(address).await);
    let import = pieces(added(), &ndjson(&rows()));
    let published = keeping.import_parts(import).await.expect("imported").into_inner();
    let entries = vec![pb::ShelfEntry { sku: "CH-9".into(), price: None, stock: Some(9) }];
    let sold = keeping.update_shelf(pb::UpdateShelfRequest { entries }).await.expect("sold").into_inner();
    (published.revision.expect("a revision"), sold.shelf_sequence)
}

async fn chain(address: &str) -> pb::GetPartResponse {
    let mut keeping = CatalogueServiceClient::new(channel(address).await);
    let reference = Some(pb::get_part_request::Reference::Sku("CH-9".into()));
    keeping.get_part(pb::GetPartRequest { reference }).await.expect("the chain").into_inner()
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_acknowledged_survives_a_kill() {
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("data");
    let service = Service::start(programs(), &data).expect("it starts");
    let (revision, sequence) = trade(&service.address).await;
    service.kill().expect("killed");
    let service = Service::serve(programs(), &data).expect("it starts again");
    let found = chain(&service.address).await;
    assert_eq!(found.part.and_then(|part| part.stock), Some(9));
    let basis = found.basis.expect("a basis");
    assert_eq!((basis.catalogue_revision, &basis.catalogue_digest), (revision.revision, &revision.digest));
    assert_eq!(basis.shelf_sequence, sequence);
    assert!(service.stop().expect("it ends").success());
}

/// The largest file below a folder, where the rows are.
fn largest_file(folder: &Path) -> std::path::PathBuf {
    let mut files = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in std::fs::read_dir(next).expect("a folder").flatten() {
            if entry.path().is_dir() { folders.push(entry.path()) } else { files.push(entry.path()) }
        }
    }
    files.into_iter().max_by_key(|file| file.metadata().map_or(0, |found| found.len())).expect("a file")
}

#[tokio::test(flavor = "multi_thread")]
async fn a_shortened_store_is_never_answered_from() {
    let folder = tempfile::tempdir().expect("a folder");
    let data = folder.path().join("data");
    let service = Service::start(programs(), &data).expect("it starts");
    let (revision, _) = trade(&service.address).await;
    service.kill().expect("killed");
    let file = largest_file(&data);
    let length = file.metadata().expect("a length").len();
    let opened = std::fs::OpenOptions::new().write(true).open(&file).expect("the file");
    opened.set_len(length / 3).expect("shortened");

    let Started { mut child, address } = started(&data);
    let deadline = Instant::now() + PATIENCE;
    // Either it ends with a message, or it is ready with all that was acknowledged.
    loop {
        if let Some(status) = child.try_wait().expect("a status") {
            let mut told = String::new();
            child.stderr.take().expect("its errors").read_to_string(&mut told).expect("text");
            assert_eq!(status.code(), Some(1), "{told}");
            assert!(told.contains("spragd:") && told.contains("data"), "{told}");
            return;
        }
        let probed = Command::new(&programs().spragd).args(["probe", &address]).output().expect("a probe");
        if probed.status.success() {
            let basis = chain(&address).await.basis.expect("a basis");
            child.kill().expect("killed");
            assert_eq!(basis.catalogue_digest, revision.digest, "recovered means whole");
            return;
        }
        assert!(Instant::now() < deadline, "it neither serves nor ends");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_shelf_keeps_its_order_over_a_restart() {
    let bench = Bench::stocked(&rows()).await;
    let mut keeping = bench.keeping().await;
    let mut last = 0;
    for stock in [5, 0, 7] {
        let entries = vec![pb::ShelfEntry { sku: "CH-9".into(), price: None, stock: Some(stock) }];
        let answer =
            keeping.update_shelf(pb::UpdateShelfRequest { entries }).await.expect("set").into_inner();
        assert!(answer.shelf_sequence > last);
        last = answer.shelf_sequence;
    }
    // All or none: one wrong entry leaves the others as they were.
    let entries = vec![
        pb::ShelfEntry { sku: "CH-10".into(), price: None, stock: Some(1) },
        pb::ShelfEntry { sku: "CH-11".into(), price: None, stock: Some(1) },
    ];
    let refused = keeping.update_shelf(pb::UpdateShelfRequest { entries }).await.expect_err("no CH-11");
    assert_eq!(told(&refused).code, Code::NotFound);
    let bench = bench.restarted().await;
    let found = chain(&bench.address).await;
    let part = found.part.expect("the chain");
    assert_eq!((part.stock, found.basis.map(|basis| basis.shelf_sequence)), (Some(7), Some(last)));
    assert_eq!(part.price.map(|price| price.minor_units), Some(1890), "what is not set stays");
}
