//! What integers count. A measure is a type, so that teeth and micrometres cannot be mixed.

use super::spec::Unit;

/// A measure with its unit.
pub trait Measure: Copy + std::fmt::Debug {
    /// The unit that integers of this measure count.
    const UNIT: Unit;
}

macro_rules! measures {
    ($($name:ident: $doc:literal),* $(,)?) => {$(
        #[doc = $doc]
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub struct $name;
        impl Measure for $name {
            const UNIT: Unit = Unit::$name;
        }
    )*};
}

measures! {
    Count: "A plain count.",
    Teeth: "Teeth of a cog or ring.",
    Micrometres: "Thousandths of a millimetre.",
    Grams: "Grams.",
    Permille: "Thousandths.",
    Links: "Half-inch links of a chain, counted singly.",
    Kilopascals: "Kilopascals.",
    NewtonMetres: "Newton metres.",
    KilometresPerHour: "Kilometres per hour.",
    Kilograms: "Kilograms.",
    Millidegrees: "Thousandths of a degree.",
}
