/* A second wall around the program, for the day when the first has a hole.
 *
 * The first is how everything of strangers is read. The second does not rely on it: before anything
 * is read, this process and all that it starts give up, for good, what the verb has no need of. A
 * filter in the kernel leaves a list of calls: no network, no looking into other processes, no
 * program unless a PDF is set, no file opened for writing by what writes none. Where a verb writes
 * is a matter of folders, which a filter does not see: Landlock holds it to those. */
#ifndef TS_COMMAND_WALL_H
#define TS_COMMAND_WALL_H

#include "command/command.h"

/* What stands: "yes" and by what, or "no" and why not. */
typedef struct {
  char calls[96], writing[96];
} ts_wall;

/* For a verb with its options; or, where that is NULL, for what reads alone. Where the kernel has
 * no such thing, or whoever started the program forbids it, it goes on without. */
ts_wall wall_raise(const ts_verb *verb, const ts_options *options);

#endif
