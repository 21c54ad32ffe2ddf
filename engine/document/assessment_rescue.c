/* The time line of an emergency, site by site: what each step takes, and how long after the
 * trouble it is over. Ranges add up end by end. */
#include "document/assessment_axis.h"

enum {
  TROUBLE = -1,
  SEEN,
  HELD,
  GAS,
  SURFACE,
  DECK,
  BREATH,
  OXYGEN,
  SHOCK,
  CALLED,
  AMBULANCE,
  HOSPITAL,
  CHAMBER,
  STEPS
};

/* Each step begins when the one it comes after is over. */
static const struct {
  const char *id, *fact;
  int after;
} steps[STEPS] = {[SEEN] = {"seen", "notice-time", TROUBLE},
                  [HELD] = {"held", "reach-time", SEEN},
                  [GAS] = {"gas", "gas-time", HELD},
                  [SURFACE] = {"surface", "surface-time", HELD},
                  [DECK] = {"deck", "deck-time", SURFACE},
                  [BREATH] = {"breath", "breath-time", DECK},
                  [OXYGEN] = {"oxygen", "oxygen-time", DECK},
                  [SHOCK] = {"defibrillator", "defibrillator-time", DECK},
                  [CALLED] = {"called", "call-time", SEEN},
                  [AMBULANCE] = {"ambulance", "ambulance-time", CALLED},
                  [HOSPITAL] = {"hospital", "hospital-time", AMBULANCE},
                  [CHAMBER] = {"chamber", "chamber-time", DECK}};

typedef struct {
  ts_range at;
  bool assumed;
} milestone;

static milestone reached(const ts_paper *paper, uint32_t slot, milestone from) {
  ts_range step = ts_slot_value(paper->dossier, slot)->range;
  return (milestone){{from.at.lo + step.lo, from.at.hi + step.hi},
                     from.assumed || ts_slot_assumed(paper->dossier, slot)};
}

/* Seconds, for the bars of a chart. */
static void seconds(ts_paper *paper, const char *name, double value) {
  char text[32];
  ts_xml_attribute(&paper->out, name, ts_number_round(value, 6, text, sizeof text));
}

static void write(ts_paper *paper, size_t index, uint32_t slot, milestone m) {
  const ts_fact_def *fact = ts_slot_fact(paper->dossier, slot);
  char path[256];
  int after = steps[index].after;
  ts_xml_start(&paper->out, "step");
  ts_xml_attribute(&paper->out, "id", steps[index].id);
  ts_xml_attribute(&paper->out, "after", after == TROUBLE ? "trouble" : steps[after].id);
  ts_xml_attribute(&paper->out, "path", ts_slot_path(paper->dossier, slot, path, sizeof path));
  ts_xml_attribute(&paper->out, "meaning", fact->meaning);
  ts_xml_attribute(&paper->out, "asked", fact->asked);
  ts_xml_attribute(&paper->out, "takes", ts_paper_fact(paper, slot));
  ts_xml_attribute(&paper->out, "at", ts_paper_number(paper, fact, m.at));
  seconds(paper, "from-s", m.at.lo);
  seconds(paper, "to-s", m.at.hi);
  ts_xml_attribute(&paper->out, "assumed", ts_paper_yes(m.assumed));
  ts_xml_end(&paper->out);
}

static void site(ts_paper *paper, ts_subject emergency) {
  milestone at[STEPS] = {{{0, 0}, false}};
  ts_milestone drawn[STEPS];
  ts_subject parent = ts_subject_at(paper->dossier, emergency)->parent;
  ts_xml_start(&paper->out, "rescue");
  ts_xml_attribute(&paper->out, "site", ts_paper_path(paper, parent));
  ts_xml_attribute(&paper->out, "emergency", ts_paper_path(paper, emergency));
  for (size_t i = 0; i < STEPS; i++) {
    uint32_t slot = ts_paper_slot(paper, emergency, steps[i].fact);
    milestone from = steps[i].after == TROUBLE ? (milestone){{0, 0}, false} : at[steps[i].after];
    at[i] = reached(paper, slot, from);
    write(paper, i, slot, at[i]);
    drawn[i] = (ts_milestone){steps[i].id, at[i].at, !at[i].assumed};
  }
  ts_paper_stretch(paper, "rescue", drawn, AMBULANCE);
  ts_paper_stretch(paper, "hospital", drawn + AMBULANCE, STEPS - AMBULANCE);
  ts_xml_end(&paper->out);
}

void ts_paper_rescue(ts_paper *paper) {
  for (ts_subject s = 0; s < ts_subject_count(paper->dossier); s++)
    if (ts_same(ts_subject_at(paper->dossier, s)->entity->name, "emergency")) site(paper, s);
}
