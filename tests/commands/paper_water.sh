#!/bin/sh
# The papers for the water: nothing personal on any of them, plain words on the cards, and bound
# with contents that lead where they say; whoever signs a task finds the lines on its first page.
set -eu
cd "$WORK"
lake=$SOURCE/shared/productions/lake-stunt/dossier.xml
status=0
"$TANKSIDE" assess "$lake" --no-pdf -o out --set june/fear-of-water=marked --set ray/pregnant=yes \
  --set fall/june/alcohol-12-h=yes >said 2>err || status=$?
[ $status = 1 ] || { cat err; exit 1; }

python3 - <<'PY'
import os, re, sys
from xml.etree import ElementTree

root = ElementTree.parse("out/assessment.xml").getroot()
def words(name):
    text = open(f"out/{name}", encoding="utf-8").read()
    return re.sub(r"\s+", " ", re.sub(r"<style.*?</style>|<[^>]+>", " ", text, flags=re.S))

# What somebody stated of a body or a mind; a value that an open fact has too says nothing.
facts = [f for f in root.iter("fact") if f.get("name") and f.get("text")]
open_values = {f.get("text") for f in facts if f.get("sees") != "confidential"}
secrets = {f.get("text") for f in facts if f.get("sees") == "confidential" and f.get("state") in ("stated", "set")}
secrets = {s for s in secrets if len(s) > 3 and s not in open_values and re.search(r"\d", s)}
assert len(secrets) > 5, secrets
papers = [n for n in sorted(os.listdir("out")) if n.endswith((".html", ".csv")) and n not in ("assessment.html",)]
assert len(papers) > 12, papers
full = words("assessment.html")
for name in papers:
    text = words(name)
    for secret in secrets:
        if re.search(rf"(?<![\w.-]){re.escape(secret)}(?![\w-])", text):
            sys.exit(f"{name} tells {secret}")
    if name not in ("form.html", "question.html"):  # those ask, by name, what nobody has stated
        for hidden in ("pregnant, or may be", "a fear is declared", "alcohol, drugs or little"):
            assert hidden not in text.lower(), (name, hidden)
for hidden in ("pregnant, or may be", "a fear is declared", "alcohol, drugs or little"):
    assert hidden in full.lower(), hidden

# Cards: short sentences, few points, words of every day.
html = open("out/card.html", encoding="utf-8").read()
cards = re.findall(r'<section class="card.*?</section>', html, flags=re.S)
assert len(cards) == len({(i.get("person"), d.get("path")) for d in root.iter("day") for i in d.iter("immersion")})
people = {p.get("path"): p.get("label") for p in root.iter("person")}
hard = re.compile(r"\b(shall|utili[sz]e|commence|prior to|ensure|mitigat\w+|immersion|likelihood|severity|residual)\b", re.I)
for card in cards:
    points = [re.sub(r"<[^>]+>", "", p).strip() for p in re.findall(r"<li>(.*?)</li>", card, flags=re.S)]
    assert 6 <= len(points) <= 13, points
    for point in points:
        for sentence in re.split(r"[.?!:] ", point):
            assert len(sentence.split()) <= 12, sentence
        assert not hard.search(point), point
    assert sum(name in card for name in people.values()) >= 2, card[:200]  # whose it is, and whom to call
    assert "A competent person decides" in card and "You may stop at any time" in card
PY

# With nothing planned yet every paper is there all the same, with its heading and the caution.
cat >empty.xml <<'XML'
<dossier format="1" units="metric">
  <production title="Nothing yet" jurisdiction="gb-eng" revision="1" on="2027-01-01" by="A. Nobody"/>
</dossier>
XML
"$TANKSIDE" assess empty.xml --no-pdf -o empty >said 2>err || [ $? = 1 ]
for page in empty/*.html; do
  [ "$(grep -o "<h1" "$page" | wc -l)" = 1 ] || { echo "$page has no heading"; exit 1; }
  grep -q "A competent person decides, and local codes" "$page" || { echo "$page lacks the caution"; exit 1; }
done

command -v weasyprint >/dev/null 2>&1 && command -v pdftotext >/dev/null 2>&1 || exit 0
"$TANKSIDE" print out/assessment.xml --sheet set --as pdf -o set.pdf 2>err
if [ -s err ]; then cat err; exit 1; fi
pdftotext set.pdf set.txt
pdftotext -layout -f 1 -l 1 set.pdf contents.txt
python3 - <<'PY'
import re, sys
pages = open("set.txt", encoding="utf-8").read().split("\f")
flat = [re.sub(r"\s+", "", page) for page in pages]
squeeze = lambda text: re.sub(r"[\s.]+", "", text)
lines = [re.fullmatch(r"\s*(.+?)[ .]{6,}(\d[\d ]*)", line.rstrip()) for line in open("contents.txt", encoding="utf-8")]
entries = [(squeeze(m[1]), int(m[2].replace(" ", ""))) for m in lines if m]
assert len(entries) > 8, entries
tasks = 0
for title, page in entries:
    kind, _, rest = title.partition(":")
    wanted = rest if kind == "Tasksheet" else title
    if kind != "Briefingcards" and wanted not in squeeze(pages[page - 1]):
        sys.exit(f"{title} is not on page {page}")
    if kind == "Tasksheet":
        tasks += 1
        assert "Signature" in flat[page - 1] and "Divingsupervisor" in flat[page - 1], title
assert tasks == 5, tasks
PY
