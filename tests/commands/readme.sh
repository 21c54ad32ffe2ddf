#!/bin/sh
# The walk-through in the README shows what the program really prints.
set -eu
. "$SOURCE/tests/commands/shown.sh"
cd "$WORK"
shown_program
ln -s "$SOURCE/shared" shared
cat >first.xml <<'XML'
<dossier format="1" units="metric">
  <production title="A first try" jurisdiction="gb-eng" revision="1" on="2027-03-01" by="A. Officer"/>
  <site id="pool" tempratur="26 degC">
    <water temperature="26"/>
  </site>
</dossier>
XML
shown_in "$SOURCE/README.md" 5
