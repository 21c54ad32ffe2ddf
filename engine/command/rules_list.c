/* tankside rules list: which rules there are, all or those asked for, as lines or as CSV. */
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  const ts_session *session;
  const ts_rule_index *index; /* NULL while nothing asks for it */
} lister;

/* ---- what a rule can be asked by ------------------------------------------------------- */

static const char *topic_of(const lister *l, const ts_rule *rule) {
  return ts_arena_copy_n(l->session->arena, rule->id, strcspn(rule->id, "."));
}

static bool contains(const char *text, const char *words) {
  size_t length = strlen(words);
  for (; *text != '\0'; text++) {
    size_t i = 0;
    while (i < length && tolower((unsigned char)text[i]) == tolower((unsigned char)words[i])) i++;
    if (i == length) return true;
  }
  return length == 0;
}

static bool by_topic(const lister *l, size_t rule, const char *text) {
  return ts_same(topic_of(l, ts_rule_at(l->session->packs, rule)), text);
}

static bool by_pack(const lister *l, size_t rule, const char *text) {
  return ts_same(ts_rule_at(l->session->packs, rule)->pack, text);
}

static bool by_subject(const lister *l, size_t rule, const char *text) {
  return ts_same(ts_rule_at(l->session->packs, rule)->each, text);
}

/* "depth" or "immersion.depth" */
static bool by_fact(const lister *l, size_t rule, const char *text) {
  ts_rule_content content = ts_rule_index_at(l->index, rule);
  for (size_t i = 0; i < content.fact_count; i++) {
    const ts_fact_def *fact = content.facts[i];
    if (ts_same(fact->name, text) ||
        ts_same(ts_arena_printf(l->session->arena, "%s.%s", fact->entity, fact->name), text))
      return true;
  }
  return false;
}

static bool by_control(const lister *l, size_t rule, const char *text) {
  ts_rule_content content = ts_rule_index_at(l->index, rule);
  for (size_t i = 0; i < content.control_count; i++)
    if (ts_same(content.controls[i], text)) return true;
  return false;
}

static bool by_title(const lister *l, size_t rule, const char *text) {
  return contains(ts_rule_at(l->session->packs, rule)->title, text);
}

static bool by_source(const lister *l, size_t rule, const char *text) {
  const ts_rule *it = ts_rule_at(l->session->packs, rule);
  for (size_t i = 0; i < it->source_count; i++)
    if (contains(it->sources[i], text)) return true;
  return false;
}

/* The common rules, those of the place, and what it stands on: "us-fed" for "us-ca". */
static bool by_jurisdiction(const lister *l, size_t rule, const char *text) {
  const char *pack = ts_rule_at(l->session->packs, rule)->pack;
  const char *country = ts_arena_copy_n(l->session->arena, text, strcspn(text, "-"));
  return ts_same(pack, "common") || ts_same(pack, text) || ts_same(pack, country) ||
         ts_same(pack, ts_arena_printf(l->session->arena, "%s-fed", country));
}

/* ---- values there are, for those that are looked up by name --------------------------------- */

static const char *topic_name(const lister *l, size_t i) {
  return topic_of(l, ts_rule_at(l->session->packs, i));
}
static const char *pack_name(const lister *l, size_t i) {
  return ts_rule_at(l->session->packs, i)->pack;
}
static const char *subject_name(const lister *l, size_t i) {
  return ts_entity_at(l->session->vocabulary, i)->name;
}
static const char *control_name(const lister *l, size_t i) {
  return ts_control_at(l->session->packs, i)->id;
}
static size_t rule_count(const lister *l) { return ts_rule_count(l->session->packs); }
static size_t subject_count(const lister *l) { return ts_entity_count(l->session->vocabulary); }
static size_t control_count(const lister *l) { return ts_control_count(l->session->packs); }

static const struct {
  const char *name;
  bool (*fits)(const lister *l, size_t rule, const char *text);
  bool indexed;                                    /* rules have to be looked into */
  size_t (*count)(const lister *l);                /* NULL: any text will do */
  const char *(*value)(const lister *l, size_t i); /* one that exists */
} fields[] = {{"topic", by_topic, false, rule_count, topic_name},
              {"pack", by_pack, false, rule_count, pack_name},
              {"subject", by_subject, false, subject_count, subject_name},
              {"fact", by_fact, true, NULL, NULL},
              {"control", by_control, true, control_count, control_name},
              {"title", by_title, false, NULL, NULL},
              {"source", by_source, false, NULL, NULL},
              {"jurisdiction", by_jurisdiction, false, NULL, NULL}};
enum { FIELDS = sizeof fields / sizeof fields[0] };

/* ---- --where ------------------------------------------------------------------------------- */

static bool exists(const lister *l, size_t field, const char *text) {
  if (fields[field].count == NULL) return true;
  size_t count = fields[field].count(l);
  const char **values = ts_arena_alloc(l->session->arena, (count + 1) * sizeof *values);
  for (size_t i = 0; i < count; i++) {
    values[i] = fields[field].value(l, i);
    if (ts_same(values[i], text)) return true;
  }
  unknown(fields[field].name, text, values, count);
  return false;
}

/* "immersion.depth", or "depth" of whatever has one. */
static bool fact_exists(const ts_session *s, const char *text) {
  const char *names[4096];
  const char *dot = strchr(text, '.');
  size_t count = 0;
  for (size_t e = 0; e < ts_entity_count(s->vocabulary); e++) {
    const ts_entity_def *entity = ts_entity_at(s->vocabulary, e);
    for (size_t i = 0; i < ts_fact_count(s->vocabulary, entity) && count < 4096; i++) {
      const char *name = ts_fact_at(s->vocabulary, entity, i)->name;
      names[count] = dot ? ts_arena_printf(s->arena, "%s.%s", entity->name, name) : name;
      if (ts_same(names[count++], text)) return true;
    }
  }
  unknown("fact", text, names, count);
  return false;
}

/* Which field a filter is on; *text is what stands after its "=". */
static bool read_filter(const lister *l, const char *filter, size_t *field, const char **text) {
  const char *names[FIELDS], *equals = strchr(filter, '=');
  for (size_t i = 0; i < FIELDS; i++) names[i] = fields[i].name;
  if (equals == NULL || equals[1] == '\0')
    return usage_error("\"%s\": write --where FIELD=TEXT, like --where fact=immersion.depth",
                       filter),
           false;
  const char *name = ts_arena_copy_n(l->session->arena, filter, (size_t)(equals - filter));
  *text = equals + 1;
  for (*field = 0; *field < FIELDS; ++*field)
    if (ts_same(name, names[*field]))
      return ts_same(name, "fact") ? fact_exists(l->session, *text) : exists(l, *field, *text);
  return unknown("field", name, names, FIELDS), false;
}

static bool filters_good(const lister *l, const ts_options *options, bool *indexed) {
  bool good = true;
  for (size_t i = 0; i < options->where_count; i++) {
    size_t field;
    const char *text;
    bool known = read_filter(l, options->wheres[i], &field, &text);
    if (known && fields[field].indexed) *indexed = true;
    good = known && good;
  }
  return good;
}

/* Every filter holds; they have been read before. */
static bool fits(const lister *l, const ts_options *options, size_t rule) {
  for (size_t i = 0; i < options->where_count; i++) {
    size_t field = 0, length = strcspn(options->wheres[i], "=");
    while (strlen(fields[field].name) != length ||
           strncmp(fields[field].name, options->wheres[i], length) != 0)
      field++;
    if (!fields[field].fits(l, rule, options->wheres[i] + length + 1)) return false;
  }
  return true;
}

/* ---- as a table ------------------------------------------------------------------------ */

static const char *joined(ts_arena *arena, const char *const *texts, size_t count) {
  const char *all = "";
  for (size_t i = 0; i < count; i++)
    all = ts_arena_printf(arena, "%s%s%s", all, i > 0 ? "; " : "", texts[i]);
  return all;
}

static void csv_head(void) {
  static const char *const columns[] = {"id",   "subject", "title", "harm",     "sources",
                                        "pack", "file",    "line",  "examples", "controls"};
  enum { COLUMNS = sizeof columns / sizeof columns[0] };
  for (size_t i = 0; i < COLUMNS; i++) csv_cell(columns[i], i + 1 == COLUMNS);
}

static void csv_row(const lister *l, size_t index) {
  const ts_rule *rule = ts_rule_at(l->session->packs, index);
  ts_rule_content content = ts_rule_index_at(l->index, index);
  ts_arena *arena = l->session->arena;
  csv_cell(rule->id, false);
  csv_cell(rule->each, false);
  csv_cell(rule->title, false);
  csv_cell(rule->harm, false);
  csv_cell(joined(arena, rule->sources, rule->source_count), false);
  csv_cell(rule->pack, false);
  csv_cell(rule->file, false);
  csv_cell(ts_arena_printf(arena, "%d", rule->line), false);
  csv_cell(ts_arena_printf(arena, "%zu", rule->example_count), false);
  csv_cell(joined(arena, content.controls, content.control_count), true);
}

/* ---- the list -------------------------------------------------------------------------- */

static void line(const ts_rule *rule) {
  printf("%-34s %-10s %s  (%s/%s:%d)\n", rule->id, rule->each, rule->title, rule->pack, rule->file,
         rule->line);
}

static void print(const lister *l, const ts_options *options, bool csv) {
  size_t all = ts_rule_count(l->session->packs), count = 0;
  if (csv) csv_head();
  for (size_t i = 0; i < all; i++) {
    if (!fits(l, options, i)) continue;
    count++;
    if (csv)
      csv_row(l, i);
    else
      line(ts_rule_at(l->session->packs, i));
  }
  if (csv) return;
  if (options->where_count > 0)
    printf("%zu of %zu rule%s\n", count, all, plural(all));
  else
    printf("%zu rules, %zu controls\n", all, ts_control_count(l->session->packs));
}

int rules_list(const ts_session *s, const ts_options *options) {
  static const char *const forms[] = {"text", "csv"};
  lister l = {.session = s};
  bool csv = ts_same(options->as, "csv"), indexed = csv;
  if (options->as != NULL && !csv && !ts_same(options->as, "text"))
    return unknown("form", options->as, forms, 2);
  if (!filters_good(&l, options, &indexed)) return NOT_DONE;
  ts_rule_index *index = indexed ? ts_rule_index_new(s->packs) : NULL;
  l.index = index;
  print(&l, options, csv);
  ts_rule_index_free(index);
  return DONE;
}
