#include "base/share.h"

#include <pthread.h>
#include <sched.h>
#include <stdatomic.h>

typedef struct {
  atomic_size_t next;
  size_t end;
  ts_piece *piece;
  void *context;
} shared_work;

typedef struct {
  shared_work *work;
  size_t number;
  pthread_t thread;
} hand;

static void *take_pieces(void *argument) {
  const hand *h = argument;
  shared_work *work = h->work;
  for (size_t i; (i = atomic_fetch_add(&work->next, 1)) < work->end;)
    work->piece(work->context, h->number, i);
  return NULL;
}

void ts_share_out(size_t workers, size_t first, size_t end, ts_piece *piece, void *context) {
  shared_work work = {.end = end, .piece = piece, .context = context};
  hand hands[TS_WORKERS_MAX];
  size_t begun = 1;
  atomic_init(&work.next, first);
  if (workers > TS_WORKERS_MAX) workers = TS_WORKERS_MAX;
  if (workers > end - first) workers = end - first;
  for (; begun < workers; begun++) {
    hands[begun] = (hand){.work = &work, .number = begun};
    if (pthread_create(&hands[begun].thread, NULL, take_pieces, &hands[begun]) != 0) break;
  }
  hands[0] = (hand){.work = &work};
  take_pieces(&hands[0]);
  while (begun-- > 1) (void)pthread_join(hands[begun].thread, NULL);
}

size_t ts_processors(void) {
  cpu_set_t set;
  if (sched_getaffinity(0, sizeof set, &set) != 0) return 1;
  size_t count = (size_t)CPU_COUNT(&set);
  return count < TS_WORKERS_MAX ? count : TS_WORKERS_MAX;
}
