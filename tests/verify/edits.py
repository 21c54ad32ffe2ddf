"""Single edits by lot, of a signed assessment, of what it was made from and of the documents made from
it: `tankside verify` must find every one and say where, and must find nothing in the untouched.

An edit is one character, one line deleted or doubled, or one attribute's value, anywhere in the
assessment; or one character anywhere in a document, in the dossier, in a file of the site's pack or
in the matrix. Suite `tampering` does the same two hundred times without starting the program.
"""
import pathlib
import random
import re
import shutil
import subprocess
import sys

TANKSIDE, SOURCE, WORK = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
EDITS = int(sys.argv[4])
SEED = 1997
chance = random.Random(SEED)

SEEN = "paper/assessment.xml"
DOSSIER = """<dossier format="1" units="metric">
  <production title="The weir cottage" jurisdiction="gb-eng" revision="2" on="2027-05-03" by="I. Marsh"/>
  <site id="pond" indoor="no" altitude="20 m">
    <basin length="12 m" width="8 m" depth="2.2 m" exits="2"/>
    <water temperature="19..21 degC" visibility="3..4 m"/>
  </site>
  <person id="wren" role="performer" born="1991-02-11" mass="61 kg"/>
  <day date="2027-05-11" site="pond">
    <task id="sill" title="Wren goes under the sill" start="10:00" finish="11:00">
      <immersion person="wren" wears="none" depth="1.5 m" time="8 min" breath-hold="12 s" takes="4"/>
      <control ref="second-air-source" state="planned"/>
    </task>
  </day>
</dossier>
"""
RULE = """rule {
  id = "pond.sill", title = "The sill is low", each = "task", harm = "performers: a knock",
  sources = { "common practice" },
  assess = function (t) hazard { likelihood = 2, severity = 2, because = "the sill is low" } end,
  examples = { { "any", given = {}, expect = hazard { likelihood = 2, severity = 2 } } },
}
"""


def run(*words):
    return subprocess.run([TANKSIDE, *map(str, words)], capture_output=True, text=True, cwd=WORK)


def verify():
    done = run("verify", "paper", "--dossier", "dossier.xml", "--pack", "pond", "--matrix", "matrix.xml", "--no-pdf")
    return done.returncode, done.stderr, done.stdout


def other_character(text, at):
    """Another character of the same kind: a letter for a letter, a digit for a digit."""
    was = text[at]
    kinds = ("0123456789", "abcdefghijklmnopqrstuvwxyz", "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    kind = next((k for k in kinds if was in k), "#")
    return text[:at] + chance.choice([c for c in kind if c != was] or ["#"]) + text[at + 1:]


def edit_character(text):
    return other_character(text, chance.randrange(len(text)))


def edit_value(text):
    values = list(re.finditer(r'="([^"]+)"', text))
    value = chance.choice(values)
    return text[:value.start(1)] + chance.choice(["yes", "0", "a person who was not there"]) + text[value.end(1):]


def edit_line(text):
    lines = text.splitlines(keepends=True)
    at = chance.randrange(1, len(lines))
    return "".join(lines[:at] + [lines[at]] * chance.choice([0, 2]) + lines[at + 1:])


def edited(name):
    """Puts one edit into a file; the text as it was, and the line of the edit."""
    path = WORK / name
    was = path.read_bytes().decode("utf-8")
    kinds = [edit_character, edit_value, edit_line] if name == SEEN else [edit_character]
    now = was
    while now == was:
        now = chance.choice(kinds)(was)
    path.write_text(now, encoding="utf-8", newline="")
    at = next(i for i, (a, b) in enumerate(zip(was + "\0", now + "\0")) if a != b)
    return was, was.count("\n", 0, at) + 1


def says_where(name, line, said):
    """The file is named, and for the assessment a place not after the edit: what is left out is
    reported where the element around it begins."""
    if name != SEEN:
        return pathlib.Path(name).name in said
    lines = [int(n) for n in re.findall(r"(?:assessment\.xml:|line )(\d+)", said)]
    return bool(lines) and min(lines) <= line + 1


def sign():
    run_openssl = ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "k.key", "-out", "k.crt",
                   "-days", "36500", "-subj", "/CN=I. Marsh"]
    subprocess.run(run_openssl, cwd=WORK, check=True, capture_output=True)
    done = run("sign", "paper", "--key", "k.key", "--certificate", "k.crt", "--on", "2027-05-04", "--role", "officer")
    assert done.returncode == 0, done.stderr


def main():
    (WORK / "pond").mkdir()
    (WORK / "dossier.xml").write_text(DOSSIER)
    (WORK / "pond/sill.lua").write_text(RULE)
    shutil.copy(SOURCE / "shared/matrices/five-by-five.xml", WORK / "matrix.xml")
    first = run("assess", "dossier.xml", "--pack", "pond", "--matrix", "matrix.xml", "-o", "paper", "--no-pdf")
    assert first.returncode < 2, first.stderr
    sign()
    status, said, told = verify()
    assert status == 0 and "error" not in said and "documents looked at: 0 altered" in told, (said, told)
    documents = sorted(f"paper/{p.name}" for p in (WORK / "paper").iterdir() if p.suffix in (".html", ".csv"))
    for i in range(EDITS):
        names = [SEEN, "dossier.xml", "pond/sill.lua", chance.choice(documents), "matrix.xml", chance.choice(documents)]
        name = names[i % len(names)]
        was, line = edited(name)
        status, said, told = verify()
        changed = (WORK / name).read_text(encoding="utf-8")
        assert status != 0 and "error" in said, (name, line, "not found", changed.splitlines()[line - 1])
        assert says_where(name, line, said), (name, line, said)
        if name == SEEN and status == 1:
            assert "altered: this is not what was signed" in " ".join(told.split()) or \
                "not a signature" in told or "after a signature" in said, (line, told)
        (WORK / name).write_bytes(was.encode("utf-8"))
    status, said, told = verify()
    assert status == 0 and "error" not in said, said
    print(f"{EDITS} edits by lot, each found and placed; none in the untouched")


main()
