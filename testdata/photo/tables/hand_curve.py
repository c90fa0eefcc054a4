"""Strokes from their written form, and smooth curves through their points (after testdata/photo/writers/hand.py)."""
import numpy as np
from scipy.interpolate import CubicSpline


def parse(text):
    strokes = []
    for stroke in text.split(" / "):
        points = []
        for word in stroke.split():
            x, y = word.rstrip("*").split(",")
            points.append((float(x) / 100, float(y) / 100, word.endswith("*")))
        strokes.append(points)
    return strokes


def curve(points):
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
        s = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T) ** .55 + 1e-6)]
        t = np.linspace(0, s[-1], 40)
        out.append(CubicSpline(s, p, bc_type="natural")(t) if len(p) > 2 else p[0] + (t / s[-1])[:, None] * (p[1] - p[0]))
    return np.concatenate(out)
