/* Sorting what is sorted everywhere. Low-level; calls nothing above. */
#ifndef TS_BASE_SORT_H
#define TS_BASE_SORT_H

#include <stddef.h>
#include <stdint.h>

/* Ascending, each once; returns how many are left. `at` may be NULL where count is 0. */
size_t ts_sort_once_each(uint32_t *at, size_t count);

/* Of an ascending list the first place at which nothing less than `least` stands; the count where
 * there is none. */
size_t ts_first_from(const uint32_t *at, size_t count, uint32_t least);

/* Ascending. None may be NaN. */
void ts_sort_numbers(double *at, size_t count);

#endif
