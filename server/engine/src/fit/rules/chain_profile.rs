//! Chain profiles, as the rules on cogs, rings and quick links see them.

use crate::fit::rule::{Given, Stop};
use crate::fit::slot::Slot;
use crate::part::attr;
use crate::part::interface::Key;
use crate::part::interfaces::{PROFILE_FLAT_TOP, PROFILE_FLAT_TOP_MOUNTAIN, PROFILE_NORMAL, PROFILE_THICK};
use crate::part::of::Of;
use crate::part::units::Count;

/// Up to this many speeds every chain is of normal profile: a definition, not a guess.
pub const NORMAL_UP_TO: i64 = 11;

/// A profile in one possible state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Profile<'a> {
    /// Not stated, and normal by its number of speeds.
    NormalByDefinition,
    /// Stated.
    Stated(Key, &'a str),
    /// Stated, but no such profile exists at this number of speeds.
    Contradictory,
}

impl<'a> Profile<'a> {
    /// Its key's name.
    pub const fn name(self) -> &'a str {
        match self {
            Self::Stated(_, name) => name,
            Self::NormalByDefinition | Self::Contradictory => PROFILE_NORMAL,
        }
    }

    /// One of the profiles with a straight upper plate edge.
    pub fn flat(self) -> bool {
        matches!(self.name(), PROFILE_FLAT_TOP | PROFILE_FLAT_TOP_MOUNTAIN)
    }

    /// Ordinary plates and rollers.
    pub fn normal(self) -> bool {
        matches!(self.name(), PROFILE_NORMAL | PROFILE_THICK)
    }
}

/// The profile of a chain, a link or cogs; asks for it where the number of speeds does not settle it.
pub fn profile<'a>(given: &Given<'a>, slot: Slot, speeds: Of<Count>) -> Result<Profile<'a>, Stop> {
    let speeds = given.known(slot, speeds);
    let low = match speeds {
        Some(speeds) => speeds.at_most(NORMAL_UP_TO)?,
        None => false,
    };
    if low && given.is_missing(slot, attr::CHAIN_PROFILE) {
        return Ok(Profile::NormalByDefinition);
    }
    let key = given.key(slot, attr::CHAIN_PROFILE)?;
    let stated = Profile::Stated(key, given.name(key));
    // A stated profile beside few speeds is one of two slips of the pen; which one is not for a rule to say.
    Ok(if low && !stated.normal() { Profile::Contradictory } else { stated })
}

/// Known to be flat-top; never a reason to ask.
pub fn known_flat(given: &Given<'_>, slot: Slot) -> bool {
    !given.is_missing(slot, attr::CHAIN_PROFILE)
        && given
            .key(slot, attr::CHAIN_PROFILE)
            .is_ok_and(|key| matches!(given.name(key), PROFILE_FLAT_TOP | PROFILE_FLAT_TOP_MOUNTAIN))
}
