/* The assessment in a screenful. */
#include "assess/wording.h"
#include "base/text.h"
#include "command/command.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { FINDINGS_SHOWN = 8, DUTIES_SHOWN = 5, QUESTIONS_SHOWN = 5, FAILURES_SHOWN = 5 };

typedef struct {
  const ts_session *s;
  const ts_assessment *a;
  ts_wording *wording;
  ts_word word; /* TS_STOP or TS_HAZARD */
  bool *shown;  /* by rule */
} session_view;

static void line(const char *first, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void line(const char *first, const char *format, ...) {
  char text[1024];
  va_list list;
  va_start(list, format);
  vsnprintf(text, sizeof text, format, list);
  va_end(list);
  print_folded(first, text);
}

static const char *fact_text(const ts_session *s, const char *name) {
  const ts_subject_info *production = ts_subject_at(s->dossier, 0);
  for (size_t i = 0; i < ts_fact_count(s->vocabulary, production->entity); i++)
    if (ts_same(ts_fact_at(s->vocabulary, production->entity, i)->name, name))
      return ts_slot_value(s->dossier, production->slot + (uint32_t)i)->text;
  return NULL;
}

static void heading(const ts_session *s) {
  const char *title = fact_text(s, "title"), *revision = fact_text(s, "revision");
  const char *jurisdiction = fact_text(s, "jurisdiction");
  line("", "%s, revision %s", title ? title : "untitled", revision ? revision : "not given");
  line("", "%zu rules for %s, matrix %s", ts_rule_count(s->packs),
       jurisdiction ? jurisdiction : "no jurisdiction", ts_matrix_id(s->matrix));
}

/* ---- counts ----------------------------------------------------------------------- */

static void count(size_t number, const char *one, const char *many) {
  printf("  %4zu %s\n", number, number == 1 ? one : many);
}

static void counts(ts_summary sum) {
  puts("\nWith the controls that are in place:");
  count(sum.stops, "stop", "stops");
  printf("  %4zu of %zu hazard%s above the line\n", sum.above, sum.hazards, plural(sum.hazards));
  printf("  %4zu %s not met, %zu open, %zu met\n", sum.duties_not_met,
         sum.duties_not_met == 1 ? "duty" : "duties", sum.duties_open, sum.duties_met);
  count(sum.open, "fact not known that a finding rests on",
        "facts not known that findings rest on");
  if (sum.waived > 0) count(sum.waived, "finding waived", "findings waived");
  if (!sum.complete)
    printf("  NOT COMPLETE: %zu %s\n", sum.failed, sum.failed == 1 ? "failure" : "failures");
}

static void failures(const ts_assessment *a) {
  if (a->failure_count == 0) return;
  puts("\nFailed, so not complete");
  for (size_t i = 0; i < a->failure_count && i < FAILURES_SHOWN; i++) {
    const ts_failure *f = &a->failures[i];
    line("  ", "%s%s%s%s%s", f->rule ? f->rule : "", f->subject ? " on " : "",
         f->subject ? f->subject : "", f->rule ? ": " : "", f->text);
  }
  if (a->failure_count > FAILURES_SHOWN)
    printf("  and %zu more\n", a->failure_count - FAILURES_SHOWN);
}

/* ---- tasks as bars ----------------------------------------------------------------- */

/* What stands in one task, or outside all of them. */
typedef struct {
  int worst, best; /* places of bands from the mildest, from 1; 0: none */
  size_t above, stops;
} task_row;

/* The place of a score's band, counted from the mildest. */
static int band_place(const ts_matrix *matrix, ts_score score) {
  if (score.likelihood == 0) return 0;
  const ts_band *band = ts_matrix_band(matrix, score.likelihood, score.severity);
  int place = 1;
  for (size_t i = 0; i < matrix->band_count; i++) place += matrix->bands[i].rank < band->rank;
  return place;
}

static const ts_band *band_at(const ts_matrix *matrix, int place) {
  for (size_t i = 0; i < matrix->band_count; i++) {
    int here = 1;
    for (size_t k = 0; k < matrix->band_count; k++)
      here += matrix->bands[k].rank < matrix->bands[i].rank;
    if (here == place) return &matrix->bands[i];
  }
  return &matrix->bands[0];
}

static void add_to_row(const ts_assessment *a, const ts_finding *f, task_row *row) {
  const ts_standing *now = &f->view[TS_IN_PLACE].standing;
  if (f->word == TS_STOP) row->stops += now->certainty != TS_GONE;
  if (f->word != TS_HAZARD) return;
  int worst = band_place(a->in.matrix, now->worst), best = band_place(a->in.matrix, now->best);
  if (worst > row->worst) row->worst = worst;
  if (best > row->best) row->best = best;
  row->above += now->worst.likelihood > 0 && f->waiver == NULL &&
                ts_matrix_band(a->in.matrix, now->worst.likelihood, now->worst.severity)->above;
}

/* By task, and last what is outside all of them. */
static task_row *all_rows(const ts_assessment *a, ts_arena *arena) {
  ts_subject subjects = ts_subject_count(a->in.dossier);
  task_row *rows = ts_arena_alloc(arena, ((size_t)subjects + 1) * sizeof *rows);
  for (size_t i = 0; i < a->finding_count; i++) {
    ts_subject task = ts_leads_to(a->in.dossier, a->findings[i].subject, "task");
    add_to_row(a, &a->findings[i], &rows[task != TS_NO_SUBJECT ? task : subjects]);
  }
  return rows;
}

/* One cell for each band: what is sure even at best, what may be, and nothing. */
static void bar(const ts_matrix *matrix, const task_row *row) {
  for (int place = 1; place <= (int)matrix->band_count; place++)
    fputs(place <= row->best ? "####" : place <= row->worst ? "====" : "....", stdout);
}

/* What is left for the names of tasks. */
static void task_head(const ts_matrix *matrix, const char *id, const char *label) {
  char head[256];
  int width = 54 - 4 * (int)matrix->band_count;
  snprintf(head, sizeof head, "  %-5s %s", id, label);
  print_cut(head, width < 20 ? 20 : width);
  fputs("  ", stdout);
}

static void task_line(const ts_matrix *matrix, const char *id, const char *label,
                      const task_row *row) {
  task_head(matrix, id, label);
  bar(matrix, row);
  printf("  %-9s %5zu %5zu\n", row->worst ? band_at(matrix, row->worst)->word : "-", row->above,
         row->stops);
}

static void tasks(const ts_session *s, const ts_assessment *a) {
  puts("\nTasks in order: # even at best, = at worst");
  task_head(s->matrix, "", "");
  for (int place = 1; place <= (int)s->matrix->band_count; place++)
    printf("%-4s", band_at(s->matrix, place)->letter);
  printf("  %-9s %5s %5s\n", "worst", "above", "stops");
  const task_row *rows = all_rows(a, s->arena);
  ts_subject subjects = ts_subject_count(s->dossier);
  for (ts_subject subject = 0; subject < subjects; subject++) {
    const ts_subject_info *info = ts_subject_at(s->dossier, subject);
    if (!ts_same(info->entity->name, "task")) continue;
    task_line(s->matrix, info->path, a->labels[subject], &rows[subject]);
  }
  task_line(s->matrix, "", "sites, people, days, production", &rows[subjects]);
}

/* ---- findings ----------------------------------------------------------------------- */

static void place(const session_view *v, size_t index, const ts_finding_view *f) {
  const char *because = ts_wording_because(v->wording, &v->a->findings[index]);
  line("            ", "%s: %s", f->subject, f->subject_label);
  if (because != NULL && because[0] != '\0') print_folded("            ", because);
}

static void stop(const ts_finding_view *f) {
  const char *sure = f->standing[TS_IN_PLACE].certainty == TS_CERTAIN ? "" : " (possible)";
  char head[32];
  snprintf(head, sizeof head, "  STOP %-5s ", f->id);
  line(head, "%s%s%s%s", f->title, f->about[0] ? ": " : "", f->about, sure);
}

static void hazard(const ts_session *s, const ts_finding_view *f) {
  ts_score worst = f->standing[TS_IN_PLACE].worst;
  const ts_band *band = ts_matrix_band(s->matrix, worst.likelihood, worst.severity);
  char head[48];
  snprintf(head, sizeof head, "  %s %2d %-5s ", band->letter, worst.likelihood * worst.severity,
           f->id);
  line(head, "%s%s%s (%s%s)", f->title, f->about[0] ? ": " : "", f->about, band->word,
       f->standing[TS_IN_PLACE].settled ? "" : " at worst");
}

/* One rule often finds the same on many subjects: the worst is shown, the others are counted. */
static bool shown_before(const session_view *v, size_t index) {
  bool *shown = &v->shown[v->a->findings[index].rule];
  bool before = *shown;
  *shown = true;
  return before;
}

static bool stands(const session_view *v, size_t index) {
  ts_finding_view f = ts_finding_at(v->a, index);
  if (v->word == TS_STOP)
    return ts_same(f.word, "stop") && f.standing[TS_IN_PLACE].certainty != TS_GONE;
  ts_score worst = f.standing[TS_IN_PLACE].worst;
  return ts_same(f.word, "hazard") && !f.waived && worst.likelihood > 0 &&
         ts_matrix_band(v->s->matrix, worst.likelihood, worst.severity)->above;
}

static void others(const session_view *v, size_t index) {
  size_t more = 0;
  for (size_t i = index + 1; i < ts_finding_count(v->a); i++)
    more += v->a->findings[i].rule == v->a->findings[index].rule && stands(v, i);
  if (more > 0) printf("            and on %zu more like it\n", more);
}

static void standing_findings(const session_view *v, const char *title) {
  size_t shown = 0;
  for (size_t i = 0; i < ts_finding_count(v->a); i++) {
    if (!stands(v, i) || shown_before(v, i)) continue;
    ts_finding_view f = ts_finding_at(v->a, i);
    if (shown++ == 0) printf("\n%s\n", title);
    if (shown > FINDINGS_SHOWN) continue;
    if (v->word == TS_STOP)
      stop(&f);
    else
      hazard(v->s, &f);
    place(v, i, &f);
    others(v, i);
  }
  if (shown > FINDINGS_SHOWN) printf("  and %zu more rules\n", shown - FINDINGS_SHOWN);
}

static void duties(const ts_assessment *a) {
  size_t shown = 0;
  for (size_t i = 0; i < ts_duty_count(a); i++) {
    ts_finding_view f = ts_duty_at(a, i);
    if (!ts_same(f.state, "not-met")) continue;
    if (shown++ == 0) puts("\nDuties not met");
    char head[32];
    snprintf(head, sizeof head, "  %-5s ", f.id);
    if (shown <= DUTIES_SHOWN) line(head, "%s (%s)", f.title, f.subject);
  }
  if (shown > DUTIES_SHOWN) printf("  and %zu more\n", shown - DUTIES_SHOWN);
}

/* The last day there is in the vocabulary is no answer that anybody would give. */
static const char *best_answer(const ts_session *s, const ts_open_fact *open,
                               const ts_fact_def *fact) {
  const char *best = ts_show_value(s->dossier, fact, &open->best, s->arena);
  bool last = fact->type == TS_DATE && ts_same(best, fact->high);
  return last ? "as late as can be" : best;
}

static void answer(const ts_session *s, const ts_open_fact *open, const ts_fact_def *fact) {
  if (open->removes == 0) return;
  printf("      an answer takes away up to %d: %s\n", open->removes, best_answer(s, open, fact));
}

static void questions(const ts_session *s, const ts_assessment *a) {
  if (a->open_count == 0) return;
  puts("\nAsk first (scores added over all findings; what takes most away)");
  for (size_t i = 0; i < a->open_count && i < QUESTIONS_SHOWN; i++) {
    const ts_fact_def *fact = ts_slot_fact(s->dossier, a->open[i].slot);
    char path[256];
    line("  ", "%s: %s; ask %s%s", ts_slot_path(s->dossier, a->open[i].slot, path, sizeof path),
         fact->meaning, strncmp(fact->asked, "the ", 4) == 0 ? "" : "the ", fact->asked);
    answer(s, &a->open[i], fact);
  }
  if (a->open_count > QUESTIONS_SHOWN) printf("  and %zu more\n", a->open_count - QUESTIONS_SHOWN);
}

static void where_to_look(const ts_assessment *a) {
  if (a->finding_count == 0) return;
  printf("\nThe whole why of a finding, and what would bring it down: --explain %s\n",
         a->findings[0].id);
}

static void show(const ts_session *s, const ts_assessment *a, ts_word word, const char *title) {
  session_view view = {.s = s, .a = a, .wording = ts_wording_new(a), .word = word};
  view.shown = ts_arena_alloc(s->arena, (ts_rule_count(s->packs) + 1) * sizeof *view.shown);
  standing_findings(&view, title);
  ts_wording_free(view.wording);
}

void print_summary(const ts_session *session, const ts_assessment *assessment) {
  heading(session);
  counts(ts_assessment_summary(assessment));
  failures(assessment);
  tasks(session, assessment);
  show(session, assessment, TS_STOP, "Stops");
  show(session, assessment, TS_HAZARD, "Above the line, worst first");
  duties(assessment);
  questions(session, assessment);
  where_to_look(assessment);
  putchar('\n');
  print_folded("", caution);
}
