#!/usr/bin/env python3
"""Whether the parts of a long page are pages by themselves, and together all that the whole page is.

    check_parts.py WHOLE PART...
"""
import html.parser
import pathlib
import re
import sys

EMPTY = set("area base br col embed hr img input link meta source track wbr".split())


class Page(html.parser.HTMLParser):
    """Its identifiers, links and words, in order; `wrong` where elements are not closed as opened.

    A row that names those after it in its body counts as said in each of them, wherever it stands.
    """

    def __init__(self, path):
        super().__init__()
        self.open, self.ids, self.links, self.others, self.body, self.wrong = [], [], [], [], [], []
        self.words, self.head, self.meta = [], {}, {}
        self.group, self.grouped = [], 0
        self.feed(path.read_text(encoding="utf-8"))
        self.close()
        if self.open:
            self.wrong.append(f"left open: {self.open}")

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        if "id" in given:
            self.ids.append(given["id"])
        if given.get("href", "").startswith("#") and given.get("class") != "skip":
            self.links.append(given["href"][1:])
        if "data-part" in given and tag == "a":
            self.others.append(given["data-part"])
        if tag == "meta":
            self.meta[given.get("name")] = given.get("content")
        if tag == "body":
            self.head.update(given)
        if tag == "tbody":
            self.group = []
        if tag == "tr" and self.group:
            self.words += self.group
            self.grouped += 1
        if tag not in EMPTY:
            self.open.append((tag, given.get("class"), given.get("scope")))

    def handle_endtag(self, tag):
        if tag == "tbody" and self.group and not self.grouped:
            self.wrong.append(f"names no row: {' '.join(self.group)}")
        if tag in ("tbody", "table"):
            self.group, self.grouped = [], 0
        if not self.open or self.open[-1][0] != tag:
            self.wrong.append(f"</{tag}> closes {self.open[-1:]}")
        else:
            self.open.pop()

    def handle_data(self, data):
        at, classes, scopes = map(list, zip(*self.open)) if self.open else ([], [], [])
        if "title" in at[:3] and "svg" not in at:
            self.head["title"] = data
        elif "rowgroup" in scopes:
            self.group = self.group + data.split()
        elif "body" in at and not set(classes) & {"part-of", "status-bar", "skip"} and not set(at) & {"caption", "thead"}:
            self.words += data.split()


def main():
    whole, *parts = [Page(pathlib.Path(name)) for name in sys.argv[1:]]
    wrong = [f"part {i}: {w}" for i, p in enumerate(parts, 1) for w in p.wrong]
    for i, part in enumerate(parts, 1):
        number = f"Part {i} of {len(parts)}"
        for where in (part.head["title"], part.head["data-title"]):
            if number not in where:
                wrong.append(f"part {i} is not called so: {where}")
        if part.meta["keywords"] != whole.meta["keywords"] or part.head["data-foot"] != whole.head["data-foot"]:
            wrong.append(f"part {i} does not name its assessment")
        if dead := set(part.links) - set(part.ids):
            wrong.append(f"part {i}: links to nothing: {sorted(dead)[:5]}")
        if said := [o for o in part.others if not re.fullmatch(rf"Part [1-9]\d* of {len(parts)}", o) or o == number]:
            wrong.append(f"part {i}: a link to a part: {said[:5]}")
    if [i for p in parts for i in p.ids] != whole.ids:
        wrong.append("not each identifier of the whole is in one part, in order")
    if [w for p in parts for w in p.words] != whole.words:
        wrong.append("not each word of the whole is in one part, in order")
    kept = sum(len(p.links) + len(p.others) for p in parts)
    if not any(p.others for p in parts) or kept != len(whole.links):
        wrong.append(f"{kept} links, {len(whole.links)} in the whole")
    print("\n".join(wrong) or f"{len(parts)} parts")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
