//! Hubs, axles, brakes and gear hubs against published tables and common practice.

use sprag_engine::build::End;
use sprag_engine::fit::Outcome::{self, Caveat, DoesNotFit, ExtraPart, Fits, NotEnoughData};
use sprag_engine::fit::rules::hub_in_frame::quick_release_width_um;
use sprag_engine::part::Attribute as A;
use sprag_engine::part::{Kind, Part};

use super::meeting::Is::{self, F, Mm, N, No, W};
use super::meeting::{by_maker, front, number, part, rear};

/// Axle guides of a magazine and a wheel builder: a thru-axle hub is 7 mm wider than its quick-release form.
#[test]
fn thru_axle_widths_have_quick_release_equivalents() {
    for (thru, open) in [(142, 135), (148, 141), (157, 150), (177, 170), (197, 190)] {
        assert_eq!(quick_release_width_um(thru * 1_000), open * 1_000);
    }
}

type Ends = (i64, &'static str);

fn hub((width, axle): Ends, more: &[(A, Is)]) -> Part {
    part(Kind::Hub, &[&[(A::OverLocknut, Mm(width)), (A::Axle, W(axle))], more].concat())
}

fn frame((width, axle): Ends, more: &[(A, Is)]) -> Part {
    part(Kind::Frame, &[&[(A::DropoutWidth, Mm(width)), (A::Axle, W(axle))], more].concat())
}

const QUICK: &str = "quick-release-10";
const THRU: &str = "thru-12";

/// Axle guides; articles on 157 mm rear ends. Both directions of every pair; caps only where the maker lists them.
#[test]
fn end_caps_convert_within_a_hub_shell_and_nowhere_else() {
    let rows = [
        ((135, QUICK), (142, THRU), ExtraPart),
        ((142, THRU), (135, QUICK), ExtraPart),
        ((141, QUICK), (148, THRU), ExtraPart),
        ((148, THRU), (141, QUICK), ExtraPart),
        ((150, THRU), (157, THRU), ExtraPart),
        ((157, THRU), (150, THRU), ExtraPart),
        ((135, QUICK), (148, THRU), DoesNotFit),
        ((148, THRU), (142, THRU), DoesNotFit),
        ((141, QUICK), (142, THRU), DoesNotFit),
        ((135, "nutted"), (142, THRU), DoesNotFit),
        ((142, THRU), (142, THRU), Fits),
    ];
    for (inside, outside, expected) in rows {
        let pair = [hub(inside, &[(A::EndCaps, F(true))]), frame(outside, &[])];
        assert_eq!(rear("hub-in-frame", &pair), Some(expected), "{inside:?} in {outside:?}");
    }
    let unlisted =
        |known: &[(A, Is)]| rear("hub-in-frame", &[hub((135, QUICK), known), frame((142, THRU), &[])]);
    assert_eq!(unlisted(&[]), Some(NotEnoughData));
    assert_eq!(unlisted(&[(A::EndCaps, F(false))]), Some(DoesNotFit));
}

/// A shop page: 142 in 148 mm lacks 3 mm on each side, rotor included; kits exist for some hubs.
#[test]
fn a_narrow_thru_axle_hub_needs_a_listed_kit() {
    let kit = |known: &[(A, Is)]| rear("hub-in-frame", &[hub((142, THRU), known), frame((148, THRU), &[])]);
    assert_eq!(kit(&[(A::WideningKit, F(true))]), Some(ExtraPart));
    assert_eq!(kit(&[(A::WideningKit, F(false))]), Some(DoesNotFit));
    assert_eq!(kit(&[]), Some(NotEnoughData));
    let pair = [hub((142, THRU), &[(A::WideningKit, F(true))]), frame((148, THRU), &[])];
    assert_eq!(number("hub-in-frame", End::Rear, "spacer", &pair), 3_000);
}

/// A shop page: 130 in 135 mm takes 2.5 mm on each side. Spreading ordinary steel by a few millimetres, never anything
/// else, is common practice.
#[test]
fn open_dropouts_take_washers_and_steel_is_spread() {
    let washers = [hub((130, QUICK), &[]), frame((135, QUICK), &[])];
    assert_eq!(rear("hub-in-frame", &washers), Some(ExtraPart));
    assert_eq!(number("hub-in-frame", End::Rear, "spacer", &washers), 2_500);
    let spread =
        |material, wide| [hub((wide, QUICK), &[]), frame((126, QUICK), &[(A::FrameMaterial, W(material))])];
    assert_eq!(rear("hub-in-frame", &spread("steel", 130)), Some(Caveat));
    assert_eq!(by_maker("hub-in-frame", &spread("steel", 130)), Some(DoesNotFit));
    assert_eq!(rear("hub-in-frame", &spread("carbon", 130)), Some(DoesNotFit));
    assert_eq!(rear("hub-in-frame", &spread("steel", 135)), Some(DoesNotFit));
}

/// Axle guides: front 100 mm is one width for all axles; 110 x 15 and 110 x 20 are different hubs; articles on 157 mm.
#[test]
fn front_hubs_and_wide_flanges() {
    let fork = |(width, axle): Ends| part(Kind::Fork, &[(A::DropoutWidth, Mm(width)), (A::Axle, W(axle))]);
    let fitted = |inside, outside| {
        front(
            "hub-in-fork",
            &[hub(inside, &[(A::EndCaps, F(true)), (A::WideningKit, F(true))]), fork(outside)],
        )
    };
    assert_eq!(fitted((100, "quick-release-9"), (100, "thru-15")), Some(ExtraPart));
    assert_eq!(fitted((100, "thru-15"), (100, "thru-12")), Some(ExtraPart));
    assert_eq!(fitted((100, "thru-15"), (100, "quick-release-9")), Some(ExtraPart));
    assert_eq!(fitted((110, "thru-15"), (110, "thru-20")), Some(DoesNotFit));
    assert_eq!(fitted((110, "thru-20"), (110, "thru-15")), Some(DoesNotFit));
    assert_eq!(fitted((100, "thru-15"), (110, "thru-15")), Some(ExtraPart));
    assert_eq!(fitted((110, "thru-15"), (100, "thru-15")), Some(DoesNotFit));
    let flanges = |inside, outside| {
        let wide = |flag| [(A::WideFlange, F(flag))];
        rear("hub-in-frame", &[hub((157, THRU), &wide(inside)), frame((157, THRU), &wide(outside))])
    };
    assert_eq!(flanges(true, true), Some(Fits));
    assert_eq!(flanges(true, false), Some(DoesNotFit));
    assert_eq!(flanges(false, true), Some(DoesNotFit));
}

/// Pitches of thru-axles from memory: 1.0, 1.5 and 1.75 mm.
#[test]
fn thru_axle_threads_do_not_mix() {
    let ends = |kind, pitch| {
        part(kind, &[(A::Axle, W(THRU)), (A::ThruAxlePitch, N(pitch)), (A::AxleLength, Mm(172))])
    };
    for one in [1_000, 1_500, 1_750] {
        for other in [1_000, 1_500, 1_750] {
            let expected = if one == other { Fits } else { DoesNotFit };
            assert_eq!(
                rear("axle-in-frame", &[ends(Kind::Axle, one), ends(Kind::Frame, other)]),
                Some(expected)
            );
        }
    }
}

/// Articles on rotor and hub interfaces: six bolts on splines with an adapter, never the reverse.
#[test]
fn rotor_seats_go_one_way() {
    let seat = |rotor, hub| {
        let hub = part(Kind::Hub, &[(A::RotorMount, hub)]);
        rear("rotor-on-hub", &[part(Kind::Rotor, &[(A::RotorMount, W(rotor))]), hub])
    };
    assert_eq!(seat("six-bolt", W("splined-lockring")), Some(ExtraPart));
    assert_eq!(seat("splined-lockring", W("six-bolt")), Some(DoesNotFit));
    assert_eq!(seat("six-bolt", W("six-bolt")), Some(Fits));
    assert_eq!(seat("six-bolt", No), Some(DoesNotFit));
}

fn rotor(size: i64) -> Part {
    part(Kind::Rotor, &[(A::Rotor, Mm(size))])
}

fn mount(kind: Kind, mount: &'static str, native: Is) -> Part {
    part(kind, &[(A::BrakeMount, W(mount)), (A::NativeRotor, native), (A::MaxRotor, Mm(220))])
}

/// Disc-mount guides: adapters only enlarge; a tab bracket is the same for 180 mm in front and 160 mm at the rear; 200
/// and 203 mm differ by 1.5 mm at the caliper (common practice).
#[test]
fn adapter_arithmetic() {
    let posts =
        |native, size| rear("brake-on-frame", &[rotor(size), mount(Kind::Frame, "post-mount", Mm(native))]);
    assert_eq!(posts(180, 160), Some(DoesNotFit));
    assert_eq!(posts(160, 160), Some(Fits));
    assert_eq!(posts(160, 180), Some(ExtraPart));
    assert_eq!(posts(160, 203), Some(ExtraPart));
    assert_eq!(posts(203, 200), Some(DoesNotFit));
    assert_eq!(posts(200, 203), Some(ExtraPart));
    assert_eq!(posts(160, 170), Some(NotEnoughData));
    let shims = [rotor(203), mount(Kind::Frame, "post-mount", Mm(200))];
    assert_eq!(number("brake-on-frame", End::Rear, "shim", &shims), 1_500);
    let bracket = [rotor(180), mount(Kind::Fork, "tabs-51", No)];
    assert_eq!(number("brake-on-fork", End::Front, "step", &bracket), 20_000);
    let bracket = [rotor(160), mount(Kind::Frame, "tabs-51", No)];
    assert_eq!(number("brake-on-frame", End::Rear, "step", &bracket), 20_000);
    assert_eq!(rear("brake-on-frame", &[rotor(140), mount(Kind::Frame, "tabs-51", No)]), Some(ExtraPart));
    let flat = |size| front("brake-on-fork", &[rotor(size), mount(Kind::Fork, "flat-mount", Mm(160))]);
    assert_eq!((flat(140), flat(160)), (Some(Fits), Some(Fits)));
}

/// A forum thread on a touring fork approved for 180 mm: the approval rules, not the adapter.
#[test]
fn a_rotor_over_the_approval_is_refused() {
    let known = [(A::BrakeMount, W("post-mount")), (A::NativeRotor, Mm(160)), (A::MaxRotor, Mm(180))];
    let fork = part(Kind::Fork, &known);
    assert_eq!(front("brake-on-fork", &[rotor(203), fork.clone()]), Some(DoesNotFit));
    assert_eq!(front("brake-on-fork", &[rotor(180), fork]), Some(ExtraPart));
    let silent = part(Kind::Fork, &[(A::BrakeMount, W("post-mount")), (A::NativeRotor, Mm(160))]);
    assert_eq!(front("brake-on-fork", &[rotor(180), silent]), Some(NotEnoughData));
}

/// Disc-mount guides; a page on a flat-mount caliper on posts; a frame builder's blog.
#[test]
fn calipers_across_mounts() {
    let meets = |brake, ends| {
        let brake = part(Kind::BrakeCaliper, &[(A::BrakeMount, W(brake))]);
        rear("brake-on-frame", &[brake, part(Kind::Frame, &[(A::BrakeMount, W(ends))])])
    };
    assert_eq!(meets("post-mount", "tabs-51"), Some(Fits));
    assert_eq!(meets("tabs-51", "post-mount"), Some(DoesNotFit));
    assert_eq!(meets("tabs-51", "flat-mount"), Some(DoesNotFit));
    assert_eq!(meets("flat-mount", "post-mount"), Some(NotEnoughData));
    assert_eq!(meets("post-mount", "flat-mount"), Some(NotEnoughData));
    assert_eq!(meets("flat-mount", "tabs-51"), Some(DoesNotFit));
    assert_eq!(meets("centre-bolt", "post-mount"), Some(DoesNotFit));
}

/// Articles on brake fluids: DOT 4 and 5.1 are one class; mineral oil and glycol never; DOT 5 is silicone.
#[test]
fn fluids_go_by_class() {
    let filled = |fluid: &'static str, maker: &'static str, kind| {
        part(kind, &[(A::BrakeActuation, W("hydraulic")), (A::Fluid, W(fluid)), (A::FluidMaker, W(maker))])
    };
    let meets = |lever: (&'static str, &'static str), brake: (&'static str, &'static str)| {
        let pair = [filled(lever.0, lever.1, Kind::BrakeLever), filled(brake.0, brake.1, Kind::BrakeCaliper)];
        rear("brake-fluid", &pair)
    };
    assert_eq!(meets(("glycol", "one"), ("glycol", "two")), Some(Fits));
    for (one, other) in [("mineral", "glycol"), ("silicone", "glycol"), ("mineral", "silicone")] {
        assert_eq!(meets((one, "one"), (other, "one")), Some(DoesNotFit));
        assert_eq!(meets((other, "one"), (one, "one")), Some(DoesNotFit));
    }
    assert_eq!(meets(("mineral", "one"), ("mineral", "one")), Some(Fits));
    assert_eq!(meets(("mineral", "one"), ("mineral", "two")), Some(Caveat));
    assert_eq!(meets(("mineral", "one"), ("mineral-low-viscosity", "one")), Some(Caveat));
    let unknown = part(Kind::BrakeCaliper, &[(A::BrakeActuation, W("hydraulic"))]);
    let pair = [filled("mineral", "one", Kind::BrakeLever), unknown];
    assert_eq!(rear("brake-fluid", &pair), Some(NotEnoughData));
}

/// Reference article on mechanical brakes: about 15, 8 and 7 mm of pull; 7 against 8 with care; other mixes unsafe.
#[test]
fn lever_pulls_go_by_class() {
    let pulls = |kind, pull| part(kind, &[(A::BrakeActuation, W("cable")), (A::LeverPull, W(pull))]);
    for lever in ["long", "short", "road-8mm"] {
        for brake in ["long", "short", "road-8mm"] {
            let expected = match (lever, brake) {
                (lever, brake) if lever == brake => Fits,
                ("long", _) | (_, "long") => DoesNotFit,
                _ => Caveat,
            };
            let pair = [pulls(Kind::BrakeLever, lever), pulls(Kind::BrakeCaliper, brake)];
            assert_eq!(rear("lever-on-brake", &pair), Some(expected), "{lever} on {brake}");
        }
    }
    let hydraulic = part(Kind::BrakeCaliper, &[(A::BrakeActuation, W("hydraulic"))]);
    assert_eq!(rear("lever-on-brake", &[pulls(Kind::BrakeLever, "short"), hydraulic]), Some(DoesNotFit));
}

/// Pad guides; rim pads common practice; thickness from memory.
#[test]
fn pads_rotors_and_rims() {
    let pads = |compound| part(Kind::BrakePads, &[(A::PadCompound, W(compound))]);
    let on_rotor = |compound, resin| {
        rear("pads-in-brake", &[pads(compound), part(Kind::Rotor, &[(A::ResinOnly, F(resin))])])
    };
    assert_eq!(on_rotor("sintered", true), Some(DoesNotFit));
    assert_eq!(on_rotor("sintered", false), Some(Fits));
    assert_eq!(on_rotor("resin", true), Some(Fits));
    let on_rim = |compound, material| {
        rear("pads-in-brake", &[pads(compound), part(Kind::Rim, &[(A::RimMaterial, W(material))])])
    };
    assert_eq!(on_rim("rim-aluminium", "carbon"), Some(DoesNotFit));
    assert_eq!(on_rim("rim-carbon", "aluminium"), Some(Caveat));
    assert_eq!(on_rim("rim-carbon", "carbon"), Some(Fits));
    let thick = |rotor, caliper| {
        let known = |thickness| [(A::RotorThickness, N(thickness))];
        rear(
            "rotor-in-caliper",
            &[part(Kind::Rotor, &known(rotor)), part(Kind::BrakeCaliper, &known(caliper))],
        )
    };
    assert_eq!(thick(1_800, 2_000), Some(Caveat));
    assert_eq!(thick(2_000, 1_800), Some(NotEnoughData));
}

fn geared(ring: i64, sprocket: i64, least_permille: i64) -> Option<Outcome> {
    let rings = [(A::RingCount, N(1)), (A::LargestRing, N(ring)), (A::SmallestRing, N(ring))];
    let known = [(A::MinPrimaryRatio, N(least_permille)), (A::MountFamily, W("lug-3"))];
    let sprocket = part(Kind::Sprocket, &[(A::Teeth, N(sprocket)), (A::MountFamily, W("lug-3"))]);
    rear("gear-hub", &[part(Kind::Crankset, &rings), sprocket, part(Kind::GearHub, &known)])
}

/// A gear-hub user group's message of 2011: 1.9 for an 11-speed hub, 2.35 for a 14-speed one; 38 x 13 is 2.92.
#[test]
fn gear_hubs_have_a_least_primary_ratio() {
    assert_eq!(geared(38, 13, 2_350), Some(Fits));
    assert_eq!(geared(32, 18, 1_900), Some(DoesNotFit));
    assert_eq!(geared(32, 24, 1_900), Some(DoesNotFit));
    assert_eq!(geared(38, 20, 1_900), Some(Fits), "1.9 exactly");
    assert_eq!(geared(38, 21, 1_900), Some(DoesNotFit));
}

/// Makers' tables: shifters go by label; a derailleur shifter never works a gear hub.
#[test]
fn gear_hub_shifters_go_by_label() {
    let hub = part(Kind::GearHub, &[(A::GearHubShifter, W("family-a 8")), (A::MountFamily, W("lug-3"))]);
    let shifter = |label| part(Kind::GearHubShifter, &[(A::GearHubShifter, W(label))]);
    assert_eq!(rear("gear-hub", &[shifter("family-a 8"), hub.clone()]), Some(Fits));
    assert_eq!(rear("gear-hub", &[shifter("family-a 7"), hub.clone()]), Some(DoesNotFit));
    assert_eq!(rear("gear-hub", &[part(Kind::RearShifter, &[]), hub]), Some(DoesNotFit));
}

/// A forum thread on a single-speed conversion: 135 / 2 - 51 = 16.5 mm from the dropout face.
#[test]
fn a_single_sprocket_has_its_place() {
    let hub = hub((135, QUICK), &[(A::HubThread, No)]);
    let parts = [part(Kind::Sprocket, &[]), hub, part(Kind::Crankset, &[(A::Chainline, Mm(51))])];
    assert_eq!(rear("sprocket-line", &parts), Some(ExtraPart));
    assert_eq!(number("sprocket-line", End::Rear, "distance", &parts), 16_500);
}
