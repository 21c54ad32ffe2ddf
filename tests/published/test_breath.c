/* Published figures: what people need and how long a breath lasts. The breath-hold budget has no
 * published value of its own; what is checked is that it is on the cautious side of measurements.
 */
#include "figures.h"

#define USN36 "US Navy Diving Manual fig. 3-6 (from memory)"
#define PRACTICE "15 to 20 s of performance on one breath, trained adult at work; common practice"

/* clang-format off */
static const figure figures[] = {
    {"MET-04", "oxygen_uptake", {70, 1}, 0.25 L_PER_MIN, 0.025 L_PER_MIN, "10 %: people differ",
     USN36},
    {"MET-04", "oxygen_uptake", {70, 1.25}, 0.30 L_PER_MIN, 0.03 L_PER_MIN, "10 %: people differ",
     USN36 ", sitting, taken as a quarter above rest"},
    {"MET-002", "metabolic_power", {70, 1}, 81.4, 1, "1 W: the exponent 3/4 against proportional",
     "1 kcal an hour and kg, 1.163 W (from memory)"},
    {"MET-07", "carbon_dioxide_output", {70, 1}, 0.2178 L_PER_MIN, 0.0001 L_PER_MIN, DIGIT,
     "respiratory quotient 0.9 of 242.0 mL/min (from memory)"},
    {"CP-01", "breath_hold_limit", {70, 5, 0}, 17.5, 2.5, "the practice is a band", PRACTICE},
    {"CP-01", "breath_hold_limit", {60, 5, 0}, 17.5, 2.5, "the practice is a band", PRACTICE},
    {"MET-07", "carbon_dioxide_output", {70, 1.25}, 0.009 CFM, 0.0009 CFM, "10 %: people differ",
     "refuge-station report table, sitting"},
    {"BODY-004", "metabolic_power", {70, 1.25}, 58.15 * 1.8, 5, "5 %: people differ",
     "seated rest 58.15 W/m2 (from memory) of the ISO 8996 man of 1.8 m2"},
};
/* clang-format on */

/* Sadler et al. 2020: at 60 W, about one litre of oxygen a minute, 50 volunteers held 46 s on
 * average, 48 s at 40 W; some were hypoxic. The budget has to stay below the means. */
START_TEST(budget_is_below_what_was_held) {
  const ts_function *uptake = ts_function_find("oxygen_uptake");
  const ts_function *limit = ts_function_find("breath_hold_limit");
  for (double mass = 50; mass <= 90; mass += 10)
    for (double rate = 0.8; rate <= 1.2; rate += 0.1) {
      double effort = rate L_PER_MIN / uptake->point((double[]){mass, 1});
      ck_assert_double_lt(limit->point((double[]){mass, effort, 0}), 46);
    }
}
END_TEST

/* The two ways of asking agree: after the time to 40 mmHg, 40 mmHg are left. */
START_TEST(time_and_pressure_agree) {
  const ts_function *time = ts_function_find("breath_hold_to_oxygen");
  const ts_function *left = ts_function_find("alveolar_oxygen_after");
  for (double depth = 0; depth <= 12; depth += 3) {
    double seconds = time->point((double[]){38, 4, depth, 40 MMHG});
    double pressure = left->point((double[]){38, 4, depth, seconds});
    ck_assert_double_eq_tol(pressure, 40 MMHG, 1e-6);
  }
}
END_TEST

/* 10.33227 m of fresh water doubles the pressure (OpenStax: 1 atm), so the dry gas in the lungs
 * goes from 713 to 1473 mmHg, and the time with it. */
START_TEST(a_breath_taken_deeper_holds_more) {
  const ts_function *limit = ts_function_find("breath_hold_limit");
  double surface = limit->point((double[]){38, 4, 0});
  double deep = limit->point((double[]){38, 4, 10.33227});
  ck_assert_double_eq_tol(deep / surface, 1473.0 / 713.0, 1e-6);
}
END_TEST

START_TEST(figure_holds) { check_figure(&figures[_i]); }
END_TEST

FIGURE_ROWS(breath)

Suite *suite_breath(void);

Suite *suite_breath(void) {
  Suite *suite = suite_create("published breath");
  TCase *rows = tcase_create("figures");
  tcase_add_loop_test(rows, figure_holds, 0, (int)(sizeof figures / sizeof *figures));
  tcase_add_test(rows, budget_is_below_what_was_held);
  tcase_add_test(rows, time_and_pressure_agree);
  tcase_add_test(rows, a_breath_taken_deeper_holds_more);
  suite_add_tcase(suite, rows);
  return suite;
}
