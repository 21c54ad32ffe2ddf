#include "assess/scope.h"
#include "base/text.h"

bool ts_view_counts(ts_view view, const ts_applied_control *applied) {
  return view == TS_AS_PLANNED || (view == TS_IN_PLACE && applied->in_place);
}

/* The one of two that says more: in place before planned, then the first. */
static const ts_applied_control *better(const ts_applied_control *one,
                                        const ts_applied_control *other) {
  return one == NULL || (other->in_place && !one->in_place) ? other : one;
}

const ts_applied_control *ts_applied_here(const ts_dossier *dossier, const char *control,
                                          ts_subject subject, ts_view view) {
  const ts_applied_control *found = NULL;
  size_t count = 0;
  const uint32_t *over = NULL;
  if (ts_may_be_over(dossier, subject, control)) over = ts_applied_over(dossier, subject, &count);
  for (size_t i = 0; i < count; i++) {
    const ts_applied_control *applied = ts_applied_at(dossier, over[i]);
    if (ts_view_counts(view, applied) && ts_same(applied->control, control))
      found = better(found, applied);
  }
  for (size_t i = ts_applied_written(dossier); i < ts_applied_count(dossier); i++) {
    const ts_applied_control *tried = ts_applied_at(dossier, i);
    if (ts_view_counts(view, tried) && ts_same(tried->control, control) &&
        ts_covers(dossier, tried->scope, subject))
      found = better(found, tried);
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

ts_laid *ts_laid_of(const ts_assess_inputs *in) {
  ts_laid *laid = ts_laid_new(in->dossier);
  for (size_t i = 0; i < ts_applied_count(in->dossier); i++) {
    const ts_applied_control *applied = ts_applied_at(in->dossier, i);
    const ts_control *control = ts_control_find(in->packs, applied->control);
    if (control == NULL || control->change_count == 0) continue;
    ts_laid_put(laid, i, control, reached(in, control, applied, ts_laid_arena(laid)),
                applied->in_place ? TS_IN_PLACE : TS_AS_PLANNED);
  }
  return laid;
}
