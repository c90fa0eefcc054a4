"""What turns a survey into a file that other programs made."""
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

HERE = os.path.dirname(os.path.abspath(__file__))
PROFILE = os.path.join(tempfile.gettempdir(), "fresh-office-profile")
SHOP = "Pinfold Cover Loft <orders@pinfold.example>"
STAMP = (2026, 5, 2, 9, 0, 0)
made = []

# Layouts that were looked at after their first reading, to mend the readers.
LOOKED_AT = {
    "txt-holes",
    "csv-across", "csv-beside", "csv-gaps", "csv-halffeet", "csv-long", "csv-remarks", "csv-semicolon", "csv-shed",
    "docx-french", "docx-letter", "docx-numbered", "docx-office", "docx-split", "docx-tabbed", "docx-tabled",
    "form-blank", "form-halfticks", "form-named", "form-nameless", "mail-attached", "mail-between", "mail-disagree",
    "mail-enclosed", "mail-forwarded", "mail-french", "mail-guesses", "mail-markup", "mail-ordered", "mail-phone",
    "mail-postscript", "mail-quoted", "mail-signed", "mail-told", "mail-typed", "mail-webmail", "ods-french",
    "ods-plain", "pdf-calc", "pdf-columns", "pdf-report", "pdf-typewriter", "pdf-web", "pdf-wide", "pdf-writer",
    "tsv-foot", "txt-chart", "txt-coded", "txt-french", "txt-greatest", "txt-listed", "txt-paragraph", "txt-ruled",
    "txt-series", "txt-slashes", "txt-two", "xlsx-averages", "xlsx-blocks", "xlsx-boxed", "xlsx-centimetres",
    "xlsx-decked", "xlsx-feet", "xlsx-fractions", "xlsx-halffeet", "xlsx-millimetres", "xlsx-mixed", "xlsx-sheets",
    "xlsx-sideways", "xlsx-square", "xlsx-tidy", "xlsx-twice", "xlsx-typed",
}
SEEN = os.path.join(HERE, "..", "seen-2")


def emit(layout, i, ext, data, unit, values, doubt=()):
    """Write a file and, beside it, what a careful person reads there."""
    name = f"{layout}-{i + 1}.{ext}"
    folder = SEEN if layout in LOOKED_AT else HERE
    with open(os.path.join(folder, name), "wb") as f:
        f.write(data)
    values = {k: int(x) if x == int(x) else x for k, x in values.items()}
    with open(os.path.join(folder, name + ".want.json"), "w") as f:
        json.dump({"unit": unit, "values": values, "doubt": list(doubt)}, f, indent=1)
        f.write("\n")
    made.append(name)


def text(lines, encoding="utf-8", newline="\n"):
    return (newline.join(lines) + newline).encode(encoding)


def repacked(data, without=()):
    """The same archive with one date, so that it is the same bytes each time."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as new:
        for item in old.infolist():
            if item.filename in without:
                continue
            body = old.read(item.filename)
            for part in without:
                body = re.sub(rb"<Relationship [^>]*" + re.escape(part.encode()) + rb"[^>]*/>", b"", body)
            if item.filename in ("docProps/core.xml", "meta.xml"):
                body = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z?", b"2026-05-02T09:00:00Z", body)
            new.writestr(zipfile.ZipInfo(item.filename, STAMP), body, item.compress_type)
    return out.getvalue()


def book(wb):
    """An openpyxl workbook as bytes."""
    out = io.BytesIO()
    wb.save(out)
    return repacked(out.getvalue())


def letter(doc):
    """A python-docx document as bytes, without the picture of its template."""
    out = io.BytesIO()
    doc.save(out)
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
            converted = f.read()
    return {"pdf": undated, "html": bytes}.get(target, repacked)(converted)


def undated(data):
    """A PDF with one date and identity, so that it is the same bytes each time."""
    data = re.sub(rb"D:20\d{12}", b"D:20260502090000", data)
    return re.sub(rb"/ID\s*\[[^\]]*\]|/DocChecksum /[0-9A-F]*", lambda m: re.sub(rb"[0-9A-F](?=[0-9A-F]*[>/]|[0-9A-F]*$)", b"0", m[0]) if m[0].startswith(b"/ID") else m[0][:13] + b"0" * (len(m[0]) - 13), data)


def printed(page):
    """Chromium prints a web page to PDF."""
    with tempfile.TemporaryDirectory() as d:
        source, out = os.path.join(d, "boat.html"), os.path.join(d, "boat.pdf")
        with open(source, "w", encoding="utf-8") as f:
            f.write(page)
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
                        f"--user-data-dir={d}/profile", "--no-pdf-header-footer", f"--print-to-pdf={out}", source],
                       check=True, capture_output=True, timeout=120)
        with open(out, "rb") as f:
            return undated(f.read())


def mail(sender, subject, domain="post.example"):
    m = email.message.EmailMessage(policy=email.policy.SMTP)
    m["From"], m["To"], m["Subject"] = sender, SHOP, subject
    when = datetime.datetime(2026, 5, 2, 18, 5, tzinfo=datetime.timezone(datetime.timedelta(hours=-3)))
    m["Date"] = email.utils.format_datetime(when + datetime.timedelta(hours=7 * len(made)))
    m["Message-ID"] = f"<fresh.{len(made)}@{domain}>"
    return m


def sealed(m):
    """The bytes of a mail, with boundaries that do not change from run to run."""
    for k, part in enumerate(m.walk()):
        if part.get_content_maintype() == "multipart":
            part.set_boundary(f"=_fresh-{len(made)}-{k}")
    return m.as_bytes()
