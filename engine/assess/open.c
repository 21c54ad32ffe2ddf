#include "assess/open.h"
#include "base/sort.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

/* ---- what a derived fact is made of ----------------------------------------- */

typedef struct {
  ts_fact_reader reader; /* first: the callback gets this one */
  uint32_t *slots;       /* written facts met so far */
  size_t count, capacity;
} tracer;

static ts_node_id trace(ts_fact_reader *self, uint32_t slot) {
  tracer *t = (tracer *)self;
  const ts_fact_def *fact = ts_slot_fact(self->dossier, slot);
  if (fact->derived) return ts_derive(self, slot);
  TS_GROW(t->slots, t->count, t->capacity);
  t->slots[t->count++] = slot;
  return ts_fact_value(self->graph, slot, ts_slot_value(self->dossier, slot)->range,
                       ts_fact_dim(ts_dossier_vocabulary(self->dossier), fact));
}

const uint32_t *ts_made_of(const ts_dossier *dossier, uint32_t slot, ts_arena *arena,
                           size_t *count) {
  *count = 1;
  if (!ts_slot_fact(dossier, slot)->derived) return ts_arena_keep(arena, &slot, sizeof slot);
  tracer t = {.reader = {.dossier = dossier, .graph = ts_graph_new(), .read = trace}};
  trace(&t.reader, slot);
  *count = ts_sort_once_each(t.slots, t.count);
  const uint32_t *made = ts_arena_keep(arena, t.slots, *count * sizeof *made);
  ts_graph_free(t.reader.graph);
  free(t.slots);
  return made;
}

/* ---- the list ---------------------------------------------------------------- */

typedef struct {
  const ts_assessment *assessment;
  ts_arena *scratch;
  const uint32_t **made; /* by slot: what it is made of, once asked, and how many */
  size_t *parts;
  uint32_t *place;   /* by slot: number in the list and 1, or 0 */
  const char **last; /* by slot: id of the finding that named it last */
  ts_text *names;    /* by number: ids of findings */
  ts_open_fact *facts;
  size_t count, capacity;
} lister;

/* Not known, or stated as more than one thing. */
static bool is_open(const ts_dossier *dossier, uint32_t slot) {
  const ts_value *value = ts_slot_value(dossier, slot);
  const ts_fact_def *fact = ts_slot_fact(dossier, slot);
  if (value->state == TS_UNKNOWN) return true;
  if (fact->derived || fact->type < TS_QUANTITY) return false; /* made of others; structure */
  if (fact->type == TS_FLAG || fact->type == TS_CHOICE)
    return (value->choices & (value->choices - 1)) != 0;
  return fact->type == TS_SET ? value->choices != value->certain
                              : value->range.lo < value->range.hi;
}

static void name_open(lister *l, uint32_t slot, const char *id) {
  if (!is_open(l->assessment->in.dossier, slot) || l->last[slot] == id) return;
  if (l->place[slot] == 0) {
    TS_GROW(l->facts, l->count, l->capacity);
    l->facts[l->count] = (ts_open_fact){.slot = slot};
    l->place[slot] = (uint32_t)++l->count;
  }
  ts_text *names = &l->names[l->place[slot] - 1];
  if (names->length > 0) ts_text_add(names, " ");
  ts_text_add(names, id);
  l->last[slot] = id;
}

static void name_facts(lister *l, const ts_spoken *said, const char *id) {
  if (said == NULL) return;
  const ts_dossier *dossier = l->assessment->in.dossier;
  for (size_t i = 0; i < said->fact_count; i++) {
    uint32_t slot = said->facts[i];
    if (l->made[slot] == NULL)
      l->made[slot] = ts_made_of(dossier, slot, l->scratch, &l->parts[slot]);
    for (size_t k = 0; k < l->parts[slot]; k++) name_open(l, l->made[slot][k], id);
  }
}

static void name_all(lister *l, const ts_finding *findings, size_t count) {
  for (size_t i = 0; i < count; i++) name_facts(l, ts_finding_said(&findings[i]), findings[i].id);
}

ts_open_fact *ts_open_facts(const ts_assessment *assessment, size_t *count) {
  size_t slots = ts_slot_count(assessment->in.dossier) + 1;
  lister l = {.assessment = assessment, .scratch = ts_arena_new()};
  l.made = ts_arena_alloc(l.scratch, slots * sizeof *l.made);
  l.parts = ts_arena_alloc(l.scratch, slots * sizeof *l.parts);
  l.place = ts_arena_alloc(l.scratch, slots * sizeof *l.place);
  l.last = ts_arena_alloc(l.scratch, slots * sizeof *l.last);
  l.names = ts_arena_alloc(l.scratch, slots * sizeof *l.names);
  name_all(&l, assessment->findings, assessment->finding_count);
  name_all(&l, assessment->duties, assessment->duty_count);
  for (size_t i = 0; i < l.count; i++) {
    l.facts[i].findings = ts_arena_copy(assessment->arena, l.names[i].data);
    ts_text_release(&l.names[i]);
  }
  ts_open_fact *kept = ts_arena_keep(assessment->arena, l.facts, l.count * sizeof *kept);
  *count = l.count;
  free(l.facts);
  ts_arena_free(l.scratch);
  return kept;
}
