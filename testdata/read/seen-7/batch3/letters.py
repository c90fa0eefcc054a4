"""Mails, plain texts, web pages and PDFs."""
import html

import docx
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.shared import Cm
from openpyxl.styles import Border, Side
from reportlab.lib.pagesizes import A4

from boats import cm, comma, curly, dec, feet, feet_french, feet_long, feet_words, foot, glyph, inch, inches, metres, pair_of, plain, quote
from files import PAPER, Sheet, convert, emit, page, saved, sealed, text, typed, web_pdf, workbook


def tired():
    """Whole words to begin with, shorter and shorter towards the stern; a guess in the first."""
    for i, b in pair_of("mail-tired"):
        doubt = [[f"full_girth@{b.rows[-2][0]}"], []][i]
        lines = ["Dear Pinfold Cover Loft,", "", f"The length overall is {feet_long(b.loa)}.", f"The bow height is {inches(b.bow)} and the stern height is {inches(b.stern)}.", f"The carry point is {inches(b.carry)} from the bow.", "", "Now the girths, all in inches:", ""]
        for k, (at, hull, full) in enumerate(b.rows):
            end = f"about {int(full)}" if f"full_girth@{at}" in doubt else plain(full)
            if k < 3:
                lines.append(f"At {foot(at)} {'foot' if at == 12 else 'feet'} from the bow the hull girth is {plain(hull)} and the full girth is {end}.")
            elif k < 6:
                lines.append(f"{foot(at)} feet: hull girth {plain(hull)}, full girth {end}")
            else:
                lines.append([f"{foot(at)} ft: hull {plain(hull)}, full {end}", f"{foot(at)}': h {plain(hull)} f {end}"][i])
        emit("mail-tired", i, "eml", sealed(typed(b.mailbox, "Cover for our canoe", lines + ["", "Phew. I hope you can read it all.", b.owner])), b, doubt=doubt)


def long_feet():
    """Girths in feet and inches, written out."""
    for i, b in pair_of("mail-longfeet", feet=(12, 15)):
        lines = ["Hello,", "", f"Length overall: {feet_long(b.loa)}", f"Bow height: {feet_long(b.bow)}", f"Stern height: {feet_long(b.stern)}", f"Carry point: {feet_long(b.carry)}", ""]
        lines += [[f"{foot(at)} foot mark: hull girth {feet_long(hull)}; full girth {feet_long(full)}", f"Station at {feet_long(at)}. Hull girth {feet_long(hull)}. Full girth {feet_long(full)}."][i] for at, hull, full in b.rows]
        emit("mail-longfeet", i, "eml", sealed(typed(b.mailbox, "Feet and inches", lines + ["", "Yours,", b.owner])), b)


def bands():
    """Across, in bands of six stations, so that no line is longer than the window."""
    for i, b in pair_of("mail-bands", feet=(12, 17)):
        lines = ["Hi,", "", f"Length overall {feet(b.loa)}   Bow height {quote(b.bow)}   Stern height {quote(b.stern)}   Carry point {quote(b.carry)}", "", "Girths in inches:", ""]
        for k in range(0, len(b.rows), 6):
            part = b.rows[k:k + 6]
            lines += [f"{name:<14}" + "".join(f"{x:>7}" for x in cells) for name, cells in ((["Feet from bow", "Station (ft)"][i], [foot(at) for at, _, _ in part]), ("Hull girth", [dec(hull) for _, hull, _ in part]), ("Full girth", [dec(full) for _, _, full in part]))] + [""]
        emit("mail-bands", i, "eml", sealed(typed(b.mailbox, "numbers", lines + [f"{b.first} ({b.phone})"])), b)


def remarks_french():
    """French lines with a remark in brackets behind some; a girth between two marks in the first."""
    for i, b in pair_of("mail-remarquesfr", unit="cm", tick=.5, french=True):
        said = {1: " (avec le liston)", 4: " (banc à 2 cm sous le bord)", 7: " (ruban de 3 m, repris deux fois)"}
        doubt = [[f"hull_girth@{b.rows[5][0]}"], []][i]
        lines = ["Bonjour Madame,", "", f"- longueur hors tout : {cm(b.loa)}", f"- hauteur de l’étrave : {cm(b.bow)}", f"- hauteur de la poupe : {cm(b.stern)}", f"- point de portage : {cm(b.carry)}", ""]
        for k, (at, hull, full) in enumerate(b.rows):
            coque = f"entre {int(hull)} et {int(hull) + 1}" if f"hull_girth@{at}" in doubt else comma(hull)
            lines.append([f"- à {at} cm : coque {coque}, complet {comma(full)}{said.get(k, '')}", f"- {at} cm : tour de coque {comma(hull)} cm ; tour complet {comma(full)} cm{said.get(k, '')}"][i])
        emit("mail-remarquesfr", i, "eml", sealed(typed(b.mailbox, "Mesures", lines + ["", "Cordialement,", b.owner])), b, doubt=doubt)


def table_feet_french():
    """A French web mail with a table of feet and inches; a square stern."""
    for i, b in pair_of("mail-tableaupo", kind="square", feet=(9, 13), french=True, slip=False):
        rows = "".join(f"<tr><td>{foot(at)} pi</td><td>{[plain, glyph][i](hull)} po</td><td>{[plain, glyph][i](full)} po</td></tr>" for at, hull, full in b.rows)
        rows += "<tr><td>" + ["tableau arrière", "Au tableau"][i] + "</td>" + "".join(f"<td>{[plain, glyph][i](x)} po</td>" for x in b.transom) + "</tr>"
        facts = "<br>".join(f"{name} : {x}" for name, x in (("Longueur hors tout", feet_french(b.loa)), ("Hauteur de l'étrave", f"{plain(b.bow)} po"), ("Hauteur de la poupe", f"{plain(b.stern)} po"), ("Point de portage", f"{plain(b.carry)} po")))
        body = f"<p>Bonjour,</p><p>{facts}</p><table border='1'><thead><tr><th>Station</th><th>Tour de coque</th><th>Tour complet</th></tr></thead><tbody>{rows}</tbody></table><p>{b.owner}<br>{b.phone}</p>"
        m = page(b.mailbox, "Chaloupe à tableau", body)
        emit("mail-tableaupo", i, "eml", sealed(m), b)


def on_quoted():
    """The answers typed behind the shop's own lines, in the quotation; the stern height is left for later in the second."""
    for i, b in pair_of("mail-onquoted", slip=False):
        dots = ["........", "____"][i]
        stern = [quote(b.stern), "(tomorrow, the trestle was in the way)"][i]
        lines = ["Hello, I wrote my answers on your list below.", b.first, "", "On 2 July 2026 Pinfold Cover Loft wrote:", "> Please fill in and send back:", ">"]
        lines += [f"> {name} {dots} {x}" for name, x in (("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", stern), ("Carry point", quote(b.carry)))] + [">"]
        lines += [f"> {foot(at)} ft: hull girth {dots} {glyph(hull)}  full girth {dots} {glyph(full)}" for at, hull, full in b.rows] + [">", "> Thank you. Half a survey is welcome too."]
        emit("mail-onquoted", i, "eml", sealed(typed(b.mailbox, "Re: Measuring list", lines)), b, b.want(["stern_height"][: i]))


def cards():
    """A web mail out of a telephone's notes: a small heading for each station; a decked boat."""
    for i, b in pair_of("mail-cards", kind="decked", feet=(12, 16)):
        body = f"<h2>{b.craft.capitalize()}</h2>" + "".join(f"<div><b>{name}</b> {x}</div>" for name, x in (("Length overall", feet(b.loa)), ("Bow height", curly(b.bow)), ("Stern height", curly(b.stern)), ("Carry point", curly(b.carry)))) + "<p>Decked, so the tape went over the deck.</p>"
        for at, hull, full in b.rows:
            body += f"<h3>{foot(at)} ft</h3>" + [f"<p>Hull girth {curly(hull)}</p><p>Full girth {curly(full)}</p>", f"<div>Hull girth: {plain(hull)} in<br>Full girth: {plain(full)} in</div>"][i]
        emit("mail-cards", i, "eml", sealed(page(b.mailbox, "Kayak", body + f"<p>{b.first}</p>")), b)


def both_units():
    """Inches with the centimetres of the tape's other edge in brackets; in the second the two of one girth do not agree."""
    for i, b in pair_of("mail-twoedges", slip=False):
        k = len(b.rows) // 2
        doubt = [[], [f"hull_girth@{b.rows[k][0]}"]][i]

        def said(x, off=0):
            return [f"{plain(x)} in ({round(x * 2.54) + off} cm)", f"{dec(x)}\" = {round(x * 2.54) + off} cm"][i]
        lines = ["Hi,", "", "my tape has inches on one edge and centimetres on the other so you get both.", "", f"Length overall {feet_words(b.loa)} ({round(b.loa * 2.54)} cm)", f"Bow height {said(b.bow)}", f"Stern height {said(b.stern)}", f"Carry point {said(b.carry)}", ""]
        lines += [f"{foot(at)} ft: hull girth {said(hull, -20 if i == 1 and n == k else 0)}, full girth {said(full)}" for n, (at, hull, full) in enumerate(b.rows)]
        emit("mail-twoedges", i, "eml", sealed(typed(b.mailbox, "Both sides of the tape", lines + ["", b.owner])), b, doubt=doubt)


def millimetres():
    """A joiner's millimetres, a square stern."""
    for i, b in pair_of("mail-joiner", unit="cm", kind="square", tick=.5, feet=(9, 13)):
        def mm(x):
            return f"{x * 10:g}" + ["", " mm"][i]
        lines = [f"{b.craft}, built here in the shop. All dimensions in mm.", "", f"LENGTH OVERALL  {mm(b.loa)}", f"BOW HEIGHT      {mm(b.bow)}", f"STERN HEIGHT    {mm(b.stern)}", f"CARRY POINT     {mm(b.carry)}", "", f"{'STATION':<12}{'HULL GIRTH':<14}FULL GIRTH"]
        lines += [f"{at * 10:<12}{mm(hull):<14}{mm(full)}" for at, hull, full in b.rows] + [f"{'TRANSOM':<12}{mm(b.transom[0]):<14}{mm(b.transom[1])}", "", b.owner]
        emit("mail-joiner", i, "eml", sealed(typed(b.mailbox, "skiff dims", lines)), b)


def timed():
    """Notes with the time of day in front; a girth that was forgotten in the second."""
    for i, b in pair_of("txt-timed", slip=False):
        gone = f"full_girth@{b.rows[6][0]}" if i else ""
        lines = [f"Sunday 5 July, {b.craft}, {b.owner} and neighbour", "", f"13:50  length overall {feet(b.loa)}", f"13:54  bow height {quote(b.bow)}", f"13:57  stern height {quote(b.stern)}", f"14:00  carry point {quote(b.carry)}"]
        for k, (at, hull, full) in enumerate(b.rows):
            clock = f"14:{4 + 2 * k:02}"
            lines.append(f"{clock}  {foot(at)} ft  hull girth {plain(hull)}  full girth " + ("forgotten!" if f"full_girth@{at}" == gone else plain(full)))
            if k == 4:
                lines.append("14:13  coffee")
        emit("txt-timed", i, "txt", text(lines), b, b.want([gone]))


def stern_first():
    """The list runs from the stern forward; the distances are from the bow all the same."""
    for i, b in pair_of("txt-sternfirst"):
        lines = ["Working from the stern forward (distances are from the BOW).", "", f"Stern height {inch(b.stern)}"]
        lines += [[f"{foot(at):>3} ft   hull girth {plain(hull):<8} full girth {plain(full)}", f"{foot(at)} ft - hull girth: {dec(hull)} - full girth: {dec(full)}"][i] for at, hull, full in b.rows[::-1]]
        lines += [f"Carry point {inch(b.carry)}", f"Bow height {inch(b.bow)}", f"Length overall {feet_words(b.loa)}"]
        emit("txt-sternfirst", i, "txt", text(lines, newline=["\n", "\r\n"][i]), b)


def across_french():
    """A French web page with the stations across."""
    for i, b in pair_of("html-traversfr", unit="cm", french=True, feet=(11, 14)):
        facts = "".join(f"<tr><th align=left>{name}</th><td>{x}</td></tr>" for name, x in (("Longueur hors tout", metres(b.loa)), ("Hauteur de l'étrave", cm(b.bow)), ("Hauteur de la poupe", cm(b.stern)), ("Point de portage", cm(b.carry))))
        lines = "".join(f"<tr><th>{name}</th>" + "".join(f"<td>{x}</td>" for x in cells) + "</tr>" for name, cells in (("Station (cm)", [at for at, _, _ in b.rows]), ("Tour de coque (cm)", [hull for _, hull, _ in b.rows]), ("Tour complet (cm)", [full for _, _, full in b.rows])))
        body = f"<h1>Canot de {html.escape(b.owner)}</h1><table>{facts}</table><table border=1>{lines}</table><p>Mesuré le 4 juillet 2026 par 22 °C.</p>"
        emit("html-traversfr", i, "html", f"<!doctype html>\n<html lang='fr'><head><meta charset='utf-8'><title>Canot</title></head><body>{body}</body></html>\n".encode(), b)


def tabs_french():
    """French lines out of Writer, the numbers lined up by their decimal comma."""
    for i, b in pair_of("pdf-virgulesfr", unit="cm", tick=.5, french=True, slip=False):
        d = docx.Document()
        d.add_heading(["Mesures de mon canot", "Relevé"][i], 2)

        def line(words, stops):
            p = d.add_paragraph(words)
            p.paragraph_format.space_after = Cm(.05)
            for stop, how in stops:
                p.paragraph_format.tab_stops.add_tab_stop(Cm(stop), how)
        for name, x in (("Longueur hors tout", b.loa), ("Hauteur de l'étrave", b.bow), ("Hauteur de la poupe", b.stern), ("Point de portage", b.carry)):
            line(f"{name}\t{comma(x)} cm", [(8, WD_TAB_ALIGNMENT.DECIMAL)])
        line("", [])
        line("Station\tTour de coque\tTour complet", [(5, WD_TAB_ALIGNMENT.CENTER), (9, WD_TAB_ALIGNMENT.CENTER)])
        for at, hull, full in b.rows:
            line(f"{at} cm\t{comma(hull)}\t{comma(full)}", [(5, WD_TAB_ALIGNMENT.DECIMAL), (9, WD_TAB_ALIGNMENT.DECIMAL)])
        emit("pdf-virgulesfr", i, "pdf", convert(saved(d), "docx", "pdf"), b)


def order_form():
    """An order printed by a browser: number, quantity and colour stand above the survey."""
    for i, b in pair_of("pdf-orderform"):
        told = (("Order no.", f"2026-{417 + i}"), ("Quantity", "1"), ("Colour", "No. 14, dark green"), ("Customer", f"{b.owner}, {12 + i} Mill Road, tel. {b.phone}"), ("Boat", b.craft))
        facts = (("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry)))

        def lines(pairs):
            return "".join(f"<tr><th>{name}</th><td>{html.escape(x, False)}</td></tr>" for name, x in pairs)
        rows = "".join(f"<tr><td>{foot(at)}</td><td>{[plain, glyph][i](hull)}</td><td>{[plain, glyph][i](full)}</td></tr>" for at, hull, full in b.rows)
        body = f"<h2>Order: fitted cover</h2><table>{lines(told)}</table><h3>Survey</h3><table>{lines(facts)}</table><br><table><tr><th>Feet from bow</th><th>Hull girth, inches</th><th>Full girth, inches</th></tr>{rows}</table><p>Deposit 50 %, balance within 30 days.</p>"
        emit("pdf-orderform", i, "pdf", web_pdf(body, "body{font:11pt serif}table{border-collapse:collapse}td,th{border:1px solid #999;padding:2px 10px;text-align:left}"), b)


def hints():
    """A form whose unfilled fields keep the hint that was printed in them."""
    for i, b in pair_of("form-hints", feet=(11, 15)):
        s = Sheet([PAPER, A4][i])
        s.say(60, 46, "BOAT COVER SURVEY"), s.say(60, 72, "Owner"), s.field("owner", 160, 72, b.owner, 150), s.say(330, 72, "Second owner"), s.field("owner2", 410, 72, "(if any)", 90)
        for k, (label, name, x) in enumerate((("Length overall", "overall", feet(b.loa)), ("Bow height (in)", "height_bow", plain(b.bow)), ("Stern height (in)", "height_stern", plain(b.stern)), ("Carry point (in)", "carry", plain(b.carry)))):
            s.say(60 + 250 * (k % 2), 98 + 24 * (k // 2), label), s.field(name, 160 + 250 * (k % 2), 98 + 24 * (k // 2), x, 80)
        s.say(60, 158, "Station"), s.say(150, 158, "Hull girth (in)"), s.say(250, 158, "Full girth (in)")
        for k in range(18):
            y, filled = 180 + 22 * k, k < len(b.rows)
            s.say(60, y, f"{k + 1} ft")
            for x, name, column in ((150, "hull", 1), (250, "full", 2)):
                s.field(f"{name}_{k + 1}", x, y, [dec, plain][i](b.rows[k][column]) if filled else ["inches", ""][i])
        s.say(60, 586, "Transom"), s.field("t_hull", 150, 586, "(square stern)", 70), s.field("t_full", 250, 586, "(square stern)", 70)
        s.say(60, 612, "Remarks"), s.field("remarks", 150, 612, ["Yoke left on. 2 seats.", "(anything we should know)"][i], 280)
        emit("form-hints", i, "pdf", s.done(), b)


def printed_french():
    """A French workbook printed by Calc, the unit in the number's format."""
    for i, b in pair_of("pdf-calcfr", unit="cm", french=True):
        book, sheet = workbook("Canot", [["Canot", b.owner], [], ["Longueur hors tout", b.loa], ["Hauteur de l'étrave", b.bow], ["Hauteur de la poupe", b.stern], ["Point de portage", b.carry], [], ["Distance de l'étrave", "Tour de coque", "Tour complet"], *b.rows])
        for column in "ABC":
            sheet.column_dimensions[column].width = 22
        for row in sheet.iter_rows(min_row=3):
            for cell in row:
                cell.border = Border(*[Side("thin")] * 4)
                if isinstance(cell.value, (int, float)):
                    cell.number_format = '0" cm"'
        emit("pdf-calcfr", i, "pdf", convert(saved(book), "xlsx", "pdf"), b)


LAYOUTS = (tired, long_feet, bands, remarks_french, table_feet_french, on_quoted, cards, both_units, millimetres, timed, stern_first, across_french, tabs_french, order_form, hints, printed_french)
