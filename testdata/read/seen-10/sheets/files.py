"""What turns a survey into a file, the same bytes each time."""
import csv
import datetime
import io
import json
import os
import re
import subprocess
import tempfile
import zipfile

import openpyxl
import xlsxwriter

HERE = os.path.dirname(os.path.abspath(__file__))
PROFILE = os.path.join(tempfile.gettempdir(), "sheet-varied-office-profile")
made = []


def emit(layout, i, ending, data, b, values=None, doubt=()):
    """Write a file and, beside it, what a careful person reads there."""
    name = f"{layout}-{i + 1}.{ending}"
    with open(os.path.join(HERE, name), "wb") as f:
        f.write(data)
    values = {k: int(x) if x == int(x) else x for k, x in (values or b.want(doubt)).items()}
    with open(os.path.join(HERE, name + ".want.json"), "w") as f:
        json.dump({"unit": b.unit, "values": values, "doubt": list(doubt)}, f, indent=1)
        f.write("\n")
    made.append(name)


def text(lines, encoding="utf-8", newline="\n"):
    return (newline.join(lines) + newline).encode(encoding)


def separated(rows, separator=",", encoding="utf-8", newline="\r\n", **how):
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator=newline, **how).writerows(rows)
    return out.getvalue().encode(encoding)


# --- workbooks and documents -----------------------------------------------------

def workbook(title, rows=()):
    book = openpyxl.Workbook()
    book.active.title = title
    fill(book.active, rows)
    return book, book.active


def fill(sheet, rows):
    for row in rows:
        sheet.append(list(row))


class Written:
    """A workbook by xlsxwriter."""

    def __init__(self, *names):
        self.out = io.BytesIO()
        self.book = xlsxwriter.Workbook(self.out, {"in_memory": True})
        self.book.set_properties({"created": datetime.datetime(2026, 5, 9)})
        self.sheets = [self.book.add_worksheet(name) for name in names]

    def done(self):
        self.book.close()
        return repacked(self.out.getvalue())


def grid(parent, rows, style="Table Grid"):
    """A Word table of rows."""
    table = parent.add_table(rows=0, cols=max(len(row) for row in rows))
    table.style = style
    for row in rows:
        for cell, x in zip(table.add_row().cells, row):
            cell.text = "" if x is None else str(x)
    return table


def repacked(data, without=()):
    """The same archive with one date, and without the parts named."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for item in old.infolist():
            if item.filename in without:
                continue
            body = old.read(item.filename)
            for part in without:
                body = re.sub(rb"<Relationship [^>]*" + re.escape(part.encode()) + rb"[^>]*/>", b"", body)
            if item.filename in ("docProps/core.xml", "meta.xml"):
                body = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z?", b"2026-05-09T09:00:00Z", body)
            if item.filename == "styles.xml":  # LibreOffice writes these in any order
                pages = re.findall(rb"<style:master-page .*?</style:master-page>", body, re.S)
                body = body.replace(b"".join(pages), b"".join(sorted(pages)))
            new.writestr(zipfile.ZipInfo(item.filename, (2026, 5, 9, 9, 0, 0)), body, item.compress_type)
    return out.getvalue()


def saved(document):
    """An openpyxl workbook or a python-docx document as bytes."""
    out = io.BytesIO()
    document.save(out)
    return repacked(out.getvalue(), without=["docProps/thumbnail.jpeg"])


def convert(data, source, target):
    """LibreOffice turns one file into another."""
    with tempfile.TemporaryDirectory() as d:
        path, out = os.path.join(d, "boat." + source), os.path.join(d, "out")
        with open(path, "wb") as f:
            f.write(data)
        subprocess.run(["nice", "soffice", "--headless", f"-env:UserInstallation=file://{PROFILE}", "--convert-to", target, "--outdir", out, path],
                       check=True, capture_output=True, timeout=240)
        with open(os.path.join(out, "boat." + target), "rb") as f:
            data = f.read()
    return undated(data) if target == "pdf" else data if target == "html" else repacked(data)


# --- PDF -------------------------------------------------------------------------

def undated(data):
    """A PDF with one date and identity, so that it is the same bytes each time."""
    data = re.sub(rb"D:20\d{12}", b"D:20260509090000", data)
    data = re.sub(rb"/ID\s*\[[^\]]*\]", lambda m: re.sub(rb"[0-9A-F]", b"0", m[0].replace(b"/ID", b"/##")).replace(b"/##", b"/ID"), data)
    return re.sub(rb"(?<=/DocChecksum /)[0-9A-F]*", lambda m: b"0" * len(m[0]), data)

