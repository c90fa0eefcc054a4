"""Workbooks of twelve people."""
import random

from openpyxl.comments import Comment
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

from boats import comma, feet, feet_words, foot, inch, pair_of, plain, quote
from files import Written, convert, emit, fill, saved, workbook

BOLD = Font(bold=True)


def wide(sheet, *widths):
    for name, width in zip("ABCDEFGHIJKLMNOPQRSTUVWX", widths):
        sheet.column_dimensions[name].width = width


def tolerance():
    """An engineer: a tolerance beside every number, running photo numbers, the distance beside the station's number; quarter inches."""
    for i, b in pair_of("xlsx-tolerance", tick=.25, slip=True):
        w = Written("Survey")
        s, bold, num = w.sheets[0], w.book.add_format({"bold": True, "bottom": 1, "text_wrap": True}), w.book.add_format({"num_format": "0.00"})
        photo = [101, 2214][i]
        for r, row in enumerate([["DIMENSIONAL SURVEY", None, None, "Rev. B"], ["Item", b.craft], ["Surveyed by", b.owner, None, b.phone], ["Instrument", "fibreglass tape 5 m, checked against a steel rule"], ["All dimensions in inches."]]):
            s.write_row(r, 0, row)
        s.write_row(6, 0, ["Ref.", "Dimension", "Measured [in]", "Tol. ±", "Photo no."], bold)
        for k, (name, x) in enumerate([("Length overall, stem to stern", b.loa), ("Bow height above base line", b.bow), ("Stern height above base line", b.stern), ("Carry point, from stem", b.carry)]):
            s.write_row(7 + k, 0, ["ABCD"[k], name]), s.write(7 + k, 2, x, num), s.write_row(7 + k, 3, [.25, photo + k])
        head = [["Sta.", "Distance from bow [in]", "Hull girth [in]", "Tol. ±", "Full girth [in]", "Tol. ±", "Photo no."],
                ["Photo no.", "Sta.", "x from bow [in]", "Hull girth, open [in]", "± tol.", "Full girth, closed loop [in]", "± tol."]][i]
        s.write_row(12, 0, head, bold)
        for k, (at, hull, full) in enumerate(b.rows):
            row = [k + 1, at, hull, .25, full, .5]
            s.write_row(13 + k, 0, [photo + 4 + k] + row if i else row + [photo + 4 + k])
        r = 14 + len(b.rows)
        for k, (name, x) in enumerate([("Greatest girth found at, from bow", b.great[0]), ("Hull girth there", b.great[1]), ("Full girth there", b.great[2]), ("Opening there (control)", b.opening)]):
            s.write_row(r + k, 0, ["EFGH"[k], name]), s.write(r + k, 2, x, num), s.write_row(r + k, 3, [.5])
        s.set_column(0, 0, 10), s.set_column(1, 1, 32), s.set_column(2, 6, 15)
        emit("xlsx-tolerance", i, "xlsx", w.done(), b, b.want(great=True))


def port_starboard():
    """The halves of the hull girth, port and starboard, in columns of their own, and their sum; one full girth of the second in doubt."""
    for i, b in pair_of("xlsx-portstarboard"):
        w = Written("Halves")
        s, bold = w.sheets[0], w.book.add_format({"bold": True, "text_wrap": True})
        r = random.Random(f"halves {i}")
        s.write(0, 0, f"{b.craft}, {b.owner}", bold)
        s.write(1, 0, ["I cannot pass the tape under her alone, so I measured each side from the keel up to the gunwale. The sheet adds the two: that is the hull girth.", "Each half is keel line to outer gunwale edge. Hull girth = port + starboard."][i])
        facts = [("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))]
        for k, fact in enumerate(facts):
            s.write_row(3 + k, 0, fact)
        head = [["Station (ft)", "Port side (in)", "Starboard side (in)", "Hull girth, the sum (in)", "Full girth (in)", "Notes"], ["Feet from bow", "Stbd half (in)", "Port half (in)", "Hull girth P+S (in)", "Full girth, right round (in)", "Remarks"]][i]
        s.write_row(8, 0, head, bold)
        unsure = 6
        for k, (at, hull, full) in enumerate(b.rows):
            one = round(hull / 2 * 2) / 2 + r.choice([0, 0, .5])
            one = min(one, hull - 1)
            s.write_row(9 + k, 0, [foot(at), one, hull - one])
            s.write_formula(9 + k, 3, f"=B{10 + k}+C{10 + k}", None, hull)
            s.write(9 + k, 4, full)
            s.write(9 + k, 5, [{3: "seat frame", 7: "thwart"}, {2: "seat", unsure: "not sure of this full girth, the tape was caught on the oarlock"}][i].get(k, ""))
        s.set_column(0, 4, 17), s.set_column(5, 5, 50)
        emit("xlsx-portstarboard", i, "xlsx", w.done(), b, doubt=[[], [f"full_girth@{b.rows[unsure][0]}"]][i])


def twice():
    """The whole table twice, first and second measuring, and a line that says which counts."""
    for i, b in pair_of("xlsx-twice"):
        r = random.Random(f"twice {i}")
        other = [(at, hull + r.choice([1, 1.5, 2, -1]), full + r.choice([1.5, 2, 3, -1.5])) for at, hull, full in b.rows]
        head = ["Station (ft)", "Hull girth (in)", "Full girth (in)"]
        tables = [[[foot(at), hull, full] for at, hull, full in rows] for rows in (b.rows, other)]
        book, s = workbook("Girths", [[f"Cover for {b.owner}"], [b.craft], []])
        fill(s, [["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)], []])
        if i == 0:
            fill(s, [["FIRST MEASURING (Saturday). Do not use: the tape was twisted and the seat cushion was still in."], head] + tables[1] + [[], []])
            fill(s, [["SECOND MEASURING (Sunday). These are the ones that count."], head] + tables[0])
        else:
            fill(s, [["FIRST MEASURING - use these. Done with my son, tape tight, both of us read it."], head] + tables[0] + [[], []])
            fill(s, [["SECOND MEASURING - only a check, alone in the wind. Please ignore."], head] + tables[1])
        for row in s.iter_rows():
            if isinstance(row[0].value, str) and "MEASURING" in row[0].value:
                row[0].font = BOLD
        wide(s, 22, 18, 18)
        emit("xlsx-twice", i, "xlsx", saved(book), b)


def mixed_units():
    """Length in feet and inches, girths in centimetres; the heights in centimetres in the first, feet and inches in the second."""
    for i, b in pair_of("xlsx-mixedunits", unit="cm"):
        def imperial(x):
            n = round(x / 2.54 * 2) / 2
            return round(n * 2.54, 2), n
        b.loa, loa = imperial(b.loa)
        facts = [["Length overall", feet_words(loa)], ["Bow height", f"{b.bow} cm"], ["Stern height", f"{b.stern} cm"], ["Carry point", f"{b.carry} cm"]]
        if i:
            (b.bow, bow), (b.stern, stern), (b.carry, carry) = map(imperial, (b.bow, b.stern, b.carry))
            facts = [["Length overall", feet(loa)], ["Bow height", feet(bow)], ["Stern height", feet(stern)], ["Carry point, from the bow", feet(carry)]]
        book, s = workbook("Boat", [[["Length is from the builder's long tape (feet), the rest from the sewing tape (cm).", "Lengths and heights in feet and inches, girths in cm because that is what the cloth tape has."][i]], []])
        fill(s, facts + [[]])
        s.append([["Station (cm from bow)", "Hull girth (cm)", "Full girth (cm)"], ["From the bow, cm", "Girth of hull, cm", "Full girth, cm"]][i])
        fill(s, b.rows)
        fill(s, [[], [b.owner, b.phone]])
        wide(s, 26, 18, 18)
        emit("xlsx-mixedunits", i, "xlsx", saved(book), b)


def comments():
    """Remarks hang on the cells as comments; one of the second says that its number is not sure."""
    for i, b in pair_of("xlsx-comments"):
        book, s = workbook("Canoe", [["Boat cover", None, b.owner], [], ["Length overall", feet_words(b.loa)], ["Bow height (in)", b.bow], ["Stern height (in)", b.stern], ["Carry point (in)", b.carry], [],
                                     [["Station (ft)", "Hull girth (in)", "Full girth (in)"], ["Foot", "Hull girth, in", "Full girth, in"]][i]])
        fill(s, [[foot(at), hull, full] for at, hull, full in b.rows])
        says = {"B6": "to the front edge of the carry thwart", "C11": "at the front seat", "B14": f"I had {plain(b.rows[5][1] + 2)} at first, then pulled the tape tight. This is right.", "C16": "bridged over the dent"} if i == 0 else \
               {"B3": "string from tip to tip", "B12": "seat here", "C15": "not sure of this one at all, the tape may have been over the seat frame", "B17": "carry yoke"}
        for cell, words in says.items():
            s[cell].comment = Comment(words, b.owner, height=70, width=220)
        for cell in s[8]:
            cell.font, cell.border = BOLD, Border(bottom=Side("thin"))
        wide(s, 18, 18, 18)
        emit("xlsx-comments", i, "xlsx", saved(book), b, doubt=[[], [f"full_girth@{b.rows[6][0]}"]][i])


def club_book():
    """A club secretary's workbook: members, boats, and one sheet that is the survey; a square stern."""
    members = [("Ada Finch", "14 ft", "555-0111", 40), ("Ralph Soames", "15 ft 6 in", "555-0112", 40), ("Peg Hanlon", "12 ft", "555-0113", 25), ("Ned Tully", "16 ft 2 in", "555-0114", 40)]
    for i, b in pair_of("xlsx-clubbook", kind="square", feet=(11, 15), slip=True):
        book, s = workbook(["Members", "Cover survey"][i])
        survey, list_ = (book.create_sheet("Cover survey"), s) if i == 0 else (s, book.create_sheet("Members"))
        fill(list_, [["No.", "Member", "Boat length", "Telephone", "Fee paid"]] + [[k + 1, *row] for k, row in enumerate(members)] + [[5, b.owner, feet_words(b.loa), b.phone, 40], [None, None, None, "Total", 185]])
        fees = book.create_sheet("Rack places")
        fill(fees, [["Rack", "Member no.", "Width of rack (in)"]] + [[k, 6 - k, [36, 42, 36, 48, 42][k - 1]] for k in range(1, 6)])
        fill(survey, [["Survey for a cover, member no. 5", None, None], [b.owner, b.craft, "square stern, open"], []])
        fill(survey, [["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)], []])
        survey.append([["Station", "Hull girth (in)", "Full girth (in)"], ["Ft from bow", "Hull girth in inches", "Full girth in inches"]][i])
        for cell in survey[survey.max_row]:
            cell.fill = PatternFill("solid", fgColor="FFF2CC")
        fill(survey, [[f"{foot(at)} ft" if i == 0 else foot(at), hull, full] for at, hull, full in b.rows])
        survey.append([["At the transom", "Transom"][i], *b.transom])
        fill(survey, [[], ["Greatest girth at", feet_words(b.great[0])], ["Greatest hull girth", inch(b.great[1])], ["Greatest full girth", inch(b.great[2])], ["Opening there", inch(b.opening)]])
        wide(survey, 24, 22, 22)
        emit("xlsx-clubbook", i, "xlsx", saved(book), b, b.want(great=True))


def averages():
    """Blank rows after every fourth station, a column of differences, averages and checks at the foot."""
    for i, b in pair_of("xlsx-averages"):
        w = Written("Cover")
        s, bold, grey = w.sheets[0], w.book.add_format({"bold": True}), w.book.add_format({"italic": True, "font_color": "#666666", "num_format": "0.0"})
        s.write(0, 0, f"{b.owner}: numbers for the {b.craft}", bold)
        for k, (name, x) in enumerate([("Length overall (in)", b.loa), ("Bow height (in)", b.bow), ("Stern height (in)", b.stern), ("Carry point (in)", b.carry)]):
            s.write_row(2 + k, 0, (name, x))
        s.write_row(7, 0, [["Station, ft", "Hull girth, in", "Full girth, in", "Full less hull"], ["Feet aft of bow", "Hull girth (in)", "Full girth (in)", "Difference"]][i], bold)
        r = 8
        for k, (at, hull, full) in enumerate(b.rows):
            r += bool(k and k % [4, 3][i] == 0)
            s.write_row(r, 0, [foot(at), hull, full]), s.write_formula(r, 3, f"=C{r + 1}-B{r + 1}", grey, full - hull)
            r += 1
        hulls, fulls = [row[1] for row in b.rows], [row[2] for row in b.rows]
        for name, call, work in [("Average", "AVERAGE", lambda x: sum(x) / len(x)), ("Largest", "MAX", max), ("Smallest", "MIN", min)][::[1, -1][i]]:
            r += 1
            s.write(r, 0, name, grey)
            for c, x in ((1, hulls), (2, fulls)):
                s.write_formula(r, c, f"={call}({'ABC'[c]}9:{'ABC'[c]}{8 + len(b.rows) + (len(b.rows) - 1) // [4, 3][i]})", grey, work(x))
        s.write(r + 1, 0, "Stations done", grey), s.write(r + 1, 1, len(b.rows), grey)
        s.write(r + 3, 0, "Check: no full girth is over twice its hull girth. OK."), s.write(r + 4, 0, f"Any question, {b.phone}")
        s.set_column(0, 3, 20)
        emit("xlsx-averages", i, "xlsx", w.done(), b)


def across_french():
    """French: stations across the top as "0,30 m", merged bands of bow, middle and stern above them."""
    for i, b in pair_of("xlsx-enlargefr", unit="cm", french=True, feet=(11, 14)):
        book, s = workbook("Feuil1")
        n, half = len(b.rows), Side("thin")
        s["A1"], s["A1"].font = [f"Housse pour {b.craft} - {b.owner}", f"{b.owner} : {b.craft}, mesures pour une housse"][i], Font(bold=True, size=13)
        s.merge_cells(start_row=1, start_column=1, end_row=1, end_column=n + 1)
        cuts = [2, 2 + n // 3, 2 + n - n // 3, n + 2]
        for k, name in enumerate(["AVANT", "MILIEU", "ARRIÈRE"]):
            s.cell(3, cuts[k], name).alignment = Alignment(horizontal="center")
            s.merge_cells(start_row=3, start_column=cuts[k], end_row=3, end_column=cuts[k + 1] - 1)
        lines = [("Distance de l'étrave", [f"{at / 100:.2f} m".replace(".", ",") for at, _, _ in b.rows]), ("Tour de coque (cm)", [x for _, x, _ in b.rows]), ("Tour complet (cm)", [x for *_, x in b.rows])]
        for k, (name, xs) in enumerate([lines[0], lines[2], lines[1]] if i else lines):
            s.cell(4 + k, 1, name).font = BOLD
            for c, x in enumerate(xs):
                s.cell(4 + k, 2 + c, x).border = Border(half, half, half, half)
        for k, (name, x) in enumerate([("Longueur hors tout", f"{b.loa / 100:.2f} m".replace(".", ",")), ("Hauteur avant", f"{b.bow} cm"), ("Hauteur arrière", f"{b.stern} cm"), ("Point de portage", f"{b.carry} cm de l'étrave")]):
            s.cell(8 + k, 1, name), s.cell(8 + k, 2, x)
        wide(s, 26, *[11] * n)
        emit("xlsx-enlargefr", i, "xlsx", saved(book), b)


def text_french():
    """French: every number a text with its unit; the other boat is only a remark; one full girth of the second left out."""
    for i, b in pair_of("xlsx-textefr", unit="cm", french=True, tick=.5):
        lost = 4
        book, s = workbook("Canot", [["Nom", b.owner], ["Tél.", b.phone], ["Embarcation", b.craft], []])
        fill(s, [["Longueur hors tout", (f"{b.loa / 100:.2f}" if b.loa == int(b.loa) else f"{b.loa / 100:.3f}").replace(".", ",") + " m"], ["Hauteur de l'étrave", f"{comma(b.bow)} cm"], ["Hauteur de l'étambot", f"{comma(b.stern)} cm"], ["Point de portage", f"{comma(b.carry)} cm"], []])
        fill(s, [[["Station", "Tour de coque", "Tour complet"], ["Distance de l'avant", "Tour de coque", "Tour complet"]][i]])
        fill(s, [[f"{at / 100:.2f} m".replace(".", ","), f"{comma(hull)} cm", "à reprendre" if (i, k) == (1, lost) else f"{comma(full)} cm"] for k, (at, hull, full) in enumerate(b.rows)])
        fill(s, [[], [["Remarque : l'autre canot, celui de ma sœur (5,20 m), sera mesuré plus tard.", "Remarque : ne pas confondre avec ma verchère de 4,90 m, que vous avez couverte il y a deux ans."][i]]])
        wide(s, 24, 18, 18)
        emit("xlsx-textefr", i, "xlsx", saved(book), b, b.want([f"full_girth@{b.rows[lost][0]}"] if i else []))


def teacher_french():
    """French: a retired teacher's long headings, a number before each measure, everything ruled."""
    for i, b in pair_of("xlsx-institutricefr", unit="cm", french=True, slip=True):
        w = Written("Relevé")
        s, wrap, cell = w.sheets[0], w.book.add_format({"bold": True, "text_wrap": True, "border": 1, "valign": "top"}), w.book.add_format({"border": 1})
        s.merge_range(0, 0, 0, 4, f"Relevé des dimensions de mon {b.craft}" if b.craft.startswith("canot") else f"Relevé des dimensions : {b.craft}", wrap)
        s.write(1, 0, f"établi par {b.owner}, toutes les valeurs étant exprimées en centimètres")
        rows = [("Longueur hors tout, en ligne droite, de la pointe avant à la pointe arrière", b.loa), ("Hauteur de l'avant, au point le plus haut, au-dessus de la règle posée sous le fond", b.bow), ("Hauteur de l'arrière, mesurée de la même façon", b.stern), ("Point de portage : distance de la pointe avant à la barre que la main saisit", b.carry)]
        for k, (name, x) in enumerate(rows):
            s.write_row(3 + k, 0, [f"{'abcd'[k]})", name, x], cell)
        head = ["Numéro d'ordre", "Distance depuis la pointe avant, suivie le long de la ficelle (en centimètres)", "Tour de coque : ruban passé sous la coque, d'un plat-bord à l'autre (en centimètres)", "Tour complet : le même ruban refermé en travers de l'ouverture (en centimètres)", "Observations"]
        s.write_row(8, 0, head, wrap)
        for k, (at, hull, full) in enumerate(b.rows):
            s.write_row(9 + k, 0, [k + 1, at, hull, full, [{3: "au droit du banc avant", 7: "à la barre de portage"}, {2: "au banc", 8: "deux fois vérifié"}][i].get(k, "")], cell)
        r = 10 + len(b.rows)
        s.write(r, 1, "Endroit du plus grand tour, depuis la pointe avant"), s.write(r, 2, b.great[0])
        s.write(r + 1, 1, "Tour de coque à cet endroit"), s.write(r + 1, 2, b.great[1])
        s.write(r + 2, 1, "Tour complet à cet endroit"), s.write(r + 2, 2, b.great[2])
        s.write(r + 3, 1, "Ouverture à cet endroit"), s.write(r + 3, 2, b.opening)
        s.set_column(0, 0, 9), s.set_column(1, 1, 60), s.set_column(2, 4, 26)
        emit("xlsx-institutricefr", i, "xlsx", w.done(), b, b.want(great=True))


def fields_down():
    """A form of one's own: every measure a field in one long column, answers with their unit; another sheet of notes."""
    for i, b in pair_of("ods-fieldsdown", feet=(11, 15)):
        book, s = workbook("My form", [["What", "Answer"], ["Owner", b.owner], ["Boat", b.craft], ["Ends", "both pointed"], ["Length overall", feet_words(b.loa)], ["Height at bow", inch(b.bow)], ["Height at stern", inch(b.stern)], ["Carry point", inch(b.carry)]])
        for at, hull, full in b.rows:
            fill(s, [[f"Hull girth at {foot(at)} ft", inch(hull)], [f"Full girth at {foot(at)} ft", inch(full)]] if i == 0 else [[f"Station {foot(at)} ft: full girth", quote(full)], [f"Station {foot(at)} ft: hull girth", quote(hull)]])
        fill(s, [["Stays under the cover", "two cushions"], ["Telephone", b.phone]])
        notes = book.create_sheet("Notes to myself")
        fill(notes, [["buy a longer tape (the old one stops at 60)"], ["ask about the other boat, 17 ft, next year"], ["trestles back to Gwen by the 20th"]])
        wide(s, 34, 20)
        emit("ods-fieldsdown", i, "ods", convert(saved(book), "xlsx", "ods"), b)


def two_blocks_french():
    """French: every 20 cm, the fore half of the boat and the after half side by side; one number of the second is "environ"."""
    for i, b in pair_of("ods-deuxblocsfr", unit="cm", french=True, step=20, feet=(12, 15)):
        n, vague = (len(b.rows) + 1) // 2, 7
        book, s = workbook("Feuille1", [[f"{b.owner}, {b.craft}, {b.phone}"], []])
        fill(s, [["Longueur hors tout", b.loa, "cm"], ["Hauteur avant", b.bow, "cm"], ["Hauteur arrière", b.stern, "cm"], ["Point de portage", b.carry, "cm"], []])
        s.append(["Moitié avant", None, None, None, "Moitié arrière"])
        head = ["Distance de l'avant (cm)", "Tour de coque (cm)", "Tour complet (cm)"]
        s.append(head + [None] + head)
        cells = [[at, f"environ {hull}" if (i, k) == (1, vague) else hull, full] for k, (at, hull, full) in enumerate(b.rows)]
        fill(s, [cells[k] + [None] + (cells[n + k] if n + k < len(cells) else []) for k in range(n)])
        fill(s, [[], [["Les gabarits des bouts suivent par la poste.", "« Environ » : le ruban touchait le tréteau, je n'ai pas pu faire mieux."][i]]])
        wide(s, 26, 20, 20, 4, 26, 20, 20)
        emit("ods-deuxblocsfr", i, "ods", convert(saved(book), "xlsx", "ods"), b, doubt=[[], [f"hull_girth@{b.rows[vague][0]}"]][i])


LAYOUTS = (tolerance, port_starboard, twice, mixed_units, comments, club_book, averages, across_french, text_french, teacher_french, fields_down, two_blocks_french)
