#!/bin/sh
# From an empty folder to a printed, signed set: every answer typed at a terminal, and counted.
# What a safety officer would see and type is left in `screen.txt`.
set -eu
cd "$WORK"
openssl req -x509 -newkey rsa:2048 -nodes -keyout okafor.pem -out okafor.crt -days 3650 \
  -subj "/CN=T. Okafor/O=Long Acre Pictures" 2>/dev/null
PYTHONPATH=$SOURCE/tests/commands PYTHONDONTWRITEBYTECODE=1 python3 - "$TANKSIDE" <<'PY'
import re, sys
from terminal import Terminal

screen = open("screen.txt", "w")

def plain(heard):
    """What stands on the screen: without what moves the cursor, and what was typed over."""
    text = re.sub(rb"\x1b\[[0-9;?]*[A-Za-z]|\x1b[=>]", b"", heard).decode()
    return "\n".join(line.split("\r")[-1] if line.endswith(" ") else line.rstrip("\r")
                     for line in text.replace("\r\n", "\n").split("\n"))

PROMPT = (rb"\n\r?(?:\x1b\[[0-9;]*[A-Za-z]|\r)*(?:  (?:[a-z-]+ )?|)> |estimate, or Enter\) |not said\)  |by whom  "
          rb"|2027-03-08\)  ")

class Tankside(Terminal):
    """tankside, each run of it written down as it stood on the screen."""
    def __init__(self, *arguments):
        print("$ tankside", *arguments, file=screen)
        super().__init__(sys.argv[1], *arguments)

    def until_prompt(self):
        """What was said up to the next prompt; None when it has ended."""
        said = self.until(PROMPT)
        return None if said is None else plain(said)

    def answer(self, line):
        self.type(line.encode() + b"\r")

    def finish(self, *expected):
        status, said = self.end()
        screen.write(plain(self.heard) + "\n")
        assert status in expected, (status, said[-2000:])
        return plain(self.heard)

def run(*arguments, expected=(0,)):
    return Tankside(*arguments).finish(*expected)

# What is due is said at each step.
said = run(expected=(2,))
assert "tankside new FOLDER" in said, said

# The first dossier: a street in artificial rain.
answers = ["rain", "Copper Lane", "T. Okafor, safety officer", "2027-04-01", "gb-eng",
           "Long Acre Pictures", "", "Yard 3", "Weir Road 9", "no", "32..34 degC",
           "Nia Bright", "performer", "1996-08-14", "Sam Teller", "medic", "Rio Castell", "crew", "",
           "2027-04-12", "0",
           "Nia crosses the yard in the rain", "19:30", "22:00", "", "stand", "", "0 m", "no", "",
           ""]
terminal = Tankside("new", ".")
for answer in answers:
    assert terminal.until_prompt() is not None, terminal.heard.decode()
    terminal.answer(answer)
said = terminal.finish(0)
questions, answered = map(int, re.search(r"(\d+) questions, (\d+) answered", said).groups())
assert questions == len(answers), (questions, len(answers))
assert "tankside ask dossier.xml" in said, said

said = run("check", "dossier.xml")
assert "0 warnings" in said, said

# What matters most, as it is asked; what is not in the list is left open.
known = {"breath-hold": "0 s", "can-stand": "yes", "restrained": "no", "mask": "no",
         "entry": "ladder", "air-return-time": "0 s", "equipment-in-water": "no",
         "mass": "180..220 kg", "time": "0 min", "depth": "0 m"}
terminal, given, asked = Tankside("ask", "dossier.xml"), {}, 0
before = after = None
while asked < 12 and (said := terminal.until_prompt()) is not None:
    if "known from" in said:
        terminal.answer("statement" if len(given) == 1 else "")
    elif "by whom" in said:
        terminal.answer("Rio Castell")
    elif "on which day" in said:
        terminal.answer("2027-03-31")
    elif "kept where" in said:
        terminal.answer("call of that day")
    else:
        above = re.search(r"(\d+) above the line", said)
        if above:
            before, after = before or int(above.group(1)), int(above.group(1))
        fact = re.search(r"^[a-z0-9/-]*/([a-z0-9-]+): ", said, re.M)
        assert fact, said
        name = fact.group(1)
        asked += 1
        if asked == 12:
            terminal.answer("quit")
        elif name in known and name not in given:
            given[name] = known[name]
            terminal.answer(known[name])
        else:
            terminal.answer("?")
said = terminal.finish(1)
assert len(given) >= 4 and f"{len(given)} answers in dossier.xml" in said, (given, said)
assert after < before, (before, after)
text = open("dossier.xml").read()
for fact, value in given.items():
    assert f'{fact}="{value}"' in text, fact
assert text.count("<evidence ") == 2, text  # one in the comment that teaches, one given

# Scored, printed, signed, verified.
said = run("assess", "dossier.xml", "-o", "paper", "--no-pdf", expected=(1,))
assert "files in paper" in said, said
run("print", "paper", "--sheet", "set", "--as", "pdf", "-o", "paper/set.pdf")
assert open("paper/set.pdf", "rb").read(5) == b"%PDF-"
said = run(expected=(1,))
assert "tankside sign paper/assessment.xml" in said, said
run("sign", "paper", "--key", "okafor.pem", "--certificate", "okafor.crt", "--on", "2027-04-02",
    "--role", "safety officer")
said = run("verify", "paper", "--dossier", "dossier.xml", "--trust", "okafor.crt")
assert "intact" in said and "T. Okafor" in said, said
said = run()
assert "matches the dossier, signed" in said and "Next:" not in said, said
screen.close()

# At ten seconds an answer it takes less than a quarter of an hour.
lines = len(answers) + asked + 2 * len(given)
print(f"{questions} questions of new, {asked} of ask with {len(given)} answered: {lines} lines typed")
assert lines * 10 <= 15 * 60, lines
wide = [l for l in open("screen.txt").read().split("\n") if len(l) > 80 and not l.startswith("$")]
assert not wide, wide[:3]
PY
# The person, and nothing of what only the officer may see, is on the bound papers.
pdftotext -layout paper/set.pdf set.txt
grep -q "Copper Lane" set.txt
grep -q "Nia" set.txt
if grep -q "1996-08-14" set.txt; then exit 1; fi
