/* Diagnostics: reports in the order they came, a hash table to keep doubles out,
 * and an order by file and line made only when printing. */
#include "tankside/diagnostics.h"

#include "base/arena.h"
#include "base/text.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  size_t file; /* index into files */
  int line;
  ts_level level;
  const char *text;
} report;

struct ts_diagnostics {
  ts_arena *arena;
  const char **files;
  report *reports;
  size_t *slots; /* open hash table: index into reports + 1, 0 when free */
  size_t file_count, file_capacity, count, capacity, slot_count;
  size_t levels[3];
  uint64_t seed;
};

ts_diagnostics *ts_diagnostics_new(void) {
  ts_diagnostics *all = ts_alloc(sizeof *all);
  all->arena = ts_arena_new();
  all->seed = ts_hash_seed();
  return all;
}

void ts_diagnostics_free(ts_diagnostics *all) {
  if (!all) return;
  ts_arena_free(all->arena);
  free(all->files);
  free(all->reports);
  free(all->slots);
  free(all);
}

/* What is quoted from an input must neither break the line nor steer a
 * terminal: control characters (C0, DEL, and C1 in UTF-8) and those that turn the
 * direction of writing become '?'. */
static void tame(char *text) {
  for (unsigned char *c = (unsigned char *)text; *c; c++) {
    bool c1 = c[0] == 0xC2 && c[1] >= 0x80 && c[1] < 0xA0;
    if (*c < 0x20 || *c == 0x7F || c1) *c = '?';
    if (c1) *++c = '?';
    if (ts_turns_direction((const char *)c)) memset(c, '?', 3);
  }
}

static size_t file_index(ts_diagnostics *all, const char *file) {
  char *name = ts_arena_copy(all->arena, file ? file : "tankside");
  tame(name);
  for (size_t i = all->file_count; i-- > 0;)
    if (ts_same(all->files[i], name)) return i;
  TS_GROW(all->files, all->file_count, all->file_capacity);
  all->files[all->file_count] = name;
  return all->file_count++;
}

static size_t hash_of(const ts_diagnostics *all, const report *r) {
  uint64_t place = ((uint64_t)r->file << 40) ^ ((uint64_t)r->line << 4) ^ r->level;
  return ts_hash(all->seed ^ place, r->text);
}

static bool same_report(const report *a, const report *b) {
  return a->file == b->file && a->line == b->line && a->level == b->level &&
         ts_same(a->text, b->text);
}

/* The slot that holds this report, or the free one where it belongs. */
static size_t *slot_for(const ts_diagnostics *all, const report *r) {
  size_t at = hash_of(all, r) & (all->slot_count - 1);
  while (all->slots[at] && !same_report(&all->reports[all->slots[at] - 1], r))
    at = (at + 1) & (all->slot_count - 1);
  return &all->slots[at];
}

/* Keeps at least half of the slots free; the count is a power of two. */
static void grow_slots(ts_diagnostics *all) {
  if (2 * (all->count + 1) <= all->slot_count) return;
  all->slot_count = all->slot_count ? 2 * all->slot_count : 16;
  free(all->slots);
  all->slots = ts_alloc(all->slot_count * sizeof *all->slots);
  for (size_t i = 0; i < all->count; i++) *slot_for(all, &all->reports[i]) = i + 1;
}

/* A message of more than this quotes something nobody reads to its end: its middle is left out. */
enum { MESSAGE_START = 400, MESSAGE_END = 1200 };

static bool inside_character(const char *at) { return ((unsigned char)*at & 0xC0) == 0x80; }

static void cut(char *text, size_t length) {
  if (length <= MESSAGE_START + MESSAGE_END) return;
  char *from = text + MESSAGE_START, *on = text + length - MESSAGE_END;
  while (inside_character(from)) from--;
  while (inside_character(on)) on++;
  memset(from, '.', 3);
  memmove(from + 3, on, strlen(on) + 1);
}

void ts_report(ts_diagnostics *all, ts_level level, const char *file, int line, const char *format,
               ...) {
  va_list list;
  va_start(list, format);
  int length = vsnprintf(NULL, 0, format, list);
  va_end(list);
  if (length < 0) abort(); /* a wrong format string: our own mistake */
  char *text = ts_arena_alloc(all->arena, (size_t)length + 1);
  va_start(list, format);
  vsnprintf(text, (size_t)length + 1, format, list);
  va_end(list);
  cut(text, (size_t)length);
  tame(text);

  report r = {file_index(all, file), line, level, text};
  grow_slots(all);
  size_t *slot = slot_for(all, &r);
  if (*slot) return;
  TS_GROW(all->reports, all->count, all->capacity);
  all->reports[all->count++] = r;
  *slot = all->count;
  all->levels[level]++;
}

const char *ts_first_error(const ts_diagnostics *all, int *line) {
  for (size_t i = 0; i < all->count; i++) {
    if (all->reports[i].level != TS_ERROR) continue;
    if (line) *line = all->reports[i].line;
    return all->reports[i].text;
  }
  return NULL;
}

void ts_diagnostics_copy(const ts_diagnostics *from, ts_diagnostics *to, const char *folder) {
  size_t length = strlen(folder);
  for (size_t i = 0; i < from->count; i++) {
    const report *r = &from->reports[i];
    const char *file = from->files[r->file];
    if (strncmp(file, folder, length) == 0 && file[length] == '/')
      ts_report(to, r->level, file, r->line, "%s", r->text);
  }
}

void ts_diagnostics_rename(ts_diagnostics *all, const char *folder, const char *to) {
  size_t length = strlen(folder);
  for (size_t i = 0; i < all->file_count; i++)
    if (strncmp(all->files[i], folder, length) == 0 && all->files[i][length] == '/')
      all->files[i] = ts_arena_printf(all->arena, "%s%s", to, all->files[i] + length);
}

size_t ts_count(const ts_diagnostics *all, ts_level level) { return all->levels[level]; }

static int by_place(const void *left, const void *right) {
  const report *a = *(const report *const *)left, *b = *(const report *const *)right;
  if (a->file != b->file) return a->file < b->file ? -1 : 1;
  if (a->line != b->line) return a->line < b->line ? -1 : 1;
  return a < b ? -1 : a > b; /* as reported */
}

void ts_diagnostics_print(const ts_diagnostics *all, FILE *out) {
  static const char *const words[] = {"note", "warning", "error"};
  if (!all->count) return;
  const report **order = ts_alloc(all->count * sizeof *order);
  for (size_t i = 0; i < all->count; i++) order[i] = &all->reports[i];
  qsort(order, all->count, sizeof *order, by_place);
  for (size_t i = 0; i < all->count; i++) {
    const report *r = order[i];
    fputs(all->files[r->file], out);
    if (r->line > 0) fprintf(out, ":%d", r->line);
    fprintf(out, ": %s: %s\n", words[r->level], r->text);
  }
  free(order);
}
