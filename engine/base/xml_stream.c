/* XML read element by element. */
#include "base/xml.h"

#include "base/arena.h"
#include "base/file.h"

#include <libxml/xmlreader.h>
#include <stdlib.h>
#include <string.h>

struct ts_xml_stream {
  int file;
  xmlTextReader *reader;
  char *name; /* of the file */
  ts_diagnostics *problems;
  xmlChar **values; /* given out for the element it stands at */
  size_t count, capacity;
  bool failed, ended;
};

/* The type of a handler's second argument changed in libxml2 2.12. */
#if LIBXML_VERSION >= 21200
typedef const xmlError *reported;
#else
typedef xmlError *reported;
#endif

static void on_error(void *context, reported error) {
  ts_xml_stream *s = context;
  const char *message = error->message ? error->message : "unknown";
  /* What libxml2 says of a file that breaks off would mislead. */
  if (error->code == XML_ERR_DOCUMENT_END) message = "it breaks off, or goes on after its end";
  if (s->failed) return; /* what follows the first says nothing new */
  s->failed = error->level != XML_ERR_WARNING;
  ts_report(s->problems, s->failed ? TS_ERROR : TS_WARNING, s->name, error->line,
            "not well-formed XML: %.*s", (int)strcspn(message, "\n"), message);
}

static int on_read(void *context, char *bytes, int size) {
  return ts_file_next(((ts_xml_stream *)context)->file, bytes, (size_t)size);
}

static int on_close(void *context) {
  (void)context; /* the file is ours to close */
  return 0;
}

ts_xml_stream *ts_xml_stream_open(const char *path, size_t limit, ts_diagnostics *problems) {
  int file = ts_file_open(path, limit, problems);
  if (file < 0) return NULL;
  ts_xml_stream *s = ts_alloc(sizeof *s);
  s->file = file;
  s->name = strdup(path);
  s->problems = problems;
  s->reader = xmlReaderForIO(on_read, on_close, s, path, NULL,
                             XML_PARSE_NONET | XML_PARSE_BIG_LINES | XML_PARSE_NOCDATA);
  if (!s->reader || !s->name) ts_out_of_memory();
  xmlTextReaderSetStructuredErrorHandler(s->reader, on_error, s);
  return s;
}

static void forget_values(ts_xml_stream *s) {
  while (s->count > 0) xmlFree(s->values[--s->count]);
}

/* Its entities would only be met after it: nothing of it has been used by now. */
static bool refuse_doctype(ts_xml_stream *s) {
  ts_report(s->problems, TS_ERROR, s->name, 0, "a DOCTYPE is not allowed here; delete it");
  s->failed = true;
  return false;
}

bool ts_xml_stream_next(ts_xml_stream *s) {
  forget_values(s);
  while (!s->failed && !s->ended) {
    int more = xmlTextReaderRead(s->reader);
    int type = more == 1 ? xmlTextReaderNodeType(s->reader) : XML_READER_TYPE_NONE;
    s->ended = more == 0;
    if (more < 0 && !s->failed)
      ts_report(s->problems, TS_ERROR, s->name, 0, "cannot be read as XML to its end");
    s->failed = s->failed || more < 0;
    if (type == XML_READER_TYPE_DOCUMENT_TYPE) return refuse_doctype(s);
    if (type == XML_READER_TYPE_ELEMENT && !s->failed) return true;
  }
  return false;
}

const char *ts_xml_stream_name(const ts_xml_stream *s) {
  return (const char *)xmlTextReaderConstLocalName(s->reader);
}

int ts_xml_stream_depth(const ts_xml_stream *s) { return xmlTextReaderDepth(s->reader); }

const char *ts_xml_stream_value(ts_xml_stream *s, const char *name) {
  xmlChar *value = xmlTextReaderGetAttribute(s->reader, BAD_CAST name);
  if (!value) return NULL;
  TS_GROW(s->values, s->count, s->capacity);
  return (const char *)(s->values[s->count++] = value);
}

bool ts_xml_stream_close(ts_xml_stream *s) {
  bool good = !s->failed && s->ended;
  forget_values(s);
  free(s->values);
  xmlFreeTextReader(s->reader);
  ts_file_close(s->file);
  free(s->name);
  free(s);
  return good;
}
