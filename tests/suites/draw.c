#include "draw.h"

#include <math.h>
#include <stdlib.h>

/* splitmix64 */
uint64_t draw_bits(draws *luck) {
  uint64_t z = luck->state += 0x9E3779B97F4A7C15u;
  z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9u;
  z = (z ^ z >> 27) * 0x94D049BB133111EBu;
  return z ^ z >> 31;
}

size_t draw_below(draws *luck, size_t count) { return (size_t)(draw_bits(luck) % count); }

double draw_unit(draws *luck) { return (double)(draw_bits(luck) >> 11) * 0x1p-53; }

bool draw_chance(draws *luck, unsigned percent) { return draw_below(luck, 100) < percent; }

/* ---- anchors and boxes ------------------------------------------------------------ */

void anchors_add(anchors *all, ts_dim dim, double value) {
  TS_GROW(all->at, all->count, all->capacity);
  all->at[all->count].dim = dim;
  all->at[all->count++].value = value;
}

void anchors_free(anchors *all) {
  free(all->at);
  *all = (anchors){0};
}

void box_add(box *all, const ts_dossier *dossier, uint32_t slot) {
  const ts_fact_def *fact = ts_slot_fact(dossier, slot);
  TS_GROW(all->at, all->count, all->capacity);
  all->at[all->count++] = (box_fact){slot, fact, ts_fact_dim(ts_dossier_vocabulary(dossier), fact),
                                     *ts_slot_value(dossier, slot)};
}

void box_free(box *all) {
  free(all->at);
  *all = (box){0};
}

void box_put(const box *all, ts_dossier *variant) {
  for (size_t i = 0; i < all->count; i++) ts_variant_put(variant, all->at[i].slot, all->at[i].wide);
}

/* ---- numbers ---------------------------------------------------------------------- */

static bool is_number(const ts_fact_def *fact) {
  return fact->type == TS_QUANTITY || fact->type == TS_COUNT || fact->type == TS_DATE ||
         fact->type == TS_CLOCK;
}

/* Counts are whole, dates are days, clocks show minutes: other values cannot be written. */
static double step_of(const ts_fact_def *fact) {
  if (fact->type == TS_COUNT) return 1;
  if (fact->type == TS_DATE) return 86400;
  return fact->type == TS_CLOCK ? 60 : 0;
}

static double onto_step(const ts_fact_def *fact, double x, ts_range within) {
  double step = step_of(fact), whole = step > 0 ? floor(x / step) * step : x;
  if (whole < within.lo) whole += step;
  return fmin(fmax(whole, within.lo), within.hi);
}

/* An anchor inside the range; its middle when there is none. */
static double anchor_in(draws *luck, const anchors *near, ts_dim dim, ts_range range) {
  size_t first = near->count > 0 ? draw_below(luck, near->count) : 0;
  for (size_t i = 0; i < near->count; i++) {
    size_t k = (first + i) % near->count;
    double x = near->at[k].value;
    if (near->at[k].dim == dim && x >= range.lo && x <= range.hi) return x;
  }
  return range.lo / 2 + range.hi / 2;
}

/* Plausible ranges reach far beyond what is usual, so small values come oftener. */
static double anywhere_in(draws *luck, ts_range range) {
  double share = draw_unit(luck);
  if (draw_chance(luck, 50)) share = share * share * share;
  return fmin(range.lo + (range.hi - range.lo) * share, range.hi);
}

static double value_in(draws *luck, const box_fact *of, const anchors *near, ts_range range) {
  double x =
      draw_chance(luck, 40) ? anchor_in(luck, near, of->dim, range) : anywhere_in(luck, range);
  return onto_step(of->fact, x, range);
}

static ts_range number_state(draws *luck, const box_fact *of, const anchors *near, ts_range all) {
  size_t which = draw_below(luck, 8);
  if (which == 0) return all;
  double x = value_in(luck, of, near, all), y = value_in(luck, of, near, all);
  if (which < 3) return (ts_range){x, x};
  if (which < 5) { /* narrow */
    double about = 0.2 * draw_unit(luck) * fmax(fabs(x), 1e-3 * (all.hi - all.lo));
    return (ts_range){onto_step(of->fact, x - about, all), onto_step(of->fact, x + about, all)};
  }
  return (ts_range){fmin(x, y), fmax(x, y)};
}

/* ---- words ------------------------------------------------------------------------ */

static unsigned word_count(const ts_fact_def *fact) {
  if (fact->type == TS_FLAG) return 2;
  unsigned count = 1;
  for (const char *c = fact->choices; *c != '\0'; c++) count += *c == ' ';
  return count;
}

/* One of the bits that are set. */
static uint64_t one_bit(draws *luck, uint64_t bits) {
  size_t skip = draw_below(luck, (size_t)__builtin_popcountll(bits));
  while (skip-- > 0) bits &= bits - 1;
  return bits & -bits;
}

static uint64_t some_bits(draws *luck, uint64_t bits) {
  uint64_t some = bits & draw_bits(luck);
  return some != 0 ? some : one_bit(luck, bits);
}

static void narrow_set(draws *luck, ts_value *value, bool to_a_point) {
  uint64_t open = value->choices & ~value->certain;
  uint64_t in = open & draw_bits(luck), touched = to_a_point ? open : draw_bits(luck);
  value->certain |= in & touched;
  value->choices &= value->certain | ~(open & touched);
}

/* ---- states and points ------------------------------------------------------------ */

bool value_is_point(const ts_fact_def *fact, const ts_value *value) {
  if (is_number(fact)) return value->range.lo == value->range.hi;
  if (fact->type == TS_SET) return value->choices == value->certain;
  return (value->choices & (value->choices - 1)) == 0;
}

ts_value draw_state(draws *luck, const ts_dossier *dossier, const box_fact *of,
                    const anchors *near) {
  ts_value value = {.state = TS_STATED};
  if (is_number(of->fact)) {
    ts_range all = ts_fact_plausible(ts_dossier_vocabulary(dossier), of->fact);
    value.range = number_state(luck, of, near, all);
    return value;
  }
  uint64_t all = (UINT64_C(1) << word_count(of->fact)) - 1;
  size_t which = draw_below(luck, 3);
  value.choices = all;
  if (of->fact->type == TS_SET) {
    if (which > 0) narrow_set(luck, &value, which == 1);
  } else if (which > 0) {
    value.choices = which == 1 ? one_bit(luck, all) : some_bits(luck, all);
  }
  return value;
}

ts_value draw_narrower(draws *luck, const box_fact *of, const anchors *near) {
  ts_value value = of->wide;
  size_t which = draw_below(luck, 4); /* 0: to a point, 1: not at all */
  if (which == 1) return value;
  if (which == 0) return draw_point(luck, of, near, DRAW_ANYWHERE);
  if (is_number(of->fact)) {
    double x = value_in(luck, of, near, of->wide.range),
           y = value_in(luck, of, near, of->wide.range);
    if (draw_chance(luck, 20)) x = of->wide.range.lo;
    if (draw_chance(luck, 20)) y = of->wide.range.hi;
    value.range = (ts_range){fmin(x, y), fmax(x, y)};
  } else if (of->fact->type == TS_SET) {
    narrow_set(luck, &value, false);
  } else {
    value.choices = some_bits(luck, value.choices);
  }
  return value;
}

static double number_point(draws *luck, const box_fact *of, const anchors *near, draw_where where) {
  ts_range range = of->wide.range;
  if (where == DRAW_CORNER) where = draw_chance(luck, 50) ? DRAW_LOW : DRAW_HIGH;
  if (where == DRAW_ANYWHERE && draw_chance(luck, 20))
    where = draw_chance(luck, 50) ? DRAW_LOW : DRAW_HIGH;
  switch (where) {
  case DRAW_LOW: return range.lo;
  case DRAW_HIGH: return range.hi;
  case DRAW_MIDDLE: return onto_step(of->fact, range.lo / 2 + range.hi / 2, range);
  default: return value_in(luck, of, near, range);
  }
}

ts_value draw_point(draws *luck, const box_fact *of, const anchors *near, draw_where where) {
  ts_value value = of->wide;
  value.state = TS_STATED;
  if (is_number(of->fact)) {
    double x = number_point(luck, of, near, where);
    value.range = (ts_range){x, x};
  } else if (of->fact->type == TS_SET) {
    narrow_set(luck, &value, true);
  } else {
    value.choices = one_bit(luck, value.choices);
  }
  return value;
}

draw_where draw_where_of(size_t sample) {
  if (sample < 3) return (draw_where)sample;
  return sample % 4 == 3 ? DRAW_CORNER : DRAW_ANYWHERE;
}
