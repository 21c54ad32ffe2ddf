/* A dossier from a stranger: read or refused with a message, never anything else. */
#include "base/file.h"
#include "tankside/dossier.h"

#include <stdint.h>
#include <stdlib.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct {
  ts_units *units;
  ts_vocabulary *vocabulary;
  char folder[64], path[96];
} bench;

static const bench *bench_once(void) {
  static bench b; /* a fuzz target lives as long as its process */
  char why[200];
  if (b.units) return &b;
  b.units = ts_units_new(why, sizeof why);
  b.vocabulary = ts_vocabulary_new();
  snprintf(b.folder, sizeof b.folder, "/dev/shm/tankside-fuzz-XXXXXX");
  if (!mkdtemp(b.folder)) abort();
  snprintf(b.path, sizeof b.path, "%s/dossier.xml", b.folder);
  return &b;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  const bench *b = bench_once();
  ts_diagnostics *problems = ts_diagnostics_new();
  if (ts_file_write(b->path, (const char *)data, size, problems)) {
    ts_dossier *dossier = ts_dossier_read(b->path, b->vocabulary, b->units, problems);
    if (!dossier && !ts_count(problems, TS_ERROR)) abort(); /* refused without a word */
    if (dossier && ts_count(problems, TS_ERROR)) abort();
    ts_dossier_free(dossier);
  }
  ts_diagnostics_free(problems);
  return 0;
}
