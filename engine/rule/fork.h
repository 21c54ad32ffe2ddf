/* Forks: where a course that is done again from its record could have gone on otherwise. The next
 * course begins there, with the graph as it stood, and not at the beginning. */
#ifndef TS_RULE_FORK_H
#define TS_RULE_FORK_H

#include "rule/sandbox.h"

typedef struct ts_fork {
  size_t step;            /* the open question, by its number on the course */
  const void *stretch;    /* of the record: where it was asked */
  uint32_t registers;     /* made by then */
  uint32_t subjects;      /* met by then */
  size_t reads, said;
  size_t from;            /* the graph's nodes, in box->saved */
  ts_graph_point point;
  bool imposed;           /* they are as the other answer leaves them; else as before any answer */
} ts_fork;

/* The question about to be answered may be answered otherwise from what the graph is now. */
void ts_fork_keep(ts_sandbox *box, bool imposed);

/* The fork of the last step on the course, or NULL; those of later steps are dropped. */
ts_fork *ts_fork_last(ts_sandbox *box);
void ts_forks_drop(ts_sandbox *box);

/* Goes back there and lets the answer hold that the step now has; false when it cannot. */
bool ts_fork_take(ts_sandbox *box, const ts_fork *fork);

#endif
