/* Two assessments side by side: what changed, and because of what.
 *
 * Stage-internal; the public door is ts_compare in tankside/document.h. */
#ifndef TS_DOCUMENT_COMPARE_H
#define TS_DOCUMENT_COMPARE_H

#include "base/arena.h"
#include "base/xml.h"
#include <libxml/hash.h>

enum { OLD, NEW, BOTH };

/* Something on one side or both that is not the same on both. Either node may be NULL. */
typedef struct {
  const xmlNode *node[BOTH];
  bool noted; /* some finding changed because of it */
} ts_difference;

/* Differences of one kind, found again by what they are about. */
typedef struct {
  ts_difference *items;
  size_t count, capacity;
  xmlHashTable *by_key;
} ts_differences;

typedef struct {
  ts_arena *arena;
  const xmlNode *root[BOTH];
  xmlHashTable *subjects[BOTH]; /* path: the subject */
  ts_differences facts, applied, files, sets,
      asked;            /* keys: path of the fact; ref and scope; kind and name; path */
  bool matrix, program; /* these are not the same */
  ts_xml_out out;
} ts_comparison;

/* Attributes and children of a node; "" and NULL where there is none. */
const char *ts_node_text(ts_comparison *c, const xmlNode *node, const char *name);
const xmlNode *ts_node_child(const xmlNode *node, const char *name);
const xmlNode *ts_node_next(const xmlNode *node); /* the next of the same name */

/* The difference of that key, or NULL where both sides are alike. */
ts_difference *ts_difference_of(const ts_differences *all, const char *key);

/* "came", "went" or "changed". */
const char *ts_difference_word(const ts_difference *d);

/* Writes old="" and new="" of an attribute, on the sides that there are. */
void ts_write_both(ts_comparison *c, const ts_difference *d, const char *attribute);

/* Writes <findings> and <duties>: those that do not stand as they stood, each with its causes. */
void ts_compare_findings(ts_comparison *c);
/* Writes the causes of a change of one finding: either node may be NULL. */
void ts_compare_causes(ts_comparison *c, const xmlNode *const node[BOTH]);

#endif
