#include "dossier/crosscheck.h"

#include "quantity/calendar.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

/* ---- what every check needs -------------------------------------------- */

static uint32_t slot_of(const ts_check *check, ts_subject subject, const char *fact) {
  return subject == TS_NO_SUBJECT ? TS_ABSENT : ts_world_slot(check->dossier, subject, fact);
}

bool ts_check_known(const ts_check *check, ts_subject subject, const char *fact, ts_range *range) {
  uint32_t slot = slot_of(check, subject, fact);
  if (slot == TS_ABSENT || ts_world_value(check->dossier, slot)->state == TS_UNKNOWN) return false;
  bool structure = !ts_is_fact(ts_world_known(check->dossier, slot)->def->type);
  if (structure && !ts_world_value(check->dossier, slot)->text)
    return false; /* missing or unreadable */
  *range = ts_world_value(check->dossier, slot)->range;
  return true;
}

bool ts_check_is(const ts_check *check, ts_subject subject, const char *fact, const char *word) {
  uint32_t slot = slot_of(check, subject, fact);
  if (slot == TS_ABSENT) return false;
  const ts_known_fact *known = ts_world_known(check->dossier, slot);
  uint64_t choices = ts_world_value(check->dossier, slot)->choices;
  if (known->def->type == TS_FLAG) return choices == (ts_same(word, "yes") ? 2 : 1);
  uint32_t bit = ts_choice_find(known, word);
  return bit != TS_ABSENT && choices == UINT64_C(1) << bit;
}

const char *ts_check_shown(const ts_check *check, ts_subject subject, const char *fact) {
  const ts_dossier *dossier = check->dossier;
  uint32_t slot = slot_of(check, subject, fact);
  const ts_value *value = ts_world_value(dossier, slot);
  const ts_known_fact *known = ts_world_known(dossier, slot);
  char out[96];
  if (value->text) return value->text;
  const char *unit =
      dossier->system == TS_US && known->def->unit_us ? known->def->unit_us : known->def->unit;
  return ts_arena_copy(dossier->arena, ts_quantity_show(dossier->units, value->range, known->dim,
                                                        unit, dossier->system, out, sizeof out));
}

void ts_check_say(const ts_check *check, ts_level level, ts_subject subject, const char *fact,
                  const char *format, ...) {
  const ts_dossier *dossier = check->dossier;
  uint32_t slot = fact ? slot_of(check, subject, fact) : TS_ABSENT;
  int line = slot == TS_ABSENT ? dossier->subjects[subject].info.line : dossier->lines[slot];
  va_list list;
  char *text = NULL;
  va_start(list, format);
  if (vasprintf(&text, format, list) < 0) ts_out_of_memory();
  va_end(list);
  ts_report(check->problems, level, ts_world_file(dossier, subject), line, "%s", text);
  free(text);
}

/* Equal up to what units and arithmetic may lose. */
static bool more(double a, double b) { return a > b + 1e-9 * fmax(fabs(a), fabs(b)); }

/* ---- what must not be more than something else ---------------------------- */

/* `left` and `right` are reached from the subject by the field name before
 * the dot; "" is the subject itself. */
static const struct {
  const char *entity, *left_from, *left, *right_from, *right;
  ts_level certain;
  const char *who, *wrong; /* "the record" "is" / "may be" "up before it is down" */
} limits[] = {
    {"immersion", "", "time", "", "task-duration", TS_ERROR, "the immersion",
     "longer than its task"},
    {"immersion", "", "wet-time", "", "task-duration", TS_WARNING, "the time wet",
     "longer than the task"},
    {"immersion", "", "time", "", "wet-time", TS_ERROR, "the time under water",
     "longer than the time wet"},
    {"immersion", "", "eyes-open-time", "", "time", TS_ERROR, "the time with open eyes",
     "longer than the time under water"},
    {"immersion", "", "breath-hold", "", "time", TS_ERROR, "one breath-hold",
     "longer than all the time under water"},
    {"immersion", "", "depth", "basin", "depth", TS_ERROR, "the immersion",
     "deeper than the water"},
    {"record", "", "depth", "basin", "depth", TS_ERROR, "the record", "deeper than the water"},
    {"chamber", "", "depth", "basin", "depth", TS_ERROR, "the chamber", "deeper than the water"},
    {"task", "", "landing-depth", "basin", "depth", TS_ERROR, "the landing place",
     "deeper than the water"},
    {"basin", "", "least-depth", "", "depth", TS_ERROR, "the least depth",
     "more than the greatest"},
    {"supply", "", "reserve-pressure", "", "pressure", TS_ERROR, "the reserve",
     "more than there is at the start"},
    {"task", "", "start", "", "finish", TS_ERROR, "the task", "over before it starts"},
    {"task", "day", "call", "", "start", TS_ERROR, "the task", "begun before the day's call"},
    {"task", "", "finish", "day", "wrap", TS_ERROR, "the task", "over only after the day's wrap"},
    {"day", "", "call", "", "wrap", TS_ERROR, "the day", "over before it begins"},
    {"day", "", "child-call", "", "child-wrap", TS_ERROR, "the children's day",
     "over before it begins"},
    {"day", "", "call", "", "child-call", TS_WARNING, "the children's call",
     "before the day's first call"},
    {"day", "", "child-wrap", "", "wrap", TS_WARNING, "the children's release",
     "after the day's wrap"},
    {"record", "", "down", "", "up", TS_ERROR, "the record", "up before it is down"},
    {"record", "day", "call", "", "down", TS_WARNING, "the record", "before the day's call"},
    {"record", "", "up", "day", "wrap", TS_WARNING, "the record", "after the day's wrap"},
};

/* Places a site's parts are looked for from, where the subject does not stand in the site. */
ts_subject ts_check_reach(const ts_check *check, const char *from) {
  if (!*from) return check->subject;
  ts_field field = ts_subject_field(check->dossier, check->subject, from);
  if (field.kind == TS_FIELD_SUBJECT) return field.subject;
  ts_field site = ts_subject_field(check->dossier, check->subject, "site");
  if (site.kind != TS_FIELD_SUBJECT || site.subject == TS_NO_SUBJECT) return TS_NO_SUBJECT;
  field = ts_subject_field(check->dossier, site.subject, from);
  return field.kind == TS_FIELD_SUBJECT ? field.subject : TS_NO_SUBJECT;
}

/* Which of the two facts the message points at: one of the subject's own. */
static void check_limit(const ts_check *check, size_t row) {
  ts_subject left = ts_check_reach(check, limits[row].left_from),
             right = ts_check_reach(check, limits[row].right_from);
  const char *a = limits[row].left, *b = limits[row].right;
  const char *at = *limits[row].left_from ? b : a;
  ts_range x, y;
  if (!ts_check_known(check, left, a, &x) || !ts_check_known(check, right, b, &y)) return;
  if (!more(x.hi, y.lo)) return;
  bool certain = more(x.lo, y.hi);
  ts_check_say(check, certain ? limits[row].certain : TS_WARNING, check->subject, at,
               "%s %s %s: \"%s\" is %s, \"%s\" is %s", limits[row].who, certain ? "is" : "may be",
               limits[row].wrong, a, ts_check_shown(check, left, a), b,
               ts_check_shown(check, right, b));
}

static void check_limits(const ts_check *check) {
  const char *entity = check->dossier->subjects[check->subject].info.entity->name;
  for (size_t i = 0; i < sizeof limits / sizeof *limits; i++)
    if (ts_same(limits[i].entity, entity)) check_limit(check, i);
}

/* ---- volume, turnover ---------------------------------------------------- */

/* A round or stepped tank holds less than length x width x mean depth, but no
 * tank holds more than length x width x greatest depth. */
static void check_volume(const ts_check *check) {
  ts_range stated, computed, length, width, depth;
  if (!ts_check_known(check, check->subject, "volume", &stated) ||
      !ts_check_known(check, check->subject, "volume-by-dimensions", &computed) ||
      !ts_check_known(check, check->subject, "length", &length) ||
      !ts_check_known(check, check->subject, "width", &width) ||
      !ts_check_known(check, check->subject, "depth", &depth))
    return;
  if (stated.hi >= 0.9 * computed.lo && stated.lo <= 1.1 * computed.hi) return;
  bool impossible =
      stated.lo > 1.1 * length.hi * width.hi * depth.hi || stated.hi < 0.5 * computed.lo;
  ts_check_say(check, impossible ? TS_ERROR : TS_WARNING, check->subject, "volume",
               "stated volume %s differs by more than 10 %% from length, width and depths, which "
               "give %s",
               ts_check_shown(check, check->subject, "volume"),
               ts_check_shown(check, check->subject, "volume-by-dimensions"));
}

static bool volume_of(const ts_check *check, ts_subject basin, ts_range *volume) {
  return ts_check_known(check, basin, "volume", volume) ||
         ts_check_known(check, basin, "volume-by-dimensions", volume);
}

static void check_turnover(const ts_check *check) {
  ts_range turnover, flow, volume;
  if (!ts_check_known(check, check->subject, "turnover", &turnover) ||
      !ts_check_known(check, check->subject, "flow", &flow) ||
      !volume_of(check, ts_check_reach(check, "basin"), &volume) || !(flow.lo > 0))
    return;
  ts_range computed = {volume.lo / flow.hi, volume.hi / flow.lo};
  if (turnover.hi >= 0.9 * computed.lo && turnover.lo <= 1.1 * computed.hi) return;
  char out[96];
  ts_check_say(check, TS_ERROR, check->subject, "turnover",
               "stated turnover %s differs by more than 10 %% from volume and flow, which give %s",
               ts_check_shown(check, check->subject, "turnover"),
               ts_quantity_show(check->dossier->units, computed, TS_TIME, "h",
                                check->dossier->system, out, sizeof out));
}

/* ---- the log against itself ---------------------------------------------- */

/* The person's other record, if it is of the same date and not later than this one. */
static bool counts_towards(const ts_check *check, ts_subject other, ts_range down) {
  const ts_dossier *dossier = check->dossier;
  ts_subject day = ts_world_above(dossier, check->subject, "day");
  ts_subject other_day = ts_world_above(dossier, other, "day");
  ts_range date, other_date, other_down;
  return ts_check_known(check, day, "date", &date) &&
         ts_check_known(check, other_day, "date", &other_date) && date.lo == other_date.lo &&
         ts_check_known(check, other, "down", &other_down) && other_down.lo <= down.lo;
}

static bool log_total(const ts_check *check, ts_range *total) {
  ts_subject person = ts_world_target(check->dossier, check->subject, "person");
  ts_range down, duration;
  *total = (ts_range){0, 0};
  if (person == TS_NO_SUBJECT || !ts_check_known(check, check->subject, "down", &down))
    return false;
  ts_field records = ts_subject_field(check->dossier, person, "records");
  for (size_t i = 0; i < records.count; i++) {
    if (!counts_towards(check, records.list[i], down)) continue;
    if (!ts_check_known(check, records.list[i], "duration", &duration)) return false;
    total->lo += duration.lo;
    total->hi += duration.hi;
  }
  return true;
}

static void check_log_total(const ts_check *check) {
  ts_range stated, total;
  const double minute = 60; /* a log is kept in whole minutes */
  if (!ts_check_known(check, check->subject, "day-total-stated", &stated) ||
      !log_total(check, &total))
    return;
  if (stated.lo <= total.hi + minute && stated.hi >= total.lo - minute) return;
  char out[96];
  ts_check_say(check, TS_ERROR, check->subject, "day-total-stated",
               "the log states %s for the day, but its entries add up to %s",
               ts_check_shown(check, check->subject, "day-total-stated"),
               ts_quantity_show(check->dossier->units, total, TS_TIME, "min",
                                check->dossier->system, out, sizeof out));
}

/* ---- age ------------------------------------------------------------------- */

/* Posts that the law and practice of every place give to adults. */
static const struct {
  const char *role;
  ts_level level;
} adults[] = {
    {"diving-supervisor", TS_ERROR}, {"safety-diver", TS_ERROR}, {"standby-diver", TS_ERROR},
    {"camera-diver", TS_ERROR},      {"medic", TS_ERROR},        {"chaperone", TS_ERROR},
    {"teacher", TS_ERROR},           {"lifeguard", TS_WARNING},  {"stunt-performer", TS_WARNING},
};

static void check_age(const ts_check *check) {
  ts_range age, born, revised;
  const double adult = 18 * TS_YEAR_SECONDS;
  if (ts_check_known(check, check->subject, "born", &born) &&
      ts_check_known(check, 0, "on", &revised) && born.lo > revised.hi)
    ts_check_say(check, TS_ERROR, check->subject, "born",
                 "\"%s\" is born after the date of this revision",
                 check->dossier->subjects[check->subject].info.path);
  if (!ts_check_known(check, check->subject, "age-at-start", &age) || age.lo >= adult) return;
  for (size_t i = 0; i < sizeof adults / sizeof *adults; i++) {
    if (!ts_check_is(check, check->subject, "role", adults[i].role)) continue;
    bool certain = age.hi < adult;
    ts_check_say(check, certain ? adults[i].level : TS_WARNING, check->subject, "born",
                 "a %s %s under 18 on the first day", adults[i].role, certain ? "is" : "may be");
  }
}

/* Rules about children go by how many are called: fewer than there are would silence them. */
static void check_children(const ts_check *check) {
  ts_field days = ts_subject_field(check->dossier, check->subject, "person_days");
  ts_range stated, age;
  size_t young = 0;
  for (size_t i = 0; i < days.count; i++)
    young += ts_check_known(check, days.list[i], "age", &age) && age.hi < 18 * TS_YEAR_SECONDS;
  if (!ts_check_known(check, check->subject, "children", &stated) || stated.hi >= (double)young)
    return;
  ts_check_say(check, TS_ERROR, check->subject, "children",
               "\"children\" is %s, but %zu of those named that day %s under 18",
               ts_check_shown(check, check->subject, "children"), young, young == 1 ? "is" : "are");
}

/* ---- posts against counts ------------------------------------------------- */

static const struct {
  const char *role, *count;
} counted_posts[] = {
    {"safety-diver", "safety-divers"},
    {"standby-diver", "standby-divers"},
    {"lifeguard", "lifeguards"},
};

static void check_post_counts(const ts_check *check) {
  ts_field posts = ts_subject_field(check->dossier, check->subject, "posts");
  ts_range stated;
  for (size_t i = 0; i < sizeof counted_posts / sizeof *counted_posts; i++) {
    size_t named = 0;
    for (size_t k = 0; k < posts.count; k++)
      if (ts_check_is(check, posts.list[k], "role", counted_posts[i].role)) named++;
    if (!named || !ts_check_known(check, check->subject, counted_posts[i].count, &stated)) continue;
    if ((double)named >= stated.lo && (double)named <= stated.hi) continue;
    ts_check_say(check, TS_WARNING, check->subject, counted_posts[i].count,
                 "\"%s\" is %s, but %zu %s named as %s", counted_posts[i].count,
                 ts_check_shown(check, check->subject, counted_posts[i].count), named,
                 named == 1 ? "post is" : "posts are", counted_posts[i].role);
  }
}

/* ---- dates ------------------------------------------------------------------ */

static double date_read(const ts_dossier *dossier, const char *text, double otherwise) {
  ts_range range;
  ts_dim dim;
  char why[64];
  bool read = text && ts_quantity_read(dossier->units, text, &range, &dim, why, sizeof why);
  return read && dim == TS_MOMENT ? range.lo : otherwise;
}

static void check_controls(const ts_check *check) {
  const ts_dossier *dossier = check->dossier;
  for (size_t i = 0; i < dossier->control_count; i++) {
    const ts_applied_control *control = &dossier->controls[i];
    ts_subject day = ts_world_above(dossier, control->scope, "day");
    ts_range date;
    if (!control->in_place || !ts_check_known(check, day, "date", &date)) continue;
    if (date_read(dossier, control->on, -INFINITY) > date.hi)
      ts_report(check->problems, TS_ERROR, ts_world_file(dossier, control->scope), control->line,
                "control \"%s\" was checked on %s, after the day it is to work on",
                control->control, control->on);
  }
}

static void check_evidence(const ts_check *check) {
  const ts_dossier *dossier = check->dossier;
  ts_range revised;
  if (!ts_check_known(check, 0, "on", &revised)) return;
  for (size_t i = 0; i < dossier->evidence_count; i++)
    if (date_read(dossier, dossier->evidence[i].on, -INFINITY) > revised.hi)
      ts_report(check->problems, TS_WARNING, dossier->sources[dossier->evidence_file[i]].path,
                dossier->evidence[i].line, "evidence for \"%s\" is dated %s, after this revision",
                dossier->evidence[i].target, dossier->evidence[i].on);
}

/* Facts like "tested-on" say what was done: not after this revision was written. */
static void check_done_dates(const ts_check *check) {
  const ts_dossier *dossier = check->dossier;
  const ts_subject_entry *entry = &dossier->subjects[check->subject];
  ts_range revised, done;
  if (!ts_check_known(check, 0, "on", &revised)) return;
  for (size_t i = 0; i < dossier->vocabulary->entities[entry->entity].count; i++) {
    const ts_fact_def *def = ts_known_at(dossier->vocabulary, entry->entity, i)->def;
    size_t length = strlen(def->name);
    if (def->type != TS_DATE || length < 4 || !ts_same(def->name + length - 3, "-on")) continue;
    if (ts_check_known(check, check->subject, def->name, &done) && done.lo > revised.hi)
      ts_check_say(check, TS_WARNING, check->subject, def->name,
                   "\"%s\" is %s, after the date of this revision", def->name,
                   ts_check_shown(check, check->subject, def->name));
  }
}

static void check_same_day(const ts_check *check) {
  const ts_dossier *dossier = check->dossier;
  ts_field days = ts_subject_field(dossier, 0, "days");
  ts_subject site = ts_world_target(dossier, check->subject, "site");
  ts_range date, other;
  if (!ts_check_known(check, check->subject, "date", &date)) return;
  for (size_t i = 0; i < days.count && days.list[i] < check->subject; i++)
    if (ts_check_known(check, days.list[i], "date", &other) && other.lo == date.lo &&
        ts_world_target(dossier, days.list[i], "site") == site)
      ts_check_say(check, TS_WARNING, check->subject, "date",
                   "the site has this date already, at line %d of \"%s\"",
                   dossier->subjects[days.list[i]].info.line,
                   dossier->subjects[days.list[i]].info.file);
}

/* ---- what nothing uses ------------------------------------------------------ */

/* A reference that was forgotten takes a danger off the paper without a trace;
 * what is left behind gives it away. */
static const struct {
  const char *entity, *users, *said;
} used[] = {
    {"rig", "tasks", "no task uses"},
    {"craft", "tasks", "no task uses"},
    {"prop", "tasks", "no task uses"},
    {"appliance", "immersions", "nobody wears"},
    {"chamber", "immersions", "nobody goes into"},
};

static void check_used(const ts_check *check) {
  const ts_subject_info *info = &check->dossier->subjects[check->subject].info;
  for (size_t i = 0; i < sizeof used / sizeof *used; i++)
    if (ts_same(used[i].entity, info->entity->name) &&
        !ts_subject_field(check->dossier, check->subject, used[i].users).count)
      ts_check_say(check, TS_WARNING, check->subject, NULL, "%s %s \"%s\"", used[i].said,
                   info->entity->name, info->path);
}

/* ---- the table ---------------------------------------------------------- */

static const struct {
  const char *entity; /* NULL: every one */
  void (*check)(const ts_check *check);
} checks[] = {
    {NULL, check_limits},
    {"basin", check_volume},
    {"plant", check_turnover},
    {"record", check_log_total},
    {"person", check_age},
    {"supply", ts_check_gas},
    {"immersion", ts_check_gas_source},
    {"task", check_post_counts},
    {NULL, check_done_dates},
    {"day", check_same_day},
    {"day", check_children},
    {NULL, check_used},
    {"person", ts_check_presence},
    {"production", check_controls},
    {"production", check_evidence},
};

void ts_world_crosscheck(const ts_dossier *dossier, ts_diagnostics *problems) {
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    ts_check check = {dossier, problems, s};
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++)
      if (!checks[i].entity || ts_world_is(dossier, s, checks[i].entity)) checks[i].check(&check);
  }
}
