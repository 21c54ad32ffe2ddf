/* Searching along one number, everything else as it is.
 *
 * The courses of an evaluation over the whole stretch say how far each narrows the number:
 * their ends are where something can change. Those places are tried on both sides, and
 * what lies between them in the middle; a change that is found is closed in on by halving. */
#ifndef TS_ASSESS_SEARCH_H
#define TS_ASSESS_SEARCH_H

#include "assess/probe.h"

typedef struct {
  ts_probe *probe;
  size_t pair;
  uint32_t slot;
  ts_word word; /* of the finding looked at */
  const char *about;
  bool (*met)(const void *context, ts_stand stand); /* what is searched for */
  const void *context;
} ts_search;

typedef struct {
  double edge;   /* where it changes: the number with the fewest digits there, nine at most */
  bool included; /* met at the edge itself, not only beyond */
  double first;  /* a value at which it is met, as near as it was looked for */
  ts_stand then; /* there */
} ts_found;

/* How the finding stands with the number at `x`. The dossier's own value is put back by
 * ts_search_done. False when the rule fails there. */
bool ts_search_at(const ts_search *search, double x, ts_stand *stand);

/* The nearest value from `from` (where it is not met) towards `to` at which it is. False when none
 * is found. Puts the dossier's own value back. */
bool ts_search_first(const ts_search *search, double from, double to, ts_found *found);

void ts_search_done(const ts_search *search);

#endif
