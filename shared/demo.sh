#!/bin/sh
# Installs what is missing, builds tankside and assesses every example production
# in shared/productions. Where the documents are is printed at the end.
set -eu
cd "$(dirname "$0")/.."
unset CDPATH TANKSIDE_DATA

sh shared/setup.sh
build=build/demo output=build/demo-output
mkdir -p "$build"
log=$build/build.log

configure() {
  # An old folder may belong to another place or generator: then it is made anew.
  generator=""
  command -v ninja >/dev/null 2>&1 && generator="-G Ninja"
  # shellcheck disable=SC2086
  set -- cmake -C shared/cmake/release.cmake -S . -B "$build" $generator \
    -DTANKSIDE_WERROR=OFF -DTANKSIDE_TESTS=OFF
  "$@" >"$log" 2>&1 || { rm -rf "$build"; mkdir -p "$build"; "$@" >"$log" 2>&1; }
}

echo "demo: building in $build"
rm -f "$build/tankside" # what an earlier run built must not be shown if this build fails
if ! configure || ! cmake --build "$build" --parallel >>"$log" 2>&1 || [ ! -x "$build/tankside" ]; then
  tail -n 30 "$log" >&2
  echo "demo: the build failed; all of it is in $log" >&2
  exit 2
fi

# Side by side: most of the time goes into making PDF, one production a core.
echo "demo: assessing every production, documents and all"
rm -rf "$build/said" "$output"
mkdir -p "$build/said"
assess_one() {
  folder=$(dirname "$1")
  set -- assess "$1" -o "$output/$(basename "$folder")"
  [ ! -d "$folder/pack" ] || set -- "$@" --pack "$folder/pack"
  {
    echo
    echo "demo: tankside $*"
    status=0
    "$build/tankside" "$@" </dev/null || status=$?
  } >"$build/said/$(basename "$folder")" 2>&1
  # 1: assessed, and something stands above the line, which is what examples are for.
  [ $status -le 1 ] || return $status
}
running=""
for dossier in shared/productions/*/dossier.xml; do
  [ -f "$dossier" ] || continue
  assess_one "$dossier" &
  running="$running $!"
done
count=0 worst=0
for process in $running; do
  wait "$process" || worst=$?
  count=$((count + 1))
done
cat "$build/said"/*
if [ $worst -ne 0 ]; then
  echo "demo: a production was not assessed (exit status $worst)" >&2
  exit $worst
fi

# A page to open first: what each production is, the papers to begin with, and the list of all.
paper() { # FILE WORDS: a line, where the file was made
  [ ! -f "$folder$1" ] || echo "<li><a href=\"$name/$1\">$2</a></li>"
}
gallery() {
  echo '<!DOCTYPE html><html lang="en-GB"><head><meta charset="utf-8"/><title>tankside: the example productions</title>'
  echo '<meta name="viewport" content="width=device-width, initial-scale=1"/>'
  echo '<style>body{font:1rem/1.5 "DejaVu Sans",Verdana,sans-serif;max-width:50rem;margin:2rem auto;padding:0 1rem;color:#16212b}'
  echo 'h1,h2{color:#123a52;line-height:1.2}h2{border-top:2px solid #123a52;padding-top:.5rem}a{color:#0d4f78}li{padding:.15rem 0}</style></head><body><main>'
  echo '<h1>The example productions</h1>'
  echo '<p>What tankside made of four dossiers: what can hurt whom in each task, how likely and how badly, and what'
  echo 'is done about it. People, places and productions are invented. These papers compute and document; a competent'
  echo 'person decides, and local codes and licensed practice come first.</p>'
  for folder in "$output"/*/; do
    name=$(basename "$folder")
    title=$(sed -n 's/.*<h1>\([^<]*\)<\/h1>.*/\1/p' "$folder/index.html" 2>/dev/null | head -n 1)
    echo "<h2>${title:-$name}</h2><p>$(sed -n 's/^<!-- \([^.]*\.\).*/\1/p' "shared/productions/$name/dossier.xml" | head -n 1)</p><ul>"
    paper assessment.html 'The full assessment, for the officer and the insurer'
    paper assessment.pdf 'The same on paper (PDF)'
    paper set.pdf 'Everything that goes to the deck, bound (PDF): emergency plan, station card, task sheets, briefing cards, records'
    paper emergency.html 'The emergency plan'
    paper card.html 'Briefing cards for those who go in'
    paper reviewer.pdf 'The schedule for the reviewer (PDF)'
    paper index.html "All $(find "$folder" -type f | wc -l | tr -d ' ') files, and whom each is for"
    echo '</ul>'
  done
  echo '</main></body></html>'
}
gallery >"$output/index.html"

echo
echo "demo: $count productions assessed"
for folder in "$output"/*/; do echo "  $folder: $(find "$folder" -type f | wc -l | tr -d ' ') files"; done
echo "demo: open $output/index.html"
exit 0
