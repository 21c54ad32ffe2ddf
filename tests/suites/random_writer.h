/* What every writer of rules by lot needs: choosing facts and thresholds, and putting them down. */
#ifndef TS_TESTS_RANDOM_WRITER_H
#define TS_TESTS_RANDOM_WRITER_H

#include "random_rule.h"

enum { PALETTE = 10, LOCALS = 6 };

/* A rule being written. */
typedef struct {
  random_source *from;
  draws *luck;
  random_rule *rule;
  ts_text text;
  const random_fact *palette[PALETTE];
  size_t palette_count;
  ts_dim locals[LOCALS]; /* v1, v2 ... */
  size_t local_count;
  int list; /* the loop under way, or -1 */
} writer;

static inline bool chance(writer *w, unsigned percent) { return draw_chance(w->luck, percent); }

static inline size_t below(writer *w, size_t count) { return draw_below(w->luck, count); }

static inline void put(writer *w, const char *text) { ts_text_add(&w->text, text); }

typedef bool (*fact_test)(const random_fact *fact, const random_fact *like);

bool writer_is_number(const random_fact *f, const random_fact *like);
bool writer_is_alike(const random_fact *f,
                     const random_fact *like); /* a number of that dimension */

/* One of all facts that pass, or NULL. */
const random_fact *writer_any(writer *w, fact_test test, const random_fact *like);
/* Notes that the rule reads the fact. */
void writer_reads(writer *w, const random_fact *f);
/* Writes the fact, and notes what has to be drawn for it. */
void writer_fact(writer *w, const random_fact *f);

/* A quantity as text; notes that the rule turns there. Returns it in SI. */
double writer_constant(writer *w, const char *text);
/* A round value between the two, which are in SI, in the unit. Returns it. */
double writer_between(writer *w, const char *unit, ts_range si, bool whole);
void writer_threshold(writer *w, const random_fact *f);
void writer_order(writer *w); /* one of < <= > >= */

/* The likelihood `l` or the severity `s` one or two steps up or down. */
void writer_change(writer *w);
/* About nothing where `about`, an expression, is NULL. */
void writer_hazard(writer *w, const char *about);

void writer_open_rule(writer *w, unsigned number);
/* Says the hazard that all was for, and hands the text over. */
void writer_close_rule(writer *w);

#endif
