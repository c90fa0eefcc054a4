"""Workbooks, separated values and Word documents."""
import datetime
import io

import docx
import xlsxwriter
from docx.shared import Cm
from openpyxl.styles import Alignment, Font, PatternFill

from boats import comma, curly, dec, feet, feet_french, feet_long, feet_tight, feet_words, foot, glyph, inch, inches, pair_of, plain, quote
from files import convert, emit, fill, grid, repacked, saved, separated, text, workbook


class Written:
    """A workbook by xlsxwriter."""

    def __init__(self, *names):
        self.out = io.BytesIO()
        self.book = xlsxwriter.Workbook(self.out, {"in_memory": True})
        self.book.set_properties({"created": datetime.datetime(2026, 5, 9)})
        self.sheets = [self.book.add_worksheet(name) for name in names]

    def done(self):
        self.book.close()
        return repacked(self.out.getvalue())


def shed_list():
    """A heading, the four lengths, a column of feet with two girths and notes, the greatest girth below."""
    for i, b in pair_of("xlsx-shedlist", slip=True):
        book, sheet = workbook("Canoe", [["Measurements for a cover"], [b.owner, None, b.phone], [b.craft, None, datetime.date(2026, 5, 2 + i)], []])
        sheet["A1"].font = Font(bold=True, size=14)
        names = [("Length overall", "Bow height", "Stern height", "Carry point"), ("Length tip to tip", "Height of the front end", "Height of the back end", "Carry point")][i]
        fill(sheet, [[names[0], [feet, feet_words][i](b.loa)], [names[1], b.bow, "inches"], [names[2], b.stern, "inches"], [names[3], b.carry, "inches from the bow"], []])
        sheet.append([["Feet from bow", "Hull girth", "Full girth", "Notes"], ["Station", "Hull girth (inches)", "Full girth (inches)", "Remarks"]][i])
        for cell in sheet[sheet.max_row]:
            cell.font = Font(bold=True)
        for k, (at, hull, full) in enumerate(b.rows):
            sheet.append([foot(at), hull, full, [{1: "carry thwart", 5: "seat", 9: "done twice, same"}, {0: "deck plate here", 4: "front seat", 8: "dent on the left side"}][i].get(k)])
        fill(sheet, [[], ["Greatest girth"], ["at", feet_words(b.great[0])], ["hull girth", b.great[1]], ["full girth", b.great[2]], ["opening there", b.opening]])
        sheet.column_dimensions["A"].width = sheet.column_dimensions["B"].width = sheet.column_dimensions["C"].width = 20
        emit("xlsx-shedlist", i, "xlsx", saved(book), b, b.want(great=True))


def across():
    """Stations run to the right, the two girths stand below one another."""
    for i, b in pair_of("xlsx-across", feet=(11, 15)):
        book, sheet = workbook("Sheet1")
        facts = [["Overall length", feet_words(b.loa)], ["Height of bow", inch(b.bow)], ["Height of stern", inch(b.stern)], ["Carry point", inch(b.carry)]]
        facts = [facts[k] for k in [(0, 1, 2, 3), (2, 1, 3, 0)][i]]
        girths = [[["Foot", "Station (ft)"][i]] + [foot(at) for at, _, _ in b.rows], [["Hull girth (in)", "Under the hull only (in)"][i]] + [hull for _, hull, _ in b.rows], [["Full girth (in)", "Full way round (in)"][i]] + [full for *_, full in b.rows]]
        fill(sheet, [[f"{b.owner} - {b.craft}"], []])
        fill(sheet, facts + [[]] + girths if i == 0 else girths + [[]] + facts)
        sheet.column_dimensions["A"].width = 22
        emit("xlsx-across", i, "xlsx", saved(book), b)


def side_block():
    """The girths on the left, the whole-boat numbers in a block to their right; half feet near the ends."""
    for i, b in pair_of("xlsx-sideblock", ends=True):
        book, sheet = workbook("boat")
        sheet.append([["Distance from bow (ft)", "Hull girth (in)", "Full girth (in)"], ["Feet", "Girth of hull, in", "Girth all round, in"]][i])
        fill(sheet, [[foot(at), hull, full] for at, hull, full in b.rows])
        side = [("Name", b.owner), ("Boat", b.craft), ("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry))]
        if i:
            side = side[2:] + [("Greatest girth at", feet(b.great[0])), ("Hull girth there", quote(b.great[1])), ("Full girth there", quote(b.great[2])), ("Opening there", quote(b.opening))] + side[:2]
        for k, (name, x) in enumerate(side):
            sheet.cell(2 + k, 5 + i, name).font = Font(bold=True)
            sheet.cell(2 + k, 6 + i, x)
        for name in "ABCEFG":
            sheet.column_dimensions[name].width = 22
        emit("xlsx-sideblock", i, "xlsx", saved(book), b, b.want(great=bool(i)))


def french_list():
    """French, centimetres, the girths in a table with bands and filter buttons."""
    for i, b in pair_of("xlsx-relevefr", unit="cm", french=True):
        w = Written("Mesures")
        sheet, bold = w.sheets[0], w.book.add_format({"bold": True})
        sheet.write(0, 0, ["Mesures de mon canot pour la housse", "Prise de mesures - housse"][i], bold)
        sheet.write(1, 0, b.owner), sheet.write(1, 1, f"tél. {b.phone}")
        sheet.write(2, 0, ["Toutes les mesures sont en centimètres", "(tout est en cm)"][i])
        names = [["Longueur hors tout", "Hauteur de l'avant", "Hauteur de l'arrière", "Point de portage (depuis la pointe avant)"], ["Longueur totale", "Hauteur à la proue", "Hauteur à la poupe", "Barre de portage, distance de la proue"]][i]
        for k, (name, x) in enumerate(zip(names, (b.loa, b.bow, b.stern, b.carry))):
            sheet.write(4 + k, 0, name), sheet.write(4 + k, 1, x)
        head = [["Distance de la pointe", "Tour de coque", "Tour complet", "Remarque"], ["Station", "Tour de la coque (ouvert)", "Tour complet (fermé)", "Notes"]][i]
        rows = [[at, hull, full, [{2: "banc avant", 6: "barre de portage"}, {3: "barre", 7: "vérifié", 10: "banc"}][i].get(k, "")] for k, (at, hull, full) in enumerate(b.rows)]
        sheet.add_table(9, 0, 9 + len(rows), 3, {"data": rows, "columns": [{"header": x} for x in head], "style": "Table Style Medium 2"})
        sheet.set_column(0, 3, 26)
        emit("xlsx-relevefr", i, "xlsx", w.done(), b)


def full_first():
    """The full girth stands before the hull girth, and the sheet works out the difference."""
    for i, b in pair_of("xlsx-fullfirst"):
        w = Written("Girths")
        sheet, bold, note = w.sheets[0], w.book.add_format({"bold": True, "bottom": 1}), w.book.add_format({"italic": True})
        for k, (name, x) in enumerate([(("Length overall", feet_words(b.loa)), ("Bow height (in)", b.bow), ("Stern height (in)", b.stern), ("Carry point (in)", b.carry)), (("LOA", feet_words(b.loa)), ("Bow end, height", inch(b.bow)), ("Stern end, height", inch(b.stern)), ("Carry handle, from bow", inch(b.carry)))][i]):
            sheet.write(k, 0, name), sheet.write(k, 1, x)
        for k, x in enumerate([["Station (ft)", "Full girth (in)", "Hull girth (in)", "Opening (in)"], ["ft", "closed loop (full girth), inches", "open at top (hull girth), inches", "difference"]][i]):
            sheet.write(5, k, x, bold)
        for k, (at, hull, full) in enumerate(b.rows):
            sheet.write_row(6 + k, 0, [foot(at), full, hull]), sheet.write_formula(6 + k, 3, f"=B{7 + k}-C{7 + k}", None, full - hull)
        sheet.write(8 + len(b.rows), 0, ["The last column is worked out, not measured.", "Difference is just a formula."][i], note)
        sheet.set_column(0, 3, [18, 28][i])
        emit("xlsx-fullfirst", i, "xlsx", w.done(), b)


def formatted():
    """Plain numbers that the cell's format shows with their unit, or as fractions; quarter inches."""
    for i, b in pair_of("xlsx-formatted", tick=.25, slip=True):
        w = Written("Sheet1")
        sheet = w.sheets[0]
        ft, inn = w.book.add_format({"num_format": '0 "ft"'}), w.book.add_format({"num_format": ['0.00" in"', "# ?/?"][i]})
        unit = ["", " (in)"][i]
        sheet.write(0, 0, "Cover for " + b.craft), sheet.write(0, 2, b.owner)
        order = [("Length overall", b.loa), ("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry)]
        for k, (name, x) in enumerate(order):
            sheet.write(2 + k, 0, name + unit), sheet.write(2 + k, 1, x, inn)
        for k, x in enumerate([("Station", "Hull girth", "Full girth"), ("Foot", "Girth open", "Girth closed")][i]):
            sheet.write(7, k, x + (unit if k else ""))
        for k, (at, hull, full) in enumerate(b.rows):
            sheet.write(8 + k, 0, foot(at), ft), sheet.write(8 + k, 1, hull, inn), sheet.write(8 + k, 2, full, inn)
        sheet.set_column(0, 2, 18)
        emit("xlsx-formatted", i, "xlsx", w.done(), b)


def feet_and_inches():
    """Feet and inches in columns of their own."""
    for i, b in pair_of("xlsx-ftin"):
        book, sheet = workbook("Measurements", [[b.owner, None, None, None, None], [None, "ft", "in"]])
        names = [("Length overall", "Bow height", "Stern height", "Carry point"), ("Length, end to end", "Height at the bow", "Height at the stern", "Carry point, from bow")][i]
        fill(sheet, [[name, int(x // 12), x % 12] for name, x in zip(names, (b.loa, b.bow, b.stern, b.carry))])
        sheet.append([])
        r = sheet.max_row + 2
        for c, x in ((1, "Foot"), (2, "Hull girth"), (4, "Full girth")):
            sheet.cell(r, c, x).alignment = Alignment(horizontal="center")
        for c, x in ((2, "ft"), (3, "in"), (4, "ft"), (5, "in")):
            sheet.cell(r + 1, c, x)
        sheet.merge_cells(start_row=r, start_column=2, end_row=r, end_column=3), sheet.merge_cells(start_row=r, start_column=4, end_row=r, end_column=5)
        fill(sheet, [[foot(at), int(hull // 12), hull % 12, int(full // 12), full % 12] for at, hull, full in b.rows])
        sheet.column_dimensions["A"].width = 22
        emit("xlsx-ftin", i, "xlsx", saved(book), b)


def skiff_french():
    """French, centimetres, a boat with a transom."""
    for i, b in pair_of("xlsx-chaloupefr", unit="cm", kind="square", feet=(11, 15), french=True, slip=True):
        book, sheet = workbook("Chaloupe", [["Propriétaire", b.owner], ["Bateau", b.craft + ", arrière carré"], ["Unité", "cm"], []])
        fill(sheet, [["Longueur hors tout", b.loa], ["Hauteur étrave", b.bow], ["Hauteur arrière (tableau)", b.stern], ["Point de portage", b.carry], []])
        sheet.append([["Station (cm)", "Tour de coque", "Tour complet"], ["À ... cm de l'étrave", "Coque seule, d'un bord à l'autre", "Tour complet (coque + dessus)"]][i])
        for cell in sheet[sheet.max_row]:
            cell.fill, cell.alignment = PatternFill("solid", fgColor="DDEBF7"), Alignment(wrap_text=True)
        fill(sheet, b.rows)
        sheet.append([["Tableau arrière", "Au tableau"][i], *b.transom])
        sheet.append([])
        fill(sheet, [["Plus grand tour, à", b.great[0]], ["   tour de coque", b.great[1]], ["   tour complet", b.great[2]]] if i else [])
        sheet.append(["Reste sous la toile : les deux bancs et les rames"])
        for name in "ABC":
            sheet.column_dimensions[name].width = 26
        values = b.want(great=bool(i))
        values.pop("greatest.opening", None)
        emit("xlsx-chaloupefr", i, "xlsx", saved(book), b, values)


def notebook_french():
    """French, an OpenDocument sheet with half centimetres and a line of text above; one height not yet taken in the second."""
    for i, b in pair_of("ods-carnetfr", unit="cm", tick=.5, french=True):
        book, sheet = workbook("Feuille1", [[["Bonjour, voici les mesures. Il manque seulement les gabarits des bouts, qui partent par la poste lundi.", "Mesures prises samedi avec ma fille ; la hauteur arrière reste à prendre, le canot est encore sur ses tréteaux contre le mur."][i]], []])
        fill(sheet, [[["Longueur hors tout", "Longueur bout à bout"][i], b.loa, "cm"], ["Hauteur avant", b.bow, "cm"], ["Hauteur arrière", None if i else b.stern, "cm"], ["Point de portage", b.carry, "cm"], []])
        sheet.append([["Distance depuis l'avant (cm)", "Tour de coque (cm)", "Tour complet (cm)"], ["Distance depuis l'avant (cm)", "Contour de la coque (cm)", "Contour complet (cm)"]][i])
        fill(sheet, b.rows)
        fill(sheet, [[], [f"{b.owner}, {b.phone}"]])
        for name in "ABC":
            sheet.column_dimensions[name].width = 28
        values = b.want(without=["stern_height"] if i else [])
        emit("ods-carnetfr", i, "ods", convert(saved(book), "xlsx", "ods"), b, values)


def excel_french():
    """French separated values: semicolons, decimal commas, the old encoding."""
    for i, b in pair_of("csv-excelfr", unit="cm", tick=.5, french=True, slip=True):
        rows = [["Nom", b.owner, "", ""], ["Téléphone", b.phone, "", ""], ["Embarcation", b.craft, "", ""], ["", "", "", ""]]
        names = [("Longueur hors tout", "Hauteur de l'étrave", "Hauteur de la poupe", "Point de portage"), ("Longueur d'un bout à l'autre", "Hauteur du bout avant", "Hauteur du bout arrière", "Point de portage (depuis l'avant)")][i]
        rows += [[name, comma(x), "cm", ""] for name, x in zip(names, (b.loa, b.bow, b.stern, b.carry))] + [["", "", "", ""]]
        rows += [["Station", "Tour de coque", "Tour complet", "Remarques"]] + [[[at, f"{at} cm"][i], comma(hull), comma(full), {4: "siège", 8: "membrure cassée"}.get(k, "")] for k, (at, hull, full) in enumerate(b.rows)]
        emit("csv-excelfr", i, "csv", separated(rows, ";", "cp1252"), b)


def commas():
    """Separated by commas, centimetres, the greatest girth as one more row."""
    for i, b in pair_of("csv-plaincm", unit="cm", slip=True):
        rows = [["Boat cover measurements", "", "", ""], [f"{b.owner}, {b.craft}", "", "", ""], ["All in cm", "", "", ""], ["", "", "", ""]]
        rows += [["Length overall", b.loa, "", ""], [["Bow height", "Height at bow"][i], b.bow, "", ""], [["Stern height", "Height at stern"][i], b.stern, "", ""], ["Carry point", b.carry, "", "back edge of the front deck"], ["", "", "", ""]]
        rows += [[["Station", "Hull girth", "Full girth", "Comment"], ["From the bow", "Open girth (hull)", "Closed girth (full)", "Comment"]][i]] + [[at, hull, full, {3: "front seat", 7: "yoke"}.get(k, "")] for k, (at, hull, full) in enumerate(b.rows)]
        rows += [["", "", "", ""], [["Greatest girth at", "Biggest at"][i], b.great[0], "", ""], ["Hull girth there", b.great[1], "", ""], ["Full girth there", b.great[2], "", ""], ["Opening there", b.opening, "", ""]]
        emit("csv-plaincm", i, "csv", separated(rows, newline=["\r\n", "\n"][i]), b, b.want(great=True))


def tabs():
    """Separated by tabs, fractions; one number in the second is a guess."""
    for i, b in pair_of("tsv-guess"):
        k = 5
        facts = [["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)]]
        rows = [facts[n] for n in [(0, 1, 2, 3), (3, 1, 2, 0)][i]] + [[], ["Station", "Hull girth (in)", "Full girth (in)"]]
        rows += [[f"{foot(at)} ft", plain(hull), f"about {plain(full)}" if (i, n) == (1, k) else plain(full)] for n, (at, hull, full) in enumerate(b.rows)]
        rows += [[], [["Thanks, " + b.owner, f"{b.owner}. The one marked about: the yoke was in the way and I had no helper."][i]]]
        emit("tsv-guess", i, "tsv", text(["\t".join(map(str, row)) for row in rows], newline=["\n", "\r\n"][i]), b, doubt=[[], [f"full_girth@{b.rows[k][0]}"]][i])


def word_list():
    """The shop's list copied into Word: two tables; a decked boat."""
    for i, b in pair_of("docx-list", kind="decked", feet=(13, 17), slip=True):
        d = docx.Document()
        d.add_heading(["Measuring my kayak", "Survey for a cover"][i], 1)
        grid(d, [["Your name", b.owner], ["Telephone", b.phone], ["Boat", b.craft], ["Pointed or square stern?", "pointed"], ["Open or decked?", "decked, one cockpit"], ["Length overall", [feet_long, feet_words][i](b.loa)], ["Bow height", inches(b.bow)], ["Stern height", inches(b.stern)], ["Carry point", inches(b.carry) + " (toggle)" * i], ["What stays under the cover?", "the seat"]])
        d.add_paragraph()
        d.add_paragraph(["Girths in inches, at every foot from the bow:", "All girths are inches."][i])
        grid(d, [["Station (ft)", "Hull girth", "Full girth"]] + [[foot(at), *map([plain, glyph][i], (hull, full))] for at, hull, full in b.rows], style=["Table Grid", "Light Grid Accent 1"][i])
        d.add_paragraph()
        d.add_paragraph(f"Greatest girth is at {feet_words(b.great[0])}: hull girth {inch(b.great[1])}, full girth {inch(b.great[2])}, opening {inch(b.opening)}.")
        emit("docx-list", i, "docx", saved(d), b, b.want(great=True))


def word_tabs():
    """A Word page without a table, columns made with the tab key; only half of the boat in the second."""
    for i, b in pair_of("docx-tabkey", ends=True):
        rows = b.rows[:len(b.rows) // 2 + 2] if i else b.rows
        d = docx.Document()
        d.add_paragraph(f"{b.owner}\n{b.craft}")

        def line(*cells, bold=False):
            p = d.add_paragraph()
            p.paragraph_format.space_after = 0
            for c in (5, 9):
                p.paragraph_format.tab_stops.add_tab_stop(Cm(c))
            p.add_run("\t".join(map(str, cells))).bold = bold
        line("Length overall", feet(b.loa, glyph)), line("Bow height", curly(b.bow)), line("Stern height", curly(b.stern)), line("Carry point", curly(b.carry)), line("")
        line("From the bow", *[("Hull girth", "Full girth"), ("Rim to rim below", "Right round")][i], bold=True)
        for at, hull, full in rows:
            line(feet(at) if at >= 12 else f"{at}\"", *map([feet_tight, curly][i], (hull, full)))
        line(""), line(f"Then it began to rain. The rest follows at the weekend. {b.first}" if i else f"That is all of it. Regards, {b.first}")
        values = b.want()
        if i:
            values = {name: x for name, x in values.items() if "@" not in name or float(name.split("@")[1]) <= rows[-1][0]}
        emit("docx-tabkey", i, "docx", saved(d), b, values)


def word_french():
    """A French letter in Word, feet and inches said the French way, the girths in a table of inches."""
    for i, b in pair_of("docx-lettrefr", french=True):
        d = docx.Document()
        d.add_paragraph(f"{b.owner}\n{7 + i}, rang du Moulin\nSainte-Aurore\nTél. {b.phone}")
        d.add_paragraph("Bonjour,")
        d.add_paragraph(f"J'ai mesuré mon {b.craft} hier soir. Voici ce que j'ai trouvé :")
        for name, x in (("Longueur hors tout", feet_french(b.loa)), ("Hauteur de l'étrave", f"{plain(b.bow)} po"), ("Hauteur de la poupe", f"{plain(b.stern)} po"), ("Point de portage", f"{plain(b.carry)} po de l'étrave")):
            d.add_paragraph(f"{name} : {x}", style="List Bullet")
        d.add_paragraph(["Les tours, en pouces, à chaque pied :", "Les tours à chaque pied (en pouces)"][i])
        grid(d, [["Pied", "Tour de coque", "Tour complet"]] + [[foot(at), *map([plain, comma][i], (hull, full))] for at, hull, full in b.rows])
        d.add_paragraph()
        d.add_paragraph(f"Le plus grand tour est à {feet_french(b.great[0])} de l'étrave : tour de coque {plain(b.great[1])} po, tour complet {plain(b.great[2])} po, ouverture {plain(b.opening)} po.")
        d.add_paragraph(f"Merci et bonne journée,\n\n{b.owner}")
        emit("docx-lettrefr", i, "docx", saved(d), b, b.want(great=True))


LAYOUTS = (shed_list, across, side_block, french_list, full_first, formatted, feet_and_inches, skiff_french, notebook_french, excel_french, commas, tabs, word_list, word_tabs, word_french)
