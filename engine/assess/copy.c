#include "assess/copy.h"
#include <string.h>

static const char **copy_texts(ts_arena *arena, const char *const *texts, size_t count) {
  const char **copy = ts_arena_alloc(arena, (count + 1) * sizeof *copy);
  for (size_t i = 0; i < count; i++) copy[i] = ts_arena_copy(arena, texts[i]);
  return copy;
}

static const ts_range *copy_arguments(ts_arena *arena, const ts_shown *value) {
  if (value->function == NULL) return NULL;
  size_t size = (size_t)value->function->count * sizeof(ts_range);
  return memcpy(ts_arena_alloc(arena, size), value->arguments, size);
}

static const ts_shown *copy_values(ts_arena *arena, const ts_shown *values, size_t count) {
  ts_shown *copy = ts_arena_alloc(arena, (count + 1) * sizeof *copy);
  for (size_t i = 0; i < count; i++) {
    copy[i] = values[i];
    copy[i].name = ts_arena_copy(arena, values[i].name);
    copy[i].shown = ts_arena_copy(arena, values[i].shown);
    copy[i].working = ts_arena_copy(arena, values[i].working);
    copy[i].names = ts_arena_copy(arena, values[i].names);
    copy[i].withheld = ts_arena_copy(arena, values[i].withheld);
    copy[i].arguments = copy_arguments(arena, &values[i]);
  }
  return copy;
}

static const uint32_t *copy_slots(ts_arena *arena, const uint32_t *slots, size_t count) {
  uint32_t *copy = ts_arena_alloc(arena, (count + 1) * sizeof *copy);
  if (count > 0) memcpy(copy, slots, count * sizeof *copy);
  return copy;
}

static const ts_decision *copy_decisions(ts_arena *arena, const ts_decision *all, size_t count) {
  ts_decision *copy = ts_arena_alloc(arena, (count + 1) * sizeof *copy);
  for (size_t i = 0; i < count; i++) {
    copy[i] = all[i];
    copy[i].text = ts_arena_copy(arena, all[i].text);
    copy[i].withheld = ts_arena_copy(arena, all[i].withheld);
  }
  return copy;
}

const ts_spoken *ts_spoken_copy(ts_arena *arena, const ts_course *course,
                                const ts_outcome *outcome) {
  ts_spoken *said = ts_arena_alloc(arena, sizeof *said);
  ts_outcome *o = &said->outcome;
  *o = *outcome;
  if (o->decision_count > course->decision_count) o->decision_count = course->decision_count;
  said->decisions = copy_decisions(arena, course->decisions, o->decision_count);
  o->about = ts_arena_copy(arena, outcome->about ? outcome->about : "");
  o->instrument = ts_arena_copy(arena, outcome->instrument);
  o->section = ts_arena_copy(arena, outcome->section);
  o->from = ts_arena_copy(arena, outcome->from);
  o->to = ts_arena_copy(arena, outcome->to);
  o->evidence = ts_arena_copy(arena, outcome->evidence);
  o->because = ts_arena_copy(arena, outcome->because);
  o->because_withheld = ts_arena_copy(arena, outcome->because_withheld);
  o->form = ts_arena_copy(arena, outcome->form);
  o->who = ts_arena_copy(arena, outcome->who);
  o->values = copy_values(arena, outcome->values, outcome->value_count);
  o->controls = copy_texts(arena, outcome->controls, outcome->control_count);
  o->facts = copy_slots(arena, outcome->facts, outcome->fact_count);
  o->calls = copy_texts(arena, outcome->calls, outcome->call_count);
  return said;
}
