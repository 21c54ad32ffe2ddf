#!/bin/sh
# `tankside calc`: the list, a description, a result, and what is refused.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }

"$TANKSIDE" calc >list
has list "ambient_pressure"
names=$(sed -n 's/^  \([a-z0-9_]*\)  *.*/\1/p' list)
[ "$(echo "$names" | wc -l)" -ge 20 ]

# Each is described with its formula, where it comes from, and an example that works out.
for name in $names; do
  "$TANKSIDE" calc "$name" >one 2>err || { echo "calc $name failed"; cat one err; exit 1; }
  has one "Formula: "
  has one "Source: "
  has one "Limits: "
  has one "Example: tankside calc $name "
  grep -q "^  $name = " one || { echo "calc $name: the example does not work out"; cat one; exit 1; }
done

status=0
"$TANKSIDE" calc ambient_presure 2>err || status=$?
[ $status = 2 ]
has err 'unknown function "ambient_presure"; the nearest is "ambient_pressure"'

# A wrong number of arguments, a bare number, a wrong dimension.
for wrong in "10 m" "10" "10 kg"; do
  status=0
  "$TANKSIDE" calc ambient_pressure "$wrong" "$wrong" "$wrong" "$wrong" "$wrong" "$wrong" "$wrong" 2>err || status=$?
  [ $status = 2 ]
  has err "tankside: error: "
done
