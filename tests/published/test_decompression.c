/* Published figures: air tables and the tissue model. */
#include <math.h>

#include "figures.h"

#define USN7 "US Navy Diving Manual SS521-AG-PRO-010 Rev 7 (2016), "
#define T97 USN7 "Table 9-7"
#define T98 USN7 "Table 9-8"
#define T96 USN7 "Table 9-6"
#define T95 USN7 "Table 9-5"
#define ZHL "Buhlmann, Tauchmedizin (1983-1995), ZH-L16A"
#define BETWEEN "between rows the deeper"
enum { NONE, A, B, C, D, E, F, G, H, I, J, K, L, M, N, O, Z, PAST };

/* clang-format off */
static const figure figures[] = {
    {"NDL-75", "no_stop_limit", {20 FEET}, 24 HOURS, 0, "24 h stands for unlimited", T97},
    {"NDL-25", "no_stop_limit", {25 FEET}, 1102 MINUTES, 0, TABLE, T97},
    {"NDL-30", "no_stop_limit", {30 FEET}, 371 MINUTES, 0, TABLE, T97},
    {"NDL-35", "no_stop_limit", {35 FEET}, 232 MINUTES, 0, TABLE, T97},
    {"NDL-40", "no_stop_limit", {40 FEET}, 163 MINUTES, 0, TABLE, T97},
    {"NDL-45", "no_stop_limit", {45 FEET}, 125 MINUTES, 0, TABLE, T97},
    {"NDL-50", "no_stop_limit", {50 FEET}, 92 MINUTES, 0, TABLE, T97},
    {"NDL-55", "no_stop_limit", {55 FEET}, 74 MINUTES, 0, TABLE, T97},
    {"NDL-60", "no_stop_limit", {60 FEET}, 63 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {70 FEET}, 48 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {80 FEET}, 39 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {90 FEET}, 33 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {100 FEET}, 25 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {110 FEET}, 20 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {120 FEET}, 15 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {130 FEET}, 12 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {140 FEET}, 10 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {150 FEET}, 8 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {160 FEET}, 7 MINUTES, 0, TABLE, T97},
    {"NDL-70", "no_stop_limit", {190 FEET}, 5 MINUTES, 0, TABLE, T97},
    {"NDL-35", "no_stop_limit", {9.2}, 232 MINUTES, 0, BETWEEN, T97 ", 9.2 m = 30.2 ft"},
    {"NDL-25", "no_stop_limit", {6.1}, 1102 MINUTES, 0, BETWEEN, T97 ", 6.1 m = 20.01 ft"},
    {"NDL-10", "repetitive_group", {10 FEET, 57 MINUTES}, A, 0, TABLE, T97},
    {"NDL-10", "repetitive_group", {10 FEET, 20 HOURS}, F, 0, "highest reachable at 10 ft", T97},
    {"NDL-15", "repetitive_group", {15 FEET, 164 MINUTES}, F, 0, TABLE, T97},
    {"NDL-15", "repetitive_group", {15 FEET, 20 HOURS}, I, 0, "highest reachable at 15 ft", T97},
    {"NDL-20", "repetitive_group", {20 FEET, 61 MINUTES}, C, 0, TABLE, T97},
    {"NDL-20", "repetitive_group", {20 FEET, 20 HOURS}, L, 0, "highest reachable at 20 ft", T97},
    {"NDL-25", "repetitive_group", {25 FEET, 470 MINUTES}, O, 0, TABLE, T97},
    {"NDL-30", "repetitive_group", {30 FEET, 62 MINUTES}, E, 0, TABLE, T97},
    {"NDL-30", "repetitive_group", {30 FEET, 63 MINUTES}, F, 0, TABLE, T97},
    {"NDL-30", "repetitive_group", {30 FEET, 371 MINUTES}, Z, 0, TABLE, T97},
    {"NDL-30", "repetitive_group", {30 FEET, 372 MINUTES}, PAST, 0, "stops needed", T97},
    {"NDL-40", "repetitive_group", {40 FEET, 163 MINUTES}, O, 0, TABLE, T97},
    {"NDL-50", "repetitive_group", {50 FEET, 60 MINUTES}, I, 0, TABLE, T97},
    {"NDL-60", "repetitive_group", {60 FEET, 63 MINUTES}, K, 0, TABLE, T97},
    {"NDL-71", "repetitive_group", {70 FEET, 6 MINUTES}, A, 0, TABLE, T97},
    {"NDL-71", "repetitive_group", {70 FEET, 28 MINUTES}, F, 0, TABLE, T97},
    {"NDL-71", "repetitive_group", {70 FEET, 48 MINUTES}, K, 0, TABLE, T97},
    {"RNT-90", "repetitive_group", {60 FEET, 30 MINUTES}, F, 0, TABLE, T97 ", dive chain"},
    {"RNT-90", "surface_interval_group", {F, 120 MINUTES}, D, 0, TABLE, T98 ", dive chain"},
    {"RNT-90", "residual_nitrogen_time", {50 FEET, D}, 29 MINUTES, 0, TABLE, T98 ", dive chain"},
    {"RNT-90", "no_stop_remaining", {50 FEET, D}, 63 MINUTES, 0, TABLE, T98 ", dive chain"},
    {"RNT-91", "surface_interval_group", {D, 60 MINUTES}, C, 0, TABLE, T98 ", dive chain"},
    {"RNT-91", "residual_nitrogen_time", {40 FEET, C}, 29 MINUTES, 0, TABLE, T98 ", dive chain"},
    {"RNT-91", "surface_interval_group", {D, 324 MINUTES}, NONE, 0, TABLE, T98 ", dive chain"},
    {"RNT-91", "surface_interval_group", {D, 323 MINUTES}, A, 0, TABLE, T98 ", dive chain"},
    {"RNT-91", "surface_interval_group", {D, 9 MINUTES}, D, 0, "under 10 min no credit", T98},
    {"SIC-A", "surface_interval_group", {A, 140 MINUTES}, A, 0, TABLE, T98},
    {"SIC-A", "surface_interval_group", {A, 141 MINUTES}, NONE, 0, TABLE, T98},
    {"SIC-C", "surface_interval_group", {C, 56 MINUTES}, B, 0, TABLE, T98},
    {"SIC-G", "surface_interval_group", {G, 263 MINUTES}, C, 0, TABLE, T98},
    {"SIC-I", "surface_interval_group", {I, 369 MINUTES}, B, 0, TABLE, T98},
    {"SIC-L", "surface_interval_group", {L, 470 MINUTES}, D, 0, TABLE, T98},
    {"SIC-L", "surface_interval_group", {L, 742 MINUTES}, NONE, 0, TABLE, T98},
    {"SIC-M", "surface_interval_group", {M, 793 MINUTES}, A, 0, TABLE, T98},
    {"SIC-M", "surface_interval_group", {M, 794 MINUTES}, NONE, 0, TABLE, T98},
    {"SIC-M", "surface_interval_group", {N, 846 MINUTES}, NONE, 0, TABLE, T98},
    {"SIC-M", "surface_interval_group", {O, 899 MINUTES}, NONE, 0, TABLE, T98},
    {"SIC-M", "surface_interval_group", {Z, 950 MINUTES}, A, 0, TABLE, T98},
    {"SIC-M", "surface_interval_group", {Z, 951 MINUTES}, NONE, 0, TABLE, T98},
    {"RNT-10", "residual_nitrogen_time", {10 FEET, E}, 427 MINUTES, 0, TABLE, T98},
    {"RNT-10", "residual_nitrogen_time", {15 FEET, H}, 450 MINUTES, 0, TABLE, T98},
    {"RNT-20", "residual_nitrogen_time", {20 FEET, K}, 462 MINUTES, 0, TABLE, T98},
    {"RNT-25", "residual_nitrogen_time", {25 FEET, N}, 470 MINUTES, 0, TABLE, T98},
    {"RNT-25", "residual_nitrogen_time", {25 FEET, O}, 308 MINUTES, 0,
     "by the 30 ft row, as printed", T98},
    {"RNT-30", "residual_nitrogen_time", {30 FEET, Z}, 372 MINUTES, 0, TABLE, T98},
    {"RNT-45", "residual_nitrogen_time", {45 FEET, G}, 56 MINUTES, 0, TABLE, T98},
    {"RNT-60", "residual_nitrogen_time", {60 FEET, A}, 9 MINUTES, 0, TABLE, T98},
    {"ALT-01", "altitude_group", {1000 FEET}, A, 0, TABLE, T95},
    {"ALT-01", "altitude_group", {2000 FEET}, A, 0, TABLE, T95},
    {"ALT-01", "altitude_group", {3000 FEET}, B, 0, TABLE, T95},
    {"ALT-01", "altitude_group", {5000 FEET}, D, 0, TABLE, T95},
    {"ALT-01", "altitude_group", {8000 FEET}, G, 0, TABLE, T95},
    {"ALT-01", "altitude_group", {10000 FEET}, I, 0, TABLE, T95},
    {"ALT-02", "flying_interval", {C}, 0, 0, TABLE, T96},
    {"ALT-02", "flying_interval", {D}, 105 MINUTES, 0, TABLE, T96},
    {"ALT-02", "flying_interval", {E}, 279 MINUTES, 0, TABLE, T96},
    {"ALT-02", "flying_interval", {F}, 426 MINUTES, 0, TABLE, T96},
    {"ALT-02", "flying_interval", {I}, 764 MINUTES, 0, TABLE, T96},
    {"ALT-02", "flying_interval", {L}, 1010 MINUTES, 0, TABLE, T96},
    {"ALT-02", "flying_interval", {Z}, 1261 MINUTES, 0, TABLE, T96},
    {"ALT-02", "flying_interval", {PAST}, 48 HOURS, 0, TABLE, T96},
    {"ALT-02", "altitude_interval", {D, 8000 FEET}, 105 MINUTES, 0, TABLE, T96},
    {"ALT-02", "altitude_interval", {Z, 8000 FEET}, 1261 MINUTES, 0, TABLE, T96},
    {"ALT-03", "altitude_interval", {J, 2000 FEET}, 41 MINUTES, 0, TABLE, T96},
    {"ALT-03", "altitude_interval", {K, 2000 FEET}, 123 MINUTES, 0, TABLE, T96},
    {"ALT-03", "altitude_interval", {L, 2000 FEET}, 198 MINUTES, 0, TABLE, T96},
    {"ALT-03", "altitude_interval", {G, 5000 FEET}, 79 MINUTES, 0, TABLE, T96},
    {"ALT-03", "altitude_interval", {H, 5000 FEET}, 190 MINUTES, 0, TABLE, T96},
    {"ALT-03", "altitude_interval", {I, 4001 FEET}, 290 MINUTES, 0, BETWEEN, T96},
    {"ALT-04", "residual_nitrogen_time", {120 FEET, B}, 7 MINUTES, 0, TABLE, T98},
    {"NDL-77", "ascent_time", {30 FEET, 30 FEET / 60}, 60, 1e-9, EXACT, USN7 "Table 9-9"},
    {"NDL-77", "ascent_time", {35 FEET, 30 FEET / 60}, 70, 1e-9, EXACT, USN7 "Table 9-9"},
    {"NDL-77", "ascent_time", {40 FEET, 30 FEET / 60}, 80, 1e-9, EXACT, USN7 "Table 9-9"},
    {"GAS-08", "ascent_time", {190 FEET, 30 FEET / 60}, 380, 1e-9, EXACT,
     "US Navy Diving Manual Rev 4, p 8-3"},
    {"ZHL-18", "tolerated_nitrogen_pressure", {4 MINUTES, 1.01325 BAR_}, 3.2663 BAR_, 10, DIGIT,
     ZHL},
    {"ZHL-18", "tolerated_nitrogen_pressure", {5 MINUTES, 1.01325 BAR_}, 2.9861 BAR_, 10, DIGIT,
     ZHL},
    {"ZHL-18", "tolerated_nitrogen_pressure", {4 MINUTES, 1 BAR_}, 3.2401 BAR_, 10, DIGIT, ZHL},
    {"ZHL-18", "tolerated_nitrogen_pressure", {5 MINUTES, 1 BAR_}, 2.9624 BAR_, 10, DIGIT, ZHL},
    {"ZHL-17", "tolerated_nitrogen_pressure", {77 MINUTES, 1 BAR_}, (0.4701 + 1 / 0.8910) * 1e5, 20,
     ROUNDING, ZHL ", a + p / b from the printed a and b"},
    {"RNT-91", "no_stop_remaining", {40 FEET, C}, (163 - 29) MINUTES, 0, TABLE,
     T97 " less " T98 ", dive chain"},
    {"RNT-91", "no_stop_remaining", {40 FEET, Z}, 0, 0, "188 min of nitrogen, 163 allowed", T98},
    {"RNT-91", "no_stop_remaining", {40 FEET, PAST}, 0, 0, "past the table nothing is left", T98},
};
/* clang-format on */

/* ZH-L16C for nitrogen: half-time in minutes, a in bar, b; as printed. */
static const double zhl16c[16][3] = {
    {5, 1.1696, 0.5578},   {8, 1.0000, 0.6514},    {12.5, 0.8618, 0.7222}, {18.5, 0.7562, 0.7825},
    {27, 0.6200, 0.8126},  {38.3, 0.5043, 0.8434}, {54.3, 0.4410, 0.8693}, {77, 0.4000, 0.8910},
    {109, 0.3750, 0.9092}, {146, 0.3500, 0.9222},  {187, 0.3295, 0.9319},  {239, 0.3065, 0.9403},
    {305, 0.2835, 0.9477}, {390, 0.2610, 0.9544},  {498, 0.2480, 0.9602},  {635, 0.2327, 0.9653},
};

/* How far above what it tolerates (bar) the worst compartment stands after some minutes. */
static double excess_after(double minutes, double ambient, double surface, double nitrogen) {
  double worst = -INFINITY;
  for (int i = 0; i < 16; i++) {
    double start = 0.79 * (surface - 0.0627), end = nitrogen * (ambient - 0.0627);
    double tension = end + (start - end) * pow(2, -minutes / zhl16c[i][0]);
    worst = fmax(worst, tension - zhl16c[i][1] - surface / zhl16c[i][2]);
  }
  return worst;
}

/* At the limit the worst compartment stands exactly at what it tolerates, whichever it is. */
START_TEST(model_limit_is_where_a_compartment_is_full) {
  const ts_function *f = ts_function_find("no_stop_limit_model");
  for (double surface = 0.7; surface < 1.03; surface += 0.1)
    for (double depth = 0.5; depth < 5; depth += 0.01) {
      double minutes = f->point((double[]){(surface + depth) * 1e5, surface * 1e5, 0.79}) / 60;
      double excess = excess_after(minutes, surface + depth, surface, 0.79);
      if (minutes < 1440)
        ck_assert_double_eq_tol(excess, 0, 1e-9);
      else
        ck_assert_double_le(excess, 0.005); /* what a day leaves open */
    }
}
END_TEST

START_TEST(figure_holds) { check_figure(&figures[_i]); }
END_TEST

FIGURE_ROWS(decompression)

Suite *suite_decompression(void);

Suite *suite_decompression(void) {
  Suite *suite = suite_create("published decompression");
  TCase *rows = tcase_create("figures");
  tcase_add_loop_test(rows, figure_holds, 0, (int)(sizeof figures / sizeof *figures));
  tcase_add_test(rows, model_limit_is_where_a_compartment_is_full);
  suite_add_tcase(suite, rows);
  return suite;
}
