/* The sandbox: one Lua state in which rule files live and rules are run.
 *
 * What rules can reach is exactly: their subject, q, calc, min max abs sum
 * same, hazard duty stop note, rule control fact share tighten raise nothing, and a
 * whitelist of Lua (type, ipairs, an ordered pairs, tostring of plain values,
 * a small part of string, table and math). Nothing else is in their
 * environment; there is no file, clock, randomness, loading, coroutine, pcall
 * or metatable to be had.
 *
 * A value in Lua is a light userdata: a number that names a node of the graph
 * or a subject of the dossier, stamped with the evaluation it belongs to:
 *
 *     bit 62        61..60     59..24        23..0
 *     subject?      11         evaluation    index
 *
 * so a handle kept from an earlier evaluation is noticed, and none can be forged. */
#ifndef TS_RULE_SANDBOX_H
#define TS_RULE_SANDBOX_H

#include "base/arena.h"
#include "rule/heap.h"
#include "rule/rule.h"
#include "science/graph.h"
#include <lauxlib.h>
#include <lua.h>

typedef enum { TS_COMPARE, TS_READ_FLAG, TS_READ_CHOICE } ts_question;

/* A place where the path of a rule depends on its facts. */
typedef struct {
  ts_question kind;
  ts_node_id a, b;   /* COMPARE: a < b, or a <= b */
  bool or_equal;
  uint32_t slot;     /* READ_FLAG, READ_CHOICE */
  unsigned bit;      /* READ_FLAG on a set: which member */
  uint64_t options;  /* bits of the answers possible here */
  unsigned taken;    /* the answer taken: 0 or 1, or the number of the choice */
  uint64_t left;     /* answers not yet tried */
  bool settled;      /* one answer only: no fork */
} ts_step;

typedef struct {
  char name[48];
  ts_node_id node;
} ts_named;

/* An outcome as said, rendered when its course ends. */
typedef struct {
  ts_outcome out;
  ts_named *named;
  size_t named_count;
  const char *because;     /* the template */
  size_t slot_mark;        /* how many reads came before */
} ts_said;

/* Told that a numbered point of the text was passed, and how what stands there came out. */
typedef void ts_watch(void *who, unsigned number, bool yes);
#define TS_SEEN "tankside_seen" /* the call that marked text has at each point */

/* What q"..." came to, so that the same text is not read again. */
enum { TS_READ_QUANTITIES = 4096 };
typedef struct {
  char text[40]; /* "" where there is none; longer texts are read each time */
  ts_range range;
  ts_dim dim;
} ts_read_quantity;

typedef struct ts_sandbox {
  lua_State *lua;
  ts_heap heap;
  size_t memory, memory_limit;
  long steps_left;         /* Lua instructions, in hundreds, before giving up */
  const ts_units *units;
  const ts_packs *packs;   /* while evaluating */
  ts_packs *loading;       /* while files are being loaded, else NULL */
  const char *file;        /* the file being loaded: "common/air.lua" */
  size_t declared;         /* how many tables were declared so far */
  ts_graph *graph;
  uint64_t stamp;          /* of this run: one more each time */
  uint64_t evaluation;     /* counts evaluations: several runs each */
  bool narrowing;          /* decisions are imposed on the graph */

  /* one evaluation */
  const ts_dossier *dossier;
  const ts_rule *rule;
  ts_subject subject;
  ts_laid *laid;           /* or NULL */
  int laid_level;
  const ts_effect *effects;
  size_t effect_count;
  ts_step *steps;          /* decisions of this course, forks and settled */
  size_t step_count, step_capacity, prefix; /* the first `prefix` are replayed */
  uint32_t *reads;         /* slots read on this course, in order */
  size_t read_count, read_capacity;
  uint16_t *read_at;       /* per slot: the last bits of where it stands in `reads`, if it is there */
  uint16_t *read_ever_at;  /* the same in the reads of the evaluation */
  size_t slot_count;
  ts_bound *bounds;        /* room for those of the course in hand */
  size_t bound_capacity;
  ts_said *said;
  size_t said_count, said_capacity;
  ts_arena *arena;         /* texts of this evaluation */
  ts_node *room;           /* what an imposition that is tried goes back to */
  size_t room_size;
  struct ts_fork *forks;   /* while replaying: fork.h */
  size_t fork_count, fork_capacity;
  ts_node *saved;
  size_t saved_count, saved_capacity;
  bool replaying;
  const ts_answers *lead;  /* the course that a replay is to take, or NULL */
  ts_read_quantity read_quantities[TS_READ_QUANTITIES];
  struct ts_recorder *recorder; /* what runs do is recorded and done again (trace.h), or NULL */
  bool evaluating;
  bool wording;            /* the course is run once more for its words */
  bool amended;            /* what later packs made stricter holds: not for examples */
  ts_watch *watch;         /* told of each point of marked text, or NULL */
  void *watcher;
} ts_sandbox;

/* Whether a slot is in a list, where the last bits of its place would be these. */
static inline bool ts_is_at(const uint32_t *list, size_t count, uint16_t bits, uint32_t slot) {
  for (size_t at = bits; at < count; at += (size_t)UINT16_MAX + 1)
    if (list[at] == slot) return true;
  return false;
}

/* A state with the whitelist and nothing loaded. Never NULL. */
ts_sandbox *ts_sandbox_new(const ts_units *units);
void ts_sandbox_free(ts_sandbox *box);
/* From now on the box knows TS_SEEN, which tells `watch`: to be called before files are run. */
void ts_sandbox_watch(ts_sandbox *box, ts_watch *watch, void *watcher);
ts_sandbox *ts_sandbox_of(lua_State *L);
/* What may run from here on, in hundreds of Lua instructions: the same whatever ran before. */
void ts_sandbox_give(ts_sandbox *box, long hundreds);

/* Compiles and runs one rule file; the tables it declares are kept in the
 * registry under TS_DECLARED, in order. NULL or what went wrong (in the box's arena). */
const char *ts_sandbox_run_file(ts_sandbox *box, const char *text, size_t length, const char *name);

/* Registry keys. */
#define TS_DECLARED "tankside.declared" /* array of { word = , line = , body = } */
#define TS_ENVIRONMENT "tankside.environment" /* the globals of rule files: what TS_NAMES has, read-only */
#define TS_NAMES "tankside.names"       /* what rule files know, by name; asked for another raises an error */
#define TS_SHARED "tankside.shared"     /* array of the names that the file being run shares */
#define TS_FREEZER "tankside.freezer"   /* what was made read-only: original -> proxy */

/* Pushes a read-only view of the table on the top in its place. */
void ts_freeze(lua_State *L);
/* Makes everything the function at `index` can keep (its upvalues, and theirs) read-only. */
void ts_freeze_function(lua_State *L, int index);
/* For Lua, with the number of the first: makes what was declared from there on, and what the file shares,
 * keep nothing. When the file has run: until then it may still put other things there. */
int ts_freeze_declared(lua_State *L); /* words.c */

/* Handles. The checks raise a Lua error that says what was expected. */
void ts_push_node(lua_State *L, ts_node_id id); /* raises the graph's problem on TS_NO_NODE */
void ts_push_subject(lua_State *L, ts_subject subject);
void ts_push_constant(lua_State *L, ts_range range, ts_dim dim);
bool ts_is_node(lua_State *L, int index);
bool ts_is_subject(lua_State *L, int index);
ts_node_id ts_to_node(lua_State *L, int index);  /* a bare number becomes a plain constant */
ts_subject ts_to_subject(lua_State *L, int index);

/* Installers, each called once by ts_sandbox_new with the environment table on the top. */
void ts_install_values(lua_State *L);  /* values.c: arithmetic, comparison, q, calc, min ... */
void ts_install_words(lua_State *L);   /* words.c: hazard, rule, control ... */
void ts_install_library(lua_State *L); /* library.c: the whitelist of Lua */

/* Reading a field of a subject: pushes a handle, boolean, string or list. */
int ts_field_read(lua_State *L, ts_subject subject, const char *name); /* fields.c */
ts_node_id ts_slot_node(ts_sandbox *box, uint32_t slot);               /* with effects applied */
/* The answers that a yes/no or a choice leaves possible; of a set: of member `bit`, from 1. */
uint64_t ts_slot_answers(ts_sandbox *box, uint32_t slot, unsigned bit);
ts_value ts_slot_seen(ts_sandbox *box, uint32_t slot);                 /* the value with effects applied */
/* Lays one change of a control over a value. */
void ts_change_value(const ts_change *change, const ts_value *to, ts_value *value);
/* Lays what counts at the level over the value of a fact, as an evaluation over the subject reads it
 * (laid.c); true when anything did. */
bool ts_laid_over(ts_laid *laid, ts_subject subject, int level, uint32_t slot, ts_value *value);
void ts_note_read(ts_sandbox *box, uint32_t slot);

/* What later packs made stricter (amend.c): the running rule's limits as a table, nil where it
 * has none; a likelihood or severity with the steps that were added. */
void ts_push_limits(lua_State *L);
int ts_raised(const ts_sandbox *box, int level, bool likelihood);

/* Deciding (course.c). */
typedef struct {
  enum { TS_DECIDED, TS_NO_COURSE, TS_REFUSED } how;
  unsigned taken;          /* DECIDED */
  const char *why;         /* REFUSED */
} ts_decided;
/* a < b, or a <= b; a yes/no or a choice with those answers possible. */
ts_decided ts_decide(ts_sandbox *box, ts_node_id a, ts_node_id b, bool or_equal);
ts_decided ts_decide_read(ts_sandbox *box, ts_question kind, uint32_t slot, unsigned bit, uint64_t options);
bool ts_same_question(const ts_step *s, const ts_step *t);
/* The same from Lua: an impossible course is abandoned, a refusal is an error. */
bool ts_decide_compare(lua_State *L, ts_node_id a, ts_node_id b, bool or_equal);
unsigned ts_decide_choice(lua_State *L, ts_question kind, uint32_t slot, unsigned bit, uint64_t options);
extern const char ts_abandon; /* its address is the error that ends an impossible course */

/* Puts the course that has just been run into words (shown.c). */
void ts_word_course(ts_sandbox *box, ts_course *course);

#endif
