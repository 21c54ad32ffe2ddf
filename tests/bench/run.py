#!/usr/bin/env python3
"""How long assessing takes, and how that grows.

    python3 tests/bench/run.py build/release/tankside [--sizes 10,30,100] [bench ...]

Times are processor seconds of a whole run, the median of three; memory is its peak. Each bench stands
against a reference that runs in the same call, so that its ratio holds on another machine too.

  demos     each example production, and with one fact set, against `check` of it
  tasks     a production of so many tasks; peak memory a subject; the exponents of both
  unknown   an example production with a part of its facts forgotten, against the whole one
  workers   the largest of the sizes with 1, 2 and as many workers as there are processors, turn about: median
            of wall and processor seconds; the bytes must be the same
  reading   `check` of many tasks against xmllint reading the same file (its RELAX NG validation of a
            dossier does not end in useful time)
"""
import math
import os
import pathlib
import random
import re
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


def bench_demos(tankside, sizes, folder):
    print("production     check s   assess s  times   --set s  times    MB")
    for name in DEMOS:
        reference, _ = run([tankside, "check", demo(name)])
        out = folder / "demo.xml"
        seconds, memory = run([tankside, "assess", demo(name), "-o", out])
        path, text = next(f for f in facts_of(out) if f[0].endswith("/temperature"))
        changed, _ = run([tankside, "assess", demo(name), "--set", f"{path}={text}", "-o", out])
        print(f"{name:<12} {reference:>9.3f} {seconds:>10.3f} {seconds / reference:>6.1f}"
              f" {changed:>9.3f} {changed / reference:>6.1f} {memory / 1024:>5.0f}")


def bench_tasks(tankside, sizes, folder):
    print("tasks   subjects   check s   assess s  times   MB   KiB a subject")
    rows = []
    for tasks in sizes:
        dossier, out = folder / "tasks.xml", folder / "tasks-assessed.xml"
        dossier.write_text(documents.production(tasks), encoding="utf-8")
        reference, _ = run([tankside, "check", dossier], 1)
        seconds, memory = run([tankside, "assess", dossier, "-o", out], 1)
        subjects = sum(1 for _ in elements(out, "subject"))
        rows.append((seconds, memory))
        print(f"{tasks:>5} {subjects:>10} {reference:>9.3f} {seconds:>10.2f} {seconds / reference:>6.1f}"
              f" {memory / 1024:>4.0f} {memory / subjects:>15.1f}")
    if len(rows) > 1:
        print(f"exponents over the last step: time {exponent(sizes, [r[0] for r in rows]):.2f},"
              f" memory {exponent(sizes, [r[1] for r in rows]):.2f}")


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


def bench_reading(tankside, sizes, folder):
    dossier = folder / "reading.xml"
    dossier.write_text(documents.production(max(sizes)), encoding="utf-8")
    start, _ = run([tankside, "check", demo("title-day")])
    seconds, _ = run([tankside, "check", dossier])
    reference, _ = run(["xmllint", "--noout", dossier])
    print(f"{dossier.stat().st_size / 1e6:.1f} MB: check {seconds:.3f} s, {start:.3f} s of it to start and load"
          f" rules; xmllint {reference:.3f} s; the rest is {(seconds - start) / reference:.1f} times that")


def bench_workers(tankside, sizes, folder):
    dossier, out = folder / "shared.xml", folder / "shared-assessed.xml"
    dossier.write_text(documents.production(max(sizes)), encoding="utf-8")
    counts = sorted({1, 2, len(os.sched_getaffinity(0))})
    taken, made = {n: [] for n in counts}, set()
    load = os.getloadavg()[0]
    for _ in range(5):
        for n in counts:
            began = time.monotonic()
            used, memory = run_once([tankside, "assess", dossier, "--workers", str(n), "-o", out])
            taken[n].append((time.monotonic() - began, used, memory))
            made.add(out.read_bytes())
    print("workers   wall s   cpu s   MB   wall of one worker over this")
    for n in counts:
        wall, used, memory = (statistics.median(t[i] for t in taken[n]) for i in range(3))
        print(f"{n:>7} {wall:>8.2f} {used:>7.2f} {memory / 1024:>4.0f}"
              f" {statistics.median(t[0] for t in taken[1]) / wall:>30.2f}")
    print(f"load {load:.1f} as it began, {os.getloadavg()[0]:.1f} at the end; {len(made)} different outcome(s)")
    if len(made) != 1:
        sys.exit("the bytes depend on the number of workers")


BENCHES = {"demos": bench_demos, "tasks": bench_tasks, "unknown": bench_unknown, "reading": bench_reading,
           "workers": bench_workers}


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
