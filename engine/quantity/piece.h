/* Pieces: what stands on one side of `..` or `±`.
 *
 * Internal to quantity/. All text is plain (plain.h), without spaces at the ends. */
#ifndef TS_QUANTITY_PIECE_H
#define TS_QUANTITY_PIECE_H

#include "quantity/units.h"

typedef enum {
  TS_BARE,      /* a number alone: the unit may stand on the other side */
  TS_SCALED,    /* a number with a unit, or a compound such as 5 ft 7 in */
  TS_DATED,     /* a date, or a whole month */
  TS_CLOCK_TIME /* a time of day */
} ts_form;

typedef struct {
  ts_form form;
  double number;  /* bare and scaled: in `scale` */
  ts_scale scale; /* of the last part of a compound */
  int parts;      /* of a compound; else 1 */
  double lo, hi;  /* dates and times: s, see TS_MOMENT; they differ for a month only */
} ts_piece;

/* Where reasons go, and what is needed to look up units. */
typedef struct {
  const ts_units *units;
  char *why;
  size_t size;
} ts_reader;

/* Writes the reason and returns false. */
bool ts_refuse(const ts_reader *reader, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

bool ts_piece_read(const ts_reader *reader, const char *text, ts_piece *piece);

/* Whether the text begins as a date (2027-) or a clock time (10:) does, and
 * then must be one. */
bool ts_is_date(const char *text);
bool ts_is_clock(const char *text);
bool ts_date_piece(const ts_reader *reader, const char *text, ts_piece *piece);
bool ts_clock_piece(const ts_reader *reader, const char *text, ts_piece *piece);

#endif
