/* Lines, through libedit. */
#include "command/line.h"

#include "base/arena.h"
#include <histedit.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct line_reader {
  FILE *out;
  EditLine *editor; /* NULL: not a terminal */
  History *history;
  const char *prompt;
  const char *const *words;
  char *line;
  size_t capacity;
};

static char *prompt_of(EditLine *editor) {
  line_reader *reader;
  el_get(editor, EL_CLIENTDATA, &reader);
  return (char *)reader->prompt; /* libedit only reads it */
}

/* Completes the word at the cursor to the only one that begins so; with more than one it does what
 * they share.
 */
static unsigned char complete(EditLine *editor, int key) {
  (void)key;
  line_reader *reader;
  el_get(editor, EL_CLIENTDATA, &reader);
  const LineInfo *info = el_line(editor);
  const char *begun = info->cursor;
  while (begun > info->buffer && strchr(" ,", begun[-1]) == NULL) begun--;
  size_t typed = (size_t)(info->cursor - begun), shared = 0;
  const char *first = NULL;
  for (size_t i = 0; reader->words != NULL && reader->words[i] != NULL; i++) {
    const char *word = reader->words[i];
    if (strncmp(word, begun, typed) != 0) continue;
    if (first == NULL) shared = strlen(first = word);
    while (strncmp(first, word, shared) != 0) shared--;
  }
  if (first == NULL || shared <= typed) return CC_ERROR;
  char more[128];
  snprintf(more, sizeof more, "%.*s", (int)(shared - typed), first + typed);
  return el_insertstr(editor, more) == 0 ? CC_REFRESH : CC_ERROR;
}

static void edit_at_terminal(line_reader *reader) {
  HistEvent event;
  reader->editor = el_init("tankside", stdin, reader->out, stderr);
  reader->history = history_init();
  if (reader->editor == NULL || reader->history == NULL) ts_out_of_memory();
  history(reader->history, &event, H_SETSIZE, 200);
  el_set(reader->editor, EL_CLIENTDATA, reader);
  el_set(reader->editor, EL_PROMPT, prompt_of);
  el_set(reader->editor, EL_EDITOR, "emacs");
  el_set(reader->editor, EL_SIGNAL, 1);
  el_set(reader->editor, EL_HIST, history, reader->history);
  el_set(reader->editor, EL_ADDFN, "complete", "complete a word", complete);
  el_set(reader->editor, EL_BIND, "^I", "complete", NULL);
}

line_reader *line_open(FILE *out) {
  line_reader *reader = ts_alloc(sizeof *reader);
  *reader = (line_reader){.out = out};
  if (isatty(STDIN_FILENO) == 1 && isatty(fileno(out)) == 1) edit_at_terminal(reader);
  return reader;
}

void line_close(line_reader *reader) {
  if (reader->history != NULL) history_end(reader->history);
  if (reader->editor != NULL) el_end(reader->editor);
  free(reader->line);
  free(reader);
}

void line_words(line_reader *reader, const char *const *words) { reader->words = words; }

const char *const *line_split(ts_arena *arena, const char *words) {
  size_t count = 0;
  const char **list =
      ts_arena_alloc(arena, (words ? strlen(words) : 0) / 2 * sizeof *list + 2 * sizeof *list);
  for (const char *at = words; at != NULL && *(at += strspn(at, ", ")) != '\0';
       at += strcspn(at, ", "))
    list[count++] = ts_arena_copy_n(arena, at, strcspn(at, ", "));
  list[count] = NULL;
  return list;
}

const char *line_join(ts_arena *arena, const char *const *words) {
  const char *all = "";
  for (size_t i = 0; words[i] != NULL; i++)
    all = ts_arena_printf(arena, "%s%s%s", all, i > 0 ? ", " : "", words[i]);
  return all;
}

static const char *trimmed(char *line) {
  size_t end = strlen(line);
  while (end > 0 && strchr(" \t\r\n", line[end - 1]) != NULL) line[--end] = '\0';
  return line + strspn(line, " \t");
}

static const char *from_terminal(line_reader *reader) {
  HistEvent event;
  int count = 0;
  const char *line = el_gets(reader->editor, &count);
  if (line == NULL || count <= 0) return NULL;
  history(reader->history, &event, H_ENTER, line);
  free(reader->line);
  size_t size = strlen(line) + 1;
  reader->line = memcpy(ts_alloc(size), line, size);
  return trimmed(reader->line);
}

const char *line_read(line_reader *reader, const char *prompt) {
  reader->prompt = prompt;
  fflush(reader->out);
  if (reader->editor != NULL) return from_terminal(reader);
  fputs(prompt, reader->out);
  const char *line =
      getline(&reader->line, &reader->capacity, stdin) > 0 ? trimmed(reader->line) : NULL;
  fprintf(reader->out, "%s\n",
          line != NULL ? line
                       : ""); /* nobody sees it typed: what is printed reads as it was said */
  fflush(reader->out);
  return line;
}
