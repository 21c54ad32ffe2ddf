/* What packs share with all rules: scale.reserve(available, needed), scale.missing. */
#ifndef TS_RULE_SHARES_H
#define TS_RULE_SHARES_H

#include "rule/rule.h"

typedef struct {
  const char *table, *name;
  const char *parameters; /* "available, needed"; NULL: a number */
  const char *comment;    /* what stands above it in its file, as one text */
  const char *file;       /* "common/00-scale.lua" */
  int line;
} ts_shared;

/* Gives how many; the list, ordered by table and name, is in the arena. */
size_t ts_shared_names(const ts_packs *packs, ts_arena *arena, const ts_shared **shared);

#endif
