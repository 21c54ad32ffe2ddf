/* tankside rules compare: what a change of rules does to dossiers, before it is adopted. */
#include "base/file.h"
#include "base/text.h"
#include "command/output.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { OLD, NEW, BOTH };

typedef struct {
  const ts_options *options;
  ts_options with; /* for both sides: OLD too, where it is a folder of somebody's own */
  bool moved;      /* something does not stand as it stood */
} comparer;

/* ---- one side ------------------------------------------------------------------------------- */

static bool begin(ts_session *s, const comparer *c, int side) {
  const char *old = c->options->words[1];
  if (!session_open(s)) return false;
  s->instead_of = session_pack(s, old);
  s->instead = session_pack(s, c->options->words[1 + side]);
  s->instead_as = ts_pack_name(s->arena, old);
  for (int i = 0; i < BOTH; i++) {
    const char *pack = session_pack(s, c->options->words[1 + i]);
    if (ts_pack_exists(pack)) continue;
    ts_report(s->problems, TS_ERROR, pack, 0, "is no folder of rules, nor a pack by name");
    return false;
  }
  return true;
}

/* ---- the rules ------------------------------------------------------------------------- */

/* The rule of that id in the pack compared; false where there is none. */
static bool find(const ts_session *s, const char *id, size_t *index) {
  for (*index = 0; *index < ts_rule_count(s->packs); ++*index) {
    const ts_rule *rule = ts_rule_at(s->packs, *index);
    if (ts_same(rule->id, id) && ts_same(rule->pack, s->instead_as)) return true;
  }
  return false;
}

static void show_rule(const char *what, const ts_rule *rule) {
  char head[80];
  snprintf(head, sizeof head, "  %-8s ", what);
  char line[512];
  snprintf(line, sizeof line, "%s  %s", rule->id, rule->title);
  print_folded(head, line);
}

static bool same_text(const ts_session *a, size_t at, const ts_session *b, size_t bt) {
  return ts_same(ts_rule_text(a->packs, at, a->arena), ts_rule_text(b->packs, bt, b->arena));
}

/* What came and changed, or, seen from the old side, what went. */
static size_t show_side(const ts_session *from, const ts_session *other, bool is_new) {
  size_t alike = 0;
  for (size_t i = 0, there; i < ts_rule_count(from->packs); i++) {
    const ts_rule *rule = ts_rule_at(from->packs, i);
    if (!ts_same(rule->pack, from->instead_as)) continue;
    if (!find(other, rule->id, &there))
      show_rule(is_new ? "came" : "went", rule);
    else if (is_new && !same_text(from, i, other, there))
      show_rule("changed", rule);
    else
      alike += is_new;
  }
  return alike;
}

static bool same_amendment(const ts_amendment *a, const ts_amendment *b) {
  return ts_same(a->rule, b->rule) && ts_same(a->limit, b->limit) && ts_same(a->to, b->to) &&
         a->likelihood == b->likelihood && a->severity == b->severity;
}

/* What a pack makes stricter in rules of others, on one side only. */
static void show_amendments(const ts_session *from, const ts_session *other, const char *what) {
  for (size_t i = 0; i < ts_amendment_count(from->packs); i++) {
    const ts_amendment *made = ts_amendment_at(from->packs, i);
    bool there = !ts_same(made->pack, from->instead_as);
    for (size_t k = 0; !there && k < ts_amendment_count(other->packs); k++)
      there = same_amendment(made, ts_amendment_at(other->packs, k));
    if (there) continue;
    printf("  %-8s %s %s", what, made->limit ? "tighten" : "raise", made->rule);
    if (made->limit)
      printf(" %s to %s\n", made->limit, made->to);
    else
      printf(" by %d, %d\n", made->likelihood, made->severity);
  }
}

static bool show_rules(comparer *c) {
  ts_session side[BOTH] = {{0}, {0}};
  bool good = true;
  for (int i = 0; i < BOTH; i++)
    good = begin(&side[i], c, i) && session_load_all_packs(&side[i], &c->with) && good;
  if (good) {
    printf("%s → %s\n", c->options->words[1], c->options->words[2]);
    size_t alike = show_side(&side[NEW], &side[OLD], true);
    show_side(&side[OLD], &side[NEW], false);
    show_amendments(&side[NEW], &side[OLD], "came");
    show_amendments(&side[OLD], &side[NEW], "went");
    printf("  %zu rule%s the same text\n", alike, alike == 1 ? " has" : "s have");
  }
  for (int i = 0; i < BOTH; i++) session_close(&side[i]);
  return good;
}

/* ---- a dossier ------------------------------------------------------------------------- */

static bool assess(const comparer *c, int side, const char *dossier, char **bytes, size_t *length,
                   bool *applies) {
  ts_session s = {0};
  bool good = begin(&s, c, side) && session_read_matrix(&s, c->with.matrix) &&
              session_read_dossier(&s, &c->with, dossier) && ts_count(s.problems, TS_ERROR) == 0;
  ts_assess_inputs inputs = session_inputs(&s, dossier);
  inputs.scores_only = true; /* how a finding stands is compared, not what would change it */
  ts_assessment *a = good ? ts_assess(&inputs, s.problems) : NULL;
  if (a != NULL) ts_assessment_write(a, bytes, length);
  *applies = s.replaced;
  ts_assessment_free(a);
  session_close(&s);
  return a != NULL;
}

static bool show_text(ts_session *s, const char *comparison, size_t length) {
  char *text;
  size_t count;
  if (!ts_comparison_render(comparison, length, "text", &text, &count, s->problems)) return false;
  print_lines(s->arena, text);
  free(text);
  return true;
}

static bool write_page(ts_session *s, const comparer *c, const char *comparison, size_t length) {
  char *page;
  size_t count;
  if (!ts_comparison_render(comparison, length, "html", &page, &count, s->problems)) return false;
  bool good = output_file(s, c->options, c->options->out, page, count);
  free(page);
  return good;
}

static bool show_dossier(comparer *c, const char *dossier) {
  ts_session s = {.arena = ts_arena_new(), .problems = ts_diagnostics_new()};
  char *bytes[BOTH] = {NULL, NULL}, *comparison = NULL;
  size_t lengths[BOTH], length = 0;
  const char *const names[BOTH] = {"with the old rules", "with the new rules"};
  bool applies = false, good = true;
  for (int i = 0; i < BOTH; i++)
    good = good && assess(c, i, dossier, &bytes[i], &lengths[i], &applies);
  good = good &&
         ts_compare((const char *const *)bytes, lengths, names, &comparison, &length, s.problems);
  if (good) {
    print_folded("\n", ts_arena_printf(s.arena, "%s%s", dossier,
                                       applies ? "" : ": no rules of this pack are asked here"));
    c->moved = c->moved || strstr(comparison, " change=\"") != NULL;
    good =
        c->options->out ? write_page(&s, c, comparison, length) : show_text(&s, comparison, length);
  }
  for (int i = 0; i < BOTH; i++) free(bytes[i]);
  free(comparison);
  session_close(&s);
  return good;
}

/* ---- all ------------------------------------------------------------------------------- */

static int wrong_request(const ts_options *options) {
  bool page = options->as != NULL && ts_same(options->as, "html");
  if (options->as != NULL && !page && !ts_same(options->as, "text"))
    return unknown("form", options->as, (const char *const[]){"text", "html"}, 2);
  if (page != (options->out != NULL))
    return usage_error("a page goes to a file: --as html -o FILE");
  if (page && options->word_count != 4) return usage_error("a page is made of one dossier");
  return DONE;
}

int rules_compare(const ts_options *options) {
  comparer c = {.options = options, .with = *options};
  int status = wrong_request(options);
  if (status != DONE) return status;
  if (ts_pack_exists(options->words[1])) {
    if (c.with.pack_count == REPEATS_MAX) return usage_error("too many packs");
    c.with.packs[c.with.pack_count++] = options->words[1];
  }
  bool good = show_rules(&c);
  for (size_t i = 3; good && i < options->word_count; i++)
    good = show_dossier(&c, options->words[i]);
  return !good ? NOT_DONE : c.moved ? LOOK : DONE;
}
