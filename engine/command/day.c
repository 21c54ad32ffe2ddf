/* tankside day: what was planned, what the log has, and what is left for each person. */
#include "assess/day.h"
#include "base/text.h"
#include "command/command.h"
#include "quantity/calendar.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const double day_seconds = 86400;

typedef struct {
  const ts_session *s;
  const ts_dossier *dossier;
  ts_arena *arena;
  ts_day_report report;
  double date;
} viewer;

/* ---- values ----------------------------------------------------------------------------- */

static const ts_value *value_of(const viewer *v, ts_subject subject, const char *field) {
  return ts_slot_value(v->dossier, ts_subject_field(v->dossier, subject, field).slot);
}

/* A fact as it is written, or "?" where it is not known. */
static const char *shown(const viewer *v, ts_subject subject, const char *field) {
  uint32_t slot = ts_subject_field(v->dossier, subject, field).slot;
  const ts_value *value = ts_slot_value(v->dossier, slot);
  if (value->state == TS_UNKNOWN) return "?";
  return ts_show_value(v->dossier, ts_slot_fact(v->dossier, slot), value, v->arena);
}

static const char *counted(const viewer *v, ts_subject subject, const char *field, const char *one,
                           const char *many) {
  const char *number = shown(v, subject, field);
  return ts_arena_printf(v->arena, "%s %s", number, ts_same(number, "1") ? one : many);
}

/* Times in minutes, so that they can be read down a column; `up` rounds so. */
static const char *number_text(const viewer *v, double si, ts_dim dim, bool up) {
  char text[FUNCTION_SHOWN];
  if (dim == TS_TIME) {
    double exact = si / 60, whole = up ? ceil(exact - 1e-9) : floor(exact + 1e-9);
    return ts_arena_printf(v->arena, "%.0f min", fmax(0, whole));
  }
  return ts_arena_copy(v->arena, ts_quantity_show(v->s->units, (ts_range){si, si}, dim, NULL,
                                                  ts_dossier_units(v->dossier), text, sizeof text));
}

static const char *clock_text(const viewer *v, double moment) {
  char text[32];
  double since = moment - v->date;
  return ts_arena_copy(v->arena,
                       since < 0 ? "the day before" : ts_clock_show(since, text, sizeof text));
}

static const char *depth_text(const viewer *v, double metres) {
  char text[FUNCTION_SHOWN];
  bool us = ts_dossier_units(v->dossier) == TS_US;
  return ts_arena_copy(v->arena,
                       ts_quantity_show(v->s->units, (ts_range){metres, metres}, TS_LENGTH,
                                        us ? "ft" : "m", TS_METRIC, text, sizeof text));
}

/* ---- plan and log ------------------------------------------------------------------------ */

static void entry(const char *head, const char *task, const char *from, const char *to,
                  const char *rest) {
  char line[128];
  snprintf(line, sizeof line, "  %-5s ", head);
  fputs(line, stdout);
  print_cut(task, 8);
  snprintf(line, sizeof line, " %s-%s", from, to);
  print_cut(line, 13);
  printf(" %s\n", rest);
}

static void plan(const viewer *v, const ts_day_person *person) {
  for (size_t i = 0; i < person->immersion_count; i++) {
    ts_subject one = person->immersions[i], task = ts_leads_to(v->dossier, one, "task");
    entry(i == 0 ? "plan" : "", ts_subject_at(v->dossier, task)->path, shown(v, task, "start"),
          shown(v, task, "finish"),
          ts_arena_printf(v->arena, "%-8s %-10s %s", shown(v, one, "depth"), shown(v, one, "time"),
                          counted(v, one, "takes", "take", "takes")));
  }
  if (person->immersion_count == 0) puts("  plan  in no immersion that day");
}

static void records(const viewer *v, const ts_day_person *person) {
  for (size_t i = 0; i < person->record_count; i++) {
    ts_subject one = person->records[i];
    bool open = value_of(v, one, "up")->state == TS_UNKNOWN;
    const char *gas = shown(v, one, "gas"), *incident = shown(v, one, "incident");
    entry(i == 0 ? "log" : "", "", shown(v, one, "down"), shown(v, one, "up"),
          ts_arena_printf(
              v->arena, "%-8s %-10s %-8s  %s%s%s", shown(v, one, "depth"),
              open ? "open" : shown(v, one, "duration"), counted(v, one, "takes", "take", "takes"),
              ts_same(gas, "none") ? "no gas" : gas, ts_same(incident, "none") ? "" : ", ",
              ts_same(incident, "none") ? "" : incident));
  }
  if (person->record_count == 0) puts("  log   nothing yet");
}

static ts_range takes_of(const viewer *v, const ts_day_person *person) {
  ts_range sum = {0, 0};
  for (size_t i = 0; i < person->record_count; i++) {
    ts_range one = value_of(v, person->records[i], "takes")->range;
    sum = (ts_range){sum.lo + one.lo, sum.hi + one.hi};
  }
  return sum;
}

static const ts_fact_def *fact_of(const viewer *v, ts_subject subject, const char *field) {
  return ts_slot_fact(v->dossier, ts_subject_field(v->dossier, subject, field).slot);
}

static void sums(const viewer *v, const ts_day_person *person) {
  ts_subject pd = person->person_day;
  if (person->record_count == 0 || person->immersion_count == 0) return;
  print_folded(
      "  sum   ",
      ts_arena_printf(
          v->arena, "plan %zu immersion%s, %s, %s takes; log %zu entr%s, %s, %s takes",
          person->immersion_count, person->immersion_count == 1 ? "" : "s",
          shown(v, pd, "time_planned"), shown(v, pd, "takes"), person->record_count,
          person->record_count == 1 ? "y" : "ies", shown(v, pd, "time_recorded"),
          ts_show_number(v->dossier, fact_of(v, pd, "takes"), takes_of(v, person), v->arena)));
}

/* ---- what is left --------------------------------------------------------------------------- */

/* "Tired under water, in 7 days". */
static const char *limit_name(const viewer *v, const ts_allowance *one) {
  char *more = ts_arena_copy(v->arena, one->more);
  for (char *at = more; *at != '\0'; at++)
    if (*at == '_') *at = ' ';
  return ts_arena_printf(v->arena, "%s%s%s", ts_rule_at(v->s->packs, one->rule)->title,
                         more[0] ? "," : "", more);
}

static void limit(const viewer *v, const ts_allowance *one) {
  double left = ts_allowance_left(one);
  fputs("    ", stdout);
  print_cut(limit_name(v, one), 36);
  printf("%9s %9s", one->logged ? number_text(v, one->so_far, one->dim, true) : "-",
         number_text(v, one->with_plan, one->dim, true));
  printf(" %9s %9s\n", number_text(v, one->most, one->dim, false),
         left < 0 ? "none" : number_text(v, left, one->dim, false));
  if (left < 0) printf("      over by %s\n", number_text(v, -left, one->dim, true));
}

static void limits(const viewer *v, const ts_day_person *person) {
  if (person->allowance_count == 0) return;
  printf("  %-38s%9s %9s %9s %9s\n", "limit", "so far", "with plan", "at most", "left");
  for (size_t i = 0; i < person->allowance_count; i++) limit(v, &person->allowances[i]);
}

static const char *group_text(const viewer *v, ts_dives dives) {
  char letter = ts_dives_letter(dives);
  if (letter == '-') return "no group";
  if (letter == '>') return "past the limit";
  return ts_arena_printf(v->arena, "group %c", letter);
}

static const char *left_text(const viewer *v, const ts_dive_left *left) {
  return ts_dives_unlimited(left->left) ? "no limit" : number_text(v, left->left, TS_TIME, false);
}

/* What comes next at that depth. */
static const char *next_text(const viewer *v, const ts_dive_left *left) {
  const char *depth = depth_text(v, left->depth);
  if (left->immersion == TS_NO_SUBJECT)
    return ts_arena_printf(v->arena, "again at %s, at once", depth);
  ts_subject task = ts_leads_to(v->dossier, left->immersion, "task");
  return ts_arena_printf(v->arena, "%s at %s, from %s", ts_subject_at(v->dossier, task)->path,
                         depth, clock_text(v, left->from));
}

static void dive_left(const viewer *v, const ts_dive_left *left) {
  const char *needed = number_text(v, left->needed, TS_TIME, true), *next = next_text(v, left);
  if (left->needed > 0) next = ts_arena_printf(v->arena, "%s: %s to come", next, needed);
  fputs("    ", stdout);
  print_cut(next, 65);
  printf(" %9s\n", left_text(v, left));
  if (left->needed > left->left)
    printf("      over by %s\n", number_text(v, left->needed - left->left, TS_TIME, true));
}

static void no_stop(const viewer *v, const ts_day_person *person) {
  if (person->left_count == 0) return;
  if (person->dives.time > 0)
    printf("  without stops, on air: %s after %s\n", group_text(v, person->dives),
           clock_text(v, person->up));
  else
    puts("  without stops, on air: no dive before");
  for (size_t i = 0; i < person->left_count; i++) dive_left(v, &person->left[i]);
}

/* ---- what the log says against the plan ------------------------------------------------ */

static const char *said_text(const viewer *v, size_t index) {
  ts_finding_view f = ts_finding_at(v->report.a, index);
  ts_score worst = f.standing[TS_IN_PLACE].worst;
  const ts_band *band =
      worst.likelihood > 0 ? ts_matrix_band(v->s->matrix, worst.likelihood, worst.severity) : NULL;
  return ts_arena_printf(v->arena, "%s%s%s: %s%s%s%s", f.title, f.about[0] ? ", " : "", f.about,
                         f.because ? f.because : "", band ? " (" : "", band ? band->word : "",
                         band ? ")" : "");
}

static void said(const viewer *v, const ts_day_person *person) {
  if (person->said_count > 0) puts("  the log against the plan");
  for (size_t i = 0; i < person->said_count; i++)
    print_folded("    ", said_text(v, person->said[i]));
}

/* ---- the whole ------------------------------------------------------------------------- */

static void person_head(const viewer *v, const ts_day_person *person) {
  const char *role = shown(v, person->person, "role");
  putchar('\n');
  print_folded("", ts_arena_printf(v->arena, "%s, %s (%s)", v->report.a->labels[person->person],
                                   role, ts_subject_at(v->dossier, person->person)->path));
}

static size_t entries(const ts_day_report *day) {
  size_t count = 0;
  for (size_t i = 0; i < day->count; i++) count += day->people[i].record_count;
  return count;
}

/* What the days of that date are called, where they have a title. */
static void titles(const viewer *v) {
  for (ts_subject s = 0; s < ts_subject_count(v->dossier); s++) {
    const ts_subject_info *info = ts_subject_at(v->dossier, s);
    if (ts_same(info->entity->name, "day") && value_of(v, s, "date")->range.lo == v->date &&
        !ts_same(info->label, info->path))
      print_folded("", info->label);
  }
}

static void head(const viewer *v) {
  char date[32];
  size_t count = entries(&v->report);
  titles(v);
  printf("%s %s: %zu %s in the log, %zu %s\n",
         ts_weekday_name(ts_weekday((int64_t)floor(v->date / day_seconds))),
         ts_date_show(v->date, date, sizeof date), count, count == 1 ? "entry" : "entries",
         v->report.count, v->report.count == 1 ? "person" : "people");
}

static void foot(const viewer *v) {
  if (v->report.a->failure_count > 0)
    printf("\nNOT COMPLETE: %zu failure%s; `tankside assess` names them\n",
           v->report.a->failure_count, v->report.a->failure_count == 1 ? "" : "s");
  putchar('\n');
  print_folded("",
               "What is open counts at its worst: an entry without a time up has no end. Without "
               "stops: US Navy Diving Manual Rev 7 (2016), Tables 9-7 and 9-8, every gas counted "
               "as air; who came up to the height of the place that day carries more.");
  print_folded("", caution);
}

static void as_text(const viewer *v) {
  head(v);
  for (size_t i = 0; i < v->report.count; i++) {
    const ts_day_person *person = &v->report.people[i];
    person_head(v, person);
    plan(v, person);
    records(v, person);
    sums(v, person);
    limits(v, person);
    no_stop(v, person);
    said(v, person);
  }
  foot(v);
}

/* ---- as a table: one row an allowance; times in minutes -------------------------------- */

static const char *minutes(const viewer *v, double si, ts_dim dim) {
  char text[32];
  double number = dim == TS_TIME ? round(si / 60 * 1e6) / 1e6 : si;
  return ts_arena_copy(v->arena, ts_number_round(number, 8, text, sizeof text));
}

static void row(const viewer *v, const ts_day_person *person, const char *what,
                const char *const numbers[5]) {
  char date[32];
  csv_cell(ts_date_write(v->date, date, sizeof date), false);
  csv_cell(ts_subject_at(v->dossier, person->person)->path, false);
  csv_cell(v->report.a->labels[person->person], false);
  csv_cell(what, false);
  for (int i = 0; i < 5; i++) csv_cell(numbers[i], i == 4);
}

static void limit_row(const viewer *v, const ts_day_person *person, const ts_allowance *one) {
  double left = ts_allowance_left(one);
  row(v, person, limit_name(v, one),
      (const char *const[]){one->logged ? minutes(v, one->so_far, one->dim) : "",
                            minutes(v, one->with_plan, one->dim), minutes(v, one->most, one->dim),
                            minutes(v, fmax(0, left), one->dim),
                            minutes(v, fmax(0, -left), one->dim)});
}

static void left_row(const viewer *v, const ts_day_person *person, const ts_dive_left *one) {
  bool limited = !ts_dives_unlimited(one->left);
  row(v, person, ts_arena_printf(v->arena, "without stops: %s", next_text(v, one)),
      (const char *const[]){"", minutes(v, one->needed, TS_TIME), "",
                            limited ? minutes(v, one->left, TS_TIME) : "no limit",
                            minutes(v, fmax(0, one->needed - one->left), TS_TIME)});
}

static void as_csv(const viewer *v) {
  static const char *const columns[] = {"date",      "person",  "name", "limit", "so far",
                                        "with plan", "at most", "left", "over"};
  enum { COLUMNS = sizeof columns / sizeof columns[0] };
  for (size_t i = 0; i < COLUMNS; i++) csv_cell(columns[i], i + 1 == COLUMNS);
  for (size_t i = 0; i < v->report.count; i++) {
    const ts_day_person *person = &v->report.people[i];
    for (size_t k = 0; k < person->allowance_count; k++)
      limit_row(v, person, &person->allowances[k]);
    for (size_t k = 0; k < person->left_count; k++) left_row(v, person, &person->left[k]);
  }
}

/* ---- the verb -------------------------------------------------------------------------- */

static bool which_day(viewer *v, const char *on, ts_diagnostics *problems) {
  ts_date date;
  char text[32];
  v->date = ts_day_default(v->dossier);
  if (on != NULL && !ts_date_read(on, &date)) {
    ts_report(problems, TS_ERROR, "--on", 0, "\"%s\" is no date, like 2027-03-08", on);
    return false;
  }
  if (on != NULL) v->date = (double)ts_day_number(date) * day_seconds;
  if (!isnan(v->date) && ts_day_exists(v->dossier, v->date)) return true;
  v->date = ts_day_default(v->dossier);
  if (isnan(v->date))
    ts_report(problems, TS_ERROR, "--on", 0, "the dossier has no day");
  else
    ts_report(problems, TS_ERROR, "--on", 0, "the dossier has no day %s; it has one on %s", on,
              ts_date_write(v->date, text, sizeof text));
  return false;
}

static int look(ts_session *s, const ts_options *options) {
  viewer v = {.s = s, .dossier = s->dossier, .arena = s->arena};
  ts_assess_inputs inputs = session_inputs(s, options->words[0]);
  int status = NOT_DONE;
  if (!which_day(&v, options->on, s->problems)) return NOT_DONE;
  if (ts_day_look(&inputs, v.date, &v.report, s->problems)) {
    if (ts_same(options->as, "csv"))
      as_csv(&v);
    else
      as_text(&v);
    status = ts_day_holds(&v.report) ? LOOK : DONE;
  }
  ts_day_release(&v.report);
  return status;
}

static const char *const forms[] = {"text", "csv", NULL};

static int run(const ts_options *options) {
  ts_session s = {0};
  int status = NOT_DONE;
  if (options->as != NULL && !ts_same(options->as, "text") && !ts_same(options->as, "csv"))
    return unknown("form", options->as, forms, 2);
  if (session_open(&s) && session_read_matrix(&s, options->matrix) &&
      session_read_dossier(&s, options, options->words[0]) && ts_count(s.problems, TS_ERROR) == 0)
    status = look(&s, options);
  session_close(&s);
  return status;
}

const ts_verb verb_day = {
    .name = "day",
    .usage = "day DOSSIER [--on DATE] [--as text|csv] [OPTION]...",
    .summary = "a day as it goes: plan, log, and what is left for each person",
    .details =
        "For each person of a day: the immersions that are planned, the entries of the log\n"
        "(<record>), and what is left of every limit that a rule names: used so far, with the\n"
        "rest of the plan, at most. On gas the time without stops at the depth of what comes\n"
        "next, after the dives and the time at the surface so far. Then what stands in the\n"
        "log and not in the plan: deeper, longer, another gas, somebody not planned, totals\n"
        "that do not add up, incidents. Whatever is open counts at its worst.\n"
        "Without --on the last day that has a log. Log entries go into the dossier as\n\n"
        "  <record person=\"ada\" down=\"10:12\" up=\"10:26\" depth=\"3.2 m\" gas=\"air\"\n"
        "          takes=\"4\" incident=\"none\"/>\n\n"
        "  tankside day dossier.xml --on 2027-03-08\n\n"
        "Exit status: 0 nothing of that kind, 1 something to look at, 2 not done.",
    .takes = OPTION_ON | OPTION_AS | OPTION_PACK | OPTION_MATRIX | OPTION_SET | OPTION_SET_FILE,
    .least = 1,
    .most = 1,
    .kinds = {A_DOSSIER},
    .forms = forms,
    .run = run};
