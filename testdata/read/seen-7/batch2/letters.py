"""Mails, plain texts, web pages and PDFs."""
import html

import docx
from docx.enum.section import WD_ORIENT
from docx.shared import Cm, Pt
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, Spacer, Table

from boats import Boat, cm, comma, curly, dec, feet, feet_french, feet_words, foot, glyph, halves, inch, inches, pair_of, plain, quote
from files import PAPER, Sheet, convert, emit, grid, laid_out, saved, sealed, text, typed


def cell_a_line():
    """A table pasted into plain text so that each of its cells became a line."""
    for i, b in pair_of("mail-cellaline"):
        write = [plain, dec][i]
        lines = ["Good morning,", "", "the numbers from our sheet:", ""]
        for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))):
            lines += [name, x]
        lines += ["", "Station", "Hull girth (in)", "Full girth (in)"]
        for at, hull, full in b.rows:
            lines += [[f"{foot(at)} ft", write(hull), write(full)], [f"{foot(at)} ft", "", write(hull), "", write(full), ""]][i]
        emit("mail-cellaline", i, "eml", sealed(typed(b.mailbox, "Sheet for the cover", lines + ["", "Best,", b.owner])), b)


def shared():
    """Two stations that measured the same share a line; the second has a hull girth between two marks."""
    for i, b in pair_of("mail-shared", slip=False):
        k = len(b.rows) // 2
        b.rows[k] = (b.rows[k][0], *b.rows[k - 1][1:])
        lines = [f"Hello {'Pinfold' if i else 'there'},", "", f"length overall: {feet(b.loa)}", f"bow height: {quote(b.bow)}", f"stern height: {quote(b.stern)}", f"carry point: {quote(b.carry)}", ""]
        doubt = []
        for n, (at, hull, full) in enumerate(b.rows):
            if n == k:
                continue
            where = f"{foot(at)} ft" if n != k - 1 else [f"{foot(at)} and {foot(at) + 1} ft (both the same)", f"{foot(at)} ft and {foot(at) + 1} ft"][i]
            said = quote(hull)
            if (i, n) == (1, 2):
                said, doubt = f"{int(hull)} to {int(hull) + 1}\"", [f"hull_girth@{at}"]
            lines.append(f"{where}: hull girth {said}, full girth {quote(full)}")
        emit("mail-shared", i, "eml", sealed(typed(b.mailbox, "my boat", lines + ["", b.first])), b, doubt=doubt)


def primes():
    """A tablet that turns every mark into a curly one, each line a paragraph; a decked boat."""
    for i, b in pair_of("mail-curlymarks", kind="decked", feet=(12, 16)):
        told = [f"Length overall {feet(b.loa, glyph)}", f"Bow height {curly(b.bow)}", f"Stern height {curly(b.stern)}", f"Carry point {curly(b.carry)}"]
        told += [[f"{foot(at)}' – hull girth {curly(hull)} – full girth {curly(full)}", f"At {foot(at)}’ hull girth {curly(hull)}, full girth {curly(full)} over the deck"][i] for at, hull, full in b.rows]
        lines = ["Hi, it’s a decked boat so I went over the deck for the full girth.", *told, f"{b.first}", "Sent from my tablet"]
        lines = [x.replace("'", "’").replace('"', "”") for x in lines]
        m = typed(b.mailbox, "Kayak cover", [line for x in lines for line in (x, "")])
        m.add_alternative("<html><body>" + "".join(f"<p>{html.escape(x, False)}</p>" for x in lines) + "</body></html>", subtype="html")
        emit("mail-curlymarks", i, "eml", sealed(m), b)


def second_half():
    """The after half, above the owner's own earlier mail with the fore half."""
    for i, b in pair_of("mail-secondhalf"):
        fore, aft = halves(b.rows)

        def said(rows):
            return [[f"{foot(at)} ft: hull girth {plain(hull)}, full girth {plain(full)}", f"{foot(at)} ft   hull girth {dec(hull)}   full girth {dec(full)}"][i] for at, hull, full in rows]

        first = ["Hello,", "we only got half way before the rain. Inches from bow to the middle:", f"Length overall: {feet_words(b.loa)}", f"Bow height: {inch(b.bow)}", f"Carry point: {inch(b.carry)}", *said(fore), "The rest tomorrow!", b.first]
        lines = ["Hello again,", "", "here is the other half, as promised:", "", *said(aft), f"Stern height: {inch(b.stern)}", "", b.first, "", f"On Sat, 4 July 2026 at 18:40, {b.owner} wrote:", *(f"> {x}" for x in first)]
        m = typed(b.mailbox, "Re: half a boat", lines)
        emit("mail-secondhalf", i, "eml", sealed(m), b)


def sentences_french():
    """French sentences, feet and inches."""
    for i, b in pair_of("mail-piedsphrases", french=True, feet=(11, 15)):
        told = [f"Le canot fait {feet_french(b.loa)} de longueur hors tout.", f"La hauteur de l'étrave est de {plain(b.bow)} po et celle de la poupe de {plain(b.stern)} po." if i == 0 else f"Hauteur de l'étrave : {plain(b.bow)} po. Hauteur de la poupe : {plain(b.stern)} po.", f"Le point de portage est à {plain(b.carry)} po de l'étrave."]
        girths = [f"À {foot(at)} {'pied' if at == 12 else 'pieds'}, le tour de coque est de {plain(hull)} po et le tour complet de {plain(full)} po." for at, hull, full in b.rows]
        lines = ["Bonjour,", "", " ".join(told), ""] + ([" ".join(girths[k:k + 2]) for k in range(0, len(girths), 2)] if i == 0 else girths) + ["", "Au plaisir,", b.owner, b.phone]
        emit("mail-piedsphrases", i, "eml", sealed(typed(b.mailbox, "Toile de canot", lines, charset=["utf-8", "iso-8859-1"][i])), b)


def crosses():
    """hull x full behind each foot, said at the top."""
    for i, b in pair_of("mail-crosses"):
        sign = ["×", "x"][i]
        lines = ["Evening,", "", f"Length overall {feet_words(b.loa)}, bow height {inch(b.bow)}, stern height {inch(b.stern)}, carry point {inch(b.carry)}.", "", f"hull girth {sign} full girth, inches:", ""]
        lines += [f"{foot(at)} ft  {[glyph, plain][i](hull)} {sign} {[glyph, plain][i](full)}" for at, hull, full in b.rows]
        emit("mail-crosses", i, "eml", sealed(typed(b.mailbox, "tape numbers", lines + ["", "cheers", b.first])), b)


def drawn_table():
    """A French table of drawn lines in plain text."""
    for i, b in pair_of("txt-cadresfr", unit="cm", tick=.5, french=True):
        heads = [("Station", "Tour de coque", "Tour complet"), ("Distance", "Tour de coque (cm)", "Tour complet (cm)")][i]
        width = [max(12, len(h) + 2) for h in heads]

        def rule(left, middle, right):
            return left + middle.join("─" * w for w in width) + right

        def line(cells):
            return "│" + "│".join(f"{x:^{w}}" for x, w in zip(cells, width)) + "│"

        lines = [f"Canot de {b.owner} (mesures en cm)", "", f"Longueur hors tout .. {cm(b.loa)}", f"Hauteur étrave ...... {cm(b.bow)}", f"Hauteur poupe ....... {cm(b.stern)}", f"Point de portage .... {cm(b.carry)}", "", rule("┌", "┬", "┐"), line(heads), rule("├", "┼", "┤")]
        lines += [line((f"{at} cm" if i == 0 else str(at), comma(hull), comma(full))) for at, hull, full in b.rows] + [rule("└", "┴", "┘")]
        emit("txt-cadresfr", i, "txt", text(lines), b)


def note_page():
    """A note saved as a web page: a list of ticked lines, the girths as a list within each."""
    for i, b in pair_of("html-note", slip=False):
        def item(words, inner=""):
            return f"<li class='checked'><input type='checkbox' checked disabled> {html.escape(words, False)}{inner}</li>"
        stations = "".join(item(f"{foot(at)} ft", f"<ul><li>hull girth {plain(hull)} in</li><li>full girth {plain(full)} in</li></ul>" if i == 0 else f"<br>hull girth {plain(hull)} in<br>full girth {plain(full)} in") for at, hull, full in b.rows)
        facts = "".join(item(x) for x in (f"Length overall {feet_words(b.loa)}", f"Bow height {inch(b.bow)}", f"Stern height {inch(b.stern)}", f"Carry point {inch(b.carry)}"))
        body = f"<h1>Boat cover</h1><p>Edited 3 July 2026, 21:14</p><ul>{facts}</ul><h2>Girths</h2><ul>{stations}</ul><ul><li><input type='checkbox' disabled> buy paper for tracings</li><li><input type='checkbox' disabled> ask about colour, 2 samples</li></ul>"
        emit("html-note", i, "html", f"<!doctype html>\n<html><head><meta charset='utf-8'><title>Boat cover</title><style>li{{list-style:none}}</style></head>\n<body>{body}</body></html>\n".encode(), b)


def big_type():
    """Large letters on pages turned sideways, five stations a page, the heading on each."""
    for i, b in pair_of("pdf-bigtype", feet=(11, 15)):
        d = docx.Document()
        s = d.sections[0]
        s.orientation, s.page_width, s.page_height = WD_ORIENT.LANDSCAPE, s.page_height, s.page_width
        s.top_margin = s.bottom_margin = Cm(1.5)
        d.styles["Normal"].font.size = Pt(26)
        for x in (f"Length overall: {feet_words(b.loa)}", f"Bow height: {inch(b.bow)}", f"Stern height: {inch(b.stern)}", f"Carry point: {inch(b.carry)}"):
            d.add_paragraph(x)
        for k in range(0, len(b.rows), 5):
            d.add_page_break()
            grid(d, [["Station", "Hull girth", "Full girth"]] + [[f"{foot(at)} ft", [quote, inch][i](hull), [quote, inch][i](full)] for at, hull, full in b.rows[k:k + 5]])
        emit("pdf-bigtype", i, "pdf", convert(saved(d), "docx", "pdf"), b)


def sketch():
    """A side view of the boat with a mark at every foot, hull girth above and full girth below it."""
    for i, b in pair_of("pdf-sketch", feet=(11, 14), slip=False):
        size = landscape([PAPER, A4][i])
        s = Sheet(size, points=9)
        pen, step = s.canvas, (size[0] - 150) / b.loa
        s.say(60, 50, f"{b.owner} - {b.craft}")
        for k, (name, x) in enumerate((("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry)))):
            s.say(60 + 170 * k, 80, f"{name}: {x}")
        base = s.height - 300
        pen.bezier(100, base + 3 * b.bow, 130, base - 12, size[0] - 80, base - 12, size[0] - 50, base + 3 * b.stern)
        pen.bezier(100, base + 3 * b.bow, 250, base + 26, size[0] - 200, base + 26, size[0] - 50, base + 3 * b.stern)
        s.say(20, 170, "Feet"), s.say(20, 190, "Hull girth"), s.say(20, 350, "Full girth")
        for at, hull, full in b.rows:
            x = 100 + at * step
            pen.line(x, base - 4, x, base + 30)
            s.say(x, 170, foot(at), centred=True), s.say(x, 190, dec(hull), centred=True), s.say(x, 350, dec(full), centred=True)
        s.say(60, 400, "All girths in inches. Bow at the left.")
        emit("pdf-sketch", i, "pdf", s.done(), b)


def unit_ticks():
    """A form with boxes to tick for inches or centimetres and for the stern, and fields for a transom."""
    for i, b in enumerate([Boat("form-unitticks 1", kind="square", feet=(9, 13)), Boat("form-unitticks 2", "cm", "square", feet=(9, 13), slip=True)]):
        s = Sheet()
        s.say(60, 46, "COVER ORDER - please fill in and return"), s.say(60, 70, "Units:")
        s.tick("unit_in", 110, 70, i == 0), s.say(128, 70, "inches"), s.tick("unit_cm", 180, 70, i == 1), s.say(198, 70, "centimetres")
        s.say(280, 70, "Stern:"), s.tick("stern_pointed", 320, 70, False), s.say(338, 70, "pointed"), s.tick("stern_square", 390, 70, True), s.say(408, 70, "square")
        s.say(60, 96, "Name"), s.field("name", 140, 96, b.owner, 140), s.say(300, 96, "Telephone"), s.field("phone", 370, 96, b.phone, 110)
        for k, (label, name, x) in enumerate((("Length overall", "loa", [feet(b.loa), dec(b.loa)][i]), ("Bow height", "bow_h", dec(b.bow)), ("Stern height", "stern_h", dec(b.stern)), ("Carry point", "carry", dec(b.carry)))):
            s.say(60 + 240 * (k % 2), 122 + 24 * (k // 2), label), s.field(name, 150 + 240 * (k % 2), 122 + 24 * (k // 2), x, 70)
        s.say(60, 186, "Station"), s.say(150, 186, "Hull girth"), s.say(250, 186, "Full girth")
        for k, (at, hull, full) in enumerate(b.rows):
            s.say(60, 208 + 22 * k, f"{foot(at)} ft" if i == 0 else f"{at} cm"), s.field(f"hg{k + 1:02}", 150, 208 + 22 * k, dec(hull)), s.field(f"fg{k + 1:02}", 250, 208 + 22 * k, dec(full))
        y = 208 + 22 * len(b.rows)
        s.say(60, y, "Transom"), s.field("hg_tr", 150, y, dec(b.transom[0])), s.field("fg_tr", 250, y, dec(b.transom[1]))
        emit("form-unitticks", i, "pdf", s.done(), b)


def wrapped_headings():
    """A table whose long headings wrap, its rows shaded in turns; the first has a question mark behind a girth."""
    normal = getSampleStyleSheet()["Normal"]
    for i, b in pair_of("pdf-wrappedheads"):
        heads = [Paragraph(x, normal) for x in ("Distance of the station from the foremost point of the bow, in feet", "Hull girth, from gunwale under the hull to the other gunwale, in inches", "Full girth, the closed loop across the opening, in inches")]
        rows = [[foot(at), dec(hull), dec(full) + ("?" if (i, k) == (0, 5) else "")] for k, (at, hull, full) in enumerate(b.rows)]
        style = [("ROWBACKGROUNDS", (0, 1), (-1, -1), [colors.whitesmoke, colors.white]), ("VALIGN", (0, 0), (-1, 0), "TOP"), ("LINEBELOW", (0, 0), (-1, 0), 1, colors.grey)]
        story = [Paragraph(f"Boat: {b.craft}. Owner: {b.owner}, telephone {b.phone}.", normal), Spacer(1, 8)]
        story += [Paragraph(f"{name}: {x}", normal) for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inches(b.bow)), ("Stern height", inches(b.stern)), ("Carry point", inches(b.carry)))]
        story += [Spacer(1, 8), Table([heads] + rows, colWidths=[130, 150, 150], style=style + [("ALIGN", (0, 1), (-1, -1), ["CENTER", "RIGHT"][i])]), Spacer(1, 8), Paragraph("Page 1 of 1. Printed 2 July 2026 at 9:12.", normal)]
        emit("pdf-wrappedheads", i, "pdf", laid_out(story, [PAPER, A4][i]), b, doubt=[[f"full_girth@{b.rows[5][0]}"], []][i])


LAYOUTS = (cell_a_line, shared, primes, second_half, sentences_french, crosses, drawn_table, note_page, big_type, sketch, unit_ticks, wrapped_headings)
