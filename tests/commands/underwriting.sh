#!/bin/sh
# The reviewer's pack, by name, over the serial in the tank: what its dossier says, worked out by hand.
set -eu
cd "$WORK"
status=0
"$TANKSIDE" assess "$SOURCE/shared/productions/tank-serial/dossier.xml" --pack underwriting \
  -o out --no-pdf >assess.out 2>assess.err || status=$?
[ $status -eq 1 ] || { cat assess.err; exit 1; }

failed=0
found() { # RULE SUBJECT LIKELIHOOD WORDS
  finding="//finding[@rule='underwriting.$1' and @subject='$2']"
  said=$(xmllint --xpath "string($finding/score[@as='in-place']/@worst-likelihood)" out/assessment.xml)
  words=$(xmllint --xpath "string($finding/because)" out/assessment.xml)
  [ "$said" = "$3" ] || { echo "$1 on $2: likelihood $said, expected $3"; failed=1; }
  case $words in *"$4"*) ;; *) echo "$1 on $2: \"$words\""; failed=1 ;; esac
}
none() { # RULE
  count=$(xmllint --xpath "count(//finding[@rule='underwriting.$1'])" out/assessment.xml)
  [ "$count" = 0 ] || { echo "$1: $count findings"; failed=1; }
  # It was looked at all the same.
  [ "$(xmllint --xpath "count(//looked-at/rule[@id='underwriting.$1'])" out/assessment.xml)" = 1 ] ||
    { echo "$1 was not looked at"; failed=1; }
}

# Revised on 10 March, last day 13 March 2027. Sol's certificate ends on the 12th; Bram was found
# fit on 20 February 2026, a year and 18 days before.
found qualification sol 4 'runs out on 12 March 2027'
found fit-to-dive bram 5 'had run out on 20 February 2027'
# Seven <evidence>; one waiver, until the 14th, by the production manager.
found evidence-missing production 3 '7 pieces of evidence'
none waivers-many
none waiver-reach
none waiver-by-author
none hours-production
none accumulation
# The chapel has one way out, and an attendant inside.
found one-way-out-of-chamber chapel 2 'an attendant inside: yes'
# Ines is 12: 14 minutes in the log of day 2 are within the first quarter of an hour.
found minors ines@2027-03-09 1 '14 min'

# What low scores rest on: each fact listed is not known, each finding named is below the line and
# rests on it, and no low finding that rests on an unknown fact is left out.
x() { xmllint --xpath "$1" out/assessment.xml; }
[ "$(x 'number(//reliance/@facts)')" = "$(x '//reliance/@unknown + //reliance/@with-evidence + //reliance/@without-evidence')" ]
[ "$(x 'count(//reliance/fact)')" -gt 0 ]
[ "$(x 'count(//reliance/fact[not(@path = //open-facts/fact[not(@now)]/@path)])')" = 0 ]
low='//finding[@word="hazard"][score[@as="in-place"]/@worst-band = /assessment/matrix/band[@above="no"]/@id]'
named=$(x '//reliance/fact/@findings' | sed 's/findings=//' | tr -d '"' | tr ' ' '\n' | grep . | sort -u)
for id in $named; do
  [ "$(x "count($low[@id='$id'])")" = 1 ] || { echo "$id is not low"; failed=1; }
done
[ "$(echo "$named" | wc -l)" -ge "$(x "count($low[rests[@state='unknown']])")" ] ||
  { echo "a low finding that rests on an unknown fact is left out"; failed=1; }
grep -q 'What low scores rest on' out/assessment.html
exit $failed
