"""PDF forms with fillable fields, as filled in a viewer."""
import io

from reportlab.lib.pagesizes import letter as paper
from reportlab.pdfgen import canvas

from craft import dec, feet, feetwords, fleet, ft, mark, plain, quote
from files import emit


class Page:
    """A page with fields; y runs down in points from the top."""

    def __init__(self):
        self.out = io.BytesIO()
        self.c = canvas.Canvas(self.out, pagesize=paper, invariant=1)
        self.c.setFont("Helvetica", 10)

    def say(self, x, y, words):
        self.c.drawString(x, 770 - y, words)

    def field(self, name, x, y, value, wide=70):
        self.c.acroForm.textfield(name=name, x=x, y=764 - y, width=wide, height=16, value=value, fontSize=10, borderWidth=.5)

    def tick(self, name, x, y, on):
        self.c.acroForm.checkbox(name=name, x=x, y=766 - y, size=12, checked=on, buttonStyle="check")

    def done(self):
        self.c.save()
        return self.out.getvalue()


FOUR = [("Length overall", "loa"), ("Bow height", "bow_height"), ("Stern height", "stern_height"), ("Carry point", "carry_point")]


def named():
    """Fields with names that speak."""
    for i, b in enumerate(fleet("named", 3)):
        p, write = Page(), [plain, dec, quote][i]
        p.say(60, 0, "Boat measurement form. Girths in inches.")
        p.say(60, 24, "Name"), p.field("name", 160, 24, b.person, 200)
        for k, ((label, name), x) in enumerate(zip(FOUR, (feet(b.loa), quote(b.bow), quote(b.stern), quote(b.carry)))):
            p.say(60, 48 + 24 * k, label), p.field(name, 160, 48 + 24 * k, x)
        for x, word in ((60, "Station"), (160, "Hull girth"), (260, "Full girth")):
            p.say(x, 154, word)
        for k, (at, h, f) in enumerate(b.rows):
            p.say(60, 174 + 22 * k, mark(at))
            p.field(f"hull_girth_{at // 12}ft", 160, 174 + 22 * k, write(h)), p.field(f"full_girth_{at // 12}ft", 260, 174 + 22 * k, write(f))
        emit("form-named", i, "pdf", p.done(), "in", b.want())


def nameless():
    """Fields that an editor named Text1, Text2: only their places speak."""
    for i, b in enumerate(fleet("nameless", 3)):
        p, n = Page(), iter(range(1, 200))

        def field(x, y, value, wide=70):
            p.field(f"Text{next(n)}", x, y, value, wide)
        p.say(60, 0, "COVER ORDER - MEASUREMENTS")
        p.say(60, 24, "Your name:"), field(170, 24, b.person, 180)
        for k, ((label, _), x) in enumerate(zip(FOUR, (feetwords(b.loa), plain(b.bow), plain(b.stern), plain(b.carry)))):
            p.say(60, 50 + 24 * k, label + (" (ft, in):" if k == 0 else " (in):")), field(190, 50 + 24 * k, x)
        for x, word in ((60, "Feet from bow"), (170, "Hull girth (in)"), (270, "Full girth (in)")):
            p.say(x, 160, word)
        for k in range(20):
            y = 182 + 22 * k
            row = b.rows[k] if k < len(b.rows) else None
            p.say(60, y, str(k + 1)), field(170, y, plain(row[1]) if row else ""), field(270, y, plain(row[2]) if row else "")
        emit("form-nameless", i, "pdf", p.done(), "in", b.want())


def blank():
    """Stations that the customer wrote too, in fields of their own; half feet at the ends."""
    for i, b in enumerate(fleet("blank", 2, spacing="ends", feet=(11, 14))):
        p = Page()
        p.say(60, 0, "Measurements (inches)")
        for k, ((label, name), x) in enumerate(zip(FOUR, (dec(b.loa), dec(b.bow), dec(b.stern), dec(b.carry)))):
            p.say(60, 26 + 22 * k, label), p.field(name, 160, 26 + 22 * k, x)
        for x, word in ((60, "Station"), (160, "Hull girth"), (260, "Full girth")):
            p.say(x, 120, word)
        for k, (at, h, f) in enumerate(b.rows):
            y = 142 + 21 * k
            p.field(f"station_{k + 1}", 60, y, mark(at)), p.field(f"hull_{k + 1}", 160, y, dec(h)), p.field(f"full_{k + 1}", 260, y, dec(f))
        emit("form-blank", i, "pdf", p.done(), "in", b.want())


def halfticks():
    """A box to tick for the half inch beside each whole number."""
    for i, b in enumerate(fleet("halfticks", 2, feet=(11, 15))):
        p = Page()
        p.say(60, 0, "Write whole inches; tick the box for another half inch.")

        def pair(name, x, y, value):
            p.field(name, x, y, str(int(value)), 46), p.tick(name + "_half", x + 54, y, value != int(value)), p.say(x + 70, y, "1/2")
        for k, ((label, name), x) in enumerate(zip(FOUR, (b.loa, b.bow, b.stern, b.carry))):
            p.say(60, 28 + 22 * k, label + " (in)"), pair(name, 170, 28 + 22 * k, x)
        for x, word in ((60, "Station"), (170, "Hull girth (in)"), (300, "Full girth (in)")):
            p.say(x, 122, word)
        for k, (at, h, f) in enumerate(b.rows):
            y = 144 + 22 * k
            p.say(60, y, mark(at)), pair(f"hull_{ft(at)}", 170, y, h), pair(f"full_{ft(at)}", 300, y, f)
        emit("form-halfticks", i, "pdf", p.done(), "in", b.want())


LAYOUTS = (named, nameless, blank, halfticks)
