"""More workbooks, documents, pages and forms."""
import io

import docx
from openpyxl.styles import Font
from reportlab.lib.pagesizes import letter as paper
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.pdfgen import canvas
from reportlab.platypus import Paragraph, Spacer, Table

from books import fill, sheet
from craft import comma, dec, feet, feetwords, fleet, ft, glyph, inch, mark, plain, quote, tick
from delimited import table
from files import book, convert, emit, letter, printed
from forms import FOUR, Page
from letters import grid
from prints import RULES, drawn


def openings():
    """Three columns of girths: hull, full, and the breadth across as a control."""
    for i, b in enumerate(fleet("openings", 3)):
        wb, ws = sheet()
        fill(ws, [["Length overall", feetwords(b.loa)], ["Bow height, in", b.bow], ["Stern height, in", b.stern], ["Carry point, in", b.carry], [], ["Station, ft", "Hull girth, in", "Full girth, in", ["Opening, in", "Rim to rim, in", "Breadth, in"][i]]] + [[ft(at), h, f, f - h] for at, h, f in b.rows])
        emit("xlsx-openings", i, "xlsx", book(wb), "in", b.want())


def pairs():
    """Two lines a station: hull girth, then full girth, beside its name."""
    for i, b in enumerate(fleet("pairs", 2)):
        wb, ws = sheet()
        fill(ws, [["Measurement", "Inches"], ["Length overall", b.loa], ["Bow height", b.bow], ["Stern height", b.stern], ["Carry point", b.carry]])
        for at, h, f in b.rows:
            fill(ws, [[f"{mark(at)} hull girth", h], [f"{mark(at)} full girth", f]])
        emit("xlsx-pairs", i, "xlsx", book(wb), "in", b.want())


def one_row():
    """One long row for the boat, a column for every number."""
    for i, b in enumerate(fleet("one-row", 2, feet=(11, 14))):
        wb, ws = sheet("Responses")
        names, row = ["Timestamp", "Name", "Length overall (in)", "Bow height (in)", "Stern height (in)", "Carry point (in)"], ["2 May 2026", b.person, b.loa, b.bow, b.stern, b.carry]
        for at, h, f in b.rows:
            names += [f"Hull girth at {mark(at)} (in)", f"Full girth at {mark(at)} (in)"]
            row += [h, f]
        fill(ws, [names, row])
        emit("xlsx-onerow", i, "xlsx", book(wb), "in", b.want())


def feet_inches():
    """Feet and inches of every girth in columns of their own."""
    for i, b in enumerate(fleet("feet-inches", 2)):
        wb, ws = sheet()
        fill(ws, [["", "ft", "in"], ["Length overall", b.loa // 12, b.loa % 12], ["Bow height", b.bow // 12, b.bow % 12], ["Stern height", b.stern // 12, b.stern % 12], ["Carry point", b.carry // 12, b.carry % 12], [],
                  ["Station (ft)", "Hull girth", None, "Full girth", None], [None, "ft", "in", "ft", "in"]])
        ws.merge_cells("B7:C7"), ws.merge_cells("D7:E7")
        fill(ws, [[ft(at), h // 12, h % 12, f // 12, f % 12] for at, h, f in b.rows])
        emit("xlsx-feetinches", i, "xlsx", book(wb), "in", b.want())


def value_first():
    """The number before its name, and the table far to the right."""
    for i, b in enumerate(fleet("value-first", 2)):
        wb, ws = sheet()
        for k, (x, name) in enumerate([(feet(b.loa), "length overall"), (quote(b.bow), "bow height"), (quote(b.stern), "stern height"), (quote(b.carry), "carry point")]):
            ws.cell(2 + k, 1, x), ws.cell(2 + k, 2, name)
        for c, word in enumerate(("foot", "hull girth (in)", "full girth (in)")):
            ws.cell(2, 6 + c, word).font = Font(italic=True)
        for k, row in enumerate(b.rows):
            for c, x in enumerate((ft(row[0]), *row[1:])):
                ws.cell(3 + k, 6 + c, x)
        emit("xlsx-valuefirst", i, "xlsx", book(wb), "in", b.want())


def bare():
    """No heading over the girths: a rising column and two of which one is always larger."""
    for i, b in enumerate(fleet("bare", 3)):
        rows = [["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)], []] + [[mark(at), dec(h), dec(f)] for at, h, f in b.rows]
        emit("csv-bare", i, "csv", table(rows).encode(), "in", b.want())


def dittos():
    """Ditto marks, and a length that is feet and inches with a point between."""
    for i, b in enumerate(fleet("dittos", 2)):
        rows = [["Length overall", [f"{b.loa // 12}.{b.loa % 12}", feet(b.loa)][i]], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)], [], ["Station", "Hull girth (in)", "Full girth (in)"]]
        doubt = [["length_overall"], []][i]
        for k, (at, h, f) in enumerate(b.rows):
            x = '"' if k == 6 else dec(h)
            if k == 6:
                doubt = doubt + [f"hull_girth@{at}"]
            rows.append([mark(at), x, dec(f)])
        emit("csv-dittos", i, "csv", table(rows).encode(), "in", b.want(doubt), doubt)


def french_book():
    """A French workbook, numbers as numbers, a square stern in the second."""
    for i in range(2):
        b = fleet("french-book", 2, unit="cm", french=True, kind=["open", "square"][i], feet=(10, 15))[i]
        wb, ws = sheet("Relevé")
        fill(ws, [["Client", b.person], ["Longueur hors tout (cm)", b.loa], ["Hauteur à l'étrave (cm)", b.bow], ["Hauteur à la poupe (cm)", b.stern], ["Point de portage (cm)", b.carry], [], ["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [list(r) for r in b.rows])
        if b.transom:
            fill(ws, [["Tableau arrière", *b.transom]])
        emit("xlsx-french", i, "xlsx", book(wb), "cm", b.want())


def square_sheet():
    """OpenDocument with a transom and the greatest girth."""
    for i, b in enumerate(fleet("square-ods", 2, kind="square", feet=(9, 13))):
        wb, ws = sheet("Skiff")
        fill(ws, [["Length overall", feetwords(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)], [], ["Station", "Hull girth", "Full girth"]] + [[mark(at), plain(h), plain(f)] for at, h, f in b.rows] + [["Transom", *map(plain, b.transom)]])
        emit("ods-square", i, "ods", convert(book(wb), "xlsx", "ods"), "in", b.want())


def page():
    """A web page, written by hand or saved from a spreadsheet."""
    for i, b in enumerate(fleet("page", 4)):
        if i < 2:
            rows = "\n".join(f"<tr><td>{tick(at)}</td><td>{plain(h)}</td><td>{plain(f)}</td></tr>" for at, h, f in b.rows)
            data = (f"<!DOCTYPE html>\n<html><head><meta charset=\"utf-8\"><title>Boat</title></head><body>\n<h1>{b.craft}</h1>\n<ul><li>Length overall: {feet(b.loa)}</li><li>Bow height: {quote(b.bow)}</li><li>Stern height: {quote(b.stern)}</li><li>Carry point: {quote(b.carry)}</li></ul>\n"
                    f"<table>\n<thead><tr><th>Station</th><th>Hull girth (in)</th><th>Full girth (in)</th></tr></thead>\n<tbody>\n{rows}\n</tbody></table>\n<p>{b.person}, {b.phone}</p></body></html>\n").encode()
        else:
            wb, ws = sheet("Boat")
            fill(ws, [["Length overall (in)", b.loa], ["Bow height (in)", b.bow], ["Stern height (in)", b.stern], ["Carry point (in)", b.carry], [], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[ft(at), h, f] for at, h, f in b.rows])
            data = convert(book(wb), "xlsx", "html")
        emit("html-page", i, "html", data, "in", b.want())


def one_table():
    """A Word document that is one table of two columns."""
    for i, b in enumerate(fleet("one-table", 2)):
        doc = docx.Document()
        rows = [["What", "Measure"], ["Length overall", feetwords(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)]]
        for at, h, f in b.rows:
            rows += [[f"Hull girth at {mark(at)}", inch(h)], [f"Full girth at {mark(at)}", inch(f)]]
        grid(doc, rows)
        emit("docx-onetable", i, "docx", letter(doc), "in", b.want())


def half_feet():
    """A Word table with half-foot stations near the ends, and remarks."""
    for i, b in enumerate(fleet("docx-half", 2, spacing="ends", feet=(11, 15))):
        doc = docx.Document()
        doc.add_paragraph(f"{b.person}, boat: {b.craft}")
        doc.add_paragraph(f"Length overall {feetwords(b.loa)}; bow height {inch(b.bow)}; stern height {inch(b.stern)}; carry point {inch(b.carry)}.")
        said = {2: "here the deck ends, 1 screw sticks out", 7: "seat"}
        grid(doc, [["Station", "Hull girth (in)", "Full girth (in)", "Remarks"]] + [[mark(at), glyph(h), glyph(f), said.get(k, "")] for k, (at, h, f) in enumerate(b.rows)])
        emit("docx-half", i, "docx", letter(doc), "in", b.want())


def leaders():
    """A PDF list with dots to the numbers."""
    for i, b in enumerate(fleet("leaders", 2)):
        out = io.BytesIO()
        c = canvas.Canvas(out, pagesize=paper, invariant=1)
        c.setFont("Times-Roman", 12)
        lines = [f"Length overall {'.' * 30} {feetwords(b.loa)}", f"Bow height {'.' * 35} {inch(b.bow)}", f"Stern height {'.' * 33} {inch(b.stern)}", f"Carry point {'.' * 34} {inch(b.carry)}", "", "Station, hull girth, full girth (in)", ""]
        lines += [f"{mark(at)} {'.' * 12} {plain(h)} {'.' * 12} {plain(f)}" for at, h, f in b.rows]
        for k, line in enumerate(lines):
            c.drawString(80, 730 - 17 * k, line)
        c.save()
        emit("pdf-leaders", i, "pdf", out.getvalue(), "in", b.want())


def pages():
    """A PDF whose table runs on to a second page under the same heading."""
    style = getSampleStyleSheet()
    for i, b in enumerate(fleet("pages", 2, spacing="half", feet=(15, 18))):
        flow = [Paragraph(f"{n}: {x}", style["Normal"]) for n, x in [("Length overall", feetwords(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))]]
        flow += [Spacer(1, 220), Table([["Station", "Hull girth (in)", "Full girth (in)"]] + [[mark(at), dec(h), dec(f)] for at, h, f in b.rows], style=RULES, repeatRows=1)]
        emit("pdf-pages", i, "pdf", drawn(flow), "in", b.want())


def printed_mail():
    """A mail that somebody printed to PDF."""
    for i, b in enumerate(fleet("printed-mail", 2)):
        lines = [f"Length overall {feet(b.loa)}", f"Bow height {quote(b.bow)}", f"Stern height {quote(b.stern)}", f"Carry point {quote(b.carry)}", "", "Station - hull girth - full girth, inches"] + [f"{mark(at)} - {plain(h)} - {plain(f)}" for at, h, f in b.rows]
        page = (f"<html><body style='font:11pt sans-serif'><div style='border-bottom:1px solid #888'><b>From:</b> {b.person} &lt;{b.address}&gt;<br><b>Sent:</b> 1 May 2026 19:12<br><b>To:</b> Lena Ferriby<br><b>Subject:</b> canoe numbers</div><p>" + "<br>".join(lines) + "</p><p>Page 1 / 1</p></body></html>")
        emit("pdf-mail", i, "pdf", printed(page), "in", b.want())


def french_page():
    """A French PDF in centimetres with decimal commas."""
    style = getSampleStyleSheet()
    for i, b in enumerate(fleet("french-page", 2, unit="cm", tick=.5, french=True)):
        flow = [Paragraph("Mesures du bateau", style["Title"]), Paragraph(b.person, style["Normal"]), Spacer(1, 8)]
        flow += [Paragraph(f"{n} : {comma(x)} cm", style["Normal"]) for n, x in [("Longueur hors tout", b.loa), ("Hauteur de l'étrave", b.bow), ("Hauteur de la poupe", b.stern), ("Point de portage", b.carry)]]
        flow += [Spacer(1, 8), Table([["Distance de l'étrave", "Tour de coque", "Tour complet"], ["cm", "cm", "cm"]] + [[str(at), comma(h), comma(f)] for at, h, f in b.rows], style=RULES)]
        emit("pdf-french", i, "pdf", drawn(flow), "cm", b.want())


def form_metric():
    """A form that asks for the unit, answered with cm; French in the second."""
    for i, b in enumerate(fleet("form-metric", 2, unit="cm", french=True, feet=(11, 16))):
        words = [("Unit", ["Length overall", "Bow height", "Stern height", "Carry point"], "Station", "Hull girth", "Full girth"),
                 ("Unité", ["Longueur hors tout", "Hauteur de l'étrave", "Hauteur de la poupe", "Point de portage"], "Station", "Tour de coque", "Tour complet")][i]
        p = Page()
        p.say(60, 0, words[0]), p.field("unit", 200, 0, "cm", 40)
        for k, (label, (_, name), x) in enumerate(zip(words[1], FOUR, (b.loa, b.bow, b.stern, b.carry))):
            p.say(60, 26 + 22 * k, label), p.field(name, 200, 26 + 22 * k, dec(x))
        for x, word in zip((60, 200, 300), words[2:]):
            p.say(x, 120, word)
        for k, (at, h, f) in enumerate(b.rows):
            p.say(60, 142 + 22 * k, f"{at} cm")
            p.field(f"h{at}", 200, 142 + 22 * k, dec(h)), p.field(f"f{at}", 300, 142 + 22 * k, dec(f))
        emit("form-metric", i, "pdf", p.done(), "cm", b.want())


def form_feet():
    """A form with feet and inches of the length in two fields, and the greatest girth."""
    for i, b in enumerate(fleet("form-feet", 2, feet=(11, 16))):
        p = Page()
        p.say(60, 0, "Length overall"), p.field("loa_ft", 170, 0, str(int(b.loa // 12)), 36), p.say(210, 0, "ft"), p.field("loa_in", 230, 0, plain(b.loa % 12), 50), p.say(286, 0, "in")
        for k, ((label, name), x) in enumerate(zip(FOUR[1:], (b.bow, b.stern, b.carry))):
            p.say(60, 22 + 22 * k, label), p.field(name, 170, 22 + 22 * k, plain(x)), p.say(246, 22 + 22 * k, "in")
        for x, word in ((60, "Station"), (170, "Hull girth (in)"), (270, "Full girth (in)")):
            p.say(x, 96, word)
        y = 116
        for at, h, f in b.rows:
            p.say(60, y, mark(at)), p.field(f"hull_{at}", 170, y, plain(h)), p.field(f"full_{at}", 270, y, plain(f))
            y += 22
        p.say(60, y + 8, "Greatest girth"), p.say(150, y + 8, "at"), p.field("greatest_at", 170, y + 8, inch(b.great[0]))
        p.say(60, y + 32, "Hull girth there"), p.field("greatest_hull", 170, y + 32, inch(b.great[1]))
        p.say(60, y + 56, "Full girth there"), p.field("greatest_full", 170, y + 56, inch(b.great[2]))
        p.say(60, y + 80, "Opening there"), p.field("greatest_opening", 170, y + 80, inch(b.opening))
        emit("form-feet", i, "pdf", p.done(), "in", b.want(great=True, opening=True))


LAYOUTS = (openings, pairs, one_row, feet_inches, value_first, bare, dittos, french_book, square_sheet, page, one_table, half_feet, leaders, pages, printed_mail, french_page, form_metric, form_feet)
