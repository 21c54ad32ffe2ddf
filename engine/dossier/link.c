/* From the texts of references to the subjects they name, and to every list
 * a rule may walk. */
#include "dossier/words.h"
#include "dossier/world.h"

#include <string.h>

/* ---- references -------------------------------------------------------- */

typedef struct {
  ts_dossier *dossier;
  ts_diagnostics *problems;
  const char *doubt;
  ts_names missing; /* with doubt, a name that is not there is reported once */
} resolver;

static bool is_reference(ts_fact_type type) { return type == TS_REF || type == TS_REFS; }

/* Path of the nearest subject of the entities that the fact may refer to. */
static const char *nearest_target(const ts_dossier *dossier, const ts_known_fact *fact,
                                  const char *word) {
  ts_names right = {0};
  for (ts_subject s = 0; s < dossier->subject_count; s++)
    if (ts_choice_find(fact, dossier->subjects[s].info.entity->name) != TS_ABSENT)
      ts_names_put(&right, dossier->subjects[s].info.path, s);
  const char *near = ts_names_nearest(&right, word);
  ts_names_release(&right);
  return near;
}

static bool missing_target(resolver *r, uint32_t slot, const char *word) {
  if (*r->doubt && ts_names_get(&r->missing, word) != TS_ABSENT) return false;
  ts_names_put(&r->missing, word, 0);
  const ts_known_fact *fact = ts_world_known(r->dossier, slot);
  ts_subject owner = r->dossier->owners[slot];
  const char *near = nearest_target(r->dossier, fact, word);
  ts_report(r->problems, TS_ERROR, ts_world_file(r->dossier, owner), r->dossier->lines[slot],
            "\"%s\" refers to \"%s\", but there is no %s with that "
            "name%s%s%s%s",
            fact->def->name, word, fact->def->choices, near ? "; the nearest is \"" : "",
            near ? near : "", near ? "\"" : "", r->doubt);
  return false;
}

static bool wrong_target(const resolver *r, uint32_t slot, ts_subject found) {
  const ts_known_fact *fact = ts_world_known(r->dossier, slot);
  const ts_subject_info *info = &r->dossier->subjects[found].info;
  ts_report(r->problems, TS_ERROR, ts_world_file(r->dossier, r->dossier->owners[slot]),
            r->dossier->lines[slot], "\"%s\" refers to \"%s\", which is a %s; expected a %s",
            fact->def->name, info->path, info->entity->name, fact->def->choices);
  return false;
}

static bool resolve_word(resolver *r, uint32_t slot, const char *word) {
  ts_subject found = ts_names_get(&r->dossier->paths, word);
  if (found == TS_NO_SUBJECT) return missing_target(r, slot, word);
  const char *entity = r->dossier->subjects[found].info.entity->name;
  if (ts_choice_find(ts_world_known(r->dossier, slot), entity) == TS_ABSENT)
    return wrong_target(r, slot, found);
  ts_list_add(r->dossier->arena, ts_world_targets(r->dossier, slot), found);
  return true;
}

static bool resolve_slot(resolver *r, uint32_t slot) {
  const char *at = ts_world_value(r->dossier, slot)->text;
  bool good = true;
  if (!at || ts_same(at, "none")) return true;
  for (char *word; (word = ts_words_next(r->dossier->arena, &at, " "));)
    if (!resolve_word(r, slot, word)) good = false;
  return good;
}

bool ts_world_resolve(ts_dossier *dossier, const char *doubt, ts_diagnostics *problems) {
  resolver r = {dossier, problems, doubt, {0}};
  bool good = true;
  for (uint32_t slot = 0; slot < dossier->slot_count; slot++)
    if (is_reference(ts_world_known(dossier, slot)->def->type) && !resolve_slot(&r, slot))
      good = false;
  ts_names_release(&r.missing);
  return good;
}

/* ---- person-days ------------------------------------------------------- */

static const char *person_day_path(ts_dossier *dossier, ts_subject person, ts_subject day) {
  const char *date = ts_world_text(dossier, day, "date");
  return ts_arena_printf(dossier->arena, "%s@%s", dossier->subjects[person].info.path,
                         date ? date : dossier->subjects[day].info.path);
}

static void refer(ts_dossier *dossier, ts_subject from, const char *fact, ts_subject to) {
  uint32_t slot = ts_world_slot(dossier, from, fact);
  ts_world_put_text(dossier, slot, dossier->subjects[to].info.path);
  ts_list_add(dossier->arena, ts_world_targets(dossier, slot), to);
}

/* Two units on one date share their people's day: what a body has done counts, not for whom. */
static void make_person_day(ts_dossier *dossier, uint32_t entity, ts_subject person,
                            ts_subject day) {
  if (person == TS_NO_SUBJECT || day == TS_NO_SUBJECT) return;
  const char *path = person_day_path(dossier, person, day);
  if (ts_names_get(&dossier->person_days, path) != TS_ABSENT) return;
  const ts_subject_entry *at = &dossier->subjects[day];
  ts_subject made = ts_world_add(dossier, entity, path, day, at->file, at->info.line);
  refer(dossier, made, "person", person);
  refer(dossier, made, "day", day);
  ts_names_put(&dossier->person_days, path, made);
  ts_world_complete(dossier, made);
}

/* A person-day is found by its person and its day's date, which an example may change. */
static void index_person_days(ts_dossier *dossier) {
  ts_names_release(&dossier->person_days);
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    if (!ts_world_is(dossier, s, "person-day")) continue;
    ts_subject person = ts_world_target(dossier, s, "person");
    ts_subject day = ts_world_above(dossier, s, "day");
    if (person != TS_NO_SUBJECT)
      ts_names_put(&dossier->person_days, person_day_path(dossier, person, day), s);
  }
}

void ts_world_person_days(ts_dossier *dossier) {
  index_person_days(dossier);
  uint32_t entity = ts_names_get(&dossier->vocabulary->entity_names, "person-day");
  size_t count = dossier->subject_count;
  for (ts_subject s = 0; s < count && entity != TS_ABSENT; s++)
    if (!dossier->subjects[s].removed &&
        (ts_world_is(dossier, s, "immersion") || ts_world_is(dossier, s, "record")))
      make_person_day(dossier, entity, ts_world_target(dossier, s, "person"),
                      ts_world_above(dossier, s, "day"));
}

/* ---- links ------------------------------------------------------------- */

static ts_subject follow(const ts_dossier *dossier, ts_subject subject, const ts_hop *hop) {
  const ts_subject_entry *entry = &dossier->subjects[subject];
  const ts_list *targets;
  switch (hop->kind) {
  case TS_HOP_REFERENCE:
    targets = ts_world_targets(dossier, entry->info.slot + hop->index);
    return targets->count ? targets->at[0] : TS_NO_SUBJECT;
  case TS_HOP_PARENT: return entry->info.parent;
  case TS_HOP_BEYOND: return dossier->subjects[entry->info.parent].links[hop->index];
  case TS_HOP_ITSELF: return subject;
  default: return TS_NO_SUBJECT; /* a part: enters itself */
  }
}

static void enter_part(ts_dossier *dossier, ts_subject subject) {
  ts_subject_entry *entry = &dossier->subjects[subject];
  if (entry->info.parent == TS_NO_SUBJECT) return;
  ts_subject_entry *parent = &dossier->subjects[entry->info.parent];
  uint32_t link = dossier->plans[parent->entity].part[entry->entity];
  if (link != TS_ABSENT) parent->links[link] = subject;
}

/* Parents come before their children, but a part may come late: three passes. */
static void make_links(ts_dossier *dossier) {
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    ts_subject_entry *entry = &dossier->subjects[s];
    const ts_plan *plan = &dossier->plans[entry->entity];
    entry->links = ts_arena_alloc(dossier->arena, (plan->hop_count + 1) * sizeof *entry->links);
    for (size_t i = 0; i < plan->hop_count; i++) entry->links[i] = TS_NO_SUBJECT;
  }
  for (ts_subject s = 0; s < dossier->subject_count; s++) enter_part(dossier, s);
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    const ts_plan *plan = &dossier->plans[dossier->subjects[s].entity];
    for (size_t i = 0; i < plan->hop_count; i++)
      if (plan->hops[i].kind != TS_HOP_PART)
        dossier->subjects[s].links[i] = follow(dossier, s, &plan->hops[i]);
  }
}

/* ---- lists ------------------------------------------------------------- */

static void append(ts_dossier *dossier, ts_subject to, uint32_t list, ts_subject member) {
  if (list == TS_ABSENT) return;
  ts_list *members = &dossier->subjects[to].lists[list];
  if (members->count && members->at[members->count - 1] == member) return; /* refers twice */
  ts_list_add(dossier->arena, members, member);
}

static void enter_above(ts_dossier *dossier, ts_subject subject) {
  uint32_t entity = dossier->subjects[subject].entity;
  ts_subject above = dossier->subjects[subject].info.parent;
  for (; above != TS_NO_SUBJECT; above = dossier->subjects[above].info.parent)
    append(dossier, above, dossier->plans[dossier->subjects[above].entity].below[entity], subject);
}

static void enter_target(ts_dossier *dossier, ts_subject target, ts_subject subject) {
  const ts_plan *plan = &dossier->plans[dossier->subjects[target].entity];
  append(dossier, target, plan->referring[dossier->subjects[subject].entity], subject);
}

static void enter_targets(ts_dossier *dossier, const ts_list *targets, ts_subject subject) {
  for (size_t i = 0; i < targets->count; i++) enter_target(dossier, targets->at[i], subject);
}

static void enter_referred(ts_dossier *dossier, ts_subject subject) {
  const ts_subject_entry *entry = &dossier->subjects[subject];
  uint32_t count = dossier->vocabulary->entities[entry->entity].references;
  for (uint32_t i = 0; i < count; i++) enter_targets(dossier, &entry->targets[i], subject);
}

static void enter_person_day(ts_dossier *dossier, ts_subject subject) {
  ts_subject person = ts_world_target(dossier, subject, "person");
  ts_subject day = ts_world_above(dossier, subject, "day");
  if (person == TS_NO_SUBJECT || day == TS_NO_SUBJECT) return;
  if (ts_world_is(dossier, subject, "person-day")) return;
  ts_subject found = ts_names_get(&dossier->person_days, person_day_path(dossier, person, day));
  if (found == TS_NO_SUBJECT) return;
  const ts_plan *plan = &dossier->plans[dossier->subjects[found].entity];
  append(dossier, found, plan->that_day[dossier->subjects[subject].entity], subject);
}

static void enter_references(ts_dossier *dossier, ts_subject subject) {
  ts_subject_entry *entry = &dossier->subjects[subject];
  const ts_plan *plan = &dossier->plans[entry->entity];
  for (size_t i = 0; i < plan->list_count; i++)
    if (plan->lists[i].kind == TS_LIST_REFERENCES)
      entry->lists[i] = *ts_world_targets(dossier, entry->info.slot + plan->lists[i].index);
}

static void make_lists(ts_dossier *dossier) {
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    ts_subject_entry *entry = &dossier->subjects[s];
    size_t count = dossier->plans[entry->entity].list_count;
    entry->lists = ts_arena_alloc(dossier->arena, (count + 1) * sizeof *entry->lists);
    enter_references(dossier, s);
  }
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    if (dossier->subjects[s].removed) continue;
    enter_above(dossier, s);
    enter_referred(dossier, s);
    enter_person_day(dossier, s);
  }
}

/* ---- labels ------------------------------------------------------------ */

static void label(ts_dossier *dossier, ts_subject subject) {
  static const char *const facts[] = {"title", "name", "label"};
  ts_subject_info *info = &dossier->subjects[subject].info;
  for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
    const char *text = ts_world_text(dossier, subject, facts[i]);
    if (text && *text) {
      info->label = text;
      return;
    }
  }
}

void ts_world_link(ts_dossier *dossier) {
  for (ts_subject s = 0; s < dossier->subject_count; s++) label(dossier, s);
  make_links(dossier);
  make_lists(dossier);
  ts_world_days(dossier);
}
