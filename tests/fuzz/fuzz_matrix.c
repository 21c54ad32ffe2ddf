/* A matrix from a stranger: read, and then every pair has a band and a rank; or refused with a
 * message. */
#include "base/file.h"
#include "tankside/assess.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The file the matrix is read from; a fuzz target lives as long as its process. */
static const char *file(void) {
  static char path[96];
  char folder[64];
  if (path[0]) return path;
  snprintf(folder, sizeof folder, "/dev/shm/tankside-fuzz-XXXXXX");
  if (!mkdtemp(folder)) abort();
  snprintf(path, sizeof path, "%s/matrix.xml", folder);
  return path;
}

static void every_pair_is_there(const ts_matrix *matrix) {
  if (!ts_matrix_id(matrix)) abort();
  for (int likelihood = 1; likelihood <= 5; likelihood++)
    for (int severity = 1; severity <= 5; severity++)
      if (!ts_matrix_band(matrix, likelihood, severity) ||
          ts_matrix_rank(matrix, likelihood, severity) < 0)
        abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  ts_diagnostics *problems = ts_diagnostics_new();
  if (ts_file_write(file(), (const char *)data, size, problems)) {
    ts_matrix *matrix = ts_matrix_read(file(), problems);
    if ((matrix != NULL) != (ts_count(problems, TS_ERROR) == 0)) abort();
    if (matrix) every_pair_is_there(matrix);
    ts_matrix_free(matrix);
  }
  ts_diagnostics_free(problems);
  return 0;
}
