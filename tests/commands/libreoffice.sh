#!/bin/sh
# A workbook edited in LibreOffice comes back with exactly the edited facts changed, saved as .ods, .xlsx
# and .csv; what is written here for spreadsheets opens there as it is.
set -eu
cd "$WORK"
command -v soffice >/dev/null 2>&1 || { echo "LibreOffice is not installed"; exit 77; }
for python in python3 /usr/bin/python3 none; do
  if "$python" -c 'import uno' 2>/dev/null; then break; fi
done
[ "$python" != none ] || { echo "python3-uno is not installed"; exit 77; }

cp "$SOURCE/shared/productions/lake-stunt/dossier.xml" before.xml
"$TANKSIDE" workbook before.xml -o book.ods >/dev/null
"$TANKSIDE" assess before.xml -o assessment.xml >/dev/null || [ $? -eq 1 ]
"$TANKSIDE" print assessment.xml --sheet register --as ods -o register.ods

# A book in which nothing is edited changes nothing.
"$TANKSIDE" import before.xml book.ods --dry-run >said
grep -qx '0 facts changed, 0 subjects added' said

# Both files open without repair, every cell a text or number as it is written, none a formula.
mkdir edited
"$python" "$SOURCE/tests/spreadsheet/office.py" book.ods edited register.ods

# The three forms, each into a dossier of its own.
for form in ods xlsx csv; do
  mkdir $form
  cp before.xml $form/dossier.xml
done
"$TANKSIDE" import ods/dossier.xml edited/edited.ods >said 2>err
"$TANKSIDE" import xlsx/dossier.xml edited/edited.xlsx >said.xlsx 2>>err
# A CSV is called like its sheet.
mkdir sheets
for file in edited/edited-*.csv; do mv "$file" "sheets/${file#edited/edited-}"; done
"$TANKSIDE" import csv/dossier.xml sheets/*.csv >said.csv 2>>err
grep -q '^12 facts changed, 2 subjects added$' said

python3 - <<'PY'
import xml.etree.ElementTree as ElementTree

EXPECTED = {
    ("person hal", "swim-distance"): ("1300 ft", "1250 ft"),
    ("person hal", "swim-tested-on"): ("2027-09-12", "2027-10-02"),
    ("water", "visibility"): ("12..16 ft", "10..14 ft"),
    ("person june", "exhale-drill"): ("passed", "failed"),
    ("day 2027-10-11", "call"): ("06:30", "06:45"),
    ("immersion june in fall", "takes"): ("3", "4"),
    ("water", "alkalinity"): ("60 mg/L", "62.5 mg/L"),
    ("air", "humidity"): ("55..85 %", "60 %"),
    ("production", "near-miss-reporting"): ("no", "yes"),
    ("immersion hal in dusk", "congested"): ("?", "no"),
    ("person hal", "fear-of-enclosure"): ("mild", "marked"),
    ("task fall", "title"): ("June goes backwards off the jetty tower into the lake",
                             "June goes backwards & <falls> into the lake"),
}
NEW = {
    "record ray 13:05": dict(person="ray", down="13:05", up="13:14", depth="10.5 ft", gas="nitrox",
                             takes="2", incident="none"),
    "person lou": dict(id="lou", name="Lou =Marsh <3", role="crew"),
    "evidence hal/swim-distance": {"for": "hal/swim-distance", "kind": "measured", "by": "O. Grange",
                                   "on": "2027-10-02", "ref": "log 4"},
}


def name(element, task):
    a = element.attrib
    if element.tag in ("immersion", "post"):
        return f"{element.tag} {a['person']} in {task}" + (a["role"] if element.tag == "post" else "")
    if element.tag == "record":
        return f"record {a['person']} {a['down']}"
    if element.tag in ("evidence", "control", "waiver"):
        return f"{element.tag} {a.get('for') or a.get('ref') or a.get('rule')}"
    key = a.get("id") or a.get("date")
    return element.tag + (f" {key}" if key else "")


def facts(path):
    """Every element's attributes, by a name that tells it apart; more than one by their number."""
    found = {}
    def walk(element, task):
        task = element.get("id") if element.tag == "task" else task
        key = name(element, task)
        while key in found: key += "+"
        found[key] = dict(element.attrib)
        for child in element: walk(child, task)
    walk(ElementTree.parse(path).getroot(), "")
    return found


before = facts("before.xml")
for form in ("ods", "xlsx", "csv"):
    after = facts(f"{form}/dossier.xml")
    added = {k: v for k, v in after.items() if k not in before}
    changed = {(k, f): (before[k].get(f), after[k].get(f)) for k in before for f in set(before[k]) | set(after[k])
               if before[k].get(f) != after[k].get(f)}
    if form == "csv":  # as it is shown in the cell: the same value
        old, shown = changed.pop(("air", "humidity"))
        assert old == "55..85 %" and float(shown.rstrip("% ")) == 60, shown
        changed["air", "humidity"] = ("55..85 %", "60 %")
    assert changed == EXPECTED, (form, set(changed.items()) ^ set(EXPECTED.items()))
    assert added == NEW, (form, added)
PY

# Taken in once more, from any form, nothing is new.
for form in ods xlsx csv; do
  "$TANKSIDE" import $form/dossier.xml edited/edited.ods edited/edited.xlsx --dry-run >said 2>>err
  grep -qx '0 facts changed, 0 subjects added' said
  "$TANKSIDE" check $form/dossier.xml >/dev/null 2>>err
done
if grep -q 'error:' err; then cat err; exit 1; fi
cmp ods/dossier.xml xlsx/dossier.xml
