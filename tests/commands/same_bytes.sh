#!/bin/sh
# The same inputs give the same bytes: twice, from elsewhere, in another locale,
# time zone and day.
set -eu
cd "$WORK"
dossier=$(ls -rS "$SOURCE"/shared/productions/*/dossier.xml | head -n 1)

assess() { # FOLDER ENVIRONMENT...
  folder=$1
  shift
  status=0
  env "$@" "$TANKSIDE" assess "$dossier" -o "$folder" --no-pdf >"$folder.out" 2>"$folder.err" || status=$?
  [ $status -le 1 ] || { cat "$folder.err"; exit 1; }
}
same() {
  diff -r one "$1" || { echo "the bytes differ: $1"; exit 1; }
}

assess one LC_ALL=C
assess two LC_ALL=C TZ=Asia/Tokyo
same two

# A decimal comma, where the machine can make such a locale.
if localedef -i de_DE -f UTF-8 "$WORK/locales-de" >/dev/null 2>&1 || [ -d "$WORK/locales-de" ]; then
  mkdir -p locales
  mv locales-de locales/de_DE.UTF-8
  assess comma LOCPATH="$WORK/locales" LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8
  same comma
fi

# From another folder, by a relative name.
mkdir -p deep/er
cp -R "$(dirname "$dossier")" copy
cd deep/er
status=0
"$TANKSIDE" assess ../../copy/dossier.xml -o ../../relative --no-pdf >../../relative.out 2>&1 || status=$?
[ $status -le 1 ]
cd "$WORK"
same relative

# No path of this machine, no clock.
if grep -rlF -e "$WORK" -e "$SOURCE" one; then exit 1; fi
if grep -rl "$(date +%H:%M:)" one; then exit 1; fi

# On another day, where faketime is at hand.
if command -v faketime >/dev/null 2>&1; then
  assess later LC_ALL=C LD_PRELOAD="$(faketime '2031-01-01' sh -c 'echo $LD_PRELOAD')" FAKETIME="2031-01-01 00:00:00"
  same later
fi

# The order in which a folder lists its files does not matter, nor do files that are no rules.
mkdir -p packs/one packs/two
for name in b a c; do
  printf 'rule { id = "%s", title = "T", each = "production", harm = "nobody: nothing", sources = { "common practice" },\n  assess = function (p) note { because = "%s" } end, examples = {} }\n' $name $name >packs/one/$name.lua
done
mv packs/two packs/unused
mkdir -p other/one
for name in c a b; do cp packs/one/$name.lua other/one/; done
touch other/one/.hidden.lua.swp other/one/notes.txt
for pack in packs other; do
  status=0
  "$TANKSIDE" assess "$dossier" --pack $pack/one -o pack-$pack --no-pdf >/dev/null 2>pack.err || status=$?
  [ $status -le 1 ] || { cat pack.err; exit 1; }
done
diff -r pack-packs pack-other
