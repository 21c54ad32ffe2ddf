/* Documents: an assessment turned into paper.
 *
 * A sheet is one document for one kind of reader. Everything it says is in
 * assessment.xml (shared/schema/assessment.rng); how it looks is decided by
 * the stylesheets in templates/. Nothing here computes a score.
 *
 * The HTML is the accessible edition: one self-contained file, no address outside
 * itself, printable from any browser. The assessment and the reviewer's page carry
 * a script of aids for reading, which asks for nothing and keeps nothing; without
 * it the page is whole. The PDF is the same HTML
 * set by the separate program `weasyprint` with page numbers and running heads
 * added. Same assessment, same bytes, for both.
 */
#ifndef TANKSIDE_DOCUMENT_H
#define TANKSIDE_DOCUMENT_H

#include "tankside/assess.h"
#include "tankside/diagnostics.h"
#include <stdbool.h>
#include <stddef.h>

typedef struct {
  const char *name;        /* on the command line: "assessment", "task" */
  const char *title;       /* for --help: "full assessment" */
  const char *stylesheet;  /* file in templates/: gives HTML, or CSV where there is a spreadsheet */
  bool per_task;           /* printed once for each task, named by its path */
  bool attaches;           /* its reader may see everything, so that its PDF may carry assessment.xml */
  bool own_pdf;            /* set as PDF by itself; the others' pages stand in that of "set" */
  const char *spreadsheet; /* file in templates/ for the content of its spreadsheet; NULL for a page */
  const char *leaves_out;  /* elements of an assessment that it prints nothing of, apart by spaces: they are
                              not held while it is made, since they may be most of it; NULL for none */
} ts_sheet;

/* All sheets, ended by one whose name is NULL. Static. */
const ts_sheet *ts_sheets(void);

/* Their names, NULL-terminated. Static. */
const char *const *ts_sheet_names(void);

/* The sheet of that name, or NULL. Static. */
const ts_sheet *ts_sheet_find(const char *name);

/* Calls `visit` with the path of each task of the schedule, in order, until it
 * returns false. The path lives only during the call. False when the
 * assessment cannot be read (reported) or `visit` stopped. */
bool ts_sheet_each_task(const char *assessment_xml, size_t length,
                        bool (*visit)(void *data, const char *path), void *data,
                        ts_diagnostics *problems);

enum { TS_LANGUAGES_MAX = 64 };

/* Whether papers can be printed in a language ("en-GB", "fr"): whether templates/ has its list of
 * words. False with a report against `where` and `line` (0: none) that names the nearest. */
bool ts_language_known(const char *language, const char *where, int line,
                       ts_diagnostics *problems);

/* An assessment as the sheets print it in another language: texts of rules, controls and matrix
 * that have a translation, names and dates in workings, days in words, decimal marks. `language`
 * NULL: what the dossier asks for, else as it is. The result is for the functions below, not for
 * keeping: assessment.xml is written in English, once. NUL-terminated, for free(); false with a
 * report. */
bool ts_assessment_in_language(const char *assessment_xml, size_t length, const char *language,
                               char **translated, size_t *translated_length,
                               ts_diagnostics *problems);

/* Renders one sheet to HTML (UTF-8).
 *   sheet    a name from ts_sheet_names()
 *   subject  path of the task for a sheet printed per task, else NULL
 *   paper    "a4" or "letter"; NULL means "a4"
 * On success *html is NUL-terminated and the caller frees it with free().
 * False with a report otherwise, *html then NULL. */
bool ts_sheet_render(const char *assessment_xml, size_t length, const char *sheet,
                     const char *subject, const char *paper, char **html, size_t *html_length,
                     ts_diagnostics *problems);

/* Takes a page; false stops. The texts live only during the call. */
typedef bool (*ts_page_taker)(void *data, const char *task, const char *html, size_t length);

/* All pages of a sheet printed per task, in the order of the schedule, from one reading: the time is
 * that of what is printed, however many tasks there are. False with a report when one cannot be
 * made, or when `take` stopped. */
bool ts_sheet_render_each(const char *assessment_xml, size_t length, const char *sheet,
                          const char *paper, ts_page_taker take, void *data,
                          ts_diagnostics *problems);

/* The same sheet as an OpenDocument spreadsheet, for one that has one: *bytes for free(). */
bool ts_sheet_spreadsheet(const char *assessment_xml, size_t length, const char *sheet,
                          char **bytes, size_t *bytes_length, ts_diagnostics *problems);

/* A page of links to every file that belongs to an assessment, as `tankside assess -o` names them
 * beside it. `pdfs` NULL: to no PDF; else to each, and to as many parts as it says: "set/4 " for the
 * sheet that is set in four, one after another, nothing of those in one. NUL-terminated, for free(). */
bool ts_sheet_index(const char *assessment_xml, size_t length, const char *pdfs, char **html,
                    size_t *html_length, ts_diagnostics *problems);

/* One of the files that `tankside assess -o` writes beside assessment.xml. */
typedef struct {
  const char *name;      /* "task-dusk.html" */
  const char *form;      /* "html", "csv", "ods", "pdf" */
  const ts_sheet *sheet; /* NULL: the index */
  const char *task;      /* of a sheet printed per task, else NULL */
} ts_sheet_file;

/* Calls `visit` with each of them, a PDF after the HTML it is set from and the index last, until it
 * returns false; without PDF where `pdf` is false. Names live only during the call. False when the
 * assessment cannot be read (reported) or `visit` stopped. */
bool ts_sheet_each_file(const char *assessment_xml, size_t length, bool pdf,
                        bool (*visit)(void *data, const ts_sheet_file *file), void *data,
                        ts_diagnostics *problems);

/* Takes one of them with its content, which lives only during the call; of a PDF, which is still to be
 * set from the HTML before it, `bytes` is NULL. False stops. */
typedef bool (*ts_file_taker)(void *data, const ts_sheet_file *file, const char *bytes, size_t length);

/* Makes each of them but the index, in the same order, the assessment being read once for each sheet
 * in each form, however many tasks there are. False with a report when one cannot be made, or when
 * `take` stopped. */
bool ts_sheet_make_each_file(const char *assessment_xml, size_t length, bool pdf, const char *paper,
                             ts_file_taker take, void *data, ts_diagnostics *problems);

/* Whether a document is what is made from its assessment: `given` against `expected`. Where an HTML
 * differs each element is named, of CSV the line, of a PDF the object and the page; a document that
 * says it was made from another assessment than `digest` (ts_assessment_digest) is named as that. A
 * report for each, the first `limit` of them; *count is how many there are. */
void ts_sheet_file_differences(const char *given, size_t given_length, const char *expected,
                               size_t expected_length, const char *form, const char *digest,
                               const char *name, size_t limit, size_t *count,
                               ts_diagnostics *problems);

/* Everything an assessment says of one finding or duty ("F12", "D3"), as plain text (UTF-8):
 * lines of a head, a tab and a text to be folded under it; empty where there is none of that
 * id. NUL-terminated, for free(). It is for those who may see everything. False with a report
 * when the assessment cannot be read. */
bool ts_finding_text(const char *assessment_xml, size_t length, const char *finding, char **text,
                     ts_diagnostics *problems);

/* Compares two assessments, `bytes[0]` the old and `bytes[1]` the new, and says as XML (root
 * <comparison>, format 1) what is not the same: facts, applied controls, rule files and other
 * inputs, waivers, facts not known that some finding rests on; and which findings and duties came, went, rose, fell or shifted (changed in
 * another view, or on their best side), each with every difference that lies behind it: a fact
 * that it rests on or that its rule reads, a control that reaches one, its rule file or a shared
 * one, the matrix, the program. `names` are used in messages. NUL-terminated, for free(). Nothing
 * is computed again. False with a report when either cannot be read. */
bool ts_compare(const char *const bytes[2], const size_t lengths[2], const char *const names[2],
                char **xml, size_t *length, ts_diagnostics *problems);

/* The same of two assessments that are at hand, `made[0]` the old. Where their dossiers differ in
 * values of facts alone and packs and matrix are the same, no more of them is written than may
 * differ: then the comparison counts nothing as alike and says nothing of the inputs. */
bool ts_compare_made(const ts_assessment *const made[2], char **xml, size_t *length,
                     ts_diagnostics *problems);

/* Whether an assessment is what follows: `given` against the `expected` one that the same facts
 * and rules gave just now. Each place where they differ is reported against `name` with its line,
 * what was found and what follows, the first `limit` of them; *count is how many there are. The
 * bytes count too: the same text is written for the same inputs. False when one cannot be read. */
bool ts_assessment_differences(const char *given, size_t given_length, const char *expected,
                               size_t expected_length, const char *name, size_t limit,
                               size_t *count, ts_diagnostics *problems);

/* A comparison as "text" (lines of a head, a tab and a text, as ts_finding_text), as "brief" (a few
 * such lines: what was changed, and what stands otherwise with what is in place) or as "html" (a
 * page that ts_sheet_pdf can set). NUL-terminated, for free(). False with a report otherwise. */
bool ts_comparison_render(const char *comparison, size_t length, const char *as, char **out,
                          size_t *out_length, ts_diagnostics *problems);

/* Renders the reference (what `tankside vocabulary --as xml` writes) to one page of HTML, as
 * ts_sheet_render does. */
bool ts_reference_render(const char *reference_xml, size_t length, char **html,
                         size_t *html_length, ts_diagnostics *problems);

/* A RELAX NG schema in XML syntax, as ts_vocabulary_write_schema gives it, in the compact syntax.
 * NUL-terminated, for free(); false with a report. */
bool ts_schema_compact(const char *schema, size_t length, char **compact, size_t *compact_length,
                       ts_diagnostics *problems);

/* Sets an HTML file made by ts_sheet_render as PDF. Whole or not at all. What
 * weasyprint says becomes warnings; a missing weasyprint is an error that
 * names the package. A page too long for one PDF is set in parts, in files that
 * ts_sheet_pdf_name names, each complete in itself. */
bool ts_sheet_pdf(const char *html_path, const char *pdf_path, const char *paper,
                  ts_diagnostics *problems);

/* The same, with the file `attachment` carried inside the PDF under its own
 * name, so that a reviewer can verify from the paper file alone. For sheets
 * that attach only: the others may be for readers who must not see all of it.
 * Of several parts the first carries it. */
bool ts_sheet_pdf_with(const char *html_path, const char *pdf_path, const char *paper,
                       const char *attachment, ts_diagnostics *problems);

/* In how many PDFs such a page is set: 1, or more where it would have more than
 * about two hundred sheets of paper. */
size_t ts_sheet_pdf_parts(const char *html, size_t length);

/* The file of one of them, from 1: "assessment-part-02.pdf" for "assessment.pdf", or that itself
 * where it is the only one. Into `name`, which has `size` bytes. */
void ts_sheet_pdf_name(const char *pdf, size_t part, size_t parts, char *name, size_t size);
/* Whether a file is called as one of several that such a PDF is set in: "card-part-02.pdf" of
 * "card.pdf". Whatever is in it. */
bool ts_sheet_is_part_of(const char *pdf, const char *name);
/* The same of any sheet that has a PDF of its own. */
bool ts_sheet_is_part(const char *name);

#endif
