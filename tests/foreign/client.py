"""A client in another language: health, reflection, import, check and rich errors, against a running service."""

import sys

import grpc
from google.rpc import error_details_pb2
from grpc_health.v1 import health_pb2, health_pb2_grpc
from grpc_reflection.v1alpha.proto_reflection_descriptor_database import ProtoReflectionDescriptorDatabase
from grpc_status import rpc_status

from sprag.v1 import build_pb2, catalogue_service_pb2, catalogue_service_pb2_grpc
from sprag.v1 import compatibility_service_pb2, compatibility_service_pb2_grpc, finding_pb2

passed, failed = 0, 0


def check(what, holds, found=None):
    global passed, failed
    passed, failed = passed + bool(holds), failed + (not holds)
    print(("ok    " if holds else "FAILED") + " " + what + ("" if holds else f": {found!r}"))


def fitted(**part):
    return build_pb2.FittedPart(**part)


def pieces(path):
    header = catalogue_service_pb2.ImportHeader(format=catalogue_service_pb2.FILE_FORMAT_NDJSON, file_name=path)
    yield catalogue_service_pb2.ImportPartsRequest(header=header)
    with open(path, "rb") as file:
        while chunk := file.read(65536):
            yield catalogue_service_pb2.ImportPartsRequest(chunk=chunk)


def main(address, catalogue_file):
    channel = grpc.insecure_channel(address)
    health = health_pb2_grpc.HealthStub(channel)
    for service in ("", "sprag.v1.CompatibilityService", "sprag.v1.CatalogueService"):
        status = health.Check(health_pb2.HealthCheckRequest(service=service), timeout=10).status
        check(f"health of {service or 'the whole'}", status == health_pb2.HealthCheckResponse.SERVING, status)

    services = ProtoReflectionDescriptorDatabase(channel).get_services()
    check("reflection lists the services", "sprag.v1.CompatibilityService" in services, services)

    catalogue = catalogue_service_pb2_grpc.CatalogueServiceStub(channel)
    report = catalogue.ImportParts(pieces(catalogue_file), timeout=60)
    check("the demo catalogue is imported", report.published and report.report.rows_bad == 0, report.report)

    sprag = compatibility_service_pb2_grpc.CompatibilityServiceStub(channel)
    ask = compatibility_service_pb2.CheckRequest

    spacer = build_pb2.Build(parts=[fitted(sku="CS10-1127-33"), fitted(sku="WH-622-130-9M")])
    answer = sprag.Check(ask(build=spacer), timeout=10)
    check("a spacer is named", answer.verdict == finding_pb2.VERDICT_FITS_WITH_EXTRA_PARTS, answer)
    traits = [trait for extra in answer.extra_parts for trait in extra.traits]
    check("with its thickness", any(trait.value == 1000 for trait in traits), traits)
    check("and what is on the shelf", any(extra.skus_in_stock for extra in answer.extra_parts), answer.extra_parts)

    too_long = build_pb2.Build(parts=[fitted(sku="CS11-1128-R"), fitted(sku="WH-622-130-9M")])
    answer = sprag.Check(ask(build=too_long), timeout=10)
    check("a cassette too long does not fit", answer.verdict == finding_pb2.VERDICT_DOES_NOT_FIT, answer)
    check("on a published basis", answer.basis.catalogue_revision == 1 and answer.basis.catalogue_digest, answer.basis)

    try:
        sprag.Check(ask(build=build_pb2.Build(parts=[fitted(sku="CS11-1128-RR")])), timeout=10)
        check("an unknown part is refused", False)
    except grpc.RpcError as error:
        check("an unknown part is refused", error.code() == grpc.StatusCode.NOT_FOUND, error)
        status = rpc_status.from_call(error)
        request, info = error_details_pb2.BadRequest(), error_details_pb2.ErrorInfo()
        for detail in status.details:
            detail.Unpack(request) if detail.Is(request.DESCRIPTOR) else None
            detail.Unpack(info) if detail.Is(info.DESCRIPTOR) else None
        paths = [violation.field for violation in request.field_violations]
        check("with its path", paths == ["build.parts[0].sku"], paths)
        check("and the nearest spelling", info.metadata.get("nearest") == "CS11-1128-R", dict(info.metadata))

    try:
        sprag.Check(ask(build=build_pb2.Build()), timeout=10)
        check("an empty build is refused", False)
    except grpc.RpcError as error:
        check("an empty build is refused", error.code() == grpc.StatusCode.INVALID_ARGUMENT, error)

    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
