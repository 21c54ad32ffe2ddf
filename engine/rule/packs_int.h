/* Inside of the packs, shared by packs.c (loading) and declare.c (checking what was declared). */
#ifndef TS_RULE_PACKS_INT_H
#define TS_RULE_PACKS_INT_H

#include "rule/sandbox.h"
#include <stdatomic.h>

typedef struct {
  const char *pack, *name;
  char *text;
  size_t length;
  const char *run; /* what of it is run: `text`, or that without its examples */
  size_t run_length;
  bool refused; /* by the lint: it was never run */
} ts_pack_file;

typedef struct {
  ts_rule rule;
  lua_Integer declaration; /* its place among the declared tables, from 1 */
} ts_loaded_rule;

struct ts_packs {
  ts_arena *arena;
  const ts_units *units;
  ts_vocabulary *vocabulary;
  ts_sandbox *box;
  atomic_flag *lent; /* an evaluator has the box for itself */
  ts_loaded_rule *rules;
  size_t rule_count, rule_capacity;
  ts_control *controls;
  size_t control_count, control_capacity;
  size_t sorted_controls; /* the first so many stand in the order of their ids */
  ts_pack_file *files;
  size_t file_count, file_capacity;
  ts_amendment *amendments;
  size_t amendment_count, amendment_capacity;
  const char **folders; /* loaded, as given */
  size_t folder_count, folder_capacity;
  ts_pack_signer *signers;
  size_t signer_count, signer_capacity;
  lua_Integer declared; /* how many declarations have been read */
  bool bare;            /* files are run without their examples */
};

enum { TS_PACK_FILE_LIMIT = 1 << 20 }; /* bytes; what is larger than a rule file may be is said by the lint */

/* Whether a path names a pack in a ZIP archive; its rule files, in byte order, as in a folder: at the top of
 * the archive or in one folder that holds all of it. NULL with a report for an archive that holds more
 * than *.lua, *.xml and *.txt, or more of them than a pack has. `aside`, where not NULL, is the one other member
 * that is wanted, by its name; its text stays NULL where there is none. */
typedef struct {
  const char *name;
  char *text;
  size_t length;
} ts_pack_member;
bool ts_pack_is_zip(const char *path);
ts_pack_member *ts_pack_unzip(ts_arena *arena, const char *path, ts_pack_member *aside, size_t *count,
                              ts_diagnostics *problems);
/* A rule file of a folder; NULL with a report when it cannot be read, or leads out of the folder. */
char *ts_pack_file_read(ts_arena *arena, const char *folder, const char *pack, const char *name, size_t *length,
                        ts_diagnostics *problems);

/* Reads what was declared since the last call into rules, controls and the
 * vocabulary. Every field is checked; false with reports. */
bool ts_declarations_read(ts_packs *packs, ts_diagnostics *problems);

#endif
