#include "assess/ceiling.h"
#include "base/text.h"
#include <string.h>

static const char ceiling_name[] = "ceiling", total_name[] = "total";

/* What follows in a name that begins so; NULL where it does not. */
static const char *after(const char *name, const char *begins) {
  size_t n = strlen(begins);
  return strncmp(name, begins, n) == 0 ? name + n : NULL;
}

const char *ts_after_ceiling(const ts_shown *value) { return after(value->name, ceiling_name); }

const ts_shown *ts_ceiling_total(const ts_outcome *outcome, size_t index, const char **more) {
  *more = ts_after_ceiling(&outcome->values[index]);
  for (size_t i = 0; *more != NULL && i < outcome->value_count; i++)
    if (ts_same(after(outcome->values[i].name, total_name), *more)) return &outcome->values[i];
  return NULL;
}
