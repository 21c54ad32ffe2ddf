#!/bin/sh
# The full assessment as PDF, on both papers: numbered pages, the contents' page
# numbers right, no complaint, the same bytes twice; a long one stays readable in length.
set -eu
cd "$WORK"
command -v weasyprint >/dev/null 2>&1 || exit 77
command -v pdfinfo >/dev/null 2>&1 || exit 77
command -v pdftotext >/dev/null 2>&1 || exit 77
sample=$SOURCE/tests/assessments/sample.xml

for paper in a4 letter; do
  "$TANKSIDE" print "$sample" --as pdf --paper $paper -o $paper.pdf 2>err
  if [ -s err ]; then cat err; exit 1; fi
  pages=$(pdfinfo $paper.pdf | sed -n 's/^Pages: *//p')
  [ "$pages" -ge 5 ] && [ "$pages" -le 25 ]
  pdftotext -layout $paper.pdf - | tr "\f" "\n" >$paper.txt
  [ "$(grep -c "page [0-9]* of $pages\$" $paper.txt)" = "$pages" ]
  # The status and the revision stand on every page.
  [ "$(grep -c "^ *Not complete .*1 rule failed" $paper.txt)" -ge "$pages" ]
  [ "$(grep -c "LW-07 · Revision 3" $paper.txt)" = "$pages" ]
done
pdfinfo a4.pdf | grep -q "Page size: .*(A4)"
pdfinfo letter.pdf | grep -q "Page size: .*(letter)"
pdfinfo a4.pdf | grep -q "^Tagged: *yes"
pdfinfo a4.pdf | grep -q "^Title: *Risk assessment of wet work"

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
