#include "base/digest.h"

#include <openssl/sha.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

enum { SUM = SHA256_DIGEST_LENGTH };

/* Without it no record of what was assessed can be written, so the run ends, as where memory is
 * out. */
static void sum(const char *bytes, size_t length, uint8_t out[SUM]) {
  if (SHA256((const uint8_t *)bytes, length, out)) return;
  fputs("tankside: error: OpenSSL gives no SHA-256; look at its configuration\n", stderr);
  exit(2);
}

char *ts_digest(const char *bytes, size_t length, char out[65]) {
  static const char digits[] = "0123456789abcdef";
  uint8_t is[SUM];
  sum(bytes, length, is);
  for (size_t i = 0; i < SUM; i++) {
    out[2 * i] = digits[is[i] >> 4];
    out[2 * i + 1] = digits[is[i] & 15];
  }
  out[2 * sizeof is] = '\0';
  return out;
}

char *ts_digest_base64(const char *bytes, size_t length, char out[TS_DIGEST_BASE64]) {
  static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  uint8_t is[SUM + 1] = {0}; /* and one that only fills the last three */
  sum(bytes, length, is);
  for (size_t i = 0; i < 11; i++) {
    uint32_t three = (uint32_t)is[3 * i] << 16 | (uint32_t)is[3 * i + 1] << 8 | is[3 * i + 2];
    for (size_t k = 0; k < 4; k++) out[4 * i + k] = letters[three >> (18 - 6 * k) & 63];
  }
  out[43] = '=';
  out[44] = '\0';
  return out;
}
