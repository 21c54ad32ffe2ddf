#include "assess/questions.h"
#include "base/text.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ANSWERS = 16, ENDS = 64, STOP_WEIGHT = TS_LEVELS * TS_LEVELS };

/* What some pairs say together. */
typedef struct {
  int score;       /* worst scores of hazards, and stops */
  size_t unsettled;
} weight;

typedef struct {
  ts_probe *probe;
  ts_assessment *a;
  uint32_t slot;
  const uint32_t *pairs; /* that read it */
  size_t pair_count;
  ts_value answers[ANSWERS];
  size_t answer_count, middle; /* middle: which answer is the middling one, or ANSWERS */
} asker;

/* ---- weighing --------------------------------------------------------------------------- */

static void weigh_tally(const ts_tally *tally, weight *w) {
  if (tally->word == TS_REMARK) return;
  w->unsettled += !tally->standing.settled;
  if (tally->word == TS_HAZARD)
    w->score += tally->standing.worst.likelihood * tally->standing.worst.severity;
  if (tally->word == TS_STOP) w->score += STOP_WEIGHT;
}

static weight weigh(asker *k) {
  weight w = {0, 0};
  for (size_t i = 0; i < k->pair_count; i++) {
    const ts_tallies *tallies = ts_probe_try(k->probe, k->pairs[i]);
    for (size_t t = 0; tallies != NULL && t < tallies->count; t++)
      weigh_tally(&tallies->at[t], &w);
  }
  return w;
}

/* ---- which answers to try ------------------------------------------------------------------ */

static void add_answer(asker *k, ts_value value) {
  if (k->answer_count < ANSWERS) k->answers[k->answer_count++] = value;
}

typedef struct {
  double at[ENDS];
  size_t count;
} ends;

static int ascending(const void *left, const void *right) {
  double a = *(const double *)left, b = *(const double *)right;
  return (a > b) - (a < b);
}

/* Where some course begins or ends to be possible: between two such places all answers do the same. */
static void gather_ends(asker *k, ends *e) {
  for (size_t i = 0; i < k->pair_count; i++) {
    if (ts_probe_try(k->probe, k->pairs[i]) == NULL) continue;
    const ts_evaluation *evaluation = k->probe->evaluation;
    for (size_t c = 0; c < evaluation->course_count; c++)
      for (size_t b = 0; b < evaluation->courses[c].bound_count; b++) {
        const ts_bound *bound = &evaluation->courses[c].bounds[b];
        if (bound->slot != k->slot || !bound->number || e->count + 2 > ENDS) continue;
        e->at[e->count++] = bound->range.lo;
        e->at[e->count++] = bound->range.hi;
      }
  }
  if (e->count > 1) qsort(e->at, e->count, sizeof e->at[0], ascending);
}

static double on_step(double x, double step) { return step > 0 ? nearbyint(x / step) * step : x; }

static void number_answers(asker *k, ts_range now) {
  double step = ts_slot_step(ts_slot_fact(k->probe->variant, k->slot));
  ends e = {.count = 0};
  gather_ends(k, &e);
  add_answer(k, ts_value_point(now.lo));
  add_answer(k, ts_value_point(now.hi));
  k->middle = k->answer_count;
  add_answer(k, ts_value_point(on_step(now.lo + (now.hi - now.lo) / 2, step)));
  double last = now.lo;
  for (size_t i = 0; i <= e.count; i++) {
    double next = i < e.count ? e.at[i] : now.hi;
    if (next - last <= 1e-9 * fmax(fabs(next), fabs(last))) continue;
    add_answer(k, ts_value_point(on_step(last + (next - last) / 2, step)));
    last = next;
  }
}

static void word_answers(asker *k, const ts_value *now, bool set) {
  k->middle = ANSWERS;
  if (set) add_answer(k, ts_value_choice(now->certain));
  for (unsigned bit = 0; bit < 64; bit++) {
    uint64_t one = (uint64_t)1 << bit;
    if (now->choices & one & ~(set ? now->certain : 0)) add_answer(k, ts_value_choice(one | now->certain));
  }
}

static bool find_answers(asker *k) {
  const ts_value *now = ts_slot_value(k->a->in.dossier, k->slot);
  ts_fact_type type = ts_slot_fact(k->a->in.dossier, k->slot)->type;
  k->answer_count = 0;
  if (ts_slot_is_number(k->a->in.dossier, k->slot)) {
    if (now->range.lo < now->range.hi) number_answers(k, now->range);
  } else if (type == TS_FLAG || type == TS_CHOICE || type == TS_SET) {
    word_answers(k, now, type == TS_SET);
  }
  return k->answer_count > 0;
}

/* ---- one question ---------------------------------------------------------------------------- */

static int greater(int a, int b) { return a > b ? a : b; }

static void ask(asker *k, ts_open_fact *fact) {
  k->slot = fact->slot;
  k->pairs = k->probe->pairs_of + k->probe->pairs_from[fact->slot];
  k->pair_count = k->probe->pairs_from[fact->slot + 1] - k->probe->pairs_from[fact->slot];
  fact->removes = fact->middle = 0;
  fact->settles = 0;
  if (!find_answers(k)) return;
  weight before = weigh(k);
  int total = 0, best = -1;
  for (size_t i = 0; i < k->answer_count; i++) {
    ts_variant_put(k->probe->variant, k->slot, k->answers[i]);
    weight after = weigh(k);
    int removed = before.score - after.score;
    total += removed;
    if (removed > best) fact->best = k->answers[i];
    best = greater(best, removed);
    if (i == k->middle) fact->middle = greater(removed, 0);
    if (before.unsettled > 0 && after.unsettled < before.unsettled)
      fact->settles += (double)(before.unsettled - after.unsettled) / (double)before.unsettled;
  }
  ts_variant_put(k->probe->variant, k->slot, *ts_slot_value(k->a->in.dossier, k->slot));
  fact->removes = greater(best, 0);
  if (k->middle == ANSWERS) fact->middle = greater(total / (int)k->answer_count, 0);
  fact->settles /= (double)k->answer_count;
}

static bool worth_more(const ts_open_fact *a, const ts_open_fact *b) {
  if (a->removes != b->removes) return a->removes > b->removes;
  return a->middle > b->middle;
}

/* Merges two sorted halves; equals keep their order, which is that of the findings. */
static void sort_by_worth(ts_open_fact *facts, ts_open_fact *room, size_t count) {
  if (count < 2) return;
  size_t half = count / 2, i = 0, k = half;
  sort_by_worth(facts, room, half);
  sort_by_worth(facts + half, room, count - half);
  for (size_t n = 0; n < count; n++) {
    bool right = i == half || (k < count && worth_more(&facts[k], &facts[i]));
    room[n] = facts[right ? k++ : i++];
  }
  memcpy(facts, room, count * sizeof *facts);
}

void ts_questions(ts_probe *probe, ts_assessment *a) {
  asker k = {.probe = probe, .a = a};
  size_t kept = 0;
  for (size_t i = 0; i < a->open_count; i++) {
    ask(&k, &a->open[i]);
    bool unknown = ts_slot_value(a->in.dossier, a->open[i].slot)->state == TS_UNKNOWN;
    if (unknown || a->open[i].removes > 0) a->open[kept++] = a->open[i];
  }
  a->open_count = kept;
  ts_open_fact *room = ts_alloc((kept + 1) * sizeof *room);
  sort_by_worth(a->open, room, kept);
  free(room);
}
