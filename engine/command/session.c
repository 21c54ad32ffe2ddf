/* Loading: packs, dossier, matrix. */
#include "base/file.h"
#include "base/share.h"
#include "base/text.h"
#include "base/xml.h"
#include "command/command.h"
#include "command/signed_pack.h"
#include "dossier/subjects.h"
#include "tankside/document.h"
#include <stdio.h>
#include <stdlib.h>
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
  if (session->vocabulary != NULL)
    session->packs = ts_packs_new(session->units, session->vocabulary);
  if (session->packs == NULL)
    ts_report(session->problems, TS_ERROR, "tankside", 0,
              "the data of udunits2 could be read once, and not again");
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
  free(session->what_ifs);
  free(session->sets);
  ts_arena_free(session->arena);
}

void session_say(ts_session *session) {
  fflush(stdout);
  ts_diagnostics_print(session->problems, stderr);
  ts_diagnostics_free(session->problems);
  session->problems = ts_diagnostics_new();
}

/* ---- packs ------------------------------------------------------------------- */

static char *own_pack(ts_session *session, const char *name) {
  return ts_path_join(session->arena, ts_data_path(session->arena, "rules"), name);
}

/* A pack under a name. One that somebody signed is refused where it is not what was signed. */
static bool load_as(ts_session *session, const char *folder, const char *as, bool given) {
  size_t before = ts_pack_folder_count(session->packs);
  bool good = given ? ts_packs_load_as(session->packs, folder, as, session->problems)
                    : ts_packs_load(session->packs, folder, session->problems);
  if (ts_pack_folder_count(session->packs) == before) return good; /* refused, or loaded before */
  return pack_holds(session, folder, as) && good;
}

/* A pack, or what stands in its place. */
static bool load_pack(ts_session *session, const char *folder) {
  if (session->instead == NULL || !ts_path_same(folder, session->instead_of))
    return load_as(session, folder, ts_pack_name(session->arena, folder), false);
  session->replaced = true;
  return load_as(session, session->instead, session->instead_as, true);
}

/* Loads a pack that came with the program, if there is one by that name. */
static bool load_if_there(ts_session *session, const char *name, bool *there) {
  char *folder = own_pack(session, name);
  *there = ts_folder_exists(folder);
  return !*there || load_pack(session, folder);
}

static bool is_pack_name(const char *name) {
  return name[0] != '\0' && strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen(name);
}

/* "us-ca" stands on "us" and "us-fed": what holds in the whole country holds there too. */
static bool load_jurisdiction(ts_session *session, const char *name) {
  bool there = false, country = false, federal = false;
  bool good = true;
  if (is_pack_name(name)) { /* else it might name a folder anywhere */
    char *above = ts_arena_copy_n(session->arena, name, strcspn(name, "-"));
    char *fed = ts_arena_printf(session->arena, "%s-fed", above);
    good = ts_same(above, name) || load_if_there(session, above, &country);
    if (!ts_same(fed, name)) good = load_if_there(session, fed, &federal) && good;
    good = load_if_there(session, name, &there) && good;
  }
  if (!there) {
    session->no_rules_for = name;
    ts_report(session->problems, TS_WARNING, "tankside", 0,
              "no rules for jurisdiction \"%s\" were found", name);
  }
  return good;
}

const char *session_pack(ts_session *session, const char *given) {
  const char *own = own_pack(session, given);
  return !ts_folder_exists(given) && is_pack_name(given) && ts_folder_exists(own) ? own : given;
}

static bool load_given(ts_session *session, const ts_options *options) {
  bool good = true;
  for (size_t i = 0; i < options->pack_count; i++)
    good = load_pack(session, session_pack(session, options->packs[i])) && good;
  return good;
}

static bool load_common(ts_session *session) {
  return load_pack(session, own_pack(session, "common"));
}

bool session_load_for_dossiers(ts_session *session) {
  ts_packs_leave_examples(session->packs);
  return load_common(session);
}

bool session_load_all_packs(ts_session *session, const ts_options *options) {
  char **names =
      ts_folder_list(session->arena, ts_data_path(session->arena, "rules"), "/", session->problems);
  bool good = load_common(session);
  for (size_t i = 0; names != NULL && names[i] != NULL; i++) {
    bool there;
    if (ts_same(names[i], "common")) continue; /* all the others stand on it */
    good = load_if_there(session, names[i], &there) && good;
  }
  return load_given(session, options) && good;
}

/* ---- assessment ---------------------------------------------------------------- */

const char *assessment_path(ts_session *session, const char *path) {
  return ts_folder_exists(path) ? ts_path_join(session->arena, path, "assessment.xml") : path;
}

/* ---- dossier ------------------------------------------------------------------- */

static char *attribute_copy(ts_arena *arena, xmlNode *element, const char *name) {
  xmlChar *value = xmlGetNoNsProp(element, (const xmlChar *)name);
  char *copy = ts_arena_copy(arena, (const char *)value);
  if (value != NULL) xmlFree(value);
  return copy;
}

enum { PEEKS = 64 }; /* files looked into: one that includes itself is reported when it is read */

/* What of a dossier decides which packs are loaded, and in which language it is printed. */
typedef struct {
  const char *jurisdiction, *packs, *language, *file; /* the file of the production */
  int line;
  int left;    /* files that may still be looked into */
  bool unread; /* one could not be */
} peeked;

static void peek(ts_session *session, const char *path, peeked *found);

/* The production stands in the file itself, or in one that it includes. */
static void peek_into(ts_session *session, const ts_xml *xml, const char *path, peeked *found) {
  const char *folder = ts_path_folder(session->arena, path);
  xmlNode *child = ts_xml_root(xml)->children;
  for (; child != NULL && !found->jurisdiction; child = child->next) {
    if (child->type != XML_ELEMENT_NODE) continue;
    if (ts_same((const char *)child->name, "production")) {
      found->jurisdiction = attribute_copy(session->arena, child, "jurisdiction");
      found->packs = attribute_copy(session->arena, child, "packs");
      found->language = attribute_copy(session->arena, child, "language");
      found->file = path;
      found->line = ts_xml_attribute_line(xml, child, "language");
    }
    if (!ts_same((const char *)child->name, "include") || --found->left <= 0) continue;
    const char *href = attribute_copy(session->arena, child, "href");
    if (href != NULL && ts_path_inside(folder, href))
      peek(session, ts_path_join(session->arena, folder, href), found);
  }
}

/* The packs decide which facts a dossier may state, and the dossier which packs: so they are
 * looked up before it is read. What is wrong with the file is said when it is read.
 */
static void peek(ts_session *session, const char *path, peeked *found) {
  ts_diagnostics *unsaid = ts_diagnostics_new();
  size_t length = 0;
  ts_arena *scratch = ts_arena_new(); /* it may be long, and is not needed again */
  char *bytes = ts_file_read(scratch, path, PEEK_LIMIT, &length, unsaid);
  ts_xml *xml = bytes ? ts_xml_read(bytes, length, path, unsaid) : NULL;
  if (xml != NULL) {
    peek_into(session, xml, path, found);
    ts_xml_free(xml);
  } else {
    found->unread = true;
  }
  ts_diagnostics_free(unsaid);
  ts_arena_free(scratch);
}

/* The folders of rules that a dossier names, in its own folder. */
static bool load_beside(ts_session *session, const char *path, const char *packs) {
  const char *folder = ts_path_folder(session->arena, path);
  bool good = true;
  for (const char *at = packs; at && *(at += strspn(at, " \t\n")); at += strcspn(at, " \t\n")) {
    char *name = ts_arena_copy_n(session->arena, at, strcspn(at, " \t\n"));
    char *pack = ts_path_join(session->arena, folder, name);
    bool inside = ts_path_inside(folder, name) && ts_pack_exists(pack);
    if (!inside)
      ts_report(session->problems, TS_ERROR, path, 0,
                "\"%s\" in \"packs\" is no folder beside the dossier", name);
    good = inside && load_pack(session, pack) && good;
  }
  return good;
}

static bool load_packs_of(ts_session *session, const ts_options *options, const char *path,
                          bool *unread) {
  peeked found = {.left = PEEKS};
  peek(session, path, &found);
  *unread = found.unread;
  bool good = session_load_for_dossiers(session);
  if (found.jurisdiction != NULL) good = load_jurisdiction(session, found.jurisdiction) && good;
  good = load_beside(session, path, found.packs) && good;
  if (found.language != NULL)
    good = ts_language_known(found.language, found.file, found.line, session->problems) && good;
  return load_given(session, options) && good;
}

bool session_read_as_it_stands(ts_session *session, const ts_options *options, const char *path) {
  bool unread, good = load_packs_of(session, options, path, &unread);
  session->dossier = ts_dossier_read(path, session->vocabulary, session->units, session->problems);
  /* A disk that stumbles, an editor that saves: never without the rules of the place. */
  if (unread && ts_count(session->problems, TS_ERROR) == 0)
    ts_report(session->problems, TS_ERROR, path, 0,
              "could not be read when its rules were looked for, only after; try again");
  return session->dossier != NULL && good && !unread;
}

bool session_read_dossier(ts_session *session, const ts_options *options, const char *path) {
  bool good = what_if_read(session, options);
  good = session_read_as_it_stands(session, options, path) && good;
  return session->dossier != NULL && what_if_apply(session) && good;
}

void session_begin_again(ts_session *session) {
  session->problems = ts_diagnostics_new();
  session->dossier = NULL;
  session->what_ifs = NULL;
  session->sets = NULL;
  session->what_if_count = session->what_if_capacity = session->set_capacity = 0;
}

static const char *production_text(const ts_dossier *dossier, const char *name) {
  ts_field field = ts_subject_field(dossier, 0, name);
  return field.kind != TS_FIELD_NONE ? ts_slot_value(dossier, field.slot)->text : NULL;
}

static bool same_packs(const ts_dossier *was, const ts_dossier *is) {
  return ts_same(production_text(was, "jurisdiction"), production_text(is, "jurisdiction")) &&
         ts_same(production_text(was, "packs"), production_text(is, "packs")) &&
         ts_same(production_text(was, "language"), production_text(is, "language"));
}

bool session_read_again(ts_session *session, const ts_options *options, const char *path,
                        const ts_dossier *was) {
  bool good = what_if_read(session, options);
  session->dossier = ts_dossier_read(path, session->vocabulary, session->units, session->problems);
  return session->dossier != NULL && same_packs(was, session->dossier) && what_if_apply(session) &&
         good && ts_count(session->problems, TS_ERROR) == 0;
}

const char *session_folder(const ts_session *session, const char *path) {
  return strchr(path, '/') != NULL ? ts_path_folder(session->arena, path) : NULL;
}

ts_assess_inputs session_inputs(const ts_session *session, const char *path) {
  return (ts_assess_inputs){.dossier = session->dossier,
                            .packs = session->packs,
                            .matrix = session->matrix,
                            .units = session->units,
                            .sets = session->sets,
                            .set_count = session->what_if_count,
                            .folder = session_folder(session, path),
                            .no_rules_for = session->no_rules_for,
                            .workers = ts_processors()};
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
