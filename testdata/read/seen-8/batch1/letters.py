"""Mails, plain texts, web pages and PDFs."""
import html
import json
import random

from openpyxl.styles import Border, Side
from reportlab.lib.pagesizes import A4
from reportlab.lib.units import mm

from boats import cm, comma, dec, feet, feet_tight, feet_words, foot, glyph, inch, metres, pair_of, plain, quote
from files import PAPER, XLSX, Sheet, convert, emit, fill, page, saved, sealed, separated, text, typed, workbook


def corrected_in_mail():
    """The sheet is attached; the mail says which of its girths was mistyped and what it must be."""
    for i, b in pair_of("mail-sheetcorrected", slip=False):
        k = 6
        at, hull, full = b.rows[k]
        rows = [["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)], [], ["Station (ft)", "Hull girth (in)", "Full girth (in)"]]
        rows += [[foot(a), h, f + 20 * (a == at)] for a, h, f in b.rows]
        said = [f"In the sheet I typed the full girth at {foot(at)} ft wrong. It should be {plain(full)} in.", f"Correction: full girth at {foot(at)} ft is {plain(full)} in, not {plain(full + 20)} in as in the sheet."][i]
        m = typed(b.mailbox, "sheet", ["Hello,", "", "the sheet is attached.", said, "", "Best wishes", b.owner])
        if i == 0:
            m.add_attachment(separated(rows), maintype="text", subtype="csv", filename="canoe.csv")
        else:
            m.add_attachment(saved(workbook("Canoe", rows)[0]), maintype=XLSX[0], subtype=XLSX[1], filename="canoe.xlsx")
        emit("mail-sheetcorrected", i, "eml", sealed(m), b)


def two_blocks_french():
    """A French web mail: one table of two blocks side by side, decimal commas."""
    for i, b in pair_of("mail-deuxblocsfr", unit="cm", tick=.5, french=True):
        half = (len(b.rows) + 1) // 2
        head = "".join(f"<th>{x}</th>" for x in ["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"] * 2)
        rows = ""
        for k in range(half):
            cells = [[str(row[0]), comma(row[1]), comma(row[2])] if row else [""] * 3 for row in (b.rows[k], b.rows[k + half] if k + half < len(b.rows) else None)]
            rows += "<tr>" + "".join(f"<td align=right>{x}</td>" for x in cells[0] + cells[1]) + "</tr>"
        facts = [f"Longueur hors tout : {metres(b.loa)}", f"Hauteur de l'étrave : {cm(b.bow)}", f"Hauteur de la poupe : {cm(b.stern)}", f"Point de portage : {cm(b.carry)}"]
        told = "<br>".join(html.escape(x, False) for x in facts) if i == 0 else "".join(f"<p style='margin:0'>{html.escape(x, False)}</p>" for x in facts)
        body = f"<p>Bonjour, voici les mesures de notre canot.</p><div>{told}</div><br><table border=1 cellspacing=0>{'<tr>' + head + '</tr>'}{rows}</table><p>Bien à vous,<br>{b.owner}<br>{b.phone}</p>"
        emit("mail-deuxblocsfr", i, "eml", sealed(page(b.mailbox, "Mesures pour la housse", body, cte=["quoted-printable", "base64"][i])), b)


def long_dashes():
    """Long dashes between the numbers, said in a line above; one girth of the second is a guess."""
    for i, b in pair_of("mail-longdashes"):
        doubt, stroke = [], ["—", "–"][i]
        lines = ["Hi,", "", f"Length overall {stroke} {feet(b.loa)}", f"Bow height {stroke} {quote(b.bow)}", f"Stern height {stroke} {quote(b.stern)}", f"Carry point {stroke} {quote(b.carry)}", "", f"Station {stroke} hull girth {stroke} full girth, inches:", ""]
        for k, (at, hull, full) in enumerate(b.rows):
            said = glyph(hull)
            if (i, k) == (1, 3):
                said, doubt = f"ca. {int(hull)}", [f"hull_girth@{at}"]
            lines.append(f"{foot(at)} ft {stroke} {said} {stroke} {glyph(full)}")
        emit("mail-longdashes", i, "eml", sealed(typed(b.mailbox, "Numbers", lines + ["", "Thanks", b.first])), b, doubt=doubt)


def unfilled_below():
    """A list above; below it the shop's letter without any marks, its blank lines still blank."""
    for i, b in pair_of("mail-unfilledbelow"):
        lines = ["Hello,", "", "I hope a plain list is all right, your lines would not let me type on them.", "", f"length overall = {feet_words(b.loa)}", f"bow height = {inch(b.bow)}", f"stern height = {inch(b.stern)}", f"carry point = {inch(b.carry)}", ""]
        lines += [[f"{foot(at)} ft = {plain(hull)} hull girth and {plain(full)} full girth", f"{foot(at)} ft: hull girth = {dec(hull)}, full girth = {dec(full)}"][i] for at, hull, full in b.rows]
        lines += ["", b.owner, "", "From: Pinfold Cover Loft <orders@pinfold.example>", "Sent: Friday, July 3, 2026 10:31 AM", f"To: {b.owner}", "Subject: Your measurements", "", "Please fill in and send back (about 20 minutes):", "Length overall: ____ ft ____ in", "Bow height: ____ in", "Stern height: ____ in", "Carry point: ____ in",
                  "Station   Hull girth   Full girth", "e.g. 4 ft   47 1/2   78", "1 ft      ____         ____", "2 ft      ____         ____", "and so on, at every foot.", "Pinfold Cover Loft, 902 555-0119"]
        m = typed(b.mailbox, ["RE: Your measurements", "Re: Your measurements"][i], lines)
        m["In-Reply-To"] = "<your-measurements@pinfold.example>"
        emit("mail-unfilledbelow", i, "eml", sealed(m), b)


def fixed_width():
    """A web mail whose numbers stand in a fixed-width block, and a plain part that says less."""
    for i, b in pair_of("mail-fixedwidth"):
        table = ["Feet      Hull girth    Full girth", "from bow  (inches)      (inches)"] + [f"{foot(at):>4}      {[plain, dec][i](hull):<14}{[plain, dec][i](full)}" for at, hull, full in b.rows]
        facts = [f"Length overall  {feet(b.loa)}", f"Bow height      {quote(b.bow)}", f"Stern height    {quote(b.stern)}", f"Carry point     {quote(b.carry)}"]
        block = html.escape("\n".join(facts + [""] + table), False)
        body = f"<p>Good evening,</p><p>here is the boat:</p><pre style='font-family:monospace'>{block}</pre><p>{b.first}</p>"
        if i == 0:
            m = page(b.mailbox, "The boat", body)
        else:
            m = typed(b.mailbox, "The boat", ["Good evening, this message needs a program that shows web pages."])
            m.add_alternative(f"<html><body>{body}</body></html>", subtype="html")
        emit("mail-fixedwidth", i, "eml", sealed(m), b)


def chat_log():
    """What two people wrote to each other while they measured, with the time before each line."""
    for i, b in pair_of("mail-chatlog", slip=False):
        clock, lines = 18 * 60 + 2, ["Hi, my brother held the tape and wrote me the numbers in the chat, so I just paste it:", ""]

        def say(who, words):
            nonlocal clock
            clock += 1 + clock % 2
            lines.append([f"[7/4/26, {clock // 60}:{clock % 60:02}] {who}: {words}", f"{clock // 60}:{clock % 60:02} {who}: {words}"][i])

        say("Wilf", "ready?"), say(b.first, "yes, inches please")
        say("Wilf", f"length overall {feet_words(b.loa)}"), say("Wilf", f"bow height {plain(b.bow)}"), say("Wilf", f"stern height {plain(b.stern)}"), say("Wilf", f"carry point {plain(b.carry)}"), say(b.first, "got it")
        for k, (at, hull, full) in enumerate(b.rows):
            say("Wilf", f"{foot(at)} ft hull girth {plain(hull)} full girth {plain(full)}")
            if k in (3, 8):
                say(b.first, ["ok, 5 minutes break", "ok"][k // 8])
        say(b.first, "that was the last one")
        emit("mail-chatlog", i, "eml", sealed(typed(b.mailbox, "Measured!", lines + ["", "Greetings", b.owner])), b)


def programmer():
    """A programmer's notation, kept in a text file."""
    for i, b in pair_of("txt-notation"):
        if i == 0:
            data = {"boat": b.craft, "unit": "in", "length_overall": b.loa, "bow_height": b.bow, "stern_height": b.stern, "carry_point": b.carry, "stations": [{"ft": foot(at), "hull_girth": hull, "full_girth": full} for at, hull, full in b.rows]}
        else:
            data = {"measured": "2026-07-05", "units": "inches", "length overall": b.loa, "bow height": b.bow, "stern height": b.stern, "carry point": b.carry, "girths": {f"{foot(at)} ft": {"hull girth": hull, "full girth": full} for at, hull, full in b.rows}}
        emit("txt-notation", i, "txt", text([json.dumps(data, indent=2)]), b)


def fives():
    """Five stations at a time, three lines each."""
    for i, b in pair_of("txt-fives"):
        write = [dec, glyph][i]
        lines = [f"{b.craft}, {b.owner}", "", f"Length overall: {feet_tight(b.loa)}    Bow height: {quote(b.bow)}    Stern height: {quote(b.stern)}    Carry point: {quote(b.carry)}", "", "Girths in inches", ""]
        for k in range(0, len(b.rows), 5):
            some = b.rows[k:k + 5]
            lines += [["Feet from bow", "Station (ft)"][i].ljust(14) + "".join(f"{foot(at):>8}" for at, _, _ in some), "Hull girth".ljust(14) + "".join(f"{write(hull):>8}" for _, hull, _ in some), "Full girth".ljust(14) + "".join(f"{write(full):>8}" for _, _, full in some), ""]
        emit("txt-fives", i, "txt", text(lines, newline=["\n", "\r\n"][i]), b)


def club_page():
    """A club's page, saved: opening hours and fees at the side, the table of the boat in the middle."""
    for i, b in pair_of("html-clubpage", slip=False):
        rows = "".join(f"<tr><td>{foot(at)} ft</td><td>{html.escape(quote(hull), False)}</td><td>{html.escape(quote(full), False)}</td></tr>\n" for at, hull, full in b.rows)
        fleet = "<table class=fees><caption>Fees</caption><tr><th>Boat</th><th>Hour</th><th>Day</th></tr><tr><td>Canoe</td><td>12</td><td>45</td></tr><tr><td>Skiff</td><td>15</td><td>60</td></tr></table>" if i else ""
        body = (f"<nav><a href='#'>Home</a> | <a href='#'>Fleet (12)</a> | <a href='#'>Contact</a></nav><aside><p>Open Tue and Thu 18:00-20:00</p>{fleet}</aside><main><h1>Boat {7 + i}: measurements for the cover</h1><p>Taken by {b.owner} on 5 July.</p>"
                f"<ul><li>Length overall: {feet(b.loa)}</li><li>Bow height: {quote(b.bow)}</li><li>Stern height: {quote(b.stern)}</li><li>Carry point: {quote(b.carry)}</li></ul>\n<table class=data>\n<thead><tr><th>Station</th><th>Hull girth</th><th>Full girth</th></tr></thead>\n<tbody>\n{rows}</tbody></table></main><footer>Last edited 6 July 2026, 22:40. Page read 31 times.</footer>")
        emit("html-clubpage", i, "html", f"<!doctype html>\n<html lang=en><head><meta charset=utf-8><title>Heron Reach Paddlers</title><style>aside{{float:right}}td{{padding:2px 8px}}</style></head>\n<body>{body}</body></html>\n".encode(), b)


def till_roll():
    """Printed on the narrow paper of a till."""
    for i, b in pair_of("pdf-tillroll", feet=(11, 15)):
        s = Sheet((80 * mm, 210 * mm), "Courier", 9)
        s.say(113, 24, "CANOE MEASUREMENTS", centred=True), s.say(113, 36, "05/07/2026 14:22", centred=True), s.say(12, 50, "-" * 37)
        facts = (("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry)))
        for k, (name, x) in enumerate(facts):
            s.say(12, 64 + 13 * k, name), s.say(212, 64 + 13 * k, x, right=True)
        s.say(12, 116, "-" * 37), s.say(12, 130, "Feet"), s.say(140, 130, "Hull girth", right=True), s.say(212, 130, "Full girth", right=True)
        for k, (at, hull, full) in enumerate(b.rows):
            y = 146 + 14 * k
            s.say(12, y, [foot(at), f"{foot(at)} ft"][i]), s.say(140, y, [dec, plain][i](hull), right=True), s.say(212, y, [dec, plain][i](full), right=True)
        y = 146 + 14 * len(b.rows)
        s.say(12, y, "-" * 37), s.say(113, y + 14, "all girths in inches", centred=True), s.say(113, y + 28, "THANK YOU", centred=True)
        emit("pdf-tillroll", i, "pdf", s.done(), b)


def french_sheet():
    """A French sheet printed: numbers shown with commas, the boat at the right of the girths."""
    line = Side(style="thin")
    for i, b in pair_of("pdf-feuillefr", unit="cm", tick=.5, french=True):
        book, sheet = workbook("Feuille1", [["Canot de " + b.owner], [], ["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"]])
        fill(sheet, [[at, hull, full] for at, hull, full in b.rows])
        for k, (name, x) in enumerate((("Longueur hors tout (cm)", b.loa), ("Hauteur de l'étrave (cm)", b.bow), ("Hauteur de la poupe (cm)", b.stern), ("Point de portage (cm)", b.carry))):
            sheet.cell(3 + k, 5, name), sheet.cell(3 + k, 6, x)
        for row in sheet.iter_rows(min_row=3):
            for cell in row:
                if cell.value is not None:
                    cell.border = Border(left=line, right=line, top=line, bottom=line)
                if cell.column in (2, 3, 6) and cell.row > 2:
                    cell.number_format = ["[$-40C]0.0", "[$-40C]General"][i]
        for column, width in zip("ABCDEF", (13, 19, 19, 3, 25, 9)):
            sheet.column_dimensions[column].width = width
        sheet.page_setup.orientation = "landscape"
        emit("pdf-feuillefr", i, "pdf", convert(saved(book), "xlsx", "pdf"), b)


def overtyped():
    """A blank with printed lines, typed over a little askew; the first has a girth with a wave before it."""
    for i, b in pair_of("pdf-overtyped", feet=(11, 16)):
        r, s, doubt = random.Random(f"askew {i}"), Sheet([PAPER, A4][i], "Helvetica", 9), []

        def line(x, y, width):
            s.canvas.line(x, s.height - y - 2, x + width, s.height - y - 2)

        def typed_at(x, y, words):
            s.canvas.setFont("Courier", 11)
            s.say(x + r.uniform(-3, 6), y + r.uniform(-2.5, 1.5), words)
            s.canvas.setFont("Helvetica", 9)

        s.say(60, 50, "BOAT MEASUREMENTS (please use a typewriter or block letters)")
        s.say(60, 80, "Name"), line(140, 80, 200), typed_at(146, 80, b.owner), s.say(360, 80, "Telephone"), line(420, 80, 120), typed_at(424, 80, b.phone)
        s.say(60, 104, "Length overall"), line(140, 104, 100), typed_at(150, 104, feet(b.loa)), s.say(300, 104, "Carry point"), line(380, 104, 80), typed_at(390, 104, quote(b.carry))
        s.say(60, 128, "Bow height"), line(140, 128, 100), typed_at(150, 128, quote(b.bow)), s.say(300, 128, "Stern height"), line(380, 128, 80), typed_at(390, 128, quote(b.stern))
        s.say(60, 164, "Station (feet)"), s.say(180, 164, "Hull girth (inches)"), s.say(320, 164, "Full girth (inches)")
        for k, (at, hull, full) in enumerate(b.rows):
            y = 190 + 24 * k
            s.say(80, y, foot(at)), line(180, y, 90), line(320, y, 90)
            said = plain(hull)
            if (i, k) == (0, 4):
                said, doubt = f"~{int(hull)}", [f"hull_girth@{at}"]
            typed_at(195, y, said), typed_at(335, y, plain(full))
        emit("pdf-overtyped", i, "pdf", s.done(), b, doubt=doubt)


def form_of_two_pages():
    """A filled form on two pages, the greatest girth at the end of the second."""
    for i, b in pair_of("form-twopages", slip=False, feet=(13, 17)):
        s, write = Sheet([PAPER, A4][i]), [dec, plain][i]

        def heading(y):
            s.say(60, y, "Feet from bow"), s.say(170, y, "Hull girth (in)"), s.say(290, y, "Full girth (in)")

        def row(k, y):
            at, hull, full = b.rows[k]
            s.say(90, y, foot(at)), s.field(f"p{k + 1}_hull", 170, y, write(hull)), s.field(f"p{k + 1}_full", 290, y, write(full))

        s.say(60, 46, "Boat survey, page 1 of 2"), s.say(60, 74, "Owner"), s.field("owner", 150, 74, b.owner, 150), s.say(320, 74, "Tel."), s.field("tel", 350, 74, b.phone, 110)
        for k, (label, name, x) in enumerate((("Length overall", "length", feet_words(b.loa)), ("Bow height (in)", "bow", write(b.bow)), ("Stern height (in)", "stern", write(b.stern)), ("Carry point (in)", "carry", write(b.carry)))):
            s.say(60, 102 + 24 * k, label), s.field(name, 150, 102 + 24 * k, x, 90)
        heading(216)
        for k in range(9):
            row(k, 240 + 26 * k)
        s.canvas.showPage()
        s.canvas.setFont("Helvetica", 10)
        s.say(60, 46, "Boat survey, page 2 of 2"), heading(80)
        for k in range(9, len(b.rows)):
            row(k, 104 + 26 * (k - 9))
        y = 130 + 26 * (len(b.rows) - 9)
        at, hull, full = b.great
        s.say(60, y, "Greatest girth")
        for k, (label, name, x) in enumerate((("Distance from bow", "g_at", feet_words(at)), ("Hull girth there (in)", "g_hull", write(hull)), ("Full girth there (in)", "g_full", write(full)), ("Opening there (in)", "g_open", write(b.opening)))):
            s.say(60, y + 26 + 24 * k, label), s.field(name, 180, y + 26 + 24 * k, x, 90)
        emit("form-twopages", i, "pdf", s.done(), b, b.want(great=True))


LAYOUTS = (corrected_in_mail, two_blocks_french, long_dashes, unfilled_below, fixed_width, chat_log, programmer, fives, club_page, till_roll, french_sheet, overtyped, form_of_two_pages)
