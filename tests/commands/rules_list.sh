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

# Only those asked for: every --where must hold.
lists() { # FILTERS... : the ids
  for filter in "$@"; do set -- "$@" --where "$filter"; shift; done
  "$TANKSIDE" rules list --pack own "$@" | sed -n 's/^\([a-z0-9-]*\.[a-z0-9.-]*\) .*/\1/p'
}
[ "$(lists pack=own)" = "$(printf 'own.deep\nown.other')" ]
[ "$(lists pack=own fact=immersion.depth 'title=THAN AGREED' topic=own subject=immersion)" = \
  "$(printf 'own.deep\nown.other')" ]
lists fact=immersion.depth >read
for id in own.deep air.ears; do grep -qx "$id" read; done
if grep -qx 'records.near-miss' read; then exit 1; fi
lists control=depth-cap | grep -qx air.ears
if lists control=depth-cap | grep -x own.deep; then exit 1; fi
[ "$(lists source='atlas of emergency')" = air.ears ]
lists jurisdiction=gb-eng >england
for id in air.ears gb.work.edge; do grep -qx "$id" england; done
if lists jurisdiction=us-ca | grep '^gb-'; then exit 1; fi

wrong() { # FILTER MESSAGE
  if "$TANKSIDE" rules list --where "$1" >out 2>err; then exit 1; fi
  has err "$2"
}
wrong fact=immersion.dept 'unknown fact "immersion.dept"; the nearest is "immersion.depth"'
wrong control=depth-cup 'the nearest is "depth-cap"'
wrong subject=imersion 'the nearest is "immersion"'
wrong topik=air 'the nearest is "topic"'
wrong depth 'write --where FIELD=TEXT'

# For a spreadsheet: a comma, a quote and a line break stay in their cell; nothing runs as a formula.
cat >own/sheet.lua <<'LUA'
rule {
  id = "own.sheet", title = "=1+1", each = "immersion", harm = "@crew, \"all\"\nof them",
  sources = { "common practice", "-2" },
  assess = function (i)
    if i.takes > 7 then note { because = "{i.takes}", controls = { "take-counter", "depth-cap" } } end
  end,
  examples = {
    { "many", given = { takes = "8" }, expect = note {} }, { "few", given = { takes = "2" }, expect = nothing },
  },
}
LUA
"$TANKSIDE" rules list --pack own --where pack=own --as csv >own.csv
python3 - own.csv <<'PY'
import csv, sys
raw = open(sys.argv[1], "rb").read()
assert raw.count(b"\r\n") == 4 and raw.endswith(b"\r\n")
rows = list(csv.reader(open(sys.argv[1], encoding="utf-8", newline=""), strict=True))
assert rows[0] == ["id", "subject", "title", "harm", "sources", "pack", "file", "line", "examples", "controls"]
assert [row[0] for row in rows[1:]] == ["own.deep", "own.other", "own.sheet"]
assert rows[3] == ["own.sheet", "immersion", "'=1+1", "'@crew, \"all\"\nof them", "common practice; -2", "own",
                   "sheet.lua", "1", "2", "take-counter; depth-cap"], rows[3]
for row in rows:
    for cell in row:
        assert not cell or cell[0] not in "=+-@\t\r", cell
PY
if "$TANKSIDE" rules list --as cvs >out 2>err; then exit 1; fi
has err 'the nearest is "csv"'
