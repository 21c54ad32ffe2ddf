/* What would change a finding: when it stands so, its nearest margins, the ways down. What stands
 * in a sentence stands beside it in parts too, from which papers in other languages make theirs.
 *
 * All of it is with what is in place. Where a text shows a personal value, or an edge from
 * which one could be worked out, `withheld` stands beside it: who gets that gets none of
 * the other texts of the element that show a value. */
#include "assess/probe.h"
#include "document/assessment.h"
#include <math.h>
#include <string.h>

static const char hidden[] = "(withheld)";

/* Whether a number of this finding may give something personal away: the fact is, or the
 * finding rests on a stated one, from which the edges follow. */
static bool personal(const ts_paper *paper, const ts_finding *finding, uint32_t slot) {
  if (ts_slot_fact(paper->dossier, slot)->sees == TS_CONFIDENTIAL) return true;
  const ts_outcome whole = ts_finding_outcome(finding), *outcome = &whole;
  for (size_t i = 0; i < outcome->fact_count; i++) {
    uint32_t other = outcome->facts[i];
    if (ts_slot_fact(paper->dossier, other)->sees == TS_CONFIDENTIAL &&
        ts_slot_value(paper->dossier, other)->state != TS_UNKNOWN)
      return true;
  }
  return false;
}

static void of_fact(ts_paper *paper, const ts_finding *finding, uint32_t slot, const char *now) {
  char path[256];
  ts_xml_attribute(&paper->out, "path", ts_slot_path(paper->dossier, slot, path, sizeof path));
  ts_xml_attribute(&paper->out, "title", ts_paper_title_from(paper, slot, finding->subject));
  ts_paper_fact_parts(paper, slot, finding->subject);
  ts_xml_attribute(&paper->out, "now", now);
}

static void who_sees(ts_paper *paper, const ts_finding *finding, uint32_t slot) {
  ts_xml_attribute(&paper->out, "sees", ts_paper_sees(ts_slot_fact(paper->dossier, slot)));
  if (personal(paper, finding, slot)) ts_xml_attribute(&paper->out, "withheld", hidden);
}

/* ---- when -------------------------------------------------------------------------- */

static void clause_parts(ts_paper *paper, const ts_finding *finding, const ts_clause *clause) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, clause->slot);
  bool own = ts_slot_subject(paper->dossier, clause->slot) == finding->subject;
  ts_xml_attribute(&paper->out, "fact", ts_paper_title(paper, fact->name));
  if (!own) ts_xml_attribute(&paper->out, "entity", ts_paper_title(paper, fact->entity));
  ts_xml_attribute(&paper->out, "where", clause->where);
  ts_xml_attribute(&paper->out, "low", clause->low);
  ts_xml_attribute(&paper->out, "high", clause->high);
}

static void when(ts_paper *paper, const ts_finding *finding, const ts_condition *condition,
                 const char *which) {
  for (size_t i = 0; i < condition->count; i++) {
    const ts_clause *clause = &condition->clauses[i];
    bool open = clause->withheld == NULL || ts_same(clause->text, clause->withheld);
    ts_xml_start(&paper->out, "when");
    ts_xml_attribute(&paper->out, "case", which);
    ts_xml_attribute(&paper->out, "enough", ts_paper_yes(condition->enough));
    ts_xml_attribute(&paper->out, "text", clause->text);
    if (!open) ts_xml_attribute(&paper->out, "withheld", clause->withheld);
    if (clause->where) clause_parts(paper, finding, clause);
    ts_xml_end(&paper->out);
  }
}

/* ---- edges --------------------------------------------------------------------------- */

/* A bound in words, by the kind of number, whether it goes upward, whether the edge counts. */
static const char *const beyond[2][2][2] = {
    {{"below %s", "at %s or below"}, {"above %s", "from %s"}},
    {{"before %s", "up to %s"}, {"after %s", "from %s"}}};
static const char *const reach[2][2][2] = {
    {{"below %s", "at most %s"}, {"above %s", "at least %s"}},
    {{"before %s", "up to %s"}, {"after %s", "%s or later"}}};

static const char *const wheres[2][2][2] = {{{"below", "to"}, {"above", "from"}},
                                            {{"before", "until"}, {"after", "since"}}};

static bool is_moment(const ts_fact_def *fact) {
  return fact->type == TS_DATE || fact->type == TS_CLOCK || fact->type == TS_DAY;
}

static const char *bound(ts_paper *paper, const char *const words[2][2][2], const ts_fact_def *fact,
                         bool upward, bool included, const char *number) {
  const char *format = words[is_moment(fact)][upward][included];
  size_t before = strcspn(format, "%");
  return ts_arena_printf(paper->arena, "%.*s%s%s", (int)before, format, number,
                         format + before + 2);
}

static const char *one_number(ts_paper *paper, const ts_fact_def *fact, double si) {
  return ts_paper_number(paper, fact, (ts_range){si, si});
}

/* ---- margins ------------------------------------------------------------------------- */

static bool is_inside(const ts_margin *margin) {
  return margin->side == TS_FROM_LOW || margin->side == TS_FROM_HIGH;
}

static bool goes_up(const ts_margin *margin) {
  return margin->side == TS_UP || margin->side == TS_FROM_LOW;
}

/* The end from which the search went out is another where a control in place moves the fact. */
static bool moved(const ts_paper *paper, const ts_margin *margin) {
  ts_range range = ts_slot_value(paper->dossier, margin->slot)->range;
  double end = goes_up(margin) ? range.hi : range.lo;
  return !is_inside(margin) && fabs(end - margin->from) > 1e-9 * fmax(fabs(end), 1e-9);
}

/* NULL: as it is stated. */
static const char *moved_to(ts_paper *paper, const ts_margin *margin) {
  if (!moved(paper, margin)) return NULL;
  return one_number(paper, ts_slot_fact(paper->dossier, margin->slot), margin->from);
}

static const char *now(ts_paper *paper, const ts_margin *margin) {
  const char *to = moved_to(paper, margin);
  if (to == NULL) return ts_paper_fact(paper, margin->slot);
  return ts_arena_printf(paper->arena, "%s with what is in place", to);
}

/* Nothing lies beyond the end of what is plausible. */
static bool at_end(const ts_paper *paper, const ts_margin *margin) {
  ts_range range = ts_fact_plausible(paper->vocabulary, ts_slot_fact(paper->dossier, margin->slot));
  return margin->included && margin->edge == (goes_up(margin) ? range.hi : range.lo);
}

/* The band alone says it, but where the score moves within one. */
static bool within_band(ts_paper *paper, const ts_finding *finding, const ts_margin *margin) {
  return ts_same(ts_paper_stand(paper, finding->word, margin->then, false),
                 ts_paper_stand(paper, finding->word, margin->before, false));
}

static const char *becomes(ts_paper *paper, const ts_finding *finding, const ts_margin *margin) {
  bool score = within_band(paper, finding, margin);
  return ts_paper_stand(paper, finding->word, margin->then, score);
}

/* How far the edge is; NULL: it stands there. */
static const char *away_from(ts_paper *paper, const ts_margin *margin) {
  double far = margin->edge - margin->from, least = 1e-9 * fabs(margin->from);
  if (fabs(far) <= least) return NULL;
  return ts_paper_difference(paper, ts_slot_fact(paper->dossier, margin->slot), far);
}

static const char *margin_words(ts_paper *paper, const ts_finding *finding, const ts_margin *margin,
                                const char *number, const char *is) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, margin->slot);
  const char *then = becomes(paper, finding, margin);
  const char *where = bound(paper, beyond, fact, goes_up(margin), margin->included, number);
  if (at_end(paper, margin)) where = ts_arena_printf(paper->arena, "at %s", number);
  if (is_inside(margin)) {
    ts_range range = ts_slot_value(paper->dossier, margin->slot)->range;
    return ts_arena_printf(paper->arena, "%s only %s; may be %s", then, where,
                           ts_paper_number(paper, fact, range));
  }
  const char *far = away_from(paper, margin);
  const char *away = far ? ts_arena_printf(paper->arena, "%s away", far) : "at the edge";
  return ts_arena_printf(paper->arena, "%s %s; now %s; %s", then, where, is, away);
}

static void margin_parts(ts_paper *paper, const ts_finding *finding, const ts_margin *it) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, it->slot);
  const char *where = wheres[is_moment(fact)][goes_up(it)][it->included];
  ts_xml_attribute(&paper->out, "where", at_end(paper, it) ? "at" : where);
  ts_paper_stand_parts(paper, "then", finding->word, it->then, within_band(paper, finding, it));
  if (is_inside(it)) return;
  ts_xml_attribute(&paper->out, "moved-to", moved_to(paper, it));
  ts_xml_attribute(&paper->out, "away", away_from(paper, it));
}

/* Whether a hazard would stand above the line, another finding at all. */
static bool above_line(const ts_paper *paper, ts_word word, ts_stand stand) {
  if (word == TS_HAZARD) return ts_stands_above(paper->a->in.matrix, word, stand);
  return ts_stand_heat(word, stand) > 0;
}

static void margin(ts_paper *paper, const ts_finding *finding, const ts_margin *it) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, it->slot);
  const char *edge = one_number(paper, fact, it->edge), *is = now(paper, it);
  ts_xml_start(&paper->out, "margin");
  of_fact(paper, finding, it->slot, is);
  ts_xml_attribute(&paper->out, "edge", edge);
  ts_xml_attribute(&paper->out, "side", is_inside(it) ? "inside" : goes_up(it) ? "up" : "down");
  ts_xml_attribute(&paper->out, "gets",
                   ts_stand_heat(finding->word, it->then) > ts_stand_heat(finding->word, it->before)
                       ? "worse"
                       : "better");
  ts_xml_attribute(&paper->out, "above", ts_paper_yes(above_line(paper, finding->word, it->then)));
  ts_xml_attribute(&paper->out, "words", margin_words(paper, finding, it, edge, is));
  margin_parts(paper, finding, it);
  who_sees(paper, finding, it->slot);
  ts_xml_end(&paper->out);
}

/* ---- ways ---------------------------------------------------------------------------- */

void ts_paper_control_named(ts_paper *paper, const ts_control *control) {
  ts_xml_start(&paper->out, "control");
  ts_xml_attribute(&paper->out, "ref", control->id);
  ts_xml_attribute(&paper->out, "title", control->title);
  ts_xml_attribute(&paper->out, "kind", ts_hierarchy_word(control->kind));
  ts_xml_end(&paper->out);
}

static void score_then(ts_paper *paper, ts_stand stand) {
  int likelihood = (int)stand.likelihood, severity = (int)stand.severity;
  if (likelihood == 0) {
    ts_xml_attribute(&paper->out, "none", "yes");
    return;
  }
  ts_xml_attributef(&paper->out, "likelihood", "%d", likelihood);
  ts_xml_attributef(&paper->out, "severity", "%d", severity);
  ts_xml_attributef(&paper->out, "score", "%d", likelihood * severity);
  ts_xml_attribute(&paper->out, "band",
                   ts_matrix_band(paper->a->in.matrix, likelihood, severity)->id);
}

static void then(ts_paper *paper, ts_word word, ts_stand stand) {
  static const char *const certainties[] = {"gone", "possible", "certain"};
  ts_xml_attribute(&paper->out, "then", ts_paper_stand(paper, word, stand, true));
  if (word == TS_HAZARD)
    score_then(paper, stand);
  else
    ts_xml_attribute(&paper->out, "state",
                     word == TS_DUTY ? ts_duty_name(stand.duty) : certainties[stand.certainty]);
}

static void better(ts_paper *paper, ts_shifted it) {
  ts_xml_start(&paper->out, "better");
  ts_xml_attribute(&paper->out, "finding", it.finding->id);
  ts_xml_attribute(&paper->out, "then", ts_paper_stand(paper, it.word, it.then, true));
  ts_xml_end(&paper->out);
}

static void worse(ts_paper *paper, const ts_shifted *it, ts_subject from) {
  const ts_finding *finding = it->finding;
  const char *title = ts_rule_at(paper->packs, it->rule)->title, *was = "not found";
  const char *label = ts_paper_label_from(paper, it->subject, from);
  const char *will = ts_paper_stand(paper, it->word, it->then, true);
  if (finding != NULL) was = ts_paper_stand(paper, it->word, ts_stands_now(finding), true);
  ts_xml_start(&paper->out, "worse");
  ts_xml_attribute(&paper->out, "finding", finding != NULL ? finding->id : NULL);
  ts_xml_attribute(&paper->out, "title", title);
  ts_xml_attribute(&paper->out, "subject-label", label);
  ts_xml_attribute(&paper->out, "now", was);
  ts_xml_attribute(&paper->out, "then", will);
  ts_xml_attribute(
      &paper->out, "words",
      finding != NULL
          ? ts_arena_printf(paper->arena, "%s %s: %s → %s", finding->id, title, was, will)
          : ts_arena_printf(paper->arena, "new: %s, %s: %s", title, label, will));
  if (finding != NULL) ts_paper_stand_parts(paper, "now", it->word, ts_stands_now(finding), true);
  ts_paper_stand_parts(paper, "then", it->word, it->then, true);
  ts_xml_end(&paper->out);
}

static bool same_news(const ts_shift *a, const ts_shift *b) {
  return a->fresh && b->fresh && a->word == b->word && a->rank == b->rank;
}

static bool same_place(const ts_paper *paper, const ts_shift *shift, const ts_shifted *it) {
  ts_shifted other = ts_shift_read(paper->a, shift);
  return other.rule == it->rule && other.subject == it->subject;
}

/* Each once: a rule may come to say the same of several things. What it says of one subject stands
 * together where it weighs the same. */
static void all_worse(ts_paper *paper, const ts_shift *all, size_t count, ts_subject from) {
  for (size_t i = 0; i < count; i++) {
    ts_shifted it = ts_shift_read(paper->a, &all[i]);
    bool again = false;
    for (size_t k = i; k > 0 && !again && same_place(paper, &all[k - 1], &it); k--)
      again = same_news(&all[k - 1], &all[i]);
    if (!again) worse(paper, &it, from);
  }
}

/* A way down shifts at least the finding it is for. */
static bool reaches_further(const ts_elsewhere *does) {
  return does->better_count + does->worse_count > 1 || does->not_tried > 0;
}

static const char *elsewhere_id(ts_paper *paper, const ts_elsewhere *does) {
  return ts_arena_printf(paper->arena, "E%u", does->number);
}

static void shifts(ts_paper *paper, size_t number) {
  const ts_elsewhere *does = paper->a->elsewhere[number];
  if (!reaches_further(does)) return;
  ts_xml_start(&paper->out, "shifts");
  ts_xml_attribute(&paper->out, "id", elsewhere_id(paper, does));
  if (does->not_tried > 0) ts_xml_attributef(&paper->out, "not-tried", "%u", does->not_tried);
  for (size_t k = 0; k < does->better_count; k++)
    better(paper, ts_shift_read(paper->a, &does->shifts[k]));
  all_worse(paper, does->shifts + does->better_count, does->worse_count, does->from);
  ts_xml_end(&paper->out);
}

void ts_paper_elsewhere(ts_paper *paper) {
  ts_xml_start(&paper->out, "elsewhere");
  ts_paper_each(paper, paper->a->elsewhere_count, NULL, shifts);
  ts_xml_end(&paper->out);
}

static bool is_number(const ts_fact_def *fact) {
  return fact->type == TS_QUANTITY || fact->type == TS_COUNT || fact->type == TS_DATE ||
         fact->type == TS_CLOCK;
}

static const char *goal(ts_paper *paper, const ts_fact_def *fact, const ts_way *way) {
  const ts_value *value = way->does->value;
  if (!is_number(fact)) return ts_paper_value(paper, fact, value);
  return one_number(paper, fact, way->upward ? value->range.lo : value->range.hi);
}

/* "at most 12 s", "yes". */
static const char *target(ts_paper *paper, const ts_fact_def *fact, const ts_way *way) {
  const char *to = goal(paper, fact, way);
  return is_number(fact) ? bound(paper, reach, fact, way->upward, way->edge_included, to) : to;
}

static void move_parts(ts_paper *paper, const ts_fact_def *fact, const ts_way *way) {
  const char *where = wheres[is_moment(fact)][way->upward][way->edge_included];
  ts_xml_attribute(&paper->out, "where", is_number(fact) ? where : "is");
  ts_xml_attribute(&paper->out, "goal", goal(paper, fact, way));
}

static void move(ts_paper *paper, const ts_finding *finding, const ts_way *way) {
  uint32_t slot = way->does->slot;
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
  const char *is = ts_paper_fact(paper, slot), *to = target(paper, fact, way);
  const char *title = ts_paper_title_from(paper, slot, finding->subject);
  bool answer = fact->type == TS_FLAG || fact->type == TS_CHOICE || fact->type == TS_SET;
  of_fact(paper, finding, slot, is);
  ts_xml_attribute(&paper->out, "to", to);
  ts_xml_attribute(&paper->out, "words",
                   ts_arena_printf(paper->arena, "%s%s %s; now %s", title, answer ? ":" : "", to,
                                   is != NULL ? is : "not known"));
  move_parts(paper, fact, way);
  who_sees(paper, finding, slot);
}

static void way(ts_paper *paper, const ts_finding *finding, const ts_way *it) {
  const ts_elsewhere *does = it->does;
  bool moves = does->slot != TS_NO_SLOT;
  ts_xml_start(&paper->out, "way");
  ts_xml_attribute(&paper->out, "kind", moves ? "move" : does->controls[1] ? "pair" : "control");
  if (moves) move(paper, finding, it);
  if (!moves) {
    ts_xml_attribute(&paper->out, "scope", ts_paper_path(paper, does->from));
    ts_xml_attribute(&paper->out, "scope-label", ts_paper_label(paper, does->from));
  }
  then(paper, finding->word, it->then);
  if (reaches_further(does)) ts_xml_attribute(&paper->out, "elsewhere", elsewhere_id(paper, does));
  for (size_t i = 0; i < 2 && does->controls[i]; i++)
    ts_paper_control_named(paper, does->controls[i]);
  ts_xml_end(&paper->out);
}

void ts_paper_would_change(ts_paper *paper, const ts_finding *finding) {
  when(paper, finding, &finding->when_worst, "worst");
  when(paper, finding, &finding->when_best, "best");
  for (size_t i = 0; i < finding->margin_count; i++) margin(paper, finding, &finding->margins[i]);
  for (size_t i = 0; i < finding->way_count; i++) way(paper, finding, &finding->ways[i]);
}

/* ---- remedies ------------------------------------------------------------------------ */

static void remedy(ts_paper *paper, const ts_remedy *it) {
  ts_xml_start(&paper->out, "remedy");
  ts_xml_attribute(&paper->out, "task", ts_paper_path(paper, it->task));
  ts_xml_attribute(&paper->out, "task-label", ts_paper_label(paper, it->task));
  ts_xml_attribute(&paper->out, "none", ts_paper_yes(it->none));
  for (size_t i = 0; i < it->control_count; i++) ts_paper_control_named(paper, it->controls[i]);
  for (size_t i = 0; i < it->left_count; i++) {
    const ts_finding *left = &paper->a->findings[it->left[i]];
    ts_xml_start(&paper->out, "left");
    ts_xml_attribute(&paper->out, "finding", left->id);
    ts_xml_attribute(&paper->out, "title", ts_rule_at(paper->packs, left->rule)->title);
    ts_xml_end(&paper->out);
  }
  ts_xml_end(&paper->out);
}

void ts_paper_remedies(ts_paper *paper) {
  ts_xml_start(&paper->out, "remedies");
  for (size_t i = 0; i < paper->a->remedy_count; i++) remedy(paper, &paper->a->remedies[i]);
  ts_xml_end(&paper->out);
}
