"""Typed surveys, first batch: /usr/bin/python3 batch1.py"""
from kit import *
from openpyxl.styles import Font, Alignment, PatternFill
import xlsxwriter
from docx.shared import Cm
from docx.enum.text import WD_TAB_ALIGNMENT


def builder():
    """A boatbuilder's sheet: station number and inches aft of the stem in two columns."""
    for i, b in two("xlsx-builder"):
        wb, ws = sheet("Hull 22", [["Hull no. 22", None, "strip built, western red cedar"], ["Beam at gunwales amidships", None, b.opening, "in"], ["Weight", None, 58, "lb"],
                                   ["Length overall", None, fi(b.loa)], ["Height of bow above bottom", None, b.bow, "in"], ["Height of stern above bottom", None, b.stern, "in"], ["Carry thwart, aft of stem", None, b.carry, "in"], [],
                                   ["Sta. no.", "Inches aft of stem", ["Girth sheer to sheer, under keel", "Hull girth (sheer, keel, sheer)"][i], ["Girth closed, over the opening", "Full girth (closed loop)"][i]]])
        add(ws, [[k + 1, at, h, f] for k, (at, h, f) in enumerate(b.rows)])
        put("xlsx-builder", i, "xlsx", saved(wb), "in", b.want())


def symbols():
    """A retired engineer: a table of symbols, then x, Gh, Gf."""
    for i, b in two("xlsx-symbols", kind=["open", "square"][0]):
        wb, ws = sheet("Data", [["Symbol", "Description", "Value", "Unit"], ["L", "Length overall", b.loa, "in"], ["Hb", "Bow height above baseline", b.bow, "in"], ["Hs", "Stern height above baseline", b.stern, "in"], ["xc", "Carry point, from bow", b.carry, "in"],
                                ["Gh", "Hull girth, gunwale to gunwale under the hull", "see table", "in"], ["Gf", "Full girth, closed loop", "see table", "in"], ["x", "Station, distance from bow", "see table", ["ft", "in"][i]], [],
                                ["n", ["x [ft]", "x [in]"][i], "Gh [in]", "Gf [in]", "Gf - Gh [in]", "Estimated error [in]"]])
        add(ws, [[k + 1, ft(at) if i == 0 else at, h, f, f - h, .25] for k, (at, h, f) in enumerate(b.rows)])
        put("xlsx-symbols", i, "xlsx", saved(wb), "in", b.want())


def scouts():
    """A scout leader's letter with the table in the middle."""
    for i, b in two("docx-scouts"):
        d = docx.Document()
        d.add_heading(["3rd Tamsin Lake Scouts", "Birchpoint Venturers"][i], 1)
        d.add_paragraph(f"Hello! Six scouts aged 11 to 14 measured our troop canoe no. 4 on Saturday for a badge. They checked each other, so it took an hour and 10 minutes. It is {fl(b.loa)} long from tip to tip.")
        d.add_paragraph(f"With the straight edge on two bricks we found the bow {ins(b.bow)} high and the stern {ins(b.stern)} high.")
        grid(d, [["Where", "Under the boat (hull girth)", "All round (full girth)", "Who"]] + [[f"{ft(at)} ft from bow", [fr, gl][i](h), [fr, gl][i](f), ["Ottilie", "Bram", "Juno"][k % 3]] for k, (at, h, f) in enumerate(b.rows)], "Light Grid Accent 1")
        d.add_paragraph("All girths in inches.")
        d.add_paragraph(f"The carrying thwart is {ins(b.carry)} from the bow. We will collect the cover after camp on July 12.")
        d.add_paragraph("Yours in scouting, Perrin Ashdowne, 613 555 0171")
        buf = io.BytesIO(); d.save(buf)
        put("docx-scouts", i, "docx", buf.getvalue(), "in", b.want())


def club():
    """A French canoe club: padded rows, a column for who measured, decimal commas."""
    for i, b in two("csv-club", unit="cm", tick=.5):
        rows = [["Club de canoë de la Brèche", "", "", "", ""], ["Canot n° 7, fibre de verre, 1994", "", "", "", ""], ["", "", "", "", ""],
                ["Longueur totale du canot", com(b.loa), "cm", "", ""], ["Hauteur à l'avant (étrave)", com(b.bow), "cm", "", ""], ["Hauteur à l'arrière (poupe)", com(b.stern), "cm", "", ""], ["Barre de portage à partir de l'étrave", com(b.carry), "cm", "", ""], ["", "", "", "", ""],
                ["Section", "Distance de l'étrave (cm)", "Tour de la coque seule (cm)", "Tour complet fermé (cm)", "Mesuré par"]]
        rows += [[f"S{k + 1}", at, f"{h:.1f}".replace(".", ","), f"{f:.1f}".replace(".", ","), ["Léontine", "Aurèle"][k % 2]] for k, (at, h, f) in enumerate(b.rows)]
        put("csv-club", i, "csv", lines(rows, ";").encode(["cp1252", "utf-8-sig"][i]), "cm", b.want())


def own_order():
    """The shop's form retyped in the owner's own order with own item numbers."""
    for i, b in two("xlsx-ownorder"):
        wb, ws = sheet("answers")
        rows = [["1", "Your name", "Cosmo Wraxall"], ["2", "Telephone", "705 555 0133"], ["3", "Carry point", b.carry, "inches from bow"], ["4", "Stern height", b.stern, "inches"], ["5", "Bow height", b.bow, "inches"],
                ["6", "Greatest girth, distance from bow", fw(b.great[0])], ["6a", "Greatest girth, full girth", b.great[2], "inches"], ["6b", "Greatest girth, hull girth", b.great[1], "inches"], ["6c", "Greatest girth, opening", b.opening, "inches"],
                ["7", "Stations", "(full girth first, then hull girth, inches)"]]
        add(ws, rows)
        add(ws, [[f"7.{k + 1}", f"{ft(at)} ft", f, h] for k, (at, h, f) in enumerate(b.rows)])
        if i:
            ws.insert_rows(11)
            ws["B11"], ws["C11"], ws["D11"] = "Station", "Full girth", "Hull girth"
        add(ws, [["8", "Length overall", fw(b.loa)], ["9", "Stern", "pointed"], ["10", "Anything left inside", "seat backs, 2"]])
        put("xlsx-ownorder", i, "xlsx", saved(wb), "in", b.want(great=True, opening=True))


def from_bow():
    """Stations called 3' from bow, everything typed as text with fractions."""
    for i, b in two("xlsx-frombow"):
        w = [hy, gq][i]
        wb, ws = sheet("Sheet1", [["", "hull girth", "full girth"]])
        add(ws, [[f"{ft(at)}' from bow", w(h), w(f)] for at, h, f in b.rows])
        add(ws, [[], ["bow height", w(b.bow)], ["stern height", w(b.stern)], ["carry point", f"{w(b.carry)} from bow"], ["total length", fi(b.loa, [fr, gl][i])]])
        put("xlsx-frombow", i, "xlsx", saved(wb), "in", b.want())


def from_stern():
    """Measured from the stern, and said so in the heading."""
    for i in range(2):
        b = Boat(f"csv-fromstern {i}", whole=i == 0)
        rows = [["NOTE: I started at the stern because the bow is against the garage wall. The first column is feet FROM THE STERN."], ["Length overall", fw(b.loa)], ["Bow height", inn(b.bow)], ["Stern height", inn(b.stern)], ["Carry point from bow", inn(b.carry)], [],
                ["Feet from stern", "Hull girth (in)", "Full girth (in)"]]
        n = int(b.loa // 12)
        pairs = {}
        mirror = list(reversed(b.rows))
        want = b.want(drop=[k for at, _, _ in b.rows for k in (f"hull_girth@{at}", f"full_girth@{at}")])
        for k, (_, h, f) in enumerate(mirror):
            rows.append([k + 1, dec(h), dec(f)])
            at = b.loa - 12 * (k + 1)
            want[f"hull_girth@{at:g}"], want[f"full_girth@{at:g}"] = h, f
        put("csv-fromstern", i, "csv", lines(rows).encode(), "in", want)


def tablet():
    """A tablet's spreadsheet program: a table called Table 1 with its title on the first line."""
    for i, b in two("csv-tablet"):
        rows = [["Table 1", "", "", "", ""], ["Foot", "Hull girth in.", "Full girth in.", "OK?", "Remark"]]
        rows += [[ft(at), [dec, gl][i](h), [dec, gl][i](f), ["TRUE", "FALSE"][k == 6], "bungee eyelet" if k == 6 else ""] for k, (at, h, f) in enumerate(b.rows)]
        rows += [["", "", "", "", ""], ["Table 2", "", "", "", ""], ["Item", "Value", "", "", ""], ["Length overall", fi(b.loa), "", "", ""], ["Bow height", gq(b.bow), "", "", ""], ["Stern height", gq(b.stern), "", "", ""], ["Carry point", gq(b.carry), "", "", ""]]
        put("csv-tablet", i, "csv", lines(rows, nl="\n").encode(), "in", b.want())


def underscores():
    """The form retyped in Word with lines of underscores around the answers."""
    for i, b in two("docx-underscores"):
        u = lambda x: f"___{x}___" if i == 0 else f"_____ {x} _____"
        d = docx.Document()
        d.add_heading("Measuring form", 2)
        for n, x in [("Name", "Drusilla Hockaday"), ("Boat", "16 foot tandem, refurbished 2011"), ("Length overall", fi(b.loa)), ("Bow height", q(b.bow)), ("Stern height", q(b.stern)), ("Carry point", q(b.carry))]:
            d.add_paragraph(f"{n}: {u(x)}")
        d.add_paragraph("Pointed stern [x]   Square stern [ ]   Open [x]   Decked [ ]")
        d.add_paragraph("Station        Hull girth        Full girth")
        for at, h, f in b.rows:
            d.add_paragraph(f"{ft(at)} ft {u(fr(h))} {u(fr(f))}")
        buf = io.BytesIO(); d.save(buf)
        put("docx-underscores", i, "docx", buf.getvalue(), "in", b.want())


def tiles():
    """A grid of boxes, one for each foot, like a calendar."""
    for i, b in two("docx-calendar"):
        d = docx.Document()
        d.add_paragraph(f"Length overall {fw(b.loa)}, bow height {inn(b.bow)}, stern height {inn(b.stern)}, carry point {inn(b.carry)}")
        cells = [f"{ft(at)} ft\nhull girth {[q, inn][i](h)}\nfull girth {[q, inn][i](f)}" for at, h, f in b.rows]
        w = [4, 3][i]
        grid(d, [cells[k:k + w] for k in range(0, len(cells), w)])
        d.add_paragraph("Thank you! Ulla Bransgrove")
        buf = io.BytesIO(); d.save(buf)
        put("docx-calendar", i, "docx", buf.getvalue(), "in", b.want())


def stacked():
    """Each station's name merged over two rows, hull above full."""
    for i, b in two("xlsx-stacked", unit=["in", "cm"][0]):
        wb, ws = sheet("canoe")
        add(ws, [["Length overall", None, fw(b.loa)], ["Bow height", None, q(b.bow)], ["Stern height", None, q(b.stern)], ["Carry point", None, q(b.carry)], [], ["Station", "Girth", "Inches"]])
        r = 7
        for at, h, f in b.rows:
            ws.merge_cells(start_row=r, end_row=r + 1, start_column=1, end_column=1)
            ws.cell(r, 1, f"{ft(at)} ft").alignment = Alignment(vertical="center")
            ws.cell(r, 2, ["hull", "hull girth"][i]), ws.cell(r, 3, h), ws.cell(r + 1, 2, ["full", "full girth"][i]), ws.cell(r + 1, 3, f)
            r += 2
        put("xlsx-stacked", i, "xlsx", saved(wb), "in", b.want())


def mean_ods():
    """A LibreOffice sheet with notes beside the table and a mean at the foot."""
    for i, b in two("ods-mean"):
        wb, ws = sheet("Feuille1" if i else "Sheet1")
        add(ws, [["Length overall (in)", b.loa, None, None, "measured 14 June,"], ["Bow height (in)", b.bow, None, None, "on 2 trestles"], ["Stern height (in)", b.stern], ["Carry point (in)", b.carry], [], ["Station (ft)", "Hull girth (in)", "Full girth (in)", None, "Notes"]])
        first = 7
        for k, (at, h, f) in enumerate(b.rows):
            ws.append([ft(at), h, f, None, {1: "stem band ends at 20 in", 4: "rivets, 3 of them", 7: "yoke"}.get(k)])
        last = ws.max_row
        add(ws, [["Mean", f"=AVERAGE(B{first}:B{last})", f"=AVERAGE(C{first}:C{last})"], ["Spread", f"=MAX(B{first}:B{last})-MIN(B{first}:B{last})", f"=MAX(C{first}:C{last})-MIN(C{first}:C{last})"]])
        put("ods-mean", i, "ods", lo(saved(wb), "xlsx", "ods"), "in", b.want())


def repeated():
    """The heading comes again every five rows, as on the printed pages."""
    for i, b in two("csv-repeated", feet=(13, 18)):
        head = ["Station", "Hull girth (inches)", "Full girth (inches)"]
        rows = [["Owner", "Ferdie Looseley", ""], ["Length overall", fi(b.loa), ""], ["Bow height", q(b.bow), ""], ["Stern height", q(b.stern), ""], ["Carry point", q(b.carry), ""]]
        for k, (at, h, f) in enumerate(b.rows):
            if k % 5 == 0:
                rows += [["", "", ""], [f"Page {k // 5 + 1}", "", ""], head]
            rows.append([f"{ft(at)} ft", fr(h), fr(f)])
        put("csv-repeated", i, "csv", lines(rows).encode(), "in", b.want())


def thousands():
    """A French yard in millimetres with a thin space between the thousands."""
    def n(x, s="\u202f"):
        v = int(round(x * 10))
        return f"{v // 1000}{s}{v % 1000:03} mm" if v >= 1000 else f"{v} mm"
    for i, b in two("xlsx-milliers", unit="cm", kind="square", feet=(9, 13), tick=.5):
        s = ["\u202f", "\u00a0"][i]
        w = lambda x: n(x, s)
        wb, ws = sheet("Relevé", [["Chantier Kerdoncuff – annexe bois", None, None], ["Longueur hors tout", w(b.loa)], ["Hauteur étrave", w(b.bow)], ["Hauteur tableau arrière (poupe)", w(b.stern)], ["Point de portage", w(b.carry)], [], ["Station", "Tour de coque", "Tour complet"]])
        add(ws, [[w(at), w(h), w(f)] for at, h, f in b.rows] + [["Tableau arrière", w(b.transom[0]), w(b.transom[1])]])
        put("xlsx-milliers", i, "xlsx", saved(wb), "cm", b.want())


def blank_rows():
    """An empty row after every station; those not reached are left empty."""
    for i, b in two("xlsx-airy"):
        wb, ws = sheet("Boat cover")
        add(ws, [["Overall length of boat"], [fl(b.loa)], [], ["Height at the bow"], [ins(b.bow)], [], ["Height at the stern"], [ins(b.stern)], [], ["Carry point"], [ins(b.carry)], [], ["Station (ft)", None, "Hull girth (in)", None, "Full girth (in)"], []])
        drop = []
        for k, (at, h, f) in enumerate(b.rows):
            if k in (5 + i, 8):
                drop += [f"hull_girth@{at}", f"full_girth@{at}"]
                ws.append([ft(at)])
            else:
                ws.append([ft(at), None, h, None, f])
            ws.append([])
        put("xlsx-airy", i, "xlsx", saved(wb), "in", b.want(drop))


def phrases():
    """A French list of paragraphs."""
    for i, b in two("docx-phrases", unit="cm"):
        d = docx.Document()
        d.add_paragraph("Bonjour, voici enfin les mesures de notre canot, prises dimanche entre 14 h et 15 h 30.")
        d.add_paragraph(f"Il fait {m2(b.loa)} de long hors tout. L’étrave est haute de {cm(b.bow)} et la poupe de {cm(b.stern)}. Le point de portage est à {cm(b.carry)} de l’étrave.")
        for at, h, f in b.rows:
            d.add_paragraph([f"À {at} cm de l’étrave : tour de coque {h:g} cm, tour complet {f:g} cm.", f"À {at} cm : coque {h:g}, tour complet {f:g}"][i], style=[None, "List Bullet"][i])
        d.add_paragraph("Merci beaucoup, Apolline Rostrenen (02 98 55 01 12)")
        buf = io.BytesIO(); d.save(buf)
        put("docx-phrases", i, "docx", buf.getvalue(), "cm", b.want())


def guarded():
    """Saved by an old spreadsheet: cells guarded as ="41 1/2" so that they stay text."""
    for i, b in two("csv-guarded"):
        w = [fr, q][i]
        g = lambda x: f'="{w(x)}"' if i == 0 else '="' + w(x).replace('"', '""') + '"'
        rows = [["BOAT SURVEY", "", ""], ["Length overall", fw(b.loa), ""], ["Bow height (in)", g(b.bow), ""], ["Stern height (in)", g(b.stern), ""], ["Carry point (in)", g(b.carry), ""], ["", "", ""], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]]
        rows += [[ft(at), g(h), g(f)] for at, h, f in b.rows]
        put("csv-guarded", i, "csv", lines(rows).encode(), "in", b.want())


def greeting():
    """A merged greeting tells the length, heights and carry point; the table is under it."""
    for i, b in two("xlsx-greeting"):
        wb, ws = sheet("Sheet1")
        ws.merge_cells("A1:F4")
        ws["A1"] = [f"Hi Pinfold, here is my canoe. She is {fi(b.loa)} overall, the bow height is {q(b.bow)}, the stern height {q(b.stern)}, and the carry point is {q(b.carry)} back from the bow. Cheers, Wendell",
                    f"Good day to you. Overall length {fl(b.loa)}; bow height {ins(b.bow)}, stern height {ins(b.stern)}. You can grab her {ins(b.carry)} from the bow (carry point). Regards from Thea and Moss"][i]
        ws["A1"].alignment = Alignment(wrap_text=True, vertical="top")
        ws["B6"], ws["C6"], ws["D6"] = "foot mark", "hull girth, in", "full girth, in"
        for k, row in enumerate(b.rows):
            for c, x in enumerate((ft(row[0]), *row[1:])):
                ws.cell(7 + k, 2 + c, x)
        put("xlsx-greeting", i, "xlsx", saved(wb), "in", b.want())


def two_girth_sheets():
    """A kayak: hull girths on one sheet, full girths on the next, the boat on the third."""
    for i, b in two("xlsx-girthsheets", kind="decked"):
        wb, ws = sheet("Hull girth", [["Station (ft)", "inches"]])
        add(ws, [[ft(at), h] for at, h, _ in b.rows])
        ws = wb.create_sheet("Full girth (over the deck)" if i else "Full girth")
        add(ws, [["Station (ft)", "inches"]] + [[ft(at), f] for at, _, f in b.rows])
        ws = wb.create_sheet("Boat")
        add(ws, [["Type", "sea kayak, decked"], ["Length overall", fi(b.loa)], ["Bow height", q(b.bow)], ["Stern height", q(b.stern)], ["Carry point", q(b.carry)], ["Paddlers", 1]])
        put("xlsx-girthsheets", i, "xlsx", saved(wb), "in", b.want())


def tabs_french():
    """Tab stops, French, a square stern."""
    for i, b in two("docx-tabulations", unit="cm", kind="square", feet=(9, 14)):
        d = docx.Document()

        def line(*w):
            p = d.add_paragraph("\t".join(w))
            for c in (5, 9, 13):
                p.paragraph_format.tab_stops.add_tab_stop(Cm(c), WD_TAB_ALIGNMENT.LEFT)
            p.paragraph_format.space_after = 0
        d.add_heading("Barque à fond plat", 1)
        line("Propriétaire :", "Évariste Malbosc")
        line("Longueur :", cm(b.loa) + " hors tout")
        line("Étrave :", cm(b.bow) + " de haut")
        line("Poupe :", cm(b.stern) + " de haut")
        line("Portage :", f"point de portage à {cm(b.carry)} de l’étrave")
        line("")
        line("distance", "tour de coque", "tour complet", "(tout en cm)")
        for at, h, f in b.rows:
            line(str(at), dec(h), dec(f))
        line("tableau", dec(b.transom[0]), dec(b.transom[1]))
        buf = io.BytesIO(); d.save(buf)
        put("docx-tabulations", i, "docx", buf.getvalue(), "cm", b.want())


def inches_csv():
    """A clinker dinghy in feet and inches, quotes doubled by the program."""
    for i, b in two("csv-dinghy", kind="square", feet=(8, 12)):
        w = [lambda x: fi(x, gl), lambda x: f"{int(x // 12)}ft {gl(x % 12)}in"][i]
        rows = [["what", "where", "hull", "full"], ["length overall", w(b.loa), "", ""], ["bow height", w(b.bow), "", ""], ["stern height", w(b.stern), "", ""], ["carry point", w(b.carry), "", ""]]
        rows += [["girth", f"{ft(at)} ft aft of bow", w(h), w(f)] for at, h, f in b.rows] + [["girth", "at transom", w(b.transom[0]), w(b.transom[1])]]
        put("csv-dinghy", i, "csv", lines(rows).encode(), "in", b.want())


def typed_formulas():
    """Halves typed as sums: =41+1/2."""
    for i, b in two("xlsx-sums"):
        out = io.BytesIO()
        wb = xlsxwriter.Workbook(out, {"in_memory": True})
        ws = wb.add_worksheet("Calc")

        def num(r, c, x):
            w, half = parts(x)
            ws.write_formula(r, c, f"={w}+1/2", None, x) if half else ws.write_number(r, c, x)
        ws.write_row(0, 0, ["Length overall in inches"])
        f, inch = divmod(b.loa, 12)
        ws.write_formula(0, 1, f"={int(f)}*12+{inch:g}", None, b.loa)
        for k, (n, x) in enumerate([("Bow height in inches", b.bow), ("Stern height in inches", b.stern), ("Carry point in inches", b.carry)]):
            ws.write(1 + k, 0, n), num(1 + k, 1, x)
        ws.write_row(5, 0, ["Station", "Full girth", "Hull girth", "inches!"])
        for k, (at, h, fu) in enumerate(b.rows):
            ws.write(6 + k, 0, f"{ft(at)} ft"), num(6 + k, 1, fu), num(6 + k, 2, h)
        wb.close()
        put("xlsx-sums", i, "xlsx", out.getvalue(), "in", b.want())


run([builder, symbols, scouts, club, own_order, from_bow, from_stern, tablet, underscores, tiles, stacked, mean_ods, repeated, thousands, blank_rows, phrases, guarded, greeting, two_girth_sheets, tabs_french, inches_csv, typed_formulas])
