/* For tests that write: a fresh folder each, removed afterwards. */
#ifndef TS_TESTS_SCRATCH_H
#define TS_TESTS_SCRATCH_H

#include <stdbool.h>
#include <stddef.h>

/* Makes an empty folder and writes its path to `path`; fails the test when it cannot. */
void scratch_make(char *path, size_t size);
/* Removes the folder and everything in it. */
void scratch_remove(const char *path);
/* How many entries, hidden ones too, the folder holds. */
int scratch_count(const char *path);

#endif
