#!/bin/bash
# Puts an editor that runs in a browser into .workbench/, for the test in run.mjs. Nothing is done when it is there.
# Only the editor's own server is installed: no build scripts, hence no compiler, and nothing fetched but npm packages.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

version=4.100.3
ready=.workbench/code-server/.ready-$version
if [ -f "$ready" ]; then exit 0; fi

rm -rf .workbench/code-server
mkdir -p .workbench/code-server
cd .workbench
npm pack --loglevel=error "code-server@$version" >/dev/null
tar xzf "code-server-$version.tgz" -C code-server --strip-components=1
rm "code-server-$version.tgz"

cd code-server/lib/vscode
# Not `npm ci`: the server's own lock file is out of step with its package.json, and npm ci refuses it.
npm install --ignore-scripts --omit=dev --no-audit --no-fund --loglevel=error </dev/null
ln -sfn node_modules node_modules.asar

cd - >/dev/null
touch "code-server/.ready-$version"
