//! Reasons: what a rule can say, declared as constants beside it. Rendering happens elsewhere.

use super::outcome::{Evidence, Hazard, Outcome};
use crate::part::{Attribute, Kind};

/// A reason that a rule can give. Placeholders in the text are names of numbers or slots in braces.
#[derive(Debug)]
pub struct Reason {
    /// Code within the rule, kebab-case.
    pub code: &'static str,
    /// What it comes to.
    pub outcome: Outcome,
    /// What can happen when it is ignored.
    pub hazard: Hazard,
    /// What it rests on.
    pub evidence: Evidence,
    /// Over a published limit, within the tolerance of workshop practice: refused under maker practice.
    pub tolerated: bool,
    /// The drawback is serious.
    pub strong: bool,
    /// Its sentence.
    pub text: &'static str,
    /// Further parts that make it work.
    pub extras: &'static [Extra],
    /// Ways out.
    pub remedies: &'static [Remedy],
    /// A note for the assembly; empty = none.
    pub note: &'static str,
}

impl Reason {
    const fn new(code: &'static str, outcome: Outcome, text: &'static str) -> Self {
        Self {
            code,
            outcome,
            hazard: Hazard::None,
            evidence: Evidence::Interface,
            tolerated: false,
            strong: false,
            text,
            extras: &[],
            remedies: &[],
            note: "",
        }
    }

    /// Goes together.
    pub const fn fits(code: &'static str, text: &'static str) -> Self {
        Self::new(code, Outcome::Fits, text)
    }

    /// Goes together with further parts.
    pub const fn extra(code: &'static str, text: &'static str, extras: &'static [Extra]) -> Self {
        let mut reason = Self::new(code, Outcome::ExtraPart, text);
        reason.extras = extras;
        reason
    }

    /// Works with a drawback.
    pub const fn caveat(code: &'static str, text: &'static str) -> Self {
        Self::new(code, Outcome::Caveat, text)
    }

    /// Does not go together.
    pub const fn no(code: &'static str, text: &'static str) -> Self {
        Self::new(code, Outcome::DoesNotFit, text)
    }

    /// Known well enough to say that it cannot be judged.
    pub const fn unclear(code: &'static str, text: &'static str) -> Self {
        Self::new(code, Outcome::NotEnoughData, text)
    }

    /// Someone can be hurt.
    pub const fn injury(mut self) -> Self {
        self.hazard = Hazard::Injury;
        self
    }

    /// Parts can be damaged.
    pub const fn damage(mut self) -> Self {
        self.hazard = Hazard::Damage;
        self
    }

    /// Rests on a published limit.
    pub const fn limit(mut self) -> Self {
        self.evidence = Evidence::PublishedLimit;
        self
    }

    /// Rests on dimensions.
    pub const fn geometry(mut self) -> Self {
        self.evidence = Evidence::Geometry;
        self
    }

    /// Over a published limit, within the tolerance of workshop practice.
    pub const fn tolerated(mut self) -> Self {
        self.tolerated = true;
        self
    }

    /// The drawback is serious.
    pub const fn strong(mut self) -> Self {
        self.strong = true;
        self
    }

    /// Names further parts; those that are optional help without being needed.
    pub const fn extras(mut self, extras: &'static [Extra]) -> Self {
        self.extras = extras;
        self
    }

    /// Names the ways out, cheapest first.
    pub const fn remedies(mut self, remedies: &'static [Remedy]) -> Self {
        self.remedies = remedies;
        self
    }

    /// Adds a note for the assembly.
    pub const fn note(mut self, note: &'static str) -> Self {
        self.note = note;
        self
    }
}

/// Where a trait of an extra part comes from.
#[derive(Clone, Copy, Debug)]
pub enum Source {
    /// A number of the judgement, by name.
    Number(&'static str),
    /// An interface key of a class.
    Key(&'static str, &'static str),
    /// A word of the attribute's closed set.
    Word(&'static str),
    /// A fixed integer.
    Fixed(i64),
}

/// A further part, described by what it must be.
#[derive(Clone, Copy, Debug)]
pub struct Extra {
    /// Its kind.
    pub kind: Kind,
    /// What it must be.
    pub traits: &'static [(Attribute, Source)],
    /// Useful, but the set works without it.
    pub optional: bool,
}

impl Extra {
    /// A part that is needed.
    pub const fn needed(kind: Kind, traits: &'static [(Attribute, Source)]) -> Self {
        Self { kind, traits, optional: false }
    }

    /// A part that helps.
    pub const fn helpful(kind: Kind, traits: &'static [(Attribute, Source)]) -> Self {
        Self { kind, traits, optional: true }
    }
}

/// A way out.
#[derive(Clone, Copy, Debug)]
pub struct Remedy {
    /// Code, kebab-case.
    pub action: &'static str,
    /// The kind to change.
    pub kind: Option<Kind>,
    /// One sentence, with placeholders.
    pub text: &'static str,
}

impl Remedy {
    /// Replaces a part of a kind.
    pub const fn replace(kind: Kind, text: &'static str) -> Self {
        Self { action: "replace", kind: Some(kind), text }
    }

    /// Does something without a new part.
    pub const fn act(action: &'static str, text: &'static str) -> Self {
        Self { action, kind: None, text }
    }
}
