#!/bin/sh
# The pack of a site, used by the production that names it: its own facts are read, its rule
# and control count, the tightened limit and the raised scores show, and all of it is printed.
set -eu
cd "$WORK"
folder=$SOURCE/shared/productions/title-day
"$TANKSIDE" rules check --pack "$folder/osier-lane" >check.out 2>&1 || { cat check.out; exit 1; }
if grep 'osier-lane/' check.out; then exit 1; fi

assess() { # OUTPUT DOSSIER ARGUMENT...
  output=$1
  shift
  status=0
  "$TANKSIDE" assess "$@" -o "$output" --no-pdf >"$output.out" 2>"$output.err" || status=$?
  [ $status -eq 1 ] || { cat "$output.err"; exit 1; }
}
score() { # OUTPUT RULE SCORE
  xmllint --xpath "string(//finding[@rule='$2']/score[@as='$3']/@worst-likelihood)" "$1/assessment.xml"
}
assess with "$folder/dossier.xml"

# Once more without what makes rules stricter.
mkdir plain
cp -R "$folder/." plain/
awk '/^(tighten|raise) \{/ { skip = 1 } !skip { print } /^}/ { skip = 0 }' \
  "$folder/osier-lane/tank-2.lua" >plain/osier-lane/tank-2.lua
assess without plain/dossier.xml
# A wet deck: base 4, less three protections, and the step that was added.
[ "$(score without place.wet-deck described)" -eq 1 ]
[ "$(score with place.wet-deck described)" -eq 2 ]
# Ways out: base 4, less three protections: not found; 12 m to a ladder is no protection at 10 m.
[ -z "$(score without place.ways-out described)" ]
[ "$(score with place.ways-out described)" -eq 2 ]

# Its own rule: 1.1 m over the ledge where 1.5 m is the least, escorted: base 3, one more, one less;
# the line of floats in place takes one more.
[ "$(score with osier-lane.ledge described)" -eq 3 ]
[ "$(score with osier-lane.ledge in-place)" -eq 2 ]

has() { grep -qF -e "$1" with/assessment.html || { echo "not on the paper: $1"; exit 1; }; }
has 'limit spacing: 15 m → 10 m'
has 'Likelihood +1'
has 'osier-lane/tank-2.lua:'
has 'D. Marsh, line producer'
has 'The fifth ladder comes on 19 May'
has 'Line of floats along the ledge'
has 'First issue'

"$TANKSIDE" rules explain place.ways-out --pack "$folder/osier-lane" >explain.out
grep -q '  spacing: at most 15 m, tightened to 10 m' explain.out

# A dossier names folders beside itself only.
sed 's/packs="osier-lane"/packs="..\/with nowhere"/' plain/dossier.xml >plain/astray.xml
status=0
"$TANKSIDE" check plain/astray.xml >astray.out 2>&1 || status=$?
[ $status -eq 2 ]
grep -q 'astray.xml: error: "../with" in "packs" is no folder beside the dossier' astray.out
grep -q 'astray.xml: error: "nowhere" in "packs" is no folder beside the dossier' astray.out
