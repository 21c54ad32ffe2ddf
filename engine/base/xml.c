/* Reading XML. Writing is in xml_out.c.
 *
 * libxml2 only knows the line on which a start tag ends. So at every start tag
 * the offset of its end in the text is kept in the node; no '<' can stand inside
 * a start tag, so the last '<' before that offset is where the tag begins, and
 * the attributes are found between the two. At each attribute the offset of its value is kept, too,
 * where the value stands in the text as it was read: so that the line of each of many is found
 * quickly. */
#include "base/xml.h"

#include "base/arena.h"

#include <libxml/HTMLparser.h>
#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

struct ts_xml {
  const char *bytes;
  size_t length;
  xmlDoc *document;
  size_t *lines; /* offset of the first byte of each line */
  size_t line_count, line_capacity;
};

/* What the callbacks of one parse share. */
typedef struct {
  const char *name;
  ts_diagnostics *problems;
  bool failed; /* libxml2 may return a document all the same: only this counts */
  bool refused;
  const char *without; /* names of elements that are not kept, each with a space around; or NULL */
  size_t inside;       /* so many of them are open */
} reading;

static reading *reading_of(void *context) { return ((xmlParserCtxt *)context)->_private; }

/* The type of a handler's second argument changed in libxml2 2.12. */
#if LIBXML_VERSION >= 21200
typedef const xmlError *reported;
#else
typedef xmlError *reported;
#endif

/* Errors arrive here for this parse alone; no handler is set for the process. */
static void on_error(void *context, reported error) {
  reading *r = reading_of(context);
  if (r->refused) return; /* what follows a refused DOCTYPE says nothing new */
  const char *message = error->message ? error->message : "unknown";
  int length = (int)strcspn(message, "\n");
  bool warning = error->level == XML_ERR_WARNING;
  if (!warning) r->failed = true;
  ts_report(r->problems, warning ? TS_WARNING : TS_ERROR, r->name, error->line,
            "not well-formed XML: %.*s", length, message);
}

static void on_doctype(void *context, const xmlChar *name, const xmlChar *external,
                       const xmlChar *system) {
  (void)name, (void)external, (void)system;
  reading *r = reading_of(context);
  ts_report(r->problems, TS_ERROR, r->name, xmlSAX2GetLineNumber(context),
            "a DOCTYPE is not allowed here; delete it");
  r->failed = r->refused = true;
  xmlStopParser(context);
}

static bool is_left_out(const reading *r, const xmlChar *name) {
  size_t length = strlen((const char *)name);
  const char *at = r->without;
  while (at && (at = strstr(at, (const char *)name)) && (at[-1] != ' ' || at[length] != ' ')) at++;
  return at != NULL;
}

/* What libxml2 hands over of an attribute: two words, where the value begins and where it ends; and
 * one more. */
enum { EACH = 5, VALUE = 3 };

/* In their order; a value with an entity in it stands elsewhere than in the text. */
static void keep_values(xmlAttr *attribute, const xmlChar **values, int count,
                        const xmlParserInput *in) {
  for (int i = 0; i < count && attribute; i++, attribute = attribute->next) {
    const xmlChar *value = values[EACH * i + VALUE];
    if (value > in->base && value < in->cur)
      attribute->_private = (void *)((size_t)in->consumed + (size_t)(value - in->base));
  }
}

static void on_start(void *context, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri,
                     int namespaces, const xmlChar **declared, int attributes, int defaulted,
                     const xmlChar **values) {
  reading *r = reading_of(context);
  if (r->inside > 0 || is_left_out(r, name)) {
    r->inside++;
    return;
  }
  xmlSAX2StartElementNs(context, name, prefix, uri, namespaces, declared, attributes, defaulted,
                        values);
  xmlParserCtxt *c = context;
  const xmlParserInput *in = c->input;
  /* In a converted encoding the offset would belong to another text. */
  bool as_read = in && (!in->buf || !in->buf->encoder);
  if (!c->node || !as_read) return;
  c->node->_private = (void *)((size_t)in->consumed + (size_t)(in->cur - in->base));
  keep_values(c->node->properties, values, attributes, in);
}

static void on_end(void *context, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri) {
  reading *r = reading_of(context);
  if (r->inside > 0)
    r->inside--;
  else
    xmlSAX2EndElementNs(context, name, prefix, uri);
}

static void on_text(void *context, const xmlChar *text, int length) {
  if (reading_of(context)->inside == 0) xmlSAX2Characters(context, text, length);
}

/* An encoding in which markup can hide from an editor (UTF-7 and its like) is not read. */
static void check_encoding(const xmlDoc *document, reading *r) {
  static const char *const read[] = {"UTF-8", "UTF-16", "US-ASCII", "ISO-8859-", "windows-125"};
  const char *encoding = document ? (const char *)document->encoding : NULL;
  if (!encoding) return;
  for (size_t i = 0; i < sizeof read / sizeof *read; i++)
    if (strncasecmp(encoding, read[i], strlen(read[i])) == 0) return;
  ts_report(r->problems, TS_ERROR, r->name, 1,
            "the encoding \"%s\" is not read; write the file in UTF-8", encoding);
  r->failed = true;
}

static xmlDoc *parse(const char *bytes, size_t length, int more, reading *r) {
  const int options = XML_PARSE_NONET | XML_PARSE_BIG_LINES | XML_PARSE_NOCDATA | more;
  xmlParserCtxt *context = xmlNewParserCtxt();
  if (!context) ts_out_of_memory();
  context->_private = r;
  context->sax->serror = on_error;
  context->sax->internalSubset = on_doctype;
  context->sax->startElementNs = on_start;
  context->sax->endElementNs = on_end;
  context->sax->characters = on_text;
  xmlDoc *document = xmlCtxtReadMemory(context, bytes, (int)length, r->name, NULL, options);
  if (!document && !r->failed) ts_report(r->problems, TS_ERROR, r->name, 0, "not well-formed XML");
  check_encoding(document, r);
  if ((!document || !context->wellFormed) && !r->refused) r->failed = true;
  xmlFreeParserCtxt(context);
  return document;
}

static void find_lines(ts_xml *xml) {
  for (size_t at = 0;;) {
    TS_GROW(xml->lines, xml->line_count, xml->line_capacity);
    xml->lines[xml->line_count++] = at;
    const char *newline = memchr(xml->bytes + at, '\n', xml->length - at);
    if (!newline) return;
    at = (size_t)(newline - xml->bytes) + 1;
  }
}

static ts_xml *read_with(const char *bytes, size_t length, int options, reading r) {
  if (length > INT_MAX) {
    ts_report(r.problems, TS_ERROR, r.name, 0, "is too large for XML");
    return NULL;
  }
  ts_xml *xml = ts_alloc(sizeof *xml);
  *xml = (ts_xml){.bytes = bytes, .length = length, .document = parse(bytes, length, options, &r)};
  if (r.failed) {
    ts_xml_free(xml);
    return NULL;
  }
  find_lines(xml);
  return xml;
}

ts_xml *ts_xml_read(const char *bytes, size_t length, const char *name, ts_diagnostics *problems) {
  return read_with(bytes, length, 0, (reading){.name = name, .problems = problems});
}

ts_xml *ts_xml_read_without(const char *bytes, size_t length, const char *name, const char *without,
                            ts_diagnostics *problems) {
  ts_text names = {0};
  if (without) ts_text_addf(&names, " %s ", without);
  reading r = {.name = name, .problems = problems, .without = names.data};
  ts_xml *xml = read_with(bytes, length, XML_PARSE_NOBLANKS | XML_PARSE_COMPACT, r);
  ts_text_release(&names);
  return xml;
}

ts_xml *ts_html_read(const char *bytes, size_t length) {
  const int options =
      HTML_PARSE_NONET | HTML_PARSE_RECOVER | HTML_PARSE_NOERROR | HTML_PARSE_NOWARNING;
  xmlDoc *document =
      length <= INT_MAX ? htmlReadMemory(bytes, (int)length, NULL, "UTF-8", options) : NULL;
  if (!document || !xmlDocGetRootElement(document)) {
    xmlFreeDoc(document);
    return NULL;
  }
  ts_xml *xml = ts_alloc(sizeof *xml);
  xml->bytes = bytes;
  xml->length = length;
  xml->document = document;
  return xml;
}

void ts_xml_free(ts_xml *xml) {
  if (!xml) return;
  xmlFreeDoc(xml->document);
  free(xml->lines);
  free(xml);
}

xmlNode *ts_xml_root(const ts_xml *xml) { return xmlDocGetRootElement(xml->document); }
xmlDoc *ts_xml_document(const ts_xml *xml) { return xml->document; }

static xmlNode *named_from(xmlNode *node, const char *name) {
  while (node && !(node->type == XML_ELEMENT_NODE && xmlStrEqual(node->name, BAD_CAST name)))
    node = node->next;
  return node;
}

xmlNode *ts_xml_child(const xmlNode *parent, const char *name) {
  return parent ? named_from(parent->children, name) : NULL;
}

xmlNode *ts_xml_next(const xmlNode *node, const char *name) {
  return node ? named_from(node->next, name) : NULL;
}

/* ---- lines -------------------------------------------------------------- */

/* The line, from 1, on which the byte at this offset stands. */
static int line_at(const ts_xml *xml, size_t offset) {
  size_t low = 0, high = xml->line_count;
  while (high - low > 1) {
    size_t middle = low + (high - low) / 2;
    if (xml->lines[middle] <= offset)
      low = middle;
    else
      high = middle;
  }
  return (int)low + 1;
}

/* First and last byte of the element's start tag: [*begin] is '<', *end is just
 * after the last attribute. False when the text does not show it there. */
bool ts_xml_tag(const ts_xml *xml, const xmlNode *element, size_t *begin, size_t *end) {
  *end = (size_t)element->_private;
  if (*end == 0 || *end > xml->length) return false;
  const char *open = memrchr(xml->bytes, '<', *end);
  if (!open) return false;
  *begin = (size_t)(open - xml->bytes);
  return memmem(open, *end - *begin, element->name, strlen((const char *)element->name)) != NULL;
}

int ts_xml_line(const ts_xml *xml, const xmlNode *element) {
  size_t begin, end;
  if (ts_xml_tag(xml, element, &begin, &end)) return line_at(xml, begin);
  return (int)xmlGetLineNo((xmlNode *)element);
}

static bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

/* Skips the quoted value that follows a name; `at` is just after the name. */
static size_t after_value(const char *bytes, size_t at, size_t end) {
  while (at < end && bytes[at] != '"' && bytes[at] != '\'') at++;
  if (at >= end) return end;
  const char *close = memchr(bytes + at + 1, bytes[at], end - at - 1);
  return close ? (size_t)(close - bytes) + 1 : end;
}

/* Where the name of an attribute stands, and where its value with its quotes ends. */
static bool find_attribute(const ts_xml *xml, const xmlNode *element, const char *name,
                           size_t *begin, size_t *after) {
  size_t at, end, wanted = strlen(name);
  if (!ts_xml_tag(xml, element, &at, &end)) return false;
  while (at < end && !is_space(xml->bytes[at])) at++; /* past the element's name */
  while (at < end) {
    while (at < end && is_space(xml->bytes[at])) at++;
    *begin = at;
    while (at < end && !is_space(xml->bytes[at]) && xml->bytes[at] != '=') at++;
    const char *written = xml->bytes + *begin;
    const char *colon = memchr(written, ':', at - *begin);
    const char *local = colon ? colon + 1 : written;
    size_t length = at - *begin, tail = (size_t)(xml->bytes + at - local);
    *after = after_value(xml->bytes, at, end);
    if ((length == wanted && memcmp(written, name, wanted) == 0) ||
        (tail == wanted && memcmp(local, name, wanted) == 0))
      return true;
    at = *after;
  }
  return false;
}

/* Back from its value to the name of an attribute: over the quote, blanks, the sign and blanks.
 * False where it is not known. */
static bool known_attribute(const ts_xml *xml, const xmlNode *element, const char *name,
                            size_t *at) {
  const xmlAttr *attribute = element->properties;
  while (attribute && !xmlStrEqual(attribute->name, BAD_CAST name)) attribute = attribute->next;
  *at = attribute ? (size_t)attribute->_private : 0;
  if (*at == 0 || *at > xml->length) return false;
  for (--*at; *at > 0 && (is_space(xml->bytes[*at - 1]) || xml->bytes[*at - 1] == '=');) --*at;
  return *at > 0;
}

int ts_xml_attribute_line(const ts_xml *xml, const xmlNode *element, const char *name) {
  size_t begin, after;
  if (known_attribute(xml, element, name, &begin)) return line_at(xml, begin - 1);
  if (find_attribute(xml, element, name, &begin, &after)) return line_at(xml, begin);
  return ts_xml_line(xml, element);
}

bool ts_xml_value(const ts_xml *xml, const xmlNode *element, const char *name, size_t *begin,
                  size_t *end) {
  size_t after;
  if (!find_attribute(xml, element, name, begin, &after)) return false;
  while (*begin < after && xml->bytes[*begin] != '"' && xml->bytes[*begin] != '\'') ++*begin;
  *end = after - 1;
  return ++*begin <= *end;
}
