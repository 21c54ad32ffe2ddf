#!/bin/sh
# `tankside watch`: every way a file is saved is seen, what is broken is shown and waited out, and it
# ends with the status of what stands. Nothing here depends on how long anything takes.
set -eu
cd "$WORK"
exec python3 - "$TANKSIDE" "$SOURCE" <<'PY'
import os, pty, re, select, shutil, signal, subprocess, sys, time

program, source = sys.argv[1:]
PATIENCE = 240 # seconds: a loaded machine, not a proof of anything

class Watch:
    """`tankside watch` at a pipe, or at a terminal, and what it has said."""
    def __init__(self, *arguments, terminal=False):
        if terminal:
            self.out, theirs = pty.openpty()
        else:
            self.out, theirs = os.pipe()
        self.process = subprocess.Popen([program, "watch", *arguments], stdin=subprocess.DEVNULL,
                                        stdout=theirs, stderr=theirs, close_fds=True)
        os.close(theirs)
        self.heard, self.taken = "", 0

    def listen(self, until):
        if not select.select([self.out], [], [], max(0, until - time.monotonic()))[0]:
            self.process.kill()
            raise SystemExit("nothing more after:\n" + self.heard)
        try:
            piece = os.read(self.out, 65536)
        except OSError:
            piece = b""
        self.heard += piece.decode(errors="replace").replace("\r\n", "\n")
        return bool(piece)

    def until(self, mark):
        """What it says up to and with `mark`, an expression, from where we were."""
        until = time.monotonic() + PATIENCE
        while not (found := re.compile(mark).search(self.heard, self.taken)):
            if not self.listen(until):
                raise SystemExit(f"it ended before {mark!r}:\n" + self.heard)
        said, self.taken = self.heard[self.taken:found.end()], found.end()
        return said

    def end(self, by=signal.SIGINT):
        self.process.send_signal(by)
        until = time.monotonic() + PATIENCE
        while self.listen(until):
            pass
        os.close(self.out)
        return self.process.wait()

def text(path):
    with open(path) as f:
        return f.read()

def write(path, what):
    with open(path, "w") as f:
        f.write(what)

def replace(path, what):
    """As many editors save: a new file, renamed onto the old one."""
    write(path + ".new", what)
    os.replace(path + ".new", path)

def has(said, *marks):
    for mark in marks:
        assert mark in said, f"{mark!r} is not in:\n{said}"

# ---- one file, in every way it is saved --------------------------------------------------------

READY, FIGURES, BROKEN = r"; \^C ends\n", r" facts? not known\n", r"waiting until it is mended\n"
shutil.copytree(os.path.join(source, "shared/productions/lake-stunt"), "lake")
dossier = "lake/dossier.xml"
plain = text(dossier)
assert plain.count('congested="?"') == 1
cold = plain.replace('congested="?"', 'congested="no"')
os.makedirs("site")
RULE = """rule {
  id = "ledge.always", title = "The ledge by the ladder", each = "task", harm = "anyone: a fall",
  sources = { "common practice" },
  assess = function (t) hazard { likelihood = 2, severity = 2, because = "there is a ledge" } end,
  examples = { { "any", given = {}, expect = hazard { likelihood = 2, severity = 2 } } },
}
"""
write("site/ledge.lua", RULE)
write("what-if.txt", "# nothing yet\n")
watch = Watch(dossier, "--pack", "site", "--set-file", "what-if.txt")
has(watch.until(READY), "Stops\n", "above the line", "prompt for a decision")

write(dossier, cold)  # written over
has(watch.until(FIGURES), "saved  " + dossier, "dusk/hal/congested: not known → no",
    "went  STOP Ears and sinuses on the way down", "Stops 1 → 0", "0 stops, ")

replace(dossier, plain)  # renamed onto it
has(watch.until(FIGURES), "dusk/hal/congested: no → not known",
    "came  STOP Ears and sinuses on the way down", "ask   dusk/hal/congested", "1 stop, ")

write(dossier, plain[: len(plain) // 2])  # half written
has(watch.until(BROKEN), dossier, "error: ")
write(dossier, plain.replace('depth="', 'dept="', 1))  # mended, with a slip
has(watch.until(BROKEN), 'unknown fact "dept"', '"depth"')
os.remove(dossier)  # as some editors do before they write it again
has(watch.until(BROKEN), "gone   " + dossier)
replace(dossier, cold)  # mended: compared with what could last be assessed
has(watch.until(FIGURES), "dusk/hal/congested: not known → no", "Stops 1 → 0")

write(dossier, cold + "<!-- a note -->\n")  # saved, and nothing is otherwise
has(watch.until(FIGURES), "no score changed")

place = re.search(r'jurisdiction="([^"]*)"', cold).group(0)
write(dossier, cold.replace(place, 'jurisdiction="gb-eng"'))  # it goes by other rules now
has(watch.until(FIGURES), "rule file gb", "came  ")
write(dossier, cold)
has(watch.until(FIGURES), "rule file us", "went  ")

# ---- what else it is made from -------------------------------------------------------------------

write("site/ledge.lua", RULE.replace("severity = 2", "severity = 5"))
has(watch.until(FIGURES), "saved  site/ledge.lua", "rule file site/ledge.lua changed",
    "rose  The ledge by the ladder")
write("site/ledge.lua", "rule {\n")
has(watch.until(BROKEN), "site/ledge.lua:")
write(dossier, cold)  # another file saved meanwhile does not make the rules good
has(watch.until(BROKEN), "saved  " + dossier, "site/ledge.lua:")
write("site/ledge.lua", RULE)
write("site/more.lua", RULE.replace("ledge.always", "ledge.more"))  # a file that was not there
has(watch.until(FIGURES), "saved  site/more.lua", "came  The ledge by the ladder")
write("what-if.txt", "dusk/hal/congested = yes\n")
has(watch.until(FIGURES), "saved  what-if.txt", "dusk/hal/congested: no → yes",
    "came  STOP Ears and sinuses")

# A part that comes to be included, does not read, and is mended in its own file.
end = cold.rindex("</dossier>")
write("lake/more.xml", '<dossier format="1"><person id="new" role="crew" nam="X"/></dossier>\n')
write(dossier, cold[:end] + '<include href="more.xml"/>\n' + cold[end:])
has(watch.until(BROKEN), "more.xml:1: error:")
replace("lake/more.xml", '<dossier format="1"><person id="new" role="crew" name="X"/></dossier>\n')
has(watch.until(FIGURES), "saved  lake/more.xml")

wide = [line for line in watch.heard.splitlines() if len(line) > 80 and "error: " not in line]
assert not wide, wide
assert "\033" not in watch.heard, "escapes at a pipe"
assert watch.end() == 1, "a stop stands"

# ---- how it ends ------------------------------------------------------------------------------------

watch = Watch(dossier, "--set-file", "what-if.txt")
watch.until(READY)
replace(dossier, cold)
watch.until("saved  ")
assert watch.end() == 1, "in the midst of assessing: as last assessed"

watch = Watch(dossier, terminal=True)
watch.until(READY)
write(dossier, "<dossier")
watch.until(BROKEN)
assert watch.end(signal.SIGTERM) == 2, "what stands does not read"

watch = Watch(dossier)  # broken from the start: waits all the same
watch.until(READY)
write(dossier, plain)
has(watch.until("prompt for a decision"), "Stops\n")
assert watch.end() == 1

watch = Watch("nowhere.xml")
watch.until("nowhere.xml")
assert watch.process.wait(PATIENCE) == 2
PY
