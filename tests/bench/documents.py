#!/usr/bin/env python3
"""How the time to make documents grows with what is in them.

    python3 tests/bench/documents.py build/release/tankside [tasks ...]

A production is made of copies of one task of a demo, five a day, assessed, and each document is made
from it; beside it xsltproc makes the full assessment with the same stylesheet from the same file.
Times are processor seconds, the least of three; beside each the megabytes it wrote. The last lines give
the exponent of time over what was written, over the last step: 1 is time in proportion to the pages.
"""
import datetime
import math
import os
import pathlib
import re
import resource
import subprocess
import sys
import tempfile

SOURCE = pathlib.Path(__file__).resolve().parent.parent.parent
DOSSIER = SOURCE / "shared/productions/lake-stunt/dossier.xml"
SHEETS = ["assessment", "station", "emergency", "question", "record", "reviewer", "register"]
TASKS_A_DAY = 5


def seconds(command, repeats=3):
    """Processor time of a command, the least of some runs; None where it failed."""
    least = None
    for _ in range(repeats):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        with open(os.devnull, "wb") as nothing:
            status = subprocess.run(command, stdout=nothing, stderr=nothing).returncode
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        if status not in (0, 1):
            return None
        used = after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
        least = used if least is None else min(least, used)
    return least


def copy(task, number, hour):
    """Another task of the same kind, at another time of the day: nobody is in two places at once."""
    task = re.sub(r'id="[^"]*"', f'id="fall-{number}"', task, count=1)
    task = re.sub(r'start="[^"]*"', f'start="{hour:02}:00"', task, count=1)
    return re.sub(r'finish="[^"]*"', f'finish="{hour + 1:02}:30"', task, count=1)


def production(tasks):
    """The demo with its days replaced by as many copies of its first task."""
    text = DOSSIER.read_text(encoding="utf-8")
    day = re.search(r"  <day .*?(?=    <task )", text, re.S).group()
    task = re.search(r"    <task .*?</task>\n", text, re.S).group()
    first, last = text.index("  <day "), text.rindex("</day>") + len("</day>\n")
    days, begun = [], datetime.date(2027, 10, 11)
    for n in range(0, tasks, TASKS_A_DAY):
        date = begun + datetime.timedelta(days=n // TASKS_A_DAY)
        head = re.sub(r'date="[^"]*"', f'date="{date}"', day, count=1)
        copies = [copy(task, n + i, 8 + 2 * i) for i in range(min(TASKS_A_DAY, tasks - n))]
        days.append(head + "".join(copies) + "  </day>\n")
    rest = re.sub(r'  <(evidence|waiver|change)\b[^>]*/>\n', "", text[last:])
    return text[:first] + "".join(days) + rest


def written(command):
    return len(subprocess.run(command, capture_output=True).stdout) / 1e6


def measure(tankside, tasks, folder):
    """By name: seconds, and megabytes written."""
    dossier, assessment = folder / "dossier.xml", folder / "assessment.xml"
    dossier.write_text(production(tasks), encoding="utf-8")
    assessing = seconds([tankside, "assess", str(dossier), "-o", str(assessment)], 1)
    if assessing is None:
        sys.exit(f"a production of {tasks} tasks was not assessed")
    row = {"assess": (assessing, assessment.stat().st_size / 1e6)}
    commands = {"xsltproc": ["xsltproc", "--nonet", str(SOURCE / "templates/assessment.xsl"), str(assessment)]}
    for sheet in SHEETS:
        commands[sheet] = [tankside, "print", str(assessment), "--sheet", sheet]
    for name, command in commands.items():
        row[name] = (seconds(command), written(command))
    return row


def exponent(a, b):
    return {k: math.log(b[k][0] / a[k][0]) / math.log(b[k][1] / a[k][1])
            for k in a if a[k][0] and b[k][0] and b[k][1] > a[k][1]}


def main():
    tankside = str(pathlib.Path(sys.argv[1]).resolve())
    sizes = [int(n) for n in sys.argv[2:]] or [20, 80]
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for tasks in sizes:
            rows.append(measure(tankside, tasks, pathlib.Path(folder)))
    print("tasks".ljust(12) + "".join(f"{n:>18}" for n in sizes))
    for name in rows[0]:
        cells = [f"{r[name][0]:.2f} s {r[name][1]:.2f} MB" if r[name][0] else "-" for r in rows]
        print(name.ljust(12) + "".join(f"{cell:>18}" for cell in cells))
    last = rows[-1]
    if last["xsltproc"][0] and last["assessment"][0]:
        print(f"\nfull assessment against xsltproc: {last['assessment'][0] / last['xsltproc'][0]:.2f} times")
    if len(rows) > 1:
        for name, value in exponent(rows[-2], rows[-1]).items():
            print(f"exponent of {name}: {value:.2f}")


main()
