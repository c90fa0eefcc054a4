"""Batch two: filled-in replies, dictation, scouts, French inches, printed forms, fractions set small."""
import html, os, shutil
import docx, openpyxl
from docx.shared import Cm, Pt
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape, letter
from reportlab.lib.styles import getSampleStyleSheet, ParagraphStyle
from reportlab.platypus import Paragraph, Spacer, Table, TableStyle, PageBreak
import files
from boats import *
from files import *
S = getSampleStyleSheet()
esc = html.escape
N = S["Normal"]


def mail_behind():
    """The shop's ready list, filled in inside the quotation."""
    for i, b in pair_of("mail-behind"):
        lines = [["Hello, I filled in your list below.", "I typed the numbers straight into your list. All in inches."][i], "", b.first, "", "On Fri, 5 Jun 2026 at 10:12, Pinfold Cover Loft <orders@pinfold.example> wrote:", "",
                 "> Dear customer,", "> please type your measurements (inches) into this list and send it back:", ">",
                 f"> Length overall: {feet_words(b.loa)}", f"> Bow height: {plain(b.bow)}", f"> Stern height: {plain(b.stern)}", f"> Carry point: {plain(b.carry)}", ">"]
        lines += [[f"> {foot(at)} ft   hull girth: {plain(h)}   full girth: {plain(f)}", f"> At {foot(at)} ft: hull girth {dec(h)}, full girth {dec(f)}"][i] for at, h, f in b.rows]
        lines += [">", "> With thanks,", "> Pinfold Cover Loft"]
        m = mail(b.mailbox, "Re: Your cover", lines)
        m["In-Reply-To"] = "<list@pinfold.example>"
        emit("mail-behind", i, "eml", sealed(m), "in", b.want())


def mail_coloured():
    """HTML reply: the shop's questions in the quotation, the answers in blue below each."""
    for i, b in pair_of("mail-coloured"):
        blue = ['<div><font color="#0000ff">%s</font></div>', '<p style="margin:0;color:rgb(0,0,200)">%s</p>'][i]
        asked = [("1. How long is the boat overall?", feet_words(b.loa)), ("2. How high is the bow?", inch(b.bow)), ("3. How high is the stern?", inch(b.stern)), ("4. How far from the bow is the carry point?", inch(b.carry))]
        qa = "".join(f"<div>{q}</div>" + blue % esc(a, False) + "<div><br></div>" for q, a in asked)
        girths = "".join(blue % f"{foot(at)} ft: hull {plain(h)}, full {plain(f)}" for at, h, f in b.rows)
        page = (f'<html><body><div>Hi! My answers are in blue below.</div><div><br></div><div>{b.first}</div><div><br></div><div>On 5 Jun 2026, at 10:12, Pinfold Cover Loft wrote:</div><blockquote type="cite"><div>Dear customer, we need five things:</div><div><br></div>'
                f'{qa}<div>5. Hull girth and full girth at every foot from the bow, in inches?</div>{girths}<div><br></div><div>Thank you! Pinfold Cover Loft</div></blockquote></body></html>')
        emit("mail-coloured", i, "eml", sealed(mail(b.mailbox, "Re: five questions", page=page, cte=["quoted-printable", "base64"][i])), "in", b.want())


def mail_topposted():
    """Numbers on top; below, without any marks, the shop's letter with its example."""
    for i, b in pair_of("mail-topposted"):
        lines = ["Hello,", "", f"Length overall {feet(b.loa)}, bow height {quote(b.bow)}, stern height {quote(b.stern)}, carry point {quote(b.carry)}.", "", ["Ft / hull girth in / full girth in", "Ft.  Hull girth, in.  Full girth, in."][i]]
        lines += [[f"{foot(at)} / {dec(h)} / {dec(f)}", f"{foot(at):<5}{plain(h):<18}{plain(f)}"][i] for at, h, f in b.rows]
        lines += ["", "Regards", b.owner, "", ["________________________________", "-----Original Message-----"][i], "From: Pinfold Cover Loft <orders@pinfold.example>", "Sent: Friday, June 5, 2026 10:12 AM", f"To: {b.owner}", "Subject: How we need your numbers", "", "Dear customer,", "",
                  "please write like this, in inches:", "", "Length overall 15 ft 9 in, bow height 22, stern height 20, carry point 19", "1 ft / 35.5 / 42", "2 ft / 38 / 52", "3 ft / 40 / 58.5", "", "It takes about 20 minutes. Thank you!", "Pinfold Cover Loft"]
        emit("mail-topposted", i, "eml", sealed(mail(b.mailbox, "RE: How we need your numbers", lines)), "in", b.want())


def mail_dictated():
    """Dictated to a telephone: figures and a half, few stops."""
    for i, b in pair_of("mail-dictated", feet=(11, 14)):
        f_, h_ = divmod(b.loa, 12)
        lines = [f"Hi I am dictating this so excuse mistakes. Length overall is {int(f_)} feet {and_a_half(h_) if h_ else ''}{' inches' if h_ else ''}. Bow height is {and_a_half(b.bow)} inches. Stern height is {and_a_half(b.stern)} inches. The carry point is {and_a_half(b.carry)} inches from the bow.", ""]
        lines += [[f"At {foot(at)} {'foot' if at == 12 else 'feet'} hull girth {and_a_half(h)} full girth {and_a_half(f)}.", f"{foot(at)} {'foot' if at == 12 else 'feet'} hull girth {and_a_half(h)} inches full girth {and_a_half(f)} inches"][i] for at, h, f in b.rows]
        emit("mail-dictated", i, "eml", sealed(mail(b.mailbox, "boat", lines + ["", "That's everything thank you"])), "in", b.want())


def mail_scouts():
    """Bullets with bullets under them."""
    for i, b in pair_of("mail-scouts"):
        lines = ["Hello from 2nd Millbrook Scouts,", "", "the patrol measured the troop canoe on Saturday. Results:", "", "* The boat", f"  - length overall: {feet_words(b.loa)}", f"  - bow height: {inch(b.bow)}", f"  - stern height: {inch(b.stern)}", f"  - carry point: {inch(b.carry)}"]
        for at, h, f in b.rows:
            lines += [f"* {['Station ', ''][i]}{foot(at)} ft{'' if i == 0 else ' from the bow'}", f"  - hull girth: {inch(h)}", f"  - full girth: {inch(f)}"]
        emit("mail-scouts", i, "eml", sealed(mail(b.mailbox, "Troop canoe", lines + ["", "Yours in scouting,", b.owner], **({"cte": "quoted-printable"} if i else {}))), "in", b.want())


def mail_pouces():
    """French, in feet and inches, an HTML table."""
    for i, b in pair_of("mail-pouces", french=True):
        rows = "".join(f"<tr><td>{foot(at)} pi</td><td align=\"right\">{[plain, glyph][i](h)}</td><td align=\"right\">{[plain, glyph][i](f)}</td></tr>" for at, h, f in b.rows)
        page = (f'<html><body style="font-family:Verdana"><p>Bonjour,</p><p>Voici les mesures du canot&nbsp;:</p><p>Longueur hors tout&nbsp;: {pieds(b.loa)}<br>Hauteur de la proue&nbsp;: {plain(b.bow)} po<br>Hauteur de la poupe&nbsp;: {plain(b.stern)} po<br>Point de portage&nbsp;: {plain(b.carry)} po</p>'
                f'<table border="1" cellspacing="0" cellpadding="4"><thead><tr><th>Distance de la proue</th><th>Tour de coque (po)</th><th>Tour complet (po)</th></tr></thead><tbody>{rows}</tbody></table><p>Merci et bonne journée,<br>{b.owner}<br>{b.phone}</p></body></html>')
        emit("mail-pouces", i, "eml", sealed(mail(b.mailbox, "Mesures du canot", page=page, charset=["utf-8", "iso-8859-1"][i], cte="quoted-printable")), "in", b.want())


def mail_around():
    """Words of one's own, feet and inches."""
    for i, b in pair_of("mail-around"):
        w = [feet, feet_words][i]
        lines = [["Below, \"under\" is the hull girth (gunwale, under the hull, gunwale) and \"around\" is the full girth.", "What you call hull girth I wrote as bottom, what you call full girth I wrote as whole loop."][i], "",
                 f"length overall {w(b.loa)}", f"bow height {w(b.bow)}", f"stern height {w(b.stern)}", f"carry point {w(b.carry)}", ""]
        lines += [[f"{foot(at)}' mark: under {w(h)}, around {w(f)}", f"{foot(at)} ft - bottom {w(h)} - whole loop {w(f)}"][i] for at, h, f in b.rows]
        emit("mail-around", i, "eml", sealed(mail(b.mailbox, "here goes", lines + ["", b.first])), "in", b.want())


def mail_twopages():
    """Page 1 and page 2 as two PDFs."""
    for i, b in pair_of("mail-twopages"):
        m = mail(b.mailbox, "Survey (2 pages)", ["Both pages of my survey are attached.", "", b.owner])
        left, right = halves(b.rows)
        head = [["Station", "Hull girth (in)", "Full girth (in)"]]
        st = [("GRID", (0, 0), (-1, -1), .4, colors.black)]
        one = [Table([["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)]], style=st), Spacer(1, 14), Table(head + [[f"{foot(a)} ft", plain(h), plain(f)] for a, h, f in left], style=st)]
        two = [Table(head + [[f"{foot(a)} ft", plain(h), plain(f)] for a, h, f in right], style=st)]
        for k, s in enumerate((one, two)):
            m.add_attachment(laid_out(s), "application", "pdf", filename=[f"page{k + 1}.pdf", f"Survey p. {k + 1} of 2.pdf"][i])
        emit("mail-twopages", i, "eml", sealed(m), "in", b.want())


def txt_plusses():
    """A table with plus signs at its corners."""
    for i, b in pair_of("txt-plusses"):
        w = [dec, tenth][i]
        bar = "+---------+------------+------------+"
        lines = [f"Canoe: {b.craft}", "", "+----------------+----------------+"]
        for n, x in [("Length overall", feet_words(b.loa)), ("Bow height", w(b.bow) + " in"), ("Stern height", w(b.stern) + " in"), ("Carry point", w(b.carry) + " in")]:
            lines += [f"| {n:<15}| {x:<15}|"]
        lines += ["+----------------+----------------+", "", bar, "| Foot    | Hull girth | Full girth |", "|         | (inches)   | (inches)   |", bar]
        for at, h, f in b.rows:
            lines += [f"| {foot(at):>7} | {w(h):>10} | {w(f):>10} |"] + ([bar] if i else [])
        emit("txt-plusses", i, "txt", text(lines + ([] if i else [bar])), "in", b.want())


def txt_dotted():
    """Dots between a station and its two girths."""
    for i, b in pair_of("txt-dotted"):
        lines = ["MEASUREMENTS OF MY BOAT", "", f"Length overall {'.' * 20} {feet(b.loa)}", f"Height of the bow {'.' * 17} {quote(b.bow)}", f"Height of the stern {'.' * 15} {quote(b.stern)}", f"Carry point {'.' * 23} {quote(b.carry)}", "", f"From the bow {' ' * 6} hull girth {' ' * 5} full girth"]
        lines += [f"{foot(at)} ft ".ljust(21, ".") + f" {quote(h)} ".ljust(17, ".") + f" {quote(f)}" for at, h, f in b.rows]
        emit("txt-dotted", i, "txt", text(lines, newline=["\r\n", "\n"][i]), "in", b.want())


def txt_kayak():
    """A decked kayak in centimetres, every 15 cm near its ends."""
    for i, b in pair_of("txt-kayak", unit="cm", kind="decked", ends=True, feet=(13, 17)):
        lines = ["Sea kayak, decked, two hatches. Tape went over the deck for the full girth.", "All centimetres.", "", f"Length overall: {dec(b.loa)}", f"Bow height: {dec(b.bow)}", f"Stern height: {dec(b.stern)}", f"Carry point: {dec(b.carry)}", ""]
        if i:
            lines += ["cm from bow | hull girth | full girth"] + [f"{at:>11} | {dec(h):>10} | {dec(f):>10}" for at, h, f in b.rows]
        else:
            lines += [f"{at} cm: hull girth {dec(h)}, full girth {dec(f)}" for at, h, f in b.rows]
        emit("txt-kayak", i, "txt", text(lines), "cm", b.want())


def html_spans():
    """A page of rows that are no table: boxes in a grid."""
    for i, b in pair_of("html-spans"):
        w = [plain, glyph][i]
        row = lambda *x: "<div class=\"row\">" + "".join(f"<span class=\"cell\">{esc(str(v), False)}</span>" for v in x) + "</div>\n"
        page = ("<!doctype html><html lang=en><head><meta charset=utf-8><title>Boat cover</title><style>.row{display:grid;grid-template-columns:8em 8em 8em}.cell{padding:2px 6px}</style></head><body>\n<h1>Boat cover</h1>\n"
                + row("Length overall", feet_words(b.loa)) + row("Bow height", inch(b.bow)) + row("Stern height", inch(b.stern)) + row("Carry point", inch(b.carry)) + "<hr>\n"
                + row("Station", "Hull girth (in)", "Full girth (in)") + "".join(row(f"{foot(at)} ft", w(h), w(f)) for at, h, f in b.rows) + "</body></html>\n")
        emit("html-spans", i, "html", page.encode(), "in", b.want())


# ---- PDF

def pdf_minutes():
    """Minutes of a meeting, with numbered paragraphs."""
    for i, b in pair_of("pdf-minutes"):
        P = lambda x: Paragraph(x, N)
        story = [Paragraph("Minutes of the boat committee, 7 June", S["Heading2"]), P("Present: " + b.owner + " and three members. The meeting began at 7.30 pm."), Spacer(1, 8),
                 P("1. The club canoe was measured for a cover."), P(f"2. Length overall: {feet_words(b.loa)}. Bow height: {inch(b.bow)}. Stern height: {inch(b.stern)}. Carry point: {inch(b.carry)} from the bow."), P("3. Girths were taken at each foot from the bow:"), Spacer(1, 4)]
        story += [P(["&nbsp;&nbsp;at %d ft: hull girth %s in, full girth %s in", "&nbsp;&nbsp;&bull; %d ft &ndash; hull girth %s&quot;, full girth %s&quot;"][i] % (foot(at), plain(h), plain(f))) for at, h, f in b.rows]
        story += [Spacer(1, 8), P("4. Next meeting 5 July at 7.30 pm.")]
        emit("pdf-minutes", i, "pdf", laid_out(story, [letter, A4][i]), "in", b.want())


def pdf_acrosstwo():
    """A wide spreadsheet printed over two pages, its first column on both."""
    for i, b in pair_of("pdf-acrosstwo", feet=(14, 17)):
        wb = openpyxl.Workbook()
        ws = wb.active
        ws.append(["Length overall", feet_words(b.loa)]), ws.append(["Bow height", inch(b.bow)]), ws.append(["Stern height", inch(b.stern)]), ws.append(["Carry point", inch(b.carry)]), ws.append([])
        ws.append(["Station"] + [f"{foot(at)} ft" for at, _, _ in b.rows]), ws.append(["Hull girth (in)"] + [h for _, h, _ in b.rows]), ws.append(["Full girth (in)"] + [f for _, _, f in b.rows])
        ws.column_dimensions["A"].width = 18
        ws.column_dimensions["B"].width = 13
        ws.print_title_cols = "$A:$A"
        ws.print_options.gridLines = bool(i)
        emit("pdf-acrosstwo", i, "pdf", convert(saved(wb), "xlsx", "pdf"), "in", b.want())


def pdf_webform():
    """A web form printed with its boxes; each label above its box."""
    for i, b in pair_of("pdf-webform", feet=(11, 14)):
        box = lambda label, x: f"<label>{label}<br><input value=\"{esc(str(x))}\"></label>"
        girths = "".join(f"<div class=s><b>{foot(at)} ft</b>{box('Hull girth', dec(h))}{box('Full girth', dec(f))}</div>" for at, h, f in b.rows)
        page = ("<!doctype html><meta charset=utf-8><style>body{font:12px Arial}input{width:90px;border:1px solid #777}label{margin-right:14px;display:inline-block}.s{display:flex;align-items:end;gap:16px;margin:3px 0}.s b{width:50px}</style>"
                f"<h3>Cover enquiry (inches)</h3><p>{box('Your name', b.owner)}</p><p>{box('Length overall', feet_words(b.loa))}{box('Bow height', dec(b.bow))}{box('Stern height', dec(b.stern))}{box('Carry point', dec(b.carry))}</p>{girths}")
        emit("pdf-webform", i, "pdf", printed(page), "in", b.want())


def form_bigbox():
    """A form with one large box into which all the girths are typed."""
    for i, b in pair_of("form-bigbox"):
        s = Sheet()
        s.say(60, 50, "ORDER FORM FOR A FITTED COVER")
        for k, (label, name, x) in enumerate([("Name", "name", b.owner), ("Length overall", "length", feet_words(b.loa)), ("Bow height", "bow", inch(b.bow)), ("Stern height", "stern", inch(b.stern)), ("Carry point", "carry", inch(b.carry))]):
            s.say(60, 80 + 24 * k, label), s.field(name, 160, 80 + 24 * k, x, 140)
        s.say(60, 212, "Girths (station, hull girth, full girth, in inches):")
        typed = "\n".join([f"{foot(at)} ft, {plain(h)}, {plain(f)}", f"{foot(at)} ft: hull girth {dec(h)}, full girth {dec(f)}"][i] for at, h, f in b.rows)
        s.canvas.acroForm.textfield(name="girths", x=60, y=s.height - 560, width=400, height=330, value=typed, fontSize=10, borderWidth=.5, fieldFlags="multiline", maxlen=4000)
        # no appearance stored for the large box, as some programs leave it: the viewer draws it
        head, tail = s.done().rsplit(b"/AP <<\n/N", 1)
        entry = b"/AP <<\n/N" + tail[:tail.index(b">>") + 2]
        emit("form-bigbox", i, "pdf", head + b" " * len(entry) + tail[tail.index(b">>") + 2:], "in", b.want())


def pdf_dots():
    """Typed with a typewriter's dots."""
    for i, b in pair_of("pdf-dots"):
        s = Sheet(A4, "Courier", 11)
        dots = lambda *x: "".join(w if k == len(x) - 1 else (w + " ").ljust(22, ".") + " " for k, w in enumerate(x))
        lines = ["My boat", "", dots("Length overall", feet(b.loa)), dots("Bow height", quote(b.bow)), dots("Stern height", quote(b.stern)), dots("Carry point", quote(b.carry)), "", "Foot, then hull girth, then full girth:", ""] + [dots(f"{foot(at)} ft", quote(h), quote(f)) for at, h, f in b.rows]
        for k, x in enumerate(lines):
            s.say(60, 70 + 16 * k, x)
        emit("pdf-dots", i, "pdf", s.done(), "in", b.want())


def pdf_sentences():
    """A word processor's page of running sentences."""
    for i, b in pair_of("pdf-sentences", feet=(11, 14)):
        d = docx.Document()
        d.add_paragraph(f"We own a {b.craft} with a length overall of {feet_words(b.loa)}. Its bow height is {inch(b.bow)} and its stern height {inch(b.stern)}; the carry point is {inch(b.carry)} from the bow.")
        told = "; ".join(f"at {foot(at)} ft the hull girth is {plain(h)} in and the full girth {plain(f)} in" if i == 0 else f"at {foot(at)} ft hull girth {inch(h)}, full girth {inch(f)}" for at, h, f in b.rows)
        d.add_paragraph(f"Going from bow to stern we measured the following: {told}.")
        d.add_paragraph("Kind regards, " + b.owner)
        emit("pdf-sentences", i, "pdf", convert(saved(d), "docx", "pdf"), "in", b.want())


def pdf_zebra():
    """A striped table from the web, full girth first, units in the cells."""
    for i, b in pair_of("pdf-zebra"):
        w = [inch, curly][i]
        rows = "".join(f"<tr><td>{foot(at)} ft</td><td>{w(f)}</td><td>{w(h)}</td></tr>" for at, h, f in b.rows)
        page = ("<!doctype html><meta charset=utf-8><style>body{font:13px Georgia}table{border-collapse:collapse;width:70%}tr:nth-child(odd){background:#e8eef4}td,th{text-align:left;padding:4px 12px}dt{font-weight:bold;float:left;width:9em}</style>"
                f"<h2>{esc(b.owner)}</h2><dl><dt>Length overall<dd>{esc(feet_words(b.loa))}<dt>Bow height<dd>{inch(b.bow)}<dt>Stern height<dd>{inch(b.stern)}<dt>Carry point<dd>{inch(b.carry)}</dl><table><tr><th>Distance from bow<th>Full girth<th>Hull girth</tr>{rows}</table>")
        emit("pdf-zebra", i, "pdf", printed(page), "in", b.want())


def pdf_smallhalves():
    """Halves set small: a raised 1, a stroke and a lowered 2."""
    for i, b in pair_of("pdf-smallhalves"):
        half = ["<sup>1</sup>/<sub>2</sub>", "<sup>1</sup>&frasl;<sub>2</sub>"][i]
        w = lambda x: str(int(x)) + (" " + half if x % 1 else "")
        rows = "".join(f"<tr><td>{foot(at)} ft<td>{w(h)}<td>{w(f)}</tr>" for at, h, f in b.rows)
        fl, il = divmod(b.loa, 12)
        page = ("<!doctype html><meta charset=utf-8><style>body{font:14px serif}td,th{padding:3px 16px;text-align:left;border-bottom:1px solid #aaa}sup,sub{font-size:9px}</style>"
                f"<p>Length overall {int(fl)} ft {w(il)} in</p><p>Bow height {w(b.bow)} in</p><p>Stern height {w(b.stern)} in</p><p>Carry point {w(b.carry)} in</p><table><tr><th>Station<th>Hull girth (in)<th>Full girth (in)</tr>{rows}</table>")
        emit("pdf-smallhalves", i, "pdf", printed(page), "in", b.want())


def pdf_pieds():
    """French, feet and inches, a ruled table."""
    for i, b in pair_of("pdf-pieds", french=True):
        story = [Paragraph("Mesures pour une housse", S["Heading2"]), Paragraph(f"Propriétaire : {b.owner}", N)]
        story += [Paragraph(f"{n} : {x}", N) for n, x in [("Longueur totale", pieds(b.loa)), ("Hauteur avant (proue)", plain(b.bow) + " po"), ("Hauteur arrière (poupe)", plain(b.stern) + " po"), ("Point de portage", plain(b.carry) + " po")]] + [Spacer(1, 10)]
        story.append(Table([["Station (pi)", "Tour de coque (po)", "Tour complet (po)"]] + [[foot(at), [plain, comma][i](h), [plain, comma][i](f)] for at, h, f in b.rows], style=[("GRID", (0, 0), (-1, -1), .4, colors.grey), ("ALIGN", (1, 1), (-1, -1), "RIGHT")]))
        emit("pdf-pieds", i, "pdf", laid_out(story), "in", b.want())


def pdf_skiff():
    """A square stern: the transom as the last row, the greatest girth below."""
    for i, b in pair_of("pdf-skiff", kind="square", feet=(10, 14)):
        st = [("LINEABOVE", (0, 0), (-1, 0), 1, colors.black), ("LINEBELOW", (0, 0), (-1, 0), .5, colors.black), ("LINEBELOW", (0, -1), (-1, -1), 1, colors.black)]
        story = [Paragraph(x, N) for x in (f"Length overall: {feet_words(b.loa)}", f"Bow height: {inch(b.bow)}", f"Stern height: {inch(b.stern)}", f"Carry point: {inch(b.carry)}")] + [Spacer(1, 10)]
        story.append(Table([["Station", "Hull girth (in)", "Full girth (in)"]] + [[f"{foot(at)} ft", plain(h), plain(f)] for at, h, f in b.rows] + [["Transom", plain(b.transom[0]), plain(b.transom[1])]], style=st))
        g = b.great
        story += [Spacer(1, 10), Paragraph(f"Greatest girth at {feet_words(g[0])} from the bow: hull girth {inch(g[1])}, full girth {inch(g[2])}, opening {inch(b.opening)}.", N)]
        emit("pdf-skiff", i, "pdf", laid_out(story), "in", b.want(great=True))


def pdf_remarks():
    """A table with a column of remarks."""
    notes = {1: "decks end here", 3: "front seat, tape went under it", 5: "measured twice", 8: "yoke", 10: "rear seat"}
    for i, b in pair_of("pdf-remarks"):
        d = docx.Document()
        d.add_paragraph(f"Length overall {feet(b.loa)}; bow height {quote(b.bow)}; stern height {quote(b.stern)}; carry point {quote(b.carry)}")
        t = d.add_table(rows=0, cols=4)
        t.style = ["Light List", "Table Grid"][i]
        for r in [["Station", "Hull girth", "Full girth", "Remarks"]] + [[f"{foot(at)} ft", quote(h), quote(f), notes.get(k, "")] for k, (at, h, f) in enumerate(b.rows)]:
            for c, x in zip(t.add_row().cells, r):
                c.text = x
        emit("pdf-remarks", i, "pdf", convert(saved(d), "docx", "pdf"), "in", b.want())


LAYOUTS = [v for k, v in list(globals().items()) if k.split("_")[0] in ("mail", "txt", "html", "pdf", "form") and "_" in k and callable(v)]


def main():
    import sys
    for f in LAYOUTS:
        if len(sys.argv) < 2 or f.__name__ in sys.argv[1:]:
            f()
    shutil.rmtree(os.path.join(HERE, "__pycache__"), ignore_errors=True)
    print(len(files.made), "files")


main()
