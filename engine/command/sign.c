/* tankside sign: somebody agrees to an assessment as it stands, or stands for a pack. */
#include "tankside/sign.h"

#include "base/file.h"
#include "base/text.h"
#include "command/output.h"
#include "command/signed_pack.h"
#include "rule/rule.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int lacking(const ts_options *options) {
  const struct {
    const char *value, *name;
  } needed[] = {{options->key, "--key FILE"},
                {options->certificate, "--certificate FILE"},
                {options->on, "--on DATE"},
                {options->role, "--role TEXT"}};
  for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
    if (needed[i].value == NULL) return usage_error("a signature needs %s", needed[i].name);
  return DONE;
}

/* What is to be signed, and where it stands. */
typedef struct {
  const char *kind, *path, *bytes;
  size_t length;
} to_sign;

static bool find(ts_session *s, const char *word, to_sign *what) {
  bool pack = names_pack(s, word);
  what->kind = pack ? "pack" : "assessment";
  what->path = pack ? ts_pack_signed_path(s->arena, word) : assessment_path(s, word);
  if (pack) return pack_to_sign(s, word, &what->bytes, &what->length);
  what->bytes = ts_file_read(s->arena, what->path, ASSESSMENT_LIMIT, &what->length, s->problems);
  return what->bytes != NULL;
}

static bool sign(ts_session *s, const ts_options *options) {
  to_sign what;
  size_t signed_length;
  bool found = find(s, options->words[0], &what);
  ts_signer signer = {
      .key = ts_file_read(s->arena, options->key, KEY_LIMIT, NULL, s->problems),
      .key_name = options->key,
      .certificate = ts_file_read(s->arena, options->certificate, KEY_LIMIT, NULL, s->problems),
      .certificate_name = options->certificate,
      .on = options->on,
      .as = options->role};
  char *made;
  if (!found || signer.key == NULL || signer.certificate == NULL ||
      !ts_sign(what.kind, what.bytes, what.length, what.path, &signer, &made, &signed_length,
               s->problems))
    return false;
  const char *out = options->out != NULL ? options->out : what.path;
  /* Where it is signed in place nothing is lost: the signature is added to what is there. */
  bool good = ts_path_same(out, what.path) ? ts_file_write(out, made, signed_length, s->problems)
                                           : output_file(s, options, out, made, signed_length);
  free(made);
  if (good) printf("signed: %s\n", out);
  return good;
}

static int run(const ts_options *options) {
  ts_session s = {0};
  int status = lacking(options);
  if (status != DONE) return status;
  s.arena = ts_arena_new();
  s.problems = ts_diagnostics_new();
  status = sign(&s, options) ? DONE : NOT_DONE;
  session_close(&s);
  return status;
}

const ts_verb verb_sign = {
    .name = "sign",
    .usage = "sign ASSESSMENT|PACK --key FILE --certificate FILE --on DATE --role TEXT [-o FILE]",
    .summary = "put a signature to an assessment, or to a pack of rules",
    .details =
        "Adds an XML-Signature (W3C) to assessment.xml, or writes the signed one to -o FILE.\n"
        "It covers everything the assessment says, and the day and role given here. Several\n"
        "people may sign, one after another. Key and certificate are your own, in PEM; the\n"
        "day is what you say it is, no clock is asked.\n\n"
        "  tankside sign paper --key me.pem --certificate me.crt --on 2027-03-08 \\\n"
        "    --role 'safety officer'\n"
        "  tankside verify paper --trust company.crt\n\n"
        "A pack is a folder of rules or the same as a ZIP. What is signed is the list of its\n"
        "rule files with the SHA-256 of each, and its name: PACK/signatures.xml, beside an\n"
        "archive PACK.zip.signatures.xml. An archive of a signed folder has it inside. A pack\n"
        "that is not what was signed is refused by every command that would use it.\n\n"
        "Exit status: 0 signed, 2 not, and then nothing is written.",
    .takes = OPTION_KEY | OPTION_CERTIFICATE | OPTION_ON | OPTION_ROLE | OPTION_OUT | OPTION_FORCE,
    .least = 1,
    .most = 1,
    .kinds = {AN_ASSESSMENT},
    .needs = WRITES_OUT | WRITES_FIRST,
    .run = run};
