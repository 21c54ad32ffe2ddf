#!/bin/sh
# Nothing of an assessment is left off the full assessment, and no number is on any paper that
# is not in assessment.xml: papers only print. Every file is linked from the index.
set -eu
cd "$WORK"
for name in tank-serial lake-stunt; do
  status=0
  "$TANKSIDE" assess "$SOURCE/shared/productions/$name/dossier.xml" -o "$name" --no-pdf >out 2>err || status=$?
  [ $status -le 1 ] || { cat err; exit 1; }
done

python3 - "$SOURCE/templates/words-en-GB.xml" tank-serial lake-stunt <<'PY'
import csv, html.parser, os, re, sys
from xml.etree import ElementTree

VOID = {"meta", "br", "input", "link", "hr", "img"}
# Where layout itself counts or measures: the numbers of sections, marks of a scale.
LAID_OUT = {"no", "ruler", "corner"}

class Page(html.parser.HTMLParser):
    """Texts of a page with the classes they stand under; the text around each id, and of each
    section; links. Without style and drawings."""
    def __init__(self, path):
        super().__init__()
        self.stack, self.texts, self.ids, self.links = [], [], {}, []
        self.inside, self.sections, self.section = {}, {}, None
        with open(path, encoding="utf-8") as f:
            self.feed(f.read())
        self.all = norm(" ".join(text for text, _ in self.texts))
    def handle_starttag(self, tag, attrs):
        attrs = {name: value or "" for name, value in attrs}
        if tag not in VOID:
            self.stack.append((tag, set(attrs.get("class", "").split()), object()))
        if attrs.get("id"):
            check(attrs["id"] not in self.ids, "twice:", attrs["id"])
            # Findings that say the same share a row: what counts is the row.
            self.ids[attrs["id"]] = next((key for name, classes, key in reversed(self.stack)
                                          if name == "tr" or "full" in classes), self.stack[-1][2])
        if tag == "h2":
            self.section = attrs.get("id")
        if attrs.get("href"):
            self.links.append(attrs["href"])
    def handle_endtag(self, tag):
        while tag not in VOID and self.stack.pop()[0] != tag:
            pass
    def handle_data(self, data):
        if not data.strip() or {tag for tag, _, _ in self.stack} & {"style", "svg", "script"}:
            return
        self.texts.append((data, set().union(*(classes for _, classes, _ in self.stack))))
        self.sections[self.section] = self.sections.get(self.section, "") + data
        for _, _, key in self.stack:
            self.inside[key] = self.inside.get(key, "") + " " + data
    def around(self, name):
        return norm(self.inside[self.ids[name]])
    def under(self, heading):
        return norm(self.sections.get(heading, ""))

def norm(text):
    text = re.sub("(?<=\\d)\u00a0(?=\\d{3})", "", text)  # digits in threes
    return re.sub(r"\s+", " ", text).strip()

def check(ok, *what):
    if not ok:
        print(*what)
        sys.exit(1)

# ---- everything is there -------------------------------------------------------------

def complete(root, page):
    counted = 0
    for found in root.findall("findings/finding") + root.findall("duties/duty"):
        name = found.get("id")
        check(name in page.ids, name, found.get("rule"), "is not on the full assessment")
        text = page.around(name)
        for score in found.findall("score"):
            worst = score.get("worst")
            check(not worst or worst in re.findall(r"\d+", text), name, "lacks its score", worst)
        if found.get("word") == "stop":
            check(name in page.under("stops"), name, "does not stand with the stops")
        if found.tag == "duty" and found.get("state-in-place") != "met":
            check(re.search(r"Not met|Open", text), name, "does not say that it is not met")
        counted += 1
    # What was said stands beside it, or once for all that say the same.
    for because in root.iter("because"):
        check(norm(because.text or "") in page.all, "not on paper:", because.text)
    for waiver in root.findall("waivers/waiver"):
        for part in ("rule", "by", "until", "because"):
            check(norm(waiver.get(part) or "") in page.under("waivers"), "waiver without", part)
    for failure in root.findall("failures/failure"):
        check(norm(failure.get("text")) in page.under("waivers"), "failure without its text")
    assumed = 0
    for fact in root.findall("subjects/subject/fact"):
        if fact.get("assumed") == "yes" or fact.get("state") == "unknown":
            check(norm(f'{fact.get("title")} {fact.get("text")}') in page.under("facts"),
                  "assumed, and not said:", fact.get("title"))
            assumed += 1
    for fact in root.findall("open-facts/fact"):
        check(norm(fact.get("title")) in page.under("open"), "open, and not asked:", fact.get("path"))
    check(counted > 100 and assumed > 3, "too little was looked at", counted, assumed)
    return counted

# ---- nothing else is there --------------------------------------------------------------

NUMBER = re.compile(r"\d+(?:[.,:]\d+)*")
UNIT = (r"(?:s|min|h|day|days|year|m|cm|mm|km|ft|in|mi|lb|kg|g|lbf|N|°C|°F|K|bar|psi|psf|kPa|Pa|L|gal|ft³|ft3|m3|m³|%|"
        r"ppm|lux|dBA|V|mA|knot|mph|m/s|ft/min|m/min|L/min|cfm|mg/L|mg/m³|g/L|NTU)")
QUANTITY = re.compile(r"(?<![\w.])-?(?:\d+(?:[.,]\d+)*(?: ?\.\. ?-?\d+(?:[.,]\d+)*)?) ?" + UNIT + r"(?![\w/])")
# Phrases in which a document counts what it prints, or says where it goes on.
COUNTS = re.compile(r"(?:and )?\d+ more(?: below| ways?)?|\d+ (?:stops?|facts? not known|rules? failed|waivers?|"
                    r"findings?|dut(?:y|ies)|rules? that)\b")

DIGEST = re.compile(r"digest [0-9a-f]{12}\b")
# The assessment has the number of this share alone.
SHARE = re.compile(r"\d+ % of what hangs")

def strings(root):
    for node in root.iter():
        yield from (norm(v) for v in node.attrib.values())
        if node.text:
            yield norm(node.text)

def numbers_only_from(written, words, name, texts):
    text_of_all, numbers, quantities = written
    known, checked = numbers | words, 0
    for text, classes in texts:
        if classes & LAID_OUT:
            continue
        text = DIGEST.sub(" ", norm(text))
        for quantity in QUANTITY.findall(SHARE.sub(" ", text)):
            check(quantity in quantities or quantity in text_of_all or set(NUMBER.findall(quantity)) <= words, name, "prints", repr(quantity), "in", text[:120])
            checked += 1
        for number in NUMBER.findall(COUNTS.sub(" ", text)):
            check(number in known or classes & {"cell", "n", "big"}, name, "prints", number, "in", text[:120])
            checked += 1
    return checked

def matrix_counts(root, page_path):
    """The counts in the cells of the matrix, once more."""
    tree = open(page_path, encoding="utf-8").read()
    shown = [int(n) for n in re.findall(r'<td class="cell[^>]*><span class="counted">\S+ <b>(\d+)</b>', tree)]
    count = {}
    for score in root.findall("findings/finding[@word='hazard']/score[@worst]"):
        key = (score.get("as"), score.get("worst-likelihood"), score.get("worst-severity"))
        count[key] = count.get(key, 0) + 1
    check(sorted(shown) == sorted(count.values()), "the matrix counts otherwise", page_path)

words_text = " ".join(strings(ElementTree.parse(sys.argv[1]).getroot()))
words = set(NUMBER.findall(words_text))
for folder in sys.argv[2:]:
    root = ElementTree.parse(f"{folder}/assessment.xml").getroot()
    full = Page(f"{folder}/assessment.html")
    total = complete(root, full)
    matrix_counts(root, f"{folder}/assessment.html")
    files = sorted(os.listdir(folder))
    check(len(files) > 12, files)
    text = " | ".join(strings(root))
    written = text, set(NUMBER.findall(text)), set(QUANTITY.findall(text))
    checked = sum(numbers_only_from(written, words, f"{folder}/{name}", Page(f"{folder}/{name}").texts)
                  for name in files if name.endswith(".html") and name != "index.html")
    check(checked > 5000, "hardly a number was looked at:", checked)
    index = Page(f"{folder}/index.html")
    linked = sorted(link for link in index.links if not link.startswith("#"))
    check(linked == [f for f in files if f != "index.html"], "the index lists", linked, "there is", files)
    with open(f"{folder}/register.csv", encoding="utf-8", newline="") as f:
        rows = list(csv.reader(f, strict=True))
    check(len(rows) == 1 + total + 2, "the register has", len(rows), "rows for", total)
    check(len({len(row) for row in rows}) == 1, "rows of the register differ in length")
    check({row[0] for row in rows[1:-2]} == {f.get("id") for f in root.findall("*/finding") + root.findall("*/duty")}, "ids")
    numbers_only_from(written, words, "register.csv", [(cell, set()) for row in rows[1:] for cell in row])
PY
