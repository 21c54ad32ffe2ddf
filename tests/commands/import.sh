#!/bin/sh
# `tankside import`: whole or not at all, into the files that the facts stand in, and nothing in a dry run;
# `tankside workbook`: a file for each department, which comes back.
set -eu
cd "$WORK"
cp -r "$SOURCE/shared/productions/tank-serial" dossier
cp -r dossier before

. "$SOURCE/tests/commands/gives.sh"
unchanged() { diff -r before dossier; }

# The log of the second day adds itself up, that of the last does not.
person=$(sed -n 's/.*<person id="\([^"]*\)".*/\1/p' dossier/dossier.xml | head -n 1)
day=$(sed -n 's/.*<day date="\([^"]*\)".*/\1/p' dossier/day-6.xml)
summed=$(sed -n 's/.*<day date="\([^"]*\)".*/\1/p' dossier/day-2.xml)
printf 'day,person,down,up,depth (m)\r\n%s,%s,11:00,11:04,"2,1"\r\n' "$day" "$person" >records.csv
printf 'id;mass\n%s;62\nnobody here;70 kg\n' "$person" >people.csv
printf 'PK\003\004 and no more' >broken.ods

# All that is wrong in all files is said in one run, with its cell.
gives 2 import dossier/dossier.xml records.csv people.csv
for mark in 'records.csv, E2: error: "2,1" has a comma in a number' \
            'people.csv, B2: error: bare number "62" for "mass"' \
            'people.csv, A3: error: a new person needs an id of its own'; do
  grep -qF "$mark" err || { echo "no \"$mark\""; cat err; exit 1; }
done
gives 2 import dossier/dossier.xml broken.ods
grep -q 'broken.ods: error: is a damaged archive' err
gives 2 import dossier/dossier.xml missing.csv
unchanged

# A map says what the comma is.
echo '<import decimal=","><sheet name="people"><column heading="mass" fact="mass" unit="kg"/></sheet></import>' >map.xml
sed -i '$d' people.csv
gives 0 import dossier/dossier.xml records.csv people.csv --map map.xml --dry-run
grep -q "new record $day/$person 11:00: person=\"$person\", down=\"11:00\", up=\"11:04\"," out
grep -q '^1 fact changed, 1 subject added$' out
grep -q 'nothing is written' out
unchanged

# What would contradict the rest of the dossier is seen before anything is written.
mkdir summed
printf 'day,person,down,up\n%s,%s,11:00,11:04\n' "$summed" "$person" >summed/records.csv
gives 2 import dossier/dossier.xml summed/records.csv
grep -q 'would not read with this; nothing is written' err
grep -q 'day-2.xml:[0-9]*: error: the log states' err
unchanged

# What cannot all be written is not written in part: the person stands in another file than the day.
if [ "$(id -u)" != 0 ]; then
  chmod a-w dossier
  gives 2 import dossier/dossier.xml records.csv people.csv --map map.xml
  chmod u+w dossier
  unchanged
fi

# For good: each into the file in which it belongs, and but a line or two of it.
gives 0 import dossier/dossier.xml records.csv people.csv --map map.xml
grep -q '^written to dossier/dossier.xml, dossier/day-6.xml$' out
diff -r before dossier >changes || true
[ "$(grep -c '^diff' changes)" = 2 ]
[ "$(grep -c '^>' changes)" -le 4 ]
[ "$(grep -c '^<' changes)" -le 2 ]
grep -q "^> *<record person=\"$person\" down=\"11:00\" up=\"11:04\" depth=\"2.1 m\"/>" changes
gives 0 check dossier/dossier.xml
gives 0 import dossier/dossier.xml records.csv people.csv --map map.xml
grep -q '^0 facts changed, 0 subjects added$' out

# A file for each department; all of them together say what the dossier says.
gives 0 workbook dossier/dossier.xml -o to-send
[ -f to-send/diving-supervisor.ods ]
[ -f "to-send/person-$person.ods" ]
gives 0 import dossier/dossier.xml to-send/*.ods --dry-run
grep -q '^0 facts changed, 0 subjects added$' out
gives 0 workbook dossier/dossier.xml -o one.ods --sheet 'diving supervisor'
cmp one.ods to-send/diving-supervisor.ods
gives 2 workbook dossier/dossier.xml -o one.ods --sheet 'diving supervsor'
grep -q 'the nearest is "diving supervisor"' err
gives 2 workbook dossier/dossier.xml
