#!/bin/sh
# A dossier with twelve mistakes: all are said in one run, nothing is written.
set -eu
cd "$WORK"
dossier=$SOURCE/tests/dossiers/bad/twelve.xml
[ -f "$dossier" ] || dossier=$SOURCE/tests/dossiers/bad/twelve/dossier.xml
status=0
"$TANKSIDE" assess "$dossier" -o paper >out 2>err || status=$?
[ $status = 2 ] || { echo "exit status $status"; cat err; exit 1; }
[ ! -e paper ] || { echo "something was written"; exit 1; }
errors=$(grep -c ': error: ' err)
[ "$errors" = 12 ] || { echo "$errors messages, not 12:"; cat err; exit 1; }
# Each says where: file, line, what.
if grep ': error: ' err | grep -qvE '^[^:]+:[0-9]+: error: .+'; then cat err; exit 1; fi
# Lines ascend within each file, so that a person can work down it.
grep ': error: ' err | awk -F : '$1 == file && $2 < line { print; bad = 1 } { file = $1; line = $2 } END { exit bad }'
