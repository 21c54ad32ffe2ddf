/* table: CSV and spreadsheets read into cells, and what is refused. */
#include "scratch.h"
#include "said.h"

#include "base/arena.h"
#include "base/text.h"
#include "base/zip.h"
#include "dossier/table.h"
#include "quantity/calendar.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_table(void);

static ts_arena *arena;
static ts_diagnostics *problems;
static ts_tables all;

static void begin(void) {
  arena = ts_arena_new();
  problems = ts_diagnostics_new();
  all = (ts_tables){0};
}

static void end(void) {
  ts_tables_release(&all);
  ts_diagnostics_free(problems);
  ts_arena_free(arena);
}

static bool read_bytes(const char *file, const char *bytes, size_t length) {
  ts_tables_release(&all);
  return ts_tables_read(&all, arena, file, bytes, length, problems);
}

static const char *said(void) { return said_of(problems, arena); }

/* Refused, with a message that holds `about`. */
static void refused(bool read, const char *about) {
  ck_assert(!read);
  ck_assert_msg(strstr(said(), about) != NULL, "expected \"%s\" in: %s", about, said());
  ck_assert_uint_gt(ts_count(problems, TS_ERROR), 0);
}

static const ts_cell *at(size_t table, uint32_t row, uint32_t column) {
  ck_assert_msg(table < all.count, "%zu tables: %s", all.count, said());
  return ts_table_cell(&all.tables[table], row, column);
}

static void text_at(uint32_t row, uint32_t column, const char *text) {
  const ts_cell *cell = at(0, row, column);
  ck_assert_msg(cell != NULL, "row %u, column %u is empty", row, column);
  ck_assert_int_eq(cell->kind, TS_CELL_TEXT);
  ck_assert_str_eq(cell->text, text);
}

static void number_at(uint32_t row, uint32_t column, ts_cell_kind kind, double number) {
  const ts_cell *cell = at(0, row, column);
  ck_assert_msg(cell != NULL, "row %u, column %u is empty", row, column);
  ck_assert_msg(cell->kind == kind, "row %u, column %u is of kind %d", row, column, cell->kind);
  ck_assert_double_eq_tol(cell->number, number, 1e-9);
}

static double date(int year, int month, int day) {
  return (double)ts_day_number((ts_date){year, month, day}) * TS_DAY_SECONDS;
}

/* ---- CSV ------------------------------------------------------------------------------ */

static bool csv(const char *text) { return read_bytes("a/crew.list.csv", text, strlen(text)); }

START_TEST(quotes_separators_and_line_ends) {
  static const char *const same[] = {
      "id,note\r\nann,\"one, \"\"two\"\"\r\nthree\"\r\n\r\nbob, x y \r\n",
      "\xef\xbb\xbfid;note\nann;\"one, \"\"two\"\"\nthree\"\n\nbob;x y",
      "id\tnote\nann\t\"one, \"\"two\"\"\nthree\"\n\nbob\tx y\n",
      "id,note\rann,\"one, \"\"two\"\"\rthree\"\r\rbob,x y\r",
  };
  ck_assert_msg(csv(same[_i]), "%s", said());
  ck_assert_str_eq(all.tables[0].name, "crew.list");
  text_at(0, 0, "id");
  text_at(0, 1, "note");
  text_at(1, 0, "ann");
  const char *note = at(0, 1, 1)->text;
  ck_assert(strncmp(note, "one, \"two\" ", 11) == 0 && strstr(note, "three") != NULL);
  ck_assert_ptr_null(strpbrk(note, "\r\n\t"));
  ck_assert_ptr_null(at(0, 2, 0));
  text_at(3, 0, "bob");
  text_at(3, 1, "x y");
  ck_assert_uint_eq(ts_table_rows(&all.tables[0]), 4);
}
END_TEST

START_TEST(a_semicolon_separates_where_commas_are_decimal) {
  ck_assert(csv("id;depth;time\nann;4,2;1,5\nbob;3,0;2,25\n"));
  text_at(1, 1, "4,2");
  text_at(2, 2, "2,25");
}
END_TEST

START_TEST(one_column_and_nothing_are_tables_too) {
  ck_assert(csv("id\nann\n"));
  text_at(1, 0, "ann");
  ck_assert(csv(""));
  ck_assert_uint_eq(ts_table_rows(&all.tables[0]), 0);
  ck_assert_ptr_null(at(0, 0, 0));
}
END_TEST

START_TEST(what_is_no_csv_is_refused_with_its_place) {
  static const struct {
    const char *bytes;
    size_t length;
    const char *about;
  } bad[] = {
      {"id,note\nann,\"open\n", 18, "a quote"},
      {"id,note\nann,5\" nail\n", 20, "row 2"},
      {"\xff\xfei\0d\0", 6, "UTF-16"},
      {"id,note\nann,caf\xe9\n", 17, "B2 is no text in UTF-8"},
      {"id,note\nann,a\0b\n", 16, "B2 is no text in UTF-8"},
      {"id,note\nann,a\x01z\n", 16, "B2 holds a character"},
  };
  refused(read_bytes("x.csv", bad[_i].bytes, bad[_i].length), bad[_i].about);
}
END_TEST

START_TEST(too_much_is_refused) {
  ts_text many = {0}, wide = {0};
  for (int i = 0; i < TS_TABLE_CELLS / 8 + 2; i++) ts_text_add(&many, "1,2,3,4,5,6,7,8\n");
  refused(csv(many.data), "cells");
  for (int i = 0; i <= TS_TABLE_COLUMNS; i++) ts_text_add(&wide, "x,");
  refused(csv(wide.data), "columns");
  ts_text_release(&many);
  ts_text_release(&wide);
}
END_TEST

START_TEST(cells_are_named_as_spreadsheets_name_them) {
  char name[TS_CELL_NAME];
  ck_assert_str_eq(ts_cell_name(6, 1, name), "B7");
  ck_assert_str_eq(ts_cell_name(0, 25, name), "Z1");
  ck_assert_str_eq(ts_cell_name(99, 26, name), "AA100");
  ck_assert_str_eq(ts_cell_name(1048575, 16383, name), "XFD1048576");
}
END_TEST

/* ---- OpenDocument --------------------------------------------------------------------- */

static ts_text packed(const ts_zip_entry *entries, size_t count) {
  ts_text out = {0};
  ck_assert(ts_zip_write(entries, count, NULL, &out));
  return out;
}

static ts_text ods_file(const char *content) {
  const ts_zip_entry entries[] = {
      {"mimetype", "application/vnd.oasis.opendocument.spreadsheet", 46, true},
      {"content.xml", content, strlen(content), false}};
  return packed(entries, 2);
}

#define ODF "urn:oasis:names:tc:opendocument:xmlns:"
#define ODS_HEAD                                                                                   \
  "<o:document-content xmlns:o=\"" ODF "office:1.0\" xmlns:t=\"" ODF "table:1.0\" xmlns:x=\"" ODF  \
  "text:1.0\" xmlns:c=\"urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0\">"   \
  "<o:body><o:spreadsheet><t:table t:name=\"Crew\">"
#define ODS_TAIL "</t:table></o:spreadsheet></o:body></o:document-content>"

static bool ods(const char *rows) {
  const char *content = ts_arena_printf(arena, ODS_HEAD "%s" ODS_TAIL, rows);
  ts_text file = ods_file(content);
  bool good = read_bytes("x.ods", file.data, file.length);
  ts_text_release(&file);
  return good;
}

START_TEST(an_opendocument_cell_is_what_its_type_says) {
  ck_assert_msg(
      ods("<t:table-header-rows><t:table-row><t:table-cell o:value-type=\"string\"><x:p>a "
          "<x:span>b</x:span><x:s x:c=\"3\"/>c</x:p><x:p>d</x:p></t:table-cell></t:table-row>"
          "</t:table-header-rows><t:table-row-group><t:table-row>"
          "<t:table-cell o:value-type=\"float\" o:value=\"4.25\"><x:p>4,3</x:p></t:table-cell>"
          "<t:table-cell o:value-type=\"percentage\" o:value=\"0.5\"/>"
          "<t:table-cell o:value-type=\"date\" o:date-value=\"2027-03-09\"/>"
          "<t:table-cell o:value-type=\"date\" o:date-value=\"2027-03-09T10:40:30\"/>"
          "<t:table-cell o:value-type=\"time\" o:time-value=\"PT26H05M00S\"/>"
          "<t:table-cell o:value-type=\"boolean\" o:boolean-value=\"true\"/>"
          "<t:table-cell o:value-type=\"string\" c:value-type=\"error\"><x:p>#REF!</x:p>"
          "</t:table-cell><t:table-cell t:formula=\"of:=1+1\" o:value-type=\"float\" "
          "o:value=\"2\"/>"
          "<t:table-cell o:value-type=\"string\"><o:annotation><x:p>remark</x:p></o:annotation>"
          "<x:p>said</x:p></t:table-cell></t:table-row></t:table-row-group>"),
      "%s", said());
  ck_assert_str_eq(all.tables[0].name, "Crew");
  text_at(0, 0, "a b c d");
  number_at(1, 0, TS_CELL_NUMBER, 4.25);
  number_at(1, 1, TS_CELL_PERCENT, 0.5);
  number_at(1, 2, TS_CELL_DATE, date(2027, 3, 9));
  number_at(1, 3, TS_CELL_DATE, date(2027, 3, 9) + 10 * 3600 + 40 * 60 + 30);
  number_at(1, 4, TS_CELL_TIME, 26 * 3600 + 300);
  number_at(1, 5, TS_CELL_YES_NO, 1);
  ck_assert_int_eq(at(0, 1, 6)->kind, TS_CELL_FAULT);
  number_at(1, 7, TS_CELL_NUMBER, 2);
  text_at(1, 8, "said");
}
END_TEST

START_TEST(repeated_cells_and_rows_are_counted) {
  ck_assert_msg(
      ods("<t:table-row t:number-rows-repeated=\"2\"><t:table-cell "
          "t:number-columns-repeated=\"3\"/><t:table-cell o:value-type=\"float\" "
          "o:value=\"7\" t:number-columns-repeated=\"2\"/><t:covered-table-cell "
          "o:value-type=\"float\" o:value=\"9\"/><t:table-cell o:value-type=\"float\" "
          "o:value=\"8\"/></t:table-row>"
          "<t:table-row t:number-rows-repeated=\"1048000\"><t:table-cell "
          "t:number-columns-repeated=\"16384\"/></t:table-row>"
          "<t:table-row><t:table-cell o:value-type=\"float\" o:value=\"5\"/></t:table-row>"),
      "%s", said());
  ck_assert_ptr_null(at(0, 0, 2));
  number_at(0, 3, TS_CELL_NUMBER, 7);
  number_at(1, 4, TS_CELL_NUMBER, 7);
  ck_assert_ptr_null(at(0, 1, 5));
  number_at(1, 6, TS_CELL_NUMBER, 8);
  number_at(1048002, 0, TS_CELL_NUMBER, 5);
  ck_assert_uint_eq(all.cells, 7);
}
END_TEST

START_TEST(repeating_without_end_is_refused) {
  static const char *const rows[] = {
      "<t:table-row t:number-rows-repeated=\"1000000\"><t:table-cell o:value-type=\"float\" "
      "o:value=\"1\"/></t:table-row>",
      "<t:table-row><t:table-cell o:value-type=\"float\" o:value=\"1\" "
      "t:number-columns-repeated=\"4000000000\"/></t:table-row>",
      "<t:table-row t:number-rows-repeated=\"4000000000\"/><t:table-row><t:table-cell "
      "o:value-type=\"float\" o:value=\"1\"/></t:table-row>",
      "<t:table-row><t:table-cell t:number-columns-repeated=\"4294967294\"/><t:table-cell "
      "t:number-columns-repeated=\"4294967294\"/><t:table-cell o:value-type=\"float\" "
      "o:value=\"1\"/></t:table-row>"};
  refused(ods(rows[_i]), "more than");
}
END_TEST

/* A row that costs time though it holds little, as often as a number can say. */
START_TEST(repeating_empty_cells_costs_no_time) {
  ts_text row = {0};
  ts_text_add(&row, "<t:table-row t:number-rows-repeated=\"400000\">");
  for (int i = 0; i < 5000; i++) ts_text_add(&row, "<t:table-cell/>");
  ts_text_add(&row, "<t:table-cell o:value-type=\"float\" o:value=\"1\"/></t:table-row>");
  refused(ods(row.data), "repeats its rows");
  ts_text_release(&row);
}
END_TEST

/* ---- Office Open XML ------------------------------------------------------------------ */

#define OOXML "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\""
#define OOREL "http://schemas.openxmlformats.org/officeDocument/2006/relationships"

static ts_text xlsx_file(const char *about, const char *rows) {
  const char *book = ts_arena_printf(arena,
                                     "<workbook " OOXML " xmlns:r=\"" OOREL
                                     "\">%s<sheets><sheet name=\"Log\" sheetId=\"1\" "
                                     "r:id=\"rId7\"/></sheets></workbook>",
                                     about);
  const char *sheet =
      ts_arena_printf(arena, "<worksheet " OOXML "><sheetData>%s</sheetData></worksheet>", rows);
  static const char relations[] =
      "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
      "<Relationship Id=\"rId7\" Target=\"worksheets/sheet1.xml\"/></Relationships>";
  static const char strings[] =
      "<sst " OOXML "><si><t>plain</t></si><si><r><t>in </t></r><r><t>pieces</t></r>"
      "<rPh><t>reading</t></rPh></si></sst>";
  static const char styles[] =
      "<styleSheet " OOXML
      "><numFmts><numFmt numFmtId=\"164\" formatCode=\"0.0&quot; days&quot;\"/>"
      "<numFmt numFmtId=\"165\" formatCode=\"yyyy\\-mm\\-dd;@\"/>"
      "<numFmt numFmtId=\"166\" formatCode=\"[hh]:mm\"/>"
      "<numFmt numFmtId=\"167\" formatCode=\"[Red]0.00\"/></numFmts><cellXfs>"
      "<xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"20\"/><xf numFmtId=\"22\"/>"
      "<xf numFmtId=\"9\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/><xf numFmtId=\"166\"/>"
      "<xf numFmtId=\"167\"/></cellXfs></styleSheet>";
  const ts_zip_entry entries[] = {
      {"xl/workbook.xml", book, strlen(book), false},
      {"xl/_rels/workbook.xml.rels", relations, strlen(relations), false},
      {"xl/sharedStrings.xml", strings, strlen(strings), false},
      {"xl/styles.xml", styles, strlen(styles), false},
      {"xl/worksheets/sheet1.xml", sheet, strlen(sheet), false}};
  return packed(entries, 5);
}

static bool xlsx(const char *about, const char *rows) {
  ts_text file = xlsx_file(about, rows);
  bool good = read_bytes("x.xlsx", file.data, file.length);
  ts_text_release(&file);
  return good;
}

START_TEST(an_office_open_xml_cell_is_what_its_style_says) {
  ck_assert_msg(
      xlsx("",
           "<row r=\"2\"><c r=\"B2\" t=\"s\"><v>0</v></c><c t=\"s\"><v>1</v></c>"
           "<c r=\"F2\" t=\"inlineStr\"><is><t>here</t></is></c><c t=\"str\"><f>A1&amp;B1</f>"
           "<v>made</v></c><c t=\"b\"><v>1</v></c><c t=\"e\"><v>#N/A</v></c></row>"
           "<row><c s=\"1\"><v>45000</v></c><c s=\"2\"><v>0.452777777777778</v></c>"
           "<c s=\"3\"><v>45000.5</v></c><c s=\"4\"><v>0.25</v></c><c s=\"5\"><v>3</v></c>"
           "<c s=\"6\"><v>45000</v></c><c s=\"7\"><v>1.5</v></c><c s=\"8\"><v>3</v></c>"
           "<c><v>4.2000000000000002</v></c><c t=\"d\"><v>2023-03-15</v></c><c s=\"1\"/></row>"),
      "%s", said());
  ck_assert_str_eq(all.tables[0].name, "Log");
  ck_assert_ptr_null(at(0, 1, 0));
  text_at(1, 1, "plain");
  text_at(1, 2, "in pieces");
  text_at(1, 5, "here");
  text_at(1, 6, "made");
  number_at(1, 7, TS_CELL_YES_NO, 1);
  ck_assert_int_eq(at(0, 1, 8)->kind, TS_CELL_FAULT);
  number_at(2, 0, TS_CELL_DATE, date(2023, 3, 15));
  number_at(2, 1, TS_CELL_TIME, 10 * 3600 + 52 * 60);
  number_at(2, 2, TS_CELL_DATE, date(2023, 3, 15) + 12 * 3600);
  number_at(2, 3, TS_CELL_PERCENT, 0.25);
  number_at(2, 4, TS_CELL_NUMBER, 3);
  number_at(2, 5, TS_CELL_DATE, date(2023, 3, 15));
  number_at(2, 6, TS_CELL_TIME, 36 * 3600);
  number_at(2, 7, TS_CELL_NUMBER, 3);
  number_at(2, 8, TS_CELL_NUMBER, 4.2);
  number_at(2, 9, TS_CELL_DATE, date(2023, 3, 15));
  ck_assert_ptr_null(at(0, 2, 10));
}
END_TEST

/* ECMA-376 part 1, 18.17.4.1: serial 1 is 1 January 1900, 60 a day that never was; in the other
 * system 0 is 1 January 1904. */
START_TEST(serial_dates_count_from_either_beginning) {
  static const char row[] = "<row><c s=\"1\"><v>1</v></c><c s=\"1\"><v>59</v></c>"
                            "<c s=\"1\"><v>61</v></c><c s=\"1\"><v>43538</v></c></row>";
  ck_assert(xlsx("", row));
  number_at(0, 0, TS_CELL_DATE, date(1900, 1, 1));
  number_at(0, 1, TS_CELL_DATE, date(1900, 2, 28));
  number_at(0, 2, TS_CELL_DATE, date(1900, 3, 1));
  ck_assert(xlsx("<workbookPr date1904=\"1\"/>", row));
  number_at(0, 0, TS_CELL_DATE, date(1904, 1, 2));
  number_at(0, 3, TS_CELL_DATE, date(2023, 3, 15));
}
END_TEST

START_TEST(a_cell_that_is_not_what_it_says_is_refused) {
  static const char *const rows[] = {
      "<row><c s=\"1\"><v>60</v></c></row>",        "<row><c s=\"1\"><v>-2</v></c></row>",
      "<row><c s=\"1\"><v>1e300</v></c></row>",     "<row><c t=\"s\"><v>2</v></c></row>",
      "<row><c t=\"s\"><v>-1</v></c></row>",        "<row><c><v>many</v></c></row>",
      "<row><c t=\"d\"><v>2023-02-30</v></c></row>"};
  refused(xlsx("", rows[_i]), "sheet \"Log\", A1 does not hold");
}
END_TEST

START_TEST(a_place_that_is_none_is_refused) {
  refused(xlsx("", "<row><c r=\"ZZZZ9\"><v>1</v></c></row>"), "no place for a cell");
  refused(xlsx("", "<row><c r=\"7\"><v>1</v></c></row>"), "no place for a cell");
  refused(xlsx("", "<row r=\"4000000000\"><c><v>1</v></c></row>"), "rows");
}
END_TEST

/* ---- what strangers send -------------------------------------------------------------- */

/* Where only the last bytes are missing, which say nothing, all of it may still be read. */
START_TEST(a_cut_archive_is_refused_or_read_whole) {
  ts_text file = _i ? xlsx_file("", "<row><c><v>1</v></c></row>")
                    : ods_file(ODS_HEAD "<t:table-row><t:table-cell o:value-type=\"float\" "
                                        "o:value=\"1\"/></t:table-row>" ODS_TAIL);
  ck_assert_msg(read_bytes("x", file.data, file.length), "%s", said());
  for (size_t length = 2; length < file.length; length++) {
    char *cut = ts_alloc(length);
    memcpy(cut, file.data, length);
    bool read = read_bytes("x", cut, length);
    ck_assert_msg(!read || length + 4 > file.length, "read with %zu of %zu bytes", length,
                  file.length);
    if (read) number_at(0, 0, TS_CELL_NUMBER, 1);
    ck_assert(read || ts_count(problems, TS_ERROR) > 0);
    free(cut);
  }
  ts_text_release(&file);
}
END_TEST

START_TEST(a_byte_that_changed_on_the_way_is_noticed) {
  ts_text file = ods_file(ODS_HEAD "<t:table-row><t:table-cell o:value-type=\"string\"><x:p>"
                                   "The mooring line of the raft</x:p></t:table-cell>"
                                   "</t:table-row>" ODS_TAIL);
  char *content = memmem(file.data, file.length, "content.xml", 11);
  ck_assert_ptr_nonnull(content);
  content[11 + 40] ^= 0x10;
  refused(read_bytes("x.ods", file.data, file.length), "content.xml");
  ts_text_release(&file);
}
END_TEST

START_TEST(a_bomb_is_refused_before_it_goes_off) {
  size_t huge = (size_t)65 << 20, large = (size_t)20 << 20;
  char *zeros = ts_alloc(huge);
  memset(zeros, ' ', huge);
  ts_zip_entry entry = {"content.xml", zeros, huge, false};
  ts_text file = packed(&entry, 1);
  ck_assert_uint_lt(file.length, 100 * 1000);
  refused(read_bytes("x.ods", file.data, file.length), "too large");
  ts_text_release(&file);
  entry.length = large;
  file = packed(&entry, 1);
  refused(read_bytes("x.ods", file.data, file.length), "honest");
  ts_text_release(&file);
  free(zeros);
}
END_TEST

START_TEST(xml_that_reaches_out_or_down_is_refused) {
  ts_text deep = {0};
  for (int i = 0; i < 5000; i++) ts_text_add(&deep, "<t:table-row-group>");
  for (int i = 0; i < 5000; i++) ts_text_add(&deep, "</t:table-row-group>");
  refused(ods(deep.data), "content.xml");
  ts_text_release(&deep);
  ts_text file = ods_file("<!DOCTYPE x [<!ENTITY e SYSTEM \"/etc/passwd\">]><x>&e;</x>");
  refused(read_bytes("x.ods", file.data, file.length), "DOCTYPE");
  ts_text_release(&file);
}
END_TEST

START_TEST(another_kind_of_file_is_named_as_such) {
  static const char text[] = "<o:document-content xmlns:o=\"" ODF
                             "office:1.0\"><o:body><o:text/></o:body></o:document-content>";
  static const ts_zip_entry other = {"word/document.xml", "<x/>", 4, false};
  ts_text file = ods_file(text);
  refused(read_bytes("x.odt", file.data, file.length), "but no spreadsheet");
  ts_text_release(&file);
  file = packed(&other, 1);
  refused(read_bytes("x.docx", file.data, file.length), "neither an OpenDocument nor");
  ts_text_release(&file);
  refused(read_bytes("x.ods", "PK\3\4 and no more", 16), "damaged");
}
END_TEST

/* The content decides, not the name. */
START_TEST(a_wrong_ending_does_no_harm) {
  ts_text file = xlsx_file("", "<row><c><v>1</v></c></row>");
  ck_assert(read_bytes("x.csv", file.data, file.length));
  number_at(0, 0, TS_CELL_NUMBER, 1);
  ts_text_release(&file);
}
END_TEST

Suite *suite_table(void) {
  Suite *suite = suite_create("table");
  TCase *tests = tcase_create("table");
  tcase_add_checked_fixture(tests, begin, end);
  tcase_set_timeout(tests, 60);
  tcase_add_loop_test(tests, quotes_separators_and_line_ends, 0, 4);
  tcase_add_test(tests, a_semicolon_separates_where_commas_are_decimal);
  tcase_add_test(tests, one_column_and_nothing_are_tables_too);
  tcase_add_loop_test(tests, what_is_no_csv_is_refused_with_its_place, 0, 6);
  tcase_add_test(tests, too_much_is_refused);
  tcase_add_test(tests, cells_are_named_as_spreadsheets_name_them);
  tcase_add_test(tests, an_opendocument_cell_is_what_its_type_says);
  tcase_add_test(tests, repeated_cells_and_rows_are_counted);
  tcase_add_loop_test(tests, repeating_without_end_is_refused, 0, 4);
  tcase_add_test(tests, repeating_empty_cells_costs_no_time);
  tcase_add_test(tests, an_office_open_xml_cell_is_what_its_style_says);
  tcase_add_test(tests, serial_dates_count_from_either_beginning);
  tcase_add_loop_test(tests, a_cell_that_is_not_what_it_says_is_refused, 0, 7);
  tcase_add_test(tests, a_place_that_is_none_is_refused);
  tcase_add_loop_test(tests, a_cut_archive_is_refused_or_read_whole, 0, 2);
  tcase_add_test(tests, a_byte_that_changed_on_the_way_is_noticed);
  tcase_add_test(tests, a_bomb_is_refused_before_it_goes_off);
  tcase_add_test(tests, xml_that_reaches_out_or_down_is_refused);
  tcase_add_test(tests, another_kind_of_file_is_named_as_such);
  tcase_add_test(tests, a_wrong_ending_does_no_harm);
  suite_add_tcase(suite, tests);
  return suite;
}
