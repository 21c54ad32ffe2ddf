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

/* Children in one piece; worth more than one worker; pieces that are held at once, by each worker.
 */
enum { TOGETHER = 32, MANY = 256, AT_ONCE = 8 };

typedef struct {
  const ts_paper *whole;
  size_t count;
  const bool *only;
  ts_paper_child *child;
  ts_text *pieces;
  size_t room; /* for so many pieces */
} split;

static void make_room(ts_paper *paper) {
  paper->arena = ts_arena_new();
  size_t subjects = ts_subject_count(paper->dossier) + 1;
  paper->seen = ts_arena_alloc(paper->arena, subjects * sizeof *paper->seen);
  paper->crowds = 0;
}

/* A paper of its own, of which only the text is kept. */
static void write_piece(void *context, size_t worker, size_t number) {
  (void)worker;
  split *s = context;
  ts_paper paper = *s->whole;
  size_t from = number * TOGETHER;
  make_room(&paper);
  paper.out = ts_xml_apart(&s->whole->out);
  for (size_t i = from; i < from + TOGETHER && i < s->count; i++)
    if (s->only == NULL || s->only[i]) s->child(&paper, i);
  ts_arena_free(paper.arena);
  s->pieces[number % s->room] = paper.out.text;
}

/* In rounds, so that not all of it is held twice. */
void ts_paper_each(ts_paper *paper, size_t count, const bool *only, ts_paper_child *child) {
  size_t pieces = (count + TOGETHER - 1) / TOGETHER;
  bool alone = only != NULL || count < MANY || paper->a->in.workers == 0;
  size_t workers = alone ? 1 : paper->a->in.workers;
  split s = {paper, count, only, child, NULL, AT_ONCE * workers};
  s.pieces = ts_alloc(s.room * sizeof *s.pieces);
  for (size_t from = 0; from < pieces && !paper->out.refused; from += s.room) {
    size_t end = pieces - from > s.room ? from + s.room : pieces;
    ts_share_out(workers, from, end, write_piece, &s);
    for (size_t i = from; i < end; i++) {
      ts_xml_append(&paper->out, &s.pieces[i - from]);
      ts_text_release(&s.pieces[i - from]);
    }
  }
  free(s.pieces);
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
  make_room(&paper);
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
