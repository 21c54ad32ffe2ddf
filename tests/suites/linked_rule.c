/* Rules by lot whose questions hang together, as those of real rules do: a total has a limit and
 * its parts have theirs. Each statement has one of these shapes:
 *
 *   again     if v > 3 ... if v > 8 ...            one derived value against two limits
 *   part      if a + b > 10 ... if a > 8 ...       a sum or difference, then a term of it
 *   against   if a < b ... if b < c ...            fact against fact
 *   chain     if v > 3 ... a <= 2, a <= 5, else    the steps of a scale, after a limit for what is
 *                                                  made of the fact: a sum, a product, a function
 *                                                  that only rises or only falls with it
 *   window    if a >= 2 and a <= 5 ... if a > 3    inside two limits
 *
 * The limits are drawn each by itself, so that some answers exclude others and some do not. */
#include "random_writer.h"

#include <math.h>

/* A value that a rule names, and one fact that it is made of. */
typedef struct {
  char name[8];
  const random_fact *term;
  const random_fact *factor; /* of a product: its limit is a product, too */
  const char *unit;
  ts_range range;
  bool whole;
} made;

/* Amounts can be added and multiplied; temperatures and moments cannot. */
static bool is_amount(const random_fact *f, const random_fact *like) {
  return writer_is_number(f, like) && TS_KIND_OF(f->dim) == 0;
}

static const random_fact *one_of(writer *w) { return w->palette[below(w, w->palette_count)]; }

static const random_fact *another(writer *w, const random_fact *than) {
  const random_fact *f = than;
  while (f == than) f = one_of(w);
  return f;
}

/* ---- values ------------------------------------------------------------------------- */

static made of_fact(const random_fact *f) {
  return (made){
      .term = f, .unit = f->fact->unit, .range = f->plausible, .whole = f->fact->type == TS_COUNT};
}

static made start_made(writer *w, const random_fact *term) {
  made m = of_fact(term);
  snprintf(m.name, sizeof m.name, "v%zu", ++w->local_count);
  ts_text_addf(&w->text, "  local %s = ", m.name);
  return m;
}

static made put_sum(writer *w) {
  made m = start_made(w, one_of(w));
  const random_fact *other = another(w, m.term);
  bool plus = chance(w, 65);
  writer_fact(w, m.term);
  put(w, plus ? " + " : " - ");
  writer_fact(w, other);
  put(w, "\n");
  m.range.lo += plus ? other->plausible.lo : -other->plausible.hi;
  m.range.hi += plus ? other->plausible.hi : -other->plausible.lo;
  return m;
}

static made put_product(writer *w) {
  made m = start_made(w, one_of(w));
  m.factor = another(w, m.term);
  writer_fact(w, m.term);
  put(w, " * ");
  writer_fact(w, m.factor);
  put(w, "\n");
  return m;
}

/* The first argument with which the function only rises or only falls and that some fact can be,
 * mostly within what is valid; or -1. */
static int argument_for(writer *w, const ts_function *f, const random_fact **fact) {
  for (int i = 0; i < f->count; i++) {
    const ts_argument *a = &f->argument[i];
    random_fact like = {.dim = a->dim};
    *fact = a->direction == TS_TURNS ? NULL : writer_any(w, writer_is_alike, &like);
    if (*fact != NULL && (*fact)->plausible.lo >= a->lo && (*fact)->plausible.hi <= a->hi) return i;
  }
  return -1;
}

/* The function of one fact, the other arguments fixed. */
static made put_call(writer *w, const ts_function *f, int of, const random_fact *fact) {
  ts_range x[TS_ARGUMENTS_MAX];
  bool open;
  made m = start_made(w, fact);
  ts_text_addf(&w->text, "calc.%s(", f->name);
  for (int i = 0; i < f->count; i++) {
    const ts_argument *a = &f->argument[i];
    if (i > 0) put(w, ", ");
    x[i] = fact->plausible;
    if (i == of)
      writer_fact(w, fact);
    else
      x[i].lo = x[i].hi = writer_between(w, a->unit, (ts_range){a->lo, a->hi}, false);
  }
  put(w, ")\n");
  m.unit = f->unit;
  m.range = ts_function_apply(f, x, &open);
  m.whole = false;
  return m;
}

/* Arguments far from use give nothing but nought, or the same whatever the fact is. */
static bool says_something(const ts_function *f, ts_range gives) {
  double most = fmax(fabs(gives.lo), fabs(gives.hi));
  return gives.hi - gives.lo > 0.01 * most && most > 1e-6 * fmax(fabs(f->lo), fabs(f->hi));
}

static made put_function(writer *w) {
  const random_fact *fact;
  size_t count = 0, text = w->text.length, reads = w->rule->reads.count, first = w->local_count;
  while (ts_functions()[count].name != NULL) count++;
  for (;;) {
    const ts_function *f = &ts_functions()[below(w, count)];
    int of = argument_for(w, f, &fact);
    if (of < 0) continue;
    made m = put_call(w, f, of, fact);
    if (says_something(f, m.range)) return m;
    w->text.length = text; /* never written */
    w->rule->reads.count = reads;
    w->local_count = first;
  }
}

static made put_made(writer *w) {
  static made (*const kinds[])(writer *) = {put_sum, put_product, put_function};
  return kinds[below(w, 3)](w);
}

/* ---- questions ---------------------------------------------------------------------- */

static void put_value(writer *w, const made *m) {
  if (*m->name != '\0')
    put(w, m->name);
  else
    writer_fact(w, m->term);
}

static void put_limit(writer *w, const made *m) {
  writer_between(w, m->unit, m->range, m->whole);
  if (m->factor == NULL) return;
  put(w, " * ");
  writer_threshold(w, m->factor);
}

static void put_then(writer *w) {
  put(w, " then ");
  size_t which = below(w, 8);
  if (which == 0)
    put(w, "stop { because = \"s\" }");
  else if (which == 1)
    writer_hazard(w, "\"one\"");
  else
    writer_change(w);
  if (chance(w, 25)) {
    put(w, " else ");
    writer_change(w);
  }
  put(w, " end\n");
}

static void put_if(writer *w, const made *m) {
  put(w, "  if ");
  put_value(w, m);
  writer_order(w);
  put_limit(w, m);
  put_then(w);
}

static void put_if_less(writer *w, const random_fact *a, const random_fact *b) {
  put(w, "  if ");
  writer_fact(w, a);
  put(w, chance(w, 50) ? " < " : " <= ");
  writer_fact(w, b);
  put_then(w);
}

/* ---- shapes ------------------------------------------------------------------------- */

static void put_again(writer *w) {
  made m = put_made(w);
  put_if(w, &m);
  put_if(w, &m);
}

static void put_part(writer *w) {
  made m = put_sum(w), part = of_fact(m.term);
  put_if(w, &m);
  put_if(w, &part);
}

static void put_against(writer *w) {
  const random_fact *a = one_of(w), *b = another(w, a), *c = another(w, b);
  put_if_less(w, a, b);
  if (c != a) put_if_less(w, b, c);
  made m = of_fact(chance(w, 50) ? a : c);
  put_if(w, &m);
}

static void put_chain(writer *w) {
  made m = put_made(w), of = of_fact(m.term);
  put_if(w, &m);
  for (size_t i = 0, steps = 2 + below(w, 2); i < steps; i++) {
    put(w, i == 0 ? "  if " : " elseif ");
    put_value(w, &of);
    put(w, " <= ");
    of.range.lo = writer_between(w, of.unit, of.range, of.whole);
    ts_text_addf(&w->text, " then l = max(l, %zu)", 1 + i);
  }
  put(w, " else l = max(l, 4) end\n");
}

static void put_window(writer *w) {
  made m = chance(w, 50) ? put_sum(w) : of_fact(one_of(w)), above = m;
  put(w, "  if ");
  put_value(w, &m);
  put(w, " >= ");
  above.range.lo = writer_between(w, m.unit, m.range, m.whole);
  put(w, " and ");
  put_value(w, &m);
  put(w, " <= ");
  put_limit(w, &above);
  put_then(w);
  put_if(w, &m);
}

/* ---- the rule ----------------------------------------------------------------------- */

/* Three facts that can be added to each other. */
static void choose_palette(writer *w) {
  while (w->palette_count < 3) {
    const random_fact *first = w->palette[0] = writer_any(w, is_amount, NULL);
    w->palette_count = 1;
    for (int tries = 0; tries < 20 && w->palette_count < 3; tries++) {
      const random_fact *f = writer_any(w, writer_is_alike, first);
      if (f != first && f != w->palette[w->palette_count - 1]) w->palette[w->palette_count++] = f;
    }
  }
}

void linked_rule_write(random_source *source, draws *luck, unsigned number, random_rule *rule) {
  static void (*const shapes[])(writer *) = {put_again, put_part, put_against, put_chain,
                                             put_window};
  *rule = (random_rule){0};
  writer w = {.from = source, .luck = luck, .rule = rule, .list = -1};
  choose_palette(&w);
  writer_open_rule(&w, number);
  ts_text_addf(&w.text, " assess = function (i)\n  local l, s = %zu, %zu\n", 1 + below(&w, 2),
               1 + below(&w, 3));
  size_t statements = 2 + below(&w, 2);
  for (size_t i = 0; i < statements; i++) shapes[below(&w, sizeof shapes / sizeof *shapes)](&w);
  writer_close_rule(&w);
}
