#!/bin/sh
# `tankside rules check`: everything that is wrong with a pack is found in one run, each with its line.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }
mkdir bad

cat >bad/00-controls.lua <<'LUA'
control {
  id = "bad.idle", title = "Does nothing", kind = "administrative", say = "Look at it.",
  check = "seen", often = "daily", who = "safety officer",
}
control {
  id = "bad.elsewhere", title = "Warm the water", kind = "engineering", say = "Heat it.",
  check = "seen", often = "daily", who = "safety officer",
  changes = { { fact = "water.temperature", at_least = "28 degC" } },
}
LUA

cat >bad/01-names.lua <<'LUA'
local function fit(i)
  return i.takes > 200 and i.persn.mass > q"60 kg"
end

rule {
  id = "bad.names", title = "Names that do not exist", each = "immersion", harm = "performer",
  sources = { "common practice" },
  assess = function (i)
    local site = i.site
    if i.depth > q"3 m" then
      hazard { likelihood = 3, severity = 3, because = "{i.depth} and {dpeth}",
        controls = { "bad.elsewhere", "depth-cup" }, also = { "depth-cap" } }
    elseif i.takes > 50 then
      count = 1
      note { because = "" .. site.water.tempratur .. calc.survival_tme(1) .. scael.missing
        .. scale.misssing }
    end
    if fit(i) or i.effort == "hrad" then note { because = "fit" } end
  end,
  examples = {
    { "deep", given = { depth = "4 m", takes = "1" }, expect = hazard { likelihood = 4, severity = 3 } },
    { "shallow", given = { depth = "2 m", takes = "1" }, expect = nothing },
  },
}
LUA

cat >bad/02-branches.lua <<'LUA'
rule {
  id = "bad.branches", title = "Branches no example takes", each = "immersion", harm = "performer",
  sources = { "common practice" },
  assess = function (i)
    local hard = i.effort == "hard" and i.escorted
    for _, worn in ipairs(i.wears) do
      if worn.covers_eyes then note { because = "eyes" } end
    end
    if hard and i.depth < q"3 m" and i.depth < q"-1 m" then
      stop { because = "never" }
    end
    local often, deep = i.takes > 9, i.depth > q"2 m"
    hazard { likelihood = i.takes > 20 and 4 or 2, severity = 3, because = "{i.depth}" }
  end,
  examples = {
    { "alone", given = { effort = "rest", escorted = "no", takes = "1", depth = "3 m", wears = "none" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "shallow", given = { effort = "rest", takes = "1", depth = "1 m", wears = "none" },
      expect = hazard { likelihood = 2, severity = 3 } },
  },
}
LUA

cat >bad/03-alike.lua <<'LUA'
local examples = {
  { "deep", given = { depth = "4 m" }, expect = hazard { likelihood = 3, severity = 3 } },
  { "shallow", given = { depth = "2 m" }, expect = nothing },
}
rule {
  id = "bad.deep", title = "Deeper than agreed", each = "immersion", harm = "performer: drowning",
  sources = { "common practice" }, examples = examples,
  assess = function (i)
    if i.depth > q"3 m" then hazard { likelihood = 3, severity = 3, because = "{i.depth}" } end
  end,
}
rule {
  id = "bad.deeper", title = "Too far down", each = "immersion", harm = "performer: drowning",
  sources = { "common practice" }, examples = examples,
  assess = function (i)
    local most = q"300 cm"
    if most < i.depth then hazard { likelihood = 3, severity = 3, because = "{i.depth}" } end
  end,
}
rule {
  id = "bad.named", title = "Deeper than agreeed", each = "immersion", harm = "performer: drowning",
  sources = { "common practice" },
  assess = function (i)
    if i.takes > 7 then note { because = "{i.takes}" } end
  end,
  examples = {
    { "many", given = { takes = "8" }, expect = note {} }, { "few", given = { takes = "2" }, expect = nothing },
  },
}
LUA

cat >bad/04-incomplete.lua <<'LUA'
rule {
  id = "bad.empty", each = "immersion",
  assess = function (i) end,
}
rule {
  id = "bad.unsourced", title = "Sourced by nothing", each = "site", harm = "crew", sources = { "" },
  assess = function (s) end,
}
rule {
  id = "bad.unproved", title = "No examples at all", each = "site", harm = "crew",
  sources = { "common practice" },
  assess = function (s) note { because = "so" } end,
}
LUA

cat >bad/05-equal.lua <<'LUA'
rule {
  id = "bad.equal", title = "Equal quantities", each = "immersion", harm = "performer",
  sources = { "common practice" },
  assess = function (i)
    if i.depth == i.entry_height then note { because = "so" } end
  end,
}
LUA

status=0
"$TANKSIDE" rules check --pack bad >out 2>err || status=$?
[ $status = 2 ] || { echo "exit status $status"; cat out err; exit 1; }

# Fields that are missing; what the lint refuses.
for line in \
  '04-incomplete.lua:1: error: rule: field "title" must be a text, and present' \
  '04-incomplete.lua:1: error: rule: field "harm" must be a text, and present' \
  '04-incomplete.lua:1: error: rule: field "sources" must be a list of texts, at least one' \
  '04-incomplete.lua:5: error: rule: field "sources" must be a list of texts, at least one' \
  '04-incomplete.lua:9: error: bad.unproved: a rule without examples' \
  '05-equal.lua:5: error: "==" and "~=" are only for a string'; do has err "bad/$line"; done

# Names that do not exist, in branches that no example comes to and in helpers too.
for line in \
  '01-names.lua:2: error: bad.names: immersion has no field "persn"; the nearest name is "person" (column 28)' \
  '01-names.lua:11: error: bad.names: "{dpeth}" in "because" is neither one of its values nor a fact' \
  '01-names.lua:12: error: control "depth-cup" is in no pack; the nearest name is "depth-cap"' \
  '01-names.lua:14: error: assignment to the global "count"; write "local" (column 7)' \
  '01-names.lua:15: error: bad.names: water has no field "tempratur"; the nearest name is "temperature"' \
  '01-names.lua:15: error: "calc" has no "survival_tme"; the nearest name is "survival_time" (column 54)' \
  '01-names.lua:15: error: unknown name "scael"; the nearest name is "scale"' \
  '01-names.lua:18: error: bad.names: "hrad" is no effort of immersion; the nearest name is "hard" (column 30)' \
  '01-names.lua:16: error: "scale" has no "misssing"; the nearest name is "missing" (column 12)'; do has err "bad/$line"; done
[ "$(grep -c 'has no field "tempratur"' err)" = 1 ]

# Examples, decisions and statements. Two comparisons on one line are told apart.
for line in \
  '01-names.lua:5: error: bad.names: example "deep": expected hazard 4 × 3, found 3 × 3' \
  '01-names.lua:2: warning: a helper: no example makes this comparison true: i.takes > 200 (column 10)' \
  '01-names.lua:13: warning: bad.names: no example makes this comparison true: i.takes > 50 (column 12)' \
  '02-branches.lua:5: warning: bad.branches: no example makes this comparison true: i.effort == "hard" (column 18)' \
  '02-branches.lua:7: warning: bad.branches: no example comes to this: if worn.covers_eyes' \
  '02-branches.lua:9: warning: bad.branches: no example makes this condition true: hard (column 8)' \
  '02-branches.lua:9: warning: bad.branches: no example makes this comparison true, and nothing plausible does: i.depth < q"-1 m"' \
  '02-branches.lua:12: warning: bad.branches: no example makes this comparison true: i.takes > 9 (column 25)'; do has err "bad/$line"; done
if grep -F 'i.depth > q"2 m"' err; then exit 1; fi # both ways over the two examples

# Controls and scores; rules that are alike.
for line in \
  '00-controls.lua:1: warning: control "bad.idle" neither lowers nor changes anything' \
  '00-controls.lua:1: warning: control "bad.idle": no rule names it' \
  '01-names.lua:12: warning: bad.names: control "bad.elsewhere" only changes water.temperature, which this rule does not read; list it in "also"' \
  '01-names.lua:12: warning: bad.names: control "depth-cap" changes the score; list it in "controls"' \
  '02-branches.lua:13: warning: bad.branches: likelihood is chosen by a comparison of its own and not by `scale`' \
  '03-alike.lua:12: warning: bad.deeper: reads the same facts and decides by the same values as "bad.deep" (bad/03-alike.lua:5)' \
  '03-alike.lua:20: warning: bad.named: its title is nearly that of "bad.deep" (bad/03-alike.lua:5)'; do has err "bad/$line"; done
grep -q '^[0-9]* of [0-9]* decisions seen both ways, [0-9]* of [0-9]* statements reached$' out

# Nothing is wrong with the packs that come with the program.
"$TANKSIDE" rules check >out 2>err || { cat err; exit 1; }
[ ! -s err ] || { cat err; exit 1; }
grep -q '^0 errors, 0 warnings$' out
