/* work: what a stylesheet does for an assessment of twice as many tasks is twice as much. Counted
 * are the instructions of XSLT and the steps of XPath, which are the same on every machine; what
 * joins two long sets inside libxml2 is no step, and does not show here. */
#include "base/arena.h"
#include "base/file.h"
#include "base/xml.h"
#include "tankside/diagnostics.h"

#include <check.h>
#include <libxslt/transform.h>
#include <libxslt/variables.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_work(void);

enum { COPIES = 5, LIMIT = 1 << 24 };

static const struct {
  const char *file, *sheet;
} sheets[] = {{"assessment", "assessment"}, {"sheets", "emergency"}, {"sheets", "station"},
              {"sheets", "card"},           {"sheets", "record"},    {"sheets", "question"},
              {"sheets", "form"},           {"sheets", "set"},       {"reviewer", "reviewer"},
              {"register-csv", "register"}, {"register-ods", ""}};

/* ---- an assessment of many tasks ------------------------------------------------------- */

/* What is named by a task, a day, a person on a day or a finding is of the copy. */
static void rename_in(xmlNode *node, int copy) {
  static const char *const names[] = {"id",   "path",    "subject",   "task",    "day",
                                      "date", "finding", "elsewhere", "findings"};
  for (; node; node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
      xmlChar *value = xmlGetNoNsProp(node, BAD_CAST names[i]);
      char other[4096];
      snprintf(other, sizeof other, "%s~%d", value ? (const char *)value : "", copy);
      if (value) xmlSetProp(node, BAD_CAST names[i], BAD_CAST other);
      xmlFree(value);
    }
    rename_in(node->children, copy);
  }
}

/* Each finding, duty, day, subject, question, remedy and mark on a chart again for each copy. */
static void multiply(xmlNode *root, int copies) {
  static const char *const sections[] = {"findings",   "duties",   "schedule",  "subjects",
                                         "open-facts", "remedies", "elsewhere", "charts"};
  for (size_t i = 0; i < sizeof sections / sizeof *sections; i++) {
    xmlNode *section = ts_xml_child(root, sections[i]);
    xmlNode *all = section ? xmlDocCopyNodeList(root->doc, section->children) : NULL;
    for (int copy = 1; all && copy < copies; copy++) {
      xmlNode *more = xmlDocCopyNodeList(root->doc, all);
      rename_in(more, copy);
      xmlAddChildList(section, more);
    }
    xmlFreeNodeList(all);
  }
}

/* ---- the work -------------------------------------------------------------------------- */

static unsigned long work_of(xsltStylesheet *style, const char *sheet, int copies) {
  ts_arena *arena = ts_arena_new();
  ts_diagnostics *problems = ts_diagnostics_new();
  size_t length = 0;
  const char *bytes =
      ts_file_read(arena, SOURCE_FOLDER "/tests/assessments/sample.xml", LIMIT, &length, problems);
  ts_xml *xml = ts_xml_read_without(bytes, length, "sample.xml", NULL, problems);
  ck_assert_ptr_nonnull(xml);
  multiply(ts_xml_root(xml), copies);
  xsltTransformContext *context = xsltNewTransformContext(style, ts_xml_document(xml));
  context->opLimit = context->xpathCtxt->opLimit = ULONG_MAX;
  xsltQuoteOneUserParam(context, BAD_CAST "sheet", BAD_CAST sheet);
  xmlDoc *result = xsltApplyStylesheetUser(style, ts_xml_document(xml), NULL, NULL, NULL, context);
  ck_assert(result && context->state == XSLT_STATE_OK);
  unsigned long work = context->opCount + context->xpathCtxt->opCount;
  xmlFreeDoc(result);
  xsltFreeTransformContext(context);
  ts_xml_free(xml);
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
  return work;
}

START_TEST(twice_the_tasks_are_twice_the_work) {
  char path[4096];
  snprintf(path, sizeof path, SOURCE_FOLDER "/templates/%s.xsl", sheets[_i].file);
  xsltStylesheet *style = xsltParseStylesheetFile(BAD_CAST path);
  ck_assert_ptr_nonnull(style);
  unsigned long once = work_of(style, sheets[_i].sheet, COPIES),
                twice = work_of(style, sheets[_i].sheet, 2 * COPIES);
  ck_assert_msg(once > 10000 && twice > once, "%s: %lu, then %lu steps: that counts nothing",
                sheets[_i].file, once, twice);
  ck_assert_msg((double)twice <= 2.1 * (double)once,
                "%s %s: %lu steps, %lu for twice as many tasks", sheets[_i].file, sheets[_i].sheet,
                once, twice);
  xsltFreeStylesheet(style);
}
END_TEST

Suite *suite_work(void) {
  Suite *suite = suite_create("work");
  TCase *tcase = tcase_create("work");
  tcase_set_timeout(tcase, 120);
  tcase_add_loop_test(tcase, twice_the_tasks_are_twice_the_work, 0, sizeof sheets / sizeof *sheets);
  suite_add_tcase(suite, tcase);
  return suite;
}
