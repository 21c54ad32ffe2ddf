/* From elements to subjects: paths, facts, parts. */
#include "dossier/reader.h"
#include "dossier/words.h"
#include "quantity/calendar.h"

#include <string.h>

/* The subject being read. */
typedef struct {
  ts_reader *reader;
  const xmlNode *element;
  uint32_t entity;
  ts_subject subject;
} reading;

static const ts_entity_def *entity_def(const ts_reader *reader, uint32_t entity) {
  return reader->dossier->vocabulary->entities[entity].def;
}

/* ---- elements where they do not belong --------------------------------- */

/* Names of the elements that may stand in `where`, ending with NULL. */
static const char **allowed_in(const ts_reader *reader, const char *where) {
  static const char *const top[] = {"include", "evidence", "waiver"};
  const ts_vocabulary *vocabulary = reader->dossier->vocabulary;
  const char **names =
      ts_arena_alloc(reader->dossier->arena, (vocabulary->entity_count + 6) * sizeof *names);
  size_t count = 0;
  for (size_t i = 0; i < vocabulary->entity_count; i++)
    if (ts_same(vocabulary->entities[i].def->parent, where))
      names[count++] = vocabulary->entities[i].def->name;
  names[count++] = "control";
  if (ts_same(where, "dossier"))
    for (size_t i = 0; i < sizeof top / sizeof *top; i++) names[count++] = top[i];
  else
    names[count++] = "fact";
  return names;
}

/* The element in which `name` belongs, or NULL where there is no such element. */
static const char *belongs_in(const ts_reader *reader, const char *name) {
  static const char *const top[] = {"include", "evidence", "waiver"};
  const ts_entity_def *def = ts_entity_find(reader->dossier->vocabulary, name);
  for (size_t i = 0; i < sizeof top / sizeof *top; i++)
    if (ts_same(top[i], name)) return "dossier";
  return def ? def->parent : NULL;
}

static char *joined(ts_arena *arena, const char **names, size_t *count) {
  ts_text text = {0};
  for (*count = 0; names[*count]; ++*count)
    ts_text_addf(&text, "%s%s", *count ? ", " : "", names[*count]);
  char *copy = ts_arena_copy(arena, text.data);
  ts_text_release(&text);
  return copy;
}

void ts_reader_stray(const ts_reader *reader, const xmlNode *element, const char *where) {
  const char *name = (const char *)element->name;
  const char *home = belongs_in(reader, name);
  const char **allowed = allowed_in(reader, where);
  size_t count;
  if (element->ns) {
    ts_reader_error(reader, element, NULL, "\"%s\" is of namespace \"%s\"; expected no namespace",
                    name, (const char *)element->ns->href);
    return;
  }
  const char *list = joined(reader->dossier->arena, allowed, &count);
  if (home) {
    ts_reader_error(reader, element, NULL,
                    "\"%s\" does not belong in \"%s\" but in \"%s\"; "
                    "allowed here: %s",
                    name, where, home, list);
    return;
  }
  const char *near = ts_nearest(name, allowed, count);
  ts_reader_error(reader, element, NULL, "unknown element \"%s\" in \"%s\"%s%s%s; allowed here: %s",
                  name, where, near ? "; the nearest name is \"" : "", near ? near : "",
                  near ? "\"" : "", list);
}

/* ---- paths ------------------------------------------------------------- */

/* The first of "d1t3/p1", "d1t3/p1.2" ... that is free; `first` may have its own form. What was
 * tried for a stem is not tried again: a day may have thousands of records. */
static const char *free_path(ts_dossier *dossier, const char *first, const char *format,
                             const char *stem) {
  if (ts_names_get(&dossier->paths, first) == TS_ABSENT) return first;
  uint32_t n = ts_names_get(&dossier->numbers, stem);
  if (n == TS_ABSENT) n = 2;
  const char *path;
  do path = ts_arena_printf(dossier->arena, format, stem, n++);
  while (ts_names_get(&dossier->paths, path) != TS_ABSENT);
  ts_names_put(&dossier->numbers, stem, n);
  return path;
}

static const char *numbered_path(const reading *r, ts_subject parent) {
  ts_dossier *dossier = r->reader->dossier;
  const char *stem = ts_world_part_path(dossier, parent, entity_def(r->reader, r->entity)->name);
  const char *first = ts_arena_printf(dossier->arena, "%s-1", stem);
  return free_path(dossier, first, "%s-%u", stem);
}

static const char *dated_path(const reading *r, const char *date) {
  return free_path(r->reader->dossier, date, "%s.%u", date);
}

static const char *immersion_path(const reading *r, ts_subject parent, const char *person) {
  ts_dossier *dossier = r->reader->dossier;
  const char *stem = ts_world_part_path(dossier, parent, person);
  return free_path(dossier, stem, "%s.%u", stem);
}

/* The name of the attribute that holds the entity's id, or NULL. */
static const char *id_attribute(const reading *r) {
  const ts_vocabulary *vocabulary = r->reader->dossier->vocabulary;
  for (size_t i = 0; i < vocabulary->entities[r->entity].count; i++) {
    const ts_fact_def *def = ts_known_at(vocabulary, r->entity, i)->def;
    if (def->type == TS_ID) return def->name;
  }
  return NULL;
}

enum { ID_LONGEST = 64 };

static bool usable_name(const char *name) {
  return name && strlen(name) <= ID_LONGEST && ts_words_name(name) && !ts_same(name, "none") &&
         !ts_same(name, "production");
}

/* A date is the name of a day. */
static bool usable_id(const char *name) {
  ts_date date;
  return usable_name(name) && !ts_date_read(name, &date);
}

/* A path that is taken: who has it, and where. The subject still gets one, so
 * that its facts are looked at too. */
static const char *taken(const reading *r, const char *path, const char *attribute) {
  ts_dossier *dossier = r->reader->dossier;
  const ts_subject_entry *first = &dossier->subjects[ts_names_get(&dossier->paths, path)];
  const char *file = first->info.file;
  if (attribute)
    ts_reader_error(r->reader, r->element, attribute, "duplicate id \"%s\": %s:%d has it already",
                    path, file, first->info.line);
  else
    ts_reader_error(r->reader, r->element, NULL,
                    "second \"%s\" where one may stand; the first is at %s:%d",
                    (const char *)r->element->name, file, first->info.line);
  return free_path(dossier, path, "%s ~%u", path);
}

static const char *path_of(const reading *r, ts_subject parent) {
  ts_reader *reader = r->reader;
  const ts_entity_def *def = entity_def(reader, r->entity);
  const char *id = id_attribute(r), *date = ts_reader_attribute(reader, r->element, "date");
  const char *name = id ? ts_reader_attribute(reader, r->element, id) : NULL;
  const char *person = ts_reader_attribute(reader, r->element, "person");
  if (usable_id(name))
    return ts_names_get(&reader->dossier->paths, name) == TS_ABSENT ? name : taken(r, name, id);
  if (def->single) {
    const char *path = ts_world_part_path(reader->dossier, parent, def->name);
    return ts_names_get(&reader->dossier->paths, path) == TS_ABSENT ? path : taken(r, path, NULL);
  }
  if (ts_same(def->name, "day") && usable_name(date)) return dated_path(r, date);
  if (ts_same(def->name, "immersion") && usable_name(person))
    return immersion_path(r, parent, person);
  return numbered_path(r, parent);
}

/* ---- facts ------------------------------------------------------------- */

static void read_reference(const reading *r, uint32_t slot, const char *text, const char *at) {
  const ts_known_fact *fact = ts_world_known(r->reader->dossier, slot);
  if (!*text)
    ts_reader_error(r->reader, r->element, at, "\"%s\" is empty; write a name%s", fact->def->name,
                    fact->def->type == TS_REFS || fact->def->optional ? ", or \"none\"" : "");
  else if (fact->def->type == TS_REF && strchr(text, ' '))
    ts_reader_error(r->reader, r->element, at, "\"%s\" names more than one; expected one",
                    fact->def->name);
  else if (fact->def->type == TS_REF && !fact->def->optional && ts_same(text, "none"))
    ts_reader_error(r->reader, r->element, at, "\"%s\" may not be \"none\"", fact->def->name);
  else
    ts_world_put_text(r->reader->dossier, slot, text);
}

static void read_id(const reading *r, uint32_t slot, const char *text, const char *at) {
  ts_world_put_text(r->reader->dossier, slot, text);
  if (usable_id(text)) return;
  ts_reader_error(r->reader, r->element, at,
                  "\"%s\" cannot be an id; expected up to %d letters, digits, "
                  "'-', '_' and '.', and not \"none\", \"production\" or a date",
                  text, (int)ID_LONGEST);
}

static void read_value(ts_dossier *dossier, uint32_t slot, const char *text,
                       const ts_place *place) {
  ts_value value;
  if (ts_value_read(dossier->units, dossier->arena, ts_world_known(dossier, slot), text, &value,
                    place))
    ts_world_put(dossier, slot, &value);
}

/* `element` and `at` say where the text stands: an attribute, or a <fact>'s value. */
static void read_fact(const reading *r, const xmlNode *element, const char *at, uint32_t slot,
                      const char *text) {
  ts_reader *reader = r->reader;
  ts_fact_type type = ts_world_known(reader->dossier, slot)->def->type;
  ts_place place = {reader->problems, ts_reader_file(reader),
                    ts_xml_attribute_line(reader->xml, element, at)};
  reader->dossier->lines[slot] = place.line;
  if (type == TS_ID)
    read_id(r, slot, text, at);
  else if (type == TS_REF || type == TS_REFS)
    read_reference(r, slot, text, at);
  else
    read_value(reader->dossier, slot, text, &place);
}

/* Names that may be written as attributes, or as <fact> elements. */
static const char *nearest_fact(const reading *r, const char *name, bool added) {
  const ts_vocabulary *vocabulary = r->reader->dossier->vocabulary;
  ts_names names = {0};
  for (size_t i = 0; i < vocabulary->entities[r->entity].count; i++) {
    const ts_known_fact *fact = ts_known_at(vocabulary, r->entity, i);
    if (!fact->def->derived && fact->added == added)
      ts_names_put(&names, fact->def->name, (uint32_t)i);
  }
  const char *near = ts_names_nearest(&names, name);
  ts_names_release(&names);
  return near;
}

static void unknown_fact(const reading *r, const xmlNode *element, const char *at, const char *name,
                         bool added) {
  const char *near = nearest_fact(r, name, added);
  ts_reader_error(r->reader, element, at, "unknown fact \"%s\" of \"%s\"%s%s%s%s", name,
                  entity_def(r->reader, r->entity)->name, near ? "; the nearest name is \"" : "",
                  near ? near : "", near ? "\"" : "",
                  added && !near ? "; a pack may declare it" : "");
}

/* The slot of a fact that may be written this way, or TS_ABSENT with a report. */
static uint32_t writable(const reading *r, const xmlNode *element, const char *at, const char *name,
                         bool added) {
  ts_dossier *dossier = r->reader->dossier;
  uint32_t slot = ts_world_slot(dossier, r->subject, name);
  if (slot == TS_ABSENT) {
    unknown_fact(r, element, at, name, added);
    return TS_ABSENT;
  }
  const ts_known_fact *fact = ts_world_known(dossier, slot);
  if (!fact->def->derived && fact->added == added) return slot;
  if (fact->def->derived)
    ts_reader_error(r->reader, element, at, "\"%s\" is worked out from other facts and not written",
                    name);
  else if (added)
    ts_reader_error(r->reader, element, at, "\"%s\" is written as an attribute of \"%s\"", name,
                    entity_def(r->reader, r->entity)->name);
  else
    ts_reader_error(r->reader, element, at,
                    "\"%s\" is declared by a pack; write <fact name=\"%s\" value=\"...\"/>", name,
                    name);
  return TS_ABSENT;
}

static void read_attributes(const reading *r) {
  for (const xmlAttr *a = r->element->properties; a; a = a->next) {
    const char *name = (const char *)a->name;
    if (a->ns) {
      ts_reader_error(r->reader, r->element, name, "unknown fact \"%s:%s\" of \"%s\"",
                      a->ns->prefix ? (const char *)a->ns->prefix : "", name,
                      (const char *)r->element->name);
      continue;
    }
    uint32_t slot = writable(r, r->element, name, name, false);
    if (slot == TS_ABSENT) continue;
    read_fact(r, r->element, name, slot, ts_reader_attribute(r->reader, r->element, name));
  }
}

static void read_added_fact(const reading *r, const xmlNode *element) {
  static const char *const allowed[] = {"name", "value", NULL};
  ts_reader_only(r->reader, element, allowed);
  ts_reader_words(r->reader, element);
  const char *name = ts_reader_attribute(r->reader, element, "name");
  const char *value = ts_reader_attribute(r->reader, element, "value");
  if (!name || !value) {
    ts_reader_error(r->reader, element, NULL, "\"fact\" lacks \"%s\"", name ? "value" : "name");
    return;
  }
  uint32_t slot = writable(r, element, "name", name, true);
  if (slot == TS_ABSENT) return;
  if (ts_world_value(r->reader->dossier, slot)->text)
    ts_reader_error(r->reader, element, "name", "fact \"%s\" is written twice", name);
  else
    read_fact(r, element, "value", slot, value);
}

/* ---- the whole element ------------------------------------------------- */

static void check_structure(const reading *r) {
  const ts_dossier *dossier = r->reader->dossier;
  const ts_known_entity *entity = &dossier->vocabulary->entities[r->entity];
  for (size_t i = 0; i < entity->count; i++) {
    const ts_fact_def *def = ts_known_at(dossier->vocabulary, r->entity, i)->def;
    if (ts_is_fact(def->type) || def->optional || def->derived) continue;
    if (xmlHasProp(r->element, (const xmlChar *)def->name)) continue;
    ts_reader_error(r->reader, r->element, NULL, "\"%s\" lacks \"%s\": %s", entity->def->name,
                    def->name, def->meaning);
  }
}

static void read_child(const reading *r, const xmlNode *child) {
  const ts_vocabulary *vocabulary = r->reader->dossier->vocabulary;
  const char *here = vocabulary->entities[r->entity].def->name;
  uint32_t entity = ts_names_get(&vocabulary->entity_names, (const char *)child->name);
  if (entity != TS_ABSENT && !child->ns && ts_same(vocabulary->entities[entity].def->parent, here))
    ts_read_subject(r->reader, child, entity, r->subject);
  else if (ts_reader_is(child, "fact"))
    read_added_fact(r, child);
  else if (!ts_read_control(r->reader, child, r->subject))
    ts_reader_stray(r->reader, child, here);
}

/* The production is there before its element is read. */
static ts_subject enter_production(const reading *r, int line) {
  ts_reader *reader = r->reader;
  ts_subject_entry *entry = &reader->dossier->subjects[0];
  if (reader->production) return TS_NO_SUBJECT;
  reader->production = true;
  entry->file = reader->file;
  entry->info.file = reader->dossier->sources[reader->file].name;
  entry->info.line = line;
  size_t count = reader->dossier->vocabulary->entities[r->entity].count;
  for (size_t i = 0; i < count; i++) reader->dossier->lines[entry->info.slot + i] = line;
  return 0;
}

static ts_subject enter(const reading *r, ts_subject parent) {
  int line = ts_xml_line(r->reader->xml, r->element);
  ts_subject production = TS_NO_SUBJECT;
  if (ts_reader_is(r->element, "production")) production = enter_production(r, line);
  if (production != TS_NO_SUBJECT) return production;
  return ts_world_add(r->reader->dossier, r->entity, path_of(r, parent), parent, r->reader->file,
                      line);
}

void ts_read_subject(ts_reader *reader, const xmlNode *element, uint32_t entity,
                     ts_subject parent) {
  reading r = {reader, element, entity, TS_NO_SUBJECT};
  r.subject = enter(&r, parent);
  read_attributes(&r);
  for (const xmlNode *node = element->children; node; node = node->next)
    if (node->type == XML_ELEMENT_NODE) read_child(&r, node);
  ts_reader_words(reader, element);
  check_structure(&r);
  if (r.subject != 0) ts_world_complete(reader->dossier, r.subject);
}
