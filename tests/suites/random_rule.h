/* Rules written by lot over the whole vocabulary, as text, and the world they are asked of. */
#ifndef TS_TESTS_RANDOM_RULE_H
#define TS_TESTS_RANDOM_RULE_H

#include "base/text.h"
#include "draw.h"

enum { RANDOM_SLOTS = 4 };

/* One thing a rule can read. */
typedef struct {
  const char *text; /* "i.person.mass"; of a member of a list "o.depth" */
  const ts_fact_def *fact;
  unsigned bit; /* sets: which word */
  ts_dim dim;
  ts_range plausible;
  int list;                     /* index of the list "o" goes through, or -1 */
  uint32_t slots[RANDOM_SLOTS]; /* one, or one for each member */
  size_t slot_count;
} random_fact;

/* What rules are written from. The world has one immersion in question, in a task with others,
 * with posts, things worn and dives logged; nothing in it is known. */
typedef struct {
  ts_arena *arena;
  const ts_units *units;
  const ts_vocabulary *vocabulary;
  ts_dossier *world;
  ts_subject subject;
  random_fact *facts;
  size_t count, capacity;
} random_source;

void random_source_open(random_source *source, const ts_vocabulary *vocabulary,
                        const ts_units *units);
void random_source_close(random_source *source);

/* A rule as written, what it can read, and where it turns. */
typedef struct {
  char *text; /* in the source's arena */
  box reads;  /* written facts only: those that derived ones are made of, too */
  anchors turns;
} random_rule;

/* Writes rule "random.r0042" for the number 42. */
void random_rule_write(random_source *source, draws *luck, unsigned number, random_rule *rule);
/* The same, but of a few amounts only, whose questions hang together: see linked_rule.c. */
void linked_rule_write(random_source *source, draws *luck, unsigned number, random_rule *rule);
void random_rule_free(random_rule *rule);

#endif
