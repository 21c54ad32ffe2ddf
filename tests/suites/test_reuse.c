/* reuse: an assessment that takes over from an earlier one is, to the byte, what it is without. */
#include "assess/wording.h"
#include "assess_world.h"
#include "draw.h"

#include "base/text.h"
#include "dossier/value.h"
#include "dossier/world.h"
#include "tankside/document.h"
#include <check.h>
#include <stdlib.h>
#include <string.h>

Suite *suite_reuse(void);

/* Moved by lot in each production, one assessment after another; TANKSIDE_REUSED asks for more. */
enum { ROUNDS = 6, ROUNDS_SHORT = 1, MOVED_MOST = 3 };

static int rounds(void) {
  const char *more = getenv("TANKSIDE_REUSED");
  if (more != NULL) return (int)strtol(more, NULL, 10);
  return getenv("TANKSIDE_TEST_SHORT") != NULL ? ROUNDS_SHORT : ROUNDS;
}

static ts_assessment *assess(const assess_world *w, const ts_dossier *dossier,
                             const ts_assessment *before, bool scores_only) {
  ts_assess_inputs inputs = {.dossier = dossier,
                             .packs = w->packs,
                             .matrix = w->matrix,
                             .units = w->units,
                             .before = before,
                             .for_next = true,
                             .scores_only = scores_only,
                             .workers = 2};
  ts_assessment *made = ts_assess(&inputs, w->problems);
  ck_assert_ptr_nonnull(made);
  return made;
}

static void same_bytes(const ts_assessment *one, const ts_assessment *other, const char *what) {
  char *a, *b;
  size_t m, n;
  ts_assessment_write(one, &a, &m);
  ts_assessment_write(other, &b, &n);
  if (m != n || memcmp(a, b, m) != 0) {
    size_t at = 0;
    while (a[at] == b[at] && a[at] != '\0') at++;
    at = at > 200 ? at - 200 : 0;
    ck_abort_msg("%s: not the same\nanew:  %.500s\nagain: %.500s", what, a + at, b + at);
  }
  free(a);
  free(b);
}

/* ---- what changed, in a few lines -------------------------------------------------------- */

static char *brief(assess_world *w, const char *comparison, size_t length) {
  char *text;
  size_t size;
  bool good = ts_comparison_render(comparison, length, "brief", &text, &size, w->problems);
  ck_assert_msg(good, "%s", assess_world_said(w));
  return text;
}

/* By way of what may differ, and of both assessments as they are written. */
static void same_lines(assess_world *w, const ts_assessment *was, const ts_assessment *is) {
  static const char *const names[] = {"was", "is"};
  char *bytes[2], *at_hand, *written;
  size_t lengths[2], length;
  ts_assessment_write(was, &bytes[0], &lengths[0]);
  ts_assessment_write(is, &bytes[1], &lengths[1]);
  ck_assert(ts_compare((const char *const *)bytes, lengths, names, &written, &length, w->problems));
  char *whole = brief(w, written, length);
  ck_assert(
      ts_compare_made((const ts_assessment *const[]){was, is}, &at_hand, &length, w->problems));
  char *some = brief(w, at_hand, length);
  ck_assert_str_eq(some, whole);
  char *const all[] = {bytes[0], bytes[1], written, at_hand, whole, some};
  for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) free(all[i]);
}

/* ---- facts of a demo production, by lot ------------------------------------------------ */

typedef struct {
  assess_world w;
  draws luck;
  anchors none;
  uint32_t *read; /* written facts that some rule reads */
  size_t read_count;
  ts_dossier *is;
  ts_assessment *before;
} course;

static void find_read(course *c) {
  uint32_t slots = ts_slot_count(c->w.dossier);
  bool *met = ts_alloc(slots + 1);
  for (size_t i = 0; i < c->before->asked_count; i++)
    for (size_t k = 0; k < c->before->asked[i].read_count; k++)
      met[c->before->asked[i].reads[k]] = true;
  c->read = ts_alloc((slots + 1) * sizeof *c->read);
  for (uint32_t slot = 0; slot < slots; slot++) {
    const ts_fact_def *fact = ts_slot_fact(c->w.dossier, slot);
    if (met[slot] && !fact->derived && fact->type >= TS_QUANTITY) c->read[c->read_count++] = slot;
  }
  free(met);
  ck_assert_uint_gt(c->read_count, 100);
}

/* Any state of knowledge that the fact could be in. */
static const char *move_one(course *c, ts_dossier *variant) {
  char path[256];
  uint32_t slot = c->read[draw_below(&c->luck, c->read_count)];
  const ts_fact_def *fact = ts_slot_fact(variant, slot);
  ts_value wide = ts_world_known(variant, slot)->unknown;
  box_fact of = {slot, fact, ts_fact_dim(ts_dossier_vocabulary(variant), fact), wide};
  ts_value value = draw_chance(&c->luck, 20) ? wide : draw_state(&c->luck, variant, &of, &c->none);
  ts_variant_put(variant, slot, value);
  return ts_arena_copy(c->w.arena, ts_slot_path(variant, slot, path, sizeof path));
}

/* From the last variant on: what is taken over may itself have been taken over. */
static void one_round(course *c, bool lines) {
  ts_dossier *next = ts_dossier_variant(c->is);
  const char *moved = "";
  for (size_t i = draw_below(&c->luck, MOVED_MOST) + 1; i > 0; i--)
    moved = ts_arena_printf(c->w.arena, "%s %s", moved, move_one(c, next));
  ts_assessment *again = assess(&c->w, next, c->before, true);
  ts_assessment *anew = assess(&c->w, next, NULL, true);
  ck_assert_uint_eq(anew->taken_over, 0);
  ck_assert_uint_gt(again->taken_over, again->asked_count / 4);
  ck_assert_uint_eq(again->asked_count, anew->asked_count);
  same_bytes(anew, again, moved);
  if (lines) same_lines(&c->w, c->before, again);
  ts_assessment_free(anew);
  ts_assessment_free(c->before);
  c->before = again;
  c->is = next;
}

static void facts_of(const char *production, const char *jurisdiction, uint64_t seed) {
  course c = {.luck = {seed}};
  assess_world_under(&c.w, production, jurisdiction);
  c.is = c.w.dossier;
  c.before = assess(&c.w, c.is, NULL, true);
  find_read(&c);
  ts_dossier *variants[1000];
  size_t count = 0;
  for (int i = 0; i < rounds() && count < 1000; i++) {
    /* Of two duties of one rule, subject and section a document does not say which is which. */
    one_round(&c, i % 3 == 0 && !ts_same(production, "lake-stunt"));
    variants[count++] = c.is;
  }
  ts_assessment_free(c.before);
  while (count > 0) ts_dossier_free(variants[--count]); /* each is made of the one before */
  free(c.read);
  assess_world_free(&c.w);
}

START_TEST(facts_by_lot) {
  static const char *const productions[][2] = {{"lake-stunt", "us-fed"},
                                               {"tank-serial", "gb-eng"},
                                               {"stage-pool", "gb-eng"},
                                               {"title-day", "gb-eng"}};
  facts_of(productions[_i][0], productions[_i][1], (uint64_t)_i + 1);
}
END_TEST

/* With everything that is tried on top of it. */
START_TEST(the_whole) {
  assess_world w;
  assess_world_demo(&w, "title-day");
  ts_assessment *before = assess(&w, w.dossier, NULL, true);
  ts_dossier *is = ts_dossier_variant(w.dossier);
  ck_assert(ts_dossier_set(is, "tank-2/water/temperature", "24 degC", w.problems));
  ts_assessment *anew = assess(&w, is, NULL, false), *again = assess(&w, is, before, false);
  ck_assert_uint_gt(again->taken_over, 0);
  same_bytes(anew, again, "the whole");
  same_lines(&w, before, again); /* questions come and go as well */
  ts_assessment_free(before);
  ts_assessment_free(anew);
  ts_assessment_free(again);
  ts_dossier_free(is);
  assess_world_free(&w);
}
END_TEST

/* Without words the same is found, open and asked, and each finding gets its words afterwards. */
START_TEST(words_later) {
  assess_world w;
  assess_world_demo(&w, "tank-serial");
  ts_assess_inputs inputs = {.dossier = w.dossier,
                             .packs = w.packs,
                             .matrix = w.matrix,
                             .units = w.units,
                             .questions_only = true};
  ts_assessment *with = ts_assess(&inputs, w.problems);
  inputs.without_words = true;
  ts_assessment *without = ts_assess(&inputs, w.problems);
  ts_wording *wording = ts_wording_new(without);
  size_t later = 0;
  ck_assert_uint_eq(with->finding_count, without->finding_count);
  for (size_t i = 0; i < with->finding_count; i++) {
    const ts_spoken *said = ts_finding_said(&with->findings[i]);
    const ts_spoken *unsaid = ts_finding_said(&without->findings[i]);
    later += unsaid->because == NULL;
    ck_assert_str_eq(ts_wording_because(wording, &without->findings[i]), said->because);
    ck_assert_uint_eq(unsaid->fact_count, said->fact_count);
    ck_assert_mem_eq(unsaid->facts, said->facts, said->fact_count * sizeof *said->facts);
  }
  ck_assert_uint_gt(later, with->finding_count / 2);
  ck_assert_uint_eq(with->open_count, without->open_count);
  for (size_t i = 0; i < with->open_count; i++) {
    ck_assert_uint_eq(with->open[i].slot, without->open[i].slot);
    ck_assert_int_eq(with->open[i].removes, without->open[i].removes);
  }
  ts_wording_free(wording);
  ts_assessment_free(with);
  ts_assessment_free(without);
  assess_world_free(&w);
}
END_TEST

/* ---- what can go wrong, made by hand ----------------------------------------------------- */

static const char rules[] =
    "control { id = 'shorter', title = 'Shorter take', kind = 'elimination', say = 'Stop.',\n"
    "  check = 'watch', often = 'daily', who = 'us',\n"
    "  changes = { { fact = 'immersion.breath-hold', at_most = '8 s' } } }\n"
    "rule { id = 'gap', title = 'Gap', each = 'person-day', harm = 'performer: bent',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (p)\n"
    "    if p.shortest_surface_interval < q'30 min' then\n"
    "      hazard { likelihood = 3, severity = 3, because = 'short' }\n"
    "    end end }\n"
    "rule { id = 'hold', title = 'Hold', each = 'immersion', harm = 'performer: drowning',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (i)\n"
    "    if i.breath_hold > q'10 s' then\n"
    "      hazard { likelihood = 3, severity = 4, because = 'held for {t}', values = { t = "
    "i.breath_hold } }\n"
    "    end end }\n"
    "rule { id = 'old', title = 'Old', each = 'immersion', harm = 'performer: tired',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (i)\n"
    "    if i.age < q'18 year' then hazard { likelihood = 2, severity = 2, because = 'young' } "
    "end\n"
    "  end }\n"
    "rule { id = 'papers', title = 'Papers', each = 'production', harm = 'none',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (p)\n"
    "    if p.controls_in_place > 0 then note { because = 'some' } end\n"
    "  end }\n"
    "rule { id = 'bad', title = 'Bad', each = 'task', harm = 'none',\n"
    "  sources = { 'common practice' }, examples = {}, assess = function (t)\n"
    "    if t.takes_planned == nil then note { because = t.label } end\n"
    "    error_that_is_not_there() end }\n";

/* Two dives of one person; what is open is filled in. */
static const char dossier_text[] =
    "<dossier format=\"1\" units=\"metric\">\n"
    "  <production title=\"%s\" jurisdiction=\"test\" revision=\"1\" on=\"2027-03-01\" "
    "by=\"us\"/>\n"
    "  <site id=\"tank\"/>\n"
    "  <person id=\"p1\" role=\"performer\" name=\"One\" born=\"%s\"/>\n"
    "  <person id=\"p2\" role=\"performer\"/>\n"
    "  <day date=\"2027-03-09\" site=\"tank\">\n"
    "    <task id=\"t1\" title=\"Task\" start=\"10:00\" finish=\"11:00\">\n"
    "      <immersion person=\"p1\" wears=\"none\" breath-hold=\"12 s\" depth=\"2 m\"/>\n"
    "      <immersion person=\"p2\" wears=\"none\" breath-hold=\"%s\" depth=\"1 m\"/>\n"
    "    </task>\n"
    "    <record person=\"p1\" down=\"%s\" up=\"%s\" depth=\"2 m\"/>\n"
    "    <record person=\"p1\" down=\"12:00\" up=\"12:20\" depth=\"2 m\"/>\n"
    "  </day>\n%s"
    "</dossier>\n";

typedef struct {
  const char *title, *born, *hold, *down, *up, *after;
} filling;

static const filling plain = {"Test", "2000-01-01", "4 s", "11:20", "11:50", ""};
static const char control[] = "  <control ref=\"shorter\" state=\"planned\"/>\n",
                  in_place[] = "  <control ref=\"shorter\" state=\"in-place\" by=\"us\" "
                               "on=\"2027-02-01\"/>\n";

static ts_dossier *dossier_of(assess_world *w, const filling *f) {
  char *text =
      ts_arena_printf(w->arena, dossier_text, f->title, f->born, f->hold, f->down, f->up, f->after);
  ts_dossier *read =
      ts_dossier_read_text(text, strlen(text), "dossier.xml", w->vocabulary, w->units, w->problems);
  ck_assert_msg(read != NULL, "%s", assess_world_said(w));
  return read;
}

/* The second dossier assessed after the first, compared where they are alike and where not; gives
 * how much was taken over, and of how much. */
static size_t taken_over(assess_world *w, const filling *first, const filling *second,
                         size_t *asked) {
  ts_dossier *was = dossier_of(w, first), *is = dossier_of(w, second);
  ts_assessment *before = assess(w, was, NULL, true);
  ts_assessment *again = assess(w, is, before, true), *anew = assess(w, is, NULL, true);
  size_t taken = again->taken_over;
  same_bytes(anew, again, "made by hand");
  same_lines(w, before, again);
  *asked = again->asked_count;
  ts_assessment_free(before);
  ts_assessment_free(again);
  ts_assessment_free(anew);
  ts_dossier_free(was);
  ts_dossier_free(is);
  return taken;
}

static const struct {
  filling second;
  bool some;   /* is taken over */
  size_t anew; /* rules over subjects that run again, where some is; the one that fails is one */
} cases[] = {
    {{"Test", "2000-01-01", "4 s", "11:20", "11:50", ""}, true, 1},  /* nothing changed */
    {{"Test", "2000-01-01", "14 s", "11:20", "11:50", ""}, true, 2}, /* one fact of one rule */
    {{"Test", "2012-01-01", "4 s", "11:20", "11:50", ""}, true, 2},  /* the age is made of it */
    /* Only when the first dive began, which now is the second: the interval is another. */
    {{"Test", "2000-01-01", "4 s", "12:30", "12:50", ""}, true, 2},
    {{"Other", "2000-01-01", "4 s", "11:20", "11:50", ""}, false, 0}, /* what something is called */
    {{"Test", "2000-01-01", "4 s", "11:20", "11:50", control}, false, 0},
    {{"Test", "2000-01-01", "4 s", "11:20", "11:50", in_place}, false, 0},
    {{"Test", "2000-01-01", "4 s", "11:20", "11:50", "  <person id=\"p3\" role=\"crew\"/>\n"},
     false,
     0},
};

START_TEST(by_hand) {
  assess_world w;
  size_t asked = 0;
  assess_world_make(&w, rules, "", "", "");
  size_t taken = taken_over(&w, &plain, &cases[_i].second, &asked);
  ck_assert_uint_eq(taken, cases[_i].some ? asked - cases[_i].anew : 0);
  assess_world_free(&w);
}
END_TEST

/* Where a dive began decides which times the interval is made of, and is none of them. */
START_TEST(order_of_dives) {
  assess_world w;
  assess_world_make(&w, rules, "", "", "");
  ts_dossier *was = dossier_of(&w, &plain);
  ts_dossier *is = ts_dossier_variant(was);
  ts_subject record = ts_subject_find(is, "p1@2027-03-09");
  ts_field records = ts_subject_field(is, record, "records");
  ck_assert_uint_eq(records.count, 2);
  uint32_t down = ts_world_slot(is, records.list[0], "down");
  uint32_t interval = ts_world_slot(is, record, "shortest-surface-interval");
  ts_value later = *ts_slot_value(is, down);
  later.range.lo = later.range.hi = ts_slot_value(is, down)->range.lo + 3600;
  ck_assert_double_eq(ts_slot_value(is, interval)->range.lo, 600);
  ts_variant_put(is, down, later); /* 12:20, when the other is over; it ends at 11:50 */
  bool *changed = ts_slots_changed(was, is, w.arena);
  ck_assert(changed[interval]);
  ts_dossier *again = ts_dossier_variant(was);
  ts_world_put(again, down, &later);
  ts_world_derive(again);
  ck_assert_double_eq(ts_slot_value(is, interval)->range.lo,
                      ts_slot_value(again, interval)->range.lo);
  ts_dossier_free(again);
  ts_dossier_free(is);
  ts_dossier_free(was);
  assess_world_free(&w);
}
END_TEST

/* Of other packs, or of an assessment that kept nothing, nothing is taken. */
START_TEST(of_something_else) {
  assess_world w, other;
  assess_world_make(&w, rules, "", "", "");
  assess_world_make(&other, rules, "", "", "");
  ts_assessment *before = assess(&other, other.dossier, NULL, true);
  ts_assessment *again = assess(&w, w.dossier, before, true);
  ts_assessment *kept_nothing = assess_world_run(&w);
  ts_assessment *third = assess(&w, w.dossier, kept_nothing, true);
  ck_assert_uint_eq(again->taken_over, 0);
  ck_assert_uint_eq(third->taken_over, 0);
  same_bytes(again, third, "of something else");
  ts_assessment_free(before);
  ts_assessment_free(again);
  ts_assessment_free(kept_nothing);
  ts_assessment_free(third);
  assess_world_free(&w);
  assess_world_free(&other);
}
END_TEST

Suite *suite_reuse(void) {
  Suite *suite = suite_create("reuse");
  TCase *lot = tcase_create("by lot"), *hand = tcase_create("by hand");
  tcase_set_timeout(lot, 600);
  tcase_add_loop_test(lot, facts_by_lot, 0, 4);
  tcase_add_test(lot, the_whole);
  tcase_add_test(lot, words_later);
  tcase_add_loop_test(hand, by_hand, 0, sizeof cases / sizeof cases[0]);
  tcase_add_test(hand, order_of_dives);
  tcase_add_test(hand, of_something_else);
  suite_add_tcase(suite, lot);
  suite_add_tcase(suite, hand);
  return suite;
}
