/* The elements and attributes of a dossier as a part of a manual page. */
#include "base/text.h"
#include "dossier/subjects.h"

#include <string.h>

/* Words that troff prints as they stand: a backslash, a hyphen that can be copied, and no
 * request where a line begins with a point. */
static void add_words(ts_text *page, const char *words) {
  if (*words == '.' || *words == '\'') ts_text_add(page, "\\&");
  for (; *words != '\0'; words++) {
    if (*words == '\\')
      ts_text_add(page, "\\e");
    else if (*words == '-')
      ts_text_add(page, "\\-");
    else
      ts_text_add_n(page, words, 1);
  }
}

static void add_fact(ts_text *page, const ts_fact_def *fact) {
  ts_text form = {0};
  ts_text_add(page, ".TP\n.B ");
  add_words(page, fact->name);
  ts_text_add(page, "\n");
  add_words(page, fact->meaning);
  ts_text_add(page, ":\n");
  ts_fact_explain(fact, &form);
  add_words(page, form.data);
  ts_text_add(page, ".\n");
  ts_text_release(&form);
}

static void add_entity(ts_text *page, const ts_vocabulary *vocabulary,
                       const ts_entity_def *entity) {
  ts_text_add(page, ".SS ");
  add_words(page, entity->name);
  ts_text_add(page, "\n");
  add_words(page, entity->meaning);
  ts_text_addf(page, ".\nStands in\n.BR %s%s.\n", entity->parent,
               entity->single ? " ,\nonce" : " ");
  for (size_t i = 0; i < ts_fact_count(vocabulary, entity); i++) {
    const ts_fact_def *fact = ts_fact_at(vocabulary, entity, i);
    if (!fact->derived) add_fact(page, fact);
  }
}

bool ts_vocabulary_write_manual(const ts_vocabulary *vocabulary, FILE *out) {
  ts_text page = {0};
  for (size_t i = 0; i < ts_entity_count(vocabulary); i++) {
    const ts_entity_def *entity = ts_entity_at(vocabulary, i);
    if (entity->parent != NULL) add_entity(&page, vocabulary, entity);
  }
  bool good = fwrite(page.data, 1, page.length, out) == page.length;
  ts_text_release(&page);
  return good;
}
