#!/bin/sh
# Whatever stands in a text of a dossier is printed as text: no markup, nothing that runs, no formula
# in a table, nothing turned round, nothing pushed off the page.
set -eu
cd "$WORK"
python3 - "$SOURCE/shared/productions/lake-stunt/dossier.xml" dossier.xml texts.json <<'PY'
import json, sys
from xml.etree import ElementTree

TEXTS = ["</td></table><script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "' onmouseover='alert(1)",
         "=HYPERLINK(\"x\",\"go\")", "+1+1", "-2+3", "@SUM(A1)", "|calc", "＝1+1", "a,\"b\",c", "]]> <!-- &amp;lt; ${x} {{7*7}}",
         "</style><style>*{display:none}", "javascript:alert(1)", "url(x) %s%n", "abc \u202etxet\u202c \u2067x\u2069 end",
         "שלום وسلام", "😀 👩‍🚒 🏊🏽", "W" * 10000, "many words " * 900 + "end", "?", "not known", "𝕏̷̢̛"]
NAMES = {"title", "name", "note", "reference", "by", "producer", "insurer", "competent-person", "approved-by",
         "address", "hospital", "hospital-phone", "recompression-chamber", "chamber-phone", "rendezvous",
         "muster-point", "evidence", "ref", "because"}
tree = ElementTree.parse(sys.argv[1])
used, at = {}, 0
for node in tree.getroot().iter():
    for name in sorted(node.attrib):
        if name in NAMES and not (node.tag == "control" and name == "ref"):
            text = TEXTS[at % len(TEXTS)]
            at += 1
            if text == "?":
                continue
            node.set(name, text)
            used.setdefault(text, []).append(f"{node.tag}/{name}")
assert len(used) == len(TEXTS) - 1, used.keys()
tree.write(sys.argv[2], encoding="utf-8", xml_declaration=True)
json.dump(used, open(sys.argv[3], "w"))
PY
status=0
"$TANKSIDE" assess dossier.xml -o out --no-pdf >said 2>err || status=$?
[ $status -le 1 ] || { cut -c1-300 err; exit 1; }

python3 - "$SOURCE/templates/reading.js" <<'PY'
import csv, html.parser, json, os, re, sys, zipfile
from xml.etree import ElementTree

OURS = open(sys.argv[1], encoding="utf-8").read().strip()

def check(ok, *what):
    if not ok:
        print(*(str(w)[:300] for w in what))
        sys.exit(1)

def shown(text):
    return re.sub(r"\s+", " ", re.sub("[\u202a-\u202e\u2066-\u2069]", "\ufffd", text)).strip()

class Page(html.parser.HTMLParser):
    KNOWN = set("""html head title meta style body a aside b i header main section article figure figcaption nav footer div span p h1 h2 h3 h4
        ul ol li dl dt dd table caption thead tbody tr th td input label code br small select option button template output script
        svg g rect line path text tspan title circle polyline polygon defs pattern desc""".split())
    def __init__(self, name):
        super().__init__()
        self.name, self.stack, self.text = name, [], ""
        self.feed(open(name, encoding="utf-8").read())
        check(not self.stack, name, "leaves open", self.stack)
    def handle_starttag(self, tag, attrs):
        check(tag.lower() in self.KNOWN, self.name, "has an element", tag)
        for name, value in attrs:
            check(not name.startswith("on") and name not in ("src", "action", "srcset"), self.name, name, value)
            if name == "href":
                check(re.fullmatch(r"#\S+", value) or (self.name.endswith("index.html") and os.path.exists(f"out/{value}")),
                      self.name, "leads to", value)
        if tag not in ("meta", "input", "br"):
            self.stack.append(tag)
    def handle_endtag(self, tag):
        if tag not in ("meta", "input", "br"):
            check(self.stack and self.stack.pop() == tag, self.name, "closes", tag)
    def handle_data(self, data):
        if "script" in self.stack:  # our own, word for word, is the only one that may be there
            check(data.strip() == OURS, self.name, "has another script", data)
        elif "style" not in self.stack:
            self.text += data

texts = {shown(text): places for text, places in json.load(open("texts.json")).items()}
pages = {name: Page(f"out/{name}") for name in os.listdir("out") if name.endswith(".html")}
check(len(pages) > 12, sorted(pages))
for name, page in pages.items():
    check(not re.search("[\u202a-\u202e\u2066-\u2069]", page.text), name, "is turned round")
everything = shown(" ".join(page.text for page in pages.values()))
for text, places in texts.items():
    check(text in everything, "nowhere on paper:", text, places)

with open("out/register.csv", encoding="utf-8", newline="") as f:
    raw = f.read()
rows = list(csv.reader(raw.splitlines(True), strict=True))
check(raw.count("\r\n") == len(rows) and "\n" not in raw.replace("\r\n", ""), "lines end otherwise")
starts = set()
for row in rows:
    check(len(row) == len(rows[0]), "fields:", row)
    for cell in row:
        check(not re.match(r"\s*[=+\-@|%＝＋－＠\t\r]", cell), "a formula:", cell)
        starts.update(text for text in texts if cell.startswith("'" + text) or cell.startswith(text))
check(any(t[0] in "=+-@" for t in starts), "no hostile cell was seen", starts)

with zipfile.ZipFile("out/register.ods") as ods:
    first = ods.infolist()[0]
    check(first.filename == "mimetype" and first.compress_type == 0 and not first.extra, "mimetype", first)
    check(ods.testzip() is None, "damaged")
    root = ElementTree.fromstring(ods.read("content.xml"))
cells = [n for n in root.iter() if n.tag.endswith("}table-cell")]
check(len(cells) >= len(rows) * 20, "cells", len(cells))
for cell in cells:
    for name, value in cell.attrib.items():
        check("formula" not in name and "script" not in name, name, value)
        if name.endswith("}value"):
            check(re.fullmatch(r"\d+", value), "a number:", value)
content = shown("".join(root.itertext()))
for text in starts:
    check(text in content, "not in the spreadsheet:", text)
PY

# On paper nothing runs over the edge, and a card stays a card.
command -v weasyprint >/dev/null 2>&1 && command -v pdftotext >/dev/null 2>&1 || exit 0
people=$(grep -o "<section class=\"card" out/card.html | wc -l)
for sheet in card emergency; do
  "$TANKSIDE" print out/assessment.xml --sheet $sheet --as pdf -o $sheet.pdf 2>err
  if [ -s err ]; then cut -c1-300 err; exit 1; fi
  pdftotext -bbox $sheet.pdf $sheet.bbox
  python3 - $sheet.bbox <<'PY'
import re, sys
wide, seen = 0, 0
for line in open(sys.argv[1], encoding="utf-8"):
    if page := re.search(r'<page width="([\d.]+)"', line):
        wide = float(page[1])
    if word := re.search(r'<word xMin="(-?[\d.]+)".* xMax="([\d.]+)"', line):
        seen += 1
        if float(word[1]) < -1 or float(word[2]) > wide + 1:
            print(sys.argv[1], "runs over the edge:", line[:200])
            sys.exit(1)
if seen < 50:
    sys.exit("hardly a word")
PY
done
[ "$people" -gt 0 ]
pages=$(pdfinfo card.pdf | sed -n 's/^Pages: *//p')
[ "$pages" = $(((people + 3) / 4)) ] || { echo "$people cards on $pages pages"; exit 1; }
