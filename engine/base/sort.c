#include "base/sort.h"

#include <stdlib.h>

static int ascending(const void *left, const void *right) {
  uint32_t a = *(const uint32_t *)left, b = *(const uint32_t *)right;
  return (a > b) - (a < b);
}

static void insert_each(uint32_t *at, size_t count) {
  for (size_t i = 1; i < count; i++) {
    uint32_t it = at[i];
    size_t k = i;
    for (; k > 0 && at[k - 1] > it; k--) at[k] = at[k - 1];
    at[k] = it;
  }
}

size_t ts_sort_once_each(uint32_t *at, size_t count) {
  enum { FEW = 24 }; /* so few are sorted faster one by one */
  size_t kept = 0;
  if (count <= FEW)
    insert_each(at, count);
  else
    qsort(at, count, sizeof *at, ascending);
  for (size_t i = 0; i < count; i++)
    if (kept == 0 || at[kept - 1] != at[i]) at[kept++] = at[i];
  return kept;
}

size_t ts_first_from(const uint32_t *at, size_t count, uint32_t least) {
  size_t low = 0, high = count;
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    if (at[middle] < least)
      low = middle + 1;
    else
      high = middle;
  }
  return low;
}

static int ascending_numbers(const void *left, const void *right) {
  double a = *(const double *)left, b = *(const double *)right;
  return (a > b) - (a < b);
}

void ts_sort_numbers(double *at, size_t count) {
  if (count > 1) qsort(at, count, sizeof *at, ascending_numbers);
}
