"""Surveys as Word documents, made with python-docx."""
import docx
from docx.enum.section import WD_ORIENT

from boats import cm, comma, dec, feet, feet_words, foot, glyph, inch, inches, metres, pair_of, plain, quote
from files import emit, letter


def grid(parent, rows, style="Table Grid"):
    t = parent.add_table(rows=0, cols=max(len(row) for row in rows))
    t.style = style
    for row in rows:
        for cell, x in zip(t.add_row().cells, row):
            cell.text = "" if x is None else str(x)
    return t


def outline():
    """An outline with typed numbers: 2.1, 2.1.1."""
    for i, b in pair_of("outline", feet=(11, 14)):
        d = docx.Document()
        d.add_paragraph("1. The boat")
        for k, (name, x) in enumerate([("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry) + " from the bow")]):
            d.add_paragraph(f"1.{k + 1} {name}: {x}")
        d.add_paragraph("2. Girths")
        for k, (at, hull, full) in enumerate(b.rows):
            if i == 0:
                d.add_paragraph(f"2.{k + 1} Station {foot(at)} ft")
                d.add_paragraph(f"2.{k + 1}.1 Hull girth: {inch(hull)}")
                d.add_paragraph(f"2.{k + 1}.2 Full girth: {inch(full)}")
            else:
                d.add_paragraph(f"2.{k + 1} Station {foot(at)} ft: hull girth {inch(hull)}, full girth {inch(full)}")
        emit("docx-outline", i, "docx", letter(d), "in", b.want())


def dotted():
    """French, with dots from the words to the numbers."""
    for i, b in pair_of("dotted", unit="cm", french=True):
        d = docx.Document()
        d.add_heading("Fiche de mesure remplie", 1)
        for name, x in [("Nom et prénom", b.owner), ("Longueur hors tout", metres(b.loa)), ("Hauteur de l'étrave", cm(b.bow)), ("Hauteur de la poupe", cm(b.stern)), ("Point de portage", cm(b.carry))]:
            d.add_paragraph(f"{name} {'.' * 24} {x}" if i == 0 else f"{name} : {'…' * 8} {x}")
        d.add_paragraph("Stations (tour de coque, puis tour complet)")
        for at, hull, full in b.rows:
            d.add_paragraph(f"À {at} cm {'.' * 14} {cm(hull)} {'.' * 14} {cm(full)}" if i == 0 else f"{at} cm {'…' * 5} {cm(hull)} {'…' * 5} {cm(full)}")
        emit("docx-pointilles", i, "docx", letter(d), "cm", b.want())


def feet_girths():
    """A Word table whose girths are feet and inches."""
    for i, b in pair_of("feet girths"):
        write = [feet_words, feet][i]
        d = docx.Document()
        d.add_paragraph(f"From {b.owner}, about the {b.craft}.")
        grid(d, [["Length overall", write(b.loa)], ["Bow height", write(b.bow)], ["Stern height", write(b.stern)], ["Carry point", write(b.carry)]])
        d.add_paragraph("")
        grid(d, [["Station", "Hull girth", "Full girth"]] + [[write(at), write(hull), write(full)] for at, hull, full in b.rows], "Light Grid Accent 2")
        emit("docx-feetgirths", i, "docx", letter(d), "in", b.want())


def on_its_side():
    """A page on its side: a merged title, stations along the top, the unit in a column of its own."""
    for i, b in pair_of("on its side", feet=(11, 15)):
        d = docx.Document()
        s = d.sections[0]
        s.orientation, s.page_width, s.page_height = WD_ORIENT.LANDSCAPE, s.page_height, s.page_width
        write = [dec, glyph][i]
        t = grid(d, [[""], ["Station", "ft"] + [foot(at) for at, _, _ in b.rows], ["Hull girth", "in"] + [write(hull) for _, hull, _ in b.rows], ["Full girth", "in"] + [write(full) for _, _, full in b.rows]])
        t.cell(0, 0).merge(t.cell(0, len(b.rows) + 1)).text = "Girths from bow to stern"
        d.add_paragraph("")
        d.add_paragraph(f"Length overall {feet(b.loa)}   ·   Bow height {quote(b.bow)}   ·   Stern height {quote(b.stern)}   ·   Carry point {quote(b.carry)}")
        emit("docx-landscape", i, "docx", letter(d), "in", b.want())


def checklist():
    """A list of boxes, ticked one after the other."""
    for i, b in pair_of("checklist"):
        d = docx.Document()
        d.add_heading("To do for the cover", 2)
        done = ["☑", "☒"][i]
        for name, x in [("Length overall", feet_words(b.loa)), ("Bow height", inches(b.bow)), ("Stern height", inches(b.stern)), ("Carry point", inches(b.carry))]:
            d.add_paragraph(f"{done} {name} – {x}")
        for at, hull, full in b.rows:
            d.add_paragraph(f"{done} {foot(at)} ft – hull girth {inches(hull)} – full girth {inches(full)}")
        d.add_paragraph("☐ Tracing of the bow, ☐ tracing of the stern (paper is bought)")
        emit("docx-checklist", i, "docx", letter(d), "in", b.want())


def minutes():
    """Minutes of a club's meeting, with a table of dues before the table of girths."""
    for i, b in pair_of("minutes"):
        d = docx.Document()
        d.add_heading(["Millrace Paddlers, minutes of 11 June", "Heronsgate Rowing Circle, meeting no. 47"][i], 1)
        d.add_paragraph("Present: 9 members. Apologies: 2. The minutes of 14 May were read and agreed.")
        grid(d, [["Member", "Dues", "Paid"], ["P. Stokoe", "40", "yes"], ["A. Hartnoll", "40", "20"], ["B. Lanyon", "25", "yes"]])
        d.add_paragraph("")
        d.add_paragraph(f"Item 4, cover for boat no. {3 + i}. Measured by {b.owner} on the 9th. Length overall {feet_words(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}. "
                        "The girths, for the cover maker:")
        grid(d, [["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[foot(at), plain(hull), plain(full)] for at, hull, full in b.rows])
        d.add_paragraph("")
        d.add_paragraph("Item 5, summer trip: 3 days, 14 places, 65 dollars each. Next meeting on 9 July at 7:30.")
        emit("docx-minutes", i, "docx", letter(d), "in", b.want())


def told_in_french():
    """A French page: the boat in a list, the girths in two tables beside one another."""
    for i, b in pair_of("told in French", unit="cm", tick=.5, french=True):
        d = docx.Document()
        d.add_paragraph("Bonjour, ci-dessous tout ce que vous m’avez demandé. Il reste l’ouverture, que je mesurerai à la maison.")
        for name, x in [("longueur hors tout", b.loa), ("hauteur de l’étrave", b.bow), ("hauteur de la poupe", b.stern), ("point de portage", b.carry)]:
            d.add_paragraph(f"{name} : {comma(x)} cm", style="List Bullet")
        cells = grid(d, [["", ""]]).rows[0].cells
        n = (len(b.rows) + 1) // 2
        for cell, name, rows in zip(cells, ["Moitié avant", "Moitié arrière"], [b.rows[:n], b.rows[n:]]):
            cell.text = name
            grid(cell, [["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [[at, comma(hull), comma(full)] for at, hull, full in rows])
        d.add_paragraph(f"Cordialement, {b.owner}")
        emit("docx-moities", i, "docx", letter(d), "cm", b.want())


LAYOUTS = (outline, dotted, feet_girths, on_its_side, checklist, minutes, told_in_french)
