"""PDF with text in it: drawn by ReportLab, printed by LibreOffice and by Chromium."""
import docx
import openpyxl
from docx.enum.text import WD_ALIGN_PARAGRAPH
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import PageBreak, Paragraph, Spacer, Table

from boats import cm, dec, feet, feet_long, feet_words, foot, glyph, inch, inches, pair_of, plain, quote
from files import Sheet, emit, laid_out, office_pdf, saved, web_pdf

GRID = [("GRID", (0, 0), (-1, -1), .5, colors.black)]
NORMAL, TITLE = (getSampleStyleSheet()[name] for name in ("Normal", "Heading2"))


def named(b, write=inch):
    return [("Length overall", feet_words(b.loa)), ("Bow height", write(b.bow)), ("Stern height", write(b.stern)), ("Carry point", write(b.carry))]


def enclosure():
    """A letter, and the girths on a sheet of their own behind it."""
    for i, b in pair_of("pdf-enclosure"):
        story = [Paragraph(x, NORMAL) for x in (b.owner, "Ferry Cottage", "10 June 2026", "&nbsp;", "Dear Sir or Madam,", "&nbsp;",
                 f"I enclose on a separate sheet the girths of my boat. Her length overall is {feet_long(b.loa)}; the bow height is {inches(b.bow)}, the stern height {inches(b.stern)}. The carry point is {inches(b.carry)} from the bow.", "&nbsp;", "Yours sincerely,", b.owner)]
        story += [PageBreak(), Paragraph("Enclosure: girths in inches", TITLE), Table([["Feet from bow", "Hull girth", "Full girth"]] + [[foot(at), [plain, dec][i](hull), [plain, dec][i](full)] for at, hull, full in b.rows], style=[GRID, [("LINEBELOW", (0, 0), (-1, 0), 1, colors.black)]][i])]
        at, hull, full = b.great
        story.append(Paragraph(f"Greatest girth, {feet_words(at)} from the bow: hull girth {plain(hull)}, full girth {plain(full)}, opening {plain(b.opening)}.", NORMAL))
        emit("pdf-enclosure", i, "pdf", laid_out(story), "in", b.want(great=True))


def feet_and_inches():
    """Feet and inches of each girth in columns of their own."""
    for i, b in pair_of("pdf-feetinches"):
        rows = [["Station", "Hull girth", "", "Full girth", ""], ["", "ft", "in", "ft", "in"]]
        rows += [[f"{foot(at)} ft", int(hull // 12), plain(hull % 12), int(full // 12), plain(full % 12)] for at, hull, full in b.rows]
        story = [Paragraph(f"{name}: {x}", NORMAL) for name, x in named(b)] + [Spacer(1, 12), Table(rows, style=GRID + [("SPAN", (1, 0), (2, 0)), ("SPAN", (3, 0), (4, 0)), ("ALIGN", (1, 0), (-1, -1), "CENTER")])]
        emit("pdf-feetinches", i, "pdf", laid_out(story, [letter, A4][i]), "in", b.want())


def sideways_sheet():
    """A workbook on its side, the full girth above the hull girth, the boat below."""
    for i, b in pair_of("pdf-sidewayssheet", feet=(11, 14)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.page_setup.orientation, ws.page_setup.fitToHeight = "landscape", 0
        ws.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
        ws.append(["Feet from bow"] + [foot(at) for at, _, _ in b.rows]), ws.append(["Full girth, in"] + [full for _, _, full in b.rows]), ws.append(["Hull girth, in"] + [hull for _, hull, _ in b.rows]), ws.append([])
        for row in named(b):
            ws.append(list(row))
        ws.column_dimensions["A"].width = 18
        ws.column_dimensions["B"].width = 15
        ws.print_options.gridLines = bool(i)
        for row in ws.iter_rows(min_row=2, max_row=3, min_col=2):
            for cell in row:
                cell.number_format = ["General", "# ?/2"][i]
        emit("pdf-sidewayssheet", i, "pdf", office_pdf(saved(wb), "xlsx"), "in", b.want())


def french_document():
    """A French word processor's table with decimal commas, the page numbered."""
    for i, b in pair_of("pdf-documentfr", unit="cm", tick=.5, french=True):
        d = docx.Document()
        d.sections[0].header.paragraphs[0].text = f"{b.owner} - relevé du 6 juin 2026"
        foot_line = d.sections[0].footer.paragraphs[0]
        foot_line.text, foot_line.alignment = "Page 1 sur 1", WD_ALIGN_PARAGRAPH.CENTER
        for x in (f"Longueur hors tout : {cm(b.loa)}", f"Hauteur à l'étrave : {cm(b.bow)}", f"Hauteur à la poupe : {cm(b.stern)}", f"Point de portage : {cm(b.carry)}"):
            d.add_paragraph(x)
        table = d.add_table(rows=0, cols=3)
        table.style = ["Table Grid", "Light Shading"][i]
        for row in [["Distance", "Tour de coque", "Tour complet"]] + [[cm(x) for x in row] for row in b.rows]:
            for cell, x in zip(table.add_row().cells, row):
                cell.text = x
        emit("pdf-documentfr", i, "pdf", office_pdf(saved(d), "docx"), "cm", b.want())


def labelled_rows():
    """A web page: a label at the left of each line, its number at the right; a square stern."""
    for i, b in pair_of("pdf-labelledrows", kind="square", feet=(9, 12)):
        lines = named(b) + [line for at, hull, full in b.rows for line in ((f"Hull girth at {foot(at)} ft", inch(hull)), (f"Full girth at {foot(at)} ft", inch(full)))]
        lines += [("Hull girth at the transom", inch(b.transom[0])), ("Full girth at the transom", inch(b.transom[1]))]
        body = f"<h2>{b.craft.capitalize()}</h2>" + "".join(f"<div class=r><span>{name}</span><span>{x}</span></div>" for name, x in lines)
        style = ["body{font:13px sans-serif}.r{display:flex;justify-content:space-between;width:10cm;border-bottom:1px dotted #888;padding:2px 0}", "body{font:14px serif}.r{display:grid;grid-template-columns:7cm 4cm;padding:1px 0}"][i]
        emit("pdf-labelledrows", i, "pdf", web_pdf(body, style), "in", b.want())


def sideways_print():
    """An upright page on which everything is printed sideways."""
    for i, b in pair_of("pdf-sidewaysprint"):
        s = Sheet(letter, "Helvetica", 11)
        s.canvas.rotate(90)
        s.canvas.translate(0, -letter[1])
        s.say(60, 230, "Boat: " + b.craft)
        for k, (name, x) in enumerate(named(b, quote)):
            s.say(60, 260 + 20 * k, name), s.say(160, 260 + 20 * k, x)
        for x, name in ((330, "Station"), (430, "Hull girth (in)"), (550, "Full girth (in)")):
            s.say(x, 230, name)
        for k, (at, hull, full) in enumerate(b.rows):
            y = 254 + 20 * k
            s.say(330, y, f"{foot(at)} ft"), s.say(430, y, [plain, dec][i](hull)), s.say(550, y, [plain, dec][i](full))
        emit("pdf-sidewaysprint", i, "pdf", s.done(), "in", b.want())


def paired_lists():
    """Typed: a list of hull girths at the left, a list of full girths at the right."""
    for i, b in pair_of("pdf-pairedlists"):
        s = Sheet([A4, letter][i], "Courier", 11)
        for k, (name, x) in enumerate(named(b)):
            s.say(72, 80 + 16 * k, f"{name:<16}{x}")
        s.say(72, 170, "Hull girth, inches"), s.say(320, 170, "Full girth, inches")
        for k, (at, hull, full) in enumerate(b.rows):
            s.say(72, 196 + 18 * k, f"{foot(at):>2} ft   {plain(hull)}"), s.say(320, 196 + 18 * k, f"{foot(at):>2} ft   {plain(full)}")
        emit("pdf-pairedlists", i, "pdf", s.done(), "in", b.want())


def web_mail():
    """A mail printed from the web: its heading, then sentences and a list."""
    for i, b in pair_of("pdf-webmail"):
        items = "".join(f"<li>{foot(at)} ft &ndash; hull {glyph(hull)}″, full {glyph(full)}″</li>" for at, hull, full in b.rows)
        body = (f"<b>Boat cover</b><hr><p>From: {b.owner}<br>To: Pinfold Cover Loft<br>9 June 2026 at 20:15</p><p>Hello, our canoe has a length overall of {feet(b.loa, glyph)}, a bow height of {inches(b.bow)} and a stern height of {inches(b.stern)}. Carry point: {inches(b.carry)}.</p>"
                f"<p>The girths:</p><ul>{items}</ul><p>{b.first}</p>")
        emit("pdf-webmail", i, "pdf", web_pdf(body, "body{font:14px sans-serif}" + ["", "ul{columns:2}"][i]), "in", b.want())


LAYOUTS = (enclosure, feet_and_inches, sideways_sheet, french_document, labelled_rows, sideways_print, paired_lists, web_mail)
