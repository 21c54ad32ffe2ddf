/* Reading a matrix file, and looking scores up in it. */
#include "assess/matrix.h"
#include "base/file.h"
#include "base/xml.h"
#include <string.h>

enum { MATRIX_LIMIT = 256 * 1024, PUBLISHED_MAX = 64 };

/* One cell of a published table, whose categories have names of their own. */
typedef struct {
  const char *likelihood, *severity;
  int band, line;
} published_cell;

typedef struct {
  ts_matrix *matrix;
  ts_xml *xml;
  const char *path;
  ts_diagnostics *problems;
  published_cell published[PUBLISHED_MAX];
  size_t published_count;
  bool sound;
} matrix_reader;

static const char *const hierarchy_words[] = {"elimination", "substitution", "engineering",
                                              "administrative", "ppe"};

int ts_hierarchy_read(const char *word) {
  for (int i = 0; i <= TS_PPE; i++)
    if (ts_same(word, hierarchy_words[i])) return i;
  return -1;
}

const char *ts_hierarchy_word(ts_hierarchy kind) { return hierarchy_words[kind]; }

/* Reports against one line of the file; the matrix cannot be used. */
#define WRONG(reader, line, ...)                                                                   \
  ((reader)->sound = false,                                                                        \
   ts_report((reader)->problems, TS_ERROR, (reader)->path, (line), __VA_ARGS__))

static int line_of(const matrix_reader *r, const xmlNode *element) {
  return ts_xml_line(r->xml, element);
}

static const char *attribute(matrix_reader *r, xmlNode *element, const char *name) {
  xmlChar *value = xmlGetNoNsProp(element, (const xmlChar *)name);
  if (value == NULL) return NULL;
  const char *copy = ts_arena_copy(r->matrix->arena, (const char *)value);
  xmlFree(value);
  return copy;
}

/* An attribute that has to be there; "" with a report when it is not. */
static const char *needed(matrix_reader *r, xmlNode *element, const char *name) {
  const char *value = attribute(r, element, name);
  if (value != NULL && value[0] != '\0') return value;
  WRONG(r, line_of(r, element), "<%s> lacks \"%s\"", (const char *)element->name, name);
  return "";
}

/* A whole number of an attribute within [low, high]; `low` with a report when it is none. */
static int whole(matrix_reader *r, xmlNode *element, const char *name, int low, int high) {
  const char *text = needed(r, element, name);
  double value = 0;
  const char *end = ts_number_read(text, &value);
  if (end != NULL && *end == '\0' && value >= low && value <= high && value == (int)value)
    return (int)value;
  if (text[0] != '\0')
    WRONG(r, ts_xml_attribute_line(r->xml, element, name),
          "\"%s\" is \"%s\"; a whole number from %d to %d was expected", name, text, low, high);
  return low;
}

/* The index of a band by its id; -1 with a report. */
static int band_named(matrix_reader *r, xmlNode *element) {
  const char *id = needed(r, element, "band");
  const char *ids[TS_BANDS_MAX];
  for (size_t i = 0; i < r->matrix->band_count; i++) {
    ids[i] = r->matrix->bands[i].id;
    if (ts_same(id, ids[i])) return (int)i;
  }
  const char *near = ts_nearest(id, ids, r->matrix->band_count);
  WRONG(r, ts_xml_attribute_line(r->xml, element, "band"), "unknown band \"%s\"%s%s%s", id,
        near ? "; the nearest is \"" : "", near ? near : "", near ? "\"" : "");
  return -1;
}

static void read_level(matrix_reader *r, xmlNode *element, ts_level_words *scale) {
  int level = whole(r, element, "level", 1, TS_LEVELS);
  if (scale[level].word != NULL)
    WRONG(r, line_of(r, element), "<%s> level %d stands twice", (const char *)element->name, level);
  scale[level] = (ts_level_words){.word = needed(r, element, "word"),
                                  .meaning = needed(r, element, "meaning"),
                                  .as = attribute(r, element, "as")};
}

static void read_likelihood(matrix_reader *r, xmlNode *element) {
  read_level(r, element, r->matrix->likelihood);
}

static void read_severity(matrix_reader *r, xmlNode *element) {
  read_level(r, element, r->matrix->severity);
}

static bool yes_or_no(matrix_reader *r, xmlNode *element, const char *name) {
  const char *text = needed(r, element, name);
  if (!ts_same(text, "yes") && !ts_same(text, "no") && text[0] != '\0')
    WRONG(r, ts_xml_attribute_line(r->xml, element, name),
          "\"%s\" is \"%s\"; yes or no was expected", name, text);
  return ts_same(text, "yes");
}

static void read_band(matrix_reader *r, xmlNode *element) {
  ts_matrix *m = r->matrix;
  if (m->band_count == TS_BANDS_MAX) {
    WRONG(r, line_of(r, element), "more than %d bands", TS_BANDS_MAX);
    return;
  }
  ts_band band = {.id = needed(r, element, "id"),
                  .word = needed(r, element, "word"),
                  .letter = needed(r, element, "letter"),
                  .rank = whole(r, element, "rank", 1, TS_BANDS_MAX),
                  .above = yes_or_no(r, element, "above"),
                  .sign = needed(r, element, "sign"),
                  .review = needed(r, element, "review")};
  for (size_t i = 0; i < m->band_count; i++)
    if (m->bands[i].rank == band.rank || ts_same(m->bands[i].id, band.id))
      WRONG(r, line_of(r, element), "band \"%s\" has the id or the rank of \"%s\"", band.id,
            m->bands[i].id);
  m->bands[m->band_count++] = band;
}

static void read_kinds(matrix_reader *r, xmlNode *element, ts_credit_limit *limit) {
  char *words = ts_arena_copy(r->matrix->arena, needed(r, element, "kinds")), *rest = NULL;
  for (char *word = strtok_r(words, " ", &rest); word; word = strtok_r(NULL, " ", &rest)) {
    int kind = ts_hierarchy_read(word);
    if (kind >= 0) {
      limit->kinds[kind] = true;
      continue;
    }
    const char *near = ts_nearest(word, hierarchy_words, TS_PPE + 1);
    WRONG(r, ts_xml_attribute_line(r->xml, element, "kinds"),
          "unknown kind of control \"%s\"; the nearest is \"%s\"", word, near ? near : "ppe");
  }
}

static void read_credit(matrix_reader *r, xmlNode *element) {
  ts_matrix *m = r->matrix;
  if (m->credit_count == TS_CREDITS_MAX) {
    WRONG(r, line_of(r, element), "more than %d limits of credit", TS_CREDITS_MAX);
    return;
  }
  ts_credit_limit *limit = &m->credits[m->credit_count++];
  read_kinds(r, element, limit);
  limit->likelihood = whole(r, element, "likelihood", 0, TS_LEVELS);
  limit->severity = whole(r, element, "severity", 0, TS_LEVELS);
}

static void read_cell(matrix_reader *r, xmlNode *element) {
  int likelihood = whole(r, element, "likelihood", 1, TS_LEVELS);
  int severity = whole(r, element, "severity", 1, TS_LEVELS);
  int *cell = &r->matrix->cell[likelihood][severity];
  if (*cell >= 0) WRONG(r, line_of(r, element), "cell %d, %d stands twice", likelihood, severity);
  *cell = band_named(r, element);
}

static void read_published(matrix_reader *r, xmlNode *element) {
  if (r->published_count == PUBLISHED_MAX) {
    WRONG(r, line_of(r, element), "more than %d published cells", PUBLISHED_MAX);
    return;
  }
  r->published[r->published_count++] =
      (published_cell){.likelihood = needed(r, element, "likelihood"),
                       .severity = needed(r, element, "severity"),
                       .band = band_named(r, element),
                       .line = line_of(r, element)};
}

/* What may stand in a matrix. Bands come before what names them. */
static const struct {
  const char *name;
  void (*read)(matrix_reader *, xmlNode *);
} parts[] = {{"band", read_band},         {"likelihood", read_likelihood},
             {"severity", read_severity}, {"credit", read_credit},
             {"cell", read_cell},         {"published", read_published}};

enum { PARTS = sizeof parts / sizeof parts[0] };

static void read_parts(matrix_reader *r, xmlNode *root) {
  for (size_t p = 0; p < PARTS; p++)
    for (xmlNode *child = root->children; child; child = child->next)
      if (child->type == XML_ELEMENT_NODE && ts_same((const char *)child->name, parts[p].name))
        parts[p].read(r, child);
}

static void refuse_strangers(matrix_reader *r, xmlNode *root) {
  const char *names[PARTS];
  for (size_t p = 0; p < PARTS; p++) names[p] = parts[p].name;
  for (xmlNode *child = root->children; child; child = child->next) {
    if (child->type != XML_ELEMENT_NODE) continue;
    const char *name = (const char *)child->name;
    bool known = false;
    for (size_t p = 0; p < PARTS; p++) known = known || ts_same(name, names[p]);
    if (known) continue;
    const char *near = ts_nearest(name, names, PARTS);
    WRONG(r, line_of(r, child), "unknown element <%s>%s%s%s", name,
          near ? "; the nearest is <" : "", near ? near : "", near ? ">" : "");
  }
}

/* The band of a published category pair, or -1. */
static int published_band(const matrix_reader *r, const char *likelihood, const char *severity) {
  for (size_t i = 0; i < r->published_count; i++)
    if (ts_same(r->published[i].likelihood, likelihood) &&
        ts_same(r->published[i].severity, severity))
      return r->published[i].band;
  return -1;
}

/* Fills the cells from the published table, where the file has one. */
static void map_published(matrix_reader *r) {
  ts_matrix *m = r->matrix;
  for (int l = 1; r->published_count > 0 && l <= TS_LEVELS; l++)
    for (int s = 1; s <= TS_LEVELS; s++)
      if (m->cell[l][s] < 0)
        m->cell[l][s] = published_band(r, m->likelihood[l].as, m->severity[s].as);
}

static void check_published(matrix_reader *r) {
  for (size_t i = 0; i < r->published_count; i++)
    for (size_t k = i + 1; k < r->published_count; k++)
      if (ts_same(r->published[i].likelihood, r->published[k].likelihood) &&
          ts_same(r->published[i].severity, r->published[k].severity))
        WRONG(r, r->published[k].line, "published cell %s, %s stands twice",
              r->published[k].likelihood, r->published[k].severity);
}

static int cell_rank(const ts_matrix *m, int likelihood, int severity) {
  return m->bands[m->cell[likelihood][severity]].rank;
}

/* A lower score must never stand in a higher band: credit would then harm. */
static void check_order(matrix_reader *r) {
  const ts_matrix *m = r->matrix;
  for (int l = 1; l <= TS_LEVELS; l++)
    for (int s = 1; s <= TS_LEVELS; s++)
      if ((l > 1 && cell_rank(m, l, s) < cell_rank(m, l - 1, s)) ||
          (s > 1 && cell_rank(m, l, s) < cell_rank(m, l, s - 1)))
        WRONG(r, 0, "cell %d, %d has a lower band than its milder neighbour", l, s);
}

static void check_whole(matrix_reader *r) {
  const ts_matrix *m = r->matrix;
  for (int i = 1; i <= TS_LEVELS; i++) {
    if (m->likelihood[i].word == NULL) WRONG(r, 0, "likelihood level %d is missing", i);
    if (m->severity[i].word == NULL) WRONG(r, 0, "severity level %d is missing", i);
  }
  if (m->band_count == 0) WRONG(r, 0, "no band is given");
  for (int l = 1; l <= TS_LEVELS; l++)
    for (int s = 1; s <= TS_LEVELS; s++)
      if (m->cell[l][s] < 0) WRONG(r, 0, "cell likelihood %d, severity %d is missing", l, s);
}

static void read_root(matrix_reader *r, xmlNode *root) {
  if (!ts_same((const char *)root->name, "matrix")) {
    WRONG(r, line_of(r, root), "<%s> found; <matrix> was expected", (const char *)root->name);
    return;
  }
  whole(r, root, "format", 1, 1);
  r->matrix->id = needed(r, root, "id");
  r->matrix->title = needed(r, root, "title");
  r->matrix->source = needed(r, root, "source");
  refuse_strangers(r, root);
  read_parts(r, root);
  check_published(r);
  map_published(r);
  if (r->sound) check_whole(r);
  if (r->sound) check_order(r);
}

static ts_matrix *matrix_new(ts_arena *arena, const char *path) {
  ts_matrix *matrix = ts_arena_alloc(arena, sizeof *matrix);
  matrix->arena = arena;
  matrix->file = ts_arena_copy(arena, ts_path_name(path));
  memset(matrix->cell, 0xff, sizeof matrix->cell); /* all -1: not given */
  return matrix;
}

ts_matrix *ts_matrix_read(const char *path, ts_diagnostics *problems) {
  ts_arena *arena = ts_arena_new();
  size_t length = 0;
  char *bytes = ts_file_read(arena, path, MATRIX_LIMIT, &length, problems);
  ts_xml *xml = bytes ? ts_xml_read(bytes, length, path, problems) : NULL;
  matrix_reader reader = {
      .matrix = matrix_new(arena, path), .xml = xml, .path = path, .problems = problems};
  if (xml != NULL) {
    reader.sound = true;
    reader.matrix->bytes = bytes;
    reader.matrix->length = length;
    read_root(&reader, ts_xml_root(xml));
    ts_xml_free(xml);
  }
  if (reader.sound) return reader.matrix;
  ts_arena_free(arena);
  return NULL;
}

void ts_matrix_free(ts_matrix *matrix) {
  if (matrix != NULL) ts_arena_free(matrix->arena);
}

const char *ts_matrix_id(const ts_matrix *matrix) { return matrix->id; }

const ts_band *ts_matrix_band(const ts_matrix *matrix, int likelihood, int severity) {
  return &matrix->bands[matrix->cell[likelihood][severity]];
}

int ts_matrix_rank(const ts_matrix *matrix, int likelihood, int severity) {
  if (likelihood == 0) return 0;
  int band = cell_rank(matrix, likelihood, severity);
  return (band * 100 + likelihood * severity) * 10 + severity;
}

ts_score ts_matrix_score(const ts_matrix *matrix, int likelihood, int severity) {
  return (ts_score){.likelihood = (int8_t)likelihood,
                    .severity = (int8_t)severity,
                    .rank = (int16_t)ts_matrix_rank(matrix, likelihood, severity)};
}
