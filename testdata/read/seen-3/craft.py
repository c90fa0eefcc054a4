"""Invented boats and people, and ways of writing a length."""
import email.utils
import fractions
import random
import unicodedata

PEOPLE = ["Maud Ferriby", "Tobias Wenlock", "Ines Calloway", "Rurik Sandoe", "Pamela Oxtoby", "Gil Hathersage", "Noor Penhallow", "Clement Yarde",
          "Bridie Mossop", "Anselm Trask", "Wanda Kilbride", "Jorge Almeda-Pike", "Sunniva Aske", "Lionel Threap", "Hattie Bonville", "Kenji Orford"]
FRENCH = ["Solène Marchetaud", "Gaspard Vézine", "Maëlle Trévidic", "Hugues Béraudin", "Ombeline Castaing"]
OPEN = ["cedar strip canoe, built 1998", "old Prairie Queen canoe, rails cut down", "home-made solo canoe", "wood and canvas canoe, no maker's plate",
        "Marsh Heron 16 with new gunwales", "stitch and glue tripping canoe"]
SQUARE = ["plywood rowing skiff", "square-back canoe", "clinker dinghy from my uncle", "flat-bottomed garvey, own design"]
DECKED = ["skin kayak, 2 hatches", "decked sailing canoe", "old double kayak, wood decks"]


class Boat:
    """A boat as its owner measured it: lengths in inches or centimetres.

    kind is open (pointed at both ends), square or decked; spacing is "foot" (30
    cm), "ends" (half of that in the outer two feet as well) or "half".
    """

    def __init__(self, seed, unit="in", kind="open", spacing="foot", tick=None, feet=(11, 18), french=False):
        r = random.Random("fresh " + seed)
        self.unit, self.kind, self.french = unit, kind, french
        per, step = (1, 12) if unit == "in" else (2.54, 30)
        self.step = step
        tick = tick or (.5 if unit == "in" else 1)

        def snap(inches):
            n = round(inches * per / tick) * tick
            return int(n) if n == int(n) else n
        length = r.randint(*feet) * 12 + r.choice([0, 1, 2, 3.5, 5, 6, 7.5, 8, 9, 10, 11])
        beam, deep, rise = {"open": (r.uniform(29, 37), r.uniform(11.5, 14), r.uniform(6, 11)),
                            "square": (r.uniform(38, 50), r.uniform(14, 18), r.uniform(5, 9)),
                            "decked": (r.uniform(22, 28), r.uniform(10, 12), r.uniform(4, 7))}[kind]
        bow, stern = deep + rise, deep + rise * r.uniform(.55, .95)
        middle, power, round_ = r.uniform(.46, .53), r.uniform(1.9, 2.4), r.uniform(.4, .6)
        tail = r.uniform(.55, .75)

        def pair(at):
            t = at / length
            u = (t - middle) / (middle if t < middle else 1 - middle)
            if kind == "square" and u > 0:
                share, stern_rise = 1 - (1 - tail) * u * u, .35
            else:
                share, stern_rise = (1 - abs(u) ** power) ** .8, 1
            w = beam * share
            depth = deep + (bow - deep if u < 0 else (stern - deep) * stern_rise) * abs(u) ** 2.6
            vee, box = (w * w + 4 * depth * depth) ** .5, w + 2 * depth
            hull = vee + round_ * .8 * (box - vee)
            across = w * 1.07 if kind == "decked" else w
            return snap(hull), max(snap(hull + across), snap(hull) + snap(1.2))

        if kind == "square":
            stern = deep + (stern - deep) * .35
        self.loa, self.bow, self.stern, self.carry = snap(length), snap(bow), snap(stern), snap(r.uniform(16, 27))
        end = self.loa - 4 * per
        grid = [k * step / 2 for k in range(1, 80) if k * step / 2 < end]
        last = max(at for at in grid if at % step == 0)
        keep = {"foot": lambda at: at % step == 0, "half": lambda at: True,
                "ends": lambda at: at % step == 0 or at < 2 * step or at > last - 2 * step}[spacing]
        self.rows = [(int(at), *pair(at / per)) for at in filter(keep, grid)]
        most = max(self.rows, key=lambda row: (row[2], row[1]))
        at = max((most[0] / per + d for d in range(-8, 9)), key=lambda at: pair(at)[1])
        if at == most[0] / per - 8:
            at = most[0] / per + 2
        self.great = (snap(at), max(pair(at)[0], most[1]), max(pair(at)[1], most[2]))
        self.opening = self.great[2] - self.great[1]
        self.transom = pair(length) if kind == "square" else None
        self.person = r.choice(FRENCH if french else PEOPLE)
        self.craft = r.choice({"open": OPEN, "square": SQUARE, "decked": DECKED}[kind])
        self.phone = f"{r.choice([506, 613, 705, 902])} 555 01{r.randint(10, 99)}"

    @property
    def address(self):
        plain = unicodedata.normalize("NFKD", self.person).encode("ascii", "ignore").decode().lower().replace("-", "")
        first, last = plain.split()
        return f"{first}@{last}.example"

    @property
    def mailbox(self):
        return email.utils.formataddr((self.person, self.address))

    def want(self, drop=(), great=False, opening=False, **other):
        """What is written, by name; drop names what is not there or is in doubt."""
        v = {"length_overall": self.loa, "bow_height": self.bow, "stern_height": self.stern, "carry_point": self.carry}
        if great:
            v |= dict(zip(("greatest.at", "greatest.hull_girth", "greatest.full_girth"), self.great))
        if opening:
            v["greatest.opening"] = self.opening
        if self.transom:
            v |= dict(zip(("transom.hull_girth", "transom.full_girth"), self.transom))
        for at, hull, full in self.rows:
            v[f"hull_girth@{at}"], v[f"full_girth@{at}"] = hull, full
        v |= other
        return {k: x for k, x in v.items() if k not in drop}


def fleet(layout, n, **how):
    return [Boat(f"{layout} {i}", **how) for i in range(n)]


# --- ways of writing a length ----------------------------------------------------

GLYPH = {fractions.Fraction(1, 2): "½", fractions.Fraction(1, 4): "¼", fractions.Fraction(3, 4): "¾"}


def plain(x):
    """35 1/2"""
    whole, rest = int(x), fractions.Fraction(x) - int(x)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def hyphen(x):
    return plain(x).replace(" ", "-")


def dec(x):
    return f"{x:g}"


def comma(x):
    return f"{x:g}".replace(".", ",")


def glyph(x):
    whole, rest = int(x), fractions.Fraction(x) - int(x)
    return (str(whole) if whole or not rest else "") + (GLYPH[rest] if rest else "")


def quote(x):
    """35 1/2 with the mark for inches."""
    return plain(x) + '"'


def curly(x):
    return glyph(x) + "”"


def inch(x):
    return plain(x) + " in"


def inches(x):
    return plain(x) + " inches"


def feet(x):
    """2' 11 1/2", and 3' where no inches are left."""
    f, i = divmod(x, 12)
    return f"{int(f)}' {plain(i)}\"" if i else f"{int(f)}'"


def feetglyph(x):
    f, i = divmod(x, 12)
    return f"{int(f)}'{glyph(i)}\""


def feetcurly(x):
    f, i = divmod(x, 12)
    return f"{int(f)}’ {glyph(i)}”"


def feetwords(x):
    f, i = divmod(x, 12)
    return f"{int(f)} ft {plain(i)} in" if i else f"{int(f)} ft"


def feetlong(x):
    f, i = divmod(x, 12)
    name = f"{int(f)} {'foot' if f == 1 else 'feet'}"
    return f"{name} {plain(i)} inches" if i else name


def cm(x):
    return f"{x:g} cm"


def metres(x):
    return f"{x / 100:.2f} m"


def metrescomma(x):
    return f"{x / 100:.2f}".replace(".", ",") + " m"


def mm(x):
    return f"{x * 10:g}"


def ft(at):
    return at / 12 if at % 12 else at // 12


def mark(at):
    """A station by its name: 3 ft, 3 ft 6 in."""
    return feetwords(at)


def tick(at):
    """3', 3' 6" """
    return feet(at)


def halves(rows):
    n = (len(rows) + 1) // 2
    return rows[:n], rows[n:]
