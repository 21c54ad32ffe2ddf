/* Drawing by lot: a generator of its own, so that a test sees the same on every machine, and what
 * a fact may be: a state of knowledge, a narrower one, a point. */
#ifndef TS_TESTS_DRAW_H
#define TS_TESTS_DRAW_H

#include "base/arena.h"
#include "dossier/subjects.h"

typedef struct {
  uint64_t state; /* any value is a good start */
} draws;

uint64_t draw_bits(draws *luck);
size_t draw_below(draws *luck, size_t count); /* 0 .. count - 1 */
double draw_unit(draws *luck);                /* 0 <= x < 1 */
bool draw_chance(draws *luck, unsigned percent);

/* Values at which rules turn, in SI. Chance alone would never meet them. */
typedef struct {
  ts_dim dim;
  double value;
} anchor;

typedef struct {
  anchor *at;
  size_t count, capacity;
} anchors;

void anchors_add(anchors *all, ts_dim dim, double value);
void anchors_free(anchors *all);

/* One fact of a box: everything its value may be. */
typedef struct {
  uint32_t slot;
  const ts_fact_def *fact;
  ts_dim dim;
  ts_value wide;
} box_fact;

typedef struct {
  box_fact *at;
  size_t count, capacity;
} box;

/* As the dossier has it. */
void box_add(box *all, const ts_dossier *dossier, uint32_t slot);
void box_free(box *all);
/* Puts the widest of every fact into the variant. */
void box_put(const box *all, ts_dossier *variant);

/* Whether one value alone is possible. */
bool value_is_point(const ts_fact_def *fact, const ts_value *value);

/* A state of knowledge: exact, narrow about an anchor, wide or not known at all. */
ts_value draw_state(draws *luck, const ts_dossier *dossier, const box_fact *of,
                    const anchors *near);
/* A state that allows no more than `of` does, often less. */
ts_value draw_narrower(draws *luck, const box_fact *of, const anchors *near);

/* Where in a box a whole world is drawn. */
typedef enum { DRAW_LOW, DRAW_HIGH, DRAW_MIDDLE, DRAW_CORNER, DRAW_ANYWHERE } draw_where;
ts_value draw_point(draws *luck, const box_fact *of, const anchors *near, draw_where where);
/* Of the sample-th of many: the plain ones first. */
draw_where draw_where_of(size_t sample);

#endif
