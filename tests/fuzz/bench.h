/* What several fuzz targets stand on. A target lives as long as its process, and so does this. */
#ifndef TS_FUZZ_BENCH_H
#define TS_FUZZ_BENCH_H

#include "base/file.h"
#include "tankside/diagnostics.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static char bench_folder[64];

static inline void bench_remove(void) { ts_folder_remove(bench_folder); }

/* A folder in memory, gone when the target ends by itself. */
static inline const char *bench_folder_once(void) {
  if (bench_folder[0]) return bench_folder;
  snprintf(bench_folder, sizeof bench_folder, "/dev/shm/tankside-fuzz-XXXXXX");
  if (!mkdtemp(bench_folder) || atexit(bench_remove) != 0) abort();
  return bench_folder;
}

/* Writes the input to a file of that name in it; the path, which holds until the next call. */
static inline const char *bench_file(const char *name, const void *bytes, size_t size) {
  static char path[128];
  ts_diagnostics *problems = ts_diagnostics_new();
  snprintf(path, sizeof path, "%s/%s", bench_folder_once(), name);
  if (!ts_file_write(path, bytes, size, problems)) abort();
  ts_diagnostics_free(problems);
  return path;
}

/* Nothing is refused without a word, and nothing is taken with an error. */
static inline void bench_judge(bool good, const ts_diagnostics *problems) {
  if (good != (ts_count(problems, TS_ERROR) == 0)) abort();
}

#endif
