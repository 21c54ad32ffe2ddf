/* An assessment from a stranger, taken into a book: read or refused with a message, and what was
 * read can be printed. */
#include "bench.h"
#include "tankside/review.h"

/* As one thing or another, by its size, and mostly not at all: reading is what matters. */
static void print_book(ts_book *book, size_t size, ts_diagnostics *problems) {
  static const char *const forms[] = {"html", "csv", "text", "text", "xml"};
  size_t length;
  char *out = NULL;
  if (!ts_book_close(book, problems)) abort();
  if (size % 16 >= sizeof forms / sizeof *forms) return;
  if (!ts_book_render(book, forms[size % 16], &out, &length, problems)) abort();
  free(out);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  static ts_units *units;
  char why[200];
  if (!units) units = ts_units_new(why, sizeof why);
  ts_diagnostics *problems = ts_diagnostics_new();
  ts_book *book = ts_book_new(units, "2027-10-08", NULL, problems);
  if (!book) abort();
  bool good = ts_book_add(book, bench_file("assessment.xml", data, size), 1 << 20, problems);
  bench_judge(good, problems);
  print_book(book, size, problems);
  ts_book_free(book);
  ts_diagnostics_free(problems);
  return 0;
}
