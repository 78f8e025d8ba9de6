//! The rules as an API: what is checked, why, and what can be said.

use sprag_engine::fit::{Mating, Rule, registry};
use sprag_proto::text::{Fault, nearest};
use sprag_proto::v1 as pb;

use super::status::Refusal;
use super::words::{hazard, verdict};

const PAGE_DEFAULT: usize = 50;
const PAGE_MAX: usize = 200;

/// A page of matings with their rules.
pub fn list(request: &pb::ListRulesRequest) -> Result<pb::ListRulesResponse, Refusal> {
    let size = match usize::try_from(request.page_size) {
        Ok(0) => PAGE_DEFAULT,
        Ok(size) => size.min(PAGE_MAX),
        Err(_) => return Err(fault("page_size", &request.page_size.to_string(), "0 or more")),
    };
    // Rules never change while a server runs, so a page token is the code of the last mating.
    let start = if request.page_token.is_empty() {
        0
    } else {
        let last = registry::MATINGS.iter().position(|mating| mating.code == request.page_token);
        last.ok_or_else(|| fault("page_token", &request.page_token, "the token of a previous page"))? + 1
    };
    let page: Vec<&&Mating> = registry::MATINGS.iter().skip(start).take(size).collect();
    let more = start + page.len() < registry::MATINGS.len();
    Ok(pb::ListRulesResponse {
        next_page_token: page
            .last()
            .filter(|_| more)
            .map(|mating| mating.code.to_owned())
            .unwrap_or_default(),
        matings: page.into_iter().map(|mating| write(mating)).collect(),
    })
}

/// One mating with its page.
pub fn get(request: &pb::GetRuleRequest) -> Result<pb::GetRuleResponse, Refusal> {
    let mating = registry::find(&request.rule).ok_or_else(|| Refusal::NotFound {
        what: "rule",
        name: request.rule.chars().take(100).collect(),
        nearest: nearest(&request.rule, registry::MATINGS.iter().map(|mating| mating.code)),
    })?;
    Ok(pb::GetRuleResponse { mating: Some(write(mating)), page: mating.page() })
}

fn fault(path: &str, found: &str, wanted: &str) -> Refusal {
    Refusal::Invalid(vec![Fault {
        path: path.into(),
        found: found.into(),
        wanted: wanted.into(),
        nearest: None,
    }])
}

fn write(mating: &Mating) -> pb::Mating {
    pb::Mating {
        mating: mating.code.to_owned(),
        title: mating.title.to_owned(),
        rules: mating.rules.iter().map(|rule| write_rule(mating, rule)).collect(),
    }
}

fn write_rule(mating: &Mating, rule: &Rule) -> pb::Rule {
    pb::Rule {
        rule: format!("{}/{}", mating.code, rule.code),
        kinds: rule.slots.iter().flat_map(|slot| slot.kinds()).map(|kind| kind.name().to_owned()).collect(),
        inputs: rule
            .inputs
            .iter()
            .map(|(slot, attribute)| format!("{}.{}", slot.name(), attribute.name()))
            .collect(),
        reasons: rule
            .reasons
            .iter()
            .map(|reason| pb::Reason {
                reason: reason.code.to_owned(),
                outcome: verdict(reason.outcome),
                hazard: hazard(reason.hazard),
                tolerated: reason.tolerated,
                text: reason.text.to_owned(),
            })
            .collect(),
    }
}
