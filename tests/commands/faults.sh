#!/bin/sh
# Whatever fails, and whenever it is killed: a message, exit status 2, the old files or the new.
set -eu
command -v python3 >/dev/null || { echo "no python3"; exit 77; }
# Where another stands in for malloc, as sanitizers do, no request of the program can be refused.
nm -D "$TANKSIDE" | grep -q "U __libc_malloc" || { echo "not a build for this"; exit 77; }
python3 "$SOURCE/tests/faults/run.py" "$TANKSIDE" --some 1 --kills 4
