#!/bin/sh
# assess --explain: all that is behind one finding, in lines a terminal shows whole; the same twice,
# and no credit where a stop gets none.
set -eu
cd "$WORK"
. "$SOURCE/tests/commands/gives.sh"
dossier=$SOURCE/shared/productions/lake-stunt/dossier.xml
gives 1 assess "$dossier" -o paper --no-pdf
has out "--explain F1"

# The first stop and hazard with a way down, the hazard's with margins; the first duty with one.
awk '
  function attribute(name) { return match($0, " " name "=\"[^\"]*\"") ? substr($0, RSTART + length(name) + 3, RLENGTH - length(name) - 4) : "" }
  function done() { if (id == "") return
    if (word == "duty" ? margin : way && (margin || word == "stop")) if (!(word in first)) first[word] = id }
  /<finding / { done(); id = attribute("id"); word = attribute("word"); margin = way = 0 }
  /<duty / { done(); id = attribute("id"); word = "duty"; margin = way = 0 }
  /<margin / { margin = 1 }
  /<way / { way = 1 }
  END { done(); for (word in first) print word, first[word] }' paper/assessment.xml >ids
id_of() { sed -n "s/^$1 //p" ids; }
for word in stop hazard duty; do [ -n "$(id_of $word)" ] || { echo "no $word to explain"; cat ids; exit 1; }; done

# That this counts characters and not bytes.
if printf '×××\n' | LC_ALL=C.UTF-8 grep -qE '^.{4}'; then echo "no UTF-8 locale"; exit 77; fi

explained() { # WORD: its explanation, in a file of that name
  gives 1 assess "$dossier" --explain "$(id_of "$1")"
  mv out "$1"
  [ "$(head -c "$(id_of "$1" | wc -c)" "$1")" = "$(id_of "$1") " ] || { head -n 1 "$1"; exit 1; }
  for part in "How it scores" "Why" "Rests on" "Rule and sources"; do
    grep -qE "^$part( \(.*\))?\$" "$1" || { echo "no \"$part\" in:"; cat "$1"; exit 1; }
  done
  if LC_ALL=C.UTF-8 grep -nE '^.{81,}' "$1"; then echo "longer than 80 columns: $1"; exit 1; fi
  if grep -niwE 'safe|safely' "$1"; then exit 1; fi
}
for word in stop hazard duty; do explained $word; done
for score in "as described" "in place" "planned"; do
  has stop "  $score: "
  grep -qE "^  $score: worst [1-5] × [1-5] = " hazard || { cat hazard; exit 1; }
done
has hazard "Margins, with what is in place"
has hazard "Ways below the line"
has stop "Ways below the line"
has duty "Margins, with what is in place"

# A second time the same; and the documents are written as without it.
gives 1 assess "$dossier" -o again --no-pdf --explain "$(id_of hazard)"
diff -r paper again
head -n "$(wc -l <hazard)" out | cmp - hazard

# What is not known is refused with the nearest, and nothing is written.
gives 2 assess "$dossier" --explain f1 -o none --no-pdf
has err 'unknown finding "f1"; the nearest is "F1"'
gives 2 assess "$dossier" --explain F999 -o none --no-pdf
grep -q 'unknown finding "F999"; the nearest is "F99*"' err || { cat err; exit 1; }
[ ! -s out ]
[ ! -e none ]
gives 2 assess "$dossier" --explain
has err '"--explain" lacks its FINDING'

# A control that changes no fact lowers the hazard it is named in, never the stop.
mkdir -p watched
cat >watched/watched.lua <<'LUA'
control { id = "watched-closely", title = "Watched closely", kind = "administrative",
  say = "Watch.", check = "seen", often = "each take", who = "safety officer",
  lowers = { likelihood = 1 }, source = "common practice" }

rule {
  id = "watched.crowd", title = "Many people", each = "production", harm = "crew: in each other's way",
  sources = { "common practice" },
  assess = function (p)
    if p.crew < 100 then return end
    hazard { likelihood = 4, severity = 2, because = "{p.crew} people", controls = { "watched-closely" } }
    stop { because = "{p.crew} people", controls = { "watched-closely" } }
  end,
  examples = {},
}
LUA
cat >dossier.xml <<'XML'
<dossier format="1" units="metric">
  <production title="A crowd" jurisdiction="none" revision="1" on="2027-03-01" by="A. Officer" crew="200"/>
  <control ref="watched-closely" state="in-place" by="A. Officer" on="2027-02-27"/>
</dossier>
XML
gives 1 assess dossier.xml --pack watched -o crowd --no-pdf
crowd() { sed -n "s/.*<finding id=\"\([^\"]*\)\" word=\"$1\" rule=\"watched.crowd\".*/\1/p" crowd/assessment.xml; }
gives 1 assess dossier.xml --pack watched --explain "$(crowd hazard)"
has out "in place: Watched closely"
has out "likelihood −1"
gives 1 assess dossier.xml --pack watched --explain "$(crowd stop)"
if grep -nE '(likelihood|severity) −|lower' out stop; then echo "a stop is said to be lowered"; exit 1; fi
