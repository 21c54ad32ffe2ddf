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

static const char *word_in(ts_arena *arena, const xmlNode *root, const char *id) {
  const char *found = "";
  for (const xmlNode *word = ts_xml_child(root, "word"); word; word = ts_xml_next(word, "word")) {
    xmlChar *is = xmlGetNoNsProp(word, BAD_CAST "id"), *text = NULL;
    if (ts_same((const char *)is, id)) text = xmlNodeGetContent(word);
    if (text) found = ts_arena_copy(arena, (const char *)text);
    xmlFree(text);
    xmlFree(is);
  }
  return found;
}

const char *ts_language_word(ts_arena *arena, const char *id) {
  enum { LIMIT = 1024 * 1024 };
  ts_diagnostics *unsaid = ts_diagnostics_new();
  size_t length = 0;
  const char *name = ts_arena_printf(arena, "%s%s%s", before, TS_WRITTEN_IN, after);
  const char *path = ts_path_join(arena, ts_data_path(arena, "templates"), name);
  const char *bytes = ts_file_read(arena, path, LIMIT, &length, unsaid);
  ts_xml *xml = bytes ? ts_xml_read(bytes, length, path, unsaid) : NULL;
  const char *word = xml ? word_in(arena, ts_xml_root(xml), id) : "";
  ts_xml_free(xml);
  ts_diagnostics_free(unsaid);
  return word;
}
