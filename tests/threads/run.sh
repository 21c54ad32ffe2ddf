#!/bin/sh
# Assesses example productions with several workers under the thread sanitizer of clang, which names
# every place that two threads reach without order; then with one, and compares the bytes.
#
#   sh tests/threads/run.sh [PRODUCTION...]      lake-stunt and tank-serial where none is named
set -eu
cd "$(dirname "$0")/../.."
[ $# -gt 0 ] || set -- lake-stunt tank-serial
build=${TANKSIDE_THREADS_BUILD:-build/threads}
CC=clang cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DTANKSIDE_TESTS=OFF \
  -DCMAKE_C_FLAGS="-O1 -g -fsanitize=thread" >/dev/null
ninja -C "$build" tankside >/dev/null
TSAN_OPTIONS="halt_on_error=1 exitcode=66"
export TSAN_OPTIONS
for production; do
  dossier=shared/productions/$production/dossier.xml
  for workers in 1 4; do
    status=0
    "$build/tankside" assess "$dossier" --workers $workers -o "$build/$production-$workers.xml" >/dev/null ||
      status=$?
    [ $status -le 1 ] || { echo "$production with $workers workers: exit status $status"; exit 1; }
  done
  cmp "$build/$production-1.xml" "$build/$production-4.xml"
  echo "$production: no race with 4 workers, and the bytes of one"
done
