/* The tables of tables_air.h, compiled in from shared/tables, where it is noted what was read
 * where. */
#include "science/tables_air.h"

#define ROW(feet, limit, ...) {feet, limit, {__VA_ARGS__}},
const ts_no_stop_row ts_no_stop_rows[] = {
#include "science/tables/air_no_stop.inc"
};
const size_t ts_no_stop_count = sizeof ts_no_stop_rows / sizeof *ts_no_stop_rows;

#define ROW(group, ...) [(group)-1] = {__VA_ARGS__},
const int ts_interval_ends[TS_GROUPS][TS_GROUPS] = {
#include "science/tables/air_surface_interval.inc"
};

#define ROW(feet, ...) {feet, {__VA_ARGS__}},
const ts_residual_row ts_residual_rows[] = {
#include "science/tables/air_residual_nitrogen.inc"
};
const size_t ts_residual_count = sizeof ts_residual_rows / sizeof *ts_residual_rows;

#define ROW(group, ...) {group, {__VA_ARGS__}},
const ts_climb_row ts_climb_rows[] = {
#include "science/tables/air_altitude_interval.inc"
};
const size_t ts_climb_count = sizeof ts_climb_rows / sizeof *ts_climb_rows;

#define ROW(feet, group) {feet, group},
const ts_altitude_row ts_altitude_rows[] = {
#include "science/tables/air_altitude_group.inc"
};
const size_t ts_altitude_count = sizeof ts_altitude_rows / sizeof *ts_altitude_rows;
