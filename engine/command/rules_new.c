/* A first rule of one's own: written so that it already passes `rules check`. */
#include "base/file.h"
#include "base/text.h"
#include "command/command.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What the rule is made of, all in words. */
typedef struct {
  const char *id, *entity, *fact, *field;
  const char *test;            /* "i.depth > q\"3 m\"" */
  const char *title;           /* "immersion depth above 3 m" */
  const char *beyond, *within; /* values on either side, as a dossier would have them */
} plan;

/* ---- the fact ------------------------------------------------------------------------ */

static const ts_fact_def *find_fact(const ts_session *s, const char *path) {
  const char *dot = strchr(path, '.');
  const char *entity_name = dot ? ts_arena_copy_n(s->arena, path, (size_t)(dot - path)) : path;
  const ts_entity_def *entity = ts_entity_find(s->vocabulary, entity_name);
  const char *names[1024];
  size_t count = 0;
  if (dot == NULL || entity == NULL) {
    for (; count < ts_entity_count(s->vocabulary); count++)
      names[count] = ts_entity_at(s->vocabulary, count)->name;
    if (dot != NULL) return unknown("entity", entity_name, names, count), NULL;
    return usage_error("\"%s\" is no fact; write it as \"immersion.depth\"", path), NULL;
  }
  for (; count < ts_fact_count(s->vocabulary, entity) && count < 1024; count++) {
    names[count] = ts_fact_at(s->vocabulary, entity, count)->name;
    if (ts_same(names[count], dot + 1)) return ts_fact_at(s->vocabulary, entity, count);
  }
  unknown("fact", dot + 1, names, count);
  return NULL;
}

static bool is_number(const ts_fact_def *fact) {
  return fact->type == TS_QUANTITY || fact->type == TS_COUNT;
}

static const char *underscored(const ts_session *s, const char *name) {
  char *field = ts_arena_copy(s->arena, name);
  for (char *c = field; *c != '\0'; c++)
    if (*c == '-') *c = '_';
  return field;
}

/* ---- numbers --------------------------------------------------------------------------- */

static const char *number_text(const ts_session *s, const ts_fact_def *fact, double x) {
  char text[128];
  ts_dim dim = ts_fact_dim(s->vocabulary, fact);
  ts_quantity_write(s->units, (ts_range){x, x}, dim, fact->unit, TS_METRIC, text, sizeof text);
  return ts_arena_copy(s->arena, text);
}

/* A value a little past the limit, so that the example stands close to it: three in a hundred of
 * the limit, or one of what is plausible where that is less; a count's next whole number. */
static bool beyond_limit(const ts_session *s, const ts_fact_def *fact, double limit, bool above,
                         double *beyond) {
  ts_range all = ts_fact_plausible(s->vocabulary, fact);
  double end = above ? all.hi : all.lo, step = 0.01 * (all.hi - all.lo);
  if (limit != 0) step = fmin(step, 0.03 * fabs(limit));
  step = ts_number_digits(step, 1);
  *beyond = above ? fmin(limit + step, end) : fmax(limit - step, end);
  if (fact->type == TS_COUNT) *beyond = above ? ceil(*beyond) : floor(*beyond);
  if (above ? *beyond > limit : *beyond < limit) return true;
  usage_error("nothing plausible is %s %s", above ? "above" : "below", number_text(s, fact, limit));
  return false;
}

static bool plan_number(const ts_session *s, const ts_fact_def *fact, const char *how,
                        const ts_value *value, plan *p) {
  bool above = ts_same(how, "above");
  double limit = value->range.lo, beyond;
  if (value->range.lo < value->range.hi)
    return usage_error("one value is wanted, not the range \"%s\"", value->text), false;
  if (!beyond_limit(s, fact, limit, above, &beyond)) return false;
  const char *text = number_text(s, fact, limit);
  bool plain = fact->type == TS_COUNT || (fact->unit != NULL && fact->unit[0] == '\0');
  p->test = ts_arena_printf(s->arena, plain ? "i.%s %s %s" : "i.%s %s q\"%s\"", p->field,
                            above ? ">" : "<", text);
  p->within = text;
  p->beyond = number_text(s, fact, beyond);
  p->title = ts_arena_printf(s->arena, "%s %s %s %s", p->entity, p->fact, how, text);
  return true;
}

/* ---- words ------------------------------------------------------------------------------- */

/* Another choice than the one asked about. */
static const char *other_choice(const ts_session *s, const ts_fact_def *fact,
                                const char *not_this) {
  for (const char *at = fact->choices; at != NULL && *(at += strspn(at, " ")) != '\0';) {
    size_t length = strcspn(at, " ");
    const char *word = ts_arena_copy_n(s->arena, at, length);
    if (!ts_same(word, not_this)) return word;
    at += length;
  }
  return "?";
}

static bool plan_words(const ts_session *s, const ts_fact_def *fact, const char *value, plan *p) {
  bool yes = ts_same(value, "yes");
  p->beyond = value;
  if (fact->type == TS_FLAG) {
    p->within = yes ? "no" : "yes";
    p->test = ts_arena_printf(s->arena, yes ? "i.%s" : "not i.%s", p->field);
  } else {
    p->within = other_choice(s, fact, value);
    p->test = ts_arena_printf(s->arena, "i.%s == \"%s\"", p->field, value);
  }
  p->title = ts_arena_printf(s->arena, "%s %s: %s", p->entity, p->fact, value);
  return true;
}

static bool make_plan(ts_session *s, const ts_options *options, plan *p) {
  static const char *const hows[] = {"above", "below", "is"};
  const char *path = options->words[2], *how = options->words[3], *text = options->words[4];
  const ts_fact_def *fact = find_fact(s, path);
  ts_value value;
  if (fact == NULL) return false;
  if (!ts_same(how, "above") && !ts_same(how, "below") && !ts_same(how, "is"))
    return unknown("comparison", how, hows, 3), false;
  bool words = fact->type == TS_FLAG || fact->type == TS_CHOICE;
  if ((!is_number(fact) && !words) || words != ts_same(how, "is"))
    return usage_error("\"%s\" cannot be asked with \"%s\"", path, how), false;
  if (!ts_fact_read(s->vocabulary, s->units, s->arena, fact, text, &value, s->problems, path, 0))
    return false;
  *p = (plan){.id = options->words[1],
              .entity = fact->entity,
              .fact = fact->name,
              .field = underscored(s, fact->name)};
  return words ? plan_words(s, fact, text, p) : plan_number(s, fact, how, &value, p);
}

/* ---- the file ------------------------------------------------------------------------------ */

static const char form[] =
    "-- A first rule of one's own. It passes `tankside rules check`; whatever is still a guess in\n"
    "-- it (harm, score, words, controls, sources) is for you to make true of your site.\n"
    "rule {\n"
    "  id = \"%s\",\n"
    "  title = \"%s\",\n"
    "  each = \"%s\",\n"
    "  harm = \"who is harmed, and how\",\n"
    "  sources = { \"common practice\" },\n"
    "  assess = function(i)\n"
    "    if %s then\n"
    "      hazard {\n"
    "        likelihood = 3, -- over the whole task: 1 rare, 5 expected\n"
    "        severity = 3, -- if it happens once: 1 first aid, 5 death\n"
    "        because = \"%s: {i.%s}\",\n"
    "        controls = {}, -- ids from the catalogue\n"
    "      }\n"
    "    end\n"
    "  end,\n"
    "  examples = {\n"
    "    { \"so\", given = { %s = \"%s\" }, expect = hazard { likelihood = 3, severity = 3 } },\n"
    "    { \"not so\", given = { %s = \"%s\" }, expect = nothing },\n"
    "    { \"not known\", given = {}, expect = hazard { likelihood = 3, severity = 3 } },\n"
    "  },\n"
    "}\n";

static bool is_there(ts_session *s, const char *path) {
  char *folder = ts_path_folder(s->arena, path);
  if (!ts_folder_exists(folder)) return false;
  char **names = ts_folder_list(s->arena, folder, ".lua", s->problems);
  for (size_t i = 0; names != NULL && names[i] != NULL; i++)
    if (ts_same(names[i], ts_path_name(path))) return true;
  return false;
}

static int write_rule(ts_session *s, const char *path, const char *text) {
  size_t length = strlen(text), name = strlen(path);
  if (path == NULL || ts_same(path, "-")) return fputs(text, stdout) < 0 ? NOT_DONE : DONE;
  if (name < 5 || !ts_same(path + name - 4, ".lua"))
    return usage_error("\"%s\": a rule file's name ends in .lua", path);
  if (is_there(s, path)) return usage_error("\"%s\" is there already and is left alone", path);
  if (!ts_folder_make(ts_path_folder(s->arena, path), s->problems) ||
      !ts_file_write(path, text, length, s->problems))
    return NOT_DONE;
  char *folder = ts_path_folder(s->arena, path);
  printf("written to %s; try: tankside rules check --pack %s\n", path, folder);
  return DONE;
}

static bool good_id(const char *id) {
  size_t length = strspn(id, "abcdefghijklmnopqrstuvwxyz0123456789-.");
  if (id[length] == '\0' && strchr(id, '.') != NULL && id[0] != '.') return true;
  usage_error("\"%s\" is no id for a rule; small letters with a point, like \"ledge.too-deep\"",
              id);
  return false;
}

int rules_new(ts_session *s, const ts_options *options) {
  plan p;
  if (!good_id(options->words[1]) || !make_plan(s, options, &p)) return NOT_DONE;
  const char *text = ts_arena_printf(s->arena, form, p.id, p.title, p.entity, p.test, p.title,
                                     p.field, p.field, p.beyond, p.field, p.within);
  return write_rule(s, options->out ? options->out : "-", text);
}
