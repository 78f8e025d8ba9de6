//! Markings of tyres and rims by ISO 5775, read strictly.
//!
//! `25-622` means a section 25 mm wide on a tyre and 25 mm between the flanges on a rim; the two are separate
//! types, and neither is read from the other's marking.

use std::fmt;
use std::str::FromStr;

use super::fault::{Fault, Faults};

/// Narrowest and widest tyre section read, mm.
pub const TYRE_WIDTH_MM: (u16, u16) = (16, 132);
/// Smallest and largest bead seat diameter read, mm.
pub const BSD_MM: (u16, u16) = (130, 800);
/// Narrowest and widest inner rim width read, in tenths of a millimetre.
pub const RIM_WIDTH_TENTHS: (u16, u16) = (100, 1100);

const TYRE_FORM: &str = "section-bead seat in mm, such as 37-622";
const RIM_FORM: &str = "622x21C, 21-622, 21-622 TSS or 21-622 TC";

/// Marking of a tyre: nominal section width when inflated, without tread, and bead seat diameter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct TyreSize {
    width_mm: u16,
    bsd_mm: u16,
}

impl TyreSize {
    /// From the two numbers in mm.
    ///
    /// # Errors
    /// A section outside 16 to 132 mm, a bead seat outside 130 to 800 mm.
    pub fn new(width_mm: u16, bsd_mm: u16) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        faults.whole("tyre.width", width_mm.into(), TYRE_WIDTH_MM.0.into(), TYRE_WIDTH_MM.1.into(), "mm");
        faults.whole("tyre.bsd", bsd_mm.into(), BSD_MM.0.into(), BSD_MM.1.into(), "mm");
        faults.finish(Self { width_mm, bsd_mm })
    }

    /// Nominal section width, mm.
    #[must_use]
    pub const fn width_mm(self) -> u16 {
        self.width_mm
    }

    /// Bead seat diameter, mm.
    #[must_use]
    pub const fn bsd_mm(self) -> u16 {
        self.bsd_mm
    }
}

impl FromStr for TyreSize {
    type Err = Vec<Fault>;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let numbers = text.split_once('-').and_then(|(width, bsd)| Some((number(width)?, number(bsd)?)));
        let (width, bsd) = numbers.ok_or_else(|| vec![Fault::malformed("tyre", text, TYRE_FORM)])?;
        Self::new(width, bsd)
    }
}

impl fmt::Display for TyreSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.width_mm, self.bsd_mm)
    }
}

/// Shape of the rim's edge as marked beside the size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RimEdge {
    /// `C`: crotchet, the edge hooks over the tyre.
    Crotchet,
    /// `TC`: tubeless, crotchet.
    TubelessCrotchet,
    /// `TSS`: tubeless, straight side.
    TubelessStraightSide,
}

/// Marking of a rim: width between the flanges and bead seat diameter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct RimSize {
    width_tenths: u16,
    bsd_mm: u16,
    edge: Option<RimEdge>,
}

impl RimSize {
    /// From the inner width in tenths of a millimetre, the bead seat in mm and the marked edge, if any.
    ///
    /// # Errors
    /// An inner width outside 10 to 110 mm, a bead seat outside 130 to 800 mm.
    pub fn new(width_tenths: u16, bsd_mm: u16, edge: Option<RimEdge>) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        let (min, max) = RIM_WIDTH_TENTHS;
        faults.whole("rim.width", width_tenths.into(), min.into(), max.into(), "tenths of a mm");
        faults.whole("rim.bsd", bsd_mm.into(), BSD_MM.0.into(), BSD_MM.1.into(), "mm");
        faults.finish(Self { width_tenths, bsd_mm, edge })
    }

    /// Width between the flanges, in tenths of a millimetre.
    #[must_use]
    pub const fn width_tenths(self) -> u16 {
        self.width_tenths
    }

    /// Bead seat diameter, mm.
    #[must_use]
    pub const fn bsd_mm(self) -> u16 {
        self.bsd_mm
    }

    /// The marked edge; `None` if the marking does not say.
    #[must_use]
    pub const fn edge(self) -> Option<RimEdge> {
        self.edge
    }
}

impl FromStr for RimSize {
    type Err = Vec<Fault>;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (width, bsd, edge) =
            rim_parts(text).ok_or_else(|| vec![Fault::malformed("rim", text, RIM_FORM)])?;
        Self::new(width, bsd, edge)
    }
}

impl fmt::Display for RimSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, tenth) = (self.width_tenths / 10, self.width_tenths % 10);
        let fraction = if tenth == 0 { String::new() } else { format!(".{tenth}") };
        match self.edge {
            Some(RimEdge::Crotchet) => write!(f, "{}x{whole}{fraction}C", self.bsd_mm),
            Some(RimEdge::TubelessCrotchet) => write!(f, "{whole}{fraction}-{} TC", self.bsd_mm),
            Some(RimEdge::TubelessStraightSide) => write!(f, "{whole}{fraction}-{} TSS", self.bsd_mm),
            None => write!(f, "{whole}{fraction}-{}", self.bsd_mm),
        }
    }
}

fn rim_parts(text: &str) -> Option<(u16, u16, Option<RimEdge>)> {
    if let Some((bsd, width)) = text.split_once(['x', '\u{d7}']) {
        return Some((tenths(width.strip_suffix('C')?)?, number(bsd)?, Some(RimEdge::Crotchet)));
    }
    let (size, edge) = match text.split_once(' ') {
        None => (text, None),
        Some((size, "TSS")) => (size, Some(RimEdge::TubelessStraightSide)),
        Some((size, "TC")) => (size, Some(RimEdge::TubelessCrotchet)),
        Some(_) => return None,
    };
    let (width, bsd) = size.split_once('-')?;
    Some((tenths(width)?, number(bsd)?, edge))
}

/// A whole number without sign, space or leading zero.
fn number(text: &str) -> Option<u16> {
    let plain = text.bytes().all(|byte| byte.is_ascii_digit()) && !text.starts_with('0');
    if plain { text.parse().ok() } else { None }
}

/// A number with at most one decimal, in tenths.
fn tenths(text: &str) -> Option<u16> {
    let (whole, tenth) = match text.split_once('.') {
        None => (text, 0),
        Some((whole, "0")) => (whole, 0),
        Some((whole, tenth)) => (whole, number(tenth).filter(|&digit| digit < 10)?),
    };
    number(whole)?.checked_mul(10)?.checked_add(tenth)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn tyre_and_rim_markings_are_different_things() {
        let tyre: TyreSize = "25-622".parse().unwrap();
        assert_eq!((tyre.width_mm(), tyre.bsd_mm()), (25, 622));
        let rim: RimSize = "25-622".parse().unwrap();
        assert_eq!((rim.width_tenths(), rim.bsd_mm(), rim.edge()), (250, 622, None));
        assert!("622x21C".parse::<TyreSize>().is_err());
        let crotchet: RimSize = "622\u{d7}21C".parse().unwrap();
        assert_eq!(crotchet.edge(), Some(RimEdge::Crotchet));
        let straight: RimSize = "22.5-622 TSS".parse().unwrap();
        assert_eq!((straight.width_tenths(), straight.edge()), (225, Some(RimEdge::TubelessStraightSide)));
    }

    #[test]
    fn nothing_is_read_loosely() {
        for text in [
            "", "37", "37-", "-622", "037-622", "+37-622", "37 - 622", "37-622 ", "37_622", "37-622-1",
            "3.7-622",
        ] {
            assert_eq!(text.parse::<TyreSize>().unwrap_err()[0].code(), "malformed", "{text}");
        }
        for text in ["622x21", "622x21c", "21-622 tss", "21-622  TC", "21.55-622", "x", "622xC"] {
            assert_eq!(text.parse::<RimSize>().unwrap_err()[0].code(), "malformed", "{text}");
        }
        assert_eq!("622-37".parse::<TyreSize>().unwrap_err().len(), 2);
        assert!("99999-622".parse::<TyreSize>().is_err());
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_back(
            width in 16_u16..=132,
            inner in 100_u16..=1100,
            bsd in 130_u16..=800,
            edge in 0..4,
        ) {
            let tyre = TyreSize::new(width, bsd).unwrap();
            prop_assert_eq!(tyre.to_string().parse::<TyreSize>().unwrap(), tyre);
            let edges = [
                None,
                Some(RimEdge::Crotchet),
                Some(RimEdge::TubelessCrotchet),
                Some(RimEdge::TubelessStraightSide),
            ];
            let rim = RimSize::new(inner, bsd, edges[edge as usize]).unwrap();
            prop_assert_eq!(rim.to_string().parse::<RimSize>().unwrap(), rim);
        }

        #[test]
        fn no_text_makes_it_panic(text in ".{0,12}") {
            let _ = text.parse::<TyreSize>();
            let _ = text.parse::<RimSize>();
        }
    }
}
