/* Reading a dossier's files. Stage-internal: reader.c (files and includes),
 * element.c (subjects and their facts), paper.c (evidence, controls, waivers). */
#ifndef TS_DOSSIER_READER_H
#define TS_DOSSIER_READER_H

#include "base/xml.h"
#include "dossier/value.h"
#include "dossier/world.h"

typedef struct {
  ts_dossier *dossier;
  ts_diagnostics *problems;
  const char *folder;         /* of the first file: includes stay inside */
  const ts_xml *xml;          /* of the file being read */
  uint32_t file;              /* its index among the sources */
  unsigned depth;             /* of includes */
  bool incomplete;            /* some file could not be read: what seems missing may stand there */
  bool production;            /* its element was seen */
  const ts_given_text *given; /* instead of what stands in the files */
  size_t given_count;
} ts_reader;

/* The name of the file being read, as messages show it. */
const char *ts_reader_file(const ts_reader *reader);

/* Reports at an element, or at its attribute where `attribute` is not NULL. */
void ts_reader_error(const ts_reader *reader, const xmlNode *element, const char *attribute,
                     const char *format, ...) __attribute__((format(printf, 4, 5)));

/* An attribute's value without white space at its ends, in the arena; NULL when not written. */
char *ts_reader_attribute(const ts_reader *reader, const xmlNode *element, const char *name);

/* Reports an element that does not belong where it stands. `where` is "dossier" or an entity. */
void ts_reader_stray(const ts_reader *reader, const xmlNode *element, const char *where);

/* Reports words that stand between elements. */
void ts_reader_words(const ts_reader *reader, const xmlNode *element);

/* Reports attributes that are not in the list, which ends with NULL. */
void ts_reader_only(const ts_reader *reader, const xmlNode *element, const char *const *allowed);

/* True for an element with this name and no namespace. */
bool ts_reader_is(const xmlNode *element, const char *name);

/* Reads the element of an entity and all that stands in it. */
void ts_read_subject(ts_reader *reader, const xmlNode *element, uint32_t entity, ts_subject parent);

/* The elements that are no subjects, and where they may stand. */
bool ts_read_control(ts_reader *reader, const xmlNode *element, ts_subject scope);
bool ts_read_evidence(ts_reader *reader, const xmlNode *element);
bool ts_read_waiver(ts_reader *reader, const xmlNode *element);

/* When everything is read: paths of evidence and waivers lead somewhere, waivers still hold. */
void ts_read_papers_check(ts_reader *reader);

#endif
