#!/bin/sh
# `tankside vocabulary --editor`: the schema in both syntaxes, found by either way an editor looks for
# it, and annotations for a Lua language server that hold every fact and function.
# No Lua language server is a Debian package, so none is run here: that the annotations are Lua and of
# a known form is checked line by line.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; head -n 20 "$1"; exit 1; }; }
lake=$SOURCE/shared/productions/lake-stunt/dossier.xml

mkdir -p own
cat >own/own.lua <<'LUA'
fact { entity = "basin", name = "ledge-width", type = "quantity", unit = "m", low = "0 m", high = "9 m",
  meaning = "width of the ledge", measured = "tape", asked = "site manager", sees = "open" }
-- Half of what there is.
local function half(whole)
  return whole / 2
end
share("ledge", { half = half, fewest = 2 })
rule {
  id = "own.ledge", title = "Ledge", each = "site", harm = "performer: slips", sources = { "common practice" },
  assess = function (s)
    if ledge.half(s.basin.ledge_width) < q"0.5 m" then hazard { likelihood = 3, severity = 3, because = "narrow" } end
  end,
  examples = {
    { "wide", given = { ["basin.ledge_width"] = "2 m" }, expect = nothing },
    { "narrow", given = { ["basin.ledge_width"] = "0.2 m" }, expect = hazard { likelihood = 3, severity = 3 } },
  },
}
LUA
"$TANKSIDE" vocabulary --editor -o show --pack own >said
has said 'xml-model href="tankside/dossier.rng"'
for file in .luarc.json schemas.xml tankside/dossier.rng tankside/dossier.rnc tankside/words.lua \
  tankside/facts.lua tankside/functions.lua; do
  has said "show/$file"
  [ -s "show/$file" ]
done
python3 -m json.tool show/.luarc.json >/dev/null

# The annotations: Lua, which does nothing; each comment of a form that is known.
for file in show/tankside/*.lua; do
  luac -p "$file"
  [ "$(head -n 1 "$file")" = '---@meta' ]
done
"$TANKSIDE" calc >calc
"$TANKSIDE" vocabulary --as xml --pack own -o reference.xml
cat >annotations.py <<'PY'
import re, sys
import xml.etree.ElementTree as tree
root = tree.parse("reference.xml").getroot()
read = lambda name: open("show/tankside/" + name, encoding="utf-8").read()
facts, functions, words = read("facts.lua"), read("functions.lua"), read("words.lua")
forms = re.compile(r"---@(meta$|class (\(exact\) )?[\w.]+$|field \[?\w+\]?\?? \S.*|param [\w.]+\?? \S.*|return \S.*"
                   r"|type \S+$|alias [\w.]+ \S+$|generic \w+$|operator \w+(\(\S+\))?: \S+$)")
for line in (facts + functions + words).split("\n"):
    assert not line.startswith("---@") or forms.match(line), line
classes = dict(re.findall(r"---@class (?:\(exact\) )?tankside\.(\w+)\n((?:---@field.*\n)*)", facts))
known = set(re.findall(r"---@class (?:\(exact\) )?(tankside\.[\w.]+)", facts + functions + words))
known |= set(re.findall(r"---@alias (tankside\.\w+)", words))
for name in re.findall(r"tankside\.\w[\w.]*\w", re.sub(r"`[^`]*`", "", facts + functions + words)):
    assert name in known, name
seen = 0
for entity in root.iter("entity"):
    fields = classes[entity.get("name").replace("-", "_")]
    for fact in entity.iter("fact"):
        field, kind = fact.get("name").replace("-", "_"), fact.get("type")
        if kind in ("id", "text"):
            assert f"---@field {field} " not in fields or field == "label", field
            continue
        names = [f"{field}_{c.replace('-', '_')}" for c in fact.get("choices").split()] if kind == "set" else [field]
        for name in names:
            line = re.search(rf"^---@field {name} (\S+) (.*)$", fields, re.M)
            assert line, (entity.get("name"), name)
            wanted = {"flag": "boolean", "set": "boolean", "quantity": "tankside.quantity", "refs": "[]",
                      "word": '"', "choice": '"'}.get(kind, "tankside.")
            assert wanted in line[1], line[0]
            if kind not in ("ref", "refs"):
                assert fact.get("meaning") in line[2], line[0]
            if kind == "quantity":
                assert f"plausible: {fact.get('low')} to {fact.get('high')}" in line[2], line[0]
                assert not fact.get("unit") or f"in {fact.get('unit')}" in line[2], line[0]
            seen += 1
assert seen > 650, seen
for function in root.iter("function"):
    arguments = [a.get("name") for a in function.iter("argument")]
    assert f"function calc.{function.get('name')}({', '.join(arguments)}) end\n" in functions, function.get("name")
    block = functions[:functions.index(f"function calc.{function.get('name')}(")].split("\n\n")[-1]
    for argument in function.iter("argument"):
        line = re.search(rf"^---@param {argument.get('name')} .*$", block, re.M)[0]
        assert (argument.get("unit") or "a plain number") in line and argument.get("valid") in line, line
# Every word that the sandbox gives to a rule file, and every field that a declaration may have.
source = lambda name: open(sys.argv[1] + "/engine/rule/" + name, encoding="utf-8").read()
given = set()
for file in "words.c", "values.c", "library.c":
    given |= {w for w in re.findall(r'\{"(\w+)", \w+\}', source(file)) if not w.startswith("__")}
assert len(given) > 25, given
for word in given:
    assert re.search(rf"^function (\w+\.)?{word}\(", words, re.M), word
fields = set()
for file in "declare.c", "amend.c", "words.c", "instrument.c":
    for names in re.findall(r"(?:names|fields)\[\] = \{([^}]*)\}", source(file)):
        fields |= set(re.findall(r'"(\w+)"', names))
assert len(fields) > 40, fields
for field in fields:
    assert re.search(rf"^---@field {field}\??|\b{field}: ", words, re.M), field
for name in "scale.reserve(available, needed)", "example.like(facts, changes)", "ledge.half(whole)":
    assert f"function {name} end" in words, name
assert "---Half of what there is.\n" in words and "ledge.fewest = 0" in words
PY
python3 annotations.py "$SOURCE"

# What a rule may use and no more: every name that the sandbox knows is annotated.
"$TANKSIDE" rules check --pack own >checked 2>&1 || { cat checked; exit 1; }
cat >probe.lua <<'LUA'
local x = nonesuch
LUA
mkdir -p probe && mv probe.lua probe/
"$TANKSIDE" rules list --pack probe >out 2>&1 && exit 1
has out 'unknown name "nonesuch"'

# A dossier finds its schema by the line it begins with; the schema then says what is wrong.
cd show
{ sed -n 's/^  \(<?xml .*\)/\1/p; s/^  \(<?xml-model .*\)/\1/p; s/^    \(schematypens=.*\)/  \1/p' ../said
  sed '1{/^<?xml /d;}' "$lake"; } >dossier.xml
"$TANKSIDE" check dossier.xml >../read 2>&1
href=$(python3 - <<'PY'
import re
from xml.dom import minidom
for node in minidom.parse("dossier.xml").childNodes:
    if node.nodeType == node.PROCESSING_INSTRUCTION_NODE and node.target == "xml-model":
        said = dict(re.findall(r'([\w-]+)="([^"]*)"', node.data))
        assert said["schematypens"] == "http://relaxng.org/ns/structure/1.0"
        print(said["href"])
PY
)
jing "$href" dossier.xml
sed 's/<water temperature=/<water temprature=/' dossier.xml >wrong.xml
if jing "$href" wrong.xml >../jing; then echo "the schema takes an unknown fact"; exit 1; fi
has ../jing temprature

# Or by the locating rules, in the compact syntax.
compact=$(python3 - <<'PY'
import xml.etree.ElementTree as tree
ns = "{http://thaiopensource.com/ns/locating-rules/1.0}"
root = tree.parse("dossier.xml").getroot().tag
print(next(r.get("uri") for r in tree.parse("schemas.xml").getroot().iter(ns + "documentElement") if r.get("localName") == root))
PY
)
jing -c "$compact" dossier.xml
if jing -c "$compact" wrong.xml >/dev/null; then echo "the compact schema takes an unknown fact"; exit 1; fi
# The two syntaxes say the same.
trang tankside/dossier.rnc ../back.rng
jing ../back.rng dossier.xml
cd ..
count() { grep -c "<attribute name=" "$1"; }
[ "$(count back.rng)" = "$(count show/tankside/dossier.rng)" ]

# Again: the same bytes; what somebody has made their own is left alone, and said.
cp -R show before
"$TANKSIDE" vocabulary --editor -o show --pack own >said 2>err
rm before/dossier.xml before/wrong.xml show/dossier.xml show/wrong.xml
diff -r before show
[ ! -s err ]
echo '{}' >show/.luarc.json
"$TANKSIDE" vocabulary --editor -o show --pack own >said 2>err
has err '.luarc.json: warning: is there already and is left alone'
[ "$(cat show/.luarc.json)" = '{}' ]

status=0
"$TANKSIDE" vocabulary --editor >out 2>err || status=$?
[ $status -eq 2 ]
has err 'name their folder with -o'
