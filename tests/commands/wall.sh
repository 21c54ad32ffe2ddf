#!/bin/sh
# What somebody could do who got into the process: tests/hostile/inside.c tries it there, in the middle of a run and
# at its end, in the program that sets PDF too. Nothing but what the verb needs may come of it. What the
# machine forbids by itself proves nothing, so all of it is first tried in a program without the wall.
set -eu
cd "$WORK"
"$TANKSIDE" --version >versions
grep -q '^  system calls filtered: yes' versions || { grep 'filtered' versions; exit 77; }
grep -q '^  writing held .*: yes' versions && bounded=yes || bounded=no
cc -shared -fPIC -o inside.so "$SOURCE/tests/hostile/inside.c"

# A dossier, so small that what is tried takes longer than what is asked for.
mkdir dossier outside out bin scratch
export TMPDIR="$WORK/scratch"
cat >dossier/dossier.xml <<'EOF'
<?xml version="1.0" encoding="UTF-8"?>
<dossier format="1">
  <production title="Wall" reference="W-1" jurisdiction="gb-eng" revision="1" on="2027-03-01" by="N. Example"/>
  <person id="ada" name="Ada Reed" role="performer"/>
  <site id="tank" title="A tank"/>
  <day date="2027-03-09" site="tank">
    <task id="fall" title="Ada falls in"><immersion person="ada" depth="2..4 m" wears="none"/></task>
  </day>
</dossier>
EOF
cat >bin/weasyprint <<'EOF'
#!/bin/sh
printf '%%PDF-1.7\n%%%%EOF\n' | cat # no page is looked at here
EOF
chmod +x bin/weasyprint

# tried OUT PROGRAM ARGUMENT...: what came of it, into the file tried.
tried() {
  rm -rf outside/* && touch outside/there "outside/there too"
  out=$1
  shift
  env PATH="$WORK/bin:$PATH" LD_PRELOAD="$WORK/inside.so" OUTSIDE="$WORK/outside" OUT="$WORK/$out" "$@" \
    3>tried >said 2>&1 </dev/null || true # the wall stands whatever becomes of the run
  rm -f "$out/.inside" "$out/.link"
}
# may WHO WHEN WHAT...: of what can be done here at all, this was done, and nothing else.
may() {
  who=$1 when=$2
  shift 2
  grep "^$who $when " tried >these || { echo "$who tried nothing ($when)"; exit 1; }
  for what in $(cat possible); do
    result=$(sed -n "s/^$who $when $what //p" these | sort -u | tr '\n' ' ')
    case " $* " in *" $what "*) expected=done ;; *) expected=refused ;; esac
    case " $result" in " 0 ") is=done ;; *" 0 "*) is=both ;; *) is=refused ;; esac
    [ $is = $expected ] || { echo "$verb: $what, $is ($result) by $who ($when); expected $expected"; exit 1; }
  done
}

tried out cat /dev/null
sed -n 's/^cat end \(.*\) 0$/\1/p' tried >possible
for least in internet neighbour program traced code code-later read write-outside make-outside remove-outside make-in-out; do
  grep -qx $least possible || { echo "$least: cannot be done here even without the wall"; cat tried; exit 1; }
done
# Without Landlock a verb that writes may write anywhere.
[ $bounded = yes ] && beyond="" ||
  beyond="write-outside make-outside remove-outside folder-outside"

reads() { # VERB...: nothing but reading
  verb=$*
  tried out "$TANKSIDE" "$@"
  may tankside end read
}
writes() { # OUT VERB...: and files of its own folder
  out=$1
  shift
  verb=$*
  tried "$out" "$TANKSIDE" "$@"
  # shellcheck disable=SC2086
  may tankside end read make-in-out $beyond
}
sets_pdf() { # OUT VERB...: and a program, which is held to the same
  out=$1
  shift
  verb=$*
  tried "$out" "$TANKSIDE" "$@"
  for who in tankside cat; do # which the program that sets it has started
    # shellcheck disable=SC2086
    may $who end read make-in-out program another another-s-thread code code-later $beyond
  done
}
reads check dossier/dossier.xml
may tankside middle read
reads assess dossier/dossier.xml
may tankside middle read
reads day dossier/dossier.xml
reads rules topics
reads calc
reads vocabulary
reads completions bash
verb="what to do next"
tried out "$TANKSIDE"
may tankside end read

writes out assess dossier/dossier.xml -o out/a.xml
# shellcheck disable=SC2086
may tankside middle read make-in-out $beyond
sets_pdf out assess dossier/dossier.xml -o out/papers
reads print out/a.xml --sheet card
writes out print out/a.xml --sheet card -o out/card.html
sets_pdf out print out/a.xml --sheet card --as pdf -o out/card.pdf
reads compare out/a.xml out/papers
writes out compare out/a.xml out/papers --as html -o out/compared.html
sets_pdf out compare out/a.xml out/papers --as pdf -o out/compared.pdf
sets_pdf scratch verify out/papers --dossier dossier/dossier.xml
writes scratch review out/papers
writes out review out/papers --as sqlite -o out/book.db
writes out workbook dossier/dossier.xml -o out/book.ods
writes dossier import dossier/dossier.xml out/book.ods
reads import dossier/dossier.xml out/book.ods --dry-run
writes out sign out/a.xml --key none --certificate none --on 2027-03-02 --role officer
writes dossier ask dossier/dossier.xml
writes out new out/production
writes out rules compare common common dossier/dossier.xml -o out/rules.html
# Asked where to write, so only what writes into an open file is held.
verb="rules new"
tried out "$TANKSIDE" rules new
beyond="write-outside make-outside remove-outside folder-outside"
# shellcheck disable=SC2086
may tankside end read make-in-out $beyond

# Where the one, the other or both are forbidden, as by a container, the run goes on without; and each stands alone.
cat >forbids.c <<'EOF'
#include <errno.h>
#include <seccomp.h>
#include <string.h>
#include <sys/prctl.h>
#include <unistd.h>
int main(int count, char **words) { /* calls|folders|both PROGRAM ARGUMENT... */
  scmp_filter_ctx all = seccomp_init(SCMP_ACT_ALLOW);
  if (count < 3) return 2;
  if (strcmp(words[1], "folders") != 0) {
    seccomp_rule_add(all, SCMP_ACT_ERRNO(EPERM), SCMP_SYS(seccomp), 0);
    seccomp_rule_add(all, SCMP_ACT_ERRNO(EPERM), SCMP_SYS(prctl), 1, SCMP_A0(SCMP_CMP_EQ, PR_SET_SECCOMP));
  }
  if (strcmp(words[1], "calls") != 0)
    seccomp_rule_add(all, SCMP_ACT_ERRNO(ENOSYS), 444 /* landlock_create_ruleset, on every machine */, 0);
  return seccomp_load(all) != 0 || execv(words[2], words + 2);
}
EOF
cc -o forbids forbids.c -lseccomp
./forbids both "$TANKSIDE" --version >versions
grep -q '^  system calls filtered: no: Operation not permitted' versions || { cat versions; exit 1; }
grep -q '^  writing held .*: no: ' versions || { cat versions; exit 1; }
./forbids both "$TANKSIDE" print out/a.xml --sheet card -o out/forbidden.html
cmp out/forbidden.html out/card.html
verb="check, by its calls alone"
tried out ./forbids folders "$TANKSIDE" check dossier/dossier.xml
may tankside end read
if [ $bounded = yes ]; then
  verb="print, by its folders alone"
  tried out ./forbids calls "$TANKSIDE" print out/a.xml --sheet card -o out/card.html
  # shellcheck disable=SC2046 # to empty a file is left to the filter
  may tankside end empty-outside $(grep -v -e '-outside$' -e '^link-in-out$' possible)
fi

# It stays away where it would break something, and says so.
! command -v valgrind >/dev/null 2>&1 || valgrind -q "$TANKSIDE" --version 2>&1 | grep -q 'filtered: no: under valgrind'
