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
rm -rf "$build/said"
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

echo
echo "demo: $count productions assessed"
for folder in "$output"/*/; do
  [ -d "$folder" ] || continue
  echo "  $folder"
  for file in "$folder"*; do [ ! -f "$file" ] || echo "    ${file##*/}"; done
done
exit 0
