//! Cassettes, freewheels and lockrings against check values of workshop pages and makers' tables, seen as excerpts.

use super::fitting::{Is, f, judge, k, maker, n, part, with, workshop};
use sprag_engine::fit::Outcome::{Caveat, DoesNotFit, ExtraPart, Fits, NotEnoughData};
use sprag_engine::fit::{Outcome, Practice};
use sprag_engine::part::{Attribute as A, Kind, Part};

const ON_BODY: &[&str] = &["cassette-on-body"];
const CUT_DOWN: &[&str] = &["cassette-on-body", "cut-down-cassette"];
const ON_HUB: &[&str] = &["freewheel-on-hub"];
const LOCKRING: &[&str] = &["lockring-on-body"];

const MIDDLE: i64 = 34_900;
const LONG: i64 = 36_750;

fn cassette(pattern: &'static str, length: i64, smallest: i64) -> Part {
    part(
        Kind::Cassette,
        &[(A::MountFamily, k(pattern)), (A::RequiredLength, n(length)), (A::SmallestCog, n(smallest))],
    )
}

fn body(pattern: &'static str, length: i64, min_cog: i64) -> Part {
    part(
        Kind::FreehubBody,
        &[(A::MountFamily, k(pattern)), (A::BodyLength, n(length)), (A::MinCog, n(min_cog))],
    )
}

/// Lengths and spacers; the source of each row stands beside it.
#[test]
fn body_lengths_and_spacers() {
    let rows: &[(i64, i64, Outcome, i64)] = &[
        // A journal on 11-speed hubs: narrow 11-speed road sets are 1.85 mm too long for the middle body.
        (36_750, MIDDLE, DoesNotFit, 1_850),
        // The same journal and a mechanic's blog: wide, dished 11-34 sets go on it without a spacer,
        (34_900, MIDDLE, Fits, 0),
        // and with the 1.85 mm one on the long body, as 9-speed sets do.
        (34_900, LONG, ExtraPart, 1_850),
        // Wheel builder's guide: the older 10-speed road type with 1.0 mm, and with both on the long body.
        (33_900, MIDDLE, ExtraPart, 1_000),
        (33_900, LONG, ExtraPart, 2_850),
        // Spacer of 4.5 mm for 7-speed sets, from a shop page; the sum on the long body is arithmetic.
        (30_400, MIDDLE, ExtraPart, 4_500),
        (30_400, LONG, ExtraPart, 6_350),
    ];
    for (need, length, outcome, figure) in rows {
        let said = judge(
            ON_BODY,
            &[&cassette("spline-9", *need, 11), &body("spline-9", *length, 11)],
            Practice::Workshop,
        );
        assert_eq!(said.headline(), Some(*outcome), "{need} on {length}");
        match outcome {
            ExtraPart => assert_eq!(said.figure("spacer"), *figure, "{need} on {length}"),
            DoesNotFit => assert_eq!(said.figure("short"), *figure, "{need} on {length}"),
            _ => {}
        }
    }
}

/// Patterns and smallest cogs.
#[test]
fn patterns_and_smallest_cogs() {
    let rows: &[(&str, i64, &str, i64, Outcome)] = &[
        // Space inside the chain of a 10T cog is 32.6 mm, computed; a nine-spline body is wider, from memory.
        ("spline-9", 10, "spline-9", 11, DoesNotFit),
        // A question-and-answer page: early full-length splines take 12T and more.
        ("spline-9", 11, "spline-9-full-length", 12, DoesNotFit),
        ("spline-9", 12, "spline-9-full-length", 12, Fits),
        // An article on freehub types: the fine-spline body takes 12-speed sets only, which go on nine splines too.
        ("spline-9", 11, "spline-fine-12", 11, DoesNotFit),
        ("spline-9-or-fine-12", 11, "spline-9", 11, Fits),
        // A page on 12-speed sets: 23 splines and nine do not mix.
        ("spline-23", 10, "spline-9", 11, DoesNotFit),
        // The originator's limit of the short threaded driver, from memory.
        ("threaded-driver-short", 9, "threaded-driver-short", 9, Fits),
        // A cycling news page: the long set does not go on the short driver.
        ("threaded-driver-long", 10, "threaded-driver-short", 9, DoesNotFit),
        // From memory: sets for the shortened eight-spline body do not go on the older one.
        ("spline-8-deep-short", 11, "spline-8-deep", 11, DoesNotFit),
    ];
    for (set, smallest, pattern, min_cog, outcome) in rows {
        let found = workshop(ON_BODY, &[&cassette(set, MIDDLE, *smallest), &body(pattern, MIDDLE, *min_cog)]);
        assert_eq!(found, Some(*outcome), "{set} {smallest}T on {pattern} from {min_cog}T");
    }
}

/// Table row "length not stated": an 11-36 road set may need either body.
#[test]
fn an_unstated_length_is_a_question() {
    let set = part(Kind::Cassette, &[(A::MountFamily, k("spline-9")), (A::SmallestCog, n(11))]);
    assert_eq!(workshop(ON_BODY, &[&set, &body("spline-9", MIDDLE, 11)]), Some(NotEnoughData));
}

/// Cut-down stacks of loose cogs: stacks are arithmetic from published pitch and thickness, successes from forum reports.
#[test]
fn cut_down_stacks() {
    let rows: &[(i64, i64, i64, i64, i64, Outcome)] = &[
        // cogs, pitch, thickness, body, stack: 8 of 9 and 9 of 10 on the seven-speed body, 10 of 11 on the middle one.
        (8, 4_340, 1_780, 30_400, 32_160, Caveat),
        (9, 3_950, 1_600, 30_400, 33_200, Caveat),
        (10, 3_690, 1_600, MIDDLE, 34_810, Caveat),
        // Whole 9- and 10-speed stacks of 36.5 and 37.15 mm are too high for the seven-speed body.
        (9, 4_340, 1_780, 30_400, 36_500, DoesNotFit),
        (10, 3_950, 1_600, 30_400, 37_150, DoesNotFit),
        // An 8-speed stack measures 35.4 mm; a page on 12-speed sets.
        (8, 4_800, 1_800, MIDDLE, 35_400, Caveat),
    ];
    for (cogs, pitch, thickness, length, stack, outcome) in rows {
        let set = part(
            Kind::Cassette,
            &[
                (A::MountFamily, k("spline-9")),
                (A::CutDown, f(true)),
                (A::OutermostCogKept, f(true)),
                (A::CogFixing, k("loose")),
                (A::SmallestCog, n(12)),
                (A::CogCount, n(*cogs)),
                (A::CogPitch, n(*pitch)),
                (A::CogThickness, n(*thickness)),
            ],
        );
        let said = judge(CUT_DOWN, &[&set, &body("spline-9", *length, 11)], Practice::Workshop);
        assert_eq!(said.headline(), Some(*outcome), "{cogs} cogs on {length}: {:?}", said.reasons);
        assert!((said.figure("stack") - stack).abs() <= 5, "{cogs} cogs: {}", said.figure("stack"));
        // The report of 10 of 11 needed two thin shims: 1.69 mm are missing under the stack of the middle body.
        let spacer = said.verdict.is_some_and(|verdict| verdict.extra_parts);
        assert_eq!(spacer, *cogs == 10 && *length == MIDDLE, "{cogs} cogs on {length}");
        let without = with(&set, A::OutermostCogKept, f(false));
        assert_eq!(workshop(CUT_DOWN, &[&without, &body("spline-9", *length, 11)]), Some(DoesNotFit));
    }
}

/// Old threads, from a long-standing repair glossary; play is arithmetic, the tandem limit reasoned.
#[test]
fn freewheel_threads() {
    let (iso, british) = ("thread-1.375in-24tpi", "thread-1.370in-24tpi");
    let (italian, french, small) = ("thread-35mm-24tpi", "thread-34.7x1", "thread-30x1");
    let rows = [
        (iso, iso, Fits, Fits),
        (iso, british, Caveat, DoesNotFit),
        (iso, italian, Caveat, Caveat),
        (italian, iso, Caveat, Caveat),
        (italian, british, Caveat, DoesNotFit),
        (british, iso, Caveat, Caveat),
        (iso, french, DoesNotFit, DoesNotFit),
        (french, iso, DoesNotFit, DoesNotFit),
        (iso, small, DoesNotFit, DoesNotFit),
    ];
    let tandem = part(Kind::Use, &[(A::Tandem, f(true))]);
    for (freewheel, hub, solo, two) in rows {
        let freewheel_part = part(Kind::Freewheel, &[(A::HubThread, k(freewheel))]);
        let hub_part = part(Kind::Hub, &[(A::HubThread, k(hub))]);
        assert_eq!(workshop(ON_HUB, &[&freewheel_part, &hub_part]), Some(solo), "{freewheel} on {hub}");
        assert_eq!(maker(ON_HUB, &[&freewheel_part, &hub_part]), Some(solo), "{freewheel} on {hub}");
        let found = workshop(ON_HUB, &[&freewheel_part, &hub_part, &tandem]);
        assert_eq!(found, Some(two), "{freewheel} on {hub}, tandem");
    }
    let loosest = judge(
        ON_HUB,
        &[
            &part(Kind::Freewheel, &[(A::HubThread, k(italian))]),
            &part(Kind::Hub, &[(A::HubThread, k(british))]),
        ],
        Practice::Workshop,
    );
    assert_eq!(loosest.figure("play"), 200);
}

/// Cassettes and freewheels on the other kind of hub, and fixed cogs: common practice, no source.
#[test]
fn threads_where_they_do_not_belong() {
    let threaded = part(Kind::Hub, &[(A::HubThread, k("thread-1.375in-24tpi"))]);
    let freehub = part(Kind::Hub, &[(A::HubThread, Is::Absent)]);
    assert_eq!(workshop(ON_HUB, &[&Part::new(Kind::Cassette), &threaded]), Some(DoesNotFit));
    assert_eq!(workshop(ON_HUB, &[&Part::new(Kind::Cassette), &freehub]), None);
    assert_eq!(workshop(ON_HUB, &[&Part::new(Kind::Freewheel), &freehub]), Some(DoesNotFit));
    assert_eq!(workshop(ON_HUB, &[&Part::new(Kind::Freewheel), &Part::new(Kind::Hub)]), Some(NotEnoughData));
    let cog = part(Kind::Sprocket, &[(A::Fixed, f(true)), (A::HubThread, k("thread-1.375in-24tpi"))]);
    let rows = [(Some(true), Fits), (Some(false), DoesNotFit), (None, NotEnoughData)];
    for (step, outcome) in rows {
        let hub = step.map_or(threaded.clone(), |step| with(&threaded, A::FixedStep, f(step)));
        assert_eq!(workshop(ON_HUB, &[&cog, &hub]), Some(outcome), "{step:?}");
    }
    let fixed = with(&threaded, A::FixedStep, f(true));
    let single = part(Kind::Freewheel, &[(A::HubThread, k("thread-1.375in-24tpi")), (A::CogCount, n(1))]);
    assert_eq!(workshop(ON_HUB, &[&single, &fixed]), Some(Fits));
    let seven = with(&single, A::CogCount, n(7));
    assert_eq!(workshop(ON_HUB, &[&seven, &fixed]), Some(NotEnoughData));
    assert_eq!(workshop(ON_HUB, &[&seven, &with(&fixed, A::LocknutToCog, n(40_000))]), Some(Caveat));
}

/// Flanges and threads of lockrings: from memory; torque of 40 N.m as printed on rings.
#[test]
fn lockrings() {
    let rows = [
        ("11t", 11, Fits),
        ("12t-up", 11, DoesNotFit),
        ("11t", 12, Caveat),
        ("12t-up", 14, Fits),
        ("11t", 10, DoesNotFit),
    ];
    for (size, cog, outcome) in rows {
        let ring = part(Kind::Lockring, &[(A::LockringSize, k(size))]);
        let set = part(Kind::Cassette, &[(A::SmallestCog, n(cog))]);
        assert_eq!(workshop(LOCKRING, &[&ring, &set]), Some(outcome), "{size} on {cog}T");
    }
    let ring = part(Kind::Lockring, &[(A::LockringThread, k("m30.5x1"))]);
    for (thread, outcome) in [("m30.5x1", Fits), ("m27x1", DoesNotFit), ("spline-23-ring", DoesNotFit)] {
        let body = part(Kind::FreehubBody, &[(A::LockringThread, k(thread))]);
        assert_eq!(workshop(LOCKRING, &[&ring, &body]), Some(outcome), "{thread}");
    }
}

/// Motor and load, from riders' reports; the load threshold is reasoned.
#[test]
fn motor_and_load() {
    let matings: &[&str] = &["motor-and-load"];
    let motor = part(Kind::Use, &[(A::MidMotor, f(true)), (A::AssistLimit, n(25))]);
    let heavy = part(Kind::Use, &[(A::SystemMass, n(161))]);
    let light = part(Kind::Use, &[(A::SystemMass, n(160))]);
    let small = part(Kind::Cassette, &[(A::SmallestCog, n(10))]);
    let large = part(Kind::Cassette, &[(A::SmallestCog, n(11))]);
    assert_eq!(workshop(matings, &[&small, &motor]), Some(Caveat));
    assert_eq!(workshop(matings, &[&large, &motor]), None);
    assert_eq!(workshop(matings, &[&small, &heavy]), Some(Caveat));
    assert_eq!(workshop(matings, &[&small, &light]), None);
    let lever = part(Kind::RearShifter, &[(A::MultiShift, f(true))]);
    assert_eq!(workshop(matings, &[&lever, &motor]), Some(Caveat));
    let fast = part(Kind::Use, &[(A::AssistLimit, n(45))]);
    assert_eq!(judge(matings, &[&lever, &fast], Practice::Workshop).reasons, ["type-approval"]);
    let body = part(Kind::FreehubBody, &[(A::BodyMaterial, k("light-alloy"))]);
    let loose = part(Kind::Cassette, &[(A::CogFixing, k("loose"))]);
    assert_eq!(workshop(matings, &[&loose, &body, &motor]), Some(Caveat));
}
