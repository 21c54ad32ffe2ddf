/* What random rules are written from: the world, and every fact that can be reached in it. */
#include "random_rule.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

/* Where facts are read from: the prefix in Lua, and the way there from the immersion. */
static const struct {
  const char *prefix, *way;
  int list;
} places[] = {
    {"i.", "", -1},
    {"i.person.", "person", -1},
    {"i.site.", "site", -1},
    {"i.site.water.", "site.water", -1},
    {"i.site.basin.", "site.basin", -1},
    {"i.site.plant.", "site.plant", -1},
    {"i.site.air.", "site.air", -1},
    {"i.site.emergency.", "site.emergency", -1},
    {"i.task.", "task", -1},
    {"i.day.", "day", -1},
    {"o.", "task.immersions", 0},
    {"o.person.", "task.immersions.person", 0},
    {"o.", "task.posts", 1},
    {"o.", "wears", 2},
    {"o.", "person.records", 3},
};

/* The lists have more than the one member that a world is made with. */
static const char *const members[] = {"task.immersions.2.depth", "task.immersions.3.depth",
                                      "task.posts.2.watches", "wears.2.remove_time",
                                      "person.records.2.depth"};

/* Follows the way from `subject`; every member of a list on it counts. */
static size_t follow(const ts_dossier *world, ts_subject subject, const char *way,
                     ts_subject *out) {
  size_t length = strcspn(way, ".");
  if (length == 0) return *out = subject, 1;
  char name[32];
  snprintf(name, sizeof name, "%.*s", (int)length, way);
  const char *rest = way[length] == '.' ? way + length + 1 : "";
  ts_field field = ts_subject_field(world, subject, name);
  size_t count = 0;
  if (field.kind == TS_FIELD_SUBJECT) return follow(world, field.subject, rest, out);
  ck_assert_msg(field.kind == TS_FIELD_LIST, "%s leads nowhere", way);
  ck_assert_uint_le(field.count, RANDOM_SLOTS);
  for (size_t i = 0; i < field.count; i++) count += follow(world, field.list[i], rest, out + count);
  return count;
}

static const char *lua_name(random_source *source, const char *prefix, const char *name,
                            const char *word) {
  char *text = ts_arena_printf(source->arena, "%s%s%s%s", prefix, name, *word ? "_" : "", word);
  for (char *c = text; *c != '\0'; c++)
    if (*c == '-') *c = '_';
  return text;
}

static void add_fact(random_source *source, random_fact fact, const char *prefix, const char *word,
                     const ts_subject *from, size_t count) {
  fact.text = lua_name(source, prefix, fact.fact->name, word);
  for (size_t i = 0; i < count; i++) {
    ts_field field = ts_subject_field(source->world, from[i], fact.text + strlen(prefix));
    if (field.kind != TS_FIELD_FACT && field.kind != TS_FIELD_MEMBER) return;
    if (ts_slot_fact(source->world, field.slot) != fact.fact) return; /* the name means another */
    fact.slots[i] = field.slot;
  }
  fact.slot_count = count;
  TS_GROW(source->facts, source->count, source->capacity);
  source->facts[source->count++] = fact;
}

static void add_words(random_source *source, random_fact fact, const char *prefix,
                      const ts_subject *from, size_t count) {
  char *words = ts_arena_copy(source->arena, fact.fact->choices), *rest = NULL;
  for (char *word = strtok_r(words, " ", &rest); word; word = strtok_r(NULL, " ", &rest)) {
    add_fact(source, fact, prefix, word, from, count);
    fact.bit++;
  }
}

static void add_place(random_source *source, size_t place) {
  ts_subject from[RANDOM_SLOTS];
  size_t count = follow(source->world, source->subject, places[place].way, from);
  const ts_entity_def *entity = ts_subject_at(source->world, from[0])->entity;
  for (size_t i = 0; i < ts_fact_count(source->vocabulary, entity); i++) {
    const ts_fact_def *def = ts_fact_at(source->vocabulary, entity, i);
    if (def->type < TS_QUANTITY && def->type != TS_DAY) continue;
    random_fact fact = {.fact = def, .list = places[place].list};
    fact.dim = ts_fact_dim(source->vocabulary, def);
    fact.plausible = ts_fact_plausible(source->vocabulary, def);
    if (def->type == TS_SET)
      add_words(source, fact, places[place].prefix, from, count);
    else
      add_fact(source, fact, places[place].prefix, "", from, count);
  }
}

void random_source_open(random_source *source, const ts_vocabulary *vocabulary,
                        const ts_units *units) {
  *source = (random_source){.arena = ts_arena_new(), .units = units, .vocabulary = vocabulary};
  source->world = ts_dossier_example(vocabulary, units, "immersion", &source->subject);
  ts_diagnostics *problems = ts_diagnostics_new();
  for (size_t i = 0; i < sizeof members / sizeof *members; i++)
    ck_assert_msg(
        ts_dossier_given(source->world, source->subject, members[i], "?", problems, "test", 1),
        "%s", members[i]);
  ts_diagnostics_free(problems);
  for (size_t i = 0; i < sizeof places / sizeof *places; i++) add_place(source, i);
}

void random_source_close(random_source *source) {
  ts_dossier_free(source->world);
  free(source->facts);
  ts_arena_free(source->arena);
}
