#!/bin/sh
# What a shell completes to: everything the help shows and nothing else, in bash, and in zsh and
# fish where they are installed.
set -eu
cd "$WORK"
has() { grep -qxF -e "$2" "$1" || { echo "no line \"$2\" in $1:"; cat "$1"; exit 1; }; }
words() { "$TANKSIDE" completions words -- "$@" | cut -f1; }
cp "$SOURCE/shared/productions/stage-pool/dossier.xml" day.xml
mkdir -p folder/inner && touch "folder/one two.xml" folder/text.txt

# Every verb and every option that the help shows is offered, and no other.
"$TANKSIDE" --help | sed -n 's/^  \([a-z][a-z]*\)  .*/\1/p' | grep -vx tankside | sort >shown
words '' | grep -v '^--\|^help$' | sort >offered
cmp shown offered
while read -r verb; do
  { "$TANKSIDE" "$verb" --help | sed -n '/^Options:/,$s/^  \(--*[a-z-]*\) .*/\1/p'; echo --help; } | sort >shown
  words "$verb" - | sort >offered
  cmp shown offered || { echo "$verb"; cat offered; exit 1; }
done <<LIST
$(words '' | grep -v '^--\|^help$')
LIST

# Every name offered for a value is one that the program takes.
takes() { # VALUE COMMAND...: it may lack its file, but knows the value
  value=$1
  shift
  "$TANKSIDE" "$@" "$value" >/dev/null 2>err || true
  if grep -q "unknown\|no rules\|matrix.*cannot" err; then echo "tankside $* $value"; cat err; exit 1; fi
}
[ "$(words print --sheet '' | wc -l)" -ge 10 ]
for name in $(words print --sheet ''); do takes "$name" print nowhere.xml --sheet; done
for name in $(words print --paper ''); do takes "$name" print nowhere.xml --paper; done
for name in $(words compare --as ''); do takes "$name" compare nowhere.xml nowhere.xml -o out --as; done
for name in $(words vocabulary --as ''); do takes "$name" vocabulary -o out --as; done
for name in $(words print --language ''); do takes "$name" print nowhere.xml --language; done
[ "$(words assess --matrix '' | grep -vc '^@')" -ge 2 ]
for name in $(words assess --matrix '' | grep -v '^@'); do takes "$name" ask nowhere.xml --matrix; done
"$TANKSIDE" calc | sed -n 's/^  \([a-z][a-z0-9_]*\) .*/\1/p' | sort >shown
words calc '' | sort >offered
cmp shown offered
words rules '' >out
for name in list check try explain new topics; do has out $name; done
words rules try air.ret >out
has out air.return-margin
words rules new x.y immersion.dep >out
has out immersion.depth
words rules try air.return-margin '' >out
has out @files
words assess day.xml --set '' >out
has out production/
words assess day.xml --set production/cre >out
has out production/crew=
words help as >out
has out assess

# bash reads its script, and asked for completions gives the same.
"$TANKSIDE" completions bash >tankside.bash
bash -n tankside.bash
cat >ask.bash <<'BASH'
source ./tankside.bash
[[ $(complete -p tankside) == "complete -F _tankside tankside" ]] || exit 1
shopt -u progcomp_alias 2>/dev/null
COMP_WORDS=("$@")
COMP_CWORD=$(($# - 1))
_tankside
printf '%s\n' "${COMPREPLY[@]}" | sort
BASH
in_bash() { bash --norc ask.bash "$TANKSIDE" "$@" >out; }
in_bash ass
has out assess
[ "$(wc -l <out)" = 1 ]
in_bash print x.xml --sheet ca
has out card
[ "$(wc -l <out)" = 1 ]
in_bash print x.xml --paper = l
has out letter
[ "$(wc -l <out)" = 1 ]
in_bash print x.xml --paper =
has out a4
has out letter
in_bash check folder/
has out "folder/one two.xml"
has out folder/inner
if grep -q text.txt out; then cat out; exit 1; fi
in_bash assess day.xml --pack und
has out underwriting
in_bash sign x.xml --key fol
has out folder
in_bash nosuchverb ''
[ "$(cat out)" = "" ]

# zsh and fish, where they are.
"$TANKSIDE" completions zsh >_tankside
"$TANKSIDE" completions fish >tankside.fish
if command -v zsh >/dev/null; then
  zsh -n _tankside
  cat >ask.zsh <<'ZSH'
compdef() { [[ "$*" == "_tankside tankside" ]] || exit 1 }
_files() { print -r -- "files $*" }
compadd() { print -r -- "compadd $*" }
_describe() { print -rl -- "${(@P)4}" }
source ./_tankside
words=("$@") CURRENT=$# PREFIX=${@[-1]}
_tankside
ZSH
  in_zsh() { zsh -f ask.zsh "$TANKSIDE" "$@" >out; }
  in_zsh print x.xml --sheet ca
  has out card
  in_zsh check ''
  has out 'files -g *.xml(-.)'
  in_zsh ass
  grep -q '^assess:score every task' out
fi
if command -v fish >/dev/null; then
  fish --no-execute tankside.fish
  mkdir -p bin home && ln -sf "$TANKSIDE" bin/tankside
  in_fish() { HOME=$PWD/home PATH="$PWD/bin:$PATH" fish --no-config -c "source tankside.fish; complete -C '$1'" | cut -f1 >out; }
  in_fish "tankside print x.xml --sheet ca"
  has out card
  in_fish "tankside ass"
  has out assess
  in_fish "tankside check folder/o"
  has out "folder/one two.xml"
fi

status=0
"$TANKSIDE" completions basj >out 2>err || status=$?
[ $status = 2 ]
grep -q 'unknown shell "basj"; the nearest is "bash"' err
