/* The form of a signature over an assessment or a pack: what is written, and what is accepted.
 *
 * XML-Signature (W3C, XML Signature Syntax and Processing 1.1, 2013) with XML-Signature XPath
 * Filter 2.0 (W3C, 2002). Signatures are the last children of the root. Each covers the whole
 * document less its signatures, so that several people sign the same thing, and what it says of
 * itself: when, as whom, and with which certificate. Nothing else is accepted: no other transform, no other reference,
 * no key but that of the certificate inside. Stage-internal; the public door is tankside/sign.h. */
#ifndef TS_DOCUMENT_SIGNATURE_H
#define TS_DOCUMENT_SIGNATURE_H

#include "base/arena.h"
#include "base/text.h"
#include <libxml/tree.h>

/* What differs from one signature to the next, in the order of the text. */
typedef enum {
  TS_SIGN_METHOD,
  TS_SIGN_DIGEST,
  TS_SIGN_REFERS,
  TS_SIGN_OWN_DIGEST,
  TS_SIGN_VALUE,
  TS_SIGN_CERTIFICATES,
  TS_SIGN_ID,
  TS_SIGN_ON,
  TS_SIGN_AS,
  TS_SIGN_CERTIFICATE, /* SHA-256 of the certificate: else its own text could be changed */
  TS_SIGN_PARTS
} ts_sign_part;

/* The text of a signature with these parts; a NULL part is left empty. */
void ts_signature_text(const char *const parts[TS_SIGN_PARTS], ts_text *out);

/* Takes such a text apart. False when it is not of this form: every byte is as it is written here, each
 * number in base64 too, which could be written in several ways. */
bool ts_signature_parts(ts_arena *arena, const char *text, const char *parts[TS_SIGN_PARTS]);

/* The library for signatures, ready and silent; end it for each that began. */
bool ts_signing_begin(void);
void ts_signing_end(void);

/* Makes the ids inside a signature known to its document. */
void ts_signature_ids(xmlNode *signature);

#endif
