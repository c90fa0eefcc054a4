"""Typed surveys, third batch: /usr/bin/python3 batch3.py"""
from kit import *
from openpyxl.styles import Font, Alignment, PatternFill
from openpyxl.comments import Comment
import xlsxwriter
from docx.oxml import parse_xml, OxmlElement
from docx.oxml.ns import nsdecls, qn

W = nsdecls("w")
WORDS = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty".split()


def done(d):
    buf = io.BytesIO(); d.save(buf)
    return buf.getvalue()


def typed_field(p, value, name):
    """A text field of an old Word form."""
    for x in (f'<w:r {W}><w:fldChar w:fldCharType="begin"><w:ffData><w:name w:val="{name}"/><w:enabled/><w:calcOnExit w:val="0"/><w:textInput/></w:ffData></w:fldChar></w:r>',
              f'<w:r {W}><w:instrText xml:space="preserve"> FORMTEXT </w:instrText></w:r>', f'<w:r {W}><w:fldChar w:fldCharType="separate"/></w:r>',
              f'<w:r {W}><w:t xml:space="preserve">{value}</w:t></w:r>', f'<w:r {W}><w:fldChar w:fldCharType="end"/></w:r>'):
        p._p.append(parse_xml(x))


def old_form():
    """A form of an old Word, with fields to type into (and its empty ones as five small spaces)."""
    for i, b in two("docx-oldform"):
        d = docx.Document()
        d.add_heading("Cover order: measurements", 1)
        t = d.add_table(rows=0, cols=4); t.style = "Table Grid"
        k = 0
        for l1, v1, l2, v2 in [("Name", "Ignatius Pell", "Telephone", "902 555 0162"), ("Length overall", fw(b.loa), "Carry point", q(b.carry)), ("Bow height", q(b.bow), "Stern height", q(b.stern)), ("Greatest girth at", "\u2002" * 5, "Opening there", "\u2002" * 5)]:
            c = t.add_row().cells
            c[0].text, c[2].text = l1, l2
            typed_field(c[1].paragraphs[0], v1, f"Text{k + 1}"), typed_field(c[3].paragraphs[0], v2, f"Text{k + 2}")
            k += 2
        d.add_paragraph("")
        t = d.add_table(rows=1, cols=3); t.style = "Table Grid"
        for c, x in zip(t.rows[0].cells, ("Station", "Hull girth, inches", "Full girth, inches")):
            c.text = x
        for n in range(18):
            c = t.add_row().cells
            c[0].text = f"{n + 1} ft"
            for j in (1, 2):
                k += 1
                typed_field(c[j].paragraphs[0], [fr, dec][i](b.rows[n][j]) if n < len(b.rows) else "\u2002" * 5, f"Text{k}")
        put("docx-oldform", i, "docx", done(d), "in", b.want())


def newspaper():
    """Two newspaper columns on one page."""
    for i, b in two("docx-newspaper"):
        d = docx.Document()
        cols = d.sections[0]._sectPr.find(qn("w:cols"))
        if cols is None:
            cols = OxmlElement("w:cols"); d.sections[0]._sectPr.append(cols)
        cols.set(qn("w:num"), "2"); cols.set(qn("w:space"), "400")
        d.add_paragraph("Cover survey").runs[0].bold = True
        for n, x in [("Length overall", fi(b.loa)), ("Bow height", q(b.bow)), ("Stern height", q(b.stern)), ("Carry point", q(b.carry))]:
            d.add_paragraph(f"{n} = {x}")
        for at, h, f in b.rows:
            d.add_paragraph(f"Station {ft(at)}'").runs[0].underline = True
            d.add_paragraph([f"hull girth = {q(h)}   full girth = {q(f)}", f"full girth = {q(f)}   hull girth = {q(h)}"][i])
        put("docx-newspaper", i, "docx", done(d), "in", b.want())


NS = ('xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main" xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" xmlns:wp="http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing" '
      'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" xmlns:wps="http://schemas.microsoft.com/office/word/2010/wordprocessingShape" xmlns:v="urn:schemas-microsoft-com:vml"')


def text_box():
    """A text box beside the table holds the length, heights and carry point."""
    for i, b in two("docx-textbox"):
        d = docx.Document()
        d.add_heading("Sailing canoe" if i else "Tripping canoe", 1)
        body = "".join(f"<w:p><w:r><w:t>{x}</w:t></w:r></w:p>" for x in [f"Length overall {fw(b.loa)}", f"Bow height {inn(b.bow)}", f"Stern height {inn(b.stern)}", f"Carry point {inn(b.carry)}"])
        xml = (f'<w:r {NS}><mc:AlternateContent><mc:Choice Requires="wps"><w:drawing><wp:anchor distT="0" distB="0" distL="114300" distR="114300" simplePos="0" relativeHeight="2" behindDoc="0" locked="0" layoutInCell="1" allowOverlap="1">'
               '<wp:simplePos x="0" y="0"/><wp:positionH relativeFrom="column"><wp:posOffset>3600000</wp:posOffset></wp:positionH><wp:positionV relativeFrom="paragraph"><wp:posOffset>0</wp:posOffset></wp:positionV>'
               '<wp:extent cx="2160000" cy="1200000"/><wp:wrapSquare wrapText="bothSides"/><wp:docPr id="5" name="Text Box 5"/><a:graphic><a:graphicData uri="http://schemas.microsoft.com/office/word/2010/wordprocessingShape">'
               '<wps:wsp><wps:cNvSpPr txBox="1"/><wps:spPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="2160000" cy="1200000"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></wps:spPr>'
               f'<wps:txbx><w:txbxContent>{body}</w:txbxContent></wps:txbx><wps:bodyPr/></wps:wsp></a:graphicData></a:graphic></wp:anchor></w:drawing></mc:Choice>'
               f'<mc:Fallback><w:pict><v:shape style="position:absolute;margin-left:283pt;width:170pt;height:94pt"><v:textbox><w:txbxContent>{body}</w:txbxContent></v:textbox></v:shape></w:pict></mc:Fallback></mc:AlternateContent></w:r>')
        d.add_paragraph("Numbers of the whole boat in the box.")._p.append(parse_xml(xml))
        grid(d, [["Foot", "Hull girth (in)", "Full girth (in)"]] + [[ft(at), dec(h), dec(f)] for at, h, f in b.rows])
        put("docx-textbox", i, "docx", done(d), "in", b.want())


def struck():
    """Old numbers struck through inside the cell, the right one behind them."""
    for i, b in two("xlsx-struck", slip=False):
        out = io.BytesIO()
        wb = xlsxwriter.Workbook(out, {"in_memory": True})
        ws, gone, red = wb.add_worksheet("Sheet1"), wb.add_format({"font_strikeout": 1}), wb.add_format({"font_color": "red"})
        for k, (n, x) in enumerate([("Length overall", fi(b.loa)), ("Bow height", q(b.bow)), ("Stern height", q(b.stern)), ("Carry point", q(b.carry))]):
            ws.write_row(k, 0, [n, x])
        ws.write_row(5, 0, ["Station (ft)", "Hull girth (in)", "Full girth (in)"])
        for k, (at, h, f) in enumerate(b.rows):
            ws.write_row(6 + k, 0, [ft(at), h, f])
            if k in (2 + i, 6):
                ws.write_rich_string(6 + k, 1 + k % 2, gone, fr((h, f)[k % 2] + 10), red, "  " + fr((h, f)[k % 2]))
        wb.close()
        put("xlsx-struck", i, "xlsx", out.getvalue(), "in", b.want())


def two_decks():
    """On its side, in two blocks under one another, with an average at the right end."""
    for i, b in two("xlsx-twodecks", feet=(12, 18)):
        wb, ws = sheet("on its side", [["Longest: ", fw(b.loa), "length overall"], ["Highest at bow: ", inn(b.bow), "bow height"], ["Highest at stern: ", inn(b.stern), "stern height"], ["Hand hold: ", inn(b.carry), "carry point"], []])
        for name, part in zip(["BOW HALF", "STERN HALF"], halves(b.rows)):
            n = len(part)
            add(ws, [[name], ["Station (ft)"] + [ft(r[0]) for r in part] + ["average"], ["Hull girth (in)"] + [r[1] for r in part] + [round(sum(r[1] for r in part) / n, 2)], ["Full girth (in)"] + [r[2] for r in part] + [round(sum(r[2] for r in part) / n, 2)], []])
        put("xlsx-twodecks", i, "xlsx", saved(wb), "in", b.want())


def key_sheet():
    """Letters for the measures, and a sheet called Key that says what they are."""
    for i, b in two("xlsx-key"):
        wb, ws = sheet("Numbers", [["A", b.loa, "in"], ["B", b.bow, "in"], ["C", b.stern, "in"], ["D", b.carry, "in"], [], ["S", "E", "F"]])
        add(ws, [[ft(at), h, f] for at, h, f in b.rows])
        ws = wb.create_sheet("Key")
        add(ws, [["A", "Length overall"], ["B", "Bow height"], ["C", "Stern height"], ["D", "Carry point"], ["E", "Hull girth, inches"], ["F", "Full girth, inches"], ["S", "Station, feet from bow"]])
        if i:
            wb.move_sheet("Key", -1)
        put("xlsx-key", i, "xlsx", saved(wb), "in", b.want())


def decimal_feet():
    """A surveyor's decimal feet for the length and the stations."""
    for i, b in two("csv-decimalfeet", spacing=["ends", "foot"][0], feet=(11, 14), whole=False):
        b.loa = round(b.loa / 3) * 3
        rows = [["Object", "Value", "Unit"], ["Length overall", f"{b.loa / 12:.2f}", "ft (decimal feet)"], ["Bow height", d1(b.bow), "in"], ["Stern height", d1(b.stern), "in"], ["Carry point", d1(b.carry), "in"], [], ["Chainage from bow, decimal ft", "Hull girth, in", "Full girth, in"]]
        rows += [[f"{at / 12:.2f}", d1(h), d1(f)] for at, h, f in b.rows]
        put("csv-decimalfeet", i, "csv", lines(rows).encode(), "in", b.want())


def date_mangled():
    """Feet-inches typed with a hyphen; where no half followed the program made a date of it."""
    months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
    for i, b in two("csv-datemangled", slip=False, feet=(10, 12)):
        def w(x):
            f, n = divmod(x, 12)
            if n == int(n) and n >= 1:
                return [f"{int(n)}-{months[int(f) - 1]}", f"{int(n):02}-{months[int(f) - 1]}"][i], True
            return f"{int(f)}-{fr(n)}", False
        doubt, rows = [], [["Length overall", fw(b.loa)], ["Bow height", inn(b.bow)], ["Stern height", inn(b.stern)], ["Carry point", inn(b.carry)], [], ["Station", "Hull girth (ft-in)", "Full girth (ft-in)"]]
        for at, h, f in b.rows:
            (x, bad), (y, worse) = w(h), w(f)
            doubt += [f"hull_girth@{at}"] * bad + [f"full_girth@{at}"] * worse
            rows.append([f"{ft(at)} ft", x, y])
        put("csv-datemangled", i, "csv", lines(rows).encode(), "in", b.want(doubt), doubt)


def annotated():
    """A French OpenDocument sheet: merged title, notes on cells, a word of thanks below."""
    for i, b in two("ods-annotations", unit="cm", tick=.5):
        wb, ws = sheet("Relevé du 7 juin")
        ws.merge_cells("A1:D2")
        ws["A1"] = "RELEVÉ POUR HOUSSE SUR MESURE"
        ws["A1"].alignment = Alignment(horizontal="center")
        for k, (n, x) in enumerate([("Longueur hors tout", b.loa), ("Hauteur d'étrave", b.bow), ("Hauteur de poupe", b.stern), ("Point de portage", b.carry)]):
            ws.cell(4 + k, 1, n), ws.cell(4 + k, 2, x), ws.cell(4 + k, 3, "cm")
        for c, x in enumerate(["Distance à l'étrave (cm)", "Tour de coque (cm)", "Tour complet (cm)", "Ouverture (cm)"]):
            ws.cell(9, 1 + c, x)
        for k, (at, h, f) in enumerate(b.rows):
            for c, x in enumerate((at, h, f, f - h)):
                ws.cell(10 + k, 1 + c, x)
        ws.cell(12, 2).comment = Comment("mesuré 2 fois, 1 cm d'écart", "Zélie")
        r = 11 + len(b.rows)
        ws.cell(r, 1, "Moyenne"), ws.cell(r, 2, f"=AVERAGE(B10:B{r - 2})"), ws.cell(r, 3, f"=AVERAGE(C10:C{r - 2})")
        ws.cell(r + 2, 1, "Merci de rappeler Zélie Quimperlan après 18 h au 06 55 01 09 31")
        put("ods-annotations", i, "ods", lo(saved(wb), "xlsx", "ods"), "cm", b.want())


def spoken():
    """Feet in words, halves as 'and a half', the way it was dictated."""
    for i, b in two("docx-spoken"):
        s = lambda x: f"{int(x)} and a half" if x != int(x) else f"{x:g}"
        s2 = lambda x: f"{int(x)} and 1/2" if x != int(x) else f"{x:g}"
        w = [s, s2][i]
        d = docx.Document()
        d.add_paragraph("As told to my granddaughter, who typed it:")
        d.add_paragraph(f"The length overall is {fl(b.loa)}. Bow height, {w(b.bow)} inches. Stern height, {w(b.stern)} inches. Carry point, {w(b.carry)} inches from the bow.")
        for at, h, f in b.rows:
            n = WORDS[at // 12]
            d.add_paragraph(f"{n.capitalize()} {'foot' if at == 12 else 'feet'}: hull girth {w(h)} inches, full girth {w(f)} inches.")
        put("docx-spoken", i, "docx", done(d), "in", b.want())


def asked():
    """Headings as questions."""
    for i, b in two("xlsx-asked"):
        wb, ws = sheet("Questions", [["How long is the boat overall?", fi(b.loa)], ["How high is the bow?", q(b.bow)], ["How high is the stern?", q(b.stern)], ["Where do you carry it (carry point)?", q(b.carry) + " from the bow"], ["Is the stern square?", "No"], ["Who measured?", "Peregrine and Lotte"], [],
                                     ["How far from the bow? (feet)", ["How far round the hull, gunwale to gunwale underneath? (inches)", "Hull girth: how many inches?"][i], ["How far all the way round, closed over the top? (inches)", "Full girth: how many inches?"][i], "Sure?"]])
        add(ws, [[ft(at), h, f, "yes"] for at, h, f in b.rows])
        put("xlsx-asked", i, "xlsx", saved(wb), "in", b.want())


def abbreviated():
    """French abbreviations, tabs."""
    for i, b in two("tsv-abrege", unit="cm", kind="square", feet=(9, 13)):
        rows = [["LHT", cm(b.loa)], ["H. étrave", cm(b.bow)], ["H. poupe", cm(b.stern)], ["Pt de portage", cm(b.carry)], ["Tableau arr.", f"coque {b.transom[0]} cm", f"complet {b.transom[1]} cm"], [], ["Dist. étrave", "T. coque", "T. complet"]] + [[cm(at), cm(h), cm(f)] for at, h, f in b.rows]
        if i:
            rows = [["LHT", "H. étrave", "H. poupe", "Pt portage"], [cm(b.loa), cm(b.bow), cm(b.stern), cm(b.carry)], [], ["Dist. étrave (cm)", "Tour coque (cm)", "Tour complet (cm)"]] + [[at, h, f] for at, h, f in b.rows] + [["Tableau arrière", b.transom[0], b.transom[1]]]
        put("tsv-abrege", i, "tsv", lines(rows, "\t").encode(["utf-8", "cp1252"][i]), "cm", b.want())


def french_letter():
    """A French letter with a table, the unit in every cell."""
    for i, b in two("docx-courrier", unit="cm", tick=.5):
        d = docx.Document()
        d.add_paragraph("Théodule Grandchamp-Lys\n8, quai des Tanneurs")
        d.add_paragraph("Objet : mesures de ma yole pour une housse")
        d.add_paragraph("Madame, Monsieur,")
        d.add_paragraph(f"Suite à votre courrier du 28 mai, j’ai mesuré ma yole hier avec mon voisin. Sa longueur hors tout est de {m2(b.loa) if b.loa == int(b.loa) else cmc(b.loa)} ; la hauteur de l’étrave est de {cmc(b.bow)} et celle de la poupe de {cmc(b.stern)}. Le point de portage se trouve à {cmc(b.carry)} de l’étrave.")
        grid(d, [["N°", "Distance depuis l’étrave", "Tour de coque", "Tour complet"]] + [[k + 1, cmc(at), cmc(h), cmc(f)] for k, (at, h, f) in enumerate(b.rows)], [None, "Light Shading Accent 1"][i])
        d.add_paragraph("Je vous prie d’agréer, Madame, Monsieur, mes salutations distinguées.")
        put("docx-courrier", i, "docx", done(d), "cm", b.want())


def three_blocks():
    """Three blocks of stations side by side to fit one page."""
    for i, b in two("xlsx-threeblocks", feet=(13, 18)):
        n = -(-len(b.rows) // 3)
        parts_ = [b.rows[k:k + n] for k in range(0, len(b.rows), n)]
        wb, ws = sheet("A4 page", [["Length overall", None, fi(b.loa), None, "Bow height", None, q(b.bow)], ["Carry point", None, q(b.carry), None, "Stern height", None, q(b.stern)], []])
        head = ["Stn ft", "Hull in", "Full in", None] if i == 0 else ["Station", "Hull girth", "Full girth", None]
        ws.append(head * 3)
        for k in range(n):
            row = []
            for p in parts_:
                row += [(ft(p[k][0]) if i == 0 else f"{ft(p[k][0])} ft"), p[k][1], p[k][2], None] if k < len(p) else [None] * 4
            ws.append(row)
        put("xlsx-threeblocks", i, "xlsx", saved(wb), "in", b.want())


def numbered_stations():
    """Station numbers, with a sentence that tells how far apart they are."""
    for i, b in two("xlsx-stationno"):
        say = ["Station 1 is 1 foot from the bow, station 2 is 2 feet, and so on to the stern.", "Stations are 12 inches apart, counted from the bow; station 1 is at 12 inches."][i]
        wb, ws = sheet("Survey", [[say], ["Length overall", fw(b.loa)], ["Bow height", inn(b.bow)], ["Stern height", inn(b.stern)], ["Carry point", inn(b.carry)], [], ["Station no.", "Hull girth (in)", "Full girth (in)"]])
        add(ws, [[k + 1, h, f] for k, (_, h, f) in enumerate(b.rows)])
        put("xlsx-stationno", i, "xlsx", saved(wb), "in", b.want())


def fifteen():
    """Metric in English, stations closer at the ends, the unit once at the top."""
    for i, b in two("xlsx-fifteencm", unit="cm", spacing="ends", feet=(10, 15)):
        wb, ws = sheet("metric", [["ALL MEASUREMENTS IN CENTIMETRES", None, None, "15 cm spacing at the ends, 30 cm between"], [], ["length overall", b.loa], ["bow height", b.bow], ["stern height", b.stern], ["carry point", b.carry], [], ["station", "hull girth", "full girth", "remarks"]])
        add(ws, [[at, h, f, {1: "stem 4 cm wide here", 6: "thwart 2"}.get(k)] for k, (at, h, f) in enumerate(b.rows)])
        put("xlsx-fifteencm", i, "xlsx", saved(wb), "cm", b.want())


def two_lists():
    """Two Word tables one after the other: hull girths, then full girths."""
    for i, b in two("docx-twolists"):
        d = docx.Document()
        d.add_paragraph(f"Length overall: {fw(b.loa)}\nBow height: {inn(b.bow)}\nStern height: {inn(b.stern)}\nCarry point: {inn(b.carry)}")
        for name, c in (("Hull girth", 1), ("Full girth", 2)):
            d.add_heading(name + [" (gunwale to gunwale under the hull)", " (closed loop)"][c - 1], 2)
            if i:
                rows = [["Station", *[f"{ft(r[0])} ft" for r in b.rows[:8]]], ["Inches", *[fr(r[c]) for r in b.rows[:8]]], ["Station", *[f"{ft(r[0])} ft" for r in b.rows[8:]]], ["Inches", *[fr(r[c]) for r in b.rows[8:]]]]
                grid(d, rows)
            else:
                grid(d, [["Station", "Inches"]] + [[f"{ft(r[0])} ft", fr(r[c])] for r in b.rows])
        put("docx-twolists", i, "docx", done(d), "in", b.want())


def decoys():
    """A form with much else on it: tape check, weights, dates, order number, ticks."""
    for i, b in two("xlsx-busyform"):
        wb, ws = sheet("Survey form", [["FITTED COVER - SURVEY FORM", None, None, "Order no.", 20417], ["Date", datetime.date(2026, 6, 11), None, "Received", None], [], ["Name", "Lavinia Croft-Doyle", None, "Postcode", "B3K 2X9"], ["Telephone", "902-555-0190", None, "Year built", 1979], ["Weight, lb", 71, None, "Seats", 2],
                                       ["Tape check: long edge of paper", "11 in", None, "Tape length", "12 ft"], ["Stern (X)", "pointed X", "square", "Deck", "open X"], [], ["Length overall", fw(b.loa), None, "Carry point", inn(b.carry)], ["Bow height", inn(b.bow), None, "Stern height", inn(b.stern)],
                                       ["Greatest girth at", fw(b.great[0]), None, "Opening there", inn(b.opening)], ["Hull girth there", inn(b.great[1]), None, "Full girth there", inn(b.great[2])], [], ["Station", "Hull girth", "Full girth", "Notes"]])
        add(ws, [[f"{ft(at)} ft", fr(h), fr(f), {3: "2 layers of tape here", 9: "1979 repair, 3 in long"}.get(k)] for k, (at, h, f) in enumerate(b.rows)])
        add(ws, [[], ["Signature", "L. Croft-Doyle"], ["Please allow 3 to 4 weeks. Deposit 50 %."]])
        put("xlsx-busyform", i, "xlsx", saved(wb), "in", b.want(great=True, opening=True))


def colons():
    """A csv by hand: notes behind #, labels with colons, then the commas."""
    for i, b in two("csv-colons"):
        ls = ["# canoe.csv, made by hand", "# lengths in inches unless a unit is given", f"Length overall: {fw(b.loa)}", f"Bow height: {dec(b.bow)}", f"Stern height: {dec(b.stern)}", f"Carry point: {dec(b.carry)}", "", "station, hull girth, full girth"]
        ls += [f"{ft(at)} ft, {dec(h)}, {dec(f)}" + ("   # over the keel band" if k == 4 and i else "") for k, (at, h, f) in enumerate(b.rows)]
        put("csv-colons", i, "csv", ("\n".join(ls) + "\n").encode(), "in", b.want())


def text_numbers():
    """Numbers kept as text, with spaces before and behind, decimal commas in the second."""
    for i in range(2):
        b = Boat(f"xlsx-textnumbers {i}", unit=["in", "cm"][i], tick=.5, slip=bool(i))
        w = [lambda x: f" {d1(x)} ", lambda x: f"{com(x)}\u00a0"][i]
        u = b.unit
        wb, ws = sheet("import", [[f"Length overall ({u})", w(b.loa)], [f"Bow height ({u})", w(b.bow)], [f"Stern height ({u})", w(b.stern)], [f"Carry point ({u})", w(b.carry)], [], [f"Station ({'ft' if i == 0 else 'cm'})", f"Hull girth ({u})", f"Full girth ({u})"]])
        add(ws, [[f" {ft(at) if i == 0 else at}", w(h), w(f)] for at, h, f in b.rows])
        put("xlsx-textnumbers", i, "xlsx", saved(wb), u, b.want())


def from_web():
    """A page of an online document, saved as Word by another program."""
    for i, b in two("docx-fromweb"):
        rows = "".join(f"<tr><td>{ft(at)}′</td><td>{[gl, dec][i](h)}″</td><td>{[gl, dec][i](f)}″</td></tr>" for at, h, f in b.rows)
        page = (f"<html><head><meta charset='utf-8'></head><body><h2>Our boat</h2><p><b>Length overall</b> {int(b.loa // 12)}′ {gl(b.loa % 12) or '0'}″<br><b>Bow height</b> {gl(b.bow)}″<br><b>Stern height</b> {gl(b.stern)}″<br><b>Carry point</b> {gl(b.carry)}″</p>"
                f"<table border=1><tr><th>Station</th><th>Hull girth</th><th>Full girth</th></tr>{rows}</table><p>Shared with you by Basil Umfreville</p></body></html>")
        with tempfile.TemporaryDirectory() as t:
            open(t + "/a.html", "w").write(page)
            subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{PROFILE}", "--infilter=HTML (StarWriter)", "--convert-to", "docx:MS Word 2007 XML", "--outdir", t, t + "/a.html"], check=True, capture_output=True)
            data = open(t + "/a.docx", "rb").read()
        put("docx-fromweb", i, "docx", data, "in", b.want())


def column_a():
    """A csv opened the wrong way and saved: every line whole in column A."""
    for i, b in two("xlsx-columna"):
        s = [",", ";"][i]
        rows = [["length overall", dec(b.loa) + " in"], ["bow height", dec(b.bow) + " in"], ["stern height", dec(b.stern) + " in"], ["carry point", dec(b.carry) + " in"], [""], ["station ft", "hull girth in", "full girth in"]] + [[str(ft(at)), dec(h), dec(f)] for at, h, f in b.rows]
        wb, ws = sheet("boat", [[s.join(r) or None] for r in rows])
        put("xlsx-columna", i, "xlsx", saved(wb), "in", b.want())


run([old_form, newspaper, text_box, struck, two_decks, key_sheet, decimal_feet, date_mangled, annotated, spoken, asked, abbreviated, french_letter, three_blocks, numbered_stations, fifteen, two_lists, decoys, colons, text_numbers, from_web, column_a])
