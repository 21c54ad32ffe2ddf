/* Ways down: what would bring a finding below the line. */
#ifndef TS_ASSESS_WAYS_H
#define TS_ASSESS_WAYS_H

#include "assess/shifts.h"

/* Ways down of a finding, each with its change, before it is known what that does elsewhere. */
typedef struct {
  ts_try tried;
  ts_way way;
} ts_way_found;

typedef struct {
  ts_way_found *at;
  size_t count, capacity;
} ts_ways_found;

/* Finds the ways down of a finding that stands above the line: the nearest value of each fact
 * that can be moved, each control of the catalogue that bears on it, and pairs of those
 * that are not enough alone; each tried, eliminations first. */
void ts_ways(ts_probe *probe, ts_assessment *assessment, ts_finding *finding,
             ts_ways_found *found);
/* Gives the finding the ways that were found, each with the list of what it does elsewhere, and
 * frees them; once that has been looked at, puts the moves in order. */
void ts_ways_list(ts_assessment *assessment, ts_shifts *shifts, ts_finding *finding,
                  ts_ways_found *found);
void ts_ways_sort(const ts_assessment *assessment, ts_finding *finding);

/* The controls that could bear on a finding: those its rule names, and those that change a
 * fact it read, without what is in place over it. Ordered by kind, then id; they live as long as
 * the probe, and are worked out once. */
const ts_control *const *ts_bearing_controls(ts_probe *probe, const ts_finding *finding,
                                             size_t *count);

/* For qsort, on pointers to controls: by kind, eliminations first, then by id. */
int ts_control_order(const void *left, const void *right);

/* Where a control for a finding would be written: its task, its day for a person's day, else the
 * subject. */
ts_subject ts_control_place(const ts_dossier *dossier, ts_subject subject);

#endif
