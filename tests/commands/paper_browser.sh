#!/bin/sh
# Every paper in a browser, at the width of a phone, a laptop, A4 and US Letter: nothing overflows, no
# table is cut off, nothing is said on the console, nothing fetched, axe-core finds nothing. So are those of the
# example production with the longest names, in English and in the language with the longest words. The aids
# for reading show what they say, and a page without its script is whole.
set -eu
cd "$WORK"
for program in chromium python3; do
  command -v $program >/dev/null 2>&1 || { echo "skipped: $program is not installed"; exit 77; }
done
export PYTHONDONTWRITEBYTECODE=1

# axe-core is no Debian package: it comes by the client of its registry, once, into the build folder.
axe=${TANKSIDE_AXE:-}
kept=$SOURCE/build/axe
if [ -z "$axe" ] && command -v npm >/dev/null 2>&1; then
  axe=$kept/node_modules/axe-core/axe.min.js
  [ -f "$axe" ] || timeout 60 npm install --silent --no-audit --no-fund --ignore-scripts --prefix "$kept" axe-core@4 >npm.said 2>&1 || true
fi
[ -n "$axe" ] && [ -f "$axe" ] || { echo "skipped: axe-core is not there (npm install axe-core, or TANKSIDE_AXE=its axe.min.js)"; exit 77; }

sample=$SOURCE/tests/assessments/sample.xml
for sheet in assessment emergency station card record question form set reviewer; do
  "$TANKSIDE" print "$sample" --sheet $sheet >$sheet.html
done
for task in d1t2 d1t3; do "$TANKSIDE" print "$sample" --sheet task --task $task >task-$task.html; done
look() { python3 "$SOURCE/tests/paper/check_pages.py" chromium "$axe" "$@"; }

# Bound, the papers for the water are one page, with whatever else a run writes beside them.
status=0
"$TANKSIDE" assess "$SOURCE/shared/productions/stage-pool/dossier.xml" --no-pdf -o demo >said 2>&1 || status=$?
[ $status -le 1 ] || { cat said; exit 1; }
for name in set index task-w3-1; do cp demo/$name.html demo-$name.html; done
"$TANKSIDE" print demo/assessment.xml --sheet set --language de >demo-set-de.html
look ./*.html >said 2>&1 || { cat said; exit 1; }

# What the look finds, it finds: a wide thing, a cut table, a message, a picture from elsewhere, a
# picture without words.
broken() { # SED-SCRIPT WHAT-IS-SAID
  sed "$1" task-d1t2.html >broken.html
  ! look broken.html >said 2>&1 || { echo "nothing said of: $1"; exit 1; }
  grep -q -e "$2" said || { echo "no \"$2\" of: $1"; cat said; exit 1; }
}
broken 's|<main |<div style="width:2000px">x</div><main |' "the page is 20.. px wide"
broken 's|<h1|<img alt="" src="missing.png"/><h1|' "it asks for .*missing.png"
broken 's|<h1|<img src="data:,"/><h1|' "image-alt"

python3 "$SOURCE/tests/paper/check_aids.py" chromium assessment.html >said 2>&1 || { cat said; exit 1; }
# A script that is not ours does not run, and the browser says so.
sed 's|<h1|<script>document.title = "run"</script><h1|' assessment.html >broken.html
! look broken.html >said 2>&1 || exit 1
grep -q "the console says: .*Content Security Policy" said || { cat said; exit 1; }
