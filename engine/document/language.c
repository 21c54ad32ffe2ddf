/* Language: which languages papers can be printed in. Each is a list of words in templates/, so
 * that adding one is adding files. */
#include "base/file.h"
#include "base/text.h"
#include "document/transform.h"

#include <string.h>

static const char before[] = "words-", after[] = ".xml";

/* "words-fr.xml" as "fr"; NULL for what is no list of words. */
static char *language_in(ts_arena *arena, const char *file) {
  size_t length = strlen(file), around = strlen(before) + strlen(after);
  if (length <= around || strncmp(file, before, strlen(before)) != 0) return NULL;
  return ts_arena_copy_n(arena, file + strlen(before), length - around);
}

static size_t gather(ts_arena *arena, char **names, ts_diagnostics *problems) {
  char **files = ts_folder_list(arena, ts_data_path(arena, "templates"), after, problems);
  size_t count = 0;
  for (size_t i = 0; files && files[i] && count < TS_LANGUAGES_MAX; i++) {
    char *language = language_in(arena, files[i]);
    if (language) names[count++] = language;
  }
  return count;
}

static bool is_among(const char *language, char *const *names, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (ts_same(names[i], language)) return true;
  return false;
}

bool ts_language_known(const char *language, const char *where, int line,
                       ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  char *names[TS_LANGUAGES_MAX];
  size_t count = gather(arena, names, problems);
  bool known = is_among(language, names, count);
  const char *near = ts_nearest(language, (const char *const *)names, count);
  ts_text all = {0};
  for (size_t i = 0; i < count; i++) ts_text_addf(&all, "%s%s", i ? ", " : "", names[i]);
  if (near) ts_text_addf(&all, "; the nearest is \"%s\"", near);
  if (!known)
    ts_report(problems, TS_ERROR, where, line, "no papers in language \"%s\"; there are: %s",
              language, all.length ? all.data : "none");
  ts_text_release(&all);
  ts_arena_free(arena);
  return known;
}
