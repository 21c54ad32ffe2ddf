/* Arena: memory that is given back all at once.
 *
 * Low-level; calls nothing above. What is allocated lives until the arena is
 * freed; there is no freeing of single pieces. When memory runs out the
 * process says so and ends with exit status 2: no caller checks for NULL.
 */
#ifndef TS_BASE_ARENA_H
#define TS_BASE_ARENA_H

#include <stddef.h>

typedef struct ts_arena ts_arena;

ts_arena *ts_arena_new(void);
void ts_arena_free(ts_arena *arena); /* NULL is allowed */
void ts_arena_clear(ts_arena *arena); /* empty again, with a block to begin with */
/* What was allocated in `other` lives on in `arena`; `other` is gone. */
void ts_arena_take_over(ts_arena *arena, ts_arena *other);

/* `size` bytes, zeroed, aligned for any type of that size, or of which many come to that size. What
 * ends in an array of something smaller than itself takes a size that is a multiple of its own. */
void *ts_arena_alloc(ts_arena *arena, size_t size);
void *ts_arena_keep(ts_arena *arena, const void *bytes, size_t size); /* a copy; never NULL */
char *ts_arena_copy(ts_arena *arena, const char *text);               /* NULL gives NULL */
char *ts_arena_copy_n(ts_arena *arena, const char *text, size_t length);
char *ts_arena_printf(ts_arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Heap memory for what must grow or be freed singly: malloc's contract, but
 * never NULL (the process ends instead) and zeroed when fresh. */
void *ts_alloc(size_t size);
_Noreturn void ts_out_of_memory(void); /* the message, and the end: for what a library did not get */
void *ts_resize(void *memory, size_t size); /* NULL, n allocates */

/* Makes room for one more element in a growing array:
 *   TS_GROW(items, count, capacity); items[count++] = x;  */
#define TS_GROW(items, count, capacity)                                        \
  ((count) < (capacity)                                                        \
       ? (void)0                                                               \
       : (void)((items) = ts_resize((items), ((capacity) = (capacity) ? 2 * (capacity) : 8) * sizeof *(items))))

/* Makes room for `needed` elements, whatever there is already. */
#define TS_RESERVE(items, needed, capacity)                                    \
  ((needed) <= (capacity)                                                      \
       ? (void)0                                                               \
       : (void)((items) = ts_resize((items), ((capacity) = (needed)) * sizeof *(items))))

#endif
