"""Batch one: a boatbuilder, a French club, pasted sheets, forms of one's own, printed pages."""
import html, os, shutil
import docx, openpyxl
from docx.shared import Cm
from docx.enum.text import WD_TAB_ALIGNMENT
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape, letter
from reportlab.lib.styles import getSampleStyleSheet, ParagraphStyle
from reportlab.platypus import Paragraph, Spacer, Table, TableStyle, PageBreak
import files
from boats import *
from files import *
S = getSampleStyleSheet()
esc = html.escape


def mail_builder():
    """A boatbuilder: short words, feet and inches with a dash, fractions with a dash, square sterns."""
    for i, b in pair_of("mail-builder", kind="square", feet=(10, 15)):
        lines = [["Morning.", "Numbers for the skiff as promised, took them off the trestles last night."][i], "",
                 f"LOA {feet_dash(b.loa)}", f"Ht. of bow {dash(b.bow)}\"", f"Ht. of stern {dash(b.stern)}\"", f"Carry pt. {dash(b.carry)}\" aft of stem", "",
                 "Sta.   Hull girth   Full girth"]
        lines += [f"{foot(at):<7}{dash(h):<13}{dash(f)}" for at, h, f in b.rows] + [f"{'Trnsm' if i else 'Transom':<7}{'' if not i else '  '}{dash(b.transom[0]):<13}{dash(b.transom[1])}".replace("Transom", "Transom ")]
        lines += ["", "Sta. is feet from the stem, girths in inches.", "", b.owner, "Boats built and mended, 12 Quay St., " + b.phone]
        emit("mail-builder", i, "eml", sealed(mail(b.mailbox, "skiff", lines)), "in", b.want())


def mail_threealine():
    """Three stations a line, foot: hull/full, told in a sentence before."""
    for i, b in pair_of("mail-threealine"):
        write = [dec, glyph][i]
        lines = [f"Hi, so the canoe is {feet(b.loa)} overall. Bow height is {quote(b.bow)}, stern height {quote(b.stern)}, and I pick it up {quote(b.carry)} back from the bow, that is the carry point.", "",
                 "For every foot I give hull girth / full girth in inches:", ""]
        cells = [f"{foot(at)}: {write(h)}/{write(f)}" for at, h, f in b.rows]
        lines += ["   ".join(f"{c:<14}" for c in cells[k:k + 3]).rstrip() if i else ", ".join(cells[k:k + 3]) for k in range(0, len(cells), 3)]
        emit("mail-threealine", i, "eml", sealed(mail(b.mailbox, "All done", lines + ["", "Cheers", b.first])), "in", b.want())


def mail_at():
    """at 3 ft hull 44 1/2, full 66; the ends come in a postscript."""
    for i, b in pair_of("mail-at"):
        end = [";", ""][i]
        lines = ["Hello there,", "", "we did the girths tonight, my daughter read the tape and I wrote.", ""]
        lines += [f"{['at', 'At'][i]} {foot(at)} {['ft', 'feet'][i] if foot(at) != 1 else ['ft', 'foot'][i]} hull {plain(h)}, full {plain(f)}{end}" for at, h, f in b.rows]
        lines += ["", "Best wishes,", b.owner, "", f"PS: nearly forgot the rest: length overall {feet_words(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}. Everything is in inches."]
        emit("mail-at", i, "eml", sealed(mail(b.mailbox, "canoe girths", lines, cte=["7bit", "quoted-printable"][i])), "in", b.want())


def mail_msoffice():
    """A table out of a spreadsheet in a mail of an office program; the plain part has a cell a line."""
    for i, b in pair_of("mail-msoffice"):
        p = '<p class=MsoNormal><span style=\'font-size:11.0pt;font-family:"Calibri",sans-serif\'>%s<o:p></o:p></span></p>'
        told = [f"Length overall is {feet_words(b.loa)}.", f"Bow height {quote(b.bow)}, stern height {quote(b.stern)}.", f"Carry point {quote(b.carry)} from the bow."]
        head = ["Station (ft)", "Hull girth (in)", "Full girth (in)"]
        rows = [head] + [[str(foot(at)), dec(h), dec(f)] for at, h, f in b.rows]
        td = "<td width=%d nowrap valign=bottom style='width:78.0pt;border:solid windowtext 1.0pt;%spadding:0in 5.4pt 0in 5.4pt;height:14.4pt'>" + p.replace("<p class=MsoNormal>", "<p class=MsoNormal align=right style='text-align:right'>") + "</td>"
        table = "".join(f"<tr style='mso-yfti-irow:{k};height:14.4pt'>" + "".join(td % (104, "border-top:none;" if k else "", x) for x in row) + "</tr>" for k, row in enumerate(rows))
        page = ("<html xmlns:o=\"urn:schemas-microsoft-com:office:office\"><head><style><!-- p.MsoNormal {margin:0in;} @page WordSection1 {size:8.5in 11.0in; margin:1.0in 1.0in 1.0in 1.0in;} --></style></head><body lang=EN-CA><div class=WordSection1>"
                + p % "Good afternoon," + p % "&nbsp;" + "".join(p % esc(x, False) for x in told) + p % "&nbsp;"
                + f"<table class=MsoNormalTable border=0 cellspacing=0 cellpadding=0 width=312 style='width:234.0pt;border-collapse:collapse'>{table}</table>" + p % "&nbsp;" + p % "Kind regards," + p % b.owner + "</div></body></html>")
        body = ["Good afternoon,", "", *told, ""] + [x for row in rows for c in row for x in (c, "")] + ["Kind regards,", b.owner]
        emit("mail-msoffice", i, "eml", sealed(mail(b.mailbox, "FW: boat cover" if i else "boat cover", body if not i else None, page, **({"cte": "quoted-printable"} if i else {}))), "in", b.want())


def mail_club():
    """A French canoe club: the length in the greeting, tabs between the numbers, an older character set."""
    for i, b in pair_of("mail-club", unit="cm", french=True):
        lines = ["Bonjour à toute l'équipe,", "", f"notre canoë de club mesure {metres(b.loa)} hors tout. Hauteur de la proue : {cm(b.bow)}, hauteur de la poupe : {cm(b.stern)}. Le point de portage se trouve à {cm(b.carry)} de la proue.", "",
                 ["Distance (cm)\tCoque (cm)\tTour complet (cm)", "cm depuis la proue\ttour de coque\ttour complet"][i]]
        lines += [f"{at}\t{comma(h)}\t{comma(f)}" for at, h, f in b.rows] + ["", "Sportivement,", b.owner, "Club nautique, 3 rue du Port"]
        emit("mail-club", i, "eml", sealed(mail(b.mailbox, "Housse pour le canoë du club", lines, charset="iso-8859-1", cte="quoted-printable")), "cm", b.want())


def mail_fromstern():
    """Measured from the stern, and said so."""
    for i, b in pair_of("mail-fromstern", whole=True):
        rows = [(b.loa - at, h, f) for at, h, f in reversed(b.rows)]
        lines = [f"Hello, the bow is jammed in the rafters of the garage so I began at the other end: {['all the foot marks below are counted from the STERN, not from the bow.', 'please mind that my stations are measured from the stern.'][i]}", "",
                 f"Length overall: {feet_words(b.loa)}", f"Bow height: {inch(b.bow)}", f"Stern height: {inch(b.stern)}", f"Carry point: {inch(b.carry)} from the bow", "", ["ft from stern - hull girth - full girth (inches)", "Feet from the stern, hull girth, full girth, all inches"][i]]
        lines += [[f"{foot(at)} - {plain(h)} - {plain(f)}", f"{foot(at)}, {plain(h)}, {plain(f)}"][i] for at, h, f in rows]
        emit("mail-fromstern", i, "eml", sealed(mail(b.mailbox, "Measured backwards, sorry", lines + ["", b.owner])), "in", b.want())


def mail_fwdhtml():
    """Forwarded in HTML; the numbers are a list in the quoted block."""
    for i, b in pair_of("mail-fwdhtml"):
        items = "".join(f"<li>{foot(at)} ft &ndash; hull girth {glyph(h)}&quot;, full girth {glyph(f)}&quot;</li>" for at, h, f in b.rows)
        inner = f"<div>Dad, here they are. Length overall {esc(feet(b.loa))}, bow height {esc(quote(b.bow))}, stern height {esc(quote(b.stern))}, carry point {esc(quote(b.carry))}.</div><ul>{items}</ul><div>xx Posy</div>"
        head = "<div><b>From:</b> Posy Marl &lt;posy@marl.example&gt;<br><b>Date:</b> 8 June 2026 at 21:07:14 GMT-3<br><b>To:</b> Dad<br><b>Subject:</b> <b>boat</b></div><br>"
        page = ["<html><body>Please see what my daughter sent me. I hope that is all you need.<br><br>" + b.owner + "<br><br><div>Begin forwarded message:</div><br><blockquote type=\"cite\">" + head + inner + "</blockquote></body></html>",
                f"<html><body dir=\"auto\">Her numbers, as promised!<div><br></div><div>{b.owner}</div><div><br><div class=\"quote\"><div dir=\"ltr\">---------- Forwarded message ---------<br>From: <b>Posy Marl</b> &lt;posy@marl.example&gt;<br>Date: Mon, Jun 8, 2026, 9:07 p.m.<br>Subject: boat<br>To: &lt;dad@marl.example&gt;<br></div><br><br>{inner}</div></div></body></html>"][i]
        emit("mail-fwdhtml", i, "eml", sealed(mail(b.mailbox, "Fwd: boat", page=page)), "in", b.want())


def mail_retyped():
    """The form retyped in an order of one's own: full girth first, the boat last."""
    for i, b in pair_of("mail-retyped"):
        lines = ["I have no printer, so I typed your form out.", ""]
        lines += [[f"Station {foot(at)} ft - Full girth: {inch(f)} / Hull girth: {inch(h)}", f"STATION {foot(at)} ......... FULL GIRTH {plain(f)} ... HULL GIRTH {plain(h)}"][i] for at, h, f in b.rows]
        lines += ["", f"{['Carry point', 'CARRY POINT'][i]}: {inch(b.carry)}", f"{['Stern height', 'STERN HEIGHT'][i]}: {inch(b.stern)}", f"{['Bow height', 'BOW HEIGHT'][i]}: {inch(b.bow)}", f"{['Length overall', 'LENGTH OVERALL'][i]}: {feet_words(b.loa)}",
                  "", "Name: " + b.owner, "Make and model: none, " + b.craft, "Telephone: " + b.phone, "Stays under the cover: 2 cushions"]
        emit("mail-retyped", i, "eml", sealed(mail(b.mailbox, "the form", lines)), "in", b.want())


def mail_runs():
    """First all hull girths, then all full girths, each a paragraph of foot and number; base64."""
    for i, b in pair_of("mail-runs"):
        write = [plain, glyph][i]
        join = [lambda at, x: f"{foot(at)} ft {write(x)}", lambda at, x: f"{foot(at)}' = {write(x)}\""][i]
        lines = ["Good evening!", "", f"The boat is {feet_words(b.loa)} long overall; bow height {inch(b.bow)}; stern height {inch(b.stern)}; carry point {inch(b.carry)}.", "",
                 "Hull girths (inches): " + ", ".join(join(at, h) for at, h, _ in b.rows) + ".", "", "Full girths (inches): " + ", ".join(join(at, f) for at, _, f in b.rows) + ".", "", b.owner]
        emit("mail-runs", i, "eml", sealed(mail(b.mailbox, "Measurements – canoe", lines, cte="base64")), "in", b.want())


PIXEL = bytes.fromhex("89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000d49444154789c6360f8cfc0000003010100c9fe92ef0000000049454e44ae426082")


def mail_manyparts():
    """Several attachments: a picture of the boat, a receipt, and the girths; the ends in the body."""
    for i, b in pair_of("mail-manyparts"):
        m = mail(b.mailbox, "Cover order", ["Hi,", "", "attached: my list of girths, the receipt for the deposit, and a little picture so that you see what she looks like.", "",
                 f"She is {feet_words(b.loa)} overall. Bow height: {inch(b.bow)}. Stern height: {inch(b.stern)}. Carry point: {inch(b.carry)} from the bow.", "", b.owner])
        m.add_attachment(PIXEL, "image", "png", filename="logo.png", disposition="inline")
        receipt = Sheet()
        for k, x in enumerate(["RECEIPT", "Pinfold Cover Loft, 4 Mill Lane", "Received with thanks: deposit for one cover", "Amount 150.00", "Paid by card"]):
            receipt.say(72, 90 + 18 * k, x)
        m.add_attachment(receipt.done(), "application", "pdf", filename="receipt.pdf")
        if i:
            data = text(["Hull girth and full girth in inches, every foot from the bow", ""] + [f"{foot(at)} ft   {plain(h)}   {plain(f)}" for at, h, f in b.rows], newline="\r\n")
            m.add_attachment(data, "text", "plain", filename="girths.txt", cte="base64")
        else:
            story = [Paragraph("Girths of the canoe (inches)", S["Heading2"]), Table([["From bow", "Hull girth", "Full girth"]] + [[f"{foot(at)} ft", plain(h), plain(f)] for at, h, f in b.rows], style=[("LINEBELOW", (0, 0), (-1, 0), 1, colors.black)])]
            m.add_attachment(laid_out(story), "application", "pdf", filename="girths.pdf")
        emit("mail-manyparts", i, "eml", sealed(m), "in", b.want())


def txt_opening():
    """Under, over and all round: the three girths of a control-minded person."""
    for i, b in pair_of("txt-opening"):
        lines = [["Cover survey, canoe, 6 June 2026", "Survey by " + b.owner][i], "", f"Length overall      {feet_words(b.loa)}", f"Bow height          {inch(b.bow)}", f"Stern height        {inch(b.stern)}", f"Carry point         {inch(b.carry)}", "",
                 "Feet     Hull girth   Opening   Full girth", "         (in)         (in)      (in)"]
        lines += [f"{foot(at):<9}{dec(h):<13}{dec(f - h):<10}{dec(f)}" for at, h, f in b.rows]
        emit("txt-opening", i, "txt", text(lines, newline=["\n", "\r\n"][i]), "in", b.want())


def txt_metres():
    """Metres with decimal commas throughout."""
    for i, b in pair_of("txt-metres", unit="cm", french=True):
        m = metres
        lines = ["Relevé du " + ["canot", "canoë"][i] + " de " + b.owner, "", f"Longueur hors tout ....... {m(b.loa)}", f"Hauteur à l'étrave ....... {m(b.bow)}", f"Hauteur à la poupe ....... {m(b.stern)}", f"Point de portage ......... {m(b.carry)}", "",
                 "Distance de l'étrave : tour de coque, tour complet" if i else "Station      Tour de coque    Tour complet"]
        lines += [[f"{m(at):<13}{m(h):<17}{m(f)}", f"à {m(at)} : {m(h)} ; {m(f)}"][i] for at, h, f in b.rows]
        emit("txt-metres", i, "txt", text(lines, ["utf-8", "cp1252"][i]), "cm", b.want())


def html_saved():
    """A word processor's document saved as a web page."""
    for i, b in pair_of("html-saved"):
        d = docx.Document()
        d.add_heading("My boat", 1)
        d.add_paragraph(f"The length overall is {feet_words(b.loa)}.")
        d.add_paragraph(f"Bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.")
        t = d.add_table(rows=0, cols=3)
        t.style = "Table Grid"
        for row in [["Station", "Hull girth in inches", "Full girth in inches"]] + [[f"{foot(at)} ft", [plain, glyph][i](h), [plain, glyph][i](f)] for at, h, f in b.rows]:
            for c, x in zip(t.add_row().cells, row):
                c.text = x
        emit("html-saved", i, "html", convert(saved(d), "docx", "html"), "in", b.want())


# ---- PDF

def pdf_letter():
    """A typed letter: the boat in sentences, then columns without rules."""
    body = ParagraphStyle("b", parent=S["Normal"], fontName="Times-Roman", fontSize=12, leading=16)
    for i, b in pair_of("pdf-letter"):
        story = [Paragraph(x, body) for x in [b.owner, "41 Orchard Row", "9 June 2026", "&nbsp;", "Dear Pinfold Cover Loft,", "&nbsp;",
                 f"Thank you for your kind letter. My {b.craft} is {feet_long(b.loa)} in length overall. From the straight edge along the bottom to the top of the bow I measure a bow height of {inches(b.bow)}, and a stern height of {inches(b.stern)}. The carry point lies {inches(b.carry)} aft of the foremost point.",
                 "&nbsp;", "The girths in inches are as follows:", "&nbsp;"]]
        rows = [["Foot", "Hull girth", "Full girth"]] + [[f"{foot(at)}", [plain, dec][i](h), [plain, dec][i](f)] for at, h, f in b.rows]
        story += [Table(rows, colWidths=[60, 100, 100], style=[("FONTNAME", (0, 0), (-1, -1), "Times-Roman"), ("FONTSIZE", (0, 0), (-1, -1), 12), ("ALIGN", (1, 0), (-1, -1), "RIGHT"), ("BOTTOMPADDING", (0, 0), (-1, -1), 1)]),
                  Paragraph("&nbsp;", body), Paragraph("Yours faithfully,", body), Paragraph(b.owner, body)]
        emit("pdf-letter", i, "pdf", laid_out(story), "in", b.want())


def pdf_feettabs():
    """Word processor, tab stops, girths in feet and inches."""
    for i, b in pair_of("pdf-feettabs", feet=(11, 15)):
        d = docx.Document()

        def line(*words):
            p = d.add_paragraph("\t".join(words))
            p.paragraph_format.space_after = Cm(.05)
            for x in (5, 9):
                p.paragraph_format.tab_stops.add_tab_stop(Cm(x), [WD_TAB_ALIGNMENT.LEFT, WD_TAB_ALIGNMENT.DECIMAL][0])
        for name, x in [("Length overall", b.loa), ("Height of bow", b.bow), ("Height of stern", b.stern), ("Carry point", b.carry)]:
            line(name, feet(x))
        line("")
        line("From the bow", "Hull girth", "Full girth")
        for at, h, f in b.rows:
            line([f"{foot(at)} ft", f"{foot(at)}'"][i], feet(h), feet(f))
        emit("pdf-feettabs", i, "pdf", convert(saved(d), "docx", "pdf"), "in", b.want())


def pdf_calctwo():
    """A spreadsheet printed sideways: two blocks side by side with lines, the boat on top."""
    line = openpyxl.styles.Side(style="thin")
    for i, b in pair_of("pdf-calctwo"):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.page_setup.orientation = "landscape"
        ws.append(["Boat", b.craft]), ws.append(["LOA", feet_words(b.loa), None, None, "Bow height", inch(b.bow)]), ws.append(["Carry point", inch(b.carry), None, None, "Stern height", inch(b.stern)]), ws.append([])
        head = ["Station ft", "Hull girth in", "Full girth in"]
        ws.append(head + [None] + head)
        left, right = halves(b.rows)
        for k, r in enumerate(left):
            ws.append([foot(r[0]), r[1], r[2], None] + ([foot(right[k][0]), right[k][1], right[k][2]] if k < len(right) else []))
        for row in ws.iter_rows(min_row=5):
            for c in row:
                if c.column != 4:
                    c.border = openpyxl.styles.Border(left=line, right=line, top=line, bottom=line)
                if c.column not in (1, 4, 5):
                    c.number_format = ["0.0", "# ?/?"][i]
        for c in "ABCEFG":
            ws.column_dimensions[c].width = 16
        emit("pdf-calctwo", i, "pdf", convert(saved(wb), "xlsx", "pdf"), "in", b.want())


def pdf_turned():
    """A page that is stored upright and shown turned by a quarter."""
    for i, b in pair_of("pdf-turned"):
        s = Sheet(letter)
        c = s.canvas
        c.setPageRotation(90)
        c.rotate(90)
        c.translate(0, -612)   # now 792 wide, 612 high

        def say(x, y, w):
            c.drawString(x, 612 - y, str(w))
        for k, (n, x) in enumerate([("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry))]):
            say(60, 60 + 20 * k, n), say(170, 60 + 20 * k, x)
        for x, w in ((330, "Station"), (430, "Hull girth"), (530, "Full girth")):
            say(x, 60, w)
        for k, (at, h, f) in enumerate(b.rows):
            say(330, 84 + 20 * k, f"{foot(at)} ft"), say(430, 84 + 20 * k, quote(h)), say(530, 84 + 20 * k, quote(f))
        emit("pdf-turned", i, "pdf", s.done(), "in", b.want())


def pdf_cards():
    """A web page printed: a card for every station."""
    for i, b in pair_of("pdf-cards"):
        write = [glyph, plain][i]
        cards = "".join(f"<div class=c><h4>{foot(at)} ft</h4><div>Hull girth <b>{write(h)}&quot;</b></div><div>Full girth <b>{write(f)}&quot;</b></div></div>" for at, h, f in b.rows)
        page = ("<!doctype html><meta charset=utf-8><style>body{font:12px sans-serif}.g{display:grid;grid-template-columns:repeat(" + "43"[i] + ",1fr);gap:10px}.c{border:1px solid #888;border-radius:6px;padding:6px}h4{margin:0 0 4px}</style>"
                f"<h2>{esc(b.craft)}</h2><p>Length overall: {esc(feet(b.loa))}<br>Bow height: {quote(b.bow)}<br>Stern height: {quote(b.stern)}<br>Carry point: {quote(b.carry)}</p><div class=g>{cards}</div>")
        emit("pdf-cards", i, "pdf", printed(page), "in", b.want())


def form_letters():
    """A form of one's own: fields called U1, R1, with labels beside each."""
    for i, b in pair_of("form-letters"):
        s = Sheet()
        s.say(60, 50, "Canoe cover - my measurements (inches)")
        for k, (label, name, x) in enumerate([("Overall length", "L", feet(b.loa)), ("Height of bow", "B", dec(b.bow)), ("Height of stern", "S", dec(b.stern)), ("Carry point", "C", dec(b.carry))]):
            s.say(60, 80 + 22 * k, label), s.field(name, 160, 80 + 22 * k, x)
        for k, (at, h, f) in enumerate(b.rows):
            y = 186 + 24 * k
            s.say(60, y, f"At {foot(at)} ft:"), s.say(130, y, "hull girth"), s.field(f"U{foot(at)}", 190, y, dec(h)), s.say(270, y, "full girth"), s.field(f"R{foot(at)}", 330, y, dec(f))
        emit("form-letters", i, "pdf", s.done(), "in", b.want())


def form_columns():
    """A sideways form: stations across, a row for each girth, fields named by row and column."""
    for i, b in pair_of("form-columns", feet=(11, 14)):
        s = Sheet(landscape(letter), points=9)
        s.say(40, 50, "SURVEY SHEET   inches")
        for k, (label, x) in enumerate([("Length overall", feet_words(b.loa)), ("Bow height", plain(b.bow)), ("Stern height", plain(b.stern)), ("Carry point", plain(b.carry))]):
            s.say(40 + 180 * k, 90, label), s.field(f"top{k + 1}", 110 + 180 * k, 90, x, 80)
        for label, y in (("Station (ft)", 150), ("Hull girth", 180), ("Full girth", 210)):
            s.say(40, y, label)
        for k, (at, h, f) in enumerate(b.rows):
            x = 110 + 50 * k
            s.say(x + 10, 150, foot(at)), s.field(f"r1c{k + 1}", x, 180, plain(h), 44), s.field(f"r2c{k + 1}", x, 210, plain(f), 44)
        emit("form-columns", i, "pdf", s.done(), "in", b.want())


def pdf_twolists():
    """Two pages: the boat and the hull girths on the first, the full girths on the second."""
    for i, b in pair_of("pdf-twolists"):
        s = Sheet([letter, A4][i], "Courier", 12)
        lines = [f"Length overall    {feet_words(b.loa)}", f"Bow height        {inch(b.bow)}", f"Stern height      {inch(b.stern)}", f"Carry point       {inch(b.carry)}", "", "HULL GIRTH (inches)", ""] + [f"{foot(at):>2} ft    {plain(h)}" for at, h, _ in b.rows]
        for k, x in enumerate(lines):
            s.say(72, 80 + 17 * k, x)
        s.say(480, 750, "1 / 2"), s.turn()
        for k, x in enumerate(["FULL GIRTH (inches)", ""] + [f"{foot(at):>2} ft    {plain(f)}" for at, _, f in b.rows]):
            s.say(72, 80 + 17 * k, x)
        s.say(480, 750, "2 / 2")
        emit("pdf-twolists", i, "pdf", s.done(), "in", b.want())


def pdf_puces():
    """A French word processor's letter with a bullet for each station."""
    for i, b in pair_of("pdf-puces", unit="cm", french=True):
        d = docx.Document()
        for x in ["Madame, Monsieur,", f"Vous trouverez ci-dessous les mesures de mon canot. La longueur hors tout est de {metres(b.loa)}, la hauteur de l'étrave de {cm(b.bow)} et la hauteur de la poupe de {cm(b.stern)}. Le point de portage est à {cm(b.carry)} de l'étrave.", "Mesures tous les 30 cm à partir de l'étrave :"]:
            d.add_paragraph(x)
        for at, h, f in b.rows:
            p = d.add_paragraph([f"à {at} cm : tour de coque {cm(h)}, tour complet {cm(f)}", f"{at} cm – coque {cm(h)} – complet {cm(f)}"][i], style="List Bullet")
            p.paragraph_format.space_after = 0
        d.add_paragraph("Bien à vous,"), d.add_paragraph(b.owner)
        emit("pdf-puces", i, "pdf", convert(saved(d), "docx", "pdf"), "cm", b.want())


def pdf_threecols():
    """Three columns down the page, foot and pair in one string."""
    for i, b in pair_of("pdf-threecols"):
        s = Sheet(points=11)
        s.say(60, 60, f"Length overall {feet_words(b.loa)}     Bow height {inch(b.bow)}     Stern height {inch(b.stern)}     Carry point {inch(b.carry)}")
        s.say(60, 96, "foot: hull girth / full girth, inches")
        n = -(-len(b.rows) // 3)
        for k, (at, h, f) in enumerate(b.rows):
            s.say(60 + 170 * (k // n), 126 + 20 * (k % n), [f"{foot(at)} ft: {dec(h)} / {dec(f)}", f"{foot(at)}:  {plain(h)} / {plain(f)}"][i])
        emit("pdf-threecols", i, "pdf", s.done(), "in", b.want())


def pdf_drawing():
    """An engineer's sheet in millimetres, a heading of two rows, a title block at the foot."""
    for i, b in pair_of("pdf-drawing", unit="cm"):
        rows = [["STATION", "GIRTH", ""], ["mm", "HULL mm", "FULL mm"]] + [[mm(x) for x in r] for r in b.rows]
        story = [Table([["LENGTH OVERALL", mm(b.loa) + " mm"], ["BOW HEIGHT", mm(b.bow) + " mm"], ["STERN HEIGHT", mm(b.stern) + " mm"], ["CARRY POINT", mm(b.carry) + " mm"]], hAlign="LEFT", style=[("BOX", (0, 0), (-1, -1), .8, colors.black), ("INNERGRID", (0, 0), (-1, -1), .3, colors.black)]),
                 Spacer(1, 16), Table(rows, hAlign="LEFT", colWidths=[70, 80, 80], style=[("GRID", (0, 0), (-1, -1), .5, colors.black), ("SPAN", (1, 0), (2, 0)), ("ALIGN", (0, 0), (-1, -1), "CENTER"), ("TOPPADDING", (0, 0), (-1, -1), 1), ("BOTTOMPADDING", (0, 0), (-1, -1), 1)]),
                 Spacer(1, 16), Table([["TITLE", "GIRTHS OF BOAT FOR COVER"], ["DRAWN", b.owner], ["DATE", "2026-06-07"], ["SHEET", "1 OF 1"]], hAlign="RIGHT", style=[("GRID", (0, 0), (-1, -1), .8, colors.black), ("FONTSIZE", (0, 0), (-1, -1), 7)])]
        emit("pdf-drawing", i, "pdf", laid_out(story, A4), "cm", b.want())


LAYOUTS = [v for k, v in list(globals().items()) if k.split("_")[0] in ("mail", "txt", "html", "pdf", "form") and "_" in k and callable(v)]


def main():
    import sys
    for f in LAYOUTS:
        if len(sys.argv) < 2 or f.__name__ in sys.argv[1:]:
            f()
    shutil.rmtree(os.path.join(HERE, "__pycache__"), ignore_errors=True)
    print(len(files.made), "files")


main()
