#!/bin/sh
# The published tables in shared/tables: each is well formed and compiled in, and
# `tankside calc` gives what stands in them, and between their rows the more cautious row.
set -eu
cd "$WORK"
tables=$SOURCE/shared/tables
fail() { echo "$*"; exit 1; }

# ---- form ----------------------------------------------------------------------
# Four lines that say what it is, notes, a header; then numbers, a cell a column, the
# first column ascending.
cat >form.awk <<'AWK'
function wrong(what) { print FILENAME ":" FNR ": " what; bad = 1 }
BEGIN {
  FS = ","
  said[1] = "^# title: [^ ]"
  said[2] = "^# source: [^,]+, [^,]+, [^ ]" # document, year, section
  said[3] = "^# figures: (read|from memory)(; [^ ].* transcribed)?$"
  said[4] = "^# units: [^ ]"
}
/\r/ { wrong("ends of lines") }
FNR <= 4 { if ($0 !~ said[FNR]) wrong("expected " said[FNR]); next }
/^#/ { if (columns || $0 !~ /^# note: [^ ]/) wrong("expected a note"); next }
!columns {
  columns = NF
  for (i = 1; i <= NF; i++) if ($i !~ /^[A-Za-z][A-Za-z0-9_]*$/ || seen[$i]++) wrong("column " i)
  next
}
{
  if (NF != columns) wrong(NF " cells in " columns " columns")
  for (i = 1; i <= NF; i++)
    if ($i !~ /^(-?(0|[1-9][0-9]*)(\.[0-9]+)?|inf|)$/) wrong("not a number: " $i)
  if ($1 == "" || ended || (rows && $1 != "inf" && $1 + 0 <= last + 0)) wrong("not ascending")
  ended = $1 == "inf"
  last = $1
  rows++
}
END { if (rows < 2) wrong("no rows"); exit bad }
AWK
count=0
for table in "$tables"/*.csv; do
  name=$(basename "$table" .csv)
  awk -f form.awk "$table" || fail "$name.csv is not well formed"
  grep -rqF "\"science/tables/$name.inc\"" "$SOURCE/engine" || fail "nothing reads $name.csv"
  count=$((count + 1))
done
[ $count -ge 10 ] || fail "only $count tables"

# The check itself: rows the wrong way round, a cell too few, no source.
sed '7{h;d};8{G}' "$tables/scald_time.csv" >turned.csv
sed '8s/,.*//' "$tables/scald_time.csv" >short.csv
sed '2s/:.*/:/' "$tables/scald_time.csv" >unsourced.csv
for broken in turned short unsourced; do
  if awk -f form.awk $broken.csv >/dev/null; then fail "$broken.csv passed"; fi
done

# ---- values --------------------------------------------------------------------
rows() { grep -v '^#' "$tables/$1.csv" | sed 1d; }

# said FUNCTION ARGUMENT...: its result as a bare number; a time in minutes.
said() {
  "$TANKSIDE" calc "$@" >said.out || fail "calc $* failed"
  awk -v name="$1" '
    BEGIN { minutes["d"] = 1440; minutes["h"] = 60; minutes["min"] = 1; minutes["s"] = 1 / 60 }
    $1 != name || $2 != "=" { next }
    !($4 in minutes) { print $3; next }
    { for (i = 3; i < NF; i += 2) sum += $i * minutes[$(i + 1)]; print sum }' said.out
}

# is WANTED FUNCTION ARGUMENT...
is() {
  wanted=$1
  shift
  found=$(said "$@")
  [ "$found" = "$wanted" ] || fail "calc $*: found \"$found\", the table has $wanted"
}

rows air_no_stop | while IFS=, read -r feet limit groups; do
  is "$limit" no_stop_limit "$feet ft"
  is "$limit" no_stop_limit "$((feet - 1)) ft"
  group=0 longest=0
  for last in $(echo "$groups" | sed 's/^,/-,/; s/^-,,/-,-,/' | tr , ' '); do
    group=$((group + 1))
    [ "$last" != - ] || continue
    is "$group" repetitive_group "$feet ft" "$last min"
    longest=$last
  done
  past=17
  [ "$limit" != 1440 ] || past=$((group + 1))
  is "$past" repetitive_group "$feet ft" "$((longest + 1)) min"
done
is 17 repetitive_group "191 ft" "1 min"
is 0 no_stop_limit "191 ft"

rows air_residual_nitrogen | while IFS=, read -r feet groups; do
  group=0
  for minutes in $(echo "$groups" | tr , ' '); do
    group=$((group + 1))
    is "$minutes" residual_nitrogen_time "$feet ft" $group
  done
done

# A group keeps or loses letters up to the last minute of its cell, and the last not a minute longer.
rows air_surface_interval | while IFS=, read -r group ends; do
  left=$group
  for last in $(echo "$ends" | tr , ' '); do
    is "$left" surface_interval_group "$group" "$last min"
    left=$((left - 1))
  done
  is 0 surface_interval_group "$group" "$((last + 1)) min"
  [ "$left" = 0 ] || fail "air_surface_interval.csv: group $group does not end"
done
rows air_altitude_interval | while IFS=, read -r group climbs; do
  feet=0
  for minutes in $(echo "$climbs" | tr , ' '); do
    feet=$((feet + 1000))
    is "$minutes" altitude_interval "$group" "$feet ft"
    [ $feet != 8000 ] || is "$minutes" flying_interval "$group"
  done
done
rows air_altitude_group | while IFS=, read -r feet group; do
  is "$group" altitude_group "$feet ft"
  is "$group" altitude_group "$((feet - 500)) ft"
done

rows oxygen_exposure | while IFS=, read -r pressure single day; do
  is "$single" oxygen_exposure_limit "$pressure atm"
  is "$day" oxygen_exposure_day "$pressure atm"
done
is 240 oxygen_exposure_limit "1.01 atm"
rows wbgt_reference | while IFS=, read -r rate acclimatised unacclimatised; do
  [ "$rate" != inf ] || rate=1000
  is "$acclimatised" wbgt_reference_acclimatised "$rate W/m2"
  is "$unacclimatised" wbgt_reference_unacclimatised "$rate W/m2"
done
is 28 wbgt_reference_acclimatised "131 W/m2"
rows scald_time | while IFS=, read -r celsius seconds; do
  is "$(awk "BEGIN { print $seconds / 60 }")" scald_time_table "$celsius degC"
done
is 2 scald_time_table "50 degC"
# Hardness of 10^0.4 mg/L and alkalinity of 1 mg/L add nothing: what is left is 10 - 12.1 + factor.
rows pool_temperature_factor | while IFS=, read -r fahrenheit factor; do
  [ "$fahrenheit" -le 113 ] || continue # no pool: hotter than the function goes
  found=$(said saturation_index_pool 10 "$fahrenheit degF" "2.51188643150958 mg/L" "1 mg/L")
  awk "BEGIN { exit !(($found + 2.1 - $factor)^2 < 1e-8) }" || fail "factor at $fahrenheit degF: $found"
done

# ---- bands and spectra: a row as it stands --------------------------------------------
rows diving_platform_depth | while IFS=, read -r height minimum preferred; do
  is "$minimum" entry_depth_minimum "$height m"
  is "$preferred" entry_depth_preferred "$height m"
done
is 3.7 entry_depth_minimum "3.01 m"
rows submersion_outcome | while IFS=, read -r minutes share; do
  [ "$minutes" != inf ] || minutes=60
  is "$share" submersion_outcome "$minutes min"
done
is 56 submersion_outcome "301 s"
rows wading_limit | while IFS=, read -r size limit; do
  [ "$size" != inf ] || size=200
  is "$limit" wading_limit "1 m" "$size kg"
done
rows pool_bather_area | while IFS=, read -r depth area; do
  [ "$depth" != inf ] || depth=4
  is 10 bather_load "$(awk "BEGIN { print 10 * $area }") m2" "$depth m"
done
rows pure_water_absorption | while IFS=, read -r wavelength absorption; do
  is "$absorption" absorption_of_pure_water "$wavelength nm"
done

# ---- what is said of them --------------------------------------------------------
described() { "$TANKSIDE" calc "$1" | tr -s ' \n' ' '; }
for function in altitude_group altitude_interval flying_interval no_stop_limit no_stop_remaining repetitive_group \
  residual_nitrogen_time surface_interval_group oxygen_exposure_day oxygen_exposure_limit \
  entry_depth_minimum entry_depth_preferred scald_time_table wbgt_reference_acclimatised wbgt_reference_unacclimatised; do
  described $function | grep -qF "between rows the more cautious row" ||
    fail "$function does not say what it does between rows"
done

# A table named in a formula is there.
"$TANKSIDE" calc --all | grep -oE '[a-z_]+[.]csv' | sort -u >named.out
[ "$(wc -l <named.out)" -ge 5 ] || fail "calc names too few tables"
while read -r name; do [ -e "$tables/$name" ] || fail "calc names $name"; done <named.out

# A formula that repeats its table repeats it as it is.
repeats() { described "$1" | grep -qE "[ :]$2[ ,]" || fail "$1 does not list \"$2\""; }
rows air_no_stop | while IFS=, read -r feet limit groups; do
  [ "$limit" = 1440 ] || repeats no_stop_limit "$feet $limit"
done
rows oxygen_exposure | while IFS=, read -r pressure single day; do
  repeats oxygen_exposure_limit "$pressure $single"
  repeats oxygen_exposure_day "$pressure $day"
done
rows wbgt_reference | while IFS=, read -r rate acclimatised unacclimatised; do
  [ "$rate" != inf ] || continue
  repeats wbgt_reference_acclimatised "to $rate $acclimatised"
  repeats wbgt_reference_unacclimatised "to $rate $unacclimatised"
done
