#!/usr/bin/env python3
"""What a book of dossiers costs, a dossier, and what that makes of many more.

    python3 tests/bench/book.py build/release/tankside [--sizes 4,8,16] [--many 1000000]

A book is the example productions over and over, each under a title of its own. It is assessed one after
another: the records alone (--no-papers); again, when all is done already; the smallest book also with
papers (--no-pdf); and reviewed. Printed are processor seconds and bytes a dossier and the peak memory of
one process, and what the last step makes of so many: a cost is taken to grow with the exponent it had
over that step, at least with the number. What the PDFs of the smallest production cost is told beside it.
"""
import math
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import time

SOURCE = pathlib.Path(__file__).resolve().parents[2]
DEMOS = ["title-day", "lake-stunt", "tank-serial", "stage-pool"]


def run(command):
    """Processor and wall seconds of a command and all below it; the peak kilobytes of any one of them."""
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    done = subprocess.run(list(map(str, command)), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode not in (0, 1):
        sys.exit(f"failed: {' '.join(map(str, command[:6]))}")
    seconds = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return seconds, time.monotonic() - began, after.ru_maxrss


def make_book(folder, size):
    for n in range(size):
        demo = SOURCE / "shared/productions" / DEMOS[n % len(DEMOS)]
        to = folder / f"p{n:06}"
        shutil.copytree(demo, to)
        text = (to / "dossier.xml").read_text(encoding="utf-8")
        (to / "dossier.xml").write_text(re.sub(r'title="', f'title="{n} ', text, count=1), encoding="utf-8")


def bytes_in(folder):
    return sum(f.stat().st_size for f in folder.rglob("*") if f.is_file())


def growth(sizes, values):
    """The exponent of the last step; a cost that grows less than its number is not trusted to."""
    if len(sizes) < 2 or min(values[-2:]) <= 0:
        return 1.0
    return max(1.0, math.log(values[-1] / values[-2]) / math.log(sizes[-1] / sizes[-2]))


def measure(tankside, size, folder):
    book, out = folder / f"book-{size}", folder / f"out-{size}"
    make_book(book, size)
    assess, cost = [tankside, "assess", book, "-o", out, "--no-papers", "--workers", "1"], {}
    cost["assess s"], _, peak = run(assess)
    cost["again s"], _, _ = run(assess)
    cost["review s"], _, _ = run([tankside, "review", out, "--as", "csv", "-o", folder / "register.csv"])
    cost["written MB"] = bytes_in(out) / 1e6
    return cost, peak / 1024


def with_papers(tankside, size, folder):
    out = folder / "papers"
    seconds, _, peak = run([tankside, "assess", folder / f"book-{size}", "-o", out, "--no-pdf", "--workers", "1"])
    return seconds / size, bytes_in(out) / 1e6 / size, peak / 1024


def pdf_cost(tankside, folder):
    demo = SOURCE / "shared/productions/title-day/dossier.xml"
    plain, _, _ = run([tankside, "assess", demo, "-o", folder / "plain", "--no-pdf"])
    with_pdf, _, _ = run([tankside, "assess", demo, "-o", folder / "pdf"])
    return with_pdf - plain, (bytes_in(folder / "pdf") - bytes_in(folder / "plain")) / 1e6


def human(seconds):
    for unit, length in (("years", 365.25 * 86400), ("days", 86400), ("hours", 3600), ("minutes", 60)):
        if seconds >= length:
            return f"{seconds / length:.1f} {unit}"
    return f"{seconds:.1f} s"


def main():
    words, sizes, many = sys.argv[1:], [4, 8, 16], 1000000
    for option in ("--sizes", "--many"):
        if option in words:
            at = words.index(option)
            numbers = [int(n) for n in words[at + 1].split(",")]
            sizes, many = (numbers, many) if option == "--sizes" else (sizes, numbers[0])
            del words[at:at + 2]
    if len(words) != 1:
        sys.exit(__doc__)
    tankside, rows = str(pathlib.Path(words[0]).resolve()), []
    print(f"load {os.getloadavg()[0]:.1f}; processor seconds, so that it matters little")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for size in sizes:
            cost, peak = measure(tankside, size, folder)
            rows.append(cost)
            print(f"{size:>7} dossiers, each: " + ", ".join(f"{what} {cost[what] / size:.3f}" for what in cost)
                  + f"; peak {peak:.0f} MB", flush=True)
        seconds, written, peak = with_papers(tankside, sizes[0], folder)
        print(f"with papers but PDF, each: {seconds:.2f} s, {written:.2f} MB; peak {peak:.0f} MB")
        pdf, pdf_bytes = pdf_cost(tankside, folder)
    print(f"PDFs of the smallest production: {pdf:.1f} s, {pdf_bytes:.2f} MB more")
    print(f"{many} such dossiers, on one processor:")
    for what in rows[0]:
        values = [row[what] for row in rows]
        exponent = growth(sizes, values)
        total = values[-1] * (many / sizes[-1]) ** exponent
        shown = human(total) if what.endswith(" s") else f"{total / 1e6:.2f} TB"
        print(f"  {what[:-2].strip():<10} {shown:>14}   (exponent {exponent:.2f})")


main()
