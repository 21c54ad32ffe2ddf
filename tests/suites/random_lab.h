/* Rules by lot, loaded, and a variant of their world to put states of knowledge into. */
#ifndef TS_TESTS_RANDOM_LAB_H
#define TS_TESTS_RANDOM_LAB_H

#include "random_rule.h"

#include "rule/rule.h"

typedef void (*random_write)(random_source *source, draws *luck, unsigned number,
                             random_rule *rule);

typedef struct {
  ts_arena *arena;
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_diagnostics *problems;
  char folder[256];
  draws luck;
  random_source source;
  random_rule *rules; /* in the order of the packs' */
  size_t rule_count;
  ts_dossier *variant;
  ts_evaluator *evaluator;
} random_lab;

/* `rule_count` is a multiple of 25: rules are written that many to a file. */
void random_lab_open(random_lab *l, uint64_t seed, size_t rule_count, random_write write);
void random_lab_close(random_lab *l);

/* Draws a state of knowledge for each fact that the rule reads, and puts it. */
void random_lab_box(random_lab *l, size_t rule);
/* Puts a point of that box. */
void random_lab_point(random_lab *l, size_t rule, draw_where where);

#endif
