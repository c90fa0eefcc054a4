"""A writer at work: strokes with pressure, sloppiness and trembling, in millimetres of the printed page."""
import math
import random

import numpy as np
from scipy import ndimage
from scipy.interpolate import CubicSpline

from writers import DIGITS, PENS, WRITERS

OTHER = {"/": "50,0 8,100", ".": "20,95 22,98", "-": "4,54 30,52 58,50"}


def parse(text):
    """Strokes of (x, y, corner) from their written form."""
    strokes = []
    for stroke in text.split("/"):
        points = []
        for word in stroke.split():
            x, y = word.rstrip("*").split(",")
            points.append((float(x) / 100, float(y) / 100, word.endswith("*")))
        strokes.append(points)
    return strokes


def curve(points):
    """Points along a stroke, smooth between its corners; a point is (x, y) or (x, y, corner)."""
    parts, part = [], []
    for p in points:
        part.append(p[:2])
        if len(p) > 2 and p[2]:
            parts.append(part)
            part = [p[:2]]
    parts.append(part)
    out = []
    for p in parts:
        p = np.array(p, float)
        if len(p) < 2:
            continue
        s = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T) ** .55)]
        t = np.linspace(0, s[-1], max(14, int(80 * np.hypot(*np.diff(p, axis=0).T).sum())))
        out.append(CubicSpline(s, p, bc_type="natural")(t) if len(p) > 2 else p[0] + (t / s[-1])[:, None] * (p[1] - p[0]))
    return np.concatenate(out)


class Writer:
    """A hand with its pen; ink collects (points in mm, widths in mm, alphas)."""

    def __init__(self, name, seed):
        self.name, self.r = name, random.Random(f"second {name} {seed}")
        self.rng = np.random.default_rng(self.r.randrange(2 ** 32))
        pen, self.height, self.wide, self.slant, self.slop, self.tremble, self.place, self.spare, self.mark = WRITERS[name]
        self.pen = dict(PENS[pen])
        self.shapes = {d: parse(t) for d, t in zip("0123456789", DIGITS[name].splitlines())}
        self.shapes |= {c: parse(t) for c, t in OTHER.items()}
        self.height *= self.r.uniform(.95, 1.05)
        self.slant += self.r.gauss(0, .03)
        self.ink, self.drift = [], 0.0

    def stroke(self, points, heavy=1.0):
        """Put a stroke down: it trembles, presses more and less, and the ball may skip."""
        p = np.asarray(points, float)
        length = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
        t = length / max(length[-1], .1)
        if self.tremble and length[-1] > 1:
            fine = np.arange(0, length[-1] + .1, .1)
            off = ndimage.gaussian_filter1d(self.rng.normal(size=(2, len(fine))), 3.2, axis=1) * 3.4 * self.tremble
            p = p + np.c_[np.interp(length, fine, off[0]), np.interp(length, fine, off[1])]
        press = 1 + .1 * np.sin(t * self.r.uniform(2, 8) + self.r.uniform(0, 6)) + .05 * self.r.gauss(0, 1)
        end = self.pen["taper"]
        press *= np.clip(end + (1 - end) * np.minimum(t / .12, (1 - t) / .22), end, 1) * heavy
        alpha = np.clip(self.pen["alpha"] * (.86 + .14 * press), 0, 1)
        if len(p) > 30 and self.r.random() < self.pen["skip"] * 4:
            k = self.r.randrange(5, len(p) - 10)
            alpha[k:k + self.r.randrange(3, 8)] *= .4
        self.ink.append((p, self.pen["width"] * np.clip(press, .5, 1.35), alpha))

    def glyph(self, char, x, y, height, heavy=1.0):
        """One character, its middle at x and y."""
        r = self.r
        wide, high = self.wide * height * r.gauss(1, .05 + self.slop), height * r.gauss(1, .03 + self.slop)
        slant, turn, shear = self.slant + r.gauss(0, .025 + self.slop), r.gauss(0, .02 + self.slop), r.gauss(0, .02 + self.slop / 2)
        shaky = lambda: max(-1.7, min(1.7, r.gauss(0, 1))) * self.slop
        for points in self.shapes[char]:
            p = curve([(q[0] + shaky(), q[1] + shaky(), q[2]) for q in points]) - (.31, .5)
            p = np.c_[p[:, 0] * wide - slant * p[:, 1] * high, p[:, 1] * high + shear * p[:, 0] * wide]
            c, s = math.cos(turn), math.sin(turn)
            self.stroke(p @ np.array([[c, s], [-s, c]]) + (x, y), heavy)

    def in_boxes(self, digits, boxes):
        """Digits into boxes: to the right, from the left, or with the spare boxes filled."""
        spare = len(boxes) - len(digits)
        if self.spare == "left" and spare > 0:
            boxes = boxes[:len(digits)]
        elif self.spare in ("0", "-"):
            digits = self.spare * spare + digits
        self.drift = .6 * self.drift + self.r.gauss(0, .15 + 6 * self.slop)
        big = self.height > 8
        loose = .5 if big else .4 + 9 * self.slop
        for char, (x0, y0, x1, y1) in zip(digits, boxes[-len(digits):]):
            x = (x0 + x1) / 2 + self.place[0] + self.r.uniform(-.6, .6) * loose
            y = (y0 + y1) / 2 + self.place[1] + self.drift * .6 + self.r.uniform(-.6, .6) * loose
            self.glyph(char, x, y, self.height)

    def line(self, text, x, y, height, step=.76):
        """Characters freely beside each other, from x on, middle at y."""
        for k, char in enumerate(text):
            if char != " ":
                self.glyph(char, x + height * (step * k + .3), y + self.r.gauss(0, .05) * height, height)

    def tick(self, box):
        """A mark in a small box: tick, cross, stroke or a blackened middle."""
        x0, y0, x1, y1 = box
        g = lambda: self.r.gauss(0, .3 + 6 * self.slop)
        m, n, w = (x0 + x1) / 2, (y0 + y1) / 2, x1 - x0
        if self.mark == "tick":
            self.stroke(curve([(x0 + .1 * w + g(), n - .05 * w + g() / 2), (x0 + .4 * w + g() / 2, y1 - .12 * w, True), (x1 + .1 * w + g(), y0 - .1 * w + g())]))
        elif self.mark == "cross":
            self.stroke(curve([(x0 + .12 * w + g(), y0 + .15 * w + g()), (m + g() / 2, n + g() / 2), (x1 - .1 * w + g(), y1 - .08 * w + g())]))
            self.stroke(curve([(x1 - .06 * w + g(), y0 + .08 * w + g()), (m + g() / 2, n + g() / 2), (x0 + .15 * w + g(), y1 - .12 * w + g())]))
        elif self.mark == "stroke":
            self.stroke(curve([(m + .4 * w + g() / 2, y0 + .02 * w + g() / 2), (m - .36 * w + g() / 2, y1 - .06 * w + g() / 2)]))
        else:
            turns = [(m + .26 * w * (1 - k / 14) * math.cos(k * 1.4) + g() / 3, n + .26 * w * (1 - k / 14) * math.sin(k * 1.4) + g() / 3) for k in range(14)]
            self.stroke(curve(turns), 1.1)

    def cross_out(self, boxes, times=2):
        """Lines through a number."""
        x0, y0, x1, y1 = boxes[0][0], boxes[0][1], boxes[-1][2], boxes[0][3]
        for k in range(times):
            y = y0 + (y1 - y0) * (k + 1) / (times + 1)
            lean = self.r.gauss(.7, .5)
            self.stroke(curve([(x0 + self.r.uniform(-1.2, .4), y + lean), ((x0 + x1) / 2, y + self.r.gauss(0, .4)), (x1 + self.r.uniform(-.2, 1), y - lean)]), 1.1)

    def long_stroke(self, x0, y0, x1, y1):
        """A stroke through boxes that stay empty."""
        g = lambda: self.r.gauss(0, .5)
        self.stroke(curve([(x0 + g(), y0 + g()), ((x0 + x1) / 2, (y0 + y1) / 2 + g()), (x1 + g(), y1 + g())]))

    def scribble(self, boxes):
        """A number blackened until nobody can read it."""
        x0, y0, x1, y1 = boxes[0][0], boxes[0][1], boxes[-1][2], boxes[0][3]
        for pace in (.5, .8):
            n = int((x1 - x0) / pace)
            self.stroke(curve([(x0 + (x1 - x0) * k / n + self.r.gauss(0, .4), (y0 + 1 if k % 2 else y1 - 1) + self.r.uniform(-.9, .9)) for k in range(n + 1)]), 1.2)
