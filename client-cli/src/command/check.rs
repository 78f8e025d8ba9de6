//! sprag check.

use sprag_proto::v1 as pb;

use super::practice;
use crate::args::{Check, Format};
use crate::connect::Service;
use crate::{files, output};

/// Asks whether it fits; the exit status tells the verdict.
pub async fn check(given: &Check, service: &Service, format: Format) -> anyhow::Result<u8> {
    let mut request = match &given.request {
        Some(path) => files::request(path)?,
        None => {
            let (build, changes) = files::bike(&given.bike)?;
            pb::CheckRequest { build: Some(build), changes, ..pb::CheckRequest::default() }
        }
    };
    request.owned_spares.extend(files::references(&given.owned)?);
    if given.practice.is_some() {
        request.limit_practice = practice(given.practice);
    }
    request.works_today |= given.works_today;
    if given.full {
        request.view = pb::View::Full.into();
    }
    let answer = service.compatibility().await?.check(service.request(request)).await?.into_inner();
    output::print(&answer, format, output::check::check)?;
    Ok(status(&answer))
}

/// 0 fits or works with a caveat, 1 does not fit, 3 not enough data, 4 extra parts are still to be bought.
fn status(answer: &pb::CheckResponse) -> u8 {
    match pb::Verdict::try_from(answer.verdict) {
        Ok(pb::Verdict::DoesNotFit) => 1,
        Ok(pb::Verdict::NotEnoughData) => 3,
        Ok(_) if !answer.unmet_extras.is_empty() => 4,
        Ok(_) => 0,
        Err(_) => 2,
    }
}
