/* Rendering: what a course said, in words and numbers a reader can redo.
 *
 * Values are shown as the dossier states them: the narrowing that decisions
 * imposed is undone first, and the decisions themselves are listed beside. */
#include "rule/sandbox.h"

#include "base/sort.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_sandbox *box;
  const ts_named *named; /* names that outcomes of this course gave to nodes */
  size_t named_count;
  bool numbers;          /* numbers in place of names */
  bool withhold;         /* leave confidential values out */
  unsigned char *rests;  /* per node, of the first `looked`: what it rests on */
  ts_node_id looked;
  int depth;             /* of the formula being written */
  ts_text out;
} pen;

/* A confidential fact; a date that nobody knows. */
enum { ON_HIDDEN = 1, ON_NO_DATE = 2 };

/* A formula of more than this is no help to anybody: what is beyond becomes "...". A value that is used twice is
 * written twice, so that without a bound a few lines of a rule would fill the memory. */
enum { FORMULA_BYTES = 4096, FORMULA_DEPTH = 200 };

static void write_node(pen *p, ts_node_id id, int outer);

static void add_spaced(ts_text *out, const char *name) {
  for (const char *c = name; *c; c++) ts_text_add_n(out, *c == '-' || *c == '_' ? " " : c, 1);
}

/* "breath hold", or with whose it is where that is not the rule's own subject: "water temperature". */
static void write_title(pen *p, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(p->box->dossier, slot);
  if (ts_slot_subject(p->box->dossier, slot) != p->box->subject) {
    add_spaced(&p->out, fact->entity);
    ts_text_add(&p->out, " ");
  }
  add_spaced(&p->out, fact->name);
}

static bool confidential(const pen *p, uint32_t slot) {
  return ts_slot_fact(p->box->dossier, slot)->sees == TS_CONFIDENTIAL;
}

static bool hidden(const pen *p, uint32_t slot) { return p->withhold && confidential(p, slot); }

static void write_range(pen *p, ts_range range, ts_dim dim, const char *unit) {
  char text[128];
  ts_system system = ts_dossier_units(p->box->dossier);
  ts_text_add(&p->out, ts_quantity_show(p->box->units, range, dim, unit, system, text, sizeof text));
}

static const char *unit_for(const pen *p, const ts_fact_def *fact) {
  if (fact->type == TS_DATE || fact->type == TS_DAY) return "date";
  if (fact->type == TS_CLOCK) return "clock";
  bool us = ts_dossier_units(p->box->dossier) == TS_US && fact->unit_us;
  return us ? fact->unit_us : fact->unit;
}

static void write_number(pen *p, const ts_node *n) {
  const char *unit = NULL;
  if (n->op == TS_FACT) unit = unit_for(p, ts_slot_fact(p->box->dossier, n->a));
  if (n->op == TS_DERIVED) unit = unit_for(p, ts_slot_fact(p->box->dossier, n->b));
  if (n->op == TS_CALL) unit = ts_functions()[n->calc].unit;
  bool us = ts_dossier_units(p->box->dossier) == TS_US && n->op == TS_CALL;
  write_range(p, (ts_range){n->lo, n->hi}, n->dim, us || (unit && !*unit) ? NULL : unit);
}

static unsigned of_fact(const pen *p, uint32_t slot) {
  bool date = ts_slot_fact(p->box->dossier, slot)->type == TS_DATE;
  bool unknown = ts_slot_value(p->box->dossier, slot)->state == TS_UNKNOWN;
  return (confidential(p, slot) ? ON_HIDDEN : 0) | (date && unknown ? ON_NO_DATE : 0);
}

static unsigned of_part(const pen *p, ts_node_id part) { return part == TS_NO_NODE ? 0 : p->rests[part]; }

/* What a node rests on, seen from those it is made of: all earlier ones. */
static unsigned of_parts(const pen *p, const ts_node *n) {
  switch ((ts_op)n->op) {
  case TS_CONSTANT: return 0;
  case TS_FACT: return of_fact(p, n->a);
  case TS_DERIVED: return (of_part(p, n->a) & ON_NO_DATE) | (of_fact(p, n->b) & ON_HIDDEN);
  default: return of_part(p, n->a) | of_part(p, n->b);
  }
}

static unsigned rests_on(pen *p, ts_node_id id) {
  if (id >= p->looked) {
    ts_node_id count = ts_node_count(p->box->graph);
    p->rests = ts_resize(p->rests, count * sizeof *p->rests);
    for (; p->looked < count; p->looked++)
      p->rests[p->looked] = (unsigned char)of_parts(p, ts_node_at(p->box->graph, p->looked));
  }
  return p->rests[id];
}

/* The value of a node, or that it is withheld. What a date may plausibly be is two centuries, and tells nobody how
 * long ago it was: "last rehearsed an unknown time before the day". */
static void write_value(pen *p, ts_node_id id) {
  const ts_node *n = ts_node_at(p->box->graph, id);
  if (p->withhold && rests_on(p, id) & ON_HIDDEN) ts_text_add(&p->out, "(withheld)");
  else if (n->lo == n->hi || !(rests_on(p, id) & ON_NO_DATE)) write_number(p, n);
  else ts_text_add(&p->out, n->dim == TS_TIME ? "an unknown time" : "not known");
}

static void write_call(pen *p, const ts_node *n) {
  const ts_function *f = &ts_functions()[n->calc];
  ts_node_id values[TS_ARGUMENTS_MAX];
  ts_call_values(p->box->graph, n, values);
  add_spaced(&p->out, f->name);
  ts_text_add(&p->out, "(");
  for (int i = 0; i < f->count; i++) {
    if (i) ts_text_add(&p->out, ", ");
    if (p->numbers) write_value(p, values[i]);
    else write_node(p, values[i], 0);
  }
  ts_text_add(&p->out, ")");
}

static const struct {
  const char *sign;
  int binds;
} signs[] = {[TS_ADD] = {" + ", 1}, [TS_SUB] = {" − ", 1}, [TS_MUL] = {" × ", 2}, [TS_DIV] = {" ÷ ", 2}};

static void write_operation(pen *p, const ts_node *n, int outer) {
  int binds = signs[n->op].binds;
  bool bracket = binds < outer;
  if (bracket) ts_text_add(&p->out, "(");
  write_node(p, n->a, binds);
  ts_text_add(&p->out, signs[n->op].sign);
  write_node(p, n->b, binds + 1);
  if (bracket) ts_text_add(&p->out, ")");
}

/* "greatest of (a, b, c)", "size of (a)": one directly within another of its kind says no more than its parts.
 * `outer` is below 0 within one of these, and tells of which kind. */
static void write_in_words(pen *p, const char *name, const ts_node *n, int outer) {
  int within = -(int)n->op;
  bool whole = outer != within;
  if (whole) ts_text_addf(&p->out, "%s (", name);
  write_node(p, n->a, within);
  if (n->b != TS_NO_NODE) {
    ts_text_add(&p->out, ", ");
    write_node(p, n->b, within);
  }
  if (whole) ts_text_add(&p->out, ")");
}

static void write_around(pen *p, const char *before, const ts_node *n) {
  ts_text_addf(&p->out, "%s(", before);
  write_node(p, n->a, 0);
  ts_text_add(&p->out, ")");
}

static const char *name_given(const pen *p, ts_node_id id) {
  for (size_t i = 0; i < p->named_count; i++)
    if (p->named[i].node == id) return p->named[i].name;
  return NULL;
}

/* A number inside a formula; a range in brackets, so that its dots are not read as part of it. */
static void write_operand(pen *p, ts_node_id id) {
  const ts_node *n = ts_node_at(p->box->graph, id);
  bool range = n->lo < n->hi;
  if (range) ts_text_add(&p->out, "(");
  write_value(p, id);
  if (range) ts_text_add(&p->out, ")");
}

static void write_leaf(pen *p, ts_node_id id, const ts_node *n) {
  if (p->numbers || n->op == TS_CONSTANT) write_operand(p, id);
  else write_title(p, n->op == TS_FACT ? n->a : n->b);
}

static void write_part(pen *p, ts_node_id id, int outer) {
  const ts_node *n = ts_node_at(p->box->graph, id);
  const char *given = p->numbers || n->op == TS_CONSTANT ? NULL : name_given(p, id);
  if (given) {
    add_spaced(&p->out, given);
    return;
  }
  switch ((ts_op)n->op) {
  case TS_ADD: case TS_SUB: case TS_MUL: case TS_DIV: write_operation(p, n, outer); break;
  case TS_NEG: write_around(p, "−", n); break;
  case TS_ABS: write_in_words(p, "size of", n, outer); break;
  case TS_MIN: write_in_words(p, "least of", n, outer); break;
  case TS_MAX: write_in_words(p, "greatest of", n, outer); break;
  case TS_ROOT: write_around(p, "√", n); break;
  case TS_RAISE: write_around(p, "", n); ts_text_addf(&p->out, "^%d", n->k); break;
  case TS_CALL:
    if (p->numbers) write_operand(p, id);
    else write_call(p, n);
    break;
  case TS_DERIVED: case TS_FACT: case TS_CONSTANT: case TS_LINK: write_leaf(p, id, n); break;
  }
}

static void write_node(pen *p, ts_node_id id, int outer) {
  if (p->depth == FORMULA_DEPTH || p->out.length > FORMULA_BYTES) {
    ts_text_add(&p->out, "…");
    return;
  }
  p->depth++;
  write_part(p, id, outer);
  p->depth--;
}

/* ---- one piece of text each ---------------------------------------------------- */

static const char *take(pen *p) {
  const char *text = ts_arena_copy(p->box->arena, p->out.data ? p->out.data : "");
  p->out.length = 0;
  if (p->out.data) p->out.data[0] = 0;
  return text;
}

static bool is_operation(const ts_node *n) { return n->op != TS_CONSTANT && n->op != TS_FACT && n->op != TS_DERIVED; }

enum { REACHED = 1, CALLED = 2 };

static void mark_parts(const ts_node *n, unsigned char *marks) {
  if (n->op == TS_FACT || n->op == TS_CONSTANT) return;
  if (n->a != TS_NO_NODE) marks[n->a] |= REACHED;
  if (n->op != TS_DERIVED && n->b != TS_NO_NODE) marks[n->b] |= REACHED;
}

/* Of the first `count` nodes, from those marked REACHED on: which calls they are made of. */
static void mark_calls(const ts_graph *graph, unsigned char *marks, ts_node_id count) {
  for (ts_node_id at = count; at-- > 0;) {
    if (!marks[at]) continue;
    const ts_node *n = ts_node_at(graph, at);
    if (n->op == TS_CALL) marks[at] |= CALLED;
    mark_parts(n, marks);
  }
}

/* Each science function inside, with its numbers: "breath hold limit(38 kg, 2.5 m) = 45 s". */
static void write_calls(pen *p, ts_node_id id) {
  unsigned char *marks = ts_alloc(id + 1);
  marks[id] = REACHED;
  mark_calls(p->box->graph, marks, id + 1);
  for (ts_node_id at = 0; at <= id && p->out.length < FORMULA_BYTES; at++) {
    if (!(marks[at] & CALLED)) continue;
    if (p->out.length) ts_text_add(&p->out, "; ");
    write_call(p, ts_node_at(p->box->graph, at));
    ts_text_add(&p->out, " = ");
    write_value(p, at);
  }
  free(marks);
}

/* "45 s − 15 s − 12 s = 18 s", after the functions it uses; a fact has none. */
static const char *working(pen *p, ts_node_id id) {
  const ts_node *n = ts_node_at(p->box->graph, id);
  if (!is_operation(n)) return NULL;
  p->numbers = true;
  write_calls(p, id);
  if (n->op != TS_CALL) {
    if (p->out.length) ts_text_add(&p->out, "; ");
    write_node(p, id, 0);
    ts_text_add(&p->out, " = ");
    write_value(p, id);
  }
  p->numbers = false;
  return take(p);
}

static const char *shown(pen *p, ts_node_id id, bool withhold) {
  p->withhold = withhold;
  write_value(p, id);
  p->withhold = false;
  return take(p);
}

/* What the call was given, for whoever goes through one of its arguments. */
static void show_call(pen *p, const ts_node *call, ts_shown *s) {
  ts_node_id values[TS_ARGUMENTS_MAX];
  ts_range *arguments = ts_arena_alloc(p->box->arena, sizeof values / sizeof *values * sizeof *arguments);
  ts_call_values(p->box->graph, call, values);
  s->function = &ts_functions()[call->calc];
  for (int i = 0; i < s->function->count; i++) {
    const ts_node *n = ts_node_at(p->box->graph, values[i]);
    arguments[i] = (ts_range){n->lo, n->hi};
  }
  s->arguments = arguments;
}

static ts_shown show_named(pen *p, const ts_named *named) {
  const ts_node *node = ts_node_at(p->box->graph, named->node);
  ts_shown s = {.shown = shown(p, named->node, false), .withheld = shown(p, named->node, true),
                .range = {node->lo, node->hi}, .dim = node->dim};
  if (node->op == TS_CALL) show_call(p, node, &s);
  add_spaced(&p->out, named->name);
  s.name = take(p);
  if (!is_operation(ts_node_at(p->box->graph, named->node))) return s;
  s.working = working(p, named->node);
  size_t count = p->named_count;
  p->named_count = 0; /* the formula itself, not its own name */
  write_node(p, named->node, 0);
  p->named_count = count;
  s.names = take(p);
  return s;
}

/* ---- facts that are not numbers -------------------------------------------------- */

static void write_choices(ts_text *out, const char *choices, uint64_t bits, const char *joiner) {
  bool some = false;
  const char *at = choices;
  for (unsigned i = 0; at && *at; i++) {
    size_t length = strcspn(at, " ");
    if (bits >> i & 1) {
      if (some) ts_text_add(out, joiner);
      ts_text_add_n(out, at, length);
      some = true;
    }
    at += length + strspn(at + length, " ");
  }
  if (!some) ts_text_add(out, "none");
}

static void write_fact(pen *p, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(p->box->dossier, slot);
  ts_value value = ts_slot_seen(p->box, slot);
  if (hidden(p, slot)) {
    ts_text_add(&p->out, "(withheld)");
    return;
  }
  switch (fact->type) {
  case TS_QUANTITY: case TS_COUNT: case TS_DATE: case TS_CLOCK: case TS_DAY: write_value(p, ts_slot_node(p->box, slot)); break;
  case TS_FLAG: ts_text_add(&p->out, value.choices == 3 ? "not known" : value.choices == 2 ? "yes" : "no"); break;
  case TS_CHOICE: case TS_KIND_WORD:
    if (value.state == TS_UNKNOWN) ts_text_add(&p->out, "not known");
    else write_choices(&p->out, fact->choices, value.choices, " or ");
    break;
  case TS_SET:
    if (value.state == TS_UNKNOWN) ts_text_add(&p->out, "not known");
    else write_choices(&p->out, fact->choices, value.choices, " and ");
    break;
  default: ts_text_add(&p->out, value.text ? value.text : "none"); break;
  }
}

/* ---- templates: {margin}, {i.breath_hold}, {person.label} -------------------------- */

/* The field a path leads to from the rule's subject; the first segment may be the parameter's name. */
static bool write_path(pen *p, ts_subject from, const char *path) {
  char name[64];
  size_t length = strcspn(path, ".");
  if (length >= sizeof name) return false;
  memcpy(name, path, length);
  name[length] = 0;
  bool last = !path[length];
  if (last && !strcmp(name, "label")) return ts_text_add(&p->out, ts_subject_at(p->box->dossier, from)->label), true;
  ts_field field = ts_subject_field(p->box->dossier, from, name);
  if (last && (field.kind == TS_FIELD_FACT || field.kind == TS_FIELD_TEXT)) return write_fact(p, field.slot), true;
  if (last && field.kind == TS_FIELD_SUBJECT && field.subject != TS_NO_SUBJECT)
    return ts_text_add(&p->out, ts_subject_at(p->box->dossier, field.subject)->label), true;
  if (!last && field.kind == TS_FIELD_SUBJECT && field.subject != TS_NO_SUBJECT) return write_path(p, field.subject, path + length + 1);
  return false;
}

static bool write_named(pen *p, const ts_said *said, const char *name) {
  for (size_t i = 0; i < said->named_count; i++)
    if (!strcmp(said->named[i].name, name)) return write_value(p, said->named[i].node), true;
  return false;
}

static void write_placeholder(pen *p, const ts_said *said, const char *inside) {
  const char *dot = strchr(inside, '.');
  if (write_named(p, said, inside) || write_path(p, p->box->subject, inside)) return;
  if (dot && write_path(p, p->box->subject, dot + 1)) return;
  ts_text_addf(&p->out, "{%s}", inside);
}

static const char *fill(pen *p, const ts_said *said, bool withhold) {
  char inside[96];
  p->withhold = withhold;
  for (const char *c = said->because; *c; c++) {
    size_t length = *c == '{' ? strcspn(c + 1, "}") : sizeof inside;
    if (length >= sizeof inside || !c[length + 1]) {
      ts_text_add_n(&p->out, c, 1);
      continue;
    }
    memcpy(inside, c + 1, length);
    inside[length] = 0;
    write_placeholder(p, said, inside);
    c += length + 1;
  }
  p->withhold = false;
  return take(p);
}

/* ---- decisions ------------------------------------------------------------------ */

static void write_side(pen *p, ts_node_id id) {
  const ts_node *n = ts_node_at(p->box->graph, id);
  if (n->op == TS_CONSTANT) {
    write_value(p, id);
    return;
  }
  write_node(p, id, 0);
  ts_text_add(&p->out, " (");
  write_value(p, id);
  ts_text_add(&p->out, ")");
}

/* What was found out, read from the side that is not a bare threshold: "margin (18..20 s) < 20 s". */
static void write_compare(pen *p, const ts_step *step) {
  static const char *const sign[2][2] = {{" ≥ ", " > "}, {" < ", " ≤ "}};   /* [taken][or_equal] */
  static const char *const turned[2][2] = {{" ≤ ", " < "}, {" > ", " ≥ "}}; /* the same, sides exchanged */
  bool turn = ts_node_at(p->box->graph, step->a)->op == TS_CONSTANT;
  write_side(p, turn ? step->b : step->a);
  ts_text_add(&p->out, (turn ? turned : sign)[step->taken][step->or_equal]);
  write_side(p, turn ? step->a : step->b);
}

static void write_answer(pen *p, const ts_step *step) {
  const ts_fact_def *fact = ts_slot_fact(p->box->dossier, step->slot);
  write_title(p, step->slot);
  if (hidden(p, step->slot)) {
    ts_text_add(&p->out, ": (withheld)");
    return;
  }
  if (step->kind == TS_READ_FLAG && step->bit) {
    ts_text_add(&p->out, " ");
    write_choices(&p->out, fact->choices, (uint64_t)1 << (step->bit - 1), "");
  }
  ts_text_add(&p->out, ": ");
  if (step->kind == TS_READ_CHOICE) write_choices(&p->out, fact->choices, (uint64_t)1 << step->taken, "");
  else ts_text_add(&p->out, step->taken ? "yes" : "no");
  if (!step->settled) ts_text_add(&p->out, " (not known)");
}

static const char *decision_text(pen *p, const ts_step *step, bool withhold) {
  p->withhold = withhold;
  if (step->kind == TS_COMPARE) write_compare(p, step);
  else write_answer(p, step);
  p->withhold = false;
  return take(p);
}

static void word_decisions(pen *p, ts_course *course) {
  ts_sandbox *box = p->box;
  ts_decision *all = ts_arena_alloc(box->arena, (box->step_count + 1) * sizeof *all);
  for (size_t i = 0; i < box->step_count; i++) {
    const ts_step *step = &box->steps[i];
    all[i] = (ts_decision){.taken = step->taken != 0, .settled = step->settled};
    all[i].text = decision_text(p, step, false);
    all[i].withheld = decision_text(p, step, true);
  }
  course->decisions = all;
  course->decision_count = box->step_count;
}

/* ---- outcomes --------------------------------------------------------------------- */

static void word_facts(ts_sandbox *box, const ts_said *said, ts_outcome *out) {
  uint32_t *slots = ts_arena_alloc(box->arena, (said->slot_mark + 1) * sizeof *slots);
  if (said->slot_mark) memcpy(slots, box->reads, said->slot_mark * sizeof *slots);
  ts_sort_once_each(slots, said->slot_mark); /* each was noted once */
  out->facts = slots;
  out->fact_count = said->slot_mark;
}

static int compare_names(const void *a, const void *b) {
  return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* The science functions behind the values and the decisions of an outcome. */
static void word_functions(ts_sandbox *box, const ts_said *said, ts_outcome *out) {
  ts_node_id count = ts_node_count(box->graph);
  unsigned char *marks = ts_alloc(count + 1);
  for (size_t i = 0; i < said->named_count; i++) marks[said->named[i].node] = REACHED;
  for (size_t i = 0; i < said->out.decision_count; i++)
    if (box->steps[i].kind == TS_COMPARE) marks[box->steps[i].a] = marks[box->steps[i].b] = REACHED;
  mark_calls(box->graph, marks, count);
  const char **names = ts_arena_alloc(box->arena, (count + 1) * sizeof *names);
  size_t found = 0;
  for (ts_node_id at = 0; at < count; at++)
    if (marks[at] & CALLED) names[found++] = ts_functions()[ts_node_at(box->graph, at)->calc].name;
  free(marks);
  qsort(names, found, sizeof *names, compare_names);
  size_t kept = 0;
  for (size_t i = 0; i < found; i++)
    if (!kept || !ts_same(names[kept - 1], names[i])) names[kept++] = names[i];
  out->calls = names;
  out->call_count = kept;
}

static void word_outcome(pen *p, const ts_said *said, ts_outcome *out) {
  ts_sandbox *box = p->box;
  *out = said->out;
  p->named = said->named;
  p->named_count = said->named_count;
  ts_shown *values = ts_arena_alloc(box->arena, (said->named_count + 1) * sizeof *values);
  for (size_t i = 0; i < said->named_count; i++) values[i] = show_named(p, &said->named[i]);
  out->values = values;
  out->value_count = said->named_count;
  out->because = fill(p, said, false);
  out->because_withheld = fill(p, said, true);
  out->form = strchr(said->because, '{') ? said->because : NULL;
  word_facts(box, said, out);
  word_functions(box, said, out);
}

void ts_word_course(ts_sandbox *box, ts_course *course) {
  pen p = {.box = box};
  ts_graph_restore(box->graph);
  ts_outcome *outcomes = ts_arena_alloc(box->arena, (box->said_count + 1) * sizeof *outcomes);
  for (size_t i = 0; i < box->said_count; i++) word_outcome(&p, &box->said[i], &outcomes[i]);
  if (box->said_count) {
    p.named = box->said[0].named;
    p.named_count = box->said[0].named_count;
  }
  word_decisions(&p, course);
  course->outcomes = outcomes;
  course->outcome_count = box->said_count;
  free(p.rests);
  ts_text_release(&p.out);
}
