/* Variants: a dossier with a few values changed, to see what would come of it.
 *
 * A value may go into thousands of derived ones (somebody's birth into the age at each dive), and
 * is changed a hundred times before one of them is read again. So a put touches none of them: what
 * is derived is looked after when it is read, and is that of the dossier which the variant is made
 * from unless it is made of something that is changed. */
#include "base/sort.h"
#include "dossier/world.h"

#include <stdlib.h>
#include <string.h>

typedef struct ts_making {
  uint32_t *into; /* derived slots, grouped by what they are made of, ascending */
  uint32_t *from; /* by slot: where its group begins; one more at the end */
  ts_graph *scratch;
  uint32_t
      *changed; /* slots with another value than the dossier has that the variant is made from */
  size_t changed_count, changed_capacity;
  uint32_t *fresh; /* derived slots that were looked after since something was put last */
  size_t fresh_count, fresh_capacity;
  bool begun; /* something was put */
} ts_making;

/* ---- what is made of what ---------------------------------------------- */

typedef struct {
  uint32_t from, into;
} link;

/* Derives one fact to note every written fact that it asks for. */
typedef struct {
  ts_fact_reader reader; /* first: `read` gets a pointer to it */
  uint32_t into;
  link *links;
  size_t count, capacity;
} tracer;

static void note(ts_fact_reader *self, uint32_t slot) {
  tracer *t = (tracer *)self;
  TS_GROW(t->links, t->count, t->capacity);
  t->links[t->count++] = (link){slot, t->into};
}

static ts_node_id trace(ts_fact_reader *self, uint32_t slot) {
  note(self, slot);
  return ts_fact_value(self->graph, slot, self->dossier->values[slot].range,
                       ts_world_known(self->dossier, slot)->dim);
}

static int compare(const void *left, const void *right) {
  const link *a = left, *b = right;
  if (a->from != b->from) return a->from < b->from ? -1 : 1;
  return (a->into > b->into) - (a->into < b->into);
}

static void keep_links(ts_making *m, size_t slots, const tracer *t) {
  size_t kept = 0, at = 0;
  m->into = ts_alloc((t->count + 1) * sizeof *m->into);
  m->from = ts_alloc((slots + 1) * sizeof *m->from);
  for (uint32_t slot = 0; slot < slots; slot++) {
    m->from[slot] = (uint32_t)kept;
    for (size_t first = at; at < t->count && t->links[at].from == slot; at++)
      if (at == first || t->links[at].into != t->links[at - 1].into)
        m->into[kept++] = t->links[at].into;
  }
  m->from[slots] = (uint32_t)kept;
}

static void trace_all(ts_dossier *variant) {
  tracer t = {.reader = {variant, ts_graph_new(), trace, note}};
  for (uint32_t slot = 0; slot < variant->slot_count; slot++) {
    if (!ts_world_known(variant, slot)->def->derived) continue;
    ts_graph_reset(t.reader.graph);
    t.into = slot;
    ts_derive(&t.reader, slot);
  }
  if (t.count) qsort(t.links, t.count, sizeof *t.links, compare);
  keep_links(variant->making, variant->slot_count, &t);
  ts_graph_free(t.reader.graph);
  free(t.links);
}

/* ---- variants ------------------------------------------------------------ */

static void *copy_of(const void *from, size_t count, size_t size) {
  void *copy = ts_alloc((count + 1) * size);
  if (count) memcpy(copy, from, count * size);
  return copy;
}

ts_dossier *ts_dossier_variant(const ts_dossier *dossier) {
  ts_dossier *variant = ts_alloc(sizeof *variant);
  *variant = *dossier;
  variant->of = dossier;
  variant->arena = ts_arena_new();
  variant->values = copy_of(dossier->values, dossier->slot_count, sizeof *dossier->values);
  variant->controls = copy_of(dossier->controls, dossier->control_count, sizeof *dossier->controls);
  variant->control_capacity = dossier->control_count + 1;
  variant->stale = ts_alloc(dossier->slot_count + 1);
  variant->making = ts_alloc(sizeof *variant->making);
  variant->making->scratch = ts_graph_new();
  trace_all(variant);
  return variant;
}

static void free_making(ts_making *m) {
  ts_graph_free(m->scratch);
  free(m->into);
  free(m->from);
  free(m->changed);
  free(m->fresh);
  free(m);
}

void ts_variant_free(ts_dossier *variant) {
  free_making(variant->making);
  free(variant->values);
  free(variant->controls);
  free(variant->stale);
  ts_arena_free(variant->arena);
  free(variant);
}

/* ---- values ---------------------------------------------------------------- */

static void begin(ts_dossier *variant) {
  for (uint32_t slot = 0; slot < variant->slot_count; slot++)
    variant->stale[slot] = ts_world_known(variant, slot)->def->derived;
  variant->making->begun = true;
}

static bool same(const ts_value *a, const ts_value *b) {
  return a->range.lo == b->range.lo && a->range.hi == b->range.hi && a->choices == b->choices &&
         a->certain == b->certain && a->state == b->state;
}

static void note_change(ts_making *m, uint32_t slot, bool changed) {
  size_t i = 0;
  while (i < m->changed_count && m->changed[i] != slot) i++;
  if (!changed && i < m->changed_count) m->changed[i] = m->changed[--m->changed_count];
  if (!changed || i < m->changed_count) return;
  TS_GROW(m->changed, m->changed_count, m->changed_capacity);
  m->changed[m->changed_count++] = slot;
}

void ts_variant_put(ts_dossier *variant, uint32_t slot, ts_value value) {
  ts_making *m = variant->making;
  if (!m->begun) begin(variant);
  note_change(m, slot, !same(&value, ts_slot_value(variant->of, slot)));
  while (m->fresh_count > 0) variant->stale[m->fresh[--m->fresh_count]] = true;
  variant->values[slot] = value;
}

static bool goes_into(const ts_making *m, uint32_t slot, uint32_t derived) {
  const uint32_t *into = m->into + m->from[slot];
  size_t count = m->from[slot + 1] - m->from[slot], at = ts_first_from(into, count, derived);
  return slot == derived || (at < count && into[at] == derived);
}

static bool is_changed(const ts_making *m, uint32_t derived) {
  for (size_t i = 0; i < m->changed_count; i++)
    if (goes_into(m, m->changed[i], derived)) return true;
  return false;
}

void ts_variant_refresh(const ts_dossier *variant, uint32_t slot) {
  ts_making *m = variant->making;
  variant->stale[slot] = false;
  TS_GROW(m->fresh, m->fresh_count, m->fresh_capacity);
  m->fresh[m->fresh_count++] = slot;
  if (is_changed(m, slot))
    ts_world_derive_one(variant, m->scratch, slot);
  else
    variant->values[slot] = *ts_slot_value(variant->of, slot);
}

void ts_variant_settle(const ts_dossier *dossier) {
  for (uint32_t slot = 0; dossier->stale != NULL && slot < dossier->slot_count; slot++)
    ts_slot_value(dossier, slot);
}

/* ---- controls --------------------------------------------------------------- */

void ts_variant_apply(ts_dossier *variant, const ts_applied_control *applied) {
  TS_GROW(variant->controls, variant->control_count, variant->control_capacity);
  variant->controls[variant->control_count++] = *applied;
}

void ts_variant_keep(ts_dossier *variant, size_t count) {
  if (count < variant->control_count) variant->control_count = count;
}
