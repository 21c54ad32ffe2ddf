#!/bin/sh
# The Debian package in a clean root: installed there with what it depends on and nothing else, it reads,
# assesses and prints an example, with the bytes that the build makes outside. Ten minutes at most, and
# 300 MB while it runs; as root; packages come from where this machine has them.
#
#   sh tests/supply/clean_root.sh BUILD-FOLDER
#
# 77: skipped, for want of mmdebstrap, of rights or of packages.
set -eu
build=$(cd "$1" && pwd)
skip() { echo "skipped: $1"; exit 77; }
command -v mmdebstrap >/dev/null 2>&1 || skip "mmdebstrap is not installed"
[ "$(id -u)" = 0 ] || skip "only root can do this"
# shellcheck disable=SC1091
. /etc/os-release
example=$(cd "$(dirname "$0")/../../shared/productions/lake-stunt" && pwd)
place=$(mktemp -d)
root=$place/root
trap 'umount "$root/proc" 2>/dev/null || true; rm -rf "$place"' EXIT
(cd "$place" && cpack -G DEB --config "$build/CPackConfig.cmake" -B "$place" >said) || { cat "$place/said"; exit 1; }

sources=""
for file in /etc/apt/sources.list /etc/apt/sources.list.d/*; do [ ! -s "$file" ] || sources="$sources $file"; done
# shellcheck disable=SC2086
mmdebstrap --quiet --variant=apt "$VERSION_CODENAME" "$root" $sources || skip "no packages to be had"
if [ -e "$root/usr/bin/weasyprint" ] || [ -e "$root/usr/bin/tankside" ]; then echo "the root is not clean"; exit 1; fi
cp "$place"/tankside_*.deb "$root/tankside.deb"
cp -L /etc/resolv.conf "$root/etc/resolv.conf"
mount -t proc proc "$root/proc" || skip "no right to mount"
inside() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 HOME=/ DEBIAN_FRONTEND=noninteractive "$@"; }
inside apt-get -q -q update
inside apt-get -q -y install --no-install-recommends /tankside.deb >"$place/said" 2>&1 || { tail -n 30 "$place/said"; exit 1; }
inside dpkg --audit | grep . && { echo "something is half installed"; exit 1; }

# The same there and here; both in a folder that is called the same.
inside tankside --version
work() { # COMMAND...: the program, as it is called there or here
  "$@" check dossier.xml >check.txt
  status=0
  "$@" assess dossier.xml -o paper >assess.txt || status=$?
  [ $status = 1 ] # something stands above the line
  "$@" print paper/assessment.xml --sheet card --as pdf -o cards.pdf >print.txt
}
cp -R "$example" "$root/example"
cp -R "$example" "$place/example"
inside sh -ec "cd /example; $(sed -n '/^work() {/,/^}/p' "$0"); work tankside"
(cd "$place/example" && work env -i PATH="$PATH" LC_ALL=C.UTF-8 HOME=/ "$build/tankside")
diff -rq "$place/example" "$root/example"
echo "$(find "$root/example/paper" -type f | wc -l) documents, the same bytes inside and outside"

# And it goes again without a trace.
inside apt-get -q -q -y purge tankside >/dev/null 2>&1
[ ! -e "$root/usr/bin/tankside" ] && [ ! -e "$root/usr/share/tankside" ] || { echo "purged, but files stay"; exit 1; }
