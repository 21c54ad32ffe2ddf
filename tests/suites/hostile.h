/* Cases of tests/hostile: what a stranger might send, each with what becomes of it. */
#ifndef TS_TESTS_HOSTILE_H
#define TS_TESTS_HOSTILE_H

#include "base/arena.h"
#include "base/text.h"

typedef struct {
  const char *name;
  char verdict;     /* 'r'efused, 'f'ails, 'b'ounded: the first letter of its second line */
  const char *says; /* what has to be said, or what holds it */
  const char *text; /* with repetitions and bytes written out */
  size_t length;
  int line; /* of the file of cases */
} hostile_case;

/* The cases of a file in tests/hostile, in order; their texts are in the arena. Fails the test
 * where the file cannot be read. */
const hostile_case *hostile_cases(const char *file, ts_arena *arena, size_t *count);

#endif
