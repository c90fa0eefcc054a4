"""Word documents, printed PDF and PDF forms with filled fields."""
import common  # noqa: F401
import docx
from docx.shared import Inches
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, Spacer, Table

from boats import cm, comma, curly, dec, feet, feet_french, feet_tight, foot, glyph, inch, metres, pair_of, plain, point, quote
from common import wide
from files import Sheet, convert, emit, fill, grid, laid_out, saved, workbook


def docx_letter():
    """A letter: facts a line each, girths in a table."""
    for i, b in pair_of("docx-letter"):
        d, style = docx.Document(), [plain, quote][i]
        d.add_paragraph("Hello,")
        d.add_paragraph(f"Here are the sizes of my {b.craft}. " + ["My wife held the other end of the tape. We would like the cover before the leaves fall.", "I was on my own so it took a while. I hope this is what you need."][i])
        names = [["Length overall", "Height at bow", "Height at stern", "Carry point (bow to front edge of thwart)"], ["Boat length", "Bow is this high", "Stern is this high", "From the bow to where I carry it"]][i]
        for name, x in zip(names, (feet(b.loa), inch(b.bow), inch(b.stern), inch(b.carry))):
            d.add_paragraph(f"{name}: {x}")
        heads = [["Distance from bow", "Hull girth (inches)", "Full girth (inches)"], ["From bow", "Hull girth", "Full girth"]][i]
        grid(d, [heads, *[(f"{foot(at)} ft", style(hull), style(full)) for at, hull, full in b.rows]])
        d.add_paragraph("\nYours truly,\n" + b.owner + "\n" + b.phone)
        emit("docx-letter", i, "docx", saved(d), b)


def docx_french():
    """French of Canada: facts in sentences, girths in a table; slip in the second."""
    for i, b in pair_of("docx-lettre", french=True, slip=True):
        d, style = docx.Document(), [plain, comma][i]
        d.add_heading(["Mesures de mon canot", "Relevé pour une toile"][i], 1)
        d.add_paragraph(f"Bonjour, je m'appelle {b.owner} ({b.phone}) et j'ai un {b.craft.replace('vieux canot', 'canot')} à couvrir.")
        if i:
            d.add_paragraph(f"Il a {feet_french(b.loa)} de long hors tout. La hauteur à l'avant est de {style(b.bow)} po et la hauteur à l'arrière est de {style(b.stern)} po. "
                            f"La barre de portage est à {style(b.carry)} po de l'avant.")
        else:
            d.add_paragraph(f"La longueur hors tout est de {feet_french(b.loa)}. La hauteur de la pince avant est de {style(b.bow)} pouces, celle de la pince arrière de {style(b.stern)} pouces.")
            d.add_paragraph(f"Le point de portage se trouve à {style(b.carry)} pouces de l'avant.")
        heads = [["Pied", "Tour de coque (po)", "Tour complet (po)"], ["Distance de l'avant (pieds)", "Tour de la coque en pouces", "Tour au complet en pouces"]][i]
        grid(d, [heads, *[(foot(at), style(hull), style(full)) for at, hull, full in b.rows]], ["Table Grid", "Light Grid Accent 1"][i])
        d.add_paragraph(["Merci et bonne journée!", "Merci beaucoup"][i])
        emit("docx-lettre", i, "docx", saved(d), b)


def docx_tabs():
    """No table, columns by tabs; in the second one hull girth is unsure, said below."""
    for i, b in pair_of("docx-tabs"):
        d, style = docx.Document(), [glyph, dec][i]
        unsure = b.rows[6][0]
        d.add_paragraph(f"{b.craft.capitalize()}, {b.owner}")
        names = [["Overall length", "Bow height", "Stern height", "Carry point"], ["LENGTH OVERALL", "HEIGHT OF BOW", "HEIGHT OF STERN", "BOW TO CARRY THWART"]][i]
        lines = [f"{n}\t{x}" for n, x in zip(names, (feet_tight(b.loa, style), curly(b.bow) if not i else inch(b.bow), curly(b.stern) if not i else inch(b.stern), curly(b.carry) if not i else inch(b.carry)))]
        lines += ["", ["Station\tHull girth\tFull girth", "FEET\tHULL GIRTH\tFULL GIRTH"][i]]
        lines += [f"{foot(at)}{[' ft', ''][i]}\t{style(hull)}{'?' if i and at == unsure else ''}\t{style(full)}" for at, hull, full in b.rows]
        if i:
            lines += ["", f"I am not sure of the hull girth at {foot(unsure)} ft. The tape may have been caught on a nail."]
        lines += ["", "All girths in inches."]
        for line in lines:
            p = d.add_paragraph(line)
            p.paragraph_format.space_after = 0
            for stop in (2.2, 3.6):
                p.paragraph_format.tab_stops.add_tab_stop(Inches(stop))
        emit("docx-tabs", i, "docx", saved(d), b, doubt=[f"hull_girth@{unsure}"] if i else [])


def docx_tables():
    """French of France, a boat with a transom in centimetres: a table of facts and one of girths."""
    for i, b in pair_of("docx-barque", unit="cm", kind="square", french=True):
        d = docx.Document()
        d.add_heading(f"{b.craft.capitalize()} : mesures", 2)
        d.add_paragraph(["Toutes les mesures sont en cm.", "Mesures en centimètres, ruban de couturière."][i])
        names = [["Longueur hors tout", "Hauteur à l'étrave", "Hauteur à l'arrière", "Point de portage"], ["Longueur du bateau", "Hauteur de la proue", "Hauteur de la poupe", "De la proue à la poignée"]][i]
        grid(d, [["Nom", b.owner], *zip(names, [[dec, cm][i](x) for x in (b.loa, b.bow, b.stern, b.carry)])])
        d.add_paragraph()
        heads = [["Distance depuis l'étrave", "Tour de coque", "Tour complet"], ["À ... cm de la proue", "Circonférence de la coque", "Circonférence totale"]][i]
        grid(d, [heads, *b.rows, [["Tableau arrière", "Au tableau"][i], *b.transom]])
        emit("docx-barque", i, "docx", saved(d), b)


def pdf_sheet():
    """A spreadsheet printed to PDF by LibreOffice; slip in the second."""
    for i, b in pair_of("pdf-sheet", slip=True):
        book, s = workbook("Survey")
        names = [["Length overall", "Bow height", "Stern height", "Carry point"], ["Length, end to end", "Height at bow end", "Height at stern end", "Hand grip, inches from bow"]][i]
        heads = [["Feet from bow", "Hull girth", "Full girth"], ["Station (feet)", "Girth of hull", "Girth all around"]][i]
        fill(s, [[f"{b.owner}'s {b.craft}"], [b.phone], *[(n, x, "inches") for n, x in zip(names, (b.loa, b.bow, b.stern, b.carry))], [], heads, *[(foot(at), hull, full) for at, hull, full in b.rows]])
        for row in s.iter_rows(min_row=9, min_col=2):
            for cell in row:
                cell.number_format = ["0.0", "General"][i]
        wide(s, 26, 15, 18)
        emit("pdf-sheet", i, "pdf", convert(saved(book), "xlsx", "pdf"), b)


def pdf_french():
    """A ruled table in French, centimetres, the length in metres."""
    for i, b in pair_of("pdf-tableau", unit="cm", french=True):
        look = getSampleStyleSheet()
        names = [["Longueur hors tout", "Hauteur avant", "Hauteur arrière", "Point de portage"], ["Longueur totale", "Hauteur de la pointe avant", "Hauteur de la pointe arrière", "Poignée à"]][i]
        tail = ["", " de la pointe avant"][i]
        facts = [f"{n} : {x}" for n, x in zip(names, (metres(b.loa), cm(b.bow), cm(b.stern), cm(b.carry) + tail))]
        heads = [["Distance de l'avant (cm)", "Tour de coque (cm)", "Tour complet (cm)"], ["Distance (cm)", "Tour sans l'ouverture (coque)", "Tour avec l'ouverture (complet)"]][i]
        table = Table([heads, *b.rows], style=[("GRID", (0, 0), (-1, -1), .5, colors.grey), ("BACKGROUND", (0, 0), (-1, 0), colors.lightgrey), ("ALIGN", (0, 0), (-1, -1), "CENTER")])
        story = [Paragraph(f"Fiche de mesures - {b.craft}", look["Heading2"]), Paragraph(f"{b.owner}, {b.phone}", look["Normal"]), Spacer(1, 10)]
        story += [Paragraph(fact, look["Normal"]) for fact in facts] + [Spacer(1, 12), table]
        emit("pdf-tableau", i, "pdf", laid_out(story, A4), b)


def pdf_letter():
    """A Word letter saved as PDF, every station a line with words, the greatest girth at the end."""
    for i, b in pair_of("pdf-letter"):
        d = docx.Document()
        d.add_paragraph(["Dear sir or madam,", "Good morning,"][i])
        d.add_paragraph(f"I measured the {b.craft} as you told me. Overall length is {feet(b.loa)}. Bow height is {inch(b.bow)} and stern height is {inch(b.stern)}. "
                        f"The {['carry point', 'carrying thwart'][i]} is {inch(b.carry)} from the bow.")
        lines = [[f"{foot(at)} ft from bow: hull girth {plain(hull)}, full girth {plain(full)}", f"At {foot(at)} ft: hull {plain(hull)} in, full {plain(full)} in"][i] for at, hull, full in b.rows]
        at, hull, full = b.great
        lines.append([f"Greatest girth at {feet(at)} from bow: hull girth {plain(hull)}, full girth {plain(full)}", f"Greatest girth is at {feet(at)}: hull {plain(hull)} in, full {plain(full)} in"][i])
        for line in lines:
            d.add_paragraph(line).paragraph_format.space_after = 0
        d.add_paragraph("\nSincerely,\n" + b.owner)
        values = b.want(("greatest.opening",), great=True)
        emit("pdf-letter", i, "pdf", convert(saved(d), "docx", "pdf"), b, values)


def pdf_typed():
    """A decked boat on one typed page in inches and tenths; the second could not reach one station."""
    for i, b in pair_of("pdf-typed", kind="decked"):
        s = Sheet(font="Courier", points=11)
        s.say(60, 60, f"{b.craft.upper()} - {b.owner}")
        names = [["Length overall", "Bow height", "Stern height", "Carry handle"], ["Overall length", "Height of bow", "Height of stern", "Bow to carry toggle"]][i]
        y = 90
        for n, x in zip(names, (b.loa, b.bow, b.stern, b.carry)):
            s.say(60, y, f"{n:<22}{point(x)} in")
            y += 16
        lost = b.rows[3][0] if i else None
        s.say(60, y + 16, ["Girths, inches. Full girth goes over the deck.", "Girths in inches, measured over the deck for the full one."][i])
        for x, head in zip((60, 160, 290), ["Foot", "Hull girth", "Full girth"]):
            s.say(x, y + 40, head)
        y += 58
        for at, hull, full in b.rows:
            s.say(60, y, foot(at))
            s.say(230, y, "-" if at == lost else point(hull), right=True)
            s.say(360, y, "-" if at == lost else point(full), right=True)
            y += 16
        s.say(60, y + 16, "- = paddle float in the way, will do that one later" if i else "The tape went over the cockpit rim.")
        emit("pdf-typed", i, "pdf", s.done(), b, b.want((f"hull_girth@{lost}", f"full_girth@{lost}")))


def fields_english():
    """A club's form of one column, fields named by what they hold, by number in the second, which has a slip."""
    for i, b in pair_of("fields-club", slip=True):
        s = Sheet()
        name = [lambda what: what, lambda what, seen={}: f"Text{seen.setdefault(what, len(seen) + 1)}"][i]
        s.say(60, 50, ["Canoe cover - measurements (inches)", "Measuring sheet, all sizes in inches"][i])
        rows = [("Name", b.owner), ("Phone", b.phone), ("Length overall", plain(b.loa)), ("Bow height", plain(b.bow)), ("Stern height", plain(b.stern)), (["Carry point from bow", "Bow to carry thwart"][i], plain(b.carry))]
        for k, (label, x) in enumerate(rows):
            s.say(60, 80 + 20 * k, label)
            s.field(name(label.lower().replace(" ", "_")), 190, 80 + 20 * k, x, width=150)
        for x, head in zip((60, 190, 300), ("Feet from bow", "Hull girth", "Full girth")):
            s.say(x, 215, head)
        style = [dec, plain][i]
        for k in range(18):
            y = 235 + 20 * k
            _, hull, full = b.rows[k] if k < len(b.rows) else (0, None, None)
            s.say(75, y, k + 1)
            s.field(name(f"hull_{k + 1}"), 190, y, style(hull) if hull else "")
            s.field(name(f"full_{k + 1}"), 300, y, style(full) if full else "")
        emit("fields-club", i, "pdf", s.done(), b)


def fields_french():
    """A French form in centimetres, printed distances, facts in the second below the girths."""
    for i, b in pair_of("fields-fiche", unit="cm", french=True):
        s = Sheet(A4)
        s.say(50, 45, "Fiche de mesure - toutes les dimensions en cm")
        s.say(50, 70, "Nom")
        s.field("nom", 200, 70, b.owner, width=160)
        labels = [["Longueur hors tout", "Hauteur à l'avant", "Hauteur à l'arrière", "Point de portage"], ["Longueur totale du bateau", "Hauteur de l'étrave", "Hauteur de la poupe", "Avant - poignée de portage"]][i]
        top, table = [(95, 195), (515, 105)][i]
        for k, (label, key, x) in enumerate(zip(labels, ("longueur", "h_avant", "h_arriere", "portage"), (b.loa, b.bow, b.stern, b.carry))):
            s.say(50, top + 20 * k, label)
            s.field(key, 200, top + 20 * k, comma(x))
        heads = [["Distance de l'avant", "Tour de coque", "Tour complet"], ["Distance de l'étrave", "Coque seule", "Tour complet"]][i]
        for x, head in zip((50, 200, 300), heads):
            s.say(x, table, head)
        for k in range(19):
            row = b.rows[k] if k < len(b.rows) else (30 * k + 30, "", "")
            s.say(70, table + 20 + 20 * k, 30 * k + 30)
            s.field(f"coque_{30 * k + 30}", 200, table + 20 + 20 * k, row[1])
            s.field(f"complet_{30 * k + 30}", 300, table + 20 + 20 * k, row[2])
        emit("fields-fiche", i, "pdf", s.done(), b)


def fields_skiff():
    """A boat with a transom, feet and inches in fields of their own for the length, stations in two blocks, greatest girth; ticks."""
    for i, b in pair_of("fields-skiff", kind="square", feet=(12, 15)):
        s, style = Sheet(points=9), [plain, dec][i]
        s.say(50, 45, ["Open boat survey", "Survey of a small boat for a cover"][i])
        s.say(50, 70, "Owner")
        s.field("owner", 130, 70, b.owner, width=150)
        s.tick("square", 330, 70, True)
        s.say(348, 70, "square stern")
        s.tick("decked", 430, 70, False)
        s.say(448, 70, "decked")
        s.say(50, 95, "Length overall")
        s.field("loa_ft", 130, 95, int(b.loa // 12), width=30, tooltip="Length overall, feet")
        s.say(163, 95, "ft")
        s.field("loa_in", 178, 95, style(b.loa % 12), width=40, tooltip="Length overall, inches")
        s.say(221, 95, "in")
        for k, (label, x) in enumerate(((["Bow height", "Height, bow"][i], b.bow), (["Stern height", "Height, stern"][i], b.stern), (["Carry point", "Carry grip"][i], b.carry))):
            s.say(50 + 165 * k, 120, label)
            s.field(label.replace(",", "").replace(" ", ""), 130 + 165 * k, 120, style(x), width=40)
            s.say(173 + 165 * k, 120, "in")
        for block in range(2):
            for x, head in zip((50, 110, 190), ("From bow", "Hull girth, in", "Full girth, in")):
                s.say(x + 265 * block, 155, head)
        for k in range(16):
            x, y = 50 + 265 * (k // 8), 175 + 20 * (k % 8)
            row = b.rows[k] if k < len(b.rows) else None
            s.say(x, y, f"{k + 1} ft")
            s.field(f"h{k + 1}", x + 60, y, style(row[1]) if row else "", tooltip=f"Hull girth at {k + 1} ft")
            s.field(f"f{k + 1}", x + 140, y, style(row[2]) if row else "", tooltip=f"Full girth at {k + 1} ft")
        lines = [("Transom", [("hull girth", b.transom[0]), ("full girth", b.transom[1])]),
                 ("Greatest girth", [("inches from bow", b.great[0]), ("hull girth", b.great[1]), ("full girth", b.great[2]), ("opening", b.opening)])]
        for k, (label, parts) in enumerate(lines):
            s.say(50, 355 + 25 * k, label)
            for n, (word, x) in enumerate(parts):
                s.say(119 + 115 * n, 355 + 25 * k, word)
                s.field(f"{label} {word}", 190 + 115 * n, 355 + 25 * k, style(x), width=40)
        emit("fields-skiff", i, "pdf", s.done(), b, b.want(great=True))


ALL = [docx_letter, docx_french, docx_tabs, docx_tables, pdf_sheet, pdf_french, pdf_letter, pdf_typed, fields_english, fields_french, fields_skiff]
