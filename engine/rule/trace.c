#include "rule/trace.h"

#include "base/text.h"
#include "rule/followers.h"
#include "rule/fork.h"
#include <stdlib.h>
#include <string.h>

enum { MEMORY = 64 * 1024 * 1024 }; /* bytes of records; beyond that all are forgotten */
#define REGISTER ((uint32_t)1 << 31) /* else an operand is a constant that outlives evaluations */
#define NO_OPERAND UINT32_MAX

typedef enum { DO_CONSTANT, DO_FACT, DO_BINARY, DO_UNARY, DO_CALL, DO_SAY, DO_MEET, DO_LABEL } deed;

typedef struct {
  ts_range range;
  ts_dim dim;
} constant;

typedef struct {
  const ts_function *function;
  uint32_t arguments[TS_ARGUMENTS_MAX];
} call;

/* Whom a field led to, in order: their numbers, and of those met for the first time what they are. */
typedef struct {
  uint32_t number;
  const ts_entity_def *entity;
} met;

typedef struct {
  size_t count;
  met at[];
} company;

typedef struct {
  ts_said said;
  uint32_t *named; /* operands */
} saying;

/* Most make a value, which goes into the next register. */
typedef struct {
  uint8_t what, op; /* DO_MEET: the kind of the field */
  int8_t k;
  uint32_t a, b; /* operands; of a fact or field: the number of its subject, and which of the subject's */
  const void *data;
} operation;

typedef struct stretch stretch;
typedef struct {
  unsigned answer;
  stretch *next;
} branch;

/* What is done up to the next question, or to the end. */
struct stretch {
  operation *at;
  uint32_t count, capacity;
  enum { UNKNOWN_END, QUESTION, END } end;
  bool applies;     /* END */
  long steps;       /* what is left of Lua's budget then */
  ts_step question; /* QUESTION; a and b are operands, or as of a fact */
  branch *branches;
  uint32_t branch_count, branch_capacity;
};

typedef struct record {
  ts_subject owner; /* the subject it was made for */
  bool spoiled;     /* the rule did something else the second time over it */
  stretch first;
  struct record *next; /* of the same rule */
} record;

struct ts_recorder {
  ts_arena *arena;
  size_t used;
  ts_followers followers;
  uint64_t evaluation; /* the last one that asked: what it said may still be in use */
  bool on;
  ts_follower *who;
  stretch *here;
  uint32_t position;   /* in `here` */
  uint32_t registers;  /* made so far in this run */
  uint32_t *known;     /* by node: its register in the run that `stamp` says */
  uint64_t *stamp;
  size_t known_size;
  ts_node_id *values;  /* by register, while replaying */
  size_t value_size;
  ts_subject *subjects; /* those met on this run, by number; the first is the rule's own */
  uint32_t subject_count, subject_capacity;
  uint32_t *number_of; /* by subject: its number, if it is the one met under that */
  size_t known_subjects;
  bool differs;         /* somebody else was met than is recorded */
};

ts_recorder *ts_recorder_new(void) {
  ts_recorder *r = ts_alloc(sizeof *r);
  *r = (ts_recorder){.arena = ts_arena_new()};
  return r;
}

void ts_recorder_free(ts_recorder *r) {
  if (!r) return;
  ts_arena_free(r->arena);
  free(r->known);
  free(r->stamp);
  free(r->values);
  free(r->subjects);
  free(r->number_of);
  ts_followers_release(&r->followers);
  free(r);
}

static void forget(ts_recorder *r) {
  ts_arena_free(r->arena);
  r->arena = ts_arena_new();
  r->used = 0;
  ts_followers_forget(&r->followers);
}

static void *take(ts_recorder *r, size_t size) {
  r->used += size;
  return ts_arena_alloc(r->arena, size);
}

/* Room for one more at the end of something that grows in the arena. */
static void *grow(ts_recorder *r, void *at, uint32_t count, uint32_t *capacity, size_t size) {
  if (count < *capacity) return at;
  *capacity = *capacity ? 2 * *capacity : 4;
  void *larger = take(r, *capacity * size);
  if (count) memcpy(larger, at, count * size);
  return larger;
}

static ts_follower *follower_of(ts_recorder *r, size_t rule, ts_subject subject) {
  ts_follower *who = ts_follower_at(&r->followers, r->arena, rule, subject);
  if (!who->at) who->at = &ts_follower_at(&r->followers, r->arena, rule, TS_NO_SUBJECT)->list;
  while (*who->at && (*who->at)->spoiled && (*who->at)->owner != subject) who->at = &(*who->at)->next;
  return who;
}

/* The number under which the run met the subject; NO_OPERAND where it did not. */
static uint32_t number_of(const ts_recorder *r, ts_subject subject) {
  uint32_t number = r->number_of[subject];
  return number < r->subject_count && r->subjects[number] == subject ? number : NO_OPERAND;
}

static uint32_t number_next(ts_recorder *r, ts_subject subject) {
  TS_GROW(r->subjects, r->subject_count, r->subject_capacity);
  r->subjects[r->subject_count] = subject;
  return r->number_of[subject] = r->subject_count++;
}

static void begin_at(ts_sandbox *box) {
  ts_recorder *r = box->recorder;
  size_t subjects = ts_subject_count(box->dossier);
  if (subjects > r->known_subjects) {
    r->number_of = ts_resize(r->number_of, subjects * sizeof *r->number_of);
    memset(r->number_of + r->known_subjects, 0, (subjects - r->known_subjects) * sizeof *r->number_of);
    r->known_subjects = subjects;
  }
  r->position = r->registers = r->subject_count = 0;
  number_next(r, box->subject);
}

/* ---- recording -------------------------------------------------------------------- */

void ts_record_start(ts_sandbox *box, size_t rule) {
  ts_recorder *r = box->recorder;
  if (!r) return;
  r->who = follower_of(r, rule, box->subject);
  if (!*r->who->at) {
    *r->who->at = take(r, sizeof(record));
    (*r->who->at)->owner = box->subject;
  }
  r->on = !(*r->who->at)->spoiled;
  r->here = &(*r->who->at)->first;
  begin_at(box);
}

void ts_record_stop(ts_sandbox *box) {
  if (box->recorder) box->recorder->on = false;
}

/* The run does something else than is recorded: another's record is not for this subject. */
static void spoil(ts_recorder *r) {
  record *now = *r->who->at;
  if (now->owner == r->who->subject) now->spoiled = true;
  else r->who->at = &now->next;
  r->on = false;
}

static bool is_known(const ts_sandbox *box, ts_node_id node) {
  const ts_recorder *r = box->recorder;
  return node < r->known_size && r->stamp[node] == box->stamp;
}

/* The next register holds this node. */
static void know(ts_sandbox *box, ts_node_id node) {
  ts_recorder *r = box->recorder;
  if (node >= r->known_size) {
    size_t size = 2 * (size_t)node + 64;
    r->known = ts_resize(r->known, size * sizeof *r->known);
    r->stamp = ts_resize(r->stamp, size * sizeof *r->stamp);
    memset(r->stamp + r->known_size, 0, (size - r->known_size) * sizeof *r->stamp);
    r->known_size = size;
  }
  r->known[node] = r->registers++;
  r->stamp[node] = box->stamp;
}

static uint32_t operand(ts_sandbox *box, ts_node_id node) {
  if (node < ts_graph_kept(box->graph)) return node;
  if (is_known(box, node)) return REGISTER | box->recorder->known[node];
  spoil(box->recorder);
  return NO_OPERAND;
}

static bool same_company(const company *c, const company *d) {
  if (c->count != d->count) return false;
  for (size_t i = 0; i < c->count; i++)
    if (c->at[i].number != d->at[i].number || c->at[i].entity != d->at[i].entity) return false;
  return true;
}

/* What is said follows from what came before; it is kept once. */
static bool same_data(const operation *o, const operation *p) {
  if (o->what == DO_SAY) return true;
  if (o->data == NULL || p->data == NULL) return o->data == p->data;
  if (o->what == DO_CONSTANT) return memcmp(o->data, p->data, sizeof(constant)) == 0;
  if (o->what == DO_CALL) return memcmp(o->data, p->data, sizeof(call)) == 0;
  if (o->what == DO_LABEL) return strcmp(o->data, p->data) == 0;
  if (o->what == DO_MEET) return same_company(o->data, p->data);
  return true;
}

static bool same_operation(const operation *o, const operation *p) {
  return o->what == p->what && o->op == p->op && o->k == p->k && o->a == p->a && o->b == p->b && same_data(o, p);
}

static void append(ts_recorder *r, const operation *done, size_t size) {
  stretch *s = r->here;
  s->at = grow(r, s->at, s->count, &s->capacity, sizeof *s->at);
  s->at[s->count] = *done;
  if (size) s->at[s->count].data = memcpy(take(r, size), done->data, size);
  s->count++;
  r->position++;
}

/* Recorded before, and the same; or new at the end of what is known. `size` is that of its data. */
static void note(ts_recorder *r, const operation *done, size_t size) {
  if (!r->on) return;
  stretch *s = r->here;
  if (r->position < s->count) {
    if (same_operation(&s->at[r->position], done)) r->position++;
    else spoil(r);
  } else if (s->end == UNKNOWN_END) append(r, done, size);
  else spoil(r);
}

/* Whether this is the first time that the run makes the value. */
static bool is_new(ts_sandbox *box, ts_node_id made) {
  if (!box->recorder || !box->recorder->on || made == TS_NO_NODE) return false;
  return made >= ts_graph_kept(box->graph) && !is_known(box, made);
}

void ts_record_constant(ts_sandbox *box, ts_node_id made) {
  if (!is_new(box, made)) return;
  const ts_node *n = ts_node_at(box->graph, made);
  constant it;
  memset(&it, 0, sizeof it);
  it.range = (ts_range){n->lo, n->hi};
  it.dim = n->dim;
  note(box->recorder, &(operation){.what = DO_CONSTANT, .data = &it}, sizeof it);
  know(box, made);
}

static met meet(ts_sandbox *box, ts_subject subject) {
  ts_recorder *r = box->recorder;
  met it = {.number = number_of(r, subject), .entity = ts_subject_at(box->dossier, subject)->entity};
  if (it.number == NO_OPERAND) it.number = number_next(r, subject);
  return it;
}

void ts_record_met(ts_sandbox *box, ts_subject subject, const ts_field *field) {
  ts_recorder *r = box->recorder;
  if (!r || !r->on || (field->kind != TS_FIELD_SUBJECT && field->kind != TS_FIELD_LIST)) return;
  bool one = field->kind == TS_FIELD_SUBJECT;
  const ts_subject *list = one ? &field->subject : field->list;
  size_t count = one ? field->subject != TS_NO_SUBJECT : field->count;
  size_t size = sizeof(company) + count * sizeof(met);
  operation done = {.what = DO_MEET, .op = (uint8_t)field->kind, .a = number_of(r, subject), .b = field->index};
  company *all = ts_alloc(size);
  all->count = count;
  for (size_t i = 0; i < count; i++) all->at[i] = meet(box, list[i]);
  done.data = all;
  note(r, &done, size);
  free(all);
}

void ts_record_label(ts_sandbox *box, ts_subject subject) {
  ts_recorder *r = box->recorder;
  if (!r || !r->on) return;
  const char *label = ts_subject_at(box->dossier, subject)->label;
  note(r, &(operation){.what = DO_LABEL, .a = number_of(r, subject), .data = label}, strlen(label) + 1);
}

/* A fact is named by the number of its subject and its place there. */
static void name_slot(ts_sandbox *box, uint32_t slot, uint32_t *subject, uint32_t *place) {
  ts_subject owner = ts_slot_subject(box->dossier, slot);
  *subject = number_of(box->recorder, owner);
  *place = slot - ts_subject_at(box->dossier, owner)->slot;
  if (*subject == NO_OPERAND) spoil(box->recorder);
}

void ts_record_fact(ts_sandbox *box, uint32_t slot, ts_node_id made) {
  if (!is_new(box, made)) return;
  operation done = {.what = DO_FACT};
  name_slot(box, slot, &done.a, &done.b);
  note(box->recorder, &done, 0);
  know(box, made);
}

void ts_record_binary(ts_sandbox *box, ts_op op, ts_node_id a, ts_node_id b, ts_node_id made) {
  if (!is_new(box, made)) return;
  operation done = {.what = DO_BINARY, .op = (uint8_t)op, .a = operand(box, a), .b = operand(box, b)};
  note(box->recorder, &done, 0);
  know(box, made);
}

void ts_record_unary(ts_sandbox *box, ts_op op, int k, ts_node_id a, ts_node_id made) {
  if (!is_new(box, made)) return;
  operation done = {.what = DO_UNARY, .op = (uint8_t)op, .k = (int8_t)k, .a = operand(box, a)};
  note(box->recorder, &done, 0);
  know(box, made);
}

void ts_record_call(ts_sandbox *box, const ts_function *function, const ts_node_id *arguments, ts_node_id made) {
  if (!is_new(box, made)) return;
  call it;
  memset(&it, 0, sizeof it);
  it.function = function;
  for (int i = 0; i < function->count; i++) it.arguments[i] = operand(box, arguments[i]);
  note(box->recorder, &(operation){.what = DO_CALL, .data = &it}, sizeof it);
  know(box, made);
}

static const char *keep_text(ts_recorder *r, const char *text) {
  if (text) r->used += strlen(text) + 1;
  return ts_arena_copy(r->arena, text);
}

/* Its texts belong to the evaluation; the record keeps its own. */
static void keep_texts(ts_recorder *r, ts_outcome *out) {
  const char **texts[] = {&out->about, &out->instrument, &out->section, &out->from, &out->to, &out->evidence, &out->who};
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    *texts[i] = keep_text(r, *texts[i]);
  const char **ids = take(r, (out->control_count + 1) * sizeof *ids);
  for (size_t i = 0; i < out->control_count; i++) ids[i] = keep_text(r, out->controls[i]);
  out->controls = ids;
}

static const saying *keep_saying(ts_sandbox *box, const ts_said *said) {
  ts_recorder *r = box->recorder;
  saying *it = take(r, sizeof *it);
  it->said = *said;
  keep_texts(r, &it->said.out);
  it->said.because = keep_text(r, said->because);
  ts_named *named = take(r, (said->named_count + 1) * sizeof *named);
  if (said->named_count) memcpy(named, said->named, said->named_count * sizeof *named);
  it->said.named = named;
  it->named = take(r, (said->named_count + 1) * sizeof *it->named);
  for (size_t i = 0; i < said->named_count; i++) it->named[i] = operand(box, named[i].node);
  return it;
}

void ts_record_say(ts_sandbox *box, const ts_said *said) {
  ts_recorder *r = box->recorder;
  if (!r || !r->on) return;
  operation done = {.what = DO_SAY};
  if (r->position >= r->here->count) done.data = keep_saying(box, said);
  note(r, &done, 0);
}

void ts_record_question(ts_sandbox *box, const ts_step *question) {
  ts_recorder *r = box->recorder;
  if (!r || !r->on) return;
  ts_step asked = *question;
  if (asked.kind == TS_COMPARE) asked.a = operand(box, question->a), asked.b = operand(box, question->b);
  else name_slot(box, question->slot, &asked.a, &asked.b), asked.slot = 0;
  if (!r->on) return;
  stretch *s = r->here;
  if (s->end == UNKNOWN_END && r->position == s->count) {
    s->end = QUESTION;
    s->question = asked;
    s->steps = box->steps_left;
  } else if (s->end != QUESTION || r->position != s->count || !ts_same_question(&s->question, &asked)) spoil(r);
}

static stretch *branch_for(const stretch *s, unsigned answer) {
  for (uint32_t i = 0; i < s->branch_count; i++)
    if (s->branches[i].answer == answer) return s->branches[i].next;
  return NULL;
}

void ts_record_answer(ts_sandbox *box, unsigned taken) {
  ts_recorder *r = box->recorder;
  if (!r || !r->on) return;
  stretch *s = r->here, *next = branch_for(s, taken);
  if (!next) {
    next = take(r, sizeof *next);
    s->branches = grow(r, s->branches, s->branch_count, &s->branch_capacity, sizeof *s->branches);
    s->branches[s->branch_count++] = (branch){taken, next};
  }
  r->here = next;
  r->position = 0;
}

void ts_record_end(ts_sandbox *box, bool applies) {
  ts_recorder *r = box->recorder;
  if (!r || !r->on) return;
  stretch *s = r->here;
  if (s->end == UNKNOWN_END && r->position == s->count) {
    s->end = END;
    s->applies = applies;
    s->steps = box->steps_left;
  } else if (s->end != END || r->position != s->count || s->applies != applies) spoil(r);
  r->on = false;
}

/* ---- doing it again ------------------------------------------------------------------ */

static ts_node_id value_of(const ts_recorder *r, uint32_t operand) {
  return (operand & REGISTER) != 0 ? r->values[operand & ~REGISTER] : operand;
}

/* What the names stand for on this run: only words tell of it. */
static ts_named *name_again(ts_sandbox *box, const saying *it) {
  size_t count = it->said.named_count;
  ts_named *named = ts_arena_alloc(box->arena, (count + 1) * sizeof *named);
  for (size_t i = 0; i < count; i++) {
    named[i] = it->said.named[i];
    named[i].node = value_of(box->recorder, it->named[i]);
  }
  return named;
}

static void say_again(ts_sandbox *box, const saying *it) {
  TS_GROW(box->said, box->said_count, box->said_capacity);
  ts_said *said = &box->said[box->said_count++];
  *said = it->said;
  said->out.decision_count = box->step_count;
  said->slot_mark = box->read_count;
  said->named = box->wording ? name_again(box, it) : NULL;
  if (!box->wording) said->named_count = 0;
}

static ts_node_id call_again(const ts_sandbox *box, const call *it) {
  ts_node_id x[TS_ARGUMENTS_MAX];
  for (int i = 0; i < it->function->count; i++) x[i] = value_of(box->recorder, it->arguments[i]);
  return ts_call(box->graph, it->function, x);
}

static uint32_t slot_again(const ts_sandbox *box, uint32_t subject, uint32_t place) {
  return ts_subject_at(box->dossier, box->recorder->subjects[subject])->slot + place;
}

/* Whether the subject takes the place of the one that was met. */
static bool stands_for(ts_sandbox *box, ts_subject subject, const met *m) {
  met found = meet(box, subject);
  return found.number == m->number && found.entity == m->entity;
}

static bool meet_again(ts_sandbox *box, const operation *o) {
  const company *all = o->data;
  ts_subject from = box->recorder->subjects[o->a], one;
  size_t count;
  const ts_subject *list = &one;
  if (o->op == TS_FIELD_LIST) list = ts_subject_list(box->dossier, from, o->b, &count);
  else count = (one = ts_subject_link(box->dossier, from, o->b)) != TS_NO_SUBJECT;
  if (count != all->count) return false;
  for (size_t i = 0; i < count; i++)
    if (!stands_for(box, list[i], &all->at[i])) return false;
  return true;
}

static bool is_labelled(const ts_sandbox *box, const operation *o) {
  return strcmp(ts_subject_at(box->dossier, box->recorder->subjects[o->a])->label, o->data) == 0;
}

static ts_node_id make_again(ts_sandbox *box, const operation *o) {
  const ts_recorder *r = box->recorder;
  const constant *c = o->data;
  switch ((deed)o->what) {
  case DO_CONSTANT: return ts_constant(box->graph, c->range, c->dim);
  case DO_FACT: return ts_slot_node(box, slot_again(box, o->a, o->b));
  case DO_BINARY: return ts_binary(box->graph, (ts_op)o->op, value_of(r, o->a), value_of(r, o->b));
  case DO_UNARY:
    if (o->op == TS_RAISE) return ts_power(box->graph, value_of(r, o->a), o->k);
    return ts_unary(box->graph, (ts_op)o->op, value_of(r, o->a));
  case DO_CALL: return call_again(box, o->data);
  case DO_SAY:
  case DO_MEET:
  case DO_LABEL: break;
  }
  return TS_NO_NODE;
}

static void put_value(ts_recorder *r, ts_node_id node) {
  if (r->registers == r->value_size) {
    r->value_size = r->value_size ? 2 * r->value_size : 128;
    r->values = ts_resize(r->values, r->value_size * sizeof *r->values);
  }
  r->values[r->registers++] = node;
}

static bool do_one_again(ts_sandbox *box, const operation *o) {
  ts_recorder *r = box->recorder;
  if (o->what == DO_SAY) return say_again(box, o->data), true;
  if (o->what == DO_MEET) return !(r->differs = !meet_again(box, o));
  if (o->what == DO_LABEL) return !(r->differs = !is_labelled(box, o));
  ts_node_id made = make_again(box, o);
  if (made == TS_NO_NODE) return false;
  put_value(r, made);
  return true;
}

static bool do_again(ts_sandbox *box, const stretch *s) {
  for (uint32_t i = 0; i < s->count; i++)
    if (!do_one_again(box, &s->at[i])) return false;
  return true;
}

static ts_decided ask_again(ts_sandbox *box, const stretch *s) {
  ts_step step = s->question;
  if (step.kind != TS_COMPARE) {
    uint32_t slot = slot_again(box, step.a, step.b);
    ts_note_read(box, slot);
    return ts_decide_read(box, step.kind, slot, step.bit, ts_slot_answers(box, slot, step.bit));
  }
  return ts_decide(box, value_of(box->recorder, step.a), value_of(box->recorder, step.b), step.or_equal);
}

/* What the fork of the question just answered, if it is one, needs to go on from here. */
static void complete_fork(ts_sandbox *box, const stretch *s, size_t step) {
  ts_fork *fork = box->fork_count ? &box->forks[box->fork_count - 1] : NULL;
  if (!fork || fork->step != step) return;
  fork->stretch = s;
  fork->registers = box->recorder->registers;
  fork->subjects = box->recorder->subject_count;
}

static ts_replay_result go_along(ts_sandbox *box, const stretch *s, bool *applies) {
  while (s) {
    if (!do_again(box, s) || s->end == UNKNOWN_END) return TS_NOT_RECORDED;
    box->steps_left = s->steps; /* a course found impossible later costs what it did in Lua, too */
    if (s->end == END) return *applies = s->applies, TS_REPLAYED;
    size_t step = box->step_count;
    ts_decided decided = ask_again(box, s);
    if (decided.how == TS_NO_COURSE) return TS_NO_SUCH_COURSE;
    if (decided.how == TS_REFUSED) return TS_NOT_RECORDED;
    complete_fork(box, s, step);
    s = branch_for(s, decided.taken);
  }
  return TS_NOT_RECORDED;
}

ts_replay_result ts_replay(ts_sandbox *box, size_t rule, const ts_fork *fork, bool *applies) {
  ts_recorder *r = box->recorder;
  size_t used = r->used + r->followers.count * sizeof(ts_follower);
  if (used > MEMORY && box->evaluation != r->evaluation) forget(r);
  r->evaluation = box->evaluation;
  ts_follower *who = follower_of(r, rule, box->subject);
  const record *kept = *who->at;
  if (!kept || kept->spoiled) return TS_NOT_RECORDED;
  const stretch *from = &kept->first;
  begin_at(box);
  r->differs = false;
  if (fork) {
    from = fork->stretch;
    r->registers = fork->registers;
    r->subject_count = fork->subjects;
    box->steps_left = from->steps;
    if (!ts_fork_take(box, fork)) return TS_NO_SUCH_COURSE;
    from = branch_for(from, box->steps[fork->step].taken);
  }
  box->replaying = true;
  ts_replay_result did = go_along(box, from, applies);
  box->replaying = false;
  if (!r->differs) return did;
  who->at = &(*who->at)->next;
  return TS_NEXT_RECORD;
}
