/* A matrix from a stranger: read, and then every pair has a band and a rank; or refused with a
 * message. */
#include "bench.h"
#include "tankside/assess.h"

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
  ts_matrix *matrix = ts_matrix_read(bench_file("matrix.xml", data, size), problems);
  bench_judge(matrix != NULL, problems);
  if (matrix) every_pair_is_there(matrix);
  ts_matrix_free(matrix);
  ts_diagnostics_free(problems);
  return 0;
}
