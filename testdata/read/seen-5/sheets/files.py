"""What turns a survey into a file, the same bytes each time."""
import csv
import io
import json
import os
import re
import subprocess
import tempfile
import zipfile

HERE = os.path.dirname(os.path.abspath(__file__))
PROFILE = os.path.join(tempfile.gettempdir(), "survey-sheets-office-profile")
STAMP = (2026, 6, 14, 9, 0, 0)
made = []


def emit(layout, i, ending, data, unit, values, doubt=()):
    """Write a file and, beside it, what a careful person reads there."""
    name = f"{layout}-{i + 1}.{ending}"
    with open(os.path.join(HERE, name), "wb") as f:
        f.write(data)
    values = {k: int(x) if x == int(x) else x for k, x in values.items()}
    with open(os.path.join(HERE, name + ".want.json"), "w") as f:
        json.dump({"unit": unit, "values": values, "doubt": list(doubt)}, f, indent=1)
        f.write("\n")
    made.append(name)


def table(rows, separator=",", newline="\r\n", **how):
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator=newline, **how).writerows(rows)
    return out.getvalue()


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
                body = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z?", b"2026-06-14T09:00:00Z", body)
            new.writestr(zipfile.ZipInfo(item.filename, STAMP), body, item.compress_type)
    return out.getvalue()


def book(workbook):
    """An openpyxl workbook as bytes."""
    out = io.BytesIO()
    workbook.save(out)
    return repacked(out.getvalue())


def letter(document):
    """A python-docx document as bytes, without the picture of its template."""
    out = io.BytesIO()
    document.save(out)
    return repacked(out.getvalue(), without=["docProps/thumbnail.jpeg"])


def convert(data, source, target):
    """LibreOffice turns one file into another."""
    with tempfile.TemporaryDirectory() as d:
        path, out = os.path.join(d, "boat." + source), os.path.join(d, "out")
        with open(path, "wb") as f:
            f.write(data)
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{PROFILE}", "--convert-to", target, "--outdir", out, path],
                       check=True, capture_output=True, timeout=180)
        with open(os.path.join(out, "boat." + target), "rb") as f:
            return repacked(f.read())
