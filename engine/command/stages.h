/* What a dossier begins with, by kind of wet stage: shared/stages.xml, merged for the kinds that
 * were chosen. The file says what its words mean. */
#ifndef TS_COMMAND_STAGES_H
#define TS_COMMAND_STAGES_H

#include "base/xml.h"
#include "command/command.h"

typedef struct {
  const char *name, *meaning;
  bool body; /* a body of water: at most one is chosen */
} stage_kind;

typedef struct {
  ts_session *session;
  ts_xml *xml;
  const char *file;
  xmlDoc *merged; /* the elements to begin with, under <dossier> */
  stage_kind *kinds;
  size_t count;
} stages;

/* Reads and checks the file. False with reports; close it in any case. */
bool stages_open(stages *s, ts_session *session);
void stages_close(stages *s);

/* Merges what always stands there with these kinds, by index. */
void stages_merge(stages *s, const size_t *chosen, size_t count);

/* An attribute of an element, in the arena; NULL where there is none. */
const char *stage_value(ts_arena *arena, const xmlNode *node, const char *name);
/* Whether a name is among words, one of which may end in "*". */
bool stage_names(const char *words, const char *name);
/* The fact of an element that an attribute states, or NULL. */
const ts_fact_def *stage_fact(const ts_session *session, const xmlNode *node, const char *name);
/* What stands in an element beside its facts: <ask> and <when>. */
bool stage_is_rule(const xmlNode *node);

#endif
