/* Facts by their path: what --set, evidence and waivers name. */
#include "dossier/value.h"
#include "dossier/world.h"

#include <string.h>

static ts_subject owner_of(const ts_dossier *dossier, const char *path, const char **fact) {
  const char *slash = strrchr(path, '/');
  *fact = slash ? slash + 1 : NULL;
  if (!slash) return TS_NO_SUBJECT;
  char *owner = ts_arena_copy_n(dossier->arena, path, (size_t)(slash - path));
  return ts_names_get(&dossier->paths, owner);
}

bool ts_world_path(const ts_dossier *dossier, const char *path, ts_subject *subject,
                   uint32_t *slot) {
  const char *fact;
  *slot = TS_ABSENT;
  *subject = ts_names_get(&dossier->paths, path);
  if (*subject != TS_NO_SUBJECT) return true;
  *subject = owner_of(dossier, path, &fact);
  if (*subject == TS_NO_SUBJECT) return false;
  *slot = ts_world_slot(dossier, *subject, fact);
  return *slot != TS_ABSENT;
}

/* The nearest path: the right subject with a fact of nearly that name, or a
 * subject of nearly that name with the fact as written. NULL where nothing is near. */
static const char *nearest_path(const ts_dossier *dossier, const char *path) {
  const char *fact, *near;
  ts_subject subject = owner_of(dossier, path, &fact);
  if (subject != TS_NO_SUBJECT) {
    const ts_subject_entry *entry = &dossier->subjects[subject];
    near = ts_names_nearest(&dossier->vocabulary->entities[entry->entity].names, fact);
    return near ? ts_arena_printf(dossier->arena, "%s/%s", entry->info.path, near) : NULL;
  }
  near = ts_names_nearest(&dossier->paths, path);
  if (near || !fact) return near;
  near = ts_names_nearest(&dossier->paths,
                          ts_arena_copy_n(dossier->arena, path, (size_t)(fact - 1 - path)));
  return near ? ts_arena_printf(dossier->arena, "%s/%s", near, fact) : NULL;
}

void ts_world_no_path(const ts_dossier *dossier, const char *what, const char *path,
                      ts_diagnostics *problems, const char *file, int line) {
  const char *near = nearest_path(dossier, path);
  ts_report(problems, TS_ERROR, file, line, "%s \"%s\", which is not in the dossier%s%s%s", what,
            path, near ? "; the nearest is \"" : "", near ? near : "", near ? "\"" : "");
}

bool ts_dossier_set_from(ts_dossier *dossier, const char *path, const char *value,
                         ts_diagnostics *problems, const char *file, int line) {
  ts_subject subject;
  uint32_t slot;
  if (!ts_world_path(dossier, path, &subject, &slot) || slot == TS_ABSENT) {
    ts_world_no_path(dossier, "cannot set", path, problems, file, line);
    return false;
  }
  const ts_known_fact *fact = ts_world_known(dossier, slot);
  if (!ts_is_fact(fact->def->type) || fact->def->derived) {
    ts_report(problems, TS_ERROR, file, line, "\"%s\" cannot be set: it is %s", path,
              fact->def->derived ? "worked out from other facts" : "structure, not a fact");
    return false;
  }
  ts_place place = {problems, file, line};
  ts_value read;
  const char *text = ts_arena_copy(dossier->arena, value);
  if (!ts_value_read(dossier->units, dossier->arena, fact, text, &read, &place)) return false;
  if (read.state == TS_STATED) read.state = TS_SET_BY_USER;
  ts_world_put(dossier, slot, &read);
  dossier->lines[slot] = line;
  ts_world_derive(dossier);
  return true;
}

bool ts_dossier_set(ts_dossier *dossier, const char *path, const char *value,
                    ts_diagnostics *problems) {
  return ts_dossier_set_from(dossier, path, value, problems, "--set", 0);
}
