/* Tallies: what the courses of one evaluation mean together, in scores alone.
 *
 * One tally for each thing that is said (a word, about something), with its worst and
 * best over all courses, credited and floored. The words of the courses are fetched by
 * whoever prints them; what only compares scores never asks for them. */
#ifndef TS_ASSESS_TALLY_H
#define TS_ASSESS_TALLY_H

#include "assess/assessment.h"

/* One side of a tally: the score, and where it was said. */
typedef struct {
  ts_score score, plain;  /* plain: before the floor */
  size_t course, outcome; /* indices in the evaluation */
  bool floored;
} ts_side;

typedef struct {
  ts_word word;
  const char *about; /* belongs to the evaluation */
  size_t courses;    /* that say it; 0: only declared, the courses could not all be seen */
  ts_side worst, best;
  ts_standing standing;
  ts_duty_state duty;          /* duties */
  int worst_plain, best_plain; /* ranks before the floor: whether all courses agree */
  ts_side here;                /* worst of the course in hand */
  int here_plain;
} ts_tally;

typedef struct {
  ts_tally *at;
  size_t count, capacity;
} ts_tallies;

/* Fills `into` (whose memory is used again; free `at` at the end) from an evaluation of `rule`
 * over `subject` in `view`. An evaluation that could not see all courses has a hazard at the
 * worst that the rule declares, whatever else it says. */
void ts_tally_all(const ts_assess_inputs *in, size_t rule, ts_subject subject, ts_view view,
                  const ts_evaluation *evaluation, ts_tallies *into);

/* The tally of that word about that, or NULL where nothing of the kind was said. */
const ts_tally *ts_tally_find(const ts_tallies *tallies, ts_word word, const char *about);

/* The score the rule declares for when its courses cannot all be seen, where it is worse. */
void ts_raise_to_declared(const ts_assess_inputs *in, size_t rule, ts_standing *standing);

#endif
