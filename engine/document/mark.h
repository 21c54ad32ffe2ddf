/* Mark: by what tankside knows again what it wrote, so that it overwrites nothing else.
 *
 * No list is kept beside the files: each says so itself, in a way that is lost when another program
 * saves it anew (notes in a register, remarks in a PDF), for then there is something to lose. */
#ifndef TS_DOCUMENT_MARK_H
#define TS_DOCUMENT_MARK_H

#include "tankside/diagnostics.h"
#include <stddef.h>

typedef enum {
  TS_FOREIGN, /* not written by tankside, or changed since */
  TS_WRITTEN, /* as tankside writes it: can be made again */
  TS_SIGNED   /* an assessment that somebody signed: cannot */
} ts_origin;

ts_origin ts_document_origin(const char *bytes, size_t length);
/* Of a file. One that cannot be read cannot be known again: why is reported. An assessment is not held in memory
 * for this, and may be of any size; anything else of at most `limit` bytes. */
ts_origin ts_file_origin(const char *path, size_t limit, ts_diagnostics *problems);

/* Stands at the end of a spreadsheet, as the comment of its ZIP archive. */
#define TS_ARCHIVE_MARK "tankside"

/* Begins the note in a folder of many (command/made_of.h). */
#define TS_NOTE_MARK "What this folder was assessed from, and the SHA-256 of each file.\n"

#endif
