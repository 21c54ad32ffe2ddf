/* One rule explained: when it applies, what it looks at, and what it says when one fact after
 * another is changed, starting from one of its own examples. */
#include "base/sort.h"
#include "base/text.h"
#include "command/command.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROWS = 48, TEXT = 120 };
#define TS_NOWHERE UINT32_MAX /* no fact in particular: every course counts */

typedef struct {
  const ts_session *session;
  const ts_rule *rule;
  size_t index;
  ts_dossier *world; /* of the example */
  ts_subject subject;
  ts_evaluator *evaluator;
  char says[TEXT]; /* in the example */
} view;

/* ---- what it says ------------------------------------------------------------------------ */

/* The worst said on some courses. */
typedef struct {
  bool applies, stop, note, duty;
  int likelihood, severity;
  ts_duty_state state;
} verdict;

static void take_in(verdict *v, const ts_outcome *said) {
  int now = said->likelihood * said->severity, before = v->likelihood * v->severity;
  v->stop = v->stop || said->word == TS_STOP;
  v->note = v->note || said->word == TS_REMARK;
  if (said->word == TS_DUTY && (!v->duty || said->state > v->state)) v->state = said->state;
  v->duty = v->duty || said->word == TS_DUTY;
  if (said->word != TS_HAZARD || now < before) return;
  if (now == before && said->severity <= v->severity) return;
  v->likelihood = said->likelihood;
  v->severity = said->severity;
}

static void add_word(char *text, const char *word) {
  size_t length = strlen(text);
  snprintf(text + length, TEXT - length, "%s%s", length > 0 ? ", " : "", word);
}

static const char *words_of(const verdict *v, char *text) {
  static const char *const states[] = {"duty met", "duty open", "duty not met"};
  char hazard[40];
  snprintf(hazard, sizeof hazard, "hazard %d × %d = %d", v->likelihood, v->severity,
           v->likelihood * v->severity);
  text[0] = '\0';
  if (v->stop) add_word(text, "stop");
  if (v->likelihood > 0) add_word(text, hazard);
  if (v->duty) add_word(text, states[v->state]);
  if (v->note) add_word(text, "note");
  if (text[0] == '\0') add_word(text, v->applies ? "nothing" : "does not apply");
  return text;
}

/* ---- one fact changed ------------------------------------------------------------------------ */

typedef struct {
  const char *span; /* "15..20 s", "yes" */
  char says[TEXT];
  bool here; /* as in the example */
} row;

static void add_row(row *rows, size_t *count, const char *span, const verdict *v, bool here) {
  row *next = &rows[*count];
  if (*count == ROWS) return;
  *next = (row){.span = span, .here = here};
  words_of(v, next->says);
  ++*count;
}

static const ts_evaluation *with_value(const view *w, uint32_t slot, ts_value value) {
  ts_dossier *variant = ts_dossier_variant(w->world);
  ts_variant_put(variant, slot, value);
  ts_evaluator_use(w->evaluator, variant);
  const ts_evaluation *e = ts_evaluate(w->evaluator, w->index, w->subject, NULL, 0);
  ts_dossier_free(variant);
  return e;
}

static bool covers(const ts_course *course, uint32_t slot, double x) {
  for (size_t b = 0; b < course->bound_count; b++) {
    const ts_bound *bound = &course->bounds[b];
    if (bound->slot == slot && bound->number && (x < bound->range.lo || x > bound->range.hi))
      return false;
  }
  return true;
}

static verdict verdict_at(const ts_evaluation *e, uint32_t slot, double x) {
  verdict v = {0};
  for (size_t c = 0; c < e->course_count; c++) {
    if (!covers(&e->courses[c], slot, x)) continue;
    v.applies = v.applies || e->courses[c].applies;
    for (size_t o = 0; o < e->courses[c].outcome_count; o++)
      take_in(&v, &e->courses[c].outcomes[o]);
  }
  return v;
}

/* Where a course begins or ends, rounded to what a reader can check. What is counted is whole:
 * the first number of a course, or the first after it. */
static double edge_of(const ts_fact_def *fact, const ts_bound *bound, bool end) {
  double x = end ? bound->range.hi : bound->range.lo;
  if (fact->type == TS_COUNT) return end ? floor(x) + 1 : ceil(x);
  return ts_number_digits(x, 6);
}

/* Ascending, the ends of all included. */
static size_t edges_of(const ts_evaluation *e, uint32_t slot, const ts_fact_def *fact, ts_range all,
                       double *at) {
  size_t count = 2;
  at[0] = all.lo, at[1] = all.hi;
  for (size_t c = 0; c < e->course_count; c++)
    for (size_t b = 0; b < e->courses[c].bound_count; b++) {
      const ts_bound *bound = &e->courses[c].bounds[b];
      for (int side = 0; bound->slot == slot && bound->number && side < 2; side++) {
        double x = edge_of(fact, bound, side == 1);
        bool known = x <= all.lo + 1e-9 * (all.hi - all.lo) || x >= all.hi || count == ROWS;
        for (size_t i = 0; i < count && !known; i++) known = at[i] == x;
        if (!known) at[count++] = x;
      }
    }
  ts_sort_numbers(at, count);
  return count;
}

/* "below 15 s", "from 15 s": where the next row begins says where this one ends. */
static const char *span_of(const view *w, const ts_fact_def *fact, ts_range at, bool first) {
  double edge = first ? at.hi : at.lo;
  return ts_arena_printf(w->session->arena, "%s %s", first ? "below" : "from",
                         ts_show_number(w->world, fact, (ts_range){edge, edge}, w->session->arena));
}

/* Neighbours that say the same are one row. */
static size_t rows_of_number(const view *w, uint32_t slot, row *rows) {
  const ts_fact_def *fact = ts_slot_fact(w->world, slot);
  ts_range all = ts_fact_plausible(w->session->vocabulary, fact);
  ts_range was = ts_slot_value(w->world, slot)->range;
  const ts_evaluation *e = with_value(w, slot, (ts_value){.range = all, .state = TS_UNKNOWN});
  double at[ROWS];
  size_t edges = edges_of(e, slot, fact, all, at), count = 0;
  double part = fact->type == TS_COUNT ? 0 : 0.5; /* how far into a stretch it is looked at */
  for (size_t i = 0, next; i + 1 < edges; i = next) {
    char text[TEXT], other[TEXT];
    verdict v = verdict_at(e, slot, at[i] + part * (at[i + 1] - at[i]));
    words_of(&v, text);
    for (next = i + 1; next + 1 < edges; next++) {
      verdict beyond = verdict_at(e, slot, at[next] + part * (at[next + 1] - at[next]));
      if (!ts_same(words_of(&beyond, other), text)) break;
    }
    bool here = was.lo >= at[i] && was.hi <= at[next] && ts_same(text, w->says);
    add_row(rows, &count, span_of(w, fact, (ts_range){at[i], at[next]}, i == 0), &v, here);
  }
  return count;
}

static size_t rows_of_words(const view *w, uint32_t slot, row *rows) {
  const ts_fact_def *fact = ts_slot_fact(w->world, slot);
  uint64_t was = ts_slot_value(w->world, slot)->choices;
  const char *names = fact->type == TS_FLAG ? "no yes" : fact->choices;
  size_t count = 0;
  for (unsigned k = 0; *(names += strspn(names, " ")) != '\0' && k < 64; k++) {
    size_t length = strcspn(names, " ");
    const char *name = ts_arena_copy_n(w->session->arena, names, length);
    const ts_evaluation *e =
        with_value(w, slot, (ts_value){.choices = (uint64_t)1 << k, .state = TS_STATED});
    verdict v = verdict_at(e, slot, 0);
    add_row(rows, &count, name, &v, was == (uint64_t)1 << k);
    names += length;
  }
  return count;
}

static size_t rows_of(const view *w, uint32_t slot, row *rows) {
  switch (ts_slot_fact(w->world, slot)->type) {
  case TS_QUANTITY:
  case TS_COUNT: return rows_of_number(w, slot, rows);
  case TS_FLAG:
  case TS_CHOICE: return rows_of_words(w, slot, rows);
  default: return 0; /* sets, dates and days: not one after another */
  }
}

static bool all_the_same(const row *rows, size_t count) {
  for (size_t i = 1; i < count; i++)
    if (!ts_same(rows[i].says, rows[0].says)) return false;
  return true;
}

/* ---- the table ------------------------------------------------------------------------- */

/* "breath-hold" of the rule's own subject, "water temperature" of others. */
static const char *name_of(const view *w, const ts_fact_def *fact) {
  if (ts_same(fact->entity, w->rule->each)) return fact->name;
  return ts_arena_printf(w->session->arena, "%s %s", fact->entity, fact->name);
}

/* Text and blanks up to a column, which a longer one passes. */
static void column(const char *text, int width) {
  int used = 0;
  for (const char *c = text; *c != '\0'; c++) used += (*c & 0xC0) != 0x80;
  printf("%s%*s", text, used < width ? width - used : 1, "");
}

static void print_rows(const char *name, const row *rows, size_t count) {
  for (size_t i = 0; i < count; i++) {
    bool wide = i == 0 && strlen(name) > 24;
    if (wide) printf("  %s\n", name);
    printf("  ");
    column(i > 0 || wide ? "" : name, 26);
    column(rows[i].span, 22);
    printf("%s%s\n", rows[i].says, rows[i].here ? " *" : "");
  }
}

/* The facts an evaluation of the example reads, one after another; what changes nothing goes into
 * one line below. */
static void print_table(const view *w, const uint32_t *slots, size_t count) {
  ts_text still = {0};
  for (size_t i = 0; i < count; i++) {
    const ts_fact_def *fact = ts_slot_fact(w->world, slots[i]);
    row rows[ROWS];
    size_t n = fact->derived ? 0 : rows_of(w, slots[i], rows);
    if (n > 0 && !all_the_same(rows, n))
      print_rows(name_of(w, fact), rows, n);
    else if (n > 0)
      ts_text_addf(&still, "%s%s", still.length > 0 ? ", " : "", name_of(w, fact));
  }
  puts("  * as in the example");
  if (still.length > 0) print_folded("  alone these change nothing there: ", still.data);
  ts_text_release(&still);
}

static void print_example(view *w) {
  const char *name;
  w->world = ts_rule_example_world(w->session->packs, w->index, &w->subject, &name);
  if (w->world == NULL) return;
  ts_evaluator_use(w->evaluator, w->world);
  const ts_evaluation *e = ts_evaluate(w->evaluator, w->index, w->subject, NULL, 0);
  size_t count = e->read_count;
  verdict v = verdict_at(e, TS_NOWHERE, 0);
  words_of(&v, w->says);
  uint32_t *slots = ts_arena_alloc(w->session->arena, (count + 1) * sizeof *slots);
  if (count > 0) memcpy(slots, e->reads, count * sizeof *slots);
  print_folded("\nIts example: ", name);
  const ts_course *course = e->course_count > 0 ? ts_course_worded(w->evaluator, 0) : NULL;
  for (size_t o = 0; course != NULL && o < course->outcome_count; o++)
    print_outcome("  ", &course->outcomes[o]);
  puts("\nWhat it says, at worst, when one fact changes and the others stay so");
  print_table(w, slots, count);
  ts_dossier_free(w->world);
}

/* ---- with nothing known ---------------------------------------------------------------- */

static void print_facts(const ts_dossier *world, const ts_evaluation *e) {
  puts("\nLooks at");
  for (size_t i = 0; i < e->read_count; i++) {
    const ts_fact_def *fact = ts_slot_fact(world, e->reads[i]);
    if (fact->derived) continue; /* what it is made of is listed */
    char text[96];
    snprintf(text, sizeof text, "  %s %s: ", fact->entity, fact->name);
    print_folded(text, fact->meaning);
  }
}

typedef struct {
  bool silent, words[4], states[3]; /* by ts_word, ts_duty_state */
  int least[2], most[2];            /* likelihood, severity */
  const ts_outcome *duty;
} range_of_words;

static void widen(range_of_words *r, const ts_outcome *said) {
  const int levels[2] = {said->likelihood, said->severity};
  for (int i = 0; i < 2 && said->word == TS_HAZARD; i++) {
    if (!r->words[TS_HAZARD] || levels[i] < r->least[i]) r->least[i] = levels[i];
    if (levels[i] > r->most[i]) r->most[i] = levels[i];
  }
  if (said->word == TS_DUTY) r->duty = said, r->states[said->state] = true;
  r->words[said->word] = true;
}

static void print_span(const char *what, int least, int most) {
  if (least == most)
    printf("%s %d", what, least);
  else
    printf("%s %d to %d", what, least, most);
}

static void print_duty(const range_of_words *r) {
  static const char *const states[] = {"met", "open", "not met"};
  char text[TEXT] = "";
  for (int i = 0; i < 3; i++)
    if (r->states[i]) add_word(text, states[i]);
  printf("  duty: %s\n", text);
  print_folded("    ", r->duty->instrument);
  print_folded("    ", r->duty->section);
}

static void print_sayings(const ts_evaluation *e) {
  range_of_words r = {0};
  for (size_t c = 0; c < e->course_count; c++) {
    r.silent = r.silent || e->courses[c].outcome_count == 0;
    for (size_t o = 0; o < e->courses[c].outcome_count; o++) widen(&r, &e->courses[c].outcomes[o]);
  }
  puts("\nCan say");
  if (r.words[TS_STOP]) puts("  stop: the task must not go ahead so");
  if (r.words[TS_HAZARD]) {
    print_span("  hazard: likelihood", r.least[0], r.most[0]);
    print_span(", severity", r.least[1], r.most[1]);
    putchar('\n');
  }
  if (r.duty != NULL) print_duty(&r);
  if (r.words[TS_REMARK]) puts("  note");
  if (r.silent) puts("  nothing");
}

static void print_controls(const ts_session *s, const ts_evaluation *e) {
  const char *named[64];
  size_t count = 0;
  for (size_t c = 0; c < e->course_count; c++)
    for (size_t o = 0; o < e->courses[c].outcome_count; o++)
      for (size_t i = 0; i < e->courses[c].outcomes[o].control_count && count < 64; i++) {
        const char *id = e->courses[c].outcomes[o].controls[i];
        bool known = false;
        for (size_t k = 0; k < count; k++) known = known || ts_same(named[k], id);
        if (!known) named[count++] = id;
      }
  if (count > 0) puts("\nControls it names");
  for (size_t i = 0; i < count; i++) {
    const ts_control *control = ts_control_find(s->packs, named[i]);
    char text[96];
    snprintf(text, sizeof text, "  %s: ", named[i]);
    print_folded(text, control ? control->title : "in no pack");
  }
}

/* What a later pack may make stricter in it, and what one has. */
static void print_limits(const ts_rule *rule) {
  if (rule->limit_count > 0) puts("\nLimits that a pack may tighten");
  for (size_t i = 0; i < rule->limit_count; i++) {
    const ts_limit *limit = &rule->limits[i];
    printf("  %s: %s %s", limit->name, limit->at_least ? "at least" : "at most", limit->declared);
    if (!ts_same(limit->text, limit->declared)) printf(", tightened to %s", limit->text);
    putchar('\n');
  }
  if (rule->raised_likelihood + rule->raised_severity > 0)
    printf("\nRaised by a pack: likelihood +%d, severity +%d\n", rule->raised_likelihood,
           rule->raised_severity);
}

int rules_explain(const ts_session *s, size_t rule) {
  const ts_rule *it = ts_rule_at(s->packs, rule);
  view w = {.session = s, .rule = it, .index = rule};
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(s->vocabulary, s->units, it->each, &subject);
  w.evaluator = ts_evaluator_new(s->packs, world);
  const ts_evaluation *e = ts_evaluate(w.evaluator, rule, subject, NULL, 0);
  rule_head(it);
  if (it->harm) print_folded("  ", it->harm);
  if (it->reasoning) print_folded("  ", it->reasoning);
  const char *when = ts_rule_when(s->packs, rule, s->arena);
  if (when != NULL) print_folded("\nApplies when ", when);
  print_facts(world, e);
  print_sayings(e);
  print_controls(s, e);
  print_limits(it);
  print_example(&w);
  puts("\nSources");
  for (size_t i = 0; i < it->source_count; i++) print_folded("  ", it->sources[i]);
  printf("\n%zu example%s in the rule's file; `tankside rules check` runs them\n",
         it->example_count, plural(it->example_count));
  ts_evaluator_free(w.evaluator);
  ts_dossier_free(world);
  return DONE;
}
