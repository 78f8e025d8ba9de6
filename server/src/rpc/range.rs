//! Gears of one or more bikes: decode, compute, encode.

mod asked;
mod compared;
mod hill;
mod wheel;
mod write;

use sprag_catalogue::View;
use sprag_engine::build::{Assembly, assemble};
use sprag_engine::gearing::chainline::AlignedBy;
use sprag_engine::gearing::{Fault as GearingFault, RangeAnswer, bike, range};
use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;

use super::decode::{Decoder, build_faults};
use super::status::Refusal;
use crate::ops::limits::Limits;
use asked::Asked;

pub use compared::difference;

/// One bike with its gears.
struct Answered {
    build_id: String,
    assembly: Assembly,
    gearing: bike::BikeGearing,
    answer: RangeAnswer,
    nominal: bool,
    notes: Vec<String>,
}

/// Answers a request.
pub fn answer(request: &pb::RangeRequest, view: &View, limits: Limits) -> Result<pb::RangeResponse, Refusal> {
    if request.subjects.is_empty() || request.subjects.len() > limits.subjects {
        let found = format!("{} builds", request.subjects.len());
        return Err(invalid("subjects", &found, &format!("1 to {}", limits.subjects)));
    }
    let asked = Asked::read(request)?;
    let mut answered = Vec::new();
    for (index, subject) in request.subjects.iter().enumerate() {
        answered.push(one(subject, &format!("subjects[{index}]"), &asked, view, limits)?);
    }
    let differences = match answered.split_first() {
        Some((first, others)) => {
            others.iter().map(|other| compared::write(first, other, &view.shelf)).collect()
        }
        None => Vec::new(),
    };
    Ok(pb::RangeResponse {
        answers: answered.iter().map(|found| write::write(found, &asked, &view.shelf)).collect(),
        differences,
        basis: Some(super::basis::basis(view, None)),
    })
}

fn invalid(path: &str, found: &str, wanted: &str) -> Refusal {
    Refusal::Invalid(vec![Fault {
        path: path.into(),
        found: found.into(),
        wanted: wanted.into(),
        nearest: None,
    }])
}

fn one(
    subject: &pb::RangeSubject,
    path: &str,
    asked: &Asked,
    view: &View,
    limits: Limits,
) -> Result<Answered, Refusal> {
    let mut decoder = Decoder::new(&view.snapshot, limits);
    let build = decoder.build(subject.build.as_ref(), &format!("{path}.build"), false);
    let changes = decoder.changes(&subject.changes, &format!("{path}.changes"));
    decoder.finish(())?;
    let assembly =
        assemble(&build, &changes).map_err(|faults| build_faults(faults, &format!("{path}.changes")))?;
    let mut gearing = bike::of(&assembly).map_err(|lacks| {
        let fault = |lack: &bike::Lack| Fault {
            path: format!("{path}.build.parts"),
            found: lack.to_string(),
            wanted: "cogs and rings with their teeth".into(),
            nearest: None,
        };
        Refusal::Invalid(lacks.iter().map(fault).collect())
    })?;
    gearing.input.cadences_rpm.clone_from(&asked.cadences_rpm);
    gearing.input.speeds_m_per_h.clone_from(&asked.speeds_m_per_h);
    gearing.input.near_permille = asked.near_permille;
    gearing.input.hill = asked.hill;
    let wheel_path = format!("{path}.build.wheel_size");
    let nominal = wheel::read(
        subject.build.as_ref().and_then(|build| build.wheel_size.as_ref()),
        &mut gearing.input,
        &wheel_path,
    )?;
    let answer = range(&gearing.input).map_err(|faults| gearing_faults(&faults, path))?;
    let notes = notes(&gearing, &answer);
    let build_id = subject.build.as_ref().map(|build| build.build_id.clone()).unwrap_or_default();
    Ok(Answered { build_id, assembly, gearing, answer, nominal, notes })
}

fn notes(gearing: &bike::BikeGearing, answer: &RangeAnswer) -> Vec<String> {
    let mut notes = Vec::new();
    let mut note = |applies: bool, text: &str| {
        if applies {
            notes.push(text.to_owned());
        }
    };
    let input = &gearing.input;
    note(
        gearing.cog_ends_only,
        "only the smallest and the largest cog are known: steps and gears between them are not shown",
    );
    note(
        input.tyre.is_none() && input.rollout_um.is_none(),
        "no wheel size: development, gear inches and speeds need a tyre marking, a roll-out or a nominal diameter",
    );
    note(input.stay_um.is_none(), "chainstay length not known: chain length needs it");
    note(
        answer.gears.len() > 1 && answer.aligned_by == AlignedBy::RuleOfThumb,
        "crossed gears by a rule of thumb: the chain angle needs chainline, chainstay length and the place of the cogs",
    );
    note(gearing.cog_mass_g.is_none(), "mass of the cogs not known: what their turning does needs it");
    notes
}

/// Faults of the engine, under the field of the request that they come from.
fn gearing_faults(faults: &[GearingFault], path: &str) -> Refusal {
    let fault = |found: &GearingFault| {
        let at = match found.field().split(['.', '[']).next() {
            Some("hill") => "hill".to_owned(),
            Some("wheel" | "tyre") => format!("{path}.build.wheel_size"),
            // Teeth, internal ratios, stay, chain and capacity are attributes of the parts.
            _ => format!("{path}.build.parts"),
        };
        // "what; what would be right", as every fault of the engine reads.
        let text = found.to_string();
        let (found, wanted) =
            text.split_once("; ").unwrap_or((&text, "a value within the limits of the API"));
        Fault { path: at, found: found.into(), wanted: wanted.into(), nearest: None }
    };
    Refusal::Invalid(faults.iter().map(fault).collect())
}
