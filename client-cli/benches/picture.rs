//! Pictures of gears: the bar is 200 ms for one picture.

// A measurement that cannot go on may stop with a message.
#![allow(clippy::expect_used, missing_docs)]

// Its own tests do not run here.
#[allow(dead_code)]
#[path = "../src/output/picture.rs"]
mod picture;

use sprag_proto::v1 as pb;

fn main() {
    divan::main();
}

/// Three builds of three rings and twelve cogs.
fn builds() -> Vec<pb::GearingAnswer> {
    let cogs = [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32, 36];
    let build = |index: i32| {
        let rings = [24 + index, 34 + index, 46 + index];
        let pairs = rings.into_iter().flat_map(|ring| cogs.into_iter().map(move |cog| (ring, cog)));
        let gear = |(ring, cog)| pb::Gear {
            ring,
            cog,
            ratio: f64::from(ring) / f64::from(cog),
            ..pb::Gear::default()
        };
        pb::GearingAnswer {
            build_id: format!("build {index}"),
            gears: pairs.map(gear).collect(),
            ..Default::default()
        }
    };
    (0..3).map(build).collect()
}

#[divan::bench]
fn png_of_three_builds(bencher: divan::Bencher) {
    let (builds, folder) = (builds(), tempfile::tempdir().expect("a folder"));
    bencher.bench(|| picture::png(&builds, &folder.path().join("gears.png")).expect("a picture"));
}

#[divan::bench]
fn svg_of_three_builds(bencher: divan::Bencher) {
    let (builds, folder) = (builds(), tempfile::tempdir().expect("a folder"));
    bencher.bench(|| picture::svg(&builds, &folder.path().join("gears.svg")).expect("a picture"));
}
