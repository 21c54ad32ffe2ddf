#!/bin/sh
# `tankside verify`: what does not follow from the facts is found, and named to the element.
set -eu
edits=6
[ -z "${TANKSIDE_TEST_SHORT-}" ] || edits=2
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

# The documents in the folder: what is altered, missing, of another assessment or of none. (No need to set
# every PDF: one is printed, and set again.)
cat >small.xml <<'XML'
<dossier format="1" units="metric">
  <production title="Reed" jurisdiction="gb-eng" revision="1" on="2027-05-03" by="I. Marsh"/>
  <site id="pond" indoor="no"/>
  <person id="wren" role="performer" born="1991-02-11"/>
  <day date="2027-05-11" site="pond">
    <task id="sill" title="Under the sill" start="10:00" finish="11:00"><immersion person="wren" wears="none" depth="1.5 m"/></task>
  </day>
</dossier>
XML
"$TANKSIDE" assess small.xml -o small --no-pdf >/dev/null 2>&1 || [ $? -eq 1 ]
"$TANKSIDE" print small/assessment.xml --sheet card --as pdf --paper letter -o small/card.pdf
pdfinfo small/card.pdf | grep -q "^Keywords: *assessment.xml sha256 $(sha256sum small/assessment.xml | cut -d ' ' -f 1)"
"$TANKSIDE" verify small --dossier small.xml >said 2>err
grep -q '^14 documents looked at: 0 altered' said
sed -i 's/Under the sill/Over the sill/' small/station.html
sed -i 's/assessment.xml sha256 ..../assessment.xml sha256 0000/' small/form.html
python3 - <<'PY'
pdf = bytearray(open("small/card.pdf", "rb").read())
at = pdf.index(b"stream\n") + 30
pdf[at] ^= 1
open("small/card.pdf", "wb").write(pdf)
PY
mv small/question.html small/task-gone.html
status=0
"$TANKSIDE" verify small --dossier small.xml >said 2>err || status=$?
[ $status -eq 1 ]
grep -q '5 altered, missing or of another assessment' said
grep -q 'small/station.html:[0-9]*: error: body/.*Over the sill.*, and what follows from the assessment is .*Under the sill' err
grep -q 'small/form.html: error: made from another assessment: it names 0000' err
grep -q 'small/card.pdf: error: page 1 is not what is set from this assessment' err
grep -q 'small/question.html: error: is missing' err
grep -q 'small/task-gone.html: error: belongs to no task' err

# What cannot be tried says why.
status=0
mkdir empty
"$TANKSIDE" verify milder.xml --dossier empty/dossier.xml 2>err || status=$?
[ $status -eq 2 ]
grep -q 'empty/dossier.xml' err
status=0
cp milder.xml empty/
rm dossier.xml
"$TANKSIDE" verify empty/milder.xml 2>err || status=$?
[ $status -eq 2 ]
grep -q 'give it: --dossier FILE' err
