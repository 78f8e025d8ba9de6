//! Words of the trade that mean several things: refused with the candidates, never guessed.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::dictionary::kinds;

/// Stands for any number in the words that the dictionary declares.
const ANY_NUMBER: &str = "#";

/// A word in its tokens, and what it may mean.
type Word = (Vec<String>, &'static [String]);

/// Every ambiguous word of each attribute, wherever the attribute is declared.
static WORDS: LazyLock<HashMap<&'static str, Vec<Word>>> = LazyLock::new(|| {
    let mut words: HashMap<&'static str, Vec<Word>> = HashMap::new();
    for (_, shape) in kinds() {
        for (_, attribute) in shape.attributes() {
            for found in &attribute.options.ambiguous {
                words.entry(&attribute.base).or_default().push((tokens(&found.word), &found.candidates));
            }
        }
    }
    words
});

/// What a word may mean, where the trade uses it for several things; the attribute is named without its unit.
pub fn ambiguous(attribute: &str, word: &str) -> Option<&'static [String]> {
    let words = WORDS.get(attribute)?;
    let asked = tokens(word);
    let number = |token: &str| token.parse::<u32>().is_ok();
    let same = |known: &[String]| {
        known.len() == asked.len()
            && known
                .iter()
                .zip(&asked)
                .all(|(known, asked)| known == asked || known == ANY_NUMBER && number(asked))
    };
    // A word that is declared as it stands goes before one with a place for any number.
    let exact = words.iter().find(|(known, _)| *known == asked);
    exact.or_else(|| words.iter().find(|(known, _)| same(known))).map(|(_, candidates)| *candidates)
}

/// A word as words are compared: lower case, blanks and dashes alike, inches written in one way.
pub fn folded_word(word: &str) -> String {
    tokens(word).join(" ")
}

fn tokens(word: &str) -> Vec<String> {
    let lower = word.chars().flat_map(char::to_lowercase).collect::<String>();
    let lower = lower.replace(['"', '\u{201d}', '\u{2033}'], " inch ");
    let separated = lower.split(|letter: char| letter.is_whitespace() || matches!(letter, '-' | '_'));
    let mut tokens = Vec::new();
    for token in separated.filter(|token| !token.is_empty()) {
        // "26in" and "11speed" are two words written as one.
        let digits = token.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(token.len());
        let (number, rest) = token.split_at(digits);
        let joined = !number.is_empty() && matches!(rest, "in" | "inch" | "inches" | "speed" | "s" | "sp");
        let pieces = if joined { [number, rest] } else { ["", token] };
        for piece in pieces.into_iter().filter(|piece| !piece.is_empty()) {
            tokens.push(match piece {
                "in" | "inches" => "inch".to_owned(),
                "s" | "sp" | "speeds" if joined => "speed".to_owned(),
                "speeds" => "speed".to_owned(),
                other => other.to_owned(),
            });
        }
    }
    tokens
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_that_mechanics_stumble_over_have_candidates() {
        for (attribute, word, candidate) in [
            ("mount_family", "11-speed hub", "spline-9"),
            ("mount_family", "11 Speed Hub", "spline-8-deep"),
            ("mount_family", "9s body", "spline-9"),
            ("derailleur_mount", "direct mount", "coaxial"),
            ("ring_mount", "Direct Mount", "direct-3-bolt"),
            ("front_mount", "direct-mount", "high-direct"),
            ("brake_mount", "direct mount", "rim-direct"),
            ("bead_seat", "26 inch", "559 mm"),
            ("bead_seat", "26\"", "590 mm"),
            ("bead_seat", "26in", "571 mm"),
            ("inner_width", "25 rim", "25-622"),
        ] {
            let found = ambiguous(attribute, word).unwrap_or_default();
            assert!(found.iter().any(|known| known.contains(candidate)), "{attribute} {word}: {found:?}");
        }
        assert_eq!(ambiguous("bead_seat", "622 mm"), None);
        assert_eq!(ambiguous("mount_family", "spline-9"), None);
        assert_eq!(ambiguous("no_such_attribute", "26 inch"), None);
    }

    #[test]
    fn every_ambiguous_word_has_several_candidates_and_stands_once() {
        for (attribute, words) in WORDS.iter() {
            for (index, (word, candidates)) in words.iter().enumerate() {
                assert!(candidates.len() > 1, "{attribute}: {word:?} means only {candidates:?}");
                assert!(words[..index].iter().all(|(other, _)| other != word), "{attribute}: {word:?} twice");
            }
        }
    }

    #[test]
    fn words_are_compared_without_case_blanks_and_dashes() {
        assert_eq!(folded_word("  Nine_wide-Splines "), "nine wide splines");
        assert_eq!(folded_word("26\""), folded_word("26 Inches"));
        assert_eq!(folded_word("11s"), folded_word("11-speed"));
    }
}
