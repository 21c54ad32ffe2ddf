/* Who is where at what time. */
#include "dossier/crosscheck.h"

#include <stdlib.h>

/* One stay of a person: in a task's water, at a post, or in the log. */
typedef struct {
  ts_subject subject; /* immersion, post or record */
  ts_subject task;    /* TS_NO_SUBJECT for a record */
  bool in_water;
  ts_range from, to; /* s since 1970-01-01, from the day's date and the clock */
} stay;

typedef struct {
  const ts_check *check;
  stay *stays;
  size_t count;
} stays;

static bool moments(const ts_check *check, ts_subject subject, const char *first, const char *last,
                    stay *made) {
  ts_subject day = ts_world_above(check->dossier, subject, "day");
  ts_range date;
  if (!ts_check_known(check, day, "date", &date) ||
      !ts_check_known(check, subject, first, &made->from) ||
      !ts_check_known(check, subject, last, &made->to))
    return false;
  made->from = (ts_range){made->from.lo + date.lo, made->from.hi + date.lo};
  made->to = (ts_range){made->to.lo + date.lo, made->to.hi + date.lo};
  return made->from.hi <= made->to.lo; /* what is over before it starts is reported elsewhere */
}

static void add_stay(stays *all, ts_subject subject, bool in_water) {
  const ts_dossier *dossier = all->check->dossier;
  stay made = {.subject = subject, .in_water = in_water, .task = TS_NO_SUBJECT};
  bool record = ts_world_is(dossier, subject, "record");
  if (!record) made.task = ts_world_above(dossier, subject, "task");
  if (record ? moments(all->check, subject, "down", "up", &made)
             : moments(all->check, made.task, "start", "finish", &made))
    all->stays[all->count++] = made;
}

static void add_list(stays *all, const char *list, bool in_water) {
  ts_field field = ts_subject_field(all->check->dossier, all->check->subject, list);
  for (size_t i = 0; i < field.count; i++) add_stay(all, field.list[i], in_water);
}

/* Of one task the immersions first, as written. */
static int by_task(const void *left, const void *right) {
  const stay *a = left, *b = right;
  if (a->task != b->task) return a->task < b->task ? -1 : 1;
  if (a->in_water != b->in_water) return a->in_water ? -1 : 1;
  return a->subject < b->subject ? -1 : a->subject > b->subject;
}

/* Two immersions of one task, or an immersion and a post in it, are one stay. */
static void keep_one_a_task(stays *all) {
  size_t kept = 0;
  if (all->count > 0) qsort(all->stays, all->count, sizeof *all->stays, by_task);
  for (size_t i = 0; i < all->count; i++)
    if (kept == 0 || all->stays[i].task != all->stays[kept - 1].task)
      all->stays[kept++] = all->stays[i];
  all->count = kept;
}

/* ---- comparing ----------------------------------------------------------- */

static bool surely_overlap(const stay *a, const stay *b) {
  return a->from.hi < b->to.lo && b->from.hi < a->to.lo;
}

static bool may_overlap(const stay *a, const stay *b) {
  return a->from.lo < b->to.hi && b->from.lo < a->to.hi;
}

static void say_overlap(const stays *all, const stay *a, const stay *b, bool certain) {
  const ts_check *check = all->check;
  const ts_dossier *dossier = check->dossier;
  bool record = a->task == TS_NO_SUBJECT;
  ts_subject first = record ? a->subject : a->task, second = record ? b->subject : b->task;
  const char *from = record ? "down" : "start", *to = record ? "up" : "finish";
  bool posts = !record && !a->in_water && !b->in_water;
  ts_check_say(check, certain && !posts ? TS_ERROR : TS_WARNING, b->subject,
               record ? "down" : "person",
               "\"%s\" %s in two places at once: \"%s\" is %s to %s, \"%s\" is %s to %s",
               dossier->subjects[check->subject].info.path, certain ? "is" : "may be",
               dossier->subjects[first].info.path, ts_check_shown(check, first, from),
               ts_check_shown(check, first, to), dossier->subjects[second].info.path,
               ts_check_shown(check, second, from), ts_check_shown(check, second, to));
}

static int by_start(const void *left, const void *right) {
  const stay *a = left, *b = right;
  if (a->from.lo != b->from.lo) return a->from.lo < b->from.lo ? -1 : 1;
  return a->subject < b->subject ? -1 : a->subject > b->subject;
}

static void compare(stays *all) {
  qsort(all->stays, all->count, sizeof *all->stays, by_start);
  for (size_t i = 0; i < all->count; i++)
    for (size_t k = i + 1; k < all->count; k++) {
      const stay *a = &all->stays[i], *b = &all->stays[k];
      if (b->from.lo >= a->to.hi) break; /* sorted: no later one can overlap either */
      if (may_overlap(a, b)) say_overlap(all, a, b, surely_overlap(a, b));
    }
}

/* ---- posts held by people in the water ------------------------------------- */

/* Who has to be out of the water to do the work, and who had better be. */
static const struct {
  const char *role;
  ts_level level;
} dry_posts[] = {
    {"diving-supervisor", TS_ERROR}, {"standby-diver", TS_ERROR},
    {"lifeguard", TS_ERROR},         {"medic", TS_ERROR},
    {"head-counter", TS_ERROR},      {"signals", TS_ERROR},
    {"gas-panel", TS_ERROR},         {"isolator", TS_ERROR},
    {"pump-cut-off", TS_ERROR},      {"chaperone", TS_WARNING},
    {"spotter", TS_WARNING},         {"lookout", TS_WARNING},
};

static void check_post(const ts_check *check, ts_subject post, ts_subject immersion) {
  for (size_t i = 0; i < sizeof dry_posts / sizeof *dry_posts; i++)
    if (ts_check_is(check, post, "role", dry_posts[i].role))
      ts_check_say(check, dry_posts[i].level, post, "person",
                   "the post of %s is held by \"%s\", who is in the water in the same task "
                   "(\"%s\")",
                   dry_posts[i].role, check->dossier->subjects[check->subject].info.path,
                   check->dossier->subjects[immersion].info.path);
}

static void check_posts(const ts_check *check) {
  const ts_dossier *dossier = check->dossier;
  ts_field posts = ts_subject_field(dossier, check->subject, "posts");
  ts_field immersions = ts_subject_field(dossier, check->subject, "immersions");
  for (size_t i = 0; i < posts.count; i++)
    for (size_t k = 0; k < immersions.count; k++)
      if (ts_world_above(dossier, posts.list[i], "task") ==
          ts_world_above(dossier, immersions.list[k], "task")) {
        check_post(check, posts.list[i], immersions.list[k]);
        break;
      }
}

/* ---- both --------------------------------------------------------------- */

static size_t count_of(const ts_check *check, const char *list) {
  return ts_subject_field(check->dossier, check->subject, list).count;
}

void ts_check_presence(const ts_check *check) {
  size_t most =
      count_of(check, "immersions") + count_of(check, "posts") + count_of(check, "records");
  stays all = {check, ts_alloc((most + 1) * sizeof *all.stays), 0};
  add_list(&all, "immersions", true);
  add_list(&all, "posts", false);
  keep_one_a_task(&all);
  compare(&all);
  all.count = 0;
  add_list(&all, "records", true);
  compare(&all);
  free(all.stays);
  check_posts(check);
}
