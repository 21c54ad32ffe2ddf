/* Results worked out a second time, another way: by small steps, by a series, by counting moles.
 * Nothing here has a published value; the laws behind it have. */
#include <math.h>

#include "figures.h"

#define GRAVITY 9.80665
#define GAS_CONSTANT 8.314462618 /* J/(mol K), CODATA 2018 */
#define PI 3.14159265358979323846

static double value(const char *name, const double *x) {
  const ts_function *f = ts_function_find(name);
  ck_assert_msg(f != NULL, "no %s", name);
  ts_range ranges[TS_ARGUMENTS_MAX];
  for (int i = 0; i < f->count; i++) ranges[i] = (ts_range){x[i], x[i]};
  bool open = true;
  ts_range got = ts_function_apply(f, ranges, &open);
  ck_assert_msg(!open, "%s is open", name);
  return (got.lo + got.hi) / 2;
}

static void assert_close(const char *name, double got, double expected, double relative) {
  ck_assert_msg(fabs(got - expected) <= relative * fabs(expected),
                "%s gives %.10g, worked out %.10g", name, got, expected);
}

/* ---- a held breath, in moles --------------------------------------------------------- */

/* Lungs of 80 mL/kg at 37 degC and the pressure of the breath hold p V / R T moles beside their
 * vapour, 15.5 % of it oxygen; the body takes a litre at 0 degC and 1 atm as p / R 273.15. */
static double oxygen_left(double mass, double effort, double depth, double seconds) {
  double dry = 101325 + 1000 * GRAVITY * depth - 47 MMHG;
  double gas = dry * 80e-6 * mass / (GAS_CONSTANT * 310.15);
  double per_litre = 101325 * 1e-3 / (GAS_CONSTANT * 273.15);
  double taken = effort * 0.010 * sqrt(mass * sqrt(mass)) / 60 * per_litre * seconds;
  return fmax(0, 0.155 * gas - taken) / gas * (101325 - 47 MMHG);
}

START_TEST(lungs_counted_in_moles) {
  for (double mass = 15; mass < 120; mass += 15)
    for (double effort = 1; effort < 9; effort += 2)
      for (double depth = 0; depth <= 12; depth += 4) {
        double left = oxygen_left(mass, effort, depth, 12);
        assert_close("alveolar_oxygen_after",
                     value("alveolar_oxygen_after", (double[]){mass, effort, depth, 12}), left,
                     1e-9);
        assert_close("breath_hold_to_oxygen",
                     value("breath_hold_to_oxygen", (double[]){mass, effort, depth, left}), 12,
                     1e-9);
      }
}
END_TEST

/* ---- a room in small steps -------------------------------------------------------------- */

/* Share of a gas after `time`: supply brings `in` of it, people add `made` (or take, below 0).
 * Heun's rule. */
static double room(double volume, double flow, double in, double made, double start, double time) {
  enum { STEPS = 20000 };
  double share = start, dt = time / STEPS;
  for (int i = 0; i < STEPS; i++) {
    double slope = (flow * (in - share) + made) / volume;
    double guess = share + dt * slope;
    share += dt / 2 * (slope + (flow * (in - guess) + made) / volume);
  }
  return share;
}

static const struct {
  double volume, people, each, flow;
} rooms[] = {
    {6, 2, 0.3 L_PER_MIN, 113.3 L_PER_MIN},
    {1, 1, 0.51 L_PER_MIN, 30 L_PER_MIN},
    {30, 5, 0.35 L_PER_MIN, 400 L_PER_MIN},
};

START_TEST(a_room_in_small_steps) {
  double volume = rooms[_i].volume, people = rooms[_i].people, each = rooms[_i].each;
  double flow = rooms[_i].flow, made = people * each, air = 0.0004, oxygen = 0.2095;
  for (double time = 600; time <= 7200; time *= 2) {
    double after =
        value("carbon_dioxide_after", (double[]){volume, people, each, flow, air, time, 0.001});
    assert_close("carbon_dioxide_after", after, room(volume, flow, air, made, 0.001, time), 1e-6);
    double left = value("oxygen_after", (double[]){volume, people, each, time, oxygen});
    double expected = room(volume, 0, 0, -made, oxygen, time);
    assert_close("oxygen_after", left, expected, 1e-9);
    assert_close("time_to_oxygen",
                 value("time_to_oxygen", (double[]){volume, people, each, oxygen, expected}), time,
                 1e-6);
    double full = room(volume, 0, 0, made, air, time);
    assert_close("time_to_carbon_dioxide",
                 value("time_to_carbon_dioxide", (double[]){volume, people, each, air, full}), time,
                 1e-6);
  }
  double settled = 40 * volume / flow; /* e^-40 from the end */
  double steady = room(volume, flow, air, made, 0.02, settled);
  assert_close("carbon_dioxide_steady",
               value("carbon_dioxide_steady", (double[]){people, each, flow, air}), steady, 1e-6);
  assert_close("ventilation_for_carbon_dioxide",
               value("ventilation_for_carbon_dioxide", (double[]){people, each, air, steady}), flow,
               1e-5);
  assert_close("oxygen_steady", value("oxygen_steady", (double[]){people, each, flow, oxygen}),
               room(volume, flow, oxygen, -made, 0.15, settled), 1e-6);
}
END_TEST

/* ---- slowed by water, in small steps ------------------------------------------------------- */

/* Depth at which a body of neutral weight is down to `end` from the speed of a fall. */
static double plunged(double height, double mass, double drag_area, double end, double density) {
  double v = 0, depth = 0, dt = 1e-4, fallen = 0;
  while (fallen < height) { /* the fall, then what it overshot taken off */
    fallen += (v + GRAVITY * dt / 2) * dt;
    v += GRAVITY * dt;
  }
  v = sqrt(v * v - 2 * GRAVITY * (fallen - height));
  double k = density * drag_area / (2 * mass);
  while (v > end) {
    double middle = v - k * v * v * dt / 2;
    depth += middle * dt;
    v -= k * middle * middle * dt;
  }
  return depth;
}

START_TEST(a_plunge_in_small_steps) {
  static const double cases[][5] = {
      {5, 70, 0.06, 0.5, 1000}, {1, 38, 0.10, 0.3, 1025}, {10, 90, 0.25, 1, 1000}};
  for (int i = 0; i < 3; i++) {
    const double *x = cases[i];
    assert_close("plunge_depth", value("plunge_depth", x), plunged(x[0], x[1], x[2], x[3], x[4]),
                 1e-3);
  }
  /* A fall that ends slower than `end`; but for a rounding of nothing. */
  ck_assert_double_le(value("plunge_depth", (double[]){0.01, 70, 0.06, 0.5, 1000}), 1e-300);
}
END_TEST

/* ---- plates by a series ---------------------------------------------------------------- */

/* Navier's double series for a square plate whose edges are free to turn: deflection and bending
 * moment in the middle, as shares of q a^4 / D and q a^2. */
static void navier(double poisson, double *deflection, double *moment) {
  *deflection = *moment = 0;
  for (int m = 1; m < 400; m += 2)
    for (int n = 1; n < 400; n += 2) {
      double sign = (m + n) / 2 % 2 == 1 ? 1 : -1, s = (double)m * m + (double)n * n;
      double w = sign * 16 / (pow(PI, 6) * m * n * s * s);
      *deflection += w;
      *moment += PI * PI * w * (m * m + poisson * n * n);
    }
}

START_TEST(a_square_window_by_a_series) {
  double deflection, moment;
  navier(0.3, &deflection, &moment);
  double side = 0.8, t = 0.030, q = 25e3, e = 3e9;
  double stiffness = e * t * t * t / (12 * (1 - 0.09));
  assert_close("plate_deflection_square",
               value("plate_deflection_square", (double[]){side, t, q, e}),
               deflection * q * pow(side, 4) / stiffness, 2e-3); /* 0.0444 has three digits */
  assert_close("plate_stress_square", value("plate_stress_square", (double[]){side, t, q}),
               6 * moment * q * side * side / (t * t), 1e-3); /* 0.2874 rounds 0.28732 */
}
END_TEST

/* ---- water on walls, and cold fingers, in small steps ---------------------------------- */

/* Thrust and its moment about the surface on a strip from `top` to `bottom`. */
static void press(double width, double top, double bottom, double *thrust, double *moment) {
  enum { STRIPS = 10000 };
  double dz = (bottom - top) / STRIPS;
  *thrust = *moment = 0;
  for (int i = 0; i < STRIPS; i++) {
    double z = top + (i + 0.5) * dz, force = 1000 * GRAVITY * z * width * dz;
    *thrust += force;
    *moment += force * z;
  }
}

START_TEST(water_on_walls_in_strips) {
  double thrust, moment;
  press(4, 0, 3, &thrust, &moment);
  assert_close("wall_thrust", value("wall_thrust", (double[]){4, 3, 1000}), thrust, 1e-7);
  assert_close("wall_moment", value("wall_moment", (double[]){4, 3, 1000}), 3 * thrust - moment,
               1e-7);
  press(1.5, 1, 2.2, &thrust, &moment);
  assert_close("window_thrust", value("window_thrust", (double[]){1.5, 1.2, 1.6, 1000}), thrust,
               1e-7);
  assert_close("window_pressure_centre", value("window_pressure_centre", (double[]){1.2, 1.6}),
               moment / thrust, 1e-7);
}
END_TEST

/* Skin at 33 degC goes after the water with 6.5 min; at 15 degC the fingers stop. */
START_TEST(fingers_cool_in_small_steps) {
  for (double water = -1; water < 14; water += 3) {
    double skin = 33, minutes = 0, dt = 1e-4;
    while (skin > 15) {
      double middle = skin - (skin - water) / 6.5 * dt / 2;
      skin -= (middle - water) / 6.5 * dt;
      minutes += dt;
    }
    assert_close("hand_function_time", value("hand_function_time", (double[]){DEGC(water)}),
                 minutes * 60, 1e-4);
  }
}
END_TEST

/* ---- gas let out of a cylinder, slice by slice ----------------------------------------- */

/* Work of p dV at one temperature, from the cylinder's volume until the pressure is `end`. */
static double work_of_expansion(double volume, double pressure, double end) {
  enum { SLICES = 100000 };
  double held = volume * pressure, work = 0, step = (pressure / end - 1) * volume / SLICES;
  for (int i = 0; i < SLICES; i++) work += held / (volume + (i + 0.5) * step) * step;
  return work;
}

START_TEST(a_cylinder_let_out_in_slices) {
  static const double cases[][3] = {{12e-3, 232e5, 101325}, {3e-3, 50e5, 80e3}, {0.1, 2e5, 101325}};
  for (int i = 0; i < 3; i++)
    assert_close("cylinder_energy", value("cylinder_energy", cases[i]),
                 work_of_expansion(cases[i][0], cases[i][1], cases[i][2]), 1e-6);
}
END_TEST

Suite *suite_derived(void);

Suite *suite_derived(void) {
  Suite *suite = suite_create("published derived");
  TCase *all = tcase_create("another way");
  tcase_add_test(all, lungs_counted_in_moles);
  tcase_add_loop_test(all, a_room_in_small_steps, 0, (int)(sizeof rooms / sizeof *rooms));
  tcase_add_test(all, a_plunge_in_small_steps);
  tcase_add_test(all, a_square_window_by_a_series);
  tcase_add_test(all, water_on_walls_in_strips);
  tcase_add_test(all, fingers_cool_in_small_steps);
  tcase_add_test(all, a_cylinder_let_out_in_slices);
  suite_add_tcase(suite, all);
  return suite;
}
