#include "base/digest.h"

#include <sha2.h>
#include <stdint.h>
#include <stdlib.h>

char *ts_digest(const char *bytes, size_t length, char out[65]) {
  const uint8_t none = 0;
  if (!SHA256Data(length ? (const uint8_t *)bytes : &none, length, out)) abort();
  return out;
}

char *ts_digest_base64(const char *bytes, size_t length, char out[TS_DIGEST_BASE64]) {
  static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  uint8_t sum[33] = {0}; /* 32 and one that only fills the last three */
  SHA2_CTX context;
  SHA256Init(&context);
  SHA256Update(&context, (const uint8_t *)bytes, length);
  SHA256Final(sum, &context);
  for (size_t i = 0; i < 11; i++) {
    uint32_t three = (uint32_t)sum[3 * i] << 16 | (uint32_t)sum[3 * i + 1] << 8 | sum[3 * i + 2];
    for (size_t k = 0; k < 4; k++) out[4 * i + k] = letters[three >> (18 - 6 * k) & 63];
  }
  out[43] = '=';
  out[44] = '\0';
  return out;
}
