#!/bin/sh
# The guide for rule-writers does what it says: every command in order, with its output, and every
# mistake in its table with its message.
set -eu
. "$SOURCE/tests/commands/shown.sh"
guide=$SOURCE/rules/README.md
cd "$WORK"
shown_program

shown_in "$guide" 15

# The jurisdiction of a production that stands in an included file counts too; one that includes
# itself over and over is soon done with.
grep -q 'rule="gb-eng.children.licence"' out/assessment.xml
{ echo '<dossier format="1">'; for i in 1 2 3 4 5 6 7 8 9; do echo '<include href="loop.xml"/>'; done; echo '</dossier>'; } >loop.xml
status=0
timeout 20 tankside check loop.xml >said 2>&1 || status=$?
[ $status -eq 2 ]
grep -q 'already part of this dossier' said

# The table of mistakes: "where | written | said".
python3 - "$guide" <<'PY'
import re, subprocess, sys, pathlib
form = '''%(file)s
rule {
  id = "site.%(id)s", title = "%(id)s", each = "immersion", harm = "performer",
  sources = { "common practice" },
  %(rule)s
  assess = function (i)
    %(assess)s
  end,
  examples = {
    { "so", given = { %(given)s }, expect = %(expect)s },
    { "not so", given = { depth = "2 m" }, expect = nothing },
  },
}
'''
usual = {"file": "", "rule": "", "given": 'depth = "4 m"', "expect": "hazard { likelihood = 3, severity = 3 }",
         "assess": 'if i.depth > q"3 m" then hazard { likelihood = 3, severity = 3, because = "deep" } end'}
rows = re.findall(r"^\| (assess|given|expect|rule|file) \| `(.+)` \| `(.+)` \|$", open(sys.argv[1], encoding="utf-8").read(), re.M)
assert len(rows) >= 20, len(rows)
folder = pathlib.Path("mistakes/site")
def check(texts):
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    done = subprocess.run(["tankside", "rules", "check", "--pack", str(folder)], capture_output=True, encoding="utf-8")
    return done.returncode, done.stdout + done.stderr
status, said = check({"right.lua": form % {**usual, "id": "right"}})
assert status == 0 and "0 errors, 0 warnings" in said, said
# All mistakes in one pack: each is told with its own file.
status, said = check({f"m{i:02}.lua": form % {**usual, where: written, "id": f"m{i:02}"}
                      for i, (where, written, message) in enumerate(rows)})
assert status in (1, 2), status
bad = 0
for i, (where, written, message) in enumerate(rows):
    own = "\n".join(line for line in said.split("\n") if line.startswith(f"site/m{i:02}.lua:"))
    if message not in own:
        bad = 1
        print(f"{where}: {written}\n  wanted: {message}\n  said: {own or said}")
sys.exit(bad)
PY
