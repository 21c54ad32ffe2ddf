"""Is a PDF tagged, in its language, with a title and bookmarks, its fonts in it, and does every drawing of its
page have its words? And, of the full assessment: does its text read in order with every finding in it?

check_pdf.py HTML PDF                    each problem on a line; status 1 if there is one
check_pdf.py ASSESSMENT.xml HTML PDF     the same of the full assessment, and what is in it
"""
import html.parser
import json
import re
import subprocess
import sys
import xml.etree.ElementTree as ET


SECTIONS = ["Tasks at a glance", "The matrix", "Nearest edges", "Stops", "Findings above the line",
            "Findings below the line", "Duties", "The days", "Register of controls", "Signatures"]


def output(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


class Drawings(html.parser.HTMLParser):
    """What the drawings of a page say to who does not see them."""
    def __init__(self, path):
        super().__init__()
        self.named, self.words, self.inside = [], {}, None
        with open(path, encoding="utf-8") as f:
            self.feed(f.read())
    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag == "svg" and attrs.get("role") == "img":
            self.named.append((attrs.get("aria-label"), attrs.get("aria-labelledby", "").split()))
        self.inside = attrs.get("id") if tag in ("title", "desc") else None
    def handle_data(self, data):
        if self.inside:
            self.words[self.inside] = self.words.get(self.inside, "") + data
    def handle_endtag(self, tag):
        self.inside = None
    def all(self):
        return [norm(label or " ".join(self.words[i] for i in ids)) for label, ids in self.named]


def norm(text):
    return re.sub(r"\s+", " ", text).strip()


def objects(pdf):
    """Every object that is a dictionary."""
    # qpdf reports warnings by status 3: --check is for those.
    said = subprocess.run(["qpdf", "--json", "--json-key=qpdf", pdf], capture_output=True, text=True).stdout
    all_of_it = json.loads(said)["qpdf"][1]
    values = (o.get("value", o.get("stream", {}).get("dict")) for o in all_of_it.values() if isinstance(o, dict))
    return [v for v in values if isinstance(v, dict)]


def structure(page, pdf):
    """What a reading program is told: problems with it."""
    found = objects(pdf)
    catalog = next(o for o in found if o.get("/Type") == "/Catalog")
    tags = {o.get("/S") for o in found if o.get("/Type") == "/StructElem"}
    with open(page, encoding="utf-8") as f:
        text = f.read()
    language = re.search(r'<html lang="([^"]*)"', text)[1]
    wanted = {"its language": catalog.get("/Lang") == f"u:{language}", "bookmarks": "/Outlines" in catalog,
              "marked content": catalog.get("/MarkInfo", {}).get("/Marked") is True, "tags": "/StructTreeRoot" in catalog,
              "a title": any(re.search(r"\w", o.get("/Title", "")) for o in found if "/Producer" in o)}
    for html_tag, tag in (("h1", "H1"), ("h2", "H2"), ("table", "Table"), ("th", "TH"), ("td", "TD"), ("ul", "L")):
        wanted[f"the tag {tag}"] = f"/{tag}" in tags or f"<{html_tag}" not in text
    fonts = output("pdffonts", pdf).splitlines()[2:]
    wanted["its fonts"] = bool(fonts) and all(re.search(r" yes yes yes +\d", font) for font in fonts)
    drawn = sorted(Drawings(page).all())
    told = sorted(norm(o.get("/Alt", "u:")[2:]) for o in found if o.get("/S") == "/Figure")
    wanted[f"the words of its {len(drawn)} drawings: {told[:3]}"] = told == drawn and all(drawn)
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


full, page, pdf = sys.argv[1:-2], sys.argv[-2], sys.argv[-1]
problems = structure(page, pdf)
for assessment in full:
    problems += in_order(ET.parse(assessment).getroot(), pdf) + pages(pdf)
print(*problems, sep="\n")
sys.exit(bool(problems))
