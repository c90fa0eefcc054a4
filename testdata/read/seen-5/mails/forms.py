"""PDF forms that somebody made and a customer filled in."""
from reportlab.lib.pagesizes import A4

from boats import comma, dec, feet_words, foot, pair_of, plain
from files import Sheet, emit


def cards():
    """A small card for each station, three in a row, the labels above their fields."""
    for i, b in pair_of("form-cards", feet=(11, 15)):
        s, write = Sheet(points=9), [plain, dec][i]
        s.say(50, 40, "COVER SURVEY (inches)")
        for k, (label, x) in enumerate((("Length overall", feet_words(b.loa)), ("Bow height", write(b.bow)), ("Stern height", write(b.stern)), ("Carry point", write(b.carry)))):
            s.say(50 + 130 * k, 70, label), s.field(label.lower().replace(" ", "."), 50 + 130 * k, 88, x, 90)
        for k, (at, hull, full) in enumerate(b.rows):
            x, y = 50 + 180 * (k % 3), 135 + 75 * (k // 3)
            s.canvas.rect(x - 8, s.height - y - 50, 165, 66)
            s.say(x, y, f"Station {foot(at)} ft"), s.say(x, y + 18, "Hull girth"), s.say(x + 76, y + 18, "Full girth")
            s.field(f"card{k + 1}.hull", x, y + 36, write(hull)), s.field(f"card{k + 1}.full", x + 76, y + 36, write(full))
        emit("form-cards", i, "pdf", s.done(), "in", b.want())


def french_metres():
    """A French form: the length in a field for metres and one for centimetres."""
    for i, b in pair_of("form-metresfr", unit="cm", french=True, feet=(11, 16)):
        s = Sheet(A4)
        s.say(60, 50, "Fiche de relevé (toutes les mesures en cm, sauf la longueur)")
        s.say(60, 80, "Nom"), s.field("nom", 190, 80, b.owner, 150)
        s.say(60, 104, "Longueur hors tout"), s.field("lht_m", 190, 104, int(b.loa // 100), 34), s.say(230, 104, "m"), s.field("lht_cm", 246, 104, f"{int(b.loa % 100):02d}", 34), s.say(286, 104, "cm")
        for k, (label, name, x) in enumerate((("Hauteur de l'étrave", "etrave", b.bow), ("Hauteur de la poupe", "poupe", b.stern), ("Point de portage", "portage", b.carry))):
            s.say(60, 128 + 24 * k, label), s.field(name, 190, 128 + 24 * k, comma(x))
        for x, label in ((60, "Distance de l'étrave"), (190, "Tour de coque"), (300, "Tour complet")):
            s.say(x, 214, label)
        for k, (at, hull, full) in enumerate(b.rows):
            s.say(60, 238 + 23 * k, f"{at} cm"), s.field(f"c{at}", 190, 238 + 23 * k, hull), s.field(f"t{at}", 300, 238 + 23 * k, full)
        emit("form-metresfr", i, "pdf", s.done(), "cm", b.want())


LAYOUTS = (cards, french_metres)
