/* The dossier against itself. Stage-internal: crosscheck.c (amounts, times,
 * dates), presence.c (who is where at what time), gas_plan.c (gas against minutes).
 *
 * Only what cannot be true is an error; what may be wrong within the ranges
 * that are written is a warning. A fact that is not known contradicts nothing. */
#ifndef TS_DOSSIER_CROSSCHECK_H
#define TS_DOSSIER_CROSSCHECK_H

#include "dossier/world.h"

typedef struct {
  const ts_dossier *dossier;
  ts_diagnostics *problems;
  ts_subject subject; /* the one being checked */
} ts_check;

/* The value of a fact that is known; false when it is not, or the subject or the fact is absent. */
bool ts_check_known(const ts_check *check, ts_subject subject, const char *fact, ts_range *range);

/* True when a choice or flag can be nothing but this ("yes" and "no" for flags). */
bool ts_check_is(const ts_check *check, ts_subject subject, const char *fact, const char *word);

/* The known value of a fact for a reader, in the arena. */
const char *ts_check_shown(const ts_check *check, ts_subject subject, const char *fact);

/* Reports at a fact of a subject (at its element where `fact` is NULL). */
void ts_check_say(const ts_check *check, ts_level level, ts_subject subject, const char *fact,
                  const char *format, ...) __attribute__((format(printf, 5, 6)));

/* The subject that a field name leads to from the one being checked, or from its
 * site; "" is the subject itself. TS_NO_SUBJECT where there is none. */
ts_subject ts_check_reach(const ts_check *check, const char *from);

/* A supply against what every task breathes from it; an immersion against its supply. */
void ts_check_gas(const ts_check *check);
void ts_check_gas_source(const ts_check *check);

/* One person in two places, records that overlap, posts held by people in the water. */
void ts_check_presence(const ts_check *check);

#endif
