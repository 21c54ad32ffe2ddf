/* A rule file from a stranger: refused, or every rule in it ends, whatever it tries. */
#include "bench.h"
#include "rule/rule.h"

typedef struct {
  ts_units *units;
  ts_vocabulary *vocabulary;
  size_t facts; /* that it begins with */
} bench;

static size_t facts_in(const ts_vocabulary *vocabulary) {
  size_t count = 0;
  for (size_t i = 0; i < ts_entity_count(vocabulary); i++)
    count += ts_fact_count(vocabulary, ts_entity_at(vocabulary, i));
  return count;
}

/* Takes half as long as all the rest: made anew only where a rule file added to it. */
static void renew_vocabulary(bench *b) {
  if (b->vocabulary && facts_in(b->vocabulary) == b->facts) return;
  ts_vocabulary_free(b->vocabulary);
  b->vocabulary = ts_vocabulary_new();
  b->facts = facts_in(b->vocabulary);
}

static bench *bench_once(void) {
  static bench b;
  char why[200];
  if (b.units) return &b;
  b.units = ts_units_new(why, sizeof why);
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
  bench *b = bench_once();
  ts_diagnostics *problems = ts_diagnostics_new();
  renew_vocabulary(b);
  ts_packs *packs = ts_packs_new(b->units, b->vocabulary);
  bench_file("a.lua", data, size);
  bool loaded = ts_packs_load(packs, bench_folder_once(), problems);
  if (!loaded && !ts_count(problems, TS_ERROR)) abort(); /* refused without a word */
  if (loaded) run_all(packs, b->vocabulary, b->units, problems);
  ts_packs_free(packs);
  ts_diagnostics_free(problems);
  return 0;
}
