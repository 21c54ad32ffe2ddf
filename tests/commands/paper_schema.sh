#!/bin/sh
# shared/schema/assessment.rng accepts the sample and what `tankside assess` writes,
# and refuses what is wrong.
set -eu
cd "$WORK"
schema=$SOURCE/shared/schema/assessment.rng
if command -v jing >/dev/null 2>&1; then
  valid() { jing "$schema" "$1"; }
elif command -v xmllint >/dev/null 2>&1; then
  valid() { xmllint --noout --relaxng "$schema" "$1" 2>&1; }
else
  exit 77
fi
valid "$SOURCE/tests/assessments/sample.xml"

for dossier in "$SOURCE"/shared/productions/*/dossier.xml; do
  name=$(basename "$(dirname "$dossier")")
  status=0
  "$TANKSIDE" assess "$dossier" -o "$name" --no-pdf >out 2>err || status=$?
  [ $status -le 1 ] || { cat err; exit 1; }
  valid "$name/assessment.xml"
done

refused() { # SED-SCRIPT
  sed "$1" "$SOURCE/tests/assessments/sample.xml" >wrong.xml
  ! cmp -s wrong.xml "$SOURCE/tests/assessments/sample.xml" || { echo "changed nothing: $1"; exit 1; }
  if valid wrong.xml >said; then echo "accepted: $1"; exit 1; fi
}
refused 's/ format="1"/ format="2"/'
refused 's/ word="stop"/ word="halt"/'
refused 's/ worst-band="high"//'
refused 's/<waivers>/<waivers><waver\/>/'
refused 's/ sees="confidential"/ sees="secret"/'
refused 's/<digest sha256="./<digest sha256="/'
