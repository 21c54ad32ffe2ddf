/* Whom words name: by id, by title or name, by the day, by what tells records apart. */
#include "dossier/import_find.h"
#include "dossier/words.h"
#include "quantity/calendar.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

const ts_import_target ts_import_nobody = {TS_NO_SUBJECT, NULL};

bool ts_import_is_somebody(ts_import_target target) {
  return target.subject != TS_NO_SUBJECT || target.fresh != NULL;
}

static bool same_target(ts_import_target a, ts_import_target b) {
  return a.subject == b.subject && a.fresh == b.fresh;
}

const char *ts_import_text(const ts_import *import, ts_import_target target, const char *fact) {
  const ts_dossier *dossier = import->dossier;
  if (target.fresh == NULL) return ts_world_text(dossier, target.subject, fact);
  uint32_t position = ts_fact_position(dossier->vocabulary, target.fresh->entity, fact);
  return position == TS_ABSENT ? NULL : target.fresh->texts[position];
}

/* What a title or a name is compared by: blanks and letter size do not matter. */
static bool same_words(const char *a, const char *b) {
  while (a != NULL && b != NULL) {
    a += strspn(a, " ");
    b += strspn(b, " ");
    size_t length = strcspn(a, " ");
    if (length != strcspn(b, " ") || strncasecmp(a, b, length) != 0) return false;
    if (length == 0) return true;
    a += length;
    b += length;
  }
  return false;
}

bool ts_import_next(const ts_import *import, uint32_t entity, ts_import_target in, size_t *at,
                    ts_import_target *found) {
  const ts_dossier *dossier = import->dossier;
  for (; *at < dossier->subject_count; ++*at) {
    const ts_subject_entry *entry = &dossier->subjects[*at];
    if (entry->entity != entity || entry->info.entity->parent == NULL) continue;
    if (ts_import_is_somebody(in) && !same_target(in, (ts_import_target){entry->info.parent, NULL}))
      continue;
    *found = (ts_import_target){(ts_subject)(*at)++, NULL};
    return true;
  }
  for (; *at - dossier->subject_count < import->fresh_count; ++*at) {
    ts_import_fresh *fresh = import->fresh[*at - dossier->subject_count];
    if (fresh->entity != entity || (ts_import_is_somebody(in) && !same_target(in, fresh->parent)))
      continue;
    ++*at;
    *found = (ts_import_target){TS_NO_SUBJECT, fresh};
    return true;
  }
  return false;
}

const char *ts_import_path(const ts_import *import, ts_import_target target) {
  return target.fresh ? target.fresh->name : import->dossier->subjects[target.subject].info.path;
}

static bool goes_by(const ts_import *import, ts_import_target target, const char *words) {
  return same_words(ts_import_text(import, target, "title"), words) ||
         same_words(ts_import_text(import, target, "name"), words);
}

size_t ts_import_lookup(const ts_import *import, uint32_t entity, const char *words,
                        ts_import_target in, ts_import_target *found) {
  ts_import_target one;
  size_t count = 0;
  for (size_t at = 0; ts_import_next(import, entity, ts_import_nobody, &at, &one);)
    if (ts_same(ts_import_path(import, one), words)) {
      *found = one;
      return 1;
    }
  for (size_t at = 0; ts_import_next(import, entity, in, &at, &one);)
    if (goes_by(import, one, words)) {
      *found = one;
      count++;
    }
  return count;
}

static const char *nearest(const ts_import *import, uint32_t entity, const char *words) {
  ts_names names = {0};
  ts_import_target one;
  for (size_t at = 0; ts_import_next(import, entity, ts_import_nobody, &at, &one);) {
    const char *title = ts_import_text(import, one, "title"),
               *name = ts_import_text(import, one, "name");
    ts_names_put(&names, ts_import_path(import, one), 0);
    if (title != NULL) ts_names_put(&names, title, 0);
    if (name != NULL) ts_names_put(&names, name, 0);
  }
  const char *near = ts_names_nearest(&names, words);
  ts_names_release(&names);
  return near;
}

bool ts_import_one(const ts_import *import, uint32_t entity, const char *words, ts_import_target in,
                   ts_import_target *found, const char *where) {
  const char *name = import->dossier->vocabulary->entities[entity].def->name;
  size_t count = ts_import_lookup(import, entity, words, in, found);
  if (count == 1) return true;
  if (count > 1)
    return ts_import_fail(import, where, "\"%s\" goes for more than one %s; give its id", words,
                          name);
  const char *near = nearest(import, entity, words);
  return ts_import_fail(import, where, "there is no %s \"%s\"%s%s%s", name, words,
                        near ? "; the nearest is \"" : "", near ? near : "", near ? "\"" : "");
}

/* ---- references ----------------------------------------------------------------------- */

/* One word of a reference, for any of the entities it may name. NULL with a report. */
static const char *resolve_one(const ts_import *import, const ts_known_fact *fact,
                               const char *words, const char *where, bool say) {
  ts_import_target found;
  uint32_t entity = TS_ABSENT;
  for (size_t i = 0; i < fact->choice_count; i++) {
    entity = ts_names_get(&import->dossier->vocabulary->entity_names, fact->choices[i]);
    if (ts_import_lookup(import, entity, words, ts_import_nobody, &found) == 1)
      return ts_import_path(import, found);
  }
  if (say && entity != TS_ABSENT)
    ts_import_one(import, entity, words, ts_import_nobody, &found, where);
  return NULL;
}

const char *ts_import_resolve(const ts_import *import, const ts_known_fact *fact, const char *words,
                              const char *where) {
  bool several = fact->def->type == TS_REFS;
  const char *whole =
      strcmp(words, "none") == 0 ? words : resolve_one(import, fact, words, where, !several);
  if (whole != NULL || !several) return whole;
  const char *between = strpbrk(words, ",;") ? ",;" : " ", *at = words;
  ts_text ids = {0};
  bool good = true;
  for (char *word; (word = ts_words_next(import->arena, &at, between));) {
    const char *id = word[0] ? resolve_one(import, fact, word, where, true) : NULL;
    if (id == NULL) good = word[0] == '\0' && good;
    if (id != NULL) ts_text_addf(&ids, "%s%s", ids.length > 0 ? " " : "", id);
  }
  const char *copy = good ? ts_arena_copy(import->arena, ids.data) : NULL;
  ts_text_release(&ids);
  return copy;
}
