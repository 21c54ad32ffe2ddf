#!/bin/sh
# --version tells what was built with and what runs, as others have it; a library that is too old is refused,
# at run time by the program, before that by CMake.
set -eu
cd "$WORK"
"$TANKSIDE" --version >versions
head -n 1 versions | grep -qx 'tankside [0-9]*\.[0-9]*\.[0-9]*'
row() { awk -v name="$1" '$1 == name { print $2, $3 }' versions; }
for pair in Lua:lua5.4 libxml2:libxml-2.0 libxslt:libxslt OpenSSL:libcrypto SQLite:sqlite3 libseccomp:libseccomp; do
  is=$(pkg-config --modversion "${pair#*:}")
  [ "$(row "${pair%:*}")" = "$is $is" ] || { echo "${pair%:*} is $is"; cat versions; exit 1; }
done
for pair in xmlsec:xmlsec1-openssl minizip:minizip libedit:libedit; do
  is=$(pkg-config --modversion "${pair#*:}")
  [ "$(row "${pair%:*}")" = "$is not" ] || { echo "${pair%:*} is $is"; cat versions; exit 1; }
done
# Every library that the program is linked with by name is in the list: none is forgotten.
linked=$(readelf -dW "$TANKSIDE" | sed -n 's/.*(NEEDED).*\[\(lib[a-z0-9.-]*\)\.so.*/\1/p')
for library in $linked; do
  case $library in
    libc | libm | libasan | libubsan | libgcc_s | libpthread | librt | libdl | libresolv) continue ;;
    liblua*) name=Lua ;;
    libxmlsec1*) name=xmlsec ;;
    libcrypto) name=OpenSSL ;;
    libsqlite3) name=SQLite ;;
    libtankside) continue ;;
    *) name=${library#lib} ;;
  esac
  grep -Eq "^ +(lib)?$name " versions || { echo "--version does not tell of $library"; exit 1; }
done

# Another library in the place of SQLite's, and of OpenSSL's, that says it is old.
cat >old.c <<'EOF'
const char *sqlite3_libversion(void);
const char *OpenSSL_version(int kind);
const char *sqlite3_libversion(void) { return SQLITE_SAYS; }
const char *OpenSSL_version(int kind) { return kind ? OPENSSL_SAYS : "OpenSSL"; }
EOF
as_if() { # SQLITE OPENSSL: then `tankside vocabulary`
  cc -shared -fPIC "-DSQLITE_SAYS=\"$1\"" "-DOPENSSL_SAYS=\"$2\"" -o old.so old.c
  status=0
  LD_PRELOAD="$WORK/old.so" "$TANKSIDE" vocabulary >out 2>said || status=$?
}
as_if 3.36.1 3.0.0
[ $status = 2 ] || { cat said; exit 1; }
grep -q 'error: SQLite 3\.36\.1 is running; expected 3\.37\.0 or newer (built with ' said
[ "$(wc -l <said)" = 1 ] && [ ! -s out ] || { cat said; exit 1; }
as_if 3.9.0 1.1.1 # by numbers: 9 is less than 37; and both are named
[ $status = 2 ] || { cat said; exit 1; }
grep -q 'SQLite 3\.9\.0 is running' said
grep -q 'OpenSSL 1\.1\.1 is running; expected 3\.0\.0' said
for newer in 3.37.0 3.100 4; do
  as_if $newer 3.0.0
  [ $status = 0 ] || { cat said; exit 1; }
done
LD_PRELOAD="$WORK/old.so" "$TANKSIDE" --version | grep -q '^ *SQLite .* 4 ' # whoever asks is still told

# The build: a library described as older than the least.
mkdir pc
for one in lua5.4 libxml-2.0; do
  printf 'Name: %s\nDescription: old\nVersion: 1.0.0\n' $one >pc/$one.pc
  status=0
  PKG_CONFIG_PATH="$WORK/pc" cmake -S "$SOURCE" -B old-$one -DTANKSIDE_TESTS=OFF >said 2>&1 || status=$?
  [ $status != 0 ] || { echo "built with an old $one"; exit 1; }
  grep -q "$one>=[0-9]" said || { cat said; exit 1; }
  rm pc/$one.pc
done
