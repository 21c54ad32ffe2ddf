/* What each part of an assessment takes.
 *
 *   tankside-parts DOSSIER MATRIX PACK...
 *
 * Does in one process what `tankside assess DOSSIER -o FILE.xml` does, but for writing the file, a part at a time, and
 * prints the milliseconds of processor time of each: medians over rounds that begin anew. "outlook" is all
 * that would change a finding (margins, ways down, questions): the whole less the scores alone. */
#include "base/file.h"
#include "rule/rule.h"
#include "tankside/assess.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { RULES, DOSSIER, SCORES, OUTLOOK, WRITING, PARTS, ROUNDS = 9 };

static const char *const names[PARTS] = {"rules", "dossier", "scores", "outlook", "writing"};

typedef struct {
  ts_diagnostics *problems;
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_assess_inputs inputs;
} bench;

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

static void must(const bench *b, bool good, const char *what) {
  if (good) return;
  fprintf(stderr, "%s\n", what);
  ts_diagnostics_print(b->problems, stderr);
  exit(EXIT_FAILURE);
}

static void load_rules(bench *b, char **packs) {
  char why[256];
  b->units = ts_units_new(why, sizeof why);
  must(b, b->units != NULL, why);
  b->vocabulary = ts_vocabulary_new();
  b->packs = ts_packs_new(b->units, b->vocabulary);
  for (; *packs; packs++) must(b, ts_packs_load(b->packs, *packs, b->problems), *packs);
}

static void read_dossier(bench *b, const char *dossier, const char *matrix) {
  b->inputs = (ts_assess_inputs){.packs = b->packs, .units = b->units};
  b->inputs.dossier = ts_dossier_read(dossier, b->vocabulary, b->units, b->problems);
  b->inputs.matrix = ts_matrix_read(matrix, b->problems);
  must(b, b->inputs.dossier && b->inputs.matrix, dossier);
}

static void release(bench *b) {
  ts_matrix_free((ts_matrix *)b->inputs.matrix);
  ts_dossier_free((ts_dossier *)b->inputs.dossier);
  ts_packs_free(b->packs);
  ts_vocabulary_free(b->vocabulary);
  ts_units_free(b->units);
  ts_diagnostics_free(b->problems);
}

/* All of them once, the milliseconds of each. */
static void take_round(char **words, double *took) {
  bench b = {.problems = ts_diagnostics_new()};
  double at[PARTS + 1] = {now()};
  load_rules(&b, words + 3);
  at[1] = now();
  read_dossier(&b, words[1], words[2]);
  at[2] = now();
  b.inputs.scores_only = true;
  ts_assessment_free(ts_assess(&b.inputs, b.problems));
  at[3] = now();
  b.inputs.scores_only = false;
  ts_assessment *assessment = ts_assess(&b.inputs, b.problems);
  must(&b, assessment != NULL, "not assessed");
  at[4] = now();
  char *bytes;
  size_t length;
  ts_assessment_write(assessment, &bytes, &length);
  at[5] = now();
  for (int i = 0; i < PARTS; i++) took[i] = at[i + 1] - at[i];
  took[OUTLOOK] -= took[SCORES];
  free(bytes);
  ts_assessment_free(assessment);
  release(&b);
}

static int by_size(const void *a, const void *b) {
  const double *x = a, *y = b;
  return (*x > *y) - (*x < *y);
}

int main(int count, char **words) {
  double took[PARTS][ROUNDS], round[PARTS];
  if (count < 4) return fprintf(stderr, "usage: tankside-parts DOSSIER MATRIX PACK...\n"), EXIT_FAILURE;
  for (int r = 0; r < ROUNDS; r++) {
    take_round(words, round);
    for (int i = 0; i < PARTS; i++) took[i][r] = round[i];
  }
  for (int i = 0; i < PARTS; i++) {
    qsort(took[i], ROUNDS, sizeof **took, by_size);
    printf("%s %.2f\n", names[i], took[i][ROUNDS / 2]);
  }
  return 0;
}
