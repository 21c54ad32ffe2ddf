/* Tables for spreadsheets: CSV by RFC 4180. */
#include "command/command.h"
#include <stdio.h>
#include <string.h>

/* A spreadsheet takes what begins so for a formula; the wide forms of = + - @ too. */
static bool like_a_formula(const char *text) {
  static const char *const wide[] = {"\uff1d", "\uff0b", "\uff0d", "\uff20"};
  for (size_t i = 0; i < sizeof wide / sizeof wide[0]; i++)
    if (strncmp(text, wide[i], strlen(wide[i])) == 0) return true;
  return text[0] != '\0' && strchr("=+-@\t\r|%", text[0]) != NULL;
}

void csv_cell(const char *text, bool last) {
  fputs(like_a_formula(text) ? "\"'" : "\"", stdout);
  for (; *text != '\0'; text++) {
    if (*text == '"') putchar('"');
    putchar(*text);
  }
  fputs(last ? "\"\r\n" : "\",", stdout);
}
