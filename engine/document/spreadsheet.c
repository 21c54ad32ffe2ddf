/* An OpenDocument spreadsheet: three small files in a ZIP, made in memory.
 *
 * `mimetype` comes first, stored and without extra field (ODF 1.3 part 2, section 3.3);
 * every entry has the same time, so that two runs give the same bytes. */
#include "base/text.h"
#include "document/mark.h"
#include "document/transform.h"

#include <minizip/zip.h>
#include <string.h>

static const char mimetype[] = "application/vnd.oasis.opendocument.spreadsheet";
static const char manifest[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<manifest:manifest xmlns:manifest=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\" "
    "manifest:version=\"1.3\">\n"
    "<manifest:file-entry manifest:full-path=\"/\" manifest:version=\"1.3\" "
    "manifest:media-type=\"application/vnd.oasis.opendocument.spreadsheet\"/>\n"
    "<manifest:file-entry manifest:full-path=\"content.xml\" manifest:media-type=\"text/xml\"/>\n"
    "</manifest:manifest>\n";

/* ---- a file in memory, as minizip asks for one -------------------------------------- */

typedef struct {
  ts_text bytes;
  size_t at;
} memory;

static voidpf memory_open(voidpf opaque, const char *name, int mode) {
  (void)name, (void)mode;
  return opaque;
}

static uLong memory_read(voidpf opaque, voidpf stream, void *buffer, uLong size) {
  (void)opaque, (void)stream, (void)buffer, (void)size;
  return 0; /* a new archive is never read */
}

/* Over what is there (sizes are filled in afterwards), then beyond its end. */
static uLong memory_write(voidpf opaque, voidpf stream, const void *buffer, uLong size) {
  memory *m = stream;
  (void)opaque;
  size_t left = m->bytes.length - m->at, over = size < left ? size : left;
  if (over > 0) memcpy(m->bytes.data + m->at, buffer, over);
  ts_text_add_n(&m->bytes, (const char *)buffer + over, size - over);
  m->at += size;
  return size;
}

static long memory_tell(voidpf opaque, voidpf stream) {
  (void)opaque;
  return (long)((memory *)stream)->at;
}

static long memory_seek(voidpf opaque, voidpf stream, uLong offset, int origin) {
  memory *m = stream;
  (void)opaque;
  size_t base = origin == ZLIB_FILEFUNC_SEEK_END   ? m->bytes.length
                : origin == ZLIB_FILEFUNC_SEEK_CUR ? m->at
                                                   : 0;
  if (base + offset > m->bytes.length) return -1;
  m->at = base + offset;
  return 0;
}

static int memory_close(voidpf opaque, voidpf stream) {
  (void)opaque, (void)stream;
  return 0;
}

static int memory_error(voidpf opaque, voidpf stream) {
  (void)opaque, (void)stream;
  return 0;
}

/* ---- the archive ---------------------------------------------------------------------- */

static bool add(zipFile zip, const char *name, const char *bytes, size_t length, int level) {
  static const zip_fileinfo always = {.dosDate = 1UL << 21 | 1UL << 16}; /* 1 January 1980 */
  return zipOpenNewFileInZip(zip, name, &always, NULL, 0, NULL, 0, NULL, level > 0 ? Z_DEFLATED : 0,
                             level) == ZIP_OK &&
         zipWriteInFileInZip(zip, bytes, (unsigned)length) == ZIP_OK &&
         zipCloseFileInZip(zip) == ZIP_OK;
}

bool ts_document_spreadsheet(const char *content, size_t length, ts_text *ods) {
  memory m = {0};
  zlib_filefunc_def calls = {memory_open, memory_read,  memory_write, memory_tell,
                             memory_seek, memory_close, memory_error, &m};
  zipFile zip = zipOpen2("", APPEND_STATUS_CREATE, NULL, &calls);
  bool good = zip != NULL && add(zip, "mimetype", mimetype, sizeof mimetype - 1, 0) &&
              add(zip, "content.xml", content, length, 6) &&
              add(zip, "META-INF/manifest.xml", manifest, sizeof manifest - 1, 6);
  good = zip != NULL && zipClose(zip, TS_ARCHIVE_MARK) == ZIP_OK && good;
  *ods = m.bytes;
  return good;
}
