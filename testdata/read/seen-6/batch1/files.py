"""What turns a survey into a file, the same bytes each time."""
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
import zipfile

from reportlab.lib.pagesizes import A4, letter as PAPER
from reportlab.pdfgen import canvas
from reportlab.platypus import SimpleDocTemplate

HERE = os.path.dirname(os.path.abspath(__file__))
PROFILE = os.path.join(tempfile.gettempdir(), "survey-post-office-profile")
SHOP = "Pinfold Cover Loft <orders@pinfold.example>"
XLSX = ("application", "vnd.openxmlformats-officedocument.spreadsheetml.sheet")
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


def text(lines, encoding="utf-8", newline="\n"):
    return (newline.join(lines) + newline).encode(encoding)


# --- mails -----------------------------------------------------------------------

def mail(sender, subject, body=None, page=None, **how):
    """A mail to the shop with a text, a web page, or both."""
    m = email.message.EmailMessage(policy=email.policy.SMTP)
    m["From"], m["To"], m["Subject"] = sender, SHOP, subject
    when = datetime.datetime(2026, 6, 9, 8, 20, tzinfo=datetime.timezone(datetime.timedelta(hours=-3)))
    m["Date"] = email.utils.format_datetime(when + datetime.timedelta(hours=5 * len(made)))
    m["Message-ID"] = f"<post.{len(made)}@mail.example>"
    if body is not None:
        m.set_content("\n".join(body) + "\n" if isinstance(body, list) else body, **how)
    if page is not None:
        (m.set_content if body is None else m.add_alternative)(page, subtype="html", **({} if body is not None else how))
    return m


def sealed(m):
    """The bytes of a mail, with boundaries that do not change from run to run."""
    for k, part in enumerate(m.walk()):
        if part.get_content_maintype() == "multipart":
            part.set_boundary(f"=_post-{len(made)}-{k}")
    return m.as_bytes()


def flow(paragraph, width=70):
    """A paragraph with the soft breaks of format=flowed: a line that goes on ends in a space."""
    lines, line = [], ""
    for word in paragraph.split(" "):
        if line and len(line) + len(word) > width:
            lines, line = lines + [line + " "], word
        else:
            line = f"{line} {word}" if line else word
    return lines + [line]


# --- documents -------------------------------------------------------------------

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
                body = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z?", b"2026-06-09T09:00:00Z", body)
            new.writestr(zipfile.ZipInfo(item.filename, (2026, 6, 9, 9, 0, 0)), body, item.compress_type)
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
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{PROFILE}", "--convert-to", target, "--outdir", out, path],
                       check=True, capture_output=True, timeout=240)
        with open(os.path.join(out, "boat." + target), "rb") as f:
            data = f.read()
    return undated(data) if target == "pdf" else data


def undated(data):
    """A PDF with one date and identity, so that it is the same bytes each time."""
    data = re.sub(rb"D:20\d{12}", b"D:20260609090000", data)
    data = re.sub(rb"/ID\s*\[[^\]]*\]", lambda m: re.sub(rb"[0-9A-F]", b"0", m[0].replace(b"/ID", b"/##")).replace(b"/##", b"/ID"), data)
    return re.sub(rb"(?<=/DocChecksum /)[0-9A-F]*", lambda m: b"0" * len(m[0]), data)


def printed(page):
    """Chromium prints a web page to PDF."""
    with tempfile.TemporaryDirectory() as d:
        source, out = os.path.join(d, "boat.html"), os.path.join(d, "boat.pdf")
        with open(source, "w", encoding="utf-8") as f:
            f.write(page)
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
                        f"--user-data-dir={d}/profile", "--no-pdf-header-footer", f"--print-to-pdf={out}", source],
                       check=True, capture_output=True, timeout=180)
        with open(out, "rb") as f:
            return undated(f.read())


def laid_out(story, size=PAPER, **how):
    """A PDF of ReportLab's paragraphs and tables."""
    out = io.BytesIO()
    SimpleDocTemplate(out, pagesize=size, invariant=1, title="Boat", **how).build(story)
    return out.getvalue()


class Sheet:
    """A page of a PDF on which words and fields are put; y runs down in points from the top."""

    def __init__(self, size=PAPER, font="Helvetica", points=10):
        self.out, self.height, self.font, self.points = io.BytesIO(), size[1], font, points
        self.canvas = canvas.Canvas(self.out, pagesize=size, invariant=1)
        self.canvas.setFont(font, points)

    def say(self, x, y, words, right=False):
        (self.canvas.drawRightString if right else self.canvas.drawString)(x, self.height - y, str(words))

    def line(self, x0, y0, x1, y1):
        self.canvas.line(x0, self.height - y0, x1, self.height - y1)

    def field(self, name, x, y, value, width=60, label=None):
        self.canvas.acroForm.textfield(name=name, tooltip=label, x=x, y=self.height - y - 4, width=width, height=15, value=str(value), fontSize=9, borderWidth=.5)

    def turn(self):
        """Go on to a fresh page."""
        self.canvas.showPage()
        self.canvas.setFont(self.font, self.points)

    def done(self):
        self.canvas.save()
        return self.out.getvalue()
