"""Batch three: web messages, French metres, a programmer's notes, windows letters, printed headings, auto-named fields."""
import html, os, shutil
import docx, openpyxl
from docx.enum.section import WD_SECTION
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Cm, Pt
from reportlab.lib import colors
from reportlab.lib.enums import TA_CENTER
from reportlab.lib.pagesizes import A4, landscape, letter
from reportlab.lib.styles import getSampleStyleSheet, ParagraphStyle
from reportlab.platypus import Paragraph, Spacer, Table, TableStyle, PageBreak
import files
from boats import *
from files import *
S = getSampleStyleSheet()
esc = html.escape
N = S["Normal"]


def nth(n):
    return f"{n}{'th' if 10 < n % 100 < 14 else {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th')}"


def mail_brackets():
    """Each pair in brackets behind its station, several on a line."""
    for i, b in pair_of("mail-brackets"):
        w = [dec, plain][i]
        cells = [[f"{foot(at)} ft (hull {w(h)}, full {w(f)})", f"Station {foot(at)} ft (hull girth {w(h)}, full girth {w(f)})"][i] for at, h, f in b.rows]
        n = [3, 1][i]
        lines = ["Dear all,", "", f"I have now measured my {b.craft} (length overall {feet_words(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}).", "", "Inches:"]
        lines += [", ".join(cells[k:k + n]) + ["," if k + n < len(cells) else ".", ""][i] for k in range(0, len(cells), n)]
        emit("mail-brackets", i, "eml", sealed(mail(b.mailbox, "measured at last", lines + ["", "Yours", b.owner])), "in", b.want())


def mail_ordinals():
    """1st foot, 2nd foot."""
    for i, b in pair_of("mail-ordinals"):
        lines = ["Good day to you.", "", f"Length overall, {feet_long(b.loa)}. Bow height, {inches(b.bow)}. Stern height, {inches(b.stern)}. Carry point, {inches(b.carry)} from the bow.", "", "All girths are in inches."]
        lines += [[f"{nth(foot(at))} foot: hull girth {plain(h)}, full girth {plain(f)}", f"{nth(foot(at))} foot mark - hull {plain(h)} - full {plain(f)}"][i] for at, h, f in b.rows]
        emit("mail-ordinals", i, "eml", sealed(mail(b.mailbox, "The figures you asked for", lines + ["", "Respectfully,", b.owner])), "in", b.want())


def mail_webmessage():
    """The message box of a web page, sent on by the web page."""
    for i, b in pair_of("mail-webmessage"):
        told = [f"Here are the measurements. LOA {feet(b.loa)}. Bow height {quote(b.bow)}, stern height {quote(b.stern)}, carry point {quote(b.carry)}.", "Station / hull girth / full girth (inches):"] + [f"{foot(at)} ft / {dec(h)} / {dec(f)}" for at, h, f in b.rows]
        name, address = b.owner, b.mailbox.split("<")[1][:-1]
        if i:
            page = "<table cellpadding=5 width=600>" + "".join(f"<tr><td bgcolor=#eeeeee><b>{n}</b></td></tr><tr><td>{v}</td></tr>" for n, v in [("Name", name), ("E-mail", address), ("Phone", b.phone), ("Message", "<br />".join(esc(x, False) for x in told))]) + "</table>"
            m = mail("Pinfold website <web@pinfold.example>", "New message from your website", page="<html><body>" + page + "</body></html>")
        else:
            m = mail("Pinfold website <web@pinfold.example>", "Contact form", ["Name: " + name, "E-mail: " + address, "Phone: " + b.phone, "", "Message:"] + told + ["", "--", "This mail was sent from the contact form, page 3"])
        m["Reply-To"] = b.mailbox
        emit("mail-webmessage", i, "eml", sealed(m), "in", b.want())


def mail_metresfr():
    """Four metres sixty the French way, girths in centimetres."""
    m60 = lambda x: f"{int(x // 100)}m{int(x % 100):02d}"
    m_60 = lambda x: f"{int(x // 100)} m {int(x % 100):02d}"
    for i, b in pair_of("mail-metresfr", unit="cm", french=True):
        lines = ["Bonjour,", "", f"le canoë fait {[m60, m_60][i](b.loa)} de longueur hors tout. Hauteur d'étrave {dec(b.bow)} cm, hauteur de poupe {dec(b.stern)} cm, point de portage à {dec(b.carry)} cm.", "", "Pour chaque station (cm depuis l'étrave), tour de coque puis tour complet, en cm :", ""]
        lines += [[f"{at} : {h} puis {f}", f"{at} cm   {h}   {f}"][i] for at, h, f in b.rows]
        emit("mail-metresfr", i, "eml", sealed(mail(b.mailbox, "Re : housse", lines + ["", "À bientôt", b.first])), "cm", b.want())


def mail_onecell():
    """A table of two columns, both girths in one cell."""
    for i, b in pair_of("mail-onecell"):
        w = [plain, glyph][i]
        sep = [" / ", " – "][i]
        rows = "".join(f"<tr><td><p>{foot(at)} ft</p></td><td><p>{w(h)}{sep}{w(f)}</p></td></tr>" for at, h, f in b.rows)
        page = (f"<html><body><p>Hi again</p><table><tbody><tr><td><p>Length overall</p></td><td><p>{esc(feet_words(b.loa))}</p></td></tr><tr><td><p>Bow height</p></td><td><p>{inch(b.bow)}</p></td></tr><tr><td><p>Stern height</p></td><td><p>{inch(b.stern)}</p></td></tr>"
                f"<tr><td><p>Carry point</p></td><td><p>{inch(b.carry)}</p></td></tr></tbody></table><p><br></p><table><tbody><tr><td><p><b>Station</b></p></td><td><p><b>Hull girth{sep}full girth (in)</b></p></td></tr>{rows}</tbody></table><p>{b.first}</p></body></html>")
        emit("mail-onecell", i, "eml", sealed(mail(b.mailbox, "Tablet typed this", page=page, cte="quoted-printable")), "in", b.want())


def mail_initials():
    """An old surveyor: initials with full stops, explained, long dashes."""
    for i, b in pair_of("mail-initials", kind=["open", "open"][0]):
        lines = ["Gentlemen,", "", "H.G. stands for hull girth, F.G. for full girth. The dimensions are:", "", f"L.O.A. — {feet_dash(b.loa)}", f"Bow height — {plain(b.bow)} in.", f"Stern height — {plain(b.stern)} in.", f"Carry point — {plain(b.carry)} in.", ""]
        lines += [[f"Sta. {foot(at)} ft. — H.G. {plain(h)} in. — F.G. {plain(f)} in.", f"{foot(at)} ft. — H.G. {plain(h)} in., F.G. {plain(f)} in."][i] for at, h, f in b.rows]
        emit("mail-initials", i, "eml", sealed(mail(b.mailbox, "Dimensions of my boat", lines + ["", "I remain, gentlemen, yours truly,", b.owner], cte="quoted-printable")), "in", b.want())


def mail_pageattached():
    """A web page attached, the ends in the body."""
    for i, b in pair_of("mail-pageattached"):
        m = mail(b.mailbox, "Girths", ["Hi,", "", f"my spreadsheet would only save as a web page. Length overall {feet_words(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.", "", b.first])
        rows = "".join(f"<tr><td height=20 align=right x:num>{foot(at)}</td><td align=right x:num>{dec(h)}</td><td align=right x:num>{dec(f)}</td></tr>\n" for at, h, f in b.rows)
        data = f"<html xmlns:x=\"urn:schemas-microsoft-com:office:excel\"><head><meta charset=utf-8></head><body><table border=0><col width=64 span=3>\n<tr><td>Station (ft)</td><td>Hull girth (in)</td><td>Full girth (in)</td></tr>\n{rows}</table></body></html>"
        m.add_attachment(data.encode(), "text", "html", filename=["girths.htm", "Sheet1.html"][i])
        emit("mail-pageattached", i, "eml", sealed(m), "in", b.want())


def mail_windows():
    """Letters of an old Windows program, sent in eight bits: real halves and curly quotes."""
    for i, b in pair_of("mail-windows"):
        lines = ["Hello – here’s the lot, in feet and inches marks.", "", f"Length overall: {feet(b.loa, glyph).replace(chr(39), '’').replace(chr(34), '”')}", f"Bow height: {curly(b.bow)}", f"Stern height: {curly(b.stern)}", f"Carry point: {curly(b.carry)}", "", ["Foot – hull girth – full girth", "Foot   hull girth   full girth"][i]]
        lines += [[f"{foot(at)}’ – {curly(h)} – {curly(f)}", f"{foot(at)}’".ljust(7) + curly(h).ljust(13) + curly(f)][i] for at, h, f in b.rows]
        emit("mail-windows", i, "eml", sealed(mail(b.mailbox, "Boat", lines + ["", "Thanks – " + b.first], charset="windows-1252", cte="8bit")), "in", b.want())


def txt_again():
    """Tabs; the heading comes again half way, an empty line between rows."""
    for i, b in pair_of("txt-again"):
        head = "Station\tHull girth (in)\tFull girth (in)"
        lines = [f"Length overall\t{feet_words(b.loa)}", f"Bow height\t{inch(b.bow)}", f"Stern height\t{inch(b.stern)}", f"Carry point\t{inch(b.carry)}", ""]
        left, right = halves(b.rows)
        for part in (left, right):
            lines += [head, ""] if not i else ["", head]
            for at, h, f in part:
                lines += [f"{foot(at)} ft\t{plain(h)}\t{plain(f)}"] + ([""] if not i else [])
        emit("txt-again", i, "txt", text(lines, ["utf-8", "utf-16"][i], "\r\n"), "in", b.want())


def txt_programmer():
    """A programmer's indented keys."""
    for i, b in pair_of("txt-programmer"):
        lines = ["# boat survey, inches unless stated", "boat: " + b.craft, f"length_overall: {feet_words(b.loa)}", f"bow_height: {dec(b.bow)}", f"stern_height: {dec(b.stern)}", f"carry_point: {dec(b.carry)}", "stations:"]
        for at, h, f in b.rows:
            lines += [f"  - station: {foot(at)} ft", f"    hull_girth: {dec(h)}", f"    full_girth: {dec(f)}"] if i == 0 else [f"  {foot(at)} ft:", f"    hull girth: {dec(h)}", f"    full girth: {dec(f)}"]
        emit("txt-programmer", i, "txt", text(lines), "in", b.want())


def txt_numbered():
    """A running number, the distance in inches, then the pair."""
    for i, b in pair_of("txt-numbered"):
        lines = ["SURVEY, all dimensions in inches", "", f"Length overall {dec(b.loa)}", f"Bow height {dec(b.bow)}", f"Stern height {dec(b.stern)}", f"Carry point {dec(b.carry)}", "", "No.   Distance from bow   Hull girth   Full girth"]
        lines += [f"{k + 1:<6}{at:<20}{dec(h):<13}{dec(f)}" for k, (at, h, f) in enumerate(b.rows)]
        emit("txt-numbered", i, "txt", text(lines, newline=["\n", "\r\n"][i]), "in", b.want())


# ---- PDF

def pdf_cardindex():
    """A heading and two lines for each station, in two columns of the page."""
    for i, b in pair_of("pdf-cardindex"):
        d = docx.Document()
        d.add_paragraph(f"Length overall {feet_words(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.")
        s = d.add_section(WD_SECTION.CONTINUOUS)
        cols = OxmlElement("w:cols")
        cols.set(qn("w:num"), "2")
        for old in s._sectPr.findall(qn("w:cols")):
            s._sectPr.remove(old)
        s._sectPr.append(cols)
        for at, h, f in b.rows:
            for k, x in enumerate([f"Station {foot(at)} ft", f"Hull girth: {inch(h)}", f"Full girth: {inch(f)}"]):
                p = d.add_paragraph()
                r = p.add_run(x)
                r.bold = k == 0
                p.paragraph_format.space_after = Pt(0 if k < 2 else 4)
        emit("pdf-cardindex", i, "pdf", convert(saved(d), "docx", "pdf"), "in", b.want())


def pdf_sidebar():
    """The table at the left, the boat in a box at the right."""
    for i, b in pair_of("pdf-sidebar"):
        s = Sheet([letter, A4][i])
        s.say(60, 60, "Canoe cover: what I measured")
        for x, w in ((60, "Feet"), (120, "Hull girth"), (200, "Full girth")):
            s.say(x, 96, w)
        for k, (at, h, f) in enumerate(b.rows):
            y = 116 + 19 * k
            s.say(75, y, foot(at), True), s.say(160, y, [plain, tenth][i](h), True), s.say(240, y, [plain, tenth][i](f), True)
        s.canvas.rect(330, s.height - 220, 210, 130)
        for k, (n, x) in enumerate([("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry)), ("Girths", "in inches")]):
            s.say(342, 112 + 22 * k, n + ":"), s.say(440, 112 + 22 * k, x)
        emit("pdf-sidebar", i, "pdf", s.done(), "in", b.want())


def pdf_twobands():
    """A web page on its side: stations along the top, in two bands."""
    for i, b in pair_of("pdf-twobands"):
        w = [plain, dec][i]
        band = lambda rows: "<table><tr><th>Station" + "".join(f"<th>{foot(at)} ft" for at, _, _ in rows) + "</tr><tr><th>Hull girth (in)" + "".join(f"<td>{w(h)}" for _, h, _ in rows) + "</tr><tr><th>Full girth (in)" + "".join(f"<td>{w(f)}" for _, _, f in rows) + "</tr></table><br>"
        page = ("<!doctype html><meta charset=utf-8><style>@page{size:A4 landscape}body{font:13px sans-serif}td,th{border:1px solid #555;padding:5px 8px}table{border-collapse:collapse}</style>"
                f"<p>Length overall {esc(feet_words(b.loa))} &nbsp; Bow height {inch(b.bow)} &nbsp; Stern height {inch(b.stern)} &nbsp; Carry point {inch(b.carry)}</p>" + "".join(band(r) for r in halves(b.rows)))
        emit("pdf-twobands", i, "pdf", printed(page), "in", b.want())


def form_autonamed():
    """Fields that a program named after the heading and the row."""
    for i, b in pair_of("form-autonamed", feet=(11, 15)):
        s = Sheet()
        s.say(60, 50, ["MEASUREMENT SHEET", "Measurement sheet for covers"][i])
        for k, (label, x) in enumerate([("Owner", b.owner), ("Length overall ft in", feet_words(b.loa)), ("Bow height in", plain(b.bow)), ("Stern height in", plain(b.stern)), ("Carry point in", plain(b.carry))]):
            s.say(60, 80 + 22 * k, label), s.field(label, 180, 80 + 22 * k, x, 120)
        for x, w in ((60, "STATION ft"), (150, "HULL GIRTH in"), (270, "FULL GIRTH in")):
            s.say(x, 205, w)
        for k in range(18):
            y = 230 + 24 * k
            row = (foot(b.rows[k][0]), plain(b.rows[k][1]), plain(b.rows[k][2])) if k < len(b.rows) else ("", "", "")
            s.line(55, y + 8, 360, y + 8)
            for x, w, v in ((60, "STATION ft", row[0]), (150, "HULL GIRTH in", row[1]), (270, "FULL GIRTH in", row[2])):
                s.field(f"{w}Row{k + 1}", x, y, v)
        emit("form-autonamed", i, "pdf", s.done(), "in", b.want())


def form_fills():
    """Two blocks of stations side by side, fields called fill_1, fill_2."""
    for i, b in pair_of("form-fills", unit=["in", "in"][0]):
        s, n = Sheet(A4), iter(range(1, 200))
        s.say(50, 50, "Survey for a boat cover. Inches, nearest half.")
        put = lambda x, y, v, w=60: s.field(f"fill_{next(n)}", x, y, v, w)
        for k, (label, x) in enumerate([("Length overall", feet(b.loa)), ("Bow height", dec(b.bow)), ("Stern height", dec(b.stern)), ("Carry point", dec(b.carry))]):
            s.say(50, 84 + 22 * k, label), put(150, 84 + 22 * k, x, 80)
        for block, rows in enumerate(halves(b.rows)):
            x = 50 + 260 * block
            s.say(x, 190, "Station"), s.say(x + 70, 190, "Hull girth"), s.say(x + 150, 190, "Full girth")
            for k, (at, h, f) in enumerate(rows):
                s.say(x, 214 + 24 * k, f"{foot(at)} ft"), put(x + 70, 214 + 24 * k, dec(h)), put(x + 150, 214 + 24 * k, dec(f))
        emit("form-fills", i, "pdf", s.done(), "in", b.want())


def pdf_headings():
    """A spreadsheet printed with the letters of its columns and the numbers of its rows."""
    for i, b in pair_of("pdf-headings"):
        wb = openpyxl.Workbook()
        ws = wb.active
        for r in [["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)], [], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[foot(at), h, f] for at, h, f in b.rows]:
            ws.append(r)
        for c in "ABC":
            ws.column_dimensions[c].width = 17
        ws.print_options.headings = True
        ws.print_options.gridLines = True
        for r in ws.iter_rows(min_row=7, min_col=2):
            for c in r:
                c.number_format = ["0.0", "# ?/2"][i]
        emit("pdf-headings", i, "pdf", convert(saved(wb), "xlsx", "pdf"), "in", b.want())


def pdf_ticked():
    """A list of things to do, ticked off, with what was found."""
    for i, b in pair_of("pdf-ticked"):
        items = "".join(f"<li>☑ {foot(at)} ft: hull girth {glyph(h)}&quot;, full girth {glyph(f)}&quot;</li>" for at, h, f in b.rows)
        ends = "".join(f"<li>☑ {n}: {esc(x, False)}</li>" for n, x in [("Length overall", feet(b.loa, glyph)), ("Bow height", glyph(b.bow) + '"'), ("Stern height", glyph(b.stern) + '"'), ("Carry point", glyph(b.carry) + '"')])
        page = f"<!doctype html><meta charset=utf-8><style>body{{font:14px sans-serif}}ul{{list-style:none;padding:0}}li{{padding:3px 0;border-bottom:1px dotted #ccc}}</style><h3>Boat cover to-do</h3><ul>{ends if i == 0 else items}{items if i == 0 else ends}<li>☐ post the tracings</li></ul>"
        emit("pdf-ticked", i, "pdf", printed(page), "in", b.want())


def pdf_tableau():
    """A French skiff with its transom, centimetres."""
    for i, b in pair_of("pdf-tableau", unit="cm", kind="square", feet=(10, 14), french=True):
        st = [("GRID", (0, 0), (-1, -1), .5, colors.black), ("BACKGROUND", (0, 0), (-1, 0), colors.whitesmoke)]
        story = [Paragraph("Barque à fond plat, arrière carré", S["Heading3"]), Table([["Longueur hors tout", metres(b.loa)], ["Hauteur de l'étrave", cm(b.bow)], ["Hauteur de la poupe", cm(b.stern)], ["Point de portage", cm(b.carry)]], style=st), Spacer(1, 12)]
        last = [["Tableau arrière", b.transom[0], b.transom[1]]]
        story += [Table([["Distance (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [[at, h, f] for at, h, f in b.rows] + last, style=st)]
        emit("pdf-tableau", i, "pdf", laid_out(story, A4), "cm", b.want())


def pdf_centred():
    """Centred lines, as on a menu."""
    c = ParagraphStyle("c", parent=N, fontName="Times-Roman", fontSize=12, leading=17, alignment=TA_CENTER)
    for i, b in pair_of("pdf-centred"):
        story = [Paragraph(x, c) for x in [f"<b>{b.craft.capitalize()}</b>", f"Length overall {feet_words(b.loa)}", f"Bow height {inch(b.bow)}", f"Stern height {inch(b.stern)}", f"Carry point {inch(b.carry)}", "<b>Station &nbsp;&ndash;&nbsp; Hull girth &nbsp;&ndash;&nbsp; Full girth</b>"]]
        story += [Paragraph([f"{foot(at)} ft &nbsp;&ndash;&nbsp; {inch(h)} &nbsp;&ndash;&nbsp; {inch(f)}", f"{foot(at)} ft &nbsp;&ndash;&nbsp; {quote(h)} &nbsp;&ndash;&nbsp; {quote(f)}"][i], c) for at, h, f in b.rows]
        emit("pdf-centred", i, "pdf", laid_out(story), "in", b.want())


def pdf_lettrefr():
    """A French letter printed from the web, sentences."""
    for i, b in pair_of("pdf-lettrefr", unit="cm", french=True, feet=(11, 14)):
        told = " ; ".join(f"à {at} cm, tour de coque {cm(h)} et tour complet {cm(f)}" for at, h, f in b.rows)
        page = ("<!doctype html><html lang=fr><meta charset=utf-8><style>body{font:15px serif;text-align:justify;width:16cm}</style>"
                f"<p>{b.owner}<br>8, quai des Saules</p><p>Bonjour,</p><p>Mon canoë a une longueur hors tout de {metres(b.loa)}. La hauteur de l’étrave est de {cm(b.bow)}, celle de la poupe de {cm(b.stern)}. Le point de portage est à {cm(b.carry)} de l’étrave.</p>"
                + (f"<p>J’ai mesuré tous les 30 cm : {told}.</p>" if i == 0 else "<p>J’ai mesuré tous les 30 cm :</p>" + "".join(f"<div>– à {at} cm, tour de coque {cm(h)} et tour complet {cm(f)}</div>" for at, h, f in b.rows))
                + "<p>Avec mes salutations distinguées</p></html>")
        emit("pdf-lettrefr", i, "pdf", printed(page), "cm", b.want())


LAYOUTS = [v for k, v in list(globals().items()) if k.split("_")[0] in ("mail", "txt", "html", "pdf", "form") and "_" in k and callable(v)]


def main():
    import sys
    for f in LAYOUTS:
        if len(sys.argv) < 2 or f.__name__ in sys.argv[1:]:
            f()
    shutil.rmtree(os.path.join(HERE, "__pycache__"), ignore_errors=True)
    print(len(files.made), "files")


main()
