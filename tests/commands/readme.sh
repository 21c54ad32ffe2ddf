#!/bin/sh
# The walk-through in the README shows what the program really prints: each command is run, and
# what stands under it must be its output, with lines left out only where "..." says so.
set -eu
cd "$WORK"
mkdir -p bin
cat >bin/tankside <<'SH'
#!/bin/sh
case " $* " in *" -o "*) set -- "$@" --no-pdf ;; esac
exec "$TANKSIDE" "$@"
SH
chmod +x bin/tankside
export PATH="$WORK/bin:$PATH"
ln -s "$SOURCE/shared" shared
cat >first.xml <<'XML'
<dossier format="1" units="metric">
  <production title="A first try" jurisdiction="gb-eng" revision="1" on="2027-03-01" by="A. Officer"/>
  <site id="pool" tempratur="26 degC">
    <water temperature="26"/>
  </site>
</dossier>
XML

# One file a command with its line first, then what is shown.
awk '
  /^    \$ tankside / { file = "shown-" ++n; print substr($0, 7) >file; next }
  file != "" && (/^    / || /^$/) { print substr($0, 5) >file; next }
  { file = "" }' "$SOURCE/README.md"

missing=0 compared=0
for shown in shown-*; do
  command=$(head -n 1 "$shown")
  status=0
  sh -c "$command" >out 2>err || status=$?
  [ $status -le 2 ] || { echo "$command: exit status $status"; cat err; exit 1; }
  [ -s out ] || cp err out
  compared=$((compared + 1))
  awk -v command="$command" '
    function wrong(line) { print command ": not so in its output: " line; bad = 1; exit }
    NR == FNR { out[++lines] = $0; next }
    FNR == 1 { next }
    $0 == "" { blank++; next } # what stands under the last of them is no part of it
    $0 == "..." { gap = 1; next }
    {
      for (; blank > 0; blank--) if (!gap && out[++at] != "") wrong($0)
      if (gap) while (at < lines && out[at + 1] != $0) at++
      if (at == lines || out[++at] != $0) wrong($0)
      gap = 0
    }
    END { if (!bad && !gap && at < lines) { print command ": more is printed: " out[at + 1]; bad = 1 }
          exit bad }' out "$shown" || missing=1
done
[ $compared -ge 5 ] || { echo "only $compared commands in the README"; exit 1; }
exit $missing
