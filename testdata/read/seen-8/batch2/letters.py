"""Mails, plain texts, web pages and PDFs."""
import html
import random

import docx
from reportlab.lib.pagesizes import A4

from boats import cm, comma, dash, dec, feet, feet_tight, feet_words, foot, glyph, halves, inch, inches, metres, pair_of, plain, point, quote
from files import DOCX, PAPER, XLSX, Sheet, convert, emit, grid, page, saved, sealed, text, typed, web_pdf, workbook


def arrows():
    """Foot -> hull girth -> full girth."""
    for i, b in pair_of("mail-arrows"):
        sign = ["->", "→"][i]
        lines = ["Hi,", "", f"Length overall {sign} {feet(b.loa)}", f"Bow height {sign} {quote(b.bow)}", f"Stern height {sign} {quote(b.stern)}", f"Carry point {sign} {quote(b.carry)}", "", f"Feet from bow {sign} hull girth {sign} full girth (inches)"]
        lines += [f"{foot(at)} {sign} {[plain, glyph][i](hull)} {sign} {[plain, glyph][i](full)}" for at, hull, full in b.rows]
        emit("mail-arrows", i, "eml", sealed(typed(b.mailbox, "Canoe, measured today", lines + ["", "Thanks", b.owner, f"Tel. {b.phone}"])), b)


def odd_even():
    """The odd feet first, then the even ones."""
    for i, b in pair_of("mail-oddeven"):
        def said(rows):
            return [[f"{foot(at)} ft: hull {plain(hull)}, full {plain(full)}", f"@ {foot(at)} ft  hull girth {dec(hull)} in  full girth {dec(full)} in"][i] for at, hull, full in rows]
        lines = ["Dear cover makers,", "", "I walked up one side and did the odd feet, and came back along the other with the even ones. Girths are inches.", "", f"Length overall: {feet_words(b.loa)}.", f"Bow height: {inch(b.bow)}. Stern height: {inch(b.stern)}. Carry point: {inch(b.carry)}.", "", "Odd:", *said(b.rows[::2]), "", "Even:", *said(b.rows[1::2][:: [1, -1][i]])]
        emit("mail-oddeven", i, "eml", sealed(typed(b.mailbox, "odd and even", lines + ["", "Kind regards,", b.owner])), b)


def table_french():
    """A French webmail: a table with one heading over both girths."""
    for i, b in pair_of("mail-tableaufr", unit="cm", tick=.5, french=True):
        sp = "&nbsp;"
        facts = "".join(f"<div>{name}{sp}: <b>{x}</b></div>" for name, x in (("Longueur hors tout", metres(b.loa)), ("Hauteur de l’étrave", f"{comma(b.bow)}{sp}cm"), ("Hauteur de la poupe", f"{comma(b.stern)}{sp}cm"), ("Point de portage", f"{comma(b.carry)}{sp}cm")))
        head = "<tr><th rowspan=2>Distance de l’étrave</th><th colspan=2>Mesures en cm</th></tr><tr><th>Tour de coque</th><th>Tour complet</th></tr>"
        rows = "".join(f"<tr><td>{at}{sp}cm</td><td align=right>{comma(hull)}</td><td align=right>{comma(full)}</td></tr>" for at, hull, full in b.rows)
        body = f"<div>Bonjour,</div><div><br></div><div>Voici les mesures prises dimanche avec mon beau-frère{[', il faisait 31 degrés', ''][i]}.</div><div><br></div>{facts}<div><br></div><table border=1 cellpadding=3>{head}{rows}</table><div><br></div><div>Bonne journée,<br>{b.owner}</div>"
        emit("mail-tableaufr", i, "eml", sealed(page(b.mailbox, "Mesures du canot", body)), b)


def dinghy():
    """A square stern in centimetres, in columns of plain text."""
    for i, b in pair_of("mail-dinghycm", unit="cm", kind="square", feet=(9, 13)):
        lines = ["Hello Pinfold,", "", "a little dinghy with a flat transom, all in centimetres:", "", f"length overall    {dec(b.loa)}", f"bow height        {dec(b.bow)}", f"stern height      {dec(b.stern)}", f"carry point       {dec(b.carry)}", "", "station   hull girth   full girth"]
        lines += [f"{at:>5}   {hull:>9}   {full:>9}" for at, hull, full in b.rows] + [[f"transom {b.transom[0]:>9}   {b.transom[1]:>9}", f"transom (at {dec(b.loa)}):  {b.transom[0]}  {b.transom[1]}"][i]]
        emit("mail-dinghycm", i, "eml", sealed(typed(b.mailbox, "Dinghy 2026", lines + ["", f"Bye, {b.first}"])), b)


def lettered():
    """Lettered items; the stations are E1, E2 and so on, with the foot said."""
    for i, b in pair_of("mail-lettered", feet=(11, 15)):
        close = [")", "."][i]
        lines = ["Hi there, numbers as on your list.", "", f"A{close} Length overall {feet_words(b.loa)}", f"B{close} Bow height {inches(b.bow)}", f"C{close} Stern height {inches(b.stern)}", f"D{close} Carry point {inches(b.carry)}", f"E{close} Girths, inches"]
        lines += [[f"   E{k + 1}{close} at {foot(at)} ft - hull girth {plain(hull)}, full girth {plain(full)}", f"   E{k + 1} ({foot(at)} ft): hull girth {dec(hull)}; full girth {dec(full)}"][i] for k, (at, hull, full) in enumerate(b.rows)]
        lines += [f"F{close} Under the cover: two seats and a cushion 3 in thick", "", b.owner]
        emit("mail-lettered", i, "eml", sealed(typed(b.mailbox, "Re: your measuring list", lines)), b)


def beside_html():
    """A web mail with two tables side by side, fore and aft; a question mark in the second."""
    for i, b in pair_of("mail-besidehtml", slip=False):
        doubt = [[], [f"hull_girth@{b.rows[3][0]}"]][i]

        def table(title, rows):
            return f"<table border=1><caption>{title}</caption><tr><th>ft</th><th>hull girth</th><th>full girth</th></tr>" + "".join(f"<tr><td>{foot(at)}</td><td>{glyph(hull)}{'??' if f'hull_girth@{at}' in doubt else ''}</td><td>{glyph(full)}</td></tr>" for at, hull, full in rows) + "</table>"
        fore, aft = halves(b.rows)
        body = f"<p>Hello,</p><p>Length overall {html.escape(feet(b.loa), False)}, bow height {quote(b.bow)}, stern height {quote(b.stern)}, carry point {quote(b.carry)}. Girths in inches below{', one I was not sure of' if i else ''}.</p><table><tr><td valign=top>{table('Front half', fore)}</td><td>&nbsp;&nbsp;</td><td valign=top>{table('Back half', aft)}</td></tr></table><p>{b.owner}<br>{b.phone}</p>"
        emit("mail-besidehtml", i, "eml", sealed(page(b.mailbox, "Measurements", body)), b, doubt=doubt)


def webmail_divs():
    """Lines typed into webmail, the shop's own question quoted below."""
    for i, b in pair_of("mail-divs"):
        lines = [f"Length overall {feet(b.loa)}", f"Bow height {quote(b.bow)}", f"Stern height {quote(b.stern)}", f"Carry point {quote(b.carry)}", ""]
        lines += [[f"{foot(at)} ft - <b>{plain(hull)}</b> hull - <b>{plain(full)}</b> full", f"{foot(at)} ft: <i>hull girth</i> {glyph(hull)}, <i>full girth</i> {glyph(full)}"][i] for at, hull, full in b.rows]
        asked = "Thank you for your interest. Please measure the hull girth and the full girth at every foot, in inches, and the length overall, both end heights and the carry point. It takes about 20 minutes for two people.<br><br>Pinfold Cover Loft"
        body = "<div dir='ltr'><div>Here you go (inches):</div><div><br></div>" + "".join(f"<div>{x or '<br>'}</div>" for x in lines) + f"<div><br></div><div>{b.first}</div></div><br><div class='quote'><div dir='ltr'>On Wed, Jul 1, 2026 at 10:02 Pinfold Cover Loft &lt;orders@pinfold.example&gt; wrote:<br></div><blockquote style='border-left:1px solid #ccc;padding-left:1ex'>{asked}</blockquote></div>"
        emit("mail-divs", i, "eml", sealed(page(b.mailbox, "Re: A cover for your canoe", body)), b)


def posts_french():
    """French lines: Poste 1 (30 cm); one number corrected in a postscript."""
    for i, b in pair_of("mail-postesfr", unit="cm", french=True, slip=False):
        k = 4 + i
        shown = [(at, hull, full - 7 if n == k else full) for n, (at, hull, full) in enumerate(b.rows)]
        lines = ["Bonjour,", "", f"Longueur hors tout : {cm(b.loa)}", f"Hauteur de l'étrave : {cm(b.bow)}", f"Hauteur de la poupe : {cm(b.stern)}", f"Point de portage : {cm(b.carry)}", ""]
        lines += [[f"Poste {n + 1} ({at} cm) : tour de coque {hull} cm, tour complet {full} cm", f"Poste {n + 1}, à {at} cm de l'étrave - tour de coque {hull}, tour complet {full}"][i] for n, (at, hull, full) in enumerate(shown)]
        at, _, full = b.rows[k]
        lines += ["", "Merci,", b.owner, "", [f"P.-S. Erreur au poste {k + 1} : le tour complet est de {full} cm et non {shown[k][2]} cm.", f"P.-S. Correction : à {at} cm, le tour complet est {full} (pas {shown[k][2]})."][i]]
        emit("mail-postesfr", i, "eml", sealed(typed(b.mailbox, "Canot - mesures par poste", lines)), b)


def body_and_file():
    """The whole-boat numbers in the mail, the girths in an attached Word document or workbook."""
    for i, b in pair_of("mail-bodyandfile"):
        rows = [["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[foot(at), hull, full] for at, hull, full in b.rows]
        m = typed(b.mailbox, "Girths attached", ["Hello,", "", "the girths are in the attached file. The rest:", "", f"Length overall is {feet_words(b.loa)}.", f"Bow height is {inch(b.bow)}.", f"Stern height is {inch(b.stern)}.", f"Carry point is {inch(b.carry)}.", "", b.owner])
        if i == 0:
            d = docx.Document()
            d.add_heading(f"Girths of the {b.craft}", 2)
            grid(d, [[dash(x) if isinstance(x, float) else x for x in row] for row in rows])
            m.add_attachment(saved(d), DOCX[0], DOCX[1], filename="girths.docx")
        else:
            book, _ = workbook("girths", rows)
            m.add_attachment(saved(book), XLSX[0], XLSX[1], filename="girths.xlsx")
        emit("mail-bodyandfile", i, "eml", sealed(m), b)


def feet_columns():
    """All girths in feet and inches, in columns of spaces."""
    for i, b in pair_of("txt-feetcolumns"):
        write = [feet, feet_tight][i]
        lines = [f"{b.craft} / {b.owner}", "", f"length overall   {write(b.loa)}", f"bow height       {write(b.bow)}", f"stern height     {write(b.stern)}", f"carry point      {write(b.carry)}", "", f"{'from bow':<12}{'hull girth':<16}full girth"]
        lines += [f"{str(foot(at)) + chr(39):<12}{write(hull):<16}{write(full)}" for at, hull, full in b.rows]
        emit("txt-feetcolumns", i, "txt", text(lines, newline=["\n", "\r\n"][i]), b)


def marked_up():
    """A note in marked-up text: headings, bold labels, a table of bars."""
    for i, b in pair_of("txt-markdown", slip=False):
        lines = [f"# {b.craft.capitalize()} cover", "", f"**Length overall:** {feet_words(b.loa)}  ", f"**Bow height:** {inch(b.bow)}  ", f"**Stern height:** {inch(b.stern)}  ", f"**Carry point:** {inch(b.carry)}", "", "## Girths (inches)", "", "| Feet from bow | Hull girth | Full girth |", ["|---:|---:|---:|", "| :-- | :-: | :-: |"][i]]
        lines += [f"| {foot(at)} | {[dec, plain][i](hull)} | {[dec, plain][i](full)} |" for at, hull, full in b.rows] + ["", "## To do", "", "- [ ] tracings of both ends", f"- [x] phone {b.phone}"]
        emit("txt-markdown", i, "txt", text(lines), b)


def grid_page():
    """A web page whose rows and cells are divisions."""
    for i, b in pair_of("html-divs"):
        def row(cells, name="row"):
            return f"<div class='{name}'>" + "".join(f"<div class='cell'>{html.escape(str(x), False)}</div>" for x in cells) + "</div>\n"
        facts = "".join(row(x, "fact") for x in (("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry))))
        rows = "".join(row((f"{foot(at)} ft" if i else foot(at), [dec, plain][i](hull), [dec, plain][i](full))) for at, hull, full in b.rows)
        style = ".row,.fact{display:grid;grid-template-columns:10em 10em 10em} .head{font-weight:bold}"
        emit("html-divs", i, "html", f"<!doctype html>\n<html><head><meta charset='utf-8'><title>My boat</title><style>{style}</style></head><body>\n<h2>{b.craft}</h2>\n{facts}<br>\n{row(('Station' + [' (ft)', ''][i], 'Hull girth (in)', 'Full girth (in)'), 'row head')}{rows}</body></html>\n".encode(), b)


def typed_on():
    """Numbers typed on to a printed form by a program that lets one put text anywhere: a little off the line."""
    for i, b in pair_of("pdf-typedon", feet=(11, 16)):
        r, s = random.Random(i), Sheet([PAPER, A4][i])

        def put(x, y, words):
            s.canvas.setFont("Courier-Bold", 11)
            s.say(x + r.uniform(-4, 6), y + r.uniform(-2.5, 2), words)
            s.canvas.setFont("Helvetica", 9)
        s.canvas.setFont("Helvetica", 9)
        s.say(60, 50, "MEASURING SHEET"), s.say(60, 75, "Name"), put(130, 75, b.owner)
        for k, (name, x) in enumerate((("Length overall", feet(b.loa)), ("Bow height (in)", dec(b.bow)), ("Stern height (in)", dec(b.stern)), ("Carry point (in)", dec(b.carry)))):
            s.say(60 + 250 * (k % 2), 100 + 22 * (k // 2), name), put(160 + 250 * (k % 2), 100 + 22 * (k // 2), x)
        s.say(60, 160, "Station (ft)"), s.say(180, 160, "Hull girth (in)"), s.say(310, 160, "Full girth (in)")
        for k in range(18):
            y = 182 + 22 * k
            s.canvas.line(60, s.height - y - 6, 420, s.height - y - 6), s.say(75, y, k + 1)
            if k < len(b.rows):
                put(195, y, [dec, plain][i](b.rows[k][1])), put(325, y, [dec, plain][i](b.rows[k][2]))
        emit("pdf-typedon", i, "pdf", s.done(), b)


def letter_french():
    """A French letter out of Writer, with a table of centimetres."""
    for i, b in pair_of("pdf-courrierfr", unit="cm", tick=.5, french=True):
        d = docx.Document()
        d.add_paragraph(f"{b.owner}\n{20 + i}, chemin du Quai\nSaint-Elme\n\nLe 6 juillet 2026")
        d.add_paragraph(f"Madame, Monsieur,\n\nComme convenu, voici les dimensions de mon embarcation. La longueur hors tout est de {cm(b.loa)}, la hauteur de l'étrave de {cm(b.bow)} et la hauteur de la poupe de {cm(b.stern)}. Le point de portage se trouve à {cm(b.carry)} de l'étrave.")
        d.add_paragraph("Les tours, relevés tous les 30 cm, sont dans le tableau ci-dessous.")
        grid(d, [["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"]] + [[at, comma(hull), comma(full)] for at, hull, full in b.rows], style=["Table Grid", "Light Shading"][i])
        d.add_paragraph(f"Veuillez agréer mes salutations distinguées.\n\n{b.owner}\nTél. {b.phone}")
        emit("pdf-courrierfr", i, "pdf", convert(saved(d), "docx", "pdf"), b)


def form_french():
    """A French form with fields, in centimetres, two columns of stations."""
    for i, b in pair_of("form-champsfr", unit="cm", tick=.5, french=True, feet=(12, 17)):
        s = Sheet(A4)
        s.say(60, 46, "FICHE DE MESURES (en centimètres)"), s.say(60, 70, "Nom"), s.field("nom", 160, 70, b.owner, 160)
        for k, (label, name, x) in enumerate((("Longueur hors tout", "lht", b.loa), ("Hauteur étrave", "h_etrave", b.bow), ("Hauteur poupe", "h_poupe", b.stern), ("Point de portage", "portage", b.carry))):
            s.say(60 + 240 * (k % 2), 98 + 24 * (k // 2), label), s.field(name, 160 + 240 * (k % 2), 98 + 24 * (k // 2), comma(x), 60)
        for half, rows in enumerate(halves(b.rows)):
            x = 60 + 250 * half
            s.say(x, 160, "Station"), s.say(x + 55, 160, "Tour de coque"), s.say(x + 140, 160, "Tour complet")
            for k, (at, hull, full) in enumerate(rows):
                y = 182 + 22 * k
                s.say(x, y, at), s.field(f"coque_{at}", x + 55, y, comma(hull)), s.field(f"complet_{at}", x + 140, y, comma(full))
        emit("form-champsfr", i, "pdf", s.done(), b)


def value_above():
    """A page with the whole-boat numbers large, each above its small caption, printed by a browser."""
    for i, b in pair_of("pdf-valueabove", slip=False):
        facts = "".join(f"<div class=f><div class=v>{html.escape(x, False)}</div><div class=c>{name}</div></div>" for name, x in (("Length overall", feet(b.loa)), ("Bow height", quote(b.bow)), ("Stern height", quote(b.stern)), ("Carry point", quote(b.carry))))
        rows = "".join(f"<tr><td>{foot(at)} ft</td><td>{[plain, point][i](hull)}</td><td>{[plain, point][i](full)}</td></tr>" for at, hull, full in b.rows)
        body = f"<h2>{b.craft.capitalize()}</h2><div class=g>{facts}</div><table><tr><th>Station</th><th>Hull girth, in</th><th>Full girth, in</th></tr>{rows}</table>"
        emit("pdf-valueabove", i, "pdf", web_pdf(body, ".g{display:flex;gap:2em}.v{font-size:24pt}.c{font-size:9pt;color:#666}td,th{padding:2px 18px;border-bottom:1px solid #ccc}body{font-family:sans-serif}"), b)


LAYOUTS = (arrows, odd_even, table_french, dinghy, lettered, beside_html, webmail_divs, posts_french, body_and_file, feet_columns, marked_up, grid_page, typed_on, letter_french, form_french, value_above)
