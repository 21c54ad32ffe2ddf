/* The graph of how each value was made.
 *
 * It stands in science/ because a node may be a call of one of its functions.
 * One graph serves one evaluation at a time and is reset, not freed, between
 * evaluations: no allocation per value. A node never refers to a later node,
 * so the array is in topological order and a pass over it is a loop.
 *
 * Ends of + - * / and sqrt are rounded to nearest: widening outward would
 * invent worst cases at round thresholds. Library functions widen by a few
 * units in the last place. */
#ifndef TS_SCIENCE_GRAPH_H
#define TS_SCIENCE_GRAPH_H

#include "tankside/quantity.h"
#include "tankside/science.h"

typedef enum {
  TS_CONSTANT, /* written in a rule */
  TS_FACT,     /* a = slot of the fact in the dossier */
  TS_DERIVED,  /* a = the node it names, b = slot: a fact computed from others */
  TS_ADD, TS_SUB, TS_MUL, TS_DIV, TS_NEG, TS_ABS, TS_MIN, TS_MAX,
  TS_RAISE,    /* a to the whole power k */
  TS_ROOT,     /* square root of a */
  TS_CALL,     /* a science function: a = last argument link, calc = index in ts_functions() */
  TS_LINK      /* a = argument value, b = the link before it, or TS_NO_NODE */
} ts_op;

typedef uint32_t ts_node_id;
#define TS_NO_NODE UINT32_MAX

typedef struct {
  double lo, hi;
  ts_dim dim;
  ts_node_id a, b;
  uint8_t op;
  int8_t k;
  uint16_t calc;
  uint32_t touched; /* the pass of narrowing that last cut it */
} ts_node;

typedef struct ts_graph ts_graph;

ts_graph *ts_graph_new(void);
void ts_graph_free(ts_graph *graph);

/* Forgets every node made since ts_graph_mark was called. Constants made
 * before the mark stay for the life of the graph. */
void ts_graph_mark(ts_graph *graph);
void ts_graph_reset(ts_graph *graph);

/* Read access. The pointer holds until the next node is made. */
const ts_node *ts_node_at(const ts_graph *graph, ts_node_id id);
ts_node_id ts_node_count(const ts_graph *graph);
/* Nodes below this are constants that every evaluation has. */
ts_node_id ts_graph_kept(const ts_graph *graph);

/* New nodes. Equal nodes are shared: making the same one twice gives the same
 * id. Operations return TS_NO_NODE when dimensions do not fit, a divisor is
 * the point zero, or a result is not a number; ts_graph_problem says why. */
ts_node_id ts_constant(ts_graph *graph, ts_range range, ts_dim dim);
ts_node_id ts_fact_value(ts_graph *graph, uint32_t slot, ts_range range, ts_dim dim);
ts_node_id ts_derived(ts_graph *graph, uint32_t slot, ts_node_id value);
ts_node_id ts_binary(ts_graph *graph, ts_op op, ts_node_id a, ts_node_id b);
ts_node_id ts_unary(ts_graph *graph, ts_op op, ts_node_id a); /* NEG, ABS, ROOT */
ts_node_id ts_power(ts_graph *graph, ts_node_id a, int k);
ts_node_id ts_call(ts_graph *graph, const ts_function *function, const ts_node_id *arguments);
const char *ts_graph_problem(const ts_graph *graph);

/* The values a TS_CALL node is made of, in the order of the function's arguments. */
void ts_call_values(const ts_graph *graph, const ts_node *call, ts_node_id *values);

/* Comparison with the one tolerance: equal within 1e-12 relative counts as equal, so
 * that 0.1 + 0.2 is not above 0.3. */
typedef enum { TS_NO, TS_YES, TS_OPEN } ts_answer;
ts_answer ts_less(const ts_graph *graph, ts_node_id a, ts_node_id b, bool or_equal);

/* Narrows a and b so that (a < b) == holds (a <= b when or_equal), and
 * carries the narrowing back to the facts they were made from. Constants are never
 * touched. Returns false when no values are left: the course is impossible. */
bool ts_impose(ts_graph *graph, ts_node_id a, ts_node_id b, bool or_equal, bool holds);

/* The graph as it stands, to go back to: its nodes from ts_graph_kept on are copied into `room`,
 * which the caller owns. Going back forgets what was made since. */
typedef struct {
  ts_node_id count; /* of nodes then */
  size_t made;
  uint32_t pass;
} ts_graph_point;
ts_graph_point ts_graph_save(const ts_graph *graph, ts_node *room);
void ts_graph_go_back(ts_graph *graph, const ts_graph_point *point, const ts_node *room);

/* The facts of this evaluation with the ranges they were made with, in the order of making.
 * Holds until the next node is made. */
typedef struct {
  ts_node_id id;
  ts_range range;
} ts_made;
const ts_made *ts_graph_facts(const ts_graph *graph, size_t *count);

/* Undoes all narrowing: every fact has the range it was made with again, and
 * every operation the range that follows: values as the dossier states them. */
void ts_graph_restore(ts_graph *graph);

#endif
