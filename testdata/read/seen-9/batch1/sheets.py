"""Workbooks, separated values and Word documents."""
import datetime
import io

import docx
import xlsxwriter
from docx.shared import Pt
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

from boats import cm, curly, dec, feet, feet_long, feet_tight, feet_words, foot, glyph, inch, metres, pair_of, plain, quote, spaced
from files import convert, emit, fill, grid, repacked, saved, separated, workbook


def widths(sheet, *some):
    for column, width in zip("ABCDEFGH", some):
        sheet.column_dimensions[column].width = width


def teacher():
    """A retired teacher's workbook: title page, boat, girths with a control by formula and a page of remarks."""
    for i, b in pair_of("xlsx-teacher"):
        out = io.BytesIO()
        book = xlsxwriter.Workbook(out, {"in_memory": True})
        book.set_properties({"created": datetime.datetime(2026, 8, 15)})
        title, bold, wrap = book.add_format({"bold": True, "font_size": 16}), book.add_format({"bold": True, "bottom": 1}), book.add_format({"text_wrap": True})
        half = book.add_format({"num_format": "0.0"})
        page = book.add_worksheet("Title page")
        page.set_column(0, 0, 70)
        for k, line in enumerate([f"Measurements of {'an' if b.craft[0] in 'aeiou' else 'a'} {b.craft}", f"undertaken by {b.owner} (Geography, retired 2009)", "assisted by Mr P. Ness of No. 14", "", "Contents", "1. The boat", "2. The girths", "3. Remarks", "", f"Telephone {b.phone}, not before 9 o'clock please."]):
            page.write(k, 0, line, title if k == 0 else None)
        boat = book.add_worksheet("1. The boat")
        boat.set_column(0, 0, 34)
        boat.set_column(1, 1, 16)
        for k, (name, x) in enumerate((("Length overall", feet_words(b.loa)), ("Height of bow above straight edge", inch(b.bow)), ("Height of stern above straight edge", inch(b.stern)), ("Carry point, from the bow", inch(b.carry)), ("Stern", "pointed"), ("Deck", "none"), ("Remains under the cover", "two cushions"))):
            boat.write(k, 0, name), boat.write(k, 1, x)
        girths = book.add_worksheet("2. The girths")
        girths.set_column(0, 4, 15)
        girths.merge_range(0, 0, 0, 4, "All girths in inches, to the nearest half inch", title)
        for k, head in enumerate(["Feet from bow", "Hull girth", "Full girth", "Difference", "Agrees?"]):
            girths.write(2, k, head, bold)
        for k, (at, hull, full) in enumerate(b.rows):
            r = 3 + k
            girths.write(r, 0, foot(at)), girths.write(r, 1, hull, half), girths.write(r, 2, full, half)
            girths.write_formula(r, 3, f"=C{r + 1}-B{r + 1}", half, full - hull)
            girths.write_formula(r, 4, f'=IF(AND(D{r + 1}>0,D{r + 1}<B{r + 1}),"yes","look again")', None, "yes" if 0 < full - hull < hull else "look again")
        remarks = book.add_worksheet("3. Remarks")
        remarks.set_column(0, 0, 80, wrap)
        for k, line in enumerate(["The tape was compared with the long edge of a sheet of paper: 11 inches exactly.", "At 6 feet there is a thwart; it does not touch the tape.", ["We began at half past 2 and were done by 4, tea included.", "The boat lay on two trestles, 28 inches high."][i]]):
            remarks.write(k, 0, line, wrap)
        book.close()
        emit("xlsx-teacher", i, "xlsx", repacked(out.getvalue()), b)


def tolerance():
    """An engineer gives each number its tolerance in a column of its own."""
    for i, b in pair_of("xlsx-tolerance", feet=(12, 18)):
        book, sheet = workbook("Survey", [[["Girth survey, rev. B", "GIRTH SURVEY - issue 2"][i], None, None, None, "Units: inch"], ["Surveyor", b.owner, None, None, datetime.date(2026, 8, 9 + i)], [],
                                          ["Item", "Value", "±"], ["Length overall", b.loa, .5], ["Bow height", b.bow, .25], ["Stern height", b.stern, .25], ["Carry point", b.carry, .25], [],
                                          ["x from bow", "Hull girth", "±", "Full girth", "±"]])
        fill(sheet, [[at, hull, .25, full, [.25, .5][at > 60]] for at, hull, full in b.rows])
        fill(sheet, [[], ["Tolerances are repeatability over 3 readings, tape 8 m class II at 21 °C."]])
        thin = Side(style="thin")
        for row in sheet.iter_rows(min_row=4, max_row=10 + len(b.rows), max_col=5):
            for cell in row:
                if cell.value is not None:
                    cell.border = Border(thin, thin, thin, thin)
                if cell.row in (4, 10):
                    cell.font = Font(bold=True)
                if i == 0 and isinstance(cell.value, float | int):
                    cell.number_format = "0.00"
        widths(sheet, 18, 20, 8, 12, 14)
        emit("xlsx-tolerance", i, "xlsx", saved(book), b)


def half_in_words(x):
    return f"{int(x)} and a half" if x % 1 else str(int(x))


def grandchild():
    """A child types what the grandfather says: halves in words, headings in her own; once she is not sure that she heard right."""
    for i, b in pair_of("xlsx-grandchild", slip=False, feet=(11, 15)):
        name, grand = [("Ella", "Grandpa"), ("Finn", "Grandma")][i]
        if i == 1:
            at, hull, full = b.rows[6]
            b.rows[6] = (at, hull, full + 10)
        book, sheet = workbook(["Boat", "Grandmas boat"][i], [[f"Hi I am {name} and I am {[9, 11][i]} years old. {grand} holds the tape and I type. {grand} says it is all inches."], [],
                                             ["How long the boat is (length overall)", f"{int(b.loa // 12)} feet" + (f" {half_in_words(b.loa % 12)} inches" if b.loa % 12 else "")], ["How high the bow is", half_in_words(b.bow)], ["How high the stern is", half_in_words(b.stern)], ["Carry point", half_in_words(b.carry)], [],
                                             ["feet from the bow", "hull girth (under the boat only)", "full girth (all the way around)"]])
        doubt = []
        for k, (at, hull, full) in enumerate(b.rows):
            row = [foot(at), half_in_words(hull), half_in_words(full)]
            if (i, k) == (0, 5):
                row[2] += f" I think? {grand} mumbled"
                doubt = [f"full_girth@{at}"]
            if (i, k) == (1, 3):
                row.append("now we eat pancakes")
            sheet.append(row)
        fill(sheet, [[], [f"The end!!! {grand} says thank you."]])
        sheet["A1"].font = Font(name="Comic Sans MS", size=14, color="CC0066")
        widths(sheet, 36, 32, 32)
        emit("xlsx-grandchild", i, "xlsx", saved(book), b, doubt=doubt)


def inventory():
    """A club's list of all its boats with their lengths and values; the survey of one of them is the second sheet."""
    for i, b in pair_of("xlsx-inventory"):
        fleet = [("Kingfisher", "canoe", 1998, "16 ft", 900), ("Dipper", "canoe", 2003, "15 ft 6 in", 750), ("Sandpiper", "canoe", 1974, "see next sheet", 1400), ("Grebe", "kayak", 2015, "14 ft", 620), ("Old Tom", "skiff", 1961, "12 ft 3 in", 300)]
        book, sheet = workbook("Fleet 2026", [["No.", "Name", "Kind", "Built", "Length", "Insured for ($)", "Cover?"]] + [[k + 1, *row, "needed" if k == 2 else ["yes", "no"][k % 2]] for k, row in enumerate(fleet)] + [[], ["Kept by the secretary, " + b.owner + ", " + b.phone]])
        for cell in sheet[1]:
            cell.font = Font(bold=True)
        sheet = book.create_sheet("Sandpiper")
        fill(sheet, [["Sandpiper (club boat 3), for Pinfold Cover Loft"], [], ["Length overall", feet_tight(b.loa), None, "Carry point", quote(b.carry)], ["Bow height", quote(b.bow), None, "Stern height", quote(b.stern)], [], ["Station", "Hull girth, in", "Full girth, in", None, "Measured by"]])
        fill(sheet, [[f"{foot(at)} ft", hull, full, None, ["Jo + Wim", "Ann + Pete"][k > 6]] for k, (at, hull, full) in enumerate(b.rows)])
        widths(sheet, 18, 15, 15, 14, 14)
        if i == 1:
            book.active = 1
        emit("xlsx-inventory", i, "xlsx", saved(book), b)


def watchman():
    """A French caretaker: two rows of headings, a column of observations; one station could not be measured."""
    for i, b in pair_of("xlsx-gardien", unit="cm", french=True):
        words = {1: "bande d'étrave sous le ruban", 4: "refait 2 fois, pareil", 6: "banc avant", 9: "photo 12"}
        book, sheet = workbook("Mesures", [["Relevé du canot de " + b.owner], [f"Gardien de la base, loge 2, tél. {b.phone}"], [], ["Longueur hors tout", cm(b.loa)], ["Hauteur de l'étrave", cm(b.bow)], ["Hauteur de la poupe", cm(b.stern)], ["Point de portage", cm(b.carry)], [],
                                           ["Distance", "Tours en cm", None, "Observations"], ["de l'étrave (cm)", "Tour de coque", "Tour complet"]])
        sheet.merge_cells("B9:C9"), sheet.merge_cells("D9:D10")
        without = []
        for k, (at, hull, full) in enumerate(b.rows):
            if k == [7, 11][i]:
                sheet.append([at, None, None, ["tréteau, pas pu mesurer", "impossible : le support est là"][i]])
                without = [f"hull_girth@{at}", f"full_girth@{at}"]
            else:
                sheet.append([at, hull, full, words.get(k)])
        for row in sheet.iter_rows(min_row=9, max_row=10):
            for cell in row:
                cell.font, cell.fill, cell.alignment = Font(bold=True), PatternFill("solid", fgColor="DDE8F0"), Alignment(horizontal="center", vertical="center")
        widths(sheet, 22, 16, 16, 32)
        emit("xlsx-gardien", i, "xlsx", saved(book), b, b.want(without))


def wrong_way():
    """A French sheet whose columns run full girth, hull girth, distance; the boat at the foot."""
    for i, b in pair_of("ods-alenvers", unit="cm", tick=.5, french=True, feet=(11, 15)):
        book, sheet = workbook("Feuille1", [["Bonjour, voici mes mesures. Le tour complet d'abord, ensuite la coque, la distance à droite (mon mari écrit ainsi)."], [], ["Tour complet (cm)", "Tour de coque (cm)", "Distance de l'étrave (cm)"]])
        fill(sheet, [[full, hull, at] for at, hull, full in b.rows])
        fill(sheet, [[], ["Longueur hors tout", metres(b.loa)], ["Hauteur étrave", cm(b.bow)], ["Hauteur poupe", cm(b.stern)], ["Point de portage", cm(b.carry)], [], [f"Merci, {b.owner}, {b.phone}"]])
        for row in sheet.iter_rows(min_row=4, max_row=3 + len(b.rows), max_col=2):
            for cell in row:
                cell.number_format = ["0.0", "General"][i]
        widths(sheet, 22, 22, 26)
        emit("ods-alenvers", i, "ods", convert(saved(book), "xlsx", "ods"), b)


def tasks():
    """A guide keeps the survey as a list of things done on his phone and exports it."""
    for i, b in pair_of("csv-tasks"):
        rows, clock = [["Task", "Details", "Done", "Date completed"]], 10 * 60 + 4

        def done(task, words):
            nonlocal clock
            clock += 2
            rows.append([task, words, "TRUE", f"2026-08-{11 + i} {clock // 60:02}:{clock % 60:02}"])

        done("Get boat down from rack", "call Benny 2 pm")
        done("Length overall", feet_words(b.loa)), done("Bow height", inch(b.bow)), done("Stern height", inch(b.stern)), done("Carry point", f"{inch(b.carry)}")
        for at, hull, full in b.rows:
            done(f"{foot(at)} ft", [f"hull girth {plain(hull)}, full girth {plain(full)}", f"hull girth {dec(hull)} / full girth {dec(full)}"][i])
        rows.append(["Trace bow and stern on paper", "", "FALSE", ""])
        rows.append(["Mail to cover shop", "say inches! trip on the 22nd", "FALSE", ""])
        emit("csv-tasks", i, "csv", separated(rows), b)


def book_keeper():
    """A French book-keeper's export: everything quoted, two decimals, a running number and a date on each row."""
    for i, b in pair_of("csv-comptable", unit="cm", tick=.5, french=True):
        def two(x):
            return f"{x:.2f}".replace(".", ",")
        rows = [["N°", "Date", "Libellé", "Tour de coque", "Tour complet", "Valeur", "Unité"]]
        day = ["14/08/2026", "15/08/2026"][i]
        for name, x in (("Longueur hors tout", b.loa), ("Hauteur de l'étrave", b.bow), ("Hauteur de la poupe", b.stern), ("Point de portage", b.carry)):
            rows.append([len(rows), day, name, "", "", two(x), "CM"])
        for at, hull, full in b.rows:
            rows.append([len(rows), day, f"Station à {at} cm", two(hull), two(full), "", "CM"])
        emit("csv-comptable", i, "csv", separated(rows, ";", ["utf-8", "cp1252"][i], quoting=1), b)


def laboratory():
    """A laboratory hand's file: what is said of the boat behind number signs, a flag on each row and its key."""
    for i, b in pair_of("tsv-lab", slip=False):
        if i == 1:
            at, hull, full = b.rows[8]
            b.rows[8] = (at, hull - 10, full)
        k, doubt = 4, []
        rows = [["# boat: " + b.craft], ["# observer: " + b.owner], ["# flags: A = read twice and agreed, B = read once, U = uncertain, do not rely on it"], ["# lengths in inches"],
                ["quantity", "value"], ["length_overall", dec(b.loa)], ["bow_height", dec(b.bow)], ["stern_height", dec(b.stern)], ["carry_point", dec(b.carry)], [],
                ["station_ft", "hull_girth_in", "full_girth_in", "flag"]]
        for n, (at, hull, full) in enumerate(b.rows):
            flag = "U" if (i, n) == (0, k) else "AB"[n % 3 == 2]
            rows.append([foot(at), dec(hull), dec(full), flag])
            if flag == "U":
                doubt = [f"hull_girth@{at}", f"full_girth@{at}"]
        emit("tsv-lab", i, "tsv", separated(rows, "\t", newline="\n"), b, doubt=doubt)


def photographed():
    """Beside each station stands the number of its photograph, and the battery's end is told."""
    for i, b in pair_of("docx-photos"):
        d = docx.Document()
        d.add_heading("Boat measurements with photographs", 1)
        d.add_paragraph(f"{b.owner}, {b.phone}. The photographs come on a stick with the tracings (2 GB).")
        d.add_paragraph(f"Length overall {feet(b.loa)} (IMG_{2038 + i})\nBow height {quote(b.bow)} (IMG_{2039 + i})\nStern height {quote(b.stern)} (IMG_{2040 + i})\nCarry point {quote(b.carry)} (no photo)")
        write = [quote, curly][i]
        rows, n = [[["Photo", "Distance from bow", "Hull girth", "Full girth"], ["Distance from bow", "Photo no.", "Hull girth", "Full girth"]][i]], 2041 + i
        for k, (at, hull, full) in enumerate(b.rows):
            picture = [f"IMG_{n}", str(n)][i] if k not in (5, 6) else ["battery empty", "-"][i]
            n += k not in (5, 6)
            rows.append([picture, f"{foot(at)}'", write(hull), write(full)] if i == 0 else [f"{foot(at)} ft", picture, write(hull), write(full)])
        grid(d, rows)
        d.add_paragraph()
        d.add_paragraph("If a photo disagrees with the table please believe the photo and ring me.")
        emit("docx-photos", i, "docx", saved(d), b)


def ticked_french():
    """A French sheet of a base nautique with boxes ticked, blanks filled and a table; one girth was forgotten."""
    for i, b in pair_of("docx-cochees", unit="cm", french=True, feet=(11, 16)):
        d = docx.Document()
        d.add_heading("FICHE DE MESURE", 1)
        for line in (f"Nom : {b.owner}        Téléphone : {b.phone}", "Embarcation : ☑ canoë   ☐ kayak   ☐ barque", "Arrière : ☑ pointu   ☐ carré        Ponté : ☐ oui   ☑ non", "Unité : ☐ pouces   ☑ centimètres",
                     f"Longueur hors tout : {dec(b.loa)}        Point de portage : {dec(b.carry)}", f"Hauteur de l'étrave : {dec(b.bow)}        Hauteur de la poupe : {dec(b.stern)}"):
            d.add_paragraph(line)
        k = [6, 5][i]
        at = b.rows[k][0]
        rows = [["Distance de l'étrave", "Tour de coque", "Tour complet", "Vérifié"]] + [[str(a), str(h), str(f), "☑" if n % 2 == 0 else "☐"] for n, (a, h, f) in enumerate(b.rows)]
        rows[k + 1][2] = ["oublié", "à refaire"][i]
        grid(d, rows)
        d.add_paragraph()
        d.add_paragraph(["Restent sous la housse : 2 coussins et 1 pagaie.", "Reste sous la housse : rien."][i])
        emit("docx-cochees", i, "docx", saved(d), b, b.want([f"full_girth@{at}"]))


def under_and_around():
    """A short key on top (under, around), then a bold station and its two numbers a paragraph; the greatest girth last."""
    for i, b in pair_of("docx-underaround", slip=False, feet=(12, 16)):
        if i == 1:
            at, hull, full = b.rows[9]
            b.rows[9] = (at, hull, full + 12)
        d = docx.Document()
        d.styles["Normal"].font.name, d.styles["Normal"].font.size = "Georgia", Pt(12)
        d.add_paragraph(f"Dear sewers, I have written “under” for the hull girth, which goes under the boat from edge to edge, and “around” for the full girth. Everything is in inches. I am 71 and did it alone, so please be kind. {b.owner}")
        for words in (f"Length overall: {feet_long(b.loa)}", f"Bow height: {glyph(b.bow)}", f"Stern height: {glyph(b.stern)}", f"Carry point: {glyph(b.carry)}, to the thwart"):
            d.add_paragraph(words, style="List Bullet")
        for at, hull, full in b.rows:
            p = d.add_paragraph()
            p.paragraph_format.space_after = Pt(2)
            p.add_run([f"{foot(at)} ft", f"At {foot(at)} ft"][i]).bold = True
            p.add_run([f"  under {glyph(hull)}, around {glyph(full)}", f": {glyph(hull)} under, {glyph(full)} around"][i])
        at, hull, full = b.great
        d.add_paragraph()
        d.add_paragraph(f"Greatest girth: at {feet_words(at)} from the bow, {glyph(hull)} under and {glyph(full)} around; the opening there is {glyph(b.opening)}.")
        emit("docx-underaround", i, "docx", saved(d), b, b.want(great=True))


def basket():
    """An order with prices above the measurements on one sheet; a skiff with its transom."""
    for i, b in pair_of("xlsx-basket", kind="square", feet=(10, 14)):
        book, sheet = workbook("Order", [["ORDER", None, None, None], ["Article", "Quantity", "Price", "Sum"], ["Cover, made to measure, navy", 1, 389, 389], ["Tie-down strap", 4, 14.5, 58], [["Repair patch", "Storage bag"][i], 1, 22, 22], ["Total", None, None, 469], [], ["MEASUREMENTS (inches unless marked)"],
                                         ["Length overall", feet_words(b.loa)], ["Bow height", b.bow], ["Stern height", b.stern], ["Carry point", b.carry], [], ["Distance from bow", "Hull girth", "Full girth"]])
        fill(sheet, [[f"{foot(at)} ft", hull, full] for at, hull, full in b.rows] + [["Transom", *b.transom], [], ["Ship to " + b.owner + ", 27 Weir Lane. Deposit of $150 sent 10 August."]])
        for row in sheet.iter_rows(min_row=3, max_row=6, min_col=3, max_col=4):
            for cell in row:
                cell.number_format = '"$"#,##0.00'
        for k in (1, 2, 6, 8, 14):
            for cell in sheet[k]:
                cell.font = Font(bold=True)
        widths(sheet, 34, 14, 12, 12)
        emit("xlsx-basket", i, "xlsx", saved(book), b)


LAYOUTS = (teacher, tolerance, grandchild, inventory, watchman, wrong_way, tasks, book_keeper, laboratory, photographed, ticked_french, under_and_around, basket)
