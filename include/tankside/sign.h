/* Signing: who agreed to an assessment or a pack, and whether it is still what they agreed to.
 *
 * A signature is an XML-Signature inside assessment.xml, or inside the file that lists what a pack
 * holds, after everything else; several people may sign. It covers every byte of meaning in the
 * document (all but other signatures), the day and the role in which somebody signed. Keys and certificates are the user's own, PEM (RFC 7468);
 * tankside makes none. That a signature is intact says that nothing changed since; who its
 * certificate belongs to is vouched for only by an authority that the reader names. */
#ifndef TANKSIDE_SIGN_H
#define TANKSIDE_SIGN_H

#include "tankside/diagnostics.h"
#include <stdbool.h>
#include <stddef.h>

typedef struct {
  const char *key, *key_name; /* private key, PEM; and its file's name, for messages */
  const char *certificate, *certificate_name; /* of that key, PEM */
  const char *on;                             /* "2027-03-08" */
  const char *as;                             /* "safety officer"; no < > & or " in it */
} ts_signer;

/* Adds a signature to a document whose root is `kind`: "assessment" or "pack". RSA keys sign with RSA-SHA256, elliptic ones with ECDSA-SHA256. An encrypted
 * key asks for its pass phrase at the terminal. *out is NUL-terminated, for free(). False with a
 * report when the document, the key or the certificate cannot be used. */
bool ts_sign(const char *kind, const char *document, size_t length, const char *name,
             const ts_signer *signer, char **out, size_t *out_length, ts_diagnostics *problems);

typedef enum {
  TS_SIGNATURE_ALTERED, /* the document or the signature is not what was signed */
  TS_SIGNATURE_FORM,    /* not a signature as tankside writes them: nothing is known */
  TS_SIGNATURE_INTACT
} ts_signature_state;

typedef enum {
  TS_CERTIFICATE_UNTRUSTED, /* no authority that was named vouches for it */
  TS_CERTIFICATE_EXPIRED,   /* or not valid yet, on that day */
  TS_CERTIFICATE_TRUSTED
} ts_certificate_state;

typedef struct {
  ts_signature_state state;
  ts_certificate_state certificate; /* where it is intact */
  const char *who;     /* the certificate's subject: "CN = A. Officer, O = ..."; or "" */
  const char *on, *as; /* as signed; "" where the form is another */
} ts_signature;

/* Calls `visit` for each signature of a document whose root is `kind`, in order; texts live only during the call.
 * `authorities` are certificates (PEM, one file's text) that the reader trusts, or NULL; `on` is the
 * day as of which certificates are judged ("2027-10-08"), or NULL: today. Gives how many there
 * are; 0 with a report when the document cannot be read, or when a signature stands elsewhere than
 * last. */
size_t ts_signatures(const char *kind, const char *document, size_t length, const char *name,
                     const char *authorities, const char *on,
                     void (*visit)(void *context, const ts_signature *one), void *context,
                     ts_diagnostics *problems);

/* How long a document is without its signatures: its text up to there, and the end tag of its root
 * and a line end after it, is what was written before anybody signed. `length` where there are none. */
size_t ts_unsigned_length(const char *document, size_t length);

/* SHA-256 of what was written before anybody signed: papers carry it, so that they name the
 * assessment they were made from, signed or not. Hexadecimal, into `out`, which is given back. */
char *ts_assessment_digest(const char *assessment, size_t length, char out[65]);

#endif
