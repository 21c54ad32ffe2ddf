#!/bin/sh
# `tankside day`: totals against sums made here from the dossier's XML, times without stops against
# examples worked by hand, and everything in a log that the plan does not have.
set -eu
cd "$WORK"
export PYTHONDONTWRITEBYTECODE=1
exec python3 - "$TANKSIDE" "$SOURCE" <<'PY'
import csv, datetime, io, os, re, shutil, subprocess, sys
import xml.etree.ElementTree as ET

program, source = sys.argv[1:]
SHORT = os.environ.get("TANKSIDE_TEST_SHORT")

def day(dossier, *options, status=None):
    run = subprocess.run([program, "day", dossier, *options], capture_output=True, text=True)
    assert status is None or run.returncode == status, (run.returncode, options, run.stdout, run.stderr)
    return run.stdout, run.stderr

def rows(dossier, *options):
    return list(csv.DictReader(io.StringIO(day(dossier, "--as", "csv", *options)[0], newline="")))

def has(text, *marks):
    for mark in marks:
        assert mark in text, f"{mark!r} is not in:\n{text}"

def narrow(text):
    wide = [line for line in text.splitlines() if len(line) > 80]
    assert not wide, wide

# ---- totals: an independent sum --------------------------------------------------------------------

def minutes(text):
    """The end of a time at which it counts at worst: "24 min", "20..30 min", "1.2 h"."""
    value, unit = re.fullmatch(r"(?:[\d.]+\.\.)?([\d.]+) (min|h)", text).groups()
    return float(value) * (60 if unit == "h" else 1)

def clock(text):
    h, m = text.split(":")
    return 60 * int(h) + int(m)

def elements(folder):
    """All <day> and <person> of a dossier and what it includes."""
    todo, days, people = ["dossier.xml"], [], {}
    while todo:
        root = ET.parse(os.path.join(folder, todo.pop())).getroot()
        todo += [one.get("href") for one in root.iter("include")]
        days += root.iter("day")
        people.update((one.get("id"), one) for one in root.iter("person"))
    return days, people

def sums(days):
    """Minutes planned and recorded by person and date."""
    planned, recorded = {}, {}
    for one in days:
        date = datetime.date.fromisoformat(one.get("date"))
        for immersion in one.iter("immersion"):
            key = immersion.get("person"), date
            planned[key] = planned.get(key, 0) + minutes(immersion.get("time"))
        for record in one.iter("record"):
            key = record.get("person"), date
            length = clock(record.get("up")) - clock(record.get("down"))
            recorded[key] = recorded.get(key, 0) + length
    return planned, recorded

def ceiling(person, date):
    """Common practice, as the rule on tired people cites it: 3 h a day, half of it under 18."""
    born = datetime.date.fromisoformat(person.get("born"))
    age = date.year - born.year - ((date.month, date.day) < (born.month, born.day))
    return 90 if age < 18 else 180

def holds_with(folder):
    days, people = elements(folder)
    planned, recorded = sums(days)
    together = {key: max(planned.get(key, 0), recorded.get(key, 0)) for key in {*planned, *recorded}}
    seen = 0
    for date in sorted({key[1] for key in together}):
        for row in rows(folder + "/dossier.xml", "--on", str(date)):
            if not row["limit"].startswith("Tired under water"):
                continue
            key, week = (row["person"], date), row["limit"].endswith("in 7 days")
            most = ceiling(people[key[0]], date) * (5 if week else 1)
            before = sum(time for (who, on), time in together.items()
                         if who == key[0] and 0 < (date - on).days < 7) if week else 0
            expected = [before + recorded.get(key, 0), before + together[key], most,
                        max(0, most - before - together[key]), max(0, before + together[key] - most)]
            found = [float(row[name]) for name in ("so far", "with plan", "at most", "left", "over")]
            assert found == expected, (key, week, found, expected)
            seen += 1
    return seen, 2 * sum(time > 0 for time in together.values())

serial = source + "/shared/productions/tank-serial"
seen, expected = holds_with(serial)
assert seen == expected > 10, (seen, expected)
dossier = serial + "/dossier.xml"
text, _ = day(dossier, status=0)
narrow(text)
has(text, "Wednesday 10 March 2027: 5 entries in the log, 3 people", "log            10:10-10:33")

# A child's hours are limits of the law, and are shown against it.
child = [row for row in rows(dossier, "--on", "2027-03-09") if row["person"] == "ines"]
at_place = next(row for row in child if row["limit"] == "Time at the place of performance")
assert (at_place["with plan"], at_place["at most"], at_place["so far"]) == ("390", "570", ""), at_place

# ---- what the log has and the plan has not ------------------------------------------------------------

shutil.copytree(serial, "serial")
with open("serial/day-3.xml") as f:
    plain = f.read()

def changed(old, new, status, totals=0):
    """What is said of day 3 with one text in place of another; Ada's later total follows."""
    assert old in plain, old
    text = plain.replace(old, new, 1)
    if totals:
        text = text.replace('day-total-stated="40 min"', f'day-total-stated="{40 + totals} min"', 1)
    with open("serial/day-3.xml", "w") as f:
        f.write(text)
    said, err = day("serial/dossier.xml", status=status)
    narrow(said)
    return said, err

ADA = '<record person="ada" down="10:10" up="10:33" depth="2.6 m" gas="air" takes="3" incident="none"\n' \
      '            day-total-stated="23 min"/>'
NOBODY = '\n    <record person="tove" down="10:00" up="10:05" depth="1 m" gas="none" takes="0" ' \
         'incident="none" day-total-stated="5 min"/>'
def ada(**facts):
    known = {"down": "10:10", "up": "10:33", "depth": "2.6 m", "gas": "air", "takes": "3", "incident": "none"}
    known.update({name.replace("_", "-"): value for name, value in facts.items()})
    return '<record person="ada" ' + " ".join(f'{name}="{value}"' for name, value in known.items()) + "/>"

for facts, expected in ([
    ({"depth": "2.9 m"}, "The log goes beyond the plan, depth: the log has 2.9 m, the plan 2.6 m"),
    ({"up": "10:45"}, "The log goes beyond the plan, time: the log has 52 min, the plan 40 min"),
    ({"takes": "9"}, "The log goes beyond the plan, takes: the log has 11, the plan 5"),
    ({"gas": "nitrox"}, "Another gas was breathed than planned: the log has nitrox, which is not planned"),
    ({"incident": "light-headed"}, "An incident in the log: the log has: light-headed"),
])[:1 if SHORT else None]:
    length = clock(facts.get("up", "10:33")) - clock("10:10")
    said, _ = changed(ADA, ada(**facts, day_total_stated=f"{length} min"), 1, totals=length - 23)
    has(" ".join(said.split()), expected)

# Somebody in the water whom nobody planned; and one who is still in it counts at worst.
said, _ = changed(ADA, ADA + NOBODY, 1)
has(said, "In the log, but in no plan", "plan  in no immersion that day")
said, _ = changed('down="11:02" up="11:19"', 'down="11:02" up="?"', 1)
has(said, "11:02-?", "open", "over by", "none")

# What cannot be is an error of the dossier, and nothing is worked out from it.
for facts, expected in ([
    ({"up": "10:05"}, "up before it is down"),
    ({"up": "11:10"}, "in two places at once"),
    ({"day_total_stated": "93 min"}, "its entries add up to 23 min"),
])[:1 if SHORT else None]:
    said, err = changed(ADA, ada(**facts), 2)
    assert said == "", said
    has(err, expected, "day-3.xml:")

# ---- time without stops: worked by hand in Tables 9-7 and 9-8 ---------------------------------------------

DIVES = """<?xml version="1.0" encoding="UTF-8"?>
<dossier format="1" units="us">
  <production title="Stop watch" jurisdiction="us" revision="1" on="2027-05-03" by="N. Example"/>
  <site id="lake" indoor="no" water-body="lake" altitude="{altitude} ft"><basin depth="100 ft"/></site>
  <person id="ray" name="Ray" role="performer" born="1990-01-01"/>
  {evening}
  <day date="2027-05-10" site="lake">
    <task id="a" title="First" start="09:00" finish="10:30">
      <immersion person="ray" wears="none" depth="{first} ft" time="30 min" breathes-gas="yes"/></task>
    <task id="b" title="Second" start="11:30" finish="12:00">
      <immersion person="ray" wears="none" depth="50 ft" time="20 min" breathes-gas="yes"/></task>
    <task id="c" title="Third" start="13:50" finish="15:00">
      <immersion person="ray" wears="none" depth="40 ft" time="30 min" breathes-gas="yes"/></task>
    {records}
  </day>
</dossier>
"""
def dives(*records, first=60, altitude=0, evening=""):
    lines = "".join(f'<record person="ray" down="{down}" up="{up}" depth="{depth} ft" gas="{gas}" takes="1" '
                    'incident="none"/>' for down, up, depth, gas in records)
    with open("dives.xml", "w") as f:
        f.write(DIVES.format(records=lines, first=first, altitude=altitude, evening=evening))
    return {row["limit"]: row["left"] for row in rows("dives.xml", "--on", "2027-05-10")
            if row["limit"].startswith("without stops")}

def left(*records, **facts):
    return {name[len("without stops: "):]: minutes for name, minutes in dives(*records, **facts).items()}

# No dive: 63 min at 60 ft. One to 60 ft for 30 min is F. An hour later E, 35 min at 50 ft: 92 - 35. After
# 3 h 20 min C, 29 min at 40 ft: 163 - 29.
assert left()["a at 60 ft, from 09:00"] == "63"
assert left(("10:00", "10:30", 60, "air")) == {"b at 50 ft, from 11:30": "57", "c at 40 ft, from 13:50": "134"}
# 20 min at 50 ft then count as 55, H. Two hours later F, 55 min at 40 ft: 163 - 55. Again at once: H, 57 min
# at 50 ft: 92 - 57.
assert left(("10:00", "10:30", 60, "air"), ("11:30", "11:50", 50, "nitrox")) == {
    "b at 50 ft, from 11:50": "35", "c at 40 ft, from 13:50": "108"}
# Eight minutes at the surface make one dive of two, here past the limit; the order written does not matter.
assert set(left(("10:28", "10:48", 70, "air"), ("10:00", "10:20", 80, "air")).values()) == {"0"}
# On no gas nothing is taken up; a dive that is not over leaves nothing.
assert left(("10:00", "10:30", 60, "none"))["b at 50 ft, from 11:30"] == "92"
assert set(left(("10:00", "?", 60, "air")).values()) == {"0"}
# What of the plan is still to come is more than what is left: 30 min at 40 ft after three hours of it, which
# is past the limit of the table.
dives(("10:00", "13:00", 40, "air"))
said, _ = day("dives.xml", "--on", "2027-05-10", status=1)
has(said, "past the limit after 13:00", "c at 40 ft, from 13:50: 30 min to come", "over by 30 min")
# At a height a dive counts as deeper: 48 ft at 6000 ft as one to 60 ft.
assert left(altitude=6000, first=48)["a at 48 ft, from 09:00"] == "63"
# An hour at 60 ft until midnight is K; nine hours later B, 17 min at 50 ft: 92 - 17.
EVENING = '<day date="2027-05-09" site="lake"><record person="ray" down="23:00" up="24:00" depth="60 ft" ' \
          'gas="air" takes="1" incident="none"/></day>'
assert left(first=50, evening=EVENING)["a at 50 ft, from 09:00"] == "75"

# ---- what overran is not made up for by what is still to come ------------------------------------------------

# Planned 30, 20 and 30 min; the first took 45: 45 + 20 + 30, though the plan comes to 80 and the log to 45.
# An entry at a time when nothing was planned comes on top of the first.
LATEST = clock("47:59") - clock("09:00")  # the latest time there is
for records, so_far, with_plan in (
        ((("09:00", "09:45", 60, "air"),), "45", "95"),
        ((("09:00", "09:25", 60, "air"),), "25", "80"),
        ((("09:00", "09:25", 60, "air"), ("17:00", "17:15", 10, "air")), "40", "90"),
        ((("09:00", "?", 60, "air"),), str(LATEST), str(LATEST + 50))):
    dives(*records)
    row = next(row for row in rows("dives.xml", "--on", "2027-05-10") if row["limit"] == "Tired under water")
    assert (row["so far"], row["with plan"]) == (so_far, with_plan), (records, row)

# ---- which day, and in which form ---------------------------------------------------------------------------

_, err = day(dossier, "--on", "2027-04-01", status=2)
has(err, "the dossier has no day 2027-04-01; it has one on 2027-03-10")
_, err = day(dossier, "--on", "tomorrow", status=2)
has(err, '"tomorrow" is no date')
_, err = day(dossier, "--as", "cvs", status=2)
has(err, '"csv"')
PY
