//! What makers state and the shop has ruled, as findings show it.

use sprag_engine::fit::book::{Level, Saying};
use sprag_engine::fit::check::Finding;
use sprag_engine::fit::hear::State;
use sprag_proto::v1 as pb;

use super::words::verdict;

/// Where a finding comes from: the statement that decides, or the rule.
pub fn source(found: &Finding) -> &str {
    let stated = found.decided_by().filter(|saying| saying.level == Level::Statement);
    stated.map_or(found.mating.source, |saying| &saying.source)
}

/// The maker's statement on what meets.
pub fn statement(found: &Finding) -> Option<pb::StatementNote> {
    let saying = found.heard.as_ref()?.statement.as_ref()?;
    Some(pb::StatementNote {
        statement_id: saying.id.clone(),
        verdict: verdict(saying.says),
        text: saying.text.clone(),
        source: saying.source.clone(),
        author: saying.author.clone(),
        date: saying.date.to_string(),
    })
}

/// The house rulings on what meets.
pub fn rulings(found: &Finding) -> Vec<pb::RulingNote> {
    let heard = found.heard.iter().flat_map(|heard| &heard.rulings);
    heard.map(|(saying, state)| ruling(saying, *state)).collect()
}

fn ruling(saying: &Saying, state: State) -> pb::RulingNote {
    pb::RulingNote {
        ruling_id: saying.id.clone(),
        verdict: verdict(saying.says),
        reason: saying.text.clone(),
        author: saying.author.clone(),
        date: saying.date.to_string(),
        valid_until: saying.until.map(|until| until.to_string()).unwrap_or_default(),
        state: match state {
            State::Applied => pb::RulingState::Applied,
            State::Agrees => pb::RulingState::Agrees,
            State::Superseded => pb::RulingState::Superseded,
            State::Expired => pb::RulingState::Expired,
            State::NotYet => pb::RulingState::NotYet,
            State::RefusedInjury => pb::RulingState::RefusedInjury,
            State::RefusedPractice => pb::RulingState::RefusedPractice,
        }
        .into(),
    }
}

/// What the rule says by itself, where something that is said decides.
pub fn computed(found: &Finding) -> Option<&Finding> {
    found.heard.as_ref()?.computed.as_deref()
}
