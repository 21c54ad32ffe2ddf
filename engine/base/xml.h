/* XML: the one door to libxml2.
 *
 * Reading refuses any DOCTYPE, never opens another file or the network, and
 * knows the line of every attribute (libxml2 alone only knows where an
 * element's start tag ends). Writing builds text in memory; ts_file_write
 * puts it on disk. */
#ifndef TS_BASE_XML_H
#define TS_BASE_XML_H

#include "base/text.h"
#include "tankside/diagnostics.h"
#include <libxml/tree.h>
#include <stdbool.h>

typedef struct ts_xml ts_xml;

/* Parses bytes. `name` is used in messages. NULL with reports (every one that
 * libxml2 gives, with its line) when it is not well-formed or has a DOCTYPE. The bytes
 * must outlive the result. Nodes' _private belongs to this module: it holds where their start tag ends. */
ts_xml *ts_xml_read(const char *bytes, size_t length, const char *name, ts_diagnostics *problems);
/* The same for a long document of our own: without the white space between elements, and without the
 * elements of these names, apart by spaces, and what is in them (NULL: all are kept). */
ts_xml *ts_xml_read_without(const char *bytes, size_t length, const char *name, const char *without,
                            ts_diagnostics *problems);
/* Parses HTML as browsers forgive it, to be looked at; lines are where start tags end. NULL when there is
 * no element in it. */
ts_xml *ts_html_read(const char *bytes, size_t length);
void ts_xml_free(ts_xml *xml);
xmlNode *ts_xml_root(const ts_xml *xml);
xmlDoc *ts_xml_document(const ts_xml *xml);
int ts_xml_line(const ts_xml *xml, const xmlNode *element);                           /* where its start tag begins */
int ts_xml_attribute_line(const ts_xml *xml, const xmlNode *element, const char *name); /* where the attribute is written */

/* The first element of that name inside `parent`, the next after `node`; NULL where there is none, or
 * where they are given NULL. */
xmlNode *ts_xml_child(const xmlNode *parent, const char *name);
xmlNode *ts_xml_next(const xmlNode *node, const char *name);

/* Where things stand in the text, as offsets: an element's start tag, from its '<' to just after its
 * last attribute; and the value of an attribute, without its quotes. False when it is not there. */
bool ts_xml_tag(const ts_xml *xml, const xmlNode *element, size_t *begin, size_t *end);
bool ts_xml_value(const ts_xml *xml, const xmlNode *element, const char *name, size_t *begin,
                  size_t *end);

/* Elements one after another, for a file too large to hold as a tree: memory does not grow with it.
 * NULL with a report when it cannot be opened. */
typedef struct ts_xml_stream ts_xml_stream;
ts_xml_stream *ts_xml_stream_open(const char *path, size_t limit, ts_diagnostics *problems);
/* On to the next element, in the order of their start tags. False at the end. */
bool ts_xml_stream_next(ts_xml_stream *stream);
const char *ts_xml_stream_name(const ts_xml_stream *stream);
int ts_xml_stream_depth(const ts_xml_stream *stream); /* 0: the root */
/* An attribute's value until the next element; NULL where there is none. */
const char *ts_xml_stream_value(ts_xml_stream *stream, const char *name);
/* Ends it; false when something was wrong with the file, which was reported, or when it was not read
 * to its end. */
bool ts_xml_stream_close(ts_xml_stream *stream);

/* A writer of indented XML. Start with `ts_xml_out w = {0}`. Text and values
 * are escaped; characters XML cannot hold are replaced. */
typedef struct {
  ts_text text;
  /* Where the text goes as it becomes long, or NULL: all of it stays. False when it cannot go on; then
   * it is not asked again and what more is written is dropped. */
  bool (*take)(void *context, const char *bytes, size_t length);
  void *context;
  bool refused;     /* `take` said so */
  int depth;
  bool open;      /* a start tag still lacks its '>' */
  bool inline_;   /* the open element holds text: no indentation */
  int inline_depth; /* depth of the element whose text began that */
  const char *names[32];
} ts_xml_out;
void ts_xml_begin(ts_xml_out *out); /* the XML declaration, before the first element */
void ts_xml_start(ts_xml_out *out, const char *element); /* `element` is kept, not copied */
void ts_xml_attribute(ts_xml_out *out, const char *name, const char *value); /* NULL value: left out */
void ts_xml_attributef(ts_xml_out *out, const char *name, const char *format, ...) __attribute__((format(printf, 3, 4)));
void ts_xml_words(ts_xml_out *out, const char *text);
void ts_xml_end(ts_xml_out *out);
bool ts_xml_finish(ts_xml_out *out); /* with `take`: the rest goes there; false when it refused any */
/* Children of the open element that are written apart, and put there in their order: first a writer
 * as deep as this one, then its text. */
ts_xml_out ts_xml_apart(const ts_xml_out *out);
void ts_xml_append(ts_xml_out *out, const ts_text *children);
#endif
