#!/bin/bash
# Puts what run.mjs needs beside a browser onto a Debian 12 machine: xmllint, and the document types of DITA 1.2 with the
# catalogue by which xmllint finds them, into .workbench/dita/. Nothing is done when both are there.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
export DEBIAN_FRONTEND=noninteractive

dita=.workbench/dita
if command -v xmllint >/dev/null && [ -f "$dita/catalog.xml" ]; then exit 0; fi

apt-get update -qq
command -v xmllint >/dev/null || apt-get install -y -qq --no-install-recommends libxml2-utils >/dev/null

# Only unpacked, not installed: the document types are plain files, and what else the package wants (Java) is not needed.
rm -rf "$dita"
mkdir -p "$dita"
cd "$dita"
apt-get -qq -o APT::Sandbox::User=root download dita-ot
dpkg -x dita-ot_*.deb package
rm dita-ot_*.deb
cat >catalog.xml <<'END'
<?xml version="1.0"?>
<catalog xmlns="urn:oasis:names:tc:entity:xmlns:xml:catalog">
  <nextCatalog catalog="package/usr/share/dita-ot/catalog-dita.xml"/>
</catalog>
END
