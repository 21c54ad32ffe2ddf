#!/bin/sh
# Worst and best scores against a solver: some shipped rules are written down a second time
# as constraints (tests/solver/rules.py); for facts at random z3 finds the greatest and the
# least score, whether nothing may be said, and whether a stop is possible.
set -eu
cd "$WORK"
export PYTHONDONTWRITEBYTECODE=1
# The package may belong to another Python than the first on the path.
for python in python3 /usr/bin/python3 none; do
  if "$python" -c 'import z3' 2>/dev/null; then break; fi
done
[ "$python" != none ] || { echo "python3-z3 is not installed"; exit 77; }
check() { "$python" "$SOURCE/tests/solver/check.py" "$@"; }

"$TANKSIDE" vocabulary >vocabulary.txt
check write "$SOURCE/rules/common"

for rule in *.*/; do
  cp -R "$SOURCE/shared" "$rule"
  mkdir "$rule/out"
  status=0
  TANKSIDE_DATA="$WORK/$rule" "$TANKSIDE" assess "$rule/dossier.xml" -o "$rule/out/assessment.xml" >out 2>err || status=$?
  [ $status -le 1 ] || { tail -n 20 err; exit 1; }
done
check compare
