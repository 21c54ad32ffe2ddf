#!/usr/bin/env python3
"""Writes what the fuzz targets begin with: seeds.py PROGRAM FOLDER

A folder of seeds for each target, from the productions, the rules, the matrices and the cases of tests/hostile, and
a dictionary for each from the vocabulary, the units, the grammar of Lua and the words of rule files.
"""
import pathlib
import re
import subprocess
import sys
import tempfile
import zipfile
import xml.etree.ElementTree as xml

HERE = pathlib.Path(__file__).resolve().parent
SOURCE = HERE.parent.parent

LUA = """and break do else elseif end false for function if in local nil not or repeat return then true until while
+ - * / ^ < <= > >= == ~= .. ( ) { } [ ] ; , . : = --""".split()


def put(folder, name, data):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data if isinstance(data, bytes) else data.encode())


def dictionary(path, words):
    """libFuzzer's form: a quoted word a line."""
    safe = sorted({w for w in words if w and len(w) < 60 and all(32 <= ord(c) < 127 for c in w)})
    path.write_text("".join('"%s"\n' % w.replace("\\", "\\\\").replace('"', '\\"') for w in safe))


def cases(name):
    """What tests/hostile holds, written out."""
    text = (SOURCE / "tests/hostile" / name).read_text()
    for case in text.split("\n--- ")[1:]:
        body = case.split("\n", 2)[2]
        body = re.sub(r"«(\d+)\*(.*?)»", lambda m: m[2] * min(int(m[1]), 200), body, flags=re.S)
        yield re.sub(rb"\\x([0-9a-f]{2})", lambda m: bytes([int(m[1], 16)]), body.encode())


def words_of_vocabulary(program):
    """Entities, facts, choices, units, as the reference lists them."""
    page = subprocess.run([program, "vocabulary", "--as", "xml"], capture_output=True, check=True).stdout
    words = set()
    for element in xml.fromstring(page).iter():
        words.add(element.tag)
        for name, value in element.attrib.items():
            words |= {name, *value.split()}
    return words


TWICE = {"finding", "course", "task", "duty", "person"}


def sample(element):
    """The same with one of each kind of element, or two: small enough to be changed and read a thousand times."""
    seen = {}
    for child in list(element):
        seen[child.tag] = seen.get(child.tag, 0) + 1
        if seen[child.tag] > (2 if child.tag in TWICE else 1):
            element.remove(child)
        else:
            sample(child)
    return element


def write_assessments(program, folder):
    """Of two productions, each cut down; the same for the book."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in ("lake-stunt", "stage-pool"):
        path = folder / f"{name}.xml"
        subprocess.run([program, "assess", SOURCE / f"shared/productions/{name}/dossier.xml", "--force", "-o", path],
                       stdout=subprocess.DEVNULL, check=False)
        data = xml.tostring(sample(xml.parse(path).getroot()), encoding="UTF-8")
        path.write_bytes(data)
        put(folder.parent / "book", name, data)
    return (folder / "lake-stunt.xml").read_text()


TABLES = ["id,born\nann,1990-05-01\n", "id;name;born\nann;Ann Lee;1.5.1990\n", "id\tmass\nann\t60 kg\n",
          'person,"depth (m)",takes\nann,3,4\n', "id,temperature [°C]\nrace,12\n", "sep=;\nid;mass (lb)\nann;130,5\n"]
S = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PARTS = ["", # after the byte that names each; the first is that of the other form, OpenDocument
         f"""<worksheet {S}><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>id</t></is></c><c r="B1" t="str"><v>mass</v>
</c></row><row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2"><v>6.1E1</v></c><c r="C2" t="b"><v>1</v></c></row></sheetData>
</worksheet>""",
         f"""<styleSheet {S}><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/></numFmts><cellXfs count="2">
<xf numFmtId="0"/><xf numFmtId="164" applyNumberFormat="1"/></cellXfs></styleSheet>""",
         f"<sst {S}><si><r><t>an</t></r><r><t>n</t></r><rPh><t>x</t></rPh></si></sst>",
         f"""<workbook {S} xmlns:r="{R}"><workbookPr date1904="1"/><sheets><sheet name="people" sheetId="1" r:id="r1"/>
<sheet name="days" state="hidden" r:id="r2"/></sheets></workbook>""",
         f"""<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type=
"{R}/worksheet" Target="/xl/worksheets/sheet1.xml"/></Relationships>"""]


def write_tables(program, folder):
    """Tables as people write them, and spreadsheets: one whole, and each part that is read."""
    for i, text in enumerate(TABLES):
        put(folder, f"csv-{i}", b"0" + text.encode())
    for kind, text in enumerate(PARTS[1:], 2):
        put(folder, f"part-{kind}", bytes([kind]) + text.encode())
    with tempfile.TemporaryDirectory() as made:
        subprocess.run([program, "workbook", SOURCE / "shared/productions/stage-pool/dossier.xml", "-o", made],
                       stdout=subprocess.DEVNULL, check=True)
        smallest = min(pathlib.Path(made).iterdir(), key=lambda p: p.stat().st_size)
        put(folder, "whole", b"0" + smallest.read_bytes())
        with zipfile.ZipFile(smallest) as archive:
            put(folder, "part-1", b"\1" + archive.read("content.xml"))


def write_packs(program, folder):
    """A pack signed by two, alone and in archives of several forms."""
    with tempfile.TemporaryDirectory() as made:
        pack = pathlib.Path(made, "osier-lane")
        pack.mkdir()
        (pack / "empty.lua").touch()
        key, certificate = pack.parent / "a.key", pack.parent / "a.crt"
        for words in (["ecparam", "-genkey", "-name", "prime256v1", "-noout", "-out", key],
                      ["req", "-x509", "-key", key, "-out", certificate, "-days", "3650", "-subj", "/CN=I. Marsh"]):
            subprocess.run(["openssl", *words], check=True, capture_output=True)
        for count in ("one", "two"):
            subprocess.run([program, "sign", pack, "--key", key, "--certificate", certificate, "--on", "2027-03-08",
                            "--role", count], check=True, stdout=subprocess.DEVNULL)
            signed = (pack / "signatures.xml").read_bytes()
            put(folder, "signed-" + count, b"s" + signed)
        for name, how in (("stored", zipfile.ZIP_STORED), ("deflated", zipfile.ZIP_DEFLATED)):
            path = pack.parent / name
            with zipfile.ZipFile(path, "w", how) as archive:
                for file in sorted(pack.iterdir()):
                    archive.write(file, f"osier-lane/{file.name}")
            put(folder, name, b"z" + path.read_bytes())
        put(folder, "members", b"mosier-lane/empty.lua\n\fosier-lane/signatures.xml\n" + signed)
        put(folder, "flat", b"mempty.lua\n\fread.txt\nwhat this is")


def main(program, folder):
    program, folder = pathlib.Path(program).resolve(), pathlib.Path(folder)
    seen = words_of_vocabulary(program)
    productions = sorted(SOURCE.glob("shared/productions/*/*.xml")) + sorted(SOURCE.glob("tests/dossiers/*/*.xml"))
    dossiers = [p.read_bytes() for p in productions]
    for i, data in enumerate(dossiers + list(cases("dossiers.txt"))):
        if len(data) < 20000: # one of several times that is changed too rarely where it matters
            put(folder / "dossier", f"{i:03}", data)
    rules = [p.read_text() for p in sorted(SOURCE.glob("rules/*/*.lua"))]
    parts = [part for text in rules for part in re.split(r"\n(?=rule \{|control \{)", text) if len(part) < 2500]
    for i, data in enumerate([p.encode() for p in parts[::4]] + list(cases("rules.txt"))):
        put(folder / "rule", f"{i:03}", data)
    for i, path in enumerate(sorted(SOURCE.glob("shared/matrices/*.xml"))):
        put(folder / "matrix", f"{i:03}", path.read_bytes())
    values = sorted({v for d in dossiers for v in re.findall(r'="([^"]{1,60})"', d.decode(errors="ignore"))})
    for i, value in enumerate(values):
        put(folder / "quantity", f"{i:04}", value)
    for i, value in enumerate(values[:400]):
        put(folder / "set", f"{i:04}", f"t/p/depth={value}")
    for name in ("s/water/temperature=20 degC", "t/p/takes=3", "p/role=diver", "s/water-body=lake", "x=1"):
        put(folder / "set", re.sub(r"\W", "-", name), name)
    write_tables(program, folder / "import")
    write_packs(program, folder / "pack")
    text = write_assessments(program, folder / "assessment")
    tags = {word for pair in re.findall(r"</?([a-z-]+)|([a-z-]+)=", text) for word in pair}
    for name in "assessment", "book":
        dictionary(folder / f"{name}.dict", tags)
    for name in "dossier", "set", "import":
        dictionary(folder / f"{name}.dict", seen)
    dictionary(folder / "rule.dict", {w.replace("-", "_") for w in seen} | set(LUA))
    dictionary(folder / "quantity.dict", {w for w in seen if len(w) < 12})
    dictionary(folder / "matrix.dict", set(re.findall(r"[a-z-]+", "".join(
        p.read_text() for p in SOURCE.glob("shared/matrices/*.xml")))))


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
