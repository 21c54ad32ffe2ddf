#!/bin/sh
# A site's pack cannot lower or switch off anything that was there before it. Each way that
# somebody might try is refused with its line and nothing is written, or changes no score.
# What it may do, tightening a limit and raising a score, never lowers one either.
set -eu
cd "$WORK"
dossier=$SOURCE/shared/productions/title-day/dossier.xml
lake=$SOURCE/shared/productions/lake-stunt/dossier.xml
failed=0
fail() {
  echo "$*" >&2
  failed=1
}

# rule, subject, about, and in each view the worst and best: of what other packs say.
cat >scores.xsl <<'XSL'
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:output method="text"/>
  <xsl:template match="/">
    <xsl:for-each select="//finding[@pack != 'tricks'] | //duty[@pack != 'tricks']">
      <xsl:value-of select="concat(@rule, '|', @subject, '|', @about, '|', @word, '|', @state-in-place, '|', @waived-by, '|')"/>
      <xsl:for-each select="score">
        <xsl:value-of select="concat(@as, '|', @worst-likelihood, '|', @worst-severity, '|', @best-likelihood, '|', @best-severity, '|', @state, '|')"/>
      </xsl:for-each>
      <xsl:text>&#10;</xsl:text>
    </xsl:for-each>
  </xsl:template>
</xsl:stylesheet>
XSL

assess() { # OUTPUT DOSSIER ARGUMENT...
  output=$1
  shift
  rm -rf "$output"
  status=0
  "$TANKSIDE" assess "$@" -o "$output" --no-pdf >"$output.out" 2>"$output.err" || status=$?
}

scores() { xsltproc scores.xsl "$1/assessment.xml" | sort; }

assess base "$dossier"
[ $status -eq 1 ] || { cat base.err; exit 1; }
scores base >base.txt
[ "$(wc -l <base.txt)" -ge 50 ]

# Begins a pack of one file: its text is read from standard input.
tricks=tricks
pack() { # NAME
  tricks=${1:-tricks}
  rm -rf "$tricks"
  mkdir -p "$tricks"
  cat >"$tricks/a.lua"
}

# Writes one more file of a pack whose every file is to be refused, and what is to be said of it.
n=100
mkdir all
trick() { # MESSAGE TEXT
  n=$((n + 1))
  printf '%s\n' "$2" >all/$n.lua
  printf '%s\n' "all/$n.lua:1: error: $1" >>expected.txt
}

refused() { # WHAT MESSAGE
  assess refused "$dossier" --pack "$tricks"
  [ $status -eq 2 ] || fail "$1: exit status $status"
  [ ! -e refused ] || fail "$1: something was written"
  grep -qF -e "$2" refused.err || fail "$1: no \"$2\" in: $(cat refused.err)"
}

harmless() { # WHAT
  assess harmless "$dossier" --pack "$tricks"
  [ $status -eq 1 ] || { fail "$1: exit status $status: $(cat harmless.err)"; return; }
  scores harmless >harmless.txt
  cmp -s base.txt harmless.txt || fail "$1: $(diff base.txt harmless.txt | head -n 4)"
}

rest='title = "T", each = "site", harm = "nobody: nothing", sources = { "common practice" }, assess = function (s) end'

# ---- the same name again -----------------------------------------------------
trick 'rule "place.ways-out" is already declared in common/place-1.lua:' "rule { id = \"place.ways-out\", $rest }"
for id in 'place.ways-out ' 'Place.ways-out'; do
  trick "rule: \"$id\" cannot be an id" "rule { id = \"$id\", $rest }"
done
control() { # ID KIND LOWERS
  echo "control { id = \"$1\", title = \"T\", kind = \"$2\", say = \"S\", check = \"C\", often = \"O\", who = \"W\", lowers = { $3 } }"
}
trick 'control "more-ladders" is already declared in common/01-controls-b-place.lua:' \
  "$(control more-ladders engineering 'likelihood = 4, severity = 4')"

# ---- facts ------------------------------------------------------------------
fact() { # MESSAGE ENTITY NAME REST
  trick "fact \"$3\" of \"$2\" $1" "fact { entity = \"$2\", name = \"$3\", $4, meaning = \"m\", measured = \"h\", asked = \"w\" }"
}
there='is already in the vocabulary'
fact "$there" basin depth 'type = "quantity", unit = "m", low = "0 m", high = "1 m"'
fact "$there" immersion breathes-gas 'type = "choice", choices = "no never"'
fact "$there" production waiver-count 'type = "count", low = "0", high = "1"'
fact "$there" basin ledge-depth 'type = "quantity", unit = "m", low = "1.9 m", high = "2 m"'
read='cannot be added: rules read something else by that name'
fact "$read" immersion site 'type = "flag"'
fact "$read" task immersions 'type = "flag"'
fact "$read" appliance covers-mouth 'type = "flag"'

# ---- what rules share ---------------------------------------------------------
for name in scale rescue example q calc hazard nothing min string; do
  trick "the name \"$name\" is taken" "share(\"$name\", { reserve = function () return 1 end })"
done
for change in 'scale.reserve = function () return 1 end' \
  'local _, t = pairs(scale) t.reserve = function () return 1 end' \
  'local _, t = pairs(calc) t.survival_time = 1' 'table.insert(scale, 1)' \
  'calc.ambient_pressure = calc.air_pressure' 'string.sub = string.lower' 'string.format = 1' \
  'nothing.word = "hazard"'; do
  trick 'this table is read-only' "$change"
done
for name in hazard q scale rule; do
  trick "assignment to the global \"$name\"" "$name = 1"
done
for name in setmetatable getmetatable rawset debug load require; do
  trick "unknown name \"$name\"" "local found = $name"
done

# ---- controls -------------------------------------------------------------------
trick 'control: field "lowers" must be without severity: administrative controls and PPE never lower it' \
  "$(control tricks.notice administrative 'severity = 1')"
trick 'control: field "likelihood" must be a whole number from 0 to 4' "$(control tricks.mask ppe 'likelihood = 5')"

trick 'control: "production.waiver-count" is a figure about the dossier'"'"'s papers, and no control changes those' \
  "$(control tricks.forget elimination '' | sed 's/lowers = {  }/changes = { { fact = "production.waiver-count", becomes = "0" } }/')"

# ---- amending ---------------------------------------------------------------------
tighten() { # MESSAGE RULE LIMIT TO
  trick "tighten: $1" "tighten { rule = \"$2\", limit = \"$3\", to = \"$4\", because = \"b\" }"
}
tighten 'limit "spacing" of rule "place.ways-out" is at most 15 m, and "20 m" is not stricter' place.ways-out spacing '20 m'
tighten 'limit "spacing" of rule "place.ways-out" is at most 15 m, and "15 m" is not stricter' place.ways-out spacing '15 m'
tighten 'limit "slip" of rule "place.wet-deck" is at least 36, and "30" is not stricter' place.wet-deck slip 30
tighten 'a limit is one number, and "5..30 m" is a range' place.ways-out spacing '5..30 m'
tighten 'limit "spacing" of rule "place.ways-out" is 15 m; "9 s" is not of its kind' place.ways-out spacing '9 s'
tighten 'rule "place.ways-out" has no limit "exits"; its limits: spacing' place.ways-out exits 1
tighten 'no rule "place.way-out" is loaded; the nearest name is "place.ways-out"' place.way-out spacing '9 m'
trick 'tighten: field "because" must be a text, and present' \
  'tighten { rule = "place.ways-out", limit = "spacing", to = "9 m" }'
trick 'raise: field "likelihood" must be a whole number from 0 to 4' \
  'raise { rule = "place.ways-out", likelihood = -1, because = "b" }'
trick 'raise: it raises nothing' 'raise { rule = "place.ways-out", because = "b" }'
trick 'raise: field "because" must be a text, and present' 'raise { rule = "place.ways-out", likelihood = 1 }'

tricks=all
refused "all tricks" 'all/101.lua:1: error:'
while read -r message; do
  grep -qF -e "$message" refused.err || fail "not refused: $message"
done <expected.txt

pack <<LUA
local count = 0
share("tricks", { next = function () count = count + 1 return count end })
LUA
refused "a function that counts" 'a.lua:2: error: "count" belongs to what is around this function'

# ---- while rules run --------------------------------------------------------------
# From inside a rule it is too late as well: the rule fails and says so, all others stand.
pack <<LUA
local kept = {}
rule { id = "tricks.writes", title = "T", each = "site", harm = "nobody: nothing", sources = { "none" },
  assess = function (s) local _, t = pairs(scale) t.reserve = function () return 1 end end }
rule { id = "tricks.keeps", title = "T", each = "site", harm = "nobody: nothing", sources = { "none" },
  assess = function (s) kept.n = 1 end }
local count = {}
local counter = {}
share("tricks", counter)
counter.next = function () count[1] = 1 return 2 end
rule { id = "tricks.counts", title = "T", each = "site", harm = "nobody: nothing", sources = { "none" },
  assess = function (s) if tricks.next() > 1 then note { because = "again" } end end }
rule { id = "tricks.runs-on", title = "T", each = "site", harm = "nobody: nothing", sources = { "none" },
  assess = function (s) while true do local again = kept end end }
LUA
harmless "a rule that changes what is shared"
for rule in tricks.writes tricks.keeps tricks.counts tricks.runs-on; do
  grep -q "<failure rule=\"$rule\"" harmless/assessment.xml || fail "$rule did not fail"
done
grep -q 'NOT COMPLETE' harmless.out

# ---- names of packs and files -------------------------------------------------------
for name in common gb-eng underwriting; do
  pack "$name" <<LUA
rule { id = "tricks.x", $rest }
LUA
  refused "a folder named $name" "$name: error: the name \"$name\" belongs to the pack in"
done
pack one/osier-lane <<LUA
rule { id = "tricks.x", $rest }
LUA
refused "the name of a pack that is loaded" 'the name "osier-lane" belongs to the pack in'

pack <<LUA
rule { id = "tricks.x", $rest }
LUA
ln -s "$SOURCE/rules/common/place-1.lua" tricks/b.lua
refused "a link out of the folder" "tricks/b.lua: error: leads out of the pack's folder"
rm tricks/b.lua
for name in 00-scale.lua 00-example.lua place-1.lua; do cp tricks/a.lua tricks/$name; done
rm tricks/a.lua tricks/00-example.lua tricks/place-1.lua
harmless "a file named like a common one"
ln -s "$SOURCE/rules/common" again
tricks=again
harmless "the common rules by another name"

# ---- controls and scores ---------------------------------------------------------------
# A control that no rule names lowers nothing, even in place.
control tricks.charm engineering 'likelihood = 4, severity = 4' >charm.lua
pack <charm.lua
mkdir charmed
cp -R "$SOURCE/shared/productions/title-day/osier-lane" charmed/
sed 's|<evidence for="tank-2/water/temperature"|<control ref="tricks.charm" state="in-place" by="A" on="2027-05-14"/>\n&|' \
  "$dossier" >charmed/dossier.xml
grep -q tricks.charm charmed/dossier.xml
kept=$dossier dossier=charmed/dossier.xml
harmless "a control that no rule names"
dossier=$kept

# A rule of its own says what it likes, beside the others; a low worst is its own only.
pack <<'LUA'
rule { id = "tricks.mild", title = "Too few ways out of the water", each = "site", harm = "nobody: nothing",
  sources = { "none" }, worst = { likelihood = 1, severity = 1 },
  assess = function (s) hazard { likelihood = 1, severity = 1, because = "nothing to see" } end }
LUA
harmless "a mild rule beside a stern one"

# ---- waivers: in the dossier, with who, why and until when --------------------------------
waived() { # WHAT WAIVER
  rm -rf waived-in
  mkdir waived-in
  cp -R "$SOURCE/shared/productions/title-day/osier-lane" waived-in/
  sed "s|</dossier>|$2</dossier>|" "$dossier" >waived-in/dossier.xml
  assess waived waived-in/dossier.xml
  [ $status -eq 1 ] || fail "$1: exit status $status"
}
useless() { # WHAT WAIVER
  waived "$1" "$2"
  scores waived >waived.txt
  cmp -s base.txt waived.txt || fail "$1: it counts"
  grep -q 'rule="water.turnover".*valid="no"' waived/assessment.xml || fail "$1: it is not on the paper"
  grep -q 'warning: the waiver of rule "water.turnover"' waived.err || fail "$1: no warning"
}
w='<waiver rule="water.turnover"'
useless "nobody waives" "$w until='2027-06-01' because='b'/>"
useless "no reason" "$w by='A' until='2027-06-01'/>"
useless "no end" "$w by='A' because='b'/>"
useless "over before the work" "$w by='A' until='2027-05-17' because='b'/>"
waived "all there" "$w by='A' until='2027-05-18' because='b'/>"
grep -q 'rule="water.turnover".*waived-by="A"' waived/assessment.xml || fail "a good waiver does not count"
# What is waived keeps its score.
scores waived | sed 's/|A|/||/' >waived.txt
cmp -s base.txt waived.txt || fail "a waiver changed a score"

mkdir stopped
sed 's|</dossier>|<waiver rule="air.ears" by="A" until="2028-01-01" because="b"/></dossier>|' "$lake" >stopped/dossier.xml
assess lake "$lake"
assess stop stopped/dossier.xml
count() { sed -n 's/.*<assessment [^>]*stops="\([0-9]*\)".*/\1/p' "$1/assessment.xml"; }
[ "$(count lake)" -ge 1 ] || fail "the lake has no stop to try"
[ "$(count lake)" = "$(count stop)" ] || fail "a stop was waived"

# ---- stricter never lowers ------------------------------------------------------------------
# Every rule raised, then every limit halved or doubled: no finding goes, none scores less.
{
  "$TANKSIDE" rules list | sed -n 's/^\([a-z-]*\.[a-z.-]*\) .*/\1/p' | grep -v '^gb\|^us\|^underwriting' |
    sed 's/.*/raise { rule = "&", likelihood = 1, because = "b" }/'
  grep -h -A30 '^rule {' "$SOURCE"/rules/common/*.lua | awk '
    /^  id = "/ { split($0, part, "\""); rule = part[2] }
    /at_(most|least) = "/ {
      while (match($0, /[a-z_]+ = \{ at_(most|least) = "[^"]*" \}/)) {
        one = substr($0, RSTART, RLENGTH); $0 = substr($0, RSTART + RLENGTH)
        name = one; sub(/ = .*/, "", name)
        split(one, part, "\""); value = part[2] + 0; unit = part[2]; sub(/^[0-9.]+/, "", unit)
        value = one ~ /at_most/ ? value / 2 : value * 2
        printf "tighten { rule = \"%s\", limit = \"%s\", to = \"%s%s\", because = \"b\" }\n", rule, name, value, unit
      }
    }'
} | pack
[ "$(grep -c raise tricks/a.lua)" -ge 100 ] && [ "$(grep -c tighten tricks/a.lua)" -ge 8 ] || fail "too little to try"
assess raised "$lake" --pack tricks
[ $status -eq 1 ] || fail "all stricter: exit status $status: $(head -n 3 raised.err)"
scores lake >lake.txt
scores raised >raised.txt
awk -F '|' '
  { key = $1 "|" $2 "|" $3 "|" $4 }
  NR == FNR { for (i = 7; i < NF; i += 6) { l[key $i] = $(i + 1); s[key $i] = $(i + 2); seen[key $i] = 1 } next }
  { for (i = 7; i < NF; i += 6) { there[key $i] = 1
      if (seen[key $i] && ($(i + 1) < l[key $i] || $(i + 2) < s[key $i])) { print "lower: " $0; bad = 1 }
      if (seen[key $i] && $(i + 1) > l[key $i]) higher++ } }
  END { for (k in seen) if (!there[k]) { print "gone: " k; bad = 1 }
        if (higher < 50) { print "only " higher + 0 " scores were raised"; bad = 1 }
        exit bad }' lake.txt raised.txt || fail "stricter is milder"

exit $failed
