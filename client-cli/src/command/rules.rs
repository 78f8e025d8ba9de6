//! sprag rules.

use std::fmt::Write;

use sprag_proto::v1 as pb;

use crate::args::{Format, Rules};
use crate::connect::Service;
use crate::output;
use crate::output::table::verdict;

/// Shows rules.
pub async fn rules(given: Rules, service: &Service, format: Format) -> anyhow::Result<u8> {
    let mut client = service.compatibility().await?;
    match given {
        Rules::List => {
            let mut all = pb::ListRulesResponse::default();
            loop {
                let request =
                    pb::ListRulesRequest { page_size: 200, page_token: all.next_page_token.clone() };
                let page = client.list_rules(request).await?.into_inner();
                all.matings.extend(page.matings);
                all.next_page_token = page.next_page_token;
                if all.next_page_token.is_empty() {
                    break;
                }
            }
            output::print(&all, format, list)?;
        }
        Rules::Show { rule } => {
            let page = client.get_rule(pb::GetRuleRequest { rule }).await?.into_inner();
            output::print(&page, format, show)?;
        }
    }
    Ok(0)
}

fn list(all: &pb::ListRulesResponse) -> String {
    let mut out = String::new();
    for mating in &all.matings {
        let _ = writeln!(out, "{}  ({})", mating.title, mating.mating);
        for rule in &mating.rules {
            let code = rule.rule.rsplit('/').next().unwrap_or_default();
            let _ = writeln!(out, "  {code}: reads {}", rule.inputs.join(", "));
        }
    }
    out
}

fn show(page: &pb::GetRuleResponse) -> String {
    let mut out = format!("{}\n", page.page.trim_end());
    for rule in page.mating.iter().flat_map(|mating| &mating.rules) {
        let _ = writeln!(out, "\n## {}\nReads: {}", rule.rule, rule.inputs.join(", "));
        for reason in &rule.reasons {
            let limit = if reason.tolerated { "; refused under maker limits" } else { "" };
            let _ =
                writeln!(out, "  {}: {} ({}{limit})", reason.reason, reason.text, verdict(reason.outcome));
        }
    }
    out
}
