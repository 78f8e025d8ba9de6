//! Shifters, derailleurs and hangers against check values. Pull and ratio of a few groups are published on workshop pages
//! seen as excerpts, the rest is from memory; movement and drift are computed from them.

use super::fitting::{Is, f, judge, k, maker, n, part, with, workshop};
use sprag_engine::fit::Outcome::{self, Caveat, DoesNotFit, ExtraPart, Fits, NotEnoughData};
use sprag_engine::fit::Practice;
use sprag_engine::part::{Attribute as A, Kind, Part};

const INDEXED: &[&str] = &["shifter-on-derailleur", "indexing", "shifter-positions", "friction-shifter"];
const COGS: &[&str] = &["derailleur-on-cogs"];
const CAPACITY: &[&str] = &["derailleur-capacity"];
const HANGER: &[&str] = &["derailleur-on-hanger"];

fn shifter(group: &'static str, positions: i64) -> Part {
    part(Kind::RearShifter, &[(A::PullFamily, k(group)), (A::Positions, n(positions))])
}

fn derailleur(group: &'static str) -> Part {
    part(Kind::RearDerailleur, &[(A::PullFamily, k(group))])
}

fn set(cogs: i64) -> Part {
    part(Kind::Cassette, &[(A::CogCount, n(cogs)), (A::ChainClass, n(cogs))])
}

/// One row of a table of mixes: shifter, positions, derailleur, cogs, stated pitch (0 = by class), movement, drift,
/// verdict.
type Mix = (&'static str, i64, &'static str, i64, i64, i64, i64, Outcome);

/// Mixes asked for daily. "Refused" ones are computed; those that fit do so by their group.
const MIXES: &[Mix] = &[
    // Workshop answer on 10-speed derailleurs with 9-speed cassettes: one ratio of 1.7.
    ("a-r1.7", 9, "a-r1.7", 9, 0, 0, 0, Fits),
    // The classic touring set-up, common practice.
    ("a-r1.7", 10, "a-r1.7", 10, 0, 0, 0, Fits),
    ("a-r1.7", 8, "a-r1.7", 7, 0, 4_760, 720, Caveat),
    // The same workshop answer.
    ("a-r1.7", 9, "a-r1.2", 9, 0, 3_000, 5_360, DoesNotFit),
    ("a-r1.7", 10, "a-r1.4", 10, 0, 3_220, 3_285, DoesNotFit),
    // Magazine article on derailleur compatibility: late 10 and 11 pull alike.
    ("a-r1.4", 10, "a-r1.4", 10, 0, 0, 0, Fits),
    // Workshop answer on 11-speed derailleurs with 10-speed cassettes: "less than ideal".
    ("a-r1.2", 10, "a-r1.1", 10, 0, 3_740, 945, DoesNotFit),
    // The same: family B, 10 and 11, one ratio.
    ("b-r1.3", 10, "b-r1.3", 10, 0, 0, 0, Fits),
    ("b-r1.3", 11, "b-r1.3", 11, 0, 0, 0, Fits),
    // Magazine answer: one extra click locked out does not help, the pitch differs.
    ("b-r1.3", 11, "b-r1.3", 10, 0, 3_640, 1_395, DoesNotFit),
    ("a-r1.7", 9, "b-r1.1", 9, 0, 2_750, 6_360, DoesNotFit),
    // Widely done, by a question-and-answer page.
    ("a-r1.4", 11, "a-r1.4", 11, 3_850, 3_780, 350, Caveat),
    // Drop bars on a mountain derailleur, and the other way round.
    ("a-r1.7", 10, "a-r1.2", 10, 0, 2_760, 5_355, DoesNotFit),
    ("a-r1.2", 10, "a-r1.7", 10, 0, 5_780, 8_235, DoesNotFit),
    ("a-r1.4", 11, "a-r1.1", 11, 0, 2_970, 3_600, DoesNotFit),
    ("a-r1.4", 11, "a-r1.2", 11, 0, 3_240, 2_250, DoesNotFit),
    ("a-r1.4", 11, "a-r1.7", 11, 0, 4_590, 4_500, DoesNotFit),
    ("a-r1.4", 10, "a-r1.7", 10, 0, 4_760, 3_645, DoesNotFit),
    ("a-r1.1", 11, "a-r1.2", 11, 0, 4_320, 2_100, DoesNotFit),
    ("a-r1.1", 11, "a-r1.2", 10, 0, 4_320, 1_665, DoesNotFit),
    ("b-r1.3", 10, "b-r1.12", 10, 0, 3_472, 2_151, DoesNotFit),
    ("b-r1.3", 11, "b-r1.12", 11, 0, 3_136, 2_770, DoesNotFit),
    ("b-r1.3", 10, "a-r1.7", 10, 0, 5_270, 5_940, DoesNotFit),
    ("a-r1.7", 10, "b-r1.3", 10, 0, 2_990, 4_320, DoesNotFit),
    // Remembered pulls and ratios of 11 and 12: at most a caveat, however well it computes.
    ("b-r1.12-12", 12, "a-r1.1", 12, 3_650, 3_586, 352, Caveat),
    ("a-r1.1-12", 12, "a-r1.1", 12, 3_600, 0, 0, Caveat),
    ("b-r1.12", 11, "b-r1.12-12", 11, 0, 0, 0, Caveat),
];

#[test]
fn mixes() {
    for (group, positions, other, cogs, pitch, movement, drift, outcome) in MIXES {
        let cassette = if *pitch == 0 { set(*cogs) } else { with(&set(*cogs), A::CogPitch, n(*pitch)) };
        let parts = [&shifter(group, *positions), &derailleur(other), &cassette];
        let said = judge(INDEXED, &parts, Practice::Workshop);
        let row = format!("{group} {positions} with {other} on {cogs}: {:?}", said.reasons);
        assert_eq!(said.headline(), Some(*outcome), "{row}");
        if *movement > 0 {
            assert_eq!(said.figure("move"), *movement, "{row}");
            assert!((said.figure("drift") - drift).abs() <= 1, "{row}: {}", said.figure("drift"));
        }
        // Makers list none of the mixes.
        let strict = if *outcome == Fits { Fits } else { DoesNotFit };
        assert_eq!(maker(INDEXED, &parts), Some(strict), "{row}");
    }
}

/// The caller's own figures win over the typical ones, and a group statement over any figures.
#[test]
fn stated_figures() {
    let rows = [
        // pull, ratio, groups, pitch, cogs, movement, drift, verdict
        (2_300, 1_400, "a-r1.7", "a-r1.4", 3_950, 10, 3_220, 3_285, DoesNotFit),
        (3_400, 1_100, "a-r1.2", "a-r1.1", 3_950, 10, 3_740, 945, DoesNotFit),
        (2_300, 1_200, "a-r1.7", "a-r1.2", 3_950, 10, 2_760, 5_355, DoesNotFit),
        (2_500, 1_700, "a-r1.7", "a-r1.4", 4_340, 9, 4_250, 360, Caveat),
    ];
    for (pull, ratio, group, other, pitch, cogs, movement, drift, outcome) in rows {
        let said = judge(
            INDEXED,
            &[
                &with(&shifter(group, cogs), A::CablePull, n(pull)),
                &with(&derailleur(other), A::ShiftRatio, n(ratio)),
                &with(&set(cogs), A::CogPitch, n(pitch)),
            ],
            Practice::Workshop,
        );
        assert_eq!(said.headline(), Some(outcome), "{pull} x {ratio}");
        assert_eq!((said.figure("move"), said.figure("drift")), (movement, drift), "{pull} x {ratio}");
    }
    // 3.22 mm for 3.95 mm: a converter of 1.23 would do, computed.
    let said = judge(INDEXED, &[&shifter("a-r1.7", 10), &derailleur("a-r1.4"), &set(10)], Practice::Workshop);
    assert_eq!(said.figure("factor"), 1_226);
    // 3.4 x 1.2 drifts by 0.585 mm and yet is the factory pair.
    let factory = [
        &with(&shifter("a-r1.2", 10), A::CablePull, n(3_400)),
        &with(&derailleur("a-r1.2"), A::ShiftRatio, n(1_200)),
        &with(&set(10), A::CogPitch, n(3_950)),
    ];
    assert_eq!(workshop(INDEXED, &factory), Some(Fits));
}

/// What is not known never fits.
#[test]
fn unknown_groups_and_pitches_are_questions() {
    let lever = part(Kind::RearShifter, &[(A::Positions, n(9))]);
    assert_eq!(workshop(INDEXED, &[&lever, &derailleur("a-r1.7"), &set(9)]), Some(NotEnoughData));
    let twelve = [&shifter("a-r1.1-12", 12), &derailleur("a-r1.1-12"), &set(12)];
    assert_eq!(workshop(INDEXED, &twelve), Some(NotEnoughData));
    let mountain = with(&set(12), A::MountFamily, k("spline-23"));
    assert_eq!(
        workshop(INDEXED, &[&shifter("a-r1.1-12", 12), &derailleur("a-r1.1-12"), &mountain]),
        Some(Fits)
    );
    let six = [&shifter("a-r1.7", 6), &derailleur("a-r1.7"), &set(6)];
    assert_eq!(workshop(INDEXED, &six), Some(NotEnoughData));
    let family_c = with(&set(10), A::MountFamily, k("spline-8-deep"));
    assert_eq!(workshop(INDEXED, &[&shifter("c-r1.5", 10), &derailleur("c-r1.5"), &family_c]), Some(Fits));
    assert_eq!(
        workshop(INDEXED, &[&shifter("a-r1.7", 10), &derailleur("a-r1.7"), &family_c]),
        Some(NotEnoughData)
    );
}

/// Closed groups and protocols: a maker engineer's account and a magazine answer; cable 12 and 13 from memory.
#[test]
fn closed_groups() {
    let wired = "electronic-a-wired-road";
    let electronic = with(&derailleur(wired), A::DeclaredSpeeds, n(11));
    assert_eq!(workshop(INDEXED, &[&shifter(wired, 10), &electronic, &set(11)]), Some(Fits));
    assert_eq!(workshop(INDEXED, &[&shifter(wired, 11), &electronic, &set(10)]), Some(DoesNotFit));
    for other in ["electronic-a-wired-mountain", "electronic-b-wireless-12", "a-r1.4"] {
        assert_eq!(workshop(INDEXED, &[&shifter(other, 11), &electronic]), Some(DoesNotFit), "{other}");
    }
    let thick = with(&with(&set(11), A::CogCount, n(10)), A::ChainProfile, k("thick-cog"));
    let flat = "a-flat-pull";
    assert_eq!(workshop(INDEXED, &[&shifter(flat, 10), &derailleur(flat), &thick]), Some(Fits));
    assert_eq!(workshop(INDEXED, &[&shifter(flat, 10), &derailleur("a-r1.2"), &thick]), Some(DoesNotFit));
    assert_eq!(workshop(INDEXED, &[&shifter("a-r1.1", 11), &derailleur("a-r1.1"), &thick]), Some(DoesNotFit));
    let road = "a-road-12-cable";
    assert_eq!(workshop(INDEXED, &[&shifter(road, 12), &derailleur(road), &set(12)]), Some(Fits));
    assert_eq!(workshop(INDEXED, &[&shifter(road, 12), &derailleur(road), &set(11)]), Some(DoesNotFit));
}

/// Positions and cogs: a maker's note on nine-speed spacing and forum reports.
#[test]
fn positions() {
    let cut_down = with(&set(9), A::CogCount, n(8));
    let said = judge(INDEXED, &[&shifter("a-r1.7", 9), &derailleur("a-r1.7"), &cut_down], Practice::Maker);
    assert_eq!(said.headline(), Some(Caveat));
    assert!(said.reasons.contains(&"extra-click"), "{:?}", said.reasons);
    let nine_of_ten = [&shifter("a-r1.7", 9), &derailleur("a-r1.7"), &with(&set(9), A::CogCount, n(10))];
    assert_eq!(workshop(&["shifter-positions"], &nine_of_ten), Some(Caveat));
    let coaxial = derailleur("b-coaxial-cable");
    let eleven = shifter("b-coaxial-cable", 11);
    assert_eq!(workshop(&["shifter-positions"], &[&eleven, &coaxial, &set(12)]), Some(NotEnoughData));
    let without = with(&coaxial, A::LimitScrews, f(false));
    assert_eq!(workshop(&["shifter-positions"], &[&eleven, &without, &set(12)]), Some(DoesNotFit));
}

/// Friction levers: any pitch, given enough cable; computed.
#[test]
fn friction() {
    let lever = |travel: i64| part(Kind::RearShifter, &[(A::Friction, f(true)), (A::CableTravel, n(travel))]);
    // Nine gaps of 3.95 mm at a ratio of 1.7 need 20.9 mm of cable; where only the class is known, the widest pitch of
    // 10-speed sets (4.12 mm) asks for 21.8 mm.
    let stated =
        (with(&derailleur("a-r1.7"), A::ShiftRatio, n(1_700)), with(&set(10), A::CogPitch, n(3_950)));
    assert_eq!(workshop(INDEXED, &[&lever(21_000), &stated.0, &stated.1]), Some(Fits));
    assert_eq!(workshop(INDEXED, &[&lever(20_800), &stated.0, &stated.1]), Some(Caveat));
    assert_eq!(workshop(INDEXED, &[&lever(21_900), &derailleur("a-r1.7"), &set(10)]), Some(Fits));
    assert_eq!(workshop(INDEXED, &[&lever(21_700), &derailleur("a-r1.7"), &set(10)]), Some(Caveat));
    assert_eq!(
        workshop(INDEXED, &[&lever(30_000), &derailleur("electronic-c-wired"), &set(10)]),
        Some(DoesNotFit)
    );
}

/// Capacity: worked examples of a magazine, a shop blog and a workshop page, and arithmetic.
#[test]
fn capacity_needed() {
    let rows = [
        (2, 52, 36, 11, 28, 33),
        (2, 53, 39, 12, 25, 27),
        (2, 52, 39, 11, 25, 27),
        (3, 44, 24, 12, 34, 42),
        (1, 32, 32, 10, 51, 41),
        (2, 50, 34, 11, 36, 41),
    ];
    for (rings, large, small, first, last, need) in rows {
        let crank = part(
            Kind::Crankset,
            &[(A::RingCount, n(rings)), (A::LargestRing, n(large)), (A::SmallestRing, n(small))],
        );
        let cassette = part(Kind::Cassette, &[(A::SmallestCog, n(first)), (A::LargestCog, n(last))]);
        let bands: [(i64, Outcome, Outcome); 6] = [
            (0, Fits, Fits),
            (1, Caveat, DoesNotFit),
            (2, Caveat, DoesNotFit),
            (3, if rings == 1 { DoesNotFit } else { Caveat }, DoesNotFit),
            (4, if rings == 1 { DoesNotFit } else { Caveat }, DoesNotFit),
            (5, DoesNotFit, DoesNotFit),
        ];
        for (short, outcome, strict) in bands {
            let cage = part(Kind::RearDerailleur, &[(A::Capacity, n(need - short))]);
            let said = judge(CAPACITY, &[&crank, &cassette, &cage], Practice::Workshop);
            assert_eq!((said.figure("need"), said.headline()), (need, Some(outcome)), "{need} less {short}");
            assert_eq!(maker(CAPACITY, &[&crank, &cassette, &cage]), Some(strict), "{need} less {short}");
        }
        // 10 mm of growth take 3.1 teeth: 3 to spare are not enough, 4 are. Computed.
        let frame = part(Kind::Frame, &[(A::ChainGrowth, n(10_000))]);
        for (spare, outcome) in [(3, Caveat), (4, Fits)] {
            let cage = part(Kind::RearDerailleur, &[(A::Capacity, n(need + spare))]);
            assert_eq!(workshop(CAPACITY, &[&crank, &cassette, &cage, &frame]), Some(outcome));
        }
    }
    let double =
        part(Kind::Crankset, &[(A::RingCount, n(2)), (A::LargestRing, n(50)), (A::SmallestRing, n(34))]);
    for (limit, outcome, strict) in [(0, DoesNotFit, DoesNotFit), (14, Caveat, DoesNotFit), (16, Fits, Fits)]
    {
        let cage = part(Kind::RearDerailleur, &[(A::MaxFrontDifference, n(limit))]);
        assert_eq!(workshop(CAPACITY, &[&double, &cage, &Part::new(Kind::Frame)]), Some(outcome), "{limit}");
        assert_eq!(maker(CAPACITY, &[&double, &cage]), Some(strict), "{limit}");
    }
}

/// Cog limits: forum reports and a review of an extension link; bands reasoned.
#[test]
fn cog_limits() {
    let rows: &[(&str, i64, i64, Outcome, Outcome)] = &[
        ("slant", 28, 28, Fits, Fits),
        ("slant", 28, 30, Caveat, DoesNotFit),
        ("slant", 28, 32, Caveat, DoesNotFit),
        ("slant", 32, 40, ExtraPart, DoesNotFit),
        ("slant", 32, 41, DoesNotFit, DoesNotFit),
        ("slant", 32, 50, DoesNotFit, DoesNotFit),
        ("horizontal-offset", 46, 48, Caveat, DoesNotFit),
        ("horizontal-offset", 46, 49, DoesNotFit, DoesNotFit),
        ("coaxial", 52, 54, DoesNotFit, DoesNotFit),
        ("coaxial", 52, 53, DoesNotFit, DoesNotFit),
        ("coaxial", 52, 52, Fits, Fits),
    ];
    for (geometry, limit, cog, outcome, strict) in rows {
        let mech = part(Kind::RearDerailleur, &[(A::MaxCog, n(*limit)), (A::Geometry, k(geometry))]);
        let set = part(Kind::Cassette, &[(A::LargestCog, n(*cog))]);
        assert_eq!(workshop(COGS, &[&mech, &set]), Some(*outcome), "{geometry} {limit}: {cog}");
        assert_eq!(maker(COGS, &[&mech, &set]), Some(*strict), "{geometry} {limit}: {cog}");
    }
    let unknown = part(Kind::RearDerailleur, &[(A::MaxCog, n(28))]);
    for (cog, outcome) in [(30, Caveat), (31, NotEnoughData), (36, NotEnoughData), (37, DoesNotFit)] {
        let set = part(Kind::Cassette, &[(A::LargestCog, n(cog))]);
        assert_eq!(workshop(COGS, &[&unknown, &set]), Some(outcome), "{cog}");
    }
    // 9T and 10T behind a limit of 11 are ridden, from memory.
    for (smallest, outcome) in [(10, Caveat), (9, Caveat), (8, DoesNotFit)] {
        let mech = part(Kind::RearDerailleur, &[(A::MaxCog, n(50)), (A::MinCog, n(11))]);
        let set = part(Kind::Cassette, &[(A::SmallestCog, n(smallest)), (A::LargestCog, n(46))]);
        assert_eq!(workshop(COGS, &[&mech, &set]), Some(outcome), "{smallest}");
    }
    // A mechanic's blog: a 51T derailleur on 10-45.
    let wide = part(Kind::RearDerailleur, &[(A::MaxCog, n(51)), (A::MinLargestCog, n(50))]);
    let set = part(Kind::Cassette, &[(A::LargestCog, n(45))]);
    assert_eq!(workshop(COGS, &[&wide, &set]), Some(Caveat));
}

/// Hangers: a hanger retailer's explainer, pages on the universal hanger.
#[test]
fn hangers() {
    let frame = |eye: &'static str| part(Kind::Frame, &[(A::Hanger, k(eye))]);
    let mech = |mount: &'static str| part(Kind::RearDerailleur, &[(A::DerailleurMount, k(mount))]);
    let linked = |fitted: bool| with(&mech("direct-mount"), A::LinkFitted, f(fitted));
    let universal = |fitted: bool| with(&frame("universal-breakaway"), A::UniversalHangerFitted, f(fitted));
    let rows = [
        (mech("m10-bolt"), frame("m10-eye"), Fits),
        (mech("m10-bolt"), universal(true), Fits),
        (mech("m10-bolt"), universal(false), ExtraPart),
        (mech("m10-bolt"), frame("universal-breakaway"), NotEnoughData),
        (mech("m10-bolt"), frame("m10-eye-long-rearward"), DoesNotFit),
        (linked(true), frame("m10-eye-long-rearward"), DoesNotFit),
        (linked(false), frame("m10-eye-long-rearward"), Fits),
        (linked(true), frame("m10-eye"), ExtraPart),
        (mech("direct-mount"), frame("m10-eye"), ExtraPart),
        (mech("coaxial"), frame("m10-eye"), DoesNotFit),
        (mech("coaxial"), universal(false), Fits),
        (mech("m10-bolt"), frame("old-10mm-26tpi"), NotEnoughData),
        (mech("m10-bolt"), with(&frame("clamped-plate"), A::Axle, k("thru-12")), DoesNotFit),
        (mech("m10-bolt"), with(&Part::new(Kind::Frame), A::Hanger, Is::Absent), DoesNotFit),
    ];
    for (mech, frame, outcome) in rows {
        assert_eq!(
            workshop(HANGER, &[&mech, &frame]),
            Some(outcome),
            "{:?}",
            judge(HANGER, &[&mech, &frame], Practice::Workshop)
        );
    }
    // Replacements go by the frame maker's number only.
    let bare = part(Kind::Hanger, &[(A::Hanger, k("m10-eye"))]);
    assert_eq!(workshop(HANGER, &[&bare, &frame("m10-eye")]), Some(NotEnoughData));
    let axle = with(&universal(true), A::ThruAxlePitch, n(1_500));
    let hanger = part(Kind::Hanger, &[(A::Hanger, k("universal-breakaway"))]);
    assert_eq!(workshop(HANGER, &[&hanger, &axle]), Some(DoesNotFit));
}
