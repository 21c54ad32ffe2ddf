"""Two assessments compared, against a comparison made here on its own.

Facts of the demo productions are changed by lot, one to three at a time, and assessed. What
`tankside compare` then lists must be just the findings and duties whose scores differ, and each
must name a cause that really differs: a fact with other text, a control, a rule file.
"""
import pathlib
import random
import re
import subprocess
import sys
import xml.etree.ElementTree as ET

TANKSIDE, SOURCE, WORK = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
CHANGES = int(sys.argv[4])
SEED = 20271108
KNOWN_BY = ("rule", "subject", "word", "about", "instrument", "section")


def assess(dossier, name, sets=()):
    file = WORK / f"{name}.xml"
    command = [TANKSIDE, "assess", str(dossier), "-o", str(file)]
    for path, value in sets:
        command += ["--set", f"{path}={value}"]
    done = subprocess.run(command, capture_output=True, text=True)
    return ET.parse(file).getroot() if done.returncode < 2 else None


def facts(root):
    return {f"{s.get('path')}/{f.get('name')}": (f.get("text"), f.get("state"), f.get("assumed"))
            for s in root.find("subjects") for f in s.findall("fact")}


def stands(root):
    found = {}
    for element in list(root.find("findings")) + list(root.find("duties")):
        key = tuple(element.get(part) for part in KNOWN_BY)
        scores = [sorted(s.attrib.items()) for s in element.findall("score")]
        found[key] = (scores, element.get("state"), element.get("state-in-place"))
    return found


def other(text, chance):
    """Another value for a fact that reads so, or None where this does not know one."""
    if text in ("yes", "no"):
        return "no" if text == "yes" else "yes"
    number = re.fullmatch(r"(\d+(?:\.\d+)?)( \S+)?", text)
    if number:
        factor = chance.choice([0.5, 0.8, 1.25, 2])
        value = float(number[1]) * factor
        return f"{round(value) if '.' not in number[1] else round(value, 3)}{number[2] or ''}"
    return "?" if re.match(r"\d", text) else None


def compared(old, new):
    out = subprocess.run([TANKSIDE, "compare", f"{WORK / old}.xml", f"{WORK / new}.xml", "--as", "xml"],
                         capture_output=True, text=True, check=True).stdout
    return ET.fromstring(out)


def key(element):
    return tuple(element.get(part) for part in KNOWN_BY)


def check(old, new, comparison, what):
    """Every difference is listed, nothing else is, and no difference lacks a true cause."""
    before, after = stands(old), stands(new)
    expected = {k for k in before.keys() | after.keys() if before.get(k) != after.get(k)}
    listed = {key(e): e for e in comparison.iter() if e.tag in ("finding", "duty")}
    assert listed.keys() == expected, (what, listed.keys() ^ expected)
    facts_before, facts_after = facts(old), facts(new)
    for k, element in listed.items():
        causes = element.findall("cause")
        assert causes, (what, k, "no cause")
        for cause in causes:
            assert cause.get("kind") != "none", (what, k, "nothing behind it changed")
            if cause.get("kind") == "fact":
                name = cause.get("name")
                assert facts_before.get(name) != facts_after.get(name), (what, k, name)
    changed = {e.get("path") for e in comparison.find("facts")}
    differ = {p for p in facts_before.keys() | facts_after.keys()
              if facts_before.get(p) != facts_after.get(p)}
    assert changed == differ, (what, changed ^ differ)
    return len(listed)


def by_lot(name, dossier, base, count, chance):
    stated = sorted(p for p, (text, state, _) in facts(base).items() if state == "stated" and "/" in p)
    done = listed = 0
    while done < count:
        sets = []
        for path in chance.sample(stated, chance.randint(1, 3)):
            value = other(facts(base)[path][0], chance)
            if value:
                sets.append((path, value))
        changed = assess(dossier, f"{name}-new", sets) if sets else None
        if changed is None:  # not plausible, or against another fact: nothing was written
            continue
        listed += check(base, changed, compared(name, f"{name}-new"), (name, sets))
        done += 1
    return listed


def main():
    chance = random.Random(SEED)
    productions = sorted((SOURCE / "shared/productions").iterdir())
    listed = 0
    for i, folder in enumerate(productions):
        name, dossier = folder.name, folder / "dossier.xml"
        base = assess(dossier, name)
        nothing = compared(name, name)
        assert not [e for e in nothing.iter() if e.get("change")], name
        share = CHANGES // len(productions) + (i < CHANGES % len(productions))
        listed += by_lot(name, dossier, base, share, chance)
    assert listed > CHANGES or CHANGES < 10, "hardly anything changed: nothing was tried"
    print(f"{CHANGES} changes by lot: {listed} findings and duties that stand otherwise, each with its cause")


main()
