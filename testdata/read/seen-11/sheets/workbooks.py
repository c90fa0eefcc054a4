"""Surveys as workbooks: ten layouts of Excel, two of LibreOffice Calc."""
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

from boats import dec, feet, feet_french, feet_long, feet_tight, halves, metres, pair_of
from common import widths
from files import Written, convert, emit, fill, saved, workbook

BOLD = Font(bold=True)
THIN = Border(*[Side(style="thin")] * 4)


def bold(sheet, row):
    for cell in sheet[row]:
        cell.font = BOLD


def garage():
    """Labels and numbers on top, the table below, plain decimals of an inch; second: a slip, other labels, a note."""
    for i, b in pair_of("xlsx-garage", slip=True):
        book, s = workbook("Sheet1", [
            ["Canoe cover measurements"], ["Name", b.owner], ["Phone", b.phone], ["Boat", b.craft.capitalize()], [],
            [["Overall length (in)", "Length tip to tip, inches"][i], b.loa], [["Height at bow", "Bow height"][i], b.bow],
            [["Height at stern", "Stern height"][i], b.stern], [["Bow to carrying thwart", "Where I grab it to carry (from bow tip)"][i], b.carry], [],
            [["Feet from bow", "Ft. back from bow"][i], "Around hull (rail to rail underneath)", ["All the way around (closed loop)", "Right around, hull and top"][i]]])
        fill(s, [(at // 12, hull, full) for at, hull, full in b.rows])
        fill(s, [[], [["All in inches unless it says feet.", "Girths are in inches. Seats are cane and stay in."][i]]])
        s["A1"].font = Font(bold=True, size=14)
        bold(s, 11)
        widths(s, 34, 34, 32)
        emit("xlsx-garage", i, "xlsx", saved(book), b)


def fractions():
    """Cells shown as fractions by their number format, stations in inches, half-foot ones at the ends, the greatest girth last; second: eighths' format."""
    for i, b in pair_of("xlsx-fractions", ends=True):
        w = Written(["Cover", "Canoe"][i])
        s, frac = w.sheets[0], w.book.add_format({"num_format": ["# ?/?", "# ?/8"][i], "align": "center"})
        head = w.book.add_format({"bold": True, "bottom": 1, "text_wrap": True})
        s.set_column(0, 2, 32)
        s.write(0, 0, f"{b.owner}, {b.craft}, all measurements in inches", w.book.add_format({"bold": True}))
        for col, label in enumerate(["Distance from bow", ["Hull girth", "Girth of hull (open)"][i], ["Full girth", "Girth with opening (full)"][i]]):
            s.write(2, col, label, head)
        n = 3
        for row in b.rows:
            for col, x in enumerate(row):
                s.write(n, col, x, frac)
            n += 1
        n += 1
        for label, x in [(["Greatest girth found at", "Greatest girth: distance from bow"][i], b.great[0]), ("Hull girth there", b.great[1]), ("Full girth there", b.great[2]), ("Opening there", b.opening),
                         ("Length overall", b.loa), ("Bow height", b.bow), ("Stern height", b.stern), (["Carry point", "Carry point (front of carry thwart)"][i], b.carry)]:
            s.write(n, 0, label)
            s.write(n, 1, x, frac)
            n += 1
        emit("xlsx-fractions", i, "xlsx", w.done(), b, b.want(great=True))


def classeur():
    """Canadian French, feet and inches of length, girths in decimals of a pouce with a coloured heading; second: other labels and a line on the paint."""
    for i, b in pair_of("xlsx-classeur", french=True):
        book, s = workbook("Mesures", [
            ["MESURES POUR UNE TOILE"], [f"{b.owner}   tél. {b.phone}"], [b.craft.capitalize() + ["", ", repeint l'an passé, les plats-bords sont neufs"][i]], [],
            ["Longueur hors tout" if i else "Longueur totale", feet_french(b.loa)],
            [["Hauteur à la proue (po)", "Hauteur de la pointe avant (po)"][i], b.bow], [["Hauteur à la poupe (po)", "Hauteur de la pointe arrière (po)"][i], b.stern],
            [["Point de portage, de la proue (po)", "Point de prise pour le portage (po de la pointe avant)"][i], b.carry], [],
            [["Distance de la proue (pi)", "Pieds depuis l'avant"][i], ["Contour de la coque (po)", "Tour de la coque par-dessous (po)"][i], ["Contour complet (po)", "Tour complet, fermé par le dessus (po)"][i]]])
        fill(s, [(at // 12, hull, full) for at, hull, full in b.rows])
        s.merge_cells("A1:C1")
        s["A1"].font, s["A1"].alignment = Font(bold=True, size=13), Alignment(horizontal="center")
        for row in s.iter_rows(min_row=10):
            for cell in row:
                cell.border = THIN
                if cell.row == 10:
                    cell.font, cell.fill = BOLD, PatternFill("solid", fgColor="CFE2F3")
                elif cell.column > 1:
                    cell.number_format = "0.0"
        widths(s, 44, 32, 36)
        emit("xlsx-classeur", i, "xlsx", saved(book), b)


def metric():
    """Centimetres and a remarks column, greatest girth among the top lines; second: cm by the number format, one station left empty with its reason."""
    for i, b in pair_of("xlsx-metric", unit="cm"):
        book, s = workbook("Boat", [
            ["Owner:", b.owner], ["Date:", ["12 April 2026", "3 May 2026"][i]], ["Craft:", b.craft], ["Units:", "centimetres"], [],
            ["Length over all", b.loa], ["Height of bow", b.bow], ["Height of stern", b.stern], [["Carrying point (aft of bow)", "Hand grip for carrying, from bow"][i], b.carry],
            ["Largest girth is at", b.great[0]], ["   hull girth at that place", b.great[1]], ["   full girth at that place", b.great[2]], [],
            [["Distance from bow", "Station (from bow)"][i], ["Girth under hull", "Hull girth"][i], ["Girth all round", "Full girth"][i], "Remarks"]])
        skip, lost = b.rows[3][0], ["greatest.opening"]
        for n, (at, hull, full) in enumerate(b.rows):
            if i and at == skip:
                s.append([at, None, None, "trestle in the way, could not get the tape round"])
                lost += [f"hull_girth@{at}", f"full_girth@{at}"]
            else:
                s.append([at, hull, full, {5: "seat here", 8: "thwart"}.get(n)])
        for row in s.iter_rows():
            for cell in row:
                if i and isinstance(cell.value, int):
                    cell.number_format = '0" cm"'
        bold(s, 14)
        widths(s, 30, 20, 18, 44)
        emit("xlsx-metric", i, "xlsx", saved(book), b, b.want(lost, great=True))


def feuilles():
    """France, two sheets: the boat with metres and centimetres in words, and the girths; square stern, its pair on the last line."""
    for i, b in pair_of("xlsx-feuilles", unit="cm", kind="square", french=True):
        book, s = workbook("Bateau", [
            ["Propriétaire", b.owner], ["Bateau", b.craft], ["Courriel", b.mailbox.split("<")[1].strip(">")], [],
            ["Longueur hors tout", metres(b.loa) if not i else f"{b.loa} cm"], ["Hauteur avant (étrave)", f"{b.bow} cm"], ["Hauteur arrière (tableau)", f"{b.stern} cm"],
            [["Point de préhension, depuis l'étrave", "Poignée avant, distance à l'étrave"][i], f"{b.carry} cm"]])
        widths(s, 40, 24)
        t = book.create_sheet("Relevé" if i else "Sections")
        t.append([["Distance à l'étrave (cm)", "cm depuis l'avant"][i], ["Développé de coque (cm)", "Périmètre de coque, d'un plat-bord à l'autre"][i], ["Périmètre total (cm)", "Périmètre fermé (coque + ouverture)"][i]])
        fill(t, b.rows)
        t.append(["Au tableau arrière", *b.transom])
        bold(t, 1)
        t.freeze_panes = "A2"
        widths(t, 26, 42, 36)
        emit("xlsx-feuilles", i, "xlsx", saved(book), b)


def across():
    """Stations run across the page; second: a slip, and the heights stand below the table."""
    for i, b in pair_of("xlsx-across", slip=True):
        facts = [["Length overall", feet(b.loa)], ["Bow height", dec(b.bow) + '"'], ["Stern height", dec(b.stern) + '"'], [["Carry point", "Carry handle from bow"][i], dec(b.carry) + '"']]
        table = [[["Distance from bow", "Station"][i], *[f"{at // 12} ft" for at, *_ in b.rows]], [["Hull girth (in)", "Hull only, inches"][i], *[r[1] for r in b.rows]], [["Full girth (in)", "Whole loop, inches"][i], *[r[2] for r in b.rows]]]
        title = [f"{b.owner} - {b.craft} - {b.phone}"]
        book, s = workbook("Girths", [title, [], *(table + [[]] + facts if i else facts + [[]] + table)])
        for row in s.iter_rows():
            row[0].font = BOLD
        s.column_dimensions["A"].width = 24
        s.page_setup.orientation = "landscape"
        emit("xlsx-across", i, "xlsx", saved(book), b)


def skiff():
    """A square stern, remarks, the full girth before the hull's; second: the greatest girth without an opening, on a line by itself."""
    for i, b in pair_of("xlsx-skiff", kind="square"):
        book, s = workbook("skiff", [
            [[f"Cover for my {b.craft}", f"{b.craft.capitalize()} - storage cover wanted"][i]], [["measured in the yard with a cloth tape, inches", "numbers in inches"][i]], [],
            ["Station (ft from stem)", "Full loop", "Keel loop: gunwale - keel - gunwale", "Remarks"]])
        for n, (at, hull, full) in enumerate(b.rows):
            s.append([at // 12, full, hull, [{2: "ahead of the fore thwart", 7: "oarlock sockets just aft", 9: "stern seat"}, {6: "rowing seat"}][i].get(n)])
        s.append(["Transom", b.transom[1], b.transom[0], ["top corners, not over the sculling notch", "flat transom"][i]])
        s.append([])
        if i:
            s.append([f"Biggest place: {feet_long(b.great[0])} from the stem, full loop {dec(b.great[2])}, keel loop {dec(b.great[1])}"])
        fill(s, [["Length stem to transom", feet(b.loa)], ["Height at stem", b.bow], ["Height at transom", b.stern], ["Grip for carrying, from stem", b.carry]])
        s.append([f"{b.owner}, {b.phone}"])
        bold(s, 4)
        widths(s, 30, 14, 36, 40)
        emit("xlsx-skiff", i, "xlsx", saved(book), b, b.want(["greatest.opening"], great=bool(i)))


def tape():
    """Everything in feet and inches as on the tape, typed as text, with the greatest girth and its opening."""
    write = [feet, feet_tight]
    for i, b in pair_of("xlsx-tape"):
        w, f = Written("Sheet1"), write[i]
        s = w.sheets[0]
        head = w.book.add_format({"bold": True, "bg_color": "#EEEEEE", "border": 1})
        s.set_column(0, 3, 24)
        lines = [["Hello, here is my canoe." if not i else "Numbers for the cover, as promised on the phone"], [], ["Owner", b.owner], ["Make", "home built" if i else b.craft], ["LOA", f(b.loa)], ["Bow ht.", f(b.bow)], ["Stern ht.", f(b.stern)],
                 ["Carry point from bow", f(b.carry)], []]
        for n, row in enumerate(lines):
            for col, x in enumerate(row):
                s.write_string(n, col, x)
        for col, label in enumerate(["From bow", ["Girth, hull", "Hull girth"][i], ["Girth, full", "Girth all round"][i]]):
            s.write(len(lines), col, label, head)
        table = [(f"{at // 12}'", f(hull), f(full)) for at, hull, full in b.rows]
        table += [(), (f"Greatest girth at {f(b.great[0])}", f(b.great[1]), f(b.great[2])), ("Opening at that spot", f(b.opening))]
        for n, row in enumerate(table, len(lines) + 1):
            for col, x in enumerate(row):
                s.write_string(n, col, x)
        emit("xlsx-tape", i, "xlsx", w.done(), b, b.want(great=True))


def sides():
    """Front half of the stations at the left and back half at the right; second: a slip, and stations in inches."""
    for i, b in pair_of("xlsx-sides", slip=True):
        book, s = workbook("Sheet1", [
            ["Canvas cover, canoe of " + b.owner], ["length", b.loa, "inches", None, "bow height", b.bow, "inches"], ["carry point", b.carry, "inches from bow", None, "stern height", b.stern, "inches"], [],
            ["Front half", None, None, None, "Back half"]])
        names = [["feet from bow", "inches from bow"][i], ["around hull", "hull girth"][i], ["around everything", "full girth"][i]]
        s.append(names + [None] + names)
        left, right = ([(at if i else at // 12, hull, full) for at, hull, full in rows] for rows in halves(b.rows))
        right += [()] * (len(left) - len(right))
        fill(s, [[*a, None, *c] for a, c in zip(left, right)])
        s.append([])
        s.append(["Girths in inches. Call me evenings, " + b.phone])
        for row in (1, 5, 6):
            bold(s, row)
        widths(s, 18, 16, 20, 4, 18, 16, 20)
        emit("xlsx-sides", i, "xlsx", saved(book), b)


def kayak():
    """France, a decked boat in centimetres, with a column that subtracts by formula; second: the subtraction called width of deck."""
    for i, b in pair_of("xlsx-kayak", unit="cm", kind="decked", french=True, feet=(13, 16)):
        w = Written("Kayak")
        s, head = w.sheets[0], w.book.add_format({"bold": True, "text_wrap": True, "border": 1})
        s.set_column(0, 0, 34)
        s.set_column(1, 3, 20)
        s.write(0, 0, f"Housse pour {b.craft} – {b.owner}")
        for n, (label, x) in enumerate([("Longueur hors tout (cm)", b.loa), ("Hauteur de la pointe avant (cm)", b.bow), ("Hauteur de la pointe arrière (cm)", b.stern), (["Poignée de portage, depuis l'avant (cm)", "Point de portage (cm de la pointe avant)"][i], b.carry)], 2):
            s.write(n, 0, label)
            s.write(n, 1, x)
        for col, label in enumerate([["Position depuis l'avant (cm)", "Distance de la pointe avant, en cm"][i], ["Coque seule (cm)", "Tour de coque, livet à livet (cm)"][i], ["Tour complet par-dessus le pont (cm)", "Tour complet, pont compris (cm)"][i], ["Différence", "Pont (différence)"][i]]):
            s.write(7, col, label, head)
        for n, (at, hull, full) in enumerate(b.rows, 8):
            for col, x in enumerate((at, hull, full)):
                s.write(n, col, x)
            s.write_formula(n, 3, f"=C{n + 1}-B{n + 1}", None, full - hull)
        if i:
            s.write(n + 2, 0, "Gouvernail démonté pour les mesures.")
        emit("xlsx-kayak", i, "xlsx", w.done(), b)


def calc():
    """LibreOffice, stations from the stern end up, decimals with one place; second: the owner is unsure of one full girth."""
    for i, b in pair_of("ods-calc"):
        book, s = workbook("Canoe", [
            ["Your name", b.owner], ["Telephone", b.phone], ["Boat", b.craft], ["Inches throughout"], [],
            ["Bow to stern, straight line", b.loa], ["Bow, how high", b.bow], ["Stern, how high", b.stern], ["Carry thwart from bow", b.carry], [],
            [["Distance from bow, inches", "Inches from the bow"][i], ["Hull girth", "Girth without the top"][i], ["Full girth", "Girth with the top"][i], "Notes"]])
        doubt = [f"full_girth@{b.rows[6][0]}"] if i else []
        for n, (at, hull, full) in reversed(list(enumerate(b.rows))):
            s.append([at, hull, full, "not sure of the girth with the top, tape kept slipping" if i and n == 6 else None])
        for row in s.iter_rows(min_row=12, min_col=2, max_col=3):
            for cell in row:
                cell.number_format = "0.0"
        bold(s, 11)
        widths(s, 30, 24, 22, 50)
        emit("ods-calc", i, "ods", convert(saved(book), "xlsx", "ods"), b, doubt=doubt)


def tableur():
    """LibreOffice in France, a framed table with the greatest girth as its last line; second: a slip, metres for the length."""
    for i, b in pair_of("ods-tableur", unit="cm", french=True, slip=True):
        book, s = workbook("Feuille1", [
            ["Relevé de mesures (en cm)", None, "Nom :", b.owner], [], ["Section à", "Tour de coque (sans le dessus)", "Tour complet (avec le dessus)"]])
        fill(s, b.rows)
        s.append([f"Maximum à {b.great[0]}", b.great[1], b.great[2]])
        for row in s.iter_rows(min_row=3, max_col=3):
            for cell in row:
                cell.border = THIN
        fill(s, [["(les sections sont comptées depuis la pointe avant)"], [], ["Longueur hors tout", metres(b.loa) if i else b.loa], ["Hauteur de proue", b.bow], ["Hauteur de poupe", b.stern], [["Point de portage", "Barre de portage, depuis la pointe avant"][i], b.carry]])
        bold(s, 3)
        widths(s, 36, 30, 30, 24)
        emit("ods-tableur", i, "ods", convert(saved(book), "xlsx", "ods"), b, b.want(["greatest.opening"], great=True))


LAYOUTS = [garage, fractions, classeur, metric, feuilles, across, skiff, tape, sides, kayak, calc, tableur]
