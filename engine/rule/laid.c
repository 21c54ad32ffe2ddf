/* The changes of applied controls, found by fact and by where a control stands. */
#include "rule/sandbox.h"

#include "base/sort.h"
#include "base/text.h"
#include <stdlib.h>

enum { KINDS_MAX = 64 };

/* An applied control that changes facts; `control` is NULL where it changes none. */
typedef struct {
  const ts_control *control;
  const ts_value *to;
  int level;
  uint8_t kind; /* of its scope: index in `kinds` */
} laid_control;

/* A slot in which no control changes what the subject reads. */
typedef struct {
  uint32_t slot;
  ts_subject subject;
} unreached_slot;

enum { UNREACHED = 4096 };

struct ts_laid {
  ts_arena *arena;
  const ts_dossier *dossier;
  laid_control *at;               /* by number in the dossier */
  const char *kinds[KINDS_MAX];   /* entities that any of them stands at */
  size_t kind_count;
  const ts_fact_def **changed;    /* each fact that any of them changes, once */
  size_t changed_count, changed_capacity;
  uint8_t *known;                 /* by slot: 0 not asked yet, 1 none changes it, 2 some may */
  unreached_slot *unreached;      /* found last, each at the place of its slot */
  uint32_t *found;                /* the numbers that were looked for last */
  size_t found_count, found_capacity;
};

ts_laid *ts_laid_new(const ts_dossier *dossier) {
  ts_arena *arena = ts_arena_new();
  ts_laid *laid = ts_arena_alloc(arena, sizeof *laid);
  *laid = (ts_laid){.arena = arena, .dossier = dossier};
  laid->at = ts_arena_alloc(arena, (ts_applied_count(dossier) + 1) * sizeof *laid->at);
  laid->known = ts_arena_alloc(arena, ts_slot_count(dossier) + 1);
  laid->unreached = ts_arena_alloc(arena, UNREACHED * sizeof *laid->unreached);
  for (size_t i = 0; i < UNREACHED; i++) laid->unreached[i].subject = TS_NO_SUBJECT;
  return laid;
}

void ts_laid_free(ts_laid *laid) {
  if (!laid) return;
  free(laid->changed);
  free(laid->found);
  ts_arena_free(laid->arena);
}

ts_arena *ts_laid_arena(ts_laid *laid) { return laid->arena; }

static bool changes_fact(const ts_laid *laid, const ts_fact_def *fact) {
  for (size_t i = 0; i < laid->changed_count; i++)
    if (laid->changed[i] == fact) return true;
  return false;
}

static uint8_t kind_of(ts_laid *laid, ts_subject scope) {
  const char *kind = ts_subject_at(laid->dossier, scope)->entity->name;
  for (size_t i = 0; i < laid->kind_count; i++)
    if (ts_same(laid->kinds[i], kind)) return (uint8_t)i;
  if (laid->kind_count == KINDS_MAX) abort(); /* a vocabulary with more entities than that */
  laid->kinds[laid->kind_count] = kind;
  return (uint8_t)laid->kind_count++;
}

void ts_laid_put(ts_laid *laid, size_t applied, const ts_control *control, const ts_value *to, int level) {
  uint8_t kind = kind_of(laid, ts_applied_at(laid->dossier, applied)->scope);
  laid->at[applied] = (laid_control){control, to, level, kind};
  for (size_t i = 0; i < control->change_count; i++) {
    if (changes_fact(laid, control->changes[i].def)) continue;
    TS_GROW(laid->changed, laid->changed_count, laid->changed_capacity);
    laid->changed[laid->changed_count++] = control->changes[i].def;
  }
}

/* ---- which ones reach a fact --------------------------------------------------- */

static bool may_change(ts_laid *laid, uint32_t slot) {
  if (!laid->known[slot]) laid->known[slot] = changes_fact(laid, ts_slot_fact(laid->dossier, slot)) ? 2 : 1;
  return laid->known[slot] == 2;
}

/* Those of the list whose scope is of that kind; of any kind where it is negative. */
static void find_of_kind(ts_laid *laid, const uint32_t *list, size_t count, int kind) {
  for (size_t i = 0; i < count; i++) {
    const laid_control *it = &laid->at[list[i]];
    if (!it->control || (kind >= 0 && it->kind != kind)) continue;
    TS_GROW(laid->found, laid->found_count, laid->found_capacity);
    laid->found[laid->found_count++] = list[i];
  }
}

/* A fact of the scope, or one shared by all (the water, over a task) for those within it: as for
 * an effect. Leaves their numbers in `found`, in the order in which the dossier applies them. */
static void find_reaching(ts_laid *laid, ts_subject subject, uint32_t slot) {
  ts_subject owner = ts_slot_subject(laid->dossier, slot);
  size_t count;
  laid->found_count = 0;
  const uint32_t *everywhere = ts_applied_standing(laid->dossier, 0, &count);
  find_of_kind(laid, everywhere, count, -1);
  for (size_t kind = 0; kind < laid->kind_count; kind++) {
    ts_subject there = ts_leads_to(laid->dossier, owner, laid->kinds[kind]);
    const uint32_t *list = there == TS_NO_SUBJECT ? ts_applied_over(laid->dossier, subject, &count)
                                                  : ts_applied_standing(laid->dossier, there, &count);
    find_of_kind(laid, list, count, (int)kind);
  }
  laid->found_count = ts_sort_once_each(laid->found, laid->found_count);
}

bool ts_laid_over(ts_laid *laid, ts_subject subject, int level, uint32_t slot, ts_value *value) {
  bool changed = false, reached = false;
  unreached_slot *known = &laid->unreached[slot % UNREACHED];
  if ((known->slot == slot && known->subject == subject) || !may_change(laid, slot)) return false;
  const ts_fact_def *fact = ts_slot_fact(laid->dossier, slot);
  find_reaching(laid, subject, slot);
  for (size_t i = 0; i < laid->found_count; i++) {
    const laid_control *it = &laid->at[laid->found[i]];
    for (size_t k = 0; k < it->control->change_count; k++) {
      const ts_change *change = &it->control->changes[k];
      if (change->def != fact) continue;
      reached = true;
      if (it->level > level) continue;
      ts_change_value(change, k == 0 && it->to ? it->to : &change->value, value);
      changed = true;
    }
  }
  if (!reached) *known = (unreached_slot){slot, subject};
  return changed;
}

static bool changes_at(const laid_control *it, const ts_fact_def *fact) {
  for (size_t k = 0; k < it->control->change_count; k++)
    if (it->control->changes[k].def == fact) return true;
  return false;
}

bool ts_laid_reaches(ts_laid *laid, ts_subject subject, int level, const uint32_t *slots, size_t slot_count) {
  for (size_t s = 0; s < slot_count; s++) {
    if (!may_change(laid, slots[s])) continue;
    find_reaching(laid, subject, slots[s]);
    for (size_t i = 0; i < laid->found_count; i++) {
      const laid_control *it = &laid->at[laid->found[i]];
      if (it->level == level && changes_at(it, ts_slot_fact(laid->dossier, slots[s]))) return true;
    }
  }
  return false;
}
