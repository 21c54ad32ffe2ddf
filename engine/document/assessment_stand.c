/* How things stand and whose facts are meant, in words. */
#include "document/assessment.h"
#include <string.h>

/* ---- stands ------------------------------------------------------------------ */

static const ts_band *band_of(const ts_paper *paper, ts_stand stand) {
  return ts_matrix_band(paper->a->in.matrix, (int)stand.likelihood, (int)stand.severity);
}

static int product_of(ts_stand stand) { return (int)(stand.likelihood * stand.severity); }

/* "Very high" as it reads inside a sentence. */
static const char *band_word(ts_paper *paper, ts_stand stand) {
  char *word = ts_arena_copy(paper->arena, band_of(paper, stand)->word);
  bool capital = word[0] >= 'A' && word[0] <= 'Z', letters = word[0] && word[1] >= 'a';
  if (capital && letters) word[0] = (char)(word[0] - 'A' + 'a');
  return word;
}

const char *ts_paper_stand(ts_paper *paper, ts_word word, ts_stand stand, bool score) {
  static const char *const stops[] = {"not found", "possible stop", "stop"};
  static const char *const notes[] = {"not found", "possible note", "note"};
  static const char *const duties[] = {"met", "open", "not met"};
  if (word == TS_STOP) return stops[stand.certainty];
  if (word == TS_REMARK) return notes[stand.certainty];
  if (word == TS_DUTY) return duties[stand.duty];
  if (stand.likelihood == 0) return "not found";
  const char *band = band_word(paper, stand);
  if (!score) return band;
  return ts_arena_printf(paper->arena, "%s %d", band, product_of(stand));
}

void ts_paper_stand_parts(ts_paper *paper, const char *prefix, ts_word word, ts_stand stand,
                          bool score) {
  const char *name = ts_arena_printf(paper->arena, "%s-band", prefix);
  if (word == TS_HAZARD && stand.likelihood > 0) {
    ts_xml_attribute(&paper->out, name, band_of(paper, stand)->id);
    name = ts_arena_printf(paper->arena, "%s-score", prefix);
    if (score) ts_xml_attributef(&paper->out, name, "%d", product_of(stand));
    return;
  }
  char *state = ts_arena_copy(paper->arena, ts_paper_stand(paper, word, stand, false));
  for (char *c = state; *c; c++) *c = (char)(*c == ' ' ? '-' : *c);
  ts_xml_attribute(&paper->out, ts_arena_printf(paper->arena, "%s-state", prefix), state);
}

/* ---- whose fact ---------------------------------------------------------------- */

/* The only one of its kind that can be meant from there: its person, its site's water. */
static bool plain_from(const ts_paper *paper, ts_subject it, ts_subject from) {
  const ts_subject_info *info = ts_subject_at(paper->dossier, it);
  if (ts_leads_to(paper->dossier, from, info->entity->name) == it) return true;
  return info->entity->single && info->parent != TS_NO_SUBJECT &&
         plain_from(paper, info->parent, from);
}

const char *ts_paper_label_from(const ts_paper *paper, ts_subject it, ts_subject from) {
  ts_subject person = ts_leads_to(paper->dossier, it, "person");
  ts_subject task = ts_leads_to(paper->dossier, it, "task");
  bool here = task != TS_NO_SUBJECT && task == ts_leads_to(paper->dossier, from, "task");
  return ts_paper_label(paper, here && person != TS_NO_SUBJECT ? person : it);
}

const char *ts_paper_title_from(ts_paper *paper, uint32_t slot, ts_subject from) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
  ts_subject it = ts_slot_subject(paper->dossier, slot);
  const char *title = ts_paper_title(paper, fact->name);
  if (it == from) return title;
  if (plain_from(paper, it, from))
    return ts_arena_printf(paper->arena, "%s %s", ts_paper_title(paper, fact->entity), title);
  return ts_arena_printf(paper->arena, "%s of %s", title, ts_paper_label_from(paper, it, from));
}

void ts_paper_fact_parts(ts_paper *paper, uint32_t slot, ts_subject from) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
  ts_subject it = ts_slot_subject(paper->dossier, slot);
  ts_xml_attribute(&paper->out, "fact", ts_paper_title(paper, fact->name));
  if (it == from) return;
  if (plain_from(paper, it, from))
    ts_xml_attribute(&paper->out, "entity", ts_paper_title(paper, fact->entity));
  else
    ts_xml_attribute(&paper->out, "of", ts_paper_label_from(paper, it, from));
}
