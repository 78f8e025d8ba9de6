//! Puts a case before the engine.

use std::sync::Arc;

use serde_json::{Value as Json, json};
use sprag_catalogue::convert;
use sprag_engine::build::{Assembly, Build, Change, End, Item, assemble};
use sprag_engine::explain;
use sprag_engine::fit::check::{Answer, Finding, check, part_at};
use sprag_engine::fit::extras::extras;
use sprag_engine::fit::question::{Question, questions};
use sprag_engine::fit::{self, Grounds, Outcome};
use sprag_engine::part::interface::Interfaces;
use sprag_proto::text;
use sprag_proto::v1;

use super::data::{Case, Practice, Verdict};

/// The engine's answer to a case.
pub struct Answered {
    pub assembly: Assembly,
    pub answer: Answer,
    pub questions: Vec<Question>,
    pub extras: Vec<String>,
    /// The rules that ask for them, in the same order: "mating/rule".
    asking: Vec<String>,
}

/// The request that a case makes, with or without what it assumes.
pub fn request(case: &Case, with_assumed: bool) -> Result<Json, String> {
    let mut request = json!({ "build": case.build, "changes": case.changes });
    if !with_assumed {
        return Ok(request);
    }
    for assumed in &case.assume {
        if let Some(part) = &assumed.part {
            let parts = request["build"]["parts"].as_array_mut().ok_or("build.parts is not a list")?;
            parts.push(part.clone());
            continue;
        }
        if assumed.item == "use" {
            let usage = request["build"].as_object_mut().ok_or("build is not a table")?;
            let usage = usage.entry("use").or_insert_with(|| json!({}));
            merge(usage, &assumed.values, &assumed.item)?;
            continue;
        }
        let (parts, changes) = items(&mut request);
        // What is to be fitted may have the name of what it replaces.
        let item = changes.into_iter().chain(parts).find(|item| name(item) == assumed.item);
        let item = item.ok_or_else(|| format!("no item {:?} to assume values of", assumed.item))?;
        let kind = kind(item).ok_or_else(|| format!("{}: no kind", assumed.item))?;
        merge(&mut item[kind.as_str()], &assumed.values, &assumed.item)?;
    }
    Ok(request)
}

/// Adds values; one that the case states already is never overwritten, only narrowed from a vague one.
fn merge(into: &mut Json, values: &serde_json::Map<String, Json>, item: &str) -> Result<(), String> {
    let into = into.as_object_mut().ok_or_else(|| format!("{item} is not a table"))?;
    for (key, value) in values {
        let vague = |known: &Json| known.as_str().is_some_and(|text| text.contains(['|', '.', '?']));
        if into.get(key).is_some_and(|known| !vague(known)) {
            return Err(format!("{item}.{key} is stated and assumed"));
        }
        into.insert(key.clone(), value.clone());
    }
    Ok(())
}

fn items(request: &mut Json) -> (Vec<&mut Json>, Vec<&mut Json>) {
    let Some(request) = request.as_object_mut() else { return (Vec::new(), Vec::new()) };
    let mut parts = Vec::new();
    let mut changes = Vec::new();
    for (key, value) in request {
        if key == "build" {
            parts.extend(value.get_mut("parts").and_then(Json::as_array_mut).into_iter().flatten());
        } else {
            let list = value.as_array_mut().into_iter().flatten();
            changes.extend(list.filter_map(|change| change.get_mut("fit")));
        }
    }
    (parts, changes)
}

/// The kind of an item: the field that is none of its own.
fn kind(item: &Json) -> Option<String> {
    let own = ["id", "position", "quantity"];
    item.as_object()?.keys().find(|key| !own.contains(&key.as_str())).cloned()
}

fn name(item: &Json) -> String {
    item.get("id").and_then(Json::as_str).map(str::to_owned).or_else(|| kind(item)).unwrap_or_default()
}

/// Reads, builds and judges.
pub fn answer(request: &Json, practice: Practice) -> Result<Answered, String> {
    let interfaces = Interfaces::standard_ref();
    let assembly = assembly(request, true)?;
    let practice = match practice {
        Practice::Maker => fit::Practice::Maker,
        Practice::Workshop => fit::Practice::Workshop,
    };
    let answer = check(&assembly, &Grounds::bare(interfaces, practice));
    let questions = questions(&answer, &assembly, interfaces, practice);
    let extras = extras(&answer, &assembly, &[], interfaces);
    let asking = extras.iter().map(|extra| extra.rule.clone()).collect();
    let extras = extras.iter().map(|extra| explain::extra_part(extra, interfaces)).collect();
    Ok(Answered { assembly, answer, questions, extras, asking })
}

/// The bike of a request, with its changes or before them.
pub fn assembly(request: &Json, changed: bool) -> Result<Assembly, String> {
    let message: v1::CheckRequest = text::message_from_json(request).map_err(|faults| lines(&faults))?;
    let build = build(message.build.as_ref())?;
    let mut changes = Vec::new();
    for (index, change) in message.changes.iter().enumerate().filter(|_| changed) {
        let fit = change.fit.as_ref().map(|fit| item(fit, &format!("changes[{index}]"))).transpose()?;
        changes.push(Change {
            id: change.change_id.clone(),
            fit,
            replaces: Some(change.replaces.clone()).filter(|name| !name.is_empty()),
            moves: change.moves.clone(),
        });
    }
    assemble(&build, &changes).map_err(|faults| format!("{faults:?}"))
}

fn build(message: Option<&v1::Build>) -> Result<Build, String> {
    let Some(message) = message else { return Ok(Build::default()) };
    let parts = message.parts.iter().enumerate();
    let items: Result<Vec<Item>, String> =
        parts.map(|(index, part)| item(part, &format!("build.parts[{index}]"))).collect();
    let usage = convert::usage(message.r#use.as_ref(), "build.use", Interfaces::standard_ref());
    Ok(Build { items: items?, usage: Arc::new(usage.map_err(|faults| lines(&faults))?) })
}

fn item(message: &v1::FittedPart, path: &str) -> Result<Item, String> {
    let Some(v1::fitted_part::Part::Described(part)) = &message.part else {
        return Err(format!("{path}: a field case describes its parts"));
    };
    let part = convert::part(part, path, Interfaces::standard_ref()).map_err(|faults| lines(&faults))?;
    let end = match v1::Position::try_from(message.position) {
        Ok(v1::Position::Front) => Some(End::Front),
        Ok(v1::Position::Rear) => Some(End::Rear),
        _ => None,
    };
    let quantity = u32::try_from(message.quantity).unwrap_or(0).max(1);
    Ok(Item { id: message.item_id.clone(), end, quantity, part: Arc::new(part) })
}

fn lines(faults: &[text::Fault]) -> String {
    faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

impl Answered {
    /// The headline, in the words of the cases.
    pub fn headline(&self) -> Verdict {
        if self.answer.touched().next().is_none() {
            return Verdict::NotChecked;
        }
        match self.answer.verdict.headline {
            Outcome::Fits => Verdict::Fits,
            Outcome::ExtraPart => Verdict::FitsWithExtraParts,
            Outcome::Caveat => Verdict::WorksWithCaveat,
            Outcome::NotEnoughData => Verdict::NotEnoughData,
            Outcome::DoesNotFit => Verdict::DoesNotFit,
        }
    }

    /// The answer is this verdict, or carries it as a flag beside another that passes.
    pub fn is(&self, wanted: Verdict) -> bool {
        let verdict = self.answer.verdict;
        self.headline() == wanted
            || verdict.passes()
                && match wanted {
                    Verdict::WorksWithCaveat => verdict.caveat,
                    Verdict::FitsWithExtraParts => verdict.extra_parts,
                    _ => false,
                }
    }

    /// What the rule says, for each meeting of its parts that counts.
    pub fn findings<'a>(&'a self, rule: &'a str) -> impl Iterator<Item = &'a Finding> + 'a {
        self.answer.touched().filter(move |finding| code(finding) == rule)
    }

    /// The further parts that a rule asks for.
    pub fn extras_of<'a>(&'a self, rule: &'a str) -> impl Iterator<Item = &'a str> + 'a {
        let asking = self.extras.iter().zip(&self.asking);
        asking.filter(move |(_, asking)| *asking == rule).map(|(extra, _)| extra.as_str())
    }

    /// What is asked, in order: "item.attribute".
    pub fn asked(&self) -> Vec<String> {
        let named = |question: &Question| {
            let item = question.place.map_or("use", |place| self.assembly.placed[place].id.as_str());
            format!("{item}.{}", question.attribute.name())
        };
        self.questions.iter().map(named).collect()
    }

    /// Everything that is said, for a person.
    pub fn text(&self) -> String {
        let mut text = String::new();
        for finding in self.answer.touched().filter(|finding| finding.outcome != Outcome::Fits) {
            let kinds: Vec<&str> =
                finding.items.iter().map(|place| part_at(&self.assembly, *place).kind.label()).collect();
            text += &format!(
                "      {:?} {} ({}): {}\n",
                finding.outcome,
                code(finding),
                kinds.join(", "),
                explain::finding(finding, &self.assembly)
            );
        }
        for extra in &self.extras {
            text += &format!("      needs {extra}\n");
        }
        for asked in self.asked() {
            text += &format!("      asks {asked}\n");
        }
        text
    }
}

/// "mating/rule".
pub fn code(finding: &Finding) -> String {
    format!("{}/{}", finding.mating.code, finding.rule.code)
}
