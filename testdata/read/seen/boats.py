"""Invented boats, ways of writing a length, and what turns a survey into a file."""
import datetime
import email.message
import email.policy
import email.utils
import json
import os
import random
import subprocess
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
PROFILE = os.path.join(tempfile.gettempdir(), "survey-office-profile")
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
NAMES = ["Wim Tarrock", "Hesper Quillon", "Odalie Brissac", "Fenno Marrable", "Ysolde Kettrick", "Benoît Larzac-Mauve", "Dorrie Applegarth"]
BOATS = ["Pintail 14, rebuilt", "Grandfather's guideboat", "skin on frame, own lines", "plywood skiff", "Alder Brook tandem", "lapstrake pulling boat"]


class Boat:
    """A survey as the customer measured it, all values in its unit.

    spacing is "even" (a foot or 30 cm), "half" (half of that) or "mixed" (half
    of that in the first and last two feet). A square boat has a transom.
    """

    def __init__(self, seed, unit="in", spacing="even", feet=(8, 24), square=False):
        r = random.Random("unseen " + seed)
        self.unit, self.square = unit, square
        step, per, tick = (12, 1, .5) if unit == "in" else (30, 2.54, 1)

        def snap(inches):
            return round(inches * per / tick) * tick
        length = r.randint(*feet) * 12 + r.choice([0, 1.5, 3, 4, 6.5, 8, 9, 10.5, 11])
        beam, deep = r.uniform(26, 36) + length / 40, r.uniform(10, 14) + length / 150
        bow, stern = deep + r.uniform(3, 10), deep + r.uniform(1, 7)
        fullness = r.uniform(.5, .8)
        self.loa, self.bow, self.stern = snap(length), snap(bow), snap(stern)
        self.carry = snap(r.uniform(15, 27))
        grid = [k * step / 2 for k in range(1, int(2 * self.loa / step) + 1) if k * step / 2 < self.loa - step * .35]
        last = max(at for at in grid if at % step == 0)
        wanted = {"even": lambda at: at % step == 0, "half": lambda at: True,
                  "mixed": lambda at: at % step == 0 or at < 2 * step or last - 2 * step < at < last}[spacing]
        self.rows = []
        for at in filter(wanted, grid):
            t = at / self.loa
            shape = (4 * t * (1 - t)) ** fullness
            if square and t > .5:
                shape = max(shape, 1 - .3 * (2 * t - 1) ** 2)
            depth = deep + ((bow if t < .5 else stern) - deep) * abs(2 * t - 1) ** 3
            w = beam * shape
            hull = snap((w * w + 4 * depth * depth) ** .5 * (1 + .12 * (4 * t * (1 - t))))
            full = min(max(hull + snap(w), hull + 2 * tick), 2 * hull)
            self.rows.append((int(at) if at == int(at) else at, hull, full))
        most = max(self.rows, key=lambda row: row[2])
        self.great = (most[0] + snap(2), most[1] + tick, most[2] + tick)
        self.opening = self.great[2] - self.great[1]
        self.transom = (self.rows[-1][1] - 2 * tick, self.rows[-1][2] - 4 * tick)
        self.name, self.boat = r.choice(NAMES), r.choice(BOATS)

    def want(self, skip=(), great=False, **more):
        values = {"length_overall": self.loa, "bow_height": self.bow, "stern_height": self.stern, "carry_point": self.carry}
        if great:
            values |= {"greatest.at": self.great[0], "greatest.hull_girth": self.great[1], "greatest.full_girth": self.great[2], "greatest.opening": self.opening}
        if self.square:
            values |= {"transom.hull_girth": self.transom[0], "transom.full_girth": self.transom[1]}
        for at, hull, full in self.rows:
            values[f"hull_girth@{at:g}"] = hull
            values[f"full_girth@{at:g}"] = full
        values |= more
        return {k: v for k, v in values.items() if k not in skip}


def boats(layout, n, unit="in", **how):
    return [Boat(f"{layout}-{i}", unit, **how) for i in range(n)]


# --- ways of writing a length --------------------------------------------------

def frac(x):
    whole, half = int(x), x - int(x)
    return f"{whole} 1/2" if half else f"{whole}"


def dec(x):
    return f"{x:g}"


def point(x):
    return f"{x:.1f}"


def mark(x):
    return frac(x) + '"'


def tenths(x):
    return f'{x:.1f}"'


def glyph(x):
    return f"{int(x)}½" if x != int(x) else f"{int(x)}"


def curly(x):
    return glyph(x) + "″"


def dash(x):
    return frac(x).replace(" ", "-")


def inches(x):
    return dec(x) + " in"


def feet(x):
    return f"{int(x // 12)}' {glyph(x % 12)}\""


def feet_dash(x):
    return f"{int(x // 12)}'-{dash(x % 12)}\""


def feet_words(x):
    f, i = int(x // 12), x % 12
    return f"{f} ft {frac(i)} in" if i else f"{f} ft"


def feet_close(x):
    f, i = int(x // 12), x % 12
    return f"{f}ft {glyph(i)}in" if i else f"{f}ft"


def cm(x):
    return f"{x:g} cm"


def metres(x):
    return f"{x / 100:.2f} m"


def metres_comma(x):
    return f"{x / 100:.2f}".replace(".", ",") + " m"


def mm(x):
    return f"{x * 10:g}"


def station(at):
    """A station's name in feet: 3 ft, 3 ft 6 in."""
    return f"{at // 12} ft" if at % 12 == 0 else f"{at // 12} ft {at % 12:g} in"


def ticked(at):
    return f"{at // 12}'" if at % 12 == 0 else f"{at // 12}' {at % 12:g}\""


def halves(rows):
    n = (len(rows) + 1) // 2
    return rows[:n], rows[n:]


# --- files -----------------------------------------------------------------------

made = []


def emit(layout, i, ext, data, unit, values, doubt=()):
    name = f"{layout}-{i + 1}" + (f".{ext}" if ext else "")
    with open(os.path.join(HERE, name), "wb") as f:
        f.write(data)
    with open(os.path.join(HERE, f"{name}.want.json"), "w") as f:
        json.dump({"unit": unit, "values": values, "doubt": list(doubt)}, f, indent=1)
        f.write("\n")
    made.append(name)


def saved(save, ext):
    with tempfile.TemporaryDirectory() as d:
        path = os.path.join(d, "x." + ext)
        save(path)
        with open(path, "rb") as f:
            return f.read()


def convert(data, source, target):
    """LibreOffice turns one file into another."""
    with tempfile.TemporaryDirectory() as d:
        path = os.path.join(d, "survey." + source)
        with open(path, "wb") as f:
            f.write(data)
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{PROFILE}", "--convert-to", target, "--outdir", d, path],
                       check=True, capture_output=True, timeout=120)
        with open(os.path.join(d, "survey." + target), "rb") as f:
            return f.read()


def printed(page):
    """Chromium prints a web page as PDF."""
    with tempfile.TemporaryDirectory() as d:
        source, out = os.path.join(d, "survey.html"), os.path.join(d, "survey.pdf")
        with open(source, "w", encoding="utf-8") as f:
            f.write(page)
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
                        f"--user-data-dir={d}/profile", "--no-pdf-header-footer", f"--print-to-pdf={out}", source],
                       check=True, capture_output=True, timeout=120)
        with open(out, "rb") as f:
            return f.read()


def text(lines, encoding="utf-8", newline="\n"):
    return (newline.join(lines) + newline).encode(encoding)


def message(subject, sender="Hesper Quillon <hesper@quillon.example>"):
    m = email.message.EmailMessage(policy=email.policy.SMTP)
    m["From"], m["To"], m["Subject"] = sender, "Pinfold Cover Loft <orders@pinfold.example>", subject
    m["Date"] = email.utils.format_datetime(datetime.datetime(2026, 6, 3, 7, 41, tzinfo=datetime.timezone.utc))
    m["Message-ID"] = f"<{len(made)}.{len(subject)}@quillon.example>"
    return m


def sealed(m):
    """The bytes of a mail, with boundaries that do not change from run to run."""
    for k, part in enumerate(m.walk()):
        if part.get_content_maintype() == "multipart":
            part.set_boundary(f"=_{len(made)}-{k}")
    return m.as_bytes()
