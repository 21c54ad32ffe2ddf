/* Variants: a dossier with a few values changed, to see what would come of it. */
#include "dossier/world.h"

#include <stdlib.h>
#include <string.h>

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

static void keep_links(ts_dossier *variant, const tracer *t) {
  size_t slots = variant->slot_count, kept = 0;
  variant->made_into = ts_alloc((t->count + 1) * sizeof *variant->made_into);
  variant->made_from = ts_alloc((slots + 1) * sizeof *variant->made_from);
  size_t at = 0;
  for (uint32_t slot = 0; slot < slots; slot++) {
    variant->made_from[slot] = (uint32_t)kept;
    for (size_t first = at; at < t->count && t->links[at].from == slot; at++)
      if (at == first || t->links[at].into != t->links[at - 1].into)
        variant->made_into[kept++] = t->links[at].into;
  }
  variant->made_from[slots] = (uint32_t)kept;
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
  keep_links(variant, &t);
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
  variant->scratch = ts_graph_new();
  trace_all(variant);
  return variant;
}

void ts_variant_free(ts_dossier *variant) {
  free(variant->values);
  free(variant->controls);
  free(variant->made_into);
  free(variant->made_from);
  free(variant->stale);
  ts_graph_free(variant->scratch);
  ts_arena_free(variant->arena);
  free(variant);
}

void ts_variant_put(ts_dossier *variant, uint32_t slot, ts_value value) {
  variant->values[slot] = value;
  for (uint32_t i = variant->made_from[slot]; i < variant->made_from[slot + 1]; i++)
    variant->stale[variant->made_into[i]] = true;
}

void ts_variant_refresh(const ts_dossier *variant, uint32_t slot) {
  variant->stale[slot] = false;
  ts_world_derive_one(variant, variant->scratch, slot);
}

void ts_variant_apply(ts_dossier *variant, const ts_applied_control *applied) {
  TS_GROW(variant->controls, variant->control_count, variant->control_capacity);
  variant->controls[variant->control_count++] = *applied;
}

void ts_variant_keep(ts_dossier *variant, size_t count) {
  if (count < variant->control_count) variant->control_count = count;
}
