#include "assess/label.h"
#include "assess/scope.h"
#include "base/text.h"
#include <string.h>

typedef struct {
  const ts_dossier *dossier;
  ts_arena *arena;
  const char **labels;
} labeller;

static const char *label_of(labeller *l, ts_subject subject);

static const char *label_to(labeller *l, ts_subject subject, const char *field) {
  ts_subject there = ts_leads_to(l->dossier, subject, field);
  return there == TS_NO_SUBJECT || there == subject ? NULL : label_of(l, there);
}

/* What an entity's subjects are called when nobody named them: two places to
 * take words from, and how to join them. An empty field is the entity's own name. */
static const struct {
  const char *entity, *first, *second, *format;
} ways[] = {{"immersion", "person", "task", "%s in “%s”"},
            {"post", "person", "task", "%s, post in “%s”"},
            {"record", "person", "day", "%s, dive log of %s"},
            {"person-day", "person", "day", "%s on %s"}};

static const char *made_label(labeller *l, ts_subject subject) {
  const ts_subject_info *info = ts_subject_at(l->dossier, subject);
  for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
    if (!ts_same(info->entity->name, ways[i].entity)) continue;
    const char *first = label_to(l, subject, ways[i].first);
    const char *second = label_to(l, subject, ways[i].second);
    if (first != NULL && second != NULL)
      return ts_arena_printf(l->arena, ways[i].format, first, second);
  }
  if (info->entity->single && info->parent != TS_NO_SUBJECT)
    return ts_arena_printf(l->arena, "%s of %s", info->entity->name, label_of(l, info->parent));
  return info->label;
}

static const char *label_of(labeller *l, ts_subject subject) {
  const ts_subject_info *info = ts_subject_at(l->dossier, subject);
  if (l->labels[subject] == NULL)
    l->labels[subject] = ts_same(info->label, info->path) ? made_label(l, subject) : info->label;
  return l->labels[subject];
}

const char **ts_labels(const ts_dossier *dossier, ts_arena *arena) {
  ts_subject count = ts_subject_count(dossier);
  labeller l = {.dossier = dossier, .arena = arena};
  l.labels = ts_arena_alloc(arena, (count + 1) * sizeof *l.labels);
  for (ts_subject subject = 0; subject < count; subject++) label_of(&l, subject);
  return l.labels;
}
