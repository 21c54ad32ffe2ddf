#include "assess/scope.h"
#include "base/text.h"

ts_subject ts_leads_to(const ts_dossier *dossier, ts_subject subject, const char *field) {
  if (ts_same(ts_subject_at(dossier, subject)->entity->name, field)) return subject;
  ts_field found = ts_subject_field(dossier, subject, field);
  return found.kind == TS_FIELD_SUBJECT ? found.subject : TS_NO_SUBJECT;
}

/* The subject itself or a parent of it. */
static bool within(const ts_dossier *dossier, ts_subject scope, ts_subject subject) {
  for (; subject != TS_NO_SUBJECT; subject = ts_subject_at(dossier, subject)->parent)
    if (subject == scope) return true;
  return false;
}

bool ts_covers(const ts_dossier *dossier, ts_subject scope, ts_subject subject) {
  static const char *const ways[] = {"task", "person", "day", "site"};
  if (scope == 0 || within(dossier, scope, subject)) return true;
  for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
    ts_subject there = ts_leads_to(dossier, subject, ways[i]);
    if (there != TS_NO_SUBJECT && within(dossier, scope, there)) return true;
  }
  return false;
}

bool ts_view_counts(ts_view view, const ts_applied_control *applied) {
  return view == TS_AS_PLANNED || (view == TS_IN_PLACE && applied->in_place);
}

const ts_applied_control *ts_applied_here(const ts_dossier *dossier, const char *control,
                                          ts_subject subject, ts_view view) {
  const ts_applied_control *found = NULL;
  for (size_t i = 0; i < ts_applied_count(dossier); i++) {
    const ts_applied_control *applied = ts_applied_at(dossier, i);
    if (!ts_same(applied->control, control) || !ts_view_counts(view, applied) ||
        !ts_covers(dossier, applied->scope, subject))
      continue;
    if (applied->in_place) return applied;
    if (found == NULL) found = applied;
  }
  return found;
}

size_t ts_effects_here(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                       ts_arena *arena, ts_effect **effects) {
  size_t all = ts_applied_count(in->dossier), count = 0;
  *effects = NULL;
  if (view == TS_AS_DESCRIBED || all == 0) return 0;
  ts_effect *here = ts_arena_alloc(arena, all * sizeof *here);
  for (size_t i = 0; i < all; i++) {
    const ts_applied_control *applied = ts_applied_at(in->dossier, i);
    const ts_control *control = ts_control_find(in->packs, applied->control);
    if (control == NULL || control->change_count == 0 || !ts_view_counts(view, applied) ||
        !ts_covers(in->dossier, applied->scope, subject))
      continue;
    here[count++] = (ts_effect){.control = control, .to = applied->to};
  }
  *effects = here;
  return count;
}
