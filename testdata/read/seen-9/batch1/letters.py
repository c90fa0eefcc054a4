"""Mails, plain texts, web pages and PDFs."""
import html

from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, Spacer, Table, TableStyle

from boats import cm, curly, dec, feet, feet_french, feet_long, feet_words, foot, glyph, inch, inches, metres, pair_of, plain, quote, spaced
from files import PAPER, Sheet, emit, laid_out, mail, page, sealed, text, typed


def plainly(words):
    return html.escape(words, False)


def other_canoe():
    """The survey, and below it what the owner remembers of an earlier canoe that the shop made a cover for."""
    for i, b in pair_of("mail-othercanoe"):
        other = ["My other canoe, the green one you made a cover for in 2019, is 16 ft 2 in long and measured 51 and 84 at the middle, only so you see that this one is a different animal.",
                 "(For comparison: my sister's boat, that you covered 3 years ago for $310, was 14 ft 8 in overall with a bow of 21 in. This is not that boat!)"][i]
        m = typed(b.mailbox, ["New boat, new cover", "cover no. 2"][i], [
            "Hello again,", "", f"I run trips on the lower river and need a cover for the {b.craft}. Measured this morning in the yard, everything in inches:", "",
            f"Length overall: {feet_words(b.loa)}", f"Bow height: {plain(b.bow)}", f"Stern height: {plain(b.stern)}", f"Carry point: {plain(b.carry)}", "",
            *[f"{foot(at)} ft - hull girth {plain(hull)} - full girth {plain(full)}" for at, hull, full in b.rows], "", other, "", f"Call me on {b.phone}, I am off the water from 5.", "", b.owner])
        emit("mail-othercanoe", i, "eml", sealed(m), b)


def seat_rows():
    """A web mail with a table in which rows of words over all columns say where the seats and thwarts are."""
    for i, b in pair_of("mail-seatrows"):
        rows = ""
        for k, (at, hull, full) in enumerate(b.rows):
            if k in (3, 6, len(b.rows) - 3):
                words = {3: "bow seat, 8 in wide, starts here", 6: "yoke", len(b.rows) - 3: "stern seat (taken out while I measured)"}[k]
                rows += f"<tr><td colspan=3 style='background:#eee'><i>{words}</i></td></tr>"
            rows += f"<tr><td>{foot(at)}{['', ' ft'][i]}</td><td>{plainly([curly, plain][i](hull))}</td><td>{plainly([curly, plain][i](full))}</td></tr>"
        head = "<tr><th>Feet from bow</th><th>Hull girth</th><th>Full girth</th></tr>" if i == 0 else "<tr><th>Station</th><th>Hull girth (inches)</th><th>Full girth (inches)</th></tr>"
        facts = f"Length overall {feet(b.loa)}, bow height {quote(b.bow)}, stern height {quote(b.stern)}, carry point {quote(b.carry)}."
        body = f"<p>Hello,</p><p>{plainly(facts)}</p><table border=1 cellpadding=4>{head}{rows}</table><p>The photo shows the boat before I painted it.</p><p>--<br>{b.owner}<br>Tel. {b.phone}<br><small>Please think before you print: 1 tree = 8000 sheets</small></p>"
        m = mail(b.mailbox, "measured with seats")
        m.set_content(f"<html><body>{body}</body></html>", subtype="html", cte=["quoted-printable", "8bit"][i])
        emit("mail-seatrows", i, "eml", sealed(m), b)


def print_and_rest():
    """A printed table is attached, and the mail says what was left out of it."""
    for i, b in pair_of("mail-pdfandrest", feet=(12, 16)):
        styles = getSampleStyleSheet()
        grid = Table([["Station, ft", "Hull girth, in", "Full girth, in"]] + [[foot(at), dec(hull), dec(full)] for at, hull, full in b.rows], style=TableStyle([("GRID", (0, 0), (-1, -1), .5, colors.grey), ("ALIGN", (0, 0), (-1, -1), "CENTER")]))
        data = laid_out([Paragraph(f"Girths of the {b.craft}", styles["Heading2"]), grid, Spacer(1, 10), Paragraph(f"Length overall: {feet_words(b.loa)}", styles["Normal"])])
        said = [["the girths are in the attached print, in inches. I forgot the rest there:", "", f"bow height {plain(b.bow)} in", f"stern height {plain(b.stern)} in", f"carry point {plain(b.carry)} in"],
                ["Girths and length are in the PDF. Not in the PDF, because I went out again after supper with a torch:", "", f"Bow height is {inches(b.bow)}, stern height is {inches(b.stern)}. Carry point is {inches(b.carry)} from the bow."]][i]
        m = typed(b.mailbox, "Girths attached, rest below", ["Dear all,", "", *said, "", "Kind regards", b.owner, b.phone])
        m.add_attachment(data, maintype="application", subtype="pdf", filename=["girths.pdf", "Scan-free copy.pdf"][i])
        emit("mail-pdfandrest", i, "eml", sealed(m), b)


def neighbour():
    """A French neighbour writes for an old man: a line a place; once neither of them is sure."""
    for i, b in pair_of("mail-voisine", unit="cm", french=True, slip=False, feet=(11, 16)):
        if i == 1:
            at, hull, full = b.rows[7]
            b.rows[7] = (at, hull, full - 30)
        doubt, lines = [], []
        for k, (at, hull, full) in enumerate(b.rows):
            line = [f"À {at} cm : coque {hull}, complet {full}", f"{at} cm de la pointe : tour de coque {hull}, tour complet {full}"][i]
            if (i, k) == (0, 8):
                line = f"À {at} cm : coque {hull} (pas certaine, peut-être 3 ou 4 de plus, le ruban avait glissé), complet {full}"
                doubt = [f"hull_girth@{at}"]
            lines.append(line)
        m = typed(b.mailbox, ["Pour mon voisin", "Le canot de M. Leduc"][i], [
            "Bonjour,", "", f"J'écris pour mon voisin, {['M. Aubin', 'M. Leduc'][i]}, qui a {[84, 79][i]} ans et pas d'ordinateur. Nous avons mesuré son canot samedi entre 10 h et 11 h, lui au ruban, moi au crayon. Tout est en centimètres.", "",
            f"Longueur hors tout : {metres(b.loa)}", f"Hauteur de l'étrave : {b.bow}", f"Hauteur de la poupe : {b.stern}", f"Point de portage : {b.carry} (le joug)" if i == 0 else f"Point de portage : {b.carry}", "",
            *lines, "", f"Son numéro est le {b.phone}, il entend mal, laissez sonner 10 coups.", "Et combien cela coûterait-il ? Il ne voudrait pas dépasser 400 $.", "", "Cordialement,", b.owner], cte=["quoted-printable", "8bit"][i])
        emit("mail-voisine", i, "eml", sealed(m), b, doubt=doubt)


def french_kayak():
    """A French web mail about a decked boat; the loop over the deck is explained; the greatest place is a sentence."""
    for i, b in pair_of("mail-kayakfr", unit="cm", kind="decked", french=True, slip=False, feet=(12, 17)):
        if i == 1:
            at, hull, full = b.rows[5]
            b.rows[5] = (at, hull + 10, full)
        rows = "".join(f"<tr><td>{at}&nbsp;cm</td><td>{hull}&nbsp;cm</td><td>{full}&nbsp;cm</td></tr>" for at, hull, full in b.rows)
        at, hull, full = b.great
        facts = "".join(f"<li>{name}&nbsp;: {x}</li>" for name, x in (("Longueur hors tout", cm(b.loa)), ("Hauteur de l’étrave", cm(b.bow)), ("Hauteur de la poupe", cm(b.stern)), ("Point de portage (bord arrière du pont avant)", cm(b.carry))))
        body = (f"<p>Bonsoir,</p><p>voici mon kayak ponté. Pour le tour complet, le ruban passe par-dessus le pont, bien tendu.</p><ul>{facts}</ul><table border=1><tr><th>Distance de l’étrave</th><th>Tour de coque</th><th>Tour complet</th></tr>{rows}</table>"
                f"<p>Le plus grand tour se trouve à {at}&nbsp;cm de l’étrave&nbsp;: tour de coque {hull}&nbsp;cm, tour complet {full}&nbsp;cm.</p><p>Hiloire de 82 sur 41 cm, si cela vous sert. Je suis joignable au {b.phone}.</p><p>{b.owner}</p>")
        values = b.want(great=True)
        del values["greatest.opening"]
        m = page(b.mailbox, "kayak ponté", body, cte="quoted-printable")
        emit("mail-kayakfr", i, "eml", sealed(m), b, values)


def screen_reader():
    """Somebody who works by ear: sentences with a full stop after each, fractions in words."""
    names = {.5: "one half", .25: "one quarter", .75: "three quarters"}

    def spoken(x):
        return f"{int(x)} and {names[x % 1]}" if x % 1 else str(int(x))
    for i, b in pair_of("txt-screenreader", feet=(11, 15)):
        lines = ["Boat measurements. Plain text, because I use a screen reader. Please answer in plain text too.", f"From {b.owner}. Telephone {b.phone}.", "All lengths are in inches unless I say feet.", "",
                 f"Length overall. {int(b.loa // 12)} feet" + (f", {spoken(b.loa % 12)} inches." if b.loa % 12 else "."), f"Bow height. {spoken(b.bow)}.", f"Stern height. {spoken(b.stern)}.", f"Carry point. {spoken(b.carry)}.", ""]
        for at, hull, full in b.rows:
            lines.append(f"Station at {foot(at)} {'foot' if at == 12 else 'feet'}. Hull girth, {spoken(hull)}. Full girth, {spoken(full)}.")
        lines += ["", "End of measurements. My daughter read the tape and I wrote."]
        emit("txt-screenreader", i, "txt", text(lines, newline=["\r\n", "\n"][i]), b)


def workshop():
    """A French-speaking boat builder in feet and inches, bars between."""
    for i, b in pair_of("txt-atelierfr", french=True):
        lines = [["ATELIER - relevé pour housse", "Relevé pour housse, atelier du quai"][i], f"client : {b.owner}   tél. {b.phone}", "mesures au pied et au pouce", "",
                 f"longueur hors tout : {feet_french(b.loa)}", f"hauteur de l'étrave : {plain(b.bow)} po", f"hauteur de la poupe : {plain(b.stern)} po", f"point de portage : {plain(b.carry)} po", "", ["station | tour de coque | tour complet", "station / coque / complet"][i]]
        lines += [[f"{foot(at)} pi | {spaced(hull)} po | {spaced(full)} po", f"{foot(at)} pi / {plain(hull)} po / {plain(full)} po"][i] for at, hull, full in b.rows]
        lines += ["", "varangue no 6 remplacée en 2022, ça ne change rien à la forme"]
        emit("txt-atelierfr", i, "txt", text(lines, encoding=["utf-8", "latin-1"][i]), b)


def web_log():
    """A page of somebody's web log about doing up the boat: words, the table, visitors' comments with numbers below."""
    for i, b in pair_of("html-blog"):
        rows = "".join(f"<tr><td>{foot(at)}</td><td>{glyph(hull)}</td><td>{glyph(full)}</td></tr>\n" for at, hull, full in b.rows)
        facts = f"<p>Length overall: <b>{plainly(feet_long(b.loa))}</b><br>Bow height: <b>{glyph(b.bow)} in</b><br>Stern height: <b>{glyph(b.stern)} in</b><br>Carry point: <b>{glyph(b.carry)} in</b></p>"
        body = (f"<header><h1>Shavings &amp; Varnish</h1><p>Post 37, August {10 + i}, 2026</p></header>\n<article><h2>Measuring her for a cover</h2>\n<p>After 14 months and about 300 hours the {b.craft} is done. She weighs 61 lb. Now she wants a cover, so out came the tape.</p>\n{facts}\n"
                f"<table><caption>Girths in inches</caption>\n<tr><th>Feet from the bow</th><th>Hull girth</th><th>Full girth</th></tr>\n{rows}</table>\n<p>It took me 25 minutes and one spilled coffee.</p></article>\n"
                "<section class=comments><h3>3 comments</h3><p><b>Oarlock72</b>: Mine is 15 ft and 36 in wide, paid 420 for the cover.</p><p><b>Mo</b>: lovely! 5 stars</p><p><b>Oarlock72</b>: bow height on mine is 20 in, by the way.</p></section>")
        emit("html-blog", i, "html", f"<!doctype html>\n<html lang=en><head><meta charset=utf-8><title>Shavings &amp; Varnish</title><style>table{{border-collapse:collapse}}td,th{{border:1px solid #999;padding:2px 9px}}.comments{{color:#555}}</style></head>\n<body>{body}</body></html>\n".encode(), b)


def summary_french():
    """The page that a French web form shows when it was sent: a label and an answer a row."""
    for i, b in pair_of("html-recapfr", unit="cm", french=True, feet=(11, 15)):
        def row(name, x):
            return f"<tr><th scope=row>{name}</th><td>{x}</td></tr>\n"
        girths = "".join(row(f"Tour de coque à {at} cm", f"{hull} cm") + row(f"Tour complet à {at} cm", f"{full} cm") for at, hull, full in b.rows)
        if i == 1:
            girths = "".join(row(f"Station {at} cm : tour de coque", hull) + row(f"Station {at} cm : tour complet", full) for at, hull, full in b.rows)
        body = (f"<h1>Merci, votre envoi n° {4410 + i} est enregistré</h1><p>Reçu le 15/08/2026 à 9 h 12. Imprimez cette page ou enregistrez-la.</p>\n<table>\n" + row("Nom", b.owner) + row("Téléphone", b.phone) + row("Longueur hors tout", cm(b.loa)) + row("Hauteur de l'étrave", cm(b.bow)) + row("Hauteur de la poupe", cm(b.stern)) + row("Point de portage", cm(b.carry))
                + ("" if i == 0 else row("Unité des tours", "centimètres")) + girths + row("Couleur souhaitée", "vert 12") + "</table><p><a href='#'>Modifier</a> - Étape 4 sur 4</p>")
        emit("html-recapfr", i, "html", f"<!doctype html>\n<html lang=fr><head><meta charset=utf-8><title>Envoi</title></head>\n<body>{body}</body></html>\n".encode(), b)


def margin():
    """A print whose right margin holds small remarks beside some of the girths."""
    for i, b in pair_of("pdf-margin"):
        s = Sheet([PAPER, A4][i], "Times-Roman", 11)
        s.canvas.setFont("Times-Bold", 15)
        s.say(60, 60, "Boat notes for the cover")
        s.canvas.setFont("Times-Roman", 11)
        s.say(60, 80, f"{b.owner}, {b.phone}")
        for k, (name, x) in enumerate((("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry)))):
            s.say(60, 110 + 17 * k, name), s.say(170, 110 + 17 * k, x)
        s.canvas.setFont("Times-Bold", 11)
        s.say(60, 200, "From the bow"), s.say(170, 200, "Hull girth"), s.say(270, 200, "Full girth")
        remarks = {0: "keel band: 3/8 in thick, under the tape", 3: "wind 15 knots, held by my wife", 6: "thwart no. 2 sits 1 in below the edge", len(b.rows) - 2: "measured after lunch"}
        for k, (at, hull, full) in enumerate(b.rows):
            y = 222 + 22 * k
            s.canvas.setFont("Times-Roman", 11)
            s.say(60, y, [f"{foot(at)} ft", feet(at)][i]), s.say(170, y, inch(hull)), s.say(270, y, inch(full))
            if k in remarks:
                s.canvas.setFont("Times-Italic", 8)
                s.say(380, y, remarks[k])
        s.canvas.line(365, s.height - 190, 365, s.height - 230 - 22 * len(b.rows))
        emit("pdf-margin", i, "pdf", s.done(), b)


def slides():
    """A talk for the club's evening, printed: a thing a slide, the girths on two of them."""
    for i, b in pair_of("pdf-slides", slip=False, feet=(12, 17)):
        if i == 1:
            at, hull, full = b.rows[4]
            b.rows[4] = (at, hull, full + 10)
        size = landscape([PAPER, A4][i])
        s, half = Sheet(size, "Helvetica", 14), (len(b.rows) + 1) // 2
        number = 0

        def slide(title):
            nonlocal number
            if number:
                s.canvas.showPage()
            number += 1
            s.canvas.setFillColor(colors.HexColor(["#1F4E5F", "#5A3E2B"][i]))
            s.canvas.rect(0, s.height - 70, size[0], 70, stroke=0, fill=1)
            s.canvas.setFillColor(colors.white)
            s.canvas.setFont("Helvetica-Bold", 26)
            s.say(50, 46, title)
            s.canvas.setFillColor(colors.black)
            s.canvas.setFont("Helvetica", 11)
            s.say(size[0] - 50, s.height - 24, f"{number} / 5", right=True)
            s.canvas.setFont("Helvetica", 18)

        slide("How we measured our boat")
        for k, words in enumerate([f"{b.owner}", "Paddlers' evening, 20 August 2026", f"the boat: {b.craft}, bought for 200 in 1994"]):
            s.say(80, 170 + 40 * k, words)
        slide("The whole boat")
        for k, (name, x) in enumerate((("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry)))):
            s.say(80, 150 + 50 * k, name + ":"), s.say(330, 150 + 50 * k, x)
        for part, (title, rows) in enumerate((("Girths, fore half (inches)", b.rows[:half]), ("Girths, after half (inches)", b.rows[half:]))):
            slide(title)
            s.canvas.setFont("Helvetica-Bold", 16)
            s.say(80, 110, "Feet from bow"), s.say(300, 110, "Hull girth"), s.say(480, 110, "Full girth")
            s.canvas.setFont("Helvetica", 16)
            for k, (at, hull, full) in enumerate(rows):
                s.say(110, 145 + 38 * k, foot(at)), s.say(320, 145 + 38 * k, dec(hull)), s.say(500, 145 + 38 * k, dec(full))
        slide("The greatest girth")
        at, hull, full = b.great
        for k, (name, x) in enumerate((("Distance from bow", feet(at)), ("Hull girth", quote(hull)), ("Full girth", quote(full)), ("Opening", quote(b.opening)))):
            s.say(80, 150 + 50 * k, name + ":"), s.say(330, 150 + 50 * k, x)
        emit("pdf-slides", i, "pdf", s.done(), b, b.want(great=True))


def remarks_field():
    """A filled form with three lines for remarks; in the first they throw doubt on one of the numbers."""
    for i, b in pair_of("form-remarksfield", slip=False, feet=(11, 14)):
        if i == 1:
            at, hull, full = b.rows[6]
            b.rows[6] = (at, full, hull)
        s, write, doubt = Sheet([PAPER, A4][i]), [plain, dec][i], []
        s.canvas.setFont("Helvetica-Bold", 13)
        s.say(60, 46, "Boat survey for a fitted cover - all girths and heights in inches")
        s.canvas.setFont("Helvetica", 10)
        s.say(60, 72, "Your name"), s.field("yourname", 150, 72, b.owner, 150), s.say(320, 72, "Telephone"), s.field("phone", 380, 72, b.phone, 110)
        for k, (label, name, x) in enumerate((("Length overall", "loa", feet(b.loa)), ("Carry point", "carry", write(b.carry)), ("Bow height", "bow_h", write(b.bow)), ("Stern height", "stern_h", write(b.stern)))):
            x0, y = 60 + 260 * (k % 2), 98 + 24 * (k // 2)
            s.say(x0, y, label), s.field(name, x0 + 90, y, x, 80)
        s.say(60, 156, "Station"), s.say(150, 156, "Hull girth"), s.say(260, 156, "Full girth")
        for k in range(16):
            at, hull, full = b.rows[k] if k < len(b.rows) else (12 * k + 12, "", "")
            y = 178 + 24 * k
            s.say(64, y, f"{k + 1} ft"), s.field(f"hull{k + 1}", 150, y, write(hull) if hull else ""), s.field(f"full{k + 1}", 260, y, write(full) if full else "")
        at = b.rows[4][0]
        words = [[f"Not sure of the full girth at {foot(at)} ft, it may be 2 inches off.", "I could not get the tape tight there alone.", "The old cover was 12 years old and cost 95 dollars."], ["We have 2 boats, this is the longer one.", "Left on the trestles until the 28th.", ""]][i]
        if i == 0:
            doubt = [f"full_girth@{at}"]
        y = 178 + 24 * 16 + 12
        s.say(60, y, "Remarks")
        for k, line in enumerate(words):
            s.field(f"remarks{k + 1}", 150, y + 19 * k, line, 330)
        emit("form-remarksfield", i, "pdf", s.done(), b, doubt=doubt)


def skiff_form_french():
    """A filled French form for a square stern; the customer writes the distances too."""
    for i, b in pair_of("form-yolefr", unit="cm", kind="square", french=True, feet=(9, 12)):
        s = Sheet(A4)
        s.canvas.setFont("Helvetica-Bold", 13)
        s.say(60, 50, "Yoles et doris : mesures pour une housse (en cm)")
        s.canvas.setFont("Helvetica", 10)
        s.say(60, 78, "Nom"), s.field("nom", 110, 78, b.owner, 170), s.say(310, 78, "Tél."), s.field("tel", 340, 78, b.phone, 110)
        for k, (label, name, x) in enumerate((("Longueur hors tout", "longueur", b.loa), ("Point de portage", "portage", b.carry), ("Hauteur de l'étrave", "etrave", b.bow), ("Hauteur de la poupe", "poupe", b.stern))):
            x0, y = 60 + 250 * (k % 2), 106 + 26 * (k // 2)
            s.say(x0, y, label), s.field(name, x0 + 110, y, [dec(x), cm(x)][i], 70)
        s.say(60, 176, "Distance de l'étrave"), s.say(190, 176, "Tour de coque"), s.say(300, 176, "Tour complet")
        for k, (at, hull, full) in enumerate(b.rows):
            y = 198 + 25 * k
            for x0, name, x in ((60, "dist", at), (190, "coque", hull), (300, "complet", full)):
                s.field(f"{name}_{k + 1}", x0, y, x, 70)
        y = 198 + 25 * len(b.rows) + 8
        s.say(60, y, "Tableau arrière"), s.field("ta_coque", 190, y, b.transom[0], 70), s.field("ta_complet", 300, y, b.transom[1], 70)
        s.say(60, y + 30, "Moteur laissé en place"), s.tick("moteur_oui", 190, y + 30, i == 1), s.say(208, y + 30, "oui"), s.tick("moteur_non", 240, y + 30, i == 0), s.say(258, y + 30, "non")
        emit("form-yolefr", i, "pdf", s.done(), b)


LAYOUTS = (other_canoe, seat_rows, print_and_rest, neighbour, french_kayak, screen_reader, workshop, web_log, summary_french, margin, slides, remarks_field, skiff_form_french)
