/* The demo productions with every rule that comes with the program, for tests that draw values of
 * what is not known in them. */
#ifndef TS_TESTS_SHIPPED_WORLD_H
#define TS_TESTS_SHIPPED_WORLD_H

#include "assess_world.h"
#include "draw.h"
#include "heard.h"

/* A rule and a subject that it is asked of. */
typedef struct {
  size_t rule;
  ts_subject subject;
  const heard *wide; /* what is said of it with what is known */
} shipped_pair;

typedef struct {
  assess_world w;
  ts_dossier *known; /* what is evaluated: the dossier, less what was forgotten */
  box open;          /* every written fact that is not exactly known */
  anchors turns;     /* every constant that stands in a rule */
  shipped_pair *pairs;
  size_t pair_count, pair_capacity;
  ts_dossier *variant;
  ts_evaluator *whole, *drawn; /* over what is known, over the variant */
  heard said;                  /* of the last evaluation */
} shipped_world;

enum { SHIPPED_PRODUCTIONS = 3 };

/* Of every hundred facts that are stated, `forget` are made less known: the productions as written
 * leave little open. */
void shipped_world_open(shipped_world *s, int production, unsigned forget);
void shipped_world_close(shipped_world *s);

/* Evaluates the pair into `said`. NULL where the rule divides by a fact that is zero: it then says
 * nothing, which is reported. Fails the test when the evaluation fails otherwise. */
const ts_evaluation *shipped_world_hear(shipped_world *s, ts_evaluator *evaluator,
                                        const shipped_pair *pair);

/* The pair, what it reads as written and as drawn, and what was heard: for messages. */
const char *shipped_world_story(shipped_world *s, const shipped_pair *pair);

#endif
