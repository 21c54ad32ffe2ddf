/* Packs that are signed: signing one, looking at who did, and holding one that is loaded against
 * it. */
#ifndef TS_COMMAND_SIGNED_PACK_H
#define TS_COMMAND_SIGNED_PACK_H

#include "command/command.h"
#include "tankside/sign.h"

/* Whether a word names a pack and not an assessment: an archive, or a folder with rules in it. */
bool names_pack(ts_session *s, const char *path);

/* What is to be signed of a pack: the file with its signatures, or what it is to be begun with.
 * False with a report, also where those that signed before signed something else. */
bool pack_to_sign(ts_session *s, const char *pack, const char **bytes, size_t *length);

/* Says who signed a pack and names each file that is another since. */
int pack_verify(ts_session *s, const ts_options *options);

/* Whether a pack just loaded from `path` under the name `as` is what was signed; true where nobody
 * signed it. Who signed is kept with the packs. False with reports. */
bool pack_holds(ts_session *s, const char *path, const char *as);

/* A line for each signature: who, when, as whom, and what the reader may make of it. */
typedef struct {
  ts_session *s;
  size_t broken; /* how many do not hold */
} ts_look_over;
void signature_show(void *look_over, const ts_signature *one);

#endif
