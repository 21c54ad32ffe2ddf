"""Does <charts> follow from the rest of an assessment? Worked out again from its texts.

charts.py ASSESSMENT...   each problem on a line; status 1 if there is one
"""
import math
import re
import sys
import xml.etree.ElementTree as ET

SECONDS = {"s": 1, "min": 60, "h": 3600}
problems = []


def expect(what, found, wanted, near=1.01):
    if abs(found - wanted) > near:
        problems.append(f"{what}: {found}, worked out {wanted:.2f}")


def seconds(text):
    """'1 h 20 min' or '2..5 s' or '75 s .. 2 min 1 s' as (lowest, highest)."""
    ends = re.split(r"\s*\.\.\s*", text)
    if len(ends) == 2 and not re.search("[a-z]", ends[0]):
        ends[0] += " " + ends[1].split()[-1]
    both = []
    for end in ends:
        parts = re.findall(r"([\d.]+) (h|min|s)\b", end)
        if not parts:
            return None
        both.append(sum(float(n) * SECONDS[u] for n, u in parts))
    return both[0], both[-1]


def cells(root):
    """The worst hazard of every task, as scored, and which of those in its cell a task is."""
    rank = {b.get("id"): int(b.get("rank")) for b in root.find("matrix").findall("band")}
    tasks = [t.get("path") for t in root.findall("schedule/day/task")]
    for view in ("described", "in-place", "planned"):
        worst = {}
        for f in root.findall("findings/finding[@word='hazard'][@task]"):
            for s in f.findall(f"score[@as='{view}'][@worst]"):
                key = (rank[s.get("worst-band")], int(s.get("worst")))
                if key > worst.get(f.get("task"), ((0, 0),))[0]:
                    worst[f.get("task")] = (key, s.get("worst-likelihood"), s.get("worst-severity"))
        places = root.findall(f"charts/place[@as='{view}']")
        if [p.get("task") for p in places] != [t for t in tasks if t in worst]:
            problems.append(f"places as {view} are not those of all tasks with a hazard")
        seen = []
        for p in places:
            score = (rank_of(root, p), int(p.get("likelihood")) * int(p.get("severity")))
            if score != worst[p.get("task")][0]:
                problems.append(f"{p.get('task')} as {view} stands at {score}")
            cell = (p.get("likelihood"), p.get("severity"))
            expect(f"{p.get('task')} at", int(p.get("at")), seen.count(cell), 0)
            seen.append(cell)
        for p in places:
            expect(f"{p.get('task')} of", int(p.get("of")), seen.count((p.get("likelihood"), p.get("severity"))), 0)


def rank_of(root, place):
    cell = root.find(f"matrix/cell[@likelihood='{place.get('likelihood')}'][@severity='{place.get('severity')}']")
    return int(root.find(f"matrix/band[@id='{cell.get('band')}']").get("rank"))


def gaps(root):
    """Times out of the water, from the log."""
    wanted = set()
    for day in root.findall("schedule/day"):
        for person in {r.get("person") for r in day.findall("record[@up-min]")}:
            spells = sorted((float(r.get("down-min")), float(r.get("up-min")))
                            for r in day.findall(f"record[@person='{person}'][@up-min]"))
            for (_, up), (down, _) in zip(spells, spells[1:]):
                if down > up:
                    wanted.add((day.get("path"), person, up, down))
    found = {(g.get("day"), g.get("person"), float(g.get("from-min")), float(g.get("to-min")))
             for g in root.findall("charts/gap[@recorded='yes']")}
    for gap in wanted ^ found:
        problems.append(f"surface interval {gap} is {'missing' if gap in wanted else 'not in the log'}")
    for g in root.findall("charts/gap"):
        long = (float(g.get("to-min")) - float(g.get("from-min"))) * 60
        expect(f"interval of {g.get('person')}", seconds(g.get("text"))[0], long, 60)


def finding(root, mark):
    for f in root.findall("findings/finding") + root.findall("duties/duty"):
        if f.get("id") == mark.get("finding"):
            return f
    problems.append(f"{mark.tag} names {mark.get('finding')}, which is not there")
    return None


def ceilings(root):
    """How far a total goes towards its ceiling, by their texts."""
    for c in root.findall("charts/ceiling"):
        f = finding(root, c)
        texts = [seconds(f.find(f"value[@name='{c.get(n)}']").get("text")) for n in ("total", "ceiling")]
        if None in texts or int(c.get("hi")) == 1000:
            continue
        (lo, hi), (most, _) = texts
        for end, value in (("lo", lo), ("hi", hi)):
            expect(f"{f.get('id')} {end}", int(c.get(end)), int(c.get("at")) * value / most, 6)


def bars(root):
    """Whether the number stands on the side of the edge that its margin says."""
    for b in root.findall("charts/bar"):
        f = finding(root, b)
        m = f.findall("margin")[int(b.get("margin")) - 1]
        lo, hi, edge = (int(b.get(n)) for n in ("lo", "hi", "edge"))
        fits = {"up": hi <= edge, "down": lo >= edge, "inside": lo <= edge <= hi}[m.get("side")]
        if not fits:
            problems.append(f"{f.get('id')}: {lo}..{hi} against {edge} with the edge {m.get('side')}")
        worse = "up" if (m.get("side") == "up") == (m.get("gets") == "worse") else "down"
        if m.get("side") != "inside" and b.get("worse") != worse:
            problems.append(f"{f.get('id')}: worse is {b.get('worse')}, by its margin {worse}")


def curves(root):
    """Carbon dioxide by the well-mixed balance, from what the working names."""
    number = r"(\d+(?:\.\d+)?)(?:\.\.(\d+(?:\.\d+)?))?"
    pattern = rf"carbon dioxide after\({number} m³, {number}, {number} L/min, {number} L/min, {number}, {number} min, {number}\)"
    for c in root.findall("charts/curve"):
        f = finding(root, c)
        found = re.search(pattern, f.find(f"value[@name='{c.get('value')}']").get("working"))
        if not found:
            continue
        lowest = [float(found[i]) for i in range(1, 15, 2)]
        volume, people, each, flow, supply, stay, start = lowest
        tick = c.findall("tick[@axis='upward']")[-1]
        scale = int(tick.get("at")) / float(tick.get("text").split()[0])
        for p in c.findall("point"):
            t = int(p.get("at")) / 1000 * stay
            k = flow * t / volume / 1000
            grown = people * each / flow * (1 - math.exp(-k))
            percent = 100 * (supply + (start - supply) * math.exp(-k) + grown)
            expect(f"{f.get('id')} after {t:.1f} min", int(p.get("lo")), percent * scale, 3)


def time_lines(root):
    """Each step of a rescue: the times on the way to it added up, and where it stands on its axis."""
    for line in root.findall("rescue"):
        steps = {s.get("id"): s for s in line.findall("step")}
        for stretch in line.findall("stretch"):
            tick = stretch.findall("tick")[-1]
            scale = int(tick.get("at")) / seconds(tick.get("text"))[0]
            for m in stretch.findall("reached"):
                way, at = [], m.get("step")
                while at != "trouble":
                    way.append(None if steps[at].get("takes") == "not known" else seconds(steps[at].get("takes")))
                    at = steps[at].get("after")
                if (None in way) != ("least" in m.attrib):
                    problems.append(f"{m.get('step')}: {m.attrib}, times {way}")
                if None in way:
                    expect(f"{m.get('step')} end", int(m.get("hi")), 1000, 0)
                    continue
                for end, name in enumerate(("lo", "hi")):
                    expect(f"{m.get('step')} {name}", int(m.get(name)), scale * sum(w[end] for w in way), 3)


for name in sys.argv[1:]:
    tree = ET.parse(name).getroot()
    for check in (cells, gaps, ceilings, bars, curves, time_lines):
        check(tree)
    for kind in ("place", "gap", "ceiling", "bar", "curve", "stretch"):
        print(f"{len(tree.findall('charts/' + kind) + tree.findall('rescue/' + kind))} {kind}", end=", ")
    print(name)
print(*problems, sep="\n")
sys.exit(bool(problems))
