#!/bin/sh
# `--set-file`: what-ifs from a file, its mistakes by line, and what they change against the dossier
# as it stands.
set -eu
cd "$WORK"
dossier=$SOURCE/shared/productions/lake-stunt/dossier.xml
assess() { status=0; "$TANKSIDE" assess "$dossier" "$@" >said 2>err || status=$?; }
has() { grep -qF -- "$1" "$2" || { echo "missing: $1"; cat "$2"; exit 1; }; }

# Every mistake in one run, each with file and line; nothing is assessed.
cat >bad.txt <<'TXT'
# first a comment
dusk/hal/congestd=no
dusk/hal/congested

dusk/hal/depth=4
=3 m
dusk/id=other
dusk/hal/depth=2 m
dusk/hal/depth=3 m
TXT
assess --set-file bad.txt --set nowhere=1 --set-file missing.txt -o bad.xml
[ $status -eq 2 ]
[ ! -e bad.xml ]
has 'bad.txt:2: error: cannot set "dusk/hal/congestd", which is not in the dossier; the nearest is "dusk/hal/congested"' err
has 'bad.txt:3: error: "dusk/hal/congested" is not PATH=VALUE' err
has 'bad.txt:5: error: bare number "4" for "depth"' err
has 'bad.txt:6: error: "=3 m" is not PATH=VALUE' err
has 'bad.txt:7: error: "dusk/id" cannot be set: it is structure, not a fact' err
has 'bad.txt:9: warning: "dusk/hal/depth" is set a second time; line 8 no longer counts' err
has '--set: error: cannot set "nowhere"' err
has 'missing.txt' err

# Wherever --set is.
printf '\357\273\277# what Hal says\r\n\r\n  dusk/hal/congested = no  # asked him\r\n' >cold.txt
"$TANKSIDE" check "$dossier" --set-file cold.txt >said
"$TANKSIDE" rules try air.ears "$dossier" --set-file cold.txt >said 2>err || [ $? -eq 1 ]
! "$TANKSIDE" check "$dossier" --set-file bad.txt >said 2>err || exit 1
has 'bad.txt:2: error' err

# With sanitizers what is read has been read now.
[ -z "${TANKSIDE_TEST_SHORT-}" ] || exit 0

# The same from a file as from the command line: to the byte, in what is shown and in the assessment.
assess --set dusk/hal/congested=no -o by-hand.xml
[ $status -eq 1 ]
cp said by-hand.said
assess --set-file cold.txt -o by-file.xml
[ $status -eq 1 ]
[ ! -s err ]
cmp by-hand.xml by-file.xml
cmp by-hand.said said

# What changed comes last: the fact, the stop that went, the figures; nothing wider than a terminal.
sed -n '/^What if, against/,$p' said >changed
has 'dusk/hal/congested: not known → no' changed
has 'went  STOP Ears and sinuses on the way down' changed
has 'Stops 1 → 0' changed
awk '{ gsub(/[\200-\277]/, "") } length($0) > 80 { print; bad = 1 } END { exit bad }' changed

# It is what `compare` finds in the two assessments.
"$TANKSIDE" assess "$dossier" -o plain.xml >plain.said 2>&1 || [ $? -eq 1 ]
"$TANKSIDE" compare plain.xml by-file.xml >compared
for change in rose fell went; do
  a=$(grep -c "^  $change  " changed || true) b=$(grep -c "^  $change  " compared || true)
  [ "$a" -eq "$b" ] || { echo "$change: $a here, $b compared"; exit 1; }
done

# Facts to ask about that came or went, counted a second time.
assess --set ray/flight-after='?' --set dusk/hal/congested=no -o asked.xml
"$TANKSIDE" compare plain.xml asked.xml --as xml >asked-compared.xml
python3 - <<'PY'
import xml.etree.ElementTree as ET
def unknown(name):
    return {f.get("path") for f in ET.parse(name).getroot().iter("fact")
            if f.get("path") and f.get("removes") is not None and f.get("state") == "unknown"}
old, new = unknown("plain.xml"), unknown("asked.xml")
expected = {(p, "came") for p in new - old} | {(p, "went") for p in old - new}
found = {(q.get("path"), q.get("change")) for q in ET.parse("asked-compared.xml").getroot().iter("question")}
assert found == expected and ("ray/flight-after", "came") in found, (found, expected)
assert ("dusk/hal/congested", "went") in found, found
PY

# Without a what-if nothing of the kind is said; with one that changes no score, that.
! grep -q '^What if' plain.said || exit 1
assess --set dusk/hal/congested='?' --set dusk/hal/light-headed=no
has 'no score changed' said
! grep -q 'light-headed: no → no' said || exit 1

# What is given later counts: of two files the second, and --set after all files.
echo 'dusk/hal/congested=yes' >yes.txt
assess --set-file yes.txt --set-file cold.txt -o last.xml
grep -q '"dusk/hal/congested" value="no"' last.xml
assess --set-file cold.txt --set dusk/hal/congested=yes
has 'dusk/hal/congested: not known → yes' said

# More than an assessment could once keep, and it still follows.
python3 - "$dossier" >many.txt <<'PY'
import re, sys
import xml.etree.ElementTree as ET
root = ET.parse(sys.argv[1]).getroot()
print("# every depth and time of every immersion, as it is")
for task in root.iter("task"):
    for one in task.iter("immersion"):
        for fact in ("depth", "time", "takes", "wet-time", "breath-hold", "interval", "descents",
                     "deck-wait", "ballast", "neoprene", "eyes-open-time", "effort", "dressed-wait", "entry-height"):
            if fact in one.attrib:
                print(f"{task.get('id')}/{one.get('person')}/{fact} = {one.get(fact)}")
PY
[ "$(wc -l <many.txt)" -gt 66 ]
assess --set-file many.txt -o many.xml
[ $status -eq 1 ]
"$TANKSIDE" verify many.xml --dossier "$dossier" >verified || { cat verified; exit 1; }
