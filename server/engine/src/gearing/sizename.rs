//! Traditional names of tyre sizes: 28 x 1 5/8 x 1 3/8, 26 x 1.75, 650B.
//!
//! Inches never settle the bead seat by themselves. Decimal and fractional widths are different languages: 26
//! x 1.5 is 559 and 26 x 1 1/2 is 584. A name that can mean several rims is answered with all of them, a name
//! whose width is not listed with those of its diameter. Never drop a part of a three-part name: in 28 x 1
//! 5/8 x 1 3/8 the middle goes with the rim (622), and 28 x 1 3/8 alone has been printed for 642 too.
//!
//! The pairs come from published cross-reference charts; the rarer ones are from memory.

use super::fault::Fault;

const FORM: &str = "inches x width [x width], such as 28 x 1 5/8 x 1 3/8, 26 x 1.75 or 700 x 25C";

/// What a traditional name says about the bead seat diameter, mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NameReading {
    /// The name means this one.
    Bsd(u16),
    /// The name does not settle it; these are the candidates. Measure, or read the marking on the tyre's
    /// side.
    Candidates(&'static [u16]),
}

/// How a number of inches is written; the value is in thousandths of an inch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Inches {
    /// `2`
    Whole(u32),
    /// `1.75`
    Decimal(u32),
    /// `1 3/4`
    Fraction(u32),
}

/// Reads a traditional name.
///
/// Accepts `x` or the multiplication sign between the parts, spaces around it, `"` or `inch` after the diameter,
/// fractions as `1 3/8`, `1-3/8` or with the single fraction signs.
///
/// # Errors
/// A text of another form, or a diameter that no tyre is known to carry.
pub fn read_name(name: &str) -> Result<NameReading, Fault> {
    let malformed = || Fault::malformed("tyre.name", name, FORM);
    // The longest name is far shorter; this bounds the work.
    if name.len() > 64 {
        return Err(malformed());
    }
    let plain = spell_out(name);
    let parts: Vec<&str> = plain.split('x').map(str::trim).collect();
    let (&diameter, widths) = parts.split_first().ok_or_else(malformed)?;
    if let Some(reading) = lettered(diameter, widths) {
        return reading.ok_or_else(malformed);
    }
    let diameter = inches(without_unit(diameter)).ok_or_else(malformed)?;
    let widths: Vec<Inches> =
        widths.iter().map(|width| inches(width)).collect::<Option<_>>().ok_or_else(malformed)?;
    if widths.len() > 2 {
        return Err(malformed());
    }
    let candidates = of_diameter(diameter).ok_or_else(malformed)?;
    Ok(listed(diameter, &widths).unwrap_or(NameReading::Candidates(candidates)))
}

/// `26"`, `26 inch` and `26-inch` are `26`.
fn without_unit(diameter: &str) -> &str {
    let units = ["\"", "inches", "inch", "in"];
    let bare = units.iter().find_map(|unit| diameter.strip_suffix(unit));
    bare.map_or(diameter, |bare| bare.trim_end_matches([' ', '-']))
}

/// Single fraction signs become ` n/d`, the multiplication sign and capital X become `x`.
fn spell_out(name: &str) -> String {
    let mut plain = String::with_capacity(name.len() * 2);
    for sign in name.trim().chars() {
        match sign {
            '\u{d7}' | 'X' => plain.push('x'),
            '\u{bc}' => plain.push_str(" 1/4"),
            '\u{bd}' => plain.push_str(" 1/2"),
            '\u{be}' => plain.push_str(" 3/4"),
            '\u{215b}' => plain.push_str(" 1/8"),
            '\u{215c}' => plain.push_str(" 3/8"),
            '\u{215d}' => plain.push_str(" 5/8"),
            '\u{215e}' => plain.push_str(" 7/8"),
            other => plain.push(other),
        }
    }
    plain
}

/// Names that start with 650 or 700; today their letter stands for the rim, wherever it is written.
/// `None` if it is not such a name, `Some(None)` if it is one that cannot be read.
fn lettered(diameter: &str, widths: &[&str]) -> Option<Option<NameReading>> {
    let split = |text: &str| match text.chars().last() {
        Some(letter @ ('A' | 'B' | 'C' | 'D')) => {
            (text[..text.len() - 1].trim_end().to_owned(), Some(letter))
        }
        _ => (text.to_owned(), None),
    };
    let (base, first) = split(diameter);
    if base != "650" && base != "700" {
        return None;
    }
    let second = match widths {
        [] => None,
        [width] => {
            let (number, letter) = split(width);
            if !matches!(number.parse::<u16>(), Ok(15..=80)) {
                return Some(None);
            }
            letter
        }
        _ => return Some(None),
    };
    let letter = match (first, second) {
        (Some(a), Some(b)) if a != b => return Some(None),
        (a, b) => a.or(b),
    };
    Some(Some(match (base.as_str(), letter) {
        ("650", Some('A')) => NameReading::Bsd(590),
        ("650", Some('B')) => NameReading::Bsd(584),
        ("650", Some('C')) => NameReading::Bsd(571),
        ("700", Some('A')) => NameReading::Bsd(642),
        ("700", Some('B')) => NameReading::Bsd(635),
        ("700", Some('C')) => NameReading::Bsd(622),
        ("700", Some('D')) => NameReading::Bsd(587),
        ("650", None) => NameReading::Candidates(&[571, 584, 590]),
        ("700", None) => NameReading::Candidates(&[587, 622, 635, 642]),
        _ => return Some(None),
    }))
}

/// `2`, `1.75`, `1 3/8`, `1-3/8`, in thousandths.
fn inches(text: &str) -> Option<Inches> {
    if let Some((whole, part)) = text.split_once('.') {
        let digits = part.len();
        if !(1..=3).contains(&digits) {
            return None;
        }
        let scale = 10_u32.pow(3 - digits as u32);
        return Some(Inches::Decimal(digits_only(whole)? * 1000 + digits_only(part)? * scale));
    }
    if let Some((front, below)) = text.split_once('/') {
        let (whole, above) = front.rsplit_once([' ', '-'])?;
        let (above, below) = (digits_only(above)?, digits_only(below)?);
        if above == 0 || above >= below || !matches!(below, 2 | 4 | 8) {
            return None;
        }
        return Some(Inches::Fraction(digits_only(whole.trim_end())? * 1000 + above * 1000 / below));
    }
    digits_only(text).map(|whole| Inches::Whole(whole * 1000))
}

fn digits_only(text: &str) -> Option<u32> {
    let plain = (1..=3).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    if plain { text.parse().ok() } else { None }
}

/// Every rim that a diameter in inches has been used for.
fn of_diameter(diameter: Inches) -> Option<&'static [u16]> {
    Some(match diameter {
        Inches::Whole(12_000) | Inches::Fraction(12_500) | Inches::Decimal(12_500) => &[203, 239, 248],
        Inches::Whole(14_000) => &[254, 279, 288],
        Inches::Whole(16_000) => &[305, 340, 349],
        Inches::Whole(17_000) => &[369],
        Inches::Whole(18_000) => &[355, 369, 400],
        Inches::Whole(20_000) => &[406, 419, 438, 440, 451],
        Inches::Whole(22_000) => &[457, 501],
        Inches::Whole(24_000) => &[507, 520, 540, 547],
        Inches::Whole(26_000) => &[559, 571, 584, 587, 590, 597, 599],
        Inches::Whole(27_000) => &[630],
        Inches::Decimal(27_500) | Inches::Fraction(27_500) => &[584],
        Inches::Whole(28_000) => &[622, 635, 642],
        Inches::Whole(29_000) => &[622],
        Inches::Whole(32_000) => &[686],
        Inches::Whole(36_000) => &[787],
        _ => return None,
    })
}

/// The pairs that name one rim, or a known few.
fn listed(diameter: Inches, widths: &[Inches]) -> Option<NameReading> {
    use Inches::{Decimal as D, Fraction as F, Whole as W};
    use NameReading::{Bsd, Candidates};
    Some(match (diameter, widths) {
        (W(28_000), &[F(1625), F(1125 | 1250 | 1375)] | &[F(1750)]) => Bsd(622),
        (W(28_000), &[F(1500)]) => Bsd(635),
        // 642, unless the middle of the three-part name for 622 was dropped.
        (W(28_000), &[F(1375)]) => Candidates(&[622, 642]),
        (W(27_000), &[W(1000) | F(1125 | 1250)]) => Bsd(630),
        (W(26_000), &[D(1250 | 1375)]) => Candidates(&[559, 599]),
        (W(26_000), &[W(1000) | F(1750)]) => Bsd(571),
        (W(26_000), &[F(1500)]) => Bsd(584),
        (W(26_000), &[F(1375)]) => Candidates(&[590, 597]),
        (W(26_000), &[F(1250)]) => Candidates(&[597, 599]),
        (W(24_000), &[W(1000)]) => Bsd(520),
        (W(24_000), &[F(1375)]) => Bsd(540),
        (W(24_000), &[F(1250)]) => Bsd(547),
        (W(22_000), &[F(1375)]) => Bsd(501),
        (W(20_000), &[F(1125 | 1375)]) => Bsd(451),
        (W(20_000), &[F(1750)]) => Candidates(&[406, 419]),
        (W(20_000), &[D(1750), W(2000)]) => Bsd(406),
        (W(18_000), &[F(1375)]) => Bsd(400),
        (W(17_000), &[F(1250)]) => Bsd(369),
        (W(16_000), &[F(1375)]) => Bsd(349),
        (W(16_000), &[D(1750), W(2000)]) => Bsd(305),
        (F(12_500), &[F(2250)] | &[D(1750)] | &[D(1750), F(2250)]) => Bsd(203),
        (W(16_000), &[D(_)]) => Bsd(305),
        (W(18_000), &[D(_)]) => Bsd(355),
        (W(20_000), &[D(_)]) => Bsd(406),
        (W(22_000), &[D(_)]) => Bsd(457),
        (W(24_000), &[D(_)]) => Bsd(507),
        (W(26_000), &[D(_)]) => Bsd(559),
        (D(27_500), &[D(_)]) => Bsd(584),
        (W(28_000) | W(29_000), &[D(_)]) => Bsd(622),
        (W(32_000), &[D(_)]) => Bsd(686),
        (W(36_000), &[D(_)]) => Bsd(787),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn candidates(name: &str) -> &'static [u16] {
        match read_name(name) {
            Ok(NameReading::Candidates(list)) => list,
            other => panic!("{name}: {other:?}"),
        }
    }

    #[test]
    fn inches_alone_settle_nothing() {
        assert_eq!(candidates("28"), [622, 635, 642]);
        assert_eq!(candidates("26\"").len(), 7);
        assert_eq!(candidates("29"), [622]);
        assert_eq!(candidates("700x25"), [587, 622, 635, 642]);
        assert_eq!(candidates("26x2"), candidates("26"));
    }

    #[test]
    fn a_three_part_name_that_is_not_listed_is_not_cut_down() {
        assert_eq!(candidates("28 x 1 1/2 x 1 3/8"), [622, 635, 642]);
        assert_eq!(candidates("26x1.75x2"), candidates("26"));
    }

    #[test]
    fn other_texts_are_refused() {
        for text in [
            "",
            "x",
            "26x",
            "x1.75",
            "26x1.75x2x3",
            "26x1,75",
            "26x1 3/0",
            "26x1 8/8",
            "26x1 3/7",
            "23x1.75",
            "650D",
            "700Cx25B",
            "700x25.5C",
            "26x1.7555",
            "700x",
            "26 x -1",
            "\u{1f6b2}",
            "28x1\u{215c}\u{215c}",
        ] {
            assert!(read_name(text).is_err(), "{text}");
        }
        assert!(read_name(&"26x1.75 ".repeat(1000)).is_err());
    }

    proptest! {
        #[test]
        fn no_text_makes_it_panic(text in "[0-9x/ .ABCD\"\u{bd}\u{d7}-]{0,20}") {
            let _ = read_name(&text);
        }
    }
}
