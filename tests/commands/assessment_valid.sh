#!/bin/sh
# What `tankside assess` writes for each demo production keeps to the published format,
# and its counts are those of what it lists.
set -eu
cd "$WORK"
command -v jing >/dev/null 2>&1 || { echo "jing is not installed"; exit 77; }
command -v xmllint >/dev/null 2>&1 || { echo "xmllint is not installed"; exit 77; }

count() { xmllint --xpath "count($1)" "$2"; }
equal() { # WHAT FILE ATTRIBUTE XPATH
  said=$(xmllint --xpath "string(/assessment/@$3)" "$2")
  found=$(count "$4" "$2")
  [ "$said" = "$found" ] || { echo "$1: $3 says $said, there are $found"; exit 1; }
}

for dossier in "$SOURCE"/shared/productions/*/dossier.xml; do
  name=$(basename "$(dirname "$dossier")")
  status=0
  file=$name.xml
  "$TANKSIDE" assess "$dossier" -o "$file" >"$name.out" 2>"$name.err" || status=$?
  [ $status -le 1 ] || { cat "$name.err"; exit 1; }
  jing "$SOURCE/shared/schema/assessment.rng" "$file"
  place='score[@as="in-place"]'
  equal "$name" "$file" stops "//finding[@word='stop'][$place[@state!='gone']]"
  equal "$name" "$file" above "//finding[not(@waived-by)][$place/@worst-band = /assessment/matrix/band[@above='yes']/@id]"
  equal "$name" "$file" open "//open-facts/fact[@state='unknown']"
  equal "$name" "$file" duties-not-met "//duty[@state-in-place='not-met']"
  equal "$name" "$file" duties-open "//duty[@state-in-place='open']"
  equal "$name" "$file" failed "//failures/failure"
  # Every finding that an open fact names is there, and every fact a finding rests on is listed.
  [ "$(count "//finding" "$file")" -gt 0 ]
  [ "$(count "//finding[not(because) or not(source)]" "$file")" = 0 ]
  [ "$(count "//rests[@assumed='no' and @state='unknown']" "$file")" = 0 ]
  # The same again with the other matrix.
  status=0
  "$TANKSIDE" assess "$dossier" --matrix mil-std-882e -o "$name-mil.xml" >/dev/null 2>&1 || status=$?
  [ $status -le 1 ]
  jing "$SOURCE/shared/schema/assessment.rng" "$name-mil.xml"
done
