/* Writing assessment.xml: one file for each part of the document.
 *
 * Everything a sheet says is in here, in words ready to print; templates/
 * only lay it out. Stage-internal; the public door is ts_assessment_write. */
#ifndef TS_DOCUMENT_ASSESSMENT_H
#define TS_DOCUMENT_ASSESSMENT_H

#include "assess/assessment.h"
#include "base/xml.h"

/* Of what lists only some is written, by number: subjects, facts (slots), findings, duties, facts to
 * ask for (slots). All of what is NULL. Of findings then no more than how they stand, and which of
 * those facts they read. */
typedef struct {
  const bool *subjects, *facts, *findings, *duties, *asked;
} ts_paper_some;

typedef struct {
  const ts_assessment *a;
  ts_paper_some only;
  const ts_dossier *dossier;
  const ts_packs *packs;
  const ts_vocabulary *vocabulary;
  ts_arena *arena;              /* texts made while writing */
  const ts_evidence **evidence; /* ordered by target */
  uint32_t *seen, crowds;       /* by subject: the last crowd a person was counted in */
  ts_xml_out out;
} ts_paper;

/* ---- parts, in the order of the document ---------------------------------- */

void ts_paper_inputs(ts_paper *paper);
void ts_paper_matrix(ts_paper *paper);
void ts_paper_production(ts_paper *paper);
void ts_paper_people(ts_paper *paper);
void ts_paper_subjects(ts_paper *paper);
void ts_paper_schedule(ts_paper *paper);
void ts_paper_rescue(ts_paper *paper);
void ts_paper_findings(ts_paper *paper);
void ts_paper_duties(ts_paper *paper);
void ts_paper_elsewhere(ts_paper *paper); /* what the ways down do to other findings */
void ts_paper_looked_at(ts_paper *paper);
void ts_paper_controls(ts_paper *paper);
void ts_paper_open_facts(ts_paper *paper);
void ts_paper_remedies(ts_paper *paper);
void ts_paper_waivers(ts_paper *paper);
void ts_paper_amendments(ts_paper *paper);
void ts_paper_history(ts_paper *paper);
void ts_paper_reliance(ts_paper *paper);
void ts_paper_failures(ts_paper *paper);
void ts_paper_charts(ts_paper *paper);

/* Writes so many children of the open element, each by its number, or `only` some of them; several
 * workers do when there are many. */
typedef void ts_paper_child(ts_paper *paper, size_t number);
void ts_paper_each(ts_paper *paper, size_t count, const bool *only, ts_paper_child *child);

/* What two assessments are compared by (document/compare.h), of all or some of it; where it is of
 * some facts, without the inputs and controls, which are then the same. Malloc'd. */
void ts_assessment_write_some(const ts_assessment *assessment, ts_paper_some only, char **bytes,
                              size_t *length);

/* Inside a finding or duty: when it stands so, its margins and the ways down. */
void ts_paper_would_change(ts_paper *paper, const ts_finding *finding);
/* <control ref title kind/>, as the ways and remedies name it. */
void ts_paper_control_named(ts_paper *paper, const ts_control *control);

/* All evidence, ordered by what it is for, as written within that. */
const ts_evidence **ts_paper_evidence(ts_paper *paper);
/* Where among it what is for the path begins, and ends. */
size_t ts_paper_evidence_for(const ts_paper *paper, const char *path, size_t *end);

/* ---- words ------------------------------------------------------------------ */

/* "breath-hold" and "breath_hold" to "breath hold". */
const char *ts_paper_title(ts_paper *paper, const char *name);
/* A fact's value as a reader sees it; "not known" where it is. NULL for a text not written. */
const char *ts_paper_fact(ts_paper *paper, uint32_t slot);
/* What any value of a fact would read as; numbers alone; the distance between two of its numbers.
 */
const char *ts_paper_value(ts_paper *paper, const ts_fact_def *fact, const ts_value *value);
const char *ts_paper_number(ts_paper *paper, const ts_fact_def *fact, ts_range range);
const char *ts_paper_difference(ts_paper *paper, const ts_fact_def *fact, double si);
/* The whole plausible range, or all choices, of a fact. */
const char *ts_paper_plausible(ts_paper *paper, const ts_fact_def *fact);
const char *ts_paper_state(const ts_paper *paper, uint32_t slot); /* stated unknown set derived */
const char *ts_paper_sees(const ts_fact_def *fact);               /* open crew confidential */
const char *ts_paper_yes(bool yes);
const char *ts_paper_date(ts_paper *paper, double seconds); /* 2027-03-09 */
const char *ts_paper_day(ts_paper *paper, double seconds);  /* Tuesday 9 March 2027 */

/* A fact's title as seen from another subject: "breath hold", "water temperature",
 * "mass of Lamp coat". */
const char *ts_paper_title_from(ts_paper *paper, uint32_t slot, ts_subject from);
/* The same as attributes: `fact`, and `entity` or `of` where it is not of `from` itself. */
void ts_paper_fact_parts(ts_paper *paper, uint32_t slot, ts_subject from);
/* How something stands: "moderate 6", "very high" without its score, "not found", "possible
 * stop", "open". */
const char *ts_paper_stand(ts_paper *paper, ts_word word, ts_stand stand, bool score);
/* The same as attributes that begin with `prefix`: "-band" and, if asked for, "-score"; or
 * "-state". */
void ts_paper_stand_parts(ts_paper *paper, const char *prefix, ts_word word, ts_stand stand,
                          bool score);
/* The slot of a fact by its written name, or UINT32_MAX where the entity has none. */
uint32_t ts_paper_slot(const ts_paper *paper, ts_subject subject, const char *name);
/* Value of a fact by name: as ts_paper_fact, NULL where there is none or it is not known. */
const char *ts_paper_known(ts_paper *paper, ts_subject subject, const char *name);
const char *ts_paper_label(const ts_paper *paper, ts_subject subject);
/* As seen from another subject: within one task a person's name is enough. */
const char *ts_paper_label_from(const ts_paper *paper, ts_subject it, ts_subject from);
const char *ts_paper_path(const ts_paper *paper, ts_subject subject);
/* The subject a field leads to, as a path; NULL where it leads nowhere. */
const char *ts_paper_path_to(const ts_paper *paper, ts_subject subject, const char *field);

/* What a control does: "breath hold at most 10 s; likelihood −1". `to` replaces
 * the value of its first change, or is NULL. */
const char *ts_paper_changes(ts_paper *paper, const ts_control *control, const char *to);
const char *ts_paper_lowers(ts_paper *paper, int likelihood, int severity); /* NULL for 0, 0 */

/* The people a finding is about, by role and number; NULL when it is about nobody in particular. */
const char *ts_paper_who(ts_paper *paper, ts_subject subject);
/* Whether a person is under 18 on the first day of the schedule: "yes", "no", "unknown". */
const char *ts_paper_under_18(const ts_paper *paper, ts_subject person);

#endif
