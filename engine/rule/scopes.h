/* Which function each local of a rule file belongs to, followed token by token, so that no function
 * assigns to a variable of another: that is the one way in Lua for a function to keep
 * something from one call to the next, once the tables it can reach are read-only. */
#ifndef TS_RULE_SCOPES_H
#define TS_RULE_SCOPES_H

#include "rule/lexer.h"

typedef struct ts_scopes ts_scopes;

ts_scopes *ts_scopes_new(void);
void ts_scopes_free(ts_scopes *scopes);
/* The next token of the file. Gives the name, when this completes an assignment to a variable of a function
 * outside the one it stands in; else NULL. The name holds until the next call. Of what is not Lua nothing is said. */
const ts_token *ts_scopes_take(ts_scopes *scopes, const ts_token *token);

#endif
