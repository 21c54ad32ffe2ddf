#!/bin/sh
# What rests on something personal is told in full to those who may see it; the sheet of a task, even
# with one person in it, says only that something is there.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1"; exit 1; }; }
lake=$SOURCE/shared/productions/lake-stunt/dossier.xml

# One person goes in in each of these tasks.
"$TANKSIDE" assess "$lake" --no-pdf -o told --set june/fear-of-water=marked --set ray/pregnant=yes \
  --set fall/june/alcohol-12-h=yes >out 2>&1 || [ $? = 1 ]
has told/assessment.html 'a fear is declared'
has told/assessment.html 'pregnant, or may be'
has told/assessment.html 'alcohol, drugs or little sleep'
[ "$(grep -c 'rule="people\.fear".* task="fall".* discreet="yes"' told/assessment.xml)" = 1 ]

python3 - told <<'PY'
import re, sys
from xml.etree import ElementTree

def sheet(task):
    html = open(f"{sys.argv[1]}/task-{task}.html", encoding="utf-8").read()
    text = re.sub(r"<style.*?</style>|<[^>]+>", " ", html, flags=re.S)
    return html, re.sub(r"\s+", " ", text).lower()

for task, rule in (("fall", "people.alcohol"), ("cab", "people.condition")):
    html, words = sheet(task)
    # Neither title, words nor controls ("Fear met in small steps, alone").
    for hidden in ("fear", "pregnan", "alcohol", "drugs", "diving doctor", "fit to be in the water"):
        assert hidden not in words, (task, hidden)
    assert "withheld: ask the safety officer" in words, task
    # It still stops the task.
    box = html[html.index('class="stop-box"'):]
    assert "Withheld" in box[:box.index("</section>")], task
    root = ElementTree.parse(f"{sys.argv[1]}/assessment.xml").getroot()
    stops = root.findall(f"findings/finding[@task='{task}'][@word='stop'][@discreet='yes']")
    assert rule in {f.get("rule") for f in stops}, (task, rule)
PY

# No other paper tells of it either, not even by the values given for this run.
for paper in told/*.html told/register.csv; do
  case $paper in */assessment.html) continue ;; esac
  if grep -oiE '.{0,40}(a fear is declared|fear-of-water|or may be, and breathes|alcohol-12-h|not fit to be in).{0,40}' \
    "$paper"; then
    echo "in $paper"; exit 1
  fi
done

# Nor does a book of assessments; there stands what the list of words has for it.
"$TANKSIDE" review told --as sqlite -o told.db >out
python3 - "$SOURCE/templates/words-en-GB.xml" <<'PY'
import sqlite3, sys
from xml.etree import ElementTree

[word] = [w.text for w in ElementTree.parse(sys.argv[1]).iter("word") if w.get("id") == "withheld-title"]
titles = sqlite3.connect("told.db").execute("select distinct title from findings where discreet = 'yes'").fetchall()
assert titles == [(word,)], titles
PY

# `discreet` is true or false, and said of what is said.
mkdir own
cat >own/own.lua <<'LUA'
rule {
  id = "own.word", title = "A word that is no word", each = "immersion", harm = "performer",
  sources = { "common practice" },
  assess = function (i)
    note { because = "so", discreet = "yes" }
  end,
  examples = { { "always", given = {}, expect = note {} } },
}
LUA
if "$TANKSIDE" rules check --pack own >out 2>err; then exit 1; fi
has err 'note: "discreet" must be true or false'
