/* Which record each subject goes by: of a rule over a subject, found at once however many there
 * are.
 *
 * Part of rule/trace.c, which says what a record is. */
#ifndef TS_RULE_FOLLOWERS_H
#define TS_RULE_FOLLOWERS_H

#include "base/arena.h"
#include "dossier/subjects.h"

struct record;

/* By which record a subject goes: where that hangs in the list of the rule's records. */
typedef struct ts_follower {
  uint32_t rule;
  ts_subject subject;
  union {
    struct record **at;  /* NULL: not known yet */
    struct record *list; /* where `subject` is TS_NO_SUBJECT: the records themselves */
  };
  struct ts_follower *next; /* at the same place */
} ts_follower;

/* Begin with `ts_followers all = {0}`. */
typedef struct {
  ts_follower **places; /* a power of two of them, more than there are followers */
  size_t place_count, count;
} ts_followers;

/* Made in the arena where there is none yet. */
ts_follower *ts_follower_at(ts_followers *all, ts_arena *arena, size_t rule, ts_subject subject);
void ts_followers_forget(ts_followers *all); /* none is left; the arena is the caller's */
void ts_followers_release(ts_followers *all);

#endif
