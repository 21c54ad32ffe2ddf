#!/bin/sh
# From an empty folder to a printed, signed set: every answer typed at a terminal, and counted.
# What a safety officer would see and type is left in `transcript.txt`.
set -eu
cd "$WORK"
openssl req -x509 -newkey rsa:2048 -nodes -keyout okafor.pem -out okafor.crt -days 3650 \
  -subj "/CN=T. Okafor/O=Long Acre Pictures" 2>/dev/null
python3 - "$TANKSIDE" <<'PY'
import os, pty, re, select, subprocess, sys

transcript = open("transcript.txt", "w")

def plain(heard):
    """What stands on the screen: without what moves the cursor, and what was typed over."""
    text = re.sub(rb"\x1b\[[0-9;?]*[A-Za-z]|\x1b[=>]", b"", heard).decode()
    return "\n".join(line.split("\r")[-1] if line.endswith(" ") else line.rstrip("\r")
                     for line in text.replace("\r\n", "\n").split("\n"))

class Terminal:
    """tankside at a pseudo-terminal of 80 columns."""
    def __init__(self, *arguments):
        print("$ tankside", *arguments, file=transcript)
        master, slave = pty.openpty()
        import fcntl, struct, termios
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 80, 0, 0))
        self.program = subprocess.Popen([sys.argv[1], *arguments], stdin=slave, stdout=slave,
                                        stderr=slave, env={**os.environ, "TERM": "vt100"})
        os.close(slave)
        self.master, self.heard, self.taken = master, b"", 0

    def listen(self):
        if not select.select([self.master], [], [], 120)[0]:
            self.program.kill()
            raise SystemExit("nothing more after " + self.heard.decode())
        try:
            piece = os.read(self.master, 4096)
        except OSError:
            return False
        self.heard += piece
        return bool(piece)

    def until_prompt(self):
        """What was said up to the next prompt; None when it has ended."""
        prompt = re.compile(rb"\n\r?(?:\x1b\[[0-9;]*[A-Za-z]|\r)*(?:  (?:[a-z-]+ )?|)> |estimate, or Enter\) |not said\)  |by whom  |2027-03-08\)  ")
        while (found := prompt.search(self.heard, self.taken)) is None:
            if not self.listen():
                return None
        said = self.heard[self.taken:found.end()]
        self.taken = found.end()
        return plain(said)

    def type(self, line):
        os.write(self.master, line.encode() + b"\r")

    def end(self, *expected):
        while self.listen():
            pass
        status = self.program.wait()
        # What is typed before the program listens, the terminal shows a second time.
        transcript.write(re.sub(r"(> )(.+)\n\2\n", r"\1\2\n", plain(self.heard)) + "\n")
        assert status in expected, (status, plain(self.heard)[-2000:])
        return plain(self.heard)

def run(*arguments, expected=(0,)):
    return Terminal(*arguments).end(*expected)

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
terminal = Terminal("new", ".")
for answer in answers:
    assert terminal.until_prompt() is not None, terminal.heard.decode()
    terminal.type(answer)
said = terminal.end(0)
questions, answered = map(int, re.search(r"(\d+) questions, (\d+) answered", said).groups())
assert questions == len(answers), (questions, len(answers))
assert "tankside ask dossier.xml" in said, said

said = run("check", "dossier.xml")
assert "0 warnings" in said, said

# What matters most, as it is asked; what is not in the list is left open.
known = {"breath-hold": "0 s", "can-stand": "yes", "restrained": "no", "mask": "no",
         "entry": "ladder", "air-return-time": "0 s", "equipment-in-water": "no",
         "mass": "180..220 kg", "time": "0 min", "depth": "0 m"}
terminal, given, asked = Terminal("ask", "dossier.xml"), {}, 0
before = after = None
while asked < 12 and (said := terminal.until_prompt()) is not None:
    if "known from" in said:
        terminal.type("statement" if len(given) == 1 else "")
    elif "by whom" in said:
        terminal.type("Rio Castell")
    elif "on which day" in said:
        terminal.type("2027-03-31")
    elif "kept where" in said:
        terminal.type("call of that day")
    else:
        above = re.search(r"(\d+) above the line", said)
        if above:
            before, after = before or int(above.group(1)), int(above.group(1))
        fact = re.search(r"^[a-z0-9/-]*/([a-z0-9-]+): ", said, re.M)
        assert fact, said
        name = fact.group(1)
        asked += 1
        if asked == 12:
            terminal.type("quit")
        elif name in known and name not in given:
            given[name] = known[name]
            terminal.type(known[name])
        else:
            terminal.type("?")
said = terminal.end(1)
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
transcript.close()

# At ten seconds an answer it takes less than a quarter of an hour.
lines = len(answers) + asked + 2 * len(given)
print(f"{questions} questions of new, {asked} of ask with {len(given)} answered: {lines} lines typed")
assert lines * 10 <= 15 * 60, lines
wide = [l for l in open("transcript.txt").read().split("\n") if len(l) > 80 and not l.startswith("$")]
assert not wide, wide[:3]
PY
# The person, and nothing of what only the officer may see, is on the bound papers.
pdftotext -layout paper/set.pdf set.txt
grep -q "Copper Lane" set.txt
grep -q "Nia" set.txt
if grep -q "1996-08-14" set.txt; then exit 1; fi
