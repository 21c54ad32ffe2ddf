/* CSV, by libcsv: quotes and line ends are its business; the separator is guessed here. */
#include "base/file.h"
#include "dossier/table_int.h"

#include <csv.h>
#include <libxml/xmlstring.h>
#include <string.h>

enum { SAMPLED = 20 }; /* lines looked at for the separator */

typedef struct {
  ts_table_reader *reader;
  ts_table *table;
  uint32_t row, column;
  int ended;              /* the character that ended the row before, to take CR LF as one */
  size_t fields[SAMPLED]; /* of the first rows, while the separator is guessed */
} progress;

static void on_row(int end, void *data) {
  progress *p = data;
  bool second_half = p->column == 0 && end == '\n' && p->ended == '\r';
  p->ended = end;
  if (second_half) return;
  if (p->table == NULL && p->row < SAMPLED) p->fields[p->row] = p->column;
  p->row++;
  p->column = 0;
}

static void on_field(void *bytes, size_t length, void *data) {
  progress *p = data;
  char name[TS_CELL_NAME];
  ts_cell cell = {.row = p->row, .column = p->column++, .kind = TS_CELL_TEXT};
  if (p->table == NULL || p->reader->failed || length == 0) return;
  if (memchr(bytes, '\0', length) != NULL || !xmlCheckUTF8(bytes)) {
    ts_table_fail(p->reader, "%s is no text in UTF-8; save the file as UTF-8",
                  ts_cell_name(cell.row, cell.column, name));
    return;
  }
  cell.text = bytes;
  ts_table_add(p->reader, p->table, cell);
}

/* All rows, to `p`. False where a quote is opened and never closed, or stands where none may. */
static bool parse(progress *p, char separator, const char *bytes, size_t length) {
  struct csv_parser parser;
  csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_REPALL_NL | CSV_APPEND_NULL);
  csv_set_delim(&parser, (unsigned char)separator);
  csv_set_blk_size(&parser, 4096);
  bool good = csv_parse(&parser, bytes, length, on_field, on_row, p) == length &&
              csv_fini(&parser, on_field, on_row, p) == 0;
  csv_free(&parser);
  return good;
}

/* The first lines, up to where SAMPLED of them end outside quotes. */
static size_t sample(const char *bytes, size_t length) {
  bool quoted = false;
  int lines = 0;
  for (size_t i = 0; i < length; i++) {
    if (bytes[i] == '"') quoted = !quoted;
    if (bytes[i] == '\n' && !quoted && ++lines == SAMPLED) return i + 1;
  }
  return length;
}

/* How well a separator does: rows that have as many fields as most, times how many those are. */
static size_t worth(const progress *p) {
  size_t best = 0, rows = SAMPLED;
  if (p->row < rows) rows = p->row;
  for (size_t i = 0; i < rows; i++) {
    size_t like = 0;
    for (size_t j = 0; j < rows; j++) like += p->fields[j] == p->fields[i];
    if (p->fields[i] > 1 && like * p->fields[i] > best) best = like * p->fields[i];
  }
  return best;
}

static char separator_of(const char *bytes, size_t length) {
  static const char candidates[] = {',', ';', '\t'};
  size_t best = 0, head = sample(bytes, length);
  char found = ',';
  for (size_t i = 0; i < sizeof candidates; i++) {
    progress p = {0};
    size_t value = parse(&p, candidates[i], bytes, head) ? worth(&p) : 0;
    if (value > best) best = value, found = candidates[i];
  }
  return found;
}

static char *stem(ts_arena *arena, const char *file) {
  const char *name = ts_path_name(file), *dot = strrchr(name, '.');
  return ts_arena_copy_n(arena, name, dot && dot > name ? (size_t)(dot - name) : strlen(name));
}

bool ts_table_read_csv(ts_table_reader *reader) {
  const char *bytes = reader->bytes;
  size_t length = reader->length;
  if (length >= 2 && (memcmp(bytes, "\xff\xfe", 2) == 0 || memcmp(bytes, "\xfe\xff", 2) == 0))
    return ts_table_fail(reader, "is written in UTF-16; save it as UTF-8");
  if (length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0) bytes += 3, length -= 3;
  progress p = {.reader = reader,
                .table = ts_table_begin(reader, stem(reader->arena, reader->into->file))};
  if (!parse(&p, separator_of(bytes, length), bytes, length) && !reader->failed)
    return ts_table_fail(reader, "row %u: a quote stands where none may, or is never closed",
                         (unsigned)p.row + 1);
  return !reader->failed;
}
