/* Days, tasks, who is in the water, the dive log, and each person's totals. */
#include "assess/scope.h"
#include "document/assessment.h"

/* The facts of an entity that become attributes, as they are named there and here. */
typedef struct {
  const char *fact, *attribute;
} fact_attribute;

static void attributes(ts_paper *paper, ts_subject subject, const fact_attribute *all,
                       size_t count) {
  for (size_t i = 0; i < count; i++) {
    uint32_t slot = ts_paper_slot(paper, subject, all[i].fact);
    if (slot != UINT32_MAX)
      ts_xml_attribute(&paper->out, all[i].attribute, ts_paper_fact(paper, slot));
  }
}

#define ATTRIBUTES(paper, subject, all)                                                            \
  attributes((paper), (subject), (all), sizeof(all) / sizeof(all)[0])

/* Minutes since midnight at the middle of what is known, for the lanes of a chart. */
static void minutes(ts_paper *paper, ts_subject subject, const char *fact, const char *name) {
  uint32_t slot = ts_paper_slot(paper, subject, fact);
  if (slot == UINT32_MAX || ts_slot_assumed(paper->dossier, slot)) return;
  ts_range range = ts_slot_value(paper->dossier, slot)->range;
  char text[32];
  ts_number_round((range.lo + range.hi) / 2 / 60, 6, text, sizeof text);
  ts_xml_attribute(&paper->out, name, text);
}

static void role(ts_paper *paper, ts_subject subject) {
  const char *role = subject == TS_NO_SUBJECT ? NULL : ts_paper_known(paper, subject, "role");
  if (role != NULL) ts_xml_attribute(&paper->out, "role", ts_paper_title(paper, role));
}

/* Calls `write` for each that stands in a list of the subject. */
static void each_of(ts_paper *paper, ts_subject subject, const char *list,
                    void (*write)(ts_paper *, ts_subject)) {
  ts_field all = ts_subject_field(paper->dossier, subject, list);
  for (size_t i = 0; all.kind == TS_FIELD_LIST && i < all.count; i++) write(paper, all.list[i]);
}

/* What a list of references names, by label: "Lamp coat, Tail". */
static void labels(ts_paper *paper, ts_subject subject, const char *field) {
  ts_field list = ts_subject_field(paper->dossier, subject, field);
  if (list.kind != TS_FIELD_LIST || list.count == 0) return;
  ts_text text = {0};
  for (size_t i = 0; i < list.count; i++) {
    if (i > 0) ts_text_add(&text, ", ");
    ts_text_add(&text, ts_paper_label(paper, list.list[i]));
  }
  ts_xml_attribute(&paper->out, field, text.data);
  ts_text_release(&text);
}

/* The subject a reference leads to, with its label. */
static void reference(ts_paper *paper, ts_subject subject, const char *field, const char *label) {
  ts_subject there = ts_leads_to(paper->dossier, subject, field);
  if (there == TS_NO_SUBJECT) return;
  ts_xml_attribute(&paper->out, field, ts_paper_path(paper, there));
  ts_xml_attribute(&paper->out, label, ts_paper_label(paper, there));
}

static void immersion(ts_paper *paper, ts_subject subject) {
  static const fact_attribute facts[] = {
      {"depth", "depth"}, {"time", "time"}, {"breath-hold", "breath-hold"}, {"takes", "takes"}};
  ts_xml_start(&paper->out, "immersion");
  ts_xml_attribute(&paper->out, "path", ts_paper_path(paper, subject));
  reference(paper, subject, "person", "person-label");
  role(paper, ts_leads_to(paper->dossier, subject, "person"));
  ATTRIBUTES(paper, subject, facts);
  labels(paper, subject, "wears");
  reference(paper, subject, "supply", "supply-label");
  ts_xml_end(&paper->out);
}

static void post(ts_paper *paper, ts_subject subject) {
  ts_xml_start(&paper->out, "post");
  ts_xml_attribute(&paper->out, "path", ts_paper_path(paper, subject));
  reference(paper, subject, "person", "person-label");
  role(paper, subject);
  ts_xml_end(&paper->out);
}

static void task(ts_paper *paper, ts_subject subject) {
  static const fact_attribute facts[] = {{"start", "start"}, {"finish", "finish"}};
  ts_xml_start(&paper->out, "task");
  ts_xml_attribute(&paper->out, "path", ts_paper_path(paper, subject));
  ts_xml_attribute(&paper->out, "title", ts_paper_label(paper, subject));
  ATTRIBUTES(paper, subject, facts);
  minutes(paper, subject, "start", "start-min");
  minutes(paper, subject, "finish", "finish-min");
  static const char *const lists[] = {"rigs", "crafts", "props"};
  for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) labels(paper, subject, lists[i]);
  each_of(paper, subject, "immersions", immersion);
  each_of(paper, subject, "posts", post);
  ts_xml_end(&paper->out);
}

static void record(ts_paper *paper, ts_subject subject) {
  static const fact_attribute before[] = {{"down", "down"}, {"up", "up"}};
  static const fact_attribute after[] = {{"depth", "depth"}, {"duration", "minutes"}};
  ts_xml_start(&paper->out, "record");
  reference(paper, subject, "person", "person-label");
  ATTRIBUTES(paper, subject, before);
  minutes(paper, subject, "down", "down-min");
  minutes(paper, subject, "up", "up-min");
  ATTRIBUTES(paper, subject, after);
  ts_xml_end(&paper->out);
}

static void total(ts_paper *paper, ts_subject subject) {
  static const fact_attribute facts[] = {
      {"time-planned", "planned"}, {"time-recorded", "recorded"}, {"time-7-days", "seven-days"}};
  ts_xml_start(&paper->out, "total");
  reference(paper, subject, "person", "person-label");
  ATTRIBUTES(paper, subject, facts);
  ts_xml_attribute(&paper->out, "under-18",
                   ts_paper_under_18(paper, ts_leads_to(paper->dossier, subject, "person")));
  ts_xml_end(&paper->out);
}

static void day(ts_paper *paper, ts_subject subject) {
  static const fact_attribute facts[] = {{"call", "call"}, {"wrap", "wrap"}};
  double date = ts_slot_value(paper->dossier, ts_paper_slot(paper, subject, "date"))->range.lo;
  ts_xml_start(&paper->out, "day");
  ts_xml_attribute(&paper->out, "path", ts_paper_path(paper, subject));
  ts_xml_attribute(&paper->out, "date", ts_paper_date(paper, date));
  ts_xml_attribute(&paper->out, "words", ts_paper_day(paper, date));
  reference(paper, subject, "site", "site-label");
  ATTRIBUTES(paper, subject, facts);
  each_of(paper, subject, "tasks", task);
  each_of(paper, subject, "records", record);
  each_of(paper, subject, "person_days", total);
  ts_xml_end(&paper->out);
}

void ts_paper_schedule(ts_paper *paper) {
  ts_xml_start(&paper->out, "schedule");
  for (ts_subject s = 0; s < ts_subject_count(paper->dossier); s++)
    if (ts_same(ts_subject_at(paper->dossier, s)->entity->name, "day")) day(paper, s);
  ts_xml_end(&paper->out);
}
