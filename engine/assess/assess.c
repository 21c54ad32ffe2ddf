/* Assessing: every rule over every subject of its kind, in three views. */
#include "assess/assessment.h"
#include "assess/conclude.h"
#include "assess/crew.h"
#include "assess/label.h"
#include "assess/merge.h"
#include "assess/outlook.h"
#include "assess/scope.h"
#include "base/file.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

/* ---- names that must exist ------------------------------------------------ */

static const char *nearest_control(const ts_packs *packs, const char *id) {
  size_t count = ts_control_count(packs);
  const char **ids = ts_alloc((count + 1) * sizeof *ids);
  for (size_t i = 0; i < count; i++) ids[i] = ts_control_at(packs, i)->id;
  const char *near = ts_nearest(id, ids, count);
  free(ids);
  return near;
}

static void unknown_control(const ts_assess_inputs *in, const ts_applied_control *applied,
                            ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  const char *near = nearest_control(in->packs, applied->control);
  const char *file = applied->file;
  if (in->folder != NULL) file = ts_path_join(arena, in->folder, file);
  ts_report(problems, TS_ERROR, file, applied->line, "unknown control \"%s\"%s%s%s",
            applied->control, near ? "; the nearest name is \"" : "", near ? near : "",
            near ? "\"" : "");
  ts_arena_free(arena);
}

/* What a control is said to reach must be a value of the fact it changes first. */
static bool reaches_a_value(const ts_assess_inputs *in, const ts_applied_control *applied,
                            const ts_control *control, ts_diagnostics *problems) {
  if (applied->to == NULL) return true;
  ts_arena *arena = ts_arena_new();
  const char *file = applied->file;
  if (in->folder != NULL) file = ts_path_join(arena, in->folder, file);
  ts_value value;
  bool good = control->change_count > 0;
  if (good)
    good =
        ts_fact_read(ts_dossier_vocabulary(in->dossier), in->units, arena, control->changes[0].def,
                     applied->to, &value, problems, file, applied->line);
  else
    ts_report(problems, TS_ERROR, file, applied->line,
              "control \"%s\" changes no fact, so it cannot reach \"%s\"", control->id,
              applied->to);
  ts_arena_free(arena);
  return good;
}

bool ts_controls_known(const ts_assess_inputs *in, ts_diagnostics *problems) {
  bool known = true;
  for (size_t i = 0; i < ts_applied_count(in->dossier); i++) {
    const ts_applied_control *applied = ts_applied_at(in->dossier, i);
    const ts_control *control = ts_control_find(in->packs, applied->control);
    if (control == NULL) unknown_control(in, applied, problems);
    known = control != NULL && reaches_a_value(in, applied, control, problems) && known;
  }
  return known;
}

/* ---- one rule over one subject -------------------------------------------- */

static void failure_add(ts_assessment *a, const char *rule, const char *subject, const char *text) {
  if (a->failure_count > 0) {
    const ts_failure *last = &a->failures[a->failure_count - 1];
    if (ts_same(last->rule, rule) && ts_same(last->subject, subject) && ts_same(last->text, text))
      return;
  }
  TS_GROW(a->failures, a->failure_count, a->failure_capacity);
  a->failures[a->failure_count++] =
      (ts_failure){.rule = rule, .subject = subject, .text = ts_arena_copy(a->arena, text)};
}

static void note_failure(ts_assessment *a, size_t rule, ts_subject subject, ts_view view,
                         const char *text) {
  failure_add(a, ts_rule_at(a->in.packs, rule)->id, ts_subject_at(a->in.dossier, subject)->path,
              text);
  ts_merge_failed(a, rule, subject, view);
}

/* What decided that the rule does not apply: the last decision of a course. */
static void skip(ts_assessment *a, ts_skip *skip, ts_subject subject, ts_evaluator *evaluator) {
  const ts_course *course = ts_course_worded(evaluator, 0);
  *skip = (ts_skip){.subject = subject};
  if (course->decision_count == 0) return;
  const ts_decision *last = &course->decisions[course->decision_count - 1];
  skip->because = ts_arena_copy(a->arena, last->text);
  skip->withheld = ts_arena_copy(a->arena, last->withheld);
}

/* Counts it in the list of what was looked at; where it is to be put into words, why it is
 * skipped. */
static ts_skip *looked_at(ts_assessment *a, const ts_asked *asked) {
  ts_look *look = &a->looks[asked->rule];
  look->subjects++;
  look->applied += asked->applied;
  look->found += asked->found;
  if (asked->applied || look->skipped++ >= TS_SKIPS_SHOWN || a->in.without_words) return NULL;
  return &look->skips[look->skipped - 1];
}

/* How the rule took this subject. */
static void look(ts_assessment *a, ts_asked *asked, ts_evaluator *evaluator,
                 const ts_evaluation *evaluation) {
  asked->applied = evaluation->course_count == 0;
  for (size_t i = 0; i < evaluation->course_count; i++) {
    asked->applied = asked->applied || evaluation->courses[i].applies;
    asked->found = asked->found || evaluation->courses[i].outcome_count > 0;
  }
  ts_skip *skipped = looked_at(a, asked);
  if (skipped == NULL) return;
  skip(a, skipped, asked->subject, evaluator);
  if (a->in.for_next) asked->skip = ts_arena_keep(a->arena, skipped, sizeof *skipped);
}

static void keep_pair(ts_assessment *a, size_t rule, ts_subject subject,
                      const ts_evaluation *evaluation) {
  ts_pair pair = {.rule = (uint32_t)rule,
                  .subject = subject,
                  .read_count = (uint32_t)evaluation->read_count,
                  .courses = (uint32_t)evaluation->course_count};
  pair.reads = ts_arena_keep(a->arena, evaluation->reads, pair.read_count * sizeof *pair.reads);
  TS_GROW(a->pairs, a->pair_count, a->pair_capacity);
  a->pairs[a->pair_count++] = pair;
}

/* Each view counts the controls of the one before it and maybe more: where those change no fact
 * that was read, what was evaluated last still holds and only credit differs. */
static void assess_one(ts_worker *w, size_t rule, ts_subject subject) {
  ts_assessment *a = &w->a;
  const ts_evaluation *evaluation = NULL;
  ts_asked asked = {.rule = rule, .subject = subject};
  ts_kept_words kept = {.count = 0};
  for (int view = TS_AS_DESCRIBED; view < TS_VIEWS; view++) {
    ts_evaluator_lay(w->evaluator, w->laid, view);
    if (evaluation == NULL ||
        ts_laid_reaches(w->laid, subject, view, evaluation->reads, evaluation->read_count)) {
      evaluation = ts_evaluate(w->evaluator, rule, subject, NULL, 0);
      kept.count = 0;
      if (a->in.for_next) ts_ear_hear(&w->ear, evaluation);
    }
    if (view == TS_AS_DESCRIBED) look(a, &asked, w->evaluator, evaluation);
    ts_merge(a, rule, subject, (ts_view)view, w->evaluator, evaluation, &kept);
    if (view == TS_IN_PLACE && evaluation->failure == NULL) keep_pair(a, rule, subject, evaluation);
    if (evaluation->failure != NULL)
      note_failure(a, rule, subject, (ts_view)view, evaluation->failure);
    asked.failed = asked.failed || evaluation->failure != NULL;
  }
  if (a->in.for_next) ts_ear_keep(&w->ear, a, asked);
}

/* As an earlier assessment has it. Which of the subjects that are skipped are told of may be
 * others than then: those are put into words now. */
static void assess_again(ts_worker *w, const ts_reuse *reuse, const ts_asked *asked) {
  ts_assessment *a = &w->a;
  ts_reuse_take(reuse, asked, a);
  ts_skip *skipped = looked_at(a, asked);
  if (skipped == NULL) return;
  if (asked->skip != NULL) {
    *skipped = *asked->skip;
    skipped->because = ts_arena_copy(a->arena, skipped->because);
    skipped->withheld = ts_arena_copy(a->arena, skipped->withheld);
  } else {
    ts_evaluator_lay(w->evaluator, w->laid, TS_AS_DESCRIBED);
    ts_evaluate(w->evaluator, asked->rule, asked->subject, NULL, 0);
    skip(a, skipped, asked->subject, w->evaluator);
  }
  if (a->in.for_next)
    a->asked[a->asked_count - 1].skip = ts_arena_keep(a->arena, skipped, sizeof *skipped);
}

static bool is_asked(const ts_assess_inputs *in, size_t rule, ts_subject subject) {
  const char *each = ts_rule_at(in->packs, rule)->each;
  return ts_same(ts_subject_at(in->dossier, subject)->entity->name, each) &&
         (in->wanted == NULL || in->wanted(in->wanted_context, rule, subject));
}

/* ---- all of them ----------------------------------------------------------- */

/* How far the lists of a worker had come. */
typedef struct {
  size_t findings, duties, pairs, failures, asked;
} extent;

/* Who took a subject, and what of that worker's lists is about it. */
typedef struct {
  const ts_assessment *by;
  extent from, to;
} part;

static extent extent_of(const ts_assessment *a) {
  return (extent){a->finding_count, a->duty_count, a->pair_count, a->failure_count, a->asked_count};
}

typedef struct {
  part *parts; /* by subject */
  const ts_reuse *reuse;
} whole;

static void assess_subject(ts_worker *w, void *context, size_t number) {
  whole *all = context;
  ts_subject subject = (ts_subject)number;
  extent from = extent_of(&w->a);
  for (size_t rule = 0; rule < ts_rule_count(w->a.in.packs); rule++)
    if (is_asked(&w->a.in, rule, subject)) {
      const ts_asked *asked = ts_reuse_find(all->reuse, rule, subject);
      if (asked != NULL)
        assess_again(w, all->reuse, asked);
      else
        assess_one(w, rule, subject);
    }
  all->parts[number] = (part){&w->a, from, extent_of(&w->a)};
}

#define JOIN(list, count, first, end)                                                              \
  for (size_t i = (first); i < (end); i++) a->list[a->count++] = p->by->list[i];

static void join(ts_assessment *a, const part *p) {
  JOIN(findings, finding_count, p->from.findings, p->to.findings)
  JOIN(duties, duty_count, p->from.duties, p->to.duties)
  JOIN(pairs, pair_count, p->from.pairs, p->to.pairs)
  JOIN(failures, failure_count, p->from.failures, p->to.failures)
  JOIN(asked, asked_count, p->from.asked, p->to.asked)
}

/* For all that the workers have, and no more. */
static void make_room(ts_assessment *a, const ts_crew *crew) {
  extent all = {0};
  for (size_t i = 0; i < crew->count; i++) {
    extent its = extent_of(&crew->workers[i].a);
    all.findings += its.findings;
    all.duties += its.duties;
    all.pairs += its.pairs;
    all.failures += its.failures;
    all.asked += its.asked;
  }
  TS_RESERVE(a->findings, all.findings, a->finding_capacity);
  TS_RESERVE(a->duties, all.duties, a->duty_capacity);
  TS_RESERVE(a->pairs, all.pairs, a->pair_capacity);
  TS_RESERVE(a->failures, all.failures, a->failure_capacity);
  TS_RESERVE(a->asked, all.asked, a->asked_capacity);
}

static size_t skips_shown(const ts_look *look) {
  return look->skipped < TS_SKIPS_SHOWN ? look->skipped : TS_SKIPS_SHOWN;
}

/* Each worker has kept the first it met, so the first of all are among those. */
static void join_skips(ts_look *look, const ts_look *more) {
  size_t had = skips_shown(look), new = skips_shown(more);
  ts_skip all[TS_SKIPS_SHOWN] = {{0}};
  for (size_t i = 0, k = 0, n = 0; n < TS_SKIPS_SHOWN && (i < had || k < new); n++) {
    bool ours = k == new || (i < had && look->skips[i].subject < more->skips[k].subject);
    all[n] = ours ? look->skips[i++] : more->skips[k++];
  }
  size_t kept = had + new < TS_SKIPS_SHOWN ? had + new : TS_SKIPS_SHOWN;
  memcpy(look->skips, all, kept * sizeof *all);
}

static void join_looks(ts_assessment *a, const ts_assessment *by) {
  for (size_t rule = 0; rule < ts_rule_count(a->in.packs); rule++) {
    ts_look *look = &a->looks[rule];
    const ts_look *more = &by->looks[rule];
    join_skips(look, more);
    look->subjects += more->subjects;
    look->applied += more->applied;
    look->found += more->found;
    look->skipped += more->skipped;
  }
  a->taken_over += by->taken_over;
  for (uint32_t slot = 0; slot < ts_slot_count(a->in.dossier); slot++)
    a->read[slot] = a->read[slot] || by->read[slot];
}

/* By subject, then rule, whoever took which. */
static void assess_all(ts_assessment *a, ts_crew *crew) {
  ts_reuse *reuse = ts_reuse_new(&a->in);
  whole all = {ts_alloc((ts_subject_count(a->in.dossier) + 1) * sizeof *all.parts), reuse};
  crew->to = a->in.scores_only ? 1 : 0.2;
  ts_crew_find(crew, assess_subject, &all);
  make_room(a, crew);
  for (ts_subject s = 0; s < ts_subject_count(a->in.dossier); s++) join(a, &all.parts[s]);
  for (size_t i = 0; i < crew->count; i++) join_looks(a, &crew->workers[i].a);
  free(all.parts);
  ts_reuse_free(reuse);
}

/* ---- the whole ------------------------------------------------------------ */

static ts_assessment *assessment_new(const ts_assess_inputs *inputs) {
  ts_arena *arena = ts_arena_new();
  ts_assessment *a = ts_arena_alloc(arena, sizeof *a);
  a->arena = arena;
  a->in = *inputs;
  a->looks = ts_arena_alloc(arena, (ts_rule_count(inputs->packs) + 1) * sizeof *a->looks);
  a->read = ts_arena_alloc(arena, (ts_slot_count(inputs->dossier) + 1) * sizeof *a->read);
  a->labels = ts_labels(inputs->dossier, arena);
  return a;
}

ts_assessment *ts_assess(const ts_assess_inputs *inputs, ts_diagnostics *problems) {
  if (!ts_controls_known(inputs, problems)) return NULL;
  ts_variant_settle(inputs->dossier);
  ts_assessment *a = assessment_new(inputs);
  ts_crew *crew = ts_crew_new(a);
  assess_all(a, crew);
  if (inputs->no_rules_for != NULL)
    failure_add(a, inputs->no_rules_for, ts_subject_at(inputs->dossier, 0)->path,
                ts_arena_printf(a->arena, "no rules for jurisdiction \"%s\" were found",
                                inputs->no_rules_for));
  ts_conclude(a, problems);
  ts_crew_found(crew);
  if (!inputs->scores_only) ts_outlook(crew);
  ts_crew_free(crew);
  return a;
}

void ts_assessment_free(ts_assessment *assessment) {
  if (assessment == NULL) return;
  free(assessment->findings);
  free(assessment->duties);
  free(assessment->pairs);
  free(assessment->failures);
  free(assessment->asked);
  ts_arena_free(assessment->arena);
}
