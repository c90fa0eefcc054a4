"""Mails as web pages, and mails with a spreadsheet or a PDF attached."""
import base  # noqa: F401, first: it sets the path to the helpers
from boats import comma, curly, dec, feet, feet_french, foot, glyph, inch, pair_of, plain
from files import XLSX, both, emit, laid_out, page, saved, sealed, typed, workbook
from reportlab.lib import colors
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, Spacer, Table


def cells(rows, tag="td"):
    return "".join("<tr>" + "".join(f'<{tag} style="border:solid windowtext 1.0pt;padding:0in 5.4pt"><p class=MsoNormal>{x}</p></{tag}>' for x in row) + "</tr>\n" for row in rows)


def office_table():
    """A skiff in a table as an office mail program writes it, transom and greatest girth as last rows."""
    for i, b in pair_of("eml-office-table", kind="square"):
        at, h, f = b.great
        if i == 0:
            head = cells([["Length overall", curly(b.loa)], ["Bow height", curly(b.bow)], ["Stern height", curly(b.stern)], ["Carry point (from bow)", curly(b.carry)]])
            rows = [["<b>Distance from bow</b>", "<b>Under the hull, edge to edge</b>", "<b>All the way round</b>"]]
            rows += [[f"{foot(a)} ft", curly(x), curly(y)] for a, x, y in b.rows]
            rows += [["Transom", curly(b.transom[0]), curly(b.transom[1])], [f"Greatest girth, at {feet(at, glyph)}", curly(h), curly(f)]]
            body = (f"<p class=MsoNormal>Good afternoon,</p>\n<p class=MsoNormal>Please find below the dimensions of my {b.craft}.</p>\n<table class=MsoNormalTable border=1 cellspacing=0>\n{head}</table>\n<p class=MsoNormal>&nbsp;</p>\n"
                    f"<table class=MsoNormalTable border=1 cellspacing=0>\n{cells(rows)}</table>\n<p class=MsoNormal>The opening at the greatest girth is {curly(b.opening)}.</p>\n<p class=MsoNormal>{b.owner}<br>{b.phone}</p>")
        else:
            rows = [["Feet from bow", "Hull girth (in.)", "Full girth (in.)", "Remarks"]]
            notes = {1: "end of bow deck", len(b.rows) // 2: "seat in place", len(b.rows) - 1: "motor off"}
            rows += [[foot(a), plain(x), plain(y), notes.get(n, "&nbsp;")] for n, (a, x, y) in enumerate(b.rows)]
            rows += [["At transom", plain(b.transom[0]), plain(b.transom[1]), "&nbsp;"]]
            body = (f"<p class=MsoNormal>Hello, measurements for a {b.craft}.</p>\n<p class=MsoNormal>LOA {feet(b.loa)}. Height of bow {inch(b.bow)}, height of stern {inch(b.stern)}. Carry point {inch(b.carry)} from bow.</p>\n"
                    f"<table class=MsoNormalTable border=1 cellspacing=0>\n{cells(rows)}</table>\n<p class=MsoNormal>Largest girth found {inch(at)} from bow: hull girth {plain(h)}, full girth {plain(f)}, opening {plain(b.opening)}.</p>\n"
                    f"<p class=MsoNormal>Thanks,<br>{b.first}</p>")
        emit("eml-office-table", i, "eml", sealed(page(b.mailbox, ["Skiff dimensions", "Cover for my boat"][i], body)), b, b.want(great=True))


def bullets_french():
    """Québec, a bulleted list in pieds and pouces; in the second a station could not be reached."""
    for i, b in pair_of("eml-puces", french=True):
        without = ()
        if i == 0:
            items = "".join(f"<li>à {foot(at)} pi de la proue : coque {feet_french(h)}, tour complet {feet_french(f)}</li>\n" for at, h, f in b.rows)
            body = (f"<p>Bonjour !</p>\n<p>Les mesures de mon {b.craft} :</p>\n<ul>\n<li>longueur totale : {feet_french(b.loa)}</li>\n<li>hauteur de la proue : {feet_french(b.bow)}</li>\n"
                    f"<li>hauteur de la poupe : {feet_french(b.stern)}</li>\n<li>barre de portage à {feet_french(b.carry)} de la proue</li>\n{items}</ul>\n<p>Bonne journée,<br>{b.owner}<br>{b.phone}</p>")
        else:
            k = len(b.rows) - 3
            at = b.rows[k][0]
            without = (f"hull_girth@{at}", f"full_girth@{at}")
            items = "".join(f"<li>{foot(a)} pi : " + ("pas pu mesurer, le chevalet était dans les jambes" if n == k else f"{plain(x)} po sous la coque, {plain(y)} po tout le tour") + "</li>\n" for n, (a, x, y) in enumerate(b.rows))
            body = (f"<p>Allô,</p>\n<p>J'ai enfin eu le temps de mesurer. Longueur {plain(b.loa)} po, hauteur en avant {plain(b.bow)} po, hauteur en arrière {plain(b.stern)} po, le joug avant pour le portage est à {plain(b.carry)} po du bout d'en avant.</p>\n"
                    f"<p>À partir du bout d'en avant :</p>\n<ul>\n{items}</ul>\n<p>Merci bien<br>{b.first}</p>")
        emit("eml-puces", i, "eml", sealed(page(b.mailbox, ["Toile pour canot", "mes mesures"][i], body)), b, b.want(without))


def sheet_attached():
    """A workbook attached, stations in inches with half-foot ones at the ends; the end heights stand only in the mail."""
    for i, b in pair_of("eml-sheet-attached", slip=True, ends=True):
        if i == 0:
            book, sheet = workbook("Canoe", [[f"{b.owner} - {b.craft}"], [], ["Overall length", b.loa], ["Carry point", b.carry], [], ["Inches from bow", "Hull girth", "Full girth"]])
            for row in b.rows:
                sheet.append(row)
            lines = ["Hello,", "", "Spreadsheet attached, everything in inches. I took extra stations at both ends since they are so curved.", "",
                     f"I forgot to put in the heights: bow {dec(b.bow)}, stern {dec(b.stern)}.", "", b.owner, b.phone]
            m = both(b.mailbox, "Canoe spreadsheet", lines, "".join(f"<p>{line}</p>\n" for line in lines if line))
        else:
            book, sheet = workbook("Sheet1", [["Station (in)"] + [a for a, _, _ in b.rows], ["Girth, hull (in)"] + [x for _, x, _ in b.rows], ["Girth, full (in)"] + [y for _, _, y in b.rows], [], ["LOA (in)", b.loa]])
            sheet.column_dimensions["A"].width = 18
            lines = ["Hi,", "see the attached file for the girths. Not in it:", f"Bow height = {inch(b.bow)}", f"Stern height = {inch(b.stern)}", f"Carry point = {inch(b.carry)}", "", f"-- \n{b.owner}\n{b.phone}"]
            m = typed(b.mailbox, "girths", lines)
        m.add_attachment(saved(book), *XLSX, filename=["canoe.xlsx", "girths for cover.xlsx"][i])
        emit("eml-sheet-attached", i, "eml", sealed(m), b)


def pdf_attached_french():
    """A PDF attached, a table in pouces; the second gives the carry point in the mail alone."""
    for i, b in pair_of("eml-pdf-joint", french=True):
        at, h, f = b.great
        normal, write = getSampleStyleSheet()["Normal"], [plain, comma][i]
        head = [["Distance de l'étrave", "Demi-tour (po)", "Tour complet (po)"], ["Pieds", "Sous la coque", "Tour entier"]][i]
        rows = [head] + [[[f"{foot(a)} pi", foot(a)][i], write(x), write(y)] for a, x, y in b.rows]
        table = Table(rows, style=[("GRID", (0, 0), (-1, -1), .5, colors.grey), ("ALIGN", (1, 0), (-1, -1), "CENTER")])
        if i == 0:
            told = [f"Mesures de mon {b.craft}, {b.owner}, le 30 mai 2026", f"Longueur hors tout : {feet_french(b.loa)}", f"Hauteur de l'étrave : {plain(b.bow)} po", f"Hauteur de la poupe : {plain(b.stern)} po", f"Point de portage : {plain(b.carry)} po"]
            after = [f"Plus grande circonférence à {feet_french(at)} : demi-tour {plain(h)} po, tour complet {plain(f)} po, ouverture {plain(b.opening)} po"]
            lines = ["Bonjour,", "", "Vous trouverez mes mesures dans le fichier joint. Dites-moi si ça convient.", "", b.owner, b.phone]
        else:
            told = [f"{b.owner}, {b.phone}", f"Longueur {comma(b.loa)} po, hauteur avant {comma(b.bow)} po, hauteur arrière {comma(b.stern)} po."]
            after = [f"Endroit le plus gros : à {comma(at)} po de l'avant, sous la coque {comma(h)} po, tour entier {comma(f)} po."]
            lines = ["Bonjour, ma feuille est jointe.", "", f"J'ai oublié d'écrire dessus le point de portage : {comma(b.carry)} po de l'avant.", "", "Bonne fin de semaine", b.first]
        story = [Paragraph(t, normal) for t in told] + [Spacer(1, 10), table, Spacer(1, 10)] + [Paragraph(t, normal) for t in after]
        m = typed(b.mailbox, ["Mesures du canot", "feuille de mesures"][i], lines)
        m.add_attachment(laid_out(story), "application", "pdf", filename=["mesures.pdf", "canot_mesures.pdf"][i])
        emit("eml-pdf-joint", i, "eml", sealed(m), b, b.want(("greatest.opening",) if i else (), great=True))


ALL = [office_table, bullets_french, sheet_attached, pdf_attached_french]
