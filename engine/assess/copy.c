#include "assess/copy.h"
#include <stdlib.h>
#include <string.h>

/* Structs are filled field by field into zeroed memory, so that equal ones have equal bytes. */

static const char *const *copy_texts(ts_pool *pool, const char *const *texts, size_t count) {
  const char **copy = ts_alloc(count * sizeof *copy);
  for (size_t i = 0; i < count; i++) copy[i] = ts_pool_text(pool, texts[i]);
  const void *kept = ts_pool_keep(pool, copy, count * sizeof *copy);
  free(copy);
  return kept;
}

static const ts_range *copy_arguments(ts_pool *pool, const ts_shown *value) {
  if (value->function == NULL) return NULL;
  return ts_pool_keep(pool, value->arguments, (size_t)value->function->count * sizeof(ts_range));
}

static const ts_shown *copy_values(ts_pool *pool, const ts_shown *values, size_t count) {
  ts_shown *copy = ts_alloc(count * sizeof *copy);
  for (size_t i = 0; i < count; i++) {
    copy[i].name = ts_pool_text(pool, values[i].name);
    copy[i].shown = ts_pool_text(pool, values[i].shown);
    copy[i].working = ts_pool_text(pool, values[i].working);
    copy[i].names = ts_pool_text(pool, values[i].names);
    copy[i].withheld = ts_pool_text(pool, values[i].withheld);
    copy[i].range = values[i].range;
    copy[i].dim = values[i].dim;
    copy[i].function = values[i].function;
    copy[i].arguments = copy_arguments(pool, &values[i]);
  }
  const void *kept = ts_pool_keep(pool, copy, count * sizeof *copy);
  free(copy);
  return kept;
}

static const ts_decision *copy_decisions(ts_pool *pool, const ts_decision *all, size_t count) {
  ts_decision *copy = ts_alloc(count * sizeof *copy);
  for (size_t i = 0; i < count; i++) {
    copy[i].text = ts_pool_text(pool, all[i].text);
    copy[i].withheld = ts_pool_text(pool, all[i].withheld);
    copy[i].taken = all[i].taken;
    copy[i].settled = all[i].settled;
  }
  const void *kept = ts_pool_keep(pool, copy, count * sizeof *copy);
  free(copy);
  return kept;
}

static void copy_numbers(ts_outcome *o, const ts_outcome *from) {
  o->word = from->word;
  o->likelihood = from->likelihood;
  o->severity = from->severity;
  o->state = from->state;
  o->holds_from = from->holds_from;
  o->holds_to = from->holds_to;
  o->discreet = from->discreet;
  o->control_count = from->control_count;
  o->scored_controls = from->scored_controls;
  o->decision_count = from->decision_count;
  o->line = from->line;
  o->value_count = from->value_count;
  o->call_count = from->call_count;
}

/* All but what differs from one subject to another. */
static const ts_outcome *copy_same(ts_pool *pool, const ts_course *course,
                                   const ts_outcome *outcome) {
  ts_outcome *o = ts_alloc(sizeof *o);
  copy_numbers(o, outcome);
  if (o->decision_count > course->decision_count) o->decision_count = course->decision_count;
  o->about = ts_pool_text(pool, outcome->about ? outcome->about : "");
  o->instrument = ts_pool_text(pool, outcome->instrument);
  o->section = ts_pool_text(pool, outcome->section);
  o->from = ts_pool_text(pool, outcome->from);
  o->to = ts_pool_text(pool, outcome->to);
  o->evidence = ts_pool_text(pool, outcome->evidence);
  o->form = ts_pool_text(pool, outcome->form);
  o->who = ts_pool_text(pool, outcome->who);
  o->controls = copy_texts(pool, outcome->controls, outcome->control_count);
  o->calls = copy_texts(pool, outcome->calls, outcome->call_count);
  const ts_outcome *kept = ts_pool_keep(pool, o, sizeof *o);
  free(o);
  return kept;
}

const ts_spoken *ts_spoken_copy(ts_pool *pool, const ts_course *course, const ts_outcome *outcome) {
  ts_spoken *said = ts_alloc(sizeof *said);
  said->same = copy_same(pool, course, outcome);
  said->because = ts_pool_text(pool, outcome->because);
  said->because_withheld = ts_pool_text(pool, outcome->because_withheld);
  said->values = copy_values(pool, outcome->values, outcome->value_count);
  said->facts = ts_pool_keep(pool, outcome->facts, outcome->fact_count * sizeof *said->facts);
  said->fact_count = (uint32_t)outcome->fact_count;
  said->decisions = copy_decisions(pool, course->decisions, said->same->decision_count);
  const ts_spoken *kept = ts_pool_keep(pool, said, sizeof *said);
  free(said);
  return kept;
}

ts_outcome ts_spoken_outcome(const ts_spoken *spoken) {
  ts_outcome outcome = *spoken->same;
  outcome.because = spoken->because;
  outcome.because_withheld = spoken->because_withheld;
  outcome.values = spoken->values;
  outcome.facts = spoken->facts;
  outcome.fact_count = spoken->fact_count;
  return outcome;
}
