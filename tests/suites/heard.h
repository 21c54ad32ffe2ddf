/* What an evaluation says in all its courses together, and whether one lies inside another. */
#ifndef TS_TESTS_HEARD_H
#define TS_TESTS_HEARD_H

#include "base/arena.h"
#include "rule/rule.h"

/* One thing that is said: a word about something. */
typedef struct {
  ts_word word;
  const char *about;
  int worst, best;       /* hazards: likelihood x severity; of each course the worst counts */
  size_t courses;        /* that say it */
  uint32_t scores;       /* which pairs of likelihood and severity came, one bit each */
  uint32_t states;       /* duties: which states came, one bit each */
  const ts_course *last; /* the course last counted */
  int here;              /* its score */
} heard_word;

typedef struct {
  heard_word *at;
  size_t count, capacity, courses;
  bool unresolved;
} heard; /* start with {0}; the same may be used again and again */

void heard_free(heard *all);

/* Texts of `all` belong to the evaluation. Fails the test when the evaluation did: no rule here
 * may. */
void heard_take(heard *all, const ts_evaluation *evaluation);
/* A copy in the arena that stands by itself. */
const heard *heard_keep(ts_arena *arena, const heard *all);

const heard_word *heard_find(const heard *all, ts_word word, const char *about);

/* NULL when all that `narrow` says lies within what `wide` says: no worse, no milder, nothing new,
 * and nothing gone that was certain; else what does not. */
const char *heard_outside(const heard *wide, const heard *narrow);

/* "hazard (a) 4..20 on 3 of 4; ..." for messages. */
char *heard_text(ts_arena *arena, const heard *all);

#endif
