//! Chains on cogs and rings, quick links, chain length and retention against check values of workshop pages and forum
//! reports, seen as excerpts; clearances are computed.

use super::fitting::{f, judge, k, maker, n, part, with, workshop};
use sprag_engine::fit::Outcome::{self, Caveat, DoesNotFit, Fits, NotEnoughData};
use sprag_engine::fit::Practice;
use sprag_engine::part::{Attribute as A, Kind, Part};

const ON_COGS: &[&str] = &["chain-on-cogs"];
const ON_RING: &[&str] = &["chain-on-ring"];
const SINGLE: &[&str] = &["chain-on-single-cog"];
const LINK: &[&str] = &["quick-link-on-chain"];
const LENGTH: &[&str] = &["chain-length"];
const HELD: &[&str] = &["chain-retention"];

fn chain(speed: i64) -> Part {
    let chain = part(Kind::Chain, &[(A::ChainSpeed, n(speed))]);
    if speed >= 12 { with(&chain, A::ChainProfile, k("normal")) } else { chain }
}

fn cogs(class: i64) -> Part {
    let cogs = part(Kind::Cassette, &[(A::ChainClass, n(class))]);
    if class >= 12 { with(&cogs, A::ChainProfile, k("normal")) } else { cogs }
}

fn profiled(kind: Kind, speeds: A, count: i64, profile: &'static str) -> Part {
    part(kind, &[(speeds, n(count)), (A::ChainProfile, k(profile))])
}

/// Speed against class, from workshop pages on chain compatibility.
#[test]
fn speed_against_class() {
    let rows: &[(i64, i64, Outcome)] = &[
        (9, 10, DoesNotFit),
        (8, 9, DoesNotFit),
        (10, 11, DoesNotFit),
        (11, 12, DoesNotFit),
        (11, 9, Caveat),
        (12, 11, Caveat),
        (10, 9, Caveat),
        (9, 6, Caveat),
        (9, 9, Fits),
        (8, 8, Fits),
        (8, 6, Fits),
        (7, 8, Fits),
        (12, 12, Fits),
    ];
    for (speed, class, outcome) in rows {
        assert_eq!(workshop(ON_COGS, &[&chain(*speed), &cogs(*class)]), Some(*outcome), "{speed} on {class}");
        assert_eq!(maker(ON_COGS, &[&chain(*speed), &cogs(*class)]), Some(*outcome), "{speed} on {class}");
    }
}

/// Clearance from pitch, thickness and width over the pins: arithmetic from a shop's table of widths and a forum's table
/// of spacings.
#[test]
fn clearances() {
    let rows: &[(i64, i64, i64, i64, i64, i64, Outcome)] = &[
        // speed, width, class, pitch, thickness, clearance
        (8, 7_100, 8, 4_800, 1_800, 350, Fits),
        (9, 6_600, 9, 4_340, 1_780, 150, Fits),
        (11, 5_500, 11, 3_690, 1_600, 140, Fits),
        (9, 6_600, 10, 3_950, 1_600, -150, DoesNotFit),
        (8, 7_100, 9, 4_340, 1_780, -100, DoesNotFit),
        (10, 5_880, 11, 3_690, 1_600, -50, DoesNotFit),
        (12, 5_250, 11, 3_690, 1_600, 265, Caveat),
        // The old chain for wide-spaced freewheels.
        (6, 7_800, 8, 4_800, 1_800, 0, DoesNotFit),
        (6, 7_800, 7, 5_000, 1_850, 175, Caveat),
    ];
    for (speed, width, class, pitch, thickness, clearance, outcome) in rows {
        let chain = with(&chain(*speed), A::OuterWidth, n(*width));
        let cogs = with(&with(&cogs(*class), A::CogPitch, n(*pitch)), A::CogThickness, n(*thickness));
        let said = judge(ON_COGS, &[&chain, &cogs], Practice::Workshop);
        assert_eq!(said.headline(), Some(*outcome), "{width} on {pitch}: {:?}", said.reasons);
        assert_eq!(said.figure("clearance"), *clearance, "{width} on {pitch}");
    }
    // Where the class is not known the figure is a hint beside the question, and refuses what cannot be.
    let bare = part(Kind::Cassette, &[(A::CogPitch, n(3_950)), (A::CogThickness, n(1_600))]);
    let wide = with(&chain(9), A::OuterWidth, n(6_600));
    assert_eq!(workshop(ON_COGS, &[&wide, &bare]), Some(DoesNotFit));
    let right = with(&chain(10), A::OuterWidth, n(5_880));
    assert_eq!(workshop(ON_COGS, &[&right, &bare]), Some(NotEnoughData));
}

/// Chains of 5 to 8 speeds: width or label decides; a forum's table of widths.
#[test]
fn wide_chains_need_width_or_label() {
    let old = part(Kind::Chain, &[(A::ChainSpeed, n(6))]);
    assert_eq!(workshop(ON_COGS, &[&old, &cogs(7)]), Some(NotEnoughData));
    assert_eq!(workshop(ON_COGS, &[&with(&old, A::Labelled678, f(true)), &cogs(7)]), Some(Fits));
    assert_eq!(workshop(ON_COGS, &[&with(&old, A::OuterWidth, n(7_100)), &cogs(8)]), Some(Fits));
    assert_eq!(workshop(ON_COGS, &[&with(&old, A::OuterWidth, n(7_800)), &cogs(6)]), Some(Fits));
    // The thick old seven-speed cogs of 2.35 mm: the factory pair leaves 0.03 mm.
    let thick = with(&cogs(7), A::CogThickness, n(2_350));
    let labelled = with(&with(&old, A::Labelled678, f(true)), A::InnerWidth, n(2_380));
    assert_eq!(workshop(ON_COGS, &[&labelled, &thick]), Some(Fits));
    assert_eq!(workshop(ON_COGS, &[&with(&chain(9), A::InnerWidth, n(2_180)), &thick]), Some(DoesNotFit));
}

/// Thick-cog sets of 9 and 10 cogs are spaced for 11; a maker engineer's account.
#[test]
fn thick_cogs_take_eleven_speed_chains() {
    let set = with(&with(&cogs(11), A::CogCount, n(9)), A::ChainProfile, k("thick-cog"));
    assert_eq!(workshop(ON_COGS, &[&chain(9), &set]), Some(DoesNotFit));
    assert_eq!(workshop(ON_COGS, &[&chain(11), &set]), Some(Fits));
}

/// Profiles of 12 and 13 speeds: a mechanic's blog and a page on flat-top chains; family C and 13 speeds from memory.
#[test]
fn profiles() {
    let rows: &[(i64, &str, i64, &str, Outcome, Outcome)] = &[
        (12, "flat-top", 12, "normal", DoesNotFit, DoesNotFit),
        (12, "normal", 12, "flat-top", DoesNotFit, DoesNotFit),
        (12, "flat-top", 12, "flat-top", Fits, Fits),
        (12, "flat-top", 13, "flat-top", Fits, Fits),
        (12, "extended-inner-plates", 12, "normal", Caveat, Caveat),
        (12, "normal", 12, "extended-inner-plates", Caveat, Caveat),
        (12, "extended-inner-plates", 12, "extended-inner-plates", Fits, Fits),
        (12, "flat-top-mountain", 12, "normal", Caveat, DoesNotFit),
        (12, "family-c-12", 12, "normal", DoesNotFit, DoesNotFit),
        (13, "family-c-13", 13, "family-c-13", Fits, Fits),
        (13, "family-c-13", 12, "family-c-12", DoesNotFit, DoesNotFit),
    ];
    for (speed, chain, class, set, outcome, strict) in rows {
        let chain_part = profiled(Kind::Chain, A::ChainSpeed, *speed, chain);
        let set_part = profiled(Kind::Cassette, A::ChainClass, *class, set);
        assert_eq!(workshop(ON_COGS, &[&chain_part, &set_part]), Some(*outcome), "{chain} on {set}");
        assert_eq!(maker(ON_COGS, &[&chain_part, &set_part]), Some(*strict), "{chain} on {set}");
    }
    let unstated = part(Kind::Chain, &[(A::ChainSpeed, n(12))]);
    assert_eq!(workshop(ON_COGS, &[&unstated, &cogs(12)]), Some(NotEnoughData));
    let extended = profiled(Kind::Chain, A::ChainSpeed, 12, "extended-inner-plates");
    assert_eq!(workshop(ON_COGS, &[&extended, &cogs(11)]), Some(Caveat));
}

/// 1/8 in and 3/32 in: answers on single-speed chains and measured cogs.
#[test]
fn single_speed_widths() {
    let rows =
        [(2_380, 2_910, DoesNotFit), (3_175, 2_910, Fits), (3_175, 2_100, Fits), (2_180, 2_100, Caveat)];
    for (inner, tooth, outcome) in rows {
        let chain = part(Kind::Chain, &[(A::InnerWidth, n(inner)), (A::ChainSpeed, n(1))]);
        let cog = part(Kind::Sprocket, &[(A::CogThickness, n(tooth))]);
        assert_eq!(workshop(SINGLE, &[&chain, &cog]), Some(outcome), "{inner} on {tooth}");
        let ring = part(Kind::Chainring, &[(A::ToothThickness, n(tooth))]);
        assert_eq!(workshop(ON_RING, &[&chain, &ring]), Some(outcome), "{inner} on ring {tooth}");
    }
    let eighth = part(Kind::Chain, &[(A::InnerWidth, n(3_175))]);
    let derailleur = Part::new(Kind::RearDerailleur);
    assert_eq!(workshop(ON_COGS, &[&eighth, &derailleur]), Some(DoesNotFit));
}

/// Rings: workshop pages on 12-speed chains and 11-speed rings; flat-top rings from a columnist's trial.
#[test]
fn rings() {
    let ring = |class: i64, tooth: &'static str| {
        part(
            Kind::Chainring,
            &[(A::RingSpeedClass, n(class)), (A::ToothProfile, k(tooth)), (A::RingPosition, k("single"))],
        )
    };
    let (normal, narrow_wide) = (chain(12), ring(11, "narrow-wide"));
    let extended = profiled(Kind::Chain, A::ChainSpeed, 12, "extended-inner-plates");
    let flat = profiled(Kind::Chain, A::ChainSpeed, 12, "flat-top");
    assert_eq!(workshop(ON_RING, &[&chain(10), &ring(9, "narrow-wide")]), Some(Fits));
    assert_eq!(workshop(ON_RING, &[&normal, &narrow_wide]), Some(Caveat));
    assert_eq!(workshop(ON_RING, &[&extended, &narrow_wide]), Some(Caveat));
    assert_eq!(workshop(ON_RING, &[&extended, &ring(11, "ramped")]), Some(Fits));
    assert_eq!(workshop(ON_RING, &[&flat, &narrow_wide]), Some(DoesNotFit));
    let flat_ring = with(&ring(12, "narrow-wide"), A::RingProfile, k("ring-flat-top"));
    assert_eq!(workshop(ON_RING, &[&flat, &flat_ring]), Some(Fits));
    assert_eq!(workshop(ON_RING, &[&normal, &flat_ring]), Some(Caveat));
    assert_eq!(maker(ON_RING, &[&normal, &flat_ring]), Some(DoesNotFit));
    assert_eq!(workshop(ON_RING, &[&chain(10), &Part::new(Kind::Chainring)]), Some(NotEnoughData));
    let double = part(Kind::Crankset, &[(A::RingCount, n(2))]);
    assert_eq!(workshop(ON_RING, &[&chain(10), &ring(9, "ramped"), &double]), Some(Caveat));
    assert_eq!(workshop(ON_RING, &[&chain(9), &ring(9, "ramped"), &double]), Some(Fits));
}

/// Narrow-wide rings, guides and clutches: workshop columns; common practice.
#[test]
fn retention() {
    let narrow_wide = part(Kind::Chainring, &[(A::ToothProfile, k("narrow-wide"))]);
    let plain = part(Kind::Chainring, &[(A::ToothProfile, k("plain"))]);
    let crank = part(Kind::Crankset, &[(A::RingCount, n(1))]);
    let derailleur = Part::new(Kind::RearDerailleur);
    let rough = part(Kind::Use, &[(A::RoughGround, f(true))]);
    let front = Part::new(Kind::FrontDerailleur);
    assert_eq!(workshop(HELD, &[&narrow_wide, &front]), Some(DoesNotFit));
    assert_eq!(workshop(HELD, &[&plain, &crank]), None, "single-speed and hub gears");
    assert_eq!(workshop(HELD, &[&plain, &crank, &derailleur]), Some(Caveat));
    let said = judge(HELD, &[&plain, &crank, &derailleur, &rough], Practice::Workshop);
    assert!(said.verdict.is_some_and(|verdict| verdict.extra_parts), "{said:?}");
    let clutched = with(&derailleur, A::Clutch, f(true));
    let bare = with(&derailleur, A::Clutch, f(false));
    assert_eq!(workshop(HELD, &[&narrow_wide, &crank, &clutched]), Some(Fits));
    assert_eq!(workshop(HELD, &[&narrow_wide, &crank, &bare]), Some(Caveat));
    let coaster = part(Kind::GearHub, &[(A::BackPedalBrake, f(true))]);
    assert_eq!(workshop(HELD, &[&derailleur, &coaster]), Some(DoesNotFit));
}

/// Quick links: magazine and forum answers; the emergency rule is common practice.
#[test]
fn quick_links() {
    let link = |speed: i64| part(Kind::QuickLink, &[(A::ChainSpeed, n(speed))]);
    let rows = [
        (11, 11, Fits, Fits),
        (8, 7, Fits, Fits),
        (6, 8, Fits, Fits),
        (10, 11, Caveat, DoesNotFit),
        (9, 10, Caveat, DoesNotFit),
        (9, 11, DoesNotFit, DoesNotFit),
        (11, 10, DoesNotFit, DoesNotFit),
        (10, 8, DoesNotFit, DoesNotFit),
    ];
    for (speed, chain_speed, outcome, strict) in rows {
        let (link, chain) = (link(speed), chain(chain_speed));
        assert_eq!(workshop(LINK, &[&link, &chain]), Some(outcome), "{speed} on {chain_speed}");
        assert_eq!(maker(LINK, &[&link, &chain]), Some(strict), "{speed} on {chain_speed}");
        if outcome == Caveat {
            let fresh = with(&chain, A::CutToLength, f(false));
            assert_eq!(workshop(LINK, &[&link, &fresh]), Some(DoesNotFit), "new chain");
        }
    }
    let flat = profiled(Kind::Chain, A::ChainSpeed, 12, "flat-top");
    assert_eq!(
        workshop(LINK, &[&profiled(Kind::QuickLink, A::ChainSpeed, 12, "normal"), &flat]),
        Some(DoesNotFit)
    );
    let used = with(&link(11), A::Used, f(true));
    assert_eq!(workshop(LINK, &[&used, &chain(11)]), Some(NotEnoughData));
    assert_eq!(workshop(LINK, &[&with(&used, A::Reusable, f(false)), &chain(11)]), Some(DoesNotFit));
    assert_eq!(workshop(LINK, &[&with(&used, A::Reusable, f(true)), &chain(11)]), Some(Fits));
}

/// Length: published worked rows of the closed form, two links more, rounded up to even; growth of 10 mm is one pair.
#[test]
fn lengths() {
    let rows = [
        (50, 34, 410_000, 0, 110),
        (32, 51, 435_000, 0, 114),
        (53, 25, 405_000, 0, 106),
        (32, 51, 435_000, 10_000, 116),
    ];
    for (ring, cog, stay, growth, need) in rows {
        let crank = part(Kind::Crankset, &[(A::LargestRing, n(ring))]);
        let set = part(Kind::Cassette, &[(A::LargestCog, n(cog))]);
        let frame = part(Kind::Frame, &[(A::Chainstay, n(stay)), (A::ChainGrowth, n(growth))]);
        for (links, outcome) in [(need, Fits), (need - 2, DoesNotFit), (need + 10, Fits)] {
            let chain = part(Kind::Chain, &[(A::LinkCount, n(links))]);
            let said = judge(LENGTH, &[&chain, &crank, &set, &frame], Practice::Workshop);
            assert_eq!(said.headline(), Some(outcome), "{links} on {ring} x {cog}");
            assert_eq!(said.figure("need"), need);
        }
        // Growth unknown: too short without any is too short, long enough with the most is long enough.
        let growing = part(Kind::Frame, &[(A::Chainstay, n(stay))]);
        let unknown = [(104, DoesNotFit), (need.max(110), NotEnoughData), (126, Fits)];
        for (links, outcome) in unknown {
            let chain = part(Kind::Chain, &[(A::LinkCount, n(links))]);
            assert_eq!(workshop(LENGTH, &[&chain, &crank, &set, &growing]), Some(outcome), "{links}");
        }
        assert_eq!(workshop(LENGTH, &[&Part::new(Kind::Chain), &crank, &set, &frame]), None);
    }
    let coaxial = part(Kind::RearDerailleur, &[(A::Geometry, k("coaxial"))]);
    let chain = part(Kind::Chain, &[(A::LinkCount, n(126))]);
    assert_eq!(workshop(LENGTH, &[&chain, &coaxial]), Some(NotEnoughData));
}
