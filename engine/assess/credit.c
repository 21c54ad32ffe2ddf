/* Credit: how far applied controls without a computed effect lower a score. */
#include "assess/merge.h"
#include "assess/scope.h"
#include "base/text.h"

/* What is left of each limit of the matrix while the controls of one outcome are gone through. */
typedef struct {
  const ts_matrix *matrix;
  int likelihood[TS_CREDITS_MAX], severity[TS_CREDITS_MAX];
} allowance;

static allowance allowance_new(const ts_matrix *matrix) {
  allowance left = {.matrix = matrix};
  for (size_t i = 0; i < matrix->credit_count; i++) {
    left.likelihood[i] = matrix->credits[i].likelihood;
    left.severity[i] = matrix->credits[i].severity;
  }
  return left;
}

static int least(int a, int b) { return a < b ? a : b; }
static int most(int a, int b) { return a > b ? a : b; }

/* What a control may take, which then is gone from every limit on its kind. */
static ts_steps take(allowance *left, const ts_control *control) {
  ts_steps steps = {most(control->lowers_likelihood, 0), most(control->lowers_severity, 0)};
  const ts_matrix *m = left->matrix;
  for (size_t i = 0; i < m->credit_count; i++) {
    if (!m->credits[i].kinds[control->kind]) continue;
    steps.likelihood = least(steps.likelihood, left->likelihood[i]);
    steps.severity = least(steps.severity, left->severity[i]);
  }
  for (size_t i = 0; i < m->credit_count; i++) {
    if (!m->credits[i].kinds[control->kind]) continue;
    left->likelihood[i] -= steps.likelihood;
    left->severity[i] -= steps.severity;
  }
  return steps;
}

static bool named_before(const ts_outcome *outcome, size_t control) {
  for (size_t i = 0; i < control; i++)
    if (ts_same(outcome->controls[i], outcome->controls[control])) return true;
  return false;
}

static ts_steps steps_of(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                         const ts_outcome *outcome, size_t index, allowance *left) {
  const char *id = outcome->controls[index];
  if (ts_applied_here(in->dossier, id, subject, view) == NULL || named_before(outcome, index))
    return (ts_steps){0, 0};
  const ts_control *control = ts_control_find(in->packs, id);
  if (control == NULL) return (ts_steps){0, 0};
  return take(left, control);
}

ts_steps ts_credit_of(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                      const ts_outcome *outcome, size_t control) {
  allowance left = allowance_new(in->matrix);
  ts_steps steps = {0, 0};
  for (size_t i = 0; i <= control; i++) steps = steps_of(in, subject, view, outcome, i, &left);
  return steps;
}

ts_score ts_credited(const ts_assess_inputs *in, ts_subject subject, ts_view view,
                     const ts_outcome *outcome) {
  allowance left = allowance_new(in->matrix);
  int likelihood = outcome->likelihood, severity = outcome->severity;
  for (size_t i = 0; i < outcome->control_count; i++) {
    ts_steps steps = steps_of(in, subject, view, outcome, i, &left);
    likelihood -= steps.likelihood;
    severity -= steps.severity;
  }
  return ts_matrix_score(in->matrix, most(likelihood, 1), most(severity, 1));
}
