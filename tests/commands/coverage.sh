#!/bin/sh
# Every topic of a wet stage is looked at: the table in rules/topics.xml has none that is empty, none
# of its rules is missing, every rule of `common` stands in it, and what is said to be
# looked at while a dossier is read is said of a dossier.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; head -n 20 "$1"; exit 1; }; }

"$TANKSIDE" rules topics >table 2>err || { cat err; exit 1; }
[ ! -s err ] || { cat err; exit 1; }
has table '0 missing'
topics=$(sed -n 's/^\([0-9]*\) topics, .*/\1/p' table)
[ "$topics" -ge 143 ] || { echo "only $topics topics"; exit 1; }
for section in Air Body Water Worn People Team Place Outside 'Emergency: the time line' Records Cross-checks; do
  grep -q "^$section" table || { echo "no section $section"; exit 1; }
done

# Independently of the program: the ids in the table against the ids in the rule files.
python3 - "$SOURCE" table <<'PY'
import pathlib, re, sys
import xml.etree.ElementTree as tree
source, table = pathlib.Path(sys.argv[1]), open(sys.argv[2], encoding="utf-8").read()
topics = tree.parse(source / "rules/topics.xml").getroot()
rules = {}
for file in (source / "rules").glob("*/*.lua"):
    for id in re.findall(r'^rule\s*\{\s*\n\s*id = "([^"]+)"', file.read_text("utf-8"), re.M):
        rules[id] = file.parent.name
assert len(rules) > 200, len(rules)
named, names = set(), []
for topic in topics.iter("topic"):
    names.append((topic.get("name")))
    some = []
    for word in topic.get("rules", "").split():
        hits = [r for r in rules if r == word or word.endswith("*") and r.startswith(word[:-1])]
        assert hits, (topic.get("name"), word)
        some += hits
    assert some or topic.get("says"), f"{topic.get('name')}: empty"
    assert len(some) == len(set(some)), f"{topic.get('name')}: a rule twice"
    named |= set(some)
assert len(names) == len(set(names)), "a topic twice"
left = [r for r, pack in rules.items() if pack == "common" and r not in named]
assert not left, left
for id in named:
    assert re.search(rf"^    {re.escape(id)}  ", table, re.M), id
for line in table.split("\n"):
    assert len(line) <= 80, line
PY

# A topic that reading a dossier looks at: the message is really given.
python3 - "$SOURCE" >checks <<'PY'
import sys
import xml.etree.ElementTree as tree
for topic in tree.parse(sys.argv[1] + "/rules/topics.xml").getroot().iter("topic"):
    if topic.get("says"):
        print(topic.get("dossier"), topic.get("says"), sep="\t")
PY
[ "$(wc -l <checks)" -ge 9 ]
while IFS="$(printf '\t')" read -r dossier says; do
  "$TANKSIDE" check "$SOURCE/tests/dossiers/$dossier" >said 2>&1 || true
  has said "$says"
done <checks

# What is wrong with the table is said with its line.
mkdir -p data
cp -R "$SOURCE/rules" data/rules
ln -s "$SOURCE/templates" "$SOURCE/shared" data/
export TANKSIDE_DATA="$WORK/data"
wrong() {
  status=0
  "$TANKSIDE" rules topics >out 2>err || status=$?
  [ $status -eq 1 ] || { echo "exit status $status"; cat err; exit 1; }
  has err "$1"
  has out "$2 missing"
}
mend() { cp "$SOURCE/rules/topics.xml" data/rules/topics.xml; }
sed -i 's/rules="body.cold-shock"/rules=""/' data/rules/topics.xml
wrong 'nothing looks at the topic "cold shock"' 2
has err 'rule "body.cold-shock" belongs to no topic'
grep -q 'topics.xml:[0-9][0-9]*: error: nothing' err
mend
sed -i 's/rules="body.eyes"/rules="body.eyes body.eyez"/' data/rules/topics.xml
wrong 'no pack has rule "body.eyez"; the nearest name is "body.eyes"' 1
mend
sed -i 's/<topic name="eyes"/<topic nam="eyes"/' data/rules/topics.xml
wrong 'a topic without a name' 1
mend
sed 's/id = "body.eyes"/id = "body.more-eyes"/' "$SOURCE/rules/common/body-2.lua" >data/rules/common/body-2.lua
wrong 'rule "body.more-eyes" belongs to no topic' 3
unset TANKSIDE_DATA

# The reference page that a reviewer opens holds all of it: topics, rules, sources, controls, facts,
# functions; each link leads somewhere; nothing comes from outside; the same bytes each time.
"$TANKSIDE" vocabulary --as xml -o reference.xml
"$TANKSIDE" vocabulary --as html -o reference.html
"$TANKSIDE" vocabulary --as html | cmp - reference.html
"$TANKSIDE" vocabulary >facts.txt
python3 - table facts.txt <<'PY'
import html, re, sys
import xml.etree.ElementTree as tree
page = open("reference.html", encoding="utf-8").read()
plain = html.unescape(re.sub(r"<[^>]*>", " ", page))
plain = re.sub(r"\s+", " ", plain)
root = tree.parse("reference.xml").getroot()
rules = {r.get("id"): r for r in root.iter("rule") if r.get("id")}
rows = {name: page.find(f'id="rule-{name}"') for name in rules}
assert len(rules) > 200 and min(rows.values()) > 0
assert len(list(root.iter("topic"))) == int(re.search(r"^(\d+) topics", open(sys.argv[1]).read(), re.M)[1])
for topic in root.iter("topic"):
    assert topic.get("name") in plain, topic.get("name")
    for rule in topic.iter("rule"):
        assert rule.get("ref") in rules, rule.get("ref")
sources = 0
topics = plain[plain.index("Topics, rules, sources What"):plain.index("Rules What a rule looks at")]
listed = {r.get("ref") for t in root.iter("topic") for r in t.iter("rule")}
for id in listed:
    for source in rules[id].iter("source"):
        sources += 1
        assert re.sub(r"\s+", " ", source.get("text")) in topics, source.get("text")
assert sources > 300, sources
for kind in "control", "function":
    ids = [e.get("id") or e.get("name") for e in root.iter(kind)]
    for id in filter(None, ids):
        assert f'id="{kind}-{id}"' in page, id
ids = set(re.findall(r'id="([^"]+)"', page))
for link in re.findall(r'href="([^"]*)"', page):
    assert link.startswith("#") and link[1:] in ids, link
assert not re.search(r'(src|href)="?(https?:|//)', page)
text = open(sys.argv[2], encoding="utf-8").read()
facts = sum(len(e.findall("fact")) for e in root.iter("entity"))
assert facts == len(re.findall(r"^    [a-z0-9-]+: ", text, re.M)), facts
for line in text.split("\n"):
    assert len(line) <= 80, line
PY
xmllint --noout reference.xml
