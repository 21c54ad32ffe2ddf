/* Topics: what an assessment of a wet stage has to look at, and which rules look at it.
 * Read from rules/topics.xml; checked against the rules that are loaded. */
#ifndef TS_COMMAND_TOPICS_H
#define TS_COMMAND_TOPICS_H

#include "command/command.h"

typedef struct {
  const char *section, *name;
  const ts_rule *const *rules; /* in the order of the file */
  size_t rule_count;
  const char *says; /* for a topic that reading a dossier checks: words of its message; or NULL */
  const char *dossier; /* and where in tests/dossiers they are provoked */
  int line;
} ts_topic;

typedef struct {
  const ts_topic *at; /* topics of one section follow each other */
  size_t count;
} ts_topics;

/* Reads the topics and holds them against the session's packs. Reports a topic without a rule, a
 * rule that no pack has, and a rule of `common` without a topic. False when the file cannot be
 * read. */
bool topics_read(const ts_session *session, ts_topics *topics);

/* The table of topics as text: for each its rules with their sources. Gives the exit status: 1
 * when something is missing. */
int topics_print(ts_session *session);

#endif
