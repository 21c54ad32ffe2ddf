#include "assess/outlook.h"
#include "assess/conditions.h"
#include "assess/margins.h"
#include "assess/questions.h"
#include "assess/remedies.h"
#include "assess/ways.h"
#include <stdlib.h>

/* How many findings are looked at in a first round, at least; ways down are tried everywhere, which
 * takes longer. */
enum { LOOKED_AT = 128, WAYS = 64 };

/* Which part of the whole comes next: making findings was the first fifth. */
static void next_part(ts_crew *crew, double to) {
  crew->from = crew->to;
  crew->to = to;
}

/* Duties first: one that hangs on every day takes as long as a thousand others, which are done
 * meanwhile. */
static void look_around(ts_worker *w, void *context, size_t number) {
  (void)context;
  size_t duties = w->a.duty_count;
  ts_finding *finding = number < duties ? &w->a.duties[number] : &w->a.findings[number - duties];
  if (finding->word == TS_REMARK) return;
  ts_conditions(w->probe, &w->a, finding);
  ts_margins(w->probe, &w->a, finding);
}

static void look_around_all(ts_crew *crew) {
  size_t count = crew->a->duty_count + crew->a->finding_count, round = count / 8;
  ts_crew_try(crew, count, round > LOOKED_AT ? round : LOOKED_AT, look_around, NULL);
}

/* ---- ways down ------------------------------------------------------------------- */

typedef struct {
  ts_finding *findings;
  ts_ways_found *found; /* one each */
} searched;

static void find_ways(ts_worker *w, void *context, size_t number) {
  const searched *round = context;
  ts_ways(w->probe, &w->a, &round->findings[number], &round->found[number]);
}

static void look_far(ts_worker *w, void *shifts, size_t number) {
  ts_shifts_look_far(shifts, w->probe, number);
}

static void look_elsewhere(ts_worker *w, void *shifts, size_t number) {
  ts_shifts_look(shifts, w->probe, ts_worker_touched(w), w->a.arena, number);
}

/* The same change is a way down for many: it is listed once, by whoever comes first, and what it
 * does elsewhere is tried once. */
static void ways_of(ts_crew *crew, ts_shifts *shifts, ts_finding *findings, size_t count) {
  searched round = {findings, ts_alloc(count * sizeof *round.found)};
  ts_crew_try(crew, count, count, find_ways, &round);
  for (size_t i = 0; i < count; i++) ts_ways_list(crew->a, shifts, &findings[i], &round.found[i]);
  free(round.found);
  size_t far = ts_shifts_far(shifts), waiting = ts_shifts_waiting(shifts);
  ts_crew_try(crew, far, far, look_far, shifts);
  ts_crew_try(crew, waiting, waiting, look_elsewhere, shifts);
  ts_shifts_looked(shifts);
  for (size_t i = 0; i < count; i++) ts_ways_sort(crew->a, &findings[i]);
}

static void all_ways(ts_crew *crew) {
  ts_assessment *a = crew->a;
  ts_shifts *shifts = ts_shifts_new(ts_crew_probe(crew), a);
  double from = crew->to;
  size_t round = WAYS;
  for (size_t i = 0, count; i < a->finding_count; i += count) {
    size_t left = a->finding_count - i, spent = crew->spent;
    next_part(crew, from + (0.9 - from) * (double)i / (double)a->finding_count);
    count = left < round ? left : round;
    ways_of(crew, shifts, a->findings + i, count);
    round = ts_crew_longer(crew, round, spent);
  }
  ts_shifts_free(shifts);
}

/* ---- the whole ------------------------------------------------------------------- */

void ts_outlook(ts_crew *crew) {
  ts_assessment *a = crew->a;
  bool all = !a->in.questions_only;
  next_part(crew, 0.4);
  if (all) look_around_all(crew);
  next_part(crew, 0.5);
  ts_questions(crew); /* before the ways down: they matter most where much is open */
  if (all) all_ways(crew);
  next_part(crew, 1);
  if (all) ts_remedies(crew);
}
