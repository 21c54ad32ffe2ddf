/* A rule file as an assessment runs it: without the examples of its rules.
 *
 * They are half of what is written in a pack, and only `rules` looks at them. */
#ifndef TS_RULE_BARE_H
#define TS_RULE_BARE_H

#include "base/arena.h"

/* The text with {} for what stands behind `examples =` in the table of a `rule`, in as many lines;
 * its length is put in the place of the other. Where the end of an expression is not plain to see
 * (a function that is in no bracket, a bracket that is not closed) it stays. */
char *ts_bare(ts_arena *arena, const char *text, size_t *length);

#endif
