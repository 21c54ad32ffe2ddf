#!/bin/sh
# `tankside rules new` without words asks for them, one line each; what it writes passes its own check.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }

# Every answer given, with a wrong one and a "?" on the way.
"$TANKSIDE" rules new >out 2>asked <<'ANSWERS'
imersion
?
immersion
dept
?
depth
over
below
4
4 m
A "shallow" landing
performer: hits the bottom
likly
likely
?
5
depth-cup
depth-cap, take-counter
Ledge
ledge.shallow
ledge/shallow.lua
ANSWERS
has out 'written to ledge/shallow.lua'
for said in 'the nearest is "immersion"' 'one person in the water in one task' 'the nearest is "depth"' \
  'greatest depth' 'unknown comparison "over"' 'bare number "4"' 'Likelihood [possible]:' \
  'the nearest is "likely"' 'death, or permanent injury' 'the nearest is "depth-cap"' \
  'is no id for a rule' 'File [ledge/shallow.lua]:'; do has asked "$said"; done
for line in 'id = "ledge.shallow"' 'title = "A \"shallow\" landing"' 'each = "immersion"' \
  'harm = "performer: hits the bottom"' 'if i.depth < q"4 m" then' 'likelihood = 4,' 'severity = 5,' \
  'controls = { "depth-cap", "take-counter" }'; do has ledge/shallow.lua "$line"; done

# Nothing said: what stands in brackets is taken, to the end.
"$TANKSIDE" rules new -o ledge/bare.lua </dev/null >out 2>asked
has ledge/bare.lua 'if i.depth > q"'
has ledge/bare.lua 'likelihood = 3,'

# A choice and a yes or no are only compared with words.
printf 'immersion\neffort\n\nhard\n\n\n\n\n\nledge.hard\n-\n' | "$TANKSIDE" rules new >hard 2>asked
has hard 'if i.effort == "hard" then'
has asked 'Above, below, or is [is]:'
cp hard ledge/hard.lua

"$TANKSIDE" rules check --pack ledge >checked 2>found || { cat found; exit 1; }
if grep '^ledge/' found | grep -v 'take-counter'; then exit 1; fi
"$TANKSIDE" rules list --pack ledge --where pack=ledge | grep -c '^\(ledge\|own\)\.' >count
[ "$(cat count)" = 3 ]

# What is there already is left alone.
status=0
"$TANKSIDE" rules new -o ledge/bare.lua </dev/null >out 2>err || status=$?
[ $status = 2 ]
has err 'is there already and is left alone'
