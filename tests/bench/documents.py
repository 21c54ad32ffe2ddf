#!/usr/bin/env python3
"""Whether documents come in time that is proportional to their pages.

    python3 tests/bench/documents.py build/release/tankside [--pdf-to N] [--every-to M] [--keep FOLDER] [tasks ...]

A production is made of copies of one task of a demo, five a day, assessed, and each document is made
from it; beside it xsltproc makes the full assessment with the same stylesheet from the same file. Up to N
tasks (40) the documents that have a PDF are made as PDF too, the long ones in parts. Of each: processor
seconds (with --best-of K the least of K runs), what came out (megabytes of HTML, pages of PDF), and the most
memory that was held. Up to M tasks (160) all that `assess -o` writes is made at once; --keep FOLDER takes an
assessment from there that an earlier run left, since a thousand tasks take minutes to assess.
Then the exponent of time over what came out, for each step from one size to the next: 1 is in proportion.
"""
import argparse
import datetime
import math
import os
import pathlib
import re
import subprocess
import sys
import tempfile

SOURCE = pathlib.Path(__file__).resolve().parent.parent.parent
DOSSIER = SOURCE / "shared/productions/lake-stunt/dossier.xml"
SHEETS = ["assessment", "emergency", "station", "card", "record", "question", "form", "set", "reviewer", "register"]
AS_PDF = ["assessment", "set", "reviewer"]
TASKS_A_DAY, TASKS_A_CREW, DAYS_A_WEEK, UNITS = 5, 100, 5, 10


class Run:
    """What a command took: processor seconds, megabytes held; what came out, megabytes or pages."""

    def __init__(self, command, out, repeats=1):
        self.seconds = math.inf
        for _ in range(repeats):
            with open(out, "wb") as to, open(os.devnull, "wb") as nothing:
                child = subprocess.Popen(command, stdout=to, stderr=nothing)
                _, status, used = os.wait4(child.pid, 0)
                child.returncode = os.waitstatus_to_exitcode(status)
            if child.returncode not in (0, 1):
                sys.exit(f"failed: {' '.join(map(str, command))}")
            self.seconds = min(self.seconds, used.ru_utime + used.ru_stime)
            self.memory = used.ru_maxrss / 1000
        self.made, self.unit = os.path.getsize(out) / 1e6, "MB"

    def in_pages(self, pdfs):
        said = [subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout for pdf in pdfs]
        self.made, self.unit = sum(int(re.search(r"^Pages: *(\d+)", s, re.M)[1]) for s in said), "pages"
        return self

    def in_folder(self, folder):
        self.made = sum(f.stat().st_size for f in folder.iterdir()) / 1e6
        return self

    def __str__(self):
        made = f"{self.made:.2f} MB" if self.unit == "MB" else f"{self.made} pages"
        return f"{self.seconds:9.2f} s {made:>12} {self.memory:7.0f} MB held"


def copy(task, number, hour):
    """Another task of the same kind, at another time of the day: nobody is in two places at once."""
    task = re.sub(r'id="[^"]*"', f'id="fall-{number}"', task, count=1)
    task = re.sub(r'start="[^"]*"', f'start="{hour:02}:00"', task, count=1)
    return re.sub(r'finish="[^"]*"', f'finish="{hour + 1:02}:30"', task, count=1)


class Demo:
    """The demo in parts: its site, its people, its first day's head and task, and what stands between."""

    def __init__(self):
        text = DOSSIER.read_text(encoding="utf-8")
        self.day = re.search(r"  <day .*?(?=    <task )", text, re.S).group()
        self.task = re.search(r"    <task .*?</task>\n", text, re.S).group()
        self.site = re.search(r"  <site .*?</site>\n", text, re.S).group()
        self.people = "".join(re.findall(r"  <person .*?(?:\n  </person>|/>)\n", text, re.S))
        first, last = text.index("  <day "), text.rindex("</day>") + len("</day>\n")
        self.before, self.between = text[:first].split(self.site + self.people)
        self.end = re.sub(r'  <(evidence|waiver|change)\b[^>]*/>\n', "", text[last:])

    def a_day(self, date, first, tasks):
        """A day with copies of the task, from the first to the last of so many."""
        head = re.sub(r'date="[^"]*"', f'date="{date}"', self.day, count=1)
        numbers = range(first, min(first + TASKS_A_DAY, tasks))
        return head + "".join(copy(self.task, n, 8 + 2 * (n - first)) for n in numbers) + "  </day>\n"

    def whole(self, sites, people, days):
        return self.before + sites + people + self.between, days, self.end


def production_parts(tasks):
    """The demo with its days replaced by as many copies of its first task, one day after another."""
    demo, begun = Demo(), datetime.date(2027, 10, 11)
    days = [demo.a_day(begun + datetime.timedelta(days=n // TASKS_A_DAY), n, tasks)
            for n in range(0, tasks, TASKS_A_DAY)]
    return demo.whole(demo.site, demo.people, days)


def production(tasks):
    before, days, end = production_parts(tasks)
    return before + "".join(days) + end


def another(text, of, number):
    """The text with another of each that `of` gives an id."""
    ids = set(re.findall(r'\bid="([^"]*)"', of))
    return re.sub(r'\b(id|person|site|rigs|crafts|supply)="([^"]*)"', lambda found: found[1] + '="' + " ".join(
        f"{word}-{number}" if word in ids else word for word in found[2].split()) + '"', text)


def season_parts(tasks):
    """As many copies of the task as a season of several units has them: ten units at once, each at a site of its own,
    with a crew that changes after a hundred tasks, which are four weeks of five days. So nobody works more than five days
    in a row or twenty in all, and 10,000 tasks take 40 weeks."""
    demo, sites, people, days = Demo(), "", "", []
    for n in range(0, tasks, TASKS_A_DAY):
        crew, day = n // TASKS_A_CREW, n % TASKS_A_CREW // TASKS_A_DAY
        block, unit = divmod(crew, UNITS)
        if day == 0:
            people += another(demo.people, demo.people, crew)
        if n == unit * TASKS_A_CREW:
            sites += another(demo.site, demo.site, unit)
        weeks, weekday = divmod(block * (TASKS_A_CREW // TASKS_A_DAY) + day, DAYS_A_WEEK)
        date = datetime.date(2027, 10, 11) + datetime.timedelta(weeks=weeks, days=weekday)
        days.append(another(another(demo.a_day(date, n, tasks), demo.people, crew), demo.site, unit))
    return demo.whole(sites, people, days)


def write_production(tasks, folder, parts=production_parts):
    """The same in files: no file of a dossier may be larger than 8 MiB, so a long schedule is included."""
    before, days, end = parts(tasks)
    if sum(map(len, days)) > 4e6:
        included = ""
        for n in range(0, len(days), 200):
            (folder / f"days-{n}.xml").write_text(f'<dossier format="1">\n{"".join(days[n:n + 200])}</dossier>\n',
                                                  encoding="utf-8")
            included += f'  <include href="days-{n}.xml"/>\n'
        days = [included]
    (folder / "dossier.xml").write_text(before + "".join(days) + end, encoding="utf-8")
    return folder / "dossier.xml"


def runs(tankside, tasks, folder, options):
    """Each thing that is measured, by name, as it is done."""
    dossier, assessment, out = folder / "dossier.xml", folder / "assessment.xml", folder / "out"
    if options.keep:
        assessment = options.keep / f"assessment-{tasks}.xml"
    if not assessment.exists() or not options.keep:
        dossier.write_text(production(tasks), encoding="utf-8")
        assess = Run([tankside, "assess", dossier, "-o", assessment], out)
        assess.made = assessment.stat().st_size / 1e6
        yield "assess", assess
    if tasks <= options.every_to:
        dossier.write_text(production(tasks), encoding="utf-8")
        every = folder / f"every-{tasks}"
        yield "assess, every HTML", Run([tankside, "assess", dossier, "--no-pdf", "-o", every], out).in_folder(every)
    yield "xsltproc", Run(["xsltproc", "--nonet", SOURCE / "templates/assessment.xsl", assessment], out, options.best_of)
    for sheet in SHEETS:
        yield sheet, Run([tankside, "print", assessment, "--sheet", sheet], out, options.best_of)
    one = [tankside, "print", assessment, "--sheet", "task", "--task", f"fall-{tasks - 1}"]
    yield "one task", Run(one, out, options.best_of)
    for sheet in AS_PDF if tasks <= options.pdf_to else []:
        pdfs = folder / f"{sheet}-{tasks}"
        pdfs.mkdir()
        made = Run([tankside, "print", assessment, "--sheet", sheet, "--as", "pdf", "-o", pdfs / "a.pdf"], out)
        yield f"{sheet}, PDF", made.in_pages(pdfs.glob("*.pdf"))


def growth(sizes, rows):
    for name in rows[0]:
        steps = [(a, b) for a, b in zip(rows, rows[1:]) if name in a and name in b]
        said = [f"{math.log(b[name].seconds / a[name].seconds) / math.log(b[name].made / a[name].made):5.2f}"
                for a, b in steps if b[name].made > 1.2 * a[name].made]
        if said:
            print(f"  {name:20} {'  '.join(said)}")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("tankside", type=pathlib.Path)
    parser.add_argument("tasks", type=int, nargs="*")
    parser.add_argument("--pdf-to", type=int, default=40)
    parser.add_argument("--every-to", type=int, default=160)
    parser.add_argument("--keep", type=pathlib.Path)
    parser.add_argument("--best-of", type=int, default=1)
    options = parser.parse_intermixed_args()
    sizes, rows = options.tasks or [10, 40], []
    with tempfile.TemporaryDirectory() as folder:
        for tasks in sizes:
            print(f"{tasks} tasks", flush=True)
            rows.append({})
            for name, run in runs(options.tankside.resolve(), tasks, pathlib.Path(folder), options):
                rows[-1][name] = run
                print(f"  {name:20} {run}", flush=True)
            ratio = rows[-1]["assessment"].seconds / rows[-1]["xsltproc"].seconds
            print(f"  the full assessment takes {ratio:.2f} times what xsltproc does", flush=True)
    print(f"exponents of time over what came out, from {' to '.join(map(str, sizes))} tasks, where that grew")
    growth(sizes, rows)


if __name__ == "__main__":
    main()
