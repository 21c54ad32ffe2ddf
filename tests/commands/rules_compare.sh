#!/bin/sh
# `tankside rules compare`: what a change of rules does to a dossier, each with the rule behind it; the same
# as comparing an assessment with the old rules to one with the new.
set -eu
cd "$WORK"
cat >dossier.xml <<'XML'
<dossier format="1" units="metric">
  <production title="Reed" jurisdiction="gb-eng" revision="1" on="2027-05-03" by="I. Marsh"/>
  <site id="pond" indoor="no"/>
  <person id="wren" role="performer" born="1991-02-11"/>
  <day date="2027-05-11" site="pond">
    <task id="sill" title="Under the sill" start="10:00" finish="11:00"><immersion person="wren" wears="none" depth="1.5 m"/></task>
  </day>
</dossier>
XML
rule() { # ID LIKELIHOOD
  cat <<LUA
rule {
  id = "$1", title = "About $1", each = "task", harm = "anyone: a fall",
  sources = { "common practice" },
  assess = function (t) hazard { likelihood = $2, severity = 3, because = "it is so" } end,
  examples = { { "any", given = {}, expect = hazard { likelihood = $2, severity = 3 } } },
}
LUA
}
mkdir ledge ledge-next
{ rule ledge.rises 2; rule ledge.falls 4; rule ledge.goes 2; rule ledge.stays 3; } >ledge/a.lua
{ rule ledge.rises 4; rule ledge.falls 2; rule ledge.comes 2; rule ledge.stays 3; } >ledge-next/a.lua
echo 'raise { rule = "team.supervisor", likelihood = 1, severity = 0, because = "our supervisors are new" }' >ledge-next/b.lua

compare() {
  status=0
  "$TANKSIDE" rules compare "$@" >said 2>err || status=$?
}
compare ledge ledge-next dossier.xml
[ $status -eq 1 ]
for line in 'changed  ledge.rises' 'changed  ledge.falls' 'came     ledge.comes' 'went     ledge.goes' \
  'came     raise team.supervisor by 1, 0' '1 rule has the same text'; do
  grep -q "^  $line" said
done
for change in 'rose  About ledge.rises' 'fell  About ledge.falls' 'came  About ledge.comes' 'went  About ledge.goes'; do
  grep -q "^  $change" said
  grep -q "rule file ledge/a.lua changed (${change#* About })" said
done
grep -q 'rule file ledge/b.lua came (team.supervisor)' said
! grep -q 'About ledge.stays' said || exit 1
awk '{ gsub(/[\200-\277]/, "") } length($0) > 80 { print; bad = 1 } END { exit bad }' said

# The same findings as by hand: the new rules put in the place of the old, and two assessments compared.
assess() { "$TANKSIDE" assess dossier.xml --pack ledge -o "$1.xml" >/dev/null 2>&1 || [ $? -eq 1 ]; }
assess before
mv ledge kept && cp -r ledge-next ledge
assess after
rm -r ledge && mv kept ledge
"$TANKSIDE" compare before.xml after.xml >by-hand
changes() { sed -n '/^Findings/,/^Rules/p' "$1"; }
changes by-hand >one
changes said >two
cmp one two

# Nothing moved; a pack that came with the program, and one that this dossier does not ask.
cp -r ledge ledge-same
compare ledge ledge-same dossier.xml
[ $status -eq 0 ]
grep -q '4 rules have the same text' said
cp -r "$SOURCE/rules/us-ny" ny
compare us-ny ny dossier.xml
[ $status -eq 0 ]
grep -q 'dossier.xml: no rules of this pack are asked here' said

# A page; what cannot be compared.
compare ledge ledge-next dossier.xml --as html -o page.html
[ $status -eq 1 ]
grep -q 'About ledge.rises' page.html
compare ledge nowhere dossier.xml
[ $status -eq 2 ]
grep -q 'nowhere: error: is no folder of rules, nor a pack by name' err
compare ledge ledge-next
[ $status -eq 2 ]
grep -q 'usage: tankside rules compare OLD NEW DOSSIER' err
