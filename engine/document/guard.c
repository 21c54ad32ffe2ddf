/* Guard: what a stylesheet may reach while it runs. */
#include "base/file.h"
#include "base/text.h"
#include "document/transform.h"

#include <stdlib.h>
#include <string.h>

static bool inside(const char *folder, const char *path) {
  char *real_folder = realpath(folder, NULL), *real_path = realpath(path, NULL);
  size_t n = real_folder ? strlen(real_folder) : 0;
  bool good = real_folder && real_path && strncmp(real_path, real_folder, n) == 0 &&
              real_path[n] == '/';
  free(real_folder);
  free(real_path);
  return good;
}

/* libxslt hands over the path of the address, its escapes already undone. */
static int may_read(xsltSecurityPrefsPtr prefs, xsltTransformContext *context, const char *path) {
  (void)prefs, (void)context;
  ts_arena *arena = ts_arena_new();
  bool good = path && inside(ts_data_path(arena, "templates"), path);
  ts_arena_free(arena);
  return good;
}

bool ts_document_guard_begin(ts_document_guard *guard) {
  static const xsltSecurityOption never[] = {XSLT_SECPREF_WRITE_FILE, XSLT_SECPREF_CREATE_DIRECTORY,
                                             XSLT_SECPREF_READ_NETWORK, XSLT_SECPREF_WRITE_NETWORK};
  guard->before = xsltGetDefaultSecurityPrefs();
  guard->prefs = xsltNewSecurityPrefs();
  if (!guard->prefs) return false;
  bool good = xsltSetSecurityPrefs(guard->prefs, XSLT_SECPREF_READ_FILE, may_read) == 0;
  for (size_t i = 0; i < sizeof never / sizeof *never; i++)
    good = xsltSetSecurityPrefs(guard->prefs, never[i], xsltSecurityForbid) == 0 && good;
  xsltSetDefaultSecurityPrefs(guard->prefs);
  return good;
}

void ts_document_guard_end(ts_document_guard *guard) {
  xsltSetDefaultSecurityPrefs(guard->before);
  xsltFreeSecurityPrefs(guard->prefs);
}
