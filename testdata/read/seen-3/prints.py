"""PDF text: drawn by ReportLab, printed by Chromium, exported by LibreOffice."""
import io

import docx
import openpyxl
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape, letter as paper
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.pdfgen import canvas
from reportlab.platypus import Paragraph, SimpleDocTemplate, Spacer, Table, TableStyle

from craft import cm, curly, dec, feet, feetcurly, feetwords, fleet, ft, glyph, halves, inch, mark, metrescomma, plain, quote, tick
from files import book, convert, emit, letter, printed
from letters import grid

RULES = TableStyle([("GRID", (0, 0), (-1, -1), .4, colors.grey), ("BACKGROUND", (0, 0), (-1, 0), colors.lightgrey)])


def drawn(flow, size=paper):
    out = io.BytesIO()
    SimpleDocTemplate(out, pagesize=size, invariant=1, title="Boat").build(flow)
    return out.getvalue()


def report():
    """A ruled table under four lines."""
    style = getSampleStyleSheet()
    for i, b in enumerate(fleet("report", 3)):
        write = [plain, dec, quote][i]
        flow = [Paragraph("Boat survey", style["Title"]), Paragraph(f"{b.person}, {b.craft}", style["Normal"]), Spacer(1, 10)]
        flow += [Paragraph(f"{n}: {x}", style["Normal"]) for n, x in [("Length overall", feetwords(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))]]
        flow += [Spacer(1, 10), Table([["Station (ft)", "Hull girth" + [" (in)", " (in)", ""][i], "Full girth" + [" (in)", " (in)", ""][i]]] + [[ft(at), write(h), write(f)] for at, h, f in b.rows], style=RULES)]
        emit("pdf-report", i, "pdf", drawn(flow), "in", b.want())


def typewriter():
    """A typed page, one string a line."""
    for i, b in enumerate(fleet("typewriter", 2)):
        out = io.BytesIO()
        c = canvas.Canvas(out, pagesize=paper, invariant=1)
        lines = ["To: Pinfold Cover Loft", f"From: {b.person}, tel. {b.phone}", "Date: 3 May 2026", "", f"Length overall .. {feet(b.loa)}", f"Bow height ...... {quote(b.bow)}", f"Stern height .... {quote(b.stern)}", f"Carry point ..... {quote(b.carry)}", "",
                 f"{'station':<12}{'hull girth':<14}{'full girth':<14}"] + [f"{mark(at):<12}{quote(h):<14}{quote(f):<14}" for at, h, f in b.rows] + ["", "Page 1 of 1"]
        c.setFont("Courier", 11)
        for k, line in enumerate(lines):
            c.drawString(72, 720 - 15 * k, line)
        c.save()
        emit("pdf-typewriter", i, "pdf", out.getvalue(), "in", b.want())


def columns():
    """Two blocks of stations side by side, drawn number by number."""
    for i, b in enumerate(fleet("columns", 2)):
        out = io.BytesIO()
        c = canvas.Canvas(out, pagesize=A4, invariant=1)
        c.setFont("Helvetica-Bold", 16)
        c.drawString(60, 790, "Measurements of a boat")
        c.setFont("Helvetica", 11)
        for k, (name, x) in enumerate([("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry))]):
            c.drawString(60, 760 - 16 * k, name)
            c.drawRightString(240, 760 - 16 * k, x)
        for left, rows in zip((60, 320), halves(b.rows)):
            for word, x in zip(("Station", "Hull girth", "Full girth"), (0, 70, 140)):
                c.drawString(left + x, 670, word)
            for k, (at, h, f) in enumerate(rows):
                c.drawString(left, 650 - 18 * k, mark(at))
                c.drawRightString(left + 110, 650 - 18 * k, dec(h))
                c.drawRightString(left + 180, 650 - 18 * k, dec(f))
        c.save()
        emit("pdf-columns", i, "pdf", out.getvalue(), "in", b.want())


def web():
    """A web page printed to PDF."""
    for i, b in enumerate(fleet("web", 2)):
        write = [curly, plain][i]
        rows = "".join(f"<tr><td>{tick(at)}</td><td>{write(h)}</td><td>{write(f)}</td></tr>" for at, h, f in b.rows)
        page = (f"<html><style>body{{font-family:{['sans-serif', 'serif'][i]}}} td,th{{padding:2px 14px;border-bottom:1px solid #999;text-align:right}}</style><body><h2>{b.craft}</h2>"
                f"<p>Owner: {b.person}<p><b>Length overall:</b> {feetcurly(b.loa)}<br><b>Bow height:</b> {curly(b.bow)}<br><b>Stern height:</b> {curly(b.stern)}<br><b>Carry point:</b> {curly(b.carry)}"
                f"<table><tr><th>From bow<th>Hull girth{['', ' (in)'][i]}<th>Full girth{['', ' (in)'][i]}</tr>{rows}</table></body></html>")
        emit("pdf-web", i, "pdf", printed(page), "in", b.want())


def writer():
    """A word processor's document saved as PDF, French in the second."""
    b = fleet("writer", 1)[0]
    doc = docx.Document()
    doc.add_paragraph(f"Survey of {b.craft}")
    grid(doc, [["Length overall", feetwords(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)]])
    doc.add_paragraph("Girths in inches")
    grid(doc, [["Station", "Hull girth", "Full girth"]] + [[mark(at), glyph(h), glyph(f)] for at, h, f in b.rows])
    emit("pdf-writer", 0, "pdf", convert(letter(doc), "docx", "pdf"), "in", b.want())
    b = fleet("writer-fr", 1, unit="cm", french=True)[0]
    doc = docx.Document()
    doc.add_paragraph(f"Relevé de {b.person}")
    for name, x in [("Longueur hors tout", metrescomma(b.loa)), ("Hauteur de l'étrave", cm(b.bow)), ("Hauteur de la poupe", cm(b.stern)), ("Point de portage", cm(b.carry))]:
        doc.add_paragraph(f"{name} : {x}")
    grid(doc, [["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [[str(x) for x in r] for r in b.rows])
    emit("pdf-writer", 1, "pdf", convert(letter(doc), "docx", "pdf"), "cm", b.want())


def calc():
    """A spreadsheet printed to PDF."""
    for i, b in enumerate(fleet("calc", 2)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.column_dimensions["A"].width = 24
        for row in [["Length overall (in)", b.loa], ["Bow height (in)", b.bow], ["Stern height (in)", b.stern], ["Carry point (in)", b.carry], [], ["Station (ft)", "Hull (in)", "Full (in)"]] + [[ft(at), h, f] for at, h, f in b.rows]:
            ws.append(row)
        for row in ws.iter_rows(min_row=7, min_col=2):
            for c in row:
                c.number_format = ["0.0", "General"][i]
        emit("pdf-calc", i, "pdf", convert(book(wb), "xlsx", "pdf"), "in", b.want())


def wide():
    """Landscape, stations along the top."""
    style = getSampleStyleSheet()
    for i, b in enumerate(fleet("wide", 2, feet=(11, 15))):
        table = Table([["Station"] + [tick(at) for at, _, _ in b.rows], ["Hull girth, in"] + [dec(h) for _, h, _ in b.rows], ["Full girth, in"] + [dec(f) for _, _, f in b.rows]], style=RULES)
        flow = [table, Spacer(1, 14), Paragraph(f"Length overall {feetwords(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.", style["Normal"])]
        emit("pdf-wide", i, "pdf", drawn(flow, landscape(A4)), "in", b.want())


LAYOUTS = (report, typewriter, columns, web, writer, calc, wide)
