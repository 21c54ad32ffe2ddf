#!/usr/bin/env python3
"""Changes every figure the rules decide by, and asks whether an example notices.

    mutate.py PROGRAM RULES SCRATCH [PACK...] [--more] [--only FILE...]

Each number a rule decides by is made a tenth more and a tenth less (a count below ten: one more, one
less), and each comparison is turned round. Every such mutant of a file is loaded in place of the
file, with PROGRAM (tankside-mutants), and the examples of the rules it concerns are run: it dies when
one of them fails; what is shared with other files is tried on every rule that uses it, in whatever pack.
A mutant that lives is a figure no example holds to. Those that may live, each with
a reason, stand in survivors.txt; at most a twentieth may. With --more "and" and "or" change places,
"not" is left out, and levels of scores are one more and one less, too: to look for what else no example
holds to, not for the test.
"""
import collections
import os
import pathlib
import re
import subprocess
import sys

from lua import mentioned, statements

COMPARISONS = {"<": ">", ">": "<", "<=": ">=", ">=": "<="}
WORDS = {"and": "or", "or": "and", "not": " "}
QUANTITY = re.compile(r'"(-?\d+(?:\.\d+)?)( ?(?:[A-Za-z%°]|1\/)[^ ]*(?: [^ ]+){0,2})?"$')
LADDERS = {"limit", "minimum", "reserve", "repeats"}
SHOWN = {"who", "because", "about"}
MOST_ALIVE = 0.05
HERE = pathlib.Path(__file__).resolve().parent

Mutant = collections.namedtuple("Mutant", "file line at old new rules names")


# ---- what is changed ------------------------------------------------------------------


def callee(row, i):
    """The name of the function whose argument the token is, or None."""
    depth = row[i].depth
    while i > 0 and row[i].depth >= depth:
        i -= 1
    return row[i - 1].text if row[i].text == "(" else None


def is_constant(row):
    """Whether a local is a figure or a table of figures, not a function."""
    return row[0].text == "local" and all(t.text != "function" for t in row)


def is_ratio(row, i):
    """Whether a bare number measures, rather than counts."""
    around = (row[i - 1].text, row[i + 1].text if i + 1 < len(row) else "")
    return "." in row[i].text or "*" in around or "/" in around or is_constant(row)


def is_threshold(row, i):
    """Whether a bare number is compared, or makes what is compared; not a level of a score."""
    around = (row[i - 1].text, row[i + 1].text if i + 1 < len(row) else "")
    return around[0] != "[" and (is_ratio(row, i) or any(t in COMPARISONS for t in around)
                                 or callee(row, i) in LADDERS)


def is_count(row, i):
    return not is_ratio(row, i) and int(row[i].text) < 10


def is_shown(row, i):
    """Whether a token stands in the values that a finding only shows."""
    depth = row[i].depth
    for at in range(i - 1, 1, -1):
        if row[at].depth < depth:
            depth = row[at].depth
            if row[at].text == "{" and row[at - 2].text == "values":
                return True
    return False


def moved(number, count):
    value = float(number)
    if count:
        return [str(int(number) + 1), str(int(number) - 1)]
    return [f"{value * by:.9g}" for by in (1.1, 0.9)] if value else []


def more_changes(row, i):
    token = row[i].text
    if token in WORDS:
        return [WORDS[token]]
    if token.isdigit() and row[i - 1].text != "[" and not is_threshold(row, i):
        return [str(int(token) + 1), str(int(token) - 1)]
    return []


def changes(row, i):
    """What may stand instead of a token."""
    token, before = row[i].text, row[i - 1].text if i else ""
    if token in COMPARISONS:
        return [COMPARISONS[token]]
    quantity = QUANTITY.match(token)
    if quantity and not (before == "=" and row[i - 2].text in SHOWN):
        count = not quantity[2] and quantity[1].isdigit() and int(quantity[1]) < 10
        return [f'"{n}{quantity[2] or ""}"' for n in moved(quantity[1], count)]
    if token[0].isdigit() and is_threshold(row, i):
        return moved(token, is_count(row, i))
    return []


def replacements(row, i, more):
    found = changes(row, i) + (more_changes(row, i) if more else [])
    return [] if found and is_shown(row, i) else found


# ---- files and the rules in them ----------------------------------------------------------


class File:
    def __init__(self, path):
        self.name, self.text = path.name, path.read_text()
        self.statements = statements(self.text)
        self.locals = {name: s for s in self.statements for name in s.defines}
        self.rules = [s for s in self.statements if s.word == "rule"]

    def reached(self, names):
        """The locals that names lead to, those that these reach included."""
        found, todo = [], [names]
        while todo:
            for name in todo.pop():
                other = self.locals.get(name)
                if other and other not in found:
                    found.append(other)
                    todo.append(other.mentions())
        return found

    def deciding(self):
        """Each statement that decides, with the ids of the rules and the shared names it decides by."""
        pairs = {}
        for rule in self.rules:
            for statement in [rule] + self.reached(rule.mentions()):
                pairs.setdefault(statement, ([], set()))[0].append(rule.id)
        for share in (s for s in self.statements if s.word == "share"):
            for field, row in share.fields.items():
                for statement in [share] + self.reached(mentioned(row)):
                    pairs.setdefault(statement, ([], set()))[1].add(field)
        return [(s, tuple(ids), names) for s, (ids, names) in pairs.items()]

    def mutants(self, more):
        for statement, ids, names in self.deciding():
            row = statement.decides()
            for i, token in enumerate(row):
                for new in replacements(row, i, more):
                    yield Mutant(self.name, token.line, token.at, token.text, new, ids, names)

    def mentions(self, rule):
        """Every word a rule decides by, fields of shared tables included."""
        return {t.text for s in [rule] + self.reached(rule.mentions()) for t in s.decides()}

    def shared(self):
        """Each name the file shares, and every word it stands on."""
        return [(field, {t.text for s in self.reached(mentioned(row)) for t in s.decides()} | set(mentioned(row)))
                for share in self.statements if share.word == "share" for field, row in share.fields.items()]

    def without(self, unwanted):
        """The text with some statements blanked, lines kept."""
        text = self.text
        for s in self.statements:
            if unwanted(s):
                blank = re.sub(r"[^\n]", " ", text[s.start:s.end])
                text = text[:s.start] + blank + text[s.end:]
        return text


class Pack:
    def __init__(self, folder):
        self.name = folder.name
        self.files = [File(path) for path in sorted(folder.glob("*.lua"))]

    def controls_tried(self, ids):
        """What the examples of some rules may have in place: words of theirs, and of the locals beside."""
        return {t.text.strip('"') for f in self.files if any(r.id in ids for r in f.rules)
                for s in f.statements if s.word == "local" or s.id in ids
                for t in s.fields.get("examples", s.row) if t.text.startswith('"')}


class Bench:
    """A folder of packs that holds no more than some rules need, and the program that runs their
    examples in it: what is not there need not be loaded a thousand times."""

    def __init__(self, program, scratch, packs):
        self.packs, self.scratch, self.ids = packs, scratch / "rules", None
        folders = [self.scratch / pack.name for pack in packs]
        for folder in folders:
            folder.mkdir(parents=True, exist_ok=True)
            (folder / "00.lua").write_text("-- no folder is without a file\n")
        # The names of the packs belong to the folders where the program looks for its data.
        self.program = subprocess.Popen([program, *map(str, folders)], text=True,
                                        env={**os.environ, "TANKSIDE_DATA": str(scratch)},
                                        stdin=subprocess.PIPE, stdout=subprocess.PIPE)

    def furnish(self, ids):
        if ids == self.ids:
            return
        self.ids = ids
        controls = set().union(*(pack.controls_tried(ids) for pack in self.packs))
        for pack in self.packs:
            unwanted = lambda s: s.word in ("rule", "control") and s.id not in ids and s.id not in controls
            for file in pack.files:
                path = self.scratch / pack.name / file.name
                text = file.without(unwanted)
                wanted = any(s.word == "share" or (s.id and not unwanted(s)) for s in file.statements)
                path.write_text(text) if wanted else path.unlink(missing_ok=True)
        if self.ask(ids) != "lives":
            sys.exit(f"the examples of {' '.join(ids)} fail before anything is changed")

    def close(self):
        self.program.stdin.close()
        self.program.wait()

    def ask(self, ids):
        self.program.stdin.write(" ".join(ids) + "\n")
        self.program.stdin.flush()
        return self.program.stdout.readline().strip()

    def fate(self, pack, mutant, ids):
        path = self.scratch / pack.name / mutant.file
        whole = path.read_text()
        assert whole[mutant.at:].startswith(mutant.old), mutant
        path.write_text(whole[:mutant.at] + mutant.new + whole[mutant.at + len(mutant.old):])
        answer = self.ask(ids)
        path.write_text(whole)
        return answer

    def outlived(self, pack, mutant):
        """Whether no example notices; what is shared is tried on one rule after the other."""
        for ids in groups(self.packs, mutant):
            self.furnish(ids)
            answer = self.fate(pack, mutant, ids)
            if answer != "lives":
                return answer == "unread"  # what cannot be loaded is no mutant: it must be seen
        return True


def groups(packs, mutant):
    """The rules to try, together or one after the other: its own, or those that use what is shared."""
    if not mutant.names:
        return [mutant.rules]
    names = standing_on(packs, mutant.names)
    return [(r.id,) for pack in packs for f in pack.files for r in f.rules if names & f.mentions(r)]


def standing_on(packs, names):
    """The shared names, and those shared names that stand on them in turn."""
    names = set(names)
    while more := {field for pack in packs for f in pack.files for field, words in f.shared()
                   if words & names} - names:
        names |= more
    return names


# ---- who lives, and who may ---------------------------------------------------------------


def key_of(pack, mutant, seen):
    """How survivors.txt names a mutant: not by its line, which moves."""
    rule = " ".join(sorted(mutant.names)) or mutant.rules[0]
    key = (f"{pack.name}/{mutant.file}", rule, f"{mutant.old} -> {mutant.new.strip() or 'nothing'}")
    seen[key] += 1
    return key if seen[key] == 1 else (*key[:2], f"{key[2]} #{seen[key]}")


def allowed():
    """What survivors.txt says: key -> reason."""
    rows = (HERE / "survivors.txt").read_text().splitlines()
    cells = [row.split(" | ") for row in rows if row and not row.startswith("#")]
    for row in cells:
        if len(row) != 4 or not row[3].strip():
            sys.exit(f"survivors.txt: expected FILE | RULE | OLD -> NEW | REASON, found {' | '.join(row)}")
    return {tuple(row[:3]): row[3] for row in cells}


def judge(tried, alive):
    """Complaints: who lives unlisted, who is listed and dies, too many."""
    listed = {key: why for key, why in allowed().items() if key[0] in {k[0] for k in tried}}
    for key, mutant in alive.items():
        if key not in listed:
            yield f"{key[0]}:{mutant.line}: {key[1]}: no example notices {key[2]}"
    for key in listed:
        if key not in alive:
            yield f"survivors.txt: {' | '.join(key)}: no longer lives, or is no longer there"
    if len(alive) > MOST_ALIVE * len(tried):
        yield f"{len(alive)} of {len(tried)} live: more than {MOST_ALIVE:.0%}"


def main(program, rules, scratch, *words):
    at = words.index("--only") if "--only" in words else len(words)
    only, names, more = words[at + 1:], [w for w in words[:at] if w != "--more"], "--more" in words[:at]
    folders = sorted(pathlib.Path(rules).glob("*/"), key=lambda folder: (folder.name != "common", folder))
    packs = [Pack(folder) for folder in folders]
    bench = Bench(program, pathlib.Path(scratch), packs)
    tried, alive, seen = [], {}, collections.Counter()
    wanted = [p for p in packs if not names or p.name in names]
    for pack, file in ((p, f) for p in wanted for f in p.files if not only or f.name in only):
        for mutant in file.mutants(more):
            if not groups(packs, mutant):
                continue  # shared by examples only
            key = key_of(pack, mutant, seen)
            tried.append(key)
            if bench.outlived(pack, mutant):
                alive[key] = mutant
        count = sum(key[0] == f"{pack.name}/{file.name}" for key in tried)
        lives = sum(key[0] == f"{pack.name}/{file.name}" for key in alive)
        if count:
            print(f"{pack.name}/{file.name}: {count} mutants, {lives} live", flush=True)
    bench.close()
    complaints = list(judge(tried, alive))
    print(*complaints, sep="\n")
    print(f"{len(tried)} mutants, {len(tried) - len(alive)} die, {len(alive)} live "
          f"({len(alive) / max(1, len(tried)):.1%})")
    return 1 if complaints else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
