#!/bin/sh
# What the flags of CMakeLists.txt promise of a release build, looked for in the program itself.
set -eu
cd "$WORK"
command -v readelf >/dev/null 2>&1 || { echo "readelf is not installed"; exit 77; }
readelf -hW "$TANKSIDE" >header
readelf -lW "$TANKSIDE" >segments
readelf -dW "$TANKSIDE" >dynamic
readelf -W --dyn-syms "$TANKSIDE" >symbols
there() { # FILE PATTERN WHAT
  grep -Eq -e "$2" "$1" || { echo "not there: $3"; exit 1; }
}
there header '^ *Type: *DYN ' "at an address by chance (PIE)"
there dynamic 'Flags:.*\bPIE\b' "at an address by chance (PIE)"
there segments '^ *GNU_RELRO ' "what is resolved is not written to (RELRO)"
there dynamic '\bNOW\b' "all is resolved at the start (now)"
there segments '^ *GNU_STACK .* RW +0x' "a stack that nothing runs on"
there symbols '\b__stack_chk_fail\b' "guarded stacks (-fstack-protector-strong)"
there symbols '\b__(sn|vsn|f|vf)?printf_chk\b' "checked output (_FORTIFY_SOURCE)"
there symbols '\b__mem(cpy|move|set)_chk\b' "checked copies (_FORTIFY_SOURCE)"
# Nothing is looked for beside the program but by what it is installed with, and no segment is both written and run.
if grep -E 'TEXTREL|R(UN)?PATH' dynamic | grep -Ev 'path: \[\$ORIGIN/\.\./[a-z0-9_/-]*:\$ORIGIN\]$'; then exit 1; fi
if grep -Eq '^ *LOAD .* RWE ' segments; then cat segments; exit 1; fi
