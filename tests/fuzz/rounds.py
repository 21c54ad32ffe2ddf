#!/usr/bin/env python3
"""Runs fuzz targets by turns until each has used its processor time: rounds.py BUILD SECONDS TARGET...

"short" instead of seconds: some seconds each, so many runs from one seed of chance, of the seeds and of what was
found before; nothing of it is kept.

What a round came to is a line in BUILD/rounds.csv, so that nothing is lost when this is stopped; at the end the sum of
all rounds there have been is printed for each target, whenever they ran. Exit 1 where this call found anything.
"""
import concurrent.futures
import csv
import os
import pathlib
import re
import signal
import subprocess
import sys
import tempfile

KEPT = pathlib.Path(__file__).resolve().parent / "kept"
ROUND = 600  # seconds: long beside the reading of a corpus, short beside an hour
INTERRUPTED = 72  # exit status of libFuzzer that was stopped by a signal
HANG = 25  # seconds of processor time that one input may take
SHORT = {"quantity": 100000, "import": 8000, "matrix": 10000, "set": 1500, "rule": 1500, "dossier": 1000,
         "assessment": 700, "pack": 4000, "book": 150}  # runs, about five seconds each
# Less is kept of what was freed and of who asked for it, and no certificates of the system are read: none counts here.
QUICK = {"ASAN_OPTIONS": "quarantine_size_mb=32:malloc_context_size=8", "SSL_CERT_FILE": "/dev/null", "SSL_CERT_DIR": "/dev/null"}
COLUMNS = ["target", "processor", "runs", "edges", "corpus", "peak", "slowest", "found"]
PATTERNS = ["number_of_executed_units:", "cov:", "corp:", "peak_rss_mb:", "slowest_unit_time_sec:"]


def measured(words, log):
    """Exit status and processor seconds of a program that writes to `log`."""
    with open(log, "w") as to:
        running = subprocess.Popen(words, stdout=to, stderr=subprocess.STDOUT, env={**os.environ, **QUICK})
        _, status, used = os.wait4(running.pid, 0)
    running.returncode = os.waitstatus_to_exitcode(status)
    return running.returncode, used.ru_utime + used.ru_stime


def last(pattern, text):
    """The last number that stands where the pattern says."""
    found = re.findall(pattern, text)
    return int(found[-1]) if found else 0


def only_waited(build, target, inputs):
    """Whether all that was found took long because others had the processor; such inputs are put away."""
    slow = ("-timeout-", "-slow-unit-")
    for path in inputs:
        words = [build / f"fuzz_{target}", f"-timeout={40 * HANG}", path]
        status, used = measured(words, build / f"{target}.again.log")
        if not any(mark in path.name for mark in slow) or status != 0 or used > HANG:
            return False
        path.unlink()
    return True


def command(build, target, corpus, *bounds):
    words = [build / f"fuzz_{target}", corpus]
    words += [f for f in (build / "seeds" / target, KEPT / target) if f.is_dir()]
    dictionary = build / "seeds" / f"{target}.dict"
    words += [f"-dict={dictionary}"] if dictionary.exists() else []
    return words + [*bounds, "-rss_limit_mb=2048", "-print_final_stats=1", f"-artifact_prefix={build}/found-{target}-"]


def one_round(build, target, seconds):
    """Whether it was interrupted, and the figures."""
    corpus = build / "corpus" / target
    corpus.mkdir(parents=True, exist_ok=True)
    words = command(build, target, corpus, f"-max_total_time={seconds}", f"-timeout={HANG}")
    before = set(build.glob(f"found-{target}-*"))
    log = build / f"{target}.log"
    status, used = measured(words, log)
    text = log.read_text(errors="replace")
    inputs = set(build.glob(f"found-{target}-*")) - before
    found = status not in (0, INTERRUPTED) and not (inputs and only_waited(build, target, inputs))
    if found:
        print(text[-6000:])
    figures = [last(pattern + r"\s+(\d+)", text) for pattern in PATTERNS]
    return status == INTERRUPTED, dict(zip(COLUMNS, [target, round(used), *figures, int(found)]))


def short(build, target):
    """Whether nothing was found."""
    log = build / f"{target}.short.log"
    with tempfile.TemporaryDirectory() as corpus:
        words = command(build, target, corpus, f"-runs={SHORT[target]}", "-seed=1", f"-timeout={10 * HANG}")
        status, used = measured(words, log)
    text = log.read_text(errors="replace")
    runs, edges = (last(pattern + r"\s+(\d+)", text) for pattern in PATTERNS[:2])
    print(f"{target:<12} {used:6.1f} s {runs:>9} executions {edges:>6} edges" if status == 0 else text[-6000:])
    return status == 0


def keep(row, path):
    new = not path.exists()
    with open(path, "a", newline="") as to:
        writer = csv.DictWriter(to, COLUMNS)
        if new:
            writer.writeheader()
        writer.writerow(row)


def table(path, targets):
    rows = list(csv.DictReader(open(path, newline=""))) if path.exists() else []
    print("%-12s %10s %11s %7s %7s %8s %10s %6s" % ("target", "processor", "executions", "edges", "corpus", "peak",
                                                    "slowest", "found"))
    for target in targets:
        mine = [{k: int(v) for k, v in row.items() if k != "target"} for row in rows if row["target"] == target]
        if mine:
            most = {column: max(row[column] for row in mine) for column in COLUMNS[1:]}
            total = {column: sum(row[column] for row in mine) for column in COLUMNS[1:]}
            print("%-12s %8d s %11d %7d %7d %5d MB %8d s %6d" % (
                target, total["processor"], total["runs"], most["edges"], mine[-1]["corpus"], most["peak"], most["slowest"],
                total["found"]))


def main(build, seconds, *targets):
    build, figures = pathlib.Path(build), pathlib.Path(build) / "rounds.csv"
    if seconds == "short":
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            return not all(list(pool.map(lambda target: short(build, target), targets)))
    left = {target: int(seconds) for target in targets}
    found, stopped = 0, False
    signal.signal(signal.SIGINT, lambda *_: None) # the target ends by it, and what it did is counted
    while any(left.values()) and not stopped:
        for target in [t for t in targets if left[t] > 0]:
            stopped, row = one_round(build, target, min(ROUND, left[target]))
            keep(row, figures)
            found += row["found"]
            left[target] = 0 if row["found"] else max(0, left[target] - max(1, row["processor"]))
            if stopped:
                break
    table(figures, targets)
    return found > 0


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
