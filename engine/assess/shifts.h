/* Shifts: what a change to the dossier does to every other finding. */
#ifndef TS_ASSESS_SHIFTS_H
#define TS_ASSESS_SHIFTS_H

#include "assess/touched.h"

/* One change: a fact moved, or controls put in place. */
typedef struct {
  uint32_t slot; /* TS_NO_SLOT: controls */
  ts_value value;
  const ts_control *controls[2];
  size_t control_count;
  ts_subject scope;
} ts_try;

typedef struct ts_shifts ts_shifts;

/* What was asked for is remembered, so asking again for the same change costs nothing. */
ts_shifts *ts_shifts_new(const ts_probe *probe, ts_assessment *assessment);
void ts_shifts_free(ts_shifts *shifts);

/* Makes the change in the probe's variant, and takes it back. */
void ts_try_begin(ts_probe *probe, const ts_try *tried);
void ts_try_end(ts_probe *probe, const ts_try *tried);

/* The findings and duties that the change makes better, and worse with the worst first. Notes do
 * not count. In the assessment's list of what is done elsewhere. A change that touches very many
 * places is tried where `finding` is, for which it is a way down, and in some others. What it does
 * is known once those that wait have been looked at. */
const ts_elsewhere *ts_shifts_of(ts_shifts *shifts, const ts_try *tried, const ts_finding *finding);

/* Those that wait. Of those that touch very many places, what each change does far from what it is
 * tried near is the same for all: so many, each looked at with any probe before the rest. Then each
 * that waits is tried with any probe, its findings go into `arena`; then none waits. */
size_t ts_shifts_far(ts_shifts *shifts);
void ts_shifts_look_far(const ts_shifts *shifts, ts_probe *probe, size_t number);
size_t ts_shifts_waiting(const ts_shifts *shifts);
void ts_shifts_look(const ts_shifts *shifts, ts_probe *probe, ts_touched *touched, ts_arena *arena,
                    size_t number);
void ts_shifts_looked(ts_shifts *shifts);

#endif
