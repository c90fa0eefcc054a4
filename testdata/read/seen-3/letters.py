"""Word documents, made with python-docx; some rewritten by LibreOffice."""
import docx
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.shared import Cm

from craft import cm, comma, dec, feet, feetlong, feetwords, fleet, ft, glyph, halves, inch, inches, mark, metrescomma, plain, quote, tick
from files import convert, emit, letter


def grid(doc, rows, style="Table Grid"):
    t = doc.add_table(rows=0, cols=max(len(r) for r in rows))
    if style:
        t.style = style
    for row in rows:
        cells = t.add_row().cells
        for c, x in zip(cells, row):
            c.text = "" if x is None else str(x)
    return t


def tabled():
    """A title, four lines and a table."""
    for i, b in enumerate(fleet("tabled", 3)):
        doc = docx.Document()
        doc.add_heading(f"Cover for our {b.craft}", 1)
        for name, x in [("Length overall", feetwords(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry) + " from the bow")]:
            doc.add_paragraph(f"{name}: {x}")
        write = [plain, quote, dec][i]
        grid(doc, [["Station", "Hull girth" + [" (in)", "", ", inches"][i], "Full girth" + [" (in)", "", ", inches"][i]]] + [[mark(at), write(h), write(f)] for at, h, f in b.rows])
        doc.add_paragraph(f"{b.person}, telephone {b.phone}")
        emit("docx-tabled", i, "docx", letter(doc), "in", b.want())


def letterlike():
    """A letter: the length and heights told in sentences, then the table."""
    for i, b in enumerate(fleet("letterlike", 2)):
        doc = docx.Document()
        doc.sections[0].header.paragraphs[0].text = f"{b.person} · 27 Weir Lane · {b.phone}"
        doc.add_paragraph("2 May 2026")
        doc.add_paragraph("Dear cover makers,")
        doc.add_paragraph(f"As we agreed I measured my {['canoe', 'boat'][i]} on Saturday with two helpers; it took 35 minutes. The length overall is {feetlong(b.loa)}. The bow height is {inches(b.bow)} and the stern height {inches(b.stern)}. "
                          f"The carry point is {inches(b.carry)} from the bow.")
        doc.add_paragraph("The girths in inches, by feet from the bow:")
        grid(doc, [["Feet", "Hull girth", "Full girth"]] + [[ft(at), plain(h), plain(f)] for at, h, f in b.rows], ["Light Grid Accent 1", None][i])
        doc.add_paragraph("With kind regards,")
        doc.add_paragraph(b.person)
        emit("docx-letter", i, "docx", letter(doc), "in", b.want())


def tabbed():
    """Columns made with tab stops."""
    for i, b in enumerate(fleet("tabbed", 2)):
        doc = docx.Document()

        def line(*words):
            p = doc.add_paragraph("\t".join(words))
            p.paragraph_format.tab_stops.add_tab_stop(Cm(6))
            p.paragraph_format.tab_stops.add_tab_stop(Cm(10), WD_TAB_ALIGNMENT.RIGHT)
            p.paragraph_format.space_after = 0
        write = [glyph, dec][i]
        for name, x in [("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry))]:
            line(name, x)
        line("")
        line("Station (ft)", "Hull girth (in)", "Full girth (in)")
        for at, h, f in b.rows:
            line(str(ft(at)), write(h), write(f))
        emit("docx-tabbed", i, "docx", letter(doc), "in", b.want())


def numbered():
    """A list that Word numbers; the number of an item is its foot."""
    for i, b in enumerate(fleet("numbered", 2)):
        doc = docx.Document()
        doc.add_paragraph(f"Length overall {feetwords(b.loa)}. Bow height {inch(b.bow)}. Stern height {inch(b.stern)}. Carry point {inch(b.carry)} from the bow.")
        doc.add_paragraph("Girths at each foot from the bow, the number of the line is the foot:")
        for at, h, f in b.rows:
            doc.add_paragraph(f"hull girth {plain(h)}, full girth {plain(f)}", style="List Number")
        emit("docx-numbered", i, "docx", letter(doc), "in", b.want())


def office():
    """A form of two tables, saved by LibreOffice; the second has two blocks."""
    for i, b in enumerate(fleet("office", 2)):
        doc = docx.Document()
        doc.add_heading("Boat measurements", 2)
        grid(doc, [["Name", b.person, "Telephone", b.phone], ["Boat", b.craft, "Length overall", feet(b.loa)], ["Bow height", quote(b.bow), "Stern height", quote(b.stern)], ["Carry point", quote(b.carry), "Stays inside", "1 seat cushion"]])
        doc.add_paragraph("")
        fore, aft = halves(b.rows)
        rows = [["Station", "Hull girth", "Full girth"] * 2]
        for k, (at, h, f) in enumerate(fore):
            rows.append([mark(at), dec(h), dec(f)] + ([mark(aft[k][0]), dec(aft[k][1]), dec(aft[k][2])] if k < len(aft) else ["", "", ""]))
        grid(doc, rows)
        emit("docx-office", i, "docx", convert(letter(doc), "docx", "docx"), "in", b.want())


def french():
    """A French document with a table in centimetres."""
    for i, b in enumerate(fleet("docx-fr", 2, unit="cm", french=True)):
        doc = docx.Document()
        doc.add_heading("Relevé du bateau", 1)
        for name, x in [("Propriétaire", b.person), ("Longueur hors tout", metrescomma(b.loa)), ("Hauteur de l'étrave", cm(b.bow)), ("Hauteur de la poupe", cm(b.stern)), ("Point de portage", f"à {cm(b.carry)} de l'étrave")]:
            doc.add_paragraph(f"{name} : {x}")
        unit = ["", " (cm)"][i]
        write = [cm, comma][i]
        grid(doc, [["Distance de l'étrave" + unit, "Tour de coque" + unit, "Tour complet" + unit]] + [[write(at), write(h), write(f)] for at, h, f in b.rows])
        emit("docx-french", i, "docx", letter(doc), "cm", b.want())


def split():
    """The stations along the top, in two tables under each other."""
    for i, b in enumerate(fleet("split", 2)):
        doc = docx.Document()
        doc.add_paragraph(f"Length overall {feet(b.loa)}")
        doc.add_paragraph(f"Bow height {quote(b.bow)}, stern height {quote(b.stern)}")
        doc.add_paragraph(f"Carry point {quote(b.carry)}")
        for rows in halves(b.rows):
            grid(doc, [["Station"] + [tick(at) for at, _, _ in rows], ["Hull girth"] + [dec(h) for _, h, _ in rows], ["Full girth"] + [dec(f) for _, _, f in rows]])
            doc.add_paragraph("")
        emit("docx-split", i, "docx", letter(doc), "in", b.want())


LAYOUTS = (tabled, letterlike, tabbed, numbered, office, french, split)
