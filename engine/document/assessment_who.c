/* Who: the people of a production, and those a finding is about. */
#include "assess/scope.h"
#include "document/assessment.h"
#include "quantity/calendar.h"
#include <string.h>

enum { ROLES_MAX = 32, FULL_AGE = 18 };

/* ---- people by role ------------------------------------------------------------ */

typedef struct {
  const char *role[ROLES_MAX];
  size_t people[ROLES_MAX];
  size_t count;
} gathering;

static void crowd_add(ts_paper *paper, gathering *crowd, ts_subject person) {
  if (person == TS_NO_SUBJECT || paper->seen[person] == paper->crowds) return;
  paper->seen[person] = paper->crowds;
  const char *role = ts_paper_known(paper, person, "role");
  if (role == NULL) role = "person";
  for (size_t i = 0; i < crowd->count; i++)
    if (ts_same(crowd->role[i], role)) {
      crowd->people[i]++;
      return;
    }
  if (crowd->count == ROLES_MAX) return;
  crowd->role[crowd->count] = role;
  crowd->people[crowd->count++] = 1;
}

static bool takes_an_s(const char *role) {
  return !ts_same(role, "crew") && !ts_same(role, "person");
}

static const char *crowd_words(ts_paper *paper, const gathering *crowd) {
  if (crowd->count == 0) return NULL;
  ts_text text = {0};
  for (size_t i = 0; i < crowd->count; i++) {
    const char *role = ts_paper_title(paper, crowd->role[i]);
    bool many = crowd->people[i] > 1;
    if (i > 0) ts_text_add(&text, ", ");
    if (many && ts_same(role, "person")) role = "people";
    ts_text_addf(&text, "%zu %s%s", crowd->people[i], role,
                 many && takes_an_s(crowd->role[i]) ? "s" : "");
  }
  const char *copy = ts_arena_copy(paper->arena, text.data);
  ts_text_release(&text);
  return copy;
}

/* Everyone in the water in a task, a day or at a site. */
static void crowd_below(ts_paper *paper, gathering *crowd, ts_subject subject) {
  ts_field list = ts_subject_field(paper->dossier, subject, "immersions");
  if (list.kind != TS_FIELD_LIST) return;
  for (size_t i = 0; i < list.count; i++)
    crowd_add(paper, crowd, ts_leads_to(paper->dossier, list.list[i], "person"));
}

const char *ts_paper_who(ts_paper *paper, ts_subject subject) {
  gathering crowd = {0};
  paper->crowds++;
  ts_subject person = ts_leads_to(paper->dossier, subject, "person");
  if (person != TS_NO_SUBJECT)
    crowd_add(paper, &crowd, person);
  else
    crowd_below(paper, &crowd, subject);
  return crowd_words(paper, &crowd);
}

/* ---- ages ------------------------------------------------------------------------ */

const char *ts_paper_under_18(const ts_paper *paper, ts_subject person) {
  uint32_t slot = ts_paper_slot(paper, person, "age-at-start");
  if (slot == UINT32_MAX || ts_slot_assumed(paper->dossier, slot)) return "unknown";
  ts_range age = ts_slot_value(paper->dossier, slot)->range;
  if (age.hi < FULL_AGE * TS_YEAR_SECONDS) return "yes";
  return age.lo < FULL_AGE * TS_YEAR_SECONDS ? "unknown" : "no";
}

static void person(ts_paper *paper, ts_subject subject) {
  ts_xml_start(&paper->out, "person");
  ts_xml_attribute(&paper->out, "path", ts_paper_path(paper, subject));
  ts_xml_attribute(&paper->out, "label", ts_paper_label(paper, subject));
  const char *role = ts_paper_known(paper, subject, "role");
  if (role != NULL) ts_xml_attribute(&paper->out, "role", ts_paper_title(paper, role));
  ts_xml_attribute(&paper->out, "under-18", ts_paper_under_18(paper, subject));
  ts_xml_end(&paper->out);
}

void ts_paper_people(ts_paper *paper) {
  ts_xml_start(&paper->out, "people");
  for (ts_subject s = 0; s < ts_subject_count(paper->dossier); s++)
    if (ts_same(ts_subject_at(paper->dossier, s)->entity->name, "person")) person(paper, s);
  ts_xml_end(&paper->out);
}
