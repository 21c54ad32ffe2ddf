/* The versions of this program and of the libraries under it: what it was built with, what is
 * running, what is the least that will do (CMakeLists.txt says why). A library may be replaced
 * after the build. */
#include "base/text.h"
#include "command/command.h"
#include "command/versions.h" /* written by the build */
#include "command/wall.h"
#include <csv.h>
#include <libxml/parser.h>
#include <libxml/xmlversion.h>
#include <libxslt/xslt.h>
#include <libxslt/xsltconfig.h>
#include <lua.h>
#include <openssl/crypto.h>
#include <seccomp.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <xmlsec/version.h>

typedef struct {
  char text[32];
} version;

static version from_first_digit(const char *said) {
  version v = {""};
  said += strcspn(said, "0123456789");
  snprintf(v.text, sizeof v.text, "%.*s", (int)strspn(said, "0123456789."), said);
  return v;
}

/* 20914 is 2.9.14. */
static version from_number(const char *said) {
  version v;
  long number = strtol(said, NULL, 10);
  snprintf(v.text, sizeof v.text, "%ld.%ld.%ld", number / 10000, number / 100 % 100, number % 100);
  return v;
}

static version running_lua(void) { return from_first_digit(lua_ident); }
static version running_xml(void) { return from_number(xmlParserVersion); }
static version running_xslt(void) { return from_number(xsltEngineVersion); }
static version running_openssl(void) {
  return from_first_digit(OpenSSL_version(OPENSSL_VERSION_STRING));
}
static version running_sqlite(void) { return from_first_digit(sqlite3_libversion()); }
static version running_seccomp(void) {
  version v;
  const struct scmp_version *is = seccomp_version();
  snprintf(v.text, sizeof v.text, "%u.%u.%u", is->major, is->minor, is->micro);
  return v;
}

#define TEXT_OF(x) #x
#define TEXT(x) TEXT_OF(x)

static const struct {
  const char *name, *built, *least;
  version (*running)(void); /* NULL: the library does not say */
} libraries[] = {
    {"Lua", LUA_VERSION_MAJOR "." LUA_VERSION_MINOR "." LUA_VERSION_RELEASE, LEAST_LUA,
     running_lua},
    {"libxml2", LIBXML_DOTTED_VERSION, LEAST_XML, running_xml},
    {"libxslt", LIBXSLT_DOTTED_VERSION, LEAST_XSLT, running_xslt},
    {"xmlsec", XMLSEC_VERSION, LEAST_XMLSEC, NULL},
    {"OpenSSL", OPENSSL_VERSION_STR, LEAST_OPENSSL, running_openssl},
    {"SQLite", SQLITE_VERSION, LEAST_SQLITE, running_sqlite},
    {"libseccomp", TEXT(SCMP_VER_MAJOR) "." TEXT(SCMP_VER_MINOR) "." TEXT(SCMP_VER_MICRO),
     LEAST_SECCOMP, running_seccomp},
    {"udunits2", BUILT_UDUNITS, "2.0", NULL},
    {"minizip", BUILT_MINIZIP, LEAST_MINIZIP, NULL},
    {"libcsv", TEXT(CSV_MAJOR) "." TEXT(CSV_MINOR) "." TEXT(CSV_RELEASE), LEAST_CSV, NULL},
    {"libedit", BUILT_EDIT, LEAST_EDIT, NULL},
};

enum { LIBRARIES = sizeof libraries / sizeof *libraries };

void print_versions(void) {
  printf("tankside %s\n", TANKSIDE_VERSION);
  printf("  %-10s %-20s %-12s %s\n", "library", "built with", "running", "at least");
  for (size_t i = 0; i < LIBRARIES; i++) {
    version now = {"not said"};
    if (libraries[i].running != NULL) now = libraries[i].running();
    printf("  %-10s %-20s %-12s %s\n", libraries[i].name, libraries[i].built, now.text,
           libraries[i].least);
  }
  ts_wall wall = wall_raise(NULL, NULL);
  printf("  system calls filtered: %s\n", wall.calls);
  printf("  writing held to the folders named: %s\n", wall.writing);
}

static bool is_older(const char *is, const char *least) {
  while (*least != '\0') {
    char *rest, *least_rest;
    unsigned long a = strtoul(is, &rest, 10), b = strtoul(least, &least_rest, 10);
    if (a != b) return a < b;
    is = rest + (*rest == '.');
    least = least_rest + (*least_rest == '.');
  }
  return false;
}

bool libraries_will_do(void) {
  bool good = true;
  for (size_t i = 0; i < LIBRARIES; i++) {
    if (libraries[i].running == NULL) continue;
    version now = libraries[i].running();
    if (!is_older(now.text, libraries[i].least)) continue;
    good = false;
    fprintf(stderr, "tankside: error: %s %s is running; expected %s or newer (built with %s)\n",
            libraries[i].name, now.text, libraries[i].least, libraries[i].built);
  }
  return good;
}
