#include "document/parts.h"

#include "base/arena.h"
#include "tankside/document.h"

#include <libxml/hash.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* About so many bytes of HTML make a part: 130 pages. What is half as long again stays whole. */
enum { PART = 1536 << 10, DEEPEST = 100, NAME_LIMIT = 16 };

/* A stretch of the text. */
typedef struct {
  size_t from, to;
} stretch;

typedef struct {
  stretch tag;            /* where it begins, and what stands over its rows: caption, heads */
  stretch heading, under; /* what its last <h2> says, and the last <h3> since */
  char name[NAME_LIMIT];
  bool flows, paper, names_rows;
  bool begun, after_heading; /* begun: something in it is closed, beside what stands over rows */
} element;

/* Where a part begins, and what is open there. */
typedef struct {
  size_t at;
  ts_text opens, closes;
  stretch heading, under;
} cut;

struct ts_parts {
  const char *html;
  size_t length, target;
  stretch body, status; /* the start tag; the mark that stands on every page */
  cut *cuts;            /* the first is where the text begins */
  size_t count, capacity;
  xmlHashTable *ids; /* where each is, counted from 1 */
};

typedef struct {
  ts_parts *parts;
  stretch tag;
  char name[NAME_LIMIT];
  bool closes;
  element open[DEEPEST];
  size_t depth, fixed, papers; /* of those open, how many are not to be cut, are read as one */
  bool good;
} scanner;

/* ---- tags ------------------------------------------------------------------------------ */

static bool is_among(const char *name, const char *const *names) {
  while (*names && !ts_same(*names, name)) names++;
  return *names != NULL;
}

static size_t find(const ts_parts *p, size_t from, const char *what) {
  const char *at = memmem(p->html + from, p->length - from, what, strlen(what));
  return at ? (size_t)(at - p->html) : p->length;
}

/* Where a tag ends: no '>' within quotes counts. */
static size_t tag_end(const ts_parts *p, size_t at) {
  bool quoted = false;
  for (; at < p->length && (quoted || p->html[at] != '>'); at++)
    quoted = quoted != (p->html[at] == '"');
  return at < p->length ? at + 1 : at;
}

static bool next_tag(scanner *s) {
  const ts_parts *p = s->parts;
  size_t from = s->tag.to;
  if (!s->closes && ts_same(s->name, "script")) from = find(p, from, "</script");
  s->tag.from = find(p, from, "<");
  if (s->tag.from + 1 >= p->length) return false;
  s->tag.to = tag_end(p, s->tag.from);
  s->closes = p->html[s->tag.from + 1] == '/';
  const char *name = p->html + s->tag.from + 1 + s->closes;
  size_t length = strcspn(name, " >\n\t/");
  snprintf(s->name, sizeof s->name, "%.*s", (int)(length < NAME_LIMIT ? length : NAME_LIMIT - 1),
           name);
  return true;
}

/* The value of an attribute in a start tag; empty where there is none. */
static stretch value_in(const ts_parts *p, stretch tag, const char *attribute) {
  char mark[32];
  int size = snprintf(mark, sizeof mark, " %s=\"", attribute);
  const char *at = memmem(p->html + tag.from, tag.to - tag.from, mark, (size_t)size);
  if (!at) return (stretch){0};
  size_t from = (size_t)(at - p->html) + (size_t)size;
  return (stretch){from, from + strcspn(p->html + from, "\"")};
}

static char *copied(const ts_parts *p, stretch s) {
  char *copy = ts_alloc(s.to - s.from + 1);
  memcpy(copy, p->html + s.from, s.to - s.from);
  copy[s.to - s.from] = '\0';
  return copy;
}

/* ---- where it is cut ------------------------------------------------------------------- */

static void add(ts_text *text, const ts_parts *p, size_t from, size_t to) {
  ts_text_add_n(text, p->html + from, to - from);
}

/* What is open is closed in one part and opened again in the next, where it is no longer what a
 * link to it means. */
static void open_again(const ts_parts *p, const element *e, cut *c) {
  stretch tag = {e->tag.from, tag_end(p, e->tag.from)}, id = value_in(p, tag, "id");
  if (id.to > 0) {
    add(&c->opens, p, e->tag.from, id.from - strlen(" id=\""));
    add(&c->opens, p, id.to + 1, e->tag.to);
  } else {
    add(&c->opens, p, e->tag.from, e->tag.to);
  }
}

static cut *new_cut(ts_parts *p, size_t at) {
  TS_GROW(p->cuts, p->count, p->capacity);
  p->cuts[p->count] = (cut){.at = at};
  return &p->cuts[p->count++];
}

static void cut_here(scanner *s) {
  cut *c = new_cut(s->parts, s->tag.from);
  for (size_t i = 1; i < s->depth; i++) { /* after <body> */
    open_again(s->parts, &s->open[i], c);
    if (s->open[i].heading.to > 0) c->heading = s->open[i].heading, c->under = s->open[i].under;
  }
  if (ts_same(s->name, "h3")) c->under = (stretch){0};
  for (size_t i = s->depth; i-- > 1;) ts_text_addf(&c->closes, "</%s>", s->open[i].name);
}

static bool has(const ts_parts *p, stretch tag, const char *attribute, const char *value) {
  stretch given = value_in(p, tag, attribute);
  size_t length = strlen(value);
  return given.to - given.from == length && memcmp(p->html + given.from, value, length) == 0;
}

/* What stands over rows and is said again over those in the next part: the caption and the heads
 * of a table, the row that names those after it. */
static bool stands_over(const element *in, const element *e) {
  if (in->begun) return false;
  return ts_same(in->name, "table") ? !ts_same(e->name, "tbody") : e->names_rows;
}

/* Before a block where the part is long enough; before whatever comes where it is too long. */
static bool may_be_cut(const scanner *s) {
  const ts_parts *p = s->parts;
  if (p->target == 0 || s->depth < 2 || s->fixed > 0) return false;
  const element *in = &s->open[s->depth - 1];
  if (!in->begun || in->after_heading) return false;
  if (ts_same(in->name, "table") && !ts_same(s->name, "tbody")) return false;
  bool block = s->papers == 0 && (ts_same(in->name, "main") || ts_same(in->name, "section"));
  size_t long_enough = block ? p->target : p->target + p->target / 2;
  return s->tag.from - p->cuts[p->count - 1].at >= long_enough;
}

static void enter(scanner *s) {
  static const char *const flowing[] = {"body",  "main", "section", "div", "table",
                                        "tbody", "ul",   "ol",      NULL};
  if (s->depth == DEEPEST) {
    s->good = false;
    return;
  }
  element *e = &s->open[s->depth++];
  /* A paper is read as one: the sheet of a task, the record of a day. */
  *e = (element){.tag = s->tag,
                 .flows = is_among(s->name, flowing),
                 .paper = has(s->parts, s->tag, "class", "document")};
  memcpy(e->name, s->name, sizeof e->name);
  s->fixed += !e->flows;
  s->papers += e->paper;
}

static void leave(scanner *s) {
  s->good = s->depth > 0 && ts_same(s->open[s->depth - 1].name, s->name);
  if (!s->good) return;
  const element *e = &s->open[--s->depth];
  s->fixed -= !e->flows;
  s->papers -= e->paper;
  if (s->depth == 0) return;
  element *in = &s->open[s->depth - 1];
  if (stands_over(in, e))
    in->tag.to = s->tag.to;
  else
    in->begun = true;
  if (has(s->parts, e->tag, "scope", "rowgroup")) in->names_rows = true;
  in->after_heading = e->name[0] == 'h' && strchr("123456", e->name[1]);
  stretch says = {e->tag.to, s->tag.from};
  if (ts_same(e->name, "h2")) in->heading = says, in->under = (stretch){0};
  if (ts_same(e->name, "h3")) in->under = says;
}

static void note_id(const scanner *s) {
  stretch id = value_in(s->parts, s->tag, "id");
  if (id.to == 0) return;
  char *name = copied(s->parts, id);
  xmlHashUpdateEntry(s->parts->ids, BAD_CAST name, (void *)(s->tag.from + 1), NULL);
  free(name);
}

/* False for a page that is not made so: it stays whole. */
static bool scan(ts_parts *p) {
  static const char *const empty[] = {"br",  "hr",   "img",  "input", "link", "meta",
                                      "col", "area", "base", "wbr",   NULL};
  scanner s = {.parts = p, .good = true, .tag = {p->body.from, p->body.from}};
  while (s.good && next_tag(&s)) {
    if (s.closes && ts_same(s.name, "html")) break;
    if (!s.closes && may_be_cut(&s)) cut_here(&s);
    if (!s.closes) note_id(&s);
    if (is_among(s.name, empty)) continue;
    if (s.closes)
      leave(&s);
    else
      enter(&s);
  }
  return s.good && s.depth == 0;
}

/* ---- parts ----------------------------------------------------------------------------- */

static stretch find_status(const ts_parts *p) {
  static const char mark[] = "<aside class=\"status-bar\">", end[] = "</aside>";
  size_t from = find(p, p->body.to, mark);
  if (from == p->length) return (stretch){p->body.to, p->body.to};
  return (stretch){from, find(p, from, end) + sizeof end - 1};
}

/* The first so many of them, and no others. */
static void keep_cuts(ts_parts *p, size_t count) {
  while (p->count > count) {
    cut *last = &p->cuts[--p->count];
    ts_text_release(&last->opens);
    ts_text_release(&last->closes);
  }
}

ts_parts *ts_parts_of(const char *html, size_t length) {
  ts_parts *p = ts_alloc(sizeof *p);
  *p = (ts_parts){.html = html, .length = length, .ids = xmlHashCreate(0)};
  p->body.from = find(p, 0, "<body");
  p->body.to = tag_end(p, p->body.from);
  p->status = find_status(p);
  size_t text = length - p->body.to, wanted = (text + PART - 1) / PART;
  new_cut(p, p->status.to);
  if (text < PART + PART / 2) return p;
  p->target = text / wanted + 1;
  if (!scan(p)) keep_cuts(p, 1);
  return p;
}

void ts_parts_free(ts_parts *p) {
  if (!p) return;
  keep_cuts(p, 0);
  xmlHashFree(p->ids, NULL);
  free(p->cuts);
  free(p);
}

size_t ts_parts_count(const ts_parts *p) { return p->count; }

/* ---- writing one ----------------------------------------------------------------------- */

static size_t end_of(const ts_parts *p, size_t number) {
  return number + 1 < p->count ? p->cuts[number + 1].at : p->length;
}

/* "Part 3 of 9", in the words of the page. */
static void add_number(const ts_parts *p, size_t number, ts_text *html) {
  stretch part = value_in(p, p->body, "data-part"), of = value_in(p, p->body, "data-of");
  add(html, p, part.from, part.to);
  ts_text_addf(html, "%zu", number + 1);
  add(html, p, of.from, of.to);
  ts_text_addf(html, "%zu", p->count);
}

/* The head and the start tag of the body, whose titles say which part it is. */
static void add_head(const ts_parts *p, size_t number, ts_text *html) {
  size_t title = find(p, 0, "</title>"), running = value_in(p, p->body, "data-title").from;
  add(html, p, 0, title);
  ts_text_add(html, " · ");
  add_number(p, number, html);
  add(html, p, title, running);
  add_number(p, number, html);
  ts_text_add(html, " · ");
  add(html, p, running, p->body.to);
  add(html, p, p->status.from, p->status.to);
}

static void add_begin(const ts_parts *p, size_t number, ts_text *html) {
  stretch heading = p->cuts[number].heading, under = p->cuts[number].under;
  ts_text_add(html, "<p class=\"part-of\"><b>");
  add_number(p, number, html);
  ts_text_add(html, "</b>");
  if (heading.to > 0) ts_text_add(html, " · ");
  add(html, p, heading.from, heading.to);
  if (under.to > 0) ts_text_add(html, " · ");
  add(html, p, under.from, under.to);
  ts_text_add(html, "</p>");
}

/* In which part something is; SIZE_MAX: it is nowhere. */
static size_t part_of(const ts_parts *p, stretch id) {
  char *name = copied(p, id);
  size_t place = (size_t)xmlHashLookup(p->ids, BAD_CAST name), part = 0;
  free(name);
  if (place == 0) return SIZE_MAX;
  while (part + 1 < p->count && p->cuts[part + 1].at < place) part++;
  return part;
}

/* A link into another part becomes the name of that part. */
static void add_text(const ts_parts *p, size_t number, ts_text *html) {
  static const char mark[] = " href=\"#";
  size_t at = p->cuts[number].at, end = end_of(p, number);
  for (size_t link; (link = find(p, at, mark)) < end;) {
    stretch id = {link + sizeof mark - 1,
                  link + sizeof mark - 1 + strcspn(p->html + link + sizeof mark - 1, "\"")};
    size_t part = part_of(p, id);
    bool elsewhere = part != number && part != SIZE_MAX;
    add(html, p, at, elsewhere ? link : id.to + 1);
    if (elsewhere) {
      ts_text_add(html, " data-part=\"");
      add_number(p, part, html);
      ts_text_add(html, "\"");
    }
    at = id.to + 1;
  }
  add(html, p, at, end);
}

void ts_parts_write(const ts_parts *p, size_t number, ts_text *html) {
  bool last = number + 1 == p->count;
  add_head(p, number, html);
  add_begin(p, number, html);
  if (p->cuts[number].opens.length) ts_text_add(html, p->cuts[number].opens.data);
  add_text(p, number, html);
  if (last) return;
  ts_text_add(html, p->cuts[number + 1].closes.data);
  ts_text_add(html, "</body></html>\n");
}
