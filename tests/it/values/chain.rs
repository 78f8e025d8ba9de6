//! Sprockets, chain length and wrap against published tables and worked examples.
//!
//! "Recomputed" means: worked out separately in double precision and printed to six significant digits.
#![allow(clippy::unwrap_used)] // helpers of tests stand outside the test functions

use sprag_engine::gearing::Gearset;
use sprag_engine::gearing::chain::{
    Stay, centre_distance_mm, direct_chains, loop_pitches, loop_pitches_handbook, workshop_links,
};
use sprag_engine::gearing::sprocket::Sprocket;
use sprag_engine::gearing::wrap::{growth_teeth, wrap_needed};

/// Six significant digits.
const SIX: f64 = 5e-6;

#[track_caller]
fn near(found: f64, expected: f64, relative: f64) {
    assert!((found - expected).abs() <= relative * expected.abs(), "found {found}, expected {expected}");
}

fn sprocket(teeth: u16) -> Sprocket {
    Sprocket::new(teeth).unwrap()
}

fn stay(um: u32) -> Stay {
    Stay::from_um("stay", um).unwrap()
}

/// Pitch diameter and chordal ripple, recomputed; the last column is a published pitch-diameter table for
/// roller chain of 1-inch pitch, two decimals, of which half-inch pitch is half.
#[test]
fn pitch_diameters() {
    let rows = [
        (9, 37.1323, 6.03074, 74.26),
        (10, 41.0981, 4.89435, 82.20),
        (11, 45.0782, 4.05070, 90.16),
        (12, 49.0690, 3.40742, 98.14),
        (13, 53.0680, 2.90582, 106.14),
        (14, 57.0733, 2.50721, 114.15),
        (15, 61.0836, 2.18524, 122.17),
        (17, 69.1158, 1.70269, 138.23),
        (20, 81.1842, 1.23117, 162.37),
        (24, 97.2985, 0.855514, 194.60),
        (28, 113.429, 0.628779, 226.86),
        (32, 129.569, 0.481527, 259.14),
        (34, 137.642, 0.426582, 275.28),
        (36, 145.716, 0.380530, 291.43),
        (42, 169.945, 0.279620, 339.89),
        (46, 186.101, 0.233123, 372.20),
        (50, 202.260, 0.197327, 404.52),
        (51, 206.300, 0.189667, 412.60),
        (52, 210.340, 0.182445, 420.68),
        (53, 214.380, 0.175627, 428.76),
    ];
    for (teeth, diameter, ripple, double) in rows {
        near(sprocket(teeth).pitch_diameter_mm(), diameter, SIX);
        near(sprocket(teeth).chordal_ripple_percent(), ripple, SIX);
        let doubled = 2.0 * sprocket(teeth).pitch_diameter_mm();
        assert!((doubled - double).abs() <= 0.005 + 1e-9, "{teeth}: {doubled}, printed {double}");
    }
}

/// A machine-design guide prints 2.721 in for 17 teeth on half-inch pitch. The outside diameter is in the
/// roller-chain handbook's form, from memory; the chain's radius takes half a plate height of 4.25 mm (common
/// practice); both recomputed.
#[test]
fn other_sprocket_dimensions() {
    let inches = sprocket(17).pitch_diameter_mm() / 25.4;
    near(inches, 2.72109, SIX);
    assert!((inches - 2.721).abs() <= 0.0005);
    near(sprocket(34).outside_diameter_mm(), 144.675, SIX);
    near(sprocket(34).chain_radius_mm(), 73.0710, SIX);
    near(sprocket(50).chain_radius_mm(), 105.380, SIX);
}

/// The closed form of roller-chain handbooks and makers' procedures, and the exact open loop; recomputed.
#[test]
fn loop_lengths() {
    let rows = [
        (405_000, 53, 25, 103.402, 103.403, Some(106)),
        (410_000, 50, 28, 103.947, 103.947, Some(106)),
        (410_000, 50, 34, 106.768, 106.768, Some(110)),
        (425_000, 50, 34, 109.123, 109.123, Some(112)),
        (435_000, 32, 51, 110.271, 110.271, Some(114)),
        (440_000, 38, 44, 110.318, 110.318, Some(114)),
        (438_150, 52, 28, 109.423, 109.423, Some(112)),
        (420_000, 44, 28, 102.338, 102.338, Some(106)),
        (405_000, 53, 11, 97.1807, 97.1859, None),
        (410_000, 34, 11, 87.4820, 87.4824, None),
    ];
    for (um, front, rear, handbook, exact, links) in rows {
        near(loop_pitches_handbook(front, rear, stay(um)), handbook, SIX);
        near(loop_pitches(front, rear, stay(um)), exact, SIX);
        if let Some(links) = links {
            assert_eq!(workshop_links(front, rear, stay(um)), links, "{front}x{rear} at {um}");
        }
    }
}

/// Two links per 12.7 mm of stay, recomputed: 0.157480 of a pitch per millimetre.
#[test]
fn a_longer_stay_needs_a_longer_chain() {
    let grown = |um: u32| loop_pitches(50, 50, stay(410_000 + um)) - loop_pitches(50, 50, stay(410_000));
    near(grown(10_000), 1.57480, SIX);
    near(grown(12_700), 2.0, SIX);
}

/// A forum thread of about 2005 works two shop formulas through.
///
/// The first, for a stay of 17.25 in with 52 and 28 teeth, comes to 55.9257 and rounds to 56 in, which is 112
/// links: the same as the exact loop asks for. (Its coefficient for the difference of teeth is twice too
/// large.) The second, for 420 mm with 44 and 28, is printed as 108.94; the formula gives 103.940. The exact
/// loop plus two is 104.338, which rounds up to 106.
#[test]
fn published_shop_formulas() {
    let inches = 2.0_f64 * 17.25 + 52.0 / 4.0 + 28.0 / 4.0 + 0.01275 * 24.0 * 24.0 / 17.25 + 1.0;
    near(inches, 55.9257, SIX);
    near(inches.ceil(), 56.0, 1e-12);
    assert_eq!(workshop_links(52, 28, stay(438_150)), 2 * 56);
    let metric = 0.157_f64 * 420.0 + 44.0 / 2.0 + 28.0 / 2.0 + 2.0;
    near(metric, 103.940, SIX);
    let exact = loop_pitches(44, 28, stay(420_000)) + 2.0;
    near(exact, 104.338, SIX);
    assert!((exact - metric).abs() < 0.5);
    assert_eq!(workshop_links(44, 28, stay(420_000)), 106);
}

/// Centre distance from a count of links, recomputed.
#[test]
fn centre_distances() {
    let rows = [
        (112, 50, 34, 443.320),
        (96, 44, 16, 415.243),
        (98, 44, 16, 428.059),
        (100, 44, 16, 440.867),
        (96, 46, 17, 405.337),
        (98, 46, 17, 418.167),
        (100, 46, 17, 430.989),
        (102, 46, 17, 443.804),
    ];
    for (links, front, rear, mm) in rows {
        near(centre_distance_mm(links, front, rear).unwrap(), mm, SIX);
    }
    let [shorter, longer] = direct_chains(46, 17, stay(420_000));
    assert_eq!((shorter.links, longer.links), (98, 100));
    near(shorter.centre_mm, 418.167, SIX);
    near(longer.centre_mm, 430.989, SIX);
}

/// The first two are published: by a retailer's note on chain wrap and by a Japanese bicycle glossary; the
/// rest is recomputed.
#[test]
fn wrap() {
    let rows: [(&[u16], &[u16], u16); 6] = [
        (&[53, 39], &[12, 23], 25),
        (&[44, 32, 24], &[12, 34], 42),
        (&[50, 34], &[11, 34], 39),
        (&[50, 34], &[11, 28], 33),
        (&[32], &[10, 51], 41),
        (&[46, 30], &[11, 36], 41),
    ];
    for (rings, cogs, teeth) in rows {
        assert_eq!(wrap_needed(&Gearset::plain(rings, cogs).unwrap()), teeth);
    }
}

/// Half a pitch of chain per tooth of take-up against the true difference of the loops in the handbook's
/// form, recomputed.
#[test]
fn teeth_of_wrap_are_half_pitches_of_chain() {
    let difference = |(front, rear), (small_front, small_rear), um| {
        loop_pitches_handbook(front, rear, stay(um))
            - loop_pitches_handbook(small_front, small_rear, stay(um))
    };
    near(difference((50, 34), (34, 11), 410_000), 19.2858, SIX);
    near(difference((32, 51), (32, 10), 435_000), 20.4090, SIX);
    // Growth of 10 mm, derived: 2 x 10 / 6.35, about 3.1 teeth.
    near(growth_teeth(10_000), 3.149_606, SIX);
}
