/* Looking at signatures: intact or not, and whose. */
#include "tankside/sign.h"

#include "base/xml.h"
#include "document/signature.h"
#include "document/transform.h"
#include "quantity/calendar.h"

#include <openssl/x509.h>
#include <string.h>
#include <xmlsec/crypto.h>
#include <xmlsec/openssl/x509.h>
#include <xmlsec/xmldsig.h>
#include <xmlsec/xmlsec.h>

typedef struct {
  ts_arena *arena;
  const char *name, *authorities;
  time_t on; /* certificates are judged as of then; 0: today */
  ts_diagnostics *problems;
} looking;

static const char dsig[] = "http://www.w3.org/2000/09/xmldsig#";

static bool is_signature(const xmlNode *node) {
  return node->type == XML_ELEMENT_NODE && ts_same((const char *)node->name, "Signature") &&
         node->ns != NULL && ts_same((const char *)node->ns->href, dsig);
}

static const char *text_of(looking *l, xmlNode *node) {
  xmlBuffer *buffer = xmlBufferCreate();
  const char *text = "";
  if (buffer != NULL && xmlNodeDump(buffer, node->doc, node, 0, 0) > 0)
    text = ts_arena_copy(l->arena, (const char *)xmlBufferContent(buffer));
  xmlBufferFree(buffer);
  return text;
}

/* ---- the certificate ------------------------------------------------------------------- */

static X509 *certificate_of(xmlSecDSigCtx *context) {
  xmlSecKeyData *data =
      context->signKey ? xmlSecKeyGetData(context->signKey, xmlSecKeyDataX509Id) : NULL;
  return data ? xmlSecOpenSSLKeyDataX509GetKeyCert(data) : NULL;
}

static const char *subject_of(looking *l, X509 *certificate) {
  BIO *memory = BIO_new(BIO_s_mem());
  char *text = NULL;
  const char *kept = "";
  if (memory != NULL && X509_NAME_print_ex(memory, X509_get_subject_name(certificate), 0,
                                           XN_FLAG_ONELINE & ~ASN1_STRFLGS_ESC_MSB) > 0) {
    long length = BIO_get_mem_data(memory, &text);
    kept = ts_arena_copy_n(l->arena, text, (size_t)length);
  }
  BIO_free(memory);
  return kept;
}

static bool is_current(const looking *l, X509 *certificate) {
  time_t on = l->on, *when = on != 0 ? &on : NULL;
  return X509_cmp_time(X509_get0_notBefore(certificate), when) < 0 &&
         X509_cmp_time(X509_get0_notAfter(certificate), when) > 0;
}

/* Noon of a day: a certificate holds on its first and last day if it does then. */
static time_t noon(const char *on) {
  ts_date date;
  if (!on || !ts_date_read(on, &date)) return 0;
  return (time_t)(ts_day_number(date) * 86400 + 43200);
}

/* ---- one signature --------------------------------------------------------------------- */

static xmlSecKeysMngr *manager(looking *l) {
  xmlSecKeysMngr *keys = xmlSecKeysMngrCreate();
  if (keys == NULL || xmlSecCryptoAppDefaultKeysMngrInit(keys) < 0) return NULL;
  if (l->authorities != NULL &&
      xmlSecCryptoAppKeysMngrCertLoadMemory(keys, (const xmlSecByte *)l->authorities,
                                            (xmlSecSize)strlen(l->authorities),
                                            xmlSecKeyDataFormatPem, xmlSecKeyDataTypeTrusted) < 0)
    ts_report(l->problems, TS_ERROR, l->name, 0, "the authorities are no certificates in PEM");
  return keys;
}

/* Whether the signature holds, with the key of its own certificate; `vouched`: only if one of the
 * authorities vouches for that. */
static bool holds(looking *l, xmlNode *node, bool vouched, ts_signature *into) {
  xmlSecKeysMngr *keys = manager(l);
  xmlSecDSigCtx *context = keys ? xmlSecDSigCtxCreate(keys) : NULL;
  bool good = false;
  if (context != NULL) {
    context->enabledReferenceUris =
        xmlSecTransformUriTypeEmpty | xmlSecTransformUriTypeSameDocument;
    xmlSecPtrListAdd(&context->keyInfoReadCtx.enabledKeyData, (void *)xmlSecKeyDataX509Id);
    context->keyInfoReadCtx.certsVerificationTime = l->on;
    if (!vouched) context->keyInfoReadCtx.flags |= XMLSEC_KEYINFO_FLAGS_X509DATA_DONT_VERIFY_CERTS;
    good = xmlSecDSigCtxVerify(context, node) >= 0 && context->status == xmlSecDSigStatusSucceeded;
    X509 *certificate = certificate_of(context);
    if (good && certificate != NULL && !vouched) {
      into->who = subject_of(l, certificate);
      into->certificate =
          is_current(l, certificate) ? TS_CERTIFICATE_UNTRUSTED : TS_CERTIFICATE_EXPIRED;
    }
    xmlSecDSigCtxDestroy(context);
  }
  if (keys != NULL) xmlSecKeysMngrDestroy(keys);
  return good;
}

/* Of the form we write, and the `number`-th: so that no id means two things. */
static bool has_form(looking *l, xmlNode *node, size_t number, ts_signature *into) {
  const char *parts[TS_SIGN_PARTS];
  if (!ts_signature_parts(l->arena, text_of(l, node), parts)) return false;
  const char *own = ts_arena_printf(l->arena, "%zu", number);
  into->on = parts[TS_SIGN_ON];
  into->as = parts[TS_SIGN_AS];
  return ts_same(parts[TS_SIGN_REFERS], own) && ts_same(parts[TS_SIGN_ID], own);
}

static ts_signature look(looking *l, xmlNode *node, size_t number) {
  ts_signature one = {TS_SIGNATURE_FORM, TS_CERTIFICATE_UNTRUSTED, "", "", ""};
  if (!has_form(l, node, number, &one)) return one;
  ts_signature_ids(node);
  one.state = holds(l, node, false, &one) ? TS_SIGNATURE_INTACT : TS_SIGNATURE_ALTERED;
  if (one.state == TS_SIGNATURE_INTACT && one.certificate != TS_CERTIFICATE_EXPIRED &&
      l->authorities != NULL && holds(l, node, true, &one))
    one.certificate = TS_CERTIFICATE_TRUSTED;
  return one;
}

/* ---- all of them ----------------------------------------------------------------------- */

/* Signatures stand last in the root: what stands in one is covered by none. */
static bool stand_last(looking *l, const xmlNode *root, const ts_xml *xml) {
  bool begun = false;
  for (const xmlNode *child = root->children; child != NULL; child = child->next) {
    if (child->type != XML_ELEMENT_NODE) continue;
    if (begun && !is_signature(child)) {
      ts_report(l->problems, TS_ERROR, l->name, ts_xml_line(xml, child),
                "<%s> after a signature; signatures stand last", (const char *)child->name);
      return false;
    }
    begun = begun || is_signature(child);
  }
  return true;
}

static size_t look_at_all(looking *l, const ts_xml *xml,
                          void (*visit)(void *context, const ts_signature *one), void *context) {
  size_t count = 0;
  if (!stand_last(l, ts_xml_root(xml), xml)) return 0;
  for (xmlNode *child = ts_xml_root(xml)->children; child != NULL; child = child->next) {
    if (!is_signature(child)) continue;
    ts_signature one = look(l, child, ++count);
    visit(context, &one);
  }
  return count;
}

size_t ts_signatures(const char *kind, const char *document, size_t length, const char *name,
                     const char *authorities, const char *on,
                     void (*visit)(void *context, const ts_signature *one), void *context,
                     ts_diagnostics *problems) {
  looking l = {NULL, name, authorities, noon(on), problems};
  ts_xml *xml = ts_document_open_as(kind, document, length, name, problems);
  size_t count = 0;
  if (xml != NULL && ts_signing_begin()) {
    l.arena = ts_arena_new();
    count = look_at_all(&l, xml, visit, context);
    ts_arena_free(l.arena);
    ts_signing_end();
  }
  ts_xml_free(xml);
  return count;
}
