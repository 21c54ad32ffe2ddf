/* What each field name means on the subjects of one entity: worked out once
 * for the entity, so that a subject's field is one look-up and one index.
 * Stage-internal. */
#ifndef TS_DOSSIER_PLAN_H
#define TS_DOSSIER_PLAN_H

#include "dossier/subjects.h"
#include "dossier/vocabulary_index.h"

/* How a subject gets from itself to another one. */
typedef enum {
  TS_HOP_REFERENCE, /* what fact `index` refers to */
  TS_HOP_PART,      /* its single part of entity `index` */
  TS_HOP_PARENT,    /* the element it stands in */
  TS_HOP_BEYOND,    /* link `index` of its parent */
  TS_HOP_ITSELF
} ts_hop_kind;

typedef struct {
  ts_hop_kind kind;
  uint32_t index;
  const char *field;
} ts_hop;

/* What a list holds. */
typedef enum {
  TS_LIST_REFERENCES, /* what fact `index` refers to */
  TS_LIST_BELOW,      /* every subject of entity `index` that stands below this one */
  TS_LIST_REFERRING,  /* every subject of entity `index` that refers to this one */
  TS_LIST_THAT_DAY    /* person-day: those of entity `index` of that person on that date */
} ts_list_kind;

typedef struct {
  ts_list_kind kind;
  uint32_t index;
  const char *field;
} ts_list_rule;

typedef struct {
  ts_field_kind kind;
  uint32_t index; /* position of the fact, number of the link or of the list */
  unsigned bit;
} ts_plan_field;

typedef struct {
  uint32_t parent; /* entity index; TS_ABSENT for the production */
  ts_names names;  /* field name -> index in `fields` */
  ts_plan_field *fields;
  size_t field_count, field_capacity;
  ts_hop *hops;
  size_t hop_count, hop_capacity;
  ts_list_rule *lists;
  size_t list_count, list_capacity;
  /* By entity of the other subject: number of the list it goes into or of the
   * link it is reached by, or TS_ABSENT. */
  uint32_t *below, *referring, *that_day, *part;
} ts_plan;

/* The plans of all entities; free with ts_plans_free. Texts go to the arena. */
ts_plan *ts_plans_new(const ts_vocabulary *vocabulary, ts_arena *arena);
void ts_plans_free(ts_plan *plans, const ts_vocabulary *vocabulary);

#endif
