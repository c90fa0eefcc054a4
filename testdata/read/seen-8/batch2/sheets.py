"""Workbooks, separated values and Word documents."""
import docx
from openpyxl.styles import Border, Font, PatternFill, Side

from boats import dec, feet, feet_words, foot, glyph, inch, pair_of, plain, quote
from files import convert, emit, fill, grid, saved, separated, workbook


def both_units():
    """Every number in inches and, worked out beside it, in centimetres; the second has the two the other way about."""
    for i, b in [(0, next(b for _, b in pair_of("xlsx-bothunits"))), (1, list(pair_of("xlsx-bothunits cm", unit="cm"))[1][1])]:
        other = (lambda x: round(x * 2.54, 1)) if i == 0 else (lambda x: round(x / 2.54, 1))
        this, that = [("in", "cm"), ("cm", "in")][i]
        book, sheet = workbook("Boat", [[f"Measured in {['inches', 'centimetres'][i]}, the {['centimetres', 'inches'][i]} are worked out by the sheet"], [], ["", this, that]])
        fill(sheet, [[name, x, other(x)] for name, x in (("Length overall", b.loa), ("Bow height", b.bow), ("Stern height", b.stern), ("Carry point from bow", b.carry))])
        sheet.append([])
        sheet.append(["Distance from bow" + [" (ft)", " (cm)"][i], f"Hull girth ({this})", f"Hull girth ({that})", f"Full girth ({this})", f"Full girth ({that})"])
        fill(sheet, [[foot(at) if i == 0 else at, hull, other(hull), full, other(full)] for at, hull, full in b.rows])
        for row in sheet.iter_rows():
            for cell in row[2:5:2]:
                cell.font = Font(italic=True, color="808080")
        emit("xlsx-bothunits", i, "xlsx", saved(book), b)


def station_both():
    """Each station told in feet and in inches; the owner's own names for the girths."""
    for i, b in pair_of("xlsx-stationboth"):
        book, sheet = workbook("Sheet1", [[f"{b.craft} - {b.owner}"], [], ["Overall length", feet_words(b.loa)], ["Height at bow", inch(b.bow)], ["Height at stern", inch(b.stern)], ["Bow to carry point", inch(b.carry)], [],
                                          ["Where", "Under the hull, rim to rim (hull girth)", "All the way round, closed loop (full girth)"]])
        fill(sheet, [[[f"{foot(at)} ft ({at} in)", f"{at}\" = {foot(at)} ft"][i], [dec, quote][i](hull) if i else hull, quote(full) if i else full] for at, hull, full in b.rows])
        sheet.column_dimensions["B"].width = sheet.column_dimensions["C"].width = 38
        emit("xlsx-stationboth", i, "xlsx", saved(book), b)


def numbered_french():
    """French: posts with a number and their distance, the girths by other names, a remark here and there; a guess in the first."""
    for i, b in pair_of("xlsx-postesfr", unit="cm", french=True):
        book, sheet = workbook("Relevé", [["Relevé du canot", None, b.owner, b.phone], [], ["Longueur hors tout (cm)", None, b.loa], ["Hauteur à l'étrave (cm)", None, b.bow], ["Hauteur à la poupe (cm)", None, b.stern], ["Poignée de portage, depuis l'étrave (cm)", None, b.carry], [],
                                          ["Poste n°", "Distance de l'étrave (cm)", "Tour de coque, dessus ouvert (cm)", "Tour complet, boucle fermée (cm)", "Remarques"]])
        for k, (at, hull, full) in enumerate(b.rows):
            sheet.append([k + 1, at, hull, f"{full} ?" if (i, k) == (0, 4) else full, {2: "2 mesures identiques", 5: "barre de portage", 7: "vent fort, repris à 16 h"}.get(k)])
        emit("xlsx-postesfr", i, "xlsx", saved(book), b, doubt=[[f"full_girth@{b.rows[4][0]}"], []][i])


def fractions_shown():
    """An OpenDocument sheet whose numbers are shown as fractions, its whole-boat numbers on a sheet of their own."""
    for i, b in pair_of("ods-fractions", slip=False):
        book, sheet = workbook("Girths", [["ft", "hull girth", "full girth"], [None, "inches", "inches"]])
        fill(sheet, [[foot(at), hull, full] for at, hull, full in b.rows])
        whole = book.create_sheet("Whole boat", [1, 0][i])
        fill(whole, [["What", "Inches"], ["Length overall", b.loa], ["Bow height", b.bow], ["Stern height", b.stern], ["Carry point", b.carry]])
        for page in book:
            for row in page.iter_rows(min_row=2, min_col=2):
                for cell in row:
                    if isinstance(cell.value, float):
                        cell.number_format = "# ?/?"
        emit("ods-fractions", i, "ods", convert(saved(book), "xlsx", "ods"), b)


def multiline():
    """Commas, quoted cells that run over several lines, and the address of the owner at the top."""
    for i, b in pair_of("csv-multiline"):
        rows = [["Name", b.owner, ""], ["Address", f"{14 + i} Ferry Lane,\nLower Dock,\nbox 23", ""], ["Boat", f"{b.craft}, \"{['Heron', 'Dipper'][i]}\",\nbuilt 1987", ""], ["Length overall", feet(b.loa), "bow tip to stern tip"], ["Bow height", quote(b.bow), ""],
                ["Stern height", quote(b.stern), ["", "twice, the same"][i]], ["Carry point", quote(b.carry), "front edge of the thwart,\nwhere the hand goes"], ["", "", ""], ["Station (ft)", "Hull girth (in)", "Full girth (in)", "Notes"]]
        rows += [[foot(at), [plain, dec][i](hull), [plain, dec][i](full), {3: "thwart here,\n1 in thick", 6: "wet, tape slipped,\ndone again"}.get(k, "")] for k, (at, hull, full) in enumerate(b.rows)]
        emit("csv-multiline", i, "csv", separated(rows, newline=["\r\n", "\n"][i]), b)


def bilingual():
    """Headings in English and in French, in inches."""
    for i, b in pair_of("docx-bilingual", feet=(12, 16)):
        d = docx.Document()
        d.add_heading("Cover / Toile", 1)
        d.add_paragraph(f"Owner / Propriétaire : {b.owner}")
        grid(d, [["Length overall / Longueur hors tout", feet(b.loa)], ["Bow height / Hauteur de l'étrave", quote(b.bow)], ["Stern height / Hauteur de la poupe", quote(b.stern)], ["Carry point / Point de portage", quote(b.carry)]])
        d.add_paragraph("Inches / pouces")
        sep = [" / ", "\n"][i]
        grid(d, [[f"Station (ft){sep}Poste (pi)", f"Hull girth{sep}Tour de coque", f"Full girth{sep}Tour complet"]] + [[foot(at), *map([plain, glyph][i], (hull, full))] for at, hull, full in b.rows])
        emit("docx-bilingual", i, "docx", saved(d), b)


def merged_remarks():
    """A Word table with remarks that run down over several rows, the pair at the greatest girth in a table of its own; the second has a hole."""
    for i, b in pair_of("docx-mergedremarks", slip=False):
        d = docx.Document()
        d.add_paragraph(f"Boat survey, {b.craft}, {['June', 'July'][i]} 2026")
        for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))):
            p = d.add_paragraph(name + "\t", style="List Bullet")
            p.add_run(x).bold = True
        hole = len(b.rows) - 3 if i else None
        table = grid(d, [["Station", "Hull girth", "Full girth", "Remarks"]] + [[f"{foot(at)}'", quote(hull), quote(full) if k != hole else "", ""] for k, (at, hull, full) in enumerate(b.rows)])
        for first, last, words in ((1, 3, "bow deck, 20 in long"), (6, 8, "yoke in the way, tape over it")):
            table.cell(first, 3).merge(table.cell(last, 3)).text = words
        d.add_paragraph("Biggest place:")
        grid(d, [["Greatest girth at", "Hull girth", "Full girth", "Opening there"], [feet(b.great[0]), quote(b.great[1]), quote(b.great[2]), quote(b.opening)]])
        values = b.want(great=True)
        if i:
            del values[f"full_girth@{b.rows[hole][0]}"]
        emit("docx-mergedremarks", i, "docx", saved(d), b, values)


def greatest_within():
    """The place of the greatest girth stands within the stations, in its order and in bold."""
    for i, b in pair_of("xlsx-greatestrow", slip=False):
        if b.great[0] % 12 == 0:
            b.great = (b.great[0] + 2, *b.great[1:])
        book, sheet = workbook("Tape", [["Length overall", feet(b.loa)], ["Bow height", b.bow, "in"], ["Stern height", b.stern, "in"], ["Carry point", b.carry, "in"], ["Opening at the greatest girth", b.opening, "in"], [], ["Station", "Hull girth (in)", "Full girth (in)"]])
        lines = sorted([(at, f"{foot(at)} ft", hull, full) for at, hull, full in b.rows] + [(b.great[0], [f"greatest: {feet_words(b.great[0])}", f"{feet_words(b.great[0])} (greatest girth)"][i], *b.great[1:])])
        for at, where, hull, full in lines:
            sheet.append([where, hull, full])
            if "greatest" in where:
                for cell in sheet[sheet.max_row]:
                    cell.font, cell.fill, cell.border = Font(bold=True), PatternFill("solid", fgColor="FFF2CC"), Border(top=Side("thin"), bottom=Side("thin"))
        emit("xlsx-greatestrow", i, "xlsx", saved(book), b, b.want(great=True))


LAYOUTS = (both_units, station_both, numbered_french, fractions_shown, multiline, bilingual, merged_remarks, greatest_within)
