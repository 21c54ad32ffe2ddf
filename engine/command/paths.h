/* What a verb over many files is given: files, folders and lists of both. */
#ifndef TS_COMMAND_PATHS_H
#define TS_COMMAND_PATHS_H

#include "command/command.h"

typedef struct {
  const char *path;
  size_t under; /* how much of it is the folder or list it was found by: the rest is its own name */
} ts_found_path;

typedef struct {
  ts_session *s;
  const char *name; /* what is looked for in folders: "assessment.xml" */
  ts_found_path *at;
  size_t count, capacity;
} ts_paths;

/* Adds what a word stands for: every file of that name in a folder and below it, or the file
 * itself, which need not be there. False with reports. */
bool paths_add(ts_paths *paths, const char *word);
/* Adds what a list names: a folder or file a line, from the list's own folder; "#" begins a remark.
 */
bool paths_add_list(ts_paths *paths, const char *list);
/* Each once, in byte order: the same whatever order they were asked for in. */
void paths_in_order(ts_paths *paths);

#endif
