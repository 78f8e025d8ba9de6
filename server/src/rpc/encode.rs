//! Engine answers to messages.

use sprag_catalogue::View;
use sprag_catalogue::convert::encode::text;
use sprag_engine::advice::Market;
use sprag_engine::advice::on_shelf;
use sprag_engine::build::Assembly;
use sprag_engine::explain;
use sprag_engine::fit::check::{Answer, Finding, NotChecked, part_at};
use sprag_engine::fit::extras::{ExtraPart, Trait};
use sprag_engine::fit::question::Question;
use sprag_engine::fit::rule::Judgement;
use sprag_engine::fit::{Outcome, Practice};
use sprag_engine::part::interface::Interfaces;
use sprag_engine::part::{Attribute, Form, Kind, Origin, Part, Set, Unit};
use sprag_proto::v1 as pb;

use super::said;
use super::words::{evidence, hazard, unit, verdict};

/// SKUs shown beside an extra part.
const SKUS_MAX: usize = 5;

/// Writes answers about one bike.
pub struct Encoder<'a> {
    /// The bike.
    pub assembly: &'a Assembly,
    /// The interfaces.
    pub interfaces: &'a Interfaces,
    /// How limits were held.
    pub practice: Practice,
    /// What can be bought.
    pub market: &'a Market,
    /// The caller's names of the changes.
    pub change_ids: Vec<String>,
}

impl Encoder<'_> {
    fn name(&self, place: Option<usize>) -> String {
        place.map_or_else(|| "use".to_owned(), |place| self.assembly.placed[place].id.clone())
    }

    /// A finding.
    pub fn finding(&self, found: &Finding) -> pb::Finding {
        let first = found.judgements.first();
        let mut change_ids: Vec<String> = found
            .items
            .iter()
            .flatten()
            .filter_map(|place| self.change_ids.get(self.assembly.placed[*place].change?).cloned())
            .collect();
        change_ids.sort();
        change_ids.dedup();
        pb::Finding {
            rule: format!("{}/{}", found.mating.code, found.rule.code),
            outcome: verdict(found.outcome),
            reason: found.reason().to_owned(),
            hazard: hazard(found.hazard()),
            evidence: found.evidence().map_or(0, evidence),
            numbers: first.map(numbers).unwrap_or_default(),
            items: found.items.iter().flatten().map(|place| self.name(Some(*place))).collect(),
            change_ids,
            tolerated: first.is_some_and(|judgement| judgement.reason.tolerated),
            strong: first.is_some_and(|judgement| judgement.reason.strong),
            missing: found
                .missing
                .iter()
                .map(|(place, attribute)| pb::MissingValue {
                    item_id: self.name(*place),
                    attribute: attribute.name().to_owned(),
                })
                .collect(),
            remedies: if found.outcome == Outcome::DoesNotFit || found.outcome == Outcome::Caveat {
                first.map(|judgement| self.remedies(judgement)).unwrap_or_default()
            } else {
                Vec::new()
            },
            text: explain::finding(found, self.assembly),
            caution: explain::caution(found).to_owned(),
            source: said::source(found).to_owned(),
            statement: said::statement(found),
            rulings: said::rulings(found),
            computed_outcome: said::computed(found).map_or(0, |found| verdict(found.outcome)),
            computed_reason: said::computed(found).map(|found| found.reason().to_owned()).unwrap_or_default(),
            other_reasons: found
                .judgements
                .iter()
                .skip(1)
                .map(|judgement| judgement.reason.code.to_owned())
                .collect(),
        }
    }

    fn remedies(&self, judgement: &Judgement) -> Vec<pb::Remedy> {
        let remedies = judgement.reason.remedies.iter();
        remedies
            .map(|remedy| pb::Remedy {
                action: remedy.action.to_owned(),
                kind: remedy.kind.map(|kind| kind.name().to_owned()).unwrap_or_default(),
                traits: Vec::new(),
                text: explain::fill(remedy.text, judgement),
            })
            .collect()
    }

    /// An extra part.
    pub fn extra(&self, extra: &ExtraPart) -> pb::ExtraPart {
        let stock = on_shelf(extra, self.market);
        pb::ExtraPart {
            kind: extra.kind.name().to_owned(),
            traits: extra.traits.iter().map(|wanted| self.wanted_trait(extra.kind, wanted)).collect(),
            quantity: i32::try_from(extra.quantity).unwrap_or(i32::MAX),
            rule: extra.rule.clone(),
            optional: extra.optional,
            skus_in_stock: stock.iter().take(SKUS_MAX).map(|offer| offer.part.sku.to_string()).collect(),
            met_by: extra.met_by.clone().unwrap_or_default(),
            text: explain::extra_part(extra, self.interfaces),
        }
    }

    fn wanted_trait(&self, kind: Kind, wanted: &Trait) -> pb::Trait {
        trait_of(kind, wanted.attribute, wanted.low, wanted.high, |value| {
            explain::value(kind, wanted.attribute, value, self.interfaces)
        })
    }

    /// A question, with what is only inferred as a hint.
    pub fn question(&self, question: &Question) -> pb::Question {
        let part = part_at(self.assembly, question.place);
        let Some(spec) = part.kind.attribute(question.attribute) else { return pb::Question::default() };
        let numeric = spec.unit != Unit::None;
        let keys = question
            .passing
            .iter()
            .map(|(value, _)| explain::value(part.kind, question.attribute, *value, self.interfaces));
        pb::Question {
            item_id: self.name(question.place),
            kind: part.kind.name().to_owned(),
            attribute: question.attribute.name().to_owned(),
            unit: unit(spec.unit),
            text: spec.question.to_owned(),
            how_to_measure: spec.measure.to_owned(),
            passing_ranges: if numeric {
                question
                    .passing
                    .iter()
                    .map(|(low, high)| pb::PassingRange { low: *low, high: *high })
                    .collect()
            } else {
                Vec::new()
            },
            passing_keys: if numeric { Vec::new() } else { keys.collect() },
            rules: question.rules.clone(),
            hint: hint(part, question.attribute, self.interfaces),
        }
    }

    /// A mating that was not judged.
    pub fn not_checked(&self, found: &NotChecked) -> pb::NotChecked {
        let mut missing_kinds: Vec<String> =
            found.missing.iter().flat_map(|slot| slot.kinds()).map(|kind| kind.name().to_owned()).collect();
        missing_kinds.dedup();
        pb::NotChecked {
            mating: found.mating.code.to_owned(),
            items: found.items.iter().map(|place| self.name(Some(*place))).collect(),
            missing_kinds,
            asks: found
                .asks
                .iter()
                .filter_map(|(place, attribute)| self.brings(*place, *attribute))
                .collect(),
        }
    }

    fn brings(&self, place: usize, attribute: Attribute) -> Option<pb::Trait> {
        let part = &self.assembly.placed[place].part;
        let (low, high) = match part.judged(attribute) {
            Set::Exact(value) => (*value, *value),
            Set::Between(low, high) => (*low, *high),
            Set::OneOf(values) => (*values.first()?, *values.last()?),
            _ => return None,
        };
        Some(trait_of(part.kind, attribute, low, high, |value| {
            text(part, attribute, value, self.interfaces)
                .unwrap_or_else(|| explain::value(part.kind, attribute, value, self.interfaces))
        }))
    }

    /// The whole answer to a check.
    pub fn check(
        &self,
        answer: &Answer,
        extras: &[ExtraPart],
        questions: &[Question],
        full: bool,
        view: &View,
    ) -> pb::CheckResponse {
        // What makers state and the shop has ruled is always shown.
        let shown = |finding: &&Finding| full || finding.outcome != Outcome::Fits || finding.heard.is_some();
        let extra_parts: Vec<pb::ExtraPart> = extras.iter().map(|extra| self.extra(extra)).collect();
        let unmet =
            extra_parts.iter().filter(|extra| !extra.optional && extra.met_by.is_empty()).cloned().collect();
        let (must_change, may_stay) = self.changing_and_staying(answer);
        pb::CheckResponse {
            verdict: verdict(answer.verdict.headline),
            caveat: answer.verdict.caveat,
            extra_parts_needed: answer.verdict.extra_parts,
            findings: answer.touched().filter(shown).map(|found| self.finding(found)).collect(),
            pre_existing: answer
                .findings
                .iter()
                .filter(|found| !found.touched)
                .filter(shown)
                .map(|found| self.finding(found))
                .collect(),
            not_checked: answer.not_checked.iter().map(|found| self.not_checked(found)).collect(),
            not_judged: answer.not_judged.iter().map(|place| self.not_judged(*place)).collect(),
            questions: questions.iter().map(|question| self.question(question)).collect(),
            extra_parts,
            unmet_extras: unmet,
            must_change,
            may_stay,
            assembly_notes: notes(answer),
            cautions: cautions(answer),
            applied_changes: self
                .assembly
                .applied
                .iter()
                .map(|applied| pb::AppliedChange {
                    change_id: applied.change.clone(),
                    fitted: applied.fitted.clone(),
                    removed: applied.removed.clone(),
                })
                .collect(),
            basis: Some(super::basis::basis(view, Some(self.practice))),
        }
    }

    fn not_judged(&self, place: usize) -> pb::NotJudged {
        let placed = &self.assembly.placed[place];
        pb::NotJudged {
            item_id: placed.id.clone(),
            kind: placed.part.kind.name().to_owned(),
            text: placed.part.kind.spec().not_judged.to_owned(),
        }
    }

    /// Items of the bike that a failing mating asks to change, and items that meet the new parts without trouble.
    fn changing_and_staying(&self, answer: &Answer) -> (Vec<String>, Vec<String>) {
        let (mut must, mut may, mut open) = (Vec::new(), Vec::new(), Vec::new());
        for found in answer.touched() {
            // A way out names the kinds that would have to change; where it names none, all that meet are meant.
            let remedies = found.judgements.iter().flat_map(|judgement| judgement.reason.remedies);
            let kinds: Vec<Kind> = remedies.filter_map(|remedy| remedy.kind).collect();
            for place in found.items.iter().flatten() {
                let placed = &self.assembly.placed[*place];
                if placed.change.is_some() || placed.all_rings {
                    continue;
                }
                let meant = kinds.is_empty() || kinds.contains(&placed.part.kind);
                let list = match found.outcome {
                    Outcome::DoesNotFit if meant => &mut must,
                    Outcome::DoesNotFit => continue,
                    Outcome::NotEnoughData => &mut open,
                    _ => &mut may,
                };
                if !list.contains(&placed.id) {
                    list.push(placed.id.clone());
                }
            }
        }
        may.retain(|name| !must.contains(name) && !open.contains(name));
        (must, may)
    }
}

/// The numbers of a judgement.
fn numbers(judgement: &Judgement) -> Vec<pb::Number> {
    judgement
        .figures()
        .map(|figure| pb::Number {
            name: figure.name.to_owned(),
            unit: unit(figure.unit),
            value: figure.low,
            high: (figure.high != figure.low).then_some(figure.high),
        })
        .collect()
}

fn trait_of(
    kind: Kind,
    attribute: Attribute,
    low: i64,
    high: i64,
    name: impl Fn(i64) -> String,
) -> pb::Trait {
    let spec = kind.attribute(attribute);
    let numeric = spec.is_some_and(|spec| matches!(spec.form, Form::Integer | Form::List));
    pb::Trait {
        attribute: attribute.name().to_owned(),
        unit: spec.map_or(0, |spec| unit(spec.unit)),
        key: if numeric { String::new() } else { name(low) },
        value: numeric.then_some(low),
        high: (numeric && high != low).then_some(high),
    }
}

/// What was only inferred of an attribute, as text.
fn hint(part: &Part, attribute: Attribute, interfaces: &Interfaces) -> String {
    let value = part.value(attribute);
    if value.origin != Origin::Inferred {
        return String::new();
    }
    let show = |found: i64| {
        text(part, attribute, found, interfaces)
            .unwrap_or_else(|| explain::value(part.kind, attribute, found, interfaces))
    };
    match &value.set {
        Set::Exact(found) => format!("{} was inferred, not stated", show(*found)),
        Set::OneOf(found) => {
            let shown: Vec<String> = found.iter().map(|value| show(*value)).collect();
            format!("{} were inferred, not stated", shown.join(" or "))
        }
        Set::Between(low, high) => format!("{} to {} was inferred, not stated", show(*low), show(*high)),
        _ => String::new(),
    }
}

/// Notes for the assembly, each once.
fn notes(answer: &Answer) -> Vec<pb::AssemblyNote> {
    let mut notes: Vec<pb::AssemblyNote> = Vec::new();
    for found in answer.touched() {
        for judgement in found.judgements.iter().filter(|judgement| !judgement.reason.note.is_empty()) {
            let text = explain::fill(judgement.reason.note, judgement);
            if notes.iter().all(|note| note.text != text) {
                notes.push(pb::AssemblyNote {
                    rule: format!("{}/{}", found.mating.code, found.rule.code),
                    text,
                });
            }
        }
    }
    notes
}

/// Cautions, each once.
fn cautions(answer: &Answer) -> Vec<String> {
    let mut cautions: Vec<String> = Vec::new();
    for found in answer.touched() {
        let caution = explain::caution(found);
        if !caution.is_empty() && cautions.iter().all(|known| known != caution) {
            cautions.push(caution.to_owned());
        }
    }
    cautions
}
