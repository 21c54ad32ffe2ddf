/* tankside ask: the questions that matter most, one after another, and the answers written into the
 * dossier. */
#include "assess/assessment.h"
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include "command/line.h"
#include "dossier/edit.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DOSSIER_LIMIT = 64 * 1024 * 1024, WHY_SHOWN = 10 };

/* A file as it was before an answer, for undo. */
typedef struct {
  const char *path, *before, *after;
} edit;

typedef struct {
  ts_session *s;
  const ts_options *options;
  line_reader *reader;
  ts_assessment *now;
  ts_assessment *was; /* before the last answer, of `was_of`; else NULL */
  ts_dossier *was_of;
  const char **skipped; /* paths of facts left open */
  size_t skipped_count, skipped_capacity;
  edit *edits;
  size_t edit_count, edit_capacity;
  size_t answered;
  uint32_t shown; /* the question that stands on the screen, or TS_NO_SLOT */
} asker;

/* ---- reading and assessing --------------------------------------------------------------- */

/* What an answer does not bear on is taken over from before it. */
static ts_assessment *assess(const asker *k) {
  ts_assess_inputs inputs = session_inputs(k->s, k->options->words[0]);
  inputs.questions_only = inputs.without_words = true;
  inputs.before = k->now;
  inputs.for_next = true;
  return ts_assess(&inputs, k->s->problems);
}

static void forget_was(asker *k) {
  ts_assessment_free(k->was);
  ts_dossier_free(k->was_of);
  k->was = NULL;
  k->was_of = NULL;
}

/* Reads the dossier as it now is. The old one stays until the new one is there, and then until
 * what changed has been shown. */
static bool read_again(asker *k) {
  ts_dossier *before = k->s->dossier;
  k->s->dossier =
      ts_dossier_read(k->options->words[0], k->s->vocabulary, k->s->units, k->s->problems);
  ts_assessment *then = k->s->dossier ? assess(k) : NULL;
  if (then == NULL) {
    ts_dossier_free(k->s->dossier);
    k->s->dossier = before;
    return false;
  }
  k->was = k->now;
  k->was_of = before;
  k->now = then;
  k->shown = TS_NO_SLOT;
  return true;
}

/* What an answer changed. */
static void show_changes(asker *k) {
  print_changes(k->s->arena, k->was, k->now, k->s->problems);
  forget_was(k);
}

/* ---- the question ---------------------------------------------------------------------- */

static const char *path_of(const asker *k, uint32_t slot) {
  char path[256];
  return ts_arena_copy(k->s->arena, ts_slot_path(k->s->dossier, slot, path, sizeof path));
}

static bool is_skipped(const asker *k, uint32_t slot) {
  const char *path = path_of(k, slot);
  for (size_t i = 0; i < k->skipped_count; i++)
    if (ts_same(k->skipped[i], path)) return true;
  return false;
}

static const ts_open_fact *next_question(const asker *k) {
  for (size_t i = 0; i < k->now->open_count; i++) {
    const ts_open_fact *open = &k->now->open[i];
    if (ts_slot_value(k->s->dossier, open->slot)->state == TS_UNKNOWN && !is_skipped(k, open->slot))
      return open;
  }
  return NULL;
}

static void show_question(asker *k, const ts_open_fact *open) {
  if (k->shown == open->slot) return;
  k->shown = open->slot;
  const ts_fact_def *fact = ts_slot_fact(k->s->dossier, open->slot);
  ts_summary sum = ts_assessment_summary(k->now);
  printf("\n%zu above the line, %zu stop%s, %zu fact%s not known\n\n", sum.above, sum.stops,
         plural(sum.stops), sum.open, plural(sum.open));
  print_folded("", ts_arena_printf(k->s->arena, "%s: %s", path_of(k, open->slot), fact->meaning));
  print_folded("  of         ", k->now->labels[ts_slot_subject(k->s->dossier, open->slot)]);
  print_folded("  who knows  ", fact->asked);
  print_folded("  found by   ", fact->measured);
  print_folded("  answer     ", ts_show_form(k->s->dossier, fact, k->s->arena));
  if (open->removes > 0)
    print_folded("  worth      ",
                 ts_arena_printf(k->s->arena, "up to %d of all scores together: %s", open->removes,
                                 ts_show_value(k->s->dossier, fact, &open->best, k->s->arena)));
}

static bool finding_by_id(const asker *k, const char *id, ts_finding_view *f) {
  for (size_t i = 0; i < ts_finding_count(k->now); i++)
    if (ts_same((*f = ts_finding_at(k->now, i)).id, id)) return true;
  for (size_t i = 0; i < ts_duty_count(k->now); i++)
    if (ts_same((*f = ts_duty_at(k->now, i)).id, id)) return true;
  return false;
}

/* The findings that hang on it: `findings` holds their ids with blanks between. */
static void show_why(const asker *k, const ts_open_fact *open) {
  size_t shown = 0, left = 0;
  for (const char *at = open->findings; *(at += strspn(at, " ")) != '\0';) {
    size_t length = strcspn(at, " ");
    const char *id = ts_arena_copy_n(k->s->arena, at, length);
    ts_finding_view f;
    if (++shown > WHY_SHOWN)
      left++;
    else if (finding_by_id(k, id, &f))
      print_folded(ts_arena_printf(k->s->arena, "  %-5s ", id),
                   ts_arena_printf(k->s->arena, "%s (%s)", f.title, f.subject_label));
    at += length;
  }
  if (left > 0) printf("  and %zu more\n", left);
}

/* ---- the answer ------------------------------------------------------------------------ */

static const char *file_of(const asker *k, size_t source) {
  return ts_path_join(k->s->arena, ts_path_folder(k->s->arena, k->options->words[0]),
                      ts_source_name(k->s->dossier, source));
}

/* Where the answer comes from, in the form of an <evidence>; false where nothing is said. */
static bool ask_evidence(asker *k, ts_edit_evidence *e) {
  static const char *const kinds[] = {"measured", "certificate", "statement", "estimate", NULL};
  const char *kind;
  line_words(k->reader, kinds);
  while ((kind = line_read(k->reader,
                           "  known from (measured certificate statement estimate, or Enter) ")) !=
         NULL) {
    size_t i = 0;
    if (kind[0] == '\0') return false;
    while (kinds[i] != NULL && !ts_same(kinds[i], kind)) i++;
    if (kinds[i] != NULL) break;
    unknown("kind of evidence", kind, kinds, 4);
  }
  line_words(k->reader, NULL);
  if (kind == NULL) return false;
  e->kind = ts_arena_copy(k->s->arena, kind);
  e->by = ts_arena_copy(k->s->arena, line_read(k->reader, "  by whom  "));
  e->on = ts_arena_copy(k->s->arena, line_read(k->reader, "  on which day (2027-03-08)  "));
  e->ref = ts_arena_copy(k->s->arena, line_read(k->reader, "  kept where (Enter: not said)  "));
  return e->by != NULL && e->by[0] != '\0' && e->on != NULL && e->on[0] != '\0';
}

static bool with_evidence(const char *path, const ts_edit_evidence *e, ts_text *text) {
  ts_text more;
  if (e == NULL) return true;
  if (!ts_edit_add_evidence(path, e, text->data, text->length, &more)) return false;
  ts_text_release(text);
  *text = more;
  return true;
}

/* Writes the answer; the file is put back when the dossier does not read with it. */
static bool write_answer(asker *k, uint32_t slot, const char *value,
                         const ts_edit_evidence *evidence) {
  size_t length;
  ts_text text;
  const char *file = file_of(k, ts_edit_source(k->s->dossier, slot));
  const char *path = path_of(k, slot);
  const char *before = ts_file_read(k->s->arena, file, DOSSIER_LIMIT, &length, k->s->problems);
  if (before == NULL ||
      !ts_edit_fact(k->s->dossier, slot, value, before, length, &text, k->s->problems))
    return false;
  bool good = with_evidence(path, evidence, &text) &&
              ts_file_write(file, text.data, text.length, k->s->problems);
  if (good && !read_again(k)) {
    ts_file_write(file, before, length, k->s->problems);
    puts("  the dossier does not read with that; the file is as it was");
    good = false;
  }
  if (good) {
    TS_GROW(k->edits, k->edit_count, k->edit_capacity);
    k->edits[k->edit_count++] =
        (edit){ts_arena_copy(k->s->arena, file), before, ts_arena_copy(k->s->arena, text.data)};
  }
  ts_text_release(&text);
  return good;
}

static void take_answer(asker *k, const ts_open_fact *open, const char *answer) {
  const ts_fact_def *fact = ts_slot_fact(k->s->dossier, open->slot);
  ts_value value = {0};
  ts_edit_evidence evidence = {0};
  uint32_t slot = open->slot;
  const char *kept = ts_arena_copy(k->s->arena, answer);
  if (!ts_fact_read(k->s->vocabulary, k->s->units, k->s->arena, fact, kept, &value, k->s->problems,
                    fact->name, 0)) {
    session_say(k->s);
    return;
  }
  bool known = ask_evidence(k, &evidence);
  if (write_answer(k, slot, kept, known ? &evidence : NULL)) {
    k->answered++;
    show_changes(k);
  }
  session_say(k->s);
}

static void undo(asker *k) {
  if (k->edit_count == 0) {
    puts("  nothing was answered yet");
    return;
  }
  size_t length;
  const edit *last = &k->edits[k->edit_count - 1];
  const char *now = ts_file_read(k->s->arena, last->path, DOSSIER_LIMIT, &length, k->s->problems);
  if (now == NULL || strcmp(now, last->after) != 0) {
    puts("  the file was changed meanwhile; it is left as it is");
    return;
  }
  if (ts_file_write(last->path, last->before, strlen(last->before), k->s->problems) &&
      read_again(k)) {
    k->edit_count--;
    k->answered--;
    show_changes(k);
  }
  session_say(k->s);
}

static void skip(asker *k, uint32_t slot) {
  TS_GROW(k->skipped, k->skipped_count, k->skipped_capacity);
  k->skipped[k->skipped_count++] = path_of(k, slot);
}

static void help(void) {
  puts("  a value    written into the dossier\n"
       "  ?          leave it open, and go on\n"
       "  why        which findings hang on it\n"
       "  undo       take back the last answer\n"
       "  quit       stop; every answer is in the file already");
}

/* Words to complete to: the choices, and what can be said instead. */
static const char *const *completions(const asker *k, const ts_fact_def *fact) {
  static const char *const always[] = {"why", "undo", "quit", "help", NULL};
  size_t count = 0;
  const char **words = ts_arena_alloc(k->s->arena, 80 * sizeof *words);
  const char *choices = fact->type == TS_FLAG ? "yes no" : fact->choices ? fact->choices : "";
  for (const char *at = choices; *(at += strspn(at, " ")) != '\0' && count < 70;) {
    size_t length = strcspn(at, " ");
    words[count++] = ts_arena_copy_n(k->s->arena, at, length);
    at += length;
  }
  for (size_t i = 0; always[i] != NULL; i++) words[count++] = always[i];
  return words;
}

/* One turn; false when it is over. */
static bool turn(asker *k) {
  const ts_open_fact *open = next_question(k);
  if (open == NULL) return false;
  show_question(k, open);
  line_words(k->reader, completions(k, ts_slot_fact(k->s->dossier, open->slot)));
  const char *answer = line_read(k->reader, "> ");
  if (answer == NULL || ts_same(answer, "quit")) return false;
  if (answer[0] == '\0' || ts_same(answer, "help"))
    help();
  else if (ts_same(answer, "?"))
    skip(k, open->slot);
  else if (ts_same(answer, "why"))
    show_why(k, open);
  else if (ts_same(answer, "undo"))
    undo(k);
  else
    take_answer(k, open, answer);
  return true;
}

/* ---- the verb -------------------------------------------------------------------------- */

static int converse(asker *k) {
  k->reader = line_open(stdout);
  while (turn(k)) {
  }
  line_close(k->reader);
  if (next_question(k) == NULL) puts("\nNothing more to ask.");
  printf("\n%zu answer%s in %s\n\n", k->answered, plural(k->answered), k->options->words[0]);
  print_folded("", caution);
  bool look = ts_assessment_holds(k->now);
  ts_assessment_free(k->now);
  free(k->skipped);
  free(k->edits);
  return look ? LOOK : DONE;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  asker k = {.s = &s, .options = options, .shown = TS_NO_SLOT};
  int status = NOT_DONE;
  if (session_open(&s) && session_read_matrix(&s, options->matrix) &&
      session_read_dossier(&s, options, options->words[0]) && ts_count(s.problems, TS_ERROR) == 0 &&
      (k.now = assess(&k)) != NULL) {
    session_say(&s);
    status = converse(&k);
  }
  session_close(&s);
  return status;
}

const ts_verb verb_ask = {
    .name = "ask",
    .usage = "ask DOSSIER [--pack DIR]... [--matrix NAME|FILE]",
    .summary = "ask for what matters most, and write the answers into the dossier",
    .details =
        "Asks for the fact whose answer could take away most of all scores together, who\n"
        "usually knows it, and what an answer looks like; writes the answer into the file,\n"
        "which otherwise stays as it is, and says which scores moved. Then the next. Where\n"
        "an answer comes from becomes evidence. Instead of an answer: ? leaves it open, why\n"
        "lists the findings that hang on it, undo takes the last answer back, quit stops.\n"
        "Every answer is in the file at once: nothing is lost whenever you stop.\n\n"
        "  tankside ask dossier.xml\n\n"
        "Exit status: 0 nothing above the line any more, 1 otherwise, 2 could not begin.",
    .takes = OPTION_PACK | OPTION_MATRIX,
    .least = 1,
    .most = 1,
    .kinds = {A_DOSSIER},
    .needs = WRITES_FIRST,
    .run = run};
