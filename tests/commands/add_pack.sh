#!/bin/sh
# A site's own pack, as DEVELOPERS.md tells: a fact, a control and a rule, in minutes
# and without C; proved by its examples, then used on a dossier.
set -eu
cd "$WORK"
mkdir -p ledge-pack
cat >ledge-pack/ledge.lua <<'LUA'
fact { entity = "basin", name = "ledge-width", type = "quantity", unit = "m", low = "0 m", high = "9 m",
  meaning = "width of the ledge at the foot of the wall", measured = "tape", asked = "site manager", sees = "open" }

control { id = "ledge-grating", title = "Grating over the ledge", kind = "engineering",
  say = "Lay the grating.", check = "stand on it", often = "before each session", who = "site manager",
  changes = { { fact = "basin.ledge-width", at_least = "1 m" } }, source = "common practice" }

rule {
  id = "ledge.too-narrow",
  title = "The ledge is too narrow to stand on",
  each = "site",
  harm = "performer: slips off into deep water",
  sources = { "common practice" },
  assess = function (s)
    local likelihood = scale.reserve(s.basin.ledge_width, q"0.3 m")
    if likelihood < 3 then return end
    hazard { likelihood = likelihood, severity = 3, because = "a ledge of {basin.ledge_width}",
             controls = { "ledge-grating" } }
  end,
  examples = {
    { "wide", given = { ["basin.ledge_width"] = "1 m" }, expect = nothing },
    { "narrow", given = { ["basin.ledge_width"] = "0.2 m" }, expect = hazard { likelihood = 5, severity = 3 } },
    { "not known", given = { ["basin.ledge_width"] = "?" }, expect = hazard { likelihood = 5, severity = 3 } },
    { "grated", given = { ["basin.ledge_width"] = "0.2 m" }, with = { "ledge-grating" }, expect = nothing },
  },
}
LUA
"$TANKSIDE" rules check --pack ledge-pack >check.out 2>&1 || { cat check.out; exit 1; }
"$TANKSIDE" rules list --pack ledge-pack | grep -q '^ledge.too-narrow '

cat >dossier.xml <<'XML'
<dossier format="1" units="metric">
  <production title="One pool" jurisdiction="none" revision="1" on="2027-03-01" by="A. Officer"/>
  <site id="pool">
    <basin><fact name="ledge-width" value="0.25 m"/></basin>
  </site>
</dossier>
XML
status=0
"$TANKSIDE" assess dossier.xml --pack ledge-pack -o out --no-pdf >assess.out 2>&1 || status=$?
[ $status -eq 1 ] || { cat assess.out; exit 1; }
grep -q 'rule="ledge.too-narrow"' out/assessment.xml
grep -q 'a ledge of 0.25 m' out/assessment.xml || grep -q 'a ledge of 25 cm' out/assessment.xml

# Without the pack the fact is unknown: refused, with its line, and nothing written.
status=0
"$TANKSIDE" assess dossier.xml -o none >refused.out 2>&1 || status=$?
[ $status -eq 2 ]
[ ! -e none ]
grep -q 'dossier.xml:4: error' refused.out
