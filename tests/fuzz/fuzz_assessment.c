/* An assessment from a stranger: printed, compared with itself, asked for signatures and for one
 * finding. Nothing of that crashes, hangs or fails without a message, and nothing differs from
 * itself. */
#include "tankside/document.h"
#include "tankside/sign.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void need_message(bool good, const ts_diagnostics *problems) {
  if (!good && ts_count(problems, TS_ERROR) == 0) abort();
}

/* FNV-1a: which paper is printed is as good as by chance, and the same for the same bytes. */
static uint64_t chance(const char *text, size_t size) {
  uint64_t h = 14695981039346656037u;
  for (size_t i = 0; i < size; i++) h = (h ^ (uint8_t)text[i]) * 1099511628211u;
  return h ^ h >> 32;
}

/* For one input in three: setting a paper takes ten times as long as all else. */
static void print_sheet(const char *text, size_t size, ts_diagnostics *problems) {
  size_t count = 0, length;
  while (ts_sheet_names()[count]) count++;
  size_t draw = chance(text, size) % (3 * count);
  if (draw >= count) return;
  const char *sheet = ts_sheet_names()[draw];
  const char *task = ts_sheet_find(sheet)->per_task ? "t" : NULL;
  char *html = NULL;
  need_message(ts_sheet_render(text, size, sheet, task, NULL, &html, &length, problems), problems);
  free(html);
}

static void compare_with_itself(const char *text, size_t size, ts_diagnostics *problems) {
  const char *bytes[2] = {text, text}, *names[2] = {"old", "new"};
  size_t lengths[2] = {size, size}, length, count = 0;
  char *xml = NULL;
  need_message(ts_compare(bytes, lengths, names, &xml, &length, problems), problems);
  free(xml);
  if (ts_assessment_differences(text, size, text, size, "itself", 5, &count, problems) && count)
    abort();
}

static void no_signature(void *context, const ts_signature *one) { (void)context, (void)one; }

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  char *text = malloc(size + 1), *finding = NULL;
  ts_diagnostics *problems = ts_diagnostics_new();
  if (!text) abort();
  memcpy(text, data, size);
  text[size] = '\0';
  print_sheet(text, size, problems);
  compare_with_itself(text, size, problems);
  if (size % 4 == 0) need_message(ts_finding_text(text, size, "F1", &finding, problems), problems);
  free(finding);
  ts_signatures("assessment", text, size, "assessment", NULL, "2027-03-01", no_signature, NULL,
                problems);
  if (ts_unsigned_length(text, size) > size) abort();
  ts_diagnostics_free(problems);
  free(text);
  return 0;
}
