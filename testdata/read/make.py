"""Make the test set of typed surveys: python3 make.py

Files as other people and other programs make them, each with the numbers that
stand in it (NAME.want.json). Nothing here knows how the readers work. Needs
Debian's python3-openpyxl, python3-xlsxwriter, python3-docx, python3-reportlab,
libreoffice (Calc and Writer) and chromium. Boats and people are invented.
"""
import datetime
import email.message
import email.policy
import email.utils
import html
import json
import os
import random
import shutil
import subprocess
import tempfile

import docx
import openpyxl
import xlsxwriter
from openpyxl.styles import Font
from reportlab.lib.pagesizes import A4, letter
from reportlab.pdfgen import canvas

HERE = os.path.dirname(os.path.abspath(__file__))
count = 0


# --- boats -------------------------------------------------------------------

class Boat:
    """A survey as the customer measured it, all values in its unit."""

    def __init__(self, seed, unit="in"):
        r = random.Random(seed)
        self.r, self.unit = r, unit
        step = 12 if unit == "in" else 30
        per = 1 if unit == "in" else 2.54
        tick = .5 if unit == "in" else 1
        snap = lambda inches: round(inches * per / tick) * tick
        feet = r.choice([12, 13, 14, 15, 15, 16, 16, 17, 18])
        loa = feet * 12 + r.choice([0, 0, 2, 3.5, 6, 9, 10.5]) + 1
        beam, deep = r.uniform(27, 38), r.uniform(10.5, 13.5)
        bow, stern = deep + r.uniform(4, 10), deep + r.uniform(3, 8)
        fullness = r.uniform(.55, .85)
        self.loa, self.bow, self.stern = snap(loa), snap(bow), snap(stern)
        self.carry = snap(r.uniform(16, 28))
        self.rows = []
        at = step
        while at < self.loa - step * .35:
            t = at / self.loa
            w = beam * (4 * t * (1 - t)) ** fullness
            end = bow if t < .5 else stern
            depth = deep + (end - deep) * abs(2 * t - 1) ** 3
            hull = (w * w + 4 * depth * depth) ** .5 * (1 + .12 * (4 * t * (1 - t)))
            hull = snap(hull)
            full = max(hull + snap(w), hull + 2 * tick)
            self.rows.append((at, hull, min(full, 2 * hull)))
            at += step
        most = max(self.rows, key=lambda row: row[2])
        self.great = (most[0] + snap(2), most[1] + tick, most[2] + tick)
        self.opening = self.great[2] - self.great[1]
        self.name = r.choice(["Ada Fennimore", "Tom Brask", "Lise Corbin", "Piet van Loon", "June Hartigan", "Rémi Aucoin"])
        self.boat = r.choice(["Heron 15, home built", "Otter Lake tripper", "cedar strip, own lines", "Marsh Wren skiff", "old guideboat"])

    def want(self, skip=(), **more):
        values = {"length_overall": self.loa, "bow_height": self.bow, "stern_height": self.stern, "carry_point": self.carry}
        for at, hull, full in self.rows:
            values[f"hull_girth@{at:g}"] = hull
            values[f"full_girth@{at:g}"] = full
        values.update(more)
        return {k: v for k, v in values.items() if k not in skip}

    def want_great(self):
        return {"greatest.at": self.great[0], "greatest.hull_girth": self.great[1], "greatest.full_girth": self.great[2], "greatest.opening": self.opening}


def boats(layout, n, unit="in"):
    return [Boat(f"{layout}-{i}", unit) for i in range(n)]


# --- ways of writing a length ---------------------------------------------------

def frac(x):
    whole, half = int(x), x - int(x)
    return f"{whole} 1/2" if half else f"{whole}"


def dec(x):
    return f"{x:.1f}" if x != int(x) else f"{int(x)}"


def mark(x):
    return frac(x) + '"'


def glyph(x):
    return f"{int(x)}½" if x != int(x) else f"{int(x)}"


def dash(x):
    return frac(x).replace(" ", "-")


def feet(x):
    f, i = int(x // 12), x % 12
    return f"{f}' {frac(i)}\""


def feet_words(x):
    f, i = int(x // 12), x % 12
    return f"{f} ft {frac(i)} in" if i else f"{f} ft"


def comma(x):
    return dec(x).replace(".", ",")


def cm(x):
    return f"{x:g} cm"


def emit(layout, i, ext, data, unit, values, doubt=()):
    global count
    name = f"{layout}-{i + 1}.{ext}"
    with open(os.path.join(HERE, name), "wb") as f:
        f.write(data)
    with open(os.path.join(HERE, f"{name}.want.json"), "w") as f:
        json.dump({"unit": unit, "values": values, "doubt": list(doubt)}, f, indent=1)
        f.write("\n")
    count += 1


def saved(save, ext):
    with tempfile.TemporaryDirectory() as d:
        path = os.path.join(d, "x." + ext)
        save(path)
        with open(path, "rb") as f:
            return f.read()


def convert(data, source, target):
    """LibreOffice turns one file into another."""
    with tempfile.TemporaryDirectory() as d:
        path = os.path.join(d, "x." + source)
        with open(path, "wb") as f:
            f.write(data)
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{tempfile.gettempdir()}/lo-profile", "--convert-to",
                        target, "--outdir", d, path], check=True, capture_output=True, timeout=120)
        with open(os.path.join(d, "x." + target), "rb") as f:
            return f.read()


def printed(page):
    """Chromium prints a web page as PDF."""
    with tempfile.TemporaryDirectory() as d:
        source, out = os.path.join(d, "x.html"), os.path.join(d, "x.pdf")
        with open(source, "w") as f:
            f.write(page)
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
                        f"--user-data-dir={d}/profile", "--no-pdf-header-footer", f"--print-to-pdf={out}", source],
                       check=True, capture_output=True, timeout=120)
        with open(out, "rb") as f:
            return f.read()


def text(lines, encoding="utf-8", newline="\n"):
    return (newline.join(lines) + newline).encode(encoding)


def mail(subject, plain=None, page=None, files=(), charset="utf-8", sender="Ada Fennimore <ada@fennimore.example>"):
    m = email.message.EmailMessage(policy=email.policy.SMTP)
    m["From"], m["To"], m["Subject"] = sender, "Pinfold Cover Loft <orders@pinfold.example>", subject
    m["Date"] = email.utils.format_datetime(datetime.datetime(2026, 5, 12, 19, 4, tzinfo=datetime.timezone.utc))
    m["Message-ID"] = f"<{len(subject)}.{count}@fennimore.example>"
    if plain is not None:
        m.set_content(plain, charset=charset)
    if page is not None:
        m.add_alternative(page, subtype="html") if plain is not None else m.set_content(page, subtype="html")
    for name, kind, data in files:
        main, sub = kind.split("/")
        m.add_attachment(data, maintype=main, subtype=sub, filename=name)
    for part in m.walk():
        if part.is_multipart():
            part.set_boundary(f"part-{count}-{len(list(part.iter_parts()))}")
    return m.as_bytes()


XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


# --- layouts ------------------------------------------------------------------

def contract_csv():
    for i, b in enumerate(boats("csv-plain", 4)):
        how = [frac, dec, glyph, mark][i]
        lines = ["# measured on Sunday", "unit,in", f"length overall,{feet_words(b.loa)}", f"bow height,{how(b.bow)}",
                 f"stern height,{how(b.stern)}", f"carry point,{how(b.carry)}",
                 f"greatest girth at,{feet_words(b.great[0])},{how(b.great[1])},{how(b.great[2])}", f"opening there,{how(b.opening)}",
                 "transom,,", "", "Station,Hull girth,Full girth"]
        lines += [f"{at // 12} ft,{how(h)},{how(f)}" for at, h, f in b.rows]
        emit("csv-plain", i, "csv", text(lines), "in", b.want(**b.want_great()))


def french_csv():
    for i, b in enumerate(boats("csv-french", 4, "cm")):
        sep = [";", ";", "\t", "|"][i]
        c = (lambda x: f"{x:g},0") if i == 1 else (lambda x: f"{x:g}")
        lines = ["Relevé du bateau (cm)", f"Longueur hors tout{sep}{c(b.loa)}", f"Hauteur de l'étrave{sep}{c(b.bow)}",
                 f"Hauteur de la poupe{sep}{c(b.stern)}", f"Point de portage{sep}{c(b.carry)}", "",
                 sep.join(["Distance de l'étrave (cm)", "Tour de coque", "Tour complet", "Remarques"])]
        lines += [sep.join([f"{at}", c(h), c(f), ["", "mesuré deux fois"][at == 120]]) for at, h, f in b.rows]
        enc = ["utf-8-sig", "cp1252", "utf-16", "utf-8"][i]
        emit("csv-french", i, "tsv" if sep == "\t" else "csv", text(lines, enc, "\r\n"), "cm", b.want())


def quoted_comma_csv():
    for i, b in enumerate(boats("csv-quoted", 3, "cm")):
        q = lambda x: f'"{x:g},5"' if x == b.rows[2][1] else f"{x:g}"
        at2 = b.rows[2][0]
        lines = ["Length overall cm," + f"{b.loa:g}", f"Bow height cm,{b.bow:g}", f"Stern height cm,{b.stern:g}", f"Carry point cm,{b.carry:g}",
                 "from bow cm,under the hull cm,all the way round cm"]
        lines += [f"{at},{q(h) if at == at2 else f'{h:g}'},{f:g}" for at, h, f in b.rows]
        want = b.want()
        want[f"hull_girth@{at2}"] = b.rows[2][1] + .5
        emit("csv-quoted", i, "csv", text(lines), "cm", want)


def block_xlsx():
    for i, b in enumerate(boats("xlsx-block", 5)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.title = ["Canoe", "Sheet1", "measurements", "Boat", "Tabelle1"][i]
        ws["A1"] = "MEASUREMENTS FOR COVER"
        ws["A1"].font = Font(bold=True, size=16)
        ws["A2"] = "Please call me with any question, 902 555 0142"
        ws["A4"], ws["B4"] = "Name", b.name
        ws["A5"], ws["B5"] = "Boat", b.boat
        ws["A6"], ws["B6"] = "Overall length", feet(b.loa)
        ws["A7"], ws["B7"] = "Height of bow (in)", b.bow
        ws["A8"], ws["B8"] = "Height of stern (in)", b.stern
        ws["A9"], ws["B9"] = "Carrying thwart, inches from bow", b.carry
        start = 12
        for c, h in enumerate(["Station (ft)", "Hull girth (in)", "Full girth (in)", "Notes"]):
            ws.cell(start, 1 + c, h)
        for k, (at, h, f) in enumerate(b.rows):
            ws.cell(start + 1 + k, 1, at // 12), ws.cell(start + 1 + k, 2, h), ws.cell(start + 1 + k, 3, f)
        ws.cell(start + 4, 4, "tape over the thwart, about 1 in higher?")
        emit("xlsx-block", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def across_xlsx():
    for i, b in enumerate(boats("xlsx-across", 4)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.append(["Boat survey", None, b.boat])
        ws.append([])
        ws.append(["Feet from bow"] + [at // 12 for at, _, _ in b.rows])
        ws.append(["Girth open (gunwale, under, gunwale)"] + [dec(h) if i == 1 else h for _, h, _ in b.rows])
        ws.append(["Girth closed (all round)"] + [dec(f) if i == 1 else f for _, _, f in b.rows])
        ws.append([])
        ws.append(["LOA", feet_words(b.loa)])
        ws.append(["Bow height", mark(b.bow), None, "Stern height", mark(b.stern)])
        ws.append(["Carry point", mark(b.carry)])
        emit("xlsx-across", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def merged_xlsx():
    for i, b in enumerate(boats("xlsx-merged", 4)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.merge_cells("A1:D1")
        ws["A1"] = f"Cover survey: {b.boat}"
        ws.merge_cells("A3:A4"), ws.merge_cells("B3:C3"), ws.merge_cells("D3:D4")
        ws["A3"], ws["B3"], ws["D3"] = "Station", "Girth, inches", "Remark"
        ws["B4"], ws["C4"] = "hull", "full"
        for k, (at, h, f) in enumerate(b.rows):
            ws.cell(5 + k, 1, f"{at // 12} ft"), ws.cell(5 + k, 2, h), ws.cell(5 + k, 3, f)
        e = 6 + len(b.rows)
        for k, (label, value) in enumerate([("Length over all", feet(b.loa)), ("Bow", mark(b.bow)), ("Stern", mark(b.stern)), ("Carry point", mark(b.carry)),
                                            ("Greatest girth at", feet(b.great[0])), ("   hull there", mark(b.great[1])), ("   full there", mark(b.great[2])),
                                            ("   opening there", mark(b.opening))]):
            ws.cell(e + k, 1, label), ws.cell(e + k, 2, value)
        emit("xlsx-merged", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want(**b.want_great()))


def sheets_xlsx():
    for i, b in enumerate(boats("xlsx-sheets", 4)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.title = "Boat"
        for row in [["Customer", b.name], ["Make and model", b.boat], ["Length overall (in)", b.loa], ["Bow height (in)", b.bow],
                    ["Stern height (in)", b.stern], ["Carry point (in)", b.carry]]:
            ws.append(row)
        ws = wb.create_sheet("Stations")
        ws.append(["Distance (in)", "Hull girth (in)", "Full girth (in)"])
        for row in b.rows:
            ws.append(list(row))
        ws = wb.create_sheet("Prices")
        ws.append(["Item", "Pieces", "Each", "Sum"])
        for row in [["cloth, yards", 7, 18.5, 129.5], ["cord, feet", 40, .35, 14], ["eyelets", 24, .2, 4.8]]:
            ws.append(row)
        emit("xlsx-sheets", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def formats_xlsx():
    for i, b in enumerate(boats("xlsx-formats", 4)):
        fmt = ['0.0" in"', "# ?/?", '0.0"″"', "General"][i]

        def save(path):
            wb = xlsxwriter.Workbook(path)
            ws, f = wb.add_worksheet("Survey"), wb.add_format({"num_format": fmt})
            ws.write_row(0, 0, ["Length overall", "", "Bow height", "", "Stern height", "", "Carry point"])
            ws.write_number(1, 0, b.loa, f), ws.write_number(1, 2, b.bow, f), ws.write_number(1, 4, b.stern, f), ws.write_number(1, 6, b.carry, f)
            ws.write(2, 0, "all numbers in inches")
            ws.write_row(4, 0, ["station", "hull girth", "full girth"])
            for k, (at, h, full) in enumerate(b.rows):
                ws.write(5 + k, 0, f"{at // 12}'")
                ws.write_number(5 + k, 1, h, f), ws.write_number(5 + k, 2, full, f)
            wb.close()
        emit("xlsx-formats", i, "xlsx", saved(save, "xlsx"), "in", b.want())


def formulas_xlsx():
    for i, b in enumerate(boats("xlsx-formulas", 4)):
        def save(path):
            wb = xlsxwriter.Workbook(path)
            ws = wb.add_worksheet("Girths")
            ws.write_row(0, 0, ["Station ft", "Hull girth in", "Opening in", "Full girth in"])
            for k, (at, h, f) in enumerate(b.rows):
                ws.write_number(1 + k, 0, at // 12), ws.write_number(1 + k, 1, h), ws.write_number(1 + k, 3, f)
                ws.write_formula(1 + k, 2, f"=D{k + 2}-B{k + 2}", None, f - h)
            n = len(b.rows)
            ws.write(n + 1, 0, "Average")
            ws.write_formula(n + 1, 1, f"=AVERAGE(B2:B{n + 1})", None, sum(r[1] for r in b.rows) / n)
            ws.write_formula(n + 1, 3, f"=AVERAGE(D2:D{n + 1})", None, sum(r[2] for r in b.rows) / n)
            ws.write_row(n + 3, 0, ["Length overall", feet_words(b.loa)])
            ws.write_row(n + 4, 0, ["Bow height", mark(b.bow)])
            ws.write_row(n + 5, 0, ["Stern height", mark(b.stern)])
            ws.write_row(n + 6, 0, ["Carry point", mark(b.carry)])
            wb.close()
        emit("xlsx-formulas", i, "xlsx", saved(save, "xlsx"), "in", b.want())


def uncalculated_xlsx():
    for i, b in enumerate(boats("xlsx-uncalculated", 2)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.append(["Length overall", feet_words(b.loa)]), ws.append(["Bow height", mark(b.bow)])
        ws.append(["Stern height", mark(b.stern)]), ws.append(["Carry point", mark(b.carry)])
        ws.append(["Station", "Hull girth (in)", "Full girth (in)"])
        for at, h, f in b.rows:
            ws.append([f"{at // 12} ft", h, f])
        at = b.rows[3][0]
        ws.cell(9, 3, "=B9+20")  # openpyxl saves no value for a formula
        emit("xlsx-uncalculated", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want(skip=[f"full_girth@{at}"]), [f"full_girth@{at}"])


def gaps_xlsx():
    for i, b in enumerate(boats("xlsx-gaps", 4)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws["B2"], ws["B3"], ws["B4"], ws["B5"] = "L.O.A.", "Height, bow", "Height, stern", "Yoke from bow"
        ws["D2"], ws["D3"], ws["D4"], ws["D5"] = feet(b.loa), dash(b.bow), dash(b.stern), dash(b.carry)
        ws["B8"], ws["D8"], ws["F8"] = "ft", "bottom (in)\ngunwale to gunwale", "loop (in)\nall the way round"
        for k, (at, h, f) in enumerate(b.rows):
            row = 9 + 2 * k
            ws.cell(row, 2, at // 12), ws.cell(row, 4, dash(h)), ws.cell(row, 6, dash(f))
        emit("xlsx-gaps", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def reversed_csv():
    for i, b in enumerate(boats("csv-reversed", 3)):
        lines = ["full girth in,hull girth in,station ft"]
        lines += [f"{dec(f)},{dec(h)},{at // 12}" for at, h, f in b.rows]
        lines += ["", f"length overall in,{dec(b.loa)}", f"bow height in,{dec(b.bow)}", f"stern height in,{dec(b.stern)}", f"carry point in,{dec(b.carry)}"]
        emit("csv-reversed", i, "csv", text(lines), "in", b.want())


def side_by_side_xlsx():
    for i, b in enumerate(boats("xlsx-columns", 4)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.append(["Length overall", feet_words(b.loa), None, None, "Bow height", mark(b.bow)])
        ws.append(["Carry point", mark(b.carry), None, None, "Stern height", mark(b.stern)])
        ws.append([])
        head = ["Station", "Hull girth (in)", "Full girth (in)"]
        ws.append(head + [None] + head)
        half = (len(b.rows) + 1) // 2
        for k in range(half):
            left, right = b.rows[k], b.rows[k + half] if k + half < len(b.rows) else None
            row = [f"{left[0] // 12} ft", left[1], left[2], None]
            ws.append(row + ([f"{right[0] // 12} ft", right[1], right[2]] if right else []))
        emit("xlsx-columns", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def feet_xlsx():
    for i, b in enumerate(boats("xlsx-feet", 4)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.append(["all measures in feet and inches"])
        for label, value in [("length overall", b.loa), ("bow height", b.bow), ("stern height", b.stern), ("carry point", b.carry)]:
            ws.append([label, feet(value)])
        ws.append(["station", "hull girth", "full girth"])
        for at, h, f in b.rows:
            how = feet_words if i == 1 else feet
            ws.append([f"{at // 12}'", how(h), how(f)])
        emit("xlsx-feet", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def ods():
    for i, b in enumerate(boats("ods", 5, "cm")):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.append(["Station cm", "Hull girth cm", "Full girth cm", None, "Length overall", f"{b.loa:g} cm"])
        side = [("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry), ("Make", None)]
        for k, (at, h, f) in enumerate(b.rows):
            row = [at, h, f]
            if k < 3:
                row += [None, side[k][0], f"{side[k][1]:g} cm"]
            ws.append(row)
        emit("ods", i, "ods", convert(saved(wb.save, "xlsx"), "xlsx", "ods"), "cm", b.want())


def office_xlsx():
    for i, b in enumerate(boats("xlsx-office", 3)):
        lines = [f"Overall length;{feet_words(b.loa)}", f"Bow height;{frac(b.bow)} in", f"Stern height;{frac(b.stern)} in", f"Carry point;{frac(b.carry)} in",
                 "Station;Hull girth (in);Full girth (in)"] + [f"{at // 12} ft;{dec(h)};{dec(f)}" for at, h, f in b.rows]
        emit("xlsx-office", i, "xlsx", convert_csv(text(lines)), "in", b.want())


def convert_csv(data):
    with tempfile.TemporaryDirectory() as d:
        with open(os.path.join(d, "x.csv"), "wb") as f:
            f.write(data)
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{tempfile.gettempdir()}/lo-profile", "--infilter=CSV:59,34,76,1",
                        "--convert-to", "xlsx", "--outdir", d, os.path.join(d, "x.csv")], check=True, capture_output=True, timeout=120)
        with open(os.path.join(d, "x.xlsx"), "rb") as f:
            return f.read()


def word(b, i):
    d = docx.Document()
    d.add_heading("Survey of my canoe", 1)
    d.add_paragraph(f"Dear Pinfold, here are the measurements of {b.boat}.")
    t = d.add_table(rows=0, cols=2)
    for label, value in [("Length overall", feet_words(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]:
        row = t.add_row().cells
        row[0].text, row[1].text = label, value
    d.add_paragraph("Girths, in inches:")
    t = d.add_table(rows=1, cols=3)
    for c, label in enumerate(["Station", "Hull girth", "Full girth"]):
        t.rows[0].cells[c].text = label
    for at, h, f in b.rows:
        row = t.add_row().cells
        row[0].text, row[1].text, row[2].text = f"{at // 12} ft", frac(h), frac(f)
    d.add_paragraph("Thank you, " + b.name)
    return saved(d.save, "docx")


def word_docx():
    for i, b in enumerate(boats("docx-tables", 4)):
        emit("docx-tables", i, "docx", word(b, i), "in", b.want())


def paragraphs_docx():
    for i, b in enumerate(boats("docx-lines", 4)):
        d = docx.Document()
        d.add_paragraph(f"Length overall: {feet_words(b.loa)}")
        d.add_paragraph(f"Bow height: {mark(b.bow)}\tStern height: {mark(b.stern)}" if i % 2 else f"Bow height: {mark(b.bow)}")
        if not i % 2:
            d.add_paragraph(f"Stern height: {mark(b.stern)}")
        d.add_paragraph(f"Carry point: {mark(b.carry)}")
        d.add_paragraph("station\thull girth (in)\tfull girth (in)")
        for at, h, f in b.rows:
            d.add_paragraph(f"{at // 12} ft\t{frac(h)}\t{frac(f)}")
        emit("docx-lines", i, "docx", saved(d.save, "docx"), "in", b.want())


def two_tables_docx():
    for i, b in enumerate(boats("docx-pages", 3)):
        d = docx.Document()
        d.add_paragraph(f"LOA {feet(b.loa)}")
        half = len(b.rows) // 2
        for k, part in enumerate([b.rows[:half], b.rows[half:]]):
            d.add_paragraph(f"Page {k + 1}")
            t = d.add_table(rows=1, cols=3)
            t.style = "Table Grid"
            for c, label in enumerate(["ft from bow", "hull girth, in", "full girth, in"]):
                t.rows[0].cells[c].text = label
            for at, h, f in part:
                row = t.add_row().cells
                row[0].text, row[1].text, row[2].text = str(at // 12), dec(h), dec(f)
        d.add_paragraph(f"Height of the bow {mark(b.bow)}")
        d.add_paragraph(f"Height of the stern {mark(b.stern)}")
        d.add_paragraph(f"Carry point {mark(b.carry)}")
        emit("docx-pages", i, "docx", saved(d.save, "docx"), "in", b.want())


def drawn_pdf():
    for i, b in enumerate(boats("pdf-drawn", 4)):
        def save(path):
            c = canvas.Canvas(path, pagesize=[letter, A4][i % 2], invariant=1)
            c.setFont("Helvetica-Bold", 15), c.drawString(60, 740, "Boat survey")
            c.setFont("Helvetica", 11)
            y = 710
            for label, value in [("Name", b.name), ("Length overall", feet_words(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]:
                c.drawString(60, y, label), c.drawString(200, y, value)
                y -= 18
            y -= 14
            for x, label in zip((60, 160, 280), ("Station", "Hull girth (in)", "Full girth (in)")):
                c.drawString(x, y, label)
            for at, h, f in b.rows:
                y -= 18
                c.drawString(60, y, f"{at // 12} ft"), c.drawRightString(220, y, frac(h)), c.drawRightString(340, y, frac(f))
                c.line(55, y - 4, 400, y - 4)
            c.showPage(), c.save()
        emit("pdf-drawn", i, "pdf", saved(save, "pdf"), "in", b.want())


def office_pdf():
    for i, b in enumerate(boats("pdf-office", 3)):
        emit("pdf-office", i, "pdf", convert(word(b, i), "docx", "pdf"), "in", b.want())


def page(b, how=frac, units=True):
    unit = " (in)" if units else ""
    rows = "".join(f"<tr><td>{at // 12} ft</td><td>{how(h)}</td><td>{how(f)}</td></tr>" for at, h, f in b.rows)
    return (f"<html><body><p>Hello, my numbers for the cover:</p><table><tr><td>Length overall</td><td>{html.escape(feet(b.loa))}</td></tr>"
            f"<tr><td>Bow height</td><td>{html.escape(mark(b.bow))}</td></tr><tr><td>Stern height</td><td>{html.escape(mark(b.stern))}</td></tr>"
            f"<tr><td>Carry point</td><td>{html.escape(mark(b.carry))}</td></tr></table><table border=1><tr><th>Station</th><th>Hull girth{unit}</th>"
            f"<th>Full girth{unit}</th></tr>{rows}</table>")


def printed_pdf():
    for i, b in enumerate(boats("pdf-printed", 3)):
        emit("pdf-printed", i, "pdf", printed(page(b) + "</body></html>"), "in", b.want())


def fields_pdf():
    for i, b in enumerate(boats("pdf-fields", 3)):
        def save(path):
            c = canvas.Canvas(path, pagesize=letter, invariant=1)
            c.setFont("Helvetica", 11)
            form, y = c.acroForm, 740

            def field(name, label, value, x):
                form.textfield(name=name, tooltip=label, value=value, x=x, y=y - 4, width=70, height=16, borderWidth=1, fontSize=10)
            for name, label, value in [("loa", "Length overall", feet_words(b.loa)), ("bow", "Bow height (in)", frac(b.bow)), ("stern", "Stern height (in)", frac(b.stern)), ("carry", "Carry point (in)", frac(b.carry))]:
                c.drawString(60, y, label), field(name, label, value, 200)
                y -= 22
            c.drawString(60, y, "Station"), c.drawString(140, y, "Hull girth (in)"), c.drawString(240, y, "Full girth (in)")
            for at, h, f in b.rows:
                y -= 20
                c.drawString(60, y, f"{at // 12} ft")
                field(f"hull_{at // 12}", f"Hull girth at {at // 12} ft, inches", frac(h), 140)
                field(f"full_{at // 12}", f"Full girth at {at // 12} ft, inches", frac(f), 240)
            c.showPage(), c.save()
        emit("pdf-fields", i, "pdf", saved(save, "pdf"), "in", b.want())


def hidden_pdf():
    """White numbers on white, under what is seen: no reading may come of them."""
    b = Boat("pdf-hidden")

    def save(path):
        c = canvas.Canvas(path, pagesize=letter, invariant=1)
        c.setFont("Helvetica", 11)
        y = 700
        c.drawString(60, y, "Station"), c.drawString(160, y, "Hull girth (in)"), c.drawString(280, y, "Full girth (in)")
        for at, h, f in b.rows:
            y -= 18
            c.setFillGray(0)
            c.drawString(60, y, f"{at // 12} ft"), c.drawString(160, y, frac(h))
            c.setFillGray(1)
            c.drawString(280, y, frac(f))
        c.showPage(), c.save()
    hull = {f"hull_girth@{at}": h for at, h, _ in b.rows}
    emit("pdf-hidden", 0, "pdf", saved(save, "pdf"), "in", hull, [f"full_girth@{at}" for at, _, _ in b.rows])


def aligned_txt():
    for i, b in enumerate(boats("txt-aligned", 5)):
        how = [frac, dec, glyph, mark, dash][i]
        lines = ["Here is the boat.", "", f"Length overall   {feet_words(b.loa)}", f"Bow height       {mark(b.bow)}", f"Stern height     {mark(b.stern)}", f"Carry point      {mark(b.carry)}", "",
                 "station   hull girth   full girth   (inches)"]
        lines += [f"{at // 12:>2} ft     {how(h):<12} {how(f)}" for at, h, f in b.rows]
        emit("txt-aligned", i, "txt", text(lines, newline=["\n", "\r\n"][i % 2]), "in", b.want())


def keyed_txt():
    for i, b in enumerate(boats("txt-keyed", 3)):
        lines = [f"length overall = {feet_words(b.loa)}", f"bow height = {mark(b.bow)}", f"stern height = {mark(b.stern)}", f"carry point = {mark(b.carry)}"]
        lines += [f"station {at // 12} ft: hull girth = {dec(h)} in, full girth = {dec(f)} in" for at, h, f in b.rows]
        emit("txt-keyed", i, "txt", text(lines), "in", b.want())


def list_mail():
    for i, b in enumerate(boats("mail-list", 5)):
        how = [frac, dec, mark, glyph, frac][i]
        body = f"Hi Pinfold,\n\nfinally got round to it. The boat is {feet_words(b.loa)} overall. Bow height {mark(b.bow)}, stern height {mark(b.stern)}, carry point {mark(b.carry)}.\n\n"
        body += "Hull girth / full girth in inches:\n\n"
        sep = [" / ", " and ", " / ", ", ", "  "][i]
        body += "\n".join(f"{at // 12} ft: {how(h)}{sep}{how(f)}" for at, h, f in b.rows)
        body += f"\n\nCall me at (902) 555-0117 if something is off, after 6 pm.\n\nThanks\n{b.name}\n-- \n14 Quay Rd, Mahone 0417\nmobile 902 555 0117\n"
        emit("mail-list", i, "eml", mail(f"canoe measurements {i}", body), "in", b.want())


def quoted_mail():
    for i, b in enumerate(boats("mail-quoted", 4)):
        body = f"Hello,\n\nLOA {feet(b.loa)}\nbow {mark(b.bow)}\nstern {mark(b.stern)}\ncarry point {mark(b.carry)}\n\nstation\thull girth (in)\tfull girth (in)\n"
        body += "\n".join(f"{at // 12} ft\t{frac(h)}\t{frac(f)}" for at, h, f in b.rows)
        body += "\n\nBest, Tom\n\nOn Mon, 4 May 2026 at 10:12, Pinfold Cover Loft <orders@pinfold.example> wrote:\n"
        body += "> Please measure hull girth and full girth at every foot.\n> For example:\n> 1 ft  31 1/2  37\n> 2 ft  33  41 1/2\n> Length overall 17 ft 6 in\n"
        emit("mail-quoted", i, "eml", mail(f"Re: your boat {i}", body), "in", b.want())


def html_mail():
    for i, b in enumerate(boats("mail-html", 5)):
        tail = ("<p>Regards<br>June Hartigan<br>tel. 902 555 0166</p><blockquote type=cite>On 3 May 2026 Pinfold wrote: the sample boat is 16 ft long, bow height 20 in</blockquote></body></html>"
                if i % 2 else "<div>June Hartigan</div><div style='font-size:10px'>Suite 220, 18 Dock Street</div></body></html>")
        emit("mail-html", i, "eml", mail(f"numbers {i}", None, page(b, [frac, dec, mark, glyph, frac][i]) + tail), "in", b.want())


def french_mail():
    for i, b in enumerate(boats("mail-french", 4, "cm")):
        body = f"Bonjour,\n\nvoici les mesures de mon canot.\nLongueur hors tout : {b.loa:g} cm\nHauteur de l'étrave : {b.bow:g} cm\nHauteur de la poupe : {b.stern:g} cm\nPoint de portage : {b.carry:g} cm\n\n"
        body += "Distance, tour de coque, tour complet :\n" if i % 2 else "distance / tour de coque / tour complet\n"
        body += "\n".join(f"{at} cm : {h:g} / {f:g}" for at, h, f in b.rows)
        body += "\n\nMerci d'avance,\nLise Corbin\n06 55 01 02 03\n"
        emit("mail-french", i, "eml", mail(f"mesures du canot {i}", body, charset=["utf-8", "iso-8859-1"][i % 2]), "cm", b.want())


def sheet_mail():
    for i, b in enumerate(boats("mail-sheet", 4)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.append(["Station", "Hull girth (in)", "Full girth (in)"])
        for at, h, f in b.rows:
            ws.append([f"{at // 12} ft", h, f])
        body = f"Good morning,\n\nthe girths are in the sheet. Length overall is {feet_words(b.loa)}, the bow height is {frac(b.bow)} inches and the stern height is {frac(b.stern)} inches. Carry point: {frac(b.carry)} inches.\n\nJune\n"
        emit("mail-sheet", i, "eml", mail(f"survey {i}", body, files=[("girths.xlsx", XLSX, saved(wb.save, "xlsx"))]), "in", b.want())


def split_mail():
    for i, b in enumerate(boats("mail-split", 3)):
        half = len(b.rows) // 2
        head = "station,hull girth in,full girth in"
        one = text([f"length overall,{feet_words(b.loa)}", f"bow height,{frac(b.bow)} in", f"carry point,{frac(b.carry)} in", head] + [f"{at // 12} ft,{dec(h)},{dec(f)}" for at, h, f in b.rows[:half]])
        two = text([f"stern height,{frac(b.stern)} in", head] + [f"{at // 12} ft,{dec(h)},{dec(f)}" for at, h, f in b.rows[half:]])
        emit("mail-split", i, "eml", mail(f"two pages {i}", "Both pages attached.\n", files=[("page1.csv", "text/csv", one), ("page2.csv", "text/csv", two)]), "in", b.want())


def disagreeing_mail():
    for i, b in enumerate(boats("mail-disagree", 2)):
        head = "station,hull girth in,full girth in"
        rows = [f"{at // 12} ft,{dec(h)},{dec(f)}" for at, h, f in b.rows]
        at, h, f = b.rows[4]
        csv = text([f"length overall,{feet_words(b.loa)}", f"bow height,{frac(b.bow)} in", f"stern height,{frac(b.stern)} in", f"carry point,{frac(b.carry)} in", head] + rows)
        body = f"Hello, the sheet is attached.\n\n{at // 12} ft: hull girth {frac(h + 3)} in\n\nTom\n"
        key = f"hull_girth@{at}"
        emit("mail-disagree", i, "eml", mail(f"sheet {i}", body, files=[("boat.csv", "text/csv", csv)]), "in", b.want(skip=[key]), [key])


def html_file():
    for i, b in enumerate(boats("html", 3)):
        emit("html", i, "html", page(b, [frac, dec, glyph][i]).encode() + b"</body></html>", "in", b.want())


def words_csv():
    heads = [("Ft from bow", "Under the hull, gunwale to gunwale (in)", "Right round, closed (in)"), ("Distance aft (ft)", "Open girth (in)", "Total girth (in)"),
             ("Position (ft)", "Skin girth, inches", "Girth incl. opening, inches"), ("Mark (ft)", "Girth under (inches)", "Girth around (inches)")]
    for i, b in enumerate(boats("csv-words", 4)):
        lines = [f"Length of boat,{feet_words(b.loa)}", f"Height at bow,{mark(b.bow)}", f"Height at stern,{mark(b.stern)}", f"Carry handle point,{mark(b.carry)}"]
        lines += [",".join(f'"{h}"' for h in heads[i])]
        lines += [f"{at // 12},{frac(h)},{frac(f)}" for at, h, f in b.rows]
        emit("csv-words", i, "csv", text(lines), "in", b.want())


def doubts_csv():
    """Numbers that nobody can be sure of."""
    for i, b in enumerate(boats("csv-doubts", 5)):
        bad = ["46-47", "about 46", "41/2", '"', "1,250"]
        at, h, f = b.rows[3]
        lines = [f"length overall;{feet_words(b.loa)}", f"bow height;{mark(b.bow)}", f"stern height;{mark(b.stern)}", f"carry point;{mark(b.carry)}", "station;hull girth (in);full girth (in)"]
        lines += [f"{a // 12} ft;{bad[i] if a == at else dec(hh)};{dec(ff)}" for a, hh, ff in b.rows]
        key = f"hull_girth@{at}"
        emit("csv-doubts", i, "csv", text(lines), "in", b.want(skip=[key]), [key])


def date_xlsx():
    for i, b in enumerate(boats("xlsx-date", 3)):
        wb = openpyxl.Workbook()
        ws = wb.active
        for label, value in [("Length overall", feet_words(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]:
            ws.append([label, value])
        ws.append(["Station", "Hull girth (in)", "Full girth (in)"])
        for at, h, f in b.rows:
            ws.append([f"{at // 12} ft", h, f])
        at = b.rows[i + 1][0]
        ws.cell(6 + i + 1, 2, datetime.date(2026, 1, 2))
        key = f"hull_girth@{at}"
        emit("xlsx-date", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want(skip=[key]), [key])


def metric_xlsx():
    for i, b in enumerate(boats("xlsx-metric", 4, "cm")):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.title = "Mesures" if i % 2 else "Metric"
        head = ["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"] if i % 2 else ["cm from bow", "hull girth, cm", "full girth, cm"]
        labels = ["Longueur hors tout (m)", "Hauteur étrave (cm)", "Hauteur poupe (cm)", "Point de portage (cm)"] if i % 2 else ["Length overall (m)", "Bow height (cm)", "Stern height (cm)", "Carry point (cm)"]
        for label, value in zip(labels, [b.loa / 100, b.bow, b.stern, b.carry]):
            ws.append([label, value])
        ws.append([])
        ws.append(head)
        for row in b.rows:
            ws.append(list(row))
        emit("xlsx-metric", i, "xlsx", saved(wb.save, "xlsx"), "cm", b.want())


def sentences_mail():
    for i, b in enumerate(boats("mail-sentences", 3)):
        body = f"Dear all,\n\nthe canoe is {feet_words(b.loa)} long overall. The bow is {frac(b.bow)} inches high and the stern {frac(b.stern)} inches. The carry point is {frac(b.carry)} inches from the bow.\n\n"
        body += "\n".join(f"At {at // 12} feet the hull girth is {frac(h)} inches and the full girth {frac(f)} inches." for at, h, f in b.rows)
        body += "\n\nI paid the deposit of $150.00 on 2 May, order 30417.\nYours, June\n"
        emit("mail-sentences", i, "eml", mail(f"my canoe {i}", body), "in", b.want())


def transom_csv():
    for i, b in enumerate(boats("csv-transom", 3)):
        h, f = b.rows[-1][1] - 1, b.rows[-1][2] - 3
        lines = ["unit,in", "stern,square", f"length overall,{feet_words(b.loa)}", f"bow height,{frac(b.bow)}", f"stern height,{frac(b.stern)}", f"carry point,{frac(b.carry)}", f"transom,{frac(h)},{frac(f)}",
                 "station,hull girth,full girth"]
        lines += [f"{at // 12} ft,{frac(hh)},{frac(ff)}" for at, hh, ff in b.rows]
        emit("csv-transom", i, "csv", text(lines), "in", b.want(**{"transom.hull_girth": h, "transom.full_girth": f}))


def main():
    for name in os.listdir(HERE):
        path = os.path.join(HERE, name)
        if os.path.isfile(path) and name not in ("make.py", "README.md"):
            os.remove(path)
    for layout in (contract_csv, french_csv, quoted_comma_csv, block_xlsx, across_xlsx, merged_xlsx, sheets_xlsx, formats_xlsx, formulas_xlsx, uncalculated_xlsx, gaps_xlsx,
                   reversed_csv, side_by_side_xlsx, feet_xlsx, ods, office_xlsx, word_docx, paragraphs_docx, two_tables_docx, drawn_pdf, office_pdf, printed_pdf, fields_pdf, hidden_pdf,
                   aligned_txt, keyed_txt, list_mail, quoted_mail, html_mail, french_mail, sheet_mail, split_mail, disagreeing_mail, html_file, words_csv, doubts_csv, date_xlsx,
                   metric_xlsx, sentences_mail, transom_csv):
        layout()
    shutil.rmtree(f"{tempfile.gettempdir()}/lo-profile", ignore_errors=True)
    print(f"{count} files")


main()
