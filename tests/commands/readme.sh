#!/bin/sh
# The walk-through in the README shows what the program really prints.
set -eu
cd "$SOURCE"
status=0
"$TANKSIDE" assess shared/productions/lake-stunt/dossier.xml >"$WORK/out" 2>/dev/null || status=$?
[ $status -eq 1 ]
"$TANKSIDE" assess shared/productions/lake-stunt/dossier.xml --set dusk/hal/congested=no \
  >"$WORK/set" 2>/dev/null || status=$?
[ $status -eq 1 ]
"$TANKSIDE" calc survival_time '8 degC' >"$WORK/calc"

missing=0
# Every line shown must stand in the README, indented by four spaces.
shown() {
  while IFS= read -r line; do
    [ -n "$line" ] || continue
    grep -qxF -- "    $line" README.md || { echo "not in the README: $line"; missing=1; }
  done
}
sed -n '1,18p' "$WORK/out" >"$WORK/head"
shown <"$WORK/head"
grep -E 'stops$|above the line$' "$WORK/set" >"$WORK/effect"
shown <"$WORK/effect"
shown <"$WORK/calc"
exit $missing
