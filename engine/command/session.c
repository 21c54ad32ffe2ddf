/* Loading: packs, dossier, matrix. */
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "command/command.h"
#include <stdio.h>
#include <string.h>

enum { PEEK_LIMIT = 8 * 1024 * 1024 };

bool session_open(ts_session *session) {
  char why[256] = "";
  session->arena = ts_arena_new();
  session->problems = ts_diagnostics_new();
  session->units = ts_units_new(why, sizeof why);
  if (session->units == NULL) {
    ts_report(session->problems, TS_ERROR, "tankside", 0, "%s", why);
    return false;
  }
  session->vocabulary = ts_vocabulary_new();
  if (session->vocabulary == NULL) return false;
  session->packs = ts_packs_new(session->units, session->vocabulary);
  return session->packs != NULL;
}

void session_close(ts_session *session) {
  fflush(stdout); /* so that the two read in order where both go to one place */
  ts_diagnostics_print(session->problems, stderr);
  ts_matrix_free(session->matrix);
  ts_dossier_free(session->dossier);
  if (session->packs != NULL) ts_packs_free(session->packs);
  ts_vocabulary_free(session->vocabulary);
  if (session->units != NULL) ts_units_free(session->units);
  ts_diagnostics_free(session->problems);
  ts_arena_free(session->arena);
}

/* ---- packs ------------------------------------------------------------------- */

static char *own_pack(ts_session *session, const char *name) {
  return ts_path_join(session->arena, ts_data_path(session->arena, "rules"), name);
}

/* Loads a pack that came with the program, if there is one by that name. */
static bool load_if_there(ts_session *session, const char *name, bool *there) {
  char *folder = own_pack(session, name);
  *there = ts_folder_exists(folder);
  return !*there || ts_packs_load(session->packs, folder, session->problems);
}

static bool is_pack_name(const char *name) {
  return name[0] != '\0' && strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen(name);
}

/* "us-ca" stands on "us" and "us-fed": what holds in the whole country holds there too. */
static bool load_jurisdiction(ts_session *session, const char *name) {
  bool there = false, country = false, federal = false;
  if (!is_pack_name(name)) {
    session->no_rules_for = name;
    return true;
  }
  size_t stem = strcspn(name, "-");
  char *above = ts_arena_copy_n(session->arena, name, stem);
  char *fed = ts_arena_printf(session->arena, "%s-fed", above);
  bool good = ts_same(above, name) || load_if_there(session, above, &country);
  if (!ts_same(fed, name)) good = load_if_there(session, fed, &federal) && good;
  good = load_if_there(session, name, &there) && good;
  if (!there) {
    session->no_rules_for = name;
    ts_report(session->problems, TS_WARNING, "tankside", 0,
              "no rules for jurisdiction \"%s\" were found", name);
  }
  return good;
}

static bool load_given(ts_session *session, const ts_options *options) {
  bool good = true;
  for (size_t i = 0; i < options->pack_count; i++) {
    const char *folder = options->packs[i];
    if (!ts_folder_exists(folder) && is_pack_name(folder) &&
        ts_folder_exists(own_pack(session, folder)))
      folder = own_pack(session, folder);
    good = ts_packs_load(session->packs, folder, session->problems) && good;
  }
  return good;
}

bool session_load_packs(ts_session *session, const ts_options *options, const char *jurisdiction) {
  bool good = ts_packs_load(session->packs, own_pack(session, "common"), session->problems);
  if (jurisdiction != NULL) good = load_jurisdiction(session, jurisdiction) && good;
  return load_given(session, options) && good;
}

bool session_load_all_packs(ts_session *session, const ts_options *options) {
  char **names = ts_folder_list(session->arena, ts_data_path(session->arena, "rules"), "/",
                                session->problems);
  bool good = ts_packs_load(session->packs, own_pack(session, "common"), session->problems);
  for (size_t i = 0; names != NULL && names[i] != NULL; i++) {
    bool there;
    if (ts_same(names[i], "common")) continue; /* all the others stand on it */
    good = load_if_there(session, names[i], &there) && good;
  }
  return load_given(session, options) && good;
}

/* ---- dossier ------------------------------------------------------------------- */

static char *attribute_copy(ts_arena *arena, xmlNode *element, const char *name) {
  xmlChar *value = xmlGetNoNsProp(element, (const xmlChar *)name);
  char *copy = ts_arena_copy(arena, (const char *)value);
  if (value != NULL) xmlFree(value);
  return copy;
}

static const char *jurisdiction_in(ts_session *session, const ts_xml *xml) {
  for (xmlNode *child = ts_xml_root(xml)->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE && ts_same((const char *)child->name, "production"))
      return attribute_copy(session->arena, child, "jurisdiction");
  return NULL;
}

/* The packs decide which facts a dossier may state, and the dossier which packs: so its
 * jurisdiction is looked up before it is read. What is wrong with the file is said when it is read.
 */
static const char *peek_jurisdiction(ts_session *session, const char *path) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  size_t length = 0;
  const char *found = NULL;
  char *bytes = ts_file_read(session->arena, path, PEEK_LIMIT, &length, unsaid);
  ts_xml *xml = bytes ? ts_xml_read(bytes, length, path, unsaid) : NULL;
  if (xml != NULL) {
    found = jurisdiction_in(session, xml);
    ts_xml_free(xml);
  }
  ts_diagnostics_free(unsaid);
  return found;
}

static bool apply_set(ts_session *session, const char *set) {
  const char *equals = strchr(set, '=');
  if (equals == NULL) {
    ts_report(session->problems, TS_ERROR, "--set", 0, "\"%s\" is not PATH=VALUE", set);
    return false;
  }
  char *path = ts_arena_copy_n(session->arena, set, (size_t)(equals - set));
  return ts_dossier_set(session->dossier, path, equals + 1, session->problems);
}

bool session_read_dossier(ts_session *session, const ts_options *options, const char *path) {
  bool good = session_load_packs(session, options, peek_jurisdiction(session, path));
  session->dossier = ts_dossier_read(path, session->vocabulary, session->units, session->problems);
  if (session->dossier == NULL) return false;
  for (size_t i = 0; i < options->set_count; i++)
    good = apply_set(session, options->sets[i]) && good;
  return good;
}

const char *session_folder(const ts_session *session, const char *path) {
  return strchr(path, '/') != NULL ? ts_path_folder(session->arena, path) : NULL;
}

/* ---- matrix --------------------------------------------------------------------- */

bool session_read_matrix(ts_session *session, const char *name) {
  if (name == NULL) name = "five-by-five";
  const char *path = name;
  if (is_pack_name(name)) {
    const char *folder =
        ts_path_join(session->arena, ts_data_path(session->arena, "shared"), "matrices");
    path = ts_path_join(session->arena, folder, ts_arena_printf(session->arena, "%s.xml", name));
  }
  session->matrix = ts_matrix_read(path, session->problems);
  return session->matrix != NULL;
}
