"""Workbooks of Excel and LibreOffice, and separated text."""
import common  # noqa: F401
from boats import comma, dash, feet, feet_french, feet_tight, foot, glyph, halves, millimetres, pair_of, plain
from common import wide
from files import Written, convert, emit, fill, saved, separated, text, workbook


def garage():
    """Facts above, stations below, decimal numbers; the second adds a note at the foot."""
    for i, b in pair_of("xlsx-garage"):
        book, s = workbook(["Canoe", "Sheet1"][i])
        names = [["Overall length", "Height at the bow", "Height at the stern", "Nose to carry thwart"],
                 ["Length, tip to tip", "Bow height", "Stern height", "Front of boat to carrying yoke"]][i]
        fill(s, [[f"Cover for my {b.craft}"], [b.owner, b.phone], [], ["Everything in inches"],
                 *zip(names, (b.loa, b.bow, b.stern, b.carry)), [],
                 [["Feet from bow", "Around hull, gunwale to gunwale", "All the way round"], ["Distance from bow (ft)", "Hull only", "Full loop"]][i],
                 *[(foot(at), hull, full) for at, hull, full in b.rows]])
        if i:
            fill(s, [[], ["The seats stay in, the yoke can be taken out if you need."]])
        wide(s, 28, 32, 20)
        emit("xlsx-garage", i, "xlsx", saved(book), b)


def sideways():
    """Stations run to the right, facts beneath them; the second has slip and girths in the other order."""
    for i, b in pair_of("xlsx-sideways", slip=True):
        book, s = workbook("Measurements")
        ats, hulls, fulls = zip(*b.rows)
        lines = [["Girth under the hull", *hulls], ["Girth, full loop", *fulls]]
        if i:
            lines = [["Closed girth", *fulls], ["Open girth (hull)", *hulls]]
        fill(s, [[f"{b.owner} - {b.craft} - measured {['May 3', 'on the lawn, Sunday'][i]}"], [],
                 [["Inches from bow", "From the bow, in."][i], *ats], *lines, [],
                 ["LOA", b.loa, "inches"], ["Bow ht.", b.bow, "inches"], ["Stern ht.", b.stern, "inches"],
                 [["Carry thwart", "Carry point"][i], b.carry, "inches from the bow"]])
        wide(s, 24)
        emit("xlsx-sideways", i, "xlsx", saved(book), b)


def metric_french():
    """French, centimetres, laid out from B2 with a bold heading; in the second cm stands in the number's format."""
    for i, b in pair_of("xlsx-mesures", unit="cm", french=True):
        w = Written(["Mesures", "Feuil1"][i])
        s, bold = w.sheets[0], w.book.add_format({"bold": True, "border": 1})
        number = w.book.add_format({"border": 1, "num_format": ['0', '0" cm"'][i]})
        s.set_column(1, 3, 30)
        s.write(1, 1, f"Relevé {b.craft} - {b.owner}", bold)
        s.write(2, 1, ["Mesures en centimètres", f"Tél. {b.phone}"][i])
        names = [["Longueur hors tout", "Hauteur à l'étrave", "Hauteur à la poupe", "Poignée de portage, depuis l'étrave"],
                 ["Longueur totale", "Hauteur avant", "Hauteur arrière", "Distance avant - barre de portage"]][i]
        for k, (name, x) in enumerate(zip(names, (b.loa, b.bow, b.stern, b.carry))):
            s.write(4 + k, 1, name)
            s.write(4 + k, 2, x, number)
        heads = [["Distance de l'étrave", "Tour de coque", "Tour complet"], ["À partir de l'avant", "Tour de la coque (ouvert)", "Tour total (fermé)"]][i]
        for c, head in enumerate(heads):
            s.write(9, 1 + c, head, bold)
        for k, row in enumerate(b.rows):
            for c, x in enumerate(row):
                s.write(10 + k, 1 + c, x, number)
        emit("xlsx-mesures", i, "xlsx", w.done(), b)


def remarks():
    """Fractions as text, a column of remarks without numbers, greatest girth after the stations; slip in the second."""
    for i, b in pair_of("xlsx-remarks", slip=True):
        book, s = workbook("survey")
        said = {3: "front seat near here", 6: ["measured twice", "widest about here"][i], len(b.rows) - 2: "rear seat"}
        fill(s, [["Survey", b.craft, "", ""], ["Name", b.owner], ["Phone", b.phone], [],
                 ["Length overall", feet(b.loa)], ["Height of bow", plain(b.bow) + '"'], ["Height of stern", plain(b.stern) + '"'], ["Carry point", plain(b.carry) + '"'], [],
                 ["Station", "Hull girth (in)", "Full girth (in)", "Remarks"],
                 *[(f"{foot(at)} ft", plain(hull), plain(full), said.get(k, "")) for k, (at, hull, full) in enumerate(b.rows)], [],
                 [["Greatest girth is at", "Fattest spot, from bow"][i], feet(b.great[0])], ["Hull girth there", plain(b.great[1])], ["Full girth there", plain(b.great[2])],
                 [["Opening there", "Straight across the opening there"][i], plain(b.opening)]])
        wide(s, 30, 18, 18, 30)
        emit("xlsx-remarks", i, "xlsx", saved(book), b, b.want(great=True))


def inches_french():
    """French of Canada, feet and inches for the length, girths in inches; half-foot stations near the ends."""
    for i, b in pair_of("xlsx-pouces", french=True, ends=True):
        book, s = workbook("Canot")
        mark = ['"', " po"][i]
        fill(s, [[["Housse sur mesure", "Toile pour mon canot"][i]], [b.owner, b.phone], [],
                 ["Distance de la pince avant (pi)", "Tour sous la coque (po)", "Tour complet (po)"],
                 *[(foot(at), [hull, plain(hull)][i], [full, plain(full)][i]) for at, hull, full in b.rows], [],
                 [["Longueur totale du canot", "Longueur d'un bout à l'autre"][i], [feet, feet_french][i](b.loa)],
                 ["Hauteur de la pince avant", plain(b.bow) + mark], ["Hauteur de la pince arrière", plain(b.stern) + mark],
                 [["De l'avant à la barre de portage", "Barre de portage, depuis l'avant"][i], plain(b.carry) + mark]])
        wide(s, 34, 26, 22)
        emit("xlsx-pouces", i, "xlsx", saved(book), b)


def two_sheets():
    """The boat on one sheet, girths on another, numbers shown as fractions; slip in the second."""
    for i, b in pair_of("xlsx-twosheets", slip=True):
        book, s = workbook(["Boat", "General"][i])
        fill(s, [["Owner", b.owner], ["Boat", b.craft], ["Length overall (in)", b.loa], ["Bow height (in)", b.bow], ["Stern height (in)", b.stern],
                 [["Carry handle from bow (in)", "Bow to carry thwart (in)"][i], b.carry], ["Colour wanted", ["dark green", "grey if you have it"][i]]])
        g = book.create_sheet(["Girths", "Stations"][i])
        fill(g, [[["Station (ft)", "Feet back from bow"][i], ["Hull girth", "Hull girth, inches"][i], ["Full girth", "Full girth, inches"][i]],
                 *[(foot(at), hull, full) for at, hull, full in b.rows]])
        for sheet in (s, g):
            wide(sheet, 28, 24, 24)
            for row in sheet.iter_rows(min_col=2):
                for cell in row:
                    cell.number_format = "# ?/?"
        emit("xlsx-twosheets", i, "xlsx", saved(book), b)


def skiff():
    """A square stern, feet and inches as text, full girth before hull girth, the transom as last row."""
    for i, b in pair_of("xlsx-skiff", kind="square"):
        book, s = workbook("Sheet1")
        heads = [["From bow", "Complete girth", "Girth of hull only"], ["Back from the stem", "Right round incl. across top", "Under hull, rail to rail"]][i]
        fill(s, [[f"{b.craft.upper()} COVER"], [], ["Length of boat overall", feet_tight(b.loa)], ["Bow height", feet_tight(b.bow)], [["Stern height", "Height at transom"][i], feet_tight(b.stern)],
                 [["Grip point, from bow", "Bow handle (where I grab it), from stem"][i], feet_tight(b.carry)], [], heads,
                 *[(f"{foot(at)}'", feet_tight(full), feet_tight(hull)) for at, hull, full in b.rows],
                 ["Transom", feet_tight(b.transom[1]), feet_tight(b.transom[0])], [], ["Thanks!", b.owner, b.phone]])
        wide(s, 38, 28, 26)
        emit("xlsx-skiff", i, "xlsx", saved(book), b)


def kayak_french():
    """A kayak in centimetres, stations in two blocks side by side; in the second one full girth is unsure and says so."""
    for i, b in pair_of("xlsx-kayak", unit="cm", kind="decked", french=True):
        book, s = workbook("kayak")
        unsure = b.rows[5][0] if i else None
        heads = ["Distance (cm)", ["Tour coque", "Coque seule"][i], ["Tour total", "Coque + pont"][i]]
        shown = [(at, hull, f"{full} ?" if at == unsure else full) for at, hull, full in b.rows]
        left, right = halves(shown)
        fill(s, [[f"{b.craft} - {b.owner}"], ["Longueur hors tout (cm)", b.loa], ["Hauteur proue (cm)", b.bow], ["Hauteur poupe (cm)", b.stern], [["Poignée avant, depuis la proue (cm)", "Proue à poignée (cm)"][i], b.carry], [],
                 [*heads, "", *heads], *[[*row, "", *(right[k] if k < len(right) else ())] for k, row in enumerate(left)]])
        if i:
            fill(s, [[], [f"? = pas certain, le ruban a glissé à {unsure} cm"]])
        wide(s, 36, 14, 14, 4, 16, 14, 14)
        doubt = [f"full_girth@{unsure}"] if i else []
        emit("xlsx-kayak", i, "xlsx", saved(book), b, doubt=doubt)


def csv_simple():
    """Commas, decimals, facts first; slip in the second, who names columns otherwise and leaves a blank line."""
    for i, b in pair_of("csv-simple", slip=True):
        facts = [["name", b.owner], ["boat", b.craft], ["units", "inches"]]
        names = [["length overall", "bow height", "stern height", "carry point"], ["overall length", "height bow", "height stern", "carry thwart from bow"]][i]
        heads = [["feet from bow", "hull girth", "full girth"], ["station ft", "girth hull", "girth full"]][i]
        rows = [(foot(at), hull, full) for at, hull, full in b.rows]
        emit("csv-simple", i, "csv", separated([*facts, *zip(names, (b.loa, b.bow, b.stern, b.carry)), *([[]] * i), heads, *rows]), b)


def csv_french():
    """Semicolons, decimal commas, centimetres, the letters of Windows; the second puts cm after each fact."""
    for i, b in pair_of("csv-releve", unit="cm", french=True, tick=.5):
        names = [["Longueur hors tout (cm)", "Hauteur d'étrave (cm)", "Hauteur arrière (cm)", "Point de portage (cm)"],
                 ["Longueur", "Hauteur devant", "Hauteur derrière", "Traverse de portage à partir de l'avant"]][i]
        facts = [comma(x) + " cm" * i for x in (b.loa, b.bow, b.stern, b.carry)]
        heads = [["Distance étrave (cm)", "Périmètre coque (cm)", "Périmètre complet (cm)"], ["Distance de l'avant (cm)", "Tour de coque (cm)", "Tour fermé (cm)"]][i]
        rows = [["Propriétaire", b.owner], ["Bateau", b.craft], *zip(names, facts), heads, *[[comma(x) for x in row] for row in b.rows]]
        emit("csv-releve", i, "csv", separated(rows, ";", "cp1252"), b)


def tsv_millimetres():
    """A boatbuilder's habit: a skiff in millimetres, tabs, the transom under the stations."""
    for i, b in pair_of("tsv-builder", unit="cm", kind="square", tick=.5):
        names = [["Length overall", "Bow height", "Stern height", "Carry point"], ["LOA", "Height at stem head", "Height at transom top", "Bow to carry thwart"]][i]
        heads = [["Dist. from bow (mm)", "Hull girth (mm)", "Full girth (mm)"], ["mm aft of bow", "hull girth mm", "full girth mm"]][i]
        lines = [f"{b.craft}\t{b.owner}", "all sizes in mm", "", *[f"{n}\t{millimetres(x)} mm" for n, x in zip(names, (b.loa, b.bow, b.stern, b.carry))], "", "\t".join(heads),
                 *["\t".join(millimetres(x) for x in row) for row in b.rows], "Transom\t" + "\t".join(millimetres(x) for x in b.transom)]
        emit("tsv-builder", i, "tsv", text(lines, newline=["\r\n", "\n"][i]), b)


def ods_french():
    """LibreOffice in France: centimetres, numbers, date and weather above."""
    for i, b in pair_of("ods-canot", unit="cm", french=True):
        book, s = workbook("Feuille1")
        names = [["Longueur hors-tout", "Hauteur de l'étrave", "Hauteur de l'étambot", "Point de portage"], ["Long. totale", "Haut. avant", "Haut. arrière", "De la pointe avant à la poignée"]][i]
        heads = [["Station (cm)", "Tour de coque (cm)", "Tour complet (cm)"], ["cm depuis la pointe avant", "contour coque seule", "contour avec l'ouverture"]][i]
        fill(s, [["Mesures pour la bâche"], [b.owner, ["le samedi matin, temps sec", "mesuré à deux"][i]], [], heads, *b.rows, [],
                 *[(n, x, "cm") for n, x in zip(names, (b.loa, b.bow, b.stern, b.carry))]])
        wide(s, 32, 26, 26)
        emit("ods-canot", i, "ods", convert(saved(book), "xlsx", "ods"), b)


def ods_english():
    """Halves as ½ in text; slip in the second, whose carry point is not yet measured."""
    for i, b in pair_of("ods-fractions", slip=True):
        book, s = workbook("Sheet1")
        style = [glyph, dash][i]
        carry = [style(b.carry), "will send later"][i]
        fill(s, [[b.owner, f"old {b.craft}".replace("old old", "old")], ["Tape: cloth, in inches"], [],
                 ["Length o/a", feet(b.loa, style)], ["Height, bow end", style(b.bow)], ["Height, stern end", style(b.stern)], ["Carry point from bow", carry], [],
                 ["Foot mark", "Hull girth", "Full girth"], *[(f"{foot(at)} ft", style(hull), style(full)) for at, hull, full in b.rows]])
        wide(s, 26, 26, 20)
        emit("ods-fractions", i, "ods", convert(saved(book), "xlsx", "ods"), b, b.want(("carry_point",) if i else ()))


ALL = [garage, sideways, metric_french, remarks, inches_french, two_sheets, skiff, kayak_french, csv_simple, csv_french, tsv_millimetres, ods_french, ods_english]
