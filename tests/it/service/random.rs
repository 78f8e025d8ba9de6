//! Requests of random fields: the service answers or refuses, and never falls over.

use sprag_proto::v1::{self as pb, fitted_part::Part as Reference, part::Kind};
use tonic::Code;

use super::bench::{Bench, PATIENCE, told};
use super::shop::{rows, touring_bike};
use crate::laws::random::Random;

const REQUESTS: u64 = 400;

/// Most fields are sound, or no request would come far.
fn wild(random: &mut Random) -> bool {
    random.once_in(40)
}

fn text(random: &mut Random) -> String {
    if !wild(random) {
        return (*random.pick(&["CS-1128", "CH-9", "WH-9", "RD-32", "SH-9"])).to_owned();
    }
    let words =
        ["", "CS-1128", "CH-9", "cassette", "wheel.hub", "é\u{0}\u{202e}", "WH-9", "spline-9", "RD-32"];
    let word = (*random.pick(&words)).to_owned();
    if random.once_in(20) { word.repeat(300) } else { word }
}

fn number(random: &mut Random) -> i64 {
    *random.pick(&[0, 1, 9, 11, 32, 46, 34_900, -1, i64::MAX, i64::MIN, 1 << 33])
}

fn small(random: &mut Random) -> i32 {
    if !wild(random) {
        return *random.pick(&[0, 1, 2]);
    }
    *random.pick(&[0, 0, 0, 1, 2, 3, -1, 99, i32::MAX, i32::MIN])
}

/// What is known of a number, where a sound one is given.
fn integer(random: &mut Random, sound: i64) -> Option<pb::IntegerValue> {
    use pb::integer_value::Set;
    if !wild(random) {
        let set = match random.below(4) {
            0 => return None,
            1 => Set::Between(pb::IntegerRange { low: sound, high: sound + 1 }),
            _ => Set::Exact(sound),
        };
        return Some(pb::IntegerValue { set: Some(set), origin: small(random) });
    }
    let set = match random.below(6) {
        0 => return None,
        1 => Some(Set::OneOf(pb::IntegerList {
            values: (0..random.below(4)).map(|_| number(random)).collect(),
        })),
        2 => Some(Set::Between(pb::IntegerRange { low: number(random), high: number(random) })),
        3 => Some(Set::Absent(pb::Absent {})),
        4 => None,
        _ => Some(Set::Exact(number(random))),
    };
    Some(pb::IntegerValue { set, origin: small(random) })
}

/// What is known of a key, where a sound one is given.
fn key(random: &mut Random, sound: &str) -> Option<pb::KeyValue> {
    use pb::key_value::Set;
    let set = match random.below(5) {
        0 => return None,
        _ if !wild(random) => Some(Set::Exact(sound.into())),
        1 => Some(Set::OneOf(pb::KeyList { values: (0..random.below(3)).map(|_| text(random)).collect() })),
        2 => Some(Set::Absent(pb::Absent {})),
        _ => Some(Set::Exact(text(random))),
    };
    Some(pb::KeyValue { set, origin: small(random) })
}

fn list(random: &mut Random) -> Option<pb::ListValue> {
    let values = (0..random.below(13)).map(|index| 11 + 2 * i64::try_from(index).unwrap_or(0));
    let mut values: Vec<i64> = values.collect();
    if wild(random) {
        values.push(number(random));
    }
    (!values.is_empty() || wild(random)).then_some(pb::ListValue { values, origin: small(random) })
}

fn kind(random: &mut Random) -> Option<Kind> {
    let body = |random: &mut Random| pb::FreehubBody {
        mount_family: key(random, "spline-9"),
        body_length_um: integer(random, 34900),
        min_cog: integer(random, 11),
        ..Default::default()
    };
    Some(match random.below(8) {
        0 if wild(random) => return None,
        0 | 1 => Kind::Cassette(pb::Cassette {
            mount_family: key(random, "spline-9"),
            required_length_um: integer(random, 34900),
            cogs: list(random),
            largest_cog: integer(random, 35),
            chain_class: integer(random, 9),
            ..Default::default()
        }),
        2 => Kind::FreehubBody(body(random)),
        3 => Kind::Wheel(pb::Wheel {
            hub: Some(pb::Hub {
                freehub_body: Some(body(random)),
                axle: key(random, "quick-release-10"),
                ..Default::default()
            }),
            mass_g: integer(random, 900),
            ..Default::default()
        }),
        4 => Kind::Chain(pb::Chain {
            chain_speed: integer(random, 9),
            link_count: integer(random, 112),
            ..Default::default()
        }),
        5 => Kind::RearDerailleur(pb::RearDerailleur {
            max_cog: integer(random, 32),
            capacity: integer(random, 45),
            pull_family: key(random, "a-r1.7"),
            ..Default::default()
        }),
        6 => Kind::Crankset(pb::Crankset {
            rings: list(random),
            chainrings: vec![
                pb::Chainring { teeth: integer(random, 40), ..Default::default() };
                random.below(5)
            ],
            ..Default::default()
        }),
        _ => Kind::Frame(pb::Frame {
            chainstay_um: integer(random, 440000),
            hanger: key(random, "m10-eye"),
            ..Default::default()
        }),
    })
}

fn fitted(random: &mut Random) -> pb::FittedPart {
    let part = match random.below(6) {
        0 if wild(random) => None,
        1 if wild(random) => Some(Reference::Gtin(text(random))),
        2 if wild(random) => {
            Some(Reference::MakerPart(pb::MakerPartNumber { brand_id: text(random), number: text(random) }))
        }
        0..=2 => Some(Reference::Sku(text(random))),
        _ => {
            let part =
                pb::Part { sku: text(random), name: text(random), kind: kind(random), ..Default::default() };
            Some(Reference::Described(part))
        }
    };
    let item_id = if wild(random) { text(random) } else { String::new() };
    pb::FittedPart { item_id, position: small(random), quantity: small(random), part }
}

fn build(random: &mut Random) -> Option<pb::Build> {
    if wild(random) {
        return None;
    }
    if random.once_in(3) {
        return Some(touring_bike());
    }
    let parts = (0..=random.below(4)).map(|_| fitted(random)).collect();
    let usage = pb::Use { system_mass_kg: integer(random, 100), ..Default::default() };
    let size = Some(pb::wheel_size::Size::TyreDesignation(if wild(random) {
        text(random)
    } else {
        "37-622".into()
    }));
    Some(pb::Build {
        build_id: text(random),
        parts,
        r#use: Some(usage),
        wheel_size: Some(pb::WheelSize { size }),
    })
}

fn changes(random: &mut Random) -> Vec<pb::Change> {
    let change = |random: &mut Random| pb::Change {
        change_id: text(random),
        fit: (!wild(random)).then(|| fitted(random)),
        replaces: if wild(random) { text(random) } else { String::new() },
        moves: if wild(random) { vec![text(random)] } else { Vec::new() },
    };
    (0..random.below(3)).map(|_| change(random)).collect()
}

fn check(random: &mut Random) -> pb::CheckRequest {
    pb::CheckRequest {
        build: build(random),
        changes: changes(random),
        owned_spares: (0..random.below(2)).map(|_| fitted(random)).collect(),
        limit_practice: small(random),
        works_today: random.once_in(2),
        view: small(random),
        revision_min: if wild(random) { number(random) } else { 0 },
    }
}

fn range(random: &mut Random) -> pb::RangeRequest {
    let subject = |random: &mut Random| pb::RangeSubject { build: build(random), changes: changes(random) };
    pb::RangeRequest {
        subjects: (0..=random.below(2)).map(|_| subject(random)).collect(),
        cadences_rpm: (0..random.below(3)).map(|_| 60 + small(random)).collect(),
        speeds_kmh: if wild(random) {
            vec![*random.pick(&[f64::NAN, f64::INFINITY, -1.0, 0.0])]
        } else {
            vec![25.0]
        },
        duplicate_tolerance_permille: small(random),
        hill: random.once_in(3).then(|| pb::Hill {
            power_w: 200 + small(random),
            system_mass_kg: 90 + small(random),
            cadence_rpm: 60 + small(random),
            gradient_permille: Some(small(random)),
            ..Default::default()
        }),
    }
}

/// A refusal is the caller's fault, and says so with its reason.
fn proper<T>(answer: Result<T, tonic::Status>, seed: u64) -> bool {
    match answer {
        Ok(_) => true,
        Err(status) => {
            let refused = told(&status);
            let expected = [Code::InvalidArgument, Code::NotFound, Code::FailedPrecondition];
            assert!(expected.contains(&refused.code), "seed {seed}: {refused:?}");
            assert!(!refused.message.is_empty(), "seed {seed}");
            false
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn random_requests_are_answered_or_refused() {
    let bench = Bench::stocked(&rows()).await;
    let mut asking = bench.asking().await;
    let mut judged = 0;
    for seed in 0..REQUESTS {
        let mut random = Random(seed);
        let answers = async {
            let checked = proper(asking.check(check(&mut random)).await, seed);
            let ranged = seed % 4 == 0 && proper(asking.range(range(&mut random)).await, seed);
            i32::from(checked) + i32::from(ranged)
        };
        judged += tokio::time::timeout(PATIENCE, answers).await.expect("an answer in time");
    }
    assert!(judged > 100, "only {judged} requests could be judged: the others prove little");
}
