#include "assess/open.h"
#include "base/text.h"
#include <stdlib.h>

/* ---- what a derived fact is made of ----------------------------------------- */

typedef struct {
  ts_fact_reader reader; /* first: the callback gets this one */
  bool *seen;            /* by slot */
} tracer;

static ts_node_id trace(ts_fact_reader *self, uint32_t slot) {
  tracer *t = (tracer *)self;
  const ts_fact_def *fact = ts_slot_fact(self->dossier, slot);
  if (fact->derived) return ts_derive(self, slot);
  t->seen[slot] = true;
  return ts_fact_value(self->graph, slot, ts_slot_value(self->dossier, slot)->range,
                       ts_fact_dim(ts_dossier_vocabulary(self->dossier), fact));
}

const uint32_t *ts_made_of(const ts_dossier *dossier, uint32_t slot, ts_arena *arena,
                           size_t *count) {
  uint32_t slots = ts_slot_count(dossier);
  tracer t = {.reader = {.dossier = dossier, .graph = ts_graph_new(), .read = trace}};
  t.seen = ts_alloc((slots + 1) * sizeof *t.seen);
  if (ts_slot_fact(dossier, slot)->derived)
    trace(&t.reader, slot);
  else
    t.seen[slot] = true;
  *count = 0;
  for (uint32_t i = 0; i < slots; i++) *count += t.seen[i];
  uint32_t *made = ts_arena_alloc(arena, (*count + 1) * sizeof *made);
  size_t next = 0;
  for (uint32_t i = 0; i < slots; i++)
    if (t.seen[i]) made[next++] = i;
  ts_graph_free(t.reader.graph);
  free(t.seen);
  return made;
}

/* ---- the list ---------------------------------------------------------------- */

typedef struct {
  const ts_assessment *assessment;
  ts_arena *scratch;
  uint32_t *place;   /* by slot: number in the list and 1, or 0 */
  const char **last; /* by slot: id of the finding that named it last */
  ts_text *names;    /* by number: ids of findings */
  ts_open_fact *facts;
  size_t count;
} lister;

static void name_open(lister *l, uint32_t slot, const char *id) {
  const ts_dossier *dossier = l->assessment->in.dossier;
  if (ts_slot_value(dossier, slot)->state != TS_UNKNOWN || l->last[slot] == id) return;
  if (l->place[slot] == 0) {
    l->facts[l->count].slot = slot;
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
  for (size_t i = 0; i < said->outcome.fact_count; i++) {
    uint32_t slot = said->outcome.facts[i];
    if (!ts_slot_assumed(dossier, slot)) continue;
    size_t count;
    const uint32_t *made = ts_made_of(dossier, slot, l->scratch, &count);
    for (size_t k = 0; k < count; k++) name_open(l, made[k], id);
  }
}

static void name_all(lister *l, const ts_finding *findings, size_t count) {
  for (size_t i = 0; i < count; i++) name_facts(l, ts_finding_said(&findings[i]), findings[i].id);
}

ts_open_fact *ts_open_facts(const ts_assessment *assessment, size_t *count) {
  size_t slots = ts_slot_count(assessment->in.dossier) + 1;
  lister l = {.assessment = assessment, .scratch = ts_arena_new()};
  l.place = ts_arena_alloc(l.scratch, slots * sizeof *l.place);
  l.last = ts_arena_alloc(l.scratch, slots * sizeof *l.last);
  l.names = ts_arena_alloc(l.scratch, slots * sizeof *l.names);
  l.facts = ts_arena_alloc(assessment->arena, slots * sizeof *l.facts);
  name_all(&l, assessment->findings, assessment->finding_count);
  name_all(&l, assessment->duties, assessment->duty_count);
  for (size_t i = 0; i < l.count; i++) {
    l.facts[i].findings = ts_arena_copy(assessment->arena, l.names[i].data);
    ts_text_release(&l.names[i]);
  }
  *count = l.count;
  ts_arena_free(l.scratch);
  return l.facts;
}
