/* What was reported, as it would be printed: for tests of messages. */
#ifndef TS_TESTS_SAID_H
#define TS_TESTS_SAID_H

#include "base/arena.h"
#include "tankside/diagnostics.h"

/* Lives in the arena. */
char *said_of(const ts_diagnostics *problems, ts_arena *arena);

#endif
