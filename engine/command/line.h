/* A line from whoever sits at the keyboard: with editing, history and completion at a terminal,
 * plain from a pipe. */
#ifndef TS_COMMAND_LINE_H
#define TS_COMMAND_LINE_H

#include "base/arena.h"
#include <stddef.h>
#include <stdio.h>

typedef struct line_reader line_reader;

/* Prompts go to `out`: standard output, or standard error where the other is for what is made. */
line_reader *line_open(FILE *out);
void line_close(line_reader *reader);

/* Words that the tabulator key completes to, NULL-terminated; NULL for none. They must outlive the
 * next line. */
void line_words(line_reader *reader, const char *const *words);

/* Words with blanks or commas between, as a NULL-terminated list; and back, with commas. NULL words
 * are none. */
const char *const *line_split(ts_arena *arena, const char *words);
const char *line_join(ts_arena *arena, const char *const *words);

/* The next line, without its end and the blanks at both ends; NULL when there is none. Holds until
 * the next call. */
const char *line_read(line_reader *reader, const char *prompt);

#endif
