#!/usr/bin/env bash
# Lints the .proto files with a linter from the npm registry; its settings are in proto/buf.yaml.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../../proto"
if ! command -v npm >/dev/null; then
    echo "skipped: there is no npm"
    exit 0
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

npm install --silent --no-audit --no-fund --no-save --prefix "$work" @bufbuild/buf@1.75.0
"$work/node_modules/.bin/buf" lint
echo "the API keeps to its style"
