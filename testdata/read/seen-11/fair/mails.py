"""Mails with the numbers in the body, and one with a sheet attached."""
import html

import common  # noqa: F401
from boats import comma, dec, feet, feet_french, feet_long, feet_tight, foot, glyph, inch, inches, pair_of, plain, quote, spoken
from common import wide
from files import XLSX, both, emit, fill, flow, flowed, page, saved, sealed, typed, workbook


def lines_english():
    """A line for each station, what comes first said above; slip in the second."""
    for i, b in pair_of("eml-lines", slip=True):
        facts = [[f"Length overall {feet(b.loa)}", f"Bow height {quote(b.bow)}", f"Stern height {quote(b.stern)}", f"Carry point {quote(b.carry)} from the bow"],
                 [f"LOA: {dec(b.loa)}", f"Bow: {dec(b.bow)} high", f"Stern: {dec(b.stern)} high", f"Carry thwart: {dec(b.carry)} from bow"]][i]
        intro = ["Stations by the foot from the bow, hull girth first, then full girth, in inches:", "All in inches. Each line is feet from bow, hull girth / full girth."][i]
        rows = [[f"{foot(at)} ft - {dec(hull)} / {dec(full)}", f"{foot(at)}'  {dec(hull)} / {dec(full)}"][i] for at, hull, full in b.rows]
        body = [["Hi there,", "Hello"][i], "", f"Here are the numbers for the {b.craft}.", "", *facts, "", intro, "", *rows, "", ["Cheers,", "Let me know if you need anything else."][i], b.first, b.phone]
        emit("eml-lines", i, "eml", sealed(typed(b.mailbox, ["Canoe cover measurements", "measurements"][i], body)), b)


def sentences():
    """Prose, each station a sentence; in the second one full girth is unsure."""
    for i, b in pair_of("eml-sentences", feet=(11, 14)):
        unsure = b.rows[5][0] if i else None
        body = [["Good evening,", "Hi folks,"][i], ""]
        body += [[f"We measured my {b.craft} tonight. It is {feet_long(b.loa)} long overall. The bow is {inches(b.bow)} high and the stern is {inches(b.stern)} high. The carry point is {inches(b.carry)} back from the bow.",
                  f"My {b.craft} has a length overall of {feet_long(b.loa)}. The bow height is {spoken(b.bow)} inches, the stern height is {spoken(b.stern)} inches, and the carry thwart is {spoken(b.carry)} inches from the bow."][i], ""]
        for at, hull, full in b.rows:
            name = f"{foot(at)} {'foot' if at == 12 else 'feet'}"
            if at == unsure:
                body.append(f"At {name} the hull girth is {plain(hull)} inches and the full girth is about {plain(full)} inches, I am not sure of that one.")
            else:
                body.append([f"At {name} from the bow the hull girth is {plain(hull)} inches and the full girth is {plain(full)} inches.",
                             f"At {name} the hull girth is {plain(hull)} inches and the full girth is {plain(full)} inches."][i])
        body += ["", ["Thank you,", "Best wishes,"][i], b.owner]
        emit("eml-sentences", i, "eml", sealed(flow(typed(b.mailbox, ["Sizes for a cover", f"Cover for a {b.craft}"][i], flowed(body)))), b, doubt=[f"full_girth@{unsure}"] if i else [])


def lines_french():
    """French of Canada, lines with words; slip in the second, whose girths are in decimals with commas."""
    for i, b in pair_of("eml-lignes", french=True, slip=True):
        style = [plain, comma][i]
        facts = [[f"Longueur hors tout : {feet_french(b.loa)}", f"Hauteur de la pince avant : {style(b.bow)} po", f"Hauteur de la pince arrière : {style(b.stern)} po", f"Point de portage : {style(b.carry)} po de l'avant"],
                 [f"Longueur totale {feet(b.loa)}", f"Hauteur avant {style(b.bow)} pouces", f"Hauteur arrière {style(b.stern)} pouces", f"Barre de portage à {style(b.carry)} pouces de l'avant"]][i]
        rows = [[f"{foot(at)} pi : coque {style(hull)} po, complet {style(full)} po", f"à {foot(at)} pi : tour de coque {style(hull)}, tour complet {style(full)}"][i] for at, hull, full in b.rows]
        body = ["Bonjour,", "", [f"Voici les mesures de mon {b.craft}, prises à partir de l'avant.", f"J'ai mesuré mon {b.craft} hier avec mon frère. Tout est en pouces, sauf la distance en pieds."][i], "", *facts, "",
                ["Tour de coque et tour complet :", "Les tours :"][i], *rows, "", ["Merci bien", "Au plaisir,"][i], b.owner, f"tél. {b.phone}"]
        emit("eml-lignes", i, "eml", sealed(typed(b.mailbox, ["Mesures de canot", "Toile de canot - mesures"][i], body, cte=["quoted-printable", "8bit"][i])), b)


def table(rows, style=' border="1" cellpadding="4"'):
    """A table of a web page, the first row its headings."""
    lines = ["<tr>" + "".join(f"<{'td' if k else 'th'}>{html.escape(str(x), quote=False)}</{'td' if k else 'th'}>" for x in row) + "</tr>" for k, row in enumerate(rows)]
    return f"<table{style}>\n" + "\n".join(lines) + "\n</table>"


def html_table():
    """A web page alone: facts as lines, girths as a table; a square stern with a row for the transom."""
    for i, b in pair_of("eml-table", kind="square"):
        style = [glyph, feet_tight][i]
        mark = ["”", ""][i]
        names = [["Length overall", "Bow height", "Stern height", "Carry point"], ["Overall length", "Height at the bow", "Height at the transom", "Bow to the grab thwart"]][i]
        facts = "<br>\n".join(f"{n}: {x}" for n, x in zip(names, (feet_tight(b.loa), *[style(x) + mark for x in (b.bow, b.stern, b.carry)])))
        heads = [["Feet from bow", "Hull girth (in)", "Full girth (in)"], ["From bow", "Hull girth", "Full girth"]][i]
        rows = [heads, *[(f"{foot(at)}" + " ft" * i, style(hull), style(full)) for at, hull, full in b.rows], ["Transom", style(b.transom[0]), style(b.transom[1])]]
        body = f"<p>{['Hi,', 'Hello Pinfold,'][i]}</p><p>My {b.craft}:</p><p>{facts}</p>{table(rows)}<p>{['Thanks', 'Kind regards'][i]}, {b.owner}</p>"
        emit("eml-table", i, "eml", sealed(page(b.mailbox, ["Skiff survey", "Boat cover"][i], body)), b)


def both_french():
    """French of France, centimetres: plain text and the same as a web page with a table."""
    for i, b in pair_of("eml-tableau", unit="cm", french=True):
        names = [["Longueur hors tout", "Hauteur à l'étrave", "Hauteur à la poupe", "Point de portage depuis l'étrave"], ["Longueur totale", "Hauteur avant", "Hauteur arrière", "Distance entre l'avant et la poignée"]][i]
        facts = [f"{n} : {dec(x)} cm" for n, x in zip(names, (b.loa, b.bow, b.stern, b.carry))]
        heads = [["Distance (cm)", "Tour de coque (cm)", "Tour complet (cm)"], ["cm depuis l'avant", "tour de la coque", "tour complet"]][i]
        hello = ["Bonjour Madame, Monsieur,", "Bonjour,"][i]
        bye = ["Cordialement,", "Bien à vous,"][i]
        story = f"Je vous envoie les mesures du {b.craft}."
        plain_text = [hello, "", story, "", *facts, "", "   ".join(heads), *["   ".join(f"{x}" for x in row) for row in b.rows], "", bye, b.owner]
        body = f"<p>{hello}</p><p>{story}</p><p>{'<br>'.join(facts)}</p>{table([heads, *b.rows])}<p>{bye}<br>{b.owner}</p>"
        emit("eml-tableau", i, "eml", sealed(both(b.mailbox, ["Bâche pour canoë", "Mesures pour housse"][i], plain_text, body)), b)


def attached():
    """Length, heights and carry point in the mail, the girths in the sheet attached."""
    for i, b in pair_of("eml-attached"):
        book, s = workbook(["Girths", "Sheet1"][i])
        heads = [["Feet from bow", "Hull girth", "Full girth"], ["Station (ft)", "Around hull (in)", "Full loop (in)"]][i]
        fill(s, [[["Girths in inches", f"{b.owner}, girths"][i]], heads, *[(foot(at), hull, full) for at, hull, full in b.rows]])
        wide(s, 18, 18, 18)
        facts = [[f"Length overall: {feet(b.loa)}", f"Bow height: {inch(b.bow)}", f"Stern height: {inch(b.stern)}", f"Carry point: {inch(b.carry)} from bow"],
                 [f"Overall length is {feet(b.loa)}.", f"Height at bow is {inches(b.bow)}.", f"Height at stern is {inches(b.stern)}.", f"Carry thwart is {inches(b.carry)} from the bow."]][i]
        m = typed(b.mailbox, f"Survey for my {b.craft}", [["Hello,", "Hi!"][i], "", "The girths are in the sheet attached. The rest is here:", "", *facts, "", b.owner, b.phone])
        m.add_attachment(saved(book), *XLSX, filename=["girths.xlsx", "canoe girths.xlsx"][i])
        emit("eml-attached", i, "eml", sealed(m), b)


ALL = [lines_english, sentences, lines_french, html_table, both_french, attached]
