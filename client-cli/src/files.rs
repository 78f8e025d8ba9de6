//! Builds, parts and requests from files and from the command line.

use std::io::Read;
use std::path::Path;

use anyhow::{Context, bail};
use serde_json::Value;
use sprag_proto::text::{self, Fault};
use sprag_proto::v1 as pb;

use crate::args::Bike;

/// Largest file of a build, part or request, in bytes.
const FILE_MAX: u64 = 1 << 20;

/// Reads a TOML or JSON file; "-" is JSON on standard input.
pub fn read(path: &Path) -> anyhow::Result<Value> {
    if path == Path::new("-") {
        let mut text = String::new();
        std::io::stdin().read_to_string(&mut text).context("cannot read standard input")?;
        return serde_json::from_str(&text).context("standard input is not JSON");
    }
    let name = path.display();
    let size = std::fs::metadata(path).with_context(|| format!("cannot read {name}"))?.len();
    if size > FILE_MAX {
        bail!("{name} has {size} bytes; a build, part or request has at most {FILE_MAX}");
    }
    let text = std::fs::read_to_string(path).with_context(|| format!("cannot read {name}"))?;
    if path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("json")) {
        return serde_json::from_str(&text).with_context(|| format!("{name} is not JSON"));
    }
    let table: toml::Table = toml::from_str(&text).with_context(|| format!("{name} is not TOML"))?;
    serde_json::to_value(table).with_context(|| format!("{name} holds a value that has no JSON form"))
}

/// Puts the faults of a file into one error.
pub fn faults<T>(result: Result<T, Vec<Fault>>, name: &str) -> anyhow::Result<T> {
    result.map_err(|faults| {
        let lines: Vec<String> = faults.iter().map(|fault| format!("  {fault}")).collect();
        anyhow::anyhow!("{name} cannot be used:\n{}", lines.join("\n"))
    })
}

/// Reads a build.
pub fn build(path: &Path) -> anyhow::Result<pb::Build> {
    faults(text::build_from_json(&read(path)?), &path.display().to_string())
}

/// Reads a whole request.
pub fn request(path: &Path) -> anyhow::Result<pb::CheckRequest> {
    faults(text::message_from_json(&read(path)?), &path.display().to_string())
}

/// A part as it is named on the command line.
pub fn reference(given: &str) -> anyhow::Result<pb::FittedPart> {
    use pb::fitted_part::Part;
    let (position, rest) = match given.strip_prefix("front:") {
        Some(rest) => (pb::Position::Front, rest),
        None => (pb::Position::Unspecified, given.strip_prefix("rear:").unwrap_or(given)),
    };
    let described =
        |value: &Value, name: &str| faults(text::part_from_json(value), name).map(Part::Described);
    let part = if let Some(path) = rest.strip_prefix('@') {
        described(&read(Path::new(path))?, path)?
    } else if rest.starts_with('{') {
        described(&serde_json::from_str(rest).with_context(|| format!("{rest} is not JSON"))?, rest)?
    } else if let Some(gtin) = rest.strip_prefix("gtin:") {
        Part::Gtin(gtin.to_owned())
    } else if let Some(number) = rest.strip_prefix("maker:") {
        Part::MakerPart(maker_part(number)?)
    } else if rest.is_empty() {
        bail!("an empty part; name a SKU, gtin:NUMBER, maker:BRAND/NUMBER or @FILE")
    } else {
        Part::Sku(rest.to_owned())
    };
    Ok(pb::FittedPart { item_id: String::new(), position: position.into(), quantity: 0, part: Some(part) })
}

/// A maker's number: BRAND/NUMBER.
pub fn maker_part(given: &str) -> anyhow::Result<pb::MakerPartNumber> {
    let (brand_id, number) = given
        .split_once('/')
        .with_context(|| format!("{given:?} is not BRAND/NUMBER, such as maker:ottermill/CS-9"))?;
    Ok(pb::MakerPartNumber { brand_id: brand_id.to_owned(), number: number.to_owned() })
}

/// References of several parts.
pub fn references(given: &[String]) -> anyhow::Result<Vec<pb::FittedPart>> {
    given.iter().map(|given| reference(given)).collect()
}

/// The build of a command line; none given = an empty one.
pub fn bike(bike: &Bike) -> anyhow::Result<(pb::Build, Vec<pb::Change>)> {
    let build = bike.build.as_deref().map(build).transpose()?.unwrap_or_default();
    let mut changes = Vec::new();
    for given in &bike.fit {
        let (replaces, part) = split_item(given);
        changes.push(pb::Change {
            change_id: part.chars().take(60).collect(),
            fit: Some(reference(part)?),
            replaces: replaces.to_owned(),
            moves: bike.moves.clone(),
        });
    }
    for item in &bike.remove {
        changes.push(pb::Change {
            change_id: format!("remove {item}"),
            fit: None,
            replaces: item.clone(),
            moves: Vec::new(),
        });
    }
    Ok((build, changes))
}

/// ITEM=REF; a JSON part or a file name may hold an equals sign too, an item never holds these letters.
fn split_item(given: &str) -> (&str, &str) {
    match given.split_once('=') {
        Some((item, part)) if !item.contains(['{', '@', ':', '/']) => (item, part),
        _ => ("", given),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reference_says_what_it_is() {
        use pb::fitted_part::Part;
        let part = |given: &str| reference(given).expect("a reference").part;
        assert_eq!(part("CS-1"), Some(Part::Sku("CS-1".into())));
        assert_eq!(part("gtin:4006381333931"), Some(Part::Gtin("4006381333931".into())));
        assert!(matches!(part("{\"spacer\": {\"thickness_mm\": 1.85}}"), Some(Part::Described(_))));
        assert_eq!(reference("front:RT-1").expect("a reference").position, i32::from(pb::Position::Front));
        assert!(reference("maker:nobody").is_err());
    }

    #[test]
    fn an_item_may_be_named_before_the_part() {
        assert_eq!(split_item("crankset.chainring=CR-34"), ("crankset.chainring", "CR-34"));
        assert_eq!(split_item("{\"spacer\": {\"thickness\": \"1=\"}}").0, "");
    }
}
