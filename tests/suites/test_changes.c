/* changes: what would change a finding, made by hand and read back from assessment.xml. */
#include "assess_world.h"

#include "assess/probe.h"
#include "base/text.h"
#include "base/xml.h"
#include <check.h>
#include <libxml/xpath.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_changes(void);

static const char rules[] =
    "control { id = 'shorter', title = 'Shorter take', kind = 'elimination', say = 'Stop at "
    "ten.',\n"
    "  check = 'watch', often = 'daily', who = 'us',\n"
    "  changes = { { fact = 'immersion.breath-hold', at_most = '8 s' } } }\n"
    "control { id = 'drill', title = 'Drill', kind = 'administrative', say = 'Drill.',\n"
    "  check = 'look', often = 'daily', who = 'us', lowers = { likelihood = 1 } }\n"
    "rule { id = 'age', title = 'Young', each = 'immersion', harm = 'performer: tired',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (i)\n"
    "    if i.age < q'18 year' then\n"
    "      hazard { likelihood = 3, severity = 3, because = 'young' }\n"
    "    end end }\n"
    "rule { id = 'hold', title = 'Hold', each = 'immersion', harm = 'performer: drowning',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (i)\n"
    "    if i.breath_hold > q'10 s' then\n"
    "      hazard { likelihood = 3, severity = 4, because = 'long' }\n"
    "    end end }\n"
    "rule { id = 'halt', title = 'Halt', each = 'task', harm = 'performer: drowning',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (t)\n"
    "    stop { because = 'halt' } end }\n"
    "rule { id = 'paper', title = 'Paper', each = 'task', harm = 'none',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (t)\n"
    "    duty { state = nil, because = 'open', instrument = 'Act', section = '1' } end }\n";

static assess_world w;
static ts_assessment *a;
static ts_xml *xml;
static char *bytes;

static void begin(void) {
  assess_world_make(&w, rules, "breath-hold=\"12..18 s\"", "", "");
  ck_assert(ts_dossier_set(w.dossier, "tank/water/temperature", "26.5 degC", w.problems));
  ck_assert(ts_dossier_set(w.dossier, "p2/born", "2012-05-02", w.problems));
  a = assess_world_run(&w);
  for (size_t i = 0; i < a->finding_count; i++)
    a->findings[i].when_worst.count = a->findings[i].when_best.count = a->findings[i].margin_count =
        a->findings[i].way_count = 0;
  for (size_t i = 0; i < a->duty_count; i++)
    a->duties[i].when_worst.count = a->duties[i].when_best.count = a->duties[i].margin_count = 0;
  a->open_count = a->remedy_count = 0;
  xml = NULL;
  bytes = NULL;
}

static void end(void) {
  ts_xml_free(xml);
  free(bytes);
  ts_assessment_free(a);
  assess_world_free(&w);
}

/* ---- by hand ------------------------------------------------------------------------------ */

static uint32_t slot_of(const char *path) {
  char found[256];
  for (uint32_t slot = 0; slot < ts_slot_count(w.dossier); slot++)
    if (ts_same(ts_slot_path(w.dossier, slot, found, sizeof found), path)) return slot;
  ck_abort_msg("no fact %s", path);
}

static size_t index_of(const char *rule, const char *subject) {
  for (size_t i = 0; i < a->finding_count; i++)
    if (ts_same(ts_rule_at(w.packs, a->findings[i].rule)->id, rule) &&
        ts_same(ts_subject_at(w.dossier, a->findings[i].subject)->path, subject))
      return i;
  ck_abort_msg("no finding %s on %s", rule, subject);
}

static ts_finding *finding(const char *rule, const char *subject) {
  return &a->findings[index_of(rule, subject)];
}

static ts_stand scored(int likelihood, int severity) {
  return ts_stand_of(ts_matrix_score(w.matrix, likelihood, severity), TS_GONE, TS_MET);
}

static double si(const char *text) {
  ts_range range;
  ts_dim dim;
  char why[128] = "";
  ck_assert_msg(ts_quantity_read(w.units, text, &range, &dim, why, sizeof why), "%s", why);
  return range.lo;
}

/* ---- read back ------------------------------------------------------------------------------ */

static void write_it(void) {
  size_t length = 0;
  ts_xml_free(xml);
  free(bytes);
  ts_assessment_write(a, &bytes, &length);
  xml = ts_xml_read(bytes, length, "assessment.xml", w.problems);
  ck_assert_ptr_nonnull(xml);
}

/* What an XPath says, as a text. */
static const char *at(const char *path) {
  xmlXPathContext *context = xmlXPathNewContext(ts_xml_document(xml));
  xmlXPathObject *found =
      xmlXPathEval(BAD_CAST ts_arena_printf(w.arena, "string(%s)", path), context);
  ck_assert_ptr_nonnull(found);
  const char *copy = ts_arena_copy(w.arena, (const char *)found->stringval);
  xmlXPathFreeObject(found);
  xmlXPathFreeContext(context);
  return copy;
}

/* ---- margins --------------------------------------------------------------------------- */

typedef struct {
  const char *path;
  ts_side_of side;
  const char *from, *edge;
  bool included;
  int then[2], before[2];
  const char *words, *title, *attributes; /* side gets above */
} case_of_margin;

static const case_of_margin margins[] = {
    {"tank/water/temperature",
     TS_UP,
     "26.5 degC",
     "28 degC",
     true,
     {3, 3},
     {2, 3},
     "high from 28 °C; now 26.5 °C; 1.5 K away",
     "water temperature",
     "up worse yes"},
    {"tank/water/temperature",
     TS_UP,
     "26.5 degC",
     "28 degC",
     false,
     {0, 0},
     {2, 3},
     "not found above 28 °C; now 26.5 °C; 1.5 K away",
     "water temperature",
     "up better no"},
    {"t1/p1/breath-hold",
     TS_DOWN,
     "12 s",
     "10 s",
     true,
     {2, 3},
     {3, 4},
     "moderate at 10 s or below; now 12..18 s; 2 s away",
     "breath hold",
     "down better no"},
    {"t1/p1/breath-hold",
     TS_UP,
     "18 s",
     "20.3456 s",
     false,
     {4, 4},
     {3, 4},
     "very high above 20.35 s; now 12..18 s; 2.3 s away",
     "breath hold",
     "up worse yes"},
    {"t1/p1/breath-hold",
     TS_DOWN,
     "12 s",
     "0 s",
     true,
     {0, 0},
     {3, 4},
     "not found at 0 s; now 12..18 s; 12 s away",
     "breath hold",
     "down better no"},
    {"t1/p1/breath-hold",
     TS_UP,
     "18 s",
     "18 s",
     false,
     {3, 5},
     {3, 4},
     "very high above 18 s; now 12..18 s; at the edge",
     "breath hold",
     "up worse yes"},
    {"t1/p1/breath-hold",
     TS_UP,
     "8 s",
     "9 s",
     false,
     {3, 4},
     {2, 3},
     "high above 9 s; now 8 s with what is in place; 1 s away",
     "breath hold",
     "up worse yes"},
    {"t1/p1/breath-hold",
     TS_FROM_LOW,
     "12 s",
     "15 s",
     false,
     {3, 4},
     {2, 3},
     "high only above 15 s; may be 12..18 s",
     "breath hold",
     "inside worse yes"},
    {"t1/p1/breath-hold",
     TS_FROM_HIGH,
     "18 s",
     "13 s",
     true,
     {3, 3},
     {3, 4},
     "high 9 only at 13 s or below; may be 12..18 s",
     "breath hold",
     "inside better yes"},
    {"t1/p2/takes",
     TS_FROM_LOW,
     "0",
     "9",
     true,
     {3, 4},
     {2, 3},
     "high only from 9; may be 0..500",
     "takes of p2",
     "inside worse yes"},
    {"2027-03-09/wrap",
     TS_FROM_HIGH,
     "47:59",
     "19:30",
     false,
     {2, 3},
     {3, 4},
     "moderate only before 19:30; may be 00:00..47:59",
     "day wrap",
     "inside better no"},
};

START_TEST(margins_say_what_comes_where_and_how_far_off) {
  const case_of_margin *c = &margins[_i];
  begin();
  ts_finding *f = finding("hold", "t1/p1");
  ts_margin margin = {.slot = slot_of(c->path),
                      .side = c->side,
                      .from = si(c->from),
                      .edge = si(c->edge),
                      .included = c->included,
                      .then = scored(c->then[0], c->then[1]),
                      .before = scored(c->before[0], c->before[1])};
  f->margins = &margin;
  f->margin_count = 1;
  write_it();
  ck_assert_str_eq(at("//margin/@words"), c->words);
  ck_assert_str_eq(at("//margin/@title"), c->title);
  ck_assert_str_eq(at("concat(//margin/@side, ' ', //margin/@gets, ' ', //margin/@above)"),
                   c->attributes);
  ck_assert_str_eq(at("//margin/@path"), c->path);
  ck_assert_str_eq(at("count(//margin/@withheld)"), "0");
  end();
}
END_TEST

START_TEST(margins_of_stops_and_duties_have_their_own_words) {
  begin();
  ts_stand gone = {.certainty = TS_GONE}, possible = {.certainty = TS_POSSIBLE};
  ts_margin of_stop = {.slot = slot_of("t1/p1/breath-hold"),
                       .side = TS_UP,
                       .from = 18,
                       .edge = 20,
                       .then = possible,
                       .before = gone};
  ts_margin of_duty = {.slot = slot_of("t1/p1/breath-hold"),
                       .side = TS_UP,
                       .from = 18,
                       .edge = 20,
                       .then = {.duty = TS_NOT_MET},
                       .before = {.duty = TS_MET}};
  ts_finding *stop = finding("halt", "t1");
  stop->margins = &of_stop;
  stop->margin_count = 1;
  a->duties[0].margins = &of_duty;
  a->duties[0].margin_count = 1;
  write_it();
  ck_assert_str_eq(at("//finding/margin/@words"),
                   "possible stop above 20 s; now 12..18 s; 2 s away");
  ck_assert_str_eq(at("//finding/margin/@title"), "breath hold of One");
  ck_assert_str_eq(at("//duty/margin/@words"), "not met above 20 s; now 12..18 s; 2 s away");
  ck_assert_str_eq(at("//duty/margin/@gets"), "worse");
  end();
}
END_TEST

/* A way down that does nothing else. */
static ts_elsewhere alone(uint32_t slot, const ts_value *value) {
  return (ts_elsewhere){.number = 1, .slot = slot, .value = value, .better_count = 1};
}

/* ---- what not everyone may see --------------------------------------------------------- */

START_TEST(numbers_that_give_something_personal_away_are_withheld) {
  begin();
  /* the fact itself is confidential */
  ts_margin born = {.slot = slot_of("p1/born"),
                    .side = TS_FROM_LOW,
                    .edge = si("2009-03-09"),
                    .then = scored(3, 4),
                    .before = scored(2, 3)};
  ts_finding *f = finding("hold", "t1/p1");
  f->margins = &born;
  f->margin_count = 1;
  /* the finding rests on one that somebody stated: its edges follow from that */
  ts_margin hold = {.slot = slot_of("t1/p2/breath-hold"),
                    .side = TS_UP,
                    .from = 0,
                    .edge = 5,
                    .then = scored(4, 4),
                    .before = scored(3, 3)};
  ts_value five = {.range = {5, 5}};
  ts_elsewhere only = alone(hold.slot, &five);
  ts_way move = {.does = &only, .edge_included = true, .then = scored(2, 2)};
  ts_finding *young = finding("age", "t1/p2");
  young->margins = &hold;
  young->ways = &move;
  young->margin_count = young->way_count = 1;
  write_it();
  ck_assert_str_eq(at("//finding[@rule='hold']/margin/@withheld"), "(withheld)");
  ck_assert_str_eq(at("//finding[@rule='hold']/margin/@sees"), "confidential");
  ck_assert_str_eq(at("//finding[@rule='age']/margin/@withheld"), "(withheld)");
  ck_assert_str_eq(at("//finding[@rule='age']/margin/@sees"), "open");
  ck_assert_str_eq(at("//finding[@rule='age']/way/@withheld"), "(withheld)");
  end();
}
END_TEST

START_TEST(clauses_stand_one_by_one) {
  static const ts_clause two[] = {
      {.text = "free chlorine above 1.8 mg/L"},
      {.text = "born after 2010-01-01", .withheld = "born: (withheld)"}};
  begin();
  ts_finding *f = finding("hold", "t1/p1");
  f->when_worst = (ts_condition){.clauses = two, .count = 2, .enough = false};
  f->when_best = (ts_condition){.clauses = two, .count = 1, .enough = true};
  a->duties[0].when_best = (ts_condition){.clauses = two, .count = 1, .enough = true};
  write_it();
  ck_assert_str_eq(at("count(//finding/when[@case='worst'][@enough='no'])"), "2");
  ck_assert_str_eq(at("//finding/when[@case='best'][@enough='yes']/@text"), two[0].text);
  ck_assert_str_eq(at("//when[1]/@withheld"), "");
  ck_assert_str_eq(at("//finding/when[2]/@withheld"), "born: (withheld)");
  ck_assert_str_eq(at("//duty/when/@text"), two[0].text);
  end();
}
END_TEST

/* ---- ways ------------------------------------------------------------------------------ */

static ts_value number_value(const char *text) { return (ts_value){.range = {si(text), si(text)}}; }

START_TEST(moves_name_the_value_that_is_enough) {
  static const struct {
    const char *path, *value;
    bool included, upward;
    const char *words;
  } moves[] = {
      {"t1/p1/breath-hold", "10 s", true, false, "breath hold at most 10 s; now 12..18 s"},
      {"t1/p1/breath-hold", "10 s", false, false, "breath hold below 10 s; now 12..18 s"},
      {"tank/water/temperature", "28 degC", true, true,
       "water temperature at least 28 °C; now 26.5 °C"},
      {"tank/water/temperature", "28 degC", false, true,
       "water temperature above 28 °C; now 26.5 °C"},
      {"p1/born", "2009-03-09", true, false, "person born up to 2009-03-09; now not known"},
      {"p1/born", "2009-03-09", false, true, "person born after 2009-03-09; now not known"}};
  begin();
  ts_finding *f = finding("hold", "t1/p1");
  ts_value value = number_value(moves[_i].value);
  ts_elsewhere only = alone(slot_of(moves[_i].path), &value);
  ts_way way = {.does = &only,
                .edge_included = moves[_i].included,
                .upward = moves[_i].upward,
                .then = scored(2, 3)};
  f->ways = &way;
  f->way_count = 1;
  write_it();
  ck_assert_str_eq(at("//way/@words"), moves[_i].words);
  ck_assert_str_eq(at("//way/@kind"), "move");
  ck_assert_str_eq(at("concat(//way/@then, ' ', //way/@likelihood, //way/@severity, //way/@score, "
                      "//way/@band)"),
                   "moderate 6 236moderate");
  end();
}
END_TEST

START_TEST(answers_are_named_as_such) {
  begin();
  ts_finding *stop = finding("halt", "t1");
  ts_value yes = {.choices = 2};
  ts_elsewhere only = alone(slot_of("t1/p1/own-safety-diver"), &yes);
  ts_way way = {.does = &only};
  stop->ways = &way;
  stop->way_count = 1;
  write_it();
  ck_assert_str_eq(at("//way/@words"), "own safety diver of One: yes; now not known");
  ck_assert_str_eq(at("concat(//way/@then, ', ', //way/@state)"), "not found, gone");
  end();
}
END_TEST

/* The number of the rule over the subject among the pairs. */
static size_t pair_of(const char *rule, const char *subject) {
  for (size_t i = 0; i < a->pair_count; i++)
    if (strcmp(ts_rule_at(w.packs, a->pairs[i].rule)->id, rule) == 0 &&
        a->pairs[i].subject == ts_subject_find(w.dossier, subject))
      return i;
  ck_abort_msg("%s was not asked of %s", rule, subject);
}

static ts_shift shift(ts_word word, size_t of, ts_stand then) {
  return (ts_shift){.of = (uint32_t)of,
                    .rank = then.rank,
                    .likelihood = then.likelihood,
                    .severity = then.severity,
                    .certainty = then.certainty,
                    .duty = then.duty,
                    .word = word};
}

START_TEST(controls_say_what_gets_better_and_worse) {
  begin();
  size_t young = index_of("age", "t1/p2"), halt = index_of("halt", "t1");
  ts_finding *f = finding("hold", "t1/p1");
  size_t fresh = pair_of("age", "t1/p1");
  ts_shift shifts[] = {
      shift(TS_HAZARD, (size_t)(f - a->findings), (ts_stand){0}),
      shift(TS_STOP, halt, (ts_stand){0}),
      shift(TS_HAZARD, young, scored(4, 4)),
      shift(TS_DUTY, 0, (ts_stand){.duty = TS_NOT_MET}),
      shift(TS_HAZARD, fresh, scored(3, 3)),
      shift(TS_HAZARD, fresh, scored(3, 3)),
  };
  shifts[4].fresh = shifts[5].fresh = true;
  const ts_control *shorter = ts_control_find(w.packs, "shorter");
  const ts_control *drill = ts_control_find(w.packs, "drill");
  ts_elsewhere itself = {.number = 1,
                         .slot = TS_NO_SLOT,
                         .from = f->subject,
                         .controls = {drill},
                         .shifts = shifts,
                         .better_count = 1};
  ts_elsewhere halts = itself, both = itself;
  halts.number = 2;
  halts.better_count = both.better_count = 2;
  halts.controls[0] = both.controls[0] = shorter;
  both.controls[1] = drill;
  both.number = 3;
  both.worse_count = 4;
  both.not_tried = 7;
  const ts_elsewhere *all[] = {&itself, &halts, &both};
  a->elsewhere = all;
  a->elsewhere_count = 3;
  ts_way ways[] = {{.does = &halts}, {.does = &both}, {.does = &itself}};
  f->ways = ways;
  f->way_count = 3;
  write_it();
  ck_assert_str_eq(at("//way[@kind='control']/control/@title"), "Shorter take");
  ck_assert_str_eq(at("concat(//way[1]/@then, //way[1]/@none)"), "not foundyes");
  ck_assert_str_eq(at("//shifts[@id = //way[1]/@elsewhere]/better[2]/@then"), "not found");
  ck_assert_str_eq(at("//shifts[1]/better[2]/@finding = //finding[@rule='halt']/@id"), "true");
  ck_assert_str_eq(at("count(//way[@kind='pair']/control)"), "2");
  ck_assert_str_eq(at("//shifts[@id = //way[@kind='pair']/@elsewhere]/@not-tried"), "7");
  ck_assert_str_eq(at("count(//shifts/@not-tried)"), "1");
  ck_assert_str_eq(at("substring-after(//worse[1]/@words, ' ')"), "Young: high 9 → very high 16");
  ck_assert_str_eq(at("//worse[2]/@words"), "D1 Paper: open → not met");
  ck_assert_str_eq(at("//worse[3]/@words"), "new: Young, One: high 9");
  ck_assert_str_eq(at("count(//worse)"), "3");             /* the same twice is said once */
  ck_assert_str_eq(at("count(//way[3]/@elsewhere)"), "0"); /* nothing but the finding itself */
  ck_assert_str_eq(at("count(//shifts)"), "2");
  ck_assert_str_eq(at("//worse[1]/@finding = //finding[@rule='age'][@subject='t1/p2']/@id"),
                   "true");
  /* what a way names is in the register, or a link would lead nowhere */
  ck_assert_str_eq(at("count(/assessment/controls/control)"), "2");
  end();
}
END_TEST

/* ---- questions and remedies ------------------------------------------------------------ */

START_TEST(open_facts_stand_in_the_order_given_with_what_they_are_worth) {
  begin();
  ts_open_fact open[] = {{.slot = slot_of("t1/p1/own-safety-diver"),
                          .findings = "F1",
                          .removes = 20,
                          .middle = 10,
                          .best = {.choices = 2},
                          .settles = 0.667},
                         {.slot = slot_of("t1/p1/breath-hold"),
                          .findings = "F2",
                          .removes = 8,
                          .middle = 4,
                          .best = {.range = {9, 9}},
                          .settles = 1},
                         {.slot = slot_of("p2/born"), .findings = "F2"}};
  a->open = open;
  a->open_count = 3;
  write_it();
  ck_assert_str_eq(at("concat(//open-facts/fact[1]/@title, ' ', //open-facts/fact[1]/@best)"),
                   "own safety diver yes");
  ck_assert_str_eq(
      at("concat(//fact[1]/@removes, ' ', //fact[1]/@middle, ' ', //fact[1]/@settles, ' ',"
         " //open-facts/fact[1]/@state)"),
      "20 10 67 unknown");
  ck_assert_str_eq(at("//open-facts/fact[1]/@plausible"), "yes or no");
  ck_assert_str_eq(at("concat(//open-facts/fact[2]/@now, ', ', //open-facts/fact[2]/@best)"),
                   "12..18 s, 9 s");
  ck_assert_str_eq(at("count(//open-facts/fact[3]/@best)"), "0");
  ck_assert_str_eq(at("//open-facts/fact[3]/@withheld"), "(withheld)");
  a->open_count = 0; /* not in the arena */
  end();
}
END_TEST

START_TEST(remedies_name_controls_or_what_is_left) {
  begin();
  const ts_control *controls[] = {ts_control_find(w.packs, "drill")};
  size_t left[] = {index_of("halt", "t1"), index_of("hold", "t1/p1")};
  ts_subject task = ts_subject_find(w.dossier, "t1");
  ts_remedy remedies[] = {{.task = task, .controls = controls, .control_count = 1},
                          {.task = task, .none = true, .left = left, .left_count = 2}};
  a->remedies = remedies;
  a->remedy_count = 2;
  write_it();
  ck_assert_str_eq(
      at("concat(//remedy[1]/@task, ' ', //remedy[1]/@task-label, ' ', //remedy[1]/@none)"),
      "t1 Task no");
  ck_assert_str_eq(at("//remedy[1]/control/@ref"), "drill");
  ck_assert_str_eq(at("//remedy[2]/@none"), "yes");
  ck_assert_str_eq(at("concat(//remedy[2]/left[1]/@title, ' ', //remedy[2]/left[2]/@title)"),
                   "Halt Hold");
  ck_assert_str_eq(at("//controls/control/@ref"), "drill");
  end();
}
END_TEST

Suite *suite_changes(void) {
  Suite *suite = suite_create("changes");
  TCase *tcase = tcase_create("changes");
  tcase_set_timeout(tcase, 120);
  tcase_add_loop_test(tcase, margins_say_what_comes_where_and_how_far_off, 0,
                      sizeof margins / sizeof *margins);
  tcase_add_test(tcase, margins_of_stops_and_duties_have_their_own_words);
  tcase_add_test(tcase, numbers_that_give_something_personal_away_are_withheld);
  tcase_add_test(tcase, clauses_stand_one_by_one);
  tcase_add_loop_test(tcase, moves_name_the_value_that_is_enough, 0, 6);
  tcase_add_test(tcase, answers_are_named_as_such);
  tcase_add_test(tcase, controls_say_what_gets_better_and_worse);
  tcase_add_test(tcase, open_facts_stand_in_the_order_given_with_what_they_are_worth);
  tcase_add_test(tcase, remedies_name_controls_or_what_is_left);
  suite_add_tcase(suite, tcase);
  return suite;
}
