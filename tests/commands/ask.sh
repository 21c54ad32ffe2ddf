#!/bin/sh
# `tankside ask`: answers go into the file, nothing else of it changes, and undo takes them back.
set -eu
cd "$WORK"
cp "$SOURCE/shared/productions/lake-stunt/dossier.xml" dossier.xml
cp dossier.xml before.xml

# Through a pipe: a wrong answer, an answer with evidence, why, one left open, undo.
printf '%s\n' never 2027-10-05 measured 'R. Pell' 2027-10-05 'drill book 4' why '?' quit |
  "$TANKSIDE" ask dossier.xml >said 2>err || [ $? -eq 1 ]
grep -q 'rescue-drill-on: last full rescue drill' said
grep -q 'cannot read "never" for "rescue-drill-on": expected a date' err
grep -q 'went  Rescue and evacuation not drilled here lately' said
grep -q '^1 answer in dossier.xml' said
diff before.xml dossier.xml >diff.txt || true
grep -q '^> .*rescue-drill-on="2027-10-05"' diff.txt
grep -q '^>   <evidence for="third-landing/emergency/rescue-drill-on" kind="measured" by="R. Pell" on="2027-10-05" ref="drill book 4"/>' diff.txt
[ "$(grep -c '^>' diff.txt)" -le 4 ]
[ "$(grep -c '^<' diff.txt)" -le 1 ]
"$TANKSIDE" check dossier.xml >/dev/null 2>err

# Undone, the file is as it was to the byte.
cp before.xml dossier.xml
printf '%s\n' 2027-10-05 '' undo quit | "$TANKSIDE" ask dossier.xml >said 2>err || [ $? -eq 1 ]
grep -q '^0 answers' said
cmp before.xml dossier.xml

# Somebody else saves the file meanwhile: neither answer nor undo touches it.
PYTHONPATH=$SOURCE/tests/commands PYTHONDONTWRITEBYTECODE=1 python3 - "$TANKSIDE" <<'PY'
import os, sys
from terminal import Terminal

def at_terminal(lines, dossier):
    """Runs `ask`; `lines` are typed one by one, each after its prompt."""
    terminal = Terminal(sys.argv[1], "ask", dossier)
    for prompt, line in lines:
        assert terminal.until(prompt) is not None, terminal.heard
        terminal.type(line() if callable(line) else line)
    return terminal.end()

def meddle():
    with open("dossier.xml", "a") as f: f.write("<!-- somebody else -->\n")
    return b"2027-10-05\r"
status, said = at_terminal([(b"> ", meddle), (b"known from", b"\r"), (b"> ", b"quit\r")], "dossier.xml")
assert "was changed meanwhile" in said, said
text = open("dossier.xml").read()
assert text == open("before.xml").read() + "<!-- somebody else -->\n"

# At a terminal: the tabulator completes, the arrow brings back, the backspace takes away.
os.replace("before.xml", "dossier.xml")
status, said = at_terminal([(b"> ", b"wh\t\r"), (b"> ", b"2027-10-0\x7f05\r"), (b"known from", b"\r"),
                            (b"> ", b"und\t\r"), (b"> ", b"qu\t\r")], "dossier.xml")
assert status == 1 and "Rescue and evacuation" in said and "0 answers" in said, said
PY

# What cannot begin says so.
status=0
"$TANKSIDE" ask nowhere.xml </dev/null >said 2>err || status=$?
[ $status -eq 2 ]
grep -q nowhere.xml err
