#!/bin/sh
# Installs what is missing to build and run tankside, and with --tests what its
# tests use besides. Debian and Ubuntu: by apt, as root or with sudo. Elsewhere:
# names what is missing and ends with status 2.
set -eu

build="gcc clang cmake ninja-build pkg-config liblua5.4-dev libxml2-dev libxslt1-dev
  libudunits2-dev libminizip-dev libcsv-dev libsqlite3-dev libxmlsec1-dev libxmlsec1-openssl libssl-dev libedit-dev libseccomp-dev check"
run="weasyprint fonts-dejavu-core fonts-dejavu-extra poppler-utils"
tests="cppcheck clang-tidy dpkg-dev chromium valgrind jing trang libxml2-utils xsltproc python3 python3-gsw python3-z3 units locales qpdf openssl xmlsec1 lua5.4
  zsh fish mandoc libreoffice-calc-nogui python3-uno"

packages="$build $run"
case ${1-} in
  "") with_tests=no ;;
  --tests) with_tests=yes packages="$packages $tests" ;;
  *) echo "usage: sh shared/setup.sh [--tests]" >&2; exit 2 ;;
esac

missing_packages() {
  for package in $packages; do
    state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || state=none
    [ "$state" = installed ] || printf '%s ' "$package"
  done
}

# Some distributions pack the sanitizers' own part apart from clang.
sanitizers_link() {
  trial=$(mktemp) links=1
  echo 'int main(void) { return 0; }' |
    clang -fsanitize=address,undefined -x c -o "$trial" - >/dev/null 2>&1 && links=0
  rm -f "$trial"
  return $links
}

by_apt() {
  missing=$(missing_packages)
  if [ -z "$missing" ]; then
    if [ $with_tests = no ] || sanitizers_link; then return 0; fi
  fi
  if [ "$(id -u)" = 0 ]; then as_root=""
  elif command -v sudo >/dev/null 2>&1; then as_root=sudo
  else
    echo "setup: not installed: ${missing:-libclang-rt-dev}" >&2
    echo "setup: run this once as root, or: apt-get install ${missing:-libclang-rt-dev}" >&2
    exit 2
  fi
  apt="$as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y
    -o Acquire::Retries=3 -o DPkg::Lock::Timeout=300"
  $apt update </dev/null || echo "setup: the package lists are not up to date" >&2
  if [ $with_tests = yes ] && apt-cache show libclang-rt-dev >/dev/null 2>&1; then
    missing="$missing libclang-rt-dev"
  fi
  echo "setup: installing $missing"
  # shellcheck disable=SC2086  # a list of words on purpose
  $apt install --no-install-recommends $missing </dev/null
}

# Elsewhere only what can be seen is checked: programs and pkg-config modules.
by_hand() {
  missing=""
  programs="cc cmake pkg-config weasyprint pdfinfo"
  [ $with_tests = no ] || programs="$programs gcc clang valgrind jing xmllint xsltproc python3 units qpdf"
  for program in $programs; do
    command -v "$program" >/dev/null 2>&1 || missing="$missing $program"
  done
  for module in lua5.4 libxml-2.0 libxslt minizip sqlite3 xmlsec1-openssl libedit libseccomp check; do
    pkg-config --exists "$module" 2>/dev/null || missing="$missing $module"
  done
  if [ -n "$missing" ]; then
    echo "setup: this is neither Debian nor Ubuntu; please install:$missing" >&2
    echo "setup: and udunits2 and libcsv with their headers. Their names in Debian: $packages" >&2
    exit 2
  fi
}

if command -v apt-get >/dev/null 2>&1 && command -v dpkg-query >/dev/null 2>&1; then
  by_apt
else
  by_hand
fi
