#!/usr/bin/env python3
"""Drives LibreOffice without a screen, over its own interface: opens spreadsheets, types into cells,
saves in other forms, and reads back what it sees.

    office.py BOOK.ods FOLDER FILE.ods...

Sees in every cell of the book and the files what they say, and nothing else; then types the edits
below into the book and saves edited.ods, edited.xlsx and edited-SHEET.csv. It types as a person
would: what looks like a number, a day or a time becomes one.
"""
import os
import pathlib
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree as ElementTree
import zipfile

import uno
from com.sun.star.beans import PropertyValue

# Sheets of facts: sheet, subject, fact, what is typed, known from, by whom, on which day, kept where.
FACTS = [
    ("diving supervisor", "hal", "swim-distance", "1250", "measured", "O. Grange", "2027-10-02", "log 4"),
    ("diving supervisor", "hal", "swim-tested-on", "2027-10-02"),
    ("diving supervisor", "third-landing/water", "visibility", "10..14"),
    ("diving supervisor", "june", "exhale-drill", "failed"),
    ("assistant director", "2027-10-11", "call", "6:45"),
    ("assistant director", "fall/june", "takes", "4"),
    ("water technician", "third-landing/water", "alkalinity", "62.5 mg/L"),
    ("safety officer", "third-landing/air", "humidity", "60%"),
    ("safety officer", "production", "near-miss-reporting", "yes"),
    ("set medic", "dusk/hal", "congested", "no"),
    ("person hal", "hal", "fear-of-enclosure", "marked"),
]
# Lists: sheet, then a new row by heading.
ROWS = [
    ("records", {"day": "2027-10-12", "person": "ray", "down": "13:05", "up": "13:14",
                 "depth (ft)": "10.5", "gas": "nitrox", "takes": "2", "incident": "none"}),
    ("people", {"id": "lou", "name": "Lou =Marsh <3", "role": "crew"}),
]
EDITED_NOTE = ("tasks", "fall", "title", "June goes backwards & <falls> into the lake")


def value(name, of):
    made = PropertyValue()
    made.Name, made.Value = name, of
    return made


class Office:
    """A LibreOffice of our own, with a profile that goes with it."""

    def __init__(self):
        self.folder = tempfile.TemporaryDirectory()
        pipe = "tankside" + str(os.getpid())
        self.program = subprocess.Popen(
            ["soffice", "--headless", "--norestore", "--nologo", "--nodefault",
             f"-env:UserInstallation=file://{self.folder.name}/profile",
             f"--accept=pipe,name={pipe};urp;"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            start_new_session=True)
        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
        for _ in range(600):
            try:
                context = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
                break
            except Exception:  # not there yet: the interface has no better name for it
                time.sleep(0.1)
        else:
            raise SystemExit("LibreOffice does not answer")
        self.desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)

    def open(self, path):
        """Without the offer to repair: a file that needs it does not open."""
        book = self.desktop.loadComponentFromURL(
            pathlib.Path(path).resolve().as_uri(), "_blank", 0,
            (value("Hidden", True), value("RepairPackage", False)))
        assert book is not None, f"{path} does not open"
        return book

    def save(self, book, path, form, options=""):
        book.storeToURL(pathlib.Path(path).resolve().as_uri(),
                        (value("FilterName", form), value("FilterOptions", options)))

    def close(self):
        try:
            self.desktop.terminate()
        except Exception:  # it may be gone before it answers
            pass
        self.program.wait(60)
        self.folder.cleanup()


def seen(sheet):
    """All cells up to the last used one, as rows, in one call: texts, and numbers as floats."""
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    end = cursor.RangeAddress
    return sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow).getDataArray()


def headings(sheet):
    return {text: column for column, text in enumerate(seen(sheet)[0])}


def find_row(sheet, wanted):
    """The row in which these columns hold these texts."""
    for row, cells in enumerate(seen(sheet)):
        if all(cells[column] == text for column, text in wanted.items()):
            return row
    raise SystemExit(f"sheet {sheet.Name} has no row {wanted}")


def type_into(sheet, column, row, text):
    """As at the keyboard: what looks like a number, a day or a time becomes one."""
    sheet.getCellByPosition(column, row).FormulaLocal = text


def edit(office, book_path, folder):
    book = office.open(book_path)
    for name, subject, fact, *cells in FACTS:
        sheet = book.Sheets.getByName(name)
        at = headings(sheet)
        row = find_row(sheet, {at["subject"]: subject, at["fact"]: fact})
        for heading, text in zip(("new value", "known from", "by whom", "on which day", "kept where"), cells):
            type_into(sheet, at[heading], row, text)
    for name, cells in ROWS:
        sheet = book.Sheets.getByName(name)
        at = headings(sheet)
        row = next((r for r, cells in enumerate(seen(sheet)) if not any(cells)), len(seen(sheet)))
        for heading, text in cells.items():
            type_into(sheet, at[heading], row, text)
    name, key, heading, text = EDITED_NOTE
    sheet = book.Sheets.getByName(name)
    at = headings(sheet)
    type_into(sheet, at[heading], find_row(sheet, {at["id"]: key}), text)
    office.save(book, f"{folder}/edited.ods", "calc8")
    office.save(book, f"{folder}/edited.xlsx", "Calc MS Excel 2007 XML")
    # A comma, a quote, UTF-8, from line 1, cells as shown, every sheet into a file of its own.
    office.save(book, f"{folder}/edited.csv", "Text - txt - csv (StarCalc)", "44,34,76,1,,0,false,true,false,false,false,-1")
    locked = [s.Name for s in book.Sheets if s.isProtected()]
    book.close(True)
    assert "diving supervisor" in locked and "records" not in locked, locked


TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"


def cells_written(path):
    """Sheet, row, column and text of every cell that the file says something in. For files of ours,
    which repeat nothing but empty rows at the end."""
    root = ElementTree.fromstring(zipfile.ZipFile(path).read("content.xml"))
    for table in root.iter(TABLE + "table"):
        for row, line in enumerate(table.iter(TABLE + "table-row")):
            for column, cell in enumerate(line.findall(TABLE + "table-cell")):
                said = "\n".join("".join(p.itertext()) for p in cell.findall(TEXT + "p"))
                if said:
                    yield table.get(TABLE + "name"), row, column, said


def same(office, path):
    book = office.open(path)
    written = {}
    for name, row, column, said in cells_written(path):
        written.setdefault(name, {})[row, column] = said
    assert [s.Name for s in book.Sheets] == list(written), "other sheets"
    count = 0
    for sheet in book.Sheets:
        formulas = 16  # com.sun.star.sheet.CellFlags.FORMULA
        assert sheet.queryContentCells(formulas).Count == 0, f"{sheet.Name}: formulas"
        cells = {(row, column): cell for row, line in enumerate(seen(sheet))
                 for column, cell in enumerate(line) if cell != ""}
        for at in set(cells) | set(written[sheet.Name]):
            here, there = cells.get(at), written[sheet.Name].get(at)
            equal = here == float(there) if isinstance(here, float) else here == there
            assert equal, f"{sheet.Name} {at}: {here!r}, written {there!r}"
        count += len(cells)
    book.close(True)
    print(f"{path}: {count} cells are as they are written")


def main():
    book, folder, *files = sys.argv[1:]
    office = Office()
    try:
        for path in [book, *files]:
            same(office, path)
        edit(office, book, folder)
    finally:
        office.close()


if __name__ == "__main__":
    main()
