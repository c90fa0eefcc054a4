"""Surveys as word-processor documents."""
import docx
from docx.enum.section import WD_ORIENT
from docx.enum.text import WD_BREAK
from docx.oxml import OxmlElement
from docx.oxml.ns import qn

from boats import boats, cm, curly, dash, dec, emit, feet, feet_words, frac, glyph, halves, mark, metres_comma, saved, station, tenths, ticked


def fill(row, texts):
    for cell, value in zip(row.cells, texts):
        cell.text = value


def nice_document(b, how):
    """A librarian's document: title page, running head and foot, caption, merged heading cells."""
    d = docx.Document()
    d.sections[0].header.paragraphs[0].text = "Pulling boat, survey of 7 June 2026"
    d.sections[0].footer.paragraphs[0].text = "14 Reading Room Lane, tel. 902 555 0184, page 1 of 2"
    d.add_heading("A Survey of One Small Boat", 0)
    d.add_paragraph(f"compiled by {b.name}")
    d.add_paragraph().add_run().add_break(WD_BREAK.PAGE)
    d.add_heading("1  The boat as a whole", 1)
    d.add_paragraph(f"The length overall is {feet_words(b.loa)}. The bow height is {mark(b.bow)} and the stern height is {mark(b.stern)}. The carry point is {mark(b.carry)} from the bow.")
    d.add_heading("2  Girths", 1)
    d.add_paragraph("Table 1. Girths at each station, in inches.", style="Caption")
    t = d.add_table(rows=2, cols=4)
    t.style = "Light Grid Accent 1"
    t.cell(0, 0).merge(t.cell(1, 0)).text = "Station"
    t.cell(0, 1).merge(t.cell(0, 2)).text = "Girth (in)"
    t.cell(0, 3).merge(t.cell(1, 3)).text = "Remarks"
    t.cell(1, 1).text, t.cell(1, 2).text = "Hull girth", "Full girth"
    for k, (at, h, f) in enumerate(b.rows):
        fill(t.add_row(), [f"{at // 12} ft", how(h), how(f), "seat removed" if k == 5 else ""])
    d.add_heading("3  Greatest girth", 1)
    d.add_paragraph(f"The greatest girth is {feet_words(b.great[0])} from the bow: hull girth {mark(b.great[1])}, full girth {mark(b.great[2])}, opening {mark(b.opening)}.")
    return saved(d.save, "docx")


def librarian_docx():
    for i, b in enumerate(boats("docx-titled", 4)):
        emit("docx-titled", i, "docx", nice_document(b, [frac, dec, glyph, mark][i]), "in", b.want(great=True))


def nested_docx():
    """A table for the layout of the page, with tables inside its cells."""
    for i, b in enumerate(boats("docx-nested", 3, feet=(8, 16))):
        how = [frac, tenths, glyph][i]
        d = docx.Document()
        outer = d.add_table(rows=1, cols=2)
        outer.style = "Table Grid"
        left, right = outer.rows[0].cells
        left.text, right.text = "The boat", "The girths, in inches"
        t = left.add_table(rows=0, cols=2)
        for label, v in [("Length overall", feet(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]:
            fill(t.add_row(), [label, v])
        t = right.add_table(rows=1, cols=3)
        fill(t.rows[0], ["Station", "Hull girth", "Full girth"])
        for at, h, f in b.rows:
            fill(t.add_row(), [ticked(at), how(h), how(f)])
        emit("docx-nested", i, "docx", saved(d.save, "docx"), "in", b.want())


def bullets_docx():
    """Bulleted lists under headings."""
    for i, b in enumerate(boats("docx-bullets", 3, spacing="mixed", feet=(9, 15))):
        how = [mark, curly, dash][i]
        tail = "" if i < 2 else " in"
        d = docx.Document()
        d.add_heading("Canoe", 1)
        for label, v in [("Length overall", feet_words(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]:
            p = d.add_paragraph(style="List Bullet")
            p.add_run(label).bold = True
            p.add_run(f": {v}")
        d.add_heading("Stations", 1)
        for at, h, f in b.rows:
            p = d.add_paragraph(style="List Bullet" if i else "List Number")
            p.add_run(f"At {station(at)}: ").bold = True
            p.add_run(f"hull girth {how(h)}{tail}, full girth ")
            p.add_run(how(f)).italic = True
            p.add_run(tail)
        emit("docx-bullets", i, "docx", saved(d.save, "docx"), "in", b.want())


def french_docx():
    """A French-speaking couple: stations across a page on its side, two tables one under the other."""
    for i, b in enumerate(boats("docx-travers", 3, "cm", feet=(11, 17))):
        d = docx.Document()
        s = d.sections[0]
        s.orientation, s.page_width, s.page_height = WD_ORIENT.LANDSCAPE, s.page_height, s.page_width
        d.add_heading("Notre bateau", 1)
        d.add_paragraph(f"Longueur hors tout : {metres_comma(b.loa)}")
        d.add_paragraph(f"Hauteur de l’étrave : {cm(b.bow)} – hauteur de la poupe : {cm(b.stern)}")
        d.add_paragraph(f"Point de portage : {cm(b.carry)}")
        for part in halves(b.rows):
            t = d.add_table(rows=3, cols=1 + len(part))
            t.style = "Table Grid"
            fill(t.rows[0], ["Distance de l’étrave (cm)"] + [str(r[0]) for r in part])
            fill(t.rows[1], ["Tour de coque (cm)"] + [dec(r[1]) for r in part])
            fill(t.rows[2], ["Tour complet (cm)"] + [dec(r[2]) for r in part])
            d.add_paragraph()
        d.add_paragraph("Odalie et Benoît, tél. 06 55 01 04 27")
        emit("docx-travers", i, "docx", saved(d.save, "docx"), "cm", b.want())


def track(paragraph, kind, words):
    """A tracked deletion or insertion at the end of a paragraph."""
    change = OxmlElement(f"w:{kind}")
    change.set(qn("w:id"), "7"), change.set(qn("w:author"), "owner"), change.set(qn("w:date"), "2026-06-07T10:00:00Z")
    run, t = OxmlElement("w:r"), OxmlElement("w:delText" if kind == "del" else "w:t")
    t.text = words
    run.append(t), change.append(run), paragraph._p.append(change)


def corrected_docx():
    """A number put right: tracked changes, or the old one struck through."""
    for i, b in enumerate(boats("docx-corrected", 4)):
        d = docx.Document()
        for label, v in [("Length overall", feet_words(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]:
            d.add_paragraph(f"{label}: {v}")
        t = d.add_table(rows=1, cols=3)
        t.style = "Table Grid"
        fill(t.rows[0], ["Station", "Hull girth (in)", "Full girth (in)"])
        for k, (at, h, f) in enumerate(b.rows):
            row = t.add_row()
            fill(row, [station(at), frac(h), frac(f)])
            if k == 2 + i:
                row.cells[1].text = ""
                p = row.cells[1].paragraphs[0]
                if i % 2 == 0:
                    track(p, "del", frac(h + 10)), track(p, "ins", frac(h))
                else:
                    p.add_run(frac(h + 10)).font.strike = True
                    p.add_run(" " + frac(h))
        emit("docx-corrected", i, "docx", saved(d.save, "docx"), "in", b.want())


def blocks_docx():
    """A six-column table: the second half of the boat beside the first, the boat's length in its top row."""
    for i, b in enumerate(boats("docx-beside", 3, feet=(10, 22))):
        how = [frac, dec, curly][i]
        d = docx.Document()
        t = d.add_table(rows=3, cols=6)
        t.style = "Table Grid"
        t.cell(0, 0).merge(t.cell(0, 5)).text = f"Length overall {feet(b.loa)}"
        t.cell(1, 0).merge(t.cell(1, 2)).text, t.cell(1, 3).merge(t.cell(1, 5)).text = "Forward half, inches", "After half, inches"
        fill(t.rows[2], ["Station", "Hull girth", "Full girth"] * 2)
        left, right = halves(b.rows)
        for k, row in enumerate(left):
            cells = [station(row[0]), how(row[1]), how(row[2])]
            if k < len(right):
                cells += [station(right[k][0]), how(right[k][1]), how(right[k][2])]
            fill(t.add_row(), cells + [""] * (6 - len(cells)))
        last = t.add_row()
        last.cells[0].merge(last.cells[5]).text = f"Bow height {mark(b.bow)}    Stern height {mark(b.stern)}    Carry point {mark(b.carry)}"
        emit("docx-beside", i, "docx", saved(d.save, "docx"), "in", b.want())


def running_head_docx():
    """The whole boat stands in the running head and foot, the page itself has only the girths."""
    for i, b in enumerate(boats("docx-head", 3, feet=(8, 16))):
        d = docx.Document()
        d.sections[0].header.paragraphs[0].text = f"Length overall {feet(b.loa)}\tBow height {mark(b.bow)}\tStern height {mark(b.stern)}"
        d.sections[0].footer.paragraphs[0].text = f"Carry point {mark(b.carry)}"
        t = d.add_table(rows=1, cols=3)
        fill(t.rows[0], ["Station", "Full girth (in)", "Hull girth (in)"])
        for at, h, f in b.rows:
            fill(t.add_row(), [station(at), [frac, dec, glyph][i](f), [frac, dec, glyph][i](h)])
        emit("docx-head", i, "docx", saved(d.save, "docx"), "in", b.want())


LAYOUTS = (librarian_docx, nested_docx, bullets_docx, french_docx, corrected_docx, blocks_docx, running_head_docx)
