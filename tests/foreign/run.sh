#!/usr/bin/env bash
# Runs the foreign client in a virtual environment of its own against a service of its own.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
if ! command -v python3 >/dev/null; then
    echo "skipped: there is no python3"
    exit 0
fi
work=$(mktemp -d)
server=
finish() {
    [ -z "$server" ] || kill "$server" 2>/dev/null || true
    rm -rf "$work"
}
trap finish EXIT

python3 -m venv "$work/venv"
"$work/venv/bin/pip" install --quiet --disable-pip-version-check \
    grpcio==1.76.0 grpcio-tools==1.76.0 grpcio-health-checking==1.76.0 grpcio-reflection==1.76.0 grpcio-status==1.76.0
mkdir "$work/stubs"
"$work/venv/bin/python" -m grpc_tools.protoc -I proto --python_out="$work/stubs" --grpc_python_out="$work/stubs" \
    proto/sprag/v1/*.proto

cargo build --quiet --package sprag --package sprag-server --bins
target=$(cargo metadata --format-version 1 --no-deps | "$work/venv/bin/python" -c 'import json,sys; print(json.load(sys.stdin)["target_directory"])')
"$target/debug/spragd" --data "$work/data" init
"$target/debug/spragd" --data "$work/data" --listen 127.0.0.1:0 --log warn >"$work/out" &
server=$!
for _ in $(seq 100); do
    address=$(sed -n 's#^listening on http://##p' "$work/out")
    [ -n "$address" ] && "$target/debug/spragd" probe "http://$address" 2>/dev/null && break
    sleep 0.1
done
PYTHONPATH="$work/stubs" "$work/venv/bin/python" tests/foreign/client.py "$address" deploy/demo/catalogue.ndjson
