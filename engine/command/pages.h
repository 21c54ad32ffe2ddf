/* How this program takes memory from the system, and gives it back. */
#ifndef TS_COMMAND_PAGES_H
#define TS_COMMAND_PAGES_H

/* Once, before much is asked for. */
void pages_prepare(void);

#endif
