"""Invented boats and their owners, and ways of writing a length."""
import email.utils
import fractions
import random
import unicodedata

SERIES = "mail varied"
OWNERS = ["Tobias Wren", "Edith Garrow", "Malcolm Fitch", "Sunniva Holt", "Barnaby Quill", "Lorna Mackie", "Desmond Ayre", "Philippa Crane", "Otto Brandvold", "Rosalind Tuck", "Gordon Pell", "Winifred Snow", "Caleb Morrow", "Agnes Thorley", "Ravi Menon", "Judith Larkspur", "Elias Boone", "Hetty Marchbank", "Silas Umber", "Freya Dunning"]
FRENCH_OWNERS = ["Ghislaine Robichaud", "Armand Tessier", "Noémie Castonguay", "Benoît Larivière", "Odette Maillet", "Rosaire Boudreau", "Hélène Savoie", "Émile Vautour", "Ludivine Pagé", "Clovis Haché"]
CRAFT = {"open": ["lapstrake canoe", "two-man canoe", "birch canoe", "old trapping canoe", "canoe"],
         "square": ["rowing skiff", "pulling boat", "square-stern canoe", "duck punt"],
         "decked": ["decked canoe", "skin kayak", "plywood kayak"]}
FRENCH_CRAFT = {"open": ["canot", "canot de bois", "vieux canot", "canot à clins"], "square": ["chaloupe", "barque à rames", "verchère"], "decked": ["kayak de bois", "kayak ponté"]}


class Boat:
    """A boat as its owner measured it, all lengths in its unit, inches or centimetres.

    kind is open (pointed at both ends), square or decked. ends puts stations at
    half the spacing into the outer two feet. A slip is one wrong number that the
    owner wrote down. tick is the smallest step of the tape.
    """

    def __init__(self, seed, unit="in", kind="open", ends=False, feet=(11, 17), slip=False, tick=None, french=False, step=None):
        r = random.Random(f"{SERIES} {seed}")
        self.unit, self.kind = unit, kind
        per = 1 if unit == "in" else 2.54
        self.step = step or (12 if unit == "in" else 30)
        tick = tick or (.5 if unit == "in" else 1)

        def snap(inches):
            n = round(inches * per / tick) * tick
            return int(n) if n == int(n) else n

        length = r.randint(*feet) * 12 + r.choice([0, 1, 2.5, 3, 4.5, 6, 7, 8.5, 9, 10])
        beam, deep, rise = {"open": (r.uniform(29, 38), r.uniform(11, 14.5), r.uniform(4, 11)),
                            "square": (r.uniform(40, 52), r.uniform(15, 19), r.uniform(3, 8)),
                            "decked": (r.uniform(21, 27), r.uniform(9.5, 12), r.uniform(3, 7))}[kind]
        bow = deep + rise
        stern = deep + rise * (r.uniform(.2, .4) if kind == "square" else r.uniform(.55, 1))
        widest, sharpness, bulge, tail = r.uniform(.46, .55), r.uniform(1.8, 2.6), r.uniform(.35, .65), r.uniform(.6, .85)

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

        self.loa, self.bow, self.stern, self.carry = snap(length), snap(bow), snap(stern), snap(r.uniform(15, 29))
        half = self.step / 2
        grid = [k * half for k in range(1, 120) if k * half < self.loa - 4 * per]
        last = max(at for at in grid if at % self.step == 0)
        wanted = [at for at in grid if at % self.step == 0 or ends and not 2 * self.step < at < last - 2 * self.step]
        self.rows = [(int(at), *pair(at / per)) for at in wanted]
        most = max(self.rows, key=lambda row: (row[2], row[1]))
        at = max((most[0] / per + d for d in range(-7, 8)), key=lambda at: pair(at)[1])
        self.great = (snap(at), max(pair(at)[0], most[1]), max(pair(at)[1], most[2]))
        self.opening = self.great[2] - self.great[1]
        self.transom = pair(length) if kind == "square" else None
        self.owner = r.choice(FRENCH_OWNERS if french else OWNERS)
        self.craft = r.choice((FRENCH_CRAFT if french else CRAFT)[kind])
        self.phone = f"{r.choice([506, 613, 705, 902, 819])} 555-01{r.randint(10, 99)}"
        if slip:
            self.miswrite(r)

    def miswrite(self, r):
        """One number as a tired person writes it: a ten, a foot or a digit off, two digits or the pair exchanged, an end's height misread, a twisted tape, a point left out."""
        k = r.randrange(2, len(self.rows) - 2)
        at, hull, full = self.rows[k]
        ten, foot = 10, self.step if self.step in (12, 30) else 12
        whole, rest = divmod(full, 1)
        turned = int(str(int(whole))[::-1]) + rest if whole < 100 else full - 30
        kind = r.choice(["ten", "foot", "swap", "turned", "digit", "end", "twist", "point"])
        if kind == "end":
            self.stern += ten
        else:
            self.rows[k] = {"ten": (at, hull, full + ten), "foot": (at, hull - foot, full), "swap": (at, full, hull), "digit": (at, hull + 5, full), "twist": (at, hull, full + 4),
                            "point": (at, hull, full * 10 if rest else full - ten),
                            "turned": (at, hull, turned if turned != full else full - ten)}[kind]

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
        if self.transom:  # a transom's pair stands at the length overall
            values |= dict(zip(("transom.hull_girth", "transom.full_girth"), self.transom))
        for at, hull, full in self.rows:
            values[f"hull_girth@{at:g}"], values[f"full_girth@{at:g}"] = hull, full
        return {name: value for name, value in values.items() if name not in without}


def pair_of(layout, slip=False, **how):
    """Two boats for a layout, numbered; the second owner makes a slip, where slip says so."""
    first, second = Boat(f"{layout} 1", **how), Boat(f"{layout} 2", slip=slip, **how)
    if first.owner == second.owner:
        owners = FRENCH_OWNERS if first.owner in FRENCH_OWNERS else OWNERS
        second.owner = owners[(owners.index(first.owner) + 1) % len(owners)]
    return enumerate([first, second])


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


def spaced(x):
    """35 ½"""
    return glyph(x).replace("½", " ½").strip()


def dec(x):
    return f"{x:g}"


def point(x):
    """35.5 and 42.0"""
    return f"{x:.1f}"


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


def feet_tight(x, write=glyph):
    """2'11½" """
    f, i = divmod(x, 12)
    return f"{int(f)}'{'0' * (i < 1)}{write(i)}\"" if i else f"{int(f)}'"


def feet_words(x):
    """2 ft 11 1/2 in"""
    f, i = divmod(x, 12)
    return f"{int(f)} ft {plain(i)} in" if i else f"{int(f)} ft"


def feet_long(x):
    """2 feet 11 1/2 inches"""
    f, i = divmod(x, 12)
    name = f"{int(f)} {'foot' if f == 1 else 'feet'}"
    return f"{name} {plain(i)} {'inch' if i == 1 else 'inches'}" if i else name


def feet_french(x):
    """2 pi 11 1/2 po"""
    f, i = divmod(x, 12)
    return f"{int(f)} pi {plain(i)} po" if i else f"{int(f)} pi"


def cm(x):
    return f"{comma(x)} cm"


def metres(x):
    return f"{x / 100:.{2 if x == int(x) else 3}f}".replace(".", ",") + " m"


def foot(at):
    """A station's number: 3, and 3.5 for a half-foot one."""
    return at / 12 if at % 12 else at // 12


def halves(rows):
    n = (len(rows) + 1) // 2
    return rows[:n], rows[n:]


def spoken(x):
    """35 and a half"""
    return plain(x).replace(" 1/2", " and a half")


def french_half(x, unit="pouces"):
    """35 pouces et demi"""
    return f"{int(x)} {unit}" + " et demi" * (x != int(x))


def millimetres(x):
    return f"{x * 10:g}"
