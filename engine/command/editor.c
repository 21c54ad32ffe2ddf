/* `tankside vocabulary --editor`: what an editor needs to complete and explain while a dossier or a
 * rule is written. Two files go into the folder itself, because that is where editors look; the
 * rest into `tankside/` below it. */
#include "command/editor.h"
#include "base/file.h"
#include "command/output.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>

enum { FILE_LIMIT = 1 << 20 };

/* Where it goes. */
typedef struct {
  ts_session *s;
  const ts_options *options;
} target;

/* A file of shared/schema/editor/; NULL with a report. */
static const char *shipped(const ts_session *s, const char *name, size_t *length) {
  const char *schema = ts_path_join(s->arena, ts_data_path(s->arena, "shared"), "schema");
  const char *folder = ts_path_join(s->arena, schema, "editor");
  return ts_file_read(s->arena, ts_path_join(s->arena, folder, name), FILE_LIMIT, length,
                      s->problems);
}

static bool write_one(const target *t, const char *folder, const char *name, const char *bytes,
                      size_t length) {
  const char *path = ts_path_join(t->s->arena, folder, name);
  if (!output_file(t->s, t->options, path, bytes, length)) return false;
  printf("  %s\n", path);
  return true;
}

/* ---- the two that may be there already: somebody's own are left alone ------------------ */

static bool is_there(const ts_session *s, const char *path) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  bool there = ts_file_read(s->arena, path, FILE_LIMIT, NULL, unsaid) != NULL;
  ts_diagnostics_free(unsaid);
  return there;
}

static bool write_setting(const target *t, const char *folder, const char *name, const char *from) {
  const ts_session *s = t->s;
  size_t length = 0, there_length = 0;
  const char *path = ts_path_join(s->arena, folder, name);
  const char *wanted = shipped(s, from, &length);
  if (wanted == NULL) return false;
  if (!is_there(s, path)) return write_one(t, folder, name, wanted, length);
  const char *there = ts_file_read(s->arena, path, FILE_LIMIT, &there_length, s->problems);
  if (!ts_same(there, wanted))
    ts_report(s->problems, TS_WARNING, path, 0,
              "is there already and is left alone; what tankside would write is %s in "
              "shared/schema/editor",
              from);
  return there != NULL;
}

/* ---- the dossier's schema ---------------------------------------------------------------- */

static bool write_schemas(const target *t, const char *folder) {
  const ts_session *s = t->s;
  char *xml = NULL, *compact = NULL;
  size_t length = 0, compact_length = 0;
  FILE *memory = open_memstream(&xml, &length);
  if (memory == NULL) ts_out_of_memory();
  bool good = ts_vocabulary_write_schema(s->vocabulary, memory);
  if (fclose(memory) != 0) ts_out_of_memory();
  good = good && write_one(t, folder, "dossier.rng", xml, length) &&
         ts_schema_compact(xml, length, &compact, &compact_length, s->problems) &&
         write_one(t, folder, "dossier.rnc", compact, compact_length);
  free(compact);
  free(xml);
  return good;
}

/* ---- annotations for a Lua language server -------------------------------------------------- */

static bool annotate_words(const ts_session *s, ts_text *out) {
  size_t length = 0;
  const char *words = shipped(s, "words.lua", &length);
  if (words == NULL) return false;
  ts_text_add_n(out, words, length);
  annotate_packs(s, out);
  return true;
}

static bool write_annotations(const target *t, const char *folder) {
  static const struct {
    const char *name;
    bool (*annotate)(const ts_session *, ts_text *);
  } files[] = {{"words.lua", annotate_words},
               {"facts.lua", annotate_facts},
               {"functions.lua", annotate_functions}};
  bool good = true;
  for (size_t i = 0; good && i < sizeof files / sizeof files[0]; i++) {
    ts_text text = {0};
    good = files[i].annotate(t->s, &text) &&
           write_one(t, folder, files[i].name, text.data, text.length);
    ts_text_release(&text);
  }
  return good;
}

/* ---- all ------------------------------------------------------------------------------------- */

static const char next[] =
    "\nThe first lines of a dossier in this folder, for editors that read them there:\n"
    "  <?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "  <?xml-model href=\"tankside/dossier.rng\" type=\"application/xml\"\n"
    "    schematypens=\"http://relaxng.org/ns/structure/1.0\"?>\n"
    "A line above a rule's function, so that its subject is known:\n"
    "  ---@param i tankside.immersion\n";

bool editor_write(ts_session *s, const ts_options *options) {
  const target t = {s, options};
  const char *folder = options->out;
  const char *below = ts_path_join(s->arena, folder, "tankside");
  if (!ts_folder_make(below, s->problems)) return false;
  puts("written:");
  bool good = write_setting(&t, folder, ".luarc.json", "luarc.json") &&
              write_setting(&t, folder, "schemas.xml", "schemas.xml") && write_schemas(&t, below) &&
              write_annotations(&t, below);
  if (good) fputs(next, stdout);
  return good;
}
