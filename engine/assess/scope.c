#include "assess/scope.h"
#include "base/text.h"

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

/* The value a control reaches here instead of the catalogue's, or NULL. What does not read was
 * reported when the controls were looked up. */
static const ts_value *reached(const ts_assess_inputs *in, const ts_control *control,
                               const ts_applied_control *applied, ts_arena *arena) {
  if (applied->to == NULL) return NULL;
  ts_diagnostics *unheard = ts_diagnostics_new();
  ts_value *value = ts_arena_alloc(arena, sizeof *value);
  bool good = ts_fact_read(ts_dossier_vocabulary(in->dossier), in->units, arena,
                           control->changes[0].def, applied->to, value, unheard, "", 0);
  ts_diagnostics_free(unheard);
  return good ? value : NULL;
}

size_t ts_effects_here(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                       ts_arena *arena, ts_effect **effects) {
  size_t all = ts_applied_count(in->dossier), count = 0;
  *effects = NULL;
  if (view == TS_AS_DESCRIBED || all == 0) return 0;
  ts_effect *made = ts_arena_alloc(arena, all * sizeof *made);
  for (size_t i = 0; i < all; i++) {
    const ts_applied_control *applied = ts_applied_at(in->dossier, i);
    const ts_control *control = ts_control_find(in->packs, applied->control);
    if (control == NULL || control->change_count == 0 || !ts_view_counts(view, applied)) continue;
    made[count++] = (ts_effect){.control = control,
                                .to = reached(in, control, applied, arena),
                                .scope = applied->scope,
                                .here = ts_covers(in->dossier, applied->scope, subject)};
  }
  *effects = made;
  return count;
}
