#!/bin/sh
# The examples that `--help` shows work as they are shown.
set -eu
cd "$WORK"
cat >dossier.xml <<'XML'
<?xml version="1.0" encoding="UTF-8"?>
<dossier format="1" units="metric">
  <production title="Rehearsal" jurisdiction="gb-eng" revision="1" on="2027-03-01" by="us"/>
  <site id="tank" title="Tank"/>
  <day date="2027-03-08" site="tank"/>
</dossier>
XML
"$TANKSIDE" assess dossier.xml -o paper --no-pdf >/dev/null || [ $? -eq 1 ]
cp -R paper before
mkdir book && cp -R paper book/rehearsal && cp dossier.xml book/rehearsal
openssl req -x509 -newkey rsa:2048 -nodes -keyout me.pem -out me.crt -days 3650 -subj "/CN=K. Adeyemi" 2>/dev/null
cp me.crt company.crt
printf '%s\n' wind A B 2027-03-01 gb-eng '' '' C '' '' '' '' '' >answers.txt
mkdir bin && ln -s "$TANKSIDE" bin/tankside
PATH="$PWD/bin:$PATH"

run() { # a command as it is shown, in a copy of all this
  case $1 in
    *watch*) return 0 ;;  # waits: its own test
    *import*) return 0 ;; # its own test has the tables
  esac
  rm -rf trial && mkdir trial && cp -R paper before book ./*.* trial/
  status=0
  (cd trial && bash -c "$1") </dev/null >out 2>err || status=$?
  wanted="0 1"
  case $1 in *"new night-swim") wanted=2 ;; esac # it asks, and nobody answers
  case " $wanted " in *" $status "*) ;; *) echo "$1: $status"; cat out err; exit 1 ;; esac
  tried=$((tried + 1))
}
tried=0
for verb in $(tankside completions words -- '' | cut -f1 | grep -v '^-\|^help$'); do
  tankside "$verb" --help >text
  # A line that ends in a backslash goes on.
  sed -e ':a' -e '/\\$/N; s/\\\n *//; ta' text | sed -n 's/^  \(tankside .*\)/\1/p' >examples
  [ -s examples ]
  # Every PDF is made elsewhere, and takes a second each.
  sed -i 's/ -o paper$/ -o paper --no-pdf/' examples
  while read -r example; do run "$example" </dev/null; done <examples
done
[ $tried -ge 18 ]
