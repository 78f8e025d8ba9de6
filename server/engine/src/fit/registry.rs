//! Every mating, in the order in which a mechanic would look.

use super::rule::{Mating, Rule};
use super::rules::*;

/// Version of the rules: changes whenever an answer may change.
pub const RULESET_VERSION: &str = "1";

/// Every mating.
pub const MATINGS: &[&Mating] = &[
    &cassette_on_body::MATING,
    &cut_down_cassette::MATING,
    &lockring_on_body::MATING,
    &freewheel_on_hub::MATING,
    &chain_on_cogs::MATING,
    &chain_on_single_cog::MATING,
    &chain_on_ring::MATING,
    &quick_link_on_chain::MATING,
    &chain_length::MATING,
    &derailleur_on_cogs::MATING,
    &derailleur_capacity::MATING,
    &derailleur_on_hanger::MATING,
    &shifter_on_derailleur::MATING,
    &indexing::MATING,
    &shifter_positions::MATING,
    &friction_shifter::MATING,
    &chain_retention::MATING,
    &axle_in_fork::MATING,
    &axle_in_frame::MATING,
    &hub_in_fork::MATING,
    &hub_in_frame::MATING,
    &rotor_on_hub::MATING,
    &brake_on_frame::MATING,
    &brake_on_fork::MATING,
    &brake_fluid::MATING,
    &lever_on_brake::MATING,
    &pads_in_brake::MATING,
    &rotor_in_caliper::MATING,
    &tyre_on_rim::MATING,
    &tyre_width_on_rim::MATING,
    &tube_in_tyre::MATING,
    &tyre_in_frame::MATING,
    &tyre_in_fork::MATING,
    &rim_brake_on_rim::MATING,
    &pedal_on_crank::MATING,
    &bottom_bracket_in_shell::MATING,
    &crank_on_bottom_bracket::MATING,
    &crank_in_frame::MATING,
    &chainring_on_crank::MATING,
    &ring_clearance::MATING,
    &front_derailleur_on_frame::MATING,
    &front_derailleur_on_rings::MATING,
    &front_shifter_on_derailleur::MATING,
    &gear_hub::MATING,
    &sprocket_line::MATING,
    &e_bike_approval::MATING,
    &motor_and_load::MATING,
    &end_caps::MATING,
];

/// Every rule with its mating.
pub fn rules() -> impl Iterator<Item = (&'static Mating, &'static Rule)> {
    MATINGS.iter().flat_map(|mating| mating.rules.iter().map(move |rule| (*mating, rule)))
}

/// A mating by its code, or by "mating/rule".
pub fn find(code: &str) -> Option<&'static Mating> {
    let mating = code.split('/').next().unwrap_or(code);
    MATINGS.iter().copied().find(|found| found.code == mating)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::fit::outcome::{Hazard, Outcome};
    use crate::fit::reason::Source;

    fn kebab(code: &str) -> bool {
        !code.is_empty()
            && code
                .chars()
                .all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-')
    }

    #[test]
    fn codes_are_unique_and_kebab_case() {
        let mut matings = BTreeSet::new();
        for mating in MATINGS {
            assert!(kebab(mating.code) && matings.insert(mating.code), "{}", mating.code);
            let mut rules = BTreeSet::new();
            for rule in mating.rules {
                assert!(kebab(rule.code) && rules.insert(rule.code), "{}/{}", mating.code, rule.code);
                let mut reasons = BTreeSet::new();
                for reason in rule.reasons {
                    let unique = reasons.insert(reason.code);
                    assert!(kebab(reason.code) && unique, "{}/{}/{}", mating.code, rule.code, reason.code);
                }
            }
        }
    }

    #[test]
    fn a_page_stands_in_the_file_of_its_mating() {
        // "Exceptions" stand between numbers and sources where there are any.
        const HEADINGS: [&str; 4] = ["## What it checks", "## Why it matters", "## Numbers", "## Sources"];
        for mating in MATINGS {
            let page = mating.page();
            assert!(page.starts_with("# "), "{}: {page}", mating.code);
            let headings = page.lines().filter(|line| line.starts_with("## ") && *line != "## Exceptions");
            let found: Vec<&str> = headings.collect();
            assert_eq!(found, HEADINGS, "{}", mating.code);
            assert!(mating.file.contains(&format!("code: \"{}\"", mating.code)), "{}", mating.code);
            let own = format!("include_str!(\"{}.rs\")", mating.code.replace('-', "_"));
            assert!(mating.file.contains(&own), "{} does not stand in its own file", mating.code);
        }
    }

    #[test]
    fn rules_read_only_what_their_slots_have() {
        for (mating, rule) in rules() {
            let name = format!("{}/{}", mating.code, rule.code);
            assert!(!rule.slots.is_empty() && !rule.reasons.is_empty(), "{name}");
            // Inputs are bits of a word.
            assert!(rule.inputs.len() <= 32, "{name}");
            for (slot, attribute) in rule.inputs {
                assert!(rule.slots.contains(slot), "{name} reads {slot:?}");
                let known = slot.kinds().iter().any(|kind| kind.attribute(*attribute).is_some());
                assert!(known, "{name}: {slot:?} has no {attribute:?}");
            }
            let inputs: BTreeSet<_> = rule.inputs.iter().collect();
            assert_eq!(inputs.len(), rule.inputs.len(), "{name} declares an input twice");
        }
    }

    #[test]
    fn injury_is_never_tolerated() {
        for (mating, rule) in rules() {
            for reason in rule.reasons {
                let name = format!("{}/{}/{}", mating.code, rule.code, reason.code);
                assert!(!(reason.hazard == Hazard::Injury && reason.tolerated), "{name}");
                // Only what would work is there to tolerate.
                let works = matches!(reason.outcome, Outcome::Caveat | Outcome::ExtraPart);
                assert!(!reason.tolerated || works, "{name}");
            }
        }
    }

    #[test]
    fn texts_are_one_lower_case_sentence_and_extras_have_what_is_asked_of_them() {
        for (mating, rule) in rules() {
            for reason in rule.reasons {
                let name = format!("{}/{}/{}", mating.code, rule.code, reason.code);
                let texts = reason.remedies.iter().map(|remedy| remedy.text).chain([reason.text]);
                for text in texts {
                    assert!(!text.is_empty() && !text.ends_with('.'), "{name}: {text}");
                    assert!(!text.contains("  ") && !text.contains('\n'), "{name}: {text}");
                    let opened = text.matches('{').count();
                    assert_eq!(opened, text.matches('}').count(), "{name}: {text}");
                }
                for extra in reason.extras {
                    for (attribute, source) in extra.traits {
                        assert!(extra.kind.attribute(*attribute).is_some(), "{name}: {attribute:?}");
                        if let Source::Key(class, key) = source {
                            let found = crate::part::interface::Interfaces::standard().find(class, key);
                            assert!(found.is_some(), "{name}: {class} {key}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_mating_is_found_by_its_code_and_by_a_rule_of_it() {
        assert_eq!(find("chain-on-cogs").map(|mating| mating.code), Some("chain-on-cogs"));
        assert_eq!(find("chain-on-cogs/class").map(|mating| mating.code), Some("chain-on-cogs"));
        assert!(find("no-such-mating").is_none());
    }
}
