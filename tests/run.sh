#!/bin/sh
# Runs every test of the project: sh tests/run.sh [--quick]
#
# Builds twice (gcc release, clang with sanitizers), runs the unit and published
# suites in both and under valgrind, the command tests, `tankside rules check`, a short
# run of the fuzz targets and the source check. --quick: one build, no sanitizers, no valgrind. A table of counts
# comes at the end; its last line reads `N passed, N failed`. Exit 1 if any failed.
#
# A command test is an executable tests/commands/*.sh. It gets TANKSIDE (the program),
# SOURCE (the project folder) and WORK (an empty folder of its own); 0 is passed, 77
# skipped, anything else failed. Its output is shown only when it failed.
set -eu
cd "$(dirname "$0")/.."
unset CDPATH TANKSIDE_DATA CK_RUN_SUITE CK_RUN_CASE
export SOURCE="$PWD"
export CK_TIMEOUT_MULTIPLIER=10 # a busy machine is slow, not wrong
quick=no
case ${1-} in
  "") ;;
  --quick) quick=yes ;;
  *) echo "usage: sh tests/run.sh [--quick]" >&2; exit 2 ;;
esac

jobs=$(nproc 2>/dev/null || echo 2)
results=$SOURCE/build/test-results
rm -rf "$results"
mkdir -p "$results"
export results
table=$results/table
: >"$table"

# note KIND PASSED FAILED SKIPPED: one row of the table.
note() { printf '%s\t%s\t%s\t%s\n' "$1" "$2" "$3" "$4" >>"$table"; }

# step NAME COMMAND...: runs it, its output to a log that is shown when it failed.
step() {
  name=$1
  shift
  log=$results/$(echo "$name" | tr -c 'a-z0-9\n' -).log
  if "$@" >"$log" 2>&1 </dev/null; then return 0; else status=$?; fi
  echo "--- failed: $name (exit status $status)"
  tail -n 60 "$log"
  return 1
}

# one KIND NAME COMMAND...: a step that counts as one test.
one() {
  kind=$1
  shift
  if step "$@"; then note "$kind" 1 0 0; else note "$kind" 0 1 0; fi
}

# build FOLDER CACHE-SCRIPT COMPILER
build() {
  generator=""
  command -v ninja >/dev/null 2>&1 && generator="-G Ninja"
  # shellcheck disable=SC2086
  set -- "$1" cmake -C "shared/cmake/$2.cmake" -S . -B "$1" $generator "-DCMAKE_C_COMPILER=$3"
  folder=$1
  shift
  # What an earlier run built must not be tested if this build fails.
  rm -f "$folder/tankside" "$folder/tankside-tests"
  # An old folder may belong to another place or generator: then it is made anew.
  "$@" || { rm -rf "$folder"; "$@"; }
  cmake --build "$folder" --parallel "$jobs"
}

# The suites of a kind, those that take longest first, so that two run to the end side by side.
slow="deletion quantity_write soundness ways questions soundness_shipped margins tightness_random science rule document pdf differences jurisdictions"
suites_of() {
  "$1" --list | sed -n "s/^$2 //p" >"$results/suites"
  for suite in $slow; do grep -x -- "$suite" "$results/suites" || true; done
  for suite in $(cat "$results/suites"); do
    case " $slow " in *" $suite "*) ;; *) echo "$suite" ;; esac
  done
}

# In all of these a line "name status log" goes to a file for every test, and how long it took to
# another, for the list of the slowest at the end.
export took='echo "$(($(date +%s) - began)) $kind $name" >>"$results/took"'
suite_alone='
  name=$0; log=$results/$kind-$name.log; status=0; began=$(date +%s)
  "$program" "$name" >"$log" 2>&1 </dev/null || status=$?
  echo "$name $status $log" >>"$results/$kind.list"; eval "$took"'

# suites PROGRAM KIND TITLE: runs each suite of the kind, and counts what Check counted.
suites() {
  suites_of "$1" "$2" | program=$1 kind=$2 xargs -r -P "$jobs" -n 1 sh -c "$suite_alone"
  [ -f "$results/$2.list" ] || return 0
  while read -r name status log; do
    counts=$(sed -n 's/^checks: \([0-9]* [0-9]*\)$/\1/p' "$log" | tail -n 1)
    # No count: the program itself fell over.
    passed=${counts% *} failed=${counts#* }
    [ -n "$counts" ] || { passed=0 failed=1; }
    if [ "$status" -ne 0 ] && [ "$failed" = 0 ]; then failed=1; fi
    if [ "$failed" != 0 ]; then
      echo "--- failed: $3, $name (exit status $status)"
      grep -v '^.*:P:' "$log" | tail -n 60
    fi
    note "$3" "$passed" "$failed" 0
  done <"$results/$2.list"
}

# glibc's tsearch, which udunits2 uses, marks its pointers: valgrind then calls living
# trees "possibly lost". What is definitely lost is an error.
valgrind_suite='
  kind=valgrind; began=$(date +%s)
  name=$0; log=$results/valgrind-$name.log; status=0
  CK_FORK=no TANKSIDE_TEST_SHORT=1 timeout 1500 valgrind -q --leak-check=full --show-leak-kinds=definite --errors-for-leak-kinds=definite \
    --error-exitcode=9 "$TESTS" "$name" >"$log" 2>&1 </dev/null || status=$?
  echo "$name $status $log" >>"$results/valgrind.list"; eval "$took"'
command_test='
  name=$(basename "$0" .sh); log=$results/$kind-$name.log; status=0; began=$(date +%s)
  WORK=$results/work-$kind-$name; export WORK; mkdir -p "$WORK"
  timeout 600 "$0" >"$log" 2>&1 </dev/null || status=$?
  echo "$name $status $log" >>"$results/$kind.list"; eval "$took"'

# From the last to the first: the longest happen to be late in the alphabet.
commands() {
  for test in "$SOURCE"/tests/commands/*.sh; do
    [ ! -x "$test" ] || printf '%s\n' "$test"
  done | sort -r
}

# tally KIND LIST: counts and shows what such a list says.
tally() {
  passed=0 failed=0 skipped=0
  [ -f "$2" ] || return 0
  sort -o "$2" "$2"
  while read -r name status log; do
    case $status in
      0) passed=$((passed + 1)) ;;
      77) skipped=$((skipped + 1)); echo "--- skipped: $name: $(tail -n 1 "$log")" ;;
      *) failed=$((failed + 1)); echo "--- failed: $1, $name (exit status $status)"; tail -n 60 "$log" ;;
    esac
  done <"$2"
  note "$1" $passed $failed $skipped
}

# Every production, assessed by the gcc and the clang build.
same_from_both_builds() {
  for dossier in shared/productions/*/dossier.xml; do
    for build in $release $sanitized; do
      status=0
      "$build/tankside" assess "$dossier" --no-pdf -o "$results/bytes-$(basename "$build")" || status=$?
      [ $status -le 1 ] || return 1
    done
    cmp "$results/bytes-$(basename $release)/assessment.xml" \
        "$results/bytes-$(basename $sanitized)/assessment.xml" || return 1
  done
}

# The smallest production that is there, assessed under valgrind.
assess_under_valgrind() {
  dossier=$(du -s shared/productions/* | sort -n | head -n 1 | cut -f 2)/dossier.xml
  status=0
  # The program stands in for malloc itself: valgrind is told that it is the program's.
  valgrind -q --soname-synonyms=somalloc=NONE --leak-check=full --show-leak-kinds=definite --errors-for-leak-kinds=definite --error-exitcode=9 "$TANKSIDE" assess "$dossier" \
    --no-pdf -o "$results/valgrind-assess" || status=$?
  [ $status -le 1 ] # 1: something stands above the line
}

slowest() {
  echo
  echo "slowest, in seconds:"
  sort -rn "$results/took" | head -n 12 | sed 's/^/  /'
}

summary() {
  awk -F '\t' '
    { if (!($1 in seen)) { seen[$1] = 1; order[++n] = $1 }
      p[$1] += $2; f[$1] += $3; s[$1] += $4; P += $2; F += $3; S += $4 }
    END {
      printf "\n%-44s %7s %7s %7s\n", "", "passed", "failed", "skipped"
      for (i = 1; i <= n; i++) printf "%-44s %7d %7d %7d\n", order[i], p[order[i]], f[order[i]], s[order[i]]
      printf "\n%d passed, %d failed", P, F
      if (S) printf ", %d skipped", S
      printf "\n"
      exit F > 0 || P == 0
    }' "$table"
}

echo "== what is needed"
sh shared/setup.sh --tests

echo "== building with gcc"
release=build/check-gcc sanitized=build/check-clang
one "builds without a warning" "gcc release build" build $release release gcc
export TESTS="$SOURCE/$release/tankside-tests" TANKSIDE="$SOURCE/$release/tankside"

echo "== source check"
one "source check" "source check" python3 tests/source_check.py

echo "== suites"
if [ -x "$TESTS" ]; then
  suites "$TESTS" suites "unit tests"
  suites "$TESTS" published "published figures"
fi

echo "== command tests"
if [ -x "$TANKSIDE" ]; then
  commands | kind=command xargs -r -P "$jobs" -n 1 sh -c "$command_test"
  tally "command tests" "$results/command.list"
  if [ -f engine/command/rules.c ]; then
    one "rules check" "rules check" "$TANKSIDE" rules check
  fi
fi

if [ $quick = no ]; then
  echo "== building with clang and sanitizers"
  one "builds without a warning" "clang sanitizer build" build $sanitized sanitize clang
  if [ -x $sanitized/tankside-tests ]; then
    export ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1
    # Suites that sample sample less here: the same code, a tenth of the points.
    { suites_of "$SOURCE/$sanitized/tankside-tests" suites; suites_of "$SOURCE/$sanitized/tankside-tests" published; } |
      TANKSIDE_TEST_SHORT=1 program=$SOURCE/$sanitized/tankside-tests kind=sanitized-suite xargs -r -P "$jobs" -n 1 sh -c "$suite_alone"
    tally "each suite again with sanitizers" "$results/sanitized-suite.list"
  fi
  echo "== both builds, the same bytes; command tests with sanitizers"
  if [ -x "$sanitized/tankside" ]; then
    one "both compilers write the same assessment" "same bytes from gcc and clang" same_from_both_builds
    # Not again those that spend their time in other programs (WeasyPrint, a browser, a solver, jing), in
    # starting this one or in the rules' examples, nor those that hold what is written against something else:
    # what strangers send, and what reads it, is what the sanitizers are for.
    once="analyse assessment_valid calc cannot_lower charts compare completions coverage day discreet editor explain faults guide hardening
      help_examples jurisdictions kept libreoffice many manual mutants next pack_sign package paper_browser paper_complete paper_parts paper_pdf
      paper_schema paper_water readme rules_ same_bytes schema_agrees solver start_to_signed tables underwriting verify versions wall watch workers"
    # shellcheck disable=SC2086
    commands | grep -v $(printf ' -e /%s[^/]*$' $once) | kind=sanitized TANKSIDE_TEST_SHORT=1 TANKSIDE="$SOURCE/$sanitized/tankside" xargs -r -P "$jobs" -n 1 sh -c "$command_test"
    tally "command tests again with sanitizers" "$results/sanitized.list"
  fi
  echo "== fuzzing"
  one "fuzz targets, a short run" "fuzzing" sh tests/fuzz/run.sh short
  echo "== valgrind"
  if [ -x "$TESTS" ]; then
    # What takes minutes here, nearly all of it in libxslt and OpenSSL, or was read in full with the sanitizers.
    long="hostile_.* document languages work pack_signature"
    # shellcheck disable=SC2046,SC2086
    { suites_of "$TESTS" suites; suites_of "$TESTS" published; } | grep -v $(printf ' -e ^%s$' $long) | xargs -r -P "$jobs" -n 1 sh -c "$valgrind_suite"
    tally "each suite again under valgrind" "$results/valgrind.list"
  fi
  if [ -x "$TANKSIDE" ] && ls shared/productions/*/dossier.xml >/dev/null 2>&1; then
    one "an assessment under valgrind" "assess under valgrind" assess_under_valgrind
  fi
fi

slowest
summary
