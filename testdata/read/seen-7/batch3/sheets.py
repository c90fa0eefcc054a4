"""Workbooks, separated values and Word documents."""
import docx
from docx.oxml import OxmlElement
from docx.oxml.ns import qn

from boats import comma, dec, feet, feet_words, foot, inch, metres, pair_of, plain, quote
from files import convert, emit, fill, grid, saved, separated, workbook


def open_closed():
    """The girths are called open and closed, as the owner explains; half-foot stations at the ends."""
    for i, b in pair_of("xlsx-openclosed", ends=True, feet=(11, 15)):
        book, sheet = workbook("Boat", [["Open girth = hull girth, from rim to rim underneath. Closed girth = full girth, right round and across the top."], [], ["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)], [],
                                        ["Feet from the bow", ["Open girth, inches", "Hull (open) inches"][i], ["Closed girth, inches", "Full (closed) inches"][i]]])
        fill(sheet, [[foot(at), hull, full] for at, hull, full in b.rows])
        sheet.column_dimensions["A"].width = 20
        emit("xlsx-openclosed", i, "xlsx", saved(book), b)


def not_applicable():
    """A sheet printed for the longest boats: what does not apply is said so, line by line."""
    for i, b in pair_of("xlsx-notapplicable", feet=(11, 14)):
        none = ["n/a", "—"][i]
        book, sheet = workbook("Survey", [["BOAT SURVEY", None, None], ["Owner", b.owner, b.phone], ["Length overall", feet_words(b.loa), None], ["Bow height", inch(b.bow), None], ["Stern height", inch(b.stern), None], ["Carry point", inch(b.carry), None], [],
                                          ["Station", "Hull girth (in)", "Full girth (in)"]])
        fill(sheet, [[f"{foot(at)} ft", hull, full] for at, hull, full in b.rows])
        fill(sheet, [[f"{k} ft", none, none] for k in range(len(b.rows) + 1, 19)] + [["Transom (square stern only)", none, none], [], ["Motor", ["none", "n/a"][i]], ["Cushions", "2, come off"]])
        emit("xlsx-notapplicable", i, "xlsx", saved(book), b)


def kept_french():
    """French: a first and a second measure of each girth, and the one that is kept, which is the mean of the two."""
    for i, b in pair_of("xlsx-retenufr", unit="cm", french=True, slip=False):
        book, sheet = workbook("Mesures", [["Longueur hors tout", metres(b.loa)], ["Hauteur de l'étrave", f"{b.bow} cm"], ["Hauteur de la poupe", f"{b.stern} cm"], ["Point de portage", f"{b.carry} cm"], [],
                                           ["Station", "Tour de coque", None, None, "Tour complet"], ["cm", "1re mesure", "2e mesure", "retenu", "1re mesure", "2e mesure", "retenu"]])
        for k, (at, hull, full) in enumerate(b.rows):
            d, e = [0, 1, 0, 2, 1][k % 5], [1, 0, 0, 1, 2][k % 5]
            sheet.append([at, hull - d, hull + d, hull, full + e, full - e, full])
        sheet.merge_cells("B6:D6"), sheet.merge_cells("E6:G6")
        emit("xlsx-retenufr", i, "xlsx", saved(book), b)


def sixteenths():
    """A cabinet-maker's sixteenths, as decimals or as fractions."""
    for i, b in pair_of("csv-sixteenths", tick=1 / 16):
        write = [lambda x: f"{x:.4f}".rstrip("0").rstrip("."), plain][i]
        rows = [["length overall", feet_words(b.loa), ""], ["bow height (in)", write(b.bow), ""], ["stern height (in)", write(b.stern), ""], ["carry point (in)", write(b.carry), ""], ["station (ft)", "hull girth (in)", "full girth (in)"]]
        emit("csv-sixteenths", i, "csv", separated(rows + [[foot(at), write(hull), write(full)] for at, hull, full in b.rows]), b)


def parts_french():
    """French, OpenDocument: the stations under Avant, Milieu and Arrière."""
    for i, b in pair_of("ods-partiesfr", unit="cm", tick=.5, french=True):
        book, sheet = workbook("Canot", [[f"Canot de {b.owner}"], [], ["Longueur hors tout", f"{comma(b.loa)} cm"], ["Hauteur de l'étrave", f"{comma(b.bow)} cm"], ["Hauteur de la poupe", f"{comma(b.stern)} cm"], ["Point de portage", f"{comma(b.carry)} cm"], [], ["Distance (cm)", "Tour de coque (cm)", "Tour complet (cm)"]])
        n = len(b.rows) // 3
        for name, rows in (("AVANT", b.rows[:n]), ("MILIEU", b.rows[n:2 * n]), ("ARRIÈRE", b.rows[2 * n:])):
            sheet.append([name if i == 0 else name.capitalize()])
            fill(sheet, rows)
        emit("ods-partiesfr", i, "ods", convert(saved(book), "xlsx", "ods"), b)


def tracked():
    """Word kept track of the changes: some numbers are struck out and others put in their place."""
    for i, b in pair_of("docx-tracked", slip=False):
        d = docx.Document()
        for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))):
            d.add_paragraph(f"{name}: {x}")
        table = grid(d, [["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[foot(at), *map([plain, dec][i], (hull, full))] for at, hull, full in b.rows])
        for n, (k, column) in enumerate(((2, 2), (5, 1), (9, 2))):
            p = table.cell(k, column).paragraphs[0]
            new = p.runs[0]._r
            old = [plain, dec][i](b.rows[k - 1][column] - [4, 2, 6][n])
            gone, put = OxmlElement("w:del"), OxmlElement("w:ins")
            for mark in (gone, put):
                mark.set(qn("w:id"), str(100 + 2 * n + (mark is put))), mark.set(qn("w:author"), b.owner), mark.set(qn("w:date"), "2026-07-02T19:40:00Z")
            run, words = OxmlElement("w:r"), OxmlElement("w:delText")
            words.text = old
            run.append(words), gone.append(run)
            p._p.remove(new), put.append(new), p._p.append(gone), p._p.append(put)
        d.add_paragraph("Three places measured again on Thursday, with the tape pulled tight.")
        emit("docx-tracked", i, "docx", saved(d), b)


def word_sums():
    """A Word table in which Word works out the opening; a remark in the last column."""
    for i, b in pair_of("docx-wordsums", feet=(11, 16)):
        d = docx.Document()
        d.add_heading(f"{b.craft.capitalize()} - {b.owner}", 2)
        grid(d, [["Length overall", "Bow height", "Stern height", "Carry point"], [feet(b.loa), quote(b.bow), quote(b.stern), quote(b.carry)]])
        d.add_paragraph()
        table = grid(d, [["Feet", "Hull girth (in)", "Full girth (in)", "Opening (full less hull)", "Remarks"]] + [[foot(at), dec(hull), dec(full), "", {1: "stem band", 6: "thwart"}.get(k + i, "")] for k, (at, hull, full) in enumerate(b.rows)])
        for k, (at, hull, full) in enumerate(b.rows):
            field, run, words = OxmlElement("w:fldSimple"), OxmlElement("w:r"), OxmlElement("w:t")
            field.set(qn("w:instr"), f" =C{k + 2}-B{k + 2} ")
            words.text = dec(full - hull)
            run.append(words), field.append(run), table.cell(k + 1, 3).paragraphs[0]._p.append(field)
        emit("docx-wordsums", i, "docx", saved(d), b)


def hidden_column():
    """The columns of a first try, with a slack tape, are hidden."""
    for i, b in pair_of("xlsx-hiddencolumn"):
        book, sheet = workbook("Sheet1", [["Length overall", None, None, feet(b.loa)], ["Bow height", None, None, quote(b.bow)], ["Stern height", None, None, quote(b.stern)], ["Carry point", None, None, quote(b.carry)], [],
                                          ["Station (ft)", "Hull girth, first try, loose tape", "Full girth, first try, loose tape", "Hull girth (in)", "Full girth (in)"]])
        fill(sheet, [[foot(at), min(hull, full) + 1.5 + k % 2, max(hull, full) + 2 + k % 3 / 2, hull, full] for k, (at, hull, full) in enumerate(b.rows)])
        sheet.column_dimensions["B"].hidden = sheet.column_dimensions["C"].hidden = True
        emit("xlsx-hiddencolumn", i, "xlsx", saved(book), b)


LAYOUTS = (open_closed, not_applicable, kept_french, sixteenths, parts_french, tracked, word_sums, hidden_column)
