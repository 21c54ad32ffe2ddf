/* What stands after --set: "PATH=VALUE" changes that fact, or is refused with a message and changes
 * nothing. */
#include "dossier/subjects.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct {
  ts_units *units;
  ts_vocabulary *vocabulary;
} bench;

static const bench *bench_once(void) {
  static bench b; /* a fuzz target lives as long as its process */
  char why[200];
  if (b.units) return &b;
  b.units = ts_units_new(why, sizeof why);
  b.vocabulary = ts_vocabulary_new();
  return &b;
}

static const char production[] =
    "<dossier format=\"1\"><production title=\"T\" jurisdiction=\"gb-eng\" revision=\"1\" "
    "on=\"2027-03-01\" by=\"N\"/>"
    "<site id=\"s\" water-body=\"tank\"><water temperature=\"27..28 degC\"/></site>"
    "<person id=\"p\" role=\"performer\"/><day date=\"2027-03-09\" site=\"s\">"
    "<task id=\"t\" title=\"T\"><immersion person=\"p\" wears=\"none\" depth=\"3 m\" "
    "takes=\"4\"/></task></day></dossier>";

/* FNV-1a over everything that is known. */
static uint64_t state_of(const ts_dossier *dossier) {
  uint64_t h = 14695981039346656037u;
  for (uint32_t slot = 0; slot < ts_slot_count(dossier); slot++) {
    const ts_value *v = ts_slot_value(dossier, slot);
    uint64_t parts[4] = {0, 0, v->choices, v->certain};
    memcpy(parts, &v->range, sizeof v->range);
    for (size_t i = 0; i < 4; i++) h = (h ^ parts[i]) * 1099511628211u;
  }
  return h;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  const bench *b = bench_once();
  char text[600];
  if (size >= sizeof text || memchr(data, 0, size)) return 0;
  memcpy(text, data, size);
  text[size] = '\0';
  char *equals = strchr(text, '=');
  if (!equals) return 0;
  *equals = '\0';
  ts_diagnostics *problems = ts_diagnostics_new();
  ts_dossier *dossier = ts_dossier_read_text(production, strlen(production), "dossier.xml",
                                             b->vocabulary, b->units, problems);
  if (!dossier) abort();
  uint64_t before = state_of(dossier);
  bool good = ts_dossier_set(dossier, text, equals + 1, problems);
  if (good != (ts_count(problems, TS_ERROR) == 0)) abort();
  if (!good && state_of(dossier) != before) abort();
  ts_dossier_free(dossier);
  ts_diagnostics_free(problems);
  return 0;
}
