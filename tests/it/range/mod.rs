//! The gears of bikes, asked over a socket.

mod answers;
mod bad_input;
mod reference;

use sprag_catalogue::store::Store;
use sprag_proto::text::message_from_json;
use sprag_proto::v1 as pb;
use sprag_proto::v1::catalogue_service_client::CatalogueServiceClient;
use sprag_proto::v1::compatibility_service_client::CompatibilityServiceClient;
use sprag_server::ops::config::{Config, Settings};
use tempfile::TempDir;
use tokio::net::TcpListener;
use tokio::sync::oneshot;
use tonic::transport::Channel;

/// A service of this process on a free port, with a store of its own; it ends with the value.
struct Service {
    address: String,
    _stop: oneshot::Sender<()>,
    _folder: TempDir,
}

impl Service {
    async fn start() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let data = folder.path().join("data");
        Store::create(&data).unwrap().close().unwrap();
        let settings =
            Settings { data: Some(data), listen: Some("127.0.0.1:0".into()), ..Settings::default() };
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = format!("http://{}", listener.local_addr().unwrap());
        let (stop, stopped) = oneshot::channel();
        tokio::spawn(sprag_server::run(Config::read(&settings).unwrap(), listener, async {
            let _ = stopped.await;
        }));
        let service = Self { address, _stop: stop, _folder: folder };
        while service.catalogue().await.get_revision(pb::GetRevisionRequest {}).await.is_err() {
            tokio::time::sleep(std::time::Duration::from_millis(5)).await;
        }
        service
    }

    async fn channel(&self) -> Channel {
        Channel::from_shared(self.address.clone()).unwrap().connect().await.unwrap()
    }

    async fn catalogue(&self) -> CatalogueServiceClient<Channel> {
        CatalogueServiceClient::new(self.channel().await)
    }

    async fn range(&self, request: pb::RangeRequest) -> Result<pb::RangeResponse, tonic::Status> {
        let mut client = CompatibilityServiceClient::new(self.channel().await);
        Ok(client.range(request).await?.into_inner())
    }
}

/// A bike with two rings, eleven cogs, a stay and a tyre.
fn request() -> pb::RangeRequest {
    let request = serde_json::json!({
        "subjects": [{"build": {
            "build_id": "today",
            "wheel_size": {"tyre_designation": "28-622"},
            "parts": [
                {"described": {"frame": {"chainstay": "430 mm", "chain_growth": "none"}}},
                {"described": {"cassette": {
                    "cogs": [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32], "mass": "272 g"}}},
                {"described": {"crankset": {"rings": [50, 34]}}},
                {"described": {"chain": {"link_count": 116}}}
            ]
        }}]
    });
    message_from_json(&request).unwrap()
}

fn described(build: &mut pb::Build, place: usize) -> &mut pb::part::Kind {
    match build.parts[place].part.as_mut().unwrap() {
        pb::fitted_part::Part::Described(part) => part.kind.as_mut().unwrap(),
        other => panic!("{other:?} is not described"),
    }
}

fn build(request: &mut pb::RangeRequest) -> &mut pb::Build {
    request.subjects[0].build.as_mut().unwrap()
}

fn cassette(request: &mut pb::RangeRequest) -> &mut pb::Cassette {
    match described(build(request), 1) {
        pb::part::Kind::Cassette(cassette) => cassette,
        other => panic!("{other:?} is no cassette"),
    }
}
