/* A rule file from a stranger: refused, or every rule in it ends, whatever it tries. */
#include "base/file.h"
#include "rule/rule.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct {
  ts_units *units;
  char folder[64], path[96];
} bench;

static const bench *bench_once(void) {
  static bench b; /* a fuzz target lives as long as its process */
  char why[200];
  if (b.units) return &b;
  b.units = ts_units_new(why, sizeof why);
  snprintf(b.folder, sizeof b.folder, "/dev/shm/tankside-fuzz-XXXXXX");
  if (!mkdtemp(b.folder)) abort();
  snprintf(b.path, sizeof b.path, "%s/a.lua", b.folder);
  return &b;
}

static void run_all(const ts_packs *packs, const ts_vocabulary *vocabulary, const ts_units *units,
                    ts_diagnostics *problems) {
  for (size_t i = 0; i < ts_rule_count(packs); i++) {
    ts_subject subject;
    ts_dossier *world = ts_dossier_example(vocabulary, units, ts_rule_at(packs, i)->each, &subject);
    if (!world) continue;
    ts_evaluator *evaluator = ts_evaluator_new(packs, world);
    ts_evaluate(evaluator, i, subject, NULL, 0);
    ts_evaluator_free(evaluator);
    ts_dossier_free(world);
  }
  ts_packs_check(packs, problems);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  const bench *b = bench_once();
  ts_diagnostics *problems = ts_diagnostics_new();
  ts_vocabulary *vocabulary = ts_vocabulary_new();
  ts_packs *packs = ts_packs_new(b->units, vocabulary);
  if (ts_file_write(b->path, (const char *)data, size, problems)) {
    bool loaded = ts_packs_load(packs, b->folder, problems);
    if (!loaded && !ts_count(problems, TS_ERROR)) abort(); /* refused without a word */
    if (loaded) run_all(packs, vocabulary, b->units, problems);
  }
  ts_packs_free(packs);
  ts_vocabulary_free(vocabulary);
  ts_diagnostics_free(problems);
  return 0;
}
