/* document: sheets rendered from hand-written assessments; what they must never
 * show, and what every one of them must. */
#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "document/transform.h"
#include "scratch.h"
#include "said.h"
#include "tankside/document.h"

#include <check.h>
#include <libxml/HTMLparser.h>
#include <libxslt/documents.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_document(void);

static ts_arena *arena;
static ts_diagnostics *problems;
static const char *sample;
static size_t sample_length;

static void setup(void) {
  arena = ts_arena_new();
  problems = ts_diagnostics_new();
  sample = ts_file_read(arena, SOURCE_FOLDER "/tests/assessments/sample.xml", 1 << 24,
                        &sample_length, problems);
  ck_assert_ptr_nonnull(sample);
}

static void teardown(void) {
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
}

/* ---- helpers -------------------------------------------------------------- */

static const char *said(void) { return said_of(problems, arena); }

static const char *render(const char *xml, const char *sheet, const char *task) {
  char *html = NULL;
  size_t length = 0;
  bool good = ts_sheet_render(xml, strlen(xml), sheet, task, "a4", &html, &length, problems);
  ck_assert_msg(good, "%s: %s", sheet, said());
  ck_assert_uint_eq(strlen(html), length);
  const char *copy = ts_arena_copy_n(arena, html, length);
  free(html);
  return copy;
}

static bool refused(const char *xml, const char *sheet, const char *task, const char *paper) {
  char *html = NULL;
  size_t length = 0;
  bool good = ts_sheet_render(xml, strlen(xml), sheet, task, paper, &html, &length, problems);
  ck_assert(good == (html != NULL));
  free(html);
  return !good && ts_count(problems, TS_ERROR) > 0;
}

/* `text` with every `from` replaced. */
static const char *with(const char *text, const char *from, const char *to) {
  ts_text out = {0};
  for (const char *c; (c = strstr(text, from)); text = c + strlen(from)) {
    ts_text_add_n(&out, text, (size_t)(c - text));
    ts_text_add(&out, to);
  }
  ts_text_add(&out, text);
  const char *copy = ts_arena_copy(arena, out.data);
  ts_text_release(&out);
  return copy;
}

typedef struct {
  const char *sheet, *task;
} page;

static const page pages[] = {{"assessment", NULL}, {"task", "d1t1"}, {"task", "d1t2"},
                             {"task", "d1t3"},     {"task", "d2t1"}, {"emergency", NULL},
                             {"station", NULL},    {"card", NULL},   {"record", NULL},
                             {"question", NULL},   {"form", NULL},   {"set", NULL},
                             {"reviewer", NULL}};
enum { PAGES = sizeof pages / sizeof *pages };

/* HTML 5 names that the parser, which knows HTML 4, calls unknown. */
static void count_serious(void *data, xmlErrorPtr error) {
  int *serious = data;
  if (error->code != XML_HTML_UNKNOWN_TAG) ++*serious;
}

static htmlDocPtr parse(const char *html) {
  int serious = 0;
  htmlParserCtxt *context = htmlNewParserCtxt();
  xmlSetStructuredErrorFunc(&serious, count_serious);
  htmlDocPtr document =
      htmlCtxtReadMemory(context, html, (int)strlen(html), "page.html", "UTF-8", HTML_PARSE_NONET);
  xmlSetStructuredErrorFunc(NULL, NULL);
  htmlFreeParserCtxt(context);
  ck_assert_ptr_nonnull(document);
  ck_assert_int_eq(serious, 0);
  return document;
}

typedef void (*visitor)(const xmlNode *element, void *data);

static void walk(const xmlNode *node, visitor visit, void *data) {
  for (; node; node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    visit(node, data);
    walk(node->children, visit, data);
  }
}

static const char *attribute(const xmlNode *node, const char *name) {
  xmlChar *value = xmlGetProp(node, BAD_CAST name);
  const char *copy = ts_arena_copy(arena, (const char *)value);
  xmlFree(value);
  return copy;
}

/* ---- the table ------------------------------------------------------------ */

START_TEST(sheets_have_names_and_stylesheets) {
  const ts_sheet *sheets = ts_sheets();
  const char *const *names = ts_sheet_names();
  size_t n = 0;
  for (; sheets[n].name; n++) {
    ck_assert_str_eq(sheets[n].name, names[n]);
    ck_assert_ptr_eq(ts_sheet_find(names[n]), &sheets[n]);
    const char *path = ts_path_join(arena, ts_data_path(arena, "templates"), sheets[n].stylesheet);
    ck_assert_ptr_nonnull(ts_file_read(arena, path, 1 << 20, NULL, problems));
  }
  ck_assert_ptr_null(names[n]);
  ck_assert_ptr_null(ts_sheet_find("nothing"));
}
END_TEST

static bool note_task(void *data, const char *task, const char *html, size_t length) {
  ck_assert_str_eq(html, render(sample, "task", task));
  ck_assert_uint_eq(strlen(html), length);
  ts_text_addf(data, "%s ", task);
  return strcmp(task, "d1t3") != 0;
}

START_TEST(sheets_of_tasks_come_in_order_until_told_to_stop) {
  ts_text seen = {0};
  ck_assert(!ts_sheet_render_each(sample, sample_length, "task", NULL, note_task, &seen, problems));
  ck_assert_str_eq(seen.data, "d1t1 d1t2 d1t3 ");
  ts_text_release(&seen);
  ck_assert(!ts_sheet_render_each("<a/>", 4, "task", NULL, note_task, &seen, problems));
  ck_assert_uint_eq(ts_count(problems, TS_ERROR), 1);
}
END_TEST

START_TEST(what_cannot_be_printed_is_refused_with_a_reason) {
  ck_assert(refused(sample, "asessment", NULL, "a4"));
  ck_assert_ptr_nonnull(
      strstr(said(), "no sheet \"asessment\"; the nearest name is \"assessment\""));
  ck_assert(refused(sample, "task", NULL, "a4"));
  ck_assert_ptr_nonnull(strstr(said(), "needs a task: d1t1, d1t2, d1t3, d2t1"));
  ck_assert(refused(sample, "task", "d9t9", "a4"));
  ck_assert_ptr_nonnull(strstr(said(), "no task \"d9t9\"; there are: d1t1"));
  ck_assert(refused(sample, "assessment", NULL, "a3"));
  ck_assert_ptr_nonnull(strstr(said(), "unknown paper \"a3\""));
  ck_assert(refused("<dossier format=\"1\"/>", "assessment", NULL, NULL));
  ck_assert_ptr_nonnull(
      strstr(said(), "the root is <dossier>: this is no <assessment> of format 1"));
  ck_assert(refused("<assessment format=\"2\"/>", "assessment", NULL, NULL));
  ck_assert(refused("<assessment format=\"1\">", "assessment", NULL, NULL));
}
END_TEST

/* ---- every page ----------------------------------------------------------- */

/* Only ours, word for word: the content policy of the page lets no other run. */
static void check_script(const xmlNode *element) {
  size_t length = 0;
  const char *ours =
      ts_file_read(arena, SOURCE_FOLDER "/templates/reading.js", 1 << 20, &length, problems);
  xmlChar *text = xmlNodeGetContent(element);
  ck_assert_str_eq((const char *)text, ours);
  ck_assert_ptr_null(element->properties);
  xmlFree(text);
}

/* No address but data: and #, nothing that runs, nothing that loads. */
static void check_harmless(const xmlNode *element, void *data) {
  static const char *const banned[] = {"script", "img",   "iframe", "object",
                                       "embed",  "link",  "base",   "form",
                                       "audio",  "video", "source", "foreignObject"};
  int *seen = data;
  ++*seen;
  if (ts_same((const char *)element->name, "script")) {
    check_script(element);
    return;
  }
  for (size_t i = 0; i < sizeof banned / sizeof *banned; i++)
    ck_assert_str_ne((const char *)element->name, banned[i]);
  for (const xmlAttr *a = element->properties; a; a = a->next) {
    const char *name = (const char *)a->name, *value = attribute(element, name);
    ck_assert_msg(strncasecmp(name, "on", 2) != 0, "handler %s", name);
    ck_assert_str_ne(name, "src");
    if (ts_same(name, "href")) ck_assert_msg(value[0] == '#', "address %s", value);
  }
}

static void check_addresses(const char *html) {
  static const char *const banned[] = {"http:", "https:", "file:/", "//", "@import", "javascript:"};
  for (size_t i = 0; i < sizeof banned / sizeof *banned; i++)
    ck_assert_msg(!strcasestr(html, banned[i]), "\"%s\" in the page", banned[i]);
  for (const char *c = html; (c = strstr(c, "url(")); c++)
    ck_assert_msg(strncmp(c, "url(\"data:", 10) == 0, "%.40s", c);
}

START_TEST(pages_are_well_formed_and_self_contained) {
  const page *p = &pages[_i];
  const char *html = render(sample, p->sheet, p->task);
  check_addresses(html);
  htmlDocPtr document = parse(html);
  int seen = 0;
  walk(xmlDocGetRootElement(document), check_harmless, &seen);
  ck_assert_int_gt(seen, 100);
  xmlFreeDoc(document);
}
END_TEST

START_TEST(hostile_text_stays_text) {
  const char *hostile =
      with(sample, "The Lamplighter’s Weir",
           "&lt;script&gt;alert(1)&lt;/script&gt;&quot;&gt;&lt;img src=x onerror=y&gt;");
  hostile = with(hostile, "The keeper goes under with the lamp",
                 "&lt;/style&gt;&lt;script&gt;x&lt;/script&gt;&apos; onload=&apos;y");
  hostile = with(hostile, "Ines Caldey", "&lt;b onclick=z&gt;Ines&lt;/b&gt;");
  const page *p = &pages[_i];
  const char *html = render(hostile, p->sheet, p->task);
  ck_assert_ptr_nonnull(strstr(html, "&lt;script&gt;"));
  htmlDocPtr document = parse(html);
  int seen = 0;
  walk(xmlDocGetRootElement(document), check_harmless, &seen);
  xmlFreeDoc(document);
}
END_TEST

typedef struct {
  int h1, main_, header, titles, captions, tables, bare_heads, ids;
  ts_text seen, targets;
} outline;

static void look(const xmlNode *element, void *data) {
  outline *o = data;
  const char *name = (const char *)element->name, *id = attribute(element, "id");
  o->h1 += ts_same(name, "h1");
  o->main_ += ts_same(name, "main");
  /* a drawing has a title of its own */
  o->titles += ts_same(name, "title") && ts_same((const char *)element->parent->name, "head");
  o->tables += ts_same(name, "table");
  o->captions += ts_same(name, "caption");
  o->bare_heads += ts_same(name, "th") && !attribute(element, "scope");
  if (ts_same(name, "html")) ck_assert_str_eq(attribute(element, "lang"), "en-GB");
  if (ts_same(name, "a")) ts_text_addf(&o->targets, "%s ", attribute(element, "href"));
  if (!id) return;
  const char *marked = ts_arena_printf(arena, "[%s]", id);
  ck_assert_msg(!o->seen.data || !strstr(o->seen.data, marked), "id %s twice", id);
  ts_text_add(&o->seen, marked);
}

START_TEST(pages_have_structure_for_those_who_listen) {
  const page *p = &pages[_i];
  htmlDocPtr document = parse(render(sample, p->sheet, p->task));
  outline o = {0};
  walk(xmlDocGetRootElement(document), look, &o);
  ck_assert_int_eq(o.h1, 1);
  ck_assert_int_eq(o.main_, 1);
  ck_assert_int_eq(o.titles, 1);
  ck_assert_int_eq(o.tables, o.captions);
  ck_assert_int_eq(o.bare_heads, 0);
  for (char *rest = o.targets.data, *one; (one = strsep(&rest, " "));)
    if (*one)
      ck_assert_msg(strstr(o.seen.data, ts_arena_printf(arena, "[%s]", one + 1)),
                    "%s leads nowhere", one);
  xmlFreeDoc(document);
  ts_text_release(&o.seen);
  ts_text_release(&o.targets);
}
END_TEST

START_TEST(pages_carry_caution_reference_and_status) {
  const page *p = &pages[_i];
  const char *html = render(sample, p->sheet, p->task);
  ck_assert_ptr_nonnull(
      strstr(html, "A competent person decides, and local codes and licensed practice"));
  ck_assert_ptr_nonnull(strstr(html, "LW-07"));
  ck_assert_ptr_nonnull(strstr(html, "594e519ae499")); /* how the digest begins */
  ck_assert_ptr_nonnull(strstr(html, "class=\"status-bar\""));
  ck_assert_ptr_nonnull(strstr(html, "Not complete"));
  ck_assert_ptr_nonnull(strstr(html, "1 rule failed · 2 stops · 11 facts not known · 1 waiver"));
}
END_TEST

START_TEST(nothing_unknown_nothing_marked) {
  const char *clean = with(sample, "complete=\"no\" stops=\"2\"", "complete=\"yes\" stops=\"0\"");
  clean = with(clean, "open=\"11\"", "open=\"0\"");
  clean = with(clean, "waived=\"1\" failed=\"1\"", "waived=\"0\" failed=\"0\"");
  ck_assert_ptr_null(strstr(render(clean, "assessment", NULL), "class=\"status-bar\""));
  static const char *const marks[][2] = {{"stops=\"0\"", "stops=\"1\""},
                                         {"open=\"0\"", "open=\"1\""},
                                         {"waived=\"0\"", "waived=\"1\""},
                                         {"complete=\"yes\"", "complete=\"no\""},
                                         {"failed=\"0\"", "failed=\"1\""}};
  for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
    ck_assert_ptr_nonnull(strstr(render(with(clean, marks[i][0], marks[i][1]), "assessment", NULL),
                                 "class=\"status-bar\""));
}
END_TEST

START_TEST(the_same_assessment_gives_the_same_bytes) {
  const page *p = &pages[_i];
  ck_assert_str_eq(render(sample, p->sheet, p->task), render(sample, p->sheet, p->task));
}
END_TEST

/* ---- who may see what ----------------------------------------------------- */

typedef struct {
  const char *html;
  int hidden;
} secrecy;

/* Texts of confidential facts that somebody stated; "yes" and "no" say nothing alone. */
static void check_withheld(const xmlNode *element, void *data) {
  secrecy *s = data;
  if (!ts_same(attribute(element, "sees"), "confidential")) return;
  const char *text = attribute(element, "text");
  if (!text || strlen(text) < 4 || ts_same(attribute(element, "state"), "unknown")) return;
  s->hidden++;
  ck_assert_msg(!strstr(s->html, text), "\"%s\" is confidential", text);
}

/* Edges and ways that give something personal away, whosever fact they are of. */
static void check_parts_hidden(const xmlNode *element, void *data) {
  secrecy *s = data;
  const char *words = attribute(element, "words");
  if (!words || !attribute(element, "withheld")) return;
  ck_assert_msg(!strstr(s->html, words), "\"%s\" is withheld", words);
}

START_TEST(task_sheets_never_show_what_is_confidential) {
  ts_xml *xml = ts_xml_read(sample, sample_length, "sample.xml", problems);
  for (int i = 1; i < PAGES; i++) {
    secrecy s = {.html = render(sample, pages[i].sheet, pages[i].task)};
    walk(ts_xml_root(xml), check_withheld, &s);
    ck_assert_int_gt(s.hidden, 5);
    walk(ts_xml_root(xml), check_parts_hidden, &s);
    ck_assert_ptr_null(strstr(s.html, "declared a fear"));
  }
  ts_xml_free(xml);
  /* the text without it stands in; what is not known of a person is not listed by name */
  const char *cellar = render(sample, "task", "d1t2"), *punt = render(sample, "task", "d2t1");
  ck_assert_ptr_nonnull(
      strstr(cellar, "a young performer is near the cooling time for this water"));
  ck_assert_ptr_null(strstr(cellar, "31 min until the core falls"));
  ck_assert_ptr_nonnull(strstr(punt, "One or more personal facts are not known"));
  ck_assert_ptr_null(strstr(punt, "<b>mass</b>"));
  ck_assert_ptr_nonnull(strstr(punt, "<b>supply flow</b>"));
  /* and the full assessment, which may, says so on its cover */
  const char *full = render(sample, "assessment", NULL);
  ck_assert_ptr_nonnull(strstr(full, "Confidential: contains personal facts"));
  ck_assert_ptr_nonnull(strstr(full, "dark water"));
}
END_TEST

START_TEST(a_personal_fact_in_a_rule_s_own_words_is_withheld_too) {
  const char *careless =
      with(sample, " withheld=\"something declared in confidence bears on this action\"", "");
  careless = with(careless, "Ines Caldey declared a fear of dark water", "who fears dark water");
  const char *html = render(careless, "task", "d1t3");
  ck_assert_ptr_null(strstr(html, "dark water"));
  ck_assert_ptr_nonnull(strstr(html, "Declared fear bears on the action"));
}
END_TEST

/* ---- what would change it --------------------------------------------------- */

static void must_have(const char *html, const char *text) {
  ck_assert_msg(strstr(html, text), "no \"%s\"", text);
}

START_TEST(the_full_assessment_says_what_would_change_a_finding) {
  const char *full = render(sample, "assessment", NULL);
  static const char *const said_there[] = {
      "At worst only when",
      "At best when",
      "pH above 7.7 and free chlorine below 0.95 mg/L",
      "water temperature: moderate from 29.5 °C; now 24..28 °C; 1.5 K away",
      "time in water at most 29 min; now not known",
      ">Change the plan<",
      ">Add one control<",
      ">Add two controls<",
      ">worse<",
      "F14 Too little disinfectant in the water: high 9 → high 12",
      "new: More takes than one breath pattern carries, Dee Marlow: moderate 6",
      "Fewest controls, task by task",
      "Answers that take nothing away:"};
  for (size_t i = 0; i < sizeof said_there / sizeof *said_there; i++)
    must_have(full, said_there[i]);
  /* below the line only what would take it above */
  must_have(full, "noise: high from 90 dB(A)");
  ck_assert_ptr_null(strstr(full, "not found at 80 dB(A) or below"));
  ck_assert_ptr_null(strstr(full, "moderate from 2 h 5 min"));
}
END_TEST

START_TEST(what_makes_least_worse_elsewhere_stands_first) {
  const char *one = "time in water at most 29 min", *two = "water temperature at least 29.5 °C";
  const char *swapped = with(sample, one, "@");
  swapped = with(with(swapped, two, one), "@", two); /* now the dearer one is listed first */
  const char *full = render(swapped, "assessment", NULL);
  ck_assert(strstr(full, two) < strstr(full, one));
  full = render(sample, "assessment", NULL);
  ck_assert(strstr(full, one) < strstr(full, two));
}
END_TEST

START_TEST(what_is_asked_first_stands_first) {
  const char *full = render(sample, "assessment", NULL);
  const char *table = strstr(full, "id=\"open\"");
  ck_assert_ptr_nonnull(table);
  const char *first = strstr(table, "residual current device tested");
  const char *then = strstr(table, "<b>20..25 s</b>"), *last = strstr(table, ">pH<");
  ck_assert(first && then && last && first < then && then < last);
}
END_TEST

START_TEST(task_sheets_name_the_fewest_controls_or_what_is_left) {
  const char *punt = render(sample, "task", "d2t1"), *lamp = render(sample, "task", "d1t3");
  must_have(punt, "Air supplied to the pocket + Water warmed before the set + Signals drilled");
  must_have(lamp, "With every control of the catalogue that bears on it, above the line stay:");
  must_have(lamp, "Costume weights hold the wearer down; Declared fear bears on the action");
  ck_assert_ptr_null(strstr(lamp, "Fewest more controls"));
}
END_TEST

/* The parts of a finding as a sheet for everyone would print them. */
static const char open_sheet[] =
    "<xsl:stylesheet version='1.0' xmlns:xsl='http://www.w3.org/1999/XSL/Transform'>"
    "<xsl:import href='common.xsl'/><xsl:include href='changes.xsl'/>"
    "<xsl:variable name='withhold' select='true()'/>"
    "<xsl:template match='/'><html><xsl:for-each select='//finding'><xsl:apply-templates "
    "select='value'/>"
    "<xsl:call-template name='whens'/><xsl:call-template name='margins'/><xsl:call-template "
    "name='ways'/>"
    "</xsl:for-each></html></xsl:template></xsl:stylesheet>";

static void copy_templates(const char *to) {
  static const char *const kinds[] = {".xsl", ".xml", ".css", ".js"};
  const char *from = ts_data_path(arena, "templates");
  for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
    for (char **names = ts_folder_list(arena, from, kinds[i], problems); names && *names; names++) {
      size_t length = 0;
      char *text =
          ts_file_read(arena, ts_path_join(arena, from, *names), 1 << 20, &length, problems);
      ck_assert(text && ts_file_write(ts_path_join(arena, to, *names), text, length, problems));
    }
}

static void check_parts(const xmlNode *element, void *data) {
  static const char *const parts[] = {"value", "when", "margin", "way"};
  static const char *const shows[] = {"text", "words", "working"};
  secrecy *s = data;
  bool part = false;
  for (size_t i = 0; i < 4; i++) part = part || ts_same((const char *)element->name, parts[i]);
  const char *withheld = attribute(element, "withheld");
  if (!part || !withheld) return;
  s->hidden++;
  ck_assert_ptr_nonnull(strstr(s->html, withheld));
  for (size_t i = 0; i < 3; i++) {
    const char *text = attribute(element, shows[i]);
    if (text && strlen(text) > 8) ck_assert_msg(!strstr(s->html, text), "\"%s\" is withheld", text);
  }
}

START_TEST(a_sheet_that_withholds_prints_no_number_behind_a_withheld_one) {
  char folder[256];
  scratch_make(folder, sizeof folder);
  const char *templates = ts_path_join(arena, folder, "templates");
  ck_assert(ts_folder_make(templates, problems));
  copy_templates(templates);
  const char *path = ts_path_join(arena, templates, "assessment.xsl");
  ck_assert(ts_file_write(path, open_sheet, sizeof open_sheet - 1, problems));
  setenv("TANKSIDE_DATA", folder, 1);
  secrecy s = {.html = render(sample, "assessment", NULL)};
  unsetenv("TANKSIDE_DATA");
  scratch_remove(folder);
  ts_xml *xml = ts_xml_read(sample, sample_length, "sample.xml", problems);
  walk(ts_xml_root(xml), check_parts, &s);
  ck_assert_int_gt(s.hidden, 10);
  ts_xml_free(xml);
  must_have(s.html, "breath hold (withheld) → <b>moderate 5</b>");
  must_have(s.html,
            "reserve = cooling time ÷ planned time = <b>withheld: rests on personal facts</b>");
  must_have(s.html, "supply voltage at most 12 V; now 230 V");
  must_have(s.html, "1.5 m ÷ 4 m = ");
}
END_TEST

/* ---- what a stylesheet may reach ------------------------------------------ */

START_TEST(stylesheets_read_in_their_folder_and_nowhere_else) {
  ts_document_guard guard;
  ck_assert(ts_document_guard_begin(&guard));
  xsltTransformContext *none = NULL;
  xsltSecurityCheck read = xsltGetSecurityPrefs(guard.prefs, XSLT_SECPREF_READ_FILE);
  xsltSecurityCheck write = xsltGetSecurityPrefs(guard.prefs, XSLT_SECPREF_WRITE_FILE);
  const char *templates = ts_data_path(arena, "templates");
  ck_assert(read(guard.prefs, none, ts_path_join(arena, templates, "palette.xml")));
  ck_assert(!read(guard.prefs, none, ts_path_join(arena, templates, "../CMakeLists.txt")));
  ck_assert(!read(guard.prefs, none, "/etc/passwd"));
  ck_assert(!read(guard.prefs, none, templates));
  ck_assert(!read(guard.prefs, none, NULL));
  ck_assert(!write(guard.prefs, none, ts_path_join(arena, templates, "new.xml")));
  ck_assert(xsltGetSecurityPrefs(guard.prefs, XSLT_SECPREF_READ_NETWORK) == xsltSecurityForbid);
  ck_assert(xsltGetSecurityPrefs(guard.prefs, XSLT_SECPREF_WRITE_NETWORK) == xsltSecurityForbid);
  ck_assert(xsltGetSecurityPrefs(guard.prefs, XSLT_SECPREF_CREATE_DIRECTORY) == xsltSecurityForbid);
  ts_document_guard_end(&guard);
  ck_assert_ptr_eq(xsltGetDefaultSecurityPrefs(), guard.before);
}
END_TEST

static const char thief[] =
    "<xsl:stylesheet version='1.0' xmlns:xsl='http://www.w3.org/1999/XSL/Transform'>"
    "<xsl:output method='html'/><xsl:template match='/'><html><xsl:copy-of "
    "select=\"document('%s')\"/>"
    "</html></xsl:template></xsl:stylesheet>";

START_TEST(a_stylesheet_that_reads_elsewhere_fails) {
  static const char *const ways[] = {"%s/secret.xml", "../secret.xml", "%%2e%%2e/secret.xml",
                                     "%%2E%%2E%%2Fsecret.xml", "file://%s/secret.xml"};
  char folder[256];
  scratch_make(folder, sizeof folder);
  const char *templates = ts_path_join(arena, folder, "templates");
  const char *secret = ts_path_join(arena, folder, "secret.xml");
  ck_assert(ts_folder_make(templates, problems));
  ck_assert(ts_file_write(secret, "<secret/>", 9, problems));
  const char *names[] = {"page.css", "browser.css", "sheets.css", "reading.js"};
  for (int i = 0; i < 4; i++)
    ck_assert(ts_file_write(ts_path_join(arena, templates, names[i]), "", 0, problems));
  setenv("TANKSIDE_DATA", folder, 1);
  const char *style = ts_arena_printf(arena, thief, ts_arena_printf(arena, ways[_i], folder));
  ck_assert(ts_file_write(ts_path_join(arena, templates, "assessment.xsl"), style, strlen(style),
                          problems));
  ck_assert(refused(sample, "assessment", NULL, "a4"));
  /* the same with a file inside its own folder goes through */
  style = ts_arena_printf(arena, thief, "inside.xml");
  ck_assert(ts_file_write(ts_path_join(arena, templates, "inside.xml"), "<p/>", 4, problems));
  ck_assert(ts_file_write(ts_path_join(arena, templates, "assessment.xsl"), style, strlen(style),
                          problems));
  ck_assert_ptr_nonnull(strstr(render(sample, "assessment", NULL), "<p>"));
  unsetenv("TANKSIDE_DATA");
  scratch_remove(folder);
}
END_TEST

Suite *suite_document(void) {
  Suite *suite = suite_create("document");
  TCase *tcase = tcase_create("document");
  tcase_add_checked_fixture(tcase, setup, teardown);
  tcase_set_timeout(tcase, 180);
  tcase_add_test(tcase, sheets_have_names_and_stylesheets);
  tcase_add_test(tcase, sheets_of_tasks_come_in_order_until_told_to_stop);
  tcase_add_test(tcase, what_cannot_be_printed_is_refused_with_a_reason);
  tcase_add_loop_test(tcase, pages_are_well_formed_and_self_contained, 0, PAGES);
  tcase_add_loop_test(tcase, hostile_text_stays_text, 0, PAGES);
  tcase_add_loop_test(tcase, pages_have_structure_for_those_who_listen, 0, PAGES);
  tcase_add_loop_test(tcase, pages_carry_caution_reference_and_status, 0, PAGES);
  tcase_add_test(tcase, nothing_unknown_nothing_marked);
  tcase_add_loop_test(tcase, the_same_assessment_gives_the_same_bytes, 0, PAGES);
  tcase_add_test(tcase, task_sheets_never_show_what_is_confidential);
  tcase_add_test(tcase, a_personal_fact_in_a_rule_s_own_words_is_withheld_too);
  tcase_add_test(tcase, the_full_assessment_says_what_would_change_a_finding);
  tcase_add_test(tcase, what_makes_least_worse_elsewhere_stands_first);
  tcase_add_test(tcase, what_is_asked_first_stands_first);
  tcase_add_test(tcase, task_sheets_name_the_fewest_controls_or_what_is_left);
  tcase_add_test(tcase, a_sheet_that_withholds_prints_no_number_behind_a_withheld_one);
  tcase_add_test(tcase, stylesheets_read_in_their_folder_and_nowhere_else);
  tcase_add_loop_test(tcase, a_stylesheet_that_reads_elsewhere_fails, 0, 5);
  suite_add_tcase(suite, tcase);
  return suite;
}
