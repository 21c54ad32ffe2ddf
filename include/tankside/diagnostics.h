/* Diagnostics: every problem of a run, collected and printed once.
 *
 * The library never prints. Whoever reads input reports into a
 * ts_diagnostics; the caller prints it when the run is over, so that a person
 * sees all mistakes at once, in the order of file and line.
 *
 * When memory runs out, a function of this library does not return: it says so on stderr and ends
 * the process with exit status 2. So no caller checks. The libraries under it are not held to that;
 * the program `tankside` sees to it by standing in for malloc, which a library must not do.
 *
 * Message grammar: what is wrong first, the subject in quotes, no capital, no
 * full stop: `unknown fact "tempratur"; the nearest name is "temperature"`.
 */
#ifndef TANKSIDE_DIAGNOSTICS_H
#define TANKSIDE_DIAGNOSTICS_H

#include <stddef.h>
#include <stdio.h>

typedef struct ts_diagnostics ts_diagnostics;

typedef enum {
  TS_NOTE,    /* worth knowing; changes nothing */
  TS_WARNING, /* the run goes on; the reader should look */
  TS_ERROR    /* the input cannot be used */
} ts_level;

/* A new, empty collection. Free with ts_diagnostics_free (NULL is allowed). */
ts_diagnostics *ts_diagnostics_new(void);
void ts_diagnostics_free(ts_diagnostics *all);

/* Adds one problem. `file` is copied and printed as given; `line` counts from
 * 1, and 0 means "the file as a whole". `format` is printf's, in the message
 * grammar above. The same file, line, level and text are kept only once. */
void ts_report(ts_diagnostics *all, ts_level level, const char *file, int line,
               const char *format, ...) __attribute__((format(printf, 5, 6)));

/* How many problems of exactly this level have been reported. */
size_t ts_count(const ts_diagnostics *all, ts_level level);

/* The text of the first error that was reported, without its place; NULL where there is none. *line
 * (which may be NULL) is its line. It lives as long as the collection. */
const char *ts_first_error(const ts_diagnostics *all, int *line);

/* Reports again, into another collection, what was reported of files in one folder: those whose
 * name begins with its name and a slash. */
void ts_diagnostics_copy(const ts_diagnostics *from, ts_diagnostics *to, const char *folder);

/* What was reported of files in one folder, of another: where a file was made before it got to the
 * place it belongs to. */
void ts_diagnostics_rename(ts_diagnostics *all, const char *folder, const char *to);

/* Prints `file:line: error: text`, one a line, files in the order in which
 * they were first reported and lines ascending within each. */
void ts_diagnostics_print(const ts_diagnostics *all, FILE *out);

#endif
