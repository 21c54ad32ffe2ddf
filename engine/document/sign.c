/* Making a signature. */
#include "tankside/sign.h"

#include "base/digest.h"
#include "base/xml.h"
#include "document/signature.h"
#include "document/transform.h"

#include <openssl/pem.h>
#include <openssl/x509.h>
#include <stdio.h>
#include <string.h>
#include <xmlsec/crypto.h>
#include <xmlsec/xmldsig.h>
#include <xmlsec/xmlsec.h>

static const char start_tag[] = "<Signature ";

/* No '<' stands in a text or attribute of ours: a start tag found is an element. */
size_t ts_unsigned_length(const char *document, size_t length) {
  const char *at = memmem(document, length, start_tag, sizeof start_tag - 1);
  return at != NULL ? (size_t)(at - document) : length;
}

static size_t count_of(const char *text, const char *what) {
  size_t count = 0;
  for (const char *at = text; (at = strstr(at, what)) != NULL; at++) count++;
  return count;
}

/* ---- the key ------------------------------------------------------------------------------ */

static xmlSecKey *load_key(const ts_signer *signer, ts_diagnostics *problems) {
  xmlSecKey *key =
      xmlSecCryptoAppKeyLoadMemory((const xmlSecByte *)signer->key, (xmlSecSize)strlen(signer->key),
                                   xmlSecKeyDataFormatPem, NULL, NULL, NULL);
  if (key == NULL) {
    ts_report(problems, TS_ERROR, signer->key_name, 0, "not a private key in PEM");
    return NULL;
  }
  if (xmlSecCryptoAppKeyCertLoadMemory(key, (const xmlSecByte *)signer->certificate,
                                       (xmlSecSize)strlen(signer->certificate),
                                       xmlSecKeyDataFormatPem) >= 0)
    return key;
  ts_report(problems, TS_ERROR, signer->certificate_name, 0, "not a certificate in PEM");
  xmlSecKeyDestroy(key);
  return NULL;
}

/* Over its DER form, which is what the signature carries in base64. */
static const char *certificate_digest(const ts_signer *signer, char digest[65]) {
  BIO *memory = BIO_new_mem_buf(signer->certificate, -1);
  X509 *certificate = memory ? PEM_read_bio_X509(memory, NULL, NULL, NULL) : NULL;
  unsigned char *der = NULL;
  int length = certificate ? i2d_X509(certificate, &der) : 0;
  digest[0] = '\0';
  if (length > 0) ts_digest((const char *)der, (size_t)length, digest);
  OPENSSL_free(der);
  X509_free(certificate);
  BIO_free(memory);
  return digest;
}

static const char *method_for(xmlSecKey *key) {
  const xmlSecKeyData *value = xmlSecKeyGetValue(key);
  if (xmlSecKeyDataCheckId(value, xmlSecKeyDataRsaId))
    return "http://www.w3.org/2001/04/xmldsig-more#rsa-sha256";
  if (xmlSecKeyDataCheckId(value, xmlSecKeyDataEcdsaId))
    return "http://www.w3.org/2001/04/xmldsig-more#ecdsa-sha256";
  return NULL;
}

/* ---- the signature -------------------------------------------------------------------------- */

/* What is to be signed: the root is `kind`. */
typedef struct {
  const char *kind, *text;
  size_t length;
  const char *name;
} document;

/* Its text with `piece` put in before its end tag. */
static bool put_in(const document *d, const char *piece, ts_text *out) {
  const char *text = d->text, *end = NULL;
  char end_tag[32];
  snprintf(end_tag, sizeof end_tag, "</%s>", d->kind);
  for (const char *at = text;
       (at = memmem(at, d->length - (size_t)(at - text), end_tag, strlen(end_tag))); at++)
    end = at;
  if (end == NULL) return false;
  ts_text_add_n(out, text, (size_t)(end - text));
  ts_text_add(out, piece); /* no blank around it: that would be under an earlier signature */
  ts_text_add(out, end);
  return true;
}

static xmlNode *last_element(const ts_xml *xml) {
  xmlNode *node = ts_xml_root(xml)->last;
  while (node != NULL && node->type != XML_ELEMENT_NODE) node = node->prev;
  return node;
}

/* Fills the empty signature that stands last; its text then. */
static bool fill(const ts_xml *xml, xmlSecKey *key, ts_text *out) {
  xmlNode *node = last_element(xml);
  xmlSecDSigCtx *context = xmlSecDSigCtxCreate(NULL);
  if (context == NULL) {
    xmlSecKeyDestroy(key);
    return false;
  }
  context->signKey = key; /* the context owns it from here */
  ts_signature_ids(node);
  bool good = xmlSecDSigCtxSign(context, node) >= 0 && context->status == xmlSecDSigStatusSucceeded;
  xmlSecDSigCtxDestroy(context);
  xmlBuffer *buffer = good ? xmlBufferCreate() : NULL;
  if (buffer != NULL && xmlNodeDump(buffer, node->doc, node, 0, 0) > 0)
    ts_text_add(out, (const char *)xmlBufferContent(buffer));
  xmlBufferFree(buffer);
  return out->length > 0;
}

static bool sign_with(const document *d, const ts_signer *signer, xmlSecKey *key, ts_text *out,
                      ts_diagnostics *problems) {
  ts_text empty = {0}, unfilled = {0}, filled = {0};
  char number[24], certificate[65];
  snprintf(number, sizeof number, "%zu", count_of(d->text, start_tag) + 1);
  const char *parts[TS_SIGN_PARTS] = {[TS_SIGN_METHOD] = method_for(key),
                                      [TS_SIGN_REFERS] = number,
                                      [TS_SIGN_ID] = number,
                                      [TS_SIGN_ON] = signer->on,
                                      [TS_SIGN_AS] = signer->as,
                                      [TS_SIGN_CERTIFICATES] = "<X509Certificate/>",
                                      [TS_SIGN_CERTIFICATE] =
                                          certificate_digest(signer, certificate)};
  ts_signature_text(parts, &empty);
  bool good = put_in(d, empty.data, &unfilled);
  ts_xml *xml =
      good ? ts_document_open_as(d->kind, unfilled.data, unfilled.length, d->name, problems) : NULL;
  if (xml == NULL) xmlSecKeyDestroy(key);
  good = xml != NULL && fill(xml, key, &filled) && put_in(d, filled.data, out);
  if (xml != NULL && !good)
    ts_report(problems, TS_ERROR, signer->key_name, 0, "the key could not sign");
  ts_xml_free(xml);
  ts_text_release(&empty);
  ts_text_release(&unfilled);
  ts_text_release(&filled);
  return good;
}

static bool fit_to_sign(const document *d, const ts_signer *signer, ts_diagnostics *problems) {
  ts_xml *xml = ts_document_open_as(d->kind, d->text, d->length, d->name, problems);
  ts_xml_free(xml);
  if (strpbrk(signer->on, "<>&\"") || strpbrk(signer->as, "<>&\"")) {
    ts_report(problems, TS_ERROR, d->name, 0,
              "the day and the role of a signature hold no < > & or \"");
    return false;
  }
  return xml != NULL;
}

/* A certificate that is not the key's is seen by what it makes: a signature that does not hold. */
static void note_last(void *context, const ts_signature *one) {
  *(bool *)context = one->state == TS_SIGNATURE_INTACT;
}

static bool made_well(const document *d, const ts_text *made, const ts_signer *signer,
                      ts_diagnostics *problems) {
  bool intact = false;
  ts_signatures(d->kind, made->data, made->length, d->name, NULL, NULL, note_last, &intact,
                problems);
  if (!intact)
    ts_report(problems, TS_ERROR, signer->certificate_name, 0,
              "not the certificate of the key in \"%s\"", signer->key_name);
  return intact;
}

bool ts_sign(const char *kind, const char *text, size_t length, const char *name,
             const ts_signer *signer, char **out, size_t *out_length, ts_diagnostics *problems) {
  document d = {kind, text, length, name};
  ts_text made = {0};
  *out = NULL;
  if (!fit_to_sign(&d, signer, problems)) return false;
  if (!ts_signing_begin()) {
    ts_report(problems, TS_ERROR, "tankside", 0, "the library for signatures does not start");
    return false;
  }
  xmlSecKey *key = load_key(signer, problems);
  bool good = key != NULL;
  if (good && method_for(key) == NULL) {
    ts_report(problems, TS_ERROR, signer->key_name, 0, "neither an RSA nor an elliptic-curve key");
    xmlSecKeyDestroy(key);
    good = false;
  }
  good = good && sign_with(&d, signer, key, &made, problems);
  ts_signing_end();
  good = good && made_well(&d, &made, signer, problems);
  if (!good) return ts_text_release(&made), false;
  *out = made.data;
  *out_length = made.length;
  return true;
}
