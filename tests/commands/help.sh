#!/bin/sh
# Every command explains itself; what is not known is refused with the nearest name.
set -eu
cd "$WORK"

. "$SOURCE/tests/commands/gives.sh"

gives 0 --help
has out "competent person decides"
has out "Exit status: 0"
LC_ALL=C awk 'length($0) > 80 { print "wide: " $0; bad = 1 } END { exit bad }' out
commands=$(sed -n 's/^  \([a-z][a-z]*\)  .*/\1/p' out | grep -v '^tankside$')
[ "$(echo "$commands" | wc -w)" -ge 6 ]
for command in $commands; do
  gives 0 "$command" --help
  has out "usage: tankside $command"
  [ ! -s err ]
  LC_ALL=C awk '{ n = $0; gsub(/[\200-\277]/, "", n) } length(n) > 80 { print "wide: " $0; bad = 1 } END { exit bad }' out
  grep -q '^  tankside ' out || { echo "$command --help shows no example"; exit 1; }
  cp out long
  gives 0 help "$command"
  cmp out long
  gives 2 "$command" --no-such-option
  has err "unknown option \"--no-such-option\""
done

gives 0 --version
has out "tankside $(sed -n 's/^project(tankside VERSION \([0-9.]*\).*/\1/p' "$SOURCE/CMakeLists.txt")"
has out "Lua        5.4"

gives 2
gives 2 asess dossier.xml
has err 'unknown command "asess"; the nearest is "assess"'
gives 2 assess
has err "usage: tankside assess DOSSIER"
gives 2 assess --matrx x dossier.xml
has err 'unknown option "--matrx"; the nearest is "--matrix"'
gives 2 assess dossier.xml --set
has err '"--set" lacks its PATH=VALUE'
gives 2 assess dossier.xml --no-pdf=yes
has err '"--no-pdf" takes no value'
gives 2 assess dossier.xml --paper a3
has err 'unknown paper "a3"'
gives 2 rules chek
has err 'unknown action "chek"; the nearest is "check"'
gives 2 print x.xml --sheet asessment
has err 'unknown sheet "asessment"; the nearest is "assessment"'
gives 2 print x.xml --as pdf
has err "a PDF needs a file"
gives 2 vocabulary --as shema
has err 'unknown form "shema"; the nearest is "schema"'

# It never says that something may go ahead.
for command in $commands; do
  "$TANKSIDE" "$command" --help
done >all 2>&1
if grep -iwE 'safe|safely' all; then exit 1; fi

# A full disk is no success.
status=0
"$TANKSIDE" --help >/dev/full 2>err || status=$?
[ $status = 2 ]
