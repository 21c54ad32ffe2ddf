#!/bin/sh
# A pack that somebody stands for: signed as a folder and as a ZIP, by several people; what was changed
# since is named, and no command uses it. The program xmlsec1 is asked too.
set -eu
cd "$WORK"
production=$SOURCE/shared/productions/title-day
cp -r "$production/osier-lane" .
cp osier-lane/*.lua ./
set -- ./*.lua
[ $# -eq 1 ]
rule=${1#./}
sed 's/ packs="osier-lane"//' "$production/dossier.xml" >dossier.xml
{
  for who in house marsh reed; do openssl ecparam -genkey -name prime256v1 -noout -out $who.key; done
  openssl req -x509 -key house.key -out house.crt -days 36500 -subj "/CN=Weir House"
  openssl req -new -key marsh.key -out marsh.csr -subj "/CN=I. Marsh/O=Weir House"
  openssl x509 -req -in marsh.csr -CA house.crt -CAkey house.key -CAcreateserial -out marsh.crt -days 3650
  openssl req -x509 -key reed.key -out reed.crt -days 3650 -subj "/CN=O. Reed"
} >openssl.log 2>&1
sign() { # PACK NAME ROLE WORDS...
  pack=$1 name=$2 role=$3
  shift 3
  "$TANKSIDE" sign "$pack" --key "$name.key" --certificate "$name.crt" --on 2027-03-08 --role "$role" "$@" >said 2>err
}
verify() { # WORDS...
  status=0
  "$TANKSIDE" verify "$@" --trust house.crt >said 2>err || status=$?
  tr '\n' ' ' <said | sed 's/  */ /g; s/ signed \(CN\|by\)/\
signed \1/g' >lines
}

verify osier-lane
[ $status -eq 1 ]
grep -q '^not signed' said
sign osier-lane marsh coordinator
sign osier-lane reed 'second reader'
[ "$(grep -c '<file ' osier-lane/signatures.xml)" -eq 1 ]
grep -q "<file name=\"$rule\" sha256=\"$(sha256sum "osier-lane/$rule" | cut -d' ' -f1)\"/>" osier-lane/signatures.xml
verify osier-lane
[ $status -eq 0 ]
grep -q '^signed CN = I. Marsh, O = Weir House, coordinator, 2027-03-08: intact, and vouched for' lines
grep -q '^signed CN = O. Reed, second reader, 2027-03-08: intact; .*untrusted' lines
grep -q 'osier-lane: 1 rule file, as signed' lines
verify osier-lane --on 2099-01-01
[ $status -eq 0 ]
[ "$(grep -c 'expired' lines)" -eq 2 ]
# The standard's own program sees the first of them the same way; the second stands behind it.
mkdir byone && cp "$rule" byone/
sign byone marsh coordinator
xmlsec1 --verify --trusted-pem house.crt byone/signatures.xml >xmlsec.log 2>&1
sed 's/sha256="./sha256="0/; t' byone/signatures.xml | sed 's/name="byone"/name="another"/' >other.xml
! xmlsec1 --verify --trusted-pem house.crt other.xml >xmlsec.log 2>&1 || exit 1

# In a ZIP: signatures inside, beside, and inside first and beside then.
python3 - <<PY
import pathlib, zipfile
def pack(name, files):
    pathlib.Path(name).parent.mkdir(exist_ok=True)
    with zipfile.ZipFile(name, "w") as z:
        for n, t in files: z.writestr(n, t)
files = [(p.name, p.read_bytes()) for p in sorted(pathlib.Path("osier-lane").iterdir())]
rules = [f for f in files if f[0].endswith(".lua")]
pack("inside/osier-lane.zip", files)
pack("nested/osier-lane.zip", [("osier-lane/" + n, t) for n, t in files])
pack("plain/osier-lane.zip", rules)
pack("changed/osier-lane.zip", [f if f[0] != "$rule" else (f[0], f[1] + b"-- more\n") for f in files])
PY
for zip in inside nested; do
  verify $zip/osier-lane.zip
  [ $status -eq 0 ]
  [ "$(grep -c '^signed' lines)" -eq 2 ]
done
verify changed/osier-lane.zip
[ $status -eq 1 ]
grep -q "changed/osier-lane.zip/$rule: error: was altered since the pack was signed" err
sign plain/osier-lane.zip reed coordinator
verify plain/osier-lane.zip
[ $status -eq 0 ]
[ "$(grep -c '^signed' lines)" -eq 1 ]
[ -f plain/osier-lane.zip.signatures.xml ]
sign inside/osier-lane.zip reed again
verify inside/osier-lane.zip
[ "$(grep -c '^signed' lines)" -eq 3 ]

# Who signed the pack stands in the assessment made with it, and on its papers; the folder and the archive
# of it give the same.
for pack in osier-lane nested/osier-lane.zip; do
  "$TANKSIDE" assess dossier.xml --pack $pack -o with.xml >said 2>err || [ $? -eq 1 ]
  [ ! -e first.xml ] || cmp first.xml with.xml
  cp with.xml first.xml
done
jing "$SOURCE/shared/schema/assessment.rng" with.xml
[ "$(xmllint --xpath 'count(/assessment/inputs/signed)' with.xml)" -eq 2 ]
[ "$(xmllint --xpath 'string(//inputs/signed[@pack="osier-lane"][1]/@by)' with.xml)" = 'CN = I. Marsh, O = Weir House' ]
[ "$(xmllint --xpath 'string(//inputs/signed[2]/@as)' with.xml)" = 'second reader' ]
[ "$(xmllint --xpath 'string(//inputs/signed[2]/@on)' with.xml)" = 2027-03-08 ]
"$TANKSIDE" print with.xml --sheet reviewer -o schedule.html >said
grep -q 'Signature (osier-lane)' schedule.html
grep -q 'CN = I. Marsh, O = Weir House, coordinator, 2027-03-08' schedule.html
"$TANKSIDE" verify with.xml --dossier dossier.xml --pack osier-lane >said
"$TANKSIDE" assess dossier.xml --pack byone -o byone.xml >said 2>err || [ $? -eq 1 ]
[ "$(xmllint --xpath 'string(//inputs/signed/@pack)' byone.xml)" = byone ]
status=0 # made with the pack that nobody signed, it is another assessment
mkdir bare && mkdir bare/osier-lane && cp "$rule" bare/osier-lane/
"$TANKSIDE" verify with.xml --dossier dossier.xml --pack bare/osier-lane >said 2>err || status=$?
[ $status -eq 1 ]
grep -q 'signed' err

# A pack that is loaded is what was signed, or nothing is done with it.
refused() { # PACK MESSAGE
  rm -f none.xml
  status=0
  "$TANKSIDE" assess dossier.xml --pack "$1" -o none.xml >said 2>err || status=$?
  [ $status -eq 2 ] && [ ! -e none.xml ] || { echo "taken: $1"; exit 1; }
  grep -q "$2" err || { echo "$2"; cat err; exit 1; }
}
"$TANKSIDE" rules list --pack inside/osier-lane.zip >said
grep -q osier said
refused changed/osier-lane.zip "$rule: error: was altered since the pack was signed"
! "$TANKSIDE" rules list --pack changed/osier-lane.zip >said 2>err || exit 1
grep -q 'take this file away' err
mkdir bad
again() { rm -rf bad/osier-lane && cp -r osier-lane bad/; }
both() { # MESSAGE: verify says it too, with this status
  refused bad/osier-lane "$2"
  verify bad/osier-lane
  [ $status -eq "$1" ] || { echo "$status: $2"; exit 1; }
  grep -q "$2" err said || { echo "$2"; cat err said; exit 1; }
}
again; echo '-- more' >>"bad/osier-lane/$rule"
both 1 "bad/osier-lane/$rule: error: was altered since the pack was signed"
! sign bad/osier-lane reed again || exit 1 # nobody signs after those who signed something else
grep -q 'have it signed anew, or take this file away' err
again; echo '-- more' >bad/osier-lane/zz.lua
both 1 'bad/osier-lane/zz.lua: error: was added since the pack was signed'
again; mv "bad/osier-lane/$rule" bad/osier-lane/zz.lua
both 1 "bad/osier-lane/$rule: error: went missing since the pack was signed"
rm -rf bad/copy && cp -r osier-lane bad/copy
# But it may be tried in place of the one that there is.
sed 's/<production /&packs="osier-lane" /' dossier.xml >named.xml
"$TANKSIDE" rules compare osier-lane bad/copy named.xml >said 2>err || [ $? -eq 1 ]
refused bad/copy 'was signed for the pack "osier-lane"; this one is named "copy"'
again; cp byone/signatures.xml bad/osier-lane/
both 1 'was signed for the pack "byone"; this one is named "osier-lane"'

# What the list says is changed along with the file: then the signatures do not hold.
changed=$(printf '%s\n-- more\n' "$(cat "$rule")" | sha256sum | cut -d' ' -f1)
again; printf '%s\n-- more\n' "$(cat "$rule")" >"bad/osier-lane/$rule"
sed -i "s/sha256=\"[0-9a-f]*\"/sha256=\"$changed\"/" bad/osier-lane/signatures.xml
refused bad/osier-lane 'the signature as coordinator of 2027-03-08 does not hold'
verify bad/osier-lane
[ $status -eq 1 ]
[ "$(grep -c 'altered: this is not what was signed' lines)" -eq 2 ]

# What is not written as it is written here is not believed.
edit() { again; sed -i "$1" bad/osier-lane/signatures.xml; }
edit "s/<file name=\"\([^\"]*\)\" sha256=\"\([0-9a-f]*\)\"\/>/&&/"
both 2 'signatures.xml:[0-9]*: error: ".*.lua" is there twice or out of order'
edit 's/<file name="/&..\//'
both 2 'error: "../.*.lua" is no name of a rule file'
edit 's/\.lua"/.xml"/'
both 2 'error: ".*.xml" is no name of a rule file'
edit 's/sha256="../sha256="XY/'
both 2 'is no SHA-256'
edit 's/<file /<note\/><file /'
both 2 'expected <file> or a signature'
edit 's/<file /<!-- mine --><file /'
both 2 'is not written as tankside writes it'
edit 's/<\/pack>/<!-- mine --><\/pack>/'
both 2 'something else than signatures stands after'
edit 's/<\/pack>/<file name="zz.lua" sha256=""\/><\/pack>/'
both 2 'something else than signatures stands after'
edit 's/<pack /<!DOCTYPE pack [<!ENTITY e "x">]><pack /'
both 2 'signatures.xml:.*error: .*DOCTYPE'
edit 's/<pack /<assessment /; s/<\/pack>/<\/assessment>/'
both 2 'the root is <assessment>: this is no <pack>'
edit '/<Signature/,$d'
both 2 'signatures.xml:.*error'
again; printf '<?xml version="1.0" encoding="UTF-8"?>\n<pack format="1" name="osier-lane">\n</pack>\n' >bad/osier-lane/signatures.xml
both 2 'nobody signed it'
again; head -c 1100000 /dev/zero | tr '\0' ' ' >>bad/osier-lane/signatures.xml
both 2 'signatures.xml: error: .*large'
again; mv bad/osier-lane/signatures.xml bad/away.xml; ln -s ../away.xml bad/osier-lane/signatures.xml
both 2 'signatures.xml: error: leads out of the pack'
