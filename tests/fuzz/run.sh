#!/bin/sh
# Runs the fuzz targets: sh tests/fuzz/run.sh SECONDS [TARGET...]
#
# Builds them with clang, address and undefined sanitizers in build/fuzz, writes seeds and dictionaries from the
# sources, and runs each target so long, one after the other. Prints executions, covered edges and corpus a target;
# exit 1 where anything was found: the input is then build/fuzz/found-TARGET-*. What was found and mended is kept in
# tests/fuzz/kept/TARGET and always run first.
set -eu
cd "$(dirname "$0")/../.."
seconds=${1:?usage: sh tests/fuzz/run.sh SECONDS [TARGET...]}
shift
build=build/fuzz
cmake -C shared/cmake/sanitize.cmake -S . -B $build -G Ninja -DCMAKE_C_COMPILER=clang -DTANKSIDE_FUZZ=ON \
  -DTANKSIDE_TESTS=OFF >/dev/null
cmake --build $build >/dev/null
[ $# -gt 0 ] || set -- $(ls tests/fuzz/fuzz_*.c | sed 's|.*/fuzz_||; s|\.c$||')
python3 tests/fuzz/seeds.py $build/tankside $build/seeds
status=0
for target; do
  mkdir -p "$build/corpus/$target"
  dictionary=""
  [ ! -f "$build/seeds/$target.dict" ] || dictionary="-dict=$build/seeds/$target.dict"
  folders="$build/corpus/$target"
  for folder in "$build/seeds/$target" "tests/fuzz/kept/$target"; do [ ! -d "$folder" ] || folders="$folders $folder"; done
  log=$build/$target.log
  # shellcheck disable=SC2086
  if "$build/fuzz_$target" $folders $dictionary -max_total_time="$seconds" -timeout=120 -rss_limit_mb=2048 \
    -artifact_prefix="$build/found-$target-" -print_final_stats=1 >"$log" 2>&1; then found=nothing; else found=SOMETHING status=1; fi
  awk -v target="$target" -v found=$found '
    /stat::number_of_executed_units/ { runs = $2 }
    /cov: / { for (i = 1; i < NF; i++) { if ($i == "cov:") cov = $(i + 1); if ($i == "corp:") corpus = $(i + 1) } }
    END { printf "%-12s %9d runs, %6d edges, corpus %s, found %s\n", target, runs, cov, corpus, found }' "$log"
  [ $found = nothing ] || tail -n 30 "$log"
done
exit $status
