/* Help texts, folded at the width of a terminal however their lines were written. */
#include "base/text.h"
#include "command/command.h"
#include <stdio.h>
#include <string.h>

/* Words that are collected until it is clear that no more belong to them. */
typedef struct {
  ts_text head, text;
  bool item; /* a head with a text beside it */
} passage;

static void end_passage(passage *p) {
  if (p->text.length > 0) print_folded(p->head.length > 0 ? p->head.data : "", p->text.data);
  ts_text_release(&p->head);
  ts_text_release(&p->text);
  p->item = false;
}

static void add_words(passage *p, const char *words, size_t length) {
  if (p->text.length > 0) ts_text_add(&p->text, " ");
  ts_text_add_n(&p->text, words, length);
}

/* Where the text begins in "list     one rule a line": after two blanks or more; 0: nowhere. */
static size_t text_after_head(const char *line, size_t length) {
  size_t at = strspn(line, " ");
  while (at + 1 < length && !(line[at] == ' ' && line[at + 1] == ' ')) at++;
  if (at + 1 >= length) return 0;
  return at + strspn(line + at, " ");
}

/* Prose is folded as it comes; a head keeps its text beside it; other lines that begin with a blank
 * are commands, and stay as they are. */
static void add_line(passage *p, const char *line, size_t length) {
  size_t blanks = strspn(line, " "), text = text_after_head(line, length);
  if (length == 0) {
    end_passage(p);
    putchar('\n');
  } else if (text > 0) {
    end_passage(p);
    ts_text_add_n(&p->head, line, text);
    add_words(p, line + text, length - text);
    p->item = true;
  } else if (blanks == 0 || p->item) {
    if (blanks == 0 && p->item) end_passage(p);
    add_words(p, line + blanks, length - blanks);
  } else {
    end_passage(p);
    printf("%.*s\n", (int)length, line);
  }
}

void print_help(const ts_verb *verb) {
  passage p = {.item = false};
  print_folded("usage: tankside ", verb->usage);
  putchar('\n');
  for (const char *at = verb->details; *at != '\0';) {
    size_t length = strcspn(at, "\n");
    add_line(&p, at, length);
    at += length + (at[length] == '\n');
  }
  end_passage(&p);
  if (verb->takes == 0) return;
  puts("\nOptions:");
  options_help(verb);
}
