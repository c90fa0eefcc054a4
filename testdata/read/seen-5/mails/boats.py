"""Invented boats and their owners, and ways of writing a length."""
import email.utils
import fractions
import random
import unicodedata

OWNERS = ["Hepzibah Crail", "Leofric Stanyon", "Oona Garrad", "Barnaby Wex", "Ingrid Tollemache", "Silas Penhale", "Merrin Askew", "Dougal Farquharson", "Tamsin Rook", "Evander Lisle",
          "Greta Holmwood", "Ambrose Yelland"]
FRENCH_OWNERS = ["Éloïse Quémard", "Théodore Vasselin", "Marguerite Dufresnoy", "Aubin Lescarbot"]
CRAFT = {"open": ["cedar canoe", "seventeen-foot family canoe", "canvas canoe that was my father's", "strip-built solo"],
         "square": ["plywood skiff", "square-stern canoe", "rowing dinghy"],
         "decked": ["wooden sea kayak", "decked sailing canoe"]}


class Boat:
    """A boat as its owner measured it, all lengths in its unit, inches or centimetres.

    kind is open (pointed at both ends), square or decked. ends puts stations at
    half the spacing into the outer two feet. A slip is one wrong number that the
    owner wrote down. tick is the smallest step of the tape.
    """

    def __init__(self, seed, unit="in", kind="open", ends=False, feet=(11, 17), whole=False, slip=False, tick=None, french=False):
        r = random.Random("by post " + seed)
        self.unit, self.kind = unit, kind
        per, self.step = (1, 12) if unit == "in" else (2.54, 30)
        tick = tick or (.5 if unit == "in" else 1)

        def snap(inches):
            n = round(inches * per / tick) * tick
            return int(n) if n == int(n) else n

        length = r.randint(*feet) * 12 + (0 if whole else r.choice([1, 2.5, 4, 5.5, 6, 7, 8, 9.5, 10]))
        beam, deep, rise = {"open": (r.uniform(30, 37), r.uniform(11.5, 14.5), r.uniform(6, 10)),
                            "square": (r.uniform(40, 52), r.uniform(15, 19), r.uniform(4, 8)),
                            "decked": (r.uniform(21, 27), r.uniform(9.5, 12), r.uniform(4, 7))}[kind]
        bow = deep + rise
        stern = deep + rise * (r.uniform(.2, .4) if kind == "square" else r.uniform(.6, .95))
        widest, sharpness, bulge, tail = r.uniform(.46, .54), r.uniform(1.8, 2.5), r.uniform(.35, .65), r.uniform(.6, .8)

        def pair(at):
            """Hull girth and full girth at a distance from the bow in inches."""
            t = at / length
            u = (t - widest) / (widest if t < widest else 1 - widest)
            if kind == "square" and u > 0:
                breadth = beam * (1 - (1 - tail) * u * u)
            else:
                breadth = beam * max(1 - abs(u) ** sharpness, .02) ** .8
            depth = deep + ((bow if u < 0 else stern) - deep) * abs(u) ** 2.7
            vee, box = (breadth ** 2 + 4 * depth ** 2) ** .5, breadth + 2 * depth
            hull = vee + bulge * .75 * (box - vee)
            over = breadth * (1.08 if kind == "decked" else 1)
            return snap(hull), max(snap(hull + over), snap(hull) + snap(1.5))

        self.loa, self.bow, self.stern, self.carry = snap(length), snap(bow), snap(stern), snap(r.uniform(16, 28))
        half = self.step / 2
        grid = [k * half for k in range(1, 90) if k * half < self.loa - 4 * per]
        last = max(at for at in grid if at % self.step == 0)
        wanted = [at for at in grid if at % self.step == 0 or ends and not 2 * self.step < at < last - 2 * self.step]
        self.rows = [(int(at), *pair(at / per)) for at in wanted]
        most = max(self.rows, key=lambda row: (row[2], row[1]))
        at = max((most[0] / per + d for d in range(-7, 8)), key=lambda at: pair(at)[1])
        self.great = (snap(at), max(pair(at)[0], most[1]), max(pair(at)[1], most[2]))
        self.opening = self.great[2] - self.great[1]
        self.transom = pair(length) if kind == "square" else None
        self.owner = r.choice(FRENCH_OWNERS if french else OWNERS)
        self.craft = r.choice(CRAFT[kind])
        self.phone = f"{r.choice([506, 613, 705, 902])} 555 01{r.randint(10, 99)}"
        if slip:
            self.miswrite(r)

    def miswrite(self, r):
        """One number as a tired person writes it: a ten or a foot off, or the pair the wrong way round."""
        k = r.randrange(2, len(self.rows) - 2)
        at, hull, full = self.rows[k]
        self.rows[k] = r.choice([(at, hull, full + 10), (at, hull - self.step, full), (at, full, hull)])

    @property
    def first(self):
        return self.owner.split()[0]

    @property
    def mailbox(self):
        plain_name = unicodedata.normalize("NFKD", self.owner).encode("ascii", "ignore").decode().lower()
        return email.utils.formataddr((self.owner, "@".join(plain_name.split()) + ".example"))

    def want(self, without=(), great=False):
        """What is written, by name; without names what is missing or in doubt."""
        values = {"length_overall": self.loa, "bow_height": self.bow, "stern_height": self.stern, "carry_point": self.carry}
        if great:
            values |= dict(zip(("greatest.at", "greatest.hull_girth", "greatest.full_girth"), self.great))
            values["greatest.opening"] = self.opening
        if self.transom:
            values |= dict(zip(("transom.hull_girth", "transom.full_girth"), self.transom))
        for at, hull, full in self.rows:
            values[f"hull_girth@{at:g}"], values[f"full_girth@{at:g}"] = hull, full
        return {name: value for name, value in values.items() if name not in without}


def pair_of(layout, slip=True, **how):
    """Two boats for a layout, numbered; the second owner makes a slip."""
    return enumerate([Boat(f"{layout} 1", **how), Boat(f"{layout} 2", slip=slip, **how)])


# --- ways of writing a length ----------------------------------------------------

GLYPHS = {fractions.Fraction(1, 2): "½", fractions.Fraction(1, 4): "¼", fractions.Fraction(3, 4): "¾"}


def plain(x):
    """35 1/2"""
    whole, rest = int(x), fractions.Fraction(x) - int(x)
    return (f"{whole} {rest}" if whole else str(rest)) if rest else str(whole)


def dash(x):
    """35-1/2"""
    return plain(x).replace(" ", "-")


def glyph(x):
    """35½"""
    whole, rest = int(x), fractions.Fraction(x) - int(x)
    return f"{whole or ''}{GLYPHS[rest]}" if rest else str(whole)


def dec(x):
    return f"{x:g}"


def comma(x):
    return dec(x).replace(".", ",")


def quote(x):
    return plain(x) + '"'


def curly(x):
    return glyph(x) + "”"


def inch(x):
    return plain(x) + " in"


def inches(x):
    return plain(x) + " inches"


def feet(x, write=plain):
    """2' 11 1/2", and 3' where no inches are left."""
    f, i = divmod(x, 12)
    return f"{int(f)}' {write(i)}\"" if i else f"{int(f)}'"


def feet_words(x):
    """2 ft 11 1/2 in"""
    f, i = divmod(x, 12)
    return f"{int(f)} ft {plain(i)} in" if i else f"{int(f)} ft"


def feet_long(x):
    """2 feet 11 1/2 inches"""
    f, i = divmod(x, 12)
    name = f"{int(f)} {'foot' if f == 1 else 'feet'}"
    return f"{name} {plain(i)} inches" if i else name


def cm(x):
    return f"{comma(x)} cm"


def metres(x):
    return f"{x / 100:.2f}".replace(".", ",") + " m"


def foot(at):
    """A station's number: 3, and 3.5 for a half-foot one."""
    return at / 12 if at % 12 else at // 12


def halves(rows):
    n = (len(rows) + 1) // 2
    return rows[:n], rows[n:]
