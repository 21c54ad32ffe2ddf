/* Comparing, and imposing what a comparison decided.
 *
 * A decision about a derived value says something about the facts it was made
 * from. ts_impose cuts the two compared nodes, then walks the graph backward
 * (each operation gives its operands what the result leaves possible) and
 * forward again, until a round cuts nothing worth another. Soundness comes before sharpness: results are
 * widened by a few units in the last place before they are projected, because
 * forward ends are rounded to nearest. */
#include "science/graph_int.h"
#include "quantity/interval.h"

#include <math.h>

static const double tolerance = 1e-12; /* relative; the one tolerance of all comparisons */

enum {
  ROUNDS = 200, /* at most; most impositions are done after two, a few creep */
  SLACK = 4,   /* units in the last place */
  HALVINGS = 24, /* where a science function is inverted by search */
  LINES = 10     /* straight lines tried before the halving */
};

static bool near(double x, double y) { return fabs(x - y) <= tolerance * ts_most(fabs(x), fabs(y)); }

ts_answer ts_less(const ts_graph *graph, ts_node_id a, ts_node_id b, bool or_equal) {
  const ts_node *x = ts_node_at(graph, a), *y = ts_node_at(graph, b);
  if (a == b) return or_equal ? TS_YES : TS_NO;
  if (or_equal) { /* a <= b is: not (b < a) */
    ts_answer other = ts_less(graph, b, a, false);
    return other == TS_OPEN ? TS_OPEN : other == TS_YES ? TS_NO : TS_YES;
  }
  if (x->hi < y->lo && !near(x->hi, y->lo)) return TS_YES;
  if (x->lo >= y->hi || near(x->lo, y->hi)) return TS_NO;
  return TS_OPEN;
}

/* The largest value that counts as below `limit`, and the smallest that counts
 * as above it: a little past the tolerance, so that asking again settles. What
 * lies within the tolerance of a limit stands for the limit itself. */
static double below(double limit) {
  double step = 1.001 * tolerance * fabs(limit);
  return step > 0 && isfinite(step) ? limit - step : nextafter(limit, -INFINITY);
}

static double above(double limit) {
  double step = 1.001 * tolerance * fabs(limit);
  return step > 0 && isfinite(step) ? limit + step : nextafter(limit, INFINITY);
}

/* The limit itself with the noise of a few roundings: a sum that should come to the limit and
 * misses it by that much is taken for the limit by a comparison and must not be lost. A tenth of
 * the tolerance, so that the same question asked of a part of the sum is still settled. */
static double at_most(double limit) { return isfinite(limit) ? limit + 0.1 * tolerance * fabs(limit) : limit; }

static double at_least(double limit) { return isfinite(limit) ? limit - 0.1 * tolerance * fabs(limit) : limit; }

/* A range that ends short of the limit, but within the tolerance, has its end taken for the limit. */
static bool only_touch(double bottom, double top) { return bottom > at_most(top) && near(bottom, top); }

/* Only facts and what is made from them may shrink: a constant belongs to all evaluations. */
static bool cut(ts_graph *graph, ts_node_id id, ts_range to) {
  ts_node *node = &graph->nodes[id];
  ts_range r = {node->lo, node->hi};
  if (!ts_range_meet(&r, to)) return false;
  if (node->op == TS_CONSTANT || (r.lo == node->lo && r.hi == node->hi)) return true;
  if (r.hi - r.lo < 0.98 * (node->hi - node->lo)) graph->shrunk = true;
  node->lo = r.lo;
  node->hi = r.hi;
  node->touched = graph->pass;
  if (id < graph->lowest) graph->lowest = id;
  return true;
}

static ts_range now(const ts_graph *graph, ts_node_id id) {
  return (ts_range){graph->nodes[id].lo, graph->nodes[id].hi};
}

static bool holds_zero(ts_range r) { return r.lo <= 0 && r.hi >= 0; }

static bool back_product(ts_graph *graph, const ts_node *n, ts_range r) {
  ts_range a = now(graph, n->a), b = now(graph, n->b);
  bool possible = true;
  if (n->op == TS_MUL) {
    if (!holds_zero(b)) possible = cut(graph, n->a, ts_range_widen(ts_range_div(r, b), SLACK));
    if (!holds_zero(a)) possible = possible && cut(graph, n->b, ts_range_widen(ts_range_div(r, a), SLACK));
    return possible;
  }
  possible = cut(graph, n->a, ts_range_widen(ts_range_mul(r, b), SLACK));
  if (!holds_zero(r) && isfinite(r.lo) && isfinite(r.hi))
    possible = possible && cut(graph, n->b, ts_range_widen(ts_range_div(a, r), SLACK));
  return possible;
}

/* min(a, b) = r: neither is below r, and where one is above all of r the other is r. */
static bool back_extreme(ts_graph *graph, const ts_node *n, ts_range r) {
  ts_range a = now(graph, n->a), b = now(graph, n->b);
  bool min = n->op == TS_MIN;
  ts_range side = min ? (ts_range){r.lo, INFINITY} : (ts_range){-INFINITY, r.hi};
  bool a_is = min ? b.lo > r.hi : b.hi < r.lo, b_is = min ? a.lo > r.hi : a.hi < r.lo;
  return cut(graph, n->a, a_is ? r : side) && cut(graph, n->b, b_is ? r : side);
}

static bool back_power(ts_graph *graph, const ts_node *n, ts_range r) {
  ts_range a = now(graph, n->a);
  if (n->k == 0 || (n->k % 2 == 1 && a.lo < 0)) return true;
  ts_range root = ts_range_widen(ts_range_root(r, n->k), SLACK);
  if (a.lo >= 0) return cut(graph, n->a, root);
  if (a.hi <= 0) return cut(graph, n->a, (ts_range){-root.hi, -root.lo});
  return cut(graph, n->a, (ts_range){-root.hi, root.hi});
}

static bool back_abs(ts_graph *graph, const ts_node *n, ts_range r) {
  ts_range a = now(graph, n->a);
  if (a.lo >= 0) return cut(graph, n->a, r);
  if (a.hi <= 0) return cut(graph, n->a, (ts_range){-r.hi, -r.lo});
  return cut(graph, n->a, (ts_range){-r.hi, r.hi});
}

/* ---- science functions, inverted by search ------------------------------------------ */

typedef struct {
  ts_graph *graph;
  const ts_function *function;
  ts_range x[TS_ARGUMENTS_MAX], result;
} inversion;

/* What the function gives with an argument in `part`, the others staying in their ranges. */
static ts_range given(const inversion *v, int argument, ts_range part) {
  ts_range x[TS_ARGUMENTS_MAX];
  for (int i = 0; i < v->function->count; i++) x[i] = i == argument ? part : v->x[i];
  return ts_known_range(v->graph, v->function, x);
}

static bool gives(const inversion *v, ts_range y) { return y.lo <= v->result.hi && y.hi >= v->result.lo; }

/* One end of an argument's range, moved inward. */
typedef struct {
  const inversion *v;
  int argument;
  bool from_low;
  double end;
  double out, in;   /* from `end` to `out` cannot give the result; to `in` can */
  bool above;       /* from `end` to `out` gives more than the result; else less */
  double gap_out, gap_in; /* how much is missing there: 0 or less where it can */
} shaving;

/* Whether from the end to `to` can give the result, and how much is missing. */
static bool reaches(const shaving *s, double to, double *gap) {
  ts_range y = given(s->v, s->argument, s->from_low ? (ts_range){s->end, to} : (ts_range){to, s->end});
  *gap = s->above ? y.lo - s->v->result.hi : s->v->result.lo - y.hi;
  return gives(s->v, y);
}

/* Where a straight line between the two has nothing missing, `least` away from both. */
static double between(const shaving *s, double least) {
  double x = s->out + (s->in - s->out) * (s->gap_out / (s->gap_out - s->gap_in));
  double low = ts_least(s->out, s->in) + least, high = ts_most(s->out, s->in) - least;
  return ts_least(ts_most(x, low), high);
}

/* Brings `out` and `in` together by straight lines; what was an end twice counts half, so that both
 * move. What the halving asks afterwards is then known, but for a question or two. */
static void close_in(shaving *s, double near) {
  int last = 0;
  if (!reaches(s, s->in, &s->gap_in) || !isfinite(s->gap_in) || !isfinite(s->gap_out)) return;
  for (int i = 0; i < LINES && fabs(s->in - s->out) > near; i++) {
    double gap, x = between(s, near / 4);
    if (reaches(s, x, &gap)) {
      if (last > 0) s->gap_out /= 2;
      s->in = x, s->gap_in = gap, last = 1;
    } else {
      if (last < 0) s->gap_in /= 2;
      s->out = x, s->gap_out = gap, last = -1;
    }
  }
}

/* Whether from the end to `to` can give the result: known from what was tried, or tried. */
static bool reaches_by(const shaving *s, double to) {
  double gap;
  if (s->from_low ? to >= s->in : to <= s->in) return true;
  if (s->from_low ? to <= s->out : to >= s->out) return false;
  return reaches(s, to, &gap);
}

/* Whether the function gives at this end what it gives with the whole range, `all`, on the side on which the
 * result leaves that out: on the other side nothing was cut, and nothing can be moved. */
static bool is_cut(const inversion *v, int argument, bool from_low, ts_range all) {
  const ts_function *f = v->function;
  if (f->range != NULL || f->iterated) return true; /* which end gives which is not known */
  bool least = (f->argument[argument].direction == TS_RISES) == from_low;
  return least ? v->result.lo > all.lo : v->result.hi < all.hi;
}

/* The end of an argument's range moved inward over what cannot give the result. What is
 * left out was shown to be impossible by the function's own enclosure, so nothing is lost. */
static double shaved(const inversion *v, int argument, bool from_low, ts_range gives_all) {
  ts_range all = v->x[argument];
  double out = from_low ? all.lo : all.hi, in = from_low ? all.hi : all.lo, middle = out + (in - out) / 64;
  if (middle == out || middle == in || !is_cut(v, argument, from_low, gives_all)) return out;
  ts_range y = given(v, argument, from_low ? (ts_range){out, middle} : (ts_range){middle, out});
  if (gives(v, y)) return out; /* hardly anything to gain at this end */
  shaving s = {v, argument, from_low, .end = out, .out = middle, .in = in, .above = y.lo > v->result.hi};
  s.gap_out = s.above ? y.lo - v->result.hi : v->result.lo - y.hi;
  close_in(&s, ldexp(fabs(in - middle), 1 - HALVINGS));
  out = middle;
  for (int i = 1; i < HALVINGS; i++) {
    middle = out + (in - out) / 2;
    if (middle == out || middle == in) break;
    if (reaches_by(&s, middle)) in = middle;
    else out = middle;
  }
  return out;
}

static bool back_call(ts_graph *graph, const ts_node *n, ts_range r) {
  ts_node_id values[TS_ARGUMENTS_MAX];
  ts_range now_gives = ts_node_forward(graph, n);
  double hardly = 1e-9 * (now_gives.hi - now_gives.lo);
  if (r.lo <= now_gives.lo + hardly && r.hi >= now_gives.hi - hardly) return true; /* nothing new */
  inversion v = {.graph = graph, .function = &ts_functions()[n->calc], .result = r};
  ts_call_values(graph, n, values);
  for (int i = 0; i < v.function->count; i++) v.x[i] = now(graph, values[i]);
  for (int i = 0; i < v.function->count; i++) {
    ts_range was = v.x[i];
    if (graph->nodes[values[i]].op == TS_CONSTANT || was.lo == was.hi) continue;
    if (!gives(&v, now_gives)) return false;
    if (!isfinite(was.hi - was.lo)) continue;
    v.x[i].lo = shaved(&v, i, true, now_gives);
    v.x[i].hi = shaved(&v, i, false, now_gives);
    if (!cut(graph, values[i], v.x[i])) return false;
    if (v.x[i].lo != was.lo || v.x[i].hi != was.hi) now_gives = given(&v, i, v.x[i]);
  }
  return true;
}

/* The pass since which a cut is news: this one and the two before. What was never cut is as it was
 * made, and tells its operands nothing. */
static uint32_t news(const ts_graph *graph) { return graph->pass > 3 ? graph->pass - 2 : 1; }

static bool argument_touched(const ts_node *nodes, ts_node_id link, uint32_t since) {
  for (; link != TS_NO_NODE; link = nodes[link].b)
    if (nodes[link].touched >= since || nodes[nodes[link].a].touched >= since) return true;
  return false;
}

/* Whether an operand was cut of late: what has not changed says nothing new. */
static inline bool operand_touched(const ts_node *nodes, const ts_node *n, uint32_t since) {
  if (n->op == TS_CALL) return argument_touched(nodes, n->a, since);
  return nodes[n->a].touched >= since || (n->op != TS_DERIVED && n->b != TS_NO_NODE && nodes[n->b].touched >= since);
}

/* What the result of node `id` leaves possible for its operands. */
static bool backward(ts_graph *graph, ts_node_id id, uint32_t since) {
  const ts_node *n = &graph->nodes[id];
  if (n->op <= TS_FACT || n->op == TS_LINK) return true;
  if (n->touched < since && !operand_touched(graph->nodes, n, since)) return true;
  ts_range r = ts_range_widen((ts_range){n->lo, n->hi}, SLACK);
  switch ((ts_op)n->op) {
  case TS_ADD:
    return cut(graph, n->a, ts_range_widen(ts_range_sub(r, now(graph, n->b)), SLACK)) &&
           cut(graph, n->b, ts_range_widen(ts_range_sub(r, now(graph, n->a)), SLACK));
  case TS_SUB:
    return cut(graph, n->a, ts_range_widen(ts_range_add(r, now(graph, n->b)), SLACK)) &&
           cut(graph, n->b, ts_range_widen(ts_range_sub(now(graph, n->a), r), SLACK));
  case TS_MUL:
  case TS_DIV: return back_product(graph, n, r);
  case TS_MIN:
  case TS_MAX: return back_extreme(graph, n, r);
  case TS_NEG: return cut(graph, n->a, (ts_range){-r.hi, -r.lo});
  case TS_ABS: return back_abs(graph, n, r);
  case TS_RAISE: return back_power(graph, n, r);
  case TS_ROOT: return cut(graph, n->a, ts_range_widen(ts_range_power((ts_range){ts_most(r.lo, 0), ts_most(r.hi, 0)}, 2), SLACK));
  case TS_DERIVED: return cut(graph, n->a, (ts_range){n->lo, n->hi});
  case TS_CALL: return back_call(graph, n, r);
  case TS_LINK:
  case TS_CONSTANT:
  case TS_FACT: break;
  }
  return true;
}

static bool forward(ts_graph *graph, ts_node_id id, uint32_t since) {
  const ts_node *n = &graph->nodes[id];
  if (n->op <= TS_FACT || !operand_touched(graph->nodes, n, since)) return true;
  return cut(graph, id, ts_range_widen(ts_node_forward(graph, n), 1));
}

static bool propagate(ts_graph *graph, ts_node_id top) {
  graph->shrunk = true;
  for (int round = 0; round < ROUNDS && graph->shrunk; round++) {
    graph->shrunk = false;
    graph->pass++;
    for (ts_node_id id = top + 1; id-- > graph->lowest;)
      if (!backward(graph, id, news(graph))) return false;
    graph->pass++;
    for (ts_node_id id = graph->lowest; id < graph->count; id++)
      if (!forward(graph, id, news(graph))) return false;
  }
  return true;
}

/* a < b, or with `or_equal` a <= b, is known to hold. */
static bool impose_less(ts_graph *graph, ts_node_id a, ts_node_id b, bool or_equal) {
  double top = now(graph, b).hi, bottom = now(graph, a).lo;
  if (or_equal && only_touch(bottom, top)) return true; /* both are the limit: nothing to cut */
  ts_range low = {-INFINITY, or_equal ? at_most(top) : below(top)};
  ts_range high = {or_equal ? at_least(bottom) : above(bottom), INFINITY};
  if (!cut(graph, a, low) || !cut(graph, b, high)) return false;
  return propagate(graph, a > b ? a : b);
}

bool ts_impose(ts_graph *graph, ts_node_id a, ts_node_id b, bool or_equal, bool holds) {
  if (holds) return impose_less(graph, a, b, or_equal);
  return impose_less(graph, b, a, !or_equal);
}

static void give(ts_graph *graph, ts_node_id id, ts_range range) {
  graph->nodes[id].lo = range.lo;
  graph->nodes[id].hi = range.hi;
}

void ts_graph_restore(ts_graph *graph) {
  for (size_t i = 0; i < graph->made_count; i++) give(graph, graph->made[i].id, graph->made[i].range);
  for (size_t i = graph->kept; i < graph->count; i++)
    give(graph, (ts_node_id)i, ts_node_forward(graph, &graph->nodes[i]));
}
