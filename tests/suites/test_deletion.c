/* Not known never counts as safe, and knowing never makes worse: on the demo productions.
 *
 * Each stated fact is made unknown, in memory and, for some, by taking its
 * attribute out of the file: no finding may get a milder worst score in any view,
 * no stop may go, and an assessment that holds must go on holding. And facts drawn inside what is
 * known must give scores within what was said. */
#include "assess_world.h"

#include "base/file.h"
#include "base/text.h"
#include "quantity/calendar.h"
#include "scratch.h"
#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const productions[] = {"lake-stunt", "stage-pool", "tank-serial"};

enum { PRODUCTIONS = sizeof productions / sizeof productions[0] };

/* Valgrind runs with this set: a few dozen instead of all. */
static size_t stride_of(size_t facts, size_t wanted) {
  if (getenv("TANKSIDE_TEST_SHORT") != NULL) wanted = 4;
  return facts > wanted ? facts / wanted : 1;
}

/* ---- comparing two assessments ------------------------------------------------------ */

static bool same_key(const ts_finding *a, const ts_finding *b) {
  return a->rule == b->rule && a->subject == b->subject && a->word == b->word &&
         ts_same(a->about, b->about);
}

static const ts_finding *match(const ts_finding *all, size_t count, const ts_finding *wanted) {
  for (size_t i = 0; i < count; i++)
    if (same_key(&all[i], wanted)) return &all[i];
  return NULL;
}

static bool failed_on(const ts_assessment *a, const ts_finding *f) {
  const char *rule = ts_rule_at(a->in.packs, f->rule)->id;
  const char *subject = ts_subject_at(a->in.dossier, f->subject)->path;
  for (size_t i = 0; i < a->failure_count; i++)
    if (ts_same(a->failures[i].rule, rule) && ts_same(a->failures[i].subject, subject)) return true;
  return false;
}

/* A rule whose courses cannot all be seen says its declared worst about nothing in particular. */
static int worst_rank(const ts_assessment *a, const ts_finding *f, int view) {
  const ts_finding *found = match(a->findings, a->finding_count, f);
  ts_finding any = *f;
  any.word = TS_HAZARD;
  any.about = "";
  const ts_finding *general = match(a->findings, a->finding_count, &any);
  int rank = found ? found->view[view].standing.worst.rank : 0;
  if (general != NULL && general->view[view].standing.unresolved &&
      general->view[view].standing.worst.rank > rank)
    rank = general->view[view].standing.worst.rank;
  return rank;
}

static bool still_stops(const ts_assessment *a, const ts_finding *f, int view) {
  const ts_finding *found = match(a->findings, a->finding_count, f);
  return found != NULL && found->view[view].standing.certainty != TS_GONE;
}

static void check_finding(const ts_assessment *before, const ts_finding *f,
                          const ts_assessment *after, const char *deleted) {
  for (int view = 0; view < TS_VIEWS; view++) {
    const ts_standing *s = &f->view[view].standing;
    if (failed_on(after, f)) continue; /* reported, and the whole is incomplete */
    if (f->word == TS_HAZARD)
      ck_assert_msg(worst_rank(after, f, view) >= s->worst.rank, "%s on %s got milder without %s",
                    ts_rule_at(before->in.packs, f->rule)->id,
                    ts_subject_at(before->in.dossier, f->subject)->path, deleted);
    if (f->word == TS_STOP && s->certainty != TS_GONE)
      ck_assert_msg(still_stops(after, f, view), "stop %s on %s went without %s",
                    ts_rule_at(before->in.packs, f->rule)->id,
                    ts_subject_at(before->in.dossier, f->subject)->path, deleted);
  }
}

/* A duty that was not met or open is never met because less is known. */
static void check_duty(const ts_finding *f, const ts_assessment *after, const char *deleted) {
  const ts_finding *found = match(after->duties, after->duty_count, f);
  if (failed_on(after, f) || f->view[TS_IN_PLACE].duty == TS_MET) return;
  ck_assert_msg(found != NULL && found->view[TS_IN_PLACE].duty != TS_MET,
                "a duty counts as met without %s", deleted);
}

static bool is_looked_at(const ts_assess_inputs *in, const ts_finding *f) {
  return in->wanted == NULL || in->wanted(in->wanted_context, f->rule, f->subject);
}

static void check_no_milder(const ts_assessment *before, const ts_assessment *after,
                            const char *deleted) {
  const ts_assess_inputs *in = &after->in;
  for (size_t i = 0; i < before->finding_count; i++)
    if (is_looked_at(in, &before->findings[i]))
      check_finding(before, &before->findings[i], after, deleted);
  for (size_t i = 0; i < before->duty_count; i++)
    if (is_looked_at(in, &before->duties[i])) check_duty(&before->duties[i], after, deleted);
  if (in->wanted == NULL && ts_assessment_holds(before))
    ck_assert_msg(ts_assessment_holds(after), "nothing holds any more without %s", deleted);
}

/* ---- deleting ------------------------------------------------------------------------- */

static bool is_stated(const assess_world *w, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(w->dossier, slot);
  return fact->type >= TS_QUANTITY && !fact->derived &&
         ts_slot_value(w->dossier, slot)->state == TS_STATED;
}

static size_t stated_count(const assess_world *w) {
  size_t count = 0;
  for (uint32_t slot = 0; slot < ts_slot_count(w->dossier); slot++) count += is_stated(w, slot);
  return count;
}

/* Only rules whose words on a subject rest on the fact can change what they say there. */
typedef struct {
  const ts_assessment *before;
  uint32_t slot;
} resting;

static bool said_on(const ts_spoken *said, uint32_t slot) {
  for (size_t i = 0; said != NULL && i < said->fact_count; i++)
    if (said->facts[i] == slot) return true;
  return false;
}

static bool any_rests(const ts_finding *all, size_t count, size_t rule, ts_subject subject,
                      uint32_t slot) {
  for (size_t i = 0; i < count; i++)
    for (int view = 0; view < TS_VIEWS; view++)
      if (all[i].rule == rule && all[i].subject == subject &&
          said_on(all[i].view[view].worst, slot))
        return true;
  return false;
}

static bool rests(void *context, size_t rule, ts_subject subject) {
  const resting *r = context;
  return any_rests(r->before->findings, r->before->finding_count, rule, subject, r->slot) ||
         any_rests(r->before->duties, r->before->duty_count, rule, subject, r->slot);
}

static void delete_in_memory(assess_world *w, const ts_assessment *before, uint32_t slot) {
  char path[256];
  const char *text = ts_arena_copy(w->arena, ts_slot_value(w->dossier, slot)->text);
  ts_slot_path(w->dossier, slot, path, sizeof path);
  ck_assert_msg(ts_dossier_set(w->dossier, path, "?", w->problems), "%s", assess_world_said(w));
  resting which = {before, slot};
  ts_assessment *after = assess_world_part(w, rests, &which);
  check_no_milder(before, after, path);
  ts_assessment_free(after);
  ck_assert_msg(ts_dossier_set(w->dossier, path, text, w->problems), "%s", assess_world_said(w));
}

START_TEST(no_fact_can_be_deleted_to_advantage) {
  assess_world w;
  assess_world_demo(&w, productions[_i]);
  ts_assessment *before = assess_world_run(&w);
  /* Every fact of the first; of the larger ones about so many. */
  size_t stride = stride_of(stated_count(&w), _i == 0 ? SIZE_MAX : 400), seen = 0;
  /* Counted among the stated facts, so that a short run samples all of the file. */
  for (uint32_t slot = 0; slot < ts_slot_count(w.dossier); slot++)
    if (is_stated(&w, slot) && before->read[slot] && seen++ % stride == 0)
      delete_in_memory(&w, before, slot);
  ck_assert_uint_gt(seen, 0);
  ts_assessment_free(before);
  assess_world_free(&w);
}
END_TEST

/* The text with the attribute that is written on or after this line taken out; NULL when it is not
 * there. */
static char *without_attribute(ts_arena *arena, const char *text, int line, const char *name) {
  const char *at = text;
  for (int i = 1; i < line && at != NULL; i++) at = strchr(at, '\n') + 1;
  char *start = ts_arena_printf(arena, "%s=\"", name);
  const char *found = strstr(at, start);
  while (found != NULL && strchr(" \n\t", found[-1]) == NULL) found = strstr(found + 1, start);
  if (found == NULL) return NULL;
  const char *end = strchr(found + strlen(start), '"') + 1;
  return ts_arena_printf(arena, "%.*s%s", (int)(found - text), text, end);
}

/* Copies every file of the dossier to the scratch folder, `changed` in place of one of them. */
static void write_copy(assess_world *w, const char *from, const char *to, const char *name,
                       const char *changed) {
  for (size_t i = 0; i < ts_source_count(w->dossier); i++) {
    const char *file = ts_source_name(w->dossier, i);
    size_t length;
    const char *text =
        ts_file_read(w->arena, ts_path_join(w->arena, from, file), 8 << 20, &length, w->problems);
    if (ts_same(file, name)) text = changed;
    ck_assert(ts_file_write(ts_path_join(w->arena, to, file), text, strlen(text), w->problems));
  }
}

static void delete_from_file(assess_world *w, const ts_assessment *before, const char *folder,
                             const char *scratch, uint32_t slot) {
  char path[256];
  size_t length;
  const ts_subject_info *subject = ts_subject_at(w->dossier, ts_slot_subject(w->dossier, slot));
  ts_slot_path(w->dossier, slot, path, sizeof path);
  char *text = ts_file_read(w->arena, ts_path_join(w->arena, folder, subject->file), 8 << 20,
                            &length, w->problems);
  char *cut = without_attribute(w->arena, text, ts_slot_line(w->dossier, slot),
                                ts_slot_fact(w->dossier, slot)->name);
  ck_assert_msg(cut != NULL, "no attribute for %s", path);
  write_copy(w, folder, scratch, subject->file, cut);
  assess_world copy = *w;
  copy.dossier = ts_dossier_read(ts_path_join(w->arena, scratch, "dossier.xml"), w->vocabulary,
                                 w->units, w->problems);
  ck_assert_msg(copy.dossier != NULL, "%s", assess_world_said(w));
  ts_assessment *after = assess_world_run(&copy);
  check_no_milder(before, after, path);
  ts_assessment_free(after);
  ts_dossier_free(copy.dossier);
}

START_TEST(no_attribute_can_be_cut_from_the_file_to_advantage) {
  assess_world w;
  char scratch[256];
  assess_world_demo(&w, productions[_i]);
  scratch_make(scratch, sizeof scratch);
  char *folder =
      ts_arena_printf(w.arena, "%s/shared/productions/%s", SOURCE_FOLDER, productions[_i]);
  ts_assessment *before = assess_world_run(&w);
  size_t stride = stride_of(stated_count(&w), 40), seen = 0;
  for (uint32_t slot = 0; slot < ts_slot_count(w.dossier); slot++)
    if (is_stated(&w, slot) && seen++ % stride == 0)
      delete_from_file(&w, before, folder, scratch, slot);
  ts_assessment_free(before);
  scratch_remove(scratch);
  assess_world_free(&w);
}
END_TEST

/* ---- drawing points ----------------------------------------------------------------------- */

static uint64_t draw(uint64_t *state) {
  *state = *state * 6364136223846793005ULL + 1442695040888963407ULL;
  return *state >> 33;
}

/* A point in a range: the ends and the middle oftener than their share, for that is where rules
 * turn. */
static double point_in(ts_range range, uint64_t *state) {
  uint64_t which = draw(state) % 8;
  if (which == 0) return range.lo;
  if (which == 1) return range.hi;
  return range.lo + (range.hi - range.lo) * (double)(draw(state) % 1001) / 1000;
}

static const char *number_point(assess_world *w, const ts_fact_def *fact, ts_range range,
                                uint64_t *state) {
  char text[128];
  double x = point_in(range, state);
  if (fact->type == TS_COUNT) x = floor(x);
  if (fact->type == TS_DATE)
    return ts_arena_copy(w->arena, ts_date_write(floor(x / 86400) * 86400, text, sizeof text));
  if (fact->type == TS_CLOCK) return ts_arena_copy(w->arena, ts_clock_show(x, text, sizeof text));
  ts_quantity_write(w->units, (ts_range){x, x}, ts_fact_dim(w->vocabulary, fact), fact->unit,
                    TS_METRIC, text, sizeof text);
  return ts_arena_copy(w->arena, text);
}

static const char *word_point(assess_world *w, const ts_fact_def *fact, const ts_value *value,
                              uint64_t *state) {
  ts_text text = {0};
  char *words = ts_arena_copy(w->arena, fact->choices), *rest = NULL;
  unsigned possible = (unsigned)__builtin_popcountll(value->choices), bit = 0;
  unsigned wanted = possible > 0 ? (unsigned)(draw(state) % possible) : 0, at = 0;
  for (char *word = strtok_r(words, " ", &rest); word; word = strtok_r(NULL, " ", &rest), bit++) {
    if (!(value->choices >> bit & 1)) continue;
    bool take =
        fact->type == TS_SET ? (value->certain >> bit & 1) || draw(state) % 2 : at == wanted;
    if (take) ts_text_addf(&text, "%s%s", text.length ? " " : "", word);
    at++;
  }
  const char *copy = ts_arena_copy(w->arena, text.length ? text.data : "none");
  ts_text_release(&text);
  return copy;
}

static const char *point_of(assess_world *w, const ts_fact_def *fact, const ts_value *value,
                            uint64_t *state) {
  if (fact->type == TS_FLAG) {
    if (value->choices == 3) return draw(state) % 2 ? "yes" : "no";
    return value->choices & 2 ? "yes" : "no";
  }
  if (fact->type == TS_CHOICE || fact->type == TS_SET) return word_point(w, fact, value, state);
  return number_point(w, fact, value->range, state);
}

static bool is_settled(const ts_fact_def *fact, const ts_value *value) {
  if (fact->type == TS_SET) return value->choices == value->certain;
  if (fact->type == TS_FLAG || fact->type == TS_CHOICE)
    return (value->choices & (value->choices - 1)) == 0;
  return value->range.lo == value->range.hi;
}

/* Every open fact that some rule read gets a point of its own. The dossier is not put back. */
static void draw_points(assess_world *w, const ts_assessment *before, uint64_t *state) {
  for (uint32_t slot = 0; slot < ts_slot_count(w->dossier); slot++) {
    const ts_fact_def *fact = ts_slot_fact(w->dossier, slot);
    const ts_value *value = ts_slot_value(w->dossier, slot);
    char path[256];
    if (!before->read[slot] || fact->type < TS_QUANTITY || fact->derived || is_settled(fact, value))
      continue;
    const char *text = point_of(w, fact, value, state);
    ts_slot_path(w->dossier, slot, path, sizeof path);
    ck_assert_msg(ts_dossier_set(w->dossier, path, text, w->problems), "%s", assess_world_said(w));
  }
}

/* The scores of a point lie within [best, worst] of what it was drawn from. */
static void check_within(const ts_assessment *wide, const ts_assessment *narrow) {
  check_no_milder(narrow, wide, "(drawn inside)");
  for (size_t i = 0; i < wide->finding_count; i++) {
    const ts_finding *f = &wide->findings[i];
    const ts_finding *found = match(narrow->findings, narrow->finding_count, f);
    for (int view = 0; f->word == TS_HAZARD && view < TS_VIEWS; view++) {
      int best = f->view[view].standing.best.rank;
      ck_assert_msg(best == 0 || (found && found->view[view].standing.worst.rank >= best),
                    "%s on %s came out milder than its best",
                    ts_rule_at(wide->in.packs, f->rule)->id,
                    ts_subject_at(wide->in.dossier, f->subject)->path);
    }
  }
}

START_TEST(points_drawn_inside_score_within_best_and_worst) {
  uint64_t state = 20270309;
  int samples = getenv("TANKSIDE_TEST_SHORT") != NULL ? 1 : 8;
  for (int i = 0; i < samples; i++) {
    assess_world w;
    assess_world_demo(&w, productions[_i]);
    ts_assessment *wide = assess_world_run(&w);
    draw_points(&w, wide, &state);
    ts_assessment *narrow = assess_world_run(&w);
    check_within(wide, narrow);
    ts_assessment_free(narrow);
    ts_assessment_free(wide);
    assess_world_free(&w);
  }
}
END_TEST

Suite *suite_deletion(void);

Suite *suite_deletion(void) {
  Suite *suite = suite_create("deletion");
  TCase *cases = tcase_create("deletion");
  tcase_set_timeout(cases, 540);
  /* Where each step costs ten times or more, the smallest production stands for all. */
  int last = getenv("TANKSIDE_TEST_SHORT") != NULL ? 1 : PRODUCTIONS;
  tcase_add_loop_test(cases, no_fact_can_be_deleted_to_advantage, 0, last);
  tcase_add_loop_test(cases, no_attribute_can_be_cut_from_the_file_to_advantage, 0, last);
  tcase_add_loop_test(cases, points_drawn_inside_score_within_best_and_worst, 0, last);
  suite_add_tcase(suite, cases);
  return suite;
}
