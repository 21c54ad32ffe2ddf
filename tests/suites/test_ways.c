/* Ways down of the demo productions, each made real and assessed again: a moved fact by setting
 * it as --set does, controls by writing them into a copy of the dossier. What then stands
 * must be exactly what was promised, for the finding and for what is said to shift elsewhere.
 * The fewest controls of a task, written in, leave nothing of it above the line. */
#include "assess/probe.h"
#include "assess_world.h"
#include "scratch.h"

#include "base/file.h"
#include "base/text.h"
#include <check.h>
#include <libxml/parser.h>
#include <libxml/tree.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const productions[] = {"lake-stunt", "stage-pool", "tank-serial"};
enum { PRODUCTIONS = sizeof productions / sizeof productions[0], FILES = 8 };

static bool short_run(void) { return getenv("TANKSIDE_TEST_SHORT") != NULL; }

typedef struct {
  assess_world world;
  ts_assessment *a;
  const char *from; /* the production's folder */
  char folder[256]; /* a copy of it */
  const char *files[FILES];
  size_t file_count;
  const ts_way *way; /* whose pairs are asked; NULL: all of `task` */
  const ts_finding *finding;
  ts_subject task;
  size_t moves, controls, shifts;
} scene;

/* ---- a copy of the production --------------------------------------------------------- */

static const char *in_copy(scene *s, const char *file) {
  return ts_path_join(s->world.arena, s->folder, file);
}

static const char *in_original(scene *s, const char *file) {
  return ts_path_join(s->world.arena, s->from, file);
}

static void copy_file(scene *s, const char *file) {
  size_t length;
  char *text =
      ts_file_read(s->world.arena, in_original(s, file), 1 << 24, &length, s->world.problems);
  ck_assert_ptr_nonnull(text);
  ck_assert(ts_file_write(in_copy(s, file), text, length, s->world.problems));
}

static void open_scene(scene *s, const char *production) {
  *s = (scene){.task = TS_NO_SUBJECT};
  assess_world_demo(&s->world, production);
  s->a = assess_world_full(&s->world);
  s->from = ts_arena_printf(s->world.arena, "%s/shared/productions/%s", SOURCE_FOLDER, production);
  scratch_make(s->folder, sizeof s->folder);
  for (size_t i = 0; i < ts_source_count(s->world.dossier) && s->file_count < FILES; i++)
    s->files[s->file_count++] = ts_source_name(s->world.dossier, i);
  for (size_t i = 0; i < s->file_count; i++) copy_file(s, s->files[i]);
}

static void close_scene(scene *s) {
  ts_assessment_free(s->a);
  scratch_remove(s->folder);
  assess_world_free(&s->world);
}

/* ---- writing a control into it ----------------------------------------------------------- */

static bool named_so(xmlNode *node, const char *attribute, const char *value) {
  xmlChar *text = xmlGetNoNsProp(node, BAD_CAST attribute);
  bool same = text != NULL && strcmp((char *)text, value) == 0;
  xmlFree(text);
  return same;
}

static bool is_named(xmlNode *node, const char *name) {
  return node->type == XML_ELEMENT_NODE &&
         (named_so(node, "id", name) || named_so(node, "date", name) ||
          named_so(node, "person", name) || strcmp((const char *)node->name, name) == 0);
}

/* The element a path leads to, below `node`; the first step may be at any depth. */
static xmlNode *find_element(xmlNode *node, const char *path, bool anywhere) {
  char step[128];
  size_t length = strcspn(path, "/");
  ck_assert_uint_lt(length, sizeof step);
  memcpy(step, path, length);
  step[length] = '\0';
  for (xmlNode *child = node->children; child != NULL; child = child->next) {
    if (child->type != XML_ELEMENT_NODE) continue;
    if (is_named(child, step))
      return path[length] == '\0' ? child : find_element(child, path + length + 1, false);
    xmlNode *deeper = anywhere ? find_element(child, path, true) : NULL;
    if (deeper != NULL) return deeper;
  }
  return NULL;
}

static void add_controls(xmlNode *element, const ts_control *const *controls, size_t count) {
  for (size_t i = 0; i < count; i++) {
    xmlNode *added = xmlNewChild(element, NULL, BAD_CAST "control", NULL);
    xmlNewProp(added, BAD_CAST "ref", BAD_CAST controls[i]->id);
    xmlNewProp(added, BAD_CAST "state", BAD_CAST "in-place");
    xmlNewProp(added, BAD_CAST "by", BAD_CAST "a test");
    xmlNewProp(added, BAD_CAST "on", BAD_CAST "2027-01-01");
  }
}

/* Writes them into whichever file has the element; the name of that file. */
static const char *write_controls(scene *s, const char *path, const ts_control *const *controls,
                                  size_t count) {
  for (size_t i = 0; i < s->file_count; i++) {
    xmlDoc *doc = xmlReadFile(in_original(s, s->files[i]), NULL, XML_PARSE_NONET);
    xmlNode *element = doc ? find_element((xmlNode *)doc, path, true) : NULL;
    if (element != NULL) {
      add_controls(element, controls, count);
      ck_assert_int_gt(xmlSaveFile(in_copy(s, s->files[i]), doc), 0);
    }
    xmlFreeDoc(doc);
    if (element != NULL) return s->files[i];
  }
  ck_abort_msg("no element for %s", path);
  return NULL;
}

/* ---- setting a fact ------------------------------------------------------------------------- */

static const char *words_of(scene *s, const ts_fact_def *fact, uint64_t bits, const char *joiner) {
  ts_text text = {0};
  const char *at = fact->choices;
  for (unsigned bit = 0; *(at += strspn(at, " ")) != '\0'; bit++) {
    size_t length = strcspn(at, " ");
    if (bits >> bit & 1) {
      if (text.length > 0) ts_text_add(&text, joiner);
      ts_text_add_n(&text, at, length);
    }
    at += length;
  }
  const char *words = ts_arena_copy(s->world.arena, text.length > 0 ? text.data : "none");
  ts_text_release(&text);
  return words;
}

/* As somebody would write it after --set. */
static const char *written(scene *s, const ts_fact_def *fact, const ts_value *value) {
  char text[128];
  switch (fact->type) {
  case TS_FLAG: return value->choices == 2 ? "yes" : "no";
  case TS_CHOICE: return words_of(s, fact, value->choices, "|");
  case TS_SET: return words_of(s, fact, value->certain, " ");
  case TS_DATE:
  case TS_CLOCK: return ts_show_number(s->world.dossier, fact, value->range, s->world.arena);
  default:
    ts_quantity_write(s->world.units, value->range, ts_fact_dim(s->world.vocabulary, fact),
                      fact->unit, TS_METRIC, text, sizeof text);
    return ts_arena_copy(s->world.arena, text);
  }
}

/* ---- assessing again ------------------------------------------------------------------- */

/* Subjects by path: another reading may number them otherwise. */
static bool is_pair(const scene *s, size_t rule, const char *path, size_t of, ts_subject subject) {
  return rule == of && ts_same(path, ts_subject_at(s->a->in.dossier, subject)->path);
}

typedef struct {
  const scene *scene;
  const ts_dossier *dossier;
} question;

static size_t shift_count(const scene *s) {
  return s->way->does->better_count + s->way->does->worse_count;
}

static bool wanted(void *context, size_t rule, ts_subject subject) {
  const question *q = context;
  const scene *s = q->scene;
  const char *path = ts_subject_at(q->dossier, subject)->path;
  if (s->way == NULL) {
    ts_subject task = ts_leads_to(q->dossier, subject, "task");
    return task != TS_NO_SUBJECT && ts_same(ts_subject_at(q->dossier, task)->path,
                                            ts_subject_at(s->a->in.dossier, s->task)->path);
  }
  if (is_pair(s, rule, path, s->finding->rule, s->finding->subject)) return true;
  for (size_t i = 0; i < shift_count(s); i++) {
    ts_shifted it = ts_shift_read(s->a, &s->way->does->shifts[i]);
    if (is_pair(s, rule, path, it.rule, it.subject)) return true;
  }
  return false;
}

static ts_assessment *assess_again(scene *s, const ts_dossier *dossier) {
  question q = {s, dossier};
  ts_assess_inputs inputs = s->a->in;
  inputs.dossier = dossier;
  inputs.wanted = wanted;
  inputs.wanted_context = &q;
  inputs.scores_only = true;
  ts_assessment *again = ts_assess(&inputs, s->world.problems);
  ck_assert_ptr_nonnull(again);
  return again;
}

static bool found_so(const ts_assessment *again, const scene *s, const ts_finding *all,
                     size_t count, const ts_shifted *shift) {
  const char *path = ts_subject_at(s->a->in.dossier, shift->subject)->path;
  const char *about = shift->finding ? shift->finding->about : NULL;
  bool gone = ts_stand_heat(shift->word, shift->then) == 0, seen = false;
  for (size_t i = 0; i < count; i++) {
    if (all[i].rule != shift->rule || all[i].word != shift->word ||
        !ts_same(ts_subject_at(again->in.dossier, all[i].subject)->path, path) ||
        (about != NULL && !ts_same(all[i].about, about)))
      continue;
    seen = true;
    if (ts_same_stand(shift->word, ts_stands_now(&all[i]), shift->then)) return true;
  }
  return gone && !seen;
}

static void check_shift(const scene *s, const ts_assessment *again, const ts_shifted *shift) {
  const ts_finding *all = shift->word == TS_DUTY ? again->duties : again->findings;
  size_t count = shift->word == TS_DUTY ? again->duty_count : again->finding_count;
  ck_assert_msg(found_so(again, s, all, count, shift), "%s: %s on %s is not %d x %d as promised",
                s->finding->id, ts_rule_at(s->a->in.packs, shift->rule)->id,
                ts_subject_at(s->a->in.dossier, shift->subject)->path, (int)shift->then.likelihood,
                (int)shift->then.severity);
}

static void check_way(scene *s, const ts_dossier *dossier) {
  ts_assessment *again = assess_again(s, dossier);
  ts_shifted itself = {.finding = s->finding,
                       .rule = s->finding->rule,
                       .subject = s->finding->subject,
                       .word = s->finding->word,
                       .then = s->way->then};
  check_shift(s, again, &itself);
  for (size_t i = 0; i < shift_count(s); i++) {
    ts_shifted it = ts_shift_read(s->a, &s->way->does->shifts[i]);
    check_shift(s, again, &it);
  }
  s->shifts += shift_count(s);
  ts_assessment_free(again);
}

static ts_dossier *read_copy(scene *s) {
  ts_dossier *dossier = ts_dossier_read(in_copy(s, "dossier.xml"), s->world.vocabulary,
                                        s->world.units, s->world.problems);
  ck_assert_msg(dossier != NULL, "%s", assess_world_said(&s->world));
  return dossier;
}

static void try_way(scene *s) {
  const ts_elsewhere *way = s->way->does;
  const char *file = NULL;
  if (way->slot == TS_NO_SLOT) {
    const char *path = ts_subject_at(s->a->in.dossier, way->from)->path;
    file = write_controls(s, path, way->controls, way->controls[1] ? 2 : 1);
  }
  ts_dossier *dossier = read_copy(s);
  if (way->slot != TS_NO_SLOT) {
    char path[256];
    const ts_fact_def *fact = ts_slot_fact(s->a->in.dossier, way->slot);
    ck_assert_msg(ts_dossier_set(dossier,
                                 ts_slot_path(s->a->in.dossier, way->slot, path, sizeof path),
                                 written(s, fact, way->value), s->world.problems),
                  "%s", assess_world_said(&s->world));
    s->moves++;
  } else {
    s->controls++;
  }
  check_way(s, dossier);
  ts_dossier_free(dossier);
  if (file != NULL) copy_file(s, file);
}

START_TEST(each_way_down_does_what_it_promises) {
  scene s;
  if (short_run() && _i > 0) return;
  open_scene(&s, productions[_i]);
  size_t tried = 0;
  for (size_t i = 0; i < s.a->finding_count; i++)
    for (size_t k = 0; k < s.a->findings[i].way_count; k++) {
      if (short_run() && tried++ % 60 != 0) continue;
      s.finding = &s.a->findings[i];
      s.way = &s.finding->ways[k];
      try_way(&s);
    }
  printf("ways down, %s: %zu moves, %zu controls or pairs, %zu shifts elsewhere\n", productions[_i],
         s.moves, s.controls, s.shifts);
  ck_assert_uint_gt(s.moves + s.controls, 0);
  close_scene(&s);
}
END_TEST

/* ---- remedies -------------------------------------------------------------------------- */

static size_t above_in(const ts_assessment *a) {
  size_t count = 0;
  for (size_t i = 0; i < a->finding_count; i++)
    count += ts_stands_above(a->in.matrix, a->findings[i].word, ts_stands_now(&a->findings[i]));
  return count;
}

/* How many findings of the task are above the line with these controls written in. */
static size_t above_with(scene *s, const ts_control *const *controls, size_t count) {
  const char *path = ts_subject_at(s->a->in.dossier, s->task)->path;
  const char *file = write_controls(s, path, controls, count);
  ts_dossier *dossier = read_copy(s);
  ts_assessment *again = assess_again(s, dossier);
  size_t above = above_in(again);
  ts_assessment_free(again);
  ts_dossier_free(dossier);
  copy_file(s, file);
  return above;
}

static void check_remedy(scene *s, const ts_remedy *remedy) {
  s->task = remedy->task;
  s->way = NULL;
  ck_assert_uint_eq(remedy->none, remedy->left_count > 0);
  ck_assert_uint_eq(above_with(s, remedy->controls, remedy->control_count), remedy->left_count);
  for (size_t drop = 0; remedy->fewest && drop < remedy->control_count; drop++) {
    const ts_control *fewer[64];
    size_t count = 0;
    for (size_t i = 0; i < remedy->control_count; i++)
      if (i != drop) fewer[count++] = remedy->controls[i];
    ck_assert_uint_gt(above_with(s, fewer, count), remedy->left_count);
  }
}

START_TEST(remedies_leave_nothing_above_and_need_all_they_name) {
  scene s;
  if (short_run() && _i > 0) return;
  open_scene(&s, productions[_i]);
  size_t found = 0;
  for (size_t i = 0; i < s.a->remedy_count; i++) {
    if (short_run() && i > 0) break;
    check_remedy(&s, &s.a->remedies[i]);
    found += !s.a->remedies[i].none;
  }
  printf("remedies, %s: %zu of %zu tasks have one\n", productions[_i], found, s.a->remedy_count);
  close_scene(&s);
}
END_TEST

Suite *suite_ways(void);
Suite *suite_ways(void) {
  Suite *suite = suite_create("ways");
  TCase *tests = tcase_create("ways");
  tcase_set_timeout(tests, 180);
  tcase_add_loop_test(tests, each_way_down_does_what_it_promises, 0, PRODUCTIONS);
  tcase_add_loop_test(tests, remedies_leave_nothing_above_and_need_all_they_name, 0, PRODUCTIONS);
  suite_add_tcase(suite, tests);
  return suite;
}
