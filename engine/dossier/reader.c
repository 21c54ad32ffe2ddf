/* Reading a dossier: its files, its includes, and the order of the steps. */
#include "dossier/reader.h"

#include "base/digest.h"
#include "base/file.h"
#include "dossier/words.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { FILE_LIMIT = 8 << 20, INCLUDE_DEPTH = 8, FILES_MAX = 1000 };

const char *ts_reader_file(const ts_reader *reader) {
  return reader->dossier->sources[reader->file].path;
}

void ts_reader_error(const ts_reader *reader, const xmlNode *element, const char *attribute,
                     const char *format, ...) {
  ts_text text = {0};
  va_list list;
  va_start(list, format);
  char *message = NULL;
  if (vasprintf(&message, format, list) < 0) ts_out_of_memory();
  va_end(list);
  ts_text_add(&text, message);
  int line = attribute ? ts_xml_attribute_line(reader->xml, element, attribute)
                       : ts_xml_line(reader->xml, element);
  ts_report(reader->problems, TS_ERROR, ts_reader_file(reader), line, "%s", text.data);
  ts_text_release(&text);
  free(message);
}

char *ts_reader_attribute(const ts_reader *reader, const xmlNode *element, const char *name) {
  xmlChar *value = xmlGetNoNsProp(element, (const xmlChar *)name);
  if (!value) return NULL;
  char *copy = ts_words_trim(reader->dossier->arena, (const char *)value);
  xmlFree(value);
  return copy;
}

bool ts_reader_is(const xmlNode *element, const char *name) {
  return !element->ns && strcmp((const char *)element->name, name) == 0;
}

void ts_reader_only(const ts_reader *reader, const xmlNode *element, const char *const *allowed) {
  size_t count = 0;
  while (allowed[count]) count++;
  for (const xmlAttr *a = element->properties; a; a = a->next) {
    const char *name = (const char *)a->name;
    bool known = false;
    for (size_t i = 0; i < count && !a->ns; i++) known = known || ts_same(allowed[i], name);
    if (known) continue;
    const char *near = ts_nearest(name, allowed, count);
    ts_reader_error(reader, element, name, "unknown attribute \"%s\" of \"%s\"%s%s%s", name,
                    (const char *)element->name, near ? "; the nearest name is \"" : "",
                    near ? near : "", near ? "\"" : "");
  }
}

/* Line of the first word: libxml2 knows the line on which a text ends. */
static int words_line(const xmlNode *node, const char *word) {
  long line = xmlGetLineNo(node);
  for (; *word; word++)
    if (*word == '\n') line--;
  return (int)line;
}

void ts_reader_words(const ts_reader *reader, const xmlNode *element) {
  for (const xmlNode *node = element->children; node; node = node->next) {
    if (node->type != XML_TEXT_NODE && node->type != XML_CDATA_SECTION_NODE) continue;
    const char *word = (const char *)node->content + strspn((const char *)node->content, " \t\r\n");
    if (!*word) continue;
    ts_report(reader->problems, TS_ERROR, ts_reader_file(reader), words_line(node, word),
              "text \"%.*s\" in \"%s\"; everything is written in attributes",
              (int)strcspn(word, "\r\n"), word, (const char *)element->name);
  }
}

/* ---- one file ---------------------------------------------------------- */

static void read_top(ts_reader *reader, const xmlNode *root);

static uint32_t add_source(ts_dossier *dossier, const char *path, const char *name,
                           const char *bytes, size_t length) {
  TS_GROW(dossier->sources, dossier->source_count, dossier->source_capacity);
  ts_source *source = &dossier->sources[dossier->source_count];
  *source = (ts_source){.path = path, .name = name, .bytes = bytes, .length = length};
  return (uint32_t)dossier->source_count++;
}

static void read_units(ts_reader *reader, const xmlNode *root) {
  const char *units = ts_reader_attribute(reader, root, "units");
  if (!units || ts_same(units, "metric")) return;
  if (ts_same(units, "us"))
    reader->dossier->system = TS_US;
  else
    ts_reader_error(reader, root, "units", "unknown units \"%s\"; expected \"metric\" or \"us\"",
                    units);
}

static bool right_root(const ts_reader *reader, const xmlNode *root) {
  static const char *const first[] = {"format", "units", NULL};
  static const char *const included[] = {"format", NULL};
  if (!ts_reader_is(root, "dossier")) {
    ts_reader_error(reader, root, NULL, "the outermost element is \"%s\"; expected \"dossier\"",
                    (const char *)root->name);
    return false;
  }
  ts_reader_only(reader, root, reader->depth ? included : first);
  const char *format = ts_reader_attribute(reader, root, "format");
  if (!format)
    ts_reader_error(reader, root, NULL, "\"dossier\" lacks format=\"1\"");
  else if (!ts_same(format, "1"))
    ts_reader_error(reader, root, "format",
                    "unknown format \"%s\"; this program reads format \"1\"", format);
  return true;
}

/* Sums are made where they are written (base/digest.h), but of a text so long that it is not kept
 * until then. */
static void keep_text(ts_dossier *dossier, uint32_t file, ts_arena *text) {
  ts_source *source = &dossier->sources[file];
  if (source->length <= TS_SOURCE_KEPT) {
    ts_arena_take_over(dossier->arena, text);
    return;
  }
  char digest[65];
  source->digest = ts_arena_copy(dossier->arena, ts_digest(source->bytes, source->length, digest));
  source->bytes = NULL;
  ts_arena_free(text);
}

/* Reads parsed bytes, which are in `text`; `reader` continues with the file it was in. */
static void read_bytes(ts_reader *reader, const char *path, const char *name, const char *bytes,
                       size_t length, ts_arena *text) {
  ts_xml *xml = ts_xml_read(bytes, length, path, reader->problems);
  const ts_xml *outer = reader->xml;
  uint32_t outer_file = reader->file;
  reader->file = add_source(reader->dossier, path, name, bytes, length);
  if (xml) {
    reader->xml = xml;
    if (right_root(reader, ts_xml_root(xml))) read_top(reader, ts_xml_root(xml));
    ts_xml_free(xml);
  } else
    reader->incomplete = true;
  keep_text(reader->dossier, reader->file, text);
  reader->xml = outer;
  reader->file = outer_file;
}

/* The bytes of a file, or those given instead; NULL with a report. */
static char *bytes_of(const ts_reader *reader, const char *path, const char *name, size_t *length,
                      ts_arena *arena, ts_diagnostics *problems) {
  for (size_t i = 0; i < reader->given_count; i++) {
    const ts_given_text *given = &reader->given[i];
    if (!ts_same(given->name, name)) continue;
    *length = given->length;
    return ts_arena_copy_n(arena, given->text, given->length);
  }
  return ts_file_read(arena, path, FILE_LIMIT, length, problems);
}

/* ---- includes ---------------------------------------------------------- */

static void include_file(ts_reader *reader, const xmlNode *element, const char *name) {
  ts_arena *arena = reader->dossier->arena;
  ts_diagnostics *trouble = ts_diagnostics_new();
  size_t length;
  const char *path = ts_path_join(arena, reader->folder, name);
  ts_arena *text = ts_arena_new();
  char *bytes = bytes_of(reader, path, name, &length, text, trouble);
  if (bytes) {
    reader->depth++;
    read_bytes(reader, path, name, bytes, length, text);
    reader->depth--;
  } else {
    ts_arena_free(text);
    reader->incomplete = true;
    ts_reader_error(reader, element, "href", "cannot read the included file \"%s\": it %s", name,
                    ts_first_error(trouble, NULL));
  }
  ts_diagnostics_free(trouble);
}

/* "./days//../day-3.xml" as "day-3.xml", so that a file has one name. NULL when it climbs out. */
static char *plain_name(ts_arena *arena, const char *name) {
  char *parts[256];
  size_t count = 0;
  for (char *part; (part = ts_words_next(arena, &name, "/"));) {
    if (ts_same(part, ".") || count == sizeof parts / sizeof *parts) continue;
    if (!ts_same(part, ".."))
      parts[count++] = part;
    else if (count-- == 0)
      return NULL;
  }
  ts_text text = {0};
  for (size_t i = 0; i < count; i++) ts_text_addf(&text, "%s%s", i ? "/" : "", parts[i]);
  char *plain = ts_arena_copy(arena, text.data ? text.data : "");
  ts_text_release(&text);
  return plain;
}

static bool already_read(const ts_reader *reader, const char *name) {
  for (size_t i = 0; i < reader->dossier->source_count; i++)
    if (ts_same(reader->dossier->sources[i].name, name)) return true;
  return false;
}

static void read_include(ts_reader *reader, const xmlNode *element) {
  static const char *const allowed[] = {"href", NULL};
  ts_arena *arena = reader->dossier->arena;
  ts_reader_only(reader, element, allowed);
  ts_reader_words(reader, element);
  const char *href = ts_reader_attribute(reader, element, "href");
  if (!href || !*href) {
    ts_reader_error(reader, element, NULL, "\"include\" lacks \"href\": the file to read");
    return;
  }
  const char *here = ts_path_folder(arena, reader->dossier->sources[reader->file].name);
  const char *name = href[0] == '/' ? NULL : plain_name(arena, ts_path_join(arena, here, href));
  if (!name || !ts_path_inside(reader->folder, name))
    ts_reader_error(reader, element, "href", "\"%s\" is outside the dossier's folder", href);
  else if (already_read(reader, name))
    ts_reader_error(reader, element, "href", "\"%s\" is already part of this dossier", href);
  else if (reader->depth >= INCLUDE_DEPTH || reader->dossier->source_count >= FILES_MAX)
    ts_reader_error(reader, element, "href", "includes go too far: at most %d deep and %d files",
                    INCLUDE_DEPTH, FILES_MAX);
  else
    include_file(reader, element, name);
}

/* ---- what stands at the top -------------------------------------------- */

static uint32_t top_entity(const ts_reader *reader, const xmlNode *element) {
  const ts_vocabulary *vocabulary = reader->dossier->vocabulary;
  uint32_t entity = ts_names_get(&vocabulary->entity_names, (const char *)element->name);
  if (entity == TS_ABSENT || element->ns) return TS_ABSENT;
  return ts_same(vocabulary->entities[entity].def->parent, "dossier") ? entity : TS_ABSENT;
}

static void read_top_element(ts_reader *reader, const xmlNode *element) {
  uint32_t entity = top_entity(reader, element);
  if (entity != TS_ABSENT)
    ts_read_subject(reader, element, entity, 0);
  else if (ts_reader_is(element, "include"))
    read_include(reader, element);
  else if (!ts_read_evidence(reader, element) && !ts_read_waiver(reader, element) &&
           !ts_read_control(reader, element, 0))
    ts_reader_stray(reader, element, "dossier");
}

static void read_top(ts_reader *reader, const xmlNode *root) {
  if (!reader->depth) read_units(reader, root);
  for (const xmlNode *node = root->children; node; node = node->next)
    if (node->type == XML_ELEMENT_NODE) read_top_element(reader, node);
  ts_reader_words(reader, root);
}

/* ---- the whole --------------------------------------------------------- */

static void finish(ts_reader *reader) {
  ts_dossier *dossier = reader->dossier;
  ts_world_complete(dossier, 0);
  ts_world_resolve(dossier,
                   reader->incomplete ? " (or it stands in the file that could not be read)" : "",
                   reader->problems);
  ts_world_person_days(dossier);
  ts_world_link(dossier);
  ts_world_reach(dossier);
  ts_read_papers_check(reader);
  ts_world_derive(dossier);
  ts_world_crosscheck(dossier, reader->problems);
  ts_world_settle(dossier);
}

static void read_all(ts_reader *reader, const char *path, const char *bytes, size_t length,
                     ts_arena *text) {
  ts_dossier *dossier = reader->dossier;
  uint32_t production = ts_names_get(&dossier->vocabulary->entity_names, "production");
  ts_world_add(dossier, production, "production", TS_NO_SUBJECT, 0, 0);
  read_bytes(reader, ts_arena_copy(dossier->arena, path),
             ts_arena_copy(dossier->arena, ts_path_name(path)), bytes, length, text);
  if (!reader->production && !reader->incomplete)
    ts_report(reader->problems, TS_ERROR, path, 0, "the dossier has no \"production\" element");
  finish(reader);
}

ts_dossier *ts_dossier_read_given(const char *path, const ts_given_text *given, size_t count,
                                  const ts_vocabulary *vocabulary, const ts_units *units,
                                  ts_diagnostics *problems) {
  ts_dossier *dossier = ts_world_new(vocabulary, units);
  dossier->pool = ts_pool_new(dossier->arena);
  ts_reader reader = {
      .dossier = dossier, .problems = problems, .given = given, .given_count = count};
  size_t length, before = ts_count(problems, TS_ERROR);
  reader.folder = ts_path_folder(dossier->arena, path);
  ts_arena *text = ts_arena_new();
  char *bytes = bytes_of(&reader, path, ts_path_name(path), &length, text, problems);
  if (bytes)
    read_all(&reader, path, bytes, length, text);
  else
    ts_arena_free(text);
  if (bytes && ts_count(problems, TS_ERROR) == before) return dossier;
  ts_dossier_free(dossier);
  return NULL;
}

ts_dossier *ts_dossier_read(const char *path, const ts_vocabulary *vocabulary,
                            const ts_units *units, ts_diagnostics *problems) {
  return ts_dossier_read_given(path, NULL, 0, vocabulary, units, problems);
}

ts_dossier *ts_dossier_read_text(const char *text, size_t length, const char *path,
                                 const ts_vocabulary *vocabulary, const ts_units *units,
                                 ts_diagnostics *problems) {
  const ts_given_text given = {ts_path_name(path), text, length};
  return ts_dossier_read_given(path, &given, 1, vocabulary, units, problems);
}
