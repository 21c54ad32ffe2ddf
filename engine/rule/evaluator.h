/* Inside of the evaluator, shared by course.c, packs.c and examples.c. */
#ifndef TS_RULE_EVALUATOR_H
#define TS_RULE_EVALUATOR_H

#include "base/text.h"
#include "rule/sandbox.h"

/* The decisions of a kept course, to take it again for its words. */
typedef struct {
  const ts_step *steps;
  size_t count;
  const ts_course *worded; /* once asked for */
} ts_kept;

struct ts_evaluator {
  const ts_packs *packs;
  ts_sandbox *box;
  bool borrowed; /* the box in which the packs were loaded */
  size_t rule;
  ts_course *courses;
  ts_kept *kept; /* one a course */
  size_t course_count, course_capacity, kept_capacity;
  uint32_t *reads; /* of all courses */
  size_t read_count, read_capacity;
  ts_evaluation result;
};

/* An evaluator in which each rule file reads as its text of `texts`, marked with calls of TS_SEEN
 * that tell `watch`. It has no dossier yet. */
ts_evaluator *ts_evaluator_watched(const ts_packs *packs, const ts_text *texts, ts_watch *watch, void *watcher);

/* Where a rule's table stands among the declared ones, from 1. */
lua_Integer ts_rule_declaration(const ts_packs *packs, size_t rule);

#endif
