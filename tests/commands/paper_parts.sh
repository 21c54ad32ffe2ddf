#!/bin/sh
# A document too long for one PDF is set in parts: together they say what the page says, each is
# complete in itself; the index, `verify` and a later run know them. A stand-in for WeasyPrint keeps
# what it was given and writes a PDF of which only the digest matters.
set -eu
cd "$WORK"
mkdir bin given
cat >bin/weasyprint <<'SH'
#!/bin/sh
for word; do
  case $word in *.html) page=$word ;; esac
done
cp "$page" "$GIVEN/"
printf '%%PDF-1.7\n/Creator (tankside)\n%s\n%%%%EOF\n' "$(sha256sum <"$page")"
SH
chmod +x bin/weasyprint
export PATH="$WORK/bin:$PATH" GIVEN="$WORK/given"
python3 - "$SOURCE" <<'PY'
import pathlib, sys
sys.path.insert(0, sys.argv[1] + "/tests/bench")
import documents
for tasks in (5, 55):
    pathlib.Path(f"{tasks}.xml").write_text(documents.production(tasks))
PY
assess() { "$TANKSIDE" assess "$@" >said 2>err || [ $? -eq 1 ] || { cat err; exit 1; }; }

assess 55.xml -o paper
ls paper/assessment-part-*.pdf >parts
count=$(wc -l <parts)
[ "$count" -ge 2 ]
[ ! -e paper/assessment.pdf ]
[ -e paper/task-fall-0.pdf ]
[ ! -e paper/emergency-part-01.pdf ]
# shellcheck disable=SC2046
python3 "$SOURCE/tests/paper/check_parts.py" paper/assessment.html $(sed "s|paper/\(.*\)|given/\1.html|" parts)
while read -r part; do grep -q "href=\"${part#paper/}\"" paper/index.html; done <parts
! grep -q 'href="assessment.pdf"' paper/index.html || exit 1
[ "$(sed -n 's/^\([0-9]*\) files in .*/\1/p' said)" -eq "$(ls paper | wc -l)" ]

# Each part is one of the documents that verify makes again.
verify() { "$TANKSIDE" verify paper --dossier 55.xml >said 2>err || return $?; }
verify || { cat said err; exit 1; }
sed 's/^%%EOF/altered %%EOF/' paper/assessment-part-01.pdf >altered.pdf
mv altered.pdf paper/assessment-part-01.pdf
rm paper/assessment-part-02.pdf
status=0
verify || status=$?
[ "$status" -eq 1 ]
grep -q '^paper/assessment-part-01.pdf: error: object 0 is not what is set' err
grep -q '^paper/assessment-part-02.pdf: error: is missing' err

# By itself, with a word of what was done; and what a shorter revision does not have goes.
"$TANKSIDE" print paper --as pdf -o full.pdf >said
grep -q "set in $count parts, full-part-01.pdf to full-part-0$count.pdf" said
assess 5.xml -o paper
[ -e paper/assessment.pdf ]
! ls paper/*-part-* >/dev/null 2>&1 || exit 1

# The same name again: in one now, and the parts of before are gone; then in parts, and the one is. What
# somebody else wrote under such a name stays.
echo "mine" >full-part-90.pdf
echo "mine" >full-part-.pdf
"$TANKSIDE" print paper --as pdf -o full.pdf >said
[ -e full.pdf ]
[ "$(echo full-part-*)" = "full-part-.pdf full-part-90.pdf" ]
assess 55.xml -o paper
"$TANKSIDE" print paper --as pdf -o full.pdf >said
[ ! -e full.pdf ]
[ "$(ls full-part-0* | wc -l)" -eq "$count" ]
[ "$(cat full-part-90.pdf)" = mine ]
