/* Characters that turn the direction of the text around them: shown, not obeyed, so that no
 * name in a dossier can write a score backwards. Letters of languages written from right to
 * left need none of them. */
#include "document/transform.h"

#include <string.h>

/* U+202A..U+202E (E2 80 AA..AE) and U+2066..U+2069 (E2 81 A6..A9). */
static bool turns(const char *c) {
  const unsigned char *b = (const unsigned char *)c;
  if (b[0] != 0xE2) return false;
  if (b[1] == 0x80) return b[2] >= 0xAA && b[2] <= 0xAE;
  return b[1] == 0x81 && b[2] >= 0xA6 && b[2] <= 0xA9;
}

/* Puts U+FFFD, which has as many bytes, in their place. */
static void still(xmlNode *text) {
  for (char *c = (char *)text->content; c && (c = strchr(c, 0xE2)); c++)
    // NOLINTNEXTLINE(bugprone-not-null-terminated-result): within a text
    if (turns(c)) memcpy(c, "\xEF\xBF\xBD", 3);
}

static void still_all(xmlNode *node) {
  for (; node; node = node->next) {
    if (node->type == XML_TEXT_NODE) still(node);
    if (node->type != XML_ELEMENT_NODE) continue;
    for (xmlAttr *a = node->properties; a; a = a->next) still_all(a->children);
    still_all(node->children);
  }
}

void ts_document_plain(xmlNode *root) { still_all(root->children); }
