#include "rule/bare.h"

#include "base/text.h"
#include "rule/lexer.h"

typedef struct {
  ts_lexer lexer;
  ts_token before, now;
  int depth; /* in how many ( [ { the present token stands */
  int rule;  /* the depth of what stands in the table of a rule; 0: none is open */
} reader;

static bool opens(const ts_token *t) { return t->kind == TS_T_SYMBOL && strchr("([{", *t->start); }
static bool closes(const ts_token *t) { return t->kind == TS_T_SYMBOL && strchr(")]}", *t->start); }
static bool separates(const ts_token *t) { return ts_token_is(t, ",") || ts_token_is(t, ";"); }

static void step(reader *r) {
  if (opens(&r->now)) {
    r->depth++;
    if (r->rule == 0 && ts_token_is(&r->before, "rule")) r->rule = r->depth;
  } else if (closes(&r->now)) {
    if (r->rule == r->depth) r->rule = 0;
    r->depth--;
  }
  r->before = r->now;
  r->now = ts_lexer_next(&r->lexer);
}

/* At the key `examples` of a rule. */
static bool at_examples(const reader *r) {
  if (r->rule == 0 || r->depth != r->rule || !ts_token_is(&r->now, "examples")) return false;
  if (!separates(&r->before) && !ts_token_is(&r->before, "{")) return false;
  ts_lexer ahead = r->lexer;
  ts_token next = ts_lexer_next(&ahead);
  return ts_token_is(&next, "=");
}

/* Goes on to the end of an expression; NULL where it is not plain to see. */
static const char *end_of_value(reader *r) {
  for (int depth = r->depth;; step(r)) {
    bool outside = r->depth == depth;
    if (r->now.kind == TS_T_END || (outside && ts_token_is(&r->now, "function"))) return NULL;
    if (outside && (separates(&r->now) || closes(&r->now))) return r->now.start;
  }
}

static void add_lines(ts_text *out, const char *from, const char *to) {
  for (; from < to; from++)
    if (*from == '\n') ts_text_add(out, "\n");
}

char *ts_bare(ts_arena *arena, const char *text, size_t *length) {
  reader r = {.lexer = ts_lexer_new(text, *length), .before = {.start = text}};
  ts_text out = {0};
  const char *kept = text; /* up to here it has been taken over */
  r.now = ts_lexer_next(&r.lexer);
  while (r.now.kind != TS_T_END) {
    bool examples = at_examples(&r);
    step(&r);
    if (!examples) continue;
    step(&r); /* over the = */
    const char *from = r.before.start + 1, *to = end_of_value(&r);
    if (!to) continue;
    ts_text_add_n(&out, kept, (size_t)(from - kept));
    ts_text_add(&out, " {}");
    add_lines(&out, from, to);
    kept = to;
  }
  ts_text_add_n(&out, kept, (size_t)(text + *length - kept));
  *length = out.length;
  char *bare = ts_arena_copy_n(arena, out.data ? out.data : "", out.length);
  ts_text_release(&out);
  return bare;
}
