#include "assess/probe.h"
#include "assess/scope.h"
#include "base/text.h"
#include <assert.h>
#include <stdint.h>
#include <stdlib.h>

/* ---- which pairs read which facts --------------------------------------------- */

static void index_reads(ts_probe *p) {
  const ts_assessment *a = p->a;
  uint32_t slots = ts_slot_count(a->in.dossier);
  p->pairs_from = ts_arena_alloc(p->arena, (slots + 2) * sizeof *p->pairs_from);
  uint32_t total = 0;
  for (size_t i = 0; i < a->pair_count; i++)
    for (size_t k = 0; k < a->pairs[i].read_count; k++, total++)
      p->pairs_from[a->pairs[i].reads[k] + 1]++;
  for (uint32_t slot = 0; slot < slots; slot++) p->pairs_from[slot + 1] += p->pairs_from[slot];
  p->pairs_of = ts_arena_alloc(p->arena, (total + 1) * sizeof *p->pairs_of);
  uint32_t *at = ts_alloc((slots + 1) * sizeof *at);
  for (size_t i = 0; i < a->pair_count; i++)
    for (size_t k = 0; k < a->pairs[i].read_count; k++) {
      uint32_t slot = a->pairs[i].reads[k];
      p->pairs_of[p->pairs_from[slot] + at[slot]++] = (uint32_t)i;
    }
  free(at);
}

static void count_said(ts_probe *p, const ts_finding *all, size_t count) {
  for (size_t i = 0; i < count; i++) {
    size_t pair = ts_pair_of(p->a, &all[i]);
    if (pair != SIZE_MAX) p->said_from[pair + 1]++;
  }
}

static void place_said(ts_probe *p, const ts_finding *all, size_t count, bool duty, uint32_t *at) {
  for (size_t i = 0; i < count; i++) {
    size_t pair = ts_pair_of(p->a, &all[i]);
    if (pair != SIZE_MAX)
      p->said[p->said_from[pair] + at[pair]++] = (ts_said_at){(uint32_t)i, duty};
  }
}

static void index_said(ts_probe *p) {
  const ts_assessment *a = p->a;
  p->said_from = ts_arena_alloc(p->arena, (a->pair_count + 2) * sizeof *p->said_from);
  count_said(p, a->findings, a->finding_count);
  count_said(p, a->duties, a->duty_count);
  for (size_t i = 0; i < a->pair_count; i++) p->said_from[i + 1] += p->said_from[i];
  p->said = ts_arena_alloc(p->arena, (p->said_from[a->pair_count] + 1) * sizeof *p->said);
  uint32_t *at = ts_alloc((a->pair_count + 1) * sizeof *at);
  place_said(p, a->findings, a->finding_count, false, at);
  place_said(p, a->duties, a->duty_count, true, at);
  free(at);
}

enum {
  ALLOWED = 1000000,  /* courses that all tries may run */
  ALLOWED_EACH = 3000 /* and more for each finding and duty */
};

bool ts_probe_is_spent(const ts_probe *p) { return p->spent > p->allowed; }

static void share_indexes(ts_probe *p, const ts_probe *like) {
  p->pairs_of = like->pairs_of;
  p->pairs_from = like->pairs_from;
  p->said = like->said;
  p->said_from = like->said_from;
}

ts_probe *ts_probe_new(const ts_assessment *assessment, ts_evaluator *evaluator,
                       const ts_probe *like) {
  ts_arena *arena = ts_arena_new();
  ts_probe *p = ts_arena_alloc(arena, sizeof *p);
  *p = (ts_probe){.a = assessment, .in = assessment->in, .arena = arena};
  p->variant = ts_dossier_variant_over(assessment->in.dossier, like ? like->variant : NULL);
  p->in.dossier = p->variant;
  p->own = evaluator == NULL;
  p->evaluator = p->own ? ts_evaluator_new(assessment->in.packs, p->variant) : evaluator;
  ts_evaluator_use(p->evaluator, p->variant);
  p->laid = ts_laid_of(&assessment->in);
  ts_evaluator_record(p->evaluator);
  ts_evaluator_lay(p->evaluator, p->laid, TS_IN_PLACE);
  p->applied = ts_applied_count(assessment->in.dossier);
  p->allowed = ALLOWED + ALLOWED_EACH * (assessment->finding_count + assessment->duty_count);
  p->pool = ts_pool_new(arena);
  p->bearing = ts_arena_alloc(arena, (assessment->finding_count + 1) * sizeof *p->bearing);
  if (like != NULL) {
    share_indexes(p, like);
  } else {
    index_reads(p);
    index_said(p);
  }
  return p;
}

void ts_probe_free(ts_probe *probe) {
  if (probe == NULL) return;
  ts_evaluator_lay(probe->evaluator, NULL, 0);
  if (probe->own) ts_evaluator_free(probe->evaluator);
  ts_laid_free(probe->laid);
  ts_dossier_free(probe->variant);
  free(probe->tallies.at);
  free(probe->room);
  ts_pool_free(probe->pool);
  ts_arena_free(probe->arena);
}

/* ---- trying ---------------------------------------------------------------------- */

/* What is being tried on top of what is in place, in the probe's own room. */
static size_t lay_tried(ts_probe *p, ts_subject subject) {
  size_t all = ts_applied_count(p->variant), count = 0;
  if (all - p->applied > p->room_size)
    p->room = ts_resize(p->room, (p->room_size = 2 * (all - p->applied)) * sizeof *p->room);
  for (size_t i = p->applied; i < all; i++) {
    const ts_applied_control *tried = ts_applied_at(p->variant, i);
    p->room[count++] = (ts_effect){.control = ts_control_find(p->in.packs, tried->control),
                                   .scope = tried->scope,
                                   .here = ts_covers(p->variant, tried->scope, subject)};
  }
  return count;
}

const ts_tallies *ts_probe_try(ts_probe *p, size_t pair) {
  const ts_pair *it = &p->a->pairs[pair];
  size_t count = lay_tried(p, it->subject);
  p->evaluation = ts_evaluate(p->evaluator, it->rule, it->subject, p->room, count);
  p->spent += p->evaluation->course_count;
  if (p->evaluation->failure != NULL) return NULL;
  ts_tally_all(&p->in, it->rule, it->subject, TS_IN_PLACE, p->evaluation, &p->tallies);
  return &p->tallies;
}

bool ts_probe_sees(ts_probe *p, size_t pair, const ts_answers *answers) {
  const ts_pair *it = &p->a->pairs[pair];
  size_t count = lay_tried(p, it->subject);
  p->spent++;
  return ts_course_is_open(p->evaluator, it->rule, it->subject, p->room, count, answers);
}

const ts_tallies *ts_probe_tally(ts_probe *p, size_t pair, size_t course) {
  const ts_pair *it = &p->a->pairs[pair];
  ts_evaluation alone = *p->evaluation;
  alone.courses += course;
  alone.course_count = 1;
  ts_tally_all(&p->in, it->rule, it->subject, TS_IN_PLACE, &alone, &p->tallies);
  return &p->tallies;
}

bool ts_probe_changes(const ts_probe *p, size_t pair, uint32_t slot) {
  if (ts_applied_count(p->variant) > p->applied) return true;
  for (int level = TS_AS_DESCRIBED; level <= TS_IN_PLACE; level++)
    if (ts_laid_reaches(p->laid, p->a->pairs[pair].subject, level, &slot, 1)) return true;
  return false;
}

void ts_probe_apply(ts_probe *p, const ts_control *control, ts_subject scope) {
  ts_applied_control tried = {
      .control = control->id, .scope = scope, .in_place = true, .by = "", .on = "", .file = ""};
  ts_variant_apply(p->variant, &tried);
}

void ts_probe_take_back(ts_probe *p) { ts_variant_keep(p->variant, p->applied); }

/* ---- standing ---------------------------------------------------------------------- */

static_assert(TS_LEVELS < 16 && (TS_BANDS_MAX + 1) * 1000 < 1 << 16, "a stand holds every score");

ts_stand ts_stand_of(ts_score worst, ts_certainty certainty, ts_duty_state duty) {
  return (ts_stand){.rank = (uint16_t)worst.rank,
                    .likelihood = (uint8_t)worst.likelihood & 15U,
                    .severity = (uint8_t)worst.severity & 15U,
                    .certainty = certainty,
                    .duty = duty};
}

ts_stand ts_stands(const ts_tallies *tallies, ts_word word, const char *about) {
  const ts_tally *tally = ts_tally_find(tallies, word, about);
  if (tally == NULL) return (ts_stand){0};
  return ts_stand_of(tally->standing.worst, tally->standing.certainty, tally->duty);
}

ts_stand ts_stands_now(const ts_finding *finding) {
  const ts_case *now = &finding->view[TS_IN_PLACE];
  return ts_stand_of(now->standing.worst, now->standing.certainty, now->duty);
}

int ts_stand_heat(ts_word word, ts_stand stand) {
  if (word == TS_HAZARD) return (int)stand.rank;
  return word == TS_DUTY ? (int)stand.duty : (int)stand.certainty;
}

bool ts_same_stand(ts_word word, ts_stand a, ts_stand b) {
  if (word != TS_HAZARD) return ts_stand_heat(word, a) == ts_stand_heat(word, b);
  return a.likelihood == b.likelihood && a.severity == b.severity;
}

bool ts_stands_above(const ts_matrix *matrix, ts_word word, ts_stand stand) {
  if (word == TS_STOP) return stand.certainty != TS_GONE;
  if (word != TS_HAZARD || stand.likelihood == 0) return false;
  return ts_matrix_band(matrix, (int)stand.likelihood, (int)stand.severity)->above;
}

size_t ts_pair_of(const ts_assessment *a, const ts_finding *finding) {
  size_t low = 0, high = a->pair_count; /* ordered by subject, then rule */
  while (low < high) {
    size_t middle = (low + high) / 2;
    const ts_pair *pair = &a->pairs[middle];
    if (pair->subject < finding->subject ||
        (pair->subject == finding->subject && pair->rule < finding->rule))
      low = middle + 1;
    else
      high = middle;
  }
  bool found = low < a->pair_count && a->pairs[low].subject == finding->subject &&
               a->pairs[low].rule == finding->rule;
  return found ? low : SIZE_MAX;
}

/* ---- values ------------------------------------------------------------------------- */

ts_value ts_value_range(ts_range range) {
  return (ts_value){.range = range, .state = TS_SET_BY_USER};
}

ts_value ts_value_point(double x) { return ts_value_range((ts_range){x, x}); }

ts_value ts_value_choice(uint64_t bits) {
  return (ts_value){.choices = bits, .certain = bits, .state = TS_SET_BY_USER};
}

bool ts_slot_is_number(const ts_dossier *dossier, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(dossier, slot);
  if (fact->derived) return false;
  return fact->type == TS_QUANTITY || fact->type == TS_COUNT || fact->type == TS_DATE ||
         fact->type == TS_CLOCK;
}

double ts_slot_step(const ts_fact_def *fact) {
  if (fact->type == TS_COUNT) return 1;
  if (fact->type == TS_DATE) return 86400;
  return fact->type == TS_CLOCK ? 60 : 0;
}
