#!/bin/sh
# `tankside verify`: what does not follow from the facts is found, and named to the element.
set -eu
edits=20
[ -z "${TANKSIDE_TEST_SHORT-}" ] || edits=5
mkdir "$WORK/edits"
python3 "$SOURCE/tests/verify/edits.py" "$TANKSIDE" "$SOURCE" "$WORK/edits" $edits

# A demo production, with a value set for the run; the dossier is found beside the assessment.
cd "$WORK"
cp "$SOURCE/shared/productions/lake-stunt/dossier.xml" .
mkdir paper
"$TANKSIDE" assess dossier.xml --set fall/june/depth="7 ft" -o paper/assessment.xml >/dev/null 2>&1 || [ $? -eq 1 ]
"$TANKSIDE" verify paper >said 2>err
grep -q 'paper/assessment.xml follows from paper/../dossier.xml' said

# A score made milder: its line, what was found, what follows.
line=$(grep -n 'worst="25"' paper/assessment.xml | head -n 1 | cut -d : -f 1)
sed "${line}s/worst=\"25\"/worst=\"8\"/" paper/assessment.xml >milder.xml
status=0
"$TANKSIDE" verify milder.xml --dossier dossier.xml >said 2>err || status=$?
[ $status -eq 1 ]
grep -q "milder.xml:$line: error: findings/finding\[F[0-9]*\]/score\[described\] worst: found \"8\", and what follows from the facts is \"25\"" err
grep -q 'does not follow from dossier.xml: 1 difference$' said

# What cannot be tried says why.
status=0
mkdir empty
"$TANKSIDE" verify milder.xml --dossier empty/dossier.xml 2>err || status=$?
[ $status -eq 2 ] && grep -q 'empty/dossier.xml' err
status=0
cp milder.xml empty/
rm dossier.xml
"$TANKSIDE" verify empty/milder.xml 2>err || status=$?
[ $status -eq 2 ] && grep -q 'give it: --dossier FILE' err
