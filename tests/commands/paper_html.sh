#!/bin/sh
# Every sheet as HTML: the same bytes from anywhere, well-formed, what is refused.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; head -c 2000 "$1"; exit 1; }; }
sample=$SOURCE/tests/assessments/sample.xml

"$TANKSIDE" print "$sample" >assessment.html
for task in d1t1 d1t2 d1t3 d2t1; do
  "$TANKSIDE" print "$sample" --sheet task --task $task >task-$task.html
done
for page in *.html; do
  [ "$(head -n 1 "$page")" = "<!DOCTYPE html>" ]
  has "$page" "</html>"
  has "$page" "LW-07"
  [ "$(grep -ci "<script" "$page")" -le "$(grep -c "<template id=.aids" "$page")" ]
done
has task-d1t3.html "The keeper goes under with the lamp"

# The templates may lie in a folder with an awkward name, and the assessment anywhere.
mkdir -p "data of %41 & more" elsewhere
for part in "${TANKSIDE_DATA:-$SOURCE}"/templates; do cp -R "$part" "data of %41 & more/"; done
cp "$sample" elsewhere/copy.xml
TANKSIDE_DATA="$WORK/data of %41 & more" LC_ALL=C TZ=Asia/Tokyo \
  "$TANKSIDE" print elsewhere/copy.xml >awkward.html
cmp assessment.html awkward.html

# HTML 5 names are unknown to this parser; anything else it says is an error of ours.
if command -v xmllint >/dev/null 2>&1; then
  for page in assessment.html task-*.html; do
    xmllint --html --noout "$page" 2>said || true
    if grep "error : " said | grep -v "error : Tag [a-z]* invalid"; then exit 1; fi
  done
fi

# Refused: nothing goes out.
status=0
"$TANKSIDE" print "$SOURCE/templates/palette.xml" >none.out 2>err || status=$?
[ $status = 2 ]
[ ! -s none.out ]
has err "this is no <assessment> of format 1"
status=0
"$TANKSIDE" print "$sample" --sheet task --task d7t7 >none.out 2>err || status=$?
[ $status = 2 ]
[ ! -s none.out ]
has err 'no task "d7t7"; there are: d1t1, d1t2, d1t3, d2t1'
