//! Bad input: the right code, the field, and what would be right; never half an answer, never a silence.

use serde_json::json;
use sprag_proto::v1::{self as pb, fitted_part::Part as Reference, part::Kind};
use tonic::Code;
use tonic::client::Grpc;
use tonic_prost::ProstCodec;

use super::bench::{Bench, told};
use super::shop::{ask, fit, instead_of, message, rows, sku, take_off, touring_bike};

fn described(kind: Kind) -> pb::FittedPart {
    let part = pb::Part { kind: Some(kind), ..pb::Part::default() };
    pb::FittedPart { part: Some(Reference::Described(part)), ..pb::FittedPart::default() }
}

fn exactly(number: i64) -> Option<pb::IntegerValue> {
    let set = Some(pb::integer_value::Set::Exact(number));
    Some(pb::IntegerValue { set, origin: 0 })
}

fn one(part: pb::FittedPart) -> pb::CheckRequest {
    ask(pb::Build { parts: vec![part], ..pb::Build::default() }, [])
}

fn cassette(cassette: pb::Cassette) -> pb::CheckRequest {
    one(described(Kind::Cassette(cassette)))
}

#[tokio::test(flavor = "multi_thread")]
async fn an_unknown_part_is_not_found_and_its_nearest_spelling_is_told() {
    let bench = Bench::stocked(&rows()).await;
    let refused = bench.refusal(ask(touring_bike(), [fit(sku("CS-1123"))])).await;
    assert_eq!((refused.code, refused.reason.as_str()), (Code::NotFound, "UNKNOWN_PART"));
    assert_eq!((refused.fields(), refused.nearest.as_str()), (vec!["changes[0].fit.sku"], "CS-1128"));
    assert!(refused.message.contains("CS-1123") && refused.message.contains("CS-1128"), "{refused:?}");
    // All of them are told at once; what is wrong with the request itself goes first.
    let mut several = ask(touring_bike(), [fit(sku("XX-1")), fit(sku("XX-2"))]);
    assert_eq!(bench.refusal(several.clone()).await.fields(), ["changes[0].fit.sku", "changes[1].fit.sku"]);
    several.view = 77;
    let refused = bench.refusal(several).await;
    assert_eq!((refused.code, refused.fields()), (Code::InvalidArgument, vec!["view"]));
}

#[tokio::test(flavor = "multi_thread")]
async fn faults_of_described_parts_name_the_field() {
    let bench = Bench::empty().await;
    let key = |key: &str| {
        let set = Some(pb::key_value::Set::Exact(key.into()));
        Some(pb::KeyValue { set, origin: 0 })
    };
    let list = |cogs: &[i64]| Some(pb::ListValue { values: cogs.to_vec(), origin: 0 });
    let wrong = [
        (
            cassette(pb::Cassette { mount_family: key("splin-9"), ..Default::default() }),
            "mount_family",
            "spline-9",
        ),
        (cassette(pb::Cassette { groove_depth: key("dep"), ..Default::default() }), "groove_depth", "deep"),
        (cassette(pb::Cassette { largest_cog: exactly(-11), ..Default::default() }), "largest_cog", ""),
        (cassette(pb::Cassette { cog_count: exactly(21), ..Default::default() }), "cog_count", ""),
        (cassette(pb::Cassette { cogs: list(&[13, 11, 15]), ..Default::default() }), "cogs", ""),
        (cassette(pb::Cassette { cogs: list(&[]), ..Default::default() }), "cogs", ""),
        (cassette(pb::Cassette { cogs: list(&[11, -13]), ..Default::default() }), "cogs", ""),
        (
            cassette(pb::Cassette { required_length_um: exactly(i64::MAX), ..Default::default() }),
            "required_length",
            "",
        ),
        (
            cassette(pb::Cassette { required_length_um: exactly(i64::MIN), ..Default::default() }),
            "required_length",
            "",
        ),
        (
            cassette(pb::Cassette { mass_g: Some(pb::IntegerValue::default()), ..Default::default() }),
            "mass",
            "",
        ),
    ];
    for (request, field, nearest) in wrong {
        let refused = bench.refusal(request.clone()).await;
        assert_eq!(
            (refused.code, refused.reason.as_str()),
            (Code::InvalidArgument, "INVALID_REQUEST"),
            "{request:?}"
        );
        let path = format!("build.parts[0].described.cassette.{field}");
        assert!(refused.faults[0].0.starts_with(&path), "{path}: {refused:?}");
        assert_eq!(refused.nearest, nearest, "{refused:?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn faults_of_builds_and_changes_name_the_field() {
    let bench = Bench::stocked(&rows()).await;
    let stocked = |part: pb::FittedPart| pb::FittedPart { part: Some(Reference::Sku("CH-9".into())), ..part };
    let quantity = |quantity| one(stocked(pb::FittedPart { quantity, ..Default::default() }));
    let position = one(stocked(pb::FittedPart { position: 9, ..Default::default() }));
    let long = one(stocked(pb::FittedPart { item_id: "x".repeat(101), ..Default::default() }));
    let many =
        |count| ask(pb::Build { parts: vec![stocked(Default::default()); count], ..Default::default() }, []);
    let twice =
        message(json!({"build": {"parts": [{"id": "a", "sku": "CH-9"}, {"id": "a", "sku": "QL-9"}]}}));
    let wrong = [
        (ask(pb::Build::default(), []), "build.parts"),
        (pb::CheckRequest::default(), "build.parts"),
        (one(pb::FittedPart::default()), "build.parts[0]"),
        (quantity(-1), "build.parts[0].quantity"),
        (quantity(100), "build.parts[0].quantity"),
        (position, "build.parts[0].position"),
        (long, "build.parts[0].item_id"),
        (many(65), "build.parts"),
        (twice, "build.parts"),
        (ask(touring_bike(), vec![take_off("link"); 65]), "changes"),
        (ask(touring_bike(), [instead_of("casette", sku("CS-1128"))]), "changes[0].replaces"),
        (ask(touring_bike(), [pb::Change::default()]), "changes[0]"),
        (ask(touring_bike(), [fit(sku("CH-9")), fit(sku("CH-10"))]), "changes[1].fit"),
        (pb::CheckRequest { limit_practice: 9, ..ask(touring_bike(), []) }, "limit_practice"),
    ];
    for (request, field) in wrong {
        let refused = bench.refusal(request).await;
        assert_eq!((refused.code, refused.fields()[0]), (Code::InvalidArgument, field), "{refused:?}");
    }
    let refused = bench.refusal(ask(touring_bike(), [instead_of("casette", sku("CS-1128"))])).await;
    assert_eq!(refused.nearest, "cassette");
    let newer = bench.refusal(pb::CheckRequest { revision_min: 9, ..ask(touring_bike(), []) }).await;
    assert_eq!((newer.code, newer.reason.as_str()), (Code::FailedPrecondition, "REVISION_TOO_OLD"));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_question_about_more_parts_than_a_bike_has_is_refused_at_once() {
    let bench = Bench::stocked(&rows()).await;
    // As many parts as allowed, chosen so that as many as possible would meet.
    let kinds = ["CS-1128", "WH-9", "CH-9", "RD-32", "SH-9", "QL-9", "LR-11", "CS-1146"];
    let parts = (0..64).map(|index| json!({"sku": kinds[index % kinds.len()]})).collect::<Vec<_>>();
    let refused = bench.refusal(ask(super::shop::build(&parts), [])).await;
    assert_eq!((refused.code, refused.fields()[0]), (Code::InvalidArgument, "build.parts"));
    assert!(refused.message.contains("more"), "the others are counted: {refused:?}");
    // A part brings its own parts along; their number has a bound too.
    let rings = vec![pb::Chainring { teeth: exactly(40), ..Default::default() }; 5_000];
    let crankset = described(Kind::Crankset(pb::Crankset { chainrings: rings, ..Default::default() }));
    let refused = bench.refusal(one(crankset)).await;
    assert_eq!(refused.fields(), ["build.parts[0].described.crankset.chainrings"]);
}

#[tokio::test(flavor = "multi_thread")]
async fn more_faults_than_a_header_holds_are_cut_short() {
    let bench = Bench::empty().await;
    let set =
        |text: &str| Some(pb::KeyValue { set: Some(pb::key_value::Set::Exact(text.into())), origin: 0 });
    let wrong = described(Kind::Cassette(pb::Cassette {
        mount_family: set(&"é".repeat(10_000)),
        chain_profile: set("nromal"),
        lockring_thread: set("m30"),
        largest_cog: exactly(-1),
        ..Default::default()
    }));
    let refused = bench.refusal(ask(pb::Build { parts: vec![wrong; 64], ..Default::default() }, [])).await;
    assert_eq!((refused.code, refused.reason.as_str()), (Code::InvalidArgument, "INVALID_REQUEST"));
    assert!(!refused.faults.is_empty() && refused.faults.len() < 64 * 4);
}

#[tokio::test(flavor = "multi_thread")]
async fn faults_of_recommendations_ranges_and_the_shelf_name_the_field() {
    let bench = Bench::stocked(&rows()).await;
    let mut asking = bench.asking().await;
    let basket = pb::Complete { changes: vec![fit(sku("CS-1128"))] };
    let complete = pb::Wish { question: Some(pb::wish::Question::Complete(basket)) };
    let good =
        pb::RecommendRequest { build: Some(touring_bike()), wish: Some(complete), ..Default::default() };
    let wrong = [
        (pb::RecommendRequest { wish: None, ..good.clone() }, "wish"),
        (pb::RecommendRequest { build: None, ..good.clone() }, "build.parts"),
        (pb::RecommendRequest { options_max: -1, ..good.clone() }, "options_max"),
        (pb::RecommendRequest { options_max: 101, ..good.clone() }, "options_max"),
        (pb::RecommendRequest { steps_max: -1, ..good.clone() }, "steps_max"),
        (pb::RecommendRequest { objective: 9, ..good.clone() }, "objective"),
    ];
    for (request, field) in wrong {
        let refused = told(&asking.recommend(request).await.expect_err(field));
        assert_eq!((refused.code, refused.fields()[0]), (Code::InvalidArgument, field), "{refused:?}");
    }
    let no_subject = pb::RangeRequest::default();
    let refused = told(&asking.range(no_subject).await.expect_err("nothing to look at"));
    assert_eq!((refused.code, refused.fields()[0]), (Code::InvalidArgument, "subjects"));

    let mut keeping = bench.keeping().await;
    let entry = |sku: &str, stock, price: Option<(&str, i64)>| pb::ShelfEntry {
        sku: sku.into(),
        stock,
        price: price.map(|(code, minor_units)| pb::Money { currency_code: code.into(), minor_units }),
    };
    let wrong = [
        (entry("CH-9", Some(-1), None), Code::InvalidArgument, "entries[0].stock"),
        (entry("CH-9", None, Some(("EUR", -1))), Code::InvalidArgument, "entries[0].price.minor_units"),
        (entry("CH-9", None, Some(("EURO", 1))), Code::InvalidArgument, "entries[0].price.currency_code"),
        (entry("CH-8", Some(1), None), Code::NotFound, "entries[0].sku"),
    ];
    for (entry, code, field) in wrong {
        let refused = keeping.update_shelf(pb::UpdateShelfRequest { entries: vec![entry] }).await;
        let refused = told(&refused.expect_err(field));
        assert_eq!((refused.code, refused.fields()), (code, vec![field]));
    }
    let many = pb::UpdateShelfRequest { entries: vec![entry("CH-9", Some(1), None); 1001] };
    let refused = told(&keeping.update_shelf(many).await.expect_err("too many"));
    assert_eq!((refused.code, refused.fields()), (Code::InvalidArgument, vec!["entries"]));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_request_over_the_size_limit_is_refused_and_the_service_goes_on() {
    let bench = Bench::stocked(&rows()).await;
    let name = "x".repeat(10 << 20);
    let request = ask(pb::Build { build_id: name, ..touring_bike() }, []);
    let refused = bench.asking().await.check(request).await.expect_err("10 MB are too many");
    // The transport refuses it before any service sees it; this code is what the API documents for it.
    assert_eq!(refused.code(), Code::OutOfRange, "{refused:?}");
    bench.check(ask(touring_bike(), [])).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn bytes_that_are_no_message_are_refused_and_the_service_goes_on() {
    let bench = Bench::stocked(&rows()).await;
    let mut raw = Grpc::new(bench.channel().await);
    // A string in the place of the build, and a field that ends before its length.
    let nonsense: [&[u8]; 4] =
        [b"\x0a\xff\xff\xff\xff\x0f", b"\x0a\x03abc", b"\xff\xff\xff", b"\x0a\x02\x0a\x7f"];
    for bytes in nonsense {
        raw.ready().await.expect("ready");
        let path = "/sprag.v1.CompatibilityService/Check".parse().expect("a path");
        let codec = ProstCodec::<RawBytes, pb::CheckResponse>::default();
        let refused = raw.unary(tonic::Request::new(RawBytes(bytes.to_vec())), path, codec).await;
        let refused = refused.expect_err("no message");
        assert!(matches!(refused.code(), Code::Internal | Code::InvalidArgument), "{refused:?}");
    }
    bench.check(ask(touring_bike(), [])).await;
}

/// Bytes sent as they are, in the place of a message.
#[derive(Clone, Debug, Default)]
struct RawBytes(Vec<u8>);

impl prost::Message for RawBytes {
    fn encode_raw(&self, buffer: &mut impl prost::bytes::BufMut) {
        buffer.put_slice(&self.0);
    }

    fn merge_field(
        &mut self,
        _tag: u32,
        _wire_type: prost::encoding::WireType,
        _buffer: &mut impl prost::bytes::Buf,
        _context: prost::encoding::DecodeContext,
    ) -> Result<(), prost::DecodeError> {
        Ok(())
    }

    fn encoded_len(&self) -> usize {
        self.0.len()
    }

    fn clear(&mut self) {
        self.0.clear();
    }
}
