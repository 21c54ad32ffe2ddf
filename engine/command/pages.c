#include "command/pages.h"
#include "base/arena.h"
#include "command/sanitized.h"
#include <features.h> /* __GLIBC__ */

#if defined(__GLIBC__) && !defined(TS_SANITIZED)
#include <malloc.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

enum { LARGE = 128 * 1024, PAGE = 2 * 1024 * 1024, ROOM = 4 * PAGE };

/* So much more than is asked for next is taken from the system, at the end of what there is. */
static void make_room(void) {
  (void)mallopt(M_TOP_PAD, ROOM);
  /* A heap that begins does not hold both; volatile, or a compiler sees that nobody uses them. */
  void *volatile some = ts_resize(NULL, LARGE / 2);
  void *volatile more = ts_resize(NULL, LARGE - LARGE / 4);
  free(some);
  free(more);
  (void)mallopt(M_TOP_PAD, PAGE);
}

/* What is large goes back to the system as soon as it is freed. Left alone, the C library raises
 * what it takes for large with the largest that was freed, and keeps the rest, full of holes: a
 * tenth of a long run. Small pieces are joined with their neighbours as each is freed, and not all
 * of them whenever something large is: a sixth of reading a thousand tasks. What every assessment
 * needs comes in the large pages of the machine, where it has some: to be given it in small ones is
 * a fourteenth of a what-if. */
void pages_prepare(void) {
  (void)mallopt(M_MMAP_THRESHOLD, LARGE);
  (void)mallopt(M_TRIM_THRESHOLD, 2 * ROOM);
  (void)mallopt(M_MXFAST, 0);
  make_room();
#ifdef MADV_HUGEPAGE
  uintptr_t end = (uintptr_t)sbrk(0), first = (end - ROOM + PAGE - 1) / PAGE * PAGE;
  // NOLINTNEXTLINE(performance-no-int-to-ptr): an address rounded up to a page
  (void)madvise((void *)first, end - first, MADV_HUGEPAGE);
#endif
}

#else

void pages_prepare(void) {}

#endif
