#include "document/signature.h"

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
    "</as></SignatureProperty></SignatureProperties></Object>\n</Signature>"};

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
  return *text == '\0';
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
