//! What is wrong with a text, where, and what would be right.

use std::fmt;

/// Faults beyond these are not collected.
pub const FAULTS_MAX: usize = 200;

/// Characters of a strange text that a fault repeats.
const SHOWN_MAX: usize = 60;
/// Names that a fault lists when none is near.
const LISTED_MAX: usize = 24;

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where, as it was written: `parts[2].cassette.cogs`, or the column of a CSV file; empty = the whole.
    pub path: String,
    /// What stands there.
    pub found: String,
    /// What would be right, in one clause.
    pub wanted: String,
    /// The nearest valid spelling or value.
    pub nearest: Option<String>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        write!(f, "{}; {}", self.found, self.wanted)?;
        match &self.nearest {
            Some(nearest) => write!(f, "; did you mean \"{nearest}\"?"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for Fault {}

/// What is wrong with one value, before its place is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Wrong {
    pub found: String,
    pub wanted: String,
    pub nearest: Option<String>,
}

impl Wrong {
    pub fn new(found: impl Into<String>, wanted: impl Into<String>) -> Self {
        Self { found: found.into(), wanted: wanted.into(), nearest: None }
    }

    pub fn near(mut self, nearest: impl Into<String>) -> Self {
        self.nearest = Some(nearest.into());
        self
    }

    pub fn near_if(mut self, nearest: Option<String>) -> Self {
        self.nearest = nearest;
        self
    }
}

/// Collects faults while a value is walked.
#[derive(Debug, Default)]
pub(crate) struct Faults {
    list: Vec<Fault>,
    path: String,
}

impl Faults {
    /// Runs `read` inside the named field.
    pub fn inside<R>(&mut self, name: &str, read: impl FnOnce(&mut Self) -> R) -> R {
        let before = self.path.len();
        if !self.path.is_empty() {
            self.path.push('.');
        }
        self.path.push_str(&shown(name));
        let result = read(self);
        self.path.truncate(before);
        result
    }

    /// Runs `read` inside the item with this index.
    pub fn item<R>(&mut self, index: usize, read: impl FnOnce(&mut Self) -> R) -> R {
        let before = self.path.len();
        self.path.push_str(&format!("[{index}]"));
        let result = read(self);
        self.path.truncate(before);
        result
    }

    pub fn add(&mut self, wrong: Wrong) {
        if !self.full() {
            let Wrong { found, wanted, nearest } = wrong;
            self.list.push(Fault { path: self.path.clone(), found, wanted, nearest });
        }
    }

    /// Keeps the value, or collects what is wrong with it.
    pub fn keep<T>(&mut self, result: Result<T, Wrong>) -> Option<T> {
        result.map_err(|wrong| self.add(wrong)).ok()
    }

    pub fn len(&self) -> usize {
        self.list.len()
    }

    pub fn full(&self) -> bool {
        self.list.len() >= FAULTS_MAX
    }

    pub fn into_list(self) -> Vec<Fault> {
        self.list
    }
}

/// A text as a fault repeats it: shortened, control characters escaped.
pub(crate) fn shown(text: &str) -> String {
    let mut out = String::new();
    for (index, character) in text.chars().enumerate() {
        if index == SHOWN_MAX {
            out.push_str("...");
            break;
        }
        // Besides control characters, those that turn or hide the text around them.
        let hides =
            matches!(character, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        if character.is_control() || hides {
            out.extend(character.escape_default());
        } else {
            out.push(character);
        }
    }
    out
}

/// A text in quotes, as a fault repeats it.
pub(crate) fn quoted(text: &str) -> String {
    format!("\"{}\"", shown(text))
}

/// Names as a fault lists them.
pub(crate) fn listed<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    let names: Vec<&str> = names.into_iter().collect();
    let mut out = names.iter().take(LISTED_MAX).copied().collect::<Vec<_>>().join(", ");
    if names.len() > LISTED_MAX {
        out.push_str(&format!(" and {} more", names.len() - LISTED_MAX));
    }
    out
}

/// The candidate that a misspelt word most likely means, if one is near enough; the first among equals.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<String> {
    let word = folded(word);
    if word.is_empty() || word.len() > SHOWN_MAX {
        return None;
    }
    let mut best: Option<(usize, &str)> = None;
    for candidate in candidates {
        let other = folded(candidate);
        let limit = (word.len().max(other.len()) / 3).clamp(1, 4);
        if word.len().abs_diff(other.len()) > limit {
            continue;
        }
        let distance = edits(&word, &other);
        if distance <= limit && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate.to_owned())
}

/// Lower case, with all separators alike.
fn folded(word: &str) -> Vec<char> {
    let lower = word.trim().chars().take(SHOWN_MAX + 1).flat_map(char::to_lowercase);
    lower.map(|character| if matches!(character, '-' | ' ') { '_' } else { character }).collect()
}

/// Insertions, deletions, replacements and swaps of neighbours between two words.
fn edits(a: &[char], b: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (row, x) in a.iter().enumerate() {
        let mut this = vec![row + 1];
        for (column, y) in b.iter().enumerate() {
            let replaced = last[column] + usize::from(x != y);
            let mut least = replaced.min(last[column + 1] + 1).min(this[column] + 1);
            let swapped = row > 0 && column > 0 && *x == b[column - 1] && a[row - 1] == *y;
            if swapped {
                least = least.min(before[column - 1] + 1);
            }
            this.push(least);
        }
        before = std::mem::replace(&mut last, this);
    }
    last[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_misspelling_finds_its_word() {
        let kinds = ["cassette", "chain", "crankset", "chainring"];
        assert_eq!(nearest("casette", kinds).as_deref(), Some("cassette"));
        assert_eq!(nearest("chian", kinds).as_deref(), Some("chain"));
        assert_eq!(nearest("Chain-Ring", kinds).as_deref(), Some("chainring"));
        assert_eq!(nearest("saddle", kinds), None);
        assert_eq!(nearest("", kinds), None);
        assert_eq!(nearest(&"x".repeat(100_000), kinds), None);
    }

    #[test]
    fn edits_count_swaps_once() {
        let chars = |word: &str| word.chars().collect::<Vec<_>>();
        assert_eq!(edits(&chars("abc"), &chars("acb")), 1);
        assert_eq!(edits(&chars(""), &chars("abc")), 3);
        // The textbook pair for edit distance.
        assert_eq!(edits(&chars("kitten"), &chars("sitting")), 3);
    }

    #[test]
    fn strange_text_is_shown_short_and_without_control_characters() {
        assert_eq!(shown("a\u{1b}[31m"), "a\\u{1b}[31m");
        assert_eq!(shown("a\u{202e}b"), "a\\u{202e}b");
        assert_eq!(shown(&"y".repeat(1000)).len(), 63);
    }
}
