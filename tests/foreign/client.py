"""A client of another language and another gRPC library: what the API promises must hold without our own code.

Usage: client.py ADDRESS STUBS CATALOGUE
ADDRESS is host:port of a running spragd with an empty store, STUBS the folder with the generated code, CATALOGUE an
NDJSON file of parts. Prints a line for each check, then "N passed, N failed".
"""

import json
import pathlib
import sys
import traceback

import grpc
from google.protobuf import json_format
from google.rpc import error_details_pb2
from grpc_health.v1 import health_pb2, health_pb2_grpc
from grpc_reflection.v1alpha.proto_reflection_descriptor_database import ProtoReflectionDescriptorDatabase
from grpc_status import rpc_status

ADDRESS, STUBS, CATALOGUE = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
sys.path.insert(0, STUBS)

from sprag.v1 import catalogue_service_pb2 as catalogue  # noqa: E402
from sprag.v1 import catalogue_service_pb2_grpc as catalogue_grpc  # noqa: E402
from sprag.v1 import compatibility_service_pb2 as compatibility  # noqa: E402
from sprag.v1 import compatibility_service_pb2_grpc as compatibility_grpc  # noqa: E402

SERVICES = ["sprag.v1.CatalogueService", "sprag.v1.CompatibilityService"]
TIMEOUT = 30

channel = grpc.insecure_channel(ADDRESS)
health = health_pb2_grpc.HealthStub(channel)
keeping = catalogue_grpc.CatalogueServiceStub(channel)
asking = compatibility_grpc.CompatibilityServiceStub(channel)


def exactly(value):
    """A value of an attribute that is known exactly, in protobuf's JSON."""
    return {"exact": value}


def cassette(pattern):
    return {
        "mountFamily": exactly(pattern),
        "requiredLengthUm": exactly(34900),
        "smallestCog": exactly(11),
        "largestCog": exactly(32),
    }


def body(pattern):
    return {"mountFamily": exactly(pattern), "bodyLengthUm": exactly(34900), "minCog": exactly(11)}


def described(item, kind, attributes):
    return {"itemId": item, "described": {kind: attributes}}


def check(cassette_pattern, body_pattern):
    """Asks whether a cassette goes on a freehub body."""
    parts = [
        described("cassette", "cassette", cassette(cassette_pattern)),
        described("body", "freehubBody", body(body_pattern)),
    ]
    request = json_format.ParseDict({"build": {"parts": parts}}, compatibility.CheckRequest())
    return asking.Check(request, timeout=TIMEOUT)


def verdict(answer):
    return json_format.MessageToDict(answer)["verdict"]


def refused(call):
    """The error of a call that must fail."""
    try:
        call()
    except grpc.RpcError as error:
        return error
    raise AssertionError("it was answered")


def details(error, kind):
    """The details of one kind within an error."""
    found = []
    for detail in rpc_status.from_call(error).details:
        message = kind()
        if detail.Unpack(message):
            found.append(message)
    return found


def health_is_serving():
    for service in ["", *SERVICES]:
        answer = health.Check(health_pb2.HealthCheckRequest(service=service), timeout=TIMEOUT)
        assert answer.status == health_pb2.HealthCheckResponse.SERVING, (service, answer)


def health_of_an_unknown_service_is_not_found():
    request = health_pb2.HealthCheckRequest(service="sprag.v1.NoSuchService")
    assert refused(lambda: health.Check(request, timeout=TIMEOUT)).code() == grpc.StatusCode.NOT_FOUND


def reflection_lists_our_services():
    database = ProtoReflectionDescriptorDatabase(channel)
    listed = set(database.get_services())
    assert listed.issuperset(SERVICES), listed
    described_there = database.FindFileContainingSymbol("sprag.v1.CompatibilityService")
    methods = {method.name for service in described_there.service for method in service.method}
    assert {"Check", "BatchCheck", "StreamCheck", "Range", "Recommend"} <= methods, methods


def pieces():
    yield catalogue.ImportPartsRequest(
        header=catalogue.ImportHeader(
            format=catalogue.FILE_FORMAT_NDJSON, mode=catalogue.IMPORT_MODE_FULL, file_name=CATALOGUE.name
        )
    )
    content = CATALOGUE.read_bytes()
    for start in range(0, len(content), 65536):
        yield catalogue.ImportPartsRequest(chunk=content[start : start + 65536])


def rows():
    return [json.loads(line) for line in CATALOGUE.read_text(encoding="utf-8").splitlines() if line.strip()]


def a_catalogue_is_imported():
    answer = keeping.ImportParts(pieces(), timeout=TIMEOUT)
    assert answer.published, answer.report
    assert answer.revision.part_count == len(rows()) == answer.report.rows_good, answer.report


def a_part_is_found_again():
    sku = rows()[0]["sku"]
    found = keeping.GetPart(catalogue.GetPartRequest(sku=sku), timeout=TIMEOUT)
    assert found.part.part.sku == sku and found.basis.catalogue_revision == 1, found


def an_export_comes_as_a_stream():
    exported = b"".join(piece.chunk for piece in keeping.ExportParts(catalogue.ExportPartsRequest(), timeout=TIMEOUT))
    lines = exported.decode("utf-8").splitlines()
    assert len(lines) == len(rows())
    assert sorted(json.loads(line)["part"]["sku"] for line in lines) == sorted(row["sku"] for row in rows())


def a_cassette_fits_its_body():
    answer = check("spline-9", "spline-9")
    assert verdict(answer) == "VERDICT_FITS", answer
    assert answer.basis.ruleset_version, answer


def a_cassette_of_another_pattern_does_not_fit():
    answer = check("spline-23", "spline-9")
    assert verdict(answer) == "VERDICT_DOES_NOT_FIT", answer
    worst = answer.findings[0]
    assert (worst.rule, worst.reason) == ("cassette-on-body/pattern", "other-pattern"), worst


def a_missing_spacer_is_named_with_what_is_on_the_shelf():
    build = {"parts": [{"sku": "CS10-1127-33"}, {"sku": "WH-622-130-9M"}]}
    answer = asking.Check(json_format.ParseDict({"build": build}, compatibility.CheckRequest()), timeout=TIMEOUT)
    assert verdict(answer) == "VERDICT_FITS_WITH_EXTRA_PARTS", answer
    (spacer,) = answer.unmet_extras
    assert any(trait.value == 1000 for trait in spacer.traits) and spacer.skus_in_stock, spacer


def an_unknown_part_is_told_with_the_nearest_one():
    build = {"parts": [{"sku": "CS11-1128-RR"}]}
    request = json_format.ParseDict({"build": build}, compatibility.CheckRequest())
    error = refused(lambda: asking.Check(request, timeout=TIMEOUT))
    assert error.code() == grpc.StatusCode.NOT_FOUND, error
    (info,) = details(error, error_details_pb2.ErrorInfo)
    assert (info.reason, info.metadata["nearest"]) == ("UNKNOWN_PART", "CS11-1128-R"), info
    (faults,) = details(error, error_details_pb2.BadRequest)
    assert [fault.field for fault in faults.field_violations] == ["build.parts[0].sku"], faults


def a_stream_of_checks_answers_in_order():
    def asked():
        for item in ["first", "second", "third"]:
            yield compatibility.StreamCheckRequest(item=compatibility.BatchCheckItem(item_id=item))

    answers = [answer.result for answer in asking.StreamCheck(asked(), timeout=TIMEOUT)]
    assert [answer.item_id for answer in answers] == ["first", "second", "third"], answers
    assert all(answer.error.code == grpc.StatusCode.INVALID_ARGUMENT.value[0] for answer in answers), answers


def a_misspelt_pattern_is_told_with_its_field():
    error = refused(lambda: check("splin-9", "spline-9"))
    assert error.code() == grpc.StatusCode.INVALID_ARGUMENT, error
    (info,) = details(error, error_details_pb2.ErrorInfo)
    assert (info.reason, info.domain, info.metadata["nearest"]) == ("INVALID_REQUEST", "sprag.v1", "spline-9"), info
    (faults,) = details(error, error_details_pb2.BadRequest)
    (fault,) = faults.field_violations
    assert fault.field == "build.parts[0].described.cassette.mount_family" and "spline-9" in fault.description, fault


def many_faults_still_arrive():
    parts = [described(f"part {number}", "cassette", cassette("x" * 1000)) for number in range(64)]
    request = json_format.ParseDict({"build": {"parts": parts}}, compatibility.CheckRequest())
    error = refused(lambda: asking.Check(request, timeout=TIMEOUT))
    assert error.code() == grpc.StatusCode.INVALID_ARGUMENT, error
    (faults,) = details(error, error_details_pb2.BadRequest)
    assert faults.field_violations, faults


def a_deadline_is_kept():
    request = compatibility.ListRulesRequest(page_size=1)
    error = refused(lambda: asking.ListRules(request, timeout=0.000001))
    assert error.code() == grpc.StatusCode.DEADLINE_EXCEEDED, error


CHECKS = [
    health_is_serving,
    health_of_an_unknown_service_is_not_found,
    reflection_lists_our_services,
    a_catalogue_is_imported,
    a_part_is_found_again,
    an_export_comes_as_a_stream,
    a_cassette_fits_its_body,
    a_cassette_of_another_pattern_does_not_fit,
    a_missing_spacer_is_named_with_what_is_on_the_shelf,
    an_unknown_part_is_told_with_the_nearest_one,
    a_stream_of_checks_answers_in_order,
    a_misspelt_pattern_is_told_with_its_field,
    many_faults_still_arrive,
    a_deadline_is_kept,
]


def main():
    failed = 0
    for tried in CHECKS:
        try:
            tried()
            print(f"ok      {tried.__name__.replace('_', ' ')}")
        except Exception:  # every fault of a check is a failure, whatever raised it
            failed += 1
            print(f"FAILED  {tried.__name__.replace('_', ' ')}")
            traceback.print_exc()
    print(f"{len(CHECKS) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
