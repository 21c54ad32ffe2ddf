/* assessment.xml as a whole. */
#include "document/assessment.h"
#include "base/share.h"
#include <stdlib.h>

static void (*const parts[])(ts_paper *) = {
    ts_paper_inputs,     ts_paper_matrix,    ts_paper_production, ts_paper_people,
    ts_paper_subjects,   ts_paper_schedule,  ts_paper_rescue,     ts_paper_findings,
    ts_paper_duties,     ts_paper_elsewhere, ts_paper_looked_at,  ts_paper_controls,
    ts_paper_open_facts, ts_paper_remedies,  ts_paper_waivers,    ts_paper_amendments,
    ts_paper_history,    ts_paper_reliance,  ts_paper_failures,   ts_paper_charts};

static void headline(ts_paper *paper) {
  ts_summary s = paper->a->summary;
  ts_xml_out *out = &paper->out;
  ts_xml_attribute(out, "format", "1");
  ts_xml_attribute(out, "tankside", TANKSIDE_VERSION);
  ts_xml_attribute(out, "units", ts_dossier_units(paper->dossier) == TS_US ? "us" : "metric");
  ts_xml_attribute(out, "complete", ts_paper_yes(s.complete));
  ts_xml_attributef(out, "stops", "%zu", s.stops);
  ts_xml_attributef(out, "above", "%zu", s.above);
  ts_xml_attributef(out, "open", "%zu", s.open);
  ts_xml_attributef(out, "duties-not-met", "%zu", s.duties_not_met);
  ts_xml_attributef(out, "duties-open", "%zu", s.duties_open);
  ts_xml_attributef(out, "waived", "%zu", s.waived);
  ts_xml_attributef(out, "failed", "%zu", s.failed);
}

/* ---- by several workers ------------------------------------------------------------ */

/* Children in one piece; worth more than one worker; pieces of one round, by each worker: a shorter
 * round would be over before a thread has begun. */
enum { TOGETHER = 16, MANY = 256, AT_ONCE = 64 };

typedef struct {
  ts_paper *whole;
  ts_xml_out apart; /* as each piece begins */
  ts_paper *hands;  /* by worker: its own paper, of which only the text is kept */
  size_t count;
  const bool *only;
  ts_paper_child *child;
  ts_text *made, *before; /* of the round that is made, and of the one before */
  size_t from, before_count;
} split;

static ts_paper paper_like(const ts_paper *paper, ts_arena *arena) {
  ts_paper own = *paper;
  own.arena = arena;
  own.seen = ts_arena_alloc(arena, (ts_subject_count(paper->dossier) + 1) * sizeof *own.seen);
  own.crowds = 0;
  return own;
}

static void write_piece(split *s, ts_paper *paper, size_t number) {
  size_t from = (s->from + number) * TOGETHER;
  paper->arena = ts_arena_new();
  paper->out = s->apart;
  for (size_t i = from; i < from + TOGETHER && i < s->count; i++)
    if (s->only == NULL || s->only[i]) s->child(paper, i);
  ts_arena_free(paper->arena);
  s->made[number] = paper->out.text;
}

static void append_before(split *s) {
  for (size_t i = 0; i < s->before_count; i++) {
    ts_xml_append(&s->whole->out, &s->before[i]);
    ts_text_release(&s->before[i]);
  }
}

/* One puts the round before into the whole, and where that is a file into the file, while the
 * others go on. */
static void write_one(void *context, size_t worker, size_t number) {
  split *s = context;
  if (number == 0)
    append_before(s);
  else
    write_piece(s, &s->hands[worker], number - 1);
}

static size_t next_round(const split *s, size_t room) {
  size_t pieces = (s->count + TOGETHER - 1) / TOGETHER, left = pieces - s->from;
  if (s->whole->out.refused) return 0;
  return left > room ? room : left;
}

/* In rounds, so that not all of it is held twice. The last has no pieces of its own. */
static void write_rounds(split *s, size_t workers, size_t room) {
  for (size_t count; (count = next_round(s, room)) > 0 || s->before_count > 0; s->from += count) {
    ts_share_out(workers, 0, count + 1, write_one, s);
    ts_text *again = s->before;
    s->before = s->made;
    s->made = again;
    s->before_count = count;
  }
}

void ts_paper_each(ts_paper *paper, size_t count, const bool *only, ts_paper_child *child) {
  bool alone = only != NULL || count < MANY || paper->a->in.workers == 0;
  size_t workers = alone ? 1 : paper->a->in.workers, room = AT_ONCE * workers;
  ts_arena *arena = ts_arena_new();
  split s = {.whole = paper, .count = count, .only = only, .child = child};
  s.apart = ts_xml_apart(&paper->out);
  s.hands = ts_arena_alloc(arena, workers * sizeof *s.hands);
  for (size_t i = 0; i < workers; i++) s.hands[i] = paper_like(paper, arena);
  s.made = ts_arena_alloc(arena, room * sizeof *s.made);
  s.before = ts_arena_alloc(arena, room * sizeof *s.before);
  write_rounds(&s, workers, room);
  ts_arena_free(arena);
}

/* ---- the whole --------------------------------------------------------------------- */

typedef void part(ts_paper *paper);

static void write(const ts_assessment *assessment, ts_paper_some only, part *const *of,
                  size_t count, ts_xml_out *out) {
  ts_paper paper = {.a = assessment,
                    .only = only,
                    .dossier = assessment->in.dossier,
                    .packs = assessment->in.packs,
                    .vocabulary = ts_dossier_vocabulary(assessment->in.dossier),
                    .out = *out};
  paper = paper_like(&paper, ts_arena_new());
  paper.evidence = ts_paper_evidence(&paper);
  ts_xml_begin(&paper.out);
  ts_xml_start(&paper.out, "assessment");
  headline(&paper);
  for (size_t i = 0; i < count; i++) of[i](&paper);
  ts_xml_end(&paper.out);
  ts_arena_free(paper.arena);
  *out = paper.out;
}

static const size_t all_parts = sizeof parts / sizeof parts[0];

void ts_assessment_write(const ts_assessment *assessment, char **bytes, size_t *length) {
  ts_xml_out out = {0};
  write(assessment, (ts_paper_some){0}, parts, all_parts, &out);
  *bytes = out.text.data; /* ts_text grows with malloc: the caller frees it */
  *length = out.text.length;
}

bool ts_assessment_write_to(const ts_assessment *assessment,
                            bool (*take)(void *context, const char *bytes, size_t length),
                            void *context) {
  ts_xml_out out = {.take = take, .context = context};
  write(assessment, (ts_paper_some){0}, parts, all_parts, &out);
  bool good = ts_xml_finish(&out);
  ts_text_release(&out.text);
  return good;
}

/* Where values alone differ, the first few do. */
static part *const compared[] = {ts_paper_matrix,    ts_paper_subjects,   ts_paper_findings,
                                 ts_paper_duties,    ts_paper_open_facts, ts_paper_waivers,
                                 ts_paper_inputs,    ts_paper_production, ts_paper_controls,
                                 ts_paper_amendments};
enum { OF_VALUES = 6, OF_ALL = sizeof compared / sizeof compared[0] };

void ts_assessment_write_some(const ts_assessment *assessment, ts_paper_some only, char **bytes,
                              size_t *length) {
  ts_xml_out out = {0};
  write(assessment, only, compared, only.facts != NULL ? OF_VALUES : OF_ALL, &out);
  *bytes = out.text.data;
  *length = out.text.length;
}
