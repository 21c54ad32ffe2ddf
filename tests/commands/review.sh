#!/bin/sh
# `tankside review`: a register over a book of assessments, counted a second time in Python; what is
# bad, altered, lapsed or unusual in it is named.
set -eu
cd "$WORK"
assess() { # PRODUCTION NAME
  mkdir -p "book/$2"
  "$TANKSIDE" assess "$SOURCE/shared/productions/$1/dossier.xml" -o "book/$2/assessment.xml" >/dev/null 2>&1 || [ $? -eq 1 ]
}
assess title-day titles
[ -n "${TANKSIDE_TEST_SHORT-}" ] || assess lake-stunt lake

# Variants, as other people's assessments would be: a minor, a pack and a matrix of their own, another version,
# a title that a spreadsheet would run, a rule that failed; and files that are none.
variant() { # NAME SED: of the small production
  mkdir -p "book/$1"
  sed "$2" book/titles/assessment.xml >"book/$1/assessment.xml"
}
variant minor '/<person path="ada"/s/under-18="no"/under-18="yes"/'
variant formula 's/production title="[^"]*"/production title="=cmd|calc"/'
variant packs '/pack="gb"/s/sha256="./sha256="0/; /<matrix file/s/sha256="./sha256="0/'
variant version 's/tankside="[^"]*"/tankside="0.0.9"/; s|<failures/>|<failures><failure rule="air.x" text="Hal"/></failures>|; s/complete="yes"/complete="no"/'
variant apart 's|</day>|</day><aside><task path="t"/></aside>|'
mkdir -p book/broken book/dossier book/number book/entities
head -c 90000 book/titles/assessment.xml >book/broken/assessment.xml
cp "$SOURCE/shared/productions/title-day/dossier.xml" book/dossier/assessment.xml
sed 's/ stops="0"/ stops="none"/' book/titles/assessment.xml >book/number/assessment.xml
sed 's/<assessment /<!DOCTYPE a [<!ENTITY x SYSTEM "x">]><assessment /' book/titles/assessment.xml >book/entities/assessment.xml
mkfifo book/broken/pipe

# Signed: vouched for, by nobody known, altered since.
{
  openssl req -x509 -newkey rsa:2048 -nodes -keyout house.key -out house.crt -days 36500 -subj "/CN=Weir House"
  openssl req -newkey rsa:2048 -nodes -keyout marsh.key -out marsh.csr -subj "/CN=I. Marsh"
  openssl req -x509 -newkey rsa:2048 -nodes -keyout reed.key -out reed.crt -days 36500 -subj "/CN=O. Reed"
  openssl x509 -req -in marsh.csr -CA house.crt -CAkey house.key -CAcreateserial -out marsh.crt -days 36500
} >openssl.log 2>&1
sign() { # FROM NAME KEY
  mkdir -p "book/$2"
  "$TANKSIDE" sign "book/$1" --key "$3.key" --certificate "$3.crt" --on 2027-05-15 --role officer -o "book/$2/assessment.xml"
}
sign titles signed marsh >said
sign titles stranger reed >said
mkdir book/altered
sed 's/worst="\([0-9]*\)"/worst="1"/' book/signed/assessment.xml >book/altered/assessment.xml

day=2028-01-01
review() {
  status=0
  "$TANKSIDE" review "$@" --on $day --trust house.crt 2>err || status=$?
}
review book >said
[ $status -eq 1 ] # some could not be read, one is altered
for bad in broken dossier number entities apart; do
  grep -q "^book/$bad/assessment.xml:.*error: " err
  grep -q "^  book/$bad/assessment.xml:" said
done
[ "$(grep -c error err)" = 5 ]
grep -q 'number/.*: is not an assessment as tankside writes them: cannot store TEXT value in INTEGER column assessments.stops' err
grep -q 'apart/.*: is not an assessment as tankside writes them: NOT NULL constraint failed: tasks.day' err
grep -q 'entities/.*: a DOCTYPE is not allowed here' err
tr '\n' ' ' <said | sed 's/  */ /g' >line
grep -q 'Signed: CN = I. Marsh, officer, 2027-05-15: holds, vouched for' line
grep -q 'Signed: CN = O. Reed, officer, 2027-05-15: holds, not vouched for' line
grep -q 'Signed: somebody, officer, 2027-05-15: altered since it was signed' line
grep -q 'Not what was signed: 1 assessment' line
grep -q 'pack osier-lane: did not come with tankside' line
grep -q 'pack gb: not as this version has it, unlike most of the book' line
grep -q 'matrix five-by-five.xml: did not come with tankside, unlike most of the book' line
grep -q 'tankside 0.0.9: unlike most of the book' line
grep -q 'failed: air.x' line
grep -q '; incomplete' line
grep -q '6 people, 1 minor, 2 ages not known' line
awk '{ gsub(/[\200-\277]/, "") } length($0) > 80 { print; bad = 1 } END { exit bad }' said

# As a table nothing runs; as a page nothing comes from outside; as a database it is counted again.
review book --as csv -o book.csv
review book --as html -o book.html
review book --as sqlite -o book.db
python3 "$SOURCE/tests/review/book.py" book.db $day said,book.csv,book.html "$SOURCE/shared/schema/book/views.sql"
python3 - <<'PY'
import csv, glob
rows = list(csv.reader(open("book.csv", encoding="utf-8", newline="")))
assert len({len(r) for r in rows}) == 1 and len(rows) == 1 + len(glob.glob('book/*/assessment.xml')) + 1, len(rows)
assert all(cell[:1] not in ("=", "+", "-", "@") for row in rows for cell in row)
assert any("'=cmd|calc" in row for row in rows)
PY
! grep -q 'src="http\|href="http' book.html || exit 1
python3 - "$SOURCE/templates" <<'PY'
import pathlib, re, sys
folder = pathlib.Path(sys.argv[1])
sheets = "".join(p.read_text() for p in folder.glob("book*.xsl"))
made = ("reason-", "signed-", "not-shipped", "not-as-shipped", "pack", "matrix", "version")
for word in re.findall(r'<(?:word|count) id="([^"]+)"', (folder / "book-words.xml").read_text()):
    assert f"'{word}'" in sheets or word.startswith(made), word
PY

# The same bytes whatever the order, from a list, and again.
review book/titles book/nowhere --as xml -o nowhere.xml
[ $status -eq 1 ]
grep -q '^book/nowhere: error: cannot be opened' err
grep -q '<unread file="book/nowhere"' nowhere.xml
printf '# mine\n\nbook/titles\nbook/signed/assessment.xml\n' >list.txt
for as in xml sqlite csv; do
  review book/signed book/titles --as $as -o one.$as
  review list.txt --as $as -o two.$as
  cmp one.$as two.$as
done

# What is there is replaced where tankside wrote it and nobody else since.
for as in xml sqlite csv; do review list.txt --as $as -o one.$as; [ $status -eq 0 ] || exit 1; done
python3 -c 'import sqlite3; db = sqlite3.connect("one.sqlite"); db.execute("CREATE TABLE mine (x)"); db.commit()'
review list.txt --as sqlite -o one.sqlite
[ $status -eq 2 ]
grep -q 'one.sqlite: error: was not written by tankside, or was changed since' err

# Without a day only what lapses before its own work is over counts.
"$TANKSIDE" review book/titles >said
grep -q 'No day was given' said
! grep -q '^    · Lapsed: ' said || exit 1

# What cannot be asked for.
status=0
"$TANKSIDE" review book --as sqlite 2>err || status=$?
[ $status -eq 2 ]
grep -q 'needs a file to go to: -o FILE' err
status=0
mkdir book/empty
"$TANKSIDE" review book/empty 2>err || status=$?
[ $status -eq 2 ]
grep -q 'no assessment.xml here or below' err
status=0
"$TANKSIDE" review book/dossier 2>err || status=$?
[ $status -eq 2 ]
grep -q 'this is no <assessment> of format 1' err
