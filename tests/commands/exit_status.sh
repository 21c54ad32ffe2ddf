#!/bin/sh
# Exit status 0, 1 and 2, and what is written with each.
set -eu
cd "$WORK"
. "$SOURCE/tests/commands/gives.sh"

# A jurisdiction of its own, so that only the common rules and this one are asked.
dossier() {
  cat <<XML
<?xml version="1.0" encoding="UTF-8"?>
<dossier format="1" units="metric">
  <production title="Rehearsal" jurisdiction="$1" revision="1" on="2027-03-01" by="us"/>
</dossier>
XML
}
dossier gb-eng >plain.xml
dossier xx-none >nowhere.xml

# Nothing is stated: somebody has to look.
gives 1 assess plain.xml -o paper --no-pdf
[ -f paper/assessment.xml ]
[ -f paper/assessment.html ]
has out "files in paper"
grep -q 'complete="yes"' paper/assessment.xml

# No pack for the place: assessed, but not complete.
gives 1 assess nowhere.xml -o nowhere --no-pdf
has err 'warning: no rules for jurisdiction "xx-none" were found'
grep -q 'complete="no"' nowhere/assessment.xml
has out "NOT COMPLETE"

# Not assessed: nothing is written.
sed 's/revision="1"/revison="1"/' plain.xml >wrong.xml
gives 2 assess wrong.xml -o none
[ ! -e none ]
has err "wrong.xml:3: error: "
gives 2 assess missing.xml -o none
[ ! -e none ]
gives 2 assess plain.xml --set nothing -o none
has err '"nothing" is not PATH=VALUE'
[ ! -e none ]
gives 2 assess plain.xml --set production/crw=5 -o none
has err "crew"
[ ! -e none ]
gives 2 assess plain.xml --matrix six-by-six -o none
[ ! -e none ]
gives 2 assess plain.xml --pack no-such-pack -o none
[ ! -e none ]

# A pack that fails on its one subject makes the assessment incomplete, not unfinished.
mkdir -p fails
cat >fails/fails.lua <<'LUA'
rule {
  id = "fails.always", title = "Always fails", each = "production", harm = "nobody: nothing",
  sources = { "common practice" },
  assess = function (p) error("on purpose") end,
  examples = {},
}
LUA
gives 1 assess plain.xml --pack fails -o failed --no-pdf
grep -q '<failure rule="fails.always"' failed/assessment.xml
grep -q 'complete="no"' failed/assessment.xml

# A setting is part of the record.
gives 1 assess plain.xml --set production/crew=12 -o set --no-pdf
grep -q '<set path="production/crew" value="12"/>' set/assessment.xml

# The other matrix.
gives 1 assess plain.xml --matrix mil-std-882e -o mil --no-pdf
grep -q '<matrix id="mil-std-882e"' mil/assessment.xml
gives 1 assess plain.xml --matrix "$SOURCE/shared/matrices/mil-std-882e.xml"

# Printing from what was written gives what was written.
gives 0 print paper/assessment.xml --sheet assessment
cmp out paper/assessment.html
gives 0 print paper/assessment.xml -o again.html
cmp again.html paper/assessment.html

# A control that no pack has: refused by both, at its line.
mkdir -p sub
sed 's|</dossier>|  <site id="tank"><control ref="secnd-air-source" state="planned"/></site>\n</dossier>|' plain.xml >sub/control.xml
for command in assess check; do
  gives 2 $command sub/control.xml
  has err 'sub/control.xml:4: error: unknown control "secnd-air-source"; the nearest name is "second-air-source"'
done

# A check alone.
gives 0 check plain.xml
has out "facts stated"
gives 2 check wrong.xml
