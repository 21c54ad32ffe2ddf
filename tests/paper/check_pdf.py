"""Is a PDF of the full assessment tagged, in its language, with bookmarks, and does its text read
in order with every finding in it?

check_pdf.py ASSESSMENT PDF...   each problem on a line; status 1 if there is one
"""
import re
import subprocess
import sys
import xml.etree.ElementTree as ET


SECTIONS = ["Tasks at a glance", "The matrix", "Nearest edges", "Stops", "Findings above the line",
            "Findings below the line", "Duties", "The days", "Register of controls", "Signatures"]


def output(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def structure(pdf):
    """What a reading program is told: problems with it."""
    text = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", pdf, "-"], check=True,
                          capture_output=True).stdout
    info = output("pdfinfo", pdf)
    tags = output("pdfinfo", "-struct", pdf)
    wanted = {"a language": b"/Lang (en-GB)" in text, "bookmarks": b"/Outlines " in text,
              "tags": bool(re.search(r"^Tagged: *yes", info, re.M)),
              "a title": bool(re.search(r"^Title: *\S", info, re.M))}
    for tag in ("H1", "H2", "Table", "TH", "TD", "L"):
        wanted[f"the tag {tag}"] = bool(re.search(rf"^\s*{tag}\b", tags, re.M))
    return [f"{pdf} lacks {what}" for what, there in wanted.items() if not there]


def squeezed(text):
    return re.sub(r"\s+", "", text)


def in_order(root, pdf):
    """Sections as in the contents; each finding with its title, in the section it belongs to."""
    text = output("pdftotext", pdf, "-")
    problems = []
    for found in root.findall("findings/finding") + root.findall("duties/duty"):
        if not re.search(rf"\b{found.get('id')}\b", text):
            problems.append(f"{pdf}: {found.get('id')} is not in the text")
        for because in found.findall("because"):
            if squeezed(because.text) not in squeezed(text):
                problems.append(f"{pdf}: {found.get('id')} without its reason")
    # In the contents dots follow a title; a head stands alone, with its number or after it.
    at = []
    for title in SECTIONS:
        head = re.search(rf"^(\d+\s+)?{title}$", text, re.M)
        if not head:
            problems.append(f"{pdf}: no head \"{title}\"")
        elif at and head.start() < at[-1]:
            problems.append(f"{pdf}: \"{title}\" comes too early")
        else:
            at.append(head.start())
    return problems


def pages(pdf):
    """Each page says what it is of, which it is, and how things stand."""
    count = int(re.search(r"^Pages: *(\d+)", output("pdfinfo", pdf), re.M)[1])
    problems = []
    for page in range(1, count + 1):
        text = output("pdftotext", "-f", str(page), "-l", str(page), pdf, "-")
        for what in (f"page {page} of {count}", "Not complete", "Revision 3", "Risk assessment of wet work"):
            if what not in text:
                problems.append(f"{pdf}, page {page}: without \"{what}\"")
    return problems


root = ET.parse(sys.argv[1]).getroot()
problems = [p for pdf in sys.argv[2:] for p in structure(pdf) + in_order(root, pdf) + pages(pdf)]
print(*problems, sep="\n")
sys.exit(bool(problems))
