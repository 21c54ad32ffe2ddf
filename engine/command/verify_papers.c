/* verify: the documents beside an assessment, each made again and held against the file there. */
#include "command/verify_papers.h"

#include "base/file.h"
#include "base/text.h"
#include "tankside/document.h"
#include "tankside/sign.h"
#include <limits.h>
#include <stdlib.h>
#include <string.h>

enum { PAPER_LIMIT = 512 * 1024 * 1024, PLACES = 10, LANGUAGE_SIZE = 16 };

typedef struct {
  ts_session *s;
  const ts_options *options;
  const char *folder, *digest;
  const char *bytes; /* the assessment in the language of the papers */
  size_t length;
  bool pdf;               /* the index lists PDFs */
  const char *scratch;    /* a folder for what is set again */
  const char *attachment; /* the assessment, in it */
  const char *expected;   /* the file of the HTML made last, of which a PDF is set */
  size_t expected_parts;  /* in so many */
  ts_text parts;          /* those that are set in several, for the index: "set/4 " */
  papers_count *count;
  const char **names; /* of what belongs to it */
  size_t name_count, name_capacity;
} verifier;

static void is_wrong(verifier *v, const char *path, const char *what) {
  ts_report(v->s->problems, TS_ERROR, path, 0, "%s", what);
  v->count->wrong++;
}

static void hold(verifier *v, const char *path, const ts_sheet_file *file, const char *expected,
                 size_t length) {
  ts_arena *arena = ts_arena_new();
  size_t given_length = 0, places = 0;
  const char *given = ts_file_read(arena, path, PAPER_LIMIT, &given_length, v->s->problems);
  v->count->looked++;
  if (given != NULL)
    ts_sheet_file_differences(given, given_length, expected, length, file->form, v->digest, path,
                              PLACES, &places, v->s->problems);
  v->count->wrong += given == NULL || places > 0;
  ts_arena_free(arena);
}

/* ---- PDF: set again, which gives the same bytes where program and typefaces are the same ---- */

/* What follows a mark, up to `end`; "" where it is not there. */
static const char *after(ts_arena *arena, const char *bytes, size_t length, const char *mark,
                         const char *end) {
  const char *at = memmem(bytes, length, mark, strlen(mark));
  return at ? ts_arena_copy_n(arena, at + strlen(mark), strcspn(at + strlen(mark), end)) : "";
}

/* US Letter is 612 points wide, and said so in every page. */
static const char *paper_of(const char *pdf, size_t length) {
  return memmem(pdf, length, "/MediaBox [ 0 0 612", 19) != NULL ? "letter" : "a4";
}

static bool set_again(verifier *v, const ts_sheet_file *file, const char *paper, const char *into) {
  const char *html = v->expected;
  return file->sheet->attaches ? ts_sheet_pdf_with(html, into, paper, v->attachment, v->s->problems)
                               : ts_sheet_pdf(html, into, paper, v->s->problems);
}

/* Another WeasyPrint sets other bytes: then only what the paper says of itself can be looked at. */
static bool by_another(verifier *v, const char *path, const char *given, size_t length,
                       const char *again, size_t again_length) {
  ts_arena *arena = v->s->arena;
  const char *was = after(arena, given, length, "/Producer (", ")"),
             *is = after(arena, again, again_length, "/Producer (", ")");
  if (ts_same(was, is)) return false;
  ts_report(v->s->problems, TS_WARNING, path, 0,
            "set by \"%s\", here is \"%s\": whether it was altered cannot be told", was, is);
  v->count->looked++;
  v->count->untold++;
  return true;
}

/* One of the parts, which are all set again with the first of them that is there. */
static bool hold_pdf(verifier *v, const char *path, const ts_sheet_file *file) {
  ts_arena *arena = ts_arena_new();
  size_t length = 0, again_length = 0;
  const char *given = ts_file_read(arena, path, PAPER_LIMIT, &length, v->s->problems);
  const char *into = ts_path_join(arena, v->scratch, ts_path_name(path)), *again = NULL;
  const char *whole = ts_path_join(arena, v->scratch, file->name);
  if (given != NULL && (ts_file_exists(into) || set_again(v, file, paper_of(given, length), whole)))
    again = ts_file_read(arena, into, PAPER_LIMIT, &again_length, v->s->problems);
  bool good = again != NULL || given == NULL;
  if (given == NULL) v->count->wrong++;
  if (again != NULL && !by_another(v, path, given, length, again, again_length))
    hold(v, path, file, again, again_length);
  ts_arena_free(arena);
  return good;
}

/* The HTML as it should be, for the PDF that is set from it. */
static bool keep(verifier *v, const ts_sheet_file *file, const char *html, size_t length) {
  v->expected_parts = ts_sheet_pdf_parts(html, length);
  if (v->expected_parts > 1 && file->sheet != NULL && file->sheet->own_pdf)
    ts_text_addf(&v->parts, "%s/%zu ", file->sheet->name, v->expected_parts);
  v->expected = ts_path_join(v->s->arena, v->scratch, file->name);
  return ts_file_write(v->expected, html, length, v->s->problems);
}

/* ---- one file -------------------------------------------------------------------------- */

/* A file by this name belongs to the assessment: where it should be, and whether it is there. */
static const char *belongs(verifier *v, const char *name, bool wanted, bool *there) {
  const char *path = ts_path_join(v->s->arena, v->folder, name);
  TS_GROW(v->names, v->name_count, v->name_capacity);
  v->names[v->name_count++] = ts_arena_copy(v->s->arena, name);
  *there = ts_file_exists(path);
  if (!*there && wanted) is_wrong(v, path, "is missing: it belongs to this assessment");
  return path;
}

static bool verify_pdf(verifier *v, const ts_sheet_file *file) {
  char name[PATH_MAX];
  bool good = true, there;
  for (size_t i = 1; good && i <= v->expected_parts; i++) {
    ts_sheet_pdf_name(file->name, i, v->expected_parts, name, sizeof name);
    const char *path = belongs(v, name, v->pdf, &there);
    good = !there || v->options->no_pdf || hold_pdf(v, path, file);
  }
  return good;
}

static bool verify_file(void *data, const ts_sheet_file *file, const char *expected,
                        size_t length) {
  verifier *v = data;
  if (expected == NULL) return verify_pdf(v, file);
  bool there;
  const char *path = belongs(v, file->name, true, &there);
  if (there) hold(v, path, file, expected, length);
  return !ts_same(file->form, "html") || keep(v, file, expected, length);
}

static bool verify_index(verifier *v) {
  const ts_sheet_file file = {.name = "index.html", .form = "html"};
  const char *parts = v->parts.length ? v->parts.data : "";
  char *expected = NULL;
  size_t length = 0;
  bool good = ts_sheet_index(v->bytes, v->length, v->pdf ? parts : NULL, &expected, &length,
                             v->s->problems) &&
              verify_file(v, &file, expected, length);
  free(expected);
  return good;
}

/* A sheet of a task, or a part, that this assessment does not have. */
static void verify_rest(verifier *v, const char *form) {
  char **files = ts_folder_list(v->s->arena, v->folder, form, v->s->problems);
  for (; files != NULL && *files != NULL; files++) {
    size_t i = 0;
    while (i < v->name_count && !ts_same(v->names[i], *files)) i++;
    if (i < v->name_count) continue;
    const char *path = ts_path_join(v->s->arena, v->folder, *files);
    if (strncmp(*files, "task-", 5) == 0)
      is_wrong(v, path, "belongs to no task of this assessment");
    else if (ts_sheet_is_part(*files))
      is_wrong(v, path, "is no part of a document of this assessment");
  }
}

/* ---- the folder ------------------------------------------------------------------------ */

/* The page that lists the others tells their language and whether there are PDFs; what it tells is
 * held against what is made like everything else. */
static bool read_index(verifier *v, char language[LANGUAGE_SIZE]) {
  size_t length = 0;
  const char *path = ts_path_join(v->s->arena, v->folder, "index.html"), *index = NULL;
  if (ts_file_exists(path))
    index = ts_file_read(v->s->arena, path, PAPER_LIMIT, &length, v->s->problems);
  if (index == NULL) return false;
  const char *said = after(v->s->arena, index, length, "<html lang=\"", "\"");
  strncpy(language, said, LANGUAGE_SIZE - 1);
  v->pdf = memmem(index, length, ".pdf\"", 5) != NULL;
  return true;
}

/* Whether any document is there: an assessment may stand by itself. */
static bool has_papers(const verifier *v) {
  for (const char *const *name = ts_sheet_names(); *name != NULL; name++) {
    const char *file = ts_arena_printf(v->s->arena, "%s.html", *name);
    if (ts_file_exists(ts_path_join(v->s->arena, v->folder, file))) return true;
  }
  return false;
}

static bool verify_all(verifier *v, const char *original, size_t length) {
  v->scratch = ts_folder_temporary(v->s->arena, v->s->problems);
  if (v->scratch == NULL) return false;
  v->attachment = ts_path_join(v->s->arena, v->scratch, "assessment.xml");
  bool good =
      ts_file_write(v->attachment, original, length, v->s->problems) &&
      ts_sheet_make_each_file(v->bytes, v->length, true, NULL, verify_file, v, v->s->problems) &&
      verify_index(v);
  if (good) {
    verify_rest(v, ".html");
    verify_rest(v, ".pdf");
  }
  ts_text_release(&v->parts);
  free(v->names);
  ts_folder_remove(v->scratch);
  return good;
}

bool papers_verify(ts_session *s, const ts_options *options, const char *folder, const char *bytes,
                   size_t length, papers_count *count) {
  char digest[65], language[LANGUAGE_SIZE] = "", *translated = NULL;
  verifier v = {.s = s, .options = options, .folder = folder, .count = count};
  v.digest = ts_assessment_digest(bytes, length, digest);
  if (!read_index(&v, language) && !has_papers(&v)) return true;
  bool known = language[0] != '\0' && ts_language_known(language, "index.html", 0, s->problems);
  bool good = ts_assessment_in_language(bytes, length, known ? language : NULL, &translated,
                                        &v.length, s->problems);
  v.bytes = translated;
  good = good && verify_all(&v, bytes, length);
  free(translated);
  return good;
}
