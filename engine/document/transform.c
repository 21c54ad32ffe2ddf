/* Transform: one assessment, one stylesheet, one page of HTML.
 *
 * Plain XSLT 1.0 without extensions, so that nothing in a template can read a
 * clock or a random number: the same assessment gives the same bytes. */
#include "document/transform.h"

#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include "document/withhold.h"
#include "tankside/sign.h"

#include <libxml/HTMLtree.h>
#include <libxml/uri.h>
#include <libxslt/transform.h>
#include <libxslt/variables.h>
#include <libxslt/xsltutils.h>
#include <stdlib.h>
#include <string.h>

enum { STYLE_LIMIT = 1 << 20, MESSAGE_LIMIT = 4000 };
/* Far above what the largest assessment needs, far below a hung process. */
static const unsigned long template_steps = 1000UL * 1000 * 1000;
static const unsigned long path_steps = 100UL * 1000 * 1000 * 1000;

/* ---- opening ------------------------------------------------------------ */

static bool is_of_format_1(const xmlNode *root, const char *kind) {
  if (!root || !ts_same((const char *)root->name, kind)) return false;
  xmlChar *format = xmlGetNoNsProp(root, BAD_CAST "format");
  bool good = ts_same((const char *)format, "1");
  xmlFree(format);
  return good;
}

static ts_xml *of_kind(ts_xml *xml, const char *kind, const char *name, ts_diagnostics *problems) {
  if (!xml || is_of_format_1(ts_xml_root(xml), kind)) return xml;
  ts_report(problems, TS_ERROR, name, 1, "the root is <%s>: this is no <%s> of format 1",
            (const char *)ts_xml_root(xml)->name, kind);
  ts_xml_free(xml);
  return NULL;
}

ts_xml *ts_document_open_as(const char *kind, const char *bytes, size_t length, const char *name,
                            ts_diagnostics *problems) {
  return of_kind(ts_xml_read(bytes, length, name, problems), kind, name, problems);
}

char *ts_assessment_digest(const char *assessment, size_t length, char out[65]) {
  static const char end[] = "</assessment>\n";
  size_t plain = ts_unsigned_length(assessment, length);
  if (plain == length) return ts_digest(assessment, length, out);
  ts_text text = {0};
  ts_text_add_n(&text, assessment, plain);
  ts_text_add(&text, end);
  ts_digest(text.data, text.length, out);
  ts_text_release(&text);
  return out;
}

/* Papers say which assessment they were made from; one in another language has it from the
 * original. */
ts_xml *ts_document_open(const char *bytes, size_t length, const char *without,
                         ts_diagnostics *problems) {
  static const char name[] = "assessment.xml";
  ts_xml *xml = of_kind(ts_xml_read_without(bytes, length, name, without, problems), "assessment",
                        name, problems);
  xmlNode *root = xml ? ts_xml_root(xml) : NULL;
  char digest[65];
  if (root && !xmlHasProp(root, BAD_CAST "sha256"))
    xmlSetProp(root, BAD_CAST "sha256", BAD_CAST ts_assessment_digest(bytes, length, digest));
  return xml;
}

typedef struct {
  const char *wanted, *found;
  ts_text seen;
} task_search;

static bool look_for_task(void *data, const char *path) {
  task_search *search = data;
  if (ts_same(path, search->wanted)) search->found = search->wanted;
  ts_text_addf(&search->seen, "%s%s", search->seen.length ? ", " : "", path);
  return true;
}

/* True when the sheet can be printed for this subject; reports otherwise. */
static bool subject_fits(const ts_sheet *sheet, const char *subject, const ts_xml *xml,
                         ts_diagnostics *problems) {
  if (!sheet->per_task) return true;
  task_search search = {.wanted = subject};
  ts_document_each_task(ts_xml_root(xml), look_for_task, &search);
  if (!subject)
    ts_report(problems, TS_ERROR, "assessment.xml", 0, "the sheet \"%s\" needs a task: %s",
              sheet->name, search.seen.length ? search.seen.data : "there is none");
  else if (!search.found)
    ts_report(problems, TS_ERROR, "assessment.xml", 0, "no task \"%s\"; there are: %s", subject,
              search.seen.length ? search.seen.data : "none");
  ts_text_release(&search.seen);
  return search.found != NULL;
}

/* ---- running ------------------------------------------------------------ */

/* Collects what libxslt says, piece by piece; reported as one when it is over. */
static void hear(void *data, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void hear(void *data, const char *format, ...) {
  ts_text *said = data;
  char piece[1024];
  va_list list;
  va_start(list, format);
  int n = vsnprintf(piece, sizeof piece, format, list);
  va_end(list);
  if (n > 0 && said->length < MESSAGE_LIMIT) ts_text_add(said, piece);
}

static void report_said(const ts_text *said, const char *stylesheet, ts_diagnostics *problems) {
  ts_text line = {0};
  for (const char *c = said->length ? said->data : "no reason was given"; *c; c++) {
    char byte = *c == '\n' ? ' ' : *c;
    ts_text_add_n(&line, &byte, 1);
  }
  while (line.length && line.data[line.length - 1] == ' ') line.data[--line.length] = '\0';
  ts_report(problems, TS_ERROR, stylesheet, 0, "the stylesheet failed: %s", line.data);
  ts_text_release(&line);
}

/* Who listened to libxml2 and libxslt before; both know one listener for the whole process. */
typedef struct {
  xmlGenericErrorFunc xslt, xml;
  void *xslt_data, *xml_data;
} listeners;

static listeners listen(ts_text *said) {
  listeners before = {xsltGenericError, xmlGenericError, xsltGenericErrorContext,
                      xmlGenericErrorContext};
  xsltSetGenericErrorFunc(said, hear);
  xmlSetGenericErrorFunc(said, hear);
  return before;
}

static void listen_no_more(listeners before) {
  xsltSetGenericErrorFunc(before.xslt_data, before.xslt);
  xmlSetGenericErrorFunc(before.xml_data, before.xml);
}

static xsltStylesheet *load(const char *path) {
  xmlChar *address = xmlPathToURI(BAD_CAST path);
  xsltStylesheet *style = address ? xsltParseStylesheetFile(address) : NULL;
  xmlFree(address);
  if (style && style->errors == 0) return style;
  xsltFreeStylesheet(style);
  return NULL;
}

/* What a stylesheet is told from outside. */
typedef struct {
  const char *name, *value;
} parameter;
enum { TEXT_PARAMETERS = 6, PAGE_PARAMETERS = 5, PARAMETERS = TEXT_PARAMETERS + PAGE_PARAMETERS };

static bool set_up(xsltTransformContext *context, ts_document_guard *guard,
                   const parameter *parameters, int count, ts_text *said) {
  xsltSetTransformErrorFunc(context, said, hear);
  context->opLimit = template_steps;
  context->xpathCtxt->opLimit = path_steps;
  bool good = xsltSetCtxtSecurityPrefs(guard->prefs, context) == 0;
  for (const parameter *p = parameters; p < parameters + count; p++)
    good = xsltQuoteOneUserParam(context, BAD_CAST p->name, BAD_CAST p->value) == 0 && good;
  return good;
}

/* Whether a stylesheet says that it gives text, XML or a page. */
static bool makes(const xsltStylesheet *style, const char *method) {
  return style->method != NULL && ts_same((const char *)style->method, method);
}

/* What came out: one page, or one for each task. Each text is for free(). */
typedef struct {
  char *task, *html; /* task: its path, where there are many */
  size_t length;
} made;
typedef struct {
  made *at;
  size_t count, capacity;
} page_list;

static void add_page(page_list *pages, xmlChar *task, char *html, size_t length) {
  TS_GROW(pages->at, pages->count, pages->capacity);
  pages->at[pages->count++] = (made){(char *)task, html, length};
}

static void release_pages(page_list *pages) {
  for (size_t i = 0; i < pages->count; i++) {
    xmlFree(pages->at[i].task);
    free(pages->at[i].html);
  }
  free(pages->at);
}

/* What came out, HTML with its doctype, for free(); NULL when the stylesheet gave nothing. */
static char *save(xmlDoc *result, xsltStylesheet *style, size_t *length) {
  bool page = !makes(style, "text") && !makes(style, "xml");
  const char *doctype = page ? "<!DOCTYPE html>\n" : "";
  xmlChar *bytes = NULL;
  int count = 0;
  if (xsltSaveResultToString(&bytes, &count, result, style) != 0) return NULL;
  if (!bytes && !makes(style, "text")) return NULL; /* a text may have nothing to say */
  size_t head = strlen(doctype), body = bytes ? (size_t)count : 0;
  char *html = ts_alloc(head + body + 1);
  // NOLINTNEXTLINE(bugprone-not-null-terminated-result): the last byte is there, zero
  memcpy(html, doctype, head);
  if (body) memcpy(html + head, bytes, body);
  xmlFree(bytes);
  *length = head + body;
  return html;
}

/* A page out of a result that has many, as a document by itself. Its names are those of the
 * result's dictionary. */
static xmlDoc *taken_out(xmlNode *html, const xmlDoc *result) {
  xmlDoc *alone = htmlNewDocNoDtD(NULL, NULL);
  alone->dict = result->dict;
  if (alone->dict) xmlDictReference(alone->dict);
  xmlUnlinkNode(html);
  xmlDocSetRootElement(alone, html);
  return alone;
}

static bool save_each(const xmlNode *all, const xmlDoc *result, xsltStylesheet *style,
                      page_list *pages) {
  for (const xmlNode *one = ts_xml_child(all, "page"); one; one = ts_xml_next(one, "page")) {
    xmlDoc *alone = taken_out(one->children, result);
    size_t length = 0;
    char *html = save(alone, style, &length);
    xmlFreeDoc(alone);
    if (!html) return false;
    add_page(pages, xmlGetNoNsProp(one, BAD_CAST "of"), html, length);
  }
  return true;
}

static bool save_all(xmlDoc *result, xsltStylesheet *style, page_list *pages) {
  const xmlNode *root = xmlDocGetRootElement(result);
  if (root && ts_same((const char *)root->name, "pages"))
    return save_each(root, result, style, pages);
  size_t length = 0;
  char *html = save(result, style, &length);
  if (html) add_page(pages, NULL, html, length);
  return html != NULL;
}

static bool run(xsltStylesheet *style, const ts_xml *xml, ts_document_guard *guard,
                const parameter *parameters, int count, page_list *pages, ts_text *said) {
  xsltTransformContext *context = xsltNewTransformContext(style, ts_xml_document(xml));
  if (!context) return false;
  xmlDoc *result = NULL;
  if (set_up(context, guard, parameters, count, said))
    result = xsltApplyStylesheetUser(style, ts_xml_document(xml), NULL, NULL, NULL, context);
  bool good = result && context->state == XSLT_STATE_OK && save_all(result, style, pages);
  xmlFreeDoc(result);
  xsltFreeTransformContext(context);
  return good;
}

static const char *style_text(ts_arena *arena, const char *folder, const char *name,
                              ts_diagnostics *problems) {
  const char *path = ts_path_join(arena, folder, name);
  return ts_file_read(arena, path, STYLE_LIMIT, NULL, problems);
}

/* What is to be made; what does not apply is NULL. */
typedef struct {
  const char *stylesheet, *sheet, *task, *finding, *pdf, *parts, *language;
} request;

static const char *or_nothing(const char *text) { return text ? text : ""; }

/* What only a page needs; false where a file of it cannot be read. */
static bool page_parameters(parameter *into, ts_arena *arena, const char *folder,
                            ts_diagnostics *problems) {
  const char *script = style_text(arena, folder, "reading.js", problems);
  char *digest = ts_arena_alloc(arena, TS_DIGEST_BASE64);
  const parameter page[PAGE_PARAMETERS] = {
      {"css", style_text(arena, folder, "page.css", problems)},
      {"browser-css", style_text(arena, folder, "browser.css", problems)},
      {"sheets-css", style_text(arena, folder, "sheets.css", problems)},
      {"script", or_nothing(script)},
      {"script-digest", script ? ts_digest_base64(script, strlen(script), digest) : ""},
  };
  memcpy(into, page, sizeof page);
  return page[0].value && page[1].value && page[2].value && script;
}

/* A list of words that could not be read to its end is only said, and an empty one taken for it:
 * whatever is said, there is no paper. */
static bool guarded(request r, const char *folder, const ts_xml *xml, ts_arena *arena,
                    page_list *pages, ts_text *said, ts_diagnostics *problems) {
  ts_document_guard guard;
  listeners before = listen(said);
  const char *path = ts_path_join(arena, folder, r.stylesheet);
  xsltStylesheet *style = ts_document_guard_begin(&guard) ? load(path) : NULL;
  parameter parameters[PARAMETERS] = {
      {"sheet", or_nothing(r.sheet)},     {"task", or_nothing(r.task)},
      {"finding", or_nothing(r.finding)}, {"pdf", or_nothing(r.pdf)},
      {"parts", or_nothing(r.parts)},     {"into", or_nothing(r.language)},
  };
  bool page = style && !makes(style, "text");
  bool good =
      style && (!page || page_parameters(parameters + TEXT_PARAMETERS, arena, folder, problems));
  good = good &&
         run(style, xml, &guard, parameters, page ? PARAMETERS : TEXT_PARAMETERS, pages, said) &&
         said->length == 0;
  ts_document_guard_end(&guard);
  listen_no_more(before);
  xsltFreeStylesheet(style);
  return good;
}

/* Release the pages in any case. */
static bool transform_all(request r, const ts_xml *xml, page_list *pages,
                          ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  const char *folder = ts_data_path(arena, "templates");
  ts_text said = {0};
  size_t errors = ts_count(problems, TS_ERROR);
  ts_document_plain(ts_xml_root(xml));
  bool good = guarded(r, folder, xml, arena, pages, &said, problems);
  if (!good && ts_count(problems, TS_ERROR) == errors)
    report_said(&said, ts_path_join(arena, folder, r.stylesheet), problems);
  ts_text_release(&said);
  ts_arena_free(arena);
  return good;
}

static char *transform(request r, const ts_xml *xml, size_t *length, ts_diagnostics *problems) {
  page_list pages = {0};
  char *html = NULL;
  if (transform_all(r, xml, &pages, problems)) {
    html = pages.at[0].html;
    *length = pages.at[0].length;
    pages.at[0].html = NULL;
  }
  release_pages(&pages);
  return html;
}

static const ts_sheet *known_sheet(const char *name, ts_diagnostics *problems) {
  const ts_sheet *sheet = ts_sheet_find(name);
  if (sheet) return sheet;
  const char *const *names = ts_sheet_names();
  size_t count = 0;
  while (names[count]) count++;
  const char *near = ts_nearest(name, names, count);
  ts_report(problems, TS_ERROR, "assessment.xml", 0, "no sheet \"%s\"; the nearest name is \"%s\"",
            name, near ? near : names[0]);
  return NULL;
}

bool ts_sheet_render(const char *assessment_xml, size_t length, const char *sheet,
                     const char *subject, const char *paper, char **html, size_t *html_length,
                     ts_diagnostics *problems) {
  *html = NULL;
  *html_length = 0;
  const ts_sheet *which = known_sheet(sheet, problems);
  if (!which || !ts_document_paper(paper, problems)) return false;
  ts_xml *xml = ts_document_open(assessment_xml, length, which->leaves_out, problems);
  if (xml && !which->attaches) ts_document_withhold(ts_xml_root(xml));
  if (xml && subject_fits(which, subject, xml, problems))
    *html =
        transform((request){.stylesheet = which->stylesheet, .sheet = which->name, .task = subject},
                  xml, html_length, problems);
  ts_xml_free(xml);
  return *html != NULL;
}

bool ts_sheet_render_each(const char *assessment_xml, size_t length, const char *sheet,
                          const char *paper, ts_page_taker take, void *data,
                          ts_diagnostics *problems) {
  const ts_sheet *which = known_sheet(sheet, problems);
  if (!which || !ts_document_paper(paper, problems)) return false;
  ts_xml *xml = ts_document_open(assessment_xml, length, which->leaves_out, problems);
  page_list pages = {0};
  if (xml && !which->attaches) ts_document_withhold(ts_xml_root(xml));
  request r = {.stylesheet = which->stylesheet, .sheet = which->name};
  bool good = xml && transform_all(r, xml, &pages, problems);
  ts_xml_free(
      xml); /* before the pages are taken: it is the larger part, and a PDF takes its time */
  for (size_t i = 0; good && i < pages.count; i++)
    good = take(data, pages.at[i].task, pages.at[i].html, pages.at[i].length);
  release_pages(&pages);
  return good;
}

/* The language asked for, else that of the production; NULL with a report for one that there is
 * none of. Both in the arena. */
static const char *language_of(ts_arena *arena, const ts_xml *xml, const char *asked,
                               ts_diagnostics *problems) {
  const xmlNode *child = ts_xml_root(xml)->children;
  while (child && !ts_same((const char *)child->name, "production")) child = child->next;
  xmlChar *own = child ? xmlGetNoNsProp(child, BAD_CAST "language") : NULL;
  const char *language = asked ? asked : ts_arena_copy(arena, (const char *)own);
  xmlFree(own);
  if (!language) return TS_WRITTEN_IN;
  return ts_language_known(language, asked ? "--language" : "assessment.xml", 0, problems)
             ? language
             : NULL;
}

bool ts_assessment_in_language(const char *assessment_xml, size_t length, const char *language,
                               char **translated, size_t *translated_length,
                               ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  ts_xml *xml = ts_document_open(assessment_xml, length, TS_ALL_BUT_SCHEDULE, problems);
  const char *into = xml ? language_of(arena, xml, language, problems) : NULL;
  bool turned = into && !ts_same(into, TS_WRITTEN_IN); /* else it need not be held for this */
  ts_xml_free(xml);
  xml = turned ? ts_document_open(assessment_xml, length, NULL, problems) : NULL;
  *translated = NULL;
  if (ts_same(into, TS_WRITTEN_IN)) {
    *translated = ts_alloc(length + 1);
    memcpy(*translated, assessment_xml, length);
    (*translated)[ *translated_length = length] = '\0';
  } else if (xml) {
    request r = {.stylesheet = "language.xsl", .language = into};
    *translated = transform(r, xml, translated_length, problems);
  }
  ts_xml_free(xml);
  ts_arena_free(arena);
  return *translated != NULL;
}

bool ts_sheet_spreadsheet(const char *assessment_xml, size_t length, const char *sheet,
                          char **bytes, size_t *bytes_length, ts_diagnostics *problems) {
  *bytes = NULL;
  const ts_sheet *which = known_sheet(sheet, problems);
  if (!which || !which->spreadsheet) return false;
  ts_xml *xml = ts_document_open(assessment_xml, length, which->leaves_out, problems);
  size_t count = 0;
  if (xml) ts_document_withhold(ts_xml_root(xml));
  char *content =
      xml ? transform((request){.stylesheet = which->spreadsheet}, xml, &count, problems) : NULL;
  ts_text ods = {0};
  if (content && ts_document_spreadsheet(content, count, NULL, &ods)) {
    *bytes = ods.data; /* ts_text grows with malloc: the caller frees it */
    *bytes_length = ods.length;
  } else {
    ts_text_release(&ods);
  }
  free(content);
  ts_xml_free(xml);
  return *bytes != NULL;
}

bool ts_sheet_index(const char *assessment_xml, size_t length, const char *pdfs, char **html,
                    size_t *html_length, ts_diagnostics *problems) {
  ts_xml *xml = ts_document_open(assessment_xml, length, TS_ALL_BUT_SCHEDULE, problems);
  request r = {
      .stylesheet = "index.xsl", .sheet = "index", .pdf = pdfs ? "yes" : "no", .parts = pdfs};
  *html = xml ? transform(r, xml, html_length, problems) : NULL;
  ts_xml_free(xml);
  return *html != NULL;
}

bool ts_document_transform(const char *stylesheet, const char *name, const char *bytes,
                           size_t length, char **result, size_t *result_length,
                           ts_diagnostics *problems) {
  ts_xml *xml = ts_xml_read(bytes, length, name, problems);
  request r = {.stylesheet = stylesheet};
  *result = xml ? transform(r, xml, result_length, problems) : NULL;
  ts_xml_free(xml);
  return *result != NULL;
}

bool ts_reference_render(const char *reference_xml, size_t length, char **html, size_t *html_length,
                         ts_diagnostics *problems) {
  return ts_document_transform("reference.xsl", "reference.xml", reference_xml, length, html,
                               html_length, problems);
}

bool ts_schema_compact(const char *schema, size_t length, char **compact, size_t *compact_length,
                       ts_diagnostics *problems) {
  return ts_document_transform("compact.xsl", "dossier.rng", schema, length, compact,
                               compact_length, problems);
}

bool ts_finding_text(const char *assessment_xml, size_t length, const char *finding, char **text,
                     ts_diagnostics *problems) {
  size_t count = 0;
  *text = NULL;
  ts_xml *xml = ts_document_open(assessment_xml, length, NULL, problems);
  if (xml)
    *text = transform((request){.stylesheet = "explain.xsl", .finding = finding}, xml, &count,
                      problems);
  ts_xml_free(xml);
  return *text != NULL;
}

bool ts_comparison_render(const char *comparison, size_t length, const char *as, char **out,
                          size_t *out_length, ts_diagnostics *problems) {
  const char *sheet = ts_same(as, "text")    ? "comparison-text.xsl"
                      : ts_same(as, "brief") ? "comparison-brief.xsl"
                                             : "comparison.xsl";
  return ts_document_transform(sheet, "comparison", comparison, length, out, out_length, problems);
}
