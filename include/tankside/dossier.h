/* The dossier: one production's facts, read from XML and checked.
 *
 * A dossier is a tree of subjects (a production, sites, people, days, tasks,
 * immersions ...), each with the facts that the vocabulary lists for its
 * entity. Facts may be ranges, and any fact that is missing or `?` is not
 * known: it then has its whole plausible range or all its choices.
 *
 * What a subject *is* (its id, whom it refers to, its date) is structure and
 * is always stated; what is *true of it* (depths, times, temperatures) are
 * facts and may be unknown. Deleting a fact therefore never makes an
 * assessment milder, and deleting structure is an error.
 */
#ifndef TANKSIDE_DOSSIER_H
#define TANKSIDE_DOSSIER_H

#include "tankside/diagnostics.h"
#include "tankside/quantity.h"

/* ---- the vocabulary ---------------------------------------------------- */

typedef enum {
  TS_ID,       /* structure: the subject's own name */
  TS_REF,      /* structure: one subject's id, or "none" where `optional` */
  TS_REFS,     /* structure: several ids, or "none" */
  TS_DAY,      /* structure: a date, exact */
  TS_KIND_WORD,/* structure: one of the choices, exact (a post's role) */
  TS_TEXT,     /* words for people; rules cannot read them */
  TS_QUANTITY, /* fact: a number with a unit */
  TS_COUNT,    /* fact: a whole number, or a range of whole numbers */
  TS_FLAG,     /* fact: yes or no */
  TS_CHOICE,   /* fact: one of the choices */
  TS_SET,      /* fact: any of the choices, or "none"; rules read one flag a choice */
  TS_DATE,     /* fact: a date */
  TS_CLOCK     /* fact: a time of day, hours up to 47 */
} ts_fact_type;

typedef enum { TS_OPEN_TO_ALL, TS_CREW_ONLY, TS_CONFIDENTIAL } ts_sees;

typedef struct {
  const char *entity;   /* "water" */
  const char *name;     /* "free-chlorine"; in Lua `free_chlorine` */
  ts_fact_type type;
  const char *unit;     /* preferred unit, metric; "" for plain numbers; NULL where none applies */
  const char *unit_us;  /* preferred unit for units="us", or NULL for the same */
  const char *low;      /* plausible range, as text with its unit ("0 mg/L"), dates and clocks too */
  const char *high;
  const char *choices;  /* words separated by spaces; for TS_REF(S): the entity referred to */
  const char *meaning;  /* one line */
  const char *measured; /* how it is found out */
  const char *asked;    /* who usually knows: a role in trade terms */
  ts_sees sees;
  bool derived;         /* computed from other facts, never written in a dossier */
  bool optional;        /* structure and text only: may be left out */
} ts_fact_def;

/* Whether a fact is as it is (weather, a body, the past): to be found out, but not to be moved
 * so that a score comes down. */
bool ts_fact_is_given(const ts_fact_def *fact);

typedef struct {
  const char *name;     /* element name: "immersion" */
  const char *plural;   /* list name in Lua: "immersions" */
  const char *parent;   /* element it stands in; "dossier" at the top; NULL: made by the reader (person-day) */
  bool single;          /* one per parent at most; when not written, all its facts are unknown */
  const char *meaning;
} ts_entity_def;

typedef struct ts_vocabulary ts_vocabulary;

/* The built-in vocabulary, to which a pack may add facts. Free with ts_vocabulary_free. */
ts_vocabulary *ts_vocabulary_new(void);
void ts_vocabulary_free(ts_vocabulary *vocabulary);

size_t ts_entity_count(const ts_vocabulary *vocabulary);
const ts_entity_def *ts_entity_at(const ts_vocabulary *vocabulary, size_t index);
const ts_entity_def *ts_entity_find(const ts_vocabulary *vocabulary, const char *name);

/* The facts of one entity, in the order of the reference page. */
size_t ts_fact_count(const ts_vocabulary *vocabulary, const ts_entity_def *entity);
const ts_fact_def *ts_fact_at(const ts_vocabulary *vocabulary, const ts_entity_def *entity, size_t index);

/* Adds a site's own fact; texts are copied. Returns false, with a report, when the
 * entity is unknown, the name is taken or the plausible range does not read. */
bool ts_vocabulary_add(ts_vocabulary *vocabulary, const ts_units *units,
                       const ts_fact_def *fact, ts_diagnostics *problems,
                       const char *file, int line);

/* Writes what is generated from the vocabulary. */
bool ts_vocabulary_write_schema(const ts_vocabulary *vocabulary, FILE *out);    /* RELAX NG, XML syntax */
bool ts_vocabulary_write_manual(const ts_vocabulary *vocabulary, FILE *out);    /* a part of a manual page, troff */
bool ts_vocabulary_write_reference(const ts_vocabulary *vocabulary, FILE *out); /* plain text, 80 columns */

/* ---- the dossier ------------------------------------------------------- */

typedef struct ts_dossier ts_dossier;
typedef uint32_t ts_subject; /* index; 0 is the production */
#define TS_NO_SUBJECT UINT32_MAX

/* Reads and checks a dossier and all its includes. Reports every problem it
 * finds; returns NULL when any of them is an error. The vocabulary and units
 * must outlive the dossier. Free with ts_dossier_free. */
ts_dossier *ts_dossier_read(const char *path, const ts_vocabulary *vocabulary,
                            const ts_units *units, ts_diagnostics *problems);
void ts_dossier_free(ts_dossier *dossier);

/* The same from a text that stands nowhere yet; `path` is where it would, for messages and includes. */
ts_dossier *ts_dossier_read_text(const char *text, size_t length, const char *path,
                                 const ts_vocabulary *vocabulary, const ts_units *units,
                                 ts_diagnostics *problems);

/* Replaces one fact before assessing: path is "d1t3/p1/breath-hold". False, with
 * a report against `file` "--set", when the path or the value is not right. */
bool ts_dossier_set(ts_dossier *dossier, const char *path, const char *value,
                    ts_diagnostics *problems);

/* The same, with reports against the place where it was asked for. */
bool ts_dossier_set_from(ts_dossier *dossier, const char *path, const char *value,
                         ts_diagnostics *problems, const char *file, int line);

#endif
