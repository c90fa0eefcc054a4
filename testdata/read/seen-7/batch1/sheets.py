"""Workbooks, separated values and Word documents."""
import datetime

import docx
from docx.enum.text import WD_ALIGN_PARAGRAPH
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

from boats import comma, dec, feet, feet_french, feet_tight, feet_words, foot, glyph, halves, inch, pair_of, plain, quote
from files import convert, emit, fill, grid, saved, separated, workbook

LINE = Side(style="thin")
BOX = Border(left=LINE, right=LINE, top=LINE, bottom=LINE)


def own_words():
    """Headings of the owner's own, a date and a telephone number above, notes beside."""
    for i, b in pair_of("xlsx-ownwords"):
        book, sheet = workbook("Boat", [["Cover for my " + b.craft], ["Measured", datetime.date(2026, 6, 20 + i), "with my sister"], ["Phone", b.phone], []])
        fill(sheet, [[["Length, tip to tip", "Overall length (tip to tip)"][i], feet(b.loa)], ["Height of front end", quote(b.bow)], ["Height of back end", quote(b.stern)], ["Bow to carry thwart", quote(b.carry)], []])
        fill(sheet, [[["How far from the bow (ft)", "Under the hull, gunwale to gunwale (in)", "All the way round, closed (in)", "Notes"],
                      ["Distance from front, ft", "Girth under the hull only, in", "Girth right round incl. across the top, in", "Notes"]][i]])
        notes = {1: "front deck ends at 22 in", 4: "seat, 2 bolts", 7: "yoke", len(b.rows) - 2: "rear seat"}
        fill(sheet, [[foot(at), hull, full, notes.get(k)] for k, (at, hull, full) in enumerate(b.rows)])
        sheet.column_dimensions["A"].width, sheet.column_dimensions["B"].width, sheet.column_dimensions["C"].width = 26, 34, 34
        sheet["A1"].font = Font(bold=True, size=14)
        emit("xlsx-ownwords", i, "xlsx", saved(book), b)


def unit_row():
    """Broken headings, a row of units under them, and the boat's own numbers at the right."""
    for i, b in pair_of("xlsx-unitrow", slip=False):
        book, sheet = workbook("Sheet1", [["Station", "Hull\ngirth", "Full\ngirth"], [["(ft)", "(in)", "(in)"], ["feet", "inches", "inches"]][i]])
        fill(sheet, [[foot(at), hull, full] for at, hull, full in b.rows])
        for k, (name, x, unit) in enumerate([("Length\noverall", b.loa, "in"), ("Bow\nheight", b.bow, "in"), ("Stern\nheight", b.stern, "in"), ("Carry\npoint", b.carry, "in")]):
            for column, value in zip("FGH", (name, x, unit)):
                sheet[f"{column}{3 + 2 * k}"] = value
                sheet[f"{column}{3 + 2 * k}"].alignment = Alignment(wrap_text=True)
        for cell in (*sheet[1], *sheet[2]):
            cell.alignment, cell.font = Alignment(wrap_text=True, horizontal="center"), Font(bold=cell.row == 1, italic=cell.row == 2)
        emit("xlsx-unitrow", i, "xlsx", saved(book), b)


def sections():
    """One column of names with titles between: the boat, the hull girths, the full girths."""
    for i, b in pair_of("xlsx-sections"):
        book, sheet = workbook("Measurements", [["Item", "Value", "Unit"], ["THE BOAT"], ["Length overall", b.loa, "in"], ["Bow height", b.bow, "in"], ["Stern height", b.stern, "in"], ["Carry point", b.carry, "in"], []])
        fill(sheet, [[["HULL GIRTH", "HULL GIRTH (open, gunwale to gunwale)"][i]]] + [[f"{foot(at)} ft from bow", hull, "in"] for at, hull, _ in b.rows] + [[]])
        fill(sheet, [[["FULL GIRTH", "FULL GIRTH (closed loop)"][i]]] + [[f"{foot(at)} ft from bow", full, "in"] for at, _, full in b.rows])
        for row in sheet.iter_rows(max_col=1):
            if str(row[0].value).isupper() or row[0].row == 1 or str(row[0].value).startswith(("HULL", "FULL")):
                row[0].font, row[0].fill = Font(bold=True), PatternFill("solid", fgColor="DDEBF7")
        sheet.freeze_panes = "A2"
        emit("xlsx-sections", i, "xlsx", saved(book), b)


def note_rows():
    """Remarks in rows of their own, merged across, between the stations."""
    for i, b in pair_of("xlsx-noterows"):
        book, sheet = workbook("canoe", [["Girths every foot, in inches"], ["Station (ft)", "Hull girth", "Full girth"]])
        notes = {3: "moved the trestle 1 foot back from here on", 6: ["tea break; started again at 7 ft with the same tape", "2 people from here"][i], len(b.rows) - 3: "stern seat: lifted the cushion, 3 in thick"}
        for k, (at, hull, full) in enumerate(b.rows):
            if k in notes:
                sheet.append([notes[k]])
                sheet.merge_cells(start_row=sheet.max_row, end_row=sheet.max_row, start_column=1, end_column=3)
                sheet.cell(sheet.max_row, 1).font = Font(italic=True, color="7F7F7F")
            sheet.append([foot(at), f"{int(hull)} or {int(hull) + 1}, could not see the tape" if (i, k) == (0, 5) else hull, full])
        fill(sheet, [[], ["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)]])
        emit("xlsx-noterows", i, "xlsx", saved(book), b, doubt=[[f"hull_girth@{b.rows[5][0]}"], []][i])


def long_blank():
    """The owner's own blank of twenty stations, of which the boat has fewer."""
    for i, b in pair_of("xlsx-longblank", feet=(11, 15), slip=False):
        book, sheet = workbook("Blank", [["BOAT MEASUREMENTS"], ["Owner:", b.owner, None, "Tel.:", b.phone], ["Make/model:", b.craft, None, "Date:", "27/6/2026"],
                                         ["L.O.A.:", feet(b.loa), None, "Carry point:", quote(b.carry)], ["Bow height:", quote(b.bow), None, "Stern height:", quote(b.stern)], [], ["Station", "Hull girth", "Full girth"]])
        for k in range(20):
            row = b.rows[k] if k < len(b.rows) else None
            sheet.append([f"{k + 1} ft", *([quote(row[1]), quote(row[2])] if row else [["", "-"][i]] * 2)])
        for row in sheet.iter_rows(min_row=7, max_row=27, max_col=3):
            for cell in row:
                cell.border = BOX
        sheet.append(["Please write clearly. Nearest 1/2 inch is near enough."])
        emit("xlsx-longblank", i, "xlsx", saved(book), b)


def french_inches():
    """French, in inches: a frame of labels, the sheet's name as the program gave it."""
    for i, b in pair_of("xlsx-poucesfr", french=True):
        book, sheet = workbook("Feuil1", [["Toile pour canot", None, None], ["Toutes les mesures en pouces", None, None], ["Longueur totale hors tout", feet_french(b.loa)], ["Hauteur de la pince avant", b.bow], ["Hauteur de la pince arrière", b.stern],
                                          ["Point de portage (depuis la pointe avant)", b.carry], [], [["Pieds depuis la pointe", "Contour sous la coque", "Contour complet fermé"], ["Station (pi)", "Tour de coque (po)", "Tour complet (po)"]][i]])
        fill(sheet, [[foot(at), hull, full] for at, hull, full in b.rows])
        emit("xlsx-poucesfr", i, "xlsx", saved(book), b)


def pipes():
    """Separated by strokes, with blanks around them."""
    for i, b in pair_of("csv-pipes"):
        write = [plain, dec][i]
        rows = [["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)], ["ft from bow", "hull girth (in)", "full girth (in)"]]
        rows += [[str(foot(at)), write(hull), write(full)] for at, hull, full in b.rows]
        lines = [[" | ".join(row), "|" + "|".join(row) + "|"][i] for row in rows]
        emit("csv-pipes", i, "csv", ("\r\n".join(lines) + "\r\n").encode(), b)


def comma_quoted():
    """Commas between, decimal commas in quotes, centimetres."""
    for i, b in pair_of("csv-virgulesfr", unit="cm", tick=.5, french=True):
        rows = [["Relevé du 28 juin 2026", b.owner, ""], ["Longueur hors tout", comma(b.loa), "cm"], ["Hauteur avant", comma(b.bow), "cm"], ["Hauteur arrière", comma(b.stern), "cm"], ["Point de portage", comma(b.carry), "cm"], ["", "", ""],
                ["Distance de l'étrave (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [[str(at), comma(hull), comma(full)] for at, hull, full in b.rows]
        emit("csv-virgulesfr", i, "csv", separated(rows, ",", ["utf-8-sig", "cp1252"][i], quoting=[0, 1][i]), b)


def unicode_text():
    """What a spreadsheet saves as Unicode text: tabs, two-byte letters, real halves."""
    for i, b in pair_of("tsv-unicode", slip=False):
        rows = [[b.craft, "", "", ""], ["", "", "", ""], ["Length overall", feet_tight(b.loa), "", ""], ["Bow height", glyph(b.bow) + '"', "", ""], ["Stern height", glyph(b.stern) + '"', "", ""], ["Carry point", glyph(b.carry) + '"', "", ""], ["", "", "", ""],
                ["", "Hull girth", "Full girth", ""]] + [[f"{foot(at)}'", glyph(hull) + '"', glyph(full) + '"', ["seat" if k == 4 else "", ""][i]] for k, (at, hull, full) in enumerate(b.rows)]
        emit("tsv-unicode", i, "tsv", separated(rows, "\t", "utf-16"), b)


def fact_table():
    """Word: labels and answers two abreast, then the girths with a row of units."""
    for i, b in pair_of("docx-facttable"):
        d = docx.Document()
        d.add_heading("Information for boat cover", 1)
        grid(d, [["Name", b.owner, "Telephone", b.phone], ["Boat", b.craft, "Built", "1994"], ["Length overall", feet(b.loa), "Carry point", quote(b.carry)], ["Bow height", quote(b.bow), "Stern height", quote(b.stern)]])
        d.add_paragraph("")
        table = grid(d, [["From bow", "Hull girth", "Full girth"], ["feet", "inches", "inches"]] + [[foot(at), *map([plain, dec][i], (hull, full))] for at, hull, full in b.rows], ["Table Grid", "Light List Accent 1"][i])
        for cell in table.rows[1].cells:
            cell.paragraphs[0].runs[0].italic = True
        d.add_paragraph("Colour: dark green. Needed before 15 September.")
        emit("docx-facttable", i, "docx", saved(d), b)


def letterhead():
    """Paper of a small firm with its address above and below; a running number before each distance."""
    for i, b in pair_of("docx-letterhead", kind="square", feet=(10, 14)):
        d = docx.Document()
        head, tail = d.sections[0].header.paragraphs[0], d.sections[0].footer.paragraphs[0]
        head.text, head.alignment = ["Sellick & Daughter, Joiners · 14 Mill Lane · Tel. 902 555-0136", "Tarrant Tree Care · 3 Quarry Road · 705 555-0181"][i], WD_ALIGN_PARAGRAPH.CENTER
        tail.text = "Registered no. 448120 · Page 1"
        d.add_paragraph("29 June 2026")
        d.add_paragraph(f"To Pinfold Cover Loft: measurements of our {b.craft}. It has a square stern, so I took a pair at the transom as well.")
        for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))):
            d.add_paragraph(f"{name}:\t{x}")
        rows = [["No.", "Distance from bow", "Hull girth", "Full girth"]] + [[f"{k + 1}.", feet_words(at), inch(hull), inch(full)] for k, (at, hull, full) in enumerate(b.rows)]
        grid(d, rows + [[f"{len(rows)}.", "Transom", *map(inch, b.transom)]])
        d.add_paragraph("Yours faithfully,")
        d.add_paragraph(b.owner)
        emit("docx-letterhead", i, "docx", saved(d), b)


def two_sheets_french():
    """OpenDocument: the fore half on a sheet, the after half on the next, the boat on the first."""
    for i, b in pair_of("ods-deuxmoities", unit="cm", tick=[.5, 1][0], french=True, slip=False):
        fore, aft = halves(b.rows)
        book, sheet = workbook("Avant", [["Longueur hors tout (cm)", b.loa], ["Hauteur de l'étrave (cm)", b.bow], ["Hauteur de la poupe (cm)", b.stern], ["Point de portage (cm)", b.carry], [], ["Station", "Tour de coque", "Tour complet"]])
        fill(sheet, [[f"{at} cm", hull, full] for at, hull, full in fore])
        sheet = book.create_sheet("Arrière")
        fill(sheet, [["Station", "Tour de coque", "Tour complet"]] + [[f"{at} cm", hull, full] for at, hull, full in aft])
        for sheet in book:
            for row in sheet.iter_rows(min_col=2, max_col=3):
                for cell in row:
                    if isinstance(cell.value, (int, float)):
                        cell.number_format = ["0.0", "General"][i]
        emit("ods-deuxmoities", i, "ods", convert(saved(book), "xlsx", "ods"), b)


LAYOUTS = (own_words, unit_row, sections, note_rows, long_blank, french_inches, pipes, comma_quoted, unicode_text, fact_table, letterhead, two_sheets_french)
