#!/usr/bin/env python3
"""What becomes of the files when something fails, or the program is killed.

    python3 tests/faults/run.py PROGRAM [--all] [--kills N] [--valgrind]

Each run writes over a set that an earlier one wrote. With fail.c preloaded, one call of it fails: it
must end with a message and exit status 2 and leave the old set as it was, or do all it was asked
for. It is killed too, and the program that sets PDF fails in every way. Without --all some calls of every
kind are tried. With it every one; but of those for memory, and in a whole set of those that publish nothing,
the first on each path of calls: seven callers deep, or three for the memory of a whole set (millions of
calls). With a program built with sanitizers what leaks on the way is found too, and memory is left out:
there it comes from elsewhere.
"""
import argparse
import os
import pathlib
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter

HERE = pathlib.Path(__file__).resolve().parent
SOURCE = HERE.parent.parent
KINDS = ["open", "read", "write", "sync", "close", "move", "other", "memory"]
PUBLISHES = ["write", "sync", "move"] # what makes a new file the file; the last of them most of all

# Rods are no unit of our own: so udunits2's data are read, and fail.
DOSSIER = """<?xml version="1.0" encoding="UTF-8"?>
<dossier format="1">
  <production title="%s" reference="LT-1" jurisdiction="gb-eng" revision="1" on="2027-03-01" by="N. Example"/>
  <person id="ada" name="Ada Reed" role="performer"/>
  <site id="tank" title="A tank"/>
  <day date="2027-03-09" site="tank">
    <task id="fall" title="Ada falls in">
      <immersion person="ada" depth="0.4..0.8 rods" wears="none"/>
    </task>
%s  </day>
</dossier>
"""
MORE = """    <task id="%s" title="Ada climbs out">
      <immersion person="ada" depth="1 m" wears="none"/>
    </task>
"""
RULES = """
control { id = "shorter-takes", title = "Takes are shorter", kind = "administrative", say = "Be brief",
  check = "the clock", often = "each take", who = "safety officer", lowers = { likelihood = 1 } }
rule { id = "depth.deep", title = "Deep", each = "immersion", harm = "the diver: ears",
  sources = { "common practice" }, examples = {},
  assess = function (i)
    if i.depth > q"3 m" then
      hazard { likelihood = 3, severity = 4, because = "{i.depth} deep", controls = { "shorter-takes" } }
    end
  end }
"""


# Where its own data cannot be read to their end, udunits2 loses the unit it was at: not ours to free.
THEIRS = """{
  udunits2
  Memcheck:Leak
  match-leak-kinds: definite
  fun:*alloc
  obj:*libudunits2*
}
"""


class Bench:
    """A few rules, two dossiers, and the set that each gives."""

    def __init__(self, program, folder):
        assert program.name == "tankside", "fail.c does nothing in a program of another name"
        self.program, self.folder = str(program), folder
        self.shim = folder / "fail.so"
        subprocess.run(["cc", "-shared", "-fPIC", "-O1", "-o", self.shim, HERE / "fail.c", "-ldl"], check=True)
        data = folder / "data"
        for pack in "common", "gb-eng":
            (data / "rules" / pack).mkdir(parents=True)
        (data / "rules" / "common" / "one.lua").write_text(RULES)
        (data / "rules" / "gb-eng" / "none.lua").write_text("-- no law here\n")
        for name in "templates", "shared":
            shutil.copytree(SOURCE / name, data / name) # somebody may be at work on them
        self.environment = {**os.environ, "TANKSIDE_DATA": str(data), "LC_ALL": "C",
                            "ASAN_OPTIONS": "exitcode=99", # a leak: no status of the program's own
                            "LSAN_OPTIONS": "suppressions=%s:print_suppressions=0" % (folder / "lsan")}
        (folder / "lsan").write_text("leak:libudunits2\n")
        (folder / "valgrind").write_text(THEIRS)
        for name, title, tasks in ("old", "Low Tide", ["out", "gone"]), ("new", "High Tide", ["out"]):
            (folder / (name + ".xml")).write_text(DOSSIER % (title, "".join(MORE % t for t in tasks)))
            self.run(["assess", name + ".xml", "--no-pdf", "-o", name], want=1)
        shutil.copytree(folder / "new", folder / "paper")
        self.old, self.new = contents(folder / "old"), contents(folder / "new")
        assert self.old.keys() != self.new.keys() and self.old["card.html"] != self.new["card.html"]
        shutil.copy(folder / "old" / "card.html", folder / "card.html")

    def run(self, words, want=None, timeout=120, **faults):
        given = {**self.environment, **{k: str(v) for k, v in faults.items()}}
        if faults:
            given["LD_PRELOAD"] = str(self.shim)
        done = subprocess.run([self.program, *words], cwd=self.folder, env=given, timeout=timeout,
                              capture_output=True)
        assert want is None or done.returncode == want, done
        return done


def contents(folder):
    return {p.name: p.read_bytes() if p.is_file() else None for p in sorted(folder.iterdir())}


def visible(files):
    return {name: bytes for name, bytes in files.items() if not name.startswith(".tankside-")}


# ---- one call fails ------------------------------------------------------------------

class Job:
    """Something to be done over what is there: `words`, and what is there before and after."""

    def __init__(self, bench, name, words, target, before, after, quick=True):
        self.quick, self.deep = quick, 7 if quick else 3
        self.bench, self.name, self.words, self.target = bench, name, words, bench.folder / target
        self.before, self.after = before, after
        self.put()
        self.good = bench.run(words)
        assert self.good.returncode in (0, 1), self.good
        assert self.now() == after, (name, "does not do what it is for")

    def put(self):
        if isinstance(self.before, dict):
            shutil.rmtree(self.target, ignore_errors=True)
            self.target.mkdir()
            for name, bytes in self.before.items():
                (self.target / name).write_bytes(bytes)
        else:
            for left in self.bench.folder.glob(".tankside-*"):
                shutil.rmtree(left, ignore_errors=True)
            self.target.write_bytes(self.before)

    def now(self):
        return visible(contents(self.target)) if isinstance(self.before, dict) else self.target.read_bytes()

    def judge(self, done):
        """What became of it, "!" before what must not be."""
        said = done.stderr.decode(errors="replace")
        now = self.now()
        if done.returncode < 0:
            return "! ended by " + signal.Signals(-done.returncode).name
        if done.returncode == 2:
            if "error:" not in said:
                return "! no message"
            if now == self.before:
                return "said so, the old stands"
            if now == self.after and "standard output" in said:
                return "written, but standard output failed"
            return "! neither the old nor the new" if now != self.after else "! said so, but the new stands"
        if done.returncode != self.good.returncode:
            return "! exit status %d" % done.returncode
        if now != self.after:
            return "! success, but not the new"
        return "did no harm" if done.stdout == self.good.stdout else "! success, but it says something else"

    def fail(self, kind, number, keep=False, **more):
        self.put()
        faults = {"FAULT_KIND": kind, "FAULT_AT": number, **({"FAULT_KEEP": 1} if keep else {}), **more}
        try:
            return self.judge(self.bench.run(self.words, **faults))
        except subprocess.TimeoutExpired:
            return "! hangs"

    def counts(self, **faults):
        """How many calls of each kind there are."""
        self.put()
        to = self.bench.folder / "count"
        self.bench.run(self.words, FAULT_COUNT=to, **faults)
        return {kind: int(count) for kind, count in (line.split() for line in to.read_text().splitlines())}

    def paths(self, kind):
        """The first call of the kind on each path of calls."""
        self.put()
        to = self.bench.folder / "paths"
        deep = self.deep if kind == "memory" else 7
        self.bench.run(self.words, FAULT_KIND=kind, FAULT_PATHS=to, FAULT_DEEP=deep, timeout=600)
        return [int(line) for line in to.read_text().split()]


def chosen(job, kind, count, arguments, chance):
    """Which calls are to fail, and what they are of."""
    if kind in PUBLISHES or (job.quick and kind != "memory"):
        every, of = list(range(1, count + 1)), "%d calls" % count
    else:
        every = job.paths(kind)
        of = "%d calls on %d paths" % (count, len(every))
    if arguments.all:
        return every, of
    some = {*chance.sample(every, min(arguments.some, len(every)))}
    return sorted(some | {*every[-1:]} if kind in PUBLISHES else some), of


def try_faults(job, arguments, chance):
    """Once, and with all of the kind that come after it. Not so for moves: then none can be taken back."""
    bad, counts = 0, job.counts()
    for kind in [kind for kind in KINDS if counts[kind] > 0]:
        numbers, of = chosen(job, kind, counts[kind], arguments, chance)
        results = Counter()
        for number in numbers:
            for keep in (False, True) if kind != "move" and number % 4 == 0 else (False,):
                result = job.fail(kind, number, keep)
                results[result] += 1
                if result.startswith("!"):
                    bad += 1
                    print("  %s %s %d%s: %s" % (job.name, kind, number, " and on" if keep else "", result))
        print("%-8s %-7s %5d runs of %s: %s" % (job.name, kind, sum(results.values()), of, "; ".join(
            "%s %d" % (what, n) for what, n in sorted(results.items()))))
        sys.stdout.flush()
    return bad


def try_made_once(job):
    """Memory runs out in the middle of what OpenSSL makes once: a process that clears up then waits for it for ever."""
    if job.counts()["memory"] == 0: # with sanitizers it comes from elsewhere
        return 0
    within = {"FAULT_WITHIN": "ERR_set_mark"}
    assert job.counts(FAULT_KIND="memory", **within)["memory"] >= 8, "nothing is made there"
    results = Counter(job.fail("memory", number, **within) for number in range(1, 9))
    print("%-8s memory, made once: %s" % (job.name, "; ".join("%s %d" % of for of in sorted(results.items()))))
    return sum(n for what, n in results.items() if what.startswith("!"))


# ---- killed ---------------------------------------------------------------------------

def judge_killed(job, results, bad):
    """Every file is the old or the new; counts what the set is."""
    now = job.now()
    for name, bytes in now.items():
        if bytes not in (job.before.get(name), job.after.get(name)):
            print("  half a file:", name)
            bad += 1
    for name in set(job.before) & set(job.after):
        if name not in now:
            print("  a file is gone:", name)
            bad += 1
    results["old" if now == job.before else "new" if now == job.after else "some of each"] += 1
    return bad


def next_run_mends(job):
    done = job.bench.run(job.words)
    good = done.returncode == job.good.returncode and contents(job.target) == job.after
    if not good:
        print("  the next run does not mend it:", done.stderr.decode(errors="replace"))
    return 0 if good else 1


def try_kills(job, arguments, chance):
    """At random moments, and at each of the moves by which the new set is published."""
    results, bad = Counter(), 0
    began = time.monotonic()
    job.put()
    job.bench.run(job.words)
    takes = time.monotonic() - began
    for number in range(arguments.kills):
        job.put()
        running = subprocess.Popen([job.bench.program, *job.words], cwd=job.bench.folder, env=job.bench.environment,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(chance.random() * takes * 1.1)
        running.kill()
        running.wait()
        bad = judge_killed(job, results, bad)
        bad += next_run_mends(job) if number % 10 == 0 else 0
    print("killed   %5d times within %.0f ms: %s" % (arguments.kills, 1000 * takes, dict(results)))
    results = Counter()
    moves = job.counts()["move"]
    numbers = range(1, moves + 1) if arguments.all else range(max(1, moves - 24), moves + 1, 12)
    for number in numbers:
        job.put()
        job.bench.run(job.words, FAULT_KIND="move", FAULT_AT=number, FAULT_KILL=1)
        bad = judge_killed(job, results, bad) + next_run_mends(job)
    print("killed   %5d times at one of %d moves: %s" % (len(numbers), moves, dict(results)))
    return bad


# ---- the program that sets PDF ----------------------------------------------------------

STAND_INS = {
    "is not there": None,
    "fails": "exit 1",
    "is killed": "kill -9 $$",
    "writes nothing": "exit 0",
    "writes half": "printf '%%PDF-1.7 half'",
    "writes half and fails": "printf '%%PDF-1.7 half'; exit 1",
    "hangs": "sleep 600",
    "closes what it writes to and hangs": "exec >&- 2>&-; sleep 600",
    "leaves a child that hangs": "sleep 600 & printf '%%PDF-1.7 whole %%%%EOF'",
}


def try_stand_ins(bench):
    bad = 0
    folder = bench.folder / "bin"
    folder.mkdir(exist_ok=True)
    target = bench.folder / "pdf"
    for name, body in STAND_INS.items():
        shutil.rmtree(target, ignore_errors=True)
        shutil.copytree(bench.folder / "old", target)
        if body is not None:
            (folder / "weasyprint").write_text("#!/bin/sh\n%s\n" % body)
            (folder / "weasyprint").chmod(0o755)
        path = "%s:/bin:/usr/bin" % folder if body is not None else str(folder)
        try:
            done = bench.run(["assess", "new.xml", "-o", "pdf"], PATH=path, FAULT_HASTE=1)
        except subprocess.TimeoutExpired:
            bad += 1
            print("weasyprint %s: ! hangs" % name)
            continue
        good = done.returncode == 2 and b"weasyprint" in done.stderr and contents(target) == bench.old
        print("weasyprint %s: %s" % (name, "said so, the old stands" if good else "! %r" % done))
        bad += not good
    return bad


# ---- standard output ----------------------------------------------------------------------

def try_full(bench, jobs):
    bad = 0
    for words in [job.words for job in jobs] + [["vocabulary"], ["calc"], ["rules", "list"], ["--help"],
                  ["print", "paper/assessment.xml", "--sheet", "card"], ["check", "new.xml"], ["--version"]]:
        with open("/dev/full", "w") as full:
            done = subprocess.run([bench.program, *words], cwd=bench.folder, env=bench.environment, stdout=full,
                                  stderr=subprocess.PIPE)
        if done.returncode != 2 or b"standard output" not in done.stderr:
            print("  full:", words, done.returncode, done.stderr.decode())
            bad += 1
    print("standard output full: %d commands" % (len(jobs) + 7))
    return bad


def try_valgrind(jobs, arguments, chance):
    """A sample again under valgrind, which brings its own memory: not for that kind."""
    bad, under = 0, ["valgrind", "-q", "--soname-synonyms=somalloc=NONE", "--leak-check=full", "--errors-for-leak-kinds=definite",
                     "--show-leak-kinds=definite", "--error-exitcode=99", "--suppressions=%s" % (jobs[0].bench.folder / "valgrind")]
    runs = 0
    for job in jobs:
        counts, some = job.counts(), 6 if job.quick else 1
        for kind in [k for k in KINDS if k != "memory"]:
            for number in sorted(chance.sample(range(1, counts[kind] + 1), min(some, counts[kind]))):
                job.put()
                done = subprocess.run([*under, job.bench.program, *job.words], cwd=job.bench.folder, capture_output=True,
                                      env={**job.bench.environment, "LD_PRELOAD": str(job.bench.shim),
                                           "FAULT_KIND": kind, "FAULT_AT": str(number)})
                runs += 1
                result = "a leak" if done.returncode == 99 else job.judge(done)
                if done.returncode == 99 or result.startswith("!"):
                    bad += 1
                    print("  valgrind %s %s %d: %s\n%s" % (job.name, kind, number, result, done.stderr.decode()[-1500:]))
    print("valgrind: %d runs" % runs)
    return bad


def main():
    reader = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    reader.add_argument("program", type=pathlib.Path)
    reader.add_argument("--all", action="store_true", help="every call, not some")
    reader.add_argument("--some", type=int, default=3, help="how many calls of a kind without --all")
    reader.add_argument("--only", nargs="+", default=["one", "print", "assess"], help="which jobs")
    reader.add_argument("--kills", type=int, default=20, help="at how many random moments it is killed")
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--valgrind", action="store_true", help="a sample again under valgrind")
    arguments = reader.parse_args()
    chance = random.Random(arguments.seed)
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(arguments.program.resolve(), pathlib.Path(folder))
        assess = Job(bench, "assess", ["assess", "new.xml", "--no-pdf", "-o", "set"], "set", bench.old, bench.new, quick=False)
        card = Job(bench, "print", ["print", "paper/assessment.xml", "--sheet", "card", "-o", "card.html"],
                   "card.html", bench.old["card.html"], bench.new["card.html"])
        one = Job(bench, "one", ["assess", "new.xml", "-o", "one.xml"], "one.xml", bench.old["assessment.xml"],
                  bench.new["assessment.xml"])
        jobs = [job for job in (one, card, assess) if job.name in arguments.only]
        bad = try_stand_ins(bench) + try_full(bench, [assess])
        bad += sum(try_faults(job, arguments, chance) for job in jobs)
        bad += sum(try_made_once(job) for job in jobs if job.quick)
        if arguments.kills:
            bad += try_kills(assess, arguments, chance)
        if arguments.valgrind:
            bad += try_valgrind(jobs, arguments, chance)
    print("%d of them wrong" % bad)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
