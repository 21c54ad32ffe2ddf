/* Sheets: the table of documents, and which tasks they are printed for. */
#include "tankside/document.h"

#include "base/text.h"
#include "base/xml.h"
#include "document/transform.h"

#include <string.h>

/* What each stylesheet reads nothing of. Whatever says what is confidential stays: withhold.c looks
 * for it. */
#define PAGES "sheets.xsl", .leaves_out = "margin way function source elsewhere looked-at charts"
#define REVIEWER "reviewer.xsl", .leaves_out = "margin way condition when value because elsewhere"
#define REGISTER                                                                                   \
  "register-csv.xsl",                                                                              \
      .leaves_out = "margin way function elsewhere looked-at charts subjects open-facts"

static const ts_sheet sheets[] = {
    {.name = "assessment",
     .title = "the full assessment, for insurer, officer and coordinator",
     .stylesheet = "assessment.xsl",
     .attaches = true,
     .own_pdf = true},
    {.name = "task",
     .title = "the task sheet: one task on one page, for those who do it",
     .stylesheet = PAGES,
     .per_task = true,
     .own_pdf = true},
    {.name = "emergency",
     .title = "the emergency plan of each place",
     .stylesheet = PAGES,
     .own_pdf = true},
    {.name = "station", .title = "the safety team's card, task by task", .stylesheet = PAGES},
    {.name = "card",
     .title = "briefing cards for those who go in, four to a page",
     .stylesheet = PAGES,
     .own_pdf = true},
    {.name = "record", .title = "the record of each day, to fill in by pen", .stylesheet = PAGES},
    {.name = "question", .title = "open questions, by who knows the answer", .stylesheet = PAGES},
    {.name = "form", .title = "a form for what nobody has answered yet", .stylesheet = PAGES},
    {.name = "set",
     .title = "all papers for the water, bound, with their contents",
     .stylesheet = PAGES,
     .own_pdf = true},
    {.name = "reviewer",
     .title = "the reviewer's schedule: scope, method, evidence, digests",
     .stylesheet = REVIEWER,
     .own_pdf = true},
    {.name = "register",
     .title = "the register of findings and duties: CSV, or a spreadsheet",
     .stylesheet = REGISTER,
     .spreadsheet = "register-ods.xsl"},
    {.name = NULL},
};

static const char *const names[] = {"assessment", "task",     "emergency", "station",
                                    "card",       "record",   "question",  "form",
                                    "set",        "reviewer", "register",  NULL};
_Static_assert(sizeof names / sizeof *names == sizeof sheets / sizeof *sheets,
               "every sheet has its name in the list");

const ts_sheet *ts_sheets(void) { return sheets; }

const char *const *ts_sheet_names(void) { return names; }

const ts_sheet *ts_sheet_find(const char *name) {
  for (const ts_sheet *s = sheets; s->name; s++)
    if (ts_same(s->name, name)) return s;
  return NULL;
}

static bool visit_task(const xmlNode *task, bool (*visit)(void *, const char *), void *data) {
  xmlChar *path = xmlGetNoNsProp(task, BAD_CAST "path");
  bool more = !path || visit(data, (const char *)path);
  xmlFree(path);
  return more;
}

bool ts_document_each_task(const xmlNode *root, bool (*visit)(void *data, const char *path),
                           void *data) {
  const xmlNode *schedule = ts_xml_child(root, "schedule");
  const xmlNode *day = ts_xml_child(schedule, "day");
  for (; day; day = ts_xml_next(day, "day"))
    for (const xmlNode *task = ts_xml_child(day, "task"); task; task = ts_xml_next(task, "task"))
      if (!visit_task(task, visit, data)) return false;
  return true;
}

bool ts_sheet_each_task(const char *assessment_xml, size_t length,
                        bool (*visit)(void *data, const char *path), void *data,
                        ts_diagnostics *problems) {
  ts_xml *xml = ts_document_open(assessment_xml, length, TS_ALL_BUT_SCHEDULE, problems);
  bool all = xml && ts_document_each_task(ts_xml_root(xml), visit, data);
  ts_xml_free(xml);
  return all;
}
