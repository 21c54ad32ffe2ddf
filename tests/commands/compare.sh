#!/bin/sh
# `tankside compare`: every difference between two assessments is listed, each with its cause.
set -eu
cd "$WORK"
changes=30
[ -z "${TANKSIDE_TEST_SHORT-}" ] || changes=3
python3 "$SOURCE/tests/compare/changes.py" "$TANKSIDE" "$SOURCE" "$WORK" $changes

# A control put in place, and a rule that another pack adds: both are causes by themselves.
dossier=$SOURCE/shared/productions/lake-stunt/dossier.xml
assess() { "$TANKSIDE" assess "$@" --no-pdf >/dev/null 2>&1 || [ $? -eq 1 ]; }
sed 's/state="planned"/state="in-place" by="A. Officer" on="2027-10-07"/' "$dossier" >controls.xml
assess "$dossier" -o plain
assess controls.xml -o controls
"$TANKSIDE" compare plain controls >said
grep -q 'planned → in place' said
mkdir site
cat >site/ledge.lua <<'LUA'
rule {
  id = "ledge.always", title = "The ledge by the ladder", each = "task", harm = "anyone: a fall",
  sources = { "common practice" },
  assess = function (t) hazard { likelihood = 2, severity = 2, because = "there is a ledge" } end,
  examples = { { "any", given = {}, expect = hazard { likelihood = 2, severity = 2 } } },
}
LUA
assess "$dossier" --pack site -o site-old
"$TANKSIDE" compare plain site-old >said
grep -q 'came  The ledge by the ladder' said
grep -q 'rule file site/ledge.lua came' said
sed -i 's/severity = 2/severity = 3/' site/ledge.lua
assess "$dossier" --pack site -o site-new
"$TANKSIDE" compare site-old site-new >said
grep -q 'rose  The ledge by the ladder' said
grep -q '2 × 2, Moderate → 2 × 3, Moderate' said
grep -q 'rule file site/ledge.lua changed' said

# Nothing is wider than a terminal.
awk 'length($0) > 80 { print FILENAME ": " $0; bad = 1 } END { exit bad }' said

# As a page: nothing from outside, and its findings are those of the text.
"$TANKSIDE" compare site-old site-new --as html -o page.html
grep -q 'The ledge by the ladder' page.html
! grep -q 'src="http' page.html || exit 1

# What cannot be compared: a message, and nothing written.
status=0
"$TANKSIDE" compare plain "$dossier" --as html -o other.html 2>err || status=$?
[ $status -eq 2 ]
[ ! -e other.html ]
grep -q 'dossier.xml:.*error: the root is <dossier>: this is no <assessment> of format 1' err
status=0
"$TANKSIDE" compare plain nowhere 2>err || status=$?
[ $status -eq 2 ]
grep -q nowhere err
status=0
"$TANKSIDE" compare plain site-old --as htm 2>err || status=$?
[ $status -eq 2 ]
grep -q 'html' err
