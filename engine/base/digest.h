/* SHA-256, through libmd. Low-level; calls nothing above. */
#ifndef TS_BASE_DIGEST_H
#define TS_BASE_DIGEST_H
#include <stddef.h>
/* 64 lower-case hex digits and a NUL into `out`. Returns `out`. */
char *ts_digest(const char *bytes, size_t length, char out[65]);
#endif
