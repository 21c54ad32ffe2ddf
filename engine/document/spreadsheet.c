/* An OpenDocument spreadsheet: a few small files in a ZIP, made in memory.
 *
 * `mimetype` comes first, stored and without extra field (ODF 1.3 part 2, section 3.3). */
#include "base/text.h"
#include "base/zip.h"
#include "document/mark.h"
#include "document/transform.h"

#include <string.h>

static const char mimetype[] = "application/vnd.oasis.opendocument.spreadsheet";
static const char manifest_head[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<manifest:manifest xmlns:manifest=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\" "
    "manifest:version=\"1.3\">\n"
    "<manifest:file-entry manifest:full-path=\"/\" manifest:version=\"1.3\" "
    "manifest:media-type=\"application/vnd.oasis.opendocument.spreadsheet\"/>\n"
    "<manifest:file-entry manifest:full-path=\"content.xml\" manifest:media-type=\"text/xml\"/>\n";
static const char manifest_settings[] =
    "<manifest:file-entry manifest:full-path=\"settings.xml\" manifest:media-type=\"text/xml\"/>\n";
static const char manifest_end[] = "</manifest:manifest>\n";

bool ts_document_spreadsheet(const char *content, size_t length, const char *settings,
                             ts_text *ods) {
  ts_text manifest = {0};
  ts_text_add(&manifest, manifest_head);
  if (settings != NULL) ts_text_add(&manifest, manifest_settings);
  ts_text_add(&manifest, manifest_end);
  const ts_zip_entry entries[] = {
      {"mimetype", mimetype, sizeof mimetype - 1, true},
      {"content.xml", content, length, false},
      {"META-INF/manifest.xml", manifest.data, manifest.length, false},
      {"settings.xml", settings, settings ? strlen(settings) : 0, false},
  };
  bool good = ts_zip_write(entries, settings ? 4 : 3, TS_ARCHIVE_MARK, ods);
  ts_text_release(&manifest);
  return good;
}
