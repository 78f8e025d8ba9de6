//! Outcomes, hazards and evidence.

/// What a rule, or a whole check, comes to. Ordered from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Goes together as it is.
    Fits,
    /// Goes together with a further part.
    ExtraPart,
    /// Goes together with a drawback.
    Caveat,
    /// A value is missing that decides it.
    NotEnoughData,
    /// Impossible, unsafe, or over a limit that is held.
    DoesNotFit,
}

/// What can happen when a finding is ignored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hazard {
    /// Nothing worse than poor shifting.
    None,
    /// Parts can be damaged.
    Damage,
    /// Someone can be hurt; never softened by practice or by a house ruling.
    Injury,
}

/// What a finding rests on, strongest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Evidence {
    /// A maker's statement stored for the pair.
    Statement,
    /// Equality or acceptance of named interfaces.
    Interface,
    /// A published limit.
    PublishedLimit,
    /// Computed from dimensions.
    Geometry,
    /// A house ruling of the shop.
    HouseRuling,
}

/// How published limits are held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Practice {
    /// Every published limit is held.
    Maker,
    /// The tolerances of common workshop practice are allowed, always with a caveat.
    #[default]
    Workshop,
}

/// The verdict over several outcomes: the worst decides, but a caveat and an extra part are both kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Verdict {
    /// The headline.
    pub headline: Outcome,
    /// Something works only with a caveat.
    pub caveat: bool,
    /// Something needs an extra part.
    pub extra_parts: bool,
}

impl Default for Verdict {
    fn default() -> Self {
        Self { headline: Outcome::Fits, caveat: false, extra_parts: false }
    }
}

impl Verdict {
    /// This verdict with one outcome more.
    #[must_use]
    pub fn and(self, outcome: Outcome) -> Self {
        Self {
            headline: self.headline.max(outcome),
            caveat: self.caveat || outcome == Outcome::Caveat,
            extra_parts: self.extra_parts || outcome == Outcome::ExtraPart,
        }
    }

    /// Goes together, whatever the drawback.
    pub fn passes(self) -> bool {
        self.headline <= Outcome::Caveat
    }
}

impl FromIterator<Outcome> for Verdict {
    fn from_iter<I: IntoIterator<Item = Outcome>>(outcomes: I) -> Self {
        outcomes.into_iter().fold(Self::default(), Self::and)
    }
}
