/* Recorded courses: what a rule did over one subject, as straight-line operations between
 * questions, so that it can be done again with other values without running Lua.
 *
 * That is sound because a rule is a pure function of its facts: between two questions it does the
 * same whatever their values are, and what it reads, makes and says goes through here. A
 * record is a tree: each answer to a question leads on to what came then. Where nothing was
 * recorded yet, where an operation has no result, or where a rule turns out to do something else, the
 * rule itself is run, and what it does is added.
 *
 * A record serves every subject of its rule: subjects are numbered as they are met, facts named by
 * that number, and what a run meets (whom a field leads to, who is in a list, a label) is part of it.
 * Where a subject meets something else it goes on to the rule's next record, the last being made for it. */
#ifndef TS_RULE_TRACE_H
#define TS_RULE_TRACE_H

#include "rule/sandbox.h"

typedef struct ts_recorder ts_recorder;

ts_recorder *ts_recorder_new(void);
void ts_recorder_free(ts_recorder *recorder);

/* From here on a run of the rule over the subject is recorded, until ts_record_stop. */
void ts_record_start(ts_sandbox *box, size_t rule);
void ts_record_stop(ts_sandbox *box);

/* What a run does, told while it is recorded and ignored else. */
void ts_record_constant(ts_sandbox *box, ts_node_id made);
void ts_record_met(ts_sandbox *box, ts_subject subject, const ts_field *field);
void ts_record_label(ts_sandbox *box, ts_subject subject);
void ts_record_fact(ts_sandbox *box, uint32_t slot, ts_node_id made);
void ts_record_binary(ts_sandbox *box, ts_op op, ts_node_id a, ts_node_id b, ts_node_id made);
void ts_record_unary(ts_sandbox *box, ts_op op, int k, ts_node_id a, ts_node_id made);
void ts_record_call(ts_sandbox *box, const ts_function *function, const ts_node_id *arguments, ts_node_id made);
void ts_record_say(ts_sandbox *box, const ts_said *said);
void ts_record_question(ts_sandbox *box, const ts_step *question);
void ts_record_answer(ts_sandbox *box, unsigned taken);
void ts_record_end(ts_sandbox *box, bool applies);

typedef enum { TS_REPLAYED, TS_NO_SUCH_COURSE, TS_NOT_RECORDED, TS_NEXT_RECORD } ts_replay_result;
/* Takes the course that the box's steps ask for, from the record: from the beginning, or from the
 * fork of the last step. NEXT_RECORD: the subject goes by another one now; from the beginning. */
struct ts_fork;
ts_replay_result ts_replay(ts_sandbox *box, size_t rule, const struct ts_fork *fork, bool *applies);

#endif
