/* Output: the one place from which a verb writes files.
 *
 * What stands there already is replaced if tankside wrote it and can make it again
 * (document/mark.h); anything else is left alone, with a report, unless --force was given. Files
 * that belong together appear together (base/staging.h). */
#ifndef TS_COMMAND_OUTPUT_H
#define TS_COMMAND_OUTPUT_H

#include "base/staging.h"
#include "command/command.h"

/* One file. False with a report. */
bool output_file(ts_session *s, const ts_options *options, const char *path, const char *bytes,
                 size_t length);

/* An assessment, written into it as it is made: it need not be held as text. */
bool output_assessment(ts_session *s, const ts_options *options, const char *path,
                       const ts_assessment *assessment);

/* Whether what stands at a path may be replaced; reports what stands in the way. */
bool output_free(const ts_session *s, const ts_options *options, const char *path);

/* Several files of one folder, which must be there. */
typedef struct {
  ts_session *s;
  const ts_options *options;
  const char *folder, *hidden; /* where they belong; where they are until they are published */
  ts_staging *staging;
} ts_output;

bool output_begin(ts_output *o, ts_session *s, const ts_options *options, const char *folder);
void output_end(ts_output *o); /* what was not published is gone; after output_begin in any case */

/* Whether a file of this name may be written; reports what stands in the way. */
bool output_may_be(const ts_output *o, const char *name);
/* Where to write it until then. */
const char *output_path(const ts_output *o, const char *name);
/* Writes it there. */
bool output_put(const ts_output *o, const char *name, const char *bytes, size_t length);
bool output_put_assessment(const ts_output *o, const char *name, const ts_assessment *assessment);
/* All that was written goes where it belongs. Of what tankside wrote there before and did not now,
 * those for which `belongs` says so are removed. */
bool output_publish(const ts_output *o, bool (*belongs)(const void *context, const char *name),
                    const void *context);

/* A page as PDF, and beside it, with ".html" after its name, the page that it is set from: that is
 * the accessible edition. In parts or in one, what it was in before goes. `attachment` may be
 * NULL. */
bool output_pdf(ts_session *s, const ts_options *options, const char *html, size_t length,
                const char *attachment);

#endif
