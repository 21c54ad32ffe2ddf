/* Every cell of the air tables, copied as printed and compared one by one: US Navy Diving
 * Manual SS521-AG-PRO-010 Rev 7 (1 December 2016), Tables 9-7, 9-8, 9-6 and 9-5. What was not read
 * there is copied from another transcription than the one in shared/tables, in that one's order, so
 * that a slip of either would show. A cell is exact, so there is no tolerance; each end of a time
 * is tried on both sides. test_air_tissue.c works the cells out. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figures.h"

enum { NONE, Z = 16, PAST, DAY = 1440 };
#define COUNT(rows) (int)(sizeof rows / sizeof *rows)
static const char letters[] = "-ABCDEFGHIJKLMNOZ";

static int group_of(char letter) { return (int)(strchr(letters, letter) - letters); }

/* What a function gives for up to two settled arguments; no end may be widened. */
static double cell(const char *name, double a, double b) {
  ts_range x[] = {{a, a}, {b, b}};
  bool open = true;
  ts_range got = ts_function_apply(ts_function_find(name), x, &open);
  ck_assert_msg(!open && got.lo == got.hi, "%s at %g, %g", name, a, b);
  return got.lo;
}

static void assert_cell(const char *name, double a, double b, double expected) {
  double got = cell(name, a, b);
  ck_assert_msg(got == expected, "%s(%g, %g) is %g, printed %g", name, a, b, got, expected);
}

/* One "A57" of a row of cells: returns what follows it, or NULL at the end. */
static const char *next_cell(const char *from, int *group, int *minutes) {
  while (*from == ' ') from++;
  if (*from == '\0') return NULL;
  *group = group_of(*from);
  char *end;
  *minutes = (int)strtol(from + 1, &end, 10);
  return end;
}

/* ---- Table 9-7: no-stop limits, and the last minute of each group ---------------- */

static const struct {
  int feet, minutes;
} limits[] = {
    {10, DAY}, {15, DAY}, {20, DAY}, {25, 1102}, {30, 371}, {35, 232}, {40, 163}, {45, 125},
    {50, 92},  {55, 74},  {60, 63},  {70, 48},   {80, 39},  {90, 33},  {100, 25}, {110, 20},
    {120, 15}, {130, 12}, {140, 10}, {150, 8},   {160, 7},  {170, 6},  {180, 6},  {190, 5},
};

static int limit_at(int feet) {
  int i = 0;
  while (limits[i].feet != feet) i++;
  return limits[i].minutes;
}

START_TEST(no_stop_limits) {
  int feet = limits[_i].feet, above = _i == 0 ? 0 : limits[_i - 1].feet;
  double expected = limits[_i].minutes MINUTES;
  assert_cell("no_stop_limit", feet FEET, 0, expected);
  assert_cell("no_stop_limit", (above + 0.01) FEET, 0, expected); /* between rows the deeper */
  if (_i == COUNT(limits) - 1) assert_cell("no_stop_limit", (feet + 0.01) FEET, 0, 0);
}
END_TEST

static const struct {
  int feet;
  const char *cells;
} groups[] = {
    {10, "A57 B101 C158 D245 E426"},
    {15, "A36 B60 C88 D121 E163 F217 G297 H449"},
    {20, "A26 B43 C61 D82 E106 F133 G165 H205 I256 J330 K461"},
    {25, "A20 B33 C47 D62 E78 F97 G117 H140 I166 J198 K236 L285 M354 N469 O992 Z1102"},
    {30, "A17 B27 C38 D50 E62 F76 G91 H107 I125 J145 K167 L193 M223 N260 O307 Z371"},
    {35, "A14 B23 C32 D42 E52 F63 G74 H87 I100 J115 K131 L148 M168 N190 O215 Z232"},
    {40, "A12 B20 C27 D36 E44 F53 G63 H73 I84 J95 K108 L121 M135 N151 O163"},
    {45, "A11 B17 C24 D31 E39 F46 G55 H63 I72 J82 K92 L102 M114 N125"},
    {50, "A9 B15 C21 D28 E34 F41 G48 H56 I63 J71 K80 L89 M92"},
    {55, "A8 B14 C19 D25 E31 F37 G43 H50 I56 J63 K71 L74"},
    {60, "A7 B12 C17 D22 E28 F33 G39 H45 I51 J57 K63"},
    {70, "A6 B10 C14 D19 E23 F28 G32 H37 I42 J47 K48"},
};

/* Past the last cell: the one group that is left where there is no limit, else stops are needed. */
START_TEST(repetitive_groups) {
  int feet = groups[_i].feet, above = _i == 0 ? 0 : groups[_i - 1].feet, group = 0, minutes = 0;
  const char *rest = groups[_i].cells;
  int before = 0, cells = 0;
  while ((rest = next_cell(rest, &group, &minutes)) != NULL) {
    assert_cell("repetitive_group", feet FEET, (before + 1) MINUTES, group);
    assert_cell("repetitive_group", feet FEET, minutes MINUTES, group);
    assert_cell("repetitive_group", (above + 0.01) FEET, minutes MINUTES, group);
    ck_assert_int_eq(group, ++cells == 16 ? Z : cells); /* as copied: no letter left out */
    before = minutes;
  }
  int past = limit_at(feet) == DAY ? group + 1 : PAST;
  assert_cell("repetitive_group", feet FEET, (minutes + 1) MINUTES, past);
  ck_assert_msg(past != PAST || minutes == limit_at(feet), "%d ft: the last cell is the limit",
                feet);
}
END_TEST

/* Deeper than 70 ft, from - to by group in a second transcription. It has the limits of Revision 6
 * at 90, 130 and 150 ft and deeper, so there the last groups are those of the limits read, and no
 * row of 160 ft, which is from memory. */
static const struct {
  int feet;
  const char *cells;
} spans[] = {
    {80, "A0-5 B6-9 C10-12 D13-16 E17-20 F21-24 G25-28 H29-32 I33-36 J37-39"},
    {90, "A0-4 B5-7 C8-11 D12-14 E15-17 F18-21 G22-24 H25-28 I29-31 J32-33"},
    {100, "A0-4 B5-6 C7-9 D10-12 E13-15 F16-18 G19-21 H22-25"},
    {110, "A0-3 B4-6 C7-8 D9-11 E12-14 F15-16 G17-19 H20-20"},
    {120, "A0-3 B4-5 C6-7 D8-10 E11-12 F13-15"},
    {130, "A0-2 B3-4 C5-6 D7-9 E10-11 F12-12"},
    {140, "A0-2 B3-4 C5-6 D7-8 E9-10"},
    {150, "B0-3 C4-5 D6-7 E8-8"},
    {160, "B0-3 C4-5 D6-6 E7-7"},
    {170, "C0-4 D5-6"},
    {180, "C0-4 D5-5 E6-6"},
    {190, "C0-3 D4-5"},
};

START_TEST(repetitive_groups_deeper) {
  const char *rest = spans[_i].cells;
  int feet = spans[_i].feet, above = _i == 0 ? 70 : spans[_i - 1].feet, from, to = -1, used;
  char letter;
  while (sscanf(rest, " %c%d-%d%n", &letter, &from, &to, &used) == 3) {
    assert_cell("repetitive_group", feet FEET, (from == 0 ? 1 : from) MINUTES, group_of(letter));
    assert_cell("repetitive_group", feet FEET, to MINUTES, group_of(letter));
    assert_cell("repetitive_group", (above + 0.01) FEET, to MINUTES, group_of(letter));
    rest += used;
  }
  ck_assert_int_eq(*rest, '\0');
  ck_assert_int_eq(to, limit_at(feet));
  assert_cell("repetitive_group", feet FEET, (to + 1) MINUTES, PAST);
  if (feet == 190) assert_cell("repetitive_group", 190.01 FEET, 1 MINUTES, PAST);
}
END_TEST

/* ---- Table 9-8, second part: residual nitrogen ------------------------------------ */

static const struct {
  int feet;
  const char *cells;
} residual[] = {
    {10, "A58 B101 C159 D246 E427"},
    {15, "A37 B61 C89 D122 E164 F218 G298 H450"},
    {20, "A27 B44 C62 D83 E106 F134 G166 H206 I257 J331 K462"},
    {25, "A21 B34 C48 D63 E79 F98 G118 H141 I167 J198 K237 L286 M354 N470"},
    {30, "A18 B28 C39 D51 E63 F77 G92 H108 I126 J146 K168 L194 M224 N261 O308 Z372"},
    {35, "A15 B24 C33 D43 E53 F64 G75 H88 I101 J116 K132 L149 M169 N191 O216 Z245"},
    {40, "A13 B21 C29 D37 E45 F55 G64 H74 I85 J97 K109 L122 M136 N152 O169 Z188"},
    {45, "A12 B18 C25 D32 E40 F48 G56 H64 I73 J83 K93 L104 M115 N127 O140 Z154"},
    {50, "A11 B17 C23 D29 E35 F42 G49 H57 I65 J73 K81 L90 M99 N109 O120 Z131"},
    {55, "A10 B15 C20 D26 E32 F38 G44 H51 I58 J65 K72 L80 M88 N96 O105 Z114"},
    {60, "A9 B14 C19 D24 E29 F35 G40 H46 I52 J58 K65 L72 M79 N86 O93 Z101"},
};

/* What the row prints for a group, or 0 where it prints a mark. */
static int residual_minutes(int row, int wanted) {
  int group = 0, minutes = 0;
  const char *rest = residual[row].cells;
  while ((rest = next_cell(rest, &group, &minutes)) != NULL)
    if (group == wanted) return minutes;
  return 0;
}

START_TEST(residual_nitrogen) {
  int feet = residual[_i].feet, above = _i == 0 ? 0 : residual[_i - 1].feet;
  for (int group = 1; group <= Z; group++) {
    int row = _i, minutes = residual_minutes(row, group);
    if (minutes == 0 && feet == 25) minutes = residual_minutes(++row, group); /* footnote */
    double expected = minutes == 0 ? DAY MINUTES : minutes MINUTES; /* cannot be determined */
    assert_cell("residual_nitrogen_time", feet FEET, group, expected);
    assert_cell("residual_nitrogen_time", (above + 0.01) FEET, group, expected);
    int limit = limit_at(residual[row].feet), left = limit - minutes;
    if (limit != DAY)
      assert_cell("no_stop_remaining", feet FEET, group, (left < 0 ? 0 : left) * 60);
  }
  assert_cell("residual_nitrogen_time", feet FEET, NONE, 0);
  assert_cell("no_stop_remaining", feet FEET, NONE, limit_at(feet) MINUTES);
}
END_TEST

/* Deeper than 60 ft by group, down the depths of `deeper`, as a second transcription has them; but
 * for B from 160 ft, where it repeats the 3 of group A, from memory. */
static const int deeper[] = {70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 170, 180, 190};
static const int residual_deeper[][COUNT(deeper)] = {
    {8, 7, 6, 5, 5, 5, 4, 4, 4, 4, 3, 3, 3},              /* A */
    {12, 10, 9, 8, 8, 7, 6, 6, 6, 5, 5, 5, 5},            /* B */
    {16, 14, 12, 11, 10, 9, 9, 8, 8, 7, 7, 6, 6},         /* C */
    {20, 18, 16, 14, 13, 12, 11, 10, 9, 9, 8, 8, 8},      /* D */
    {25, 22, 19, 17, 16, 14, 13, 12, 11, 11, 10, 10, 9},  /* E */
    {29, 25, 22, 20, 18, 17, 15, 14, 13, 13, 12, 11, 11}, /* F */
    {34, 29, 26, 23, 21, 19, 18, 16, 15, 14, 14, 13, 12}, /* G */
    {39, 33, 29, 26, 24, 22, 20, 19, 17, 16, 15, 14, 14}, /* H */
    {44, 38, 33, 30, 27, 24, 22, 21, 19, 18, 17, 16, 15}, /* I */
    {49, 42, 37, 33, 30, 27, 25, 23, 21, 20, 19, 18, 17}, /* J */
    {54, 46, 41, 36, 33, 30, 27, 25, 23, 22, 21, 19, 18}, /* K */
    {59, 51, 44, 40, 36, 32, 30, 27, 26, 24, 22, 21, 20}, /* L */
    {65, 55, 48, 43, 39, 35, 32, 30, 28, 26, 24, 23, 22}, /* M */
    {71, 60, 52, 47, 42, 38, 35, 32, 30, 28, 26, 25, 23}, /* N */
    {77, 65, 57, 50, 45, 41, 37, 34, 32, 30, 28, 26, 25}, /* O */
    {83, 70, 61, 54, 48, 44, 40, 37, 34, 32, 30, 28, 26}, /* Z */
};

START_TEST(residual_nitrogen_deeper) {
  int feet = deeper[_i], above = _i == 0 ? 60 : deeper[_i - 1];
  for (int group = 1; group <= Z; group++) {
    int minutes = residual_deeper[group - 1][_i], left = limit_at(feet) - minutes;
    assert_cell("residual_nitrogen_time", feet FEET, group, minutes MINUTES);
    assert_cell("residual_nitrogen_time", (above + 0.01) FEET, group, minutes MINUTES);
    assert_cell("no_stop_remaining", feet FEET, group, (left < 0 ? 0 : left) MINUTES);
    if (feet != 190) continue; /* deeper than the table */
    assert_cell("residual_nitrogen_time", 190.01 FEET, group, minutes MINUTES);
    assert_cell("no_stop_remaining", 190.01 FEET, group, 0);
  }
}
END_TEST

/* ---- Table 9-8, first part: the surface interval ---------------------------------- */

static const struct {
  char letter;
  const char *cells; /* new group, from - to, h:mm */
} intervals[] = {
    {'A', "A0:10-2:20"},
    {'B', "B0:10-1:16 A1:17-3:36"},
    {'C', "C0:10-0:55 B0:56-2:11 A2:12-4:31"},
    {'D', "D0:10-0:52 C0:53-1:47 B1:48-3:03 A3:04-5:23"},
    {'E', "E0:10-0:52 D0:53-1:44 C1:45-2:39 B2:40-3:55 A3:56-6:15"},
    {'F', "F0:10-0:52 E0:53-1:44 D1:45-2:37 C2:38-3:31 B3:32-4:48 A4:49-7:08"},
    {'G', "G0:10-0:52 F0:53-1:44 E1:45-2:37 D2:38-3:29 C3:30-4:23 B4:24-5:40 A5:41-8:00"},
    {'H', "H0:10-0:52 G0:53-1:44 F1:45-2:37 E2:38-3:29 D3:30-4:21 C4:22-5:16 B5:17-6:32 "
          "A6:33-8:52"},
    {'I', "I0:10-0:52 H0:53-1:44 G1:45-2:37 F2:38-3:29 E3:30-4:21 D4:22-5:13 C5:14-6:08 "
          "B6:09-7:24 A7:25-9:44"},
    {'J', "J0:10-0:52 I0:53-1:44 H1:45-2:37 G2:38-3:29 F3:30-4:21 E4:22-5:13 D5:14-6:06 "
          "C6:07-7:00 B7:01-8:16 A8:17-10:36"},
    {'K', "K0:10-0:52 J0:53-1:44 I1:45-2:37 H2:38-3:29 G3:30-4:21 F4:22-5:13 E5:14-6:06 "
          "D6:07-6:58 C6:59-7:52 B7:53-9:09 A9:10-11:29"},
    {'L', "L0:10-0:52 K0:53-1:44 J1:45-2:37 I2:38-3:29 H3:30-4:21 G4:22-5:13 F5:14-6:06 "
          "E6:07-6:58 D6:59-7:50 C7:51-8:44 B8:45-10:01 A10:02-12:21"},
    /* From here on all but the last minute is from transcriptions, not the manual itself. */
    {'M', "M0:10-0:52 L0:53-1:44 K1:45-2:37 J2:38-3:29 I3:30-4:21 H4:22-5:13 "
          "G5:14-6:06 F6:07-6:58 E6:59-7:50 D7:51-8:42 C8:43-9:37 B9:38-10:53 "
          "A10:54-13:13"},
    {'N', "N0:10-0:52 M0:53-1:44 L1:45-2:37 K2:38-3:29 J3:30-4:21 I4:22-5:13 "
          "H5:14-6:06 G6:07-6:58 F6:59-7:50 E7:51-8:42 D8:43-9:34 C9:35-10:29 "
          "B10:30-11:45 A11:46-14:05"},
    {'O', "O0:10-0:52 N0:53-1:44 M1:45-2:37 L2:38-3:29 K3:30-4:21 J4:22-5:13 "
          "I5:14-6:06 H6:07-6:58 G6:59-7:50 F7:51-8:42 E8:43-9:34 D9:35-10:27 "
          "C10:28-11:21 B11:22-12:37 A12:38-14:58"},
    {'Z', "Z0:10-0:52 O0:53-1:44 N1:45-2:37 M2:38-3:29 L3:30-4:21 K4:22-5:13 "
          "J5:14-6:06 I6:07-6:58 H6:59-7:50 G7:51-8:42 F8:43-9:34 E9:35-10:27 "
          "D10:28-11:19 C11:20-12:13 B12:14-13:30 A13:31-15:50"},
};

START_TEST(surface_intervals) {
  const char *rest = intervals[_i].cells;
  int group = group_of(intervals[_i].letter), h1, m1, h2, m2, used, last = 0;
  char letter;
  for (int expected = group; expected >= 1; expected--, rest += used) {
    ck_assert_int_eq(sscanf(rest, " %c%d:%d-%d:%d%n", &letter, &h1, &m1, &h2, &m2, &used), 5);
    ck_assert_int_eq(group_of(letter), expected);
    ck_assert_msg(last == 0 || h1 * 60 + m1 == last + 1, "%s: a gap", intervals[_i].cells);
    last = h2 * 60 + m2;
    assert_cell("surface_interval_group", group, (h1 * 60 + m1) MINUTES, expected);
    assert_cell("surface_interval_group", group, last MINUTES, expected);
    assert_cell("surface_interval_group", group, last MINUTES + 59,
                expected); /* a started minute */
  }
  ck_assert_int_eq(*rest, '\0');
  assert_cell("surface_interval_group", group, (last + 1) MINUTES, NONE);
}
END_TEST

/* Of M, N, O and Z the manual's last minutes; and after a group more no less is left. */
START_TEST(long_surface_intervals) {
  static const int last[] = {13 * 60 + 13, 14 * 60 + 5, 14 * 60 + 58, 15 * 60 + 50};
  int group = 13 + _i;
  assert_cell("surface_interval_group", group, last[_i] MINUTES, 1);
  assert_cell("surface_interval_group", group, (last[_i] + 1) MINUTES, NONE);
  for (int minutes = 10; minutes <= last[_i]; minutes++)
    ck_assert_double_ge(cell("surface_interval_group", group, minutes MINUTES),
                        cell("surface_interval_group", group - 1, minutes MINUTES));
}
END_TEST

/* ---- Tables 9-6 and 9-5: flying, and arriving at a height -------------------------- */

/* A height's column from the group that first has to wait down to Z, h:mm. Read: 8000 ft but for
 * M, N and O; J, K and L at 2000 ft; G, H and I at 5000 ft. M to Z elsewhere: from memory. The rest
 * is worked out in test_air_tissue.c, and here that no later group waits less. */
static const struct {
  int feet;
  const char *cells;
} climbs[] = {
    {1000, "M2:54 N3:59 O4:59 Z5:56"},
    {2000, "I0:00 J0:41 K2:03 L3:18 M4:28 N5:32 O6:33 Z7:29"},
    {3000, "M6:12 N7:16 O8:17 Z9:13"},
    {4000, "M8:01 N9:06 O10:06 Z11:03"},
    {5000, "F0:00 G1:19 H3:10 I4:50 M10:06 N11:10 O12:11 Z13:07"},
    {6000, "M12:25 N13:29 O14:30 Z15:26"},
    {7000, "M14:57 N16:02 O17:02 Z17:59"},
    {8000, "A0:00 B0:00 C0:00 D1:45 E4:39 F7:06 G9:13 H11:04 I12:44 J14:13 K15:35 L16:50 M18:00 "
           "N19:04 O20:05 Z21:01"},
    {9000, "M21:38 N22:43 O23:43 Z24:40"},
    {10000, "M26:14 N27:18 O28:19 Z29:15"},
};

START_TEST(altitude_intervals) {
  const char *rest = climbs[_i].cells;
  int feet = climbs[_i].feet, hours, minutes, used;
  char letter;
  for (; sscanf(rest, " %c%d:%d%n", &letter, &hours, &minutes, &used) == 3; rest += used) {
    double expected = (hours * 60 + minutes) MINUTES;
    assert_cell("altitude_interval", group_of(letter), feet FEET, expected);
    assert_cell("altitude_interval", group_of(letter), (feet - 999) FEET, expected);
    if (feet == 8000) assert_cell("flying_interval", group_of(letter), 0, expected);
  }
  ck_assert_int_eq(*rest, '\0');
  assert_cell("altitude_interval", PAST, feet FEET, 48 HOURS); /* exceptional exposures */
  assert_cell("altitude_interval", NONE, feet FEET, 0);
  for (int group = 1; group <= PAST; group++)
    ck_assert_double_ge(cell("altitude_interval", group, feet FEET),
                        cell("altitude_interval", group - 1, feet FEET));
}
END_TEST

START_TEST(flying_intervals) {
  assert_cell("flying_interval", NONE, 0, 0);
  assert_cell("flying_interval", PAST, 0, 48 HOURS);
  for (int group = 1; group <= PAST; group++) assert_cell("altitude_interval", group, 0, 0);
}
END_TEST

START_TEST(altitude_groups) {
  static const char printed[] = "AABCDEFGHI"; /* 1000 ft, 2000 ft, ... */
  for (int i = 0; printed[i] != '\0'; i++) {
    assert_cell("altitude_group", (i + 1) * 1000 FEET, 0, group_of(printed[i]));
    assert_cell("altitude_group", (i * 1000 + 1) FEET, 0, group_of(printed[i]));
  }
  assert_cell("altitude_group", 0, 0, NONE);
}
END_TEST

Suite *suite_air_tables(void);

Suite *suite_air_tables(void) {
  Suite *suite = suite_create("published air tables");
  TCase *cells = tcase_create("cells");
  tcase_add_loop_test(cells, no_stop_limits, 0, COUNT(limits));
  tcase_add_loop_test(cells, repetitive_groups, 0, COUNT(groups));
  tcase_add_loop_test(cells, repetitive_groups_deeper, 0, COUNT(spans));
  tcase_add_loop_test(cells, residual_nitrogen, 0, COUNT(residual));
  tcase_add_loop_test(cells, residual_nitrogen_deeper, 0, COUNT(deeper));
  tcase_add_loop_test(cells, surface_intervals, 0, COUNT(intervals));
  tcase_add_loop_test(cells, long_surface_intervals, 0, 4);
  tcase_add_loop_test(cells, altitude_intervals, 0, COUNT(climbs));
  tcase_add_test(cells, flying_intervals);
  tcase_add_test(cells, altitude_groups);
  suite_add_tcase(suite, cells);
  return suite;
}
