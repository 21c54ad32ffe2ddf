/* Inside of `rules check`: what its parts share.
 *
 *   types.c     which subjects and facts the expressions of a rule are, through helpers too
 *   inspect.c   names and controls that do not exist or have no effect, seen in the text
 *   coverage.c  which decisions and statements the examples reach
 *   examples.c  the examples themselves
 *   alike.c     rules that say the same
 *   when.c      when a rule applies, in words
 *   check.c     all of it, in order */
#ifndef TS_RULE_CHECK_INT_H
#define TS_RULE_CHECK_INT_H

#include "rule/evaluator.h"
#include "rule/packs_int.h"
#include "rule/syntax.h"

/* What is known of one rule. */
typedef struct {
  ts_syntax *table;          /* what is declared; NULL where the text does not show it */
  const ts_fact_def **facts; /* read, each once, in no order; those a derived fact is made of too */
  size_t fact_count, fact_capacity;
  const char **controls; /* named by any outcome, each once */
  int *control_lines;    /* where the outcome stands that named it first */
  bool *control_scored;  /* it is to change the score, and does not only help */
  size_t control_count, control_capacity, control_line_capacity, control_scored_capacity;
  int *lines; /* on which something is said that has been put into words */
  size_t line_count, line_capacity;
  const char *print; /* what it decides by, in one form: equal for rules that do alike */
} ts_rule_seen;

typedef struct {
  ts_syntax *at;
  bool decision; /* else a statement: being there is all */
  size_t rule;   /* whose text it stands in; TS_NO_RULE: a helper's */
  unsigned examples,
      anything; /* came out: bit 0 no, bit 1 yes; over examples, with nothing known */
} ts_point;
#define TS_NO_RULE ((size_t)-1)

typedef struct {
  const ts_packs *packs;
  ts_diagnostics *problems;
  ts_arena *arena;
  ts_dossier *world;   /* one of everything, nothing known */
  ts_syntax **trees;   /* one a rule file; NULL where it is not Lua */
  ts_rule_seen *rules; /* one a rule */
  ts_point *points;    /* from 1; `number` of a node is its place */
  size_t point_count, point_capacity;
  bool with_examples; /* what is seen now is seen in an example */
  ts_evaluator *evaluator;
} ts_checking;

/* How a field turned out, left in its `number` until points are numbered. */
enum { TS_FIELD_IS_FLAG = 1, TS_FIELD_IS_NEVER_FALSE = 2 };

/* What an expression is called that leads to something named: a function of a table that is
 * shared, or of this file. NULL where it cannot be told. */
ts_syntax *ts_function_meant(const ts_checking *c, ts_syntax *callee);
/* Follows `when` and `assess` of one rule: fields that do not exist are reported, facts kept. */
void ts_types_follow(ts_checking *c, size_t rule);
/* The fact a field leads to in the last rule followed, "immersion.breath-hold"; or NULL. */
const char *ts_types_path(ts_checking *c, ts_syntax *field);
/* Keeps what an evaluation of a rule read and which controls it named. */
void ts_keep_seen(ts_checking *c, size_t rule, const ts_evaluation *evaluation);
void ts_keep_fact(ts_rule_seen *seen, const ts_fact_def *fact);

void ts_inspect_names(ts_checking *c);
void ts_inspect_controls(ts_checking *c);
void ts_inspect_scores(ts_checking *c);

/* Numbers the points of all files, and gives the evaluator that tells of them. */
void ts_coverage_begin(ts_checking *c);
void ts_coverage_report(const ts_checking *c);

/* How many examples of a rule come out as they say; reports those that do not. */
size_t ts_examples_run(ts_checking *c, size_t rule);

/* What the last rule followed decides by. */
const char *ts_alike_print(ts_checking *c, size_t rule);
void ts_alike_report(ts_checking *c);

/* When the rule applies, in words; NULL where it always does or where words fail. */
const char *ts_when_words(ts_checking *c, size_t rule);

void ts_checking_release(ts_checking *c);

#endif
