"""Invented productions with facts at random, one for each rule: many sites, a box on each."""
import random
import xml.etree.ElementTree as xml

from facts import DAY, draw

BOXES = 40  # for most rules
PARTS = ["basin", "deck", "emergency", "openwater"]  # stand once in a site


class Box:
    """One subject of the rule, and the elements that its facts stand in."""

    def __init__(self, path, elements):
        self.path = path
        self.elements = elements  # entity: its elements, of most one only


def fill(chance, vocabulary, rule, box, narrow):
    for name in rule["facts"]:
        entity, fact = name.split(".")
        for element in box.elements[entity]:
            if fact == "kind":  # must be stated
                element.set(fact, chance.choice(rule["words"]))
                continue
            text = draw(chance, vocabulary, name, rule.get("unknown", 0.25), narrow)
            if text is not None:
                element.set(fact, text)


def a_task(chance, root, rule, box, day, label):
    """A task with its people and what they wear."""
    task = xml.SubElement(day, "task", id=label, title=f"Scene {label}")
    elements = box.elements
    elements.update(task=[task], immersion=[], person=[], appliance=[])
    for number in range(rule.get("appliances", 0)):
        name = f"{label}-worn-{number}"
        elements["appliance"].append(xml.SubElement(root, "appliance", id=name, title=f"Cloak {name}"))
    wears = " ".join(worn.get("id") for worn in elements["appliance"]) or "none"
    for number in range(rule.get("immersions", 1)):
        born = chance.choice(["1991-04-02", "1991-04-02", "2015-06-30"])
        person = xml.SubElement(root, "person", id=f"{label}-who-{number}", role="performer", born=born)
        elements["person"].append(person)
        if rule["subject"] == "post":  # who stands by is not in the water
            elements["post"] = [xml.SubElement(task, "post", person=person.get("id"), role="standby-diver")]
        else:
            elements["immersion"].append(xml.SubElement(task, "immersion", person=person.get("id"), wears=wears))
    if rule["subject"] != "task":
        box.path = f"{label}/post-1" if rule["subject"] == "post" else f"{label}/{person.get('id')}"


def place(chance, root, production, rule, number):
    """A site with the subject of the rule, and all that its facts stand in."""
    site = xml.SubElement(root, "site", id=f"site-{number}")
    day = xml.SubElement(root, "day", date=str(DAY), site=site.get("id"))
    xml.SubElement(site, "supply", id=f"bank-{number}")  # gas is there: its plan counts
    box = Box(f"box-{number}", {part: [xml.SubElement(site, part)] for part in PARTS})
    box.elements.update(site=[site], day=[day], production=[production])
    subject = rule["subject"]
    if subject in ("rig", "craft"):
        box.elements[subject] = [xml.SubElement(site, subject, kind="other", id=box.path)]
    elif subject in ("prop", "appliance"):
        box.elements[subject] = [xml.SubElement(root, subject, id=box.path)]
    elif subject == "supply":
        box.elements[subject], box.path = site.findall("supply"), f"bank-{number}"
    elif subject == "site":
        box.path = site.get("id")
    elif subject == "day":
        box.path = str(DAY) if number == 1 else f"{DAY}.{number}"
    else:
        a_task(chance, root, rule, box, day, box.path)
    return box


def build(vocabulary, rule):
    """The dossier of a rule, and its boxes."""
    chance, boxes = random.Random(rule["id"]), []
    root = xml.Element("dossier", format="1", units="metric")
    production = xml.SubElement(root, "production", title="The Glass Weir", jurisdiction="none", revision="1",
                                by="P. Example", on=str(DAY))
    for number in range(1, rule.get("boxes", BOXES) + 1):
        box = place(chance, root, production, rule, number)
        fill(chance, vocabulary, rule, box, narrow=number % 2 == 1)
        boxes.append(box)
    return root, boxes
