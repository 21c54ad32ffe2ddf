/* The command line: finds the verb and runs it. */
#include "base/text.h"
#include "command/advice.h"
#include "command/command.h"
#include "command/pages.h"
#include "command/wall.h"
#include <openssl/crypto.h>
#include <stdio.h>

const ts_verb *const verbs[] = {
    &verb_new,   &verb_workbook, &verb_import, &verb_ask,        &verb_check,       &verb_assess,
    &verb_watch, &verb_day,      &verb_print,  &verb_compare,    &verb_verify,      &verb_review,
    &verb_sign,  &verb_rules,    &verb_calc,   &verb_vocabulary, &verb_completions, NULL};

enum { VERBS = sizeof verbs / sizeof verbs[0] - 1 };

const char caution[] =
    "It computes and documents; a competent person decides. Local codes and licensed "
    "practice (diving supervisor, doctor, engineer, electrician) come first. A score is a "
    "prompt for a decision, not a permission.";

static void help_all(void) {
  puts("tankside: risk assessment of work in, under and beside water on set\n");
  puts("usage: tankside COMMAND [ARGUMENT]...\n");
  for (size_t i = 0; i < VERBS; i++) printf("  %-12s %s\n", verbs[i]->name, verbs[i]->summary);
  puts("\n  tankside                  what to do next in this folder");
  puts("  tankside COMMAND --help   what it takes and gives, with examples");
  puts("  tankside --version        this program and its libraries\n");
  puts("Exit status: 0 assessed, nothing above the line; 1 assessed, something stops,\n"
       "stands above the line, is not met or incomplete; 2 not assessed.\n");
  print_folded("", caution);
}

const ts_verb *verb_find(const char *name) {
  for (const ts_verb *const *verb = verbs; *verb != NULL; verb++)
    if (ts_same((*verb)->name, name)) return *verb;
  return NULL;
}

static int no_such_verb(const char *name) {
  const char *names[VERBS];
  size_t count = 0;
  for (const ts_verb *const *verb = verbs; *verb != NULL; verb++) names[count++] = (*verb)->name;
  return unknown(name[0] == '-' ? "option" : "command", name, names, count);
}

static int run_verb(const ts_verb *verb, int count, char **arguments) {
  ts_options options = {0};
  if (!options_read(verb, count, arguments, &options)) return NOT_DONE;
  if (options.help) {
    print_help(verb);
    return DONE;
  }
  wall_raise(verb, &options);
  return verb->run(&options);
}

/* `tankside help VERB` is `tankside VERB --help`. */
static int help(int count, char **arguments) {
  if (count == 0) {
    help_all();
    return DONE;
  }
  const ts_verb *verb = verb_find(arguments[0]);
  if (verb == NULL) return no_such_verb(arguments[0]);
  print_help(verb);
  return DONE;
}

/* Output that could not be written is no success: a full disk, a closed pipe. Some file systems say
 * so only when it is closed. */
static int flushed(int status) {
  bool good = fflush(stdout) == 0 && !ferror(stdout);
  if (fclose(stdout) == 0 && good) return status;
  fputs("tankside: error: cannot write to standard output\n", stderr);
  return NOT_DONE;
}

/* Left alone, OpenSSL clears up when the process ends; where memory ran out in the middle of making
 * something once, that waits for it for ever. */
static void end_without_clearing_up(void) {
  (void)OPENSSL_init_crypto(OPENSSL_INIT_NO_ATEXIT, NULL);
}

int main(int count, char **arguments) {
  const char *name = count < 2 ? "" : arguments[1];
  if (ts_same(name, "--version")) {
    print_versions();
    return flushed(DONE);
  }
  pages_prepare();
  end_without_clearing_up();
  if (!libraries_will_do()) return NOT_DONE;
  if (count < 2) {
    wall_raise(NULL, NULL);
    return flushed(advise("."));
  }
  if (ts_same(name, "--help") || ts_same(name, "-h") || ts_same(name, "help"))
    return flushed(help(ts_same(name, "help") ? count - 2 : 0, arguments + 2));
  const ts_verb *verb = verb_find(name);
  return verb != NULL ? flushed(run_verb(verb, count - 2, arguments + 2)) : no_such_verb(name);
}
