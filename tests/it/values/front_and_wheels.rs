//! Rings, cranks, bottom brackets and front shifting against published tables and common practice.

use sprag_engine::fit::Outcome::{self, Caveat, DoesNotFit, ExtraPart, Fits, NotEnoughData};
use sprag_engine::fit::rules::chainring_on_crank::hole_distance_um;
use sprag_engine::part::Attribute as A;
use sprag_engine::part::{Kind, Part};

use super::meeting::Is::{self, F, Mm, N, No, W};
use super::meeting::{by_maker, part, rear};

/// Six significant digits.
const SIX: f64 = 5e-6;

/// Published crib sheet of bolt circles (76.4 / 123.6, 84.6 / 137.0, 79.4 / 128.4, 71.7 / 116.0 mm), recomputed; the
/// four-bolt circle is computed.
#[test]
fn bolt_holes_are_as_far_apart_as_the_crib_sheet_says() {
    let rows = [
        (130, 5, 1, 76.4121),
        (130, 5, 2, 123.637),
        (144, 5, 1, 84.6411),
        (144, 5, 2, 136.952),
        (135, 5, 1, 79.3510),
        (135, 5, 2, 128.393),
        (122, 5, 1, 71.7098),
        (122, 5, 2, 116.029),
        (104, 4, 1, 73.5391),
    ];
    for (circle, bolts, step, expected) in rows {
        let found = hole_distance_um(f64::from(circle) * 1_000.0, bolts, step) / 1_000.0;
        assert!((found - expected).abs() <= SIX * expected, "{circle} x {bolts}: {found}");
    }
}

fn ring(mount: &'static str, teeth: i64) -> Part {
    let position = (A::RingPosition, W("inner"));
    part(Kind::Chainring, &[(A::RingMount, W(mount)), (A::Teeth, N(teeth)), position])
}

fn crank(mount: &'static str) -> Part {
    part(Kind::Crankset, &[(A::RingMount, W(mount)), (A::InnerRingMount, No)])
}

/// The outer ring beside it, so that the inner one is in its place.
fn outer(mount: &'static str) -> Part {
    part(Kind::Chainring, &[(A::RingMount, W(mount)), (A::Teeth, N(60)), (A::RingPosition, W("outer"))])
}

/// Least teeth per bolt circle: hobby crib sheet and a chainring maker's guide; 94, 74, 64 and 58 mm from memory.
#[test]
fn each_bolt_circle_has_a_least_ring() {
    let rows = [
        ("bcd-151x5", 44),
        ("bcd-144x5", 41),
        ("bcd-135x5", 39),
        ("bcd-130x5", 38),
        ("bcd-128x5", 38),
        ("bcd-118x5", 36),
        ("bcd-110x5", 33),
        ("bcd-94x5", 29),
        ("bcd-74x5", 24),
        ("bcd-58x5", 20),
    ];
    for (mount, least) in rows {
        let fitted = |teeth| rear("chainring-on-crank", &[ring(mount, teeth), outer(mount), crank(mount)]);
        assert_eq!(fitted(least), Some(Fits), "{mount}");
        assert_eq!(fitted(least - 1), Some(DoesNotFit), "{mount}");
    }
    // Printed least, and rings that exist below it (mechanics' forum, chainring maker's guide, memory).
    let special = [
        ("bcd-122x5", 38, 36),
        ("bcd-110x4-asymmetric", 34, 33),
        ("bcd-104x4", 32, 30),
        ("bcd-96x4-symmetric", 30, 28),
        ("bcd-64x4", 22, 20),
    ];
    for (mount, printed, exists) in special {
        let fitted = |teeth| rear("chainring-on-crank", &[ring(mount, teeth), outer(mount), crank(mount)]);
        assert_eq!(fitted(printed), Some(Fits), "{mount}");
        assert_eq!(fitted(exists), Some(Caveat), "{mount}");
        assert_eq!(fitted(exists - 1), Some(DoesNotFit), "{mount}");
    }
}

/// A magazine's technical column: a 36 inner ring on 130 mm has its bolts among the teeth, 38 is the least.
#[test]
fn a_ring_of_36_does_not_go_on_130_whatever_the_crank_states() {
    let bare = part(Kind::Crankset, &[(A::RingMount, W("bcd-130x5"))]);
    assert_eq!(rear("chainring-on-crank", &[ring("bcd-130x5", 36), bare]), Some(DoesNotFit));
}

/// Chainring maker's guide: number and spacing of bolts are part of the pattern; direct mounts are several patterns.
#[test]
fn patterns_with_one_number_in_common_are_not_the_same() {
    let pairs = [
        ("bcd-110x5", "bcd-110x4-asymmetric"),
        ("bcd-110x5", "bcd-110x4-symmetric"),
        ("bcd-110x4-symmetric", "bcd-110x4-asymmetric"),
        ("bcd-96x4-symmetric", "bcd-96x4-asymmetric"),
        ("direct-3-bolt", "direct-8-bolt"),
        ("bcd-104x4", "motor-carrier"),
    ];
    for (one, other) in pairs {
        for (ring_mount, crank_mount) in [(one, other), (other, one)] {
            let fitted = rear("chainring-on-crank", &[ring(ring_mount, 44), crank(crank_mount)]);
            assert_eq!(fitted, Some(DoesNotFit), "{ring_mount} on {crank_mount}");
        }
    }
}

/// A question-and-answer site: the ramped outer ring of a double mounts, but alone it helps the chain off.
#[test]
fn the_outer_ring_of_a_double_is_no_single_ring() {
    let alone = |position, profile| {
        let known =
            [(A::RingPosition, W(position)), (A::ToothProfile, W(profile)), (A::RingMount, W("bcd-110x5"))];
        let ring = part(Kind::Chainring, &[&known[..], &[(A::Teeth, N(46))]].concat());
        let only = crank("bcd-110x5").with(A::RingCount, sprag_engine::part::Set::Exact(1));
        rear("chainring-on-crank", &[ring, only])
    };
    assert_eq!(alone("outer", "ramped"), Some(Caveat));
    assert_eq!(alone("single", "narrow-wide"), Some(Fits));
}

/// A forum on motor kits: below 42 teeth rings clear the housing less and push the chainline outwards; how far below is
/// our own threshold.
#[test]
fn small_rings_on_a_motor_kit() {
    let carrier = (A::RingMount, W("motor-carrier"));
    let fitted = |teeth| {
        let motor = part(Kind::Motor, &[(A::MotorPlace, W("mid")), (A::SmallestRing, N(42)), carrier]);
        let ring = part(Kind::Chainring, &[(A::Teeth, N(teeth)), (A::RingPosition, W("single")), carrier]);
        rear("chainring-on-crank", &[ring, motor])
    };
    assert_eq!((fitted(42), fitted(38), fitted(37)), (Some(Fits), Some(Caveat), Some(DoesNotFit)));
}

fn taper(kind: Kind, spindle: &'static str, length: i64) -> Part {
    part(kind, &[(A::Spindle, W(spindle)), (A::SpindleLength, Mm(length))])
}

fn crank_on(crank: &'static str, bracket: &'static str) -> Option<Outcome> {
    let crank = taper(Kind::Crankset, crank, 110);
    rear("crank-on-bottom-bracket", &[crank, taper(Kind::BottomBracket, bracket, 110)])
}

/// Article on square tapers of 2022, a bicycle glossary on spline sizes, bottom-bracket overviews: both directions.
#[test]
fn spindles_have_families_and_a_direction() {
    for (crank, bracket, expected) in [
        ("square-iso", "square-iso", Fits),
        ("square-jis", "square-iso", DoesNotFit),
        ("square-iso", "square-jis", DoesNotFit),
        ("spline-8-short", "spline-8-long", DoesNotFit),
        ("spline-8-long", "spline-8-short", DoesNotFit),
        ("spline-8-short", "spline-10-open", DoesNotFit),
        ("spline-10-open", "spline-8-short", DoesNotFit),
        ("through-24", "through-30", ExtraPart),
        ("through-30", "through-24", DoesNotFit),
        ("through-24", "through-28.99", ExtraPart),
        ("through-28.99", "through-24", DoesNotFit),
        ("through-24-22", "through-24", ExtraPart),
        ("through-24", "through-24-22", DoesNotFit),
        ("through-28.99", "through-30", DoesNotFit),
        ("through-30", "through-28.99", DoesNotFit),
    ] {
        assert_eq!(crank_on(crank, bracket), Some(expected), "{crank} on {bracket}");
    }
}

/// Article on square tapers: an ISO arm stops 4.5 mm short on a JIS spindle, so 119 mm becomes 110 mm; a shop blog calls
/// any mixing wrong, so makers' limits refuse it.
#[test]
fn a_jis_spindle_nine_millimetres_shorter_is_a_caveat_of_the_workshop_only() {
    let crank = taper(Kind::Crankset, "square-iso", 119);
    let bracket = taper(Kind::BottomBracket, "square-jis", 110);
    assert_eq!(rear("crank-on-bottom-bracket", &[crank.clone(), bracket.clone()]), Some(Caveat));
    assert_eq!(by_maker("crank-on-bottom-bracket", &[crank, bracket]), Some(DoesNotFit));
}

fn axle_reach(
    spindle: &'static str,
    made_for_um: i64,
    shell: &'static str,
    width_um: i64,
) -> Option<Outcome> {
    let crank = part(Kind::Crankset, &[(A::Spindle, W(spindle)), (A::ShellWidth, N(made_for_um))]);
    let frame = part(Kind::Frame, &[(A::Shell, W(shell)), (A::ShellWidth, N(width_um))]);
    rear("crank-in-frame", &[crank, frame])
}

/// Bottom-bracket overviews (cups outside 68 mm span 86.5 mm, outside 73 mm 91.5 mm); a shop blog's case of a short 30 mm
/// axle in a wide 46 mm shell; road against mountain axles common practice; 70 mm from memory.
#[test]
fn equal_diameter_is_not_equal_length() {
    let rows = [
        ("through-30", 68_000, "bore-46-cups", 86_500, DoesNotFit),
        ("through-30", 86_500, "bore-46-cups", 86_500, Fits),
        ("through-30", 86_500, "thread-1.37in-24tpi", 68_000, Fits),
        ("through-24", 68_000, "thread-1.37in-24tpi", 68_000, Fits),
        ("through-24", 68_000, "thread-1.37in-24tpi", 73_000, DoesNotFit),
        ("through-24", 73_000, "thread-1.37in-24tpi", 68_000, ExtraPart),
        ("through-24", 68_000, "bore-41-cups", 86_500, Fits),
        ("through-24", 73_000, "bore-41-cups", 92_000, Fits),
        ("through-24", 68_000, "bore-41-cups", 92_000, DoesNotFit),
        ("through-24", 68_000, "thread-36-24tpi", 70_000, Fits),
    ];
    for (spindle, made_for, shell, width, expected) in rows {
        let found = axle_reach(spindle, made_for, shell, width);
        assert_eq!(found, Some(expected), "{spindle} for {made_for} in {shell} of {width}");
    }
}

/// Workshop page: a cartridge needs a thread, bushings for a 42 mm bore serve 24 mm axles only.
#[test]
fn a_cartridge_does_not_go_in_a_press_bore() {
    let crank = part(Kind::Crankset, &[(A::Spindle, W("spline-8-short"))]);
    let frame = part(Kind::Frame, &[(A::Shell, W("bore-42-direct"))]);
    assert_eq!(rear("crank-in-frame", &[crank, frame]), Some(DoesNotFit));
}

fn bracket_in(bracket: (&'static str, i64), frame: (&'static str, i64)) -> Option<Outcome> {
    let spindle = (A::Spindle, W("through-24"));
    let bracket =
        part(Kind::BottomBracket, &[(A::Shell, W(bracket.0)), (A::ShellWidth, N(bracket.1)), spindle]);
    let frame = part(Kind::Frame, &[(A::Shell, W(frame.0)), (A::ShellWidth, N(frame.1))]);
    rear("bottom-bracket-in-shell", &[bracket, frame])
}

/// Bottom-bracket overviews and a crank maker's spacer chart of 2023; small-wheel shells from memory.
#[test]
fn shells_are_told_apart_by_all_their_dimensions() {
    let standard = "thread-1.37in-24tpi";
    let rows = [
        ((standard, 68_000), (standard, 68_000), Fits),
        ((standard, 73_000), (standard, 68_000), Fits),
        ((standard, 68_000), (standard, 73_000), DoesNotFit),
        ((standard, 70_000), ("thread-36-24tpi", 70_000), DoesNotFit),
        (("thread-36-24tpi", 68_000), (standard, 68_000), DoesNotFit),
        (("thread-35x1-french", 68_000), ("thread-35x1-swiss", 68_000), DoesNotFit),
        (("bore-41-cups", 86_500), ("bore-41.2-direct", 68_000), DoesNotFit),
        (("bore-41-cups", 86_500), ("bore-42-direct", 68_000), DoesNotFit),
        (("bore-37-direct", 68_000), ("bore-37-direct-trick", 68_000), DoesNotFit),
        (("bore-46-cups", 68_000), ("bore-46-direct", 68_000), DoesNotFit),
        (("thread-m47x1", 85_500), ("thread-m47x1", 86_500), DoesNotFit),
        (("thread-m47x1", 86_500), ("thread-m47x1", 86_500), Fits),
    ];
    for (bracket, frame, expected) in rows {
        assert_eq!(bracket_in(bracket, frame), Some(expected), "{bracket:?} in {frame:?}");
    }
}

/// Common practice, no source: a motor at the cranks takes the place of the bottom bracket.
#[test]
fn a_motor_frame_takes_no_bottom_bracket() {
    let bracket = part(Kind::BottomBracket, &[(A::Shell, W("thread-1.37in-24tpi"))]);
    let frame = part(Kind::Frame, &[(A::Shell, No), (A::MotorSpindle, W("spline-10-open"))]);
    assert_eq!(rear("bottom-bracket-in-shell", &[bracket, frame]), Some(DoesNotFit));
}

/// Common practice, no source: three pedal threads, no mixing.
#[test]
fn pedal_threads_do_not_mix() {
    let threads = ["9/16in-20tpi", "1/2in-20tpi", "14x1.25"];
    for pedal in threads {
        for crank in threads {
            let pair = [
                part(Kind::Pedal, &[(A::PedalThread, W(pedal))]),
                part(Kind::Crankset, &[(A::PedalThread, W(crank))]),
            ];
            let expected = if pedal == crank { Fits } else { DoesNotFit };
            assert_eq!(rear("pedal-on-crank", &pair), Some(expected), "{pedal} in {crank}");
        }
    }
    let unknown = [part(Kind::Pedal, &[(A::PedalThread, W(threads[0]))]), part(Kind::Crankset, &[])];
    assert_eq!(rear("pedal-on-crank", &unknown), Some(NotEnoughData));
}

fn on_rings(derailleur: &[(A, Is)], rings: [i64; 2]) -> Option<Outcome> {
    let rings = [(A::RingCount, N(2)), (A::LargestRing, N(rings[0])), (A::SmallestRing, N(rings[1]))];
    rear(
        "front-derailleur-on-rings",
        &[part(Kind::FrontDerailleur, derailleur), part(Kind::Crankset, &rings)],
    )
}

/// A charity's magazine: about four teeth below the design size still work; low direct mounts cannot be lowered
/// (front-derailleur guide). Capacity of 16 on road doubles from memory.
#[test]
fn a_front_derailleur_has_a_window() {
    let mounted = |mount| {
        [
            (A::FrontCapacity, N(16)),
            (A::MaxRing, N(53)),
            (A::MinOuterRing, N(50)),
            (A::RingCount, N(2)),
            (A::FrontMount, W(mount)),
        ]
    };
    assert_eq!(on_rings(&mounted("braze-on"), [50, 34]), Some(Fits));
    assert_eq!(on_rings(&mounted("braze-on"), [46, 34]), Some(Caveat));
    assert_eq!(on_rings(&mounted("low-direct-42.7"), [46, 34]), Some(DoesNotFit));
    assert_eq!(on_rings(&mounted("braze-on"), [45, 34]), Some(DoesNotFit));
    assert_eq!(on_rings(&mounted("braze-on"), [54, 39]), Some(DoesNotFit));
    assert_eq!(on_rings(&mounted("braze-on"), [50, 33]), Some(DoesNotFit));
}

/// Shop blog: an 11-speed cage rubs on an 8-speed chain. One speed more or less is usually tolerable (guide).
#[test]
fn a_narrow_cage_rubs_on_a_wide_chain() {
    for (cage, chain, expected) in [(11, 8, Caveat), (8, 11, Caveat), (10, 11, Fits), (11, 10, Fits)] {
        let derailleur = part(Kind::FrontDerailleur, &[(A::DeclaredSpeeds, N(cage))]);
        let chain = part(Kind::Chain, &[(A::ChainSpeed, N(chain))]);
        assert_eq!(rear("front-derailleur-on-rings", &[derailleur, chain]), Some(expected));
    }
}

/// Front-derailleur guides; shims common practice: both directions of every band.
#[test]
fn bands_go_on_thinner_tubes_only() {
    let bands = ["band-28.6", "band-31.8", "band-34.9"];
    let meets = |derailleur, frame| {
        let pair = [
            part(
                Kind::FrontDerailleur,
                &[(A::FrontMount, W(derailleur)), (A::FrontPullFamily, W("electronic-c"))],
            ),
            part(Kind::Frame, &[(A::FrontMount, W(frame))]),
        ];
        rear("front-derailleur-on-frame", &pair)
    };
    for (one, band) in bands.iter().enumerate() {
        for (other, tube) in bands.iter().enumerate() {
            let expected = match one.cmp(&other) {
                std::cmp::Ordering::Equal => Fits,
                std::cmp::Ordering::Greater => ExtraPart,
                std::cmp::Ordering::Less => DoesNotFit,
            };
            assert_eq!(meets(band, tube), Some(expected), "{band} on {tube}");
        }
        assert_eq!(meets("braze-on", band), Some(ExtraPart));
        assert_eq!(meets(band, "braze-on"), Some(DoesNotFit));
    }
    assert_eq!(meets("low-direct-22.1", "low-direct-22.1-offset"), Some(DoesNotFit));
    assert_eq!(meets("low-direct-42.7", "low-direct-22.1"), Some(DoesNotFit));
}

/// A charity's magazine: road and mountain front indexing have always differed, friction lifts it. A magazine's technical
/// column: electronic front and rear must be of one kind.
#[test]
fn front_shifters_go_by_pull_group() {
    let meets = |shifter, friction, derailleur| {
        let pair = [
            part(Kind::FrontShifter, &[(A::FrontPullFamily, W(shifter)), (A::Friction, F(friction))]),
            part(Kind::FrontDerailleur, &[(A::FrontPullFamily, W(derailleur))]),
        ];
        rear("front-shifter-on-derailleur", &pair)
    };
    assert_eq!(meets("front-a-road", false, "front-a-road"), Some(Fits));
    assert_eq!(meets("front-a-mountain", false, "front-a-road"), Some(DoesNotFit));
    assert_eq!(meets("front-a-road", false, "front-a-mountain"), Some(DoesNotFit));
    assert_eq!(meets("front-a-mountain", true, "front-a-road"), Some(Fits));
    assert_eq!(meets("front-a-mountain", true, "electronic-a-wired-road"), Some(DoesNotFit));
    let both = |front, back| {
        let pair = [
            part(Kind::FrontDerailleur, &[(A::FrontPullFamily, W(front))]),
            part(Kind::RearDerailleur, &[(A::PullFamily, W(back))]),
        ];
        rear("front-shifter-on-derailleur", &pair)
    };
    assert_eq!(both("electronic-a-wired-road", "electronic-a-wired-mountain"), Some(DoesNotFit));
    assert_eq!(both("electronic-a-wired-mountain", "electronic-a-wired-road"), Some(DoesNotFit));
    assert_eq!(both("electronic-a-wired-road", "electronic-a-wired-road"), Some(Fits));
}
