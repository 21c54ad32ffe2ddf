#!/bin/sh
# What the drawings are made from, worked out again from the texts of the assessment: tasks on
# the matrix, surface intervals, totals against ceilings, margins, gas over time, the time line.
set -eu
cd "$WORK"
command -v python3 >/dev/null 2>&1 || exit 77
export PYTHONDONTWRITEBYTECODE=1
for production in "$SOURCE"/shared/productions/*/; do
  name=$(basename "$production")
  status=0
  "$TANKSIDE" assess "$production/dossier.xml" --no-pdf -o "$name" >out 2>err || status=$?
  [ $status -le 1 ] || { cat err; exit 1; }
done
python3 "$SOURCE/tests/paper/charts.py" */assessment.xml >said || { cat said; exit 1; }
# Nothing above is proved by what is not there.
for kind in place gap ceiling bar curve stretch; do
  grep -q "[1-9][0-9]* $kind" said || { echo "no $kind anywhere"; cat said; exit 1; }
done
# A number that is not the one worked out is found.
sed -e '0,/<gap \(.*\) to-min="/s//<gap \1 to-min="1/' tank-serial/assessment.xml >wrong.xml
! python3 "$SOURCE/tests/paper/charts.py" wrong.xml >/dev/null || exit 1
sed -e 's/<reached step="deck" lo="[0-9]*"/<reached step="deck" lo="3"/' tank-serial/assessment.xml >wrong.xml
! python3 "$SOURCE/tests/paper/charts.py" wrong.xml >/dev/null || exit 1
