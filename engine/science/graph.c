/* Making nodes: dimensions are checked, ranges computed, equal nodes shared. */
#include "science/graph_int.h"

#include "base/arena.h"
#include "quantity/interval.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

ts_graph *ts_graph_new(void) {
  ts_graph *graph = ts_alloc(sizeof *graph);
  ts_graph_reset(graph);
  return graph;
}

void ts_graph_free(ts_graph *graph) {
  if (!graph) return;
  free(graph->nodes);
  free(graph->permanent.places);
  free(graph->fresh.places);
  free(graph->made);
  free(graph->calls);
  free(graph);
}

const ts_node *ts_node_at(const ts_graph *graph, ts_node_id id) { return &graph->nodes[id]; }

ts_node_id ts_node_count(const ts_graph *graph) { return (ts_node_id)graph->count; }

ts_node_id ts_graph_kept(const ts_graph *graph) { return (ts_node_id)graph->kept; }

const char *ts_graph_problem(const ts_graph *graph) { return graph->problem; }

/* ---- sharing equal nodes ------------------------------------------------ */

static uint64_t mix(uint64_t h, uint64_t x) {
  h ^= x;
  h *= 0x9E3779B97F4A7C15u;
  return h ^ h >> 29;
}

static uint64_t bits(double x) {
  uint64_t b;
  memcpy(&b, &x, sizeof b);
  return b;
}

/* Facts are told apart by slot alone, so that a narrowed fact is found again;
 * constants by their value; operations by what they work on. */
static uint64_t node_hash(const ts_node *n) {
  uint64_t h = mix(n->op, (uint64_t)n->a << 32 | n->b);
  h = mix(h, (uint64_t)(uint8_t)n->k << 16 | n->calc);
  if (n->op == TS_CONSTANT) h = mix(mix(mix(h, bits(n->lo)), bits(n->hi)), n->dim);
  return h;
}

static bool node_equal(const ts_node *n, const ts_node *m) {
  if (n->op != m->op || n->a != m->a || n->b != m->b || n->k != m->k || n->calc != m->calc) return false;
  return n->op != TS_CONSTANT ||
         (bits(n->lo) == bits(m->lo) && bits(n->hi) == bits(m->hi) && n->dim == m->dim);
}

/* A place may tell of a node that was forgotten since. */
static bool holds(const ts_graph *graph, ts_node_id id, const ts_node *node) {
  return id < graph->count && node_equal(&graph->nodes[id], node);
}

static ts_place *find_place(const ts_graph *graph, const ts_places *table, const ts_node *node,
                            uint64_t hash, uint64_t epoch) {
  size_t at = hash & (table->size - 1);
  while (table->places[at].epoch == epoch && !holds(graph, table->places[at].id, node))
    at = (at + 1) & (table->size - 1);
  return &table->places[at];
}

static void grow_places(ts_graph *graph, ts_places *table, uint64_t epoch) {
  ts_places bigger = {.size = table->size ? 2 * table->size : 64, .used = table->used};
  bigger.places = ts_alloc(bigger.size * sizeof *bigger.places);
  for (size_t i = 0; i < table->size; i++)
    if (table->places[i].epoch == epoch && table->places[i].id < graph->count) {
      const ts_node *node = &graph->nodes[table->places[i].id];
      *find_place(graph, &bigger, node, node_hash(node), epoch) = table->places[i];
    }
  free(table->places);
  *table = bigger;
}

static ts_node_id append(ts_graph *graph, const ts_node *node) {
  TS_GROW(graph->nodes, graph->count, graph->capacity);
  graph->nodes[graph->count] = *node;
  return (ts_node_id)graph->count++;
}

static ts_node_id share(ts_graph *graph, const ts_node *node) {
  uint64_t hash = node_hash(node);
  if (node->op == TS_CONSTANT && graph->permanent.size) {
    const ts_place *place = find_place(graph, &graph->permanent, node, hash, 1);
    if (place->epoch == 1) return place->id;
  }
  ts_places *fresh = &graph->fresh;
  if (2 * (fresh->used + 1) > fresh->size) grow_places(graph, fresh, graph->epoch);
  ts_place *place = find_place(graph, fresh, node, hash, graph->epoch);
  if (place->epoch != graph->epoch) {
    *place = (ts_place){graph->epoch, append(graph, node)};
    fresh->used++;
  }
  return place->id;
}

void ts_graph_mark(ts_graph *graph) {
  for (size_t i = graph->kept; i < graph->count; i++) {
    if (2 * (graph->permanent.used + 1) > graph->permanent.size)
      grow_places(graph, &graph->permanent, 1);
    const ts_node *node = &graph->nodes[i];
    *find_place(graph, &graph->permanent, node, node_hash(node), 1) = (ts_place){1, (ts_node_id)i};
    graph->permanent.used++;
  }
  graph->kept = graph->count;
  ts_graph_reset(graph);
}

void ts_graph_reset(ts_graph *graph) {
  graph->count = graph->kept;
  graph->epoch++;
  graph->fresh.used = 0;
  graph->made_count = 0;
  graph->pass = 1; /* a node that was never cut has 0 */
  graph->lowest = TS_NO_NODE;
  graph->problem[0] = 0;
}

/* ---- making nodes -------------------------------------------------------- */

static ts_node_id fail(ts_graph *graph, const char *text) {
  snprintf(graph->problem, sizeof graph->problem, "%s", text);
  return TS_NO_NODE;
}

static ts_node_id fail_dims(ts_graph *graph, const char *verb, ts_dim a, ts_dim b) {
  char first[40], second[40];
  snprintf(graph->problem, sizeof graph->problem, "cannot %s %s and %s", verb,
           ts_dim_name(a, first, sizeof first), ts_dim_name(b, second, sizeof second));
  return TS_NO_NODE;
}

ts_graph_point ts_graph_save(const ts_graph *graph, ts_node *room) {
  size_t fresh = graph->count - graph->kept;
  if (fresh) memcpy(room, graph->nodes + graph->kept, fresh * sizeof *room);
  return (ts_graph_point){(ts_node_id)graph->count, graph->made_count, graph->pass};
}

void ts_graph_go_back(ts_graph *graph, const ts_graph_point *point, const ts_node *room) {
  size_t fresh = point->count - graph->kept;
  if (fresh) memcpy(graph->nodes + graph->kept, room, fresh * sizeof *room);
  graph->count = point->count;
  graph->made_count = point->made;
  graph->pass = point->pass;
}

ts_node_id ts_constant(ts_graph *graph, ts_range range, ts_dim dim) {
  ts_node node = {.lo = range.lo, .hi = range.hi, .dim = dim, .op = TS_CONSTANT};
  return share(graph, &node);
}

ts_node_id ts_fact_value(ts_graph *graph, uint32_t slot, ts_range range, ts_dim dim) {
  ts_node node = {.lo = range.lo, .hi = range.hi, .dim = dim, .a = slot, .op = TS_FACT};
  size_t before = graph->count;
  ts_node_id id = share(graph, &node);
  if (graph->count > before) {
    TS_GROW(graph->made, graph->made_count, graph->made_capacity);
    graph->made[graph->made_count++] = (ts_made){id, range};
  }
  return id;
}

const ts_made *ts_graph_facts(const ts_graph *graph, size_t *count) {
  *count = graph->made_count;
  return graph->made;
}

ts_node_id ts_derived(ts_graph *graph, uint32_t slot, ts_node_id value) {
  if (value == TS_NO_NODE) return TS_NO_NODE;
  const ts_node *of = ts_node_at(graph, value);
  ts_node node = {.lo = of->lo, .hi = of->hi, .dim = of->dim, .a = value, .b = slot, .op = TS_DERIVED};
  return share(graph, &node);
}

/* Adds (or subtracts) the exponents of two dimensions without carry between bytes. */
static ts_dim dim_combine(ts_dim a, ts_dim b, int sign) {
  ts_dim out = 0;
  for (int shift = 0; shift < 56; shift += 8) {
    int e = (int8_t)(a >> shift) + sign * (int8_t)(b >> shift);
    out |= (ts_dim)(uint8_t)e << shift;
  }
  return out;
}

/* A position on a scale plus a difference is a position; two positions
 * subtract to a difference and do not add. */
static bool sum_dim(ts_op op, ts_dim a, ts_dim b, ts_dim *out) {
  bool pa = TS_KIND_OF(a) == 1, pb = TS_KIND_OF(b) == 1;
  if ((a & ~TS_KIND(255)) != (b & ~TS_KIND(255))) return false;
  if (!pa && !pb) return *out = a, a == b;
  if (op == TS_ADD) return *out = pa ? a : b, !(pa && pb);
  return *out = pa && pb ? a & ~TS_KIND(255) : a, pa;
}

/* Kinds (temperature positions, turbidity, sound) do not multiply, except by
 * a plain number where that means something. */
static bool product_dim(ts_op op, ts_dim a, ts_dim b, ts_dim *out) {
  unsigned ka = TS_KIND_OF(a), kb = TS_KIND_OF(b);
  *out = dim_combine(a, b, op == TS_MUL ? 1 : -1);
  if (!ka && !kb) return true;
  if (ka == 1 || kb == 1) return false;
  if (op == TS_DIV && a == b) return *out = TS_NUMBER, true;
  *out = ka ? a : b;
  return op == TS_MUL ? (a == TS_NUMBER || b == TS_NUMBER) : b == TS_NUMBER;
}

static ts_node_id finish(ts_graph *graph, ts_node *node, bool point) {
  ts_range r = ts_node_forward(graph, node);
  if (!(r.lo <= r.hi) || (point && isinf(r.lo))) return fail(graph, "the result is not a number");
  node->lo = r.lo;
  node->hi = r.hi;
  return share(graph, node);
}

static bool is_point(const ts_graph *graph, ts_node_id id) {
  const ts_node *n = ts_node_at(graph, id);
  return n->lo == n->hi;
}

static bool binary_dim(ts_graph *graph, ts_op op, ts_dim a, ts_dim b, ts_dim *out) {
  switch (op) {
  case TS_ADD: return sum_dim(op, a, b, out) || (fail_dims(graph, "add", a, b), false);
  case TS_SUB: return sum_dim(op, a, b, out) || (fail_dims(graph, "subtract", a, b), false);
  case TS_MUL: return product_dim(op, a, b, out) || (fail_dims(graph, "multiply", a, b), false);
  case TS_DIV: return product_dim(op, a, b, out) || (fail_dims(graph, "divide", a, b), false);
  default: return *out = a, a == b || (fail_dims(graph, "compare", a, b), false);
  }
}

ts_node_id ts_binary(ts_graph *graph, ts_op op, ts_node_id a, ts_node_id b) {
  ts_node node = {.a = a, .b = b, .op = (uint8_t)op};
  const ts_node *left = ts_node_at(graph, a), *right = ts_node_at(graph, b);
  if (!binary_dim(graph, op, left->dim, right->dim, &node.dim)) return TS_NO_NODE;
  if (op == TS_DIV && right->lo == 0 && right->hi == 0) return fail(graph, "division by zero");
  return finish(graph, &node, is_point(graph, a) && is_point(graph, b));
}

ts_node_id ts_unary(ts_graph *graph, ts_op op, ts_node_id a) {
  ts_node node = {.a = a, .b = TS_NO_NODE, .op = (uint8_t)op, .dim = ts_node_at(graph, a)->dim};
  if (TS_KIND_OF(node.dim) == 1) return fail(graph, "a position on a scale (a temperature, a date, a time of day) has no sign or root");
  if (op == TS_ROOT) {
    for (int shift = 0; shift < 56; shift += 8)
      if ((int8_t)(node.dim >> shift) % 2) return fail(graph, "the root of this dimension is not a dimension");
    ts_dim half = 0;
    for (int shift = 0; shift < 56; shift += 8)
      half |= (ts_dim)(uint8_t)((int8_t)(node.dim >> shift) / 2) << shift;
    node.dim = half;
    if (ts_node_at(graph, a)->hi < 0) return fail(graph, "the root of a negative number");
  }
  return finish(graph, &node, is_point(graph, a));
}

ts_node_id ts_power(ts_graph *graph, ts_node_id a, int k) {
  if (k < 0 || k > 9) return fail(graph, "a power must be a whole number from 0 to 9");
  ts_node node = {.a = a, .b = TS_NO_NODE, .op = TS_RAISE, .k = (int8_t)k};
  ts_dim base = ts_node_at(graph, a)->dim;
  if (TS_KIND_OF(base)) return fail(graph, "this kind of quantity has no powers");
  for (int i = 0; i < k; i++) node.dim = dim_combine(node.dim, base, 1);
  return finish(graph, &node, is_point(graph, a));
}

static ts_node_id link_argument(ts_graph *graph, ts_node_id value, ts_node_id before) {
  const ts_node *of = ts_node_at(graph, value);
  ts_node node = {.lo = of->lo, .hi = of->hi, .dim = of->dim, .a = value, .b = before, .op = TS_LINK};
  return share(graph, &node);
}

static ts_node_id fail_argument(ts_graph *graph, const ts_function *f, int i, ts_dim found) {
  char want[40], have[40];
  snprintf(graph->problem, sizeof graph->problem, "%s: argument %d, %s, must be %s, not %s", f->name, i + 1,
           f->argument[i].name, ts_dim_name(f->argument[i].dim, want, sizeof want),
           ts_dim_name(found, have, sizeof have));
  return TS_NO_NODE;
}

ts_node_id ts_call(ts_graph *graph, const ts_function *function, const ts_node_id *arguments) {
  ts_node node = {.a = TS_NO_NODE, .b = TS_NO_NODE, .op = TS_CALL, .dim = function->dim};
  node.calc = (uint16_t)(function - ts_functions());
  for (int i = 0; i < function->count; i++) {
    ts_dim found = ts_node_at(graph, arguments[i])->dim;
    if (found != function->argument[i].dim) return fail_argument(graph, function, i, found);
    node.a = link_argument(graph, arguments[i], node.a);
  }
  return finish(graph, &node, false);
}

/* ---- ranges forward ------------------------------------------------------ */

static ts_range range_of(const ts_graph *graph, ts_node_id id) {
  const ts_node *n = ts_node_at(graph, id);
  return (ts_range){n->lo, n->hi};
}

void ts_call_values(const ts_graph *graph, const ts_node *call, ts_node_id *values) {
  ts_node_id at = call->a;
  for (int i = ts_functions()[call->calc].count; i-- > 0; at = ts_node_at(graph, at)->b)
    values[i] = ts_node_at(graph, at)->a;
}

static size_t call_place(const ts_function *function, const ts_range *x) {
  uint64_t h = (uint64_t)(function - ts_functions());
  for (int i = 0; i < function->count; i++) h = mix(mix(h, bits(x[i].lo)), bits(x[i].hi));
  return (h ^ h >> 32) & (TS_KNOWN_CALLS - 1);
}

ts_range ts_known_range(ts_graph *graph, const ts_function *function, const ts_range *x) {
  if (!graph->calls) graph->calls = ts_alloc(TS_KNOWN_CALLS * sizeof *graph->calls);
  ts_known_call *known = &graph->calls[call_place(function, x)];
  size_t size = (size_t)function->count * sizeof *x;
  if (known->function == function && memcmp(known->x, x, size) == 0) return known->y;
  bool open;
  known->function = function;
  memcpy(known->x, x, size);
  return known->y = ts_function_apply(function, x, &open);
}

static ts_range call_range(ts_graph *graph, const ts_node *node) {
  const ts_function *function = &ts_functions()[node->calc];
  ts_node_id values[TS_ARGUMENTS_MAX] = {0};
  ts_range x[TS_ARGUMENTS_MAX];
  ts_call_values(graph, node, values);
  for (int i = 0; i < function->count; i++) x[i] = range_of(graph, values[i]);
  return ts_known_range(graph, function, x);
}

ts_range ts_node_forward(ts_graph *graph, const ts_node *node) {
  ts_range a = node->op > TS_FACT && node->a != TS_NO_NODE ? range_of(graph, node->a) : (ts_range){0, 0};
  switch ((ts_op)node->op) {
  case TS_ADD: return ts_range_add(a, range_of(graph, node->b));
  case TS_SUB: return ts_range_sub(a, range_of(graph, node->b));
  case TS_MUL: return ts_range_mul(a, range_of(graph, node->b));
  case TS_DIV: return ts_range_div(a, range_of(graph, node->b));
  case TS_MIN: return ts_range_min(a, range_of(graph, node->b));
  case TS_MAX: return ts_range_max(a, range_of(graph, node->b));
  case TS_NEG: return (ts_range){-a.hi, -a.lo};
  case TS_ABS: return ts_range_abs(a);
  case TS_RAISE: return ts_range_power(a, node->k);
  case TS_ROOT: return ts_range_root(a, 2);
  case TS_CALL: return call_range(graph, node);
  case TS_DERIVED:
  case TS_LINK: return a;
  case TS_CONSTANT:
  case TS_FACT: break;
  }
  return (ts_range){node->lo, node->hi};
}
