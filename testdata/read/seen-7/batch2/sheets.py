"""Workbooks, separated values and Word documents."""
import docx
import openpyxl
from docx.shared import Pt
from openpyxl.chart import LineChart, Reference
from openpyxl.styles import Alignment, Font

from boats import comma, dec, feet, feet_words, foot, glyph, inch, metres, pair_of, plain, quote
from files import convert, emit, fill, grid, saved, separated, workbook


def bow_right():
    """On its side with the bow at the right, as the boat stood in the yard."""
    for i, b in pair_of("xlsx-bowright", feet=(11, 15)):
        rows = b.rows[::-1]
        book, sheet = workbook("girths", [[["<-- STERN", *[None] * (len(rows) - 1), "BOW -->"], ["Boat lies with the bow at the right of this sheet"]][i], ["Feet from bow"] + [foot(at) for at, _, _ in rows],
                                          ["Hull girth (in)"] + [hull for _, hull, _ in rows], ["Full girth (in)"] + [full for _, _, full in rows], [], ["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)]])
        sheet.column_dimensions["A"].width = 16
        emit("xlsx-bowright", i, "xlsx", saved(book), b)


def plotted():
    """Columns worked out for a chart beside those that were measured."""
    for i, b in pair_of("xlsx-plotted"):
        book, sheet = workbook("Data", [["Length overall (in)", b.loa], ["Bow height (in)", b.bow], ["Stern height (in)", b.stern], ["Carry point (in)", b.carry], [], ["Station (ft)", "Hull girth (in)", "Full girth (in)", "Opening = full - hull", "Half breadth port", "Half breadth stbd"]])
        for k, (at, hull, full) in enumerate(b.rows):
            n = 7 + k
            sheet.append([foot(at), hull, full, f"=C{n}-B{n}", f"=-D{n}/2", f"=D{n}/2"])
        chart = LineChart()
        chart.title = "Plan view"
        chart.add_data(Reference(sheet, min_col=5, max_col=6, min_row=6, max_row=6 + len(b.rows)), titles_from_data=True)
        chart.set_categories(Reference(sheet, min_col=1, min_row=7, max_row=6 + len(b.rows)))
        sheet.add_chart(chart, ["H2", "H8"][i])
        emit("xlsx-plotted", i, "xlsx", convert(saved(book), "xlsx", "xlsx"), b)


def mixed_french():
    """French: some numbers are numbers, some are text with a comma, some carry their unit; the second has a guess."""
    for i, b in pair_of("xlsx-melange", unit="cm", tick=.5, french=True):
        def mixed(k, x):
            return [x, comma(x), f"{comma(x)} cm", f"{comma(x)} "][k % 4]
        book, sheet = workbook("Feuille 1", [["Bateau de", b.owner], ["Longueur hors tout", metres(b.loa)], ["Hauteur de l'étrave", mixed(2, b.bow)], ["Hauteur de la poupe", mixed(1, b.stern)], ["Point de portage", b.carry], [], ["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)", "Remarque"]])
        for k, (at, hull, full) in enumerate(b.rows):
            sheet.append([at, mixed(k, hull), mixed(k * 3 + 1, full) if (i, k) != (1, 6) else f"environ {int(full)}", "banc, 20 cm de large" if k == 4 else None])
        emit("xlsx-melange", i, "xlsx", saved(book), b, doubt=[[], [f"full_girth@{b.rows[6][0]}"]][i])


def in_metres():
    """Metres as numbers of two decimals."""
    for i, b in pair_of("xlsx-metres", unit="cm"):
        book, sheet = workbook("Boat", [["All measurements in metres"], [], ["Length overall", b.loa / 100], ["Bow height", b.bow / 100], ["Stern height", b.stern / 100], ["Carry point", b.carry / 100], [], [["Distance from bow", "Hull girth", "Full girth"], ["Station (m)", "Hull girth (m)", "Full girth (m)"]][i]])
        fill(sheet, [[at / 100, hull / 100, full / 100] for at, hull, full in b.rows])
        for row in sheet.iter_rows(min_row=3):
            for cell in row:
                if isinstance(cell.value, float):
                    cell.number_format = "0.00"
        emit("xlsx-metres", i, "xlsx", saved(book), b)


def deep_heading():
    """A heading three rows deep, the station between the two girths."""
    for i, b in pair_of("xlsx-deepheading", slip=False):
        book, sheet = workbook("Survey", [["Length overall", None, feet_words(b.loa)], ["Bow height", None, inch(b.bow)], ["Stern height", None, inch(b.stern)], ["Carry point", None, inch(b.carry)], [], ["Measured girths"], ["Hull girth", "Station", "Full girth"], ["inches", "feet from bow", "inches"]])
        fill(sheet, [[hull, foot(at), full] for at, hull, full in b.rows])
        for k in range(1, 5):
            sheet.merge_cells(start_row=k, end_row=k, start_column=1, end_column=2)
        sheet.merge_cells("A6:C6")
        for row in sheet.iter_rows(min_row=6, max_row=8):
            for cell in row:
                cell.alignment, cell.font = Alignment(horizontal="center"), Font(bold=True)
        emit("xlsx-deepheading", i, "xlsx", saved(book), b)


def sold_boat():
    """A second sheet holds the boat before this one, and says that it is sold."""
    for (i, b), (_, old) in zip(pair_of("xlsx-soldboat"), pair_of("xlsx-soldboat old", slip=False)):
        book = openpyxl.Workbook()
        for title, told, boat in (["New canoe", "This is the one that needs a cover.", b], ["Old canoe", "SOLD in May - not this one, please ignore. I kept the sheet for its layout.", old])[:: [1, -1][i]]:
            sheet = book.create_sheet(title)
            fill(sheet, [[told], [], ["Length overall", feet(boat.loa)], ["Bow height", quote(boat.bow)], ["Stern height", quote(boat.stern)], ["Carry point", quote(boat.carry)], [], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]])
            fill(sheet, [[foot(at), hull, full] for at, hull, full in boat.rows])
        book.remove(book["Sheet"])
        book.active = book["New canoe"]
        emit("xlsx-soldboat", i, "xlsx", saved(book), b)


def stacked_blocks():
    """A block of hull girths, and under it a block of full girths, each with its title."""
    for i, b in pair_of("csv-stackedblocks"):
        rows = [["Boat", b.craft], ["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)], []]
        for name, column in (("Hull girth", 1), ("Full girth", 2)):
            rows += [[f"{name} (inches)"], ["Feet from bow", "Inches"][: 2 * (1 - i)]] + [[foot(row[0]), [dec, plain][i](row[column])] for row in b.rows] + [[]]
        emit("csv-stackedblocks", i, "csv", separated([row for row in rows if row or i == 0], [",", ";"][i]), b)


def unit_in_cells():
    """French semicolons; every number carries its unit; a square stern."""
    for i, b in pair_of("csv-unitesfr", unit="cm", kind="square", feet=(9, 13), french=True, slip=False):
        rows = [["longueur hors tout", f"{comma(b.loa)} cm", ""], ["hauteur étrave", f"{comma(b.bow)} cm", ""], ["hauteur poupe", f"{comma(b.stern)} cm", ""], ["point de portage", f"{comma(b.carry)} cm", ""], ["endroit", "tour de coque", "tour complet"]]
        rows += [[f"à {at} cm", f"{hull} cm", f"{full} cm"] for at, hull, full in b.rows] + [[["tableau arrière", "au tableau"][i], *(f"{x} cm" for x in b.transom)]]
        emit("csv-unitesfr", i, "csv", separated(rows, ";", ["utf-8", "cp1252"][i]), b)


def pasted_tabs():
    """A sentence before and a sentence after the tabs."""
    for i, b in pair_of("tsv-sentences"):
        lines = ["Hello, this is the tab file from our tablet, everything in inches except where it says ft.", "", f"Length overall\t{feet_words(b.loa)}", f"Bow height\t{plain(b.bow)}", f"Stern height\t{plain(b.stern)}", f"Carry point\t{plain(b.carry)}", "", "Station\tHull girth\tFull girth"]
        lines += [f"{foot(at)} ft\t{[plain, glyph][i](hull)}\t{[plain, glyph][i](full)}" for at, hull, full in b.rows] + ["", f"That is all. Ring me on {b.phone} after 6 if something looks odd. {b.first}"]
        emit("tsv-sentences", i, "tsv", ("\n".join(lines) + "\n").encode("utf-8"), b)


def counted_rows():
    """Word numbers the rows: the foot of each is the number that the program shows."""
    for i, b in pair_of("docx-countedrows", feet=(11, 16)):
        d = docx.Document()
        d.add_paragraph(f"{b.craft.capitalize()} of {b.owner}. " + ["The numbers at the left are feet from the bow.", "Number = feet from the bow; girths in inches."][i])
        for name, x in (("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry))):
            d.add_paragraph(f"{name} – {x}")
        table = grid(d, [["Feet", "Hull girth (in)", "Full girth (in)"]] + [["", *map([plain, dec][i], row[1:])] for row in b.rows])
        for row in table.rows[1:]:
            row.cells[0].paragraphs[0].style = d.styles["List Number"]
        emit("docx-countedrows", i, "docx", saved(d), b)


def superscripts():
    """Small raised numbers behind some girths point to the notes below the table."""
    for i, b in pair_of("docx-raisednotes", slip=False):
        d = docx.Document()
        d.add_paragraph(f"Length overall {feet_words(b.loa)}. Bow height {inch(b.bow)}. Stern height {inch(b.stern)}. Carry point {inch(b.carry)}.")
        table = grid(d, [["Feet from bow", "Hull girth, in", "Full girth, in"]] + [[foot(at), *map([plain, dec][i], (hull, full))] for at, hull, full in b.rows])
        marks = ["1", "2", "3"] if i == 0 else ["a", "b", "c"]
        for mark, row, column in zip(marks, (2, 6, len(b.rows) - 1), (2, 1, 2)):
            run = table.rows[row].cells[column].paragraphs[0].add_run(mark)
            run.font.superscript = True
        for mark, note in zip(marks, ("over the front deck, which is 2 in high here", "under the yoke pad", "outside of the rub rail")):
            p = d.add_paragraph()
            p.add_run(mark).font.superscript = True
            run = p.add_run(" " + note)
            run.font.size = Pt(8)
        emit("docx-raisednotes", i, "docx", saved(d), b)


def questions_french():
    """French: the shop's questions, the answers in bold behind or below them."""
    for i, b in pair_of("docx-questionsfr", unit="cm", french=True):
        d = docx.Document()
        asked = [("Quelle est la longueur hors tout ?", metres(b.loa)), ("Quelle est la hauteur de l'étrave ?", f"{comma(b.bow)} cm"), ("Quelle est la hauteur de la poupe ?", f"{comma(b.stern)} cm"), ("Où est le point de portage ?", f"à {comma(b.carry)} cm de l'étrave")]
        asked += [(f"Tour de coque et tour complet à {at} cm ?", f"{hull} cm et {full} cm") for at, hull, full in b.rows]
        for question, answer in asked:
            p = d.add_paragraph(question + " " * (1 - i))
            if i:
                p = d.add_paragraph()
            p.add_run(answer).bold = True
        d.add_paragraph(f"{b.owner}, le 5 juillet 2026, tél. {b.phone}")
        emit("docx-questionsfr", i, "docx", saved(d), b)


LAYOUTS = (bow_right, plotted, mixed_french, in_metres, deep_heading, sold_boat, stacked_blocks, unit_in_cells, pasted_tabs, counted_rows, superscripts, questions_french)
