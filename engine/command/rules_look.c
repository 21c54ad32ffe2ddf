/* One rule tried: what it says over a dossier. */
#include "assess/label.h"
#include "base/text.h"
#include "command/command.h"
#include <stdio.h>
#include <string.h>

void rule_head(const ts_rule *rule) {
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

void print_outcome(const char *indent, const ts_outcome *said) {
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
  char head[64];
  snprintf(head, sizeof head, "%s%s", indent, course->applies ? "nothing: " : "does not apply: ");
  print_folded(head, why);
}

static void try_subject(const ts_session *s, ts_evaluator *evaluator, size_t rule,
                        ts_subject subject, const char *label) {
  const ts_subject_info *info = ts_subject_at(s->dossier, subject);
  const ts_evaluation *e = ts_evaluate(evaluator, rule, subject, NULL, 0);
  char head[128];
  snprintf(head, sizeof head, "%s  ", info->path);
  print_folded(head, label);
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
  rule_head(it);
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
