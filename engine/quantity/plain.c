/* Plain text: see plain.h. */
#include "quantity/plain.h"

#include <stdio.h>
#include <string.h>

static const struct {
  const char *written, *plain;
} replacements[] = {
    {"\xc2\xb0", "deg"},
    {"\xe2\x84\x83", "degC"},
    {"\xe2\x84\x89", "degF"}, /* °, ℃, ℉ */
    {"\xc2\xb5", "u"},
    {"\xce\xbc", "u"}, /* both µ */
    {"\xce\xa9", "Ohm"},
    {"\xe2\x84\xa6", "Ohm"}, /* both Ω */
    {"\xc2\xb7", "."},
    {"\xe2\x8b\x85", "."}, /* middle dots */
    {"\xc2\xb1", "+-"},
    {"+/-", "+-"},
    {"\xe2\x88\x92", "-"},  /* ±, minus */
    {"\xe2\x80\xa6", ".."}, /* ellipsis */
    {"\xc2\xa0", " "},
    {"\xe2\x80\x89", " "},
    {"\xe2\x80\xaf", " "}, /* spaces */
    {"\t", " "},
    {"\n", " "},
    {"\r", " "},
    {"\xe2\x82\x82", "2"}, /* subscript 2, of H2O */
};

static const struct {
  const char *written;
  char plain;
} superscripts[] = {
    {"\xc2\xb9", '1'},     {"\xc2\xb2", '2'},     {"\xc2\xb3", '3'},     {"\xe2\x81\xb4", '4'},
    {"\xe2\x81\xb5", '5'}, {"\xe2\x81\xb6", '6'}, {"\xe2\x81\xb7", '7'}, {"\xe2\x81\xb8", '8'},
    {"\xe2\x81\xb9", '9'}, {"\xe2\x81\xb0", '0'}, {"\xe2\x81\xbb", '-'},
};

typedef struct {
  char *out;
  size_t length;
  bool raised; /* the last character was a superscript */
} writer;

static void put(writer *w, const char *piece, size_t length) {
  /* One space is enough, and none at the start. */
  if (length == 1 && *piece == ' ' && (!w->length || w->out[w->length - 1] == ' ')) return;
  memcpy(w->out + w->length, piece, length);
  w->length += length;
  w->raised = false;
}

static size_t put_replacement(writer *w, const char *at) {
  for (size_t i = 0; i < sizeof replacements / sizeof *replacements; i++) {
    size_t length = strlen(replacements[i].written);
    if (strncmp(at, replacements[i].written, length) != 0) continue;
    put(w, replacements[i].plain, strlen(replacements[i].plain));
    return length;
  }
  return 0;
}

/* m³ becomes m^3: without the caret 10³ would turn into 103. */
static size_t put_superscript(writer *w, const char *at) {
  for (size_t i = 0; i < sizeof superscripts / sizeof *superscripts; i++) {
    size_t length = strlen(superscripts[i].written);
    if (strncmp(at, superscripts[i].written, length) != 0) continue;
    if (!w->raised) put(w, "^", 1);
    put(w, &superscripts[i].plain, 1);
    w->raised = true;
    return length;
  }
  return 0;
}

static size_t put_one(writer *w, const char *at) {
  size_t length = put_replacement(w, at);
  if (!length) length = put_superscript(w, at);
  if (!length && *at >= ' ' && *at <= '~') put(w, at, length = 1);
  return length;
}

/* Length of the UTF-8 character at `at`, for quoting it. */
static int character_length(const char *at) {
  int length = 1;
  while (((unsigned char)at[length] & 0xc0) == 0x80 && length < 4) length++;
  return length;
}

static void say_unexpected(const char *at, char *why, size_t size) {
  if (strncmp(at, "\xe2\x80\x93", 3) == 0 || strncmp(at, "\xe2\x80\x94", 3) == 0)
    snprintf(why, size, "unexpected dash; a range is written \"3..4 m\"");
  else if ((unsigned char)*at < ' ' || *at == 0x7f)
    snprintf(why, size, "unexpected control character %d in a quantity", *at);
  else
    snprintf(why, size, "unexpected \"%.*s\" in a quantity", character_length(at), at);
}

bool ts_plain_text(const char *text, char *out, char *why, size_t size) {
  if (strlen(text) > TS_INPUT_MAX) {
    snprintf(why, size, "text too long for a quantity: more than %d bytes", TS_INPUT_MAX);
    return false;
  }
  writer w = {out, 0, false};
  while (*text) {
    size_t taken = put_one(&w, text);
    if (!taken) {
      say_unexpected(text, why, size);
      return false;
    }
    text += taken;
  }
  if (w.length && out[w.length - 1] == ' ') w.length--;
  out[w.length] = '\0';
  if (w.length) return true;
  snprintf(why, size, "empty text; expected a quantity such as \"4.2 m\"");
  return false;
}
