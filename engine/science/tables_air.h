/* US Navy Diving Manual SS521-AG-PRO-010 Revision 7 (1 December 2016), the air
 * tables of dives without stops. Depth rows in feet of sea water, times in
 * minutes; groups A to O are 1 to 15 and Z is 16. */
#ifndef TS_SCIENCE_TABLES_AIR_H
#define TS_SCIENCE_TABLES_AIR_H

#include <stddef.h>

enum { TS_GROUP_Z = 16, TS_PAST_TABLE = 17, TS_GROUPS = 16 };

/* Minutes that stand for "unlimited" and for "cannot be determined". */
enum { TS_DAY_MINUTES = 1440 };

/* Table 9-7: no-stop limit, and the last bottom time of each group. */
typedef struct {
  int feet, limit;
  int last[TS_GROUPS]; /* 0: the group is not reached at this depth, or already passed */
} ts_no_stop_row;

extern const ts_no_stop_row ts_no_stop_rows[];
extern const size_t ts_no_stop_count;

/* Table 9-8, part 1: for each group, the last minute of the interval in which the
 * group is still A+k, from k = own letter down to A. */
extern const int ts_interval_ends[TS_GROUPS][TS_GROUPS];

/* Table 9-8, part 2: residual nitrogen time; 0: cannot be determined. */
typedef struct {
  int feet;
  int minutes[TS_GROUPS];
} ts_residual_row;

extern const ts_residual_row ts_residual_rows[];
extern const size_t ts_residual_count;

/* Table 9-6: surface interval before ascent, by thousands of feet of the increase in altitude.
 * The last row is TS_PAST_TABLE's. */
enum { TS_CLIMBS = 10 };
typedef struct {
  int group, minutes[TS_CLIMBS];
} ts_climb_row;

extern const ts_climb_row ts_climb_rows[];
extern const size_t ts_climb_count;

/* Table 9-5: group on arrival at an altitude. */
typedef struct {
  int feet, group;
} ts_altitude_row;

extern const ts_altitude_row ts_altitude_rows[];
extern const size_t ts_altitude_count;

#endif
