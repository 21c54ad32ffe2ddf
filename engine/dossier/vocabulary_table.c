/* The vocabulary's rows, put together from its sections.
 *
 * Each macro below is one type of fact; the sections read as a table of
 *   entity, name, [unit, US unit,] [least, most | choices,]
 *   meaning, how it is found out, who knows it, who may see it.
 * "Plausible" is meant widely: the range a careful person would not call a
 * typing error. A fact that is not known has all of it. */
#include "base/text.h"
#include "dossier/vocabulary.h"

#define OPEN TS_OPEN_TO_ALL
#define CREW TS_CREW_ONLY
#define CONFIDENTIAL TS_CONFIDENTIAL

/* Whom to ask: one name for each role, so that questions can be grouped. */
#define SAFETY "safety officer"
#define DIVING "diving supervisor"
#define DOCTOR "diving doctor"
#define MEDIC "set medic"
#define WATER "water technician"
#define GAS "gas technician"
#define POWER "chief electrician"
#define ENGINEER "structural engineer"
#define SITE "site manager"
#define OFFICE "production manager"
#define CALLS "assistant director"
#define STUNTS "stunt coordinator"
#define EFFECTS "special effects supervisor"
#define RIGGING "rigging supervisor"
#define BOATS "boat master"
#define PROPS "props master"
#define COSTUME "costume supervisor"
#define MAKEUP "make-up supervisor"
#define PERFORMER "the person"
#define CHAPERONE "chaperone"

/* Structure and words. */
#define ROW(e, n, type, c, m, sees, opt)                                                           \
  {                                                                                                \
    e, n, type, NULL, NULL, NULL, NULL, c, m, "as written by the production", OFFICE, sees, false, \
        opt                                                                                        \
  }
#define ID(e, m) ROW(e, "id", TS_ID, NULL, m, OPEN, false)
#define REF(e, n, to, m) ROW(e, n, TS_REF, to, m, OPEN, false)
#define REF_OR_NONE(e, n, to, m) ROW(e, n, TS_REF, to, m, OPEN, true)
#define REFS(e, n, to, m) ROW(e, n, TS_REFS, to, m, OPEN, false)
#define REFS_OR_NONE(e, n, to, m) ROW(e, n, TS_REFS, to, m, OPEN, true)
#define DAY(e, n, m) ROW(e, n, TS_DAY, NULL, m, OPEN, false)
#define WORD(e, n, c, m) ROW(e, n, TS_KIND_WORD, c, m, OPEN, false)
#define TEXT(e, n, m) ROW(e, n, TS_TEXT, NULL, m, OPEN, true)
#define CREW_TEXT(e, n, m) ROW(e, n, TS_TEXT, NULL, m, CREW, true)
#define MUST_TEXT(e, n, m) ROW(e, n, TS_TEXT, NULL, m, OPEN, false)

/* Facts. */
#define QUANTITY(e, n, u, us, lo, hi, m, how, who, sees)                                           \
  { e, n, TS_QUANTITY, u, us, lo, hi, NULL, m, how, who, sees, false, false }
#define COUNT(e, n, lo, hi, m, how, who, sees)                                                     \
  { e, n, TS_COUNT, "", NULL, lo, hi, NULL, m, how, who, sees, false, false }
#define FLAG(e, n, m, how, who, sees)                                                              \
  { e, n, TS_FLAG, NULL, NULL, NULL, NULL, NULL, m, how, who, sees, false, false }
#define CHOICE(e, n, c, m, how, who, sees)                                                         \
  { e, n, TS_CHOICE, NULL, NULL, NULL, NULL, c, m, how, who, sees, false, false }
#define SET(e, n, c, m, how, who, sees)                                                            \
  { e, n, TS_SET, NULL, NULL, NULL, NULL, c, m, how, who, sees, false, false }
#define DATE(e, n, m, how, who, sees)                                                              \
  { e, n, TS_DATE, NULL, NULL, "1900-01-01", "2100-12-31", NULL, m, how, who, sees, false, false }
#define CLOCK(e, n, m, how, who, sees)                                                             \
  { e, n, TS_CLOCK, NULL, NULL, "00:00", "47:59", NULL, m, how, who, sees, false, false }

/* Facts computed from other facts; engine/dossier/derive.c says how. */
#define DERIVED(e, n, u, us, lo, hi, m, how, sees)                                                 \
  { e, n, TS_QUANTITY, u, us, lo, hi, NULL, m, how, "computed", sees, true, false }
#define DERIVED_COUNT(e, n, lo, hi, m, how, sees)                                                  \
  { e, n, TS_COUNT, "", NULL, lo, hi, NULL, m, how, "computed", sees, true, false }

static const ts_entity_def entities[] = {
    {"production", "productions", "dossier", true, "the show, and how it is run"},
    {"change", "changes", "dossier", false, "what one revision of the assessment changed"},
    {"site", "sites", "dossier", false, "a place where people work in, under or beside water"},
    {"basin", "basins", "site", true, "the body of water people are in: its shape and ways out"},
    {"water", "waters", "site", true, "the water itself: quality, clarity, temperature"},
    {"plant", "plants", "site", true, "treatment, filtration, filling and drains"},
    {"air", "airs", "site", true, "air and weather around the water"},
    {"deck", "decks", "site", true, "surfaces, edges, steps and access beside the water"},
    {"structure", "structures", "site", true, "walls, windows and floors that carry the water"},
    {"power", "powers", "site", true, "electricity in and near the water"},
    {"emergency", "emergencies", "site", true, "the emergency plan and its time line"},
    {"openwater", "openwaters", "site", true, "lake, river or sea: what a tank does not have"},
    {"chamber", "chambers", "site", false, "a dry air space under the surface"},
    {"supply", "supplies", "site", false, "a source of breathing gas"},
    {"rig", "rigs", "site", false, "a machine or effect in, over or beside the water"},
    {"craft", "crafts", "site", false, "a boat, raft or vehicle on or in the water"},
    {"person", "people", "dossier", false, "somebody who goes in the water or holds a post"},
    {"appliance", "appliances", "dossier", false, "make-up, costume or gear worn in the water"},
    {"prop", "props", "dossier", false, "a dummy, creature or object in the water"},
    {"day", "days", "dossier", false, "a working day at one site"},
    {"task", "tasks", "day", false, "one piece of work: a set-up, a scene, a rehearsal"},
    {"immersion", "immersions", "task", false, "one person in the water in one task"},
    {"post", "posts", "task", false, "one person keeping watch or ready in one task"},
    {"record", "records", "day", false, "one entry of the dive log: who, down, up, how deep"},
    {"person-day", "person-days", NULL, false, "one person on one day: totals over tasks and log"},
};

/* The order of the sections is that of the entities. */
/* clang-format off */
static const ts_fact_def facts[] = {
#include "dossier/vocabulary_production.def"
#include "dossier/vocabulary_site.def"
#include "dossier/vocabulary_water.def"
#include "dossier/vocabulary_place.def"
#include "dossier/vocabulary_emergency.def"
#include "dossier/vocabulary_openwater.def"
#include "dossier/vocabulary_gas.def"
#include "dossier/vocabulary_machines.def"
#include "dossier/vocabulary_people.def"
#include "dossier/vocabulary_worn.def"
#include "dossier/vocabulary_work.def"
#include "dossier/vocabulary_immersion.def"
#include "dossier/vocabulary_totals.def"
};
/* clang-format on */

const ts_entity_def *ts_builtin_entities(size_t *count) {
  *count = sizeof entities / sizeof entities[0];
  return entities;
}

const ts_fact_def *ts_builtin_facts(size_t *count) {
  *count = sizeof facts / sizeof facts[0];
  return facts;
}

bool ts_fact_is_given(const ts_fact_def *fact) {
  static const struct {
    const char *entity, *name, *asked; /* NULL: any */
  } given[] = {{"openwater", NULL, NULL},       {"record", NULL, NULL},
               {"person", NULL, PERFORMER},     {"person", NULL, DOCTOR},
               {"site", "altitude", NULL},      {"site", "water-body", NULL},
               {"site", "indoor", NULL},        {"air", "flash-to-bang", NULL},
               {"production", "crew", NULL},
               {"immersion", "congested", NULL}, {"immersion", "first-time", NULL},
               {"basin", "length", NULL},       {"basin", "width", NULL},
               {"basin", "volume", NULL}};
  for (size_t i = 0; i < sizeof given / sizeof given[0]; i++)
    if (ts_same(fact->entity, given[i].entity) &&
        (given[i].name == NULL || ts_same(fact->name, given[i].name)) &&
        (given[i].asked == NULL || ts_same(fact->asked, given[i].asked)))
      return true;
  return false;
}
