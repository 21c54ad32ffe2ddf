#include "base/digest.h"

#include <sha2.h>
#include <stdint.h>
#include <stdlib.h>

char *ts_digest(const char *bytes, size_t length, char out[65]) {
  const uint8_t none = 0;
  if (!SHA256Data(length ? (const uint8_t *)bytes : &none, length, out)) abort();
  return out;
}
