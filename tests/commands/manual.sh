#!/bin/sh
# The manual pages: troff finds nothing wrong, every command, option, element, fact and word of rule
# files has its entry, and what they show works.
set -eu
cd "$WORK"
cmake -DPROGRAM="$TANKSIDE" -DPAGE="$SOURCE/shared/man/tankside-dossier.5.in" \
  -DWRITTEN=tankside-dossier.5 -P "$SOURCE/shared/cmake/man.cmake"
cp "$SOURCE/shared/man/tankside.1" "$SOURCE/shared/man/tankside-rules.5" .
for page in tankside.1 tankside-dossier.5 tankside-rules.5; do
  if command -v groff >/dev/null; then
    groff -Kutf8 -man -Tutf8 -ww -rLL=80n -rHY=0 -P-cbou $page >plain 2>warnings
    [ ! -s warnings ] || { cat warnings; exit 1; }
    LC_ALL=C awk '{ n = $0; gsub(/[\200-\277]/, "", n) } length(n) > 80 { print "wide: " $0; bad = 1 } END { exit bad }' plain
  fi
  if command -v mandoc >/dev/null; then mandoc -T lint -W warning $page; fi
done

# An entry is the line after .TP: requests, quotes and escapes taken out.
entries() { # PAGE FROM-SECTION TO-SECTION
  sed -n "/^\.SH $2/,/^\.SH $3/p" "$1" | sed -n '/^\.TP/{n;p;}' |
    sed 's/^\.[BIR]* //; s/\\-/-/g; s/\\f.//g; s/"//g'
}
entries tankside.1 COMMANDS OPTIONS >entries
for verb in $("$TANKSIDE" completions words -- '' | cut -f1 | grep -v '^-\|^help$'); do
  grep -q "^$verb\b" entries || { echo "tankside(1) does not tell of $verb"; exit 1; }
  "$TANKSIDE" completions words -- "$verb" - | cut -f1
done | sort -u >options
grep -q "does not tell" options && { cat options; exit 1; }
for action in $("$TANKSIDE" completions words -- rules ''); do
  grep -q "^rules $action\b" entries || { echo "no rules $action"; exit 1; }
done
entries tankside.1 OPTIONS "BOOK\|SUMMARY" | cut -d' ' -f1 | sort -u >entries
[ "$(wc -l <options)" -ge 20 ]
while read -r option; do
  grep -qxF -e "$option" entries || { echo "tankside(1) does not tell of $option"; exit 1; }
done <options
# And of none that there is not.
while read -r option; do
  [ "$option" = --version ] || grep -qxF -e "$option" options || { echo "there is no $option"; exit 1; }
done <entries

# Elements and facts: what can be written, in the order of the vocabulary.
"$TANKSIDE" vocabulary >vocabulary
sed -n 's/^\([a-z][a-z-]*\): .*/\1/p' vocabulary | grep -vx person-day >elements
sed -n 's/^\.SS //p' tankside-dossier.5 | sed 's/\\-/-/g' >told
cmp elements told
[ "$(sed -n '/^\.SH ELEMENTS/,/^\.SH CHECKS/p' tankside-dossier.5 | grep -c '^\.TP')" -ge 350 ]
entries tankside-dossier.5 ELEMENTS CHECKS >told
for fact in breath-hold free-chlorine hospital standby-divers; do grep -qx "$fact" told; done
if grep -qx age-at-start told; then echo "what is worked out is not written"; exit 1; fi

# The dossier that is shown reads; so does each way of writing a value that it names.
sed -n '/^<?xml/,/^<\/dossier>/p' tankside-dossier.5 | sed 's/\\(+-/±/; s/\\-/-/g' >shown.xml
"$TANKSIDE" check shown.xml >said 2>err || { cat err; exit 1; }
[ ! -s err ] || { cat err; exit 1; }
with() { "$TANKSIDE" check shown.xml --set "$1" >said 2>err || { cat err; exit 1; }; }
with 'tank-2/basin/depth=14 ft'
with 'tank-2/basin/depth=3.8..4.5 m'
with 'nia/height=5 ft 7 in'
with 'nia/height=1.7 ± 0.1 m'
with 'd1t1/action=swim|stand'
with 'd1t1/involves=rain wind?'
with 'd1t1/finish=25:30'
with 'nia/swim-tested-on=2027-03'
with 'nia/swim-tested-on=2027-03-01..2027-03-09'
with 'production/crew=30..40'
with 'd1t1/post-1/ready-time=?'

# The rule that is shown passes its own examples; the words of rule files are all there.
mkdir -p quay
sed -n '/^rule {/,/^}/p' tankside-rules.5 | sed 's/\\-/-/g' >quay/mud.lua
"$TANKSIDE" rules check --pack quay >said 2>err || { cat said err; exit 1; }
grep -q "5 of\|0 errors, 0 warnings" said
sed 's/\\-/-/g; s/\\(dq/"/g' tankside-rules.5 >told
for word in $(sed -n 's/^function \([a-z.]*\)(.*/\1/p; s/^---@field \([a-z_]*\)?* .*/\1/p' \
  "$SOURCE/shared/schema/editor/words.lua" | sort -u); do
  grep -qw "$word" told || { echo "tankside-rules(5) does not tell of $word"; exit 1; }
done
