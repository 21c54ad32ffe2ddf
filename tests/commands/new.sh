#!/bin/sh
# `tankside new`: for every kind of wet stage a dossier that reads; bad answers asked again; nothing
# half-written, nothing written over.
set -eu
cd "$WORK"
. "$SOURCE/tests/commands/gives.sh"
answered() { gives "$@" <answers; }

# Bad answers first, each asked again with what was expected; then the good ones.
cat >answers <<'END'
tank rian
tank lake
tank rain

TROUBLE
The "Salt" <Garden> & Co
K. Adeyemi, safety officer
2027-02-30
2027-03-01
gb-egn
gb-eng

parsecs

Stage 4
Dock Road 2
no way
yes
4.2
4.2 m
28..30 degC
Mira Holt
actress
performer
1994-05-32
1994-05-02
Jo Brandt
safety-diver
1985-01-31
Lee Okoro
medic

2027-03-09
0
Mira walks to and fro
back
2027-03-09
some
0
Mira walks out of the water
10:40
09:30
rain

anybody
none
Mira walks out of the water
10:40
11:30

swim
mra
mira
2.5 m
no


END
printf 's/TROUBLE/The \377\033[2J/' >trouble.sed && LC_ALL=C sed -i -f trouble.sed answers
answered 0 new salt
has err "the answer holds bytes that are no UTF-8"
has err 'unknown kind "rian"; the nearest is "rain"'
has err '"tank" and "lake" are two places'
has err 'unknown jurisdiction "gb-egn"; the nearest is "gb-eng"'
has err 'unknown units "parsecs"'
has err 'cannot read "no way" for "indoor"'
has err 'bare number "4.2" for "depth"; expected length with its unit'
has err 'impossible choice "actress" for "role"'
has err 'cannot read "1994-05-32" for "born"'
has err 'unknown person "anybody"'
has err '"finish"'
has err 'unknown person "mra"; the nearest is "mira"'
has out "That does not go together; this part again"
has out "This has to be answered."
gives 0 check salt/dossier.xml
[ ! -s err ]
has out "0 warnings"
xmllint --noout salt/dossier.xml
value() { xmllint --xpath "string($1)" salt/dossier.xml; }
[ "$(value //production/@title)" = 'The "Salt" <Garden> & Co' ]
[ "$(value //site/@water-body)" = tank ]
[ "$(value //basin/@depth)" = "4.2 m" ]
[ "$(value //water/@temperature)" = "28..30 degC" ]
[ "$(value '//person[@id="mira"]/@born')" = 1994-05-02 ]
[ "$(value //rig/@kind)" = rain ]
[ "$(value //task/@rigs)" = rain ]
[ "$(value //task/@involves)" = rain ]
[ "$(value 'count(//task)')" = 1 ]
[ "$(value 'count(//post)')" = 2 ]
[ "$(value //post/@other-duties)" = '?' ]
[ "$(value //immersion/@person)" = mira ]
[ "$(value 'count(//immersion/@supply)')" = 0 ]
# It teaches: what a fact is, how it is found out, who knows.
tr -s ' \n' ' ' <salt/dossier.xml >flat
has flat "free-chlorine: free chlorine; quantity, 0 mg/L to 20 mg/L, in mg/L; found by: DPD photometer; ask: water technician"
[ "$(grep -c 'free-chlorine: ' salt/dossier.xml)" = 1 ]
awk '{ n = $0; gsub(/[\200-\277]/, "", n); if (length(n) > 100) { print "wide: " $0; bad = 1 } } END { exit bad }' salt/dossier.xml

# What is there is left alone, before a question is asked.
cp salt/dossier.xml before
answered 2 new salt
has err "is there already and is left alone"
cmp salt/dossier.xml before
[ ! -s out ]

# The answers end early: nothing is written, not even the folder.
head -n 39 answers >some && mv answers all && mv some answers
answered 2 new other
has err "nothing was written"
[ ! -e other ]

# Every kind, with as little said as can be, for two places in turn; and all of them together.
kinds=$(sed -n 's/.*<kind name="\([a-z-]*\)".*/\1/p' "$SOURCE/shared/stages.xml")
[ "$(echo "$kinds" | wc -w)" -ge 15 ]
bodies="tank pool stage-pool flooded-set lake river sea"
all=quarry
for kind in $kinds; do
  case " $bodies quarry " in *" $kind "*) ;; *) all="$all $kind" ;; esac
done
[ -z "${TANKSIDE_TEST_SHORT-}" ] || kinds="wind flooded-set"
place=us-ca
for kind in $kinds "$all"; do
  # Empty answers leave open what may be left open.
  [ $place = us-ca ] && place=gb-eng || place=us-ca
  python3 - "$SOURCE/shared/stages.xml" "$kind" "$place" >answers <<'PY'
import sys, xml.etree.ElementTree as tree
file, kind, place = sys.argv[1:]
root = tree.parse(file).getroot()
kinds = [k for k in root.findall("kind") if k.get("name") in kind.split()]
also = " ".join(k.get("also") or "" for k in kinds).split()
parts = [root.find("always")] + kinds
if not any(s.get("water-body") for k in kinds for s in k.findall("site")):
    parts.append(root.find("dry"))
parts += [p for p in root.findall("part") if p.get("name") in also]
def asked(element):
    """The facts asked of an element of the dossier, each once."""
    return {a.get("fact") for p in parts for e in p.findall(element) for a in e.findall("ask")}
print(kind)
print("A Title\nAn Author\n2027-03-01\n" + place + "\n\n")       # production, then units
places = [(e.tag, e.get("id"), e) for part in parts for s in part.findall("site") for e in s.iter()]
stated = {(tag, id, fact) for tag, id, e in places for fact in e.keys()}
inside = {(tag, id, a.get("fact")) for tag, id, e in places for a in e.findall("ask")} - stated
print("A Place" + "\n" * (len(inside) - 1))
for part in parts:
    for thing in part.findall("appliance") + part.findall("prop"):
        print("\n" * len(thing.findall("ask")), end="")
print("Mo Quill\nperformer\n")                                      # born stays open
print("")                                                           # no more people
print("2027-03-09\n")                                               # children stay open
print("Something wet" + "\n" * (len(asked("task")) - 1))
print("\n" * (1 + len(asked("immersion"))), end="")                 # who goes in: the usual ones
print("\n")                                                         # no more tasks, no more days
PY
  answered 0 new "$kind"
  gives 0 check "$kind/dossier.xml"
  [ ! -s err ] || { cat err; exit 1; }
  has out " facts stated, "
  grep -q "jurisdiction=\"$place\"" "$kind/dossier.xml"
done
[ "$(grep -l 'units="us"' ./*/dossier.xml | wc -l)" = "$(grep -l 'jurisdiction="us-ca"' ./*/dossier.xml | wc -l)" ]
grep -q 'involves="rain dump-tank wave ' "$all/dossier.xml"

# And an assessment runs.
if [ -z "${TANKSIDE_TEST_SHORT-}" ]; then
  gives 1 assess wind/dossier.xml -o wind.xml
  grep -q 'complete="yes"' wind.xml
fi

# At a terminal: the tabulator completes, ^C and ^D stop, and nothing is there then.
PYTHONPATH=$SOURCE/tests/commands PYTHONDONTWRITEBYTECODE=1 python3 - "$TANKSIDE" <<'PY'
import os, signal, sys
from terminal import Terminal

def at_terminal(folder, typed):
    """Types after each prompt; gives the exit status and what was said."""
    # libedit never frees the name of a command that was added
    terminal = Terminal(sys.argv[1], "new", folder, ASAN_OPTIONS="detect_leaks=0")
    for keys in typed:
        assert terminal.until(rb"> ") is not None, terminal.heard
        terminal.type(keys)
    return terminal.end()

status, said = at_terminal("stopped", [b"dump\t\r", b"A Title\r", b"\x04"])
assert status == 2 and "nothing was written" in said, (status, said)
assert "by: who drew it up" in said, said
status, said = at_terminal("stopped", [b"tank rai\t\r", b"A Title\r", b"\x03"])
assert status == -signal.SIGINT, (status, said)
assert not os.path.exists("stopped")
PY
