"""A writer who writes freely: numbers, fractions, words, on a line of the paper (millimetres)."""
import math
import random
import re

import numpy as np
from scipy import ndimage

from hand_curve import curve, parse
from letters import CAPS, LOW, ROUND, SIGNS
from writers2 import ALL, PENS, STYLE

FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
BACK = {v: k for k, v in FRACTIONS.items()}


class Writer:
    def __init__(self, name, seed, pen=None, height=None):
        self.name, self.r = name, random.Random(f"tables {name} {seed}")
        self.rng = np.random.default_rng(self.r.randrange(2 ** 32))
        p, self.height, self.wide, self.slant, self.slop, self.tremble, self.step, self.fraction, self.decimal, style, self.case = STYLE[name]
        self.pen = dict(PENS[pen or p])
        self.height = (height or self.height) * self.r.uniform(.95, 1.05)
        self.slant += self.r.gauss(0, .025)
        self.style = style
        self.shapes = {}
        for d, t in zip("0123456789", ALL[name].splitlines()):  # each digit as wide as its ink
            shape = parse(t)
            xs = [q[0] for st in shape for q in st]
            self.shapes[d] = ([[(a - min(xs), b, e) for a, b, e in st] for st in shape], 100 * (max(xs) - min(xs)))
        for table in (CAPS, ROUND if style else LOW, SIGNS):
            for c, t in table.items():
                s = parse(t)
                self.shapes[c] = (s, max(4, 100 * max(q[0] for st in s for q in st)))
        self.ink, self.slope, self.wander = [], 0.0, 0.0

    def stroke(self, points, heavy=1.0):
        p = np.asarray(points, float)
        length = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
        t = length / max(length[-1], .1)
        if self.tremble and length[-1] > 1:
            fine = np.arange(0, length[-1] + .1, .1)
            off = ndimage.gaussian_filter1d(self.rng.normal(size=(2, len(fine))), 3.2, axis=1) * 3.0 * self.tremble
            p = p + np.c_[np.interp(length, fine, off[0]), np.interp(length, fine, off[1])]
        press = 1 + .1 * np.sin(t * self.r.uniform(2, 8) + self.r.uniform(0, 6)) + .05 * self.r.gauss(0, 1)
        end = self.pen["taper"]
        press *= np.clip(end + (1 - end) * np.minimum(t / .12, (1 - t) / .22), end, 1) * heavy
        alpha = np.clip(self.pen["alpha"] * (.86 + .14 * press), 0, 1)
        if len(p) > 30 and self.r.random() < self.pen["skip"] * 2:
            k = self.r.randrange(5, len(p) - 10)
            alpha[k:k + self.r.randrange(3, 7)] *= .5
        self.ink.append((p, self.pen["width"] * np.clip(press, .5, 1.35), alpha))

    def glyph(self, char, x, y, h):
        """A character with its left end at x, standing on y."""
        strokes, _ = self.shapes[char]
        r, letter = self.r, char.isalpha()
        slop = self.slop * (.8 if letter else 1)
        wide, high = self.wide * h * r.gauss(1, .03 + slop), h * r.gauss(1, .02 + slop)
        slant, turn = self.slant + r.gauss(0, .02 + slop), r.gauss(0, .012 + slop)
        shaky = lambda: max(-1.6, min(1.6, r.gauss(0, 1))) * slop * .9
        for points in strokes:
            p = curve([(q[0] + shaky(), q[1] + shaky(), q[2]) for q in points]) - (.3, 1)
            p = np.c_[p[:, 0] * wide - slant * p[:, 1] * high, p[:, 1] * high]
            c, s = math.cos(turn), math.sin(turn)
            self.stroke(p @ np.array([[c, s], [-s, c]]) + (x + .3 * wide, y), 1 if h > .7 * self.height else .85)

    def advance(self, c, h):
        if c == " ":
            return .42 * h
        if c.isdigit():
            return h * self.wide * (self.shapes[c][1] / 100 + max(self.step - .56, .03))
        gap = (.03 if self.style and c.islower() else .21 if c.isupper() else .15) if c.isalpha() else .2
        return h * self.wide * (self.shapes[c][1] / 100 + gap)

    def tokens(self, text):
        return [t for t in re.findall(r"\s[1-7]/[248]|[½¼¾⅛⅜⅝⅞]|.", text)]

    def width(self, text, h=None):
        return self.write(text, 0, 0, h, dry=True)

    def word(self, text):
        return text.upper() if self.case == "caps" else text

    def write(self, text, x, y, h=None, dry=False):
        """Text from x on, standing on y; returns its end."""
        h = h or self.height
        put = (lambda *a: None) if dry else self.glyph
        x0 = x
        before = ""
        for t in self.tokens(text):
            if before.isdigit() and (t.isdigit() and "1" in (before, t) and self.step < .82 or t in FRACTIONS):
                x += .17 * h * self.wide if t != before else .1 * h
            if before.isdigit() and t in ("'", '"', "”"):
                x += .14 * h
            before = t[-1]
            yy = y + (x - x0) * self.slope + (0 if dry else self.r.gauss(0, .03 + self.slop * .5) * h)
            if t in FRACTIONS:
                a, b = FRACTIONS[t].split("/")
                s = .56 * h
                if self.fraction == "stack":
                    x += .12 * h
                    put(a, x + .1 * s, yy - .62 * h, s * .95)
                    put(b, x + .08 * s, yy + .16 * h, s * .95)
                    if not dry:
                        self.stroke(curve([(x - .06 * h, yy - .47 * h + self.r.gauss(0, .03) * h), (x + .52 * h, yy - .5 * h)]))
                    x += .62 * h
                else:
                    x += .06 * h
                    put(a, x, yy - .46 * h, s)
                    x += .3 * h * (.8 if a == "1" else 1.1)
                    put("/", x, yy + .04 * h, h * .85)
                    x += .26 * h
                    put(b, x, yy + .1 * h, s)
                    x += .48 * h
            elif re.fullmatch(r"\s[1-7]/[248]", t):
                x += .38 * h
                for c in t[1:]:
                    put(c, x, yy, h * .84)
                    x += self.advance(c, h * .84) + (.02 * h if c == "/" else .03 * h)
            else:
                c = t if t in self.shapes or t == " " else "-"
                if c == "x" or c != " ":
                    put(c, x, yy, h)
                x += self.advance(c, h)
        return x - .1 * h

    def cross_out(self, x0, x1, y, h, times):
        for k in range(times):
            yy = y - h * (k + 1) / (times + 1)
            lean = self.r.gauss(.12, .1) * h
            self.stroke(curve([(x0 - self.r.uniform(0, .3) * h, yy + lean), ((x0 + x1) / 2, yy + self.r.gauss(0, .07) * h), (x1 + self.r.uniform(0, .3) * h, yy - lean)]), 1.05)

    def rule(self, x0, y0, x1, y1, free=.15):
        """A line drawn along a ruler, or without one."""
        n = 5
        t = np.linspace(0, 1, n)
        ends = [self.r.gauss(0, .4 + free) for _ in range(4)]
        dx, dy = x1 - x0, y1 - y0
        d = math.hypot(dx, dy)
        p = [(x0 + dx * a, y0 + dy * a) for a in t]
        bow = [self.r.gauss(0, free) for _ in t]
        p = [(q[0] - dy / d * b + dx / d * (ends[0] if i == 0 else ends[1] if i == n - 1 else 0), q[1] + dx / d * b + dy / d * (ends[2] if i == 0 else ends[3] if i == n - 1 else 0)) for i, (q, b) in enumerate(zip(p, bow))]
        self.stroke(curve(p), .85)
