/* A first rule of one's own: written so that it already passes `rules check`. */
#include "command/rules_new.h"
#include "base/file.h"
#include "base/text.h"
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

const ts_fact_def *rule_fact(const ts_session *s, const char *path) {
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

bool rule_fact_is_number(const ts_fact_def *fact) {
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

static bool plan_value(ts_session *s, const ts_fact_def *fact, const rule_wish *wish, plan *p) {
  ts_value value;
  *p = (plan){.id = wish->id,
              .entity = fact->entity,
              .fact = fact->name,
              .field = underscored(s, fact->name)};
  if (!ts_fact_read(s->vocabulary, s->units, s->arena, fact, wish->value, &value, s->problems,
                    wish->path, 0))
    return false;
  return rule_fact_is_number(fact) ? plan_number(s, fact, wish->how, &value, p)
                                   : plan_words(s, fact, wish->value, p);
}

static bool make_plan(ts_session *s, const rule_wish *wish, plan *p) {
  static const char *const hows[] = {"above", "below", "is"};
  const ts_fact_def *fact = rule_fact(s, wish->path);
  if (fact == NULL) return false;
  size_t how = 0;
  while (how < 3 && !ts_same(wish->how, hows[how])) how++;
  if (how == 3) return unknown("comparison", wish->how, hows, 3), false;
  bool words = fact->type == TS_FLAG || fact->type == TS_CHOICE;
  if ((!rule_fact_is_number(fact) && !words) || words != (how == 2))
    return usage_error("\"%s\" cannot be asked with \"%s\"", wish->path, wish->how), false;
  return plan_value(s, fact, wish, p);
}

/* While somebody is answering, what is wrong is said at once. */
bool rule_wish_good(ts_session *s, const rule_wish *wish, const char **title) {
  ts_diagnostics *all = s->problems;
  plan p;
  s->problems = ts_diagnostics_new();
  bool good = make_plan(s, wish, &p);
  ts_diagnostics_print(s->problems, stderr);
  ts_diagnostics_free(s->problems);
  s->problems = all;
  if (good) *title = p.title;
  return good;
}

/* ---- the file ------------------------------------------------------------------------------ */

static const char form[] =
    "-- A first rule of one's own. It passes `tankside rules check`; whatever is still a guess in\n"
    "-- it (harm, score, words, controls, sources) is for you to make true of your site.\n"
    "rule {\n"
    "  id = \"%s\",\n"
    "  title = \"%s\",\n"
    "  each = \"%s\",\n"
    "  harm = \"%s\",\n"
    "  sources = { \"common practice\" },\n"
    "  assess = function(i)\n"
    "    if %s then\n"
    "      hazard {\n"
    "        likelihood = %d, -- over the whole task: 1 rare, 5 expected\n"
    "        severity = %d, -- if it happens once: 1 first aid, 5 death\n"
    "        because = \"%s: {i.%s}\",\n"
    "        controls = {%s}, -- ids from the catalogue\n"
    "      }\n"
    "    end\n"
    "  end,\n"
    "  examples = {\n"
    "    { \"so\", given = { %s = \"%s\" }, expect = hazard { likelihood = %d, severity = %d } },\n"
    "    { \"not so\", given = { %s = \"%s\" }, expect = nothing },\n"
    "    { \"not known\", given = {}, expect = hazard { likelihood = %d, severity = %d } },\n"
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
  if (ts_same(path, "-")) return fputs(text, stdout) < 0 ? NOT_DONE : DONE;
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

bool rule_id_good(const char *id) {
  size_t length = strspn(id, "abcdefghijklmnopqrstuvwxyz0123456789-.");
  if (id[length] == '\0' && strchr(id, '.') != NULL && id[0] != '.') return true;
  usage_error("\"%s\" is no id for a rule; small letters with a point, like \"ledge.too-deep\"",
              id);
  return false;
}

/* As it stands between quotes in Lua. */
static const char *quoted(const ts_session *s, const char *text) {
  ts_text out = {0};
  for (; *text != '\0'; text++) {
    if (*text == '"' || *text == '\\') ts_text_add(&out, "\\");
    ts_text_add_n(&out, text, 1);
  }
  const char *copy = ts_arena_copy(s->arena, out.length > 0 ? out.data : "");
  ts_text_release(&out);
  return copy;
}

/* "a, b" becomes ` "a", "b" `. */
static const char *control_list(const ts_session *s, const char *ids) {
  const char *list = "";
  for (const char *at = ids; *(at += strspn(at, ", ")) != '\0'; at += strcspn(at, ", "))
    list = ts_arena_printf(s->arena, "%s%s\"%.*s\"", list, *list ? ", " : " ",
                           (int)strcspn(at, ", "), at);
  return *list ? ts_arena_printf(s->arena, "%s ", list) : "";
}

static int write_wish(ts_session *s, const rule_wish *wish) {
  plan p;
  if (!rule_id_good(wish->id) || !make_plan(s, wish, &p)) return NOT_DONE;
  const char *title = quoted(s, wish->title ? wish->title : p.title);
  const char *harm = quoted(s, wish->harm ? wish->harm : "who is harmed, and how");
  int l = wish->likelihood, v = wish->severity;
  const char *text = ts_arena_printf(s->arena, form, p.id, title, p.entity, harm, p.test, l, v,
                                     p.title, p.field, control_list(s, wish->controls), p.field,
                                     p.beyond, l, v, p.field, p.within, l, v);
  return write_rule(s, wish->out, text);
}

int rules_new(ts_session *s, const ts_options *options) {
  const char *const *words = options->words;
  rule_wish wish = {.likelihood = 3, .severity = 3, .controls = "", .out = options->out};
  if (options->word_count == 1) {
    if (!session_load_all_packs(s, options) || !rules_ask(s, &wish)) return NOT_DONE;
    return write_wish(s, &wish);
  }
  wish.id = words[1], wish.path = words[2], wish.how = words[3], wish.value = words[4];
  if (wish.out == NULL) wish.out = "-";
  return write_wish(s, &wish);
}
