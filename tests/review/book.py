"""A book of assessments, counted here a second time: from the assessments themselves, with another
XML reader and plain arithmetic, against what `tankside review` put into its database and on paper.

Besides the figures: nothing confidential is anywhere in it, no minor is named, no row refers to
nothing, and every column the manual names is there.
"""
import pathlib
import re
import sqlite3
import sys
import xml.etree.ElementTree as ET

DATABASE, ON, PAPERS = sys.argv[1], sys.argv[2], sys.argv[3].split(",")
db = sqlite3.connect(DATABASE)
db.row_factory = sqlite3.Row
MINUTES = {"h": 60, "min": 1, "s": 1 / 60}
METRES = {"m": 1, "ft": 0.3048, "cm": 0.01, "in": 0.0254}


def quantity(text, units):
    """ "1 h 20 min", "25..40 min", "7..9 ft", "50 s .. 2 min": its ends; None for anything else."""
    ends = re.split(r" \.\. ", text)
    short = re.fullmatch(r"([\d.]+?)\.\.([\d.]+) (\w+)", text)
    if short:
        ends = [f"{short[1]} {short[3]}", f"{short[2]} {short[3]}"]
    read = []
    for end in ends:
        parts = re.findall(r"([\d.]+) (\w+)", end)
        if not parts or any(unit not in units for _, unit in parts):
            return None
        read.append(sum(float(n) * units[unit] for n, unit in parts))
    return read[0], read[-1]


def exposure(root):
    """Of all immersions: minutes under water and wet, the greatest depth."""
    under, wet, depth = [], [], []
    for subject in root.findall("subjects/subject[@entity='immersion']"):
        facts = {f.get("name"): f.get("text") for f in subject.findall("fact") if f.get("state") != "unknown"}
        under.append(quantity(facts.get("time", ""), MINUTES))
        wet.append(quantity(facts.get("wet-time", ""), MINUTES))
        depth.append(quantity(facts.get("depth", ""), METRES))
    return under, wet, depth


def above(root):
    bands = {b.get("id") for b in root.findall("matrix/band[@above='yes']")}
    count = 0
    for finding in root.findall("findings/finding"):
        score = finding.find("score[@as='in-place']")
        hazard = finding.get("word") == "hazard" and score.get("worst-band") in bands and not finding.get("waived-by")
        count += hazard or (finding.get("word") == "stop" and score.get("state") != "gone")
    return count


def lapsed(root):
    days = [f.get("text") for f in root.findall("subjects/subject/fact")
            if (f.get("name").endswith("-until") or f.get("name") == "review-by") and f.get("state") != "unknown"]
    days += [w.get("until") for w in root.findall("waivers/waiver")]
    return sum(day < ON for day in days)


def near(a, b):
    return abs(a - b) <= 0.051


def total(ranges, end):
    return sum(r[end] for r in ranges if r)


def check_figures(row, root):
    under, wet, depth = exposure(root)
    ages = [p.get("under-18") for p in root.findall("people/person")]
    states = [d.get("state-in-place") for d in root.findall("duties/duty")]
    assert row["immersions"] == len(under), row["file"]
    for name, ranges in (("under", under), ("wet", wet)):
        assert near(row[name + "_low"], total(ranges, 0)) and near(row[name + "_high"], total(ranges, 1)), (row["file"], name)
        assert row[name + "_unknown"] == ranges.count(None)
    assert near(row["deepest"], max(r[1] for r in depth if r)), row["file"]
    assert (row["minors"], row["ages_unknown"]) == (ages.count("yes"), ages.count("unknown")), row["file"]
    assert (row["duties_not_met"], row["duties_open"]) == (states.count("not-met"), states.count("open")), row["file"]
    assert row["lapsed"] == lapsed(root), (row["file"], row["lapsed"], lapsed(root))
    assert (row["days"], row["tasks"]) == (len(root.findall("schedule/day")), len(root.findall("schedule/day/task")))
    found = db.execute("SELECT count(*) FROM above WHERE assessment = ?", (row["id"],)).fetchone()[0]
    assert found == above(root) == row["above"] + row["stops"], (row["file"], found, above(root))
    for table, path in (("findings", "findings/finding"), ("duties", "duties/duty"), ("questions", "open-facts/fact"),
                        ("evidence", ".//evidence"), ("rule_files", "inputs/rules"), ("waivers", "waivers/waiver")):
        rows = db.execute(f"SELECT count(*) FROM {table} WHERE assessment = ?", (row["id"],)).fetchone()[0]
        assert rows == len(root.findall(path)), (row["file"], table, rows)


def secrets(root):
    """What must stand nowhere: what discreet rules say, confidential values, and who is a minor."""
    discreet = root.findall(".//*[@discreet='yes']")
    open_rules = {f.get("rule") for f in root.findall(".//*[@rule]") if f.get("discreet") != "yes"}
    open_titles = {f.get("title") for f in root.iter() if f.get("discreet") != "yes"}
    yield from (d.get("rule") for d in discreet if d.get("rule") not in open_rules)
    yield from (d.get("title") for d in discreet if d.get("title") not in open_titles)
    for fact in root.findall("subjects/subject/fact[@sees='confidential']"):
        if len(fact.get("text")) > 9 and fact.get("text") != "not known":
            yield fact.get("text")
    for person in root.findall("people/person"):
        yield person.get("label")
        if len(person.get("path")) > 5:
            yield person.get("path")


def every_value():
    """Every text in the database, with where it is; whoever signed, wrote or waived is named there, and
    titles of tasks are on every paper."""
    for (table,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall():
        for row in db.execute(f"SELECT * FROM {table}"):
            for name in row.keys():
                if name not in ("who", "by_whom") and (table, name) != ("tasks", "title"):
                    yield f"{table}.{name}", str(row[name])


def main():
    assert db.execute("PRAGMA foreign_key_check").fetchall() == []
    assert db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
    rows = db.execute("SELECT * FROM register ORDER BY id").fetchall()
    assert [r["file"] for r in rows] == sorted(r["file"] for r in rows) and len(rows) > 3
    values = list(every_value())
    papers = [(p, pathlib.Path(p).read_text(encoding="utf-8")) for p in PAPERS]
    count = 0
    for row in rows:
        root = ET.parse(row["file"]).getroot()
        check_figures(row, root)
        for secret in set(secrets(root)):
            count += 1
            for where, text in values + papers:
                author = secret in (row["by_whom"] or "")
                assert author or secret not in text, (row["file"], secret, where)
    assert count > 40, count
    for (view,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'view'").fetchall():
        db.execute(f"SELECT * FROM {view}").fetchall()
    for query in re.findall(r"^--   (SELECT .*?;)", pathlib.Path(sys.argv[4]).read_text().replace("\n--     ", " "), re.M):
        db.execute(query).fetchall()
    print(f"{len(rows)} assessments counted again, {count} secrets looked for")


main()
