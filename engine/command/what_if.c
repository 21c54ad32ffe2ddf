/* What if: values taken instead of the dossier's, from --set and from files of them. */
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include <string.h>

enum { FILE_LIMIT = 8 * 1024 * 1024 };

struct what_if {
  const char *path, *value, *file;
  int line;
};

static const char *trimmed(ts_session *session, const char *text, size_t length) {
  static const char blanks[] = " \t\r";
  while (length > 0 && strchr(blanks, text[length - 1]) != NULL) length--;
  size_t lead = 0;
  while (lead < length && strchr(blanks, text[lead]) != NULL) lead++;
  return ts_arena_copy_n(session->arena, text + lead, length - lead);
}

/* The later one counts; who wrote both may not have meant to. */
static void note_second(ts_session *session, const struct what_if *one) {
  for (size_t i = 0; one->line > 0 && i < session->what_if_count; i++) {
    const struct what_if *other = &session->what_ifs[i];
    if (ts_same(other->path, one->path) && ts_same(other->file, one->file))
      ts_report(session->problems, TS_WARNING, one->file, one->line,
                "\"%s\" is set a second time; line %d no longer counts", one->path, other->line);
  }
}

bool what_if_add(ts_session *session, const char *text, const char *file, int line) {
  const char *equals = strchr(text, '=');
  if (equals == NULL || equals == text) {
    ts_report(session->problems, TS_ERROR, file, line, "\"%s\" is not PATH=VALUE", text);
    return false;
  }
  struct what_if one = {trimmed(session, text, (size_t)(equals - text)),
                        trimmed(session, equals + 1, strlen(equals + 1)), file, line};
  note_second(session, &one);
  TS_GROW(session->sets, session->what_if_count, session->set_capacity);
  session->sets[session->what_if_count] =
      ts_arena_printf(session->arena, "%s=%s", one.path, one.value);
  TS_GROW(session->what_ifs, session->what_if_count, session->what_if_capacity);
  session->what_ifs[session->what_if_count++] = one;
  return true;
}

/* ---- files ------------------------------------------------------------------------------- */

/* A comment begins the line, or stands after a blank. */
static size_t before_comment(const char *line, size_t length) {
  for (size_t i = 0; i < length; i++)
    if (line[i] == '#' && (i == 0 || line[i - 1] == ' ' || line[i - 1] == '\t')) return i;
  return length;
}

static bool read_line(ts_session *session, const char *line, size_t length, const char *file,
                      int number) {
  const char *text = trimmed(session, line, before_comment(line, length));
  return text[0] == '\0' || what_if_add(session, text, file, number);
}

static bool read_file(ts_session *session, const char *file) {
  static const char mark[] = "\xEF\xBB\xBF"; /* some editors begin a file with it */
  const char *at = ts_file_read(session->arena, file, FILE_LIMIT, NULL, session->problems);
  bool good = at != NULL;
  if (good && strncmp(at, mark, 3) == 0) at += 3;
  for (int number = 1; at != NULL && *at != '\0'; number++) {
    size_t length = strcspn(at, "\n");
    good = read_line(session, at, length, file, number) && good;
    at += length + (at[length] == '\n');
  }
  return good;
}

/* ---- all of them ---------------------------------------------------------------------------- */

bool what_if_read(ts_session *session, const ts_options *options) {
  bool good = true;
  for (size_t i = 0; i < options->set_file_count; i++)
    good = read_file(session, options->set_files[i]) && good;
  for (size_t i = 0; i < options->set_count; i++)
    good = what_if_add(session, options->sets[i], "--set", 0) && good;
  return good;
}

bool what_if_apply(ts_session *session) {
  bool good = true;
  for (size_t i = 0; i < session->what_if_count; i++) {
    const struct what_if *one = &session->what_ifs[i];
    good = ts_dossier_set_from(session->dossier, one->path, one->value, session->problems,
                               one->file, one->line) &&
           good;
  }
  return good;
}
