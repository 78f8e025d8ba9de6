//! The files of field cases, as they are written.

use std::path::{Path, PathBuf};

use serde::Deserialize;
use serde_json::{Map, Value as Json};

/// One file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    case: Vec<Case>,
}

/// One question from the field.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Its number; a letter follows where one question is asked in several forms.
    pub id: String,
    /// Where it is from.
    pub source: String,
    /// What was asked.
    pub ask: String,
    /// How published limits are held; workshop where nothing is said.
    #[serde(default)]
    pub practice: Practice,
    /// What is on the bike, as a build file says it.
    pub build: Json,
    /// What is to be fitted.
    #[serde(default)]
    pub changes: Vec<Json>,
    /// What the case does not state and a settled answer needs.
    #[serde(default)]
    pub assume: Vec<Assumption>,
    /// The answer that a careful mechanic signs.
    pub expected: Expected,
    /// A mating that no rule judges yet: until then only the numbers of the gearing are compared.
    pub pending: Option<String>,
    /// Why sprag answers otherwise.
    pub exception: Option<String>,
}

/// How published limits are held.
#[derive(Clone, Copy, Debug, Default, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "lowercase")]
pub enum Practice {
    /// Every limit is held.
    Maker,
    /// With the tolerances of common workshop practice.
    #[default]
    Workshop,
}

/// Values that the case does not state.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Assumption {
    /// The item whose values they are: its id, its kind where it has none, or "use".
    #[serde(default)]
    pub item: String,
    /// The values.
    #[serde(default)]
    pub values: Map<String, Json>,
    /// A part that the case takes for granted.
    pub part: Option<Json>,
    /// Why they are taken so.
    pub ground: String,
}

/// The answer.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expected {
    /// Verdict over the stated facts alone.
    pub verdict_stated: Option<Verdict>,
    /// What must be asked first: "item.attribute".
    #[serde(default)]
    pub asks: Vec<String>,
    /// Verdict with the assumed values.
    pub verdict: Option<Verdict>,
    /// Verdict that sprag gives instead, where the case is an exception.
    pub answered: Option<Verdict>,
    /// Verdicts that a careful mechanic would sign too.
    #[serde(default)]
    pub also_accept: Vec<Verdict>,
    /// Rules, at least one of which must say it.
    #[serde(default)]
    pub rules: Vec<String>,
    /// Numbers that a finding must carry.
    #[serde(default)]
    pub numbers: Vec<Number>,
    /// Further parts that must be named: "cassette spacer of 1.85 mm".
    #[serde(default)]
    pub extras: Vec<String>,
    /// Numbers of the gearing.
    #[serde(default)]
    pub gears: Vec<GearNumber>,
}

/// A verdict as the cases name it.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Goes together.
    Fits,
    /// With further parts.
    FitsWithExtraParts,
    /// With a drawback.
    WorksWithCaveat,
    /// Too little is known.
    NotEnoughData,
    /// Does not go together.
    DoesNotFit,
    /// The parts that would meet are not there.
    NotChecked,
}

/// A number of a finding.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Number {
    /// "mating/rule".
    pub rule: String,
    /// Its name.
    pub name: String,
    /// Its value in the integer unit of the attribute: micrometres, teeth, thousandths.
    pub value: i64,
}

/// A number of the gearing.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GearNumber {
    /// What it is.
    pub what: String,
    /// Ring and cog, or two sprockets: "34/42".
    #[serde(default)]
    pub of: String,
    /// On the bike as it was before the changes.
    #[serde(default)]
    pub before: bool,
    /// Its value as printed: the last digit tells how exact it is.
    pub value: String,
}

/// Every case of every file, in the order of the file names.
pub fn load() -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("cases/field");
    let entries = std::fs::read_dir(&folder).expect("the folder of field cases");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    files.sort();
    let mut cases = Vec::new();
    for path in files {
        let text = std::fs::read_to_string(&path).expect("a readable file");
        let file: File = toml::from_str(&text).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
        cases.extend(file.case);
    }
    cases
}
