/* For tests of what templates/ holds: its files, and what their elements say. What is handed out
 * lives in the arena, but for a document, which is the caller's to free. */
#ifndef TS_TESTS_TEMPLATE_FILES_H
#define TS_TESTS_TEMPLATE_FILES_H

#include "base/arena.h"
#include "base/xml.h"

/* A file of templates/ by its name; fails the test when it is not there, or not well-formed. */
char *template_text(ts_arena *arena, const char *name);
ts_xml *template_xml(ts_arena *arena, const char *name);

/* NULL where there is none; the text of an element and of all in it. */
const char *attribute_of(ts_arena *arena, const xmlNode *node, const char *name);
const char *content_of(ts_arena *arena, const xmlNode *node);
/* Without a copy, for searching. */
bool attribute_is(const xmlNode *node, const char *name, const char *value);

#endif
