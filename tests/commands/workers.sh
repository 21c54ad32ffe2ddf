#!/bin/sh
# Any number of workers gives the same bytes; a number that is none is refused; out of memory in one
# of several threads ends the run as it does with one.
set -eu
cd "$WORK"
dossier=$SOURCE/shared/productions/tank-serial/dossier.xml
assess() { # WORKERS FILE: exit status 1, since something stands above the line
  status=0
  "$TANKSIDE" assess "$dossier" --workers "$1" -o "$2" >summary-"$1" || status=$?
  [ $status = 1 ] || { echo "$1 workers: exit status $status"; exit 1; }
}
assess 1 one.xml
for workers in 2 5; do
  assess $workers several.xml
  cmp one.xml several.xml
  cmp summary-1 summary-$workers
done

for wrong in 0 65 -1 two 1.5 ''; do
  status=0
  "$TANKSIDE" assess "$dossier" --workers="$wrong" -o none.xml >out 2>err || status=$?
  [ $status = 2 ] || { echo "--workers=$wrong: exit status $status"; exit 1; }
  grep -qF "is no number of workers; write one from 1 to 64" err || { cat err; exit 1; }
done
[ ! -e none.xml ]

# Enough to begin and not to end, or all of it after all: where a thread finds no room the others do its
# work. With sanitizers, which map more than any limit, not tried.
[ -z "${TANKSIDE_TEST_SHORT:-}" ] || exit 0
ended=0
for most in 70000 75000 80000 86000 90000; do
  status=0
  (ulimit -v $most && exec "$TANKSIDE" assess "$dossier" --workers 4 -o none.xml) >out 2>err || status=$?
  case $status in
    1) cmp one.xml none.xml; rm none.xml ;;
    2) grep -qF "out of memory" err || { cat err; exit 1; }; [ ! -e none.xml ]; ended=$((ended + 1)) ;;
    *) echo "out of memory: exit status $status"; cat err; exit 1 ;;
  esac
done
[ $ended -gt 0 ] || { echo "memory was enough each time"; exit 1; }
