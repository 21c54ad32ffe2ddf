#!/bin/sh
# `tankside rules`: every rule is listed with where it stands; a pack of one's own is checked.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }

mkdir -p own
cat >own/own.lua <<'LUA'
rule {
  id = "own.deep", title = "Deeper than agreed", each = "immersion", harm = "performer: drowning",
  sources = { "common practice" },
  assess = function (i)
    if i.depth > q"3 m" then
      hazard { likelihood = 3, severity = 3, because = "{i.depth}", controls = {} }
    end
  end,
  examples = {
    { "deep", given = { depth = "4 m" }, expect = hazard { likelihood = 3, severity = 3 } },
    { "shallow", given = { depth = "2 m" }, expect = nothing },
    { "unknown", given = {}, expect = hazard { likelihood = 3, severity = 3 } },
  },
}
LUA
"$TANKSIDE" rules list --pack own >list
has list "own.deep"
has list "(own/own.lua:1)"

# The one that does not come out is said, with its line.
sed 's/depth = "2 m"/depth = "5 m"/' own/own.lua >own/other.lua
sed -i 's/own.deep/own.other/' own/other.lua
status=0
"$TANKSIDE" rules check --pack own >out 2>err || status=$?
[ $status = 1 ] || { echo "exit status $status"; cat out err; exit 1; }
grep -q 'other.lua:[0-9]*: error: ' err || { cat err; exit 1; }
