#include "command/signed_pack.h"

#include "base/file.h"
#include "base/text.h"
#include "document/pack_signature.h"
#include <stdio.h>

bool names_pack(ts_session *s, const char *path) {
  if (!ts_folder_exists(path)) return ts_pack_exists(path);
  if (ts_file_exists(assessment_path(s, path))) return false;
  char **rules = ts_folder_list(s->arena, path, ".lua", s->problems);
  return rules != NULL && rules[0] != NULL;
}

/* ---- signing ------------------------------------------------------------------------------- */

static void no_matter(void *context, const ts_signature *one) {
  (void)context;
  (void)one;
}

bool pack_to_sign(ts_session *s, const char *pack, const char **bytes, size_t *length) {
  ts_pack_list list;
  ts_pack_signed file;
  if (!ts_pack_list_read(s->arena, pack, &list, s->problems) ||
      !ts_pack_signed_read(s->arena, pack, &file, s->problems))
    return false;
  ts_text text = {0};
  if (file.path == NULL) {
    ts_pack_list_text(&list, &text);
    file = (ts_pack_signed){pack, ts_arena_copy_n(s->arena, text.data, text.length), text.length};
    ts_text_release(&text);
  } else if (!ts_pack_signed_holds(&file, &list, pack, no_matter, NULL, s->problems)) {
    return false;
  }
  *bytes = file.text;
  *length = file.length;
  return true;
}

/* ---- looking ------------------------------------------------------------------------------- */

void signature_show(void *look_over, const ts_signature *one) {
  static const char *const certificates[] = {
      "intact; nobody you named vouches for the certificate: untrusted",
      "intact; the certificate is not valid on that day: expired, or not valid yet",
      "intact, and vouched for"};
  ts_look_over *l = look_over;
  bool intact = one->state == TS_SIGNATURE_INTACT;
  const char *state = one->state == TS_SIGNATURE_ALTERED ? "altered: this is not what was signed"
                      : intact                           ? certificates[one->certificate]
                               : "not a signature that tankside made: nothing is known of it";
  if (!intact) l->broken++;
  print_folded("signed  ",
               ts_arena_printf(l->s->arena, "%s%s%s%s%s: %s",
                               one->who[0] ? one->who : "by somebody", one->as[0] ? ", " : "",
                               one->as, one->on[0] ? ", " : "", one->on, state));
}

static int look_at(ts_session *s, const ts_options *options, const ts_pack_list *list,
                   const ts_pack_signed *file) {
  ts_look_over l = {.s = s};
  const char *pack = options->words[0], *authorities = NULL;
  size_t differences = 0;
  if (options->trust != NULL)
    authorities = ts_file_read(s->arena, options->trust, KEY_LIMIT, NULL, s->problems);
  if ((options->trust != NULL && authorities == NULL) ||
      !ts_pack_signed_differs(file, list, pack, &differences, s->problems))
    return NOT_DONE;
  if (ts_signatures("pack", file->text, file->length, file->path, authorities, options->on,
                    signature_show, &l, s->problems) == 0)
    return NOT_DONE;
  if (differences + l.broken == 0)
    printf("%s: %zu rule file%s, as signed\n", pack, list->count, plural(list->count));
  return differences + l.broken == 0 ? DONE : LOOK;
}

int pack_verify(ts_session *s, const ts_options *options) {
  ts_pack_list list;
  ts_pack_signed file;
  if (!ts_pack_list_read(s->arena, options->words[0], &list, s->problems) ||
      !ts_pack_signed_read(s->arena, options->words[0], &file, s->problems))
    return NOT_DONE;
  if (file.path != NULL) return look_at(s, options, &list, &file);
  puts("not signed");
  return LOOK;
}

/* ---- loading ------------------------------------------------------------------------------- */

typedef struct {
  ts_session *s;
  const char *as;
} keeping;

static void keep_signer(void *context, const ts_signature *one) {
  keeping *k = context;
  ts_pack_signer signer = {k->as, one->who, one->on, one->as};
  ts_pack_signer_add(k->s->packs, &signer);
}

bool pack_holds(ts_session *s, const char *path, const char *as) {
  keeping k = {s, as};
  ts_pack_signed file;
  if (!ts_pack_is_loaded(s->packs, as)) return true; /* it could not be: that was said */
  if (!ts_pack_signed_read(s->arena, path, &file, s->problems)) return false;
  if (file.path == NULL) return true;
  ts_pack_list list = ts_pack_list_loaded(s->packs, s->arena, path, as);
  return ts_pack_signed_holds(&file, &list, path, keep_signer, &k, s->problems);
}
