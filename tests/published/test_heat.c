/* Published figures: WBGT and its limits, heat index, moist air, hot water on skin. */
#include <math.h>

#include "figures.h"

#define ISO "ISO 7243"
#define ISO89 "ISO 7243:1989, reference values, still air"
#define NIOSH "NIOSH 2016-106, section 8.1"
#define ROTHFUSZ "US National Weather Service, Rothfusz 1990"
#define PSYCHRO "ASHRAE Fundamentals, psychrometrics"
#define FELDMAN "Feldman et al., after Moritz and Henriques"
#define SCALDS "anti-scald trade table, second degree"
#define KURAZUMI "Kurazumi et al., J. Ergonomics 2014, 26 degC"
#define F_(t) (t) FAHRENHEIT_DEGREES

/* clang-format off */
static const figure figures[] = {
    {"HEAT-001", "wbgt_indoor", {DEGC(25), DEGC(30)}, DEGC(26.5), 0.001, EXACT, ISO},
    {"HEAT-003", "wbgt_indoor", {DEGC(17.3), DEGC(40)}, DEGC(24.1), 0.05, ROUNDING, ISO},
    {"HEAT-003", "wbgt_indoor", {DEGC(21.1), DEGC(55)}, DEGC(31.3), 0.05, ROUNDING, ISO},
    {"HEAT-003", "wbgt_indoor", {DEGC(16.7), DEGC(40)}, DEGC(23.7), 0.05, ROUNDING, ISO},
    {"ISO-7243", "wbgt_outdoor", {DEGC(25), DEGC(45), DEGC(32)}, DEGC(29.7), 0.001, EXACT,
     ISO " (from memory)"},
    {"HEAT-004", "wbgt_reference_acclimatised", {65}, DEGC(33), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {100}, DEGC(30), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {165}, DEGC(28), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {230}, DEGC(25), 0, TABLE, ISO89},
    {"HEAT-004", "wbgt_reference_acclimatised", {261}, DEGC(23), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {65}, DEGC(32), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {130}, DEGC(29), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {131}, DEGC(26), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {230}, DEGC(22), 0, TABLE, ISO89},
    {"HEAT-005", "wbgt_reference_unacclimatised", {300}, DEGC(18), 0, TABLE, ISO89},
    {"HEAT-006", "wbgt_limit_acclimatised", {117}, DEGC(32.92), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {180}, DEGC(30.76), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {300}, DEGC(28.21), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {415}, DEGC(26.59), 0.01, DIGIT, NIOSH},
    {"HEAT-006", "wbgt_limit_acclimatised", {520}, DEGC(25.47), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {117}, DEGC(30.74), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {180}, DEGC(28.10), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {300}, DEGC(24.97), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {415}, DEGC(22.99), 0.01, DIGIT, NIOSH},
    {"HEAT-007", "wbgt_limit_unacclimatised", {520}, DEGC(21.60), 0.01, DIGIT, NIOSH},
    {"HI-002", "heat_index", {DEGF(80), 0.75}, DEGF(83.58), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(95), 0.60}, DEGF(113.09), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(96), 0.50}, DEGF(107.64), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(100), 0.40}, DEGF(109.26), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(100), 0.55}, DEGF(123.64), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-002", "heat_index", {DEGF(110), 0.40}, DEGF(135.66), F_(0.01), DIGIT, ROTHFUSZ},
    {"HI-003", "heat_index", {DEGF(82), 0.95}, DEGF(93.97), F_(0.01), DIGIT, ROTHFUSZ ", damp air"},
    {"HI-003", "heat_index", {DEGF(86), 0.90}, DEGF(105.39), F_(0.01), DIGIT,
     ROTHFUSZ ", damp air"},
    {"HI-004", "heat_index", {DEGF(100), 0.10}, DEGF(94.12), F_(0.01), DIGIT, ROTHFUSZ ", dry air"},
    {"PROP-021", "wet_bulb", {DEGC(30), 0.60, 101325}, DEGC(23.81), 0.02, ROUNDING, PSYCHRO},
    {"PROP-021", "wet_bulb", {DEGC(20), 0.50, 101325}, DEGC(13.78), 0.02, ROUNDING, PSYCHRO},
    {"PROP-021", "dew_point", {DEGC(30), 0.60}, DEGC(21.39), 0.02, ROUNDING, PSYCHRO},
    {"INS-006", "convection_in_air", {0.25}, 4.02, 0.01, DIGIT, KURAZUMI},
    {"INS-006", "convection_in_air", {0.50}, 5.80, 0.01, DIGIT, KURAZUMI},
    {"INS-006", "convection_in_air", {0.73}, 7.74, 0.01, DIGIT, KURAZUMI},
    {"INS-W", "convection_in_wind", {1}, 8.3, 1e-9, EXACT, "Mitchell 1974 (from memory)"},
    {"INS-W", "convection_in_wind", {0.1}, 3.1, 1e-9, EXACT,
     "least value, still air (from memory)"},
    {"INS-007", "evaporative_heat_loss", {DEGC(33), DEGC(20), 0.50, 5.8}, 370, 2,
     "0.5 %: vapour pressures of another source",
     "ASHRAE Fundamentals, Lewis relation (from memory)"},
    {"SCALD-004", "scald_time", {DEGC(45)}, 3241, 65, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(50)}, 172, 3.5, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(52)}, 75, 1.5, "2 %: the coefficients are rounded", FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(55)}, 25.0, 0.5, "2 %: the coefficients are rounded",
     FELDMAN},
    {"SCALD-004", "scald_time", {DEGC(60)}, 7.77, 0.16, "2 %: the coefficients are rounded",
     FELDMAN},
    /* Where the fit jumps up, at 51.3 and 58.3 degC, what stood before is kept. */
    {"SCALD-004", "scald_time", {DEGC(51.4)}, 94.23, 0.01, DIGIT,
     FELDMAN ", the piece below 51.3 degC"},
    {"SCALD-004", "scald_time", {DEGC(58.4)}, 8.74, 0.01, DIGIT,
     FELDMAN ", the piece below 58.3 degC"},
    {"SCALD-002", "scald_time_table", {DEGC(45)}, 2 HOURS, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(47)}, 20 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(48)}, 15 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(49)}, 8 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(51)}, 2 MINUTES, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(55)}, 17, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(60)}, 3, 0, TABLE, SCALDS},
    {"SCALD-002", "scald_time_table", {DEGC(53)}, 17, 0, "between rows the hotter", SCALDS},
    {"ISO-7243", "wbgt_outdoor", {DEGC(25), DEGC(32), DEGC(20)}, DEGC(25.9), 0.001, EXACT,
     "worked example of an open thermal-comfort library (from memory)"},
    {"PROP-018", "dew_point", {DEGC(20), 1228.2 / 2339.3}, DEGC(10), 0.01, ROUNDING,
     "IAPWS-95: 1228.2 Pa saturates at 10 degC, 2339.3 Pa at 20 degC"},
    {"PROP-018", "dew_point", {DEGC(28), 872.6 / 3783.1}, DEGC(5), 0.01, ROUNDING,
     "IAPWS-95: 872.6 Pa saturates at 5 degC, 3783.1 Pa at 28 degC"},
    {"PROP-018", "evaporative_heat_loss", {DEGC(35), DEGC(25), 0.50, 4},
     16.5 * 4 * (5.6290 - 0.5 * 3.1699), 0.3, "0.1 %: vapour pressures of another source",
     "Lewis relation (from memory) with the vapour pressures of IAPWS-95"},
};
/* clang-format on */

/* The heat index has seams at 80, 87, 95 and 112 degF and at 13 and 85 %: its range is tried
 * there, in small boxes against points inside them. */
START_TEST(range_holds_at_the_seams) {
  static const double warm[] = {80, 81, 87, 95, 112}, damp[] = {0, 13, 40, 85, 100};
  const ts_function *f = ts_function_find("heat_index");
  for (int i = 0; i < 5; i++)
    for (int j = 0; j < 5; j++)
      for (double half = 0.02; half < 4; half *= 1.7) {
        double r = fmin(fmax(damp[j] / 100, half / 100), 1 - half / 100);
        ts_range box[] = {{DEGF(warm[i] - half), DEGF(warm[i] + half)},
                          {r - half / 100, r + half / 100}};
        bool open = true;
        ts_range all = ts_function_apply(f, box, &open);
        ck_assert(!open);
        for (int k = 0; k <= 1600; k++) {
          double x[] = {box[0].lo + (box[0].hi - box[0].lo) * (k % 41) / 40,
                        box[1].lo + (box[1].hi - box[1].lo) * (k / 41) / 40};
          double y = f->point(x);
          ck_assert_msg(y >= all.lo && y <= all.hi, "%g K, %g: %g outside %g..%g", x[0], x[1], y,
                        all.lo, all.hi);
        }
      }
}
END_TEST

START_TEST(figure_holds) { check_figure(&figures[_i]); }
END_TEST

FIGURE_ROWS(heat)

Suite *suite_heat(void);

Suite *suite_heat(void) {
  Suite *suite = suite_create("published heat");
  TCase *rows = tcase_create("figures");
  tcase_add_loop_test(rows, figure_holds, 0, (int)(sizeof figures / sizeof *figures));
  tcase_add_test(rows, range_holds_at_the_seams);
  suite_add_tcase(suite, rows);
  return suite;
}
