/* Units: what is taken from udunits2.
 *
 * The library has no way to list its units, so the names come from its data
 * files (the path is the library's own) and the meaning of each from the
 * library. All is done at once; nothing of udunits2 is used afterwards.
 * Units that are not a plain factor (points on a scale, logarithms, time since a
 * date) are left out: the few that matter are rows of our own table.
 *
 * udunits2 2.2.28 keeps some 10 kB for good each time its data are read: make
 * one ts_units for a process, not one for a task. */
#include "quantity/units.h"

#include "base/arena.h"
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "quantity/dimension.h"

#include <stdio.h>
#include <string.h>
#include <udunits2.h>

enum { FILE_LIMIT = 4 << 20 };

typedef struct {
  ts_arena *arena;
  ut_system *system;
  ts_unit_taker *take;
  void *context;
  ts_diagnostics *problems;
} harvest;

/* ---- the meaning of one unit ------------------------------------------------------ */

typedef struct {
  double factor;
  ts_dim dim;
} meaning;

static const struct {
  const char *symbol;
  ts_dim dim;
} bases[] = {{"m", TS_LENGTH},
             {"kg", TS_MASS},
             {"s", TS_TIME},
             {"A", TS_DIM(0, 0, 0, 1, 0, 0, 0)},
             {"K", TS_TEMPERATURE_DIFFERENCE},
             {"mol", TS_DIM(0, 0, 0, 0, 0, 1, 0)},
             {"cd", TS_DIM(0, 0, 0, 0, 0, 0, 1)},
             {"rad", TS_NUMBER}};

static ut_status join_base(meaning *m, const ut_unit *basic, int power) {
  const char *symbol = ut_get_symbol(basic, UT_ASCII);
  for (size_t i = 0; i < sizeof bases / sizeof *bases; i++)
    if (ts_same(symbol, bases[i].symbol))
      return ts_dim_join(m->dim, bases[i].dim, power, &m->dim) ? UT_SUCCESS : UT_VISIT_ERROR;
  return UT_VISIT_ERROR;
}

static ut_status visit_basic(const ut_unit *unit, void *arg) { return join_base(arg, unit, 1); }

static ut_status visit_product(const ut_unit *unit, int count, const ut_unit *const *basic,
                               const int *powers, void *arg) {
  (void)unit;
  ut_status status = UT_SUCCESS;
  for (int i = 0; i < count && status == UT_SUCCESS; i++)
    status = join_base(arg, basic[i], powers[i]);
  return status;
}

static ut_status visit_scaled(const ut_unit *unit, double scale, const ut_unit *underlying,
                              double offset, void *arg);

static ut_status visit_dated(const ut_unit *unit, const ut_unit *time, double origin, void *arg) {
  (void)unit, (void)time, (void)origin, (void)arg;
  return UT_VISIT_ERROR;
}

static ut_status visit_log(const ut_unit *unit, double base, const ut_unit *reference, void *arg) {
  (void)unit, (void)base, (void)reference, (void)arg;
  return UT_VISIT_ERROR;
}

static const ut_visitor visitor = {visit_basic, visit_product, visit_scaled, visit_dated,
                                   visit_log};

static ut_status visit_scaled(const ut_unit *unit, double scale, const ut_unit *underlying,
                              double offset, void *arg) {
  (void)unit;
  meaning *m = arg;
  if (offset != 0 || !(scale > 0)) return UT_VISIT_ERROR;
  m->factor *= scale;
  return ut_accept_visitor(underlying, &visitor, m);
}

static void take_name(harvest *h, const char *name) {
  ut_unit *unit = ut_get_unit_by_name(h->system, name);
  meaning m = {1, TS_NUMBER};
  if (unit && ut_accept_visitor(unit, &visitor, &m) == UT_SUCCESS)
    h->take(h->context, name, ts_scale_of_factor(m.factor, m.dim));
  ut_free(unit);
}

/* ---- the names -------------------------------------------------------------------- */

/* Another unit to somebody else (a bag, a gamma), or nothing that is measured on a set. */
static const char *const unwanted[] = {
    "arpentlin", "bag",          "barie",  "baud",     "bit",      "byte",    "candle",
    "circle",    "count",        "dobson", "dynamic",  "einstein", "eon",     "firkin",
    "gamma",     "geopotential", "molec",  "molecule", "nuc",      "nucleon", "octet"};

/* One word of three small letters or more: what a person would type. */
bool ts_udunits_may_name(const char *name, size_t length) {
  return length >= 3 && strspn(name, "abcdefghijklmnopqrstuvwxyz") >= length;
}

static bool is_wanted(const char *name) {
  for (size_t i = 0; i < sizeof unwanted / sizeof *unwanted; i++)
    if (ts_same(name, unwanted[i])) return false;
  return ts_udunits_may_name(name, strlen(name));
}

static char *words_in(harvest *h, const xmlNode *element) {
  const xmlNode *text = element->children;
  if (!text || text->next || text->type != XML_TEXT_NODE || !text->content) return NULL;
  return ts_arena_copy(h->arena, (const char *)text->content);
}

static const xmlNode *next_in_order(const xmlNode *node, const xmlNode *root) {
  if (node->children) return node->children;
  while (node != root && !node->next) node = node->parent;
  return node == root ? NULL : node->next;
}

static bool named(const xmlNode *node, const char *name) {
  return node->type == XML_ELEMENT_NODE && ts_same((const char *)node->name, name);
}

static bool harvest_file(harvest *h, const char *path, int depth);

static bool harvest_tree(harvest *h, const char *path, const xmlNode *root, int depth) {
  for (const xmlNode *node = root; node; node = next_in_order(node, root)) {
    if (node->type != XML_ELEMENT_NODE) continue;
    char *words = words_in(h, node);
    if (!words) continue;
    if ((named(node, "singular") || named(node, "plural")) && is_wanted(words)) take_name(h, words);
    if (!named(node, "import")) continue;
    char *beside = ts_path_join(h->arena, ts_path_folder(h->arena, path), words);
    if (!harvest_file(h, beside, depth + 1)) return false;
  }
  return true;
}

static bool harvest_file(harvest *h, const char *path, int depth) {
  size_t length;
  char *bytes = depth > 4 ? NULL : ts_file_read(h->arena, path, FILE_LIMIT, &length, h->problems);
  ts_xml *xml = bytes ? ts_xml_read(bytes, length, path, h->problems) : NULL;
  bool done = xml && harvest_tree(h, path, ts_xml_root(xml), depth);
  ts_xml_free(xml);
  return done;
}

static bool cannot_read(const char *path, char *why, size_t size) {
  if (size)
    snprintf(why, size, "the data of udunits2 cannot be read; expected at \"%s\"",
             path ? path : "its usual place");
  return false;
}

bool ts_udunits_there(char *why, size_t size) {
  ut_status status;
  const char *path = ut_get_path_xml(NULL, &status);
  return (path && ts_file_exists(path)) || cannot_read(path, why, size);
}

bool ts_udunits_each(ts_unit_taker *take, void *context, char *why, size_t size) {
  /* Its messages about definitions it holds twice are not for our users. */
  ut_error_message_handler before = ut_set_error_message_handler(ut_ignore);
  ut_status status;
  const char *path = ut_get_path_xml(NULL, &status);
  harvest h = {ts_arena_new(), ut_read_xml(NULL), take, context, ts_diagnostics_new()};
  bool done = h.system && path && harvest_file(&h, path, 0);
  if (!done) cannot_read(path, why, size);
  ut_free_system(h.system);
  ts_diagnostics_free(h.problems);
  ts_arena_free(h.arena);
  ut_set_error_message_handler(before);
  return done;
}
