#!/bin/sh
# `tankside calc`: the list, a description, a result, what makes it wide or open, what is refused,
# and all functions for a reviewer.
set -eu
cd "$WORK"
fail() { echo "$*"; exit 1; }
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }
lacks() { if grep -qF -e "$2" "$1"; then echo "\"$2\" in $1:"; cat "$1"; exit 1; fi; }
# gives STATUS ARGUMENT...: runs calc into out and err, and checks the exit status.
gives() {
  wanted=$1
  shift
  status=0
  "$TANKSIDE" calc "$@" >out 2>err || status=$?
  [ $status = "$wanted" ] || { echo "calc $*: exit status $status, not $wanted"; cat out err; exit 1; }
}
# Columns are characters, not bytes: bytes that continue one are dropped first.
narrow() {
  LC_ALL=C tr -d '\200-\277' <"$1" | LC_ALL=C awk 'length > 80 { print; bad = 1 } END { exit bad }' ||
    fail "$1 has lines of more than 80 columns"
}
# As one line: what was folded can be looked for.
flat() { tr -s ' \n' ' ' <out >flat; }

# ---- the list --------------------------------------------------------------------
gives 0
cp out list
narrow list
names=$(sed -n 's/^  \([a-z][a-z0-9_]*\)  *.*/\1/p' list)
[ "$(echo "$names" | wc -l)" -ge 150 ] || fail "only $(echo "$names" | wc -l) functions are listed"
grep -qE '^  ambient_pressure +kPa +absolute pressure' list || fail "no unit beside ambient_pressure"
[ "$(grep -c '^[a-z]*$' list)" -ge 12 ] || fail "too few topics"

# ---- each described, and all for a reviewer ------------------------------------------
gives 0 --all
cp out all
narrow all
[ "$(grep -c '^  Formula: ' all)" = "$(echo "$names" | wc -l)" ] || fail "--all and the list differ"
has all "The $(echo "$names" | wc -l) functions"
: >described
for name in $names; do
  gives 0 "$name"
  narrow out
  cp out one
  sed '/^  Example: /q' one >>described
  grep -qx "$name" one || fail "calc $name: no heading"
  for part in "  Gives:   " "  Formula: " "  Source:  " "  Limits:  "; do has one "$part"; done
  grep -qE ' result (rises|falls|turns)$' one || fail "calc $name: no direction"
  # The example runs as printed, and its result stands below it.
  awk '/^  Example: / { on = 1 } on { print } on && !/\\$/ { exit }' one |
    sed 's/^  Example: tankside/"$TANKSIDE"/' >example.sh
  sh -eu example.sh >worked 2>err || { echo "calc $name: the example fails"; cat example.sh err; exit 1; }
  grep -q "^  $name = " worked || fail "calc $name: the example does not work out"
  lines=$(wc -l <worked)
  tail -n "$lines" one | cmp - worked || fail "calc $name shows another result than its example"
done
if grep -q "…" all; then fail "--all cuts something off"; fi
# What is said of each stands in --all, line by line.
if grep -vxF -f all described; then fail "--all lacks these lines"; fi
gives 2 --all swim_time
has err '"--all" shows every function and takes no name; found "swim_time"'
"$TANKSIDE" calc --help >help
has help "--all"

# ---- worked out: formula, numbers, result ----------------------------------------------
gives 0 swim_time "15 m" "0.75 m/s"
printf '%s\n' "  t = distance / speed" "  distance = 15 m, speed = 0.75 m/s" "  swim_time = 20 s" \
  "  Source: kinematics" | cmp - out

# Ranges give a range; the argument that makes it wide is named.
gives 0 swim_time "10..20 m" "0.5..0.6 m/s"
has out "  swim_time = 16.66..40 s"
has out "Made wide by: distance 10..20 m, more than any other"
gives 0 swim_time "19..20 m" "0.5..1 m/s"
has out "Made wide by: speed 0.5..1 m/s, more than any other"
gives 0 swim_time "10..20 m" "1 m/s"
has out "Made wide by: distance 10..20 m, alone"
gives 0 cold_shock_grade "11..12 degC"
has out "here it makes no difference"
gives 0 swim_time "10 m" "1 m/s"
lacks out "Made wide by"

# Not known is all of the valid range.
gives 0 breath_hold_in_cold_water "?"
has out "Not known: water_temperature, taken as all of its valid range, 0..35 °C"
has out "  breath_hold_in_cold_water = 15.01..47.21 s"
gives 0 swim_time "?" "?"
[ "$(grep -c "Not known: " out)" = 2 ] || fail "two are not known"

# ---- open ---------------------------------------------------------------------------------
gives 1 entry_depth_minimum "12 m"
has out "  entry_depth_minimum = 3.2..4.5 m"
flat
has flat "Open: height = 12 m lies outside 0..10 m, the range in which this holds; the result could"
gives 1 entry_depth_minimum "9..12 m"
lacks out "Made wide by"
gives 0 entry_depth_minimum "10 m"
lacks out "Open: "
gives 1 ambient_pressure "-1 m" "10 kPa" "1000 kg/m3"
[ "$(grep -c "  Open: " out)" = 2 ] || fail "each argument outside is named"

# ---- refused --------------------------------------------------------------------------------
gives 2 ambient_presure
has err 'unknown function "ambient_presure"; the nearest is "ambient_pressure"'
gives 2 qqqqqqqqqqqq
has err 'unknown function "qqqqqqqqqqqq"; `tankside calc` lists them'
gives 2 swim_time "15 m"
has err "swim_time takes 2 arguments, found 1; expected distance (m), speed (m/s)"
gives 2 swim_time "15 m" "1 m/s" "1 m/s"
has err "swim_time takes 2 arguments, found 3; expected distance (m), speed (m/s)"
gives 2 swim_time 1 2 3 4 5 6 7 8 9 10 11 12
has err "swim_time takes 2 arguments, found 12"
gives 2 swim_time "15 kg" "1 m/s"
has err 'distance "15 kg": found mass, expected length, for example in m'
gives 2 swim_time "15" "1 m/s"
has err 'distance "15": found plain number, expected length, for example in m'
gives 2 swim_time "15 mtr" "1 m/s"
has err 'distance "15 mtr": '
gives 2 swim_time "15 kg" "1 s" # every wrong argument is reported
[ "$(grep -c "tankside: error: " err)" = 2 ] || fail "two arguments are wrong"
gives 2 swim_time "20..15 m" "1 m/s"
[ ! -s out ] || fail "something was printed before the error"
