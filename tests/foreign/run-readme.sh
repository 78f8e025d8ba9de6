#!/usr/bin/env bash
# Runs what the README prints, in a folder of its own. Its service listens on the port that the README names, 50061.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
for tool in python3 node npm; do
    if ! command -v "$tool" >/dev/null; then
        echo "skipped: there is no $tool"
        exit 0
    fi
done
target=${CARGO_TARGET_DIR:-target}
case $target in /*) ;; *) target=$PWD/$target ;; esac
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
ln -s "$PWD/proto" "$work/proto"
# The README speaks of target/; programs that were built elsewhere are found as well.
PATH=$target/debug:$PATH python3 tests/foreign/readme.py "$PWD/README.md" "$work"
