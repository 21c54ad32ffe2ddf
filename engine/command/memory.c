/* When memory runs out, whoever asked for it: the message, exit status 2, and nothing half written.
 *
 * What the engine itself asks for is checked in base/arena. The libraries under it are not to be
 * relied upon: some return nothing and go on with half a tree, some say something of their own,
 * some fall over. So this program puts itself in the place of malloc, as the C library allows a
 * program to, and no library ever sees a request refused. libtankside does no such thing to its
 * host. What a library wants to be freed goes to the C library itself, since what it gets comes
 * from there. Sanitizers are in that place already. */
#include "base/arena.h"
#include "command/sanitized.h"
#include <features.h> /* __GLIBC__ */
#include <stddef.h>

#if defined(__GLIBC__) && !defined(TS_SANITIZED)

// NOLINTBEGIN(bugprone-reserved-identifier,cert-dcl*): these are the C library's own names
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);
// NOLINTEND(bugprone-reserved-identifier,cert-dcl*)

/* Declared here and not by <stdlib.h>, whose attributes promise that they may return NULL. */
void *malloc(size_t size);
void *calloc(size_t count, size_t size);
void *realloc(void *memory, size_t size);

static void *given(void *memory, size_t size) {
  if (memory == NULL && size > 0) ts_out_of_memory();
  return memory;
}

void *malloc(size_t size) { return given(__libc_malloc(size), size); }

void *calloc(size_t count, size_t size) {
  return given(__libc_calloc(count, size), count > 0 ? size : 0);
}

void *realloc(void *memory, size_t size) { return given(__libc_realloc(memory, size), size); }

#endif
