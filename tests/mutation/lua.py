"""Just enough of Lua to find the numbers and comparisons that rules decide by.

A rule file is a row of statements at depth 0: locals, rules, controls, shares.
What the rules of a file decide by stands in their `when` and `assess` and in the
locals those reach; what only examples reach is no threshold.
"""
import re

TOKEN = re.compile(r"--\[(=*)\[.*?\]\1\]|--[^\n]*|\s+|\[(=*)\[.*?\]\2\]"
                   r"|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])*'"
                   r"|\d+(?:\.(?!\.)\d*)?(?:[eE][+-]?\d+)?|\w+"
                   r"|\.\.\.|==|~=|<=|>=|//|\.\.|.", re.S)
OPENS = {"(", "{", "[", "function", "if", "do", "repeat"}
CLOSES = {")", "}", "]", "end", "until"}
STARTS = {"local", "rule", "control", "share", "fact", "for", "if", "while", "return"}


class Token:
    def __init__(self, match, line, depth):
        self.text, self.at, self.line, self.depth = match.group(), match.start(), line, depth

    def names(self):
        return re.match(r"[A-Za-z_]", self.text) is not None


def tokens(text):
    """The tokens that count, each with the depth at which it stands."""
    found, line, depth = [], 1, 0
    for match in TOKEN.finditer(text):
        piece = match.group()
        if not piece.isspace() and not piece.startswith("--"):
            depth -= piece in CLOSES
            found.append(Token(match, line, depth))
            depth += piece in OPENS
        line += piece.count("\n")
    return found


def mentioned(row):
    """The names in a row of tokens that are no field of something."""
    return {t.text for before, t in zip([None] + row, row)
            if t.names() and not (before and before.text == ".")}


class Statement:
    def __init__(self, row):
        self.row = row
        self.word = row[0].text
        self.start, self.end = row[0].at, row[-1].at + len(row[-1].text)
        self.defines = self._defines() if self.word == "local" else []
        self.fields = self._fields() if self.word in ("rule", "control", "share") else {}
        self.id = self.fields["id"][0].text.strip('"') if "id" in self.fields else None

    def _defines(self):
        if self.row[1].text == "function":
            return [self.row[2].text]
        names = []
        for token in self.row[1:]:
            if token.text == "=":
                break
            if token.names():
                names.append(token.text)
        return names

    def _fields(self):
        """name -> tokens of its value, of the table that the word is called with."""
        fields, name = {}, None
        inner = next(t.depth for t in self.row if t.text == "{") + 1
        for before, token, after in zip(self.row[1:], self.row[2:], self.row[3:] + [self.row[-1]]):
            if token.depth == inner and after.text == "=" and token.names():
                name = token.text
                fields[name] = []
            elif name and not (token.depth == inner and token.text in ("=", ",", ";") and
                               (token.text != "=" or before.text == name)):
                fields[name].append(token)
        return fields

    def decides(self):
        """The tokens that decide: of a rule its limits and its two functions, else all of it."""
        if self.word == "rule":
            return [t for name in ("limits", "when", "assess") for t in self.fields.get(name, [])]
        return [] if self.word == "control" else self.row

    def mentions(self):
        return mentioned(self.decides())


def statements(text):
    rows = []
    for before, token in zip([None] + tokens(text), tokens(text)):
        begins = token.depth == 0 and token.text in STARTS
        if not rows or (begins and not (before and before.text in ("function", "."))):
            rows.append([])
        rows[-1].append(token)
    return [Statement(row) for row in rows if row]
