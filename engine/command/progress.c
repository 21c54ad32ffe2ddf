/* How far it is, on a terminal. */
#include "command/command.h"
#include <stdio.h>
#include <unistd.h>

ts_progress progress_new(void) {
  ts_progress p = {.watched = isatty(STDERR_FILENO) == 1};
  clock_gettime(CLOCK_MONOTONIC, &p.began);
  return p;
}

static bool progress_due(ts_progress *p) {
  struct timespec now;
  if (!p->watched) return false;
  clock_gettime(CLOCK_MONOTONIC, &now);
  long waited = (now.tv_sec - p->began.tv_sec) * 1000 + (now.tv_nsec - p->began.tv_nsec) / 1000000;
  p->shown = p->shown || waited > 1000;
  return p->shown;
}

void progress_part(void *progress, double part) {
  if (progress_due(progress)) fprintf(stderr, "\rassessing %3.0f %%", 100 * part);
}

void progress_file(ts_progress *p, const char *name) {
  if (progress_due(p)) fprintf(stderr, "\r\033[Kwriting %s", name);
}

void progress_end(const ts_progress *p) {
  if (p->shown) fputs("\r\033[K", stderr);
}
