/* The graph's own inside, for graph.c (making nodes) and narrow.c (imposing decisions). */
#ifndef TS_SCIENCE_GRAPH_INT_H
#define TS_SCIENCE_GRAPH_INT_H

#include "science/graph.h"

/* One place of a hash table: an id, valid only in the epoch that wrote it. */
typedef struct {
  uint64_t epoch;
  ts_node_id id;
} ts_place;

typedef struct {
  ts_place *places;
  size_t size; /* a power of two */
  size_t used;
} ts_places;

/* A call of a science function and what came of it: narrowing and runs with one fact moved ask for
 * most of them again. */
typedef struct {
  const ts_function *function; /* NULL: nothing kept here yet */
  ts_range x[TS_ARGUMENTS_MAX], y;
} ts_known_call;
enum { TS_KNOWN_CALLS = 512 }; /* a power of two */

struct ts_graph {
  ts_node *nodes;
  size_t count, capacity;
  size_t kept;         /* nodes below this are constants that outlive a reset */
  uint64_t epoch;      /* one more at each reset: empties `fresh` without touching it */
  ts_places permanent; /* constants below `kept` */
  ts_places fresh;     /* nodes of this evaluation */
  ts_made *made;       /* facts of this evaluation */
  size_t made_count, made_capacity;
  ts_known_call *calls; /* by what is in them; once one is made */
  uint32_t pass;       /* of narrowing, counted from the reset: 1 */
  ts_node_id lowest;   /* no node below it was ever cut since the reset */
  bool shrunk;         /* the present round of narrowing cut something by a good part */
  char problem[160];
};

/* As ts_function_apply. */
ts_range ts_known_range(ts_graph *graph, const ts_function *function, const ts_range *x);

/* The range an operation node has from the present ranges of its operands. */
ts_range ts_node_forward(ts_graph *graph, const ts_node *node);

#endif
