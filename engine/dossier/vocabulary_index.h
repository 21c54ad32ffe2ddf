/* The vocabulary with its texts read: what the reader, the writers and the
 * fields need to know of each fact, worked out once.
 *
 * Stage-internal: used by engine/dossier only. No fact may be added while a
 * dossier made with the vocabulary is alive. */
#ifndef TS_DOSSIER_VOCABULARY_INDEX_H
#define TS_DOSSIER_VOCABULARY_INDEX_H

#include "base/arena.h"
#include "dossier/names.h"
#include "dossier/subjects.h"

enum { TS_CHOICES_MAX = 64 }; /* as many as a ts_value has bits */

typedef struct {
  const ts_fact_def *def;
  const char *field;    /* name as in Lua: underscores */
  ts_dim dim;           /* of numbers, dates and clocks; else TS_NUMBER */
  ts_range plausible;   /* SI units; [0, 0] where no number */
  const char **choices; /* the words of def->choices */
  size_t choice_count;
  int derivation; /* which row of derive.c makes it; -1: none */
  uint32_t reference; /* which of its entity's references it is; TS_ABSENT: none */
  ts_value unknown;   /* the value while nothing is known of it */
  bool added; /* by a pack: written as <fact name="" value=""/> */
} ts_known_fact;

typedef struct {
  const ts_entity_def *def;
  uint32_t *facts; /* indices of known facts, in order */
  size_t count, capacity;
  uint32_t references; /* how many of them refer to subjects */
  ts_names names; /* fact name -> position in `facts` */
} ts_known_entity;

struct ts_vocabulary {
  ts_arena *arena;
  ts_units *units;
  const ts_fact_def *builtin;
  size_t builtin_count;
  ts_known_fact *facts;
  size_t fact_count, fact_capacity;
  ts_known_entity *entities;
  size_t entity_count;
  ts_names entity_names; /* element name -> index in `entities` */
};

/* The row of derive.c that makes a fact, or -1. */
int ts_derivation_of(const ts_fact_def *fact);

/* What is known of a fact of this vocabulary. Holds until the next ts_vocabulary_add. */
const ts_known_fact *ts_known(const ts_vocabulary *vocabulary, const ts_fact_def *fact);

/* The index of an entity; `entity` must be of this vocabulary. */
size_t ts_entity_index(const ts_vocabulary *vocabulary, const ts_entity_def *entity);

/* The known fact at a position of an entity. */
const ts_known_fact *ts_known_at(const ts_vocabulary *vocabulary, size_t entity, size_t position);

/* Position of a fact by its name as written, or TS_ABSENT. */
uint32_t ts_fact_position(const ts_vocabulary *vocabulary, size_t entity, const char *name);

/* True for what is true of a subject rather than what the subject is. */
bool ts_is_fact(ts_fact_type type);

/* True for facts that are a range of numbers: quantity, count, date, clock (and a TS_DAY). */
bool ts_is_number(ts_fact_type type);

/* The bits of all choices. */
uint64_t ts_all_choices(const ts_known_fact *fact);

/* The bit number of a word among the choices, or TS_ABSENT. */
uint32_t ts_choice_find(const ts_known_fact *fact, const char *word);

/* Checks one fact: its name, its choices, its plausible range and units. Reports at file:line. */
bool ts_vocabulary_check_fact(const ts_vocabulary *vocabulary, const ts_known_fact *fact,
                              ts_diagnostics *problems, const char *file, int line);

/* Checks the built-in tables: names unique and usable in Lua, parents and
 * references known, plausible ranges readable, not inverted, of the dimension
 * of their units. Reports against file "vocabulary"; true when all is well. */
bool ts_vocabulary_check(const ts_vocabulary *vocabulary, ts_diagnostics *problems);

#endif
