#include "command/made_of.h"

#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include "document/mark.h"
#include "tankside/document.h"
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char note[] = "made-of.txt", record[] = "assessment.xml";
enum { NOTE_LIMIT = 1024 * 1024, DIGEST = 64 };

/* All that decides what the papers are. */
static const char *head(const ts_session *s, const ts_options *o) {
  char digest[65];
  ts_assess_inputs inputs = session_inputs(s, o->words[0]);
  return ts_arena_printf(
      s->arena, TS_NOTE_MARK "tankside %s\ninputs %s\npaper %s\nlanguage %s\npapers %s\n",
      TANKSIDE_VERSION, ts_inputs_digest(&inputs, digest), o->paper != NULL ? o->paper : papers[0],
      o->language != NULL ? o->language : "of the dossier",
      o->no_papers ? "none"
      : o->no_pdf  ? "without PDF"
                   : "all");
}

static bool add_file(ts_text *text, const ts_output *out, const char *name) {
  ts_arena *arena = ts_arena_new();
  char digest[65];
  size_t length;
  const char *bytes =
      ts_file_read(arena, output_path(out, name), ASSESSMENT_LIMIT, &length, out->s->problems);
  if (bytes != NULL) ts_text_addf(text, "%s  %s\n", ts_digest(bytes, length, digest), name);
  ts_arena_free(arena);
  return bytes != NULL;
}

bool made_of_put(const ts_output *out, int status, const char *figures) {
  ts_text text = {0};
  char **names = ts_folder_list(out->s->arena, out->hidden, "", out->s->problems);
  bool good = names != NULL;
  ts_text_addf(&text, "%sstatus %d\n%s\n", head(out->s, out->options), status, figures);
  for (size_t i = 0; good && names[i] != NULL; i++) good = add_file(&text, out, names[i]);
  good = good && output_put(out, note, text.data, text.length);
  ts_text_release(&text);
  return good;
}

/* "<digest>  <name>" of a file of the folder. */
static bool is_as_made(const char *folder, const char *line, size_t length) {
  if (length <= DIGEST + 2 || memchr(line, '/', length)) return false;
  ts_arena *arena = ts_arena_new();
  ts_diagnostics *unsaid = ts_diagnostics_new();
  char digest[65];
  const char *name = ts_arena_copy_n(arena, line + DIGEST + 2, length - DIGEST - 2);
  size_t size;
  const char *bytes =
      ts_file_read(arena, ts_path_join(arena, folder, name), ASSESSMENT_LIMIT, &size, unsaid);
  bool same = bytes != NULL && (memcmp(ts_digest(bytes, size, digest), line, DIGEST) == 0 ||
                                ts_document_origin(bytes, size) == TS_SIGNED);
  ts_diagnostics_free(unsaid);
  ts_arena_free(arena);
  return same;
}

/* And the assessment among them: what came out is not believed without what it came from. */
static bool all_as_made(const char *folder, const char *lines) {
  bool has_record = false;
  for (const char *at = lines; *at != '\0';) {
    size_t length = strcspn(at, "\n"), name = length > DIGEST + 2 ? length - DIGEST - 2 : 0;
    if (!is_as_made(folder, at, length)) return false;
    if (name == sizeof record - 1 && memcmp(at + DIGEST + 2, record, name) == 0) has_record = true;
    at += length + (at[length] == '\n');
  }
  return has_record;
}

/* A note that somebody else put there is not believed. */
static bool is_ours(const char *path) {
  struct stat is;
  return stat(path, &is) == 0 && is.st_uid == geteuid();
}

const char *made_of_same(ts_session *s, const ts_options *options, const char *folder,
                         int *status) {
  static const char says[] = "status ";
  const char *path = ts_path_join(s->arena, folder, note), *now = head(s, options);
  const char *text =
      is_ours(path) ? ts_file_read(s->arena, path, NOTE_LIMIT, NULL, s->problems) : NULL;
  if (text == NULL || strncmp(text, now, strlen(now)) != 0) return NULL;
  text += strlen(now);
  if (strncmp(text, says, sizeof says - 1) != 0) return NULL;
  *status = text[sizeof says - 1] == '0' ? DONE : LOOK;
  text += strcspn(text, "\n");
  if (*text++ == '\0') return NULL;
  char *figures = ts_arena_copy_n(s->arena, text, strcspn(text, "\n"));
  text += strlen(figures);
  return *text == '\n' && all_as_made(folder, text + 1) ? figures : NULL;
}
