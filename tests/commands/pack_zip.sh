#!/bin/sh
# A pack in a ZIP archive is the folder: the same assessment, byte for byte. An archive that no honest hand
# packed is refused whole.
set -eu
cd "$WORK"
production=$SOURCE/shared/productions/title-day
cp -r "$production/osier-lane" .
sed 's/ packs="osier-lane"//' "$production/dossier.xml" >dossier.xml
assess() { # PACK OUT
  status=0
  "$TANKSIDE" assess dossier.xml --pack "$1" -o "$2" >said 2>err || status=$?
}
python3 - <<'PY'
import pathlib, zipfile
files = {p.name: p.read_bytes() for p in sorted(pathlib.Path("osier-lane").iterdir())}
rule = next(n for n in files if n.endswith(".lua"))

def pack(name, entries, **more):
    pathlib.Path(name).mkdir()
    with zipfile.ZipFile(f"{name}/osier-lane.zip", "w", zipfile.ZIP_DEFLATED) as z:
        for entry, text in entries:
            z.writestr(entry, text)

def link(name):
    entry = zipfile.ZipInfo(name)
    entry.create_system, entry.external_attr = 3, 0o120777 << 16
    return entry

flat = [(n, files[n]) for n in files] + [("read-me.txt", "notes"), ("more.xml", "<a/>")]
pack("flat", flat)
pack("nested", [("osier-lane/", "")] + [(f"osier-lane/{n}", t) for n, t in flat])
pack("up", flat + [("../evil.lua", "x")])
pack("upward", flat + [("a/../../evil.lua", "x")])
pack("absolute", flat + [("/etc/evil.lua", "x")])
pack("back", flat + [("..\\evil.lua", "x")])
pack("linked", flat + [(link("evil.lua"), "/etc/passwd")])
pack("kind", flat + [("run.sh", "x")])
pack("below", flat + [("a/b.lua", "x"), ("c.lua", "x")])
pack("bomb", flat + [("bomb.lua", " " * (1 << 20))] * 1 + [(f"b{i}.lua", " " * (1 << 20)) for i in range(17)])
pack("large", flat + [("large.lua", " " * (1 << 21))])
pack("many", flat + [(f"n{i}.txt", "") for i in range(300)])
pack("long", flat + [("n" * 300 + ".lua", "x")])
pack("empty", [("read-me.txt", "notes")])
import warnings
warnings.simplefilter("ignore")
pack("twice", flat + [(rule, files[rule])])
pathlib.Path("text").mkdir()
pathlib.Path("text/osier-lane.zip").write_text("no archive")
whole = pathlib.Path("flat/osier-lane.zip").read_bytes()
for name, at in (("cut", len(whole) // 2),):
    pathlib.Path(name).mkdir()
    pathlib.Path(f"{name}/osier-lane.zip").write_bytes(whole[:at])
broken = bytearray(whole)
broken[60] ^= 0xFF
pathlib.Path("damaged").mkdir()
pathlib.Path("damaged/osier-lane.zip").write_bytes(broken)
PY
assess osier-lane folder.xml
[ $status -le 1 ]
for zip in flat nested; do
  assess $zip/osier-lane.zip $zip.xml
  [ $status -le 1 ]
  cmp folder.xml $zip.xml
done
"$TANKSIDE" verify flat.xml --dossier dossier.xml --pack nested/osier-lane.zip >said
grep -q 'flat.xml follows from dossier.xml' said
"$TANKSIDE" rules check --pack flat/osier-lane.zip >said
grep -q '0 errors' said

for bad in 'up "../evil.lua" in it leads out of its folder' 'upward "a/../../evil.lua" in it leads out' \
  'absolute "/etc/evil.lua" in it is no name inside a folder' 'linked "evil.lua" in it is a link' \
  'kind "run.sh" in it is no file of a pack' 'below "a/b.lua" in it is no file of a pack' \
  'large "large.lua" in it is too large' 'many in it is one too many' 'twice in it is there twice' 'long in it is damaged, or has a name that is too long' \
  'text is no ZIP archive' 'cut is no ZIP archive' 'empty no rule files' 'back in it is no name inside a folder' 'bomb holds more than 16777216 bytes' 'damaged in it'; do
  rm -f none.xml
  assess "${bad%% *}/osier-lane.zip" none.xml
  [ $status -eq 2 ] && [ ! -e none.xml ] || { echo "taken: $bad"; exit 1; }
  grep -q "${bad%% *}/osier-lane.zip: error: .*${bad#* }" err || { echo "$bad:"; cat err; exit 1; }
done
