#!/usr/bin/env bash
# Runs the foreign client against a spragd of its own.
# Usage: tests/foreign/run.sh SPRAGD
# Needs python3 with venv and the Python package index; leaves nothing behind.
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
spragd=${1:?usage: run.sh SPRAGD}
work=$(mktemp -d)
server=

tidy() {
    if [ -n "$server" ]; then
        kill "$server" 2>/dev/null || true
        wait "$server" 2>/dev/null || true
    fi
    rm -rf "$work"
}
trap tidy EXIT

python3 -m venv "$work/venv"
python="$work/venv/bin/python"
"$python" -m pip install --quiet --disable-pip-version-check --requirement "$here/requirements.txt"

mkdir "$work/stubs"
(cd "$root/proto" && "$python" -m grpc_tools.protoc --proto_path=. \
    --python_out="$work/stubs" --grpc_python_out="$work/stubs" sprag/v1/*.proto)

catalogue="$root/deploy/demo/catalogue.ndjson"
if [ ! -f "$catalogue" ]; then
    catalogue="$work/parts.ndjson"
    printf '%s\n' '{"sku": "CH-9", "chain": {"chain_speed": 9}}' '{"sku": "QL-9", "quick_link": {"chain_speed": 9}}' \
        >"$catalogue"
fi

"$spragd" --data "$work/data" init
"$spragd" --data "$work/data" --listen 127.0.0.1:0 --log warn >"$work/out" &
server=$!
for _ in $(seq 300); do
    address=$(sed -n 's|^listening on http://||p' "$work/out")
    if [ -n "$address" ] && "$spragd" probe "http://$address" 2>/dev/null; then
        break
    fi
    kill -0 "$server"
    sleep 0.1
done

"$python" "$here/client.py" "$address" "$work/stubs" "$catalogue"

kill -TERM "$server"
wait "$server"
server=
