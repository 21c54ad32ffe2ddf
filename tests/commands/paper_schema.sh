#!/bin/sh
# shared/schema/assessment.rng accepts the sample and refuses what is wrong; that it accepts what
# `tankside assess` writes is the business of assessment_valid.sh.
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
