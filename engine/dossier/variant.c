/* Variants: a dossier with a few values changed, to see what would come of it.
 *
 * A value may go into thousands of derived ones (somebody's birth into the age at each dive), and
 * is changed a hundred times before one of them is read again. So a put touches none of them: what
 * is derived is looked after when it is read, and is the dossier's unless it is made of something
 * that is put. */
#include "base/sort.h"
#include "dossier/value.h"
#include "dossier/world.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* One value of its own: put, or derived of such. */
typedef struct {
  uint32_t slot;
  bool derived;
  size_t as_of; /* derived: how often something had been put when it was looked after */
  ts_value value;
} change;

/* Derived slots, grouped by what they are made of. */
typedef struct {
  uint32_t *into;
  uint32_t *from; /* by slot: where its group begins; one more at the end */
} makings;

#define DERIVED UINT32_MAX

struct ts_overlay {
  /* By slot: where its change is, counted from 1; 0: it is as in the dossier; DERIVED: so it is
   * unless it is made of something that is put. */
  uint32_t *places;
  change **changes; /* each stays where it is while others are added; those beyond `count` are for
                       reuse */
  size_t count, made, capacity;
  uint32_t *put; /* slots with something else than the dossier has */
  size_t put_count, put_capacity;
  size_t puts;   /* how often something was put */
  makings makes; /* of the dossier: its own, or another variant's */
  bool own_makes;
  ts_graph *scratch;
};

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
  return ts_fact_value(self->graph, slot, ts_world_value(self->dossier, slot)->range,
                       ts_world_known(self->dossier, slot)->dim);
}

static int compare(const void *left, const void *right) {
  const link *a = left, *b = right;
  if (a->from != b->from) return a->from < b->from ? -1 : 1;
  return (a->into > b->into) - (a->into < b->into);
}

static makings makings_of(const ts_dossier *dossier, const tracer *t) {
  size_t slots = dossier->slot_count, kept = 0, at = 0;
  makings makes = {ts_alloc((t->count + 1) * sizeof *makes.into),
                   ts_alloc((slots + 1) * sizeof *makes.from)};
  for (uint32_t slot = 0; slot < slots; slot++) {
    makes.from[slot] = (uint32_t)kept;
    for (size_t first = at; at < t->count && t->links[at].from == slot; at++)
      if (at == first || t->links[at].into != t->links[at - 1].into)
        makes.into[kept++] = t->links[at].into;
  }
  makes.from[slots] = (uint32_t)kept;
  return makes;
}

static makings trace_all(const ts_dossier *dossier) {
  tracer t = {.reader = {dossier, ts_graph_new(), trace, note}};
  for (uint32_t slot = 0; slot < dossier->slot_count; slot++) {
    if (!ts_world_known(dossier, slot)->def->derived) continue;
    ts_graph_reset(t.reader.graph);
    t.into = slot;
    ts_derive(&t.reader, slot);
  }
  if (t.count) qsort(t.links, t.count, sizeof *t.links, compare);
  makings makes = makings_of(dossier, &t);
  ts_graph_free(t.reader.graph);
  free(t.links);
  return makes;
}

/* ---- variants ------------------------------------------------------------ */

static void *copy_of(const void *from, size_t count, size_t size) {
  void *copy = ts_alloc((count + 1) * size);
  if (count) memcpy(copy, from, count * size);
  return copy;
}

static ts_overlay *overlay_new(const ts_dossier *variant, const ts_dossier *like) {
  ts_overlay *o = ts_alloc(sizeof *o);
  o->places = ts_alloc((variant->slot_count + 1) * sizeof *o->places);
  for (uint32_t slot = 0; slot < variant->slot_count; slot++)
    if (ts_world_known(variant, slot)->def->derived) o->places[slot] = DERIVED;
  o->scratch = ts_graph_new();
  o->own_makes = !like;
  o->makes = like ? like->overlay->makes : trace_all(variant);
  return o;
}

/* What a variant has changed is not its dossier's: another made from it has it among its values. */
static void take_changes(ts_dossier *variant, const ts_dossier *from) {
  for (uint32_t slot = 0; slot < from->slot_count; slot++) {
    const ts_value *value = ts_slot_value(from, slot);
    if (value != from->values[slot])
      variant->values[slot] = ts_arena_keep(variant->arena, value, sizeof *value);
  }
}

static ts_dossier *variant_new(const ts_dossier *dossier, const ts_dossier *like, bool shares) {
  ts_dossier *variant = ts_alloc(sizeof *variant);
  *variant = *dossier;
  variant->of = dossier;
  variant->arena = ts_arena_new();
  variant->pool = NULL;
  variant->shares_values = shares;
  if (!shares)
    variant->values = copy_of(dossier->values, dossier->slot_count, sizeof *dossier->values);
  if (!shares && dossier->overlay) take_changes(variant, dossier);
  variant->tried = copy_of(dossier->tried, dossier->tried_count, sizeof *dossier->tried);
  variant->tried_capacity = dossier->tried_count + 1;
  variant->laid = NULL; /* nothing is laid over what is traced */
  variant->overlay = overlay_new(variant, like);
  variant->laid = variant->overlay->places;
  return variant;
}

ts_dossier *ts_dossier_variant(const ts_dossier *dossier) {
  return variant_new(dossier, NULL, false);
}

ts_dossier *ts_dossier_variant_over(const ts_dossier *dossier, const ts_dossier *like) {
  return variant_new(dossier, like, !dossier->overlay || dossier->overlay->count == 0);
}

static void overlay_free(ts_overlay *o) {
  if (o->own_makes) {
    free(o->makes.into);
    free(o->makes.from);
  }
  free(o->places);
  free(o->changes);
  free(o->put);
  ts_graph_free(o->scratch);
  free(o);
}

void ts_variant_free(ts_dossier *variant) {
  overlay_free(variant->overlay);
  if (!variant->shares_values) free(variant->values);
  free(variant->tried);
  ts_arena_free(variant->arena);
  free(variant);
}

/* ---- values of its own ------------------------------------------------------ */

static change *change_new(const ts_dossier *variant) {
  ts_overlay *o = variant->overlay;
  if (o->count == o->made) {
    TS_GROW(o->changes, o->made, o->capacity);
    o->changes[o->made++] = ts_arena_alloc(variant->arena, sizeof(change));
  }
  return o->changes[o->count++];
}

static change *change_of(const ts_dossier *variant, uint32_t slot) {
  uint32_t *place = &variant->overlay->places[slot];
  if (*place == 0 || *place == DERIVED) {
    change new = {.slot = slot, .derived = *place == DERIVED, .value = *variant->values[slot]};
    *change_new(variant) = new;
    *place = (uint32_t)variant->overlay->count;
  }
  return variant->overlay->changes[*place - 1];
}

/* When everything is back nothing is the variant's own. */
static void forget_all(ts_overlay *o) {
  for (size_t i = 0; i < o->count; i++)
    o->places[o->changes[i]->slot] = o->changes[i]->derived ? DERIVED : 0;
  o->count = 0;
}

static void note_put(ts_overlay *o, uint32_t slot, bool other) {
  size_t i = 0;
  while (i < o->put_count && o->put[i] != slot) i++;
  bool noted = i < o->put_count;
  if (noted && !other) o->put[i] = o->put[--o->put_count];
  if (noted || !other) return;
  TS_GROW(o->put, o->put_count, o->put_capacity);
  o->put[o->put_count++] = slot;
}

void ts_variant_put(ts_dossier *variant, uint32_t slot, ts_value value) {
  ts_overlay *o = variant->overlay;
  note_put(o, slot, !ts_same_value(&value, variant->values[slot]));
  o->puts++;
  change_of(variant, slot)->value = value;
  if (o->put_count == 0) forget_all(o);
}

static bool goes_into(const makings *makes, uint32_t slot, uint32_t derived) {
  const uint32_t *into = makes->into + makes->from[slot];
  size_t count = makes->from[slot + 1] - makes->from[slot],
         at = ts_first_from(into, count, derived);
  return at < count && into[at] == derived;
}

static bool is_made_of_put(const ts_overlay *o, uint32_t derived) {
  for (size_t i = 0; i < o->put_count; i++)
    if (goes_into(&o->makes, o->put[i], derived)) return true;
  return false;
}

/* What is put where it would be derived stands. */
static void look_after(const ts_dossier *variant, change *c) {
  ts_overlay *o = variant->overlay;
  if (!c->derived || c->as_of == o->puts || c->value.state == TS_SET_BY_USER) return;
  c->as_of = o->puts;
  c->value = is_made_of_put(o, c->slot) ? ts_world_derived(variant, o->scratch, c->slot)
                                        : *variant->values[c->slot];
}

const ts_value *ts_variant_value(const ts_dossier *variant, uint32_t slot, bool fresh) {
  const ts_overlay *o = variant->overlay;
  bool as_there = o->places[slot] == DERIVED && (!fresh || !is_made_of_put(o, slot));
  if (as_there) return variant->values[slot];
  change *c = change_of(variant, slot);
  if (fresh) look_after(variant, c);
  return &c->value;
}

void ts_variant_settle(const ts_dossier *dossier) {
  for (uint32_t slot = 0; dossier->overlay != NULL && slot < dossier->slot_count; slot++)
    ts_slot_value(dossier, slot);
}

/* ---- controls ----------------------------------------------------------------- */

void ts_variant_apply(ts_dossier *variant, const ts_applied_control *applied) {
  TS_GROW(variant->tried, variant->tried_count, variant->tried_capacity);
  variant->tried[variant->tried_count++] = *applied;
}

void ts_variant_keep(ts_dossier *variant, size_t count) {
  assert(count >= variant->control_count); /* those that are written stay */
  if (count < ts_applied_count(variant)) variant->tried_count = count - variant->control_count;
}
