#include "document/signature.h"

#include "base/digest.h"

#include <limits.h>
#include <openssl/evp.h>
#include <string.h>
#include <xmlsec/crypto.h>
#include <xmlsec/errors.h>
#include <xmlsec/xmlsec.h>
#include <xmlsec/xmltree.h>

#define CANONICAL "<Transform Algorithm=\"http://www.w3.org/2001/10/xml-exc-c14n#\"/>"
#define SHA256 "<DigestMethod Algorithm=\"http://www.w3.org/2001/04/xmlenc#sha256\"/>"

/* What stands before each part, and after the last. */
static const char *const fixed[TS_SIGN_PARTS + 1] = {
    ("<Signature xmlns=\"http://www.w3.org/2000/09/xmldsig#\">\n<SignedInfo>\n"
     "<CanonicalizationMethod Algorithm=\"http://www.w3.org/2001/10/xml-exc-c14n#\"/>\n"
     "<SignatureMethod Algorithm=\""),
    ("\"/>\n<Reference URI=\"\">\n<Transforms>\n"
     "<Transform Algorithm=\"http://www.w3.org/2002/06/xmldsig-filter2\">"
     "<XPath xmlns=\"http://www.w3.org/2002/06/xmldsig-filter2\" "
     "xmlns:ds=\"http://www.w3.org/2000/09/xmldsig#\" Filter=\"subtract\">/*/ds:Signature</XPath>"
     "</Transform>\n" CANONICAL "\n</Transforms>\n" SHA256 "\n<DigestValue>"),
    "</DigestValue>\n</Reference>\n<Reference URI=\"#signed-",
    ("\">\n<Transforms>\n" CANONICAL "\n</Transforms>\n" SHA256 "\n<DigestValue>"),
    "</DigestValue>\n</Reference>\n</SignedInfo>\n<SignatureValue>",
    "</SignatureValue>\n<KeyInfo>\n<X509Data>",
    "</X509Data>\n</KeyInfo>\n<Object Id=\"signed-",
    ("\"><SignatureProperties><SignatureProperty Target=\"\">"
     "<on xmlns=\"urn:tankside:signature\">"),
    "</on><as xmlns=\"urn:tankside:signature\">",
    "</as><certificate xmlns=\"urn:tankside:signature\">",
    "</certificate></SignatureProperty></SignatureProperties></Object>\n</Signature>"};

void ts_signature_text(const char *const parts[TS_SIGN_PARTS], ts_text *out) {
  for (int i = 0; i < TS_SIGN_PARTS; i++) {
    ts_text_add(out, fixed[i]);
    if (parts[i] != NULL) ts_text_add(out, parts[i]);
  }
  ts_text_add(out, fixed[TS_SIGN_PARTS]);
}

/* Only certificates have elements inside. */
static bool plain(const char *text, int part) {
  return part == TS_SIGN_CERTIFICATES || strpbrk(text, "<>\"") == NULL;
}

/* ---- base64, in lines of 64 as it is written ------------------------------------------------ */

enum { LINE = 64 };

static bool lines_are_full(const char *text) {
  for (; strlen(text) > LINE; text += LINE + 1)
    if (text[LINE] != '\n' || memchr(text, '\n', LINE) != NULL) return false;
  return strchr(text, '\n') == NULL;
}

/* The bytes of a text in base64, `*length` of them; NULL where those bytes are written otherwise.
 */
static char *decoded(ts_arena *arena, const char *text, size_t *length) {
  size_t size = 0, all = strlen(text);
  char *plain = ts_arena_copy(arena, text), *again = ts_arena_alloc(arena, all + 4);
  for (const char *c = text; *c; c++)
    if (*c != '\n') plain[size++] = *c;
  plain[size] = '\0';
  unsigned char *bytes = ts_arena_alloc(arena, size + 4);
  int got = size > 0 && size < INT_MAX
                ? EVP_DecodeBlock(bytes, (const unsigned char *)plain, (int)size)
                : -1;
  for (size_t i = size; got > 0 && i > 0 && plain[i - 1] == '='; i--) got--;
  if (got <= 0) return NULL;
  EVP_EncodeBlock((unsigned char *)again, bytes, got);
  *length = (size_t)got;
  return ts_same(again, plain) && lines_are_full(text) ? (char *)bytes : NULL;
}

static bool is_base64(ts_arena *arena, const char *text) {
  size_t length;
  return decoded(arena, text, &length) != NULL;
}

/* One certificate, and its digest is the one that is signed. */
static bool certificate_fits(ts_arena *arena, const char *const parts[TS_SIGN_PARTS]) {
  static const char start[] = "<X509Certificate>", end[] = "\n</X509Certificate>";
  const char *text = parts[TS_SIGN_CERTIFICATES];
  size_t all = strlen(text), around = sizeof start - 1 + sizeof end - 1, length;
  if (all <= around || strncmp(text, start, sizeof start - 1) != 0 ||
      !ts_same(text + all - (sizeof end - 1), end))
    return false;
  text = ts_arena_copy_n(arena, text + sizeof start - 1, all - around);
  const char *bytes = decoded(arena, text, &length);
  char digest[65];
  return bytes && ts_same(ts_digest(bytes, length, digest), parts[TS_SIGN_CERTIFICATE]);
}

bool ts_signature_parts(ts_arena *arena, const char *text, const char *parts[TS_SIGN_PARTS]) {
  if (strncmp(text, fixed[0], strlen(fixed[0])) != 0) return false;
  text += strlen(fixed[0]);
  for (int i = 0; i < TS_SIGN_PARTS; i++) {
    const char *end = strstr(text, fixed[i + 1]);
    if (end == NULL) return false;
    parts[i] = ts_arena_copy_n(arena, text, (size_t)(end - text));
    if (!plain(parts[i], i)) return false;
    text = end + strlen(fixed[i + 1]);
  }
  return *text == '\0' && is_base64(arena, parts[TS_SIGN_DIGEST]) &&
         is_base64(arena, parts[TS_SIGN_OWN_DIGEST]) && is_base64(arena, parts[TS_SIGN_VALUE]) &&
         certificate_fits(arena, parts);
}

bool ts_signing_begin(void) {
  if (xmlSecInit() < 0) return false;
  xmlSecErrorsDefaultCallbackEnableOutput(0); /* what went wrong is said by us */
  if (xmlSecCheckVersion() == 1 && xmlSecCryptoAppInit(NULL) >= 0) {
    if (xmlSecCryptoInit() >= 0) return true;
    xmlSecCryptoAppShutdown();
  }
  xmlSecShutdown();
  return false;
}

void ts_signing_end(void) {
  xmlSecCryptoShutdown();
  xmlSecCryptoAppShutdown();
  xmlSecShutdown();
}

void ts_signature_ids(xmlNode *signature) {
  const xmlChar *ids[] = {BAD_CAST "Id", NULL};
  xmlSecAddIDs(signature->doc, signature, ids);
}
