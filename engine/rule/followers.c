#include "rule/followers.h"
#include <stdlib.h>
#include <string.h>

enum { PLACES = 4096 }; /* to begin with */

static ts_follower **place_of(const ts_followers *all, size_t rule, ts_subject subject) {
  return &all->places[(rule * 31 + (size_t)subject * 977) & (all->place_count - 1)];
}

static void more_places(ts_followers *all) {
  ts_follower **old = all->places;
  size_t count = all->place_count;
  all->place_count = count ? 2 * count : PLACES;
  all->places = ts_alloc(all->place_count * sizeof(ts_follower *));
  for (size_t i = 0; i < count; i++)
    for (ts_follower *f = old[i], *next; f; f = next) {
      ts_follower **place = place_of(all, f->rule, f->subject);
      next = f->next;
      f->next = *place;
      *place = f;
    }
  free(old);
}

ts_follower *ts_follower_at(ts_followers *all, ts_arena *arena, size_t rule, ts_subject subject) {
  if (all->count == all->place_count) more_places(all);
  ts_follower **place = place_of(all, rule, subject);
  while (*place && ((*place)->rule != rule || (*place)->subject != subject))
    place = &(*place)->next;
  if (!*place) {
    *place = ts_arena_alloc(arena, sizeof **place);
    **place = (ts_follower){.rule = (uint32_t)rule, .subject = subject};
    all->count++;
  }
  return *place;
}

void ts_followers_forget(ts_followers *all) {
  all->count = 0;
  if (all->place_count) memset(all->places, 0, all->place_count * sizeof(ts_follower *));
}

void ts_followers_release(ts_followers *all) {
  free(all->places);
  *all = (ts_followers){0};
}
