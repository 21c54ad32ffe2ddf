/* A dossier from a stranger: read or refused with a message, never anything else. */
#include "bench.h"
#include "tankside/dossier.h"

typedef struct {
  ts_units *units;
  ts_vocabulary *vocabulary;
} bench;

static const bench *bench_once(void) {
  static bench b;
  char why[200];
  if (b.units) return &b;
  b.units = ts_units_new(why, sizeof why);
  b.vocabulary = ts_vocabulary_new();
  return &b;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  const bench *b = bench_once();
  ts_diagnostics *problems = ts_diagnostics_new();
  const char *path = bench_file("dossier.xml", data, size);
  ts_dossier *dossier = ts_dossier_read(path, b->vocabulary, b->units, problems);
  bench_judge(dossier != NULL, problems);
  ts_dossier_free(dossier);
  ts_diagnostics_free(problems);
  return 0;
}
