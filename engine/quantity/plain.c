/* Plain text: see plain.h. */
#include "quantity/plain.h"

#include <stdio.h>
#include <string.h>

static const struct {
  const char *written, *plain;
} replacements[] = {
    {"°", "deg"},
    {"º", "deg"}, /* the ordinal sign that keyboards offer for it */
    {"℃", "degC"},
    {"℉", "degF"},
    {"\xc2\xb5", "u"},       /* micro sign */
    {"\xce\xbc", "u"},       /* Greek mu */
    {"\xce\xa9", "Ohm"},     /* Greek omega */
    {"\xe2\x84\xa6", "Ohm"}, /* ohm sign */
    {"·", "."},
    {"⋅", "."},
    {"±", "+-"},
    {"+/-", "+-"},
    {"\xe2\x88\x92", "-"}, /* minus sign */
    {"…", ".."},
    {"₂", "2"},
    {"\xc2\xa0", " "},     /* no-break space */
    {"\xe2\x80\x89", " "}, /* thin space */
    {"\xe2\x80\xaf", " "}, /* narrow no-break space */
    {"\t", " "},
    {"\n", " "},
    {"\r", " "},
};

static const struct {
  const char *written;
  char plain;
} superscripts[] = {
    {"⁰", '0'}, {"¹", '1'}, {"²", '2'}, {"³", '3'}, {"⁴", '4'}, {"⁵", '5'},
    {"⁶", '6'}, {"⁷", '7'}, {"⁸", '8'}, {"⁹", '9'}, {"⁻", '-'},
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
  bool printable = *at >= ' ' && *at <= '~';
  size_t length = printable && *at != '+' ? 0 : put_replacement(w, at);
  if (!length && !printable) length = put_superscript(w, at);
  if (!length && printable) put(w, at, length = 1);
  return length;
}

/* Length of the UTF-8 character at `at`, 0 when the bytes are none. */
static int character_length(const char *at) {
  unsigned char first = (unsigned char)*at;
  int length = first < 0x80 ? 1 : first < 0xc2 ? 0 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : 4;
  if (first > 0xf4) return 0;
  for (int i = 1; i < length; i++)
    if (((unsigned char)at[i] & 0xc0) != 0x80) return 0;
  return length;
}

static void say_unexpected(const char *at, char *why, size_t size) {
  if (strncmp(at, "\xe2\x80\x93", 3) == 0 || strncmp(at, "\xe2\x80\x94", 3) == 0)
    snprintf(why, size, "unexpected dash; a range is written \"3..4 m\"");
  else if ((unsigned char)*at < ' ' || *at == 0x7f || !character_length(at))
    snprintf(why, size, "unexpected byte %d in a quantity", (unsigned char)*at);
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
