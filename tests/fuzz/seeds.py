#!/usr/bin/env python3
"""Writes what the fuzz targets begin with: seeds.py PROGRAM FOLDER

A folder of seeds for each target, from the productions, the rules, the matrices and the cases of tests/hostile, and
a dictionary for each from the vocabulary, the units, the grammar of Lua and the words of rule files.
"""
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as xml

HERE = pathlib.Path(__file__).resolve().parent
SOURCE = HERE.parent.parent

LUA = """and break do else elseif end false for function if in local nil not or repeat return then true until while
+ - * / ^ < <= > >= == ~= .. ( ) { } [ ] ; , . : = --""".split()


def put(folder, name, data):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data if isinstance(data, bytes) else data.encode())


def dictionary(path, words):
    """libFuzzer's form: a quoted word a line."""
    safe = sorted({w for w in words if w and len(w) < 60 and all(32 <= ord(c) < 127 for c in w)})
    path.write_text("".join('"%s"\n' % w.replace("\\", "\\\\").replace('"', '\\"') for w in safe))


def cases(name):
    """What tests/hostile holds, written out."""
    text = (SOURCE / "tests/hostile" / name).read_text()
    for case in text.split("\n--- ")[1:]:
        body = case.split("\n", 2)[2]
        body = re.sub(r"«(\d+)\*(.*?)»", lambda m: m[2] * min(int(m[1]), 200), body, flags=re.S)
        yield re.sub(rb"\\x([0-9a-f]{2})", lambda m: bytes([int(m[1], 16)]), body.encode())


def words_of_vocabulary(program):
    """Entities, facts, choices, units, as the reference lists them."""
    page = subprocess.run([program, "vocabulary", "--as", "xml"], capture_output=True, check=True).stdout
    words = set()
    for element in xml.fromstring(page).iter():
        words.add(element.tag)
        for name, value in element.attrib.items():
            words |= {name, *value.split()}
    return words


def sample(element):
    """The same with two of each kind of element at most: small enough to be changed and read a thousand times."""
    seen = {}
    for child in list(element):
        seen[child.tag] = seen.get(child.tag, 0) + 1
        if seen[child.tag] > 2:
            element.remove(child)
        else:
            sample(child)
    return element


def main(program, folder):
    folder = pathlib.Path(folder)
    seen = words_of_vocabulary(program)
    productions = sorted(SOURCE.glob("shared/productions/*/*.xml")) + sorted(SOURCE.glob("tests/dossiers/*/*.xml"))
    dossiers = [p.read_bytes() for p in productions]
    for i, data in enumerate(dossiers + list(cases("dossiers.txt"))):
        put(folder / "dossier", f"{i:03}", data)
    rules = [p.read_text() for p in sorted(SOURCE.glob("rules/*/*.lua"))]
    parts = [part for text in rules for part in re.split(r"\n(?=rule \{|control \{)", text) if len(part) < 6000]
    for i, data in enumerate([p.encode() for p in parts] + list(cases("rules.txt"))):
        put(folder / "rule", f"{i:03}", data)
    for i, path in enumerate(sorted(SOURCE.glob("shared/matrices/*.xml"))):
        put(folder / "matrix", f"{i:03}", path.read_bytes())
    values = sorted({v for d in dossiers for v in re.findall(r'="([^"]{1,60})"', d.decode(errors="ignore"))})
    for i, value in enumerate(values):
        put(folder / "quantity", f"{i:04}", value)
    for i, value in enumerate(values[:400]):
        put(folder / "set", f"{i:04}", f"t/p/depth={value}")
    for name in ("s/water/temperature=20 degC", "t/p/takes=3", "p/role=diver", "s/water-body=lake", "x=1"):
        put(folder / "set", re.sub(r"\W", "-", name), name)
    target = folder / "assessment"
    for name in ("lake-stunt", "stage-pool"):
        target.mkdir(parents=True, exist_ok=True)
        subprocess.run([program, "assess", SOURCE / f"shared/productions/{name}/dossier.xml", "-o", target / f"{name}.xml"],
                       stdout=subprocess.DEVNULL, check=False)
    for path in target.glob("*.xml"):
        path.write_bytes(xml.tostring(sample(xml.parse(path).getroot()), encoding="UTF-8"))
    text = (target / "lake-stunt.xml").read_text()
    tags = set(re.findall(r"</?([a-z-]+)|([a-z-]+)=", text))
    dictionary(folder / "assessment.dict", {word for pair in tags for word in pair})
    dictionary(folder / "dossier.dict", seen)
    dictionary(folder / "set.dict", seen)
    dictionary(folder / "rule.dict", {w.replace("-", "_") for w in seen} | set(LUA))
    dictionary(folder / "quantity.dict", {w for w in seen if len(w) < 12})
    dictionary(folder / "matrix.dict", set(re.findall(r"[a-z-]+", "".join(
        p.read_text() for p in SOURCE.glob("shared/matrices/*.xml")))))


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
