/* A pack from a stranger, as an archive or with signatures: taken or refused with a message.
 *
 * The first letter says what the rest is: "s" the signatures of a pack, "z" an archive, "m" the
 * members of one, each "NAME, line end, content", with a form feed between two. */
#include "base/zip.h"
#include "bench.h"
#include "document/pack_signature.h"

#include <string.h>

enum { MEMBERS = 300 }; /* more than are taken */

static void no_signer(void *context, const ts_signature *one) { (void)context, (void)one; }

/* A signature that is held against a pack of one file. */
static void hold(const ts_pack_signed *file, const ts_pack_list *list) {
  ts_diagnostics *problems = ts_diagnostics_new();
  size_t differences = 0;
  bool read = ts_pack_signed_differs(file, list, "pack", &differences, problems);
  if (read != (differences > 0 || ts_count(problems, TS_ERROR) == 0)) abort();
  bool holds = ts_pack_signed_holds(file, list, "pack", no_signer, NULL, problems);
  if (holds && (!read || differences > 0)) abort();
  bench_judge(holds || (read && differences == 0 && !ts_count(problems, TS_ERROR)), problems);
  ts_diagnostics_free(problems);
}

static void try_signatures(ts_arena *arena, const char *text, size_t length) {
  static const char digest[] = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
  ts_pack_line line = {"empty.lua", digest};
  ts_pack_list list = {"osier-lane", &line, 1};
  ts_pack_signed file = {"signatures.xml", ts_arena_copy_n(arena, text, length), length};
  hold(&file, &list);
}

static void try_archive(ts_arena *arena, const char *bytes, size_t length) {
  ts_diagnostics *problems = ts_diagnostics_new();
  const char *path = bench_file("osier-lane.zip", bytes, length);
  ts_pack_list list;
  ts_pack_signed file;
  bool good = ts_pack_list_read(arena, path, &list, problems);
  bench_judge(good, problems);
  if (good) {
    bool whole = ts_pack_signed_read(arena, path, &file, problems);
    bench_judge(whole, problems);
    if (whole && file.text) hold(&file, &list);
  }
  ts_diagnostics_free(problems);
}

static void try_members(ts_arena *arena, const char *text, size_t length) {
  ts_zip_entry entries[MEMBERS];
  size_t count = 0;
  ts_text zip = {0};
  for (const char *end = text + length; text < end && count < MEMBERS;) {
    const char *stop = memchr(text, '\f', (size_t)(end - text));
    if (!stop) stop = end;
    const char *line = memchr(text, '\n', (size_t)(stop - text));
    const char *content = line ? line + 1 : stop;
    entries[count++] =
        (ts_zip_entry){ts_arena_copy_n(arena, text, (size_t)((line ? line : stop) - text)), content,
                       (size_t)(stop - content), false};
    text = stop + (stop < end);
  }
  if (ts_zip_write(entries, count, NULL, &zip)) try_archive(arena, zip.data, zip.length);
  ts_text_release(&zip);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  ts_arena *arena = ts_arena_new();
  const char *rest = (const char *)data + 1;
  if (size > 0 && data[0] == 's') try_signatures(arena, rest, size - 1);
  if (size > 0 && data[0] == 'z') try_archive(arena, rest, size - 1);
  if (size > 0 && data[0] == 'm') try_members(arena, rest, size - 1);
  ts_arena_free(arena);
  return 0;
}
