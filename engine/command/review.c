/* tankside review: a register over many assessments. */
#include "tankside/review.h"

#include "base/file.h"
#include "base/text.h"
#include "command/output.h"
#include "command/paths.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  ts_session *s;
  const ts_options *options;
  ts_paths paths; /* of assessments */
  ts_book *book;
} reviewer;

/* ---- which assessments ----------------------------------------------------------------------- */

static bool is_xml(const char *text) { return text[strspn(text, " \t\r\n\xEF\xBB\xBF")] == '<'; }

/* What cannot be opened is found all the same: then the book names it as not read. */
static bool is_list(reviewer *r, const char *path) {
  char head[64] = "";
  if (ts_folder_exists(path)) return false;
  int file = ts_file_open(path, ASSESSMENT_LIMIT, r->s->problems);
  if (file < 0) return false;
  int length = ts_file_next(file, head, sizeof head - 1);
  ts_file_close(file);
  return length >= 0 && !is_xml(head);
}

/* All of them, each once, in byte order: the same book whatever order it was asked for in. */
static bool gather(reviewer *r) {
  bool good = true;
  r->paths = (ts_paths){.s = r->s, .name = "assessment.xml"};
  for (size_t i = 0; i < r->options->word_count; i++) {
    const char *word = r->options->words[i];
    good = (is_list(r, word) ? paths_add_list : paths_add)(&r->paths, word) && good;
  }
  paths_in_order(&r->paths);
  if (good && r->paths.count == 0)
    ts_report(r->s->problems, TS_ERROR, r->options->words[0], 0, "no assessment.xml here or below");
  return r->paths.count > 0;
}

/* ---- the book -------------------------------------------------------------------------- */

static bool read_all(reviewer *r) {
  const char *trust = r->options->trust, *authorities = NULL;
  if (trust != NULL)
    authorities = ts_file_read(r->s->arena, trust, KEY_LIMIT, NULL, r->s->problems);
  if (trust != NULL && authorities == NULL) return false;
  r->book = ts_book_new(r->s->units, r->options->on, authorities, r->s->problems);
  for (size_t i = 0; r->book != NULL && i < r->paths.count; i++)
    ts_book_add(r->book, r->paths.at[i].path, ASSESSMENT_LIMIT, r->s->problems);
  return r->book != NULL && ts_book_close(r->book, r->s->problems);
}

static bool show(const reviewer *r) {
  const char *as = r->options->as != NULL ? r->options->as : "text", *out = r->options->out;
  char *made;
  size_t length;
  if (ts_same(as, "sqlite"))
    return output_free(r->s, r->options, out) && ts_book_write(r->book, out, r->s->problems);
  if (!ts_book_render(r->book, as, &made, &length, r->s->problems)) return false;
  bool good = true;
  if (ts_same(as, "text"))
    print_lines(r->s->arena, made);
  else if (out != NULL)
    good = output_file(r->s, r->options, out, made, length);
  else
    good = fwrite(made, 1, length, stdout) == length;
  free(made);
  return good;
}

static int status_of(const reviewer *r) {
  ts_book_count n = ts_book_counted(r->book);
  if (n.read == 0) return NOT_DONE;
  return n.unread > 0 || n.altered > 0 ? LOOK : DONE;
}

/* ---- the verb -------------------------------------------------------------------------- */

static const char *const forms[] = {"text", "csv", "html", "sqlite", "xml", NULL};

static int wrong_request(const ts_options *options) {
  size_t count = sizeof forms / sizeof *forms - 1;
  bool known = options->as == NULL;
  for (size_t i = 0; i < count; i++) known = known || ts_same(options->as, forms[i]);
  if (!known) return unknown("form", options->as, forms, count);
  if (ts_same(options->as, "sqlite") && options->out == NULL)
    return usage_error("a database needs a file to go to: -o FILE");
  if (options->out != NULL && (options->as == NULL || ts_same(options->as, "text")))
    return usage_error("-o is for --as csv, html, sqlite and xml; a text goes to standard output");
  return DONE;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  reviewer r = {.s = &s, .options = options};
  int status = wrong_request(options);
  if (status != DONE) return status;
  bool good = session_open(&s) && gather(&r) && read_all(&r) && show(&r);
  status = good ? status_of(&r) : NOT_DONE;
  ts_book_free(r.book);
  free(r.paths.at);
  session_close(&s);
  return status;
}

const ts_verb verb_review = {
    .name = "review",
    .usage = "review FOLDER|LIST|ASSESSMENT... [--on DATE] [--trust FILE] [--as FORM] [-o FILE]",
    .summary = "a register over many assessments",
    .details =
        "Reads every assessment.xml in the folders given and below them, or those that a list\n"
        "names (one path a line), and makes a register of the book: whose each is, who signed\n"
        "it and whether that holds, stops, what stands above the line, duties not met, who is\n"
        "in the water, how long and how deep, minors by number, open questions, what has\n"
        "lapsed, waivers, packs, matrices and versions that are unlike the rest, and what was\n"
        "left incomplete. Nothing is assessed again, and nothing confidential is shown.\n\n"
        "  text    what to look at first, then each assessment (standard output)\n"
        "  csv     one row an assessment, for a spreadsheet\n"
        "  html    a page that can be sorted and searched\n"
        "  sqlite  every finding, duty and question too, to be queried; needs -o FILE\n\n"
        "  tankside review book/ --on 2027-10-08 --trust company.crt\n"
        "  tankside review book/ --as sqlite -o book.db\n"
        "  sqlite3 book.db 'SELECT title, deepest FROM register WHERE minors > 0'\n\n"
        "--on is the day as of which certificates and licences have lapsed; without it only\n"
        "those are named that lapse before the last day of their own work. What cannot be\n"
        "read is named, and the rest is read.\n\n"
        "Exit status: 0 all were read; 1 some were not, or a signature does not hold; 2 none.",
    .takes = OPTION_AS | OPTION_OUT | OPTION_ON | OPTION_TRUST | OPTION_FORCE,
    .least = 1,
    .most = WORDS_MAX,
    .kinds = {AN_ASSESSMENT},
    .forms = forms,
    .needs = WRITES_OUT | WRITES_SCRATCH,
    .run = run};
