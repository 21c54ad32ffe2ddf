/* Air dives one after another, by the tables of dives without stops.
 *
 * US Navy Diving Manual SS521-AG-PRO-010 Rev 7 (2016), Tables 9-7 and 9-8 and paragraph 9-9: the
 * group after a dive, what an interval at the surface takes off it, and the residual nitrogen time
 * that the next dive has to count as already used. Low-level; depths in m, times in s, as they count
 * at worst. */
#ifndef TS_SCIENCE_REPETITIVE_H
#define TS_SCIENCE_REPETITIVE_H

#include <stdbool.h>

/* Where a diver stands after the last dive; all 0 before the first. */
typedef struct {
  int group;          /* 0 none, 1 to 16 A to Z, 17 past the limit */
  double depth, time; /* of the last dive as the manual counts it, residual time and all */
  double most;        /* the most that its time comes to, counted either way */
} ts_dives;

/* After one more dive, `interval` after the last. */
ts_dives ts_dives_next(ts_dives before, double interval, double depth, double time);

/* Bottom time left without stops at a depth, `interval` after the last dive; a day where the table
 * sets no limit. */
double ts_dives_left(ts_dives before, double interval, double depth);

/* The letter of its group: 'A' to 'O' and 'Z'; '-' for none, '>' past the limit. */
char ts_dives_letter(ts_dives dives);

/* Whether a time that was left stands for "without limit". */
bool ts_dives_unlimited(double left);

#endif
