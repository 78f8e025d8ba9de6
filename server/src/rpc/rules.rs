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
    let mating = find(&request.rule)?;
    Ok(pb::GetRuleResponse { mating: Some(write(mating)), page: mating.page() })
}

/// The mating of a code: its own, that of a rule or reason with what it belongs to before it, or, where only one mating
/// has it, that of a rule or reason alone.
fn find(code: &str) -> Result<&'static Mating, Refusal> {
    let mut all: Vec<(String, &'static Mating)> = Vec::new();
    let mut short: Vec<(&str, String, &'static Mating)> = Vec::new();
    for mating in registry::MATINGS {
        all.push((mating.code.to_owned(), mating));
        for rule in mating.rules {
            let name = format!("{}/{}", mating.code, rule.code);
            short.push((rule.code, name.clone(), mating));
            for reason in rule.reasons {
                let longer = format!("{name}/{}", reason.code);
                short.push((reason.code, longer.clone(), mating));
                all.push((longer, mating));
            }
            all.push((name, mating));
        }
    }
    if let Some((_, mating)) = all.iter().find(|(known, _)| known == code) {
        return Ok(mating);
    }
    let named: Vec<_> = short.iter().filter(|(known, ..)| *known == code).collect();
    if let [(_, _, first), rest @ ..] = named.as_slice() {
        if rest.iter().all(|(_, _, other)| other.code == first.code) {
            return Ok(first);
        }
        let names: Vec<&str> = named.iter().map(|(_, name, _)| name.as_str()).collect();
        return Err(fault(
            "rule",
            &format!("{code:?}, which several matings have"),
            &format!("one of {}", names.join(", ")),
        ));
    }
    // A misspelt code on its own is nearer to codes of its kind than to their full names.
    let codes = short.iter().map(|(known, ..)| *known);
    Err(Refusal::NotFound {
        what: "rule",
        name: code.chars().take(100).collect(),
        nearest: nearest(code, all.iter().map(|(known, _)| known.as_str()).chain(codes)),
    })
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
