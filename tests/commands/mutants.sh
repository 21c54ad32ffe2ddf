#!/bin/sh
# Every figure the rules decide by is made a tenth more and a tenth less, and every comparison is
# turned round: an example must notice, but for those listed with a reason in tests/mutation/survivors.txt.
set -eu
cd "$WORK"
export PYTHONDONTWRITEBYTECODE=1
exec python3 "$SOURCE/tests/mutation/mutate.py" "${TANKSIDE%/*}/tankside-mutants" "$SOURCE/rules" "$WORK/data"
