#include "assess/conditions.h"
#include "base/text.h"
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { COURSES = 8, CLAUSES = 32, DIGITS = 9 };

/* What a course needs of one fact, and the value that says so. */
typedef struct {
  ts_bound bound;
  bool dropped;
} need;

typedef struct {
  size_t course; /* in the evaluation of things as they are */
  need needs[CLAUSES];
  size_t count;
  bool enough;
} course_needs;

/* One side of one finding: how it stands there. */
typedef struct {
  ts_probe *probe;
  const ts_finding *finding;
  size_t pair;
  bool worst;     /* the worst side; else the best */
  bool said;      /* the finding is said there; else it is not found */
  ts_stand stand; /* then */
} side_sought;

/* ---- trying needs ------------------------------------------------------------------- */

static ts_value narrowed(ts_value value, const ts_bound *bound, double step) {
  if (bound->number) { /* between steps there is nothing */
    double lo = step > 0 ? ceil(bound->range.lo / step) * step : bound->range.lo;
    double hi = step > 0 ? floor(bound->range.hi / step) * step : bound->range.hi;
    value.range.lo = fmax(value.range.lo, fmin(lo, value.range.hi));
    value.range.hi = fmax(fmin(value.range.hi, hi), value.range.lo);
  } else if (bound->member > 0) {
    uint64_t bit = (uint64_t)1 << (bound->member - 1);
    bool in = bound->choices & 2;
    value.choices = in ? value.choices | bit : value.choices & ~bit;
    value.certain = in ? value.certain | bit : value.certain & ~bit;
  } else {
    value.choices = bound->choices;
  }
  return value;
}

static void lift(ts_probe *p, const course_needs *c) {
  for (size_t i = 0; i < c->count; i++)
    ts_variant_put(p->variant, c->needs[i].bound.slot,
                   *ts_slot_value(p->a->in.dossier, c->needs[i].bound.slot));
}

/* Every need that is not dropped, laid on the variant: sets may have several. */
static void lay(ts_probe *p, const course_needs *c) {
  lift(p, c);
  for (size_t i = 0; i < c->count; i++) {
    uint32_t slot = c->needs[i].bound.slot;
    if (c->needs[i].dropped || ts_slot_fact(p->variant, slot)->derived) continue;
    ts_variant_put(p->variant, slot,
                   narrowed(*ts_slot_value(p->variant, slot), &c->needs[i].bound,
                            ts_slot_step(ts_slot_fact(p->variant, slot))));
  }
}

/* With these needs met it stands so on every course. */
static bool is_enough(const side_sought *s, const course_needs *c) {
  lay(s->probe, c);
  const ts_tallies *tallies = ts_probe_try(s->probe, s->pair);
  bool enough = false;
  if (tallies != NULL && !s->probe->evaluation->unresolved) {
    const ts_tally *tally = ts_tally_find(tallies, s->finding->word, s->finding->about);
    ts_stand stand = ts_stands(tallies, s->finding->word, s->finding->about);
    enough = s->said ? tally != NULL && tally->standing.settled &&
                           tally->standing.certainty == TS_CERTAIN &&
                           ts_same_stand(s->finding->word, stand, s->stand)
                     : tally == NULL;
  }
  lift(s->probe, c);
  return enough;
}

static void drop_what_is_not_needed(const side_sought *s, course_needs *c) {
  c->enough = is_enough(s, c);
  for (size_t i = c->count; c->enough && i-- > 0;) {
    c->needs[i].dropped = true;
    c->needs[i].dropped = is_enough(s, c);
  }
}

static size_t words_needed(const course_needs *c) {
  size_t count = 0;
  for (size_t i = 0; i < c->count; i++) count += !c->needs[i].dropped;
  return count;
}

/* ---- which courses stand so ------------------------------------------------------------ */

static bool course_says(const side_sought *s, const ts_course *course) {
  for (size_t i = 0; i < course->outcome_count; i++)
    if (course->outcomes[i].word == s->finding->word &&
        ts_same(course->outcomes[i].about ? course->outcomes[i].about : "", s->finding->about))
      return true;
  return false;
}

static void take_needs(const ts_evaluation *evaluation, size_t index, course_needs *c) {
  const ts_course *course = &evaluation->courses[index];
  *c = (course_needs){.course = index};
  for (size_t i = 0; i < course->bound_count && c->count < CLAUSES; i++)
    c->needs[c->count++].bound = course->bounds[i];
}

/* The needs of up to COURSES courses that stand so, taken down before anything else is tried. */
static size_t gather(const side_sought *s, course_needs *all) {
  const ts_tallies *tallies = ts_probe_try(s->probe, s->pair);
  if (tallies == NULL) return 0;
  const ts_evaluation *e = s->probe->evaluation;
  const ts_tally *tally = ts_tally_find(tallies, s->finding->word, s->finding->about);
  size_t count = 0;
  if (s->said && tally != NULL && tally->courses > 0)
    take_needs(e, s->worst ? tally->worst.course : tally->best.course, &all[count++]);
  for (size_t i = 0; i < e->course_count && count < COURSES; i++)
    if (course_says(s, &e->courses[i]) == s->said) take_needs(e, i, &all[count++]);
  return count;
}

/* ---- words -------------------------------------------------------------------------------- */

/* Whether a narrowed end leaves the round value itself out: it then lies inside of it by more
 * than the tolerance of comparisons; an end that takes it in lies at it or outside. */
static bool leaves_out(double inward, double round) { return inward > 1e-13 * fabs(round); }

static ts_clause between(const char *least, const char *most, ts_arena *arena) {
  if (ts_same(least, most)) return (ts_clause){.text = least, .where = "at", .low = least};
  return (ts_clause){.text = ts_arena_printf(arena, "between %s and %s", least, most),
                     .where = "between",
                     .low = least,
                     .high = most};
}

/* "above 3 m": a text with one number, and its parts. */
static ts_clause one_sided(const char *before, const char *number, const char *after,
                           const char *where, ts_arena *arena) {
  return (ts_clause){.text = ts_arena_printf(arena, "%s%s%s", before, number, after),
                     .where = where,
                     .low = number};
}

static ts_clause number_clause(const ts_probe *p, const ts_bound *bound, ts_arena *arena) {
  const ts_dossier *dossier = p->a->in.dossier;
  const ts_fact_def *fact = ts_slot_fact(dossier, bound->slot);
  ts_range was = ts_slot_value(dossier, bound->slot)->range;
  double step = ts_slot_step(fact);
  ts_value all = {.range = was};
  ts_range now = step > 0 ? narrowed(all, bound, step).range : bound->range;
  double low = ts_number_digits(now.lo, DIGITS), high = ts_number_digits(now.hi, DIGITS);
  bool from = now.lo > was.lo, to = now.hi < was.hi;
  const char *least = ts_show_number(dossier, fact, (ts_range){low, low}, arena);
  const char *most = ts_show_number(dossier, fact, (ts_range){high, high}, arena);
  bool moment = fact->type == TS_DATE || fact->type == TS_CLOCK;
  if (from && to) return between(least, most, arena);
  if (moment && from) return one_sided("", least, " or later", "since", arena);
  if (moment) return one_sided("", most, " or earlier", "until", arena);
  if (from && leaves_out(now.lo - low, low)) return one_sided("above ", least, "", "above", arena);
  if (from) return one_sided("at least ", least, "", "from", arena);
  if (leaves_out(high - now.hi, high)) return one_sided("under ", most, "", "below", arena);
  return one_sided("at most ", most, "", "to", arena);
}

static const char *with_spaces(ts_arena *arena, const char *name) {
  char *text = ts_arena_copy(arena, name);
  for (char *c = text; *c != '\0'; c++)
    if (*c == '-') *c = ' ';
  return text;
}

static const char *member_name(const ts_fact_def *fact, unsigned member, ts_arena *arena) {
  ts_value one = {.choices = (uint64_t)1 << (member - 1), .certain = (uint64_t)1 << (member - 1)};
  return ts_show_value(NULL, fact, &one, arena);
}

/* "water temperature", or the plain name where it is the rule's own subject. */
static const char *title(const side_sought *s, uint32_t slot, ts_arena *arena) {
  const ts_dossier *dossier = s->probe->a->in.dossier;
  const ts_fact_def *fact = ts_slot_fact(dossier, slot);
  const char *name = with_spaces(arena, fact->name);
  if (ts_slot_subject(dossier, slot) == s->finding->subject) return name;
  return ts_arena_printf(arena, "%s %s", with_spaces(arena, fact->entity), name);
}

static ts_clause clause(const side_sought *s, const ts_bound *bound, ts_arena *arena) {
  const ts_dossier *dossier = s->probe->a->in.dossier;
  const ts_fact_def *fact = ts_slot_fact(dossier, bound->slot);
  const char *name = title(s, bound->slot, arena);
  ts_value value = {.choices = bound->choices, .certain = bound->choices};
  ts_clause c = {.where = "is"};
  if (bound->number) {
    c = number_clause(s->probe, bound, arena);
    c.text = ts_arena_printf(arena, "%s %s", name, c.text);
  } else if (bound->member > 0) {
    c.where = bound->choices & 2 ? "with" : "without";
    c.low = member_name(fact, bound->member, arena);
    c.text = ts_arena_printf(arena, "%s %s: %s", name, c.low, bound->choices & 2 ? "yes" : "no");
  } else {
    c.low = ts_show_value(dossier, fact, &value, arena);
    c.text = ts_arena_printf(arena, "%s: %s", name, c.low);
  }
  c.slot = bound->slot;
  c.withheld =
      fact->sees == TS_CONFIDENTIAL ? ts_arena_printf(arena, "%s: (withheld)", name) : c.text;
  return c;
}

static ts_condition in_words(const side_sought *s, const course_needs *c, ts_arena *arena) {
  ts_clause *clauses = ts_arena_alloc(arena, (c->count + 1) * sizeof *clauses);
  ts_condition condition = {.clauses = clauses, .enough = c->enough};
  for (size_t i = 0; i < c->count; i++)
    if (!c->needs[i].dropped) clauses[condition.count++] = clause(s, &c->needs[i].bound, arena);
  return condition;
}

/* ---- both sides ----------------------------------------------------------------------------- */

static bool fewer_words(const course_needs *a, const course_needs *b) {
  if (a->enough != b->enough) return a->enough;
  return words_needed(a) < words_needed(b);
}

static bool said_already(const ts_condition *condition, const char *text) {
  for (size_t i = 0; i < condition->count; i++)
    if (ts_same(condition->clauses[i].text, text)) return true;
  return false;
}

/* What was open on a course and how it came out: with all of that the course is the one taken. */
static ts_condition by_decisions(const side_sought *s, size_t index, ts_pool *pool) {
  ts_condition condition = {.enough = true};
  if (ts_probe_try(s->probe, s->pair) == NULL) return condition;
  const ts_course *course = ts_course_worded(s->probe->evaluator, index);
  ts_clause *clauses = ts_alloc((course->decision_count + 1) * sizeof *clauses);
  condition.clauses = clauses;
  for (size_t i = 0; i < course->decision_count; i++) {
    const ts_decision *decision = &course->decisions[i];
    if (decision->settled || said_already(&condition, decision->text)) continue;
    ts_clause *clause = &clauses[condition.count++];
    clause->text = ts_pool_text(pool, decision->text);
    clause->withheld = ts_pool_text(pool, decision->withheld);
  }
  condition.clauses = ts_pool_keep(pool, clauses, condition.count * sizeof *clauses);
  free(clauses);
  return condition;
}

static ts_condition find(const side_sought *s, const ts_assessment *a) {
  course_needs *all = ts_alloc(COURSES * sizeof *all);
  size_t count = gather(s, all), best = 0;
  bool searched = s->probe->a->pairs[s->pair].courses <= TS_COURSES_SEARCHED;
  for (size_t i = 0; searched && i < count; i++) {
    drop_what_is_not_needed(s, &all[i]);
    if (i > 0 && fewer_words(&all[i], &all[best])) best = i;
  }
  ts_condition condition = {0};
  if (searched && count > 0 && all[best].enough)
    condition = in_words(s, &all[best], a->arena);
  else if (count > 0)
    condition = by_decisions(s, all[0].course, a->pool);
  free(all);
  return condition;
}

void ts_conditions(ts_probe *probe, ts_assessment *a, ts_finding *finding) {
  const ts_case *now = &finding->view[TS_IN_PLACE];
  side_sought s = {probe, finding, ts_pair_of(a, finding), true, true, ts_stands_now(finding)};
  if (s.pair == SIZE_MAX || ts_probe_is_spent(probe) || now->standing.settled ||
      now->standing.unresolved || now->worst == NULL)
    return;
  s.stand.certainty = TS_CERTAIN;
  if (finding->word == TS_DUTY) s.stand.duty = now->worst->same->state;
  finding->when_worst = find(&s, a);
  s.worst = false;
  s.said = finding->word == TS_HAZARD ? now->standing.best.likelihood > 0
                                      : now->standing.certainty == TS_CERTAIN;
  s.stand = ts_stand_of(now->standing.best, s.stand.certainty, s.stand.duty);
  if (finding->word == TS_DUTY && now->best != NULL) s.stand.duty = now->best->same->state;
  finding->when_best = find(&s, a);
}
