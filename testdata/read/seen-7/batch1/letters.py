"""Mails, plain texts, web pages and PDFs."""
import html

import docx
from docx.shared import Cm
from openpyxl.styles import Border, Font, Side
from reportlab.lib.pagesizes import A4

from boats import cm, comma, curly, dec, feet, feet_long, feet_tight, feet_words, foot, glyph, inch, inches, metres, pair_of, plain, quote
from files import PAPER, Sheet, convert, emit, fill, grid, mail, page, saved, sealed, text, typed, web_pdf, workbook


def single_blanks():
    """A table pasted into plain text: nothing but single blanks between its columns."""
    for i, b in pair_of("mail-oneblank"):
        write = [plain, dec][i]
        lines = ["Hi there,", "", "pasted from my spreadsheet, hope it comes out:", "", ["Station Hull girth Full girth", "Feet Hull girth (in) Full girth (in)"][i]]
        lines += [f"{foot(at)}{[' ft', ''][i]} {write(hull)} {write(full)}" for at, hull, full in b.rows]
        lines += ["", f"Length overall {feet(b.loa)}", f"Bow height {quote(b.bow)}", f"Stern height {quote(b.stern)}", f"Carry point {quote(b.carry)}", "", "Thanks,", b.first]
        emit("mail-oneblank", i, "eml", sealed(typed(b.mailbox, "canoe numbers", lines)), b)


def abbreviated():
    """LOA, HG and FG, explained once; decimals."""
    for i, b in pair_of("mail-abbreviated"):
        said = ["HG = hull girth, FG = full girth, inches, stations in feet from the bow.", "(HG is hull girth and FG full girth, all inches)"][i]
        lines = [f"LOA {feet_tight(b.loa, dec)}", f"Bow ht {dec(b.bow)}\"", f"Stern ht {dec(b.stern)}\"", f"Carry pt {dec(b.carry)}\"", "", said, ""]
        lines += [[f"{foot(at)}' HG {dec(hull)} FG {dec(full)}", f"{foot(at)} ft - HG {dec(hull)}, FG {dec(full)}"][i] for at, hull, full in b.rows]
        emit("mail-abbreviated", i, "eml", sealed(typed(b.mailbox, f"Cover for {b.craft}", lines + ["", b.owner, b.phone])), b)


def mixed():
    """The boat in a sentence, the girths in a ragged table, the greatest girth in a sentence."""
    for i, b in pair_of("mail-mixedtold", slip=False):
        at, hull, full = b.great
        lines = ["Dear Pinfold Cover Loft,", "", f"we measured the boat on Saturday, the three of us, in about 40 minutes. The length overall is {feet_long(b.loa)}. The bow height is {inches(b.bow)}, the stern height {inches(b.stern)}.",
                 f"The carry point is {inches(b.carry)} from the bow. Girths in inches:", "", "station    hull girth    full girth"]
        lines += [f"{f'{foot(a)} ft':<10} {plain(h):<13} {plain(f)}" for a, h, f in b.rows]
        lines += ["", [f"The greatest girth is {feet_long(at)} from the bow. The hull girth is {inches(hull)} there, the full girth {inches(full)} and the opening {inches(b.opening)}.",
                       f"Greatest girth: at {feet_words(at)} from the bow, hull girth {inch(hull)}, full girth {inch(full)}, opening there {inch(b.opening)}."][i], "", "With kind regards", b.owner, f"Tel. {b.phone}"]
        emit("mail-mixedtold", i, "eml", sealed(typed(b.mailbox, "Measurements, as promised", lines)), b, b.want(great=True))


def french_lines():
    """A French webmail: each line a block of its own, hard blanks before the units."""
    for i, b in pair_of("mail-lignesfr", unit="cm", tick=.5, french=True):
        lines = ["Bonjour,", "", "Voici les mesures du canot, prises dimanche à deux :", "", f"Longueur hors tout : {metres(b.loa)}", f"Hauteur à l'avant : {cm(b.bow)}", f"Hauteur à l'arrière : {cm(b.stern)}", f"Point de portage : {cm(b.carry)} de l'étrave", "",
                 ["Tour de coque / tour complet, tous les 30 cm :", "Tour de coque puis tour complet, en cm :"][i], ""]
        lines += [[f"{at} cm : {comma(hull)} / {comma(full)}", f"à {at} cm : {comma(hull)} puis {comma(full)}"][i] for at, hull, full in b.rows] + ["", "Merci et bonne journée", b.owner]
        body = "".join(f"<div>{html.escape(line, False).replace(' cm', '&nbsp;cm').replace(' :', '&nbsp;:') or '<br>'}</div>" for line in lines)
        m = typed(b.mailbox, ["Mesures du canot", "Housse - mesures"][i], [line.replace(" cm", "\u00a0cm") for line in lines])
        m.add_alternative(f"<html><body><div style='font-family:Arial;font-size:10pt'>{body}</div></body></html>", subtype="html")
        emit("mail-lignesfr", i, "eml", sealed(m), b)


def remarked():
    """A remark in brackets after some stations, some with numbers; a guess in the second."""
    for i, b in pair_of("mail-remarked", slip=False):
        remarks = {0: " (tape slipped, did it 3 times, this is good)", 2: " (deck ends here)", 5: " (front seat is 9 in wide)", 8: " (lifted 1 paddle out of the way)", len(b.rows) - 1: [" (last one, about 10 inches from the stern)", " (phew)"][i]}
        lines = ["Hello again", "", f"Length overall {feet_words(b.loa)} (measured twice).", f"Bow height {inch(b.bow)}.", f"Stern height {inch(b.stern)}.", f"Carry point {inch(b.carry)} (middle of the thwart).", ""]
        lines += [[f"{foot(at)} ft: hull {inch(hull)}, full {inch(full)}", f"{foot(at)} ft = {plain(hull)}\" hull girth, {plain(full)}\" full girth"][i] + remarks.get(k, "") for k, (at, hull, full) in enumerate(b.rows)]
        doubt = []
        if i == 1:
            at, hull, full = b.rows[4]
            lines[11] = f"{foot(at)} ft = {plain(hull)}\" hull girth, about {int(full)}\" full girth (tape caught on the seat bolts)"
            doubt = [f"full_girth@{at}"]
        emit("mail-remarked", i, "eml", sealed(typed(b.mailbox, "done!", lines + ["", b.first, "", "Sent from the porch"])), b, doubt=doubt)


def answered_table():
    """A web reply: a small table of the boat, a table of girths, and the shop's letter quoted with its example."""
    for i, b in pair_of("mail-replytables"):
        write = [glyph, dec][i]
        facts = "".join(f"<tr><td>{name}</td><td><b>{html.escape(x, False)}</b></td></tr>" for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))))
        rows = "".join(f"<tr><td>{foot(at)} ft</td><td>{write(hull)}</td><td>{write(full)}</td></tr>" for at, hull, full in b.rows)
        shop = ("<p>Dear customer,</p><p>please send us the length overall, both heights, the carry point, and at every foot the hull girth and the full girth. A line may look like this:</p>"
                "<p>4 ft: hull girth 47 1/2 in, full girth 78 in</p><p>The nearest half inch will do. It takes about 20 minutes.</p><p>Pinfold Cover Loft<br>902 555-0119</p>")
        body = (f"<div dir=ltr><div>Hello, here you are!</div><div><br></div><table border=1 cellpadding=4 style='border-collapse:collapse'>{facts}</table><br><table border=1 cellpadding=4 style='border-collapse:collapse'>"
                f"<tr><th>Station</th><th>Hull girth (inches)</th><th>Full girth (inches)</th></tr>{rows}</table><div><br></div><div>{b.first}</div></div><br>"
                f"<div class=quote><div>On Thu, 2 July 2026 at 16:05, Pinfold Cover Loft &lt;<a href='mailto:orders@pinfold.example'>orders@pinfold.example</a>&gt; wrote:<br></div><blockquote style='margin:0 0 0 .8ex;border-left:1px solid #ccc;padding-left:1ex'>{shop}</blockquote></div>")
        m = page(b.mailbox, "Re: What to measure", body, cte=["quoted-printable", "base64"][i])
        m["In-Reply-To"] = "<what-to-measure@pinfold.example>"
        emit("mail-replytables", i, "eml", sealed(m), b)


def own_columns():
    """Lined-up columns under headings of the owner's own words, with a column of remarks."""
    for i, b in pair_of("txt-ownwords", unit="cm"):
        remarks = {1: "thwart", 4: "seat 24 cm wide", 6: "yoke"}
        heads = [("From bow", "Round the bottom", "Round everything", "Remarks"), ("Bow to here", "Hull only", "Hull and top", "Remarks")][i]
        lines = ["Boat: " + b.craft, f"Measured by {b.owner}, 21.6.2026, tel {b.phone}", "All in cm, gunwale edge to gunwale edge.", "", f"Total length      {dec(b.loa)}", f"Bow height        {dec(b.bow)}", f"Stern height      {dec(b.stern)}", f"Carry point       {dec(b.carry)}", "",
                 "  ".join(f"{h:<16}" for h in heads).rstrip(), "  ".join("=" * 16 for _ in heads)]
        lines += ["  ".join(f"{x:<16}" for x in (at, dec(hull), dec(full), remarks.get(k, ""))).rstrip() for k, (at, hull, full) in enumerate(b.rows)]
        emit("txt-ownwords", i, "txt", text(lines, newline=["\n", "\r\n"][i]), b)


def exported_page():
    """A sheet saved as a web page by an office program."""
    for i, b in pair_of("html-sheetpage", slip=False):
        book, sheet = workbook("Canoe", [[f"Cover measurements, {b.craft}"], [None], [None, "Length overall", None, feet(b.loa)], [None, "Bow height", None, quote(b.bow)], [None, "Stern height", None, quote(b.stern)], [None, "Carry point", None, quote(b.carry)], [None],
                                         [None, "ft from bow", "Hull girth (in)", "Full girth (in)"]])
        fill(sheet, [[None, foot(at), hull, full] for at, hull, full in b.rows])
        sheet.merge_cells("A1:D1")
        sheet["A1"].font = Font(bold=True, size=13)
        for row in sheet.iter_rows(min_row=9, min_col=3, max_col=4):
            for cell in row:
                cell.number_format = ["0.0", "# ?/?"][i]
        emit("html-sheetpage", i, "html", convert(saved(book), "xlsx", "html"), b)


def word_form():
    """A word processor's form, printed: the girths in two blocks beside each other in one table."""
    for i, b in pair_of("pdf-wordform"):
        d = docx.Document()
        d.sections[0].left_margin = d.sections[0].right_margin = Cm(2)
        d.add_heading("Measuring sheet", 1)
        grid(d, [["Owner", b.owner, "Phone", b.phone], ["Length overall", feet_words(b.loa), "Carry point", inch(b.carry)], ["Bow height", inch(b.bow), "Stern height", inch(b.stern)]])
        d.add_paragraph("Girths, every foot from the bow, inches:")
        half = (len(b.rows) + 1) // 2
        rows = [["Station", "Hull girth", "Full girth"] * 2]
        for k in range(half):
            cells = [f"{foot(b.rows[k][0])} ft", *map([plain, glyph][i], b.rows[k][1:])]
            rows.append(cells + ([f"{foot(b.rows[k + half][0])} ft", *map([plain, glyph][i], b.rows[k + half][1:])] if k + half < len(b.rows) else []))
        grid(d, rows)
        d.add_paragraph("Signed: ______________   Date: 30 June 2026")
        emit("pdf-wordform", i, "pdf", convert(saved(d), "docx", "pdf"), b)


def calc_remarks():
    """A sheet printed with lines, remarks in rows between; a square stern."""
    line = Side(style="thin")
    for i, b in pair_of("pdf-sheetremarks", kind="square", feet=(9, 13), slip=False):
        book, sheet = workbook("Skiff", [[f"{b.craft} - measured 28 June 2026"], ["Length overall", feet(b.loa)], ["Bow height", quote(b.bow)], ["Stern height", quote(b.stern)], ["Carry point", quote(b.carry)], [], ["Feet from bow", "Hull girth, in", "Full girth, in"]])
        for k, (at, hull, full) in enumerate(b.rows):
            if k == [3, 5][i]:
                sheet.append([["rowing thwart, 8 in wide, tape went over it", "oarlock blocks, went outside of them"][i]])
            sheet.append([foot(at), hull, full])
        sheet.append(["Transom", *b.transom])
        for row in sheet.iter_rows(min_row=7, max_col=3):
            for cell in row:
                cell.border = Border(left=line, right=line, top=line, bottom=line)
        for column in "ABC":
            sheet.column_dimensions[column].width = 18
        emit("pdf-sheetremarks", i, "pdf", convert(saved(book), "xlsx", "pdf"), b)


def half_choices():
    """A form: a field for the whole inches, a list of 0 and 1/2 beside it."""
    for i, b in pair_of("form-choices", feet=(11, 16)):
        s = Sheet([PAPER, A4][i])
        s.say(60, 44, "My boat cover form. Inches; choose the half beside each number.")

        def half(label, name, x, y, value):
            s.say(x, y, label)
            s.field(name, x + 80, y, int(value), 34)
            s.choice(name + "_half", x + 118, y, "1/2" if value % 1 else "0", ["0", "1/2"])

        s.say(60, 74, "Length overall"), s.field("loa_feet", 140, 74, int(b.loa // 12), 30), s.say(174, 74, "ft"), s.field("loa_inches", 188, 74, int(b.loa % 12), 30), s.choice("loa_half", 222, 74, "1/2" if b.loa % 1 else "0", ["0", "1/2"]), s.say(266, 74, "in")
        for k, (label, name, x) in enumerate((("Bow height", "bow", b.bow), ("Stern height", "stern", b.stern), ("Carry point", "carry", b.carry))):
            half(label, name, 60, 100 + 22 * k, x)
        s.say(60, 176, "Station"), s.say(140, 176, "Hull girth"), s.say(310, 176, "Full girth")
        for k, (at, hull, full) in enumerate(b.rows):
            y = 198 + 21 * k
            half(f"{foot(at)} ft", f"hull_{foot(at)}", 60, y, hull)
            half("", f"full_{foot(at)}", 230, y, full)
        emit("form-choices", i, "pdf", s.done(), b)


def french_print():
    """A French web page printed: the facts in a frame, the stations in a list of two columns."""
    for i, b in pair_of("pdf-listefr", unit="cm", tick=.5, french=True):
        facts = "".join(f"<p>{name} : <b>{x}</b></p>" for name, x in (("Longueur hors tout", cm(b.loa)), ("Hauteur de l’étrave", cm(b.bow)), ("Hauteur de la poupe", cm(b.stern)), ("Point de portage", cm(b.carry))))
        items = "".join(f"<div class=s><b>{at} cm</b> coque {comma(hull)} – complet {comma(full)}</div>" if i == 0 else f"<div class=s>{at} cm : tour de coque {comma(hull)} cm, tour complet {comma(full)} cm</div>" for at, hull, full in b.rows)
        said = ["<p>coque = tour de coque, complet = tour complet, en centimètres</p>", ""][i]
        style = "body{font:13px 'Liberation Sans',sans-serif}.f{border:1px solid #333;padding:4px 12px;width:9cm}.f p{margin:3px}.s{padding:3px 0}" + [".l{columns:2}", ".s{border-bottom:1px solid #ddd}"][i]
        emit("pdf-listefr", i, "pdf", web_pdf(f"<h2>Canot de {b.owner}</h2><div class=f>{facts}</div>{said}<div class=l>{items}</div><p>Courriel envoyé le 1er juillet 2026 ; tél. {b.phone}</p>", style), b)


LAYOUTS = (single_blanks, abbreviated, mixed, french_lines, remarked, answered_table, own_columns, exported_page, word_form, calc_remarks, half_choices, french_print)
