#include "rule/bare.h"

#include "base/text.h"
#include "rule/lexer.h"

typedef struct {
  ts_lexer lexer;
  const char *from; /* behind the last bracket or comma; what stands there ends with `mark` */
  char mark;
  int depth; /* in how many ( [ { that stands */
  int rule;  /* the depth of what stands in the table of a rule; 0: none is open */
} reader;

static bool opens(char mark) { return mark == '(' || mark == '[' || mark == '{'; }
static bool closes(char mark) { return mark == ')' || mark == ']' || mark == '}'; }

/* Whether what stands before a mark ends with the word `rule`. */
static bool is_rule(const reader *r) {
  ts_lexer lexer = ts_lexer_new(r->from, (size_t)(r->lexer.at - 1 - r->from));
  ts_token last = {.kind = TS_T_END}, next;
  while ((next = ts_lexer_next(&lexer)).kind != TS_T_END) last = next;
  return ts_token_is(&last, "rule");
}

static void step(reader *r) {
  if (opens(r->mark)) {
    r->depth++;
    if (r->rule == 0 && r->mark == '{' && is_rule(r)) r->rule = r->depth;
  } else if (closes(r->mark)) {
    if (r->rule == r->depth) r->rule = 0;
    r->depth--;
  }
  r->from = r->lexer.at;
  r->mark = ts_lexer_mark(&r->lexer);
}

/* Behind the = of the key `examples` of a rule, where that is what begins here; else NULL. */
static const char *examples(const reader *r) {
  if (r->rule == 0 || r->depth != r->rule) return NULL;
  ts_lexer lexer = ts_lexer_new(r->from, (size_t)(r->lexer.end - r->from));
  ts_token key = ts_lexer_next(&lexer), equals = ts_lexer_next(&lexer);
  return ts_token_is(&key, "examples") && ts_token_is(&equals, "=") ? lexer.at : NULL;
}

static bool holds(const char *from, const char *to, const char *word) {
  return memmem(from, (size_t)(to - from), word, strlen(word)) != NULL;
}

/* Goes on to the mark that ends an expression; NULL where it is not plain to see: in a function
 * that stands in no bracket commas may end something else. */
static const char *end_of_value(reader *r) {
  for (int depth = r->depth; r->mark != '\0'; step(r)) {
    if (r->depth != depth) continue;
    if (holds(r->from, r->lexer.at, "function")) return NULL;
    if (!opens(r->mark)) return r->lexer.at - 1;
  }
  return NULL;
}

static void add_lines(ts_text *out, const char *from, const char *to) {
  while ((from = memchr(from, '\n', (size_t)(to - from))) != NULL) {
    ts_text_add(out, "\n");
    from++;
  }
}

char *ts_bare(ts_arena *arena, const char *text, size_t *length) {
  reader r = {.lexer = ts_lexer_new(text, *length), .from = text};
  ts_text out = {0};
  const char *kept = text; /* up to here it has been taken over */
  r.mark = ts_lexer_mark(&r.lexer);
  while (r.mark != '\0') {
    const char *from = examples(&r), *to = from ? end_of_value(&r) : NULL;
    if (to) {
      ts_text_add_n(&out, kept, (size_t)(from - kept));
      ts_text_add(&out, " {}");
      add_lines(&out, from, to);
      kept = to;
    }
    step(&r);
  }
  ts_text_add_n(&out, kept, (size_t)(text + *length - kept));
  *length = out.length;
  char *bare = ts_arena_copy_n(arena, out.data ? out.data : "", out.length);
  ts_text_release(&out);
  return bare;
}
