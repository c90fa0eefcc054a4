"""Photographs of free tables: nice /usr/bin/python3 make.py [NN ...]  (all not there yet, or those named)."""
import json
import math
import pathlib
import random
import re
import sys
import time

import numpy as np
from PIL import Image, ImageDraw, ImageFont

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent / "writers"))  # their table, camera and hands
import camera
import papers
from boats2 import Boat
from hand2 import BACK, Writer
from papers import K
from writers2 import PENS, STYLE

HERE = pathlib.Path(__file__).resolve().parent
CM = {n for n in range(1, 61) if n % 9 in (2, 4, 6)}
PRINTED = {n for n in range(1, 61) if n % 3 == 0}
IN_HANDS = ["abel", "brita", "gil", "milo", "petra", "ivor", "quist", "eino", "kees", "vera", "dora", "sander", "otis", "osk", "nan", "yorick", "birk", "runa"]
CM_HANDS = ["fenna", "tilly", "lotte", "hanne", "cato", "juno", "ulf", "dette", "pelle", "nan"]
DITTO, SIMPLE, CROSSED, PENNED = {20, 35, 43}, {8, 25, 40}, {2, 5, 11, 16, 19, 23, 28, 34, 37, 43, 46, 52, 55}, {9, 24, 51}
REMARKS = {4, 7, 13, 20, 26, 31, 38, 41, 50, 56, 12, 33, 45}
ROW0, BLANKS, SLIPS = {10, 29, 47, 54}, {14, 22, 35, 49, 6}, {7, 18, 29, 44}
TWO, ACROSS, NOHEAD = {13, 32, 59}, {17, 40, 57}, {1, 10, 22, 35, 46, 58}
FTIN, EIGHTH, DEC, HALFCM, FIFTY, FRENCH = {5, 21, 34, 52}, {8, 36, 41, 55}, {1, 12, 19, 27, 37, 48, 54, 59}, {11, 24, 38}, {47}, {4, 49}
NOSPEC = {10, 26, 35, 44, 53, 60}
SETS = {0: ["at", "hull", "full"], 1: ["at", "hull", "open"], 2: ["at", "half", "open"], 3: ["at", "open", "hull"], 4: ["at", "hull", "full", "open"], 5: ["at", "half", "full"],
        7: ["at", "open", "half"], 8: ["at", "full", "hull"], 9: ["hull", "full", "at"]}
CYCLE = [0, 1, 0, 2, 4, 3, 0, 7, 1, 8, 0, 2, 1, 5, 0, 3, 0, 4, 2, 9, 1]
HEADS = {"at": ["Station", "Stn", "Feet", "From bow", "Ft", "Dist. from bow", "At"], "hull": ["Hull girth", "Hull", "Under hull", "Rim to rim under", "Gunwale to gunwale", "Girth"], "half": ["Half girth", "Half hull", "Gunwale to keel", "Sheer to keel", "½ girth"],
         "full": ["Full girth", "All round", "Full", "Total girth", "All the way round"], "open": ["Across top", "Width", "Across", "Breadth", "Beam", "Cover girth"], "notes": ["Notes", "Remarks", "Note"]}
FRHEADS = {"at": ["Station", "De l'avant"], "hull": ["Coque", "Sous la coque"], "half": ["Demi coque"], "full": ["Tour complet", "Tour"], "open": ["Largeur", "Dessus"], "notes": ["Notes"]}
NAMES = {"at": "station", "hull": "hull girth", "half": "half hull girth", "full": "full girth", "open": "breadth across the top", "notes": "notes"}
MEAN = {"at": "at", "hull": "hull_girth", "half": "half_hull_girth", "full": "full_girth", "open": "opening", "notes": None}
TITLES = ["Canoe measurements", "Old cedar canoe", "For the cover", "Green boat", "Measurements for cover", "My rowing skiff", "Double ender", "Boat: Marsh Wren", "Canoe - M. Tarrow", "J. Quillfeather canoe", "Dinghy, clinker", "Sailing canoe", "Pirogue"]
WORDS = ["thwart", "seat", "deck ends", "handle here", "yoke", "dent", "oarlock", "rib", "patch"]
GRADES = ["flat", "ordinary", "steep"]
TABLES = ["ply", "mat", "slate", "news", "walnut", "tile", "cream", "gingham", "bluemat", "lap", "ash", "black"]


def grade(n):
    return GRADES[((n - 1) // 3 + (n - 1) % 3) % 3]


def frac(v, style, step=.5):
    """A number with its fraction as written: style inline '35 1/2', else '35½'."""
    whole, eighths = int(v), round((v - int(v)) * 8)
    if not eighths:
        return str(whole)
    g = math.gcd(eighths, 8)
    f = f"{eighths // g}/{8 // g}"
    if not whole:
        return f if style == "inline" else BACK[f]
    return f"{whole} {f}" if style == "inline" else f"{whole}{BACK[f]}"


class Content:
    """What a customer measured and how they put it on paper."""

    def __init__(self, n, style, decimal, word, most_rows=99):
        r = self.r = random.Random(f"tables content {n}")
        self.n, self.unit, self.word = n, "cm" if n in CM else "in", word
        cm = self.unit == "cm"
        feet = r.choice([(11, 13), (12, 15), (13, 16), (14, 17), (15, 18)])
        if n in ACROSS:
            feet = (9, 11)
        while feet[1] * (1 if n not in FIFTY else .62) > most_rows and feet[0] > 8:
            feet = (feet[0] - 1, feet[1] - 1)
        boat = self.boat = Boat(n, feet)
        step_in = 12 if not cm else (50 if n in FIFTY else 30) / 2.54
        k = 2.54 if cm else 1
        self.step = round(step_in * k)
        prec = self.prec = (.5 if n in HALFCM else 1) if cm else .125 if n in EIGHTH else .5
        snap = lambda v, p=None: round(v * k / (p or prec)) * (p or prec)
        self.mode = "ftin" if n in FTIN else "dec" if n in DEC or cm else "frac"
        self.style, self.decimal = style, decimal
        self.inch = '"' if not cm and r.random() < .15 and self.mode != "ftin" else ""
        hands = [m for m in range(1, 61) if (m in PRINTED) == (n in PRINTED)]
        kinds = list(SETS[0 if n in NOHEAD or n in SIMPLE else CYCLE[(hands.index(n) * (1 if n not in PRINTED else 2) + (3 if n in PRINTED else 0)) % len(CYCLE)]])
        L = boat.length
        count = math.ceil(L / step_in) - 1
        if L - count * step_in < 4 and r.random() < .6:
            count -= 1
        while boat.section(count * step_in)[0] < 1.6:
            count -= 1
        noise = .12 if not cm else .1
        at_form = r.choice(["{}", "{}", "{}", "{}'", "{} ft", "in"]) if not cm else r.choice(["{}", "{}", "{}", "{} cm"])
        if self.mode == "ftin":
            at_form = "{}'"
        self.headed = n not in NOHEAD
        if not self.headed and at_form == "in":
            at_form = "{}'"
        self.at_form = at_form
        notes = n in REMARKS
        if notes:
            kinds.append("notes")
        self.kinds = kinds
        rows = []
        if n in ROW0:
            rows.append((0, {}))
        for s in range(1, count + 1):
            w, half = boat.section(s * step_in)
            e = lambda: r.gauss(0, noise)
            hull, op = 2 * half + e(), 2 * w + e()
            v = {"half": snap(hull / 2), "hull": snap(hull), "open": snap(op), "full": snap(hull + op + (e() if "open" in kinds else 0))}
            rows.append((s, v))
        # the one slip of the customer
        self.slip = None
        real = [i for i, (s, v) in enumerate(rows) if v]
        if n in SLIPS:
            i = r.choice(real[2:-2])
            c = r.choice([c for c in kinds if c in ("hull", "full")] or [c for c in kinds if c in ("half", "open")])
            v = rows[i][1][c]
            whole, rest = int(v), v - int(v)
            kind, new = r.choice([("a ten too few", whole - 10), ("a ten too many", whole + 10), ("a foot off", whole - 12 if not cm else whole - 10)])
            swapped = int(str(whole)[:-2] + str(whole)[-1] + str(whole)[-2])
            if n % 2 == 0 and 5 < abs(swapped - whole) < 40:
                kind, new = "digits transposed", swapped
            rows[i][1][c] = new + rest
            self.slip = f"the customer's own slip at station {self.at_value(rows[i][0])}: {NAMES[c]} written {new + rest:g}, boat has {v:g} ({kind})"
        self.cells, self.values, self.wrong, self.doubt, want = [], [], {}, [], {}
        remark_rows = set(r.sample(real, min(len(real), r.randint(2, 4)))) if notes else set()
        blank = set(r.sample([(i, c) for i in real for c in kinds if c not in ("at", "notes")], 2 if n in BLANKS else 0))
        crossed = None
        if n in CROSSED or n in PENNED:
            crossed = (r.choice(real[1:-1]), r.choice([c for c in kinds if c not in ("at", "notes")]))
        self.ditto = 0
        words = r.sample(WORDS if n not in FRENCH else ["banc", "poignee", "tolet", "bosse", "pont", "joug"], 5)
        for i, (s, v) in enumerate(rows):
            cells, values = [], []
            for j, c in enumerate(kinds):
                if c == "at":
                    cells.append(self.at_text(s)), values.append(self.at_value(s))
                elif c == "notes":
                    cells.append(self.word(words.pop()) if i in remark_rows else None), values.append(None)
                elif not v:
                    cells.append("-" if r.random() < .7 else None), values.append(None)
                elif (i, c) in blank:
                    cells.append(None), values.append(None)
                else:
                    value = v[c]
                    if n in DITTO and i and rows[i - 1][1].get(c) == value and self.ditto < 3 and crossed != (i, c):
                        self.ditto += 1
                        cells.append("”"), values.append(None)
                        for name in {"hull": ["hull_girth"] + ["full_girth"] * ("full" not in kinds), "full": ["full_girth"], "half": ["hull_girth"] + ["full_girth"] * ("full" not in kinds), "open": ["full_girth"] * ("full" not in kinds)}[c]:
                            if f"{name}@{self.at_value(s)}" not in self.doubt:
                                self.doubt.append(f"{name}@{self.at_value(s)}")
                        continue
                    cells.append(self.number(value)), values.append(value)
                    if crossed == (i, c):
                        for _ in range(50):
                            new = value + r.choice([10, -10, 2, -2, 4, 20, -3])
                            if new > 5 and len(str(int(new))) == len(str(int(value))):
                                break
                        self.wrong[(i, j)] = self.number(new)
            self.cells.append(cells), self.values.append(values)
            got = {c: x for c, x in zip(kinds, values) if c not in ("at", "notes")}
            at = self.at_value(s)
            hull = got.get("hull") if "hull" in kinds else (2 * got["half"] if got.get("half") is not None else None)
            full = got.get("full") if "full" in kinds else (hull + got["open"] if hull is not None and got.get("open") is not None else None)
            if "full" in kinds and got.get("full") is None and "open" in kinds and hull is not None and got.get("open") is not None and (i, "full") in blank:
                full = hull + got["open"]
            if "hull" in kinds and got.get("hull") is None and (i, "hull") in blank and got.get("full") is not None and got.get("open") is not None:
                hull = got["full"] - got["open"]
            if hull is not None:
                want[f"hull_girth@{at}"] = hull
            if full is not None:
                want[f"full_girth@{at}"] = full
        heads = FRHEADS if n in FRENCH else HEADS
        self.heads = [r.choice(heads[c]) for c in kinds]
        if "at" in kinds and n not in FRENCH:
            a = kinds.index("at")
            if at_form == "in":
                self.heads[a] = r.choice(["In. from bow", "Inches", "Inches from bow"])
            elif cm:
                self.heads[a] = r.choice(["cm", "From bow", "Station", "cm from bow"])
        if "half" in kinds and self.heads[kinds.index("half")] == "½ girth" and n in PRINTED:
            self.heads[kinds.index("half")] = "Half girth"
        if "hull" in kinds and "full" in kinds and n not in FRENCH:
            a, b = kinds.index("hull"), kinds.index("full")
            if self.heads[a] == "Girth":
                self.heads[a] = "Hull girth"
        self.heads = [self.word(h) for h in self.heads]
        self.spec(want, snap)
        self.want = want

    def at_value(self, s):
        return s * self.step

    def at_text(self, s):
        if self.unit == "cm":
            return self.at_form.format(s * self.step)
        return str(12 * s) if self.at_form == "in" else self.at_form.format(s)

    def number(self, v, mark=True):
        mode = self.mode
        if mode == "ftin":
            ft, inch = divmod(v, 12)
            if ft and 0 < inch < 1:
                return f"{int(ft)}'0{' ' if self.style == 'inline' else ''}{frac(inch, self.style)}\""
            return f"{int(ft)}'{frac(inch, self.style)}\"" if ft else f'{frac(inch, self.style)}"'
        if mode == "dec":
            t = f"{v:.1f}" if self.unit == "in" and self.n % 2 else f"{v:g}"
            return t.replace(".", self.decimal) + (self.inch if mark else "")
        return frac(v, self.style) + (self.inch if mark else "")

    def spec(self, want, snap):
        """Lines about the whole boat: above, below, split or none."""
        r, n, cm, french = self.r, self.n, self.unit == "cm", self.n in FRENCH
        title = "Canoë" if False else r.choice(TITLES)
        self.title = self.word(title) if r.random() < .75 else None
        if french:
            self.title = self.word("Mon canot")
        self.above, self.below, self.length = [], [], None
        if n in NOSPEC:
            return
        L = snap(self.boat.length, 1 if cm else .5)
        ft, inch = divmod(L, 12)
        if cm:
            m = f"{L / 100:.2f}".replace(".", self.decimal) + " m"
            text = r.choice([m, m, f"{L:g} cm", f"{L:g}"])
        else:
            f = frac(inch, self.style)
            both = [f"{int(ft)} ft {f} in", f"{int(ft)}' {f}\"", f"{int(ft)}'{f}\""]
            text = r.choice(both + ([frac(L, self.style) + '"'] if self.mode == "frac" else []))
            if not inch:
                text = r.choice([f"{int(ft)} ft", f"{int(ft)}'0\""])
        label = "Longueur" if french else r.choice(["Length", "Length overall", "LOA", "Overall length", "Boat length"])
        sep = r.choice([" ", ": ", " = "])
        self.length, self.length_text = L, text
        lines = [self.word(label) + sep + self.word(text)]
        want["length_overall"] = L
        ends = r.random() < .9
        if ends:
            hi = {k: snap(v, 1 if cm else .5) for k, v in (("bow_height", self.boat.bow), ("stern_height", self.boat.stern))}
            want |= {}
            want.update(hi)
            tail = " cm" if cm and r.random() < .3 else ""
            a, b = (("Hauteur avant", "arrière") if french else r.choice([("Bow height", "Stern height"), ("Height bow", "Height stern"), ("Bow", "Stern"), ("Bow high", "Stern high")]))
            x, y = ((self.number if self.mode != "ftin" else lambda v, mark=True: frac(v, self.style) + '"')(hi[k]) + tail for k in ("bow_height", "stern_height"))
            if french:
                b = "Hauteur arriere"
            if a == "Bow":
                lines.append(self.word("Heights: bow ") + x + self.word(", stern ") + y)
            elif r.random() < .3:
                lines.append(self.word(a) + sep + x + "   " + self.word(b) + sep + y)
            else:
                lines += [self.word(a) + sep + x, self.word(b) + sep + y]
        if r.random() < .3 and not french:
            c = snap(r.uniform(16, 28), 1 if cm else .5)
            want["carry_point"] = c
            x = frac(c, self.style) + '"' if not cm else f"{c:g}"
            lines.append(self.word(r.choice(["Carry handle from bow", "Carry thwart at"])) + " " + x)
        if r.random() < .22 and not french and self.kinds[:3] == ["at", "hull", "full"] and self.slip is None:
            best = max((v for v in self.values if len(v) > 2 and v[2] is not None and v[1] is not None), key=lambda v: v[2])
            g = lambda v: self.number(v, False)
            lines.append(self.word("Widest at ") + (g(best[0] + 5) if self.mode == "ftin" else self.word(f"{best[0] + 5} in") if not cm else self.word(f"{best[0] + 12} cm")) + ": " + self.word("hull ") + g(best[1]) + ", " + self.word("full ") + g(best[2]))
            want.update({"greatest.at": best[0] + (5 if not cm else 12), "greatest.hull_girth": best[1], "greatest.full_girth": best[2]})
        where = r.choice(["above", "above", "below", "split"])
        if where == "above":
            self.above = lines
        elif where == "below":
            self.below = lines
        else:
            self.above, self.below = lines[:1], lines[1:]
        if r.random() < .25:
            self.below.append(self.word(r.choice(["all in inches", "tape taut, half inches", "measured twice"] if not cm else ["all in cm", "tout en cm" if french else "centimetres", "measured twice"])))


# ---------------------------------------------------------------- by hand
PAPERS = ["legal", "plain_letter", "squared_a4", "notebook", "envelope", "spiral", "plain_a4", "squared_a5", "card", "half", "flyer", "notebook", "plain_letter", "graph", "spiral", "legal"]
RULES = ["none", "head", "grid", "head", "cols", "none", "grid", "cross"]


def hand_page(n):
    r, rng = random.Random(f"tables page {n}"), np.random.default_rng(520000 + 11 * n)
    hands = [m for m in range(1, 61) if m not in PRINTED]
    same = [m for m in hands if (m in CM) == (n in CM)]
    name = (CM_HANDS if n in CM else IN_HANDS)[same.index(n) % (10 if n in CM else 18)]
    if n in FRENCH:
        name = "tilly" if n == 4 else "pelle"
    kind = PAPERS[hands.index(n) % len(PAPERS)]
    felt = STYLE[name][0] in ("felt", "marker", "carpenter")
    if felt:
        kind = ["cardboard", "plain_letter", "flyer"][n % 3]
    kind = {25: "card", 26: "card", 28: "cardboard", 37: "cardboard"}.get(n, kind)
    if n in FRENCH:
        kind = "seyes"
    if n in ACROSS or n in TWO:
        kind = "landscape" if n != 17 else "half_side"
    if kind == "half_side":
        kind = "landscape"
    rgb, size, lay = papers.make(kind, rng)
    w = Writer(name, n)
    if not felt and kind in ("plain_letter", "plain_a4", "flyer"):
        w.height *= r.choice([1, 1.15, 1.3])
    tight = kind in ("card", "envelope", "spiral", "squared_a5", "half")
    if tight:
        w.height *= .86
    if n in EIGHTH:
        w.fraction = "inline"
    if n == 52:
        w.height *= 1.15
        w.fraction = "inline"
    if n in ACROSS:
        w.height = 4.4
        w.pen = dict(PENS["roller"]) if felt else w.pen
    if kind in ("card",):
        w.height = min(w.height, 3.5)
    if lay["pitch"]:
        w.height = min(w.height, lay["pitch"] * .66)
    h = w.height
    pitch = lay["pitch"] or h * r.uniform(1.75, 2.1)
    if w.fraction == "stack" and not lay["pitch"]:
        pitch = max(pitch, 2.0 * h)
    top = lay["top"] or r.uniform(14, 24) + h
    lines = int((lay["bottom"] - top) / pitch)
    c = Content(n, "inline" if w.fraction == "inline" else "uni", w.decimal, w.word, most_rows=99 if n in TWO or n in ACROSS else max(9, lines - 4))
    rows, cols = len(c.cells), len(c.kinds)
    need = len(c.above) + len(c.below) + (1 if c.title else 0) + (2 if c.headed else 0) + rows + 1
    if need > lines and c.title:
        c.title, need = None, need - 1
    if need > lines and not lay["pitch"]:
        pitch = max(h * 1.45, (lay["bottom"] - top) / need)
        lines = int((lay["bottom"] - top) / pitch)
    spare = max(0, lines - need)
    ruled = lay["pitch"] is not None
    w.slope = r.gauss(0, .004) if ruled else r.gauss(0, .012)
    left = lay["left"] + r.uniform(0, 5) + (r.uniform(0, 26) if lay["right"] - lay["left"] > 150 and len([k for k in c.kinds if k != "notes"]) < 4 and n not in ACROSS and n not in TWO else 0)
    lift = r.uniform(.1, .16) * h if ruled else 0
    base = lambda line: top + line * pitch - lift + (r.gauss(0, .02) if ruled else r.gauss(0, .045)) * pitch
    slant_y = lambda x, y: y + (x - left) * w.slope
    box = [9e9, 9e9, 0, 0]

    def put(text, x, y, hh=None):
        end = w.write(text, x, slant_y(x, y), hh)
        box[0], box[1], box[2], box[3] = min(box[0], x), min(box[1], y - 1.3 * h), max(box[2], end), max(box[3], y + .5 * h)
        return end
    line = 0
    if c.title:
        e = put(c.title, left + r.uniform(0, 20), base(0), h * 1.08)
        if r.random() < .5:
            w.rule(left + 2, slant_y(left, base(0)) + .3 * h, e + 1, slant_y(e, base(0)) + .3 * h, .25)
        line += 1 + (1 if spare > 1 and r.random() < .6 else 0)
        spare -= line - 1
    for t in c.above:
        put(t, left, base(line))
        line += 1
    if c.above and spare > 0:
        line, spare = line + 1, spare - 1

    # the table: a grid of texts, turned on its side for some
    grid = [list(row) for row in c.cells]
    wrong = dict(c.wrong)
    heads = list(c.heads) if c.headed else None
    blocks = [list(range(rows))]
    turned = n in ACROSS
    if turned:
        grid = [[grid[i][j] for i in range(rows)] for j in range(cols)]
        wrong = {(j, i): t for (i, j), t in wrong.items()}
        grid = [[heads[j] if heads else None] + row for j, row in enumerate(grid)]
        wrong = {(j, i + 1): t for (j, i), t in wrong.items()}
        heads, blocks = None, [list(range(cols))]
    elif n in TWO:
        half = (rows + 1) // 2
        blocks = [list(range(half)), list(range(half, rows))]
    start, low = line, line
    rule = RULES[(hands.index(n) * 3 + n // 7) % len(RULES)]
    rule = "cols" if n in (7, 22, 23, 46) else rule
    if turned:
        rule = "grid"
    align = r.choice(["left", "right", "right", "centre"])
    over = not (w.fraction == "stack") and pitch > 2.4 * h and r.random() < .6
    free = .1 if r.random() < .6 else .5
    x_block = left
    for block in blocks:
        hh = .92 * h
        two = []
        ncol = len(grid[0])
        for j in range(ncol):
            t = heads[j] if heads else ""
            parts = t.split(" ")
            body = max([w.width(grid[i][j]) for i in block if grid[i][j]] + [h])
            if len(parts) > 1 and w.width(t, hh) > max(body * 1.35, 17):
                k = min(range(1, len(parts)), key=lambda k: abs(len(" ".join(parts[:k])) - len(" ".join(parts[k:]))))
                parts = [" ".join(parts[:k]), " ".join(parts[k:])]
            else:
                parts = [t]
            two.append(parts)
        if heads and max(w.width(t, hh) for p in two for t in p) > 34:
            hh *= .85
        widths = []
        for j in range(ncol):
            body = [0]
            for i in block:
                if grid[i][j]:
                    x = w.width(grid[i][j])
                    if (i, j) in wrong and not over:
                        x += w.width(wrong[i, j]) + .8 * h
                    body.append(x)
            widths.append(max(body + [w.width(t, hh) for t in two[j]] + [h]))
        room = (lay["right"] - left) if len(blocks) == 1 else (lay["right"] - left) / 2 - 6
        gap = (room - sum(widths)) / ncol
        least = 3.6 if turned else 2.2
        if gap < least:
            k = (room - least * ncol) / sum(widths)
            print(f"{n}: tight, {gap:.1f}, letters x {k:.2f}")
            if k < .97:
                w.height *= max(k, .7)
                h, hh = w.height, hh * max(k, .7)
                widths = [x * k for x in widths]
            gap = least
        gap = min(gap, r.uniform(6, 13) if not turned else 5)
        xs = [x_block]
        for x in widths:
            xs.append(xs[-1] + x + gap)
        line = start
        y_top = top + line * pitch - lift - 1.25 * h
        if heads:
            deep = max(len(p) for p in two)
            for j, parts in enumerate(two):
                for k, t in enumerate(parts):
                    if t:
                        x = xs[j] + (gap + widths[j] - w.width(t, hh)) / 2 if align != "left" else xs[j] + gap / 2
                        put(t, x, base(line + k + deep - len(parts)), hh)
            line += deep
        y_head = top + line * pitch - lift - pitch + .42 * h
        if not ruled and heads:
            line += .25
        for i in block:
            y = base(line)
            for j in range(ncol):
                t = grid[i][j]
                if not t:
                    continue
                x0, full, wd = xs[j] + gap / 2, widths[j], w.width(t)
                note = (c.kinds[j] == "notes") if not turned else j == 0
                if (i, j) in wrong:
                    bad = wrong[i, j]
                    wb = w.width(bad)
                    x = x0 if align == "left" else x0 + max(0, full - wd - (0 if over else wb + .8 * h)) * (1 if align == "right" else .5)
                    e = put(bad, x, y)
                    w.cross_out(x, e, slant_y(x, y), h, r.choice([1, 2, 2, 3]))
                    if over:
                        put(t, x + .35 * h, y - 1.16 * h, h * .8)
                    else:
                        put(t, e + .75 * h, y)
                    continue
                x = x0 if align == "left" or note else x0 + (full - wd) * (1 if align == "right" else .5)
                put(t, x + r.gauss(0, .09) * h * (1 if note is False else .5), y)
            line += 1
        y_end = top + (line - 1) * pitch - lift + .5 * h
        x_end = xs[-1]
        R = lambda a, b, d, e: w.rule(a, slant_y(a, b), d, slant_y(d, e), free)
        if rule in ("head", "cross") and heads:
            R(xs[0], y_head, x_end, y_head)
        if rule == "cross":
            R(xs[1], y_top, xs[1], y_end)
        if rule == "cols":
            for x in xs[1:-1]:
                R(x, y_top, x, y_end)
            if heads:
                R(xs[0], y_head, x_end, y_head)
        if rule == "grid":
            for x in xs:
                R(x, y_top, x, y_end)
            R(xs[0], y_top, x_end, y_top)
            first = line - len(block)
            for k in range(len(block) + 1):
                y = top + (first + k - 1) * pitch - lift + .42 * h
                if k or heads:
                    R(xs[0], y, x_end, y)
            box[0] = min(box[0], xs[0])
            box[2] = max(box[2], x_end)
        x_block = x_end + 12
        low = max(low, line)
    line = math.ceil(low) + (1 if spare > 0 else 0)
    for t in c.below:
        put(t, left, base(line))
        line += 1
    if box[2] > size[0] - 2 or box[3] > size[1] - 1:
        print(f"{n}: OVERRUN box {[round(v) for v in box]} of {size}")
    papers.put_ink(rgb, w.ink, w.pen, rng)
    return rgb, size, box, c, dict(writer=name, pen=next(k for k, v in PENS.items() if v == w.pen), paper=kind, rule=rule, digit_mm=round(h, 1), turned=turned, blocks=len(blocks), correction="above" if over and c.wrong else "beside" if c.wrong else None), rng


# ---------------------------------------------------------------- printed
D = "/usr/share/fonts/truetype/"
G = "/usr/share/fonts/opentype/urw-base35/"
FONTS = [(D + "crosextra/Carlito-Regular.ttf", D + "crosextra/Carlito-Bold.ttf"), (D + "liberation2/LiberationSans-Regular.ttf", D + "liberation2/LiberationSans-Bold.ttf"),
         (D + "liberation2/LiberationMono-Regular.ttf", D + "liberation2/LiberationMono-Bold.ttf"), (D + "liberation2/LiberationSerif-Regular.ttf", D + "liberation2/LiberationSerif-Bold.ttf"),
         (D + "crosextra/Caladea-Regular.ttf", D + "crosextra/Caladea-Bold.ttf"), (G + "C059-Roman.otf", G + "C059-Bold.otf"), (D + "dejavu/DejaVuSans.ttf", D + "dejavu/DejaVuSans-Bold.ttf"),
         (G + "URWGothic-Book.otf", G + "URWGothic-Demi.otf"), (D + "dejavu/DejaVuSansMono.ttf", D + "dejavu/DejaVuSansMono-Bold.ttf"), (G + "P052-Roman.otf", G + "P052-Bold.otf")]
LOOKS = ["grid", "headrule", "sheet", "plain", "shaded", "grid", "zebra", "plain", "headrule", "sheet"]
TONER = [dict(toner=.95), dict(toner=.88, wear=.06), dict(toner=.6, banding=.05, wear=.12), dict(toner=.92), dict(toner=.72, banding=.06, wear=.1)]


def printed_page(n):
    k = n // 3 - 1
    r, rng = random.Random(f"tables print {n}"), np.random.default_rng(730000 + 13 * n)
    kind = "landscape" if n in TWO or n in ACROSS else "plain_a4" if n in CM else "plain_letter"
    rgb, size, lay = papers.make(kind, rng)
    font, bold = FONTS[(k * 3) % len(FONTS)]
    look = LOOKS[k % len(LOOKS)]
    pt = r.choice([10, 11, 11, 12, 13]) * (1.2 if r.random() < .2 else 1)
    mm = pt * 25.4 / 72
    c = Content(n, r.choice(["inline", "uni"]), "," if n in CM and r.random() < .5 else ".", lambda t: t)
    grey = Image.new("L", (size[0] * K, size[1] * K), 255)
    d = ImageDraw.Draw(grey)
    f, fb = ImageFont.truetype(font, int(mm * K)), ImageFont.truetype(bold, int(mm * K))
    big = ImageFont.truetype(bold, int(mm * K * 1.35))
    pitch = mm * (r.uniform(1.45, 1.9) if look != "sheet" else 1.5)
    left, y = r.uniform(18, 28), r.uniform(18, 28)
    box = [left, y - 2, 0, 0]

    def put(t, x, y, ft=None, fill=0):
        ft = ft or f
        d.text((x * K, y * K), t, font=ft, fill=fill)
        e = x + ft.getlength(t) / K
        box[2], box[3] = max(box[2], e), max(box[3], y + mm * 1.3)
        return e
    line = lambda a, b, e, g, wd=.15: d.line([a * K, b * K, e * K, g * K], fill=20 if look != "sheet" else 90, width=max(1, int(wd * K)))
    if c.title:
        put(c.title, left, y, big)
        y += mm * 2.4
    for t in c.above:
        put(t, left, y)
        y += pitch
    if c.above:
        y += pitch * .6
    grid = [list(map(lambda t: t or "", row)) for row in c.cells]
    heads = list(c.heads) if c.headed else None
    wrong = dict(c.wrong)
    turned = n in ACROSS
    if turned:
        grid = [[heads[j]] + [row[j] for row in grid] for j in range(len(c.kinds))]
        heads = None
    blocks = [list(range(len(grid)))]
    if n in TWO:
        h = (len(grid) + 1) // 2
        blocks = [list(range(h)), list(range(h, len(grid)))]
    aligns = [("centre" if look in ("shaded", "zebra") else "right") if k2 != "notes" else "left" for k2 in c.kinds] if not turned else ["left"] + ["centre"] * len(grid[0])
    if look == "plain" and not turned:
        aligns = ["left"] * len(c.kinds)
    y0, marks, bottom = y, {}, y
    pad = r.uniform(2, 5) if look != "plain" else r.uniform(6, 10)
    for block in blocks:
        y = y0
        widths = [max([f.getlength(grid[i][j]) for i in block] + [fb.getlength(heads[j]) if heads else 0]) / K + 2 * pad for j in range(len(grid[0]))]
        if look in ("grid", "sheet") and not turned:
            widths = [max(x, 20) for x in widths]
        room = (size[0] - left - 8) / len(blocks) - (8 if len(blocks) > 1 else 0)
        if sum(widths) > room:
            s = (room - sum(x - 2 * pad for x in widths)) / (2 * pad * len(widths))
            widths = [x - 2 * pad * (1 - s) for x in widths]
            print(f"{n}: printed tight {s:.2f}")
        xs = [left]
        for x in widths:
            xs.append(xs[-1] + x)
        small = ImageFont.truetype(D + "crosextra/Carlito-Regular.ttf", int(mm * K * .85))
        gutter = 9
        if look == "sheet":  # a spreadsheet printed with its letters and numbers
            for j in range(len(widths)):
                d.rectangle([xs[j] * K, y * K, xs[j + 1] * K, (y + pitch) * K], fill=228)
                d.text(((xs[j] + xs[j + 1]) / 2 * K, y * K), chr(65 + j), font=small, fill=40)
            y += pitch
        t0 = y
        def row(texts, y, ft, index):
            for j, t in enumerate(texts):
                tw = ft.getlength(t) / K
                p = min(pad, (widths[j] - tw) / 2)
                x = xs[j] + p if aligns[j] == "left" else xs[j + 1] - p - tw if aligns[j] == "right" else (xs[j] + xs[j + 1] - tw) / 2
                put(t, x, y + (pitch - mm) / 2 - mm * .12, ft)
                if index is not None:
                    marks[index, j] = (x, y, tw)
        if heads:
            if look in ("shaded", "zebra"):
                d.rectangle([xs[0] * K, y * K, xs[-1] * K, (y + pitch) * K], fill=200)
            row(heads, y, fb, None)
            y += pitch
        for q, i in enumerate(block):
            if look == "zebra" and q % 2:
                d.rectangle([xs[0] * K, y * K, xs[-1] * K, (y + pitch) * K], fill=226)
            texts = list(grid[i])
            for (a, b), t in wrong.items():
                if not turned and a == i:
                    texts[b] = t
            row(texts, y, f, i)
            y += pitch
        count = len(block) + (1 if heads else 0)
        if look in ("grid", "sheet", "shaded") or turned:
            for q in range(count + 1):
                line(xs[0], t0 + q * pitch, xs[-1], t0 + q * pitch)
            for x in xs:
                line(x, t0, x, t0 + count * pitch)
        if look == "sheet":
            for q in range(count):
                d.rectangle([(xs[0] - gutter) * K, (t0 + q * pitch) * K, xs[0] * K - 2, (t0 + (q + 1) * pitch) * K - 2], fill=228)
                d.text(((xs[0] - gutter + 2) * K, (t0 + q * pitch) * K), str(q + 1 + (0 if not c.above else len(c.above) + 2)), font=small, fill=40)
            box[0] = left - gutter
        if look in ("headrule",):
            if heads:
                line(xs[0], t0 + pitch, xs[-1], t0 + pitch, .3)
            line(xs[0], t0, xs[-1], t0, .3)
            line(xs[0], t0 + count * pitch, xs[-1], t0 + count * pitch, .3)
        box[2] = max(box[2], xs[-1])
        left = xs[-1] + 12
        bottom = max(bottom, y)
    left, y = box[0] if look != "sheet" else box[0] + 9, bottom + pitch * .7
    for t in c.below:
        put(t, left, y)
        y += pitch
    if r.random() < .3:
        d.text((size[0] * K / 2, (size[1] - 12) * K), "Page 1", font=ImageFont.truetype(font, 30), fill=60)
    papers.put_print(rgb, grey, rng, TONER[k % len(TONER)])
    pen = None
    if wrong:  # mended with a pen
        pen = ["abel", "lotte", "brita"][k % 3]
        w = Writer(pen, n, pen="blue" if pen != "lotte" else "red", height=min(4.6, mm * 1.05))
        for (i, j), t in wrong.items():
            x, yy, tw = marks[i, j]
            yb = yy + pitch / 2 + mm * .38
            w.cross_out(x, x + tw, yb, mm * .75, 2)
            last = j == len(c.kinds) - 1
            right = {"x": x + tw + 1.5}["x"]
            need = w.width(c.cells[i][j]) + 2
            room = (marks[i, j + 1][0] if not last else size[0] - 6) - right
            if room >= need + 1.5:
                e = w.write(c.cells[i][j], right, yb)
            elif marks[i, j][0] - (marks[i, j - 1][0] + marks[i, j - 1][2]) > need + 3:
                e = w.write(c.cells[i][j], x - need - .8, yb)
            else:
                print(n, "no room for the pen", room, need)
                e = w.write(c.cells[i][j], right, yb)
            box[2] = max(box[2], e)
        papers.put_ink(rgb, w.ink, w.pen, rng)
    if box[2] > size[0] - 2 or box[3] > size[1] - 2:
        print(f"{n}: OVERRUN box {box} of {size}")
    return rgb, size, box, c, dict(font=pathlib.Path(font).stem, points=round(pt, 1), paper=kind, look=look, turned=turned, blocks=len(blocks), pen=pen), rng


# ---------------------------------------------------------------- photograph
def settings(n, size, box, how):
    r = random.Random(f"tables photo {n}")
    u, name = r.uniform, grade(n)
    g = {"flat": dict(tilt=u(.5, 4), fill=u(.88, .95), bend=u(.15, .5), blur=u(.45, .75), far=0, shake=0, noise=u(.015, .026), exposure=u(.92, 1.06), uneven=u(.05, .2), vignette=u(.05, .2), shade=.4, sharpen=u(.5, 1.1), contrast=u(.4, 1.1)),
         "ordinary": dict(tilt=u(4.5, 12), fill=u(.86, .94), bend=u(.4, .9), blur=u(.7, 1.05), far=0, shake=r.choice([0, 0, 1.0, 1.5]), noise=u(.02, .036), exposure=u(.62, .9), uneven=u(.25, .5), vignette=u(.15, .4), shade=.9, sharpen=u(.5, 1.2), contrast=u(.3, 1)),
         "steep": dict(tilt=u(15, 22), fill=u(.87, .94), bend=u(.6, 1.2), blur=u(.8, 1.15), far=u(.7, 1.2), shake=r.choice([0, 1.0, 1.4]), noise=u(.03, .05), exposure=u(.32, .52), uneven=u(.3, .55), vignette=u(.25, .5), shade=.9, sharpen=u(.6, 1.3), contrast=u(.2, .8))}[name]
    g |= dict(local=u(.1, .5), chroma=u(1.2, 3), denoise=r.choice(["guided", "guided", "soft", "none"]), table=TABLES[n * 5 % len(TABLES)], folds=[])
    if how["paper"] in ("plain_a4", "plain_letter", "flyer", "legal") and r.random() < .3:
        g["folds"] = [("y", size[1] * t + r.gauss(0, 3), u(.8, 2.2)) for t in (1 / 3, 2 / 3)] if r.random() < .6 else [("x", size[0] / 2 + r.gauss(0, 2), u(.8, 2.2))]
    g["shadows"] = r.choice([[], [], ["edge"], ["phone"]]) if name == "flat" else [("edge", "hand", "bars", "phone")[n % 4]]
    if name != "flat" and r.random() < .4:
        g["cast"] = (u(1.08, 1.2), u(.96, 1), u(.64, .8))
    else:
        warm = r.gauss(.01, .03)
        g["cast"] = (1 + warm, 1 + r.gauss(.005, .012), 1 - warm * 1.3)
    close = r.random() < (.6 if how.get('look') else .42)
    g["close"] = close
    m = u(5, 11)
    g["frame"] = (max(0, box[0] - m), max(0, box[1] - m), min(size[0], box[2] + m), min(size[1], box[3] + m)) if close else (0, 0, *size)
    g["sideways"] = g["frame"][2] - g["frame"][0] > g["frame"][3] - g["frame"][1]
    span = max(g["frame"][2] - g["frame"][0], g["frame"][3] - g["frame"][1])
    per = {"flat": u(9.2, 12), "ordinary": u(9, 11.5), "steep": u(9.5, 12)}[name]
    small = how.get("digit_mm") or how.get("points", 11) * .25
    if small < 3.4:
        per *= 1.12
    long = int(min(3000, max(1600, span / .92 * per)))
    g["pixels"] = (long // 8 * 8, int(long * r.choice([.75, .75, .75, .5625 if span < 1 else .75])) // 8 * 8)
    g["quality"] = r.choice([75, 80, 84, 88, 92])
    g["hard"] = {"edge": (.0045, .008), "bars": (.0045, .009)}
    return g


def tidy(v):
    return None if v is None else int(v) if v == int(v) else v


def picture(n):
    rgb, size, box, c, how, rng = printed_page(n) if n in PRINTED else hand_page(n)
    g = settings(n, size, box, how)
    img = camera.shoot(rgb, size, rng, g)
    kinds = c.kinds
    notes = []
    if c.slip:
        notes.append(c.slip)
    if c.wrong:
        (i, j), t = next(iter(c.wrong.items()))
        notes.append(f"row {i + 1}, {NAMES[kinds[j]]}: {t} crossed out, {c.cells[i][j]} written {how.get('correction') or 'by pen'}")
    if c.doubt:
        notes.append("ditto marks stand in " + ", ".join(c.doubt) + " (doubt: no number is written there)")
    if how["turned"]:
        notes.append("on the page the table lies on its side: a station is a column")
    if how["blocks"] > 1:
        notes.append("two blocks side by side, the second goes on where the first ends")
    if not c.headed:
        notes.append("no headings")
    if n in ROW0:
        notes.append("a row for the bow itself (0), with nothing or dashes")
    if "half" in kinds:
        notes.append("half girth is sheer to keel: survey value hull_girth = 2 x half")
    if "full" not in kinds:
        notes.append("full girth is not written: survey value full_girth = hull girth + breadth across the top")
    about = dict(kind="printed" if n in PRINTED else "hand", grade=grade(n), unit=c.unit, columns=[NAMES[k] for k in kinds],
                 rows=c.cells, values=[[tidy(v) for v in row] for row in c.values], length=tidy(c.length), notes="; ".join(notes),
                 meaning=[MEAN[k] for k in kinds], headings=c.heads if c.headed else None, lines_above=([c.title] if c.title else []) + c.above, lines_below=c.below,
                 made=how | dict(tilt=round(g["tilt"], 1), table=g["table"], shadows=g["shadows"], close=g["close"], pixels=g["pixels"], quality=g["quality"]))
    order = ["length_overall", "bow_height", "stern_height", "carry_point", "greatest.at", "greatest.hull_girth", "greatest.full_girth"]
    values = {k: c.want[k] for k in order if k in c.want} | {k: v for k, v in c.want.items() if k not in order}
    want = dict(unit=c.unit, values={k: tidy(v) for k, v in values.items()}, doubt=c.doubt)
    return img, about, want, g


def dump(about):
    body = json.dumps(about, indent=1, ensure_ascii=False)
    return re.sub(r"\[\s*([^\[\]{}]*?)\s*\]", lambda m: "[" + re.sub(r",\s*\n\s*", ", ", m[1]) + "]", body)


def main(names):
    for n in range(1, 61):
        where = HERE / "photos"
        where.mkdir(exist_ok=True)
        path = where / f"{n:02d}.jpg"
        if names and n not in names or not names and path.exists():
            continue
        t = time.process_time()
        img, about, want, g = picture(n)
        exif = Image.Exif()
        if n in (17, 38):
            img, exif[0x0112] = img.rotate(90, expand=True), 6
        img.save(path, quality=g["quality"], exif=exif)
        (where / f"{n:02d}.want.json").write_text(dump(about) + "\n")
        (where / f"{n:02d}.jpg.want.json").write_text(json.dumps(want, indent=1, ensure_ascii=False) + "\n")
        m = about["made"]
        print(f"{n:02d} {about['kind']} {about['grade']} {c_name(m)} {m['paper']} {about['unit']} {len(about['rows'])} rows {len(want['values'])} values {g['pixels']} q{g['quality']} {path.stat().st_size / 1e6:.2f} MB {time.process_time() - t:.1f} s", flush=True)


def c_name(m):
    return f"{m.get('writer') or m.get('font')} {m.get('rule') or m.get('look')}"


if __name__ == "__main__":
    main([int(a) for a in sys.argv[1:]])
