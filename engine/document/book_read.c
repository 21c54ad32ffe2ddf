/* An assessment read element by element into the tables of a book.
 *
 * Only what its reader may see is taken over: what is confidential, and who it is about, stays
 * where it is. A finding's subject may be a person, so no subject is taken, only entity, task and
 * place. */
#include "document/book.h"

#include "base/digest.h"
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "document/transform.h"
#include "quantity/calendar.h"
#include "tankside/sign.h"
#include <stdlib.h>
#include <string.h>

enum { ROLES = 64 };

typedef struct {
  const char *id, *word, *rule, *title, *pack, *entity, *task, *day, *site, *discreet, *waived,
      *state;
  const char *worst[3], *band[3], *best; /* as described, in place, planned; best: in place */
} finding;

typedef struct {
  ts_book *book;
  ts_xml_stream *in;
  ts_arena *arena; /* for this assessment */
  ts_arena *brief; /* for one of its subjects, findings ... */
  const char *id, *path;
  bool good, is_signed;
  const char *root[9], *production[6], *matrix[3], *digest, *reliance[2];
  size_t people, minors, ages_unknown, immersions, questions, dated, evidence, waivers, failures;
  const char *role[ROLES];
  size_t of_role[ROLES], roles;
  const char *pack; /* the one whose files are being read */
  ts_text pack_lines;
  size_t pack_files;
  const char *entity, *task, *day; /* around what is being read */
  const char *times[6];            /* of an immersion: under, wet, depth, low and high */
  bool in_immersion;
  finding finding;      /* whose scores are being read */
  const char *withheld; /* what stands in place of a title; NULL until it is needed */
} reading;

static const char *value(reading *r, const char *name) { return ts_xml_stream_value(r->in, name); }

/* The value for as long as the assessment is read, and for as long as its element is. */
static const char *kept(reading *r, const char *name) {
  return ts_arena_copy(r->arena, value(r, name));
}
static const char *held(reading *r, const char *name) {
  return ts_arena_copy(r->brief, value(r, name));
}

static const char *number(reading *r, size_t n) { return ts_arena_printf(r->brief, "%zu", n); }

/* The next number of a kind of row, from 1. */
static const char *next(reading *r, size_t *count) { return number(r, ++*count); }

#define PUT(r, table, ...)                                                                         \
  ((r)->good = (r)->good && TS_BOOK_PUT((r)->book, table, (r)->id, __VA_ARGS__))

static const char *yes_no(bool yes) { return yes ? "yes" : "no"; }

static bool is_yes(const char *text) { return ts_same(text, "yes"); }

/* ---- what it was made from ------------------------------------------------------------- */

static void read_root(reading *r) {
  static const char *const names[] = {"tankside",       "complete",    "stops",  "above", "open",
                                      "duties-not-met", "duties-open", "waived", "failed"};
  for (size_t i = 0; i < sizeof names / sizeof *names; i++) r->root[i] = kept(r, names[i]);
}

/* Files of a pack stand together. */
static void end_pack(reading *r) {
  char digest[65];
  if (!r->pack) return;
  ts_digest(r->pack_lines.data, r->pack_lines.length, digest);
  PUT(r, TS_BOOK_PACK, r->pack, number(r, r->pack_files), digest);
  r->pack_lines.length = 0;
  r->pack_files = 0;
  r->pack = NULL;
}

static void read_rule_file(reading *r) {
  const char *pack = value(r, "pack"), *file = value(r, "file"), *digest = value(r, "sha256");
  if (!ts_same(pack, r->pack)) end_pack(r);
  if (!r->pack) r->pack = ts_arena_copy(r->arena, pack);
  r->pack_files++;
  ts_text_addf(&r->pack_lines, "%s %s\n", file ? file : "", digest ? digest : "");
  PUT(r, TS_BOOK_RULE_FILE, pack, file, digest);
}

static void read_matrix_file(reading *r) {
  r->matrix[1] = kept(r, "file");
  r->matrix[2] = kept(r, "sha256");
}

static void read_digest(reading *r) {
  end_pack(r);
  r->digest = kept(r, "sha256");
}

static void read_matrix(reading *r) { r->matrix[0] = kept(r, "title"); }

static void read_band(reading *r) {
  PUT(r, TS_BOOK_BAND, value(r, "id"), value(r, "word"), value(r, "rank"), value(r, "above"));
}

static void read_production(reading *r) {
  static const char *const names[] = {"title", "reference", "jurisdiction", "revision", "on", "by"};
  for (size_t i = 0; i < sizeof names / sizeof *names; i++) r->production[i] = kept(r, names[i]);
}

/* ---- people: counted, never named ------------------------------------------------------ */

static void count_role(reading *r, const char *role) {
  size_t i = 0;
  while (i < r->roles && !ts_same(r->role[i], role)) i++;
  if (i == ROLES) return;
  if (i == r->roles) r->role[r->roles++] = ts_arena_copy(r->arena, role);
  r->of_role[i]++;
}

static void read_person(reading *r) {
  const char *minor = value(r, "under-18"), *role = value(r, "role");
  r->people++;
  r->minors += is_yes(minor);
  r->ages_unknown += ts_same(minor, "unknown");
  count_role(r, role ? role : "not stated");
}

/* ---- facts ----------------------------------------------------------------------------- */

static void end_immersion(reading *r) {
  if (r->in_immersion)
    PUT(r, TS_BOOK_IMMERSION, next(r, &r->immersions), r->task, r->times[0], r->times[1],
        r->times[2], r->times[3], r->times[4], r->times[5]);
  r->in_immersion = false;
}

static void read_subject(reading *r) {
  r->entity = held(r, "entity");
  r->task = held(r, "parent");
  r->in_immersion = ts_same(r->entity, "immersion");
  memset(r->times, 0, sizeof r->times);
}

static void read_range(reading *r, const char *text, double unit, const char *into[2]) {
  char why[64], shown[32];
  ts_range range;
  ts_dim dim;
  if (!ts_quantity_read(r->book->units, text, &range, &dim, why, sizeof why)) return;
  into[0] = ts_arena_copy(r->brief, ts_number_round(range.lo / unit, 6, shown, sizeof shown));
  into[1] = ts_arena_copy(r->brief, ts_number_round(range.hi / unit, 6, shown, sizeof shown));
}

/* "certificate until": the last day on which something holds. Of a range its first day counts. */
static void read_dated(reading *r, const char *entity, const char *what, const char *text) {
  ts_date date;
  char *day = ts_arena_copy_n(r->brief, text, strnlen(text, 10));
  if (ts_date_read(day, &date)) PUT(r, TS_BOOK_DATED, next(r, &r->dated), entity, what, day);
}

static void read_fact(reading *r) {
  static const struct {
    const char *name;
    double unit;
  } exposure[] = {{"time", 60}, {"wet-time", 60}, {"depth", 1}};
  const char *name = value(r, "name"), *text = value(r, "text");
  if (!name || !text || ts_same(value(r, "state"), "unknown") ||
      ts_same(value(r, "sees"), "confidential"))
    return;
  for (size_t i = 0; r->in_immersion && i < 3; i++)
    if (ts_same(name, exposure[i].name)) read_range(r, text, exposure[i].unit, r->times + 2 * i);
  if (ts_ends_in(name, "-until") || ts_same(name, "review-by"))
    read_dated(r, r->entity, value(r, "title"), text);
}

static void read_evidence(reading *r) {
  PUT(r, TS_BOOK_EVIDENCE, next(r, &r->evidence), value(r, "kind"), value(r, "on"),
      yes_no(value(r, "ref") != NULL));
}

static void read_reliance(reading *r) {
  r->reliance[0] = kept(r, "facts");
  r->reliance[1] = kept(r, "with-evidence");
}

/* ---- the work -------------------------------------------------------------------------- */

static void read_day(reading *r) {
  r->day = held(r, "date");
  PUT(r, TS_BOOK_DAY, value(r, "path"), r->day, value(r, "site-label"));
}

static void read_task(reading *r) {
  PUT(r, TS_BOOK_TASK, value(r, "path"), r->day, value(r, "title"), value(r, "start"),
      value(r, "finish"));
}

/* ---- findings and duties --------------------------------------------------------------- */

/* What stands in place of what a rule calls discreet, as on papers for all (withhold.c). */
static const char withheld[] = "withheld";

static const char *withheld_title(reading *r) {
  if (r->withheld == NULL) r->withheld = ts_language_word(r->arena, "withheld-title");
  return r->withheld;
}

static void end_finding(reading *r) {
  const finding *f = &r->finding;
  if (f->id)
    PUT(r, TS_BOOK_FINDING, f->id, f->word, f->rule, f->title, f->pack, f->entity, f->task, f->day,
        f->site, f->discreet, f->waived, f->state, f->worst[0], f->band[0], f->worst[1], f->band[1],
        f->best, f->worst[2], f->band[2]);
  r->finding = (finding){0};
}

static void read_finding(reading *r) {
  bool discreet = is_yes(value(r, "discreet"));
  r->finding = (finding){.id = held(r, "id"),
                         .word = held(r, "word"),
                         .rule = discreet ? withheld : held(r, "rule"),
                         .title = discreet ? withheld_title(r) : held(r, "title"),
                         .pack = discreet ? NULL : held(r, "pack"),
                         .entity = discreet ? NULL : held(r, "entity"),
                         .task = held(r, "task"),
                         .day = held(r, "day"),
                         .site = held(r, "site"),
                         .discreet = yes_no(discreet),
                         .waived = yes_no(value(r, "waived-by") != NULL)};
}

static void read_score(reading *r) {
  static const char *const views[] = {"described", "in-place", "planned"};
  const char *as = value(r, "as");
  for (int i = 0; i < 3; i++) {
    if (!ts_same(as, views[i])) continue;
    r->finding.worst[i] = held(r, "worst");
    r->finding.band[i] = held(r, "worst-band");
    if (i != 1) continue;
    r->finding.best = held(r, "best");
    r->finding.state = held(r, "state");
  }
}

static void read_duty(reading *r) {
  bool discreet = is_yes(value(r, "discreet"));
  PUT(r, TS_BOOK_DUTY, value(r, "id"), discreet ? withheld : value(r, "rule"),
      discreet ? withheld_title(r) : value(r, "title"), discreet ? NULL : value(r, "pack"),
      value(r, "task"), yes_no(discreet), value(r, "state"), value(r, "state-in-place"),
      discreet ? NULL : value(r, "instrument"), discreet ? NULL : value(r, "section"));
}

/* ---- what is open, waived, failed ------------------------------------------------------ */

static void read_question(reading *r) {
  bool secret = ts_same(value(r, "sees"), "confidential");
  PUT(r, TS_BOOK_QUESTION, next(r, &r->questions), secret ? withheld_title(r) : value(r, "title"),
      secret ? NULL : value(r, "asked"), value(r, "state"), value(r, "removes"));
}

static void read_waiver(reading *r) {
  const char *until = value(r, "until");
  PUT(r, TS_BOOK_WAIVER, next(r, &r->waivers), value(r, "rule"), value(r, "by"), until,
      value(r, "valid"));
  if (until) read_dated(r, "waiver", value(r, "rule"), until);
}

static void read_failure(reading *r) {
  PUT(r, TS_BOOK_FAILURE, next(r, &r->failures), value(r, "rule"));
}

static void read_signature(reading *r) { r->is_signed = true; }

/* ---- the tour -------------------------------------------------------------------------- */

/* By the child of the root it stands in, its depth and its name. */
static const struct {
  const char *part, *name;
  int depth;
  void (*read)(reading *);
} elements[] = {
    {"inputs", "rules", 2, read_rule_file},     {"inputs", "matrix", 2, read_matrix_file},
    {"inputs", "digest", 2, read_digest},       {"matrix", "matrix", 1, read_matrix},
    {"matrix", "band", 2, read_band},           {"production", "production", 1, read_production},
    {"people", "person", 2, read_person},       {"subjects", "subject", 2, read_subject},
    {"subjects", "fact", 3, read_fact},         {"subjects", "evidence", 4, read_evidence},
    {"schedule", "day", 2, read_day},           {"schedule", "task", 3, read_task},
    {"findings", "finding", 2, read_finding},   {"findings", "score", 3, read_score},
    {"duties", "duty", 2, read_duty},           {"open-facts", "fact", 2, read_question},
    {"waivers", "waiver", 2, read_waiver},      {"failures", "failure", 2, read_failure},
    {"reliance", "reliance", 1, read_reliance}, {"Signature", "Signature", 1, read_signature}};

static void read_element(reading *r, const char *part, const char *name, int depth) {
  for (size_t i = 0; i < sizeof elements / sizeof *elements; i++)
    if (elements[i].depth == depth && ts_same(elements[i].part, part) &&
        ts_same(elements[i].name, name))
      elements[i].read(r);
}

static bool is_assessment(reading *r, ts_diagnostics *problems) {
  if (!ts_xml_stream_next(r->in)) return false;
  const char *name = ts_xml_stream_name(r->in);
  if (ts_same(name, "assessment") && ts_same(value(r, "format"), "1")) return true;
  ts_report(problems, TS_ERROR, r->path, 1, "the root is <%s>: this is no <assessment> of format 1",
            name);
  return false;
}

/* A row of which parts stood inside its element is whole when the next begins, and what was held of
 * that element is gone with it: nothing that follows is inside of it. */
static void end_rows(reading *r) {
  end_immersion(r);
  end_finding(r);
  r->entity = r->task = r->day = NULL;
  ts_arena_free(r->brief);
  r->brief = ts_arena_new();
}

static void tour(reading *r) {
  const char *part = "";
  read_root(r);
  while (r->good && ts_xml_stream_next(r->in)) {
    const char *name = ts_xml_stream_name(r->in);
    int depth = ts_xml_stream_depth(r->in);
    if (depth <= 2) end_rows(r);
    if (depth == 1) part = ts_arena_copy(r->arena, name);
    read_element(r, part, name, depth);
  }
  end_rows(r);
}

/* ---- what is known when all has been read ---------------------------------------------- */

static void put_roles(reading *r) {
  for (size_t i = 0; i < r->roles; i++) PUT(r, TS_BOOK_ROLE, r->role[i], number(r, r->of_role[i]));
}

static void put_assessment(reading *r) {
  const char *const *root = r->root, *const *p = r->production, *const *m = r->matrix;
  PUT(r, TS_BOOK_ASSESSMENT, r->path, p[0], p[1], p[2], p[3], p[4], p[5], root[0], root[1], root[2],
      root[3], root[4], root[5], root[6], root[7], root[8], r->reliance[0], r->reliance[1],
      number(r, r->people), number(r, r->minors), number(r, r->ages_unknown), m[0], m[1], m[2],
      r->digest);
}

/* "trusted" ... "unknown", as the table of signatures has them. */
static const char *state_of(const ts_signature *one) {
  static const char *const certificates[] = {[TS_CERTIFICATE_UNTRUSTED] = "untrusted",
                                             [TS_CERTIFICATE_EXPIRED] = "expired",
                                             [TS_CERTIFICATE_TRUSTED] = "trusted"};
  if (one->state == TS_SIGNATURE_INTACT) return certificates[one->certificate];
  return one->state == TS_SIGNATURE_ALTERED ? "altered" : "unknown";
}

typedef struct {
  reading *r;
  size_t count;
  bool altered;
} signers;

static void put_signature(void *context, const ts_signature *one) {
  signers *s = context;
  s->altered = s->altered || one->state != TS_SIGNATURE_INTACT;
  PUT(s->r, TS_BOOK_SIGNATURE, next(s->r, &s->count), one->who, one->as, one->on, state_of(one));
}

/* Whether a signature holds is asked of the whole file: only one that is signed is held whole. */
static void put_signatures(reading *r, size_t limit, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  signers s = {.r = r};
  size_t length = 0, before = ts_count(problems, TS_ERROR);
  const char *bytes = ts_file_read(arena, r->path, limit, &length, problems);
  if (bytes)
    ts_signatures("assessment", bytes, length, r->path, r->book->authorities, r->book->on,
                  put_signature, &s, problems);
  r->good = r->good && ts_count(problems, TS_ERROR) == before;
  r->book->count.altered += s.altered;
  ts_arena_free(arena);
}

static void finish(reading *r, size_t limit, ts_diagnostics *problems) {
  put_roles(r);
  put_assessment(r);
  if (!r->good)
    ts_report(problems, TS_ERROR, r->path, 0, "is not an assessment as tankside writes them: %s",
              sqlite3_errmsg(r->book->db));
  else if (r->is_signed)
    put_signatures(r, limit, problems);
}

bool ts_book_read(ts_book *book, size_t id, const char *path, size_t limit,
                  ts_diagnostics *problems) {
  reading r = {
      .book = book, .path = path, .good = true, .arena = ts_arena_new(), .brief = ts_arena_new()};
  r.id = ts_arena_printf(r.arena, "%zu", id);
  r.in = ts_xml_stream_open(path, limit, problems);
  bool is = r.in && is_assessment(&r, problems);
  if (is) tour(&r);
  bool whole = r.in && ts_xml_stream_close(r.in);
  if (is && (whole || !r.good)) finish(&r, limit, problems);
  ts_text_release(&r.pack_lines);
  ts_arena_free(r.brief);
  ts_arena_free(r.arena);
  return is && whole && r.good;
}
