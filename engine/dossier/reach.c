/* Which subjects a control covers that stands at another one, and which controls cover a subject:
 * worked out once, so that nobody goes through all controls of a long schedule. */
#include "base/sort.h"
#include "dossier/world.h"

#include <stdlib.h>

/* ---- scopes over a subject ------------------------------------------------ */

static size_t add_scope(ts_subject *scopes, size_t count, ts_subject scope) {
  for (size_t i = 0; i < count; i++)
    if (scopes[i] == scope) return count;
  if (count < TS_SCOPES_MAX) scopes[count++] = scope;
  return count;
}

static size_t add_above(const ts_dossier *dossier, ts_subject *scopes, size_t count,
                        ts_subject subject) {
  for (; subject != TS_NO_SUBJECT; subject = ts_subject_at(dossier, subject)->parent)
    count = add_scope(scopes, count, subject);
  return count;
}

enum { WAYS = 4 };
static const char *const ways[WAYS] = {"task", "person", "day", "site"};

size_t ts_scopes_over(const ts_dossier *dossier, ts_subject subject, ts_subject *scopes) {
  size_t count = add_scope(scopes, 0, 0);
  count = add_above(dossier, scopes, count, subject);
  for (size_t i = 0; i < WAYS; i++)
    count = add_above(dossier, scopes, count, ts_leads_to(dossier, subject, ways[i]));
  return count;
}

static bool is_above(const ts_dossier *dossier, ts_subject scope, ts_subject subject) {
  while (subject != TS_NO_SUBJECT && subject != scope)
    subject = ts_subject_at(dossier, subject)->parent;
  return subject != TS_NO_SUBJECT;
}

bool ts_covers(const ts_dossier *dossier, ts_subject scope, ts_subject subject) {
  bool covers = scope == 0 || is_above(dossier, scope, subject);
  for (size_t i = 0; i < WAYS && !covers; i++)
    covers = is_above(dossier, scope, ts_leads_to(dossier, subject, ways[i]));
  return covers;
}

/* ---- controls by where they stand, and by whom they cover ------------------- */

static void index_by_scope(ts_dossier *dossier, ts_reach *reach) {
  size_t subjects = dossier->subject_count, count = dossier->control_count;
  reach->at_from = ts_arena_alloc(dossier->arena, (subjects + 2) * sizeof *reach->at_from);
  reach->at = ts_arena_alloc(dossier->arena, (count + 1) * sizeof *reach->at);
  for (size_t i = 0; i < count; i++) reach->at_from[dossier->controls[i].scope + 1]++;
  for (size_t s = 0; s < subjects; s++) reach->at_from[s + 1] += reach->at_from[s];
  uint32_t *next = ts_alloc((subjects + 1) * sizeof *next);
  for (size_t i = 0; i < count; i++) {
    ts_subject scope = dossier->controls[i].scope;
    reach->at[reach->at_from[scope] + next[scope]++] = (uint32_t)i;
  }
  free(next);
}

typedef struct {
  uint32_t *at;
  size_t count, capacity;
} numbers;

static void gather_over(const ts_dossier *dossier, const ts_reach *reach, ts_subject subject,
                        numbers *all) {
  ts_subject scopes[TS_SCOPES_MAX];
  size_t count = ts_scopes_over(dossier, subject, scopes), first = all->count;
  for (size_t i = 0; i < count; i++)
    for (uint32_t k = reach->at_from[scopes[i]]; k < reach->at_from[scopes[i] + 1]; k++) {
      TS_GROW(all->at, all->count, all->capacity);
      all->at[all->count++] = reach->at[k];
    }
  if (all->count > first)
    ts_sort_once_each(all->at + first, all->count - first); /* scopes are: so are their controls */
}

/* How its name begins, as one of 64 bits; none where a mistaken dossier names none. */
static uint64_t letters_of(const char *control) {
  if (!control) return 0;
  const unsigned char *c = (const unsigned char *)control;
  return (uint64_t)1 << ((c[0] * 7U + (c[0] != '\0' ? c[1] : 0U)) & 63U);
}

static void keep_letters(const ts_dossier *dossier, ts_reach *reach) {
  reach->letters =
      ts_arena_alloc(dossier->arena, (dossier->subject_count + 1) * sizeof *reach->letters);
  for (ts_subject s = 0; s < dossier->subject_count; s++)
    for (uint32_t i = reach->over_from[s]; i < reach->over_from[s + 1]; i++)
      reach->letters[s] |= letters_of(dossier->controls[reach->over[i]].control);
}

void ts_world_reach(ts_dossier *dossier) {
  ts_reach *reach = &dossier->reach;
  numbers all = {0};
  index_by_scope(dossier, reach);
  reach->written = dossier->control_count;
  reach->over_from =
      ts_arena_alloc(dossier->arena, (dossier->subject_count + 1) * sizeof *reach->over_from);
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    if (reach->written > 0) gather_over(dossier, reach, s, &all);
    reach->over_from[s + 1] = (uint32_t)all.count;
  }
  reach->over = ts_arena_alloc(dossier->arena, (all.count + 1) * sizeof *reach->over);
  for (size_t i = 0; i < all.count; i++) reach->over[i] = all.at[i];
  free(all.at);
  keep_letters(dossier, reach);
}

bool ts_may_be_over(const ts_dossier *dossier, ts_subject subject, const char *control) {
  const uint64_t *letters = dossier->reach.letters;
  return letters != NULL && (letters[subject] & letters_of(control)) != 0;
}

static const uint32_t *part(const uint32_t *from, const uint32_t *all, ts_subject subject,
                            size_t *count) {
  *count = from != NULL ? from[subject + 1] - from[subject] : 0;
  return from != NULL ? all + from[subject] : NULL;
}

const uint32_t *ts_applied_over(const ts_dossier *dossier, ts_subject subject, size_t *count) {
  return part(dossier->reach.over_from, dossier->reach.over, subject, count);
}

const uint32_t *ts_applied_standing(const ts_dossier *dossier, ts_subject scope, size_t *count) {
  return part(dossier->reach.at_from, dossier->reach.at, scope, count);
}

size_t ts_applied_written(const ts_dossier *dossier) { return dossier->reach.written; }
