/* The dossier in memory.
 *
 * A dossier is built in steps, each in its own file:
 *
 *   reader.c    files and elements  -> subjects with values, in document order
 *   link.c      texts of references -> subjects; person-days; lists; `links`
 *   days.c      each person's days by date
 *   derive.c    facts worked out from other facts
 *   crosscheck.c the dossier against itself
 *
 * Subjects and slots only ever grow at the end, so numbers once given hold.
 * Everything but the growing arrays lives in the arena. Stage-internal. */
#ifndef TS_DOSSIER_WORLD_H
#define TS_DOSSIER_WORLD_H

#include "base/pool.h"
#include "base/text.h"
#include "dossier/plan.h"
#include "dossier/subjects.h"
#include "dossier/vocabulary_index.h"

typedef struct {
  ts_subject *at;
  uint32_t count, capacity; /* grows in the arena */
} ts_list;

typedef struct {
  ts_subject_info info;
  uint32_t entity;   /* index in the vocabulary */
  uint32_t file;     /* index in `sources` */
  bool removed;      /* an example emptied the list it was in */
  ts_list *targets;  /* by reference number of the entity: whom it refers to */
  ts_subject *links; /* by link number of the entity's plan */
  ts_list *lists;    /* by list number of the entity's plan */
} ts_subject_entry;

typedef struct {
  const char *path; /* as messages show it */
  const char *name; /* relative to the dossier's folder */
  const char *bytes;  /* NULL where it is too long to be kept: only its digest is */
  const char *digest; /* then */
  size_t length;
} ts_source;

enum { TS_SOURCE_KEPT = 1 << 20 }; /* bytes of the longest text that is kept */

/* Whether a text is the same as that source was when it was read. */
bool ts_source_is(const ts_source *source, const char *bytes, size_t length);

/* Controls as they are written, by where they stand and by whom they cover: reach.c. */
typedef struct {
  uint32_t *at, *at_from;     /* by scope; one more at the end */
  uint32_t *over, *over_from; /* by subject; one more at the end */
  uint64_t *letters;          /* by subject: the bits of how the names of those over it begin */
  size_t written;             /* how many there are; a variant may apply more */
} ts_reach;

/* A day of a person, and how many days the row has that ends with it. */
typedef struct {
  double date;
  ts_subject person_day;
  uint32_t row;
} ts_dated;

typedef struct {
  ts_dated *at;   /* grouped by person, in the order of dates */
  uint32_t *from; /* by subject: where a person's begin; one more at the end */
} ts_days;

/* What a variant has over the values of its dossier: variant.c. */
typedef struct ts_overlay ts_overlay;

struct ts_dossier {
  const ts_dossier *of; /* a variant: what it shares all but values and controls with */
  ts_overlay *overlay;  /* a variant: the values that are its own; else NULL */
  const uint32_t *laid; /* a variant: by slot, whether one of those may be there; else NULL */
  ts_arena *arena;
  ts_pool *pool; /* of values and texts, while it is read; NULL: what is put is kept by itself */
  const ts_vocabulary *vocabulary;
  const ts_units *units;
  ts_system system;

  ts_subject_entry *subjects;
  size_t subject_count, subject_capacity;
  ts_names paths;       /* path -> subject */
  ts_names numbers;     /* stem of numbered paths -> the next number to try */
  ts_names person_days; /* "p1@2027-03-09" -> subject, by what it refers to now */
  ts_days days;

  const ts_value **values; /* by slot; equal ones are mostly one */
  bool shares_values;      /* a variant: they are those of its dossier */
  int *lines;              /* by slot */
  ts_subject *owners;      /* by slot */
  size_t slot_count, slot_capacity;

  ts_plan *plans; /* by entity */

  ts_source *sources;
  size_t source_count, source_capacity;
  ts_evidence *evidence;
  uint32_t *evidence_file;
  size_t evidence_count, evidence_capacity;
  ts_applied_control *controls;
  size_t control_count, control_capacity;
  ts_applied_control *tried; /* a variant: applied besides */
  size_t tried_count, tried_capacity;
  ts_reach reach;
  ts_waiver *waivers;
  size_t waiver_count, waiver_capacity;
};

/* What is to be read instead of a file, by its name relative to the dossier's folder. */
typedef struct {
  const char *name, *text;
  size_t length;
} ts_given_text;

/* As ts_dossier_read, with some files' texts as they would become: reader.c. */
ts_dossier *ts_dossier_read_given(const char *path, const ts_given_text *given, size_t count,
                                  const ts_vocabulary *vocabulary, const ts_units *units,
                                  ts_diagnostics *problems);

ts_dossier *ts_world_new(const ts_vocabulary *vocabulary, const ts_units *units);

/* Adds a subject with all its facts unknown. `path` must not be taken. Returns its number. */
ts_subject ts_world_add(ts_dossier *dossier, uint32_t entity, const char *path, ts_subject parent,
                        uint32_t file, int line);

/* Adds the single parts of a subject that are not there yet, and theirs. */
void ts_world_complete(ts_dossier *dossier, ts_subject subject);

/* The path of a single part: "tank-2/water". */
const char *ts_world_part_path(ts_dossier *dossier, ts_subject subject, const char *entity);

/* The slot of a fact by its written name, or TS_ABSENT. */
uint32_t ts_world_slot(const ts_dossier *dossier, ts_subject subject, const char *name);

/* The known fact in a slot. */
const ts_known_fact *ts_world_known(const ts_dossier *dossier, uint32_t slot);

/* The value in a slot. Of a variant as it stands, were it stale. */
const ts_value *ts_world_value(const ts_dossier *dossier, uint32_t slot);

/* Puts a value, or its text alone, into a slot of a dossier with values of its own. */
void ts_world_put(ts_dossier *dossier, uint32_t slot, const ts_value *value);
void ts_world_put_text(ts_dossier *dossier, uint32_t slot, const char *text);

/* What a reference refers to, or NULL where the slot is of no reference. */
ts_list *ts_world_targets(const ts_dossier *dossier, uint32_t slot);

/* Gives back what only reading a dossier needs. */
void ts_world_settle(ts_dossier *dossier);

/* Text of a structure or text fact as written, or NULL. */
const char *ts_world_text(const ts_dossier *dossier, ts_subject subject, const char *name);

/* The subject a reference by that name leads to, or TS_NO_SUBJECT. */
ts_subject ts_world_target(const ts_dossier *dossier, ts_subject subject, const char *name);

/* The subject itself, or the nearest above it, of the named entity; TS_NO_SUBJECT where none is. */
ts_subject ts_world_above(const ts_dossier *dossier, ts_subject subject, const char *entity);

/* True when the subject is of the named entity. */
bool ts_world_is(const ts_dossier *dossier, ts_subject subject, const char *entity);

/* The name of a subject's file as messages show it. */
const char *ts_world_file(const ts_dossier *dossier, ts_subject subject);

/* What a path names: a subject (*slot is TS_ABSENT) or a fact of one. False when neither is there.
 */
bool ts_world_path(const ts_dossier *dossier, const char *path, ts_subject *subject,
                   uint32_t *slot);

/* Reports that a path leads nowhere, with the nearest one. `what` says whose path it is. */
void ts_world_no_path(const ts_dossier *dossier, const char *what, const char *path,
                      ts_diagnostics *problems, const char *file, int line);

void ts_list_add(ts_arena *arena, ts_list *list, ts_subject subject);

/* Finds the subjects that references name. Reports those that lead nowhere;
 * `doubt` is added to the message ("" or why the target may only seem to be missing). */
bool ts_world_resolve(ts_dossier *dossier, const char *doubt, ts_diagnostics *problems);

/* Works out links and lists from the reference targets: link.c. May be called again after a change.
 */
void ts_world_link(ts_dossier *dossier);

/* Makes a person-day for every person and date with an immersion or a record. */
void ts_world_person_days(ts_dossier *dossier);

/* Puts each person's days in the order of dates; part of linking. Which are on days from the first to
 * the last date, in that order; how many days the row has that ends on a date of the person: days.c.
 */
void ts_world_days(ts_dossier *dossier);
const ts_dated *ts_days_between(const ts_dossier *dossier, ts_subject person, double first,
                                double last, size_t *count);
size_t ts_days_in_row(const ts_dossier *dossier, ts_subject person, double date);

/* Works out every derived fact's value: derive.c; or what one is, on a graph that is marked. */
void ts_world_derive(ts_dossier *dossier);
ts_value ts_world_derived(const ts_dossier *dossier, ts_graph *graph, uint32_t slot);

/* A figure about the dossier's papers as they are written, by the name of its fact, in SI: papers.c.
 * A variant's are those of the dossier it was made from. */
double ts_papers_figure(const ts_dossier *dossier, const char *fact);

/* Works out who is covered by the controls of a dossier that is read: reach.c. */
void ts_world_reach(ts_dossier *dossier);

/* The value of a variant in a slot where it may have its own; `fresh`: worked out where it is stale:
 * variant.c. */
const ts_value *ts_variant_value(const ts_dossier *variant, uint32_t slot, bool fresh);

/* Frees what a variant has of its own: variant.c. */
void ts_variant_free(ts_dossier *variant);

/* The dossier against itself: crosscheck.c. */
void ts_world_crosscheck(const ts_dossier *dossier, ts_diagnostics *problems);

#endif
