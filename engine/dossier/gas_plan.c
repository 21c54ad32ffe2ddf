/* The gas that is there against the minutes that are planned. */
#include "dossier/crosscheck.h"

#include <math.h>

/* Least and most gas, as free gas at the surface, that an immersion breathes;
 * false when that is not known. Somebody who gives the mouthpiece away breathes
 * less than the time says. */
static bool gas_used(const ts_check *check, ts_subject immersion, ts_range rate, ts_range *used) {
  const double bar_per_metre = 0.0995; /* fresh water, 1 atm at the surface: common practice */
  ts_range time, depth;
  if (!ts_check_is(check, immersion, "gives-up-gas", "no") ||
      !ts_check_is(check, immersion, "breathes-gas", "yes") ||
      !ts_check_known(check, immersion, "time", &time) ||
      !ts_check_known(check, immersion, "depth", &depth))
    return false;
  *used = (ts_range){time.lo * rate.lo, time.hi * rate.hi * (1 + bar_per_metre * depth.hi)};
  return true;
}

static bool gas_there(const ts_check *check, ts_range *there) {
  ts_range volume, cylinders, pressure, reserve;
  if (!ts_check_known(check, check->subject, "cylinder-volume", &volume) ||
      !ts_check_known(check, check->subject, "cylinders", &cylinders) ||
      !ts_check_known(check, check->subject, "pressure", &pressure) ||
      !ts_check_known(check, check->subject, "reserve-pressure", &reserve))
    return false;
  const double atmosphere = 101325;
  there->lo = volume.lo * cylinders.lo * fmax(0, pressure.lo - reserve.hi) / atmosphere;
  there->hi = volume.hi * cylinders.hi * fmax(0, pressure.hi - reserve.lo) / atmosphere;
  return true;
}

/* One task's use of this supply; the bank is refilled between tasks at most. */
static void check_gas_of_task(const ts_check *check, ts_subject task, ts_range there,
                              ts_range rate) {
  ts_field immersions = ts_subject_field(check->dossier, task, "immersions");
  ts_range needed = {0, 0}, used;
  for (size_t i = 0; i < immersions.count; i++) {
    if (ts_world_target(check->dossier, immersions.list[i], "supply") != check->subject) continue;
    if (!gas_used(check, immersions.list[i], rate, &used)) continue;
    needed.lo += used.lo;
    needed.hi += used.hi;
  }
  if (needed.hi <= there.lo) return;
  bool certain = needed.lo > there.hi;
  char have[96], want[96];
  const ts_dossier *dossier = check->dossier;
  ts_check_say(
      check, certain ? TS_ERROR : TS_WARNING, check->subject, NULL,
      "the gas in \"%s\" %s not last through the minutes planned in \"%s\": %s above the "
      "reserve, %s needed",
      dossier->subjects[check->subject].info.path, certain ? "does" : "may",
      dossier->subjects[task].info.path,
      ts_quantity_show(dossier->units, there, TS_VOLUME, "L", dossier->system, have, sizeof have),
      ts_quantity_show(dossier->units, needed, TS_VOLUME, "L", dossier->system, want, sizeof want));
}

void ts_check_gas(const ts_check *check) {
  ts_range there, rate;
  if (!gas_there(check, &there) ||
      !ts_check_known(check, check->subject, "surface-consumption", &rate))
    return;
  ts_field tasks = ts_subject_field(check->dossier, 0, "tasks");
  for (size_t i = 0; i < tasks.count; i++) check_gas_of_task(check, tasks.list[i], there, rate);
}

void ts_check_gas_source(const ts_check *check) {
  const ts_dossier *dossier = check->dossier;
  ts_subject supply = ts_world_target(dossier, check->subject, "supply");
  ts_subject site = ts_check_reach(check, "site");
  const char *path = dossier->subjects[check->subject].info.path;
  if (supply == TS_NO_SUBJECT) {
    if (ts_check_is(check, check->subject, "breathes-gas", "yes"))
      ts_check_say(check, TS_WARNING, check->subject, "breathes-gas",
                   "\"%s\" breathes gas, but \"supply\" does not say from what", path);
    return;
  }
  if (ts_world_above(dossier, supply, "site") != site)
    ts_check_say(check, TS_WARNING, check->subject, "supply",
                 "\"%s\" breathes from \"%s\", which is not at the day's site", path,
                 dossier->subjects[supply].info.path);
}
