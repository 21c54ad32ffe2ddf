#include "document/pack_signature.h"

#include "base/file.h"
#include "base/xml.h"
#include "document/transform.h"
#include <stdlib.h>
#include <string.h>

void ts_pack_list_text(const ts_pack_list *list, ts_text *out) {
  ts_xml_out xml = {0};
  ts_xml_begin(&xml);
  ts_xml_start(&xml, "pack");
  ts_xml_attribute(&xml, "format", "1");
  ts_xml_attribute(&xml, "name", list->name);
  for (size_t i = 0; i < list->count; i++) {
    ts_xml_start(&xml, "file");
    ts_xml_attribute(&xml, "name", list->files[i].name);
    ts_xml_attribute(&xml, "sha256", list->files[i].digest);
    ts_xml_end(&xml);
  }
  ts_xml_end(&xml);
  ts_text_add_n(out, xml.text.data, xml.text.length);
  ts_text_release(&xml.text);
}

/* ---- reading ------------------------------------------------------------------------------- */

typedef struct {
  ts_arena *arena;
  const ts_pack_signed *file;
  const ts_xml *xml;
  ts_pack_list was; /* what was signed */
  size_t capacity;
  ts_diagnostics *problems;
} reading;

static const char *attribute(reading *r, const xmlNode *node, const char *name) {
  xmlChar *value = xmlGetNoNsProp(node, BAD_CAST name);
  const char *kept = ts_arena_copy(r->arena, value != NULL ? (const char *)value : "");
  xmlFree(value);
  return kept;
}

static bool refuse(reading *r, const xmlNode *node, const char *text) {
  ts_report(r->problems, TS_ERROR, r->file->path, ts_xml_line(r->xml, node), "%s", text);
  return false;
}

static bool is_rule_file(const char *name) {
  size_t length = strlen(name);
  return length > 4 && ts_same(name + length - 4, ".lua") && strpbrk(name, "/\\") == NULL;
}

static bool is_digest(const char *text) {
  return strlen(text) == 64 && strspn(text, "0123456789abcdef") == 64;
}

static bool read_line(reading *r, const xmlNode *node) {
  ts_pack_line line = {attribute(r, node, "name"), attribute(r, node, "sha256")};
  const char *last = r->was.count > 0 ? r->was.files[r->was.count - 1].name : "";
  if (!is_rule_file(line.name))
    return refuse(r, node,
                  ts_arena_printf(r->arena, "\"%s\" is no name of a rule file (*.lua)", line.name));
  if (!is_digest(line.digest))
    return refuse(
        r, node,
        ts_arena_printf(r->arena, "\"%s\" is no SHA-256: expected 64 digits 0 to f", line.digest));
  if (strcmp(last, line.name) >= 0)
    return refuse(r, node,
                  ts_arena_printf(
                      r->arena, "\"%s\" is there twice or out of order: files stand in byte order",
                      line.name));
  TS_GROW(r->was.files, r->was.count, r->capacity);
  r->was.files[r->was.count++] = line;
  return true;
}

/* Behind the first signature there is nothing but signatures, not even a comment. */
static bool ends_well(reading *r, const xmlNode *first) {
  const xmlNode *root = ts_xml_root(r->xml);
  if (first == NULL) return refuse(r, root, "nobody signed it: there is no signature in it");
  for (const xmlNode *node = first; node != NULL; node = node->next)
    if (node->type != XML_ELEMENT_NODE || !ts_same((const char *)node->name, "Signature"))
      return refuse(r, first, "something else than signatures stands after the first of them");
  if (root->next == NULL && root->prev == NULL) return true;
  return refuse(r, root, "something stands beside the root <pack>");
}

/* Every byte before the signatures is as it would be written now. */
static bool is_written_so(reading *r) {
  static const char end[] = "</pack>\n";
  size_t plain = ts_unsigned_length(r->file->text, r->file->length);
  ts_text text = {0};
  ts_pack_list_text(&r->was, &text);
  bool same = plain + sizeof end - 1 == text.length && memcmp(r->file->text, text.data, plain) == 0;
  ts_text_release(&text);
  return same ||
         refuse(r, ts_xml_root(r->xml), "the list of files is not written as tankside writes it");
}

static bool read_list(reading *r) {
  const xmlNode *root = ts_xml_root(r->xml), *node = root->children;
  r->was.name = attribute(r, root, "name");
  for (; node != NULL && !ts_same((const char *)node->name, "Signature"); node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    if (!ts_same((const char *)node->name, "file"))
      return refuse(r, node, "expected <file> or a signature");
    if (!read_line(r, node)) return false;
  }
  return ends_well(r, node) && is_written_so(r);
}

/* ---- holding it against the pack ----------------------------------------------------------- */

static void differs(reading *r, const char *path, const char *name, const char *what) {
  ts_report(r->problems, TS_ERROR, ts_path_join(r->arena, path, name), 0,
            "%s since the pack was signed", what);
}

static size_t hold(reading *r, const ts_pack_list *is, const char *path) {
  const ts_pack_list *was = &r->was;
  size_t i = 0, j = 0, count = 0;
  while (i < was->count || j < is->count) {
    int order = i == was->count  ? 1
                : j == is->count ? -1
                                 : strcmp(was->files[i].name, is->files[j].name);
    if (order < 0) differs(r, path, was->files[i].name, "went missing");
    if (order > 0) differs(r, path, is->files[j].name, "was added");
    bool altered = order == 0 && !ts_same(was->files[i].digest, is->files[j].digest);
    if (altered) differs(r, path, is->files[j].name, "was altered");
    count += order != 0 || altered;
    i += order <= 0;
    j += order >= 0;
  }
  if (is->name == NULL || ts_same(was->name, is->name)) return count;
  ts_report(r->problems, TS_ERROR, r->file->path, 0,
            "was signed for the pack \"%s\"; this one is named \"%s\"", was->name, is->name);
  return count + 1;
}

bool ts_pack_signed_differs(const ts_pack_signed *file, const ts_pack_list *is, const char *path,
                            size_t *differences, ts_diagnostics *problems) {
  ts_xml *xml = ts_document_open_as("pack", file->text, file->length, file->path, problems);
  reading r = {.arena = ts_arena_new(), .file = file, .xml = xml, .problems = problems};
  bool good = xml != NULL && read_list(&r);
  *differences = good ? hold(&r, is, path) : 0;
  free(r.was.files);
  ts_xml_free(xml);
  ts_arena_free(r.arena);
  return good;
}

/* ---- loading -------------------------------------------------------------------------------- */

typedef struct {
  const ts_pack_signed *file;
  void (*visit)(void *context, const ts_signature *one);
  void *context;
  size_t broken;
  ts_diagnostics *problems;
} holding;

static void look(void *context, const ts_signature *one) {
  holding *h = context;
  if (one->state == TS_SIGNATURE_INTACT) {
    h->visit(h->context, one);
    return;
  }
  h->broken++;
  ts_report(h->problems, TS_ERROR, h->file->path, 0, "the signature%s%s%s%s %s",
            one->as[0] ? " as " : "", one->as, one->on[0] ? " of " : "", one->on,
            one->state == TS_SIGNATURE_ALTERED ? "does not hold: this is not what was signed"
                                               : "is not one that tankside made");
}

bool ts_pack_signed_holds(const ts_pack_signed *file, const ts_pack_list *is, const char *path,
                          void (*visit)(void *context, const ts_signature *one), void *context,
                          ts_diagnostics *problems) {
  holding h = {file, visit, context, 0, problems};
  size_t differences = 0;
  if (!ts_pack_signed_differs(file, is, path, &differences, problems)) return false;
  size_t count =
      ts_signatures("pack", file->text, file->length, file->path, NULL, NULL, look, &h, problems);
  if (count > 0 && h.broken + differences == 0) return true;
  ts_report(problems, TS_ERROR, file->path, 0,
            "the pack is not what was signed; have it signed anew, or take this file away");
  return false;
}
