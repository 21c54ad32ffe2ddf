/* Quantity text: whatever is read can be written and read again to the same two doubles. */
#include "tankside/quantity.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static ts_units *units(void) {
  static ts_units *one; /* a fuzz target lives as long as its process */
  char why[200];
  if (!one) one = ts_units_new(why, sizeof why);
  return one;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  char text[300], again[128], why[300];
  ts_range range, back;
  ts_dim dim, same;
  if (size >= sizeof text || memchr(data, 0, size)) return 0;
  memcpy(text, data, size);
  text[size] = 0;
  if (!ts_quantity_read(units(), text, &range, &dim, why, sizeof why)) return 0;
  ts_quantity_write(units(), range, dim, NULL, TS_METRIC, again, sizeof again);
  if (!ts_quantity_read(units(), again, &back, &same, why, sizeof why)) abort();
  if (back.lo != range.lo || back.hi != range.hi || same != dim) abort();
  ts_quantity_show(units(), range, dim, NULL, TS_US, again, sizeof again);
  return 0;
}
