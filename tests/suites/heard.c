#include "heard.h"

#include "base/text.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

void heard_free(heard *all) {
  free(all->at);
  *all = (heard){0};
}

static heard_word *word_for(heard *all, const ts_outcome *out) {
  const char *about = out->about != NULL ? out->about : "";
  heard_word *found = (heard_word *)heard_find(all, out->word, about);
  if (found != NULL) return found;
  TS_GROW(all->at, all->count, all->capacity);
  all->at[all->count] = (heard_word){.word = out->word, .about = about, .best = 26};
  return &all->at[all->count++];
}

static void hear(heard *all, const ts_course *course, const ts_outcome *out) {
  heard_word *w = word_for(all, out);
  int score = out->word == TS_HAZARD ? out->likelihood * out->severity : 0;
  if (out->word == TS_HAZARD)
    w->scores |= UINT32_C(1) << (5 * (out->likelihood - 1) + out->severity - 1);
  if (out->word == TS_DUTY) w->states |= UINT32_C(1) << out->state;
  if (w->last != course) w->courses++;
  if (w->last != course || score > w->here) w->here = score;
  w->last = course;
}

static void end_course(heard *all, const ts_course *course) {
  for (size_t i = 0; i < all->count; i++) {
    heard_word *w = &all->at[i];
    if (w->last != course) continue;
    if (w->here > w->worst) w->worst = w->here;
    if (w->here < w->best) w->best = w->here;
  }
}

void heard_take(heard *all, const ts_evaluation *evaluation) {
  ck_assert_msg(evaluation->failure == NULL, "%s", evaluation->failure);
  all->count = 0;
  all->courses = evaluation->course_count;
  all->unresolved = evaluation->unresolved;
  for (size_t i = 0; i < evaluation->course_count; i++) {
    const ts_course *course = &evaluation->courses[i];
    for (size_t k = 0; k < course->outcome_count; k++) hear(all, course, &course->outcomes[k]);
    end_course(all, course);
  }
}

const heard *heard_keep(ts_arena *arena, const heard *all) {
  heard *copy = ts_arena_alloc(arena, sizeof *copy);
  *copy = *all;
  copy->at = ts_arena_alloc(arena, (all->count + 1) * sizeof *copy->at);
  for (size_t i = 0; i < all->count; i++) {
    copy->at[i] = all->at[i];
    copy->at[i].about = ts_arena_copy(arena, all->at[i].about);
  }
  return copy;
}

const heard_word *heard_find(const heard *all, ts_word word, const char *about) {
  for (size_t i = 0; i < all->count; i++) {
    const heard_word *w = &all->at[i];
    if (w->word == word && ts_same(w->about, about)) return w;
  }
  return NULL;
}

static const char *word_outside(const heard_word *wide, const heard_word *narrow) {
  if (wide == NULL) return "says something new";
  if (narrow->worst > wide->worst) return "worse than the worst";
  if (narrow->best < wide->best) return "milder than the best";
  if (narrow->scores & ~wide->scores) return "a score that no course has";
  return narrow->states & ~wide->states ? "a duty in a state that no course has" : NULL;
}

const char *heard_outside(const heard *wide, const heard *narrow) {
  if (narrow->unresolved) return "not all courses seen";
  for (size_t i = 0; i < narrow->count; i++) {
    const heard_word *n = &narrow->at[i];
    const char *why = word_outside(heard_find(wide, n->word, n->about), n);
    if (why != NULL) return why;
  }
  for (size_t i = 0; i < wide->count; i++) {
    const heard_word *w = &wide->at[i];
    if (w->courses < wide->courses) continue;
    const heard_word *n = heard_find(narrow, w->word, w->about);
    if (n == NULL || n->courses < narrow->courses) return "what was certain is not said";
  }
  return NULL;
}

char *heard_text(ts_arena *arena, const heard *all) {
  static const char *const words[] = {"hazard", "duty", "stop", "note"};
  ts_text text = {0};
  ts_text_addf(&text, "%zu courses%s:", all->courses, all->unresolved ? ", unresolved" : "");
  for (size_t i = 0; i < all->count; i++) {
    const heard_word *w = &all->at[i];
    ts_text_addf(&text, " %s (%s) %d..%d scores %x states %x on %zu;", words[w->word], w->about,
                 w->best, w->worst, w->scores, w->states, w->courses);
  }
  char *copy = ts_arena_copy(arena, text.data);
  ts_text_release(&text);
  return copy;
}
