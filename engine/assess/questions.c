/* What an answer could take away.
 *
 * The courses of things as they are say which of them an answer would leave: what those weigh
 * together foretells what an assessment with the answer would weigh, without running a rule
 * again. The answer that promises most, and a middling one, are then really given. */
#include "assess/questions.h"
#include "assess/seen.h"
#include "base/sort.h"
#include "base/text.h"
#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ANSWERS = 16, ENDS = 64, STOP_WEIGHT = TS_LEVELS * TS_LEVELS };

/* What some pairs say together. */
typedef struct {
  int score; /* worst scores of hazards, and stops */
  size_t unsettled;
} weight;

typedef struct {
  ts_value value;
  int foretold; /* weight of the courses it would leave */
} answer;

typedef struct {
  ts_probe *probe;
  ts_seen *seen;
  ts_assessment *a;
  uint32_t slot;
  const uint32_t *pairs; /* that read it */
  size_t pair_count;
  weight before;
  answer answers[ANSWERS];
  size_t answer_count, middle; /* middle: which answer is the middling one, or ANSWERS */
  ts_course *left;             /* room for the courses an answer leaves */
  size_t left_capacity;
  ts_tallies tallies;
} asker;

/* ---- weighing --------------------------------------------------------------------------- */

static weight weigh_tallies(const ts_tallies *tallies) {
  weight w = {0, 0};
  for (size_t i = 0; i < tallies->count; i++) {
    const ts_tally *tally = &tallies->at[i];
    if (tally->word == TS_REMARK) continue;
    w.unsettled += !tally->standing.settled;
    if (tally->word == TS_HAZARD)
      w.score += tally->standing.worst.likelihood * tally->standing.worst.severity;
    if (tally->word == TS_STOP) w.score += STOP_WEIGHT;
  }
  return w;
}

static weight weigh(asker *k) {
  weight sum = {0, 0};
  for (size_t i = 0; i < k->pair_count; i++) {
    const ts_tallies *tallies = ts_probe_try(k->probe, k->pairs[i]);
    if (tallies == NULL) continue;
    weight w = weigh_tallies(tallies);
    sum.score += w.score;
    sum.unsettled += w.unsettled;
  }
  return sum;
}

/* ---- foretelling ------------------------------------------------------------------------- */

static bool allows(const ts_bound *bound, const ts_value *value) {
  if (bound->number)
    return value->range.lo >= bound->range.lo && value->range.lo <= bound->range.hi;
  if (bound->member > 0) {
    bool in = value->certain >> (bound->member - 1) & 1;
    return bound->choices & (in ? 2 : 1);
  }
  return (bound->choices & value->choices) != 0;
}

static bool leaves(const asker *k, const ts_course *course, const ts_value *value) {
  for (size_t i = 0; i < course->bound_count; i++)
    if (course->bounds[i].slot == k->slot && !allows(&course->bounds[i], value)) return false;
  return true;
}

static const ts_tallies *tally(asker *k, size_t pair, const ts_evaluation *evaluation) {
  const ts_pair *it = &k->a->pairs[pair];
  ts_tally_all(&k->probe->in, it->rule, it->subject, TS_IN_PLACE, evaluation, &k->tallies);
  return &k->tallies;
}

/* The weight of what the pair, which says all this as things are, would say with the answer. */
static int foretell(asker *k, size_t pair, const ts_evaluation *all, const ts_value *value) {
  ts_evaluation some = *all;
  TS_RESERVE(k->left, all->course_count, k->left_capacity);
  some.courses = k->left;
  some.course_count = 0;
  for (size_t c = 0; c < all->course_count; c++)
    if (leaves(k, &all->courses[c], value)) k->left[some.course_count++] = all->courses[c];
  if (some.course_count == 0) some = *all;
  return weigh_tallies(tally(k, pair, &some)).score;
}

static void foretell_all(asker *k) {
  for (size_t i = 0; i < k->pair_count; i++) {
    const ts_evaluation *all = ts_seen_of(k->seen, k->pairs[i]);
    if (all == NULL) continue;
    for (size_t n = 0; n < k->answer_count; n++)
      k->answers[n].foretold += foretell(k, k->pairs[i], all, &k->answers[n].value);
  }
}

/* ---- which answers to look at ---------------------------------------------------------- */

static void add_answer(asker *k, ts_value value) {
  if (k->answer_count < ANSWERS) k->answers[k->answer_count++] = (answer){value, 0};
}

typedef struct {
  double at[ENDS];
  size_t count;
} ends;

static void add_ends(const asker *k, const ts_evaluation *evaluation, ends *e) {
  for (size_t c = 0; c < evaluation->course_count; c++)
    for (size_t b = 0; b < evaluation->courses[c].bound_count; b++) {
      const ts_bound *bound = &evaluation->courses[c].bounds[b];
      if (bound->slot != k->slot || !bound->number) continue;
      for (int side = 0; side < 2; side++) {
        double end = side ? bound->range.hi : bound->range.lo;
        bool known = e->count == ENDS;
        for (size_t i = 0; i < e->count && !known; i++) known = e->at[i] == end;
        if (!known) e->at[e->count++] = end;
      }
    }
}

/* Where some course begins or ends to be possible: between two such places all answers do the
 * same. Weighs things as they are on the way. */
static void look_at_pairs(asker *k, ends *e) {
  k->before = (weight){0, 0};
  for (size_t i = 0; i < k->pair_count; i++) {
    const ts_evaluation *all = ts_seen_of(k->seen, k->pairs[i]);
    if (all == NULL) continue;
    weight w = weigh_tallies(tally(k, k->pairs[i], all));
    k->before.score += w.score;
    k->before.unsettled += w.unsettled;
    add_ends(k, all, e);
  }
  ts_sort_numbers(e->at, e->count);
}

static double on_step(double x, double step) { return step > 0 ? nearbyint(x / step) * step : x; }

static void number_answers(asker *k, ts_range now, const ends *e) {
  double step = ts_slot_step(ts_slot_fact(k->probe->variant, k->slot));
  if (e->count == 0) return; /* no decision hangs on it */
  add_answer(k, ts_value_point(now.lo));
  add_answer(k, ts_value_point(now.hi));
  k->middle = k->answer_count;
  add_answer(k, ts_value_point(on_step(now.lo + (now.hi - now.lo) / 2, step)));
  double last = now.lo;
  for (size_t i = 0; i <= e->count; i++) {
    double next = i < e->count ? e->at[i] : now.hi;
    if (next - last <= 1e-9 * fmax(fabs(next), fabs(last))) continue;
    add_answer(k, ts_value_point(on_step(last + (next - last) / 2, step)));
    last = next;
  }
}

static void word_answers(asker *k, const ts_value *now, bool set) {
  if (set) add_answer(k, ts_value_choice(now->certain));
  for (unsigned bit = 0; bit < 64; bit++) {
    uint64_t one = (uint64_t)1 << bit;
    if (now->choices & one & ~(set ? now->certain : 0))
      add_answer(k, ts_value_choice(one | (set ? now->certain : 0)));
  }
}

static void find_answers(asker *k) {
  const ts_value *now = ts_slot_value(k->a->in.dossier, k->slot);
  ts_fact_type type = ts_slot_fact(k->a->in.dossier, k->slot)->type;
  ends e = {.count = 0};
  k->answer_count = 0;
  k->middle = ANSWERS;
  look_at_pairs(k, &e);
  if (ts_slot_is_number(k->a->in.dossier, k->slot))
    number_answers(k, now->range, &e);
  else if (type == TS_FLAG || type == TS_CHOICE || type == TS_SET)
    word_answers(k, now, type == TS_SET);
}

/* ---- one question ---------------------------------------------------------------------------- */

static int greater(int a, int b) { return a > b ? a : b; }

/* The answer given in earnest: what it takes away. */
static int give(asker *k, const answer *given, double *settles) {
  ts_variant_put(k->probe->variant, k->slot, given->value);
  weight after = weigh(k);
  ts_variant_put(k->probe->variant, k->slot, *ts_slot_value(k->a->in.dossier, k->slot));
  *settles = k->before.unsettled > after.unsettled
                 ? (double)(k->before.unsettled - after.unsettled) / (double)k->before.unsettled
                 : 0;
  return greater(k->before.score - after.score, 0);
}

static size_t most_promising(const asker *k) {
  size_t best = 0;
  for (size_t i = 1; i < k->answer_count; i++)
    if (k->answers[i].foretold < k->answers[best].foretold) best = i;
  return best;
}

static int on_average(const asker *k) {
  int sum = 0;
  for (size_t i = 0; i < k->answer_count; i++)
    sum += greater(k->before.score - k->answers[i].foretold, 0);
  return k->answer_count > 0 ? sum / (int)k->answer_count : 0;
}

static void ask(asker *k, ts_open_fact *fact) {
  k->slot = fact->slot;
  k->pairs = k->probe->pairs_of + k->probe->pairs_from[fact->slot];
  k->pair_count = k->probe->pairs_from[fact->slot + 1] - k->probe->pairs_from[fact->slot];
  fact->removes = fact->middle = 0;
  fact->settles = 0;
  if (ts_probe_is_spent(k->probe)) return;
  find_answers(k);
  if (k->answer_count == 0) return;
  foretell_all(k);
  size_t best = most_promising(k);
  fact->best = k->answers[best].value;
  if (k->answers[best].foretold >= k->before.score) return;
  double middling;
  fact->removes = give(k, &k->answers[best], &fact->settles);
  if (k->middle == ANSWERS)
    fact->middle = on_average(k);
  else {
    fact->middle = give(k, &k->answers[k->middle], &middling);
    fact->settles = (fact->settles + middling) / 2;
  }
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

/* ---- the first three together --------------------------------------------------------------- */

enum { COMPANY = 10, COMPANY_COURSES = 20000 };

/* The first with each two of the next ones. What a pair says with some answers given depends on
 * those alone that it reads: it is tried once for each set of these. */
typedef struct {
  const ts_open_fact *facts;
  size_t count;
  uint32_t *pairs; /* that read any of them */
  unsigned *reads; /* by pair: which, as bits */
  size_t pair_count, courses;
  unsigned at[COMPANY * COMPANY]; /* which three, as bits */
  size_t at_count;
  int *left; /* by pair and then by company: what it weighs with their answers */
} companies;

static void find_pairs(const ts_probe *p, companies *c) {
  size_t *place = ts_alloc((p->a->pair_count + 1) * sizeof *place); /* and 1 */
  c->pairs = ts_alloc((p->a->pair_count + 1) * sizeof *c->pairs);
  c->reads = ts_alloc((p->a->pair_count + 1) * sizeof *c->reads);
  for (size_t f = 0; f < c->count; f++)
    for (uint32_t i = p->pairs_from[c->facts[f].slot]; i < p->pairs_from[c->facts[f].slot + 1];
         i++) {
      uint32_t pair = p->pairs_of[i];
      if (place[pair] == 0) {
        c->courses += p->a->pairs[pair].courses;
        c->pairs[c->pair_count++] = pair;
        place[pair] = c->pair_count;
      }
      c->reads[place[pair] - 1] |= 1U << f;
    }
  free(place);
}

static void lay_answers(const asker *k, const companies *c, unsigned which, bool given) {
  for (size_t f = 0; f < c->count; f++) {
    uint32_t slot = c->facts[f].slot;
    if (which >> f & 1)
      ts_variant_put(k->probe->variant, slot,
                     given ? c->facts[f].best : *ts_slot_value(k->a->in.dossier, slot));
  }
}

/* What it weighs with these answers, and how many courses that ran. */
typedef struct {
  bool known;
  int score;
  size_t spent;
} tried;

static tried try_answers(asker *k, const companies *c, unsigned which) {
  size_t before = k->probe->spent;
  lay_answers(k, c, which, true);
  tried t = {true, weigh(k).score, 0};
  lay_answers(k, c, which, false);
  t.spent = k->probe->spent - before;
  k->probe->spent = before;
  return t;
}

/* Each company counts as tried, whether it is by itself or not. */
static void try_companies(ts_worker *w, void *context, size_t number) {
  companies *c = context;
  tried by_answers[1 << COMPANY] = {{false, 0, 0}};
  asker k = {.probe = w->probe, .a = &w->a, .pairs = &c->pairs[number], .pair_count = 1};
  for (size_t i = 0; i < c->at_count; i++) {
    unsigned which = c->at[i] & c->reads[number];
    tried *t = &by_answers[which];
    if (!t->known) *t = try_answers(&k, c, which);
    c->left[number * c->at_count + i] = t->score;
    k.probe->spent += t->spent;
  }
}

static int left_by(const companies *c, size_t company) {
  int sum = 0;
  for (size_t p = 0; p < c->pair_count; p++) sum += c->left[p * c->at_count + company];
  return sum;
}

/* Which two of the next ones take most away together with the first. */
static void choose_company(ts_crew *crew, companies *c, size_t *second, size_t *third) {
  int least = INT_MAX;
  for (size_t i = 1; i < c->count; i++)
    for (size_t m = i + 1; m < c->count; m++) c->at[c->at_count++] = 1U | 1U << i | 1U << m;
  c->left = ts_alloc((c->pair_count * c->at_count + 1) * sizeof *c->left);
  ts_crew_try(crew, c->pair_count, c->pair_count, try_companies, c);
  for (size_t i = 1, n = 0; i < c->count; i++)
    for (size_t m = i + 1; m < c->count; m++, n++) {
      int left = left_by(c, n);
      if (left >= least) continue;
      least = left;
      *second = i;
      *third = m;
    }
  free(c->left);
}

static void move_up(ts_open_fact *facts, size_t from, size_t to) {
  ts_open_fact moved = facts[from];
  memmove(&facts[to + 1], &facts[to], (from - to) * sizeof *facts);
  facts[to] = moved;
}

/* Answers help each other: a finding may need two. The two that go best with the first come
 * next, whatever they take away alone. */
static void put_company_next(ts_crew *crew, ts_open_fact *facts, size_t count) {
  if (count > COMPANY) count = COMPANY;
  if (count < 4 || facts[0].removes == 0) return;
  companies c = {.facts = facts, .count = count};
  size_t second = 1, third = 2;
  find_pairs(ts_crew_probe(crew), &c);
  if (c.courses <= COMPANY_COURSES) choose_company(crew, &c, &second, &third);
  free(c.pairs);
  free(c.reads);
  move_up(facts, third, 1); /* then `second`, which stood before it, is one further on */
  move_up(facts, second + 1, 1);
}

/* ---- all --------------------------------------------------------------------------------------
 */

enum { ASKED = 32 }; /* in a round */

typedef struct {
  const ts_crew *crew;
  ts_open_fact *facts;
  ts_seen **seen; /* by worker, once it has been asked */
} asking;

static void ask_one(ts_worker *w, void *context, size_t number) {
  asking *all = context;
  ts_seen **seen = &all->seen[w - all->crew->workers];
  if (*seen == NULL) *seen = ts_seen_new(w->probe);
  asker k = {.probe = w->probe, .seen = *seen, .a = &w->a};
  ask(&k, &all->facts[number]);
  free(k.left);
  free(k.tallies.at);
}

static void ask_all(ts_crew *crew) {
  asking all = {crew, crew->a->open, ts_alloc((crew->count + 1) * sizeof *all.seen)};
  ts_crew_try(crew, crew->a->open_count, ASKED, ask_one, &all);
  for (size_t i = 0; i < crew->count; i++) ts_seen_free(all.seen[i]);
  free(all.seen);
}

void ts_questions(ts_crew *crew) {
  ts_assessment *a = crew->a;
  size_t kept = 0;
  ask_all(crew);
  for (size_t i = 0; i < a->open_count; i++) {
    bool unknown = ts_slot_value(a->in.dossier, a->open[i].slot)->state == TS_UNKNOWN;
    if (unknown || a->open[i].removes > 0) a->open[kept++] = a->open[i];
  }
  a->open_count = kept;
  ts_open_fact *room = ts_alloc((kept + 1) * sizeof *room);
  sort_by_worth(a->open, room, kept);
  free(room);
  put_company_next(crew, a->open, kept);
}
