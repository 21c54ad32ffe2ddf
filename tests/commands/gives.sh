# For a command test: sourced, not run.

# has FILE TEXT: the file holds the text.
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }
# gives STATUS COMMAND...: runs it, output to out and err, and checks the exit status.
gives() {
  wanted=$1
  shift
  status=0
  "$TANKSIDE" "$@" >out 2>err || status=$?
  [ $status = "$wanted" ] || { echo "tankside $*: exit status $status, not $wanted"; cat out err; exit 1; }
}
