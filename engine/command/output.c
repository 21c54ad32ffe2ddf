/* Output: what may be replaced, and how files appear together. */
#include "command/output.h"
#include "base/file.h"
#include "base/text.h"
#include "document/mark.h"
#include "tankside/document.h"
#include <errno.h>
#include <string.h>

static bool failed(const ts_session *s, const char *path) {
  char reason[128];
  ts_report(s->problems, TS_ERROR, path, 0, "cannot be written: %s",
            strerror_r(errno, reason, sizeof reason));
  return false;
}

/* ---- what stands there already -------------------------------------------------- */

bool output_free(const ts_session *s, const ts_options *options, const char *path) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  bool free_to = options->force || !ts_file_exists(path);
  ts_origin origin = free_to ? TS_WRITTEN : ts_file_origin(path, ASSESSMENT_LIMIT, unsaid);
  ts_diagnostics_free(unsaid);
  if (origin == TS_FOREIGN)
    ts_report(s->problems, TS_ERROR, path, 0,
              "was not written by tankside, or was changed since, and is left alone; write "
              "elsewhere, or replace it with --force");
  if (origin == TS_SIGNED)
    ts_report(s->problems, TS_ERROR, path, 0,
              "is signed and is left alone; write elsewhere, or replace it with --force");
  return origin == TS_WRITTEN;
}

/* ---- one file --------------------------------------------------------------------- */

bool output_file(ts_session *s, const ts_options *options, const char *path, const char *bytes,
                 size_t length) {
  return output_free(s, options, path) && ts_file_write(path, bytes, length, s->problems);
}

/* ---- an assessment, as it is written ------------------------------------------------ */

typedef struct {
  const ts_assessment *assessment;
  int file, why; /* errno of the piece that could not be written */
} pouring;

static bool add_piece(void *context, const char *bytes, size_t length) {
  pouring *p = context;
  bool good = ts_file_add(p->file, bytes, length);
  p->why = errno;
  return good;
}

static bool pour(void *context, int file) {
  pouring *p = context;
  p->file = file;
  bool good = ts_assessment_write_to(p->assessment, add_piece, p);
  if (!good) errno = p->why;
  return good;
}

bool output_assessment(ts_session *s, const ts_options *options, const char *path,
                       const ts_assessment *assessment) {
  pouring p = {.assessment = assessment};
  return output_free(s, options, path) && ts_file_fill(path, pour, &p, s->problems);
}

/* ---- several ---------------------------------------------------------------------- */

bool output_begin(ts_output *o, ts_session *s, const ts_options *options, const char *folder) {
  *o = (ts_output){.s = s, .options = options, .folder = folder};
  o->staging = ts_staging_new(folder);
  if (o->staging == NULL || !ts_staging_clear_at_exit(o->staging)) return failed(s, folder);
  o->hidden = ts_path_join(s->arena, folder, ts_staging_name(o->staging));
  return true;
}

/* What was said of a file while it was made is said of it where it belongs. */
void output_end(ts_output *o) {
  if (o->hidden != NULL) ts_diagnostics_rename(o->s->problems, o->hidden, o->folder);
  ts_staging_free(o->staging);
}

bool output_may_be(const ts_output *o, const char *name) {
  return output_free(o->s, o->options, ts_path_join(o->s->arena, o->folder, name));
}

const char *output_path(const ts_output *o, const char *name) {
  return ts_path_join(o->s->arena, o->hidden, name);
}

bool output_put(const ts_output *o, const char *name, const char *bytes, size_t length) {
  return ts_file_write(output_path(o, name), bytes, length, o->s->problems);
}

bool output_put_assessment(const ts_output *o, const char *name, const ts_assessment *assessment) {
  pouring p = {.assessment = assessment};
  return ts_file_fill(output_path(o, name), pour, &p, o->s->problems);
}

static bool is_among(const char *name, char *const *names) {
  while (*names != NULL && !ts_same(*names, name)) names++;
  return *names != NULL;
}

/* What an earlier run wrote into the folder and this one did not; NULL with a report when one
 * cannot be read. */
static const char **find_stale(const ts_output *o, char *const *names,
                               bool (*belongs)(const void *, const char *), const void *context) {
  ts_session *s = o->s;
  char **there = ts_folder_list(s->arena, o->folder, "", s->problems);
  size_t count = 0, stale = 0, errors = ts_count(s->problems, TS_ERROR);
  while (there != NULL && there[count] != NULL) count++;
  const char **found = ts_arena_alloc(s->arena, (count + 1) * sizeof *found);
  for (size_t i = 0; i < count; i++)
    if (belongs(context, there[i]) && !is_among(there[i], names) &&
        ts_file_origin(ts_path_join(s->arena, o->folder, there[i]), ASSESSMENT_LIMIT,
                       s->problems) == TS_WRITTEN)
      found[stale++] = there[i];
  return there != NULL && ts_count(s->problems, TS_ERROR) == errors ? found : NULL;
}

bool output_publish(const ts_output *o, bool (*belongs)(const void *context, const char *name),
                    const void *context) {
  ts_session *s = o->s;
  char **names = ts_folder_list(s->arena, o->hidden, "", s->problems);
  bool good = names != NULL;
  for (size_t i = 0; names != NULL && names[i] != NULL; i++)
    good = output_may_be(o, names[i]) && good;
  if (!good) return false;
  const char **stale = find_stale(o, names, belongs, context);
  if (stale == NULL) return false;
  return ts_staging_publish(o->staging, (const char *const *)names, stale) || failed(s, o->folder);
}

/* ---- a PDF with its page -------------------------------------------------------------- */

static bool is_of_pdf(const void *pdf, const char *name) {
  return ts_same(pdf, name) || ts_sheet_is_part_of(pdf, name);
}

static bool set_pdf(const ts_output *o, const char *name, const char *html, size_t length,
                    const char *attachment) {
  const char *page = ts_arena_printf(o->s->arena, "%s.html", name);
  bool wanted = output_may_be(o, page);
  wanted = output_may_be(o, name) && wanted;
  return wanted && output_put(o, page, html, length) &&
         ts_sheet_pdf_with(output_path(o, page), output_path(o, name), o->options->paper,
                           attachment, o->s->problems) &&
         output_publish(o, is_of_pdf, name);
}

bool output_pdf(ts_session *s, const ts_options *options, const char *html, size_t length,
                const char *attachment) {
  ts_output o;
  const char *path = ts_path_target(s->arena, options->out);
  bool good = output_begin(&o, s, options, ts_path_folder(s->arena, path)) &&
              set_pdf(&o, ts_path_name(path), html, length, attachment);
  output_end(&o);
  return good;
}
