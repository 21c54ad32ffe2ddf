#!/bin/sh
# The generated schema and the reader agree: whatever the reader takes the schema
# takes, and what is wrong in structure both refuse.
# Environment: TANKSIDE (the program), SOURCE (the project), WORK (a scratch folder).
set -eu

schema=$WORK/dossier.rng
"$TANKSIDE" vocabulary --as schema >"$schema"
failed=0

fail() {
  echo "schema_agrees: $1" >&2
  failed=1
}

schema_takes() { jing "$schema" "$1" >"$WORK/jing.txt" 2>&1; }
reader_takes() { "$TANKSIDE" check "$1" >"$WORK/check.txt" 2>&1; }

seen=0
for file in "$SOURCE"/tests/dossiers/good/*.xml "$SOURCE"/tests/dossiers/good/*/*.xml \
  "$SOURCE"/tests/dossiers/good/*/*/*.xml "$SOURCE"/shared/productions/*/*.xml; do
  [ -f "$file" ] || continue
  seen=$((seen + 1))
  schema_takes "$file" || fail "the schema refuses $file: $(head -n 1 "$WORK/jing.txt")"
done
[ "$seen" -ge 8 ] || fail "only $seen good dossiers were found"

for file in "$SOURCE"/tests/dossiers/good/*.xml "$SOURCE"/tests/dossiers/good/*/dossier.xml \
  "$SOURCE"/shared/productions/*/dossier.xml; do
  [ -f "$file" ] || continue
  reader_takes "$file" || fail "the reader refuses $file: $(head -n 1 "$WORK/check.txt")"
done

refused=0
for file in "$SOURCE"/tests/dossiers/bad/*.xml "$SOURCE"/tests/dossiers/bad/*/dossier.xml; do
  word=$(sed -n 's/^schema: //p' "$file")
  if reader_takes "$file"; then fail "the reader takes $file"; fi
  case $word in
  accepts) schema_takes "$file" || fail "the schema refuses $file: $(head -n 1 "$WORK/jing.txt")" ;;
  refuses)
    refused=$((refused + 1))
    if schema_takes "$file"; then fail "the schema takes $file"; fi
    ;;
  *) fail "$file does not say what the schema does with it" ;;
  esac
done
[ "$refused" -ge 10 ] || fail "only $refused dossiers that both refuse were found"
exit "$failed"
