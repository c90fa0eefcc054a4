"""Surveys as PDF files."""
import html
import io

import openpyxl
from openpyxl.styles import Border, Side
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape, letter
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.pdfgen import canvas
from reportlab.platypus import PageBreak, Paragraph, SimpleDocTemplate, Spacer, Table, TableStyle

from boats import boats, cm, convert, curly, dash, dec, emit, feet, feet_words, frac, glyph, halves, mark, metres_comma, point, printed, saved, station, ticked
from words import nice_document


def report_pdf():
    """A report with a title page, spanned headings and a page number at the foot of each page."""
    for i, b in enumerate(boats("pdf-report", 3, spacing="mixed", feet=(14, 24))):
        how = [frac, point, glyph][i]
        style, out = getSampleStyleSheet(), io.BytesIO()

        def foot(c, d):
            c.setFont("Helvetica", 8), c.drawString(72, 30, f"Survey 26-014, printed 7 June 2026, page {d.page} of 3")
        story = [Spacer(1, 200), Paragraph("Boat survey no. 26-014", style["Title"]), Paragraph(f"{b.boat}, owned by {b.name}", style["Normal"]), PageBreak(),
                 Paragraph("Main dimensions", style["Heading2"]),
                 Table([["Length overall", feet_words(b.loa), "Bow height", mark(b.bow)], ["Carry point", mark(b.carry), "Stern height", mark(b.stern)]], style=[("GRID", (0, 0), (-1, -1), .5, colors.grey)]),
                 Paragraph("Girths", style["Heading2"])]
        rows = [["Station", "Girth (inches)", "", "Opening"], ["", "Hull girth", "Full girth", "(inches)"]] + [[station(at), how(h), how(f), how(f - h)] for at, h, f in b.rows]
        story.append(Table(rows, repeatRows=2, colWidths=[90, 80, 80, 80], style=TableStyle([("SPAN", (1, 0), (2, 0)), ("GRID", (0, 0), (-1, -1), .5, colors.black), ("ALIGN", (0, 0), (-1, -1), "CENTER"),
                                                                                            ("BACKGROUND", (0, 0), (-1, 1), colors.lightblue), ("BOTTOMPADDING", (0, 2), (-1, -1), 9)])))
        SimpleDocTemplate(out, pagesize=letter, invariant=1).build(story, onFirstPage=foot, onLaterPages=foot)
        emit("pdf-report", i, "pdf", out.getvalue(), "in", b.want())


def sideways_pdf():
    """A page on its side, stations across."""
    for i, b in enumerate(boats("pdf-across", 3, feet=(9, 17))):
        how = [frac, dec, glyph][i]

        def save(path):
            c = canvas.Canvas(path, pagesize=landscape(A4), invariant=1)
            c.setFont("Times-Roman", 10)
            c.drawString(40, 540, f"Length overall {feet(b.loa)}"), c.drawString(220, 540, f"Bow height {mark(b.bow)}")
            c.drawString(400, 540, f"Stern height {mark(b.stern)}"), c.drawString(580, 540, f"Carry point {mark(b.carry)}")
            for y, label in ((480, "Station"), (455, "Hull girth, in"), (430, "Full girth, in")):
                c.drawString(40, y, label), c.line(38, y - 6, 800, y - 6)
            for k, (at, h, f) in enumerate(b.rows):
                x = 140 + 40 * k
                c.drawCentredString(x, 480, ticked(at)), c.drawCentredString(x, 455, how(h)), c.drawCentredString(x, 430, how(f))
            c.showPage(), c.save()
        emit("pdf-across", i, "pdf", saved(save, "pdf"), "in", b.want())


def nameless_fields_pdf():
    """A filled form whose fields are called Text1, Text2, ...; feet and inches apart; labels above the columns."""
    for i, b in enumerate(boats("pdf-form", 4, feet=(9, 20))):
        split = i % 2

        def save(path):
            c = canvas.Canvas(path, pagesize=letter, invariant=1)
            c.setFont("Helvetica", 10)
            count = iter(range(1, 200))

            def field(x, y, value, width=46):
                c.acroForm.textfield(name=f"Text{next(count)}", value=value, x=x, y=y - 4, width=width, height=15, borderWidth=1, fontSize=9)
            c.drawString(50, 740, "BOAT COVER SURVEY    please fill in")
            c.drawString(50, 715, "Your name"), field(130, 715, b.name, 150)
            c.drawString(50, 690, "Length overall"), field(130, 690, f"{int(b.loa // 12)}"), c.drawString(180, 690, "ft"), field(200, 690, frac(b.loa % 12)), c.drawString(250, 690, "in")
            for k, (label, v) in enumerate([("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry)]):
                c.drawString(50 + 170 * k, 665, label), field(120 + 170 * k, 665, frac(v)), c.drawString(170 + 170 * k, 665, "in")
            left, right = halves(b.rows)
            for t, part in enumerate([left, right] if split else [b.rows]):
                x, y = 50 + 270 * t, 630
                c.drawString(x, y, "Station"), c.drawString(x + 70, y, "Hull girth"), c.drawString(x + 140, y, "Full girth")
                c.drawString(x + 70, y - 12, "inches"), c.drawString(x + 140, y - 12, "inches")
                y -= 12
                for at, h, f in part:
                    y -= 22
                    c.drawString(x, y, f"{at // 12} ft"), field(x + 70, y, frac(h)), field(x + 140, y, frac(f))
            c.showPage(), c.save()
        emit("pdf-form", i, "pdf", saved(save, "pdf"), "in", b.want())


def french_fields_pdf():
    """A form in French whose fields have names, over two pages."""
    for i, b in enumerate(boats("pdf-fiche", 3, "cm", feet=(12, 20), square=True)):
        def save(path):
            c = canvas.Canvas(path, pagesize=A4, invariant=1)

            def field(name, x, y, value):
                c.acroForm.textfield(name=name, tooltip=name.replace("_", " "), value=value, x=x, y=y - 4, width=60, height=15, borderWidth=1, fontSize=9)
            c.setFont("Helvetica-Bold", 13), c.drawString(60, 780, "Fiche de mesures (en centimètres)")
            c.setFont("Helvetica", 10)
            for k, (name, label, v) in enumerate([("longueur_hors_tout", "Longueur hors tout", b.loa), ("hauteur_etrave", "Hauteur de l'étrave", b.bow), ("hauteur_poupe", "Hauteur de la poupe", b.stern),
                                                  ("point_de_portage", "Point de portage", b.carry), ("tableau_tour_de_coque", "Tableau arrière : tour de coque", b.transom[0]),
                                                  ("tableau_tour_complet", "Tableau arrière : tour complet", b.transom[1])]):
                c.drawString(60, 750 - 22 * k, label), field(name, 260, 750 - 22 * k, dec(v)), c.drawString(330, 750 - 22 * k, "cm")
            for page, part in enumerate(halves(b.rows)):
                y = [600, 780][page]
                c.setFont("Helvetica", 10)
                c.drawString(60, y, "Distance de l'étrave"), c.drawString(200, y, "Tour de coque"), c.drawString(320, y, "Tour complet")
                for at, h, f in part:
                    y -= 24
                    c.drawString(60, y, f"{at} cm"), field(f"coque_{at}", 200, y, dec(h)), field(f"complet_{at}", 320, y, dec(f))
                c.drawString(60, 40, f"page {page + 1} / 2"), c.showPage()
            c.save()
        emit("pdf-fiche", i, "pdf", saved(save, "pdf"), "cm", b.want())


def calc_pdf():
    """A spreadsheet printed by LibreOffice; the long one runs to a second page."""
    for i, b in enumerate(boats("pdf-calc", 3, spacing="half", feet=(12, 24))):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.title = "Girths"
        line = Side(style="thin")
        for row in [["Length overall", feet_words(b.loa), None, None], ["Bow height", mark(b.bow), None, None], ["Stern height", mark(b.stern), None, None], ["Carry point", mark(b.carry), None, None], [],
                    ["Station", "Hull girth (in)", "Full girth (in)", "Remarks"]]:
            ws.append(row)
        for at, h, f in b.rows:
            ws.append([station(at), h, f, None])
        ws["D9"] = "rub rail starts here"
        for row in ws.iter_rows(min_row=6, max_row=6 + len(b.rows), max_col=4):
            for cell in row:
                cell.border = Border(left=line, right=line, top=line, bottom=line)
                cell.number_format = "0.0"
        for c, w in zip("ABCD", (18, 16, 16, 24)):
            ws.column_dimensions[c].width = w
        ws.print_title_rows = "6:6" if i % 2 else None
        ws.oddFooter.center.text = "Page &P of &N"
        emit("pdf-calc", i, "pdf", convert(saved(wb.save, "xlsx"), "xlsx", "pdf"), "in", b.want())


def writer_pdf():
    """The librarian's document, printed."""
    for i, b in enumerate(boats("pdf-titled", 3)):
        emit("pdf-titled", i, "pdf", convert(nice_document(b, [frac, dash, curly][i]), "docx", "pdf"), "in", b.want(great=True))


def web_pdf():
    """A web page printed: the whole boat in coloured tiles, the girths in two blocks side by side."""
    for i, b in enumerate(boats("pdf-tiles", 3, feet=(9, 20))):
        if i == 1:
            b = boats("pdf-tiles-cm", 1, "cm", feet=(9, 20))[0]
        metric = b.unit == "cm"
        how, name = (dec, cm) if metric else ([frac, dec, glyph][i], station)
        words = ["Longueur hors tout", "Hauteur étrave", "Hauteur poupe", "Point de portage", "Station", "Tour de coque", "Tour complet"] if metric else \
                ["Length overall", "Bow height", "Stern height", "Carry point", "Station", "Hull girth", "Full girth"]
        sizes = [metres_comma(b.loa), cm(b.bow), cm(b.stern), cm(b.carry)] if metric else [feet(b.loa), mark(b.bow), mark(b.stern), mark(b.carry)]
        tiles = "".join(f"<div class=t><small>{label}</small><br><b>{html.escape(v)}</b></div>" for label, v in zip(words, sizes))
        blocks = "".join(f"<table><tr><th>{words[4]}</th><th>{words[5]} ({b.unit})</th><th>{words[6]} ({b.unit})</th></tr>" +
                         "".join(f"<tr><td>{name(at)}</td><td>{how(h)}</td><td>{how(f)}</td></tr>" for at, h, f in part) + "</table>" for part in halves(b.rows))
        page = ("<!doctype html><html><head><meta charset=utf-8><title>Survey</title><style>body{font:13px sans-serif}.t{display:inline-block;background:#cde;padding:8px 14px;margin:4px;border-radius:6px}"
                ".w{display:flex;gap:40px;margin-top:20px}td,th{padding:3px 10px;border-bottom:1px solid #999}tr:nth-child(even){background:#eef}</style></head>"
                f"<body><h2>{html.escape(b.boat)}</h2>{tiles}<div class=w>{blocks}</div></body></html>")
        emit("pdf-tiles", i, "pdf", printed(page), b.unit, b.want())


LAYOUTS = (report_pdf, sideways_pdf, nameless_fields_pdf, french_fields_pdf, calc_pdf, writer_pdf, web_pdf)
