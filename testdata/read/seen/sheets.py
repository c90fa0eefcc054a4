"""Surveys as spreadsheets."""
import datetime

import openpyxl
import xlsxwriter
from openpyxl.styles import Alignment, Font, PatternFill

from boats import boats, cm, convert, curly, dec, emit, feet, feet_close, feet_dash, feet_words, frac, glyph, halves, inches, mark, saved, station, ticked


def book(title="Sheet1"):
    wb = openpyxl.Workbook()
    wb.active.title = title
    return wb, wb.active


def ledger_xlsx():
    """An accountant: cover sheet, inputs by reference, formulas, checks and totals."""
    for i, b in enumerate(boats("xlsx-ledger", 4, feet=(9, 20))):
        def save(path):
            wb = xlsxwriter.Workbook(path)
            bold, two = wb.add_format({"bold": True, "bg_color": "#DDEBF7"}), wb.add_format({"num_format": "#,##0.00"})
            front = wb.add_worksheet("Cover")
            front.write_column(0, 0, ["Boat cover 2026", "Prepared by " + b.name, "Version 1.3", "Status: final"])
            ws = wb.add_worksheet("Inputs")
            ws.write_row(0, 0, ["Item", "Feet", "Inches", "Total (in)"], bold)
            for k, (label, v) in enumerate([("Length overall", b.loa), ("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry)]):
                ws.write(1 + k, 0, label), ws.write_number(1 + k, 1, v // 12), ws.write_number(1 + k, 2, v % 12)
                ws.write_formula(1 + k, 3, f"=B{k + 2}*12+C{k + 2}", two, v)
            ws = wb.add_worksheet("Girths")
            ws.write(0, 0, "Girths by station, inches", bold)
            ws.write_row(2, 0, ["Ref", "Station (ft)", "Hull girth (in)", "Opening (in)", "Full girth (in)", "Ratio", "Check"], bold)
            n = len(b.rows)
            for k, (at, h, f) in enumerate(b.rows):
                r = 4 + k
                ws.write(r - 1, 0, f"G-{k + 1:02}"), ws.write_number(r - 1, 1, at // 12), ws.write_number(r - 1, 2, h, two), ws.write_number(r - 1, 3, f - h, two)
                ws.write_formula(r - 1, 4, f"=C{r}+D{r}", two, f), ws.write_formula(r - 1, 5, f"=D{r}/C{r}", two, (f - h) / h), ws.write_formula(r - 1, 6, f'=IF(E{r}>C{r},"ok","?")', None, "ok")
            ws.write(3 + n, 1, "Total", bold)
            for c, v in ((2, sum(x[1] for x in b.rows)), (3, sum(x[2] - x[1] for x in b.rows)), (4, sum(x[2] for x in b.rows))):
                ws.write_formula(3 + n, c, f"=SUM({'ABCDE'[c]}4:{'ABCDE'[c]}{3 + n})", two, v)
            ws.write(4 + n, 1, "Maximum", bold)
            ws.write_formula(4 + n, 2, f"=MAX(C4:C{3 + n})", two, max(x[1] for x in b.rows)), ws.write_formula(4 + n, 4, f"=MAX(E4:E{3 + n})", two, max(x[2] for x in b.rows))
            wb.close()
        emit("xlsx-ledger", i, "xlsx", saved(save, "xlsx"), "in", b.want())


def tries_xlsx():
    """Everything measured twice; in two of the four files one pair of tries differs."""
    for i, b in enumerate(boats("xlsx-tries", 4)):
        wb, ws = book("Two tries")
        ws.append(["Length overall", feet_words(b.loa), None, "Bow height", mark(b.bow)])
        ws.append(["Carry point", mark(b.carry), None, "Stern height", mark(b.stern)])
        ws.append([])
        by_girth = i % 2 == 0
        ws.append(["Station", "Hull girth, 1st try (in)", "Hull girth, 2nd try (in)", "Full girth, 1st try (in)", "Full girth, 2nd try (in)"] if by_girth else
                  ["Station", "Hull girth (in) Saturday", "Full girth (in) Saturday", "Hull girth (in) Sunday", "Full girth (in) Sunday"])
        odd = b.rows[4][0] if i >= 2 else None
        for at, h, f in b.rows:
            again = h + 3 if at == odd else h
            ws.append([station(at)] + ([h, again, f, f] if by_girth else [h, f, again, f]))
        doubt = [f"hull_girth@{odd}"] if odd else []
        emit("xlsx-tries", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want(skip=doubt), doubt)


def continued_xlsx():
    """The table goes on upon a second sheet, which has no heading of its own but a title."""
    for i, b in enumerate(boats("xlsx-continued", 3, feet=(14, 24))):
        wb, ws = book("Page 1")
        left, right = halves(b.rows)
        for row in [["Cover survey, page 1 of 2"], ["Length overall:", feet(b.loa)], ["Bow height:", mark(b.bow)], [None], ["Station", "Hull girth", "Full girth", "(all in inches)"]]:
            ws.append(row)
        for at, h, f in left:
            ws.append([f"{at // 12} ft", h, f])
        ws.append(["continued on page 2"])
        ws = wb.create_sheet("Page 2")
        ws.append(["Cover survey, page 2 of 2"])
        ws.append([None])
        if i:
            ws.append(["Station", "Hull girth", "Full girth", "(continued, inches)"])
        for at, h, f in right:
            ws.append([f"{at // 12} ft", h, f])
        for row in [[None], ["Stern height:", mark(b.stern)], ["Carry point:", mark(b.carry)]]:
            ws.append(row)
        emit("xlsx-continued", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def two_lists_xlsx():
    """One table for the hull girths and another for the full girths."""
    for i, b in enumerate(boats("xlsx-lists", 4, "in", spacing="mixed", feet=(8, 16))):
        if i == 3:
            b = boats("xlsx-lists-cm", 1, "cm", feet=(8, 16))[0]
        u, name = b.unit, cm if b.unit == "cm" else station
        wb, ws = book("Boat")
        ws["A1"], ws["A1"].font = b.boat, Font(bold=True, size=14)
        for k, (label, v) in enumerate([("Length overall", b.loa), ("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry)]):
            ws.cell(2 + k, 1, f"{label}, {u}"), ws.cell(2 + k, 2, v)
        n = len(b.rows)
        below = i % 2
        for t, (title, pick) in enumerate([("HULL GIRTH", 1), ("FULL GIRTH", 2)]):
            row, col = (8 + t * (n + 4), 1) if below else (8, 1 + t * 4)
            ws.cell(row, col, title).font = Font(bold=True)
            ws.cell(row + 1, col, "Station"), ws.cell(row + 1, col + 1, f"{title.capitalize()} ({u})")
            for k, r in enumerate(b.rows):
                ws.cell(row + 2 + k, col, name(r[0])), ws.cell(row + 2 + k, col + 1, r[pick])
        emit("xlsx-lists", i, "xlsx", saved(wb.save, "xlsx"), u, b.want())


def log_xlsx():
    """A club secretary's log: date, helper, depth and beam beside the girths, units in a row of their own."""
    for i, b in enumerate(boats("xlsx-log", 4, square=True)):
        wb, ws = book("Log")
        ws["A1"] = "Measuring log"
        ws["A2"] = "Yard of the rowing club, 6 and 7 June 2026"
        head = [("Date", ""), ("Helper", ""), ("Station", "ft"), ("Beam", "in"), ("Depth", "in"), ("Full girth", "in"), ("Hull girth", "in"), ("Sky", "")]
        order = [[0, 1, 2, 6, 5, 3, 4, 7], [2, 3, 5, 6, 4, 0, 1, 7], [0, 2, 4, 3, 6, 5, 7, 1], [2, 5, 6, 0, 1, 3, 4, 7]][i]
        for c, o in enumerate(order):
            ws.cell(4, 1 + c, head[o][0]).fill = PatternFill("solid", fgColor="FFFFE699")
            ws.cell(5, 1 + c, head[o][1])
        for k, (at, h, f) in enumerate(b.rows):
            depth = round(((h - (f - h)) / 2 + 9) * 2) / 2
            values = [datetime.date(2026, 6, 6 + k // 8), ["Fenno", "Dorrie"][k % 2], at // 12, f - h, depth, f, h, "clear"]
            for c, o in enumerate(order):
                ws.cell(6 + k, 1 + c, values[o])
        e = 7 + len(b.rows)
        for k, row in enumerate([["Transom, hull girth", mark(b.transom[0])], ["Transom, full girth", mark(b.transom[1])], ["Length overall", feet_dash(b.loa)], ["Bow height", mark(b.bow)],
                                 ["Stern height", mark(b.stern)], ["Carry point", mark(b.carry)]]):
            ws.cell(e + k, 1, row[0]), ws.cell(e + k, 4, row[1])
        emit("xlsx-log", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def split_feet_xlsx():
    """Feet in one column and inches in the next, under a merged heading."""
    for i, b in enumerate(boats("xlsx-split", 4)):
        wb, ws = book("Survey")
        ws.append(["What", "ft", "in"])
        for label, v in [("Length overall", b.loa), ("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry)]:
            ws.append([label, int(v // 12), v % 12])
        ws["A8"], ws["B8"], ws["D8"] = "Station", "Hull girth", "Full girth"
        ws.merge_cells("A8:A9"), ws.merge_cells("B8:C8"), ws.merge_cells("D8:E8")
        for c in range(4):
            ws.cell(9, 2 + c, ["ft", "in"][c % 2])
        ws["B8"].alignment = ws["D8"].alignment = Alignment(horizontal="center")
        write = [lambda x: x, glyph, frac, lambda x: x][i]
        for k, (at, h, f) in enumerate(b.rows):
            for c, v in enumerate([f"{at // 12} ft", int(h // 12), write(h % 12), int(f // 12), write(f % 12)]):
                ws.cell(10 + k, 1 + c, v)
        emit("xlsx-split", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def metres_ods():
    """LibreOffice in French, everything in metres."""
    for i, b in enumerate(boats("ods-metres", 3, "cm")):
        wb, ws = book("Canoë")
        ws["A1"] = "Mesures de la coque, en mètres"
        for k, (label, v) in enumerate([("Longueur totale", b.loa), ("Hauteur de l'étrave", b.bow), ("Hauteur de la poupe", b.stern), ("Poignée (point de portage)", b.carry)]):
            ws.cell(3 + k, 1, label)
            ws.cell(3 + k, 2, v / 100).number_format = ['0.00" m"', "0.00", '0.00" m"'][i]
            if i == 1:
                ws.cell(3 + k, 3, "m")
        for c, label in enumerate(["À partir de l'étrave (m)", "Tour sans l'ouverture (m)", "Tour avec l'ouverture (m)", "Fait par"]):
            ws.cell(9, 1 + c, label)
        for k, (at, h, f) in enumerate(b.rows):
            for c, v in enumerate([at / 100, h / 100, f / 100]):
                ws.cell(10 + k, 1 + c, v).number_format = "0.00"
            ws.cell(10 + k, 4, ["Odalie", "Benoît"][k % 2])
        emit("ods-metres", i, "ods", convert(saved(wb.save, "xlsx"), "xlsx", "ods"), "cm", b.want())


def one_cell_xlsx():
    """Both girths in one cell, and the whole boat in sentences above."""
    for i, b in enumerate(boats("xlsx-cell", 3)):
        how = [frac, dec, glyph][i]
        wb, ws = book("Tabelle1" if i else "Sheet1")
        ws["A1"] = f"LOA: {feet(b.loa)}"
        ws["A2"] = f"Bow height: {mark(b.bow)}; stern height: {mark(b.stern)}"
        ws["A3"] = f"Carry point: {mark(b.carry)}"
        ws["A5"], ws["B5"] = "Station", ["hull girth / full girth (in)", "Hull girth - full girth, inches", "hull girth & full girth (in)"][i]
        for k, (at, h, f) in enumerate(b.rows):
            ws.cell(6 + k, 1, ticked(at)), ws.cell(6 + k, 2, how(h) + [" / ", "  -  ", " & "][i] + how(f))
        emit("xlsx-cell", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def station_pairs_xlsx():
    """One long row: each station's name merged over its two girths."""
    for i, b in enumerate(boats("xlsx-pairs", 3, feet=(8, 15))):
        wb, ws = book("one row")
        ws["A1"], ws["A2"], ws["A3"] = "Station from bow", "Girth (inches)", b.boat
        for k, (at, h, f) in enumerate(b.rows):
            c = 2 + 2 * k
            ws.merge_cells(start_row=1, end_row=1, start_column=c, end_column=c + 1)
            ws.cell(1, c, station(at)), ws.cell(2, c, "hull girth"), ws.cell(2, c + 1, "full girth"), ws.cell(3, c, h), ws.cell(3, c + 1, f)
        for k, (label, v) in enumerate([("Length overall", feet_words(b.loa)), ("Bow height", mark(b.bow)), ("Stern height", mark(b.stern)), ("Carry point", mark(b.carry))]):
            ws.cell(5, 1 + 3 * k, label), ws.cell(6, 1 + 3 * k, v)
        emit("xlsx-pairs", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want())


def empty_form_xlsx():
    """A form of thirty rows of which only the boat's are filled, the rest crossed out."""
    for i, b in enumerate(boats("xlsx-crossed", 3, feet=(8, 15))):
        how = [curly, inches, feet_close][i]
        wb, ws = book("Form")
        ws["A1"] = "BOAT"
        for k, (label, v) in enumerate([("Overall length of the boat", feet_close(b.loa)), ("How high is the bow?", how(b.bow)), ("How high is the stern?", how(b.stern)), ("Carry point", how(b.carry)),
                                        ("Square stern?", "no"), ("Greatest girth: where", how(b.great[0])), ("Greatest girth: hull girth", how(b.great[1])), ("Greatest girth: full girth", how(b.great[2])),
                                        ("Greatest girth: opening", how(b.opening))]):
            ws.cell(2 + k, 1, label), ws.cell(2 + k, 3, v)
        ws["E1"], ws["F1"], ws["G1"] = "STATION", "HULL GIRTH", "FULL GIRTH"
        for k in range(24):
            ws.cell(2 + k, 5, f"{k + 1} ft")
            row = b.rows[k] if k < len(b.rows) else None
            ws.cell(2 + k, 6, how(row[1]) if row else "—"), ws.cell(2 + k, 7, how(row[2]) if row else "—")
        emit("xlsx-crossed", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want(great=True))


def two_sheets_differ_xlsx():
    """Two copies of the table in one file that differ in one place, and neither is called the better."""
    for i, b in enumerate(boats("xlsx-copies", 2)):
        wb, ws = book("Hers")
        at = b.rows[3][0]
        for t, sheet in enumerate([ws, wb.create_sheet("His")]):
            for row in [["Length overall", feet_words(b.loa)], ["Bow height", mark(b.bow)], ["Stern height", mark(b.stern)], ["Carry point", mark(b.carry)], ["Station", "Hull girth (in)", "Full girth (in)"]]:
                sheet.append(row)
            for a, h, f in b.rows:
                sheet.append([f"{a // 12} ft", h, f - 4 if t and a == at else f])
        key = f"full_girth@{at}"
        emit("xlsx-copies", i, "xlsx", saved(wb.save, "xlsx"), "in", b.want(skip=[key]), [key])


LAYOUTS = (ledger_xlsx, tries_xlsx, continued_xlsx, two_lists_xlsx, log_xlsx, split_feet_xlsx, metres_ods, one_cell_xlsx, station_pairs_xlsx, empty_form_xlsx, two_sheets_differ_xlsx)
