#!/bin/sh
# `tankside` alone: what to do next in a folder, from no dossier to a signed assessment.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }
hasnt() { if grep -qF -e "$2" "$1"; then echo "\"$2\" in $1:"; cat "$1"; exit 1; fi; }
# gives STATUS COMMAND...
gives() {
  wanted=$1
  shift
  status=0
  "$TANKSIDE" "$@" >../out 2>../err || status=$?
  [ $status = "$wanted" ] || { echo "tankside $*: exit status $status, not $wanted"; cat ../out ../err; exit 1; }
  [ ! -s ../err ] || { echo "tankside $*:"; cat ../err; exit 1; }
  awk 'length($0) > 80 { print "wide: " $0; bad = 1 } END { exit bad }' ../out
}
mkdir show && cd show
gives 2
has ../out "There is no dossier in this folder."
has ../out "tankside new FOLDER"

# Whatever it is called; "dossier.xml" first; a part that is included is no dossier.
cat >first.xml <<'XML'
<?xml version="1.0" encoding="UTF-8"?>
<dossier format="1" units="metric">
  <production title="Rehearsal" jurisdiction="gb-eng" revision="1" on="2027-03-01" by="us" crew="?"/>
  <site id="s" indoor="perhaps" altitude="4"/>
</dossier>
XML
echo '<dossier format="1"/>' >part.xml
gives 1
has ../out "first.xml: 2 errors"
has ../out "  tankside check first.xml"
hasnt ../out "tankside ask"
sed 's/"perhaps"/"yes"/; s/"4"/"4 m"/' first.xml >dossier.xml
gives 1
has ../out "2 facts stated, "
has ../out "; 1 more beside it"
has ../out "  tankside ask dossier.xml"
has ../out "  tankside assess dossier.xml -o paper"
rm first.xml

"$TANKSIDE" assess dossier.xml -o paper --no-pdf >/dev/null || [ $? -eq 1 ]
gives 1
has ../out "paper/assessment.xml: "
has ../out "matches the dossier, not signed;"
has ../out "tankside sign paper/assessment.xml"
hasnt ../out "tankside assess"

# The dossier changes: what was made of it no longer holds. A comment is a change too: the digest.
cp dossier.xml kept && echo '<!-- later -->' >>dossier.xml
gives 1
has ../out "the dossier changed since"
has ../out "  tankside assess dossier.xml -o paper"
hasnt ../out "tankside sign"
mv kept dossier.xml

openssl req -x509 -newkey rsa:2048 -nodes -keyout k.pem -out c.pem -days 3650 -subj "/CN=K. Adeyemi" 2>/dev/null
# The command it shows, with one's own key.
gives 1
sed -n '/tankside sign/,/--role/p' ../out | sed "s|KEY.pem|k.pem|; s|CERTIFICATE.pem|c.pem|; s|DATE|2027-03-02|; s|tankside|$TANKSIDE|" >do.sh
sh do.sh >/dev/null
gives 0
has ../out "matches the dossier, signed;"
has ../out "tankside verify paper/assessment.xml --dossier dossier.xml"
hasnt ../out "Next:"

# Looking touches nothing.
find . -type f | sort | xargs cksum >../before
gives 0
find . -type f | sort | xargs cksum >../after
cmp ../before ../after
