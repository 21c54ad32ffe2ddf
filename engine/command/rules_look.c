/* One rule looked at: what it says over a dossier, and what it is made of. */
#include "assess/label.h"
#include "base/sort.h"
#include "base/text.h"
#include "command/command.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void head(const ts_rule *rule) {
  char text[64];
  snprintf(text, sizeof text, "%s  ", rule->id);
  print_folded(text, rule->title);
  printf("  asked of each %s; %s/%s:%d\n", rule->each, rule->pack, rule->file, rule->line);
}

bool rule_by_id(const ts_session *s, const char *id, size_t *index) {
  size_t count = ts_rule_count(s->packs);
  const char **ids = ts_arena_alloc(s->arena, (count + 1) * sizeof *ids);
  for (size_t i = 0; i < count; i++) {
    ids[i] = ts_rule_at(s->packs, i)->id;
    if (ts_same(ids[i], id)) return *index = i, true;
  }
  unknown("rule", id, ids, count);
  return false;
}

/* ---- try: what it says for each subject of a dossier ------------------------------ */

static const char *const states[] = {"met", "open", "not met"};

static void print_outcome(const char *indent, const ts_outcome *said) {
  char text[96];
  int used = snprintf(text, sizeof text, "%s%s", indent, ts_word_name(said->word));
  if (said->word == TS_HAZARD)
    used += snprintf(text + used, sizeof text - (size_t)used, " %d × %d = %d", said->likelihood,
                     said->severity, said->likelihood * said->severity);
  if (said->word == TS_DUTY)
    used += snprintf(text + used, sizeof text - (size_t)used, " %s", states[said->state]);
  snprintf(text + used, sizeof text - (size_t)used, ": ");
  print_folded(text, said->because);
}

static void print_open_decisions(const ts_course *course) {
  ts_text text = {0};
  for (size_t i = 0; i < course->decision_count; i++) {
    if (course->decisions[i].settled) continue;
    if (text.length > 0) ts_text_add(&text, ", and ");
    ts_text_add(&text, course->decisions[i].text);
  }
  print_folded("    when ", text.length > 0 ? text.data : "nothing else is open");
  ts_text_release(&text);
}

static void print_course(const ts_course *course, bool alone) {
  const char *indent = alone ? "    " : "      ";
  if (!alone) print_open_decisions(course);
  for (size_t i = 0; i < course->outcome_count; i++) print_outcome(indent, &course->outcomes[i]);
  if (course->outcome_count > 0) return;
  const char *why =
      course->decision_count ? course->decisions[course->decision_count - 1].text : "";
  char text[64];
  snprintf(text, sizeof text, "%s%s", indent, course->applies ? "nothing: " : "does not apply: ");
  print_folded(text, why);
}

static void try_subject(const ts_session *s, ts_evaluator *evaluator, size_t rule,
                        ts_subject subject, const char *label) {
  const ts_subject_info *info = ts_subject_at(s->dossier, subject);
  const ts_evaluation *e = ts_evaluate(evaluator, rule, subject, NULL, 0);
  char text[128];
  snprintf(text, sizeof text, "%s  ", info->path);
  print_folded(text, label);
  if (e->failure != NULL) print_folded("    failed: ", e->failure);
  if (e->unresolved) printf("    not all courses could be seen: %zu of more\n", e->course_count);
  for (size_t i = 0; i < e->course_count; i++)
    print_course(ts_course_worded(evaluator, i), e->course_count == 1);
}

int rules_try(const ts_session *s, size_t rule) {
  const ts_rule *it = ts_rule_at(s->packs, rule);
  size_t count = 0;
  const char **labels = ts_labels(s->dossier, s->arena);
  ts_evaluator *evaluator = ts_evaluator_new(s->packs, s->dossier);
  head(it);
  for (ts_subject i = 0; i < ts_subject_count(s->dossier); i++) {
    if (!ts_same(ts_subject_at(s->dossier, i)->entity->name, it->each)) continue;
    putchar('\n');
    try_subject(s, evaluator, rule, i, labels[i]);
    count++;
  }
  if (count == 0) printf("\nthe dossier has no %s\n", it->each);
  ts_evaluator_free(evaluator);
  return DONE;
}

/* ---- explain: what it looks at, where it changes, what it can say --------------------- */

enum { CHANGES = 24 };

/* The values of one fact at which some course begins or ends, with everything else unknown. */
static size_t changes_of(const ts_evaluation *e, uint32_t slot, ts_range all, double *at) {
  size_t count = 0;
  for (size_t c = 0; c < e->course_count; c++)
    for (size_t b = 0; b < e->courses[c].bound_count; b++) {
      const ts_bound *bound = &e->courses[c].bounds[b];
      for (int side = 0; bound->slot == slot && bound->number && side < 2; side++) {
        double x = ts_number_digits(side ? bound->range.hi : bound->range.lo, 6);
        bool known = x <= all.lo || x >= all.hi || count == CHANGES;
        for (size_t i = 0; i < count && !known; i++) known = at[i] == x;
        if (!known) at[count++] = x;
      }
    }
  return count;
}

static void print_changes(const ts_session *s, const ts_dossier *world, const ts_evaluation *e,
                          uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(world, slot);
  double at[CHANGES];
  ts_range all = ts_fact_plausible(s->vocabulary, fact);
  size_t count = changes_of(e, slot, all, at);
  if (count == 0) return;
  ts_sort_numbers(at, count);
  ts_text text = {0};
  for (size_t i = 0; i < count; i++) {
    if (i > 0) ts_text_add(&text, ", ");
    ts_text_add(&text, ts_show_number(world, fact, (ts_range){at[i], at[i]}, s->arena));
  }
  print_folded("      changes at ", text.data);
  ts_text_release(&text);
}

static void print_facts(const ts_session *s, const ts_dossier *world, const ts_evaluation *e) {
  puts("\nLooks at; and where something changes, all else not known");
  for (size_t i = 0; i < e->read_count; i++) {
    const ts_fact_def *fact = ts_slot_fact(world, e->reads[i]);
    if (fact->derived) continue; /* what it is made of is listed */
    char text[96];
    snprintf(text, sizeof text, "  %s %s: ", fact->entity, fact->name);
    print_folded(text, fact->meaning);
    print_changes(s, world, e, e->reads[i]);
  }
}

typedef struct {
  const ts_outcome *said;
  size_t courses;
} saying;

static bool same_saying(const ts_outcome *a, const ts_outcome *b) {
  return a->word == b->word && a->likelihood == b->likelihood && a->severity == b->severity &&
         a->state == b->state && ts_same(a->about ? a->about : "", b->about ? b->about : "");
}

static int worst_first(const void *left, const void *right) {
  const ts_outcome *a = ((const saying *)left)->said, *b = ((const saying *)right)->said;
  if (a->word != b->word)
    return (a->word == TS_STOP) ? -1 : (b->word == TS_STOP) ? 1 : (int)a->word - (int)b->word;
  int x = a->likelihood * a->severity, y = b->likelihood * b->severity;
  return x != y ? y - x : (int)b->state - (int)a->state;
}

static void print_sayings(const ts_evaluation *e) {
  saying *all = NULL;
  size_t count = 0, capacity = 0, silent = 0;
  for (size_t c = 0; c < e->course_count; c++) {
    silent += e->courses[c].outcome_count == 0;
    for (size_t o = 0; o < e->courses[c].outcome_count; o++) {
      const ts_outcome *said = &e->courses[c].outcomes[o];
      size_t i = 0;
      while (i < count && !same_saying(all[i].said, said)) i++;
      if (i == count) {
        TS_GROW(all, count, capacity);
        all[count++] = (saying){said, 0};
      }
      all[i].courses++;
    }
  }
  if (count > 1) qsort(all, count, sizeof *all, worst_first);
  puts("\nCan say, with nothing known");
  for (size_t i = 0; i < count; i++) {
    const ts_outcome *said = all[i].said;
    printf("  %s", ts_word_name(said->word));
    if (said->word == TS_HAZARD)
      printf(" %d × %d = %d", said->likelihood, said->severity, said->likelihood * said->severity);
    if (said->word == TS_DUTY)
      printf(" %s: %s, %s", states[said->state], said->instrument, said->section);
    if (said->about && said->about[0]) printf(", about %s", said->about);
    printf(" (on %zu of %zu courses)\n", all[i].courses, e->course_count);
  }
  if (silent > 0) printf("  nothing (on %zu)\n", silent);
  if (e->unresolved) puts("  and maybe more: not all courses could be seen");
  free(all);
}

static void print_controls(const ts_session *s, const ts_evaluation *e) {
  const char *named[64];
  size_t count = 0;
  for (size_t c = 0; c < e->course_count; c++)
    for (size_t o = 0; o < e->courses[c].outcome_count; o++)
      for (size_t i = 0; i < e->courses[c].outcomes[o].control_count && count < 64; i++) {
        const char *id = e->courses[c].outcomes[o].controls[i];
        bool known = false;
        for (size_t k = 0; k < count; k++) known = known || ts_same(named[k], id);
        if (!known) named[count++] = id;
      }
  if (count > 0) puts("\nControls it names");
  for (size_t i = 0; i < count; i++) {
    const ts_control *control = ts_control_find(s->packs, named[i]);
    char text[96];
    snprintf(text, sizeof text, "  %s: ", named[i]);
    print_folded(text, control ? control->title : "in no pack");
  }
}

int rules_explain(const ts_session *s, size_t rule) {
  const ts_rule *it = ts_rule_at(s->packs, rule);
  ts_subject subject;
  ts_dossier *world = ts_dossier_example(s->vocabulary, s->units, it->each, &subject);
  ts_evaluator *evaluator = ts_evaluator_new(s->packs, world);
  const ts_evaluation *e = ts_evaluate(evaluator, rule, subject, NULL, 0);
  head(it);
  if (it->harm) print_folded("  ", it->harm);
  if (it->reasoning) print_folded("  ", it->reasoning);
  print_facts(s, world, e);
  print_sayings(e);
  print_controls(s, e);
  puts("\nSources");
  for (size_t i = 0; i < it->source_count; i++) print_folded("  ", it->sources[i]);
  printf("\n%zu examples in the rule's file; `tankside rules check` runs them\n",
         it->example_count);
  ts_evaluator_free(evaluator);
  ts_dossier_free(world);
  return DONE;
}
