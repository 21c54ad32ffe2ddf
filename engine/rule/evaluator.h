/* Inside of the evaluator, shared by course.c, packs.c and examples.c. */
#ifndef TS_RULE_EVALUATOR_H
#define TS_RULE_EVALUATOR_H

#include "rule/sandbox.h"

struct ts_evaluator {
  const ts_packs *packs;
  ts_sandbox *box;
  ts_course *courses;
  size_t course_count, course_capacity;
  ts_evaluation result;
};

/* Points the evaluator at another dossier (an example's world). */
void ts_evaluator_use(ts_evaluator *evaluator, const ts_dossier *dossier);

/* Where a rule's table stands among the declared ones, from 1. */
lua_Integer ts_rule_declaration(const ts_packs *packs, size_t rule);

#endif
