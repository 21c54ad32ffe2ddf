/* One day as it goes. */
#include "assess/day.h"
#include "assess/ceiling.h"
#include "base/text.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  const ts_dossier *dossier;
  double date;
} that_day;

/* ---- facts ------------------------------------------------------------------------------ */

static bool is_a(const ts_dossier *dossier, ts_subject subject, const char *entity) {
  return ts_same(ts_subject_at(dossier, subject)->entity->name, entity);
}

static uint32_t slot_of(const ts_dossier *dossier, ts_subject subject, const char *field) {
  return ts_subject_field(dossier, subject, field).slot;
}

static ts_range number(const ts_dossier *dossier, ts_subject subject, const char *field) {
  return ts_slot_value(dossier, slot_of(dossier, subject, field))->range;
}

static double date_of(const ts_dossier *dossier, ts_subject subject) {
  ts_subject day = ts_leads_to(dossier, subject, "day");
  return day == TS_NO_SUBJECT ? NAN : number(dossier, day, "date").lo;
}

/* A time of day as a moment. */
static ts_range moment(const ts_dossier *dossier, ts_subject subject, const char *clock) {
  ts_range time = number(dossier, subject, clock);
  double date = date_of(dossier, subject);
  return (ts_range){date + time.lo, date + time.hi};
}

/* Whether gas may be breathed: "none" is the first choice of a record's gas. */
static bool may_be_on_gas(const ts_dossier *dossier, ts_subject subject) {
  bool record = is_a(dossier, subject, "record");
  uint32_t slot = slot_of(dossier, subject, record ? "gas" : "breathes_gas");
  return (ts_slot_value(dossier, slot)->choices & ~(uint64_t)1) != 0;
}

double ts_day_default(const ts_dossier *dossier) {
  double first = NAN, last = NAN;
  for (ts_subject s = 0; s < ts_subject_count(dossier); s++) {
    bool day = is_a(dossier, s, "day");
    if (!day && !is_a(dossier, s, "record")) continue;
    double date = date_of(dossier, s);
    if (day && !(first <= date)) first = date;
    if (!day && !(last >= date)) last = date;
  }
  return isnan(last) ? first : last;
}

bool ts_day_exists(const ts_dossier *dossier, double date) {
  for (ts_subject s = 0; s < ts_subject_count(dossier); s++)
    if (is_a(dossier, s, "day") && date_of(dossier, s) == date) return true;
  return false;
}

/* ---- three assessments: as it stands, with what is to come, with what was done --------- */

static bool is_of_that_day(void *context, size_t rule, ts_subject subject) {
  const that_day *at = context;
  (void)rule;
  return (is_a(at->dossier, subject, "person-day") || is_a(at->dossier, subject, "record")) &&
         date_of(at->dossier, subject) == at->date;
}

static ts_assessment *assess(const ts_assess_inputs *inputs, const ts_dossier *dossier, double date,
                             ts_diagnostics *problems) {
  that_day at = {dossier, date};
  ts_assess_inputs in = *inputs;
  in.dossier = dossier;
  in.wanted = is_of_that_day;
  in.wanted_context = &at;
  in.scores_only = true;
  ts_assessment *made = ts_assess(&in, problems);
  if (made != NULL) made->in.wanted_context = NULL; /* it was only needed until here */
  return made;
}

/* The immersion that an entry of the log was: the first whose task it may have fallen into, else
 * the person's first that day. */
static ts_subject immersion_of(const ts_dossier *dossier, ts_subject record, ts_field immersions) {
  ts_range down = moment(dossier, record, "down"), up = moment(dossier, record, "up");
  for (size_t i = 0; i < immersions.count; i++) {
    ts_subject task = ts_leads_to(dossier, immersions.list[i], "task");
    if (down.lo <= moment(dossier, task, "finish").hi && up.hi >= moment(dossier, task, "start").lo)
      return immersions.list[i];
  }
  return immersions.count > 0 ? immersions.list[0] : TS_NO_SUBJECT;
}

/* Time in the log that was this immersion, at worst. */
static double done_of(const ts_dossier *dossier, ts_subject person_day, ts_subject immersion) {
  ts_field records = ts_subject_field(dossier, person_day, "records");
  ts_field immersions = ts_subject_field(dossier, person_day, "immersions");
  double done = 0;
  for (size_t i = 0; i < records.count; i++)
    if (immersion_of(dossier, records.list[i], immersions) == immersion)
      done += number(dossier, records.list[i], "duration").hi;
  return done;
}

/* A moment stands for none of the plan: a rule that asks nothing where nobody goes under shall
 * still say what the days before come to. */
static const double moment_only = 1e-9;

static double time_in_all(const ts_dossier *dossier, ts_subject person_day, ts_subject immersion) {
  return fmax(number(dossier, immersion, "time").hi, done_of(dossier, person_day, immersion));
}

/* The dossier with another time for each immersion of the day: none; or as long as it is planned,
 * or as it already took where that is more. What overran in the morning is not made up for by what
 * is still to come. */
static ts_dossier *with_times(const that_day *at, bool to_come) {
  ts_dossier *variant = ts_dossier_variant(at->dossier);
  for (ts_subject s = 0; s < ts_subject_count(at->dossier); s++) {
    if (!is_a(at->dossier, s, "person-day") || date_of(at->dossier, s) != at->date) continue;
    ts_field immersions = ts_subject_field(at->dossier, s, "immersions");
    for (size_t i = 0; i < immersions.count; i++) {
      uint32_t slot = slot_of(at->dossier, immersions.list[i], "time");
      double time = to_come ? time_in_all(at->dossier, s, immersions.list[i]) : moment_only;
      ts_value value = *ts_slot_value(at->dossier, slot);
      value.range = (ts_range){time, time};
      value.state = TS_SET_BY_USER;
      ts_variant_put(variant, slot, value);
    }
  }
  return variant;
}

/* ---- allowances ------------------------------------------------------------------------ */

/* How much a finding of a rule comes to at worst: its greatest total, its least ceiling. */
static bool take(const ts_finding *finding, const char *more, ts_allowance *into) {
  const ts_case *in_place = &finding->view[TS_IN_PLACE];
  const ts_spoken *const spoken[] = {in_place->worst, in_place->best};
  bool found = false;
  for (size_t k = 0; k < 2 && spoken[k] != NULL; k++)
    for (size_t i = 0; i < spoken[k]->same->value_count; i++) {
      const char *named;
      const ts_outcome said = ts_spoken_outcome(spoken[k]);
      const ts_shown *total = ts_ceiling_total(&said, i, &named);
      if (total == NULL || !ts_same(named, more)) continue;
      into->with_plan = found ? fmax(into->with_plan, total->range.hi) : total->range.hi;
      into->most = found ? fmin(into->most, said.values[i].range.lo) : said.values[i].range.lo;
      into->dim = total->dim;
      found = true;
    }
  return found;
}

static const ts_finding *same_in(const ts_assessment *a, const ts_finding *like) {
  const ts_finding *lists[] = {a->findings, a->duties};
  const size_t counts[] = {a->finding_count, a->duty_count};
  for (int list = 0; list < 2; list++)
    for (size_t i = 0; i < counts[list]; i++) {
      const ts_finding *one = &lists[list][i];
      if (one->rule == like->rule && one->subject == like->subject && one->word == like->word &&
          ts_same(one->about, like->about))
        return one;
    }
  return NULL;
}

static bool failed(const ts_assessment *a, const ts_allowance *one) {
  const char *rule = ts_rule_at(a->in.packs, one->rule)->id;
  const char *path = ts_subject_at(a->in.dossier, one->finding->subject)->path;
  for (size_t i = 0; i < a->failure_count; i++)
    if (ts_same(a->failures[i].rule, rule) && ts_same(a->failures[i].subject, path)) return true;
  return false;
}

/* A rule that says nothing where nobody goes under has nothing used up; one that failed, all. */
static double used(const ts_assessment *so_far, const ts_allowance *one) {
  ts_allowance then = {0};
  const ts_finding *same = same_in(so_far, one->finding);
  if (same != NULL && take(same, one->more, &then)) return then.with_plan;
  return failed(so_far, one) ? one->with_plan : 0;
}

/* Whether what a rule says hangs on time under water, which the log has. */
static bool is_logged(const ts_dossier *dossier, const ts_outcome *outcome) {
  for (size_t i = 0; i < outcome->fact_count; i++) {
    ts_subject of = ts_slot_subject(dossier, outcome->facts[i]);
    const char *fact = ts_slot_fact(dossier, outcome->facts[i])->name;
    if (is_a(dossier, of, "record") || (is_a(dossier, of, "immersion") && ts_same(fact, "time")))
      return true;
  }
  return false;
}

double ts_allowance_left(const ts_allowance *one) {
  double left = one->most - one->with_plan;
  return fabs(left) <= 1e-12 * one->most ? 0 : left; /* as rules settle what meets a threshold */
}

typedef struct {
  ts_allowance *items;
  size_t count, capacity;
} allowances;

static void add_allowances(const ts_day_report *day, const ts_finding *finding, allowances *all) {
  if (finding->view[TS_IN_PLACE].worst == NULL) return;
  const ts_outcome said = ts_spoken_outcome(finding->view[TS_IN_PLACE].worst);
  for (size_t i = 0; i < said.value_count; i++) {
    ts_allowance one = {.rule = finding->rule, .finding = finding};
    if (ts_ceiling_total(&said, i, &one.more) == NULL) continue;
    take(finding, one.more, &one);
    one.logged = is_logged(day->a->in.dossier, &said);
    one.so_far = used(day->so_far, &one);
    TS_GROW(all->items, all->count, all->capacity);
    all->items[all->count++] = one;
  }
}

static void find_allowances(ts_day_report *day, ts_day_person *person) {
  const ts_assessment *a = day->to_come;
  allowances all = {0};
  for (size_t i = 0; i < a->finding_count; i++)
    if (a->findings[i].subject == person->person_day) add_allowances(day, &a->findings[i], &all);
  for (size_t i = 0; i < a->duty_count; i++)
    if (a->duties[i].subject == person->person_day) add_allowances(day, &a->duties[i], &all);
  ts_allowance *kept = ts_arena_alloc(a->arena, (all.count + 1) * sizeof *kept);
  if (all.count > 0) memcpy(kept, all.items, all.count * sizeof *kept);
  person->allowances = kept;
  person->allowance_count = all.count;
  free(all.items);
}

/* ---- what the log says against the plan ------------------------------------------------ */

static bool names(const ts_outcome *outcome, const char *name) {
  for (size_t i = 0; i < outcome->value_count; i++)
    if (ts_same(outcome->values[i].name, name)) return true;
  return false;
}

/* Of the person: about an entry in the log, or about what was recorded beside what was planned. */
static bool is_of_log(const ts_dossier *dossier, const ts_finding *f, const ts_day_person *person) {
  const ts_spoken *worst = f->view[TS_IN_PLACE].worst;
  if (worst == NULL) return false;
  if (is_a(dossier, f->subject, "record"))
    return ts_leads_to(dossier, f->subject, "person") == person->person;
  const ts_outcome said = ts_spoken_outcome(worst);
  return f->subject == person->person_day && names(&said, "recorded") && names(&said, "planned");
}

static void find_said(ts_day_report *day, ts_day_person *person) {
  const ts_assessment *a = day->a;
  size_t *said = ts_arena_alloc(a->arena, (a->finding_count + 1) * sizeof *said);
  for (size_t i = 0; i < a->finding_count; i++)
    if (is_of_log(a->in.dossier, &a->findings[i], person)) said[person->said_count++] = i;
  person->said = said;
}

/* ---- dives on gas ---------------------------------------------------------------------- */

/* At a height a dive counts as one to the depth at the sea whose pressure is as many times that of
 * its surface. */
static double depth_at_sea(const ts_dossier *dossier, ts_subject subject, double depth) {
  const ts_function *pressure = ts_function_find("air_pressure");
  ts_subject site = ts_leads_to(dossier, subject, "site");
  if (site == TS_NO_SUBJECT || pressure == NULL) return depth;
  double height = fmax(0, number(dossier, site, "altitude").hi);
  return depth * pressure->point((double[]){0}) / pressure->point((double[]){height});
}

typedef struct {
  ts_subject record;
  double down;
} entry;

static int by_down(const void *a, const void *b) {
  const entry *x = a, *y = b;
  if (x->down != y->down) return x->down < y->down ? -1 : 1;
  return x->record < y->record ? -1 : x->record > y->record;
}

/* Records by when they went down, at the earliest. */
static const ts_subject *sorted(const ts_assessment *a, ts_field list) {
  ts_subject *kept = ts_arena_alloc(a->arena, (list.count + 1) * sizeof *kept);
  entry *entries = ts_alloc((list.count + 1) * sizeof *entries);
  for (size_t i = 0; i < list.count; i++)
    entries[i] = (entry){list.list[i], moment(a->in.dossier, list.list[i], "down").lo};
  qsort(entries, list.count, sizeof *entries, by_down);
  for (size_t i = 0; i < list.count; i++) kept[i] = entries[i].record;
  free(entries);
  return kept;
}

static void dive(const ts_dossier *dossier, ts_subject record, ts_day_person *person) {
  ts_range down = moment(dossier, record, "down"), up = moment(dossier, record, "up");
  double depth = depth_at_sea(dossier, record, number(dossier, record, "depth").hi);
  double time = number(dossier, record, "duration").hi;
  person->dives = ts_dives_next(person->dives, down.lo - person->up, depth, time);
  person->up = fmax(person->up, up.hi);
}

/* Every dive of the person up to that day: what was done the evening before counts in the morning.
 */
static void follow_dives(const ts_assessment *a, double date, ts_day_person *person) {
  const ts_dossier *dossier = a->in.dossier;
  ts_field list = ts_subject_field(dossier, person->person, "records");
  const ts_subject *records = sorted(a, list);
  for (size_t i = 0; i < list.count; i++)
    if (date_of(dossier, records[i]) <= date && may_be_on_gas(dossier, records[i]))
      dive(dossier, records[i], person);
}

static ts_dive_left left_at(const ts_dossier *dossier, const ts_day_person *person,
                            ts_subject subject, double depth, double from) {
  double interval = person->dives.time > 0 ? from - person->up : 0;
  double at_sea = depth_at_sea(dossier, subject, depth);
  return (ts_dive_left){.immersion = TS_NO_SUBJECT,
                        .from = from,
                        .depth = depth,
                        .left = ts_dives_left(person->dives, interval, at_sea)};
}

/* Immersions on gas whose task is not surely over, each as if it came next; else the deepest of the
 * day once more, at once. */
static void find_left(const ts_assessment *a, ts_day_person *person) {
  const ts_dossier *dossier = a->in.dossier;
  ts_dive_left *left = ts_arena_alloc(a->arena, (person->immersion_count + 1) * sizeof *left);
  bool gas = person->dives.time > 0;
  person->left = left;
  for (size_t i = 0; i < person->immersion_count; i++) {
    ts_subject one = person->immersions[i], task = ts_leads_to(dossier, one, "task");
    if (!may_be_on_gas(dossier, one)) continue;
    gas = true;
    if (moment(dossier, task, "finish").hi <= person->up) continue;
    double from = fmax(person->up, moment(dossier, task, "start").lo);
    left[person->left_count] =
        left_at(dossier, person, one, number(dossier, one, "depth").hi, from);
    left[person->left_count].needed =
        fmax(0, number(dossier, one, "time").hi - done_of(dossier, person->person_day, one));
    left[person->left_count++].immersion = one;
  }
  if (gas && person->left_count == 0)
    left[person->left_count++] =
        left_at(dossier, person, person->person_day,
                number(dossier, person->person_day, "deepest").hi, person->up);
}

/* ---- all of it ------------------------------------------------------------------------- */

static void look_at(ts_day_report *day, ts_subject person_day, double date) {
  const ts_dossier *dossier = day->a->in.dossier;
  ts_field immersions = ts_subject_field(dossier, person_day, "immersions");
  ts_field records = ts_subject_field(dossier, person_day, "records");
  ts_day_person person = {.person_day = person_day,
                          .person = ts_leads_to(dossier, person_day, "person"),
                          .immersions = immersions.list,
                          .immersion_count = immersions.count,
                          .records = sorted(day->a, records),
                          .record_count = records.count,
                          .up = -INFINITY};
  find_allowances(day, &person);
  find_said(day, &person);
  follow_dives(day->a, date, &person);
  find_left(day->a, &person);
  day->people[day->count++] = person;
}

bool ts_day_look(const ts_assess_inputs *inputs, double date, ts_day_report *day,
                 ts_diagnostics *problems) {
  that_day at = {inputs->dossier, date};
  *day = (ts_day_report){.variants = {with_times(&at, true), with_times(&at, false)}};
  day->a = assess(inputs, inputs->dossier, date, problems);
  day->to_come = assess(inputs, day->variants[0], date, problems);
  day->so_far = assess(inputs, day->variants[1], date, problems);
  if (day->a == NULL || day->to_come == NULL || day->so_far == NULL) return false;
  ts_subject subjects = ts_subject_count(inputs->dossier);
  day->people = ts_arena_alloc(day->a->arena, ((size_t)subjects + 1) * sizeof *day->people);
  for (ts_subject s = 0; s < subjects; s++)
    if (is_a(inputs->dossier, s, "person-day") && date_of(inputs->dossier, s) == date)
      look_at(day, s, date);
  return true;
}

void ts_day_release(ts_day_report *day) {
  ts_assessment_free(day->so_far);
  ts_assessment_free(day->to_come);
  ts_assessment_free(day->a);
  for (int i = 0; i < 2; i++) ts_dossier_free(day->variants[i]);
}

bool ts_day_holds(const ts_day_report *day) {
  bool holds = day->a->failure_count > 0;
  for (size_t i = 0; i < day->count; i++) {
    const ts_day_person *person = &day->people[i];
    holds = holds || person->said_count > 0;
    for (size_t k = 0; k < person->allowance_count; k++)
      holds = holds || ts_allowance_left(&person->allowances[k]) < 0;
    for (size_t k = 0; k < person->left_count; k++)
      holds = holds || person->left[k].needed > person->left[k].left;
  }
  return holds;
}
