#!/bin/sh
# `tankside sign` and what `verify` says of signatures, with keys made on the spot; the program
# xmlsec1 is asked too.
set -eu
cd "$WORK"
certificate() { # NAME SUBJECT DAYS: a key, and a certificate from the authority
  openssl req -newkey rsa:2048 -nodes -keyout "$1.key" -out "$1.csr" -subj "$2"
  openssl x509 -req -in "$1.csr" -CA house.crt -CAkey house.key -CAcreateserial -out "$1.crt" -days "$3"
}
{
  openssl req -x509 -newkey rsa:2048 -nodes -keyout house.key -out house.crt -days 36500 -subj "/CN=Weir House"
  certificate marsh "/CN=I. Marsh/O=Weir House" 36500
  certificate late "/CN=L. Late" -1
  openssl ecparam -genkey -name prime256v1 -noout -out reed.key
  openssl req -x509 -key reed.key -out reed.crt -days 36500 -subj "/CN=O. Reed"
} >openssl.log 2>&1

cp "$SOURCE/shared/productions/lake-stunt/dossier.xml" .
"$TANKSIDE" assess dossier.xml -o plain.xml >/dev/null 2>&1 || [ $? -eq 1 ]
sign() { # NAME ROLE IN OUT
  "$TANKSIDE" sign "$3" --key "$1.key" --certificate "$1.crt" --on 2027-03-08 --role "$2" -o "$4"
}
sign marsh "safety officer" plain.xml one.xml
sign reed "diving supervisor" one.xml two.xml
sign late "coordinator" two.xml three.xml
jing "$SOURCE/shared/schema/assessment.rng" three.xml

# verify FILE: what is said of its signatures, each on one line.
verify() {
  status=0
  "$TANKSIDE" verify "$1" --dossier dossier.xml --trust house.crt >said 2>err || status=$?
  tr '\n' ' ' <said | sed 's/  */ /g; s/ signed \(CN\|by\)/\
signed \1/g' >lines
}
verify plain.xml
[ $status -eq 0 ]
grep -q '^not signed' lines
verify three.xml
[ $status -eq 0 ]
grep -q '^signed CN = I. Marsh, O = Weir House, safety officer, 2027-03-08: intact, and vouched for' lines
grep -q '^signed CN = O. Reed, diving supervisor, 2027-03-08: intact; .*untrusted' lines
grep -q '^signed CN = L. Late, coordinator, 2027-03-08: intact; .*expired' lines
grep -q 'three.xml follows from dossier.xml' lines

# The standard's own program agrees, of the untouched and of the altered.
xmlsec1 --verify --trusted-pem house.crt one.xml >xmlsec.log 2>&1
sed 's/worst="25"/worst="15"/' one.xml >milder.xml
! xmlsec1 --verify --trusted-pem house.crt milder.xml >xmlsec.log 2>&1 || exit 1

# Altered: the assessment, then what one signature says of itself, then its value.
verify milder.xml
[ $status -eq 1 ]
grep -q 'safety officer, 2027-03-08: altered' lines
grep -q 'milder.xml:' err
sed 's/<as xmlns="urn:tankside:signature">safety/<as xmlns="urn:tankside:signature">fire/' two.xml >role.xml
verify role.xml
[ $status -eq 1 ]
grep -q 'fire officer, 2027-03-08: altered' lines
grep -q 'O. Reed.*: intact' lines
sed 's/<DigestValue>A/<DigestValue>B/; t; s/<DigestValue>./<DigestValue>A/' one.xml >value.xml
verify value.xml
[ $status -eq 1 ]
grep -q altered lines

# A certificate is part of what is signed: its last bytes are its own signature, which no key is asked for.
awk '/<\/X509Certificate>/ { sub(/.$/, last ~ /A$/ ? "B" : "A", last) } NR > 1 { print last } { last = $0 } END { print last }' \
  one.xml >certificate.xml
verify certificate.xml
[ $status -eq 1 ]
grep -q 'not a signature that tankside made' lines

# A signature of another form, or with something after it, is not believed.
sed 's/Filter="subtract">\/\*\/ds:Signature/Filter="subtract">\/*\/*/' one.xml >form.xml
verify form.xml
[ $status -eq 1 ]
grep -q 'not a signature that tankside made' lines
sed 's/<\/assessment>/<failures\/><\/assessment>/' one.xml >after.xml
verify after.xml
[ $status -eq 1 ]
grep -q 'after.xml:.*error: <failures> after a signature' err

# What cannot sign says so and writes nothing.
refused() { # WORDS... MESSAGE
  status=0
  "$TANKSIDE" sign plain.xml --on 2027-03-08 --role x -o nothing.xml "$@" 2>err || status=$?
  [ $status -eq 2 ]
  [ ! -e nothing.xml ]
}
refused --key marsh.key --certificate reed.crt
grep -q 'reed.crt: error: not the certificate of the key in "marsh.key"' err
refused --key marsh.crt --certificate marsh.crt
grep -q 'marsh.crt: error: not a private key in PEM' err
refused --key marsh.key --certificate dossier.xml
grep -q 'dossier.xml: error: not a certificate in PEM' err
refused --key marsh.key
grep -q 'a signature needs --certificate FILE' err
