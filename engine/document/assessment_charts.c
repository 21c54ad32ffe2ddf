/* What charts are drawn from: where things stand on an axis, in thousandths of its length.
 *
 * A drawing names the finding whose words and numbers it shows, so nothing is said twice and
 * what is withheld there is withheld here. Axes and surface intervals are in assessment_lines.c. */
#include "assess/ceiling.h"
#include "assess/probe.h"
#include "document/assessment_axis.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- tasks on the matrix -------------------------------------------------------- */

typedef struct {
  ts_subject task;
  ts_score worst[TS_VIEWS];
} placed;

static bool is_worse(ts_score a, ts_score b) {
  if (a.rank != b.rank) return a.rank > b.rank;
  return a.likelihood * a.severity > b.likelihood * b.severity;
}

/* By subject, for those that are tasks: the worst in each. */
static placed *worst_of_each(const ts_paper *paper) {
  ts_subject subjects = ts_subject_count(paper->dossier);
  placed *all = ts_arena_alloc(paper->arena, ((size_t)subjects + 1) * sizeof *all);
  for (size_t i = 0; i < paper->a->finding_count; i++) {
    const ts_finding *finding = &paper->a->findings[i];
    ts_subject task = ts_leads_to(paper->dossier, finding->subject, "task");
    if (finding->word != TS_HAZARD || task == TS_NO_SUBJECT) continue;
    for (int v = 0; v < TS_VIEWS; v++)
      if (is_worse(finding->view[v].standing.worst, all[task].worst[v]))
        all[task].worst[v] = finding->view[v].standing.worst;
  }
  return all;
}

/* How many stand in each cell: they share the room. */
typedef size_t cells[TS_VIEWS][TS_LEVELS + 1][TS_LEVELS + 1];

static size_t *cell_of(cells in, const placed *at, int view) {
  return &in[view][at->worst[view].likelihood][at->worst[view].severity];
}

static void place(ts_paper *paper, const placed *at, size_t number, int view, size_t before,
                  size_t there) {
  static const char *const views[] = {"described", "in-place", "planned"};
  ts_score score = at->worst[view];
  if (score.likelihood == 0) return;
  ts_xml_start(&paper->out, "place");
  ts_xml_attribute(&paper->out, "task", ts_paper_path(paper, at->task));
  ts_xml_attributef(&paper->out, "number", "%zu", number);
  ts_xml_attribute(&paper->out, "as", views[view]);
  ts_xml_attributef(&paper->out, "likelihood", "%d", score.likelihood);
  ts_xml_attributef(&paper->out, "severity", "%d", score.severity);
  ts_xml_attributef(&paper->out, "at", "%zu", before);
  ts_xml_attributef(&paper->out, "of", "%zu", there);
  ts_xml_end(&paper->out);
}

/* In the order of the schedule, as tasks are numbered there. */
static void places(ts_paper *paper) {
  cells all = {{{0}}}, before = {{{0}}};
  ts_subject subjects = ts_subject_count(paper->dossier);
  placed *tasks = worst_of_each(paper);
  size_t count = 0;
  for (ts_subject s = 0; s < subjects; s++) {
    if (!ts_same(ts_subject_at(paper->dossier, s)->entity->name, "task")) continue;
    tasks[count] = tasks[s];
    tasks[count].task = s;
    for (int v = 0; v < TS_VIEWS; v++) ++*cell_of(all, &tasks[count], v);
    count++;
  }
  for (size_t i = 0; i < count; i++)
    for (int v = 0; v < TS_VIEWS; v++)
      place(paper, &tasks[i], i + 1, v, (*cell_of(before, &tasks[i], v))++,
            *cell_of(all, &tasks[i], v));
}

/* ---- margins as bars -------------------------------------------------------------- */

enum { BARS_MOST = 24 };

typedef struct {
  const ts_finding *finding;
  const ts_margin *margin;
  double nearness; /* in parts of the plausible range */
  size_t order;    /* in which it was found */
} bar;

typedef struct {
  bar *all;
  size_t count, room;
} bars;

static ts_range plausible(const ts_paper *paper, uint32_t slot) {
  return ts_fact_plausible(paper->vocabulary, ts_slot_fact(paper->dossier, slot));
}

static bool goes_up(const ts_margin *m) { return m->side == TS_UP || m->side == TS_FROM_LOW; }

static bool above(const ts_paper *paper, ts_word word, ts_stand stand) {
  if (word == TS_HAZARD) return ts_stands_above(paper->a->in.matrix, word, stand);
  return ts_stand_heat(word, stand) > 0;
}

static bool crosses(const ts_paper *paper, const ts_finding *finding, const ts_margin *m) {
  return above(paper, finding->word, m->before) != above(paper, finding->word, m->then);
}

static void consider(const ts_paper *paper, bars *list, const ts_finding *finding) {
  for (size_t i = 0; i < finding->margin_count; i++) {
    const ts_margin *m = &finding->margins[i];
    ts_range range = plausible(paper, m->slot);
    bool open = ts_slot_value(paper->dossier, m->slot)->state == TS_UNKNOWN;
    if (open || !(range.hi > range.lo) || !crosses(paper, finding, m)) continue;
    if (list->count == list->room) {
      list->room = list->room ? 2 * list->room : 64;
      list->all = ts_resize(list->all, list->room * sizeof *list->all);
    }
    double far = fabs(m->edge - m->from) / (range.hi - range.lo);
    list->all[list->count] = (bar){finding, m, far, list->count};
    list->count++;
  }
}

static int nearest_first(const void *a, const void *b) {
  const bar *x = a, *y = b;
  if (x->nearness != y->nearness) return x->nearness < y->nearness ? -1 : 1;
  return x->order < y->order ? -1 : x->order > y->order;
}

/* What the number is now: where a control in place moves it, what it is moved to. */
static ts_range now(const ts_paper *paper, const ts_margin *m) {
  ts_range range = ts_slot_value(paper->dossier, m->slot)->range;
  bool inside = m->side == TS_FROM_LOW || m->side == TS_FROM_HIGH;
  double end = goes_up(m) ? range.hi : range.lo;
  if (inside || fabs(end - m->from) <= 1e-9 * fmax(fabs(end), 1e-9)) return range;
  return (ts_range){m->from, m->from};
}

/* From nothing to a quarter beyond the greater, so that bars of all facts compare; where 0 says
 * nothing (temperatures, dates) with room on each side for twice the distance. */
static ts_range axis_of(ts_range is, double edge, ts_range most) {
  ts_range span = {fmin(is.lo, edge), fmax(is.hi, edge)};
  double room = 2 * (span.hi - span.lo);
  if (most.lo == 0 && span.hi > 0) return (ts_range){0, fmin(1.25 * span.hi, most.hi)};
  if (!(room > 0)) room = (most.hi - most.lo) / 20;
  return (ts_range){fmax(span.lo - room, most.lo), fmin(span.hi + room, most.hi)};
}

static void write_bar(ts_paper *paper, const bar *b, size_t more) {
  const ts_margin *m = b->margin;
  ts_range is = now(paper, m), axis = axis_of(is, m->edge, plausible(paper, m->slot));
  bool worse =
      ts_stand_heat(b->finding->word, m->then) > ts_stand_heat(b->finding->word, m->before);
  ts_xml_start(&paper->out, "bar");
  ts_xml_attribute(&paper->out, "finding", b->finding->id);
  ts_xml_attributef(&paper->out, "margin", "%zu", (size_t)(m - b->finding->margins) + 1);
  ts_axis_at(paper, "lo", is.lo, axis);
  ts_axis_at(paper, "hi", is.hi, axis);
  ts_axis_at(paper, "edge", m->edge, axis);
  ts_xml_attribute(&paper->out, "worse", goes_up(m) == worse ? "up" : "down");
  if (more > 0) ts_xml_attributef(&paper->out, "more", "%zu", more);
  ts_xml_end(&paper->out);
}

/* A rule may ask the same of many: the same number of one thing, or the same kind of number with
 * the same value and edge. One bar stands for them, the nearest. */
static bool alike(const ts_paper *paper, const bar *x, const bar *y) {
  const ts_margin *a = x->margin, *b = y->margin;
  if (x->finding->rule != y->finding->rule) return false;
  if (a->slot == b->slot) return true;
  return ts_slot_fact(paper->dossier, a->slot) == ts_slot_fact(paper->dossier, b->slot) &&
         a->from == b->from && a->edge == b->edge;
}

static bool is_drawn(const ts_paper *paper, const bars *list, size_t index) {
  for (size_t i = 0; i < index; i++)
    if (alike(paper, &list->all[i], &list->all[index])) return true;
  return false;
}

static size_t count_alike(const ts_paper *paper, const bars *list, size_t index) {
  size_t more = 0;
  for (size_t i = index + 1; i < list->count; i++)
    more += alike(paper, &list->all[index], &list->all[i]);
  return more;
}

static void margin_bars(ts_paper *paper) {
  bars list = {0};
  size_t drawn = 0;
  for (size_t i = 0; i < paper->a->finding_count; i++)
    if (paper->a->findings[i].word != TS_REMARK) consider(paper, &list, &paper->a->findings[i]);
  for (size_t i = 0; i < paper->a->duty_count; i++) consider(paper, &list, &paper->a->duties[i]);
  if (list.count) qsort(list.all, list.count, sizeof *list.all, nearest_first);
  for (size_t i = 0; i < list.count && drawn < BARS_MOST; i++) {
    if (is_drawn(paper, &list, i)) continue;
    write_bar(paper, &list.all[i], count_alike(paper, &list, i));
    drawn++;
  }
  free(list.all);
}

/* ---- totals against ceilings ---------------------------------------------------------- */

static void write_ceiling(ts_paper *paper, const ts_finding *finding, const ts_shown *total,
                          const ts_shown *ceiling) {
  ts_range axis = {0, 1.15 * fmax(fmin(total->range.hi, 3 * ceiling->range.hi), ceiling->range.hi)};
  if (!(axis.hi > 0) || total->dim != ceiling->dim) return;
  ts_xml_start(&paper->out, "ceiling");
  ts_xml_attribute(&paper->out, "finding", finding->id);
  ts_xml_attribute(&paper->out, "person", ts_paper_path_to(paper, finding->subject, "person"));
  ts_xml_attribute(&paper->out, "day", ts_paper_path_to(paper, finding->subject, "day"));
  ts_xml_attribute(&paper->out, "total", total->name);
  ts_xml_attribute(&paper->out, "ceiling", ceiling->name);
  ts_axis_at(paper, "lo", total->range.lo, axis);
  ts_axis_at(paper, "hi", total->range.hi, axis);
  ts_axis_at(paper, "at", ceiling->range.lo, axis);
  ts_xml_end(&paper->out);
}

static void ceilings_of(ts_paper *paper, const ts_finding *finding) {
  const ts_outcome whole = ts_finding_outcome(finding), *outcome = &whole;
  for (size_t i = 0; i < outcome->value_count; i++) {
    const char *more;
    const ts_shown *total = ts_ceiling_total(outcome, i, &more);
    if (total != NULL) write_ceiling(paper, finding, total, &outcome->values[i]);
  }
}

static void ceilings(ts_paper *paper) {
  for (size_t i = 0; i < paper->a->finding_count; i++) ceilings_of(paper, &paper->a->findings[i]);
  for (size_t i = 0; i < paper->a->duty_count; i++) ceilings_of(paper, &paper->a->duties[i]);
}

/* ---- a value over time ------------------------------------------------------------------ */

/* Which argument is the time that passes; -1 where none is. */
static int time_argument(const ts_shown *value) {
  for (int i = 0; value->function != NULL && i < value->function->count; i++)
    if (value->function->argument[i].dim == TS_TIME) return i;
  return -1;
}

static ts_range after(const ts_shown *value, int which, double time) {
  ts_range x[TS_ARGUMENTS_MAX];
  bool open;
  memcpy(x, value->arguments, (size_t)value->function->count * sizeof *x);
  x[which] = (ts_range){time, time};
  return ts_function_apply(value->function, x, &open);
}

/* What is too narrow to be drawn is a number to a reader. */
static ts_range unwidened(ts_range range, ts_range axis) {
  double middle = (range.lo + range.hi) / 2;
  bool point = range.hi - range.lo <= (axis.hi - axis.lo) / 2000;
  return point ? (ts_range){middle, middle} : range;
}

static void point(ts_paper *paper, const ts_shown *value, int which, double t, ts_range time,
                  ts_range axis) {
  const ts_function *f = value->function;
  ts_range at = unwidened(after(value, which, t), axis);
  ts_xml_start(&paper->out, "point");
  ts_axis_at(paper, "at", t, time);
  ts_axis_at(paper, "lo", at.lo, axis);
  ts_axis_at(paper, "hi", at.hi, axis);
  ts_xml_attribute(&paper->out, "time", ts_axis_shown(paper, (ts_range){t, t}, TS_TIME, NULL));
  ts_xml_attribute(&paper->out, "text", ts_axis_shown(paper, at, f->dim, f->unit));
  ts_xml_end(&paper->out);
}

/* Five from tick to tick, and the end. */
static void points(ts_paper *paper, const ts_shown *value, int which, ts_range time,
                   ts_range axis) {
  double step = ts_axis_step(time, TS_TIME) / 5;
  for (int i = 0; i * step < time.hi * (1 - 1e-9); i++)
    point(paper, value, which, i * step, time, axis);
  point(paper, value, which, time.hi, time, axis);
}

static void marks(ts_paper *paper, const ts_outcome *outcome, const ts_shown *value,
                  ts_range axis) {
  for (size_t i = 0; i < outcome->value_count; i++) {
    const ts_shown *mark = &outcome->values[i];
    if (ts_after_ceiling(mark) == NULL || mark->dim != value->dim) continue;
    ts_xml_start(&paper->out, "mark");
    ts_xml_attribute(&paper->out, "ceiling", mark->name);
    ts_xml_attribute(&paper->out, "text",
                     ts_axis_shown(paper, mark->range, mark->dim, value->function->unit));
    ts_axis_at(paper, "at", mark->range.lo, axis);
    ts_xml_end(&paper->out);
  }
}

/* The highest ceiling of the same kind; 0 where the rule names none. */
static double highest(const ts_outcome *outcome, const ts_shown *value) {
  double most = 0;
  for (size_t i = 0; i < outcome->value_count; i++)
    if (ts_after_ceiling(&outcome->values[i]) != NULL && outcome->values[i].dim == value->dim)
      most = fmax(most, outcome->values[i].range.hi);
  return most;
}

static void curve(ts_paper *paper, const ts_finding *finding, const ts_outcome *outcome,
                  const ts_shown *value) {
  int which = time_argument(value);
  double ceiling = highest(outcome, value);
  if (which < 0 || ceiling <= 0) return;
  ts_range time = {0, value->arguments[which].hi};
  double top = fmax(after(value, which, time.hi).hi, value->range.hi);
  ts_range axis = {0, 1.15 * fmax(fmin(top, 3 * ceiling), ceiling)};
  if (!(time.hi > 0)) return;
  ts_xml_start(&paper->out, "curve");
  ts_xml_attribute(&paper->out, "finding", finding->id);
  ts_xml_attribute(&paper->out, "subject", ts_paper_path(paper, finding->subject));
  ts_xml_attribute(&paper->out, "value", value->name);
  ts_axis_ticks(paper, "across", time, TS_TIME, NULL);
  ts_axis_ticks(paper, "upward", axis, value->dim, value->function->unit);
  points(paper, value, which, time, axis);
  marks(paper, outcome, value, axis);
  ts_xml_end(&paper->out);
}

/* The findings of each subject, one before another: NONE where there is none before. */
#define NONE SIZE_MAX

static const size_t *before_each(const ts_paper *paper) {
  const ts_assessment *a = paper->a;
  size_t subjects = ts_subject_count(paper->dossier);
  size_t *before = ts_arena_alloc(paper->arena, (a->finding_count + 1) * sizeof *before);
  size_t *last = ts_alloc((subjects + 1) * sizeof *last);
  for (size_t i = 0; i < subjects; i++) last[i] = NONE;
  for (size_t i = 0; i < a->finding_count; i++) {
    before[i] = last[a->findings[i].subject];
    last[a->findings[i].subject] = i;
  }
  free(last);
  return before;
}

/* One drawing a subject and value: a stop and a hazard may both have it. */
static bool seen_before(const ts_paper *paper, const size_t *before, size_t index,
                        const ts_shown *value) {
  const ts_finding *finding = &paper->a->findings[index];
  for (size_t i = before[index]; i != NONE; i = before[i]) {
    const ts_finding *other = &paper->a->findings[i];
    if (other->rule != finding->rule) continue;
    const ts_outcome whole = ts_finding_outcome(other), *outcome = &whole;
    for (size_t k = 0; k < outcome->value_count; k++)
      if (ts_same(outcome->values[k].name, value->name) && highest(outcome, value) > 0) return true;
  }
  return false;
}

static void curves(ts_paper *paper) {
  const size_t *before = before_each(paper);
  for (size_t i = 0; i < paper->a->finding_count; i++) {
    const ts_finding *finding = &paper->a->findings[i];
    const ts_outcome whole = ts_finding_outcome(finding), *outcome = &whole;
    for (size_t k = 0; k < outcome->value_count; k++)
      if (!seen_before(paper, before, i, &outcome->values[k]))
        curve(paper, finding, outcome, &outcome->values[k]);
  }
}

/* ---- the whole ----------------------------------------------------------------------------- */

void ts_paper_charts(ts_paper *paper) {
  ts_xml_start(&paper->out, "charts");
  places(paper);
  ts_paper_gaps(paper);
  ceilings(paper);
  margin_bars(paper);
  curves(paper);
  ts_xml_end(&paper->out);
}
