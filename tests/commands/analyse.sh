#!/bin/sh
# What cppcheck finds in the source: nothing. The slower tools: python3 tests/analyse.py.
set -eu
build=$(dirname "$TANKSIDE")
[ -f "$build/compile_commands.json" ] || { echo "no compile_commands.json beside the program"; exit 77; }
python3 "$SOURCE/tests/analyse.py" --quick --build "$build"
# And it does find: a leak of what ts_alloc gave, in a file like ours.
mkdir -p "$WORK/engine"
cat >"$WORK/engine/leak.c" <<'EOF'
#include "base/arena.h"
void leak(void);
void leak(void) {
  char *text = ts_alloc(8);
  text[0] = 'a';
}
EOF
! cppcheck --quiet --library="$SOURCE/tests/analyse/tankside.cfg" --error-exitcode=1 "$WORK/engine/leak.c" 2>"$WORK/said" || exit 1
grep -q memleak "$WORK/said"
