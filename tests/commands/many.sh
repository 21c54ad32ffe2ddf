#!/bin/sh
# Many dossiers in one run: each into a folder of its own, failures named and not fatal, nothing done
# twice, a run that was killed goes on, two at once share the work, and the bytes are those of one alone.
set -eu
cd "$WORK"
. "$SOURCE/tests/commands/gives.sh"
counts() { # FILE PATTERN NUMBER
  n=$(grep -c -e "$2" "$1" || true)
  [ "$n" = "$3" ] || { echo "$n lines with \"$2\", not $3:"; cat "$1"; exit 1; }
}
dossier() { # FOLDER TITLE
  mkdir -p "$1"
  cat >"$1/dossier.xml" <<XML
<?xml version="1.0" encoding="UTF-8"?>
<dossier format="1" units="metric">
  <production title="$2" jurisdiction="gb-eng" revision="1" on="2027-03-01" by="us"/>
</dossier>
XML
}
for n in 1 2 3 4 5 6; do dossier "book/p$n" "Rehearsal $n"; done
dossier book/deep/er "Rehearsal below"
sed -i 's/revision="1"/revison="1"/' book/p3/dossier.xml

# A wrong one is named, with its line, and the others are done.
gives 2 assess book -o all --no-pdf --workers 2
has err 'book/p3/dossier.xml:3: error: unknown fact "revison"'
has out "p3: failed"
has out "7 dossiers: 6 to be looked at, 0 with nothing above the line, 1 failed"
counts out "above the line, [0-9]* dut" 6
[ ! -e all/p3/assessment.xml ]
[ -f all/deep/er/index.html ]
[ -z "$(find all -name '.tankside*')" ] || { find all -name '.tankside*'; exit 1; }

# The same as by itself.
gives 1 assess book/p1/dossier.xml -o alone --no-pdf
diff -r -x made-of.txt alone all/p1

# What is done is left as it is; what was wrong is done now.
sed -i 's/revison="1"/revision="1"/' book/p3/dossier.xml
find all -type f | grep -v p3 | LC_ALL=C sort | xargs ls -i >before
gives 1 assess book/ -o all --no-pdf
counts out ", as before" 6
find all -type f | grep -v p3 | LC_ALL=C sort | xargs ls -i >after
cmp before after
(cd all/p1 && sed -n 's/^\([0-9a-f]\{64\}  \)/\1/p' made-of.txt | sha256sum -c --quiet)

# A note that tells of no assessment, or that is somebody else's, is not believed.
sed -i '/  assessment\.xml$/d' all/p1/made-of.txt
[ "$(id -u)" != 0 ] || chown 65534 all/p2/made-of.txt
gives 1 assess book/ -o all --no-pdf
if [ "$(id -u)" = 0 ]; then counts out ", as before" 5; else counts out ", as before" 6; fi
grep -q '  assessment\.xml$' all/p1/made-of.txt

# Another dossier, another option, a paper that is gone: done again. Changed by hand: named.
sed -i 's/Rehearsal 2/Rehearsal again/' book/p2/dossier.xml
rm all/p4/card.html
gives 1 assess book -o all --no-pdf
counts out ", as before" 5
grep -q "Rehearsal again" all/p2/assessment.xml
[ -f all/p4/card.html ]
gives 1 assess book/p5/dossier.xml book/p6 -o book-us --no-pdf --paper letter
[ -f book-us/book/p5/index.html ]
[ -f book-us/p6/index.html ] || { find book-us; exit 1; }
gives 1 assess book -o all --no-pdf --paper letter
counts out ", as before" 0
echo "mine" >all/p1/card.html
gives 2 assess book -o all --no-pdf --paper letter
has err "all/p1/card.html: error: was not written by tankside"
counts out ", as before" 6
gives 1 assess book -o all --no-pdf --paper letter --force
counts out ", as before" 0

# The records alone; papers that were there go, and come again.
gives 1 assess book -o all --no-papers
counts out ", as before" 0
[ "$(ls all/p1 | tr '\n' ' ')" = "assessment.xml made-of.txt " ] || { ls all/p1; exit 1; }
gives 1 assess book -o all --no-papers
counts out ", as before" 7
gives 0 print all/p1/assessment.xml --sheet card
cmp out alone/card.html

# A list, from its own folder; parts of it that together are all; no two to one place.
printf '# the book\np1/dossier.xml\r\n\np2\np4/dossier.xml\n' >book/some.txt
gives 1 assess --list book/some.txt -o listed --no-papers --part 1/2
gives 1 assess --list book/some.txt -o listed --no-papers --part 2/2
has out "1 dossier:"
gives 1 assess --list book/some.txt -o listed --no-papers
counts out ", as before" 3
gives 0 review listed
has out "3 assessments"
ls listed/p1/assessment.xml listed/p4/assessment.xml >/dev/null
mkdir -p other && cp -r book/p1 other/p1
gives 2 assess book/p1 other/p1 -o same --no-pdf
has err 'other/p1/dossier.xml: error: would go to same/p1, as "book/p1/dossier.xml" does'
[ ! -e same ]
gives 2 assess book --part 3/2 -o none
has err '"3/2" is no part of many'
gives 2 assess book
has err "need a folder to go to"
gives 2 assess book -o none --set production/crew=12
has err "are for one dossier"
gives 2 assess --list nowhere.txt -o none
gives 2 assess listed -o none
has err "no dossier.xml here or below"
[ ! -e none ]

# Killed in the middle, with what it had begun: the next run does the rest.
: >first # it is looked at before the shell behind has come to open it
"$TANKSIDE" assess book -o killed --no-pdf --workers 1 >first 2>&1 &
run=$!
while [ "$(wc -l <first)" -lt 2 ] && kill -0 $run 2>/dev/null; do sleep 0.05; done
kill -9 $run 2>/dev/null || true
wait $run 2>/dev/null || true
gives 1 assess book -o killed --no-pdf
[ "$(grep -c ", as before" out)" -ge "$(wc -l <first)" ]
[ -z "$(find killed -name '.tankside*')" ] || { find killed -name '.tankside*'; exit 1; }

# Two at once: each dossier is done by one of them, and both know of all in the end.
"$TANKSIDE" assess book -o both --no-pdf --workers 1 >one 2>&1 &
run=$!
status=0
"$TANKSIDE" assess book -o both --no-pdf --workers 1 >two 2>&1 || status=$?
[ $status = 1 ] || { cat two; exit 1; }
wait $run || [ $? = 1 ]
cat one two >out
counts out "above the line, [0-9]* dut" 14
counts out ", as before" 7
diff -r killed both
