/* Inside view of a matrix: its scales, cells and limits of credit. */
#ifndef TS_ASSESS_MATRIX_H
#define TS_ASSESS_MATRIX_H

#include "base/arena.h"
#include "rule/rule.h"
#include "tankside/assess.h"

typedef struct {
  const char *word, *meaning;
  const char *as; /* the published category it stands for, or NULL */
} ts_level_words;

/* How far controls of some kinds may lower a score, taken together. */
typedef struct {
  bool kinds[TS_PPE + 1];   /* by ts_hierarchy */
  int likelihood, severity; /* steps */
} ts_credit_limit;

enum { TS_BANDS_MAX = 9, TS_CREDITS_MAX = 8 };

struct ts_matrix {
  ts_arena *arena;
  const char *file; /* name without folders */
  const char *bytes; /* of the file */
  size_t length;
  const char *id, *title, *source;
  ts_level_words likelihood[TS_LEVELS + 1], severity[TS_LEVELS + 1]; /* from 1 */
  ts_band bands[TS_BANDS_MAX];
  size_t band_count;
  int cell[TS_LEVELS + 1][TS_LEVELS + 1]; /* [likelihood][severity]: index in bands */
  ts_credit_limit credits[TS_CREDITS_MAX];
  size_t credit_count;
};

/* "administrative" and so on; -1 for a word that is none. */
int ts_hierarchy_read(const char *word);
const char *ts_hierarchy_word(ts_hierarchy kind);

/* A score with its rank. */
ts_score ts_matrix_score(const ts_matrix *matrix, int likelihood, int severity);

#endif
