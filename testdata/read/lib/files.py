"""What turns a survey into a file, the same bytes each time."""
import csv
import datetime
import email.message
import email.policy
import email.utils
import io
import json
import os
import re
import subprocess
import tempfile
import textwrap
import zipfile

import openpyxl
import xlsxwriter
from reportlab.lib.pagesizes import letter as PAPER
from reportlab.pdfgen import canvas
from reportlab.platypus import SimpleDocTemplate

HERE = os.path.dirname(os.path.abspath(__file__))
PROFILE = os.path.join(tempfile.gettempdir(), "survey-files-office-profile-mails")
SHOP = "Pinfold Cover Loft <orders@pinfold.example>"
DOCX = ("application", "vnd.openxmlformats-officedocument.wordprocessingml.document")
XLSX = ("application", "vnd.openxmlformats-officedocument.spreadsheetml.sheet")
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
                body = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z?", b"2026-06-03T09:00:00Z", body)
            if item.filename == "styles.xml":  # LibreOffice writes these in any order
                pages = re.findall(rb"<style:master-page .*?</style:master-page>", body, re.S)
                body = body.replace(b"".join(pages), b"".join(sorted(pages)))
            new.writestr(zipfile.ZipInfo(item.filename, (2026, 6, 3, 9, 0, 0)), body, item.compress_type)
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


# --- mails -----------------------------------------------------------------------

def mail(sender, subject):
    m = email.message.EmailMessage(policy=email.policy.SMTP)
    m["From"], m["To"], m["Subject"] = sender, SHOP, subject
    when = datetime.datetime(2026, 6, 3, 6, 20, tzinfo=datetime.timezone(datetime.timedelta(hours=-3)))
    m["Date"] = email.utils.format_datetime(when + datetime.timedelta(hours=7 * len(made)))
    m["Message-ID"] = f"<survey.{len(made)}@mail.example>"
    return m


def typed(sender, subject, lines, **how):
    """A mail of plain text."""
    m = mail(sender, subject)
    m.set_content("\n".join(lines) + "\n", **how)
    return m


def flowed(lines, width=72):
    """Lines broken softly, as RFC 3676 has it: a space at the end of each that goes on."""
    out = []
    for line in lines:
        mark = re.match(r"(> ?)?", line)[0]
        parts = textwrap.wrap(line[len(mark):], width, break_on_hyphens=False) or [""]
        out += [mark + part + " " for part in parts[:-1]] + [mark + parts[-1]]
    return out


def flow(m):
    m.set_param("format", "flowed")
    return m


def both(sender, subject, lines, body, **how):
    """A mail of plain text and the same as a web page."""
    m = typed(sender, subject, lines, **how)
    m.add_alternative(f"<html><body>{body}</body></html>", subtype="html")
    return m


def page(sender, subject, body, **how):
    """A mail that is a web page and nothing else."""
    m = mail(sender, subject)
    m.set_content(f"<html><body>{body}</body></html>", subtype="html", **how)
    return m


def sealed(m):
    """The bytes of a mail, with boundaries that do not change from run to run."""
    for k, part in enumerate(m.walk()):
        if part.get_content_maintype() == "multipart":
            part.set_boundary(f"=_survey-{len(made)}-{k}")
    return m.as_bytes()


# --- PDF -------------------------------------------------------------------------

def undated(data):
    """A PDF with one date and identity, so that it is the same bytes each time."""
    data = re.sub(rb"D:20\d{12}", b"D:20260603090000", data)
    data = re.sub(rb"/ID\s*\[[^\]]*\]", lambda m: re.sub(rb"[0-9A-F]", b"0", m[0].replace(b"/ID", b"/##")).replace(b"/##", b"/ID"), data)
    return re.sub(rb"(?<=/DocChecksum /)[0-9A-F]*", lambda m: b"0" * len(m[0]), data)


def laid_out(story, size=PAPER, **how):
    """A PDF of ReportLab's paragraphs and tables."""
    out = io.BytesIO()
    SimpleDocTemplate(out, pagesize=size, invariant=1, title="Boat", **how).build(story)
    return out.getvalue()


class Sheet:
    """A page of a PDF on which words and fields are put; y runs down in points from the top."""

    def __init__(self, size=PAPER, font="Helvetica", points=10):
        self.out, self.height = io.BytesIO(), size[1]
        self.canvas = canvas.Canvas(self.out, pagesize=size, invariant=1)
        self.canvas.setFont(font, points)

    def say(self, x, y, words, right=False, centred=False):
        draw = self.canvas.drawRightString if right else self.canvas.drawCentredString if centred else self.canvas.drawString
        draw(x, self.height - y, str(words))

    def field(self, name, x, y, value, width=60, tooltip=None):
        self.canvas.acroForm.textfield(name=name, tooltip=tooltip, x=x, y=self.height - y - 4, width=width, height=15, value=str(value), fontSize=9, borderWidth=.5)

    def choice(self, name, x, y, value, options, width=40):
        self.canvas.acroForm.choice(name=name, x=x, y=self.height - y - 4, width=width, height=15, value=value, options=options, fontSize=9, borderWidth=.5)

    def tick(self, name, x, y, ticked):
        self.canvas.acroForm.checkbox(name=name, x=x, y=self.height - y - 3, size=12, checked=ticked, buttonStyle="check", borderWidth=.5)

    def done(self):
        self.canvas.save()
        return self.out.getvalue()
