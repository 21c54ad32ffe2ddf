#!/bin/sh
# `tankside rules try` and `rules explain`: one rule over a dossier, and by itself.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }
lake=$SOURCE/shared/productions/lake-stunt/dossier.xml

mkdir -p own
cat >own/own.lua <<'LUA'
rule {
  id = "own.deep", title = "Deeper than agreed", each = "immersion", harm = "performer: drowning",
  sources = { "common practice" },
  when = function (i) return i.takes > 2 end,
  assess = function (i)
    if i.depth > q"3 m" then
      hazard { likelihood = 3, severity = 3, because = "as deep as {i.depth}", controls = { "depth-cap" } }
    end
  end,
  examples = {
    { "deep", given = { depth = "4 m", takes = "3" }, expect = hazard { likelihood = 3, severity = 3 } },
    { "shallow", given = { depth = "2 m", takes = "3" }, expect = nothing },
    { "twice", given = { depth = "4 m", takes = "2" }, expect = nothing },
    { "unknown", given = {}, expect = hazard { likelihood = 3, severity = 3 } },
  },
}
LUA

"$TANKSIDE" rules try own.deep "$lake" --pack own --set chase/hal/depth=2..4m --set chase/hal/takes=5 \
  --set dusk/hal/takes=2 >out
has out 'own.deep  Deeper than agreed'
has out 'asked of each immersion; own/own.lua:'
has out 'chase/hal  Hal Brisco'
has out 'when depth ('
has out 'hazard 3 × 3 = 9: as deep as'
has out 'does not apply: takes (2) ≤ 2'
"$TANKSIDE" rules explain own.deep --pack own >page
for part in 'Applies when takes above 2' 'Looks at' 'immersion depth: ' 'Can say' \
  'hazard: likelihood 3, severity 3' '  nothing' 'Its example: deep' \
  'depth-cap: ' 'Sources' 'common practice' '4 examples'; do
  has page "$part"
done

# One fact after another is changed, the others left as in the example.
python3 - page <<'PY'
import re, sys
page = open(sys.argv[1], encoding="utf-8").read()
table = page[page.index("What it says, at worst"):page.index("* as in the example")]
rows = [re.split(r" {2,}", line.strip()) for line in table.splitlines()[1:] if line.strip()]
assert rows == [["depth", "below 3 m", "nothing"], ["from 3 m", "hazard 3 × 3 = 9 *"],
                ["takes", "below 3", "does not apply"], ["from 3", "hazard 3 × 3 = 9 *"]], rows
PY

# Every shipped rule can be explained, in lines that fit a terminal.
"$TANKSIDE" rules list | sed -n 's/^\([a-z0-9.-]*\.[a-z0-9.-]*\) .*/\1/p' | head -n 12 >ids
[ -s ids ]
while IFS= read -r id; do
  "$TANKSIDE" rules explain "$id" </dev/null
done <ids >pages
python3 - pages out page <<'PY'
import sys
for name in sys.argv[1:]:
    for line in open(name, encoding="utf-8"):
        assert len(line.rstrip("\n")) <= 80, line
PY

# A rule begun from a fact passes its own check at once, whatever kind of fact it is.
"$TANKSIDE" rules new ledge.deep immersion.depth above '3 m' -o ledge/deep.lua
"$TANKSIDE" rules new ledge.cold water.temperature below '20 degC' -o ledge/cold.lua
"$TANKSIDE" rules new ledge.many immersion.takes above 12 -o ledge/many.lua
"$TANKSIDE" rules new ledge.alone immersion.gives-up-gas is yes -o ledge/alone.lua
"$TANKSIDE" rules new ledge.hard immersion.effort is hard -o ledge/hard.lua
"$TANKSIDE" rules check --pack ledge >checked 2>found
has checked '0 errors'
if grep '^ledge/' found; then exit 1; fi
"$TANKSIDE" rules list --pack ledge | grep -c '^ledge\.' >count
[ "$(cat count)" = 5 ]
"$TANKSIDE" rules new ledge.deep immersion.depth above '3 m' | diff - ledge/deep.lua

refused() {
  status=0
  "$TANKSIDE" rules "$@" >err 2>&1 || status=$?
  [ $status -eq 2 ] || { echo "exit status $status: $*"; cat err; exit 1; }
}
refused explain own.deeep --pack own
has err 'the nearest is "own.deep"'
refused try own.deep --pack own
has err 'usage: tankside rules try RULE DOSSIER'
refused try own.deep no-such-file.xml --pack own
refused trie
has err 'the nearest is "try"'
refused new ledge.deep immersion.depth above '3 m' -o ledge/deep.lua
has err 'is there already'
refused new ledge.deep immersion.dept above '3 m'
has err 'the nearest is "depth"'
refused new ledge.deep immersion.depth above 3
has err 'bare number'
refused new ledge.deep immersion.depth over '3 m'
refused new ledge.deep immersion.depth is '3 m'
has err 'cannot be asked with "is"'
refused new Deep immersion.depth above '3 m'
has err 'is no id for a rule'
refused new ledge.hard immersion.effort is hrad
has err 'the nearest is "hard"'
