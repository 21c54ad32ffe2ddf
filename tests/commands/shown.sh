# Read by tests of documents: what a document shows is done, in order, and has to be so.
#
# `shown_in DOCUMENT LEAST` goes through the indented blocks of a document:
#   - "$ tankside ...", "$ cat ..." and "$ grep ..." are run, and what stands under each must be what
#     it prints, with lines left out only where "..." says so and part of a line only where "…" does;
#     it may end with status 0 or 1, and with 2 where an error is shown;
#   - a block after a line that ends in "`NAME`:", NAME ending in .lua or .xml, is written to that file.
# At least LEAST commands must have been found.

shown_in() {
  rm -rf shown && mkdir shown
  awk '
    function begin(kind) { file = sprintf("shown/%03d-%s", ++n, kind) }
    /^    \$ (tankside|cat|grep) / { begin("run"); print substr($0, 7) >file; named = ""; next }
    /^    / && named != "" { begin("write"); print named >file; named = "" }
    file != "" && (/^    / || /^$/) { print substr($0, 5) >file; next }
    /^$/ { next }
    {
      file = ""
      named = match($0, /`[^`]+\.(lua|xml)`:$/) ? substr($0, RSTART + 1, RLENGTH - 3) : ""
    }' "$1"
  bad=0 commands=0
  for step in shown/[0-9]*; do
    case $step in
    *-write)
      to=$(head -n 1 "$step")
      mkdir -p "$(dirname "$to")"
      # Blank lines at the end belong to the document.
      tail -n +2 "$step" | sed -e :a -e '/^\n*$/{$d;N;ba' -e '}' >"$to"
      ;;
    *)
      commands=$((commands + 1))
      shown_is_printed "$step" || bad=1
      ;;
    esac
  done
  [ $commands -ge "$2" ] || { echo "only $commands commands in $1"; return 1; }
  return $bad
}

shown_is_printed() {
  command=$(head -n 1 "$1")
  status=0
  sh -c "$command" >shown/out 2>shown/err || status=$?
  # Messages are compared where the document shows some, or where there is nothing else.
  if [ ! -s shown/out ] || grep -q -e ': error: ' -e ': warning: ' "$1"; then cat shown/err >>shown/out; fi
  if [ $status -gt 2 ] || { [ $status = 2 ] && ! grep -q ': error: ' "$1"; }; then
    echo "$command: exit status $status"
    cat shown/err
    return 1
  fi
  awk -v command="$command" '
    function wrong(line) { print command ": not so in its output: " line; bad = 1; exit }
    function same(shown, printed,   part, n, i, at) { # "…" stands for anything within the line
      n = split(shown, part, "…")
      if (n < 2 || substr(printed, 1, length(part[1])) != part[1]) return shown == printed
      printed = substr(printed, length(part[1]) + 1)
      for (i = 2; i <= n; i++) {
        if (part[i] == "") continue
        at = index(printed, part[i])
        if (!at) return 0
        printed = substr(printed, at + length(part[i]))
      }
      return part[n] == "" || printed == ""
    }
    NR == FNR { out[++lines] = $0; next }
    FNR == 1 { next }
    $0 == "" { blank++; next } # what stands under the last of them is no part of it
    $0 == "..." { gap = 1; blank = 0; next }
    {
      for (; blank > 0; blank--) if (!gap && out[++at] != "") wrong($0)
      if (gap) while (at < lines && !same($0, out[at + 1])) at++
      if (at == lines || !same($0, out[++at])) wrong($0)
      gap = 0
    }
    END { if (!bad && !gap && at < lines) { print command ": more is printed: " out[at + 1]; bad = 1 }
          exit bad }' shown/out "$1"
}

# `tankside` as a reader would type it, without the seconds that a PDF takes.
shown_program() {
  mkdir -p bin
  cat >bin/tankside <<'PROGRAM'
#!/bin/sh
case " $1 $* " in " assess "*" -o "*) set -- "$@" --no-pdf ;; esac
exec "$TANKSIDE" "$@"
PROGRAM
  chmod +x bin/tankside
  PATH=$PWD/bin:$PATH
  export PATH
}
