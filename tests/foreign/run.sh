#!/usr/bin/env bash
# Runs the foreign client, in a virtual environment of its own, against a service of its own.
# Usage: tests/foreign/run.sh [SPRAGD]; without a program it builds one.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
if ! command -v python3 >/dev/null; then
    echo "skipped: there is no python3"
    exit 0
fi
work=$(mktemp -d)
server=
finish() {
    if [ -n "$server" ]; then
        kill "$server" 2>/dev/null || true
        wait "$server" 2>/dev/null || true
    fi
    rm -rf "$work"
}
trap finish EXIT

python3 -m venv "$work/venv"
python=$work/venv/bin/python
"$python" -m pip install --quiet --disable-pip-version-check --requirement tests/foreign/requirements.txt
mkdir "$work/stubs"
(cd proto && "$python" -m grpc_tools.protoc --proto_path=. \
    --python_out="$work/stubs" --grpc_python_out="$work/stubs" sprag/v1/*.proto)

spragd=${1:-}
if [ -z "$spragd" ]; then
    cargo build --quiet --package sprag-server --bins
    spragd=$(cargo metadata --format-version 1 --no-deps |
        "$python" -c 'import json, sys; print(json.load(sys.stdin)["target_directory"])')/debug/spragd
fi
"$spragd" --data "$work/data" init
"$spragd" --data "$work/data" --listen 127.0.0.1:0 --log warn >"$work/out" &
server=$!
address=
for _ in $(seq 300); do
    address=$(sed -n 's|^listening on http://||p' "$work/out")
    if [ -n "$address" ] && "$spragd" probe "http://$address" 2>/dev/null; then
        break
    fi
    kill -0 "$server"
    sleep 0.1
done

"$python" tests/foreign/client.py "$address" "$work/stubs" deploy/demo/catalogue.ndjson

# It ends in order when it is told to.
kill -TERM "$server"
wait "$server"
server=
