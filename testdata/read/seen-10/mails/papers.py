"""English texts, a web page and PDFs."""
import html
import io

from reportlab.lib import colors
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, SimpleDocTemplate, Spacer, Table

from boats import dec, feet, feet_tight, feet_words, foot, glyph, halves, inch, inches, pair_of, plain, quote
from files import PAPER, Sheet, emit, text


def evening():
    """Notes of an evening, everything in feet and inches, leaders of dots, a boat with a transom."""
    for i, b in pair_of("txt-evening", kind="square", feet=(10, 14), slip=True):
        def said(x):
            return feet_tight(x) if i == 0 else feet_words(x)
        lines = [[f"{b.craft} - measured Tuesday after supper, 68 degrees, no wind", f"{b.owner.upper()}, {b.craft}, notes"][i], [b.owner, b.phone][i], "", f"Length overall {'.' * 12} {said(b.loa)}", f"Bow height {'.' * 16} {said(b.bow)}", f"Stern height {'.' * 14} {said(b.stern)}", f"Carry point {'.' * 15} {said(b.carry)}", "",
                 ["from bow ..... hull girth ..... full girth", "station ...... hull girth ......... full girth"][i]]
        lines += [f"{foot(at)} ft".ljust(8) + f"..... {said(hull)} ..... {said(full)}" for at, hull, full in b.rows]
        lines += [f"transom ..... {said(b.transom[0])} ..... {said(b.transom[1])}", "", ["She weighs 140 lb with the oars. 2 thwarts stay in.", "Motor is 4 hp and comes off."][i]]
        emit("txt-evening", i, "txt", text(lines, encoding=["utf-8", "utf-8-sig"][i]), b)


def blocks():
    """Two lists one under the other, hull girths and full girths. The second cannot read one of its own numbers."""
    for i, b in pair_of("txt-blocks", feet=(11, 16)):
        doubt = [[], [f"hull_girth@{b.rows[7][0]}"]][i]
        lines = ["Cover for " + b.owner, "", *[[f"Length overall = {feet_words(b.loa)}", f"Bow height = {inch(b.bow)}", f"Stern height = {inch(b.stern)}", f"Carry point = {inch(b.carry)}"], [f"{feet_words(b.loa)} length overall", f"{inch(b.bow)} bow height", f"{inch(b.stern)} stern height", f"{inch(b.carry)} carry point, from the bow"]][i], "", ["HULL GIRTH (inches), at every foot from the bow", "First round, HULL GIRTH in inches:"][i]]
        for at, hull, full in b.rows:
            x = f"{plain(hull)} or {plain(hull + 5)}, can't read my own writing" if f"hull_girth@{at}" in doubt else plain(hull)
            lines.append([f"  {foot(at)} ft   {x}", f"{foot(at)} ft: {x}"][i])
        lines += ["", ["FULL GIRTH (inches), at every foot from the bow", "Second round, FULL GIRTH in inches:"][i]] + [[f"  {foot(at)} ft   {plain(full)}", f"{foot(at)} ft: {plain(full)}"][i] for at, hull, full in b.rows]
        lines += ["", b.phone]
        emit("txt-blocks", i, "txt", text(lines, newline=["\r\n", "\n"][i]), b, None, doubt)


def web_page():
    """A page that somebody wrote by hand for his boat, heads over two columns, quarters of an inch, a decked boat."""
    for i, b in pair_of("html-homepage", kind="decked", tick=.25, feet=(12, 16)):
        def said(x):
            return glyph(x).replace("½", "&frac12;").replace("¼", "&frac14;").replace("¾", "&frac34;") if i == 0 else dec(x)
        facts = [("Length overall", feet(b.loa, glyph if i == 0 else dec)), ("Bow height", glyph(b.bow) + " in" if i == 0 else dec(b.bow) + " in"), ("Stern height", glyph(b.stern) + " in" if i == 0 else dec(b.stern) + " in"), ("Carry point", (glyph if i == 0 else dec)(b.carry) + " in from the bow")]
        if i == 0:
            listed = "<dl>" + "".join(f"<dt>{n}</dt><dd>{html.escape(x, False)}</dd>\n" for n, x in facts) + "</dl>"
            head = "<tr><th rowspan=2>Station</th><th colspan=2>Girth in inches</th></tr>\n<tr><th>Hull girth</th><th>Full girth</th></tr>\n"
        else:
            listed = "<p>" + "<br>\n".join(f"<b>{n}</b>: {html.escape(x, False)}" for n, x in facts) + "</p>"
            head = "<tr><td><b>Feet from bow</b></td><td><b>Hull girth, in</b></td><td><b>Full girth, in</b></td></tr>\n"
        rows = "".join(f"<tr><td>{foot(at)}{[' ft', ''][i]}</td><td>{said(hull)}</td><td>{said(full)}</td></tr>\n" for at, hull, full in b.rows)
        body = f"<h1>My {b.craft}</h1>\n<ul class=menu><li><a href='#'>Home</a></li><li><a href='#'>Plans (12)</a></li><li><a href='#'>Photos (37)</a></li></ul>\n<p>Built over the winter of 2014 {['from 4 sheets of plywood', 'of ash and canvas, 23 ribs'][i]}; weight {[46, 39][i]} lb. For the cover I measured:</p>\n{listed}\n<table border=1>\n{head}{rows}</table>\n<p>The {['greatest girth is', 'greatest girth:'][i]} at {feet_words(b.great[0])}, hull girth {said(b.great[1])}, full girth {said(b.great[2])}, opening {said(b.opening)} over the deck.</p>\n<!-- old girths: 41 60 -->\n<hr><address>{b.owner}, {b.phone}</address>\n"
        style = "<style>td { padding: 2px 8px; font-size: 14px } .menu { width: 220px }</style>"
        emit("html-homepage", i, "html", f"<!DOCTYPE html>\n<html lang=en><head><meta charset=utf-8><title>{b.craft}</title>{style}</head>\n<body>\n{body}</body></html>\n".encode(), b, b.want(great=True))


def typed_letter():
    """A letter as from a typewriter; a number typed over and typed again."""
    for i, b in pair_of("pdf-typewriter", feet=(12, 15), slip=True):
        s = Sheet(font="Courier", points=11)
        k = 4
        lines = [b.owner, f"Telephone {b.phone}", "", "To the Pinfold Cover Loft", "", "Dear sirs,", "", f"Herewith the measurements of my {b.craft}. I have no printer,", "so I have made up a list of my own.", "",
                 f"Length overall: {feet_words(b.loa)}", f"Bow height: {inches(b.bow)}", f"Stern height: {inches(b.stern)}", f"Carry point: {inches(b.carry)} from the bow", "", ["Station     Hull girth     Full girth   (inches)", "At     Hull girth   Full girth, in inches"][i], ""]
        for n, (at, hull, full) in enumerate(b.rows):
            over = "xxxx " if n == k and i == 0 else ""
            lines.append([f"{foot(at):>2} ft       {over + plain(hull):<15}{plain(full)}", f"{foot(at)} ft".ljust(7) + f"{plain(hull):<13}{plain(full)}"][i])
        lines += ["", f"Greatest girth, at {feet_words(b.great[0])}: hull girth {plain(b.great[1])}, full girth {plain(b.great[2])}.", f"Opening there: {inches(b.opening)}.", "", "Yours faithfully,", "", b.owner]
        for n, line in enumerate(lines):
            s.say(72, 60 + 15 * n, line)
        emit("pdf-typewriter", i, "pdf", s.done(), b, b.want(great=True))


def two_columns():
    """A print in two columns of text, centimetres; the second is drawn line by line across both."""
    for i, b in pair_of("pdf-twocolumns", unit="cm"):
        near, far = halves(b.rows)
        def said(at, hull, full):
            return [f"At {at} cm: hull girth {hull}, full girth {full}", f"{at} cm - hull girth {hull} cm, full girth {full} cm"][i]
        left = [f"Measured by {b.owner}", b.phone, "", f"Length overall {b.loa} cm", f"Bow height {b.bow} cm", f"Stern height {b.stern} cm", f"Carry point {b.carry} cm from the bow", ""] + [said(*row) for row in near]
        right = ["Towards the stern:", ""] + [said(*row) for row in far] + ["", f"Greatest girth at {b.great[0]} cm:", f"hull girth {b.great[1]} cm, full girth {b.great[2]} cm,", f"opening {b.opening} cm"]
        s = Sheet()
        s.say(306, 50, "Sizes of a boat, in centimetres", centred=True)
        columns = [(60, left), (330, right)]
        order = [(n, x, line) for x, lines in columns for n, line in enumerate(lines)]
        for n, x, line in sorted(order) if i else order:
            s.say(x, 90 + 17 * n, line)
        emit("pdf-twocolumns", i, "pdf", s.done(), b, b.want(great=True))


def fields():
    """Fields whose names say nothing and whose tooltips say all. The second is not sure of one number."""
    for i, b in pair_of("form-tooltips", feet=(11, 17)):
        doubt = [[], [f"full_girth@{b.rows[5][0]}"]][i]
        s, n = Sheet(), 0

        def box(x, y, value, tooltip, width=58):
            nonlocal n
            n += 1
            s.field(f"Text{n}", x, y, value, width, tooltip)
        s.say(60, 40, "What we have to know about your boat"), s.say(60, 56, "Girths in inches. Write on the lines or fill in on the screen.")
        for k, (label, value, tooltip) in enumerate((("Your name", b.owner, "Name"), ("Telephone", b.phone, "Telephone"), ("What sort of boat", b.craft, "Kind of boat"), ("Length overall", feet_words(b.loa), "Length overall in feet and inches"), ("Bow height", quote(b.bow), "Height of the bow in inches"), ("Stern height", quote(b.stern), "Height of the stern in inches"), ("Carry point, from the bow", quote(b.carry), "Distance from bow to carry point in inches"))):
            s.say(60, 86 + 20 * k, label), box(200, 86 + 20 * k, value, tooltip, 150)
        for column in (0, 1):
            left = 60 + 260 * column
            s.say(left, 240, "Feet"), s.say(left + 45, 240, "Hull girth"), s.say(left + 115, 240, "Full girth")
            for k in range(9):
                place, y = 9 * column + k, 262 + 22 * k
                at, hull, full = b.rows[place] if place < len(b.rows) else (12 * place + 12, None, None)
                s.say(left + 5, y, place + 1)
                box(left + 45, y, "" if hull is None else plain(hull), f"Hull girth at {place + 1} ft in inches")
                box(left + 115, y, "" if full is None else plain(full) + " not sure" * (f"full_girth@{at}" in doubt), f"Full girth at {place + 1} ft in inches", 68)
        for k, (label, value, tooltip) in enumerate((("Greatest girth is at", feet_words(b.great[0]), "Place of the greatest girth from the bow"), ("Hull girth there", plain(b.great[1]), "Hull girth at the greatest girth in inches"), ("Full girth there", plain(b.great[2]), "Full girth at the greatest girth in inches"), ("Opening there", plain(b.opening), "Opening at the greatest girth in inches"))):
            s.say(60, 482 + 20 * k, label), box(200, 482 + 20 * k, value, tooltip, 90)
        s.tick("Check1", 60, 574, True), s.say(80, 574, "pointed stern")
        s.tick("Check2", 180, 574, False), s.say(200, 574, "square stern")
        emit("form-tooltips", i, "pdf", s.done(), b, b.want(doubt, great=True), doubt)


def over_pages():
    """A station every half foot and a table over two pages, the second without its head on the second page; a boat with a transom."""
    for i, b in pair_of("pdf-overpages", kind="square", step=6, feet=(15, 17), slip=True):
        styles, write = getSampleStyleSheet(), [plain, dec][i]
        head = [["Station (in from bow)", "Hull girth (in)", "Full girth (in)"], ["Distance from bow, inches", "Hull girth, inches", "Full girth, inches"]][i]
        rows = [head] + [[f"{at:g}", write(hull), write(full)] for at, hull, full in b.rows] + [["Transom", *map(write, b.transom)]]
        facts = [f"Length overall: {feet_words(b.loa)}", f"Bow height: {inch(b.bow)}", f"Stern height: {inch(b.stern)}", f"Carry point: {inch(b.carry)}{[' from the bow', ''][i]}"]
        ruled = [("GRID", (0, 0), (-1, -1), .5, colors.grey), ("FONTNAME", (0, 0), (-1, 0), "Helvetica-Bold"), ("TOPPADDING", (0, 0), (-1, -1), 7)]

        def numbered(page, _):
            page.drawCentredString(306, 30, f"{b.owner}, page {page.getPageNumber()} of 2")
        story = [Paragraph(f"Survey of my {b.craft}", styles["Title"]), Paragraph(f"{b.owner}, {b.phone}. A station every 6 inches, because she is short in the nose.", styles["Normal"]), Spacer(1, 8), *(Paragraph(x, styles["Normal"]) for x in facts), Spacer(1, 12), Table(rows, style=ruled[i:], repeatRows=1 - i, hAlign="LEFT", colWidths=150)]
        out = io.BytesIO()
        SimpleDocTemplate(out, invariant=1, title="Boat", pagesize=PAPER).build(story, onFirstPage=numbered, onLaterPages=numbered)
        emit("pdf-overpages", i, "pdf", out.getvalue(), b)


LAYOUTS = (evening, blocks, web_page, typed_letter, two_columns, fields, over_pages)
