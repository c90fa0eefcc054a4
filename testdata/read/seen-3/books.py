"""Workbooks, made with openpyxl; some go through LibreOffice."""
import openpyxl
from openpyxl.comments import Comment
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

from craft import comma, curly, dec, feet, feetcurly, feetglyph, feetwords, fleet, ft, halves, mark, metrescomma, plain, quote, tick
from files import book, convert, emit


def sheet(title="Sheet1"):
    wb = openpyxl.Workbook()
    wb.active.title = title
    return wb, wb.active


def fill(ws, rows):
    for row in rows:
        ws.append(row)


def head(b, write):
    return [["Length overall", feet(b.loa)], ["Bow height", write(b.bow)], ["Stern height", write(b.stern)], ["Carry point", write(b.carry)]]


def tidy():
    """Labels, numbers, and a table under a bold heading."""
    for i, b in enumerate(fleet("tidy", 4)):
        wb, ws = sheet("Boat")
        names = [("Distance from bow (ft)", "Hull girth (in)", "Full girth (in)"), ("Station (feet)", "Hull girth, inches", "Full girth, inches"), ("Foot mark", "Girth under hull (in)", "Total girth incl. top (in)"), ("Station (in from bow)", "Hull girth (in)", "Full girth (in)")][i]
        fill(ws, [[f"Cover measurements: {b.craft}"], ["Name", b.person], ["Phone", b.phone], [], ["Length overall (in)", b.loa], ["Bow height (in)", b.bow], ["Stern height (in)", b.stern], ["Carry point from bow (in)", b.carry], [], names])
        for c in ws[ws.max_row]:
            c.font = Font(bold=True)
        fill(ws, [[at if i == 3 else ft(at), h, f] for at, h, f in b.rows])
        emit("xlsx-tidy", i, "xlsx", book(wb), "in", b.want())


def boxed():
    """A form with merged titles, lines and a column of units."""
    line = Side(style="thin")
    for i, b in enumerate(fleet("boxed", 3)):
        wb, ws = sheet("Survey")
        ws.merge_cells("A1:D1")
        ws["A1"] = "SURVEY FOR A FITTED COVER"
        ws["A1"].alignment = Alignment(horizontal="center")
        ws["A3"], ws["A4"] = "Customer", "Boat"
        ws["B3"], ws["B4"] = b.person, b.craft
        for k, (name, x) in enumerate([("Length overall", b.loa), ("Height, bow", b.bow), ("Height, stern", b.stern), ("Carry point", b.carry)]):
            ws.cell(6 + k, 1, name), ws.cell(6 + k, 2, x), ws.cell(6 + k, 3, "in")
        ws.merge_cells("B11:C11")
        ws["A11"], ws["B11"] = "Station", "Girths, inches"
        ws["A12"], ws["B12"], ws["C12"] = "ft from bow", "Hull", "Full"
        for k, (at, h, f) in enumerate(b.rows):
            for c, x in enumerate((ft(at), h, f)):
                ws.cell(13 + k, 1 + c, x).border = Border(line, line, line, line)
        emit("xlsx-boxed", i, "xlsx", book(wb), "in", b.want())


def centimetres():
    """Whole centimetres, the unit in the number format or in the heading."""
    for i, b in enumerate(fleet("centimetres", 3, unit="cm")):
        wb, ws = sheet()
        unit = ["", "", " (cm)"][i]
        fill(ws, [["Length overall" + unit, b.loa], ["Bow height" + unit, b.bow], ["Stern height" + unit, b.stern], ["Carry point" + unit, b.carry], [], ["From the bow" + unit, "Hull girth" + unit, "Full girth" + unit]])
        fill(ws, [list(r) for r in b.rows])
        if i < 2:
            for row in ws.iter_rows():
                for c in row:
                    if isinstance(c.value, (int, float)):
                        c.number_format = '0" cm"'
        emit("xlsx-centimetres", i, "xlsx", book(wb), "cm", b.want())


def typed():
    """Every number typed as text with its marks."""
    for i, b in enumerate(fleet("typed", 3)):
        write = [quote, curly, lambda x: f"{plain(x)} in."][i]
        wb, ws = sheet("measurements")
        fill(ws, head(b, write) + [[], [["Foot", "Station", "Mark"][i], "Hull girth", "Full girth"]] + [[tick(at), write(h), write(f)] for at, h, f in b.rows])
        emit("xlsx-typed", i, "xlsx", book(wb), "in", b.want())


def sheets():
    """The boat on one sheet, its girths on the next, a third about the cloth."""
    for i, b in enumerate(fleet("sheets", 3)):
        wb, ws = sheet("Boat")
        fill(ws, [["Owner", b.person], ["Make", b.craft], ["Length overall", feetwords(b.loa)], ["Bow height", f"{plain(b.bow)} in"], ["Stern height", f"{plain(b.stern)} in"], ["Carry point", f"{plain(b.carry)} in"]])
        girths = wb.create_sheet("Girths")
        fill(girths, [["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[ft(at), h, f] for at, h, f in b.rows])
        cloth = wb.create_sheet("Wishes")
        fill(cloth, [["Colour", "dark green"], ["Delivery", "before 20 June"], ["Stays under the cover", "2 cushions, 1 paddle"], ["Covers ordered", 1]])
        emit("xlsx-sheets", i, "xlsx", book(wb), "in", b.want())


def sideways():
    """Stations along the top of the sheet."""
    for i, b in enumerate(fleet("sideways", 2)):
        wb, ws = sheet()
        fill(ws, [["Length overall", feet(b.loa), "", "Bow height", quote(b.bow)], ["Carry point", quote(b.carry), "", "Stern height", quote(b.stern)], [], ["Station, ft"] + [ft(at) for at, _, _ in b.rows],
                  ["Full girth, in"] + [f for _, _, f in b.rows], ["Hull girth, in"] + [h for _, h, _ in b.rows]])
        emit("xlsx-sideways", i, "xlsx", book(wb), "in", b.want())


def fractions():
    """Numbers that the program shows as fractions, and a comment on a cell."""
    for i, b in enumerate(fleet("fractions", 2)):
        wb, ws = sheet()
        fill(ws, [["length overall, inches", b.loa], ["bow height, inches", b.bow], ["stern height, inches", b.stern], ["carry point, inches", b.carry], [], ["station, feet", "hull girth, inches", "full girth, inches"]])
        fill(ws, [[ft(at), h, f] for at, h, f in b.rows])
        for row in ws.iter_rows(min_col=2):
            for c in row:
                c.number_format = "# ?/?"
        ws.cell(9, 2).comment = Comment("took this one 2 times, 40 min after the others", b.person)
        emit("xlsx-fractions", i, "xlsx", book(wb), "in", b.want())


def averages():
    """Shading, a column of differences, and averages and counts at the foot."""
    for i, b in enumerate(fleet("averages", 3)):
        wb, ws = sheet("Data")
        fill(ws, head(b, quote) + [[], ["Station (ft)", "Hull girth (in)", "Full girth (in)", "Difference"]])
        first = ws.max_row + 1
        for k, (at, h, f) in enumerate(b.rows):
            ws.append([ft(at), h, f, f"=C{first + k}-B{first + k}"])
            if k % 2:
                for c in ws[ws.max_row]:
                    c.fill = PatternFill("solid", fgColor="DDE6EE")
        last = ws.max_row
        fill(ws, [[], ["Average", f"=AVERAGE(B{first}:B{last})", f"=AVERAGE(C{first}:C{last})"], ["Largest", f"=MAX(B{first}:B{last})", f"=MAX(C{first}:C{last})"], ["Stations", f"=COUNT(A{first}:A{last})"]])
        emit("xlsx-averages", i, "xlsx", convert(book(wb), "xlsx", "xlsx"), "in", b.want())


def halffeet():
    """Half-foot stations near the ends: 0.5, 1, 1.5, 2, 3."""
    for i, b in enumerate(fleet("halffeet-x", 3, spacing="ends")):
        wb, ws = sheet()
        name = [lambda at: at / 12, mark, tick][i]
        fill(ws, head(b, quote) + [[], ["Feet from bow" if i == 0 else "Station", "Hull girth (in)", "Full girth (in)"]] + [[name(at), h, f] for at, h, f in b.rows])
        emit("xlsx-halffeet", i, "xlsx", book(wb), "in", b.want())


def blocks():
    """Two blocks side by side, the other numbers under them."""
    for i, b in enumerate(fleet("blocks", 2)):
        fore, aft = halves(b.rows)
        wb, ws = sheet()
        fill(ws, [["BOW HALF", None, None, None, "STERN HALF"], ["ft", "hull girth", "full girth", None, "ft", "hull girth", "full girth"]])
        for k, (at, h, f) in enumerate(fore):
            ws.append([ft(at), h, f, None] + ([ft(aft[k][0]), *aft[k][1:]] if k < len(aft) else []))
        fill(ws, [[]] + head(b, quote))
        emit("xlsx-blocks", i, "xlsx", book(wb), "in", b.want())


def square():
    """A boat with a transom, measured at its end too."""
    for i, b in enumerate(fleet("square", 3, kind="square", feet=(9, 14))):
        wb, ws = sheet()
        fill(ws, [["Square stern"], ["Length overall", feetwords(b.loa)], ["Bow height", b.bow, "in"], ["Stern height", b.stern, "in"], ["Carry point", b.carry, "in"], [], ["Station", "Hull girth (in)", "Full girth (in)"]])
        fill(ws, [[mark(at), h, f] for at, h, f in b.rows] + [["Transom", *b.transom]])
        emit("xlsx-square", i, "xlsx", book(wb), "in", b.want())


def feetgirths():
    """Girths in feet and inches."""
    for i, b in enumerate(fleet("feetgirths", 3)):
        write = [feetglyph, feet, feetcurly][i]
        wb, ws = sheet()
        fill(ws, [["Length overall", write(b.loa)], ["Bow height", write(b.bow)], ["Stern height", write(b.stern)], ["Carry point", write(b.carry)], [], ["Station", "Hull girth", "Full girth"]])
        fill(ws, [[mark(at), write(h), write(f)] for at, h, f in b.rows])
        emit("xlsx-feet", i, "xlsx", book(wb), "in", b.want())


def decked():
    """Decked boats: the loop runs over the crown."""
    for i, b in enumerate(fleet("decked", 2, kind="decked")):
        wb, ws = sheet("kayak")
        fill(ws, [["Decked, both ends pointed"], ["Full girth goes over the deck"], []] + head(b, quote) + [[], ["Station", "Hull girth", "Full girth"]] + [[mark(at), h, f] for at, h, f in b.rows])
        emit("xlsx-decked", i, "xlsx", book(wb), "in", b.want())


def millimetres():
    """Everything in millimetres."""
    for i, b in enumerate(fleet("millimetres", 2, unit="cm", tick=.5)):
        wb, ws = sheet()
        fill(ws, [["All measurements in mm"], [], ["Length overall", round(b.loa * 10)], ["Bow height", round(b.bow * 10)], ["Stern height", round(b.stern * 10)], ["Carry point", round(b.carry * 10)], [], ["Station (mm from bow)", "Hull girth (mm)", "Full girth (mm)"]])
        fill(ws, [[at * 10, round(h * 10), round(f * 10)] for at, h, f in b.rows])
        emit("xlsx-millimetres", i, "xlsx", book(wb), "cm", b.want())


def mixed():
    """Length in feet and in inches in two cells; greatest girth in a line of its own."""
    for i, b in enumerate(fleet("mixed", 3)):
        f0, i0 = divmod(b.loa, 12)
        wb, ws = sheet()
        fill(ws, [["", "feet", "inches"], ["Length overall", int(f0), i0], ["Bow height", None, b.bow], ["Stern height", None, b.stern], ["Carry point", None, b.carry], [],
                  ["Station (feet)", "Hull girth (inches)", "Full girth (inches)"]] + [[ft(at), h, f] for at, h, f in b.rows])
        fill(ws, [[], ["Greatest girth at", quote(b.great[0])], ["Greatest hull girth", quote(b.great[1])], ["Greatest full girth", quote(b.great[2])], ["Opening there", quote(b.opening)]])
        emit("xlsx-mixed", i, "xlsx", book(wb), "in", b.want(great=True, opening=True))


def ods():
    """OpenDocument: plain, and French with decimal commas as text."""
    for i, b in enumerate(fleet("ods", 3)):
        wb, ws = sheet("Canoe")
        fill(ws, [["Length overall", feetwords(b.loa)], ["Bow height", b.bow], ["Stern height", b.stern], ["Carry point", b.carry], ["(heights and carry point in inches)"], [], ["ft", "hull girth in inches", "full girth in inches"]] + [[ft(at), h, f] for at, h, f in b.rows])
        emit("ods-plain", i, "ods", convert(book(wb), "xlsx", "ods"), "in", b.want())
    for i, b in enumerate(fleet("ods-fr", 2, unit="cm", tick=.5, french=True)):
        wb, ws = sheet("Mesures")
        fill(ws, [["Propriétaire", b.person], ["Longueur hors tout", metrescomma(b.loa) if i == 0 and b.loa == int(b.loa) else f"{comma(b.loa)} cm"], ["Hauteur étrave", f"{comma(b.bow)} cm"], ["Hauteur poupe", f"{comma(b.stern)} cm"], ["Point de portage", f"{comma(b.carry)} cm"], [],
                  ["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [[at, comma(h), comma(f)] for at, h, f in b.rows])
        emit("ods-french", i, "ods", convert(book(wb), "xlsx", "ods"), "cm", b.want())


def twice():
    """A number that stands in two places, the same in both but for one file."""
    for i, b in enumerate(fleet("twice", 2)):
        wb, ws = sheet()
        doubt = []
        other = b.bow
        if i == 1:
            other, doubt = b.bow + 3, ["bow_height"]
        fill(ws, [["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)], [], ["Station", "Hull girth", "Full girth"]] + [[mark(at), dec(h), dec(f)] for at, h, f in b.rows])
        fill(ws, [[], ["Summary"], ["Length overall", feetwords(b.loa)], ["Bow height", quote(other)]])
        emit("xlsx-twice", i, "xlsx", book(wb), "in", b.want(doubt), doubt)


LAYOUTS = (tidy, boxed, centimetres, typed, sheets, sideways, fractions, averages, halffeet, blocks, square, feetgirths, decked, millimetres, mixed, ods, twice)
