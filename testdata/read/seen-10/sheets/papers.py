"""Separated values, Word documents, a web page and prints of twelve people."""
import html
import random

import docx
from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.shared import Cm, Pt
from openpyxl.styles import Alignment, Border, Font, Side

from boats import comma, dash, dec, feet, feet_french, feet_words, foot, glyph, halves, inch, inches, pair_of, plain, quote
from files import convert, emit, fill, grid, saved, separated, text, workbook


def tidy():
    """One number a line, as a person of data would: what, where, how much; sorted by measure in the second."""
    for i, b in pair_of("csv-tidy", slip=True):
        rows = [[["measure", "distance_from_bow_ft", "inches", "remark"], ["what", "feet_from_bow", "value_in", "note"]][i]]
        rows += [["length overall", "", dec(b.loa), ""], ["bow height", "", dec(b.bow), ""], ["stern height", "", dec(b.stern), ""], ["carry point", "", dec(b.carry), "front of yoke"]]
        girths = [["hull girth", foot(at), dec(hull), {2: "seat"}.get(k, "")] for k, (at, hull, _) in enumerate(b.rows)], [["full girth", foot(at), dec(full), {6: "read twice"}.get(k, "")] for k, (at, _, full) in enumerate(b.rows)]
        rows += girths[0] + girths[1] if i else [row for pair in zip(*girths) for row in pair]
        emit("csv-tidy", i, "csv", separated(rows, newline=["\n", "\r\n"][i]), b)


def opening_only():
    """Hull girth and the opening at every station, never the full girth. The first says that the full girth is their sum, so it is wanted; the second does not, so it is not."""
    for i, b in pair_of("csv-openingonly", unit="cm"):
        rows = [[f"{b.owner} - {b.craft}", "", "", ""], [["I taped the hull and then the opening straight across the gunwales. Full girth = hull girth + opening at every station.", "Tape under the hull, then a second reading across the gunwales."][i], "", "", ""], ["", "", "", ""]]
        rows += [["Length overall (cm)", dec(b.loa), "", ""], ["Bow height (cm)", dec(b.bow), "", ""], ["Stern height (cm)", dec(b.stern), "", ""], ["Carry point (cm)", dec(b.carry), "", ""], ["", "", "", ""]]
        rows += [[["Station (cm)", "Hull girth (cm)", "Opening (cm)", "Remarks"], ["Station (cm)", "Hull girth (cm)", "Width across gunwales (cm)", "Remarks"]][i]]
        rows += [[at, dec(hull), dec(full - hull), {4: "thwart"}.get(k, "")] for k, (at, hull, full) in enumerate(b.rows)]
        values = {name: x for name, x in b.want().items() if i == 0 or not name.startswith("full")}
        emit("csv-openingonly", i, "csv", separated(rows), b, values)


def clipboard():
    """Tabs, blank lines, the heading again in the middle, another boat in a remark; one hull girth of the second missed."""
    for i, b in pair_of("tsv-clipboard"):
        lost, head = 5, ["Station", "Hull girth", "Full girth", "Notes"]
        facts = [["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)]]
        cells = [[f"{foot(at)}'", "-" if (i, k) == (1, lost) else quote(hull), quote(full), {1: "deck plate", 4: "seat"}.get(k, "missed this one, raining" if (i, k) == (1, lost) else "")] for k, (at, hull, full) in enumerate(b.rows)]
        fore, aft = halves(cells)
        rows = [[b.owner, b.phone], [b.craft], []] + facts + [[], head] + fore + [[], ["(page 2)"], head] + aft + [[], [["P.S. My brother has one of 17 ft and wants a cover too, he will write himself.", "P.S. This is not the one of 11 ft that you covered before."][i]]]
        emit("tsv-clipboard", i, "tsv", text(["\t".join(map(str, row)) for row in rows], newline=["\r\n", "\n"][i]), b, b.want([f"hull_girth@{b.rows[lost][0]}"] if i else []))


def metres_french():
    """French: everything in metres with a decimal comma, semicolons."""
    def m(x):
        return (f"{x / 100:.2f}" if x == int(x) else f"{x / 100:.3f}").replace(".", ",")
    for i, b in pair_of("csv-metresfr", unit="cm", french=True):
        rows = [["Relevé", b.craft, "", ""], ["Propriétaire", b.owner, "", ""], [["Toutes les mesures en mètres", "Mesures en m"][i], "", "", ""], ["", "", "", ""]]
        rows += [[name, m(x) + [" m", ""][i], "", ""] for name, x in (("Longueur hors tout", b.loa), ("Hauteur avant", b.bow), ("Hauteur arrière", b.stern), ("Point de portage", b.carry))] + [["", "", "", ""]]
        rows += [["Distance de l'avant (m)", "Tour de coque (m)", "Tour complet (m)", "Remarques"]]
        rows += [[m(at) + [" m", ""][i], m(hull), m(full), {2: "banc", 7: "barre"}.get(k, "")] for k, (at, hull, full) in enumerate(b.rows)]
        emit("csv-metresfr", i, "csv", separated(rows, ";", ["utf-8-sig", "cp1252"][i]), b)


def beside():
    """A Word table whose cells hold a note beside the number: "44 1/2 (at the thwart)"."""
    notes = [{2: "at the thwart", 6: "rib sticks out here", 9: "read twice"}, {1: "end of the deck", 5: "seat", 8: "at the yoke"}]
    for i, b in pair_of("docx-beside"):
        d = docx.Document()
        d.add_heading(f"{b.craft[0].upper()}{b.craft[1:]}", 2)
        d.add_paragraph(f"{b.owner}, telephone {b.phone}")
        grid(d, [["Length overall", f"{feet(b.loa)} (string pulled tight)"], ["Bow height", f"{quote(b.bow)} (to the top of the stem)"], ["Stern height", quote(b.stern)], ["Carry point", f"{quote(b.carry)} (after edge of bow deck)"]])
        d.add_paragraph()
        rows = [["Station", "Hull girth", "Full girth"]]
        for k, (at, hull, full) in enumerate(b.rows):
            note = notes[i].get(k)
            beside_hull = bool(k % 2) == bool(i)
            rows.append([f"{foot(at)} ft"] + [[plain, dash][i](x) + ("" if not note or c != beside_hull else f" ({note})") for c, x in ((True, hull), (False, full))])
        grid(d, rows, style=["Table Grid", "Light List Accent 1"][i])
        d.add_paragraph("All girths are in inches, tape over the outside edge of the gunwales.")
        d.add_paragraph(f"Greatest girth at {feet_words(b.great[0])}: hull girth {inches(b.great[1])}, full girth {inches(b.great[2])}. Opening there {inches(b.opening)}.")
        emit("docx-beside", i, "docx", saved(d), b, b.want(great=True))


def thirds():
    """Three Word tables, a merged title over each third of the boat; a square stern in the last."""
    for i, b in pair_of("docx-thirds", kind="square", feet=(11, 14), slip=True):
        d = docx.Document()
        d.add_heading("Survey for a boat cover", 1)
        d.add_paragraph(f"{b.owner}. {b.craft[0].upper()}{b.craft[1:]}, square stern, no deck.")
        for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))):
            p = d.add_paragraph()
            p.add_run(name + ": ").bold = True
            p.add_run(x)
        n = len(b.rows) // 3
        for name, rows in (("Forward", b.rows[:n]), ("Amidships", b.rows[n:-n]), ("Aft", b.rows[-n:])):
            cells = [[f"{name} part", "", ""], ["Feet from bow", "Hull girth (in)", "Full girth (in)"]] + [[foot(at), *map([glyph, dec][i], (hull, full))] for at, hull, full in rows]
            if name == "Aft":
                cells.append(["At the transom", *map([glyph, dec][i], b.transom)])
            t = grid(d, cells)
            title = t.cell(0, 0).merge(t.cell(0, 2))
            title.text = f"{name} part"
            title.paragraphs[0].alignment = WD_ALIGN_PARAGRAPH.CENTER
            d.add_paragraph()
        emit("docx-thirds", i, "docx", saved(d), b)


def struck():
    """Numbers struck through and the right one written behind; in the second one is struck and nothing put in its place."""
    for i, b in pair_of("docx-struck"):
        d, r = docx.Document(), random.Random(f"struck {i}")
        d.add_paragraph(f"Cover for {b.owner}, {b.phone}")
        d.add_paragraph("Struck through = wrong, the number after it is the right one." if i == 0 else "Where a number is struck through I got it wrong and put the right one after it, except one that I still have to do again.")
        for name, x in (("Length overall", feet(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry))):
            d.add_paragraph(f"{name}: {x}")
        t = grid(d, [["Station (ft)", "Hull girth (in)", "Full girth (in)"]] + [[foot(at), plain(hull), plain(full)] for at, hull, full in b.rows])
        again, lost = [{(3, 1), (7, 2), (9, 1)}, {(2, 2), (8, 1)}][i], 6
        for k, c in sorted(again):
            p, right = t.cell(k + 1, c).paragraphs[0], b.rows[k][c]
            p.clear()
            p.add_run(plain(right + r.choice([-3, 4, 5.5]))).font.strike = True
            p.add_run(" " + plain(right))
        if i:
            t.cell(lost + 1, 1).paragraphs[0].runs[0].font.strike = True
        emit("docx-struck", i, "docx", saved(d), b, doubt=[[], [f"hull_girth@{b.rows[lost][0]}"]][i])


def letterhead_french():
    """French: header and footer, a merged heading "Tours (cm)" over two columns, a transom."""
    for i, b in pair_of("docx-entetefr", unit="cm", kind="square", feet=(11, 14), french=True):
        d = docx.Document()
        d.sections[0].header.paragraphs[0].text = f"{b.owner} - {12 + 30 * i}, chemin de l'Anse - Port-Clair - {b.phone}"
        d.sections[0].footer.paragraphs[0].text = "Relevé pour housse, page 1 de 1, exemplaire 2 de 3"
        d.add_paragraph(f"Objet : {b.craft}, non pontée, arrière à tableau").runs[0].bold = True
        grid(d, [["Longueur hors tout", "Hauteur de l'étrave", "Hauteur au tableau (arrière)", "Point de portage"], [f"{x} cm" for x in (b.loa, b.bow, b.stern, b.carry)]] if i == 0 else
             [["Longueur hors tout", f"{b.loa} cm"], ["Hauteur de l'étrave", f"{b.bow} cm"], ["Hauteur de l'arrière", f"{b.stern} cm"], ["Point de portage", f"{b.carry} cm"]])
        d.add_paragraph()
        t = grid(d, [["Distance depuis l'étrave (cm)", "Tours (cm)", ""], ["", "de coque", "complet"]] + [[at, hull, full] for at, hull, full in b.rows] + [[["Au tableau arrière", "Tableau arrière"][i], *b.transom]])
        for a, z, words in (((0, 1), (0, 2), "Tours (cm)"), ((0, 0), (1, 0), "Distance depuis l'étrave (cm)")):
            t.cell(*a).merge(t.cell(*z)).text = words
        for row in t.rows:
            row.cells[1].width = row.cells[2].width = Cm(4)
        d.add_paragraph(f"\nLe plus grand tour se trouve à {b.great[0]} cm de l'étrave : tour de coque {b.great[1]} cm, tour complet {b.great[2]} cm, ouverture {b.opening} cm.")
        emit("docx-entetefr", i, "docx", saved(d), b, b.want(great=True))


def list_french():
    """French: a list, one point a station, both girths in a sentence."""
    for i, b in pair_of("docx-listefr", unit="cm", french=True, slip=True):
        d = docx.Document()
        d.add_paragraph("Bonjour,")
        d.add_paragraph(f"Voici les mesures de mon {b.craft}. (Le canot du voisin, 4,90 m, n'est pas à faire.)")
        d.add_paragraph(f"Longueur hors tout : {b.loa} cm")
        d.add_paragraph(f"Hauteur de l'avant : {b.bow} cm")
        d.add_paragraph(f"Hauteur de l'arrière : {b.stern} cm")
        d.add_paragraph(f"Point de portage : {b.carry} cm de l'avant")
        d.add_paragraph("Les tours, distance comptée depuis la pointe avant :")
        for at, hull, full in b.rows:
            d.add_paragraph([f"à {at} cm : tour de coque {hull} cm, tour complet {full} cm", f"À {at} cm : coque {hull} cm ; tour complet {full} cm."][i], style=["List Bullet", "List Bullet 2"][i])
        d.add_paragraph(f"Bien à vous,\n{b.owner}")
        emit("docx-listefr", i, "docx", saved(d), b)


def page_kayak():
    """A web page of a decked boat's owner: a list of terms, a table with heads over two rows."""
    for i, b in pair_of("html-logbook", kind="decked", feet=(13, 16), slip=True):
        e = html.escape
        terms = "".join(f"<dt>{e(name)}</dt><dd>{e(x)}</dd>\n" for name, x in (("Length overall", feet_words(b.loa)), ("Bow height", inch(b.bow)), ("Stern height", inch(b.stern)), ("Carry point", inch(b.carry) + " (the toggle)")))
        head = '<tr><th rowspan="2">Station (ft)</th><th colspan="2">Girth (inches)</th><th rowspan="2">Notes</th></tr>\n<tr><th>hull</th><th>full</th></tr>\n'
        head = head if i == 0 else '<tr><th>Feet from the bow</th><th>Hull girth<br>(inches)</th><th>Full girth<br>(inches)</th><th>Notes</th></tr>\n'
        body = "".join(f"<tr><td>{foot(at)}</td><td>{[glyph, plain][i](hull)}</td><td>{[glyph, plain][i](full)}</td><td>{ {3: 'hatch', 6: 'cockpit rim', 7: 'cockpit rim'}.get(k, '&nbsp;')}</td></tr>\n" for k, (at, hull, full) in enumerate(b.rows))
        page = f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Log of a {e(b.craft)}</title>
<style>body {{ font-family: serif }} td, th {{ border: 1px solid #999; padding: 2px 8px }} .old {{ color: #888 }}</style></head>
<body><h1>{e(b.owner)}: measuring the {e(b.craft)}</h1>
<p>Decked, pointed at both ends. The tape ran over the deck for the full girth. Call {b.phone} after supper.</p>
<dl>
{terms}</dl>
<table>
{head}{body}</table>
<p>Greatest girth at {feet_words(b.great[0])}: hull girth {inch(b.great[1])}, full girth {inch(b.great[2])}, opening {inch(b.opening)}.</p>
<p class="old">Next: 12 new screws for the rudder, 2 m of cord.</p>
</body></html>
"""
        emit("html-logbook", i, "html", page.encode(), b, b.want(great=True))


def two_tries_print():
    """A print of a sheet with two tries and the number to use for each girth."""
    for i, b in pair_of("pdf-twotries", feet=(11, 15)):
        r = random.Random(f"tries {i}")
        book, s = workbook("Cover", [[f"{b.owner}, {b.craft}, {b.phone}"], [["Each girth was taped twice. The shop should use the columns marked USE.", "Two readings of each, A and B. Only the USE columns count."][i]], []])
        fill(s, [["Length overall", feet_words(b.loa)], ["Bow height", inch(b.bow)], ["Stern height", inch(b.stern)], ["Carry point", inch(b.carry)], []])
        one, two = [("1st", "2nd"), ("A", "B")][i]
        s.append(["Station (ft)"] + [f"{name} girth {x}" for name in ("Hull", "Full") for x in (f"{one} (in)", f"{two} (in)", "USE (in)")])

        def tries(x):
            other = x + r.choice([0, .5, -.5, 1])
            return r.choice([[x, other], [other, x]]) + [x]
        fill(s, [[foot(at), *tries(hull), *tries(full)] for at, hull, full in b.rows])
        line = Side("thin")
        for row in s.iter_rows(min_row=9, max_row=s.max_row):
            for c, cell in enumerate(row):
                cell.border, cell.alignment = Border(line, line, line, line), Alignment(horizontal="center", wrap_text=True)
                cell.font = Font(bold=c in (3, 6) or cell.row == 9)
        for name in "ABCDEFG":
            s.column_dimensions[name].width = 15
        s.page_setup.orientation, s.oddFooter.center.text = "landscape", "Page &P of &N"
        s.sheet_properties.pageSetUpPr.fitToPage, s.page_setup.fitToHeight = True, 0
        emit("pdf-twotries", i, "pdf", convert(saved(book), "xlsx", "pdf"), b)


def letter_print_french():
    """French: a print of a Word page, feet and inches said the French way."""
    for i, b in pair_of("pdf-lettrefr", french=True, feet=(12, 15)):
        d = docx.Document()
        d.styles["Normal"].font.size = Pt(11)
        d.add_paragraph(f"{b.owner}\nTél. {b.phone}")
        d.add_paragraph(["Madame, Monsieur, voici les mesures demandées. Tout est en pouces, sauf les pieds de la première colonne.", "Bonjour ! Mes mesures, en pouces. La première colonne est en pieds."][i])
        grid(d, [["Longueur hors tout", feet_french(b.loa)], ["Hauteur de l'étrave", f"{plain(b.bow)} po"], ["Hauteur de la poupe", f"{plain(b.stern)} po"], ["Point de portage", f"{plain(b.carry)} po"]], style=["Table Grid", "Normal Table"][i])
        d.add_paragraph()
        t = grid(d, [["Station (pi)", "Tour de coque (po)", "Tour complet (po)", "Remarque"]] + [[foot(at), *map([plain, comma][i], (hull, full)), {3: "banc avant", 8: "barre de portage"}.get(k, "")] for k, (at, hull, full) in enumerate(b.rows)])
        for cell in t.rows[0].cells:
            cell.paragraphs[0].runs[0].bold = True
        d.add_paragraph()
        d.add_paragraph(f"Plus grand tour : à {feet_french(b.great[0])}, tour de coque {plain(b.great[1])} po, tour complet {plain(b.great[2])} po, ouverture {plain(b.opening)} po.")
        emit("pdf-lettrefr", i, "pdf", convert(saved(d), "docx", "pdf"), b, b.want(great=True))


LAYOUTS = (tidy, opening_only, clipboard, metres_french, beside, thirds, struck, letterhead_french, list_french, page_kayak, two_tries_print, letter_print_french)
