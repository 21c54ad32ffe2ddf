/* The law behind a duty: what it is called, and the days on which it holds. */
#ifndef TS_RULE_INSTRUMENT_H
#define TS_RULE_INSTRUMENT_H

#include "rule/sandbox.h"

/* Reads the field "instrument" of the duty at stack index 1 into `out`: a text, or
 * { name = , from = , to = } with dates. Raises a Lua error that says what was expected. */
void ts_instrument_read(lua_State *L, ts_sandbox *box, ts_outcome *out);

/* Whether it holds on the day the subject belongs to (else on the day of the revision). Where
 * neither is written it holds. */
bool ts_instrument_in_force(const ts_sandbox *box, const ts_outcome *out);

#endif
