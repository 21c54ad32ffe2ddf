#!/bin/sh
# Runs the fuzz targets: sh tests/fuzz/run.sh SECONDS|short [TARGET...]
#
# SECONDS are of each target's own processor time, so that an hour is an hour on a busy machine too. Builds the targets
# with clang, address and undefined sanitizers in build/fuzz (or TANKSIDE_FUZZ_BUILD), writes seeds and dictionaries
# from the sources, and runs the targets by turns. Corpus and figures stay in the build folder: a later call goes on from
# there, and 0 seconds shows what has been done so far. `short` is for every test run: some seconds each, from one seed of
# chance, nothing kept. Exit 1 where anything was found: the input is then found-TARGET-* in the build folder. What was
# found and mended is kept in tests/fuzz/kept/TARGET and always run first.
set -eu
cd "$(dirname "$0")/../.."
seconds=${1:?usage: sh tests/fuzz/run.sh SECONDS|short [TARGET...]}
shift
build=${TANKSIDE_FUZZ_BUILD:-build/fuzz}
# Optimised, since what counts is how much is tried; assertions stay.
CC=clang cmake -C shared/cmake/sanitize.cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo \
  "-DCMAKE_C_FLAGS_RELWITHDEBINFO=-O2 -gline-tables-only" -DTANKSIDE_FUZZ=ON -DTANKSIDE_TESTS=OFF >/dev/null
cmake --build "$build" >/dev/null
[ $# -gt 0 ] || set -- $(ls tests/fuzz/fuzz_*.c | sed 's|.*/fuzz_||; s|\.c$||')
[ "$seconds" = 0 ] || python3 tests/fuzz/seeds.py "$build/tankside" "$build/seeds"
exec python3 tests/fuzz/rounds.py "$build" "$seconds" "$@"
