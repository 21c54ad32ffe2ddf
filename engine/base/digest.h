/* SHA-256, by OpenSSL. Low-level; calls nothing above.
 * The first in a run costs most of a millisecond, while OpenSSL sets itself up: so sums are made
 * where one is written or compared, not where something is read. */
#ifndef TS_BASE_DIGEST_H
#define TS_BASE_DIGEST_H
#include <stddef.h>
/* 64 lower-case hex digits and a NUL into `out`. Returns `out`. */
char *ts_digest(const char *bytes, size_t length, char out[65]);
/* The same in base 64, as a page's content policy wants it. Returns `out`. */
enum { TS_DIGEST_BASE64 = 45 };
char *ts_digest_base64(const char *bytes, size_t length, char out[TS_DIGEST_BASE64]);
#endif
