/* Inside view of a dossier, for the stages that evaluate and write it.
 *
 * Every fact of every subject has a slot: a number from 0 that identifies it
 * in graphs, decisions and the assessment. Slots of one subject follow each
 * other in the order of the vocabulary: slot = info->slot + position, for
 * structure and text too, so check the type. Those are never unknown.
 */
#ifndef TS_DOSSIER_SUBJECTS_H
#define TS_DOSSIER_SUBJECTS_H

#include "base/arena.h"
#include "base/text.h"
#include "science/graph.h"
#include "tankside/dossier.h"

typedef enum {
  TS_STATED,  /* written, as a value or a range */
  TS_UNKNOWN, /* "?" or not written: assumed to be anything plausible */
  TS_SET_BY_USER /* replaced with --set */
} ts_state;

/* The value in one slot.
 * Numbers (quantity, count, date, clock): `range`, dim of the definition.
 * Flags: choices bit 0 = may be no, bit 1 = may be yes.
 * Choices: bit n = may be the n-th choice.
 * Sets: bit n of `choices` = may contain the n-th; bit n of `certain` = does contain it. */
typedef struct {
  ts_range range;
  uint64_t choices, certain;
  ts_state state;
  const char *text; /* as written, or NULL */
} ts_value;

typedef struct {
  const ts_entity_def *entity;
  const char *path;   /* "d1t3/p1", "tank-2/water", "p1@2027-03-09"; unique */
  const char *label;  /* for people: a title or name where there is one, else the path */
  const char *file;
  int line;
  ts_subject parent;  /* TS_NO_SUBJECT at the top */
  uint32_t slot;      /* of its first fact */
} ts_subject_info;

ts_subject ts_subject_count(const ts_dossier *dossier);
const ts_subject_info *ts_subject_at(const ts_dossier *dossier, ts_subject subject);
ts_subject ts_subject_find(const ts_dossier *dossier, const char *path);

uint32_t ts_slot_count(const ts_dossier *dossier);
/* Of a variant it holds until the next put. */
const ts_value *ts_slot_value(const ts_dossier *dossier, uint32_t slot);
/* Where it is written, else the line of its subject's element. */
int ts_slot_line(const ts_dossier *dossier, uint32_t slot);
const ts_fact_def *ts_slot_fact(const ts_dossier *dossier, uint32_t slot);
ts_subject ts_slot_subject(const ts_dossier *dossier, uint32_t slot);
ts_dim ts_fact_dim(const ts_vocabulary *vocabulary, const ts_fact_def *fact);
ts_range ts_fact_plausible(const ts_vocabulary *vocabulary, const ts_fact_def *fact);
/* The slot of a fact on a subject of its entity. */
uint32_t ts_fact_slot(const ts_dossier *dossier, ts_subject subject, const ts_fact_def *fact);
/* "d1t3/p1/breath-hold" into `out`. */
char *ts_slot_path(const ts_dossier *dossier, uint32_t slot, char *out, size_t size);

/* What a name means on a subject, for the rules' field access. `name` is as
 * in Lua (underscores). Looks in this order: a fact, a membership of a set
 * (`covers_hands`), a reference, a part or parent or anything reached from a
 * parent (`i.site`, `i.day`, `i.production`), a list (`task.immersions`).
 *
 * A TS_DAY and a TS_KIND_WORD read as facts that are always settled; ids and
 * words for people are TEXT, with their slot. Lists are what a TS_REFS names
 * (`i.wears`), every subject that stands below under its plural
 * (`day.immersions`, `production.people`), every subject that refers to this
 * one (`person.records`, `rig.tasks`), and for a person-day those of that person
 * on that date (`pd.immersions`). Members stand in the order of the dossier. */
typedef enum { TS_FIELD_NONE, TS_FIELD_FACT, TS_FIELD_MEMBER, TS_FIELD_SUBJECT, TS_FIELD_LIST, TS_FIELD_TEXT } ts_field_kind;

typedef struct {
  ts_field_kind kind;
  uint32_t slot;            /* FACT, MEMBER */
  unsigned bit;             /* MEMBER: which choice */
  ts_subject subject;       /* SUBJECT; TS_NO_SUBJECT when the reference is "none" */
  const ts_subject *list;   /* LIST, owned by the dossier */
  size_t count;
  uint32_t index;           /* SUBJECT, LIST: the same for every subject of the entity */
} ts_field;

ts_field ts_subject_field(const ts_dossier *dossier, ts_subject subject, const char *name);
/* The field of that kind and index: as the one named, for who has asked by name before. */
ts_subject ts_subject_link(const ts_dossier *dossier, ts_subject subject, uint32_t index);
const ts_subject *ts_subject_list(const ts_dossier *dossier, ts_subject subject, uint32_t index, size_t *count);

/* The names of all fields of this subject, in that order; gives how many there are and writes
 * at most `most`. */
size_t ts_subject_field_names(const ts_dossier *dossier, ts_subject subject, const char **names,
                              size_t most);

/* The field name nearest to `name` on this subject, or NULL when none is near. */
const char *ts_subject_nearest(const ts_dossier *dossier, ts_subject subject, const char *name);

/* How a derived fact is computed: builds nodes from other facts' nodes, got
 * through `read` so that a caller can overlay changed values. */
typedef struct ts_fact_reader {
  const ts_dossier *dossier;
  ts_graph *graph;
  ts_node_id (*read)(struct ts_fact_reader *self, uint32_t slot);
  /* Told of a written fact whose value only says which others are read (which dive came first);
   * may be NULL. */
  void (*looked)(struct ts_fact_reader *self, uint32_t slot);
} ts_fact_reader;
ts_node_id ts_derive(ts_fact_reader *reader, uint32_t slot);

/* Whether this slot, or for a derived one anything it is made of, is not known. */
bool ts_slot_assumed(const ts_dossier *dossier, uint32_t slot);

/* Reads the text of one fact as the dossier's reader would, with its reports at file:line.
 * `text` is kept by *value; on failure *value is left alone. */
bool ts_fact_read(const ts_vocabulary *vocabulary, const ts_units *units, ts_arena *arena,
                  const ts_fact_def *fact, const char *text, ts_value *value,
                  ts_diagnostics *problems, const char *file, int line);

/* What may be written for a fact, how it is found out and who knows, in one line. */
void ts_fact_explain(const ts_fact_def *def, ts_text *line);

/* The subject that `field` leads to ("task", "day", "site"), itself where it is of that
 * entity, or TS_NO_SUBJECT. */
ts_subject ts_leads_to(const ts_dossier *dossier, ts_subject subject, const char *field);

/* Values as a reader sees them, in the dossier's units: a number of a fact, how far two such
 * numbers are apart (1.5 K, 20 min), and whatever a fact may hold. */
const char *ts_show_number(const ts_dossier *dossier, const ts_fact_def *fact, ts_range range,
                           ts_arena *arena);
const char *ts_show_difference(const ts_dossier *dossier, const ts_fact_def *fact, double si,
                               ts_arena *arena);
const char *ts_show_value(const ts_dossier *dossier, const ts_fact_def *fact,
                          const ts_value *value, ts_arena *arena);

/* What a value of the fact may look like, for whoever is asked for it. */
const char *ts_show_form(const ts_dossier *dossier, const ts_fact_def *fact, ts_arena *arena);

/* Evidence, applied controls and waivers, as written. */
typedef struct {
  const char *target; /* path of a fact or subject */
  const char *kind, *by, *on, *ref;
  int line;
} ts_evidence;

typedef struct {
  const char *control;  /* id in the catalogue */
  ts_subject scope;     /* where it stands: applies to this subject and all below */
  bool in_place;        /* stated in-place with who and when; else planned */
  bool claimed;         /* stated in-place, with who and when or without */
  const char *to;       /* the value it reaches, or NULL for the catalogue's */
  const char *by, *on, *evidence;
  const char *file;
  int line;
} ts_applied_control;

typedef struct {
  const char *rule;
  const char *subject;  /* path, or NULL for every subject */
  const char *by, *until, *because;
  bool valid;           /* complete, and not over before the last day of the schedule */
  const char *file;
  int line;
} ts_waiver;

size_t ts_evidence_count(const ts_dossier *dossier);
const ts_evidence *ts_evidence_at(const ts_dossier *dossier, size_t index);
size_t ts_applied_count(const ts_dossier *dossier);
const ts_applied_control *ts_applied_at(const ts_dossier *dossier, size_t index);

/* True when a control that stands at `scope` covers `subject`: it is the subject itself or
 * something it is in, of, or part of: its parents, its task, person, day and site, and always
 * the production. */
bool ts_covers(const ts_dossier *dossier, ts_subject scope, ts_subject subject);
/* Every such scope, each once, the production first; returns how many. */
enum { TS_SCOPES_MAX = 64 };
size_t ts_scopes_over(const ts_dossier *dossier, ts_subject subject, ts_subject *scopes);
/* The controls that the dossier applies, as it is written, over a subject; those that stand at
 * one; how many there are. By index, ascending. */
const uint32_t *ts_applied_over(const ts_dossier *dossier, ts_subject subject, size_t *count);
const uint32_t *ts_applied_standing(const ts_dossier *dossier, ts_subject scope, size_t *count);
size_t ts_applied_written(const ts_dossier *dossier);
/* False where none of those over the subject is of that name; true says nothing. */
bool ts_may_be_over(const ts_dossier *dossier, ts_subject subject, const char *control);

size_t ts_waiver_count(const ts_dossier *dossier);
const ts_waiver *ts_waiver_at(const ts_dossier *dossier, size_t index);

/* Files read, in order, with the SHA-256 of each, for the record of inputs. */
size_t ts_source_count(const ts_dossier *dossier);
const char *ts_source_name(const ts_dossier *dossier, size_t index);   /* relative to the dossier's folder */
char *ts_source_digest(const ts_dossier *dossier, size_t index, char digest[65]);
ts_system ts_dossier_units(const ts_dossier *dossier);
const ts_vocabulary *ts_dossier_vocabulary(const ts_dossier *dossier);

/* ---- one dossier against another ------------------------------------------ */

/* Whether two dossiers of one vocabulary differ in the values of facts alone: the same subjects,
 * called the same, referring to the same; the same controls in the same places. */
bool ts_dossiers_alike(const ts_dossier *was, const ts_dossier *is);

/* Of two such: by slot, whether what a rule reads there may not be what it was. Of a derived fact
 * too where anything differs that it is made of. In the arena. */
bool *ts_slots_changed(const ts_dossier *was, const ts_dossier *is, ts_arena *arena);

/* ---- a dossier to try things on ------------------------------------------ */

/* A copy with values and applied controls of its own; everything else is shared with the
 * dossier it is made from, which must outlive it. What is true of the dossier with that
 * value written in it is true of the variant. Free with ts_dossier_free. */
ts_dossier *ts_dossier_variant(const ts_dossier *dossier);

/* The same of a dossier whose values stay as they are while it lives: they are not copied. `like`
 * is another variant of it, whose table of what is made of what is shared and which must outlive
 * this one; or NULL. */
ts_dossier *ts_dossier_variant_over(const ts_dossier *dossier, const ts_dossier *like);

/* Puts a value in the slot of a written fact; what is made of it is worked out again when asked for.
 * Putting back what was there before undoes it. */
void ts_variant_put(ts_dossier *variant, uint32_t slot, ts_value value);

/* Works out all there is to work out, so that several threads may read the dossier. */
void ts_variant_settle(const ts_dossier *dossier);

/* Applies one more control, whose texts must outlive it; and goes back to the first `count`. */
void ts_variant_apply(ts_dossier *variant, const ts_applied_control *applied);
void ts_variant_keep(ts_dossier *variant, size_t count);

/* ---- a world made by hand, for a rule's examples ------------------------ */

/* A dossier in which every entity exists once, all facts unknown, linked as
 * a production would be: the immersion is in the task, wears the appliance, breathes from the supply ...
 * `each` is the entity the example is about; *subject receives that one. */
ts_dossier *ts_dossier_example(const ts_vocabulary *vocabulary, const ts_units *units,
                               const char *each, ts_subject *subject);
/* Sets one fact by the path a rule would read from `subject`:
 * "breath_hold", "person.mass", "site.water.temperature". A list index picks
 * a member and adds it when it is the next: "appliances.2.covers". A list set
 * to "none" is emptied; a reference set to "none" is cut. A derived fact may be
 * given as well and then stands by itself. False, with a report at
 * file:line, when the path or value is not right. */
bool ts_dossier_given(ts_dossier *dossier, ts_subject subject, const char *path, const char *value,
                      ts_diagnostics *problems, const char *file, int line);

#endif
