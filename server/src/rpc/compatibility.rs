//! The compatibility service.

use std::sync::Arc;

use sprag_catalogue::View;
use sprag_engine::build::{assemble, learn};
use sprag_engine::fit::Practice;
use sprag_engine::fit::check::check;
use sprag_engine::fit::extras::extras;
use sprag_engine::fit::question::questions;
use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;
use sprag_proto::v1::compatibility_service_server::CompatibilityService;
use tokio::sync::Semaphore;
use tokio_stream::{Stream, StreamExt};
use tonic::{Request, Response, Status, Streaming};

use super::decode::{Decoder, build_faults};
use super::encode::Encoder;
use super::status::{Refusal, as_message, broken, not_loaded};
use super::{Shared, range, recommend, rules};
use crate::ops::limits::Limits;

/// Check, range and recommend.
#[derive(Clone)]
pub struct Compatibility {
    shared: Shared,
    searches: Arc<Semaphore>,
}

impl Compatibility {
    /// The service over shared state.
    pub fn new(shared: Shared) -> Self {
        let searches = Arc::new(Semaphore::new(shared.limits.searches));
        Self { shared, searches }
    }

    fn view(&self) -> Result<View, Status> {
        self.shared.view().ok_or_else(not_loaded)
    }

    fn judge_item(&self, item: &pb::BatchCheckItem, view: &View) -> pb::BatchCheckResult {
        let judged = judge_item(item, view, self.shared.limits);
        if let Some(pb::batch_check_result::Result::Response(answer)) = &judged.result {
            self.shared.metrics.verdict(answer.verdict);
        }
        judged
    }
}

/// Judges one request against one view of the catalogue.
pub fn judge(request: &pb::CheckRequest, view: &View, limits: Limits) -> Result<pb::CheckResponse, Refusal> {
    let mut decoder = Decoder::new(&view.snapshot, limits);
    let build = decoder.build(request.build.as_ref(), "build", !request.changes.is_empty());
    let changes = decoder.changes(&request.changes, "changes");
    let owned = decoder.items(&request.owned_spares, "owned_spares");
    let practice = decoder.practice(request.limit_practice, "limit_practice");
    let full = match pb::View::try_from(request.view) {
        Ok(found) => found == pb::View::Full,
        Err(_) => {
            decoder.fault("view", request.view.to_string(), "basic or full");
            false
        }
    };
    decoder.finish(())?;
    let found = view.snapshot.revision().revision;
    if request.revision_min > found {
        return Err(Refusal::Stale { wanted: request.revision_min, found });
    }
    let mut assembly = assemble(&build, &changes).map_err(|faults| build_faults(faults, "changes"))?;
    if request.works_today && practice == Practice::Workshop {
        let before = assemble(&build, &[]).map_err(|faults| build_faults(faults, "changes"))?;
        learn(&mut assembly, &before);
    }
    let grounds = view.grounds(practice);
    let interfaces = grounds.interfaces;
    let answer = check(&assembly, &grounds);
    let extras = extras(&answer, &assembly, &owned, interfaces);
    let questions = questions(&answer, &assembly, interfaces, practice);
    let market = view.market_of(extras.iter().map(|extra| extra.kind));
    let change_ids = changes.into_iter().map(|change| change.id).collect();
    let encoder = Encoder { assembly: &assembly, interfaces, practice, market: &market, change_ids };
    Ok(encoder.check(&answer, &extras, &questions, full, view))
}

/// Judges one item of a batch; its fault stays its own.
fn judge_item(item: &pb::BatchCheckItem, view: &View, limits: Limits) -> pb::BatchCheckResult {
    use pb::batch_check_result::Result as Outcome;
    let result = match item.request.as_ref().map(|request| judge(request, view, limits)) {
        Some(Ok(response)) => Outcome::Response(response),
        Some(Err(refusal)) => Outcome::Error(as_message(&refusal.into())),
        None => {
            let fault = Fault {
                path: "request".into(),
                found: "nothing".into(),
                wanted: "a check request".into(),
                nearest: None,
            };
            Outcome::Error(as_message(&Refusal::Invalid(vec![fault]).into()))
        }
    };
    pb::BatchCheckResult { item_id: item.item_id.clone(), result: Some(result) }
}

type Answers<T> = std::pin::Pin<Box<dyn Stream<Item = Result<T, Status>> + Send>>;

#[tonic::async_trait]
impl CompatibilityService for Compatibility {
    type StreamCheckStream = Answers<pb::StreamCheckResponse>;
    type StreamRangeStream = Answers<pb::StreamRangeResponse>;

    async fn check(&self, request: Request<pb::CheckRequest>) -> Result<Response<pb::CheckResponse>, Status> {
        let view = self.view()?;
        let answer = judge(request.get_ref(), &view, self.shared.limits)?;
        self.shared.metrics.verdict(answer.verdict);
        Ok(Response::new(answer))
    }

    async fn batch_check(
        &self,
        request: Request<pb::BatchCheckRequest>,
    ) -> Result<Response<pb::BatchCheckResponse>, Status> {
        let view = self.view()?;
        let limits = self.shared.limits;
        let items = request.into_inner().items;
        let mut decoder = Decoder::new(&view.snapshot, limits);
        decoder.at_most("items", items.len(), limits.batch);
        decoder.finish(())?;
        let results = items.iter().map(|item| self.judge_item(item, &view)).collect();
        Ok(Response::new(pb::BatchCheckResponse { results }))
    }

    async fn stream_check(
        &self,
        request: Request<Streaming<pb::StreamCheckRequest>>,
    ) -> Result<Response<Self::StreamCheckStream>, Status> {
        self.view()?;
        let service = self.clone();
        let answers = request.into_inner().map(move |asked| {
            let view = service.view()?;
            let item = asked?.item.unwrap_or_default();
            Ok(pb::StreamCheckResponse { result: Some(service.judge_item(&item, &view)) })
        });
        Ok(Response::new(Box::pin(answers)))
    }

    async fn range(&self, request: Request<pb::RangeRequest>) -> Result<Response<pb::RangeResponse>, Status> {
        let view = self.view()?;
        Ok(Response::new(range::answer(request.get_ref(), &view, self.shared.limits)?))
    }

    async fn stream_range(
        &self,
        request: Request<Streaming<pb::StreamRangeRequest>>,
    ) -> Result<Response<Self::StreamRangeStream>, Status> {
        use pb::stream_range_response::Result as Outcome;
        self.view()?;
        let service = self.clone();
        let answers = request.into_inner().map(move |asked| {
            let view = service.view()?;
            let asked = asked?;
            let question = asked.request.unwrap_or_default();
            let result = match range::answer(&question, &view, service.shared.limits) {
                Ok(response) => Outcome::Response(response),
                Err(refusal) => Outcome::Error(as_message(&refusal.into())),
            };
            Ok(pb::StreamRangeResponse { item_id: asked.item_id, result: Some(result) })
        });
        Ok(Response::new(Box::pin(answers)))
    }

    async fn recommend(
        &self,
        request: Request<pb::RecommendRequest>,
    ) -> Result<Response<pb::RecommendResponse>, Status> {
        let view = self.view()?;
        let limits = self.shared.limits;
        let deadline = recommend::deadline(request.metadata());
        // A search works off the async threads, a few at a time, so that a flood of them cannot starve checks. A
        // caller that goes away drops the guard, which stops the search.
        let permit =
            self.searches.clone().acquire_owned().await.map_err(|_| broken("the search queue is closed"))?;
        let guard = recommend::Guard::default();
        let stop = guard.flag();
        let searched = tokio::task::spawn_blocking(move || {
            let _permit = permit;
            recommend::answer(request.get_ref(), &view, limits, deadline, &stop)
        });
        let answer = searched.await.map_err(|_| broken("the search failed"))?;
        drop(guard);
        Ok(Response::new(answer?))
    }

    async fn list_rules(
        &self,
        request: Request<pb::ListRulesRequest>,
    ) -> Result<Response<pb::ListRulesResponse>, Status> {
        Ok(Response::new(rules::list(request.get_ref())?))
    }

    async fn get_rule(
        &self,
        request: Request<pb::GetRuleRequest>,
    ) -> Result<Response<pb::GetRuleResponse>, Status> {
        Ok(Response::new(rules::get(request.get_ref())?))
    }
}
