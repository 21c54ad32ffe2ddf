#!/bin/sh
# Papers in another language: by --language, else by the dossier; what is not translated is listed.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1"; exit 1; }; }
hasnt() { ! grep -qF -e "$2" "$1" || { echo "\"$2\" in $1"; exit 1; }; }
sample=$SOURCE/tests/assessments/sample.xml

# The fixed words, the title of a rule, a control, the language of the page.
"$TANKSIDE" print "$sample" --sheet task --task d1t1 >en.html
"$TANKSIDE" print "$sample" --sheet task --task d1t1 --language de >de.html
has en.html '<html lang="en-GB">'
has de.html '<html lang="de">'
has de.html ">Was hier schaden kann<"
hasnt de.html ">What can hurt you here<"

# A dossier says in which language it is printed; the command line goes before it. The
# assessment itself is written in English, whatever the papers are in.
sed 's/<production /<production language="fr" /' "$SOURCE/shared/productions/title-day/dossier.xml" >dossier.xml
cp -R "$SOURCE/shared/productions/title-day/osier-lane" .
status=0
"$TANKSIDE" assess dossier.xml --no-pdf -o fr >out || status=$?
[ $status -le 1 ]
has fr/assessment.html '<html lang="fr">'
has fr/assessment.html "mardi 18 mai 2027"
has fr/assessment.html "Imprimé en anglais, faute de traduction"
has fr/index.html "Évaluation complète"
has fr/register.csv '"Dommage"'
has fr/assessment.xml 'words="Tuesday 18 May 2027"'
has fr/assessment.xml 'language="fr"'
"$TANKSIDE" print fr/assessment.xml --sheet card --language es >es.html
has es.html "martes, 18 de mayo de 2027"
"$TANKSIDE" print fr/assessment.xml --sheet card >same.html
cmp same.html fr/card.html

# Decimal marks of the language, not of the machine.
"$TANKSIDE" print fr/assessment.xml --sheet card --language en-US >us.html
depth=$(sed -n 's/.*depth="\([0-9]*\.[0-9]* m\)".*/\1/p' fr/assessment.xml | head -n 1)
[ -n "$depth" ]
has us.html "$depth"
has same.html "$(echo "$depth" | tr . ,)"
LC_ALL=de_DE.UTF-8 "$TANKSIDE" print fr/assessment.xml --sheet card --language en-US >again.html
cmp us.html again.html

# What is translated nowhere is printed in English and named on the full assessment, once.
has fr/assessment.html "osier-lane"
rule=$(sed -n 's/.*<finding [^>]*rule="\(osier-lane[^"]*\)".*/\1/p' fr/assessment.xml | head -n 1)
[ -n "$rule" ]
sed -n 's/.*Imprimé en anglais[^<]*<\/span>\([^<]*\)<.*/\1/p' fr/assessment.html >listed
tr , '\n' <listed | grep -qF "$rule"

# Refused, with the nearest name; nothing is written.
for command in "print $sample" "assess dossier.xml -o no"; do
  status=0
  # shellcheck disable=SC2086
  "$TANKSIDE" $command --language en-UK >none 2>err || status=$?
  [ $status = 2 ]
  [ ! -s none ]
  [ ! -e no ]
  has err '"en-UK"'
  has err "en-GB, en-US"
done
sed 's/language="fr"/language="fra"/' dossier.xml >wrong.xml
status=0
"$TANKSIDE" check wrong.xml >none 2>err || status=$?
[ $status = 2 ]
has err "wrong.xml:7: error: no papers in language \"fra\""
