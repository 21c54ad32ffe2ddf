/* import: what tables change in a dossier, what they do not, and what is refused. */
#include "said.h"
#include "scratch.h"

#include "base/file.h"
#include "base/text.h"
#include "base/zip.h"
#include "dossier/import.h"
#include "dossier/world.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_import(void);

static ts_units *units;
static ts_vocabulary *vocabulary;
static ts_diagnostics *problems;
static ts_arena *arena;
static ts_dossier *dossier;
static ts_import *import;
static char folder[256];

static const char written[] =
    "<?xml version=\"1.0\"?>\n"
    "<!-- ours -->\n"
    "<dossier format=\"1\">\n"
    "  <production title=\"Mill\" jurisdiction=\"gb-eng\" revision=\"1\" on=\"2027-05-01\" by=\"I. "
    "Marsh\"/>\n"
    "  <site id=\"race\" title=\"Mill race\" indoor=\"no\"><basin depth='2 m'/></site>\n"
    "  <person id=\"ann\" name=\"Ann Lee\" role=\"performer\" mass=\"60 kg\"/> <!-- lead -->\n"
    "  <person id=\"bob\" name=\"Bob Ash\" role=\"crew\"/>\n"
    "  <day date=\"2027-05-11\" site=\"race\">\n"
    "    <task id=\"leap\" title=\"Ann leaps\" start=\"10:00\" finish=\"11:00\">\n"
    "      <immersion person=\"ann\" wears=\"none\" depth=\"1.5 m\"/>\n"
    "    </task>\n"
    "    <record person=\"ann\" down=\"10:05\" up=\"10:08\" depth=\"1.4 m\"/>\n"
    "  </day>\n"
    "  <day date=\"2027-05-12\" site=\"race\"/>\n"
    "</dossier>\n";

static const char *path(void) { return ts_path_join(arena, folder, "dossier.xml"); }

static void begin(void) {
  char why[256];
  units = ts_units_new(why, sizeof why);
  vocabulary = ts_vocabulary_new();
  problems = ts_diagnostics_new();
  arena = ts_arena_new();
  scratch_make(folder, sizeof folder);
  ck_assert(ts_file_write(path(), written, strlen(written), problems));
  dossier = ts_dossier_read(path(), vocabulary, units, problems);
  ck_assert_ptr_nonnull(dossier);
  ts_diagnostics_free(problems); /* its warnings */
  problems = ts_diagnostics_new();
  import = ts_import_new(dossier, problems);
}

static void end(void) {
  ts_import_free(import);
  ts_dossier_free(dossier);
  scratch_remove(folder);
  ts_arena_free(arena);
  ts_diagnostics_free(problems);
  ts_vocabulary_free(vocabulary);
  ts_units_free(units);
}

static const char *said(void) { return said_of(problems, arena); }

static bool takes(const char *file, const char *table) {
  return ts_import_table(import, file, table, strlen(table)) && ts_import_work_out(import);
}

static bool maps(const char *map) { return ts_import_map(import, "map.xml", map, strlen(map)); }

/* The dossier's text with all that is changed; it reads. */
static const char *changed(void) {
  ts_rewrite *rewrite = ts_rewrite_new(dossier, problems);
  ts_text out;
  ck_assert(ts_rewrite_source(rewrite, 0, written, strlen(written)));
  ck_assert_msg(ts_import_rewrite(import, rewrite), "%s", said());
  const char *text = ts_rewrite_text(rewrite, 0, &out) ? ts_arena_copy(arena, out.data) : written;
  ts_text_release(&out);
  ts_rewrite_free(rewrite);
  ts_given_text given = {"dossier.xml", text, strlen(text)};
  ts_dossier *then = ts_dossier_read_given(path(), &given, 1, vocabulary, units, problems);
  ck_assert_msg(then != NULL, "%s\n%s", said(), text);
  ts_dossier_free(then);
  return text;
}

/* The dossier with one piece of it exchanged, which is all that a table changes. */
static void becomes(const char *from, const char *to) {
  ts_text expected = {0};
  const char *at = strstr(written, from), *text = changed();
  ck_assert_msg(at != NULL, "\"%s\" is not written", from);
  ts_text_add_n(&expected, written, (size_t)(at - written));
  ts_text_add(&expected, to);
  ts_text_add(&expected, at + strlen(from));
  ck_assert_str_eq(text, expected.data);
  ts_text_release(&expected);
}

static void refused(bool taken, const char *about) {
  ck_assert_msg(!taken, "taken; expected: %s", about);
  ck_assert_msg(strstr(said(), about) != NULL, "expected \"%s\" in: %s", about, said());
}

/* ---- what is taken -------------------------------------------------------------------- */

START_TEST(a_changed_value_takes_the_place_of_the_old) {
  ck_assert_msg(takes("people.csv", "id,mass (kg)\nann,61\nbob,\n"), "%s", said());
  ck_assert_uint_eq(ts_import_count(import), 1);
  ts_import_change c = ts_import_at(import, 0);
  ck_assert_str_eq(c.subject, "ann");
  ck_assert_str_eq(c.fact, "mass");
  ck_assert_str_eq(c.from, "60 kg");
  ck_assert_str_eq(c.to, "61 kg");
  ck_assert_str_eq(c.where, "people.csv, B2");
  becomes("60 kg", "61 kg");
}
END_TEST

START_TEST(what_is_so_already_is_no_change) {
  ck_assert(takes("people.csv", "name,role,mass (g)\nann  LEE,Performer,60000\n"));
  ck_assert_uint_eq(ts_import_count(import), 0);
  ck_assert_str_eq(changed(), written);
}
END_TEST

/* What a number is measured in comes from the cell, else from the heading, else from the map. */
START_TEST(a_number_has_its_unit_from_somewhere) {
  static const struct {
    const char *map, *table, *to;
  } ways[] = {
      {NULL, "id,mass\nann,61.5 kg\n", "61.5 kg"},
      {NULL, "id;mass [lb]\nann;135\n", "135 lb"},
      {NULL, "id,mass (lb)\nann,61.5 kg\n", "61.5 kg"},
      {NULL, "id,mass (kg)\nann,60..62\n", "60..62 kg"},
      {"<import><sheet name='people'><column heading='Weight' fact='mass' unit='kg'/></sheet>"
       "</import>",
       "id,Weight\nann,61\n", "61 kg"},
      {"<import decimal=','><sheet name='people' head='3'><column at='B' fact='mass' unit='kg'/>"
       "</sheet></import>",
       "Crew\n\nid;what it weighs\nann;61,5\n", "61.5 kg"},
  };
  if (ways[_i].map != NULL) ck_assert_msg(maps(ways[_i].map), "%s", said());
  ck_assert_msg(takes("people.csv", ways[_i].table), "%s", said());
  becomes("60 kg", ways[_i].to);
}
END_TEST

/* A heading whose words are all in the meaning of one fact is taken for it, and that is said. */
START_TEST(a_heading_may_be_what_a_fact_means) {
  ck_assert_msg(takes("records.csv", "day,who,Left the surface,Depth greatest (m)\n"
                                     "2027-05-11,ann,10:05,1.6\n"),
                "%s", said());
  ck_assert_ptr_nonnull(
      strstr(said(), "records.csv, D1: note: \"Depth greatest (m)\" is taken for \"depth\""));
  ck_assert_ptr_null(strstr(said(), "C1")); /* the meaning as it stands is as good as the name */
  becomes("1.4 m", "1.6 m");
}
END_TEST

START_TEST(a_new_person_follows_the_last) {
  ck_assert_msg(takes("crew.csv", "Name,Role,Swims clothed\nCy O'Dell,stunt performer,Y\n"), "%s",
                said());
  becomes("role=\"crew\"/>\n",
          "role=\"crew\"/>\n  <person id=\"cy-o-dell\" name=\"Cy O&apos;Dell\" "
          "role=\"stunt-performer\" swims-clothed=\"yes\"/>\n");
}
END_TEST

START_TEST(records_go_by_day_person_and_time_down) {
  ck_assert_msg(takes("log.csv", "day,person,down,up,depth (m),incident\n"
                                 "2027-05-11,ann,10:05,10:09,1.4,none\n"
                                 "2027-05-11,Ann Lee,10:30,10:31,2,\n"),
                "%s", said());
  const char *text = changed();
  ck_assert_ptr_nonnull(strstr(text, "    <record person=\"ann\" down=\"10:05\" up=\"10:09\" "
                                     "depth=\"1.4 m\" incident=\"none\"/>\n"
                                     "    <record person=\"ann\" down=\"10:30\" up=\"10:31\" "
                                     "depth=\"2 m\"/>\n  </day>\n"));
}
END_TEST

/* The hours before and after noon are told apart where they are said. */
START_TEST(a_time_of_day_is_written_in_many_ways) {
  static const char *const ways[][2] = {{"1:05 PM", "13:05"},
                                        {"12:00am", "00:00"},
                                        {"11:59:30 am", "11:59:30"},
                                        {"12:30:00 PM", "12:30"}};
  ck_assert_msg(
      takes("log.csv", ts_arena_printf(arena, "day,person,down\n2027-05-12,ann,%s\n", ways[_i][0])),
      "%s", said());
  ck_assert_ptr_nonnull(strstr(changed(), ts_arena_printf(arena, " down=\"%s\"/>", ways[_i][1])));
}
END_TEST

/* A day that stands alone, and everything that may stand in it, in whatever order the files come.
 */
START_TEST(what_is_new_may_stand_in_what_is_new) {
  static const char *const tables[][2] = {
      {"records.csv", "date,person,down,up\n2027-05-13,dee,14:00,14:02\n"
                      "2027-05-12,dee,09:00,09:01\n"},
      {"immersions.csv", "task,person,wears,depth (m)\nFinale,dee,none,1\n"},
      {"tasks.csv", "day,id,title\n2027-05-13,end,Finale\n"},
      {"days.csv", "date,site\n2027-05-13,Mill race\n"},
      {"people.csv", "id,name,role\ndee,Dee Fry,performer\n"}};
  for (size_t i = 0; i < 5; i++)
    ck_assert(ts_import_table(import, tables[i][0], tables[i][1], strlen(tables[i][1])));
  ck_assert_msg(ts_import_work_out(import), "%s", said());
  const char *text = changed();
  ck_assert_ptr_nonnull(strstr(text, "role=\"crew\"/>\n  <person id=\"dee\" name=\"Dee Fry\" "
                                     "role=\"performer\"/>\n  <day"));
  ck_assert_ptr_nonnull(strstr(text,
                               "  <day date=\"2027-05-12\" site=\"race\">\n"
                               "    <record person=\"dee\" down=\"09:00\" up=\"09:01\"/>\n"
                               "  </day>\n"
                               "  <day date=\"2027-05-13\" site=\"race\">\n"
                               "    <task id=\"end\" title=\"Finale\">\n"
                               "      <immersion person=\"dee\" wears=\"none\" depth=\"1 m\"/>\n"
                               "    </task>\n"
                               "    <record person=\"dee\" down=\"14:00\" up=\"14:02\"/>\n"
                               "  </day>\n</dossier>\n"));
}
END_TEST

START_TEST(a_part_of_the_only_site_is_begun) {
  ck_assert_msg(takes("water.csv", "temperature (degC),free chlorine (mg/L),pH\n18,0.5,7.2\n"),
                "%s", said());
  becomes(
      "indoor=\"no\">",
      "indoor=\"no\">\n    <water temperature=\"18 degC\" free-chlorine=\"0.5 mg/L\" ph=\"7.2\"/>");
}
END_TEST

START_TEST(of_a_log_the_map_says_what_counts) {
  static const struct {
    const char *rows, *temperature, *day;
  } ways[] = {{"latest", "17.5 degC", "2027-05-10"}, {"range", "17..18.5 degC", "2027-05-10"}};
  ck_assert(
      maps(ts_arena_printf(arena,
                           "<import dates='d.m.y'><sheet name='pool' entity='water' rows='%s' "
                           "kind='measured' by='W. Tench' on='2027-05-10'/></import>",
                           ways[_i].rows)));
  ck_assert_msg(takes("pool.csv", "sampled-on,temperature (degC)\n8.5.2027,18.5\n10.05.2027,17.5\n"
                                  "9.5.2027,17\n"),
                "%s", said());
  const char *text = changed();
  ck_assert_ptr_nonnull(
      strstr(text, ts_arena_printf(arena, "<water sampled-on=\"%s\" temperature=\"%s\"/>",
                                   ways[_i].day, ways[_i].temperature)));
  ck_assert_ptr_nonnull(strstr(text, "<evidence for=\"race/water/temperature\" kind=\"measured\" "
                                     "by=\"W. Tench\" on=\"2027-05-10\" ref=\"pool.csv, B"));
}
END_TEST

START_TEST(a_row_for_each_fact) {
  ck_assert_msg(takes("office.csv",
                      "subject,fact,unit,now,new value,known from,by whom,on which day,kept where\n"
                      "ann,mass,kg,60 kg,61,measured,D. Voss,2027-05-02,desk\n"
                      "ann,height,m,?,,,,,\n"
                      "leap/ann,depth,m,1.5 m,1.2..1.6,,,,\n"),
                "%s", said());
  const char *text = changed();
  ck_assert_ptr_nonnull(strstr(text, "mass=\"61 kg\"/> <!-- lead -->\n"));
  ck_assert_ptr_nonnull(strstr(text, "depth=\"1.2..1.6 m\"/>\n    </task>"));
  ck_assert_ptr_nonnull(strstr(text,
                               "  </day>\n  <day date=\"2027-05-12\" site=\"race\"/>\n"
                               "  <evidence for=\"ann/mass\" kind=\"measured\" by=\"D. Voss\" "
                               "on=\"2027-05-02\" ref=\"desk\"/>\n</dossier>\n"));
  ck_assert_uint_eq(ts_import_count(import), 2);
}
END_TEST

/* ---- cells of a spreadsheet ----------------------------------------------------------- */

#define ODF "urn:oasis:names:tc:opendocument:xmlns:"

/* One sheet with a row of headings and a row of cells, each as XML. */
static bool takes_cells(const char *sheet, const char *headings, const char *cells) {
  const char *at = headings;
  ts_text content = {0}, ods = {0};
  ts_text_addf(&content,
               "<o:document-content xmlns:o=\"" ODF "office:1.0\" xmlns:t=\"" ODF
               "table:1.0\" xmlns:x=\"" ODF "text:1.0\"><o:body><o:spreadsheet><t:table "
               "t:name=\"%s\"><t:table-row>",
               sheet);
  while (*at != '\0') {
    size_t length = strcspn(at, ",");
    ts_text_addf(&content, "<t:table-cell o:value-type=\"string\"><x:p>%.*s</x:p></t:table-cell>",
                 (int)length, at);
    at += length + (at[length] == ',');
  }
  ts_text_addf(&content,
               "</t:table-row><t:table-row>%s</t:table-row></t:table></o:spreadsheet></o:body>"
               "</o:document-content>",
               cells);
  ts_zip_entry entry = {"content.xml", content.data, content.length, false};
  ck_assert(ts_zip_write(&entry, 1, NULL, &ods));
  bool good = ts_import_table(import, "x.ods", ods.data, ods.length) && ts_import_work_out(import);
  ts_text_release(&content);
  ts_text_release(&ods);
  return good;
}

#define WORDS(text) "<t:table-cell o:value-type=\"string\"><x:p>" text "</x:p></t:table-cell>"
#define OF_DATE(text) "<t:table-cell o:value-type=\"date\" o:date-value=\"" text "\"/>"
#define OF_TIME(text) "<t:table-cell o:value-type=\"time\" o:time-value=\"" text "\"/>"
#define NUMBER(text) "<t:table-cell o:value-type=\"float\" o:value=\"" text "\"/>"
#define PERCENT(text) "<t:table-cell o:value-type=\"percentage\" o:value=\"" text "\"/>"
#define FLAG(text) "<t:table-cell o:value-type=\"boolean\" o:boolean-value=\"" text "\"/>"

static const struct {
  const char *sheet, *headings, *cells, *becomes;
} typed[] = {
    {"people", "id,born", WORDS("bob") OF_DATE("1990-03-02"),
     "<person id=\"bob\" name=\"Bob Ash\" role=\"crew\" born=\"1990-03-02\"/>"},
    {"people", "id,swims clothed", WORDS("bob") FLAG("true"), " swims-clothed=\"yes\"/>"},
    {"people", "id,treads water", WORDS("bob") OF_TIME("PT00H07M00S"), " treads-water=\"7 min\"/>"},
    {"people", "id,treads water (min)", WORDS("bob") OF_TIME("PT00H07M30S"),
     " treads-water=\"450 s\"/>"},
    {"people", "id,mass (kg)", WORDS("bob") NUMBER("70.10"), " mass=\"70.1 kg\"/>"},
    {"people", "id,dives", WORDS("bob") NUMBER("12"), " dives=\"12\"/>"},
    {"air", "humidity", PERCENT("0.07"), "<air humidity=\"7 %\"/>"},
    {"days", "date,call", OF_DATE("2027-05-12") OF_TIME("PT06H30M00S"),
     "<day date=\"2027-05-12\" site=\"race\" call=\"06:30\"/>"},
    /* Whole moments: on the day, and in the night after it. */
    {"records", "day,person,down,up",
     OF_DATE("2027-05-12") WORDS("ann") OF_DATE("2027-05-12T23:58:00")
         OF_DATE("2027-05-13T00:03:30"),
     "<record person=\"ann\" down=\"23:58\" up=\"24:03:30\"/>"},
};

START_TEST(a_typed_cell_says_what_its_type_says) {
  ck_assert_msg(takes_cells(typed[_i].sheet, typed[_i].headings, typed[_i].cells), "%s", said());
  const char *text = changed();
  ck_assert_msg(strstr(text, typed[_i].becomes) != NULL, "no %s in %s", typed[_i].becomes, text);
}
END_TEST

static const struct {
  const char *sheet, *headings, *cells, *about;
} mistyped[] = {
    {"people", "id,mass", WORDS("bob") NUMBER("70"),
     "x.ods, people, B2: error: bare number \"70\""},
    {"people", "id,mass (kg)", WORDS("bob") OF_DATE("2027-05-12"), "x.ods, people, B2: error: "},
    {"people", "id,born", WORDS("bob") NUMBER("33000"), "expected a date, like"},
    {"people", "id,born", WORDS("bob") OF_DATE("1990-03-02T10:00:00"),
     "x.ods, people, B2: error: "},
    {"air", "humidity", NUMBER("0.5"), "x.ods, air, A2: error: bare number \"0.5\""},
    {"records", "day,person,down",
     OF_DATE("2027-05-12") WORDS("ann") OF_DATE("2027-05-14T10:00:00"),
     "C2: error: \"2027-05-14 10:00\" is a day too"},
};

START_TEST(a_typed_cell_of_another_type_is_refused) {
  refused(takes_cells(mistyped[_i].sheet, mistyped[_i].headings, mistyped[_i].cells),
          mistyped[_i].about);
}
END_TEST

/* ---- what is refused, each with its cell ---------------------------------------------- */

static const struct {
  const char *file, *table, *about;
} bad[] = {
    {"people.csv", "id,mass\nann,61\n", "people.csv, B2: error: bare number \"61\" for \"mass\""},
    {"people.csv", "id,mass (m)\nann,61\n",
     "people.csv, B1: error: the unit \"m\" is one of length"},
    {"people.csv", "id,mass\nann,\"61,5 kg\"\n", "B2: error: \"61,5 kg\" has a comma in a number"},
    {"people.csv", "id,mass\nann,=60+1\n", "B2: error: holds a formula"},
    {"people.csv", "id,role\nann,performr\n", "the nearest is \"performer\""},
    {"people.csv", "id,born\nann,3/4/1990\n",
     "B2: error: \"3/4/1990\" does not say which is the day"},
    {"people.csv", "id,born\nann,1990-02-30\n", "B2: error: cannot read \"1990-02-30\""},
    {"people.csv", "id,role\nan n,crew\n", "A2: error: a new person needs an id of its own"},
    {"people.csv", "id,name,role\nanna,Ann Lee,crew\n", "but \"ann\" has that name"},
    {"people.csv", "id,mass (kg)\ncy,70\n", "the new person \"cy\" lacks \"role\""},
    {"people.csv", "id,mas\nann,1\n",
     "B1: error: \"mas\" is no fact of \"person\"; the nearest name is \"mass\""},
    {"people.csv", "id,depth (m)\nann,3\n",
     "B1: error: \"depth (m)\" could mean \"skill-depth\" of"},
    {"people.csv", "id,tested\nann,1\n", "\"tested\" could mean"},
    {"people.csv", "id,mass (kg),body mass (kg)\nann,1,2\n", "C1: error: means the same as B1"},
    {"people.csv", "id,mass (kg)\nann,61\nann,62\n",
     "B3: error: \"62 kg\" for \"mass\" of ann, which is \"61 kg\" in people.csv, B2"},
    {"records.csv", "day,person,down\n2027-05-14,ann,10:00\n",
     "A2: error: there is no day \"2027-05-14\"; the nearest is"},
    {"records.csv", "day,person,up\n2027-05-11,ann,10:00\n", "the row lacks \"down\""},
    {"records.csv", "person,down\nann,10:00\n", "the row does not say of which day it is"},
    {"tasks.csv", "day,id,title,rigs\n2027-05-11,x,X,wnch\n",
     "D2: error: there is no rig \"wnch\""},
    {"x.csv", "what,why\na,b\n", "nothing in it says anything of a dossier"},
    {"x.csv", "subject,fact,new value\nann,mas,1 kg\n",
     "B2: error: unknown fact \"mas\" of \"person\"; the nearest name is \"mass\""},
    {"x.csv", "subject,fact,new value\nanm,mass,1 kg\n", "A2: error: the row is of \"anm\""},
    {"x.csv", "subject,fact,new value,known from\nann,mass,61 kg,guess\n", "evidence says all of"},
    {"x.csv", "subject,fact,new value\nann,age-at-start,30 year\n",
     "unknown fact \"age-at-start\""},
};

START_TEST(what_is_not_sure_is_refused) {
  refused(takes(bad[_i].file, bad[_i].table), bad[_i].about);
}
END_TEST

START_TEST(everything_wrong_is_said_in_one_run) {
  ck_assert(!takes("records.csv", "day,person,down,depth\n2027-05-11,amn,10h5,2\n"
                                  "2027-05-11,ann,10:20,2 kg\n"));
  const char *all = said();
  static const char *const about[] = {"B2: error", "C2: error", "D2: error", "D3: error"};
  for (size_t i = 0; i < 4; i++)
    ck_assert_msg(strstr(all, about[i]) != NULL, "%s\n%s", about[i], all);
}
END_TEST

START_TEST(a_map_that_is_wrong_is_refused) {
  static const struct {
    const char *map, *about;
  } maps_[] = {
      {"<import><sheet name='people'><column heading='id' fcat='id'/></sheet></import>",
       "map.xml:1: error: unknown attribute \"fcat\" of \"column\"; the nearest name is \"fact\""},
      {"<import dates='d.m'/>", "cannot read \"d.m\" for \"dates\""},
      {"<import><sheet name='people' rows='last'/></import>", "the nearest is \"latest\""},
      {"<import><sheet name='people'><column at='B' unit='kilo'/></sheet></import>",
       "unknown unit"},
      {"<import><sheet name='people' by='A'/></import>", "evidence has all of"},
      {"<imports/>", "expected \"import\""},
      {"<!DOCTYPE import><import/>", "DOCTYPE"},
      {"<import><sheet name='peple'/></import>", "no file has a sheet \"peple\""},
      {"<import><sheet name='people' entity='persn'/></import>", "the nearest is \"person\""},
      {"<import><sheet name='people'><column heading='Age' fact='none'/></sheet></import>",
       "has no column \"Age\" in row 1"},
      {"<import><sheet name='people'><column at='B' fact='mas'/></sheet></import>",
       "unknown fact \"mas\" of \"person\"; the nearest name is \"mass\""},
  };
  refused(maps(maps_[_i].map) && takes("people.csv", "id,mass (kg)\nann,61\n"), maps_[_i].about);
}
END_TEST

/* ---- what a cell holds stays what it is ----------------------------------------------- */

/* Text that a spreadsheet, XML or a shell could take for more goes in and comes out as text. */
START_TEST(a_cell_never_becomes_markup) {
  static const char *const texts[] = {"<b>loud</b> & \"quoted\" 'twice'",
                                      "]]> <!-- x --> <?y?>",
                                      "&lt;person id=\"x\"/&gt;",
                                      "&#60; &amp; &entity;",
                                      "+1 @SUM(A1) -2",
                                      "$(rm) `id` ${x}"};
  ts_text table = {0};
  ts_text_add(&table, "id,note\nann,\"");
  for (const char *c = texts[_i]; *c != '\0'; c++)
    ts_text_add_n(&table, *c == '"' ? "\"\"" : c, *c == '"' ? 2 : 1);
  ts_text_add(&table, "\"\n");
  ck_assert_msg(takes("people.csv", table.data), "%s", said());
  const char *text = changed();
  ts_given_text given = {"dossier.xml", text, strlen(text)};
  ts_dossier *then = ts_dossier_read_given(path(), &given, 1, vocabulary, units, problems);
  ck_assert_uint_eq(ts_subject_count(then), ts_subject_count(dossier));
  ck_assert_str_eq(ts_world_text(then, ts_subject_find(then, "ann"), "note"), texts[_i]);
  ts_dossier_free(then);
  ts_text_release(&table);
}
END_TEST

Suite *suite_import(void) {
  Suite *suite = suite_create("import");
  TCase *tests = tcase_create("import");
  tcase_add_checked_fixture(tests, begin, end);
  tcase_set_timeout(tests, 60);
  tcase_add_test(tests, a_changed_value_takes_the_place_of_the_old);
  tcase_add_test(tests, what_is_so_already_is_no_change);
  tcase_add_loop_test(tests, a_number_has_its_unit_from_somewhere, 0, 6);
  tcase_add_test(tests, a_heading_may_be_what_a_fact_means);
  tcase_add_test(tests, a_new_person_follows_the_last);
  tcase_add_test(tests, records_go_by_day_person_and_time_down);
  tcase_add_loop_test(tests, a_time_of_day_is_written_in_many_ways, 0, 4);
  tcase_add_test(tests, what_is_new_may_stand_in_what_is_new);
  tcase_add_test(tests, a_part_of_the_only_site_is_begun);
  tcase_add_loop_test(tests, of_a_log_the_map_says_what_counts, 0, 2);
  tcase_add_test(tests, a_row_for_each_fact);
  tcase_add_loop_test(tests, a_typed_cell_says_what_its_type_says, 0,
                      (int)(sizeof typed / sizeof *typed));
  tcase_add_loop_test(tests, a_typed_cell_of_another_type_is_refused, 0,
                      (int)(sizeof mistyped / sizeof *mistyped));
  tcase_add_loop_test(tests, what_is_not_sure_is_refused, 0, (int)(sizeof bad / sizeof *bad));
  tcase_add_test(tests, everything_wrong_is_said_in_one_run);
  tcase_add_loop_test(tests, a_map_that_is_wrong_is_refused, 0, 11);
  tcase_add_loop_test(tests, a_cell_never_becomes_markup, 0, 6);
  suite_add_tcase(suite, tests);
  return suite;
}
