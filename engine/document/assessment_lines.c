/* Lines of time for charts: axes and their ticks, surface intervals, the emergency time line. */
#include "document/assessment_axis.h"
#include "quantity/calendar.h"
#include <math.h>
#include <stdlib.h>

/* ---- axes --------------------------------------------------------------------------- */

void ts_axis_at(ts_paper *paper, const char *name, double value, ts_range axis) {
  double part = (value - axis.lo) / (axis.hi - axis.lo);
  long at = lround(1000 * fmin(fmax(part, 0), 1));
  ts_xml_attributef(&paper->out, name, "%ld", at);
}

const char *ts_axis_shown(ts_paper *paper, ts_range range, ts_dim dim, const char *unit) {
  char text[128];
  ts_system system = ts_dossier_units(paper->dossier);
  ts_quantity_show(paper->a->in.units, range, dim, unit, system, text, sizeof text);
  return ts_arena_copy(paper->arena, text);
}

enum { TICKS_MOST = 7 };

/* Steps that people count time in, s. */
static const double time_steps[] = {1,   2,   5,    10,   15,   30,    60,    120,   300,
                                    600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400};

static double time_step(double length) {
  size_t count = sizeof time_steps / sizeof *time_steps;
  for (size_t i = 0; i < count; i++)
    if (length / time_steps[i] <= TICKS_MOST - 1) return time_steps[i];
  return time_steps[count - 1] * ceil(length / time_steps[count - 1] / (TICKS_MOST - 1));
}

/* 1, 2 or 5 of some power of ten. */
static double round_step(double length) {
  static const double steps[] = {1, 2, 5, 10};
  double least = length / (TICKS_MOST - 1), ten = pow(10, floor(log10(least)));
  size_t i = 0;
  while (i < 3 && steps[i] * ten < least * (1 - 1e-9)) i++;
  return steps[i] * ten;
}

double ts_axis_step(ts_range axis, ts_dim dim) {
  double length = axis.hi - axis.lo;
  return dim == TS_TIME ? time_step(length) : round_step(length);
}

void ts_axis_ticks(ts_paper *paper, const char *name, ts_range axis, ts_dim dim, const char *unit) {
  double length = axis.hi - axis.lo, step = ts_axis_step(axis, dim);
  for (int i = 0; i * step <= length * (1 + 1e-9); i++) {
    double value = axis.lo + i * step;
    ts_xml_start(&paper->out, "tick");
    ts_xml_attribute(&paper->out, "axis", name);
    ts_axis_at(paper, "at", value, axis);
    ts_xml_attribute(&paper->out, "text",
                     ts_axis_shown(paper, (ts_range){value, value}, dim, unit));
    ts_xml_end(&paper->out);
  }
}

/* ---- surface intervals ------------------------------------------------------------------ */

/* One time under water, or the window of a task in which it falls. */
typedef struct {
  double from, to; /* s since midnight */
} spell;

typedef struct {
  spell *all;
  size_t count;
} spells;

static bool moment(const ts_paper *paper, ts_subject subject, const char *fact, double *seconds,
                   bool late) {
  uint32_t slot = ts_paper_slot(paper, subject, fact);
  if (slot == UINT32_MAX || ts_slot_assumed(paper->dossier, slot)) return false;
  ts_range range = ts_slot_value(paper->dossier, slot)->range;
  *seconds = late ? range.hi : range.lo;
  return true;
}

static void add_spell(const ts_paper *paper, spells *list, ts_subject subject, const char *start,
                      const char *end) {
  spell one;
  if (subject == TS_NO_SUBJECT || !moment(paper, subject, start, &one.from, false) ||
      !moment(paper, subject, end, &one.to, true))
    return;
  list->all[list->count++] = one;
}

static int by_start(const void *a, const void *b) {
  const spell *x = a, *y = b;
  if (x->from != y->from) return x->from < y->from ? -1 : 1;
  return x->to < y->to ? -1 : x->to > y->to;
}

/* What the log says of the person that day, else what is planned. */
static bool spells_of(ts_paper *paper, ts_subject person_day, spells *list) {
  ts_field records = ts_subject_field(paper->dossier, person_day, "records");
  ts_field immersions = ts_subject_field(paper->dossier, person_day, "immersions");
  size_t count = (records.kind == TS_FIELD_LIST ? records.count : 0) +
                 (immersions.kind == TS_FIELD_LIST ? immersions.count : 0);
  list->all = ts_arena_alloc(paper->arena, (count + 1) * sizeof *list->all);
  list->count = 0;
  for (size_t i = 0; records.kind == TS_FIELD_LIST && i < records.count; i++)
    add_spell(paper, list, records.list[i], "down", "up");
  bool recorded = list->count > 0;
  for (size_t i = 0; !recorded && immersions.kind == TS_FIELD_LIST && i < immersions.count; i++)
    add_spell(paper, list, ts_leads_to(paper->dossier, immersions.list[i], "task"), "start",
              "finish");
  if (list->count) qsort(list->all, list->count, sizeof *list->all, by_start);
  return recorded;
}

/* A time of day twice: to be read, and as minutes since midnight to be placed. */
static void time_of_day(ts_paper *paper, const char *name, const char *in_minutes, double seconds) {
  char text[32];
  ts_xml_attribute(&paper->out, name, ts_clock_show(seconds, text, sizeof text));
  ts_xml_attribute(&paper->out, in_minutes, ts_number_round(seconds / 60, 6, text, sizeof text));
}

static void write_gap(ts_paper *paper, ts_subject person_day, spell gap, bool recorded) {
  double long_ = gap.to - gap.from;
  ts_subject person = ts_leads_to(paper->dossier, person_day, "person");
  ts_xml_start(&paper->out, "gap");
  ts_xml_attribute(&paper->out, "day", ts_paper_path_to(paper, person_day, "day"));
  ts_xml_attribute(&paper->out, "person", ts_paper_path(paper, person));
  ts_xml_attribute(&paper->out, "person-label", ts_paper_label(paper, person));
  ts_xml_attribute(&paper->out, "recorded", ts_paper_yes(recorded));
  time_of_day(paper, "from", "from-min", gap.from);
  time_of_day(paper, "to", "to-min", gap.to);
  ts_xml_attribute(&paper->out, "text",
                   ts_axis_shown(paper, (ts_range){long_, long_}, TS_TIME, NULL));
  ts_xml_end(&paper->out);
}

static void gaps_of(ts_paper *paper, ts_subject person_day) {
  spells list;
  bool recorded = spells_of(paper, person_day, &list);
  double up = list.count ? list.all[0].to : 0;
  for (size_t i = 1; i < list.count; i++) {
    if (list.all[i].from > up)
      write_gap(paper, person_day, (spell){up, list.all[i].from}, recorded);
    up = fmax(up, list.all[i].to);
  }
}

void ts_paper_gaps(ts_paper *paper) {
  for (ts_subject s = 0; s < ts_subject_count(paper->dossier); s++)
    if (ts_same(ts_subject_at(paper->dossier, s)->entity->name, "person-day")) gaps_of(paper, s);
}

/* ---- the emergency time line --------------------------------------------------------------- */

/* As long as what is known of it; what is not known runs to its end. */
static ts_range stretch_axis(const ts_milestone *all, size_t count) {
  double end = 0;
  for (size_t i = 0; i < count; i++) end = fmax(end, all[i].known ? all[i].at.hi : all[i].at.lo);
  return (ts_range){0, end > 0 ? 1.1 * end : 60};
}

static void stretch_step(ts_paper *paper, const ts_milestone *it, ts_range axis) {
  ts_range least = {it->at.lo, it->at.lo};
  ts_xml_start(&paper->out, "reached");
  ts_xml_attribute(&paper->out, "step", it->id);
  ts_axis_at(paper, "lo", it->at.lo, axis);
  ts_axis_at(paper, "hi", it->known ? it->at.hi : axis.hi, axis);
  if (!it->known)
    ts_xml_attribute(&paper->out, "least", ts_axis_shown(paper, least, TS_TIME, NULL));
  ts_xml_end(&paper->out);
}

void ts_paper_stretch(ts_paper *paper, const char *of, const ts_milestone *all, size_t count) {
  ts_range axis = stretch_axis(all, count);
  ts_xml_start(&paper->out, "stretch");
  ts_xml_attribute(&paper->out, "of", of);
  ts_axis_ticks(paper, "across", axis, TS_TIME, NULL);
  for (size_t i = 0; i < count; i++) stretch_step(paper, &all[i], axis);
  ts_xml_end(&paper->out);
}
