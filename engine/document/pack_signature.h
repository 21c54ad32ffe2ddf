/* The file with a pack's signatures: what is written, and what is accepted.
 *
 *   <pack format="1" name="ledge"><file name="01-ledge.lua" sha256="..."/>...<Signature
 * .../>...</pack>
 *
 * Rule files in byte order, each once; then signatures (document/signature.h). Every byte before
 * them is as it is written here. Stage-internal. */
#ifndef TS_DOCUMENT_PACK_SIGNATURE_H
#define TS_DOCUMENT_PACK_SIGNATURE_H

#include "base/text.h"
#include "rule/rule.h"
#include "tankside/sign.h"

/* The text before anybody signed. */
void ts_pack_list_text(const ts_pack_list *list, ts_text *out);

/* Holds the list that was signed against a pack that is now: a report for each file that was
 * altered, is missing or was added, and for another name where it has one; *differences is how many
 * there are. `path` is the pack's, for messages. False with a report when the file is not of the
 * form above. */
bool ts_pack_signed_differs(const ts_pack_signed *file, const ts_pack_list *is, const char *path,
                            size_t *differences, ts_diagnostics *problems);

/* For a pack that is loaded: true when it is what was signed, and every signature is intact; calls
 * `visit` for each then. False with reports that name what is not. */
bool ts_pack_signed_holds(const ts_pack_signed *file, const ts_pack_list *is, const char *path,
                          void (*visit)(void *context, const ts_signature *one), void *context,
                          ts_diagnostics *problems);

#endif
