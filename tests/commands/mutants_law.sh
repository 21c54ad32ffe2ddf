#!/bin/sh
# As mutants.sh, for the packs of law.
set -eu
cd "$WORK"
export PYTHONDONTWRITEBYTECODE=1
exec python3 "$SOURCE/tests/mutation/mutate.py" "${TANKSIDE%/*}/tankside-mutants" "$SOURCE/rules" "$WORK/data" \
  gb gb-eng gb-sct us-fed us-ca us-ny
