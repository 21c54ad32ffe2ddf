#!/bin/sh
# Nothing of somebody else's is lost: what tankside did not write, what was changed or signed since,
# the set of another run at the same moment. What an earlier run wrote and this one did not goes.
set -eu
cd "$WORK"
dossier=$SOURCE/shared/productions/title-day/dossier.xml
fail() { echo "$*"; exit 1; }

# run STATUS ARGUMENT...: standard error goes to err.
run() {
  wanted=$1 status=0
  shift
  "$TANKSIDE" "$@" >out 2>err || status=$?
  [ "$status" -eq "$wanted" ] || { cat err; fail "exit $status, not $wanted: $*"; }
}
refused() { # FILE: it is named, and only an error about it is there
  grep -q "^$1: error: .* left alone" err || { cat err; fail "not refused: $1"; }
}

run 1 assess "$dossier" --no-pdf -o one
cp -R one as-it-was
run 1 assess "$dossier" --no-pdf -o one
diff -r one as-it-was || fail "the second run is not the first"
[ "$(ls -A one)" = "$(ls one)" ] || fail "something hidden was left"

# ---- what is somebody else's, and all of it said in one run
echo notes >one/index.html
printf '"No.","Kind"\r\n' >one/register.csv
printf '\nremark' >>one/task-t1.html # still ours: HTML says so in its head
cp -R one touched
run 2 assess "$dossier" --no-pdf -o one
refused one/index.html
refused one/register.csv
[ "$(grep -c error: err)" -eq 2 ] || { cat err; fail "two were in the way"; }
diff -r one touched || fail "a refused run changed something"
run 1 assess "$dossier" --no-pdf -o one --force
diff -r one as-it-was || fail "--force does not replace"

# ---- what an earlier run wrote and this one did not
cp one/task-t1.html one/task-gone.html
cp one/card.html one/cards-for-june.html
echo mine >one/task-notes.html
mkdir one/task-photos.html
run 1 assess "$dossier" --no-pdf -o one
[ ! -e one/task-gone.html ] || fail "a sheet of a task that is no more stayed"
[ "$(cat one/task-notes.html)" = mine ] || fail "a file of somebody else's went"
[ -e one/cards-for-june.html ] || fail "what no run writes went"
[ -d one/task-photos.html ] || fail "a folder went"

# ---- every form, on one of its own and on a file that is not ours; a folder
own=one/assessment.xml
for form in "vocabulary" "vocabulary --as schema" \
  "print $own --sheet card" "print $own --sheet register" "print $own --sheet register --as ods" \
  "compare $own $own --as html" "compare $own $own --as xml" "assess $dossier"; do
  rm -rf target.xml
  # shellcheck disable=SC2086
  {
    "$TANKSIDE" $form -o target.xml >/dev/null || [ $? -eq 1 ]
    cp target.xml first.xml
    "$TANKSIDE" $form -o target.xml >/dev/null || [ $? -eq 1 ]
    cmp target.xml first.xml
    cp "$dossier" target.xml
    run 2 $form -o target.xml
    refused target.xml
    cmp target.xml "$dossier"
  }
done
run 1 assess "$dossier" -o target.xml --force
cmp target.xml first.xml || fail "--force does not replace"
rm target.xml
mkdir target.xml
run 2 print $own -o target.xml
[ -z "$(ls -A target.xml)" ] || fail "something in a folder that is in the way"

# ---- through a link, what it points to
rm -rf target.xml
mkdir elsewhere
"$TANKSIDE" print $own --sheet card >elsewhere/real.html
ln -s elsewhere/real.html link.html
run 0 print $own --sheet station -o link.html
[ -L link.html ] || fail "a link was replaced by a file"
"$TANKSIDE" print $own --sheet station | cmp - elsewhere/real.html

# ---- what somebody signed
{
  openssl ecparam -genkey -name prime256v1 -noout -out key
  openssl req -x509 -key key -out certificate -days 36500 -subj "/CN=R. Tamsel"
} >/dev/null 2>&1
run 0 sign one --key key --certificate certificate --on 2027-05-14 --role officer
cp one/assessment.xml signed
run 2 assess "$dossier" --no-pdf -o one
grep -q "^one/assessment.xml: error: is signed" err || { cat err; fail "a signature would be lost"; }
cmp one/assessment.xml signed
run 0 sign one --key key --certificate certificate --on 2027-05-15 --role master
run 1 assess "$dossier" --no-pdf -o one --force

# ---- two runs into one folder at the same moment: one set or the other
rm -rf one two both
small=$SOURCE/tests/dossiers/good/smallest.xml
run 1 assess "$dossier" --no-pdf -o one
run 1 assess "$small" --no-pdf -o two
for round in 1 2 3; do
  "$TANKSIDE" assess "$dossier" --no-pdf -o both >/dev/null 2>err.1 & first=$!
  "$TANKSIDE" assess "$small" --no-pdf -o both >/dev/null 2>err.2 & second=$!
  wait $first || [ $? -eq 1 ] || { cat err.1; fail "the first of two failed"; }
  wait $second || [ $? -eq 1 ] || { cat err.2; fail "the second of two failed"; }
  diff -r both one >/dev/null || diff -r both two >/dev/null || fail "a mixture, round $round"
done
[ "$(ls one | wc -l)" -ne "$(ls two | wc -l)" ] || fail "both sets have the same files"

# ---- what a killed run left is cleared away; what lives, and what only looks like it, is not
mkdir -p both/.tankside-1-0/before both/.tankside-notes
echo half >both/.tankside-1-0/card.html
run 1 assess "$small" --no-pdf -o both
[ ! -e both/.tankside-1-0 ] || fail "a left-over stayed"
[ -d both/.tankside-notes ] || fail "a folder of somebody else's went"
if command -v flock >/dev/null; then
  mkdir both/.tankside-1-0
  flock both/.tankside-1-0 "$TANKSIDE" assess "$small" --no-pdf -o both >/dev/null || [ $? -eq 1 ]
  [ -d both/.tankside-1-0 ] || fail "the folder of a run that lives went"
fi
exit 0
