"""Surveys as text: comma, semicolon and tab separated tables, a web page, notes."""
import html

import common  # noqa: F401
from boats import comma, dec, feet, feet_french, feet_tight, feet_words, foot, glyph, inch, metres, millimetres, pair_of, plain, point, quote
from files import emit, separated, text


def export():
    """A spreadsheet saved as CSV, empty cells kept; second: no carry point yet, and the owner says so."""
    for i, b in pair_of("csv-export"):
        rows = [["Customer", b.owner, "", ""], ["Boat", b.craft, "", ""], ["", "", "", ""], ["Measurement", "Inches", "", ""],
                [["Length overall", "Overall length"][i], dec(b.loa), "", ""], ["Bow height", dec(b.bow), "", ""], ["Stern height", dec(b.stern), "", ""],
                ["Carry point", ["" if i else dec(b.carry), "none yet, the yoke is off"][i], "", ""], ["", "", "", ""],
                [["Feet from bow", "Foot mark (from bow)"][i], "Hull girth", ["Full girth", "Total girth"][i], "Comment"]]
        rows += [[at // 12, dec(hull), dec(full), "front seat" if n == 4 else ""] for n, (at, hull, full) in enumerate(b.rows)]
        emit("csv-export", i, "csv", separated(rows), b, b.want(["carry_point"] if i else ()))


def virgule():
    """Canadian French, semicolons and decimal commas, the whole loop before the hull; second: a slip, Windows letters."""
    for i, b in pair_of("csv-virgule", french=True, slip=True):
        rows = [["Nom", b.owner], ["Téléphone", b.phone], ["Embarcation", b.craft], ["Longueur hors tout", feet_french(b.loa)],
                [["Hauteur avant", "Hauteur du nez avant"][i], comma(b.bow) + " po"], [["Hauteur arrière", "Hauteur du nez arrière"][i], comma(b.stern) + " po"],
                [["Portage : distance de l'avant", "Joug de portage à"][i], comma(b.carry) + [" po", " po de l'avant"][i]], [],
                [["Pieds de l'avant", "Distance de l'avant (pieds)"][i], ["Tour complet (pouces)", "Tour au complet en pouces"][i], ["Dessous seulement (pouces)", "Tour de coque en pouces"][i]]]
        rows += [[at // 12, comma(full), comma(hull)] for at, hull, full in b.rows]
        emit("csv-virgule", i, "csv", separated(rows, ";", ["utf-8-sig", "cp1252"][i]), b)


def log():
    """Tabs and fractions, half-foot stations at the ends, the greatest girth on one line; second: half signs."""
    for i, b in pair_of("tsv-log", ends=True):
        f = [plain, glyph][i]
        rows = [["boat:", b.craft], ["owner:", b.owner], [["length overall:", "LOA:"][i], feet(b.loa, f)], ["bow height:", f(b.bow) + " in"], ["stern height:", f(b.stern) + " in"], ["carry point:", f(b.carry) + " in"], [],
                ["station", "hull girth", "full girth"]]
        rows += [[f"{f(foot(at))} ft", f(hull), f(full)] for at, hull, full in b.rows]
        rows += [[], ["greatest girth at:", feet_words(b.great[0])], ["hull girth there:", f(b.great[1])], ["full girth there:", f(b.great[2])], ["opening there:", f(b.opening)]]
        emit("tsv-log", i, "tsv", separated(rows, "\t", newline="\n", quotechar="~"), b, b.want(great=True))


def items():
    """A boatbuilder's list of one item a line, in millimetres; second: the two girths of a station in turn, other words."""
    for i, b in pair_of("csv-items", unit="cm", tick=.5):
        mm = millimetres
        rows = [["Item", "mm"], ["Length overall", mm(b.loa)], ["Height at bow", mm(b.bow)], ["Height at stern", mm(b.stern)], ["Carry point from bow", mm(b.carry)]]
        if i:
            for at, hull, full in b.rows:
                rows += [[f"Girth of hull at {mm(at)} from bow", mm(hull)], [f"Full girth at {mm(at)} from bow", mm(full)]]
        else:
            rows += [[f"Hull girth at {mm(at)}", mm(hull)] for at, hull, _ in b.rows] + [[f"Full girth at {mm(at)}", mm(full)] for at, _, full in b.rows]
        rows += [["Measured by", b.owner]]
        emit("csv-items", i, "csv", separated(rows), b)


def oars():
    """A square stern, inch marks in every cell, the transom as the last line; second: a slip, 'in' for the marks."""
    for i, b in pair_of("csv-oars", kind="square", slip=True):
        f = [quote, inch][i]
        rows = [[f"Cover for {b.craft}", b.owner, b.phone], ["Overall length", feet_words(b.loa) if i else feet(b.loa), ""], ["Height, bow", f(b.bow), ""], ["Height, stern", f(b.stern), ""], ["Lifting handle aft of bow", f(b.carry), ""],
                ["Distance aft of bow", ["Under the hull, rail to rail", "Hull girth (rail to rail)"][i], ["Complete circuit", "Full girth (closed)"][i]]]
        rows += [[f"{at // 12} ft", f(hull), f(full)] for at, hull, full in b.rows] + [["at transom", f(b.transom[0]), f(b.transom[1])]]
        emit("csv-oars", i, "csv", separated(rows), b)


def web():
    """Canadian French, a page saved from the browser with two tables, a chaloupe with its tableau; second: inch marks left to the heading."""
    for i, b in pair_of("html-page", kind="square", french=True):
        def table(rows):
            return "<table border=1 cellpadding=4>\n" + "\n".join("<tr>" + "".join(f"<td>{html.escape(str(x), quote=False)}</td>" for x in row) + "</tr>" for row in rows) + "\n</table>"
        f = [lambda x: plain(x) + " po", plain][i]
        facts = [["Longueur hors tout", feet_french(b.loa)], ["Hauteur à l'étrave", plain(b.bow) + " po"], ["Hauteur au tableau", plain(b.stern) + " po"], [["Point de prise (depuis l'étrave)", "Poignée de levage, à partir de l'étrave"][i], plain(b.carry) + " po"]]
        girths = [["À", ["Tour de la coque", "Coque (po)"][i], ["Tour complet", "Tour complet (po)"][i]]]
        girths += [[f"{at // 12} pi", f(hull), f(full)] for at, hull, full in b.rows] + [["Tableau arrière", f(b.transom[0]), f(b.transom[1])]]
        lines = ["<!DOCTYPE html>", '<html lang="fr"><head><meta charset="utf-8"><title>Mesures</title></head><body>',
                 f"<h2>{['Ma chaloupe', 'Mesures du bateau'][i]}</h2>", f"<p>Bonjour, voici les mesures demandées. Les distances partent de l'étrave.<br>{b.owner}, {b.phone}</p>",
                 table(facts), "<p>Contours, pris à chaque pied :</p>", table(girths), f"<p>{['Merci!', 'Merci beaucoup et bonne journée.'][i]}</p>", "</body></html>"]
        emit("html-page", i, "html", text(lines), b)


def notepad():
    """Columns lined up with spaces, a decked boat; second: feet and inches for the length, decimals with .0."""
    for i, b in pair_of("txt-notepad", kind="decked"):
        f = [dec, point][i]
        lines = [f"{b.craft.upper()} COVER", f"{b.owner}  {b.phone}", "",
                 f"length overall      {[inch, feet_tight][i](b.loa)}", f"bow height          {f(b.bow)} in", f"stern height        {f(b.stern)} in", f"{['carry point        ', 'grab loop from bow '][i]} {f(b.carry)} in", ""]
        if i:
            lines += ["ft from bow   hull girth   full girth (over the deck)"]
            lines += [f"{at // 12:>6}{f(hull):>16}{f(full):>13}" for at, hull, full in b.rows]
        else:
            lines += ["feet        hull      full girth", "from bow    girth     (over deck)"]
            lines += [f"{at // 12:<12}{f(hull):<10}{f(full)}" for at, hull, full in b.rows]
        lines += ["", "girths in inches" + ["", ", coaming taped over"][i]]
        emit("txt-notepad", i, "txt", text(lines, newline=["\r\n", "\n"][i]), b)


def mot():
    """France, a note of one line a section, centimetres; second: a slip, the two numbers joined by a slash that is explained."""
    for i, b in pair_of("txt-mot", unit="cm", french=True, slip=True):
        lines = ["Bonjour,", "", f"Je vous envoie les cotes de mon {b.craft}, mesurées ce week-end à deux." if not i else f"Voici ce qu'il faut pour la bâche de mon {b.craft}.", "",
                 f"Longueur hors tout : {metres(b.loa)}", f"Hauteur de l'avant : {b.bow} cm", f"Hauteur de l'arrière : {b.stern} cm", f"{['Point de portage', 'Prise de main pour le portage'][i]} : {b.carry} cm de la pointe avant", ""]
        if i:
            lines += ["Pour chaque distance depuis la pointe avant : tour de coque / tour complet, en cm", ""]
            lines += [f"{at} cm : {hull} / {full}" for at, hull, full in b.rows]
        else:
            lines += ["Distances depuis la pointe avant, tout en cm :", ""]
            lines += [f"à {at} : coque {hull}, tour complet {full}" for at, hull, full in b.rows]
        lines += ["", "Cordialement,", b.owner]
        emit("txt-mot", i, "txt", text(lines, newline="\r\n"), b)


LAYOUTS = [export, virgule, log, items, oars, web, notepad, mot]
