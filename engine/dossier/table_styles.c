/* Number formats of an Office Open XML workbook (ECMA-376 part 1, 18.8.30 and 18.8.31): they alone
 * tell a date from a number. */
#include "dossier/table_int.h"

#include <stdlib.h>
#include <string.h>

/* More than any spreadsheet program writes. */
enum { FORMATS = 4096, STYLES = 1 << 16 };

/* The formats that have a number and no text. */
static ts_form built_in(uint32_t id) {
  if (id == 9 || id == 10) return TS_FORM_PERCENT;
  if (id >= 14 && id <= 17) return TS_FORM_DATE;
  if ((id >= 18 && id <= 21) || id == 45 || id == 47) return TS_FORM_TIME;
  if (id == 22) return TS_FORM_DATE_TIME;
  if (id == 46) return TS_FORM_ELAPSED;
  return TS_FORM_NUMBER;
}

/* What a format shows by itself: "h", "d", "%"; not what stands in quotes, in brackets or behind a
 * backslash, and only up to the first ';', since all sections show one kind. */
static ts_form form_of(const char *code) {
  bool date = false, time = false, elapsed = false, percent = false;
  for (const char *c = code; *c != '\0' && *c != ';'; c++) {
    if (*c == '"') {
      c += strcspn(c + 1, "\"") + 1;
    } else if (*c == '[') {
      elapsed = elapsed || (strchr("hHmMsS", c[1]) != NULL && c[1] != '\0');
      c += strcspn(c, "]");
    } else if ((*c == '\\' || *c == '_' || *c == '*') && c[1] != '\0') {
      c++;
    }
    if (*c == '\0') break;
    date = date || strchr("yYdD", *c) != NULL;
    time = time || strchr("hHsS", *c) != NULL;
    percent = percent || *c == '%';
  }
  if (elapsed) return TS_FORM_ELAPSED;
  if (date && time) return TS_FORM_DATE_TIME;
  return date ? TS_FORM_DATE : time ? TS_FORM_TIME : percent ? TS_FORM_PERCENT : TS_FORM_NUMBER;
}

/* The formats that the workbook itself describes. */
typedef struct {
  uint32_t id;
  ts_form form;
} own_form;

static size_t read_own(const ts_table_reader *reader, const xmlNode *formats, own_form *own) {
  size_t count = 0;
  for (const xmlNode *f = ts_xml_child(formats, "numFmt"); f != NULL && count < FORMATS;
       f = ts_xml_next(f, "numFmt")) {
    const char *code = ts_table_attribute(reader, f, NULL, "formatCode");
    own[count].id = ts_table_whole(reader, f, NULL, "numFmtId", UINT32_MAX);
    own[count++].form = code && !ts_same(code, "General") ? form_of(code) : TS_FORM_NUMBER;
  }
  return count;
}

static ts_form form_by_id(const own_form *own, size_t count, uint32_t id) {
  for (size_t i = 0; i < count; i++)
    if (own[i].id == id) return own[i].form;
  return built_in(id);
}

bool ts_table_forms(ts_table_reader *reader, ts_forms *forms) {
  if (!ts_zip_has(reader->zip, "xl/styles.xml")) return true;
  ts_xml *xml = ts_table_member(reader, "xl/styles.xml");
  if (xml == NULL) return false;
  own_form own[FORMATS];
  size_t count = read_own(reader, ts_xml_child(ts_xml_root(xml), "numFmts"), own);
  const xmlNode *styles = ts_xml_child(ts_xml_root(xml), "cellXfs");
  for (const xmlNode *x = ts_xml_child(styles, "xf"); x != NULL && forms->count < STYLES;
       x = ts_xml_next(x, "xf")) {
    TS_GROW(forms->forms, forms->count, forms->capacity);
    forms->forms[forms->count++] =
        form_by_id(own, count, ts_table_whole(reader, x, NULL, "numFmtId", 0));
  }
  ts_xml_free(xml);
  return true;
}
