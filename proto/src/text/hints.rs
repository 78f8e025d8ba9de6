//! What the trade mixes up, said where it happens.

use super::fault::{Wrong, shown};

/// Whether this attribute counts the cogs at the rear wheel, which bikes sold as "21-speed" confuse.
pub(crate) fn asks_for_cogs(base: &str) -> bool {
    base == "cog_count"
}

/// Says that the count at the rear wheel is meant.
pub(crate) fn cog_count(text: &str, value: Option<i64>) -> Wrong {
    let meant = "the number of cogs at the rear wheel alone is meant, as a plain number";
    let ways = |value: i64| {
        let by = |rings: i64| (value % rings == 0).then_some((rings, value / rings));
        [by(3), by(2)].into_iter().flatten().filter(|(_, cogs)| (5..=13).contains(cogs)).collect::<Vec<_>>()
    };
    let ways = value.map(ways).unwrap_or_default();
    let said: Vec<String> = ways
        .iter()
        .map(|(rings, cogs)| format!("{} = {rings} x {cogs} means {cogs} cogs", rings * cogs))
        .collect();
    let wanted = if said.is_empty() { meant.to_owned() } else { format!("{meant}: {}", said.join(", or ")) };
    let wrong = Wrong::new(format!("\"{}\"", shown(text)), wanted);
    match ways.as_slice() {
        [(_, cogs)] => wrong.near(cogs.to_string()),
        _ => wrong,
    }
}

/// The order in which a list is declared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Order {
    SmallestFirst,
    LargestFirst,
}

/// The order of the list attributes; `None` = an attribute that this table does not name.
pub(crate) fn order(base: &str) -> Option<Order> {
    match base {
        "cogs" | "hub_ratios" => Some(Order::SmallestFirst),
        "rings" => Some(Order::LargestFirst),
        _ => None,
    }
}

/// Says that "11-34" names only the ends of a set of cogs.
pub(crate) fn only_ends(base: &str, text: &str) -> Option<Wrong> {
    let wanted = "two numbers name only the ends: give smallest_cog and largest_cog, or every cog";
    (base == "cogs").then(|| Wrong::new(format!("\"{}\"", shown(text)), wanted))
}
