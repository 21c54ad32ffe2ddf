#!/usr/bin/env python3
"""Holds the source to the project's habits; prints file and function lengths.

Checks what a compiler does not: which folder may include which, calls that must
not be made or only behind their one door, lengths and nesting, no global mutable
state, no machine's paths, nothing unexpected at the top of the tree. Failures are
`file:line: error: text`; exit 1 when there is one.
"""
import html
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent

FILE_LINES, FUNCTION_LINES, NESTING = 600, 60, 4
LAYERS = ["base", "quantity", "science", "dossier", "rule", "assess", "document", "command"]
PUBLIC = {"diagnostics": "base", "quantity": "quantity", "science": "science",
          "dossier": "dossier", "rules": "rule", "assess": "assess", "document": "document", "sign": "document", "review": "document"}
TOP = {"README.md", "DEVELOPERS.md", "CMakeLists.txt", "LICENSE",
       "engine", "rules", "include", "tests", "templates", "shared"}

# (calls, files or folders under engine/ that may make them, why not elsewhere)
CALLS = [
    ("setlocale", (), "the library never changes its host's locale"),
    ("strtod atof strtof sscanf", (), "reads by the locale: ts_number_read"),
    ("sprintf vsprintf strcpy strcat strtok gets alloca", (), "unbounded: ts_text, snprintf"),
    ("time gmtime localtime gettimeofday clock", (), "same inputs give the same bytes: no clock"),
    ("rand srand random drand48", (), "same inputs give the same bytes: no chance"),
    ("getrandom", ("base/text.c",), "chance is for the seed of a hash alone: ts_hash_seed"),
    ("system popen", (), "no shell"),
    ("open", ("base/file.c", "base/staging.c", "document/pdf.c", "command/wall.c"), "files go through base/file.h"), # /dev/null for the child
    ("fopen freopen openat creat rename renameat unlink unlinkat remove mkdir mkstemp mkdtemp "
     "opendir scandir", ("base/file.c", "base/staging.c"),
     "files go through base/file.h"),
    ("realpath readlink", ("base/path.c", "document/guard.c", "document/pdf.c"), "paths go through base/file.h"),
    ("xmlReadFile xmlReadMemory xmlReadDoc xmlReadFd xmlCtxtReadFile xmlCtxtReadMemory xmlParseFile "
     "xmlParseMemory xmlParseDoc xmlParseChunk xmlSaveFile xmlSaveFormatFile xmlSaveFormatFileEnc "
     "htmlReadMemory htmlReadFile htmlReadDoc xmlReaderForFile xmlReaderForFd xmlReaderForMemory xmlReaderForDoc xmlReaderForIO "
     "xsltSaveResultToFilename", ("base/xml.c", "base/xml_stream.c"), "XML is read through base/xml.h and written by base/file.h"),
    ("malloc calloc realloc", ("base/arena.c", "command/memory.c", "rule/"), "unchecked: ts_alloc, ts_resize"),
]
LUA = ("rule/",)
# An include against the order, each with its reason: (stage, header): reason.
INCLUDES = {}

# Written so that this file does not contain what it looks for.
WORDS = [
    (r"py[p]i\.|np[m]js|crate[s]\.io|luarock[s]\.|rubygem[s]\.", "a package registry"),
    (r"(?<![\w.)}*$])/(?:wor[k]|tm[p]|roo[t]|hom[e]|User[s])(?=[/\s\"'`,;]|$)", "a path of one machine"),
]
TEXT = {".c", ".h", ".py", ".sh", ".lua", ".md", ".txt", ".xml", ".rng", ".xsl", ".css", ".csv",
        ".cmake", ".in", ".html", ".1", ""}

problems = []


def problem(path, line, text):
    problems.append((str(path.relative_to(ROOT)), line, text))


def all_files():
    """What the project consists of: everything but dot-folders and builds."""
    for top in sorted(ROOT.iterdir()):
        if top.name.startswith((".", "build")):
            continue
        for path in [top] if top.is_file() else sorted(top.rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                yield path


def blanked(text):
    """The same text with comments, strings and characters blanked, lines kept."""
    pattern = r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\''
    blank = lambda m: re.sub(r"[^\n]", " ", m.group()) if m.group()[0] == "/" else \
        m.group()[0] + re.sub(r"[^\n]", "_", m.group()[1:-1]) + m.group()[-1]
    return re.sub(pattern, blank, text, flags=re.S)


def without_directives(code):
    return re.sub(r"^[ \t]*#(?:[^\n]*\\\n)*[^\n]*", lambda m: re.sub(r"[^\n]", " ", m.group()),
                  code, flags=re.M)


def line_of(code, offset):
    return code.count("\n", 0, offset) + 1


def is_block(code, at):
    """Whether this brace opens statements, not an initialiser or a type's members."""
    before = code[:at].rstrip()
    if at and code[at - 1] == ")":
        return False  # (type){...}
    return before.endswith((")", "else", "do", ";", "{", "}", ":")) and not before.endswith(("=", "{{"))


def outline(code):
    """Yields (kind, start, end, text): pieces at file scope, 'function' or 'other'."""
    start, at = 0, 0
    while at < len(code):
        c = code[at]
        if c == ";":
            yield "other", start, at, code[start:at]
            start = at = at + 1
            continue
        if c == "{":
            function = code[:at].rstrip().endswith(")") and "=" not in code[start:at].split("(")[0]
            depth, end = 1, at + 1
            while end < len(code) and depth:
                depth += {"{": 1, "}": -1}.get(code[end], 0)
                end += 1
            if function:
                yield "function", start, end, code[start:end]
                start = end
            at = end
            continue
        at += 1


def first_line(code, start):
    skipped = len(code[start:]) - len(code[start:].lstrip())
    return line_of(code, start + skipped)


def nesting(code, start, end):
    """The deepest statement block inside a function body, its own not counted."""
    stack, depth, deepest, where = [], 0, 0, start
    for at in range(start, end):
        if code[at] == "{":
            block = is_block(code, at)
            stack.append(block)
            depth += block
            if depth - 1 > deepest:
                deepest, where = depth - 1, at
        elif code[at] == "}" and stack:
            depth -= stack.pop()
    return deepest, where


def check_function(path, code, start, end, lengths):
    line = first_line(code, start)
    length = line_of(code, end - 1) - line + 1
    name = re.search(r"(\w+)\s*\(", code[start:end])
    lengths.append(length)
    if length > FUNCTION_LINES:
        problem(path, line, f'function "{name.group(1)}" has {length} lines; at most {FUNCTION_LINES}')
    deepest, where = nesting(code, start, end)
    if deepest > NESTING:
        problem(path, line_of(code, where), f'blocks are nested {deepest} deep; at most {NESTING}')
    for found in re.finditer(r"\bstatic\b([^;=({]*)", code[code.index("{", start):end]):
        if "const" not in found.group(1):
            problem(path, line_of(code, code.index("{", start) + found.start()),
                    "a static variable that can change: global mutable state")


def without_braces(text):
    """The text with every {...} left out."""
    kept, depth = [], 0
    for c in text:
        depth += c == "{"
        if depth == 0:
            kept.append(c)
        depth -= c == "}"
    return "".join(kept)


def check_variable(path, code, start, text):
    """A declaration at file scope must not be a variable that can change."""
    head = " ".join(re.split(r"(?<![=!<>])=(?!=)", without_braces(text))[0].split())
    if not head or re.match(r"((__extension__ )?typedef|extern|_Static_assert|(struct|union|enum)( \w+)?$)", head):
        return
    if "(" in head and not re.match(r"[\w ]+\(\*", head):
        return  # a prototype or a macro's use
    pointer_changes = "*" in head and not re.search(r"\*\s*const\b[^*]*(\(.*)?$", head)
    if "const" not in head or pointer_changes:
        problem(path, first_line(code, start), "a variable that can change: global mutable state")


def allowed(inside, places):
    return any(inside == p or (p.endswith("/") and inside.startswith(p)) for p in places)


def check_calls(path, inside, code):
    for calls, places, why in CALLS:
        if allowed(inside, places):
            continue
        for found in re.finditer(r"(?<![\w.>])(" + calls.replace(" ", "|") + r")\s*\(", code):
            problem(path, line_of(code, found.start()), f'"{found.group(1)}" is not called here ({why})')
    if not allowed(inside, LUA):
        for found in re.finditer(r"\blua(?:L)?_\w+\s*\(", code):
            problem(path, line_of(code, found.start()), "Lua is spoken to in engine/rule only")


def layer_of_include(name, own):
    first, _, rest = name.partition("/")
    if first == "tankside":
        return PUBLIC.get(rest.removesuffix(".h"))
    return first if rest else own


def check_includes(path, own, text):
    for number, line in enumerate(text.splitlines(), 1):
        found = re.match(r'\s*#\s*include\s*"([^"]+)"', line)
        if not found:
            continue
        name = found.group(1)
        layer = layer_of_include(name, own)
        if layer not in LAYERS:
            problem(path, number, f'"{name}" belongs to no known stage')
        elif LAYERS.index(layer) > LAYERS.index(own) and (own, name) not in INCLUDES:
            problem(path, number, f'{own} may not include {layer} ("{name}")')
        elif name.endswith("_int.h") and layer != own:
            problem(path, number, f'"{name}" is private to {layer}')


def check_source(path, lengths):
    """Returns the number of lines."""
    text = path.read_text(encoding="utf-8")
    lines = text.count("\n")
    parts = path.relative_to(ROOT).parts
    if lines > FILE_LINES:
        problem(path, lines, f"the file has {lines} lines; at most {FILE_LINES}")
    engine = parts[0] in ("engine", "include")
    code = without_directives(blanked(text))
    for kind, start, end, piece in outline(code):
        if not engine:
            if kind == "function":
                lengths.append(line_of(code, end - 1) - first_line(code, start) + 1)
        elif kind == "function":
            check_function(path, code, start, end, lengths)
        else:
            check_variable(path, code, start, piece)
    if engine:
        own = parts[1] if parts[0] == "engine" else PUBLIC.get(path.stem)
        if own is None:
            problem(path, 1, "a public header of no known stage; name it in tests/source_check.py")
            return lines
        check_includes(path, own, text)
        check_calls(path, "/".join(parts[1:]), code)
        if path.suffix == ".h" and not text.startswith("/*"):
            problem(path, 1, "a header starts with a comment that says what it is for")
    return lines


def check_words(path):
    if path.suffix not in TEXT:
        return
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return
    for pattern, what in WORDS:
        for found in re.finditer(pattern, text, flags=re.M):
            problem(path, line_of(text, found.start()), f'{what}: "{found.group()}"')


def check_shell(path):
    """What `set -e` looks past, so that a test goes on where it should have failed."""
    if path.suffix != ".sh":
        return
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if "||" in line or "exit" in line:
            continue
        if re.match(r"\s*! ", line):
            problem(path, number, "a line that begins with ! ends nothing: add || exit 1")
        if re.match(r"\s*(\[|grep|has) .*&& ", line):
            problem(path, number, "only the last of these ends the test: one a line")


def check_top():
    for path in ROOT.iterdir():
        if path.name in TOP or path.name.startswith("."):
            continue
        ignored = subprocess.run(["git", "check-ignore", "-q", str(path)], cwd=ROOT,
                                 stderr=subprocess.DEVNULL).returncode == 0 \
            if (ROOT / ".git").exists() else path.name.startswith("build")
        if not ignored:
            problem(path, 0, "nothing else belongs at the top of the tree")


def texts_said():
    """Every quoted text of rules, matrices and the core, pieces joined; names, choices, values also with spaces."""
    said = set()
    for folder, kind in [("rules", "*.lua"), ("shared/productions", "*.lua"), ("shared/matrices", "*.xml"),
                         ("engine", "*.def"), ("engine", "*.c")]:
        for path in (ROOT / folder).rglob(kind):
            text = path.read_text(encoding="utf-8").replace('\\"', "\0").replace("&quot;", "\0")
            for quoted in re.findall(r'"([^"\n]*)"', re.sub(r'"\s*(?:\.\.\s*)?"', "", text)):
                said.add(quoted.replace("\0", '"'))
                said.update(re.sub("[-_]", " ", name) for name in [quoted, *quoted.split()])
            for values in re.findall(r"\bvalues = \{([^}]*)\}", text):
                said.update(name.replace("_", " ") for name in re.findall(r"(\w+) =", values))
    return said


def check_terms():
    """A translation of what nothing says any more is dead: the text it was made from has changed."""
    said = texts_said()
    for path in sorted((ROOT / "templates").glob("terms-*.xml")):
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            of = re.search(r' of="([^"]*)"', line)
            if of and html.unescape(of.group(1)) not in said:
                problem(path, number, f"nothing says \"{of.group(1)}\" any more")


def at(values, share):
    return sorted(values)[min(len(values) - 1, int(share * len(values)))] if values else 0


def print_table(rows):
    print(f"{'':22}{'files':>6}{'lines':>8}{'median':>8}{'p90':>6}{'max':>6}"
          f"{'functions':>11}{'median':>8}{'p90':>6}{'max':>6}")
    for name, (files, functions) in sorted(rows.items()):
        print(f"{name:22}{len(files):6}{sum(files):8}{at(files, .5):8}{at(files, .9):6}{max(files):6}"
              f"{len(functions):11}{at(functions, .5):8}{at(functions, .9):6}{at(functions, 1):6}")


def main():
    rows = {}
    for path in all_files():
        check_words(path)
        check_shell(path)
        if path.suffix in (".c", ".h"):
            folder = str(path.parent.relative_to(ROOT))
            files, functions = rows.setdefault(folder, ([], []))
            files.append(check_source(path, functions))
    check_top()
    check_terms()
    print_table(rows)
    for file, line, text in sorted(problems):
        print(f"{file}:{line}: error: {text}")
    print(f"source check: {len(problems)} problems")
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
