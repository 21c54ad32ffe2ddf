/* tankside verify: does an assessment follow from the facts and rules it names? is a pack what was
 * signed? */
#include "base/file.h"
#include "base/text.h"
#include "base/xml.h"
#include "command/signed_pack.h"
#include "command/verify_papers.h"
#include "tankside/document.h"
#include "tankside/sign.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SHOWN = 20 }; /* differences listed one by one */

typedef struct {
  ts_session *s;
  ts_options options; /* as given, with what the assessment says it was made from */
  const char *path, *bytes;
  size_t length;
  size_t broken; /* signatures that do not hold */
  papers_count papers;
} verifier;

/* ---- what the assessment says it was made from ------------------------------------------ */

static char *attribute_of(ts_arena *arena, xmlNode *node, const char *name) {
  xmlChar *value = xmlGetNoNsProp(node, BAD_CAST name);
  char *kept = ts_arena_copy(arena, (const char *)value);
  xmlFree(value);
  return kept;
}

/* A value set for that run alone is set again. */
static void take_set(verifier *v, xmlNode *set) {
  char *path = attribute_of(v->s->arena, set, "path"),
       *value = attribute_of(v->s->arena, set, "value");
  if (path != NULL && value != NULL)
    what_if_add(v->s, ts_arena_printf(v->s->arena, "%s=%s", path, value), v->path,
                (int)xmlGetLineNo(set));
}

/* The dossier where it is not given: beside the assessment, or a folder above. */
static const char *find_dossier(verifier *v, const char *name) {
  if (name == NULL) return NULL;
  const char *folder = ts_path_folder(v->s->arena, v->path);
  const char *places[] = {folder, ts_path_join(v->s->arena, folder, "..")};
  for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
    char **files = ts_folder_list(v->s->arena, places[i], ts_path_name(name), v->s->problems);
    for (; files != NULL && *files != NULL; files++)
      if (ts_same(*files, ts_path_name(name))) return ts_path_join(v->s->arena, places[i], *files);
  }
  return NULL;
}

static void take_inputs(verifier *v, xmlNode *inputs) {
  for (xmlNode *set = ts_xml_child(inputs, "set"); set != NULL; set = ts_xml_next(set, "set"))
    take_set(v, set);
  xmlNode *dossier = ts_xml_child(inputs, "dossier");
  if (v->options.dossier == NULL && dossier != NULL)
    v->options.dossier = find_dossier(v, attribute_of(v->s->arena, dossier, "file"));
}

static bool read_assessment(verifier *v) {
  v->path = assessment_path(v->s, v->options.words[0]);
  v->bytes = ts_file_read(v->s->arena, v->path, ASSESSMENT_LIMIT, &v->length, v->s->problems);
  ts_xml *xml = v->bytes ? ts_xml_read(v->bytes, v->length, v->path, v->s->problems) : NULL;
  if (xml == NULL) return false;
  take_inputs(v, ts_xml_child(ts_xml_root(xml), "inputs"));
  ts_xml_free(xml);
  if (v->options.dossier != NULL) return true;
  ts_report(v->s->problems, TS_ERROR, v->path, 0,
            "the dossier it was made from is not beside it; give it: --dossier FILE");
  return false;
}

/* ---- assessing again -------------------------------------------------------------------- */

static bool assess_again(verifier *v, char **bytes, size_t *length) {
  ts_session *s = v->s;
  size_t before = ts_count(s->problems, TS_ERROR); /* of its signatures */
  if (!session_read_matrix(s, v->options.matrix) ||
      !session_read_dossier(s, &v->options, v->options.dossier) ||
      ts_count(s->problems, TS_ERROR) > before)
    return false;
  ts_assess_inputs inputs = session_inputs(s, v->options.dossier);
  ts_assessment *again = ts_assess(&inputs, s->problems);
  if (again == NULL) return false;
  ts_assessment_write(again, bytes, length);
  ts_assessment_free(again);
  return true;
}

/* ---- signatures --------------------------------------------------------------------------- */

/* What was written before anybody signed. */
static void strip(verifier *v) {
  size_t length = ts_unsigned_length(v->bytes, v->length);
  if (length == v->length) return;
  char *plain = ts_arena_printf(v->s->arena, "%.*s</assessment>\n", (int)length, v->bytes);
  v->bytes = plain;
  v->length = strlen(plain);
}

static bool check_signatures(verifier *v) {
  ts_look_over l = {.s = v->s};
  const char *trust = v->options.trust, *authorities = NULL;
  if (trust != NULL)
    authorities = ts_file_read(v->s->arena, trust, KEY_LIMIT, NULL, v->s->problems);
  if (trust != NULL && authorities == NULL) return false;
  size_t before = ts_count(v->s->problems, TS_ERROR);
  size_t count = ts_signatures("assessment", v->bytes, v->length, v->path, authorities,
                               v->options.on, signature_show, &l, v->s->problems);
  if (count == 0 && ts_count(v->s->problems, TS_ERROR) == before) puts("not signed");
  v->broken = l.broken + (ts_count(v->s->problems, TS_ERROR) - before);
  strip(v);
  return true;
}

/* The documents in its folder, where a folder was given. */
static bool check_papers(verifier *v) {
  const char *folder = v->options.words[0];
  papers_count *n = &v->papers;
  if (!ts_folder_exists(folder)) return true;
  bool good = papers_verify(v->s, &v->options, folder, v->bytes, v->length, n);
  if (good && n->looked + n->wrong > 0)
    printf("%zu document%s looked at: %zu altered, missing or of another assessment%s\n", n->looked,
           plural(n->looked), n->wrong,
           n->untold > 0
               ? ts_arena_printf(v->s->arena, "; of %zu it cannot be told here", n->untold)
               : "");
  return good;
}

static bool check_facts(verifier *v, size_t *count) {
  char *expected = NULL;
  size_t length = 0;
  bool good = assess_again(v, &expected, &length) &&
              ts_assessment_differences(v->bytes, v->length, expected, length, v->path, SHOWN,
                                        count, v->s->problems);
  free(expected);
  if (good && *count == 0)
    printf("%s follows from %s and the rules it names\n", v->path, v->options.dossier);
  if (good && *count > 0)
    printf("%s does not follow from %s: %zu difference%s%s\n", v->path, v->options.dossier, *count,
           plural(*count), *count > SHOWN ? ", the first 20 of them listed" : "");
  return good;
}

static int verify(verifier *v) {
  size_t count = 0;
  if (!read_assessment(v) || !check_signatures(v)) return NOT_DONE;
  bool facts = check_facts(v, &count), documents = check_papers(v);
  if (!facts || !documents) return NOT_DONE;
  return count + v->broken + v->papers.wrong == 0 ? DONE : LOOK;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  verifier v = {.s = &s, .options = *options};
  int status = NOT_DONE;
  if (session_open(&s))
    status = names_pack(&s, options->words[0]) ? pack_verify(&s, options) : verify(&v);
  session_close(&s);
  return status;
}

const ts_verb verb_verify = {
    .name = "verify",
    .usage = "verify ASSESSMENT|PACK [--dossier FILE] [--pack DIR]... [--trust FILE] [--on DATE] "
             "[--no-pdf]",
    .summary = "does an assessment follow from the facts and rules it names?",
    .details =
        "Assesses the dossier again, with the values that were set for that run, and holds\n"
        "the result against the assessment: every file's digest, every fact, score, margin\n"
        "and word. Each place that differs is named with its line, what was found and what\n"
        "follows. The dossier is looked for beside the assessment and one folder above;\n"
        "packs that were given then are to be given again.\n\n"
        "  tankside verify paper --dossier dossier.xml\n\n"
        "Of each signature it says who signed, when and as whom, and whether anything was\n"
        "altered since; whose certificate it is, the authorities in --trust vouch for, as of\n"
        "today or the day in --on.\n\n"
        "Given the folder, it also makes each document in it again and names what was\n"
        "altered, down to the element, what is missing, and what was made from another\n"
        "assessment. A PDF is set again too, which takes a while and needs the same\n"
        "WeasyPrint and typefaces; --no-pdf leaves that out.\n\n"
        "Of a pack, a folder or a ZIP, it says who signed it, and names each rule file that\n"
        "was altered, went missing or was added since; 1 too where nobody signed it.\n\n"
        "That it follows says nothing of whether the facts are so.\n\n"
        "Exit status: 0 it follows, 1 it does not, 2 it could not be tried.",
    .takes =
        OPTION_DOSSIER | OPTION_PACK | OPTION_MATRIX | OPTION_TRUST | OPTION_ON | OPTION_NO_PDF,
    .least = 1,
    .most = 1,
    .kinds = {AN_ASSESSMENT},
    .needs = WRITES_SCRATCH | RUNS_WEASYPRINT,
    .run = run};
