"""PDFs with filled form fields."""
import base  # noqa: F401, first: it sets the path to the helpers
from boats import cm, comma, dash, dec, foot, glyph, pair_of, plain
from files import Sheet, emit
from reportlab.lib.pagesizes import A4, letter


def column(s, labels, names, values, left, top, gap=22, indent=130, width=70):
    """Labels one below the other, a filled field to the right of each."""
    for n, (label, name, value) in enumerate(zip(labels, names, values)):
        s.say(left, top + gap * n, label)
        s.field(name, left + indent, top + gap * n, value, width)


def stations(s, rows, left, top, heads, names, label, write, lines, first=1):
    """Printed station numbers with two fields each; unused lines stay empty."""
    for n, head in enumerate(heads):
        s.say(left + 75 * n, top, head)
    for k in range(lines):
        s.say(left, top + 20 * (k + 1), label(first + k))
        for n, name in enumerate(names):
            s.field(name.format(first + k), left + 75 * (n + 1), top + 20 * (k + 1), write(rows[k][n + 1]) if k < len(rows) else "", 55)


def club():
    """A form with telling field names; in the second a full girth could not be taken."""
    for i, b in pair_of("form-club"):
        s, write, without = Sheet(letter), [plain, dec][i], ()
        rows = list(b.rows)
        at, h, f = b.great
        s.say(50, 45, ["Boat survey for a fitted cover", "Survey of a boat for a cover"][i])
        column(s, ["Name", "Telephone", "Boat"], ["name", "phone", "boat"], [b.owner, b.phone, b.craft], 50, 75, indent=70, width=150)
        column(s, [["Length overall (in)", "Bow height (in)", "Stern height (in)", "Carry point (in)"], ["Length overall", "Height of bow", "Height of stern", "Carry point"]][i],
               ["length_overall", "bow_height", "stern_height", "carry_point"], map(write, (b.loa, b.bow, b.stern, b.carry)), 50, 150)
        column(s, ["Greatest girth at (in)", "Hull girth there", "Full girth there", "Opening there"], ["greatest_at", "greatest_hull", "greatest_full", "greatest_opening"], map(write, (at, h, f, b.opening)), 50, 260)
        note = "Boat stood on two trestles."
        if i:
            k = len(rows) - 4
            without = (f"full_girth@{rows[k][0]}",)
            rows[k] = (*rows[k][:2], None)
            note = f"Full girth at {foot(rows[k][0])} ft not taken, thwart lashing in the way."
        stations(s, rows, 320, 75, [["Feet", "Hull girth", "Full girth"], ["Station (ft)", "Hull girth, in", "Full girth, in"]][i], ["hull_{}", "full_{}"], str, lambda x: "" if x is None else write(x), 17)
        s.say(50, 370, "Remarks")
        s.field("remarks", 50, 390, note, 240)
        emit("form-club", i, "pdf", s.done(), b, b.want(without, great=True))


def numbered_fields():
    """Fields named Text1, Text2 and so on, as a drawing program numbers them; only the print tells."""
    for i, b in pair_of("form-numbered-fields", slip=True):
        s, write, n = Sheet(letter), [dec, glyph][i], 0
        at, h, f = b.great

        def put(label, x, y, value, indent=150, width=60):
            nonlocal n
            n += 1
            if label:
                s.say(x, y, label)
            s.field(f"Text{n}", x + indent, y, value, width)
        s.say(50, 45, ["MEASURING SHEET. All measurements in inches.", "Measuring sheet (please give all in inches)"][i])
        put("Your name", 50, 75, b.owner, width=140)
        put(["Phone", "Daytime phone"][i], 50, 97, b.phone, width=140)
        s.say(50, 130, "Feet from bow")
        s.say(150, 130, ["Hull girth", "Under the hull"][i])
        s.say(240, 130, ["Full girth", "Full circle"][i])
        for k in range(17):
            row = b.rows[k] if k < len(b.rows) else None
            s.say(70, 152 + 21 * k, k + 1)
            put("", 150, 152 + 21 * k, write(row[1]) if row else "", indent=0)
            put("", 240, 152 + 21 * k, write(row[2]) if row else "", indent=0)
        labels = [("Overall length of the boat", "Height of the bow", "Height of the stern", "Carry point, from the bow"), ("Length overall", "Bow height", "Stern height", "Bow to carry point")][i]
        for k, (label, x) in enumerate(zip(labels, (b.loa, b.bow, b.stern, b.carry))):
            put(label, 340, 152 + 24 * k, write(x))
        for k, (label, x) in enumerate(zip(("Largest girth: distance from bow", "Largest girth: hull girth", "Largest girth: full girth"), (at, h, f))):
            put(label, 340, 280 + 24 * k, write(x), indent=165)
        emit("form-numbered-fields", i, "pdf", s.done(), b, b.want(("greatest.opening",), great=True))


def french_metric():
    """France, A4, centimetres, with a list for the unit and ticks for the stern; in the second one tour is unsure."""
    for i, b in pair_of("form-fiche-cm", unit="cm", french=True, feet=(11, 14)):
        s, doubt, k = Sheet(A4), (), len(b.rows) // 2
        at, h, f = b.great
        rows = [(a, dec(x), dec(y)) for a, x, y in b.rows]
        if i:
            a, x, y = rows[k]
            rows[k], doubt = (a, x, y + " ?"), (f"full_girth@{a}",)
        s.say(45, 45, ["Fiche de mesures du bateau", "Fiche de mesures pour une housse"][i])
        s.say(330, 45, "Unité")
        s.choice("unite", 370, 45, "cm", ["cm", "po"])
        column(s, ["Nom", "Téléphone", "Bateau"], ["nom", "tel", "bateau"], [b.owner, base.in_france(b), b.craft], 45, 75, indent=60, width=150)
        s.say(45, 150, "Arrière pointu")
        s.tick("pointu", 130, 150, True)
        s.say(165, 150, "Arrière carré")
        s.tick("carre", 240, 150, False)
        column(s, [["Longueur hors tout", "Hauteur de l'étrave", "Hauteur de la poupe", "Point de portage"], ["Longueur totale", "Hauteur à l'avant", "Hauteur à l'arrière", "Point de portage"]][i],
               ["longueur", "h_avant", "h_arriere", "portage"], [[dec, cm][i](x) for x in (b.loa, b.bow, b.stern, b.carry)], 45, 185)
        column(s, ["Plus grand tour : à", "Tour de coque", "Tour complet", "Ouverture"], ["max_dist", "max_coque", "max_tour", "max_ouverture"], map(dec, (at, h, f, b.opening)), 45, 300)
        stations(s, rows, 320, 75, ["Distance", ["Tour de coque", "Sous coque"][i], "Tour complet"],
                 ["coque_{}", "tour_{}"], lambda n: 30 * n, str, 18)
        s.say(45, 410, "Remarques")
        s.field("remarques", 45, 430, ["", f"Tour complet à {b.rows[k][0]} : pas sûr, le mètre a glissé"][i], 240)
        emit("form-fiche-cm", i, "pdf", s.done(), b, b.want(doubt, great=True), doubt)


def feet_and_inches():
    """A skiff; the long distances have a box for feet and one for inches, girths one box."""
    for i, b in pair_of("form-feet-and-inches", slip=True, kind="square", feet=(11, 15)):
        s, write = Sheet(letter), [plain, dash][i]
        at, h, f = b.great

        def split(label, name, y, x):
            s.say(50, y, label)
            s.field(name + "_ft", 160, y, int(x // 12), 30)
            s.say(194, y, "ft")
            s.field(name + "_in", 212, y, write(x % 12), 40)
            s.say(256, y, "in")
        s.say(50, 45, ["Square-stern boat: measurements", "Measurements, boat with a transom"][i])
        column(s, ["Owner", "Tel."], ["owner", "tel"], [b.owner, b.phone], 50, 75, indent=60, width=150)
        split("Length overall", "loa", 135, b.loa)
        split(["Greatest girth at", "Greatest girth is at"][i], "great", 165, at)
        column(s, ["Hull girth there (in)", "Full girth there (in)", "Opening there (in)"], ["great_hull", "great_full", "great_open"], map(write, (h, f, b.opening)), 50, 195)
        column(s, [["Bow height (in)", "Stern height (in)", "Carry point (in)"], ["Height at bow, in", "Height at stern, in", "Carry point, in"]][i], ["bow", "stern", "carry"], map(write, (b.bow, b.stern, b.carry)), 50, 275)
        column(s, ["Transom: hull girth (in)", "Transom: full girth (in)"], ["transom_hull", "transom_full"], map(write, b.transom), 50, 355)
        stations(s, b.rows, 330, 75, ["From bow", "Hull (in)", "Full (in)"], ["h{}", "f{}"], lambda n: f"{n} ft", write, 15)
        s.say(50, 420, "What stays under the cover")
        s.field("under", 50, 440, ["oars and a cushion", "small motor, tilted"][i], 200)
        emit("form-feet-and-inches", i, "pdf", s.done(), b, b.want(great=True))


def french_two_columns():
    """Québec, a chaloupe, stations in two columns of fields, pouces."""
    for i, b in pair_of("form-chaloupe", french=True, kind="square", feet=(12, 16)):
        s, write = Sheet(letter), [plain, comma][i]
        s.say(50, 45, ["Feuille de mesures (toutes les mesures en pouces)", "Mesures de l'embarcation, en pouces"][i])
        column(s, ["Nom", "Téléphone"], ["Nom", "Telephone"], [b.owner, b.phone], 50, 75, indent=60, width=150)
        labels = [["Longueur hors tout", "Hauteur de la proue", "Hauteur de la poupe", "Point de portage"], ["Longueur totale", "Hauteur de proue", "Hauteur de poupe", "Poignée, à partir de la proue"]][i]
        column(s, labels, ["Longueur", "Proue", "Poupe", "Portage"], map(write, (b.loa, b.bow, b.stern, b.carry)), 50, 130, indent=150)
        heads = [["Pied", "Demi-tour", "Tour complet"], ["Pieds", "Sous la coque", "Tour complet"]][i]
        for block, left, first in zip((b.rows[:8], b.rows[8:]), (50, 320), (1, 9)):
            stations(s, block, left, 235, heads, ["Demi{}", "Tour{}"], str, write, 8, first)
        s.say(50, 430, ["Tableau arrière :   demi-tour", "Au tableau :   sous la coque"][i])
        s.field("TableauDemi", 200, 430, write(b.transom[0]))
        s.say(275, 430, "tour complet")
        s.field("TableauTour", 345, 430, write(b.transom[1]))
        s.say(50, 465, "Notes")
        s.field("Notes", 90, 465, ["mesuré seul, bateau à l'endroit", "bancs enlevés"][i], 300)
        emit("form-chaloupe", i, "pdf", s.done(), b)


ALL = [club, numbered_fields, french_metric, feet_and_inches, french_two_columns]
