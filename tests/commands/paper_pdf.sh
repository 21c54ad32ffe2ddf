#!/bin/sh
# The full assessment as PDF, on both papers: numbered pages, the contents' page
# numbers right, no complaint, the same bytes twice; a long one stays readable in length.
# Every paper: sound, tagged, in its language, with bookmarks, each drawing with its words.
set -eu
cd "$WORK"
command -v weasyprint >/dev/null 2>&1 || exit 77
command -v pdfinfo >/dev/null 2>&1 || exit 77
command -v pdftotext >/dev/null 2>&1 || exit 77
command -v qpdf >/dev/null 2>&1 || exit 77
check() { python3 "$SOURCE/tests/paper/check_pdf.py" "$@"; }
sample=$SOURCE/tests/assessments/sample.xml

for paper in a4 letter; do
  "$TANKSIDE" print "$sample" --as pdf --paper $paper -o $paper.pdf 2>err
  if [ -s err ]; then cat err; exit 1; fi
  pages=$(pdfinfo $paper.pdf | sed -n 's/^Pages: *//p')
  [ "$pages" -ge 5 ]
  [ "$pages" -le 25 ]
  pdftotext -layout $paper.pdf - | tr "\f" "\n" >$paper.txt
  [ "$(grep -c "page [0-9]* of $pages\$" $paper.txt)" = "$pages" ]
  # The status and the revision stand on every page.
  [ "$(grep -c "^ *Not complete .*1 rule failed" $paper.txt)" -ge "$pages" ]
  [ "$(grep -c "LW-07 · Revision 3" $paper.txt)" = "$pages" ]
done
pdfinfo a4.pdf | grep -q "Page size: .*(A4)"
pdfinfo letter.pdf | grep -q "Page size: .*(letter)"
pdfinfo a4.pdf | grep -q "^Tagged: *yes"
for paper in a4 letter; do
  qpdf --check $paper.pdf >said 2>&1 || { cat said; exit 1; }
  check "$sample" $paper.pdf.html $paper.pdf
done
# What the check looks for, it finds: a drawing that is not on the page.
sed 's|aria-label="Now |aria-label="Then |' a4.pdf.html >other.html
! check other.html a4.pdf >said 2>&1 || exit 1
grep -q "lacks the words of its .* drawings" said

# Where the contents say that the duties begin, they begin.
at=$(sed -n 's/^.*Duties[ .]* \([0-9][0-9]*\) .*/\1/p' a4.txt | head -n 1)
pdftotext -f "$at" -l "$at" a4.pdf - | grep -q "Diving project plan\|diving project plan"

cp a4.pdf first.pdf
"$TANKSIDE" print "$sample" --as pdf -o a4.pdf
cmp first.pdf a4.pdf

# Task sheets of the sample fit a page each.
for task in d1t1 d1t2 d1t3 d2t1; do
  "$TANKSIDE" print "$sample" --sheet task --task $task --as pdf -o $task.pdf 2>err
  if [ -s err ]; then cat err; exit 1; fi
  pdfinfo $task.pdf | grep -q "^Pages: *1\$"
done

for sheet in emergency card set reviewer; do
  "$TANKSIDE" print "$sample" --sheet $sheet --as pdf -o $sheet.pdf 2>err
  if [ -s err ]; then cat err; exit 1; fi
  check $sheet.pdf.html $sheet.pdf
done
check d1t3.pdf.html d1t3.pdf
