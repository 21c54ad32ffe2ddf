#!/usr/bin/env python3
"""How long assessing takes, and how that grows.

    python3 tests/bench/run.py build/release/tankside [--sizes 10,30,100] [bench ...]

Times are processor seconds of a whole run, the median of three; memory is its peak. Each bench stands
against a reference that runs in the same call, so that its ratio holds on another machine too.

  demos     each example production, against `check` of it; with one fact set, into a file, and on the screen against the
            whole without; a round of `watch`, of eight that change that fact to and fro
  tasks     a production of so many tasks; what came out (findings and duties) and the peak memory of each of
            those; the exponents of time and memory. One crew does them all, day after day for years: nobody's
            season, but the longest rows of days, lists of tasks and overdue certificates there can be
  season    the same tasks as seasons have them: ten units at once, a new crew after a hundred tasks, five days a
            week, so that 10,000 take 40 weeks; what is found of a task is then much the same in a longer one
  unknown   an example production with a part of its facts forgotten, against the whole one
  workers   the largest of the sizes with 1, 2 and as many workers as there are processors, turn about: median
            of wall and processor seconds; the bytes must be the same
  rules     an example production under so many rules more; seconds and peak memory a rule
  reading   `check` of many tasks against xmllint reading the same file, and validating it with RELAX NG
  parts     each example production: the milliseconds of each part of assessing it, in one process, and the whole
            command against their sum
  settled   rules where the facts settle them, run in Lua by the engine and replayed without Lua, against the
            same rule files in plain Lua on bare numbers
"""
import hashlib
import math
import os
import pathlib
import random
import re
import shutil
import signal
import statistics
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree

import documents

SOURCE = documents.SOURCE
DEMOS = ["title-day", "lake-stunt", "tank-serial", "stage-pool"]
SHARES = [0, 0.1, 0.2, 0.4]


def run_once(command):
    """Processor seconds and peak kilobytes of one command."""
    with open(os.devnull, "wb") as nothing:
        child = subprocess.Popen(command, stdout=nothing, stderr=nothing)
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode not in (0, 1):
        sys.exit(f"failed: {' '.join(map(str, command[:6]))}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss


def run(command, repeats=3):
    runs = [run_once(command) for _ in range(repeats)]
    return statistics.median(r[0] for r in runs), max(r[1] for r in runs)


def demo(name):
    return SOURCE / "shared/productions" / name / "dossier.xml"


def elements(assessment, name):
    return xml.etree.ElementTree.parse(assessment).getroot().iter(name)


def facts_of(assessment):
    """Path and text of the facts that an assessment says are stated."""
    return [(f"{s.get('path')}/{f.get('name')}", f.get("text")) for s in elements(assessment, "subject")
            for f in s.iter("fact") if f.get("state") == "stated"]


def exponent(sizes, values):
    return math.log(values[-1] / values[-2]) / math.log(sizes[-1] / sizes[-2])


def watched(tankside, dossier, texts):
    """Processor seconds of `watch` over a dossier that is saved with one text after another."""
    child = subprocess.Popen([tankside, "watch", dossier], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)

    def until(mark):
        for line in child.stdout:
            if mark in line:
                return
        sys.exit(f"watch ended before {mark!r}")

    until("^C ends")
    for text in texts:
        dossier.write_text(text, encoding="utf-8")
        until("not known")
    child.send_signal(signal.SIGINT)
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    return used.ru_utime + used.ru_stime


def watch_round(tankside, name, folder, rounds=8):
    """One more round, the start left out: the temperature of the first water, 20 degrees and as it is by turns."""
    there = folder / f"watched-{name}"
    shutil.copytree(demo(name).parent, there)
    file = next(p for p in there.glob("*.xml") if "<water " in p.read_text(encoding="utf-8"))
    was = file.read_text(encoding="utf-8")
    at = was.index("<water ")
    now = was[:at] + re.sub(r'(?<![\w-])temperature="[^"]*"', 'temperature="20 degC"', was[at:], count=1)
    if file.name != "dossier.xml":
        sys.exit(f"{file}: the water stands elsewhere")
    return (watched(tankside, file, [now, was] * (rounds // 2)) - watched(tankside, file, [])) / rounds


def bench_demos(tankside, sizes, folder):
    print("production     check s   assess s  times   --set s  times    screen s  of assess    round s  of assess    MB")
    for name in DEMOS:
        reference, _ = run([tankside, "check", demo(name)], 9)
        out = folder / "demo.xml"
        seconds, memory = run([tankside, "assess", demo(name), "-o", out], 9)
        path, text = next(f for f in facts_of(out) if f[0].endswith("/temperature"))
        changed, _ = run([tankside, "assess", demo(name), "--set", f"{path}={text}", "-o", out])
        screen, _ = run([tankside, "assess", demo(name), "--set", f"{path}=20 degC"], 9)
        again = watch_round(tankside, name, folder)
        print(f"{name:<12} {reference:>9.3f} {seconds:>10.3f} {seconds / reference:>6.1f}"
              f" {changed:>9.3f} {changed / reference:>6.1f} {screen:>11.3f} {screen / seconds:>9.0%}"
              f" {again:>11.3f} {again / seconds:>9.0%} {memory / 1024:>6.0f}")


def count_outcomes(assessment):
    """Findings and duties, a line each; read so, since the tree of a large one would take far more than assessing."""
    with open(assessment, "rb") as lines:
        return sum(line.startswith((b"    <finding ", b"    <duty ")) for line in lines)


def bench_tasks(tankside, sizes, folder, parts=documents.production_parts):
    print("tasks   outcomes   check s   assess s  times    MB written   MB   KiB an outcome")
    rows = []
    for tasks in sizes:
        dossier, out = documents.write_production(tasks, folder, parts), folder / f"tasks-{tasks}.xml"
        reference, _ = run([tankside, "check", dossier], 1)
        seconds, memory = run([tankside, "assess", dossier, "-o", out], 1)
        outcomes, written = count_outcomes(out), out.stat().st_size
        out.unlink()
        rows.append((seconds, memory))
        print(f"{tasks:>5} {outcomes:>10} {reference:>9.3f} {seconds:>10.2f} {seconds / reference:>6.1f}"
              f" {written / 1e6:>13.0f} {memory / 1024:>4.0f} {memory / outcomes:>16.2f}", flush=True)
    for i in range(1, len(rows)):
        time, memory = (exponent(sizes[:i + 1], [r[k] for r in rows[:i + 1]]) for k in (0, 1))
        print(f"exponents from {sizes[i - 1]} to {sizes[i]}: time {time:.2f}, memory {memory:.2f}")


def bench_season(tankside, sizes, folder):
    bench_tasks(tankside, sizes, folder, documents.season_parts)


def forget(lines, assessment, share):
    """The dossier's lines with a part of the facts that its assessment tells of written as not known."""
    facts = [(int(f.get("line")), f.get("name")) for f in elements(assessment, "fact")
             if f.get("state") == "stated" and f.get("line")]
    random.Random(1).shuffle(facts)
    left = list(lines)
    for line, name in facts[:int(share * len(facts))]:
        left[line - 1] = re.sub(rf'(?<![\w-]){name}="[^"]*"', f'{name}="?"', left[line - 1])
    return left


def bench_unknown(tankside, sizes, folder):
    out, dossier, whole = folder / "unknown-assessed.xml", folder / "unknown.xml", None
    lines = demo("stage-pool").read_text(encoding="utf-8").splitlines()
    run([tankside, "assess", demo("stage-pool"), "-o", folder / "known.xml"], 1)
    print("forgotten   assess s  times    MB")
    for share in SHARES:
        dossier.write_text("\n".join(forget(lines, folder / "known.xml", share)), encoding="utf-8")
        seconds, memory = run([tankside, "assess", dossier, "-o", out], 1)
        whole = whole or seconds
        print(f"{share:>8.0%} {seconds:>11.2f} {seconds / whole:>6.1f} {memory / 1024:>5.0f}")


def digest(path):
    """Of a file that may be large: what a child holds at most begins with what this process held as it forked."""
    with open(path, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def bench_workers(tankside, sizes, folder):
    dossier, out = folder / "shared.xml", folder / "shared-assessed.xml"
    dossier.write_text(documents.production(max(sizes)), encoding="utf-8")
    counts = sorted({1, 2, len(os.sched_getaffinity(0))})
    taken, made = {n: [] for n in counts}, set()
    load = os.getloadavg()[0]
    for _ in range(5):
        for n in counts:
            out.unlink(missing_ok=True)  # or the old one would be read through, by one alone
            began = time.monotonic()
            used, memory = run_once([tankside, "assess", dossier, "--workers", str(n), "-o", out])
            taken[n].append((time.monotonic() - began, used, memory))
            made.add(digest(out))
    print("workers   wall s   cpu s   MB   wall of one worker over this")
    for n in counts:
        wall, used, memory = (statistics.median(t[i] for t in taken[n]) for i in range(3))
        print(f"{n:>7} {wall:>8.2f} {used:>7.2f} {memory / 1024:>4.0f}"
              f" {statistics.median(t[0] for t in taken[1]) / wall:>30.2f}")
    print(f"load {load:.1f} as it began, {os.getloadavg()[0]:.1f} at the end; {len(made)} different outcome(s)")
    if len(made) != 1:
        sys.exit("the bytes depend on the number of workers")


RULE = """rule {{ id = "bench.r{n}", title = "bench {n}", each = "immersion", harm = "nobody",
  sources = {{ "common practice" }},
  assess = function(i)
    local left = calc.breath_hold_limit(i.person.mass, scale.mets(i.effort), i.depth) - i.breath_hold
    local likelihood = scale.limit(i.depth, q"1.{n} m", q"2.{n} m", q"3.{n} m", q"4.{n} m")
    if left < q"0.{n} s" then likelihood = scale.within(likelihood + 1) end
    hazard {{ likelihood = likelihood, severity = scale.without_air(i.air_return_time),
      because = "{{left}} left", values = {{ left = left }}, controls = {{ "cut-the-breath-hold" }} }}
  end,
  examples = {{ {{ "as it is", given = {{ depth = "1 m", breath_hold = "0 s", effort = "rest", air_return_time = "4 s",
    ["person.mass"] = "70 kg" }}, expect = hazard {{ likelihood = 1, severity = 3 }} }} }} }}
"""
RULE_COUNTS = [10, 100, 1000]


def pack_of(rules, folder):
    """Rules of the shape of real ones, each with thresholds of its own."""
    folder.mkdir()
    for begun in range(0, rules, 50):
        numbers = range(begun + 1, min(begun + 50, rules) + 1)
        (folder / f"r{begun:04}.lua").write_text("".join(RULE.format(n=n) for n in numbers), encoding="utf-8")
    return folder


def bench_rules(tankside, sizes, folder):
    out, rows = folder / "rules-assessed.xml", []
    base, held = run([tankside, "assess", demo("title-day"), "-o", out])
    print(f"rules more   assess s  times    MB   (none: {base:.2f} s, {held / 1024:.0f} MB)")
    for rules in RULE_COUNTS:
        pack = pack_of(rules, folder / f"bench-{rules}")
        seconds, memory = run([tankside, "assess", demo("title-day"), "--pack", pack, "-o", out])
        rows.append((seconds - base, memory - held))
        print(f"{rules:>10} {seconds:>10.2f} {seconds / base:>6.1f} {memory / 1024:>5.0f}")
    print(f"exponents over the last step: time {exponent(RULE_COUNTS, [r[0] for r in rows]):.2f},"
          f" memory {exponent(RULE_COUNTS, [r[1] for r in rows]):.2f}")


def structure_only(schema, out):
    """A schema with its elements as they are and any attribute: libxml2 tries every set of optional attributes, so that
    it does not come to an end with the schema itself. What it checks is less than what reading checks."""
    rng = "{http://relaxng.org/ns/structure/1.0}"
    tree = xml.etree.ElementTree.parse(schema)

    def drop(parent):
        for child in list(parent):
            inner = child[0] if child.tag == f"{rng}optional" and len(child) else child
            if inner.tag == f"{rng}attribute":
                parent.remove(child)
            elif child.tag in (f"{rng}group", f"{rng}choice"):
                drop(child)
                if not len(child):
                    parent.remove(child)

    for element in tree.iter(f"{rng}element"):
        drop(element)
        anything = xml.etree.ElementTree.SubElement(element, f"{rng}zeroOrMore")
        anything = xml.etree.ElementTree.SubElement(anything, f"{rng}attribute")
        xml.etree.ElementTree.SubElement(anything, f"{rng}anyName")
        xml.etree.ElementTree.SubElement(anything, f"{rng}text")
    tree.write(out)
    return out


def bench_reading(tankside, sizes, folder):
    dossier, schema = folder / "reading.xml", folder / "dossier.rng"
    dossier.write_text(documents.production(max(sizes)), encoding="utf-8")
    with open(schema, "wb") as to:
        subprocess.run([tankside, "vocabulary", "--as", "schema"], stdout=to, check=True)
    loose = structure_only(schema, folder / "structure.rng")
    start, _ = run([tankside, "check", demo("title-day")], 5)
    seconds, _ = run([tankside, "check", dossier], 5)
    parsed, _ = run(["xmllint", "--noout", dossier], 5)
    begun, _ = run(["xmllint", "--noout", "--relaxng", loose, demo("title-day")], 5)
    valid, _ = run(["xmllint", "--noout", "--relaxng", loose, dossier], 5)
    print(f"{dossier.stat().st_size / 1e6:.1f} MB: check {seconds:.3f} s, {start:.3f} s of it to start and load rules;"
          f" xmllint {parsed:.3f} s, with the structure validated {valid - begun:.3f} s;"
          f" ratios {(seconds - start) / parsed:.2f} {(seconds - start) / (valid - begun):.2f}")


def built(tankside, name):
    """A program of the benches, built beside tankside; None, said, where it is not."""
    program = pathlib.Path(tankside).parent / name
    if program.exists():
        return program
    print(f"not built: cmake --build {program.parent} --target {name}")
    return None


def bench_parts(tankside, sizes, folder):
    program, out = built(tankside, "tankside-parts"), folder / "parts.xml"
    rows = {}
    for name in DEMOS if program else []:
        whole, _ = run([tankside, "assess", demo(name), "--workers", "1", "-o", out], 9)
        packs = sorted({rules.get("pack") for rules in elements(out, "rules")})
        folders = [next(p for p in (demo(name).parent / pack, SOURCE / "rules" / pack) if p.is_dir()) for pack in packs]
        words = [program, demo(name), SOURCE / "shared/matrices/five-by-five.xml", *folders]
        said = subprocess.run(words, stdout=subprocess.PIPE, text=True, check=True).stdout
        rows[name] = {part: float(ms) for part, ms in (line.split() for line in said.splitlines())}
        rows[name] |= {"sum": sum(rows[name].values()), "whole": 1000 * whole}
    for heads in [next(iter(rows.values()))] if rows else []:
        print("milliseconds  " + "".join(f"{head:>9}" for head in heads) + "  whole / sum")
    for name, row in rows.items():
        print(f"{name:<14}" + "".join(f"{ms:>9.1f}" for ms in row.values()) + f"{row['whole'] / row['sum']:>13.2f}")


def bench_settled(tankside, sizes, folder):
    program = built(tankside, "tankside-settled")
    for name in DEMOS if program else []:
        packs = [SOURCE / "rules/common", *(p for p in demo(name).parent.iterdir() if any(p.glob("*.lua")))]
        subprocess.run([program, SOURCE / "tests/bench/plain.lua", demo(name), *packs], check=True)


BENCHES = {"demos": bench_demos, "tasks": bench_tasks, "season": bench_season, "unknown": bench_unknown, "rules": bench_rules,
           "reading": bench_reading, "parts": bench_parts, "settled": bench_settled, "workers": bench_workers}


def main():
    words, sizes = sys.argv[1:], [10, 30, 100]
    if "--sizes" in words:
        at = words.index("--sizes")
        sizes = [int(n) for n in words[at + 1].split(",")]
        del words[at:at + 2]
    if not words or any(w not in BENCHES for w in words[1:]):
        sys.exit(__doc__)
    tankside = str(pathlib.Path(words[0]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        for name in words[1:] or BENCHES:
            print(f"== {name}")
            BENCHES[name](tankside, sizes, pathlib.Path(folder))


main()
