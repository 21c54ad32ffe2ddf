#!/bin/sh
# Two builds of the source as it stands, in folders of other names and lengths, by another umask, zone and
# language, give the same bytes: program, library, both packages. A minute or two.
#
#   sh tests/supply/reproducible.sh
set -eu
cd "$(dirname "$0")/../.."
unset CDPATH
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
SOURCE_DATE_EPOCH=$(cmake -P shared/cmake/epoch.cmake 2>&1)
export SOURCE_DATE_EPOCH

build() { # SOURCE BUILD
  mkdir -p "$1"
  git ls-files -z --cached --others --exclude-standard | xargs -0 tar -cf - | tar -C "$1" -xf -
  cmake -S "$1" -B "$2" -G Ninja -DCMAKE_BUILD_TYPE=Release -DTANKSIDE_TESTS=OFF >"$place/said"
  cmake --build "$2" >>"$place/said" || { cat "$place/said"; exit 1; }
  # The frame of a package takes its modes from the umask, and CPack has no other way to say them.
  (umask 022 && cd "$2" && cpack -G DEB >>"$place/said") || { cat "$place/said"; exit 1; }
}
(umask 022 && TZ=UTC LC_ALL=C && export TZ LC_ALL && build "$place/one" "$place/one/build/release")
(umask 027 && TZ=Pacific/Auckland LC_ALL=C.UTF-8 && export TZ LC_ALL && build "$place/two/with a longer name" "$place/other")
one=$place/one/build/release two=$place/other
status=0
for file in tankside libtankside.a written/tankside-dossier.5 $(cd "$one" && ls ./*.deb); do
  if cmp "$one/$file" "$two/$file"; then
    sha256sum "$one/$file" | sed "s#  .*/#  #"
  else
    status=1
    ! command -v diffoscope >/dev/null 2>&1 || diffoscope --max-report-size 20000 "$one/$file" "$two/$file" || true
  fi
done
if [ $status = 0 ]; then echo "the same bytes, of the time $SOURCE_DATE_EPOCH"; fi
exit $status
