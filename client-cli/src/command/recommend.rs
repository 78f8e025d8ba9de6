//! sprag recommend.

use sprag_proto::v1 as pb;
use sprag_proto::v1::wish::Question;

use super::practice;
use crate::args::{Format, Objective, Recommend, Wishes};
use crate::connect::Service;
use crate::{files, output};

/// Asks for options; exit status 1 where there is none.
pub async fn recommend(given: Recommend, service: &Service, format: Format) -> anyhow::Result<u8> {
    let (build, question, wishes) = match given {
        Recommend::Substitute { build, item, wanted, wishes } => {
            let wanted = wanted.as_deref().map(files::reference).transpose()?;
            let question = Question::Substitute(pb::Substitute { item_id: item.unwrap_or_default(), wanted });
            (files::build(&build)?, question, wishes)
        }
        Recommend::Complete { bike, wishes } => {
            let (build, changes) = files::bike(&bike)?;
            (build, Question::Complete(pb::Complete { changes }), wishes)
        }
        Recommend::Upgrade { build, lowest_ratio, highest_ratio, range_percent, wishes } => {
            let question = Question::Upgrade(pb::Upgrade {
                lowest_ratio_permille_max: lowest_ratio.map(permille),
                highest_ratio_permille_min: highest_ratio.map(permille),
                range_percent_min: range_percent,
            });
            (files::build(&build)?, question, wishes)
        }
    };
    let request = request(build, question, &wishes)?;
    let answer = service.compatibility().await?.recommend(service.request(request)).await?.into_inner();
    output::print(&answer, format, output::recommend::recommend)?;
    Ok(u8::from(answer.options.is_empty()))
}

/// A ratio in thousandths; the service checks the range.
fn permille(ratio: f64) -> i64 {
    (ratio * 1000.0).round() as i64
}

fn request(build: pb::Build, question: Question, wishes: &Wishes) -> anyhow::Result<pb::RecommendRequest> {
    let budget = wishes.budget.as_deref().map(sprag_proto::text::money_from_text).transpose();
    Ok(pb::RecommendRequest {
        build: Some(build),
        wish: Some(pb::Wish { question: Some(question) }),
        limit_practice: practice(wishes.practice),
        keep: wishes.keep.clone(),
        out_of_stock_allowed: wishes.out_of_stock,
        owned_spares: files::references(&wishes.owned)?,
        objective: match wishes.objective {
            Objective::FewestChanges => pb::Objective::FewestChanges,
            Objective::LowestPrice => pb::Objective::LowestPrice,
            Objective::LowestMass => pb::Objective::LowestMass,
        }
        .into(),
        options_max: wishes.options,
        budget: budget.map_err(|wanted| anyhow::anyhow!("--budget: {wanted}"))?,
        steps_max: 0,
    })
}
