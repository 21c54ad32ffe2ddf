#include "template_files.h"
#include "base/file.h"
#include "base/text.h"

#include <check.h>
#include <string.h>

char *template_text(ts_arena *arena, const char *name) {
  ts_diagnostics *problems = ts_diagnostics_new();
  const char *path = ts_path_join(arena, ts_data_path(arena, "templates"), name);
  char *text = ts_file_read(arena, path, 1 << 20, NULL, problems);
  ck_assert_msg(text != NULL, "no template %s", name);
  ts_diagnostics_free(problems);
  return text;
}

ts_xml *template_xml(ts_arena *arena, const char *name) {
  ts_diagnostics *problems = ts_diagnostics_new();
  const char *text = template_text(arena, name);
  ts_xml *xml = ts_xml_read(text, strlen(text), name, problems);
  ck_assert_msg(xml != NULL, "%s is not well-formed", name);
  ts_diagnostics_free(problems);
  return xml;
}

const char *attribute_of(ts_arena *arena, const xmlNode *node, const char *name) {
  xmlChar *value = xmlGetNoNsProp(node, BAD_CAST name);
  const char *copy = ts_arena_copy(arena, (const char *)value);
  xmlFree(value);
  return copy;
}

const char *content_of(ts_arena *arena, const xmlNode *node) {
  xmlChar *value = xmlNodeGetContent(node);
  const char *copy = ts_arena_copy(arena, (const char *)value);
  xmlFree(value);
  return copy;
}

bool attribute_is(const xmlNode *node, const char *name, const char *value) {
  const xmlAttr *attribute = xmlHasProp(node, BAD_CAST name);
  return attribute && attribute->children &&
         ts_same((const char *)attribute->children->content, value);
}
