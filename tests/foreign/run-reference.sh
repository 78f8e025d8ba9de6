#!/usr/bin/env bash
# Compares the engine's chain loop, hills and inertia with a general-purpose numeric library over 1 000 cases.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
if ! command -v python3 >/dev/null; then
    echo "skipped: there is no python3"
    exit 0
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

python3 -m venv "$work/venv"
"$work/venv/bin/pip" install --quiet --disable-pip-version-check scipy==1.16.3
cargo test --quiet --package sprag-tests --test it reference_cases -- --ignored --nocapture >"$work/cases"
"$work/venv/bin/python" tests/foreign/reference.py <"$work/cases"
