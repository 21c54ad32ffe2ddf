/* Writing rules by lot. A rule keeps to a handful of facts, so that its questions bear on each
 * other; every kind of expression and statement that rules may use comes up. */
#include "random_writer.h"

#include "base/text.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH = 2 };

static const char *const lists[] = {"i.task.immersions", "i.task.posts", "i.wears",
                                    "i.person.records"};

/* ---- choosing facts ----------------------------------------------------------------- */

static bool is_moment(const random_fact *f, const random_fact *like) {
  (void)like;
  return f->fact->type == TS_DATE || f->fact->type == TS_CLOCK;
}

/* Dates and times of day have one dimension; their difference means something within each only. */
static bool is_same_moment(const random_fact *f, const random_fact *like) {
  ts_fact_type type = f->fact->type == TS_DAY ? TS_DATE : f->fact->type;
  return type == like->fact->type;
}

static bool is_word(const random_fact *f, const random_fact *like) {
  (void)like;
  return f->fact->type == TS_FLAG || f->fact->type == TS_CHOICE || f->fact->type == TS_SET;
}

/* One of the rule's own facts that passes, or NULL. */
static const random_fact *own_fact(writer *w, fact_test test, const random_fact *like) {
  size_t first = below(w, w->palette_count);
  for (size_t i = 0; i < w->palette_count; i++) {
    const random_fact *f = w->palette[(first + i) % w->palette_count];
    if (test(f, like)) return f;
  }
  return NULL;
}

static const random_fact *member_fact(writer *w, fact_test test, const random_fact *like) {
  for (int tries = 0; w->list >= 0 && tries < 40; tries++) {
    const random_fact *f = writer_any(w, test, like);
    if (f != NULL && f->list == w->list) return f;
  }
  return NULL;
}

/* Inside a loop mostly facts of its members, else mostly those of the palette. */
static const random_fact *some_fact(writer *w, fact_test test, const random_fact *like) {
  const random_fact *f = NULL;
  if (w->list >= 0 && chance(w, 70)) f = member_fact(w, test, like);
  if (f == NULL) f = own_fact(w, test, like);
  return f != NULL ? f : writer_any(w, test, like);
}

/* ---- constants ---------------------------------------------------------------------- */

static void put_factor(writer *w) {
  static const char *const factors[] = {"0.25", "0.5", "0.75", "1.5", "2", "3", "10"};
  put(w, factors[below(w, sizeof factors / sizeof *factors)]);
}

/* ---- quantities --------------------------------------------------------------------- */

static void put_quantity(writer *w, const random_fact *like, int depth);

static void put_leaf(writer *w, const random_fact *like) {
  const random_fact *f = some_fact(w, writer_is_alike, like);
  writer_fact(w, f != NULL ? f : like);
}

static void put_two(writer *w, const char *before, const char *between, const char *after,
                    const random_fact *like, int depth) {
  put(w, before);
  put_quantity(w, like, depth - 1);
  put(w, between);
  put_quantity(w, like, depth - 1);
  put(w, after);
}

static void put_local(writer *w, const random_fact *like) {
  for (size_t i = 0; i < w->local_count; i++) {
    if (w->locals[i] != like->dim) continue;
    ts_text_addf(&w->text, "v%zu", i + 1);
    return;
  }
  put_leaf(w, like);
}

/* Whether the fact can take values that the function does. */
static bool meets(const random_fact *f, ts_range valid) {
  return f->plausible.lo < valid.hi && f->plausible.hi > valid.lo;
}

/* The fact, held inside the range as rules do it. */
static void put_held(writer *w, const random_fact *f, const char *unit, ts_range *within) {
  double middle = within->lo / 2 + within->hi / 2;
  put(w, "max(");
  within->lo = writer_between(w, unit, (ts_range){within->lo, middle}, false);
  put(w, ", min(");
  within->hi = writer_between(w, unit, (ts_range){middle, within->hi}, false);
  put(w, ", ");
  writer_fact(w, f);
  put(w, "))");
}

/* An argument of a science function, most times inside its valid range. Returns what it may be. */
static ts_range put_argument(writer *w, const ts_argument *a) {
  random_fact like = {.dim = a->dim};
  const random_fact *f = own_fact(w, writer_is_alike, &like);
  if (f == NULL || chance(w, 30)) f = writer_any(w, writer_is_alike, &like);
  ts_range valid = {a->lo, a->hi};
  if (f == NULL || !meets(f, valid)) {
    double x = writer_between(w, a->unit, valid, false);
    return (ts_range){x, x};
  }
  ts_range within = {fmax(a->lo, f->plausible.lo), fmin(a->hi, f->plausible.hi)};
  if (chance(w, 80))
    put_held(w, f, a->unit, &within);
  else
    writer_fact(w, f);
  return within;
}

/* A call of the function. Returns what it may give. */
static ts_range put_call(writer *w, const ts_function *f) {
  ts_range x[TS_ARGUMENTS_MAX];
  bool open;
  ts_text_addf(&w->text, "calc.%s(", f->name);
  for (int i = 0; i < f->count; i++) {
    if (i > 0) put(w, ", ");
    x[i] = put_argument(w, &f->argument[i]);
  }
  put(w, ")");
  for (int i = 0; i < f->count; i++)
    if (!(x[i].lo <= x[i].hi)) x[i] = (ts_range){f->argument[i].lo, f->argument[i].hi};
  return ts_function_apply(f, x, &open);
}

static const ts_function *some_function(writer *w, const ts_dim *dim) {
  const ts_function *all = ts_functions();
  size_t count = 0;
  while (all[count].name != NULL) count++;
  size_t first = below(w, count);
  for (size_t i = 0; i < count; i++) {
    const ts_function *f = &all[(first + i) % count];
    if (dim == NULL || f->dim == *dim) return f;
  }
  return NULL;
}

static void put_made(writer *w, const random_fact *like, int depth) {
  const ts_function *f;
  switch (below(w, 5)) {
  case 0:
    put(w, "(");
    put_quantity(w, like, depth - 1);
    put(w, " * ");
    put_factor(w);
    put(w, ")");
    return;
  case 1:
    put(w, "(");
    put_quantity(w, like, depth - 1);
    put(w, " / ");
    put_factor(w);
    put(w, ")");
    return;
  case 2: put_two(w, "sqrt(", " ^ 2 + ", " ^ 2)", like, depth); return;
  case 3: put_two(w, "abs(", " - ", ")", like, depth); return;
  default:
    f = some_function(w, &like->dim);
    if (f != NULL)
      put_call(w, f);
    else
      put_leaf(w, like);
  }
}

/* An expression of the fact's dimension. Positions on a scale have no sums or multiples. */
static void put_quantity(writer *w, const random_fact *like, int depth) {
  bool position = TS_KIND_OF(like->dim) == 1, plain = TS_KIND_OF(like->dim) == 0;
  switch (depth > 0 ? below(w, position ? 8 : plain ? 16 : 10) : 0) {
  case 4: put_local(w, like); return;
  case 5: put_local(w, like); return;
  case 6: put_two(w, "min(", ", ", ")", like, depth); return;
  case 7: put_two(w, "max(", ", ", ")", like, depth); return;
  case 8: put_two(w, "(", " + ", ")", like, depth); return;
  case 9:
  case 10: put_two(w, "(", " - ", ")", like, depth); return;
  case 11:
  case 12:
  case 13:
  case 14: put_made(w, like, depth); return;
  default: put_leaf(w, like); return;
  }
}

/* ---- questions ---------------------------------------------------------------------- */

static void put_ratio(writer *w, const random_fact *like) {
  const random_fact *other = some_fact(w, writer_is_number, NULL);
  if (TS_KIND_OF(like->dim) != 0 || TS_KIND_OF(other->dim) != 0) other = like = NULL;
  if (like == NULL) like = other = writer_any(w, writer_is_alike, &(random_fact){.dim = TS_TIME});
  bool product = chance(w, 40);
  put_leaf(w, like);
  put(w, product ? " * " : " / (abs(");
  put_leaf(w, other);
  if (!product) put(w, ") + ");
  if (!product)
    writer_between(w, other->fact->unit,
                   (ts_range){0.01 * other->plausible.hi, other->plausible.hi}, false);
  if (!product) put(w, ")");
  writer_order(w);
  writer_threshold(w, like);
  put(w, product ? " * " : " / ");
  writer_between(w, other->fact->unit, (ts_range){0.01 * other->plausible.hi, other->plausible.hi},
                 false);
}

static void put_date_question(writer *w) {
  static const char *const dates[] = {"1990-06-01", "2009-03-09", "2011-03-10", "2026-01-01",
                                      "2027-03-01"};
  static const char *const spans[] = {"30 day", "183 day", "365 day", "18 year"};
  static const char *const hours[] = {"30 min", "2 h", "10 h"};
  static const char *const clocks[] = {"07:00", "12:30", "19:00"};
  const random_fact *f = writer_any(w, is_moment, NULL);
  bool date = f->fact->type == TS_DATE, difference = chance(w, 60);
  if (difference) {
    writer_fact(w, writer_any(w, is_same_moment, f));
    put(w, " - ");
  }
  writer_fact(w, f);
  writer_order(w);
  if (difference)
    writer_constant(w, date ? spans[below(w, 4)] : hours[below(w, 3)]);
  else
    writer_constant(w, date ? dates[below(w, 5)] : clocks[below(w, 3)]);
}

static void put_comparison(writer *w) {
  const random_fact *like = some_fact(w, writer_is_number, NULL);
  size_t which = below(w, 12);
  if (which < 6) {
    put_quantity(w, like, DEPTH);
    writer_order(w);
    writer_threshold(w, like);
  } else if (which < 8) {
    put_quantity(w, like, DEPTH);
    writer_order(w);
    put_quantity(w, like, 1);
  } else if (which < 10) {
    const ts_function *f = some_function(w, NULL);
    ts_range gives = put_call(w, f);
    writer_order(w);
    writer_between(w, f->unit, gives, false);
  } else if (which < 11) {
    put_ratio(w, like);
  } else {
    put_date_question(w);
  }
}

static void put_word_question(writer *w) {
  const random_fact *f = some_fact(w, is_word, NULL);
  if (f->fact->type != TS_CHOICE) {
    if (chance(w, 50)) put(w, "not ");
    writer_fact(w, f);
    return;
  }
  size_t skip = below(w, 3);
  const char *word = f->fact->choices;
  while (skip-- > 0 && strchr(word, ' ') != NULL) word = strchr(word, ' ') + 1;
  writer_fact(w, f);
  ts_text_addf(&w->text, " %s \"%.*s\"", chance(w, 70) ? "==" : "~=", (int)strcspn(word, " "),
               word);
}

static void put_question(writer *w, int depth) {
  size_t which = below(w, 10);
  if (which < 2 && depth > 0) {
    put(w, "(");
    put_question(w, depth - 1);
    put(w, which == 0 ? " and " : " or ");
    put_question(w, depth - 1);
    put(w, ")");
  } else if (which < 5) {
    put_word_question(w);
  } else {
    put_comparison(w);
  }
}

/* ---- statements --------------------------------------------------------------------- */

static void put_when(writer *w) {
  put(w, "  if ");
  put_question(w, 1);
  put(w, " then ");
}

static bool start_local(writer *w, const random_fact *like) {
  if (w->local_count == LOCALS) return false;
  ts_text_addf(&w->text, "  local v%zu = ", w->local_count + 1);
  put_quantity(w, like, DEPTH);
  w->locals[w->local_count++] = like->dim;
  put(w, "\n");
  return true;
}

/* Steps of one quantity against falling or rising limits, as scales have them. */
static void put_chain(writer *w) {
  const random_fact *like = some_fact(w, writer_is_number, NULL);
  size_t steps = 2 + below(w, 3);
  bool least = chance(w, 50);
  ts_range left = like->plausible;
  if (!start_local(w, like)) return;
  for (size_t i = 0; i < steps; i++) {
    ts_text_addf(&w->text, "%s v%zu %s ", i == 0 ? "  if" : " elseif", w->local_count,
                 least ? ">=" : "<=");
    double limit = writer_between(w, like->fact->unit, left, false);
    *(least ? &left.hi : &left.lo) = limit;
    ts_text_addf(&w->text, " then l = %zu", 1 + i);
  }
  put(w, " else l = 5 end\n");
}

static void put_local_value(writer *w) { start_local(w, some_fact(w, writer_is_number, NULL)); }

static void put_said(writer *w) {
  size_t which = below(w, 4);
  put_when(w);
  if (which == 0) put(w, "note { because = \"n\" }");
  if (which == 1) writer_hazard(w, chance(w, 50) ? "\"one\"" : "\"two\"");
  if (which > 1) put(w, "stop { because = \"s\" }");
  put(w, " end\n");
}

static void put_duty(writer *w) {
  put(w, "  duty { met = ");
  put_question(w, 0);
  put(w, ", instrument = \"n\", section = \"1\", because = \"d\" }\n");
}

static void put_branches(writer *w) {
  put_when(w);
  writer_change(w);
  if (chance(w, 50)) {
    put(w, " else ");
    writer_change(w);
  }
  put(w, " end\n");
}

static void put_return(writer *w) {
  put_when(w);
  if (chance(w, 30)) writer_hazard(w, NULL);
  put(w, " return end\n");
}

static void put_loop(writer *w) {
  w->list = (int)below(w, sizeof lists / sizeof *lists);
  ts_text_addf(&w->text, "  for _, o in ipairs(%s) do\n  ", lists[w->list]);
  put_when(w);
  if (chance(w, 25))
    writer_hazard(w, "o.label");
  else
    writer_change(w);
  put(w, " end\n  end\n");
  w->list = -1;
}

static void put_sum(writer *w) {
  static const char *const totals[] = {
      "sum(i.task.immersions, \"time\", q\"0 min\")", "sum(i.task.immersions, \"depth\", q\"1 m\")",
      "sum(i.wears, \"dry_mass\", q\"0 kg\")", "sum(i.person.records, \"takes\", 0)"};
  static const char *const names[] = {"o.time", "o.depth", "o.dry_mass", "o.takes"};
  size_t which = below(w, 4);
  const random_fact *of = NULL;
  for (size_t i = 0; i < w->from->count; i++)
    if (w->from->facts[i].list >= 0 && ts_same(w->from->facts[i].text, names[which]))
      writer_reads(w, of = &w->from->facts[i]);
  put(w, "  if ");
  put(w, totals[which]);
  writer_order(w);
  writer_threshold(w, of);
  put(w, " then ");
  writer_change(w);
  put(w, " end\n");
}

static void put_statement(writer *w) {
  static void (*const kinds[])(writer *) = {
      put_chain, put_chain,  put_branches, put_branches,    put_branches, put_local_value, put_said,
      put_said,  put_return, put_loop,     put_local_value, put_sum,      put_duty};
  kinds[below(w, sizeof kinds / sizeof *kinds)](w);
}

/* ---- the rule ----------------------------------------------------------------------- */

static void choose_palette(writer *w) {
  const random_fact *number = writer_any(w, writer_is_number, NULL);
  for (size_t i = 0; i < PALETTE; i++) {
    const random_fact *f = number;
    if (i > 0 && i < 4) f = writer_any(w, writer_is_alike, number);
    if (i >= 4 && i < 7) f = writer_any(w, writer_is_number, NULL);
    if (i >= 7) f = writer_any(w, is_word, NULL);
    bool there = f == NULL;
    for (size_t k = 0; k < w->palette_count; k++) there = there || w->palette[k] == f;
    if (!there) w->palette[w->palette_count++] = f;
  }
}

void random_rule_write(random_source *source, draws *luck, unsigned number, random_rule *rule) {
  *rule = (random_rule){0};
  writer w = {.from = source, .luck = luck, .rule = rule, .list = -1};
  choose_palette(&w);
  writer_open_rule(&w, number);
  if (chance(&w, 25)) {
    put(&w, " when = function (i) return ");
    put_question(&w, 1);
    put(&w, " end,\n");
  }
  ts_text_addf(&w.text, " assess = function (i)\n  local l, s = %zu, %zu\n", 1 + below(&w, 3),
               1 + below(&w, 4));
  size_t statements = 4 + below(&w, 6);
  for (size_t i = 0; i < statements; i++) put_statement(&w);
  writer_close_rule(&w);
}

void random_rule_free(random_rule *rule) {
  box_free(&rule->reads);
  anchors_free(&rule->turns);
}
