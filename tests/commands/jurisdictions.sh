#!/bin/sh
# The law of one place is not that of another: one child and one day, changed fact by fact, each
# outcome worked out by hand from the law. The demo productions under every law are a suite
# (jurisdictions). And: what is superseded is no rule, each duty says since when its law holds, what
# shows it is met, and whether its text has still to be read.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; head -n 40 "$1"; exit 1; }; }

# Born 2015-03-09: twelve on the day. A day within every law, a school day, not at school before.
dossier() { # JURISDICTION
  cat <<XML
<dossier format="1" units="metric">
  <production title="One child, one day" jurisdiction="$1" revision="1" on="2027-03-01" by="A. Officer"
              review-by="2027-03-10"/>
  <site id="pool" water-body="pool"/>
  <person id="kim" role="performer" born="2015-03-09" school-age="yes"/>
  <day date="2027-03-09" site="pool" child-call="10:00" child-wrap="14:00" child-meal-break="0 min"
       child-second-meal="0 min" child-short-breaks="0" child-attended-school="no" child-one-day="no"
       child-performing-time="2 h" child-continuous-time="30 min" child-rest-before="20 h"
       child-night-permission="no" child-night-before="no" school-day="yes" next-school-day="yes"
       performances="0" children="1" chaperones="1" teachers="1" school-days-away="1">
    <task id="t1" title="Swims" start="10:30" finish="11:00">
      <immersion person="kim" wears="none"/>
    </task>
  </day>
</dossier>
XML
}
for place in gb-eng gb-sct us-fed us-ca us-ny; do dossier $place >$place.xml; done

# RULE | what is otherwise, of day 2027-03-09 | gb-eng gb-sct us-ca us-ny | why.
# A cell is met, not, open, none (does not apply), or - (the law of that place has no such rule).
cat >cases <<'TABLE'
children.hours-at-place|child-wrap=19:00|met met met met|9 h
children.hours-at-place|child-wrap=19:20|met met not met-|9 h 20 min: 9.5 h in Great Britain, 9 h in America
children.hours-at-place|child-wrap=19:20 child-meal-break=30min|met met met not|a meal lengthens the day in California alone
children.hours-at-place|child-wrap=15:00 child-attended-school=yes|met met not met|5 h after school: six hours less in California, three in New York
children.hours-at-place|child-wrap=13:00 child-attended-school=yes|met met met met|3 h after school
children.hours-at-place|child-wrap=16:30 child-attended-school=yes|met met not not|6 h 30 min after school
children.hours-at-place|child-wrap=20:30 child-one-day=yes|not not not met|10 h 30 min on a day that stands alone: two hours more in New York
children.performing|child-performing-time=4.5h|met not - -|5 h in England, 4 h in Scotland
children.work|child-performing-time=5.5h|- - not not|5 h on a school day
children.work|child-performing-time=5.5h school-day=no|- - met met|7 h without school
children.continuous|child-continuous-time=2h|met not - -|2 h 30 min in England, 1 h in Scotland
children.times-of-day|child-call=06:00|not not met met|7:00 in Great Britain, 5:00 in America
children.times-of-day|child-call=16:00 child-wrap=22:30|met met not not|23:00 at twelve in Great Britain, 22:00 before a school day in America
children.times-of-day|child-call=16:00 child-wrap=22:30 performances=1|met met not met|live performance to midnight in New York
children.times-of-day|child-call=16:00 child-wrap=24:15 next-school-day=no|not not met met|to half past midnight in America
children.times-of-day|child-call=16:00 child-wrap=24:15 next-school-day=no child-night-permission=yes|met met met met|by leave in Great Britain
children.breaks|child-wrap=13:45|none not - -|3 h 45 min: from 4 h in England, from 3.5 h in Scotland
children.breaks|child-wrap=16:00 child-meal-break=45min child-short-breaks=1|met not - -|a meal of 45 min or of an hour
children.overnight|child-rest-before=12h|met met - -|12 h; the Regulations of 1968 wanted 14
children.overnight|child-rest-before=12h child-night-before=yes|not not - -|16 h after a night
children.rest|child-rest-before=11h|- - not not|12 h
children.times-of-day|child-call=08:00|met met met met|the Regulations of 1968 began at 10:00
children.times-of-day|child-call=16:00 child-wrap=22:45|met met not not|the Regulations of 1968 ended at 22:00 under thirteen
children.two-performances|performances=2 performance-gap=1.5h|met - - -|1 h 30 min
children.chaperones|children=12|met met - -|twelve for one chaperone
children.studio-teacher|children=12|- - not -|ten for one teacher on a school day
children.studio-teacher|children=12 school-day=no|- - met -|twenty without school
children.adults|children=20|- - - met|twenty for one adult
children.teacher|teachers=0|- none - not|Scotland: from the sixth school day
children.teacher|teachers=0 school-days-away=6|- not - not|the sixth school day
children.teacher|teachers=0 child-attended-school=yes|- none - none|came from school
children.guardian|child-guardian-near=no|- - not -|within sight or sound
children.responsible-person|child-guardian-near=no|- - - not|within sight or sound
TABLE
sed -i 's/met-|/not|/; s/\([0-9]\)min/\1 min/g; s/\([0-9]\)h\b/\1 h/g' cases

said() { # PLACE RULE CHANGES: what the rule says, as one word
  set -f
  changes=$(printf '%s' "$3" | sed 's/ \([a-z-]*=\)/\n\1/g')
  old=$IFS IFS='
'
  sets=
  for change in $changes; do sets="$sets
--set
2027-03-09/$change"; done
  "$TANKSIDE" rules try "$1.$2" "$1.xml" $sets >out 2>err || { [ $? -le 1 ] || { cat err; exit 1; }; }
  IFS=$old
  set +f
  if grep -q '    duty not met:' out; then echo not
  elif grep -q '    duty open:' out; then echo open
  elif grep -q '    duty met:' out; then echo met
  else echo none; fi
}
rows=0
while IFS='|' read -r rule changes cells why; do
  set -- $cells
  for place in gb-eng gb-sct us-ca us-ny; do
    wanted=$1
    shift
    if [ "$wanted" = - ]; then
      if grep -q "\"$place.$rule\"" "$SOURCE"/rules/$place/*.lua; then
        echo "$place has a rule $rule that the table does not know"; exit 1
      fi
      continue
    fi
    found=$(said $place "$rule" "$changes")
    [ "$found" = "$wanted" ] || { echo "$place.$rule with $changes: $found, not $wanted ($why)"; cat out err; exit 1; }
  done
  rows=$((rows + 1))
done <cases
[ $rows -ge 30 ] || { echo "only $rows rows"; exit 1; }

# School age: over at sixteen in Scotland once a leaving date has passed, in England in June.
age() { # PLACE BORN SCHOOL-AGE
  "$TANKSIDE" rules try "$1.children.hours-at-place" "$1.xml" --set "kim/born=$2" \
    --set "kim/school-age=$3" --set 2027-03-09/child-wrap=20:30 >out 2>err || [ $? -le 1 ]
  if grep -q 'duty not met:' out; then echo child; else echo adult; fi
}
for row in 'gb-eng 2011-03-10 no child' 'gb-eng 2011-03-09 yes child' 'gb-eng 2011-03-09 no adult' \
  'gb-sct 2011-03-10 no adult' 'gb-sct 2011-03-10 yes child' 'gb-sct 2011-08-01 no child' \
  'gb-sct 2010-11-01 yes adult' 'us-ca 2009-03-10 no child' 'us-ny 2009-03-09 yes adult'; do
  set -- $row
  [ "$(age $1 $2 $3)" = "$4" ] || { echo "$row: otherwise"; cat out err; exit 1; }
done

# A jurisdiction's rules are its own and its country's, and no other's.
packs() { "$TANKSIDE" rules list --where "jurisdiction=$1" | sed -n 's/.*(\([a-z-]*\)\/.*/\1/p' | sort -u | tr '\n' ' '; }
[ "$(packs gb-sct)" = "common gb gb-sct " ] || { packs gb-sct; exit 1; }
[ "$(packs us-ca)" = "common us-ca us-fed " ] || { packs us-ca; exit 1; }

# Superseded law is nobody's instrument; what is not read says so, in the list of rules too.
if grep -rn 'SI 1968\|1968/1728' "$SOURCE"/rules; then exit 1; fi
"$TANKSIDE" assess gb-eng.xml -o paper --no-pdf >/dev/null 2>err || [ $? -le 1 ]
grep 'rule="gb-eng.children.hours-at-place"' paper/assessment.xml >duty
has duty 'in-force-from="2015-02-06"'
has duty 'check-the-text="yes"'
has duty 'evidence="the day'\''s record of when the child came and left"'
grep 'rule="gb.diving.record-kept"\|rule="gb.management.review"' paper/assessment.xml >read
if grep 'check-the-text' read; then exit 1; fi
has paper/assessment.html 'in force from 2015-02-06'
has paper/assessment.html 'Evidence that it is met: the day'
