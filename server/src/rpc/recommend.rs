//! Recommendations: decode, search within steps and deadline, encode.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use sprag_catalogue::View;
use sprag_engine::advice::{
    Advice, Ask, BUDGET, Found, Goal, KEEP, Market, NearMiss, Objective, Obstacle, Offer, Wish, advise,
};
use sprag_engine::build::{Assembly, Build, Change, Item, assemble};
use sprag_engine::explain;
use sprag_engine::fit::Outcome;
use sprag_engine::fit::question::questions;
use sprag_engine::fit::registry;
use sprag_engine::part::interface::Interfaces;
use sprag_proto::text::{Fault, nearest};
use sprag_proto::v1 as pb;
use tonic::metadata::MetadataMap;

use super::decode::{Decoder, build_faults};
use super::encode::Encoder;
use super::status::Refusal;
use super::words::verdict;
use crate::ops::limits::Limits;

/// Left of a caller's deadline for encoding and sending the answer.
const RESERVE: Duration = Duration::from_millis(20);
const OPTIONS_DEFAULT: usize = 10;
const OPTIONS_MAX: i32 = 100;
const STEPS_MAX: i64 = 10_000_000;

/// Stops a search when it is dropped.
#[derive(Default)]
pub struct Guard(Arc<AtomicBool>);

impl Guard {
    /// The flag that the search asks.
    pub fn flag(&self) -> Arc<AtomicBool> {
        self.0.clone()
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// The moment by which a caller wants an answer: the grpc-timeout header, such as "500m".
pub fn deadline(metadata: &MetadataMap) -> Option<Instant> {
    let header = metadata.get("grpc-timeout")?.to_str().ok()?;
    let (digits, unit) = header.split_at_checked(header.len().checked_sub(1)?)?;
    let amount: u64 = digits.parse().ok().filter(|_| digits.len() <= 8)?;
    let timeout = match unit {
        "H" => Duration::from_secs(amount.saturating_mul(3600)),
        "M" => Duration::from_secs(amount.saturating_mul(60)),
        "S" => Duration::from_secs(amount),
        "m" => Duration::from_millis(amount),
        "u" => Duration::from_micros(amount),
        "n" => Duration::from_nanos(amount),
        _ => return None,
    };
    Instant::now().checked_add(timeout.saturating_sub(RESERVE))
}

/// Answers a request.
pub fn answer(
    request: &pb::RecommendRequest,
    view: &View,
    limits: Limits,
    deadline: Option<Instant>,
    stop: &AtomicBool,
) -> Result<pb::RecommendResponse, Refusal> {
    let asked = read(request, view, limits)?;
    let market = market(view, &asked.owned);
    let grounds = view.grounds(asked.practice);
    let cancelled =
        || stop.load(Ordering::Relaxed) || deadline.is_some_and(|deadline| Instant::now() >= deadline);
    let ask = Ask {
        build: &asked.build,
        wish: asked.wish,
        market: &market,
        interfaces: grounds.interfaces,
        book: grounds.book,
        as_of: grounds.as_of,
        practice: asked.practice,
        keep: request.keep.clone(),
        out_of_stock_allowed: request.out_of_stock_allowed,
        owned: asked.owned,
        objective: asked.objective,
        options_max: asked.options_max,
        budget: asked.budget,
        steps_max: asked.steps_max,
        cancelled: &cancelled,
    };
    let before = assemble(&asked.build, &[]).map_err(|faults| build_faults(faults, "wish"))?;
    check_keep(&request.keep, &before)?;
    let advice = advise(&ask).map_err(|faults| build_faults(faults, "wish.complete.changes"))?;
    Ok(write(&ask, &advice, &before, view))
}

/// What is to stay must be there: a slip would lose the wish without a word.
fn check_keep(keep: &[String], bike: &Assembly) -> Result<(), Refusal> {
    let names = || bike.placed.iter().flat_map(|placed| [placed.id.as_str(), placed.part.kind.name()]);
    let fault = |(index, name): (usize, &String)| Fault {
        path: format!("keep[{index}]"),
        found: format!("nothing on the bike is called {name:?}"),
        wanted: "an item or a kind of the bike".into(),
        nearest: nearest(name, names()),
    };
    let unknown: Vec<Fault> =
        keep.iter().enumerate().filter(|(_, name)| names().all(|known| known != *name)).map(fault).collect();
    if unknown.is_empty() { Ok(()) } else { Err(Refusal::Invalid(unknown)) }
}

struct Asked {
    build: Build,
    wish: Wish,
    practice: sprag_engine::fit::Practice,
    owned: Vec<Item>,
    objective: Objective,
    options_max: usize,
    budget: Option<i64>,
    steps_max: u64,
}

fn read(request: &pb::RecommendRequest, view: &View, limits: Limits) -> Result<Asked, Refusal> {
    use pb::wish::Question;
    let mut decoder = Decoder::new(&view.snapshot, limits);
    let build = decoder.build(request.build.as_ref(), "build", false);
    let owned = decoder.items(&request.owned_spares, "owned_spares");
    let practice = decoder.practice(request.limit_practice, "limit_practice");
    let wish = match request.wish.as_ref().and_then(|wish| wish.question.as_ref()) {
        None => {
            decoder.fault("wish", "nothing", "substitute, complete or upgrade");
            None
        }
        Some(Question::Substitute(found)) => {
            let wanted =
                found.wanted.as_ref().and_then(|wanted| decoder.item(wanted, "wish.substitute.wanted"));
            let item = if found.item_id.is_empty() {
                wanted.as_ref().map(|item| item_of_kind(&build, item)).unwrap_or_default()
            } else {
                found.item_id.clone()
            };
            if item.is_empty() {
                decoder.fault("wish.substitute.item_id", "nothing", "the item whose stand-in is wanted");
            }
            Some(Wish::Substitute { item, wanted })
        }
        Some(Question::Complete(found)) => {
            if found.changes.is_empty() {
                decoder.fault("wish.complete.changes", "an empty basket", "at least one change");
            }
            let changes: Vec<Change> = decoder.changes(&found.changes, "wish.complete.changes");
            Some(Wish::Complete { changes })
        }
        Some(Question::Upgrade(found)) => {
            let goal = Goal {
                lowest_ratio_permille_max: found.lowest_ratio_permille_max,
                highest_ratio_permille_min: found.highest_ratio_permille_min,
                range_percent_min: found.range_percent_min,
            };
            let set =
                [goal.lowest_ratio_permille_max, goal.highest_ratio_permille_min, goal.range_percent_min];
            if set.iter().all(Option::is_none) {
                decoder.fault("wish.upgrade", "no goal", "at least one goal");
            }
            for value in set.into_iter().flatten().filter(|value| !(1..=1_000_000).contains(value)) {
                decoder.fault("wish.upgrade", value.to_string(), "1 to 1 000 000");
            }
            Some(Wish::Upgrade { goal })
        }
    };
    let objective = read_bounds(&mut decoder, request, view);
    let options_max =
        usize::try_from(request.options_max).ok().filter(|max| *max > 0).unwrap_or(OPTIONS_DEFAULT);
    let steps_max = u64::try_from(request.steps_max)
        .ok()
        .filter(|max| *max > 0)
        .unwrap_or(limits.search_steps)
        .min(limits.search_steps);
    let budget = request.budget.as_ref().map(|budget| budget.minor_units);
    let wish = decoder.finish(wish)?.unwrap_or(Wish::Complete { changes: Vec::new() });
    Ok(Asked { build, wish, practice, owned, objective, options_max, budget, steps_max })
}

/// Reads what counts most, and checks the bounds of the search.
fn read_bounds(decoder: &mut Decoder<'_>, request: &pb::RecommendRequest, view: &View) -> Objective {
    let objective = match pb::Objective::try_from(request.objective) {
        Ok(pb::Objective::LowestPrice) => Objective::LowestPrice,
        Ok(pb::Objective::LowestMass) => Objective::LowestMass,
        Ok(_) => Objective::FewestChanges,
        Err(_) => {
            decoder.fault(
                "objective",
                request.objective.to_string(),
                "fewest changes, lowest price or lowest mass",
            );
            Objective::FewestChanges
        }
    };
    if !(0..=OPTIONS_MAX).contains(&request.options_max) {
        decoder.fault("options_max", request.options_max.to_string(), "0 to 100");
    }
    if !(0..=STEPS_MAX).contains(&request.steps_max) {
        decoder.fault("steps_max", request.steps_max.to_string(), "0 to 10 000 000");
    }
    if let Some(budget) = &request.budget
        && budget.minor_units < 0
    {
        decoder.fault("budget.minor_units", budget.minor_units.to_string(), "0 or more");
    }
    if let Some(budget) = &request.budget
        && budget.currency_code != view.currency()
    {
        let wanted = format!("the currency of the shelf, {:?}", view.currency());
        decoder.fault("budget.currency_code", format!("{:?}", budget.currency_code), wanted);
    }
    objective
}

/// The item of the bike that has the kind of a part.
fn item_of_kind(build: &Build, wanted: &Item) -> String {
    let found = build.items.iter().find(|item| item.part.kind == wanted.part.kind);
    found
        .map(|item| if item.id.is_empty() { item.part.kind.name().to_owned() } else { item.id.clone() })
        .unwrap_or_default()
}

/// The shelf and the customer's own spares.
fn market(view: &View, owned: &[Item]) -> Market {
    let spares = owned.iter().map(|item| Offer {
        part: item.part.clone(),
        price: Some(0),
        stock: i64::from(item.quantity.max(1)),
        owned: true,
    });
    Market::new(view.offers().chain(spares))
}

fn write(ask: &Ask<'_>, advice: &Advice, before: &Assembly, view: &View) -> pb::RecommendResponse {
    let options =
        (1..).zip(&advice.options).map(|(rank, found)| option(ask, rank, found, before, view)).collect();
    pb::RecommendResponse {
        options,
        obstacles: advice.obstacles.iter().map(|found| obstacle(ask, found)).collect(),
        near_misses: advice.near_misses.iter().map(|found| near_miss(ask, found, view)).collect(),
        unfinished: advice.unfinished,
        steps: i64::try_from(advice.steps).unwrap_or(i64::MAX),
        basis: Some(super::basis::basis(view, Some(ask.practice))),
    }
}

fn encoder<'a>(ask: &Ask<'a>, assembly: &'a Assembly) -> Encoder<'a> {
    Encoder {
        assembly,
        interfaces: ask.interfaces,
        practice: ask.practice,
        market: ask.market,
        change_ids: assembly.applied.iter().map(|applied| applied.change.clone()).collect(),
    }
}

fn option(ask: &Ask<'_>, rank: i32, found: &Found, before: &Assembly, view: &View) -> pb::Option {
    let encoder = encoder(ask, &found.assembly);
    let questions = questions(&found.answer, &found.assembly, ask.interfaces, ask.practice);
    let steps: Vec<pb::Step> = found
        .steps
        .iter()
        .map(|step| pb::Step {
            replaces: step.replaces.clone(),
            fit: Some(shelf_part(&step.offer, view)),
            quantity: 1,
        })
        .collect();
    pb::Option {
        rank,
        steps,
        verdict: verdict(found.answer.verdict.headline),
        findings: found
            .answer
            .touched()
            .filter(|finding| finding.outcome != Outcome::Fits)
            .map(|finding| encoder.finding(finding))
            .collect(),
        extra_parts: found.extras.iter().map(|(extra, _)| encoder.extra(extra)).collect(),
        conditional_on: questions.iter().map(|question| encoder.question(question)).collect(),
        stays: found.stays.clone(),
        price: found.price.map(|minor_units| pb::Money { currency_code: view.currency(), minor_units }),
        mass_change_g: found.mass_change_g,
        gearing: super::range::difference(before, &found.assembly),
        text: trade_off(found, ask.interfaces),
    }
}

/// The trade-off in one sentence.
fn trade_off(found: &Found, interfaces: &Interfaces) -> String {
    let mut clauses = Vec::new();
    match found.steps.len() {
        0 => clauses.push("nothing more has to change".to_owned()),
        1 => clauses.push("one part changes".to_owned()),
        more => clauses.push(format!("{more} parts change")),
    }
    let needed = found.extras.iter().filter(|(extra, _)| !extra.optional && extra.met_by.is_none());
    for (extra, offer) in needed {
        let label = explain::extra_part(extra, interfaces);
        clauses.push(match offer {
            Some(_) => format!("with a {label}"),
            None => format!("with a {label}, which is not on the shelf"),
        });
    }
    if let Some(worst) = found.answer.touched().find(|finding| finding.outcome == Outcome::Caveat) {
        clauses.push(format!("but {}", explain::finding(worst, &found.assembly)));
    }
    if found.conditional {
        clauses.push("and only if the open questions are answered well".to_owned());
    }
    clauses.join(", ")
}

fn shelf_part(offer: &Offer, view: &View) -> pb::ShelfPart {
    pb::ShelfPart {
        sku: offer.part.sku.to_string(),
        name: offer.part.name.to_string(),
        kind: offer.part.kind.name().to_owned(),
        price: offer.price.map(|minor_units| pb::Money { currency_code: view.currency(), minor_units }),
        stock: offer.stock,
        mass_g: offer.mass_g(),
    }
}

fn obstacle(ask: &Ask<'_>, found: &Obstacle) -> pb::Obstacle {
    match &found.example {
        Some((finding, assembly)) => {
            let written = encoder(ask, assembly).finding(finding);
            pb::Obstacle { rule: found.cause.clone(), items: written.items, text: written.text }
        }
        None => pb::Obstacle { rule: found.cause.clone(), items: Vec::new(), text: cause_text(&found.cause) },
    }
}

fn cause_text(cause: &str) -> String {
    match cause {
        BUDGET => return "every way costs more than the budget".to_owned(),
        KEEP => return "every way changes something that is to be kept".to_owned(),
        _ => {}
    }
    match registry::find(cause) {
        Some(mating) => format!("no part on the shelf passes {}", mating.title.to_lowercase()),
        None => "no set of parts on the shelf reaches the goal".to_owned(),
    }
}

fn near_miss(ask: &Ask<'_>, found: &NearMiss, view: &View) -> pb::NearMiss {
    let encoder = encoder(ask, &found.assembly);
    pb::NearMiss {
        part: Some(shelf_part(&found.offer, view)),
        findings: found.findings.iter().map(|finding| encoder.finding(finding)).collect(),
    }
}
