//! Enums of the engine as enums of the API.

use sprag_engine::fit::{Evidence, Hazard, Outcome, Practice};
use sprag_engine::part::Unit;
use sprag_proto::v1 as pb;

/// Name of a limit practice.
pub fn practice_name(practice: Practice) -> &'static str {
    match practice {
        Practice::Maker => "maker",
        Practice::Workshop => "workshop",
    }
}

/// An outcome.
pub fn verdict(outcome: Outcome) -> i32 {
    match outcome {
        Outcome::Fits => pb::Verdict::Fits,
        Outcome::ExtraPart => pb::Verdict::FitsWithExtraParts,
        Outcome::Caveat => pb::Verdict::WorksWithCaveat,
        Outcome::NotEnoughData => pb::Verdict::NotEnoughData,
        Outcome::DoesNotFit => pb::Verdict::DoesNotFit,
    }
    .into()
}

/// A hazard.
pub fn hazard(found: Hazard) -> i32 {
    match found {
        Hazard::None => pb::Hazard::None,
        Hazard::Damage => pb::Hazard::Damage,
        Hazard::Injury => pb::Hazard::Injury,
    }
    .into()
}

/// What a finding rests on.
pub fn evidence(found: Evidence) -> i32 {
    match found {
        Evidence::Statement => pb::Evidence::Statement,
        Evidence::Interface => pb::Evidence::Interface,
        Evidence::PublishedLimit => pb::Evidence::PublishedLimit,
        Evidence::Geometry => pb::Evidence::Geometry,
        Evidence::HouseRuling => pb::Evidence::HouseRuling,
    }
    .into()
}

/// A unit.
pub fn unit(found: Unit) -> i32 {
    match found {
        Unit::None => pb::Unit::Unspecified,
        Unit::Count => pb::Unit::Count,
        Unit::Teeth => pb::Unit::Teeth,
        Unit::Micrometres => pb::Unit::Micrometre,
        Unit::Grams => pb::Unit::Gram,
        Unit::Permille => pb::Unit::Permille,
        Unit::Links => pb::Unit::Link,
        Unit::Kilopascals => pb::Unit::Kilopascal,
        Unit::NewtonMetres => pb::Unit::NewtonMetre,
        Unit::KilometresPerHour => pb::Unit::KilometrePerHour,
        Unit::Kilograms => pb::Unit::Kilogram,
        Unit::Millidegrees => pb::Unit::Millidegree,
    }
    .into()
}
