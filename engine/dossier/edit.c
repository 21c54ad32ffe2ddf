#include "dossier/edit.h"

#include "dossier/rewrite.h"
#include "dossier/world.h"
#include <string.h>

size_t ts_edit_source(const ts_dossier *dossier, uint32_t slot) {
  return dossier->subjects[dossier->owners[slot]].file;
}

bool ts_edit_fact(const ts_dossier *dossier, uint32_t slot, const char *value, const char *text,
                  size_t length, ts_text *out, ts_diagnostics *problems) {
  size_t source = ts_edit_source(dossier, slot);
  ts_rewrite *rewrite = ts_rewrite_new(dossier, problems);
  *out = (ts_text){0};
  bool good = ts_rewrite_source(rewrite, source, text, length) &&
              ts_rewrite_fact(rewrite, slot, value) && ts_rewrite_text(rewrite, source, out);
  ts_rewrite_free(rewrite);
  return good;
}

bool ts_edit_add_evidence(const char *path, const ts_edit_evidence *evidence, const char *text,
                          size_t length, ts_text *out) {
  static const char end_tag[] = "</dossier";
  const char *end = NULL;
  *out = (ts_text){0};
  for (const char *at = text;
       (at = memmem(at, length - (size_t)(at - text), end_tag, sizeof end_tag - 1)); at++)
    end = at;
  if (end == NULL) return false;
  ts_text_add_n(out, text, (size_t)(end - text));
  ts_rewrite_evidence_text(path, evidence, out);
  ts_text_add_n(out, end, length - (size_t)(end - text));
  return true;
}
