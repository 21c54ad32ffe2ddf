/* Facts worked out from other facts, as nodes of a graph.
 *
 * One row of the table per derived fact. A row's function gets the nodes of
 * what the fact is made of through the reader, so that a changed value (a
 * control's effect, a point to try) goes through here as well. */
#include "base/sort.h"
#include "dossier/world.h"
#include "quantity/calendar.h"

#include <math.h>
#include <stdlib.h>

/* One derivation under way: of `subject`, for the fact in `slot`. */
typedef struct {
  ts_fact_reader *reader;
  ts_subject subject;
  uint32_t slot;
} deriving;

typedef ts_node_id (*derivation)(const deriving *d, const char *list, const char *fact);

/* ---- nodes ------------------------------------------------------------- */

static ts_node_id fact_of(const deriving *d, ts_subject subject, const char *fact) {
  const ts_dossier *dossier = d->reader->dossier;
  uint32_t slot = ts_world_slot(dossier, subject, fact);
  if (ts_world_known(dossier, slot)->def->derived) return ts_derive(d->reader, slot);
  return d->reader->read(d->reader, slot);
}

static const ts_known_fact *wanted(const deriving *d) {
  return ts_world_known(d->reader->dossier, d->slot);
}

static ts_node_id point(const deriving *d, double value) {
  return ts_constant(d->reader->graph, (ts_range){value, value}, wanted(d)->dim);
}

static ts_node_id combine(const deriving *d, ts_op op, ts_node_id a, ts_node_id b) {
  if (a == TS_NO_NODE || b == TS_NO_NODE) return TS_NO_NODE;
  return ts_binary(d->reader->graph, op, a, b);
}

/* A result that leaves the plausible range (a finish before a start) is brought back into it. */
static ts_node_id clamp(const deriving *d, ts_node_id node) {
  ts_range plausible = wanted(d)->plausible;
  if (node == TS_NO_NODE) return TS_NO_NODE;
  const ts_node *n = ts_node_at(d->reader->graph, node);
  bool low = n->lo<plausible.lo, high = n->hi> plausible.hi;
  if (low) node = combine(d, TS_MAX, node, point(d, plausible.lo));
  if (high) node = combine(d, TS_MIN, node, point(d, plausible.hi));
  return node;
}

/* ---- lists ------------------------------------------------------------- */

static ts_field list_of(const deriving *d, ts_subject subject, const char *name) {
  return ts_subject_field(d->reader->dossier, subject, name);
}

static ts_node_id fold(const deriving *d, ts_op op, const char *list, const char *fact) {
  ts_field members = list_of(d, d->subject, list);
  if (!members.count) return point(d, 0);
  ts_node_id total = fact_of(d, members.list[0], fact);
  for (size_t i = 1; i < members.count; i++)
    total = combine(d, op, total, fact_of(d, members.list[i], fact));
  return total;
}

static ts_node_id sum(const deriving *d, const char *list, const char *fact) {
  return fold(d, TS_ADD, list, fact);
}

static ts_node_id largest(const deriving *d, const char *list, const char *fact) {
  return fold(d, TS_MAX, list, fact);
}

static ts_node_id count(const deriving *d, const char *list, const char *fact) {
  (void)fact;
  return point(d, (double)list_of(d, d->subject, list).count);
}

/* How many different persons the list's members are about. */
static ts_node_id people(const deriving *d, const char *list, const char *fact) {
  const ts_dossier *dossier = d->reader->dossier;
  ts_field members = list_of(d, d->subject, list);
  size_t different = 0;
  for (size_t i = 0; i < members.count; i++) {
    ts_subject who = ts_world_target(dossier, members.list[i], fact);
    bool before = who == TS_NO_SUBJECT;
    for (size_t k = 0; k < i && !before; k++)
      before = ts_world_target(dossier, members.list[k], fact) == who;
    if (!before) different++;
  }
  return point(d, (double)different);
}

/* ---- single values ----------------------------------------------------- */

static ts_node_id volume(const deriving *d, const char *list, const char *fact) {
  (void)list, (void)fact;
  ts_node_id area =
      combine(d, TS_MUL, fact_of(d, d->subject, "length"), fact_of(d, d->subject, "width"));
  ts_node_id depths =
      combine(d, TS_ADD, fact_of(d, d->subject, "depth"), fact_of(d, d->subject, "least-depth"));
  ts_node_id two = ts_constant(d->reader->graph, (ts_range){2, 2}, TS_NUMBER);
  return combine(d, TS_DIV, combine(d, TS_MUL, area, depths), two);
}

/* later - earlier; the two names stand where list and fact do elsewhere. */
static ts_node_id difference(const deriving *d, const char *later, const char *earlier) {
  return combine(d, TS_SUB, fact_of(d, d->subject, later), fact_of(d, d->subject, earlier));
}

static ts_node_id time_at_place(const deriving *d, const char *later, const char *earlier) {
  ts_subject day = ts_world_above(d->reader->dossier, d->subject, "day");
  return combine(d, TS_SUB, fact_of(d, day, later), fact_of(d, day, earlier));
}

static ts_node_id of_parent(const deriving *d, const char *entity, const char *fact) {
  return fact_of(d, ts_world_above(d->reader->dossier, d->subject, entity), fact);
}

static ts_node_id larger(const deriving *d, const char *one, const char *other) {
  return combine(d, TS_MAX, fact_of(d, d->subject, one), fact_of(d, d->subject, other));
}

static ts_node_id deepest(const deriving *d, const char *list, const char *fact) {
  bool dived = list_of(d, d->subject, "records").count > 0;
  if (!dived) return largest(d, list, fact);
  ts_node_id logged = largest(d, "records", fact);
  if (!list_of(d, d->subject, list).count) return logged;
  return combine(d, TS_MAX, largest(d, list, fact), logged);
}

/* What the dossier's papers come to: papers.c. */
static ts_node_id of_papers(const deriving *d, const char *list, const char *fact) {
  (void)list;
  return point(d, ts_papers_figure(d->reader->dossier, fact));
}

/* ---- ages -------------------------------------------------------------- */

static double date_of(const ts_dossier *dossier, ts_subject day) {
  return ts_world_value(dossier, ts_world_slot(dossier, day, "date"))->range.lo;
}

/* A value of its own in the graph: calendar years are no arithmetic on seconds. */
static ts_node_id age_on(const deriving *d, ts_subject person, double date) {
  const ts_known_fact *fact = wanted(d);
  ts_range age = fact->plausible;
  if (person != TS_NO_SUBJECT) {
    const ts_node *born = ts_node_at(d->reader->graph, fact_of(d, person, "born"));
    age.lo = ts_age(born->hi, date);
    age.hi = born->lo == born->hi ? age.lo : ts_age(born->lo, date);
  }
  if (!(age.lo > fact->plausible.lo)) age.lo = fact->plausible.lo;
  if (!(age.hi < fact->plausible.hi)) age.hi = fact->plausible.hi;
  if (age.hi < age.lo) age.hi = age.lo; /* born after the day: age 0, and a cross-check says so */
  return ts_fact_value(d->reader->graph, d->slot, age, fact->dim);
}

static ts_node_id age(const deriving *d, const char *list, const char *fact) {
  (void)list, (void)fact;
  const ts_dossier *dossier = d->reader->dossier;
  return age_on(d, ts_world_target(dossier, d->subject, "person"),
                date_of(dossier, ts_world_above(dossier, d->subject, "day")));
}

static ts_node_id age_at_start(const deriving *d, const char *list, const char *fact) {
  (void)fact;
  ts_field days = list_of(d, 0, list);
  ts_range anything = wanted(d)->plausible;
  if (!days.count) return ts_fact_value(d->reader->graph, d->slot, anything, wanted(d)->dim);
  double first = date_of(d->reader->dossier, days.list[0]);
  for (size_t i = 1; i < days.count; i++) {
    double date = date_of(d->reader->dossier, days.list[i]);
    if (date < first) first = date;
  }
  return age_on(d, d->subject, first);
}

/* ---- several days ------------------------------------------------------ */

static double date_of_person_day(const ts_dossier *dossier, ts_subject person_day) {
  return date_of(dossier, dossier->subjects[person_day].info.parent);
}

/* Numbers of the person's days from the first to the last date, as the dossier lists them. Free. */
static uint32_t *days_listed(const ts_dossier *dossier, ts_subject person, double first,
                             double last, size_t *count) {
  const ts_dated *days = ts_days_between(dossier, person, first, last, count);
  uint32_t *listed = ts_alloc((*count + 1) * sizeof *listed);
  for (size_t i = 0; i < *count; i++) listed[i] = days[i].person_day;
  *count = ts_sort_once_each(listed, *count);
  return listed;
}

static ts_node_id seven_days(const deriving *d, const char *list, const char *fact) {
  (void)list;
  const ts_dossier *dossier = d->reader->dossier;
  ts_subject person = ts_world_target(dossier, d->subject, "person");
  double last = date_of_person_day(dossier, d->subject);
  ts_node_id total = fact_of(d, d->subject, fact);
  if (person == TS_NO_SUBJECT) return total;
  size_t count;
  uint32_t *days = days_listed(dossier, person, last - 6 * TS_DAY_SECONDS, last, &count);
  for (size_t i = 0; i < count; i++)
    if (days[i] != d->subject) total = combine(d, TS_ADD, total, fact_of(d, days[i], fact));
  free(days);
  return total;
}

static ts_node_id consecutive_days(const deriving *d, const char *list, const char *fact) {
  (void)list, (void)fact;
  const ts_dossier *dossier = d->reader->dossier;
  ts_subject person = ts_world_target(dossier, d->subject, "person");
  double date = date_of_person_day(dossier, d->subject);
  return point(d, person == TS_NO_SUBJECT ? 1 : (double)ts_days_in_row(dossier, person, date));
}

/* ---- surface intervals ------------------------------------------------- */

typedef struct {
  ts_subject record;
  double down;
} dive;

static int by_down(const void *a, const void *b) {
  const dive *x = a, *y = b;
  if (x->down != y->down) return x->down < y->down ? -1 : 1;
  return x->record < y->record ? -1 : x->record > y->record;
}

/* A value that decides what is read, but does not itself go into a node. */
static ts_range look_at(const deriving *d, ts_subject subject, const char *fact) {
  const ts_dossier *dossier = d->reader->dossier;
  uint32_t slot = ts_world_slot(dossier, subject, fact);
  if (d->reader->looked) d->reader->looked(d->reader, slot);
  return ts_world_value(dossier, slot)->range;
}

static bool is_settled(const deriving *d, ts_subject record) {
  ts_range down = look_at(d, record, "down"), up = look_at(d, record, "up");
  return down.lo == down.hi && up.lo == up.hi;
}

/* Records by when they went down; *settled tells whether that order is certain. */
static dive *sorted_dives(const deriving *d, const ts_field *records, bool *settled) {
  dive *dives = ts_alloc((records->count + 1) * sizeof *dives);
  *settled = true;
  for (size_t i = 0; i < records->count; i++) {
    dives[i] = (dive){records->list[i], look_at(d, records->list[i], "down").lo};
    if (!is_settled(d, records->list[i])) *settled = false;
  }
  qsort(dives, records->count, sizeof *dives, by_down);
  return dives;
}

static ts_node_id gap_after(const deriving *d, ts_subject first, ts_subject second) {
  return combine(d, TS_SUB, fact_of(d, second, "down"), fact_of(d, first, "up"));
}

/* Whichever of the two went first. */
static ts_node_id gap_between(const deriving *d, ts_subject a, ts_subject b) {
  return combine(d, TS_MAX, gap_after(d, a, b), gap_after(d, b, a));
}

/* Where the order is certain only neighbours matter; else any two may be neighbours. */
static ts_node_id shortest_gap(const deriving *d, const dive *dives, size_t count, bool settled) {
  ts_node_id shortest = point(d, wanted(d)->plausible.hi);
  for (size_t i = 0; i + 1 < count; i++)
    for (size_t k = i + 1; k < (settled ? i + 2 : count); k++) {
      ts_node_id gap = settled ? gap_after(d, dives[i].record, dives[k].record)
                               : gap_between(d, dives[i].record, dives[k].record);
      shortest = combine(d, TS_MIN, shortest, gap);
    }
  return shortest;
}

static ts_node_id surface_interval(const deriving *d, const char *list, const char *fact) {
  (void)fact;
  bool settled;
  ts_field records = list_of(d, d->subject, list);
  dive *dives = sorted_dives(d, &records, &settled);
  ts_node_id shortest = shortest_gap(d, dives, records.count, settled);
  free(dives);
  return shortest;
}

/* ---- the table --------------------------------------------------------- */

static const struct {
  const char *entity, *fact;
  derivation make;
  const char *list, *of;
} rows[] = {
    {"production", "evidence-count", of_papers, NULL, "evidence-count"},
    {"production", "evidence-estimates", of_papers, NULL, "evidence-estimates"},
    {"production", "evidence-without-reference", of_papers, NULL, "evidence-without-reference"},
    {"production", "evidence-age", of_papers, NULL, "evidence-age"},
    {"production", "controls-in-place", of_papers, NULL, "controls-in-place"},
    {"production", "controls-without-evidence", of_papers, NULL, "controls-without-evidence"},
    {"production", "controls-unchecked", of_papers, NULL, "controls-unchecked"},
    {"production", "waiver-count", of_papers, NULL, "waiver-count"},
    {"production", "waivers-refused", of_papers, NULL, "waivers-refused"},
    {"production", "waivers-by-author", of_papers, NULL, "waivers-by-author"},
    {"production", "waiver-reach", of_papers, NULL, "waiver-reach"},
    {"basin", "volume-by-dimensions", volume, NULL, NULL},
    {"person", "age-at-start", age_at_start, "days", NULL},
    {"day", "people-in-water", people, "immersions", "person"},
    {"task", "duration", difference, "finish", "start"},
    {"task", "people-under-water", people, "immersions", "person"},
    {"immersion", "age", age, NULL, NULL},
    {"immersion", "task-duration", of_parent, "task", "duration"},
    {"record", "duration", difference, "up", "down"},
    {"person-day", "age", age, NULL, NULL},
    {"person-day", "time-planned", sum, "immersions", "time"},
    {"person-day", "time-recorded", sum, "records", "duration"},
    {"person-day", "time", larger, "time-planned", "time-recorded"},
    {"person-day", "time-7-days", seven_days, NULL, "time"},
    {"person-day", "wet-time", sum, "immersions", "wet-time"},
    {"person-day", "longest", largest, "immersions", "time"},
    {"person-day", "deepest", deepest, "immersions", "depth"},
    {"person-day", "descents", sum, "immersions", "descents"},
    {"person-day", "takes", sum, "immersions", "takes"},
    {"person-day", "immersion-count", count, "immersions", NULL},
    {"person-day", "consecutive-days", consecutive_days, NULL, NULL},
    {"person-day", "at-place-time", time_at_place, "wrap", "call"},
    {"person-day", "preparation-time", largest, "immersions", "preparation-time"},
    {"person-day", "shortest-surface-interval", surface_interval, "records", NULL},
};

int ts_derivation_of(const ts_fact_def *fact) {
  for (size_t i = 0; fact->derived && i < sizeof rows / sizeof *rows; i++)
    if (ts_same(rows[i].fact, fact->name) && ts_same(rows[i].entity, fact->entity)) return (int)i;
  return -1;
}

/* A rule's example may state what is otherwise worked out. */
static ts_node_id set_value(const deriving *d) {
  ts_range range = ts_world_value(d->reader->dossier, d->slot)->range;
  ts_graph *graph = d->reader->graph;
  return ts_derived(graph, d->slot, ts_fact_value(graph, d->slot, range, wanted(d)->dim));
}

ts_node_id ts_derive(ts_fact_reader *reader, uint32_t slot) {
  const ts_dossier *dossier = reader->dossier;
  deriving d = {reader, dossier->owners[slot], slot};
  int row = ts_world_known(dossier, slot)->derivation;
  if (ts_world_value(dossier, slot)->state == TS_SET_BY_USER) return set_value(&d);
  if (row < 0) return TS_NO_NODE;
  ts_node_id node = clamp(&d, rows[row].make(&d, rows[row].list, rows[row].of));
  return node == TS_NO_NODE ? TS_NO_NODE : ts_derived(reader->graph, slot, node);
}

/* ---- values for those who do not build graphs --------------------------- */

typedef struct {
  ts_fact_reader reader; /* first: `read` gets a pointer to it */
  bool assumed;
} own_reader;

static ts_node_id read_own(ts_fact_reader *self, uint32_t slot) {
  own_reader *own = (own_reader *)self;
  const ts_value *value = ts_world_value(self->dossier, slot);
  if (value->state == TS_UNKNOWN) own->assumed = true;
  return ts_fact_value(self->graph, slot, value->range, ts_world_known(self->dossier, slot)->dim);
}

ts_value ts_world_derived(const ts_dossier *dossier, ts_graph *graph, uint32_t slot) {
  own_reader own = {.reader = {dossier, graph, read_own, NULL}};
  ts_value value = *ts_world_value(dossier, slot);
  if (value.state == TS_SET_BY_USER) return value;
  ts_graph_reset(graph);
  value.state = TS_UNKNOWN;
  ts_node_id node = ts_derive(&own.reader, slot);
  if (node == TS_NO_NODE) return value;
  const ts_node *n = ts_node_at(graph, node);
  value.range = (ts_range){n->lo, n->hi};
  ts_range all = ts_world_known(dossier, slot)->plausible;
  bool anything = n->lo <= all.lo && n->hi >= all.hi;
  value.state = own.assumed || anything ? TS_UNKNOWN : TS_STATED;
  return value;
}

void ts_world_derive(ts_dossier *dossier) {
  ts_graph *graph = ts_graph_new();
  ts_graph_mark(graph);
  for (uint32_t slot = 0; slot < dossier->slot_count; slot++)
    if (ts_world_known(dossier, slot)->def->derived) {
      ts_value value = ts_world_derived(dossier, graph, slot);
      ts_world_put(dossier, slot, &value);
    }
  ts_graph_free(graph);
}
