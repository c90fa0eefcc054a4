"""Surveys as Word documents."""
import docx
from docx.shared import Cm

import common  # noqa: F401
from boats import cm, comma, dec, feet, feet_french, feet_long, feet_words, glyph, inches, metres, pair_of, plain, point
from files import emit, grid, saved


def letter():
    """A letter with a table of girths with half signs, the greatest girth in a sentence; second: the lengths follow the table."""
    for i, b in pair_of("docx-letter"):
        d = docx.Document()
        d.add_paragraph(f"{b.owner}\n{b.phone}")
        d.add_paragraph(["Dear cover makers,", "Hello,"][i])
        d.add_paragraph(f"I would like a cover for my {b.craft}. My neighbour held the other end of the tape." if not i else f"These are the measurements of our {b.craft}, taken last Sunday.")
        facts = [f"Length overall: {feet_words(b.loa)}", f"{['Height of the bow', 'Bow height'][i]}: {glyph(b.bow)} inches", f"{['Height of the stern', 'Stern height'][i]}: {glyph(b.stern)} inches", f"{['Carry point', 'Carrying handle'][i]}: {glyph(b.carry)} inches from the bow"]
        if not i:
            for fact in facts:
                d.add_paragraph(fact)
        d.add_paragraph("Girths in inches, at every foot from the bow:")
        grid(d, [["Feet from bow", ["Hull girth", "Hull, gunwale to gunwale"][i], ["Full girth", "Full, closed across the top"][i]]] + [(at // 12, glyph(hull), glyph(full)) for at, hull, full in b.rows])
        d.add_paragraph()
        d.add_paragraph(f"The greatest girth is {feet_words(b.great[0])} from the bow: hull girth {glyph(b.great[1])} inches, full girth {glyph(b.great[2])} inches. The opening there is {glyph(b.opening)} inches.")
        if i:
            for fact in facts:
                d.add_paragraph(fact)
        d.add_paragraph(f"Thank you,\n{b.first}")
        emit("docx-letter", i, "docx", saved(d), b, b.want(great=True))


def tables():
    """Two tables under headings, centimetres; second: a slip, cm after every number."""
    for i, b in pair_of("docx-tables", unit="cm", slip=True):
        d, f = docx.Document(), [dec, cm][i]
        d.add_heading("Survey of a canoe", 1)
        d.add_heading("The boat", 2)
        grid(d, [["Owner", b.owner], ["Type", b.craft], ["Length overall" + ["  (cm)", ""][i], f(b.loa)], ["Bow height" + [" (cm)", ""][i], f(b.bow)], ["Stern height" + [" (cm)", ""][i], f(b.stern)], [["Hand-hold aft of bow (cm)", "Carry point aft of bow"][i], f(b.carry)]])
        d.add_heading(["Girths (cm)", "Girths"][i], 2)
        grid(d, [["No.", "Distance from bow", ["Girth of hull", "Around the hull, open at top"][i], ["Full girth", "Around everything, closed"][i]]] + [(n, f(at), f(hull), f(full)) for n, (at, hull, full) in enumerate(b.rows, 1)], ["Table Grid", "Light Grid Accent 1"][i])
        emit("docx-tables", i, "docx", saved(d), b)


def liste():
    """Canadian French, one sentence a foot; second: one full girth is given as either of two numbers."""
    for i, b in pair_of("docx-liste", french=True):
        d, doubt = docx.Document(), [f"full_girth@{b.rows[5][0]}"] if i else []
        say = d.add_paragraph
        say(["Bonjour à vous,", "Bonjour,"][i])
        say(f"Voici les mesures de mon {b.craft}, en pouces, prises à partir de la pointe avant.")
        say(f"Longueur hors tout : {feet_french(b.loa)}")
        say(f"{['Hauteur de la pince avant', 'Hauteur en avant'][i]} : {plain(b.bow)} po")
        say(f"{['Hauteur de la pince arrière', 'Hauteur en arrière'][i]} : {plain(b.stern)} po")
        say(f"{['Point de portage', 'Le joug pour portager est'][i]} {'à' if i else ':'} {plain(b.carry)} po de la pointe avant")
        for n, (at, hull, full) in enumerate(b.rows):
            whole = f"{plain(full)} ou {plain(full + 1)}, à vérifier, j'ai un doute" if i and n == 5 else plain(full)
            say(f"À {at // 12} pied{'s' * (at > 12)} : {['coque', 'tour de la coque'][i]} {plain(hull)}, tour complet {whole}")
        say(f"Merci, {b.owner} ({b.phone})")
        emit("docx-liste", i, "docx", saved(d), b, doubt=doubt)


def tabs():
    """A kayak, columns by the tab key without a table; second: full girth first."""
    for i, b in pair_of("docx-tabs", kind="decked"):
        d = docx.Document()

        def say(*parts):
            p = d.add_paragraph("\t".join(parts))
            p.paragraph_format.space_after = 0
            for stop in (5, 10):
                p.paragraph_format.tab_stops.add_tab_stop(Cm(stop))
        f = [dec, point][i]
        say(f"{b.owner} – {b.craft}")
        say("")
        for label, x in [(["Length overall", "Length (end to end)"][i], feet_long(b.loa)), ("Bow height", inches(b.bow)), ("Stern height", inches(b.stern)), (["Carry point", "Carry toggle from bow"][i], inches(b.carry))]:
            say(label + ":", x)
        say("")
        say("Feet from bow", *(["Hull girth (in)", "Full girth over deck (in)"] if not i else ["Full girth, deck too (in)", "Hull girth, seam to seam (in)"]))
        for at, hull, full in b.rows:
            say(str(at // 12), *([f(hull), f(full)] if not i else [f(full), f(hull)]))
        say("")
        say("I can be reached at " + b.phone + ".")
        emit("docx-tabs", i, "docx", saved(d), b)


def fiche():
    """France, one table for everything, centimetres, the greatest girth at its foot; second: a slip, the closed loop first."""
    for i, b in pair_of("docx-fiche", unit="cm", french=True, slip=True):
        d = docx.Document()
        d.add_paragraph("Fiche de mesures" + ["", " – toutes les cotes en cm"][i]).runs[0].bold = True
        rows = [["Nom", b.owner, ""], ["Bateau", b.craft, ""], ["Longueur hors tout", metres(b.loa), ""], ["Hauteur d'étrave", cm(b.bow), ""], ["Hauteur d'étambot", cm(b.stern), ""], [["Point de portage depuis l'étrave", "Barre de portage (depuis l'étrave)"][i], cm(b.carry), ""]]
        names = [["Tour de coque (cm)", "Ouvert : coque seule, d'un bord à l'autre (cm)"][i], ["Tour complet (cm)", "Fermé : coque et ouverture (cm)"][i]]
        turn = -1 if i else 1
        rows += [["Distance de l'étrave (cm)", *names[::turn]]] + [[at, *(comma(hull), comma(full))[::turn]] for at, hull, full in b.rows]
        rows += [[f"Plus grand tour, à {b.great[0]} cm de l'étrave", *[comma(x) for x in b.great[1:]][::turn]], ["Ouverture à cet endroit", cm(b.opening), ""]]
        grid(d, rows)
        emit("docx-fiche", i, "docx", saved(d), b, b.want(great=True))


def bullets():
    """A rowing boat as a bulleted list; second: the height of the stern is a guess by the owner's own word."""
    for i, b in pair_of("docx-bullets", kind="square"):
        d, doubt = docx.Document(), ["stern_height"] if i else []
        d.add_heading(f"My {b.craft}", 2)
        d.add_paragraph(["Measured with the boat upside down on two trestles. Girths are in inches, distances from the bow.", "All girths in inches. I counted the feet from the bow along a string."][i])
        items = [f"Length overall {feet(b.loa)}", f"Bow height {plain(b.bow)} inches", f"Stern height about {plain(b.stern)} inches, I am not sure, the rudder fittings were in the way" if i else f"Stern height {plain(b.stern)} inches", f"Carry point {plain(b.carry)} inches from the bow"]
        items += [f"{at // 12} ft: hull {plain(hull)}, full {plain(full)}" if not i else f"At {at // 12} ft the hull girth is {plain(hull)} and the full girth {plain(full)}" for at, hull, full in b.rows]
        items += [f"Transom: hull {plain(b.transom[0])}, full {plain(b.transom[1])}" if not i else f"At the transom the hull girth is {plain(b.transom[0])} and the full girth {plain(b.transom[1])}"]
        for item in items:
            d.add_paragraph(item, style="List Bullet")
        d.add_paragraph(f"Regards, {b.owner}, {b.phone}")
        emit("docx-bullets", i, "docx", saved(d), b, doubt=doubt)


LAYOUTS = [letter, tables, liste, tabs, fiche, bullets]
