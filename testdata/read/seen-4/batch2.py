"""Typed surveys, second batch: /usr/bin/python3 batch2.py"""
from kit import *
from openpyxl.styles import Font, Alignment, PatternFill
import xlsxwriter
from docx.oxml import parse_xml, OxmlElement
from docx.oxml.ns import nsdecls, qn
from docx.enum.text import WD_BREAK
from docx.shared import Pt


def done(d):
    buf = io.BytesIO(); d.save(buf)
    return buf.getvalue()


def sep_line():
    """The spreadsheet program's own first line, sep=; and the half sign in a Windows code."""
    for i, b in two("csv-sepline"):
        rows = [["My canoe", "", ""], ["", "", ""], ["length over all", fi(b.loa, gl), ""], ["ht of bow", gl(b.bow) + " in", ""], ["ht of stern", gl(b.stern) + " in", ""], ["carry pt", gl(b.carry) + " in", ""], ["", "", ""],
                [["ft", "Station"][i], "hull girth (in)", "full girth (in)"]] + [[ft(at) if i == 0 else f"{ft(at)} ft", gl(h), gl(f)] for at, h, f in b.rows]
        put("csv-sepline", i, "csv", ("sep=;\r\n" + lines(rows, ";")).encode("cp1252"), "in", b.want())


def frame():
    """A data frame written out: an index column, the boat's own numbers on every row, nan for what is missing."""
    for i, b in two("csv-frame", slip=False):
        rows = [["", "boat_id", "length_overall_in", "bow_height_in", "stern_height_in", "carry_point_in", "station_ft", "hull_girth_in", "full_girth_in"]]
        drop = []
        for k, (at, h, f) in enumerate(b.rows):
            x, y = d1(h), d1(f)
            if k == 6 and i:
                y, drop = "nan", [f"full_girth@{at}"]
            rows.append([k, "A1", d1(b.loa), d1(b.bow), d1(b.stern), d1(b.carry), ft(at), x, y])
        put("csv-frame", i, "csv", lines(rows, nl="\n").encode(), "in", b.want(drop))


def corner():
    """The sheet was begun in the middle of the page: empty columns at the left, empty cells to the right."""
    for i, b in two("csv-corner"):
        pad = lambda r: ["", "", ""] + [str(x) for x in r] + [""] * (9 - len(r))
        w = [q, lambda x: d1(x) + '"'][i]
        rows = [pad([]), pad(["Measurements taken 9 June by Odell and Mercy Pruitt"]), pad([]), pad(["Length Overall (LOA):", "", fi(b.loa, [fr, d1][i])]), pad(["Bow Height:", "", w(b.bow)]), pad(["Stern Height:", "", w(b.stern)]), pad(["Carry Point:", "", w(b.carry)]), pad([]),
                pad(["STA", "", "HULL GIRTH", "", "FULL GIRTH"])] + [pad([f"{ft(at)}'", "", w(h), "", w(f)]) for at, h, f in b.rows]
        put("csv-corner", i, "csv", lines(rows).encode(), "in", b.want())


def table_object():
    """A spreadsheet table with filters and a total row that averages."""
    for i, b in two("xlsx-filter"):
        out = io.BytesIO()
        wb = xlsxwriter.Workbook(out, {"in_memory": True})
        ws = wb.add_worksheet("Girths")
        n = len(b.rows)
        ws.add_table(0, 0, n + 1, 3, {"data": [[ft(at), h, f, f - h] for at, h, f in b.rows], "total_row": True, "style": "Table Style Medium 4", "name": "Girths",
                     "columns": [{"header": "Station (ft)", "total_string": "Average"}, {"header": "Hull girth (in)", "total_function": "average", "total_value": sum(r[1] for r in b.rows) / n},
                                 {"header": "Full girth (in)", "total_function": "average", "total_value": sum(r[2] for r in b.rows) / n}, {"header": ["Opening (in)", "Difference (in)"][i]}]})
        for k, (a, x) in enumerate([("Length overall", fw(b.loa)), ("Bow height", inn(b.bow)), ("Stern height", inn(b.stern)), ("Carry point", inn(b.carry))]):
            ws.write(1 + k, 5, a), ws.write(1 + k, 6, x)
        wb.close()
        put("xlsx-filter", i, "xlsx", out.getvalue(), "in", b.want())


def raised():
    """Halves typed with small raised figures: rich text inside the cell."""
    for i, b in two("xlsx-raised"):
        out = io.BytesIO()
        wb = xlsxwriter.Workbook(out, {"in_memory": True})
        ws, small = wb.add_worksheet("canoe"), wb.add_format({"font_script": 1})

        def rich(r, c, x, tail=""):
            w, half = parts(x)
            if half:
                ws.write_rich_string(r, c, f"{w} ", small, "1/2", *([tail] if tail else []))
            elif tail:
                ws.write_string(r, c, f"{w}{tail}")
            else:
                ws.write_number(r, c, w)
        ws.write_row(0, 0, ["LENGTH OVERALL", fi(b.loa)])
        for k, (n, x) in enumerate([("BOW HEIGHT", b.bow), ("STERN HEIGHT", b.stern), ("CARRY POINT", b.carry)]):
            ws.write(1 + k, 0, n), rich(1 + k, 1, x, ' "' if i else "")
        ws.write(4, 0, "(inches where nothing is said)")
        ws.write_row(6, 0, ["STATION", "HULL GIRTH", "FULL GIRTH"])
        for k, (at, h, f) in enumerate(b.rows):
            ws.write(7 + k, 0, f"{ft(at)} ft"), rich(7 + k, 1, h), rich(7 + k, 2, f)
        wb.close()
        put("xlsx-raised", i, "xlsx", out.getvalue(), "in", b.want())


def half_column():
    """Whole inches in one column and an x for the half in the next."""
    for i, b in two("xlsx-halfcolumn"):
        yes = ["x", "½"][i]
        w = lambda x: [int(x), yes if x != int(x) else None]
        wb, ws = sheet("Form", [["", "whole inches", "+ 1/2"], ["Length overall", *w(b.loa)], ["Bow height", *w(b.bow)], ["Stern height", *w(b.stern)], ["Carry point", *w(b.carry)], [],
                                ["Station (ft)", "Hull girth, whole inches", "+ 1/2", "Full girth, whole inches", "+ 1/2"]])
        add(ws, [[ft(at), *w(h), *w(f)] for at, h, f in b.rows])
        put("xlsx-halfcolumn", i, "xlsx", saved(wb), "in", b.want())


def eighths():
    """A joiner reads quarters as eighths: 41 2/8."""
    def e(x):
        w, r = parts(x)
        return f"{w} {int(r * 8)}/8" if r else str(w)
    for i, b in two("xlsx-eighths", tick=.25):
        wb, ws = sheet("Joinery", [["Ridgeway & Tuff, joiners", None, None, None], ["Overall length", f"{int(b.loa // 12)}'-{e(b.loa % 12)}\""], ["Bow height", e(b.bow) + '"'], ["Stern height", e(b.stern) + '"'], ["Carry point", e(b.carry) + '"'], [],
                                   ["Station", "Hull girth [in]", "Full girth [in]", "Checked"]])
        add(ws, [[f"{ft(at)}'-0\"", e(h) + ('"' if i else ""), e(f) + ('"' if i else ""), "✓"] for at, h, f in b.rows])
        put("xlsx-eighths", i, "xlsx", saved(wb), "in", b.want())


def thirds():
    """Bow third, middle third, stern third in merged cells at the left."""
    for i, b in two("xlsx-thirds"):
        wb, ws = sheet("Boat")
        add(ws, [["Part", "Foot", "Hull girth", "Full girth", "What is there"]])
        n, r = len(b.rows), 2
        cut = [n // 3, 2 * n // 3, n]
        lo_ = 0
        for name, hi in zip(["BOW", "MIDDLE", "STERN"], cut):
            ws.merge_cells(start_row=r, end_row=r + hi - lo_ - 1, start_column=1, end_column=1)
            ws.cell(r, 1, name).alignment = Alignment(text_rotation=90, vertical="center")
            for k in range(lo_, hi):
                at, h, f = b.rows[k]
                for c, x in enumerate((ft(at), h, f, {2: "bow seat", n - 3: "stern seat", n // 2: "yoke"}.get(k))):
                    ws.cell(r, 2 + c, x)
                r += 1
            lo_ = hi
        for k, (a, x) in enumerate([("Inches.", None), ("Length overall", fi(b.loa)), ("Bow height", fr(b.bow)), ("Stern height", fr(b.stern)), ("Carry point", fr(b.carry))]):
            ws.cell(r + 1 + k, 1, a)
            ws.cell(r + 1 + k, 3, x)
        put("xlsx-thirds", i, "xlsx", saved(wb), "in", b.want())


def unit_cells():
    """Behind every number stands its unit, in a cell of its own."""
    for i, b in two("xlsx-unitcells"):
        u = ["in.", "inches"][i]
        wb, ws = sheet("Tandem", [["Length overall", int(b.loa // 12), "ft", b.loa % 12, "in."], ["Bow height", b.bow, u], ["Stern height", b.stern, u], ["Carry point", b.carry, u], [], ["Station", None, "Hull girth", None, "Full girth", None]])
        add(ws, [[ft(at), "ft", h, u, f, u] for at, h, f in b.rows])
        put("xlsx-unitcells", i, "xlsx", saved(wb), "in", b.want())


def again():
    """A column for numbers measured again; where it is empty the first number stands."""
    for i, b in two("xlsx-again", slip=False):
        wb, ws = sheet("final", [[["Where a corrected number stands, it replaces the one before it.", "I went over a few of them on Sunday. If there is a number under Corrected, use that one."][i]], [], ["Length overall", fw(b.loa)], ["Bow height", inn(b.bow)], ["Stern height", inn(b.stern)], ["Carry point", inn(b.carry)], [],
                                 ["Station (ft)", "Hull girth (in)", "Full girth (in)", "Hull girth corrected (in)", "Full girth corrected (in)"]])
        for k, (at, h, f) in enumerate(b.rows):
            row = [ft(at), h, f, None, None]
            if k == 3:
                row[1], row[3] = h + 4, h
            if k in (6, 7 + i):
                row[2], row[4] = f - 3.5, f
            ws.append(row)
        put("xlsx-again", i, "xlsx", saved(wb), "in", b.want())


def example():
    """The first sheet is an example boat, and says so; the second is the customer's."""
    for i, b in two("xlsx-example"):
        e = Boat(f"an example {i}")
        wb = openpyxl.Workbook()
        for title, x, top in [(["EXAMPLE", "Example - not my boat"][i], e, "EXAMPLE ONLY - this is not our boat, it shows how to fill the sheet"), (["MY BOAT", "Our canoe"][i], b, "Our own boat: cedar canvas, name of Sparrow")]:
            ws = wb.active if x is e else wb.create_sheet()
            ws.title = title
            add(ws, [[top], [], ["Length overall", fi(x.loa)], ["Bow height (in)", x.bow], ["Stern height (in)", x.stern], ["Carry point (in)", x.carry], [], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]])
            add(ws, [[ft(at), h, f] for at, h, f in x.rows])
        wb.active = 1
        put("xlsx-example", i, "xlsx", saved(wb), "in", b.want())


def ods_direct():
    """OpenDocument as other programs write it: values with a shown text of their own, rows and columns repeated."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableRow, TableCell, TableColumn
    from odf.text import P
    for i, b in two("ods-shown"):
        doc = OpenDocumentSpreadsheet()
        t = Table(name="Boot"); t.addElement(TableColumn(numbercolumnsrepeated=5))

        def row(*cells):
            r = TableRow()
            for c in cells:
                if c is None:
                    r.addElement(TableCell(numbercolumnsrepeated=2 if i else 1)); continue
                if isinstance(c, str):
                    e = TableCell(valuetype="string"); e.addElement(P(text=c))
                else:
                    e = TableCell(valuetype="float", value=c[0]); e.addElement(P(text=c[1]))
                r.addElement(e)
            t.addElement(r)
        w = lambda x: (x, [fr, gl][i](x) + [' in', '″'][i])
        row("Length overall", None, w(b.loa)); row("Bow height", None, w(b.bow)); row("Stern height", None, w(b.stern)); row("Carry point", None, w(b.carry))
        r = TableRow(numberrowsrepeated=3); r.addElement(TableCell(numbercolumnsrepeated=5)); t.addElement(r)
        row("Feet from bow", "Hull girth (in)", "Full girth (in)")
        for at, h, f in b.rows:
            row((ft(at), f"{ft(at)}"), w(h), w(f))
        r = TableRow(numberrowsrepeated=900); r.addElement(TableCell(numbercolumnsrepeated=1024)); t.addElement(r)
        doc.spreadsheet.addElement(t)
        buf = io.BytesIO(); doc.write(buf)
        put("ods-shown", i, "ods", buf.getvalue(), "in", b.want())


def metre_words():
    """French: 1 m 27 for every girth."""
    for i, b in two("ods-metremots", unit="cm"):
        def w(x):
            m, c = divmod(int(x), 100)
            return (f"{m} m {c:02}" if i == 0 else f"{m} m {c:02} cm") if m else f"{c} cm"
        wb, ws = sheet("Canot", [["Mesures du canot d'Éloi Bastiancourt"], [], ["Longueur hors tout", w(b.loa)], ["Hauteur d'étrave", w(b.bow)], ["Hauteur de poupe", w(b.stern)], ["Point de portage", w(b.carry) + " de l'étrave"], [], ["À partir de l'étrave", "Tour de coque", "Tour complet"]])
        add(ws, [[w(at), w(h), w(f)] for at, h, f in b.rows])
        put("ods-metremots", i, "ods", lo(saved(wb), "xlsx", "ods"), "cm", b.want())


def control(words, alias):
    return parse_xml(f'<w:sdt {nsdecls("w")}><w:sdtPr><w:alias w:val="{alias}"/><w:tag w:val="{alias.lower().replace(" ", "_")}"/><w:text/></w:sdtPr><w:sdtContent><w:r><w:t xml:space="preserve">{words}</w:t></w:r></w:sdtContent></w:sdt>')


def controls():
    """A Word form with content controls to click and type into."""
    for i, b in two("docx-controls"):
        d = docx.Document()
        d.add_heading("Boat survey form", 1)

        def line(label, value, tail=""):
            p = d.add_paragraph(label + " ")
            p._p.append(control(value, label.rstrip(":")))
            if tail:
                p._p.append(parse_xml(f'<w:r {nsdecls("w")}><w:t xml:space="preserve">{tail}</w:t></w:r>'))
        line("Name:", "Rosalba Quick"); line("Telephone:", "506 555 0148")
        line("Length overall:", fw(b.loa).replace(" in", ""), " in" if b.loa % 12 else "")
        line("Bow height:", fr(b.bow), " inches"); line("Stern height:", fr(b.stern), " inches"); line("Carry point:", fr(b.carry), " inches from the bow")
        line("Stern:", "☒ pointed  ☐ square"); line("Deck:", "☒ open  ☐ decked")
        line("What stays under the cover:", "Click or tap here to enter text.")
        rows = len(b.rows) + (3 if i else 0)
        t = grid(d, [["Station", "Hull girth (in)", "Full girth (in)"]] + [[f"{k + 1} ft", "", ""] for k in range(rows)])
        for k in range(rows):
            for c in (1, 2):
                v = [fr, dec][i](b.rows[k][c]) if k < len(b.rows) else "Enter number"
                t.cell(k + 1, c).paragraphs[0]._p.append(control(v, f"{['hull', 'full'][c - 1]} {k + 1}"))
        put("docx-controls", i, "docx", done(d), "in", b.want())


def chapters():
    """A heading for every station and two lines under it."""
    for i, b in two("docx-chapters", feet=(10, 14)):
        d = docx.Document()
        d.add_heading("Canoe ‘Tansy’", 0)
        d.add_heading("Whole boat", 2)
        for n, x in [("Length overall", fl(b.loa)), ("Bow height", ins(b.bow)), ("Stern height", ins(b.stern)), ("Carry point", ins(b.carry) + " from the bow")]:
            d.add_paragraph(f"{n}: {x}")
        for at, h, f in b.rows:
            d.add_heading([f"Station at {ft(at)} ft", f"{ft(at)} feet from the bow"][i], 2)
            d.add_paragraph(f"Hull girth: {ins(h)}")
            d.add_paragraph(f"Full girth: {ins(f)}")
        put("docx-chapters", i, "docx", done(d), "in", b.want())


def brackets():
    """hull (full) behind each foot, said at the top."""
    for i, b in two("docx-brackets"):
        d = docx.Document()
        d.add_paragraph(f"The boat: length overall {fi(b.loa)}, bow height {q(b.bow)}, stern height {q(b.stern)}, carry point {q(b.carry)}.")
        d.add_paragraph(["For each foot I give the hull girth and then, in brackets, the full girth, both in inches:", "Below: hull girth, with the full girth in brackets. Inches."][i])
        for at, h, f in b.rows:
            d.add_paragraph(f"{ft(at)} ft: {[fr, dec][i](h)} ({[fr, dec][i](f)})")
        d.add_paragraph("It sits on two saw horses in the barn, so I can measure again any evening after 7.")
        put("docx-brackets", i, "docx", done(d), "in", b.want())


def breaks():
    """One paragraph with line breaks, copied out of a chat."""
    for i, b in two("docx-linebreaks"):
        d = docx.Document()
        p = d.add_paragraph()
        ls = ["Length overall: " + fw(b.loa), "Bow height: " + inn(b.bow), "Stern height: " + inn(b.stern), "Carry point: " + inn(b.carry), "", "station – hull girth – full girth (inches)"]
        ls += [[f"{ft(at)} ft – {fr(h)} – {fr(f)}", f"{ft(at)} ft – {gl(h)} – {gl(f)}"][i] for at, h, f in b.rows]
        for k, x in enumerate(ls):
            r = p.add_run(x)
            if k < len(ls) - 1:
                r.add_break()
        put("docx-linebreaks", i, "docx", done(d), "in", b.want())


def cell_columns():
    """A table of one row: each column is one cell with a line for every station."""
    for i, b in two("docx-cellcolumns", feet=(10, 15)):
        d = docx.Document()
        d.add_paragraph(f"LOA {fi(b.loa)}    Bow height {q(b.bow)}    Stern height {q(b.stern)}    Carry point {q(b.carry)}")
        t = d.add_table(rows=2, cols=3)
        t.style = "Table Grid"
        for c, (head, xs) in enumerate([("Station", [f"{ft(at)} ft" for at, _, _ in b.rows]), ("Hull girth (in)", [[fr, d1][i](h) for _, h, _ in b.rows]), ("Full girth (in)", [[fr, d1][i](f) for _, _, f in b.rows])]):
            t.cell(0, c).text = head
            if i:
                t.cell(1, c).text = "\n".join(xs)
            else:
                t.cell(1, c).text = xs[0]
                for x in xs[1:]:
                    t.cell(1, c).add_paragraph(x)
        put("docx-cellcolumns", i, "docx", done(d), "in", b.want())


def three_tables():
    """Three short tables with captions: forward, amidships, aft; the greatest girth in a sentence."""
    for i, b in two("docx-threetables", feet=(13, 18)):
        d = docx.Document()
        d.add_heading("Prospector refit: cover", 1)
        n = len(b.rows)
        for name, part in zip(["Forward", "Amidships", "Aft"], [b.rows[:n // 3], b.rows[n // 3:2 * n // 3], b.rows[2 * n // 3:]]):
            d.add_paragraph(f"{name}, stations {ft(part[0][0])} to {ft(part[-1][0])} ft").runs[0].bold = True
            grid(d, [["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[ft(at), fr(h), fr(f)] for at, h, f in part], "Light List Accent 1")
            d.add_paragraph("")
        d.add_paragraph(f"The greatest girth lies {fw(b.great[0])} from the bow: hull girth {inn(b.great[1])}, full girth {inn(b.great[2])}; the opening there is {inn(b.opening)}.")
        d.add_paragraph(f"Length overall {fw(b.loa)}. Bow height {inn(b.bow)}. Stern height {inn(b.stern)}. Carry point {inn(b.carry)}.")
        put("docx-threetables", i, "docx", done(d), "in", b.want(great=True, opening=True))


def note_export():
    """A telephone's note program: one note in one field, with its lines."""
    for i, b in two("csv-noteexport"):
        body = [f"Canoe cover", f"LOA {fi(b.loa, gl)}", f"bow height {gl(b.bow)} in", f"stern height {gl(b.stern)} in", f"carry point {gl(b.carry)} in", "", "station: hull girth / full girth (in)"]
        body += [f"{ft(at)} ft: {[gl, dec][i](h)} / {[gl, dec][i](f)}" for at, h, f in b.rows]
        rows = [["Title", "Folder", "Created", "Modified", "Text"], ["Canoe cover", "Notes", "2026-06-06 10:22", "2026-06-06 11:05", "\n".join(body)]]
        put("csv-noteexport", i, "csv", lines(rows, nl="\n", quoting=csv.QUOTE_ALL).encode("utf-8-sig"), "in", b.want())


def ordinals():
    """Feet by their ordinals: 1st foot, 2nd foot."""
    o = lambda n: f"{n}{'th' if 10 <= n % 100 <= 20 else {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th')}"
    for i, b in two("tsv-ordinals"):
        rows = [["", "Hull girth (in)", "Full girth (in)"]] + [[o(ft(at)) + [" foot", " ft"][i], fr(h), fr(f)] for at, h, f in b.rows]
        rows += [[], ["Length overall", fw(b.loa)], ["Bow height", inn(b.bow)], ["Stern height", inn(b.stern)], ["Carry point", inn(b.carry)]]
        put("tsv-ordinals", i, "tsv", lines(rows, "\t").encode(), "in", b.want())


def ends_named():
    """A row for the tip of the bow and one for the tip of the stern, with dashes for the girths."""
    for i, b in two("xlsx-tips"):
        no = ["-", "n/a"][i]
        wb, ws = sheet("Outing canoe", [["Bow height", q(b.bow), None, "Carry point", q(b.carry)], ["Stern height", q(b.stern), None, "Length overall", fi(b.loa)], [], ["Feet from bow", "Hull girth (in)", "Full girth (in)", "At this place"], ["0", no, no, "tip of bow"]])
        add(ws, [[ft(at), h, f, "portage yoke" if k == len(b.rows) // 2 else None] for k, (at, h, f) in enumerate(b.rows)] + [[fi(b.loa), no, no, "tip of stern"]])
        put("xlsx-tips", i, "xlsx", saved(wb), "in", b.want())


run([sep_line, frame, corner, table_object, raised, half_column, eighths, thirds, unit_cells, again, example, ods_direct, metre_words, controls, chapters, brackets, breaks, cell_columns, three_tables, note_export, ordinals, ends_named])
