#!/usr/bin/env python3
"""Compares worst and best scores with what a solver finds for the same facts.

    check.py write RULES     for each rule a folder: dossier.xml, and of RULES only that rule
    check.py compare         compares their assessment.xml; exit 1 on a difference

Both work in the folder they are started in, with its vocabulary.txt.

The program walks its rules course by course over ranges; here each rule is one set of
constraints (rules.py) and the solver is asked for the greatest and the least score.
"""
import pathlib
import re
import sys
import xml.etree.ElementTree as xml

import z3

from dossier import build
from facts import DAY, days, read_range, read_vocabulary
from rules import RULES

# The default matrix, shared/matrices/five-by-five.xml: the band of likelihood (down) and
# severity (across). A score's place: its band, then the product, then severity.
BANDS = ["LLLMM", "LMMHH", "LMHHV", "MHHVV", "MHVVV"]
SCORES = sorted(((l, s) for l in range(1, 6) for s in range(1, 6)),
                key=lambda at: ("LMHV".index(BANDS[at[0] - 1][at[1] - 1]), at[0] * at[1], at[1]))


class View:
    """What a rule may ask about one box; each fact is a variable within its bounds."""

    day = days(str(DAY))[0]

    def __init__(self, box, vocabulary):
        self.elements, self.vocabulary = box.elements, vocabulary
        self.variables, self.bounds, self.reads, self.said = {}, [], [], []
        self.child = any(p.get("born") == "2015-06-30" for p in box.elements.get("person", []))

    def each(self, entity):
        """The same box, seen from each of these elements."""
        for element in self.elements[entity]:
            part = object.__new__(View)
            part.__dict__.update(self.__dict__, elements=dict(self.elements, **{entity: [element]}),
                                 title=element.get("title"))
            yield part

    def find(self, name, only, make):
        entity, fact = name.split(".")
        element = self.elements[entity][0]
        text = element.get(fact, "?")
        if text == "?":
            self.reads.append(z3.BoolVal(True) if only is None else only)
        key = id(element), fact
        if key not in self.variables:
            self.variables[key] = make(f"{name}-{len(self.variables)}", text, self.vocabulary[entity, fact])
        return self.variables[key]

    def number(self, name, only=None):
        def make(label, text, kind):
            low, high = kind[1:3] if text == "?" else read_range(text)
            if low == high and not kind[3]:
                return z3.RealVal(low)
            variable = z3.Int(label) if kind[3] else z3.Real(label)
            self.bounds.extend([variable >= z3.RealVal(low), variable <= z3.RealVal(high)])
            return variable
        return self.find(name, only, make)

    def sum(self, entity, *facts):
        return sum(self.number(f"{entity}.{fact}") for fact in facts)

    def yes(self, name, only=None):
        return self.find(name, only, lambda label, text, kind:
                         z3.Bool(label) if text == "?" else z3.BoolVal(text == "yes"))

    def word(self, name, *words):
        def make(label, text, kind):
            variable = z3.Int(label)
            allowed = kind[1] if text == "?" else text.split("|")
            self.bounds.append(z3.Or([variable == kind[1].index(word) for word in allowed]))
            return variable
        variable = self.find(name, None, make)
        known = self.vocabulary[tuple(name.split("."))][1]
        return z3.Or([variable == known.index(word) for word in words])

    def stop(self, when):
        self.said.append(("stop", "", when, None, None, None))

    def hazard(self, when, likelihood, severity, about=""):
        assumed = z3.Or(self.reads) if self.reads else z3.BoolVal(False)
        self.said.append(("hazard", about, when, likelihood, severity, assumed))


# ---- the solver's answer -----------------------------------------------------------------

def possible(solver, *what):
    answer = solver.check(*what)
    if answer == z3.unknown:
        raise RuntimeError(f"the solver gives up: {solver.reason_unknown()}")
    return answer == z3.sat


def extreme(solver, likelihood, severity, order):
    """The first score of this order that some values give, found by climbing towards it."""
    at = lambda score: z3.And(likelihood == score[0], severity == score[1])
    found, left = None, order
    while left and possible(solver, z3.Or([at(score) for score in left])):
        model = solver.model()
        value = lambda x: model.eval(x, model_completion=True).as_long()
        found = value(likelihood), value(severity)
        left = order[:order.index(found)]
    return found


def answers(view):
    """(word, about) to "certain", "possible" or (worst, best); best None: perhaps nothing is said."""
    result = {}
    for word, about, when, likelihood, severity, assumed in view.said:
        solver = z3.Solver()
        solver.set("timeout", 20000)
        solver.add(view.bounds)
        always = not possible(solver, z3.Not(when))
        solver.add(when)
        if not possible(solver):
            continue
        if word == "stop":
            result[word, about] = "certain" if always else "possible"
            continue
        level = lambda x: z3.IntVal(x) if isinstance(x, int) else x
        likelihood, severity = level(likelihood), level(severity)
        # Nothing is scored 1 on a fact that is not known.
        raised = z3.If(z3.And(likelihood == 1, assumed), z3.IntVal(2), likelihood)
        worst = extreme(solver, raised, severity, SCORES[::-1])
        result[word, about] = worst, extreme(solver, likelihood, severity, SCORES) if always else None
    return result


# ---- the program's answer ------------------------------------------------------------------

def read_findings(path):
    """Subject to {(word, about): answer}, as described; and the subjects that are unresolved."""
    found, unresolved = {}, set()
    for finding in xml.parse(path).iter("finding"):
        score = finding.find("score[@as='described']")
        level = lambda side: tuple(int(score.get(f"{side}-{what}")) for what in ("likelihood", "severity"))
        answer = score.get("state")
        if finding.get("word") == "hazard":
            answer = level("worst"), None if score.get("best-none") else level("best")
        subject = finding.get("subject")
        found.setdefault(subject, {})[finding.get("word"), finding.get("about", "")] = answer
        if finding.get("unresolved") == "yes":
            unresolved.add(subject)
    return found, unresolved


def show(answer):
    if isinstance(answer, str) or answer is None:
        return answer or "not said"
    worst, best = answer
    return f"{worst[0]} x {worst[1]} to " + (f"{best[0]} x {best[1]}" if best else "nothing")


def explain(rule, box, mine, theirs):
    print(f"  {rule['id']} on {box.path}:")
    for key in sorted(mine.keys() | theirs.keys()):
        if mine.get(key) != theirs.get(key):
            print(f"    {' '.join(key).strip()}: program {show(theirs.get(key))}, solver {show(mine.get(key))}")
    for name in rule["facts"]:
        entity, fact = name.split(".")
        print(f"      {name}: {', '.join(e.get(fact, '?') for e in box.elements[entity])}")


def compare_rule(rule, vocabulary):
    """Prints the rule's line; how many boxes differ."""
    boxes = said = unsettled = beyond = wrong = 0
    found, unresolved = read_findings(f"{rule['id']}/out/assessment.xml")
    for box in build(vocabulary, rule)[1]:
        if box.path in unresolved:  # more courses than the program looks at
            beyond += 1
            continue
        view = View(box, vocabulary)
        rule["says"](view)
        mine, theirs = answers(view), found.pop(box.path, {})
        boxes += 1
        said += bool(mine)
        unsettled += any(a == "possible" or a[0] != a[1] for a in mine.values() if a != "certain")
        if mine != theirs:
            wrong += 1
            explain(rule, box, mine, theirs)
    print(f"{rule['id']:26}{boxes:6}{said:7}{unsettled:11}{beyond:18}")
    if set(found) - unresolved:
        print(f"  not looked at: {', '.join(set(found) - unresolved)}")
        wrong += 1
    if unsettled < 5 or beyond > 3:
        print("  too little is compared")
        wrong += 1
    return wrong


def compare(vocabulary):
    print(f"{'rule':26}{'boxes':>6}{'found':>7}{'unsettled':>11}{'beyond the bound':>18}")
    wrong = sum(compare_rule(rule, vocabulary) for rule in RULES)
    print(f"{len(RULES)} rules, {wrong} differences")
    return 1 if wrong else 0


def only_rule(name, text):
    """What is left of a rule file when all other rules are taken out."""
    keep = lambda block: block[0] if f'\n  id = "{name}"' in block[0] else ""
    return re.sub(r"^rule \{\n.*?^\}\n", keep, text, flags=re.M | re.S)


def write(vocabulary, rules):
    """Only one rule stands beside each dossier: others would be asked of every box, too."""
    for rule in RULES:
        folder = pathlib.Path(rule["id"])
        (folder / "rules/common").mkdir(parents=True)
        root, _ = build(vocabulary, rule)
        xml.indent(root)
        xml.ElementTree(root).write(folder / "dossier.xml", encoding="UTF-8", xml_declaration=True)
        for path in sorted(pathlib.Path(rules).glob("*.lua")):
            text = only_rule(rule["id"], path.read_text(encoding="utf-8"))
            if path.name[0] == "0" or f'\n  id = "{rule["id"]}"' in text:
                (folder / "rules/common" / path.name).write_text(text, encoding="utf-8")
    return 0


def main():
    with open("vocabulary.txt", encoding="utf-8") as file:
        vocabulary = read_vocabulary(file.read())
    return compare(vocabulary) if sys.argv[1] == "compare" else write(vocabulary, sys.argv[2])


if __name__ == "__main__":
    sys.exit(main())
