//! A service on a free port of this process with a store of its own, and the words to talk to it.

use std::path::Path;
use std::sync::OnceLock;
use std::time::Duration;

use serde_json::Value as Json;
use sprag_catalogue::store::Store;
use sprag_proto::v1 as pb;
use sprag_proto::v1::catalogue_service_client::CatalogueServiceClient;
use sprag_proto::v1::compatibility_service_client::CompatibilityServiceClient;
use sprag_proto::v1::import_parts_request::Piece;
use sprag_server::ops::config::{Config, Settings};
use sprag_tests::Programs;
use tempfile::TempDir;
use tokio::net::TcpListener;
use tokio::sync::oneshot;
use tokio::task::JoinHandle;
use tokio::time::timeout;
use tonic::transport::Channel;
use tonic::{Code, Status};
use tonic_types::StatusExt;

/// No answer takes this long, even on a busy machine.
pub const PATIENCE: Duration = Duration::from_secs(60);

pub type Asking = CompatibilityServiceClient<Channel>;
pub type Keeping = CatalogueServiceClient<Channel>;

/// The programs, built once for all tests.
pub fn programs() -> &'static Programs {
    static PROGRAMS: OnceLock<Programs> = OnceLock::new();
    PROGRAMS.get_or_init(|| Programs::build().expect("the programs build"))
}

/// The settings of a service over a store, on any free port.
pub fn settings(data: &Path) -> Settings {
    Settings {
        data: Some(data.to_owned()),
        listen: Some("127.0.0.1:0".into()),
        drain_seconds: Some(2),
        ..Settings::default()
    }
}

/// A running service.
pub struct Bench {
    pub address: String,
    pub folder: TempDir,
    stop: oneshot::Sender<()>,
    served: JoinHandle<anyhow::Result<()>>,
}

impl Bench {
    /// With an empty catalogue.
    pub async fn empty() -> Self {
        Self::with(|settings| settings).await
    }

    /// With an empty catalogue and other settings.
    pub async fn with(change: impl FnOnce(Settings) -> Settings) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let data = folder.path().join("data");
        Store::create(&data).expect("a new store").close().expect("it closes in order");
        Self::over(folder, change(settings(&data))).await
    }

    /// With the parts of these rows.
    pub async fn stocked(rows: &[Json]) -> Self {
        let bench = Self::empty().await;
        let done = bench.keeping().await.import_parts(file(&ndjson(rows))).await.expect("the rows are read");
        let done = done.into_inner();
        assert!(done.published, "{:#?}", done.report);
        bench
    }

    async fn over(folder: TempDir, settings: Settings) -> Self {
        let config = Config::read(&settings).expect("good settings");
        let listener = TcpListener::bind("127.0.0.1:0").await.expect("a free port");
        let address = format!("http://{}", listener.local_addr().expect("an address"));
        let (stop, stopped) = oneshot::channel();
        let served = tokio::spawn(sprag_server::run(config, listener, async move {
            // A test that ends early drops the sender, which stops the service too.
            let _ = stopped.await;
        }));
        let bench = Self { address, folder, stop, served };
        bench.loaded().await;
        bench
    }

    async fn loaded(&self) {
        let mut keeping = self.keeping().await;
        let answers = async {
            while keeping.get_revision(pb::GetRevisionRequest {}).await.is_err() {
                tokio::time::sleep(Duration::from_millis(5)).await;
            }
        };
        timeout(PATIENCE, answers).await.expect("the catalogue is loaded");
    }

    /// Stops the service and starts it again over the same store.
    pub async fn restarted(self) -> Self {
        let (folder, ended) = self.stopped().await;
        ended.expect("the service ends in order");
        let settings = settings(&folder.path().join("data"));
        Self::over(folder, settings).await
    }

    /// Stops the service.
    pub async fn stopped(self) -> (TempDir, anyhow::Result<()>) {
        let _ = self.stop.send(());
        let ended = timeout(PATIENCE, self.served).await.expect("the service ends").expect("no panic");
        (self.folder, ended)
    }

    pub async fn channel(&self) -> Channel {
        channel(&self.address).await
    }

    /// A client of the questions.
    pub async fn asking(&self) -> Asking {
        CompatibilityServiceClient::new(self.channel().await).max_encoding_message_size(usize::MAX)
    }

    /// A client of the catalogue.
    pub async fn keeping(&self) -> Keeping {
        CatalogueServiceClient::new(self.channel().await)
    }

    /// The answer to a check that can be judged.
    pub async fn check(&self, request: pb::CheckRequest) -> pb::CheckResponse {
        self.asking().await.check(request).await.expect("it can be judged").into_inner()
    }

    /// The refusal of a check that cannot be judged.
    pub async fn refusal(&self, request: pb::CheckRequest) -> Told {
        told(&self.asking().await.check(request).await.expect_err("it cannot be judged"))
    }

    /// Imports a file.
    pub async fn import(&self, header: pb::ImportHeader, text: &str) -> pb::ImportPartsResponse {
        let pieces = pieces(header, text);
        self.keeping().await.import_parts(pieces).await.expect("the file is read").into_inner()
    }

    /// What is published.
    pub async fn revision(&self) -> pb::Revision {
        let answer = self.keeping().await.get_revision(pb::GetRevisionRequest {}).await;
        answer.expect("a revision").into_inner().revision.expect("it is set")
    }

    /// Everything that is published, as an export writes it.
    pub async fn export(&self) -> String {
        let answer = self.keeping().await.export_parts(pb::ExportPartsRequest {}).await;
        let mut pieces = answer.expect("an export").into_inner();
        let mut bytes = Vec::new();
        while let Some(piece) = pieces.message().await.expect("a piece") {
            bytes.extend(piece.chunk);
        }
        String::from_utf8(bytes).expect("an export is text")
    }
}

/// A connection to a service.
pub async fn channel(address: &str) -> Channel {
    let endpoint = Channel::from_shared(address.to_owned()).expect("an address");
    endpoint.connect().await.expect("a service")
}

/// Rows as a file.
pub fn ndjson(rows: &[Json]) -> String {
    rows.iter().map(|row| format!("{row}\n")).collect()
}

/// The header of an NDJSON file that adds parts.
pub fn added() -> pb::ImportHeader {
    pb::ImportHeader { format: pb::FileFormat::Ndjson.into(), ..pb::ImportHeader::default() }
}

/// The header of an NDJSON file that is the whole catalogue.
pub fn whole() -> pb::ImportHeader {
    pb::ImportHeader { mode: pb::ImportMode::Full.into(), ..added() }
}

/// The header of a CSV file that adds parts.
pub fn csv() -> pb::ImportHeader {
    pb::ImportHeader { format: pb::FileFormat::Csv.into(), ..added() }
}

pub fn head(header: pb::ImportHeader) -> pb::ImportPartsRequest {
    pb::ImportPartsRequest { piece: Some(Piece::Header(header)) }
}

pub fn chunk(bytes: &[u8]) -> pb::ImportPartsRequest {
    pb::ImportPartsRequest { piece: Some(Piece::Chunk(bytes.to_vec())) }
}

/// A file as the pieces of an import, cut where it happens to be.
pub fn pieces(
    header: pb::ImportHeader,
    text: &str,
) -> impl tokio_stream::Stream<Item = pb::ImportPartsRequest> + Send + 'static {
    let mut all = vec![head(header)];
    all.extend(text.as_bytes().chunks(10_007).map(chunk));
    tokio_stream::iter(all)
}

fn file(text: &str) -> impl tokio_stream::Stream<Item = pb::ImportPartsRequest> + Send + 'static {
    pieces(added(), text)
}

/// What a refusal tells.
#[derive(Debug)]
pub struct Told {
    pub code: Code,
    pub message: String,
    /// The reason of ErrorInfo.
    pub reason: String,
    /// The nearest spelling.
    pub nearest: String,
    /// Fields with what is wrong with them.
    pub faults: Vec<(String, String)>,
}

impl Told {
    /// The fields that are named.
    pub fn fields(&self) -> Vec<&str> {
        self.faults.iter().map(|(field, _)| field.as_str()).collect()
    }
}

/// Reads a refusal; every one carries an ErrorInfo of our domain.
pub fn told(status: &Status) -> Told {
    let details = status.get_error_details();
    let info = details.error_info().unwrap_or_else(|| panic!("no ErrorInfo: {status:?}"));
    assert_eq!(info.domain, "sprag.v1");
    let violations = details.bad_request().map(|bad| bad.field_violations.clone()).unwrap_or_default();
    Told {
        code: status.code(),
        message: status.message().to_owned(),
        reason: info.reason.clone(),
        nearest: info.metadata.get("nearest").cloned().unwrap_or_default(),
        faults: violations.into_iter().map(|fault| (fault.field, fault.description)).collect(),
    }
}
