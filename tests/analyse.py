#!/usr/bin/env python3
"""Reads the source by clang-tidy, cppcheck and gcc -fanalyzer; ends with a count.

    python3 tests/analyse.py [--quick] [--only TOOL] [--build FOLDER] [FILE...]

--quick: cppcheck alone, which takes seconds; the other two take minutes. FILE: only files whose path
ends so. --build: a folder with a compile_commands.json and everything the build writes; else
build/analyse is made. Exit 1 when anything was found, or a tool fell over.

What is looked for: clang-tidy, .clang-tidy; the others, below. A false alarm is answered beside the
line, with its reason: NOLINTNEXTLINE(check), // cppcheck-suppress id, or a pragma for gcc.
"""
import argparse
import concurrent.futures
import json
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
ENGINE = str(ROOT / "engine") + "/"

# Left out, each with its reason.
CPPCHECK_OUT = {
    "variableScope": "a declaration for two branches stands above both",
    "shadowFunction": "a local may have the name of a function of its file that it does not call; of variables gcc warns",
    "duplicateCondition": "two lines that hang on one condition, instead of a block",
    "redundantContinue": "`while (...) continue;` says that nothing is forgotten there",
    "readdirCalled": "readdir on a stream of one's own is safe in glibc, and readdir_r is withdrawn",
}
GCC_OUT = {
    "malloc-leak": "gcc 12 takes what is hung into a list for lost; valgrind and the address sanitizer look in every test run",
}


def compiled(build, wanted):
    """The commands of the engine's files, one each."""
    every = json.loads((build / "compile_commands.json").read_text())
    for entry in {entry["file"]: entry for entry in every}.values():
        if entry["file"].startswith(ENGINE) and (not wanted or entry["file"].endswith(tuple(wanted))):
            yield entry


def make_build():
    build = ROOT / "build/analyse"
    configure = ["cmake", "-C", str(ROOT / "shared/cmake/release.cmake"), "-S", str(ROOT), "-B", str(build),
                 "-DCMAKE_C_COMPILER=gcc", "-DTANKSIDE_TESTS=OFF"]
    for command in configure, ["cmake", "--build", str(build), "--target", "tables"]:
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return build


def output_of(command, **more):
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, **more)
    return done.returncode, done.stdout


def side_by_side(run, entries):
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        return "".join(pool.map(run, entries))


def by_cppcheck(build, entries):
    command = ["cppcheck", f"--project={build}/compile_commands.json", "--quiet", "--inline-suppr", "--std=c11", "-D__linux__=1",
               "--enable=warning,style,performance,portability", "--library=posix,gnu",
               f"--library={ROOT}/tests/analyse/tankside.cfg",
               "--template={file}:{line}:{column}: {severity}: {message} [{id}]"]
    command += [f"--suppress={name}" for name in CPPCHECK_OUT]
    command += [f"--file-filter={entry['file']}" for entry in entries] if len(entries) < 20 else [f"--file-filter={ENGINE}*"]
    return output_of(command)[1]


def by_clang_tidy(build, entries):
    # One command a process: with several, of several files or of one, clang 14 takes va_start of the second for missing.
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "compile_commands.json").write_text(json.dumps(entries))
        return side_by_side(lambda entry: output_of(["clang-tidy", "-p", folder, "--quiet", entry["file"]])[1], entries)


def by_gcc(build, entries):
    def run(entry):
        command = shlex.split(entry["command"])
        command[command.index("-o") + 1] = os.devnull
        command[command.index("-c")] = "-S"
        command += ["-fanalyzer", "-fdiagnostics-plain-output", "-Wno-error", *(f"-Wno-analyzer-{name}" for name in GCC_OUT)]
        return output_of(command, cwd=entry["directory"])[1]
    return side_by_side(run, entries)


TOOLS = {"cppcheck": by_cppcheck, "clang-tidy": by_clang_tidy, "gcc": by_gcc}


def findings(text):
    """Each once, though many files may include the header it is in."""
    found = re.findall(r"^(/[^:\n]+):(\d+):(\d+): (?:fatal )?(?:warning|error|style|performance|portability): (.*)$", text, flags=re.M)
    lines = {(file.removeprefix(str(ROOT) + "/"), int(line), int(column), said) for file, line, column, said in found}
    return [f"{file}:{line}:{column}: {said}" for file, line, column, said in sorted(lines)]


def exceptions():
    text = "".join(path.read_text() for path in (ROOT / "engine").rglob("*.[ch]"))
    return len(re.findall(r"NOLINT(?:NEXTLINE|BEGIN)?\(|cppcheck-suppress |GCC diagnostic ignored", text))


def main():
    options = argparse.ArgumentParser(usage="python3 tests/analyse.py [--quick] [--only TOOL] [--build FOLDER] [FILE...]")
    options.add_argument("--quick", action="store_true")
    options.add_argument("--only", choices=TOOLS)
    options.add_argument("--build", type=pathlib.Path)
    options.add_argument("files", nargs="*")
    given = options.parse_args()
    names = ["cppcheck"] if given.quick else [given.only] if given.only else list(TOOLS)
    missing = [name for name in names if not shutil.which(name)]
    if missing:
        print("analyse: not on this machine: " + ", ".join(missing))
        return 77
    build = given.build or make_build()
    entries = list(compiled(build, given.files))
    if not entries:
        print("analyse: no such file")
        return 2
    total = 0
    for name in names:
        began = time.monotonic()
        text = TOOLS[name](build, entries)
        found = findings(text)
        print("".join(line + "\n" for line in found), end="")
        print(f"{name}: {len(found)} findings in {len(entries)} files, {time.monotonic() - began:.0f} s", flush=True)
        total += len(found)
    print(f"analyse: {total} findings; {exceptions()} exceptions beside the line")
    return 1 if total else 0


if __name__ == "__main__":
    sys.exit(main())
