/* For tests of assessing: packs and dossiers written on the spot, and assessed. */
#ifndef TS_TESTS_ASSESS_WORLD_H
#define TS_TESTS_ASSESS_WORLD_H

#include "assess/assessment.h"
#include "base/arena.h"
#include "tankside/assess.h"

typedef struct {
  char folder[256]; /* scratch; "" where none was needed */
  ts_arena *arena;
  ts_diagnostics *problems;
  ts_units *units;
  ts_vocabulary *vocabulary;
  ts_packs *packs;
  ts_dossier *dossier;
  ts_matrix *matrix;
} assess_world;

/* A pack "test" of one rule file, the default matrix, and a dossier of one site, two people, one
 * day with one task in which both are in the water. `immersion` are the attributes of p1's,
 * `inside` elements inside the task, `after` elements after the day. Fails the test when anything
 * does not read. */
void assess_world_make(assess_world *world, const char *rules, const char *immersion,
                       const char *inside, const char *after);
/* The packs and dossier of a demo production, by its folder's name. */
void assess_world_demo(assess_world *world, const char *production);
/* The same under the law of another place: "us-ca" stands on "us-fed", "gb-sct" on "gb". */
void assess_world_under(assess_world *world, const char *production, const char *jurisdiction);
void assess_world_free(assess_world *world);

/* Assesses only what `wanted` says, as in ts_assess_inputs. */
ts_assessment *assess_world_part(assess_world *world,
                                 bool (*wanted)(void *context, size_t rule, ts_subject subject),
                                 void *context);
/* Assesses for the scores alone; never NULL. Free with ts_assessment_free. */
ts_assessment *assess_world_run(assess_world *world);
/* The same with margins, ways down, conditions, questions and remedies. */
ts_assessment *assess_world_full(assess_world *world);
/* What has been reported so far, as printed. Lives in the arena. */
const char *assess_world_said(assess_world *world);

/* The finding or duty of this rule on this subject about this; fails the test when there is none.
 */
ts_finding_view finding_of(const ts_assessment *assessment, const char *rule, const char *subject,
                           const char *about);
bool has_finding(const ts_assessment *assessment, const char *rule, const char *subject);

#endif
