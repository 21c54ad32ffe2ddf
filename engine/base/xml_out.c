/* Writing XML as text, indented, every character either legal or replaced. */
#include "base/arena.h"
#include "base/xml.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH_MAX = sizeof((ts_xml_out *)0)->names / sizeof(char *) };

/* What stands for a character that may not stand for itself, or NULL. White
 * space in a value is spelt out: a reader would turn it into plain spaces. */
static const char *escape_for(char c, bool value) {
  switch (c) {
  case '&': return "&amp;";
  case '<': return "&lt;";
  case '>': return "&gt;";
  case '\r': return "&#13;";
  case '"': return value ? "&quot;" : NULL;
  case '\n': return value ? "&#10;" : NULL;
  case '\t': return value ? "&#9;" : NULL;
  default: return NULL;
  }
}

/* Bytes that stand for themselves, whatever they are in: what is printed of ASCII, but for "&<>. */
static size_t plain(const char *c) {
  // clang-format off
  static const bool is_plain[256] = {
      [0x20] = 1, 1, 0, 1, 1, 1, 0, 1, 1, 1, 1, 1, 1, 1, 1, 1, /* all but "& */
      [0x30] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0, 1, 0, 1, /* all but <> */
      [0x40] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
      [0x50] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
      [0x60] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
      [0x70] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};
  // clang-format on
  size_t n = 0;
  while (is_plain[(unsigned char)c[n]]) n++;
  return n;
}

static void add_escaped(ts_text *text, const char *words, bool value) {
  for (const char *c = words; *c;) {
    size_t run = plain(c);
    ts_text_add_n(text, c, run);
    c += run;
    if (!*c) break;
    const char *escape = escape_for(*c, value);
    size_t length = ts_character(c);
    if (escape)
      ts_text_add(text, escape);
    else if (length)
      ts_text_add_n(text, c, length);
    else
      ts_text_add(text, "\xEF\xBF\xBD"); /* U+FFFD, the replacement character */
    c += length ? length : 1;
  }
}

/* What was written goes where it shall, but for so many characters at its end. */
static void hand_over(ts_xml_out *out, size_t kept) {
  ts_text *text = &out->text;
  if (text->length <= kept) return;
  out->refused = out->refused || !out->take(out->context, text->data, text->length - kept);
  memmove(text->data, text->data + text->length - kept, kept + 1);
  text->length = kept;
}

/* The last character stays: a new line is begun by what it is. */
static void hand_over_if_long(ts_xml_out *out) {
  enum { LONG = 1024 * 1024 };
  if (out->take != NULL && out->text.length > LONG) hand_over(out, 1);
}

static void close_tag(ts_xml_out *out) {
  if (out->open) ts_text_add(&out->text, ">");
  out->open = false;
}

static void new_line(ts_xml_out *out) {
  if (out->inline_) return;
  if (out->text.length && out->text.data[out->text.length - 1] != '\n')
    ts_text_add(&out->text, "\n");
  size_t indent = 2 * (size_t)out->depth;
  memset(ts_text_more(&out->text, indent), ' ', indent);
}

void ts_xml_begin(ts_xml_out *out) {
  ts_text_add(&out->text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
}

void ts_xml_start(ts_xml_out *out, const char *element) {
  if (out->depth >= DEPTH_MAX) abort(); /* our own documents are not that deep */
  close_tag(out);
  hand_over_if_long(out);
  new_line(out);
  ts_text_add(&out->text, "<");
  ts_text_add(&out->text, element);
  out->names[out->depth++] = element;
  out->open = true;
}

void ts_xml_attribute(ts_xml_out *out, const char *name, const char *value) {
  if (!value) return;
  if (!out->open) abort(); /* an attribute after the content: our own mistake */
  size_t length = strlen(name);
  char *more = ts_text_more(&out->text, length + 3);
  more[0] = ' ';
  // NOLINTNEXTLINE(bugprone-not-null-terminated-result): the text goes on
  memcpy(more + 1, name, length);
  more[1 + length] = '=';
  more[2 + length] = '"';
  add_escaped(&out->text, value, true);
  ts_text_add(&out->text, "\"");
}

void ts_xml_attributef(ts_xml_out *out, const char *name, const char *format, ...) {
  char most[160]; /* long enough for nearly everything */
  va_list list;
  va_start(list, format);
  int length = vsnprintf(most, sizeof most, format, list);
  va_end(list);
  if (length < 0) abort();
  if ((size_t)length < sizeof most) {
    ts_xml_attribute(out, name, most);
    return;
  }
  char *value = ts_alloc((size_t)length + 1);
  va_start(list, format);
  vsnprintf(value, (size_t)length + 1, format, list);
  va_end(list);
  ts_xml_attribute(out, name, value);
  free(value);
}

void ts_xml_words(ts_xml_out *out, const char *text) {
  if (!text || !*text) return;
  close_tag(out);
  if (!out->inline_) out->inline_depth = out->depth;
  out->inline_ = true;
  add_escaped(&out->text, text, false);
}

void ts_xml_end(ts_xml_out *out) {
  if (out->depth <= 0) abort();
  const char *name = out->names[--out->depth];
  if (out->open) {
    ts_text_add(&out->text, "/>");
    out->open = false;
  } else {
    new_line(out);
    ts_text_add(&out->text, "</");
    ts_text_add(&out->text, name);
    ts_text_add(&out->text, ">");
  }
  if (out->inline_ && out->depth < out->inline_depth) out->inline_ = false;
  if (out->depth == 0) ts_text_add(&out->text, "\n");
}

ts_xml_out ts_xml_apart(const ts_xml_out *out) {
  ts_xml_out apart = *out;
  apart.text = (ts_text){0};
  apart.take = NULL;
  apart.open = false; /* the start tag is for the other to close */
  return apart;
}

void ts_xml_append(ts_xml_out *out, const ts_text *children) {
  if (children->length == 0) return;
  close_tag(out);
  if (out->text.data[out->text.length - 1] != '\n') ts_text_add(&out->text, "\n");
  ts_text_add_n(&out->text, children->data, children->length);
  hand_over_if_long(out);
}

bool ts_xml_finish(ts_xml_out *out) {
  hand_over(out, 0);
  return !out->refused;
}
