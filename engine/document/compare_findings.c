/* Which findings and duties do not stand as they stood, and because of what. */
#include "base/text.h"
#include "document/compare.h"

#include <stdlib.h>
#include <string.h>

/* ---- how one stands -------------------------------------------------------------------- */

static const xmlNode *score_as(ts_comparison *c, const xmlNode *finding, const char *as) {
  const xmlNode *score = ts_node_child(finding, "score");
  while (score != NULL && !ts_same(ts_node_text(c, score, "as"), as)) score = ts_node_next(score);
  return score;
}

static int number(ts_comparison *c, const xmlNode *node, const char *name) {
  return (int)strtol(ts_node_text(c, node, name), NULL, 10);
}

/* The band's rank in the matrix of its own side. */
static int band_rank(ts_comparison *c, const xmlNode *score) {
  const char *id = ts_node_text(c, score, "worst-band");
  const xmlNode *root = xmlDocGetRootElement(score->doc);
  const xmlNode *band = ts_node_child(ts_node_child(root, "matrix"), "band");
  while (band != NULL && !ts_same(ts_node_text(c, band, "id"), id)) band = ts_node_next(band);
  return number(c, band, "rank");
}

/* Higher is worse; 0 is not there. A certain stop is above a possible one. */
static int rank_of(ts_comparison *c, const xmlNode *node) {
  static const char *const states[] = {"gone", "possible", "certain"};
  static const char *const duties[] = {"met", "open", "not-met"};
  const xmlNode *score = score_as(c, node, "in-place");
  if (node == NULL) return 0;
  for (int i = 0; i < 3; i++) {
    if (ts_same(ts_node_text(c, score, "state"), states[i])) return i;
    if (ts_same(ts_node_text(c, node, "state-in-place"), duties[i])) return i + 1;
  }
  if (score == NULL || number(c, score, "worst-likelihood") == 0) return 0;
  return 10000 * band_rank(c, score) + 100 * number(c, score, "worst") +
         number(c, score, "worst-severity");
}

static const char *const standing[] = {"state",      "worst-likelihood", "worst-severity",
                                       "worst-band", "best-likelihood",  "best-severity",
                                       "best-band",  "worst-none",       "best-none"};

/* Everything that is printed of how it stands, in all three views. */
static bool stands_the_same(ts_comparison *c, const xmlNode *a, const xmlNode *b) {
  static const char *const views[] = {"described", "in-place", "planned"};
  if (a == NULL || b == NULL) return false;
  if (!ts_same(ts_node_text(c, a, "state"), ts_node_text(c, b, "state")) ||
      !ts_same(ts_node_text(c, a, "state-in-place"), ts_node_text(c, b, "state-in-place")))
    return false;
  for (size_t v = 0; v < 3; v++) {
    const xmlNode *of_a = score_as(c, a, views[v]), *of_b = score_as(c, b, views[v]);
    for (size_t i = 0; i < sizeof standing / sizeof standing[0]; i++)
      if (!ts_same(ts_node_text(c, of_a, standing[i]), ts_node_text(c, of_b, standing[i])))
        return false;
  }
  return true;
}

static const char *direction(ts_comparison *c, const xmlNode *const node[BOTH]) {
  int old = rank_of(c, node[OLD]), new = rank_of(c, node[NEW]);
  if (node[OLD] == NULL) return "came";
  if (node[NEW] == NULL) return "went";
  return new > old ? "rose" : new < old ? "fell" : "shifted";
}

/* ---- causes ------------------------------------------------------------------------------ */

/* A cause; where it is a difference of two values, `of` is the attribute that holds them. */
static void cause(ts_comparison *c, const char *kind, const char *name, const char *title,
                  const ts_difference *d, const char *of) {
  ts_xml_start(&c->out, "cause");
  ts_xml_attribute(&c->out, "kind", kind);
  ts_xml_attribute(&c->out, "name", name);
  ts_xml_attribute(&c->out, "title", title);
  if (d != NULL) ts_xml_attribute(&c->out, "change", ts_difference_word(d));
  if (d != NULL && of != NULL) ts_write_both(c, d, of);
  ts_xml_end(&c->out);
}

/* Where the text is the same, what changed is whether it is stated or assumed. */
static void fact_cause(ts_comparison *c, const char *path, const ts_difference *d) {
  const xmlNode *old = d->node[OLD], *new = d->node[NEW];
  bool alike = old && new &&ts_same(ts_node_text(c, old, "text"), ts_node_text(c, new, "text"));
  cause(c, "fact", path, ts_node_text(c, new ? new : old, "title"), d, alike ? "state" : "text");
}

/* A fact that a finding rests on, or that its rule reads on some other course. */
typedef struct {
  ts_comparison *c;
  xmlHashTable *seen; /* paths already looked at */
  size_t causes;
} search;

static void look_at_facts(search *s, const xmlNode *finding, const char *element) {
  const xmlNode *read = ts_node_child(finding, element);
  for (; read != NULL; read = ts_node_next(read)) {
    const char *path = ts_node_text(s->c, read, "path");
    if (xmlHashAddEntry(s->seen, BAD_CAST path, (void *)read) != 0) continue;
    ts_difference *d = ts_difference_of(&s->c->facts, path);
    if (d == NULL) continue;
    d->noted = true;
    fact_cause(s->c, path, d);
    s->causes++;
  }
}

static const xmlNode *subject_at(ts_comparison *c, const char *path) {
  const xmlNode *subject = xmlHashLookup(c->subjects[NEW], BAD_CAST path);
  return subject ? subject : xmlHashLookup(c->subjects[OLD], BAD_CAST path);
}

/* Whether `scope` is the subject or stands above it; the production, written "", above all. */
static bool covers(ts_comparison *c, const char *scope, const char *path) {
  enum { DEPTH = 16 }; /* a file from elsewhere may say that something stands above itself */
  for (int i = 0; i < DEPTH && path[0] != '\0'; i++) {
    if (ts_same(path, scope)) return true;
    const xmlNode *subject = subject_at(c, path);
    path = subject ? ts_node_text(c, subject, "parent") : "";
  }
  return scope[0] == '\0' || ts_same(path, scope);
}

static bool names_control(ts_comparison *c, const xmlNode *finding, const char *ref) {
  const xmlNode *control = ts_node_child(finding, "control");
  while (control != NULL && !ts_same(ts_node_text(c, control, "ref"), ref))
    control = ts_node_next(control);
  return control != NULL;
}

/* Whether the control changes the fact at this path. */
static bool changes_fact(ts_comparison *c, const xmlNode *control, const char *path) {
  const char *slash = strrchr(path, '/');
  if (slash == NULL) return false;
  const xmlNode *subject = subject_at(c, ts_arena_copy_n(c->arena, path, (size_t)(slash - path)));
  const char *entity = ts_node_text(c, subject, "entity");
  const xmlNode *change = ts_node_child(control, "change");
  for (; change != NULL; change = ts_node_next(change))
    if (ts_same(ts_node_text(c, change, "fact"), slash + 1) &&
        ts_same(ts_node_text(c, change, "entity"), entity))
      return true;
  return false;
}

static bool reaches(ts_comparison *c, const xmlNode *control, const xmlNode *finding,
                    const char *scope) {
  static const char *const elements[] = {"rests", "reads"};
  bool here = covers(c, scope, ts_node_text(c, finding, "subject"));
  if (here && names_control(c, finding, ts_node_text(c, control, "ref"))) return true;
  for (int e = 0; e < 2; e++) {
    const xmlNode *read = ts_node_child(finding, elements[e]);
    for (; read != NULL; read = ts_node_next(read)) {
      const char *path = ts_node_text(c, read, "path");
      if (changes_fact(c, control, path) && (here || covers(c, scope, path))) return true;
    }
  }
  return false;
}

static void look_at_controls(search *s, const xmlNode *const node[BOTH]) {
  for (size_t i = 0; i < s->c->applied.count; i++) {
    ts_difference *d = &s->c->applied.items[i];
    const xmlNode *applied = d->node[NEW] ? d->node[NEW] : d->node[OLD];
    const char *scope = ts_node_text(s->c, applied, "subject");
    if (!(node[OLD] && reaches(s->c, applied->parent, node[OLD], scope)) &&
        !(node[NEW] && reaches(s->c, applied->parent, node[NEW], scope)))
      continue;
    d->noted = true;
    const xmlNode *control = applied->parent;
    cause(s->c, "control", ts_node_text(s->c, control, "ref"), ts_node_text(s->c, control, "title"),
          d, "state");
    s->causes++;
  }
}

/* Files that hold rules by themselves are named for the rules they hold; modules, whose name
 * begins with "0", are shared by all of their pack and of those after it. */
static bool is_shared(const char *key) {
  const char *slash = strrchr(key, '/');
  return slash != NULL && slash[1] == '0';
}

/* Whether a file makes the rule of another stricter, on either side. */
static bool amends(ts_comparison *c, const xmlNode *file, const char *rule) {
  for (int side = OLD; side < BOTH; side++) {
    const xmlNode *made = ts_node_child(ts_node_child(c->root[side], "amendments"), "amendment");
    for (; made != NULL; made = ts_node_next(made))
      if (ts_same(ts_node_text(c, made, "rule"), rule) &&
          ts_same(ts_node_text(c, made, "pack"), ts_node_text(c, file, "pack")) &&
          ts_same(ts_node_text(c, made, "file"), ts_node_text(c, file, "file")))
        return true;
  }
  return false;
}

static void look_at_rules(search *s, const xmlNode *finding) {
  ts_comparison *c = s->c;
  const char *own = ts_arena_printf(c->arena, "%s/%s", ts_node_text(c, finding, "pack"),
                                    ts_node_text(c, finding, "file"));
  for (size_t i = 0; i < c->files.count; i++) {
    ts_difference *d = &c->files.items[i];
    const xmlNode *file = d->node[NEW] ? d->node[NEW] : d->node[OLD];
    const char *key = ts_arena_printf(c->arena, "%s/%s", ts_node_text(c, file, "pack"),
                                      ts_node_text(c, file, "file"));
    if (!ts_same(key, own) && !is_shared(key) && !amends(c, file, ts_node_text(c, finding, "rule")))
      continue;
    d->noted = true;
    cause(c, "rules", key, NULL, d, NULL);
    s->causes++;
  }
}

void ts_compare_causes(ts_comparison *c, const xmlNode *const node[BOTH]) {
  search s = {.c = c, .seen = xmlHashCreate(0)};
  for (int side = NEW; side >= OLD; side--) {
    look_at_facts(&s, node[side], "rests");
    look_at_facts(&s, node[side], "reads");
  }
  look_at_controls(&s, node);
  look_at_rules(&s, node[NEW] ? node[NEW] : node[OLD]);
  if (c->matrix) cause(c, "matrix", NULL, NULL, NULL, NULL), s.causes++;
  if (c->program) cause(c, "program", NULL, NULL, NULL, NULL), s.causes++;
  if (s.causes == 0) cause(c, "none", NULL, NULL, NULL, NULL);
  xmlHashFree(s.seen, NULL);
}

/* ---- the two lists ------------------------------------------------------------------------ */

static void write_stand(ts_comparison *c, const char *element, const xmlNode *node) {
  if (node == NULL) return;
  ts_xml_start(&c->out, element);
  ts_xml_attribute(&c->out, "id", ts_node_text(c, node, "id"));
  const xmlNode *score = score_as(c, node, "in-place");
  const char *duty = ts_node_text(c, node, "state-in-place");
  if (duty[0] != '\0') ts_xml_attribute(&c->out, "state", duty);
  for (size_t i = 0; score != NULL && i < sizeof standing / sizeof standing[0]; i++) {
    const char *text = ts_node_text(c, score, standing[i]);
    if (text[0] != '\0') ts_xml_attribute(&c->out, standing[i], text);
  }
  ts_xml_end(&c->out);
}

static void write_change(ts_comparison *c, const char *element, const xmlNode *const node[BOTH]) {
  static const char *const copied[] = {"rule",          "title", "about",      "subject",
                                       "subject-label", "word",  "instrument", "section"};
  const xmlNode *one = node[NEW] ? node[NEW] : node[OLD];
  ts_xml_start(&c->out, element);
  ts_xml_attribute(&c->out, "change", direction(c, node));
  ts_xml_attributef(&c->out, "rank", "%d", rank_of(c, one));
  for (size_t i = 0; i < sizeof copied / sizeof copied[0]; i++) {
    const char *text = ts_node_text(c, one, copied[i]);
    if (text[0] != '\0') ts_xml_attribute(&c->out, copied[i], text);
  }
  write_stand(c, "was", node[OLD]);
  write_stand(c, "is", node[NEW]);
  ts_compare_causes(c, node);
  ts_xml_end(&c->out);
}

/* A rule may say several duties of one subject: those are told apart by where the law asks for
 * them. */
static const char *key_of(ts_comparison *c, const xmlNode *node) {
  return ts_arena_printf(c->arena, "%s\n%s\n%s\n%s\n%s\n%s", ts_node_text(c, node, "rule"),
                         ts_node_text(c, node, "subject"), ts_node_text(c, node, "word"),
                         ts_node_text(c, node, "about"), ts_node_text(c, node, "instrument"),
                         ts_node_text(c, node, "section"));
}

static xmlHashTable *index_of(ts_comparison *c, int side, const char *list, const char *element) {
  const xmlNode *node = ts_node_child(ts_node_child(c->root[side], list), element);
  xmlHashTable *table = xmlHashCreate(0);
  for (; node != NULL; node = ts_node_next(node))
    xmlHashAddEntry(table, BAD_CAST key_of(c, node), (void *)node);
  return table;
}

static void write_list(ts_comparison *c, const char *list, const char *element) {
  xmlHashTable *old = index_of(c, OLD, list, element), *new = index_of(c, NEW, list, element);
  size_t alike = 0;
  ts_xml_start(&c->out, list);
  const xmlNode *node = ts_node_child(ts_node_child(c->root[NEW], list), element);
  for (; node != NULL; node = ts_node_next(node)) {
    const xmlNode *pair[BOTH] = {xmlHashLookup(old, BAD_CAST key_of(c, node)), node};
    if (stands_the_same(c, pair[OLD], pair[NEW]))
      alike++;
    else
      write_change(c, element, pair);
  }
  node = ts_node_child(ts_node_child(c->root[OLD], list), element);
  for (; node != NULL; node = ts_node_next(node))
    if (xmlHashLookup(new, BAD_CAST key_of(c, node)) == NULL)
      write_change(c, element, (const xmlNode *const[BOTH]){node, NULL});
  ts_xml_start(&c->out, "alike");
  ts_xml_attributef(&c->out, "count", "%zu", alike);
  ts_xml_end(&c->out);
  ts_xml_end(&c->out);
  xmlHashFree(old, NULL);
  xmlHashFree(new, NULL);
}

void ts_compare_findings(ts_comparison *c) {
  write_list(c, "findings", "finding");
  write_list(c, "duties", "duty");
}
