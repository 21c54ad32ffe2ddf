#!/bin/sh
# The Debian packages, made from this build: what is in them, what they depend on, nothing of the machine;
# the list of parts in them. What they do once installed: tests/supply/clean_root.sh.
set -eu
build=$(dirname "$TANKSIDE")
for tool in cpack dpkg-deb dpkg-shlibdeps; do
  command -v $tool >/dev/null 2>&1 || { echo "$tool is not installed"; exit 77; }
done
cd "$WORK"
umask 027 # of whoever builds; not of what is built
cpack -G DEB --config "$build/CPackConfig.cmake" -B "$WORK" >said 2>&1 || { cat said; exit 1; }
version=$("$TANKSIDE" --version | sed -n 's/^tankside //p')
dpkg-deb -x tankside_"$version"_*.deb tree
dpkg-deb -x libtankside-dev_"$version"_*.deb dev
dpkg-deb -e tankside_"$version"_*.deb control

# Every file, as the source has it.
{
  echo usr/bin/tankside
  for part in rules templates shared/schema shared/tables shared/matrices shared/productions shared/completions shared/slurm; do
    (cd "$SOURCE" && find "$part" -type f ! -path '*/__pycache__/*')
  done | sed 's#^#usr/share/tankside/#'
  echo usr/share/tankside/shared/stages.xml
  for page in man1/tankside.1 man5/tankside-dossier.5 man5/tankside-rules.5; do echo "usr/share/man/$page"; done
  for file in README.md copyright tankside.spdx.json; do echo "usr/share/doc/tankside/$file"; done
  echo usr/share/bash-completion/completions/tankside
  echo usr/share/zsh/site-functions/_tankside
  echo usr/share/fish/vendor_completions.d/tankside.fish
} | sort >expected
(cd tree && find . -type f | sed 's#^\./##' | sort) >found
diff expected found
(cd tree/usr/share/tankside && find . -type f) | while read -r file; do
  cmp "$SOURCE/$file" "tree/usr/share/tankside/$file"
done
{
  echo usr/share/doc/libtankside-dev/copyright
  (cd "$SOURCE/include" && find tankside -type f) | sed 's#^#usr/include/#'
} | sort >expected
(cd dev && find . -type f | sed 's#^\./##' | grep -v '^usr/lib/' | sort) >found
diff expected found
[ -f dev/usr/lib*/libtankside.a ] || [ -f dev/usr/lib/*/libtankside.a ]

# Everybody may read, the owner alone write; sums as stated.
dpkg-deb -c tankside_"$version"_*.deb | awk '$1 !~ /^(drwxr-xr-x|-rw-r--r--)$/ && $6 != "./usr/bin/tankside" || $2 != "root/root" { print; bad = 1 } END { exit bad }'
(cd tree && md5sum --quiet -c ../control/md5sums)
[ "$(wc -l <control/md5sums)" = "$(find tree -type f | wc -l)" ]

# No path of the machine it was built on.
for place in "$SOURCE" "$build" "$WORK"; do
  if grep -rFl -e "$place" tree dev control; then echo "names $place"; exit 1; fi
done

field() { sed -n "s/^$1: //p" control/control; }
[ "$(field Package)" = tankside ]
[ "$(field Version)" = "$version" ]
[ "$(field Architecture)" = "$(dpkg --print-architecture)" ]
for name in Maintainer Description Section Priority Installed-Size; do [ -n "$(field $name)" ] || { echo "no $name"; exit 1; }; done
field Depends | tr ',' '\n' | sed 's/^ *//; s/ .*//' | sort >depends
for name in weasyprint fonts-dejavu-core fonts-dejavu-extra; do grep -qx $name depends || { echo "does not depend on $name"; exit 1; }; done
# What the program is linked with, each library by its package.
readelf -dW "$TANKSIDE" | sed -n 's/.*(NEEDED).*\[\(.*\)\]/\1/p' | while read -r library; do
  place=$(ldd "$TANKSIDE" | sed -n "s#.*$library => \(/[^ ]*\).*#\1#p")
  owner=$(dpkg-query -S "$place" "/usr$place" "${place#/usr}" 2>/dev/null | sed -n '1s/:.*//p')
  grep -qx -e "$owner" depends || { echo "does not depend on $owner, which has $library"; exit 1; }
done

# The installed program reads what is beside it.
env -u TANKSIDE_DATA tree/usr/bin/tankside rules list >list
[ "$(wc -l <list)" -gt 100 ]
prefix=$(PKG_CONFIG_PATH=$(dirname "$(find dev -name tankside.pc)") pkg-config --variable=prefix tankside)
[ -f "$prefix/include/tankside/assess.h" ]

python3 "$SOURCE/tests/supply/sbom.py" tree "$TANKSIDE"
# And it finds what is wrong.
for change in 's/SPDX-2.3/SPDX-2.2/' 's/"checksumValue": "[0-9a-f]/"checksumValue": "x/' 's/DYNAMIC_LINK/DEPENDS_ON/' \
  '0,/SPDXRef-Package-libxml2"/s//SPDXRef-Package-other"/' '0,/"versionInfo": "[0-9]/s//"versionInfo": "99/'; do
  rm -rf changed
  cp -R tree changed
  sed -i "$change" changed/usr/share/doc/tankside/tankside.spdx.json
  cmp -s tree/usr/share/doc/tankside/tankside.spdx.json changed/usr/share/doc/tankside/tankside.spdx.json && { echo "nothing changed: $change"; exit 1; }
  ! python3 "$SOURCE/tests/supply/sbom.py" changed "$TANKSIDE" >said || { echo "not found: $change"; exit 1; }
done
