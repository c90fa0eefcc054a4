"""PDFs of printed text, by ReportLab and by LibreOffice."""
import base  # noqa: F401, first: it sets the path to the helpers
import docx
from boats import cm, comma, dec, feet, feet_tight, foot, glyph, halves, inch, metres, pair_of, plain, point, quote
from files import Sheet, Written, convert, emit, grid, laid_out, saved
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape, letter
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, Spacer, Table


def letter_with_table():
    """A typed letter with a table in feet and inches."""
    for i, b in pair_of("pdf-letter"):
        at, h, f = b.great
        style = getSampleStyleSheet()
        write = [feet, feet_tight][i]
        if i == 0:
            told = ["To: Pinfold Cover Loft", f"From: {b.owner}, telephone {b.phone}", f"Dear sirs, below are the measurements of my {b.craft}. The length overall is {feet(b.loa)}. "
                    f"The height of the bow is {feet(b.bow)} and the height of the stern {feet(b.stern)}. The carry point is {feet(b.carry)} from the bow."]
            head = ["Station", "Hull girth", "Full girth"]
            after = [f"The greatest girth is at {feet(at)} from the bow, where the hull girth is {feet(h)}, the full girth {feet(f)} and the opening {feet(b.opening)}.", "Sincerely,", b.owner]
        else:
            told = [f"{b.owner}<br/>{b.phone}", "May 28th, 2026", f"Length overall: {feet_tight(b.loa)}<br/>Bow, height: {feet_tight(b.bow)}<br/>Stern, height: {feet_tight(b.stern)}<br/>Carry handle, from bow: {feet_tight(b.carry)}"]
            head = ["From the bow", "Gunwale to gunwale under the hull", "Full loop"]
            after = [f"Biggest girth: {feet_tight(at)} from the bow. Gunwale to gunwale under the hull {feet_tight(h)}, full loop {feet_tight(f)}, opening {feet_tight(b.opening)}.", "The boat has no seats in it at the moment."]
        rows = [head] + [[f"{foot(a)} ft", write(x), write(y)] for a, x, y in b.rows]
        table = Table(rows, hAlign="LEFT", style=[("LINEBELOW", (0, 0), (-1, 0), 1, colors.black), ("FONTNAME", (0, 0), (-1, 0), "Helvetica-Bold")])
        story = [piece for t in told for piece in (Paragraph(t, style["Normal"]), Spacer(1, 8))] + [table, Spacer(1, 8)] + [Paragraph(t, style["Normal"]) for t in after]
        emit("pdf-letter", i, "pdf", laid_out(story), b, b.want(great=True))


def side_by_side():
    """A landscape page, stations in two blocks side by side."""
    for i, b in pair_of("pdf-side-by-side", slip=True, feet=(14, 17)):
        s = Sheet(landscape(letter), points=11)
        write = [plain, point][i]
        s.say(60, 60, [f"CANOE MEASUREMENTS   {b.owner}   {b.phone}", f"Boat: {b.craft}. Owner: {b.owner}. All dimensions in inches."][i])
        labels = [("Overall length", "Bow height", "Stern height", "Carry point"), ("Length, tip to tip:", "Height, bow:", "Height, stern:", "Bow to carry thwart:")][i]
        for n, (label, x) in enumerate(zip(labels, (b.loa, b.bow, b.stern, b.carry))):
            s.say(60, 95 + 18 * n, label)
            s.say(200, 95 + 18 * n, [inch, point][i](x))
        for block, left in zip(halves(b.rows), (60, 420)):
            for n, word in enumerate([("Foot", "Hull girth", "Full girth"), ("From bow", "Hull", "Full girth")][i]):
                s.say(left + 100 * n, 195, word)
            for k, (a, x, y) in enumerate(block):
                s.say(left, 218 + 20 * k, [foot(a), f"{foot(a)} ft"][i])
                s.say(left + 100, 218 + 20 * k, write(x))
                s.say(left + 200, 218 + 20 * k, write(y))
        s.say(60, 420, ["Measured outdoors on two sawhorses with a cloth tape.", "Measured with my son, who read the tape. Boat was dry."][i])
        emit("pdf-side-by-side", i, "pdf", s.done(), b)


def writer_french():
    """France, a text document printed to PDF, centimetres, with a remarks column."""
    for i, b in pair_of("pdf-traitement-texte", slip=True, unit="cm", french=True):
        at, h, f = b.great
        d = docx.Document()
        d.add_heading(["Relevé de mesures", "Mon canot : mesures pour la bâche"][i], 1)
        d.add_paragraph([f"{b.owner}\nTéléphone : {base.in_france(b)}\nBateau : {b.craft}", f"Propriétaire : {b.owner}"][i])
        labels = [("Longueur hors tout", "Hauteur d'étrave", "Hauteur de poupe", "Point de portage"), ("Longueur totale", "Hauteur à l'avant", "Hauteur à l'arrière", "Poignée de portage (depuis l'avant)")][i]
        for label, x in zip(labels, (b.loa, b.bow, b.stern, b.carry)):
            d.add_paragraph(f"{label} : {cm(x)}")
        notes = {2: ["bord du pontage", ""][i], len(b.rows) // 2: ["banc", "mesuré deux fois"][i]}
        head = [["Distance", "Tour de coque", "Tour complet", "Remarque"], ["Depuis l'avant (m)", "Tour sous la coque (cm)", "Tour total (cm)", "Observations"]][i]
        grid(d, [head] + [[[f"{a} cm", metres(a)[:-2]][i], dec(x), dec(y), notes.get(n, "")] for n, (a, x, y) in enumerate(b.rows)])
        d.add_paragraph([f"Tour maximal à {cm(at)} de l'étrave : coque {cm(h)}, complet {cm(f)}, ouverture {cm(b.opening)}.",
                         f"Au plus large, à {cm(at)} de l'avant : tour sous la coque {cm(h)}, tour total {cm(f)}."][i])
        emit("pdf-traitement-texte", i, "pdf", convert(saved(d), "docx", "pdf"), b, b.want(("greatest.opening",) if i else (), great=True))


def calc_sheet():
    """A skiff in a spreadsheet printed to PDF, decimals; the second has the full girth first."""
    for i, b in pair_of("pdf-calc", kind="square", feet=(11, 14)):
        at, h, f = b.great
        w = Written("Skiff")
        sheet, half = w.sheets[0], w.book.add_format({"num_format": ["0.0", "# ?/2"][i]})
        bold = w.book.add_format({"bold": True, "bottom": 1, "align": ["left", "right"][i]})
        sheet.set_column(0, 0, 26)
        sheet.set_column(1, 2, 15)
        sheet.write_row(0, 0, [[f"{b.craft.capitalize()} of {b.owner}", "", "inches"], ["Survey for cover (inches)", b.owner, b.phone]][i])
        top = [("Length overall", b.loa), ("Bow height", b.bow), ("Stern height", b.stern), ("Carry point", b.carry)]
        for n, (label, x) in enumerate(top):
            sheet.write(2 + n, 0, label)
            sheet.write(2 + n, 1, x, half)
        sheet.write_row(7, 0, [["Distance from bow (ft)", "Hull girth", "Full girth"], ["Feet back from bow", "Closed girth", "Hull girth (open)"]][i], bold)
        rows = [*((foot(a), x, y) for a, x, y in b.rows), (["Transom", "At the transom"][i], *b.transom)]
        if i == 0:
            rows.append((f"Greatest, at {dec(at)} in", h, f))
        for n, (a, x, y) in enumerate(rows):
            sheet.write(8 + n, 0, a, w.book.add_format({"align": "left"}))
            for k, value in enumerate((x, y) if i == 0 else (y, x)):
                sheet.write(8 + n, 1 + k, value, half)
        if i == 0:
            sheet.write(8 + len(rows), 0, "Opening at greatest")
            sheet.write(8 + len(rows), 1, b.opening, half)
        emit("pdf-calc", i, "pdf", convert(w.done(), "xlsx", "pdf"), b, b.want(great=i == 0))


def bulleted_document():
    """No table, a bulleted list from a word processor; in the second one number is unsure."""
    for i, b in pair_of("pdf-bullets"):
        d, doubt, k = docx.Document(), (), len(b.rows) // 3
        d.add_paragraph([f"Measurements of {b.owner}'s {b.craft}", f"For the cover makers, from {b.owner} ({b.phone})"][i])
        top = [[f"Overall length is {quote(b.loa)}", f"Bow is {quote(b.bow)} high", f"Stern is {quote(b.stern)} high", f"Carrying point is {quote(b.carry)} from the bow"],
               [f"Length: {feet(b.loa, glyph)}", f"Height of bow: {glyph(b.bow)}\"", f"Height of stern: {glyph(b.stern)}\"", f"Carry thwart: {glyph(b.carry)}\" from bow"]][i]
        for t in top:
            d.add_paragraph(t, style="List Bullet")
        d.add_paragraph(["Girth of the hull, then full girth, at each foot from the bow:", "Hull girth and full girth at every foot, inches:"][i])
        if i:
            doubt = (f"hull_girth@{b.rows[k][0]}",)
        for n, (a, x, y) in enumerate(b.rows):
            words = f"{foot(a)} {'foot' if a == 12 else 'feet'}: {quote(x)}, {quote(y)}" if i == 0 else f"{foot(a)} ft: hull {glyph(x)}{'? (not sure, could not see the tape)' if n == k else ''}, full {glyph(y)}"
            d.add_paragraph(words, style="List Bullet")
        d.add_paragraph(["Paper tracings of the ends are in the post.", "Will do the tracings next week."][i])
        emit("pdf-bullets", i, "pdf", convert(saved(d), "docx", "pdf"), b, doubt=doubt)


def across_french():
    """Québec, stations across the page, in pouces; length, heights and carry point below."""
    for i, b in pair_of("pdf-en-travers", french=True, feet=(12, 15)):
        s = Sheet(landscape([letter, A4][i]), points=10)
        write, left, gap = [plain, comma][i], 50, 41
        s.say(left, 60, [f"Mesures du {b.craft} de {b.owner} ({b.phone}), en pouces", f"{b.owner} : {b.craft}. Unité : pouces"][i])
        names = [("Distance (pi)", "Tour de coque", "Tour complet"), ("Pied no", "Demi-tour", "Grand tour")][i]
        for n, name in enumerate(names):
            s.say(left, 110 + 28 * n, name)
            s.canvas.line(left, s.height - 117 - 28 * n, left + 85 + gap * len(b.rows), s.height - 117 - 28 * n)
        for k, (a, x, y) in enumerate(b.rows):
            for n, word in enumerate((foot(a), write(x), write(y))):
                s.say(left + 100 + gap * k, 110 + 28 * n, word, centred=True)
        labels = [("Longueur hors tout", "Hauteur de l'étrave", "Hauteur de l'arrière", "Point de portage"), ("Longueur bout à bout :", "Pointe avant, hauteur :", "Pointe arrière, hauteur :", "Barre de portage, distance de l'avant :")][i]
        for n, (label, x) in enumerate(zip(labels, (b.loa, b.bow, b.stern, b.carry))):
            s.say(left, 230 + 20 * n, label)
            s.say(left + [130, 190][i], 230 + 20 * n, write(x) + [" po", ""][i])
        emit("pdf-en-travers", i, "pdf", s.done(), b)


ALL = [letter_with_table, side_by_side, writer_french, calc_sheet, bulleted_document, across_french]
