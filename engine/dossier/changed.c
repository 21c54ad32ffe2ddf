/* One dossier against another: whether only values differ, and which. */
#include "dossier/value.h"
#include "dossier/world.h"

#include <stdlib.h>

/* ---- structure ------------------------------------------------------------- */

/* Ids, references, dates, words for people: lists, links and labels all follow from those. */
static bool same_structure(const ts_dossier *was, const ts_dossier *is) {
  for (uint32_t slot = 0; slot < was->slot_count; slot++)
    if (ts_world_known(was, slot)->def->type < TS_QUANTITY &&
        !ts_same(ts_world_value(was, slot)->text, ts_world_value(is, slot)->text))
      return false;
  return true;
}

static bool same_subjects(const ts_dossier *was, const ts_dossier *is) {
  if (was->subject_count != is->subject_count || was->slot_count != is->slot_count) return false;
  for (size_t i = 0; i < was->subject_count; i++) {
    const ts_subject_entry *a = &was->subjects[i], *b = &is->subjects[i];
    if (a->entity != b->entity || a->info.parent != b->info.parent ||
        !ts_same(a->info.path, b->info.path) || !ts_same(a->info.label, b->info.label))
      return false;
  }
  return true;
}

static bool same_controls(const ts_dossier *was, const ts_dossier *is) {
  if (ts_applied_count(was) != ts_applied_count(is) || was->reach.written != is->reach.written)
    return false;
  for (size_t i = 0; i < ts_applied_count(was); i++) {
    const ts_applied_control *a = ts_applied_at(was, i), *b = ts_applied_at(is, i);
    if (!ts_same(a->control, b->control) || a->scope != b->scope || a->in_place != b->in_place ||
        !ts_same(a->to, b->to))
      return false;
  }
  return true;
}

bool ts_dossiers_alike(const ts_dossier *was, const ts_dossier *is) {
  return was->vocabulary == is->vocabulary && was->system == is->system && same_subjects(was, is) &&
         same_structure(was, is) && same_controls(was, is);
}

/* ---- values ------------------------------------------------------------------ */

/* Derives a fact to see whether it asks for anything that changed. */
typedef struct {
  ts_fact_reader reader; /* first: its functions get a pointer to it */
  const bool *changed;
  bool met;
} tracer;

static void look(ts_fact_reader *self, uint32_t slot) {
  tracer *t = (tracer *)self;
  t->met = t->met || t->changed[slot];
}

static ts_node_id trace(ts_fact_reader *self, uint32_t slot) {
  look(self, slot);
  return ts_fact_value(self->graph, slot, ts_slot_value(self->dossier, slot)->range,
                       ts_world_known(self->dossier, slot)->dim);
}

/* Where nothing differs that a derivation looks at, it went the same way in both. */
static void mark_derived(const ts_dossier *is, bool *changed) {
  tracer t = {.reader = {is, ts_graph_new(), trace, look}, .changed = changed};
  for (uint32_t slot = 0; slot < is->slot_count; slot++) {
    if (!ts_world_known(is, slot)->def->derived) continue;
    ts_graph_reset(t.reader.graph);
    t.met = false;
    ts_derive(&t.reader, slot);
    changed[slot] = changed[slot] || t.met;
  }
  ts_graph_free(t.reader.graph);
}

bool *ts_slots_changed(const ts_dossier *was, const ts_dossier *is, ts_arena *arena) {
  bool *changed = ts_arena_alloc(arena, is->slot_count + 1), any = false;
  for (uint32_t slot = 0; slot < is->slot_count; slot++) {
    changed[slot] = !ts_same_value(ts_slot_value(was, slot), ts_slot_value(is, slot));
    any = any || changed[slot];
  }
  if (any) mark_derived(is, changed);
  return changed;
}
