"""Workbooks, separated values and Word documents."""
import datetime

import docx
from docx.shared import Pt
from openpyxl.styles import Font

from boats import comma, dash, dec, feet, feet_tight, feet_words, foot, glyph, halves, inch, inches, metres, pair_of, plain, quote
from files import convert, emit, fill, grid, saved, separated, workbook


def plus_for_half():
    """A plus sign stands for the half inch, and the owner says so."""
    for i, b in pair_of("xlsx-plushalf"):
        def plus(x):
            return f"{int(x)}+" if x % 1 else int(x)
        book, sheet = workbook("Boat", [["A plus means and a half, so 35+ is thirty-five and a half inches." if i == 0 else "+ = plus half an inch. Everything in inches."], [], ["Length overall", feet_words(b.loa)], ["Bow height", plus(b.bow)], ["Stern height", plus(b.stern)], ["Carry point", plus(b.carry)], [],
                                        ["Station (ft)", "Hull girth", "Full girth"]])
        fill(sheet, [[foot(at), plus(hull), plus(full)] for at, hull, full in b.rows])
        emit("xlsx-plushalf", i, "xlsx", saved(book), b)


def fore_and_aft():
    """The bow half and the stern half as two tables under one another; the boat below, two answers a row."""
    for i, b in pair_of("xlsx-foreaft"):
        book, sheet = workbook("Tabelle1" if i else "Sheet1", [[f"{b.owner}, {b.phone}"], []])
        for title, rows in zip(["Bow half", "Stern half (still counted from the bow)"], halves(b.rows)):
            fill(sheet, [[title], ["Feet", "Hull girth, inches", "Full girth, inches"]] + [[foot(at), hull, full] for at, hull, full in rows] + [[]])
        fill(sheet, [["Length overall", feet(b.loa), "Carry point", quote(b.carry)], ["Bow height", quote(b.bow), "Stern height", quote(b.stern)]])
        for row in sheet.iter_rows(max_col=1):
            row[0].font = Font(bold="half" in str(row[0].value))
        emit("xlsx-foreaft", i, "xlsx", saved(book), b)


def open_and_closed():
    """Stations in inches, quarter inches, the girths called open and closed."""
    for i, b in pair_of("xlsx-openclosed", tick=.25, slip=False):
        heads = [["Inches from bow", "Open girth (gunwale - keel - gunwale)", "Closed girth (all the way around)"], ["Inches from the bow", "Hull girth, open at the top", "Full girth, closed loop"]][i]
        book, sheet = workbook("Girths", [["Length overall", b.loa, "in"], ["Bow height", b.bow, "in"], ["Stern height", b.stern, "in"], ["Carry point", b.carry, "in"], ["Date", datetime.date(2026, 7, 11 + i)], [], heads])
        fill(sheet, [[at, hull, full] for at, hull, full in b.rows])
        for row in sheet.iter_rows(min_row=8, min_col=2, max_col=3):
            for cell in row:
                cell.number_format = ["0.00", "# ??/??"][i]
        emit("xlsx-openclosed", i, "xlsx", saved(book), b)


def read_me():
    """A sheet of words with all sorts of numbers in them, and the numbers on the next."""
    for i, b in pair_of("xlsx-readme"):
        book, sheet = workbook("Read me", [["Hello Pinfold Cover Loft"], [f"I am {b.owner} and this is my {b.craft}, bought in 2011 for 850 dollars, hull no. 4471."], [f"You can reach me on {b.phone}, best between 6 and 8."], ["All measurements are on the next sheet, in inches; I took them on 12 July with 2 neighbours and a 25 ft tape."],
                                            ["We would like it in navy, and a strap at about the middle."]])
        sheet = book.create_sheet(["Numbers", "Measurements"][i])
        fill(sheet, [["Station", "Hull girth", "Full girth", None, "Length overall", b.loa]] + [[f"{foot(at)} ft", hull, full] for at, hull, full in b.rows])
        for k, (name, x) in enumerate((("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry))):
            sheet.cell(2 + k, 5, name), sheet.cell(2 + k, 6, x)
        emit("xlsx-readme", i, "xlsx", saved(book), b)


def transom_french():
    """French skiffs: letters for the girths, explained; metres for the length, the transom as the last row."""
    for i, b in pair_of("xlsx-tableaufr", unit="cm", kind="square", feet=(9, 13), tick=.5, french=True):
        book, sheet = workbook("Relevé", [["Relevé de la yole" if i else "Relevé du doris"], ["TC = tour de coque, TT = tour total (fermé), en cm"], [], ["Longueur hors tout", metres(b.loa)], ["Hauteur à l'étrave", b.bow, "cm"], ["Hauteur à l'arrière", b.stern, "cm"], ["Point de portage", b.carry, "cm"], [], ["Distance (cm)", "TC", "TT"]])
        fill(sheet, [[at, hull, full] for at, hull, full in b.rows] + [["Tableau arrière", *b.transom]])
        sheet["A1"].font = Font(bold=True, size=14)
        emit("xlsx-tableaufr", i, "xlsx", saved(book), b)


def ticked_rows():
    """A running number, a tick and initials on every row; one station is to be done again and has no numbers yet."""
    for i, b in pair_of("xlsx-tickedrows"):
        book, sheet = workbook("List", [["No.", "What", "Hull girth (in)", "Full girth (in)", "Done", "By"]])
        for k, (name, x) in enumerate((("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry)))):
            sheet.append([k + 1, name, x, None, "✓", "JT"])
        missing = []
        for k, (at, hull, full) in enumerate(b.rows):
            if k == [6, 9][i]:
                sheet.append([k + 5, f"{foot(at)} ft from bow", "again on Sunday", None, None, None])
                missing = [f"hull_girth@{at}", f"full_girth@{at}"]
            else:
                sheet.append([k + 5, f"{foot(at)} ft from bow", hull, full, "✓", ["JT", "ML"][k % 2]])
        emit("xlsx-tickedrows", i, "xlsx", saved(book), b, b.want(missing))


def named_lines():
    """A name and a number a line: Hull girth at 3 ft."""
    for i, b in pair_of("csv-namedlines"):
        rows = [["Measurement", "Inches"], ["Length overall", dec(b.loa)], ["Bow height", dec(b.bow)], ["Stern height", dec(b.stern)], ["Carry point", dec(b.carry)]]
        for at, hull, full in b.rows:
            rows += [[[f"Hull girth at {foot(at)} ft", f"{foot(at)} ft - hull girth"][i], dec(hull)], [[f"Full girth at {foot(at)} ft", f"{foot(at)} ft - full girth"][i], dec(full)]]
        emit("csv-namedlines", i, "csv", separated(rows, [";", ","][i], newline="\n"), b)


def broken_headings():
    """French semicolons whose headings have a line break inside their quotes."""
    for i, b in pair_of("csv-entetesfr", unit="cm", tick=.5, french=True):
        rows = [["Canot", b.owner, ""], ["Longueur hors tout\n(cm)", comma(b.loa), ""], ["Hauteur de l'étrave\n(cm)", comma(b.bow), ""], ["Hauteur de la poupe\n(cm)", comma(b.stern), ""], ["Point de portage\n(cm)", comma(b.carry), ""], ["", "", ""], ["Distance\nde l'étrave\n(cm)", "Tour de\ncoque (cm)", "Tour\ncomplet (cm)"]]
        rows += [[at, comma(hull), comma(full)] for at, hull, full in b.rows]
        emit("csv-entetesfr", i, "csv", separated(rows, ";", ["utf-8-sig", "cp1252"][i]), b)


def across_french():
    """French, tabs, the stations along the top; a sentence of thanks at the foot."""
    for i, b in pair_of("tsv-traversfr", unit="cm", tick=.5, french=True, feet=(11, 15)):
        rows = [["Longueur hors tout (cm)", comma(b.loa)], ["Hauteur de l'étrave (cm)", comma(b.bow)], ["Hauteur de la poupe (cm)", comma(b.stern)], ["Point de portage (cm)", comma(b.carry)], [],
                ["Distance de l'étrave (cm)"] + [at for at, _, _ in b.rows], ["Tour de coque (cm)"] + [comma(hull) for _, hull, _ in b.rows], ["Tour complet (cm)"] + [comma(full) for _, _, full in b.rows], [], [f"Merci ! {b.owner}, {b.phone}"]]
        emit("tsv-traversfr", i, "tsv", separated(rows if i == 0 else rows[5:9] + rows[:4] + rows[8:], "\t", newline="\n"), b)


def remarks_in_cells():
    """OpenDocument: a word of remark in the same cell as some girths."""
    for i, b in pair_of("ods-incell", slip=False):
        remarks = {1: (1, "at deck edge"), 4: (2, "over the seat"), 7: (1, ["2nd try", "tape wet"][i]), len(b.rows) - 2: (2, "under the rope")}
        book, sheet = workbook("Canoe", [["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", f"{quote(b.carry)} (thwart)"], [], ["Feet from bow", "Hull girth, in", "Full girth, in"]])
        for k, (at, hull, full) in enumerate(b.rows):
            row = [foot(at), hull, full]
            if k in remarks:
                column, remark = remarks[k]
                row[column] = [f"{plain(row[column])} ({remark})", f"{plain(row[column])}, {remark}"][i]
            sheet.append(row)
        emit("ods-incell", i, "ods", convert(saved(book), "xlsx", "ods"), b)


def captioned():
    """A letter with a captioned table whose first column is merged into thirds; the greatest girth in a sentence."""
    for i, b in pair_of("docx-captioned", slip=False):
        d = docx.Document()
        d.add_paragraph(f"Dear Pinfold Cover Loft, below is what you asked for. The length overall is {feet_words(b.loa)}, the bow height {inches(b.bow)}, the stern height {inches(b.stern)}, and the carry point is {inches(b.carry)} from the bow.")
        d.add_paragraph("Table 1. Girths of the boat, in inches", style="Caption")
        table = grid(d, [["", "Station", "Hull girth", "Full girth"]] + [["", f"{foot(at)} ft", *map([plain, glyph][i], (hull, full))] for at, hull, full in b.rows])
        third = len(b.rows) // 3
        for name, first, last in (("Forward", 1, third), ("Middle", third + 1, 2 * third), ("Aft", 2 * third + 1, len(b.rows))):
            table.cell(first, 0).merge(table.cell(last, 0)).text = name
        at, hull, full = b.great
        d.add_paragraph(f"The greatest girth is at {feet_words(at)} from the bow: hull girth {inch(hull)}, full girth {inch(full)}, opening {inch(b.opening)}.")
        d.add_paragraph(f"Yours, {b.owner}")
        emit("docx-captioned", i, "docx", saved(d), b, b.want(great=True))


def typewritten():
    """Lines of a fixed-width letter, the columns made with blanks, fractions with a dash."""
    for i, b in pair_of("docx-typewritten"):
        d = docx.Document()
        d.styles["Normal"].font.name, d.styles["Normal"].font.size = "Courier New", Pt(11)
        lines = [b.owner, "Tel. " + b.phone, "", "Ref.: cover for " + b.craft, "", f"Length overall   {feet(b.loa, dash)}", f"Bow height       {dash(b.bow)}\"", f"Stern height     {dash(b.stern)}\"", f"Carry point      {dash(b.carry)}\"", "", ["Station     Hull girth     Full girth", "From bow    Hull girth     Full girth"][i]]
        lines += [f"{str(foot(at)) + chr(39):<12}{dash(hull) + chr(34):<15}{dash(full)}\"" for at, hull, full in b.rows]
        for line in lines:
            p = d.add_paragraph(line)
            p.paragraph_format.space_after = Pt(0)
        emit("docx-typewritten", i, "docx", saved(d), b)


def one_grid():
    """Everything in one table: merged rows for the boat on top, the girths below; a square stern."""
    for i, b in pair_of("docx-onegrid", kind="square", feet=(10, 14)):
        d = docx.Document()
        facts = [("Owner", f"{b.owner}, tel. {b.phone}"), ("Length overall", feet_tight(b.loa)), ("Bow height", glyph(b.bow) + '"'), ("Stern height", glyph(b.stern) + '"'), ("Carry point", glyph(b.carry) + '"')]
        k, doubt = 4, []
        rows = [[f"{foot(at)}'", glyph(hull) + '"', glyph(full) + '"'] for at, hull, full in b.rows]
        if i == 0:
            rows[k][2] = f"{glyph(b.rows[k][2])}\" ??"
            doubt = [f"full_girth@{b.rows[k][0]}"]
        table = grid(d, [[name, x, ""] for name, x in facts] + [["Station", "Hull girth", "Full girth"]] + rows + [["Transom", *(glyph(x) + '"' for x in b.transom)]])
        for row in table.rows[:len(facts)]:
            words = row.cells[1].text
            row.cells[1].merge(row.cells[2]).text = words
        emit("docx-onegrid", i, "docx", saved(d), b, doubt=doubt)


LAYOUTS = (plus_for_half, fore_and_aft, open_and_closed, read_me, transom_french, ticked_rows, named_lines, broken_headings, across_french, remarks_in_cells, captioned, typewritten, one_grid)
