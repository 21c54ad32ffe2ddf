/* Density and pressure of water against the GSW toolbox (TEOS-10), where a Python with
 * the module gsw is installed; without it nothing is compared. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures.h"

enum { TEMPERATURES = 10, SALINITIES = 9, DEPTHS = 8, STATES = 15 };
enum { ASKED = TEMPERATURES * SALINITIES + DEPTHS + STATES * DEPTHS };
static const double depths[DEPTHS] = {1, 2, 4, 6, 10, 20, 30, 60};

/* 0, 5, ... 45 degC by 0, 5, ... 40 of salinity. Then the depths at 45 N, in the toolbox's
 * standard ocean. Then the same depths in water of 0, 10, ... 40 degC and 0, 20, 40 of salinity
 * all the way down: the toolbox's density at depth, summed up in slices of 10 cm at standard
 * gravity. At the surface practical salinity 35 is 35.165 g/kg and in-situ and conservative
 * temperature differ, so the script converts as the toolbox does. */
static const char script[] = "-c \"import gsw\n"
                             "def water(s, t):\n"
                             "  sa = s * 35.16504 / 35\n"
                             "  return sa, gsw.CT_from_t(sa, t, 0)\n"
                             "for t in range(0, 46, 5):\n"
                             "  for s in range(0, 41, 5):\n"
                             "    print(float(gsw.rho(*water(s, t), 0)))\n"
                             "depths = (1, 2, 4, 6, 10, 20, 30, 60)\n"
                             "for z in depths: print(float(gsw.p_from_z(-z, 45)) * 1e4)\n"
                             "for t in range(0, 41, 10):\n"
                             "  for s in range(0, 41, 20):\n"
                             "    w, p = water(s, t), 0\n"
                             "    for i in range(1, 601):\n"
                             "      p += float(gsw.rho(*w, (p + 490) / 1e4)) * 9.80665 * 0.1\n"
                             "      if i / 10 in depths: print(p)\" 2>&-";

static const char *const interpreters[] = {"python3", "/usr/bin/python3"};

/* Fills `values` from the first interpreter that has the module; false where none has. */
static bool ask_toolbox(double *values, int count) {
  for (size_t i = 0; i < sizeof interpreters / sizeof *interpreters; i++) {
    char command[2000], line[100];
    snprintf(command, sizeof command, "%s %s", interpreters[i], script);
    FILE *answer = popen(command, "r");
    if (answer == NULL) continue;
    int got = 0;
    while (got < count && fgets(line, sizeof line, answer) != NULL)
      if (ts_number_read(line, &values[got]) != NULL) got++;
    if (pclose(answer) == 0 && got == count) return true;
  }
  return false;
}

static double result(const char *name, const double *x, int count) {
  ts_range ranges[TS_ARGUMENTS_MAX];
  for (int i = 0; i < count; i++) ranges[i] = (ts_range){x[i], x[i]};
  bool open = true;
  ts_range got = ts_function_apply(ts_function_find(name), ranges, &open);
  ck_assert(!open);
  return (got.lo + got.hi) / 2;
}

static double density(double celsius, double salinity) {
  return result("water_density", (double[]){DEGC(celsius), salinity / 1000}, 2);
}

/* EOS-80 and TEOS-10 differ by under 0.02 kg/m3 at the surface to 40 degC, the end of their
 * data. Returns where the answers go on. */
static const double *compare_densities(const double *value) {
  for (int t = 0; t < TEMPERATURES; t++)
    for (int s = 0; s < SALINITIES; s++)
      ck_assert_double_eq_tol(density(5.0 * t, 5.0 * s), *value++, 5 * t > 40 ? 0.04 : 0.02);
  return value;
}

/* The toolbox takes sea water at 0 degC and gravity at 45 N: 0.02 % from standard. */
static const double *compare_standard_ocean(const double *value) {
  for (int i = 0; i < DEPTHS; i++) {
    double x[] = {depths[i], 1028.107};
    ck_assert_double_eq_tol(result("hydrostatic_pressure", x, 2) / *value++, 1, 3e-4);
  }
  return value;
}

/* Our density is that of the surface: water of 60 m is 0.014 % denser on the way down, cold and
 * fresh 0.016 %; the two equations differ by another 0.002 %. */
static void compare_pressures(const double *value) {
  for (int t = 0; t <= 40; t += 10)
    for (int s = 0; s <= 40; s += 20)
      for (int i = 0; i < DEPTHS; i++) {
        double rho = density(t, s), pressure = *value++, near = 2e-5 + 2.7e-6 * depths[i];
        double water = result("hydrostatic_pressure", (double[]){depths[i], rho}, 2);
        double all = result("ambient_pressure", (double[]){depths[i], 101325, rho}, 3);
        double back = result("depth_of_pressure", (double[]){101325 + pressure, 101325, rho}, 3);
        ck_assert_double_eq_tol(water / pressure, 1, near);
        ck_assert_double_eq_tol(all / (101325 + pressure), 1, near);
        ck_assert_double_eq_tol(back / depths[i], 1, near);
      }
}

START_TEST(agrees_with_the_toolbox) {
  double values[ASKED];
  if (!ask_toolbox(values, ASKED)) return;
  compare_pressures(compare_standard_ocean(compare_densities(values)));
}
END_TEST

Suite *suite_seawater(void);

Suite *suite_seawater(void) {
  Suite *suite = suite_create("published seawater");
  TCase *toolbox = tcase_create("toolbox");
  tcase_set_timeout(toolbox, 60);
  tcase_add_test(toolbox, agrees_with_the_toolbox);
  suite_add_tcase(suite, toolbox);
  return suite;
}
